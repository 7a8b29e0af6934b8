#!/bin/sh
# run.sh TEST... - run cmocka test programs; quiet about what passes, whole about what fails.
# LANGUAGE names the runner of the language tests. The last line counts the single tests: "N passed, N failed".
passed=0 failed=0
log=${BUILD:-build}/tests/log
for test in "$@"; do
  "$test" >"$log" 2>&1
  status=$?
  ok=$(grep -c '^\[       OK \]' "$log")
  bad=$(grep -c '^\[  FAILED  \] [a-z0-9_]*$' "$log")
  passed=$((passed + ok))
  if [ $status -ne 0 ]; then
    [ "$bad" -eq 0 ] && bad=1
    failed=$((failed + bad))
    echo "-- $test"
    cat "$log"
  fi
done
if [ -n "$LANGUAGE" ]; then
  lua5.4 "$LANGUAGE" "${BUILD:-build}" >"$log" 2>&1
  passed=$((passed + $(sed -n 's/^language: \([0-9]*\) passed.*/\1/p' "$log" | grep . || echo 0)))
  bad=$(sed -n 's/^language: .*, \([0-9]*\) failed$/\1/p' "$log" | grep . || echo 1)
  failed=$((failed + bad))
  [ "$bad" -eq 0 ] || cat "$log"
fi
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
