/* Numbers, dates and sentences as strings in a sheet's pool. The rules of printed numbers are those of src/words; only
   the worked sums, which need more places than a result shows, are printed here. */
#include "sheet/print.h"

#include <math.h>
#include <string.h>

/* Copies a text into the pool and frees it. */
static const char *keep_text(const struct sheet_builder *b, struct text *text)
{
    const char *kept = pool_string(b->pool, text_string(text));
    text_free(text);
    return kept;
}

const char *print_saying(const struct sheet_builder *b, struct saying saying)
{
    struct text text = {0};
    if (saying.key)
        words_put(&text, &saying, b->units);
    return keep_text(b, &text);
}

const char *print_word(const struct sheet_builder *b, const char *key)
{
    return print_saying(b, SAYING_PLAIN(key));
}

const char *print_number(const struct sheet_builder *b, enum say_kind kind, double number)
{
    struct text text = {0};
    words_number(&text, kind, number, b->units);
    return keep_text(b, &text);
}

const char *print_quantity(const struct sheet_builder *b, enum say_kind kind, double number)
{
    struct text text = {0};
    if (isnan(number))
        return print_number(b, kind, number);
    words_quantity(&text, kind, number, b->units);
    return keep_text(b, &text);
}

/* Decimal places with a true minus; `bare` leaves out the zero before the point. */
static const char *print_decimal(const struct sheet_builder *b, double number, int places, bool bare)
{
    double step = pow(10, -places);
    if (fabs(number) < step / 2)
        number = 0;
    const char *digits = pool_printf(b->pool, "%.*f", places, fabs(number));
    if (bare && places > 0 && digits[0] == '0')
        digits++;
    return number < 0 ? pool_printf(b->pool, MINUS "%s", digits) : digits;
}

const char *print_places(const struct sheet_builder *b, double mm, int places_in_mm)
{
    if (b->units == UNITS_IN)
        return print_decimal(b, unit_inches(mm), places_in_mm + 1, true);
    return print_decimal(b, mm, places_in_mm, false);
}

const char *print_places_up(const struct sheet_builder *b, double mm, int places_in_mm)
{
    bool inches = b->units == UNITS_IN;
    int places = inches ? places_in_mm + 1 : places_in_mm;
    double number = inches ? unit_inches(mm) : mm, steps = number * pow(10, places);
    return print_decimal(b, ceil(steps - 1e-9) * pow(10, -places), places, inches);
}

static const char *print_exactly(const struct sheet_builder *b, double mm, int least, int most)
{
    double number = b->units == UNITS_IN ? unit_inches(mm) : mm;
    int places = least;
    while (places < most && fabs(number * pow(10, places) - round(number * pow(10, places))) > 1e-6)
        places++;
    return print_decimal(b, number, places, b->units == UNITS_IN);
}

const char *print_as_given(const struct sheet_builder *b, double mm)
{
    return b->units == UNITS_IN ? print_exactly(b, mm, 3, 5) : print_exactly(b, mm, 2, 4);
}

const char *print_measure(const struct sheet_builder *b, double mm)
{
    return print_exactly(b, mm, 0, b->units == UNITS_IN ? 6 : 4);
}

const char *print_factor(const struct sheet_builder *b, double number, int places)
{
    return print_decimal(b, number, places, b->units == UNITS_IN);
}

const char *print_significant(const struct sheet_builder *b, double number, int digits)
{
    int before = number == 0 ? 1 : (int)floor(log10(fabs(number))) + 1;
    int places = digits - before;
    return print_factor(b, number, places < 0 ? 0 : places);
}

const char *print_date(const struct sheet_builder *b, struct date date)
{
    char digits[11];
    date_print(date, digits);
    return pool_string(b->pool, digits);
}

/* Whether a leaf is marked in the other unit: in this one it is no whole number of .0001 in, of 0.001 mm. */
static bool is_marked_otherwise(const struct sheet_builder *b, double leaf)
{
    double steps = b->units == UNITS_IN ? unit_inches(leaf) * 1e4 : leaf * 1e3;
    return fabs(steps - round(steps)) > 1e-4;
}

bool leaves_marked_otherwise(const struct sheet_builder *b)
{
    for (size_t i = 0; i < b->job->n_instruments; i++)
        for (size_t k = 0; k < b->job->instruments[i].n_leaves; k++)
            if (is_marked_otherwise(b, b->job->instruments[i].leaves[k]))
                return true;
    return false;
}

static const char *join_leaves(const struct sheet_builder *b, const double *leaves, int n)
{
    struct text text = {0};
    for (int i = 0; i < n; i++) {
        text_add(&text, i ? NBSP "+" NBSP : "");
        text_add(&text, print_as_given(b, leaves[i]));
    }
    return keep_text(b, &text);
}

/* The builder of the unit that the job's leaves are marked in. */
static struct sheet_builder in_unit_of_leaves(const struct sheet_builder *b)
{
    struct sheet_builder other = *b;
    if (leaves_marked_otherwise(b))
        other.units = b->units == UNITS_IN ? UNITS_MM : UNITS_IN;
    return other;
}

static const char *unit_of_leaves(const struct sheet_builder *marked, const struct sheet_builder *b)
{
    return marked->units == b->units ? "" : pool_printf(b->pool, THIN "%s", words_unit(marked->units));
}

const char *print_leaves(const struct sheet_builder *b, const double *leaves, int n)
{
    struct sheet_builder marked = in_unit_of_leaves(b);
    return pool_printf(b->pool, "%s%s", join_leaves(&marked, leaves, n), unit_of_leaves(&marked, b));
}

const char *print_leaf_sum(const struct sheet_builder *b, const double *leaves, int n)
{
    struct sheet_builder marked = in_unit_of_leaves(b);
    double sum = 0;
    for (int i = 0; i < n; i++)
        sum += leaves[i];
    const char *terms = n > 1 ? pool_printf(b->pool, "%s = ", join_leaves(&marked, leaves, n)) : "";
    return pool_printf(b->pool, "%s%s%s", terms, print_as_given(&marked, sum), unit_of_leaves(&marked, b));
}

const char *list_leaves(const struct sheet_builder *b, const double *leaves, size_t n)
{
    struct sheet_builder marked = in_unit_of_leaves(b);
    const char *all = "";
    for (size_t k = 0; k < n; k++)
        all = pool_printf(b->pool, "%s%s%s", all, k ? ", " : "", print_as_given(&marked, leaves[k]));
    return pool_printf(b->pool, "%s%s", all, unit_of_leaves(&marked, b));
}

const char *print_bold(const struct sheet_builder *b, const char *s)
{
    return pool_printf(b->pool, "%c%s%c", TEXT_BOLD_ON, s, TEXT_BOLD_OFF);
}

static const char *skip_sign(const char *s)
{
    if (*s == '+')
        return s + 1;
    return strncmp(s, MINUS, strlen(MINUS)) == 0 ? s + strlen(MINUS) : s;
}

struct printed_result print_result(const struct sheet_builder *b, const struct proof_test *test)
{
    struct text value = {0}, u = {0};
    double over = test->over_length;
    words_value_and_u(&value, &u, test->error * over, proof_has_sign(test), test->expanded_uncertainty * over,
                      test->tolerance * over, b->units);
    const char *kept = keep_text(b, &value);
    return (struct printed_result){.value = kept, .size = skip_sign(kept), .u = keep_text(b, &u)};
}

const char *key_second(const struct sheet_builder *b, const char *key, const char *of)
{
    const char *second = pool_printf(b->pool, "%s.%s", key, of);
    return words_find(second) ? second : key;
}

const char *key_plain(const struct sheet_builder *b, const char *key)
{
    return b->plan->has_sled ? key : key_second(b, key, "plain");
}

const char *again_after_key(const struct sheet_builder *b)
{
    return b->plan->has_sled ? "again.after.sled" : b->job->jig.given ? "again.after.jig" : "again.after.saw";
}

const char *print_over_size(const struct sheet_builder *b, double mm)
{
    return print_saying(b, SAYING(b->units == UNITS_IN ? "sheet.over_in" : "sheet.over_mm", SAY_ARG("length", SAY_SIZE, mm)));
}

const char *print_over_length(const struct sheet_builder *b, const struct proof_test *test)
{
    return print_over_size(b, test->over_length);
}

const char *key_of_unit(enum units units)
{
    return units == UNITS_IN ? "sheet.inches" : "sheet.millimetres";
}

const char *key_of_side(enum side side)
{
    return side == SIDE_LEFT ? "side.left" : "side.right";
}

const char *key_of_fence(enum fence_side side)
{
    return side == FENCE_NEAR ? "fence.near" : "fence.far";
}

const char *key_of_toward(enum toward toward)
{
    return toward == TOWARD_OPERATOR ? "toward.operator" : "toward.away";
}

const char *key_of_turn(enum fence_side fence, enum side offcut)
{
    return (fence == FENCE_NEAR) == (offcut == SIDE_RIGHT) ? "turn.clockwise" : "turn.counter_clockwise";
}
