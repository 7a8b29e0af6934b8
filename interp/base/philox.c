#include "base/philox.h"

enum { ROUNDS = 10 };

/* From the paper: two multipliers, and the Weyl sequence of the key (golden ratio, sqrt(3) - 1). */
static const uint32_t MULTIPLIER_0 = 0xD2511F53, MULTIPLIER_1 = 0xCD9E8D57;
static const uint32_t STEP_0 = 0x9E3779B9, STEP_1 = 0xBB67AE85;

PhiloxBlock philox(uint64_t key, PhiloxBlock c)
{
  uint32_t key_0 = (uint32_t)key, key_1 = (uint32_t)(key >> 32);
  for (int round = 0; round < ROUNDS; round++) {
    uint64_t a = (uint64_t)MULTIPLIER_0 * c.word[0], b = (uint64_t)MULTIPLIER_1 * c.word[2];
    c = (PhiloxBlock){ { (uint32_t)(b >> 32) ^ c.word[1] ^ key_0, (uint32_t)b,
                         (uint32_t)(a >> 32) ^ c.word[3] ^ key_1, (uint32_t)a } };
    key_0 += STEP_0;
    key_1 += STEP_1;
  }
  return c;
}
