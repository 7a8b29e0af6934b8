/* sandbox_heap.h - small blocks for a Lua state: cut from chunks by size, kept for the next of that size when freed, and
 * given back all at once with the state. Lua always says how large a block is, so none carries a header. */
#ifndef LANG_SANDBOX_HEAP_H
#define LANG_SANDBOX_HEAP_H

#include <stddef.h>

enum { HEAP_STEP = 16, HEAP_CLASSES = 16, HEAP_LARGEST = HEAP_STEP * HEAP_CLASSES };

typedef struct {
  void *free[HEAP_CLASSES]; /* each a list through its blocks */
  char *chunk;              /* what is left of the newest chunk */
  size_t left;
  void *chunks; /* a list through their first words */
} Heap;

/* realloc with the old size known; size 0 frees. NULL when there is no memory, the old block then untouched. */
void *heap_resize(Heap *heap, void *block, size_t old, size_t size);
void heap_free_all(Heap *heap); /* small blocks only; larger ones are freed one by one */

#endif
