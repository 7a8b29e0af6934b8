/* quantity_support.h - short ways to quantities in tests. Include after support.h. */
#ifndef TESTS_QUANTITY_SUPPORT_H
#define TESTS_QUANTITY_SUPPORT_H

#include <string.h>

#include "base/quantity.h"

/* Reads a text that must be right. */
static inline Quantity read_right(const char *text, UnitRules rules)
{
  Quantity q = { .unit = "" };
  QuantityError error;
  if (!quantity_read(text, strlen(text), rules, &q, &error)) {
    print_error("`%s`: %s\n", text, error.message);
    fail();
  }
  return q;
}

static inline Quantity q_(const char *text) { return read_right(text, (UnitRules){ 0 }); }

/* `what` must have failed with a message and a help that hold these texts. */
static inline void assert_says(const QuantityError *error, const char *what, const char *message, const char *help)
{
  if (strstr(error->message, message) && strstr(error->help, help)) return;
  print_error("%s: message `%s`, help `%s`; want `%s` and `%s`\n", what, error->message, error->help, message,
              help);
  fail();
}

static inline void assert_prints(const Quantity *q, const char *want)
{
  Buf text = { 0 };
  quantity_print(q, &text);
  assert_string_equal(buf_text(&text), want);
  buf_free(&text);
}

#endif
