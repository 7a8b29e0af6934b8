#include "base/files.h"

#include <errno.h>
#include <fcntl.h>
#include <inttypes.h>
#include <stdio.h>
#include <string.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/mem.h"

const char *files_why(FilesStatus status)
{
  static const char *const why[] = {
    [FILES_OK] = "no error",
    [FILES_MISSING] = "no such file",
    [FILES_NOT_FOLDER] = "a part of its path is not a folder",
    [FILES_NOT_REGULAR] = "not a regular file",
    [FILES_TOO_LARGE] = "too large",
    [FILES_OUTSIDE] = "outside the project folder, or behind a symbolic link",
    [FILES_DENIED] = "permission denied",
    [FILES_CHANGED] = "it has been changed meanwhile",
    [FILES_FULL] = "the disk is full, or a limit on what may be written is reached",
    [FILES_FAILED] = "reading or writing failed",
  };
  return why[status];
}

static FilesStatus status_of(int error)
{
  static const struct {
    int error;
    FilesStatus status;
  } rows[] = {
    { ENOENT, FILES_MISSING }, { ENOTDIR, FILES_NOT_FOLDER },   { EACCES, FILES_DENIED },
    { EPERM, FILES_DENIED },   { EROFS, FILES_DENIED },         { EISDIR, FILES_NOT_REGULAR },
    { ELOOP, FILES_OUTSIDE },  { ENXIO, FILES_NOT_REGULAR },  { ENOSPC, FILES_FULL },
    { EDQUOT, FILES_FULL },    { EFBIG, FILES_FULL },
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    if (rows[i].error == error) return rows[i].status;
  return FILES_FAILED;
}

/* Closes without losing what errno says of an earlier failure. */
static void close_quietly(int fd)
{
  int error = errno;
  close(fd);
  errno = error;
}

/* ---- reading */

static FilesStatus read_all(int fd, size_t largest, Buf *out)
{
  char chunk[16384];
  size_t total = 0;
  for (;;) {
    ssize_t got = read(fd, chunk, sizeof chunk);
    if (got == 0) return FILES_OK;
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return status_of(errno);
    if ((size_t)got > largest - total) return FILES_TOO_LARGE;
    total += (size_t)got;
    buf_add(out, chunk, (size_t)got);
  }
}

/* Takes the descriptor, which may be -1 with the reason in errno. */
static FilesStatus read_opened_take(int fd, size_t largest, Buf *out)
{
  if (fd < 0) return status_of(errno);
  size_t before = out->length;
  struct stat st;
  FilesStatus status = FILES_OK;
  if (fstat(fd, &st) != 0)
    status = status_of(errno);
  else if (!S_ISREG(st.st_mode))
    status = FILES_NOT_REGULAR;
  else if ((uintmax_t)st.st_size > largest)
    status = FILES_TOO_LARGE;
  else
    status = read_all(fd, largest, out);
  if (status != FILES_OK) buf_cut(out, before);
  close_quietly(fd);
  return status;
}

/* O_NONBLOCK: opening a pipe that nobody writes to must not wait. */
enum { READ_FLAGS = O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK };

FilesStatus files_read(const char *path, size_t largest, Buf *out)
{
  return read_opened_take(open(path, READ_FLAGS), largest, out);
}

/* ---- reading below a root: one folder at a time, following no link, so that nothing can be swapped under us */

static bool leaves_root(const char *path)
{
  if (*path == '/') return true;
  for (const char *part = path; *part;) {
    size_t length = strcspn(part, "/");
    if (length == 2 && memcmp(part, "..", 2) == 0) return true;
    part += length;
    part += strspn(part, "/");
  }
  return false;
}

/* Opens one name inside `folder`. A link is refused with ELOOP also where a folder was wanted. */
static int open_part(int folder, const char *name, bool is_last)
{
  int fd = openat(folder, name, O_NOFOLLOW | (is_last ? READ_FLAGS : O_PATH | O_DIRECTORY | O_CLOEXEC));
  struct stat st;
  if (fd >= 0 || errno != ENOTDIR) return fd;
  bool is_link = fstatat(folder, name, &st, AT_SYMLINK_NOFOLLOW) == 0 && S_ISLNK(st.st_mode);
  errno = is_link ? ELOOP : ENOTDIR;
  return -1;
}

/* Takes `folder`. `path` is relative and is cut into its parts in place. */
static int open_below_take(int folder, char *path)
{
  while (folder >= 0) {
    char *slash = strchr(path, '/');
    if (slash) *slash = '\0';
    bool is_empty = *path == '\0' && slash; /* a//b */
    int next = is_empty ? folder : open_part(folder, path, slash == NULL);
    if (!is_empty) close_quietly(folder);
    if (slash == NULL) return next;
    folder = next;
    path = slash + 1;
  }
  return -1;
}

FilesStatus files_read_below(const char *root, const char *path, size_t largest, Buf *out)
{
  if (leaves_root(path)) return FILES_OUTSIDE;
  char *parts = mem_strdup(path);
  int fd = open_below_take(open(root, O_PATH | O_DIRECTORY | O_CLOEXEC), parts);
  FilesStatus status = read_opened_take(fd, largest, out);
  mem_free(parts);
  return status;
}

/* ---- writing */

/* Makes the folders that `path` names before its last slash. */
static FilesStatus make_folders(char *path)
{
  for (char *slash = *path ? strchr(path + 1, '/') : NULL; slash; slash = strchr(slash + 1, '/')) {
    *slash = '\0';
    bool failed = mkdir(path, 0777) != 0 && errno != EEXIST;
    *slash = '/';
    if (failed) return status_of(errno);
  }
  return FILES_OK;
}

/* A name beside `path` that nobody else uses: by process, by chance, and made only if it is new. */
static char *temporary_beside(const char *path)
{
  uint64_t chance = 0;
  if (getrandom(&chance, sizeof chance, GRND_NONBLOCK) < 0) chance = 0; /* O_EXCL still keeps us from harm */
  const char *slash = strrchr(path, '/');
  Buf name = { 0 };
  buf_add(&name, path, slash ? (size_t)(slash + 1 - path) : 0);
  buf_printf(&name, ".%ld-%016" PRIx64 ".part", (long)getpid(), chance);
  return name.text;
}

static bool write_all(int fd, const char *bytes, size_t length)
{
  while (length > 0) {
    ssize_t put = write(fd, bytes, length);
    if (put < 0 && errno == EINTR) continue;
    if (put < 0) return false;
    bytes += put;
    length -= (size_t)put;
  }
  return true;
}

/* The name itself is on disk only once its folder is; a file system that cannot promise that is not an error. */
static void sync_folder_of(const char *path)
{
  const char *slash = strrchr(path, '/');
  char *folder = slash ? mem_strndup(path, (size_t)(slash + 1 - path)) : mem_strdup(".");
  int fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (fd >= 0) {
    fsync(fd);
    close(fd);
  }
  mem_free(folder);
}

/* An existing file's permissions go over to the new one. */
static FilesStatus write_and_rename(const char *temporary, const char *path, mode_t mode, const char *bytes,
                                    size_t length)
{
  int fd = open(temporary, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0666);
  if (fd < 0) return status_of(errno);
  bool done = write_all(fd, bytes, length) && (mode == 0 || fchmod(fd, mode) == 0) && fsync(fd) == 0;
  close_quietly(fd);
  done = done && rename(temporary, path) == 0;
  if (done) {
    sync_folder_of(path);
    return FILES_OK;
  }
  int error = errno;
  unlink(temporary);
  errno = error;
  return status_of(error);
}

FilesStatus files_write(const char *path, const char *bytes, size_t length)
{
  struct stat st;
  mode_t mode = 0;
  if (stat(path, &st) == 0) {
    if (!S_ISREG(st.st_mode)) return FILES_NOT_REGULAR;
    mode = st.st_mode & 0777;
  }
  char *copy = mem_strdup(path), *temporary = temporary_beside(path);
  FilesStatus status = make_folders(copy);
  if (status == FILES_OK) status = write_and_rename(temporary, path, mode, bytes, length);
  mem_free(temporary);
  mem_free(copy);
  return status;
}

/* ---- replacing: everything by its name in one folder that is held open */

enum { FOLDER_FLAGS = O_PATH | O_DIRECTORY | O_CLOEXEC };

/* Takes `folder`. `path` names folders only, and is cut into its parts in place. */
static int open_folders_below_take(int folder, char *path)
{
  while (folder >= 0 && *path) {
    size_t length = strcspn(path, "/");
    bool is_last = path[length] == '\0';
    path[length] = '\0';
    int next = length ? open_part(folder, path, false) : folder;
    if (next != folder) close_quietly(folder);
    folder = next;
    path += length + !is_last;
  }
  return folder;
}

/* `path` is cut before its last name, which is *name. */
static int open_folder_of(const char *root, char *path, const char **name)
{
  char *slash = strrchr(path, '/');
  *name = slash ? slash + 1 : path;
  if (slash) *slash = '\0';
  if (root == NULL) return open(slash == NULL ? "." : slash == path ? "/" : path, FOLDER_FLAGS);
  int folder = open(root, FOLDER_FLAGS);
  return slash ? open_folders_below_take(folder, path) : folder;
}

static FilesStatus still_holds(int folder, const char *name, const Buf *expected, struct stat *st)
{
  Buf now = { 0 };
  if (fstatat(folder, name, st, AT_SYMLINK_NOFOLLOW) != 0) return status_of(errno);
  FilesStatus status = read_opened_take(openat(folder, name, READ_FLAGS | O_NOFOLLOW), expected->length, &now);
  if (status == FILES_TOO_LARGE) status = FILES_CHANGED;
  bool same = now.length == expected->length && memcmp(buf_text(&now), buf_text(expected), now.length) == 0;
  buf_free(&now);
  return status == FILES_OK && !same ? FILES_CHANGED : status;
}

static FilesStatus make_beside(int folder, const char *temporary, const struct stat *like, const Buf *bytes)
{
  int fd = openat(folder, temporary, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0600);
  if (fd < 0) return status_of(errno);
  struct stat own;
  bool done = write_all(fd, buf_text(bytes), bytes->length) && fstat(fd, &own) == 0;
  if (done && (own.st_uid != like->st_uid || own.st_gid != like->st_gid))
    done = fchown(fd, like->st_uid, like->st_gid) == 0;
  done = done && fchmod(fd, like->st_mode & 07777) == 0 && fsync(fd) == 0;
  FilesStatus status = done ? FILES_OK : status_of(errno);
  close(fd);
  return status;
}

/* Takes `folder`. What it holds is looked at twice: first, and when nothing is left but the renaming. */
static FilesStatus replace_in_take(int folder, const char *name, const Buf *expected, const Buf *bytes)
{
  if (folder < 0) return status_of(errno);
  struct stat st;
  char *temporary = temporary_beside(name);
  FilesStatus status = still_holds(folder, name, expected, &st);
  if (status == FILES_OK) {
    status = make_beside(folder, temporary, &st, bytes);
    if (status == FILES_OK) status = still_holds(folder, name, expected, &st);
    if (status == FILES_OK && renameat(folder, temporary, folder, name) != 0) status = status_of(errno);
    if (status != FILES_OK) unlinkat(folder, temporary, 0);
  }
  close(folder);
  mem_free(temporary);
  return status;
}

FilesStatus files_replace(const char *root, const char *path, const Buf *expected, const Buf *bytes)
{
  if (root && leaves_root(path)) return FILES_OUTSIDE;
  char *parts = mem_strdup(path);
  const char *name;
  int folder = open_folder_of(root, parts, &name);
  FilesStatus status = replace_in_take(folder, name, expected, bytes);
  mem_free(parts);
  return status;
}
