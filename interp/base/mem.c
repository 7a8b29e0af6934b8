#include "base/mem.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static void leave(size_t bytes)
{
  fprintf(stderr, "gritwork: out of memory (%zu bytes more were needed)\n", bytes);
  _exit(4);
}

void (*mem_on_failure)(size_t bytes) = leave;

static size_t countdown;      /* to the request that is refused; 0: there is none to come */
static bool refuses_the_rest; /* once the countdown is over */
static bool is_over;
static bool (*asked)(void);

static void fail(size_t n, bool and_the_rest)
{
  countdown = n;
  refuses_the_rest = and_the_rest;
  is_over = false;
}

void mem_fail_at(size_t n) { fail(n, false); }

void mem_fail_from(size_t n) { fail(n, true); }

void mem_ask(bool (*refuses)(void)) { asked = refuses; }

bool mem_refuses(void)
{
  if (countdown == 0) return is_over || (asked && asked());
  if (--countdown > 0) return false;
  is_over = refuses_the_rest;
  return true;
}

static void *checked(void *block, size_t bytes)
{
  if (block == NULL) {
    mem_on_failure(bytes);
    abort();
  }
  return block;
}

static size_t product(size_t count, size_t each)
{
  if (each != 0 && count > SIZE_MAX / each) {
    mem_on_failure(SIZE_MAX);
    abort();
  }
  return count * each;
}

void *mem_alloc(size_t bytes) { return checked(mem_refuses() ? NULL : calloc(1, bytes ? bytes : 1), bytes); }

void *mem_array(size_t count, size_t each) { return mem_alloc(product(count, each)); }

void *mem_grow(void *old, size_t count, size_t each)
{
  size_t bytes = product(count, each);
  return checked(mem_refuses() ? NULL : realloc(old, bytes ? bytes : 1), bytes);
}

char *mem_strdup(const char *text) { return mem_strndup(text, strlen(text)); }

char *mem_strndup(const char *text, size_t length)
{
  char *copy = mem_alloc(length + 1);
  memcpy(copy, text, length);
  return copy;
}

void mem_free(void *block) { free(block); }
