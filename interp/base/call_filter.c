#include "base/call_filter.h"

#include <assert.h>
#include <errno.h>
#include <linux/audit.h>
#include <linux/seccomp.h>
#include <sched.h>
#include <stddef.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <unistd.h>

#if defined(__x86_64__)
enum { MACHINE_IS_KNOWN = 1 };
#define MACHINE AUDIT_ARCH_X86_64
#elif defined(__aarch64__)
enum { MACHINE_IS_KNOWN = 1 };
#define MACHINE AUDIT_ARCH_AARCH64
#else
enum { MACHINE_IS_KNOWN = 0 };
#define MACHINE 0
#endif

static const int reckoning[] = {
  /* memory */ SYS_brk, SYS_mmap, SYS_munmap, SYS_mremap, SYS_mprotect, SYS_madvise,
  /* what is open */ SYS_read, SYS_write, SYS_writev, SYS_sendto, SYS_recvfrom, SYS_close, SYS_fstat, SYS_lseek,
  /* time, locks, endings */ SYS_clock_gettime, SYS_futex, SYS_sched_yield, SYS_getpid, SYS_gettid,
  SYS_rt_sigaction, SYS_rt_sigprocmask, SYS_rt_sigreturn, SYS_restart_syscall, SYS_exit, SYS_exit_group
};

static const int for_threads[] = { SYS_set_robust_list, SYS_rseq, SYS_sched_getaffinity, SYS_prlimit64 };

static void add(CallFilter *filter, uint16_t code, uint32_t value, uint8_t if_true, uint8_t if_false)
{
  assert(filter->count < CALL_FILTER_ROWS);
  filter->rows[filter->count++] = (struct sock_filter){ code, if_true, if_false, value };
}

static void add_load(CallFilter *filter, size_t offset)
{
  add(filter, BPF_LD | BPF_W | BPF_ABS, (uint32_t)offset, 0, 0);
}

static void add_verdict(CallFilter *filter, uint32_t verdict) { add(filter, BPF_RET | BPF_K, verdict, 0, 0); }

static void refuse(CallFilter *filter, int error) { add_verdict(filter, SECCOMP_RET_ERRNO | (uint32_t)error); }

void call_filter_allow(CallFilter *filter, const int *calls, int count)
{
  for (int i = 0; i < count; i++) {
    add(filter, BPF_JMP | BPF_JEQ | BPF_K, (uint32_t)calls[i], 0, 1);
    add_verdict(filter, SECCOMP_RET_ALLOW);
  }
}

void call_filter_allow_if(CallFilter *filter, int call, int argument, CallTest test, uint32_t value)
{
  bool is_equal = test == TEST_EQUAL, wants_true = test != TEST_NONE;
  add(filter, BPF_JMP | BPF_JEQ | BPF_K, (uint32_t)call, 0, 4);
  add_load(filter, offsetof(struct seccomp_data, args) + (size_t)argument * sizeof(uint64_t));
  add(filter, BPF_JMP | (is_equal ? BPF_JEQ : BPF_JSET) | BPF_K, value, !wants_true, wants_true);
  add_verdict(filter, SECCOMP_RET_ALLOW);
  refuse(filter, EPERM);
}

/* The C library takes ENOSYS for an old kernel and uses clone, whose flags can be seen. */
void call_filter_allow_threads(CallFilter *filter)
{
  call_filter_allow(filter, for_threads, sizeof for_threads / sizeof *for_threads);
  add(filter, BPF_JMP | BPF_JEQ | BPF_K, SYS_clone3, 0, 1);
  refuse(filter, ENOSYS);
  call_filter_allow_if(filter, SYS_clone, 0, TEST_ANY, CLONE_THREAD);
}

void call_filter_begin(CallFilter *filter)
{
  filter->count = 0;
  add_load(filter, offsetof(struct seccomp_data, arch));
  add(filter, BPF_JMP | BPF_JEQ | BPF_K, MACHINE, 1, 0);
  refuse(filter, EPERM);
  add_load(filter, offsetof(struct seccomp_data, nr));
  call_filter_allow(filter, reckoning, sizeof reckoning / sizeof *reckoning);
  /* abort() and raise() signal themselves */
  call_filter_allow_if(filter, SYS_tgkill, 0, TEST_EQUAL, (uint32_t)getpid());
}

bool call_filter_set(CallFilter *filter)
{
  refuse(filter, EPERM);
  struct sock_fprog program = { filter->count, filter->rows };
  errno = ENOSYS;
  return MACHINE_IS_KNOWN && prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program) == 0;
}
