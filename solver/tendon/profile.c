/* profile.c - see profile.h. Rows become knots (profile_rows), knots become curves (profile_fit), curves get their
 * offsets and are divided where a bend or a member ends (profile_pieces); angle and length are added up last.
 * SPDX-License-Identifier: MIT */
#include "profile.h"

#include "mem.h"
#include "path_piece.h"
#include "profile_fit.h"
#include "profile_pieces.h"
#include "profile_rows.h"

#include <math.h>

/* Two parabolas that share a tangent differ by rounding only; a corner anyone means is far larger. */
#define PROFILE_CORNER 1e-9

/* dy/dX */
#define PROFILE_STEEPEST 15.0

/* A `low` at which the curves bend down, or a `high` at which they bend up, is most likely a slip of the pen. */
static void warn_upside_down(const kl_model *model,
                             const profile_knot *knots,
                             const profile_curve *curves,
                             kl_index count,
                             kl_diags *diags)
{
    for (kl_index i = 1; i < count - 1; i++) {
        const bool low = knots[i].kind == KL_ROW_LOW;
        if (!low && knots[i].kind != KL_ROW_HIGH) {
            continue;
        }
        const double sense = low ? 1.0 : -1.0;
        const double before = knots[i].y - knots[i - 1].y;
        const double after = knots[i].y - knots[i + 1].y;
        const bool upside_down = sense * curves[i - 1].c < 0.0 || sense * curves[i].c < 0.0;
        if (upside_down && fmax(sense * before, sense * after) > 0.0) {
            char place[PROFILE_PLACE];
            profile_place(model, knots[i].x, place);
            kl_diags_add(diags, KL_WARNING, "profile-upside-down", knots[i].origin,
                         "The `%s` at %s is not the %sest point of the curves beside it.",
                         profile_row_word(knots[i].kind), place, profile_row_word(knots[i].kind));
            kl_diags_hint(diags, "is it meant to be `%s`, or is an ordinate amiss?",
                          low ? "high" : "low");
        }
    }
}

/* No duct leaves the member's line at more than about 86 degrees: an ordinate or a station has the wrong unit. It also
 * keeps the panels of the quadrature few (path_piece_panels). */
static kl_status refuse_steep(const kl_model *model,
                              const profile_knot *knots,
                              const profile_curve *curves,
                              kl_index count,
                              kl_diags *diags)
{
    for (kl_index i = 0; i < count - 1; i++) {
        const double h = knots[i + 1].x - knots[i].x;
        const double slopes[2] = {curves[i].m0, curves[i].m0 + 2.0 * curves[i].c * h};
        for (int e = 0; e < 2; e++) {
            if (!(fabs(slopes[e]) <= PROFILE_STEEPEST)) { /* NAN and infinity too */
                profile_rows_complain(model, diags, "profile-too-steep", &knots[i + e], "At the ",
                                      " the duct would run almost square to the member.");
                kl_diags_hint(diags, "look at the units of its ordinate and of its station");
                return KL_BAD_MODEL;
            }
        }
    }
    return KL_OK;
}

static void add_up(path_piece *pieces, kl_index count, tendon_path *path)
{
    double alpha = 0.0;
    double length = 0.0;
    double slope = pieces[0].m0;
    for (kl_index i = 0; i < count; i++) {
        path_piece *const p = &pieces[i];
        const double step = fabs(path_angle_between(slope, p->m0));
        p->corner = step > PROFILE_CORNER ? step : 0.0;
        alpha += p->corner;
        p->alpha = alpha;
        p->length = length;
        alpha += path_piece_alpha(p, p->to - p->from);
        length += path_piece_length(p, p->to - p->from);
        slope = p->m0 + 2.0 * p->c * (p->to - p->from);
    }
    *path = (tendon_path){.pieces = pieces,
                          .piece_count = count,
                          .begin = pieces[0].from,
                          .end = pieces[count - 1].to,
                          .alpha = alpha,
                          .length = length};
}

/* `knots` and `curves` are work space for row_count of each. */
static kl_status build_path(const kl_model *model,
                            kl_index tendon,
                            arena *a,
                            kl_diags *diags,
                            profile_knot *knots,
                            profile_curve *curves,
                            tendon_path *path)
{
    const kl_index count = model->tendons[tendon].row_count;
    path_piece *pieces = NULL;
    kl_index piece_count = 0;
    KL_TRY(profile_rows_read(model, tendon, diags, knots));
    KL_TRY(profile_bends_check(model, tendon, knots[0].x, knots[count - 1].x, diags));
    KL_TRY(profile_fit(model, knots, count, diags, curves));
    KL_TRY(refuse_steep(model, knots, curves, count, diags));
    warn_upside_down(model, knots, curves, count, diags);
    KL_TRY(profile_pieces_make(model, tendon, knots, curves, a, &pieces, &piece_count));
    add_up(pieces, piece_count, path);
    return KL_OK;
}

kl_status
profile_build(const kl_model *model, kl_index tendon, arena *a, kl_diags *diags, tendon_path *path)
{
    const size_t rows = (size_t)model->tendons[tendon].row_count;
    profile_knot *const knots = mem_array(rows, sizeof *knots);
    profile_curve *const curves = mem_array(rows, sizeof *curves);
    const kl_status status = knots == NULL || curves == NULL
                                 ? KL_NO_MEMORY
                                 : build_path(model, tendon, a, diags, knots, curves, path);
    mem_free(knots);
    mem_free(curves);
    return status;
}

const path_piece *profile_piece_at(const tendon_path *path, double x, kl_side side)
{
    kl_index low = 0;
    kl_index high = path->piece_count - 1;
    while (low < high) {
        const kl_index middle = low + (high - low) / 2;
        const double to = path->pieces[middle].to;
        if (x < to || (side == KL_LEFT && !(x > to))) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    return &path->pieces[low];
}

/* t of x on its piece. */
static double place_on(const path_piece *piece, double x)
{
    return fmin(fmax(x, piece->from), piece->to) - piece->from;
}

double profile_duct_at(const tendon_path *path, double x, kl_side side)
{
    const path_piece *const piece = profile_piece_at(path, x, side);
    return path_piece_duct(piece, place_on(piece, x));
}

path_point profile_at(const tendon_path *path, double x, kl_side side)
{
    const path_piece *const piece = profile_piece_at(path, x, side);
    const double t = place_on(piece, x);
    const piece_shape shape = path_piece_shape(piece, t);
    return (path_point){.duct = shape.duct,
                        .height = shape.height,
                        .slope = shape.slope,
                        .curvature = shape.curvature,
                        .alpha = piece->alpha + path_piece_alpha(piece, t),
                        .length = piece->length + path_piece_length(piece, t)};
}

/* R = (1 + m^2)^(3/2) / |y''| of the duct grows with |m|: least where the slope is least. */
double profile_least_radius(const path_piece *piece)
{
    if (path_piece_is_straight(piece)) {
        return INFINITY;
    }
    const double m_to = piece->m0 + 2.0 * piece->c * (piece->to - piece->from);
    const bool flat_inside = piece->m0 * m_to <= 0.0;
    const double m = flat_inside ? 0.0 : fmin(fabs(piece->m0), fabs(m_to));
    const double spread = hypot(1.0, m);
    return spread * spread * spread / fabs(2.0 * piece->c);
}
