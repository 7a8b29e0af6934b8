#include "plan/lanes.h"

#include "base/mem.h"

static int width_for(const int *capacity, int resources)
{
  int largest = 0;
  for (int r = 0; r < resources; r++)
    if (capacity[r] > largest) largest = capacity[r];
  return largest < 1 << 7 ? 8 : largest < 1 << 15 ? 16 : 32;
}

static uint64_t guards(int width)
{
  uint64_t bits = 0;
  for (int at = width - 1; at < 64; at += width) bits |= UINT64_C(1) << at;
  return bits;
}

static void pack(const Lanes *lanes, const int *amounts, int resources, uint64_t *words)
{
  int per_word = 64 / lanes->width;
  for (int r = 0; r < resources; r++)
    words[r / per_word] |= (uint64_t)amounts[r] << (r % per_word * lanes->width);
}

void lanes_pack(Lanes *lanes, const int *capacity, int resources, const int *need, int tasks)
{
  lanes->width = width_for(capacity, resources);
  int per_word = 64 / lanes->width;
  lanes->words = resources == 0 ? 1 : (resources + per_word - 1) / per_word;
  lanes->guard = guards(lanes->width);
  lanes->full = mem_array((size_t)lanes->words, sizeof *lanes->full);
  pack(lanes, capacity, resources, lanes->full);
  for (int w = 0; w < lanes->words; w++) lanes->full[w] |= lanes->guard;
  lanes->demand = mem_array((size_t)tasks * (size_t)lanes->words, sizeof *lanes->demand);
  for (int t = 0; t < tasks; t++) pack(lanes, need + t * resources, resources, lanes->demand + t * lanes->words);
}

void lanes_free(Lanes *lanes)
{
  mem_free(lanes->full);
  mem_free(lanes->demand);
}

int lanes_free_of(const Lanes *lanes, const uint64_t *level, int resource)
{
  int per_word = 64 / lanes->width;
  uint64_t lane = level[resource / per_word] >> (resource % per_word * lanes->width);
  return (int)(lane & ((UINT64_C(1) << (lanes->width - 1)) - 1));
}
