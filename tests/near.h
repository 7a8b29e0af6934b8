/* near.h - comparing doubles in tests. Include after cmocka.h. */
#ifndef TESTS_NEAR_H
#define TESTS_NEAR_H

#include <math.h>

/* cmocka's own float check narrows to float. */
#define assert_near(got, want, tolerance) near_check((got), (want), (tolerance), #got, __FILE__, __LINE__)

static inline void near_check(double got, double want, double tolerance, const char *what, const char *file, int line)
{
  if (fabs(got - want) <= tolerance) return;
  print_error("%s is %.12g, want %.12g within %g\n", what, got, want, tolerance);
  _fail(file, line);
}

#endif
