/* replay.c - runs a fuzz target over its stored inputs, as a test. The folder is found from the program's own
 * name. */
#include <dirent.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/files.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static int compare(const void *a, const void *b) { return strcmp(*(char *const *)a, *(char *const *)b); }

static void replay(const char *folder, const char *name)
{
  Buf path = { 0 }, text = { 0 };
  buf_printf(&path, "%s/%s", folder, name);
  if (files_read(buf_text(&path), 1 << 24, &text) == FILES_OK)
    LLVMFuzzerTestOneInput((const uint8_t *)buf_text(&text), text.length);
  buf_free(&path);
  buf_free(&text);
}

int main(int argc, char **argv)
{
  (void)argc;
  const char *target = strstr(argv[0], "replay_");
  char folder[256], *names[4096];
  int count = 0;
  snprintf(folder, sizeof folder, "tests/fuzz/corpus/%s", target ? target + strlen("replay_") : "");
  DIR *dir = opendir(folder);
  if (!dir) {
    printf("no folder %s\n", folder);
    return 1;
  }
  for (struct dirent *e; (e = readdir(dir)) && count < 4096;)
    if (e->d_name[0] != '.') names[count++] = strdup(e->d_name);
  closedir(dir);
  qsort(names, (size_t)count, sizeof *names, compare);
  for (int i = 0; i < count; i++) {
    replay(folder, names[i]);
    free(names[i]);
  }
  if (count == 0) return 1;
  printf("[       OK ] replay_%s\n", folder);
  return 0;
}
