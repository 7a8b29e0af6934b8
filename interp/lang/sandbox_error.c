/* sandbox_error.c - from an error value to a finding. Nothing here calls a metamethod of a script's value. */
#include "lang/sandbox.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char quiet = 0; /* its address is the value of an error that was reported already */

void error_push_quiet(lua_State *L) { lua_pushlightuserdata(L, (void *)&quiet); }

bool error_is_quiet(lua_State *L, int index) { return lua_touserdata(L, index) == &quiet; }

/* A mark, the chunk, ":" LINE ": " go; a script that writes such a text itself only shortens its own message. */
const char *error_strip(const char *message)
{
  if (*message != *CHUNK_SCRIPT && *message != *CHUNK_LIBRARY) return message;
  const char *rest = message + strcspn(message, ":");
  if (*rest == ':') rest++;
  rest += strspn(rest, "-0123456789");
  return rest[0] == ':' && rest[1] == ' ' ? rest + 2 : message;
}

/* ---- structured errors: a sealed value that holds its place, with its texts beside it */

enum { TEXT_CODE = 1, TEXT_MESSAGE, TEXT_HELP, TEXT_FIX, TEXTS = TEXT_FIX };

/* The place of a structured error; NULL if the value is something else. */
static const Span *structured_at(lua_State *L, int index)
{
  const Span *at = lua_touserdata(L, index);
  if (!at || !lua_getmetatable(L, index)) return NULL;
  lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_ERROR_META);
  bool same = lua_rawequal(L, -1, -2);
  lua_pop(L, 2);
  return same ? at : NULL;
}

/* Owned by the error. */
static const char *structured_text(lua_State *L, int index, int which)
{
  lua_getiuservalue(L, index, which);
  const char *text = lua_tostring(L, -1);
  lua_pop(L, 1);
  return text;
}

int error_raise(lua_State *L, const Diag *diag)
{
  const char *texts[] = { diag->code, diag->message, diag->help, diag->fix };
  *(Span *)lua_newuserdatauv(L, sizeof(Span), TEXTS) = diag->at;
  for (int i = 0; i < TEXTS; i++) {
    lua_pushstring(L, texts[i]); /* nil for NULL */
    lua_setiuservalue(L, -2, i + 1);
  }
  lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_ERROR_META);
  lua_setmetatable(L, -2);
  return lua_error(L);
}

int host_error(lua_State *L, const char *code, const char *message, const char *help)
{
  return error_raise(L, &(Diag){ .code = code, .message = message, .help = help, .at = host_caller_span(L, 1) });
}

/* tostring(error) for a script that caught one */
static int l_error_text(lua_State *L)
{
  lua_getiuservalue(L, 1, TEXT_MESSAGE);
  return 1;
}

void error_open_meta(lua_State *L)
{
  lua_createtable(L, 0, 2);
  lua_pushcfunction(L, l_error_text);
  lua_setfield(L, -2, "__tostring");
  lua_pushboolean(L, false);
  lua_setfield(L, -2, "__metatable");
  lua_rawseti(L, LUA_REGISTRYINDEX, SLOT_ERROR_META);
}

/* ---- the frames an error passed */

enum { TRACE_CALLS = 10, TRACE_FRAMES = 1000 };

typedef struct {
  Span at;          /* in the script frame that is nearest to the error */
  Span required_at; /* where the module that failed was required */
  bool library_fault; /* the innermost Lua function is one of the standard library */
  char library_place[128];
  Span calls[TRACE_CALLS];
  int call_count;
  Buf note; /* "called from a.lua:1:2, a.lua:3:4" */
} Trace;

/* Each place once, however often a recursion passes it. */
static void add_call(Host *host, Trace *trace, Span at)
{
  for (int i = 0; i < trace->call_count; i++)
    if (trace->calls[i].source == at.source && trace->calls[i].begin == at.begin) return;
  if (trace->call_count == TRACE_CALLS || span_is_nowhere(at)) return;
  Place place = sources_place(host->sources, at.source, at.begin);
  buf_printf(&trace->note, "%s%s:%d:%d", trace->call_count ? ", " : "called from ",
             sources_name(host->sources, at.source), place.line, place.column);
  trace->calls[trace->call_count++] = at;
}

static bool is_require(lua_State *L, lua_Debug *frame)
{
  lua_getinfo(L, "f", frame);
  bool same = lua_tocfunction(L, -1) == module_require;
  lua_pop(L, 1);
  return same;
}

static void note_fault(Trace *trace, const char *module, int line)
{
  trace->library_fault = true;
  if (line < 0) snprintf(trace->library_place, sizeof trace->library_place, "%s", module); /* built in: see compile.c */
  else snprintf(trace->library_place, sizeof trace->library_place, "%s, line %d", module, line);
}

/* Walks outwards from the raise. `skip` frames belong to the raise itself. */
static void trace_frames(Host *host, int skip, Trace *trace)
{
  lua_State *L = host->L;
  lua_Debug frame;
  bool required = false, first = true, innermost = true;
  for (int level = skip; level < TRACE_FRAMES && lua_getstack(L, level, &frame); level++) {
    lua_getinfo(L, "Sl", &frame);
    const Tree *script = chunk_script(host, frame.source);
    const char *module = chunk_library(frame.source);
    if (module && innermost) note_fault(trace, module, frame.currentline);
    if (script || module) innermost = false;
    else required = required || is_require(L, &frame);
    if (!script) continue;
    Span at = place_of_line(script, frame.currentline);
    if (first) trace->at = at;
    else if (required && span_is_nowhere(trace->required_at)) trace->required_at = at;
    else if (!required) add_call(host, trace, at);
    first = false;
  }
}

/* ---- plain errors */

static void describe(lua_State *L, int index, Buf *out)
{
  switch (lua_type(L, index)) {
  case LUA_TSTRING: buf_puts(out, error_strip(lua_tostring(L, index))); break;
  case LUA_TNUMBER:
    if (lua_isinteger(L, index)) buf_printf(out, "error raised with the number %lld", lua_tointeger(L, index));
    else buf_printf(out, "error raised with the number %.14g", lua_tonumber(L, index));
    break;
  case LUA_TNIL: buf_puts(out, "error raised without a message"); break;
  default: buf_printf(out, "error raised with a %s instead of a message", luaL_typename(L, index));
  }
}

static void report_plain(Host *host, Trace *trace)
{
  Buf message = { 0 };
  Diag diag = { .code = "script", .at = trace->at };
  if (trace->library_fault && host->error_level == 0) {
    diag.code = "internal";
    buf_printf(&message, "fault in the standard library (%s): ", trace->library_place);
  }
  describe(host->L, 1, &message);
  diag.message = buf_text(&message);
  if (trace->note.length) diag.note = buf_text(&trace->note);
  if (!span_is_nowhere(trace->required_at))
    diag.labels[diag.label_count++] = (DiagLabel){ trace->required_at, "required here" };
  diags_add(host->diags, &diag);
  buf_free(&message);
}

static void report_structured(Host *host, Span at, const Trace *trace)
{
  lua_State *L = host->L;
  Diag diag = { .code = structured_text(L, 1, TEXT_CODE),
                .message = structured_text(L, 1, TEXT_MESSAGE),
                .help = structured_text(L, 1, TEXT_HELP),
                .fix = structured_text(L, 1, TEXT_FIX),
                .at = span_is_nowhere(at) ? trace->at : at };
  if (!span_is_nowhere(trace->required_at))
    diag.labels[diag.label_count++] = (DiagLabel){ trace->required_at, "required here" };
  diags_add(host->diags, &diag);
}

int error_handler(lua_State *L)
{
  Host *host = host_of(L);
  if (host->status == HOST_FINE && !error_is_quiet(L, 1)) {
    Trace trace = { 0 };
    trace_frames(host, host->error_level == 2 ? 3 : 1, &trace);
    const Span *at = structured_at(L, 1);
    if (at) report_structured(host, *at, &trace);
    else report_plain(host, &trace);
    buf_free(&trace.note);
  }
  host->error_level = 0;
  lua_settop(L, 0);
  error_push_quiet(L);
  return 1;
}

/* The two kinds of failure that do not come to the handler, or not out of it. */
void error_without_handler(Host *host, int status)
{
  if (status == LUA_ERRMEM) budget_over_memory(host);
  if (status == LUA_ERRERR) diags_error(host->diags, "script", (Span){ 0 }, "calls are nested too deep");
}

/* From Lua's own compiler: what our reader leaves to it, or a fault in a library text that was read from a
 * folder. */
void error_of_load(Host *host, const char *message)
{
  const Tree *script = chunk_script(host, message);
  const char *line = message + strcspn(message, ":");
  Span at = script && *line ? place_of_line(script, (int)strtol(line + 1, NULL, 10)) : (Span){ 0 };
  if (script) diags_error(host->diags, "syntax", at, "%s", error_strip(message));
  else diags_error(host->diags, "internal", at, "%s", *message == *CHUNK_LIBRARY ? message + 1 : message);
}
