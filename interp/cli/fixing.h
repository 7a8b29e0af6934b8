/* fixing.h - the texts that a run reads, as they would be with the fixes of its findings: what is read again is
 * read with them. */
#ifndef CLI_FIXING_H
#define CLI_FIXING_H

#include "base/diag.h"
#include "base/port.h"

typedef struct Fixing Fixing;

Fixing *fixing_new(void);
void fixing_free(Fixing *fixing); /* NULL is fine */

/* A text that was read, and the name that is shown for it. The first time it is remembered; after that *text
 * becomes what is now in its place. */
void fixing_read(Fixing *fixing, const char *shown, Buf *text);

typedef enum { FIXING_SAFE, FIXING_ALL } FixingWhich;

/* Applies the fixes of findings about texts as they now are. Of two that touch, the first, unless both put
 * something in; the same one twice, once. Returns how many. */
int fixing_apply(Fixing *fixing, const Diags *diags, const Sources *sources, FixingWhich which);

/* What changed since the last settling, as unified diffs; false if nothing did. */
bool fixing_diff(const Fixing *fixing, Buf *out);
void fixing_settle(Fixing *fixing);
/* What all fixes of the findings would change, as unified diffs; it is not kept. */
bool fixing_propose(Fixing *fixing, const Diags *diags, const Sources *sources, Buf *out);

/* Asks for every text that was settled with changes to be put in its file's place; says so, with how many fixes. */
void fixing_write(const Fixing *fixing, Port *port, Buf *said);

#endif
