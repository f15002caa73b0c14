/* Checks and moves in words. */
#include "sheet/findings.h"

#include <math.h>
#include <string.h>

/* How a check's numbers are printed. */
static const enum say_kind check_kinds[CHECKS] = {
#define CHECK(id, name, unit, say) [CHECK_##id] = say,
#include "plan/checks.inc"
#undef CHECK
};

/* From the old hole to the new one, at least [mm]; common practice, no source. */
static const double beside_old_hole[] = {[UNITS_MM] = 10, [UNITS_IN] = 7 * MM_PER_INCH / 16};

static const char *const verdict_keys[] = {
    [VERDICT_PASS] = "verdict.pass",
    [VERDICT_CAUTION] = "verdict.caution",
    [VERDICT_FAIL] = "verdict.fail",
};

const char *check_title(const struct sheet_builder *b, const struct plan_check *check)
{
    return print_saying(b, check->what);
}

/* A value printed like the limit that it breaks would read as if it kept it. */
static bool reads_as_limit(const struct sheet_builder *b, enum say_kind kind, double value, double limit, bool breaks)
{
    return breaks && strcmp(print_number(b, kind, value), print_number(b, kind, limit)) == 0;
}

static bool is_printed_like_a_broken_limit(const struct sheet_builder *b, const struct plan_check *c,
                                           enum say_kind kind)
{
    return (!isnan(c->low) && reads_as_limit(b, kind, c->value, c->low, c->value < c->low)) ||
           (!isnan(c->high) && reads_as_limit(b, kind, c->value, c->high, c->value > c->high));
}

/* Nothing lost by a 64th of an inch. */
static bool is_whole_64th(double mm)
{
    double n = unit_inches(mm) * 64;
    return isnan(mm) || fabs(n - round(n)) <= 64 * 0.002;
}

/* The kinds of number to try, coarse to fine; the last always tells the verdict as it is. */
static enum say_kind finer_kind(enum say_kind kind)
{
    return kind == SAY_SIZE || kind == SAY_THICKNESS ? SAY_FIT : SAY_UNSIGNED;
}

/* A small angle stands as what it makes over the tolerance's length: as [mm], which {over} follows. */
static struct plan_check angle_as_length(const struct sheet_builder *b, const struct plan_check *c)
{
    struct plan_check over = *c;
    double length = b->job->tolerances.squareness.over.v;
    if (c->unit != CHECK_RAD)
        return over;
    over.value *= length;
    over.low *= length;
    over.high *= length;
    return over;
}

/* In inches a row is in fractions only where all of it is: else its figures could not be compared. */
static enum say_kind kind_of_check(const struct sheet_builder *b, const struct plan_check *c)
{
    enum say_kind kind = c->unit == CHECK_RAD ? SAY_UNSIGNED : check_kinds[c->id];
    bool in_fractions = is_whole_64th(c->value) && is_whole_64th(c->low) && is_whole_64th(c->high);
    return kind == SAY_SIZE && b->units == UNITS_IN && !in_fractions ? SAY_THICKNESS : kind;
}

/* " in 300" behind what is reckoned over the tolerance's length; " times" behind a plain multiple; "" behind all else. */
static const char *print_behind(const struct sheet_builder *b, const struct plan_check *c)
{
    if (c->unit == CHECK_RAD || c->id == CHECK_RUNNER_YAW)
        return pool_printf(b->pool, " %s", print_over_size(b, b->job->tolerances.squareness.over.v));
    return c->unit == CHECK_SHARE && check_kinds[c->id] == SAY_NUMBER ? print_word(b, "sheet.times") : "";
}

/* What stands for a value that there is none of. */
static const char *print_no_value(const struct sheet_builder *b, const struct plan_check *c)
{
    switch ((int)c->id) {
    case CHECK_TIPPING_NEAR:
    case CHECK_TIPPING_FAR:
    case CHECK_TIPPING_SIDE:
        return print_word(b, "build.cannot_tip");
    case CHECK_TIPPING_PARKED:
        return print_word(b, "build.over_the_table");
    case CHECK_RIVING_KNIFE:
        return print_word(b, b->job->saw.knife.kind == KNIFE_NONE ? "build.no_knife" : "build.not_stated");
    default:
        return print_word(b, "build.none");
    }
}

/* The value alone where no length is finer than its kind: a force or a share with two more places. */
static const char *print_finely(const struct sheet_builder *b, const struct plan_check *c)
{
    if (c->unit == CHECK_NEWTON)
        return pool_printf(b->pool, "%.2f" THIN "N", c->value);
    if (c->unit == CHECK_SHARE && check_kinds[c->id] == SAY_NUMBER)
        return pool_printf(b->pool, "%.4f", c->value);
    if (c->unit == CHECK_SHARE)
        return pool_printf(b->pool, "%.2f" THIN "%%", c->value * 100);
    return pool_printf(b->pool, "%s" THIN "%s", print_places(b, c->value, 6), words_unit(b->units));
}

static const char *print_check_value(const struct sheet_builder *b, const struct plan_check *c)
{
    enum say_kind kind = kind_of_check(b, c);
    if (isnan(c->value))
        return print_no_value(b, c);
    if (!is_printed_like_a_broken_limit(b, c, kind))
        return print_quantity(b, kind, c->value);
    if (c->unit != CHECK_MM)
        return print_finely(b, c);
    if (is_printed_like_a_broken_limit(b, c, finer_kind(kind)))
        kind = finer_kind(kind);
    return print_quantity(b, finer_kind(kind), c->value);
}

const char *check_value(const struct sheet_builder *b, const struct plan_check *c)
{
    struct plan_check as_length = angle_as_length(b, c);
    return pool_printf(b->pool, "%s%s", print_check_value(b, &as_length), isnan(c->value) ? "" : print_behind(b, c));
}

static bool nothing_fits(const struct plan_check *c)
{
    return !isnan(c->low) && !isnan(c->high) && c->low > c->high;
}

static const char *print_check_wanted(const struct sheet_builder *b, const struct plan_check *c)
{
    enum say_kind kind = kind_of_check(b, c);
    bool low = !isnan(c->low), high = !isnan(c->high);
    if (nothing_fits(c))
        return print_word(b, "sheet.none_fits");
    if (low && high)
        return print_saying(b, SAYING("sheet.from_to", SAY_ARG("low", kind, c->low), SAY_ARG("high", kind, c->high)));
    if (low)
        return print_saying(b, SAYING("sheet.at_least", SAY_ARG("low", kind, c->low)));
    return high ? print_saying(b, SAYING("sheet.at_most", SAY_ARG("high", kind, c->high))) : "";
}

const char *check_wanted(const struct sheet_builder *b, const struct plan_check *c)
{
    struct plan_check as_length = angle_as_length(b, c);
    const char *wanted = print_check_wanted(b, &as_length);
    return pool_printf(b->pool, "%s%s", wanted, *wanted ? print_behind(b, c) : "");
}

const char *check_verdict(const struct sheet_builder *b, const struct plan_check *c)
{
    const char *word = print_word(b, verdict_keys[c->verdict]);
    return c->verdict == VERDICT_PASS ? word : print_bold(b, word);
}

const char *check_headline(const struct sheet_builder *b, const struct plan_check *c)
{
    const char *wanted = check_wanted(b, c);
    struct plan_check as_length = angle_as_length(b, c);
    enum say_kind kind = kind_of_check(b, &as_length);
    if (nothing_fits(c))
        return print_saying(b, SAYING("sheet.check.none_fits", SAY_STR("title", check_title(b, c)), SAY_STR("value", check_value(b, c)),
                                      SAY_ARG("low", kind, as_length.low), SAY_ARG("high", kind, as_length.high)));
    return print_saying(b, SAYING(*wanted ? "sheet.check" : "sheet.check_bare", SAY_STR("title", check_title(b, c)),
                                  SAY_STR("value", check_value(b, c)), SAY_STR("wanted", wanted)));
}

const char *check_sentence(const struct sheet_builder *b, const struct plan_check *c)
{
    return pool_printf(b->pool, "%s %s", check_headline(b, c), print_saying(b, c->remedy));
}

const char *check_job_change(const struct sheet_builder *b, const struct plan_check *c)
{
    struct text change = {0};
    const char *kept = words_put_job_change(&change, &c->remedy, b->job->file_units) ? pool_string(b->pool, text_string(&change)) : "";
    text_free(&change);
    return *kept ? print_saying(b, SAYING("record.job_change", SAY_STR("change", kept))) : "";
}

bool check_same_remedy(const struct sheet_builder *b, const struct plan_check *a, const struct plan_check *c)
{
    return strcmp(print_saying(b, a->remedy), print_saying(b, c->remedy)) == 0;
}

bool check_told_before(const struct sheet_builder *b, int i)
{
    for (int k = 0; k < i; k++)
        if (check_same_remedy(b, check_failed(b, k), check_failed(b, i)))
            return true;
    return false;
}

const struct plan_check *check_failed(const struct sheet_builder *b, int i)
{
    for (int hurts = 1; hurts >= 0; hurts--)
        for (size_t k = 0; k < b->outcome->n_checks; k++) {
            const struct plan_check *c = &b->outcome->checks[k];
            if (c->verdict == VERDICT_FAIL && c->hurts == (hurts == 1) && i-- == 0)
                return c;
        }
    return NULL;
}

static int count_verdicts(const struct outcome *o, enum verdict verdict)
{
    int n = 0;
    for (size_t i = 0; i < o->n_checks; i++)
        n += o->checks[i].verdict == verdict;
    return n;
}

int checks_failed(const struct sheet_builder *b)
{
    return count_verdicts(b->outcome, VERDICT_FAIL);
}

int checks_cautioned(const struct sheet_builder *b)
{
    return count_verdicts(b->outcome, VERDICT_CAUTION);
}

/* "feeler leaves 0.40 + 0.05 = 0.45", or the plain gauge where the job has no set of leaves. */
static const char *print_gauge(const struct sheet_builder *b, const struct move *move)
{
    if (move->n_leaves == 0)
        return print_saying(b, SAYING("move.gauge", SAY_ARG("distance", SAY_FIT, move->distance)));
    bool exact = fabs(move->left_over) < 0.5 * (b->units == UNITS_IN ? 0.001 * MM_PER_INCH : 0.001);
    static const char *const keys[2][2] = {{"move.leaf.nearest", "move.leaf"}, {"move.leaves.nearest", "move.leaves"}};
    return print_saying(b, SAYING(keys[move->n_leaves > 1][exact],
                                  SAY_STR("leaves", print_leaf_sum(b, move->leaves, move->n_leaves))));
}

const char *move_sentence(const struct sheet_builder *b, const struct move *move)
{
    if (move->what.key)
        return print_saying(b, move->what);
    return print_saying(b,
                        SAYING(b->plan->has_sled ? "move.sentence" : "move.sentence.tested", SAY_KEY("end", key_of_side(move->end)),
                               SAY_ARG("distance", SAY_MOVE, move->distance),
                               SAY_KEY("toward", key_of_toward(move->toward)), SAY_STR("gauge", print_gauge(b, move))));
}

/* The block is clamped against the fence's outer face, where it does not stand in the way of the work: on the
   operator's side of a near fence. The gauge goes in before the fence moves toward the block, after it moved away. */
static bool gauge_goes_in_first(const struct sheet_builder *b, const struct move *move)
{
    bool near_fence = b->plan->setting.fence_side == FENCE_NEAR;
    return (move->toward == TOWARD_OPERATOR) == near_fence;
}

/* ---- screws of the reference fence, by role ---- */

static const char *fence_letter(const struct sheet_builder *b)
{
    for (size_t i = 0; i < b->plan->n_parts; i++) /* of unequal layers the first, as the steps say */
        if (b->plan->parts[i].kind == PART_REFERENCE_FENCE)
            return b->plan->parts[i].letter;
    return "";
}

/* "−188, −45, +45": places from the blade plane of the two roles, ascending. */
static const char *list_fence_holes(const struct sheet_builder *b, enum hole_role one, enum hole_role other, int *n)
{
    const char *places = "";
    double last = -INFINITY;
    for (*n = 0;; (*n)++) {
        double next = INFINITY;
        for (size_t i = 0; i < b->plan->n_holes; i++) {
            const struct plan_hole *h = &b->plan->holes[i];
            if ((h->role == one || h->role == other) && h->x > last + 1e-6)
                next = fmin(next, h->x);
        }
        if (isinf(next))
            return places;
        places = pool_printf(b->pool, "%s%s%s%s", places, *places ? ", " : "", next > 0 ? "+" : "",
                             print_number(b, SAY_SIZE, next));
        last = next;
    }
}

struct saying move_free_screws(const struct sheet_builder *b)
{
    int n;
    const char *places = list_fence_holes(b, HOLE_TRIAL, HOLE_REST, &n);
    return SAYING(n > 0 ? "move.free_screws_at" : "move.free_all_screws", SAY_STR("fence", fence_letter(b)),
                  SAY_ARG("n", SAY_COUNT_WORD, n), SAY_STR("places", places));
}

struct saying move_fresh_holes(const struct sheet_builder *b)
{
    int n;
    const char *places = list_fence_holes(b, HOLE_RESERVED, HOLE_RESERVED, &n);
    return SAYING(n > 0 ? "move.fresh_holes_at" : "move.fix", SAY_STR("places", places),
                  SAY_ARG("beside", SAY_SIZE, beside_old_hole[b->units]));
}

static void add_move_step(const struct sheet_builder *b, struct block *steps, struct saying what, const char *know_key)
{
    what.key = key_plain(b, what.key);
    struct step_item item = {
        .tick = true, .what = print_saying(b, what), .aside = know_key ? print_word(b, key_plain(b, know_key)) : "", .caution = ""};
    item.number = pool_printf(b->pool, "%d", steps->as.steps.n + 1);
    steps_add(b, steps, item);
}

void move_steps(const struct sheet_builder *b, struct block_list *list, const struct proof_test *test)
{
    const struct move *move = &test->move;
    struct block steps = steps_begin();
    struct say_arg end = SAY_KEY("end", key_of_side(move->end)), gauge = SAY_STR("gauge", print_gauge(b, move));
    struct say_arg toward = SAY_KEY("toward", key_of_toward(move->toward));
    struct say_arg carrier = SAY_KEY("carrier", plan_block_carrier_key(b->plan));
    add_move_step(b, &steps, SAYING_PLAIN("move.unplug"), "move.unplug.why");
    if (gauge_goes_in_first(b, move)) {
        add_move_step(b, &steps, SAYING("move.clamp_with_gauge", end, gauge, carrier), "move.clamp_with_gauge.know");
        add_move_step(b, &steps, move_free_screws(b), "move.free_screws.why");
        add_move_step(b, &steps, SAYING("move.push_to_block", end, toward), "move.push_to_block.know");
    } else {
        add_move_step(b, &steps, SAYING("move.clamp", end, carrier), "move.clamp.know");
        add_move_step(b, &steps, move_free_screws(b), "move.free_screws.why");
        add_move_step(b, &steps, SAYING("move.draw_from_block", end, toward, gauge), "move.draw_from_block.know");
    }
    add_move_step(b, &steps, move_fresh_holes(b), "move.fix.why");
    add_move_step(b, &steps, SAYING_PLAIN("move.test_again"), "move.test_again.why");
    block_append(b, list, steps);
}
