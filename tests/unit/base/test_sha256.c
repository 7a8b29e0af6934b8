/* test_sha256.c - the published examples of SHA-256, and texts that come in pieces. */
#include "base/sha256.h"

#include <string.h>

#include "support.h"

static void assert_digest(Sha256 *s, const char *want)
{
  uint8_t digest[SHA256_BYTES];
  Buf hex = { 0 };
  sha256_end(s, digest);
  sha256_hex(digest, &hex);
  assert_string_equal(buf_text(&hex), want);
  buf_free(&hex);
}

/* The two examples published by NIST with FIPS 180 (one block, two blocks), the empty message of its validation
 * system's short messages, and the long message of a million times "a" of FIPS 180-2. */
static const struct {
  const char *text;
  int times;
  const char *digest;
} published[] = {
  { "abc", 1, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad" },
  { "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", 1,
    "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1" },
  { "", 1, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855" },
  { "a", 1000000, "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0" },
};

static void the_published_examples_come_out(void **state)
{
  (void)state;
  for (size_t i = 0; i < COUNT_OF(published); i++) {
    Sha256 s = sha256_begin();
    for (int n = 0; n < published[i].times; n++) sha256_add(&s, published[i].text, strlen(published[i].text));
    assert_digest(&s, published[i].digest);
  }
}

static void pieces_make_the_same_digest_as_the_whole(void **state)
{
  (void)state;
  uint8_t text[200], whole[SHA256_BYTES], pieces[SHA256_BYTES];
  for (size_t i = 0; i < sizeof text; i++) text[i] = (uint8_t)(i * 7);
  for (size_t length = 0; length <= sizeof text; length++) { /* the padding's every case: 55, 56, 63, 64 bytes */
    Sha256 a = sha256_begin(), b = sha256_begin();
    sha256_add(&a, text, length);
    for (size_t at = 0; at < length; at += 7) sha256_add(&b, text + at, length - at < 7 ? length - at : 7);
    sha256_end(&a, whole);
    sha256_end(&b, pieces);
    assert_memory_equal(whole, pieces, sizeof whole);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(the_published_examples_come_out),
    cmocka_unit_test(pieces_make_the_same_digest_as_the_whole),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
