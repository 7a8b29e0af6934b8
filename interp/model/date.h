/* date.h - days of the proleptic Gregorian calendar, counted from 1970-01-01 (day 0). */
#ifndef MODEL_DATE_H
#define MODEL_DATE_H

#include <stdbool.h>

int date_day(int year, int month, int day);
void date_of_day(int days, int *year, int *month, int *day);
int date_weekday(int days); /* 0 Monday .. 6 Sunday */
bool date_exists(int year, int month, int day); /* years 1970 to 9999 */

#endif
