/* report_lineage.c - where a value came from, each sentence with its place in the source. */
#include "report/page.h"
#include "report/report.h"

void report_lineage_text(const Lineage *lineage, const Sources *sources, DiagStyle style, Buf *out)
{
  for (int i = 0; i < lineage->count; i++) {
    const LineageEntry *entry = &lineage->entries[i];
    page_fold(out, i == 0 ? "" : "- ", entry->text, style.width, 0);
    diags_print_place(sources, entry->at, style, out);
  }
}
