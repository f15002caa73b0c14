/* The build sheet, for the maker at the bench: what fails first of all, then parts, stock and screws, the drawings, the
   settings, what was assumed, the steps in order, the checks, where each part sits. */
#include "sheet/findings.h"
#include "sheet/kinds.h"
#include "sheet/needs.h"
#include "sheet/stock_table.h"

#include <math.h>
#include <string.h>

static const struct column_row part_columns[] = {
    {NULL, ALIGN_LEFT, 0},
    {"build.part", ALIGN_LEFT, 2},
    {"build.number", ALIGN_RIGHT, 0},
    {"build.length", ALIGN_POINT, 0},
    {"build.width", ALIGN_POINT, 0},
    {"build.thickness", ALIGN_POINT, 0},
    {"build.stock", ALIGN_LEFT, 1},
};
static const struct column_row screw_columns[] = {
    {"build.number", ALIGN_RIGHT, 0},
    {"build.into", ALIGN_LEFT, 0},
    {"build.screw", ALIGN_LEFT, 1},
    {"build.from_blade", ALIGN_LEFT, 0.8},
    {"build.from_edge", ALIGN_LEFT, 0.7},
};
static const struct column_row check_columns[] = {
    {"build.check", ALIGN_LEFT, 1},
    {"build.is", ALIGN_RIGHT, 0},
    {"build.wanted", ALIGN_RIGHT, 0},
    {NULL, ALIGN_LEFT, 0},
};
static const struct column_row body_columns[] = {
    {NULL, ALIGN_LEFT, 0},
    {"build.part", ALIGN_LEFT, 1},
    {"build.left", ALIGN_POINT, 0},
    {"build.right", ALIGN_POINT, 0},
    {"build.near", ALIGN_POINT, 0},
    {"build.far", ALIGN_POINT, 0},
    {"build.bottom", ALIGN_POINT, 0},
    {"build.top", ALIGN_POINT, 0},
};
static const struct column_row setting_columns[] = {
    {NULL, ALIGN_LEFT, 1},
    {NULL, ALIGN_RIGHT, 0},
};

static const char *print_letter(const struct sheet_builder *b, const struct plan_part *part)
{
    return pool_string(b->pool, part->letter);
}

/* Parts that a job lists by itself carry the job's own names, in the job's order. */
static const char *name_part(const struct sheet_builder *b, size_t i)
{
    const struct plan *plan = b->plan;
    if (plan->parts[i].kind != PART_LISTED)
        return print_word(b, plan_part_key(plan->parts[i].kind));
    size_t listed = 0;
    for (size_t k = 0; k < i; k++)
        listed += plan->parts[k].kind == PART_LISTED;
    return pool_string(b->pool, b->job->jig.as.parts.parts[listed].name);
}

/* A part's sizes are sawn; the width of what slides in a slot is a fit. */
static enum say_kind width_kind(const struct sheet_builder *b, const struct plan_part *p)
{
    bool slides = p->kind == PART_GUIDE_RUNNER || p->kind == PART_FREE_RUNNER ||
                  (p->kind == PART_TRAVEL_STOP && b->plan->sled.stop_in_slot);
    return slides ? SAY_FIT : SAY_SIZE;
}

static const char *print_part_size(const struct sheet_builder *b, enum say_kind kind, double mm, bool derived)
{
    return pool_printf(b->pool, "%s%s", print_number(b, kind, mm), derived ? "*" : "");
}

static bool has_derived_sizes(const struct plan *plan)
{
    for (size_t i = 0; i < plan->n_parts; i++)
        if (plan->parts[i].derived)
            return true;
    return false;
}

/* "F: sawn 580 mm long, cut to 388 mm in step 5." for each part that does not stay as it was sawn. */
static const char *say_cut_lengths(const struct sheet_builder *b)
{
    const char *text = "";
    for (size_t i = 0; i < b->plan->n_parts; i++) {
        const struct plan_part *p = &b->plan->parts[i];
        if (p->cut_step > 0)
            text = pool_printf(b->pool, "%s %s", text,
                               print_saying(b, SAYING("build.parts.cut", SAY_STR("part", print_letter(b, p)),
                                                      SAY_ARG("sawn", SAY_SIZE, p->sawn_length),
                                                      SAY_ARG("final", SAY_SIZE, p->final_length),
                                                      SAY_ARG("step", SAY_COUNT, (double)p->cut_step))));
    }
    return text;
}

static void add_parts(const struct sheet_builder *b, struct block_list *list)
{
    struct block table = table_begin(b, "build.parts", part_columns, COUNT_OF(part_columns));
    for (size_t i = 0; i < b->plan->n_parts; i++) {
        const struct plan_part *p = &b->plan->parts[i];
        const char *const cells[] = {
            print_bold(b, print_letter(b, p)),
            name_part(b, i),
            print_number(b, SAY_COUNT, p->quantity),
            print_part_size(b, SAY_SIZE, p->final_length, p->derived & DERIVED_LENGTH),
            print_part_size(b, width_kind(b, p), p->width, p->derived & DERIVED_WIDTH),
            print_part_size(b, SAY_THICKNESS, p->thickness, p->derived & DERIVED_THICKNESS),
            stock_name(b, p->stock),
        };
        table_add_row(b, &table, cells);
    }
    block_append(b, list, table);
    const char *note = print_saying(b, SAYING(has_derived_sizes(b->plan) ? "build.parts.note_derived" : "build.parts.note",
                                              SAY_KEY("unit", key_of_unit(b->units))));
    block_note_text(b, list, pool_printf(b->pool, "%s%s", note, say_cut_lengths(b)));
}

static bool is_same_screw(const struct plan_hole *a, const struct plan_hole *c)
{
    return strcmp(a->screw, c->screw) == 0 && strcmp(a->part, c->part) == 0 && strcmp(a->what.key, c->what.key) == 0;
}

/* Screws like one another that stand in one line: places along it [mm], ascending, and where the line lies. */
enum { PLACES_MOST = 64 };
struct screw_line {
    double along[PLACES_MOST], at;
    int n;
    bool sideways; /* the line runs along x, its screws stand at one v */
};

static void insert_place(struct screw_line *line, double place)
{
    int i = line->n++;
    for (; i > 0 && line->along[i - 1] > place; i--)
        line->along[i] = line->along[i - 1];
    line->along[i] = place;
}

static bool is_in_line(const struct plan_hole *h, const struct plan_hole *lead, bool sideways)
{
    return is_same_screw(h, lead) && fabs(sideways ? h->v - lead->v : h->x - lead->x) <= 0.05;
}

static int count_in_line(const struct plan *plan, size_t lead, bool sideways)
{
    int n = 0;
    for (size_t i = 0; i < plan->n_holes; i++)
        n += is_in_line(&plan->holes[i], &plan->holes[lead], sideways);
    return n;
}

/* The line of hole `first`, with all like it that lie on it; n is 0 where an earlier one has them. */
static struct screw_line collect_line(const struct plan *plan, size_t first, bool sideways)
{
    const struct plan_hole *lead = &plan->holes[first];
    struct screw_line line = {.at = sideways ? lead->v : lead->x, .sideways = sideways};
    for (size_t i = 0; i < plan->n_holes && line.n < PLACES_MOST; i++) {
        const struct plan_hole *h = &plan->holes[i];
        if (!is_in_line(h, lead, sideways))
            continue;
        if (i < first)
            return (struct screw_line){.n = 0};
        insert_place(&line, sideways ? h->x : h->v);
    }
    return line;
}

/* A fence's screws lie across, a runner's along the feed: the way that takes in more of them. */
static struct screw_line find_line(const struct plan *plan, size_t first)
{
    int across = count_in_line(plan, first, true), along = count_in_line(plan, first, false);
    return collect_line(plan, first, across >= along);
}

/* A place from the blade plane with its sign, from the near edge without. */
static const char *print_place(const struct sheet_builder *b, double mm, bool from_blade)
{
    return pool_printf(b->pool, "%s%s", from_blade && mm > 0 ? "+" : "", print_number(b, SAY_SIZE, mm));
}

static const char *list_places(const struct sheet_builder *b, const struct screw_line *line)
{
    const char *places = "";
    for (int i = 0; i < line->n; i++)
        places = pool_printf(b->pool, "%s%s%s", places, i ? "   " : "", print_place(b, line->along[i], line->sideways));
    return places;
}

static void add_screw_row(const struct sheet_builder *b, struct block *table, const struct plan_hole *h,
                          const struct screw_line *line)
{
    const char *places = list_places(b, line), *at = print_place(b, line->at, !line->sideways);
    bool needs_a_screw = h->role != HOLE_FRESH && h->role != HOLE_RESERVED;
    const char *const cells[] = {
        needs_a_screw ? print_number(b, SAY_COUNT, line->n) : "",
        print_bold(b, h->part),
        print_saying(b, h->what),
        line->sideways ? places : at,
        line->sideways ? at : places,
    };
    table_add_row(b, table, cells);
}

static void add_screws(const struct sheet_builder *b, struct block_list *list)
{
    struct block table = table_begin(b, "build.screws", screw_columns, COUNT_OF(screw_columns));
    for (size_t i = 0; i < b->plan->n_holes; i++) {
        struct screw_line line = find_line(b->plan, i);
        if (line.n > 0)
            add_screw_row(b, &table, &b->plan->holes[i], &line);
    }
    if (table.as.table.n_rows == 0)
        return;
    table.as.table.whole = true;
    block_append(b, list, table);
    block_note(b, list, "build.screws.note");
}

static void add_bodies(const struct sheet_builder *b, struct block_list *list)
{
    struct block table = table_begin(b, "build.bodies", body_columns, COUNT_OF(body_columns));
    for (size_t i = 0; i < b->plan->n_parts; i++)
        for (size_t k = 0; k < b->plan->parts[i].n_bodies; k++) {
            const struct body *y = &b->plan->parts[i].bodies[k];
            const char *const cells[] = {
                print_bold(b, print_letter(b, &b->plan->parts[i])),
                name_part(b, i),
                print_number(b, SAY_SIZE, y->x0),
                print_number(b, SAY_SIZE, y->x1),
                print_number(b, SAY_SIZE, y->v0),
                print_number(b, SAY_SIZE, y->v1),
                print_number(b, SAY_THICKNESS, y->z0),
                print_number(b, SAY_THICKNESS, y->z1),
            };
            table_add_row(b, &table, cells);
        }
    if (table.as.table.n_rows == 0)
        return;
    table.as.table.whole = true;
    block_append(b, list, table);
    block_note(b, list, "build.bodies.note");
}

/* Drawings of a sled, in the order in which a maker needs them. */
static struct drawing draw_to_pool(const struct sheet_builder *b,
                                   void (*draw)(const struct plan *, enum units, struct pool *, struct drawing *))
{
    struct drawing drawing = {0};
    draw(b->plan, b->units, b->pool, &drawing);
    return drawing;
}

static void add_pictorial(const struct sheet_builder *b, struct block_list *list)
{
    block_drawing(b, list, draw_to_pool(b, draw_pictorial), STYLE_BODY, 60, 118);
}

/* What the signs on the view from above mean. */
static void add_plan_key(const struct sheet_builder *b, struct block_list *list)
{
    const struct plan_sled *s = &b->plan->sled;
    bool outward_up = s->reference.v_outer > s->reference.v_face, cover = s->cover_screw_x > 0, stop = s->stop_in_slot;
    const char *note = print_saying(
        b, SAYING("build.plan.note", SAY_KEY("mark", outward_up ? "build.plan.gauge_down" : "build.plan.gauge_up")));
    const char *dashes = cover && stop ? "build.plan.note.stop_and_cover" : cover ? "build.plan.note.cover" : "build.plan.note.stop";
    block_note_text(b, list, cover || stop ? pool_printf(b->pool, "%s%s", note, print_word(b, dashes)) : note);
}

/* Seen from three sides, one after the other. */
static void add_views(const struct sheet_builder *b, struct block_list *list)
{
    struct drawing plan = {0};
    block_drawing(b, list, draw_to_pool(b, draw_front_view), STYLE_BODY, 35, 70);
    block_let_float(list);
    draw_plan_view(b->plan, b->units, false, b->pool, &plan);
    block_drawing(b, list, plan, STYLE_BODY, 90, 160);
    block_let_float(list);
    add_plan_key(b, list);
    block_drawing(b, list, draw_to_pool(b, draw_side_view), STYLE_BODY, 35, 70);
    block_let_float(list);
}

/* Fence and runner to lay the wood on; a bar lies along each side, and all stays on one page. */
static void add_true_size(const struct sheet_builder *b, struct block_list *list)
{
    struct block_list columns[3] = {{0}, {0}, {0}};
    block_drawing(b, &columns[0], draw_to_pool(b, draw_fence_section), STYLE_BODY, 160, 160);
    block_drawing(b, &columns[1], draw_to_pool(b, draw_runner_end), STYLE_BODY, 80, 80);
    block_bar(b, &columns[2], true);
    block_columns(b, list, 3, columns, (const double[]){6.5, 4.5, 1});
    block_let_float(list);
    block_keep_with_next(list);
    block_bar(b, list, false);
}

/* The stop's pieces at true scale, beside them a bar; what it reaches. */
static void add_flip_stop(const struct sheet_builder *b, struct block_list *list)
{
    struct block_list columns[2] = {{0}, {0}};
    block_drawing(b, &columns[0], draw_to_pool(b, draw_flip_pieces), STYLE_BODY, 200, 200);
    block_bar(b, &columns[1], true);
    block_columns(b, list, 2, columns, (const double[]){11, 1});
    block_let_float(list);
    block_keep_with_next(list);
    block_bar(b, list, false);
    block_drawing(b, list, draw_to_pool(b, draw_flip_reach), STYLE_BODY, 40, 60);
}

/* Moving the fence, and the flip stop, of which the fence carries one. */
static void add_fence_details(const struct sheet_builder *b, struct block_list *list)
{
    struct block_list columns[2] = {{0}, {0}};
    struct drawing adjustment = {0};
    bool flip = b->plan->sled.flip.present;
    draw_fence_adjustment(b->plan, b->proof, b->units, b->pool, &adjustment);
    block_drawing(b, flip ? &columns[0] : list, adjustment, STYLE_BODY, 45, 60);
    if (!flip) {
        block_let_float(list);
        return;
    }
    block_drawing(b, &columns[1], draw_to_pool(b, draw_flip_section), STYLE_BODY, 55, 75);
    block_columns(b, list, 2, columns, (const double[]){7, 5});
    block_let_float(list);
    add_flip_stop(b, list);
}

static void add_other_drawings(const struct sheet_builder *b, struct block_list *list)
{
    block_drawing(b, list, draw_to_pool(b, draw_kerf_section), STYLE_BODY, 45, 80);
    block_let_float(list);
    block_drawing(b, list, draw_to_pool(b, draw_runner_section), STYLE_BODY, 40, 60);
    block_let_float(list);
    add_true_size(b, list);
    add_fence_details(b, list);
}

/* Every setting that is measured while building: words key, value, how it is printed, the far end of a range or 0, the
   size of the work that it is for or 0. A value NAN does not apply. */
struct setting_row {
    const char *key;
    double value;
    enum say_kind kind;
    double to, size;
};

static const char *print_setting(const struct sheet_builder *b, const struct setting_row *row)
{
    if (row->to > 0 && row->to < row->value)
        return print_word(b, "setting.none_fits");
    if (row->to > 0)
        return print_saying(
            b, SAYING("sheet.from_to", SAY_ARG("low", row->kind, row->value), SAY_ARG("high", row->kind, row->to)));
    return print_quantity(b, row->kind, row->value);
}

static void add_setting_rows(const struct sheet_builder *b, struct block *table, const struct setting_row *rows, int n)
{
    for (int i = 0; i < n; i++) {
        if (isnan(rows[i].value))
            continue;
        const char *const cells[] = {print_saying(b, SAYING(rows[i].key, SAY_ARG("size", SAY_SIZE, rows[i].size))),
                                     print_bold(b, print_setting(b, &rows[i]))};
        table_add_row(b, table, cells);
    }
}

static const struct plan_runner *find_runner(const struct plan_sled *s, bool guide)
{
    for (int side = SIDE_LEFT; side <= SIDE_RIGHT; side++)
        if (s->runner[side].present && s->runner[side].is_guide == guide)
            return &s->runner[side];
    return NULL;
}

static void add_flip_settings(const struct sheet_builder *b, struct block *table)
{
    const struct plan_flip *f = &b->plan->sled.flip;
    const struct setting_row rows[] = {
        {f->side == SIDE_LEFT ? "setting.track.left" : "setting.track.right", f->track_from, SAY_SIZE,
         f->track_from + f->track_length, 0},
        {"setting.tape_zero", f->tape_zero, SAY_THICKNESS, 0, 0},
        {"setting.repeats", f->shortest, SAY_SIZE, f->longest, 0},
        {"setting.rebate", f->rebate_height > 0 ? f->rebate_height : NAN, SAY_SIZE, 0, 0},
    };
    if (f->present)
        add_setting_rows(b, table, rows, COUNT_OF(rows));
}

static void add_build_settings(const struct sheet_builder *b, struct block_list *list)
{
    const struct plan_sled *s = &b->plan->sled;
    const struct plan_runner *guide = find_runner(s, true), *loose = find_runner(s, false);
    const struct setting_row rows[] = {
        {"setting.fence_face", s->reference.v_face, SAY_SIZE, 0, 0},
        {"setting.other_face", s->other.v_face, SAY_SIZE, 0, 0},
        {"setting.pivot", s->pivot_x, SAY_SIZE, 0, 0},
        {"setting.gauge", s->moving_x, SAY_SIZE, 0, 0},
        {"setting.pivot_to_gauge", b->plan->setting.pivot_to_moving, SAY_SIZE, 0, 0},
        {"setting.guide_width", guide ? guide->width : NAN, SAY_FIT, 0, 0},
        {"setting.plane", s->plane_low, SAY_FIT, s->plane_high, 0},
        {"setting.free_width", loose ? loose->width : NAN, SAY_FIT, 0, 0},
        {"setting.screw_free", s->screw_free, SAY_ABOUT, 0, 0},
        {"setting.keep_out", s->keep_out, SAY_ABOUT, 0, 0},
    };
    struct block table = table_begin(b, "build.settings", setting_columns, COUNT_OF(setting_columns));
    add_setting_rows(b, &table, rows, COUNT_OF(rows));
    add_flip_settings(b, &table);
    block_append(b, list, table);
}

static void add_saw_settings(const struct sheet_builder *b, struct block_list *list)
{
    const struct plan_sled *s = &b->plan->sled;
    const struct plan_travel *t = &s->travel;
    const struct setting_row rows[] = {
        {"setting.blade_height", t->setting_above_table, SAY_SIZE, 0, s->capacity_thickness},
        {"setting.blade_above_work", s->blade_above_work, SAY_SIZE, 0, 0},
        {"setting.y_stop", t->y_stop, SAY_SIZE, 0, 0},
        {"setting.y_near", t->y_near_face, SAY_SIZE, 0, 0},
        {"setting.stop_block", s->stop_y, SAY_SIZE, 0, 0},
        {"setting.edge_start", t->edge_start, SAY_SIZE, 0, s->capacity_width},
        {"setting.edge_stop", t->edge_stop, SAY_SIZE, 0, 0},
        {"setting.edge_parked", t->edge_parked, SAY_SIZE, 0, 0},
        {"setting.bare_start", t->bare_start, SAY_SIZE, 0, 0},
        {"setting.bare_stop", t->bare_stop, SAY_SIZE, 0, s->capacity_width},
    };
    struct block table = table_begin(b, "build.saw_settings", setting_columns, COUNT_OF(setting_columns));
    add_setting_rows(b, &table, rows, COUNT_OF(rows));
    block_append(b, list, table);
}

/* What is no setting, but belongs to the finished sled. */
static void add_sled_and_air(const struct sheet_builder *b, struct block_list *list)
{
    const struct plan_sled *s = &b->plan->sled;
    const struct setting_row rows[] = {
        {"setting.mc_fitting", s->mc_fitting, SAY_NUMBER, 0, 0},
        {"setting.mc_driest", s->mc_driest, SAY_NUMBER, 0, 0},
        {"setting.mc_dampest", s->mc_dampest, SAY_NUMBER, 0, 0},
        {"setting.mass", s->mass, SAY_MASS, 0, 0},
        {"setting.centre_x", s->centre_x, SAY_SIZE, 0, 0},
        {"setting.centre_v", s->centre_v, SAY_SIZE, 0, 0},
    };
    struct block table = table_begin(b, "build.sled_and_air", setting_columns, COUNT_OF(setting_columns));
    add_setting_rows(b, &table, rows, COUNT_OF(rows));
    block_append(b, list, table);
}

static void add_settings(const struct sheet_builder *b, struct block_list *list)
{
    struct block_list columns[2] = {{0}, {0}};
    add_build_settings(b, &columns[0]);
    add_saw_settings(b, &columns[1]);
    add_sled_and_air(b, &columns[1]);
    block_columns(b, list, 2, columns, (const double[]){6, 6});
}

/* A check that does not pass is followed by what it means and what makes it pass, across the row's first cell. */
static void add_check_row(const struct sheet_builder *b, struct block *table, const struct plan_check *c)
{
    const char *title = check_title(b, c);
    if (c->verdict != VERDICT_PASS)
        title =
            print_saying(b, SAYING("build.check_open", SAY_STR("title", title), SAY_STR("why", print_saying(b, c->why)),
                                   SAY_STR("remedy", print_saying(b, c->remedy))));
    const char *const cells[] = {title, check_value(b, c), check_wanted(b, c), check_verdict(b, c)};
    table_add_row(b, table, cells);
}

static void add_checks(const struct sheet_builder *b, struct block_list *list)
{
    struct block table = table_begin(b, "build.checks", check_columns, COUNT_OF(check_columns));
    for (int verdict = VERDICT_FAIL; verdict >= VERDICT_PASS; verdict--)
        for (size_t i = 0; i < b->outcome->n_checks; i++)
            if ((int)b->outcome->checks[i].verdict == verdict)
                add_check_row(b, &table, &b->outcome->checks[i]);
    if (table.as.table.n_rows == 0)
        return;
    block_append(b, list, table);
    block_note(b, list, "build.checks.note");
}

/* What the i-th failed check and those with the same remedy measure, a line each; then the remedy. */
static const char *print_failures(const struct sheet_builder *b, int i)
{
    const struct plan_check *first = check_failed(b, i), *c;
    const char *text = "";
    for (; (c = check_failed(b, i)) != NULL; i++)
        if (check_same_remedy(b, first, c))
            text = pool_printf(b->pool, "%s%s\n", text, check_headline(b, c));
    return pool_printf(b->pool, "%s%s", text, print_saying(b, first->remedy));
}

static void add_failures(const struct sheet_builder *b, struct block_list *list)
{
    int n = checks_failed(b), boxes = 0;
    if (n == 0)
        return;
    for (int i = 0; i < n; i++)
        boxes += !check_told_before(b, i);
    block_heading(b, list, 2, SAYING_PLAIN("build.failures"));
    for (int i = 0; i < n; i++)
        if (!check_told_before(b, i))
            block_boxed(b, list, STYLE_LEAD, print_failures(b, i));
    if (boxes > 1)
        block_note(b, list, "build.failures.order");
}

/* "Right: …" or "Why: …"; "" where there is nothing to say. */
static const char *print_led(const struct sheet_builder *b, const char *key, struct saying saying)
{
    return saying.key ? print_saying(b, SAYING(key, SAY_STR("text", print_saying(b, saying)))) : "";
}

/* How to know that a step is right, then why it is done, each on a line of its own. */
static const char *print_aside(const struct sheet_builder *b, const struct plan_step *step)
{
    const char *know = print_led(b, "build.right_if", step->know), *why = print_led(b, "build.why", step->why);
    return pool_printf(b->pool, "%s%s%s", know, *know && *why ? "\n" : "", why);
}

static void add_step(const struct sheet_builder *b, struct block *steps, size_t i)
{
    const struct plan_step *step = &b->plan->steps[i];
    steps_add(b, steps,
              (struct step_item){
                  .number = pool_printf(b->pool, "%zu", i + 1),
                  .what = print_saying(b, step->what),
                  .aside = print_aside(b, step),
                  .tick = true,
                  .signal = step->caution.key ? step->signal : SIGNAL_NONE,
                  .caution = print_saying(b, step->caution),
              });
}

/* A heading for each stage, its steps under it. */
static void add_steps(const struct sheet_builder *b, struct block_list *list)
{
    const struct plan *plan = b->plan;
    for (size_t i = 0; i < plan->n_steps;) {
        struct block steps = steps_begin();
        int stage = plan->steps[i].stage;
        block_heading(b, list, 2, SAYING_PLAIN(plan->steps[i].stage_title));
        for (; i < plan->n_steps && plan->steps[i].stage == stage; i++)
            add_step(b, &steps, i);
        block_append(b, list, steps);
    }
}

void build_fill(const struct sheet_builder *b, struct block_list *list)
{
    add_failures(b, list);
    if (b->plan->has_sled)
        add_pictorial(b, list);
    add_parts(b, list);
    stock_add_table(b, list);
    if (b->plan->has_sled)
        add_views(b, list);
    sheet_add_cutting(b, list);
    add_screws(b, list);
    if (b->plan->has_sled) {
        add_other_drawings(b, list);
        add_settings(b, list);
    }
    add_bodies(b, list);
    sheet_add_assumed(b, list, STYLE_BODY);
    needs_add(b, list);
    add_steps(b, list);
    add_checks(b, list);
}
