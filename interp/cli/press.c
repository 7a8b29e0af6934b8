#include "cli/press.h"

#include <errno.h>
#include <limits.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/port.h"

static const char HELPER[] = "gritwork-press";

enum { CPU_S = 60, NO_HELPER = 127 };

/* Beside this program while it is built, in ../libexec once it is installed. */
static bool find_helper(char *path, size_t size)
{
  static const char *const places[] = { "", "../libexec/" };
  char own[PATH_MAX];
  ssize_t length = readlink("/proc/self/exe", own, sizeof own - 1);
  if (length <= 0) return false;
  own[length] = '\0';
  char *slash = strrchr(own, '/');
  if (!slash) return false;
  slash[1] = '\0';
  for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
    int printed = snprintf(path, size, "%s%s%s", own, places[i], HELPER);
    if (printed > 0 && (size_t)printed < size && access(path, X_OK) == 0) return true;
  }
  return false;
}

static void limit(int resource, rlim_t amount)
{
  struct rlimit both = { amount, amount };
  setrlimit(resource, &both);
}

/* In the child. The helper opens fonts, so it keeps the files; it gets no more than it needs besides. */
static _Noreturn void run_helper(const char *path, const char *name, int in, int out)
{
  char *const arguments[] = { (char *)path, (char *)name, NULL };
  char home[PATH_MAX + 8] = "HOME=/";
  if (getenv("HOME")) snprintf(home, sizeof home, "HOME=%s", getenv("HOME"));
  char locale[] = "LC_ALL=C.UTF-8", zone[] = "TZ=UTC";
  char *const environment[] = { home, locale, zone, NULL };
  sigset_t none;
  sigemptyset(&none);
  sigprocmask(SIG_SETMASK, &none, NULL);
  prctl(PR_SET_PDEATHSIG, SIGKILL, 0, 0, 0);
  prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0);
  limit(RLIMIT_CPU, CPU_S);
  limit(RLIMIT_CORE, 0);
  limit(RLIMIT_FSIZE, PORT_WRITE_LARGEST);
  if (dup2(in, STDIN_FILENO) < 0 || dup2(out, STDOUT_FILENO) < 0) _exit(NO_HELPER);
  execve(path, arguments, environment);
  _exit(NO_HELPER);
}

static bool write_whole(int fd, const Buf *bytes)
{
  for (size_t done = 0; done < bytes->length;) {
    ssize_t part = write(fd, bytes->text + done, bytes->length - done);
    if (part < 0 && errno == EINTR) continue;
    if (part <= 0) return false;
    done += (size_t)part;
  }
  return lseek(fd, 0, SEEK_SET) == 0;
}

static bool read_whole(int fd, Buf *out)
{
  char chunk[65536];
  ssize_t got;
  if (lseek(fd, 0, SEEK_SET) != 0) return false;
  while ((got = read(fd, chunk, sizeof chunk)) != 0) {
    if (got < 0 && errno != EINTR) return false;
    if (got > 0) buf_add(out, chunk, (size_t)got);
  }
  return true;
}

static bool wait_for(pid_t child)
{
  int status;
  while (waitpid(child, &status, 0) < 0)
    if (errno != EINTR) return false;
  return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

bool press_make(const char *name, const Buf *from, Buf *out, Buf *why)
{
  char path[PATH_MAX];
  if (!find_helper(path, sizeof path)) {
    buf_printf(why, "cannot make %s: the helper program %s is not beside this one or in ../libexec", name, HELPER);
    return false;
  }
  int in = memfd_create("press in", MFD_CLOEXEC), made = memfd_create("press out", MFD_CLOEXEC);
  bool fine = in >= 0 && made >= 0 && write_whole(in, from);
  pid_t child = fine ? fork() : -1;
  if (child == 0) run_helper(path, name, in, made);
  fine = child > 0 && wait_for(child) && read_whole(made, out) && out->length > 0;
  if (!fine) buf_printf(why, "cannot make %s: %s did not finish its work", name, HELPER);
  if (in >= 0) close(in);
  if (made >= 0) close(made);
  return fine;
}
