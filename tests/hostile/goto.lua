-- expect: budget 4
::again::
goto again
