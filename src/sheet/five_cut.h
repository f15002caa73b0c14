/* sheet/five_cut.h: the parts of the five-cut method's row. Private to src/sheet. */
#ifndef FETTLE_SHEET_FIVE_CUT_H
#define FETTLE_SHEET_FIVE_CUT_H

#include "sheet/methods.h"

/* Places of widths and their differences: enough for what follows from them, which are more for a short board. */
int five_cut_width_places(const struct sheet_builder *, const struct proof_test *);
/* five_cut_sum.c: the sum line by line. Every line can be worked from printed figures and then agrees with the printed
   result within one unit of its last place. */
void five_cut_add_sum(const struct sheet_builder *, struct block_list *, const struct proof_test *);
void five_cut_add_budget(const struct sheet_builder *, struct block_list *, const struct proof_test *);

/* method_five_cut.c */
void five_cut_add_reckoner(const struct sheet_builder *, struct block_list *, int most_rows);
/* The same without what the bench form says already: when to leave it alone, which way by which end. */
void five_cut_add_reckoner_table(const struct sheet_builder *, struct block_list *, int most_rows);
int reckoner_leaves_most(const struct reckoner *); /* feeler leaves that a row asks for; 0: the job has no set */
/* "Leave it alone if the ends differ by less than 0.44 mm …", or what to do where no difference is small enough. */
const char *five_cut_leave_alone(const struct sheet_builder *);

/* five_cut_bench.c */
void five_cut_add_bench(const struct sheet_builder *, struct block_list *);

#endif
