/* Units and quantities. */
#include "base/unit.h"

#include <ctype.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

/* value in the base unit = number * factor + offset */
static const struct unit_row {
    const char *name;
    enum quantity quantity;
    double factor, offset;
    bool takes_fraction;
} unit_rows[] = {
    {"mm", QUANTITY_LENGTH, 1, 0, false},
    {"cm", QUANTITY_LENGTH, 10, 0, false},
    {"m", QUANTITY_LENGTH, 1000, 0, false},
    {"in", QUANTITY_LENGTH, MM_PER_INCH, 0, true},
    {"\"", QUANTITY_LENGTH, MM_PER_INCH, 0, true},
    {"ft", QUANTITY_LENGTH, 12 * MM_PER_INCH, 0, true},
    {"deg", QUANTITY_ANGLE, UNIT_PI / 180, 0, false},
    {"\xC2\xB0", QUANTITY_ANGLE, UNIT_PI / 180, 0, false},
    {"C", QUANTITY_TEMPERATURE, 1, 0, false},
    {"\xC2\xB0" "C", QUANTITY_TEMPERATURE, 1, 0, false},
    {"F", QUANTITY_TEMPERATURE, 5.0 / 9, -160.0 / 9, false},
    {"\xC2\xB0" "F", QUANTITY_TEMPERATURE, 5.0 / 9, -160.0 / 9, false},
    {"%", QUANTITY_PERCENT, 1, 0, false},
    {"kg", QUANTITY_MASS, 1, 0, false},
    {"g", QUANTITY_MASS, 0.001, 0, false},
    {"lb", QUANTITY_MASS, 0.45359237, 0, false}, /* exact: international pound of 1959 */
};

static const struct unit_row *find_unit(const char *name)
{
    for (size_t i = 0; i < sizeof unit_rows / sizeof *unit_rows; i++)
        if (strcmp(unit_rows[i].name, name) == 0)
            return &unit_rows[i];
    return NULL;
}

static const struct unit_row *bare_unit(enum quantity q, enum units u)
{
    static const char *const names[] = {
        [QUANTITY_LENGTH] = "mm", [QUANTITY_ANGLE] = "deg", [QUANTITY_TEMPERATURE] = "C",
        [QUANTITY_PERCENT] = "%", [QUANTITY_MASS] = "kg",
    };
    if (q == QUANTITY_NUMBER)
        return NULL;
    return find_unit(q == QUANTITY_LENGTH && u == UNITS_IN ? "in" : names[q]);
}

/* Blanks and tabs, and the blanks that texts which were set, our own sheets too, have between a number and its unit. */
static const char *skip_blanks(const char *p)
{
    static const char *const blanks[] = {" ", "\t", "\xC2\xA0", "\xE2\x80\x89", "\xE2\x80\xAF"};
    for (size_t i = 0; i < sizeof blanks / sizeof *blanks; i++)
        if (strncmp(p, blanks[i], strlen(blanks[i])) == 0)
            return skip_blanks(p + strlen(blanks[i]));
    return p;
}

static const char *skip_digits(const char *p)
{
    while (isdigit((unsigned char)*p))
        p++;
    return p;
}

/* "3/4" at p: gives the place after it, or NULL if no fraction stands there. */
static const char *read_fraction(const char *p, double *over, double *under)
{
    const char *slash = skip_digits(p);
    if (slash == p || *slash != '/')
        return NULL;
    const char *end = skip_digits(slash + 1);
    if (end == slash + 1)
        return NULL;
    *over = strtod(p, NULL);
    *under = strtod(slash + 1, NULL);
    return end;
}

/* Digits with at most one point, as a decimal number: strtod would also take exponents, "inf" and hexadecimal. */
static const char *read_decimal(const char *p, double *out)
{
    const char *end = skip_digits(p);
    size_t digits = (size_t)(end - p);
    if (*end == '.') {
        const char *after = skip_digits(end + 1);
        digits += (size_t)(after - end - 1);
        end = after;
    }
    if (digits == 0 || digits > 60)
        return NULL;
    char copy[64];
    memcpy(copy, p, (size_t)(end - p));
    copy[end - p] = '\0';
    *out = strtod(copy, NULL);
    return end;
}

static enum quantity_fault read_magnitude(const char **s, double *value, bool *is_fraction)
{
    const char *p = *s, *end, *more;
    double over, under = 1;
    *is_fraction = true;
    if ((end = read_fraction(p, &over, &under)) != NULL) {
        *value = over / under;
    } else {
        if (!(end = read_decimal(p, value)))
            return QUANTITY_NOT_A_NUMBER;
        bool whole = end == skip_digits(p);
        const char *next = skip_blanks(end);
        if (next == end && *next == '-')
            next++;
        if (whole && next > end && (more = read_fraction(next, &over, &under)) != NULL) {
            *value += over / under;
            end = more;
        } else {
            *is_fraction = false;
        }
    }
    *s = end;
    return under == 0 ? QUANTITY_ZERO_DENOMINATOR : QUANTITY_OK;
}

enum quantity_fault unit_parse(const char *s, enum quantity q, enum units job_units, double *out)
{
    const char *p = skip_blanks(s);
    bool negative = *p == '-';
    p += negative || *p == '+';
    double value;
    bool fraction;
    enum quantity_fault fault = read_magnitude(&p, &value, &fraction);
    if (fault != QUANTITY_OK)
        return fault;
    if (*p == ',' && isdigit((unsigned char)p[1]))
        return QUANTITY_COMMA;
    if ((*p == 'e' || *p == 'E') && (isdigit((unsigned char)p[1]) || p[1] == '-' || p[1] == '+'))
        return QUANTITY_EXPONENT;
    p = skip_blanks(p);
    char name[16];
    size_t n = 0;
    while (p[n] && *skip_blanks(p + n))
        n++;
    if (n >= sizeof name)
        return QUANTITY_WRONG_UNIT;
    memcpy(name, p, n);
    name[n] = '\0';
    const struct unit_row *unit = n ? find_unit(name) : bare_unit(q, job_units);
    if (n && (!unit || unit->quantity != q))
        return isalpha((unsigned char)name[0]) || strchr("\"%\xC2", name[0]) ? QUANTITY_WRONG_UNIT : QUANTITY_NOT_A_NUMBER;
    if (fraction && !(unit && unit->takes_fraction))
        return QUANTITY_METRIC_FRACTION;
    value = negative ? -value : value;
    *out = unit ? value * unit->factor + unit->offset : value;
    return QUANTITY_OK;
}

double unit_inches(double mm)
{
    return mm / MM_PER_INCH;
}

double unit_degrees(double rad)
{
    return rad * (180 / UNIT_PI);
}
