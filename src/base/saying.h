/* Sayings: a sentence not yet put into words. The stages that calculate know which sentence is true and with which
   numbers; the words stage knows how it reads. Owns nothing: strings are borrowed. May be included by every stage. */
#ifndef FETTLE_BASE_SAYING_H
#define FETTLE_BASE_SAYING_H

/* How the number of an argument is to be printed; the words stage has the rule of each for mm and inch jobs. */
enum say_kind {
    SAY_NOTHING,
    SAY_SIZE,       /* mm: a size sawn or set by rule: to 0.5 mm; inches to 1/64 */
    SAY_ABOUT,      /* mm: a rule of thumb: whole mm; inches to 1/8, without a decimal beside it */
    SAY_THICKNESS,  /* mm: a thickness as measured on the stock: to 0.1 mm; .001 in */
    SAY_FIT,        /* mm: fits, kerf, gauge leaves: 0.01 mm; .001 in */
    SAY_MOVE,       /* mm: distances to move, readings' differences: 0.001 mm; .001 in */
    SAY_ERROR,      /* mm: error over a length, with sign: 0.001 mm; .0001 in */
    SAY_UNSIGNED,   /* mm: the same without sign */
    SAY_LIMIT,      /* mm: a tolerance: two decimals at least, three at most; .0001 in */
    SAY_UNCERTAINTY,/* mm: rounded up at two significant digits, at most to the place of SAY_ERROR */
    SAY_RADIANS,    /* rad, three significant digits, as 0.000 140 */
    SAY_DEGREES,    /* rad, printed as degrees to 0.001 */
    SAY_COUNT,      /* whole number */
    SAY_COUNT_WORD, /* whole number, in words up to twelve */
    SAY_NUMBER,     /* plain number, three significant digits */
    SAY_PERCENT,    /* per cent, whole */
    SAY_RATIO,      /* share of one, printed as per cent */
    SAY_FORCE,      /* N, whole; pounds-force to 0.1 in inch jobs */
    SAY_DENSITY,    /* kg/m3, whole; pounds a cubic foot to 0.1 in inch jobs */
    SAY_GROWTH,     /* a length in 1000 of the same, three significant digits; in inch jobs in 12, to .0001 */
    SAY_MASS,       /* kg, one decimal; pounds in inch jobs */
    SAY_TEMPERATURE,/* Celsius, whole; Fahrenheit in inch jobs */
    SAY_TEXT,       /* text as it is: a name of the job's own */
    SAY_WORD        /* text is a key of the words table: "side.left" */
};

struct say_arg {
    const char *name;
    enum say_kind kind;
    double number;
    const char *text;
};

enum { SAY_MOST_ARGS = 8 };
/* key NULL: nothing to say. Unused arguments have name NULL. */
struct saying {
    const char *key; /* of the words table, "check.runner_play_driest.why" */
    struct say_arg arg[SAY_MOST_ARGS];
};

/* Shorthand for making sayings: SAYING("check.runner_play.why", SAY_ARG("play", SAY_FIT, p)). */
#define SAYING(k, ...) ((struct saying){.key = (k), .arg = {__VA_ARGS__}})
#define SAYING_PLAIN(k) ((struct saying){.key = (k)})
#define SAY_ARG(n, k, v) {.name = (n), .kind = (k), .number = (v)}
#define SAY_STR(n, t) {.name = (n), .kind = SAY_TEXT, .text = (t)}
#define SAY_KEY(n, t) {.name = (n), .kind = SAY_WORD, .text = (t)}

#endif
