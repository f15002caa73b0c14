/* Readings of a row of box-joint fingers. */
#include "job/tables.h"
#include "job/tools.h"

#include <math.h>

static const struct field box_joint_fields[] = {
    {"fingers", NUMBER(3, 200), .whole = true, .required = true, AT(struct job_test, as.box_joint.fingers),
     .about = "of one board, from the first face measured to the last"},
    {"set", LENGTH(2, 200), .required = true, AT(struct job_test, as.box_joint.set),
     .about = "pitch wanted: one finger and one slot"},
    {"got", LENGTH(5, 3000), .required = true, AT(struct job_test, as.box_joint.got),
     .about = "from the first face of finger 1 to the last face of the last finger"},
    {"finger", LENGTH(1, 100), .required = true, AT(struct job_test, as.box_joint.finger),
     .about = "width of one finger"},
    {"slot", LENGTH(1, 100), AT(struct job_test, as.box_joint.slot), .about = "width of one slot; left out: no fit"},
};

static void check_box_joint(struct reader *r, const struct node *map, void *out)
{
    struct job_test *t = out;
    const struct box_joint_readings *b = &t->as.box_joint;
    double pitch = (b->got.v - b->finger.v) / (b->fingers.v - 1), off = b->set.v / 10;
    (void)map;
    if (fabs(pitch - b->set.v) > off)
        diag_at(r->diags, DIAG_IMPLAUSIBLE, b->got.mark, reader_key(r, "got"),
                "makes a pitch of %s, far from the %s that is set: is the number of fingers right?",
                reader_length(r, b->got.mark, pitch), reader_num(r, &b->set));
    if (fabs(b->finger.v + b->slot.v - b->set.v) > off)
        diag_at(r->diags, DIAG_IMPLAUSIBLE, b->slot.mark, reader_key(r, "slot"),
                "finger and slot together make %s, far from the %s that is set",
                reader_length(r, b->slot.mark, b->finger.v + b->slot.v), reader_num(r, &b->set));
    tools_check_lengths(r, t, "a finger");
}

const struct table box_joint_table = {"box_joint", FIELDS(box_joint_fields), .extends = &test_table,
                                      .check = check_box_joint};
