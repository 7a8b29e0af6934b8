#include "base/arena.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "base/mem.h"

enum { FIRST_CHUNK = 4096, LARGEST_CHUNK = 1 << 20 };

typedef struct Chunk {
  struct Chunk *next;
  size_t used, size;
  max_align_t bytes[];
} Chunk;

struct Arena {
  Chunk *chunks;
  size_t next_size;
};

Arena *arena_new(void)
{
  Arena *arena = mem_alloc(sizeof *arena);
  arena->next_size = FIRST_CHUNK;
  return arena;
}

void arena_free(Arena *arena)
{
  if (arena == NULL) return;
  for (Chunk *c = arena->chunks, *next; c; c = next) {
    next = c->next;
    mem_free(c);
  }
  mem_free(arena);
}

static Chunk *add_chunk(Arena *arena, size_t at_least)
{
  size_t size = arena->next_size > at_least ? arena->next_size : at_least;
  if (arena->next_size < LARGEST_CHUNK) arena->next_size *= 2;
  Chunk *chunk = mem_array(1, sizeof(Chunk) + size);
  chunk->size = size;
  chunk->next = arena->chunks;
  return arena->chunks = chunk;
}

void *arena_alloc(Arena *arena, size_t bytes)
{
  const size_t align = _Alignof(max_align_t);
  if (bytes > SIZE_MAX / 2) return mem_array(SIZE_MAX, 2); /* fails by the common path */
  size_t rounded = (bytes + align - 1) / align * align;
  Chunk *chunk = arena->chunks;
  if (chunk == NULL || chunk->size - chunk->used < rounded) chunk = add_chunk(arena, rounded);
  void *block = (char *)chunk->bytes + chunk->used;
  chunk->used += rounded;
  return block;
}

void *arena_array(Arena *arena, size_t count, size_t each)
{
  if (each != 0 && count > SIZE_MAX / each) return mem_array(count, each);
  return arena_alloc(arena, count * each);
}

char *arena_strdup(Arena *arena, const char *text) { return arena_strndup(arena, text, strlen(text)); }

char *arena_strndup(Arena *arena, const char *text, size_t length)
{
  char *copy = arena_alloc(arena, length + 1);
  memcpy(copy, text, length);
  return copy;
}

char *arena_printf(Arena *arena, const char *format, ...)
{
  va_list args;
  va_start(args, format);
  int length = vsnprintf(NULL, 0, format, args);
  va_end(args);
  char *text = arena_alloc(arena, (size_t)length + 1);
  va_start(args, format);
  vsnprintf(text, (size_t)length + 1, format, args);
  va_end(args);
  return text;
}
