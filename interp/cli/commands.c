/* commands.c - the list of commands: a new one is a file command_NAME.c and a row here. */
#include <string.h>

#include "cli/command.h"

extern const Command command_validate, command_sheet, command_schedule, command_cost, command_risk, command_bid,
    command_why, command_compare, command_words, command_new, command_test;

const Command *const commands[] = {
  &command_validate, &command_sheet,   &command_schedule, &command_cost, &command_risk, &command_bid,
  &command_why,      &command_compare, &command_words,    &command_new,  &command_test, NULL,
};

const Command *command_find(const char *name)
{
  for (const Command *const *c = commands; *c; c++)
    if (strcmp((*c)->name, name) == 0) return *c;
  return NULL;
}
