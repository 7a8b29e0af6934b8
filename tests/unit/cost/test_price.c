/* test_price.c - the sample's take-off against its price book, and what can be wrong with a price book. */
#include "support.h"
#include "unit/cost/sample.h"

static const CostLine *line_of(const Cost *cost, const char *code)
{
  for (int i = 0; i < cost->line_count; i++)
    if (strcmp(cost->lines[i].code, code) == 0) return &cost->lines[i];
  for (int i = 0; i < cost->build_count; i++)
    if (strcmp(cost->build[i].code, code) == 0) return &cost->build[i];
  return NULL;
}

static const Diag *finding(const Sample *s, const char *code)
{
  for (size_t i = 0; i < diags_count(s->diags); i++)
    if (strcmp(diags_get(s->diags, i)->code, code) == 0) return diags_get(s->diags, i);
  return NULL;
}

/* ---- what things cost */

static void every_line_is_quantity_times_rate(void **state)
{
  (void)state;
  static const struct {
    const char *code;
    double quantity, amount;
  } want[] = {
    { "LAB-operator", 23.25, 1441.50 },    /* 1395 min x $62 */
    { "LAB-finisher", 3.5, 204.75 },
    { "NIGHT-finisher", 204.75, 30.71 },   /* 15 %, 30.7125 */
    { "OVER-operator", 31, 15.50 },        /* 50 % of half an hour's $62 */
    { "BURDEN", 1692.46, 228.48 },         /* 13.5 % of all of the above, 228.4821 */
    { "RUN-planetary 32 in", 18.67, 522.76 },
    { "DAY-planetary 32 in", 3, 450 },
    { "RUN-edger", 5, 30 },
    { "DAY-scrubber", 1, 40 },
    { "TOOL-resin 100", 0.95, 399 },       /* 441 m2 of 464.5 m2 */
    { "TOOL-resin 400", 0.43, 163.40 },
    { "MAT-lithium silicate 5 gal", 2, 370 },
    { "MAT-guard 1 gal", 1, 96 },
    { "EXTRA-mobilisation", 1, 450 },
    { "EXTRA-slurry disposal", 50, 55 },
    { "EXTRA-floor protection", 5150.01, 412.00 },
    { "TAX-goods", 1028.40, 84.84 },       /* 8.25 % of tools and materials, 84.843 */
  };
  Sample *s = sample_new();
  const Cost *cost = sample_cost(s);
  assert_int_equal(cost->line_count, (int)COUNT_OF(want));
  for (int i = 0; i < (int)COUNT_OF(want); i++) {
    assert_string_equal(cost->lines[i].code, want[i].code);
    assert_int_equal(cost->lines[i].quantity, DOLLARS(want[i].quantity));
    assert_int_equal(cost->lines[i].amount, DOLLARS(want[i].amount));
  }
  assert_true(cost->complete);
  assert_int_equal(diags_count(s->diags), 0);
  sample_free(s);
}

static void standing_time_is_charged_as_the_book_says(void **state)
{
  (void)state;
  static const struct {
    int64_t ppm;
    double amount; /* 45 min at $62; 0: no line */
    double overtime; /* standing that is paid counts: Tuesday's 45 min make 30 more past 8 h */
    double burden; /* 13.5 % of 1692.46 and of all that; the finisher's standing is 0.17 h at $58.50, 9.94 */
  } cases[] = {
    { 1000000, 46.50, 31.00, 238.19 }, /* 1764.40 */
    { 500000, 23.25, 31.00, 234.38 },  /* the finisher's 4.97; 1736.18 */
    { 0, 0, 15.50, 228.48 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Sample *s = sample_new();
    s->prices.standing = sample_percent(s, "standing", cases[i].ppm, 43);
    const Cost *cost = sample_cost(s);
    const CostLine *line = line_of(cost, "STAND-operator");
    assert_int_equal(line ? line->amount : 0, DOLLARS(cases[i].amount));
    assert_int_equal(line_of(cost, "OVER-operator")->amount, DOLLARS(cases[i].overtime));
    assert_int_equal(line_of(cost, "BURDEN")->amount, DOLLARS(cases[i].burden));
    sample_free(s);
  }
}

static void the_price_is_built_on_direct_cost(void **state)
{
  (void)state;
  Sample *s = sample_new();
  const Cost *cost = sample_cost(s);
  assert_int_equal(cost->direct, DOLLARS(4993.94));
  assert_int_equal(line_of(cost, "OVERHEAD")->amount, DOLLARS(599.27));    /* 12 %, 599.2728 */
  assert_int_equal(line_of(cost, "CONTINGENCY")->amount, DOLLARS(279.66)); /* 5 % of 5593.21, 279.6605 */
  assert_int_equal(cost->cost, DOLLARS(5872.87));
  assert_int_equal(line_of(cost, "PROFIT")->amount, DOLLARS(1468.22)); /* 5872.87 / 0.8, 7341.0875 */
  assert_int_equal(cost->price, DOLLARS(7341.09));
  sample_free(s);
}

static void profit_follows_the_rule_of_the_book(void **state)
{
  (void)state;
  static const struct {
    ProfitRule rule;
    bool given;
    double price;
  } cases[] = {
    { PROFIT_MARGIN, true, 7341.09 },
    { PROFIT_MARKUP, true, 7047.44 }, /* 5872.87 x 1.2, 7047.444 */
    { PROFIT_NONE, false, 5872.87 },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    Sample *s = sample_new();
    s->prices.profit_rule = cases[i].rule;
    s->prices.profit.given = cases[i].given;
    const Cost *cost = sample_cost(s);
    assert_int_equal(cost->price, DOLLARS(cases[i].price));
    assert_int_equal(cost->profit_rule, cases[i].rule);
    sample_free(s);
  }
}

static void a_rate_is_multiplied_in_the_unit_it_was_written_in(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->areas[SHOP].area_m2.value = 4500 * SQFT_M2; /* 5,000 square feet with the office */
  s->extras[2].price.money = DOLLARS(0.35);
  const CostLine *line = line_of(sample_cost(s), "EXTRA-floor protection");
  assert_int_equal(line->quantity, DOLLARS(5000));
  assert_int_equal(line->amount, DOLLARS(1750)); /* a rate per square metre, 3.7674, would give 1750.03 */
  assert_string_equal(line->unit, "sqft");
  sample_free(s);
}

static void extras_are_counted_by_what_they_are_priced_per(void **state)
{
  (void)state;
  static const struct {
    ExtraPer per;
    const char *unit;
    double quantity;
  } cases[] = {
    { PER_JOB, "job", 1 },           { PER_AREA, "area", 2 },           { PER_DAY, "day", 3 },
    { PER_M2, "m2", 478.45 },        { PER_SQFT, "sqft", 5150.01 },     { PER_M, "m", 30 },
    { PER_FT, "ft", 98.43 },         { PER_LITRE_SLURRY, "L", 189.27 }, { PER_GALLON_SLURRY, "gal", 50 },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    Sample *s = sample_new();
    s->extras[0].per = cases[i].per;
    const CostLine *line = line_of(sample_cost(s), "EXTRA-mobilisation");
    assert_string_equal(line->unit, cases[i].unit);
    assert_int_equal(line->quantity, DOLLARS(cases[i].quantity));
    sample_free(s);
  }
}

static void the_mix_of_packages_is_said_with_what_is_left(void **state)
{
  (void)state;
  static const struct {
    double gallons;
    const char *basis;
  } cases[] = {
    { 9.3, "9.3 gal -> 2 x 5 gal; 0.7 gal left" },
    { 7.5, "7.5 gal -> 3 x 1 gal, 1 x 5 gal; 0.5 gal left" },
    { 5, "5 gal -> 1 x 5 gal" },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    Sample *s = sample_new();
    s->activities[HARDEN].material.value = cases[i].gallons * GAL_L;
    assert_string_equal(line_of(sample_cost(s), "MAT-lithium silicate 5 gal")->basis, cases[i].basis);
    sample_free(s);
  }
}

static void a_tool_without_a_life_is_one_set_and_an_assumption(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->tools[0].life_m2.given = false;
  const CostLine *line = line_of(sample_cost(s), "TOOL-resin 100");
  assert_int_equal(line->quantity, DOLLARS(1));
  assert_int_equal(why_node(s->why, why_node(s->why, line->why)->inputs[0])->origin, WHY_DEFAULT);
  sample_free(s);
}

static void what_the_book_does_not_add_is_an_assumption(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->prices.burden.given = s->prices.overhead.given = s->prices.material_tax.given = false;
  uint32_t before = why_count(s->why);
  const Cost *cost = sample_cost(s);
  int assumed = 0;
  for (uint32_t why = before + 1; why <= why_count(s->why); why++) {
    const WhyNode *node = why_node(s->why, why);
    assumed += node->origin == WHY_DEFAULT && strncmp(node->basis, "not in the price book", 21) == 0;
  }
  assert_int_equal(assumed, 4); /* and of standing time the sample says nothing */
  assert_null(line_of(cost, "BURDEN"));
  assert_null(line_of(cost, "OVERHEAD"));
  sample_free(s);
}

static bool leads_to(const WhyBook *book, Why from, Why to)
{
  if (from == to) return true;
  const WhyNode *node = why_node(book, from);
  for (int i = 0; i < node->input_count; i++)
    if (leads_to(book, node->inputs[i], to)) return true;
  return false;
}

static void the_price_leads_back_to_every_rate_and_share(void **state)
{
  (void)state;
  Sample *s = sample_new();
  const Cost *cost = sample_cost(s);
  const Why sources[] = {
    s->labour[0].per_hour.why, s->prices.burden.why,   s->prices.night_premium.why, s->tools[1].per_set.why,
    s->silicate[1].price.why,  s->extras[2].price.why, s->prices.profit.why,        s->tools[0].life_m2.figure.why,
    s->activities[FINE].minutes.why,
  };
  for (int i = 0; i < (int)COUNT_OF(sources); i++) assert_true(leads_to(s->why, cost->why, sources[i]));
  assert_false(leads_to(s->why, cost->why, s->silicate[0].price.why)); /* the small package was not bought */
  sample_free(s);
}

/* ---- what is refused */

static void a_job_without_prices_is_refused(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->job.prices = NULL;
  assert_null(sample_cost(s));
  assert_non_null(finding(s, "prices-missing"));
  sample_free(s);
}

static void what_is_used_without_a_price_is_named_and_the_rest_is_priced(void **state)
{
  (void)state;
  static const struct {
    size_t name_at; /* in Sample: the name that is misspelt */
    const char *as, *message, *help;
    int line; /* of the finding */
  } cases[] = {
    { offsetof(Sample, labour[0].name), "operater", "no price for crew `operator` in price book `shop 2026`",
      "did you mean `operater`", 6 },
    { offsetof(Sample, machine_prices[1].name), "edgers", "no price for machine `edger` in price book `shop 2026`",
      "did you mean `edgers`", 11 },
    { offsetof(Sample, tools[0].name), "resin 110", "no price for tool `resin 100` in price book `shop 2026`",
      "did you mean `resin 110`", 21 },
    { offsetof(Sample, materials[0].name), "silicate, lithium",
      "no price for material `lithium silicate` in price book `shop 2026`", "", 23 },
    { offsetof(Sample, materials[1].name), "wax", "no price for material `guard` in price book `shop 2026`",
      "add a price for this material to the price book", 31 },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    Sample *s = sample_new();
    int before = sample_cost(s)->line_count;
    memcpy((char *)s + cases[i].name_at, &cases[i].as, sizeof cases[i].as);
    const Cost *cost = sample_cost(s);
    const Diag *d = finding(s, "price-missing");
    assert_string_equal(d->message, cases[i].message);
    assert_ptr_equal(strstr(d->help, cases[i].help), d->help);
    assert_int_equal(sources_place(s->sources, d->at.source, d->at.begin).line, cases[i].line);
    assert_false(cost->complete);
    assert_in_range(cost->line_count, before - 2, before - 1); /* overtime goes with its wages */
    sample_free(s);
  }
}

static void a_machine_with_neither_rate_has_no_price(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->machine_prices[1].per_hour.given = false;
  assert_false(sample_cost(s)->complete);
  assert_non_null(finding(s, "price-missing"));
  sample_free(s);
}

static void a_material_sold_by_mass_says_what_volume_it_gives(void **state)
{
  (void)state;
  static const PackMeasure measures[] = { PACK_MASS_KG, PACK_COUNT };
  for (size_t i = 0; i < COUNT_OF(measures); i++) {
    Sample *s = sample_new();
    s->guard[0].measure = measures[i];
    s->guard[0].label = "25 lb";
    assert_false(sample_cost(s)->complete);
    assert_string_equal(finding(s, "price-unit")->message,
                        "the work needs a volume of `guard`, but no package of it says what it gives");
    s->guard[0].gives_l = sample_maybe(s, "a bag gives", 0.2 * GAL_L, "L", 53); /* half a gallon: three bags */
    const CostLine *line = line_of(sample_cost(s), "MAT-guard 25 lb");
    assert_int_equal(line->quantity, 3 * AMOUNT_SCALE);
    assert_int_equal(line->amount, DOLLARS(288));
    sample_free(s);
  }
}

/* ---- taxes, allowances, rounding */

static void each_kind_of_line_has_its_own_tax(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->prices.labour_tax = sample_percent(s, "tax on work", 50000, 47);
  s->prices.machine_tax = sample_percent(s, "tax on machines", 60000, 47);
  s->prices.extra_tax = sample_percent(s, "tax on extras", 40000, 47);
  const Cost *cost = sample_cost(s);
  const struct {
    const char *code;
    double base, amount;
  } want[] = { { "TAX-goods", 1028.40, 84.84 },
               { "TAX-work", 1920.94, 96.05 },  /* wages and premiums 1692.46, burden 228.48 */
               { "TAX-machines", 1042.76, 62.57 },
               { "TAX-extras", 917.00, 36.68 } };
  for (size_t i = 0; i < COUNT_OF(want); i++) {
    assert_int_equal(line_of(cost, want[i].code)->quantity, DOLLARS(want[i].base));
    assert_int_equal(line_of(cost, want[i].code)->amount, DOLLARS(want[i].amount));
  }
  sample_free(s);
}

static void an_allowance_is_carried_as_a_line(void **state)
{
  (void)state;
  Sample *s = sample_new();
  Allowance cracks = { "crack repair", sample_at(s, 3), sample_rate(s, "crack repair", 500, 3) };
  Money before = sample_cost(s)->direct;
  s->job.allowances = &cracks;
  s->job.allowance_count = 1;
  const Cost *cost = sample_cost(s);
  assert_int_equal(line_of(cost, "ALLOW-crack repair")->amount, DOLLARS(500));
  assert_int_equal(cost->direct, before + DOLLARS(500));
  sample_free(s);
}

static void a_price_goes_up_to_a_whole_multiple(void **state)
{
  (void)state;
  static const struct {
    double to, price, line; /* from 7341.09 */
  } cases[] = { { 1, 7342, 0.91 }, { 10, 7350, 8.91 }, { 7341.09, 7341.09, 0 }, { 0, 7341.09, -1 } };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Sample *s = sample_new();
    s->prices.round_to = sample_rate(s, "round", cases[i].to, 46);
    const Cost *cost = sample_cost(s);
    const CostLine *line = line_of(cost, "ROUND");
    assert_int_equal(cost->price, DOLLARS(cases[i].price));
    assert_int_equal(line ? line->amount : -1, cases[i].line < 0 ? -1 : DOLLARS(cases[i].line));
    assert_int_equal(cost->cost, DOLLARS(5872.87));
    sample_free(s);
  }
}

/* The job is worked from 30 November to 2 December. */
static void prices_out_of_date_are_a_warning(void **state)
{
  (void)state;
  const int start = date_day(2026, 11, 30), last = start + 2;
  const struct {
    int from, until;
    const char *message; /* NULL: fine */
  } cases[] = {
    { 0, 0, NULL },
    { start, last, NULL },
    { start + 1, 0, "price book `shop 2026` holds from 2026-12-01, but the job starts on 2026-11-30" },
    { 0, start - 1, "price book `shop 2026` holds until 2026-11-29, but the job starts on 2026-11-30" },
    { 0, last - 1, "price book `shop 2026` holds until 2026-12-01, but the job goes on to 2026-12-02" },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    Sample *s = sample_new();
    s->prices.days.from_day = cases[i].from;
    s->prices.days.until_day = cases[i].until;
    assert_true(sample_cost(s)->complete);
    const Diag *d = finding(s, "price-stale");
    if (cases[i].message == NULL) {
      assert_null(d);
    } else {
      assert_int_equal(d->level, DIAG_WARNING);
      assert_string_equal(d->message, cases[i].message);
    }
    sample_free(s);
  }
}

static PriceDays *days_of_sample(Sample *s, int which)
{
  PriceDays *all[] = { &s->labour[0].days,   &s->tools[1].days,          &s->silicate[1].days,
                       &s->guard[0].days,    &s->machine_prices[1].days, &s->extras[0].days };
  return all[which];
}

/* Each price may have days of its own; the finding stands at its line. */
/* Eight odd sizes at one price a litre take too long to settle; the basis says how near the mix is. */
static void a_mix_that_was_not_settled_says_what_no_mix_can_be_below(void **state)
{
  (void)state;
  static const double litres[] = { 0.946352946, 3.785411784, 18.92705892, 208.19764812, 20, 5, 25, 1 };
  static const char *const labels[] = { "1 qt", "1 gal", "5 gal", "55 gal", "20 L", "5 L", "25 L", "1 L" };
  Sample *s = sample_new();
  Package packages[COUNT_OF(litres)];
  for (size_t i = 0; i < COUNT_OF(litres); i++)
    packages[i] = (Package){ .label = labels[i], .measure = PACK_VOLUME_L, .size = litres[i],
                             .price = sample_rate(s, "silicate", (double)(int64_t)(litres[i] * 2e5) / 1e4, 52) };
  s->materials[0].packages = packages;
  s->materials[0].package_count = (int)COUNT_OF(litres);
  s->activities[HARDEN].material.value = 3531.59;
  const Cost *cost = sample_cost(s);
  Money paid = 0;
  const char *basis = NULL;
  for (int i = 0; i < cost->line_count; i++)
    if (strncmp(cost->lines[i].code, "MAT-lithium", 11) == 0) {
      paid += cost->lines[i].amount;
      basis = cost->lines[i].basis;
    }
  const char *least = strstr(basis, "; no mix costs less than $70,6");
  assert_non_null(least);
  assert_true(paid > DOLLARS(70600) && paid < DOLLARS(70700));
  sample_free(s);
}

static void one_price_out_of_date_is_a_warning_at_its_line(void **state)
{
  (void)state;
  static const char *const names[] = { "the wage of `operator`",
                                       "the price of `resin 400`",
                                       "the price of `lithium silicate`, 5 gal,",
                                       "the price of `guard`, 1 gal,",
                                       "the price of `edger`",
                                       "the price of `mobilisation`" };
  static const int lines[] = { 48, 51, 52, 53, 55, 57 };
  for (int i = 0; i < (int)COUNT_OF(names); i++) {
    Sample *s = sample_new();
    s->labour[0].at = sample_at(s, 48);
    s->silicate[1].at = sample_at(s, 52);
    s->guard[0].at = sample_at(s, 53);
    s->machine_prices[1].at = sample_at(s, 55);
    s->extras[0].at = sample_at(s, 57);
    days_of_sample(s, i)->until_day = date_day(2026, 10, 31);
    Cost *cost = sample_cost(s);
    const Diag *d = finding(s, "price-stale");
    assert_non_null(d);
    assert_int_equal(sources_place(s->sources, d->at.source, d->at.begin).line, lines[i]);
    assert_memory_equal(d->message, names[i], strlen(names[i]));
    assert_non_null(strstr(d->message, " holds until 2026-10-31, but the job starts on 2026-11-30"));
    assert_int_equal(cost->good_until, i < 1 || i > 3 ? date_day(2026, 10, 31) : 0); /* goods are bought before */
    assert_int_equal(diags_count(s->diags), 1);
    sample_free(s);
  }
}

/* The job starts on 30 November and goes on to 2 December. */
static void goods_are_bought_by_the_start_and_the_rest_is_paid_to_the_end(void **state)
{
  (void)state;
  for (int i = 0; i < 6; i++) {
    Sample *s = sample_new();
    days_of_sample(s, i)->until_day = date_day(2026, 12, 1);
    sample_cost(s);
    const Diag *d = finding(s, "price-stale");
    bool bought = i >= 1 && i <= 3;
    assert_true((d == NULL) == bought);
    if (d) assert_non_null(strstr(d->message, " holds until 2026-12-01, but the job goes on to 2026-12-02"));
    sample_free(s);
  }
}

static void a_price_that_is_not_used_may_be_out_of_date(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->machine_prices[2].name = "sweeper";
  s->job.machines[SCRUBBER].name = "edger";
  s->machine_prices[2].days.until_day = date_day(2020, 1, 1);
  s->silicate[0].days.until_day = date_day(2020, 1, 1); /* two pails of 5 gal are the cheapest mix */
  assert_true(sample_cost(s)->complete);
  assert_null(finding(s, "price-stale"));
  sample_free(s);
}

static void two_currencies_do_not_mix(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->job.currency = "EUR";
  assert_false(sample_cost(s)->complete);
  assert_non_null(finding(s, "price-currency"));
  sample_free(s);
}

static void a_margin_of_the_whole_price_is_refused(void **state)
{
  (void)state;
  static const int64_t shares[] = { 1000000, 1500000 };
  for (int i = 0; i < (int)COUNT_OF(shares); i++) {
    Sample *s = sample_new();
    s->prices.profit.ppm = shares[i];
    assert_false(sample_cost(s)->complete);
    assert_non_null(finding(s, "profit-margin"));
    sample_free(s);
  }
}

static void what_does_not_fit_is_a_finding_and_never_wraps(void **state)
{
  (void)state;
  static const struct {
    size_t money_at;
    const char *code;
  } cases[] = {
    { offsetof(Sample, labour[0].per_hour.money), "LAB-operator" },
    { offsetof(Sample, machine_prices[0].per_day.money), "DAY-planetary 32 in" },
    { offsetof(Sample, extras[1].price.money), "EXTRA-slurry disposal" },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    Sample *s = sample_new();
    Money most = INT64_MAX;
    memcpy((char *)s + cases[i].money_at, &most, sizeof most);
    const Cost *cost = sample_cost(s);
    assert_non_null(strstr(finding(s, "cost-overflow")->message, cases[i].code));
    assert_null(line_of(cost, cases[i].code));
    assert_false(cost->complete);
    assert_in_range(cost->direct, 1, DOLLARS(10000));
    sample_free(s);
  }
}

static void a_sum_that_does_not_fit_leaves_its_last_line_out(void **state)
{
  (void)state;
  Sample *s = sample_new();
  Money most = INT64_MAX / 100 * 100; /* one such extra fits, two do not */
  s->extras[0].price.money = most / 2;
  s->extras[1] = s->extras[0];
  s->extras[1].name = "the same again";
  s->extras[2] = s->extras[0];
  s->extras[2].name = "and again";
  const Cost *cost = sample_cost(s);
  assert_non_null(finding(s, "cost-overflow"));
  assert_true(cost->direct > 0 && cost->price > 0);
  sample_free(s);
}

/* ---- to the cent, whatever the book says */

static uint64_t next_random(uint64_t *seed) /* xorshift64, Marsaglia 2003 */
{
  *seed ^= *seed << 13;
  *seed ^= *seed >> 7;
  *seed ^= *seed << 17;
  return *seed;
}

static Money some_money(uint64_t *seed) { return (Money)(next_random(seed) % 20000000); }
static int64_t some_share(uint64_t *seed) { return (int64_t)(next_random(seed) % 999999); }

static void shuffle_book(Sample *s, uint64_t *seed)
{
  Rate *const rates[] = { &s->labour[0].per_hour,          &s->labour[1].per_hour,  &s->tools[0].per_set,
                          &s->tools[1].per_set,            &s->silicate[0].price,   &s->silicate[1].price,
                          &s->guard[0].price,              &s->extras[0].price,     &s->extras[1].price,
                          &s->extras[2].price,             &s->machine_prices[0].per_hour,
                          &s->machine_prices[0].per_day,   &s->machine_prices[2].per_day };
  Percent *const shares[] = { &s->prices.burden,      &s->prices.night_premium, &s->prices.overtime_premium,
                              &s->prices.overhead,    &s->prices.contingency,   &s->prices.profit,
                              &s->prices.material_tax };
  for (int i = 0; i < (int)COUNT_OF(rates); i++) rates[i]->money = some_money(seed);
  for (int i = 0; i < (int)COUNT_OF(shares); i++) {
    shares[i]->ppm = some_share(seed);
    shares[i]->given = next_random(seed) % 4 != 0;
  }
  s->prices.profit_rule = next_random(seed) % 2 ? PROFIT_MARGIN : PROFIT_MARKUP;
  s->activities[HARDEN].material.value = (double)(next_random(seed) % 100000) / 1000 + 0.001;
  s->areas[SHOP].area_m2.value = (double)(next_random(seed) % 1000000) / 100 + 1;
  s->activities[OPEN].floor_m2 = s->activities[FINE].floor_m2 = s->areas[SHOP].area_m2;
}

static void check_line(const CostLine *line)
{
  Money amount;
  if (line->kind == LINE_PROFIT) return; /* checked by the price */
  assert_true(line->share ? money_fraction(line->quantity, line->share_ppm, &amount)
                          : money_times(line->rate, line->quantity, &amount));
  assert_int_equal(line->amount, amount);
  assert_int_equal(line->quantity % MONEY_CENT, 0); /* two decimals are all of it */
  assert_int_equal(line->amount % MONEY_CENT, 0);
}

static void lines_add_up_to_the_cent_for_any_book(void **state)
{
  (void)state;
  uint64_t seed = 20261130;
  for (int round = 0; round < 400; round++) {
    Sample *s = sample_new();
    shuffle_book(s, &seed);
    const Cost *cost = sample_cost(s);
    Money direct = 0, price;
    Money kinds[LINE_KINDS] = { 0 };
    for (int i = 0; i < cost->line_count; i++) {
      check_line(&cost->lines[i]);
      direct += cost->lines[i].amount;
      kinds[cost->lines[i].kind] += cost->lines[i].amount;
    }
    assert_int_equal(direct, cost->direct);
    price = direct;
    for (int i = 0; i < cost->build_count; i++) {
      check_line(&cost->build[i]);
      price += cost->build[i].amount;
    }
    assert_int_equal(price, cost->price);
    for (int kind = 0; kind < LINE_OVERHEAD; kind++) assert_int_equal(kinds[kind], cost->kind_total[kind]);
    assert_true(cost->complete);
    sample_free(s);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(every_line_is_quantity_times_rate),
    cmocka_unit_test(standing_time_is_charged_as_the_book_says),
    cmocka_unit_test(the_price_is_built_on_direct_cost),
    cmocka_unit_test(profit_follows_the_rule_of_the_book),
    cmocka_unit_test(a_rate_is_multiplied_in_the_unit_it_was_written_in),
    cmocka_unit_test(extras_are_counted_by_what_they_are_priced_per),
    cmocka_unit_test(the_mix_of_packages_is_said_with_what_is_left),
    cmocka_unit_test(a_tool_without_a_life_is_one_set_and_an_assumption),
    cmocka_unit_test(what_the_book_does_not_add_is_an_assumption),
    cmocka_unit_test(the_price_leads_back_to_every_rate_and_share),
    cmocka_unit_test(a_job_without_prices_is_refused),
    cmocka_unit_test(what_is_used_without_a_price_is_named_and_the_rest_is_priced),
    cmocka_unit_test(a_machine_with_neither_rate_has_no_price),
    cmocka_unit_test(a_material_sold_by_mass_says_what_volume_it_gives),
    cmocka_unit_test(each_kind_of_line_has_its_own_tax),
    cmocka_unit_test(an_allowance_is_carried_as_a_line),
    cmocka_unit_test(a_price_goes_up_to_a_whole_multiple),
    cmocka_unit_test(prices_out_of_date_are_a_warning),
    cmocka_unit_test(a_mix_that_was_not_settled_says_what_no_mix_can_be_below),
    cmocka_unit_test(one_price_out_of_date_is_a_warning_at_its_line),
    cmocka_unit_test(goods_are_bought_by_the_start_and_the_rest_is_paid_to_the_end),
    cmocka_unit_test(a_price_that_is_not_used_may_be_out_of_date),
    cmocka_unit_test(two_currencies_do_not_mix),
    cmocka_unit_test(a_margin_of_the_whole_price_is_refused),
    cmocka_unit_test(what_does_not_fit_is_a_finding_and_never_wraps),
    cmocka_unit_test(a_sum_that_does_not_fit_leaves_its_last_line_out),
    cmocka_unit_test(lines_add_up_to_the_cent_for_any_book),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
