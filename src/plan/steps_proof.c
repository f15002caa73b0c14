/* The proof and the finish: one strip finds the move, three prove it; then the flip stop and the paint. */
#include "plan/step_writer.h"

#include "plan/sled.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static void warn_of_hands(struct step_writer *w, struct plan_step *step)
{
    step_warn(step, SIGNAL_WARNING,
              SAYING(!step_guard_covers(w) ? "step.test.caution.hold" : w->far ? "step.test.caution.far" : "step.test.caution",
                     SAY_ARG("strip", SAY_ABOUT, w->s->keep_out)));
}

/* One strip finds the move. */
static void write_test(struct step_writer *w)
{
    warn_of_hands(w, step_add(w, "", SAYING("step.test.what", SAY_ARG("above", SAY_SIZE, w->s->blade_above_work)), SAYING_PLAIN("step.test.know"),
                              SAYING_PLAIN("step.test.why")));
}

/* The block stands at the fence's outer face: leaves go in first for a move toward that side. */
static const char *first_way(struct step_writer *w)
{
    return w->far ? "way.away" : "way.toward";
}

static const char *then_way(struct step_writer *w)
{
    return w->far ? "way.toward" : "way.away";
}

static void write_move_block(struct step_writer *w)
{
    struct plan_step *step =
        step_add(w, w->reference,
                 SAYING("step.move_block.what", SAY_STR("ref", w->reference), SAY_KEY("carrier", plan_block_carrier_key(w->plan)),
                        SAY_ARG("at", SAY_SIZE, fabs(w->s->moving_x)), SAY_KEY("side", step_side_key(w->s->moving_x)),
                        SAY_KEY("first", first_way(w)), SAY_KEY("then", then_way(w))),
                 SAYING_PLAIN("step.move_block.know"), SAYING_PLAIN("step.move_block.why"));
    step_warn(step, SIGNAL_WARNING, SAYING_PLAIN("step.move_block.caution"));
}

static void write_move(struct step_writer *w)
{
    int n;
    const struct plan_hole *fresh = step_find_hole(w, PART_REFERENCE_FENCE, HOLE_FRESH, &n);
    assert(fresh && "the reference fence has a fresh hole at its moving end");
    step_add(w, w->reference,
             SAYING("step.move.what", SAY_STR("ref", w->reference), SAY_KEY("first", first_way(w)),
                    SAY_KEY("then", then_way(w)), SAY_STR("pilot", fresh->pilot_drill),
                    SAY_ARG("at", SAY_SIZE, fabs(fresh->x)), SAY_KEY("side", step_side_key(fresh->x))),
             SAYING_PLAIN("step.move.know"), SAYING_PLAIN("step.move.why"));
}

static void write_last_screws(struct step_writer *w)
{
    int n;
    const struct plan_hole *rest = step_find_hole(w, PART_REFERENCE_FENCE, HOLE_REST, &n);
    if (!rest)
        return;
    step_add(w, w->reference,
             SAYING("step.last_screws.what", SAY_STR("ref", w->reference), SAY_STR("screw", rest->screw),
                    SAY_STR("pilot", rest->pilot_drill), SAY_ARG("n", SAY_COUNT_WORD, n)),
             SAYING_PLAIN("step.last_screws.know"), SAYING_PLAIN("step.last_screws.why"));
}

/* Three strips prove it, cut when the last screw is in. */
static void write_proof(struct step_writer *w)
{
    const struct job_limit *t = &w->job->tolerances.squareness;
    warn_of_hands(w, step_add(w, "", SAYING("step.proof.what", SAY_ARG("above", SAY_SIZE, w->s->blade_above_work)),
                              SAYING("step.proof.know", SAY_ARG("error", SAY_LIMIT, t->error.v),
                                     SAY_ARG("over", SAY_SIZE, t->over.v)),
                              SAYING_PLAIN("step.proof.why")));
}

/* The body slides over the tape. */
static void write_tape(struct step_writer *w)
{
    const struct plan_flip *f = &w->s->flip;
    if (!f->present)
        return;
    step_add(w, step_letters(w, w->reference, w->flip, ""),
             SAYING(*w->cheek ? "step.tape.what" : "step.tape.what.rebate", SAY_STR("ref", w->reference),
                    SAY_KEY("side", step_slot_key(f->side)), SAY_ARG("zero", SAY_THICKNESS, f->tape_zero),
                    SAY_ARG("body", SAY_SIZE, f->body_length)),
             SAYING("step.tape.know", SAY_STR("flip", w->flip)), SAYING("step.tape.why", SAY_STR("flip", w->flip)));
}

/* The proved fence is left alone: all hangs on the track's bolt. */
static void write_flip_stop(struct step_writer *w)
{
    const struct plan_flip *f = &w->s->flip;
    if (!f->present)
        return;
    struct saying what = SAYING("step.flip_stop.what.rebate", SAY_STR("flip", w->flip),
                                SAY_ARG("hole", SAY_THICKNESS, f->bolt_hole), SAY_ARG("along", SAY_SIZE, f->bolt_along),
                                SAY_ARG("across", SAY_SIZE, f->bolt_across));
    if (*w->cheek) {
        what.key = "step.flip_stop.what";
        what.arg[4] = (struct say_arg)SAY_STR("cheek", w->cheek);
        what.arg[5] = (struct say_arg)SAY_STR("ref", w->reference);
        what.arg[6] = (struct say_arg)SAY_KEY("glue", step_glue_of(w, PART_FLIP_STOP, PART_FLIP_CHEEK));
    }
    step_add(w, step_letters(w, w->flip, w->cheek, ""), what,
             SAYING_PLAIN(*w->cheek ? "step.flip_stop.know" : "step.flip_stop.know.rebate"),
             SAYING_PLAIN("step.flip_stop.why"));
}

static void write_flip_arm(struct step_writer *w)
{
    const struct plan_flip *f = &w->s->flip;
    if (!f->present)
        return;
    struct plan_step *step =
        step_add(w, step_letters(w, w->flip, w->arm, ""),
                 SAYING("step.flip_arm.what", SAY_STR("arm", w->arm), SAY_STR("flip", w->flip)),
                 SAYING("step.flip_arm.know", SAY_STR("arm", w->arm), SAY_ARG("gap", SAY_SIZE, f->gap),
                        SAY_ARG("error", SAY_LIMIT, w->job->tolerances.stop_error.v)),
                 SAYING("step.flip_arm.why", SAY_ARG("shortest", SAY_SIZE, f->shortest),
                        SAY_ARG("longest", SAY_SIZE, f->longest),
                        SAY_ARG("clamp", SAY_ABOUT, sled_clamp_below(w->job->units))));
    step_warn(step, SIGNAL_WARNING, SAYING_PLAIN("step.flip_arm.caution"));
}

static void write_finish(struct step_writer *w)
{
    double kerf = w->job->saw.blade.kerf.v;
    step_add(w, "",
             SAYING(w->far ? "step.finish.what.far" : "step.finish.what", SAY_ARG("strip", SAY_ABOUT, w->s->keep_out),
                    SAY_STR("number", w->job->number.s), SAY_ARG("kerf", SAY_FIT, kerf)),
             SAYING_PLAIN("step.finish.know"), SAYING("step.finish.why", SAY_ARG("kerf", SAY_FIT, kerf)));
}

const struct step_chapter steps_proof = {
    .title = "stage.proof",
    .write = {write_test, write_move_block, write_move, write_last_screws, write_proof, write_tape, write_flip_stop,
              write_flip_arm, write_finish},
};
