#!/bin/sh
# demo.sh GRITWORK - the main job on a real recipe: validate it, look at a mistake, schedule a job, cost it.
set -eu
gritwork=$1
job=recipes/jobs/north_hall.lua

show() {
  printf '\n$ gritwork %s\n' "$*"
  "$gritwork" "$@"
}

echo "An invented job: four floors of a public hall, worked at night by a crew of four."
show validate recipes/methods/cream_wet.lua
show validate "$job"
show schedule "$job"
show schedule --bars "$job"
show sheet "$job"
show cost "$job"

echo
echo "And a recipe with mistakes in it, as validation shows them:"
printf '\n$ gritwork validate recipes/mistakes.lua\n'
"$gritwork" validate recipes/mistakes.lua && { echo "the mistakes were not found"; exit 1; }
echo
echo "Next: the ten-minute tour in README.md, then \`$gritwork new --out=shop\`."
