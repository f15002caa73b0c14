/* The table of materials. */
#include "job/material.h"

#include <math.h>
#include <string.h>

static const struct material materials[] = {
#define SOLID(name, density, stiffness, radial, tangential)                                                            \
    {name, MATERIAL_SOLID, density, stiffness, radial, tangential, NAN},
#define PANEL(name, form, density, stiffness, movement) {name, form, density, stiffness, NAN, NAN, movement},
#define THICKNESS(name, thickness, stiffness)
#include "job/materials.inc"
#undef SOLID
#undef PANEL
#undef THICKNESS
    {"other", MATERIAL_OTHER, NAN, NAN, NAN, NAN, NAN}, /* the job states them */
};

static const struct by_thickness {
    const char *name;
    double thickness, stiffness;
} by_thickness[] = {
#define SOLID(name, density, stiffness, radial, tangential)
#define PANEL(name, form, density, stiffness, movement)
#define THICKNESS(name, thickness, stiffness) {name, thickness, stiffness},
#include "job/materials.inc"
#undef SOLID
#undef PANEL
#undef THICKNESS
};

enum {
    N_MATERIALS = sizeof materials / sizeof *materials,
    N_BY_THICKNESS = sizeof by_thickness / sizeof *by_thickness
};

const struct material *material_find(const char *name)
{
    for (size_t i = 0; i < N_MATERIALS; i++)
        if (strcmp(materials[i].name, name) == 0)
            return &materials[i];
    return NULL;
}

const char *material_name(size_t i)
{
    return i < N_MATERIALS ? materials[i].name : NULL;
}

void material_guess(struct guess *g)
{
    for (size_t i = 0; i < N_MATERIALS; i++)
        guess_offer(g, materials[i].name);
}

/* Between listed thicknesses on the straight line, beyond them as the last. */
double material_stiffness(const struct material *m, double thickness)
{
    const struct by_thickness *below = NULL;
    for (size_t i = 0; i < N_BY_THICKNESS; i++) {
        const struct by_thickness *row = &by_thickness[i];
        if (!m->name || strcmp(row->name, m->name) != 0)
            continue;
        if (row->thickness >= thickness && below)
            return below->stiffness + (row->stiffness - below->stiffness) * (thickness - below->thickness) /
                                          (row->thickness - below->thickness);
        if (row->thickness >= thickness)
            return row->stiffness;
        below = row;
    }
    return below ? below->stiffness : m->stiffness;
}
