#include "report/node_words.h"

#include <math.h>
#include <string.h>

#include "base/money.h"
#include "base/text.h"
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

/* A value somebody wrote as a text ("3 in"); false if it was written otherwise, or is out of sight. */
static bool put_as_written(const WhyNode *node, const Sources *sources, Buf *out)
{
  enum { LONGEST = 40 };
  if (node->origin != WHY_WRITTEN || span_is_nowhere(node->at) || sources == NULL) return false;
  const char *text = sources_text(sources, node->at.source, NULL) + node->at.begin;
  size_t length = node->at.end - node->at.begin;
  bool is_text = length > 2 && length < LONGEST && (*text == '"' || *text == '\'') && text[length - 1] == *text;
  if (!is_text || strcspn(text, "0123456789") >= length) return false;
  text_escape(out, text + 1, length - 2);
  return true;
}

static bool is_currency(const char *unit)
{
  return unit && strlen(unit) == 3 && strspn(unit, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == 3;
}

/* Money to the cent, and prices as they were written; false for all else. */
static bool put_money(const WhyNode *node, const Sources *sources, Buf *out)
{
  Amount amount;
  bool of_currency = is_currency(node->unit) && amount_from(node->value, 4, &amount);
  if (of_currency) money_print(amount, node->unit, out);
  return of_currency || (node->unit && strncmp(node->unit, "money", 5) == 0 && put_as_written(node, sources, out));
}

/* In the preferred unit of its kind; false for money, counts and plain numbers. */
static bool put_preferred(const WhyNode *node, UnitSystem units, Buf *out)
{
  Quantity q;
  QuantityError error;
  Buf one = { 0 };
  buf_printf(&one, "1 %s", node->unit ? node->unit : "");
  bool known = node->unit && *node->unit && isfinite(node->value) &&
               quantity_read(buf_text(&one), one.length, (UnitRules){ .metric = true }, &q, &error);
  buf_free(&one);
  if (!known || q.dimension.power[DIM_MONEY] != 0 || q.dimension.power[DIM_COUNT] != 0) return false;
  q = quantity_of(node->value, node->unit);
  quantity_display(&q, units, 0, out);
  return true;
}

static bool ends_in_unit(const Buf *text, const char *unit)
{
  size_t length = strlen(unit);
  return text->length > length && strcmp(buf_text(text) + text->length - length, unit) == 0 &&
         text->text[text->length - length - 1] == ' ';
}

static void put_other_form(const WhyNode *node, const Sources *sources, UnitSystem units, Buf *out)
{
  Buf other = { 0 };
  bool told = put_as_written(node, sources, &other) || put_preferred(node, units, &other);
  if (told && node->unit && !ends_in_unit(&other, node->unit)) buf_printf(out, " (%s)", buf_text(&other));
  buf_free(&other);
}

void node_value(const WhyNode *node, const Sources *sources, UnitSystem units, Buf *out)
{
  buf_printf(out, "%s = %s", node->what ? node->what : "figure", node->words ? node->words : "");
  if (node->words) return;
  if (!put_money(node, sources, out)) {
    put_value(node->value, out);
    put_unit(node, out);
    put_other_form(node, sources, units, out);
  }
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
