#include "lang/sandbox_heap.h"

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>

#include "base/mem.h"

enum { CHUNK = 256 * 1024 };

/* Mapped with its pages in place: touching them one by one would cost a fault each, half the time of a short
 * run. */
static void *new_chunk(void)
{
  void *chunk = mmap(NULL, CHUNK, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS | MAP_POPULATE, -1, 0);
  return chunk == MAP_FAILED ? NULL : chunk;
}

#if defined(__SANITIZE_ADDRESS__) || defined(HEAP_PLAIN)
static bool is_small(size_t size) { (void)size; return false; } /* each block from malloc, so that it is watched */
#else
static bool is_small(size_t size) { return size <= HEAP_LARGEST; }
#endif

static size_t class_of(size_t size) { return (size - 1) / HEAP_STEP; }

static void *take(Heap *heap, size_t size)
{
  void **list = &heap->free[class_of(size)];
  size_t whole = (class_of(size) + 1) * HEAP_STEP;
  if (*list) {
    void *block = *list;
    *list = *(void **)block;
    return block;
  }
  if (heap->left < whole) {
    char *chunk = new_chunk();
    if (!chunk) return NULL;
    *(void **)chunk = heap->chunks;
    heap->chunks = chunk;
    heap->chunk = chunk + HEAP_STEP;
    heap->left = CHUNK - HEAP_STEP;
  }
  void *block = heap->chunk;
  heap->chunk += whole;
  heap->left -= whole;
  return block;
}

/* ---- large blocks: a header in front of each */

static void *link_large(Heap *heap, HeapLarge *large)
{
  if (!large) return NULL;
  large->before = NULL;
  large->next = heap->large;
  if (heap->large) heap->large->before = large;
  heap->large = large;
  return large + 1;
}

static HeapLarge *unlink_large(Heap *heap, void *block)
{
  HeapLarge *large = (HeapLarge *)block - 1;
  if (large->next) large->next->before = large->before;
  if (large->before) large->before->next = large->next;
  else heap->large = large->next;
  return large;
}

static void *take_large(Heap *heap, size_t size) { return link_large(heap, malloc(sizeof(HeapLarge) + size)); }

static void *resize_large(Heap *heap, void *block, size_t size)
{
  HeapLarge *large = unlink_large(heap, block);
  HeapLarge *moved = realloc(large, sizeof(HeapLarge) + size);
  if (moved) return link_large(heap, moved);
  link_large(heap, large);
  return NULL;
}

static void give(Heap *heap, void *block, size_t size)
{
  if (!is_small(size)) {
    free(unlink_large(heap, block));
    return;
  }
  void **list = &heap->free[class_of(size)];
  *(void **)block = *list;
  *list = block;
}

void *heap_resize(Heap *heap, void *block, size_t old, size_t size)
{
  if (size > (block ? old : 0) && mem_refuses()) return NULL;
  if (block == NULL) return is_small(size) ? take(heap, size) : take_large(heap, size);
  if (size == 0) {
    give(heap, block, old);
    return NULL;
  }
  if (!is_small(old) && !is_small(size)) return resize_large(heap, block, size);
  if (is_small(old) && is_small(size) && class_of(old) == class_of(size)) return block;
  void *moved = is_small(size) ? take(heap, size) : take_large(heap, size);
  if (!moved) return NULL;
  memcpy(moved, block, old < size ? old : size);
  give(heap, block, old);
  return moved;
}

void heap_free_all(Heap *heap)
{
  for (void *chunk = heap->chunks, *next; chunk; chunk = next) {
    next = *(void **)chunk;
    munmap(chunk, CHUNK);
  }
  for (HeapLarge *large = heap->large, *next; large; large = next) {
    next = large->next;
    free(large);
  }
  *heap = (Heap){ 0 };
}
