/* Published limits of error of common tools. Where a job states a tool's own limit, that holds. */
#include "proof/instruments.h"

#include <math.h>

/* DIN 862, outside measurement, by the least step and the length measured [mm]. The table was read from one copy whose
   cells were merged; its bounds at 100 and 600 mm stand in a second one. */
static const struct caliper_row {
    double up_to, fine, coarse; /* step of 0.01 or 0.02; of 0.05 or 0.1 */
} caliper_rows[] = {
    {100, 0.02, 0.05}, {300, 0.03, 0.05}, {400, 0.03, 0.06}, {500, 0.03, 0.07},      {600, 0.03, 0.08},
    {700, 0.04, 0.09}, {800, 0.04, 0.10}, {900, 0.04, 0.11}, {INFINITY, 0.04, 0.12},
};

/* Directive 2014/32/EU, Annex X (MI-008), chapter I: a + b L, L in whole metres, rounded up; c for an end hook. */
static const struct measure_row {
    double a, b, c; /* [mm] */
} measure_rows[] = {[1] = {0.1, 0.1, 0.1}, [2] = {0.3, 0.2, 0.2}, [3] = {0.6, 0.4, 0.3}};

/* JIS B 7503:2011, 0.01 mm graduation: within one revolution, by the range; 0.001 mm: entire range up to 1 mm. */
static const double dial_one_revolution = 0.010, dial_fine = 0.005;

/* Variation within one leaf, up to 0.30 mm and above: text that follows an Indian standard for feeler gauges (its
   number, IS 3179, from memory); one figure there is a misprint for 0.004. */
static const double leaf_thin = 0.004, leaf_thick = 0.006;

double instrument_square_limit(const char *grade, double length)
{
    static const struct {
        double least, share;
    } rows[] = {{0.002, 1.0 / 100000}, {0.005, 1.0 / 50000}, {0.010, 1.0 / 20000}, {0.020, 1.0 / 10000}};
    int row = job_tool_class(grade) + 1;
    if (row < 0 || row > 3)
        row = 3;
    return rows[row].least + rows[row].share * length;
}

static double caliper_limit(double step, double reading)
{
    const struct caliper_row *row = caliper_rows;
    while (fabs(reading) > row->up_to)
        row++;
    return step > 0.025 ? row->coarse : row->fine;
}

/* A class not stated counts as II, the usual one, a stated one that there is none of as III, the widest; a tape is read
   from its hook. */
static double measure_limit(const struct job_instrument *i, double reading)
{
    int class = job_tool_class(i->grade.s);
    const struct measure_row *row = &measure_rows[class >= 1 && class <= 3 ? class : i->grade.s ? 3 : 2];
    double metres = fmax(1, ceil(fabs(reading) / 1000 - 1e-9));
    return row->a + row->b * metres + (i->kind == INSTRUMENT_TAPE ? row->c : 0);
}

static struct tool tool_of_kind(const struct job_instrument *i, double reading)
{
    double step = i->resolution.given ? i->resolution.v : NAN;
    switch (i->kind) {
    case INSTRUMENT_CALIPER:
        step = isnan(step) ? DEFAULT_RESOLUTION : step;
        return (struct tool){step, caliper_limit(step, reading), "limit.din862"};
    case INSTRUMENT_RULE:
    case INSTRUMENT_TAPE:
        return (struct tool){isnan(step) ? 0.5 : step, measure_limit(i, reading), "limit.mi008"};
    case INSTRUMENT_DIAL:
        step = isnan(step) ? 0.01 : step;
        return (struct tool){step, step < 0.005 ? dial_fine : dial_one_revolution, "limit.jis7503"};
    case INSTRUMENT_FEELER:
        return (struct tool){isnan(step) ? 0.01 : step, reading > 0.30 ? leaf_thick : leaf_thin, "limit.feeler"};
    case INSTRUMENT_SQUARE:
        return (struct tool){isnan(step) ? DEFAULT_RESOLUTION : step, instrument_square_limit(i->grade.s, reading),
                             "limit.din875"};
    case INSTRUMENT_STRAIGHT_EDGE:
    case INSTRUMENT_OTHER:
        break;
    }
    return (struct tool){isnan(step) ? DEFAULT_RESOLUTION : step, DEFAULT_ERROR_LIMIT, "limit.assumed"};
}

struct tool instrument_tool(const struct job_instrument *i, double reading)
{
    if (!i)
        return (struct tool){DEFAULT_RESOLUTION, DEFAULT_ERROR_LIMIT, "limit.assumed"};
    struct tool t = tool_of_kind(i, reading);
    if (i->error_limit.given) {
        t.error_limit = i->error_limit.v;
        t.from = "limit.job";
    }
    return t;
}
