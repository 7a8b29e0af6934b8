#include "report/area_words.h"

#include "cost/show.h"
#include "report/step_words.h"

static void length_words(const char *label, double metres, bool metric, Buf *out)
{
  if (metres <= 0) return;
  buf_printf(out, ", %s ", label);
  show_quantity(out, metres, "m", KIND_LENGTH, metric);
}

void area_size(const Area *area, bool metric, Language language, Buf *out)
{
  show_quantity(out, area->area_m2.value, "m2", KIND_AREA, metric);
  if (area->length_m > 0 && area->width_m > 0) {
    buf_puts(out, " (");
    show_quantity(out, area->length_m, "m", KIND_LENGTH, metric);
    buf_puts(out, " x ");
    show_quantity(out, area->width_m, "m", KIND_LENGTH, metric);
    buf_putc(out, ')');
  }
  length_words(say(language, SAY_EDGES), area->edge_m.value, metric, out);
  length_words(say(language, SAY_JOINTS), area->joint_m.value, metric, out);
}

void area_promise(const Recipe *recipe, Language language, Buf *out)
{
  size_t begin = out->length;
  if (recipe->exposure) buf_puts(out, recipe->exposure);
  if (recipe->appearance) buf_printf(out, "%s%s", out->length > begin ? ", " : "", recipe->appearance);
  if (recipe->gloss.has_low || recipe->gloss.has_high) {
    buf_printf(out, "%s%s ", out->length > begin ? ", " : "", say(language, SAY_GLOSS));
    step_want_band(&recipe->gloss, language, out);
    buf_printf(out, " %s", say(language, SAY_GLOSS_UNIT));
  }
}
