/* The table of materials, against published figures; and the names that are guessed at. */
#include "job.h"
#include "job/guess.h"
#include "job/material.h"

#include "close.h"

#include <string.h>

/* Change coefficients C_R and C_T: Forest Products Laboratory, Wood Handbook FPL-GTR-190 (2010), table 13-5. By its
   equations (13-2) and (13-3), which agree at 10 % moisture content, C = 1 / (3000/S - 20). */
static const struct {
    const char *name;
    double radial, tangential;
} coefficients[] = {
    {"american-beech", 0.00190, 0.00431}, {"hard-maple", 0.00165, 0.00353},         {"red-maple", 0.00137, 0.00289},
    {"yellow-birch", 0.00256, 0.00338},   {"paper-birch", 0.00219, 0.00304},        {"walnut", 0.00190, 0.00274},
    {"cherry", 0.00126, 0.00248},         {"white-ash", 0.00169, 0.00274},          {"black-ash", 0.00172, 0.00274},
    {"pecan", 0.00169, 0.00315},          {"red-alder", 0.00151, 0.00256},          {"basswood", 0.00230, 0.00330},
    {"aspen", 0.00119, 0.00234},          {"sycamore", 0.00172, 0.00296},           {"elm", 0.00144, 0.00338},
    {"sweetgum", 0.00183, 0.00365},       {"eastern-white-pine", 0.00071, 0.00212}, {"red-oak", 0.00158, 0.00369},
    {"teak", 0.00101, 0.00186},           {"mahogany", 0.00172, 0.00238},           {"khaya", 0.00141, 0.00201},
};

static void test_material_shrinkage_gives_the_published_coefficients(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof coefficients / sizeof *coefficients; i++) {
        const struct material *m = material_find(coefficients[i].name);
        assert_non_null(m);
        /* Shrinkage is published to 0.1 %: half a step moves the coefficient by up to 0.00003. */
        assert_within(1 / (3000 / m->shrink_radial - 20), coefficients[i].radial, 0.00003);
        assert_within(1 / (3000 / m->shrink_tangential - 20), coefficients[i].tangential, 0.00003);
    }
}

static void test_material_every_row_is_plausible(void **state)
{
    (void)state;
    for (size_t i = 0; material_name(i); i++) {
        const struct material *m = material_find(material_name(i));
        if (m->form == MATERIAL_OTHER)
            continue;
        assert_in_range((uintmax_t)m->density, 300, 1100);
        assert_in_range((uintmax_t)m->stiffness, 2000, 16000);
        if (m->form == MATERIAL_SOLID)
            assert_true(m->shrink_radial > 1 && m->shrink_radial < m->shrink_tangential && m->shrink_tangential < 15 &&
                        isnan(m->movement));
        else
            assert_true(m->movement >= 1e-4 && m->movement <= 1e-3 && isnan(m->shrink_radial));
        for (size_t k = 0; k < i; k++)
            assert_string_not_equal(material_name(i), material_name(k));
    }
    assert_null(material_find("unobtainium"));
}

static void test_material_stiffness_by_thickness(void **state)
{
    (void)state;
    const struct material *birch = material_find("birch-plywood"), *mdf = material_find("mdf");
    assert_close(material_stiffness(birch, 12), 10719, 0);
    assert_close(material_stiffness(birch, 18), 10048, 0);
    assert_close(material_stiffness(birch, 13.5), (10719 + 10316) / 2.0, 1e-12); /* midway between 12 and 15 */
    assert_close(material_stiffness(birch, 4), 12737, 0); /* thinner than the list: its thinnest */
    assert_close(material_stiffness(birch, 30), 9858, 0);
    assert_close(material_stiffness(mdf, 12), mdf->stiffness, 0);
}

static void test_guess_nearest_name(void **state)
{
    (void)state;
    static const char *const names[] = {"width", "depth", "diameter", "kerf", "left", "right"};
    static const struct {
        const char *wanted, *best;
    } rows[] = {
        {"widht", "width"}, /* two letters swapped */
        {"kref", "kerf"},   {"KERF", "kerf"}, {"diametre", "diameter"},
        {"rigth", "right"}, {"lft", "left"},  {"colour", NULL},
        {"x", NULL},        {"", NULL},       {"a very long key that nobody would take for one of these", NULL},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct guess g = {.wanted = rows[i].wanted};
        for (size_t k = 0; k < sizeof names / sizeof *names; k++)
            guess_offer(&g, names[k]);
        if (!rows[i].best)
            assert_null(g.best);
        else
            assert_string_equal(g.best ? g.best : "nothing", rows[i].best);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_material_shrinkage_gives_the_published_coefficients),
        cmocka_unit_test(test_material_every_row_is_plausible),
        cmocka_unit_test(test_material_stiffness_by_thickness),
        cmocka_unit_test(test_guess_nearest_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
