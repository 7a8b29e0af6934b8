/* start.c - whole-process time of `gritwork validate`, all rules on:
 *
 *   a recipe of 300 lines, beside plain Lua running a table of as many lines, in turn, so that a slow moment of the
 *   machine hits both; a job of 300 lines with 12 areas; a folder of 500 different recipes in one run.
 *
 *     start GRITWORK FOLDER      GRITWORK as an absolute path; writes its inputs into FOLDER
 *
 * By the clock, and in seconds of the processor: on a machine with other work the second is the steady one. */
#include <fcntl.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#define RECIPE "recipe_300.lua"
#define TABLE "table_300.lua"
#define JOB "job_300.lua"
#define RECIPES "recipes_500"

enum { ROUNDS = 61, FOLDER_ROUNDS = 5, LINES = 300, AREAS = 12, FOLDER_RECIPES = 500 };

/* ---- a text that counts its lines */

typedef struct {
  FILE *file;
  int lines;
} Text;

static Text text_open(const char *path)
{
  Text text = { fopen(path, "w"), 0 };
  if (!text.file) {
    fprintf(stderr, "start: cannot write %s\n", path);
    exit(1);
  }
  return text;
}

__attribute__((format(printf, 2, 3))) static void put(Text *text, const char *format, ...)
{
  char line[1024];
  va_list arguments;
  va_start(arguments, format);
  vsnprintf(line, sizeof line, format, arguments);
  va_end(arguments);
  fputs(line, text->file);
  for (const char *c = line; *c; c++) text->lines += *c == '\n';
}

/* ---- the inputs */

static const int grits[] = { 50, 100, 200, 400, 800, 1500, 3000 };
enum { GRITS = sizeof grits / sizeof *grits };

/* A whole wet chain, a field a line as people write long ones; as words of the language, or as a plain table. */
static void put_chain(Text *text, bool plain)
{
  for (int n = 0; n < GRITS; n++) {
    put(text, plain ? "  { \"hone\", \"pass %d\",\n" : "  hone \"pass %d\" {\n", n);
    put(text, "    grit = %d,\n    bond = \"resin\",\n    wet = true,\n    passes = 10,\n", grits[n]);
    put(text, "    overlap = \"3 in\",\n    travel = \"20 ft/min\",\n    care = \"rinse the tools before the slurry sets\",\n  },\n");
    put(text, plain ? "  { \"collect\", \"slurry %d\",\n" : "  collect \"slurry %d\" {\n", n);
    put(text, "    within = \"8 min\",\n  },\n");
  }
}

/* Then readings, up to so many lines. */
static void write_recipe(const char *path, bool plain)
{
  static const char *const measures[] = { "roughness", "colour", "surface temperature" };
  Text text = text_open(path);
  put(&text, plain ? "return {\n" : "return recipe \"three hundred lines\" {\n");
  put_chain(&text, plain);
  for (int n = 0; text.lines + 7 <= LINES; n++) {
    put(&text, plain ? "  { \"check\", \"reading %d\",\n" : "  check \"reading %d\" {\n", n);
    put(&text, "    measure = \"%s\",\n    readings = \"1 per 500 sqft\",\n", measures[n % 3]);
    put(&text, "    people = 1,\n    each = \"5 min\",\n  },\n");
  }
  put(&text, "}\n");
  fclose(text.file);
}

static void put_job_head(Text *text)
{
  put(text, "return job \"twelve halls\" {\n  units = \"us\",\n  start = \"2027-03-01 07:00\",\n");
  put(text, "  shifts = {\n    day = { hours = \"7:00 to 16:00\" },\n  },\n");
  put(text, "  slab = {\n    hardness = 5,\n    age = \"400 d\",\n  },\n  site = {\n    slurry = \"licensed hauler\",\n"
            "    circuits = {\n      { amps = \"60 A\", volts = \"480 V\", phases = \"three\" },\n"
            "      { amps = \"60 A\", volts = \"480 V\", phases = \"three\" },\n    },\n  },\n");
  put(text, "  prices = prices \"book\" {\n    labour = { operator = \"$31/h\" },\n    overhead = \"12 %%\",\n"
            "    margin = \"18 %%\",\n    machines = {\n      planetary = { hour = \"$20/h\" },\n"
            "      edger = { hour = \"$5/h\" },\n      vacuum = { hour = \"$4/h\" },\n    },\n    tools = {\n");
  for (int n = 0; n < GRITS; n++)
    put(text, "      [\"resin %d\"] = { price = \"$180\", life = \"6000 sqft/set\" },\n", grits[n]);
  put(text, "    },\n  },\n");
  put(text, "  crew \"operator\" {\n    count = 8,\n    skills = { \"any\" },\n    shift = \"day\",\n  },\n");
  put(text, "  machine \"planetary\" {\n    count = 3,\n    does = { \"hone\" },\n    wet = true,\n"
            "    width = \"32 in\",\n    amps = \"20 A\",\n    volts = \"480 V\",\n    phases = \"three\",\n    noise = \"85 dBA\",\n"
            "    vibration = \"2 m/s2\",\n  },\n");
  put(text, "  machine \"edger\" {\n    count = 3,\n    does = { \"edges\" },\n  },\n");
  put(text, "  machine \"vacuum\" {\n    count = 3,\n    does = { \"collect\" },\n  },\n");
}

/* A recipe and 12 areas that it is done in, of different sizes; notes fill it up to so many lines. */
static void write_job(const char *path)
{
  Text text = text_open(path);
  put(&text, "local house = recipe \"house\" {\n");
  put_chain(&text, false);
  put(&text, "}\n");
  put_job_head(&text);
  for (int n = 0; n < AREAS; n++)
    put(&text, "  area \"hall %d\" {\n    recipe = house,\n    length = \"%d ft\",\n    width = \"%d ft\",\n"
               "    edges = \"%d ft\",\n    protection = \"30 min\",\n    clean_up = \"20 min\",\n  },\n",
        n, 30 + n, 20 + n, 90 + 3 * n);
  while (text.lines < LINES - 1) put(&text, "  -- %d\n", text.lines + 1);
  put(&text, "}\n");
  fclose(text.file);
}

/* A wet method of one line a step; each of the folder has figures and a head of its own. */
static void write_method(const char *path, int number)
{
  static const char *const finishes[] = { "flat", "satin", "polished" };
  Text text = text_open(path);
  put(&text, "return recipe \"method %d\" {\n  revision = \"%d\",\n", number, number % 9);
  put(&text, "  suits = { hardness = between(3, %d), age = at_least \"%d d\" },\n", 4 + number % 3, 28 + number % 30);
  put(&text, "  finish = { exposure = \"cream\", appearance = \"%s\" },\n", finishes[number % 3]);
  put(&text, "  check \"survey\" { measure = \"mohs hardness\", readings = \"1 per %d sqft\", hold = true },\n",
      300 + number % 400);
  for (int n = 0; n < GRITS - 1 - number % 3; n++) {
    put(&text, "  hone \"%d\" { grit = %d, bond = \"resin\", wet = true, care = \"rinse\", ", grits[n], grits[n]);
    put(&text, "passes = %d, overlap = \"%d in\" },\n", 8 + number % 7, 2 + number % 3);
    put(&text, "  collect \"slurry %d\" { within = \"%d min\" },\n", n, 5 + number % 9);
    if (n == 2)
      put(&text, "  clean \"wash\" { with = \"water\", dry = \"1 h\" },\n"
                 "  densify \"densify\" { with = \"lithium silicate\", spread = \"%d sqft/gal\", "
                 "dwell = \"40 min\", keep = \"wet\", dry = \"1 h\" },\n", 450 + number % 200);
  }
  put(&text, "  check \"clarity\" { measure = \"image clarity\", want = at_least(40), "
             "readings = \"1 per 500 sqft\", hold = true },\n}\n");
  fclose(text.file);
}

static void write_methods(const char **paths)
{
  mkdir(RECIPES, 0777);
  for (int n = 0; n < FOLDER_RECIPES; n++) {
    char path[64];
    snprintf(path, sizeof path, RECIPES "/method_%03d.lua", n);
    write_method(path, n);
    paths[n] = strdup(path);
  }
}

/* ---- measuring */

typedef struct {
  double ms[ROUNDS], cpu_ms[ROUNDS];
  int rounds;
  long peak_kib;
} Series;

static double now_ms(void)
{
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

static double ms_of(struct timeval t) { return (double)t.tv_sec * 1e3 + (double)t.tv_usec / 1e3; }

/* Warnings and errors of the input are none of the bench's business; a run that ends early is. */
static void run(const char *const argv[], Series *series)
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
  if (!WIFEXITED(status) || WEXITSTATUS(status) > 0) {
    fprintf(stderr, "start: %s failed\n", argv[0]);
    exit(1);
  }
  series->ms[series->rounds] = now_ms() - before;
  series->cpu_ms[series->rounds++] = ms_of(usage.ru_utime) + ms_of(usage.ru_stime);
  if (usage.ru_maxrss > series->peak_kib) series->peak_kib = usage.ru_maxrss;
}

static int compare(const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static double median(double *values, int count)
{
  qsort(values, (size_t)count, sizeof *values, compare);
  return values[count / 2];
}

static void bench_start(const char *gritwork)
{
  static Series ours, plain;
  const char *validate[] = { gritwork, "validate", RECIPE, NULL }, *lua[] = { "lua5.4", TABLE, NULL };
  for (int i = 0; i < ROUNDS; i++) {
    run(validate, &ours);
    run(lua, &plain);
  }
  double a = median(ours.ms, ROUNDS), b = median(plain.ms, ROUNDS);
  double c = median(ours.cpu_ms, ROUNDS), d = median(plain.cpu_ms, ROUNDS);
  printf("start: validate of a 300-line recipe %.2f ms, %ld KiB; lua5.4 on a 300-line table %.2f ms, %ld KiB; "
         "ratio %.2f (processor %.2f and %.2f ms, ratio %.2f)\n", a, ours.peak_kib, b, plain.peak_kib, a / b, c, d, c / d);
}

static void bench_job(const char *gritwork)
{
  static Series job;
  const char *validate[] = { gritwork, "validate", JOB, NULL };
  for (int i = 0; i < ROUNDS; i++) run(validate, &job);
  double clock = median(job.ms, ROUNDS), processor = median(job.cpu_ms, ROUNDS);
  printf("job: validate of a 300-line job with %d areas %.2f ms, processor %.2f ms (bar: 25 ms)\n", AREAS, clock,
         processor);
}

static void bench_folder(const char *gritwork, const char **paths)
{
  static Series folder;
  const char *argv[FOLDER_RECIPES + 3] = { gritwork, "validate" };
  memcpy(argv + 2, paths, FOLDER_RECIPES * sizeof *paths);
  for (int i = 0; i < FOLDER_ROUNDS; i++) run(argv, &folder);
  double clock = median(folder.ms, FOLDER_ROUNDS), processor = median(folder.cpu_ms, FOLDER_ROUNDS);
  printf("folder: validate of %d recipes in one run %.0f ms, %.2f ms each, processor %.2f ms each (bar: 2 ms each)\n",
         FOLDER_RECIPES, clock, clock / FOLDER_RECIPES, processor / FOLDER_RECIPES);
}

int main(int argc, char **argv)
{
  static const char *paths[FOLDER_RECIPES];
  if (argc != 3) return 2;
  if (chdir(argv[2]) != 0) return 1;
  write_recipe(RECIPE, false);
  write_recipe(TABLE, true);
  write_job(JOB);
  write_methods(paths);
  bench_start(argv[1]);
  bench_job(argv[1]);
  bench_folder(argv[1], paths);
  return 0;
}
