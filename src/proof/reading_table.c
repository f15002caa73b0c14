/* What is read is turned into an error, and that into a move, by one factor each: for angles this small the tangent is the
   angle, so that a row can be followed by hand. */
#include "proof/reading_table.h"

#include "proof/budget.h"
#include "proof/five_cut.h"
#include "proof/methods.h"

#include <math.h>

/* Round readings where no set of leaves says which there are; ascending. */
static const double steps_mm[] = {0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50, 0.60, 0.80, 1.00, 1.20, 1.50, 2.00};
static const double steps_in[] = {.002, .004, .006, .008, .010, .012, .016, .020, .025, .030, .040, .050, .060, .080};
enum { STEPS = sizeof steps_mm / sizeof *steps_mm, CANDIDATES_MOST = 128, READS_MOST = 1 << 20 };
_Static_assert(sizeof steps_mm == sizeof steps_in, "as many steps in inch jobs");

#define STEP_IN (0.0005 * MM_PER_INCH) /* what a tool of a job in inches shows at least [mm] */
#define SHORTER 0.9                     /* of the last length: what the zones hold for, too (judgement) */
#define HOLDS_TO 8                      /* and up to so many times that (judgement) */
#define EDGE_WITHIN 1e-3                /* of a length; what is found errs to the side of saying less */
#define SAME 1e-6                      /* readings nearer to each other than this are the same [mm] */

/* Ascending: a larger reading never shows less. */
enum shown { SHOWN_WITHIN, SHOWN_UNCLEAR, SHOWN_LIKELY, SHOWN_OUT };

struct table_maker {
    struct proving p;
    enum method method;
    struct job_test test;               /* the latest, or one of nothing but its method */
    const struct job_instrument *leaves; /* what a gap is read with; NULL: no leaves */
    double first;                       /* reading from which on a move is advised, at the table's length [mm]; NAN: none */
    struct reading_table *t;
    struct zones *z;
};

/* A test of that reading, made at that length. What it keeps in the pool is gone: only its numbers are looked at. */
static struct proof_test prove_reading(struct table_maker *m, double read, double at)
{
    struct proof_test found = {.job = &m->test, .method = m->method, .unit = "rad", .further_strips = -1};
    method_row(m->method)->read(at, &read, &m->test);
    method_row(m->method)->prove(&m->p, &m->test, &found);
    pool_free(m->p.pool);
    return found;
}

static enum shown show(struct table_maker *m, double read, double at)
{
    struct proof_test found = prove_reading(m, read, at);
    if (found.finding == FINDING_WITHIN)
        return SHOWN_WITHIN;
    if (found.finding == FINDING_OUTSIDE)
        return SHOWN_OUT;
    return found.has_move && found.move.advice == ADVICE_MOVE ? SHOWN_LIKELY : SHOWN_UNCLEAR;
}

/* Its size over the tolerance's length [mm] */
static double error_of(struct table_maker *m, double read, double at)
{
    struct proof_test found = prove_reading(m, read, at);
    return fabs(found.error) * found.over_length;
}

/* ---- zones: of the error, for any length from `least_at` up ---- */

static double place_of(enum units units)
{
    return units == UNITS_IN ? 0.0001 * MM_PER_INCH : 0.001;
}

/* The length from which on that reading shows less than `shown`; at `low` it does not, at `high` it does. */
struct edge {
    double low, high;
};

static struct edge find_edge(struct table_maker *m, double read, enum shown shown)
{
    struct edge e = {m->z->least_at, HOLDS_TO * m->z->least_at};
    while (e.high - e.low > EDGE_WITHIN * e.high) {
        double middle = (e.low + e.high) / 2;
        *(show(m, read, middle) >= shown ? &e.low : &e.high) = middle;
    }
    return e;
}

/* Where that reading has that error: a board twice as long shows half of it. */
static double length_of_error(struct table_maker *m, double read, double error)
{
    double from = m->z->least_at;
    return fmin(fmax(from * error_of(m, read, from) / error, from), HOLDS_TO * from);
}

/* A longer board shows less by the same leaf. Of all leaves and lengths: the least error that shows so much. A leaf that does not
   at the least error so far is not looked at further. */
static double least_error(struct table_maker *m, enum shown shown)
{
    double least = INFINITY, to = HOLDS_TO * m->z->least_at;
    for (size_t i = 0; i <= m->leaves->n_leaves; i++) {
        double read = i ? m->leaves->leaves[i - 1] : 0; /* 0: no leaf goes */
        if (show(m, read, length_of_error(m, read, least)) < shown)
            continue;
        least = fmin(least, error_of(m, read, show(m, read, to) >= shown ? to : find_edge(m, read, shown).high));
    }
    return least;
}

/* The largest error that does not. */
static double largest_error_below(struct table_maker *m, enum shown shown)
{
    double largest = 0, from = m->z->least_at;
    for (size_t i = 0; i <= m->leaves->n_leaves; i++) {
        double read = i ? m->leaves->leaves[i - 1] : 0;
        if (largest > 0 ? error_of(m, read, from) <= largest || show(m, read, length_of_error(m, read, largest)) >= shown
                        : show(m, read, HOLDS_TO * from) >= shown)
            continue;
        largest = fmax(largest, error_of(m, read, show(m, read, from) < shown ? from : find_edge(m, read, shown).low));
    }
    return largest;
}

static double error_from(struct table_maker *m, enum shown shown)
{
    double thickest = m->leaves->leaves[m->leaves->n_leaves - 1], place = place_of(m->p.job->units);
    if (show(m, thickest, m->z->least_at) < shown)
        return NAN;
    return (floor(largest_error_below(m, shown) / place + SAME) + 1) * place;
}

static void find_zones_of_leaves(struct table_maker *m)
{
    double place = place_of(m->p.job->units);
    if (show(m, 0, m->z->least_at) == SHOWN_WITHIN)
        m->z->leave_to = (ceil(least_error(m, SHOWN_UNCLEAR) / place - SAME) - 1) * place;
    m->z->move_from = error_from(m, SHOWN_LIKELY);
    m->z->out_from = error_from(m, SHOWN_OUT);
    for (size_t i = m->leaves->n_leaves; i-- > 0;)
        if (show(m, m->leaves->leaves[i], m->t->at) >= SHOWN_LIKELY)
            m->first = m->leaves->leaves[i];
}

/* The least number of steps that shows at least so much; -1: none does. */
static long least_steps(struct table_maker *m, double step, double at, enum shown at_least)
{
    long low = -1, high = 1; /* low does not, high does */
    while (high < READS_MOST && show(m, (double)high * step, at) < at_least) {
        low = high;
        high *= 2;
    }
    if (high >= READS_MOST)
        return -1;
    while (high - low > 1) {
        long middle = (low + high) / 2;
        *(show(m, (double)middle * step, at) < at_least ? &low : &high) = middle;
    }
    return high;
}

/* Where every reading can be told the shortest length has the largest uncertainty. */
static void find_zones_of_steps(struct table_maker *m, double step)
{
    double place = place_of(m->p.job->units), at = m->z->least_at;
    long unclear = least_steps(m, place, at, SHOWN_UNCLEAR), likely = least_steps(m, place, at, SHOWN_LIKELY),
         out = least_steps(m, place, at, SHOWN_OUT), first = least_steps(m, step, m->t->at, SHOWN_LIKELY);
    if (unclear > 0)
        m->z->leave_to = floor(error_of(m, (double)(unclear - 1) * place, at) / place + SAME) * place;
    if (likely >= 0)
        m->z->move_from = ceil(error_of(m, (double)likely * place, at) / place - SAME) * place;
    if (out >= 0)
        m->z->out_from = ceil(error_of(m, (double)out * place, at) / place - SAME) * place;
    if (first >= 0)
        m->first = (double)first * step;
}

/* A little shorter than last time is no other board. To what a rule shows, upward. */
static double least_length(enum units units, double at)
{
    double place = units == UNITS_IN ? MM_PER_INCH / 8 : 1;
    return ceil(SHORTER * at / place - SAME) * place;
}

/* ---- rows ---- */

static size_t list_candidates(const struct table_maker *m, double out[CANDIDATES_MOST])
{
    size_t n = 0, of = m->leaves ? m->leaves->n_leaves : STEPS;
    const double *steps = m->p.job->units == UNITS_IN ? steps_in : steps_mm;
    double scale = m->p.job->units == UNITS_IN ? MM_PER_INCH : 1;
    if (!m->leaves)
        out[n++] = m->first;
    for (size_t i = 0; i < of && n < CANDIDATES_MOST - 1; i++) {
        double read = m->leaves ? m->leaves->leaves[i] : steps[i] * scale;
        if (read > m->first - (n ? -SAME : SAME))
            out[n++] = read;
    }
    if (n && m->t->last > out[n - 1] + SAME)
        out[n++] = m->t->last; /* beyond them all, and read all the same: leaves laid together */
    return n;
}

static void add_row(const struct table_maker *m, double read)
{
    const struct job_instrument *set = m->leaves;
    double taken = set ? gap_of(read, set->leaves, set->n_leaves, 0).value : read;
    m->t->rows[m->t->n_rows++] = (struct reading_row){read, taken, taken * m->t->factor, taken * m->t->error_per_mm};
}

/* As many as there is room for, or, to reach what was read last, the first and that and others spread between. */
static void fill_rows(const struct table_maker *m)
{
    double reads[CANDIDATES_MOST];
    if (isnan(m->first) || !(m->t->factor > 0))
        return;
    size_t all = list_candidates(m, reads), of = all < READING_ROWS_MOST ? all : READING_ROWS_MOST, n = of;
    while (of < all && reads[of - 1] < m->t->last - SAME)
        of++;
    for (size_t i = 0; i < n; i++)
        add_row(m, reads[n > 1 ? i * (of - 1) / (n - 1) : 0]);
}

/* ---- of every method ---- */

/* Leaves where the latest test was read with them, or before any where the job has a set. */
static void choose_tool(struct table_maker *m, const struct proof_test *latest)
{
    if (!latest)
        m->test.instrument = five_cut_leaf_set(m->p.job);
    const struct job_instrument *i = m->test.instrument;
    m->leaves = m->t->reads_gap && i && i->kind == INSTRUMENT_FEELER && i->n_leaves > 0 ? i : NULL;
    m->t->by_leaf = m->leaves;
}

static double step_of(const struct table_maker *m)
{
    double step = instrument_tool(m->test.instrument, 1).resolution;
    return m->p.job->units == UNITS_IN ? fmax(1, ceil(step / STEP_IN - SAME)) * STEP_IN : step;
}

static void build_table(struct table_maker *m, const struct proof_test *latest)
{
    if (!method_row(m->method)->reckon(&m->p, latest, m->t))
        return;
    m->test = latest ? *latest->job : (struct job_test){.method = m->method};
    m->t->has = m->z->has = true;
    m->z->least_at = least_length(m->p.job->units, m->t->at);
    choose_tool(m, latest);
    m->t->per = prove_reading(m, 0, m->t->at).over_length;
    if (m->leaves)
        find_zones_of_leaves(m);
    else
        find_zones_of_steps(m, step_of(m));
    fill_rows(m);
}

/* Of the error itself, with readings as fine as those of the latest test: the rule of advice_choose, rounded outward. */
static void find_zones_of_error(const struct proof_test *latest, enum units units, struct zones *z)
{
    double place = place_of(units);
    double limit = latest->tolerance * latest->over_length, u = latest->expanded_uncertainty * latest->over_length;
    z->has = true;
    if (limit >= u)
        z->leave_to = floor((limit - u) / place + SAME) * place;
    z->move_from = fmax(floor(limit / place + SAME) + 1, ceil(u / place - SAME)) * place;
    z->out_from = (floor((limit + u) / place + SAME) + 1) * place;
}

void reading_tables_build(const struct job *job, const struct setting *setting, struct proof *proof)
{
    struct pool scratch = {0};
    for (int method = 0; method < METHODS; method++) {
        const struct proof_test *latest = proof_latest(proof, (enum method)method);
        struct zones *z = &proof->zones[method];
        struct table_maker m = {.p = {.job = job, .setting = setting, .pool = &scratch},
                                .method = (enum method)method,
                                .first = NAN,
                                .t = &proof->table[method],
                                .z = z};
        *z = (struct zones){.leave_to = NAN, .move_from = NAN, .out_from = NAN};
        if (method_row(m.method)->reckon)
            build_table(&m, latest);
        else if (latest)
            find_zones_of_error(latest, job->units, z);
    }
    pool_free(&scratch);
}
