/* From sheets to pages: heads and feet, page breaks, and how far drawings give way. */
#include "pages.h"

#include "pages/arrange.h"
#include "words.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define HEAD_GAP 9.0       /* below a page's head [pt] */
#define FOOT_GAP 7.0       /* above a page's foot's rule */
#define EVEN_STEP 0.97     /* from one measure to the next narrower one */
#define STRETCH_MOST 10.0  /* of the white between the blocks of a sheet of one page */
#define WHITE_GIVES 0.45   /* share of that white that a full sheet of one page gives up */
#define LARGER_STEP 0.04   /* of the type of a sheet of one page on large paper */
enum { SQUEEZE_HALVINGS = 5, LARGER_STEPS = 6 };

/* One sheet on its way to pages. */
struct layout {
    const struct sheet *sheet;
    struct widths *widths; /* and the faces */
    struct placings *placings;
    struct pool *pool;
    struct frame frame;
    double top, bottom; /* of the text area [pt] */
    struct step_plan steps;
    struct arrangement on_pages;
};

/* A page under way: its ink, and the sheet whose foot it still lacks. */
struct raw_page {
    const struct sheet *sheet;
    struct frame frame;
    struct inks inks;
    double filled;
    bool true_scale, torn;
    size_t left_out;
};
struct raw_pages {
    struct raw_page *list;
    size_t n, capacity;
};

static double text_width(const struct layout *l)
{
    return l->frame.right - l->frame.left;
}

/* --- heads and feet --- */

static struct rich head_style(const struct layout *l)
{
    bool wall = l->sheet->kind == SHEET_WALL;
    struct rich r = rich_of(STYLE_BODY, l->frame.type_scale);
    r.bold_size = (wall ? style_of(STYLE_FAR)->size : 18) * l->frame.type_scale;
    r.size = (wall ? style_of(STYLE_ARM)->size : 14) * l->frame.type_scale;
    r.leading = 1.16 * r.bold_size;
    return r;
}

static struct rich foot_style(const struct layout *l)
{
    struct rich r = rich_of(l->sheet->kind == SHEET_WALL ? STYLE_BODY : STYLE_SMALL, l->frame.type_scale);
    r.features = TYPE_TABULAR;
    return r;
}

static bool begins_with_banner(const struct sheet *s)
{
    return s->body.n && s->body.blocks[0].kind == BLOCK_BANNER;
}

/* Number and title at the left, a small text at the right, their last lines on one baseline, a heavy rule below, unless
   a banner does its work. Gives the place of the text area's top. */
static double put_head(const struct layout *l, struct inks *inks)
{
    struct rich left = head_style(l), right = foot_style(l);
    double width = text_width(l), scale = l->frame.type_scale;
    struct lines title, aside;
    double aside_width = fmin(0.4 * width, lines_natural_width(l->widths, &right, l->sheet->head_right) + 0.5);
    lines_break(l->widths, l->pool, &right, l->sheet->head_right, aside_width, &aside);
    lines_break(l->widths, l->pool, &left, l->sheet->head_left,
                width - aside_width - (aside_width > 0 ? GUTTER * scale : 0), &title);
    double title_height = lines_height(&title), aside_height = lines_height(&aside);
    double below =
        left.leading - lines_baseline(l->widths, &left) - (right.leading - lines_baseline(l->widths, &right));
    double height = fmax(title_height, aside.n ? aside_height + below : 0), top = l->frame.top;
    lines_ink(&title, l->widths, 0, title.n, l->frame.left, top + height - title_height, width, ALIGN_LEFT, inks);
    lines_ink(&aside, l->widths, 0, aside.n, l->frame.right - aside_width, top + height - below - aside_height,
              aside_width, ALIGN_RIGHT, inks);
    if (begins_with_banner(l->sheet))
        return top + height + 4 * scale;
    double y = top + height + (1 + RULE_HEAVY / 2) * scale;
    ink_add_line(inks, l->frame.left, y, l->frame.right, y, RULE_HEAVY * scale, COLOR_BLACK);
    return y + HEAD_GAP * scale;
}

static const char *page_number(struct pool *pool, const struct sheet *sheet, size_t page, size_t pages)
{
    struct text t = {0};
    if (sheet->foot_right && *sheet->foot_right)
        text_printf(&t, "%s" NBSP "\xC2\xB7 ", sheet->foot_right);
    struct saying number =
        SAYING("pages.number", SAY_ARG("page", SAY_COUNT, (double)page), SAY_ARG("pages", SAY_COUNT, (double)pages));
    words_put_plain(&t, &number, UNITS_MM);
    const char *s = pool_string(pool, text_string(&t));
    text_free(&t);
    return s;
}

/* In as few lines as the measure asks for, and these as even as can be: a narrower measure that needs no line more. */
static void break_evenly(const struct layout *l, const struct rich *rich, const char *text, double measure,
                         struct lines *out)
{
    struct lines narrower;
    lines_break(l->widths, l->pool, rich, text, measure, out);
    do {
        measure *= EVEN_STEP;
        lines_break(l->widths, l->pool, rich, text, measure, &narrower);
        if (narrower.n == out->n)
            *out = narrower;
    } while (narrower.n == out->n && out->n > 1);
}

/* Gives the place of its top; page 0 only measures. */
static double put_foot(const struct layout *l, size_t page, size_t pages, struct inks *inks)
{
    struct rich rich = foot_style(l);
    double scale = l->frame.type_scale, width = text_width(l), gap = GUTTER * scale;
    const char *number = page_number(l->pool, l->sheet, page, pages), *widest = page_number(l->pool, l->sheet, 88, 88);
    double right = fmin(lines_natural_width(l->widths, &rich, widest), 0.5 * width);
    struct lines left_lines, right_lines, reserve;
    break_evenly(l, &rich, l->sheet->foot_left, width - right - gap, &left_lines);
    lines_break(l->widths, l->pool, &rich, number, right, &right_lines);
    lines_break(l->widths, l->pool, &rich, widest, right, &reserve);
    double top = l->frame.bottom - fmax(lines_height(&left_lines), lines_height(&reserve)) - 2.5 * scale;
    if (!page)
        return top;
    ink_add_line(inks, l->frame.left, top, l->frame.right, top, RULE_THIN * scale, COLOR_BLACK);
    lines_ink(&left_lines, l->widths, 0, left_lines.n, l->frame.left, top + 2.5 * scale, width, ALIGN_LEFT, inks);
    lines_ink(&right_lines, l->widths, 0, right_lines.n, l->frame.right - right, top + 2.5 * scale, right, ALIGN_RIGHT,
              inks);
    return top;
}

/* --- setting and breaking --- */

static struct setter setter_of(const struct layout *l, double squeeze)
{
    return (struct setter){
        .widths = l->widths,
        .placings = l->placings,
        .pool = l->pool,
        .scale = l->frame.type_scale,
        .page_height = l->bottom - l->top,
        .squeeze = squeeze,
        .steps = l->steps,
    };
}

static void lay_out_freely(struct layout *l)
{
    struct setter setter = setter_of(l, 0);
    arrange_blocks(&setter, &l->sheet->body, text_width(l), &l->on_pages);
}

static double spare_height(const struct layout *l)
{
    return l->bottom - l->top - slabs_height(&l->on_pages.slabs, 0, l->on_pages.slabs.n);
}

/* On a sheet of one page the white between blocks gives way with the drawings. */
static void set_tightly(struct layout *l, double squeeze)
{
    struct setter setter = setter_of(l, squeeze);
    struct slabs slabs = {.pool = l->pool};
    set_blocks(&setter, &l->sheet->body, text_width(l), &slabs);
    for (size_t i = 0; i < slabs.n; i++)
        slabs.list[i].above *= 1 - WHITE_GIVES * squeeze;
    l->on_pages = (struct arrangement){.slabs = slabs};
}

/* The least squeeze with which everything fits on one page; false: none does. */
static bool lay_out_on_one(struct layout *l)
{
    double low = 0, high = 1;
    set_tightly(l, 0);
    bool fits = spare_height(l) >= 0;
    if (!fits) {
        set_tightly(l, 1);
        fits = spare_height(l) >= 0;
        for (int i = 0; fits && i < SQUEEZE_HALVINGS; i++) {
            struct layout trial = *l;
            double squeeze = (low + high) / 2;
            set_tightly(&trial, squeeze);
            if (spare_height(&trial) >= 0) {
                *l = trial;
                high = squeeze;
            } else {
                low = squeeze;
            }
        }
    }
    struct slabs slabs = l->on_pages.slabs;
    arrange_set(&slabs, l->bottom - l->top, &l->on_pages);
    return fits;
}

/* --- placing --- */

static double stretch_of(const struct layout *l)
{
    size_t gaps = 0;
    for (size_t i = 1; i < l->on_pages.slabs.n; i++)
        gaps += l->on_pages.slabs.list[i].above > 0;
    return l->sheet->one_page && l->on_pages.n_pages == 1 && gaps
               ? fmin(spare_height(l) / (double)gaps, STRETCH_MOST * l->frame.type_scale)
               : 0;
}

static void place_pages(struct layout *l, struct raw_pages *raw)
{
    double area = l->bottom - l->top, stretch = stretch_of(l);
    size_t from = 0, n = l->on_pages.n_pages ? l->on_pages.n_pages : 1; /* an empty sheet still has its head */
    for (size_t p = 0; p < n; p++) {
        size_t end = l->on_pages.n_pages ? l->on_pages.ends[p] : 0;
        raw->list = mem_grow(raw->list, raw->n, &raw->capacity, sizeof *raw->list);
        struct raw_page *page = &raw->list[raw->n++];
        *page = (struct raw_page){.sheet = l->sheet, .frame = l->frame, .inks = {.pool = l->pool}};
        put_head(l, &page->inks);
        page->filled = slabs_stack(&l->on_pages.slabs, from, end, l->frame.left, l->top, stretch, &page->inks) / area;
        for (size_t i = from; i < end; i++) {
            page->true_scale = page->true_scale || l->on_pages.slabs.list[i].true_scale;
            page->left_out += l->on_pages.slabs.list[i].left_out;
        }
        page->torn = end < l->on_pages.slabs.n && l->on_pages.slabs.list[end - 1].keep_with_next;
        from = end;
    }
}

static struct layout layout_of(const struct sheet *sheet, struct widths *widths, struct pool *pool, struct frame frame)
{
    struct layout l = {.sheet = sheet, .widths = widths, .pool = pool, .frame = frame};
    l.placings = pool_alloc(pool, sizeof *l.placings);
    struct inks scratch = {.pool = pool};
    l.top = put_head(&l, &scratch);
    l.bottom = put_foot(&l, 0, 0, &scratch) - FOOT_GAP * l.frame.type_scale;
    struct setter setter = setter_of(&l, 0);
    l.steps = plan_steps(&setter, &sheet->body, text_width(&l));
    return l;
}

/* The longest version of a sheet that fits its one page; false, with a line to `problem`: not even the shortest does.
 */
static bool lay_out_shortest(struct layout *l, struct text *problem)
{
    bool fits = lay_out_on_one(l);
    while (!fits && l->sheet->shorter) {
        *l = layout_of(l->sheet->shorter, l->widths, l->pool, l->frame);
        fits = lay_out_on_one(l);
    }
    if (!fits)
        text_printf(problem, "%s: needs %.1f mm more than its one page has\n", l->sheet->title,
                    mm_of_pt(-spare_height(l)));
    return fits;
}

/* A sheet of one page on large paper is read from as far away as its room allows: the largest type that fits. */
static void enlarge(struct layout *l)
{
    for (int step = LARGER_STEPS; l->frame.type_scale > 1 && step > 0; step--) {
        struct frame frame = l->frame;
        frame.type_scale *= 1 + step * LARGER_STEP;
        struct layout larger = layout_of(l->sheet, l->widths, l->pool, frame);
        if (lay_out_on_one(&larger)) {
            *l = larger;
            return;
        }
    }
}

static void finish_pages(const struct raw_pages *raw, struct widths *widths, struct pages *out)
{
    out->n = raw->n;
    out->list = pool_alloc(&out->pool, raw->n * sizeof *out->list);
    for (size_t i = 0; i < raw->n; i++) {
        struct raw_page *r = &raw->list[i];
        struct layout l = {.sheet = r->sheet, .widths = widths, .pool = &out->pool, .frame = r->frame};
        put_foot(&l, i + 1, raw->n, &r->inks);
        out->list[i] = (struct page){
            .width = l.frame.width,
            .height = l.frame.height,
            .inks = r->inks.list,
            .n_inks = r->inks.n,
            .kind = r->sheet->kind,
            .label = pool_printf(&out->pool, "%zu", i + 1),
            .filled = r->filled,
            .true_scale = r->true_scale,
            .torn = r->torn,
            .left_out = r->left_out,
        };
    }
}

bool pages_build(const struct sheets *sheets, const struct faces *faces, struct pages *out, struct text *problem)
{
    bool fits = true;
    struct raw_pages raw = {0};
    struct widths widths = {.faces = faces};
    *out = (struct pages){0};
    out->bookmarks = pool_alloc(&out->pool, sheets->n * sizeof *out->bookmarks);
    for (size_t i = 0; i < sheets->n; i++) {
        const struct sheet *sheet = &sheets->list[i];
        struct layout l = layout_of(sheet, &widths, &out->pool, frame_of(sheets->paper));
        if (!sheet->one_page)
            lay_out_freely(&l);
        else if (lay_out_shortest(&l, problem))
            enlarge(&l);
        else
            fits = false;
        out->bookmarks[out->n_bookmarks++] = (struct page_bookmark){pool_string(&out->pool, sheet->bookmark), raw.n};
        place_pages(&l, &raw);
    }
    finish_pages(&raw, &widths, out);
    free(raw.list);
    widths_free(&widths);
    return fits;
}

void pages_free(struct pages *pages)
{
    if (!pages)
        return;
    pool_free(&pages->pool);
    *pages = (struct pages){0};
}
