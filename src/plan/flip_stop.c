/* The flip stop: a body that slides on the reference fence's top along a track, an arm hinged to it that hangs before the
   working face, and, where the fence has no rebate for the track, a cheek behind track and fence that carries the bolt.

            hinge                   The hinge lies flat, its pin over the joint of body and arm: the arm hangs against the
     +--------===o===-+             working face and swings up and over. Its edge toward the blade meets the work's end and is
     +----------+-----+             flush with the body's end. The tape lies on the fence's top, under the body, and is read
     | |=| fence|  |                at the body's other end, so that its zero stands the body's length farther from the blade
     | |=|      |  |                than the kerf's edge. The body has room for any track up to a height: the cheek lies
   cheek track  arm                 against the one there is. The track is screwed on before the fence is set; the rest is
                                    bolted to it. Shop-made, common practice, no source. */
#include "plan/flip_stop.h"

#include "plan/build.h"
#include "plan/sled.h"

#include <math.h>

struct figure {
    double mm, in;
};
static const struct figure body_length = {80, 3}, arm_width = {40, 1.5}, cheek_height = {40, 1.5},
                           track_height = {15, 5.0 / 8}, dust_gap = {3, 1.0 / 8},
                           bolt_hole = {6.5, 17.0 / 64}; /* for a bolt M6, 1/4 in */

double flip_rebate_height(const double *heights, int layers)
{
    double most = heights[0];

    for (int i = 1; i < layers; i++)
        most = fmax(most, heights[i]);
    return most - fmin(heights[0], heights[layers - 1]);
}

struct plan_flip flip_stop_sizes(const struct flip_seat *s)
{
    bool rebate = s->rebate_height > 0;
    struct plan_flip f = {
        .side = s->side,
        .body_length = s->body_length,
        .body_width = s->fence_thickness + (rebate ? 0 : s->track_height + s->stock_thickness),
        .body_thickness = s->stock_thickness,
        .arm_length = s->fence_height + s->stock_thickness - s->gap,
        .arm_width = s->arm_width,
        .cheek_height = rebate ? 0 : fmin(s->cheek_height, s->fence_height),
        .gap = s->gap,
        .rebate_height = s->rebate_height,
        .rebate_width = s->rebate_width,
        .track_height = rebate ? s->rebate_height : s->track_height,
        .tape_zero = s->kerf / 2 + s->body_length,
        .track_from = s->keep_out,
        .track_length = sled_round_down(s->fence_end - s->keep_out, s->step),
        .shortest = sled_round_up(s->keep_out - s->kerf / 2, s->step),
        .longest = sled_round_down(s->fence_end - s->body_length - s->kerf / 2, s->step),
    };

    /* over a rebate the bolt's knob stands on the body, beside the hinge */
    f.bolt_along = (s->body_length + (rebate ? s->arm_width : 0)) / 2;
    f.bolt_hole = s->bolt_hole;
    f.bolt_across = !rebate               ? f.cheek_height / 2
                    : s->rebate_at_work ? s->rebate_width / 2
                                        : s->fence_thickness - s->rebate_width / 2;
    f.present = f.longest > f.shortest;
    return f;
}

/* The longer side of the fence; equal: left. */
static enum side kept_side(const struct plan_fence *f)
{
    return f->x0 + f->length > -f->x0 + 1e-9 ? SIDE_RIGHT : SIDE_LEFT;
}

static double in_units(const struct job *job, struct figure f)
{
    return job->units == UNITS_IN ? f.in * MM_PER_INCH : f.mm;
}

/* Neither track nor cheek goes where the guard is glued to the same fence. */
static double guard_reach(const struct plan_sled *s)
{
    return s->reference.side == FENCE_NEAR ? s->guard_width / 2 : 0;
}

void sled_plan_flip_stop(struct plan_builder *b)
{
    struct plan_sled *s = &b->plan->sled;
    const struct plan_fence *f = &s->reference;
    const struct job *job = b->job;
    double rebate = flip_rebate_height(f->layer_heights, f->layers);
    enum side side = kept_side(f);
    struct flip_seat seat = {
        .side = side,
        .fence_end = side == SIDE_LEFT ? -f->x0 : f->x0 + f->length,
        .fence_height = f->height,
        .fence_thickness = f->thickness,
        .rebate_height = rebate,
        .rebate_width = rebate > 0 ? f->thickness / f->layers : 0,
        .rebate_at_work = f->layer_heights[0] < f->layer_heights[f->layers - 1],
        .kerf = job->saw.blade.kerf.v,
        .keep_out = fmax(s->keep_out, guard_reach(s)),
        .gap = in_units(job, dust_gap),
        .body_length = in_units(job, body_length),
        .arm_width = in_units(job, arm_width),
        .cheek_height = in_units(job, cheek_height),
        .track_height = in_units(job, track_height),
        .bolt_hole = in_units(job, bolt_hole),
        .step = sled_least_edge_step(job->units),
    };

    if (!job->jig.as.sled.has_stop)
        return;
    seat.stock_thickness = sled_choose_stocks(job).flip_stop->thickness.v;
    s->flip = flip_stop_sizes(&seat);
}

static void add_piece(struct plan_builder *b, enum part_kind kind, double length, double width)
{
    const struct job_stock *stock = sled_choose_stocks(b->job).flip_stop;
    const struct plan_flip *f = &b->plan->sled.flip;
    struct plan_part *p = build_add_part(b);

    p->kind = kind;
    p->quantity = 1;
    p->length = p->sawn_length = p->final_length = length;
    p->width = width;
    p->thickness = f->body_thickness;
    p->stock = stock;
    p->derived = DERIVED_LENGTH | DERIVED_WIDTH;
    p->mass = sled_density(stock) * 1e-9 * length * width * p->thickness;
    p->centre_x = p->centre_v = NAN; /* it slides */
}

void sled_list_flip_parts(struct plan_builder *b)
{
    const struct plan_flip *f = &b->plan->sled.flip;

    if (!f->present)
        return;
    add_piece(b, PART_FLIP_STOP, f->body_length, f->body_width);
    if (f->cheek_height > 0)
        add_piece(b, PART_FLIP_CHEEK, f->body_length, f->cheek_height);
    add_piece(b, PART_FLIP_ARM, f->arm_length, f->arm_width);
}
