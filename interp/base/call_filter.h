/* call_filter.h - the system calls that are left to a process: a list, for good. Plain seccomp, on x86-64 and
 * arm64.
 *
 *   CallFilter filter;
 *   call_filter_begin(&filter);
 *   call_filter_allow(&filter, calls, count);
 *   call_filter_set(&filter);   from here on every other call fails with EPERM */
#ifndef BASE_CALL_FILTER_H
#define BASE_CALL_FILTER_H

#include <linux/filter.h>
#include <stdbool.h>
#include <stdint.h>

enum { CALL_FILTER_ROWS = 256 };

typedef struct {
  struct sock_filter rows[CALL_FILTER_ROWS];
  unsigned short count;
} CallFilter;

/* Memory, the descriptors that are open, time and endings. */
void call_filter_begin(CallFilter *filter);

void call_filter_allow(CallFilter *filter, const int *calls, int count);

/* Allows a call whose argument (0 to 5) passes the test: TEST_EQUAL to the value, TEST_ANY or TEST_NONE of its
 * bits. Only the lower 32 bits are looked at. */
typedef enum { TEST_EQUAL, TEST_ANY, TEST_NONE } CallTest;
void call_filter_allow_if(CallFilter *filter, int call, int argument, CallTest test, uint32_t value);

/* Threads of this process, but no other process. */
void call_filter_allow_threads(CallFilter *filter);

/* No-new-privileges must be set. False, and errno, where the kernel or the processor has no such filter; nothing
 * has changed then. */
bool call_filter_set(CallFilter *filter);

#endif
