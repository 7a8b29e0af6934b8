/* port.h - all that a command can do to the world: read the sources it was given, print, and hand over files.
 *
 * A command never opens anything itself. It runs in a worker process whose port leads to the supervisor, or, in
 * tests, in the same process. Whatever is printed or written takes effect only after the command has finished. */
#ifndef BASE_PORT_H
#define BASE_PORT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/buf.h"

/* Where a text comes from: a file named on the command line ("-" is standard input), a module below the project
 * root ("methods.cream_wet" is methods/cream_wet.lua), or one of the standard library in the folder that overrides
 * it. */
typedef enum { PORT_FILE, PORT_MODULE, PORT_STDLIB } PortFrom;

typedef enum { PORT_PRINT, PORT_COMPLAIN, PORT_WRITE, PORT_PRESS, PORT_PROGRESS, PORT_REPLACE } PortWhat;

enum {
  PORT_READ_LARGEST = 1 << 24,   /* bytes of one source */
  PORT_WRITE_LARGEST = 64 << 20, /* bytes of one file, and of all that is printed to one stream */
  PORT_FILES = 64                /* files in one run */
};

/* How a port does it. `send` gets a name with PORT_WRITE, PORT_PRESS and PORT_REPLACE, else NULL; false if the
 * receiver refuses. */
typedef struct {
  bool (*read)(void *context, PortFrom from, const char *name, Buf *text, Buf *shown, Buf *why);
  bool (*send)(void *context, PortWhat what, const char *name, const char *bytes, size_t length);
} PortCalls;

typedef struct {
  const PortCalls *calls;
  void *context;
} Port;

/* Appends the text, and to *shown the name that findings show. On failure false, with one sentence in *why. */
bool port_read(Port *port, PortFrom from, const char *name, Buf *text, Buf *shown, Buf *why);

void port_print(Port *port, const char *bytes, size_t length);    /* to standard output */
void port_complain(Port *port, const char *bytes, size_t length); /* to standard error */
/* For a terminal, while the command runs. False: somebody asked for an end, with what there is so far. */
bool port_progress(Port *port, const char *text);

/* Hands over a file of the --out folder. False if port_is_name does not allow the name or a limit is passed. */
bool port_write(Port *port, const char *name, const char *bytes, size_t length);

/* Hands over what the press is to make into a file of that name: a paper (report/paper.h) into NAME.pdf, a workbook
 * (report/workbook.h) into NAME.xlsx. */
bool port_press(Port *port, const char *name, const char *bytes, size_t length);

/* Puts another text in the place of a file or module that was read in this run, by the name that was shown for it.
 * It happens only if the file then still holds what was read. False if nothing was read by that name, or if this
 * run may not change what it reads. */
bool port_replace(Port *port, const char *shown, const char *bytes, size_t length);

/* 1 to 100 of a-z 0-9 _ . - and not beginning with a dot. */
bool port_is_name(const char *name);

/* Words of a-z 0-9 _ that begin with a letter, with dots between, at most 128 bytes. */
bool port_is_module(const char *name, size_t length);

#endif
