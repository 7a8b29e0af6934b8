/* Text that grows. */
#include "support.h"

#include <stdbool.h>
#include <string.h>

#include "base/buf.h"
#include "base/mem.h"

static void an_empty_buf_reads_as_an_empty_text(void **state)
{
  (void)state;
  Buf buf = { 0 };
  assert_string_equal(buf_text(&buf), "");
  buf_clear(&buf);
  buf_cut(&buf, 0);
  assert_string_equal(buf_text(&buf), "");
  buf_free(&buf);
}

static void pieces_of_all_sizes_join_up(void **state)
{
  (void)state;
  Buf buf = { 0 };
  size_t length = 0;
  for (size_t size = 0; size < 300; size++) {
    buf_repeat(&buf, (char)('a' + size % 26), size);
    length += size;
    assert_int_equal(buf.length, length);
    assert_int_equal(strlen(buf_text(&buf)), length);
  }
  buf_free(&buf);
  assert_null(buf.text);
  assert_int_equal(buf.length, 0);
}

static void text_can_be_added_in_every_form(void **state)
{
  (void)state;
  Buf buf = { 0 };
  buf_puts(&buf, "hone");
  buf_putc(&buf, ' ');
  buf_add(&buf, "200 and more", 3);
  buf_printf(&buf, ", %d passes of %.1f ft", 6, 2.5);
  buf_repeat(&buf, '!', 2);
  assert_string_equal(buf_text(&buf), "hone 200, 6 passes of 2.5 ft!!");
  buf_free(&buf);
}

static void a_zero_byte_is_kept_like_any_other(void **state)
{
  (void)state;
  Buf buf = { 0 };
  buf_add(&buf, "a\0b", 3);
  assert_int_equal(buf.length, 3);
  assert_memory_equal(buf.text, "a\0b", 4);
  buf_free(&buf);
}

static void a_printed_text_longer_than_the_room_is_whole(void **state)
{
  (void)state;
  char long_word[1000];
  memset(long_word, 'w', sizeof long_word - 1);
  long_word[sizeof long_word - 1] = '\0';
  Buf buf = { 0 };
  buf_printf(&buf, "<%s>", long_word);
  assert_int_equal(buf.length, sizeof long_word + 1);
  assert_int_equal(buf.text[buf.length - 1], '>');
  buf_free(&buf);
}

static void clearing_and_cutting_keep_it_terminated(void **state)
{
  (void)state;
  Buf buf = { 0 };
  buf_puts(&buf, "polish");
  buf_cut(&buf, 3);
  assert_string_equal(buf_text(&buf), "pol");
  buf_puts(&buf, "e");
  assert_string_equal(buf_text(&buf), "pole");
  buf_clear(&buf);
  assert_string_equal(buf_text(&buf), "");
  assert_int_equal(buf.length, 0);
  buf_free(&buf);
}

static jmp_buf out_of_memory;

static void jump(size_t bytes)
{
  (void)bytes;
  longjmp(out_of_memory, 1);
}

static void a_buf_that_cannot_grow_keeps_its_text(void **state)
{
  (void)state;
  void (*const usual)(size_t) = mem_on_failure;
  Buf buf = { 0 };
  buf_puts(&buf, "kept");
  mem_on_failure = jump;
  mem_fail_at(1);
  volatile bool failed = false;
  if (setjmp(out_of_memory) == 0)
    buf_repeat(&buf, 'x', 1000);
  else
    failed = true;
  mem_fail_at(0);
  mem_on_failure = usual;
  assert_true(failed);
  assert_string_equal(buf_text(&buf), "kept");
  buf_free(&buf);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(an_empty_buf_reads_as_an_empty_text),
    cmocka_unit_test(pieces_of_all_sizes_join_up),
    cmocka_unit_test(text_can_be_added_in_every_form),
    cmocka_unit_test(a_zero_byte_is_kept_like_any_other),
    cmocka_unit_test(a_printed_text_longer_than_the_room_is_whole),
    cmocka_unit_test(clearing_and_cutting_keep_it_terminated),
    cmocka_unit_test(a_buf_that_cannot_grow_keeps_its_text),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
