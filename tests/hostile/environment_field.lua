-- expect: global 1
_ENV.recipe = "poisoned"
