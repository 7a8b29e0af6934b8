/* fuzz_words.c - documents that are always Lua and seldom sense: each byte picks a word, a field or a value, so
 * that the words layer, the rules and the reading into the model see much more than bytes at random would reach. */
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "lang/script.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const char *const documents[] = { "recipe", "job", "prices", "rule", "test", "tailor" };
static const char *const parts[] = {
  "grind", "hone", "polish", "burnish", "collect", "clean", "densify", "dye", "stain", "grout", "fill", "patch", "guard",
  "wait", "check", "note", "crew", "machine", "area", "waive", "param", "hne",
};
static const char *const names[] = { "a", "b", "100", "resin 100", "lithium silicate", "", "grit-step", "\\n" };
static const char *const fields[] = {
  "grit", "bond", "wet", "passes", "overlap", "travel", "machine", "water", "edges", "edge_rate", "within", "people",
  "skill", "care", "says", "with", "rate", "dry", "spread", "coats", "waste", "dwell", "keep", "measure", "want",
  "readings", "hold", "system", "matrix", "revision", "units", "finish", "suits", "exposure", "appearance", "gloss",
  "hardness", "age", "humidity", "rules", "currency", "start", "finish_by", "shifts", "site", "slab", "climate", "hours",
  "days", "night", "closed", "count", "skills", "shift", "does", "width", "length", "area", "recipe", "joints", "set",
  "duty", "turn", "tank", "trip", "amps", "volts", "circuits", "labour", "burden", "overtime", "after", "premium",
  "tools", "materials", "machines", "extras", "price", "life", "size", "gives", "hour", "day", "week", "owned", "per",
  "overhead", "contingency", "margin", "markup", "time", "of", "finds", "each", "scope", "level", "because", "by", "a",
  "resin 100", "prices", "mock_up", "client", "excludes", "allowances", "pases",
};
static const char *const scalars[] = {
  "true", "false", "0", "1", "-1", "4.5", "100", "1e308", "-0.0", "0/0", "1/0", "math.maxinteger", "math.mininteger",
  "\"\"", "\"3 in\"", "\"0 ft\"", "\"-2 m\"", "\"1e30 ft\"", "\"8 min\"", "\"400 sqft/gal\"", "\"18 %\"", "\"$62/h\"",
  "\"$1e12\"", "\"60 F\"", "\"5 gal\"", "\"12000 sqft/set\"", "\"20:00 to 06:00\"", "\"2027-03-01 20:00\"",
  "\"2027-02-30\"", "\"us\"", "\"metric\"", "\"USD\"", "\"resin\"", "\"lithium silicate\"", "\"gloss 60\"",
  "\"mohs hardness\"", "\"cream\"", "\"polished\"", "\"mon\"", "\"hone\"", "\"any\"", "\"job\"", "\"1 per 500 sqft\"",
  "\"\\u{202e}\\0\"", "{}", "recipe", "string", "function() end", "...",
};
static const char *const calls[] = { "between", "at_least", "at_most", "about", "q", "param" };

#define COUNT(array) (sizeof(array) / sizeof *(array))
#define PICK(input, table) ((table)[next(input) % COUNT(table)])

typedef struct {
  const uint8_t *at, *end;
} Input;

static unsigned next(Input *input) { return input->at < input->end ? *input->at++ : 0; }

static void add_entries(Input *input, int depth, Buf *out);

static void add_value(Input *input, int depth, Buf *out)
{
  enum { TABLE = 200, WORD = 220, CALL = 235 };
  unsigned kind = next(input);
  if (depth <= 0 || kind < TABLE) {
    buf_puts(out, scalars[kind % COUNT(scalars)]);
  } else if (kind < WORD) {
    add_entries(input, depth - 1, out);
  } else if (kind < CALL) {
    buf_printf(out, "%s \"%s\" ", PICK(input, parts), PICK(input, names));
    add_entries(input, depth - 1, out);
  } else {
    buf_printf(out, "%s(", PICK(input, calls));
    for (unsigned more = next(input) % 4, i = 0; i <= more; i++) {
      if (i) buf_puts(out, ", ");
      add_value(input, depth - 1, out);
    }
    buf_putc(out, ')');
  }
}

/* { ["field"] = value, word "name" { ... }, value } */
static void add_entries(Input *input, int depth, Buf *out)
{
  enum { NAMED = 160, WORD = 240 };
  buf_puts(out, "{ ");
  for (unsigned more = next(input) % 12; more > 0 && input->at < input->end; more--) {
    unsigned kind = next(input);
    if (kind < NAMED) {
      buf_printf(out, "[\"%s\"] = ", PICK(input, fields));
      add_value(input, depth, out);
    } else if (kind < WORD && depth > 0) {
      buf_printf(out, "%s \"%s\" ", PICK(input, parts), PICK(input, names));
      add_entries(input, depth - 1, out);
    } else add_value(input, depth, out);
    buf_puts(out, ", ");
  }
  buf_puts(out, "}");
}

static void add_document(Input *input, Buf *out)
{
  const char *word = PICK(input, documents);
  if (strcmp(word, "tailor") == 0) {
    buf_puts(out, "return tailor(recipe \"a\" ");
    add_entries(input, 3, out);
    buf_puts(out, ", \"b\") ");
  } else buf_printf(out, "return %s \"a\" ", word);
  add_entries(input, 4, out);
}

static bool read_nothing(void *context, const char *module, Buf *text, Buf *shown, Buf *why)
{
  (void)context, (void)module, (void)text, (void)shown;
  buf_puts(why, "no such file");
  return false;
}

static void fail(const Buf *text, const Buf *findings)
{
  fwrite(buf_text(text), 1, text->length, stderr);
  fprintf(stderr, "\n%s\n", buf_text(findings));
  abort();
}

static void read_document(const Buf *text)
{
  Sources *sources = sources_new();
  Diags *diags = diags_new();
  Document document = { .arena = arena_new(), .why = why_new() };
  Script *script = script_new(sources, diags, (ScriptReader){ read_nothing, NULL, NULL });
  Buf findings = { 0 };
  script_read(script, "fuzz.lua", text, &document);
  diags_print(diags, sources, (DiagStyle){ .width = 80 }, &findings);
  for (size_t i = 0; i < diags_count(diags); i++)
    if (strcmp(diags_get(diags, i)->code, "internal") == 0) fail(text, &findings);
  if (script_over_budget(script)) fail(text, &findings); /* nothing here can loop */
  if (document.kind == DOCUMENT_NONE && diags_count(diags) == 0) fail(text, &findings);
  buf_free(&findings);
  script_free(script);
  arena_free(document.arena);
  why_free(document.why);
  diags_free(diags);
  sources_free(sources);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  Input input = { data, data + size };
  Buf text = { 0 };
  add_document(&input, &text);
  read_document(&text);
  buf_free(&text);
  return 0;
}
