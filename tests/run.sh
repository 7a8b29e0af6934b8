#!/bin/sh
# run.sh TEST... - run test programs (cmocka) and test scripts (NAME.lua, run with the build folder); quiet about what
# passes, whole about what fails. The last line counts the single tests: "N passed, N failed".
passed=0 failed=0
build=${BUILD:-build}
log=$build/tests/log
for test in "$@"; do
  case $test in
  *.lua)
    lua5.4 "$test" "$build" >"$log" 2>&1
    status=$?
    ok=$(sed -n 's/^[a-z]*: \([0-9]*\) passed, [0-9]* failed$/\1/p' "$log")
    bad=$(sed -n 's/^[a-z]*: [0-9]* passed, \([0-9]*\) failed$/\1/p' "$log")
    ;;
  *)
    "$test" >"$log" 2>&1
    status=$?
    ok=$(grep -c '^\[       OK \]' "$log")
    bad=$(grep -c '^\[  FAILED  \] [a-z0-9_]*$' "$log")
    ;;
  esac
  passed=$((passed + ${ok:-0}))
  if [ $status -ne 0 ] || [ -z "$ok" ]; then
    [ "${bad:-0}" -eq 0 ] && bad=1
    failed=$((failed + bad))
    echo "-- $test"
    cat "$log"
  fi
done
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
