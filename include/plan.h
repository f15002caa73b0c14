/* plan.h: the jig as it is to be made: every size resolved, parts, checks, steps, as numbers and sayings.
   Made by src/plan from a job. Frame of a sled: x to the operator's right from the blade plane, v away from the operator
   from the base's near edge, z up from the table. Lengths mm, angles rad, masses kg, forces N. */
#ifndef FETTLE_PLAN_H
#define FETTLE_PLAN_H

#include "base/saying.h"
#include "job.h"
#include "setting.h"

/* What a part is; its printed name is the words key "part.<name>". Rows: PART(ID, "key"). */
enum part_kind {
#define PART(id, key) PART_##id,
#include "plan/parts.inc"
#undef PART
    PART_KINDS
};

/* A box in the sled's frame, for drawings: the sled stands with its near edge at v = 0. Parts that stay on the saw
   (the stop block) are in the frame of the sled standing on its stop. */
struct body {
    double x0, x1, v0, v1, z0, z1;
};

enum { DERIVED_LENGTH = 1, DERIVED_WIDTH = 2, DERIVED_THICKNESS = 4 };
struct plan_part {
    char letter[4];                /* A to Z, a to z, AA to ZZ, AAA …, in order of the parts table; NUL-ended */
    enum part_kind kind;
    const char *name;              /* the job's own name of a listed part, borrowed; NULL: that of its kind */
    int quantity;
    double length, width, thickness; /* size of one piece [mm]; length along the grain where it matters */
    double sawn_length;              /* to which it is sawn from its stock: more where it is planed on a longer piece [mm] */
    double final_length;             /* in the jig: less where a step cuts it back [mm] */
    size_t cut_step;                 /* number of that step, from 1; 0: final_length is sawn_length */
    bool grain_matters;              /* true: the part's length lies along the stock's grain */
    const struct job_stock *stock;   /* borrowed from the job; NULL: to be bought */
    unsigned derived;                /* DERIVED_ bits of sizes that the job did not give */
    const struct body *bodies;       /* one a piece, or one for all layers glued together */
    size_t n_bodies;
    double mass;                     /* of all pieces [kg] */
    double centre_x, centre_v;       /* of all pieces [mm] */
};

enum verdict { VERDICT_PASS, VERDICT_CAUTION, VERDICT_FAIL };
enum check_unit { CHECK_MM, CHECK_RAD, CHECK_SHARE, CHECK_NEWTON, CHECK_COUNT };

/* Every check, those of the cutting among them, its id in results being the contract's: CHECK(ID, "id", kind of number as printed). */
enum check_id {
#define CHECK(id, name, unit, say) CHECK_##id,
#include "plan/checks.inc"
#undef CHECK
    CHECKS
};

struct plan_check {
    enum check_id id;
    double value;              /* NAN: null in results (a tipping arm inside the table) */
    double low, high;          /* NAN: no such limit */
    double fail_low, fail_high; /* limits past which a caution becomes a failure; NAN: none beside low and high */
    enum check_unit unit;
    enum verdict verdict;
    struct saying what;   /* what is measured, and of which part: the head of its row */
    struct saying why;    /* what it means and where the limit comes from; key "check.<id>.why" or a variant of it */
    struct saying remedy; /* key NULL where it passes; holds the number that makes it pass */
    struct saying brief;  /* key NULL where it passes; what is wrong, and with which part, in one short sentence without a number */
    bool hurts;           /* a failure that can hurt someone: stands on the wall sheet as well */
    struct mark mark;     /* the value of the job that decides it */
};

/* A check that could not be made, a default that was used: listed under "assumed, not stated in the job". */
struct plan_assumed {
    struct saying what;
};

/* What the maker fetches before the first step. */
enum need_kind { NEED_TOOL, NEED_HARDWARE, NEED_CONSUMABLE, NEED_KINDS };
struct plan_need {
    enum need_kind kind;
    struct saying what; /* "16 screws 4 x 40" */
    int step;           /* the first that asks for it, from 0 */
};

/* Signal words of ISO 3864 / ANSI Z535. */
enum signal { SIGNAL_NONE, SIGNAL_NOTICE, SIGNAL_CAUTION, SIGNAL_WARNING, SIGNAL_DANGER };

struct plan_step {
    int stage;            /* groups steps under a heading, words key "stage.<n>" is given by stage_title */
    const char *stage_title; /* words key of the stage's heading; the same pointer within a stage */
    const char *parts;    /* letters of the parts it speaks of: "AB"; "" none */
    struct saying what;   /* what to do, to what size */
    struct saying know;   /* how to know that it is right */
    struct saying why;    /* the reason */
    enum signal signal;   /* of the caution that stands before it */
    struct saying caution; /* key NULL: none */
};

/* A caution for whoever uses the jig; the list stands most needed first. */
struct plan_caution {
    enum signal signal;
    struct saying text;   /* one or two short sentences */
    struct saying title;  /* the same in a few words, for the sheet's foot */
    int rank;             /* ascending */
};

/* What a screw is for: HOLE_FIXED stays for good; of the reference fence's, HOLE_PIVOT first, HOLE_TRIAL holds the moving
   end until a move, HOLE_FRESH takes its screw after the first move, HOLE_REST are driven then, before the proof.
   HOLE_RESERVED has no screw and is not drilled: a fresh place beside a HOLE_FRESH or a HOLE_REST, for a later move. */
enum hole_role { HOLE_FIXED, HOLE_PIVOT, HOLE_TRIAL, HOLE_FRESH, HOLE_REST, HOLE_RESERVED };

/* One screw: its place, and the hole in the part that takes its thread. */
struct plan_hole {
    const char *part;     /* letter of the part that takes the thread */
    double x, v;          /* in the sled's frame */
    double diameter;      /* of the pilot hole in that part [mm] */
    struct saying what;   /* "screw 4 x 50 from below" */
    enum hole_role role;
    bool from_above;      /* the head is sunk into the base's top; else into its underside */
    double screw_diameter, screw_length, head_diameter;
    double tip;           /* wood left beyond the screw's tip */
    const char *screw, *pilot_drill, *clearance_drill; /* designations: "4 × 40 mm", "2.4 mm"; "No. 8 × 1 1/2 in", "3/32 in" */
};

/* Geometry of the blade and of the travel, positions of the base's near edge or of the fence's face in the saw's frame:
   y away from the operator from the table's near edge. See src/plan/travel.h for the formulas and their sources. */
struct plan_travel {
    double blade_radius, blade_axis_y; /* R, y_b */
    double highest;                    /* h at its highest above the table */
    double y_stop;                     /* reference fence's face when the sled stands on its stop */
    double edge_start, edge_stop, edge_parked; /* base's near edge at the start of the widest cut, on the stop, parked */
    double y_near_face;                /* far fence: the other fence's face on the stop; else NAN */
    double bare_start, bare_stop;      /* far fence: blade bare beyond it at the start, before the widest work on the stop; else NAN */
    double guard_needed;               /* p(0): blade past the outer face at table height, on the stop */
    double setting_above_table;        /* blade height for the thickest work: base + thickest + blade above work */
};

struct plan_runner {
    bool present;
    double slot_x;             /* centre line from the blade plane, signed */
    double width, thickness, length;
    double v0;                 /* near end in the sled's frame */
    bool is_guide;
};

/* The flip stop for repeated lengths, on the kept side of the blade. present false: none was asked for, or the fence is
   too short. Distances from the blade plane along the fence. */
struct plan_flip {
    bool present;
    enum side side;
    double body_length, body_width, body_thickness; /* on the fence's top; length along the fence */
    double arm_length, arm_width;                   /* hangs before the working face */
    double cheek_height;                            /* behind the fence, carries the bolt; 0: none, the track lies in a rebate */
    double bolt_along, bolt_across;                 /* its hole: from the end toward the blade; from the cheek's top edge, or, without
                                                       a cheek, from the body's edge over the working face */
    double bolt_hole;                               /* diameter */
    double gap;                                     /* under the arm, for dust */
    double rebate_height, rebate_width;             /* of the fence's layers, for the track; 0: none */
    double track_from, track_length, track_height;  /* height: off the face it is screwed to, at most */
    double tape_zero;                               /* of a tape that is read at the body's outer end */
    double shortest, longest;                       /* pieces */
};

/* Passes of the router that makes the saw's slots: see src/plan/routing.h. across 0: the slots are there. */
struct plan_routing {
    int across;         /* passes side by side */
    double apart;       /* from one to the next; 0: one pass */
    double guide_least, guide_most; /* guide's edge from the slot's centre line, first and last pass */
    int deep;           /* passes one below the other */
    double each;        /* depth of each */
    double sunk;        /* of the lining's top below the table; NAN: no lining */
    double lining_wall, lining_floor; /* how thick; 0: no lining */
};

/* All sizes of a crosscut sled, given or derived. */
struct plan_sled {
    double capacity_width, capacity_thickness, blade_above_work, least_above_work; /* W, T, q, q_min */
    double base_width, base_depth, base_thickness, base_x0; /* base_x0: left edge, -left_of_blade */
    struct plan_fence {
        enum fence_side side;
        double v_outer, v_face;   /* outer and working face (other fence: face toward the work) in the sled's frame */
        double thickness, height, length, x0; /* x0: left end */
        int layers;
        const double *layer_heights; /* `layers` of them, from the working face outward */
        double bridge;            /* least height of wood over the blade at its highest */
    } reference, other;
    double pivot_x, moving_x;
    struct plan_runner runner[2]; /* by enum side */
    double guard_depth, guard_width, guard_height, guard_v0, guard_v1;
    int guard_layers;
    bool stop_in_slot;            /* false: on the outfeed */
    enum side stop_slot;
    double stop_y, stop_length;   /* near face of the block from the table's near edge; length along the slot */
    struct plan_flip flip;
    double cover_screw_x;         /* of the blade cover's screws, to either side of the blade plane; 0: no cover */
    double chamfer;               /* at the foot of the working face, for dust */
    struct plan_routing routing;
    double keep_out;              /* half width of the strip for hands: 75 */
    double screw_free;            /* half width of the strip without screws: 40 */
    double mass, centre_x, centre_v;
    struct plan_travel travel;
    /* wood: NAN where the job has no air */
    double mc_fitting, mc_driest, mc_dampest;                 /* per cent */
    double plane_to, plane_low, plane_high;                   /* runner width: aim, allowed from, to */
};

/* Everything reachable from a struct plan is owned by its pool and freed by plan_free; marked pointers are borrowed from
   the job, which must outlive it. */
struct plan {
    struct pool pool;
    bool has_sled;       /* false: kind parts, or no jig */
    struct plan_sled sled;
    struct setting setting;
    struct plan_part *parts;
    size_t n_parts;
    struct plan_check *checks;
    size_t n_checks;
    struct plan_step *steps;
    size_t n_steps;
    struct plan_assumed *assumed;
    size_t n_assumed;
    struct plan_need *needs;       /* in the order of use within each kind */
    size_t n_needs;
    struct plan_hole *holes;
    size_t n_holes;
    struct plan_caution *cautions; /* sorted: most needed first */
    size_t n_cautions;
};

/* Derives what the job leaves out, checks the whole. False, with a diagnostic at the job's value, only where no sled can
   be made at all (the checks of a bad sled are results, not errors). `out` must be freed either way. */
bool plan_build(const struct job *, struct diags *, struct plan *out);
void plan_free(struct plan *);
const char *plan_check_name(enum check_id); /* the id in results */
const char *plan_part_key(enum part_kind);  /* words key */
double sled_clamp_below(enum units); /* work shorter than this along the fence is clamped, not held by hand [mm] */
/* Words key of what the block that gauges a move of the reference fence is clamped to: the base, or a batten under it where
   no base lies behind the fence. */
const char *plan_block_carrier_key(const struct plan *);
const struct plan_check *plan_find_check(const struct plan *, enum check_id); /* NULL: not made */

#endif
