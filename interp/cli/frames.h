/* frames.h - how the worker and the supervisor talk: frames of a kind, a length and that many bytes.
 *
 * The worker asks and tells; the supervisor answers a FRAME_READ with a FRAME_TEXT and says nothing else. */
#ifndef CLI_FRAMES_H
#define CLI_FRAMES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/buf.h"
#include "base/port.h"

typedef enum {
  FRAME_READ,     /* a byte (PortFrom), then the name */
  FRAME_TEXT,     /* a byte (1: read), 4 bytes (length of the name shown, or of the reason), that, then the text */
  FRAME_PRINT,    /* bytes for standard output */
  FRAME_COMPLAIN, /* bytes for standard error */
  FRAME_WRITE,    /* a name, a NUL, then the file's bytes */
  FRAME_PRESS,    /* the same, but the bytes are what the press makes the file from */
  FRAME_REPLACE,  /* a name that was shown, a NUL, then the bytes that the file should have */
  FRAME_PROGRESS,
  FRAME_FINISHED  /* a byte: the exit status */
} FrameKind;

enum { FRAME_LARGEST = PORT_WRITE_LARGEST + 1024 };

typedef struct {
  uint32_t kind, length;
} FrameHead;

/* Appends a whole frame. */
void frame_add(Buf *out, FrameKind kind, const char *bytes, size_t length);

typedef enum { FRAME_WHOLE, FRAME_PART, FRAME_BAD } FrameStatus;

/* Is there a whole frame at the start of the bytes? Then its head and its content. FRAME_BAD: not one of ours. */
FrameStatus frame_take(const char *bytes, size_t length, FrameHead *head, const char **content);

#endif
