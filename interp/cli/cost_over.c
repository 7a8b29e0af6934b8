#include "cli/cost_over.h"

#include "base/money.h"
#include "base/text.h"
#include "cli/supervisor.h"
#include "report/page.h"

enum { WORK = 20000000, VALUE = 22, MONEY = 16, GAP = 2, FINISH = 20 };

/* What came out with a value of each range. */
typedef struct {
  bool sound;
  Money price;
} Outcome;

/* Reads, schedules and costs the job anew; `more` works on the session before it goes. */
typedef void (*More)(Session *session, Buf *out);

static Outcome outcome_at(Session *session, const int n[OVER_MOST], More more, Buf *out)
{
  const Options *o = session->options;
  Buf settings[OVER_MOST] = { { 0 } };
  session_end(session);
  for (int i = 0; i < o->over_count; i++) {
    range_setting(&o->over[i], n[i], &settings[i]);
    session->tries[i] = buf_text(&settings[i]);
  }
  session->work = WORK;
  Outcome got = { .sound = session_read(session, o->arguments[0]) && session_cost(session) };
  if (got.sound) got.price = session->cost->price;
  if (got.sound && more) more(session, out);
  for (int i = 0; i < o->over_count; i++) buf_free(&settings[i]);
  session->tries[0] = session->tries[1] = NULL;
  return got;
}

static void money_text(Buf *out, const Session *session, Money money)
{
  money_print(money, session->document.job->prices->currency, out);
}

/* ---- a table */

static void add_price_and_finish(Session *session, Buf *out)
{
  Buf text = { 0 };
  money_text(&text, session, session->cost->price);
  page_right(out, buf_text(&text), MONEY);
  buf_repeat(out, ' ', GAP);
  buf_clear(&text);
  page_instant(&text, session->document.job, session->plan->finish);
  page_left(out, buf_text(&text), FINISH);
  buf_free(&text);
}

static void heads(const Options *o, Buf *out)
{
  for (int i = 0; i < o->over_count; i++) {
    Buf name = { 0 };
    buf_printf(&name, "%.*s", o->over[i].name_length, o->over[i].name);
    page_left(out, buf_text(&name), VALUE);
    buf_repeat(out, ' ', GAP);
    buf_free(&name);
  }
  page_right(out, "Price", MONEY);
  buf_repeat(out, ' ', GAP);
  page_left(out, "Finish", FINISH);
  page_end_line(out);
  page_rule(out, '-', o->over_count * (VALUE + GAP) + MONEY + GAP + FINISH);
}

/* False, and the session keeps its findings, where the job cannot be costed with these values for other reasons
 * than that it cannot be scheduled or priced so. */
static bool add_row(Session *session, const int n[OVER_MOST], Buf *out)
{
  const Options *o = session->options;
  for (int i = 0; i < o->over_count; i++) {
    Buf value = { 0 };
    range_value(&o->over[i], n[i], &value);
    page_left(out, buf_text(&value), VALUE);
    buf_repeat(out, ' ', GAP);
    buf_free(&value);
  }
  Outcome got = outcome_at(session, n, add_price_and_finish, out);
  bool planned = session->plan != NULL;
  if (!got.sound) page_right(out, planned ? "cannot be done" : "refused", MONEY);
  page_end_line(out);
  return got.sound || planned;
}

static void table(Session *session, Buf *out)
{
  const Options *o = session->options;
  int second = o->over_count > 1 ? o->over[1].count : 1;
  heads(o, out);
  for (int i = 0; i < o->over[0].count; i++)
    for (int k = 0; k < second; k++)
      if (!add_row(session, (int[OVER_MOST]){ i, k }, out)) return;
}

/* ---- where a price is crossed */

static void say_crossing(const Session *session, const Options *o, int n, Money target, Money price, Buf *out)
{
  Buf text = { 0 };
  range_setting(&o->over[0], n, &text);
  buf_puts(&text, " is the first value at which the price is on the other side of ");
  money_text(&text, session, target);
  buf_puts(&text, ": ");
  money_text(&text, session, price);
  page_fold(out, "", buf_text(&text), o->width, 0);
  buf_free(&text);
}

/* By halves, between ends on different sides: where the price goes up and down more than once, one of the
 * crossings. */
static void break_even(Session *session, Buf *out)
{
  const Options *o = session->options;
  int low = 0, high = o->over[0].count - 1;
  Amount amount;
  if (!amount_from(o->break_even, 2, &amount)) return;
  Money target = amount;
  Outcome first = outcome_at(session, (int[OVER_MOST]){ low, 0 }, NULL, out);
  if (!first.sound) return;
  Outcome last = outcome_at(session, (int[OVER_MOST]){ high, 0 }, NULL, out);
  if (!last.sound) return;
  bool above = first.price > target;
  if ((last.price > target) == above) {
    page_fold(out, "", "the price stays on one side over the whole range", o->width, 0);
    return;
  }
  while (high - low > 1) {
    int middle = (low + high) / 2;
    Outcome got = outcome_at(session, (int[OVER_MOST]){ middle, 0 }, NULL, out);
    if (!got.sound) return;
    if ((got.price > target) == above) low = middle;
    else {
      high = middle;
      last = got;
    }
  }
  say_crossing(session, o, high, target, last.price, out);
}

int cost_over(Session *session)
{
  Buf out = { 0 };
  session_start(session);
  if (session->options->break_even > 0) break_even(session, &out);
  else table(session, &out);
  session_print(session, &out);
  return session_finish(session);
}
