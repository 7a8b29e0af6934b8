/* landlock.h - what a process gives up for good, where the kernel has Landlock: every file that it does not hold
 * open, connections, and signals to others.
 *
 * The kernel counts versions of it; each closes more than the one before (Linux 5.13 has the first):
 *   1 reading, writing, making and removing files, running programs   2 moving files between folders
 *   3 cutting files off   4 TCP   5 ioctl on devices   6 signals and abstract sockets out of the process
 * Source: the kernel's documentation, userspace-api/landlock. */
#ifndef BASE_LANDLOCK_H
#define BASE_LANDLOCK_H

#include <stddef.h>

typedef struct {
  /* files and folders to read from here on, with all below them; missing ones are left out */
  const char *const *readable;
  size_t readable_count;
  int writable_fd; /* an open file that may be opened again by its name in /proc; 0: none */
} LandlockKept;

/* The version in force from now on for this thread and those it starts. 0: none, and errno tells why; nothing has
 * changed then. Sets no-new-privileges, without which the kernel refuses. */
int landlock_confine(LandlockKept kept);

#endif
