/* fuzz_quantity.c - any bytes read as a quantity: what is read prints, reads back, fits, converts and reckons. */
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/quantity.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void must(int condition)
{
  if (!condition) abort();
}

static void check_error(const QuantityError *error, size_t length)
{
  must(error->message[0] && error->begin <= error->end && error->end <= length);
  must(memchr(error->message, '\0', sizeof error->message) && memchr(error->help, '\0', sizeof error->help));
}

/* What was printed is legal, and of the same dimension. */
static void check_print(const Quantity *q, UnitRules rules)
{
  Buf text = { 0 }, shown = { 0 };
  Quantity again;
  quantity_print(q, &text);
  must(quantity_read(buf_text(&text), text.length, rules, &again, NULL));
  must(memcmp(&again.dimension, &q->dimension, sizeof q->dimension) == 0);
  quantity_display(q, UNITS_US, 0, &shown);
  quantity_display(q, UNITS_METRIC, 3, &shown);
  buf_free(&text);
  buf_free(&shown);
}

static void check_arithmetic(const Quantity *q)
{
  Quantity result, back, two = quantity_number(2);
  int order;
  if (quantity_multiply(q, q, &result, NULL)) quantity_add(&result, q, &back, NULL);
  if (quantity_divide(&two, q, &result, NULL)) quantity_multiply(&result, q, &back, NULL);
  if (quantity_add(q, q, &result, NULL) && quantity_subtract(&result, q, &back, NULL) && back.exact)
    must(quantity_compare(&back, q, &order, NULL) && order == 0);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  UnitRules rules = { .metric = size && (data[0] & 1), .currency = size && (data[0] & 2) ? "CAD" : NULL };
  const char *text = (const char *)data + (size > 0);
  size_t length = size - (size > 0);
  Quantity q, as;
  QuantityError error;
  if (!quantity_read(text, length, rules, &q, &error)) {
    check_error(&error, length);
    return 0;
  }
  check_print(&q, rules);
  check_arithmetic(&q);
  for (int k = 0; k < KIND_COUNT_LAST; k++) {
    quantity_fits(&q, (Kind)k, &error);
    quantity_as(&q, (Kind)k, &as, &error);
  }
  return 0;
}
