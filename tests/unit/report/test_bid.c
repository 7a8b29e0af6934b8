/* test_bid.c - the papers of a bid: who is told what, and that nothing in them can be taken for something else. */
#include "report/bid.h"

#include <stdlib.h>
#include <string.h>

#include "cost/split.h"
#include "report/paper.h"
#include "report/workbook.h"
#include "support.h"
#include "unit/cost/sample.h"

static Money parts[2];

static Bid bid_of(Sample *s)
{
  const Cost *cost = sample_cost(s);
  assert_true(split_by_area(&s->plan, cost, s->arena, parts));
  return (Bid){ .plan = &s->plan, .cost = cost, .book = s->why, .sources = s->sources, .arena = s->arena,
                .fingerprint = bid_fingerprint(s->sources, s->arena), .made = "2026-11-30", .area_price = parts };
}

typedef void (*Writer)(const Bid *bid, Buf *out);

static void crew_en(const Bid *bid, Buf *out) { bid_crew_sheet(bid, LANGUAGE_EN, out); }
static void crew_es(const Bid *bid, Buf *out) { bid_crew_sheet(bid, LANGUAGE_ES, out); }

static Buf written(Sample *s, Writer write)
{
  Bid bid = bid_of(s);
  Buf out = { 0 };
  write(&bid, &out);
  return out;
}

static void check_says(Sample *s, Writer write, const char *text, bool wanted, int line)
{
  Buf out = written(s, write);
  bool found = strstr(buf_text(&out), text) != NULL;
  buf_free(&out);
  if (found == wanted) return;
  print_error("\"%s\" is %s\n", text, found ? "there" : "missing");
  _fail(__FILE__, line);
}

#define assert_says(s, write, text) check_says(s, write, text, true, __LINE__)
#define assert_silent(s, write, text) check_says(s, write, text, false, __LINE__)

static void the_client_reads_scope_and_price_and_what_is_not_in_it(void **state)
{
  (void)state;
  Sample *s = sample_new();
  const char *excludes[] = { "moving of ovens" };
  Allowance cracks = { "crack repair", { 0 }, sample_rate(s, "crack repair", 500, 3) };
  s->job.client = "Harbour Street Ltd";
  s->job.excludes = excludes;
  s->job.exclude_count = 1;
  s->job.allowances = &cracks;
  s->job.allowance_count = 1;
  static const char *const texts[] = { "for Harbour Street Ltd",
                                       "moving of ovens",
                                       "crack repair\t$500.00",
                                       "mohs hardness",
                                       "at least 45",
                                       "lithium silicate",
                                       "cream, polished, gloss at least 45 GU at 60 degrees",
                                       "licensed practice" };
  for (size_t i = 0; i < COUNT_OF(texts); i++) assert_says(s, bid_proposal, texts[i]);
  sample_free(s);
}

static void the_client_reads_who_offers_and_on_which_terms(void **state)
{
  (void)state;
  Sample *s = sample_new();
  const char *terms[] = { "half at the start" };
  assert_silent(s, bid_proposal, "Terms");
  assert_silent(s, bid_proposal, "Offered by");
  s->job.contractor = "Alder Floors";
  s->job.terms = terms;
  s->job.term_count = 1;
  assert_says(s, bid_proposal, "Offered by Alder Floors.");
  assert_says(s, bid_proposal, "Terms");
  assert_says(s, bid_proposal, "half at the start");
  assert_silent(s, bid_proposal, "for work done by");
  s->prices.days.until_day = s->job.start_day + 30;
  assert_says(s, bid_proposal, "This price is for work done by Wed 30 Dec 2026.");
  s->prices.days.until_day = date_day(9999, 12, 31);
  assert_says(s, bid_proposal, "This price is for work done by Fri 31 Dec 9999.");
  s->prices.days.until_day = s->job.start_day + 1; /* the work goes on for a day more */
  assert_silent(s, bid_proposal, "for work done by");
  sample_free(s);
}

static void the_shop_is_told_which_warnings_stand_and_the_client_is_not(void **state)
{
  (void)state;
  static const Writer papers[] = { bid_package, bid_proposal };
  Sample *s = sample_new();
  s->prices.days.until_day = s->job.start_day - 1;
  Bid bid = bid_of(s);
  bid.findings = s->diags;
  for (size_t i = 0; i < COUNT_OF(papers); i++) {
    Buf out = { 0 };
    papers[i](&bid, &out);
    bool told = strstr(buf_text(&out), "price-stale: price book `shop 2026` holds until 2026-11-29") != NULL;
    assert_true(told == (papers[i] == bid_package));
    buf_free(&out);
  }
  sample_free(s);
}

static void the_client_is_not_told_what_the_shop_pays(void **state)
{
  (void)state;
  Sample *s = sample_new();
  static const char *const texts[] = { "LAB-", "margin", "overhead",    "burden",
                                       "$62",  "profit", "contingency", "direct cost" };
  for (size_t i = 0; i < COUNT_OF(texts); i++) {
    assert_silent(s, bid_proposal, texts[i]);
    if (i != 4) assert_says(s, bid_package, texts[i]); /* by the hour: said as $62.00 */
  }
  sample_free(s);
}

static void the_crew_reads_no_money(void **state)
{
  (void)state;
  Sample *s = sample_new();
  assert_silent(s, crew_en, "$");
  assert_silent(s, crew_es, "$");
  sample_free(s);
}

static void the_crew_reads_it_in_its_language(void **state)
{
  (void)state;
  static const struct {
    const char *en, *es;
  } lines[] = {
    { "step\t1\tcheck\tsurvey\tmohs hardness", "step\t1\tmedir\tsurvey\tdureza Mohs" },
    { "step\t2\thone\topen\tresin 100", "step\t2\tafinar\topen\tresina 100" },
    { "step\t4\tdensify\tharden\tlithium silicate", "step\t4\tdensificar\tharden\tsilicato de litio" },
    { "wet, 2 passes, overlap 3 in, travel 20 ft/min", "en húmedo, 2 pasadas, traslape 3 in, avance 20 ft/min" },
    { "25 min to 45 min, keep wet", "25 min a 45 min, mantener mojado" },
    { "hold\tHOLD: stop here until signed", "hold\tALTO: no seguir sin firma" },
    { "Mon 30 Nov 07:00-07:20", "lun 30 nov 07:00-07:20" },
    { "wanted at least 45", "se pide al menos 45" },
    { "fact\ttool care\trinse the tools", "fact\tcuidado\trinse the tools" }, /* the shop's own words stay */
  };
  Sample *s = sample_new();
  for (size_t i = 0; i < COUNT_OF(lines); i++) {
    assert_says(s, crew_en, lines[i].en);
    assert_says(s, crew_es, lines[i].es);
  }
  sample_free(s);
}

static void readings_have_boxes_and_holds_have_lines_to_sign(void **state)
{
  (void)state;
  Sample *s = sample_new();
  assert_says(s, crew_en, "blanks\t5\n");
  assert_says(s, crew_en, "blanks\t10\n");
  assert_says(s, crew_en, "sign\tname\tdate\ttime\n");
  s->shop[0].hold = s->shop[5].hold = false;
  assert_silent(s, crew_en, "sign\t");
  assert_silent(s, crew_en, "hold\t");
  sample_free(s);
}

static void each_area_begins_on_a_new_page(void **state)
{
  (void)state;
  Sample *s = sample_new();
  assert_says(s, crew_en, "break\ntitle\tArea: office\tCrew sheet, Harbour Street bakery, 2 of 2\n");
  sample_free(s);
}

static void who_answers_for_a_broken_rule_is_on_every_paper(void **state)
{
  (void)state;
  static const Writer writers[] = { bid_proposal, bid_package, crew_en, crew_es };
  Sample *s = sample_new();
  Waiver waiver = { "grit-step", "the mock-up showed no scratch", "A. Foreman", "fine", NULL };
  s->recipes[SHOP].waivers = &waiver;
  s->recipes[SHOP].waiver_count = 1;
  for (size_t i = 0; i < COUNT_OF(writers); i++)
    assert_says(s, writers[i], "the mock-up showed no scratch (A. Foreman)");
  sample_free(s);
}

static void a_date_is_shown_only_if_somebody_said_it(void **state)
{
  (void)state;
  Sample *s = sample_new();
  for (int dated = 0; dated <= 1; dated++) {
    Bid bid = bid_of(s);
    Buf out = { 0 };
    bid.dated = dated;
    bid_proposal(&bid, &out);
    const char *title = strstr(buf_text(&out), "\ntitle\t");
    assert_non_null(title);
    assert_int_equal(strstr(title, "2026-11-30\n") != NULL, dated);
    buf_free(&out);
  }
  sample_free(s);
}

/* ---- files for programs */

static void a_name_cannot_become_a_formula_in_the_purchase_list(void **state)
{
  (void)state;
  static const char *const names[] = { "=cmd|' /c calc'!A1", "+1", "-1", "@sum" };
  for (size_t i = 0; i < COUNT_OF(names); i++) {
    Sample *s = sample_new();
    s->guard[0].label = "can";
    s->materials[1].name = s->office[1].with = names[i];
    Buf want = { 0 };
    buf_printf(&want, "\"material\",\"'%s, can\",1,\"package\",96.00,96.00,96.00,\"USD\",", names[i]);
    assert_says(s, bid_purchases_csv, buf_text(&want));
    buf_free(&want);
    sample_free(s);
  }
}

static void tools_are_bought_whole_and_charged_as_worn(void **state)
{
  (void)state;
  Sample *s = sample_new();
  assert_says(s, bid_purchases_csv, "\"tool\",\"resin 400\",1,\"set\",380.00,380.00,163.40,\"USD\",");
  assert_says(s, bid_purchases_csv,
              "\"material\",\"lithium silicate, 5 gal\",2,\"package\",185.00,370.00,370.00,\"USD\",");
  sample_free(s);
}

/* Every formula has the engine's own figure beside it, so that a viewer that does not reckon shows it too. */
static void the_workbook_says_what_each_formula_comes_to(void **state)
{
  (void)state;
  Sample *s = sample_new();
  Buf out = written(s, bid_workbook);
  Cells line = { 0 };
  const char *at = out.text, *end = at + out.length;
  double price = 0;
  int formulas = 0;
  while (cells_next(&at, end, &line)) {
    if (strcmp(cells_at(&line, 0), "cell") != 0) continue;
    if (strcmp(cells_at(&line, 3), workbook_styles[STYLE_PRICE]) == 0) price = atof(cells_at(&line, 6));
    if (strcmp(cells_at(&line, 4), "f") != 0) continue;
    assert_true(*cells_at(&line, 6) != '\0');
    formulas++;
  }
  assert_near(price, 7341.09, 1e-9);
  assert_true(formulas > 25);
  cells_free(&line);
  buf_free(&out);
  sample_free(s);
}

/* The workbook cannot simulate: a contingency from risk is a sum in a cell that may be changed. */
static void a_contingency_from_risk_is_a_sum_in_the_workbook(void **state)
{
  (void)state;
  Sample *s = sample_new();
  sample_uncertain(s, 200);
  s->job.risk.production = sample_estimate(s, "production", 0.8, 1, 1.1);
  s->prices.contingency = (Percent){ 0 };
  s->prices.certainty = sample_maybe(s, "certainty", 0.8, "", 45);
  Bid bid = bid_of(s);
  Buf out = { 0 };
  bid_workbook(&bid, &out);
  Cells line = { 0 };
  const char *at = out.text, *end = at + out.length, *row = NULL;
  double rate = 0, amount = 0;
  while (cells_next(&at, end, &line)) {
    if (strcmp(cells_at(&line, 5), "CONTINGENCY") == 0) row = arena_strdup(s->arena, cells_at(&line, 1));
    if (row == NULL || strcmp(cells_at(&line, 1), row) != 0) continue;
    if (strcmp(cells_at(&line, 2), "4") == 0) rate = atof(cells_at(&line, 5));
    if (strcmp(cells_at(&line, 2), "5") == 0) amount = atof(cells_at(&line, 6));
    if (strcmp(cells_at(&line, 2), "5") == 0) break;
  }
  const CostLine *contingency = &bid.cost->build[1];
  assert_int_equal(contingency->kind, LINE_CONTINGENCY);
  assert_true(contingency->amount > 0);
  assert_near(rate, (double)contingency->amount / MONEY_SCALE, 1e-9);
  assert_near(amount, rate, 1e-9);
  cells_free(&line);
  buf_free(&out);
  sample_free(s);
}

/* RFC 4180 knows no comments: the fingerprint is a column, the same in each row. */
static void each_row_of_the_purchase_list_bears_the_fingerprint(void **state)
{
  (void)state;
  Sample *s = sample_new();
  Bid bid = bid_of(s);
  Buf out = { 0 }, tail = { 0 };
  bid_purchases_csv(&bid, &out);
  buf_printf(&tail, ",\"%s\"\r\n", bid.fingerprint);
  int rows = 0, marked = 0;
  const char *at = buf_text(&out);
  for (; (at = strstr(at, "\r\n")) != NULL && at[2] != '\0'; at += 2) rows++;
  for (at = buf_text(&out); (at = strstr(at, buf_text(&tail))) != NULL; at++) marked++;
  assert_non_null(strstr(buf_text(&out), ",fingerprint\r\n"));
  assert_true(rows > 3);
  assert_int_equal(marked, rows);
  buf_free(&out);
  buf_free(&tail);
  sample_free(s);
}

static void the_fingerprint_follows_every_byte_of_every_source(void **state)
{
  (void)state;
  static const char *const texts[][2] = { { "a", "b" }, { "a", "c" }, { "b", "a" }, { "ab", "" }, { "", "ab" } };
  Arena *arena = arena_new();
  const char *prints[COUNT_OF(texts)];
  for (size_t i = 0; i < COUNT_OF(texts); i++) {
    Sources *sources = sources_new();
    for (int t = 0; t < 2; t++) sources_add(sources, t ? "second" : "first", texts[i][t], strlen(texts[i][t]));
    prints[i] = bid_fingerprint(sources, arena);
    assert_int_equal(strlen(prints[i]), 64);
    for (size_t k = 0; k < i; k++) assert_string_not_equal(prints[i], prints[k]);
    sources_free(sources);
  }
  arena_free(arena);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(the_client_reads_scope_and_price_and_what_is_not_in_it),
    cmocka_unit_test(the_client_reads_who_offers_and_on_which_terms),
    cmocka_unit_test(the_shop_is_told_which_warnings_stand_and_the_client_is_not),
    cmocka_unit_test(the_client_is_not_told_what_the_shop_pays),
    cmocka_unit_test(the_crew_reads_no_money),
    cmocka_unit_test(the_crew_reads_it_in_its_language),
    cmocka_unit_test(readings_have_boxes_and_holds_have_lines_to_sign),
    cmocka_unit_test(each_area_begins_on_a_new_page),
    cmocka_unit_test(who_answers_for_a_broken_rule_is_on_every_paper),
    cmocka_unit_test(a_date_is_shown_only_if_somebody_said_it),
    cmocka_unit_test(a_name_cannot_become_a_formula_in_the_purchase_list),
    cmocka_unit_test(tools_are_bought_whole_and_charged_as_worn),
    cmocka_unit_test(the_workbook_says_what_each_formula_comes_to),
    cmocka_unit_test(a_contingency_from_risk_is_a_sum_in_the_workbook),
    cmocka_unit_test(each_row_of_the_purchase_list_bears_the_fingerprint),
    cmocka_unit_test(the_fingerprint_follows_every_byte_of_every_source),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
