/* The printed table is followed by someone who knows nothing but its rows: panel by panel, setting by setting. What lies
   on the bench in the end is the parts, each as often as it is wanted. */
#include "sheet/kit.h"

#include "stock/random_lists.h"

#include <dirent.h>
#include <stdio.h>

enum { PANELS_MOST = 600, LISTS = 100 };
static const double HAND_OFF = 1.5; /* how far a saw led along a mark may run beside it: common practice, no source [mm] */
enum { CUT, SET, HOW, SHEET, TAKE, GIVES, LEAVES, COLUMNS }; /* a stock with one sheet has no column SHEET */

/* One piece of wood: from which cut (0: a whole sheet), of which sheet, and how large. */
struct panel {
    int from, sheet;
    double along, across; /* across 0: a strip that keeps its width */
    double along_off, across_off; /* by so much it may be smaller, for a saw was led by hand [mm] */
    bool along_left, across_left; /* what it is so is what was left beside the fence of a panel that may be smaller */
};

struct bench {
    struct panel panels[PANELS_MOST];
    int n, sheets;        /* sheets taken so far */
    bool one_sheet;       /* of the table being followed */
    int parts[128];       /* made, by letter */
    const struct made *m;
    double kerf, near;    /* near: what printing may round off [mm] */
};

static const char *cell_of(const struct bench *b, const struct table_row *row, int column)
{
    if (b->one_sheet && column == SHEET)
        return "1";
    return row->cells[column - (b->one_sheet && column > SHEET)];
}

static void say_row(const struct bench *b, const struct table_row *row, const char *why)
{
    print_error("%s:", why);
    for (int i = 0; i < COLUMNS; i++)
        print_error(" %s |", cell_of(b, row, i));
    print_error("\n");
    fail();
}

static double number_of(const char *cell)
{
    return strtod(cell + strcspn(cell, "0123456789"), NULL);
}

/* "1250 × 580" or "1250" at the end of a cell, after ": ", "each " or a letter. */
static void read_size(const char *cell, double *along, double *across)
{
    const char *p = strrchr(cell, ':'), *each = strstr(cell, "each "), *times;
    p = p ? p + 1 : each ? each : cell;
    *along = number_of(p);
    times = strstr(p, "\xC3\x97");
    *across = times ? number_of(times) : 0;
}

static bool is_like(const struct bench *b, const struct panel *p, double along, double across)
{
    return fabs(p->along - along) < b->near && fabs(p->across - across) < b->near;
}

/* The k-th number, from 0, of "1, 3–5" up to a colon or the end; 0: there are not so many. */
static int listed(const char *cell, int k)
{
    int last = 0;
    for (const char *p = cell + strcspn(cell, "0123456789:"); *p && *p != ':'; p += strcspn(p, "0123456789:")) {
        int number = (int)strtol(p, NULL, 10), first = number;
        if (last && p - cell >= 3 && strncmp(p - 3, "\xE2\x80\x93", 3) == 0)
            first = last + 1;
        if (k <= number - first)
            return first + k;
        k -= number - first + 1;
        last = number;
        p += strspn(p, "0123456789");
    }
    return 0;
}

/* How many panels the row saws: "2 pieces from cut 7: …", "sheets 1, 3–5: each …". */
static int count_panels(const char *cell)
{
    int n = 0;
    if (strstr(cell, "pieces from cut "))
        return (int)number_of(cell);
    if (!strstr(cell, ": each"))
        return 1;
    while (listed(cell, n))
        n++;
    return n;
}

/* Takes the k-th panel that the row names off the bench, or a new sheet. */
static struct panel pick_up(struct bench *b, const struct table_row *row, int k)
{
    const char *cell = cell_of(b, row, TAKE), *from = strstr(cell, "from cut ");
    struct panel p = {.sheet = listed(cell_of(b, row, SHEET), k)};
    read_size(cell, &p.along, &p.across);
    int number = (int)number_of(from ? from : cell);
    if (p.sheet == 0 || listed(cell_of(b, row, SHEET), count_panels(cell)) != 0)
        say_row(b, row, "not as many sheets as pieces");
    if (!from) {
        if (listed(cell, k) != p.sheet)
            say_row(b, row, "two names for a sheet");
        b->sheets++;
        return p;
    }
    for (int i = 0; i < b->n; i++)
        if (b->panels[i].from == number && b->panels[i].sheet == p.sheet && is_like(b, &b->panels[i], p.along, p.across)) {
            p = b->panels[i];
            b->panels[i] = b->panels[--b->n];
            return p;
        }
    say_row(b, row, "no such panel");
    return p;
}

static const struct plan_part *find_letter(const struct made *m, char letter)
{
    for (size_t i = 0; i < m->plan.n_parts; i++)
        if (m->plan.parts[i].letter[0] == letter)
            return &m->plan.parts[i];
    return NULL;
}

/* Of a sheet: its finished size, the length along the grain where that matters. Of a strip the length; its width is
   planed. */
static bool is_the_part(const struct bench *b, const struct plan_part *p, const struct panel *made)
{
    if (p->stock->is_strip)
        return fabs(made->along - p->sawn_length) < b->near || (!p->grain_matters && fabs(made->across - p->sawn_length) < b->near);
    return is_like(b, made, p->sawn_length, p->width) || (!p->grain_matters && is_like(b, made, p->width, p->sawn_length));
}

static void put_down(struct bench *b, const struct table_row *row, int column, struct panel made)
{
    const char *cell = cell_of(b, row, column);
    double along, across;
    if (strcmp(cell, "waste") == 0)
        return;
    bool sliver = strncmp(cell, "sliver, ", 8) == 0;
    if (!sliver && (made.along < b->near || (made.across < b->near && made.across != 0))) {
        if (strcmp(cell, "nothing") != 0)
            say_row(b, row, "nothing is left");
        return;
    }
    read_size(cell, &along, &across);
    if (!is_like(b, &made, along, across))
        say_row(b, row, column == GIVES ? "gives another size" : "leaves another size");
    if (strncmp(cell, "keep ", 5) == 0 || sliver)
        return;
    if (cell[0] == TEXT_BOLD_ON) {
        const struct plan_part *p = find_letter(b->m, cell[1]);
        bool lies_turned = p && !p->stock->is_strip && !is_like(b, &made, p->sawn_length, p->width);
        if (lies_turned != (strstr(cell, "turned, ") != NULL))
            say_row(b, row, "lies turned, or does not");
        if (!p || !is_the_part(b, p, &made))
            say_row(b, row, "not the part");
        if (made.along_left || made.across_left)
            say_row(b, row, "the part is as large as the hand saw left it");
        b->parts[(int)cell[1]]++;
        return;
    }
    assert_true(b->n < PANELS_MOST);
    made.along = along; /* as printed: what is rounded off does not add up */
    made.across = across;
    b->panels[b->n++] = made;
}

/* What is set is what the way of sawing can be set to: no fence for a hand saw, a stop only with gauge or sled. */
static void check_setting(const struct bench *b, const struct table_row *row)
{
    const char *set = cell_of(b, row, SET), *how = cell_of(b, row, HOW);
    bool hand = strstr(how, "hand") != NULL, stop = strstr(how, "gauge");
    const char *word = hand ? "mark\xC2\xA0" : stop ? "stop\xC2\xA0" : "fence\xC2\xA0";
    set += *set == TEXT_BOLD_ON;
    if (strncmp(how, "trim about ", 11) == 0 ? strcmp(set, "\xE2\x80\x93") != 0 : strncmp(set, word, strlen(word)) != 0)
        say_row(b, row, "cannot be set so");
    double size = *set ? number_of(set) : 0;
    bool cut = strncmp(how, "trim", 4) != 0; /* the limits in millimetres: common practice, no source */
    if (fabs(size - 150) > b->near && (strstr(how, "block at the fence") != NULL) != (cut && stop && size < 150))
        say_row(b, row, "a short piece needs a block, another none");
    if (fabs(size - 25) > b->near && (strstr(how, ", thin") != NULL) != (cut && !stop && !hand && size < 25))
        say_row(b, row, "a thin strip is told as one, another is not");
}

/* Rough edges: the same off both, and nothing is set. */
static void trim_one(struct bench *b, const struct table_row *row, struct panel p)
{
    const char *how = cell_of(b, row, HOW);
    double *size = strstr(how, "both ends") ? &p.along : &p.across;
    *size -= 2 * number_of(how);
    if (strncmp(cell_of(b, row, GIVES), "about ", 6) != 0 && cell_of(b, row, GIVES)[0] != TEXT_BOLD_ON)
        say_row(b, row, "trimmed by eye, and told as exact");
    if (strcmp(cell_of(b, row, LEAVES), "waste") != 0)
        say_row(b, row, "a rough edge is waste");
    put_down(b, row, GIVES, p);
}

/* What is cut to size has that size, within what the hand is off; what is left takes over how far its panel is off. The panel
   is large enough for the size even if it came out small. */
static void mind_the_hand(struct bench *b, const struct table_row *row, const struct panel *p, struct panel *gives, struct panel *leaves)
{
    bool rip = strncmp(cell_of(b, row, HOW), "rip", 3) == 0, hand = strstr(cell_of(b, row, HOW), "hand") != NULL;
    double was = rip ? p->across_off : p->along_off, size = rip ? p->across : p->along, set = rip ? gives->across : gives->along;
    *(rip ? &gives->across_off : &gives->along_off) = hand ? HAND_OFF : 0;
    *(rip ? &leaves->across_off : &leaves->along_off) = was + (hand ? HAND_OFF : 0);
    if (!hand && set > size - was + b->near)
        say_row(b, row, "the hand saw may have left too little");
    *(rip ? &gives->across_left : &gives->along_left) = false;
    *(rip ? &leaves->across_left : &leaves->along_left) = !hand && was > 0;
}

static void saw_one(struct bench *b, const struct table_row *row, int k)
{
    struct panel p = pick_up(b, row, k), gives, leaves;
    const char *how = cell_of(b, row, HOW);
    double fence = number_of(cell_of(b, row, SET));
    check_setting(b, row);
    p.from = (int)number_of(cell_of(b, row, CUT));
    if (strncmp(how, "trim", 4) == 0) {
        trim_one(b, row, p);
        return;
    }
    gives = leaves = p;
    if (strncmp(how, "rip", 3) == 0) {
        gives.across = fence;
        leaves.across = fmax(0, p.across - fence - b->kerf);
        if (leaves.across == 0)
            leaves.along = 0;
    } else {
        gives.along = fence;
        leaves.along = fmax(0, p.along - fence - b->kerf);
    }
    mind_the_hand(b, row, &p, &gives, &leaves);
    put_down(b, row, GIVES, gives);
    put_down(b, row, LEAVES, leaves);
}

static void follow_row(struct bench *b, const struct table_row *row)
{
    for (int i = 0, n = count_panels(cell_of(b, row, TAKE)); i < n; i++)
        saw_one(b, row, i);
}

static bool is_cutting_table(const struct block *block)
{
    static const char *const captions[] = {"cutting.table", "cutting.table.sheets", "cutting.table.strips"};
    for (int i = 0; i < 3 && block->kind == BLOCK_TABLE; i++)
        if (strcmp(block->as.table.caption, words_get(captions[i])) == 0)
            return true;
    return false;
}

static void follow_table(const struct block *block, void *arg)
{
    struct bench *b = arg;
    if (!is_cutting_table(block))
        return;
    b->n = 0;
    b->one_sheet = block->as.table.n_columns < COLUMNS;
    assert_non_null(strstr(block->as.table.note, "Kerf ")); /* on each page that the table takes */
    for (int i = 0; i < block->as.table.n_rows; i++)
        follow_row(b, &block->as.table.rows[i]);
    if (b->n > 0)
        print_error("%d pieces are left unsawn, the first %g × %g from cut %d\n", b->n, b->panels[0].along,
                    b->panels[0].across, b->panels[0].from);
    assert_int_equal(b->n, 0);
}

static bool is_misfit(const struct cutting *c, const struct plan_part *p)
{
    for (size_t i = 0; i < c->n_misfits; i++)
        if (c->misfits[i].part == p)
            return true;
    return false;
}

/* A part as large as its sheet needs no cut; the lists have none. */
static void check_made(const struct bench *b)
{
    for (size_t i = 0; i < b->m->plan.n_parts; i++) {
        const struct plan_part *p = &b->m->plan.parts[i];
        bool can = p->stock && !is_misfit(&b->m->cutting, p) && !(p->stock->is_strip && !p->stock->length.given);
        int made = b->parts[(int)p->letter[0]];
        if (made != (can ? p->quantity : 0))
            print_error("%s: %d made, %d wanted\n", p->letter, made, p->quantity);
        assert_int_equal(made, can ? p->quantity : 0);
    }
}

static void follow_job(const struct made *m, double near)
{
    struct bench *b = mem_alloc(sizeof *b);
    const struct sheet *sheet = find_sheet(m, SHEET_BUILD);
    int sheets = 0;
    b->m = m;
    b->kerf = m->cutting.kerf;
    b->near = near;
    visit_blocks(&sheet->body, follow_table, b);
    check_made(b);
    for (size_t i = 0; i < m->cutting.n_stocks; i++)
        sheets += (int)m->cutting.stocks[i].n_sheets;
    assert_int_equal(b->sheets, sheets);
    free(b);
}

/* A runner that is ripped to its thickness lies on edge in the strip: its rings stand the other way there. */
static void check_rings(const struct made *m)
{
    for (size_t i = 0; i < m->cutting.n_stocks; i++)
        for (size_t k = 0; k < m->cutting.stocks[i].n_sheets; k++) {
            const struct cut_sheet *sheet = &m->cutting.stocks[i].sheets[k];
            for (size_t j = 0; j < sheet->n_pieces; j++) {
                const struct cut_piece *p = &sheet->pieces[j];
                bool turns = fabs(p->at.h - p->part->thickness) < fabs(p->at.h - p->part->width);
                if (p->part->kind == PART_GUIDE_RUNNER && p->part->stock->rings != RINGS_MIXED)
                    assert_says(find_sheet(m, SHEET_BUILD), "in the strip, so", turns);
            }
        }
}

/* ---- tests ---- */

static void test_table_followed_in_turn_gives_the_parts_of_random_lists(void **state)
{
    (void)state;
    for (unsigned seed = 1; seed <= LISTS; seed++) {
        struct text yaml = {0};
        random_list(seed, &yaml);
        struct made *m = make_sheets(text_string(&yaml), NULL);
        follow_job(m, 0.3);
        free_made(m);
        text_free(&yaml);
    }
}

/* Sizes of real jobs end in tenths: what is printed to half a millimetre may be a quarter off, and three such
   figures meet in one. */
static void test_table_followed_in_turn_gives_the_parts_of_the_examples(void **state)
{
    (void)state;
    DIR *folder = opendir(SOURCE_FOLDER "/jobs");
    int followed = 0;
    assert_non_null(folder);
    for (struct dirent *e; (e = readdir(folder)) != NULL;) {
        char path[512];
        struct diags diags = {0};
        struct made *m = mem_alloc(sizeof *m);
        snprintf(path, sizeof path, SOURCE_FOLDER "/jobs/%s", e->d_name);
        bool ok = strstr(e->d_name, ".yaml") && job_read(path, &diags, &m->job) && m->job.jig.given;
        if (ok) {
            m->job.units = UNITS_MM; /* the sizes alone count here */
            assert_true(plan_build(&m->job, &diags, &m->plan) && proof_build(&m->job, &m->plan.setting, &diags, &m->proof));
            cutting_build(&m->job, &m->plan, &m->cutting);
            outcome_build(&m->plan, &m->cutting, &m->proof, &m->outcome);
            assert_true(sheets_build(&m->job, &m->plan, &m->cutting, &m->proof, &m->outcome, NULL, &m->sheets));
            follow_job(m, 0.8);
            check_rings(m);
            followed++;
        }
        free_made(m);
        diags_free(&diags);
    }
    closedir(folder);
    assert_true(followed >= 6);
}

#define LIST(stock, parts) \
    "fettle: 1\njob: {number: L-1, title: List}\nunits: mm\nsaw: {blade: {diameter: 250, kerf: 3}}\nstock:\n" stock \
    "jig:\n  kind: parts\n  parts:\n" parts

/* Four of 600 x 600 with kerfs of 3 need two sheets of 1210 x 800: 2 lie beside each other on each. */
static void test_too_few_on_the_rack_says_how_many_to_buy_and_draws_all(void **state)
{
    (void)state;
    struct made *m = make_sheets(LIST("  ply: {material: birch-plywood, thickness: 12, sheet: [1210, 800], have: 1}\n",
                                      "    - {name: lid, stock: ply, length: 600, width: 600, quantity: 4}\n"), NULL);
    const struct sheet *build = find_sheet(m, SHEET_BUILD), *wall = find_sheet(m, SHEET_WALL);
    assert_says(build, "Buy 1 more of ply", true);
    assert_says(build, "1 of ply", true);
    assert_says(build, "It cannot be done with less.", true);
    assert_says(wall, "There is too little ply on the rack.", true);
    assert_int_equal(m->outcome.state, STATE_DO_NOT_USE);
    follow_job(m, 0.3);
    free_made(m);
}

static void test_part_that_fits_nowhere_is_named_with_what_would_do(void **state)
{
    (void)state;
    struct made *m = make_sheets(LIST("  ply: {material: birch-plywood, thickness: 12, sheet: [1210, 800], have: 1}\n",
                                      "    - {name: lid, stock: ply, length: 1300, width: 600}\n"
                                      "    - {name: shelf, stock: ply, length: 500, width: 300}\n"), NULL);
    const struct sheet *build = find_sheet(m, SHEET_BUILD);
    assert_says(build, "Part A, 1300 \xC3\x97 600" THIN "mm, does not fit ply.", true);
    assert_int_equal(m->outcome.n_failed, 1);
    follow_job(m, 0.3);
    free_made(m);
}

static void test_assumed_kerf_is_said(void **state)
{
    (void)state;
    struct made *m = make_sheets("fettle: 1\njob: {number: L-1, title: List}\nunits: mm\nstock:\n"
                                 "  ply: {material: birch-plywood, thickness: 12, sheet: [1210, 800]}\n"
                                 "jig: {kind: parts, parts: [{name: lid, stock: ply, length: 600, width: 600}]}\n", NULL);
    assert_says(find_sheet(m, SHEET_BUILD), "assumed: the job has none", true);
    free_made(m);
}

/* 1210 mm across the blade is more than a table of 700; the shelf of 500 x 250 is not, and its cut at 250 is no crosscut
   between blade and fence. */
static void test_too_large_for_the_table_is_sawn_by_hand_first(void **state)
{
    (void)state;
    struct made *m = make_sheets("fettle: 1\njob: {number: L-1, title: List}\nunits: mm\n"
                                 "saw: {blade: {diameter: 250, kerf: 3}, table: {front_edge: 400, depth: 700, width: 700}}\nstock:\n"
                                 "  ply: {material: birch-plywood, thickness: 12, sheet: [1210, 800]}\n"
                                 "jig: {kind: parts, parts: [{name: lid, stock: ply, length: 600, width: 600}]}\n", NULL);
    assert_says(find_sheet(m, SHEET_BUILD), "by hand", true);
    free_made(m);
    m = make_sheets(LIST("  ply: {material: birch-plywood, thickness: 12, sheet: [1210, 800]}\n",
                         "    - {name: lid, stock: ply, length: 600, width: 600}\n"), NULL);
    assert_says(find_sheet(m, SHEET_BUILD), "by hand", false); /* no table is stated */
    free_made(m);
}

static void test_words_of_the_bound_only_where_it_is_met(void **state)
{
    (void)state;
    for (unsigned seed = 1; seed <= LISTS; seed += 7) {
        struct text yaml = {0};
        bool best = false, maybe = false;
        random_list(seed, &yaml);
        struct made *m = make_sheets(text_string(&yaml), NULL);
        for (size_t i = 0; i < m->cutting.n_stocks; i++) {
            best = best || (m->cutting.stocks[i].laid_out && m->cutting.stocks[i].proven_best);
            maybe = maybe || (m->cutting.stocks[i].laid_out && !m->cutting.stocks[i].proven_best);
        }
        assert_says(find_sheet(m, SHEET_BUILD), words_get("cutting.best"), best);
        assert_says(find_sheet(m, SHEET_BUILD), "a better layout may exist", maybe);
        free_made(m);
        text_free(&yaml);
    }
}

static int count_of_cell(const char *cell)
{
    return strcmp(cell, "\xE2\x80\x93") == 0 ? 0 : (int)number_of(cell);
}

/* Of whole sheets and strips: those on the rack and those to buy are as many as those cut into and those left. */
static void add_up_stock(const struct block *block, void *arg)
{
    int *rows = arg;
    if (block->kind != BLOCK_TABLE || strcmp(block->as.table.caption, words_get("build.stock_list")) != 0)
        return;
    for (int i = 0; i < block->as.table.n_rows; i++) {
        const char **c = block->as.table.rows[i].cells;
        if (strstr(c[5], "mm")) /* told as a length */
            continue;
        assert_int_equal(count_of_cell(c[3]) + count_of_cell(c[4]), count_of_cell(c[5]) + count_of_cell(c[6]));
        ++*rows;
    }
}

static void test_rows_of_the_stock_table_add_up(void **state)
{
    (void)state;
    int rows = 0;
    for (unsigned seed = 1; seed <= LISTS; seed++) {
        struct text yaml = {0};
        random_list(seed, &yaml);
        struct made *m = make_sheets(text_string(&yaml), NULL);
        visit_blocks(&find_sheet(m, SHEET_BUILD)->body, add_up_stock, &rows);
        free_made(m);
        text_free(&yaml);
    }
    assert_true(rows > LISTS);
}

/* The name of each stock, and which parts are cut from it. */
static void read_for_parts(const struct block *block, void *arg)
{
    struct text *out = arg;
    if (block->kind == BLOCK_TABLE && strcmp(block->as.table.caption, words_get("build.stock_list")) == 0)
        for (int i = 0; i < block->as.table.n_rows; i++)
            text_printf(out, "%s: %s; ", block->as.table.rows[i].cells[0], block->as.table.rows[i].cells[2]);
}

/* An offcut that is cut into is a row of its own: taken from three, two are left; and the stock that the part names is for
   nothing. */
static void test_offcuts_have_a_row_of_the_stock_table(void **state)
{
    (void)state;
    int rows = 0;
    struct made *m = make_sheets(LIST("  ply: {material: birch-plywood, thickness: 12, sheet: [1210, 800], have: 1}\n"
                                      "  heap: {material: birch-plywood, thickness: 12, sheet: [410, 310], have: 3}\n",
                                      "    - {name: lid, stock: ply, length: 400, width: 300}\n"), NULL);
    const struct sheet *build = find_sheet(m, SHEET_BUILD);
    visit_blocks(&build->body, add_up_stock, &rows);
    assert_int_equal(rows, 2);
    assert_int_equal(cutting_count(&m->cutting, &m->job.stock[1]).left, 2);
    assert_int_equal(cutting_count(&m->cutting, &m->job.stock[0]).left, 1);
    struct text parts = {0};
    visit_blocks(&build->body, read_for_parts, &parts);
    assert_string_equal(text_string(&parts), "ply: \xE2\x80\x93; heap: A; ");
    text_free(&parts);
    free_made(m);
}

/* A takes the whole section; B is ripped to 21 from a strip of 45. */
static void test_only_what_is_over_is_to_be_planed(void **state)
{
    (void)state;
    struct made *m = make_sheets(LIST("  oak: {material: red-oak, strip: [20, 45], length: 2000}\n",
                                      "    - {name: rail, stock: oak, length: 590}\n"
                                      "    - {name: runner, stock: oak, length: 430, width: 20, quantity: 2}\n"), NULL);
    const struct sheet *build = find_sheet(m, SHEET_BUILD);
    assert_says(build, "Plane B to width: ripped a little over.", true);
    assert_says(build, "to thickness", false);
    follow_job(m, 0.3);
    free_made(m);
}

/* No stop is set at 1995 to take 5 off an end; in inches as well. */
static void test_rough_ends_are_trimmed_without_a_setting(void **state)
{
    (void)state;
    struct made *m = make_sheets("fettle: 1\njob: {number: L-1, title: List}\nunits: mm\ncutting: {trim: 5}\n"
                                 "stock: {oak: {material: red-oak, strip: [20, 45], length: 2000}}\n"
                                 "jig: {kind: parts, parts: [{name: rail, stock: oak, length: 900, quantity: 2}]}\n", NULL);
    assert_says(find_sheet(m, SHEET_BUILD), "trim about 5 off both ends, gauge", true);
    assert_says(find_sheet(m, SHEET_BUILD), "1995", false);
    follow_job(m, 0.8); /* the assumed kerf ends in tenths */
    free_made(m);
    m = make_sheets("fettle: 1\njob: {number: L-1, title: List}\nunits: in\ncutting: {trim: 1/4}\n"
                    "stock: {oak: {material: red-oak, strip: [3/4, 2], length: 72}}\n"
                    "jig: {kind: parts, parts: [{name: rail, stock: oak, length: 30, quantity: 2}]}\n", NULL);
    assert_says(find_sheet(m, SHEET_BUILD), "trim about 1\xE2\x81\x84" "4 off both ends, gauge", true);
    free_made(m);
}

/* The sheet is wider than the table; the other lies on it, but its setting is past the fence's reach. */
static void test_each_cut_by_hand_says_why(void **state)
{
    (void)state;
#define SAW_OF(width) \
    "fettle: 1\njob: {number: L-1, title: List}\nunits: mm\n" \
    "saw: {blade: {diameter: 250, kerf: 3}, table: {front_edge: 400, depth: 700, width: " width ", left_of_blade: 400}}\nstock:\n" \
    "  ply: {material: birch-plywood, thickness: 12, sheet: [1210, 800]}\n" \
    "jig: {kind: parts, parts: [{name: lid, stock: ply, length: 1210, width: 600}]}\n"
    struct made *m = make_sheets(SAW_OF("700"), NULL);
    assert_says(find_sheet(m, SHEET_BUILD), "rip, by hand: too large", true);
    free_made(m);
    m = make_sheets(SAW_OF("900"), NULL);
    assert_says(find_sheet(m, SHEET_BUILD), "rip, by hand: past the fence", true);
    assert_says(find_sheet(m, SHEET_BUILD), "mark\xC2\xA0" "600", true);
    free_made(m);
    m = make_sheets(SAW_OF("1300"), NULL);
    assert_says(find_sheet(m, SHEET_BUILD), "by hand", false);
    assert_says(find_sheet(m, SHEET_BUILD), "fence\xC2\xA0" "600", true);
    free_made(m);
}

static void test_no_cutting_no_section(void **state)
{
    (void)state;
    struct made *m = make_job(false, "5", "0.1", "", "");
    struct sheets sheets;
    assert_says(find_sheet(m, SHEET_BUILD), "Cutting layout", true);
    sheets_build(&m->job, &m->plan, NULL, &m->proof, &m->outcome, NULL, &sheets);
    sheets_free(&m->sheets);
    m->sheets = sheets;
    assert_says(find_sheet(m, SHEET_BUILD), "Cutting layout", false);
    free_made(m);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_table_followed_in_turn_gives_the_parts_of_random_lists),
        cmocka_unit_test(test_table_followed_in_turn_gives_the_parts_of_the_examples),
        cmocka_unit_test(test_too_few_on_the_rack_says_how_many_to_buy_and_draws_all),
        cmocka_unit_test(test_part_that_fits_nowhere_is_named_with_what_would_do),
        cmocka_unit_test(test_assumed_kerf_is_said),
        cmocka_unit_test(test_too_large_for_the_table_is_sawn_by_hand_first),
        cmocka_unit_test(test_words_of_the_bound_only_where_it_is_met),
        cmocka_unit_test(test_rows_of_the_stock_table_add_up),
        cmocka_unit_test(test_offcuts_have_a_row_of_the_stock_table),
        cmocka_unit_test(test_only_what_is_over_is_to_be_planed),
        cmocka_unit_test(test_rough_ends_are_trimmed_without_a_setting),
        cmocka_unit_test(test_each_cut_by_hand_says_why),
        cmocka_unit_test(test_no_cutting_no_section),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
