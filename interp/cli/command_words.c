/* command_words.c - the words and rules of the language, from the tables that also check documents. */
#include "cli/command.h"
#include "cli/supervisor.h"

static int run(Session *session)
{
  const Options *o = session->options;
  Buf out = { 0 };
  session_start(session);
  bool fine = true;
  if (o->meta) fine = script_manual(session->script, "meta", NULL, &out);
  else if (o->manual) fine = script_manual(session->script, "manual", NULL, &out);
  else if (o->examples) fine = script_manual(session->script, "examples", NULL, &out);
  else if (o->argument_count == 0) fine = script_manual(session->script, "list", NULL, &out);
  else
    for (int i = 0; i < o->argument_count; i++)
      fine = script_manual(session->script, "entry", o->arguments[i], &out) && fine;
  session_print(session, &out);
  int status = session_finish(session);
  return fine || status != STATUS_FINE ? status : STATUS_FINDINGS;
}

const Command command_words = {
  .name = "words",
  .says = "explain the words, fields and rules of the language",
  .usage = "[WORD|RULE...]",
  .help = "  gritwork words\n"
          "  gritwork words densify\n"
          "  gritwork words grit-step\n"
          "  gritwork words --meta > gritwork.d.lua\n\n"
          "Without a name, lists all words and rules. With one, prints its fields with their types, defaults and\n"
          "where those come from, and an example.",
  .options = "meta examples manual colour width stdlib",
  .least_files = 0,
  .most_files = 16,
  .run = run,
};
