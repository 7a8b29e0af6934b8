#include "base/port.h"

#include <string.h>

bool port_read(Port *port, PortFrom from, const char *name, Buf *text, Buf *shown, Buf *why)
{
  return port->calls->read(port->context, from, name, text, shown, why);
}

void port_print(Port *port, const char *bytes, size_t length)
{
  port->calls->send(port->context, PORT_PRINT, NULL, bytes, length);
}

void port_complain(Port *port, const char *bytes, size_t length)
{
  port->calls->send(port->context, PORT_COMPLAIN, NULL, bytes, length);
}

bool port_progress(Port *port, const char *text)
{
  return port->calls->send(port->context, PORT_PROGRESS, NULL, text, strlen(text));
}

bool port_write(Port *port, const char *name, const char *bytes, size_t length)
{
  return port_is_name(name) && length <= PORT_WRITE_LARGEST &&
         port->calls->send(port->context, PORT_WRITE, name, bytes, length);
}

bool port_press(Port *port, const char *name, const char *bytes, size_t length)
{
  return port_is_name(name) && length <= PORT_WRITE_LARGEST &&
         port->calls->send(port->context, PORT_PRESS, name, bytes, length);
}

bool port_replace(Port *port, const char *shown, const char *bytes, size_t length)
{
  return length <= PORT_READ_LARGEST && port->calls->send(port->context, PORT_REPLACE, shown, bytes, length);
}

static bool is_letter_or_digit(char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'); }

bool port_is_name(const char *name)
{
  enum { LONGEST = 100 };
  size_t length = strlen(name);
  if (length == 0 || length > LONGEST || name[0] == '.') return false;
  for (size_t i = 0; i < length; i++)
    if (!is_letter_or_digit(name[i]) && strchr("_.-", name[i]) == NULL) return false;
  return true;
}

bool port_is_module(const char *name, size_t length)
{
  enum { LONGEST = 128 };
  bool start = true;
  if (length > LONGEST) return false;
  for (size_t i = 0; i < length; i++) {
    char c = name[i];
    bool letter = c >= 'a' && c <= 'z';
    if (start ? !letter : !(is_letter_or_digit(c) || c == '_' || c == '.')) return false;
    start = c == '.';
  }
  return !start;
}
