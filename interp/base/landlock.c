#include "base/landlock.h"

#include <errno.h>
#include <fcntl.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <sys/prctl.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

/* The kernel's numbers; headers of the C library may be older than the kernel that runs. */
enum { VERSION_FLAG = 1, RULE_PATH = 1 };

static const uint64_t WRITE_FILE = 1 << 1, READ_FILE = 1 << 2, READ_FOLDER = 1 << 3, TRUNCATE = 1 << 14;

typedef struct {
  uint64_t files, net, scoped;
} Rights;

typedef struct {
  uint64_t allowed;
  int32_t fd;
} __attribute__((packed)) PathRule;

static const Rights by_version[] = {
  { 0, 0, 0 },      { 0x1fff, 0, 0 }, { 0x3fff, 0, 0 }, { 0x7fff, 0, 0 },
  { 0x7fff, 3, 0 }, { 0xffff, 3, 0 }, { 0xffff, 3, 3 },
};
enum { NEWEST = sizeof by_version / sizeof *by_version - 1 };

/* An older kernel takes a shorter structure only if the rest of it is zero. */
static int make_rules(const Rights *rights)
{
  return (int)syscall(SYS_landlock_create_ruleset, rights, sizeof *rights, 0);
}

static void allow(int rules, const Rights *all, int fd, uint64_t rights)
{
  PathRule rule = { rights & all->files, fd };
  if (fd >= 0) syscall(SYS_landlock_add_rule, rules, RULE_PATH, &rule, 0);
}

static void allow_reading(int rules, const Rights *all, const char *path)
{
  struct stat st;
  int fd = open(path, O_PATH | O_CLOEXEC);
  if (fd < 0) return;
  if (fstat(fd, &st) == 0) allow(rules, all, fd, READ_FILE | (S_ISDIR(st.st_mode) ? READ_FOLDER : 0));
  close(fd);
}

static void allow_writing(int rules, const Rights *all, int fd)
{
  char path[32];
  snprintf(path, sizeof path, "/proc/self/fd/%d", fd);
  int again = open(path, O_PATH | O_CLOEXEC);
  allow(rules, all, again, READ_FILE | WRITE_FILE | TRUNCATE);
  if (again >= 0) close(again);
}

int landlock_confine(LandlockKept kept)
{
  long version = syscall(SYS_landlock_create_ruleset, NULL, 0, VERSION_FLAG);
  if (version <= 0) return 0;
  if (version > NEWEST) version = NEWEST;
  const Rights *rights = &by_version[version];
  int rules = make_rules(rights);
  if (rules < 0) return 0;
  for (size_t i = 0; i < kept.readable_count; i++) allow_reading(rules, rights, kept.readable[i]);
  if (kept.writable_fd > 0) allow_writing(rules, rights, kept.writable_fd);
  bool done = prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 && syscall(SYS_landlock_restrict_self, rules, 0) == 0;
  int error = errno;
  close(rules);
  errno = error;
  return done ? (int)version : 0;
}
