#include "cli/worker_filter.h"

#include <errno.h>
#include <linux/audit.h>
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <sched.h>
#include <stddef.h>
#include <stdint.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <unistd.h>

#if defined(__x86_64__)
#define MACHINE AUDIT_ARCH_X86_64
#elif defined(__aarch64__)
#define MACHINE AUDIT_ARCH_AARCH64
#endif

#ifdef MACHINE

static const int always[] = {
  /* memory */ SYS_brk, SYS_mmap, SYS_munmap, SYS_mremap, SYS_mprotect, SYS_madvise,
  /* the socket and /dev/null */ SYS_read, SYS_write, SYS_writev, SYS_sendto, SYS_recvfrom, SYS_close, SYS_fstat,
  SYS_newfstatat, SYS_lseek,
  /* time, locks, endings */ SYS_clock_gettime, SYS_futex, SYS_sched_yield, SYS_getpid, SYS_gettid,
  SYS_rt_sigaction, SYS_rt_sigprocmask, SYS_rt_sigreturn, SYS_restart_syscall, SYS_exit, SYS_exit_group
};
enum { ALWAYS = sizeof always / sizeof *always };

static const int for_threads[] = { SYS_set_robust_list, SYS_rseq, SYS_sched_getaffinity, SYS_prlimit64 };
enum { FOR_THREADS = sizeof for_threads / sizeof *for_threads };

typedef struct {
  struct sock_filter rows[2 * (ALWAYS + FOR_THREADS) + 24];
  unsigned short count;
} Filter;

static void add(Filter *filter, uint16_t code, uint32_t value, uint8_t if_true, uint8_t if_false)
{
  filter->rows[filter->count++] = (struct sock_filter){ code, if_true, if_false, value };
}

static void add_load(Filter *filter, size_t offset)
{
  add(filter, BPF_LD | BPF_W | BPF_ABS, (uint32_t)offset, 0, 0);
}

static void add_verdict(Filter *filter, uint32_t verdict) { add(filter, BPF_RET | BPF_K, verdict, 0, 0); }

static void refuse(Filter *filter, int error) { add_verdict(filter, SECCOMP_RET_ERRNO | (uint32_t)error); }

static void allow_calls(Filter *filter, const int *calls, int count)
{
  for (int i = 0; i < count; i++) {
    add(filter, BPF_JMP | BPF_JEQ | BPF_K, (uint32_t)calls[i], 0, 1);
    add_verdict(filter, SECCOMP_RET_ALLOW);
  }
}

/* Allows a call if the lower half of its first argument passes the test `code` against `value`. */
static void allow_if_first(Filter *filter, int call, uint16_t code, uint32_t value)
{
  add(filter, BPF_JMP | BPF_JEQ | BPF_K, (uint32_t)call, 0, 4);
  add_load(filter, offsetof(struct seccomp_data, args[0]));
  add(filter, BPF_JMP | code | BPF_K, value, 0, 1);
  add_verdict(filter, SECCOMP_RET_ALLOW);
  refuse(filter, EPERM);
}

/* The C library takes ENOSYS for an old kernel and uses clone, whose flags can be seen. */
static void allow_threads(Filter *filter)
{
  allow_calls(filter, for_threads, FOR_THREADS);
  add(filter, BPF_JMP | BPF_JEQ | BPF_K, SYS_clone3, 0, 1);
  refuse(filter, ENOSYS);
  allow_if_first(filter, SYS_clone, BPF_JSET, CLONE_THREAD);
}

void worker_filter(bool threads)
{
  Filter filter = { .count = 0 };
  add_load(&filter, offsetof(struct seccomp_data, arch));
  add(&filter, BPF_JMP | BPF_JEQ | BPF_K, MACHINE, 1, 0);
  refuse(&filter, EPERM);
  add_load(&filter, offsetof(struct seccomp_data, nr));
  allow_calls(&filter, always, ALWAYS);
  if (threads) allow_threads(&filter);
  allow_if_first(&filter, SYS_tgkill, BPF_JEQ, (uint32_t)getpid()); /* abort() and raise() signal themselves */
  refuse(&filter, EPERM);
  struct sock_fprog program = { filter.count, filter.rows };
  prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program);
}

#else

void worker_filter(bool threads) { (void)threads; }

#endif
