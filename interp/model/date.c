#include "model/date.h"

/* Years are counted from March, so that the leap day is a year's last, in eras of 400 years. */
int date_day(int year, int month, int day)
{
  int y = month <= 2 ? year - 1 : year;
  int era = (y >= 0 ? y : y - 399) / 400;
  int year_of_era = y - era * 400;
  int day_of_year = (153 * (month > 2 ? month - 3 : month + 9) + 2) / 5 + day - 1;
  int day_of_era = year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
  return era * 146097 + day_of_era - 719468;
}

void date_of_day(int days, int *year, int *month, int *day)
{
  int z = days + 719468;
  int era = (z >= 0 ? z : z - 146096) / 146097;
  int day_of_era = z - era * 146097;
  int year_of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
  int day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
  int march_month = (5 * day_of_year + 2) / 153;
  *day = day_of_year - (153 * march_month + 2) / 5 + 1;
  *month = march_month < 10 ? march_month + 3 : march_month - 9;
  *year = year_of_era + era * 400 + (*month <= 2);
}

int date_weekday(int days) { return ((days + 3) % 7 + 7) % 7; }

bool date_exists(int year, int month, int day)
{
  if (year < 1970 || year > 9999 || month < 1 || month > 12 || day < 1 || day > 31) return false;
  int y, m, d;
  date_of_day(date_day(year, month, day), &y, &m, &d);
  return y == year && m == month && d == day;
}
