/* The building order and the cautions: figures worked by hand, the rules of order, and that every sentence that is
   asked for is there with its arguments, and every sentence that is there is asked for. */
#include "close.h"
#include "plan_jobs.h"
#include "random_saws.h"

#include "plan/build.h"
#include "words.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

struct made {
    struct plan plan;
    struct diags diags;
};

static bool make_plan(const struct test_job *t, struct made *m)
{
    struct plan_builder b = {.job = &t->job, .diags = &m->diags, .plan = &m->plan};
    if (!sled_resolve(&b))
        return false;
    sled_plan_routing(&b);
    sled_plan_flip_stop(&b);
    sled_list_parts(&b);
    sled_list_flip_parts(&b);
    sled_place_screws(&b);
    sled_check(&b);
    sled_write_steps(&b);
    sled_write_cautions(&b);
    return true;
}

static void free_made(struct made *m)
{
    pool_free(&m->plan.pool);
    diags_free(&m->diags);
}

/* The step whose `what` is this key or a variant of it; -1: none. */
static int find_step(const struct plan *p, const char *key)
{
    for (size_t i = 0; i < p->n_steps; i++)
        if (strncmp(p->steps[i].what.key, key, strlen(key)) == 0)
            return (int)i;
    return -1;
}

static double number_of(const struct saying *s, const char *name)
{
    for (int i = 0; i < SAY_MOST_ARGS && s->arg[i].name; i++)
        if (strcmp(s->arg[i].name, name) == 0)
            return s->arg[i].number;
    fail_msg("%s has no {%s}", s->key, name);
    return NAN;
}

/* The variants: one for every turn that steps and cautions take. */
static void single_layer(struct test_job *t)
{
    contract_job(t);
    t->job.jig.as.sled.reference_fence.layers.count = 1;
}

static void single_reference_layered_other(struct test_job *t)
{
    contract_job(t);
    t->job.jig.as.sled.reference_fence.layers.count = 1;
    t->job.jig.as.sled.other_fence.layers.count = 2;
}

static void no_layers(struct test_job *t)
{
    contract_job(t);
    t->job.jig.as.sled.reference_fence.layers.count = 1;
    t->job.jig.as.sled.guard_layers.count = 1;
}

static void rebate(struct test_job *t)
{
    contract_job(t);
    t->heights[0] = 100;
    t->heights[1] = 86;
    t->job.jig.as.sled.reference_fence.layers.heights = t->heights;
    t->job.saw.slots.width_widest = given(19.15);
}

static void no_air(struct test_job *t)
{
    contract_job(t);
    t->job.air = (struct job_air){.given = false};
    t->job.saw.knife.kind = KNIFE_NONE;
    t->job.jig.as.sled.other_fence.from_edge = given(20);
}

static void narrow_runner(struct test_job *t)
{
    contract_job(t);
    t->job.jig.as.sled.runner_width = given(18.70);
}

static void wide_runner(struct test_job *t)
{
    contract_job(t);
    t->job.jig.as.sled.runner_width = given(19.06);
}

static void year_too_wide(struct test_job *t)
{
    contract_job(t);
    t->stock[2].rings = RINGS_FLAT;
    t->job.air.dampest.humidity = given(85);
}

static void mdf_base(struct test_job *t)
{
    contract_job(t);
    t->stock[0].material.form = MATERIAL_MDF;
    t->stock[0].material.movement = 5e-4;
}

static void other_material(struct test_job *t)
{
    contract_job(t);
    t->stock[0].material.form = MATERIAL_OTHER;
}

static void one_slot_uneven(struct test_job *t)
{
    least_job(t);
    t->job.saw.slots.width_widest = given(16.25);
}

static void overhanging_start(struct test_job *t)
{
    contract_job_far(t);
    t->job.saw.table.front_edge = given(330);
    t->job.saw.table.depth = given(700);
}

static void least_inch(struct test_job *t)
{
    least_job(t);
    t->job.units = UNITS_IN;
}

static void slot_in_strip(struct test_job *t)
{
    contract_job(t);
    t->job.saw.slots.left = given(43);
}

static void stop_in_guide_slot(struct test_job *t)
{
    contract_job(t);
    t->job.jig.as.sled.travel_stop_in = SIDE_LEFT;
}

static void one_slot_in_strip(struct test_job *t)
{
    contract_job(t);
    t->job.saw.slots.left = given(43);
    t->job.saw.slots.right = left_out();
    t->job.jig.as.sled.travel_stop_in_given = false;
}

static void slots_to_make(struct test_job *t)
{
    contract_job(t);
    t->job.saw.slots_to_make = (struct job_slots_to_make){
        .given = true, .width = given(19.1), .depth = given(9.6), .bit = given(12), .base_diameter = given(150),
        .step = left_out()};
}

static void one_slot_to_make(struct test_job *t)
{
    slots_to_make(t);
    t->job.saw.slots.right = left_out();
    t->job.jig.as.sled.travel_stop_in_given = false;
}

static void far_off_the_edge(struct test_job *t)
{
    contract_job_far(t);
    t->job.jig.as.sled.has_stop = true;
    t->job.jig.as.sled.reference_fence.from_edge = given(20);
}

static void far_and_higher(struct test_job *t)
{
    contract_job_far(t);
    t->job.jig.as.sled.reference_fence.height = given(120);
}

static void far_with_a_thin_guard(struct test_job *t)
{
    contract_job_far(t);
    t->job.jig.as.sled.guard_layers.count = 1;
}

static void low_guard(struct test_job *t)
{
    contract_job(t);
    t->job.jig.as.sled.guard_height = given(50);
}

static void long_small_parts(struct test_job *t)
{
    contract_job(t);
    t->job.jig.as.sled.guard_width = given(200);
    t->job.jig.as.sled.travel_stop_length = given(150);
    t->job.jig.as.sled.has_stop = false;
}

static void short_other_fence(struct test_job *t)
{
    contract_job(t);
    t->job.jig.as.sled.other_fence.length = given(90);
    t->job.saw.knife.kind = KNIFE_SPLITTER;
}

static const struct variant {
    const char *name;
    void (*fill)(struct test_job *);
} variants[] = {
    {"contract", contract_job},
    {"far", contract_job_far},
    {"least", least_job},
    {"least in inches", least_inch},
    {"single layer", single_layer},
    {"rebate", rebate},
    {"no air, no knife", no_air},
    {"narrow runner", narrow_runner},
    {"wide runner", wide_runner},
    {"year too wide", year_too_wide},
    {"MDF base", mdf_base},
    {"other material", other_material},
    {"one slot, uneven", one_slot_uneven},
    {"overhanging", overhanging_start},
    {"slot in the strip", slot_in_strip},
    {"short other fence", short_other_fence},
    {"reference of one layer, other of two", single_reference_layered_other},
    {"no layers", no_layers},
    {"stop in the guide's slot", stop_in_guide_slot},
    {"one slot, in the strip", one_slot_in_strip},
    {"slots to make", slots_to_make},
    {"one slot to make", one_slot_to_make},
    {"far, off the edge", far_off_the_edge},
    {"far, the higher", far_and_higher},
    {"far, a thin guard", far_with_a_thin_guard},
    {"a low guard", low_guard},
    {"no short parts", long_small_parts},
};
enum { VARIANTS = sizeof variants / sizeof *variants };

static void fill_job(struct test_job *t, const struct variant *v)
{
    v->fill(t);
    t->job.number.s = "TS-07";
    t->job.tolerances.slot = (struct job_limit){{.v = 0.08}, {.v = 200}};
}

static void for_every_saying(const struct plan *p, void (*see)(const struct saying *, void *), void *data)
{
    for (size_t i = 0; i < p->n_steps; i++) {
        const struct plan_step *s = &p->steps[i];
        struct saying title = {.key = s->stage_title};
        see(&title, data);
        see(&s->what, data);
        see(&s->know, data);
        see(&s->why, data);
        if (s->caution.key)
            see(&s->caution, data);
    }
    for (size_t i = 0; i < p->n_cautions; i++) {
        see(&p->cautions[i].text, data);
        see(&p->cautions[i].title, data);
    }
    for (size_t i = 0; i < p->n_assumed; i++)
        if (strcmp(p->assumed[i].what.key, "assumed.screws") == 0)
            see(&p->assumed[i].what, data);
    for (size_t i = 0; i < p->n_holes; i++)
        see(&p->holes[i].what, data);
    for (size_t i = 0; i < p->n_checks; i++)
        if (p->checks[i].id == CHECK_SCREW_FREE_STRIP || p->checks[i].id == CHECK_SCREW_LENGTH) {
            see(&p->checks[i].why, data);
            if (p->checks[i].remedy.key)
                see(&p->checks[i].remedy, data);
        }
}

static bool names_arg(const char *text, const char *name)
{
    size_t n = strlen(name);
    for (const char *p = text; (p = strchr(p, '{')); p++)
        if (strncmp(p + 1, name, n) == 0 && (p[n + 1] == '}' || (p[n + 1] == '#' && p[n + 2] == '}')))
            return true;
    return false;
}

/* Every {name} has its argument and the other way round; words of arguments are there; nothing empty or not a number.
 */
static void check_words(const struct saying *s, void *unused)
{
    (void)unused;
    const char *text = words_find(s->key);
    if (!text)
        fail_msg("no words for %s", s->key);
    for (int i = 0; i < SAY_MOST_ARGS && s->arg[i].name; i++) {
        const struct say_arg *a = &s->arg[i];
        if (!names_arg(text, a->name))
            fail_msg("%s does not use {%s}", s->key, a->name);
        if (a->kind == SAY_WORD   ? !words_find(a->text)
            : a->kind == SAY_TEXT ? !a->text || !*a->text
                                  : !isfinite(a->number))
            fail_msg("%s: {%s} says nothing", s->key, a->name);
        if (a->kind >= SAY_SIZE && a->kind <= SAY_UNCERTAINTY && a->number < -1e-9)
            fail_msg("%s: {%s} is %g", s->key, a->name, a->number);
    }
    for (const char *p = text; (p = strchr(p, '{')); p++) {
        bool found = false;
        for (int i = 0; i < SAY_MOST_ARGS && s->arg[i].name; i++) {
            size_t n = strlen(s->arg[i].name);
            found = found || (strncmp(p + 1, s->arg[i].name, n) == 0 && (p[n + 1] == '}' || p[n + 1] == '#'));
        }
        if (!found)
            fail_msg("%s lacks an argument at %.12s", s->key, p);
    }
}

/* A sentence on a sheet begins with a capital (or a letter of a part, or a number) and ends with a stop. */
static void check_sentence(const struct saying *s, void *data)
{
    struct text t = {0};
    words_put_plain(&t, s, *(const enum units *)data);
    const char *said = text_string(&t);
    if (strchr(said, '?'))
        fail_msg("%s: %s", s->key, said);
    if (strncmp(s->key, "step.", 5) == 0 && (islower((unsigned char)said[0]) || said[t.size - 1] != '.'))
        fail_msg("%s: %s", s->key, said);
    text_free(&t);
}

static void test_words_every_variant(void **state)
{
    (void)state;
    static struct test_job t;
    for (size_t i = 0; i < VARIANTS; i++) {
        struct made m = {0};
        fill_job(&t, &variants[i]);
        if (!make_plan(&t, &m))
            fail_msg("no sled: %s", variants[i].name);
        for_every_saying(&m.plan, check_words, NULL);
        for_every_saying(&m.plan, check_sentence, &t.job.units);
        free_made(&m);
    }
}

static const char *const keys[] = {
#define WORD(key, text) key,
#include "words/steps.inc"
#undef WORD
};
enum { KEYS = sizeof keys / sizeof *keys };

static void mark_key(const struct saying *s, void *data)
{
    bool *seen = data;
    for (size_t k = 0; k < KEYS; k++) {
        seen[k] = seen[k] || strcmp(keys[k], s->key) == 0;
        for (int i = 0; i < SAY_MOST_ARGS && s->arg[i].name; i++)
            if (s->arg[i].kind == SAY_WORD)
                seen[k] = seen[k] || strcmp(keys[k], s->arg[i].text) == 0;
    }
}

/* Said only of sleds that no variant here is: a runner that no screw suits, a fence too low for any, a stop on the
   outfeed, a last screw alone, no guard. */
static const char *const rare[] = {
    "check.screw_length.buy",
    "check.screw_length.glue_only",
    "check.screw_length.no_screw",
    "check.screw_length.why.none",
    "check.screw_length.why.fence",
    "check.screw_free_strip.remedy",
    "check.screw_free_strip.remedy.pivot",
    "check.screw_free_strip.remedy.pivot.job",
    "check.screw_free_strip.remedy.moving",
    "check.screw_free_strip.remedy.moving.job",
    "caution.no_guard",
    "caution.no_guard.title",
};

static bool is_rare(const char *key)
{
    for (size_t i = 0; i < sizeof rare / sizeof *rare; i++)
        if (strcmp(rare[i], key) == 0)
            return true;
    return false;
}

/* Turns that a sled takes only on odd saws are set in its resolved sizes. */
static void mark_odd_sleds(bool *seen)
{
    static struct test_job t;
    struct made m = {0};
    struct plan_builder b = {.job = &t.job, .diags = &m.diags, .plan = &m.plan};
    fill_job(&t, &variants[0]);
    assert_true(sled_resolve(&b));
    struct plan_sled *s = &m.plan.sled;
    s->runner[SIDE_RIGHT].length = 580; /* not cut for the stop */
    sled_list_parts(&b);
    s->stop_in_slot = false;
    s->travel.edge_stop = 60; /* the first kerf ends with the base over the table's edge */
    s->travel.edge_start = -400;
    s->runner[SIDE_LEFT].v0 = s->runner[SIDE_RIGHT].v0 = 10;
    s->plane_low = s->plane_high = s->plane_to = NAN;
    t.job.jig.as.sled.has_stop = true;
    sled_plan_flip_stop(&b);
    sled_list_flip_parts(&b);
    s->pivot_x = -60; /* so near that neither kerf screw fits beside pivot and gauge */
    s->moving_x = 60;
    s->reference.x0 = -100;
    s->reference.length = 200;
    sled_place_screws(&b);
    sled_write_steps(&b);
    for_every_saying(&m.plan, check_words, NULL);
    for_every_saying(&m.plan, mark_key, seen);
    s->runner[SIDE_RIGHT].present = false;
    for (size_t i = 0; i < m.plan.n_parts; i++) /* a rebate: no cheek */
        if (m.plan.parts[i].kind == PART_FLIP_CHEEK)
            m.plan.parts[i].kind = PART_LISTED;
    m.plan.n_steps = m.plan.n_holes = m.plan.n_checks = 0;
    s->moving_x = 100 - 40; /* no room outward */
    sled_place_screws(&b);
    sled_write_steps(&b);
    for_every_saying(&m.plan, mark_key, seen);
    free_made(&m);
}

static void test_words_none_unused(void **state)
{
    (void)state;
    static struct test_job t;
    static bool seen[KEYS];
    int unused = 0;
    for (size_t i = 0; i < VARIANTS; i++) {
        struct made m = {0};
        fill_job(&t, &variants[i]);
        make_plan(&t, &m);
        for_every_saying(&m.plan, mark_key, seen);
        free_made(&m);
    }
    mark_odd_sleds(seen);
    for (size_t k = 0; k < KEYS; k++)
        if (!seen[k] && !is_rare(keys[k])) {
            print_error("never said: %s\n", keys[k]);
            unused++;
        }
    assert_int_equal(unused, 0);
}

static bool has_letter(const char *letters, const struct plan *p, enum part_kind kind)
{
    const struct plan_part *part = build_find_part(p, kind);
    return part && strchr(letters, part->letter[0]);
}

static bool speaks_of_glue(const struct saying *s)
{
    for (int i = 0; i < SAY_MOST_ARGS && s->arg[i].name; i++)
        if (s->arg[i].kind == SAY_WORD && strncmp(s->arg[i].text, "glue.", 5) == 0)
            return true;
    return false;
}

static void check_before(const struct plan *p, const char *first, const char *then)
{
    int a = find_step(p, first), b = find_step(p, then);
    if (a < 0 || b < 0 || a >= b)
        fail_msg("%s (%d) does not come before %s (%d)", first, a, then, b);
}

/* ---- the state of saw and sled, as the sentences leave it ---- */

enum event {
    UNPLUGS,
    PLUGS,
    WINDS_DOWN,
    RAISES,
    LIFTS_OFF,
    PUTS_ON,
    DRAWS_CLEAR,
    SLIDES,
    CUTS,
    TESTS,
    STARTS,
    SETS_STOP,
    WAXES,
    STANDS_RUNNERS,
    LAYS_BASE,
    DRILLS_BASE,
    PAINTS,
    WORKS_BELOW,
    HOOD_OFF,
    HOOD_ON,
    SAWS_PARTS,
    LOOKS,
    EVENTS
};

/* The same words for the same thing everywhere: what a maker reads is what is followed here. */
static const struct phrase {
    const char *words;
    enum event event;
} phrases[] = {
    {"unplug the saw", UNPLUGS},
    {"plug in", PLUGS},
    {"wind the blade down", WINDS_DOWN},
    {"wind the blade up", RAISES},
    {"set the blade", RAISES},
    {"lift the sled off", LIFTS_OFF},
    {"sled lifted off", LIFTS_OFF},
    {"put the sled back on the saw", PUTS_ON},
    {"draw the sled", DRAWS_CLEAR},
    {"draw it clear", DRAWS_CLEAR},
    {"slide it by hand", SLIDES},
    {"push the sled slowly", CUTS},
    {"push the empty sled slowly", CUTS},
    {"when the sled comes off", EVENTS},
    {"five-cut test", TESTS},
    {"start the saw", STARTS},
    {"near face", SETS_STOP},
    {"wax the walls", WAXES},
    {"stand guide runner", STANDS_RUNNERS},
    {"lay base a on ", LAYS_BASE},
    {"places through base", DRILLS_BASE},
    {"hatch the strip", PAINTS},
    {"from below drill", WORKS_BELOW},
    {"from below take out", WORKS_BELOW},
    {"up through the base", WORKS_BELOW},
    {"hood off", HOOD_OFF},
    {"take the hood", HOOD_OFF},
    {"put the hood back on", HOOD_ON},
    {"saw the parts", SAWS_PARTS},
    {"look behind", LOOKS},
};

struct shop {
    bool plugged, up, on, clear, set_unplugged, waxed, drilled, painted, hood_off;
    int kerfs, stops, cuts;
    bool seen[EVENTS];
    const char *step;
};

static void must(const struct shop *shop, bool holds, const char *rule)
{
    if (!holds)
        fail_msg("%s: %s", shop->step, rule);
}

/* Nothing meets a tooth in this cut that should not. */
static void check_cut(const struct shop *shop)
{
    must(shop, shop->plugged && shop->up && shop->on, "a cut needs power, a blade and a sled");
    must(shop, shop->clear, "a cut begins clear of the blade");
    must(shop, shop->set_unplugged, "the blade is set and looked at with the plug out");
    must(shop, shop->painted, "the strip for no hands is marked before the first cut");
    must(shop, shop->hood_off, "the hood is off");
    must(shop, shop->stops > (shop->kerfs > 0), "each kerf has a stop of its own");
}

static void follow(struct shop *shop, enum event event)
{
    bool safe = !shop->plugged && !shop->up, may_slide = !shop->plugged && (!shop->up || shop->kerfs >= 2);
    if (event < EVENTS)
        shop->seen[event] = true;
    switch (event) {
    case UNPLUGS:
        shop->plugged = false;
        break;
    case PLUGS:
        must(shop, !shop->on || (shop->clear && shop->up), "no power while the sled stands over the blade");
        shop->plugged = true;
        break;
    case WINDS_DOWN:
        must(shop, !shop->plugged, "the blade is wound down with the plug out");
        shop->up = false;
        break;
    case RAISES:
        must(shop, !shop->plugged, "the blade is set with the plug out");
        must(shop, !shop->on || shop->clear, "no blade is raised under the base");
        shop->up = shop->set_unplugged = true;
        break;
    case LIFTS_OFF:
        must(shop, !shop->on || safe, "the sled is lifted off with blade down and plug out");
        shop->on = shop->clear = false;
        break;
    case PUTS_ON:
        must(shop, safe && shop->hood_off, "the sled is put on with blade down, plug out and hood off");
        shop->on = true;
        shop->clear = false;
        break;
    case DRAWS_CLEAR:
    case SLIDES:
        must(shop, shop->on && may_slide, "the sled is slid by hand with the plug out, over no blade that is up");
        shop->clear = event == DRAWS_CLEAR;
        break;
    case STARTS:
        must(shop, shop->plugged && shop->clear, "the saw starts with the sled clear of the blade");
        break;
    case CUTS:
        check_cut(shop);
        shop->kerfs++;
        shop->clear = false;
        break;
    case TESTS:
        check_cut(shop);
        must(shop, shop->kerfs == 2, "work is cut when the whole kerf is there");
        shop->clear = false;
        break;
    case SETS_STOP:
        must(shop, safe && !shop->on, "the stop is set with the sled off, blade down and plug out");
        shop->stops++;
        break;
    case WAXES:
        must(shop, safe, "hands over the slot");
        shop->waxed = true;
        break;
    case STANDS_RUNNERS:
        must(shop, safe && shop->waxed, "wax goes into the slot before the runners");
        break;
    case LAYS_BASE:
        must(shop, safe && shop->drilled && shop->hood_off, "the base is drilled before it is glued over a blade that is down, the hood off");
        shop->on = true;
        break;
    case DRILLS_BASE:
        must(shop, !shop->on, "the base is drilled on the bench");
        shop->drilled = true;
        break;
    case PAINTS:
        shop->painted = true;
        break;
    case WORKS_BELOW:
        must(shop, !shop->on && shop->drilled, "nobody works from below while the sled is on the saw");
        break;
    case HOOD_OFF:
        must(shop, !shop->plugged, "the hood is taken off with the plug out");
        shop->hood_off = true;
        break;
    case HOOD_ON:
        must(shop, !shop->plugged, "the hood is put on with the plug out");
        shop->hood_off = false;
        break;
    case SAWS_PARTS:
        must(shop, shop->plugged && shop->up && !shop->hood_off, "parts are sawn under the hood, the blade set before the plug is in");
        break;
    case LOOKS:
        must(shop, !shop->plugged && shop->kerfs == 2, "nobody looks behind the guard with the plug in");
        break;
    case EVENTS:
        break;
    }
}

static bool begins_with(const char *text, const char *words)
{
    for (; *words; words++, text++)
        if (tolower((unsigned char)*text) != *words)
            return false;
    return true;
}

/* The step is followed as it is printed, from its first word to its last. */
static void follow_step(struct shop *shop, const struct plan_step *step)
{
    struct text t = {0};
    bool cut = false;
    words_put_plain(&t, &step->what, UNITS_MM);
    shop->step = step->what.key;
    const char *followed = text_string(&t); /* up to here */
    for (const char *at = followed; *at; at++) {
        must(shop, !begins_with(at, "turn the sled") && !begins_with(at, "sled over"), "the sled is never turned over");
        for (size_t i = 0; i < sizeof phrases / sizeof *phrases; i++)
            if (begins_with(at, phrases[i].words)) {
                follow(shop, phrases[i].event);
                followed = at + strlen(phrases[i].words);
                cut = cut || phrases[i].event == CUTS || phrases[i].event == TESTS || phrases[i].event == SAWS_PARTS;
            }
        if (begins_with(at, "on the sled"))
            followed = at + strlen("on the sled");
        must(shop, !begins_with(at, "sled") || at < followed, "what is done with the sled is said in words known here");
    }
    if (cut) {
        must(shop, !shop->plugged, "a step that cuts ends with the plug out");
        must(shop, step->signal >= SIGNAL_WARNING, "a cut is warned of");
    }
    text_free(&t);
}

/* Steps are followed twice: the test asks for a move, and it does not. */
static void check_shop(const struct plan *p)
{
    for (int moved = 0; moved < 2; moved++) {
        struct shop shop = {.plugged = true, .up = true};
        for (size_t i = 0; i < p->n_steps; i++)
            if (moved || strncmp(p->steps[i].what.key, "step.move", 9) != 0)
                follow_step(&shop, &p->steps[i]);
        for (int e = 0; e < EVENTS; e++)
            if (!shop.seen[e])
                fail_msg("event %d happens in no step", e);
        assert_false(shop.plugged || shop.up);
    }
}

/* Nothing that must still move is glued; nothing is cut without stop; the guard stands before the blade can come out;
   the strips that prove the sled are cut when the last screw is in. */
static void check_order(const struct plan *p)
{
    static const char *const before[][2] = {
        {"step.saw_read", "step.cut_parts"},
        {"step.glue_layers", "step.guard"},
        {"step.guard", "step.rest_kerf"},
        {"step.guard", "step.pivot"},
        {"step.base_mark", "step.base_drill"},
        {"step.base_drill", "step.spacers"},
        {"step.spacers", "step.base_glue"},
        {"step.base_glue", "step.slide"},
        {"step.slide", "step.first_kerf"},
        {"step.other_fence", "step.first_kerf"},
        {"step.first_stop", "step.first_blade"},
        {"step.first_blade", "step.first_kerf"},
        {"step.first_kerf", "step.square"},
        {"step.pivot", "step.square"},
        {"step.square", "step.rest_kerf"},
        {"step.stop", "step.rest_blade"},
        {"step.rest_blade", "step.rest_kerf"},
        {"step.rest_kerf", "step.look"},
        {"step.look", "step.test"},
        {"step.test", "step.move_block"},
        {"step.move_block", "step.move.what"},
        {"step.move.what", "step.proof"},
        {"step.proof", "step.finish"},
    };
    check_shop(p);
    for (size_t i = 0; i < sizeof before / sizeof *before; i++)
        check_before(p, before[i][0], before[i][1]);
    int dangers = 0, stages = 0;
    for (size_t i = 0; i < p->n_steps; i++) {
        const struct plan_step *s = &p->steps[i];
        bool glue = speaks_of_glue(&s->what);
        assert_false(glue && has_letter(s->parts, p, PART_BASE) && has_letter(s->parts, p, PART_REFERENCE_FENCE));
        assert_false(glue && has_letter(s->parts, p, PART_BASE) && has_letter(s->parts, p, PART_EXIT_GUARD));
        assert_true((s->signal != SIGNAL_NONE) == (s->caution.key != NULL));
        assert_true(s->what.key && s->know.key && s->why.key);
        dangers += s->signal == SIGNAL_DANGER;
        if (i == 0 || p->steps[i - 1].stage != s->stage) {
            assert_true(i == 0 || s->stage == p->steps[i - 1].stage + 1);
            stages++;
        } else {
            assert_ptr_equal(s->stage_title, p->steps[i - 1].stage_title);
        }
    }
    assert_int_equal(dangers, 1);
    assert_in_range(stages, 6, 7);
    assert_true(p->n_steps <= 37);
    int last = find_step(p, "step.last_screws");
    assert_true(last < find_step(p, "step.proof"));
}

static void test_order_every_variant(void **state)
{
    (void)state;
    static struct test_job t;
    for (size_t i = 0; i < VARIANTS; i++) {
        struct made m = {0};
        fill_job(&t, &variants[i]);
        assert_true(make_plan(&t, &m));
        check_order(&m.plan);
        free_made(&m);
    }
}

static void test_steps_random_saws(void **state)
{
    (void)state;
    static struct test_job t;
    struct random r = {.state = 11};
    int sleds = 0;
    for (int i = 0; i < 40; i++) {
        struct made m = {0};
        random_saw(&r, &t);
        t.job.number.s = "TS-07";
        t.job.units = i % 3 ? UNITS_MM : UNITS_IN;
        if (i % 2)
            t.job.jig.as.sled.reference_fence.side = FENCE_FAR;
        if (make_plan(&t, &m)) {
            sleds++;
            for_every_saying(&m.plan, check_words, NULL);
            for_every_saying(&m.plan, check_sentence, &t.job.units);
            check_order(&m.plan);
        }
        free_made(&m);
    }
    assert_true(sleds > 20);
}

/* Contract's job. Near edge at the start -163.5 and on the stop +351.6: travel 515.1, a fifth is 103.0. */
static void test_sled_write_steps_contract_figures(void **state)
{
    (void)state;
    static struct test_job t;
    struct made m = {0};
    fill_job(&t, &variants[0]);
    assert_true(make_plan(&t, &m));
    const struct plan *p = &m.plan;
    const struct plan_step *first = &p->steps[find_step(p, "step.first_stop")],
                           *stop = &p->steps[find_step(p, "step.stop")];
    assert_within(number_of(&first->know, "edge"), 351.6 - 103.0, 0.1);
    assert_within(number_of(&first->why, "left"), 103.0, 0.1);
    assert_within(number_of(&first->what, "short"), 8, 1e-9); /* 1 less than the block's 9 */
    assert_within(number_of(&stop->what, "y") - number_of(&first->what, "y"), 103.0, 0.1);
    assert_within(number_of(&stop->know, "face"), 477.56, 0.01);  /* y_stop of the worked plan */
    assert_within(number_of(&stop->what, "y"), 351.6 + 388, 0.6); /* the free runner's end, cut to 388 */
    const struct plan_step *blade = &p->steps[find_step(p, "step.first_blade")];
    assert_within(number_of(&blade->what, "height"), 17, 1e-9); /* 12 + 5 */
    assert_within(number_of(&blade->what, "parked"), 203, 0.6); /* the sheet's -203 */
    const struct plan_step *kerf = &p->steps[find_step(p, "step.first_kerf")];
    /* half the chord 5 below the top of a blade of radius 127: sqrt(5 x 249) = 35.28; 500 - 35.28 - 248.6 = 216.1 */
    assert_within(number_of(&kerf->know, "end"), 216.1, 0.1);
    /* 17 below the top: sqrt(17 x 237) = 63.47; 500 - 63.47 - 248.6 = 187.9 */
    assert_within(number_of(&kerf->know, "below"), 187.9, 0.1);
    assert_within(number_of(&p->steps[find_step(p, "step.square")].know, "reach"), 216.1 - 126, 0.1);
    const struct plan_step *rest = &p->steps[find_step(p, "step.rest_blade")];
    assert_within(number_of(&rest->what, "height"), 77, 1e-9); /* 12 + 60 + 5 */
    assert_within(number_of(&rest->know, "wood"), 35, 1e-9);   /* fences to 12 + 100 */
    assert_within(number_of(&p->steps[find_step(p, "step.spacers")].what, "spacer"), 1.3, 1e-9); /* 9.6 - 9.0 + 0.7 */
    /* from the base's edge at -400 to the slot's left wall at -142 - 19.1 / 2 */
    assert_within(number_of(&p->steps[find_step(p, "step.base_glue")].what, "wall"), 248.45, 1e-9);
    assert_within(number_of(&p->steps[find_step(p, "step.runner_screws")].what, "depth"), 20, 1e-9); /* 4 x 20 mm */
    assert_within(number_of(&p->steps[find_step(p, "step.look")].know, "left"), 30.46, 0.01);    /* 90 - 59.54 */
    const struct plan_step *runner = &p->steps[find_step(p, "step.plane_runner")];
    assert_within(number_of(&runner->what, "to"), 19.00, 1e-9); /* lies inside, left as it is */
    assert_within(number_of(&runner->what, "low"), 18.876, 0.001);
    assert_within(number_of(&runner->what, "high"), 19.006, 0.001);
    const struct plan_step *free = &p->steps[find_step(p, "step.free_runner")];
    assert_within(number_of(&free->what, "width"), 18.85, 1e-9);
    assert_within(number_of(&free->what, "length"), 388, 0.6);
    assert_within(number_of(&free->what, "stop_width"), 19.0, 1e-9); /* 0.1 less than the slot */
    assert_within(number_of(&p->steps[find_step(p, "step.move.what")].what, "at"), 290, 1e-9); /* 280 and 10 */
    free_made(&m);
}

static void test_sled_write_steps_narrow_runner_is_not_planed_to_more(void **state)
{
    (void)state;
    static struct test_job t;
    struct made m = {0};
    narrow_runner(&t);
    t.job.number.s = "TS-07";
    assert_true(make_plan(&t, &m));
    const struct saying *what = &m.plan.steps[find_step(&m.plan, "step.plane_runner")].what;
    assert_string_equal(what->key, "step.plane_runner.what.narrow");
    assert_within(number_of(what, "width"), 18.70, 1e-9);
    free_made(&m);
}

static const char *word_of(const struct saying *s, const char *name)
{
    for (int i = 0; i < SAY_MOST_ARGS && s->arg[i].name; i++)
        if (strcmp(s->arg[i].name, name) == 0)
            return s->arg[i].text;
    return "";
}

/* The parts sawn shorter than 150: the guard’s layers of 100, the flip stop’s of 80 and 115; not the stop, sawn 300 long. */
static void test_sled_write_steps_short_parts_are_named(void **state)
{
    (void)state;
    static struct test_job t;
    struct made m = {0};
    fill_job(&t, &variants[0]);
    assert_true(make_plan(&t, &m));
    const struct saying *what = &m.plan.steps[find_step(&m.plan, "step.cut_parts")].what;
    assert_string_equal(word_of(what, "small"), "D, H, I, J");
    assert_string_equal(word_of(what, "planed"), "E, F, G");
    free_made(&m);
}

/* Both places of the stop, as printed, are as far apart as the step between them says. */
static void test_sled_write_steps_first_stop_stands_whole_steps_short(void **state)
{
    static void (*const fill[])(struct test_job *) = {contract_job, contract_job_far, least_job, least_inch};
    (void)state;
    static struct test_job t;
    for (size_t i = 0; i < sizeof fill / sizeof *fill; i++) {
        struct made m = {0};
        fill[i](&t);
        t.job.number.s = "TS-07";
        assert_true(make_plan(&t, &m));
        const struct plan_step *first = &m.plan.steps[find_step(&m.plan, "step.first_stop")];
        double left = number_of(&first->why, "left"), step = t.job.units == UNITS_IN ? 25.4 / 64 : 0.5; /* as sizes are printed */
        assert_within(number_of(&m.plan.steps[find_step(&m.plan, "step.stop")].what, "y") - number_of(&first->what, "y"), left, 1e-9);
        assert_within(left / step, round(left / step), 1e-6);
        free_made(&m);
    }
}

/* The hole of a move: outward of 280 there is room to 320, outward of 315 is none. A block at the outer face: leaves go
   in first toward that side. */
static void test_sled_write_steps_move(void **state)
{
    (void)state;
    static struct test_job t;
    for (int i = 0; i < 4; i++) {
        struct made m = {0};
        fill_job(&t, &variants[i / 2]);
        t.job.jig.as.sled.reference_fence.moving.from_blade = given(i % 2 ? 315 : 280);
        assert_true(make_plan(&t, &m));
        const struct plan *p = &m.plan;
        const struct saying *block = &p->steps[find_step(p, "step.move_block")].what,
                            *move = &p->steps[find_step(p, "step.move.what")].what;
        assert_string_equal(word_of(block, "first"), i / 2 ? "way.away" : "way.toward");
        assert_string_equal(word_of(move, "then"), i / 2 ? "way.toward" : "way.away");
        assert_within(number_of(block, "at"), i % 2 ? 315 : 280, 1e-9);
        assert_within(number_of(move, "at"), i % 2 ? 305 : 290, 1e-9);
        free_made(&m);
    }
}

/* A splitter stays up: it comes off before the base lies over it, and is on again when the kerf is looked at. */
static void test_sled_write_steps_splitter(void **state)
{
    (void)state;
    static struct test_job t;
    for (int i = 0; i < 2; i++) {
        struct made m = {0};
        fill_job(&t, &variants[0]);
        t.job.saw.knife.kind = i ? KNIFE_SPLITTER : KNIFE_RIVING;
        assert_true(make_plan(&t, &m));
        const struct plan *p = &m.plan;
        assert_string_equal(p->steps[find_step(p, "step.spacers")].caution.key,
                            i ? "step.spacers.caution.splitter" : "step.spacers.caution");
        assert_string_equal(p->steps[find_step(p, "step.first_blade")].know.key,
                            i ? "step.first_blade.know.no_knife" : "step.first_blade.know");
        free_made(&m);
    }
}

/* Worked plan: the blade comes 59.54 past a fence of two layers, 77.54 past one of 18; with 25 behind it 102.54. */
static void test_sled_write_steps_guard_too_thin(void **state)
{
    (void)state;
    static struct test_job t;
    struct made m = {0};
    no_layers(&t);
    t.job.number.s = "TS-07";
    assert_true(make_plan(&t, &m));
    const struct plan_step *guard = &m.plan.steps[find_step(&m.plan, "step.guard")];
    assert_string_equal(guard->caution.key, "step.guard.caution.short");
    assert_within(number_of(&guard->caution, "need"), 102.54, 0.01);
    assert_string_equal(m.plan.steps[find_step(&m.plan, "step.look")].know.key, "step.look.know.short");
    free_made(&m);
}

/* A guard that fails its check: the steps begin with a hold, and none claims that the blade is covered. */
static void test_sled_write_steps_hold_where_a_check_fails(void **state)
{
    static void (*const fill[])(struct test_job *) = {no_layers, far_with_a_thin_guard, low_guard, contract_job, contract_job_far};
    (void)state;
    static struct test_job t;
    for (size_t i = 0; i < sizeof fill / sizeof *fill; i++) {
        struct made m = {0};
        bool fails = false;
        fill[i](&t);
        t.job.number.s = "TS-07";
        assert_true(make_plan(&t, &m));
        for (size_t k = 0; k < m.plan.n_checks; k++)
            fails = fails || m.plan.checks[k].verdict == VERDICT_FAIL;
        assert_true(fails == (i < 3));
        assert_true((strncmp(m.plan.steps[0].what.key, "step.hold", 9) == 0) == fails);
        for (size_t k = 0; k < m.plan.n_steps; k++) {
            const struct saying *said[] = {&m.plan.steps[k].what, &m.plan.steps[k].know, &m.plan.steps[k].why, &m.plan.steps[k].caution};
            for (size_t s = 0; s < 4; s++) {
                struct text text = {0};
                if (said[s]->key)
                    words_put_plain(&text, said[s], UNITS_MM);
                const char *claim = strstr(text_string(&text), "covers the blade;");
                assert_true(!fails || (!claim && !strstr(text_string(&text), "No tooth shows") && !strstr(text_string(&text), ", inside")));
                text_free(&text);
            }
        }
        free_made(&m);
    }
}

static int count_word(const struct plan *p, const char *key)
{
    int n = 0;
    for (size_t i = 0; i < p->n_steps; i++)
        for (int k = 0; k < SAY_MOST_ARGS && p->steps[i].what.arg[k].name; k++)
            n += p->steps[i].what.arg[k].kind == SAY_WORD && strcmp(p->steps[i].what.arg[k].text, key) == 0;
    return n;
}

/* Five joints are glued: layers, guard, base, other fence, body of the flip stop. An MDF base asks for two thin coats. */
static void test_sled_write_steps_glue_in_full_once(void **state)
{
    (void)state;
    static struct test_job t;
    for (int mdf = 0; mdf < 2; mdf++) {
        struct made m = {0};
        (mdf ? mdf_base : contract_job)(&t);
        t.job.number.s = "TS-07";
        assert_true(make_plan(&t, &m));
        assert_int_equal(count_word(&m.plan, "glue.pva"), 1);
        assert_int_equal(count_word(&m.plan, "glue.pva.again"), mdf ? 2 : 4);
        assert_int_equal(count_word(&m.plan, "glue.mdf"), mdf);
        assert_int_equal(count_word(&m.plan, "glue.mdf.again"), mdf);
        free_made(&m);
    }
}

/* A far fence: the guard on the near fence, a cover, its own words of danger. */
static void test_sled_write_steps_far_fence(void **state)
{
    (void)state;
    static struct test_job t;
    struct made m = {0};
    fill_job(&t, &variants[1]);
    assert_true(make_plan(&t, &m));
    const struct plan *p = &m.plan;
    check_before(p, "step.cover", "step.rest_kerf");
    const struct plan_step *guard = &p->steps[find_step(p, "step.guard")];
    assert_true(has_letter(guard->parts, p, PART_OTHER_FENCE));
    assert_false(has_letter(guard->parts, p, PART_REFERENCE_FENCE));
    assert_within(number_of(&p->steps[find_step(p, "step.stop")].know, "face"), 461.56,
                  0.01); /* y_n of the worked plan */
    assert_string_equal(p->cautions[0].text.key, "caution.bare_blade");
    free_made(&m);
}

static void test_sled_write_steps_letters_match_the_parts_table(void **state)
{
    (void)state;
    static struct test_job t;
    struct made m = {0};
    fill_job(&t, &variants[0]);
    assert_true(make_plan(&t, &m));
    const struct saying *what = &m.plan.steps[find_step(&m.plan, "step.guard")].what;
    assert_int_equal(what->arg[0].text[0], build_find_part(&m.plan, PART_EXIT_GUARD)->letter[0]);
    assert_int_equal(what->arg[1].text[0], build_find_part(&m.plan, PART_REFERENCE_FENCE)->letter[0]);
    free_made(&m);
}

static void test_sled_write_cautions_most_needed_first(void **state)
{
    (void)state;
    static struct test_job t;
    for (size_t i = 0; i < VARIANTS; i++) {
        struct made m = {0};
        int dangers = 0;
        fill_job(&t, &variants[i]);
        assert_true(make_plan(&t, &m));
        assert_true(m.plan.n_cautions > 10);
        for (size_t k = 0; k < m.plan.n_cautions; k++) {
            const struct plan_caution *c = &m.plan.cautions[k];
            dangers += c->signal == SIGNAL_DANGER;
            assert_true(k == 0 || (c->rank > c[-1].rank && c->signal <= c[-1].signal));
        }
        assert_int_equal(dangers, 1);
        assert_int_equal(m.plan.cautions[0].signal, SIGNAL_DANGER);
        free_made(&m);
    }
    struct made m = {0};
    contract_job(&t);
    assert_true(make_plan(&t, &m));
    assert_string_equal(m.plan.cautions[0].text.key, "caution.behind_fence");
    assert_string_equal(m.plan.cautions[1].text.key, "caution.to_stop");
    assert_string_equal(m.plan.cautions[2].text.key, "caution.offcut");
    free_made(&m);
}

static bool has_caution(const struct plan *p, const char *key)
{
    for (size_t i = 0; i < p->n_cautions; i++)
        if (strcmp(p->cautions[i].text.key, key) == 0)
            return true;
    return false;
}

/* A knife of 3.0 in a kerf of 2.8 fails its check: the sheet does not say that it passes. */
static void test_plan_build_no_caution_against_a_check(void **state)
{
    (void)state;
    static struct test_job t;
    for (int i = 0; i < 2; i++) {
        struct made m = {0};
        fill_job(&t, &variants[0]);
        t.job.saw.knife.thickness = given(i ? 3.0 : 2.2);
        assert_true(plan_build(&t.job, &m.diags, &m.plan));
        assert_int_equal(plan_find_check(&m.plan, CHECK_RIVING_KNIFE)->verdict, i ? VERDICT_FAIL : VERDICT_PASS);
        assert_true(has_caution(&m.plan, "caution.knife_on") == !i);
        assert_true(find_step(&m.plan, "step.finish") > 0);
        plan_free(&m.plan);
        diags_free(&m.diags);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_words_every_variant),
        cmocka_unit_test(test_words_none_unused),
        cmocka_unit_test(test_order_every_variant),
        cmocka_unit_test(test_steps_random_saws),
        cmocka_unit_test(test_sled_write_steps_contract_figures),
        cmocka_unit_test(test_sled_write_steps_narrow_runner_is_not_planed_to_more),
        cmocka_unit_test(test_sled_write_steps_short_parts_are_named),
        cmocka_unit_test(test_sled_write_steps_move),
        cmocka_unit_test(test_sled_write_steps_first_stop_stands_whole_steps_short),
        cmocka_unit_test(test_sled_write_steps_splitter),
        cmocka_unit_test(test_sled_write_steps_guard_too_thin),
        cmocka_unit_test(test_sled_write_steps_hold_where_a_check_fails),
        cmocka_unit_test(test_sled_write_steps_glue_in_full_once),
        cmocka_unit_test(test_sled_write_steps_far_fence),
        cmocka_unit_test(test_sled_write_steps_letters_match_the_parts_table),
        cmocka_unit_test(test_sled_write_cautions_most_needed_first),
        cmocka_unit_test(test_plan_build_no_caution_against_a_check),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
