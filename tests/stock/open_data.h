/* Reading the open data: binpack2 (Falkenauer, "A hybrid grouping genetic algorithm for bin packing", Journal of Heuristics
   2, 1996) and gcut1 to 8 (Beasley, "Algorithms for unconstrained two-dimensional guillotine cutting", Journal of the
   Operational Research Society 36, 1985), both from OR-Library. */
#ifndef FETTLE_TESTS_OPEN_DATA_H
#define FETTLE_TESTS_OPEN_DATA_H

#include <stdint.h>
#include <stdio.h>

enum { OPEN_ITEMS_MOST = 256, BINPACK_PROBLEMS = 20, GCUT_PROBLEMS = 8 };

struct open_problem {
    char name[32];
    int64_t w, h;      /* of a sheet; strips: w is the length */
    int n, best_known; /* best_known of binpack2 only */
    int64_t item_w[OPEN_ITEMS_MOST], item_h[OPEN_ITEMS_MOST];
};

static inline FILE *open_data(const char *name)
{
    char path[1024];
    snprintf(path, sizeof path, "%s/cutting/%s", OPEN_DATA, name);
    return fopen(path, "r");
}

/* The next problem of binpack2.txt; 0: the file is not as expected. */
static inline int read_binpack(FILE *f, struct open_problem *p)
{
    long w;
    if (fscanf(f, "%31s %ld %d %d", p->name, &w, &p->n, &p->best_known) != 4 || p->n > OPEN_ITEMS_MOST)
        return 0;
    p->w = w;
    for (int i = 0; i < p->n; i++) {
        if (fscanf(f, "%ld", &w) != 1)
            return 0;
        p->item_w[i] = w;
    }
    return 1;
}

/* gcutN.txt, N from 1. -1: not here; 0: not as expected. */
static inline int read_gcut(int number, struct open_problem *p)
{
    long w, h, value;
    snprintf(p->name, sizeof p->name, "gcut%d.txt", number);
    FILE *f = open_data(p->name);
    if (!f)
        return -1;
    int ok = fscanf(f, "%d %ld %ld", &p->n, &w, &h) == 3 && p->n <= OPEN_ITEMS_MOST;
    p->w = w;
    p->h = h;
    for (int i = 0; ok && i < p->n; i++) {
        ok = fscanf(f, "%ld %ld %ld", &w, &h, &value) == 3;
        p->item_w[i] = w;
        p->item_h[i] = h;
    }
    fclose(f);
    return ok;
}

#endif
