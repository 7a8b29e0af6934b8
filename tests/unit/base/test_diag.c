/* Findings: kept once, ordered, and printed for people and programs. */
#include "support.h"

#include <stdio.h>
#include <string.h>

#include "base/diag.h"

static Span find(const Sources *sources, uint32_t source, const char *text)
{
  const char *all = sources_text(sources, source, NULL);
  const char *at = strstr(all, text);
  assert_non_null(at);
  uint32_t begin = (uint32_t)(at - all);
  return (Span){ source, begin, begin + (uint32_t)strlen(text) };
}

static const char SALT_AND_PEPPER[] =
    "return tailor(require \"methods.cream_wet\", \"salt and pepper, dyed\") {\n"
    "  revision = \"1\",\n"
    "  finish = { exposure = \"fine aggregate\" },\n"
    "  before \"open\"    { hone \"cut 30\" { grit = 30, bond = \"resin\", passes = 3 } },\n"
    "}\n";

static void a_finding_shows_place_excerpt_note_help_and_basis(void **state)
{
  (void)state;
  Sources *sources = sources_new();
  uint32_t source =
      sources_add(sources, "recipes/methods/salt_and_pepper_dyed.lua", SALT_AND_PEPPER, strlen(SALT_AND_PEPPER));
  Diags *diags = diags_new();
  diags_add(diags, &(Diag){
    .level = DIAG_ERROR,
    .code = "grit-step",
    .message = "30 to 100 in one bond family is a 3.3x step; the coarser scratch will show through",
    .at = find(sources, source, "grit = 30"),
    .note = "the next abrasive is `grit = 100` at recipes/methods/cream_wet.lua:8:24",
    .help = "put one step between them, for instance 50 or 60",
    .basis = "common practice (about 2x, warn at 2.5x, skipped step over 3x); by the removal model the next step "
             "needs 14 passes to clear it, 6 are planned",
  });
  Buf out = { 0 };
  diags_print(diags, sources, (DiagStyle){ .width = 100 }, &out);
  assert_string_equal(buf_text(&out),
    "error[grit-step]: 30 to 100 in one bond family is a 3.3x step; the coarser scratch will show through\n"
    "  recipes/methods/salt_and_pepper_dyed.lua:4:38\n"
    "   4 |   before \"open\"    { hone \"cut 30\" { grit = 30, bond = \"resin\", passes = 3 } },\n"
    "     |                                      ^^^^^^^^^\n"
    "  note: the next abrasive is `grit = 100` at recipes/methods/cream_wet.lua:8:24\n"
    "  help: put one step between them, for instance 50 or 60\n"
    "  basis: common practice (about 2x, warn at 2.5x, skipped step over 3x); by the removal model the\n"
    "         next step needs 14 passes to clear it, 6 are planned\n"
    "\n"
    "1 error\n");
  buf_free(&out);
  diags_free(diags);
  sources_free(sources);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_finding_shows_place_excerpt_note_help_and_basis),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
