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

kl_index
profile_member_at(const kl_model *model, const kl_tendon *tendon, double x, double *station)
{
    double start = 0.0;
    for (kl_index i = 0; i < tendon->member_count - 1; i++) {
        const double length = kl_member_length(model, tendon->members[i]);
        if (x < start + length * (1.0 - NEAR_STATION)) {
            *station = x - start;
            return tendon->members[i];
        }
        start += length;
    }
    *station = x - start;
    return tendon->members[tendon->member_count - 1];
}

/* y = datum + ordinate; NAN when the section does not know where its top or bottom is. */
static double row_height(const kl_model *model, const kl_tendon *tendon, const kl_profile_row *row)
{
    if (row->datum == KL_FROM_LINE) {
        return row->ordinate;
    }
    double station = 0.0;
    const kl_index member = profile_member_at(model, tendon, row->station, &station);
    const double length = kl_member_length(model, member);
    const kl_side side = station < length * (1.0 - NEAR_STATION) ? KL_RIGHT : KL_LEFT;
    section_value section;
    member_section_values(model, member, fmin(fmax(station, 0.0), length), side, &section);
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
        knots[i].y = row_height(model, t, row);
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
