/* The frame: worked by hand, and frames sawn piece by piece from polygons, put together, and read, without the sum
   under test. */
#include "method_kit.h"
#include "proof/frame_sums.h"

static const struct job_instrument fine = {.name = "fine",
                                           .kind = INSTRUMENT_OTHER,
                                           .resolution = {.v = 1e-7, .given = true},
                                           .error_limit = {.v = 0, .given = true}};

static void set_frame(struct hand *h, int pieces, double leg, double gap, double gap_other, enum opening open,
                      enum frame_fence fence)
{
    h->tests[0].as.frame = (struct frame_readings){.pieces = given(pieces),
                                                   .leg = given(leg),
                                                   .gap = given(gap),
                                                   .gap_other = gap_other > 0 ? given(gap_other) : not_given(NAN),
                                                   .open = open,
                                                   .open_given = true,
                                                   .fence = fence,
                                                   .pivot_to_moving = not_given(NAN)};
}

/* The trade's figure for four pieces of 50 mm stock: 0.05 degrees make 0.4 degrees, 0.49 mm over its leg of 70.7 mm. By
   hand: 0.4 degrees = 0.0069813 rad, x 70.71 = 0.4937 mm. So e = 0.4937/70.71/8 = 8.727e-4 rad. */
static void test_frame_worked_by_hand(void **state)
{
    (void)state;
    struct hand h;
    kit_begin(&h, METHOD_FRAME, &fine);
    set_frame(&h, 4, 70.71, 0.4937, 0, OPEN_INSIDE, FRAME_LEFT_FENCE);
    const struct proof_test *t = hand_prove(&h);
    assert_within(t->error, 0.05 * degree, 1e-6);
    assert_within(t->error_over, 0.0873, 5e-5); /* in 100 mm */
    /* Joints: sqrt 3 x 0.02/sqrt 3 = 0.02 mm over 70.71 x 8 = 3.54e-5; leg: e x 0.5/sqrt 3/70.71 = 3.56e-6. */
    assert_within(t->standard_uncertainty, 3.553e-5, 1e-8);
    assert_int_equal(t->finding, FINDING_WITHIN); /* 0.0873 + 0.0070 = 0.0943 */
    assert_int_equal(t->move.advice, ADVICE_LEAVE);
    assert_string_equal(t->remarks[0].key, "frame.one_fence");
    set_frame(&h, 4, 70.71, 0.9874, 0, OPEN_OUTSIDE, FRAME_BOTH_FENCES);
    t = hand_prove(&h);
    assert_within(t->error, -0.1 * degree, 2e-6);
    assert_int_equal(t->finding, FINDING_OUTSIDE);
    assert_string_equal(t->move.what.key, "frame.too_small");
    assert_string_equal(t->remarks[0].key, "frame.both_fences");
    hand_end(&h);
}

/* With leaves: 0.20 goes, 0.25 does not: 0.225, half-width 0.025; both ends read. */
static void test_frame_reads_leaves_at_both_ends(void **state)
{
    (void)state;
    static const struct job_instrument leaves = {
        .name = "leaves", .kind = INSTRUMENT_FEELER, .leaves = hand_leaves, .n_leaves = COUNT(hand_leaves)};
    struct hand h;
    kit_begin(&h, METHOD_FRAME, &leaves);
    set_frame(&h, 4, 50, 0.20, 0.05, OPEN_INSIDE, FRAME_LEFT_FENCE);
    const struct proof_test *t = hand_prove(&h);
    assert_close(t->error, (0.225 - 0.075) / 50 / 8, 1e-12);
    assert_int_equal(t->n_lines, 6);
    hand_end(&h);
}

/* ---- Frames sawn and put together ---- */

struct spot {
    double x, y;
};

/* A blank lies with its outer edge along a near fence whose right end stands away from the operator by `turned`, and is
   sawn at x = 0; the piece to the right is kept. What is the angle between its outer edge and the sawn face, at the
   outer corner? Seen in the corners themselves. */
static double saw_mitre(double turned)
{
    double cosine = cos(turned), sine = sin(turned);
    struct spot end = {300 * cosine, 300 * sine}; /* of the outer edge; it is sawn through at 0, 0 */
    struct spot a = {-300 * cosine - 60 * sine, -300 * sine + 60 * cosine}; /* the inner edge, from a to b */
    struct spot b = {300 * cosine - 60 * sine, 300 * sine + 60 * cosine};
    double q = (0 - a.x) / (b.x - a.x);
    struct spot inner = {0, a.y + q * (b.y - a.y)};
    return acos((end.x * inner.x + end.y * inner.y) / hypot(end.x, end.y) / hypot(inner.x, inner.y));
}

/* n pieces whose mitres were cut in turn on two fences, one mitre on each; outer edges of any lengths, in pairs. They
   are put together face to face round the frame, each slid along its face by chance; the last face and the first then
   stand apart by an angle. Gives the gap over the leg and where it stands open. */
struct built_frame {
    int pieces;
    double leg, error[2], apart;
};
static void put_together(const struct built_frame *f, struct hand_random *r, double *gap, double *gap_other,
                         enum opening *open)
{
    double square = 180.0 / f->pieces * degree, way = 0.3;
    double at_start = saw_mitre(square + f->error[0]), at_end = saw_mitre(square + f->error[1]);
    struct spot corner = {hand_within(r, -50, 50), 20};
    double first_edge = way, first_face = way + at_start, face = 0;
    for (int i = 0; i < f->pieces; i++) { /* wood on the left of its outer edge */
        double length = 400 + 150 * (i % 2), slid = hand_within(r, -1, 1);
        face = way + 180 * degree - at_end;
        corner.x += length * cos(way) + slid * cos(face);
        corner.y += length * sin(way) + slid * sin(face);
        way = face - at_start;
    }
    /* The last piece is slid, without turning, until the outer ends of both faces meet. Is the rest of its face then in
       the air, or would it have to be in the wood of the first piece, which lies on its outer edge's side of its face?
     */
    struct spot tip = {f->leg * cos(face), f->leg * sin(face)}, begin = {cos(first_face), sin(first_face)};
    double tip_side = begin.x * tip.y - begin.y * tip.x;
    double wood_side = begin.x * sin(first_edge) - begin.y * cos(first_edge);
    *open = tip_side * wood_side < 0 ? OPEN_INSIDE : OPEN_OUTSIDE; /* in the wood: the inner ends meet instead */
    *gap = fabs(tip_side) + f->apart;
    *gap_other = f->apart;
}

static void test_frame_built_from_pieces(void **state)
{
    (void)state;
    static const int pieces[] = {4, 6, 8};
    struct hand_random r = {11};
    for (int k = 0; k < 48; k++) {
        double size = (k & 8 ? 1 : 0.1) * degree * (k & 1 ? 1 : -1);
        struct built_frame f = {
            .pieces = pieces[k % 3], .leg = 60, .error = {size, k & 2 ? size : 0.4 * size}, .apart = k & 4 ? 0.3 : 0};
        double gap, other, mean = (f.error[0] + f.error[1]) / 2;
        enum opening open;
        struct hand h;
        kit_begin(&h, METHOD_FRAME, &fine);
        put_together(&f, &r, &gap, &other, &open);
        set_frame(&h, f.pieces, f.leg, gap, other, open, FRAME_BOTH_FENCES);
        const struct proof_test *t = hand_prove(&h);
        assert_within(t->error, mean, 0.02 * fabs(mean)); /* 16 degrees of gap: its sine is 1.3 % short */
        assert_true(t->error * mean > 0);
        for (int round = 0; round < 2; round++) { /* each fence is turned as printed, by what is printed */
            double turn = t->move.distance / t->over_length;
            if (t->move.advice == ADVICE_MOVE)
                for (int i = 0; i < 2; i++)
                    f.error[i] += strcmp(t->move.what.key, "frame.too_large") == 0 ? -turn : turn;
            put_together(&f, &r, &gap, &other, &open);
            set_frame(&h, f.pieces, f.leg, gap, other, open, FRAME_BOTH_FENCES);
            t = hand_prove(&h);
        }
        assert_int_equal(t->finding, FINDING_WITHIN);
        hand_end(&h);
    }
}

/* With the pivot known the move is that of its point. */
static void test_frame_move_at_the_pivot(void **state)
{
    (void)state;
    struct hand h;
    kit_begin(&h, METHOD_FRAME, &fine);
    set_frame(&h, 4, 50, 1, 0, OPEN_INSIDE, FRAME_RIGHT_FENCE);
    h.tests[0].as.frame.pivot_to_moving = given(400);
    const struct proof_test *t = hand_prove(&h);
    assert_close(t->move.distance, 400 * tan(1.0 / 400), 1e-9); /* e = 1/50/8 = 1/400 */
    assert_string_equal(t->move.what.key, "frame.too_large");
    hand_end(&h);
}

/* ---- Coverage ---- */

struct drawn_frame {
    double error;
};
static double draw_frame(struct hand *h, struct hand_random *r, const void *with)
{
    static const double set[] = {0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.35, 0.40, 0.45, 0.50, 0.55, 0.60, 0.65, 0.70};
    static const struct job_instrument tool = {
        .name = "set", .kind = INSTRUMENT_FEELER, .leaves = set, .n_leaves = COUNT(set)};
    const struct drawn_frame *f = with;
    double e = f->error + hand_within(r, -1e-4, 1e-4), leg = 50 + hand_within(r, -0.5, 0.5), joints = 0;
    for (int i = 0; i < 3; i++)
        joints += hand_within(r, -FRAME_JOINT_HALF_WIDTH, FRAME_JOINT_HALF_WIDTH);
    double gap = 8 * e * leg + joints, limit = gap > 0.3 ? 0.006 : 0.004;
    h->tests[0].instrument = &tool;
    set_frame(h, 4, 50, kit_leaf(gap + hand_within(r, -limit, limit), set, COUNT(set)), 0, OPEN_INSIDE,
              FRAME_LEFT_FENCE);
    return e;
}

static void test_frame_coverage(void **state)
{
    (void)state;
    static const double errors[] = {5e-4, 1e-3, 1.5e-3};
    for (size_t i = 0; i < COUNT(errors); i++) {
        struct hand h;
        kit_begin(&h, METHOD_FRAME, NULL);
        double share = kit_coverage(&h, 60 + i, draw_frame, &(struct drawn_frame){errors[i]});
        print_message("error %.4f: covered %.4f\n", errors[i], share);
        assert_true(share >= 0.93 && share <= 0.98);
        hand_end(&h);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_frame_worked_by_hand),    cmocka_unit_test(test_frame_reads_leaves_at_both_ends),
        cmocka_unit_test(test_frame_built_from_pieces), cmocka_unit_test(test_frame_move_at_the_pivot),
        cmocka_unit_test(test_frame_coverage),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
