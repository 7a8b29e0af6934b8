/* grit.c - reading grit numbers, looking up grain sizes, judging the step from one to the next. */
#include "trade/grit.h"

#include <assert.h>
#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

const TradeFormula grit_formulas[] = {
  { "grit.size",
    "size of the grade in its system's table; between grades, linear in log number and log size",
    { TRADE_CONFIRMED, "tables of ISO 6344, JIS R 6001, ASTM E11, ISO 6106, CAMI; ISO 8486 from memory" },
    "Median or mean grain size in um of a grit number. Refused outside the tables, and between sieves or "
    "diamond codes, which are names and no scale. An interpolated size says so." },
  { "grit.pad", "pad number -> FEPA F from 6, FEPA P from 12, CAMI from 24 to 1000, JIS from 1200",
    TRADE_RULE_OF_THUMB,
    "Numbers on floor pads and segments belong to no standard; they are read as the standard that prints such "
    "plain numbers in North America, and beyond its ends as the one that joins on most smoothly." },
  { "grit.step", "ratio = next number / last number; good below 2.5, long to 3, skipped above", TRADE_RULE_OF_THUMB,
    "Judges the step to the next abrasive. Across systems the ratio of grain sizes is used. A change to a "
    "later bond family may repeat the grit or step back to half the number." },
  { "grit.sieve_pitch",
    "pitch = 25400 / mesh",
    { TRADE_CONFIRMED, "public reference page; the opening is less by the wire: look it up" },
    "Distance of the wires of a cloth with that many meshes an inch, in um. It is not the opening." },
  { 0 }
};

typedef struct {
  const char *name, *prefix; /* prefix as in the standard's own print */
  bool scale;                /* numbers count up with fineness, so that between them one can interpolate */
  const char *source;
} SystemInfo;

static const SystemInfo systems[GRIT_SYSTEMS] = {
  [GRIT_P] = { "FEPA P", "P", true, "ISO 6344, averages as tabulated on two public reference pages" },
  [GRIT_F] = { "FEPA F", "F", true, "ISO 8486, nominal diameters and medians" },
  [GRIT_JIS] = { "JIS", "#", true, "JIS R 6001, 1987 edition, on a public reference page" },
  [GRIT_CAMI] = { "CAMI", "CAMI ", true, "ANSI B74.18 averages as tabulated on a public reference page" },
  [GRIT_SIEVE] = { "ASTM E11", "No. ", false, "ASTM E11 table 1, nominal openings" },
  [GRIT_SIEVE_OLD] = { "old US sieve", "No. ", false, "superseded inch series, still printed on public charts" },
  [GRIT_DIAMOND] = { "FEPA D", "D", false, "ISO 6106 on tool makers' technical pages; middle of the sieve pair" },
  [GRIT_PAD] = { "pad number", "", true, "common practice, no source: the standard grade it is read as" },
};

const char *grit_system_name(GritSystem system)
{
  assert(system < GRIT_SYSTEMS);
  return systems[system].name;
}

const char *grit_system_source(GritSystem system)
{
  assert(system < GRIT_SYSTEMS);
  return systems[system].source;
}

/* Longer ones first where one begins another. */
static const struct { const char *text; GritSystem system; } prefixes[] = {
  { "JIS #", GRIT_JIS }, { "JIS", GRIT_JIS }, { "#", GRIT_JIS }, { "CAMI", GRIT_CAMI }, { "No.", GRIT_SIEVE },
  { "P", GRIT_P }, { "F", GRIT_F }, { "D", GRIT_DIAMOND }, { "", GRIT_PAD },
};

/* Digits and at most one point, to the end of the text; no sign, no exponent, no locale. */
static bool read_number(const char *text, double *out)
{
  double value = 0, place = 0;
  if (!isdigit((unsigned char)*text) || strlen(text) > 9) return false;
  for (; *text; text++) {
    if (*text == '.' && place == 0) place = 1;
    else if (!isdigit((unsigned char)*text)) return false;
    else {
      value = value * 10 + (*text - '0');
      place *= 10;
    }
  }
  *out = place > 1 ? value / place : value;
  return true;
}

bool grit_read(const char *text, Grit *out, TradeError *error)
{
  size_t i = 0, length;
  while (length = strlen(prefixes[i].text), strncmp(text, prefixes[i].text, length) != 0) i++;
  const char *rest = text + length;
  while (*rest == ' ') rest++;
  double number;
  if (!read_number(rest, &number))
    return trade_refuse(error, TRADE_UNKNOWN, "grit", 0,
                        "`%.40s` is no grit; write 400 for a pad, P400, F400, #400, CAMI 400, No. 200 or D126",
                        text);
  *out = (Grit){ prefixes[i].system, number };
  return true;
}

/* Whole numbers from and to, both included; see the header for the grounds. Between 1000 and 1200 CAMI has ended
 * and JIS still runs coarser than CAMI 1000, so that a finer number would read as a coarser grain. */
static const struct { double from, to; GritSystem system; } pad_readings[] = {
  { 6, 11, GRIT_F }, { 12, 23, GRIT_P }, { 24, 1000, GRIT_CAMI }, { 1200, 8000, GRIT_JIS },
};

static bool read_pad(double number, Grit *out, TradeError *error)
{
  if (!trade_in_range(error, "grit", number, 6, 8000)) return false;
  for (size_t i = 0; i < sizeof pad_readings / sizeof *pad_readings; i++)
    if (number >= pad_readings[i].from && number <= pad_readings[i].to && number == floor(number)) {
      *out = (Grit){ pad_readings[i].system, number };
      return true;
    }
  return trade_refuse(error, TRADE_UNKNOWN, "grit", number,
                      "%g is no usual pad number; name its system (#%g, P%g) or its grain size", number, number,
                      number);
}

/* Rows of the system on both sides of the number; the same row twice if it is there; NULL past an end. */
static void find_rows(Grit grit, const GritRow **below, const GritRow **above)
{
  *below = *above = NULL;
  for (size_t i = 0; i < grit_table_count; i++) {
    const GritRow *row = &grit_table[i];
    if (row->system != grit.system) continue;
    if (row->number <= grit.number && (!*below || row->number > (*below)->number)) *below = row;
    if (row->number >= grit.number && (!*above || row->number < (*above)->number)) *above = row;
  }
}

static bool refuse_outside(Grit grit, const GritRow *end, TradeError *error)
{
  assert(end); /* every system has rows */
  const SystemInfo *s = &systems[grit.system];
  return trade_refuse(error, TRADE_OUT_OF_RANGE, "grit", grit.number,
                      "no published size for %s%g: the table of %s ends at %s (%g um)", s->prefix, grit.number,
                      s->name, end->name, end->size_um);
}

static bool refuse_between(Grit grit, const GritRow *below, const GritRow *above, TradeError *error)
{
  const SystemInfo *s = &systems[grit.system];
  return trade_refuse(error, TRADE_UNKNOWN, "grit", grit.number, "%s has no %s%g; it has %s (%g um) and %s (%g um)",
                      s->name, s->prefix, grit.number, below->name, below->size_um, above->name, above->size_um);
}

static double log_log(const GritRow *a, const GritRow *b, double number)
{
  double share = log(number / a->number) / log(b->number / a->number);
  return a->size_um * exp(share * log(b->size_um / a->size_um));
}

static bool look_up(Grit grit, GritSize *out, TradeError *error)
{
  const GritRow *below, *above;
  find_rows(grit, &below, &above);
  if (!below || !above) return refuse_outside(grit, below ? below : above, error);
  const char *source = grit_system_source(grit.system);
  if (below == above) {
    *out = (GritSize){ below->size_um, grit, false, below, below, { below->status, source } };
    return true;
  }
  if (!systems[grit.system].scale) return refuse_between(grit, below, above, error);
  *out = (GritSize){ log_log(below, above, grit.number), grit, true, below, above, { TRADE_COMPUTED, source } };
  return true;
}

bool grit_size(Grit grit, GritSize *out, TradeError *error)
{
  assert(grit.system < GRIT_SYSTEMS);
  if (!trade_positive(error, "grit", grit.number)) return false;
  bool pad = grit.system == GRIT_PAD;
  if (pad && !read_pad(grit.number, &grit, error)) return false;
  if (!look_up(grit, out, error)) return false;
  if (pad) out->basis = (Basis){ TRADE_COMMON_PRACTICE, grit_system_source(GRIT_PAD) };
  return true;
}

/* Every pad number in order, coarse to fine; see pad_readings. */
enum { PADS = (1000 - 6 + 1) + (8000 - 1200 + 1) };

static double pad_at(int index)
{
  return index <= 1000 - 6 ? 6 + index : 1200 + (index - (1000 - 6 + 1));
}

static double pad_size_um(int index)
{
  GritSize size = { 0 };
  bool known = grit_size((Grit){ GRIT_PAD, pad_at(index) }, &size, NULL);
  assert(known);
  (void)known;
  return size.size_um;
}

bool grit_as_pad(Grit grit, double *pad_number, TradeError *error)
{
  GritSize wanted;
  if (!grit_size(grit, &wanted, error)) return false;
  int coarse = 0, fine = PADS - 1; /* sizes fall from the one to the other */
  if (!trade_in_range(error, "grit", wanted.size_um, pad_size_um(fine), pad_size_um(coarse))) return false;
  while (fine - coarse > 1) {
    int middle = (coarse + fine) / 2;
    if (pad_size_um(middle) >= wanted.size_um) coarse = middle;
    else fine = middle;
  }
  bool nearer_fine = wanted.size_um * wanted.size_um < pad_size_um(coarse) * pad_size_um(fine);
  *pad_number = pad_at(nearer_fine ? fine : coarse);
  return true;
}

bool grit_size_ratio(Grit coarse, Grit fine, double *ratio, TradeError *error)
{
  GritSize a = { 0 }, b = { 0 };
  if (!grit_size(coarse, &a, error) || !grit_size(fine, &b, error)) return false;
  *ratio = a.size_um / b.size_um;
  return true;
}

bool grit_sieve_pitch(double mesh, double *pitch_um, TradeError *error)
{
  if (!trade_positive(error, "mesh", mesh)) return false;
  *pitch_um = 25400 / mesh;
  return true;
}

static GritVerdict judge(double ratio, int families_on)
{
  const double same = 1e-9, half = 0.5, long_from = 2.5, skipped_over = 3;
  if (families_on < 0) return GRIT_STEP_BACK;
  if (families_on > 0 && ratio >= half - same && ratio < long_from) return GRIT_STEP_GOOD;
  if (fabs(ratio - 1) <= same) return GRIT_STEP_REPEAT;
  if (ratio < 1) return GRIT_STEP_BACK;
  return ratio < long_from ? GRIT_STEP_GOOD : ratio <= skipped_over ? GRIT_STEP_LONG : GRIT_STEP_SKIPPED;
}

bool grit_step(Grit last, BondFamily last_bond, Grit next, BondFamily next_bond, GritStep *out, TradeError *error)
{
  GritStep step = { .family_change = last_bond != next_bond };
  if (!grit_size_ratio(last, next, &step.size_ratio, error)) return false;
  bool by_number = last.system == next.system && systems[next.system].scale;
  if (by_number) step.number_ratio = next.number / last.number;
  step.judged_by = by_number ? step.number_ratio : step.size_ratio;
  step.verdict = judge(step.judged_by, (int)next_bond - (int)last_bond);
  *out = step;
  return true;
}
