/* Replacing what was read: only that, only while it is what was read, and whole or not at all. */
#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/files.h"
#include "cli/supervisor.h"

static char folder[64];

static int make_folder(void **state)
{
  (void)state;
  snprintf(folder, sizeof folder, "%s/gritwork-XXXXXX", P_tmpdir);
  return mkdtemp(folder) && chdir(folder) == 0 ? 0 : -1;
}

static int remove_folder(void **state)
{
  (void)state;
  char command[96];
  snprintf(command, sizeof command, "rm -rf '%s'", folder);
  return chdir("/") == 0 ? system(command) : -1;
}

static void put(const char *path, const char *text)
{
  assert_int_equal(files_write(path, text, strlen(text)), FILES_OK);
}

static void holds(const char *path, const char *text)
{
  Buf got = { 0 };
  assert_int_equal(files_read(path, 1000, &got), FILES_OK);
  assert_string_equal(buf_text(&got), text);
  buf_free(&got);
}

/* No temporary file is left behind, whatever happened. */
static void folder_has(const char *path, int count)
{
  char command[200];
  snprintf(command, sizeof command, "test $(ls -A '%s' | wc -l) = %d", path, count);
  assert_int_equal(system(command), 0);
}

/* ---- one file */

static FilesStatus replace(const char *root, const char *path, const char *expected, const char *text)
{
  Buf before = { 0 }, after = { 0 };
  buf_puts(&before, expected);
  buf_puts(&after, text);
  FilesStatus status = files_replace(root, path, &before, &after);
  buf_free(&before);
  buf_free(&after);
  return status;
}

static void a_file_gets_its_new_text_and_keeps_its_permissions(void **state)
{
  (void)state;
  struct stat st;
  static const mode_t modes[] = { 0600, 0640, 0755, 0444 };
  for (size_t i = 0; i < sizeof modes / sizeof *modes; i++) {
    put("a.lua", "old");
    assert_int_equal(chmod("a.lua", modes[i]), 0);
    assert_int_equal(replace(NULL, "a.lua", "old", "a longer text"), FILES_OK);
    holds("a.lua", "a longer text");
    assert_int_equal(stat("a.lua", &st), 0);
    assert_int_equal(st.st_mode & 07777, modes[i]);
    unlink("a.lua");
  }
  folder_has(".", 0);
}

static void paths_of_all_shapes_are_found(void **state)
{
  (void)state;
  char whole[128];
  snprintf(whole, sizeof whole, "%s/in/deep/a.lua", folder);
  const struct {
    const char *root, *path;
  } cases[] = { { NULL, "in/deep/a.lua" }, { NULL, "./in//deep/a.lua" }, { NULL, whole },  { ".", "in/deep/a.lua" },
                { "in", "deep/a.lua" },    { "in/deep", "a.lua" },       { folder, "in/deep/a.lua" } };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    put("in/deep/a.lua", "old");
    assert_int_equal(replace(cases[i].root, cases[i].path, "old", "new"), FILES_OK);
    holds("in/deep/a.lua", "new");
  }
  folder_has("in/deep", 1);
}

static void what_is_not_as_expected_is_left_alone(void **state)
{
  (void)state;
  static const char *const contents[] = { "", "ol", "olD", "old and more" };
  for (size_t i = 0; i < sizeof contents / sizeof *contents; i++) {
    put("a.lua", contents[i]);
    assert_int_equal(replace(NULL, "a.lua", "old", "new"), FILES_CHANGED);
    holds("a.lua", contents[i]);
  }
  folder_has(".", 1);
}

static void links_folders_and_missing_files_are_refused(void **state)
{
  (void)state;
  put("real.lua", "old");
  put("in/a.lua", "old");
  assert_int_equal(symlink("real.lua", "link.lua"), 0);
  assert_int_equal(symlink("in", "linked"), 0);
  assert_int_equal(replace(NULL, "link.lua", "old", "new"), FILES_OUTSIDE);
  assert_int_equal(replace(".", "linked/a.lua", "old", "new"), FILES_OUTSIDE);
  assert_int_equal(replace("in", "../real.lua", "old", "new"), FILES_OUTSIDE);
  assert_int_equal(replace(NULL, "in", "old", "new"), FILES_NOT_REGULAR);
  assert_int_equal(replace(NULL, "none.lua", "old", "new"), FILES_MISSING);
  assert_int_equal(replace(NULL, "none/a.lua", "old", "new"), FILES_MISSING);
  holds("real.lua", "old");
  holds("in/a.lua", "old");
}

/* ---- through the supervisor */

typedef struct {
  int status;
  char err[1000];
} Run;

static Run run(SuperviseOptions options, WorkerMain command, void *context)
{
  Run got = { 0 };
  options.err_fd = memfd_create("err", 0);
  options.wall_ms = 10000;
  got.status = supervise(&options, command, context);
  if (pread(options.err_fd, got.err, sizeof got.err - 1, 0) < 0) fail();
  close(options.err_fd);
  return got;
}

static const char *const given[] = { "a.lua" };

static SuperviseOptions allowed(void)
{
  return (SuperviseOptions){ .root = "recipes", .files = given, .file_count = 1, .may_replace = true };
}

/* Reads the file and a module, does as the test says, and replaces by the names that were shown. */
static int replaces_both(Port *port, void *context)
{
  Buf text = { 0 }, file = { 0 }, module = { 0 }, why = { 0 };
  port_read(port, PORT_FILE, "a.lua", &text, &file, &why);
  port_read(port, PORT_MODULE, "methods.wet", &text, &module, &why);
  if (context) ((void (*)(void))(uintptr_t)context)();
  port_replace(port, buf_text(&file), "fixed a", 7);
  port_replace(port, buf_text(&module), "fixed wet", 9);
  buf_free(&text);
  buf_free(&file);
  buf_free(&module);
  buf_free(&why);
  return 0;
}

static void put_both(void)
{
  put("a.lua", "a");
  put("recipes/methods/wet.lua", "wet");
}

static void what_was_read_is_replaced_once_the_command_has_finished(void **state)
{
  (void)state;
  for (int in_process = 0; in_process <= 1; in_process++) {
    SuperviseOptions options = allowed();
    options.in_process = in_process;
    put_both();
    assert_int_equal(run(options, replaces_both, NULL).status, 0);
    holds("a.lua", "fixed a");
    holds("recipes/methods/wet.lua", "fixed wet");
  }
}

static void a_command_that_dies_replaces_nothing(void **state)
{
  (void)state;
  put_both();
  assert_int_equal(run(allowed(), replaces_both, (void *)(uintptr_t)abort).status, STATUS_FAULT);
  holds("a.lua", "a");
}

static void edit_meanwhile(void) { put("a.lua", "edited by somebody"); }

static void a_file_that_was_changed_meanwhile_is_refused_and_named(void **state)
{
  (void)state;
  SuperviseOptions options = allowed();
  options.in_process = true; /* so that the command itself can play the somebody */
  put_both();
  Run got = run(options, replaces_both, (void *)(uintptr_t)edit_meanwhile);
  assert_int_equal(got.status, STATUS_FILES);
  assert_string_equal(got.err, "gritwork: a.lua was left as it is: it has been changed meanwhile\n");
  holds("a.lua", "edited by somebody");
  holds("recipes/methods/wet.lua", "fixed wet");
}

static int replaces_unread(Port *port, void *name)
{
  port_replace(port, name, "x", 1);
  return 0;
}

static void nothing_that_was_not_read_can_be_replaced(void **state)
{
  (void)state;
  static const char *const names[] = { "a.lua", "recipes/methods/wet.lua", "", "../a.lua", "/etc/hostname" };
  put_both();
  for (size_t i = 0; i < sizeof names / sizeof *names; i++)
    assert_int_equal(run(allowed(), replaces_unread, (void *)(uintptr_t)names[i]).status, STATUS_FAULT);
  holds("a.lua", "a");
}

static void a_run_that_was_not_asked_to_cannot_replace(void **state)
{
  (void)state;
  SuperviseOptions options = allowed();
  options.may_replace = false;
  put_both();
  assert_int_equal(run(options, replaces_both, NULL).status, STATUS_FAULT);
  holds("a.lua", "a");
}

int main(void)
{
#define IN_FOLDER(test) cmocka_unit_test_setup_teardown(test, make_folder, remove_folder)
  const struct CMUnitTest tests[] = {
    IN_FOLDER(a_file_gets_its_new_text_and_keeps_its_permissions),
    IN_FOLDER(paths_of_all_shapes_are_found),
    IN_FOLDER(what_is_not_as_expected_is_left_alone),
    IN_FOLDER(links_folders_and_missing_files_are_refused),
    IN_FOLDER(what_was_read_is_replaced_once_the_command_has_finished),
    IN_FOLDER(a_command_that_dies_replaces_nothing),
    IN_FOLDER(a_file_that_was_changed_meanwhile_is_refused_and_named),
    IN_FOLDER(nothing_that_was_not_read_can_be_replaced),
    IN_FOLDER(a_run_that_was_not_asked_to_cannot_replace),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
