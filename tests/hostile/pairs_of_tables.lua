-- expect: script 1 have no order
for key in pairs({ [{}] = 1, [{}] = 2 }) do return key end
