/* Readings of two diagonals. */
#include "job/tables.h"
#include "job/tools.h"

#include <math.h>

#define NOT_TRUE 0.01 /* share by which two diagonals may miss their sides before one of the four is mistyped */

static const struct field diagonals_fields[] = {
    {"width", .kind = VALUE_NUMBERS, .low = 50, .high = 5000, .most = 2, .required = true,
     AT(struct job_test, as.diagonals.width.v), MORE(struct job_test, as.diagonals.width.n),
     .mark_at = offsetof(struct job_test, as.diagonals.width.mark), .about = "left to right; a list: [near, far]"},
    {"depth", .kind = VALUE_NUMBERS, .low = 50, .high = 5000, .most = 2, .required = true,
     AT(struct job_test, as.diagonals.depth.v), MORE(struct job_test, as.diagonals.depth.n),
     .mark_at = offsetof(struct job_test, as.diagonals.depth.mark), .about = "near to far; a list: [left, right]"},
    {"d1", LENGTH(50, 8000), .required = true, AT(struct job_test, as.diagonals.d1),
     .about = "diagonal from the near left to the far right"},
    {"d2", LENGTH(50, 8000), .required = true, AT(struct job_test, as.diagonals.d2),
     .about = "diagonal from the near right to the far left"},
};

static double mean_of(const struct readings *a)
{
    double sum = 0;
    for (size_t i = 0; i < a->n; i++)
        sum += a->v[i];
    return sum / (double)a->n; /* NAN without readings */
}

/* In any parallelogram the squares of both diagonals are together those of all four sides. */
static void check_diagonals(struct reader *r, const struct node *map, void *out)
{
    struct job_test *t = out;
    const struct diagonals_readings *d = &t->as.diagonals;
    (void)map;
    double sides = hypot(mean_of(&d->width), mean_of(&d->depth)), across = hypot(d->d1.v, d->d2.v) / sqrt(2);
    if (fabs(across - sides) > NOT_TRUE * sides)
        diag_at(r->diags, DIAG_IMPLAUSIBLE, d->d1.mark, reader_key(r, "d1"),
                "diagonals of %s and %s do not belong to these sides, whose diagonal is about %s",
                reader_num(r, &d->d1), reader_num(r, &d->d2), reader_length(r, d->d1.mark, sides));
    tools_check_lengths(r, t, "a diagonal");
}

const struct table diagonals_table = {"diagonals", FIELDS(diagonals_fields), .extends = &test_table,
                                      .check = check_diagonals};
