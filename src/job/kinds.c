/* Kinds of jig: one row each. A word of the format without a table is a kind that this version cannot plan. */
#include "job/tables.h"

#include <stddef.h>

static const struct field jig_fields[] = {
    GIVEN(struct job_jig, given),
    PLACE(struct job_jig, mark),
    {"kind", .kind = VALUE_ELSEWHERE, .required = true},
};
const struct table jig_table = {"jig", FIELDS(jig_fields)};

static const struct variant jig_list[] = {
    [JIG_CROSSCUT_SLED] = {"crosscut-sled", &crosscut_sled_table, crosscut_sled_check},
    [JIG_PARTS] = {"parts", &parts_table, NULL},
    {"panel-sled", NULL, NULL},
    {"mitre-sled", NULL, NULL},
    {"box-joint-jig", NULL, NULL},
    {"taper-jig", NULL, NULL},
};
const struct variants jig_variants = {"kind", "which kind of jig it is", offsetof(struct job_jig, kind), jig_list,
                                      sizeof jig_list / sizeof *jig_list};

const char *job_kind_name(enum jig_kind kind)
{
    return jig_list[kind].name;
}
