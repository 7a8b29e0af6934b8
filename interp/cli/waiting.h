/* waiting.h - the supervisor waits: for a descriptor, until a time, or until somebody wants the run to end. */
#ifndef CLI_WAITING_H
#define CLI_WAITING_H

#include <signal.h>
#include <stdint.h>

enum { WAITING_SIGNALS = 3 };

/* What was in force before waiting_hold. */
typedef struct {
  struct sigaction actions[WAITING_SIGNALS];
  sigset_t mask;
} HeldSignals;

/* From here on SIGINT, SIGTERM and SIGHUP only arrive in waiting_for. One that was ignored (nohup) stays
 * ignored. */
void waiting_hold(HeldSignals *old);
/* As before. A signal that was held back until now has no more effect. */
void waiting_release(const HeldSignals *old);

/* The signal that ended a wait; 0: none since waiting_hold or the last waiting_forget. */
int waiting_signal(void);
void waiting_forget(void);

typedef enum { WAITED_READY, WAITED_TOO_LONG, WAITED_INTERRUPTED, WAITED_BROKEN } Waited;

int64_t waiting_clock_ms(void); /* of a clock that nobody sets */

/* Waits for the descriptor's events (poll) until that time of the clock. A signal that came before counts. */
Waited waiting_for(int fd, short events, int64_t until_ms);

#endif
