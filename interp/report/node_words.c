#include "report/node_words.h"

#include <math.h>

#include "cost/show.h"
#include "trade/trade.h"

/* About six figures, and no more decimals than that takes. */
static void put_value(double value, Buf *out)
{
  if (!isfinite(value)) {
    buf_puts(out, "not a number");
    return;
  }
  int whole = value == 0 ? 1 : (int)floor(log10(fabs(value))) + 1;
  int decimals = 6 - whole;
  show_number(out, value, decimals < 0 ? 0 : decimals > 9 ? 9 : decimals);
}

static void put_unit(const WhyNode *node, Buf *out)
{
  if (node->unit && *node->unit) buf_printf(out, " %s", node->unit);
}

void node_value(const WhyNode *node, Buf *out)
{
  buf_printf(out, "%s = ", node->what ? node->what : "figure");
  put_value(node->value, out);
  put_unit(node, out);
  if (node->low == node->high) return;
  buf_puts(out, ", from ");
  put_value(node->low, out);
  buf_puts(out, " to ");
  put_value(node->high, out);
}

static bool has_place(Span at, const Sources *sources) { return !span_is_nowhere(at) && sources != NULL; }

void node_place(Span at, const Sources *sources, Buf *out)
{
  if (!has_place(at, sources)) return;
  Place place = sources_place(sources, at.source, at.begin);
  buf_printf(out, "%s:%d:%d", sources_name(sources, at.source), place.line, place.column);
}

/* A formula of the trade library is spelled out, with who says so; any other is an expression already. */
static void put_formula(const WhyNode *node, Buf *out)
{
  if (node->formula == NULL) return;
  const TradeFormula *formula = trade_formula(node->formula);
  buf_printf(out, ": %s", formula ? formula->says : node->formula);
  if (formula)
    buf_printf(out, " (%s; %s: %s)", formula->id, basis_status_name(formula->basis.status), formula->basis.source);
}

void node_origin(const WhyNode *node, const Sources *sources, Buf *out)
{
  static const char *const words[] = {
    [WHY_WRITTEN] = "written", [WHY_DEFAULT] = "assumed", [WHY_CATALOGUE] = "catalogue", [WHY_COMPUTED] = "computed"
  };
  buf_printf(out, "; %s", words[node->origin]);
  if (node->origin == WHY_WRITTEN && has_place(node->at, sources)) {
    buf_puts(out, " at ");
    node_place(node->at, sources, out);
  }
  if (node->origin == WHY_COMPUTED) put_formula(node, out);
  if (node->basis) buf_printf(out, "%s%s", node->origin == WHY_COMPUTED ? "; " : ": ", node->basis);
}
