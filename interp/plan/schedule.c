/* schedule.c - a plan scheduled: solved, and written down as bookings. */
#include "base/mem.h"
#include "plan/naming.h"
#include "plan/timetable.h"

enum { FIRST_WORK = 1000000 };

typedef struct {
  Problem *problem;
  SolveResult result;
} Attempt;

static Attempt attempt(const Timetable *t, const SolveOptions *options)
{
  Attempt a = { .problem = timetable_problem(t) };
  a.result = solve(a.problem, options);
  return a;
}

static void attempt_free(Attempt *a)
{
  solve_free(&a->result);
  problem_free(a->problem);
}

static bool has_absences(const Problem *problem, const Plan *plan)
{
  return problem->task_count > plan->activity_count;
}

/* Absences are told for every day that a schedule may reach. A first schedule shows how many days that is: the work
 * that follows, if there is any left, is lighter by the days beyond. */
static Attempt solve_plan(Timetable *t, const SolveOptions *options)
{
  SolveOptions first = *options;
  first.work = options->work > 0 && options->work < FIRST_WORK ? options->work : FIRST_WORK;
  Problem *whole = timetable_problem(t);
  bool shorter = has_absences(whole, t->plan);
  problem_free(whole);
  if (!shorter) return attempt(t, options);
  Attempt quick = attempt(t, &first);
  bool done = quick.result.status == SOLVE_BEST || (options->work > 0 && quick.result.work >= options->work);
  if (quick.result.schedule && done) return quick;
  if (quick.result.schedule) t->days = t->away_days = quick.result.schedule->makespan / DAY_MIN + 1;
  attempt_free(&quick);
  return attempt(t, options);
}

static bool pass_on(void *context, const SolveProgress *progress)
{
  const PlanSearch *search = context;
  return search->progress(search->context, &(PlanProgress){ progress->makespan, progress->lower_bound });
}

void plan_schedule(Plan *plan, const PlanSearch *search, Arena *arena, Diags *diags)
{
  if (plan->person_count > NAMING_MOST) {
    diags_error(diags, "people", plan->job->at, "a job may have at most %d people, this one has %d", NAMING_MOST,
                plan->person_count);
    return;
  }
  int days = timetable_days(plan, plan->job);
  Timetable t = { .plan = plan, .job = plan->job, .days = days, .away_days = days };
  SolveOptions options = { .work = search->work, .threads = search->threads, .progress = search->progress ? pass_on : NULL,
                           .context = (void *)search };
  Attempt a = solve_plan(&t, &options);
  if (search->work > 0 && !search->only_try && a.result.status == SOLVE_UNKNOWN) {
    attempt_free(&a);
    options.work = 0;
    a = solve_plan(&t, &options);
  }
  if (a.result.schedule) {
    plan->status = a.result.status == SOLVE_BEST ? PLAN_PROVED_BEST : PLAN_FEASIBLE;
    plan->finish = a.result.schedule->makespan;
    plan->lower_bound = a.result.lower_bound;
    timetable_book(plan, a.problem, a.result.schedule, arena);
    timetable_slack(&t, plan);
  } else {
    plan->status = a.result.status == SOLVE_INFEASIBLE ? PLAN_INFEASIBLE : PLAN_UNKNOWN;
    if (!search->only_try) timetable_explain(plan, &a.result, days, arena, diags);
  }
  attempt_free(&a);
}
