/* Readings of a runner's play in its slot. */
#include "job/tables.h"
#include "job/tools.h"

static const struct field side_play_fields[] = {
    {"plays", .kind = VALUE_NUMBERS, .low = 0, .high = 3, .most = 20, .required = true,
     AT(struct job_test, as.side_play.plays.v), MORE(struct job_test, as.side_play.plays.n),
     .mark_at = offsetof(struct job_test, as.side_play.plays.mark),
     .about = "side to side, at places along the travel from near to far"},
    {"engaged", LENGTH(20, 3000), AT(struct job_test, as.side_play.engaged),
     .about = "least length of runner in the slot while cutting; left out: the sled's own"},
};

static void check_side_play(struct reader *r, const struct node *map, void *out)
{
    (void)map;
    tools_check_gaps(r, out);
}

const struct table side_play_table = {"side_play_test", FIELDS(side_play_fields), .extends = &test_table,
                                      .check = check_side_play};
