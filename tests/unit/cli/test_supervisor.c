/* test_supervisor.c - what a command prints and writes comes out if it finishes, and nothing else gets through. */
#include "cli/supervisor.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <errno.h>
#include <fcntl.h>
#include <pthread.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/time.h>
#include <unistd.h>

#include "base/files.h"
#include "cli/frames.h"

/* ---- one run with its streams caught */

typedef struct {
  int status;
  char out[4096], err[4096];
} Run;

static void read_back(int fd, char *text, size_t size)
{
  ssize_t got = pread(fd, text, size - 1, 0);
  text[got > 0 ? got : 0] = '\0';
  close(fd);
}

static Run run_with(SuperviseOptions options, WorkerMain command, void *context)
{
  Run run;
  options.out_fd = memfd_create("out", 0);
  options.err_fd = memfd_create("err", 0);
  if (!options.wall_ms) options.wall_ms = 10000;
  run.status = supervise(&options, command, context);
  read_back(options.out_fd, run.out, sizeof run.out);
  read_back(options.err_fd, run.err, sizeof run.err);
  return run;
}

static Run run(WorkerMain command, void *context) { return run_with((SuperviseOptions){ 0 }, command, context); }

/* ---- a folder of its own for each test that needs one */

static char folder[64];

static int make_folder(void **state)
{
  (void)state;
  snprintf(folder, sizeof folder, "%s/gritwork-XXXXXX", P_tmpdir);
  return mkdtemp(folder) ? 0 : -1;
}

static int remove_folder(void **state)
{
  (void)state;
  char command[96];
  snprintf(command, sizeof command, "rm -rf '%s'", folder);
  return system(command);
}

static const char *in_folder(const char *name)
{
  static char path[256];
  snprintf(path, sizeof path, "%s/%s", folder, name);
  return path;
}

static void put(const char *name, const char *text)
{
  assert_int_equal(files_write(in_folder(name), text, strlen(text)), FILES_OK);
}

static bool exists(const char *name) { return access(in_folder(name), F_OK) == 0; }

/* ---- commands */

static int greets(Port *port, void *context)
{
  port_print(port, "out", 3);
  port_complain(port, "err", 3);
  return *(int *)context;
}

static int prints_then(Port *port, void *context)
{
  port_print(port, "half a result", 13);
  ((void (*)(void))(uintptr_t)context)();
  return 0;
}

static void die_by_kill(void) { raise(SIGKILL); }
static void die_by_cpu_limit(void) { raise(SIGXCPU); }
static void die_by_abort(void) { abort(); }
static void leave_without_a_word(void) { _exit(0); }
static void run_forever(void) { for (volatile int i = 0;; i++) continue; }

static void write_raw(const char *bytes, size_t length)
{
  if (send(3, bytes, length, 0) < 0) _exit(1);
  run_forever();
}

static void send_garbage(void) { write_raw("not a frame at all", 18); }

static void send_huge_length(void)
{
  FrameHead head = { FRAME_PRINT, UINT32_MAX };
  write_raw((char *)&head, sizeof head);
}

static void send_frame_of_another_kind(void)
{
  FrameHead head = { FRAME_FINISHED + 1, 0 };
  write_raw((char *)&head, sizeof head);
}

static void send_strange_status(void)
{
  FrameHead head = { FRAME_FINISHED, 1 };
  char bytes[sizeof head + 1];
  memcpy(bytes, &head, sizeof head);
  bytes[sizeof head] = 99;
  write_raw(bytes, sizeof bytes);
}

static void send_file_that_climbs(void)
{
  static const char content[] = "../escaped\0text";
  FrameHead head = { FRAME_WRITE, sizeof content - 1 };
  char bytes[sizeof head + sizeof content - 1];
  memcpy(bytes, &head, sizeof head);
  memcpy(bytes + sizeof head, content, sizeof content - 1);
  write_raw(bytes, sizeof bytes);
}

/* ---- tests */

static void the_commands_status_and_streams_come_out(void **state)
{
  (void)state;
  static const int statuses[] = { 0, 1, 2, 3, 4, 70 };
  for (size_t i = 0; i < sizeof statuses / sizeof *statuses; i++) {
    int status = statuses[i];
    Run got = run(greets, &status);
    assert_int_equal(got.status, status);
    assert_string_equal(got.out, "out");
    assert_string_equal(got.err, "err");
  }
}

static void in_process_gives_the_same(void **state)
{
  (void)state;
  int status = 1;
  Run got = run_with((SuperviseOptions){ .in_process = true }, greets, &status);
  assert_int_equal(got.status, 1);
  assert_string_equal(got.out, "out");
  assert_string_equal(got.err, "err");
}

static void a_worker_that_does_not_finish_leaves_one_line(void **state)
{
  (void)state;
  static const struct {
    void (*ending)(void);
    int status;
    const char *line;
  } cases[] = {
    { die_by_kill, 4, "not enough memory" },
    { die_by_cpu_limit, 4, "processor time" },
    { die_by_abort, 70, "signal 6" },
    { leave_without_a_word, 70, "status 0" }, /* a clean exit is no success either */
    { send_garbage, 70, "its parts disagree" },
    { send_huge_length, 70, "its parts disagree" },
    { send_frame_of_another_kind, 70, "its parts disagree" },
    { send_strange_status, 70, "its parts disagree" },
    { send_file_that_climbs, 70, "its parts disagree" },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    Run got = run(prints_then, (void *)(uintptr_t)cases[i].ending);
    assert_int_equal(got.status, cases[i].status);
    assert_string_equal(got.out, "");
    assert_non_null(strstr(got.err, cases[i].line));
    assert_ptr_equal(strchr(got.err, '\n'), got.err + strlen(got.err) - 1);
  }
}

static void the_clock_ends_a_worker_that_never_does(void **state)
{
  (void)state;
  Run got = run_with((SuperviseOptions){ .wall_ms = 50 }, prints_then, (void *)(uintptr_t)run_forever);
  assert_int_equal(got.status, 4);
  assert_string_equal(got.out, "");
  assert_non_null(strstr(got.err, "only a backstop"));
}

static int takes_memory(Port *port, void *context)
{
  (void)port;
  (void)context;
  for (;;) {
    char *block = malloc((size_t)1 << 24);
    if (!block) _exit(4);
    memset(block, 1, (size_t)1 << 24);
  }
}

/* How many interrupts may still come; shared with the worker, which allows them once it is well under way. */
static volatile sig_atomic_t *interrupts;

static void raise_interrupt(int signal_number)
{
  (void)signal_number;
  if (*interrupts <= 0) return;
  --*interrupts;
  raise(SIGINT);
}

/* An interrupt that comes while no supervisor waits ends nothing. */
static void pass_by(int signal_number) { (void)signal_number; }

static Run run_interrupted(WorkerMain command, void *context, int allowed)
{
  struct sigaction on_alarm = { .sa_handler = raise_interrupt };
  struct itimerval often = { .it_value.tv_usec = 10000, .it_interval.tv_usec = 10000 }, never = { 0 };
  interrupts = mmap(NULL, sizeof *interrupts, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
  assert_ptr_not_equal((void *)interrupts, MAP_FAILED);
  *interrupts = allowed;
  sigaction(SIGALRM, &on_alarm, NULL);
  setitimer(ITIMER_REAL, &often, NULL);
  Run got = run(command, context);
  setitimer(ITIMER_REAL, &never, NULL);
  return got;
}

static void an_interrupt_ends_the_worker_and_says_so(void **state)
{
  (void)state;
  Run got = run_interrupted(prints_then, (void *)(uintptr_t)run_forever, 1000);
  assert_int_equal(got.status, 4);
  assert_string_equal(got.out, "");
  assert_string_equal(got.err, "gritwork: interrupted\n");
}

typedef struct {
  bool listens;
  int interrupts;
} Work;

/* More progress than the socket holds has been read in part: then the supervisor knows that this one reports it. */
static int works_until_asked(Port *port, void *context)
{
  enum { MORE_THAN_THE_SOCKET_HOLDS = 5000 };
  const Work *work = context;
  for (int told = 0; port_progress(port, "so far") || !work->listens;)
    if (++told == MORE_THAN_THE_SOCKET_HOLDS) *interrupts = work->interrupts;
  port_print(port, "the best so far\n", 16);
  return 0;
}

static void a_worker_that_reports_progress_ends_with_its_best_at_the_first_interrupt(void **state)
{
  (void)state;
  Run got = run_interrupted(works_until_asked, &(Work){ .listens = true, .interrupts = 1 }, 0);
  assert_int_equal(got.status, 0);
  assert_string_equal(got.out, "the best so far\n");
  assert_string_equal(got.err, "");
}

static void a_second_interrupt_ends_it_in_any_case(void **state)
{
  (void)state;
  Run got = run_interrupted(works_until_asked, &(Work){ .listens = false, .interrupts = 1000 }, 0);
  assert_int_equal(got.status, 4);
  assert_string_equal(got.out, "");
  assert_string_equal(got.err, "gritwork: interrupted\n");
}

static void memory_is_limited(void **state)
{
  (void)state;
#if defined(__SANITIZE_ADDRESS__)
  skip(); /* a sanitizer needs more address space than any limit */
#endif
  Run got = run_with((SuperviseOptions){ .memory_bytes = (size_t)1 << 28 }, takes_memory, NULL);
  assert_int_equal(got.status, 4);
  assert_non_null(strstr(got.err, "memory"));
}

/* Says what it could do to the world. Writing to the standard streams is allowed and leads nowhere. */
static int tries_everything(Port *port, void *context)
{
  if (open("/etc/passwd", O_RDONLY) >= 0) port_print(port, "open ", 5);
  if (open(context, O_WRONLY | O_CREAT, 0600) >= 0) port_print(port, "create ", 7);
  if (socket(AF_INET, SOCK_STREAM, 0) >= 0) port_print(port, "socket ", 7);
  if (write(1, "direct", 6) != 6 || write(2, "direct", 6) != 6) port_print(port, "closed ", 7);
  return 0;
}

static void a_worker_can_open_nothing(void **state)
{
  (void)state;
  Run got = run(tries_everything, (void *)(uintptr_t)in_folder("made"));
  assert_int_equal(got.status, 0);
  assert_string_equal(got.out, "");
  assert_string_equal(got.err, "");
  assert_false(exists("made"));
}

static int tries_what_needs_no_descriptor(Port *port, void *context)
{
  char name[] = "true", *const arguments[] = { name, NULL };
  if (mkdir(context, 0700) == 0) port_print(port, "mkdir ", 6);
  if (unlink(context) == 0 || errno != EPERM) port_print(port, "unlink ", 7);
  if (kill(getppid(), 0) == 0) port_print(port, "kill ", 5);
  if (fork() >= 0) port_print(port, "fork ", 5);
  execv("/bin/true", arguments);
  port_print(port, "still here", 10);
  return 0;
}

static void a_worker_can_only_reckon(void **state)
{
  (void)state;
#if defined(__SANITIZE_ADDRESS__) || !(defined(__x86_64__) || defined(__aarch64__))
  skip(); /* the system calls are not filtered here */
#endif
  Run got = run(tries_what_needs_no_descriptor, (void *)(uintptr_t)in_folder("made"));
  assert_int_equal(got.status, 0);
  assert_string_equal(got.out, "still here");
}

static void *thread_body(void *context) { return context; }

static int starts_a_thread(Port *port, void *context)
{
  pthread_t thread;
  (void)port;
  if (pthread_create(&thread, NULL, thread_body, context) != 0) return 1;
  return pthread_join(thread, NULL) == 0 ? 0 : 1;
}

static void threads_are_started_only_where_they_are_wanted(void **state)
{
  (void)state;
  assert_int_equal(run_with((SuperviseOptions){ .threads = 2 }, starts_a_thread, NULL).status, 0);
#if !defined(__SANITIZE_ADDRESS__)
  assert_int_equal(run(starts_a_thread, NULL).status, 1);
#endif
}

typedef struct {
  PortFrom from;
  const char *name;
} Wanted;

static int shows_text(Port *port, void *context)
{
  const Wanted *wanted = context;
  Buf text = { 0 }, shown = { 0 }, why = { 0 };
  bool fine = port_read(port, wanted->from, wanted->name, &text, &shown, &why);
  const Buf *first = fine ? &shown : &why;
  port_print(port, buf_text(first), first->length);
  if (fine) port_complain(port, buf_text(&text), text.length);
  return fine ? 0 : 3;
}

static void texts_come_from_where_they_may(void **state)
{
  (void)state;
  put("methods/cream.lua", "return 1");
  put("secret.txt", "no");
  put("std/core/schema.lua", "return 2");
  char *given = strdupa(in_folder("secret.txt")), *std = strdupa(in_folder("std"));
  assert_int_equal(symlink(given, in_folder("methods/link.lua")), 0);
  assert_int_equal(mkfifo(in_folder("methods/pipe.lua"), 0600), 0);
  char *shown = strdupa(in_folder("methods/cream.lua"));
  const struct {
    Wanted wanted;
    int status;
    const char *out;
  } cases[] = {
    { { PORT_MODULE, "methods.cream" }, 0, shown },
    { { PORT_FILE, given }, 0, given },
    { { PORT_STDLIB, "core.schema" }, 0, "core/schema.lua" },
    { { PORT_MODULE, "methods.missing" }, 3, "no such file" },
    { { PORT_MODULE, "methods.link" }, 3, "symbolic link" },
    { { PORT_MODULE, "methods.pipe" }, 3, "not a regular file" },
    { { PORT_MODULE, "../secret" }, 3, "no such module" },
    { { PORT_MODULE, "/etc/passwd" }, 3, "no such module" },
    { { PORT_MODULE, "methods..cream" }, 3, "no such module" },
    { { PORT_MODULE, "" }, 3, "no such module" },
    { { PORT_FILE, shown }, 3, "not named on the command line" },
    { { (PortFrom)7, "methods.cream" }, 3, "no such module" },
  };
  const char *files[] = { given };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    Run got = run_with((SuperviseOptions){ .root = folder, .files = files, .file_count = 1, .stdlib_folder = std },
                       shows_text, (void *)(uintptr_t)&cases[i].wanted);
    assert_int_equal(got.status, cases[i].status);
    assert_non_null(strstr(got.out, cases[i].out));
    if (got.status == 3) assert_string_equal(got.err, "");
  }
}

static int reads_large(Port *port, void *context)
{
  Buf text = { 0 }, shown = { 0 }, why = { 0 };
  if (!port_read(port, PORT_FILE, context, &text, &shown, &why)) return 3;
  port_print(port, text.text + text.length - 3, 3);
  return text.length == 5000003 ? 0 : 1;
}

static void a_large_text_arrives_whole(void **state)
{
  (void)state;
  char *bytes = malloc(5000003), *path = strdupa(in_folder("large"));
  memset(bytes, 'x', 5000000);
  memcpy(bytes + 5000000, "end", 3);
  assert_int_equal(files_write(path, bytes, 5000003), FILES_OK);
  free(bytes);
  const char *files[] = { path };
  Run got = run_with((SuperviseOptions){ .files = files, .file_count = 1 }, reads_large, path);
  assert_int_equal(got.status, 0);
  assert_string_equal(got.out, "end");
}

static void standard_input_is_a_file_named_by_a_hyphen(void **state)
{
  (void)state;
  int saved = dup(STDIN_FILENO), input = memfd_create("input", 0);
  assert_int_equal(write(input, "return 1", 8), 8);
  lseek(input, 0, SEEK_SET);
  dup2(input, STDIN_FILENO);
  const char *files[] = { "-" };
  Wanted wanted = { PORT_FILE, "-" };
  Run got = run_with((SuperviseOptions){ .files = files, .file_count = 1 }, shows_text, &wanted);
  dup2(saved, STDIN_FILENO);
  close(saved);
  close(input);
  assert_int_equal(got.status, 0);
  assert_string_equal(got.out, "standard input");
  assert_string_equal(got.err, "return 1");
}

static int writes_files(Port *port, void *context)
{
  bool fine = port_write(port, "sheet.txt", "one", 3) && port_write(port, "plan.csv", "two", 3);
  if (context) ((void (*)(void))(uintptr_t)context)();
  return fine ? 0 : 1;
}

static void files_appear_once_the_command_has_finished(void **state)
{
  (void)state;
  put("out/sheet.txt", "old");
  char *out = strdupa(in_folder("out"));
  Run got = run_with((SuperviseOptions){ .out_folder = out }, writes_files, (void *)(uintptr_t)die_by_abort);
  assert_int_equal(got.status, 70);
  assert_false(exists("out/plan.csv"));
  got = run_with((SuperviseOptions){ .out_folder = out }, writes_files, NULL);
  assert_int_equal(got.status, 0);
  Buf text = { 0 };
  assert_int_equal(files_read(in_folder("out/sheet.txt"), 100, &text), FILES_OK);
  assert_string_equal(buf_text(&text), "one");
  buf_free(&text);
  assert_true(exists("out/plan.csv"));
}

static void a_file_that_cannot_be_placed_leaves_no_temporary(void **state)
{
  (void)state;
  put("out/plan.csv/in-the-way", "a folder of that name");
  char *out = strdupa(in_folder("out"));
  Run got = run_with((SuperviseOptions){ .out_folder = out }, writes_files, NULL);
  assert_int_equal(got.status, 3);
  assert_non_null(strstr(got.err, "cannot write"));
  char command[128];
  snprintf(command, sizeof command, "test $(ls -A '%s' | grep -c '^[.]') = 0", out);
  assert_int_equal(system(command), 0);
}

static int writes_bad_names(Port *port, void *context)
{
  static const char *const names[] = { "", "../x", "a/b", "/etc/x", ".hidden", "UPPER", "a b", "a\nb" };
  (void)context;
  for (size_t i = 0; i < sizeof names / sizeof *names; i++)
    if (port_write(port, names[i], "x", 1)) return 1;
  return 0;
}

static void file_names_are_plain(void **state)
{
  (void)state;
  assert_int_equal(run_with((SuperviseOptions){ .out_folder = folder }, writes_bad_names, NULL).status, 0);
}

static int writes_many(Port *port, void *context)
{
  (void)context;
  for (int i = 0; i <= PORT_FILES; i++) {
    char name[16];
    snprintf(name, sizeof name, "f%d", i);
    port_write(port, name, "x", 1);
  }
  return 0;
}

static void the_number_of_files_is_limited(void **state)
{
  (void)state;
  char *out = strdupa(in_folder("out"));
  Run got = run_with((SuperviseOptions){ .out_folder = out }, writes_many, NULL);
  assert_int_equal(got.status, 4);
  assert_false(exists("out/f0"));
}

static void a_reader_that_went_away_is_no_error(void **state)
{
  (void)state;
  int ends[2], status = 0, err = memfd_create("err", 0);
  assert_int_equal(pipe(ends), 0);
  close(ends[0]);
  SuperviseOptions options = { .out_fd = ends[1], .err_fd = err };
  assert_int_equal(supervise(&options, greets, &status), 0);
  close(ends[1]);
  close(err);
}

int main(void)
{
  signal(SIGINT, pass_by); /* ignored, as it is in the background, the supervisor would keep it so */
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(the_commands_status_and_streams_come_out),
    cmocka_unit_test(in_process_gives_the_same),
    cmocka_unit_test(a_worker_that_does_not_finish_leaves_one_line),
    cmocka_unit_test(the_clock_ends_a_worker_that_never_does),
    cmocka_unit_test(an_interrupt_ends_the_worker_and_says_so),
    cmocka_unit_test(a_worker_that_reports_progress_ends_with_its_best_at_the_first_interrupt),
    cmocka_unit_test(a_second_interrupt_ends_it_in_any_case),
    cmocka_unit_test(memory_is_limited),
    cmocka_unit_test_setup_teardown(a_worker_can_open_nothing, make_folder, remove_folder),
    cmocka_unit_test_setup_teardown(a_worker_can_only_reckon, make_folder, remove_folder),
    cmocka_unit_test(threads_are_started_only_where_they_are_wanted),
    cmocka_unit_test_setup_teardown(texts_come_from_where_they_may, make_folder, remove_folder),
    cmocka_unit_test(standard_input_is_a_file_named_by_a_hyphen),
    cmocka_unit_test_setup_teardown(a_large_text_arrives_whole, make_folder, remove_folder),
    cmocka_unit_test_setup_teardown(files_appear_once_the_command_has_finished, make_folder, remove_folder),
    cmocka_unit_test_setup_teardown(a_file_that_cannot_be_placed_leaves_no_temporary, make_folder, remove_folder),
    cmocka_unit_test_setup_teardown(file_names_are_plain, make_folder, remove_folder),
    cmocka_unit_test_setup_teardown(the_number_of_files_is_limited, make_folder, remove_folder),
    cmocka_unit_test(a_reader_that_went_away_is_no_error),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
