/* The boxes of the bench pages, filled in by a reader who knows nothing but what stands beside and under them: from random readings
   they must come to the error, and to the move, that the record tells for the same readings. */
#include "calculator.h"
#include "kit.h"

#include <ctype.h>
#include <stdio.h>

enum { TRIALS = 200, VALUES_MOST = 12, NAMES_MOST = 16 };

/* ---- a reader with a pencil ---- */

/* What goes into the boxes of one name, in the order in which they come. */
struct named {
    char name[64];
    double v[VALUES_MOST];
    int n, used;
};
struct pencil {
    struct named all[NAMES_MOST];
    int n;
    struct text sum;  /* what stands to the left of the box, so far */
    char label[64];   /* words just before the box */
};

static struct named *find_named(struct pencil *p, const char *name)
{
    for (int i = 0; i < p->n; i++)
        if (strcmp(p->all[i].name, name) == 0)
            return &p->all[i];
    return NULL;
}

static void write_down(struct pencil *p, const char *name, double v)
{
    struct named *found = find_named(p, name);
    if (!found) {
        assert_true(p->n < NAMES_MOST);
        found = &p->all[p->n++];
        *found = (struct named){0};
        snprintf(found->name, sizeof found->name, "%s", name);
    }
    assert_true(found->n < VALUES_MOST);
    found->v[found->n++] = v;
}

static double last_of(struct pencil *p, const char *name)
{
    struct named *found = find_named(p, name);
    if (!found)
        print_error("no box \"%s\" was filled in\n", name);
    assert_non_null(found);
    return found->v[found->n - 1];
}

static void add_value(struct text *sum, double v)
{
    text_printf(sum, v < 0 ? "(" MINUS "%.9f)" : "%.9f", fabs(v));
}

static const char *skip_blank(const char *s)
{
    while (*s == ' ')
        s++;
    return s;
}

static size_t operator_length(const char *s)
{
    static const char *const signs[] = {"+", "×", "÷", MINUS, "="};
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
        if (strncmp(s, signs[i], strlen(signs[i])) == 0)
            return strlen(signs[i]);
    return 0;
}

static bool has_operator(const char *s)
{
    for (; *s; s++)
        if (operator_length(s))
            return true;
    return false;
}

/* A name at s that has been written down already, the longest; NULL: none. */
static const struct named *name_at(const struct pencil *p, const char *s)
{
    const struct named *best = NULL;
    for (int i = 0; i < p->n; i++) {
        size_t n = strlen(p->all[i].name);
        if (strncmp(s, p->all[i].name, n) == 0 && (!best || n > strlen(best->name)))
            best = &p->all[i];
    }
    return best;
}

/* Words between boxes: signs and figures are part of the sum, names that have a value stand for it unless the box behind them does,
   the rest is a label. */
static void read_words(struct pencil *p, const char *plain, bool box_follows)
{
    const char *colon = strchr(plain, ':');
    const char *s = skip_blank(colon ? colon + 1 : plain);
    if (*s && *s != ')' && !operator_length(s))
        text_clear(&p->sum); /* a new sum */
    p->label[0] = '\0';
    if (!has_operator(s) && *s != ')') {
        if (*s == '(')
            text_add_char(&p->sum, *s++);
        snprintf(p->label, sizeof p->label, "%s", s);
        return;
    }
    while (*s) {
        const struct named *named = name_at(p, s);
        size_t op = operator_length(s);
        if (named && !(box_follows && s[strlen(named->name)] == '\0')) {
            add_value(&p->sum, named->v[named->n - 1]);
            s += strlen(named->name);
        } else if (op || *s == '(' || *s == ')' || *s == ' ' || *s == '.' || isdigit((unsigned char)*s)) {
            text_add_n(&p->sum, s, op ? op : 1);
            s += op ? op : 1;
        } else {
            size_t n = strcspn(s, ".0123456789()=");
            snprintf(p->label, sizeof p->label, "%.*s", (int)n, s);
            s += n;
        }
    }
}

/* A box after an equals sign is worked out; another is filled in from the readings, or is no part of a sum. */
static void fill_box(struct pencil *p, const char *caption)
{
    struct named *named = find_named(p, *caption ? caption : p->label);
    size_t n = p->sum.size;
    bool asks = n && p->sum.bytes[n - 1] == '=';
    if (asks) {
        double v = calculate(text_string(&p->sum)); /* reads up to the equals sign */
        if (isnan(v))
            return;
        write_down(p, *caption ? caption : "result", v);
        text_clear(&p->sum);
        add_value(&p->sum, v);
    } else if (named) {
        bool drawn = named->used < named->n;
        add_value(&p->sum, named->v[drawn ? named->used++ : named->n - 1]);
    }
}

static void strip(const char *marked, struct text *plain)
{
    text_clear(plain);
    for (; *marked; marked++)
        if (*marked != TEXT_BOLD_ON && *marked != TEXT_BOLD_OFF)
            text_add_char(plain, *marked);
}

static void trim_end(struct text *t)
{
    while (t->size && t->bytes[t->size - 1] == ' ')
        t->bytes[--t->size] = '\0';
}

static void follow_row(const struct block *b, void *arg)
{
    struct pencil *p = arg;
    struct text plain = {0};
    if (b->kind != BLOCK_BOXES)
        return;
    text_clear(&p->sum);
    p->label[0] = '\0';
    for (int i = 0; i < b->as.boxes.n; i++) {
        if (b->as.boxes.items[i].text && *b->as.boxes.items[i].text) {
            strip(b->as.boxes.items[i].text, &plain);
            read_words(p, text_string(&plain), i + 1 < b->as.boxes.n && b->as.boxes.items[i + 1].width > 0);
            trim_end(&p->sum);
        }
        if (b->as.boxes.items[i].width > 0)
            fill_box(p, b->as.boxes.items[i].caption ? b->as.boxes.items[i].caption : "");
    }
    text_free(&plain);
}

static void follow_page(const struct made *m, struct pencil *p)
{
    visit_blocks(&find_sheet(m, SHEET_BENCH)->body, follow_row, p);
    text_free(&p->sum);
}

/* ---- random readings ---- */

static const double set[] = {0.04, 0.05, 0.08, 0.10, 0.15, 0.20, 0.30, 0.45, 0.60};
enum { LEAVES = sizeof set / sizeof *set };
static const char head[] = "fettle: 1\n"
                           "job: {number: SUM-1, title: Sums}\n"
                           "units: mm\n"
                           "saw: {name: saw, blade: {diameter: 250, kerf: 2.6, highest: 76}, table: {front_edge: 430, depth: 690}}\n"
                           "instruments:\n"
                           "  leaves: {kind: feeler, leaves: [0.04, 0.05, 0.08, 0.10, 0.15, 0.20, 0.30, 0.45, 0.60]}\n"
                           "  dial: {kind: dial, resolution: 0.01}\n"
                           "tests:\n"
                           "  - {date: 2026-05-04, ";

static double draw(unsigned *seed, double low, double high)
{
    *seed = *seed * 1664525u + 1013904223u;
    return low + (high - low) * (*seed >> 8) / 16777216.0;
}

/* To a place, as it is read and written. */
static double draw_at(unsigned *seed, double low, double high, double place)
{
    return round(draw(seed, low, high) / place) * place;
}

static double next_leaf(double goes)
{
    for (int i = 0; i < LEAVES; i++)
        if (set[i] > goes + 1e-9)
            return set[i];
    return goes + set[0]; /* laid together */
}

/* A leaf that goes, 0: none, written down with the next. */
static double draw_leaf(unsigned *seed, struct pencil *p)
{
    int i = (int)draw(seed, -1, LEAVES);
    double goes = i < 0 ? 0 : set[i];
    write_down(p, "leaf that goes", goes);
    write_down(p, "next, does not go", next_leaf(goes));
    return goes;
}

static struct made *prove_and_follow(const char *test, struct pencil *p)
{
    struct text yaml = {0};
    text_printf(&yaml, "%s%s}\n", head, test);
    struct made *m = make_sheets(text_string(&yaml), NULL);
    follow_page(m, p);
    text_free(&yaml);
    return m;
}

static double error_of(const struct made *m)
{
    return m->proof.tests[0].error * m->proof.tests[0].over_length;
}

static void test_bench_sums_of_a_gap_between_leaves(void **state)
{
    (void)state;
    static const struct {
        const char *test, *length, *result;
        double low, high;
    } rows[] = {{"method: flip, height: %.0f, gap: %.2f, open: top, turned: left, instrument: leaves", "height", "lean", 40, 90},
                {"method: square-gap, offcut: right, length: %.0f, gap: %.2f, end: far, instrument: leaves", "length", "error", 100, 400},
                {"method: frame, pieces: 4, leg: %.0f, gap: %.2f, open: inside, instrument: leaves", "leg", "error", 40, 90}};
    unsigned seed = 7;
    for (int trial = 0; trial < TRIALS; trial++) {
        struct pencil p = {0};
        char test[200];
        int r = trial % 3;
        double length = draw_at(&seed, rows[r].low, rows[r].high, 1), goes = draw_leaf(&seed, &p);
        write_down(&p, rows[r].length, length);
        snprintf(test, sizeof test, rows[r].test, length, goes);
        struct made *m = prove_and_follow(test, &p);
        assert_within(last_of(&p, rows[r].result), fabs(error_of(m)), 1e-6);
        free_made(m);
    }
}

/* Both rows of the page can be filled in; only the one of the slot that was used has the record's sign. */
static void test_bench_sums_of_both_slots(void **state)
{
    (void)state;
    static const char *const slots[] = {"left", "right"};
    unsigned seed = 11;
    for (int trial = 0; trial < TRIALS; trial++) {
        struct pencil p = {0};
        char test[200];
        double front = draw_at(&seed, 0, 1, 0.01), back = draw_at(&seed, 0, 1, 0.01), span = draw_at(&seed, 120, 260, 1);
        write_down(&p, "front", front);
        write_down(&p, "back", back);
        write_down(&p, "span", span);
        snprintf(test, sizeof test, "method: slot-parallel, slot: %s, front: %.2f, back: %.2f, span: %.0f, instrument: dial",
                 slots[trial % 2], front, back, span);
        struct made *m = prove_and_follow(test, &p);
        struct named *error = find_named(&p, "error");
        assert_non_null(error);
        assert_int_equal(error->n, 2);
        assert_within(error->v[trial % 2], error_of(m), 1e-6);
        free_made(m);
    }
}

static void test_bench_sums_of_a_straight_edge(void **state)
{
    (void)state;
    unsigned seed = 13;
    for (int trial = 0; trial < TRIALS; trial++) {
        struct pencil p = {0};
        char test[300];
        double goes[5];
        write_down(&p, "shim", 0.3);
        for (int i = 0; i < 5; i++)
            goes[i] = draw_leaf(&seed, &p);
        snprintf(test, sizeof test,
                 "method: fence-straight, shim: 0.3, length: 600, gaps: [[100, %.2f], [200, %.2f], [300, %.2f], [400, %.2f], [500, %.2f]], instrument: leaves",
                 goes[0], goes[1], goes[2], goes[3], goes[4]);
        struct made *m = prove_and_follow(test, &p);
        const struct fence_straight_sum *sum = &m->proof.tests[0].as.fence_straight;
        struct named *stands = find_named(&p, "stands out");
        assert_non_null(stands);
        double most = 0, least = 0;
        for (int i = 0; i < 5; i++) {
            assert_within(stands->v[i], sum->points[i + 1].dev, 1e-6);
            most = fmax(most, stands->v[i]);
            least = fmin(least, stands->v[i]);
        }
        assert_true(most - least >= error_of(m) - 1e-9); /* "never too small" */
        free_made(m);
    }
}

/* Least and most of the plays that the boxes give: what is to be packed (minus: planed) is the record's change. */
static void test_bench_sums_of_side_play(void **state)
{
    (void)state;
    unsigned seed = 17;
    for (int trial = 0; trial < TRIALS; trial++) {
        struct pencil p = {0};
        char test[200];
        double goes[5], least = INFINITY, most = 0;
        for (int i = 0; i < 5; i++) {
            goes[i] = draw_leaf(&seed, &p);
            least = fmin(least, (goes[i] + next_leaf(goes[i])) / 2);
            most = fmax(most, (goes[i] + next_leaf(goes[i])) / 2);
        }
        write_down(&p, "least play", least);
        write_down(&p, "most play", most);
        snprintf(test, sizeof test, "method: side-play, plays: [%.2f, %.2f, %.2f, %.2f, %.2f], instrument: leaves", goes[0], goes[1], goes[2], goes[3],
                 goes[4]);
        struct made *m = prove_and_follow(test, &p);
        struct named *halves = find_named(&p, "halfway");
        for (int i = 0; i < 5; i++)
            assert_within(halves->v[i], m->proof.tests[0].as.side_play.plays[i].value, 1e-6);
        if (m->proof.tests[0].as.side_play.most - m->proof.tests[0].as.side_play.least > 0.2 + 1e-9) { /* 0.05 to 0.25 allowed */
            assert_string_equal(m->proof.tests[0].move.what.key, "side_play.uneven");
            free_made(m);
            continue;
        }
        double change = last_of(&p, "pack; " MINUS " plane");
        assert_within(fabs(change), m->proof.tests[0].move.distance, 1e-6);
        assert_int_equal(change < -1e-9, strcmp(m->proof.tests[0].move.what.key, "side_play.plane") == 0);
        free_made(m);
    }
}

/* What the page's box tells to do with pitch and fit, step by step, against the record's move of key or cutter. */
static void follow_box_rules(struct pencil *p, const struct proof_test *t, double fit_u)
{
    const struct move *move = &t->move;
    double error = last_of(p, "error"), fit = last_of(p, "fit"), asks = last_of(p, "fit’s move"), differ = last_of(p, "difference");
    double by_pitch = fabs(error) > t->tolerance && fabs(error) > t->expanded_uncertainty ? error : 0, after = fit + by_pitch;
    assert_within(error, t->error, 1e-6);
    if (after >= 0.05 - fit_u - 1e-9 && after <= 0.15 + fit_u + 1e-9) {
        assert_false(t->as.box_joint.change_cutter);
        assert_within(t->as.box_joint.toward, by_pitch, 1e-6);
    } else if (fabs(differ) <= t->tolerance) {
        assert_false(t->as.box_joint.change_cutter);
        assert_within(t->as.box_joint.toward, asks, 1e-6);
    } else {
        assert_true(t->as.box_joint.change_cutter);
        assert_within(t->as.box_joint.cutter_wider, differ / 2, 1e-6);
    }
    assert_true(move->distance >= 0);
}

static void test_bench_sums_of_a_box_joint(void **state)
{
    (void)state;
    unsigned seed = 19;
    int cutters = 0;
    for (int trial = 0; trial < TRIALS; trial++) {
        struct pencil p = {0};
        char test[200];
        int fingers = (int)draw(&seed, 6, 14);
        double finger = draw_at(&seed, 9.8, 10.2, 0.01), slot = finger + draw_at(&seed, -0.1, 0.3, 0.01);
        double got = finger + (fingers - 1) * 20.1 + draw_at(&seed, -1, 1, 0.01);
        write_down(&p, "row", got);
        write_down(&p, "finger", finger);
        write_down(&p, "fingers " MINUS " 1", fingers - 1);
        write_down(&p, "slot", slot);
        snprintf(test, sizeof test, "method: box-joint, fingers: %d, set: 20.1, got: %.2f, finger: %.2f, slot: %.2f", fingers, got, finger, slot);
        struct made *m = prove_and_follow(test, &p);
        follow_box_rules(&p, &m->proof.tests[0], m->proof.tests[0].as.box_joint.fit_u);
        cutters += m->proof.tests[0].as.box_joint.change_cutter;
        free_made(m);
    }
    assert_in_range(cutters, 5, TRIALS - 5);
}

static void test_bench_sums_of_the_diagonals(void **state)
{
    (void)state;
    unsigned seed = 23;
    for (int trial = 0; trial < TRIALS; trial++) {
        struct pencil p = {0};
        char test[200];
        double width = draw_at(&seed, 300, 800, 1), depth = draw_at(&seed, 300, 800, 1);
        double d1 = round(hypot(width, depth)) + draw_at(&seed, -2, 2, 0.5), d2 = round(hypot(width, depth)) + draw_at(&seed, -2, 2, 0.5);
        write_down(&p, "d1", d1);
        write_down(&p, "d2", d2);
        write_down(&p, "mean width", width);
        write_down(&p, "mean depth", depth);
        snprintf(test, sizeof test, "method: diagonals, width: %.0f, depth: %.0f, d1: %.1f, d2: %.1f", width, depth, d1, d2);
        struct made *m = prove_and_follow(test, &p);
        assert_within(last_of(&p, "error"), error_of(m), 1e-5);
        free_made(m);
    }
}

/* ---- zones that a page tells in its own way ---- */

static struct text gather_plain(const struct made *m)
{
    struct text bench = gather_sheet(find_sheet(m, SHEET_BENCH)), plain = {0};
    strip(text_string(&bench), &plain);
    text_free(&bench);
    return plain;
}

static double number_after(const struct text *text, const char *words)
{
    const char *at = strstr(text_string(text), words);
    if (!at)
        print_error("\"%s\" does not stand on the page\n", words);
    assert_non_null(at);
    return strtod(at + strlen(words), NULL);
}

/* Five pieces as far apart as the page calls even are always within the spread allowed, those that it calls uneven never. */
static void test_bench_range_of_five_pieces(void **state)
{
    (void)state;
    struct pencil p = {0};
    struct made *m = prove_and_follow("method: stop, pairs: [[100, 100.1]]", &p);
    struct text bench = gather_plain(m);
    double even = number_after(&bench, "longest less shortest up to "), uneven = number_after(&bench, "even enough; above ");
    unsigned seed = 29;
    double widest = 0, narrowest = INFINITY;
    for (int trial = 0; trial < 100000; trial++) {
        double v[5] = {0, 1, 0, 0, 0}, mean = 0, squares = 0;
        for (int i = 2; i < 5; i++)
            v[i] = fmax(0, fmin(1, draw(&seed, -0.2, 1.2)));
        for (int i = 0; i < 5; i++)
            mean += v[i] / 5;
        for (int i = 0; i < 5; i++)
            squares += (v[i] - mean) * (v[i] - mean);
        widest = fmax(widest, sqrt(squares / 4));
        narrowest = fmin(narrowest, sqrt(squares / 4));
    }
    assert_true(even * widest <= 0.1 && even * widest > 0.098);
    assert_true(uneven * narrowest >= 0.1 && uneven * narrowest < 0.102);
    text_free(&bench);
    free_made(m);
}

/* What the box says of an error holds for a test of any length that it names, not for the last one's alone: leaves and lengths drawn
   by lot, judged by the page of another test. */
static void test_bench_zones_hold_for_other_lengths(void **state)
{
    (void)state;
    static const struct {
        const char *test;
        double length, most;
    } rows[] = {{"method: flip, height: %.1f, gap: %.2f, open: top, turned: left, instrument: leaves", 68, 120},
                {"method: square-gap, offcut: right, length: %.1f, gap: %.2f, end: far, grade: 0, pivot_to_moving: 500, moving_end: right, instrument: leaves", 280, 600},
                {"method: frame, pieces: 4, leg: %.1f, gap: %.2f, open: inside, instrument: leaves", 54, 120}};
    unsigned seed = 31;
    for (int r = 0; r < 3; r++) {
        struct pencil p = {0};
        char test[200];
        int told = 0;
        snprintf(test, sizeof test, rows[r].test, rows[r].length, 0.1);
        struct made *page = prove_and_follow(test, &p);
        struct text bench = gather_plain(page);
        const char *box = strstr(text_string(&bench), "leave it alone.");
        assert_non_null(box);
        double move = strtod(box + strlen("leave it alone. "), NULL), least = number_after(&bench, r == 0 ? "a height of " : r == 1 ? "a length of " : "a leg of ");
        while (strncmp(box, r == 0 ? "Lean " : "Error ", r == 0 ? 5 : 6) != 0)
            box--;
        double leave = strtod(box + (r == 0 ? 5 : 6), NULL);
        for (int trial = 0; trial < TRIALS; trial++) {
            struct pencil other = {0};
            double length = draw(&seed, least, rows[r].most);
            snprintf(test, sizeof test, rows[r].test, length, set[(int)draw(&seed, 0, LEAVES)]);
            struct made *m = prove_and_follow(test, &other);
            double error = fabs(error_of(m));
            assert_true(error > leave || m->proof.tests[0].finding == FINDING_WITHIN);
            assert_true(error < move || m->proof.tests[0].move.advice == ADVICE_MOVE);
            told += error <= leave || error >= move;
            free_made(m);
        }
        assert_in_range(told, TRIALS / 4, TRIALS);
        text_free(&bench);
        free_made(page);
    }
}

/* Plays alike at every place, read with a dial: the record leaves, changes or doubts them where the page says so. */
static void test_bench_zones_of_side_play(void **state)
{
    (void)state;
    for (int i = 0; i < 40; i++) {
        struct pencil p = {0};
        char test[120];
        double play = 0.01 * i;
        snprintf(test, sizeof test, "method: side-play, plays: [%.2f, %.2f, %.2f], instrument: dial", play, play, play);
        struct made *m = prove_and_follow(test, &p);
        struct text bench = gather_plain(m);
        double from = number_after(&bench, "Every play "), to = strtod(strstr(strstr(text_string(&bench), "Every play "), " to ") + 4, NULL);
        double tight = number_after(&bench, "Any "), loose = number_after(&bench, "or less, or ");
        const struct proof_test *t = &m->proof.tests[0];
        assert_int_equal(play >= from - 1e-9 && play <= to + 1e-9, t->finding == FINDING_WITHIN);
        assert_int_equal(play <= tight + 1e-9 || play >= loose - 1e-9, t->move.advice == ADVICE_MOVE);
        text_free(&bench);
        free_made(m);
    }
}

/* A straight fence whose gaps all take the shim's own leaf is taken halfway to the next: no bow is claimed for that. */
static void test_record_of_a_straight_fence_finds_no_bow(void **state)
{
    (void)state;
    struct pencil p = {0};
    struct made *m = prove_and_follow("method: fence-straight, shim: 0.2, length: 600, gaps: [[200, 0.2], [400, 0.2]], instrument: leaves", &p);
    struct text record = gather_sheet(find_sheet(m, SHEET_RECORD)), plain = {0};
    strip(text_string(&record), &plain);
    assert_non_null(strstr(text_string(&plain), "No bow is found beyond the ±"));
    assert_null(strstr(text_string(&plain), "the fence is hollow there"));
    text_free(&record);
    text_free(&plain);
    free_made(m);
}

/* Inch leaves in a job in millimetres: named as they are marked, and the page says how they come into its sum. */
static void test_bench_leaves_marked_in_the_other_unit(void **state)
{
    (void)state;
    for (int inches = 0; inches < 2; inches++) {
        struct text yaml = {0};
        text_printf(&yaml, "fettle: 1\njob: {number: SUM-2, title: Leaves}\nunits: mm\nsaw: {name: saw}\ninstruments:\n"
                           "  leaves: {kind: feeler, leaves: [%s]}\ntests:\n"
                           "  - {date: 2026-05-04, method: flip, height: 60, gap: %s, open: top, turned: left, instrument: leaves}\n",
                    inches ? "0.004 in, 0.006 in, 0.010 in, 0.025 in" : "0.10, 0.15, 0.25, 0.60", inches ? "0.025 in" : "0.60");
        struct made *m = make_sheets(text_string(&yaml), NULL);
        struct text bench = gather_plain(m);
        assert_int_equal(strstr(text_string(&bench), "The leaves are marked in inches") != NULL, inches);
        assert_int_equal(strstr(text_string(&bench), "\n.025" THIN "in\n") != NULL, inches);
        text_free(&bench);
        text_free(&yaml);
        free_made(m);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_bench_sums_of_a_gap_between_leaves), cmocka_unit_test(test_bench_sums_of_both_slots),
        cmocka_unit_test(test_bench_sums_of_a_straight_edge),      cmocka_unit_test(test_bench_sums_of_side_play),
        cmocka_unit_test(test_bench_sums_of_a_box_joint),          cmocka_unit_test(test_bench_sums_of_the_diagonals),
        cmocka_unit_test(test_bench_zones_hold_for_other_lengths),
        cmocka_unit_test(test_bench_range_of_five_pieces),         cmocka_unit_test(test_bench_zones_of_side_play),
        cmocka_unit_test(test_record_of_a_straight_fence_finds_no_bow),
        cmocka_unit_test(test_bench_leaves_marked_in_the_other_unit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
