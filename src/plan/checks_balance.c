/* Checks of what keeps the sled on the table, and of the room for the widest work. Limits without a source are common
   practice. */
#include "plan/checking.h"

#include <math.h>

/* The sentences of one edge. */
struct tipping_words {
    const char *inside, *bears, *light, *falls;
};
#define TIPPING_WORDS(id) \
    {"check." id ".why.inside", "check." id ".why", "check." id ".why.light", "check." id ".why.falls"}
static const struct tipping_words near_words = TIPPING_WORDS("tipping_near"), far_words = TIPPING_WORDS("tipping_far"),
                                  side_words = TIPPING_WORDS("tipping_side");

static struct plan_check *check_tipping(struct checking *k, enum check_id id, const struct sled_tipping *t,
                                        const struct tipping_words *words, enum verdict light)
{
    struct plan_check *c = check_measure(k, id, t->force, SLED_HAND_FORCE, NAN);

    if (t->moment <= 0) {
        check_verdict_is(c, VERDICT_FAIL);
        check_say_why(c, words->falls);
    } else if (isnan(t->force)) {
        check_say_why(c, words->inside);
    } else {
        check_verdict_is(c, check_below(t->force, SLED_HAND_FORCE) ? light : VERDICT_PASS);
        check_say_why(c, c->verdict == VERDICT_PASS ? words->bears : words->light);
    }
    c->fail_low = light == VERDICT_FAIL ? NAN : 0;
    check_mark_at(c, &k->wish->capacity_width);
    check_say_also(c, "out", SAY_SIZE, fmax(-t->arm, 0));
    return c;
}

void check_tipping_near(struct checking *k)
{
    struct sled_tipping t = sled_tip_near(k->job, k->s, k->s->capacity_width);

    check_tipping(k, CHECK_TIPPING_NEAR, &t, &near_words, VERDICT_CAUTION);
}

/* The hand is on the reference fence at the end of every cut; on the other fence it need not be. */
void check_tipping_far(struct checking *k)
{
    struct sled_tipping t = sled_tip_far(k->job, k->s, k->s->capacity_width);
    bool reference = k->s->reference.side == FENCE_FAR;

    check_tipping(k, CHECK_TIPPING_FAR, &t, &far_words, reference ? VERDICT_FAIL : VERDICT_CAUTION);
}

void check_tipping_side(struct checking *k)
{
    struct sled_tipping t;

    if (sled_tip_side(k->job, k->s, k->s->capacity_width, &t))
        check_tipping(k, CHECK_TIPPING_SIDE, &t, &side_words, VERDICT_CAUTION);
    else
        check_leave_out(k, "assumed.no_side_tipping");
}

void check_tipping_parked(struct checking *k)
{
    double ratio = sled_parked_ratio(k->job, k->s);
    struct plan_check *c = check_measure(k, CHECK_TIPPING_PARKED, isinf(ratio) ? NAN : ratio, BALANCE_MARGIN, NAN);

    if (isinf(ratio))
        check_say_why(c, "check.tipping_parked.why.inside");
    else if (c->verdict != VERDICT_PASS)
        check_say_why(c, "check.tipping_parked.why.light");
}

void check_widest_work(struct checking *k)
{
    bool asked = k->wish->capacity_width.given;
    double room = travel_room(&k->travel), value = sled_widest_work(k->job, k->s);
    struct plan_check *c = check_measure(k, CHECK_WIDEST_WORK, value, asked ? k->s->capacity_width : NAN, NAN);

    check_mark_at(c, &k->wish->capacity_width);
    if (check_below(value, room))
        check_say_why(c, "check.widest_work.why.travel");
    check_say_also(c, "room", SAY_SIZE, room);
}
