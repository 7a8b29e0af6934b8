return "x" .. f `open`
<<<<<<< ours
a = 1
=======
a = 2
>>>>>>> theirs
x = “q” + 5 ≤ 3
