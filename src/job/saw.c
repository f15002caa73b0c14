/* The saw: its field tables and the rules between its values. */
#include "job/tables.h"

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
    {"slots_to_make", .kind = VALUE_NOT_YET, .hint = "make the slots first, then state them under `slots`"},
};
const struct table saw_table = {"saw", FIELDS(saw_fields)};
