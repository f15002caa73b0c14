/* What each check speaks of, by the letters of its parts; and what one that does not pass comes to, in one short sentence
   without a number: for a wall, an arm's length off. */
#include "plan/build.h"

#include "plan/sled.h"

#include <math.h>
#include <string.h>

/* How far the value is past its limits. */
enum past { ANYHOW, BELOW, FAR_BELOW, FAILED };

/* The first row that suits a check is said. why: the ending of the check's own sentence, where it decides. */
static const struct brief_row {
    enum check_id id;
    enum past past;
    const char *why, *key;
} rows[] = {
    {CHECK_THICKNESS_CAPACITY, ANYHOW, NULL, "check.thickness_capacity.short"},
    {CHECK_TRAVEL_STOP, BELOW, NULL, "check.travel_stop.short.low"},
    {CHECK_TRAVEL_STOP, ANYHOW, NULL, "check.travel_stop.short"},
    {CHECK_EXIT_GUARD_DEPTH, FAR_BELOW, NULL, "check.exit_guard_depth.short"},
    {CHECK_EXIT_GUARD_DEPTH, ANYHOW, NULL, "check.exit_guard_depth.short.thin"},
    {CHECK_EXIT_GUARD_HEIGHT, ANYHOW, NULL, "check.exit_guard_height.short"},
    {CHECK_FENCE_BRIDGE, BELOW, NULL, "check.fence_bridge.short"},
    {CHECK_FENCE_BRIDGE, ANYHOW, NULL, "check.fence_bridge.short.high"},
    {CHECK_FENCE_BENDING, ANYHOW, NULL, "check.fence_bending.short"},
    {CHECK_RUNNER_PLAY, BELOW, NULL, "check.runner_play.short.low"},
    {CHECK_RUNNER_PLAY, ANYHOW, NULL, "check.runner_play.short"},
    {CHECK_RUNNER_PLAY_DRIEST, BELOW, NULL, "check.runner_play_driest.short.low"},
    {CHECK_RUNNER_PLAY_DRIEST, ANYHOW, NULL, "check.runner_play_driest.short"},
    {CHECK_RUNNER_PLAY_DAMPEST, BELOW, NULL, "check.runner_play_dampest.short.low"},
    {CHECK_RUNNER_PLAY_DAMPEST, ANYHOW, NULL, "check.runner_play_dampest.short"},
    {CHECK_RUNNER_PAIR_PLAY, FAILED, NULL, "check.runner_pair_play.short"},
    {CHECK_RUNNER_PAIR_PLAY, ANYHOW, NULL, "check.runner_pair_play.short.little"},
    {CHECK_RUNNER_WIDTH_TO_PLANE, ANYHOW, ".wide", "check.runner_width_to_plane.short.high"},
    {CHECK_RUNNER_WIDTH_TO_PLANE, ANYHOW, ".slack", "check.runner_width_to_plane.short.low"},
    {CHECK_RUNNER_WIDTH_TO_PLANE, ANYHOW, ".no_air", "check.runner_width_to_plane.short.no_air"},
    {CHECK_RUNNER_WIDTH_TO_PLANE, ANYHOW, ".tight", "check.runner_width_to_plane.short.tight"},
    {CHECK_RUNNER_WIDTH_TO_PLANE, ANYHOW, NULL, "check.runner_width_to_plane.short"},
    {CHECK_RUNNER_YAW, ANYHOW, NULL, "check.runner_yaw.short"},
    {CHECK_RUNNER_HEIGHT, ANYHOW, NULL, "check.runner_height.short"},
    {CHECK_RUNNER_ENGAGED, ANYHOW, NULL, "check.runner_engaged.short"},
    {CHECK_TIPPING_NEAR, ANYHOW, ".falls", "check.tipping_near.short.falls"},
    {CHECK_TIPPING_NEAR, ANYHOW, NULL, "check.tipping_near.short"},
    {CHECK_TIPPING_FAR, ANYHOW, ".falls", "check.tipping_far.short.falls"},
    {CHECK_TIPPING_FAR, ANYHOW, NULL, "check.tipping_far.short"},
    {CHECK_TIPPING_SIDE, ANYHOW, ".falls", "check.tipping_side.short.falls"},
    {CHECK_TIPPING_SIDE, ANYHOW, NULL, "check.tipping_side.short"},
    {CHECK_TIPPING_PARKED, ANYHOW, NULL, "check.tipping_parked.short"},
    {CHECK_WIDEST_WORK, ANYHOW, NULL, "check.widest_work.short"},
    {CHECK_SCREW_FREE_STRIP, ANYHOW, NULL, "check.screw_free_strip.short"},
    {CHECK_SCREW_LENGTH, ANYHOW, NULL, "check.screw_length.short"},
    {CHECK_RIVING_KNIFE, ANYHOW, ".high", "check.riving_knife.short.high"},
    {CHECK_RIVING_KNIFE, ANYHOW, ".both", "check.riving_knife.short.high"},
    {CHECK_RIVING_KNIFE, FAILED, NULL, "check.riving_knife.short"},
    {CHECK_RIVING_KNIFE, ANYHOW, NULL, "check.riving_knife.short.unknown"},
    {CHECK_FIVE_CUT_STRIP, ANYHOW, NULL, "check.five_cut_strip.short"},
    {CHECK_STOCK_FITS, ANYHOW, NULL, "check.stock_fits.short"},
};

static bool is_past(const struct plan_check *c, enum past past)
{
    switch (past) {
    case BELOW:
        return c->value < c->low;
    case FAR_BELOW: /* the wood beyond the blade is used up: the blade itself is out */
        return c->value < c->low - SLED_GUARD_MARGIN;
    case FAILED:
        return c->verdict == VERDICT_FAIL;
    case ANYHOW:
        break;
    }
    return true;
}

static bool ends_with(const char *s, const char *ending)
{
    size_t n = strlen(s), k = strlen(ending);

    return n >= k && strcmp(s + n - k, ending) == 0;
}

static const struct brief_row *find_brief(const struct plan_check *c)
{
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (rows[i].id == c->id && is_past(c, rows[i].past) && (!rows[i].why || ends_with(c->why.key, rows[i].why)))
            return &rows[i];
    return NULL;
}

/* ---- of which part ---- */

static const char *letter_of(const struct plan *p, enum part_kind kind)
{
    const struct plan_part *part = build_find_part(p, kind);

    return part ? part->letter : "";
}

static enum part_kind nearer_fence(const struct plan_sled *s)
{
    return s->reference.side == FENCE_NEAR ? PART_REFERENCE_FENCE : PART_OTHER_FENCE;
}

static enum part_kind farther_fence(const struct plan_sled *s)
{
    return s->reference.side == FENCE_NEAR ? PART_OTHER_FENCE : PART_REFERENCE_FENCE;
}

static enum part_kind bridge_fence(const struct plan *p, const struct plan_check *c)
{
    const struct plan_fence *r = &p->sled.reference, *o = &p->sled.other;

    if (ends_with(c->why.key, ".high"))
        return o->height > r->height ? PART_OTHER_FENCE : PART_REFERENCE_FENCE;
    return ends_with(c->why.key, ".other") ? PART_OTHER_FENCE : PART_REFERENCE_FENCE;
}

/* The part into which the screw nearest to the blade plane goes. */
static const char *nearest_screw_part(const struct plan *p)
{
    const struct plan_hole *nearest = NULL;

    for (size_t i = 0; i < p->n_holes; i++) {
        const struct plan_hole *h = &p->holes[i];
        if (!nearest || fabs(h->x) - h->head_diameter / 2 < fabs(nearest->x) - nearest->head_diameter / 2)
            nearest = h;
    }
    return nearest ? nearest->part : "";
}

static const char *argument(const struct saying *s, const char *name)
{
    for (int i = 0; i < SAY_MOST_ARGS && s->arg[i].name; i++)
        if (strcmp(s->arg[i].name, name) == 0)
            return s->arg[i].text;
    return "";
}

/* The screws' own sentence names the part by its words key. */
static const char *screwed_part(const struct plan *p, const struct plan_check *c)
{
    const char *key = argument(&c->why, "part");

    for (size_t i = 0; i < p->n_parts; i++)
        if (strcmp(plan_part_key(p->parts[i].kind), key) == 0)
            return p->parts[i].letter;
    return "";
}

/* The letter of the part that a check speaks of first. */
static const char *first_part(const struct plan *p, const struct plan_check *c)
{
    switch ((int)c->id) {
    case CHECK_THICKNESS_CAPACITY:
        return letter_of(p, PART_BASE);
    case CHECK_TRAVEL_STOP:
    case CHECK_FENCE_BENDING:
        return letter_of(p, PART_REFERENCE_FENCE);
    case CHECK_EXIT_GUARD_DEPTH:
    case CHECK_EXIT_GUARD_HEIGHT:
        return letter_of(p, PART_EXIT_GUARD);
    case CHECK_FENCE_BRIDGE:
        return letter_of(p, bridge_fence(p, c));
    case CHECK_TIPPING_FAR:
        return letter_of(p, farther_fence(&p->sled));
    case CHECK_TIPPING_SIDE:
        return letter_of(p, p->sled.reference.length >= p->sled.other.length ? PART_REFERENCE_FENCE : PART_OTHER_FENCE);
    case CHECK_TIPPING_NEAR:
    case CHECK_WIDEST_WORK:
        return letter_of(p, nearer_fence(&p->sled));
    case CHECK_SCREW_FREE_STRIP:
        return nearest_screw_part(p);
    case CHECK_SCREW_LENGTH:
        return screwed_part(p, c);
    case CHECK_STOCK_FITS:
        return argument(&c->why, "part");
    default:
        return letter_of(p, PART_GUIDE_RUNNER);
    }
}

static const char *second_part(const struct plan *p, const struct plan_check *c)
{
    switch ((int)c->id) {
    case CHECK_TRAVEL_STOP:
        return letter_of(p, PART_EXIT_GUARD);
    case CHECK_WIDEST_WORK:
        return letter_of(p, farther_fence(&p->sled));
    default:
        return letter_of(p, PART_FREE_RUNNER);
    }
}

void plan_write_briefs(struct plan_builder *b)
{
    static const char *const titles[CHECKS] = {
#define CHECK(id, name, unit, say) [CHECK_##id] = "check." name ".title",
#include "plan/checks.inc"
#undef CHECK
    };

    for (size_t i = 0; i < b->plan->n_checks; i++) {
        struct plan_check *c = &b->plan->checks[i];
        const struct brief_row *row = c->verdict == VERDICT_PASS ? NULL : find_brief(c);
        c->what = SAYING(titles[c->id], SAY_STR("part", first_part(b->plan, c)), SAY_STR("other", second_part(b->plan, c)),
                         SAY_STR("stock", argument(&c->why, "stock")));
        if (row) {
            c->brief = c->what;
            c->brief.key = row->key;
        }
    }
}
