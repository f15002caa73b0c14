/* Optimal string alignment distance: Levenshtein's with swaps of neighbours (common practice), over bytes. */
#include "job/guess.h"

#include <ctype.h>
#include <string.h>

enum { LONGEST = 40 }; /* longer names are not guessed at */

static size_t least_of(size_t a, size_t b, size_t c)
{
    size_t m = a < b ? a : b;
    return m < c ? m : c;
}

static int lower(char c)
{
    return tolower((unsigned char)c);
}

static size_t distance_between(const char *a, size_t n, const char *b, size_t m)
{
    size_t d[LONGEST + 1][LONGEST + 1];
    for (size_t i = 0; i <= n; i++)
        d[i][0] = i;
    for (size_t k = 0; k <= m; k++)
        d[0][k] = k;
    for (size_t i = 1; i <= n; i++) {
        for (size_t k = 1; k <= m; k++) {
            size_t change = lower(a[i - 1]) != lower(b[k - 1]);
            d[i][k] = least_of(d[i - 1][k] + 1, d[i][k - 1] + 1, d[i - 1][k - 1] + change);
            if (i > 1 && k > 1 && lower(a[i - 1]) == lower(b[k - 2]) && lower(a[i - 2]) == lower(b[k - 1]) &&
                d[i - 2][k - 2] + 1 < d[i][k])
                d[i][k] = d[i - 2][k - 2] + 1;
        }
    }
    return d[n][m];
}

void guess_offer(struct guess *g, const char *name)
{
    size_t n = strlen(g->wanted), m = strlen(name);
    if (n > LONGEST || m > LONGEST)
        return;
    size_t d = distance_between(g->wanted, n, name, m), most = (n > m ? n : m) / 3;
    if (d <= (most ? most : 1) && d < m && (!g->best || d < g->distance)) {
        g->best = name;
        g->distance = d;
    }
}
