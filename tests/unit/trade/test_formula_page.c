/* test_formula_page.c - docs/formulas.md is what the register of formulas says. After a change to a formula, write
 * the page anew with UPDATE_DOCS=1 in the environment, and read the difference. */
#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "trade/trade.h"

static const char path[] = "docs/formulas.md";

/* "coverage.rate" -> "coverage" */
static size_t module_length(const TradeFormula *f)
{
  return strcspn(f->id, ".");
}

static void print_formula(Buf *page, const TradeFormula *f)
{
  const char *status = basis_status_name(f->basis.status), *source = f->basis.source;
  buf_printf(page, "### %s\n\n    %s\n\n%s\n\n", f->id, f->says, f->doc);
  if (strncmp(source, status, strlen(status)) == 0) buf_printf(page, "Basis: %s.\n\n", source);
  else buf_printf(page, "Basis: %s; %s.\n\n", status, source);
}

static void print_page(Buf *page)
{
  buf_puts(page,
           "# Formulas and their sources\n\n"
           "Printed from the register of formulas in `interp/trade/`; do not edit this page by hand.\n"
           "`gritwork why` names these formulas beside its numbers. What the basis of a formula says:\n\n"
           "- confirmed: the figure, or the formula and its inputs, was seen in a published source;\n"
           "- from memory: known from the cited standard or handbook, not seen again; check it there;\n"
           "- common practice: a rule of thumb of the trade, without a source;\n"
           "- computed: arithmetic or mathematics, as good as its inputs.\n\n"
           "Limits on people, chemicals and power are figures to check against. Product data sheets, local\n"
           "codes and licensed practice come first, and nothing here says that a floor or a job is safe.\n\n");
  const TradeFormula *before = NULL;
  for (size_t i = 0; trade_formula_at(i); i++) {
    const TradeFormula *f = trade_formula_at(i);
    size_t length = module_length(f);
    if (!before || module_length(before) != length || strncmp(before->id, f->id, length) != 0)
      buf_printf(page, "## %.*s\n\n", (int)length, f->id);
    print_formula(page, f);
    before = f;
  }
  page->text[--page->length] = '\0'; /* one line break at the end */
}

static void write_page(const Buf *page)
{
  FILE *file = fopen(path, "w");
  assert_non_null(file);
  assert_int_equal(fwrite(page->text, 1, page->length, file), page->length);
  assert_int_equal(fclose(file), 0);
}

static void read_page(Buf *page)
{
  char block[4096];
  FILE *file = fopen(path, "r");
  assert_non_null(file);
  for (size_t got; (got = fread(block, 1, sizeof block, file)) > 0;) buf_add(page, block, got);
  fclose(file);
}

static void the_page_of_formulas_is_up_to_date(void **state)
{
  (void)state;
  Buf want = { 0 }, got = { 0 };
  print_page(&want);
  if (getenv("UPDATE_DOCS")) write_page(&want);
  read_page(&got);
  if (strcmp(buf_text(&got), buf_text(&want)) != 0)
    print_error("%s is out of date: run this test with UPDATE_DOCS=1 and read the difference\n", path);
  assert_true(strcmp(buf_text(&got), buf_text(&want)) == 0);
  buf_free(&want);
  buf_free(&got);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(the_page_of_formulas_is_up_to_date),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
