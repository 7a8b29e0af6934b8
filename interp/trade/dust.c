/* dust.c - rows of Table 1 and the look-up. */
#include "trade/dust.h"

#include <string.h>

#include "trade/customary.h"

const char dust_table_edition[] = "29 CFR 1926.1153(c) Table 1 (2016)";

#define SEEN TRADE_CONFIRMED
#define RECALLED TRADE_FROM_MEMORY
#define NO_RESPIRATOR(status) { 0, status }, { 0, status }
#define DRY_FLOOR (DUST_COLLECTOR | DUST_FILTER_99 | DUST_FILTER_CLEANING)
#define HAND_SHROUD (DUST_COLLECTOR | DUST_AIRFLOW_25_CFM_IN | DUST_FILTER_99 | DUST_FILTER_CLEANING)
#define DRILL (DUST_COLLECTOR | DUST_FILTER_99 | DUST_FILTER_CLEANING | DUST_HEPA_FOR_HOLES)

static const DustRow rows[] = {
  { "floor grinder", "wet", DUST_OUTDOORS, DUST_WATER_FEED, NO_RESPIRATOR(SEEN),
    { SEEN, "trade-press reproduction" } },
  { "floor grinder", "wet", DUST_INDOORS, DUST_WATER_FEED, NO_RESPIRATOR(SEEN),
    { SEEN, "trade-press reproduction" } },
  { "floor grinder", "collector", DUST_OUTDOORS, DRY_FLOOR, NO_RESPIRATOR(SEEN),
    { SEEN, "trade-press reproduction" } },
  { "floor grinder", "collector", DUST_INDOORS, DRY_FLOOR | DUST_HEPA_BETWEEN_PASSES, NO_RESPIRATOR(SEEN),
    { SEEN, "trade-press reproduction" } },
  { "handheld grinder", "wet", DUST_OUTDOORS, DUST_WATER_FEED, NO_RESPIRATOR(RECALLED), { RECALLED, "Table 1" } },
  { "handheld grinder", "collector", DUST_OUTDOORS, HAND_SHROUD, NO_RESPIRATOR(RECALLED),
    { SEEN, "airflow and filter: trade-press reproduction" } },
  { "handheld grinder", "collector", DUST_INDOORS, HAND_SHROUD, { 0, RECALLED }, { 10, RECALLED },
    { SEEN, "airflow and filter: trade-press reproduction" } },
  { "mortar grinder", "collector", DUST_OUTDOORS, HAND_SHROUD, { 10, RECALLED }, { 25, RECALLED },
    { SEEN, "airflow: equipment-rental page" } },
  { "mortar grinder", "collector", DUST_INDOORS, HAND_SHROUD, { 10, RECALLED }, { 25, RECALLED },
    { SEEN, "airflow: equipment-rental page" } },
  { "drill", "collector", DUST_OUTDOORS, DRILL, NO_RESPIRATOR(RECALLED), { RECALLED, "Table 1" } },
  { "drill", "collector", DUST_INDOORS, DRILL, NO_RESPIRATOR(RECALLED), { RECALLED, "Table 1" } },
  { "handheld saw", "wet", DUST_OUTDOORS, DUST_WATER_FEED, { 0, SEEN }, { 10, SEEN },
    { SEEN, "state regulation text" } },
  { "handheld saw", "wet", DUST_INDOORS, DUST_WATER_FEED, { 10, SEEN }, { 10, SEEN },
    { SEEN, "state regulation text" } },
  { "walk-behind saw", "wet", DUST_OUTDOORS, DUST_WATER_FEED, NO_RESPIRATOR(SEEN),
    { SEEN, "state regulation text" } },
  { "walk-behind saw", "wet", DUST_INDOORS, DUST_WATER_FEED, { 10, SEEN }, { 10, SEEN },
    { SEEN, "state regulation text" } },
};

const DustRow *dust_row_at(size_t index)
{
  return index < sizeof rows / sizeof *rows ? &rows[index] : NULL;
}

/* *row is the row of the task, or NULL if its equipment has none for this use. Refuses equipment nobody knows. */
static bool find_row(const DustTask *task, const DustRow **row, TradeError *error)
{
  bool is_known = false;
  *row = NULL;
  for (size_t i = 0; dust_row_at(i); i++) {
    if (strcmp(rows[i].equipment, task->equipment) != 0) continue;
    is_known = true;
    if (strcmp(rows[i].method, task->method) == 0 && rows[i].place == task->place) *row = &rows[i];
  }
  if (is_known) return true;
  return trade_refuse(error, TRADE_UNKNOWN, "equipment", 0, "no row of Table 1 here names `%s`", task->equipment);
}

bool dust_check(const DustTask *task, DustVerdict *out, TradeError *error)
{
  const double short_task_h = 4;
  const DustRow *row;
  if (!trade_positive(error, "hours", task->hours) || !trade_in_range(error, "hours", task->hours, 0, 24)
      || !trade_in_range(error, "place", task->place, 0, DUST_PLACES - 1) || !find_row(task, &row, error))
    return false;
  DustVerdict verdict = { .finding = DUST_NO_ROW, .row = row };
  if (row) {
    verdict.missing = row->needs & ~task->controls;
    verdict.finding = verdict.missing ? DUST_ROW_NOT_FOLLOWED : DUST_ROW_FOLLOWED;
    if (!verdict.missing) verdict.respirator = task->hours <= short_task_h ? row->up_to_4h : row->over_4h;
  }
  *out = verdict;
  return true;
}

const char *dust_control_name(DustControl control)
{
  switch (control) {
  case DUST_WATER_FEED: return "integrated water feed";
  case DUST_COLLECTOR: return "shroud and dust collector at the maker's airflow";
  case DUST_FILTER_99: return "filter of 99 % or more";
  case DUST_FILTER_CLEANING: return "filter-cleaning mechanism";
  case DUST_HEPA_BETWEEN_PASSES: return "HEPA vacuum of loose dust between passes";
  case DUST_AIRFLOW_25_CFM_IN: return "25 cfm per inch of wheel";
  case DUST_HEPA_FOR_HOLES: return "HEPA vacuum for holes";
  }
  return "";
}

bool dust_shroud_airflow(double wheel_mm, double *airflow_l_s, TradeError *error)
{
  const double cfm_per_inch = 25;
  if (!trade_in_range(error, "wheel_mm", wheel_mm, 25, 600)) return false;
  *airflow_l_s = wheel_mm / INCH_MM * cfm_per_inch * CFM_L_S;
  return true;
}

const TradeFormula dust_formulas[] = {
  { "dust.check", "row of Table 1 by equipment, method and place; respirator by hours on the row, up to 4 or over",
    { TRADE_CONFIRMED, "29 CFR 1926.1153(c) Table 1; the status of each cell stands in its row" },
    "What Table 1 asks for. A row not followed in full, or a task without one, needs its exposure measured." },
  { "dust.shroud_airflow", "airflow = 25 cfm * wheel in inches",
    { TRADE_CONFIRMED, "29 CFR 1926.1153(c) Table 1, handheld grinders" },
    "Least airflow at the shroud of a handheld grinder." },
  { .id = NULL }
};
