/* The table of scales: ISO 5455, and the intermediate ones that this trade draws to. */
#include "draw/scale.h"

static const struct scale scales[] = {
    {50, 1, true},  {20, 1, true},   {10, 1, true},   {5, 1, true},    {2, 1, true},    {1, 1, true},   {1, 2, true},
    {1, 2.5, false}, {1, 3, false},  {1, 4, false},   {1, 5, true},    {1, 6, false},   {1, 8, false},  {1, 10, true},
    {1, 12, false},
    {1, 15, false}, {1, 20, true},   {1, 25, false},  {1, 30, false},  {1, 40, false},  {1, 50, true},  {1, 100, true},
    {1, 200, true}, {1, 500, true},
};

size_t scale_count(void)
{
    return sizeof scales / sizeof *scales;
}

const struct scale *scale_at(size_t i)
{
    return &scales[i];
}

void scale_print(const struct scale *s, struct pool *pool, const char **out)
{
    *out = pool_printf(pool, "%g : %g", s->paper, s->model);
}
