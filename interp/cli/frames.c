#include "cli/frames.h"

#include <string.h>

void frame_add(Buf *out, FrameKind kind, const char *bytes, size_t length)
{
  FrameHead head = { (uint32_t)kind, (uint32_t)length };
  buf_add(out, (const char *)&head, sizeof head);
  buf_add(out, bytes, length);
}

FrameStatus frame_take(const char *bytes, size_t length, FrameHead *head, const char **content)
{
  FrameHead found;
  if (length < sizeof found) return FRAME_PART;
  memcpy(&found, bytes, sizeof found);
  if (found.kind > FRAME_FINISHED || found.length > FRAME_LARGEST) return FRAME_BAD;
  if (length - sizeof found < found.length) return FRAME_PART;
  *head = found;
  *content = bytes + sizeof found;
  return FRAME_WHOLE;
}
