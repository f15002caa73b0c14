/* The saw: its field tables and the rules between its values. */
#include "job/tables.h"

#include <math.h>

static const char *const knife_kinds[] = {
    [KNIFE_RIVING] = "riving", [KNIFE_SPLITTER] = "splitter", [KNIFE_NONE] = "none"};
static const struct words knife_words = WORDS(knife_kinds);

static const struct field blade_fields[] = {
    {"diameter", LENGTH(100, 600), AT(struct job_blade, diameter), .about = "of the blade"},
    {"kerf", LENGTH(0.8, 10), AT(struct job_blade, kerf), .usual_low = 0.8, .usual_high = 4,
     .about = "width of the cut"},
    {"plate", LENGTH(0.5, 10), AT(struct job_blade, plate), .about = "thickness of the blade's body"},
    {"highest", LENGTH(5, 300), AT(struct job_blade, highest), .about = "most it stands above the table"},
};
static const struct field knife_fields[] = {
    PLACE(struct job_knife, mark),
    {"kind", WORD(knife_words), .required = true, AT(struct job_knife, kind)},
    {"thickness", LENGTH(0.5, 10), AT(struct job_knife, thickness)},
    {"below_top", LENGTH(-100, 100), AT(struct job_knife, below_top),
     .about = "its top below the blade's; negative: above"},
};
static const struct field table_fields[] = {
    {"front_edge", LENGTH(80, 1500), AT(struct job_table, front_edge),
     .about = "near edge to the blade's axis, blade at its highest"},
    {"depth", LENGTH(200, 3000), AT(struct job_table, depth), .about = "near edge to far edge"},
    {"width", LENGTH(200, 4000), AT(struct job_table, width)},
    {"left_of_blade", LENGTH(0, 4000), AT(struct job_table, left_of_blade), .about = "left edge to the blade plane"},
};
static const struct field slot_fields[] = {
    {"width", .kind = VALUE_SPAN, .low = 5, .high = 40, .usual_low = 12, .usual_high = 30, AT(struct job_slots, width),
     MORE(struct job_slots, width_widest),
     .about = "one reading or a list: the narrowest decides what binds, the widest what rattles"},
    {"depth", LENGTH(2, 30), AT(struct job_slots, depth)},
    {"left", LENGTH(40, 800), AT(struct job_slots, left), .about = "blade plane to the centre line of the left slot"},
    {"right", LENGTH(40, 800), AT(struct job_slots, right),
     .about = "blade plane to the centre line of the right slot"},
};

static void check_blade(struct reader *r, const struct node *map, void *out)
{
    struct job_blade *b = out;
    (void)map;
    if (b->plate.v >= b->kerf.v)
        diag_at(r->diags, DIAG_CONTRADICTION, b->plate.mark, reader_key(r, "plate"),
                "it must be thinner than the kerf, %s", reader_num(r, &b->kerf));
    if (b->highest.v > b->diameter.v / 2)
        diag_at(r->diags, DIAG_OUT_OF_RANGE, b->highest.mark, reader_key(r, "highest"),
                "found %s; a blade of %s cannot stand more than %s above the table", reader_num(r, &b->highest),
                reader_length(r, b->highest.mark, b->diameter.v), reader_length(r, b->highest.mark, b->diameter.v / 2));
    else if (b->highest.v > 0.42 * b->diameter.v)
        diag_at(r->diags, DIAG_UNUSUAL, b->highest.mark, reader_key(r, "highest"),
                "%s of a blade of %s; usual: up to 0.42 of the diameter: is it measured from the table?",
                reader_num(r, &b->highest), reader_length(r, b->highest.mark, b->diameter.v));
}

static void check_table(struct reader *r, const struct node *map, void *out)
{
    struct job_table *t = out;
    (void)map;
    if (t->left_of_blade.v > t->width.v)
        diag_at(r->diags, DIAG_OUT_OF_RANGE, t->left_of_blade.mark, reader_key(r, "left_of_blade"),
                "found %s; the table is %s wide", reader_num(r, &t->left_of_blade), reader_num(r, &t->width));
    if (t->front_edge.v >= t->depth.v)
        diag_at(r->diags, DIAG_CONTRADICTION, t->front_edge.mark, reader_key(r, "front_edge"),
                "the blade's axis would lie beyond the far edge of the table, %s deep", reader_num(r, &t->depth));
}

static void check_slots(struct reader *r, const struct node *map, void *out)
{
    struct job_slots *s = out;
    (void)map;
    if (s->width_widest.v - s->width.v > 0.5)
        diag_at(r->diags, DIAG_IMPLAUSIBLE, s->width.mark, reader_key(r, "width"),
                "readings of one width from %s to %s: a decimal comma?", reader_num(r, &s->width),
                reader_length(r, s->width.mark, s->width_widest.v));
}

static void check_profile(struct reader *r, const struct node *map, void *out)
{
    struct job_profile *p = out;
    (void)map;
    if (p->inner_width.v >= p->outer_width.v)
        diag_at(r->diags, DIAG_CONTRADICTION, p->inner_width.mark, reader_key(r, "inner_width"),
                "it must be less than outer_width, %s", reader_num(r, &p->outer_width));
    if (p->inner_depth.v >= p->outer_height.v)
        diag_at(r->diags, DIAG_CONTRADICTION, p->inner_depth.mark, reader_key(r, "inner_depth"),
                "it must be less than outer_height, %s", reader_num(r, &p->outer_height));
}

static void check_slots_to_make(struct reader *r, const struct node *map, void *out)
{
    struct job_slots_to_make *m = out;
    const struct job_profile *p = &m->profile;
    (void)map;
    if (m->bit.v > m->width.v)
        diag_at(r->diags, DIAG_CONTRADICTION, m->bit.mark, reader_key(r, "bit"), "it is wider than the slot, %s",
                reader_num(r, &m->width));
    if (m->base_diameter.v <= m->bit.v)
        diag_at(r->diags, DIAG_CONTRADICTION, m->base_diameter.mark, reader_key(r, "base_diameter"),
                "it must be more than the bit, %s", reader_num(r, &m->bit));
    if (p->outer_width.v > m->width.v)
        diag_at(r->diags, DIAG_CONTRADICTION, p->outer_width.mark, reader_key(r, "profile.outer_width"),
                "it is wider than the slot, %s", reader_num(r, &m->width));
    if (p->outer_height.v > m->depth.v)
        diag_at(r->diags, DIAG_CONTRADICTION, p->outer_height.mark, reader_key(r, "profile.outer_height"),
                "the lining would stand above the table: the slot is %s deep", reader_num(r, &m->depth));
}

#define SLOT_SAME 0.005 /* [mm] */

/* The slot that is left for the runner; what the job states of it as well must agree. */
static void finish_slot(struct reader *r, const char *key, const struct num *made, struct num *stated)
{
    if (!stated->given)
        *stated = *made;
    else if (made->given && fabs(stated->v - made->v) > SLOT_SAME)
        diag_at(r->diags, DIAG_CONTRADICTION, stated->mark, key, "saw.slots_to_make leaves %s",
                reader_num(r, made));
}

static void check_saw(struct reader *r, const struct node *map, void *out)
{
    struct job_saw *s = out;
    const struct job_slots_to_make *m = &s->slots_to_make;
    (void)map;
    if (!m->given)
        return;
    finish_slot(r, "saw.slots.width", m->profile.given ? &m->profile.inner_width : &m->width, &s->slots.width);
    struct num depth = m->depth; /* from the table: a lining may lie below it; stated as its inner depth it is left so */
    if (m->profile.given)
        depth.v += m->profile.inner_depth.v - m->profile.outer_height.v;
    if (m->profile.given && s->slots.depth.given && fabs(s->slots.depth.v - m->profile.inner_depth.v) < SLOT_SAME)
        depth = s->slots.depth;
    finish_slot(r, "saw.slots.depth", &depth, &s->slots.depth);
    if (!s->slots.width_widest.given)
        s->slots.width_widest = s->slots.width;
}

static const struct field profile_fields[] = {
    GIVEN(struct job_profile, given),
    {"outer_width", LENGTH(5, 60), .required = true, AT(struct job_profile, outer_width)},
    {"outer_height", LENGTH(2, 40), .required = true, AT(struct job_profile, outer_height)},
    {"inner_width", LENGTH(5, 40), .required = true, AT(struct job_profile, inner_width), .about = "the slot that it leaves"},
    {"inner_depth", LENGTH(2, 30), .required = true, AT(struct job_profile, inner_depth),
     .about = "below its own top: the slot's depth is counted from the table"},
};
static const struct table profile_table = {"profile", FIELDS(profile_fields), .check = check_profile,
                                           .about = "a lining, let into the slot and screwed through its floor"};
static const struct field slots_to_make_fields[] = {
    GIVEN(struct job_slots_to_make, given),
    PLACE(struct job_slots_to_make, mark),
    {"width", LENGTH(5, 60), .required = true, AT(struct job_slots_to_make, width), .about = "as routed"},
    {"depth", LENGTH(2, 40), .required = true, AT(struct job_slots_to_make, depth), .about = "as routed"},
    {"bit", LENGTH(3, 40), .required = true, AT(struct job_slots_to_make, bit), .about = "the router's straight bit"},
    {"base_diameter", LENGTH(40, 400), .required = true, AT(struct job_slots_to_make, base_diameter),
     .about = "the router's round base, which runs along a guide"},
    {"step", LENGTH(0.5, 20), AT(struct job_slots_to_make, step), .about = "deepest pass; left out: half the bit"},
    {"profile", MAP(profile_table), AT(struct job_slots_to_make, profile)},
};
static const struct table slots_to_make_table = {"slots_to_make", FIELDS(slots_to_make_fields), .check = check_slots_to_make,
                                                 .about = "mitre slots still to be routed into a shop-made top"};

static const struct table blade_table = {"blade", FIELDS(blade_fields), .check = check_blade};
static const struct table knife_table = {"knife", FIELDS(knife_fields), .about = "what stands behind the blade"};
static const struct table table_table = {"table", FIELDS(table_fields), .check = check_table};
static const struct table slots_table = {"slots", FIELDS(slot_fields), .check = check_slots,
                                         .about = "the mitre slots; one of left and right may be absent"};

static const struct field saw_fields[] = {
    GIVEN(struct job_saw, given),
    PLACE(struct job_saw, mark),
    {"name", TEXT(80), AT(struct job_saw, name)},
    {"blade", MAP(blade_table), AT(struct job_saw, blade)},
    {"knife", MAP(knife_table), AT(struct job_saw, knife)},
    {"table", MAP(table_table), AT(struct job_saw, table)},
    {"slots", MAP(slots_table), AT(struct job_saw, slots)},
    {"slots_to_make", MAP(slots_to_make_table), AT(struct job_saw, slots_to_make)},
};
const struct table saw_table = {"saw", FIELDS(saw_fields), .check = check_saw};
