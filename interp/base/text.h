/* text.h - bytes as people read them: UTF-8, display cells, escaping, near names. Locale is never consulted. */
#ifndef BASE_TEXT_H
#define BASE_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/buf.h"

/* Decodes one code point of at most `length` bytes into *code. Returns its bytes; 0 if the bytes are not UTF-8
 * (overlong forms, surrogates and values over U+10FFFF are not). */
size_t text_decode(const char *bytes, size_t length, uint32_t *code);
bool text_is_utf8(const char *bytes, size_t length);

/* Display cells of a code point: 0 (combining), 1, or 2 (wide); of a hidden one, those of its escape. */
int text_cells(uint32_t code);
int text_width(const char *bytes, size_t length); /* cells of escaped text */
/* Must be escaped: control characters, bidi controls, line separators and zero-width format characters. */
bool text_is_hidden(uint32_t code);
/* Bytes and cells of the next character; an invalid byte is one of its own. `length` is not 0. */
size_t text_next(const char *bytes, size_t length, int *cells);

/* Appends text safe for any terminal: C0 (also CR, TAB and line ends), DEL, C1, bidi controls, zero-width
 * format characters and bytes that are not UTF-8 become visible escapes (\n, \x1b, \u{202e}). */
void text_escape(Buf *out, const char *bytes, size_t length);

/* Damerau-Levenshtein distance on lower case, capped: returns cap + 1 when it is over. */
int text_distance(const char *a, const char *b, int cap);

/* The near names among `count` words, best first, at most `most` (<= 3) into out[]. Near: distance at most
 * max(1, length / 3) capped at 3, the same words in another order (rate_cover, cover_rate), or a plural s;
 * nothing for names under 3 letters. Returns how many. */
int text_near(const char *name, const char *const *words, size_t count, const char **out, int most);

/* Pads to `cells` on the right (text_left) or on the left (text_right); longer text is kept whole. */
void text_left(Buf *out, const char *text, int cells);
void text_right(Buf *out, const char *text, int cells);
/* Folds at spaces to `width` cells, each line after the first indented by `indent`; the first is taken to start
 * there too, after a prefix of the caller's. A longer word is kept whole. No final line end. */
void text_fold(Buf *out, const char *text, int width, int indent);

#endif
