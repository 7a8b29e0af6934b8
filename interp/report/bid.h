/* bid.h - the papers of a bid, each made from one costed plan (docs/bid.md says what is in each).
 *
 * Papers (report/paper.h) are set as HTML here and as PDF by the press; the workbook (report/workbook.h) is made
 * by the press. All of it is the same bytes for the same sources. */
#ifndef REPORT_BID_H
#define REPORT_BID_H

#include "base/buf.h"
#include "base/diag.h"
#include "base/source.h"
#include "cost/price.h"
#include "report/say.h"

typedef struct {
  const Plan *plan; /* scheduled */
  const Cost *cost; /* complete */
  const WhyBook *book;
  const Sources *sources;
  const Diags *findings; /* what stands and is no error; NULL: nothing */
  Arena *arena;
  const char *fingerprint; /* of the sources, 64 hexadecimal digits */
  const char *made;        /* the date inside the files: "2027-03-01" */
  bool dated;              /* somebody said which day it is made, so papers for people show it */
  const Money *area_price; /* one an area; together the price */
  const Money *alternate_price; /* of the whole job, one an alternate */
} Bid;

/* Of the sources: the SHA-256 of their SHA-256 digests, in the order in which they were read. */
const char *bid_fingerprint(const Sources *sources, Arena *arena);

void bid_proposal(const Bid *bid, Buf *paper);                       /* for the client */
void bid_package(const Bid *bid, Buf *paper);                        /* for the shop */
void bid_crew_sheet(const Bid *bid, Language language, Buf *paper);  /* for the crew, a page an area */
void bid_workbook(const Bid *bid, Buf *book);
void bid_purchases_csv(const Bid *bid, Buf *out);
/* `files`: the names of the papers beside it. */
void bid_json(const Bid *bid, const char *const *files, int file_count, Buf *out);

#endif
