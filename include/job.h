/* job.h: the job as it was read: every value of the file with its place, in millimetres, radians, Celsius, per cent.
   Made by src/job, which alone knows YAML. May be included by every stage right of it. */
#ifndef FETTLE_JOB_H
#define FETTLE_JOB_H

#include "base/date.h"
#include "base/diag.h"
#include "base/mem.h"
#include "base/unit.h"

#include <stdbool.h>
#include <stddef.h>

/* A number of the job. Lengths [mm], angles [rad]. Not given: v is NAN, mark is that of the mapping it would stand in. */
struct num {
    double v;
    bool given;
    struct mark mark;
};
/* A text of the job, UTF-8 without control characters. Not given: s is NULL. */
struct str {
    const char *s;
    struct mark mark;
};

enum paper { PAPER_A4, PAPER_A3, PAPER_LETTER, PAPER_TABLOID };
enum sheet_kind { SHEET_WALL, SHEET_BUILD, SHEET_RECORD, SHEET_BENCH, SHEET_KINDS };
enum side { SIDE_LEFT, SIDE_RIGHT };             /* of the blade plane, as the operator stands at the saw */
enum fence_side { FENCE_NEAR, FENCE_FAR };       /* near: the operator's side of the work */
enum toward { TOWARD_OPERATOR, TOWARD_AWAY };
enum knife_kind { KNIFE_NOT_STATED, KNIFE_RIVING, KNIFE_SPLITTER, KNIFE_NONE };
enum rings { RINGS_QUARTER, RINGS_FLAT, RINGS_MIXED }; /* as they stand in the part in use */

/* What the program knows of a material; the table with its sources is in src/job/materials.inc. */
enum material_form { MATERIAL_SOLID, MATERIAL_PLYWOOD, MATERIAL_MDF, MATERIAL_OTHER };
struct material {
    const char *name;             /* "birch-plywood" */
    enum material_form form;
    double density;               /* kg/m3 at about 12 % moisture content */
    double stiffness;             /* bending modulus along the face grain [N/mm2]; of panels: that of the thickness in use */
    double shrink_radial;         /* solid wood: S, per cent green to oven-dry; NAN for panels */
    double shrink_tangential;
    double movement;              /* panels: in-plane movement, share per 10 % RH; NAN for solid wood */
};

struct job_stock {
    const char *name;             /* the job's own */
    struct mark mark;
    struct material material;
    bool is_strip;
    struct num thickness;         /* of a sheet; of a strip: the first number of `strip` */
    struct num sheet_along, sheet_across; /* along and across the face grain */
    struct num strip_width;
    struct num length;            /* of a strip; may be left out */
    struct num have;              /* pieces on the rack; left out: to be bought */
    enum rings rings;
    bool rings_given;
    /* As the job states it; resolved into `material` and `thickness`. */
    struct job_stock_stated {
        struct str material;
        struct num strip_thickness;
        struct num density, stiffness, shrink_radial, shrink_tangential; /* of material `other` only */
        struct num movement;      /* per cent per 10 % RH */
        bool is_sheet;            /* `sheet` stands in the job */
    } stated;
};

struct job_screw {
    double diameter;
    const double *lengths; /* ascending */
    size_t n_lengths;
    struct mark mark;
};

enum instrument_kind { INSTRUMENT_CALIPER, INSTRUMENT_FEELER, INSTRUMENT_RULE, INSTRUMENT_TAPE, INSTRUMENT_DIAL, INSTRUMENT_SQUARE, INSTRUMENT_STRAIGHT_EDGE, INSTRUMENT_OTHER };
struct job_instrument {
    const char *name; /* the job's own; "caliper-3" */
    struct mark mark;
    enum instrument_kind kind;
    struct num resolution, error_limit; /* mm; error_limit is the half-width of the maker's or certificate's limit */
    struct date checked;                /* {0}: not stated */
    struct str certificate;             /* "lab, number": wording A of a record; NULL: wording B */
    struct str grade;                   /* class of a rule, tape or square */
    const double *leaves;               /* feeler: ascending [mm] */
    size_t n_leaves;
};

struct job_blade {
    struct num diameter, kerf, plate, highest;
};
struct job_knife {
    enum knife_kind kind;
    struct num thickness, below_top;
    struct mark mark;
};
struct job_table {
    struct num front_edge;    /* near edge of the table to the blade's axis, blade at its highest */
    struct num depth, width, left_of_blade;
};
struct job_slots {
    struct num width;        /* the narrowest reading: decides binding */
    struct num width_widest; /* the widest reading: decides rattle; the same number where one reading is given */
    struct num depth;
    struct num left, right;  /* blade plane to the slot's centre line; at least one is given for sleds */
};
/* Mitre slots still to be routed into a shop-made top; a lining of metal or plastic leaves its inner size as the slot. */
struct job_slots_to_make {
    bool given;
    struct mark mark;
    struct num width, depth;        /* as routed */
    struct num bit, base_diameter;  /* the router's straight bit and its round base, which runs along a guide */
    struct num step;                /* deepest pass; left out: half the bit's diameter */
    struct job_profile {
        bool given;
        struct num outer_width, outer_height, inner_width, inner_depth;
    } profile;
};
struct job_saw {
    bool given;
    struct mark mark;
    struct str name;
    struct job_blade blade;
    struct job_knife knife;
    struct job_table table;
    struct job_slots slots;
    struct job_slots_to_make slots_to_make;
};

struct job_climate {
    bool given;
    struct num temperature, humidity; /* Celsius, per cent */
};
struct job_air {
    bool given;
    struct mark mark;
    struct job_climate at_fitting, driest, dampest;
};

/* Layers of a fence or guard: a count, or the height of each. */
struct job_layers {
    bool given;
    int count;
    const double *heights; /* NULL: all as high as the fence [mm] */
    struct mark mark;
};

struct job_point { /* a point on the fence by its distance from the blade plane */
    bool given;
    enum side side;
    struct num from_blade;
    struct mark mark;
};

struct job_fence {
    struct mark mark;
    const struct job_stock *stock; /* NULL: left out */
    enum fence_side side;          /* of the reference fence; not used for the other */
    bool side_given;
    struct num from_edge;          /* base's edge on that side to the fence's outer face */
    struct job_layers layers;
    struct num height, length;
    struct job_point pivot, moving;
};

struct job_sled {
    struct num capacity_width, capacity_thickness;
    struct num blade_above_work;
    const struct job_stock *base_stock; /* NULL: left out */
    struct num base_width, base_depth, base_left_of_blade;
    struct mark base_mark;
    struct job_fence reference_fence, other_fence;
    const struct job_stock *runner_stock;
    struct num runner_width, runner_thickness, runner_free_width, runner_length, runner_moisture; /* moisture [%] */
    bool guide_given;
    enum side guide;
    struct mark guide_mark;
    struct mark runners_mark;
    const struct job_stock *guard_stock;
    struct job_layers guard_layers;
    struct num guard_width, guard_height;
    struct mark guard_mark;
    const struct job_stock *travel_stop_stock;
    bool travel_stop_in_given;
    enum side travel_stop_in;
    struct mark travel_stop_in_mark;
    struct num travel_stop_length;
    bool has_stop; /* flip stop asked for */
    const struct job_stock *stop_stock;
};

struct job_parts_part {
    const char *name;
    const struct job_stock *stock;
    struct num length, width, quantity; /* quantity left out: 1 */
    enum grain { GRAIN_ALONG, GRAIN_ACROSS, GRAIN_ANY } grain;
    struct mark mark;
};
struct job_parts {
    const struct job_parts_part *parts;
    size_t n;
};

/* One row of kinds.inc each. */
enum jig_kind {
#define KIND(id, name) JIG_##id,
#include "job/kinds.inc"
#undef KIND
    JIG_KINDS
};
struct job_jig {
    bool given; /* false: the job is the record of a saw */
    enum jig_kind kind;
    struct mark mark;
    union {
        struct job_sled sled;   /* JIG_CROSSCUT_SLED */
        struct job_parts parts; /* JIG_PARTS */
    } as;
};

struct job_limit { /* a tolerance: `error` over the length `over` */
    struct num error, over;
};
/* A tolerance left out has the program's default here, with given false. */
struct job_tolerances {
    struct job_limit squareness, blade_tilt, slot, mitre;
    struct num stop_error, stop_spread;
    struct num bow;
    struct num box_pitch;
    struct num side_play_low, side_play_high;
};

/* One row of methods.inc each. */
enum method {
#define METHOD(id, prefix, name) METHOD_##id,
#include "job/methods.inc"
#undef METHOD
    METHODS
};

/* Two numbers that belong together, [[250, 0.30], ...]. */
struct job_pair {
    double first, second; /* mm */
    struct mark mark;
};

struct readings {
    const double *v; /* mm */
    size_t n;        /* at least 1 */
    struct mark mark;
};
struct five_cut_strip {
    struct readings fence_end, far_end;
};
struct five_cut_readings {
    enum side offcut;
    struct num length; /* L */
    const struct five_cut_strip *strips;
    size_t n_strips;
    struct num spread_error, spread_over, spread_dof; /* all three or none */
    struct num pivot_to_moving;                       /* for kind: parts only */
    bool moving_end_given;
    enum side moving_end;
};

/* Under a straight edge on two equal shims: [place from the left shim, gap]. */
struct fence_straight_readings {
    const struct job_pair *gaps; /* in the order of the file */
    size_t n_gaps;
    struct mark gaps_mark;
    struct num shim;
    struct num length;           /* between the shims; left out: the first and last gaps stand over them */
    struct num shortest_work;
    const struct job_instrument *straight_edge; /* NULL: one of DIN 874-1 grade 2, assumed */
    struct mark straight_edge_mark;
};
enum opening { OPEN_INSIDE, OPEN_OUTSIDE };
enum frame_fence { FRAME_LEFT_FENCE, FRAME_RIGHT_FENCE, FRAME_BOTH_FENCES };
struct frame_readings {
    struct num pieces, leg, gap, gap_other; /* gap_other left out: 0, not read */
    enum opening open;
    bool open_given;             /* false: the last joint is closed, no light at either end */
    enum frame_fence fence;      /* on which the pieces were cut; left out: both */
    bool fence_given;
    struct num pivot_to_moving;  /* of that fence; left out: no move in mm */
};
struct diagonals_readings {
    struct readings width, depth; /* near and far, left and right; one number: measured once */
    struct num d1, d2;            /* near left to far right, near right to far left */
};
struct side_play_readings {
    struct readings plays;        /* at places along the travel, near to far */
    struct num engaged;           /* least length of runner in the slot while cutting; left out: the plan's */
};
struct box_joint_readings {
    struct num fingers, set, got, finger, slot; /* slot left out: no fit */
};

enum open_at { OPEN_TOP, OPEN_BOTTOM };
struct flip_readings {
    struct num height, gap;
    bool open_given;         /* false: no gap to be seen */
    enum open_at open;
    enum side turned;
};

enum edge_end { EDGE_FENCE, EDGE_FAR }; /* end of the sawn edge: at the fence, away from it */
struct square_gap_readings {
    enum side offcut;
    struct num length, gap;
    bool end_given;          /* false: no light to be seen */
    enum edge_end end;
    struct str grade;        /* of the square */
    struct num pivot_to_moving; /* for kind: parts only */
    bool moving_end_given;
    enum side moving_end;
};

struct slot_parallel_readings {
    enum side slot;
    struct readings front, back;
    struct num span;
};

enum { PREDICTIONS_MOST = 3 };
struct stop_readings {
    const struct job_pair *pairs; /* set, got */
    size_t n_pairs;
    struct mark pairs_mark;
    struct readings repeats, predict; /* n may be 0 */
};

struct job_moved {
    bool given;
    enum side end;
    enum toward toward;
    struct num distance;
    struct mark mark;
};

struct job_test {
    enum method method;
    struct mark mark;
    struct date date;
    struct mark date_mark;
    struct str by, note;
    const struct job_instrument *instrument; /* NULL: the default caliper, "assumed, check unknown" */
    struct mark instrument_mark;
    struct job_climate air;
    struct job_moved moved;
    bool practice;
    union {
#define METHOD(id, prefix, name) struct prefix##_readings prefix;
#include "job/methods.inc"
#undef METHOD
    } as;
};

struct job_change {
    struct date date;
    struct mark date_mark;
    struct str what;
    bool ends[METHODS]; /* the methods whose proofs it makes stale */
    struct mark mark;
};

/* The text of the job and of each used file, whole, for the record's last block. */
struct job_source {
    const char *name; /* as it is to be printed */
    const char *text;
    size_t size;
};

/* Everything reachable from a struct job is owned by its pool and freed by job_free. */
struct job {
    struct pool pool;
    const char *file;      /* as given on the command line */
    char fingerprint[65];  /* SHA-256 over the job's bytes, then each used file's; lower-case hex */
    struct job_source *sources;
    size_t n_sources;

    struct str number, title, shop, made_by;
    struct date date;      /* date of issue: given, else the newest date in the file; {0}: none */
    bool date_given;
    enum units units, file_units; /* printed in; written in: the same unless the command line says other */
    enum paper paper;      /* given, else A4 in mm jobs and Letter in inch jobs */
    bool paper_given;
    bool sheets_given;
    bool sheets[SHEET_KINDS];

    struct job_saw saw;
    struct job_air air;
    struct job_stock *stock;
    size_t n_stock;
    struct job_screw *screws; /* n_screws 0: the standard series */
    size_t n_screws;
    struct num trim;          /* cutting.trim; left out: 0 */
    struct job_instrument *instruments;
    size_t n_instruments;
    struct job_tolerances tolerances;
    struct num retest_months;
    struct job_jig jig;
    struct job_test *tests; /* sorted by date, then as they stand in the file */
    size_t n_tests;
    struct job_change *changes;
    size_t n_changes;
};

/* Reads, checks and resolves one job file. All errors of the file go to `diags`; false if there was any, and then
   `out` holds what could be read (number and title at least, where they stand) and must still be freed. */
bool job_read(const char *path, struct diags *diags, struct job *out);
/* The same from memory; name is used in messages. Used files are looked up beside `name`. */
bool job_read_text(const char *name, const char *text, size_t size, struct diags *diags, struct job *out);
void job_free(struct job *); /* NULL and {0} are legal */

const char *job_kind_name(enum jig_kind);
const char *job_method_name(enum method);
/* "1", "grade 1", "class II", "2": the class of a tool as a whole number from 0, `00` being -1; -2: not understood. */
int job_tool_class(const char *grade);
/* Its table of limits has no such grade, and nothing else states its limit. */
bool job_has_odd_grade(const struct job_instrument *);
const struct material *material_find(const char *name); /* NULL if unknown */
/* Bending modulus along the face grain of a panel of this thickness [N/mm2]. */
double material_stiffness(const struct material *, double thickness_mm);

struct text;
void job_print_schema(struct text *out);                          /* JSON Schema, from the reader's own field tables */
bool job_print_starter(const char *kind, enum units, struct text *out); /* a commented job to begin from; false: unknown kind */

#endif
