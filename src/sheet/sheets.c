/* Which sheets a job gets, and what is the same on each of them. */
#include "sheet/kinds.h"
#include "sheet/methods.h"

/* A sheet needs data: plan or tests, as the row says. */
static bool has_test_that_counts(const struct sheet_builder *b)
{
    for (int m = 0; m < METHODS; m++)
        if (proof_latest(b->proof, (enum method)m))
            return true;
    return false;
}

static bool has_something_to_use(const struct sheet_builder *b)
{
    return b->plan->has_sled || has_test_that_counts(b) || b->outcome->n_failed > 0;
}

static bool has_parts(const struct sheet_builder *b)
{
    return b->job->jig.given && b->plan->n_parts > 0;
}

static bool has_tests(const struct sheet_builder *b)
{
    return b->proof->n_tests > 0;
}

static bool has_bench_test(const struct sheet_builder *b)
{
    for (int m = 0; m < METHODS; m++)
        if (sheet_method((enum method)m)->has_bench(b))
            return true;
    return false;
}

static const struct sheet_row {
    const char *title_key;
    int versions; /* of a sheet that must fit one page, ever shorter; 0: as many pages as it takes */
    bool (*has_data)(const struct sheet_builder *);
    void (*fill)(const struct sheet_builder *, struct block_list *);
} sheet_rows[SHEET_KINDS] = {
    [SHEET_WALL] = {"sheet.wall", WALL_VERSIONS, has_something_to_use, wall_fill},
    [SHEET_BUILD] = {"sheet.build", 0, has_parts, build_fill},
    [SHEET_RECORD] = {"sheet.record", 0, has_tests, record_fill},
    [SHEET_BENCH] = {"sheet.bench", 0, has_bench_test, bench_fill},
};

const char *record_id(const struct sheet_builder *b)
{
    const char *date = date_is_set(b->job->date) ? print_date(b, b->job->date) : "";
    return pool_printf(b->pool, "%s %s%s%.16s", b->job->number.s, date, *date ? " " : "", b->job->fingerprint);
}

void sheet_add_assumed(const struct sheet_builder *b, struct block_list *list, enum text_style style)
{
    size_t n = b->plan->n_assumed;
    const char **texts = pool_alloc(b->pool, n * sizeof *texts);
    if (n == 0)
        return;
    for (size_t i = 0; i < n; i++)
        texts[i] = print_saying(b, b->plan->assumed[i].what);
    block_heading(b, list, 2, SAYING_PLAIN("sheet.assumed"));
    block_items(b, list, style, texts, n, 2);
}

/* The wall sheet is known by its number; every other sheet says what it is. */
static const char *print_head_left(const struct sheet_builder *b, enum sheet_kind kind)
{
    const char *number = print_bold(b, b->job->number.s), *title = b->job->title.s;
    if (kind == SHEET_WALL)
        return pool_printf(b->pool, "%s  %s", number, title);
    return pool_printf(b->pool, "%s  %s: %s", number, print_word(b, sheet_rows[kind].title_key), title);
}

/* Date of issue and whose jig it is, small, at the right of each page's head; where no banner tells the state, the state
   as it was on that date, so that a page alone does not mislead. On the build sheet a pass is that of the sled that was
   tested, not of one that is built by it. */
static const char *print_head_right(const struct sheet_builder *b, enum sheet_kind kind)
{
    const char *date = date_is_set(b->job->date) ? print_date(b, b->job->date) : "";
    const char *shop = b->job->shop.s ? b->job->shop.s : "";
    const char *state = kind == SHEET_WALL ? "" : print_bold(b, print_word(b, outcome_state_key(b->outcome->state)));
    const char *until = "";
    if (kind == SHEET_BUILD && b->outcome->state == STATE_FIT && b->outcome->deciding)
        until = print_saying(b, SAYING("build.as_tested", SAY_STR("date", print_date(b, b->outcome->deciding->job->date))));
    else if (*state && b->outcome->state == STATE_FIT && date_is_set(b->outcome->due))
        until = print_saying(b, SAYING("wall.valid_to", SAY_STR("date", print_date(b, b->outcome->due))));
    const char *whose = pool_printf(b->pool, "%s%s%s", shop, *shop && *date ? ", " : "", date);
    return pool_printf(b->pool, "%s%s%s%s%s", state, *until ? ", " : "", until, *whose && *state ? "\n" : "", whose);
}

static void fill_sheet(const struct sheet_builder *b, enum sheet_kind kind, struct sheet *sheet)
{
    *sheet = (struct sheet){
        .kind = kind,
        .one_page = sheet_rows[kind].versions > 0,
        .title = print_word(b, sheet_rows[kind].title_key),
        .head_left = print_head_left(b, kind),
        .head_right = print_head_right(b, kind),
        .foot_left = print_word(b, "above.all"),
        .foot_right = record_id(b),
        .bookmark = print_word(b, sheet_rows[kind].title_key),
    };
    sheet_rows[kind].fill(b, &sheet->body);
}

/* A sheet of one page stands before all its shorter versions, each pointing to the next. */
static void add_sheet(const struct sheet_builder *b, enum sheet_kind kind, struct sheets *out)
{
    struct sheet *longer = &out->list[out->n++];
    fill_sheet(b, kind, longer);
    for (int brevity = 1; brevity < sheet_rows[kind].versions; brevity++) {
        struct sheet_builder brief = *b;
        struct sheet *shorter = pool_alloc(b->pool, sizeof *shorter);
        brief.brevity = brevity;
        fill_sheet(&brief, kind, shorter);
        longer->shorter = shorter;
        longer = shorter;
    }
}

static void describe_document(const struct sheet_builder *b, struct sheets *out)
{
    const struct job *job = b->job;
    const char *maker = job->made_by.s ? job->made_by.s : job->shop.s;
    out->paper = job->paper;
    out->units = job->units;
    out->number = pool_string(b->pool, job->number.s);
    out->document_title = pool_printf(b->pool, "%s %s", job->number.s, job->title.s);
    out->author = pool_string(b->pool, maker ? maker : "");
    out->fingerprint = pool_string(b->pool, job->fingerprint);
    out->subject = pool_printf(b->pool, "%s; %s", print_word(b, outcome_state_key(b->outcome->state)), record_id(b));
    out->date = job->date;
}

bool sheets_build(const struct job *job, const struct plan *plan, const struct cutting *cutting,
                  const struct proof *proof, const struct outcome *outcome, const bool wanted[SHEET_KINDS], struct sheets *out)
{
    *out = (struct sheets){0};
    const struct sheet_builder b = {
        .job = job, .plan = plan, .cutting = cutting, .proof = proof, .outcome = outcome,
        .pool = &out->pool, .units = job->units};
    describe_document(&b, out);
    out->list = pool_alloc(&out->pool, SHEET_KINDS * sizeof *out->list);
    for (int kind = 0; kind < SHEET_KINDS; kind++) {
        out->has_data[kind] = sheet_rows[kind].has_data(&b);
        if ((!wanted || wanted[kind]) && out->has_data[kind])
            add_sheet(&b, (enum sheet_kind)kind, out);
    }
    return out->n > 0;
}

void sheets_free(struct sheets *sheets)
{
    if (!sheets)
        return;
    pool_free(&sheets->pool);
    *sheets = (struct sheets){0};
}
