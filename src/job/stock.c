/* Stock: sheets and strips, and the material that each is of. */
#include "job/guess.h"
#include "job/material.h"
#include "job/tables.h"

#include <math.h>
#include <string.h>

static const char *const ring_names[] = {[RINGS_QUARTER] = "quarter", [RINGS_FLAT] = "flat", [RINGS_MIXED] = "mixed"};
static const struct words ring_words = WORDS(ring_names);

static const struct field stock_fields[] = {
    PLACE(struct job_stock, mark),
    {"material", TEXT(40), .required = true, AT(struct job_stock, stated.material),
     .about = "one of the program's materials, or `other`"},
    {"thickness", LENGTH(1, 100), AT(struct job_stock, thickness), .usual_low = 3, .usual_high = 50,
     .about = "of a sheet, as measured"},
    {"sheet", .kind = VALUE_PAIR, .low = 50, .high = 5000, AT(struct job_stock, sheet_along),
     MORE(struct job_stock, sheet_across), .given_at = offsetof(struct job_stock, stated.is_sheet),
     .about = "[along the face grain, across]"},
    {"strip", .kind = VALUE_PAIR, .low = 2, .high = 600, AT(struct job_stock, stated.strip_thickness),
     MORE(struct job_stock, strip_width), .given_at = offsetof(struct job_stock, is_strip),
     .about = "[thickness, width]"},
    {"length", LENGTH(50, 7000), AT(struct job_stock, length), .about = "of a strip"},
    {"have", NUMBER(0, 999), .whole = true, AT(struct job_stock, have),
     .about = "pieces on the rack; left out: to be bought"},
    {"rings", WORD(ring_words), AT(struct job_stock, rings), .given_at = offsetof(struct job_stock, rings_given),
     .about = "as they stand in the part in use"},
    {"density", NUMBER(50, 3000), AT(struct job_stock, stated.density), .about = "kg/m3; of material `other`"},
    {"stiffness", NUMBER(100, 300000), AT(struct job_stock, stated.stiffness),
     .about = "bending modulus along the grain, N/mm2; of material `other`"},
    {"shrinkage", .kind = VALUE_PAIR, .quantity = QUANTITY_PERCENT, .low = 0, .high = 25,
     AT(struct job_stock, stated.shrink_radial), MORE(struct job_stock, stated.shrink_tangential),
     .about = "[radial, tangential], per cent green to oven-dry; of material `other`"},
    {"movement", PERCENT(0, 2), AT(struct job_stock, stated.movement),
     .about = "of a panel in its plane, per cent for 10 % of humidity; of material `other`"},
};

static void require_num(struct reader *r, const struct num *n, const char *key, const char *what)
{
    if (!n->given)
        reader_miss(r, n->mark, reader_key(r, key), what);
}

/* A size that belongs to the other form of stock. */
static void refuse_num(struct reader *r, const struct num *n, const char *key, const char *why)
{
    if (n->given && !r->excuse_absent)
        diag_at(r->diags, DIAG_CONTRADICTION, n->mark, reader_key(r, key), "%s", why);
}

static void check_form(struct reader *r, struct job_stock *s)
{
    if (!s->is_strip && !s->stated.is_sheet) {
        reader_miss(r, s->mark, reader_path(r),
                    "`sheet: [along the face grain, across]` or `strip: [thickness, width]`");
    } else if (s->is_strip && s->stated.is_sheet) {
        if (!r->excuse_absent)
            diag_at(r->diags, DIAG_CONTRADICTION, s->mark, reader_path(r), "a stock is a sheet or a strip, not both");
    } else if (s->is_strip) {
        refuse_num(r, &s->thickness, "thickness", "of a strip it is the first number of `strip`");
        s->thickness = s->stated.strip_thickness;
    } else {
        require_num(r, &s->thickness, "thickness", "of the sheet, as measured");
        refuse_num(r, &s->length, "length", "is of a strip; a sheet has `sheet`");
    }
}

static void take_stated(struct reader *r, struct job_stock *s)
{
    static const char needed[] = "of material `other`";
    require_num(r, &s->stated.density, "density", needed);
    require_num(r, &s->stated.stiffness, "stiffness", needed);
    if (s->is_strip || !s->stated.movement.given)
        require_num(r, &s->stated.shrink_radial, "shrinkage",
                    s->is_strip ? needed : "or `movement`, of material `other`");
    s->material.density = s->stated.density.v;
    s->material.stiffness = s->stated.stiffness.v;
    s->material.shrink_radial = s->stated.shrink_radial.v;
    s->material.shrink_tangential = s->stated.shrink_tangential.v;
    s->material.movement = s->stated.movement.v / 100;
}

static void refuse_stated(struct reader *r, const struct job_stock *s)
{
    static const char why[] = "the program's table holds it; for your own figures write `material: other`";
    refuse_num(r, &s->stated.density, "density", why);
    refuse_num(r, &s->stated.stiffness, "stiffness", why);
    refuse_num(r, &s->stated.shrink_radial, "shrinkage", why);
    refuse_num(r, &s->stated.movement, "movement", why);
}

static void report_unknown_material(struct reader *r, const struct str *material)
{
    struct guess g = {.wanted = material->s};
    const char *all = "";
    material_guess(&g);
    for (size_t i = 0; material_name(i); i++)
        all = reader_join(r, all, material_name(i));
    if (g.best)
        diag_at(r->diags, DIAG_BAD_WORD, material->mark, reader_key(r, "material"),
                "found \"%s\"; did you mean \"%s\"? For your own: other", material->s, g.best);
    else
        diag_at(r->diags, DIAG_BAD_WORD, material->mark, reader_key(r, "material"), "found \"%s\"; accepted: %s",
                material->s, all);
}

static void check_stock(struct reader *r, const struct node *map, void *out)
{
    struct job_stock *s = out;
    (void)map;
    check_form(r, s);
    if (!s->stated.material.s)
        return;
    const struct material *m = material_find(s->stated.material.s);
    if (!m) {
        report_unknown_material(r, &s->stated.material);
        return;
    }
    s->material = *m;
    if (m->form == MATERIAL_OTHER)
        take_stated(r, s);
    else
        refuse_stated(r, s);
    if (m->form != MATERIAL_OTHER && !isnan(s->thickness.v))
        s->material.stiffness = material_stiffness(m, s->thickness.v);
}

const struct table stock_table = {"stock", FIELDS(stock_fields), .check = check_stock};
