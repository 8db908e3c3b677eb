/* nonnegative.c - see nonnegative.h.
 * SPDX-License-Identifier: MIT */
#include "nonnegative.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>

/* Columns of A may be nearly dependent; this share of the diagonal keeps the Cholesky factor real, and moves the
 * residual by no more than its square root. */
#define RIDGE 1e-13

/* A gradient below this share of the largest entry of A'b is rounding. */
#define GRADIENT_NOISE 1e-12

typedef struct nonnegative {
    int n;
    const double *gram, *rhs;
    bool is_free[NONNEGATIVE_MAX]; /* the others are held at 0 */
    double trial[NONNEGATIVE_MAX];
} nonnegative;

/* Solve the free unknowns without bounds, by Cholesky of their part of A'A, into `trial`. */
static void solve_free(nonnegative *p)
{
    double l[NONNEGATIVE_MAX][NONNEGATIVE_MAX] = {{0.0}}, y[NONNEGATIVE_MAX];
    int at[NONNEGATIVE_MAX], m = 0;
    for (int i = 0; i < p->n; i++) {
        p->trial[i] = 0.0;
        if (p->is_free[i]) {
            at[m++] = i;
        }
    }
    for (int i = 0; i < m; i++) {
        for (int j = 0; j <= i; j++) {
            double sum = p->gram[at[i] * p->n + at[j]] * (i == j ? 1.0 + RIDGE : 1.0);
            for (int k = 0; k < j; k++) {
                sum -= l[i][k] * l[j][k];
            }
            l[i][j] =
                i == j ? sqrt(fmax(sum, RIDGE * p->gram[at[i] * p->n + at[i]])) : sum / l[j][j];
        }
        y[i] = p->rhs[at[i]];
        for (int k = 0; k < i; k++) {
            y[i] -= l[i][k] * y[k];
        }
        y[i] /= l[i][i];
    }
    for (int i = m - 1; i >= 0; i--) {
        for (int k = i + 1; k < m; k++) {
            y[i] -= l[k][i] * p->trial[at[k]];
        }
        p->trial[at[i]] = y[i] / l[i][i];
    }
}

/* The held unknown whose growth lowers the residual fastest; -1: none does. */
static int steepest(const nonnegative *p, const double *x)
{
    double largest = 0.0;
    for (int i = 0; i < p->n; i++) {
        largest = fmax(largest, fabs(p->rhs[i]));
    }
    double best = GRADIENT_NOISE * largest;
    int found = -1;
    for (int i = 0; i < p->n; i++) {
        double gradient = p->rhs[i];
        for (int j = 0; j < p->n; j++) {
            gradient -= p->gram[i * p->n + j] * x[j];
        }
        if (!p->is_free[i] && gradient > best) {
            best = gradient;
            found = i;
        }
    }
    return found;
}

/* Go from x toward the trial as far as no unknown turns negative; hold those that reach 0. False: went all the way. */
static bool retreat(nonnegative *p, double *x)
{
    double share = 1.0;
    bool is_blocked = false;
    for (int i = 0; i < p->n; i++) {
        if (p->is_free[i] && p->trial[i] <= 0.0) {
            share = fmin(share, x[i] / (x[i] - p->trial[i]));
            is_blocked = true;
        }
    }
    for (int i = 0; i < p->n; i++) {
        const bool goes = p->is_free[i] && p->trial[i] <= 0.0;
        const double moved = x[i] + share * (p->trial[i] - x[i]);
        const bool reached = goes && x[i] <= share * (x[i] - p->trial[i]) * (1.0 + 1e-12);
        x[i] = reached || !p->is_free[i] ? 0.0 : moved;
        p->is_free[i] = p->is_free[i] && !reached;
    }
    return is_blocked;
}

void nonnegative_solve(int n, const double *gram, const double *rhs, double *x)
{
    assert(n <= NONNEGATIVE_MAX);
    nonnegative p = {.n = n, .gram = gram, .rhs = rhs};
    for (int i = 0; i < n; i++) {
        x[i] = 0.0;
    }
    for (int round = 0; round < 3 * n; round++) {
        const int entering = steepest(&p, x);
        if (entering < 0) {
            return;
        }
        p.is_free[entering] = true;
        solve_free(&p);
        for (int inner = 0; inner < n && retreat(&p, x); inner++) {
            solve_free(&p);
        }
    }
}
