#include "cli/replacing.h"

#include <string.h>

#include "base/files.h"
#include "base/mem.h"

typedef struct {
  char *shown, *root, *path;
  Buf given, wanted;
  bool is_wanted;
} Place;

struct Replacing {
  Place *places;
  size_t count, room;
};

Replacing *replacing_new(void) { return mem_alloc(sizeof(Replacing)); }

void replacing_free(Replacing *replacing)
{
  if (!replacing) return;
  for (size_t i = 0; i < replacing->count; i++) {
    Place *place = &replacing->places[i];
    mem_free(place->shown);
    mem_free(place->root);
    mem_free(place->path);
    buf_free(&place->given);
    buf_free(&place->wanted);
  }
  mem_free(replacing->places);
  mem_free(replacing);
}

static Place *find(const Replacing *replacing, const char *shown)
{
  for (size_t i = 0; i < replacing->count; i++)
    if (strcmp(replacing->places[i].shown, shown) == 0) return &replacing->places[i];
  return NULL;
}

void replacing_note(Replacing *replacing, const char *shown, const char *root, const char *path,
                    const char *bytes, size_t length)
{
  if (find(replacing, shown)) return;
  if (replacing->count == replacing->room) {
    replacing->room = replacing->room ? replacing->room * 2 : 16;
    replacing->places = mem_grow(replacing->places, replacing->room, sizeof *replacing->places);
  }
  Place *place = &replacing->places[replacing->count++];
  *place = (Place){ .shown = mem_strdup(shown), .root = root ? mem_strdup(root) : NULL, .path = mem_strdup(path) };
  buf_add(&place->given, bytes, length);
}

bool replacing_add(Replacing *replacing, const char *shown, const char *bytes, size_t length)
{
  Place *place = find(replacing, shown);
  if (!place) return false;
  buf_clear(&place->wanted);
  buf_add(&place->wanted, bytes, length);
  place->is_wanted = true;
  return true;
}

bool replacing_write(const Replacing *replacing, Buf *why)
{
  bool fine = true;
  for (size_t i = 0; i < replacing->count; i++) {
    const Place *place = &replacing->places[i];
    if (!place->is_wanted) continue;
    FilesStatus status = files_replace(place->root, place->path, &place->given, &place->wanted);
    if (status == FILES_OK) continue;
    buf_printf(why, "%s%s was left as it is: %s", fine ? "" : "; ", place->shown, files_why(status));
    fine = false;
  }
  return fine;
}
