-- expect: name 1
return os
