/* Any jig that a list of parts describes. */
#include "job/tables.h"

static const char *const grains[] = {[GRAIN_ALONG] = "along", [GRAIN_ACROSS] = "across", [GRAIN_ANY] = "any"};
static const struct words grain_words = WORDS(grains);

static const struct field part_fields[] = {
    PLACE(struct job_parts_part, mark),
    {"name", .kind = VALUE_NAME, .high = 60, .required = true, AT(struct job_parts_part, name)},
    {"stock", .kind = VALUE_STOCK, .required = true, AT(struct job_parts_part, stock)},
    {"length", LENGTH(1, 7000), .required = true, AT(struct job_parts_part, length)},
    {"width", LENGTH(1, 5000), AT(struct job_parts_part, width), .about = "of a part from a sheet"},
    {"quantity", NUMBER(1, 999), .whole = true, .fallback = 1, AT(struct job_parts_part, quantity)},
    {"grain", WORD(grain_words), AT(struct job_parts_part, grain),
     .about = "how the length lies to the face grain; default along"},
};

static void check_part(struct reader *r, const struct node *map, void *out)
{
    struct job_parts_part *p = out;
    (void)map;
    if (p->stock && !p->stock->is_strip && !p->width.given)
        reader_miss(r, p->mark, reader_key(r, "width"), "of a part from a sheet");
    if (p->stock && p->stock->is_strip && p->width.v > p->stock->strip_width.v)
        diag_at(r->diags, DIAG_CONTRADICTION, p->width.mark, reader_key(r, "width"), "the strip is %s wide",
                reader_length(r, p->width.mark, p->stock->strip_width.v));
}

static const struct table part_table = {"part", FIELDS(part_fields), .check = check_part};

static const struct field parts_fields[] = {
    {"parts", .kind = VALUE_LIST, .table = &part_table, .required = true, .low = 1, .most = PARTS_MOST,
     .size = sizeof(struct job_parts_part), AT(struct job_jig, as.parts.parts), MORE(struct job_jig, as.parts.n)},
};
const struct table parts_table = {"parts", FIELDS(parts_fields), .extends = &jig_table,
                                  .about = "any jig that a list of parts describes"};
