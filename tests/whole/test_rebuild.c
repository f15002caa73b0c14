/* A sled built from the build sheet alone: its tables of parts, of places, of screws and its settings are read as they are
   printed, the sled is put together of boxes and holes, and looked at: parts have the sizes of their pieces, touch where they
   must and nowhere run into each other, each screw hits its part and nothing else, none comes near the blade, the settings
   and the steps say what the tables say. Only then is it laid beside the plan. */
#include "whole/random_job.h"
#include "whole/rebuild.h"
#include "whole/whole.h"

#include "base/file.h"

#include <stdarg.h>
#include <stdio.h>

enum { JOBS = 120, FAULTS_TOLD = 6 };

struct look {
    const struct paper_sled *s;
    double near;  /* a printed size is off by half a millimetre at most, or 1/64 in */
    double loose; /* a sum of three */
    int faults;
    bool quiet;
};

__attribute__((format(printf, 2, 3))) static void complain(struct look *l, const char *format, ...)
{
    va_list args;
    if (l->faults++ >= FAULTS_TOLD || l->quiet)
        return;
    char text[300];
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    print_error("    %s\n", text);
}

static void expect_near(struct look *l, double is, double wanted, double within, const char *what)
{
    if (!(fabs(is - wanted) <= within)) /* NAN is a fault */
        complain(l, "%s: %.2f, but %.2f is wanted", what, is, wanted);
}

/* ---- boxes ---- */

static double overlap(double a0, double a1, double b0, double b1)
{
    return fmin(a1, b1) - fmax(a0, b0);
}

static void sort3(double *d)
{
    for (int i = 0; i < 3; i++)
        for (int k = 0; k < 2; k++)
            if (d[k] > d[k + 1]) {
                double t = d[k];
                d[k] = d[k + 1];
                d[k + 1] = t;
            }
}

/* Pieces are glued face to face, or there is one. */
static void look_at_sizes(struct look *l, const struct paper_part *p)
{
    double box[3] = {p->x1 - p->x0, p->v1 - p->v0, p->z1 - p->z0}, piece[3] = {p->length, p->width, p->pieces * p->thickness};
    sort3(box);
    sort3(piece);
    for (int i = 0; i < 3; i++)
        if (fabs(box[i] - piece[i]) > l->loose + 0.05 * p->pieces)
            complain(l, "%c %s: %.2f in its place, %.2f in the parts table", p->letter, p->name, box[i], piece[i]);
}

static void look_at_collisions(struct look *l)
{
    for (int i = 0; i < l->s->n_parts; i++)
        for (int k = 0; k < i; k++) {
            const struct paper_part *a = &l->s->parts[i], *b = &l->s->parts[k];
            if (a->sits && b->sits && overlap(a->x0, a->x1, b->x0, b->x1) > l->loose &&
                overlap(a->v0, a->v1, b->v0, b->v1) > l->loose && overlap(a->z0, a->z1, b->z0, b->z1) > l->loose)
                complain(l, "%s and %s are in one place", a->name, b->name);
        }
}

static bool is_inside(const struct paper_part *p, const struct paper_part *base, double loose)
{
    return p->x0 >= base->x0 - loose && p->x1 <= base->x1 + loose && p->v0 >= base->v0 - loose && p->v1 <= base->v1 + loose;
}

enum { GUARD = 2 };
static const char *const on_base[] = {"part.reference_fence", "part.other_fence", [GUARD] = "part.exit_guard"};
static const char *const under_base[] = {"part.guide_runner", "part.free_runner"};

/* A guard of so many layers as the job says may hang over the near edge by less than one of them. */
static bool hangs_over(const struct paper_part *p, const struct paper_part *base)
{
    return p->x0 >= base->x0 && p->x1 <= base->x1 && p->v0 < base->v0 && p->v0 > base->v0 - p->thickness;
}

static void look_at_layers(struct look *l, const struct paper_part *base)
{
    for (int i = 0; i < l->s->n_parts; i++) {
        const struct paper_part *p = &l->s->parts[i];
        for (size_t k = 0; k < sizeof on_base / sizeof *on_base; k++)
            if (strcmp(p->name, words_get(on_base[k])) == 0) {
                expect_near(l, p->z0, base->z1, l->near, p->name);
                if (!is_inside(p, base, l->loose) && !(k == GUARD && hangs_over(p, base)))
                    complain(l, "%s stands over the base's edge", p->name);
            }
        for (size_t k = 0; k < sizeof under_base / sizeof *under_base; k++)
            if (strcmp(p->name, words_get(under_base[k])) == 0) {
                expect_near(l, p->z1, base->z0, l->near, p->name);
                if (!is_inside(p, base, l->loose))
                    complain(l, "%s stands over the base's edge", p->name);
            }
    }
}

/* The far end of what meets the stop: of the runner in its slot, else of the base. */
static double meets_stop_at(const struct look *l, const struct paper_part *base, const struct paper_part *stop)
{
    for (size_t k = 0; k < sizeof under_base / sizeof *under_base; k++) {
        const struct paper_part *r = paper_part(l->s, words_get(under_base[k]));
        if (r && stop->z1 <= base->z0 + l->near && overlap(r->x0, r->x1, stop->x0, stop->x1) > 1)
            return r->v1;
    }
    return base->v1;
}

/* Edges of the layers of a fence, nearest to the operator and farthest. */
static void fence_extent(const struct look *l, const char *key, double *near, double *far)
{
    *near = INFINITY;
    *far = -INFINITY;
    for (int i = 0; i < l->s->n_parts; i++)
        if (strcmp(l->s->parts[i].name, words_get(key)) == 0) {
            *near = fmin(*near, l->s->parts[i].v0);
            *far = fmax(*far, l->s->parts[i].v1);
        }
}

static void look_at_contact(struct look *l, const struct paper_part *base)
{
    const struct paper_part *guard = paper_part(l->s, words_get("part.exit_guard")), *stop = paper_part(l->s, words_get("part.travel_stop"));
    double b0, b1, c0, c1;
    fence_extent(l, "part.reference_fence", &b0, &b1);
    fence_extent(l, "part.other_fence", &c0, &c1);
    if (guard)
        expect_near(l, guard->v1, fmin(b0, c0), l->near, "the guard against its fence");
    if (guard)
        expect_near(l, guard->x0 + guard->x1, 0, l->loose, "the guard's middle");
    if (stop && stop->sits)
        expect_near(l, stop->v0, meets_stop_at(l, base, stop), l->near, "the stop against what meets it");
}

/* ---- screws ---- */

static bool is_over(const struct paper_part *p, const struct paper_hole *h, double beside)
{
    return h->x > p->x0 - beside && h->x < p->x1 + beside && h->v > p->v0 - beside && h->v < p->v1 + beside;
}

/* In the middle of one layer: an odd number of half layers from the face. */
static bool is_mid_layer(const struct look *l, const struct paper_part *p, const struct paper_hole *h)
{
    double halves = (h->v - p->v0) / (p->thickness / 2), odd = 2 * floor(halves / 2) + 1;
    return fabs(halves - odd) * p->thickness / 2 <= l->loose;
}

static void look_at_screw(struct look *l, const struct paper_part *base, const struct paper_hole *h)
{
    const struct paper_part *p = NULL;
    for (int i = 0; i < l->s->n_parts; i++) /* unequal layers have a row each */
        if (l->s->parts[i].letter == h->into)
            p = &l->s->parts[i];
    double strip = paper_setting(l->s, words_get("setting.screw_free"));
    if (!p || !p->sits || !is_over(p, h, -h->diameter)) {
        complain(l, "a screw at %.1f, %.1f misses part %c", h->x, h->v, h->into);
        return;
    }
    double thick = base->z1 - base->z0, room = p->z1 - p->z0;
    if (!(h->length > thick + 1 && h->length < thick + room))
        complain(l, "a screw %.1f long for %c: base %.1f, part %.1f", h->length, h->into, thick, room);
    if (!(fabs(h->x) - h->diameter >= strip - 1)) /* the strip is printed as about so much */
        complain(l, "a screw at %.1f, in the strip of the blade", h->x);
    if (!h->from_above && !is_mid_layer(l, p, h))
        complain(l, "a screw at %.1f is not in the middle of a layer of %c", h->v, h->into);
    if (h->from_above && fabs(h->x - (p->x0 + p->x1) / 2) > l->loose)
        complain(l, "a screw at %.1f is not in the middle of %s", h->x, p->name);
    if (h->driven && h->said != h->places)
        complain(l, "%d screws for %d places in %c", h->said, h->places, h->into);
    for (int i = 0; i < l->s->n_parts && !h->from_above; i++) /* its head is under the base, and so are the runners */
        if (l->s->parts[i].sits && l->s->parts[i].z1 <= l->near && strcmp(l->s->parts[i].name, words_get("part.travel_stop")) != 0 &&
            is_over(&l->s->parts[i], h, h->diameter - l->loose))
            complain(l, "the head of a screw at %.1f, %.1f lies under %s", h->x, h->v, l->s->parts[i].name);
}

/* A countersunk head is about twice as wide as its shank: no two on one side touch, no two shanks anywhere. */
static void look_at_pairs(struct look *l)
{
    for (int i = 0; i < l->s->n_holes; i++)
        for (int k = 0; k < i; k++) {
            const struct paper_hole *a = &l->s->holes[i], *b = &l->s->holes[k];
            double apart = hypot(a->x - b->x, a->v - b->v), heads = a->diameter + b->diameter;
            double least = a->from_above == b->from_above ? heads : heads / 2;
            if (apart < least - l->near)
                complain(l, "screws at %.1f, %.1f and %.1f, %.1f are %.2f apart", a->x, a->v, b->x, b->v, apart);
        }
}

static void look_at_screws(struct look *l, const struct paper_part *base)
{
    int count[128] = {0};
    for (int i = 0; i < l->s->n_holes; i++) {
        look_at_screw(l, base, &l->s->holes[i]);
        count[(unsigned char)l->s->holes[i].into % 128] += l->s->holes[i].driven;
    }
    look_at_pairs(l);
    const struct paper_part *b = paper_part(l->s, words_get("part.reference_fence"));
    int in_reference = 0;
    for (int i = 0; i < l->s->n_parts; i++)
        if (b && strcmp(l->s->parts[i].name, b->name) == 0)
            in_reference += count[(unsigned char)l->s->parts[i].letter % 128];
    if (in_reference < 2)
        complain(l, "%d screws hold the reference fence", in_reference);
}

/* ---- settings and steps ---- */

static const struct paper_hole *hole_that_says(const struct look *l, const char *words)
{
    for (int i = 0; i < l->s->n_holes; i++)
        if (strstr(l->s->holes[i].text, words))
            return &l->s->holes[i];
    return NULL;
}

static void look_at_settings(struct look *l)
{
    double b0, b1, c0, c1, face = paper_setting(l->s, words_get("setting.fence_face")), other = paper_setting(l->s, words_get("setting.other_face"));
    fence_extent(l, "part.reference_fence", &b0, &b1);
    fence_extent(l, "part.other_fence", &c0, &c1);
    bool near_fence = b0 < c0;
    expect_near(l, face, near_fence ? b1 : b0, l->near, "the reference fence's working face");
    expect_near(l, other, near_fence ? c0 : c1, l->near, "the other fence's inner face");
    const struct paper_hole *pivot = hole_that_says(l, "hole P"), *trial = hole_that_says(l, "hole 1");
    expect_near(l, pivot ? pivot->x : NAN, paper_setting(l->s, words_get("setting.pivot")), l->near, "the pivot");
    expect_near(l, trial ? trial->x : NAN, paper_setting(l->s, words_get("setting.gauge")), l->near, "the gauge mark");
    if (pivot && trial)
        expect_near(l, fabs(pivot->x - trial->x), paper_setting(l->s, words_get("setting.pivot_to_gauge")), l->loose, "pivot to gauge");
    double edge = paper_setting(l->s, words_get("setting.edge_stop")), block = paper_setting(l->s, words_get("setting.stop_block"));
    double y_stop = paper_setting(l->s, words_get("setting.y_stop"));
    const struct paper_part *stop = paper_part(l->s, words_get("part.travel_stop"));
    expect_near(l, y_stop - edge, face, l->loose, "the working face on the stop");
    if (stop && stop->sits)
        expect_near(l, block - edge, stop->v0, l->loose, "the stop block");
    const struct paper_part *guide = paper_part(l->s, words_get("part.guide_runner")), *loose = paper_part(l->s, words_get("part.free_runner"));
    expect_near(l, paper_setting(l->s, words_get("setting.guide_width")), guide ? guide->width : NAN, 0.03, "the guide's width");
    if (loose)
        expect_near(l, paper_setting(l->s, words_get("setting.free_width")), loose->width, 0.03, "the free runner's width");
}

/* What a step says of a place, if it says it, is what the tables say. */
static void look_at_steps(struct look *l, const struct paper_part *base)
{
    const struct paper_part *ref = paper_part(l->s, words_get("part.reference_fence"));
    const struct paper_hole *pivot = hole_that_says(l, "hole P"), *trial = hole_that_says(l, "hole 1"), *fresh = hole_that_says(l, "hole 2");
    const struct paper_part *stop = paper_part(l->s, words_get("part.travel_stop"));
    const struct {
        const char *phrase;
        double is;
    } said[] = {
        {" either side of the blade plane, ", -base->x0},
        {" up hole P, ", pivot ? fabs(pivot->x) : NAN},
        {" up hole 1, ", trial ? fabs(trial->x) : NAN},
        {" up hole 2, ", fresh ? fabs(fresh->x) : NAN},
        {"WORK away from you, outer face ", ref ? ref->v0 : NAN},
        {" slot until its near face is ", paper_setting(l->s, words_get("setting.stop_block"))},
        {"Saw the stop off it with a handsaw, ", stop ? stop->length : NAN},
    };
    for (size_t i = 0; i < sizeof said / sizeof *said; i++) {
        double is = paper_after(l->s, said[i].phrase);
        if (!isnan(is) && !isnan(said[i].is))
            expect_near(l, is, said[i].is, l->near, said[i].phrase);
    }
}

/* ---- all of it, then the plan beside it ---- */

static int look_at_sled(const struct paper_sled *s, bool sound, bool quiet)
{
    struct look l = {.s = s, .near = s->units == UNITS_IN ? 0.4 : 0.5, .quiet = quiet};
    l.loose = 1.6 * l.near;
    const struct paper_part *base = paper_part(s, words_get("part.base"));
    if (!base || !base->sits || s->n_holes == 0 || s->n_settings < 12) {
        complain(&l, "no base, no screws or no settings on the sheet");
        return l.faults;
    }
    for (int i = 0; i < s->n_parts; i++)
        if (s->parts[i].sits)
            look_at_sizes(&l, &s->parts[i]);
    look_at_layers(&l, base);
    look_at_contact(&l, base);
    look_at_settings(&l);
    look_at_steps(&l, base);
    if (!sound)
        return l.faults;
    look_at_collisions(&l);
    look_at_screws(&l, base);
    return l.faults;
}

static const struct paper_hole *nearest_hole(const struct paper_sled *s, const struct plan_hole *h)
{
    const struct paper_hole *nearest = NULL;
    for (int i = 0; i < s->n_holes; i++) {
        const struct paper_hole *p = &s->holes[i];
        if (p->into == *h->part && (!nearest || hypot(p->x - h->x, p->v - h->v) < hypot(nearest->x - h->x, nearest->v - h->v)))
            nearest = p;
    }
    return nearest;
}

static int lay_beside_plan(const struct paper_sled *s, const struct plan *plan, bool quiet)
{
    struct look l = {.s = s, .quiet = quiet, .near = s->units == UNITS_IN ? 0.4 : 0.5};
    expect_near(&l, s->n_parts, (double)plan->n_parts, 0, "number of parts");
    expect_near(&l, s->n_holes, (double)plan->n_holes, 0, "number of holes");
    for (size_t i = 0; i < plan->n_parts && i < (size_t)s->n_parts; i++) {
        const struct plan_part *p = &plan->parts[i];
        const struct paper_part *is = &s->parts[i];
        expect_near(&l, is->pieces, p->quantity, 0, is->name);
        expect_near(&l, is->length, p->final_length, l.near, is->name);
        expect_near(&l, is->width, p->width, l.near, is->name);
        expect_near(&l, is->thickness, p->thickness, 0.1, is->name);
        if (is->sits != (p->n_bodies > 0))
            complain(&l, "%s: a place on one of sheet and plan only", is->name);
        if (p->n_bodies == 0)
            continue;
        const struct body *b = p->bodies;
        const double edges[][2] = {{is->x0, b->x0}, {is->x1, b->x1}, {is->v0, b->v0}, {is->v1, b->v1}, {is->z0, b->z0}, {is->z1, b->z1}};
        for (int e = 0; e < 6; e++)
            expect_near(&l, edges[e][0], edges[e][1], l.near, is->name);
    }
    for (size_t i = 0; i < plan->n_holes; i++) {
        const struct plan_hole *h = &plan->holes[i];
        const struct paper_hole *is = nearest_hole(s, h);
        if (!is || hypot(is->x - h->x, is->v - h->v) > l.near || is->from_above != h->from_above ||
            fabs(is->length - h->screw_length) > 0.1 || fabs(is->diameter - h->screw_diameter) > 0.1)
            complain(&l, "the plan's screw at %.1f, %.1f is not on the sheet", h->x, h->v);
    }
    return l.faults;
}

static const struct sheet *build_sheet(const struct whole *w)
{
    for (size_t i = 0; i < w->sheets.n; i++)
        if (w->sheets.list[i].kind == SHEET_BUILD)
            return &w->sheets.list[i];
    return NULL;
}

/* A sled with a failed check is printed as it is, and need not be one that can be built. */
static bool is_sound(const struct whole *w)
{
    for (size_t i = 0; i < w->outcome.n_checks; i++)
        if (w->outcome.checks[i].verdict == VERDICT_FAIL)
            return false;
    return true;
}

struct tally {
    int rebuilt, sound, faults;
};

static void rebuild(const char *name, const char *yaml, struct tally *t)
{
    static struct paper_sled sled;
    struct whole *w = whole_calculate(yaml);
    if (w->planned && w->plan.has_sled && whole_lay_out(w) && build_sheet(w)) {
        paper_read(build_sheet(w), w->job.units, &sled);
        int faults = look_at_sled(&sled, is_sound(w), false) + lay_beside_plan(&sled, &w->plan, false);
        if (faults)
            print_error("%s: %d faults\n", name, faults);
        t->faults += faults;
        t->rebuilt++;
        t->sound += is_sound(w);
        paper_free(&sled);
    }
    whole_free(w);
}

static void test_rebuild_examples(void **state)
{
    static const char *const names[] = {"bay-2-sled", "damp-shed-do-not-use", "first-sled", "garage-sled-inches", "new-sled-not-tested",
                                        "one-slot-315", "small-bench-saw"};
    struct tally t = {0};
    (void)state;
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        char path[512];
        struct text yaml = {0};
        snprintf(path, sizeof path, "%s/jobs/%s.yaml", SOURCE_FOLDER, names[i]);
        assert_true(file_read(path, 1 << 20, &yaml) == FILE_READ);
        rebuild(names[i], text_string(&yaml), &t);
        text_free(&yaml);
    }
    assert_int_equal(t.rebuilt, (int)(sizeof names / sizeof *names));
    assert_int_equal(t.faults, 0);
}

static void test_rebuild_random_jobs(void **state)
{
    struct tally t = {0};
    struct random_job g = {.state = 20261129, .n_tests = 0};
    (void)state;
    for (int i = 0; i < JOBS && t.faults < 20; i++) {
        struct text yaml = {0};
        char name[32];
        snprintf(name, sizeof name, "random job %d", i);
        random_job_write(&g, &yaml);
        int before = t.faults;
        rebuild(name, text_string(&yaml), &t);
        if (t.faults > before && getenv("FETTLE_SHOW"))
            print_error("%s\n", text_string(&yaml));
        text_free(&yaml);
    }
    print_message("%d sleds rebuilt, %d of them sound\n", t.rebuilt, t.sound);
    assert_int_equal(t.faults, 0);
    assert_true(t.rebuilt > JOBS / 2 && t.sound > JOBS / 8);
}

/* ---- a wrong number on the sheet is seen ---- */

struct spoiling {
    int wanted, met;   /* the numbered cell to spoil; how many there were so far */
    struct pool *pool;
    const char **cell; /* spoiled */
    const char *was;
};

/* Three millimetres more on the first number of a cell: "580*" becomes "583". */
static void spoil(struct block *b, void *data)
{
    struct spoiling *s = data;
    for (int r = 0; r < b->as.table.n_rows; r++)
        for (int c = 0; c < b->as.table.n_columns; c++) {
            const char **cell = &b->as.table.rows[r].cells[c], *text = *cell + strspn(*cell, "<b>*+");
            bool minus = strncmp(text, "\xE2\x88\x92", 3) == 0;
            char *end;
            double value = strtod(text + (minus ? 3 : 0), &end);
            if (end == text + (minus ? 3 : 0) || strstr(*cell, "\xC3\x97") || s->met++ != s->wanted)
                continue;
            s->was = *cell;
            s->cell = cell;
            value = (minus ? -value : value) + 3;
            *cell = pool_printf(s->pool, "%s%g%s", value < 0 ? "\xE2\x88\x92" : "", fabs(value), end);
        }
}

/* What nothing else on the tables repeats or touches: heights of the blade, the strip for hands, moisture, weight, a width's
   limits, the flip stop, which slides, and places where the sled stands before and after a cut are no places of its parts. */
static bool stands_alone(const struct paper_sled *spoiled, const struct paper_sled *whole)
{
    static const char *const alone[] = {"setting.plane", "setting.keep_out", "setting.track.left", "setting.tape_zero", "setting.repeats",
                                        "setting.blade_above_work", "setting.edge_parked", "setting.bare_start", "setting.mc_fitting", "setting.mc_driest",
                                        "setting.mc_dampest", "setting.centre_x", "setting.centre_v", "setting.mass"};
    for (int i = 0; i < whole->n_settings; i++) {
        if (fabs(spoiled->settings[i].value - whole->settings[i].value) < 0.5)
            continue;
        for (size_t k = 0; k < sizeof alone / sizeof *alone; k++)
            if (strcmp(whole->settings[i].name, words_get(alone[k])) == 0)
                return true;
        return strncmp(whole->settings[i].name, "blade above the table", 21) == 0 || strncmp(whole->settings[i].name, "start of work", 13) == 0 ||
               strncmp(whole->settings[i].name, "on the stop: blade bare", 23) == 0;
    }
    for (int i = 0; i < whole->n_parts; i++) /* the flip stop has no place */
        if (!whole->parts[i].sits && (spoiled->parts[i].length != whole->parts[i].length || spoiled->parts[i].width != whole->parts[i].width ||
                                      spoiled->parts[i].thickness != whole->parts[i].thickness || spoiled->parts[i].pieces != whole->parts[i].pieces))
            return true;
    return false;
}

static void test_rebuild_sees_each_wrong_number(void **state)
{
    static struct paper_sled sled, whole;
    struct text yaml = {0};
    struct pool pool = {0};
    int unseen = 0, spoiled = 0, seen_alone = 0;
    (void)state;
    assert_true(file_read(SOURCE_FOLDER "/jobs/bay-2-sled.yaml", 1 << 20, &yaml) == FILE_READ);
    struct whole *w = whole_calculate(text_string(&yaml));
    assert_true(w->planned && whole_lay_out(w));
    const struct sheet *sheet = build_sheet(w);
    paper_read(sheet, w->job.units, &whole);
    for (int i = 0;; i++) {
        struct spoiling s = {.wanted = i, .pool = &pool};
        paper_tables(sheet, spoil, &s);
        if (!s.cell)
            break;
        spoiled++;
        paper_read(sheet, w->job.units, &sled);
        bool alone = look_at_sled(&sled, true, true) > 0;
        seen_alone += alone;
        if (!alone && lay_beside_plan(&sled, &w->plan, true) == 0 && !stands_alone(&sled, &whole)) {
            print_error("not seen: %s instead of %s\n", *s.cell, s.was);
            unseen++;
        }
        paper_free(&sled);
        *s.cell = s.was;
    }
    print_message("%d numbers spoiled, %d seen without the plan\n", spoiled, seen_alone);
    assert_true(spoiled > 90 && seen_alone > 70);
    assert_int_equal(unseen, 0);
    paper_free(&whole);
    whole_free(w);
    pool_free(&pool);
    text_free(&yaml);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rebuild_examples),
        cmocka_unit_test(test_rebuild_random_jobs),
        cmocka_unit_test(test_rebuild_sees_each_wrong_number),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
