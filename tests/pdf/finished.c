/* Words and pictures of a finished PDF. */
#define _POSIX_C_SOURCE 200809L
#include "pdf/finished.h"

#include "base/file.h"
#include "base/mem.h"
#include "pdf/tools.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum {
    DPI = 144,
    SEEN_LEAST = 70,  /* of 255: how far a word's darkest (or lightest) place stands out from its ground */
    INK_LEAST = 40,   /* a place that differs by this is part of a letter */
    TONE_MOST = 50,   /* how far the ground under a word may vary: more than the edge of a tint, less than a hairline */
    WHITE_LEAST = 250
};
#define PT_OF_MM (72 / 25.4)
#define LEFT_MM 20.0        /* the filing margin of ISO 5457 */
#define MARGIN_MM 12.0
#define MARGIN_SLACK_PT 2.0 /* half a heavy rule, or what brackets are higher than capitals */
#define WORD_GAP 0.35       /* of the size: letters farther apart are two words */
#define CAP_HEIGHT 0.72     /* of the size: the condensed and the plain face's */
#define DESCENT 0.12        /* of a letter's foot: g and p may come nearer to the next line */
#define OVERLAP_PT 0.35
#define CAP_LEAST_MM 2.1    /* of capitals: what is read at hand distance and no wall sheet's */
#define SOURCE_LEAST_PT 4.5 /* of the job's own text, in the face of fixed pitch */
#define NO_GLYPH 0xFFFD     /* what MuPDF makes of a letter that it cannot read back */
#define EMPTY_MOST 0.66     /* of a page's height, white from side to side */

struct box {
    double x0, y0, x1, y1; /* [pt] from the top left */
};

enum { WORD_MOST = 200 };
struct word {
    struct box letters; /* foot to capitals' height */
    struct box room;    /* from the descent to above accents */
    double end;         /* of its last letter, along the line */
    bool upward;
    char text[WORD_MOST];
};

struct picture {
    int width, height;
    unsigned char *dots; /* in bytes */
    struct text bytes;
};

struct look {
    const char *folder;
    size_t page; /* from 1 */
    struct word *words;
    size_t n, capacity;
    struct picture full, bare;
    struct text *problems;
    size_t found;
    /* the line and the face under way */
    bool upward, broken, small;
    double size;
};

static void problem(struct look *l, const char *format, ...) __attribute__((format(printf, 2, 3)));
static void problem(struct look *l, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    text_printf(l->problems, "page %zu: ", l->page);
    text_vprintf(l->problems, format, args);
    text_add_char(l->problems, '\n');
    va_end(args);
    l->found++;
}

/* --- pictures --- */

static bool read_picture(const char *folder, const char *name, size_t page, struct picture *p)
{
    char path[512];
    int depth = 0, head = 0;
    snprintf(path, sizeof path, "%s/%s-%zu.pgm", folder, name, page);
    *p = (struct picture){0};
    if (file_read(path, 1 << 27, &p->bytes) != FILE_READ)
        return false;
    if (sscanf(text_string(&p->bytes), "P5 %d %d %d%n", &p->width, &p->height, &depth, &head) != 3 || depth != 255)
        return false;
    p->dots = (unsigned char *)p->bytes.bytes + head + 1;
    return p->bytes.size == (size_t)head + 1 + (size_t)p->width * (size_t)p->height;
}

static int dot(const struct picture *p, int x, int y)
{
    return p->dots[(size_t)y * (size_t)p->width + (size_t)x];
}

/* Whole dots inside a box, cut off at the picture's edges: x0, y0 in, x1, y1 out. */
static void dots_of(const struct picture *p, struct box b, int d[4])
{
    double k = DPI / 72.0;
    d[0] = (int)fmax(0, floor(b.x0 * k));
    d[1] = (int)fmax(0, floor(b.y0 * k));
    d[2] = (int)fmin(p->width, ceil(b.x1 * k));
    d[3] = (int)fmin(p->height, ceil(b.y1 * k));
}

/* --- words --- */

static const char *value_of(const char *line, const char *key)
{
    const char *at = strstr(line, key);
    return at ? at + strlen(key) : "";
}

/* The letter of c="…", as UTF-8; gives its code point. */
static unsigned letter_of(const char *line, struct text *out)
{
    static const struct {
        const char *name;
        char c;
    } named[] = {{"&lt;", '<'}, {"&gt;", '>'}, {"&amp;", '&'}, {"&apos;", '\''}, {"&quot;", '"'}};
    const char *c = value_of(line, " c=\"");
    if (strncmp(c, "&#x", 3) == 0) {
        unsigned code = (unsigned)strtoul(c + 3, NULL, 16);
        text_add_code(out, code);
        return code;
    }
    for (size_t i = 0; i < sizeof named / sizeof *named; i++)
        if (strncmp(c, named[i].name, strlen(named[i].name)) == 0) {
            text_add_char(out, named[i].c);
            return (unsigned char)named[i].c;
        }
    text_add_n(out, c, strcspn(c, "\""));
    return (unsigned char)*c;
}

static bool is_blank(unsigned code)
{
    return code == ' ' || code == 0xA0 || (code >= 0x2000 && code <= 0x200B) || code == 0x202F;
}

static struct box joined(struct box a, struct box b)
{
    return (struct box){fmin(a.x0, b.x0), fmin(a.y0, b.y0), fmax(a.x1, b.x1), fmax(a.y1, b.y1)};
}

/* The strip of a letter from `below` its foot (x, y) to `above` it. */
static struct box strip_of(const struct look *l, const double q[8], double x, double y, double below, double above)
{
    double x0 = fmin(fmin(q[0], q[2]), fmin(q[4], q[6])), x1 = fmax(fmax(q[0], q[2]), fmax(q[4], q[6]));
    double y0 = fmin(fmin(q[1], q[3]), fmin(q[5], q[7])), y1 = fmax(fmax(q[1], q[3]), fmax(q[5], q[7]));
    if (l->upward)
        return (struct box){x - above * l->size, y0, x + below * l->size, y1};
    return (struct box){x0, y - above * l->size, x1, y + below * l->size};
}

static void add_letter(struct look *l, const char *line)
{
    double q[8], x = atof(value_of(line, " x=\"")), y = atof(value_of(line, " y=\""));
    struct text letter = {0};
    unsigned code = letter_of(line, &letter);
    bool blank = is_blank(code);
    if (code == NO_GLYPH)
        problem(l, "a letter that cannot be read back at %.0f %.0f", x, y);
    if (l->small && code < 0x80 && isalpha((int)code)) { /* the figures of a fraction are smaller than its line */
        problem(l, "letters of %.1f pt", l->size);
        l->small = false;
    }
    if (sscanf(value_of(line, "quad=\""), "%lf %lf %lf %lf %lf %lf %lf %lf", q, q + 1, q + 2, q + 3, q + 4, q + 5,
               q + 6, q + 7) == 8 &&
        !blank) {
        struct box letters = strip_of(l, q, x, y, DESCENT, CAP_HEIGHT), room = strip_of(l, q, x, y, 0.25, 1);
        double start = l->upward ? -letters.y1 : letters.x0, end = l->upward ? -letters.y0 : letters.x1;
        struct word *w = l->n ? &l->words[l->n - 1] : NULL;
        if (!w || l->broken || start - w->end > WORD_GAP * l->size) {
            l->words = mem_grow(l->words, l->n, &l->capacity, sizeof *l->words);
            w = &l->words[l->n++];
            *w = (struct word){.letters = letters, .room = room, .upward = l->upward};
        }
        w->letters = joined(w->letters, letters);
        w->room = joined(w->room, room);
        w->end = end;
        if (strlen(w->text) + letter.size < WORD_MOST)
            memcpy(w->text + strlen(w->text), text_string(&letter), letter.size + 1);
    }
    l->broken = blank;
    text_free(&letter);
}

static void read_line(struct look *l, const char *line)
{
    if (strncmp(line, "<line ", 6) == 0) {
        double across = 0, down = 0;
        sscanf(value_of(line, "dir=\""), "%lf %lf", &across, &down);
        l->upward = down < -0.5;
        l->broken = true;
        if (!l->upward && across < 0.99)
            problem(l, "text at a slant: %s", line);
    } else if (strncmp(line, "<font ", 6) == 0) {
        l->size = atof(value_of(line, "size=\""));
        bool source = strstr(line, "Mono") != NULL;
        l->small = l->size < (source ? SOURCE_LEAST_PT : CAP_LEAST_MM * PT_OF_MM / CAP_HEIGHT) - 0.05;
    } else if (strncmp(line, "<char ", 6) == 0) {
        add_letter(l, line);
    }
}

/* --- rules --- */

static bool boxes_meet(struct box a, struct box b)
{
    return a.x0 + OVERLAP_PT < b.x1 && b.x0 + OVERLAP_PT < a.x1 && a.y0 + OVERLAP_PT < b.y1 && b.y0 + OVERLAP_PT < a.y1;
}

static void check_overlaps(struct look *l)
{
    for (size_t i = 0; i < l->n; i++)
        for (size_t k = i + 1; k < l->n; k++)
            if (boxes_meet(l->words[i].letters, l->words[k].letters))
                problem(l, "\"%s\" stands over \"%s\" at %.0f %.0f", l->words[k].text, l->words[i].text,
                        l->words[k].letters.x0, l->words[k].letters.y0);
}

/* The dots that are the word's own, as the box round them; false: nothing of it is seen. */
static bool find_ink(const struct look *l, const struct word *w, int d[4])
{
    int all[4], most = 0;
    dots_of(&l->full, w->room, all);
    d[0] = d[1] = 1 << 30;
    d[2] = d[3] = 0;
    for (int y = all[1]; y < all[3]; y++)
        for (int x = all[0]; x < all[2]; x++) {
            int by = abs(dot(&l->full, x, y) - dot(&l->bare, x, y));
            most = by > most ? by : most;
            if (by < INK_LEAST)
                continue;
            d[0] = x < d[0] ? x : d[0];
            d[1] = y < d[1] ? y : d[1];
            d[2] = x + 1 > d[2] ? x + 1 : d[2];
            d[3] = y + 1 > d[3] ? y + 1 : d[3];
        }
    return most >= SEEN_LEAST;
}

static void check_grounds(struct look *l)
{
    for (size_t i = 0; i < l->n; i++) {
        const struct word *w = &l->words[i];
        int d[4], low = 255, high = 0;
        if (!find_ink(l, w, d)) {
            problem(l, "\"%s\" is not seen at %.0f %.0f", w->text, w->letters.x0, w->letters.y0);
            continue;
        }
        for (int y = d[1]; y < d[3]; y++)
            for (int x = d[0]; x < d[2]; x++) {
                int tone = dot(&l->bare, x, y);
                low = tone < low ? tone : low;
                high = tone > high ? tone : high;
            }
        if (high - low > TONE_MOST)
            problem(l, "a line goes through \"%s\" at %.0f %.0f", w->text, w->letters.x0, w->letters.y0);
    }
}

static bool white(const struct picture *p, int x0, int y0, int x1, int y1)
{
    for (int y = y0; y < y1; y++)
        for (int x = x0; x < x1; x++)
            if (dot(p, x, y) < WHITE_LEAST)
                return false;
    return true;
}

static void check_margins(struct look *l)
{
    const struct picture *p = &l->full;
    double right = p->width * 72.0 / DPI, bottom = p->height * 72.0 / DPI, margin = MARGIN_MM * PT_OF_MM - MARGIN_SLACK_PT;
    int d[4];
    dots_of(p, (struct box){LEFT_MM * PT_OF_MM - MARGIN_SLACK_PT, margin, right - margin, bottom - margin}, d);
    if (!white(p, 0, 0, d[0], p->height) || !white(p, 0, 0, p->width, d[1]) || !white(p, d[2], 0, p->width, p->height) ||
        !white(p, 0, d[3], p->width, p->height))
        problem(l, "something stands on the margins");
}

static void check_filled(struct look *l)
{
    int run = 0, longest = 0;
    for (int y = 0; y < l->full.height; y++) {
        run = white(&l->full, 0, y, l->full.width, y + 1) ? run + 1 : 0;
        longest = run > longest ? run : longest;
    }
    if (longest > EMPTY_MOST * l->full.height)
        problem(l, "nearly empty");
}

/* --- a file --- */

/* Blanks out what stands between BT and ET in the pages' contents, so that no object moves. qpdf says which they are. */
static void take_text_away(struct text *pdf)
{
    bool contents = false, text = false;
    for (char *line = pdf->bytes, *end = pdf->bytes + pdf->size; line < end;) {
        char *next = memchr(line, '\n', (size_t)(end - line));
        size_t n = next ? (size_t)(next - line) : (size_t)(end - line);
        contents = (contents || strncmp(line, "%% Contents for page", 20) == 0) && strncmp(line, "endstream", 9) != 0;
        text = contents && (text || (n == 2 && memcmp(line, "BT", 2) == 0));
        bool over = text && n == 2 && memcmp(line, "ET", 2) == 0;
        if (text)
            memset(line, ' ', n);
        text = text && !over;
        line += n + 1;
    }
}

static bool open_tool(const char *command, struct text *problems)
{
    struct text said = {0};
    bool ok = tool_run(command, &said) == 0;
    if (!ok)
        text_printf(problems, "%s: %s\n", command, text_string(&said));
    text_free(&said);
    return ok;
}

static bool prepare(const char *pdf, const char *folder, struct text *problems)
{
    struct text command = {0}, bytes = {0};
    char open[512], bare[512];
    snprintf(open, sizeof open, "%s/open.pdf", folder);
    snprintf(bare, sizeof bare, "%s/bare.pdf", folder);
    text_printf(&command, "rm -f '%s'/*.pgm; qpdf --qdf '%s' '%s'", folder, pdf, open);
    bool ok = open_tool(text_string(&command), problems) && file_read(open, 1 << 27, &bytes) == FILE_READ;
    if (ok) {
        take_text_away(&bytes);
        ok = tool_write(bare, bytes.bytes, bytes.size);
    }
    text_clear(&command);
    text_printf(&command,
                "mutool draw -N -q -r %d -c gray -o '%s/full-%%d.pgm' '%s' && "
                "mutool draw -N -q -r %d -c gray -o '%s/bare-%%d.pgm' '%s' && mutool draw -N -q -F stext -o '%s/words.xml' '%s'",
                DPI, folder, pdf, DPI, folder, bare, folder, pdf);
    ok = ok && open_tool(text_string(&command), problems);
    text_free(&command);
    text_free(&bytes);
    return ok;
}

static void check_page(struct look *l, bool only)
{
    bool drawn = read_picture(l->folder, "full", l->page, &l->full), bared = read_picture(l->folder, "bare", l->page, &l->bare);
    if (!drawn || !bared || l->full.width != l->bare.width || l->full.height != l->bare.height) {
        problem(l, "is not drawn");
    } else {
        check_margins(l);
        check_overlaps(l);
        check_grounds(l);
        if (!only)
            check_filled(l);
    }
    text_free(&l->full.bytes);
    text_free(&l->bare.bytes);
    l->n = 0;
}

static size_t count_pages(const char *xml)
{
    size_t n = 0;
    for (const char *at = xml; (at = strstr(at, "<page ")); at++)
        n++;
    return n;
}

size_t finished_check(const char *pdf, const char *folder, struct text *problems)
{
    struct look l = {.folder = folder, .problems = problems};
    struct text xml = {0};
    char path[512];
    snprintf(path, sizeof path, "%s/words.xml", folder);
    if (!prepare(pdf, folder, problems) || file_read(path, 1 << 27, &xml) != FILE_READ || !count_pages(text_string(&xml))) {
        text_add(problems, "the PDF cannot be looked at\n");
        text_free(&xml);
        return 1;
    }
    size_t pages = count_pages(text_string(&xml));
    for (char *line = xml.bytes, *next; line && *line; line = next) {
        next = strchr(line, '\n');
        if (next)
            *next++ = '\0';
        if (strncmp(line, "<page ", 6) == 0)
            l.page++;
        else if (strncmp(line, "</page>", 7) == 0)
            check_page(&l, pages == 1);
        else
            read_line(&l, line);
    }
    free(l.words);
    text_free(&xml);
    return l.found;
}

bool finished_letters(const char *folder, struct text *out)
{
    struct text xml = {0};
    char path[512];
    bool mono = false;
    snprintf(path, sizeof path, "%s/words.xml", folder);
    bool read = file_read(path, 1 << 27, &xml) == FILE_READ;
    for (char *line = xml.bytes, *next; line && *line; line = next) {
        next = strchr(line, '\n');
        if (next)
            *next++ = '\0';
        struct text letter = {0};
        if (strncmp(line, "<font ", 6) == 0)
            mono = strstr(line, "Mono\"") != NULL;
        else if (!mono && strncmp(line, "<char ", 6) == 0 && !is_blank(letter_of(line, &letter)))
            text_add(out, text_string(&letter));
        text_free(&letter);
    }
    text_free(&xml);
    return read && out->size > 0;
}
