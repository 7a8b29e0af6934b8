/* price_goods.c - what is bought: tools by the share worn, materials by the package, and extras. */
#include <stddef.h>
#include <string.h>

#include "cost/ledger.h"
#include "cost/show.h"
#include "trade/packages.h"
#include "trade/wear.h"

static Span first_use(const Ledger *l, const Behind *behind)
{
  return l->takeoff->plan->activities[behind->index[0]].at;
}

/* ---- tools */

static const ToolPrice *tool_price(const Prices *prices, const char *name)
{
  for (int i = 0; i < prices->tool_count; i++)
    if (strcmp(prices->tools[i].name, name) == 0 && prices->tools[i].per_set.given) return &prices->tools[i];
  return NULL;
}

static const char **names_of_tools(const Ledger *l)
{
  const char **names = arena_array(l->arena, (size_t)l->prices->tool_count + 1, sizeof *names);
  for (int i = 0; i < l->prices->tool_count; i++) names[i] = l->prices->tools[i].name;
  return names;
}

/* Without a life in the price book one set is taken to last the job, and that is listed as an assumption. */
static bool has_life(const ToolPrice *price) { return price->life_m2.given && price->life_m2.figure.value > 0; }

static Figure sets_worn(const Ledger *l, const ToolUse *use, const ToolPrice *price, const WearSets *worn)
{
  const char *what = arena_printf(l->arena, "sets of %s worn", use->tool);
  if (!has_life(price))
    return why_default(l->why, what, worn->share, "set", price->at, "no life in the price book: one lasts the job");
  return why_worked(l->why, what, "set", "floor / life of a set", why_ratio,
                    (Figure[]){ use->floor_m2, price->life_m2.figure }, 2);
}

static const char *tool_basis(const Ledger *l, const ToolUse *use, const ToolPrice *price, const WearSets *worn)
{
  const char *floor = show_text(l->arena, use->floor_m2.value, "m2", KIND_AREA, l->job->metric);
  if (!has_life(price)) return arena_printf(l->arena, "%s; no life known, one set assumed", floor);
  const char *life = show_text(l->arena, price->life_m2.figure.value, "m2", KIND_AREA, l->job->metric);
  return arena_printf(l->arena, "%s over %s a set; worn share charged, bring %d set%s", floor, life, worn->sets,
                      worn->sets == 1 ? "" : "s");
}

static void add_tool(Ledger *l, const ToolUse *use, const ToolPrice *price)
{
  WearSets worn = { .share = 1, .sets = 1 };
  TradeError error;
  const char *code = arena_printf(l->arena, "TOOL-%s", use->tool);
  ledger_use_price(l, arena_printf(l->arena, "the price of `%s`", use->tool), PRICE_BOUGHT, &price->days,
                   price->at);
  if (has_life(price) && !wear_sets(use->floor_m2.value, price->life_m2.figure.value, 0, &worn, &error)) {
    ledger_overflow(l, code, price->at);
    return;
  }
  CostLine line = { .kind = LINE_TOOL, .code = code, .what = use->tool, .unit = "set",
                    .basis = tool_basis(l, use, price, &worn), .behind = use->behind, .sets = worn.sets };
  ledger_add(l, line, sets_worn(l, use, price, &worn), &price->per_set);
}

void price_tools(Ledger *l)
{
  for (int i = 0; i < l->takeoff->tool_count; i++) {
    const ToolUse *use = &l->takeoff->tools[i];
    const ToolPrice *price = tool_price(l->prices, use->tool);
    if (price == NULL) {
      ledger_missing(l, "tool", use->tool, first_use(l, &use->behind), names_of_tools(l), l->prices->tool_count);
      continue;
    }
    add_tool(l, use, price);
  }
}

/* ---- materials */

static const MaterialPrice *material_price(const Prices *prices, const char *name)
{
  for (int i = 0; i < prices->material_count; i++)
    if (strcmp(prices->materials[i].name, name) == 0) return &prices->materials[i];
  return NULL;
}

static const char **names_of_materials(const Ledger *l)
{
  const char **names = arena_array(l->arena, (size_t)l->prices->material_count + 1, sizeof *names);
  for (int i = 0; i < l->prices->material_count; i++) names[i] = l->prices->materials[i].name;
  return names;
}

/* The sizes that can be bought, by the volume that each gives, with its place in the price book. */
typedef struct {
  PackageSize sizes[PACKAGE_SIZES];
  const Package *packages[PACKAGE_SIZES];
  int count;
} Shelf;

static Shelf shelf_of(const MaterialPrice *material)
{
  Shelf shelf = { .count = 0 };
  for (int i = 0; i < material->package_count && shelf.count < PACKAGE_SIZES; i++) {
    const Package *p = &material->packages[i];
    double litres = p->measure == PACK_VOLUME_L ? p->size : p->gives_l.figure.value;
    if (litres <= 0 || !p->price.given) continue;
    shelf.packages[shelf.count] = p;
    shelf.sizes[shelf.count++] = (PackageSize){ litres, p->price.money };
  }
  return shelf;
}

/* To two decimals: whole packages hang on a little more or less. */
static void put_volume(const Ledger *l, double litres, Buf *out)
{
  const char *unit = kind_unit(KIND_VOLUME, l->job->metric ? UNITS_METRIC : UNITS_US);
  Quantity q = quantity_of(litres, "L");
  QuantityError error;
  double value = litres;
  if (!quantity_in(&q, unit, &value, &error)) unit = "L";
  show_number(out, value, 2);
  buf_printf(out, " %s", unit);
}

/* "9.3 gal -> 1 x 5 gal, 5 x 1 gal; 0.7 gal left" */
static const char *mix_basis(const Ledger *l, double litres, const Shelf *shelf, const PackageMix *mix)
{
  Buf text = { 0 };
  put_volume(l, litres, &text);
  const char *between = " -> ";
  for (int i = 0; i < shelf->count; i++) {
    if (mix->count[i] == 0) continue;
    buf_printf(&text, "%s%d x %s", between, mix->count[i], shelf->packages[i]->label);
    between = ", ";
  }
  if (mix->left_over > 1e-6 * litres) {
    buf_puts(&text, "; ");
    put_volume(l, mix->left_over, &text);
    buf_puts(&text, " left");
  }
  if (mix->least_price < mix->price) {
    buf_puts(&text, "; no mix costs less than ");
    money_print(mix->least_price, l->cost->currency, &text);
  }
  const char *kept = arena_strdup(l->arena, buf_text(&text));
  buf_free(&text);
  return kept;
}

static void add_packages(Ledger *l, const MaterialUse *use, const Shelf *shelf, const PackageMix *mix)
{
  const char *basis = mix_basis(l, use->litres.value, shelf, mix);
  for (int i = 0; i < shelf->count; i++) {
    if (mix->count[i] == 0) continue;
    const Package *package = shelf->packages[i];
    const char *what = arena_printf(l->arena, "packages of %s, %s", use->material, package->label);
    Figure count = ledger_in_proportion(l, what, "", "packages.cover", mix->count[i], use->litres);
    CostLine line = { .kind = LINE_MATERIAL, .unit = "package", .basis = basis, .behind = use->behind };
    ledger_use_price(l, arena_printf(l->arena, "the price of `%s`, %s,", use->material, package->label),
                     PRICE_BOUGHT, &package->days, package->at);
    line.code = arena_printf(l->arena, "MAT-%s %s", use->material, package->label);
    line.what = arena_printf(l->arena, "%s, %s", use->material, package->label);
    ledger_add(l, line, count, &package->price);
  }
}

static void no_volume(Ledger *l, const MaterialUse *use, const MaterialPrice *material)
{
  l->cost->complete = false;
  diags_add(l->diags, &(Diag){
    .level = DIAG_ERROR,
    .code = "price-unit",
    .message = arena_printf(l->arena, "the work needs a volume of `%s`, but no package of it says what it gives",
                            use->material),
    .at = first_use(l, &use->behind),
    .labels = { { material->at, "its packages" } },
    .label_count = span_is_nowhere(material->at) ? 0 : 1,
    .help = "price it by a volume, or say what volume a bag or a piece makes: gives = \"6.2 gal\"",
  });
}

static void no_mix(Ledger *l, const MaterialUse *use, const MaterialPrice *material, const TradeError *error)
{
  l->cost->complete = false;
  diags_error(l->diags, "cost-overflow", material->at, "no mix of packages for `%s`: %s", use->material,
              error->message);
}

static void price_material(Ledger *l, const MaterialUse *use, const MaterialPrice *material)
{
  PackageMix mix;
  TradeError error;
  Shelf shelf = shelf_of(material);
  if (shelf.count == 0)
    no_volume(l, use, material);
  else if (packages_cover(use->litres.value, shelf.sizes, shelf.count, &mix, &error))
    add_packages(l, use, &shelf, &mix);
  else
    no_mix(l, use, material, &error);
}

void price_materials(Ledger *l)
{
  for (int i = 0; i < l->takeoff->material_count; i++) {
    const MaterialUse *use = &l->takeoff->materials[i];
    const MaterialPrice *material = material_price(l->prices, use->material);
    if (material) price_material(l, use, material);
    else ledger_missing(l, "material", use->material, first_use(l, &use->behind), names_of_materials(l),
                        l->prices->material_count);
  }
}

/* ---- extras */

/* A price is multiplied in the unit it was written per, so that it stays exact. */
static const struct {
  size_t figure_at; /* in Takeoff */
  double si;        /* of one unit */
  const char *unit, *basis;
} counted[PER_KINDS] = {
  [PER_JOB] = { offsetof(Takeoff, job), 1, "job", "once a job" },
  [PER_AREA] = { offsetof(Takeoff, areas), 1, "area", "areas of the job" },
  [PER_M2] = { offsetof(Takeoff, floor_m2), 1, "m2", "floor of the job" },
  [PER_SQFT] = { offsetof(Takeoff, floor_m2), 0.09290304, "sqft", "floor of the job" },
  [PER_M] = { offsetof(Takeoff, joint_m), 1, "m", "joints of the job" },
  [PER_FT] = { offsetof(Takeoff, joint_m), 0.3048, "ft", "joints of the job" },
  [PER_DAY] = { offsetof(Takeoff, days), 1, "day", "days worked on site" },
  [PER_PERSON_DAY] = { offsetof(Takeoff, person_days), 1, "person day", "persons times days on which they work" },
  [PER_READING] = { offsetof(Takeoff, readings), 1, "reading", "readings of the checks" },
  [PER_LITRE_SLURRY] = { offsetof(Takeoff, slurry_l), 1, "L", "slurry collected" },
  [PER_GALLON_SLURRY] = { offsetof(Takeoff, slurry_l), 3.785411784, "gal", "slurry collected" },
};

static Figure extra_quantity(Ledger *l, const ExtraPrice *extra)
{
  Figure figure = *(const Figure *)((const char *)l->takeoff + counted[extra->per].figure_at);
  if (counted[extra->per].si != 1) {
    const Figure terms[] = { figure, { counted[extra->per].si, 0 } };
    figure = why_worked(l->why, counted[extra->per].basis, counted[extra->per].unit, "in the unit of the price",
                        why_ratio, terms, 2);
  }
  if (!extra->times.given) return figure;
  const Figure terms[] = { figure, extra->times.figure };
  return why_worked(l->why, extra->name, "", "times x count", why_product, terms, 2);
}

/* "days worked on site, 5 x 42" */
static const char *extra_basis(const Ledger *l, const ExtraPrice *extra)
{
  const char *basis = counted[extra->per].basis;
  if (!extra->times.given) return basis;
  const Figure *figure = (const Figure *)((const char *)l->takeoff + counted[extra->per].figure_at);
  Buf text = { 0 };
  buf_printf(&text, "%s, ", basis);
  show_number(&text, figure->value / counted[extra->per].si, 2);
  buf_puts(&text, " x ");
  show_number(&text, extra->times.figure.value, 4);
  basis = arena_strdup(l->arena, buf_text(&text));
  buf_free(&text);
  return basis;
}

static void add_allowance(Ledger *l, const Allowance *allowance)
{
  CostLine line = { .kind = LINE_EXTRA, .code = arena_printf(l->arena, "ALLOW-%s", allowance->name),
                    .what = arena_printf(l->arena, "allowance, %s", allowance->name), .unit = "job",
                    .basis = "a sum the job carries, settled against what is spent" };
  ledger_add(l, line, (Figure){ 1, 0 }, &allowance->sum);
}

void price_extras(Ledger *l)
{
  for (int i = 0; i < l->prices->extra_count; i++) {
    const ExtraPrice *extra = &l->prices->extras[i];
    if (!extra->price.given) continue;
    ledger_use_price(l, arena_printf(l->arena, "the price of `%s`", extra->name), PRICE_PAID_ON, &extra->days,
                     extra->at);
    CostLine line = { .kind = LINE_EXTRA, .code = arena_printf(l->arena, "EXTRA-%s", extra->name),
                      .what = extra->name, .unit = extra->times.given ? "each" : counted[extra->per].unit,
                      .basis = extra_basis(l, extra) };
    ledger_add(l, line, extra_quantity(l, extra), &extra->price);
  }
  for (int i = 0; i < l->job->allowance_count; i++)
    if (l->job->allowances[i].sum.given) add_allowance(l, &l->job->allowances[i]);
}
