/* test_edit.c - fields and entries put in and taken out: the layout of what stands round them is kept. */
#include "support.h"

#include "lang/edit.h"
#include "unit/lang/reading.h"

typedef struct {
  const char *text, *want; /* `want` NULL: no plain change */
} Case;

/* The place of `@...@` in the text, which is taken out of it. */
static Span marked(const char *text, char *plain)
{
  Span at = { 1, 0, 0 };
  uint32_t length = 0, marks = 0;
  for (; *text; text++) {
    if (*text != '@') plain[length++] = *text;
    else if (marks++ == 0) at.begin = length;
    else at.end = length;
  }
  plain[length] = '\0';
  assert_int_equal(marks, 2);
  return at;
}

static bool add_field(const Tree *tree, Span at, Edit *edit)
{
  return edit_add_field(tree, at, "wet = true", edit);
}

static bool add_before(const Tree *tree, Span at, Edit *edit) { return edit_add_before(tree, at, "new {}", edit); }
static bool add_after(const Tree *tree, Span at, Edit *edit) { return edit_add_after(tree, at, "new {}", edit); }

typedef bool (*Change)(const Tree *tree, Span at, Edit *edit);

static void assert_changed(const Case *c, Change change)
{
  char plain[1000];
  Span at = marked(c->text, plain);
  Reading r = reading_of(plain, strlen(plain));
  if (!tree_sound(r.tree)) fail_msg("%s\nis not sound", plain);
  Edit edit = { 0 };
  bool done = change(r.tree, at, &edit);
  if (done != (c->want != NULL)) fail_msg("%s\n%s", plain, done ? "was changed" : "was not changed");
  if (done) {
    Buf got = { 0 };
    buf_add(&got, plain, edit.at.begin);
    buf_add(&got, buf_text(&edit.text), edit.text.length);
    buf_puts(&got, plain + edit.at.end);
    assert_string_equal(buf_text(&got), c->want);
    Reading after = reading_of(buf_text(&got), got.length);
    assert_true(tree_sound(after.tree));
    reading_free(&after);
    buf_free(&got);
    buf_free(&edit.text);
  }
  reading_free(&r);
}

#define DOTS "................................................................................"

static void a_field_is_added_as_the_others_stand(void **state)
{
  (void)state;
  static const Case cases[] = {
    { "x = @{}@", "x = { wet = true }" },
    { "x = @{ }@", "x = { wet = true }" },
    { "x = @{ --[[ none ]] }@", NULL },
    { "x = @{ a = 1 }@", "x = { a = 1, wet = true }" },
    { "x = @{ a = 1, }@", "x = { a = 1, wet = true, }" },
    { "x = @{ a = 1; }@", "x = { a = 1, wet = true; }" },
    { "x = @{ a = 1 --[[ one ]] }@", "x = { a = 1, wet = true --[[ one ]] }" },
    { "x = @{ [\"a b\"] = { 1 } }@", "x = { [\"a b\"] = { 1 }, wet = true }" },
    { "x = @{ a = 1, f {}, f {} }@", "x = { a = 1, wet = true, f {}, f {} }" },
    { "x = @{ f {}, a = 1 }@", "x = { wet = true, f {}, a = 1 }" },
    { "x = @{\n  f {},\n}@", "x = {\n  wet = true,\n  f {},\n}" },
    { "x = @{\n  a = 1,\n  b = 2,\n}@", "x = {\n  a = 1,\n  b = 2,\n  wet = true,\n}" },
    { "x = @{\n  a = 1,\n  b = 2\n}@", "x = {\n  a = 1,\n  b = 2,\n  wet = true\n}" },
    { "x = @{\n\ta = 1,\n}@", "x = {\n\ta = 1,\n\twet = true,\n}" },
    { "x = @{\r\n  a = 1,\r\n}@\r\n", "x = {\r\n  a = 1,\r\n  wet = true,\r\n}\r\n" },
    { "x = @{\r\n  a = 1\r\n}@\r\n", "x = {\r\n  a = 1,\r\n  wet = true\r\n}\r\n" },
    { "x = @{\n  a = 1, -- one\n}@", "x = {\n  a = 1, -- one\n  wet = true,\n}" },
    { "x = @{\n  a = 1 -- one\n}@", "x = {\n  a = 1, -- one\n  wet = true\n}" },
    { "x = @{\n  a = 1, --[[ one\n  two ]]\n}@", "x = {\n  a = 1, wet = true, --[[ one\n  two ]]\n}" },
    { "x = @{\n  a = 1,\n\n  f {},\n}@", "x = {\n  a = 1,\n  wet = true,\n\n  f {},\n}" },
    { "x = @{ a = 1,\n      b = 2 }@", "x = { a = 1,\n      b = 2, wet = true }" },
    { "x = @{\n  a = {\n    1,\n  },\n}@", "x = {\n  a = {\n    1,\n  },\n  wet = true,\n}" },
    { "x = @{ a = 1, }@ y = { b = 2 }", "x = { a = 1, wet = true, } y = { b = 2 }" },
    { "x = @{ grit = 100, care = \"" DOTS "\" }@", "x = { grit = 100, care = \"" DOTS "\",\n      wet = true }" },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) assert_changed(&cases[i], add_field);
}

static void an_entry_is_put_before_another(void **state)
{
  (void)state;
  static const Case cases[] = {
    { "x = { @f {}@, f {} }", "x = { new {}, f {}, f {} }" },
    { "x = {\n  f {},\n  @g {}@,\n}", "x = {\n  f {},\n  new {},\n  g {},\n}" },
    { "x = {\r\n  -- of g\r\n  @g {}@,\r\n}", "x = {\r\n  -- of g\r\n  new {},\r\n  g {},\r\n}" },
    { "local f = @g {}@", NULL },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) assert_changed(&cases[i], add_before);
}

static void an_entry_is_put_after_another(void **state)
{
  (void)state;
  static const Case cases[] = {
    { "x = { @f {}@ }", "x = { f {}, new {} }" },
    { "x = { @f {}@, f {} }", "x = { f {}, new {}, f {} }" },
    { "x = {\n  @f {}@,\n  f {},\n}", "x = {\n  f {},\n  new {},\n  f {},\n}" },
    { "x = {\n  @f {}@, -- first\n  f {},\n}", "x = {\n  f {}, -- first\n  new {},\n  f {},\n}" },
    { "x = {\n  @f {\n    a = 1,\n  }@,\n}", "x = {\n  f {\n    a = 1,\n  },\n  new {},\n}" },
    { "x = {\n  a = 1,\n  @f {}@\n}", "x = {\n  a = 1,\n  f {},\n  new {}\n}" },
    { "return @f {}@", NULL },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) assert_changed(&cases[i], add_after);
}

static void what_is_taken_out_takes_its_separator_and_its_line_along(void **state)
{
  (void)state;
  static const Case cases[] = {
    { "x = { @f {}@ }", "x = { }" },
    { "x = { @a@ = 1 }", "x = { }" },
    { "x = { @a@ = 1, b = 2 }", "x = { b = 2 }" },
    { "x = { a = 1, @b@ = 2 }", "x = { a = 1 }" },
    { "x = { a = 1, @b@ = 2, }", "x = { a = 1, }" },
    { "x = { a = 1, @b@ = 2, c = 3 }", "x = { a = 1, c = 3 }" },
    { "x = { a = 1, @b@ = 2,\n  c = 3 }", "x = { a = 1,\n  c = 3 }" },
    { "x = {\n  a = 1,\n  @b@ = 2, c = 3 }", "x = {\n  a = 1,\n  c = 3 }" },
    { "x = {\n  a = 1,\n  @b@ = 2 }", "x = {\n  a = 1 }" },
    { "x = {\n  a = 1,\n  @b@ = 2,\n  c = 3,\n}", "x = {\n  a = 1,\n  c = 3,\n}" },
    { "x = {\r\n  a = 1,\r\n  @b@ = 2\r\n}", "x = {\r\n  a = 1,\r\n}" },
    { "x = {\n  a = 1,\n  @f {\n    1,\n  }@,\n}", "x = {\n  a = 1,\n}" },
    { "x = {\n  a = 1,\n  @b@ = 2, -- two\n}", NULL },
    { "x = { a = 1, --[[ two ]] @b@ = 2 }", NULL },
    { "@f {}@", NULL },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) assert_changed(&cases[i], edit_take_out);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_field_is_added_as_the_others_stand),
    cmocka_unit_test(an_entry_is_put_before_another),
    cmocka_unit_test(an_entry_is_put_after_another),
    cmocka_unit_test(what_is_taken_out_takes_its_separator_and_its_line_along),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
