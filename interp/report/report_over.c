#include "report/report_over.h"

#include <string.h>

#include "base/json.h"
#include "base/text.h"
#include "report/page.h"

enum { GAP = 2, MONEY = 14, FINISH = 20, SHORTEST = 8 };

static const char *const said[OVER_STATUSES] = { [OVER_UNDONE] = "cannot be done", [OVER_REFUSED] = "refused" };
static const char *const names_of_status[OVER_STATUSES] = { "priced", "cannot be done", "refused" };

/* ---- for people */

static void price_text(const OverTable *table, const OverRow *row, Buf *out)
{
  if (row->status == OVER_PRICED) money_print(row->price, table->currency, out);
  else buf_puts(out, said[row->status]);
}

static int widest(int cells, const char *text)
{
  int wanted = text_width(text, strlen(text));
  return wanted > cells ? wanted : cells;
}

static int price_cells(const OverTable *table)
{
  int cells = MONEY;
  for (int i = 0; i < table->row_count; i++) {
    Buf text = { 0 };
    price_text(table, &table->rows[i], &text);
    cells = widest(cells, buf_text(&text));
    buf_free(&text);
  }
  return cells;
}

/* As wide as the name or the widest value, and no wider than the page allows: the name is said in full on top. */
static int value_cells(const OverTable *table, int which, int room)
{
  int cells = widest(SHORTEST, table->name[which]);
  for (int i = 0; i < table->row_count; i++) cells = widest(cells, table->rows[i].value[which]);
  return cells < room ? cells : room;
}

static void put_row(Buf *out, const char *const *values, int count, const int *cells, const char *price, int money,
                    const char *finish)
{
  for (int i = 0; i < count; i++) {
    page_left(out, values[i], cells[i]);
    buf_repeat(out, ' ', GAP);
  }
  page_right(out, price, money);
  buf_repeat(out, ' ', GAP);
  page_left(out, finish, FINISH);
  page_end_line(out);
}

static void put_table(const OverTable *table, int width, Buf *out)
{
  int money = price_cells(table), cells[OVER_NAMES], used = money + GAP + FINISH;
  int room = (width - used) / table->name_count - GAP;
  for (int i = 0; i < table->name_count; i++) {
    cells[i] = value_cells(table, i, room < SHORTEST ? SHORTEST : room);
    used += cells[i] + GAP;
  }
  put_row(out, table->name, table->name_count, cells, "Price", money, "Finish");
  page_rule(out, '-', used);
  for (int i = 0; i < table->row_count; i++) {
    const OverRow *row = &table->rows[i];
    Buf price = { 0 };
    price_text(table, row, &price);
    put_row(out, row->value, table->name_count, cells, buf_text(&price), money, row->finish ? row->finish : "");
    buf_free(&price);
  }
}

static void put_crossing(const OverTable *table, int width, Buf *out)
{
  Buf text = { 0 };
  if (table->crossing) {
    buf_printf(&text, "%s=%s is the first value at which the price is on the other side of ", table->name[0],
               table->crossing->value[0]);
    money_print(table->target, table->currency, &text);
    buf_puts(&text, ": ");
    money_print(table->crossing->price, table->currency, &text);
  } else {
    buf_puts(&text, "the price stays on one side over the whole range");
  }
  page_fold(out, "", buf_text(&text), width, 0);
  buf_free(&text);
}

void report_over_text(const OverTable *table, int width, Buf *out)
{
  if (table->has_target) {
    put_crossing(table, width, out);
    return;
  }
  page_fold(out, "WHAT IF   ", table->job, width, 0);
  page_rule(out, '=', width);
  for (int i = 0; i < table->name_count; i++)
    page_fold(out, i == 0 ? "over      " : "and       ", table->name[i], width, 0);
  if (table->note) page_fold(out, "note      ", table->note, width, 0);
  buf_putc(out, '\n');
  put_table(table, width, out);
}

/* ---- for programs */

static void cents(JsonWriter *j, const char *key, Money value) { json_decimal(j, key, value / MONEY_CENT, 2); }

static void put_json_row(JsonWriter *j, const char *key, const OverTable *table, const OverRow *row)
{
  json_object(j, key);
  json_array(j, "values");
  for (int i = 0; i < table->name_count; i++) json_text(j, NULL, row->value[i]);
  json_end(j);
  json_text(j, "status", names_of_status[row->status]);
  if (row->status == OVER_PRICED) {
    cents(j, "direct", row->direct);
    cents(j, "cost", row->cost);
    cents(j, "price", row->price);
    json_text(j, "finish", row->instant);
  }
  json_end(j);
}

void report_over_json(const OverTable *table, Buf *out)
{
  JsonWriter j = json_begin(out);
  json_object(&j, NULL);
  json_text(&j, "format", "gritwork-over");
  json_integer(&j, "version", 1);
  json_text(&j, "job", table->job);
  json_text(&j, "currency", table->currency);
  json_array(&j, "names");
  for (int i = 0; i < table->name_count; i++) json_text(&j, NULL, table->name[i]);
  json_end(&j);
  if (table->has_target) {
    cents(&j, "target", table->target);
    if (table->crossing) put_json_row(&j, "crossing", table, table->crossing);
    else json_null(&j, "crossing");
  } else {
    json_array(&j, "rows");
    for (int i = 0; i < table->row_count; i++) put_json_row(&j, NULL, table, &table->rows[i]);
    json_end(&j);
  }
  json_end(&j);
  json_finish(&j);
}
