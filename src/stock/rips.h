/* stock/rips.h: long parts of one width ripped together, and no cut for a sliver. Owns nothing. Private to src/stock. */
#ifndef FETTLE_STOCK_RIPS_H
#define FETTLE_STOCK_RIPS_H

#include "stock/saw.h"

/* Panels beside each other that are each ripped to one width are ripped as one length and crosscut after, if no setting comes
   in by that: of strips always, for a long piece is the safer one to rip; of sheets where it saves a cut. `trial` has room
   for the layout, `scratch` for l->n numbers. */
void rips_join(struct layout *, const struct saw *, struct layout *trial, int64_t *scratch);
/* Of a strip, whose parts are planed: a part is ripped before its waste is sawn off the end; and where a rip would take less
   than the kerf off, the part keeps that and is planed the more. */
void rips_of_strip(struct layout *, const struct saw *);

#endif
