#include "cli/worker.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/built.h"
#include "base/call_filter.h"
#include "base/landlock.h"
#include "cli/frames.h"

enum { SOCKET = 3, FAULT = 70 };

/* ---- the port of a worker: without a supervisor there is nothing left to do but leave */

static void send_all(const char *bytes, size_t length)
{
  while (length > 0) {
    ssize_t sent = send(SOCKET, bytes, length, MSG_NOSIGNAL);
    if (sent < 0 && errno == EINTR) continue;
    if (sent <= 0) _exit(FAULT);
    bytes += sent;
    length -= (size_t)sent;
  }
}

static void receive_all(char *bytes, size_t length)
{
  while (length > 0) {
    ssize_t got = recv(SOCKET, bytes, length, MSG_WAITALL);
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) _exit(FAULT);
    bytes += got;
    length -= (size_t)got;
  }
}

/* A small frame goes out as one, so that the supervisor wakes up once for it. */
static void send_frame(FrameKind kind, const char *first, size_t first_length, const char *bytes, size_t length)
{
  enum { SMALL = 4096 };
  FrameHead head = { (uint32_t)kind, (uint32_t)(first_length + length) };
  char front[SMALL];
  size_t used = sizeof head;
  memcpy(front, &head, sizeof head);
  if (first_length > 0 && first_length <= SMALL - used) {
    memcpy(front + used, first, first_length);
    used += first_length;
    first_length = 0;
  }
  if (first_length == 0 && length > 0 && length <= SMALL - used) {
    memcpy(front + used, bytes, length);
    used += length;
    length = 0;
  }
  send_all(front, used);
  send_all(first, first_length);
  send_all(bytes, length);
}

static void receive_into(Buf *out, size_t length)
{
  char chunk[16384];
  while (length > 0) {
    size_t part = length < sizeof chunk ? length : sizeof chunk;
    receive_all(chunk, part);
    if (out) buf_add(out, chunk, part);
    length -= part;
  }
}

/* A first interrupt asks a command that reports its progress to end with what it has. */
static volatile sig_atomic_t hurried;

static void on_interrupt(int signal_number)
{
  (void)signal_number;
  hurried = 1;
}

static void listen_for_interrupts(void)
{
  struct sigaction old, note = { .sa_handler = on_interrupt, .sa_flags = SA_RESTART };
  sigset_t interrupt;
  sigemptyset(&interrupt);
  sigaddset(&interrupt, SIGINT);
  sigaction(SIGINT, NULL, &old);
  if (old.sa_handler != SIG_IGN) sigaction(SIGINT, &note, NULL);
  sigprocmask(SIG_UNBLOCK, &interrupt, NULL);
}

static bool ask(void *context, PortFrom from, const char *name, Buf *text, Buf *shown, Buf *why)
{
  (void)context;
  char from_byte = (char)from, is_read;
  uint32_t shown_length;
  FrameHead head;
  send_frame(FRAME_READ, &from_byte, 1, name, strlen(name));
  receive_all((char *)&head, sizeof head);
  receive_all(&is_read, 1);
  receive_all((char *)&shown_length, sizeof shown_length);
  receive_into(is_read ? shown : why, shown_length);
  receive_into(text, head.length - 1 - sizeof shown_length - shown_length);
  return is_read;
}

static bool tell(void *context, PortWhat what, const char *name, const char *bytes, size_t length)
{
  static const FrameKind kinds[] = { [PORT_PRINT] = FRAME_PRINT, [PORT_COMPLAIN] = FRAME_COMPLAIN,
                                     [PORT_WRITE] = FRAME_WRITE, [PORT_PRESS] = FRAME_PRESS,
                                     [PORT_PROGRESS] = FRAME_PROGRESS, [PORT_REPLACE] = FRAME_REPLACE };
  (void)context;
  if (length > PORT_WRITE_LARGEST) return false;
  send_frame(kinds[what], name, name ? strlen(name) + 1 : 0, bytes, length);
  return what != PORT_PROGRESS || !hurried;
}

/* ---- confinement */

static void keep_only(int socket)
{
  int null = open("/dev/null", O_RDWR);
  for (int fd = 0; fd <= 2; fd++)
    if (dup2(null, fd) < 0) _exit(FAULT);
  if (socket != SOCKET && dup2(socket, SOCKET) < 0) _exit(FAULT);
  close_range(SOCKET + 1, ~0U, 0);
}

static void limit(int resource, size_t amount)
{
  struct rlimit both = { amount, amount };
  if (setrlimit(resource, &both) != 0) _exit(FAULT);
}

static void limit_all(const WorkerLimits *limits, bool memory)
{
  if (memory) limit(RLIMIT_AS, limits->memory_bytes);
  limit(RLIMIT_CPU, (size_t)limits->cpu_s);
  limit(RLIMIT_FSIZE, 0);
  limit(RLIMIT_CORE, 0);
  limit(RLIMIT_NOFILE, SOCKET + 1);
  if (limits->threads <= 1) limit(RLIMIT_NPROC, 0);
  prctl(PR_SET_DUMPABLE, 0, 0, 0, 0);
}

static bool filter_calls(bool threads)
{
  CallFilter filter;
  call_filter_begin(&filter);
  if (threads) call_filter_allow_threads(&filter);
  return call_filter_set(&filter);
}

/* What the kernel took, and for what it did not, why (errno). */
typedef struct {
  int landlock, landlock_error;
  bool filter;
  int filter_error;
} Confined;

/* Everything the process gives up before it sees a byte of a script. What the kernel does not have is done without:
 * each of the layers holds alone. */
static Confined worker_confine(const WorkerLimits *limits)
{
  Confined c = { .landlock_error = ENOTSUP, .filter_error = ENOTSUP };
  prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0);
  if (!BUILT_SANITIZED && (c.landlock = landlock_confine((LandlockKept){ 0 })) == 0) c.landlock_error = errno;
  limit_all(limits, !BUILT_SANITIZED);
  if (!BUILT_SANITIZED && !(c.filter = filter_calls(limits->threads > 1))) c.filter_error = errno;
  return c;
}

_Noreturn void worker_run(int socket, WorkerLimits limits, WorkerMain command, void *context)
{
  static const PortCalls calls = { ask, tell };
  Port port = { &calls, NULL };
  keep_only(socket);
  listen_for_interrupts();
  worker_confine(&limits);
  char status = (char)command(&port, context);
  send_frame(FRAME_FINISHED, NULL, 0, &status, 1);
  _exit(0);
}

/* ---- what holds here: a worker that does nothing but say so */

static void put_confined(const Confined *c, Buf *out)
{
  buf_puts(out, "limits        memory, processor time, no files, no processes, no new privileges\n");
  if (c->filter) buf_puts(out, "system calls  a list of those that reckoning needs (seccomp)\n");
  else buf_printf(out, "system calls  any: no filter for this kernel and processor (%s)\n",
                  strerror(c->filter_error));
  if (c->landlock) buf_printf(out, "files         none, by the kernel's Landlock (version %d)\n", c->landlock);
  else buf_printf(out, "files         only by the limits: no Landlock (%s)\n", strerror(c->landlock_error));
}

static _Noreturn void say_confined(int socket, WorkerLimits limits)
{
  Buf text = { 0 };
  keep_only(socket);
  Confined confined = worker_confine(&limits);
  put_confined(&confined, &text);
  send_all(buf_text(&text), text.length);
  _exit(0);
}

bool worker_describe(WorkerLimits limits, Buf *out)
{
  int sockets[2];
  char chunk[256];
  ssize_t got = 0;
  if (socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, sockets) != 0) return false;
  size_t before = out->length;
  pid_t child = fork();
  if (child == 0) say_confined(sockets[1], limits);
  close(sockets[1]);
  while (child > 0 && (got = recv(sockets[0], chunk, sizeof chunk, 0)) > 0) buf_add(out, chunk, (size_t)got);
  close(sockets[0]);
  if (child > 0) waitpid(child, NULL, 0);
  return out->length > before;
}
