/* Tests of every method but five-cut, with readings as such a saw or jig would give them: most of them near their limits, some far
   out, some too good to be measured. */
#include "whole/random_draft.h"

#include <math.h>
#include <stdio.h>

/* ---- what every test may hold ---- */

static void write_tool(struct draft *d, bool has, const char *name)
{
    if (chance(d->g, 0.75) && has)
        text_printf(d->out, "    instrument: %s\n", name);
}

static void write_gap_tool(struct draft *d)
{
    bool leaves = chance(d->g, 0.8);
    write_tool(d, leaves ? d->has_leaves : d->has_caliper, leaves ? "leaves-1" : "caliper-3");
}

static void begin_test(struct draft *d, const char *method, int i)
{
    text_printf(d->out, "  - method: %s\n    date: %d-%02d-%02d\n", method, 2027 + i / 12, 1 + i % 12, 1 + below(d->g, 28));
}

static void end_test(struct draft *d)
{
    struct random_job *g = d->g;
    if (chance(g, 0.4))
        write_text(d, "    by: ", 3, 80);
    if (chance(g, 0.2))
        write_text(d, "\n    note: ", 6, 200);
    if (chance(g, 0.2))
        text_printf(d->out, "\n    air: {temperature: %d, humidity: %d}", 12 + below(g, 12), 40 + below(g, 30));
    if (chance(g, 0.08))
        text_add(d->out, "\n    practice: true");
    text_add_char(d->out, '\n');
}

/* "0.25", sometimes 0 */
static bool write_gap(struct draft *d, const char *key, double most)
{
    bool none = chance(d->g, 0.12);
    write_reading(d, key, none ? 0 : random_job_number(d->g, 0.03, most));
    return !none;
}

static void write_list(struct draft *d, const char *key, double value, double scatter, int n)
{
    text_printf(d->out, "%s[", key);
    for (int i = 0; i < n; i++)
        write_reading(d, i ? ", " : "", value + random_job_number(d->g, -scatter, scatter));
    text_add(d->out, "]\n");
}

/* ---- the methods ---- */

static void write_flip(struct draft *d)
{
    struct random_job *g = d->g;
    write_size(d, "    height: ", random_job_number(g, 20, 80));
    bool open = write_gap(d, "\n    gap: ", 0.5);
    bool top = chance(g, 0.5);
    if (open)
        text_printf(d->out, "\n    open: %s", top ? "top" : "bottom");
    text_printf(d->out, "\n    turned: %s\n", side_word(chance(g, 0.5)));
    write_gap_tool(d);
}

static void write_pairs(struct draft *d, int n)
{
    struct random_job *g = d->g;
    double error = random_job_number(g, -0.5, 0.5), grows = chance(g, 0.5) ? 0 : random_job_number(g, -0.002, 0.002);
    text_add(d->out, "    pairs: [");
    for (int i = 0; i < n; i++) {
        double set = length_as_written(d, random_job_number(g, 50, 300), 0.5, 1.0 / 16);
        write_size(d, i ? ", [" : "[", set);
        write_reading(d, ", ", set + error + grows * set + random_job_number(g, -0.06, 0.06));
        text_add_char(d->out, ']');
    }
    text_add(d->out, "]\n");
}

static void write_stop(struct draft *d)
{
    struct random_job *g = d->g;
    int n = chance(g, 0.15) ? 0 : 1 + below(g, 8);
    if (n > 0)
        write_pairs(d, n);
    if (n == 0 || chance(g, 0.5))
        write_list(d, "    repeats: ", random_job_number(g, 60, 200), 0.1, 2 + below(g, 5));
    if (n > 0 && chance(g, 0.4)) {
        write_size(d, "    predict: [", random_job_number(g, 80, 400));
        write_size(d, ", ", random_job_number(g, 80, 400));
        text_add(d->out, "]\n");
    }
    bool rule = chance(g, 0.3);
    write_tool(d, rule ? d->has_rule : d->has_caliper, rule ? "rule-1" : "caliper-3");
}

static void write_slot_parallel(struct draft *d)
{
    struct random_job *g = d->g;
    double front = random_job_number(g, 0, 1), slant = random_job_number(g, -0.25, 0.25);
    text_printf(d->out, "    slot: %s\n", side_word(chance(g, 0.5)));
    write_list(d, "    front: ", front, 0.015, 1 + below(g, 4));
    write_list(d, "    back: ", front + slant, 0.015, 1 + below(g, 4));
    write_size(d, "    span: ", random_job_number(g, 100, 260));
    text_add_char(d->out, '\n');
    write_tool(d, d->has_dial, "dial-1");
}

static void write_square_gap(struct draft *d)
{
    static const char *const grades[] = {"\"00\"", "\"0\"", "\"1\"", "\"2\""};
    struct random_job *g = d->g;
    text_printf(d->out, "    offcut: %s\n", side_word(chance(g, 0.5)));
    write_size(d, "    length: ", random_job_number(g, 80, 300));
    bool open = write_gap(d, "\n    gap: ", 0.6), fence = chance(g, 0.5);
    if (open)
        text_printf(d->out, "\n    end: %s", fence ? "fence" : "far");
    if (chance(g, 0.8))
        text_printf(d->out, "\n    grade: %s", grades[below(g, COUNT(grades))]);
    if (!d->has_sled && chance(g, 0.6)) {
        write_size(d, "\n    pivot_to_moving: ", random_job_number(g, 300, 700));
        text_printf(d->out, "\n    moving_end: %s", side_word(chance(g, 0.5)));
    }
    text_add_char(d->out, '\n');
    write_gap_tool(d);
}

static void write_fence_straight(struct draft *d)
{
    struct random_job *g = d->g;
    int n = 2 + below(g, 6);
    double length = length_as_written(d, random_job_number(g, 300, 800), 0.5, 1.0 / 16);
    double shim = length_as_written(d, 0.508, 0.01, 0.0005), bow = random_job_number(g, -0.2, 0.2);
    write_reading(d, "    shim: ", shim);
    write_size(d, "\n    length: ", length);
    text_add(d->out, "\n    gaps: [");
    for (int i = 0; i < n; i++) {
        double x = (i + 1.0) / (n + 1);
        write_size(d, i ? ", [" : "[", x * length);
        write_reading(d, ", ", shim + 4 * bow * x * (1 - x) + random_job_number(g, -0.04, 0.04));
        text_add_char(d->out, ']');
    }
    text_add(d->out, "]\n");
    if (chance(g, 0.5)) {
        write_size(d, "    shortest_work: ", random_job_number(g, 50, 200));
        text_add_char(d->out, '\n');
    }
    if (d->has_edge && chance(g, 0.7))
        text_add(d->out, "    straight_edge: edge-1\n");
    write_gap_tool(d);
}

static void write_frame(struct draft *d)
{
    static const char *const fences[] = {"left", "right", "both"};
    struct random_job *g = d->g;
    double leg = random_job_number(g, 25, 90), gap = random_job_number(g, 0.05, 0.9);
    bool closed = chance(g, 0.1), inside = chance(g, 0.5), other = chance(g, 0.2);
    text_printf(d->out, "    pieces: %d\n", 4 + 2 * below(g, 3));
    write_size(d, "    leg: ", leg);
    write_reading(d, "\n    gap: ", closed ? 0 : gap);
    if (other && !closed)
        write_reading(d, "\n    gap_other: ", gap * random_job_number(g, 0.2, 0.7));
    if (!closed)
        text_printf(d->out, "\n    open: %s", inside ? "inside" : "outside");
    if (chance(g, 0.8))
        text_printf(d->out, "\n    fence: %s", fences[below(g, COUNT(fences))]);
    if (chance(g, 0.5))
        write_size(d, "\n    pivot_to_moving: ", random_job_number(g, 150, 400));
    text_add_char(d->out, '\n');
    write_gap_tool(d);
}

static void write_sides(struct draft *d, const char *key, double side)
{
    double step = d->inches ? 1.0 / 16 : 0.5, first = length_as_written(d, side, 0.5, 1.0 / 16);
    text_add(d->out, key);
    if (chance(d->g, 0.6)) {
        write_size(d, "[", first);
        write_size(d, ", ", first + (chance(d->g, 0.15) ? step * (d->inches ? 25.4 : 1) * 3 : 0));
        text_add_char(d->out, ']');
    } else {
        write_size(d, "", first);
    }
}

static void write_diagonals(struct draft *d)
{
    struct random_job *g = d->g;
    double width = random_job_number(g, 300, 900), depth = random_job_number(g, 200, 600), lean = random_job_number(g, -2e-3, 2e-3);
    double squares = width * width + depth * depth, mixed = 2 * width * depth * sin(lean);
    bool fine = chance(g, 0.5) && d->has_caliper;
    write_sides(d, "    width: ", width);
    write_sides(d, "\n    depth: ", depth);
    double step = fine ? 0.01 : 0.5, step_in = fine ? 0.0005 : 1.0 / 64;
    text_add(d->out, "\n    d1: ");
    write_length(d, sqrt(squares - mixed), step, step_in);
    text_add(d->out, "\n    d2: ");
    write_length(d, sqrt(squares + mixed), step, step_in);
    text_add_char(d->out, '\n');
    write_tool(d, fine || d->has_rule, fine ? "caliper-3" : "rule-1");
}

static void write_side_play(struct draft *d)
{
    struct random_job *g = d->g;
    write_list(d, "    plays: ", random_job_number(g, 0.05, 0.28), 0.04, 1 + below(g, 6));
    if (chance(g, 0.6)) {
        write_size(d, "    engaged: ", random_job_number(g, 150, 400));
        text_add_char(d->out, '\n');
    }
    write_gap_tool(d);
}

static void write_box_joint(struct draft *d)
{
    struct random_job *g = d->g;
    int n = 3 + below(g, 16);
    double pitch = length_as_written(d, random_job_number(g, 8, 26), 0.5, 1.0 / 16), off = random_job_number(g, -0.06, 0.06);
    double finger = pitch / 2 + random_job_number(g, -0.12, 0.12);
    text_printf(d->out, "    fingers: %d\n", n);
    write_size(d, "    set: ", pitch);
    write_reading(d, "\n    got: ", (n - 1) * (pitch + off) + finger);
    write_reading(d, "\n    finger: ", finger);
    if (chance(g, 0.7))
        write_reading(d, "\n    slot: ", pitch - finger + random_job_number(g, -0.1, 0.2));
    text_add_char(d->out, '\n');
    write_tool(d, d->has_caliper, "caliper-3");
}

static const struct {
    const char *name;
    void (*write)(struct draft *);
} methods[] = {
    {"flip", write_flip},
    {"stop", write_stop},
    {"slot-parallel", write_slot_parallel},
    {"square-gap", write_square_gap},
    {"fence-straight", write_fence_straight},
    {"frame", write_frame},
    {"diagonals", write_diagonals},
    {"side-play", write_side_play},
    {"box-joint", write_box_joint},
};

void write_other_tests(struct draft *d)
{
    int written = 0;
    for (int m = 0; m < COUNT(methods); m++) {
        int n = chance(d->g, 0.45) ? 1 + chance(d->g, 0.4) + chance(d->g, 0.2) * 2 : 0;
        if (m == COUNT(methods) - 1 && written == 0)
            n = 1;
        for (int i = 0; i < n; i++, written++) {
            begin_test(d, methods[m].name, i);
            methods[m].write(d);
            end_test(d);
        }
    }
}
