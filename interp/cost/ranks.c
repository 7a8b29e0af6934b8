#include "cost/ranks.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "base/mem.h"

enum { DIGIT_BITS = 11, DIGITS = 1 << DIGIT_BITS, KEY_BITS = 64 };

typedef struct {
  uint64_t key;
  int index;
} Entry;

uint64_t ranks_key(double value)
{
  uint64_t bits;
  memcpy(&bits, &value, sizeof bits);
  return bits >> 63 ? ~bits : bits | UINT64_C(1) << 63;
}

static int digit(uint64_t key, int shift) { return (int)(key >> shift & (DIGITS - 1)); }

/* One pass of a radix sort from `from` to `to`; false, and nothing moved, where all have the same digit. */
static bool sort_by_digit(const Entry *from, Entry *to, int count, int shift)
{
  int places[DIGITS] = { 0 }, next = 0;
  for (int i = 0; i < count; i++) places[digit(from[i].key, shift)]++;
  if (count == 0 || places[digit(from[0].key, shift)] == count) return false;
  for (int d = 0; d < DIGITS; d++) {
    int here = places[d];
    places[d] = next;
    next += here;
  }
  for (int i = 0; i < count; i++) to[places[digit(from[i].key, shift)]++] = from[i];
  return true;
}

void ranks_of(const uint64_t *keys, int count, double *ranks)
{
  Entry *sorted = mem_array((size_t)count, sizeof *sorted), *other = mem_array((size_t)count, sizeof *other);
  for (int i = 0; i < count; i++) sorted[i] = (Entry){ keys[i], i };
  for (int shift = 0; shift < KEY_BITS; shift += DIGIT_BITS)
    if (sort_by_digit(sorted, other, count, shift)) {
      Entry *swap = sorted;
      sorted = other;
      other = swap;
    }
  for (int i = 0, next; i < count; i = next) {
    for (next = i + 1; next < count && sorted[next].key == sorted[i].key;) next++;
    for (int k = i; k < next; k++) ranks[sorted[k].index] = (i + 1 + next) / 2.0;
  }
  mem_free(sorted);
  mem_free(other);
}

double ranks_correlation(const double *a, const double *b, int count)
{
  double middle = (count + 1) / 2.0, both = 0, of_a = 0, of_b = 0; /* ranks, shared or not, have this mean */
  for (int i = 0; i < count; i++) {
    double x = a[i] - middle, y = b[i] - middle;
    both += x * y;
    of_a += x * x;
    of_b += y * y;
  }
  return of_a > 0 && of_b > 0 ? both / sqrt(of_a * of_b) : 0;
}

int ranks_quantile(int count, double share)
{
  int index = (int)ceil(share * count - 1e-9) - 1;
  return index < 0 ? 0 : index >= count ? count - 1 : index;
}
