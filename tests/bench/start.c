/* start.c - whole-process time and memory of `gritwork validate` on a 300-line recipe beside plain Lua running a table of
 * as many lines, in turn, so that a slow moment of the machine hits both.
 *
 *     start GRITWORK FOLDER      GRITWORK as an absolute path; writes its two inputs into FOLDER */
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#define RECIPE "recipe_300.lua"
#define TABLE "table_300.lua"

enum { ROUNDS = 61, LINES = 300 };

typedef struct {
  double ms[ROUNDS];
  long peak_kib;
} Series;

static double now_ms(void)
{
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

static void run(const char *const argv[], Series *series, int round)
{
  double before = now_ms();
  pid_t child = fork();
  if (child == 0) {
    int null = open("/dev/null", O_WRONLY);
    dup2(null, STDOUT_FILENO);
    execvp(argv[0], (char *const *)argv);
    _exit(127);
  }
  int status;
  struct rusage usage;
  wait4(child, &status, 0, &usage);
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) {
    fprintf(stderr, "start: %s failed\n", argv[0]);
    exit(1);
  }
  series->ms[round] = now_ms() - before;
  if (usage.ru_maxrss > series->peak_kib) series->peak_kib = usage.ru_maxrss;
}

/* A sound recipe of so many lines, a field a line as people write long ones: a whole wet chain, then readings. */
static void write_recipe(const char *path)
{
  static const int grits[] = { 50, 100, 200, 400, 800, 1500, 3000 };
  static const char *const measures[] = { "roughness", "colour", "surface temperature" };
  FILE *file = fopen(path, "w");
  if (!file) exit(1);
  fprintf(file, "return recipe \"three hundred lines\" {\n");
  int line = 2;
  for (int n = 0; n < 7; n++, line += 12) {
    fprintf(file, "  hone \"pass %d\" {\n    grit = %d,\n    bond = \"resin\",\n    wet = true,\n    passes = 10,\n", n, grits[n]);
    fprintf(file, "    overlap = \"3 in\",\n    travel = \"20 ft/min\",\n");
    fprintf(file, "    care = \"rinse the tools before the slurry sets\",\n  },\n");
    fprintf(file, "  collect \"slurry %d\" {\n    within = \"8 min\",\n  },\n", n);
  }
  for (int n = 0; line + 6 < LINES; n++, line += 6)
    fprintf(file, "  check \"reading %d\" {\n    measure = \"%s\",\n    readings = \"1 per 500 sqft\",\n"
                  "    people = 1,\n    each = \"5 min\",\n  },\n", n, measures[n % 3]);
  fprintf(file, "}\n");
  fclose(file);
}

/* The same as a plain table. */
static void write_table(const char *path)
{
  FILE *file = fopen(path, "w");
  if (!file) exit(1);
  fprintf(file, "return {\n");
  int line = 2;
  for (int n = 0; n < 7; n++, line += 12) {
    fprintf(file, "  { \"hone\", \"pass %d\",\n    grit = 100,\n    bond = \"resin\",\n    wet = true,\n    passes = 10,\n", n);
    fprintf(file, "    overlap = \"3 in\",\n    travel = \"20 ft/min\",\n");
    fprintf(file, "    care = \"rinse the tools before the slurry sets\",\n  },\n");
    fprintf(file, "  { \"collect\", \"slurry %d\",\n    within = \"8 min\",\n  },\n", n);
  }
  for (int n = 0; line + 6 < LINES; n++, line += 6)
    fprintf(file, "  { \"check\", \"reading %d\",\n    measure = \"roughness\",\n    readings = \"1 per 500 sqft\",\n"
                  "    people = 1,\n    each = \"5 min\",\n  },\n", n);
  fprintf(file, "}\n");
  fclose(file);
}

static int compare(const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static double median(Series *series)
{
  qsort(series->ms, ROUNDS, sizeof *series->ms, compare);
  return series->ms[ROUNDS / 2];
}

int main(int argc, char **argv)
{
  if (argc != 3) return 2;
  static Series ours, plain;
  if (chdir(argv[2]) != 0) return 1;
  write_recipe(RECIPE);
  write_table(TABLE);
  const char *validate[] = { argv[1], "validate", RECIPE, NULL }, *lua[] = { "lua5.4", TABLE, NULL };
  for (int i = 0; i < ROUNDS; i++) {
    run(validate, &ours, i);
    run(lua, &plain, i);
  }
  double a = median(&ours), b = median(&plain);
  printf("start: validate of a 300-line recipe %.2f ms, %ld KiB; lua5.4 on a 300-line table %.2f ms, %ld KiB; ratio %.2f\n", a,
         ours.peak_kib, b, plain.peak_kib, a / b);
  return 0;
}
