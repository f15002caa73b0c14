/* Every sentence that a proof asks for stands in the words table, and gets all its numbers. */
#include "by_hand.h"

#include "words.h"

static int n_said;

static void check_saying(const struct saying *s)
{
    for (int in = 0; in <= 1 && s->key; in++) {
        struct text text = {0};
        words_put(&text, s, in ? UNITS_IN : UNITS_MM);
        if (strchr(text_string(&text), '?') || strchr(text_string(&text), '{') || text.size < 10) {
            print_error("%s: %s\n", s->key, text_string(&text));
            fail();
        }
        text_free(&text);
        n_said++;
    }
}

static void check_test(const struct proof_test *t)
{
    for (int i = 0; i < t->n_lines; i++)
        check_saying(&t->lines[i].source);
    check_saying(&t->stale_reason);
    check_saying(&t->move.reason);
    check_saying(&t->largest_line);
    check_saying(&t->decide);
    check_saying(&t->wrong_way_caution);
}

/* Every number of strips, errors from none to far outside, tolerances fine and coarse, moves and changes. */
static void test_words_of_every_saying_of_a_proof(void **state)
{
    (void)state;
    static const double tolerances[] = {0.0015, 0.02, 0.10};
    for (int n = 1; n <= 5; n++)
        for (size_t k = 0; k < COUNT(tolerances); k++)
            for (int e = 0; e < 30; e++) {
                struct hand h;
                hand_begin(&h);
                h.job.tolerances.squareness.error = given(tolerances[k]);
                hand_move(hand_test_of_error(&h, "2026-01-01", n, 4e-4, 1e-6), SIDE_RIGHT, TOWARD_OPERATOR, 0.2);
                hand_test_of_error(&h, "2026-02-01", n, e * 3e-5, e % 2 ? 1e-8 : 5e-5);
                if (e % 3 == 0)
                    hand_change(&h, "2026-02-02", true);
                hand_prove(&h);
                check_test(&h.proof.tests[0]);
                check_test(&h.proof.tests[1]);
                hand_end(&h);
            }
    assert_true(n_said > 1000);
}

/* Keys that are looked up by name, not by a test's sayings. */
static void test_words_of_the_rule(void **state)
{
    (void)state;
    struct saying rule = SAYING("verdict.rule", SAY_ARG("tolerance", SAY_UNSIGNED, 0.1));
    check_saying(&rule);
    check_saying(&SAYING_PLAIN("verdict.level"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_words_of_every_saying_of_a_proof),
                                       cmocka_unit_test(test_words_of_the_rule)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
