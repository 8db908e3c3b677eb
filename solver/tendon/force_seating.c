/* force_seating.c - see force_seating.h. Signs: the start's branch grows with phi (+1), the end's falls (-1).
 * SPDX-License-Identifier: MIT */
#include "force_seating.h"

#include <math.h>

/* ---- one end ------------------------------------------------------------------------------------------- */

/* Area between force and branch where the branch is lower, and its fall by unit level. */
typedef struct seat_area {
    double area;  /* integral of max(B - level exp(+-phi), 0) ds */
    double slope; /* integral of exp(+-phi) ds over the same places */
} seat_area;

static seat_area area_above(const force_cells *cells, force_branch branch)
{
    seat_area sum = {0.0, 0.0};
    for (kl_index i = 0; i < cells->count; i++) {
        force_cell parts[2];
        bool branch_larger[2];
        const int count = force_cell_divide(cells, &cells->items[i], branch, parts, branch_larger);
        for (int k = 0; k < count; k++) {
            if (!branch_larger[k]) {
                const double unit = force_cell_branch_sum(&parts[k], branch.sign);
                sum.area += force_cell_sum(&parts[k]) - branch.level * unit;
                sum.slope += unit;
            }
        }
    }
    return sum;
}

/* The area falls with the level and is convex, so that Newton's steps from level 0 approach the root from below and
 * never pass it. */
static bool find_level(const force_cells *cells, double need, force_branch *branch)
{
    branch->level = 0.0;
    for (int i = 0; i < 200; i++) {
        const seat_area now = area_above(cells, *branch);
        const double step = (now.area - need) / now.slope;
        if (!(step > 0.0)) {
            return branch->level > 0.0;
        }
        if (branch->level + step <= branch->level * (1.0 + 1e-16)) {
            break;
        }
        branch->level += step;
    }
    return branch->level > 0.0;
}

/* Walk from the seated end to the first place where the branch has reached the force. */
static void find_still(const force_cells *cells, bool at_end, force_branch branch, force_zone *zone)
{
    for (kl_index n = 0; n < cells->count; n++) {
        const force_cell *const cell = &cells->items[at_end ? cells->count - 1 - n : n];
        force_cell parts[2];
        bool larger[2];
        const int count = force_cell_divide(cells, cell, branch, parts, larger);
        if (larger[at_end ? count - 1 : 0]) {
            zone->still = at_end ? cell->to : cell->from;
            return;
        }
        if (count == 2) {
            zone->still = parts[0].to;
            return;
        }
    }
    zone->whole = true;
    zone->still = at_end ? cells->book->path->begin : cells->book->path->end;
}

bool force_seat_one(const force_cells *cells, bool at_end, double need, force_zone *zone)
{
    const force_cell *const cell = &cells->items[at_end ? cells->count - 1 : 0];
    const double phi = at_end ? cell->phi_to : cell->phi_from;
    const double force = cell->force.scale * exp(cell->force.sign * phi) + cell->force.add;
    *zone = (force_zone){.still = at_end ? cells->book->path->end : cells->book->path->begin};
    if (!(need > 0.0)) {
        zone->level = force * exp(at_end ? phi : -phi);
        return force > 0.0;
    }
    force_branch branch = {0.0, at_end ? -1 : 1};
    if (!find_level(cells, need, &branch)) {
        return false;
    }
    zone->level = branch.level;
    find_still(cells, at_end, branch, zone);
    return true;
}

/* ---- both ends, zones that meet ------------------------------------------------------------------------ */

/* Integrals from the first anchor to a place, and over the whole. */
typedef struct meet_sums {
    double force, up, down;
} meet_sums;

static meet_sums sums_add(meet_sums sum, const force_cell *cell)
{
    return (meet_sums){sum.force + force_cell_sum(cell), sum.up + cell->up, sum.down + cell->down};
}

/* Both levels when the still point is where `left` has been summed up: each side has its own set. */
static void levels_at(meet_sums left, meet_sums right, const double need[2], double level[2])
{
    level[0] = left.up > 0.0 ? (left.force - need[0]) / left.up : -(double)INFINITY;
    level[1] = right.down > 0.0 ? (right.force - need[1]) / right.down : -(double)INFINITY;
}

/* Is the start's branch still below the end's at phi, so that the still point lies further on? The start's level grows
 * and the end's falls as the point moves on, so there is one such point. */
static bool lies_beyond(const double level[2], double phi)
{
    return level[0] <= 0.0 || (level[1] > 0.0 && level[0] * exp(phi) < level[1] * exp(-phi));
}

typedef struct meet_search {
    const force_cells *cells;
    const double *need;
    meet_sums before, after; /* sums of the cells before and after the one at work */
} meet_search;

/* Halve a cell until the two branches meet. */
static double meet_in_cell(const meet_search *search, const force_cell *cell, double level[2])
{
    double low = cell->from;
    double high = cell->to;
    for (int i = 0; i < 200; i++) {
        const double x = 0.5 * (low + high);
        const force_cell first = force_cell_part(search->cells, cell, cell->from, x);
        const force_cell second = force_cell_part(search->cells, cell, x, cell->to);
        levels_at(sums_add(search->before, &first), sums_add(search->after, &second), search->need,
                  level);
        if (!(x > low && x < high)) {
            return x;
        }
        if (lies_beyond(level, first.phi_to)) {
            low = x;
        } else {
            high = x;
        }
    }
    return 0.5 * (low + high);
}

/* The sums of the cells beyond cell i. */
static meet_sums sums_beyond(const force_cells *cells, kl_index i)
{
    meet_sums sum = {0.0, 0.0, 0.0};
    for (kl_index k = cells->count - 1; k > i; k--) {
        sum = sums_add(sum, &cells->items[k]);
    }
    return sum;
}

static bool meet(const force_cells *cells, const double need[2], force_zone zone[2])
{
    meet_search search = {.cells = cells, .need = need, .before = {0.0, 0.0, 0.0}};
    double level[2] = {0.0, 0.0};
    double x = cells->book->path->end;
    for (kl_index i = 0; i < cells->count; i++) {
        const force_cell *const cell = &cells->items[i];
        search.after = sums_beyond(cells, i);
        levels_at(search.before, sums_add(search.after, cell), need, level);
        if (!lies_beyond(level, cell->phi_from)) {
            x = cell->from; /* inside the corner's step here */
            break;
        }
        const meet_sums here = sums_add(search.before, cell);
        levels_at(here, search.after, need, level);
        if (!lies_beyond(level, cell->phi_to)) {
            x = meet_in_cell(&search, cell, level);
            break;
        }
        search.before = here;
    }
    zone[0] = (force_zone){.level = level[0], .still = x};
    zone[1] = (force_zone){.level = level[1], .still = x};
    return level[0] > 0.0 && level[1] > 0.0;
}

bool force_seat_both(const force_cells *cells, const double need[2], force_zone zone[2])
{
    const bool start = force_seat_one(cells, false, need[0], &zone[0]);
    const bool end = force_seat_one(cells, true, need[1], &zone[1]);
    if (start && end && zone[0].still <= zone[1].still) {
        return true;
    }
    if (start && end && !(need[0] > 0.0 && need[1] > 0.0)) {
        return true; /* one end only moves, however far */
    }
    return need[0] > 0.0 && need[1] > 0.0 && meet(cells, need, zone);
}
