/* built.h - how this program was built, where that changes what it can give up.
 *
 * A sanitizer reserves more address space than any limit of ours allows, and opens files and starts programs to
 * report. */
#ifndef BASE_BUILT_H
#define BASE_BUILT_H

#if defined(__SANITIZE_ADDRESS__)
enum { BUILT_SANITIZED = 1 };
#else
enum { BUILT_SANITIZED = 0 };
#endif

#endif
