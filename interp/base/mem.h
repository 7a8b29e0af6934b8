/* mem.h - memory for the whole program.
 *
 * Nothing here returns NULL. When memory runs out, mem_on_failure is called; it must not return. By default it
 * prints one line and leaves with status 4, which is sound because documents are evaluated in a worker process
 * that owns no files. Tests install a handler that jumps. */
#ifndef BASE_MEM_H
#define BASE_MEM_H

#include <stdbool.h>
#include <stddef.h>

void *mem_alloc(size_t bytes);               /* zeroed; mem_alloc(0) is a valid, unique pointer */
void *mem_array(size_t count, size_t each);  /* zeroed; count * each is checked for overflow */
void *mem_grow(void *old, size_t count, size_t each);  /* realloc, overflow checked; new part not zeroed */
char *mem_strdup(const char *text);
char *mem_strndup(const char *text, size_t length);
void mem_free(void *block);  /* NULL is fine */

/* Called with the size that could not be had. */
extern void (*mem_on_failure)(size_t bytes);

/* Refuse the n-th request from now (1 is the next one); 0 switches that off. For tests of out-of-memory. */
void mem_fail_at(size_t n);
/* Refuse it and all after it, as a machine does that has no more. */
void mem_fail_from(size_t n);
/* Ask this at every request while nothing else is to be refused: may the request be had no more? NULL: nobody is asked. */
void mem_ask(bool (*refuses)(void));
/* For allocators besides this one: counts a request, and says whether it is to be refused. */
bool mem_refuses(void);

#endif
