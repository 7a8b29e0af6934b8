#include "base/sha256.h"

#include <string.h>

/* FIPS 180-4, 4.2.2: the first 32 bits of the fractional parts of the cube roots of the first 64 primes. */
static const uint32_t k[64] = {
  0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
  0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
  0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
  0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
  0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
  0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
  0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
  0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2,
};

static uint32_t turn(uint32_t x, int bits) { return x >> bits | x << (32 - bits); }

static uint32_t big_endian(const uint8_t *b)
{
  return (uint32_t)b[0] << 24 | (uint32_t)b[1] << 16 | (uint32_t)b[2] << 8 | b[3];
}

/* FIPS 180-4, 6.2.2, step 1. */
static void spread(const uint8_t *block, uint32_t w[64])
{
  for (int t = 0; t < 16; t++) w[t] = big_endian(block + 4 * t);
  for (int t = 16; t < 64; t++) {
    uint32_t a = w[t - 15], b = w[t - 2];
    uint32_t s0 = turn(a, 7) ^ turn(a, 18) ^ a >> 3, s1 = turn(b, 17) ^ turn(b, 19) ^ b >> 10;
    w[t] = s1 + w[t - 7] + s0 + w[t - 16];
  }
}

/* Steps 2 to 4; v is a, b, c, d, e, f, g, h. */
static void mix(uint32_t h[8], const uint8_t *block)
{
  uint32_t w[64], v[8];
  spread(block, w);
  memcpy(v, h, sizeof v);
  for (int t = 0; t < 64; t++) {
    uint32_t sum1 = turn(v[4], 6) ^ turn(v[4], 11) ^ turn(v[4], 25), choose = (v[4] & v[5]) ^ (~v[4] & v[6]);
    uint32_t sum0 = turn(v[0], 2) ^ turn(v[0], 13) ^ turn(v[0], 22);
    uint32_t most = (v[0] & v[1]) ^ (v[0] & v[2]) ^ (v[1] & v[2]);
    uint32_t t1 = v[7] + sum1 + choose + k[t] + w[t], t2 = sum0 + most;
    memmove(v + 1, v, 7 * sizeof *v);
    v[4] += t1;
    v[0] = t1 + t2;
  }
  for (int i = 0; i < 8; i++) h[i] += v[i];
}

Sha256 sha256_begin(void)
{
  return (Sha256){ .h = { 0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab,
                          0x5be0cd19 } };
}

void sha256_add(Sha256 *s, const void *bytes, size_t length)
{
  const uint8_t *at = bytes;
  while (length > 0) {
    size_t used = s->length % SHA256_BLOCK, part = SHA256_BLOCK - used;
    if (part > length) part = length;
    memcpy(s->block + used, at, part);
    s->length += part;
    at += part;
    length -= part;
    if (used + part == SHA256_BLOCK) mix(s->h, s->block);
  }
}

void sha256_end(Sha256 *s, uint8_t digest[SHA256_BYTES])
{
  static const uint8_t padding[SHA256_BLOCK] = { 0x80 };
  uint8_t bits[8];
  for (int i = 0; i < 8; i++) bits[i] = (uint8_t)(s->length * 8 >> (56 - 8 * i));
  size_t used = s->length % SHA256_BLOCK, room = SHA256_BLOCK - sizeof bits;
  sha256_add(s, padding, used < room ? room - used : SHA256_BLOCK + room - used);
  sha256_add(s, bits, sizeof bits);
  for (int i = 0; i < SHA256_BYTES; i++) digest[i] = (uint8_t)(s->h[i / 4] >> (24 - i % 4 * 8));
}

void sha256_hex(const uint8_t digest[SHA256_BYTES], Buf *out)
{
  for (int i = 0; i < SHA256_BYTES; i++) buf_printf(out, "%02x", digest[i]);
}
