/* test_json.c - the JSON against its published schemas, and its figures against the model. */
#include "support.h"

#include <stdio.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include "report/report.h"
#include "unit/cost/sample.h"

static void write_cost(Sample *s, Buf *out)
{
  Cost *cost = sample_cost(s);
  report_cost_json(&s->plan, cost, s->why, s->sources, out);
}

static void write_schedule(Sample *s, Buf *out) { report_schedule_json(&s->plan, out); }
static void write_sheet(Sample *s, Buf *out) { report_sheet_json(&s->plan, out); }

static void write_risk(Sample *s, Buf *out)
{
  sample_uncertain(s, 200);
  s->job.risk.production = sample_estimate(s, "production", 0.8, 1, 1.1);
  s->job.risk.rework = sample_estimate(s, "rework", 0.05, 0.05, 0.05);
  sample_estimate(s, "an estimate of nothing", 1, 2, 3);
  report_risk_json(&s->plan, sample_risk(s, 1), s->sources, out);
}

static const struct {
  const char *schema;
  void (*write)(Sample *s, Buf *out);
} outputs[] = { { "cost", write_cost }, { "schedule", write_schedule }, { "sheet", write_sheet } };

/* ---- a process that judges by the schemas, one document after the other */

static pid_t judge;
static FILE *requests, *answers;

static int start_judge(void **state)
{
  int end[2];
  (void)state;
  if (socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, end) != 0) return -1;
  judge = fork();
  if (judge == 0) {
    dup2(end[1], STDIN_FILENO);
    dup2(end[1], STDOUT_FILENO);
    execl("/usr/bin/python3", "python3", "tests/json_schema.py", NULL);
    _exit(127);
  }
  close(end[1]);
  requests = fdopen(end[0], "w");
  answers = fdopen(dup(end[0]), "r");
  return judge > 0 && requests && answers ? 0 : -1;
}

static int stop_judge(void **state)
{
  (void)state;
  fclose(requests);
  fclose(answers);
  return waitpid(judge, NULL, 0) == judge ? 0 : -1;
}

static bool is_valid(const char *schema, const char *text)
{
  char answer[4096];
  fprintf(requests, "docs/schema/%s.json %zu\n%s", schema, strlen(text), text);
  fflush(requests);
  assert_non_null(fgets(answer, sizeof answer, answers));
  return strcmp(answer, "valid\n") == 0;
}

/* ---- the outputs */

static void unschedule(Sample *s)
{
  s->plan.bookings = NULL;
  s->plan.status = PLAN_UNKNOWN;
}

static void odd_names(Sample *s)
{
  s->job.name = s->areas[0].name = s->shop[0].name = "a \"b\" \\ \x1b \xFF \u6F06";
}

static void no_shares(Sample *s)
{
  s->prices.profit.given = s->prices.overhead.given = s->prices.burden.given = false;
}

static void unpriced(Sample *s) { s->tools[0].name = "resin 110"; }
static void as_it_is(Sample *s) { (void)s; }

static void every_output_is_valid_by_its_schema(void **state)
{
  (void)state;
  static void (*const changes[])(Sample *s) = { as_it_is, unschedule, odd_names, no_shares, unpriced };
  for (size_t i = 0; i < COUNT_OF(outputs); i++)
    for (size_t k = 0; k < COUNT_OF(changes); k++) {
      Sample *s = sample_new();
      Buf out = { 0 };
      changes[k](s);
      outputs[i].write(s, &out);
      assert_true(is_valid(outputs[i].schema, buf_text(&out)));
      buf_free(&out);
      sample_free(s);
    }
}

/* The same text with one word replaced by another of the same length. */
static void replace(Buf *text, const char *from, const char *to)
{
  char *at = strstr(text->text, from);
  assert_non_null(at);
  memcpy(at, to, strlen(to));
}

static void unpriced_job(Sample *s) { s->job.prices = NULL; }

static void a_simulation_is_valid_by_its_schema(void **state)
{
  (void)state;
  static void (*const changes[])(Sample *s) = { as_it_is, odd_names, no_shares, unpriced_job };
  for (size_t k = 0; k < COUNT_OF(changes); k++) {
    Sample *s = sample_new();
    Buf out = { 0 };
    changes[k](s);
    write_risk(s, &out);
    assert_true(is_valid("risk", buf_text(&out)));
    replace(&out, "\"drivers\"", "\"drovers\"");
    assert_false(is_valid("risk", buf_text(&out)));
    buf_free(&out);
    sample_free(s);
  }
}

static void write_trade_off(Sample *s, bool priced, Buf *out)
{
  TradeRow rows[2] = { { .finish = s->plan.finish, .people_h = 12.5, .machine_days = 3, .direct = 1234500 } };
  rows[0].crews = arena_array(s->arena, (size_t)s->job.crew_count, sizeof *rows[0].crews);
  rows[0].machines = arena_array(s->arena, (size_t)s->job.machine_count, sizeof *rows[0].machines);
  rows[1] = rows[0];
  report_trade_off_json(&s->plan, &(TradeOff){ rows, 2, priced, 5 }, out);
}

static void a_trade_off_is_valid_by_its_schema(void **state)
{
  (void)state;
  for (int priced = 0; priced < 2; priced++) {
    Sample *s = sample_new();
    Buf out = { 0 };
    odd_names(s);
    write_trade_off(s, priced, &out);
    assert_true(is_valid("trade-off", buf_text(&out)));
    assert_int_equal(strstr(buf_text(&out), "\"direct\": 123.45") != NULL, priced);
    replace(&out, "\"rows\"", "\"lows\"");
    assert_false(is_valid("trade-off", buf_text(&out)));
    buf_free(&out);
    sample_free(s);
  }
}

static void the_schemas_refuse_what_is_not_documented(void **state)
{
  (void)state;
  static const struct {
    int output;
    const char *from, *to;
  } cases[] = {
    { 0, "\"amount\"", "\"amounts" },          /* not even JSON */
    { 0, "\"basis\"", "\"basic\"" },           /* a member missing, another unknown */
    { 0, "\"margin\"", "\"markin\"" },         /* no such rule */
    { 0, "\"version\": 1", "\"version\": 2" },
    { 1, "T07:00", "T7:000" },                 /* no such instant */
    { 1, "\"field\"", "\"yield\"" },
    { 2, "\"hone\"", "\"hune\"" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Sample *s = sample_new();
    Buf out = { 0 };
    outputs[cases[i].output].write(s, &out);
    replace(&out, cases[i].from, cases[i].to);
    assert_false(is_valid(outputs[cases[i].output].schema, buf_text(&out)));
    buf_free(&out);
    sample_free(s);
  }
}

static void the_cost_in_json_is_the_cost(void **state)
{
  (void)state;
  static const char *const wanted[] = {
    "\"price\": 7341.09,", "\"cost\": 5872.87,", "\"direct\": 4993.94,", "\"profit_rule\": \"margin\",",
    "\"quantity\": 23.25,\n      \"unit\": \"h\",\n      \"rate\": 62.0000,\n      \"amount\": 1441.50,",
    "\"quantity\": 1692.46,\n      \"unit\": \"USD\",\n      \"rate\": 0.135000,\n      \"amount\": 228.48,",
    "\"standing_h\": 0.92,",
    "\"what\": \"edge strip that wears a tool\",\n      \"value\": 0.150000,\n      \"unit\": \"m\",\n"
    "      \"basis\": \"common practice, no source\",\n      \"missing_at\": \"jobs/bakery.lua:1:1\"",
  };
  Sample *s = sample_new();
  Buf out = { 0 };
  write_cost(s, &out);
  for (size_t i = 0; i < COUNT_OF(wanted); i++) assert_non_null(strstr(buf_text(&out), wanted[i]));
  buf_free(&out);
  sample_free(s);
}

static void the_schedule_in_json_has_local_times_and_the_bound(void **state)
{
  (void)state;
  static const char *const wanted[] = {
    "\"start\": \"2026-11-30T07:00\"", "\"finish\": \"2026-12-02T08:20\"", "\"makespan_min\": 2960",
    "\"lower_bound_min\": 2920",       "\"machine\": null",                "\"start\": \"2026-12-01T01:10\"",
  };
  Sample *s = sample_new();
  Buf out = { 0 };
  write_schedule(s, &out);
  for (size_t i = 0; i < COUNT_OF(wanted); i++) assert_non_null(strstr(buf_text(&out), wanted[i]));
  buf_free(&out);
  sample_free(s);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(every_output_is_valid_by_its_schema),
    cmocka_unit_test(a_simulation_is_valid_by_its_schema),
    cmocka_unit_test(a_trade_off_is_valid_by_its_schema),
    cmocka_unit_test(the_schemas_refuse_what_is_not_documented),
    cmocka_unit_test(the_cost_in_json_is_the_cost),
    cmocka_unit_test(the_schedule_in_json_has_local_times_and_the_bound),
  };
  return cmocka_run_group_tests(tests, start_judge, stop_judge);
}
