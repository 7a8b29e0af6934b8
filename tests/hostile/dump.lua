-- expect: script 1
return string.dump(function() end)
