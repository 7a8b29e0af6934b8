#include "lang/lexer_symbols.h"

#include <string.h>

#include "base/mem.h"

typedef struct {
  const char *name;
  uint32_t length, hash, number; /* number: of a symbol, or KEYWORD + kind */
} Slot;

struct Symbols {
  Slot *slots;
  uint32_t room, used, next; /* room is a power of two */
};

enum { FIRST_ROOM = 256 };
static const uint32_t KEYWORD = 1u << 31;

/* FNV-1a, with a last mix so that the low bits depend on all bytes. */
static uint32_t hash_of(const char *name, uint32_t length)
{
  uint32_t hash = 2166136261u;
  for (uint32_t i = 0; i < length; i++) hash = (hash ^ (unsigned char)name[i]) * 16777619u;
  return hash ^ hash >> 15;
}

static Slot *slot_for(const Symbols *s, const char *name, uint32_t length, uint32_t hash)
{
  for (uint32_t i = hash & (s->room - 1);; i = (i + 1) & (s->room - 1)) {
    Slot *slot = &s->slots[i];
    if (slot->name == NULL) return slot;
    if (slot->hash == hash && slot->length == length && memcmp(slot->name, name, length) == 0) return slot;
  }
}

static void grow(Symbols *s)
{
  Slot *old = s->slots;
  uint32_t room = s->room;
  s->room *= 2;
  s->slots = mem_array(s->room, sizeof *s->slots);
  for (uint32_t i = 0; i < room; i++)
    if (old[i].name) *slot_for(s, old[i].name, old[i].length, old[i].hash) = old[i];
  mem_free(old);
}

static Slot *add(Symbols *s, const char *name, uint32_t length)
{
  uint32_t hash = hash_of(name, length);
  Slot *slot = slot_for(s, name, length, hash);
  if (slot->name) return slot;
  if (s->used * 2 >= s->room) {
    grow(s);
    slot = slot_for(s, name, length, hash);
  }
  s->used++;
  *slot = (Slot){ name, length, hash, s->next };
  return slot;
}

static void know(Symbols *s, const char *name, uint32_t number)
{
  add(s, name, (uint32_t)strlen(name))->number = number;
}

Symbols *symbols_new(Arena *arena)
{
  Symbols *s = arena_alloc(arena, sizeof *s);
  *s = (Symbols){ .slots = mem_array(FIRST_ROOM, sizeof *s->slots), .room = FIRST_ROOM, .next = SYMBOL_KNOWN };
  for (TokenKind kind = TOK_AND; kind <= TOK_WHILE; kind++) know(s, token_text(kind), KEYWORD + kind);
  know(s, "_mark", SYMBOL_MARK);
  know(s, "_tick", SYMBOL_TICK);
  know(s, "_ENV", SYMBOL_ENV);
  know(s, "self", SYMBOL_SELF);
  return s;
}

void symbols_free(Symbols *s) { mem_free(s->slots); }

uint32_t symbols_find(Symbols *s, const char *name, uint32_t length, TokenKind *keyword)
{
  Slot *slot = add(s, name, length);
  if (slot->number >= KEYWORD) {
    *keyword = (TokenKind)(slot->number - KEYWORD);
    return 0;
  }
  if (slot->number == s->next) s->next++;
  return slot->number;
}

uint32_t symbols_count(const Symbols *s) { return s->next; }
