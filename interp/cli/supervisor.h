/* supervisor.h - runs a command in a worker process and answers for what it does to the world.
 *
 * Only the supervisor reads and writes files. It gives the worker the texts it may have, holds back everything the
 * worker prints and writes, and lets it out only when the worker reports that it has finished. A worker that dies,
 * outlives the wall-clock limit or breaks the protocol leaves nothing behind but one line. */
#ifndef CLI_SUPERVISOR_H
#define CLI_SUPERVISOR_H

#include "cli/worker.h"

/* Exit statuses of the program. An interrupt counts as a budget that ran out: the user's patience. */
enum {
  STATUS_FINE = 0,
  STATUS_FINDINGS = 1,
  STATUS_USAGE = 2,
  STATUS_FILES = 3,
  STATUS_BUDGET = 4,
  STATUS_FAULT = 70
};

typedef struct {
  const char *root;          /* folder that modules are read below; NULL: the current one */
  const char *const *files;  /* the files the command may read, as the user named them */
  size_t file_count;
  const char *stdlib_folder; /* overrides the built-in standard library; NULL: none */
  const char *out_folder;    /* NULL: the command may write no files */
  bool may_replace;          /* the command may replace the files and modules that it reads */
  int wall_ms;               /* 0: 60,000 */
  size_t memory_bytes;       /* address space of the worker; 0: 1 GiB */
  int threads;               /* that the command may run; 0: 1 */
  bool in_process;           /* no worker: for debuggers and sanitizers */
  bool show_progress;        /* standard error is a terminal */
  int out_fd, err_fd;        /* 0: standard output, standard error */
} SuperviseOptions;

/* Returns the exit status: the command's own if it finished, else STATUS_FILES, STATUS_BUDGET or STATUS_FAULT. */
int supervise(const SuperviseOptions *options, WorkerMain command, void *context);

#endif
