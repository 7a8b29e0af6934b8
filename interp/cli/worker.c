#include "cli/worker.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <unistd.h>

#include "cli/frames.h"
#include "cli/worker_filter.h"

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

static void send_frame(FrameKind kind, const char *first, size_t first_length, const char *bytes, size_t length)
{
  FrameHead head = { (uint32_t)kind, (uint32_t)(first_length + length) };
  send_all((const char *)&head, sizeof head);
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

/* A sanitizer reserves more address space than any limit of ours allows, and calls the system as it likes. */
#if defined(__SANITIZE_ADDRESS__)
enum { SANITIZED = 1 };
#else
enum { SANITIZED = 0 };
#endif

/* Everything the process gives up before it sees a byte of a script. */
static void worker_confine(WorkerLimits limits)
{
  if (!SANITIZED) limit(RLIMIT_AS, limits.memory_bytes);
  limit(RLIMIT_CPU, (size_t)limits.cpu_s);
  limit(RLIMIT_FSIZE, 0);
  limit(RLIMIT_CORE, 0);
  limit(RLIMIT_NOFILE, SOCKET + 1);
  if (limits.threads <= 1) limit(RLIMIT_NPROC, 0);
  prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0);
  prctl(PR_SET_DUMPABLE, 0, 0, 0, 0);
  if (!SANITIZED) worker_filter(limits.threads > 1);
}

_Noreturn void worker_run(int socket, WorkerLimits limits, WorkerMain command, void *context)
{
  static const PortCalls calls = { ask, tell };
  Port port = { &calls, NULL };
  keep_only(socket);
  listen_for_interrupts();
  worker_confine(limits);
  char status = (char)command(&port, context);
  send_frame(FRAME_FINISHED, NULL, 0, &status, 1);
  _exit(0);
}
