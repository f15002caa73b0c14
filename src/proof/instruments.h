/* instruments.h: what a tool may be off by where the job states its kind and class alone: published tables. Lengths mm.
   Owns nothing. May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_INSTRUMENTS_H
#define FETTLE_PROOF_INSTRUMENTS_H

#include "job.h"

#define DEFAULT_RESOLUTION 0.01  /* digital caliper, where a test names no tool [mm] */
#define DEFAULT_ERROR_LIMIT 0.03 /* its limit of error [mm]; DIN 862 as quoted: 0.03 from 100 to 600 mm */

/* A tool as the sums use it. */
struct tool {
    double resolution;  /* least step that it shows [mm] */
    double error_limit; /* E: half-width of its limits for a reading of that size [mm] */
    const char *from;   /* words key: where the limit comes from */
};
/* The tool of a test for a reading of that length; NULL: the caliper that is assumed. */
struct tool instrument_tool(const struct job_instrument *, double reading);
/* How far the blade of a square may stand from a right angle over that length [mm], by its grade: DIN 875-1; an unknown
   grade counts as 2. `grade` NULL: unknown. */
double instrument_square_limit(const char *grade, double length);

#endif
