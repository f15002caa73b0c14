/* cutting.h: how the parts are cut from sheets and strips: layouts, cuts in sawing order, what is left, what to buy.
   Made by src/stock from a job and its plan. May be included by outcome, draw, sheet, results, run.

   Parts are cut from the stock that they name. Another stock of the job that no part names, of the same material and
   thickness (strip: the same section and rings), smaller, and with `have`, is a heap of offcuts on the rack: those are used
   first where that saves new stock or leaves more of it in one piece.

   A part of a strip is cut to length and planed to its width and thickness. Where the strip is wide enough for two of them
   it is laid out as a sheet is, each part ripped 1 mm or 1/32 in over, to the next 0.5 mm or 1/64 in; else each takes the
   whole width.

   Frame of a sheet: x along the face grain from its left edge, y across it from the near edge; of a strip x along its
   length. Everything in mm. */
#ifndef FETTLE_CUTTING_H
#define FETTLE_CUTTING_H

#include "plan.h"

enum cut_source { CUT_FROM_OFFCUT, CUT_FROM_RACK, CUT_FROM_BOUGHT }; /* a heap of offcuts; the stock's `have`; to be bought */

struct cut_area {
    double x, y, w, h;
};
struct cut_piece {
    const struct plan_part *part; /* borrowed from the plan */
    struct cut_area at;
    bool turned;                  /* its length lies across the sheet's grain */
};
struct cut_rest {
    struct cut_area at;
    int number;                   /* of an offcut worth keeping, from 1 in each stock, largest first; 0: waste */
};
/* One sheet or strip that is cut into. */
struct cut_sheet {
    const struct job_stock *stock; /* borrowed from the job; the heap's for an offcut */
    enum cut_source source;
    double w, h;                   /* whole, edges untrimmed */
    struct cut_piece *pieces;
    size_t n_pieces;
    struct cut_rest *rests;
    size_t n_rests;
    size_t alike;                  /* the first sheet of its stock that is the same and is cut the same way; its own index */
    size_t n_alike;                /* of them, with itself */
};
/* How a panel is held at a cut. Along the rip fence goes only what is at least shortest_at_fence long beside it and longer
   there than it is wide: common practice, no source. All else lies on a sled or at the mitre gauge, and strips are crosscut
   against a stop: by hand only what is at least shortest_in_hand long, as saw makers' manuals ask of crosscuts (6 in), and
   no rip narrower than narrow_rip: common practice, no source. Layouts avoid what is too short wherever the sheets suffice:
   short parts stay on strips long enough for the fence until they are cut off. */
enum cut_way {
    CUT_AT_FENCE,  /* along the rip fence */
    CUT_AT_STOP,   /* of a strip: crosscut with the gauge or a sled against a stop */
    CUT_ON_SLED,   /* with the gauge or on a sled, against a stop */
    /* from here on no fence and no stop is set */
    CUT_TOO_LARGE, /* for the table: by hand */
    CUT_PAST_FENCE, /* the fence does not reach so far: by hand */
    CUT_PAST_GAUGE, /* too wide for the gauge, and too short for the fence: by hand */
    CUT_TOO_SHORT  /* to be held at the saw: with a handsaw */
};
/* One cut, right across the panel that lies on the saw at that moment. */
struct cut_line {
    int sheet;            /* index in the stock's sheets */
    int number;           /* as it is sawn, from 1; sheets that are alike are sawn together, and their cuts share a number;
                             so do both edges, or both ends, of a sheet that are trimmed by eye */
    struct cut_area panel; /* before the cut */
    bool along_y;         /* the blade runs along y, at a constant x; else along x */
    double kerf_from, kerf_to; /* what the blade takes, in x (along_y) or y; off the panel's edge it ends at the edge */
    double fence;         /* size of the part between blade and fence, stop or mark, at lower x or y … */
    bool keeps_higher;    /* … or at higher x or y: the second of two rough edges, the fresh one at the fence */
    enum cut_way way;
    int setting;          /* index in the stock's settings; -1: none, trimmed by eye */
    bool trims;           /* takes a rough edge off a new sheet; by eye unless it lies at the fence */
    bool overhangs;       /* the panel is wider across the blade, or longer beside it, than the table */
};
/* Cuts one after another with the fence, or the stop, where it is. The same setting can come again later. */
struct cut_setting {
    double fence;
    size_t first_cut, n_cuts;
};

/* All parts that name one stock. */
struct cutting_stock {
    const struct job_stock *stock; /* borrowed from the job */
    bool laid_out;        /* false: the strip's length is not stated, no part fits, or there are more pieces than can be laid out */
    struct cut_sheet *sheets; /* those that are cut into, in the order in which they are first sawn */
    size_t n_sheets;
    struct cut_line *cuts; /* in sawing order but for those that share a number */
    size_t n_cuts;
    struct cut_setting *settings;
    size_t n_settings;
    int different_settings;
    int fresh;            /* new sheets or strips cut into: those on the rack, then bought ones */
    int at_least;         /* proven: no way with fewer new ones */
    bool proven_best;     /* fresh == at_least: it cannot be done with less */
    int to_buy;           /* of `fresh`, those beyond `have` */
    bool short_of_stock;  /* the job says how many it has, and that is too few */
    double yield;         /* area (length) of the parts by that of the sheets and strips cut into, 0 to 1 */
    bool ripped;          /* strips: wide enough for parts side by side, which are ripped a little over and planed */
    double length_needed; /* strips: all parts end to end with a kerf after each [mm]; sheets: 0 */
    int n_pieces;
};

/* A part that does not fit a new sheet or strip of its stock. */
struct cutting_misfit {
    const struct plan_part *part;
    double needs_along, needs_across; /* least sheet (strip: length, 0) that would do, trimmed edges included */
};

/* A strip to buy that the job does not name: room for the largest section and for planing it, and all lengths end to end
   with a kerf after each, rounded up to 1 mm or 1/64 in. length 0: none. */
struct cut_strip {
    double width, thickness, length;
};

/* What must be said of it: a failed check of results and sheets. */
struct cutting_finding {
    const char *id;       /* in results: "stock_fits", "stock_enough" */
    double value, low;    /* mm to spare, at least 0; sheets on the rack, at least as many as are needed */
    const char *unit;     /* "mm"; "1" for a number of sheets */
    enum verdict verdict;
    struct saying why, remedy;
    struct mark mark;
};

/* Everything reachable from a struct cutting is owned by its pool and freed by cutting_free; marked pointers are borrowed
   from job and plan, which must outlive it. */
struct cutting {
    struct pool pool;
    double kerf, trim;    /* as used */
    bool kerf_assumed;    /* the job has none */
    double shortest_at_fence, shortest_in_hand, narrow_rip; /* see enum cut_way; as used, in the job's round numbers */
    struct cutting_stock *stocks; /* in the job's order, those that a part names */
    size_t n_stocks;
    struct cut_strip unnamed;
    struct cutting_misfit *misfits;
    size_t n_misfits;
    struct cutting_finding *findings; /* stocks that are too few, then misfits */
    size_t n_findings;
};

/* The same job gives the same layout on every machine: all searches count their steps, none looks at a clock. */
void cutting_build(const struct job *, const struct plan *, struct cutting *out);
/* What a cut makes of its panel: the part between blade and fence, and the other; without width where the blade takes it. */
struct cut_area cutting_gives(const struct cut_line *);
struct cut_area cutting_leaves(const struct cut_line *);
/* Whole sheets or strips of one stock of the job, a heap of offcuts too: have and to_buy are as many as taken and left. */
struct cutting_count {
    int to_buy, taken, left; /* taken: cut into */
};
struct cutting_count cutting_count(const struct cutting *, const struct job_stock *);
int cutting_kept(const struct cutting_stock *); /* offcuts worth keeping, numbered from 1 */
bool cutting_is_by_hand(const struct cut_line *); /* no fence and no stop is set: marked and sawn by hand */
bool cutting_is_by_eye(const struct cut_line *);  /* a rough edge: neither set nor marked */
void cutting_free(struct cutting *); /* NULL and {0} are legal */

#endif
