/* Statistics: sums in two passes, so that a small spread of large numbers keeps its digits; Student's t by the
   incomplete beta function; what the GUM does with standard uncertainties. Clauses of the GUM (JCGM 100:2008) and of
   JCGM 106:2012 are cited from memory. */
#include "proof/statistics.h"

#include <assert.h>
#include <math.h>

#define SQRT_PI 1.77245385090551602730
#define SQRT_TWO_PI 2.50662827463100050242

/* Effective degrees of freedom that differ from a whole number only by the last bits count as that number. */
#define WHOLE_SLACK 1e-9

/* Above this the tail of Student's t goes by a transformation to the normal distribution. */
#define MANY 3000

double stat_mean(const double *x, size_t n)
{
    assert(n >= 1 && "a mean needs a value");
    double sum = 0, rest = 0;
    for (size_t i = 0; i < n; i++)
        sum += x[i];
    for (size_t i = 0; i < n; i++)
        rest += x[i] - sum / (double)n;
    return sum / (double)n + rest / (double)n;
}

double stat_sum_of_squares(const double *x, size_t n)
{
    double mean = stat_mean(x, n), squares = 0, rest = 0;
    for (size_t i = 0; i < n; i++) {
        squares += (x[i] - mean) * (x[i] - mean);
        rest += x[i] - mean;
    }
    return fmax(0, squares - rest * rest / (double)n);
}

/* GUM 4.2.2, equation (4). */
double stat_deviation(const double *x, size_t n)
{
    return n < 2 ? NAN : sqrt(stat_sum_of_squares(x, n) / (double)(n - 1));
}

double stat_normal_cdf(double z)
{
    return 0.5 * erfc(-z / sqrt(2));
}

/* Gamma(a + 1/2) / Gamma(a), a > 0: the series in 1/a (from memory; the tests compare with tgamma), lifted to where it
   holds to the last digit by Gamma(a + 1) = a Gamma(a). The library's lgamma is not used: of two large logarithms only
   the difference counts, and it writes to a variable that all threads share. */
static double gamma_half_ratio(double a)
{
    static const double term[] = {1, -1.0 / 8, 1.0 / 128, 5.0 / 1024, -21.0 / 32768, -399.0 / 262144, 869.0 / 4194304};
    double lifted = 1, sum = 0;
    for (; a < 40; a++)
        lifted *= a / (a + 0.5);
    for (size_t i = sizeof term / sizeof *term; i-- > 0;)
        sum = sum / a + term[i];
    return lifted * sqrt(a) * sum;
}

/* The continued fraction of the incomplete beta function, DLMF 8.17.22, by Lentz's method (both from memory). */
static double beta_fraction(double a, double b, double x)
{
    enum { MOST_STEPS = 10000 };
    const double tiny = 1e-300;
    double f = 1, c = 1, d = 0;
    for (int i = 1; i < MOST_STEPS; i++) {
        double m = i / 2;
        double term = i % 2 ? -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
                            : m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
        d = 1 + term * d;
        d = 1 / (fabs(d) < tiny ? tiny : d);
        c = 1 + term / c;
        c = fabs(c) < tiny ? tiny : c;
        f *= c * d;
        if (fabs(c * d - 1) < 1e-16)
            break;
    }
    return 1 / f;
}

/* P(T > t) for t >= 0 and many degrees of freedom, where 1 - x has lost its digits: Hill's normalising transformation
   (CACM algorithm 395, 1970, from memory; the tests compare with R's library). */
static double student_tail_of_many(double t, double dof)
{
    double a = dof - 0.5, b = 48 * a * a, y = a * log1p(t * t / dof);
    double z = (((((-0.4 * y - 3.3) * y - 24) * y - 85.5) / (0.8 * y * y + 100 + b) + y + 3) / b + 1) * sqrt(y);
    return stat_normal_cdf(-z);
}

/* P(T > t) for t >= 0, as half of an incomplete beta function: in x = dof/(dof + t t) for the tail, in y = 1 - x for
   the middle, whichever fraction converges (Abramowitz and Stegun 26.5.27, from memory). */
static double student_tail(double t, double dof)
{
    if (t == 0)
        return 0.5;
    if (dof > MANY)
        return isinf(dof) ? stat_normal_cdf(-t) : student_tail_of_many(t, dof);
    double q = t / sqrt(dof), square = q * q, a = dof / 2, x = 1 / (1 + square), y = 1 / (1 + 1 / square);
    double front = exp(-a * log1p(square)) * sqrt(y) * gamma_half_ratio(a) / SQRT_PI; /* x^a y^(1/2) / B(a, 1/2) */
    if (x < (a + 1) / (a + 2.5))
        return 0.5 * front / a * beta_fraction(a, 0.5, x);
    return 0.5 - front * beta_fraction(0.5, a, y);
}

static double student_density(double t, double dof)
{
    if (isinf(dof))
        return exp(-t * t / 2) / SQRT_TWO_PI;
    double q = t / sqrt(dof);
    return gamma_half_ratio(dof / 2) / (sqrt(dof) * SQRT_PI) * exp(-(dof + 1) / 2 * log1p(q * q));
}

/* The t >= 0 with P(T > t) = p, 0 < p <= 1/2: Newton's steps between logarithms, where the tail is nearly straight,
   held between bounds that close in. */
static double student_upper_point(double p, double dof)
{
    double low = 0, high = 1;
    while (student_tail(high, dof) > p && high < 1e300) {
        low = high;
        high *= 2;
    }
    double t = (low + high) / 2;
    for (int i = 0; i < 200; i++) {
        double tail = student_tail(t, dof);
        *(tail > p ? &low : &high) = t;
        double next = t * exp(log(tail / p) * tail / (t * student_density(t, dof)));
        if (!(next > low && next < high))
            next = (low + high) / 2;
        if (fabs(next - t) <= 2e-16 * t)
            break;
        t = next;
    }
    return t;
}

double stat_student_cdf(double t, double dof)
{
    assert(dof > 0 && "degrees of freedom");
    return t > 0 ? 1 - student_tail(t, dof) : student_tail(-t, dof);
}

double stat_student_quantile(double p, double dof)
{
    assert(p > 0 && p < 1 && dof > 0 && "a quantile inside the distribution");
    if (p == 0.5)
        return 0;
    return p > 0.5 ? student_upper_point(1 - p, dof) : -student_upper_point(p, dof);
}

double stat_normal_quantile(double p)
{
    return stat_student_quantile(p, INFINITY);
}

/* GUM 5.1.2, equation (10); G.4.1, equation (G.2b). */
struct stat_term stat_combine(const struct stat_term *terms, size_t n)
{
    double square = 0, share = 0;
    for (size_t i = 0; i < n; i++)
        square += terms[i].u * terms[i].u;
    for (size_t i = 0; i < n; i++) {
        double part = square > 0 ? terms[i].u * terms[i].u / square : 0;
        share += part * part / terms[i].dof;
    }
    return (struct stat_term){.u = sqrt(square), .dof = share > 0 ? 1 / share : INFINITY};
}

/* GUM G.4.1: effective degrees of freedom are truncated to the next lower whole number. */
double stat_whole_dof(double dof)
{
    return isinf(dof) ? dof : fmax(1, floor(dof + WHOLE_SLACK));
}

/* GUM 6.2.1 and G.3.2: U = k u, k = t of the level. */
struct stat_budget stat_expand(const struct stat_term *terms, size_t n, double level)
{
    struct stat_term all = stat_combine(terms, n);
    double k = stat_student_quantile((1 + level) / 2, stat_whole_dof(all.dof));
    return (struct stat_budget){.u = all.u, .dof = all.dof, .factor = k, .expanded = k * all.u};
}

/* JCGM 106:2012, 7.4, with Student's t for the normal distribution. */
double stat_conformance(double value, struct stat_term u, double tolerance)
{
    if (!(u.u > 0))
        return fabs(value) <= tolerance;
    double dof = stat_whole_dof(u.dof);
    return stat_student_cdf((tolerance - value) / u.u, dof) - stat_student_cdf((-tolerance - value) / u.u, dof);
}

/* Sums about the means, GUM H.3.2 with its origin moved to the mean of x, where slope and height do not depend on each
   other (H.3.4). */
struct stat_line stat_fit_line(const double *x, const double *y, size_t n)
{
    assert(n >= 2 && "a line needs two points");
    double mean_x = stat_mean(x, n), mean_y = stat_mean(y, n), xx = 0, xy = 0, rest = 0;
    for (size_t i = 0; i < n; i++) {
        xx += (x[i] - mean_x) * (x[i] - mean_x);
        xy += (x[i] - mean_x) * (y[i] - mean_y);
    }
    assert(xx > 0 && "a line needs two places");
    double slope = xy / xx;
    for (size_t i = 0; i < n; i++) {
        double off = y[i] - mean_y - slope * (x[i] - mean_x);
        rest += off * off;
    }
    double dof = (double)n - 2, residual = n > 2 ? sqrt(rest / dof) : NAN;
    return (struct stat_line){mean_x, mean_y, slope, residual, residual / sqrt(xx), dof};
}
