/* profile_pieces.c - see profile_pieces.h.
 *
 * Offset: +-Z (toward the inside of the curve) at flat points, 0 at anchors and inflections, linear in the duct's angle
 * between. A `through` row between two curves of one sense is passed over: it is no place of its own in the curve.
 * SPDX-License-Identifier: MIT */
#include "profile_pieces.h"

#include "mem.h"
#include "near.h"
#include "path_piece.h"

#include <math.h>
#include <stdlib.h>

/* ---- bends --------------------------------------------------------------------------------------------- */

kl_status profile_bends_check(
    const kl_model *model, kl_index tendon, double begin, double end, kl_diags *diags)
{
    const kl_tendon *const t = &model->tendons[tendon];
    const double slack = NEAR_STATION * (end - begin);
    kl_status status = KL_OK;
    for (kl_index i = 0; i < t->bend_count; i++) {
        const kl_bend *const bend = &t->bends[i];
        if (bend->from >= begin - slack && bend->to <= end + slack) {
            continue;
        }
        char from[PROFILE_PLACE];
        char to[PROFILE_PLACE];
        profile_place(model, bend->from, from);
        profile_place(model, bend->to, to);
        kl_diags_add(diags, KL_ERROR, "profile-bend-outside", bend->origin,
                     "The bend from %s to %s reaches beyond the tendon's anchors.", from, to);
        profile_place(model, begin, from);
        profile_place(model, end, to);
        kl_diags_hint(diags, "the tendon runs from %s to %s", from, to);
        status = KL_BAD_MODEL;
    }
    return status;
}

static double bend_rate_at(const kl_tendon *tendon, double x)
{
    double rate = 0.0;
    for (kl_index i = 0; i < tendon->bend_count; i++) {
        const kl_bend *const bend = &tendon->bends[i];
        if (x > bend->from && x < bend->to) {
            rate += bend->angle / (bend->to - bend->from);
        }
    }
    return rate;
}

/* ---- offsets ------------------------------------------------------------------------------------------- */

static double curve_turn(const profile_knot *knots, const profile_curve *curves, kl_index p)
{
    const double rise = 2.0 * curves[p].c * (knots[p + 1].x - knots[p].x);
    return path_angle_between(curves[p].m0, curves[p].m0 + rise);
}

/* +1 concave up, -1 concave down, 0 straight (or curved by rounding only). */
static int curve_sense(const profile_knot *knots, const profile_curve *curves, kl_index p)
{
    const double turn = curve_turn(knots, curves, p);
    return fabs(turn) < 1e-12 ? 0 : (turn > 0.0 ? 1 : -1);
}

/* The offset at row i; NAN at a `through` that the curve only passes. */
static double
knot_offset(const profile_knot *knots, const profile_curve *curves, kl_index i, double offset)
{
    if (knots[i].kind == KL_ROW_ANCHOR || knots[i].kind == KL_ROW_INFLECTION) {
        return 0.0;
    }
    const int before = curve_sense(knots, curves, i - 1);
    const int after = curve_sense(knots, curves, i);
    if (knots[i].kind == KL_ROW_THROUGH) {
        return before == after && before != 0 ? (double)NAN : 0.0;
    }
    if (before == 0 && after == 0) {
        return knots[i].kind == KL_ROW_LOW ? offset : -offset;
    }
    return before * after < 0 ? 0.0 : (before + after > 0 ? offset : -offset);
}

/* Offsets at all knots: known ones first, those between linear in the angle turned through. */
static void find_offsets(const profile_knot *knots,
                         const profile_curve *curves,
                         kl_index count,
                         double offset,
                         double *at_knot)
{
    at_knot[0] = 0.0;
    for (kl_index known = 0, i = 1; i < count; i++) {
        at_knot[i] = i == count - 1 ? 0.0 : knot_offset(knots, curves, i, offset);
        if (isnan(at_knot[i])) {
            continue;
        }
        double whole = 0.0;
        for (kl_index p = known; p < i; p++) {
            whole += curve_turn(knots, curves, p);
        }
        double turned = 0.0;
        for (kl_index k = known + 1; k < i; k++) {
            turned += curve_turn(knots, curves, k - 1);
            at_knot[k] = at_knot[known] + (at_knot[i] - at_knot[known]) * turned / whole;
        }
        known = i;
    }
}

/* ---- dividing ------------------------------------------------------------------------------------------ */

static int compare(const void *a, const void *b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

/* All X where pieces must be divided besides the rows: ends of bends and joints of members, ascending. */
static double *cuts_make(const kl_model *model, const kl_tendon *tendon, kl_index *count)
{
    const size_t most = 2 * (size_t)tendon->bend_count + (size_t)tendon->member_count;
    double *const cuts = mem_array(most, sizeof *cuts);
    if (cuts == NULL) {
        return NULL;
    }
    kl_index n = 0;
    double x = 0.0;
    for (kl_index i = 0; i < tendon->member_count; i++) {
        x += kl_member_length(model, tendon->members[i]);
        cuts[n++] = x;
    }
    for (kl_index i = 0; i < tendon->bend_count; i++) {
        cuts[n++] = tendon->bends[i].from;
        cuts[n++] = tendon->bends[i].to;
    }
    qsort(cuts, (size_t)n, sizeof *cuts, compare);
    *count = n;
    return cuts;
}

/* The part from … to of a whole curve's piece. */
static path_piece part_of(const path_piece *whole, const kl_tendon *tendon, double from, double to)
{
    const piece_shape at_from = path_piece_shape(whole, from - whole->from);
    const piece_shape at_to = path_piece_shape(whole, to - whole->from);
    path_piece part = {.from = from,
                       .to = to,
                       .y0 = at_from.duct,
                       .m0 = at_from.duct_slope,
                       .c = whole->c,
                       .offset_from = at_from.height - at_from.duct,
                       .offset_to = to < whole->to ? at_to.height - at_to.duct : whole->offset_to,
                       .bend_rate = bend_rate_at(tendon, 0.5 * (from + to))};
    part.turn = path_piece_turn(&part);
    return part;
}

typedef struct piece_list {
    path_piece *items;
    kl_index count;
} piece_list;

typedef struct cut_list {
    const double *items; /* ascending */
    kl_index count;
    kl_index at; /* the first that may divide the curve under way */
} cut_list;

/* Append the parts of one curve; curves come in their order. Cuts within `slack` of a row or of one another are one. */
static void divide(const path_piece *whole,
                   const kl_tendon *tendon,
                   cut_list *cuts,
                   double slack,
                   piece_list *list)
{
    double from = whole->from;
    for (; cuts->at < cuts->count && cuts->items[cuts->at] < whole->to - slack; cuts->at++) {
        const double cut = cuts->items[cuts->at];
        if (cut > from + slack) {
            list->items[list->count++] = part_of(whole, tendon, from, cut);
            from = cut;
        }
    }
    list->items[list->count++] = part_of(whole, tendon, from, whole->to);
}

kl_status profile_pieces_make(const kl_model *model,
                              kl_index tendon,
                              const profile_knot *knots,
                              const profile_curve *curves,
                              arena *a,
                              path_piece **pieces,
                              kl_index *count)
{
    const kl_tendon *const t = &model->tendons[tendon];
    const kl_index rows = t->row_count;
    kl_index cut_count = 0;
    double *const cuts = cuts_make(model, t, &cut_count);
    double *const offsets = mem_array((size_t)rows, sizeof *offsets);
    piece_list list = {arena_array(a, (size_t)rows + (size_t)cut_count, sizeof(path_piece)), 0};
    const bool have_all = cuts != NULL && offsets != NULL && list.items != NULL;
    if (have_all) {
        const double slack = NEAR_STATION * (knots[rows - 1].x - knots[0].x);
        cut_list ahead = {cuts, cut_count, 0};
        find_offsets(knots, curves, rows, t->offset, offsets);
        for (kl_index p = 0; p < rows - 1; p++) {
            path_piece whole = {.from = knots[p].x,
                                .to = knots[p + 1].x,
                                .y0 = curves[p].y0,
                                .m0 = curves[p].m0,
                                .c = curves[p].c,
                                .offset_from = offsets[p],
                                .offset_to = offsets[p + 1]};
            whole.turn = path_piece_turn(&whole);
            divide(&whole, t, &ahead, slack, &list);
        }
        *pieces = list.items;
        *count = list.count;
    }
    mem_free(cuts);
    mem_free(offsets);
    return have_all ? KL_OK : KL_NO_MEMORY;
}
