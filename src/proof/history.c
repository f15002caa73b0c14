/* History. A `moved` comes after the test that notes it. A change dated on the day of a test comes before that test:
   saws are worked on first and tested then. */
#include "proof/history.h"

#include "proof/methods.h"
#include "proof/statistics.h"
#include "proof/verdict.h"

#include <math.h>

/* Judgement: tests of one sitting show no drift, and nobody plans beyond ten years. [days] */
enum { DRIFT_LEAST_TESTS = 3, DRIFT_LEAST_DAYS = 14, TEN_YEARS = 3652 };

static const struct date END_OF_TIME = {9999, 12, 31};

/* The last change that ends proofs of the method, later than `after` and not later than `until`; NULL: none. */
static const struct job_change *find_change(const struct job *job, enum method m, struct date after, struct date until)
{
    const struct job_change *found = NULL;
    for (size_t i = 0; i < job->n_changes; i++) {
        const struct job_change *c = &job->changes[i];
        bool inside = date_compare(c->date, after) > 0 && date_compare(c->date, until) <= 0;
        if (c->ends[m] && inside && (!found || date_compare(c->date, found->date) > 0))
            found = c;
    }
    return found;
}

/* The last test from index `from` on after which something was moved that the method measures; NULL: none. */
static const struct proof_test *find_move(const struct proof *p, enum method m, size_t from)
{
    for (size_t i = p->n_tests; i-- > from;)
        if (methods_share_a_move(p->tests[i].method, m) && p->tests[i].job->moved.given)
            return &p->tests[i];
    return NULL;
}

static const char *date_text(struct pool *pool, struct date d)
{
    char s[11];
    date_print(d, s);
    return pool_string(pool, s);
}

static struct saying say_overtaken(struct proof *p, const struct proof_test *moved, const struct job_change *change)
{
    if (moved)
        return SAYING(method_row(moved->method)->is_of_fence ? "stale.moved" : "stale.moved_it", SAY_STR("date", date_text(&p->pool, moved->job->date)));
    return SAYING("stale.changed", SAY_STR("date", date_text(&p->pool, change->date)),
                  SAY_STR("what", change->what.s ? change->what.s : ""));
}

static void judge_standing(const struct job *job, enum method m, struct proof *p)
{
    size_t last = p->n_tests;
    for (size_t i = 0; i < p->n_tests; i++)
        if (p->tests[i].method == m && !p->tests[i].job->practice)
            last = i;
    if (last == p->n_tests)
        return;
    struct proof_test *t = &p->tests[last];
    const struct proof_test *moved = find_move(p, m, last);
    const struct job_change *change = find_change(job, m, t->job->date, END_OF_TIME);
    t->stale = moved || change;
    t->counts = !t->stale;
    if (t->stale)
        t->stale_reason = say_overtaken(p, moved, change);
}

static double error_after(const struct proof_test *t, double error, const struct job_moved *moved)
{
    const struct method_row *row = method_row(t->method);
    return row->after_move ? row->after_move(t, error, moved) : NAN;
}

static struct job_moved reverse_move(struct job_moved m)
{
    m.toward = m.toward == TOWARD_OPERATOR ? TOWARD_AWAY : TOWARD_OPERATOR;
    return m;
}

static void compare_with_expected(struct proof_test *t, double expected, double opposite)
{
    t->expected_error = expected;
    t->wrong_way = fabs(t->error - expected) - fabs(t->error - opposite) > t->expanded_uncertainty;
    if (t->wrong_way)
        t->wrong_way_caution = SAYING("wrong_way", SAY_ARG("error", SAY_ERROR, t->error_over),
                                      SAY_ARG("expected", SAY_ERROR, expected * t->over_length),
                                      SAY_ARG("length", SAY_SIZE, t->over_length));
}

/* Follows the error through every move as noted, by whichever method that measures what is moved, and as if each had been
   made the other way; a test that is no practice starts anew, and a change to saw or jig ends what can be expected. */
static void judge_moves(const struct job *job, enum method m, struct proof *p)
{
    const struct proof_test *base = NULL;
    double expected = NAN, opposite = NAN;
    bool moved = false;
    for (struct proof_test *t = p->tests; t < p->tests + p->n_tests; t++) {
        if (!methods_share_a_move(t->method, m))
            continue;
        if (t->method == m)
            t->expected_error = NAN;
        if (t->method == m && moved && !find_change(job, m, base->job->date, t->job->date))
            compare_with_expected(t, expected, opposite);
        if (!t->job->practice) {
            base = t;
            expected = opposite = t->error;
            moved = false;
        }
        if (base && t->job->moved.given) {
            struct job_moved reversed = reverse_move(t->job->moved);
            expected = error_after(t, expected, &t->job->moved);
            opposite = error_after(t, opposite, &reversed);
            moved = true;
        }
    }
}

static void set_due_dates(const struct job *job, enum method m, struct proof *p)
{
    for (size_t i = 0; i < p->n_tests && job->retest_months.given; i++)
        if (p->tests[i].method == m && !p->tests[i].job->practice)
            p->tests[i].due = date_add_months(p->tests[i].job->date, (int)lround(job->retest_months.v));
}

static bool is_in_segment(const struct job *job, const struct proof *p, size_t i, enum method m)
{
    const struct proof_test *t = &p->tests[i];
    return t->method == m && !t->job->practice && !find_move(p, m, i) &&
           !find_change(job, m, t->job->date, END_OF_TIME);
}

static void find_range(const struct job *job, const struct proof *p, struct history *h)
{
    h->first = h->last = h->segment_first = -1;
    for (size_t i = 0; i < p->n_tests; i++) {
        if (p->tests[i].method != h->method)
            continue;
        h->first = h->first < 0 ? (int)i : h->first;
        h->last = (int)i;
        if (is_in_segment(job, p, i, h->method)) {
            h->segment_first = h->segment_first < 0 ? (int)i : h->segment_first;
            h->n_segment++;
        }
    }
}

double history_days_left(double error, double drift, double limit)
{
    if (fabs(error) >= limit)
        return 0;
    if (drift == 0)
        return INFINITY;
    return (drift > 0 ? limit - error : limit + error) / fabs(drift);
}

static void set_drift_due(const struct proof_test *last, struct history *h)
{
    if (!last->counts || last->finding != FINDING_WITHIN)
        return;
    double days = history_days_left(h->fitted_last, h->drift_per_day, last->tolerance - last->expanded_uncertainty);
    if (days <= TEN_YEARS)
        h->drift_due = date_from_days(date_days(last->job->date) + (long)floor(days));
}

/* Least squares of error on date over the segment; its confidence by Student t on the scatter about the line (GUM 4.2,
   H.3, from memory). */
static void fit_drift(struct proof *p, struct history *h)
{
    if (h->n_segment < DRIFT_LEAST_TESTS)
        return;
    double *days = pool_alloc(&p->pool, (size_t)h->n_segment * sizeof *days);
    double *errors = pool_alloc(&p->pool, (size_t)h->n_segment * sizeof *errors);
    const struct proof_test *last = NULL;
    size_t n = 0;
    for (size_t i = (size_t)h->segment_first; n < (size_t)h->n_segment; i++) {
        if (p->tests[i].method != h->method || p->tests[i].job->practice)
            continue;
        last = &p->tests[i];
        if (last->is_spread != p->tests[h->segment_first].is_spread)
            return;
        days[n] = (double)(date_days(last->job->date) - date_days(p->tests[h->segment_first].job->date));
        errors[n++] = last->error;
    }
    if (days[n - 1] < DRIFT_LEAST_DAYS)
        return;
    struct stat_line line = stat_fit_line(days, errors, n);
    h->has_drift = true;
    h->drift_per_day = line.slope;
    h->drift_u = stat_student_quantile((1 + CONFIDENCE) / 2, line.dof) * line.u_slope;
    h->fitted_last = line.mean_y + line.slope * (days[n - 1] - line.mean_x);
    set_drift_due(last, h);
}

void history_build(const struct job *job, enum method m, struct proof *p)
{
    struct history *h = &p->history[m];
    h->method = m;
    judge_standing(job, m, p);
    judge_moves(job, m, p);
    set_due_dates(job, m, p);
    find_range(job, p, h);
    fit_drift(p, h);
}
