/* The job's own text, so that what is taken from the page (by eye or by a reader of PDF) is the same job: every line
   kept with its leading blanks; what is too long is broken where YAML allows it, and goes on deeper. Where a line has
   no such place the whole text is set smaller; where all lines are short, larger. Pages end at blank lines if they can. */
#include "pages/blocks.h"

#include "base/utf8.h"
#include "pages/wrap.h"

#include <assert.h>
#include <string.h>

static const double sizes[] = {7.5, 7.0, 6.5, 6.0, 5.5, 5.0, SOURCE_LEAST_PT}; /* [pt] */
#define WRAPPED_MOST_PT 6.5 /* larger only where every line keeps to one row */
enum { SIZES = sizeof sizes / sizeof *sizes };

#define LINE_BREAK_COST 25.0 /* within a group: nearly as much as a page left white */
#define GROUP_BREAK_COST 1.0 /* after a blank line */
#define LEADING_EMS 1.28
#define SHORTEST_SHARE 0.4 /* of the measure: a better break place may not leave a line shorter than that */

/* One text being set at one size. */
struct printing {
    const struct setter *setter;
    double size, measure; /* [pt] */
    struct slabs *out;    /* NULL: only tries */
    bool wrapped;         /* some line goes on below */
    bool broken;          /* some line had to be broken where its meaning changes */
    bool after_blank;     /* the line before is blank: a group begins */
};

/* A stretch of a source line as it is printed: indent, "# " where it goes on with a comment, bytes. */
struct stretch {
    const char *s;
    size_t n, indent;
    bool comment;
};

static const char *stretch_text(struct pool *pool, const struct stretch *st)
{
    return pool_printf(pool, "%*s%s%.*s", (int)st->indent, "", st->comment ? "# " : "", (int)st->n, st->s);
}

static bool fits(const struct printing *p, const struct stretch *st)
{
    struct pool pool = {0};
    const char *s = stretch_text(&pool, st);
    bool fit = widths_of(p->setter->widths, FACE_MONO, 0, s, strlen(s)) * p->size <= p->measure;
    pool_free(&pool);
    return fit;
}

static void put_stretch(struct printing *p, const struct stretch *st)
{
    if (!p->out)
        return;
    struct slab *slab = slabs_add(p->out);
    slab->height = LEADING_EMS * p->size;
    const char *s = stretch_text(p->setter->pool, st);
    slab->break_cost = p->after_blank ? GROUP_BREAK_COST : LINE_BREAK_COST;
    p->after_blank = !*s;
    if (*s)
        ink_add_text(&slab->inks, p->setter->widths->faces, FACE_MONO, 0, p->size, 0, p->size, COLOR_BLACK, s,
                     strlen(s));
}

static bool is_inside_character(char c)
{
    return ((unsigned char)c & 0xC0) == 0x80;
}

/* Bytes of the stretch that fit, whole characters, at least one: the width grows with the length, so halving finds it.
 */
static size_t cut_anywhere(const struct printing *p, const struct stretch *st)
{
    const char *first = st->s;
    utf8_next(&first);
    size_t fit = (size_t)(first - st->s), over = st->n;
    while (fit + 1 < over) {
        struct stretch part = *st;
        part.n = (fit + over) / 2;
        while (part.n > fit && is_inside_character(st->s[part.n]))
            part.n--;
        if (part.n == fit)
            break;
        if (fits(p, &part))
            fit = part.n;
        else
            over = part.n;
    }
    return fit;
}

/* The best place among those that fit: the latest of the highest rank, unless that leaves the line short. 0: none. */
static size_t find_break(const struct stretch *st, const unsigned char *ranks, size_t longest)
{
    for (int rank = WRAP_AFTER_COMMA; rank > WRAP_NEVER; rank--)
        for (size_t i = longest; i > (size_t)(SHORTEST_SHARE * (double)longest); i--)
            if (i < st->n && ranks[i] >= rank)
                return i;
    for (size_t i = longest; i > 0; i--)
        if (i < st->n && ranks[i] > WRAP_NEVER)
            return i;
    return 0;
}

static void print_line(struct printing *p, struct wrap_state *state, const char *line, size_t n)
{
    struct pool pool = {0};
    unsigned char *ranks = pool_alloc(&pool, n);
    size_t indent, comment, at = 0;
    wrap_rank_line(state, line, n, ranks, &indent, &comment);
    struct stretch st = {.s = line, .n = n};
    while (!fits(p, &st)) {
        size_t longest = cut_anywhere(p, &st), end = find_break(&st, ranks + at, longest);
        bool at_blank = end > 0;
        p->wrapped = true;
        p->broken = p->broken || !at_blank;
        st.n = at_blank ? end : longest;
        put_stretch(p, &st);
        at += st.n + at_blank;
        st = (struct stretch){.s = line + at, .n = n - at, .indent = indent, .comment = at > comment};
    }
    put_stretch(p, &st);
    pool_free(&pool);
}

static void print_text(struct printing *p, const char *text)
{
    struct wrap_state state = {.block_column = -1};
    while (*text) {
        size_t n = strcspn(text, "\n"), end = n;
        while (end > 0 && (text[end - 1] == '\r' || text[end - 1] == ' '))
            end--;
        print_line(p, &state, text, end);
        text += n + (text[n] == '\n');
    }
}

/* A tab is printed as the blank that it is to YAML between values and in a text of a job; a byte order mark is not. */
static const char *without_tabs(struct pool *pool, const char *text)
{
    static const char mark[] = "\xEF\xBB\xBF";
    char *copy = pool_copy(pool, text, strlen(text) + 1);
    for (char *p = copy; *p; p++)
        if (*p == '\t')
            *p = ' ';
    return strncmp(copy, mark, strlen(mark)) == 0 ? copy + strlen(mark) : copy;
}

void set_source(const struct setter *setter, const struct block *b, double width, struct slabs *out)
{
    assert(b->as.source.text && "a source has a text");
    struct printing p = {.setter = setter, .measure = width};
    const char *text = without_tabs(setter->pool, b->as.source.text);
    for (size_t i = 0; i < SIZES; i++) {
        p.size = sizes[i] * setter->scale;
        p.wrapped = p.broken = false;
        print_text(&p, text);
        if (!p.broken && (!p.wrapped || sizes[i] <= WRAPPED_MOST_PT))
            break;
    }
    if (b->as.source.name && *b->as.source.name) {
        struct rich bold = rich_bolder(rich_of(STYLE_SMALL, setter->scale));
        struct slab *name = slabs_add(out);
        name->above = 6 * setter->scale;
        name->height = put_text(setter, &bold, b->as.source.name, 0, 0, width, &name->inks) + 2 * setter->scale;
        name->keep_with_next = true;
    }
    p.out = out;
    print_text(&p, text);
}
