/* script.h - the language as the rest of the program sees it: a text goes in, a document comes out. No Lua in
 * sight. */
#ifndef LANG_SCRIPT_H
#define LANG_SCRIPT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/buf.h"
#include "base/diag.h"
#include "base/sarif.h"
#include "base/source.h"
#include "model/comparison.h"
#include "model/job.h"
#include "model/lineage.h"

typedef struct Script Script;

/* Appends the text of a module and the name that findings show, or false with one sentence in *why. */
typedef bool (*ScriptRead)(void *context, const char *module, Buf *text, Buf *shown, Buf *why);

typedef struct {
  ScriptRead read_module;
  ScriptRead read_stdlib; /* NULL: the one built in */
  void *context;
} ScriptReader;

/* Borrows sources and diags, which must outlive it. */
Script *script_new(Sources *sources, Diags *diags, ScriptReader reader);
void script_free(Script *script); /* NULL is fine */

/* Before anything is read: a value, as text, instead of what is written under a name ("opening passes=8"). What
 * nothing is called so becomes a finding. */
void script_what_if(Script *script, const char *name_and_value);

/* Runs the text of a file called `name`, checks what it returned and runs the rules. Only a document without an
 * error is read into *document, whose arena and why-book are the caller's. */
void script_read(Script *script, const char *name, const Buf *text, Document *document);

/* One activity of a schedule, for the rules that look at schedules. Areas, steps, machines and persons are counted
 * from 0, in the order of the document; machine -1 is none. Minutes since the job's first midnight. */
typedef struct {
  int start, finish;
  int unit, along_unit; /* which of the machines of its kind, from 0; -1 is none */
  const int *people;
  int people_count;
} ScriptStretch;

typedef struct {
  const char *id, *kind; /* "lobby/densify/apply", "apply" */
  int area, step, machine;
  /* what runs along with it, in turns, and for how many of its minutes; -1 and 0: none */
  int along_machine, along_min;
  const ScriptStretch *stretches;
  int stretch_count;
  double floor_m2, material_l, water_l; /* 0 where it does not apply */
} ScriptActivity;

typedef struct {
  const char *name;
  int crew;
} ScriptPerson;

/* Runs the rules of scope "plan" on the job that script_read gave; -1, or the number of the alternate with which it
 * was scheduled: then what the job as written has too is not told again. */
void script_plan(Script *script, int alternate, const ScriptPerson *persons, int person_count,
                 const ScriptActivity *activities, int activity_count);

/* Runs the shop's tests in a file; appends what failed to *report. */
void script_test(Script *script, const char *name, const Buf *text, Buf *report, int *passed, int *failed);

/* What a function of stdlib/core/manual.lua answers to a text (may be NULL); false if it has no answer. */
bool script_manual(Script *script, const char *function, const char *argument, Buf *out);

/* What is known of the code of a finding of the document that was read last; false if nothing is. */
bool script_explain(Script *script, const char *code, SarifRule *rule);

/* Where the value at a path ("densify.spread") of the document that script_read gave came from; kept in the arena.
 * False if there is no such value: then it says which part of the path leads nowhere. */
bool script_lineage(Script *script, const char *path, Arena *arena, Lineage *lineage);
/* All such paths with their values, a line each. */
void script_paths(Script *script, Buf *out);

/* Keeps the recipe that was read last, or the one it was tailored from; false if there is none. */
bool script_keep(Script *script, bool parent);
void script_check_kept(Script *script); /* runs the rules on it */
/* In a job that is read next, the kept recipe takes the place of the one of an area; of all if `area` is NULL. */
void script_use_kept(Script *script, const char *area);
/* What differs from the kept recipe to the one read last; false unless there are two. */
bool script_compare(Script *script, Arena *arena, Comparison *comparison);

/* Went over its instructions or its memory: what it says is not to be trusted. */
bool script_over_budget(const Script *script);

/* The files that `gritwork new` begins a project with: name ("first_job") and text; false past the last. */
bool script_start_file(size_t index, const char **name, const char **text, size_t *length);

#endif
