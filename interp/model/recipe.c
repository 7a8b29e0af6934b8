#include "model/recipe.h"

#include <string.h>

const char *const step_words[STEP_WORDS] = {
  "grind", "hone", "polish", "burnish", "collect", "clean", "densify", "dye", "stain",
  "grout", "fill", "patch", "guard", "wait", "check", "note",
};

static const StepFamily families[STEP_WORDS] = {
  [STEP_GRIND] = FAMILY_ABRASIVE,   [STEP_HONE] = FAMILY_ABRASIVE,   [STEP_POLISH] = FAMILY_ABRASIVE,
  [STEP_BURNISH] = FAMILY_ABRASIVE, [STEP_COLLECT] = FAMILY_SURFACE, [STEP_CLEAN] = FAMILY_SURFACE,
  [STEP_DENSIFY] = FAMILY_MATERIAL, [STEP_DYE] = FAMILY_MATERIAL,    [STEP_STAIN] = FAMILY_MATERIAL,
  [STEP_GROUT] = FAMILY_MATERIAL,   [STEP_FILL] = FAMILY_MATERIAL,   [STEP_PATCH] = FAMILY_MATERIAL,
  [STEP_GUARD] = FAMILY_MATERIAL,   [STEP_WAIT] = FAMILY_WAIT,       [STEP_CHECK] = FAMILY_CHECK,
  [STEP_NOTE] = FAMILY_NOTE,
};

StepFamily step_family(StepWord word) { return families[word]; }

bool step_word_find(const char *word, StepWord *out)
{
  for (int i = 0; i < STEP_WORDS; i++)
    if (strcmp(step_words[i], word) == 0) {
      *out = (StepWord)i;
      return true;
    }
  return false;
}
