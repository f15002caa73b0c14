/* Jobs spoiled one way each, as a shop spoils them. The checks that do not pass are those that the spoiling asks for and no
   other; the printed remedy, written into the job as it stands there, makes them pass, and nothing else fails for it. */
#include "whole/whole.h"

#include <ctype.h>
#include <stdio.h>

/* A job as a list of values by their paths, so that a remedy's "jig.base.depth: 596" can be written into it. */
enum { ENTRIES_MOST = 60, PATH_MOST = 64 };
struct entry {
    char path[PATH_MOST], value[120];
};
struct job_text {
    struct entry list[ENTRIES_MOST];
    int n;
};

/* A sled on a cabinet saw, all of whose checks pass. */
static const struct entry sound[] = {
    {"fettle", "1"},
    {"job.number", "SPOILED-1"},
    {"job.title", "Sled of a spoiled job"},
    {"units", "mm"},
    {"saw.blade.diameter", "254"},
    {"saw.blade.kerf", "2.8"},
    {"saw.blade.plate", "1.8"},
    {"saw.blade.highest", "80"},
    {"saw.knife.kind", "riving"},
    {"saw.knife.thickness", "2.2"},
    {"saw.knife.below_top", "2"},
    {"saw.table.front_edge", "500"},
    {"saw.table.depth", "800"},
    {"saw.table.width", "940"},
    {"saw.table.left_of_blade", "470"},
    {"saw.slots.width", "19.1"},
    {"saw.slots.depth", "9.6"},
    {"saw.slots.left", "142"},
    {"saw.slots.right", "178"},
    {"air.at_fitting.temperature", "18"},
    {"air.at_fitting.humidity", "50"},
    {"air.driest.temperature", "20"},
    {"air.driest.humidity", "45"},
    {"air.dampest.temperature", "17"},
    {"air.dampest.humidity", "58"},
    {"stock.ply12", "{material: birch-plywood, thickness: 12, sheet: [1250, 1250], have: 1}"},
    {"stock.ply18", "{material: birch-plywood, thickness: 18, sheet: [1250, 1250], have: 1}"},
    {"stock.maple", "{material: hard-maple, strip: [25, 50], length: 1200, have: 1, rings: quarter}"},
    {"jig.kind", "crosscut-sled"},
    {"jig.capacity.width", "420"},
    {"jig.capacity.thickness", "60"},
    {"jig.base.width", "760"},
    {"jig.base.depth", "580"},
    {"jig.base.left_of_blade", "400"},
    {"jig.reference_fence.from_edge", "90"},
    {"jig.reference_fence.layers", "2"},
    {"jig.reference_fence.height", "100"},
    {"jig.reference_fence.pivot.side", "left"},
    {"jig.reference_fence.pivot.from_blade", "330"},
    {"jig.reference_fence.moving.side", "right"},
    {"jig.reference_fence.moving.from_blade", "280"},
    {"jig.other_fence.height", "100"},
    {"jig.runners.width", "19.00"},
    {"jig.runners.free_width", "18.85"},
    {"jig.runners.thickness", "9.0"},
    {"jig.exit_guard.layers", "5"},
    {"jig.exit_guard.height", "100"},
};

static void put_value(struct job_text *j, const char *path, const char *value)
{
    for (int i = 0; i < j->n; i++)
        if (strcmp(j->list[i].path, path) == 0) {
            snprintf(j->list[i].value, sizeof j->list[i].value, "%s", value);
            return;
        }
    assert_true(j->n < ENTRIES_MOST);
    snprintf(j->list[j->n].path, PATH_MOST, "%s", path);
    snprintf(j->list[j->n].value, sizeof j->list[j->n].value, "%s", value);
    j->n++;
}

/* Entries below a path, as a flow mapping: every key once, in the order of its first entry. */
static void write_below(const struct job_text *j, const char *below, struct text *out)
{
    size_t length = strlen(below);
    int written = 0;
    for (int i = 0; i < j->n; i++) {
        const char *rest = j->list[i].path + length;
        if (strncmp(j->list[i].path, below, length) != 0)
            continue;
        char key[PATH_MOST], deeper[PATH_MOST];
        snprintf(key, sizeof key, "%.*s", (int)strcspn(rest, "."), rest);
        snprintf(deeper, sizeof deeper, "%.*s.", (int)(length + strlen(key)), j->list[i].path);
        bool again = false;
        for (int k = 0; k < i; k++)
            again = again || strncmp(j->list[k].path, deeper, strlen(deeper)) == 0;
        if (again)
            continue;
        text_printf(out, "%s%s: ", *below ? written ? ", " : "" : "", key);
        if (rest[strlen(key)] == '.') {
            text_add(out, "{");
            write_below(j, deeper, out);
            text_add(out, "}");
        } else {
            text_add(out, j->list[i].value);
        }
        text_add(out, *below ? "" : "\n");
        written++;
    }
}

static struct whole *plan_it(const struct job_text *j)
{
    struct text yaml = {0};
    write_below(j, "", &yaml);
    struct whole *w = whole_calculate(text_string(&yaml));
    if (!w->read || !w->planned) {
        print_problems(&w->diags);
        fail_msg("%s", text_string(&yaml));
    }
    text_free(&yaml);
    return w;
}

/* ---- what does not pass ---- */

/* "riving_knife, …", in the order of the checks. */
static void name_failures(const struct plan *p, bool cautions, char *out, size_t room)
{
    *out = '\0';
    for (int id = 0; id < CHECKS; id++) {
        const struct plan_check *c = plan_find_check(p, (enum check_id)id);
        if (c && c->verdict == (cautions ? VERDICT_CAUTION : VERDICT_FAIL))
            snprintf(out + strlen(out), room - strlen(out), "%s%s", *out ? ", " : "", plan_check_name((enum check_id)id));
    }
}

/* ---- a remedy, written into the job as it is told ---- */

/* "path: value, key: value, path and path: value": a key without a path stands beside the one before it. Gives how many. */
static int write_remedy(struct job_text *j, const struct saying *remedy, enum units units)
{
    struct text change = {0};
    char group[PATH_MOST] = "";
    int n = 0;
    if (!words_put_job_change(&change, remedy, units) || !strchr(text_string(&change), ':')) {
        text_free(&change);
        return 0;
    }
    for (const char *p = text_string(&change); *p; n++) {
        size_t length = strcspn(p, ":");
        const char *value = p + length + 2, *and = strstr(p, " and ");
        size_t size = *value == '[' ? strcspn(value, "]") + 1 : strcspn(value, ",");
        char path[2 * PATH_MOST], text[64];
        snprintf(text, sizeof text, "%.*s", (int)size, value);
        if (and && and < value) {
            snprintf(path, sizeof path, "%.*s", (int)(and - p), p);
            put_value(j, path, text);
            length -= (size_t)(and + 5 - p);
            p = and + 5;
        }
        bool whole = memchr(p, '.', length) != NULL;
        snprintf(path, sizeof path, "%s%s%.*s", whole ? "" : group, whole ? "" : ".", (int)length, p);
        put_value(j, path, text);
        snprintf(group, sizeof group, "%.*s", (int)(strrchr(path, '.') - path), path);
        p = value + size;
        p += strspn(p, ", ");
    }
    text_free(&change);
    return n;
}

/* ---- situations ---- */

struct situation {
    const char *name;
    struct {
        const char *path, *value;
    } spoil[8];
    const char *fails, *cautions; /* ids of the checks that do not pass */
    enum check_id remedied;       /* by the remedy of this one */
    const char *left;             /* what is a caution still; no check fails then */
};

static const struct situation situations[] = {
    {"work wider than the sled has room for: one width mends all",
     {{"jig.capacity.width", "520"}},
     "tipping_near, widest_work", "", CHECK_TIPPING_NEAR, ""},
    {"guard too thin: one number of layers mends both",
     {{"jig.exit_guard.layers", "2"}},
     "travel_stop, exit_guard_depth", "", CHECK_TRAVEL_STOP, ""},
    {"far fence and work too wide: narrower work mends the guard as well",
     {{"jig.reference_fence.side", "far"}, {"jig.reference_fence.from_edge", "0"}, {"jig.other_fence.from_edge", "90"}, {"jig.capacity.width", "520"}},
     "travel_stop, exit_guard_depth, tipping_far, widest_work", "", CHECK_TRAVEL_STOP, ""},
    {"runner too thick for its slot",
     {{"jig.runners.thickness", "9.4"}},
     "runner_height", "", CHECK_RUNNER_HEIGHT, ""},
    {"screw in the kerf",
     {{"jig.reference_fence.moving.from_blade", "42"}},
     "screw_free_strip", "", CHECK_SCREW_FREE_STRIP, ""},
    {"pivot in the kerf",
     {{"jig.reference_fence.pivot.from_blade", "41"}},
     "screw_free_strip", "", CHECK_SCREW_FREE_STRIP, ""},
    {"reference fence lower than the blade",
     {{"jig.reference_fence.height", "60"}},
     "fence_bridge", "", CHECK_FENCE_BRIDGE, ""},
    {"other fence lower than the blade",
     {{"jig.other_fence.height", "65"}},
     "fence_bridge", "", CHECK_FENCE_BRIDGE, ""},
    {"sled that tips at the near edge, and when drawn back",
     {{"saw.table.front_edge", "470"}},
     "", "tipping_near, tipping_parked", CHECK_TIPPING_NEAR, "tipping_parked"},
    {"sled that tips at the far edge",
     {{"saw.table.depth", "748"}},
     "", "tipping_far", CHECK_TIPPING_FAR, ""},
    {"sled that tips to the side",
     {{"saw.table.left_of_blade", "180"}},
     "", "tipping_side", CHECK_TIPPING_SIDE, ""},
    {"sled that hangs over so far that only care helps",
     {{"saw.table.left_of_blade", "60"}},
     "", "tipping_side", CHECK_TIPPING_SIDE, "tipping_side"},
    {"runner fitted in dry air binds in damp",
     {{"air.at_fitting.humidity", "45"}, {"air.dampest.humidity", "60"}, {"jig.runners.free_width", "18.75"}, {"jig.runners.width", "19.02"}},
     "runner_pair_play", "runner_play_dampest, runner_width_to_plane", CHECK_RUNNER_PLAY_DAMPEST, ""},
    {"runners fitted in dry air bind together in damp",
     {{"air.at_fitting.humidity", "40"}, {"air.driest.humidity", "40"}, {"air.dampest.humidity", "62"}, {"jig.runners.width", "19.04"}},
     "runner_pair_play", "runner_play_dampest, runner_width_to_plane", CHECK_RUNNER_PAIR_PLAY, ""},
    {"runner fitted in damp air rattles in dry",
     {{"air.at_fitting.humidity", "62"}, {"air.dampest.humidity", "62"}, {"jig.runners.width", "18.92"}},
     "", "runner_play_driest, runner_width_to_plane", CHECK_RUNNER_PLAY_DRIEST, ""},
    {"splitter above the blade",
     {{"saw.knife.kind", "splitter"}, {"saw.knife.below_top", "-15"}},
     "riving_knife", "", CHECK_RIVING_KNIFE, ""},
    {"riving knife above the blade",
     {{"saw.knife.below_top", "-3"}},
     "riving_knife", "", CHECK_RIVING_KNIFE, ""},
    {"riving knife thicker than the kerf",
     {{"saw.knife.thickness", "3.0"}},
     "riving_knife", "", CHECK_RIVING_KNIFE, ""},
};

static int try_situation(const struct situation *s)
{
    struct job_text job = {0};
    char fails[400], cautions[400], still[400];
    struct text remedy = {0};
    int faults = 0;
    for (size_t i = 0; i < sizeof sound / sizeof *sound; i++)
        put_value(&job, sound[i].path, sound[i].value);
    for (size_t i = 0; i < sizeof s->spoil / sizeof *s->spoil && s->spoil[i].path; i++)
        put_value(&job, s->spoil[i].path, s->spoil[i].value);
    struct whole *w = plan_it(&job);
    name_failures(&w->plan, false, fails, sizeof fails);
    name_failures(&w->plan, true, cautions, sizeof cautions);
    if (strcmp(fails, s->fails) != 0 || strcmp(cautions, s->cautions) != 0) {
        print_error("%s: fails \"%s\", cautions \"%s\"\n", s->name, fails, cautions);
        faults++;
    }
    const struct plan_check *c = plan_find_check(&w->plan, s->remedied);
    int written = 0;
    if (c && c->remedy.key) {
        words_put_plain(&remedy, &c->remedy, UNITS_MM);
        written = write_remedy(&job, &c->remedy, UNITS_MM);
    }
    whole_free(w);
    w = plan_it(&job);
    name_failures(&w->plan, false, fails, sizeof fails);
    name_failures(&w->plan, true, still, sizeof still);
    bool helpless = !*s->fails && strcmp(s->left, s->cautions) == 0; /* no number helps: the remedy is a sentence */
    if ((written == 0) != helpless || remedy.size == 0 || *fails || strcmp(still, s->left) != 0) {
        print_error("%s: after \"%s\" fails \"%s\", cautions \"%s\"\n", s->name, text_string(&remedy), fails, still);
        faults++;
    }
    if (getenv("FETTLE_SHOW"))
        print_message("%s: %s\n", s->name, text_string(&remedy));
    whole_free(w);
    text_free(&remedy);
    return faults;
}

/* ---- two misfits at once ---- */

static void spoil(struct job_text *job, const struct situation *s)
{
    for (size_t i = 0; i < sizeof s->spoil / sizeof *s->spoil && s->spoil[i].path; i++)
        put_value(job, s->spoil[i].path, s->spoil[i].value);
}

/* The same lengths in a job whose sheets are in inches. */
static void turn_to_inches(struct job_text *job)
{
    static const char *const stock[][2] = {
        {"stock.ply12", "{material: birch-plywood, thickness: 12 mm, sheet: [1250 mm, 1250 mm], have: 1}"},
        {"stock.ply18", "{material: birch-plywood, thickness: 18 mm, sheet: [1250 mm, 1250 mm], have: 1}"},
        {"stock.maple", "{material: hard-maple, strip: [25 mm, 50 mm], length: 1200 mm, have: 1, rings: quarter}"},
    };
    for (int i = 0; i < job->n; i++) {
        struct entry *e = &job->list[i];
        bool length = (strncmp(e->path, "saw.", 4) == 0 || strncmp(e->path, "jig.", 4) == 0) && !strstr(e->path, "layers");
        if (length && (isdigit((unsigned char)*e->value) || *e->value == '-'))
            strcat(e->value, " mm");
    }
    put_value(job, "units", "in");
    put_value(job, "tolerances.squareness", "{error: 0.10 mm, over: 300 mm}");
    put_value(job, "tolerances.side_play", "{low: 0.05 mm, high: 0.25 mm}");
    for (size_t i = 0; i < 3; i++)
        put_value(job, stock[i][0], stock[i][1]);
}

/* Does what the sheets say, in their order: failures that hurt, other failures, cautions; what is told twice once. */
static void do_remedies(struct job_text *job, const struct outcome *o, enum units units, bool done[CHECKS])
{
    for (int round = 0; round < 3; round++)
        for (size_t i = 0; i < o->n_checks; i++) {
            const struct plan_check *c = &o->checks[i];
            int its = c->verdict == VERDICT_CAUTION ? 2 : c->hurts ? 0 : 1;
            if (c->verdict != VERDICT_PASS && its == round)
                done[c->id] = write_remedy(job, &c->remedy, units) > 0;
        }
}

static int try_pair(const struct situation *a, const struct situation *b, bool inches)
{
    struct job_text job = {0};
    bool done[CHECKS] = {false};
    enum units units = inches ? UNITS_IN : UNITS_MM;
    int faults = 0;
    for (size_t i = 0; i < sizeof sound / sizeof *sound; i++)
        put_value(&job, sound[i].path, sound[i].value);
    spoil(&job, a);
    spoil(&job, b);
    if (inches)
        turn_to_inches(&job);
    struct whole *w = plan_it(&job);
    do_remedies(&job, &w->outcome, units, done);
    whole_free(w);
    w = plan_it(&job);
    for (size_t i = 0; i < w->outcome.n_checks; i++) {
        const struct plan_check *c = &w->outcome.checks[i];
        if (c->verdict == VERDICT_PASS || (c->verdict == VERDICT_CAUTION && !done[c->id]))
            continue;
        print_error("%s, %s%s: %s is %g, not right yet\n", a->name, b->name, inches ? ", inches" : "", plan_check_name(c->id), c->value);
        faults++;
    }
    whole_free(w);
    return faults;
}

static int try_pairs(bool inches)
{
    int faults = 0;
    for (size_t a = 0; a < sizeof situations / sizeof *situations; a++)
        for (size_t b = a; b < sizeof situations / sizeof *situations; b++)
            if (!(situations[a].remedied == CHECK_SCREW_FREE_STRIP && situations[b].remedied == CHECK_SCREW_FREE_STRIP && a != b))
                faults += try_pair(&situations[a], &situations[b], inches); /* both points in the strip: an error of the job */
    return faults;
}

static void test_remedies_of_two_misfits_work_one_after_the_other(void **state)
{
    (void)state;
    assert_int_equal(try_pairs(false), 0);
}

static void test_remedies_in_inches_work_as_printed(void **state)
{
    (void)state;
    assert_int_equal(try_pairs(true), 0);
}

static void test_sound_job_passes_every_check(void **state)
{
    struct job_text job = {0};
    char names[400];
    (void)state;
    for (size_t i = 0; i < sizeof sound / sizeof *sound; i++)
        put_value(&job, sound[i].path, sound[i].value);
    struct whole *w = plan_it(&job);
    name_failures(&w->plan, false, names, sizeof names);
    assert_string_equal(names, "");
    name_failures(&w->plan, true, names, sizeof names);
    assert_string_equal(names, "");
    whole_free(w);
}

static void test_spoiled_jobs_are_caught_and_remedied(void **state)
{
    int faults = 0;
    (void)state;
    for (size_t i = 0; i < sizeof situations / sizeof *situations; i++)
        faults += try_situation(&situations[i]);
    assert_int_equal(faults, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_sound_job_passes_every_check),
        cmocka_unit_test(test_spoiled_jobs_are_caught_and_remedied),
        cmocka_unit_test(test_remedies_of_two_misfits_work_one_after_the_other),
        cmocka_unit_test(test_remedies_in_inches_work_as_printed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
