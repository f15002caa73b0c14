/* What a shop has and chooses: air, screws, instruments, tolerances, interval between tests, trim. */
#include "job/tables.h"

/* ---- Air ---- */

static const struct field climate_fields[] = {
    GIVEN(struct job_climate, given),
    {"temperature", .kind = VALUE_QUANTITY, .quantity = QUANTITY_TEMPERATURE, .low = -20, .high = 60, .required = true,
     AT(struct job_climate, temperature)},
    {"humidity", PERCENT(5, 95), .required = true, AT(struct job_climate, humidity), .about = "relative humidity"},
};
const struct table climate_table = {"climate", FIELDS(climate_fields)};

static void check_air(struct reader *r, const struct node *map, void *out)
{
    struct job_air *a = out;
    (void)map;
    if (a->driest.humidity.v >= a->dampest.humidity.v)
        diag_at(r->diags, DIAG_CONTRADICTION, a->driest.humidity.mark, reader_key(r, "driest"),
                "%.4g %% is not drier than dampest, %.4g %%", a->driest.humidity.v, a->dampest.humidity.v);
}

static const struct field air_fields[] = {
    GIVEN(struct job_air, given),
    PLACE(struct job_air, mark),
    {"at_fitting", MAP(climate_table), AT(struct job_air, at_fitting), .about = "when the runners are fitted"},
    {"driest", MAP(climate_table), AT(struct job_air, driest), .about = "over the year"},
    {"dampest", MAP(climate_table), AT(struct job_air, dampest), .about = "over the year"},
};
const struct table air_table = {"air", FIELDS(air_fields), .check = check_air,
                                .about = "the shop's air, for wood movement"};

/* ---- Screws ---- */

static const struct field screw_fields[] = {
    PLACE(struct job_screw, mark),
    {"diameter", .kind = VALUE_DOUBLE, .quantity = QUANTITY_LENGTH, .low = 2, .high = 10, .required = true,
     AT(struct job_screw, diameter)},
    {"lengths", .kind = VALUE_NUMBERS, .low = 6, .high = 200, .sorted = true, .required = true,
     AT(struct job_screw, lengths), MORE(struct job_screw, n_lengths)},
};
const struct table screw_table = {"screw", FIELDS(screw_fields)};

/* ---- Instruments ---- */

static const char *const instrument_kinds[] = {
    [INSTRUMENT_CALIPER] = "caliper",
    [INSTRUMENT_FEELER] = "feeler",
    [INSTRUMENT_RULE] = "rule",
    [INSTRUMENT_TAPE] = "tape",
    [INSTRUMENT_DIAL] = "dial",
    [INSTRUMENT_SQUARE] = "square",
    [INSTRUMENT_STRAIGHT_EDGE] = "straight-edge",
    [INSTRUMENT_OTHER] = "other",
};
static const struct words instrument_words = WORDS(instrument_kinds);

static const struct field instrument_fields[] = {
    PLACE(struct job_instrument, mark),
    {"kind", WORD(instrument_words), .required = true, AT(struct job_instrument, kind)},
    {"resolution", LENGTH(0.0001, 5), AT(struct job_instrument, resolution), .about = "the least step that it shows"},
    {"error_limit", LENGTH(0, 5), AT(struct job_instrument, error_limit),
     .about = "half the width of the maker's or the certificate's limit"},
    {"checked", .kind = VALUE_DATE, AT(struct job_instrument, checked),
     .about = "the day on which it was last checked"},
    {"certificate", TEXT(80), AT(struct job_instrument, certificate), .about = "laboratory and number"},
    {"grade", TEXT(40), AT(struct job_instrument, grade), .about = "class of a rule, tape or square"},
    {"leaves", .kind = VALUE_NUMBERS, .low = 0.005, .high = 3, .sorted = true, AT(struct job_instrument, leaves),
     MORE(struct job_instrument, n_leaves), .out_of_range = DIAG_IMPLAUSIBLE,
     .hint = "is the unit or the decimal point right?", .about = "thicknesses of a set of feeler leaves"},
};
const struct table instrument_table = {"instrument", FIELDS(instrument_fields)};

/* ---- Tolerances. The defaults are the program's choice: common practice, no source. ---- */

#define LIMIT_FIELDS(name, error_default, over_default)                                                                \
    static const struct field name##_fields[] = {                                                                      \
        {"error", LENGTH(0.001, 10), .required = true, .fallback = (error_default), AT(struct job_limit, error)},      \
        {"over", LENGTH(10, 3000), .fallback = (over_default), AT(struct job_limit, over),                             \
         .about = "the length that it holds for"},                                                                     \
    };                                                                                                                 \
    static const struct table name##_table = {#name, FIELDS(name##_fields)}

LIMIT_FIELDS(squareness, 0.10, 300);
LIMIT_FIELDS(blade_tilt, 0.10, 50);
LIMIT_FIELDS(slot, 0.08, 200);
LIMIT_FIELDS(mitre, 0.10, 100);

static const struct field stop_limits_fields[] = {
    {"error", LENGTH(0.001, 10), .fallback = 0.2, AT(struct job_tolerances, stop_error)},
    {"spread", LENGTH(0.001, 10), .fallback = 0.1, AT(struct job_tolerances, stop_spread)},
};
static const struct field straightness_fields[] = {
    {"bow", LENGTH(0.001, 10), .required = true, .fallback = 0.10, AT(struct job_tolerances, bow)},
};
static const struct field box_pitch_fields[] = {
    {"error", LENGTH(0.001, 10), .required = true, .fallback = 0.02, AT(struct job_tolerances, box_pitch)},
};
static const struct field play_limits_fields[] = {
    {"low", LENGTH(0.001, 5), .fallback = 0.05, AT(struct job_tolerances, side_play_low)},
    {"high", LENGTH(0.001, 5), .fallback = 0.25, AT(struct job_tolerances, side_play_high)},
};

static void check_play_limits(struct reader *r, const struct node *map, void *out)
{
    struct job_tolerances *t = out;
    (void)map;
    if (t->side_play_low.v >= t->side_play_high.v)
        diag_at(r->diags, DIAG_CONTRADICTION, t->side_play_low.given ? t->side_play_low.mark : t->side_play_high.mark,
                reader_path(r), "low, %s, must be less than high, %s", reader_num(r, &t->side_play_low),
                reader_length(r, t->side_play_low.mark, t->side_play_high.v));
}

static const struct table stop_limits_table = {"stop_tolerance", FIELDS(stop_limits_fields)};
static const struct table straightness_table = {"straightness", FIELDS(straightness_fields)};
static const struct table box_pitch_table = {"box_pitch", FIELDS(box_pitch_fields)};
static const struct table play_limits_table = {"side_play", FIELDS(play_limits_fields), .check = check_play_limits};

static const struct field tolerance_fields[] = {
    {"squareness", MAP(squareness_table), AT(struct job_tolerances, squareness)},
    {"blade_tilt", MAP(blade_tilt_table), AT(struct job_tolerances, blade_tilt)},
    {"stop", MAP(stop_limits_table)},
    {"slot", MAP(slot_table), AT(struct job_tolerances, slot)},
    {"straightness", MAP(straightness_table)},
    {"mitre", MAP(mitre_table), AT(struct job_tolerances, mitre)},
    {"box_pitch", MAP(box_pitch_table)},
    {"side_play", MAP(play_limits_table)},
};
const struct table tolerances_table = {"tolerances", FIELDS(tolerance_fields),
                                       .about = "what is left out is the program's default, common practice"};

/* ---- The rest ---- */

static const struct field retest_fields[] = {
    {"months", NUMBER(1, 120), .whole = true, .required = true, AT(struct job, retest_months)},
};
const struct table retest_table = {"retest", FIELDS(retest_fields), .about = "the shop's own choice of interval"};

static const struct field cutting_fields[] = {
    {"trim", LENGTH(0, 100), AT(struct job, trim), .about = "taken off each edge of a new sheet or end of a new strip"},
};
const struct table cutting_table = {"cutting", FIELDS(cutting_fields)};
