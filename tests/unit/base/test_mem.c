/* Memory: never NULL, zeroed, and a clean way out when there is none. */
#include "support.h"

#include <string.h>

#include "base/mem.h"

/* The address sanitizer asks this; it is to answer NULL to a size that is too large, as the C library does. */
const char *__asan_default_options(void);
const char *__asan_default_options(void) { return "allocator_may_return_null=1"; }

static jmp_buf out_of_memory;
static size_t wanted;
static void (*usual)(size_t bytes);

static void jump(size_t bytes)
{
  wanted = bytes;
  longjmp(out_of_memory, 1);
}

static int install_jump(void **state)
{
  (void)state;
  usual = mem_on_failure;
  mem_on_failure = jump;
  wanted = 0;
  return 0;
}

static int remove_jump(void **state)
{
  (void)state;
  mem_on_failure = usual;
  mem_fail_at(0);
  return 0;
}

static void memory_is_zeroed(void **state)
{
  (void)state;
  static const char zero[64];
  char *block = mem_alloc(sizeof zero), *array = mem_array(8, 8);
  assert_memory_equal(block, zero, sizeof zero);
  assert_memory_equal(array, zero, sizeof zero);
  mem_free(block);
  mem_free(array);
}

static void no_bytes_are_still_a_block_of_their_own(void **state)
{
  (void)state;
  void *a = mem_alloc(0), *b = mem_array(0, 16), *c = mem_grow(NULL, 0, 16);
  assert_non_null(a);
  assert_non_null(b);
  assert_non_null(c);
  assert_ptr_not_equal(a, b);
  mem_free(a);
  mem_free(b);
  mem_free(c);
}

static void growing_keeps_what_was_there(void **state)
{
  (void)state;
  char *text = mem_strdup("densify");
  text = mem_grow(text, 4096, 1);
  assert_string_equal(text, "densify");
  mem_free(text);
}

static void a_part_of_a_text_is_copied_and_terminated(void **state)
{
  (void)state;
  char *part = mem_strndup("hone and polish", 4);
  assert_string_equal(part, "hone");
  mem_free(part);
}

static void freeing_nothing_is_fine(void **state)
{
  (void)state;
  mem_free(NULL);
}

static void a_size_that_overflows_is_refused(void **state)
{
  (void)state;
  if (setjmp(out_of_memory) == 0) {
    mem_array(SIZE_MAX / 2, 3);
    fail_msg("the array was made");
  }
  assert_int_equal(wanted, SIZE_MAX);
  if (setjmp(out_of_memory) == 0) {
    mem_grow(NULL, 3, SIZE_MAX / 2);
    fail_msg("the block grew");
  }
}

static void more_than_there_is_is_refused_by_its_size(void **state)
{
  (void)state;
  if (setjmp(out_of_memory) == 0) {
    mem_alloc(SIZE_MAX / 4);
    fail_msg("the block was made");
  }
  assert_int_equal(wanted, SIZE_MAX / 4);
}

static void the_nth_request_can_be_made_to_fail(void **state)
{
  (void)state;
  for (volatile size_t n = 1; n <= 3; n++) {
    void *volatile blocks[3] = { 0 };
    volatile size_t made = 0;
    mem_fail_at(n);
    if (setjmp(out_of_memory) == 0) {
      for (; made < 3; made++) blocks[made] = mem_alloc(10);
      fail_msg("request %zu did not fail", n);
    }
    assert_int_equal(made, n - 1);
    assert_int_equal(wanted, 10);
    for (size_t i = 0; i < 3; i++) mem_free(blocks[i]);
  }
}

static void after_the_failure_requests_succeed_again(void **state)
{
  (void)state;
  mem_fail_at(1);
  if (setjmp(out_of_memory) == 0) {
    mem_alloc(1);
    fail_msg("the request did not fail");
  }
  mem_free(mem_alloc(1));
}

static void from_some_request_on_all_can_be_made_to_fail(void **state)
{
  (void)state;
  static const bool refused[] = { false, false, true, true, true };
  mem_fail_from(3);
  for (size_t i = 0; i < COUNT_OF(refused); i++) assert_int_equal(mem_refuses(), refused[i]);
  mem_fail_at(0);
  assert_false(mem_refuses());
}

static void a_failed_growth_leaves_the_old_block(void **state)
{
  (void)state;
  char *volatile old = mem_strdup("old");
  mem_fail_at(1);
  if (setjmp(out_of_memory) == 0) {
    mem_grow(old, 100, 1);
    fail_msg("the block grew");
  }
  assert_string_equal(old, "old");
  mem_free(old);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(memory_is_zeroed),
    cmocka_unit_test(no_bytes_are_still_a_block_of_their_own),
    cmocka_unit_test(growing_keeps_what_was_there),
    cmocka_unit_test(a_part_of_a_text_is_copied_and_terminated),
    cmocka_unit_test(freeing_nothing_is_fine),
    cmocka_unit_test_setup_teardown(a_size_that_overflows_is_refused, install_jump, remove_jump),
    cmocka_unit_test_setup_teardown(more_than_there_is_is_refused_by_its_size, install_jump, remove_jump),
    cmocka_unit_test_setup_teardown(the_nth_request_can_be_made_to_fail, install_jump, remove_jump),
    cmocka_unit_test_setup_teardown(after_the_failure_requests_succeed_again, install_jump, remove_jump),
    cmocka_unit_test(from_some_request_on_all_can_be_made_to_fail),
    cmocka_unit_test_setup_teardown(a_failed_growth_leaves_the_old_block, install_jump, remove_jump),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
