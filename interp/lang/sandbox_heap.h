/* sandbox_heap.h - the memory of a Lua state: small blocks are cut from chunks by size and kept for the next of
 * that size when freed; large ones are malloc's, in a list. All of it is given back at once, so that a state need
 * not be closed. Lua always says how large a block is, so small ones carry no header. */
#ifndef LANG_SANDBOX_HEAP_H
#define LANG_SANDBOX_HEAP_H

#include <stddef.h>

enum { HEAP_STEP = 16, HEAP_CLASSES = 16, HEAP_LARGEST = HEAP_STEP * HEAP_CLASSES };

typedef struct HeapLarge {
  struct HeapLarge *next, *before;
} HeapLarge;

typedef struct {
  void *free[HEAP_CLASSES]; /* each a list through its blocks */
  char *chunk;              /* what is left of the newest chunk */
  size_t left;
  void *chunks; /* a list through their first words */
  HeapLarge *large;
} Heap;

/* realloc with the old size known; size 0 frees. NULL when there is no memory, the old block then untouched. */
void *heap_resize(Heap *heap, void *block, size_t old, size_t size);
void heap_free_all(Heap *heap);

#endif
