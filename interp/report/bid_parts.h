/* bid_parts.h - inside the bid: texts and blocks that more than one paper has. Texts live in the bid's arena. */
#ifndef REPORT_BID_PARTS_H
#define REPORT_BID_PARTS_H

#include "base/quantity.h"
#include "report/bid.h"
#include "report/paper.h"

typedef const char *Text;

Text bid_keep(const Bid *bid, Buf *text); /* frees the Buf */
Text bid_money(const Bid *bid, Money money);
Text bid_quantity(const Bid *bid, double value, const char *unit, Kind kind);
Text bid_amount(const Bid *bid, Amount amount); /* "1,234.50" */
Text bid_percent(const Bid *bid, int64_t ppm);
Text bid_date(const Bid *bid, int day, Language language);       /* "Mon 1 Mar 2027", of days since 1970-01-01 */
Text bid_day(const Bid *bid, int minute, Language language);     /* the same of an instant */
Text bid_instant(const Bid *bid, int minute, Language language); /* "Mon 1 Mar 07:05" */
Text bid_span(const Bid *bid, int from, int to, Language language);
Text bid_each(const Bid *bid, Money money, double floor_m2); /* "$3.06/sqft"; "" where there is no floor */

void bid_begin(const Bid *bid, Buf *paper, Language language, bool large, const char *title, const char *for_whom);
void bid_price_block(const Bid *bid, Buf *paper);
void bid_alternates(const Bid *bid, Buf *paper);
void bid_areas_table(const Bid *bid, Buf *paper);
/* A bar an area, or a bar a step. */
void bid_chart(const Bid *bid, bool steps, Buf *paper);
void bid_cautions(const Bid *bid, Language language, Buf *paper); /* of all recipes, each once */
void bid_waivers(const Bid *bid, Buf *paper);

/* What is to be bought or brought, in the order of the cost's lines. */
typedef struct {
  const CostLine *line;
  const char *what;
  int count;
  Money each, all; /* all: what buying that many costs; the bid charges line->amount */
} Purchase;
int bid_purchases(const Bid *bid, Purchase *out); /* room for all of the cost's lines */

#endif
