/* sha256.h - the SHA-256 of FIPS 180-4: a fingerprint of bytes, here of what a document was made from. */
#ifndef BASE_SHA256_H
#define BASE_SHA256_H

#include <stddef.h>
#include <stdint.h>

#include "base/buf.h"

enum { SHA256_BYTES = 32, SHA256_BLOCK = 64 };

typedef struct {
  uint32_t h[8];
  uint8_t block[SHA256_BLOCK];
  uint64_t length; /* bytes so far */
} Sha256;

Sha256 sha256_begin(void);
void sha256_add(Sha256 *s, const void *bytes, size_t length);
void sha256_end(Sha256 *s, uint8_t digest[SHA256_BYTES]);

void sha256_hex(const uint8_t digest[SHA256_BYTES], Buf *out); /* 64 lower-case digits */

#endif
