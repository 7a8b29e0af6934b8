/* page.h - inside the reports: cells, lines and clock times of plain text. Whatever comes in is escaped. */
#ifndef REPORT_PAGE_H
#define REPORT_PAGE_H

#include <stdbool.h>

#include "base/buf.h"
#include "model/job.h"

/* Below this width tables put their columns under each other. */
enum { PAGE_NARROW = 78 };

void page_put(Buf *out, const char *text);
/* Escaped, padded to `cells`; longer text is cut and ends in "..". */
void page_left(Buf *out, const char *text, int cells);
/* The same on the left, for numbers: they are never cut. */
void page_right(Buf *out, const char *text, int cells);
bool page_fits(const char *text, int cells);

/* Ends a line without leaving blanks at its end. */
void page_end_line(Buf *out);
void page_rule(Buf *out, char c, int width);
/* An indented paragraph, folded to `width`. `lead` ("care: ") goes before it, and the text lines up behind it. */
void page_fold(Buf *out, const char *lead, const char *text, int width, int indent);
/* The same on a line that has come to cell `at`. */
void page_fold_on(Buf *out, const char *text, int width, int at);

/* Instants are minutes since the midnight that begins the job's start day; days count from that day. */
void page_day(Buf *out, const Job *job, int day);          /* "Mon 2026-11-30" */
void page_short_day(Buf *out, const Job *job, int day);    /* "Mon 30 Nov" */
void page_time(Buf *out, int minute);                      /* "07:05", of any day */
void page_instant(Buf *out, const Job *job, int minute);   /* "Mon 2026-11-30 07:05" */
void page_span(Buf *out, const Job *job, int from, int to); /* "Mon 30 Nov 07:05-09:30" */
void page_iso(Buf *out, const Job *job, int minute);       /* "2026-11-30T07:05" */
void page_minutes(Buf *out, int minutes);                  /* "25 min", "1 h 30 min", "2 d 4 h" */
int page_day_of(int minute);

#endif
