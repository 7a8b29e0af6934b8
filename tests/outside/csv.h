/* csv.h - reading the copied tables in tests/outside/data: quoted fields, a header line, no line breaks in fields.
 * Include after support.h. Tests run from the root of the project. */
#ifndef TESTS_CSV_H
#define TESTS_CSV_H

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { CSV_FIELDS_MAX = 16, CSV_LINE_MAX = 2048 };

typedef struct {
  FILE *file;
  char header_text[CSV_LINE_MAX], row_text[CSV_LINE_MAX];
  char *header[CSV_FIELDS_MAX], *field[CSV_FIELDS_MAX];
  size_t columns;
} Csv;

/* Splits a line in place. */
static inline size_t csv_split(char *line, char *fields[CSV_FIELDS_MAX])
{
  size_t count = 0;
  char *read = line, *write = line;
  line[strcspn(line, "\r\n")] = '\0';
  do {
    assert_true(count < CSV_FIELDS_MAX);
    fields[count++] = write;
    bool quoted = *read == '"';
    if (quoted) read++;
    while (*read && (quoted || *read != ',')) {
      if (quoted && *read == '"' && *++read != '"') quoted = false;
      else *write++ = *read++;
    }
    bool more = *read++ == ',';
    *write++ = '\0';
    if (!more) break;
  } while (true);
  return count;
}

static inline void csv_open(Csv *csv, const char *name)
{
  char path[256];
  snprintf(path, sizeof path, "tests/outside/data/%s", name);
  csv->file = fopen(path, "r");
  if (!csv->file) print_error("cannot open %s: run the tests from the root of the project\n", path);
  assert_non_null(csv->file);
  assert_non_null(fgets(csv->header_text, sizeof csv->header_text, csv->file));
  csv->columns = csv_split(csv->header_text, csv->header);
}

/* The next row; at the end closes the file and answers false. */
static inline bool csv_next(Csv *csv)
{
  if (!fgets(csv->row_text, sizeof csv->row_text, csv->file)) {
    fclose(csv->file);
    return false;
  }
  assert_int_equal(csv_split(csv->row_text, csv->field), csv->columns);
  return true;
}

static inline const char *csv_get(const Csv *csv, const char *column)
{
  for (size_t i = 0; i < csv->columns; i++)
    if (strcmp(csv->header[i], column) == 0) return csv->field[i];
  print_error("there is no column %s\n", column);
  fail();
  return NULL;
}

/* The number that follows `before` in a text: csv_number("n=1.567; angle=20 deg", "angle=") is 20. */
static inline double csv_number(const char *text, const char *before)
{
  const char *at = strstr(text, before);
  if (!at) print_error("no `%s` in `%s`\n", before, text);
  assert_non_null(at);
  return strtod(at + strlen(before), NULL);
}

#endif
