-- expect: script 1 xxxxxxxx
-- The finding keeps 4 KiB of it.
error(("x"):rep(1000000))
