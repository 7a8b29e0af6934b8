#include "cli/cost_over.h"

#include "base/text.h"
#include "cli/supervisor.h"
#include "report/page.h"
#include "report/report_over.h"

enum { WORK = 20000000 }; /* for a schedule, a tenth of the usual */

static const char little_effort[] =
  "each row is scheduled with a tenth of the usual effort; --effort says otherwise";

_Static_assert((int)OVER_NAMES == (int)OVER_MOST, "a table has a column for each --over");

typedef struct {
  Session *session;
  Arena *arena; /* outlives the sessions of the rows */
  OverTable table;
} Work;

static const char *kept(Work *work, Buf *text)
{
  const char *mine = arena_strdup(work->arena, buf_text(text));
  buf_free(text);
  return mine;
}

/* What the session's own arena holds is copied, for it goes with the session. */
static void take_result(Work *work, OverRow *row)
{
  const Session *s = work->session;
  Buf finish = { 0 }, instant = { 0 };
  page_instant(&finish, s->document.job, s->plan->finish);
  page_iso(&instant, s->document.job, s->plan->finish);
  row->finish = kept(work, &finish);
  row->instant = kept(work, &instant);
  row->direct = s->cost->direct;
  row->cost = s->cost->cost;
  row->price = s->cost->price;
  work->table.job = arena_strdup(work->arena, s->document.job->name);
  work->table.currency = arena_strdup(work->arena, s->cost->currency);
}

/* Reads, schedules and costs the job anew. What cannot be planned or priced with these values is told by the row;
 * what is not sound for other reasons leaves its findings in the session. */
static OverRow row_at(Work *work, int first, int second)
{
  const int n[OVER_MOST] = { first, second };
  Session *session = work->session;
  const Options *o = session->options;
  OverRow row = { .status = OVER_PRICED };
  Buf settings[OVER_MOST] = { { 0 } };
  session_end(session);
  for (int i = 0; i < o->over_count && i < OVER_MOST; i++) {
    Buf value = { 0 };
    range_value(&o->over[i], n[i], &value);
    row.value[i] = kept(work, &value);
    range_setting(&o->over[i], n[i], &settings[i]);
    session->tries[i] = buf_text(&settings[i]);
  }
  session->work = WORK;
  if (session_read(session, o->arguments[0]) && session_cost(session)) take_result(work, &row);
  else row.status = session->plan != NULL ? OVER_UNDONE : OVER_REFUSED;
  for (int i = 0; i < o->over_count; i++) buf_free(&settings[i]);
  session->tries[0] = session->tries[1] = NULL;
  return row;
}

static OverRow row_of_first(Work *work, int n) { return row_at(work, n, 0); }

/* ---- a table */

static void fill_table(Work *work)
{
  const Options *o = work->session->options;
  OverTable *table = &work->table;
  int second = o->over_count > 1 ? o->over[1].count : 1;
  table->rows = arena_array(work->arena, (size_t)o->over[0].count * (size_t)second, sizeof *table->rows);
  for (int i = 0; i < o->over[0].count; i++)
    for (int k = 0; k < second; k++) {
      OverRow row = row_at(work, i, k);
      table->rows[table->row_count++] = row;
      if (row.status == OVER_REFUSED) return;
    }
}

/* ---- where a price is crossed */

/* By halves, between ends on different sides: where the price goes up and down more than once, one of the
 * crossings. False where a value on the way has no price. */
static bool find_crossing(Work *work)
{
  const Options *o = work->session->options;
  int low = 0, high = o->over[0].count - 1;
  OverRow first = row_of_first(work, low);
  if (first.status != OVER_PRICED) return false;
  OverRow last = row_of_first(work, high);
  if (last.status != OVER_PRICED) return false;
  Money target = work->table.target;
  bool above = first.price > target;
  if ((last.price > target) == above) return true;
  while (high - low > 1) {
    int middle = (low + high) / 2;
    OverRow row = row_of_first(work, middle);
    if (row.status != OVER_PRICED) return false;
    if ((row.price > target) == above) low = middle;
    else high = middle, last = row;
  }
  OverRow *crossing = arena_alloc(work->arena, sizeof *crossing);
  *crossing = last;
  work->table.crossing = crossing;
  return true;
}

static bool answer(Work *work)
{
  if (!work->table.has_target) {
    fill_table(work);
    return true;
  }
  Amount target;
  if (!amount_from(work->session->options->break_even, 2, &target)) return false;
  work->table.target = target;
  return find_crossing(work);
}

/* ---- the whole */

static Work work_on(Session *session)
{
  const Options *o = session->options;
  Work work = { .session = session, .arena = arena_new() };
  work.table = (OverTable){ .name_count = o->over_count, .job = "", .currency = "",
                            .has_target = o->break_even > 0 };
  if (o->effort == 0) work.table.note = little_effort;
  for (int i = 0; i < o->over_count; i++)
    work.table.name[i] = arena_strndup(work.arena, o->over[i].name, (size_t)o->over[i].name_length);
  return work;
}

static bool is_priced(const OverTable *table)
{
  for (int i = 0; i < table->row_count; i++)
    if (table->rows[i].status == OVER_PRICED) return true;
  return false;
}

static bool is_refused(const OverTable *table)
{
  return table->row_count > 0 && table->rows[table->row_count - 1].status == OVER_REFUSED;
}

static void print(Session *session, const OverTable *table)
{
  Buf out = { 0 };
  if (session->options->json) report_over_json(table, &out);
  else report_over_text(table, session->options->width, &out);
  session_print(session, &out);
}

/* A row that cannot be done is an answer, and no fault, where others can. */
int cost_over(Session *session)
{
  Work work = work_on(session);
  session_start(session);
  bool answered = answer(&work);
  const OverTable *table = &work.table;
  if (answered && (table->has_target || is_priced(table))) print(session, table);
  bool fine = answered && !table->has_target && is_priced(table) && !is_refused(table);
  if (!fine || diags_errors(session->diags) == 0) session_complain(session);
  int status = fine ? STATUS_FINE : session_status(session);
  session_end(session);
  arena_free(work.arena);
  return status;
}
