/* report_slack.c - what decides the finish, and how much later the rest can start. */
#include <stdlib.h>

#include "base/mem.h"
#include "report/page.h"
#include "report/report.h"
#include "report/step_words.h"

enum { AREA = 13, DOING = 30, START = 16, SLACK = 14 };

static void doing(const Plan *plan, int activity, Buf *out)
{
  const Activity *a = &plan->activities[activity];
  const char *part = work_word(a, step_of(plan, a));
  activity_words(plan, a, out);
  if (*part && a->kind != WORK_SITE) buf_printf(out, ", %s", part);
}

static void row(const Plan *plan, int activity, int width, Buf *out)
{
  const Booking *b = &plan->bookings[activity];
  Buf text = { 0 };
  buf_puts(out, "  ");
  page_left(out, plan->job->areas[plan->activities[activity].area].name, AREA - 1);
  buf_putc(out, ' ');
  doing(plan, activity, &text);
  page_left(out, buf_text(&text), width < PAGE_NARROW ? width - AREA - START - 3 : DOING);
  buf_putc(out, ' ');
  buf_clear(&text);
  page_short_day(&text, plan->job, page_day_of(b->start));
  buf_putc(&text, ' ');
  page_time(&text, b->start);
  page_left(out, buf_text(&text), START + 1);
  buf_clear(&text);
  if (b->slack_min > 0) page_minutes(&text, b->slack_min);
  if (width >= PAGE_NARROW) page_right(out, buf_text(&text), SLACK);
  page_end_line(out);
  buf_free(&text);
}

typedef struct {
  int activity, start, slack;
} Rank;

static int compare(const void *left, const void *right)
{
  const Rank *a = left, *b = right;
  if ((a->slack > 0) != (b->slack > 0)) return a->slack > 0 ? 1 : -1;
  if (a->slack != b->slack) return a->slack < b->slack ? -1 : 1;
  if (a->start != b->start) return a->start < b->start ? -1 : 1;
  return a->activity - b->activity;
}

static Rank *ranked(const Plan *plan)
{
  Rank *ranks = mem_array((size_t)plan->activity_count + 1, sizeof *ranks);
  for (int i = 0; i < plan->activity_count; i++)
    ranks[i] = (Rank){ i, plan->bookings[i].start, plan->bookings[i].slack_min };
  qsort(ranks, (size_t)plan->activity_count, sizeof *ranks, compare);
  return ranks;
}

void report_slack_text(const Plan *plan, int width, Buf *out)
{
  page_fold(out, "SLACK  ", plan->job->name, width, 0);
  page_rule(out, '=', width);
  if (plan->bookings == NULL) {
    page_fold(out, "", "no schedule", width, 0);
    return;
  }
  Rank *ranks = ranked(plan);
  bool said = false;
  page_fold(out, "", "Critical: later by a minute, and the finish is later", width, 0);
  for (int k = 0; k < plan->activity_count; k++) {
    if (ranks[k].slack > 0 && !said) {
      said = true;
      buf_putc(out, '\n');
      page_fold(out, "", "Can start later by so much of the people's hours (of the clock where nobody attends), "
                "the finish and everybody's order of work as they are", width, 0);
    }
    row(plan, ranks[k].activity, width, out);
  }
  mem_free(ranks);
}
