/* psplib.c - runs the solver over benchmark files and says how good its answers are.
 *
 *   psplib [--seconds S | --work N] [--seed N] [--threads N] [--out DIR] [--cpu] [--verbose] FILE...
 *
 * Writes DIR/INSTANCE.csv for each file that has an answer: lines `task,start` in the file's own numbering, or the
 * word `infeasible`. Prints one line for each folder. `bestknown.csv` beside the files (instance,best,lower bound)
 * is used if there. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>

#include "base/buf.h"
#include "base/mem.h"
#include "plan/check.h"
#include "plan/instance.h"
#include "plan/psplib.h"
#include "plan/solve.h"

typedef struct {
  double seconds;
  const char *out;
  bool verbose, cpu;
  uint64_t seed;
  int64_t work;
  int threads;
} BenchOptions;

typedef struct {
  char folder[512];
  Buf known; /* bestknown.csv */
  int instances, solved, proved, infeasible, verdicts, verdicts_right, compared;
  double over_best, over_path, gap, seconds;
} Set;

static double now_s(void)
{
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static bool read_all(const char *path, Buf *out)
{
  FILE *file = fopen(path, "rb");
  if (file == NULL) return false;
  char block[65536];
  for (size_t n; (n = fread(block, 1, sizeof block, file)) > 0;) buf_add(out, block, n);
  fclose(file);
  return true;
}

static void folder_of(const char *path, char *folder, size_t size)
{
  const char *slash = strrchr(path, '/');
  snprintf(folder, size, "%.*s", slash ? (int)(slash - path) : 1, slash ? path : ".");
}

static const char *name_of(const char *path)
{
  const char *slash = strrchr(path, '/');
  return slash ? slash + 1 : path;
}

/* The best known makespan; -1: proved infeasible; -2: not listed. */
static int best_known(const Set *set, const char *name)
{
  size_t length = strlen(name);
  for (const char *line = buf_text(&set->known); line != NULL && *line != '\0';) {
    if (strncmp(line, name, length) == 0 && line[length] == ',')
      return strncmp(line + length + 1, "infeasible", 10) == 0 ? -1 : atoi(line + length + 1);
    line = strchr(line, '\n');
    if (line != NULL) line++;
  }
  return -2;
}

static void write_answer(const BenchOptions *options, const char *name, int first, const SolveResult *result)
{
  Buf path = { 0 };
  buf_printf(&path, "%s/%.*s.csv", options->out, (int)(strrchr(name, '.') - name), name);
  FILE *file = fopen(buf_text(&path), "w");
  if (file == NULL) {
    perror(buf_text(&path));
    exit(3);
  }
  if (result->status == SOLVE_INFEASIBLE) fprintf(file, "infeasible\n");
  for (int t = 0; result->schedule != NULL && t < result->schedule->count; t++)
    fprintf(file, "%d,%d\n", t + first, result->schedule->start[t]);
  fclose(file);
  buf_free(&path);
}

static int critical_path(const Problem *problem)
{
  Instance *in = instance_new(problem);
  int path = temporal_tighten(in, in->earliest, in->latest, NULL) ? in->earliest[in->end] : 0;
  instance_free(in);
  return path;
}

static void count_result(Set *set, const char *name, const Problem *problem, const SolveResult *r)
{
  int known = best_known(set, name);
  set->instances++;
  bool infeasible = r->status == SOLVE_INFEASIBLE, found = r->schedule != NULL;
  if (infeasible || found) set->verdicts++;
  if (known == -2 ? infeasible || found : known == -1 ? infeasible : found) set->verdicts_right++;
  if (infeasible && known >= 0) printf("WRONG: %s is feasible\n", name);
  if (infeasible) set->infeasible++;
  if (r->status == SOLVE_BEST || infeasible) set->proved++;
  if (!found) return;
  set->solved++;
  int makespan = r->schedule->makespan, path = critical_path(problem);
  set->gap += makespan > 0 ? 100.0 * (makespan - r->lower_bound) / makespan : 0;
  if (path > 0) set->over_path += 100.0 * (makespan - path) / path;
  if (known <= 0) return;
  set->compared++;
  set->over_best += 100.0 * (makespan - known) / known;
  if (r->lower_bound > known)
    printf("WRONG: bound %d of %s is over the best known %d\n", r->lower_bound, name, known);
}

static void run_file(const BenchOptions *options, Set *set, const char *path)
{
  PsplibFormat format;
  PsplibError error;
  Buf text = { 0 };
  if (!psplib_format(path, &format) || !read_all(path, &text)) {
    fprintf(stderr, "%s: cannot be read as .sm or .sch\n", path);
    exit(3);
  }
  Problem *problem = psplib_read(format, text.text, text.length, &error);
  if (problem == NULL) {
    fprintf(stderr, "%s:%d: %s\n", path, error.line, error.message);
    exit(3);
  }
  double begin = now_s();
  SolveResult result = solve(problem, &(SolveOptions){ .seconds = options->seconds, .cpu = options->cpu,
                                                   .work = options->work, .threads = options->threads,
                                                   .seed = options->seed });
  double took = now_s() - begin;
  Buf breaches = { 0 };
  if (result.schedule != NULL && !check_schedule(problem, result.schedule, &breaches)) {
    fprintf(stderr, "%s: unsound schedule\n%s", path, buf_text(&breaches));
    exit(70);
  }
  set->seconds += took;
  if (options->verbose)
    printf("%-20s %4d >= %4d best %4d %-5s %6.2f s work %lld\n", name_of(path),
           result.schedule ? result.schedule->makespan : -1, result.lower_bound, best_known(set, name_of(path)),
           result.status == SOLVE_BEST ? "best" : result.status == SOLVE_INFEASIBLE ? "infea" : "", took,
           (long long)result.work);
  count_result(set, name_of(path), problem, &result);
  if (options->out != NULL && result.status != SOLVE_UNKNOWN)
    write_answer(options, name_of(path), format == PSPLIB_SM ? 1 : 0, &result);
  buf_free(&breaches);
  solve_free(&result);
  problem_free(problem);
  buf_free(&text);
}

static void print_set(const Set *s)
{
  if (s->instances == 0) return;
  int solved = s->solved ? s->solved : 1, compared = s->compared ? s->compared : 1;
  printf("%-10s %3d files: %.3f %% over best known, %.2f %% over critical path, proved %.1f %%, gap %.2f %%, "
         "verdicts %d (%d right, %d infeasible), %.2f s each\n",
         name_of(s->folder), s->instances, s->over_best / compared, s->over_path / solved,
         100.0 * s->proved / s->instances, s->gap / solved, s->verdicts, s->verdicts_right, s->infeasible,
         s->seconds / s->instances);
  fflush(stdout);
}

static void begin_set(Set *set, const char *folder)
{
  print_set(set);
  buf_free(&set->known);
  *set = (Set){ 0 };
  snprintf(set->folder, sizeof set->folder, "%s", folder);
  Buf path = { 0 };
  buf_printf(&path, "%s/bestknown.csv", folder);
  read_all(buf_text(&path), &set->known);
  buf_free(&path);
}

int main(int argc, char **argv)
{
  BenchOptions options = { .seconds = 1 };
  Set set = { 0 };
  for (int k = 1; k < argc; k++) {
    if (strcmp(argv[k], "--seconds") == 0 && k + 1 < argc) options.seconds = atof(argv[++k]);
    else if (strcmp(argv[k], "--out") == 0 && k + 1 < argc) mkdir(options.out = argv[++k], 0777);
    else if (strcmp(argv[k], "--verbose") == 0) options.verbose = true;
    else if (strcmp(argv[k], "--cpu") == 0) options.cpu = true;
    else if (strcmp(argv[k], "--threads") == 0 && k + 1 < argc) options.threads = atoi(argv[++k]);
    else if (strcmp(argv[k], "--work") == 0 && k + 1 < argc) options.work = atoll(argv[++k]), options.seconds = 0;
    else if (strcmp(argv[k], "--seed") == 0 && k + 1 < argc) options.seed = strtoull(argv[++k], NULL, 10);
    else {
      char folder[sizeof set.folder];
      folder_of(argv[k], folder, sizeof folder);
      if (strcmp(folder, set.folder) != 0) begin_set(&set, folder);
      run_file(&options, &set, argv[k]);
    }
  }
  print_set(&set);
  buf_free(&set.known);
  if (argc < 2)
    fprintf(stderr, "usage: psplib [--seconds S | --work N] [--seed N] [--threads N] [--out DIR] [--cpu] "
                        "[--verbose] FILE...\n");
  return argc < 2 ? 2 : 0;
}
