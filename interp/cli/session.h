/* session.h - one document on its way through the program: read, checked, expanded, scheduled, costed.
 *
 * Each stage answers false when a finding at error level stands in its way; the findings tell why. */
#ifndef CLI_SESSION_H
#define CLI_SESSION_H

#include "base/port.h"
#include "base/diag.h"
#include "base/source.h"
#include "cli/fixing.h"
#include "cli/options.h"
#include "cost/price.h"
#include "lang/script.h"
#include "model/job.h"
#include "plan/plan.h"

typedef struct {
  Port *port;
  const Options *options;
  Sources *sources;
  Diags *diags;
  Script *script;
  Document document;
  Plan *plan;
  Takeoff *takeoff;
  Cost *cost;
  const char *tries[OVER_MOST]; /* NAME=VALUE of this run, besides --with; NULL: none */
  int alternate;     /* the one in place, by --alternate; -1: none */
  int64_t work;      /* for the schedule, where --effort does not say; 0: the default */
  Fixing *fixing;    /* NULL: texts are read as they are; stays over session_end */
  bool unreadable;   /* the file itself could not be read: status 3 */
} Session;

/* A session begins empty and is used again for the next file after session_end. */
void session_begin(Session *session, Port *port, const Options *options);
void session_end(Session *session);

/* The language without a file, for commands that read no document; session_read does it too. */
void session_start(Session *session);
/* The text of a file; a finding and false if it cannot be had. */
bool session_text(Session *session, const char *file, Buf *text, Buf *shown);
bool session_run(Session *session, const char *file);  /* one more file in a session that has started */
/* runs the script and the rules; fills document if it is sound */
bool session_read(Session *session, const char *file);
bool session_plan(Session *session);                   /* needs a job */
/* With --effort, or the command's own amount of work; 0 is the default. */
bool session_schedule(Session *session);
bool session_cost(Session *session);
/* The price of the whole job with each of its alternates in turn, one a place of `prices`. Asks for session_cost
 * before. */
bool session_alternates(Session *session, Money *prices);

/* Prints what was found, for people, on standard error; the exit status so far. */
void session_complain(Session *session);
int session_status(const Session *session);
/* Both, and the end of the session. */
int session_finish(Session *session);

/* What most commands are: the file is read, the session brought to a stage, and what it came to printed. */
int session_report(Session *session, bool (*reach)(Session *session), void (*print)(Session *session));

/* Prints on standard output and frees. */
void session_print(Session *session, Buf *text);

#endif
