/* command_new.c - a small project to begin with. */
#include "cli/command.h"
#include "cli/supervisor.h"

static int run(Session *session)
{
  const Options *o = session->options;
  const char *name, *text;
  size_t length;
  Buf said = { 0 }, file = { 0 };
  for (size_t i = 0; script_start_file(i, &name, &text, &length); i++) {
    buf_clear(&file);
    buf_printf(&file, "%s.lua", name);
    port_write(session->port, buf_text(&file), text, length);
    buf_printf(&said, "%s/%s\n", o->out, buf_text(&file));
  }
  buf_printf(&said, "Now: gritwork validate %s/first_job.lua\n", o->out);
  buf_free(&file);
  session_print(session, &said);
  return STATUS_FINE;
}

const Command command_new = {
  .name = "new",
  .says = "begin a project: a method, a price book and a job to change",
  .usage = "--out=DIR",
  .help = "  gritwork new --out=shop\n\n"
          "Writes house_method.lua, house_prices.lua and first_job.lua into the folder, which must be new or\n"
          "empty.",
  .options = "out",
  .needs_out = true,
  .least_files = 0,
  .most_files = 0,
  .wants_empty_folder = true,
  .run = run,
};
