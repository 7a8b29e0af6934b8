#include "cli/leftovers.h"

#include <ctype.h>
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <inttypes.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/port.h"

enum { FOLDER_FLAGS = O_RDONLY | O_DIRECTORY | O_CLOEXEC, CHANCE_DIGITS = 16 };

/* ---- names */

/* Where the folder's own name begins: behind the last slash. */
static const char *name_of(const char *folder)
{
  const char *slash = strrchr(folder, '/');
  return slash ? slash + 1 : folder;
}

/* The process named in PREFIX + PROCESS + "-" + 16 hexadecimal digits + ".part", or in PREFIX + PROCESS; 0: another
 * name. */
static long process_in(const char *name, const char *prefix, bool has_chance)
{
  size_t length = strlen(prefix);
  if (strncmp(name, prefix, length) != 0 || !isdigit((unsigned char)name[length])) return 0;
  char *end;
  long process = strtol(name + length, &end, 10);
  if (has_chance) {
    if (*end++ != '-' || strspn(end, "0123456789abcdef") != CHANCE_DIGITS) return 0;
    end += CHANCE_DIGITS;
  }
  return process > 0 && strcmp(end, has_chance ? ".part" : "") == 0 ? process : 0;
}

static bool is_gone(long process) { return kill((pid_t)process, 0) != 0 && errno == ESRCH; }

void leftovers_waiting(const char *folder, const char *file, Buf *path)
{
  buf_printf(path, "%s/.%s.%ld", folder, file, (long)getpid());
}

/* ---- holding */

static bool hold(int fd, int how) { return fd >= 0 && flock(fd, how | LOCK_NB) == 0; }

int leftovers_hold(const char *folder)
{
  int fd = open(folder, FOLDER_FLAGS);
  if (fd >= 0) hold(fd, LOCK_SH);
  return fd;
}

/* Between the making and the holding somebody may have taken it for a leftover. */
static bool is_still_there(int fd, const char *path)
{
  struct stat own, there;
  return fstat(fd, &own) == 0 && stat(path, &there) == 0 && own.st_ino == there.st_ino &&
         own.st_dev == there.st_dev;
}

int leftovers_make(const char *folder, mode_t mode, Buf *path)
{
  uint64_t chance = 0;
  size_t before = path->length;
  const char *name = name_of(folder);
  if (getrandom(&chance, sizeof chance, GRND_NONBLOCK) < 0) chance = 0; /* mkdir refuses a name that is taken */
  buf_add(path, folder, (size_t)(name - folder));
  buf_printf(path, ".%s.%ld-%016" PRIx64 ".part", name, (long)getpid(), chance);
  bool made = mkdir(buf_text(path) + before, 0777) == 0;
  int fd = made ? open(buf_text(path) + before, FOLDER_FLAGS) : -1;
  if (hold(fd, LOCK_EX) && is_still_there(fd, buf_text(path) + before) && (mode == 0 || fchmod(fd, mode) == 0))
    return fd;
  if (fd >= 0) close(fd);
  if (made) rmdir(buf_text(path) + before);
  buf_cut(path, before);
  return -1;
}

/* ---- removing */

typedef bool Visit(int folder, const char *name, void *context);

static bool is_file(int folder, const char *name)
{
  struct stat st;
  return fstatat(folder, name, &st, AT_SYMLINK_NOFOLLOW) == 0 && S_ISREG(st.st_mode) && st.st_uid == geteuid();
}

static bool is_dots(const char *name) { return strcmp(name, ".") == 0 || strcmp(name, "..") == 0; }

/* Calls `visit` for each name in the folder until it answers false. */
static bool each_name(int folder, Visit *visit, void *context)
{
  int own = openat(folder, ".", FOLDER_FLAGS);
  DIR *dir = own < 0 ? NULL : fdopendir(own);
  if (!dir && own >= 0) close(own);
  bool all = dir != NULL;
  for (struct dirent *e; all && (e = readdir(dir)) != NULL;)
    if (!is_dots(e->d_name)) all = visit(folder, e->d_name, context);
  if (dir) closedir(dir);
  return all;
}

static bool is_ours(int folder, const char *name, void *context)
{
  (void)context;
  return is_file(folder, name) && (port_is_name(name) || process_in(name, ".", true));
}

static bool unlink_it(int folder, const char *name, void *context)
{
  (void)context;
  return unlinkat(folder, name, 0) == 0;
}

static bool empty(int folder) { return each_name(folder, is_ours, NULL) && each_name(folder, unlink_it, NULL); }

void leftovers_remove(const char *path)
{
  int fd = open(path, FOLDER_FLAGS | O_NOFOLLOW);
  if (fd < 0) return;
  if (empty(fd)) rmdir(path);
  close(fd);
}

/* A folder beside, of an earlier run for this place. Always true: the next one is looked at too. */
static bool clear_beside(int parent, const char *name, void *context)
{
  long process = process_in(name, context, true);
  if (!process || !is_gone(process)) return true;
  struct stat st;
  int fd = openat(parent, name, FOLDER_FLAGS | O_NOFOLLOW);
  bool is_own = fd >= 0 && fstat(fd, &st) == 0 && st.st_uid == geteuid();
  if (is_own && hold(fd, LOCK_EX) && empty(fd)) unlinkat(parent, name, AT_REMOVEDIR);
  if (fd >= 0) close(fd);
  return true;
}

typedef struct {
  const char *const *files;
  int count;
} Files;

static bool clear_inside(int folder, const char *name, void *context)
{
  const Files *f = context;
  long process = process_in(name, ".", true);
  for (int i = 0; !process && i < f->count; i++) {
    Buf prefix = { 0 };
    buf_printf(&prefix, ".%s.", f->files[i]);
    process = process_in(name, buf_text(&prefix), false);
    buf_free(&prefix);
  }
  if (process && is_gone(process) && is_file(folder, name)) unlinkat(folder, name, 0);
  return true;
}

void leftovers_clear(const char *folder, const char *const *files, int count)
{
  Buf path = { 0 }, prefix = { 0 };
  const char *name = name_of(folder);
  Files own = { files, count };
  buf_add(&path, folder, (size_t)(name - folder));
  if (path.length == 0) buf_puts(&path, ".");
  buf_printf(&prefix, ".%s.", name);
  int parent = open(buf_text(&path), FOLDER_FLAGS), inside = open(folder, FOLDER_FLAGS);
  if (parent >= 0) each_name(parent, clear_beside, prefix.text);
  if (hold(inside, LOCK_EX)) each_name(inside, clear_inside, &own);
  if (parent >= 0) close(parent);
  if (inside >= 0) close(inside);
  buf_free(&path);
  buf_free(&prefix);
}
