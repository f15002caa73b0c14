/* proof.h: what the readings say: error, budget, verdict, move, history, reckoner.
   Made by src/proof from a job and the setting of its plan. Angles rad, lengths mm, whatever the job's units. */
#ifndef FETTLE_PROOF_H
#define FETTLE_PROOF_H

#include "base/saying.h"
#include "job.h"
#include "setting.h"

enum finding { FINDING_WITHIN, FINDING_OUTSIDE, FINDING_UNDECIDED };
enum advice { ADVICE_LEAVE, ADVICE_MOVE, ADVICE_MEASURE_MORE };

/* One line of an uncertainty budget. */
struct budget_line {
    struct saying source; /* words key "budget.<…>" */
    double u;             /* standard uncertainty of the result from this source, in the result's unit */
    double dof;           /* degrees of freedom; INFINITY where they are without number */
    enum budget_shape {
        BUDGET_OWN,         /* worked in the method's own way */
        BUDGET_RECTANGULAR, /* u = size / sqrt(3) * sensitivity */
        BUDGET_MEAN,        /* u = size / sqrt(count) * sensitivity: the mean of so many readings */
        BUDGET_STANDARD     /* u = size * sensitivity */
    } shape;
    double size;          /* half-width, standard deviation or standard uncertainty of what was read [mm, or rad] */
    double sensitivity;   /* of the result to it, without sign */
    int count;
};

/* A further result of a test, beside its error. */
struct proof_figure {
    const char *id;       /* for results: "slope" */
    struct saying what;   /* in words what it is */
    const char *unit;     /* "mm", "rad", "1" */
    enum say_kind kind;   /* how it is printed */
    double value;
    double expanded_uncertainty; /* NAN: not told */
    double limit;         /* of its size; NAN: none */
};
enum { FIGURES_MOST = 8 };

enum { LEAVES_MOST = 4 };
/* Five-cut strips: the least that show their own scatter (common practice, no source). */
enum { STRIPS_THAT_PROVE = 3 };
struct move {
    struct saying what;          /* what to turn or move, how far and which way, whole; key NULL: an end of the fence, by
                                    end, toward and distance */
    enum advice advice;
    struct saying reason;        /* why leave, move or measure more */
    enum side end;               /* the end that is moved */
    enum toward toward;
    double distance;             /* >= 0 [mm] */
    double uncertainty;          /* expanded, of the distance [mm] */
    double leaves[LEAVES_MOST];  /* thickest first */
    int n_leaves;                /* 0: no set of leaves in the job, or nothing nearer than no leaf at all */
    const struct job_instrument *set; /* borrowed: the job's first set of leaves; NULL: none */
    double left_over;            /* distance - sum of leaves [mm] */
    double expected_error;       /* after the move by the leaves (or the distance), in the result's unit */
};

/* What one strip of a five-cut run gave. */
struct five_cut_run {
    double fence_end, far_end;  /* mean widths [mm] */
    double difference;          /* fence_end - far_end [mm] */
    double slope;               /* difference / (4 L), unsigned by side [rad] */
};
struct five_cut_sum {
    struct five_cut_run *runs;
    int n_runs;
    int sign;                   /* c: error = sign * mean slope */
    double length;              /* L [mm] */
    double pivot_to_moving;     /* D [mm]; NAN: unknown, then no move */
    double mean_difference;     /* [mm] */
    double run_spread;          /* s, standard deviation of the slopes [rad]; NAN for one run */
    double reading_spread;      /* s_r, pooled [mm] */
    double reading_dof;         /* nu_r */
    double u_reading;           /* u_read of a strip [rad] */
    double spread_used, spread_dof; /* s0, nu0 */
    const char *spread_from;    /* words key: "spread.job", "spread.history", "spread.default" */
    double least_reading;       /* narrowest single reading [mm] */
};

/* A gap as it is known: it lies within half_width of value. [mm] */
struct gap {
    double value, half_width;
    double below, above; /* leaf that goes, next that does not; NAN: not read with leaves */
};

/* A straight edge along a fence: places from the left shim, and how far each stands toward the work. */
struct face_point {
    double x, dev; /* [mm] */
};
struct face_zone {         /* between two parallels, one through two points, the other through the apex */
    double width;          /* the bow [mm] */
    size_t from, to, apex; /* indices of points */
    bool hump;             /* the apex stands toward the work; false: hollow */
};
struct fence_straight_sum {
    struct face_point *points; /* left to right, both shims among them */
    struct gap *gaps;          /* of each point; at a shim its thickness, exact */
    bool *at_shim;
    size_t n;
    double shim, length;       /* length: between the shims [mm] */
    struct face_zone zone;
    double edge_limit;         /* of the straight edge [mm] */
    bool edge_is_assumed;
    double work;               /* the shortest work that was asked about [mm] */
    double angle, angle_from;  /* how far it can lean [rad], and from which place on [mm] */
};
struct frame_sum {
    int pieces;
    double leg;                             /* [mm] */
    struct gap gap, gap_other;              /* other: 0 where it was not read */
    int sign;                               /* +1 open inside, -1 open outside, 0: closed */
    bool reads_both;
};
struct diagonals_sum {
    double width, depth, d1, d2;  /* means [mm] */
    double half_width;            /* of one reading, rectangular [mm] */
    double error_limit;           /* of the tool over a diagonal [mm] */
    double widths_differ, depths_differ; /* [mm]; NAN: one of them was measured once */
    bool disagree;                /* opposite sides differ by more than reading explains: nothing is proven */
    double least_u;               /* U that this tool would leave on a square panel [rad] */
};
struct side_play_sum {
    const struct gap *plays;
    size_t n, worst;
    double least, most;           /* [mm] */
    double low, high;             /* the limits [mm] */
    double engaged;               /* least length of runner in the slot while cutting [mm]; NAN: not known */
    double yaw;                   /* most play over that length [rad]; NAN */
};
struct box_joint_sum {
    int fingers;
    double pitch, got, finger, slot; /* [mm]; slot NAN: not measured */
    double half_width, error_limit;  /* [mm] */
    double fit, fit_u;               /* slot less finger and its U [mm]; NAN */
    bool change_cutter;              /* pitch and fit ask for different moves */
    double toward, fit_after;        /* move of the key toward the cutter; what the fit becomes [mm] */
    double cutter_wider;             /* [mm]; negative: narrower */
};

struct flip_sum {
    struct gap gap;
    double height;
    int sign;              /* +1: the top of the blade leans right when the gap opens as it does; 0: no gap seen */
};
struct square_gap_sum {
    struct gap gap;
    double length;
    int sign;              /* of the error for a gap at the end where the light shows; 0: no light */
    double square_limit;   /* of the square over the length [mm] */
    double pivot_to_moving; /* D [mm]; NAN: unknown, then no move */
};
struct slot_parallel_sum {
    double front, back;    /* means [mm] */
    double span;
    int sign;              /* +1 in the right slot */
};
struct stop_sum {
    size_t n;              /* pairs; 0: repeats alone, whose spread is then the result */
    double mean_set;       /* [mm] */
    double mean_error;     /* of got - set [mm] */
    bool has_slope;
    double sum_products, sum_squares; /* (set - mean) * error, (set - mean) squared */
    double slope;          /* b, mm a mm */
    double scatter;        /* about the line, or about the mean where there is none [mm]; NAN: one pair */
    double spread;         /* standard deviation of repeats [mm]; NAN: none */
    double shortest, longest; /* settings [mm] */
};

struct proof_test {
    const struct job_test *job;  /* borrowed */
    enum method method;
    double error;
    const char *unit;            /* of error, uncertainties and tolerance: "rad" or "mm" */
    double over_length;          /* the tolerance's length [mm]; 1 where the result is a length: so error * over_length is
                                    what is printed in either case */
    double error_over;           /* error * over_length [mm] */
    bool is_spread;              /* how far pieces of one setting differ, no error: stands in no line with errors */
    int strips;                  /* independent results that were averaged; 0: not counted in strips */
    struct budget_line *lines;
    int n_lines;
    double standard_uncertainty; /* u_c */
    double dof;                  /* nu_eff, unrounded */
    double coverage_factor;      /* k */
    double expanded_uncertainty; /* U, about 95 % */
    double tolerance;            /* in the result's unit */
    bool tolerance_is_default;
    double conformance_probability;
    enum finding finding;
    bool counts;                 /* decides, or would: the last of its method, not practice, not overtaken */
    bool stale;                  /* the last of its method, but overtaken by a move or change */
    struct saying stale_reason;
    bool has_move;
    struct move move;
    int further_strips;          /* undecided: more strips that would decide, 1 to 20; 0: no number does; -1: not asked */
    struct saying largest_line;  /* where further_strips is 0: the largest line that is not cut to cut */
    struct saying decide;        /* undecided: what would decide it; key NULL otherwise */
    bool wrong_way;              /* after a move: nearer to "moved the wrong way" than to the expected error */
    struct saying wrong_way_caution; /* key NULL unless wrong_way */
    double expected_error;       /* after the move before it; NAN: none */
    struct date due;             /* by its own interval; {0}: none */
    struct proof_figure figures[FIGURES_MOST];
    int n_figures;
    struct saying remarks[4];    /* what the test can never decide, what a move cannot cure; key NULL: no more */
    union {
#define METHOD(id, prefix, name) struct prefix##_sum prefix;
#include "job/methods.inc"
#undef METHOD
    } as;
};

/* Tests of one method over time. */
struct history {
    enum method method;
    int first, last;         /* range of tests in struct proof that belong to it are those with this method */
    int segment_first, n_segment; /* tests since the last move or change that are no practice: index of the first (-1: none), number */
    bool has_drift;          /* three or more in the segment, over two weeks or more */
    double drift_per_day;    /* least squares, in the result's unit a day */
    double drift_u;          /* its expanded uncertainty, about 95 % */
    double fitted_last;      /* the fitted line at the date of the last test, in the result's unit */
    struct date drift_due;   /* when the line meets the guarded limit T - U of the last test; {0}: not within ten years, or
                                that test is not within or does not count */
};

enum { RECKONER_MOST = 12 };
struct reckoner {
    bool has;
    double length;              /* L [mm] */
    double pivot_to_moving;     /* D [mm] */
    double factor;              /* D / (4 L) */
    double leave_below;         /* "leave it alone if the ends differ by less than": 4 L (T - U) [mm]; the strips it needs below */
    double out_above;          /* 4 L T [mm]: a difference above it is an error above the tolerance; between the two the
                                  record decides, and a jig within tolerance is never told to move */
    int leave_strips;           /* 1; 3 where one strip leaves nothing; 0 where three leave nothing either (leave_below is 0) */
    enum side moving_end, pivot_side;
    enum fence_side fence_side;
    enum side offcut;
    enum toward fence_end_wider, far_end_wider; /* which way to move the end */
    struct reckoner_row {
        double differ, move;    /* [mm] */
        double leaves[LEAVES_MOST]; /* thickest first */
        int n_leaves;           /* 0: no set, or four leaves do not reach the move */
    } rows[RECKONER_MOST];
    int n_rows;
};

/* What the record will say of the size of an error over its length, so that the bench page says no other; rounded outward.
   Between the two nothing is promised: the record decides. */
struct zones {
    bool has;
    double leave_to;            /* up to it proven within [mm]; NAN: nothing is */
    double move_from;           /* from it on a move is advised [mm]; between the two nothing is clear; NAN: never */
    double out_from;            /* from it on proven outside [mm]; NAN: never */
    double least_at;            /* for boards, spans, legs, lengths from this on [mm]; 0: it does not depend on one */
};

/* The small table of a bench page: what to move for what is read. */
enum { READING_ROWS_MOST = 5 };
struct reading_table {
    bool has, reads_gap, by_leaf; /* by_leaf: what is read is the thickest leaf that goes in */
    double at;                  /* for which it is made: height of the board, span, leg, length [mm] */
    double over;                /* over which the move is told: the tolerance's length, or pivot to moving end [mm] */
    double per;                 /* over which the error is told: move = error x over / per [mm] */
    double factor;              /* move = taken x factor */
    double error_per_mm;        /* of what is read [rad/mm] */
    double last;                /* what the latest test read [mm]; 0: none */
    struct reading_row {
        double read;            /* leaf that goes, or difference [mm] */
        double taken;           /* halfway to the next leaf; of a difference itself [mm] */
        double move;            /* over that length [mm] */
        double error;           /* its size [rad] */
    } rows[READING_ROWS_MOST];
    int n_rows;                 /* from the first reading for which a move is advised; 0: no leaf of the set is one */
};

/* Everything reachable from a struct proof is owned by its pool and freed by proof_free; the job must outlive it. */
struct proof {
    struct pool pool;
    struct proof_test *tests; /* as in the job: oldest first */
    size_t n_tests;
    struct history history[METHODS];
    struct reckoner reckoner;             /* of the five-cut test */
    struct reading_table table[METHODS];
    struct zones zones[METHODS];
};

bool proof_build(const struct job *, const struct setting *, struct diags *, struct proof *out);
void proof_free(struct proof *);
/* The test of a method that decides: the last that is no practice; NULL: none. It may be stale. */
const struct proof_test *proof_latest(const struct proof *, enum method);
bool proof_is_angle(const struct proof_test *);  /* its result is an angle, printed over a length; else a length */
bool proof_has_sign(const struct proof_test *);  /* which way it is off is part of its error; else the error is a size */

#endif
