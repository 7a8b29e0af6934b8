/* main.c - reads the command line, finds the project's root, and runs the command in a worker. */
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/mem.h"
#include "cli/command.h"
#include "cli/supervisor.h"

/* A build for coverage: a worker could write down nothing of what it has seen. */
#ifdef GRITWORK_IN_PROCESS
enum { IN_PROCESS = true };
#else
enum { IN_PROCESS = false };
#endif

static const char ROOT_MARK[] = ".gritwork";

static int run_command(Port *port, void *context)
{
  const Options *options = context;
  Session session;
  session_begin(&session, port, options);
  return options->command->run(&session);
}

static bool has_mark(const char *folder)
{
  char path[PATH_MAX];
  int length = snprintf(path, sizeof path, "%s/%s", folder, ROOT_MARK);
  return length > 0 && length < PATH_MAX && access(path, F_OK) == 0;
}

static char *parent_of(const char *path)
{
  const char *slash = strrchr(path, '/');
  if (!slash) return mem_strdup(".");
  return slash == path ? mem_strdup("/") : mem_strndup(path, (size_t)(slash - path));
}

static int count_slashes(const char *path)
{
  int count = 0;
  for (; *path; path++) count += *path == '/';
  return count;
}

/* How many folders a way up from `folder` can pass: beyond the top of the tree ".." leads nowhere new. */
static int folders_up(const char *folder)
{
  enum { UNKNOWN = 64 };
  char here[PATH_MAX];
  return count_slashes(folder) + 2 + (getcwd(here, sizeof here) ? count_slashes(here) : UNKNOWN);
}

/* The nearest folder from the file's own upwards that holds the mark; the file's own folder if none does. Folders
 * above the current one are looked at through "..", so that names stay as the user wrote them. */
static char *root_of(const char *file)
{
  char *own = parent_of(file), *folder = mem_strdup(own);
  for (int left = folders_up(own); left > 0; left--) {
    if (has_mark(folder)) {
      mem_free(own);
      return folder;
    }
    char *up;
    size_t length = strlen(folder);
    bool ends_in_dots = strcmp(folder, "..") == 0 || (length > 2 && strcmp(folder + length - 3, "/..") == 0);
    if (strcmp(folder, "/") == 0) break;
    if (strcmp(folder, ".") == 0) up = mem_strdup("..");
    else if (ends_in_dots) {
      up = mem_alloc(length + 4);
      sprintf(up, "%s/..", folder);
    } else up = parent_of(folder);
    mem_free(folder);
    folder = up;
  }
  mem_free(folder);
  return own;
}

/* Is there anything in the folder? A folder that is not there is empty. */
static bool is_empty(const char *folder)
{
  DIR *dir = opendir(folder);
  if (!dir) return errno == ENOENT;
  int entries = 0;
  while (readdir(dir)) entries++;
  closedir(dir);
  return entries <= 2; /* . and .. */
}

static int supervise_command(const Options *o)
{
  if (o->command->wants_empty_folder && !is_empty(o->out)) {
    fprintf(stderr, "gritwork: %s: there is something in that folder already; name a new one\n", o->command->name);
    return STATUS_FILES;
  }
  bool files = o->command->arguments_are_files && o->argument_count > 0;
  size_t file_count = files ? (size_t)o->argument_count : 0;
  const char **may_read = mem_array(file_count + 1, sizeof *may_read);
  for (size_t i = 0; i < file_count; i++) may_read[i] = o->arguments[i];
  if (o->job) may_read[file_count++] = o->job;
  char *root = files && !o->root ? root_of(o->arguments[0]) : NULL;
  SuperviseOptions s = {
    .root = o->root ? o->root : root,
    .files = may_read,
    .file_count = file_count,
    .stdlib_folder = o->stdlib,
    .out_folder = o->out,
    .may_replace = o->fix && !o->diff,
    .wall_ms = o->seconds * 1000,
    .threads = options_among(o->command->options, "threads") ? o->threads : 1,
    .in_process = IN_PROCESS,
    .show_progress = isatty(STDERR_FILENO),
  };
  int status = supervise(&s, run_command, (void *)o);
  mem_free(root);
  mem_free(may_read);
  return status;
}

/* A standard stream that is closed must not become the next file that is opened: what fails to read or write in its
 * place is opened instead. */
static void fill_streams(void)
{
  static const int unfit[] = { [STDIN_FILENO] = O_WRONLY, [STDOUT_FILENO] = O_RDONLY, [STDERR_FILENO] = O_RDONLY };
  for (int fd = STDIN_FILENO; fd <= STDERR_FILENO; fd++)
    if (fcntl(fd, F_GETFD) < 0 && open("/dev/null", unfit[fd]) != fd) exit(STATUS_FILES);
}

int main(int argc, char **argv)
{
  fill_streams();
  signal(SIGPIPE, SIG_IGN);
  Options options;
  Buf text = { 0 };
  OptionsVerdict verdict = options_read(argc, argv, &options, &text);
  if (verdict != OPTIONS_RUN) {
    FILE *stream = verdict == OPTIONS_HELP ? stdout : stderr;
    signal(SIGPIPE, SIG_IGN); /* a reader that goes away ends the output quietly */
    fputs(buf_text(&text), stream);
    buf_free(&text);
    if (fflush(stream) != 0 && errno != EPIPE) return STATUS_FILES;
    return verdict == OPTIONS_HELP ? STATUS_FINE : STATUS_USAGE;
  }
  return supervise_command(&options);
}
