-- expect: document 1
return function() while true do end end
