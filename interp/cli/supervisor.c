#include "cli/supervisor.h"

#include <errno.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/text.h"
#include "cli/delivery.h"
#include "cli/frames.h"
#include "cli/replacing.h"
#include "cli/supply.h"
#include "cli/waiting.h"

static const SuperviseOptions defaults = { .root = ".",
                                           .wall_ms = 60000,
                                           .memory_bytes = (size_t)1 << 30,
                                           .threads = 1,
                                           .out_fd = STDOUT_FILENO,
                                           .err_fd = STDERR_FILENO };

/* Why the supervisor stopped listening. */
typedef enum { GOING_ON, FINISHED, WORKER_GONE, OUT_OF_TIME, INTERRUPTED, TOO_MUCH, BROKEN } End;

typedef struct {
  SuperviseOptions options;
  Delivery *delivery;
  Replacing *replacing;
  Supply supply;
  int socket;
  pid_t worker;
  int64_t started_ms;
  bool progress_shown;
  bool reports_progress, hurried; /* can end early; was asked to */
  Buf inbox;
  End end;
  int status; /* when FINISHED */
} Supervisor;

/* ---- taking from the worker */

static void show_progress(Supervisor *s, const char *text, size_t length)
{
  enum { AFTER_MS = 500 };
  if (!s->options.show_progress || waiting_clock_ms() - s->started_ms < AFTER_MS) return;
  Buf line = { 0 };
  buf_putc(&line, '\r');
  text_escape(&line, text, length);
  buf_puts(&line, "\033[K");
  if (write(s->options.err_fd, line.text, line.length) > 0) s->progress_shown = true;
  buf_free(&line);
}

static void clear_progress(Supervisor *s)
{
  static const char clear[] = "\r\033[K";
  if (s->progress_shown && write(s->options.err_fd, clear, sizeof clear - 1) > 0) s->progress_shown = false;
}

static bool take(void *context, PortWhat what, const char *name, const char *bytes, size_t length)
{
  Supervisor *s = context;
  if (what == PORT_PROGRESS) {
    s->reports_progress = true;
    show_progress(s, bytes, length);
    return true;
  }
  if ((what == PORT_WRITE || what == PORT_PRESS) && !s->options.out_folder) return false;
  if (what == PORT_REPLACE) return s->options.may_replace && replacing_add(s->replacing, name, bytes, length);
  return delivery_add(s->delivery, what, name, bytes, length);
}

/* ---- the conversation */

/* The first Ctrl-C asks a worker that reports its progress for the best it has; the next one ends it. */
static End on_interrupted(Supervisor *s)
{
  if (waiting_signal() != SIGINT || !s->reports_progress || s->hurried) return INTERRUPTED;
  waiting_forget();
  s->hurried = true;
  kill(s->worker, SIGINT);
  return GOING_ON;
}

static End wait_for(Supervisor *s, short events)
{
  switch (waiting_for(s->socket, events, s->started_ms + s->options.wall_ms)) {
  case WAITED_READY: return GOING_ON;
  case WAITED_TOO_LONG: return OUT_OF_TIME;
  case WAITED_INTERRUPTED: return on_interrupted(s);
  case WAITED_BROKEN: break;
  }
  return BROKEN;
}

static End answer(Supervisor *s, const Buf *frame)
{
  size_t sent = 0;
  while (sent < frame->length) {
    ssize_t part = send(s->socket, frame->text + sent, frame->length - sent, MSG_NOSIGNAL | MSG_DONTWAIT);
    if (part > 0) sent += (size_t)part;
    else if (errno == EAGAIN) {
      End end = wait_for(s, POLLOUT);
      if (end != GOING_ON) return end;
    } else if (errno != EINTR) return WORKER_GONE;
  }
  return GOING_ON;
}

static End on_read(Supervisor *s, const char *bytes, size_t length)
{
  if (length < 1) return BROKEN;
  Buf name = { 0 }, text = { 0 }, shown = { 0 }, why = { 0 }, content = { 0 }, frame = { 0 };
  buf_add(&name, bytes + 1, length - 1);
  bool fine = strlen(buf_text(&name)) == length - 1 &&
              supply_read(&s->supply, (PortFrom)bytes[0], buf_text(&name), &text, &shown, &why);
  const Buf *second = fine ? &shown : &why;
  uint32_t second_length = (uint32_t)second->length;
  buf_putc(&content, fine);
  buf_add(&content, (const char *)&second_length, sizeof second_length);
  buf_add(&content, buf_text(second), second->length);
  if (fine) buf_add(&content, buf_text(&text), text.length);
  frame_add(&frame, FRAME_TEXT, content.text, content.length);
  End end = answer(s, &frame);
  Buf *all[] = { &name, &text, &shown, &why, &content, &frame };
  for (size_t i = 0; i < sizeof all / sizeof *all; i++) buf_free(all[i]);
  return end;
}

static End on_write(Supervisor *s, PortWhat what, const char *bytes, size_t length)
{
  const char *nul = memchr(bytes, '\0', length);
  if (!nul || !s->options.out_folder) return BROKEN;
  return take(s, what, bytes, nul + 1, length - (size_t)(nul + 1 - bytes)) ? GOING_ON : TOO_MUCH;
}

/* What was never read, or may not be changed, cannot be asked for by a sound worker. */
static End on_replace(Supervisor *s, const char *bytes, size_t length)
{
  const char *nul = memchr(bytes, '\0', length);
  if (!nul) return BROKEN;
  return take(s, PORT_REPLACE, bytes, nul + 1, length - (size_t)(nul + 1 - bytes)) ? GOING_ON : BROKEN;
}

static End on_finished(Supervisor *s, const char *bytes, size_t length)
{
  static const char allowed[] = { STATUS_FINE, STATUS_FINDINGS, STATUS_USAGE, STATUS_FILES, STATUS_BUDGET,
                                  STATUS_FAULT };
  if (length != 1 || !memchr(allowed, bytes[0], sizeof allowed)) return BROKEN;
  s->status = bytes[0];
  return FINISHED;
}

static End on_frame(Supervisor *s, FrameHead head, const char *bytes)
{
  switch ((FrameKind)head.kind) {
  case FRAME_READ: return on_read(s, bytes, head.length);
  case FRAME_PRINT: return take(s, PORT_PRINT, NULL, bytes, head.length) ? GOING_ON : TOO_MUCH;
  case FRAME_COMPLAIN: return take(s, PORT_COMPLAIN, NULL, bytes, head.length) ? GOING_ON : TOO_MUCH;
  case FRAME_PROGRESS: return take(s, PORT_PROGRESS, NULL, bytes, head.length) ? GOING_ON : TOO_MUCH;
  case FRAME_WRITE: return on_write(s, PORT_WRITE, bytes, head.length);
  case FRAME_PRESS: return on_write(s, PORT_PRESS, bytes, head.length);
  case FRAME_REPLACE: return on_replace(s, bytes, head.length);
  case FRAME_FINISHED: return on_finished(s, bytes, head.length);
  case FRAME_TEXT: break;
  }
  return BROKEN;
}

/* Handles the whole frames that have arrived and keeps the rest. */
static End on_bytes(Supervisor *s)
{
  size_t done = 0;
  End end = GOING_ON;
  while (end == GOING_ON) {
    FrameHead head;
    const char *content;
    FrameStatus status = frame_take(buf_text(&s->inbox) + done, s->inbox.length - done, &head, &content);
    if (status == FRAME_PART) break;
    end = status == FRAME_BAD ? BROKEN : on_frame(s, head, content);
    done += sizeof head + head.length;
  }
  if (end == GOING_ON && done > 0) {
    memmove(s->inbox.text, s->inbox.text + done, s->inbox.length - done);
    s->inbox.length -= done;
  }
  return end;
}

static End listen_once(Supervisor *s)
{
  char chunk[65536];
  End end = wait_for(s, POLLIN);
  if (end != GOING_ON) return end;
  ssize_t got = recv(s->socket, chunk, sizeof chunk, MSG_DONTWAIT);
  if (got < 0) return errno == EAGAIN || errno == EINTR ? GOING_ON : WORKER_GONE;
  if (got == 0) return WORKER_GONE;
  buf_add(&s->inbox, chunk, (size_t)got);
  return on_bytes(s);
}

/* ---- the verdict */

static void complain(const Supervisor *s, const char *what)
{
  dprintf(s->options.err_fd, "gritwork: %s\n", what);
}

/* A worker that went away without reporting: by a limit, or by a fault of ours? */
static int judge_death(const Supervisor *s, int wait_status)
{
  char line[100];
  int signal_number = WIFSIGNALED(wait_status) ? WTERMSIG(wait_status) : 0;
  if (signal_number == SIGXCPU) {
    complain(s, "stopped: the run used more processor time than it may have");
    return STATUS_BUDGET;
  }
  if (signal_number == SIGKILL || (!signal_number && WEXITSTATUS(wait_status) == STATUS_BUDGET)) {
    complain(s, "stopped: there was not enough memory");
    return STATUS_BUDGET;
  }
  snprintf(line, sizeof line, "a fault of the program itself (%s %d); please report it",
           signal_number ? "signal" : "status", signal_number ? signal_number : WEXITSTATUS(wait_status));
  complain(s, line);
  return STATUS_FAULT;
}

/* STATUS_FINE if everything is where it should be. */
static int write_all_files(const Supervisor *s, Buf *why)
{
  const char *folder = s->options.out_folder;
  PressStatus pressed = folder ? delivery_press(s->delivery, s->options.wall_ms, why) : PRESS_MADE;
  if (pressed != PRESS_MADE) return pressed == PRESS_ENDED ? STATUS_BUDGET : STATUS_FILES;
  bool written = !folder || delivery_write(s->delivery, folder, why);
  return written && replacing_write(s->replacing, why) ? STATUS_FINE : STATUS_FILES;
}

static int write_files(const Supervisor *s)
{
  Buf why = { 0 };
  int status = write_all_files(s, &why);
  if (status != STATUS_FINE) {
    complain(s, buf_text(&why));
    delivery_unsay(s->delivery); /* it tells of files that are not there */
  }
  buf_free(&why);
  return status == STATUS_FINE ? s->status : status;
}

/* The status, or STATUS_FILES if the output could not be written. */
static int print(const Supervisor *s, int status)
{
  Buf line = { 0 };
  if (delivery_print(s->delivery, s->options.out_fd, s->options.err_fd)) return status;
  buf_printf(&line, "cannot write the output: %s", strerror(errno));
  complain(s, buf_text(&line));
  buf_free(&line);
  return STATUS_FILES;
}

static int judge(const Supervisor *s, int wait_status)
{
  char line[160];
  switch (s->end) {
  case FINISHED: return write_files(s);
  case WORKER_GONE: return judge_death(s, wait_status);
  case OUT_OF_TIME:
    snprintf(line, sizeof line,
             "stopped after %g s by the clock, which is only a backstop: "
             "steps and memory have budgets of their own", s->options.wall_ms / 1000.0);
    complain(s, line);
    return STATUS_BUDGET;
  case INTERRUPTED: complain(s, "interrupted"); return STATUS_BUDGET;
  case TOO_MUCH:
    complain(s, "stopped: the output is larger than 64 MiB, or in more than 64 files");
    return STATUS_BUDGET;
  case GOING_ON:
  case BROKEN: break;
  }
  complain(s, "a fault of the program itself (its parts disagree); please report it");
  return STATUS_FAULT;
}

/* ---- processes */

/* The child dies with its parent, also with one that went away before it could say so. */
static void follow_parent(pid_t parent)
{
  prctl(PR_SET_PDEATHSIG, SIGKILL, 0, 0, 0);
  if (getppid() != parent) _exit(STATUS_FAULT);
}

static bool start_worker(Supervisor *s, WorkerMain command, void *context)
{
  int sockets[2];
  pid_t parent = getpid();
  const SuperviseOptions *o = &s->options;
  if (socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, sockets) != 0) return false;
  fflush(NULL);
  s->worker = fork();
  if (s->worker == 0) {
    follow_parent(parent);
    int cpu_s = o->wall_ms / 1000 * o->threads + 1;
    worker_run(sockets[1], (WorkerLimits){ o->memory_bytes, cpu_s, o->threads }, command, context);
  }
  close(sockets[1]);
  s->socket = sockets[0];
  if (s->worker < 0) close(s->socket);
  return s->worker > 0;
}

/* A worker that is ending of itself keeps its own status. */
static int end_worker(const Supervisor *s)
{
  int wait_status = 0;
  kill(s->worker, SIGKILL);
  while (waitpid(s->worker, &wait_status, 0) < 0 && errno == EINTR) continue;
  close(s->socket);
  return wait_status;
}

static int supervise_worker(Supervisor *s, WorkerMain command, void *context)
{
  HeldSignals old;
  waiting_hold(&old);
  int status = STATUS_FAULT;
  if (start_worker(s, command, context)) {
    while (s->end == GOING_ON) s->end = listen_once(s);
    int wait_status = end_worker(s);
    clear_progress(s);
    status = judge(s, wait_status);
  } else complain(s, "cannot start the worker process");
  waiting_release(&old);
  return s->end == FINISHED ? print(s, status) : status; /* may wait for a reader, and can be interrupted */
}

static bool read_for_command(void *context, PortFrom from, const char *name, Buf *text, Buf *shown, Buf *why)
{
  Supervisor *s = context;
  return supply_read(&s->supply, from, name, text, shown, why);
}

static int supervise_here(Supervisor *s, WorkerMain command, void *context)
{
  static const PortCalls calls = { read_for_command, take };
  Port port = { &calls, s };
  s->status = command(&port, context);
  clear_progress(s);
  return print(s, write_files(s));
}

static SuperviseOptions with_defaults(const SuperviseOptions *given)
{
  SuperviseOptions o = *given;
  if (!o.root) o.root = defaults.root;
  if (!o.wall_ms) o.wall_ms = defaults.wall_ms;
  if (!o.memory_bytes) o.memory_bytes = defaults.memory_bytes;
  if (!o.threads) o.threads = defaults.threads;
  if (!o.out_fd) o.out_fd = defaults.out_fd;
  if (!o.err_fd) o.err_fd = defaults.err_fd;
  return o;
}

int supervise(const SuperviseOptions *options, WorkerMain command, void *context)
{
  Supervisor s = { .options = with_defaults(options), .delivery = delivery_new(),
                   .replacing = replacing_new(), .started_ms = waiting_clock_ms() };
  struct sigaction ignore = { .sa_handler = SIG_IGN }, old_pipe, old_size;
  supply_begin(&s.supply, &s.options, s.replacing);
  sigaction(SIGPIPE, &ignore, &old_pipe); /* a reader that goes away ends the output quietly */
  sigaction(SIGXFSZ, &ignore, &old_size); /* a file past its limit is a write that fails */
  int status = s.options.in_process ? supervise_here(&s, command, context) : supervise_worker(&s, command, context);
  sigaction(SIGPIPE, &old_pipe, NULL);
  sigaction(SIGXFSZ, &old_size, NULL);
  delivery_free(s.delivery);
  replacing_free(s.replacing);
  buf_free(&s.inbox);
  supply_end(&s.supply);
  return status;
}
