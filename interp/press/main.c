/* main.c - gritwork-press: standard input to standard output, by the ending of the name. */
#include <stdio.h>
#include <string.h>

#include "press/confine.h"
#include "press/press.h"

#if defined(__SANITIZE_ADDRESS__)
/* The text libraries keep their caches until the process ends. */
const char *__asan_default_options(void);
const char *__asan_default_options(void) { return "detect_leaks=0"; }
#endif

static const struct {
  const char *ending;
  void (*confine)(void);
  bool (*make)(const Buf *from);
} makers[] = { { ".pdf", confine_to_fonts, press_pdf }, { ".xlsx", confine_to_output, press_xlsx } };

static bool ends_in(const char *name, const char *ending)
{
  size_t length = strlen(name), end = strlen(ending);
  return length > end && strcmp(name + length - end, ending) == 0;
}

static Buf read_all(FILE *file)
{
  Buf text = { 0 };
  char chunk[65536];
  for (size_t got; (got = fread(chunk, 1, sizeof chunk, file)) > 0;) buf_add(&text, chunk, got);
  return text;
}

int main(int argc, char **argv)
{
  for (size_t i = 0; i < sizeof makers / sizeof *makers; i++) {
    if (argc != 2 || !ends_in(argv[1], makers[i].ending)) continue;
    makers[i].confine();
    Buf text = read_all(stdin);
    bool made = makers[i].make(&text);
    buf_free(&text);
    return made ? 0 : 1;
  }
  fputs("gritwork-press NAME.pdf|NAME.xlsx < TEXT > FILE: gritwork runs it to make its documents\n", stderr);
  return 2;
}
