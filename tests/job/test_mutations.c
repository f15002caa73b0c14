/* Jobs damaged at random, with a fixed seed: the reader must neither crash nor accept in silence what it cannot hold.
 */
#define _POSIX_C_SOURCE 200809L
#include "base/file.h"
#include "base/utf8.h"
#include "job.h"

#include "close.h"

#include <string.h>

enum { ROUNDS = 4000 };

/* xorshift64*, Vigna 2016 (from memory) */
static unsigned next_random(unsigned long long *state)
{
    *state ^= *state >> 12;
    *state ^= *state << 25;
    *state ^= *state >> 27;
    return (unsigned)((*state * 0x2545F4914F6CDD1DULL) >> 33);
}

static const char *const pieces[] = {
    "{",
    "}",
    "[",
    "]",
    ": ",
    "- ",
    "\n",
    "\n  ",
    "&a ",
    "*a",
    "!!x ",
    "<<: ",
    "\"",
    "'",
    "|\n",
    ">\n",
    "#",
    "? ",
    ", ",
    "---\n",
    "...\n",
    "%",
    "~",
    "null",
    "-1",
    "0",
    "1e9",
    "9999999999",
    "3/4 in",
    "1/0",
    "\t",
    "\r\n",
    "\xC3\xA4",
    "\xE2\x80\xA8",
    "\xEF\xBB\xBF",
    "\xFF",
    "kind: parts",
    "method: flip",
    "2026-02-30",
    "use: [job.yaml]\n",
    "stock: ply12",
};

static void mutate(struct text *t, unsigned long long *seed)
{
    size_t at = t->size ? next_random(seed) % t->size : 0, n = next_random(seed) % 24;
    struct text kept = {0};
    text_add_n(&kept, text_string(t) + at, t->size - at);
    t->size = at;
    switch (next_random(seed) % 4) {
    case 0: /* a piece put in */
        text_add(t, pieces[next_random(seed) % (sizeof pieces / sizeof *pieces)]);
        text_add_n(t, text_string(&kept), kept.size);
        break;
    case 1: /* some bytes taken out */
        n = n < kept.size ? n : kept.size;
        text_add_n(t, text_string(&kept) + n, kept.size - n);
        break;
    case 2: /* one byte changed */
        text_add_char(t, (char)next_random(seed));
        if (kept.size > 1)
            text_add_n(t, text_string(&kept) + 1, kept.size - 1);
        break;
    default: /* some bytes twice */
        n = n < kept.size ? n : kept.size;
        text_add_n(t, text_string(&kept), n);
        text_add_n(t, text_string(&kept), kept.size);
        break;
    }
    text_free(&kept);
}

static void read_and_print(const struct text *t)
{
    struct diags diags = {0};
    struct job job;
    struct text said = {0};
    bool ok = job_read_text("mutant.yaml", text_string(t), t->size, &diags, &job);
    assert_int_equal(ok, !diags_have_errors(&diags));
    for (size_t i = 0; i < diags.count; i++)
        diag_print(&diags, &diags.list[i], &said);
    assert_int_equal(utf8_first_bad(text_string(&said), said.size), said.size);
    if (ok) { /* what a later stage may rely on */
        assert_non_null(job.number.s);
        assert_non_null(job.title.s);
        for (size_t i = 0; i < job.n_tests; i++)
            assert_true(job.tests[i].as.five_cut.n_strips > 0);
        for (size_t i = 0; i < job.n_stock; i++)
            assert_true(job.stock[i].material.name && job.stock[i].thickness.v > 0);
    }
    text_free(&said);
    job_free(&job);
    diags_free(&diags);
}

static void test_job_read_survives_mutations(void **state)
{
    (void)state;
    static const char *const names[] = {"full.yaml", "least.yaml", "bay/job.yaml"};
    unsigned long long seed = 20261102;
    for (int round = 0; round < ROUNDS; round++) {
        struct text path = {0}, t = {0};
        text_printf(&path, "%s/tests/job/jobs/%s", SOURCE_FOLDER, names[round % 3]);
        assert_int_equal(file_read(text_string(&path), 1 << 20, &t), FILE_READ);
        for (unsigned i = 0; i <= next_random(&seed) % 3; i++)
            mutate(&t, &seed);
        read_and_print(&t);
        text_free(&t);
        text_free(&path);
    }
}

/* A file cut off anywhere, as by a full disk. */
static void test_job_read_survives_every_truncation(void **state)
{
    (void)state;
    struct text t = {0};
    assert_int_equal(file_read(SOURCE_FOLDER "/tests/job/jobs/least.yaml", 1 << 20, &t), FILE_READ);
    for (; t.size > 0; t.size--) {
        t.bytes[t.size] = '\0';
        read_and_print(&t);
    }
    text_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_job_read_survives_mutations),
        cmocka_unit_test(test_job_read_survives_every_truncation),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
