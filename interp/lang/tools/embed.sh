#!/bin/sh
# embed.sh FOLDER FILE... - a build tool: C that holds the files of the folder as `stdlib_modules` (lang/stdlib.h).
folder=$1
shift

echo '/* Generated from stdlib/: do not edit. */'
echo '#include "lang/stdlib.h"'

number=0
for file in "$@"; do
  number=$((number + 1))
  cat <<END
__asm__(".section .rodata\n"
        "std_$number: .incbin \"$file\"\n"
        "std_${number}_end: .byte 0\n"
        ".previous\n");
extern const char std_$number[], std_${number}_end[];
END
done

echo 'const StdlibModule stdlib_modules[] = {'
number=0
for file in "$@"; do
  number=$((number + 1))
  module=${file#"$folder"/}
  module=$(echo "${module%.lua*}" | tr / .)
  echo "  { \"$module\", std_$number, std_${number}_end },"
done
echo '  { 0, 0, 0 }'
echo '};'
