/* node_words.h - inside the reports: a node of the why graph in words. */
#ifndef REPORT_NODE_WORDS_H
#define REPORT_NODE_WORDS_H

#include "base/buf.h"
#include "base/quantity.h"
#include "base/source.h"
#include "base/why.h"

/* "overlap of step open = 0.0762 m (3 in)": as it was written, else in the preferred unit of its kind where that is
 * another. Without sources, the latter. */
void node_value(const WhyNode *node, const Sources *sources, UnitSystem units, Buf *out);
/* "; written at recipes/a.lua:4:12", "; assumed: common practice, no source", "; computed: sum of the lines" */
void node_origin(const WhyNode *node, const Sources *sources, Buf *out);
void node_place(Span at, const Sources *sources, Buf *out); /* "FILE:LINE:COLUMN"; nothing for nowhere */

#endif
