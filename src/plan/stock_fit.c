/* Whether the stock is large enough for each part. */
#include "plan/stock_fit.h"

#include "plan/sled.h"

#include <math.h>

/* Rectangle a by b out of c by d. */
static double slack_one_way(double a, double b, double c, double d)
{
    return fmin(c - a, d - b);
}

static double slack_either_way(double a, double b, double c, double d)
{
    return fmax(slack_one_way(a, b, c, d), slack_one_way(b, a, c, d));
}

static double sheet_slack(const struct plan_part *p, double trim)
{
    double along = p->stock->sheet_along.v - 2 * trim, across = p->stock->sheet_across.v - 2 * trim;

    return p->grain_matters ? slack_one_way(p->sawn_length, p->width, along, across)
                            : slack_either_way(p->sawn_length, p->width, along, across);
}

/* A part of a strip with a width of its own is ripped and planed from it, either way up; one without is a length of it.
 */
static double strip_slack(const struct plan_part *p, double trim)
{
    const struct job_stock *s = p->stock;
    double length = s->length.given ? s->length.v - 2 * trim - p->sawn_length : INFINITY;
    double section = slack_either_way(p->width, p->thickness, s->strip_width.v, s->thickness.v);

    if (!s->length.given && section >= 0)
        return NAN;
    return fmin(length, section >= 0 ? INFINITY : section);
}

double stock_slack(const struct plan_part *p, double trim)
{
    if (!p->stock)
        return NAN;
    return p->stock->is_strip ? strip_slack(p, trim) : sheet_slack(p, trim);
}

/* Size that the stock would need, trimmed edges included. */
static struct saying larger_stock(const struct plan_part *p, const char *letter, double trim, double step)
{
    const struct job_stock *s = p->stock;
    double along = p->sawn_length, across = p->width;

    if (s->is_strip)
        return SAYING("remedy.stock.strip", SAY_STR("stock", s->name), SAY_STR("part", letter),
                      SAY_ARG("thickness", SAY_FIT, fmax(s->thickness.v, fmin(p->thickness, p->width))),
                      SAY_ARG("width", SAY_FIT, fmax(s->strip_width.v, fmax(p->thickness, p->width))),
                      SAY_ARG("length", SAY_SIZE, sled_round_up(fmax(s->length.given ? s->length.v : 0, p->sawn_length + 2 * trim), step)));
    if (!p->grain_matters && (along > across) != (s->sheet_along.v > s->sheet_across.v)) {
        along = p->width;
        across = p->sawn_length;
    }
    return SAYING("remedy.stock.sheet", SAY_STR("stock", s->name), SAY_STR("part", letter),
                  SAY_ARG("along", SAY_SIZE, sled_round_up(fmax(s->sheet_along.v, along + 2 * trim), step)),
                  SAY_ARG("across", SAY_SIZE, sled_round_up(fmax(s->sheet_across.v, across + 2 * trim), step)));
}

void stock_check_fits(struct plan_builder *b)
{
    double trim = b->job->trim.given ? b->job->trim.v : 0, least = INFINITY;
    const struct plan_part *tightest = NULL;
    struct plan_check *c;

    for (size_t i = 0; i < b->plan->n_parts; i++) {
        double slack = stock_slack(&b->plan->parts[i], trim);
        if (slack < least) { /* never for NAN */
            least = slack;
            tightest = &b->plan->parts[i];
        }
    }
    if (!tightest)
        return;
    c = build_add_check(b, CHECK_STOCK_FITS);
    c->value = isinf(least) ? NAN : least;
    c->low = 0;
    c->mark = tightest->stock->mark;
    c->verdict = least < -1e-9 ? VERDICT_FAIL : VERDICT_PASS;
    const char *letter = pool_string(&b->plan->pool, tightest->letter);
    c->why = SAYING(c->verdict == VERDICT_PASS ? "check.stock_fits.why" : "check.stock_fits.why.small",
                    SAY_STR("part", letter),
                    SAY_STR("stock", tightest->stock->name), SAY_ARG("slack", SAY_SIZE, fabs(c->value)));
    if (c->verdict != VERDICT_PASS)
        c->remedy = larger_stock(tightest, letter, trim, sled_least_edge_step(b->job->units));
}
