#!/bin/sh
# lint.sh BUILD FLAG... - clang-tidy, cppcheck and luacheck where they are installed; what is missing is said.
build=$1
shift
status=0
have() { command -v "$1" >/dev/null || { echo "lint: no $1 here, left out"; return 1; }; }

# POSIX asks that NULL is a pointer, so it may end a list of arguments.
if have cppcheck; then
  cppcheck --quiet --std=c11 --enable=warning,portability,performance --inline-suppr --error-exitcode=1 \
    --suppress=missingIncludeSystem --suppress=varFuncNullUB --suppress=normalCheckLevelMaxBranches -Iinterp interp || status=1
fi
# Left out of bugprone: what warns of the size of a pointer where an array of pointers is meant, of rows written by macros,
# and of casts that say what happens anyway; of the analyzer: a va_list handed on.
if have clang-tidy; then
  clang-tidy --quiet --warnings-as-errors='*' \
    --checks='-*,clang-analyzer-*,-clang-analyzer-security.insecureAPI.*,bugprone-*,-bugprone-easily-swappable-parameters,-bugprone-narrowing-conversions,-bugprone-implicit-widening-of-multiplication-result,-bugprone-reserved-identifier,-bugprone-branch-clone,-bugprone-sizeof-expression,-bugprone-macro-parentheses,-bugprone-misplaced-widening-cast,-bugprone-signed-char-misuse,-clang-analyzer-valist.Uninitialized' \
    $(find interp -name '*.c') -- -std=c11 "$@" 2>/dev/null || status=1
fi
if have luacheck; then
  luacheck --quiet --std lua54 --max-line-length 130 stdlib || status=1
fi
exit $status
