/* test_confine.c - what Landlock and the filter of system calls close, each alone, in processes and threads of
 * their own. */
#include "base/call_filter.h"
#include "base/landlock.h"

#include "support.h"

#include <errno.h>
#include <fcntl.h>
#include <pthread.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/built.h"
#include "base/files.h"

/* ---- a folder with a file, and a process or a thread that says with its status which of its tries came through */

static char folder[64];

static int make_folder(void **state)
{
  (void)state;
  snprintf(folder, sizeof folder, "%s/gritwork-confine-XXXXXX", P_tmpdir);
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
  static char paths[4][128];
  static int next;
  char *path = paths[next++ % 4];
  snprintf(path, sizeof *paths, "%s/%s", folder, name);
  return path;
}

enum { NOT_HERE = 99 };

static int outcome_of(int (*body)(void))
{
  int status;
  pid_t child = fork();
  if (child == 0) _exit(body());
  assert_int_equal(waitpid(child, &status, 0), child);
  return WIFEXITED(status) ? WEXITSTATUS(status) : 256 + WTERMSIG(status);
}

typedef struct {
  int (*body)(void);
  int status;
} Try;

static void *try_it(void *context)
{
  Try *try = context;
  try->status = try->body();
  return NULL;
}

static int outcome_in_thread(int (*body)(void))
{
  pthread_t thread;
  Try try = { body, -1 };
  assert_int_equal(pthread_create(&thread, NULL, try_it, &try), 0);
  assert_int_equal(pthread_join(thread, NULL), 0);
  return try.status;
}

static bool opens(const char *path, int flags) { return open(path, flags, 0600) >= 0; }

/* Where the kernel has what it is about, the body comes through in a process, and in a thread that leaves this one
 * free. */
static void check(int (*body)(void))
{
  int got = outcome_of(body);
  if (got == NOT_HERE) skip();
  assert_int_equal(got, 0);
  assert_int_equal(outcome_in_thread(body), 0);
  assert_true(opens("/dev/null", O_RDWR));
}

/* ---- Landlock */

static int closes_everything(void)
{
  int own = open(in_folder("file"), O_RDWR);
  if (!landlock_confine((LandlockKept){ 0 })) return NOT_HERE;
  if (opens(in_folder("file"), O_RDONLY) || errno != EACCES) return 1;
  if (opens(in_folder("new"), O_WRONLY | O_CREAT)) return 2;
  if (opens("/", O_RDONLY | O_DIRECTORY)) return 3;
  if (mkdir(in_folder("made"), 0700) == 0) return 4;
  if (unlink(in_folder("file")) == 0) return 5;
  if (rename(in_folder("file"), in_folder("other")) == 0) return 6;
  if (symlink("x", in_folder("link")) == 0) return 7;
  return write(own, "x", 1) == 1 ? 0 : 8; /* what was open stays open */
}

static void without_a_list_no_file_is_reached(void **state)
{
  (void)state;
  assert_int_equal(files_write(in_folder("file"), "text", 4), FILES_OK);
  check(closes_everything);
}

static int keeps_a_folder(void)
{
  const char *readable[] = { in_folder("fonts"), in_folder("missing"), in_folder("single") };
  if (!landlock_confine((LandlockKept){ .readable = readable, .readable_count = COUNT_OF(readable) })) return NOT_HERE;
  if (!opens(in_folder("fonts/deep/a"), O_RDONLY) || !opens(in_folder("fonts"), O_RDONLY | O_DIRECTORY)) return 1;
  if (!opens(in_folder("single"), O_RDONLY)) return 2;
  if (opens(in_folder("fonts/deep/a"), O_WRONLY) || opens(in_folder("fonts/new"), O_WRONLY | O_CREAT)) return 3;
  if (opens(in_folder("file"), O_RDONLY) || opens(in_folder("fonts/../file"), O_RDONLY)) return 4;
  if (opens(in_folder("fonts/out"), O_RDONLY)) return 5; /* a link that leads out */
  return 0;
}

static void a_folder_that_is_kept_can_be_read_and_no_more(void **state)
{
  (void)state;
  assert_int_equal(files_write(in_folder("file"), "text", 4), FILES_OK);
  assert_int_equal(files_write(in_folder("single"), "text", 4), FILES_OK);
  assert_int_equal(files_write(in_folder("fonts/deep/a"), "text", 4), FILES_OK);
  assert_int_equal(symlink("../file", in_folder("fonts/out")), 0);
  check(keeps_a_folder);
}

static int reopens_its_output(void)
{
  char path[32];
  int fd = open(in_folder("output"), O_RDWR), memory = memfd_create("output", 0);
  if (!landlock_confine((LandlockKept){ .writable_fd = fd })) return NOT_HERE;
  snprintf(path, sizeof path, "/proc/self/fd/%d", fd);
  if (!opens(path, O_WRONLY | O_CREAT | O_TRUNC)) return 1;
  snprintf(path, sizeof path, "/proc/self/fd/%d", memory);
  if (!opens(path, O_WRONLY | O_CREAT | O_TRUNC)) return 2;
  return opens(in_folder("file"), O_WRONLY) ? 3 : 0;
}

static void the_output_can_be_opened_again(void **state)
{
  (void)state;
  assert_int_equal(files_write(in_folder("file"), "text", 4), FILES_OK);
  assert_int_equal(files_write(in_folder("output"), "text", 4), FILES_OK);
  check(reopens_its_output);
}

static int signals_its_parent(void)
{
  enum { SCOPED = 6 };
  int version = landlock_confine((LandlockKept){ 0 });
  if (version < SCOPED) return NOT_HERE;
  return kill(getppid(), 0) == 0 || errno != EPERM;
}

static void other_processes_are_out_of_reach(void **state)
{
  (void)state;
  check(signals_its_parent);
}

/* ---- the filter */

static bool set(CallFilter *filter) { return prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 && call_filter_set(filter); }

static int makes_calls(void)
{
  CallFilter filter;
  call_filter_begin(&filter);
  if (!set(&filter)) return NOT_HERE;
  if (getpid() <= 0) return 1;
  if (open("/dev/null", O_RDONLY) >= 0 || errno != EPERM) return 2;
  if (socket(AF_UNIX, SOCK_STREAM, 0) >= 0 || errno != EPERM) return 3;
  if (fork() >= 0) return 4;
  return kill(getppid(), 0) == 0 ? 5 : 0;
}

static void what_is_not_on_the_list_fails(void **state)
{
  (void)state;
  check(makes_calls);
}

static int opens_for_reading(void)
{
  CallFilter filter;
  call_filter_begin(&filter);
  call_filter_allow_if(&filter, SYS_openat, 2, TEST_NONE, O_WRONLY | O_RDWR | O_CREAT);
  call_filter_allow_if(&filter, SYS_prctl, 0, TEST_EQUAL, PR_GET_NAME);
  if (!set(&filter)) return NOT_HERE;
  char name[16];
  if (openat(AT_FDCWD, "/dev/null", O_RDONLY) < 0) return 1;
  if (openat(AT_FDCWD, "/dev/null", O_WRONLY) >= 0 || openat(AT_FDCWD, "/dev/null", O_RDWR) >= 0) return 2;
  if (prctl(PR_GET_NAME, name) != 0) return 3;
  return prctl(PR_SET_NAME, "other") == 0 ? 4 : 0;
}

static void a_call_can_depend_on_an_argument(void **state)
{
  (void)state;
  check(opens_for_reading);
}

static int starts_a_thread(void)
{
  CallFilter filter;
  call_filter_begin(&filter);
  call_filter_allow_threads(&filter);
  if (!set(&filter)) return NOT_HERE;
  pthread_t thread;
  Try try = { getpid, -1 };
  if (pthread_create(&thread, NULL, try_it, &try) != 0 || pthread_join(thread, NULL) != 0) return 1;
  if (try.status != getpid()) return 2;
  return fork() >= 0 ? 3 : 0;
}

static void threads_can_be_allowed_without_processes(void **state)
{
  (void)state;
  check(starts_a_thread);
}

static int asks_for_landlock(void)
{
  CallFilter filter;
  call_filter_begin(&filter);
  call_filter_allow_if(&filter, SYS_openat, 2, TEST_NONE, O_WRONLY | O_RDWR | O_CREAT);
  if (!set(&filter)) return NOT_HERE;
  errno = 0;
  if (landlock_confine((LandlockKept){ 0 }) != 0 || errno != EPERM) return 1;
  return opens("/dev/null", O_RDONLY) ? 0 : 2;
}

static void landlock_that_is_refused_changes_nothing_and_says_why(void **state)
{
  (void)state;
  check(asks_for_landlock);
}

static int aborts(void)
{
  CallFilter filter;
  call_filter_begin(&filter);
  if (!set(&filter)) return NOT_HERE;
  abort();
}

static void abort_ends_the_process_as_ever(void **state)
{
  (void)state;
  int got = outcome_of(aborts);
  if (got == NOT_HERE) skip();
  assert_int_equal(got, 256 + SIGABRT);
}

#if defined(__SANITIZE_ADDRESS__)
static void a_sanitizer_calls_the_system_as_it_likes(void **state)
{
  (void)state;
  assert_true(BUILT_SANITIZED); /* by which the worker and the press know that they are not to be confined */
}
#endif

int main(void)
{
#if defined(__SANITIZE_ADDRESS__)
  const struct CMUnitTest none[] = { cmocka_unit_test(a_sanitizer_calls_the_system_as_it_likes) };
  return cmocka_run_group_tests(none, NULL, NULL);
#endif
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown(without_a_list_no_file_is_reached, make_folder, remove_folder),
    cmocka_unit_test_setup_teardown(a_folder_that_is_kept_can_be_read_and_no_more, make_folder, remove_folder),
    cmocka_unit_test_setup_teardown(the_output_can_be_opened_again, make_folder, remove_folder),
    cmocka_unit_test(other_processes_are_out_of_reach),
    cmocka_unit_test(what_is_not_on_the_list_fails),
    cmocka_unit_test(a_call_can_depend_on_an_argument),
    cmocka_unit_test(threads_can_be_allowed_without_processes),
    cmocka_unit_test(landlock_that_is_refused_changes_nothing_and_says_why),
    cmocka_unit_test(abort_ends_the_process_as_ever),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
