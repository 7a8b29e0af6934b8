#include "cli/delivery.h"

#include <errno.h>
#include <string.h>
#include <unistd.h>

#include "base/mem.h"
#include "cli/placing.h"

typedef struct {
  char *name;
  Buf bytes;
  bool press; /* the bytes are what the press is to make the file from */
} OutFile;

struct Delivery {
  Buf streams[2]; /* PORT_PRINT, PORT_COMPLAIN */
  OutFile files[PORT_FILES];
  int file_count;
};

Delivery *delivery_new(void) { return mem_alloc(sizeof(Delivery)); }

void delivery_free(Delivery *delivery)
{
  if (!delivery) return;
  for (int i = 0; i < delivery->file_count; i++) {
    mem_free(delivery->files[i].name);
    buf_free(&delivery->files[i].bytes);
  }
  buf_free(&delivery->streams[PORT_PRINT]);
  buf_free(&delivery->streams[PORT_COMPLAIN]);
  mem_free(delivery);
}

/* The file of that name, made if there is none; NULL if there are too many. */
static OutFile *file_named(Delivery *delivery, const char *name)
{
  for (int i = 0; i < delivery->file_count; i++)
    if (strcmp(delivery->files[i].name, name) == 0) return &delivery->files[i];
  if (delivery->file_count == PORT_FILES) return NULL;
  OutFile *file = &delivery->files[delivery->file_count++];
  file->name = mem_strdup(name);
  return file;
}

static bool add_file(Delivery *delivery, const char *name, bool press, const char *bytes, size_t length)
{
  OutFile *file = port_is_name(name) ? file_named(delivery, name) : NULL;
  if (!file || length > PORT_WRITE_LARGEST) return false;
  file->press = press;
  buf_clear(&file->bytes);
  buf_add(&file->bytes, bytes, length);
  return true;
}

bool delivery_add(Delivery *delivery, PortWhat what, const char *name, const char *bytes, size_t length)
{
  if (what == PORT_WRITE || what == PORT_PRESS) return add_file(delivery, name, what == PORT_PRESS, bytes, length);
  if (what != PORT_PRINT && what != PORT_COMPLAIN) return true;
  Buf *stream = &delivery->streams[what];
  if (length > PORT_WRITE_LARGEST - stream->length) return false;
  buf_add(stream, bytes, length);
  return true;
}

static PressStatus press_one(OutFile *file, int wall_ms, Buf *why)
{
  Buf made = { 0 };
  PressStatus status = press_make(file->name, &file->bytes, wall_ms, &made, why);
  buf_free(status == PRESS_MADE ? &file->bytes : &made);
  if (status == PRESS_MADE) file->bytes = made;
  file->press = status != PRESS_MADE;
  return status;
}

PressStatus delivery_press(Delivery *delivery, int wall_ms, Buf *why)
{
  PressStatus status = PRESS_MADE;
  for (int i = 0; status == PRESS_MADE && i < delivery->file_count; i++)
    if (delivery->files[i].press) status = press_one(&delivery->files[i], wall_ms, why);
  return status;
}

/* ---- files */

bool delivery_write(const Delivery *delivery, const char *folder, Buf *why)
{
  PlacedFile files[PORT_FILES];
  for (int i = 0; i < delivery->file_count; i++)
    files[i] = (PlacedFile){ delivery->files[i].name, &delivery->files[i].bytes };
  return placing_write(folder, files, delivery->file_count, why);
}

/* ---- streams */

void delivery_unsay(Delivery *delivery) { buf_clear(&delivery->streams[PORT_PRINT]); }

static bool write_all(int fd, const Buf *bytes)
{
  const char *at = buf_text(bytes);
  size_t left = bytes->length;
  while (left > 0) {
    ssize_t written = write(fd, at, left);
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return written < 0 && errno == EPIPE;
    at += written;
    left -= (size_t)written;
  }
  return true;
}

bool delivery_print(const Delivery *delivery, int out_fd, int err_fd)
{
  bool printed = write_all(out_fd, &delivery->streams[PORT_PRINT]);
  int error = errno;
  write_all(err_fd, &delivery->streams[PORT_COMPLAIN]);
  errno = error;
  return printed;
}
