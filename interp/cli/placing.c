#include "cli/placing.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/files.h"
#include "base/mem.h"
#include "cli/leftovers.h"

typedef struct {
  const char *folder;
  const PlacedFile *files;
  int count;
  Buf *why;
} Placing;

static bool write_one(const Placing *p, const PlacedFile *file, const char *path)
{
  FilesStatus status = files_write(path, buf_text(file->bytes), file->bytes->length);
  if (status != FILES_OK) buf_printf(p->why, "cannot write %s/%s: %s", p->folder, file->name, files_why(status));
  return status == FILES_OK;
}

static bool is_among(const Placing *p, const char *name)
{
  for (int i = 0; i < p->count; i++)
    if (strcmp(p->files[i].name, name) == 0) return true;
  return false;
}

/* ---- file by file, within the folder */

static const char *temporary(const Placing *p, const PlacedFile *file, Buf *path)
{
  buf_clear(path);
  leftovers_waiting(p->folder, file->name, path);
  return buf_text(path);
}

static bool place_one(const Placing *p, const PlacedFile *file, Buf *path)
{
  Buf final = { 0 };
  buf_printf(&final, "%s/%s", p->folder, file->name);
  bool placed = rename(temporary(p, file, path), buf_text(&final)) == 0;
  if (!placed) buf_printf(p->why, "cannot write %s: %s", buf_text(&final), strerror(errno));
  buf_free(&final);
  return placed;
}

static bool place_each(const Placing *p)
{
  Buf path = { 0 };
  bool fine = true;
  int held = leftovers_hold(p->folder);
  for (int i = 0; fine && i < p->count; i++) fine = write_one(p, &p->files[i], temporary(p, &p->files[i], &path));
  for (int i = 0; fine && i < p->count; i++) fine = place_one(p, &p->files[i], &path);
  for (int i = 0; !fine && i < p->count; i++) unlink(temporary(p, &p->files[i], &path));
  if (held >= 0) close(held);
  buf_free(&path);
  return fine;
}

/* ---- the whole folder at once */

typedef enum { NEW, OURS, OTHERS } FolderState;

static bool holds_only_ours(const Placing *p)
{
  DIR *dir = opendir(p->folder);
  bool only = dir != NULL;
  for (struct dirent *e; only && (e = readdir(dir)) != NULL;)
    only = strcmp(e->d_name, ".") == 0 || strcmp(e->d_name, "..") == 0 ||
           (is_among(p, e->d_name) && e->d_type == DT_REG);
  if (dir) closedir(dir);
  return only;
}

/* May it be taken away and another put in its place? */
static FolderState look_at(const Placing *p, mode_t *mode)
{
  struct stat st;
  const char *slash = strrchr(p->folder, '/'), *name = slash ? slash + 1 : p->folder;
  bool is_named = *name && strcmp(name, ".") != 0 && strcmp(name, "..") != 0;
  if (!is_named) return OTHERS;
  if (lstat(p->folder, &st) != 0) return errno == ENOENT ? NEW : OTHERS;
  *mode = st.st_mode & 07777;
  bool is_own = S_ISDIR(st.st_mode) && st.st_uid == geteuid() && st.st_gid == getegid() && !(st.st_mode & S_ISGID);
  return is_own && holds_only_ours(p) ? OURS : OTHERS;
}

static bool fill(const Placing *p, const char *folder)
{
  Buf path = { 0 };
  bool fine = true;
  for (int i = 0; fine && i < p->count; i++) {
    buf_clear(&path);
    buf_printf(&path, "%s/%s", folder, p->files[i].name);
    fine = write_one(p, &p->files[i], buf_text(&path));
  }
  buf_free(&path);
  return fine;
}

typedef enum { DONE, FAILED, NOT_THIS_WAY } Outcome;

/* What stands beside goes into the place, and what stood there goes away. A folder that was new and is there now
 * belongs to another run, which is served file by file. */
static Outcome place_whole(const Placing *p, FolderState state, mode_t mode)
{
  if (state == OTHERS) return NOT_THIS_WAY;
  Buf beside = { 0 };
  int held = leftovers_make(p->folder, state == OURS ? mode : 0, &beside);
  Outcome outcome = held < 0 ? NOT_THIS_WAY : FAILED;
  if (held >= 0 && fill(p, buf_text(&beside))) {
    unsigned how = state == NEW ? RENAME_NOREPLACE : RENAME_EXCHANGE;
    outcome = renameat2(AT_FDCWD, buf_text(&beside), AT_FDCWD, p->folder, how) == 0 ? DONE : NOT_THIS_WAY;
  }
  if (held >= 0 && (outcome != DONE || state == OURS)) leftovers_remove(buf_text(&beside));
  if (held >= 0) close(held);
  buf_free(&beside);
  return outcome;
}

/* ---- the whole */

/* The folders above it. What fails here fails again, with its reason, when a file is written. */
static void make_parents(const char *folder)
{
  char *path = mem_strdup(folder);
  for (char *slash = *path ? strchr(path + 1, '/') : NULL; slash; slash = strchr(slash + 1, '/')) {
    *slash = '\0';
    mkdir(path, 0777);
    *slash = '/';
  }
  mem_free(path);
}

static void clear_leftovers(const Placing *p)
{
  const char **names = mem_array((size_t)p->count, sizeof *names);
  for (int i = 0; i < p->count; i++) names[i] = p->files[i].name;
  leftovers_clear(p->folder, names, p->count);
  mem_free(names);
}

bool placing_write(const char *folder, const PlacedFile *files, int count, Buf *why)
{
  if (count == 0) return true;
  char *name = mem_strdup(folder);
  for (size_t length = strlen(name); length > 1 && name[length - 1] == '/'; length--) name[length - 1] = '\0';
  Placing p = { name, files, count, why };
  mode_t mode = 0;
  make_parents(name);
  clear_leftovers(&p);
  FolderState state = look_at(&p, &mode);
  Outcome outcome = place_whole(&p, state, mode);
  bool written = outcome == DONE || (outcome == NOT_THIS_WAY && place_each(&p));
  mem_free(name);
  return written;
}
