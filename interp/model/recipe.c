#include "model/recipe.h"

#include <string.h>

const StepWordRow step_words[STEP_WORDS] = {
  [STEP_GRIND] = { "grind", FAMILY_ABRASIVE },
  [STEP_HONE] = { "hone", FAMILY_ABRASIVE },
  [STEP_POLISH] = { "polish", FAMILY_ABRASIVE },
  [STEP_BURNISH] = { "burnish", FAMILY_ABRASIVE },
  [STEP_COLLECT] = { "collect", FAMILY_SURFACE },
  [STEP_CLEAN] = { "clean", FAMILY_SURFACE },
  [STEP_DENSIFY] = { "densify", FAMILY_MATERIAL },
  [STEP_DYE] = { "dye", FAMILY_MATERIAL },
  [STEP_STAIN] = { "stain", FAMILY_MATERIAL },
  [STEP_GROUT] = { "grout", FAMILY_MATERIAL },
  [STEP_FILL] = { "fill", FAMILY_MATERIAL },
  [STEP_PATCH] = { "patch", FAMILY_MATERIAL },
  [STEP_GUARD] = { "guard", FAMILY_MATERIAL },
  [STEP_WAIT] = { "wait", FAMILY_WAIT },
  [STEP_CHECK] = { "check", FAMILY_CHECK },
  [STEP_NOTE] = { "note", FAMILY_NOTE },
};

bool step_word_find(const char *word, StepWord *out)
{
  for (int i = 0; i < STEP_WORDS; i++)
    if (strcmp(step_words[i].name, word) == 0) {
      *out = (StepWord)i;
      return true;
    }
  return false;
}
