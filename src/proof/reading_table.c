/* What is read is turned into an error, and that into a move, by one factor each: for angles this small the tangent is the
   angle, so that a row can be followed by hand. */
#include "proof/reading_table.h"

#include "proof/budget.h"
#include "proof/five_cut.h"
#include "proof/methods.h"

/* Round readings where no set of leaves says which there are; ascending. */
static const double steps_mm[] = {0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50, 0.60, 0.80, 1.00, 1.20, 1.50, 2.00};
static const double steps_in[] = {.002, .004, .006, .008, .010, .012, .016, .020, .025, .030, .040, .050, .060, .080};
enum { STEPS = sizeof steps_mm / sizeof *steps_mm };
_Static_assert(sizeof steps_mm == sizeof steps_in, "as many steps in inch jobs");

static void add_row(struct reading_table *t, double read, double taken)
{
    if (taken > t->out_above && t->n_rows < READING_ROWS_MOST)
        t->rows[t->n_rows++] = (struct reading_row){read, taken, taken * t->factor, taken * t->error_per_mm};
}

void reading_table_fill(struct reading_table *t, double tolerance, enum units units, bool gap, const struct job_instrument *leaves)
{
    t->has = true;
    t->by_leaf = gap && leaves;
    t->out_above = tolerance / t->error_per_mm;
    for (size_t i = 0; t->by_leaf && i < leaves->n_leaves; i++)
        add_row(t, leaves->leaves[i], gap_of(leaves->leaves[i], leaves->leaves, leaves->n_leaves, 0).value);
    for (int i = 0; !t->by_leaf && i < STEPS; i++) {
        double read = units == UNITS_IN ? steps_in[i] * MM_PER_INCH : steps_mm[i];
        add_row(t, read, read);
    }
}

void reading_tables_build(const struct job *job, const struct setting *setting, struct proof *proof)
{
    for (int m = 0; m < METHODS; m++)
        if (method_row((enum method)m)->reckon)
            method_row((enum method)m)->reckon(job, setting, proof_latest(proof, (enum method)m), five_cut_leaf_set(job),
                                               &proof->table[m]);
}
