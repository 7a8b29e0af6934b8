#!/bin/sh
# run.sh TEST... - run cmocka test programs; quiet about what passes, whole about what fails.
# The last line counts the single tests: "N passed, N failed".
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
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
