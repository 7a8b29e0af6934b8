/* price_tax.c - sales tax by what is taxed: each kind of line by its own share. */
#include <stddef.h>

#include "cost/ledger.h"

enum { TAXED_KINDS = 3 };

static const struct {
  const char *code, *what, *basis;
  size_t share_at; /* in Prices */
  LineKind kinds[TAXED_KINDS];
  int kind_count;
} taxes[] = {
  { "TAX-goods", "tax on tools and materials", "on tools and materials", offsetof(Prices, material_tax),
    { LINE_TOOL, LINE_MATERIAL }, 2 },
  { "TAX-work", "tax on work", "on wages, premiums and burden", offsetof(Prices, labour_tax),
    { LINE_LABOUR, LINE_PREMIUM, LINE_BURDEN }, 3 },
  { "TAX-machines", "tax on machines", "on machines", offsetof(Prices, machine_tax), { LINE_MACHINE }, 1 },
  { "TAX-extras", "tax on extras", "on extras", offsetof(Prices, extra_tax), { LINE_EXTRA }, 1 },
};

static void add_tax(Ledger *l, size_t tax)
{
  const Percent *share = (const Percent *)((const char *)l->prices + taxes[tax].share_at);
  if (!ledger_adds(share)) return;
  CostLine line = { .kind = LINE_TAX, .code = taxes[tax].code, .what = taxes[tax].what, .basis = taxes[tax].basis };
  Why *inputs = arena_array(l->arena, (size_t)l->cost->line_count + 1, sizeof *inputs);
  Money base = 0;
  int count = 0;
  for (int k = 0; k < taxes[tax].kind_count; k++) line.on_kinds |= 1u << taxes[tax].kinds[k];
  for (int k = 0; k < taxes[tax].kind_count; k++) {
    if (!money_add(base, l->cost->kind_total[taxes[tax].kinds[k]], &base)) {
      ledger_overflow(l, line.code, share->at);
      return;
    }
    count += ledger_whys(l, taxes[tax].kinds[k], inputs + count);
  }
  if (count > 0) ledger_add_share(l, line, base, BASE_TOTAL, inputs, count, share);
}

void price_taxes(Ledger *l)
{
  for (size_t i = 0; i < sizeof taxes / sizeof *taxes; i++) add_tax(l, i);
}
