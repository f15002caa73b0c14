/* The history of a method as a chart: error with its expanded uncertainty against the tolerance band, oldest to the
   left; moves and changes as dashed lines with their words; the drift's course dashed beyond the last test. The axis
   keeps time's order and, as far as neighbours do not touch, its proportions. */
#include "draw/model.h"

#include "base/utf8.h"
#include "words.h"

#include <math.h>
#include <stdlib.h>

enum { MOST_SHOWN = 24, EVENTS_IN_WORDS = 3, EVENT_CHARACTERS = 64 }; /* the newest; the record lists the rest */
static const double chart_width = 168, chart_height = 46; /* of the band's frame [mm of the model] */
static const double first_x = 14, last_x = 138;           /* of the first and the last test */
static const double room_for_zero = 5;                    /* between it and the figures of the band's edges */
static const double tick = 1.5;                           /* on the axis of dates, under a test */
static const double label_apart = 21;                     /* between tests that carry a date and a figure */
static const double drift_horizon = 365;                  /* days past the last test where no limit is met sooner */

struct point {
    const struct proof_test *test;
    double x, y, u; /* place; error and U over the tolerance's length [mm] */
    bool labelled;
};

struct chart {
    struct model m;
    struct point *points;
    size_t n, n_all;        /* shown, and in the job */
    double over, tolerance; /* length [mm]; tolerance over it [mm] */
    double range;           /* error at the upper edge [mm] */
    bool sizes;             /* errors without a sign: 0 is the lower edge */
};

static double y_of(const struct chart *c, double error)
{
    double share = fmax(-1, fmin(1, error / c->range));
    return c->sizes ? chart_height * fmax(0, share) : chart_height / 2 * (1 + share);
}

static const struct proof_test *last_of(const struct proof *proof, enum method method)
{
    const struct proof_test *last = NULL;
    for (size_t i = 0; i < proof->n_tests; i++)
        if (proof->tests[i].method == method)
            last = &proof->tests[i];
    return last;
}

/* Errors are in the result's unit: over a length where they are angles. What was measured last is shown, spreads or errors. */
static void collect_points(struct chart *c, const struct proof *proof, enum method method)
{
    const struct proof_test *last = last_of(proof, method);
    c->sizes = last && !proof_has_sign(last);
    c->points = pool_alloc(c->m.pool, (proof->n_tests + 1) * sizeof *c->points);
    for (size_t i = 0; i < proof->n_tests; i++) {
        const struct proof_test *t = &proof->tests[i];
        if (t->method != method || t->is_spread != last->is_spread)
            continue;
        c->over = t->over_length;
        c->tolerance = t->tolerance * t->over_length;
        c->points[c->n++] =
            (struct point){.test = t, .y = t->error_over, .u = t->expanded_uncertainty * t->over_length};
    }
    c->n_all = c->n;
    if (c->n > MOST_SHOWN) {
        c->points += c->n - MOST_SHOWN;
        c->n = MOST_SHOWN;
    }
}

static void choose_range(struct chart *c)
{
    c->range = 1.3 * c->tolerance;
    for (size_t i = 0; i < c->n; i++)
        c->range = fmax(c->range, 1.08 * (fabs(c->points[i].y) + c->points[i].u));
}

/* Steps in days, none less than `least` of the mean step; then stretched to the axis. */
static void spread_points(struct chart *c)
{
    double total = 0, whole = 0;
    long first = date_days(c->points[0].test->job->date), last = date_days(c->points[c->n - 1].test->job->date);
    double least = fmax(1, 0.45 * (double)(last - first) / (double)(c->n - 1));
    for (int pass = 0; pass < 2; pass++) {
        total = 0;
        for (size_t i = 0; i < c->n; i++) {
            if (i > 0)
                total += fmax(least, (double)(date_days(c->points[i].test->job->date) -
                                              date_days(c->points[i - 1].test->job->date)));
            c->points[i].x = first_x + (whole > 0 ? total / whole : 0) * (last_x - first_x);
        }
        whole = total;
    }
}

/* The newest is always labelled, then each that is far enough from the one after it. */
static void choose_labels(struct chart *c)
{
    double next = INFINITY;
    for (size_t i = c->n; i-- > 0;) {
        c->points[i].labelled = next - c->points[i].x >= label_apart;
        if (c->points[i].labelled)
            next = c->points[i].x;
    }
}

static const char *number_text(struct chart *c, enum say_kind kind, double v)
{
    struct text text = {0};
    words_number(&text, kind, v, c->m.units);
    const char *s = pool_string(c->m.pool, text_string(&text));
    text_free(&text);
    return s;
}

static const char *error_text(struct chart *c, double v)
{
    return number_text(c, c->sizes ? SAY_UNSIGNED : SAY_ERROR, v);
}

static void add_frame(struct chart *c)
{
    struct model *m = &c->m;
    double low = y_of(c, -c->tolerance), high = y_of(c, c->tolerance), zero = y_of(c, 0);
    add_box(m, 0, low, chart_width, high, LINE_NONE, FILL_TINT);
    add_line(m, 0, high, chart_width, high, LINE_NARROW);
    add_line(m, 0, zero, chart_width, zero, LINE_NARROW);
    add_label(m, 0, high, ANCHOR_LEFT, error_text(c, c->tolerance));
    if (!c->sizes) {
        add_line(m, 0, low, chart_width, low, LINE_NARROW);
        add_label(m, 0, low, ANCHOR_LEFT, error_text(c, -c->tolerance));
    }
    if (high - zero >= room_for_zero)
        add_label(m, 0, zero, ANCHOR_LEFT, "0");
    add_line(m, 0, 0, chart_width, 0, LINE_NARROW);
}

static void add_point(struct chart *c, const struct point *p)
{
    struct model *m = &c->m;
    double low = y_of(c, p->y - p->u), high = y_of(c, p->y + p->u), y = y_of(c, p->y), cap = 1.2;
    add_line(m, p->x, low, p->x, high, LINE_NARROW);
    add_line(m, p->x - cap, low, p->x + cap, low, LINE_NARROW);
    add_line(m, p->x - cap, high, p->x + cap, high, LINE_NARROW);
    add_circle(m, p->x, y, 0.8, LINE_NARROW, p->test->job->practice ? FILL_WHITE : FILL_BLACK);
    if (!p->labelled)
        return;
    char date[11];
    date_print(p->test->job->date, date);
    add_line(m, p->x, 0, p->x, -tick, LINE_NARROW);
    add_label(m, p->x, -6, ANCHOR_CENTRE, date);
    add_leader(m, p->x + 1.3, y, error_text(c, p->y))->anchor = ANCHOR_RIGHT;
}

/* Halfway to the next test. */
static double x_after(const struct chart *c, size_t i)
{
    return i + 1 < c->n ? (c->points[i].x + c->points[i + 1].x) / 2 : c->points[i].x + 6;
}

/* A move or a change between two tests. */
struct event {
    double x;
    const char *text;
};
struct events {
    struct event *list;
    size_t n;
};

static void collect_moves(struct chart *c, struct events *events)
{
    for (size_t i = 0; i < c->n; i++) {
        const struct job_moved *moved = &c->points[i].test->job->moved;
        if (!moved->given)
            continue;
        const char *key = moved->toward == TOWARD_AWAY ? "draw.moved_away" : "draw.moved_toward";
        struct saying saying = {.key = key, .arg = {SAY_ARG("distance", SAY_MOVE, moved->distance.v)}};
        events->list[events->n++] = (struct event){x_after(c, i), model_say(&c->m, saying)};
    }
}

/* What was done, or as much of it as a chart has room for, cut after a word: the table of changes tells the rest. */
static const char *name_change(struct chart *c, const struct job_change *change)
{
    const char *what = change->what.s;
    size_t end = 0;
    if (utf8_length(what) <= EVENT_CHARACTERS)
        return what;
    for (size_t i = 0; what[i] && i <= EVENT_CHARACTERS; i++)
        if (what[i] == ' ')
            end = i;
    return end ? pool_printf(c->m.pool, "%.*s\xC2\xA0…", (int)end, what) : words_get("draw.changed");
}

/* As in proof/history.c a change on the day of a test comes before it. It stands a little beside a move between the same
   tests. Those before the first test shown are left out. */
static void collect_changes(struct chart *c, const struct job *job, enum method method, struct events *events)
{
    for (size_t i = 0; i < job->n_changes; i++) {
        const struct job_change *change = &job->changes[i];
        size_t after = c->n;
        for (size_t k = 0; k < c->n; k++)
            if (date_compare(c->points[k].test->job->date, change->date) < 0)
                after = k;
        if (after < c->n && change->ends[method] && change->what.s)
            events->list[events->n++] = (struct event){x_after(c, after) + 1.5, name_change(c, change)};
    }
}

static int compare_events(const void *a, const void *b)
{
    double x = ((const struct event *)a)->x, y = ((const struct event *)b)->x;
    return (x > y) - (x < y);
}

/* Every event its line; the newest few their words. */
static void add_events(struct chart *c, const struct job *job, enum method method)
{
    struct events events = {.list = pool_alloc(c->m.pool, (c->n + job->n_changes + 1) * sizeof *events.list)};
    collect_moves(c, &events);
    collect_changes(c, job, method, &events);
    qsort(events.list, events.n, sizeof *events.list, compare_events);
    for (size_t i = 0; i < events.n; i++) {
        add_line(&c->m, events.list[i].x, 0, events.list[i].x, chart_height, LINE_HIDDEN);
        if (i + EVENTS_IN_WORDS >= events.n)
            add_leader(&c->m, events.list[i].x, 4, events.list[i].text)->anchor =
                events.list[i].x < chart_width / 2 ? ANCHOR_RIGHT : ANCHOR_LEFT; /* into the chart */
    }
}

/* From the last test on, as far as the limit or the horizon. */
static void add_drift(struct chart *c, const struct history *h)
{
    const struct point *last = &c->points[c->n - 1];
    if (!h->has_drift)
        return;
    double days = date_is_set(h->drift_due) ? (double)(date_days(h->drift_due) - date_days(last->test->job->date))
                                            : drift_horizon;
    if (days <= 0)
        return;
    double x1 = chart_width - 2, end = last->y + h->drift_per_day * c->over * days;
    double share = fabs(end) > c->range ? ((end > 0 ? c->range : -c->range) - last->y) / (end - last->y) : 1;
    add_line(&c->m, last->x, y_of(c, last->y), last->x + share * (x1 - last->x),
             y_of(c, last->y + share * (end - last->y)), LINE_HIDDEN);
    char date[11];
    date_print(date_from_days(date_days(last->test->job->date) + (long)days), date);
    add_label(&c->m, x1, -6, ANCHOR_CENTRE, date);
}

bool draw_history(const struct job *job, const struct proof *proof, enum method method, struct pool *pool,
                  struct drawing *out)
{
    struct chart c = {.m = model_begin(out, pool, job->units, "draw.title.history")};
    out->to_scale = false;
    collect_points(&c, proof, method);
    if (c.n < 2)
        return false;
    static const char *const titles[2][2] = {{"draw.title.history_length", "draw.title.history_length_last"},
                                             {"draw.title.history", "draw.title.history_last"}};
    struct saying title = {.key = titles[proof_is_angle(c.points[0].test)][c.n < c.n_all],
                           .arg = {SAY_ARG("over", SAY_SIZE, c.over)}};
    title.arg[1] = (struct say_arg)SAY_ARG("shown", SAY_COUNT, (double)c.n);
    title.arg[2] = (struct say_arg)SAY_ARG("all", SAY_COUNT, (double)c.n_all);
    out->title = model_say(&c.m, title);
    choose_range(&c);
    spread_points(&c);
    choose_labels(&c);
    add_frame(&c);
    add_events(&c, job, method);
    add_drift(&c, &proof->history[method]);
    for (size_t i = 0; i < c.n; i++)
        add_point(&c, &c.points[i]);
    return true;
}
