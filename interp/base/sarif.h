/* sarif.h - findings as a log in the Static Analysis Results Interchange Format (OASIS standard SARIF 2.1.0,
 * 27 March 2020): one run, over any number of sets of sources, each file by its name.
 *
 * Names are taken as relative to the folder in which the program was started, absolute ones as they are. Columns
 * count code points. A result's partial fingerprint is of its code, file, message and the text it stands at, and of
 * how many alike came before it: lines that move do not change it. */
#ifndef BASE_SARIF_H
#define BASE_SARIF_H

#include "base/diag.h"

typedef struct SarifLog SarifLog;

/* What a code stands for and what it rests on, appended to the two buffers; false if nothing is known of it. */
typedef bool (*SarifExplain)(void *context, const char *code, Buf *says, Buf *basis);

/* Begins the log at the end of *out, which is the log's until sarif_finish. */
SarifLog *sarif_begin(const char *tool, Buf *out);
/* Adds all findings in their order. `explain` is asked once for each code. */
void sarif_add(SarifLog *log, const Diags *diags, const Sources *sources, SarifExplain explain, void *context);
/* Ends the log and frees it. `complete`: every file was read and checked to the end. */
void sarif_finish(SarifLog *log, bool complete);

#endif
