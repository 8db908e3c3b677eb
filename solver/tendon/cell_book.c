/* cell_book.c - see cell_book.h.
 * SPDX-License-Identifier: MIT */
#include "cell_book.h"

#include "near.h"
#include "path_piece.h"

#include <math.h>

/* One stressing asks for some six parts of a piece at most that it comes back to. */
#define CELL_PAGE 8

struct cell_page {
    cell_sums cells[CELL_PAGE];
    int count; /* ever written; the oldest gives way */
};

/* ---- phi within one piece of the path ------------------------------------------------------------------ */

/* phi where the piece is `length` long from its start to X. */
static double phi_after(const cell_book *book, const path_piece *p, double x, double length)
{
    return book->tendon->friction * (p->alpha + path_piece_alpha(p, x - p->from)) +
           book->tendon->wobble * (p->length + length);
}

double cell_phi(const cell_book *book, kl_index piece, double x)
{
    const path_piece *const p = &book->path->pieces[piece];
    return phi_after(book, p, x, path_piece_length(p, x - p->from));
}

double cell_phi_rate(const cell_book *book, kl_index piece, double x)
{
    const path_piece *const p = &book->path->pieces[piece];
    const double t = x - p->from;
    return book->tendon->friction * path_piece_alpha_rate(p, t) +
           book->tendon->wobble * path_piece_length_rate(p, t);
}

/* ---- integrals ------------------------------------------------------------------------------------------ */

/* expm1(z)/z, smooth at zero */
static double mean_growth(double z)
{
    return fabs(z) < 1e-5 ? 1.0 + z * (0.5 + z / 6.0) : expm1(z) / z;
}

/* phi grows evenly with s: closed form. */
static void integrate_straight(cell_sums *cell)
{
    const double z = cell->phi_to - cell->phi_from;
    cell->up = cell->length * exp(cell->phi_from) * mean_growth(z);
    cell->down = cell->length * exp(-cell->phi_from) * mean_growth(-z);
}

static void integrate_curved(const cell_book *book, kl_index piece, cell_sums *cell)
{
    const path_piece *const p = &book->path->pieces[piece];
    const double z = cell->phi_to - cell->phi_from;
    const kl_index panels =
        path_piece_panels(p, cell->from - p->from, cell->to - p->from) + (kl_index)fmin(z, 64.0);
    const double half = 0.5 * (cell->to - cell->from) / (double)panels;
    double up = 0.0;
    double down = 0.0;
    for (kl_index k = 0; k < panels; k++) {
        const double middle = cell->from + half * (double)(2 * k + 1);
        for (int g = 0; g < PATH_GAUSS; g++) {
            const double x = middle + half * path_gauss_place[g];
            const double ds = path_gauss_weight[g] * path_piece_length_rate(p, x - p->from);
            const double growth = exp(cell_phi(book, piece, x));
            up += ds * growth;
            down += ds / growth;
        }
    }
    cell->up = half * up;
    cell->down = half * down;
}

static cell_sums integrate(const cell_book *book, kl_index piece, double from, double to)
{
    const path_piece *const p = &book->path->pieces[piece];
    const double length_from = path_piece_length(p, from - p->from);
    const double length_to = path_piece_length(p, to - p->from);
    cell_sums cell = {.from = from,
                      .to = to,
                      .phi_from = phi_after(book, p, from, length_from),
                      .phi_to = phi_after(book, p, to, length_to),
                      .length = length_to - length_from};
    if (path_piece_is_straight(p)) {
        integrate_straight(&cell);
    } else {
        integrate_curved(book, piece, &cell);
    }
    return cell;
}

/* ---- the book ------------------------------------------------------------------------------------------- */

kl_status
cell_book_make(const kl_tendon *tendon, const tendon_path *path, arena *a, cell_book *book)
{
    *book = (cell_book){tendon, path, arena_array(a, (size_t)path->piece_count, sizeof(cell_page))};
    return book->pages != NULL ? KL_OK : KL_NO_MEMORY;
}

cell_sums cell_book_find(const cell_book *book, kl_index piece, double from, double to)
{
    cell_page *const page = &book->pages[piece];
    for (int i = 0; i < page->count && i < CELL_PAGE; i++) {
        const cell_sums *const kept = &page->cells[i];
        if (is_exact_zero(kept->from - from) && is_exact_zero(kept->to - to)) {
            return *kept;
        }
    }
    return page->cells[page->count++ % CELL_PAGE] = integrate(book, piece, from, to);
}
