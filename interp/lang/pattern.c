#include "lang/pattern.h"

#include <ctype.h>
#include <string.h>

typedef enum {
  ITEM_BYTES,    /* one byte of a set, perhaps repeated */
  ITEM_OPEN,     /* ( */
  ITEM_CLOSE,    /* ) */
  ITEM_PLACE,    /* () */
  ITEM_SAME,     /* %1: what that capture took */
  ITEM_BALANCE,  /* %bxy */
  ITEM_FRONTIER, /* %f[set] */
  ITEM_TAIL,     /* $ */
  ITEM_END       /* of the pattern */
} ItemKind;

typedef enum { ONCE, OPTIONAL, MOST, MOST_BUT_ONE, FEWEST } Repeat;

struct PatternItem {
  uint8_t kind, repeat;
  uint8_t a, b;     /* number of the capture, or the two bytes of a balance */
  uint32_t set[8];  /* the bytes that fit */
};

size_t pattern_room(size_t length) { return (length + 1) * sizeof(PatternItem); }

/* ---- sets of bytes */

static void set_add(PatternItem *item, unsigned char c) { item->set[c >> 5] |= 1u << (c & 31); }

static bool set_has(const PatternItem *item, unsigned char c) { return item->set[c >> 5] >> (c & 31) & 1; }

static void set_invert(PatternItem *item)
{
  for (int i = 0; i < 8; i++) item->set[i] = ~item->set[i];
}

static int is_graph(int c) { return c > ' ' && c < 127; }

static const struct {
  char letter;
  int (*test)(int);
} classes[] = { { 'a', isalpha }, { 'c', iscntrl }, { 'd', isdigit }, { 'g', is_graph }, { 'l', islower },
                { 'p', ispunct }, { 's', isspace }, { 'u', isupper }, { 'w', isalnum },  { 'x', isxdigit } };

/* %c in a pattern: a class, its complement in upper case, or the byte itself. */
static void set_add_class(PatternItem *item, unsigned char c)
{
  for (size_t i = 0; i < sizeof classes / sizeof *classes; i++) {
    if (classes[i].letter != tolower(c)) continue;
    bool wanted = islower(c) != 0;
    for (int byte = 0; byte < 256; byte++)
      if ((byte < 128 && classes[i].test(byte) != 0) == wanted) set_add(item, (unsigned char)byte);
    return;
  }
  set_add(item, c);
}

/* ---- compiling */

typedef struct {
  const char *at, *end;
  Pattern *pattern;
  int count, repeats;
  uint8_t open[PATTERN_CAPTURES]; /* captures whose ) is still to come */
  int open_count;
  uint32_t closed;
  const char *wrong;
} Compiler;

static PatternItem *add_item(Compiler *c, ItemKind kind)
{
  PatternItem *item = &c->pattern->items[c->count++];
  *item = (PatternItem){ .kind = (uint8_t)kind };
  return item;
}

static void fail(Compiler *c, const char *wrong)
{
  if (!c->wrong) c->wrong = wrong;
  c->at = c->end;
}

/* Where the ] is that ends a set whose contents begin at `from`; a ] that comes first is one of the bytes. */
static const char *set_end(const Compiler *c, const char *from)
{
  for (const char *p = from; p < c->end; p++) {
    if (*p == ']' && p > from) return p;
    if (*p == '%') p++;
  }
  return NULL;
}

static void fill_set(PatternItem *item, const char *from, const char *end)
{
  for (const char *p = from; p < end; p++) {
    if (*p == '%') set_add_class(item, (unsigned char)*++p);
    else if (end - p > 2 && p[1] == '-') {
      for (int byte = (unsigned char)p[0]; byte <= (unsigned char)p[2]; byte++) set_add(item, (unsigned char)byte);
      p += 2;
    } else set_add(item, (unsigned char)*p);
  }
}

/* The at of the compiler is behind the [. */
static void compile_set(Compiler *c, PatternItem *item)
{
  bool inverted = c->at < c->end && *c->at == '^';
  const char *from = c->at + inverted, *end = set_end(c, from);
  if (!end) {
    fail(c, "malformed pattern (missing ']')");
    return;
  }
  fill_set(item, from, end);
  if (inverted) set_invert(item);
  c->at = end + 1;
}

static void compile_open(Compiler *c)
{
  bool place = c->at < c->end && *c->at == ')';
  if (c->pattern->captures == PATTERN_CAPTURES) {
    fail(c, "too many captures");
    return;
  }
  uint8_t number = (uint8_t)c->pattern->captures++;
  add_item(c, place ? ITEM_PLACE : ITEM_OPEN)->a = number;
  if (place) {
    c->at++;
    c->closed |= 1u << number;
  } else c->open[c->open_count++] = number;
}

static void compile_close(Compiler *c)
{
  if (c->open_count == 0) {
    fail(c, "invalid pattern capture");
    return;
  }
  uint8_t number = c->open[--c->open_count];
  c->closed |= 1u << number;
  add_item(c, ITEM_CLOSE)->a = number;
}

static void compile_balance(Compiler *c)
{
  if (c->end - c->at < 2) {
    fail(c, "malformed pattern (missing arguments to '%b')");
    return;
  }
  PatternItem *item = add_item(c, ITEM_BALANCE);
  item->a = (uint8_t)*c->at++;
  item->b = (uint8_t)*c->at++;
}

static void compile_frontier(Compiler *c)
{
  if (c->at == c->end || *c->at != '[') {
    fail(c, "missing '[' after '%f' in pattern");
    return;
  }
  c->at++;
  compile_set(c, add_item(c, ITEM_FRONTIER));
}

static void compile_same(Compiler *c, char digit)
{
  int number = digit - '1';
  if (number < 0 || !(c->closed >> number & 1)) fail(c, "invalid capture index in pattern");
  else add_item(c, ITEM_SAME)->a = (uint8_t)number;
}

static void compile_repeat(Compiler *c, PatternItem *item)
{
  static const char signs[] = "?*+-";
  static const uint8_t repeats[] = { OPTIONAL, MOST, MOST_BUT_ONE, FEWEST };
  const char *sign = c->at < c->end && *c->at ? strchr(signs, *c->at) : NULL;
  if (!sign) return;
  item->repeat = repeats[sign - signs];
  c->at++;
  if (++c->repeats > PATTERN_REPEATS) fail(c, "pattern too complex");
}

static void compile_escape(Compiler *c)
{
  if (c->at == c->end) {
    fail(c, "malformed pattern (ends with '%')");
    return;
  }
  char letter = *c->at++;
  if (letter == 'b') compile_balance(c);
  else if (letter == 'f') compile_frontier(c);
  else if (letter >= '0' && letter <= '9') compile_same(c, letter);
  else {
    PatternItem *item = add_item(c, ITEM_BYTES);
    set_add_class(item, (unsigned char)letter);
    compile_repeat(c, item);
  }
}

static void compile_bytes(Compiler *c, char first)
{
  PatternItem *item = add_item(c, ITEM_BYTES);
  if (first == '.') set_invert(item);
  else if (first == '[') compile_set(c, item);
  else set_add(item, (unsigned char)first);
  compile_repeat(c, item);
}

static void compile_next(Compiler *c)
{
  char first = *c->at++;
  switch (first) {
  case '(': compile_open(c); break;
  case ')': compile_close(c); break;
  case '%': compile_escape(c); break;
  case '$':
    if (c->at == c->end) {
      add_item(c, ITEM_TAIL);
      break;
    } /* fall through */
  default: compile_bytes(c, first);
  }
}

const char *pattern_compile(Pattern *pattern, const char *text, size_t length, bool may_anchor)
{
  if (length > PATTERN_LONGEST) return "pattern too long";
  Compiler c = { .at = text, .end = text + length, .pattern = pattern };
  pattern->captures = 0;
  pattern->anchored = may_anchor && length > 0 && *text == '^';
  if (pattern->anchored) c.at++;
  while (c.at < c.end) compile_next(&c);
  if (c.open_count) fail(&c, "unfinished capture");
  add_item(&c, ITEM_END);
  return c.wrong;
}

/* ---- matching */

typedef struct {
  const char *begin, *end;
  PatternMatch *match;
} Subject;

static bool fits(const Subject *s, const PatternItem *item, const char *at)
{
  return at < s->end && set_has(item, (unsigned char)*at);
}

static const char *match_balance(const Subject *s, const PatternItem *item, const char *at)
{
  if (at == s->end || (uint8_t)*at != item->a) return NULL;
  int64_t depth = 1;
  for (const char *p = at + 1; p < s->end; p++) {
    if ((uint8_t)*p == item->b) {
      if (--depth == 0) {
        s->match->steps -= p - at;
        return p + 1;
      }
    } else if ((uint8_t)*p == item->a) depth++;
  }
  s->match->steps -= s->end - at;
  return NULL;
}

static const char *match_same(const Subject *s, const PatternItem *item, const char *at)
{
  const PatternCapture *capture = &s->match->captures[item->a];
  ptrdiff_t length = capture->length;
  if (length < 0 || s->end - at < length) return NULL; /* a position has no bytes that could come again */
  s->match->steps -= length;
  return memcmp(at, capture->begin, (size_t)length) == 0 ? at + length : NULL;
}

/* The start and the end of the subject count as a NUL byte. */
static bool at_frontier(const Subject *s, const PatternItem *item, const char *at)
{
  unsigned char before = at == s->begin ? 0 : (unsigned char)at[-1], here = at == s->end ? 0 : (unsigned char)*at;
  return !set_has(item, before) && set_has(item, here);
}

static const char *match_items(const Subject *s, const PatternItem *item, const char *at);

static const char *match_most(const Subject *s, const PatternItem *item, const char *at, ptrdiff_t least)
{
  ptrdiff_t count = 0;
  while (fits(s, item, at + count)) count++;
  s->match->steps -= count;
  for (; count >= least && s->match->steps >= 0; count--) {
    const char *end = match_items(s, item + 1, at + count);
    if (end) return end;
  }
  return NULL;
}

static const char *match_fewest(const Subject *s, const PatternItem *item, const char *at)
{
  for (; s->match->steps >= 0; at++) {
    const char *end = match_items(s, item + 1, at);
    if (end) return end;
    if (!fits(s, item, at)) return NULL;
  }
  return NULL;
}

/* One item without a repeat: where the next one starts, NULL if it does not fit. */
static const char *match_one(const Subject *s, const PatternItem *item, const char *at)
{
  PatternCapture *capture = &s->match->captures[item->a % PATTERN_CAPTURES];
  switch ((ItemKind)item->kind) {
  case ITEM_BYTES: return fits(s, item, at) ? at + 1 : NULL;
  case ITEM_OPEN: capture->begin = at; return at;
  case ITEM_CLOSE: capture->length = at - capture->begin; return at;
  case ITEM_PLACE: *capture = (PatternCapture){ at, PATTERN_POSITION }; return at;
  case ITEM_SAME: return match_same(s, item, at);
  case ITEM_BALANCE: return match_balance(s, item, at);
  case ITEM_FRONTIER: return at_frontier(s, item, at) ? at : NULL;
  case ITEM_TAIL: return at == s->end ? at : NULL;
  case ITEM_END: break;
  }
  return NULL;
}

static const char *match_items(const Subject *s, const PatternItem *item, const char *at)
{
  for (; item->kind != ITEM_END; item++) {
    if (--s->match->steps < 0) return NULL;
    if (item->repeat == MOST) return match_most(s, item, at, 0);
    if (item->repeat == MOST_BUT_ONE) return match_most(s, item, at, 1);
    if (item->repeat == FEWEST) return match_fewest(s, item, at);
    if (item->repeat == OPTIONAL) {
      const char *end = fits(s, item, at) ? match_items(s, item + 1, at + 1) : NULL;
      if (end) return end;
    } else {
      at = match_one(s, item, at);
      if (!at) return NULL;
    }
  }
  return at;
}

bool pattern_match(const Pattern *pattern, const char *subject, size_t length, size_t at, PatternMatch *match)
{
  Subject s = { subject, subject + length, match };
  const char *end = match->steps < 0 ? NULL : match_items(&s, pattern->items, subject + at);
  if (!end || match->steps < 0) return false;
  match->begin = subject + at;
  match->end = end;
  return true;
}

bool pattern_search(const Pattern *pattern, const char *subject, size_t length, size_t from, PatternMatch *match)
{
  for (size_t at = from; at <= length && match->steps-- > 0; at++) {
    if (pattern_match(pattern, subject, length, at, match)) return true;
    if (pattern->anchored) break;
  }
  return false;
}
