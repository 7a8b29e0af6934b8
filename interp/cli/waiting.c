#include "cli/waiting.h"

#include <errno.h>
#include <poll.h>
#include <stddef.h>
#include <time.h>

static const int signals[WAITING_SIGNALS] = { SIGINT, SIGTERM, SIGHUP };

static volatile sig_atomic_t arrived;

static void on_signal(int number) { arrived = number; }

void waiting_hold(HeldSignals *old)
{
  struct sigaction note = { .sa_handler = on_signal };
  sigset_t held;
  arrived = 0;
  sigemptyset(&held);
  for (int i = 0; i < WAITING_SIGNALS; i++) {
    sigaddset(&held, signals[i]);
    sigaction(signals[i], NULL, &old->actions[i]);
    if (old->actions[i].sa_handler != SIG_IGN) sigaction(signals[i], &note, NULL);
  }
  sigprocmask(SIG_BLOCK, &held, &old->mask);
}

/* One that came too late to be waited for is taken here, or it would end the program now that it has its result. */
void waiting_release(const HeldSignals *old)
{
  sigprocmask(SIG_SETMASK, &old->mask, NULL);
  for (int i = 0; i < WAITING_SIGNALS; i++) sigaction(signals[i], &old->actions[i], NULL);
}

int waiting_signal(void) { return arrived; }

void waiting_forget(void) { arrived = 0; }

int64_t waiting_clock_ms(void)
{
  struct timespec now;
  clock_gettime(CLOCK_MONOTONIC, &now);
  return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

/* A descriptor that always has something would keep ppoll from looking. */
static void take_signal(const sigset_t *none)
{
  static const struct timespec at_once = { 0, 0 };
  ppoll(NULL, 0, &at_once, none);
}

Waited waiting_for(int fd, short events, int64_t until_ms)
{
  struct pollfd watched = { .fd = fd, .events = events };
  sigset_t none;
  sigemptyset(&none);
  take_signal(&none);
  for (;;) {
    if (arrived) return WAITED_INTERRUPTED;
    int64_t left = until_ms - waiting_clock_ms();
    if (left < 0) left = 0;
    struct timespec timeout = { left / 1000, left % 1000 * 1000000 };
    int ready = ppoll(&watched, 1, &timeout, &none);
    if (ready > 0) return WAITED_READY;
    if (ready == 0) return WAITED_TOO_LONG;
    if (errno != EINTR) return WAITED_BROKEN;
  }
}
