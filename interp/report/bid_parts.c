#include "report/bid_parts.h"

#include <string.h>

#include "base/sha256.h"
#include "cost/show.h"
#include "model/date.h"
#include "report/area_words.h"
#include "report/cautions.h"
#include "report/page.h"
#include "report/step_words.h"

/* ---- texts */

Text bid_keep(const Bid *bid, Buf *text)
{
  Text kept = arena_strndup(bid->arena, buf_text(text), text->length);
  buf_free(text);
  return kept;
}

Text bid_money(const Bid *bid, Money money)
{
  Buf text = { 0 };
  money_print(money, bid->cost->currency, &text);
  return bid_keep(bid, &text);
}

Text bid_quantity(const Bid *bid, double value, const char *unit, Kind kind)
{
  return show_text(bid->arena, value, unit, kind, bid->plan->job->metric);
}

Text bid_amount(const Bid *bid, Amount amount)
{
  Buf text = { 0 };
  money_print(amount, "", &text);
  return bid_keep(bid, &text);
}

Text bid_percent(const Bid *bid, int64_t ppm)
{
  Buf text = { 0 };
  show_number(&text, (double)ppm / 10000, 4);
  buf_puts(&text, " %");
  return bid_keep(bid, &text);
}

static void put_day(int day, Language language, bool year, Buf *out)
{
  int y, m, d;
  date_of_day(day, &y, &m, &d);
  buf_printf(out, "%s %d %s", say_weekday(language, date_weekday(day)), d, say_month(language, m));
  if (year) buf_printf(out, " %d", y);
}

static int day_of(const Bid *bid, int minute) { return bid->plan->job->start_day + page_day_of(minute); }

Text bid_date(const Bid *bid, int day, Language language)
{
  Buf text = { 0 };
  put_day(day, language, true, &text);
  return bid_keep(bid, &text);
}

Text bid_day(const Bid *bid, int minute, Language language)
{
  return bid_date(bid, day_of(bid, minute), language);
}

Text bid_instant(const Bid *bid, int minute, Language language)
{
  Buf text = { 0 };
  put_day(day_of(bid, minute), language, false, &text);
  buf_putc(&text, ' ');
  page_time(&text, minute);
  return bid_keep(bid, &text);
}

Text bid_span(const Bid *bid, int from, int to, Language language)
{
  Buf text = { 0 };
  buf_puts(&text, bid_instant(bid, from, language));
  if (page_day_of(from) == page_day_of(to)) {
    buf_putc(&text, '-');
    page_time(&text, to);
  } else {
    buf_printf(&text, " %s %s", say(language, SAY_TO), bid_instant(bid, to, language));
  }
  return bid_keep(bid, &text);
}

/* Money for a unit of floor, to the cent, for a first look only. */
Text bid_each(const Bid *bid, Money money, double floor_m2)
{
  const char *unit = kind_unit(KIND_AREA, bid->plan->job->metric ? UNITS_METRIC : UNITS_US);
  Quantity floor = quantity_of(floor_m2, "m2");
  QuantityError error;
  double in_unit;
  Amount each;
  if (floor_m2 <= 0 || !quantity_in(&floor, unit, &in_unit, &error)) return "";
  if (!amount_from((double)money / MONEY_SCALE / in_unit, 2, &each)) return "";
  return arena_printf(bid->arena, "%s/%s", bid_money(bid, each), unit);
}

/* ---- blocks */

void bid_begin(const Bid *bid, Buf *paper, Language language, bool large, const char *title, const char *for_whom)
{
  const Job *job = bid->plan->job;
  Text whole = arena_printf(bid->arena, "%s: %s", title, job->name);
  Text foot = arena_printf(bid->arena, "%s; %s %.16s", whole, say(language, SAY_FINGERPRINT), bid->fingerprint);
  paper_add(paper, PAPER_BEGIN, say_code(language), job->metric ? "a4" : "letter", large ? "large" : "normal",
            whole, foot, bid->made, NULL);
  if (for_whom) paper_add(paper, PAPER_TITLE, whole, for_whom, NULL);
}

static double floor_of(const Job *job)
{
  double sum = 0;
  for (int i = 0; i < job->area_count; i++) sum += job->areas[i].area_m2.value;
  return sum;
}

void bid_price_block(const Bid *bid, Buf *paper)
{
  double floor_m2 = floor_of(bid->plan->job);
  Text each = bid_each(bid, bid->cost->price, floor_m2);
  Text under = arena_printf(bid->arena, "%s of floor%s%s", bid_quantity(bid, floor_m2, "m2", KIND_AREA),
                            *each ? ", " : "", each);
  paper_add(paper, PAPER_PRICE, "Price", bid_money(bid, bid->cost->price), under, NULL);
}

void bid_areas_table(const Bid *bid, Buf *paper)
{
  const Job *job = bid->plan->job;
  paper_add(paper, PAPER_TABLE, "l24", "r13", "l31", "r14", "r18", NULL);
  paper_add(paper, PAPER_HEADS, "Area", "Floor", "Finish promised", "Rate", "Price", NULL);
  for (int i = 0; i < job->area_count; i++) {
    const Area *area = &job->areas[i];
    Buf promise = { 0 };
    area_promise(&job->recipes[area->recipe], LANGUAGE_EN, &promise);
    paper_add(paper, PAPER_ROW, area->name, bid_quantity(bid, area->area_m2.value, "m2", KIND_AREA),
              bid_keep(bid, &promise), bid_each(bid, bid->area_price[i], area->area_m2.value),
              bid_money(bid, bid->area_price[i]), NULL);
  }
  paper_add(paper, PAPER_TOTAL, "All areas", bid_quantity(bid, floor_of(job), "m2", KIND_AREA), "",
            bid_each(bid, bid->cost->price, floor_of(job)), bid_money(bid, bid->cost->price), NULL);
}

static Text difference(const Bid *bid, Money other)
{
  Money more = other - bid->cost->price;
  if (more == 0) return "no difference";
  return arena_printf(bid->arena, "%s %s", more > 0 ? "add" : "deduct", bid_money(bid, more > 0 ? more : -more));
}

void bid_alternates(const Bid *bid, Buf *paper)
{
  const Job *job = bid->plan->job;
  if (job->alternate_count == 0) return;
  paper_add(paper, PAPER_HEAD, "Alternates", NULL);
  paper_add(paper, PAPER_TEXT, "Each by itself, against the price above.", NULL);
  paper_add(paper, PAPER_TABLE, "l30", "l20", "l28", "r22", NULL);
  paper_add(paper, PAPER_HEADS, "Alternate", "Area", "Finish", "Difference", NULL);
  for (int i = 0; i < job->alternate_count; i++) {
    const Alternate *a = &job->alternates[i];
    Buf promise = { 0 };
    area_promise(&job->recipes[a->recipe], LANGUAGE_EN, &promise);
    paper_add(paper, PAPER_ROW, a->name, job->areas[a->area].name, bid_keep(bid, &promise),
              difference(bid, bid->alternate_price[i]), NULL);
    if (a->says) paper_add(paper, PAPER_NOTE, a->says, NULL);
  }
}

void bid_cautions(const Bid *bid, Language language, Buf *paper)
{
  const Job *job = bid->plan->job;
  for (size_t i = 0; i < cautions_count(); i++) {
    Text text = NULL;
    for (int r = 0; r < job->recipe_count && text == NULL; r++) text = caution_for(&job->recipes[r], i, language);
    if (text) paper_add(paper, PAPER_ITEM, text, NULL);
  }
  paper_add(paper, PAPER_TEXT, caution_last(language), NULL);
}

static void add_waiver(const Bid *bid, const Waiver *w, Buf *paper)
{
  Buf text = { 0 };
  buf_printf(&text, "%s", w->rule);
  if (w->step) buf_printf(&text, ", step %s", w->step);
  if (w->area) buf_printf(&text, ", area %s", w->area);
  buf_printf(&text, ": %s (%s)", w->reason, w->by);
  paper_add(paper, PAPER_ITEM, bid_keep(bid, &text), NULL);
}

void bid_waivers(const Bid *bid, Buf *paper)
{
  const Job *job = bid->plan->job;
  int count = job->waiver_count;
  for (int r = 0; r < job->recipe_count; r++) count += job->recipes[r].waiver_count;
  if (count == 0) return;
  paper_add(paper, PAPER_HEAD, "Rules that somebody answers for breaking", NULL);
  for (int i = 0; i < job->waiver_count; i++) add_waiver(bid, &job->waivers[i], paper);
  for (int r = 0; r < job->recipe_count; r++)
    for (int i = 0; i < job->recipes[r].waiver_count; i++) add_waiver(bid, &job->recipes[r].waivers[i], paper);
}

/* ---- fingerprint and purchases */

const char *bid_fingerprint(const Sources *sources, Arena *arena)
{
  Sha256 all = sha256_begin();
  uint8_t digest[SHA256_BYTES];
  for (uint32_t i = 1; i <= sources_count(sources); i++) {
    size_t length;
    const char *text = sources_text(sources, i, &length);
    Sha256 one = sha256_begin();
    sha256_add(&one, text, length);
    sha256_end(&one, digest);
    sha256_add(&all, digest, sizeof digest);
  }
  sha256_end(&all, digest);
  Buf hex = { 0 };
  sha256_hex(digest, &hex);
  const char *kept = arena_strdup(arena, buf_text(&hex));
  buf_free(&hex);
  return kept;
}

int bid_purchases(const Bid *bid, Purchase *out)
{
  int count = 0;
  for (int i = 0; i < bid->cost->line_count; i++) {
    const CostLine *line = &bid->cost->lines[i];
    bool tool = line->kind == LINE_TOOL;
    if (!tool && line->kind != LINE_MATERIAL) continue;
    int pieces = tool ? line->sets : (int)(line->quantity / AMOUNT_SCALE);
    Money all;
    if (!money_times(line->rate, (Amount)pieces * AMOUNT_SCALE, &all)) all = line->amount;
    out[count++] = (Purchase){ line, line->what, pieces, line->rate, all };
  }
  return count;
}
