/* model_reader.h - reads the records that stdlib/core/record.lua leaves behind into plain structs.
 *
 * A record is a table { values = {}, at = {}, assumed = {} }. Every figure read goes into the document's why-book:
 * as written at its place, or as a default with its basis. */
#ifndef LANG_MODEL_READER_H
#define LANG_MODEL_READER_H

#include <lua.h>

#include "base/diag.h"
#include "model/job.h"

typedef struct {
  lua_State *L;
  Document *document;
  Diags *diags;
  const char *owner; /* "step open", "machine edger": names the figures read */
  bool decides;      /* a default that is read now is noted as one that decides what is done */
} ModelReader;

/* Pushes values[key] and answers true, or pushes nothing and answers false. */
bool reader_value(ModelReader *r, int record, const char *key);
bool reader_has(ModelReader *r, int record, const char *key);
Span reader_at(ModelReader *r, int record, const char *key);
/* A Lua field of any table at `index`, as kept text (NULL if it is none). */
const char *reader_keep(ModelReader *r, int index, const char *key);
Span reader_span(ModelReader *r, int index, const char *key); /* a packed span */

/* Words and flags: a default is noted as one that decides what is done. NULL: not given. */
const char *reader_text(ModelReader *r, int record, const char *key);
bool reader_flag(ModelReader *r, int record, const char *key);
/* In `unit` ("" for plain numbers). Zero figure if not given. */
Figure reader_figure(ModelReader *r, int record, const char *key, const char *unit);
/* The same of a figure that decides what is done without entering a formula: people, coats, machines. */
Figure reader_deciding(ModelReader *r, int record, const char *key, const char *unit);
Maybe reader_maybe(ModelReader *r, int record, const char *key, const char *unit);
Band reader_band(ModelReader *r, int record, const char *key, const char *unit);
/* The number of a quantity or plain number at the top of the stack, in `unit`; popped. */
double reader_number(ModelReader *r, const char *unit);

/* Exact money of values[key], per `unit` of time where it is a pay rate ("h"); refused if finer than 1/10,000. */
Rate reader_rate(ModelReader *r, int record, const char *key);
/* The same of an entry { name, value, at } of a map. */
Rate reader_entry_rate(ModelReader *r, int entry);
Percent reader_entry_percent(ModelReader *r, int entry);
Percent reader_percent(ModelReader *r, int record, const char *key);

#endif
