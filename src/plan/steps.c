/* The building order of a crosscut sled, for this job's sizes. These rules decide the order:
   every hole of the base is drilled from above, before anything is glued, so that left is left;
   hands go over the blade's slot, and the sled is lifted or slid by hand, with the plug out and the blade down;
   the strip for no hands is painted, and blade and knife are looked at, before a cut;
   the base stays in one piece until the other fence ties it together, so the first kerf stops short, at a block;
   nothing is glued that must still be moved, so the reference fence never is, and the guard of a near fence is glued to
   the fence, not to the base: it moves with the fence and stands behind the blade from the first cut that can reach it;
   no cut is made without a stop that halts the sled;
   a sled that fails a check is not built: its steps begin with a hold, and none says that the guard covers the blade. */
#include "plan/step_writer.h"

static void write_hold(struct step_writer *w)
{
    int n = 0;
    for (size_t i = 0; i < w->plan->n_checks; i++)
        n += w->plan->checks[i].verdict == VERDICT_FAIL;
    if (n == 0)
        return;
    struct saying what = SAYING("step.hold.what", SAY_ARG("n", SAY_COUNT_WORD, n));
    if (n == 1)
        what = SAYING_PLAIN("step.hold.what.one");
    step_warn(step_add(w, "", what, SAYING_PLAIN("step.hold.know"), SAYING_PLAIN("step.hold.why")), SIGNAL_WARNING,
              SAYING_PLAIN("step.hold.caution"));
}

const struct step_chapter steps_hold = {.title = "stage.hold", .write = {write_hold}};

/* The order of work, the same for a fence at either side: the words of the steps differ. */
static const struct step_chapter *const order[] = {&steps_hold, &steps_saw,   &steps_parts, &steps_base,
                                                   &steps_kerf, &steps_fence, &steps_proof};
enum { CHAPTERS = sizeof order / sizeof *order };

void sled_write_steps(struct plan_builder *b)
{
    struct step_writer w = {.b = b, .job = b->job, .asked = &b->job->jig.as.sled, .plan = b->plan, .s = &b->plan->sled};
    w.far = w.s->reference.side == FENCE_FAR;
    w.base = step_letter_of(&w, PART_BASE);
    w.reference = step_letter_of(&w, PART_REFERENCE_FENCE);
    w.other = step_letter_of(&w, PART_OTHER_FENCE);
    w.guard = step_letter_of(&w, PART_EXIT_GUARD);
    w.guide = step_letter_of(&w, PART_GUIDE_RUNNER);
    w.free = step_letter_of(&w, PART_FREE_RUNNER);
    w.stop = step_letter_of(&w, PART_TRAVEL_STOP);
    w.cover = step_letter_of(&w, PART_BLADE_COVER);
    w.flip = step_letter_of(&w, PART_FLIP_STOP);
    w.cheek = step_letter_of(&w, PART_FLIP_CHEEK);
    w.arm = step_letter_of(&w, PART_FLIP_ARM);
    for (w.stage = 0; w.stage < CHAPTERS; w.stage++) {
        w.title = order[w.stage]->title;
        for (size_t i = 0; order[w.stage]->write[i]; i++)
            order[w.stage]->write[i](&w);
    }
}
