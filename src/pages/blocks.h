/* blocks.h: setting blocks: every kind of block becomes slabs, at a given width. One file a kind.
   Private to src/pages. */
#ifndef FETTLE_PAGES_BLOCKS_H
#define FETTLE_PAGES_BLOCKS_H

#include "pages/lines.h"
#include "pages/metrics.h"
#include "pages/slab.h"

/* What all the steps of a sheet share, so that they stand under each other from section to section. */
struct step_plan {
    double number;   /* width of the widest number [pt] */
    double division; /* column of the twelve where asides begin */
    bool ticks, asides;
};

/* What setting depends on besides the block and the width. */
struct setter {
    struct widths *widths; /* and the faces */
    struct placings *placings; /* drawings of this sheet that were placed for an earlier trial */
    struct pool *pool;     /* of all that is made */
    double scale;          /* of type and spaces: frame.type_scale */
    double page_height;    /* of the text area [pt] */
    double squeeze;        /* 0: drawings as high as they may be; 1: as low as they may be */
    double scale_least;    /* share of its scale that a squeezed drawing keeps */
    struct step_plan steps;
    bool in_columns; /* columns inside of columns stay whole */
};

/* A drawing once placed in a box, for the next trial that wants it in the same. {NULL} is empty; entries live in a pool. */
struct placings {
    struct placed_entry *list;
};

/* Before a sheet is set: its squeeze does not matter. */
struct step_plan plan_steps(const struct setter *, const struct block_list *body, double width);

/* Sets a list one below the other, with the white, the new pages and the keeping together that the blocks ask for. */
void set_blocks(const struct setter *, const struct block_list *, double width, struct slabs *out);

/* Each sets one block of its kind. */
typedef void set_block_fn(const struct setter *, const struct block *, double width, struct slabs *out);
set_block_fn set_heading, set_paragraph, set_table, set_steps, set_cautions, set_banner, set_figures, set_drawing,
    set_boxes, set_signatures, set_columns, set_source, set_bar, set_rule;

/* Width and left edge of `span` columns from column `first` of the 12-column grid. */
double grid_width(const struct setter *, double width, double span);
double grid_left(const struct setter *, double width, double first);

/* Text at (0, y) of a slab, left, in a width; gives its height. */
double put_text(const struct setter *, const struct rich *, const char *text, double x, double y, double width,
                struct inks *);

/* The panel of a signal word: word and triangle in their colours, framed the heavier the graver. Width of the widest of
   the words where `rich` is its type; the height is a leading. Nothing is drawn for SIGNAL_NONE. */
double signal_panel_width(const struct setter *, const struct rich *, enum signal);
double signal_panel_height(const struct rich *);
void put_signal_panel(const struct setter *, const struct rich *, enum signal, double x, double y, double width,
                      struct inks *);

/* A closed polygon of n points, filled. */
void put_polygon(struct inks *, const double (*points)[2], size_t n, double x, double y, double unit, struct color);

#endif
