-- expect: form 1
hone({})
