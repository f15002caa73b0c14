/* Calendar dates, ISO 8601, proleptic Gregorian. Owns nothing. May be included by every stage. */
#ifndef FETTLE_BASE_DATE_H
#define FETTLE_BASE_DATE_H

#include <stdbool.h>

/* {0} means "no date". */
struct date {
    int year, month, day; /* 1 to 9999, 1 to 12, 1 to 31 */
};
bool date_is_set(struct date);
bool date_parse(const char *s, struct date *out); /* YYYY-MM-DD only, and a day that exists */
int date_compare(struct date, struct date);       /* <0, 0, >0 */
long date_days(struct date);                      /* days since 1970-01-01 */
struct date date_from_days(long days);
struct date date_add_months(struct date, int months); /* the same day, or the month's last */
void date_print(struct date, char out[11]);           /* "2026-11-02" */

#endif
