#include "cli/fixing.h"

#include <stdlib.h>
#include <string.h>

#include "base/line_diff.h"
#include "base/mem.h"
#include "base/text.h"

typedef struct {
  char *shown;
  Buf settled, now;
  int settled_fixes, fixes;
} Text;

struct Fixing {
  Text *texts;
  size_t count, room;
};

Fixing *fixing_new(void) { return mem_alloc(sizeof(Fixing)); }

void fixing_free(Fixing *fixing)
{
  if (!fixing) return;
  for (size_t i = 0; i < fixing->count; i++) {
    mem_free(fixing->texts[i].shown);
    buf_free(&fixing->texts[i].settled);
    buf_free(&fixing->texts[i].now);
  }
  mem_free(fixing->texts);
  mem_free(fixing);
}

static Text *find(const Fixing *fixing, const char *shown)
{
  for (size_t i = 0; i < fixing->count; i++)
    if (strcmp(fixing->texts[i].shown, shown) == 0) return &fixing->texts[i];
  return NULL;
}

static void set(Buf *to, const Buf *from)
{
  buf_clear(to);
  buf_add(to, buf_text(from), from->length);
}

static void remember(Fixing *fixing, const char *shown, const Buf *text)
{
  if (fixing->count == fixing->room) {
    fixing->room = fixing->room ? fixing->room * 2 : 16;
    fixing->texts = mem_grow(fixing->texts, fixing->room, sizeof *fixing->texts);
  }
  Text *new = &fixing->texts[fixing->count++];
  *new = (Text){ .shown = mem_strdup(shown) };
  set(&new->settled, text);
  set(&new->now, text);
}

void fixing_read(Fixing *fixing, const char *shown, Buf *text)
{
  const Text *known = find(fixing, shown);
  if (known) set(text, &known->now);
  else remember(fixing, shown, text);
}

/* ---- applying */

static int compare_places(const void *a, const void *b)
{
  const Diag *left = *(const Diag *const *)a, *right = *(const Diag *const *)b;
  Span x = diag_fix_at(left), y = diag_fix_at(right);
  if (x.begin != y.begin) return x.begin < y.begin ? -1 : 1;
  if (x.end != y.end) return x.end < y.end ? -1 : 1;
  return strcmp(left->fix, right->fix);
}

/* The findings of a source that are to be fixed, by place; the caller frees the list. */
static const Diag **fixes_of(const Diags *diags, uint32_t source, FixingWhich which, size_t *count)
{
  const Diag **list = mem_array(diags_count(diags) + 1, sizeof *list);
  *count = 0;
  for (size_t i = 0; i < diags_count(diags); i++) {
    const Diag *d = diags_get(diags, i);
    if (diag_fix_at(d).source == source && (d->fix_is_safe || which == FIXING_ALL)) list[(*count)++] = d;
  }
  qsort(list, *count, sizeof *list, compare_places);
  return list;
}

/* Two fields that are put in at one place stand beside each other. Anything else that touches waits for another
 * round. */
static bool can_follow(const Diag *d, const Diag *before)
{
  if (before == NULL) return true;
  Span at = diag_fix_at(d), last = diag_fix_at(before);
  bool both_put_in = at.begin == at.end && last.begin == last.end && !span_is_nowhere(d->fix_at);
  return at.begin > last.end || (both_put_in && at.begin == last.end);
}

static bool same_fix(const Diag *d, const Diag *before)
{
  return before && compare_places(&d, &before) == 0;
}

static int apply_to(Text *text, const Diag *const *fixes, size_t count)
{
  Buf fixed = { 0 };
  size_t done = 0;
  int applied = 0;
  const Diag *last = NULL;
  for (size_t i = 0; i < count; i++) {
    Span at = diag_fix_at(fixes[i]);
    if (same_fix(fixes[i], last) || !can_follow(fixes[i], last) || at.end > text->now.length) continue;
    buf_add(&fixed, buf_text(&text->now) + done, at.begin - done);
    buf_puts(&fixed, fixes[i]->fix);
    done = at.end;
    last = fixes[i];
    applied++;
  }
  buf_add(&fixed, buf_text(&text->now) + done, text->now.length - done);
  set(&text->now, &fixed);
  text->fixes += applied;
  buf_free(&fixed);
  return applied;
}

static bool is_now(const Text *text, const Sources *sources, uint32_t source)
{
  size_t length;
  const char *bytes = sources_text(sources, source, &length);
  return length == text->now.length && memcmp(bytes, buf_text(&text->now), length) == 0;
}

int fixing_apply(Fixing *fixing, const Diags *diags, const Sources *sources, FixingWhich which)
{
  int applied = 0;
  for (uint32_t source = 1; source <= sources_count(sources); source++) {
    Text *text = find(fixing, sources_name(sources, source));
    if (!text || !is_now(text, sources, source)) continue;
    size_t count;
    const Diag **fixes = fixes_of(diags, source, which, &count);
    applied += apply_to(text, fixes, count);
    mem_free(fixes);
  }
  return applied;
}

/* ---- what came of it */

void fixing_settle(Fixing *fixing)
{
  for (size_t i = 0; i < fixing->count; i++) {
    set(&fixing->texts[i].settled, &fixing->texts[i].now);
    fixing->texts[i].settled_fixes = fixing->texts[i].fixes;
  }
}

bool fixing_diff(const Fixing *fixing, Buf *out)
{
  bool any = false;
  for (size_t i = 0; i < fixing->count; i++) {
    const Text *text = &fixing->texts[i];
    any = line_diff(text->shown, &text->settled, &text->now, out) || any;
  }
  return any;
}

static void take_back(Fixing *fixing)
{
  for (size_t i = 0; i < fixing->count; i++) {
    set(&fixing->texts[i].now, &fixing->texts[i].settled);
    fixing->texts[i].fixes = fixing->texts[i].settled_fixes;
  }
}

bool fixing_propose(Fixing *fixing, const Diags *diags, const Sources *sources, Buf *out)
{
  fixing_settle(fixing);
  fixing_apply(fixing, diags, sources, FIXING_ALL);
  bool any = fixing_diff(fixing, out);
  take_back(fixing);
  return any;
}

void fixing_write(const Fixing *fixing, Port *port, Buf *said)
{
  for (size_t i = 0; i < fixing->count; i++) {
    const Text *text = &fixing->texts[i];
    if (text->settled_fixes == 0) continue;
    port_replace(port, text->shown, buf_text(&text->settled), text->settled.length);
    text_escape(said, text->shown, strlen(text->shown));
    buf_printf(said, ": fixed %d finding%s\n", text->settled_fixes, text->settled_fixes == 1 ? "" : "s");
  }
}
