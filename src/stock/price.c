/* The bound of Gilmore and Gomory ("A linear programming approach to the cutting-stock problem", Operations Research 9, 1961,
   and 13, 1965): the least number of sheets where patterns may be cut in fractions. Its linear programme has a row for each
   kind of piece (as many as are asked for) and for each class of equal offcuts (no more than there are), and a column for each
   pattern. Columns are made as they are needed: the prices of the rows tell which pattern would be worth more than its sheet.

   Doubles only propose. Before each new column the prices are rounded down to whole numbers and the dearest pattern of the
   sheet and of each offcut is found in whole numbers (see pattern.h); what price_proves makes of these holds whatever the
   doubles were (Farley, "A note on bounding a class of linear programming problems, including cutting stock problems",
   Operations Research 38, 1990; from memory). And they are the same on every machine: additions, multiplications and divisions of
   IEEE 754, each rounded by itself (the build forbids to join them), in the order written. */
#include "stock/price.h"

#include "stock/pattern.h"

#include <float.h>
#include <stdlib.h>
#include <string.h>

_Static_assert(FLT_EVAL_METHOD == 0, "sums of doubles are rounded to doubles");

enum { SCALE_MOST = 1 << 20, CLASSES_MOST = 16, ROWS_MOST = PRICE_KINDS_MOST + CLASSES_MOST };
enum { STEPS_A_NODE = 256, FILL_SHARE = 20 /* of all steps, one fill takes one in so many at the most */ };
static const double tiny = 1e-9, gain = 1e-7;

struct column {
    double of[ROWS_MOST];
    double cost; /* new sheets that it takes */
};
struct programme {
    int n_kinds, n_classes;
    struct piece kind[PRICE_KINDS_MOST];
    int count[PRICE_KINDS_MOST];
    struct bin class_of[CLASSES_MOST + 1]; /* the new sheet, then the offcuts */
    int n_of_class[CLASSES_MOST + 1];
    struct pattern_table table[CLASSES_MOST + 1];
    double inverse[ROWS_MOST][ROWS_MOST], level[ROWS_MOST], cost[ROWS_MOST]; /* of the basis */
    double dual[ROWS_MOST];
    int column_of[ROWS_MOST];                           /* of the basis; -1: one of those it began with */
    int limit[PRICE_KINDS_MOST];                        /* see pattern.h */
    struct column *columns;
    size_t n_columns, column_capacity;
    int64_t steps;
};

int price_proves(const int32_t *price, const int *count, int n_kinds, const int32_t *dearest, const int *n_of_class, int n_classes)
{
    int64_t worth = 0;

    for (int k = 0; k < n_kinds; k++)
        worth += (int64_t)price[k] * count[k];
    for (int c = 1; c <= n_classes; c++)
        worth -= (int64_t)dearest[c] * n_of_class[c];
    return worth > 0 && dearest[0] > 0 ? (int)((worth + dearest[0] - 1) / dearest[0]) : 0;
}

/* ---- rows ---- */

static bool gather_kinds(struct programme *p, const struct price_task *t)
{
    for (int i = 0; i < t->n; i++) {
        int k = 0;
        while (k < p->n_kinds && !piece_is_like(&p->kind[k], &t->pieces[i]))
            k++;
        if (k == PRICE_KINDS_MOST)
            return false;
        p->kind[k] = t->pieces[i];
        p->count[k]++;
        p->n_kinds += k == p->n_kinds;
    }
    return p->n_kinds > 0;
}

static bool gather_classes(struct programme *p, const struct price_task *t)
{
    p->class_of[0] = t->sheet;
    for (int i = 0; i < t->n_offcuts; i++) {
        int c = 1;
        while (c <= p->n_classes && (p->class_of[c].w != t->offcuts[i].w || p->class_of[c].h != t->offcuts[i].h))
            c++;
        if (c > CLASSES_MOST)
            return false;
        p->class_of[c] = t->offcuts[i];
        p->n_of_class[c]++;
        p->n_classes += c > p->n_classes;
    }
    return true;
}

static int rows(const struct programme *p)
{
    return p->n_kinds + p->n_classes;
}

/* ---- the simplex method, with the inverse of the basis ---- */

static struct column *new_column(struct programme *p, double cost)
{
    p->columns = mem_grow(p->columns, p->n_columns, &p->column_capacity, sizeof *p->columns);
    struct column *c = &p->columns[p->n_columns++];
    memset(c, 0, sizeof *c);
    c->cost = cost;
    return c;
}

/* To begin with each piece has a sheet of its own, and no offcut is used. A kind may be cut too often, an offcut left. */
static void start_basis(struct programme *p)
{
    memset(p->inverse, 0, sizeof p->inverse);
    for (int i = 0; i < rows(p); i++) {
        bool kind = i < p->n_kinds;
        p->inverse[i][i] = 1;
        p->level[i] = kind ? p->count[i] : p->n_of_class[i - p->n_kinds + 1];
        p->cost[i] = kind ? 1 : 0;
        p->column_of[i] = -1;
    }
}

static void start_columns(struct programme *p)
{
    for (int i = 0; i < rows(p); i++)
        new_column(p, 0)->of[i] = i < p->n_kinds ? -1 : 1;
}

static void find_duals(struct programme *p)
{
    for (int j = 0; j < rows(p); j++) {
        p->dual[j] = 0;
        for (int i = 0; i < rows(p); i++)
            p->dual[j] += p->cost[i] * p->inverse[i][j];
    }
}

static double gain_of(const struct programme *p, const struct column *c)
{
    double g = -c->cost;

    for (int i = 0; i < rows(p); i++)
        g += p->dual[i] * c->of[i];
    return g;
}

/* The row whose column leaves the basis for another: the one that is first at nothing. -1: none. */
static int leaving_row(const struct programme *p, const double *change)
{
    int row = -1;
    double least = 0;

    for (int i = 0; i < rows(p); i++) {
        if (change[i] <= tiny)
            continue;
        double ratio = p->level[i] / change[i];
        if (row < 0 || ratio < least - tiny || (ratio < least + tiny && change[i] > change[row])) {
            row = i;
            least = ratio;
        }
    }
    return row;
}

static bool enter_basis(struct programme *p, const struct column *c)
{
    double change[ROWS_MOST];
    int m = rows(p);

    for (int i = 0; i < m; i++) {
        change[i] = 0;
        for (int j = 0; j < m; j++)
            change[i] += p->inverse[i][j] * c->of[j];
    }
    int row = leaving_row(p, change);
    if (row < 0)
        return false;
    for (int j = 0; j < m; j++)
        p->inverse[row][j] /= change[row];
    p->level[row] /= change[row];
    p->cost[row] = c->cost;
    p->column_of[row] = (int)(c - p->columns);
    for (int i = 0; i < m; i++) {
        if (i == row)
            continue;
        for (int j = 0; j < m; j++)
            p->inverse[i][j] -= change[i] * p->inverse[row][j];
        p->level[i] -= change[i] * p->level[row];
        p->level[i] = p->level[i] < 0 ? 0 : p->level[i];
    }
    p->steps -= (int64_t)m * m;
    return true;
}

/* The best of the columns there are, until none is better than the basis. */
static void solve(struct programme *p)
{
    for (find_duals(p); p->steps > 0; find_duals(p)) {
        const struct column *best = NULL;
        double most = gain;
        for (size_t c = 0; c < p->n_columns; c++) {
            double g = gain_of(p, &p->columns[c]);
            if (g > most) {
                best = &p->columns[c];
                most = g;
            }
        }
        p->steps -= (int64_t)p->n_columns * rows(p);
        if (!best || !enter_basis(p, best))
            return;
    }
}

static double least_sheets(const struct programme *p)
{
    double z = 0;

    for (int i = 0; i < rows(p); i++)
        z += p->cost[i] * p->level[i];
    return z;
}

/* ---- columns ---- */

/* Adds the dearest pattern of each class where it is worth more than its bin; false where none is. */
static bool add_columns(struct programme *p, const int32_t *price)
{
    bool added = false;

    for (int c = 0; c <= p->n_classes; c++) {
        int uses[PRICE_KINDS_MOST];
        pattern_uses(&p->table[c], price, uses);
        struct column *column = new_column(p, c == 0);
        for (int k = 0; k < p->n_kinds; k++)
            column->of[k] = uses[k];
        if (c > 0)
            column->of[p->n_kinds + c - 1] = 1;
        if (gain_of(p, column) > gain)
            added = true;
        else
            p->n_columns--;
    }
    return added;
}

/* No price is above 1, what a piece costs that has a sheet of its own. */
static void round_prices(const struct programme *p, int32_t scale, int32_t *price)
{
    for (int k = 0; k < p->n_kinds; k++) {
        double d = p->dual[k] < 0 ? 0 : p->dual[k] > 1 ? 1 : p->dual[k];
        price[k] = (int32_t)(d * scale);
    }
}

static int generate_columns(struct programme *p, int32_t scale, int enough)
{
    int best = 0;

    while (p->steps > 0) {
        int32_t price[PRICE_KINDS_MOST], dearest[CLASSES_MOST + 1];
        solve(p);
        if (least_sheets(p) <= best + gain)
            return best; /* no prices prove one more */
        round_prices(p, scale, price);
        for (int c = 0; c <= p->n_classes; c++) {
            dearest[c] = pattern_dearest(&p->table[c], price);
            p->steps -= pattern_steps(&p->table[c]);
        }
        int proven = price_proves(price, p->count, p->n_kinds, dearest, p->n_of_class, p->n_classes);
        best = proven > best ? proven : best;
        if (best >= enough || !add_columns(p, price))
            return best;
    }
    return best;
}

static bool open_tables(struct programme *p, struct pool *pool)
{
    int64_t most = p->steps / FILL_SHARE / (p->n_classes + 1);

    for (int c = 0; c <= p->n_classes; c++)
        if (!pattern_open(&p->table[c], p->kind, p->limit, p->n_kinds, p->class_of[c], most, pool))
            return false;
    return true;
}

/* The kind to be counted next: one that the basis cuts from patterns that have more of it than there are; the dearer and the
   fewer, the sooner. -1: none. */
static int overused_kind(const struct programme *p)
{
    int kind = -1;
    double most = 0;

    for (int k = 0; k < p->n_kinds; k++) {
        double excess = 0;
        for (int i = 0; i < rows(p); i++)
            if (p->column_of[i] >= 0 && p->columns[p->column_of[i]].of[k] > p->count[k])
                excess += p->level[i] * (p->columns[p->column_of[i]].of[k] - p->count[k]);
        excess *= (p->dual[k] + 0.001) / ((p->count[k] + 1.0) * (p->count[k] + 2.0));
        if (excess > most && p->limit[k] == 0) {
            kind = k;
            most = excess;
        }
    }
    return kind;
}

/* From now on no pattern has more of a kind than there are. */
static void count_kind(struct programme *p, int kind)
{
    size_t n = 0;

    p->limit[kind] = p->count[kind];
    for (size_t c = 0; c < p->n_columns; c++)
        if (p->columns[c].of[kind] <= p->count[kind])
            p->columns[n++] = p->columns[c];
    p->n_columns = n;
}

static int32_t scale_of(const struct programme *p)
{
    int64_t scale = SCALE_MOST, pieces = 0;

    for (int c = 0; c <= p->n_classes; c++) {
        int64_t most = pattern_pieces_most(&p->table[c]);
        pieces = most > pieces ? most : pieces;
    }
    while (scale * (pieces + 1) > INT32_MAX)
        scale /= 2;
    return (int32_t)scale;
}

static void tell_values(const struct programme *p, const struct price_task *t)
{
    int32_t price[PRICE_KINDS_MOST];

    round_prices(p, SCALE_MOST, price);
    for (int i = 0; i < t->n; i++)
        for (int k = 0; k < p->n_kinds; k++)
            if (piece_is_like(&p->kind[k], &t->pieces[i]))
                t->value[i] = price[k] + 1;
}

int price_bound(const struct price_task *t)
{
    struct pool pool = {0};
    struct programme *p = pool_alloc(&pool, sizeof *p);
    int best = 0;

    p->steps = (int64_t)t->nodes * STEPS_A_NODE;
    if (gather_kinds(p, t) && gather_classes(p, t)) {
        start_columns(p);
        while (best < t->enough && open_tables(p, &pool)) {
            start_basis(p);
            int proven = generate_columns(p, scale_of(p), t->enough);
            best = proven > best ? proven : best;
            int kind = overused_kind(p);
            if (!t->counted || kind < 0)
                break;
            count_kind(p, kind);
        }
    }
    if (t->value)
        tell_values(p, t);
    free(p->columns);
    pool_free(&pool);
    return best;
}
