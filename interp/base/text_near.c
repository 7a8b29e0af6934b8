/* text_near.c - which known word a misspelt one was meant to be. */
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "base/text.h"

enum { LARGEST_DISTANCE = 3, SHORTEST_NAME = 3, MOST_NEAR = 3, MOST_PARTS = 8 };

static char lower(char c) { return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c; }

static int least(int a, int b) { return a < b ? a : b; }

static int most_of(int a, int b) { return a > b ? a : b; }

/* Three rows of the usual table, `row[j]` for the first j letters of b; only the band within cap of the diagonal is
 * filled. A swap of two neighbours is one step, as long as nothing else happens between them. */
typedef struct {
  int *before, *above, *row;
} Rows;

static int fill_row(Rows rows, const char *a, int i, const char *b, int length_b, int cap)
{
  int from = most_of(1, i - cap), to = least(length_b, i + cap), best = cap + 1;
  rows.row[from - 1] = from == 1 ? i : cap + 1;
  if (from == 1) best = least(best, i);
  for (int j = from; j <= to; j++) {
    char x = lower(a[i - 1]), y = lower(b[j - 1]);
    int steps = rows.above[j - 1] + (x != y);
    steps = least(steps, least(rows.above[j], rows.row[j - 1]) + 1);
    bool is_swap = i > 1 && j > 1 && x == lower(b[j - 2]) && lower(a[i - 2]) == y;
    if (is_swap) steps = least(steps, rows.before[j - 2] + 1);
    rows.row[j] = least(steps, cap + 1);
    best = least(best, rows.row[j]);
  }
  if (to < length_b) rows.row[to + 1] = cap + 1;
  return best;
}

static int distance_by_rows(Rows rows, const char *a, int length_a, const char *b, int length_b, int cap)
{
  for (int j = 0; j <= length_b; j++) rows.above[j] = least(j, cap + 1);
  int best_before = 0;
  for (int i = 1; i <= length_a; i++) {
    int best = fill_row(rows, a, i, b, length_b, cap);
    if (best > cap && best_before > cap) return cap + 1;
    best_before = best;
    rows = (Rows){ rows.above, rows.row, rows.before };
  }
  return least(rows.above[length_b], cap + 1);
}

int text_distance(const char *a, const char *b, int cap)
{
  size_t length_a = strlen(a), length_b = strlen(b);
  size_t apart = length_a > length_b ? length_a - length_b : length_b - length_a;
  if (apart > (size_t)cap) return cap + 1;
  int *cells = mem_array(3 * (length_b + 1), sizeof *cells);
  Rows rows = { cells, cells + length_b + 1, cells + 2 * (length_b + 1) };
  int distance = distance_by_rows(rows, a, (int)length_a, b, (int)length_b, cap);
  mem_free(cells);
  return distance;
}

typedef struct {
  const char *text;
  size_t length;
} Part;

static int compare_parts(const void *a, const void *b)
{
  const Part *x = a, *y = b;
  size_t shared = x->length < y->length ? x->length : y->length;
  for (size_t i = 0; i < shared; i++)
    if (lower(x->text[i]) != lower(y->text[i])) return lower(x->text[i]) < lower(y->text[i]) ? -1 : 1;
  return (x->length > y->length) - (x->length < y->length);
}

/* The words of a name, sorted; 0 if there are too many to bother. */
static int name_parts(const char *name, Part *parts)
{
  static const char between[] = "_- ";
  int count = 0;
  for (name += strspn(name, between); *name; name += strspn(name, between)) {
    if (count == MOST_PARTS) return 0;
    parts[count] = (Part){ name, strcspn(name, between) };
    name += parts[count++].length;
  }
  if (count > 1) qsort(parts, (size_t)count, sizeof *parts, compare_parts);
  return count;
}

static bool same_parts(const char *a, const char *b)
{
  Part x[MOST_PARTS], y[MOST_PARTS];
  int count = name_parts(a, x);
  if (count == 0 || count != name_parts(b, y)) return false;
  for (int i = 0; i < count; i++)
    if (compare_parts(&x[i], &y[i]) != 0) return false;
  return true;
}

static bool is_plural(const char *one, const char *many)
{
  size_t length = strlen(one);
  return strlen(many) == length + 1 && lower(many[length]) == 's' && text_distance(one, many, 1) == 1;
}

enum { RANK_SAME, RANK_FORM, RANK_DISTANCE, RANK_NONE = 100 };

/* Lower is nearer: the same but for case, then another form of the same words, then by distance. */
static int rank(const char *name, const char *word, int cap)
{
  int distance = text_distance(name, word, cap);
  if (distance == 0) return RANK_SAME;
  if (is_plural(name, word) || is_plural(word, name) || same_parts(name, word)) return RANK_FORM;
  return distance <= cap ? RANK_DISTANCE + distance : RANK_NONE;
}

int text_near(const char *name, const char *const *words, size_t count, const char **out, int most)
{
  size_t length = strlen(name);
  if (length < SHORTEST_NAME) return 0;
  int cap = length / 3 > LARGEST_DISTANCE ? LARGEST_DISTANCE : (int)(length / 3);
  int ranks[MOST_NEAR], found = 0;
  most = least(most, MOST_NEAR);
  for (size_t i = 0; i < count; i++) {
    int r = rank(name, words[i], cap), at = found;
    while (at > 0 && ranks[at - 1] > r) at--;
    if (r == RANK_NONE || at >= most) continue;
    found = least(found + 1, most);
    for (int k = found - 1; k > at; k--) {
      ranks[k] = ranks[k - 1];
      out[k] = out[k - 1];
    }
    ranks[at] = r;
    out[at] = words[i];
  }
  return found;
}
