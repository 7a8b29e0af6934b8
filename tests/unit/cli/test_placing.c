/* test_placing.c - files come into a folder together: the old ones or the new ones, whatever is killed. */
#include "cli/placing.h"

#include "support.h"

#include <dirent.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "base/files.h"

enum { FILES = 6 };

/* In memory where that can be: what is flushed to a disk takes its time. */
static const char *const templates[] = { "/dev/shm/gritwork-placing-XXXXXX", P_tmpdir "/gritwork-placing-XXXXXX" };
static char root[64];
static const char *const names[FILES] = { "a.txt", "b.txt", "c.txt", "d.txt", "e.txt", "f.txt" };

static const char *in_root(const char *name)
{
  static char path[8][128];
  static int next;
  char *out = path[next++ % 8];
  snprintf(out, sizeof *path, "%s/%s", root, name);
  return out;
}

static int make_root(void **state)
{
  (void)state;
  for (size_t i = 0; i < COUNT_OF(templates); i++) {
    snprintf(root, sizeof root, "%s", templates[i]);
    if (mkdtemp(root)) return 0;
  }
  return -1;
}

static int remove_root(void **state)
{
  char command[80];
  (void)state;
  snprintf(command, sizeof command, "rm -rf '%s'", root);
  return system(command);
}

static int entries(const char *folder)
{
  int count = 0;
  DIR *dir = opendir(folder);
  if (!dir) return -1;
  while (readdir(dir)) count++;
  closedir(dir);
  return count - 2; /* . and .. */
}

/* A set of files, each of which holds the word. */
static bool place(const char *folder, const char *word, Buf *why)
{
  Buf bytes = { 0 };
  PlacedFile files[FILES];
  buf_puts(&bytes, word);
  for (int i = 0; i < FILES; i++) files[i] = (PlacedFile){ names[i], &bytes };
  bool placed = placing_write(folder, files, FILES, why);
  buf_free(&bytes);
  return placed;
}

static bool holds(const char *folder, const char *name, const char *word)
{
  char path[160];
  Buf text = { 0 };
  snprintf(path, sizeof path, "%s/%s", folder, name);
  bool same = files_read(path, 100, &text) == FILES_OK && strcmp(buf_text(&text), word) == 0;
  buf_free(&text);
  return same;
}

static bool all_hold(const char *folder, const char *word)
{
  for (int i = 0; i < FILES; i++)
    if (!holds(folder, names[i], word)) return false;
  return true;
}

static void assert_placed(const char *folder, const char *word)
{
  Buf why = { 0 };
  if (!place(folder, word, &why)) fail_msg("%s", buf_text(&why));
  assert_true(all_hold(folder, word));
}

static void a_folder_is_made_with_those_above_it(void **state)
{
  (void)state;
  assert_placed(in_root("x/y/bid"), "new");
  assert_int_equal(entries(in_root("x/y")), 1);
  assert_placed(in_root("bid/"), "new");
  assert_int_equal(entries(in_root("bid")), FILES);
}

static void earlier_files_give_way_and_nothing_else_stays(void **state)
{
  (void)state;
  const char *folder = in_root("bid");
  assert_placed(folder, "old");
  assert_int_equal(chmod(folder, 0750), 0);
  assert_placed(folder, "new");
  struct stat st;
  assert_int_equal(stat(folder, &st), 0);
  assert_int_equal(st.st_mode & 0777, 0750);
  assert_int_equal(entries(folder), FILES);
  assert_int_equal(entries(root), 1);
}

static void other_things_in_the_folder_stay(void **state)
{
  (void)state;
  const char *folder = in_root("bid"), *notes = in_root("bid/notes.txt");
  struct stat before, after;
  assert_int_equal(files_write(notes, "mine", 4), FILES_OK);
  assert_int_equal(stat(folder, &before), 0);
  assert_placed(folder, "old");
  assert_placed(folder, "new");
  assert_true(holds(folder, "notes.txt", "mine"));
  assert_int_equal(stat(folder, &after), 0);
  assert_int_equal(before.st_ino, after.st_ino);
  assert_int_equal(entries(folder), FILES + 1);
  assert_int_equal(entries(root), 1);
}

static void a_link_to_a_folder_stays_a_link(void **state)
{
  (void)state;
  struct stat st;
  assert_placed(in_root("real"), "old");
  assert_int_equal(symlink("real", in_root("bid")), 0);
  assert_placed(in_root("bid"), "new");
  assert_true(all_hold(in_root("real"), "new"));
  assert_int_equal(lstat(in_root("bid"), &st), 0);
  assert_true(S_ISLNK(st.st_mode));
}

static void the_working_folder_stays_where_it_is(void **state)
{
  (void)state;
  char before[256], after[256];
  assert_non_null(getcwd(before, sizeof before));
  assert_int_equal(chdir(root), 0);
  assert_placed(".", "old");
  assert_placed(".", "new");
  assert_placed("./sub/..", "new");
  assert_non_null(getcwd(after, sizeof after));
  assert_string_equal(after, root);
  assert_int_equal(chdir(before), 0);
  assert_int_equal(entries(root), FILES + 1);
}

static void what_cannot_be_written_leaves_all_as_it_was(void **state)
{
  (void)state;
  Buf why = { 0 };
  assert_int_equal(files_write(in_root("bid/f.txt/in-the-way"), "x", 1), FILES_OK);
  assert_false(place(in_root("bid"), "new", &why));
  assert_non_null(strstr(buf_text(&why), "cannot write"));
  assert_int_equal(entries(root), 1);
  buf_clear(&why);
  assert_int_equal(files_write(in_root("file"), "x", 1), FILES_OK);
  assert_false(place(in_root("file"), "new", &why));
  assert_non_null(strstr(buf_text(&why), "not a folder"));
  assert_true(holds(root, "file", "x"));
  assert_int_equal(entries(root), 2);
  buf_free(&why);
}

/* Places one set and the other until it is killed. */
static void place_for_ever(const char *folder)
{
  Buf why = { 0 };
  for (;;) {
    place(folder, "one", &why);
    place(folder, "two", &why);
  }
}

/* Microseconds that a round takes here and now. */
static unsigned round_us(const char *folder)
{
  struct timespec begin, end;
  clock_gettime(CLOCK_MONOTONIC, &begin);
  assert_placed(folder, "two");
  assert_placed(folder, "one");
  clock_gettime(CLOCK_MONOTONIC, &end);
  return (unsigned)((end.tv_sec - begin.tv_sec) * 1000000 + (end.tv_nsec - begin.tv_nsec) / 1000);
}

static void a_kill_at_any_moment_leaves_one_set_whole(void **state)
{
  (void)state;
  enum { KILLS = 200 };
  int one = 0, two = 0;
  unsigned seed = 1;
  const char *folder = in_root("bid");
  assert_placed(folder, "one");
  unsigned most_us = 2 * round_us(folder) + 1;
  /* On a busy machine the kills may all come in the same half of a round: then more of them, up to a limit. */
  for (int i = 0; i < KILLS || ((one == 0 || two == 0) && i < 10 * KILLS); i++) {
    pid_t child = fork();
    if (child == 0) place_for_ever(folder);
    seed = seed * 1103515245u + 12345u;
    usleep((seed >> 8) % most_us);
    kill(child, SIGKILL);
    waitpid(child, NULL, 0);
    bool is_one = all_hold(folder, "one"), is_two = all_hold(folder, "two");
    assert_true(is_one || is_two);
    assert_int_equal(entries(folder), FILES);
    one += is_one;
    two += is_two;
  }
  assert_true(one + two >= KILLS);
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, make_root, remove_root)
  const struct CMUnitTest tests[] = {
    TEST(a_folder_is_made_with_those_above_it),
    TEST(earlier_files_give_way_and_nothing_else_stays),
    TEST(other_things_in_the_folder_stay),
    TEST(a_link_to_a_folder_stays_a_link),
    TEST(the_working_folder_stays_where_it_is),
    TEST(what_cannot_be_written_leaves_all_as_it_was),
    TEST(a_kill_at_any_moment_leaves_one_set_whole),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
