#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "plan/dice.h"
#include "plan/lanes.h"

enum { MOST = 20 };

/* Takes random demands as long as they fit, in lanes and in plain numbers side by side. */
static void fill_level(Dice *dice, int resources, int largest)
{
  int capacity[MOST], need[MOST], left[MOST];
  for (int r = 0; r < resources; r++) left[r] = capacity[r] = 1 + dice_roll(dice, largest);
  capacity[0] = left[0] = largest;
  for (int round = 0; round < 50; round++) {
    for (int r = 0; r < resources; r++) need[r] = dice_roll(dice, capacity[r] + 1);
    Lanes lanes;
    lanes_pack(&lanes, capacity, resources, need, 1);
    uint64_t level[MOST];
    for (int w = 0; w < lanes.words; w++) level[w] = lanes.full[w];
    bool fits = true;
    for (int times = 0; fits && times < 5; times++) {
      for (int r = 0; r < resources; r++) fits &= need[r] <= left[r];
      assert_int_equal(lanes_fit(&lanes, level, lanes_demand(&lanes, 0)), fits);
      if (!fits) break;
      lanes_take(&lanes, level, lanes_demand(&lanes, 0));
      for (int r = 0; r < resources; r++) {
        left[r] -= need[r];
        assert_int_equal(lanes_free_of(&lanes, level, r), left[r]);
      }
    }
    for (int r = 0; r < resources; r++) left[r] = capacity[r];
    lanes_free(&lanes);
  }
}

static void lanes_count_like_numbers(void **state)
{
  (void)state;
  static const struct { int resources, largest; } cases[] = {
    { 1, 1 }, { 4, 127 }, { 8, 127 }, { 9, 127 }, { 4, 128 }, { 5, 32767 }, { MOST, 50 }, { 3, 32768 },
  };
  Dice dice = { 1 };
  for (size_t k = 0; k < sizeof cases / sizeof *cases; k++) fill_level(&dice, cases[k].resources, cases[k].largest);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(lanes_count_like_numbers),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
