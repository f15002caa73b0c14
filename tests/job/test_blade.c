/* The blade's limits of the job format: the last number that is taken and the first that is not, and which key is blamed. */
#include "close.h"
#include "job.h"

#include <stdio.h>
#include <string.h>

static const struct row {
    double diameter, kerf, plate, highest; /* plate 0: not in the job */
    const char *blamed;                    /* NULL: the job is read */
} rows[] = {
    {100, 2.4, 0, 40, NULL},    {99.9, 2.4, 0, 40, "saw.blade.diameter"}, {600, 5, 0, 250, NULL},
    {600.1, 5, 0, 250, "saw.blade.diameter"}, {254, 0.8, 0, 80, NULL},    {254, 0.79, 0, 80, "saw.blade.kerf"},
    {254, 10, 0, 80, NULL},     {254, 10.1, 0, 80, "saw.blade.kerf"},     {254, 2.8, 2.7, 80, NULL},
    {254, 2.8, 2.8, 80, "saw.blade.plate"},   {254, 2.8, 0, 5, NULL},     {254, 2.8, 0, 4.9, "saw.blade.highest"},
    {254, 2.8, 0, 127, NULL},   {254, 2.8, 0, 127.1, "saw.blade.highest"}, {100, 2.4, 0, 50, NULL},
    {100, 2.4, 0, 50.1, "saw.blade.highest"},
};

static bool is_blamed(const struct diags *d, const char *path)
{
    for (size_t i = 0; i < d->count; i++)
        if (d->list[i].path && strcmp(d->list[i].path, path) == 0)
            return true;
    return false;
}

static void test_blade_limits(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct row *r = &rows[i];
        char plate[40] = "", yaml[600];
        struct diags diags = {0};
        struct job job = {0};
        if (r->plate > 0)
            snprintf(plate, sizeof plate, ", plate: %g", r->plate);
        snprintf(yaml, sizeof yaml,
                 "fettle: 1\njob: {number: A, title: B}\nunits: mm\n"
                 "saw: {blade: {diameter: %g, kerf: %g, highest: %g%s}}\n"
                 "tests: [{method: side-play, date: 2026-01-05, plays: [0.1, 0.1]}]\n",
                 r->diameter, r->kerf, r->highest, plate);
        bool read = job_read_text("a.yaml", yaml, strlen(yaml), &diags, &job);
        if (read != !r->blamed || (r->blamed && !is_blamed(&diags, r->blamed)))
            fail_msg("row %zu: %s, %s blamed", i, read ? "read" : "refused", diags.count ? diags.list[0].path : "nothing");
        job_free(&job);
        diags_free(&diags);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_blade_limits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
