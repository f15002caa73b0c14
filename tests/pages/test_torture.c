/* Random sheets from a fixed seed: whatever the blocks, every rule of pages_check holds and no word is lost. */
#include "kit.h"

#include "base/utf8.h"
#include "faces.h"

/* One random document being made. */
struct maker {
    struct pool pool;
    unsigned seed;
    unsigned words;  /* so far: each word carries its number */
    struct text all; /* every word, each followed by a blank */
};

static unsigned random_below(struct maker *m, unsigned n)
{
    m->seed = m->seed * 1664525u + 1013904223u; /* Numerical Recipes' generator */
    return (m->seed >> 8) % n;
}

static void add_word(struct maker *m, struct text *t, bool may_be_long)
{
    static const char *const stems[] = {"fence", "runner", "mitre",  "°C",    "±0.05",         "Zwölf", "travel-stop",
                                        "a",     "guard,", "blade;", "13⁄32", "420" THIN "mm", "née"};
    struct text w = {0};
    text_printf(&w, "%s%u", stems[random_below(m, COUNT(stems))], m->words++);
    for (unsigned n = may_be_long && random_below(m, 40) == 0 ? 8 : 0; n > 0; n--)
        text_add(&w, "Kreissägeblattführung");
    text_add(t, text_string(&w));
    text_printf(&m->all, "%s ", text_string(&w));
    text_free(&w);
}

static const char *words(struct maker *m, unsigned most, bool may_be_long)
{
    struct text t = {0};
    unsigned n = 1 + random_below(m, most);
    bool bold = random_below(m, 4) == 0;
    for (unsigned i = 0; i < n; i++) {
        if (i)
            text_add(&t, " ");
        if (bold && i == 0)
            text_add_char(&t, TEXT_BOLD_ON);
        add_word(m, &t, may_be_long);
        if (bold && i == n / 2)
            text_add_char(&t, TEXT_BOLD_OFF);
    }
    const char *s = pool_string(&m->pool, text_string(&t));
    text_free(&t);
    return s;
}

static struct block random_table(struct maker *m, unsigned most_columns)
{
    int columns = 1 + (int)random_below(m, most_columns), rows = (int)random_below(m, 40);
    struct table_column *c = pool_alloc(&m->pool, (size_t)columns * sizeof *c);
    struct table_row *r = pool_alloc(&m->pool, (size_t)(rows + 1) * sizeof *r);
    for (int i = 0; i < columns; i++)
        c[i] = (struct table_column){words(m, 2, false), (enum align)random_below(m, 4), (double)random_below(m, 3)};
    for (int i = 0; i < rows; i++) {
        r[i] = (struct table_row){pool_alloc(&m->pool, (size_t)columns * sizeof(char *)), random_below(m, 9) == 0,
                                  random_below(m, 9) == 0};
        for (int k = 0; k < columns; k++)
            r[i].cells[k] = random_below(m, 8) ? words(m, random_below(m, 6) ? 2 : 14, true) : "";
    }
    /* heads repeat, so their words are looked for like all others */
    return table_block(words(m, 4, false), c, columns, r, rows);
}

static struct block random_steps(struct maker *m)
{
    struct block b = {.kind = BLOCK_STEPS};
    b.as.steps.n = 1 + (int)random_below(m, 9);
    b.as.steps.items = pool_alloc(&m->pool, (size_t)b.as.steps.n * sizeof *b.as.steps.items);
    for (int i = 0; i < b.as.steps.n; i++) {
        struct step_item *s = &b.as.steps.items[i];
        *s = (struct step_item){
            .number = pool_printf(&m->pool, "%d", i + 1), .what = words(m, 30, true), .tick = random_below(m, 2)};
        s->aside = random_below(m, 2) ? words(m, 15, true) : "";
        s->signal = (enum signal)random_below(m, 5);
        s->caution = s->signal == SIGNAL_NONE ? NULL : words(m, 12, false);
    }
    return b;
}

static struct block random_cautions(struct maker *m)
{
    struct block b = {.kind = BLOCK_CAUTIONS};
    b.as.cautions.n = 1 + (int)random_below(m, 4);
    b.as.cautions.style = random_below(m, 3) ? STYLE_BODY : STYLE_LEAD;
    b.as.cautions.items = pool_alloc(&m->pool, (size_t)b.as.cautions.n * sizeof *b.as.cautions.items);
    for (int i = 0; i < b.as.cautions.n; i++)
        b.as.cautions.items[i] = (struct caution_item){(enum signal)random_below(m, 5), words(m, 20, true)};
    return b;
}

static struct block random_boxes(struct maker *m)
{
    struct block b = {.kind = BLOCK_BOXES};
    b.as.boxes.n = 1 + (int)random_below(m, 8);
    b.as.boxes.items = pool_alloc(&m->pool, (size_t)b.as.boxes.n * sizeof *b.as.boxes.items);
    for (int i = 0; i < b.as.boxes.n; i++) {
        bool box = random_below(m, 2);
        b.as.boxes.items[i] = (struct box_item){words(m, 3, false), box ? words(m, 2, false) : NULL,
                                                box ? 20.0 + random_below(m, 20) : 0, random_below(m, 2) ? 15 : 0,
                                                box && random_below(m, 2) ? "350.5" : NULL};
    }
    return b;
}

static struct block random_figures(struct maker *m)
{
    struct block b = {.kind = BLOCK_FIGURES};
    b.as.figures.n = 1 + (int)random_below(m, 4);
    b.as.figures.items = pool_alloc(&m->pool, 4 * sizeof *b.as.figures.items);
    for (int i = 0; i < b.as.figures.n; i++)
        b.as.figures.items[i] =
            (struct figure_item){pool_printf(&m->pool, "%u", random_below(m, 9999)), "mm", words(m, 4, false)};
    return b;
}

static struct block random_source(struct maker *m)
{
    struct text t = {0};
    for (unsigned n = 1 + random_below(m, 60); n > 0; n--)
        text_printf(&t, "%*sk%u: %s\n", 2 * (int)random_below(m, 4), "", n, words(m, 40, false));
    struct block b = {.kind = BLOCK_SOURCE, .as.source = {"job.yaml", NULL}};
    for (char *s = t.bytes; *s; s++)
        if (*s == TEXT_BOLD_ON || *s == TEXT_BOLD_OFF)
            memmove(s, s + 1, strlen(s));
    b.as.source.text = pool_string(&m->pool, text_string(&t));
    text_free(&t);
    return b;
}

static struct block random_drawing(struct maker *m)
{
    static const struct draw_point corners[] = {{0, 0}, {700, 0}, {700, 400}, {0, 400}};
    struct draw_shape *shape = pool_alloc(&m->pool, sizeof *shape);
    struct drawing *d = pool_alloc(&m->pool, sizeof *d);
    *shape = (struct draw_shape){.points = corners, .n = 4, .closed = true, .line = LINE_VISIBLE};
    *d = (struct drawing){.shapes = shape,
                          .n_shapes = 1,
                          .to_scale = random_below(m, 2),
                          .title = random_below(m, 2) ? words(m, 6, false) : ""};
    return (struct block){.kind = BLOCK_DRAWING,
                          .as.drawing = {d, 30 + random_below(m, 20), 60 + random_below(m, 120), STYLE_BODY}};
}

static void fill_list(struct maker *m, struct block_list *list, int n, bool in_columns);

static struct block random_columns(struct maker *m)
{
    static const double weights[][3] = {{6, 6, 0}, {7.5, 4.5, 0}, {4, 4, 4}};
    unsigned kind = random_below(m, 3);
    struct block b = {.kind = BLOCK_COLUMNS, .as.columns.n = kind == 2 ? 3 : 2};
    for (int i = 0; i < b.as.columns.n; i++) {
        b.as.columns.weight[i] = weights[kind][i];
        fill_list(m, &b.as.columns.list[i], (int)random_below(m, 5), true);
    }
    return b;
}

static struct block random_block(struct maker *m, bool in_columns)
{
    switch (random_below(m, in_columns ? 9 : 16)) {
    case 0:
        return random_table(m, in_columns ? 2 : 5);
    case 1:
        return random_cautions(m);
    case 2:
        return random_drawing(m);
    case 3:
        return (struct block){.kind = BLOCK_RULE};
    case 4:
    case 5:
        return (struct block){.kind = BLOCK_HEADING,
                              .as.heading = {1 + (int)random_below(m, 3), words(m, 8, false),
                                             random_below(m, 2) ? words(m, 3, false) : ""}};
    case 6:
    case 7:
    case 8:
        return (struct block){.kind = BLOCK_PARAGRAPH,
                              .as.paragraph = {random_below(m, 4) ? STYLE_BODY : STYLE_SMALL, words(m, 80, false),
                                               (enum align)(random_below(m, 3) ? 0 : 3), random_below(m, 6) == 0}};
    case 9:
        return random_steps(m);
    case 10:
        return random_boxes(m);
    case 11:
        return random_figures(m);
    case 12:
        return random_source(m);
    case 13:
        return (struct block){.kind = BLOCK_BAR, .as.bar = {.length = 100, .parts = 10, .label = words(m, 12, false)}};
    case 14:
        return (struct block){
            .kind = BLOCK_BANNER,
            .as.banner = {(enum mark_shape)random_below(m, 4), words(m, 4, false), words(m, 3, false)}};
    default:
        return random_columns(m);
    }
}

static void fill_list(struct maker *m, struct block_list *list, int n, bool in_columns)
{
    for (int i = 0; i < n; i++) {
        struct block b = random_block(m, in_columns);
        b.keep_with_next = random_below(m, 8) == 0;
        b.new_page = !in_columns && random_below(m, 12) == 0;
        b.space_before = random_below(m, 5) ? 0 : 1;
        add_block(list, b);
    }
}

/* Everything on the pages without blanks, so that words cut over lines are whole again. */
static void gather_texts(const struct pages *pages, struct text *out)
{
    for (size_t p = 0; p < pages->n; p++)
        for (size_t i = 0; i < pages->list[p].n_inks; i++)
            if (pages->list[p].inks[i].kind == INK_TEXT)
                for (const char *s = pages->list[p].inks[i].as.text.s; *s; s++)
                    if (*s != ' ')
                        text_add_char(out, *s);
}

static void assert_words_are_there(struct maker *m, const struct pages *pages)
{
    struct text texts = {0};
    gather_texts(pages, &texts);
    for (char *s = m->all.bytes, *end; s && *s; s = end + 1) {
        end = strchr(s, ' ');
        *end = '\0';
        if (!strstr(text_string(&texts), s))
            fail_msg("\"%s\" is lost", s);
        *end = ' ';
    }
    text_free(&texts);
}

static void test_pages_hold_whatever_is_put_on_them(void **state)
{
    (void)state;
    for (unsigned round = 0; round < 32; round++) {
        struct maker m = {.seed = 1000 + round};
        struct sheet list[2] = {plain_sheet(SHEET_BUILD, (struct block_list){0}),
                                plain_sheet(SHEET_RECORD, (struct block_list){0})};
        for (int i = 0; i < 2; i++)
            fill_list(&m, &list[i].body, 2 + (int)random_below(&m, 20), false);
        struct sheets sheets = {.paper = (enum paper)(round % 4), .list = list, .n = 2};
        struct pages pages;
        struct text problems = {0};
        assert_true(pages_build(&sheets, faces, &pages, &problems));
        if (pages_check(&pages, faces, &problems))
            fail_msg("round %u:\n%s", round, text_string(&problems));
        assert_words_are_there(&m, &pages);
        text_free(&problems);
        pages_free(&pages);
        for (int i = 0; i < 2; i++)
            free_list(&list[i].body);
        text_free(&m.all);
        pool_free(&m.pool);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_pages_hold_whatever_is_put_on_them)};
    return cmocka_run_group_tests(tests, open_faces, close_faces);
}
