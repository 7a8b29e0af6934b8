/* sarif.h - findings as a log in the Static Analysis Results Interchange Format (OASIS standard SARIF 2.1.0): one
 * run, over any number of sets of sources, each file by its name.
 *
 * Names are taken as relative to the folder in which the program was started, absolute ones as they are. Columns
 * count code points. A result's partial fingerprint is of its code, what it says, the text it stands at, and of how
 * many alike came before it in its file: neither lines that move nor files that do change it, nor a waiver.
 *
 * A waived finding is a result as it was, with a suppression. One that is acknowledged stands, so it has none: who
 * answers for it is in its properties. What kept the program from looking is no result but a notification. */
#ifndef BASE_SARIF_H
#define BASE_SARIF_H

#include "base/diag.h"

typedef struct SarifLog SarifLog;

/* What is known of a code. */
typedef struct {
  Buf says, basis, help; /* help may be empty */
  DiagLevel level;       /* that its findings usually have */
  bool is_law;           /* it comes from a regulation */
} SarifRule;

/* Fills in an empty *rule; false if nothing is known of the code. */
typedef bool (*SarifExplain)(void *context, const char *code, SarifRule *rule);

/* Begins the log at the end of *out, which is the log's until sarif_finish. */
SarifLog *sarif_begin(const char *tool, Buf *out);
/* Adds all findings in their order, and the sources as artifacts. `explain` is asked once for each code. */
void sarif_add(SarifLog *log, const Diags *diags, const Sources *sources, SarifExplain explain, void *context);
/* Ends the log and frees it. `complete`: every file was read and checked to the end. */
void sarif_finish(SarifLog *log, bool complete, int exit_code);

#endif
