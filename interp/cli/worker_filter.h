/* worker_filter.h - the system calls that are left to a worker. */
#ifndef CLI_WORKER_FILTER_H
#define CLI_WORKER_FILTER_H

#include <stdbool.h>

/* From here on the process can use memory, the descriptors it has, and, when `threads`, threads. Every other call
 * fails with EPERM. Where the kernel or the machine has no such filter nothing changes: the limits still hold. */
void worker_filter(bool threads);

#endif
