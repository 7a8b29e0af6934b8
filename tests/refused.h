/* refused.h - checking that a function of the trade library refuses an input by name. Include after cmocka.h.
 *
 *     assert_refused(climate_dew_point(20, 1.2, &dew_c, &error), TRADE_OUT_OF_RANGE, "rh"); */
#ifndef TESTS_REFUSED_H
#define TESTS_REFUSED_H

#include <string.h>

#include "trade/trade.h"

/* The call must fill a TradeError that is called `error` where the check stands. */
#define assert_refused(call, want_status, want_argument) \
  refused_check((call), &error, (want_status), (want_argument), #call, __FILE__, __LINE__)

static inline void refused_check(bool answered, TradeError *error, TradeStatus status, const char *argument,
                                 const char *what, const char *file, int line)
{
  if (!answered && error->status == status && strcmp(error->argument, argument) == 0 && *error->message) return;
  print_error("%s: answered %d, status `%s`, argument `%s`, message `%s`\n", what, answered,
              trade_status_name(error->status), error->argument ? error->argument : "", error->message);
  _fail(file, line);
}

#endif
