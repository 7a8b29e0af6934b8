/* arena.h - memory that is freed all at once. Blocks are zeroed and aligned for any type. */
#ifndef BASE_ARENA_H
#define BASE_ARENA_H

#include <stddef.h>

typedef struct Arena Arena;

Arena *arena_new(void);
void arena_free(Arena *arena); /* NULL is fine */
void *arena_alloc(Arena *arena, size_t bytes);
void *arena_array(Arena *arena, size_t count, size_t each);
char *arena_strdup(Arena *arena, const char *text);
char *arena_strndup(Arena *arena, const char *text, size_t length);
char *arena_printf(Arena *arena, const char *format, ...) __attribute__((format(printf, 2, 3)));

#endif
