/* cost_over.h - the cost of a job over ranges of values: a table, or where a price is crossed. */
#ifndef CLI_COST_OVER_H
#define CLI_COST_OVER_H

#include "cli/session.h"

int cost_over(Session *session); /* the exit status */

#endif
