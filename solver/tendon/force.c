/* force.c - see force.h. Jacking puts the larger of what is in the tendon and of what the jack delivers past the
 * friction; seating (force_seating) turns friction round near the anchor.
 * SPDX-License-Identifier: MIT */
#include "force.h"

#include "elongation.h"
#include "force_seating.h"

#include <math.h>
#include <stdlib.h>

/* exp(-phi) beyond this leaves nothing (2e-22) and would end in overflow. */
#define FORCE_MOST_PHI 50.0

/* One stressing at work. */
typedef struct force_work {
    const kl_tendon *tendon;
    const tendon_path *path;
    cell_book book;
    arena *a;
    double pull;          /* N in the tendon just inside the anchor */
    double rigidity;      /* E A of one tendon, N */
    double phi;           /* of the whole tendon */
    force_curve curve;    /* now in the tendon; count 0: slack */
    force_curve before;   /* before the last seating */
    force_curve unseated; /* as if no anchor had seated yet */
    bool pulled[2];       /* that end moved */
    force_record *record;
} force_work;

/* ---- jacking ------------------------------------------------------------------------------------------- */

static force_branch pull_branch(const force_work *work, bool at_end)
{
    return force_branch_of_pull(&work->book, work->pull, at_end);
}

static kl_status
raise_to(const force_work *work, const force_curve *old, bool at_end, force_curve *raised)
{
    return force_curve_raise(&work->book, old, pull_branch(work, at_end), work->a, raised);
}

/* Where two equal jacks meet: phi is half the whole; the middle of that place where phi does not grow. */
static kl_status middle_of_pulls(const force_work *work, double *x)
{
    force_cells cells;
    force_curve any;
    KL_TRY(force_curve_of_branch(work->path, pull_branch(work, false), work->a, &any));
    KL_TRY(force_cells_make(&work->book, &any, work->a, &cells));
    const double half = 0.5 * work->phi;
    double first = work->path->end;
    double last = work->path->begin;
    for (kl_index i = 0; i < cells.count; i++) {
        const force_cell *const cell = &cells.items[i];
        const double slack = 1e-14 * work->phi;
        if (cell->phi_to < half - slack || cell->phi_from > half + slack) {
            last = cell->phi_to < half ? cell->to : last;
            first = cell->phi_from > half ? fmin(first, cell->from) : first;
            continue;
        }
        const bool level = cell->phi_to - cell->phi_from <= slack;
        const double at = force_cell_place(&cells, cell, half);
        first = fmin(first, level ? cell->from : at);
        last = fmax(last, level ? cell->to : at);
    }
    *x = 0.5 * (first + last);
    return KL_OK;
}

/* An end moves when its jack pulls harder than the anchor holds already. */
static void find_pulled(force_work *work, const bool ends[2])
{
    for (int e = 0; e < 2; e++) {
        work->pulled[e] =
            ends[e] && work->pull > force_at_anchor(&work->book, &work->curve, e == 1);
    }
}

/* Book the draw of a pulled end, at full force and at the force of the first reading. */
static kl_status book_elongation(force_work *work, const force_draw *draw, int e)
{
    force_record *const r = work->record;
    const double reference = work->tendon->reference;
    r->draw[e] = *draw;
    KL_TRY(
        elongation_of(&work->book, work->rigidity, draw, &work->curve, work->a, &r->elongation[e]));
    return reference > 0.0 ? elongation_at(&work->book, work->rigidity, draw, e == 1,
                                           reference * work->pull, work->a, &r->at_reference[e])
                           : KL_OK;
}

/* Pull one end, or both at once; between two jacks the tendon stands still in the middle of the friction. */
static kl_status jack(force_work *work, const bool ends[2])
{
    const force_curve old = work->curve;
    find_pulled(work, ends);
    double still = work->pulled[0] ? work->path->end : work->path->begin;
    if (work->pulled[0] && work->pulled[1]) {
        KL_TRY(middle_of_pulls(work, &still));
    }
    for (int e = 0; e < 2; e++) {
        if (work->pulled[e]) {
            KL_TRY(raise_to(work, &work->curve, e == 1, &work->curve));
        }
    }
    const force_draw draws[2] = {{old, work->path->begin, still}, {old, still, work->path->end}};
    for (int e = 0; e < 2; e++) {
        if (work->pulled[e]) {
            KL_TRY(book_elongation(work, &draws[e], e));
        }
    }
    work->before = work->curve;
    return KL_OK;
}

/* Follow the jacks past what has been seated: friction alone. */
static kl_status raise_unseated(force_work *work, bool nothing_seated)
{
    if (nothing_seated) {
        work->unseated = work->curve;
        return KL_OK;
    }
    for (int e = 0; e < 2; e++) {
        if (work->pulled[e]) {
            KL_TRY(raise_to(work, &work->unseated, e == 1, &work->unseated));
        }
    }
    return KL_OK;
}

/* ---- seating ------------------------------------------------------------------------------------------- */

static kl_status refuse_seating(const force_work *work, kl_diags *diags)
{
    kl_diags_add(diags, KL_ERROR, "seating-leaves-no-force", work->tendon->origin,
                 "Seating of the wedges would take all the force out of tendon %s: it is too "
                 "short for its set.",
                 work->tendon->name);
    kl_diags_hint(diags, "use bars or shims, or give the set that remains after shimming");
    return KL_BAD_MODEL;
}

static void note_zone(force_work *work, int e, force_zone zone)
{
    const double from = e == 0 ? work->path->begin : work->path->end;
    work->record->still[e] = zone.still;
    work->record->seating_length[e] = fabs(zone.still - from);
    work->record->reaches_far_end = work->record->reaches_far_end || zone.whole;
}

/* Beyond the still point of zones that meet the other end's branch holds: two pieces, nothing else. */
static kl_status meeting_curve(force_work *work, const force_zone zone[2])
{
    force_piece *const pieces = arena_array(work->a, 2, sizeof *pieces);
    if (pieces == NULL) {
        return KL_NO_MEMORY;
    }
    const double x = zone[0].still;
    pieces[0] = (force_piece){work->path->begin, x, zone[0].level, 1, 0.0};
    pieces[1] = (force_piece){x, work->path->end, zone[1].level, -1, 0.0};
    work->curve = (force_curve){pieces, 2};
    return KL_OK;
}

static kl_status lower_to(force_work *work, force_branch branch)
{
    force_cells cells;
    KL_TRY(force_cells_make(&work->book, &work->curve, work->a, &cells));
    return force_cells_envelope(&cells, branch, false, work->a, &work->curve);
}

/* Seat the ends that were pulled. */
static kl_status seat(force_work *work, kl_diags *diags)
{
    force_cells cells;
    const double need = work->tendon->seating * work->rigidity;
    const double needs[2] = {need, need};
    force_zone zone[2];
    if (!work->pulled[0] && !work->pulled[1]) {
        return KL_OK;
    }
    KL_TRY(force_cells_make(&work->book, &work->curve, work->a, &cells));
    const bool both = work->pulled[0] && work->pulled[1];
    const int one = work->pulled[0] ? 0 : 1;
    if (both ? !force_seat_both(&cells, needs, zone)
             : !force_seat_one(&cells, one == 1, need, &zone[one])) {
        return refuse_seating(work, diags);
    }
    const bool moves = need > 0.0;
    for (int e = 0; e < 2; e++) {
        if (work->pulled[e]) {
            note_zone(work, e, zone[e]);
        }
    }
    if (both && moves && !(zone[0].still < zone[1].still)) {
        return meeting_curve(work, zone);
    }
    for (int e = 0; e < 2 && moves; e++) {
        if (work->pulled[e]) {
            KL_TRY(lower_to(work, (force_branch){zone[e].level, e == 0 ? 1 : -1}));
        }
    }
    return KL_OK;
}

static void note_seated(force_work *work)
{
    for (int e = 0; e < 2; e++) {
        if (work->pulled[e]) {
            work->record->seated_at[e] = force_at_anchor(&work->book, &work->curve, e == 1);
        }
    }
}

/* ---- the whole ----------------------------------------------------------------------------------------- */

static kl_status check_start(const force_work *work, kl_diags *diags)
{
    const kl_tendon *const t = work->tendon;
    if (!(work->pull > 0.0) || !isfinite(work->pull) || !(work->rigidity > 0.0) ||
        !isfinite(work->rigidity)) {
        kl_diags_add(diags, KL_ERROR, "tendon-no-force", t->origin,
                     "Tendon %s cannot be stressed: its jacking force, area and modulus must be "
                     "positive and finite.",
                     t->name);
        return KL_BAD_MODEL;
    }
    if (!(work->phi <= FORCE_MOST_PHI)) {
        kl_diags_add(diags, KL_ERROR, "friction-leaves-no-force", t->origin,
                     "Friction would leave no force at the far end of tendon %s.", t->name);
        kl_diags_hint(diags,
                      "look at the units of `friction` (per radian) and `wobble` (per length)");
        return KL_BAD_MODEL;
    }
    return KL_OK;
}

/* One jacking with its seating after another, as the tendon's `jack` says. */
static kl_status run_operations(force_work *work, kl_diags *diags)
{
    const bool start[2] = {true, false};
    const bool end[2] = {false, true};
    const bool both[2] = {true, true};
    const bool *order[2] = {start, NULL};
    switch (work->tendon->jack_ends) {
    case KL_JACK_START:
        break;
    case KL_JACK_END:
        order[0] = end;
        break;
    case KL_JACK_BOTH:
        order[0] = both;
        break;
    case KL_JACK_START_THEN_END:
        order[1] = end;
        break;
    case KL_JACK_END_THEN_START:
        order[0] = end;
        order[1] = start;
        break;
    default:
        return KL_MISUSE;
    }
    for (int i = 0; i < 2 && order[i] != NULL; i++) {
        KL_TRY(jack(work, order[i]));
        KL_TRY(raise_unseated(work, i == 0));
        KL_TRY(seat(work, diags));
        note_seated(work);
    }
    return KL_OK;
}

kl_status force_stress(const kl_model *model,
                       kl_index tendon,
                       const tendon_path *path,
                       double share,
                       const force_curve *locked,
                       arena *a,
                       kl_diags *diags,
                       force_curve *before,
                       force_curve *after,
                       force_record *record)
{
    const kl_tendon *const t = &model->tendons[tendon];
    *record = (force_record){.pull = t->jack_force * share,
                             .seated_at = {NAN, NAN},
                             .seating_length = {NAN, NAN},
                             .still = {NAN, NAN}};
    force_work work = {.tendon = t, .path = path, .a = a, .record = record};
    work.pull = record->pull * (1.0 - t->anchorage_friction);
    work.rigidity = model->materials[t->material].modulus * t->units * t->unit_area;
    work.phi = force_whole_phi(t, path);
    if (locked != NULL) {
        work.curve = *locked;
    }
    KL_TRY(check_start(&work, diags));
    KL_TRY(cell_book_make(t, path, a, &work.book));
    KL_TRY(run_operations(&work, diags));
    if (!(record->elongation[0] > 0.0) && !(record->elongation[1] > 0.0)) {
        kl_diags_add(
            diags, KL_WARNING, "stress-moves-nothing", t->origin,
            "Stressing tendon %s moves nothing: its anchors hold more than the jack pulls.",
            t->name);
    }
    *before = work.before;
    *after = work.curve;
    record->force_at[0] = force_at_anchor(&work.book, after, false);
    record->force_at[1] = force_at_anchor(&work.book, after, true);
    record->unseated = work.unseated;
    return KL_OK;
}

double force_at(const kl_tendon *tendon,
                const tendon_path *path,
                const force_curve *curve,
                double x,
                kl_side side)
{
    kl_index low = 0;
    kl_index high = curve->count - 1;
    while (low < high) {
        const kl_index middle = low + (high - low) / 2;
        const double to = curve->pieces[middle].to;
        if (x < to || (side == KL_LEFT && !(x > to))) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    const force_piece *const piece = &curve->pieces[low];
    return piece->scale * exp(piece->sign * force_phi(tendon, path, x, side)) + piece->add;
}

static int compare(const void *a, const void *b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

kl_status force_breaks(
    const tendon_path *path, const force_curve *curve, arena *a, const double **x, kl_index *count)
{
    double *const all =
        arena_array(a, (size_t)path->piece_count + (size_t)curve->count + 2, sizeof *all);
    if (all == NULL) {
        return KL_NO_MEMORY;
    }
    kl_index n = 0;
    all[n++] = path->begin;
    for (kl_index i = 0; i < path->piece_count; i++) {
        all[n++] = path->pieces[i].to;
    }
    for (kl_index i = 0; i + 1 < curve->count; i++) {
        all[n++] = curve->pieces[i].to;
    }
    qsort(all, (size_t)n, sizeof *all, compare);
    kl_index kept = 1;
    for (kl_index i = 1; i < n; i++) {
        if (all[i] > all[kept - 1]) {
            all[kept++] = all[i];
        }
    }
    *x = all;
    *count = kept;
    return KL_OK;
}
