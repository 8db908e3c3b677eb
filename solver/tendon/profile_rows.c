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

void profile_rows_complain(const kl_model *model, kl_diags *diags, const char *name,
                           const profile_knot *knot, const char *before, const char *after)
{
    char place[PROFILE_PLACE];
    profile_place(model, knot->x, place);
    kl_diags_add(diags, KL_ERROR, name, knot->origin, "%s`%s` at %s%s", before,
                 profile_row_word(knot->kind), place, after);
}

kl_index profile_member_at(const kl_model *model, const kl_tendon *tendon, double x, double *station)
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

static bool check_ordinate(const kl_model *model, const kl_tendon *tendon, const kl_profile_row *row,
                           profile_knot *knot, kl_diags *diags)
{
    if (isnan(row->ordinate)) {
        knot->y = NAN;
        if (row->kind == KL_ROW_INFLECTION) {
            return true;
        }
        profile_rows_complain(model, diags, "profile-no-ordinate", knot, "The ",
                              " needs a `height` (or a `depth` from top).");
        return false;
    }
    knot->y = row_height(model, tendon, row);
    if (isfinite(knot->y)) {
        return true;
    }
    profile_rows_complain(model, diags, "profile-no-datum", knot, "The ",
                          " is measured from the top or bottom of a section that does not say where they are.");
    kl_diags_hint(diags, "give the section `to_top` and `to_bottom`, or write `profile from line`");
    return false;
}

/* Strictly rising by more than the tolerance of a station. */
static bool check_station(const kl_model *model, double range, const profile_knot *knots, kl_index i,
                          kl_diags *diags)
{
    const double slack = NEAR_STATION * range;
    if (!(knots[i].x >= -slack && knots[i].x <= range + slack)) {
        profile_rows_complain(model, diags, "profile-outside-member", &knots[i], "The ",
                              " lies outside the tendon's members.");
        return false;
    }
    if (i > 0 && !(knots[i].x > knots[i - 1].x + slack)) {
        profile_rows_complain(model, diags, "profile-station-order", &knots[i], "The ",
                              " does not lie beyond the row before it.");
        kl_diags_hint(diags, "write the rows in the order of their stations");
        return false;
    }
    return true;
}

static bool check_anchor(const kl_model *model, const profile_knot *knots, kl_index count, kl_index i,
                         kl_diags *diags)
{
    const bool at_end = i == 0 || i == count - 1;
    if (at_end == (knots[i].kind == KL_ROW_ANCHOR)) {
        return true;
    }
    if (at_end) {
        profile_rows_complain(model, diags, "profile-no-anchor", &knots[i],
                              i == 0 ? "The profile begins with a " : "The profile ends with a ",
                              ", not with an anchor.");
        kl_diags_hint(diags, "write `anchor` in this row");
    } else {
        profile_rows_complain(model, diags, "profile-anchor-inside", &knots[i], "The ",
                              " stands between other rows; a tendon has an anchor at each end only.");
        kl_diags_hint(diags, "write `through`, or make two tendons");
    }
    return false;
}

kl_status profile_rows_read(const kl_model *model, kl_index tendon, kl_diags *diags, profile_knot *knots)
{
    const kl_tendon *const t = &model->tendons[tendon];
    if (t->row_count < 2) {
        kl_diags_add(diags, KL_ERROR, "profile-too-short", t->origin,
                     "The profile of tendon `%s` needs at least two rows: an anchor at each end.", t->name);
        return KL_BAD_MODEL;
    }
    const double range = kl_tendon_range(model, tendon);
    bool good = true;
    for (kl_index i = 0; i < t->row_count; i++) {
        const kl_profile_row *const row = &t->rows[i];
        knots[i] = (profile_knot){.x = row->station, .kind = row->kind, .straight = row->straight,
                                  .origin = row->origin};
        good = check_anchor(model, knots, t->row_count, i, diags) && good;
        good = check_station(model, range, knots, i, diags) && good;
        good = check_ordinate(model, t, row, &knots[i], diags) && good;
        if (i == 0 && row->straight) {
            profile_rows_complain(model, diags, "profile-straight-first", &knots[i], "The ",
                                  " is the first row: no straight piece can lead to it.");
            kl_diags_hint(diags, "write `straight` in the row where the straight piece ends");
            good = false;
        }
    }
    return good ? KL_OK : KL_BAD_MODEL;
}
