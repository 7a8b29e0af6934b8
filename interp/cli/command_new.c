/* command_new.c - a small project to begin with. */
#include <string.h>

#include "cli/command.h"
#include "cli/supervisor.h"
#include "lang/stdlib.h"

static const char START[] = "start.";

static int run(Session *session)
{
  const Options *o = session->options;
  Buf said = { 0 }, name = { 0 };
  session_start(session);
  for (const StdlibModule *m = stdlib_modules; m->name; m++) {
    if (strncmp(m->name, START, sizeof START - 1) != 0) continue;
    buf_clear(&name);
    buf_printf(&name, "%s.lua", m->name + sizeof START - 1);
    port_write(session->port, buf_text(&name), m->begin, (size_t)(m->end - m->begin));
    buf_printf(&said, "%s/%s\n", o->out, buf_text(&name));
  }
  buf_printf(&said, "Now: gritwork validate %s/first_job.lua\n", o->out);
  buf_free(&name);
  session_print(session, &said);
  session_end(session);
  return STATUS_FINE;
}

const Command command_new = {
  .name = "new",
  .says = "begin a project: a method, a price book and a job to change",
  .usage = "--out=DIR",
  .help = "  gritwork new --out=shop\n\n"
          "Writes house_method.lua, house_prices.lua and first_job.lua into the folder. Files that are already\n"
          "there are not touched: if one of the names is taken, nothing is written.",
  .options = OPTION_OUT,
  .needed = OPTION_OUT,
  .least_files = 0,
  .most_files = 0,
  .keeps_files = true,
  .run = run,
};
