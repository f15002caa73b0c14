/* The line is fitted about the mean setting: e = mean error + slope (set - mean setting). */
#include "proof/stop_sums.h"

#include <math.h>

struct stop_forecast stop_foretell(const struct stat_line *line, size_t n, double x)
{
    double off = x - line->mean_x, u = hypot(line->residual / sqrt((double)n), line->u_slope * off);
    return (struct stop_forecast){line->mean_y + line->slope * off, u, hypot(u, line->residual)};
}

int stop_further(double error, double scatter, size_t n, size_t lost_dof, double u_rest, double tolerance, int most)
{
    for (int more = 1; more <= most; more++) {
        double count = (double)n + more;
        const struct stat_term terms[] = {{scatter / sqrt(count), count - (double)lost_dof}, {u_rest, INFINITY}};
        double expanded = stat_expand(terms, 2, 0.95).expanded;
        if (fabs(error) + expanded <= tolerance || fabs(error) - expanded > tolerance)
            return more;
    }
    return 0;
}
