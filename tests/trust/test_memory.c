/* test_memory.c - memory that runs out anywhere: every command, refused at one request and the next.
 *
 * By default at ever wider distances, which takes seconds: a number as argument says how close they are. With the
 * argument `all` at each request: the command runs once, in this process, and at each request a child is forked that is
 * refused it and what follows; then at a thousand spread over the run a child that is refused just that one. Lua's
 * allocator asks the same counter, so that its requests are among those refused. */
#include "support.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <fcntl.h>
#include <unistd.h>

#include "base/files.h"
#include "base/mem.h"
#include "cli/command.h"
#include "cli/supervisor.h"

static char folder[] = P_tmpdir "/gritwork-memory-XXXXXX";
static size_t closeness = 2;
static bool at_each;

/* Each as on the command line; JOB, METHOD and TESTS stand for files of the folder, OUT for a folder that is new. */
static const char *const lines[] = {
  "validate JOB",
  "validate --json --assumptions METHOD",
  "validate --sarif METHOD",
  "validate --diff MISTAKES",
  "sheet --json --effort=1 JOB",
  "schedule --effort=1 JOB",
  "schedule --json --effort=1 JOB",
  "cost --assumptions --effort=1 JOB",
  "cost --json --effort=1 JOB",
  "why --effort=1 JOB price",
  "words hone",
  "words --manual",
  "test TESTS",
  "new --out=OUT",
};

/* ---- one run */

typedef struct {
  const Options *options;
  void (*refuse)(size_t n);
  size_t n;
  bool in_process;
} Task;

static int run_command(Port *port, void *context)
{
  const Task *task = context;
  Session session;
  task->refuse(task->n);
  session_begin(&session, port, task->options);
  int status = task->options->command->run(&session);
  mem_fail_at(0);
  mem_ask(NULL);
  return status;
}

typedef struct {
  int status;
  Buf out, err;
} Outcome;

enum { CHILDREN = 2 };

static struct {
  bool lasting;      /* all later requests are refused too */
  size_t n, step;    /* requests so far; of so many one is tried */
  pid_t children[CHILDREN];
  bool is_child;
  int out_fd, err_fd; /* of the run, which a child must not write to */
} forking;

static Buf contents(int fd)
{
  Buf text = { 0 };
  char chunk[4096];
  ssize_t got;
  lseek(fd, 0, SEEK_SET);
  while ((got = read(fd, chunk, sizeof chunk)) > 0) buf_add(&text, chunk, (size_t)got);
  close(fd);
  return text;
}

static Outcome run(Task *task)
{
  const Options *o = task->options;
  bool files = o->command->arguments_are_files;
  int out = memfd_create("out", 0), err = memfd_create("err", 0);
  SuperviseOptions s = { .root = folder, .files = files ? o->arguments : NULL, .out_folder = o->out,
                         .file_count = files ? (size_t)o->argument_count : 0, .out_fd = out, .err_fd = err,
                         .in_process = task->in_process };
  forking.out_fd = out;
  forking.err_fd = err;
  Outcome outcome = { .status = supervise(&s, run_command, task) };
  outcome.out = contents(out);
  outcome.err = contents(err);
  return outcome;
}

static void free_outcome(Outcome *outcome)
{
  buf_free(&outcome->out);
  buf_free(&outcome->err);
}

/* ---- what it must come to */

static bool same(const Buf *a, const Buf *b) { return strcmp(buf_text(a), buf_text(b)) == 0; }

static bool is_as_usual(const Outcome *usual, const Outcome *got)
{
  return got->status == usual->status && same(&got->out, &usual->out) && same(&got->err, &usual->err);
}

/* One line or the finding of a budget on standard error, nothing on standard output, no file. */
static bool is_clean_refusal(const Options *o, const Outcome *got)
{
  const char *line = buf_text(&got->err), *end = strchr(line, '\n');
  bool told = strncmp(line, "error[budget]", 13) == 0 || (end && end[1] == '\0');
  return got->status == STATUS_BUDGET && got->out.length == 0 && told && strstr(line, "memory") &&
         (!o->out || access(o->out, F_OK) != 0);
}

static void check_refusal(const char *line, Task *task, const Outcome *got)
{
  if (is_clean_refusal(task->options, got)) return;
  fail_msg("gritwork %s, refused at %zu: status %d\n%.400s%.400s", line, task->n, got->status, buf_text(&got->err),
           buf_text(&got->out));
}

static size_t next(size_t n) { return n + 1 + n / closeness; }

static void remove_made(const Options *o)
{
  char command[200];
  if (!o->out) return;
  snprintf(command, sizeof command, "rm -rf '%s'", o->out);
  if (system(command) != 0) fail();
}

/* ---- a child at each request */

/* Fine: it judged itself so, or it ended as a worker does that has no more. */
static void await_child(const char *line, size_t slot)
{
  int status = 0;
  pid_t child = forking.children[slot];
  forking.children[slot] = 0;
  if (child == 0) return;
  if (waitpid(child, &status, 0) != child) fail_msg("waitpid: %s", strerror(errno));
  if (!WIFEXITED(status) || (WEXITSTATUS(status) != 0 && WEXITSTATUS(status) != STATUS_BUDGET))
    fail_msg("gritwork %s, refused at about %zu%s: wait status %d", line, forking.n,
             forking.lasting ? " and from then on" : "", status);
}

static const char *forked_line;

/* In the child the request is refused; its output goes to files of its own. */
static bool fork_here(void)
{
  if (++forking.n % forking.step != 0) return false;
  size_t slot = forking.n / forking.step % CHILDREN;
  await_child(forked_line, slot);
  pid_t child = fork();
  if (child < 0) fail_msg("fork: %s", strerror(errno));
  if (child > 0) {
    forking.children[slot] = child;
    return false;
  }
  forking.is_child = true;
  mem_ask(NULL);
  if (forking.lasting) mem_fail_from(1);
  int nowhere = open("/dev/null", O_WRONLY);
  dup2(memfd_create("out", 0), forking.out_fd);
  dup2(memfd_create("err", 0), forking.err_fd);
  dup2(nowhere, STDERR_FILENO);
  close(nowhere);
  return !forking.lasting || mem_refuses();
}

static void ask_at_each(size_t step)
{
  forking.n = 0;
  forking.step = step;
  mem_ask(fork_here);
}

/* Answers how many requests there were. */
static size_t check_each(const char *line, Task task, const Outcome *usual, bool lasting, size_t step)
{
  task.in_process = true;
  task.refuse = ask_at_each;
  task.n = step;
  forking.lasting = lasting;
  forked_line = line;
  Outcome got = run(&task);
  if (forking.is_child) _exit(is_clean_refusal(task.options, &got) || (!lasting && is_as_usual(usual, &got)) ? 0 : 1);
  for (size_t i = 0; i < CHILDREN; i++) await_child(line, i);
  if (!is_as_usual(usual, &got)) fail_msg("gritwork %s: other when asked at each request", line);
  print_message("gritwork %s: refused at %zu requests%s\n", line, forking.n / step,
                lasting ? ", and from then on" : ", each alone");
  free_outcome(&got);
  remove_made(task.options);
  return forking.n;
}

/* When nothing more is to be had, there is no way out but the clean one. */
static void check_lasting(const char *line, Task task, const Outcome *usual)
{
  task.refuse = mem_fail_from;
  for (task.n = 1;; task.n = next(task.n)) {
    Outcome got = run(&task);
    bool is_done = is_as_usual(usual, &got);
    if (!is_done) check_refusal(line, &task, &got);
    free_outcome(&got);
    if (is_done) break;
  }
  remove_made(task.options);
}

/* A single refusal, which Lua may survive by collecting: then nothing may have changed. */
static void check_passing(const char *line, Task task, const Outcome *usual, size_t last)
{
  task.refuse = mem_fail_at;
  for (task.n = 1; task.n <= last; task.n = next(task.n)) {
    Outcome got = run(&task);
    if (!is_as_usual(usual, &got)) check_refusal(line, &task, &got);
    free_outcome(&got);
    remove_made(task.options);
  }
}

/* ---- the commands */

/* The words of a line as arguments, places of files put in. */
static int split(char *line, char **argv)
{
  static char program[] = "gritwork", storage[8][128];
  int argc = 0;
  argv[argc++] = program;
  for (char *word = strtok(line, " "); word; word = strtok(NULL, " ")) {
    bool is_out = strncmp(word, "--out=", 6) == 0;
    bool is_file = strcmp(word, "JOB") == 0 || strcmp(word, "METHOD") == 0 || strcmp(word, "MISTAKES") == 0 ||
                   strcmp(word, "TESTS") == 0;
    if (is_out) snprintf(storage[argc], sizeof *storage, "--out=%s/%s", folder, word + 6);
    else if (is_file) snprintf(storage[argc], sizeof *storage, "%s/%s.lua", folder, word);
    else snprintf(storage[argc], sizeof *storage, "%s", word);
    argv[argc] = storage[argc];
    argc++;
  }
  argv[argc] = NULL;
  return argc;
}

static void check_line(const char *line)
{
  enum { SINGLE = 1000 }; /* single refusals, after which the whole run may follow */
  char words[128], *argv[10];
  Buf text = { 0 };
  Options options;
  snprintf(words, sizeof words, "%s", line);
  if (options_read(split(words, argv), argv, &options, &text) != OPTIONS_RUN) fail_msg("%s", buf_text(&text));
  Task task = { .options = &options, .refuse = mem_fail_at };
  Outcome usual = run(&task);
  remove_made(&options);
  if (usual.status > STATUS_FINDINGS) fail_msg("gritwork %s: status %d %s", line, usual.status, buf_text(&usual.err));
  if (at_each) {
    size_t requests = check_each(line, task, &usual, true, 1);
    if (!options.out) check_each(line, task, &usual, false, requests / SINGLE + 1); /* children would share a folder */
  } else check_lasting(line, task, &usual);
  if (!at_each || options.out) check_passing(line, task, &usual, 1 << 12);
  free_outcome(&usual);
}

static bool is_listed(const char *command)
{
  size_t length = strlen(command);
  for (size_t i = 0; i < COUNT_OF(lines); i++)
    if (strncmp(lines[i], command, length) == 0 && lines[i][length] == ' ') return true;
  return false;
}

/* A command that no line tells how to try is given as many jobs as it needs. */
static void check_unlisted(const Command *command)
{
  Buf line = { 0 };
  buf_printf(&line, "%s%s%s", command->name, command->needs_out ? " --out=OUT" : "",
             options_among(command->options, "effort") ? " --effort=1" : "");
  for (int i = 0; i < command->least_files; i++) buf_puts(&line, " JOB");
  check_line(buf_text(&line));
  buf_free(&line);
}

static void every_command_ends_cleanly_wherever_memory_runs_out(void **state)
{
  (void)state;
  for (size_t i = 0; i < COUNT_OF(lines); i++) check_line(lines[i]);
  for (const Command *const *c = commands; *c; c++)
    if (!is_listed((*c)->name)) check_unlisted(*c);
}

/* ---- the files they work on: what `gritwork new` writes, a recipe with mistakes, and a test */

static void put(const char *name, const char *text, size_t length)
{
  char path[128];
  snprintf(path, sizeof path, "%s/%s.lua", folder, name);
  assert_int_equal(files_write(path, text, length), FILES_OK);
}

/* The helper of `bid` is looked for beside the program that runs, which here is this test. */
static void link_helper(void)
{
  char own[200], link[256];
  ssize_t length = readlink("/proc/self/exe", own, sizeof own - 1);
  if (length <= 0) return;
  own[length] = '\0';
  snprintf(link, sizeof link, "%.*s/gritwork-press", (int)(strrchr(own, '/') - own), own);
  if (symlink("../../gritwork-press", link) != 0 && errno != EEXIST) fail_msg("%s: %s", link, strerror(errno));
}

static int make_folder(void **state)
{
  static const char mistakes[] = "return recipe \"r\" { hne \"a\" { grit: 200 bond = “resn”, overlap = 3 } }\n";
  static const char tests[] = "return test \"t\" { of = recipe \"r\" { hone \"a\" { grit = 200 } }, finds = {} }\n";
  (void)state;
  if (!mkdtemp(folder)) return -1;
  link_helper();
  const char *name, *text;
  size_t length;
  for (size_t i = 0; script_start_file(i, &name, &text, &length); i++) {
    put(name, text, length);
    if (strcmp(name, "first_job") == 0) put("JOB", text, length);
    if (strcmp(name, "house_method") == 0) put("METHOD", text, length);
  }
  put("MISTAKES", mistakes, sizeof mistakes - 1);
  put("TESTS", tests, sizeof tests - 1);
  return 0;
}

static int remove_folder(void **state)
{
  char command[64];
  (void)state;
  snprintf(command, sizeof command, "rm -rf '%s'", folder);
  return system(command);
}

int main(int argc, char **argv)
{
  at_each = argc > 1 && strcmp(argv[1], "all") == 0;
  if (argc > 1 && !at_each) closeness = (size_t)atoi(argv[1]);
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown(every_command_ends_cleanly_wherever_memory_runs_out, make_folder, remove_folder),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
