#include "press/confine.h"

#include <fcntl.h>
#include <fontconfig/fontconfig.h>
#include <stdbool.h>
#include <stdint.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <unistd.h>

#include "base/built.h"
#include "base/call_filter.h"
#include "base/landlock.h"

enum { FOLDERS_MOST = 256 };

/* How Thai breaks into lines stands in a file, which is read when there is some. */
static const char LINE_BREAKS[] = "/usr/share/libthai";

static const int looking[] = {
  SYS_newfstatat, SYS_statx,     SYS_fstatfs, SYS_statfs,    SYS_readlinkat, SYS_faccessat, SYS_faccessat2,
  SYS_getdents64, SYS_fadvise64, SYS_pread64, SYS_fcntl,     SYS_getrandom,  SYS_getuid,    SYS_geteuid,
#ifdef SYS_access
  SYS_access,     SYS_readlink,
#endif
};

/* Opening is for reading only, or, where files are closed by Landlock anyway, as that allows. */
static void filter_calls(bool may_write)
{
  static const int writing[] = { SYS_openat, SYS_memfd_create };
  CallFilter filter;
  call_filter_begin(&filter);
  call_filter_allow(&filter, looking, sizeof looking / sizeof *looking);
  call_filter_allow_threads(&filter); /* pango looks for fonts in some */
  call_filter_allow_if(&filter, SYS_prctl, 0, TEST_EQUAL, PR_SET_NAME);
  if (may_write) call_filter_allow(&filter, writing, sizeof writing / sizeof *writing);
  else call_filter_allow_if(&filter, SYS_openat, 2, TEST_NONE, O_WRONLY | O_RDWR | O_CREAT | O_TRUNC);
  call_filter_set(&filter);
}

static size_t add_folders(FcStrList *list, const char **folders, size_t count)
{
  for (FcChar8 *folder; list && count < FOLDERS_MOST && (folder = FcStrListNext(list)) != NULL;)
    folders[count++] = (const char *)folder;
  if (list) FcStrListDone(list);
  return count;
}

void confine_to_fonts(void)
{
  const char *folders[FOLDERS_MOST + 1] = { LINE_BREAKS };
  if (BUILT_SANITIZED || !FcInit()) return;
  size_t count = add_folders(FcConfigGetFontDirs(NULL), folders, 1);
  count = add_folders(FcConfigGetCacheDirs(NULL), folders, count);
  landlock_confine((LandlockKept){ .readable = folders, .readable_count = count });
  filter_calls(false);
}

void confine_to_output(void)
{
  if (BUILT_SANITIZED) return;
  landlock_confine((LandlockKept){ .writable_fd = STDOUT_FILENO });
  filter_calls(true);
}
