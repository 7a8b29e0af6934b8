/* packages.c - branch and bound over package counts, best unit price first. */
#include "trade/packages.h"

#include <math.h>
#include <string.h>

enum { MOST_OF_ONE = 100000, MOST_MIXES = 200000 };
static const double grains_per_unit = 1e9; /* amounts become whole grains, so that equal is equal */

typedef struct {
  int64_t grains, price;
  int given_at; /* index in the caller's order */
  int64_t step; /* greatest common divisor of this size and all after it: what they hold together is a multiple */
  int64_t largest; /* of this size and all after it */
} Size;

typedef struct {
  int64_t price, left_over, packages; /* compared in this order */
} Score;

typedef struct {
  Size size[PACKAGE_SIZES];
  int sizes;
  int64_t count[PACKAGE_SIZES], best_count[PACKAGE_SIZES]; /* by sorted size */
  Score best;
  long mixes; /* looked at so far */
} Search;

static bool is_better(Score a, Score b)
{
  if (a.price != b.price) return a.price < b.price;
  if (a.left_over != b.left_over) return a.left_over < b.left_over;
  return a.packages < b.packages;
}

static int64_t ceil_divide(int64_t a, int64_t b)
{
  return a / b + (a % b != 0);
}

static int64_t greatest_divisor(int64_t a, int64_t b)
{
  while (b) {
    int64_t rest = a % b;
    a = b;
    b = rest;
  }
  return a;
}

/* Lower unit price first, larger size first among equals. */
static bool goes_before(const Size *a, const Size *b)
{
  long double left = (long double)a->price * b->grains, right = (long double)b->price * a->grains;
  return left != right ? left < right : a->grains > b->grains;
}

static void insert_size(Search *s, Size size)
{
  int at = s->sizes++;
  for (; at > 0 && goes_before(&size, &s->size[at - 1]); at--) s->size[at] = s->size[at - 1];
  s->size[at] = size;
}

/* The least that the sizes from `first` on can make of `need`, on top of `spent`. */
static Score bound(const Search *s, int first, int64_t need, Score spent)
{
  const Size *cheapest = &s->size[first];
  int64_t held = ceil_divide(need, cheapest->step) * cheapest->step;
  long double price = (long double)held * cheapest->price / cheapest->grains;
  return (Score){ spent.price + (int64_t)ceill(price - 1e-3L), held - need,
                  spent.packages + ceil_divide(need, cheapest->largest) };
}

static void keep_if_better(Search *s, Score score)
{
  if (!is_better(score, s->best)) return;
  s->best = score;
  memcpy(s->best_count, s->count, sizeof s->count);
}

/* Even in broken packages the sizes from `first` on would cost more than the best mix so far. */
static bool costs_too_much(const Search *s, int first, int64_t need, Score spent)
{
  const Size *cheapest = &s->size[first];
  long double price = (long double)need * cheapest->price / cheapest->grains;
  return spent.price + (int64_t)ceill(price - 1e-3L) > s->best.price;
}

/* Tries every count of size `at`, most first. The sizes after it cost more: once too dear, always too dear. */
static void try_size(Search *s, int at, int64_t need, Score spent)
{
  const Size *size = &s->size[at];
  bool is_last = at == s->sizes - 1;
  for (int64_t n = ceil_divide(need, size->grains); n >= 0 && s->mixes < MOST_MIXES; n--, s->mixes++) {
    int64_t rest = need - n * size->grains;
    Score now = { spent.price + n * size->price, rest < 0 ? -rest : 0, spent.packages + n };
    s->count[at] = n;
    if (rest <= 0) {
      keep_if_better(s, now);
      if (is_last) break;
    } else {
      if (is_last || costs_too_much(s, at + 1, rest, now)) break;
      if (is_better(bound(s, at + 1, rest, now), s->best)) try_size(s, at + 1, rest, now);
    }
  }
  s->count[at] = 0;
}

static bool read_sizes(Search *s, double need, const PackageSize *sizes, int count, TradeError *error)
{
  for (int i = 0; i < count; i++) {
    if (!trade_in_range(error, "holds", sizes[i].holds, 1e-6, 1e6)
        || !trade_in_range(error, "price", (double)sizes[i].price, 0, 1e10)
        || !trade_in_range(error, "need", need, 0, sizes[i].holds * MOST_OF_ONE))
      return false;
    int64_t grains = llround(sizes[i].holds * grains_per_unit);
    insert_size(s, (Size){ .grains = grains, .price = sizes[i].price, .given_at = i });
  }
  for (int i = count - 1; i >= 0; i--) {
    Size *size = &s->size[i];
    bool is_last = i == count - 1;
    size->step = is_last ? size->grains : greatest_divisor(size->grains, size[1].step);
    size->largest = is_last || size->grains > size[1].largest ? size->grains : size[1].largest;
  }
  return true;
}

bool packages_cover(double need, const PackageSize *sizes, int size_count, PackageMix *out, TradeError *error)
{
  Search s = { .best = { INT64_MAX, INT64_MAX, INT64_MAX } };
  if (!trade_positive(error, "need", need) || !trade_in_range(error, "need", need, 0, 1e6)
      || !trade_in_range(error, "size_count", size_count, 1, PACKAGE_SIZES)
      || !read_sizes(&s, need, sizes, size_count, error))
    return false;
  int64_t grains = llround(fmax(need * grains_per_unit, 1));
  try_size(&s, 0, grains, (Score){ 0 });
  PackageMix mix = { .packages = (int)s.best.packages, .price = s.best.price, .least_price = s.best.price,
                     .left_over = (double)s.best.left_over / grains_per_unit };
  if (s.mixes >= MOST_MIXES) mix.least_price = bound(&s, 0, grains, (Score){ 0 }).price;
  for (int i = 0; i < size_count; i++) mix.count[s.size[i].given_at] = (int)s.best_count[i];
  *out = mix;
  return true;
}

const TradeFormula packages_formulas[] = {
  { "packages.cover", "least sum(count * price) with sum(count * holds) >= need, counts whole",
    { TRADE_COMPUTED, "exact search, checked against enumeration in the tests" },
    "The cheapest whole packages that hold at least the need; then the least left over, then the fewest packages. "
    "After 200,000 mixes the best so far, with the price that no mix can be below." },
  { .id = NULL }
};
