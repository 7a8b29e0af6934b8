/* bid_crew.c - the crew sheet: a page an area, large enough to read at arm's length, in English or Spanish. */
#include <math.h>
#include <string.h>

#include "cost/show.h"
#include "report/area_words.h"
#include "report/bid_parts.h"
#include "report/cautions.h"
#include "report/page.h"
#include "report/step_words.h"

enum { BLANKS_MOST = 40 };

typedef struct {
  const Bid *bid;
  Language in;
  const Step *step;
  int area, index;
  Buf *paper;
} Line;

static bool belongs(const Line *l, int activity)
{
  const Activity *a = &l->bid->plan->activities[activity];
  return a->area == l->area && a->step == l->index;
}

static void fact(const Line *l, SayKey label, Buf *text)
{
  if (text->length > 0) paper_add(l->paper, PAPER_FACT, say(l->in, label), buf_text(text), NULL);
  buf_free(text);
}

/* ---- clock and people */

static Text work_in(const Line *l, const Activity *a)
{
  if (l->in == LANGUAGE_EN) return work_word(a, l->step);
  if (a->kind == WORK_EDGES) return say(l->in, SAY_EDGES);
  if (a->kind == WORK_DWELL) return say(l->in, a->attended ? SAY_KEEP_WET : SAY_DWELL);
  return a->kind == WORK_REST && l->step->word != STEP_WAIT ? say(l->in, SAY_DRYING) : "";
}

/* A hand-over to another person does not end a span. */
static void put_spans(const Line *l, int activity, Buf *out)
{
  const Booking *b = &l->bid->plan->bookings[activity];
  Text word = work_in(l, &l->bid->plan->activities[activity]), between = out->length ? "; " : "";
  for (int first = 0, last; first < b->stretch_count; first = last + 1) {
    for (last = first; last + 1 < b->stretch_count; last++)
      if (b->stretches[last].finish != b->stretches[last + 1].start) break;
    if (b->stretches[first].start == b->stretches[last].finish) continue;
    buf_printf(out, "%s%s%s%s", between, word, *word ? " " : "",
               bid_span(l->bid, b->stretches[first].start, b->stretches[last].finish, l->in));
    between = ", ";
    word = "";
  }
}

static void clock_fact(const Line *l)
{
  Buf text = { 0 };
  for (int i = 0; i < l->bid->plan->activity_count; i++)
    if (belongs(l, i)) put_spans(l, i, &text);
  fact(l, SAY_CLOCK, &text);
}

static bool said_already(const Buf *text, const char *name)
{
  return text->length > 0 && strstr(buf_text(text), name) != NULL;
}

static void people_fact(const Line *l)
{
  const Plan *plan = l->bid->plan;
  Buf text = { 0 };
  for (int i = 0; i < plan->activity_count; i++)
    for (int p = 0; belongs(l, i) && p < plan->bookings[i].people_count; p++) {
      const char *name = plan->persons[plan->bookings[i].people[p]].name;
      if (!said_already(&text, name)) buf_printf(&text, "%s%s", text.length ? ", " : "", name);
    }
  fact(l, SAY_CREW, &text);
}

static void machine_fact(const Line *l)
{
  const Plan *plan = l->bid->plan;
  Buf text = { 0 };
  for (int i = 0; i < plan->activity_count; i++) {
    int machine = plan->activities[i].machine;
    if (belongs(l, i) && machine >= 0 && !said_already(&text, plan->job->machines[machine].name))
      buf_printf(&text, "%s%s", text.length ? ", " : "", plan->job->machines[machine].name);
  }
  fact(l, SAY_MACHINE, &text);
}

/* ---- how it is done */

static void run_fact(const Line *l)
{
  const Step *s = l->step;
  if (step_words[s->word].family != FAMILY_ABRASIVE) return;
  bool metric = l->bid->plan->job->metric;
  const Machine *machine = step_machine(l->bid->plan, l->area, l->index);
  Buf text = { 0 }, overlap = { 0 }, travel = { 0 };
  buf_printf(&text, "%s, ", say(l->in, s->wet ? SAY_WET : SAY_DRY));
  show_number(&text, s->passes.value, 1);
  buf_printf(&text, " %s", say(l->in, s->passes.value == 1 ? SAY_ONE_PASS : SAY_PASSES));
  step_length(step_overlap(s, machine), metric, &overlap);
  step_speed(step_travel(s, machine), metric, &travel);
  if (overlap.length > 0) buf_printf(&text, ", %s %s", say(l->in, SAY_OVERLAP), buf_text(&overlap));
  if (travel.length > 0) buf_printf(&text, ", %s %s", say(l->in, SAY_TRAVEL), buf_text(&travel));
  buf_free(&overlap);
  buf_free(&travel);
  fact(l, SAY_RUN, &text);
}

/* A sum over the step's activities, of the Figure at this offset. */
static double step_sum(const Line *l, size_t figure_at)
{
  double sum = 0;
  for (int i = 0; i < l->bid->plan->activity_count; i++)
    if (belongs(l, i)) sum += ((const Figure *)((const char *)&l->bid->plan->activities[i] + figure_at))->value;
  return sum;
}

static void edges_fact(const Line *l)
{
  double edge_m = step_sum(l, offsetof(Activity, edge_m));
  if (edge_m <= 0) return;
  Buf text = { 0 };
  buf_printf(&text, "%s %s", bid_quantity(l->bid, edge_m, "m", KIND_LENGTH), say(l->in, SAY_BY_HAND));
  fact(l, SAY_EDGES, &text);
}

static void spread_fact(const Line *l)
{
  const Step *s = l->step;
  double litres = step_sum(l, offsetof(Activity, material));
  Buf text = { 0 };
  step_spread_band(&s->spread_m2_per_l, l->bid->plan->job->metric, l->in, &text);
  if (s->coats.value > 1) {
    buf_puts(&text, text.length ? ", " : "");
    show_number(&text, s->coats.value, 1);
    buf_printf(&text, " %s", say(l->in, SAY_COATS));
  }
  if (litres > 0)
    buf_printf(&text, "%s%s %s", text.length ? "; " : "", say(l->in, SAY_AT_HAND),
               bid_quantity(l->bid, litres, "L", KIND_VOLUME));
  fact(l, SAY_SPREAD, &text);
}

static void time_facts(const Line *l)
{
  const Step *s = l->step;
  Buf within = { 0 }, dwell = { 0 }, dry = { 0 }, wait = { 0 };
  if (s->within_min.given) {
    buf_printf(&within, "%s ", say(l->in, SAY_WITHIN));
    page_minutes(&within, (int)floor(s->within_min.figure.value + 1e-9));
  }
  fact(l, SAY_START, &within);
  step_minutes_band(&s->dwell_min, l->in, &dwell);
  if (s->keep_wet) buf_printf(&dwell, "%s%s", dwell.length ? ", " : "", say(l->in, SAY_KEEP_WET));
  fact(l, SAY_DWELL, &dwell);
  step_minutes_band(&s->dry_min, l->in, &dry);
  fact(l, SAY_DRYING, &dry);
  if (s->time_min.given) page_minutes(&wait, (int)ceil(s->time_min.figure.value - 1e-9));
  fact(l, SAY_WAIT, &wait);
}

static void words_fact(const Line *l, SayKey label, const char *words)
{
  Buf text = { 0 };
  if (words) buf_puts(&text, words);
  fact(l, label, &text);
}

static void readings_blocks(const Line *l)
{
  if (l->step->word != STEP_CHECK) return;
  int count = (int)ceil(step_sum(l, offsetof(Activity, readings)) - 1e-9);
  Buf text = { 0 };
  buf_printf(&text, "%d", count);
  if (l->step->want.has_low || l->step->want.has_high) {
    buf_printf(&text, ", %s ", say(l->in, SAY_WANTED));
    step_want_band(&l->step->want, l->in, &text);
  }
  if (count > BLANKS_MOST) buf_printf(&text, "; %d %s", count - BLANKS_MOST, say(l->in, SAY_MORE_READINGS));
  fact(l, SAY_READINGS, &text);
  paper_add(l->paper, PAPER_BLANKS, arena_printf(l->bid->arena, "%d", count < BLANKS_MOST ? count : BLANKS_MOST),
            NULL);
}

static void hold_blocks(const Line *l)
{
  if (!l->step->hold) return;
  paper_add(l->paper, PAPER_HOLD, say(l->in, SAY_HOLD), NULL);
  paper_add(l->paper, PAPER_SIGN, say(l->in, SAY_NAME), say(l->in, SAY_DATE), say(l->in, SAY_TIME), NULL);
}

static void step_blocks(const Line *l)
{
  Buf tool = { 0 };
  step_tool(l->step, l->in, &tool);
  paper_add(l->paper, PAPER_STEP, arena_printf(l->bid->arena, "%d", l->index + 1), say_step(l->in, l->step->word),
            l->step->name, buf_text(&tool), NULL);
  buf_free(&tool);
  clock_fact(l);
  machine_fact(l);
  run_fact(l);
  edges_fact(l);
  spread_fact(l);
  time_facts(l);
  people_fact(l);
  words_fact(l, SAY_CARE, l->step->care);
  words_fact(l, SAY_NOTE, l->step->says);
  readings_blocks(l);
  hold_blocks(l);
}

/* ---- the page of an area */

static void area_head(const Bid *bid, Language in, int index, Buf *paper)
{
  const Job *job = bid->plan->job;
  const Area *area = &job->areas[index];
  const Recipe *recipe = &job->recipes[area->recipe];
  Line l = { .bid = bid, .in = in, .paper = paper };
  Buf size = { 0 }, name = { 0 }, promise = { 0 }, hours = { 0 };
  Text title = arena_printf(bid->arena, "%s: %s", say(in, SAY_AREA), area->name);
  Text under = arena_printf(bid->arena, "%s, %s, %d %s %d", say(in, SAY_CREW_SHEET), job->name, index + 1,
                            say(in, SAY_AREA_OF), job->area_count);
  paper_add(paper, PAPER_TITLE, title, under, NULL);
  area_size(area, job->metric, in, &size);
  fact(&l, SAY_SIZE, &size);
  buf_puts(&name, recipe->name);
  if (recipe->revision) buf_printf(&name, ", %s %s", say(in, SAY_REVISION), recipe->revision);
  fact(&l, SAY_RECIPE, &name);
  area_promise(recipe, in, &promise);
  fact(&l, SAY_PROMISED, &promise);
  if (area->has_hours) {
    page_time(&hours, area->hours.from_min);
    buf_putc(&hours, '-');
    page_time(&hours, area->hours.until_min);
    buf_printf(&hours, ", %s", say(in, SAY_HOURS_ONLY));
  }
  fact(&l, SAY_HOURS, &hours);
}

static void area_cautions(const Recipe *recipe, Language in, Buf *paper)
{
  paper_add(paper, PAPER_HEAD, say(in, SAY_CAUTIONS), NULL);
  for (size_t i = 0; i < cautions_count(); i++) {
    Text text = caution_for(recipe, i, in);
    if (text) paper_add(paper, PAPER_CAUTION, text, NULL);
  }
  paper_add(paper, PAPER_TEXT, caution_last(in), NULL);
}

static void waived(const Bid *bid, Language in, const Waiver *w, const char *area, Buf *paper, bool *head)
{
  if (w->area && strcmp(w->area, area) != 0) return;
  if (!*head) paper_add(paper, PAPER_HEAD, say(in, SAY_WAIVED), NULL);
  *head = true;
  Text step = w->step ? arena_printf(bid->arena, ", %s %s", say(in, SAY_STEP), w->step) : "";
  paper_add(paper, PAPER_ITEM, arena_printf(bid->arena, "%s%s: %s (%s)", w->rule, step, w->reason, w->by), NULL);
}

static void area_waivers(const Bid *bid, Language in, int area, Buf *paper)
{
  const Job *job = bid->plan->job;
  const Recipe *recipe = &job->recipes[job->areas[area].recipe];
  const char *name = job->areas[area].name;
  bool head = false;
  for (int i = 0; i < recipe->waiver_count; i++) waived(bid, in, &recipe->waivers[i], name, paper, &head);
  for (int i = 0; i < job->waiver_count; i++) waived(bid, in, &job->waivers[i], name, paper, &head);
}

void bid_crew_sheet(const Bid *bid, Language language, Buf *paper)
{
  const Job *job = bid->plan->job;
  bid_begin(bid, paper, language, true, say(language, SAY_CREW_SHEET), NULL);
  for (int a = 0; a < job->area_count; a++) {
    const Recipe *recipe = &job->recipes[job->areas[a].recipe];
    if (a > 0) paper_add(paper, PAPER_BREAK, NULL);
    area_head(bid, language, a, paper);
    area_cautions(recipe, language, paper);
    area_waivers(bid, language, a, paper);
    paper_add(paper, PAPER_HEAD, say(language, SAY_STEPS), NULL);
    for (int i = 0; i < recipe->step_count; i++)
      step_blocks(&(Line){ bid, language, &recipe->steps[i], a, i, paper });
  }
}
