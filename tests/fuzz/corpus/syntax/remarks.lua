// remark
// remark
x = { # a b
 # c d
} // e
) ) }
else else