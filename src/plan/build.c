/* Growing the lists of a plan. */
#include "plan/build.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* One more zeroed place in an array that lives in the pool; old copies stay there until the plan is freed. */
static void *grow_list(struct pool *pool, void **list, size_t *n, size_t *capacity, size_t element)
{
    if (*n == *capacity) {
        size_t more = *capacity ? *capacity * 2 : 8;
        char *bigger = pool_alloc(pool, more * element);
        if (*n > 0)
            memcpy(bigger, *list, *n * element);
        *list = bigger;
        *capacity = more;
    }
    return (char *)*list + (*n)++ * element;
}

/* No two parts of a list, of a thousand at most, have the same. */
static void print_letter(size_t index, char letter[4])
{
    enum { ALPHABET = 26 };
    const size_t pairs = ALPHABET * ALPHABET;
    size_t i = index - 2 * ALPHABET;

    if (index < 2 * ALPHABET)
        snprintf(letter, 4, "%c", (int)(index < ALPHABET ? 'A' + index : 'a' + index - ALPHABET));
    else if (i < pairs)
        snprintf(letter, 4, "%c%c", (int)('A' + i / ALPHABET), (int)('A' + i % ALPHABET));
    else
        snprintf(letter, 4, "%c%c%c", (int)('A' + (i / pairs - 1) % ALPHABET), (int)('A' + i / ALPHABET % ALPHABET), (int)('A' + i % ALPHABET));
}

struct plan_part *build_add_part(struct plan_builder *b)
{
    void *list = b->plan->parts;
    struct plan_part *p = grow_list(&b->plan->pool, &list, &b->plan->n_parts, &b->part_capacity, sizeof *p);

    b->plan->parts = list;
    print_letter(b->plan->n_parts - 1, p->letter);
    return p;
}

struct plan_check *build_add_check(struct plan_builder *b, enum check_id id)
{
    static const enum check_unit units[CHECKS] = {
#define CHECK(id, name, unit, say) [CHECK_##id] = unit,
#include "plan/checks.inc"
#undef CHECK
    };
    void *list = b->plan->checks;
    struct plan_check *c = grow_list(&b->plan->pool, &list, &b->plan->n_checks, &b->check_capacity, sizeof *c);

    b->plan->checks = list;
    c->id = id;
    c->unit = units[id];
    c->value = c->low = c->high = c->fail_low = c->fail_high = NAN;
    return c;
}

struct plan_step *build_add_step(struct plan_builder *b)
{
    void *list = b->plan->steps;
    struct plan_step *s = grow_list(&b->plan->pool, &list, &b->plan->n_steps, &b->step_capacity, sizeof *s);

    b->plan->steps = list;
    s->parts = "";
    return s;
}

struct plan_assumed *build_add_assumed(struct plan_builder *b, struct saying what)
{
    void *list = b->plan->assumed;
    struct plan_assumed *a = grow_list(&b->plan->pool, &list, &b->plan->n_assumed, &b->assumed_capacity, sizeof *a);

    b->plan->assumed = list;
    a->what = what;
    return a;
}

struct plan_hole *build_add_hole(struct plan_builder *b)
{
    void *list = b->plan->holes;
    struct plan_hole *h = grow_list(&b->plan->pool, &list, &b->plan->n_holes, &b->hole_capacity, sizeof *h);

    b->plan->holes = list;
    return h;
}

struct plan_need *build_add_need(struct plan_builder *b)
{
    void *list = b->plan->needs;
    struct plan_need *n = grow_list(&b->plan->pool, &list, &b->plan->n_needs, &b->need_capacity, sizeof *n);

    b->plan->needs = list;
    return n;
}

const struct plan_hole *build_stop_screw(const struct plan *plan)
{
    const struct plan_hole *pivot = NULL;

    for (size_t i = 0; i < plan->n_holes; i++) {
        if (plan->holes[i].from_above) /* a runner's */
            return &plan->holes[i];
        if (plan->holes[i].role == HOLE_PIVOT)
            pivot = &plan->holes[i];
    }
    return pivot;
}

const struct plan_hole *build_cover_screw(const struct plan *plan)
{
    const struct plan_hole *pivot = NULL;

    for (size_t i = 0; i < plan->n_holes; i++) {
        if (plan->holes[i].role == HOLE_FIXED && !plan->holes[i].from_above)
            return &plan->holes[i];
        if (plan->holes[i].role == HOLE_PIVOT)
            pivot = &plan->holes[i];
    }
    return pivot;
}

const struct plan_part *build_find_part(const struct plan *plan, enum part_kind kind)
{
    for (size_t i = 0; i < plan->n_parts; i++)
        if (plan->parts[i].kind == kind)
            return &plan->parts[i];
    return NULL;
}
