/* The crosscut sled: its field tables and its rules. */
#include "job/tables.h"

#include <math.h>

enum {
    SCREW_FREE = 40,    /* either side of the blade plane [mm] */
    LEAST_BETWEEN = 100 /* pivot to gauge [mm] */
};

static const struct field capacity_fields[] = {
    {"width", LENGTH(20, 2000), AT(struct job_jig, as.sled.capacity_width), .about = "widest work, along the feed"},
    {"thickness", LENGTH(1, 300), AT(struct job_jig, as.sled.capacity_thickness), .about = "thickest work"},
};
static const struct field base_fields[] = {
    PLACE(struct job_jig, as.sled.base_mark),
    {"stock", .kind = VALUE_STOCK, AT(struct job_jig, as.sled.base_stock)},
    {"width", LENGTH(100, 3000), AT(struct job_jig, as.sled.base_width), .about = "across the saw"},
    {"depth", LENGTH(100, 3000), AT(struct job_jig, as.sled.base_depth), .about = "along the feed"},
    {"left_of_blade", LENGTH(0, 3000), AT(struct job_jig, as.sled.base_left_of_blade)},
};
static const struct field point_fields[] = {
    GIVEN(struct job_point, given),
    PLACE(struct job_point, mark),
    {"side", WORD(side_words), .required = true, AT(struct job_point, side)},
    {"from_blade", LENGTH(0, 3000), .required = true, AT(struct job_point, from_blade),
     .about = "distance from the blade plane, along the fence"},
};
static const struct table point_table = {"point", FIELDS(point_fields)};

static const struct field fence_fields[] = {
    PLACE(struct job_fence, mark),
    {"stock", .kind = VALUE_STOCK, AT(struct job_fence, stock)},
    {"from_edge", LENGTH(0, 1000), AT(struct job_fence, from_edge),
     .about = "base's edge on that side to the fence's outer face"},
    {"layers", .kind = VALUE_LAYERS, .low = 5, .high = 400, .most = 20, AT(struct job_fence, layers)},
    {"height", LENGTH(10, 400), AT(struct job_fence, height)},
    {"length", LENGTH(50, 3000), AT(struct job_fence, length)},
};
static const struct field reference_fence_fields[] = {
    {"side", WORD(fence_side_words), AT(struct job_fence, side), .given_at = offsetof(struct job_fence, side_given),
     .about = "near: the operator's side of the work"},
    {"pivot", MAP(point_table), AT(struct job_fence, pivot), .about = "the screw that the fence turns about"},
    {"moving", MAP(point_table), AT(struct job_fence, moving), .about = "where the gauge leaf goes in"},
};

static const struct field runner_fields[] = {
    PLACE(struct job_jig, as.sled.runners_mark),
    {"stock", .kind = VALUE_STOCK, AT(struct job_jig, as.sled.runner_stock)},
    {"width", LENGTH(3, 40), AT(struct job_jig, as.sled.runner_width)},
    {"thickness", LENGTH(1, 30), AT(struct job_jig, as.sled.runner_thickness)},
    {"guide", WORD(side_words), AT(struct job_jig, as.sled.guide),
     .given_at = offsetof(struct job_jig, as.sled.guide_given), .mark_at = offsetof(struct job_jig, as.sled.guide_mark),
     .about = "the slot of the runner that guides"},
    {"free_width", LENGTH(3, 40), AT(struct job_jig, as.sled.runner_free_width),
     .about = "of the runner that does not guide"},
    {"length", LENGTH(50, 3000), AT(struct job_jig, as.sled.runner_length)},
    {"moisture", PERCENT(3, 30), AT(struct job_jig, as.sled.runner_moisture), .about = "as measured when fitted"},
};
static const struct field guard_fields[] = {
    PLACE(struct job_jig, as.sled.guard_mark),
    {"stock", .kind = VALUE_STOCK, AT(struct job_jig, as.sled.guard_stock)},
    {"layers", .kind = VALUE_LAYERS, .low = 5, .high = 400, .most = 20, AT(struct job_jig, as.sled.guard_layers)},
    {"width", LENGTH(20, 500), AT(struct job_jig, as.sled.guard_width)},
    {"height", LENGTH(10, 400), AT(struct job_jig, as.sled.guard_height)},
};
static const struct field travel_stop_fields[] = {
    {"stock", .kind = VALUE_STOCK, AT(struct job_jig, as.sled.travel_stop_stock)},
    {"in", WORD(side_words), AT(struct job_jig, as.sled.travel_stop_in),
     .given_at = offsetof(struct job_jig, as.sled.travel_stop_in_given),
     .mark_at = offsetof(struct job_jig, as.sled.travel_stop_in_mark), .about = "the slot that the block stands in"},
    {"length", LENGTH(10, 500), AT(struct job_jig, as.sled.travel_stop_length)},
};
static const struct field flip_stop_fields[] = {
    GIVEN(struct job_jig, as.sled.has_stop),
    {"stock", .kind = VALUE_STOCK, AT(struct job_jig, as.sled.stop_stock)},
};

static void check_base(struct reader *r, const struct node *map, void *out)
{
    struct job_sled *s = &((struct job_jig *)out)->as.sled;
    (void)map;
    if (s->base_left_of_blade.v > s->base_width.v)
        diag_at(r->diags, DIAG_OUT_OF_RANGE, s->base_left_of_blade.mark, reader_key(r, "left_of_blade"),
                "found %s; the base is %s wide", reader_num(r, &s->base_left_of_blade), reader_num(r, &s->base_width));
    if (s->base_stock && s->base_stock->is_strip)
        diag_at(r->diags, DIAG_CONTRADICTION, s->base_mark, reader_key(r, "stock"),
                "the base is cut from a sheet; \"%s\" is a strip", s->base_stock->name);
}

static void check_fence(struct reader *r, const struct node *map, void *out)
{
    struct job_fence *f = out;
    (void)map;
    for (int i = 0; f->layers.heights && i < f->layers.count; i++)
        if (f->layers.heights[i] > f->height.v)
            diag_at(r->diags, DIAG_CONTRADICTION, f->layers.mark, reader_key(r, "layers"),
                    "one of %s is higher than the fence, %s", reader_length(r, f->layers.mark, f->layers.heights[i]),
                    reader_num(r, &f->height));
}

static double point_x(const struct job_point *p)
{
    return p->side == SIDE_RIGHT ? p->from_blade.v : -p->from_blade.v;
}

static void check_point(struct reader *r, const struct job_point *p, const char *name)
{
    if (p->from_blade.v <= SCREW_FREE)
        diag_at(r->diags, DIAG_CONTRADICTION, p->from_blade.mark, reader_key(r, name),
                "%s from the blade plane lies within the screw-free strip, %s either side",
                reader_num(r, &p->from_blade), reader_length(r, p->from_blade.mark, SCREW_FREE));
}

static void check_reference_fence(struct reader *r, const struct node *map, void *out)
{
    struct job_fence *f = out;
    double apart = fabs(point_x(&f->pivot) - point_x(&f->moving));
    (void)map;
    check_point(r, &f->pivot, "pivot");
    check_point(r, &f->moving, "moving");
    if (apart < LEAST_BETWEEN)
        diag_at(r->diags, DIAG_CONTRADICTION, f->moving.mark, reader_key(r, "moving"),
                "%s from the pivot; at least %s, or the fence cannot be set", reader_length(r, f->moving.mark, apart),
                reader_length(r, f->moving.mark, LEAST_BETWEEN));
}

static const struct table capacity_table = {"capacity", FIELDS(capacity_fields)};
static const struct table base_table = {"base", FIELDS(base_fields), .check = check_base};
static const struct table fence_table = {"fence", FIELDS(fence_fields), .check = check_fence};
static const struct table reference_fence_table = {
    "reference_fence", FIELDS(reference_fence_fields), .extends = &fence_table, .check = check_reference_fence,
    .about = "the fence that the work is held against"};
static const struct table runners_table = {"runners", FIELDS(runner_fields)};
static const struct table guard_table = {"exit_guard", FIELDS(guard_fields)};
static const struct table travel_stop_table = {"travel_stop", FIELDS(travel_stop_fields)};
static const struct table flip_stop_table = {"stop", FIELDS(flip_stop_fields), .about = "flip stop for repeated lengths"};

static const struct field sled_fields[] = {
    {"capacity", MAP(capacity_table)},
    {"blade_above_work", LENGTH(1, 15), AT(struct job_jig, as.sled.blade_above_work)},
    {"base", MAP(base_table)},
    {"reference_fence", MAP(reference_fence_table), AT(struct job_jig, as.sled.reference_fence)},
    {"other_fence", MAP(fence_table), AT(struct job_jig, as.sled.other_fence), .about = "ties the base together"},
    {"runners", MAP(runners_table)},
    {"exit_guard", MAP(guard_table)},
    {"travel_stop", MAP(travel_stop_table)},
    {"stop", MAP(flip_stop_table)},
};
const struct table crosscut_sled_table = {"crosscut_sled", FIELDS(sled_fields), .extends = &jig_table};

/* ---- What a sled needs of the rest of the job ---- */

static void require_saw_sizes(struct reader *r)
{
    const struct job_saw *s = &r->job->saw;
    const struct {
        const struct num *num;
        const char *path, *what;
    } needed[] = {
        {&s->blade.diameter, "saw.blade.diameter", "a sled is laid out from it"},
        {&s->blade.kerf, "saw.blade.kerf", "a sled is laid out from it"},
        {&s->blade.highest, "saw.blade.highest", "the most that the blade stands above the table"},
        {&s->table.front_edge, "saw.table.front_edge", "near edge of the table to the blade's axis"},
        {&s->table.depth, "saw.table.depth", "near edge of the table to its far edge"},
        {&s->slots.width, "saw.slots.width", "of the mitre slots"},
        {&s->slots.depth, "saw.slots.depth", "of the mitre slots"},
    };
    if (!s->given) {
        reader_miss(r, r->job->jig.mark, "saw", "a sled is made for one saw");
        return;
    }
    for (size_t i = 0; i < sizeof needed / sizeof *needed; i++)
        if (!needed[i].num->given)
            reader_miss(r, needed[i].num->mark, needed[i].path, needed[i].what);
    if (!s->slots.left.given && !s->slots.right.given)
        reader_miss(r, s->slots.left.mark, "saw.slots",
                    "one of `left`, `right`: blade plane to the slot's centre line");
}

static void require_sheet_stock(struct reader *r)
{
    for (size_t i = 0; i < r->job->n_stock; i++)
        if (!r->job->stock[i].is_strip)
            return;
    reader_miss(r, r->job->jig.mark, "stock", "a sled needs one sheet");
}

static void check_slot_is_there(struct reader *r, bool asked, enum side side, struct mark mark, const char *path)
{
    const struct job_slots *s = &r->job->saw.slots;
    const struct num *slot = side == SIDE_LEFT ? &s->left : &s->right;
    if (asked && !slot->given && (s->left.given || s->right.given) && !r->excuse_absent)
        diag_at(r->diags, DIAG_CONTRADICTION, mark, path, "the saw has no %s slot under saw.slots",
                side_words.name[side]);
}

void crosscut_sled_check(struct reader *r)
{
    const struct job_sled *s = &r->job->jig.as.sled;
    const struct num *highest = &r->job->saw.blade.highest;
    require_saw_sizes(r);
    require_sheet_stock(r);
    check_slot_is_there(r, s->guide_given, s->guide, s->guide_mark, "jig.runners.guide");
    check_slot_is_there(r, s->travel_stop_in_given, s->travel_stop_in, s->travel_stop_in_mark, "jig.travel_stop.in");
    if (s->capacity_thickness.v > highest->v)
        diag_at(r->diags, DIAG_OUT_OF_RANGE, s->capacity_thickness.mark, "jig.capacity.thickness",
                "found %s; the blade stands at most %s above the table", reader_num(r, &s->capacity_thickness),
                reader_num(r, highest));
}
