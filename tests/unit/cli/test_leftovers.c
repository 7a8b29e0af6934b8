/* test_leftovers.c - what a killed run left is removed by the next one: only that, and only when nobody works on
 * it. */
#include "cli/leftovers.h"

#include "support.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/files.h"

static char root[64];

static int make_root(void **state)
{
  (void)state;
  snprintf(root, sizeof root, "%s/gritwork-leftovers-XXXXXX", P_tmpdir);
  return mkdtemp(root) ? 0 : -1;
}

static int remove_root(void **state)
{
  (void)state;
  char command[96];
  snprintf(command, sizeof command, "rm -rf '%s'", root);
  return system(command);
}

static const char *in_root(const char *name)
{
  static char paths[4][1024];
  static int next;
  char *path = paths[next++ % 4];
  snprintf(path, sizeof *paths, "%s/%s", root, name);
  return path;
}

static bool exists(const char *name)
{
  struct stat st;
  return lstat(in_root(name), &st) == 0;
}

static void put(const char *name) { assert_int_equal(files_write(in_root(name), "x", 1), FILES_OK); }

static void clear(void)
{
  static const char *const files[] = { "bid.html", "bid.json" };
  leftovers_clear(in_root("bid"), files, COUNT_OF(files));
}

/* The number of a process that was. */
static long gone(void)
{
  pid_t child = fork();
  if (child == 0) _exit(0);
  assert_int_equal(waitpid(child, NULL, 0), child);
  return child;
}

/* A run that gets no further than its first file: its folder's path. */
static const char *killed_run(void)
{
  static char path[192];
  Buf made = { 0 };
  int ends[2];
  assert_int_equal(pipe(ends), 0);
  pid_t child = fork();
  if (child == 0) {
    if (leftovers_make(in_root("bid"), 0, &made) < 0) _exit(1);
    _exit(write(ends[1], buf_text(&made), made.length) < 0);
  }
  assert_int_equal(waitpid(child, NULL, 0), child);
  ssize_t got = read(ends[0], path, sizeof path - 1);
  assert_true(got > 0);
  path[got] = '\0';
  close(ends[0]);
  close(ends[1]);
  return path + strlen(root) + 1;
}

static void a_folder_of_a_run_that_is_gone_is_removed(void **state)
{
  (void)state;
  char file[256];
  const char *left = killed_run();
  assert_true(exists(left));
  clear();
  assert_false(exists(left));
  left = killed_run();
  snprintf(file, sizeof file, "%s/bid.html", left);
  put(file);
  snprintf(file, sizeof file, "%s/.%ld-0123456789abcdef.part", left, gone());
  put(file);
  clear();
  assert_false(exists(left));
}

static void one_that_holds_something_else_stays_whole(void **state)
{
  (void)state;
  static const char *const others[] = { "notes/mine.txt", "My Notes.txt", ".hidden" };
  for (size_t i = 0; i < COUNT_OF(others); i++) {
    char file[256], other[256];
    const char *left = killed_run();
    snprintf(file, sizeof file, "%s/bid.html", left);
    snprintf(other, sizeof other, "%s/%s", left, others[i]);
    put(file);
    put(other);
    clear();
    assert_true(exists(file) && exists(other));
  }
}

static void a_run_that_goes_on_keeps_its_folder(void **state)
{
  (void)state;
  Buf path = { 0 };
  int held = leftovers_make(in_root("bid"), 0750, &path);
  struct stat st;
  assert_true(held >= 0);
  assert_int_equal(stat(buf_text(&path), &st), 0);
  assert_int_equal(st.st_mode & 0777, 0750);
  clear();
  assert_int_equal(stat(buf_text(&path), &st), 0);
  leftovers_remove(buf_text(&path));
  assert_int_not_equal(stat(buf_text(&path), &st), 0);
  close(held);
  buf_free(&path);
}

static void a_folder_that_is_held_stays_though_its_process_seems_gone(void **state)
{
  (void)state;
  const char *left = killed_run(); /* its number may mean another process elsewhere */
  int held = leftovers_hold(in_root(left));
  clear();
  assert_true(exists(left));
  close(held);
  clear();
  assert_false(exists(left));
}

/* A name around the number of a process. */
typedef struct {
  const char *before, *after;
} Around;

enum { NAME_SIZE = 128 };

static void name_around(char *name, Around around, long process)
{
  snprintf(name, NAME_SIZE, "%s%ld%s", around.before, process, around.after);
}

static void other_names_stay(void **state)
{
  (void)state;
  static const Around not_ours[] = {
    { ".other.", "-0123456789abcdef.part" }, { ".bid.", "-0123456789abcde.part" },
    { ".bid.", "-0123456789abcdefa.part" },  { ".bid.", "-0123456789ABCDEF.part" },
    { ".bid.", "-0123456789abcdef.parts" },  { ".bid.", ".part" },
    { "bid.", "-0123456789abcdef.part" },    { ".bid.x", "-0123456789abcdef.part" },
    { ".bid.-", "-0123456789abcdef.part" },
  };
  for (size_t i = 0; i < COUNT_OF(not_ours); i++) {
    char name[NAME_SIZE];
    name_around(name, not_ours[i], gone());
    assert_int_equal(mkdir(in_root(name), 0700), 0);
    clear();
    if (!exists(name)) fail_msg("%s", name);
  }
}

static void a_link_of_such_a_name_is_not_followed(void **state)
{
  (void)state;
  char name[NAME_SIZE];
  put("precious/bid.html");
  name_around(name, (Around){ ".bid.", "-0123456789abcdef.part" }, gone());
  assert_int_equal(symlink("precious", in_root(name)), 0);
  clear();
  assert_true(exists("precious/bid.html"));
}

static void files_that_waited_in_the_folder_go_and_others_stay(void **state)
{
  (void)state;
  const struct {
    Around around;
    long process;
    bool stays;
  } cases[] = {
    { { "bid/.bid.html.", "" }, gone(), false },  { { "bid/.bid.html.", "" }, (long)getpid(), true },
    { { "bid/.other.html.", "" }, gone(), true }, { { "bid/.bid.html.", ".old" }, gone(), true },
    { { "bid/bid.html.", "" }, gone(), true },    { { "bid/.", "-0123456789abcdef.part" }, gone(), false },
    { { "bid/.", "-0123456789abcdef.part" }, (long)getpid(), true },
  };
  char names[COUNT_OF(cases)][NAME_SIZE];
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    name_around(names[i], cases[i].around, cases[i].process);
    put(names[i]);
  }
  int held = leftovers_hold(in_root("bid"));
  clear();
  for (size_t i = 0; i < COUNT_OF(cases); i++) assert_true(exists(names[i]));
  close(held);
  clear();
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    if (exists(names[i]) != cases[i].stays) fail_msg("%s", names[i]);
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, make_root, remove_root)
  const struct CMUnitTest tests[] = {
    TEST(a_folder_of_a_run_that_is_gone_is_removed),
    TEST(one_that_holds_something_else_stays_whole),
    TEST(a_run_that_goes_on_keeps_its_folder),
    TEST(a_folder_that_is_held_stays_though_its_process_seems_gone),
    TEST(other_names_stay),
    TEST(a_link_of_such_a_name_is_not_followed),
    TEST(files_that_waited_in_the_folder_go_and_others_stay),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
