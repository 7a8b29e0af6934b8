-- expect: name 1
-- There is no xpcall, whose handler could fail or loop.
xpcall(error, function() while true do end end)
