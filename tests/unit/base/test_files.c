/* Files: whole or not at all, and nothing outside the root. */
#include "support.h"

#include <errno.h>
#include <fcntl.h>
#include <ftw.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <unistd.h>

#include "base/files.h"

enum { LARGEST = 1000 };

static char root[64];

static int make_root(void **state)
{
  (void)state;
  snprintf(root, sizeof root, "%s/gritwork-XXXXXX", P_tmpdir);
  return mkdtemp(root) ? 0 : -1;
}

static int remove_one(const char *path, const struct stat *st, int kind, struct FTW *ftw)
{
  (void)st, (void)kind, (void)ftw;
  return remove(path);
}

static int remove_root(void **state)
{
  (void)state;
  return nftw(root, remove_one, 16, FTW_DEPTH | FTW_PHYS);
}

/* A path below the root; good until the call after the next. */
static const char *in_root(const char *name)
{
  static char paths[2][512];
  static int turn;
  turn = !turn;
  snprintf(paths[turn], sizeof paths[turn], "%s/%s", root, name);
  return paths[turn];
}

static void put(const char *name, const char *text)
{
  FILE *file = fopen(in_root(name), "wb");
  assert_non_null(file);
  fputs(text, file);
  assert_int_equal(fclose(file), 0);
}

static void make_folder(const char *name) { assert_int_equal(mkdir(in_root(name), 0777), 0); }

static void link_to(const char *target, const char *name) { assert_int_equal(symlink(target, in_root(name)), 0); }

static void assert_file_is(const char *name, const char *want)
{
  Buf got = { 0 };
  assert_int_equal(files_read(in_root(name), LARGEST, &got), FILES_OK);
  assert_string_equal(buf_text(&got), want);
  buf_free(&got);
}

/* Nothing is denied to root, so these tests go on as nobody. False if that cannot be done. */
static bool leave_root_user(void)
{
  const uid_t nobody = 65534;
  return geteuid() != 0 || (chown(root, nobody, (gid_t)-1) == 0 && seteuid(nobody) == 0);
}

static void return_to_root_user(void)
{
  if (getuid() == 0) assert_int_equal(seteuid(0), 0);
}

static int entries_in_root(void)
{
  char command[128];
  snprintf(command, sizeof command, "find '%s' -mindepth 1 | wc -l", root);
  FILE *pipe = popen(command, "r");
  int count = -1;
  assert_int_equal(fscanf(pipe, "%d", &count), 1);
  pclose(pipe);
  return count;
}

/* ---- reading */

static void a_file_is_appended_whole(void **state)
{
  (void)state;
  Buf out = { 0 };
  put("a.lua", "return 1\n");
  put("empty", "");
  buf_puts(&out, "before ");
  assert_int_equal(files_read(in_root("a.lua"), LARGEST, &out), FILES_OK);
  assert_int_equal(files_read(in_root("empty"), LARGEST, &out), FILES_OK);
  assert_string_equal(buf_text(&out), "before return 1\n");
  buf_free(&out);
}

static void a_file_with_zero_bytes_longer_than_a_chunk_is_read_whole(void **state)
{
  (void)state;
  enum { SIZE = 100000 };
  char *bytes = calloc(SIZE, 1);
  bytes[SIZE - 1] = 'x';
  Buf out = { 0 };
  assert_int_equal(files_write(in_root("big"), bytes, SIZE), FILES_OK);
  assert_int_equal(files_read(in_root("big"), SIZE, &out), FILES_OK);
  assert_int_equal(out.length, SIZE);
  assert_memory_equal(out.text, bytes, SIZE);
  buf_free(&out);
  free(bytes);
}

static void the_size_cap_is_inclusive(void **state)
{
  (void)state;
  Buf out = { 0 };
  put("ten", "0123456789");
  assert_int_equal(files_read(in_root("ten"), 10, &out), FILES_OK);
  buf_clear(&out);
  buf_puts(&out, "kept");
  assert_int_equal(files_read(in_root("ten"), 9, &out), FILES_TOO_LARGE);
  assert_int_equal(files_read_below(root, "ten", 9, &out), FILES_TOO_LARGE);
  assert_string_equal(buf_text(&out), "kept");
  buf_free(&out);
}

/* A file of the process file system says it has no bytes, and has some. */
static void a_file_that_understates_its_size_is_still_capped(void **state)
{
  (void)state;
  Buf out = { 0 };
  buf_puts(&out, "kept");
  assert_int_equal(files_read("/proc/self/status", 10, &out), FILES_TOO_LARGE);
  assert_string_equal(buf_text(&out), "kept");
  buf_free(&out);
}

static void make_socket(const char *name)
{
  struct sockaddr_un address = { .sun_family = AF_UNIX };
  int fd = socket(AF_UNIX, SOCK_STREAM, 0);
  snprintf(address.sun_path, sizeof address.sun_path, "%.64s/%.32s", root, name);
  assert_int_equal(bind(fd, (struct sockaddr *)&address, sizeof address), 0);
  close(fd);
}

static void what_is_no_regular_file_is_refused_without_waiting(void **state)
{
  (void)state;
  make_folder("folder");
  assert_int_equal(mkfifo(in_root("pipe"), 0666), 0);
  make_socket("socket");
  put("file", "x");
  static const struct {
    const char *name;
    FilesStatus want;
  } cases[] = {
    { "folder", FILES_NOT_REGULAR }, { "pipe", FILES_NOT_REGULAR },     { "socket", FILES_NOT_REGULAR },
    { "missing", FILES_MISSING },    { "missing/x", FILES_MISSING },    { "file/x", FILES_NOT_FOLDER },
    { "file/x/y", FILES_NOT_FOLDER },
  };
  Buf out = { 0 };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    assert_int_equal(files_read(in_root(cases[i].name), LARGEST, &out), cases[i].want);
    assert_int_equal(files_read_below(root, cases[i].name, LARGEST, &out), cases[i].want);
  }
  assert_int_equal(files_read("/dev/zero", LARGEST, &out), FILES_NOT_REGULAR);
  assert_int_equal(files_read("", LARGEST, &out), FILES_MISSING);
  assert_int_equal(out.length, 0);
  buf_free(&out);
}

static void a_file_that_may_not_be_read_is_denied(void **state)
{
  (void)state;
  if (!leave_root_user()) skip();
  Buf out = { 0 };
  put("secret", "x");
  assert_int_equal(chmod(in_root("secret"), 0), 0);
  FilesStatus got = files_read(in_root("secret"), LARGEST, &out);
  return_to_root_user();
  assert_int_equal(got, FILES_DENIED);
  buf_free(&out);
}

static void below_a_root_plain_paths_are_read(void **state)
{
  (void)state;
  static const char *const paths[] = { "methods/deep/a.lua", "./methods//deep/./a.lua", "methods/deep//a.lua" };
  make_folder("methods");
  make_folder("methods/deep");
  put("methods/deep/a.lua", "a");
  put("..b", "b");
  Buf out = { 0 };
  for (size_t i = 0; i < COUNT_OF(paths); i++)
    assert_int_equal(files_read_below(root, paths[i], LARGEST, &out), FILES_OK);
  assert_int_equal(files_read_below(root, "..b", LARGEST, &out), FILES_OK); /* two dots are only a name here */
  assert_string_equal(buf_text(&out), "aaab");
  buf_free(&out);
}

static void below_a_root_nothing_outside_is_read(void **state)
{
  (void)state;
  make_folder("project");
  make_folder("project/in");
  put("outside", "secret");
  put("project/inside", "fine");
  link_to("../outside", "project/link");
  link_to("inside", "project/inner");
  link_to("..", "project/up");
  link_to("in", "project/folder");
  link_to("loop", "project/loop");
  link_to("nowhere", "project/dangling");
  static const char *const paths[] = {
    "../outside",    "in/../../outside", "in/..",     "..",     "in/../inside", /* `..` */
    "/etc/hostname", "//outside",        "/",                                   /* absolute */
    "link",          "up/outside",       "up",                                  /* links that leave */
    "inner",         "folder/x",         "loop",      "loop/x", "dangling",     /* other links */
  };
  char project[80];
  snprintf(project, sizeof project, "%s/project", root);
  Buf out = { 0 };
  for (size_t i = 0; i < COUNT_OF(paths); i++) {
    FilesStatus got = files_read_below(project, paths[i], LARGEST, &out);
    if (got != FILES_OUTSIDE) fail_msg("%s: %s", paths[i], files_why(got));
  }
  assert_int_equal(out.length, 0);
  assert_int_equal(files_read_below(project, "inside", LARGEST, &out), FILES_OK);
  buf_free(&out);
}

static void the_root_itself_may_be_reached_by_a_link(void **state)
{
  (void)state;
  make_folder("real");
  put("real/a", "a");
  link_to("real", "alias");
  Buf out = { 0 };
  assert_int_equal(files_read_below(in_root("alias"), "a", LARGEST, &out), FILES_OK);
  assert_int_equal(files_read_below(in_root("missing"), "a", LARGEST, &out), FILES_MISSING);
  assert_int_equal(files_read_below(in_root("real"), "", LARGEST, &out), FILES_MISSING);
  assert_int_equal(files_read_below(in_root("real"), ".", LARGEST, &out), FILES_NOT_REGULAR);
  assert_string_equal(buf_text(&out), "a");
  buf_free(&out);
}

static int open_descriptors(void)
{
  int count = 0;
  for (int fd = 0; fd < 256; fd++) count += fcntl(fd, F_GETFD) != -1;
  return count;
}

static void no_descriptor_stays_open(void **state)
{
  (void)state;
  static const char *const paths[] = {
    "in/a", "in/missing", "missing/a", "in", "link/a", "in//a", "../a", "in/a/b",
  };
  make_folder("in");
  put("in/a", "a");
  link_to("in", "link");
  int before = open_descriptors();
  Buf out = { 0 };
  for (size_t i = 0; i < COUNT_OF(paths); i++) {
    files_read_below(root, paths[i], LARGEST, &out);
    files_read(in_root(paths[i]), 0, &out);
    files_write(in_root(paths[i]), "x", 1);
  }
  assert_int_equal(open_descriptors(), before);
  buf_free(&out);
}

/* ---- writing */

static void a_written_file_replaces_the_old_one_whole(void **state)
{
  (void)state;
  assert_int_equal(files_write(in_root("a"), "a long first text", 17), FILES_OK);
  assert_int_equal(files_write(in_root("a"), "short", 5), FILES_OK);
  assert_file_is("a", "short");
  assert_int_equal(files_write(in_root("a"), "", 0), FILES_OK);
  assert_file_is("a", "");
  assert_int_equal(entries_in_root(), 1); /* no temporary file stays */
}

static void missing_folders_are_made(void **state)
{
  (void)state;
  assert_int_equal(files_write(in_root("out/sheets//lobby/sheet.html"), "x", 1), FILES_OK);
  assert_file_is("out/sheets/lobby/sheet.html", "x");
}

static void a_relative_name_is_written_in_the_working_folder(void **state)
{
  (void)state;
  char *before = getcwd(NULL, 0);
  assert_int_equal(chdir(root), 0);
  FilesStatus status = files_write("plain", "x", 1);
  assert_int_equal(chdir(before), 0);
  free(before);
  assert_int_equal(status, FILES_OK);
  assert_file_is("plain", "x");
}

static void permissions_of_the_old_file_are_kept(void **state)
{
  (void)state;
  struct stat st;
  put("a", "old");
  assert_int_equal(chmod(in_root("a"), 0640), 0);
  assert_int_equal(files_write(in_root("a"), "new", 3), FILES_OK);
  assert_int_equal(stat(in_root("a"), &st), 0);
  assert_int_equal(st.st_mode & 0777, 0640);
}

static void a_link_is_replaced_and_its_target_left_alone(void **state)
{
  (void)state;
  struct stat st;
  put("target", "old");
  link_to("target", "link");
  assert_int_equal(files_write(in_root("link"), "new", 3), FILES_OK);
  assert_file_is("target", "old");
  assert_file_is("link", "new");
  assert_int_equal(lstat(in_root("link"), &st), 0);
  assert_true(S_ISREG(st.st_mode));
}

static void what_cannot_be_a_file_is_not_written_over(void **state)
{
  (void)state;
  make_folder("folder");
  assert_int_equal(mkfifo(in_root("pipe"), 0666), 0);
  put("file", "old");
  int before = entries_in_root();
  static const struct {
    const char *name;
    FilesStatus want;
  } cases[] = {
    { "folder", FILES_NOT_REGULAR }, { "folder/", FILES_NOT_REGULAR },   { "pipe", FILES_NOT_REGULAR },
    { "file/x", FILES_NOT_FOLDER },  { "file/x/y", FILES_NOT_FOLDER },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    FilesStatus got = files_write(in_root(cases[i].name), "new", 3);
    if (got != cases[i].want) fail_msg("%s: %s", cases[i].name, files_why(got));
  }
  assert_int_equal(files_write("/dev/full", "new", 3), FILES_NOT_REGULAR);
  assert_int_equal(files_write("", "new", 3), FILES_MISSING);
  assert_file_is("file", "old");
  assert_int_equal(entries_in_root(), before);
}

static void a_folder_that_may_not_be_written_is_denied(void **state)
{
  (void)state;
  if (!leave_root_user()) skip();
  make_folder("locked");
  assert_int_equal(chmod(in_root("locked"), 0555), 0);
  FilesStatus file = files_write(in_root("locked/a"), "x", 1), folder = files_write(in_root("locked/b/a"), "x", 1);
  return_to_root_user();
  assert_int_equal(file, FILES_DENIED);
  assert_int_equal(folder, FILES_DENIED);
}

/* A limit on the size of files fails a write as a full disk does. */
static void a_write_that_fails_leaves_the_old_file_and_no_other(void **state)
{
  (void)state;
  static const char large[50000] = { 'x' };
  struct rlimit usual, small;
  put("a", "old");
  assert_int_equal(getrlimit(RLIMIT_FSIZE, &usual), 0);
  small = (struct rlimit){ 20000, usual.rlim_max };
  void (*usual_signal)(int) = signal(SIGXFSZ, SIG_IGN);
  assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
  FilesStatus status = files_write(in_root("a"), large, sizeof large);
  int error = errno;
  setrlimit(RLIMIT_FSIZE, &usual);
  signal(SIGXFSZ, usual_signal);
  assert_int_equal(status, FILES_FULL);
  assert_int_equal(error, EFBIG);
  assert_file_is("a", "old");
  assert_int_equal(entries_in_root(), 1);
}

static void every_status_says_why(void **state)
{
  (void)state;
  for (int status = FILES_OK; status <= FILES_FAILED; status++) {
    assert_non_null(files_why((FilesStatus)status));
    for (int other = FILES_OK; other < status; other++)
      assert_string_not_equal(files_why((FilesStatus)status), files_why((FilesStatus)other));
  }
}

#define IN_A_NEW_ROOT(test) cmocka_unit_test_setup_teardown(test, make_root, remove_root)

int main(void)
{
  const struct CMUnitTest tests[] = {
    IN_A_NEW_ROOT(a_file_is_appended_whole),
    IN_A_NEW_ROOT(a_file_with_zero_bytes_longer_than_a_chunk_is_read_whole),
    IN_A_NEW_ROOT(the_size_cap_is_inclusive),
    cmocka_unit_test(a_file_that_understates_its_size_is_still_capped),
    IN_A_NEW_ROOT(what_is_no_regular_file_is_refused_without_waiting),
    IN_A_NEW_ROOT(a_file_that_may_not_be_read_is_denied),
    IN_A_NEW_ROOT(below_a_root_plain_paths_are_read),
    IN_A_NEW_ROOT(below_a_root_nothing_outside_is_read),
    IN_A_NEW_ROOT(the_root_itself_may_be_reached_by_a_link),
    IN_A_NEW_ROOT(no_descriptor_stays_open),
    IN_A_NEW_ROOT(a_written_file_replaces_the_old_one_whole),
    IN_A_NEW_ROOT(missing_folders_are_made),
    IN_A_NEW_ROOT(a_relative_name_is_written_in_the_working_folder),
    IN_A_NEW_ROOT(permissions_of_the_old_file_are_kept),
    IN_A_NEW_ROOT(a_link_is_replaced_and_its_target_left_alone),
    IN_A_NEW_ROOT(what_cannot_be_a_file_is_not_written_over),
    IN_A_NEW_ROOT(a_folder_that_may_not_be_written_is_denied),
    IN_A_NEW_ROOT(a_write_that_fails_leaves_the_old_file_and_no_other),
    cmocka_unit_test(every_status_says_why),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
