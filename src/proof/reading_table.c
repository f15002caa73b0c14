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
#define SAME 1e-6                      /* readings nearer to each other than this are the same [mm] */

/* Ascending: a larger reading never shows less. */
enum shown { SHOWN_WITHIN, SHOWN_UNCLEAR, SHOWN_LIKELY, SHOWN_OUT };

struct table_maker {
    struct proving p;
    enum method method;
    struct job_test test;               /* the latest, or one of nothing but its method */
    const struct job_instrument *leaves; /* what a gap is read with; NULL: no leaves */
    struct reading_table *t;
    struct zones *z;
};

static enum shown show(struct table_maker *m, double read)
{
    struct proof_test found = {.job = &m->test, .method = m->method, .unit = "rad", .further_strips = -1};
    method_row(m->method)->read(m->t->at, &read, &m->test);
    method_row(m->method)->prove(&m->p, &m->test, &found);
    if (found.finding == FINDING_WITHIN)
        return SHOWN_WITHIN;
    if (found.finding == FINDING_OUTSIDE)
        return SHOWN_OUT;
    return found.has_move && found.move.advice == ADVICE_MOVE ? SHOWN_LIKELY : SHOWN_UNCLEAR;
}

/* ---- zones of a reading ---- */

static void find_zones_of_leaves(struct table_maker *m)
{
    if (show(m, 0) == SHOWN_WITHIN) /* no leaf goes */
        m->z->leave_to = 0;
    for (size_t i = 0; i < m->leaves->n_leaves; i++) {
        double leaf = m->leaves->leaves[i];
        enum shown shown = show(m, leaf);
        if (shown == SHOWN_WITHIN)
            m->z->leave_to = leaf;
        if (shown >= SHOWN_LIKELY && isnan(m->z->move_from))
            m->z->move_from = leaf;
        if (shown == SHOWN_OUT && isnan(m->z->out_from))
            m->z->out_from = leaf;
    }
}

/* The least number of steps that shows at least so much; -1: none does. */
static long least_steps(struct table_maker *m, double step, enum shown at_least)
{
    long low = -1, high = 1; /* low does not, high does */
    while (high < READS_MOST && show(m, (double)high * step) < at_least) {
        low = high;
        high *= 2;
    }
    if (high >= READS_MOST)
        return -1;
    while (high - low > 1) {
        long middle = (low + high) / 2;
        *(show(m, (double)middle * step) < at_least ? &low : &high) = middle;
    }
    return high;
}

static void find_zones_of_steps(struct table_maker *m, double step)
{
    long unclear = least_steps(m, step, SHOWN_UNCLEAR), likely = least_steps(m, step, SHOWN_LIKELY),
         out = least_steps(m, step, SHOWN_OUT);
    if (unclear > 0)
        m->z->leave_to = (double)(unclear - 1) * step;
    if (likely >= 0)
        m->z->move_from = (double)likely * step;
    if (out >= 0)
        m->z->out_from = (double)out * step;
}

/* ---- rows ---- */

static size_t list_candidates(const struct table_maker *m, double out[CANDIDATES_MOST])
{
    size_t n = 0, of = m->leaves ? m->leaves->n_leaves : STEPS;
    const double *steps = m->p.job->units == UNITS_IN ? steps_in : steps_mm;
    double scale = m->p.job->units == UNITS_IN ? MM_PER_INCH : 1;
    if (!m->leaves)
        out[n++] = m->z->move_from;
    for (size_t i = 0; i < of && n < CANDIDATES_MOST - 1; i++) {
        double read = m->leaves ? m->leaves->leaves[i] : steps[i] * scale;
        if (read > m->z->move_from - (n ? -SAME : SAME))
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
    if (isnan(m->z->move_from) || !(m->t->factor > 0))
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
    choose_tool(m, latest);
    if (m->leaves)
        find_zones_of_leaves(m);
    else
        find_zones_of_steps(m, step_of(m));
    fill_rows(m);
}

/* Of the error itself, with readings as fine as those of the latest test: the rule of advice_choose, rounded outward. */
static void find_zones_of_error(const struct proof_test *latest, enum units units, struct zones *z)
{
    double place = units == UNITS_IN ? 0.0001 * MM_PER_INCH : 0.001;
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
