/* Jobs at random. Sizes are drawn as a shop would choose them, so that most saws get a sled: a job that the program must
   refuse tells nothing about its sheets. Lengths in mm until they are written. */
#include "whole/random_draft.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- sections ---- */

static void write_number(struct draft *d)
{
    static const char letters[] = "ABCDEFGHJKLMNPQRSTUVWXYZabcdefghijkmnpqrstuvwxyz0123456789._-";
    int n = d->g->long_texts ? 24 : 1 + below(d->g, 12);
    text_add_char(d->out, letters[below(d->g, 24)]);
    for (int i = 1; i < n; i++)
        text_add_char(d->out, letters[below(d->g, COUNT(letters) - 1)]);
}


static const char *const papers[] = {"A4", "A3", "Letter", "Tabloid"};

static void write_head(struct draft *d)
{
    struct random_job *g = d->g;
    text_add(d->out, "fettle: 1\njob:\n  number: ");
    write_number(d);
    write_text(d, "\n  title: ", 6, 80);
    if (chance(g, 0.5) || g->long_texts)
        write_text(d, "\n  shop: ", 4, 80);
    if (chance(g, 0.5) || g->long_texts)
        write_text(d, "\n  made_by: ", 3, 80);
    if (chance(g, 0.4))
        text_printf(d->out, "\n  date: 2029-%02d-%02d", 1 + below(g, 12), 1 + below(g, 28));
    text_printf(d->out, "\nunits: %s\n", d->inches ? "in" : "mm");
    const char *paper = chance(g, 0.7) ? papers[below(g, COUNT(papers))] : NULL;
    if (g->paper)
        paper = g->paper;
    if (paper)
        text_printf(d->out, "paper: %s\n", paper);
}

static void choose_saw(struct draft *d)
{
    static const double diameters[] = {203.2, 210, 216, 250, 254, 254, 300, 304.8, 315};
    static const double slots[] = {15.9, 16.2, 17.0, 18.3, 19.05, 19.1, 19.1, 20.0};
    struct random_job *g = d->g;
    d->diameter = diameters[below(g, COUNT(diameters))];
    d->highest = d->diameter * random_job_number(g, 0.27, 0.34);
    d->kerf = random_job_number(g, 2.2, 3.4);
    d->plate = d->kerf - random_job_number(g, 0.6, 1.1);
    d->depth = random_job_number(g, 520, 900);
    d->front_edge = d->depth * random_job_number(g, 0.5, 0.63);
    if (g->exact)
        d->depth += 250; /* room for whole runners before the stop: a cut runner's length is round in the job's unit */
    d->left_of_blade = chance(g, 0.5) ? random_job_number(g, 300, 500) : 0;
    d->slot_width = slots[below(g, COUNT(slots))] + 0.05 * below(g, 3);
    d->slot_depth = random_job_number(g, 8.5, 10);
    bool one = chance(g, 0.2);
    int only = below(g, 2);
    for (int side = 0; side < 2; side++)
        d->slot[side] = random_job_number(g, 105, 175) * (!one || side == only);
}

static void write_knife(struct draft *d)
{
    struct random_job *g = d->g;
    double between = random_job_number(g, 0.2, 0.8), top = random_job_number(g, 0.5, 4);
    switch (below(g, 5)) {
    case 0:
        text_add(d->out, "  knife: {kind: none}\n");
        break;
    case 1:
    case 2:
    case 3:
        write_fit(d, "  knife: {kind: riving, thickness: ", d->plate + between * (d->kerf - d->plate));
        write_size(d, ", below_top: ", top + 1);
        text_add(d->out, "}\n");
        break;
    default:
        break;
    }
}

static void write_saw(struct draft *d)
{
    struct random_job *g = d->g;
    text_add(d->out, "saw:\n");
    if (chance(g, 0.6) || g->long_texts)
        write_text(d, "  name: ", 4, 80);
    text_add(d->out, "\n");
    write_size(d, "  blade: {diameter: ", d->diameter);
    write_fit(d, ", kerf: ", d->kerf);
    if (is_given(g, 0.6))
        write_fit(d, ", plate: ", d->plate);
    write_size(d, ", highest: ", d->highest);
    text_add(d->out, "}\n");
    write_knife(d);
    write_size(d, "  table: {front_edge: ", d->front_edge);
    write_size(d, ", depth: ", d->depth);
    if (d->left_of_blade > 0) {
        write_size(d, ", width: ", d->left_of_blade * 2 + 20);
        write_size(d, ", left_of_blade: ", d->left_of_blade);
    }
    text_add(d->out, "}\n");
    write_fit(d, "  slots: {width: ", d->slot_width);
    write_thickness(d, ", depth: ", d->slot_depth);
    for (int side = 0; side < 2; side++)
        if (d->slot[side] > 0) {
            text_printf(d->out, ", %s: ", side_word(side));
            write_size(d, "", d->slot[side]);
        }
    text_add(d->out, "}\n");
}

static void write_climate(struct draft *d, const char *key, double celsius, double humidity)
{
    bool fahrenheit = d->inches && !d->g->exact;
    text_printf(d->out, "  %s: {temperature: %.0f%s, humidity: %.0f}\n", key, fahrenheit ? celsius * 9 / 5 + 32 : celsius,
                fahrenheit ? " F" : "", humidity);
}

static void write_air(struct draft *d)
{
    struct random_job *g = d->g;
    d->has_air = chance(g, 0.6);
    double fitting = random_job_number(g, 44, 54), dry = random_job_number(g, 1, 6), damp = random_job_number(g, 1, 7);
    if (!d->has_air)
        return;
    text_add(d->out, "air:\n");
    write_climate(d, "at_fitting", 18, fitting);
    write_climate(d, "driest", 20, fitting - dry);
    write_climate(d, "dampest", 16, fitting + damp);
}

static void write_have(struct draft *d)
{
    if (chance(d->g, 0.6))
        text_printf(d->out, ", have: %d", below(d->g, 5));
}

static void write_sheet_stock(struct draft *d, const char *name, const char *material, double thickness)
{
    text_printf(d->out, "  %s: {material: %s", name, material);
    write_thickness(d, ", thickness: ", thickness);
    bool large = chance(d->g, 0.5);
    write_size(d, ", sheet: [", large ? 1524 : 1220);
    write_size(d, ", ", large ? 1524 : 1220);
    text_add_char(d->out, ']');
    write_have(d);
    text_add(d->out, "}\n");
}

static void write_strip_stock(struct draft *d)
{
    static const char *const woods[] = {"hard-maple", "hard-maple", "american-beech", "white-oak"};
    static const char *const rings[] = {"quarter", "quarter", "quarter", "mixed", "flat"};
    struct random_job *g = d->g;
    text_printf(d->out, "  hardwood: {material: %s", woods[below(g, COUNT(woods))]);
    write_size(d, ", strip: [", 25.4);
    write_size(d, ", ", 50.8);
    text_add_char(d->out, ']');
    if (is_given(g, 0.8))
        write_size(d, ", length: ", 1219);
    write_have(d);
    if (is_given(g, 0.7))
        text_printf(d->out, ", rings: %s", rings[below(g, COUNT(rings))]);
    text_add(d->out, "}\n");
}

static void write_stock(struct draft *d)
{
    struct random_job *g = d->g;
    d->thin = random_job_number(g, 9, 12.6);
    d->thick = random_job_number(g, 15, 18.9);
    d->has_strip = chance(g, 0.9) || g->all_given;
    text_add(d->out, "stock:\n");
    write_sheet_stock(d, "thin-ply", "birch-plywood", d->thin);
    write_sheet_stock(d, "ply-3_4", chance(g, 0.2) ? "mdf" : "birch-plywood", d->thick);
    if (d->has_strip)
        write_strip_stock(d);
}

/* ---- the sled ---- */

static void write_fences(struct draft *d, bool far, double left, double right, double height, int guard_layers)
{
    struct random_job *g = d->g;
    bool pivot_right = chance(g, 0.5);
    double shorter = random_job_number(g, 5, 40), pivot = (pivot_right ? right : left) - 70,
           moving = (pivot_right ? left : right) - 90;
    text_printf(d->out, "  reference_fence:\n    side: %s\n    stock: ply-3_4\n", far ? "far" : "near");
    write_size(d, "    from_edge: ", far ? 0 : guard_layers * d->thick + 2);
    text_add(d->out, "\n    layers: 2");
    write_size(d, "\n    height: ", height);
    write_size(d, "\n    length: ", left + right);
    text_printf(d->out, "\n    pivot: {side: %s", side_word(pivot_right));
    write_size(d, ", from_blade: ", pivot);
    text_printf(d->out, "}\n    moving: {side: %s", side_word(!pivot_right));
    write_size(d, ", from_blade: ", moving);
    text_add(d->out, "}\n  other_fence: {stock: ply-3_4, layers: 1");
    write_size(d, ", from_edge: ", far ? guard_layers * d->thick + 2 : 0);
    write_size(d, ", height: ", height);
    write_size(d, ", length: ", left + right - 2 * shorter);
    text_add(d->out, "}\n");
}

static void write_runners(struct draft *d, double depth)
{
    struct random_job *g = d->g;
    bool right = d->slot[1] > 0 && (d->slot[0] == 0 || chance(g, 0.5));
    double width = d->slot_width - random_job_number(g, 0.07, 0.16), looser = random_job_number(g, 0.08, 0.25);
    text_printf(d->out, "  runners: {%sguide: %s", d->has_strip ? "stock: hardwood, " : "", side_word(right));
    write_fit(d, ", width: ", width);
    write_thickness(d, ", thickness: ", d->slot_depth - 0.6);
    if (d->slot[0] > 0 && d->slot[1] > 0)
        write_fit(d, ", free_width: ", width - looser);
    if (is_given(g, 0.3))
        write_size(d, ", length: ", depth);
    text_add(d->out, "}\n");
    if (d->slot[0] > 0 && d->slot[1] > 0) {
        text_printf(d->out, "  travel_stop: {%sin: %s", d->has_strip ? "stock: hardwood, " : "", side_word(!right));
        write_size(d, ", length: ", 63.5);
        text_add(d->out, "}\n");
    } else if (is_given(g, 0.3)) {
        write_size(d, "  travel_stop: {length: ", 63.5);
        text_add(d->out, "}\n");
    }
}

static void write_sizes(struct draft *d, bool far)
{
    struct random_job *g = d->g;
    double left = random_job_number(g, 300, 400), right = random_job_number(g, 300, 400);
    int layers = 4 + below(g, 3);
    double height = d->highest - d->thin + random_job_number(g, 26, 45);
    double depth = layers * d->thick + 3 * d->thick + d->width + random_job_number(g, 14, 40);
    write_size(d, "  base: {stock: thin-ply, width: ", left + right);
    write_size(d, ", depth: ", depth);
    write_size(d, ", left_of_blade: ", left);
    text_add(d->out, "}\n");
    write_fences(d, far, left, right, height, layers);
    write_runners(d, depth);
    text_printf(d->out, "  exit_guard: {stock: ply-3_4, layers: %d", layers);
    if (is_given(g, 0.5))
        write_size(d, ", width: ", 101.6);
    if (is_given(g, 0.3))
        write_size(d, ", height: ", height);
    text_add(d->out, "}\n");
}

static void write_capacity(struct draft *d)
{
    struct random_job *g = d->g;
    d->width = d->depth * random_job_number(g, 0.28, 0.42);
    double room = d->highest - d->thin - 6.5;
    if (!chance(g, 0.85) && !d->sized) {
        d->width = 0;
        return;
    }
    write_size(d, "  capacity: {width: ", d->width);
    if (is_given(g, 0.4))
        write_size(d, ", thickness: ", room - random_job_number(g, 1, 12));
    text_add(d->out, "}\n");
    if (is_given(g, 0.5))
        write_size(d, "  blade_above_work: ", 4.7625);
}

static void write_parts(struct draft *d)
{
    struct random_job *g = d->g;
    text_add(d->out, "jig:\n  kind: parts\n  parts:\n");
    for (int n = 1 + below(g, 5), i = 0; i < n; i++) {
        bool strip = d->has_strip && chance(g, 0.3);
        write_text(d, "    - {name: ", 3, 60);
        text_printf(d->out, ", stock: %s", strip ? "hardwood" : chance(g, 0.5) ? "thin-ply" : "ply-3_4");
        write_size(d, ", length: ", random_job_number(g, 60, strip ? 900 : 1150));
        if (!strip)
            write_size(d, ", width: ", random_job_number(g, 40, 500));
        if (chance(g, 0.5))
            text_printf(d->out, ", quantity: %d", 1 + below(g, 4));
        text_add(d->out, "}\n");
    }
}

static void write_jig(struct draft *d)
{
    struct random_job *g = d->g;
    d->has_sled = true;
    bool far = chance(g, 0.35);
    d->sized = chance(g, 0.45) || g->all_given;
    text_add(d->out, "jig:\n  kind: crosscut-sled\n");
    write_capacity(d);
    text_add_char(d->out, '\n');
    if (d->sized)
        write_sizes(d, far);
    else if (far)
        text_add(d->out, "  reference_fence: {side: far}\n");
    if (chance(g, 0.2) && !g->all_given) /* its sizes are never given */
        text_add(d->out, "  stop: {stock: ply-3_4}\n");
}

/* ---- the shop ---- */

static void write_instruments(struct draft *d)
{
    struct random_job *g = d->g;
    d->has_caliper = chance(g, 0.7);
    d->has_leaves = chance(g, 0.6);
    if (g->all_methods) {
        d->has_dial = chance(g, 0.7);
        d->has_rule = chance(g, 0.7);
        d->has_edge = chance(g, 0.6);
    }
    if (!d->has_caliper && !d->has_leaves && !d->has_dial && !d->has_rule && !d->has_edge)
        return;
    text_add(d->out, "instruments:\n");
    if (d->has_caliper) {
        write_reading(d, "  caliper-3: {kind: caliper, resolution: ", d->inches || g->exact ? 0.0127 : 0.01);
        write_fit(d, ", error_limit: ", 0.0254);
        if (chance(g, 0.6))
            text_printf(d->out, ", checked: 2026-%02d-%02d", 1 + below(g, 12), 1 + below(g, 28));
        if (chance(g, 0.3) || g->long_texts)
            write_text(d, ", certificate: ", 3, 80);
        text_add(d->out, "}\n");
    }
    if (d->has_leaves) {
        static const double leaves[] = {0.0381, 0.0508, 0.0762, 0.1016, 0.1524, 0.2032, 0.254, 0.3048, 0.4064, 0.508, 0.635};
        text_add(d->out, "  leaves-1: {kind: feeler, leaves: [");
        int n = 3 + below(g, COUNT(leaves) - 2);
        for (int i = 0; i < n; i++)
            write_reading(d, i ? ", " : "", leaves[i]);
        text_add(d->out, "]}\n");
    }
    if (d->has_dial)
        write_reading(d, "  dial-1: {kind: dial, resolution: ", d->inches || g->exact ? 0.0127 : 0.01);
    if (d->has_dial)
        text_add(d->out, "}\n");
    if (d->has_rule)
        text_printf(d->out, "  rule-1: {kind: rule, grade: %s, resolution: %s}\n", chance(g, 0.5) ? "I" : "II", d->inches ? "1/64" : "0.5");
    if (d->has_edge) {
        write_fit(d, "  edge-1: {kind: straight-edge, error_limit: ", 0.0254);
        text_add(d->out, "}\n");
    }
}

static void write_readings(struct draft *d, const char *key, double width, int n)
{
    text_printf(d->out, "%s[", key);
    for (int i = 0; i < n; i++)
        write_reading(d, i ? ", " : "", width + random_job_number(d->g, -0.02, 0.02));
    text_add_char(d->out, ']');
}

static void write_strips(struct draft *d, double slope, double length)
{
    struct random_job *g = d->g;
    int n = chance(g, 0.3) ? 1 : chance(g, 0.7) ? 3 : 2 + below(g, 4);
    double scatter = chance(g, 0.8) ? 0.03 : 0.15;
    text_add(d->out, "    strips:\n");
    for (int i = 0; i < n; i++) {
        double width = random_job_number(g, 20.5, 27), ends = 4 * length * slope + random_job_number(g, -scatter, scatter);
        int repeats = 1 + below(g, 4);
        write_readings(d, "      - {fence_end: ", width, repeats);
        write_readings(d, ", far_end: ", width - ends, 1 + below(g, 4));
        text_add(d->out, "}\n");
    }
}

static void write_test(struct draft *d, int i)
{
    struct random_job *g = d->g;
    double most = d->width > 0 ? d->width - 40 : 160, length = random_job_number(g, 0.6, 1) * (most > 360 ? 360 : most);
    double slope = random_job_number(g, -1, 1) * (chance(g, 0.6) ? 2.5e-4 : 1e-3);
    text_printf(d->out, "  - method: five-cut\n    date: %d-%02d-%02d\n    offcut: %s\n", 2027 + i / 24, 1 + i / 2 % 12,
                1 + 14 * (i % 2) + below(g, 13), side_word(chance(g, 0.6)));
    write_size(d, "    length: ", in_steps(length, 25.4));
    text_add_char(d->out, '\n');
    write_strips(d, slope, in_steps(length, 25.4));
    if (d->has_caliper && chance(g, 0.7))
        text_add(d->out, "    instrument: caliper-3\n");
    if (chance(g, 0.6) || g->long_texts) {
        write_text(d, "    by: ", 3, 80);
        text_add_char(d->out, '\n');
    }
    if (chance(g, 0.3) || g->long_texts) {
        write_text(d, "    note: ", 8, 200);
        text_add_char(d->out, '\n');
    }
    if (chance(g, 0.25))
        text_printf(d->out, "    air: {temperature: %d, humidity: %d}\n", 12 + below(g, 12), 40 + below(g, 30));
    if (chance(g, 0.12))
        text_add(d->out, "    practice: true\n");
    if (chance(g, 0.25)) {
        text_printf(d->out, "    moved: {end: %s, toward: %s", side_word(chance(g, 0.5)), chance(g, 0.5) ? "operator" : "away");
        write_fit(d, ", distance: ", random_job_number(g, 0.05, 0.6));
        text_add(d->out, "}\n");
    }
}

static void write_tests(struct draft *d)
{
    struct random_job *g = d->g;
    int n = g->n_tests >= 0 ? g->n_tests : chance(g, 0.2) ? 0 : chance(g, 0.5) ? 1 : 2 + below(g, 7);
    if (g->kind != RANDOM_SLED)
        n = 0; /* of a fence that the job does not know */
    if (n > 0 || g->all_methods)
        text_add(d->out, "tests:\n");
    for (int i = 0; i < n; i++)
        write_test(d, i);
    if (g->all_methods)
        write_other_tests(d);
}

static void write_changes(struct draft *d)
{
    struct random_job *g = d->g;
    if (!chance(g, 0.25) && !g->long_texts)
        return;
    text_add(d->out, "changes:\n");
    for (int n = 1 + below(g, 2); n > 0; n--) {
        text_printf(d->out, "  - {date: 2027-%02d-%02d", 1 + below(g, 6), 1 + below(g, 28));
        write_text(d, ", what: ", 5, 200);
        text_add(d->out, "}\n");
    }
}

static void write_limit(struct draft *d, const char *name, double error, double over)
{
    if (!chance(d->g, 0.4))
        return;
    text_printf(d->out, ", %s: {error: ", name);
    write_reading(d, "", error * random_job_number(d->g, 0.6, 1.6));
    write_size(d, ", over: ", over);
    text_add_char(d->out, '}');
}

static void write_other_limits(struct draft *d)
{
    write_limit(d, "blade_tilt", 0.1016, 50.8);
    write_limit(d, "slot", 0.0762, 203.2);
    write_limit(d, "mitre", 0.1016, 101.6);
    if (chance(d->g, 0.4)) {
        write_reading(d, ", stop: {error: ", random_job_number(d->g, 0.1, 0.3));
        write_reading(d, ", spread: ", random_job_number(d->g, 0.03, 0.1));
        text_add_char(d->out, '}');
    }
    if (chance(d->g, 0.4)) {
        write_reading(d, ", straightness: {bow: ", random_job_number(d->g, 0.08, 0.2));
        text_add_char(d->out, '}');
    }
}

static void write_shop(struct draft *d)
{
    struct random_job *g = d->g;
    if (is_given(g, 0.6)) {
        write_reading(d, "tolerances: {squareness: {error: ", d->inches || g->exact ? 0.1016 : 0.05 * (1 + below(g, 4)));
        write_size(d, ", over: ", 304.8);
        text_add_char(d->out, '}');
        if (is_given(g, 0.3)) {
            write_fit(d, ", side_play: {low: ", 0.0508);
            write_fit(d, ", high: ", 0.254);
            text_add_char(d->out, '}');
        }
        if (g->all_methods)
            write_other_limits(d);
        text_add(d->out, "}\n");
    }
    if (chance(g, 0.5))
        text_printf(d->out, "retest: {months: %d}\n", 1 + below(g, 24));
}

void random_job_write(struct random_job *g, struct text *yaml)
{
    struct draft d = {.g = g, .out = yaml};
    text_clear(yaml);
    bool inches = chance(g, 0.5);
    d.inches = g->units == RANDOM_ANY_UNITS ? inches : g->units == RANDOM_IN;
    choose_saw(&d);
    write_head(&d);
    write_saw(&d);
    write_air(&d);
    if (g->kind != RANDOM_SAW)
        write_stock(&d);
    if (g->kind == RANDOM_SLED)
        write_jig(&d);
    if (g->kind == RANDOM_PARTS)
        write_parts(&d);
    write_shop(&d);
    write_instruments(&d);
    write_tests(&d);
    write_changes(&d);
}
