/* units_find.c - finding what a spelling stands for: one index over all tables of units.c. */
#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "base/arena.h"
#include "base/kinds.h"
#include "base/text.h"
#include "base/units.h"

/* Open addressing; filled before main, so that lookups need neither lock nor test. */
enum { SLOTS = 2048, UNITS_MOST = 200 };

typedef struct {
  const char *spelling; /* not terminated: a part of a table's text */
  uint8_t length;
  Word word;
} Slot;

static Slot slots[SLOTS];
static const Slot *spellings[SLOTS]; /* in the order of the tables */
static size_t spelling_count;
static Unit units[UNITS_MOST];

static Slot *find_slot(const char *spelling, size_t length)
{
  uint32_t hash = 2166136261u; /* FNV-1a */
  for (size_t i = 0; i < length; i++) hash = (hash ^ (unsigned char)spelling[i]) * 16777619u;
  Slot *slot = &slots[hash % SLOTS];
  while (slot->spelling && (slot->length != length || memcmp(slot->spelling, spelling, length) != 0))
    slot = slot == slots + SLOTS - 1 ? slots : slot + 1;
  return slot;
}

Word unit_find(const char *spelling, size_t length) { return find_slot(spelling, length)->word; }

const Unit *unit_get(uint16_t row) { return &units[row]; }

bool thing_is_frequency(uint16_t thing) { return strncmp(thing_rows[thing].name, "per ", 4) == 0; }

static void enter(const char *spelling, size_t length, WordSort sort, size_t row)
{
  Slot *slot = find_slot(spelling, length);
  assert(!slot->spelling || (slot->word.sort == sort && slot->word.row == row)); /* one meaning for each spelling */
  if (slot->spelling) return;
  *slot = (Slot){ spelling, (uint8_t)length, { sort, (uint16_t)row } };
  if (sort == WORD_AMBIGUOUS) return; /* never suggested */
  spellings[spelling_count++] = slot;
  assert(spelling_count < SLOTS / 2);
}

/* Enters each spelling of "foot, feet". */
static void enter_list(const char *list, WordSort sort, size_t row)
{
  while (*list) {
    size_t length = strcspn(list, ",");
    enter(list, length, sort, row);
    list += length;
    list += strspn(list, ", ");
  }
}

/* The number and the unit of a definition: "5/9 K - 459.67". */
static Unit resolve(const UnitRow *row)
{
  Unit unit = { .row = row, .factor = { 1, 1 }, .shift = { 0, 1 }, .dimension = kind_row(row->kind)->dimension };
  if (!*row->is) return unit;
  Scan scan;
  Number factor = number_exact(unit.factor), shift = number_exact(unit.shift);
  Compound of = compound_plain();
  bool ok = scan_open(&scan, row->is, strlen(row->is), (UnitRules){ 0 }, NULL) && scan_number(&scan, &factor) &&
            unit_scan(&scan, &of);
  if (ok && scan_take(&scan, '-')) {
    scan_spaces(&scan);
    ok = scan_decimal(&scan, &shift);
  }
  factor = number_multiply(factor, of.factor);
  assert(ok && scan_is_end(&scan) && factor.exact && shift.exact);
  assert(dimension_equal(of.dimension, unit.dimension));
  unit.factor = factor.fraction;
  unit.shift = shift.fraction;
  return unit;
}

static void __attribute__((constructor)) fill_index(void)
{
  assert(unit_count <= UNITS_MOST);
  for (size_t i = 0; i < unit_count; i++) {
    units[i] = resolve(&unit_rows[i]);
    enter_list(unit_rows[i].name, WORD_UNIT, i);
    enter_list(unit_rows[i].also, WORD_UNIT, i);
  }
  for (size_t i = 0; i < thing_count; i++) {
    enter_list(thing_rows[i].name, WORD_THING, i);
    enter_list(thing_rows[i].plural, WORD_THING, i);
    enter_list(thing_rows[i].also, WORD_THING, i);
  }
  for (size_t i = 0; i < currency_count; i++) {
    enter_list(currency_rows[i].code, WORD_CURRENCY, i);
    enter_list(currency_rows[i].also, WORD_CURRENCY, i);
  }
  enter_list("$, dollar, dollars", WORD_DOLLAR, 0);
  for (size_t i = 0; i < ambiguous_count; i++) enter_list(ambiguous_rows[i].spellings, WORD_AMBIGUOUS, i);
}

static char lower(char c) { return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c; }

static bool same_but_case(const char *a, const char *b)
{
  while (*a && lower(*a) == lower(*b)) a++, b++;
  return lower(*a) == lower(*b);
}

/* The name printed for a spelling: "feet" is a spelling of "ft". */
static const char *printed_name(const char *spelling)
{
  Word word = unit_find(spelling, strlen(spelling));
  if (word.sort == WORD_UNIT) return unit_rows[word.row].name;
  return word.sort == WORD_THING ? thing_rows[word.row].name : spelling;
}

static void suggest_case(const char *spelling, const char *const *names, char *help, size_t room)
{
  for (size_t i = 0; i < spelling_count && !*help; i++)
    if (same_but_case(names[i], spelling))
      snprintf(help, room, "did you mean `%s`? Upper and lower case matter in units", printed_name(names[i]));
}

static void suggest_near(const char *spelling, const char *const *names, char *help, size_t room)
{
  const char *near[1];
  if (!*help && text_near(spelling, names, spelling_count, near, 1) == 1)
    snprintf(help, room, "did you mean `%s`?", near[0]);
}

void unit_suggest(const char *spelling, char *help, size_t room)
{
  Arena *arena = arena_new();
  const char **names = arena_array(arena, spelling_count, sizeof *names);
  for (size_t i = 0; i < spelling_count; i++)
    names[i] = arena_strndup(arena, spellings[i]->spelling, spellings[i]->length);
  *help = '\0';
  suggest_case(spelling, names, help, room);
  suggest_near(spelling, names, help, room);
  arena_free(arena);
}
