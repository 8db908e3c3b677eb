/* profile_rows.c - see profile_rows.h.
 * SPDX-License-Identifier: MIT */
#include "profile_rows.h"

#include "member_section.h"
#include "near.h"

#include <math.h>
#include <stdio.h>

const char *profile_row_word(kl_profile_row_kind kind)
{
    static const char *const words[] = {"anchor", "high", "low", "inflection", "through"};
    return words[kind];
}

void profile_place(const kl_model *model, double x, char text[PROFILE_PLACE])
{
    const double factor = kl_show_factor(&model->display, KL_MEASURE_STATION);
    snprintf(text, PROFILE_PLACE, "%.6g %s", x / factor,
             kl_show_unit(&model->display, KL_MEASURE_STATION));
}

void profile_rows_complain(const kl_model *model,
                           kl_diags *diags,
                           const char *name,
                           const profile_knot *knot,
                           const char *before,
                           const char *after)
{
    char place[PROFILE_PLACE];
    profile_place(model, knot->x, place);
    kl_diags_add(diags, KL_ERROR, name, knot->origin, "%s`%s` at %s%s", before,
                 profile_row_word(knot->kind), place, after);
}

/* Length of the member that the walk stands on. */
static double walk_length(const profile_walk *walk)
{
    return kl_member_length(walk->model, walk->tendon->members[walk->at]);
}

static void walk_begin(profile_walk *walk)
{
    walk->at = 0;
    walk->start = 0.0;
}

static void walk_on(profile_walk *walk)
{
    walk->start += walk_length(walk);
    walk->at++;
}

kl_index profile_walk_to(profile_walk *walk, double x, kl_side side, double *station)
{
    const double share = side == KL_LEFT ? 1.0 + NEAR_STATION : 1.0 - NEAR_STATION;
    if (x < walk->start || (side == KL_LEFT && x <= walk->start)) {
        walk_begin(walk);
    }
    while (walk->at < walk->tendon->member_count - 1 &&
           x >= walk->start + walk_length(walk) * share) {
        walk_on(walk);
    }
    *station = fmin(fmax(x - walk->start, 0.0), walk_length(walk));
    return walk->tendon->members[walk->at];
}

/* y = datum + ordinate; NAN when the section does not know where its top or bottom is. */
static double row_height(profile_walk *walk, const kl_profile_row *row)
{
    if (row->datum == KL_FROM_LINE) {
        return row->ordinate;
    }
    double station = 0.0;
    const kl_index member = profile_walk_to(walk, row->station, KL_RIGHT, &station);
    const double length = kl_member_length(walk->model, member);
    const kl_side side = station < length * (1.0 - NEAR_STATION) ? KL_RIGHT : KL_LEFT;
    section_value section;
    member_section_values(walk->model, member, station, side, &section);
    if (isnan(section.to_bottom) || isnan(section.to_top)) {
        return NAN; /* a bare section without to_top and to_bottom */
    }
    return row->datum == KL_FROM_BOTTOM ? row->ordinate - section.line
                                        : section.depth - section.line - row->ordinate;
}

kl_status
profile_rows_read(const kl_model *model, kl_index tendon, kl_diags *diags, profile_knot *knots)
{
    const kl_tendon *const t = &model->tendons[tendon];
    profile_walk walk = {.model = model, .tendon = t};
    for (kl_index i = 0; i < t->row_count; i++) {
        const kl_profile_row *const row = &t->rows[i];
        knots[i] = (profile_knot){.x = row->station,
                                  .y = NAN,
                                  .kind = row->kind,
                                  .straight = row->straight,
                                  .origin = row->origin};
        if (isnan(row->ordinate)) {
            continue; /* an inflection: its height is found with the curves */
        }
        knots[i].y = row_height(&walk, row);
        if (!isfinite(knots[i].y)) {
            profile_rows_complain(model, diags, "profile-no-datum", &knots[i], "The ",
                                  " is measured from the top or bottom of a section that does not "
                                  "say where they are.");
            kl_diags_hint(
                diags, "give the section `to_top` and `to_bottom`, or write `profile from line`");
            return KL_BAD_MODEL;
        }
    }
    return KL_OK;
}
