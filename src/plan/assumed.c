/* The defaults that a sled's sizes rest on. Run after sled_resolve: a value that the job does not give was derived. */
#include "plan/assumed.h"

#include "plan/sled.h"

#include <math.h>

/* One size that a job may leave out, and what became of it. */
struct size_row {
    bool given;
    const char *key;
    enum say_kind kind;
    double value;
};

static void list_sizes(struct plan_builder *b, const struct size_row *rows, size_t n)
{
    for (size_t i = 0; i < n; i++)
        if (!rows[i].given)
            build_add_assumed(b, SAYING(rows[i].key, SAY_ARG("value", rows[i].kind, rows[i].value)));
}
#define LIST_SIZES(b, rows) list_sizes((b), (rows), sizeof(rows) / sizeof *(rows))

static void list_stock(struct plan_builder *b, bool given, const char *key, const struct job_stock *stock)
{
    if (!given)
        build_add_assumed(b, SAYING(key, SAY_STR("stock", stock->name)));
}

static void list_stocks(struct plan_builder *b, const struct job_sled *wish)
{
    struct sled_stocks s = sled_choose_stocks(b->job);

    if (!wish->base_stock)
        build_add_assumed(b, SAYING("assumed.base_stock", SAY_STR("stock", s.base->name),
                                    SAY_ARG("least", SAY_THICKNESS, SLED_BASE_LEAST)));
    list_stock(b, wish->reference_fence.stock, "assumed.reference_stock", s.reference);
    list_stock(b, wish->other_fence.stock, "assumed.other_stock", s.other);
    list_stock(b, wish->guard_stock, "assumed.guard_stock", s.guard);
    if (!s.runner)
        build_add_assumed(b, SAYING_PLAIN("assumed.runner_to_buy"));
    else
        list_stock(b, wish->runner_stock, "assumed.runner_stock", s.runner);
    if (s.runner && !s.runner->rings_given && !isnan(s.runner->material.shrink_radial))
        build_add_assumed(b, SAYING(s.runner->rings == RINGS_QUARTER ? "assumed.rings.quarter"
                                    : s.runner->rings == RINGS_FLAT  ? "assumed.rings.flat"
                                                                     : "assumed.rings.mixed",
                                    SAY_STR("stock", s.runner->name)));
}

static void list_work(struct plan_builder *b, const struct job_sled *wish)
{
    const struct plan_sled *s = &b->plan->sled;
    const struct size_row rows[] = {
        {wish->capacity_thickness.given, "assumed.capacity_thickness", SAY_SIZE, s->capacity_thickness},
        {wish->blade_above_work.given, "assumed.blade_above_work", SAY_SIZE, s->blade_above_work},
        {false, "assumed.work_density", SAY_DENSITY, SLED_WORK_DENSITY},
    };

    if (!wish->capacity_width.given)
        build_add_assumed(b, SAYING("assumed.capacity_width", SAY_ARG("value", SAY_SIZE, s->capacity_width),
                                    SAY_ARG("most", SAY_SIZE, sled_widest_tried(b->job->units))));
    build_add_assumed(b, SAYING(b->job->units == UNITS_IN ? "assumed.hand_force.pounds" : "assumed.hand_force", SAY_ARG("value", SAY_FORCE, SLED_HAND_FORCE),
                                SAY_ARG("mass", SAY_MASS, SLED_HAND_FORCE / BALANCE_GRAVITY)));
    LIST_SIZES(b, rows);
}

static void list_base(struct plan_builder *b, const struct job_sled *wish)
{
    const struct plan_sled *s = &b->plan->sled;
    const struct size_row rows[] = {
        {wish->base_width.given, "assumed.base_width", SAY_SIZE, s->base_width},
        {wish->base_depth.given, "assumed.base_depth", SAY_SIZE, s->base_depth},
        {wish->base_left_of_blade.given, "assumed.base_left_of_blade", SAY_SIZE, -s->base_x0},
    };

    LIST_SIZES(b, rows);
}

static void list_reference(struct plan_builder *b, const struct job_fence *wish)
{
    const struct plan_fence *f = &b->plan->sled.reference;
    double from_edge = f->side == FENCE_NEAR ? f->v_outer : b->plan->sled.base_depth - f->v_outer;
    const struct size_row rows[] = {
        {wish->from_edge.given, "assumed.reference_from_edge", SAY_SIZE, from_edge},
        {wish->layers.given, "assumed.reference_layers", SAY_COUNT, f->layers},
        {wish->height.given || wish->layers.heights, "assumed.reference_height", SAY_SIZE, f->height},
        {wish->length.given, "assumed.reference_length", SAY_SIZE, f->length},
        {wish->pivot.given, b->plan->sled.pivot_x < 0 ? "assumed.pivot.left" : "assumed.pivot.right", SAY_SIZE,
         fabs(b->plan->sled.pivot_x)},
        {wish->moving.given, b->plan->sled.moving_x < 0 ? "assumed.moving.left" : "assumed.moving.right", SAY_SIZE,
         fabs(b->plan->sled.moving_x)},
    };

    if (!wish->side_given)
        build_add_assumed(b, SAYING_PLAIN("assumed.fence_side"));
    LIST_SIZES(b, rows);
}

static void list_other(struct plan_builder *b, const struct job_fence *wish)
{
    const struct plan_fence *f = &b->plan->sled.other;
    double from_edge = f->side == FENCE_NEAR ? f->v_outer : b->plan->sled.base_depth - f->v_outer;
    const struct size_row rows[] = {
        {wish->from_edge.given, "assumed.other_from_edge", SAY_SIZE, from_edge},
        {wish->layers.given, "assumed.other_layers", SAY_COUNT, f->layers},
        {wish->height.given || wish->layers.heights, "assumed.other_height", SAY_SIZE, f->height},
        {wish->length.given, "assumed.other_length", SAY_SIZE, f->length},
    };

    LIST_SIZES(b, rows);
}

static void list_runners(struct plan_builder *b, const struct job_sled *wish)
{
    const struct plan_sled *s = &b->plan->sled;
    const struct plan_runner *guide = sled_guide(s);
    const struct plan_runner *other = guide == &s->runner[SIDE_LEFT] ? &s->runner[SIDE_RIGHT] : &s->runner[SIDE_LEFT];
    const struct size_row rows[] = {
        {wish->runner_width.given, "assumed.runner_width", SAY_FIT, guide->width},
        {wish->runner_free_width.given || !other->present, "assumed.runner_free_width", SAY_FIT, other->width},
        {wish->runner_thickness.given, "assumed.runner_thickness", SAY_THICKNESS, guide->thickness},
        {wish->runner_length.given, "assumed.runner_length", SAY_SIZE, sled_runner_full_length(b->job, s)},
    };

    if (!wish->guide_given)
        build_add_assumed(b, SAYING_PLAIN(guide->slot_x < 0 ? "assumed.guide.left" : "assumed.guide.right"));
    LIST_SIZES(b, rows);
}

static void list_guard_and_stop(struct plan_builder *b, const struct job_sled *wish)
{
    const struct plan_sled *s = &b->plan->sled;
    const struct size_row rows[] = {
        {wish->guard_layers.given, "assumed.guard_layers", SAY_COUNT, s->guard_layers},
        {wish->guard_width.given, "assumed.guard_width", SAY_SIZE, s->guard_width},
        {wish->guard_height.given, "assumed.guard_height", SAY_SIZE, s->guard_height},
        {wish->travel_stop_length.given, "assumed.stop_length", SAY_SIZE, s->stop_length},
    };

    LIST_SIZES(b, rows);
    if (!s->stop_in_slot)
        build_add_assumed(b, SAYING_PLAIN("assumed.stop.outfeed"));
    else if (!wish->travel_stop_in_given)
        build_add_assumed(b, SAYING_PLAIN(s->stop_slot == SIDE_LEFT ? "assumed.stop.left" : "assumed.stop.right"));
    if (wish->has_stop && !s->flip.present)
        build_add_assumed(b, SAYING_PLAIN("assumed.flip_stop.none"));
    else if (wish->has_stop)
        build_add_assumed(b, SAYING_PLAIN(s->flip.side == SIDE_LEFT ? "assumed.flip_stop.left" : "assumed.flip_stop.right"));
}

static void list_tolerances(struct plan_builder *b)
{
    const struct job_tolerances *t = &b->job->tolerances;

    if (!t->squareness.error.given)
        build_add_assumed(b, SAYING("assumed.squareness", SAY_ARG("error", SAY_UNSIGNED, t->squareness.error.v),
                                    SAY_ARG("over", SAY_SIZE, t->squareness.over.v)));
    if (!t->side_play_low.given || !t->side_play_high.given)
        build_add_assumed(b, SAYING("assumed.side_play", SAY_ARG("low", SAY_FIT, t->side_play_low.v),
                                    SAY_ARG("high", SAY_FIT, t->side_play_high.v)));
}

void sled_list_assumed(struct plan_builder *b)
{
    const struct job_sled *wish = &b->job->jig.as.sled;

    list_stocks(b, wish);
    list_work(b, wish);
    list_base(b, wish);
    list_reference(b, &wish->reference_fence);
    list_other(b, &wish->other_fence);
    list_runners(b, wish);
    list_guard_and_stop(b, wish);
    list_tolerances(b);
}

void plan_list_assumed_grades(struct plan_builder *b)
{
    const struct job *job = b->job;

    for (size_t i = 0; i < job->n_instruments; i++)
        if (job_has_odd_grade(&job->instruments[i]))
            build_add_assumed(b, SAYING("assumed.grade", SAY_STR("tool", job->instruments[i].name),
                                        SAY_STR("grade", job->instruments[i].grade.s)));
}
