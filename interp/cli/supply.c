#include "cli/supply.h"

#include <errno.h>
#include <string.h>
#include <unistd.h>

#include "base/files.h"

static const char INPUT[] = "-";

static bool is_given(const SuperviseOptions *options, const char *name)
{
  for (size_t i = 0; i < options->file_count; i++)
    if (strcmp(options->files[i], name) == 0) return true;
  return false;
}

/* ---- standard input: read once, before anything else */

static void read_input(Supply *supply)
{
  char chunk[16384];
  ssize_t got;
  while (supply->input_why.length == 0 && (got = read(STDIN_FILENO, chunk, sizeof chunk)) != 0) {
    if (got < 0 && errno != EINTR) buf_puts(&supply->input_why, strerror(errno));
    if (got > 0) buf_add(&supply->input, chunk, (size_t)got);
    if (supply->input.length > PORT_READ_LARGEST) buf_puts(&supply->input_why, files_why(FILES_TOO_LARGE));
  }
}

static bool give_input(const Supply *supply, Buf *text, Buf *shown, Buf *why)
{
  buf_puts(why, buf_text(&supply->input_why));
  buf_puts(shown, "standard input");
  buf_add(text, buf_text(&supply->input), supply->input.length);
  return supply->input_why.length == 0;
}

void supply_begin(Supply *supply, const SuperviseOptions *options, Replacing *replacing)
{
  *supply = (Supply){ .options = options, .replacing = replacing };
  if (is_given(options, INPUT)) read_input(supply);
}

void supply_end(Supply *supply)
{
  buf_free(&supply->input);
  buf_free(&supply->input_why);
}

/* ---- files and modules */

/* What was appended to `text` behind `before` may be replaced later. */
static void note_given(Supply *supply, const char *shown, const char *root, const char *path, const Buf *text,
                       size_t before)
{
  if (supply->options->may_replace)
    replacing_note(supply->replacing, shown, root, path, buf_text(text) + before, text->length - before);
}

static bool read_file(Supply *supply, const char *name, Buf *text, Buf *shown, Buf *why)
{
  if (!is_given(supply->options, name)) {
    buf_puts(why, "it was not named on the command line");
    return false;
  }
  if (strcmp(name, INPUT) == 0) return give_input(supply, text, shown, why);
  buf_puts(shown, name);
  size_t before = text->length;
  FilesStatus status = files_read(name, PORT_READ_LARGEST, text);
  if (status != FILES_OK) buf_puts(why, files_why(status));
  else note_given(supply, name, NULL, name, text, before);
  return status == FILES_OK;
}

/* "methods.cream_wet" below "recipes" is shown as recipes/methods/cream_wet.lua. */
static bool read_module(Supply *supply, const char *root, const char *module, Buf *text, Buf *shown, Buf *why)
{
  Buf path = { 0 };
  for (const char *c = module; *c; c++) buf_putc(&path, *c == '.' ? '/' : *c);
  buf_puts(&path, ".lua");
  size_t before = text->length;
  FilesStatus status = files_read_below(root, buf_text(&path), PORT_READ_LARGEST, text);
  if (strcmp(root, ".") != 0) buf_printf(shown, "%s/", root);
  buf_puts(shown, buf_text(&path));
  if (status == FILES_OK && root == supply->options->root)
    note_given(supply, buf_text(shown), root, buf_text(&path), text, before);
  buf_free(&path);
  if (status != FILES_OK) buf_puts(why, files_why(status));
  return status == FILES_OK;
}

bool supply_read(void *context, PortFrom from, const char *name, Buf *text, Buf *shown, Buf *why)
{
  Supply *supply = context;
  const SuperviseOptions *options = supply->options;
  if (from == PORT_FILE) return read_file(supply, name, text, shown, why);
  const char *folder = from == PORT_MODULE ? options->root : from == PORT_STDLIB ? options->stdlib_folder : NULL;
  if (folder && port_is_module(name, strlen(name))) return read_module(supply, folder, name, text, shown, why);
  buf_puts(why, "no such module");
  return false;
}
