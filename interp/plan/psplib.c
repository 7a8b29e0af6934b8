#include "plan/psplib.h"

#include <limits.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/mem.h"

enum { LARGEST_FILE_TASKS = 10000, LARGEST_FILE_RESOURCES = 64, LARGEST_NUMBER = 1000000 };

typedef struct {
  const char *at, *end;
  int line;
  bool failed;
  PsplibError *error;
  Problem *problem;
  int tasks, resources, first; /* `first`: the number of the first task in the file */
} Reader;

static void fail(Reader *r, const char *format, ...) __attribute__((format(printf, 2, 3)));
static void fail(Reader *r, const char *format, ...)
{
  if (r->failed) return;
  r->failed = true;
  r->error->line = r->line;
  va_list args;
  va_start(args, format);
  vsnprintf(r->error->message, sizeof r->error->message, format, args);
  va_end(args);
}

static bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n' || c == '[' || c == ']'; }

static void skip_blanks(Reader *r)
{
  for (; r->at < r->end && is_blank(*r->at); r->at++)
    if (*r->at == '\n') r->line++;
}

/* The next whole number, blanks and brackets skipped; `what` is named when there is none or it is out of range. */
static int number(Reader *r, const char *what, int least, int most)
{
  if (r->failed) return least;
  skip_blanks(r);
  bool negative = r->at < r->end && *r->at == '-';
  const char *digits = r->at + negative;
  int value = 0;
  const char *p = digits;
  for (; p < r->end && *p >= '0' && *p <= '9' && value <= LARGEST_NUMBER; p++) value = 10 * value + (*p - '0');
  if (p == digits || (p < r->end && !is_blank(*p) && *p != 'R')) {
    fail(r, "%s is missing: a whole number was expected", what);
    return least;
  }
  r->at = p;
  if (negative) value = -value;
  if (value < least || value > most) {
    fail(r, "%s is %d, outside %d..%d", what, value, least, most);
    return least;
  }
  return value;
}

/* Goes behind the next place of `mark`. */
static void seek(Reader *r, const char *mark)
{
  size_t length = strlen(mark);
  for (; !r->failed && (size_t)(r->end - r->at) >= length; r->at++) {
    if (memcmp(r->at, mark, length) == 0) {
      r->at += length;
      return;
    }
    if (*r->at == '\n') r->line++;
  }
  fail(r, "\"%s\" is missing", mark);
}

static void next_line(Reader *r)
{
  while (r->at < r->end && *r->at != '\n') r->at++;
}

static int task_number(Reader *r, const char *what)
{
  return number(r, what, r->first, r->first + r->tasks - 1) - r->first;
}

/* Each task is listed once, in order. */
static void expect_task(Reader *r, int task)
{
  int got = task_number(r, "the task's number");
  if (!r->failed && got != task) fail(r, "task %d where %d was expected", got + r->first, task + r->first);
}

static void begin_problem(Reader *r)
{
  r->problem = problem_new(PROBLEM_LATEST);
  for (int t = 0; t < r->tasks; t++) problem_add_task(r->problem, 0, PROBLEM_ALWAYS, false);
  r->problem->tasks[0].fixed_start = 0;
  for (int k = 0; k < r->resources; k++) problem_add_resource(r->problem, 0, PROBLEM_ALWAYS);
}

static void read_demands(Reader *r)
{
  for (int t = 0; t < r->tasks && !r->failed; t++) {
    expect_task(r, t);
    number(r, "the mode", 1, 1);
    r->problem->tasks[t].duration = number(r, "the duration", 0, LARGEST_NUMBER / 10);
    for (int k = 0; k < r->resources; k++)
      problem_demand(r->problem, t, k, number(r, "a request", 0, PROBLEM_LARGEST_CAPACITY));
  }
}

static void read_capacities(Reader *r)
{
  for (int k = 0; k < r->resources; k++)
    r->problem->resources[k].capacity = number(r, "a capacity", 0, PROBLEM_LARGEST_CAPACITY);
}

/* No best schedule is longer than every task with its longest lag, one after the other. */
static void set_horizon(Problem *p)
{
  int64_t sum = 0;
  int *longest = mem_array((size_t)p->task_count, sizeof *longest);
  for (int k = 0; k < p->link_count; k++)
    if (p->links[k].kind == LINK_SS_MIN && p->links[k].minutes > longest[p->links[k].from])
      longest[p->links[k].from] = p->links[k].minutes;
  for (int t = 0; t < p->task_count; t++)
    sum += longest[t] > p->tasks[t].duration ? longest[t] : p->tasks[t].duration;
  mem_free(longest);
  p->horizon = sum < PROBLEM_LATEST ? (int)sum : PROBLEM_LATEST;
  for (int t = 0; t < p->task_count; t++) p->tasks[t].deadline = p->horizon;
}

/* ---- .sm */

static void read_sm_successors(Reader *r)
{
  for (int t = 0; t < r->tasks && !r->failed; t++) {
    expect_task(r, t);
    number(r, "the number of modes", 1, 1);
    int count = number(r, "the number of successors", 0, r->tasks);
    for (int k = 0; k < count && !r->failed; k++)
      problem_link(r->problem, LINK_FS_MIN, t, task_number(r, "a successor"), 0);
  }
}

static void read_sm(Reader *r)
{
  r->first = 1;
  seek(r, "jobs");
  seek(r, ":");
  r->tasks = number(r, "the number of jobs", 1, LARGEST_FILE_TASKS);
  seek(r, "- renewable");
  seek(r, ":");
  r->resources = number(r, "the number of resources", 0, LARGEST_FILE_RESOURCES);
  if (r->failed) return;
  begin_problem(r);
  seek(r, "PRECEDENCE RELATIONS:");
  seek(r, "successors");
  next_line(r);
  read_sm_successors(r);
  seek(r, "REQUESTS/DURATIONS:");
  seek(r, "---");
  next_line(r);
  read_demands(r);
  seek(r, "RESOURCEAVAILABILITIES:");
  skip_blanks(r);
  next_line(r); /* the names of the resources */
  read_capacities(r);
}

/* ---- .sch */

static void read_sch_successors(Reader *r, int *successors)
{
  for (int t = 0; t < r->tasks && !r->failed; t++) {
    expect_task(r, t);
    number(r, "the number of modes", 1, 1);
    int count = number(r, "the number of successors", 0, r->tasks);
    for (int k = 0; k < count; k++) successors[k] = task_number(r, "a successor");
    for (int k = 0; k < count && !r->failed; k++) {
      int lag = number(r, "a lag", -LARGEST_NUMBER, LARGEST_NUMBER);
      problem_link(r->problem, LINK_SS_MIN, t, successors[k], lag);
    }
  }
}

static void read_sch(Reader *r)
{
  r->tasks = number(r, "the number of activities", 0, LARGEST_FILE_TASKS - 2) + 2;
  r->resources = number(r, "the number of resources", 0, LARGEST_FILE_RESOURCES);
  number(r, "the number of nonrenewable resources", 0, 0);
  number(r, "the number of doubly constrained resources", 0, 0);
  if (r->failed) return;
  begin_problem(r);
  int *successors = mem_array((size_t)r->tasks, sizeof *successors);
  read_sch_successors(r, successors);
  mem_free(successors);
  read_demands(r);
  read_capacities(r);
}

/* ---- the whole */

bool psplib_format(const char *name, PsplibFormat *format)
{
  const char *dot = strrchr(name, '.');
  if (dot == NULL || (strcmp(dot, ".sm") != 0 && strcmp(dot, ".sch") != 0)) return false;
  *format = strcmp(dot, ".sm") == 0 ? PSPLIB_SM : PSPLIB_SCH;
  return true;
}

Problem *psplib_read(PsplibFormat format, const char *text, size_t length, PsplibError *error)
{
  Reader r = { .at = text, .end = text + length, .line = 1, .error = error };
  if (format == PSPLIB_SM) read_sm(&r);
  else read_sch(&r);
  if (r.failed) {
    problem_free(r.problem);
    return NULL;
  }
  set_horizon(r.problem);
  return r.problem;
}
