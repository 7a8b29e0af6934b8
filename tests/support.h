/* support.h - what every cmocka test includes: the library in its order, and comparisons it lacks. */
#ifndef TESTS_SUPPORT_H
#define TESTS_SUPPORT_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#define COUNT_OF(array) (sizeof(array) / sizeof(array)[0])

/* |got - want| <= tolerance, in doubles; a NaN is near nothing. */
#define assert_near(got, want, tolerance) assert_near_at((got), (want), (tolerance), __FILE__, __LINE__)

static inline void assert_near_at(double got, double want, double tolerance, const char *file, int line)
{
  if (fabs(got - want) <= tolerance) return;
  print_error("got %.17g, want %.17g within %g\n", got, want, tolerance);
  _fail(file, line);
}

#endif
