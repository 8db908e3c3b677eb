/* force_cells.c - see force_cells.h.
 * SPDX-License-Identifier: MIT */
#include "force_cells.h"

#include "near.h"

#include <math.h>

double force_phi(const kl_tendon *tendon, const tendon_path *path, double x, kl_side side)
{
    const path_point point = profile_at(path, x, side);
    return tendon->friction * point.alpha + tendon->wobble * point.length;
}

double force_whole_phi(const kl_tendon *tendon, const tendon_path *path)
{
    return tendon->friction * path->alpha + tendon->wobble * path->length;
}

kl_status
force_curve_of_branch(const tendon_path *path, force_branch branch, arena *a, force_curve *curve)
{
    force_piece *const piece = arena_array(a, 1, sizeof *piece);
    if (piece == NULL) {
        return KL_NO_MEMORY;
    }
    *piece = (force_piece){path->begin, path->end, branch.level, branch.sign, 0.0};
    *curve = (force_curve){piece, 1};
    return KL_OK;
}

static force_cell
cell_make(const cell_book *book, kl_index piece, double from, double to, force_piece law)
{
    const cell_sums sums = cell_book_find(book, piece, from, to);
    law.from = from;
    law.to = to;
    return (force_cell){.piece = piece,
                        .from = from,
                        .to = to,
                        .phi_from = sums.phi_from,
                        .phi_to = sums.phi_to,
                        .up = sums.up,
                        .down = sums.down,
                        .length = sums.length,
                        .force = law};
}

/* ---- cells --------------------------------------------------------------------------------------------- */

kl_status
force_cells_make(const cell_book *book, const force_curve *curve, arena *a, force_cells *cells)
{
    const tendon_path *const path = book->path;
    const size_t most = (size_t)path->piece_count + (size_t)curve->count;
    *cells = (force_cells){book, arena_array(a, most, sizeof(force_cell)), 0};
    if (cells->items == NULL) {
        return KL_NO_MEMORY;
    }
    kl_index p = 0;
    kl_index c = 0;
    double from = path->begin;
    while (p < path->piece_count && c < curve->count) {
        const double piece_to = path->pieces[p].to;
        const double curve_to = c == curve->count - 1 ? path->end : curve->pieces[c].to;
        const double to = fmin(piece_to, curve_to);
        if (to > from) {
            cells->items[cells->count++] = cell_make(book, p, from, to, curve->pieces[c]);
            from = to;
        }
        p += piece_to <= to;
        c += curve_to <= to;
    }
    return KL_OK;
}

force_cell force_cell_part(const force_cells *cells, const force_cell *cell, double from, double to)
{
    return cell_make(cells->book, cell->piece, from, to, cell->force);
}

double force_cell_place(const force_cells *cells, const force_cell *cell, double phi)
{
    double low = cell->from;
    double high = cell->to;
    const double range = cell->phi_to - cell->phi_from;
    if (!(range > 0.0)) {
        return low;
    }
    double x = low + (high - low) * (phi - cell->phi_from) / range;
    for (int i = 0; i < 100 && low < high; i++) { /* Newton, kept between the bounds by halving */
        x = x > low && x < high ? x : 0.5 * (low + high);
        const double excess = cell_phi(cells->book, cell->piece, x) - phi;
        if (excess > 0.0) {
            high = x;
        } else {
            low = x;
        }
        const double step = excess / cell_phi_rate(cells->book, cell->piece, x);
        if (!(fabs(step) > 1e-16 * (fabs(x) + cell->to - cell->from))) {
            break;
        }
        x -= step;
    }
    return fmin(fmax(x, cell->from), cell->to);
}

double force_cell_branch_sum(const force_cell *cell, int sign)
{
    return sign > 0 ? cell->up : cell->down;
}

double force_cell_sum(const force_cell *cell)
{
    return cell->force.scale * force_cell_branch_sum(cell, cell->force.sign) +
           cell->force.add * cell->length;
}

kl_status force_curve_sum(
    const cell_book *book, const force_curve *curve, double from, double to, arena *a, double *sum)
{
    *sum = 0.0;
    if (curve == NULL || curve->count == 0 || !(to > from)) {
        return KL_OK;
    }
    force_cells cells;
    KL_TRY(force_cells_make(book, curve, a, &cells));
    for (kl_index i = 0; i < cells.count; i++) {
        const force_cell *const cell = &cells.items[i];
        const double low = fmax(from, cell->from);
        const double high = fmin(to, cell->to);
        if (high > low) {
            const bool all = low <= cell->from && high >= cell->to;
            const force_cell part = all ? *cell : force_cell_part(&cells, cell, low, high);
            *sum += force_cell_sum(&part);
        }
    }
    return KL_OK;
}

/* ---- cell and branch ----------------------------------------------------------------------------------- */

/* branch - B = rising exp(phi) + falling exp(-phi) + fixed */
typedef struct cell_difference {
    double rising, falling, fixed;
} cell_difference;

static cell_difference difference_of(const force_cell *cell, force_branch branch)
{
    cell_difference d = {0.0, 0.0, -cell->force.add};
    *(branch.sign > 0 ? &d.rising : &d.falling) += branch.level;
    *(cell->force.sign > 0 ? &d.rising : &d.falling) -= cell->force.scale;
    return d;
}

static double difference_at(cell_difference d, double phi)
{
    const double growth = exp(phi);
    return d.rising * growth + d.falling / growth + d.fixed;
}

/* The positive root w = exp(phi) of rising w^2 + fixed w + falling = 0; there is one, and one only. */
static double crossing_phi(cell_difference d)
{
    if (is_exact_zero(d.rising)) {
        return log(-d.falling / d.fixed);
    }
    if (is_exact_zero(d.falling)) {
        return log(-d.fixed / d.rising);
    }
    const double root = sqrt(d.fixed * d.fixed - 4.0 * d.rising * d.falling);
    const double q = -0.5 * (d.fixed + copysign(root, d.fixed));
    const double w = q / d.rising;
    return log(w > 0.0 ? w : d.falling / q);
}

int force_cell_divide(const force_cells *cells,
                      const force_cell *cell,
                      force_branch branch,
                      force_cell parts[2],
                      bool branch_larger[2])
{
    const cell_difference d = difference_of(cell, branch);
    const bool larger_from = difference_at(d, cell->phi_from) > 0.0;
    const bool larger_to = difference_at(d, cell->phi_to) > 0.0;
    parts[0] = *cell;
    branch_larger[0] = larger_from;
    if (larger_from == larger_to) {
        return 1;
    }
    const double phi = fmin(fmax(crossing_phi(d), cell->phi_from), cell->phi_to);
    const double x = force_cell_place(cells, cell, phi);
    if (x > cell->from && x < cell->to) {
        parts[0] = force_cell_part(cells, cell, cell->from, x);
        parts[1] = force_cell_part(cells, cell, x, cell->to);
        branch_larger[1] = larger_to;
        return 2;
    }
    branch_larger[0] = x > cell->from ? larger_from : larger_to;
    return 1;
}

static bool same_law(const force_piece *a, const force_piece *b)
{
    return a->sign == b->sign && is_exact_zero(a->scale - b->scale) &&
           is_exact_zero(a->add - b->add);
}

kl_status force_cells_envelope(
    const force_cells *cells, force_branch branch, bool take_larger, arena *a, force_curve *curve)
{
    force_piece *const pieces = arena_array(a, 2 * (size_t)cells->count, sizeof *pieces);
    if (pieces == NULL) {
        return KL_NO_MEMORY;
    }
    kl_index n = 0;
    for (kl_index i = 0; i < cells->count; i++) {
        force_cell parts[2];
        bool branch_larger[2];
        const int count = force_cell_divide(cells, &cells->items[i], branch, parts, branch_larger);
        for (int k = 0; k < count; k++) {
            force_piece next = parts[k].force;
            if (branch_larger[k] == take_larger) {
                next = (force_piece){next.from, next.to, branch.level, branch.sign, 0.0};
            }
            if (n > 0 && same_law(&pieces[n - 1], &next)) {
                pieces[n - 1].to = next.to;
            } else {
                pieces[n++] = next;
            }
        }
    }
    *curve = (force_curve){pieces, n};
    return KL_OK;
}

/* ---- jacks ----------------------------------------------------------------------------------------------- */

force_branch force_branch_of_pull(const cell_book *book, double pull, bool at_end)
{
    return at_end ? (force_branch){pull * exp(-force_whole_phi(book->tendon, book->path)), 1}
                  : (force_branch){pull, -1};
}

double force_at_anchor(const cell_book *book, const force_curve *curve, bool at_end)
{
    if (curve->count == 0) {
        return 0.0;
    }
    return force_at(book->tendon, book->path, curve, at_end ? book->path->end : book->path->begin,
                    at_end ? KL_LEFT : KL_RIGHT);
}

kl_status force_curve_raise(const cell_book *book,
                            const force_curve *curve,
                            force_branch branch,
                            arena *a,
                            force_curve *raised)
{
    if (curve->count == 0) {
        return force_curve_of_branch(book->path, branch, a, raised);
    }
    force_cells cells;
    KL_TRY(force_cells_make(book, curve, a, &cells));
    return force_cells_envelope(&cells, branch, true, a, raised);
}
