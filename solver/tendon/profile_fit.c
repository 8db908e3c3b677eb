/* profile_fit.c - see profile_fit.h.
 *
 * Within a run each piece is y = a + b t + c t^2 with t = 0 … 1 from its left row to its right one. Facts are taken in
 * the order of the rows and each is reduced by those before it: one that reduces to nothing repeats what the others
 * say already. Symbols: h length of a piece.
 * SPDX-License-Identifier: MIT */
#include "profile_fit.h"

#include "mem.h"
#include "near.h"

#include <math.h>
#include <string.h>

/* A reduced fact, scaled to one at the start, that is smaller than this is none: the numbers of a run (heights in
 * units of themselves, slopes times lengths) have condition numbers of a few hundred. */
#define FIT_NOTHING 1e-10

typedef struct fit_run {
    const profile_knot *knots; /* from the run's first row to its last */
    kl_index pieces;
    kl_index unknowns;
    kl_index *column; /* pieces + 1: first unknown of a piece */
    double *facts;   /* unknowns rows of width unknowns + 1, reduced; the pivot of row r is 1 … */
    kl_index *pivot; /* … in column pivot[r] */
    kl_index fact_count;
    double *fact;      /* the one at work, width unknowns + 1 */
    kl_index repeated; /* the row whose fact said nothing new, or KL_NONE */
} fit_run;

static bool run_ends_at(const profile_knot *knots, kl_index i)
{
    switch (knots[i].kind) {
    case KL_ROW_INFLECTION:
        return false;
    case KL_ROW_THROUGH:
        return knots[i].straight && knots[i + 1].straight;
    case KL_ROW_ANCHOR:
    case KL_ROW_HIGH:
    case KL_ROW_LOW:
    default:
        return true;
    }
}

static void run_free(fit_run *run)
{
    mem_free(run->column);
    mem_free(run->facts);
    mem_free(run->pivot);
    mem_free(run->fact);
}

static kl_status run_start(fit_run *run, const profile_knot *knots, kl_index pieces)
{
    *run = (fit_run){.knots = knots, .pieces = pieces, .repeated = KL_NONE};
    run->column = mem_array((size_t)pieces + 1, sizeof *run->column);
    if (run->column == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index p = 0; p < pieces; p++) {
        run->column[p + 1] = run->column[p] + (knots[p + 1].straight ? 2 : 3);
    }
    run->unknowns = run->column[pieces];
    const size_t n = (size_t)run->unknowns;
    run->facts = mem_array(n * (n + 1), sizeof *run->facts);
    run->pivot = mem_array(n, sizeof *run->pivot);
    run->fact = mem_array(n + 1, sizeof *run->fact);
    return run->facts == NULL || run->pivot == NULL || run->fact == NULL ? KL_NO_MEMORY : KL_OK;
}

/* Take the fact at work in: reduce it by the facts before it, keep it or note that it repeats them. */
static void run_take(fit_run *run, kl_index row)
{
    const kl_index n = run->unknowns;
    double *const f = run->fact;
    for (kl_index r = 0; r < run->fact_count; r++) {
        const double *const earlier = run->facts + (size_t)r * (size_t)(n + 1);
        const double share = f[run->pivot[r]];
        if (is_exact_zero(share)) {
            continue;
        }
        for (kl_index c = 0; c <= n; c++) {
            f[c] -= share * earlier[c];
        }
        f[run->pivot[r]] = 0.0;
    }
    kl_index best = 0;
    for (kl_index c = 1; c < n; c++) {
        best = fabs(f[c]) > fabs(f[best]) ? c : best;
    }
    if (fabs(f[best]) < FIT_NOTHING) {
        run->repeated = run->repeated == KL_NONE ? row : run->repeated;
    } else {
        double *const kept = run->facts + (size_t)run->fact_count * (size_t)(n + 1);
        for (kl_index c = 0; c <= n; c++) {
            kept[c] = f[c] / f[best];
        }
        run->pivot[run->fact_count++] = best;
    }
    memset(f, 0, (size_t)(n + 1) * sizeof *f);
}

/* Add `scale` times the height (at t = 0 or 1) of piece p to the fact at work. */
static void fact_height(fit_run *run, kl_index p, bool right, double scale)
{
    const kl_index last = right ? run->column[p + 1] : run->column[p] + 1;
    for (kl_index c = run->column[p]; c < last; c++) {
        run->fact[c] += scale; /* a + b + c, or a alone */
    }
}

/* … of dy/dt. */
static void fact_slope(fit_run *run, kl_index p, bool right, double scale)
{
    run->fact[run->column[p] + 1] += scale;
    if (right && run->column[p + 1] - run->column[p] == 3) {
        run->fact[run->column[p] + 2] += 2.0 * scale;
    }
}

/* The facts of the run's row i (0 … pieces) about one piece beside it. */
static void take_own_facts(fit_run *run, kl_index i, kl_index piece, bool right)
{
    const profile_knot *const knot = &run->knots[i];
    if (!isnan(knot->y)) {
        fact_height(run, piece, right, 1.0);
        run->fact[run->unknowns] = knot->y;
        run_take(run, i);
    }
    const bool flat = knot->kind == KL_ROW_HIGH || knot->kind == KL_ROW_LOW;
    if (flat && !run->knots[piece + 1].straight) {
        fact_slope(run, piece, right, 1.0);
        run_take(run, i);
    }
}

/* What the pieces on both sides of the run's inner row i share. */
static void take_shared_facts(fit_run *run, kl_index i)
{
    const profile_knot *const knot = &run->knots[i];
    if (isnan(knot->y)) {
        fact_height(run, i - 1, true, -1.0);
        fact_height(run, i, false, 1.0);
        run_take(run, i);
    }
    const double h_left = knot->x - knot[-1].x;
    const double h_right = knot[1].x - knot->x;
    const double h = fmin(h_left, h_right); /* so that no coefficient exceeds 2 */
    fact_slope(run, i - 1, true, -h / h_left);
    fact_slope(run, i, false, h / h_right);
    run_take(run, i);
}

static void run_take_all(fit_run *run)
{
    take_own_facts(run, 0, 0, false);
    for (kl_index i = 1; i < run->pieces; i++) {
        take_own_facts(run, i, i - 1, true);
        take_own_facts(run, i, i, false);
        take_shared_facts(run, i);
    }
    take_own_facts(run, run->pieces, run->pieces - 1, true);
}

/* Back substitution; f becomes the vector of unknowns. */
static void run_solve(fit_run *run)
{
    const kl_index n = run->unknowns;
    double *const x = run->fact;
    for (kl_index r = n - 1; r >= 0; r--) {
        const double *const row = run->facts + (size_t)r * (size_t)(n + 1);
        double value = row[n];
        for (kl_index c = 0; c < n; c++) {
            if (c != run->pivot[r]) {
                value -= row[c] * x[c]; /* x is zero where not yet known, and so is row[c] there */
            }
        }
        x[run->pivot[r]] = value;
    }
}

static void run_store(const fit_run *run, profile_knot *knots, profile_curve *curves)
{
    for (kl_index p = 0; p < run->pieces; p++) {
        const double *const x = run->fact + run->column[p];
        const double h = knots[p + 1].x - knots[p].x;
        const bool straight = knots[p + 1].straight;
        curves[p] = (profile_curve){x[0], x[1] / h, straight ? 0.0 : x[2] / (h * h)};
        if (isnan(knots[p].y)) {
            knots[p].y = x[0];
        }
    }
}

/* Which row of the run to name: the first inner one with (or without) an ordinate, else `otherwise`. */
static kl_index blame(const fit_run *run, bool with_ordinate, kl_index otherwise)
{
    for (kl_index i = 1; i < run->pieces; i++) {
        if (isnan(run->knots[i].y) != with_ordinate) {
            return i;
        }
    }
    return otherwise;
}

static void complain_too_many(const kl_model *model, kl_diags *diags, const fit_run *run)
{
    char from[PROFILE_PLACE];
    char to[PROFILE_PLACE];
    const kl_index i = blame(run, true, run->repeated);
    profile_rows_complain(model, diags, "profile-too-many-facts", &run->knots[i], "At the ",
                          " the profile is told more than its pieces can follow.");
    if (run->knots[i].kind == KL_ROW_INFLECTION || run->knots[i].kind == KL_ROW_THROUGH) {
        profile_place(model, run->knots[i].x, to);
        kl_diags_hint(
            diags,
            "write `inflection at %s` without an ordinate: its height follows from the tangents",
            to);
        return;
    }
    profile_place(model, run->knots[0].x, from);
    profile_place(model, run->knots[run->pieces].x, to);
    kl_diags_hint(diags,
                  "put an `inflection` between %s and %s: one parabola has only one flat point",
                  from, to);
}

static void complain_too_few(const kl_model *model, kl_diags *diags, const fit_run *run)
{
    char place[PROFILE_PLACE];
    const kl_index i = blame(run, false, run->pieces);
    profile_rows_complain(model, diags, "profile-too-few-facts", &run->knots[i],
                          "The piece that ends at the ",
                          " is not settled: a curve needs one more fact than its two ordinates.");
    profile_place(model, run->knots[i].x, place);
    if (i < run->pieces) {
        kl_diags_hint(diags,
                      "give the `inflection` at %s a `height`, or make one of the rows beside it "
                      "`high` or `low`",
                      place);
    } else {
        kl_diags_hint(diags,
                      "write `straight` in the row at %s, or put a `high` or `low` row before it",
                      place);
    }
}

static kl_status fit_one_run(const kl_model *model,
                             profile_knot *knots,
                             kl_index pieces,
                             kl_diags *diags,
                             profile_curve *curves)
{
    if (pieces > PROFILE_RUN_LIMIT) {
        profile_rows_complain(model, diags, "profile-too-long", &knots[PROFILE_RUN_LIMIT],
                              "Up to the ",
                              " too many rows follow one another without a flat point.");
        return KL_BAD_MODEL;
    }
    fit_run run;
    kl_status status = run_start(&run, knots, pieces);
    if (status == KL_OK) {
        run_take_all(&run);
        if (run.repeated != KL_NONE) {
            complain_too_many(model, diags, &run);
            status = KL_BAD_MODEL;
        } else if (run.fact_count < run.unknowns) {
            complain_too_few(model, diags, &run);
            status = KL_BAD_MODEL;
        } else {
            run_solve(&run);
            run_store(&run, knots, curves);
        }
    }
    run_free(&run);
    return status;
}

kl_status profile_fit(const kl_model *model,
                      profile_knot *knots,
                      kl_index count,
                      kl_diags *diags,
                      profile_curve *curves)
{
    kl_status worst = KL_OK;
    for (kl_index first = 0, i = 1; i < count; i++) {
        if (i < count - 1 && !run_ends_at(knots, i)) {
            continue;
        }
        const kl_status status =
            fit_one_run(model, &knots[first], i - first, diags, &curves[first]);
        if (status == KL_NO_MEMORY) {
            return status;
        }
        worst = status == KL_OK ? worst : status;
        first = i;
    }
    return worst;
}
