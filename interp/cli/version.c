#include "cli/version.h"

#include "cli/worker.h"

static const char VERSION[] = "0.1";

void version_print(Buf *out)
{
  static const WorkerLimits limits = { .memory_bytes = (size_t)1 << 30, .cpu_s = 1, .threads = 1 };
  buf_printf(out, "gritwork %s\n\nA script runs in a process of its own, which here has\n", VERSION);
  if (!worker_describe(limits, out)) buf_puts(out, "not been to start: no process could be made\n");
}
