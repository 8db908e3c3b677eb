/* tendon_warn_shape.c - warnings about the path: see tendon_warnings.h.
 * SPDX-License-Identifier: MIT */
#include "tendon_warnings.h"

#include "member_section.h"
#include "near.h"
#include "profile_rows.h"
#include "str.h"

#include <math.h>
#include <stdio.h>

/* Least concrete between a duct and a face: 50 mm, or half the duct's diameter. Common practice, no source. */
#define USUAL_CLEAR 0.050
/* Least radius: forty diameters of the duct (4-1/2 in: 15 ft), not below 3 m. Common practice, no source; suppliers
 * state 15 to 20 ft for usual strand ducts. */
#define USUAL_RADIUS_IN_DUCTS 40.0
#define USUAL_RADIUS          3.0
/* A corner that a real duct would have to round off. Common practice, no source. */
#define USUAL_CORNER 1e-3
/* Stations looked at in each piece of the path. */
#define SHAPE_STATIONS 16

void tendon_show(const kl_model *model, kl_measure measure, double value, char text[TENDON_SHOWN])
{
    char figure[TENDON_SHOWN / 2];
    str_number(figure, sizeof figure, value / kl_show_factor(&model->display, measure), 3);
    snprintf(text, TENDON_SHOWN, "%s %s", figure, kl_show_unit(&model->display, measure));
}

/* ---- the section around the duct ----------------------------------------------------------------------- */

/* Concrete between the duct and the nearer of top and bottom, m; negative: outside; NAN: not known. */
static double clear_of_faces(profile_walk *walk, double x, kl_side side, double duct)
{
    double station = 0.0;
    const kl_index member = profile_walk_to(walk, x, side, &station);
    section_value section;
    member_section_values(walk->model, member, station, side, &section);
    if (isnan(section.to_top) || isnan(section.to_bottom)) {
        return NAN;
    }
    const double above_bottom = duct + section.line;
    return fmin(above_bottom, section.depth - above_bottom) - 0.5 * walk->tendon->duct;
}

static void
warn_faces(const kl_model *model, const kl_tendon *tendon, const tendon_path *path, kl_diags *diags)
{
    double least = INFINITY;
    double at = 0.0;
    profile_walk walk = {.model = model, .tendon = tendon};
    for (kl_index i = 0; i < path->piece_count; i++) {
        const path_piece *const p = &path->pieces[i];
        for (int k = 0; k <= SHAPE_STATIONS; k++) {
            const kl_side side = k == SHAPE_STATIONS ? KL_LEFT : KL_RIGHT;
            const double x = p->from + (p->to - p->from) * k / SHAPE_STATIONS;
            const double clear = clear_of_faces(&walk, x, side, profile_duct_at(path, x, side));
            if (clear < least) {
                least = clear;
                at = x;
            }
        }
    }
    const double usual = fmax(USUAL_CLEAR, 0.5 * tendon->duct);
    if (!(least < usual)) {
        return;
    }
    char place[PROFILE_PLACE];
    char clear[TENDON_SHOWN];
    char want[TENDON_SHOWN];
    profile_place(model, at, place);
    tendon_show(model, KL_MEASURE_SIZE, fabs(least), clear);
    tendon_show(model, KL_MEASURE_SIZE, usual, want);
    if (least < 0.0) {
        kl_diags_add(diags, KL_WARNING, "duct-outside-section", tendon->origin,
                     "The duct of tendon %s reaches %s beyond the section's face at %s.",
                     tendon->name, clear, place);
    } else {
        kl_diags_add(diags, KL_WARNING, "duct-near-face", tendon->origin,
                     "Only %s of concrete lie between the duct of tendon %s and the section's "
                     "face at %s; %s is usual.",
                     clear, tendon->name, place, want);
    }
}

/* ---- corners and radii --------------------------------------------------------------------------------- */

static void warn_corner(const kl_model *model,
                        const kl_tendon *tendon,
                        const tendon_path *path,
                        kl_diags *diags)
{
    const path_piece *worst = &path->pieces[0];
    for (kl_index i = 1; i < path->piece_count; i++) {
        worst = path->pieces[i].corner > worst->corner ? &path->pieces[i] : worst;
    }
    if (worst->corner > USUAL_CORNER) {
        char place[PROFILE_PLACE];
        profile_place(model, worst->from, place);
        kl_diags_add(diags, KL_WARNING, "profile-corner", tendon->origin,
                     "Tendon %s turns a corner of %.3g rad at %s; a duct needs a curve or a "
                     "deviator there.",
                     tendon->name, worst->corner, place);
    }
}

static void warn_radius(const kl_model *model,
                        const kl_tendon *tendon,
                        const tendon_path *path,
                        kl_diags *diags)
{
    double least = INFINITY;
    double at = 0.0;
    for (kl_index i = 0; i < path->piece_count; i++) {
        const double radius = profile_least_radius(&path->pieces[i]);
        if (radius < least) {
            least = radius;
            at = path->pieces[i].from;
        }
    }
    const double usual = fmax(USUAL_RADIUS, USUAL_RADIUS_IN_DUCTS * tendon->duct);
    if (least < usual * (1.0 - NEAR_STATION)) {
        char place[PROFILE_PLACE];
        char radius[TENDON_SHOWN];
        char want[TENDON_SHOWN];
        profile_place(model, at, place);
        tendon_show(model, KL_MEASURE_STATION, least, radius);
        tendon_show(model, KL_MEASURE_STATION, usual, want);
        kl_diags_add(
            diags, KL_WARNING, "tight-radius", tendon->origin,
            "The curve of tendon %s beyond %s has a radius of %s; for its duct %s is usual.",
            tendon->name, place, radius, want);
    }
}

void tendon_warn_shape(const kl_model *model,
                       kl_index tendon,
                       const tendon_path *path,
                       kl_diags *diags)
{
    const kl_tendon *const t = &model->tendons[tendon];
    warn_faces(model, t, path, diags);
    warn_corner(model, t, path, diags);
    warn_radius(model, t, path, diags);
}
