-- expect: name 1
return coroutine.wrap(function() end)
