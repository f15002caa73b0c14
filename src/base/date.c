/* Calendar arithmetic. The day count is the usual one with the year begun in March, so that the leap day comes last
   (common practice, no source; checked against the C library's gmtime in the tests). */
#include "base/date.h"

#include <ctype.h>
#include <stdio.h>

static bool is_leap(int y)
{
    return (y % 4 == 0 && y % 100 != 0) || y % 400 == 0;
}

static int days_in_month(int y, int m)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return days[m - 1] + (m == 2 && is_leap(y));
}

bool date_is_set(struct date d)
{
    return d.month != 0;
}

bool date_parse(const char *s, struct date *out)
{
    static const char form[] = "dddd-dd-dd";
    int n[10];
    for (int i = 0; i < 10; i++) {
        if (form[i] == 'd' ? !isdigit((unsigned char)s[i]) : s[i] != '-')
            return false;
        n[i] = s[i] - '0';
    }
    if (s[10])
        return false;
    struct date d = {n[0] * 1000 + n[1] * 100 + n[2] * 10 + n[3], n[5] * 10 + n[6], n[8] * 10 + n[9]};
    if (d.year < 1 || d.month < 1 || d.month > 12 || d.day < 1 || d.day > days_in_month(d.year, d.month))
        return false;
    *out = d;
    return true;
}

long date_days(struct date d)
{
    long y = d.month > 2 ? d.year : d.year - 1;
    long era = y / 400, of_era = y - era * 400;
    long of_year = (153 * (d.month + (d.month > 2 ? -3 : 9)) + 2) / 5 + d.day - 1;
    return era * 146097 + of_era * 365 + of_era / 4 - of_era / 100 + of_year - 719468;
}

struct date date_from_days(long days)
{
    long z = days + 719468, era = (z >= 0 ? z : z - 146096) / 146097, doe = z - era * 146097;
    long yoe = (doe - doe / 1460 + doe / 36524 - doe / 146096) / 365;
    long doy = doe - (365 * yoe + yoe / 4 - yoe / 100), mp = (5 * doy + 2) / 153;
    int month = (int)(mp < 10 ? mp + 3 : mp - 9);
    return (struct date){(int)(yoe + era * 400 + (month <= 2)), month, (int)(doy - (153 * mp + 2) / 5 + 1)};
}

int date_compare(struct date a, struct date b)
{
    long x = date_days(a), y = date_days(b);
    return (x > y) - (x < y);
}

struct date date_add_months(struct date d, int months)
{
    int total = d.year * 12 + d.month - 1 + months;
    struct date r = {total / 12, total % 12 + 1, d.day};
    int last = days_in_month(r.year, r.month);
    if (r.day > last)
        r.day = last;
    return r;
}

void date_print(struct date d, char out[11])
{
    snprintf(out, 11, "%04u-%02u-%02u", (unsigned)d.year % 10000, (unsigned)d.month % 100, (unsigned)d.day % 100);
}
