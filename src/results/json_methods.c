/* What each method read and worked out: one object a test, by the method's prefix. Lengths mm, angles rad. */
#include "results/json.h"

#include "results/words_of.h"

#include <math.h>

/* ---- five-cut ---- */

static void add_strip(cJSON *list, const struct five_cut_strip *read, const struct five_cut_run *run)
{
    cJSON *o = cJSON_CreateObject();
    json_numbers(o, "fence_end", read->fence_end.v, read->fence_end.n);
    json_numbers(o, "far_end", read->far_end.v, read->far_end.n);
    json_number(o, "fence_mean", run->fence_end);
    json_number(o, "far_mean", run->far_end);
    json_number(o, "difference", run->difference);
    json_number(o, "slope", run->slope);
    cJSON_AddItemToArray(list, o);
}

static void add_five_cut(cJSON *o, const struct proof_test *t)
{
    const struct five_cut_sum *sum = &t->as.five_cut;
    const struct five_cut_readings *read = &t->job->as.five_cut;
    json_string(o, "offcut", spell_side(read->offcut));
    json_number(o, "length", sum->length);
    json_number(o, "pivot_to_moving", sum->pivot_to_moving);
    json_number(o, "sign", sum->sign);
    json_number(o, "mean_difference", sum->mean_difference);
    json_number(o, "run_spread", sum->run_spread);
    json_number(o, "reading_spread", sum->reading_spread);
    json_number(o, "u_reading", sum->u_reading);
    json_number(o, "spread_used", sum->spread_used);
    json_number(o, "spread_dof", sum->spread_dof);
    json_number(o, "least_reading", sum->least_reading);
    cJSON *strips = cJSON_AddArrayToObject(o, "strips");
    for (size_t i = 0; i < read->n_strips; i++)
        add_strip(strips, &read->strips[i], &sum->runs[i]);
}

/* ---- gaps ---- */

/* below and above: the leaf that goes and the next that does not; null where no leaves were used. */
static void fill_gap(cJSON *o, const struct gap *gap)
{
    json_number(o, "taken", gap->value);
    json_number(o, "half_width", gap->half_width);
    json_number(o, "below", gap->below);
    json_number(o, "above", gap->above);
}

static void add_gap(cJSON *o, const char *key, double read, const struct gap *gap)
{
    cJSON *g = cJSON_AddObjectToObject(o, key);
    json_number(g, "read", read);
    fill_gap(g, gap);
}

static void add_flip(cJSON *o, const struct proof_test *t)
{
    const struct flip_readings *r = &t->job->as.flip;
    const struct flip_sum *sum = &t->as.flip;
    json_number(o, "height", sum->height);
    add_gap(o, "gap", r->gap.v, &sum->gap);
    json_string(o, "open", !r->open_given ? NULL : r->open == OPEN_TOP ? "top" : "bottom");
    json_string(o, "turned", spell_side(r->turned));
    json_number(o, "sign", sum->sign);
}

static void add_square_gap(cJSON *o, const struct proof_test *t)
{
    const struct square_gap_readings *r = &t->job->as.square_gap;
    const struct square_gap_sum *sum = &t->as.square_gap;
    json_string(o, "offcut", spell_side(r->offcut));
    json_number(o, "length", sum->length);
    add_gap(o, "gap", r->gap.v, &sum->gap);
    json_string(o, "end", !r->end_given ? NULL : r->end == EDGE_FENCE ? "fence" : "far");
    json_string(o, "grade", r->grade.s);
    json_number(o, "sign", sum->sign);
    json_number(o, "square_limit", sum->square_limit);
    json_number(o, "pivot_to_moving", sum->pivot_to_moving);
}

static void add_frame(cJSON *o, const struct proof_test *t)
{
    static const char *const fences[] = {[FRAME_LEFT_FENCE] = "left", [FRAME_RIGHT_FENCE] = "right", [FRAME_BOTH_FENCES] = "both"};
    const struct frame_readings *r = &t->job->as.frame;
    const struct frame_sum *sum = &t->as.frame;
    json_number(o, "pieces", sum->pieces);
    json_number(o, "leg", sum->leg);
    add_gap(o, "gap", r->gap.v, &sum->gap);
    if (sum->reads_both)
        add_gap(o, "gap_other", r->gap_other.v, &sum->gap_other);
    json_string(o, "open", !r->open_given ? NULL : r->open == OPEN_INSIDE ? "inside" : "outside");
    json_string(o, "fence", fences[r->fence]);
    json_num(o, "pivot_to_moving", &r->pivot_to_moving);
    json_number(o, "opening", sum->gap.value - sum->gap_other.value);
    json_number(o, "sign", sum->sign);
}

static void add_point(cJSON *list, const struct fence_straight_sum *sum, size_t i)
{
    cJSON *o = cJSON_CreateObject();
    json_number(o, "place", sum->points[i].x);
    cJSON_AddBoolToObject(o, "at_shim", sum->at_shim[i]);
    fill_gap(o, &sum->gaps[i]);
    json_number(o, "stands_out", sum->points[i].dev);
    cJSON_AddItemToArray(list, o);
}

static double at_place(const struct fence_straight_sum *sum, size_t i)
{
    return sum->points[i].x;
}

/* The parallel through `from` and `to`, at the apex: what the bow is measured to. */
static double line_at_apex(const struct fence_straight_sum *sum)
{
    const struct face_point *from = &sum->points[sum->zone.from], *to = &sum->points[sum->zone.to];
    return from->dev + (to->dev - from->dev) * (at_place(sum, sum->zone.apex) - from->x) / (to->x - from->x);
}

static void add_fence_straight(cJSON *o, const struct proof_test *t)
{
    const struct fence_straight_readings *r = &t->job->as.fence_straight;
    const struct fence_straight_sum *sum = &t->as.fence_straight;
    json_number(o, "shim", sum->shim);
    json_number(o, "length", sum->length);
    cJSON *read = cJSON_AddArrayToObject(o, "gaps_read");
    for (size_t i = 0; i < r->n_gaps; i++)
        cJSON_AddItemToArray(read, cJSON_CreateNumber(r->gaps[i].second));
    cJSON *points = cJSON_AddArrayToObject(o, "points");
    for (size_t i = 0; i < sum->n; i++)
        add_point(points, sum, i);
    cJSON *zone = cJSON_AddObjectToObject(o, "zone");
    json_number(zone, "width", sum->zone.width);
    json_number(zone, "from", at_place(sum, sum->zone.from));
    json_number(zone, "to", at_place(sum, sum->zone.to));
    json_number(zone, "apex", at_place(sum, sum->zone.apex));
    json_number(zone, "line_at_apex", line_at_apex(sum));
    cJSON_AddBoolToObject(zone, "hump", sum->zone.hump);
    json_number(o, "edge_limit", sum->edge_limit);
    json_number(o, "work", sum->work);
    json_number(o, "angle", sum->angle);
}

static void add_slot_parallel(cJSON *o, const struct proof_test *t)
{
    const struct slot_parallel_readings *r = &t->job->as.slot_parallel;
    const struct slot_parallel_sum *sum = &t->as.slot_parallel;
    json_string(o, "slot", spell_side(r->slot));
    json_numbers(o, "front", r->front.v, r->front.n);
    json_numbers(o, "back", r->back.v, r->back.n);
    json_number(o, "front_mean", sum->front);
    json_number(o, "back_mean", sum->back);
    json_number(o, "difference", sum->sign * (sum->back - sum->front));
    json_number(o, "span", sum->span);
    json_number(o, "sign", sum->sign);
}

static void add_pair(cJSON *list, const struct job_pair *p, double mean_set)
{
    double set = p->first - mean_set, error = p->second - p->first;
    cJSON *o = cJSON_CreateObject();
    json_number(o, "set", p->first);
    json_number(o, "got", p->second);
    json_number(o, "error", error);
    json_number(o, "set_less_mean", set);
    json_number(o, "product", set * error);
    json_number(o, "square", set * set);
    cJSON_AddItemToArray(list, o);
}

static double sum_of_squared_errors(const struct stop_readings *r, double mean)
{
    double sum = 0;
    for (size_t i = 0; i < r->n_pairs; i++) {
        double off = r->pairs[i].second - r->pairs[i].first - mean;
        sum += off * off;
    }
    return sum;
}

static void add_stop(cJSON *o, const struct proof_test *t)
{
    const struct stop_readings *r = &t->job->as.stop;
    const struct stop_sum *sum = &t->as.stop;
    cJSON *pairs = cJSON_AddArrayToObject(o, "pairs");
    for (size_t i = 0; i < r->n_pairs; i++)
        add_pair(pairs, &r->pairs[i], sum->mean_set);
    json_numbers(o, "repeats", r->repeats.v, r->repeats.n);
    json_number(o, "pieces", (double)sum->n);
    json_number(o, "repeated", (double)r->repeats.n);
    json_number(o, "mean_set", sum->mean_set);
    json_number(o, "mean_error", sum->mean_error);
    json_number(o, "sum_of_errors", sum->mean_error * (double)sum->n);
    json_number(o, "sum_of_squared_errors", sum_of_squared_errors(r, sum->mean_error));
    json_number(o, "sum_products", sum->has_slope ? sum->sum_products : NAN);
    json_number(o, "sum_squares", sum->has_slope ? sum->sum_squares : NAN);
    json_number(o, "slope", sum->has_slope ? sum->slope : NAN);
    json_number(o, "scatter", sum->scatter);
    json_number(o, "spread", sum->spread);
    json_number(o, "shortest", sum->shortest);
    json_number(o, "longest", sum->longest);
}

static void add_diagonals(cJSON *o, const struct proof_test *t)
{
    const struct diagonals_readings *r = &t->job->as.diagonals;
    const struct diagonals_sum *sum = &t->as.diagonals;
    json_numbers(o, "width", r->width.v, r->width.n);
    json_numbers(o, "depth", r->depth.v, r->depth.n);
    json_number(o, "mean_width", sum->width);
    json_number(o, "mean_depth", sum->depth);
    json_number(o, "d1", sum->d1);
    json_number(o, "d2", sum->d2);
    json_number(o, "difference", sum->d2 - sum->d1);
    json_number(o, "sum", sum->d2 + sum->d1);
    cJSON_AddBoolToObject(o, "sides_disagree", sum->disagree);
}

static void add_side_play(cJSON *o, const struct proof_test *t)
{
    const struct readings *r = &t->job->as.side_play.plays;
    const struct side_play_sum *sum = &t->as.side_play;
    json_numbers(o, "read", r->v, r->n);
    cJSON *plays = cJSON_AddArrayToObject(o, "plays");
    for (size_t i = 0; i < sum->n; i++) {
        cJSON *play = cJSON_CreateObject();
        fill_gap(play, &sum->plays[i]);
        cJSON_AddItemToArray(plays, play);
    }
    json_number(o, "place", (double)sum->worst + 1);
    json_number(o, "least", sum->least);
    json_number(o, "most", sum->most);
    json_number(o, "low", sum->low);
    json_number(o, "high", sum->high);
    json_number(o, "middle", (sum->low + sum->high) / 2);
    json_number(o, "engaged", sum->engaged);
    json_number(o, "yaw", sum->yaw);
}

static void add_box_joint(cJSON *o, const struct proof_test *t)
{
    const struct box_joint_sum *sum = &t->as.box_joint;
    json_number(o, "fingers", sum->fingers);
    json_num(o, "set", &t->job->as.box_joint.set);
    json_number(o, "got", sum->got);
    json_number(o, "finger", sum->finger);
    json_number(o, "slot", sum->slot);
    json_number(o, "pitch", sum->pitch);
    json_number(o, "fit", sum->fit);
    json_number(o, "toward", sum->toward);
    json_number(o, "fit_after", sum->fit_after);
    cJSON_AddBoolToObject(o, "change_cutter", sum->change_cutter);
    json_number(o, "cutter_wider", sum->cutter_wider);
}

static const struct {
    const char *prefix;
    void (*add)(cJSON *object, const struct proof_test *);
} details[METHODS] = {
#define METHOD(id, prefix, name) [METHOD_##id] = {#prefix, add_##prefix},
#include "job/methods.inc"
#undef METHOD
};

void json_add_method(cJSON *test, const struct proof_test *t)
{
    details[t->method].add(cJSON_AddObjectToObject(test, details[t->method].prefix), t);
}
