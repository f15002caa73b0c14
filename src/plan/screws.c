/* Screws of the two series, their pilots, the choice of one for a joint, places along a row. */
#include "plan/screws.h"

#include <math.h>

#define NBSP "\xC2\xA0"    /* U+00A0 */
#define TIMES "\xC3\x97"   /* U+00D7 */
#define OVER "\xE2\x81\x84" /* U+2044 fraction slash */

static const double GRAVITY_HARD = 0.6; /* Wood Handbook ch. 8, withdrawal */

/* DIN 7997 and 97 wood screws, heads about twice the shank (ISO 7721 form): diameters and lengths from memory. */
static const double m30[] = {12, 16, 20, 25, 30, 35, 40};
static const double m35[] = {12, 16, 20, 25, 30, 35, 40, 45, 50};
static const double m40[] = {16, 20, 25, 30, 35, 40, 45, 50, 60, 70};
static const double m45[] = {16, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80};
static const double m50[] = {20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100};
#define LENGTHS(a) .lengths = (a), .n_lengths = sizeof(a) / sizeof *(a)
static const struct screw_kind metric_series[] = {
    {.diameter = 3.0, .head = 6, LENGTHS(m30)}, {.diameter = 3.5, .head = 7, LENGTHS(m35)},
    {.diameter = 4.0, .head = 8, LENGTHS(m40)}, {.diameter = 4.5, .head = 9, LENGTHS(m45)},
    {.diameter = 5.0, .head = 10, LENGTHS(m50)},
};

/* ANSI B18.6.1 flat heads: shank 0.060 + 0.013 N in, head at most about 0.119 + 0.0265 N in; lengths from memory. */
#define EIGHTHS(n) ((n)*MM_PER_INCH / 8)
#define SHANK(n) ((0.060 + 0.013 * (n)) * MM_PER_INCH)
#define HEAD(n) ((0.119 + 0.0265 * (n)) * MM_PER_INCH)
static const double n4[] = {EIGHTHS(4), EIGHTHS(5), EIGHTHS(6), EIGHTHS(8)};
static const double n6[] = {EIGHTHS(4), EIGHTHS(5), EIGHTHS(6), EIGHTHS(8), EIGHTHS(10), EIGHTHS(12), EIGHTHS(16)};
static const double n8[] = {EIGHTHS(5),  EIGHTHS(6),  EIGHTHS(8),  EIGHTHS(10),
                            EIGHTHS(12), EIGHTHS(14), EIGHTHS(16), EIGHTHS(20)};
static const double n10[] = {EIGHTHS(6),  EIGHTHS(8),  EIGHTHS(10), EIGHTHS(12),
                             EIGHTHS(14), EIGHTHS(16), EIGHTHS(20), EIGHTHS(24)};
static const struct screw_kind inch_series[] = {
    {.diameter = SHANK(4), .head = HEAD(4), .number = 4, LENGTHS(n4)},
    {.diameter = SHANK(6), .head = HEAD(6), .number = 6, LENGTHS(n6)},
    {.diameter = SHANK(8), .head = HEAD(8), .number = 8, LENGTHS(n8)},
    {.diameter = SHANK(10), .head = HEAD(10), .number = 10, LENGTHS(n10)},
};

double screw_shank_of_number(int number)
{
    return SHANK(number);
}

double screw_head_of_number(int number)
{
    return HEAD(number);
}

int screw_number_of_shank(double diameter)
{
    int number = (int)lround((unit_inches(diameter) - 0.060) / 0.013);
    if (number < 2 || number > 20 || fabs(diameter - SHANK(number)) > 0.003 * MM_PER_INCH)
        return 0;
    return number;
}

/* Wood Handbook ch. 8: the root averages about two thirds of the shank. */
double screw_root(double diameter)
{
    return diameter * 2 / 3;
}

/* Wood Handbook ch. 8, lead holes for withdrawal: 70 % of the root in softer woods, 90 % from a gravity of 0.6 up. */
double screw_pilot(double diameter, double gravity)
{
    return screw_root(diameter) * (gravity >= GRAVITY_HARD ? 0.9 : 0.7);
}

double screw_drill(double diameter, enum units units)
{
    double step = units == UNITS_IN ? MM_PER_INCH / 64 : 0.1;
    return round(diameter / step) * step;
}

/* Two diameters and at least 10 mm (7/16 in): common practice, no source. */
double screw_beside(double diameter, enum units units)
{
    double step = units == UNITS_IN ? MM_PER_INCH / 16 : 1, least = units == UNITS_IN ? MM_PER_INCH * 7 / 16 : 10;
    return fmax(ceil(2 * diameter / step - 1e-9) * step, least);
}

const struct screw_kind *screw_series(enum units units, size_t *n)
{
    *n = units == UNITS_IN ? sizeof inch_series / sizeof *inch_series : sizeof metric_series / sizeof *metric_series;
    return units == UNITS_IN ? inch_series : metric_series;
}

double screw_spare(const struct screw_fit *f, const struct screw_joint *j)
{
    return fmin(f->hold - j->least_diameters * f->kind->diameter, f->tip - j->tip_inside);
}

static bool is_better(const struct screw_fit *a, const struct screw_fit *best, const struct screw_joint *j)
{
    if (!best->kind || a->serves != best->serves)
        return !best->kind || a->serves;
    double da = fabs(a->kind->diameter - j->wanted_diameter), db = fabs(best->kind->diameter - j->wanted_diameter);
    if (fabs(da - db) > 1e-9)
        return da < db;
    if (a->kind->diameter != best->kind->diameter)
        return a->kind->diameter < best->kind->diameter;
    if (!a->serves)
        return screw_spare(a, j) > screw_spare(best, j);
    return j->deep ? a->length > best->length : a->length < best->length;
}

struct screw_fit screw_choose(const struct screw_kind *rack, size_t n, const struct screw_joint *j)
{
    struct screw_fit best = {0};
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; rack[i].diameter <= j->most_diameter + 1e-9 && k < rack[i].n_lengths; k++) {
            struct screw_fit f = {.kind = &rack[i], .length = rack[i].lengths[k]};
            f.hold = f.length - j->through;
            f.tip = j->into - f.hold;
            f.serves = screw_spare(&f, j) >= -1e-9;
            if (is_better(&f, &best, j))
                best = f;
        }
    return best;
}

bool screw_is_clear(double x, const struct screw_gap *gaps, size_t n, double apart)
{
    for (size_t i = 0; i < n; i++)
        if (x > gaps[i].lo - apart + 1e-9 && x < gaps[i].hi + apart - 1e-9)
            return false;
    return true;
}

double screw_clear_of(double x, const struct screw_gap *gaps, size_t n, double apart, double least, double most)
{
    for (double step = 0; step <= most - least; step += 0.5)
        for (int way = 1; way >= -1; way -= 2) {
            double off = fabs(x) + way * step;
            if (off >= least - 1e-9 && off <= most + 1e-9 && screw_is_clear(copysign(off, x), gaps, n, apart))
                return copysign(off, x);
        }
    return x;
}

size_t screw_spread(double a, double b, double spacing, size_t at_least, double least, double *out, size_t room)
{
    double span = fabs(b - a);
    size_t n = (size_t)ceil(span / spacing - 1e-9) + 1;
    if (n < at_least)
        n = at_least;
    size_t most = (size_t)floor(span / least + 1e-9) + 1;
    if (n > most)
        n = most;
    if (n > room)
        n = room;
    for (size_t i = 0; i < n; i++)
        out[i] = n == 1 ? (a + b) / 2 : a + (b - a) * (double)i / (double)(n - 1);
    return n;
}

static const char *inch_text(struct pool *pool, double mm)
{
    long parts = lround(unit_inches(mm) * 64), whole = parts / 64, below = 64;
    if (fabs(unit_inches(mm) - (double)parts / 64) > 0.002)
        return pool_printf(pool, "%.3f", unit_inches(mm));
    parts %= 64;
    while (parts > 0 && parts % 2 == 0) {
        parts /= 2;
        below /= 2;
    }
    if (parts == 0)
        return pool_printf(pool, "%ld", whole);
    if (whole == 0)
        return pool_printf(pool, "%ld" OVER "%ld", parts, below);
    return pool_printf(pool, "%ld" NBSP "%ld" OVER "%ld", whole, parts, below);
}

const char *screw_name(struct pool *pool, const struct screw_kind *kind, double length, enum units units)
{
    if (units == UNITS_MM)
        return pool_printf(pool, "%g" NBSP TIMES NBSP "%g" NBSP "mm", kind->diameter, length);
    if (kind->number)
        return pool_printf(pool, "No." NBSP "%d" NBSP TIMES NBSP "%s" NBSP "in", kind->number, inch_text(pool, length));
    return pool_printf(pool, "%.3f" NBSP TIMES NBSP "%s" NBSP "in", unit_inches(kind->diameter), inch_text(pool, length));
}

const char *screw_drill_name(struct pool *pool, double diameter, enum units units)
{
    if (units == UNITS_MM)
        return pool_printf(pool, "%.3g" NBSP "mm", diameter);
    return pool_printf(pool, "%s" NBSP "in", inch_text(pool, diameter));
}

