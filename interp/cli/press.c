#include "cli/press.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/pidfd.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/built.h"
#include "base/port.h"
#include "cli/waiting.h"

static const char HELPER[] = "gritwork-press";

enum { CPU_S = 60, MEMORY = 1 << 30, FILES = 256, NO_HELPER = 127 };

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

/* In the child. Interrupts stay held back: they are the supervisor's, which ends the helper. The helper needs its
 * libraries and the fonts, so it closes the files behind it itself (press/confine.h). */
static _Noreturn void run_helper(const char *path, const char *name, int in, int out, pid_t parent)
{
  char *const arguments[] = { (char *)path, (char *)name, NULL };
  char home[PATH_MAX + 8] = "HOME=/";
  if (getenv("HOME")) snprintf(home, sizeof home, "HOME=%s", getenv("HOME"));
  char locale[] = "LC_ALL=C.UTF-8", zone[] = "TZ=UTC";
  char *const environment[] = { home, locale, zone, NULL };
  prctl(PR_SET_PDEATHSIG, SIGKILL, 0, 0, 0);
  if (getppid() != parent) _exit(NO_HELPER);
  prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0);
  limit(RLIMIT_CPU, CPU_S);
  limit(RLIMIT_CORE, 0);
  limit(RLIMIT_FSIZE, PORT_WRITE_LARGEST);
  if (!BUILT_SANITIZED) limit(RLIMIT_AS, MEMORY);
  limit(RLIMIT_NOFILE, FILES);
  int null = open("/dev/null", O_WRONLY | O_CLOEXEC); /* what its libraries complain of is for nobody */
  if (dup2(in, STDIN_FILENO) < 0 || dup2(out, STDOUT_FILENO) < 0 || dup2(null, STDERR_FILENO) < 0) _exit(NO_HELPER);
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

/* Until it ends, or has to. */
static Waited wait_for(pid_t child, int wall_ms)
{
  int fd = pidfd_open(child, 0);
  if (fd < 0) return WAITED_READY; /* an older kernel: its processor time is limited all the same */
  Waited waited = waiting_for(fd, POLLIN, waiting_clock_ms() + wall_ms);
  close(fd);
  return waited;
}

static bool is_fine(pid_t child)
{
  int status;
  while (waitpid(child, &status, 0) < 0)
    if (errno != EINTR) return false;
  return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

static PressStatus status_of(Waited waited, bool fine)
{
  if (fine) return PRESS_MADE;
  return waited == WAITED_TOO_LONG || waited == WAITED_INTERRUPTED ? PRESS_ENDED : PRESS_FAILED;
}

/* In a process of its own, from one open file into the other. */
static PressStatus run(const char *path, const char *name, int in, int made, int wall_ms, Buf *why)
{
  pid_t parent = getpid(), child = fork();
  if (child == 0) run_helper(path, name, in, made, parent);
  Waited waited = child > 0 ? wait_for(child, wall_ms) : WAITED_BROKEN;
  if (child > 0 && waited != WAITED_READY) kill(child, SIGKILL);
  PressStatus status = status_of(waited, child > 0 && is_fine(child) && lseek(made, 0, SEEK_END) > 0);
  if (status == PRESS_FAILED) buf_printf(why, "%s did not finish its work", HELPER);
  if (status == PRESS_ENDED && waited == WAITED_INTERRUPTED) buf_puts(why, "interrupted");
  if (status == PRESS_ENDED && waited == WAITED_TOO_LONG)
    buf_printf(why, "stopped %s after %g s by the clock", HELPER, wall_ms / 1000.0);
  return status;
}

static PressStatus make(const char *name, const Buf *from, int wall_ms, Buf *out, Buf *why)
{
  char path[PATH_MAX];
  if (!find_helper(path, sizeof path)) {
    buf_printf(why, "the helper program %s is not beside this one or in ../libexec", HELPER);
    return PRESS_FAILED;
  }
  int in = memfd_create("press in", MFD_CLOEXEC), made = memfd_create("press out", MFD_CLOEXEC);
  bool ready = in >= 0 && made >= 0 && write_whole(in, from);
  PressStatus status = ready ? run(path, name, in, made, wall_ms, why) : PRESS_FAILED;
  if (status == PRESS_MADE && !read_whole(made, out)) status = PRESS_FAILED;
  if (status == PRESS_FAILED && why->length == 0) buf_puts(why, strerror(errno));
  if (in >= 0) close(in);
  if (made >= 0) close(made);
  return status;
}

PressStatus press_make(const char *name, const Buf *from, int wall_ms, Buf *out, Buf *why)
{
  Buf reason = { 0 };
  PressStatus status = make(name, from, wall_ms, out, &reason);
  if (status != PRESS_MADE) buf_printf(why, "cannot make %s: %s", name, buf_text(&reason));
  buf_free(&reason);
  return status;
}
