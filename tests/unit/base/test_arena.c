/* Arenas: many blocks, one end. */
#include "support.h"

#include <stdbool.h>
#include <string.h>

#include "base/arena.h"
#include "base/mem.h"

static jmp_buf out_of_memory;

static void jump(size_t bytes)
{
  (void)bytes;
  longjmp(out_of_memory, 1);
}

static void blocks_are_zeroed_aligned_and_apart(void **state)
{
  (void)state;
  Arena *arena = arena_new();
  char *before = NULL;
  for (size_t size = 0; size < 300; size++) {
    char *block = arena_alloc(arena, size + 1);
    assert_int_equal((uintptr_t)block % _Alignof(max_align_t), 0);
    for (size_t i = 0; i <= size; i++) assert_int_equal(block[i], 0);
    memset(block, 0xAA, size + 1); /* a later block that overlaps would not be zero */
    assert_ptr_not_equal(block, before);
    before = block;
  }
  arena_free(arena);
}

static void a_block_larger_than_any_chunk_fits(void **state)
{
  (void)state;
  Arena *arena = arena_new();
  const size_t large = 5u << 20;
  char *small = arena_alloc(arena, 16), *block = arena_array(arena, large, 1);
  block[0] = block[large - 1] = 'x';
  assert_int_equal(small[0], 0);
  arena_free(arena);
}

static void texts_are_copied_cut_and_formatted(void **state)
{
  (void)state;
  Arena *arena = arena_new();
  char given[] = "hone 200";
  char *copy = arena_strdup(arena, given), *part = arena_strndup(arena, given, 4);
  given[0] = 'x';
  assert_string_equal(copy, "hone 200");
  assert_string_equal(part, "hone");
  assert_string_equal(arena_printf(arena, "%s x %d", part, 6), "hone x 6");
  assert_string_equal(arena_printf(arena, "%s", ""), "");
  arena_free(arena);
}

static void freeing_nothing_is_fine(void **state)
{
  (void)state;
  arena_free(NULL);
}

static void sizes_that_overflow_are_refused(void **state)
{
  (void)state;
  static const struct {
    size_t count, each;
  } cases[] = { { SIZE_MAX / 2, 3 }, { 3, SIZE_MAX / 2 }, { SIZE_MAX, 1 }, { 1, SIZE_MAX - 8 } };
  void (*const usual)(size_t) = mem_on_failure;
  Arena *arena = arena_new();
  mem_on_failure = jump;
  for (volatile size_t i = 0; i < COUNT_OF(cases); i++) {
    if (setjmp(out_of_memory) == 0) {
      arena_array(arena, cases[i].count, cases[i].each);
      mem_on_failure = usual;
      fail_msg("%zu x %zu was made", cases[i].count, cases[i].each);
    }
  }
  mem_on_failure = usual;
  arena_free(arena);
}

static void an_arena_survives_a_failed_request(void **state)
{
  (void)state;
  void (*const usual)(size_t) = mem_on_failure;
  Arena *arena = arena_new();
  char *first = arena_strdup(arena, "kept");
  mem_on_failure = jump;
  mem_fail_at(1);
  volatile bool failed = false;
  if (setjmp(out_of_memory) == 0)
    arena_alloc(arena, 1u << 16);
  else
    failed = true;
  mem_fail_at(0);
  mem_on_failure = usual;
  assert_true(failed);
  assert_string_equal(first, "kept");
  assert_string_equal(arena_strdup(arena, "more"), "more");
  arena_free(arena);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(blocks_are_zeroed_aligned_and_apart),
    cmocka_unit_test(a_block_larger_than_any_chunk_fits),
    cmocka_unit_test(texts_are_copied_cut_and_formatted),
    cmocka_unit_test(freeing_nothing_is_fine),
    cmocka_unit_test(sizes_that_overflow_are_refused),
    cmocka_unit_test(an_arena_survives_a_failed_request),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
