/* Every number printed on any sheet is one of the results: 320 random jobs, each text on each sheet taken apart by the table
   of words and the rules of number_rules.inc, each number read back and compared with its key in the results file. */
#include "whole/random_job.h"
#include "whole/sentences.h"
#include "whole/whole.h"

#include <stdio.h>

enum { FAULTS_MOST = 8 };

struct numbers {
    struct reading r;
    const struct whole *w;
    struct text corpus; /* all texts of the sheet, a line each */
    struct text plain, fault;
    const char *sheet;
    const char *prefix; /* of the method that is told of: r.place.method; NULL: none */
    char check_id[64];
    long texts, numbers;
    int faults;
};

static void forget_fault(struct numbers *n)
{
    text_clear(&n->fault);
    n->r.fault_fixed = 0;
}

static void complain(struct numbers *n, const char *where, const char *text)
{
    if (n->faults++ < 4)
        print_error("%s, %s, %s: \"%s\"\n    %s\n", n->sheet, n->prefix ? n->prefix : "any test", where, text, text_string(&n->fault));
}

/* ---- texts and cells ---- */

static const char *plain_of(struct numbers *n, const char *marked)
{
    strip_bold(marked ? marked : "", &n->plain);
    text_printf(&n->corpus, "%s\n", text_string(&n->plain));
    sentences_forget(n->r.table);
    return text_string(&n->plain);
}

static void count_numbers(struct numbers *n, const char *text)
{
    n->texts++;
    for (struct printed one; printed_next(&text, &one);)
        n->numbers++;
}

static const char bullet[] = "•", item[] = "\n•";

/* A text on its own. */
static void check_text(struct numbers *n, const char *where, const char *marked)
{
    const char *text = plain_of(n, marked);
    if (!has_digit(text, strlen(text)))
        return;
    forget_fault(n);
    count_numbers(n, text);
    for (const char *line = text; *line;) { /* a list item by item, anything else whole */
        const char *next = strncmp(text, bullet, strlen(bullet)) == 0 ? strstr(line, item) : NULL;
        size_t length = next ? (size_t)(next - line) : strlen(line);
        n->r.tries = 0;
        if (!sentence_explained(&n->r, line, length) && !vague_explained(&n->r, line, length)) {
            complain(n, where, text);
            return;
        }
        line += length + (next != NULL);
    }
}

/* Where every method has the same row, each has a rule of its own: "five_cut.error_over" is "flip.error_over" for a flip test. */
static const struct number_rule *rule_of_method(const struct numbers *n, const char *key, const char *slot)
{
    char own[96];
    const char *after = strchr(key, '.');
    if (!n->prefix || !after)
        return NULL;
    snprintf(own, sizeof own, "%s%s", n->prefix, after);
    return rule_find(own, slot);
}

/* A line of the budget is worked in its method's own way, or as all are. */
static const struct number_rule *rule_of_cell(const struct numbers *n, const char *row_key, const char *table_key, const char *slot)
{
    const struct number_rule *rule = row_key ? rule_of_method(n, row_key, slot) : NULL;
    bool in_budget = table_key && strcmp(table_key, "five_cut.budget") == 0 && n->r.place.method && strcmp(n->prefix, "five_cut") != 0;
    bool is_line = !row_key || strncmp(row_key, "five_cut.", 9) != 0;
    if (!rule && in_budget && is_line && *slot != '0')
        rule = rule_find("general.budget", slot);
    if (!rule && row_key)
        rule = rule_find(row_key, slot);
    if (!rule && table_key)
        rule = rule_of_method(n, table_key, slot);
    bool is_five_cuts = table_key && strcmp(table_key, "five_cut.readings") == 0 && n->prefix && strcmp(n->prefix, "five_cut") != 0;
    return rule || !table_key || is_five_cuts ? rule : rule_find(table_key, slot);
}

/* A cell by the rule of its row's label or of its table, else as a text. */
static bool cell_holds(struct numbers *n, const char *row_key, const char *table_key, int column, const char *text)
{
    char slot[16];
    snprintf(slot, sizeof slot, "%d", column);
    const struct number_rule *rule = rule_of_cell(n, row_key, table_key, slot);
    if (!has_digit(text, strlen(text)))
        return true;
    if (!rule)
        return sentence_explained(&n->r, text, strlen(text)) || vague_explained(&n->r, text, strlen(text));
    if (rule->path && strcmp(rule->path, "row_number") == 0)
        return atoi(text) == n->r.place.row + 1;
    return rule_holds(&n->r, rule, text, strlen(text));
}

static const char *table_key(struct numbers *n, const struct block *b)
{
    const char *caption = b->as.table.caption;
    if (caption && *caption) {
        struct text plain = {0};
        strip_bold(caption, &plain);
        const char *key = sentence_key(n->r.table, "build.", text_string(&plain));
        if (!key)
            key = sentence_key(n->r.table, "five_cut.", text_string(&plain));
        if (!key)
            key = sentence_key(n->r.table, "cutting.", text_string(&plain));
        if (!key)
            key = sentence_key(n->r.table, "record.", text_string(&plain));
        if (!key)
            key = sentence_key(n->r.table, "fence_straight.", text_string(&plain));
        text_free(&plain);
        return key;
    }
    static const char *const heads[] = {"five_cut.differ",  "record.remark",    "record.tool",        "general.further",
                                        "bench.table.leaf", "bench.table.gap", "bench.table.differ"};
    for (int c = 0; c < b->as.table.n_columns; c++)
        for (size_t i = 0; i < sizeof heads / sizeof *heads; i++)
            if (strcmp(b->as.table.columns[c].head, words_get(heads[i])) == 0)
                return heads[i];
    return NULL;
}

/* Which element of the results a row tells of: its letter or stock, or the check whose title it begins with. */
static void find_row(struct numbers *n, const char *table, const char *first)
{
    n->r.place.id = first;
    for (int id = 0; table && strcmp(table, "build.checks") == 0 && id < CHECKS; id++) {
        snprintf(n->check_id, sizeof n->check_id, "check.%s.title", plan_check_name((enum check_id)id));
        const char *title = words_get(n->check_id);
        for (size_t length = strcspn(first, "."); ; length += 1 + strcspn(first + length + 1, ".")) {
            if (title_fits(title, first, length)) {
                n->r.place.id = plan_check_name((enum check_id)id);
                return;
            }
            if (!first[length])
                break;
        }
    }
}

static bool row_holds(struct numbers *n, const char *table, const char *row_key, const struct table_row *row, int columns,
                      bool tell)
{
    for (int c = 0; c < columns; c++) {
        struct text cell = {0};
        strip_bold(row->cells[c], &cell);
        sentences_forget(n->r.table);
        forget_fault(n);
        n->r.tries = 0;
        bool ok = cell_holds(n, row_key, table, c, text_string(&cell));
        if (!ok && tell) {
            char where[128];
            snprintf(where, sizeof where, "table %s, row %s %d, column %d", table ? table : "-", row_key ? row_key : "-",
                     n->r.place.row, c);
            complain(n, where, text_string(&cell));
        }
        text_free(&cell);
        if (!ok)
            return false;
    }
    return true;
}

static int numbers_in(const char *text)
{
    int n = 0;
    for (struct printed one; printed_next(&text, &one);)
        n++;
    return n;
}

/* No more screws than places, a line of them in one direction, one place in the other: a second hole at the moving end
   stays empty until the first move. */
static void check_screw_count(struct numbers *n, const struct table_row *row)
{
    if (atoi(row->cells[0]) > numbers_in(row->cells[3]) * numbers_in(row->cells[4]))
        complain(n, "number of screws", row->cells[3]);
}

/* Whose words the labels of a table's rows are: the same word may stand for more than one thing. */
static const char *row_prefix(const char *table)
{
    static const struct {
        const char *table, *prefix;
    } rows[] = {{"build.settings", "setting."}, {"build.saw_settings", "setting."}, {"build.sled_and_air", "setting."}, {"five_cut.sum", "five_cut."},
                {"five_cut.budget", ""}};
    for (size_t i = 0; table && i < sizeof rows / sizeof *rows; i++)
        if (strcmp(rows[i].table, table) == 0)
            return rows[i].prefix;
    return table ? "none." : "record.";
}

static const char *key_of_row(struct numbers *n, const char *table, const char *label)
{
    char own[32];
    const char *key = NULL;
    if (table && strcmp(table, "five_cut.sum") == 0 && n->prefix) {
        snprintf(own, sizeof own, "%s.", n->prefix);
        key = sentence_key(n->r.table, "general.", label);
        if (!key)
            key = sentence_key(n->r.table, own, label);
        if (!key)
            key = sentence_key(n->r.table, "record.", label);
    }
    return key ? key : sentence_key(n->r.table, row_prefix(table), label);
}

static void check_row(struct numbers *n, const char *table, const struct table_row *row, int columns, int index)
{
    struct text first = {0};
    for (int c = 0; c < columns; c++)
        count_numbers(n, plain_of(n, row->cells[c]));
    strip_bold(row->cells[0], &first);
    const char *key = key_of_row(n, table, text_string(&first));
    bool screws = table && strcmp(table, "build.screws") == 0;
    find_row(n, table, text_string(&first));
    n->r.place.row = table && strncmp(table, "cutting.table", 13) == 0 ? atoi(text_string(&first)) - 1 : index;
    if (screws) {
        const char *cells[] = {"", row->cells[1], row->cells[2], row->cells[3], row->cells[4]};
        check_screw_count(n, row);
        row_holds(n, table, NULL, &(struct table_row){.cells = cells}, columns, true);
    } else if (table && strcmp(table, "five_cut.differ") == 0) { /* some of the reckoner's rows: one must hold whole */
        bool ok = false;
        for (int i = 0; i < RECKONER_MOST && !ok; i++) {
            n->r.place.row = i;
            ok = row_holds(n, table, NULL, row, columns, false);
        }
        if (!ok)
            complain(n, "no such row of the reckoner", text_string(&first));
    } else {
        row_holds(n, table, key, row, columns, true);
    }
    n->r.place.row = 0;
    n->r.place.id = NULL;
    text_free(&first);
}

static void check_table(struct numbers *n, const struct block *b)
{
    const char *key = table_key(n, b);
    check_text(n, "caption", b->as.table.caption);
    if (b->as.table.note)
        check_text(n, "note", b->as.table.note);
    for (int c = 0; c < b->as.table.n_columns; c++)
        check_text(n, "head of a column", b->as.table.columns[c].head);
    for (int i = 0; i < b->as.table.n_rows; i++)
        check_row(n, key, &b->as.table.rows[i], b->as.table.n_columns, i);
}

/* ---- other blocks ---- */

static void check_by_rule(struct numbers *n, const char *key, const char *slot, const char *marked)
{
    const char *text = plain_of(n, marked);
    const struct number_rule *rule = key ? rule_find(key, slot) : NULL;
    forget_fault(n);
    count_numbers(n, text);
    n->r.tries = 0;
    if (has_digit(text, strlen(text)) && !(rule && rule_holds(&n->r, rule, text, strlen(text))) &&
        !sentence_explained(&n->r, text, strlen(text))) {
        char where[128];
        snprintf(where, sizeof where, "%s of %s", slot, key ? key : "an unknown title");
        complain(n, where, text);
    }
}

static const char *key_of(struct numbers *n, const char *prefix, const char *marked)
{
    struct text plain = {0};
    strip_bold(marked, &plain);
    const char *key = sentence_key(n->r.table, prefix, text_string(&plain));
    text_free(&plain);
    return key;
}

static void check_steps(struct numbers *n, const struct block *b)
{
    for (int i = 0; i < b->as.steps.n; i++) {
        const struct step_item *s = &b->as.steps.items[i];
        plain_of(n, s->number); /* they count up: test_numbers_steps_count_up */
        check_text(n, "caution of a step", s->caution);
        check_text(n, "step", s->what);
        check_text(n, "aside of a step", s->aside);
    }
}

static void check_drawing(struct numbers *n, const struct drawing *d)
{
    const char *key = d->title && *d->title ? key_of(n, "draw.", d->title) : NULL;
    check_text(n, "title of a drawing", d->title);
    for (size_t i = 0; i < d->n_dims; i++)
        check_by_rule(n, key, "dim", d->dims[i].text);
    for (size_t i = 0; i < d->n_labels; i++)
        check_by_rule(n, key, "label", d->labels[i].text);
}

static void check_list(struct numbers *n, const struct block_list *list);

/* Prefixes, by method. */
static const char *const prefixes[METHODS] = {
#define METHOD(id, prefix, name) [METHOD_##id] = #prefix,
#include "job/methods.inc"
#undef METHOD
};

static void tell_of(struct numbers *n, int method)
{
    n->prefix = method < 0 ? NULL : prefixes[method];
    n->r.place.method = method < 0 ? NULL : job_method_name((enum method)method);
}

/* "Latest flip test, …", "Flip test: is the blade square to the base?": from there on it is told of that method. */
static void find_method(struct numbers *n, const struct block *b)
{
    static const char *const keys[] = {"record.test", "record.history", "bench.five_cut"};
    struct text plain = {0};
    strip_bold(b->as.heading.text, &plain);
    const char *key = sentence_key(n->r.table, "record.", text_string(&plain));
    int found = -1;
    for (int m = 0; m < METHODS; m++) {
        char name[64], bench[64], plain_bench[80];
        snprintf(name, sizeof name, "method.%s", job_method_name((enum method)m));
        snprintf(bench, sizeof bench, "%s.bench", prefixes[m]);
        snprintf(plain_bench, sizeof plain_bench, "%s.plain", bench);
        const char *title = words_find(m == METHOD_FIVE_CUT ? keys[2] : bench), *other = words_find(plain_bench);
        bool of_record = key && (strcmp(key, keys[0]) == 0 || strcmp(key, keys[1]) == 0) && strstr(text_string(&plain), words_get(name));
        if (of_record || (title && strcmp(title, text_string(&plain)) == 0) || (other && strcmp(other, text_string(&plain)) == 0))
            found = m;
    }
    bool goes_on = b->as.heading.level > 2 || (n->prefix && found < 0 && (!key || strcmp(key, "record.move_heading") == 0));
    if (!goes_on)
        tell_of(n, found);
    text_free(&plain);
}

static void check_block(struct numbers *n, const struct block *b)
{
    switch (b->kind) {
    case BLOCK_HEADING:
        find_method(n, b);
        check_text(n, "heading", b->as.heading.text);
        check_text(n, "heading's aside", b->as.heading.aside);
        break;
    case BLOCK_PARAGRAPH:
        check_text(n, "paragraph", b->as.paragraph.text);
        break;
    case BLOCK_TABLE:
        check_table(n, b);
        break;
    case BLOCK_STEPS:
        check_steps(n, b);
        break;
    case BLOCK_CAUTIONS:
        for (int i = 0; i < b->as.cautions.n; i++)
            check_text(n, "caution", b->as.cautions.items[i].text);
        break;
    case BLOCK_BANNER:
        check_text(n, "banner", b->as.banner.words);
        check_text(n, "banner", b->as.banner.right);
        break;
    case BLOCK_FIGURES:
        for (int i = 0; i < b->as.figures.n; i++) {
            check_text(n, "label of a figure", b->as.figures.items[i].label);
            check_by_rule(n, key_of(n, "wall.", b->as.figures.items[i].label), "number", b->as.figures.items[i].number);
        }
        break;
    case BLOCK_DRAWING:
        check_drawing(n, b->as.drawing.drawing);
        break;
    case BLOCK_BOXES:
        for (int i = 0; i < b->as.boxes.n; i++) {
            check_text(n, "box", b->as.boxes.items[i].text);
            check_text(n, "caption of a box", b->as.boxes.items[i].caption);
        }
        break;
    case BLOCK_SIGNATURES:
        for (int i = 0; i < b->as.signatures.n; i++)
            check_text(n, "signature", b->as.signatures.labels[i]);
        break;
    case BLOCK_COLUMNS:
        for (int i = 0; i < b->as.columns.n; i++)
            check_list(n, &b->as.columns.list[i]);
        break;
    case BLOCK_BAR:
        check_text(n, "bar", b->as.bar.label);
        break;
    case BLOCK_SOURCE: /* the job itself, letter for letter */
        assert_string_equal(b->as.source.text, n->w->job.sources[0].text);
        text_printf(&n->corpus, "%s\n%s\n", b->as.source.name, b->as.source.text);
        break;
    case BLOCK_RULE:
        break;
    }
}

static void check_list(struct numbers *n, const struct block_list *list)
{
    for (size_t i = 0; i < list->n; i++)
        check_block(n, &list->blocks[i]);
}

/* "the shop, 2026-11-02"; before it, where no banner has it, the state: "FIT FOR USE, valid to 2027-02-02", on the
   build sheet the day of the test. */
static void check_head_right(struct numbers *n, const struct sheet *sheet)
{
    const char *text = plain_of(n, sheet->head_right);
    const struct outcome *o = &n->w->outcome;
    char date[11] = "";
    struct text expected = {0};
    if (date_is_set(n->w->job.date))
        date_print(n->w->job.date, date);
    const char *shop = n->w->job.shop.s ? n->w->job.shop.s : "";
    if (sheet->kind != SHEET_WALL) {
        char day[11] = "";
        bool fit = o->state == STATE_FIT, tested = fit && sheet->kind == SHEET_BUILD && o->deciding;
        if (tested)
            date_print(o->deciding->job->date, day);
        else if (fit && date_is_set(o->due))
            date_print(o->due, day);
        text_printf(&expected, "%s%s%s%s", words_get(outcome_state_key(o->state)),
                    tested ? ", as tested " : *day ? ", valid to " : "", day,
                    *shop || *date ? "\n" : "");
    }
    text_printf(&expected, "%s%s%s", shop, *shop && *date ? ", " : "", date);
    assert_string_equal(text, text_string(&expected));
    text_free(&expected);
}

/* Heads and feet hold what the job calls itself, its date and the first figures of its fingerprint, nothing else. */
static void check_frame(struct numbers *n, const struct sheet *sheet)
{
    check_head_right(n, sheet);
    check_text(n, "foot, left", sheet->foot_left);
    check_text(n, "foot, right", sheet->foot_right);
    const char *left = plain_of(n, sheet->head_left);
    struct text expected = {0};
    bool wall = sheet->kind == SHEET_WALL;
    text_printf(&expected, "%s  %s%s%s", n->w->job.number.s, wall ? "" : sheet->title, wall ? "" : ": ", n->w->job.title.s);
    assert_string_equal(left, text_string(&expected));
    text_free(&expected);
}

static void check_sheet(struct numbers *n, const struct sheet *sheet)
{
    n->sheet = sheet->title;
    for (; sheet; sheet = sheet->shorter) {
        tell_of(n, -1);
        check_frame(n, sheet);
        check_list(n, &sheet->body);
    }
}

/* ---- pages add nothing ---- */

/* "page 2 of 14" and "1 : 5" are the pages' own: their number, and a scale of ISO 5455. */
static bool is_of_the_pages(const struct pages *pages, size_t page, const char *text)
{
    static const char *const scales[] = {"1 : 1", "1 : 2", "1 : 5", "1 : 10", "1 : 20", "1 : 50", "2 : 1", "5 : 1", "1 : 3",
                                         "1 : 4", "1 : 6", "1 : 7", "1 : 8", "1 : 15", "1 : 12", "1 : 25"};
    char number[64];
    snprintf(number, sizeof number, "page" NBSP "%zu" NBSP "of" NBSP "%zu", page + 1, pages->n);
    const char *at = strstr(text, number);
    if (at && !has_digit(at + strlen(number), strlen(at + strlen(number))))
        return true;
    for (size_t i = 0; i < sizeof scales / sizeof *scales; i++)
        if (strstr(text, scales[i]))
            return true;
    return false;
}

static void squeeze_blanks(const char *s, struct text *out)
{
    text_clear(out);
    for (; *s; s++) {
        bool hard = strncmp(s, NBSP, 2) == 0;
        bool dot = strncmp(s, "\xC2\xB7", 2) == 0; /* stands between foot and page number */
        bool blank = *s == ' ' || *s == '\n' || hard || dot;
        s += hard || dot;
        if (!blank)
            text_add_char(out, *s);
    }
}

static void check_pages(struct numbers *n, enum sheet_kind kind)
{
    struct text corpus = {0}, piece = {0};
    squeeze_blanks(text_string(&n->corpus), &corpus);
    for (size_t p = 0; p < n->w->pages.n; p++) {
        const struct page *page = &n->w->pages.list[p];
        if (page->kind != kind)
            continue;
        for (size_t i = 0; i < page->n_inks; i++) {
            if (page->inks[i].kind != INK_TEXT || !has_digit(page->inks[i].as.text.s, strlen(page->inks[i].as.text.s)))
                continue;
            squeeze_blanks(page->inks[i].as.text.s, &piece);
            if (!strstr(text_string(&corpus), text_string(&piece)) && !is_of_the_pages(&n->w->pages, p, page->inks[i].as.text.s)) {
                forget_fault(n);
                complain(n, "a page, but no sheet, says", page->inks[i].as.text.s);
            }
        }
    }
    text_free(&corpus);
    text_free(&piece);
}

/* ---- the test ---- */

/* What stands on the record without a key of its own: put together from keys. */
static void add_names(cJSON *job, const char *program)
{
    char fingerprint[17];
    struct text id = {0};
    const cJSON *date = cJSON_GetObjectItemCaseSensitive(job, "date");
    snprintf(fingerprint, sizeof fingerprint, "%.16s", cJSON_GetObjectItemCaseSensitive(job, "fingerprint")->valuestring);
    text_printf(&id, "%s %s%s%s", cJSON_GetObjectItemCaseSensitive(job, "number")->valuestring,
                cJSON_IsString(date) ? date->valuestring : "", cJSON_IsString(date) ? " " : "", fingerprint);
    cJSON_AddStringToObject(job, "record_id", text_string(&id));
    text_clear(&id);
    text_printf(&id, "fettle %s", program);
    cJSON_AddStringToObject(job, "program", text_string(&id));
    text_free(&id);
}

/* What a sheet works out from a test's keys beside each other: the error over 1 where it is a length, the whole degrees of freedom at
   which k was looked up, a year past it where a chart's drift meets no limit before. */
static void add_worked_of_tests(cJSON *job, const struct whole *w)
{
    cJSON *o = cJSON_GetObjectItemCaseSensitive(job, "tests")->child;
    for (size_t i = 0; i < w->proof.n_tests; i++, o = o->next) {
        const struct proof_test *t = &w->proof.tests[i];
        char date[11];
        date_print(date_from_days(date_days(t->job->date) + 365), date);
        cJSON_AddStringToObject(o, "chart_end", date);
        cJSON_AddNumberToObject(o, "whole_freedom", fmax(1, floor(t->dof)));
        if (proof_is_angle(t))
            continue;
        cJSON *over = cJSON_AddObjectToObject(o, "error_over");
        cJSON_AddNumberToObject(over, "length", 1);
        cJSON_AddNumberToObject(over, "error", t->error);
    }
}

/* The two strips that a board gives, each shorter by two slivers and their kerfs; the tolerance of the tilt as an angle. */
static void add_worked(cJSON *job, const struct whole *w)
{
    bool in = w->job.units == UNITS_IN;
    const cJSON *saw = cJSON_GetObjectItemCaseSensitive(job, "saw"), *reckoner = cJSON_GetObjectItemCaseSensitive(job, "reckoner");
    const cJSON *kerf = cJSON_GetObjectItemCaseSensitive(saw, "kerf"), *marks = cJSON_GetObjectItemCaseSensitive(reckoner, "length");
    if (kerf && marks) {
        double board = marks->valuedouble + (in ? 38.1 : 40), shorter = 2 * (kerf->valuedouble + (in ? 4.7625 : 5));
        cJSON_AddNumberToObject(job, "first_strip", board - shorter);
        cJSON_AddNumberToObject(job, "second_strip", board - 2 * shorter);
    }
    const struct job_limit *tilt = &w->job.tolerances.blade_tilt;
    cJSON_AddNumberToObject(job, "blade_tilt_angle", tilt->error.v / tilt->over.v);
}

/* faces NULL: sheets only, no pages. */
static int check_job(const char *yaml, const struct faces *faces, struct sentence_table *table, long *numbers)
{
    struct whole *w = whole_calculate(yaml);
    struct numbers n = {.w = w};
    struct text problem = {0};
    if (w->planned) {
        assert_true(faces ? whole_typeset(w, faces, &problem) : whole_lay_out(w));
        whole_results(w);
        cJSON *root = cJSON_Parse(text_string(&w->json));
        cJSON *job = cJSON_GetArrayItem(cJSON_GetObjectItem(root, "jobs"), 0);
        add_names(job, cJSON_GetObjectItem(root, "program")->valuestring);
        add_worked_of_tests(job, w);
        add_worked(job, w);
        n.r = (struct reading){.job = job, .units = w->job.units, .table = table, .fault = &n.fault};
        reading_begin(&n.r);
        for (size_t i = 0; i < w->sheets.n; i++) {
            text_clear(&n.corpus);
            check_sheet(&n, &w->sheets.list[i]);
            if (faces)
                check_pages(&n, w->sheets.list[i].kind);
        }
        reading_end(&n.r);
        cJSON_Delete(root);
    }
    *numbers += n.numbers;
    text_free(&n.corpus);
    text_free(&n.plain);
    text_free(&n.fault);
    text_free(&problem);
    whole_free(w);
    return n.faults;
}

/* Sleds with five-cut tests, sleds with tests of every method, saws on their own, lists of parts. */
static const struct kind_row {
    struct random_job first;
    int jobs, pages_of; /* pages of every so many: drawings take the most of the time */
    long least_numbers; /* of a job, on average */
} kind_rows[] = {
    {{.state = 20261125, .n_tests = -1}, 150, 70, 300},
    {{.state = 20261126, .n_tests = 1, .all_methods = true}, 40, 40, 300},
    {{.state = 20261127, .kind = RANDOM_SAW, .all_methods = true}, 90, 45, 100},
    {{.state = 20261128, .kind = RANDOM_PARTS, .all_methods = true}, 40, 40, 100},
};

static int check_kind(const struct kind_row *row, const struct faces *faces, struct sentence_table *table, long *numbers)
{
    struct random_job g = row->first;
    struct text yaml = {0};
    int faults = 0;
    *numbers = 0;
    for (int i = 0; i < row->jobs && faults < FAULTS_MOST; i++) {
        random_job_write(&g, &yaml);
        int more = check_job(text_string(&yaml), i % row->pages_of == 0 ? faces : NULL, table, numbers);
        if (more > 0 && getenv("FETTLE_SHOW"))
            printf("job %d:\n%s\n", i, text_string(&yaml)); /* print_error cuts what is long */
        faults += more > 0;
    }
    text_free(&yaml);
    return faults;
}

static void test_numbers_of_random_jobs_are_results(void **state)
{
    (void)state;
    struct faces *faces = type_open();
    struct sentence_table *table = sentences_begin();
    for (size_t k = 0; k < sizeof kind_rows / sizeof *kind_rows; k++) {
        long numbers;
        assert_int_equal(check_kind(&kind_rows[k], faces, table, &numbers), 0); /* jobs with a number that no results key explains */
        print_message("%ld numbers of %d jobs\n", numbers, kind_rows[k].jobs);
        assert_true(numbers > kind_rows[k].least_numbers * kind_rows[k].jobs);
    }
    sentences_end(table);
    type_close(faces);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_numbers_of_random_jobs_are_results),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
