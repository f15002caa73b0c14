/* random_draft.h: what the parts of one random job must agree on, and how its numbers and texts are written. Private to the
   generator of random jobs. */
#ifndef FETTLE_TESTS_RANDOM_DRAFT_H
#define FETTLE_TESTS_RANDOM_DRAFT_H

#include "whole/random_job.h"

#define COUNT(a) ((int)(sizeof(a) / sizeof *(a)))

/* What the parts of one job must agree on. */
struct draft {
    struct random_job *g;
    struct text *out;
    bool inches;
    double diameter, highest, kerf, plate;
    double front_edge, depth, left_of_blade; /* left_of_blade 0: no width of the table given */
    double slot_width, slot_depth, slot[2];  /* 0: no slot on that side */
    double thin, thick;                      /* of the two sheets */
    bool has_strip, has_air, sized, has_sled;
    double width;                            /* capacity; 0: left out */
    bool has_caliper, has_leaves, has_dial, has_rule, has_edge;
};

int below(struct random_job *, int n); /* 0 to n - 1 */
bool chance(struct random_job *, double p);
/* Does an optional size stand in the job? Draws in any case, so that the rest of the job stays the same. */
bool is_given(struct random_job *, double p);
double in_steps(double v, double step);
const char *side_word(bool right);

/* A length to the step of its unit; inches as fractions where the step is one. */
void write_length(struct draft *, double mm, double step_mm, double step_in);
double length_as_written(const struct draft *, double mm, double step_mm, double step_in);
void write_size(struct draft *, const char *before, double mm);      /* 0.5 mm, 1/16 in */
void write_thickness(struct draft *, const char *before, double mm); /* 0.1 mm, .001 in */
void write_fit(struct draft *, const char *before, double mm);       /* 0.01 mm, .001 in */
void write_reading(struct draft *, const char *before, double mm);   /* 0.01 mm, .0005 in */
/* A quoted text of some words; of exactly `most` characters where long texts are wanted. */
void write_text(struct draft *, const char *key, int most_words, int most);

/* Tests of the methods other than five-cut, one or two of each that is chosen. */
void write_other_tests(struct draft *);

#endif
