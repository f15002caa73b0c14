/* stock/exact.h: whether pieces can be sawn from given sheets at all, by trying everything. Owns nothing. Private to
   src/stock. */
#ifndef FETTLE_STOCK_EXACT_H
#define FETTLE_STOCK_EXACT_H

#include "stock/front.h"

enum { EXACT_PIECES_MOST = FRONT_PIECES_MOST };
enum exact_answer { EXACT_YES, EXACT_NO, EXACT_UNDECIDED };

struct exact_task {
    const struct piece *pieces;
    int n; /* at most EXACT_PIECES_MOST */
    const struct bin *bins;
    int n_bins;
    long nodes;
};
/* On EXACT_YES `out` is the layout. EXACT_NO is a proof: no guillotine layout holds all pieces. */
enum exact_answer exact_pack(const struct exact_task *, struct layout *out);

#endif
