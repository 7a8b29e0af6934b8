/* examples.h - running the rows of data/worked_examples.csv, the source of each of which stands in its row.
 * Include after support.h. */
#ifndef TESTS_EXAMPLES_H
#define TESTS_EXAMPLES_H

#include "csv.h"

/* The answer to one row from its inputs: a number, or a verdict in the row's own words. */
typedef struct {
  const char *id;
  double (*number)(const char *inputs);
  const char *(*text)(const char *inputs);
} Example;

static inline void example_check(const Csv *csv, const Example *example)
{
  const char *inputs = csv_get(csv, "inputs"), *expected = csv_get(csv, "expected");
  if (example->text) assert_string_equal(example->text(inputs), expected);
  else assert_near(example->number(inputs), strtod(expected, NULL), strtod(csv_get(csv, "tolerance"), NULL));
}

/* Every row whose id starts with `prefix` must have its example and every example its row. */
static inline void examples_check(const char *prefix, const Example *examples, size_t count)
{
  Csv csv;
  size_t checked = 0;
  csv_open(&csv, "worked_examples.csv");
  while (csv_next(&csv)) {
    const char *id = csv_get(&csv, "id");
    if (strncmp(id, prefix, strlen(prefix)) != 0) continue;
    size_t i = 0;
    while (i < count && strcmp(examples[i].id, id) != 0) i++;
    if (i == count) print_error("row %s has no function\n", id);
    assert_true(i < count);
    example_check(&csv, &examples[i]);
    checked++;
  }
  assert_int_equal(checked, count);
}

#endif
