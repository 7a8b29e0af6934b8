#include "cli/placing.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <inttypes.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/files.h"
#include "base/mem.h"

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

/* FOLDER/.NAME.PID: a name that no file of ours has. */
static const char *temporary(const Placing *p, const PlacedFile *file, Buf *path)
{
  buf_clear(path);
  buf_printf(path, "%s/.%s.%ld", p->folder, file->name, (long)getpid());
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
  for (int i = 0; fine && i < p->count; i++) fine = write_one(p, &p->files[i], temporary(p, &p->files[i], &path));
  for (int i = 0; fine && i < p->count; i++) fine = place_one(p, &p->files[i], &path);
  for (int i = 0; !fine && i < p->count; i++) unlink(temporary(p, &p->files[i], &path));
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
    only = strcmp(e->d_name, ".") == 0 || strcmp(e->d_name, "..") == 0 || (is_among(p, e->d_name) && e->d_type == DT_REG);
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

/* A folder of its own beside the one that is meant; NULL if none can be made there. */
static char *make_beside(const Placing *p, FolderState state, mode_t mode)
{
  uint64_t chance = 0;
  const char *slash = strrchr(p->folder, '/');
  Buf path = { 0 };
  if (getrandom(&chance, sizeof chance, GRND_NONBLOCK) < 0) chance = 0; /* mkdir refuses a name that is taken */
  buf_add(&path, p->folder, slash ? (size_t)(slash + 1 - p->folder) : 0);
  buf_printf(&path, ".%s.%ld-%016" PRIx64 ".part", slash ? slash + 1 : p->folder, (long)getpid(), chance);
  bool made = mkdir(buf_text(&path), 0777) == 0;
  if (made && state == OURS && chmod(buf_text(&path), mode) != 0) made = rmdir(buf_text(&path)) != 0;
  if (made) return path.text;
  buf_free(&path);
  return NULL;
}

static void remove_folder(const Placing *p, const char *folder)
{
  Buf path = { 0 };
  for (int i = 0; i < p->count; i++) {
    buf_clear(&path);
    buf_printf(&path, "%s/%s", folder, p->files[i].name);
    unlink(buf_text(&path));
  }
  rmdir(folder);
  buf_free(&path);
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

/* What stands beside goes into the place, and what stood there goes away. A folder that was new and is there now belongs
 * to another run, which is served file by file. */
static Outcome place_whole(const Placing *p, FolderState state, mode_t mode)
{
  if (state == OTHERS) return NOT_THIS_WAY;
  char *beside = make_beside(p, state, mode);
  if (!beside) return NOT_THIS_WAY;
  Outcome outcome = FAILED;
  if (fill(p, beside)) {
    unsigned how = state == NEW ? RENAME_NOREPLACE : RENAME_EXCHANGE;
    outcome = renameat2(AT_FDCWD, beside, AT_FDCWD, p->folder, how) == 0 ? DONE : NOT_THIS_WAY;
  }
  if (outcome != DONE || state == OURS) remove_folder(p, beside);
  mem_free(beside);
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

bool placing_write(const char *folder, const PlacedFile *files, int count, Buf *why)
{
  if (count == 0) return true;
  char *name = mem_strdup(folder);
  for (size_t length = strlen(name); length > 1 && name[length - 1] == '/'; length--) name[length - 1] = '\0';
  Placing p = { name, files, count, why };
  mode_t mode = 0;
  make_parents(name);
  FolderState state = look_at(&p, &mode);
  Outcome outcome = place_whole(&p, state, mode);
  bool written = outcome == DONE || (outcome == NOT_THIS_WAY && place_each(&p));
  mem_free(name);
  return written;
}
