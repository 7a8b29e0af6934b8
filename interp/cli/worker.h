/* worker.h - the process that evaluates: it holds one socket, and limits that it cannot lift. */
#ifndef CLI_WORKER_H
#define CLI_WORKER_H

#include "base/port.h"

typedef struct {
  size_t memory_bytes; /* address space */
  int cpu_s;           /* processor time */
  int threads;         /* 1: none may be started */
} WorkerLimits;

/* A command: what it returns becomes the exit status. */
typedef int (*WorkerMain)(Port *port, void *context);

/* In the forked child: keeps nothing but the socket, runs the command, reports that it finished, and leaves. */
_Noreturn void worker_run(int socket, WorkerLimits limits, WorkerMain command, void *context);

/* Appends lines that say what keeps a worker with these limits from the world, on this machine: found out by one
 * that is started, confined, and does nothing else. False if none could be started. */
bool worker_describe(WorkerLimits limits, Buf *out);

#endif
