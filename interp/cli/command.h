/* command.h - what a command is. Each is a file command_NAME.c and a row in commands.c. */
#ifndef CLI_COMMAND_H
#define CLI_COMMAND_H

#include "cli/options.h"
#include "cli/session.h"

typedef struct Command {
  const char *name;
  const char *says;            /* one line for the list of commands */
  const char *usage;           /* what stands after the name */
  const char *help;            /* examples first, then what it does */
  const char *options;         /* names of those it takes besides --help, "json effort" */
  int least_files, most_files; /* arguments; most_files -1: any number */
  bool arguments_are_files;    /* they may be read, and the project's root is found from them */
  bool needs_out;
  bool wants_empty_folder;     /* --out names a new or empty folder */
  int (*run)(Session *session);
} Command;

extern const Command *const commands[]; /* ended by NULL */
const Command *command_find(const char *name);

#endif
