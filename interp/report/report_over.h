/* report_over.h - a job priced over a range of one value or two: a table, or where a price is crossed. */
#ifndef REPORT_OVER_H
#define REPORT_OVER_H

#include "base/money.h"
#include "model/job.h"

enum { OVER_NAMES = 2 };

typedef enum { OVER_PRICED, OVER_UNDONE, OVER_REFUSED, OVER_STATUSES } OverStatus;

/* What came out with a value of each name. */
typedef struct {
  const char *value[OVER_NAMES]; /* "8", "20 %" */
  OverStatus status;
  Money direct, cost, price;   /* 0 unless it is priced, and so */
  const char *finish, *instant; /* "Mon 2027-03-01 07:05", "2027-03-01T07:05" */
} OverRow;

typedef struct {
  const char *name[OVER_NAMES];
  int name_count;
  const char *job, *currency; /* of the last row that was priced; "" if none was */
  const char *note; /* how the rows were reckoned; NULL: as usual */
  OverRow *rows;
  int row_count;
  /* The first value at which the price is on the other side of a target. */
  bool has_target;
  Money target;
  const OverRow *crossing; /* NULL: it is on one side over the whole range */
} OverTable;

void report_over_text(const OverTable *table, int width, Buf *out);
void report_over_json(const OverTable *table, Buf *out);

#endif
