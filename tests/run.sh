#!/bin/sh
# run.sh TEST... - run test programs (cmocka) and test scripts (NAME.lua, run with the build folder), JOBS at a time (as
# many as there are cores); quiet about what passes, whole about what fails. The last line counts the single tests:
# "N passed, N failed".
build=${BUILD:-build}
logs=$build/tests/logs
rm -rf "$logs"
mkdir -p "$logs"

# A log is the name of its test, what it printed, and its exit status; without one the test has failed.
number=100
for test in "$@"; do
  number=$((number + 1))
  echo "$test" >"$logs/$number"
  echo "$logs/$number $test"
done | BUILD=$build xargs -P "${JOBS:-$(nproc)}" -n 2 sh -c '
  log=$1 test=$2
  case $test in
  *.lua) lua5.4 "$test" "$BUILD" ;;
  *) "$test" ;;
  esac >>"$log" 2>&1 </dev/null
  printf "\n%d\n" $? >>"$log"' sh

awk '
  function finish_log() {
    if (!bad && (status != "0" || !ok)) bad = 1
    if (bad) printf "-- %s\n%s", name, text
    passed += ok
    failed += bad
  }
  FNR == 1 { if (NR > 1) finish_log(); name = $0; text = status = ""; ok = bad = 0; next }
  { if (FNR > 2) text = text status "\n"; status = $0 }
  /^\[       OK \]/ { ok++ }
  /^ *[0-9]+ FAILED TEST\(S\)$/ { bad = $1 }
  /^[a-z]*: [0-9]* passed, [0-9]* failed$/ { ok = $2; bad = $4 }
  END { finish_log(); printf "%d passed, %d failed\n", passed, failed; exit failed > 0 }
' "$logs"/*
