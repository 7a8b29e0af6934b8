#include "plan/levels.h"

#include "base/mem.h"

const uint32_t levels_ones[2 * LEVELS_LONGEST] = {
  ~0u, ~0u, ~0u, ~0u, ~0u, ~0u, ~0u, ~0u, ~0u, ~0u, ~0u, ~0u,
};

static bool fits_by_four(const Instance *in)
{
  if (!LEVELS_BY_FOUR || in->lanes.width != 8 || in->resource_count > 4) return false;
  for (int t = 0; t < in->end; t++)
    if (in->duration[t] > LEVELS_LONGEST) return false;
  return true;
}

Levels levels_new(const Instance *in, int minutes)
{
  Levels l = { .lanes = &in->lanes, .by_four = fits_by_four(in) };
  size_t all = (size_t)minutes + LEVELS_PAST;
  if (l.by_four) l.four = mem_array(all, sizeof *l.four);
  else l.words = mem_array(all * (size_t)in->lanes.words, sizeof *l.words);
  levels_clear(&l, minutes + LEVELS_PAST);
  return l;
}

void levels_free(Levels *l)
{
  mem_free(l->four);
  mem_free(l->words);
}

void levels_clear(Levels *l, int minute)
{
  const uint64_t *full = l->lanes->full;
  if (l->by_four) {
    uint32_t all = (uint32_t)(full[0] & ~l->lanes->guard), *four = l->four;
    for (int m = 0; m < minute; m++) four[m] = all;
    return;
  }
  for (int m = 0; m < minute; m++)
    for (int w = 0; w < l->lanes->words; w++) l->words[(int64_t)m * l->lanes->words + w] = full[w];
}
