/* section_places.c - see section_places.h.
 * SPDX-License-Identifier: MIT */
#include "section_places.h"

#include <math.h>

#define PLACE_SAME 1e-9 /* of the length */

static void place_add(section_places *list, section_place place)
{
    if (list->count < SECTION_PLACES_LIMIT) {
        list->items[list->count++] = place;
    } else {
        list->more = true;
    }
}

/* ---- tendons of a member --------------------------------------------------------------------------------- */

/* Where the member begins in the stations of a tendon; NAN: the tendon does not run in it. */
static double place_offset(const kl_model *model, kl_index tendon, kl_index member)
{
    const kl_tendon *t = &model->tendons[tendon];
    double offset = 0.0;
    for (kl_index i = 0; i < t->member_count; i++) {
        if (t->members[i] == member) {
            return offset;
        }
        offset += kl_member_length(model, t->members[i]);
    }
    return NAN;
}

static bool place_has_tendons(const kl_model *model, kl_index member)
{
    for (kl_index t = 0; t < model->tendon_count; t++) {
        if (!isnan(place_offset(model, t, member))) {
            return true;
        }
    }
    return false;
}

/* The first station from … to of the member where a profile says `low` or `high`; NAN: it never does. */
static double place_of_row(
    const kl_model *model, kl_index member, kl_profile_row_kind kind, double from, double to)
{
    double found = NAN;
    for (kl_index t = 0; t < model->tendon_count; t++) {
        const double offset = place_offset(model, t, member);
        for (kl_index r = 0; r < model->tendons[t].row_count && !isnan(offset); r++) {
            const kl_profile_row *row = &model->tendons[t].rows[r];
            const double x = row->station - offset;
            if (row->kind == kind && x >= from && x <= to && !(x >= found)) {
                found = x;
            }
        }
    }
    return found;
}

/* A stretch from … to of one section: the low and the high place of its tendons, else the middle. */
static void place_add_stretch(
    const kl_model *model, section_places *list, section_place place, double from, double to)
{
    static const kl_profile_row_kind kinds[] = {KL_ROW_LOW, KL_ROW_HIGH};
    bool any = false;
    for (int i = 0; i < 2; i++) {
        const double x = place_of_row(model, place.member, kinds[i], from, to);
        if (!isnan(x)) {
            place.station = x;
            place_add(list, place);
            any = true;
        }
    }
    if (!any) {
        place.station = 0.5 * (from + to);
        place_add(list, place);
    }
}

/* ---- members --------------------------------------------------------------------------------------------- */

/* The member drawn for a section that it holds all along without tendons; NULL: none yet. */
static section_place *place_like(section_places *list, const kl_model *model, kl_index section)
{
    for (int i = 0; i < list->count; i++) {
        section_place *place = &list->items[i];
        if (place->section == section && place->is_prismatic &&
            !place_has_tendons(model, place->member)) {
            return place;
        }
    }
    return NULL;
}

static void place_add_prismatic(const kl_model *model, kl_index member, section_places *list)
{
    const kl_index section = model->members[member].sections[0].section;
    section_place *same =
        place_has_tendons(model, member) ? NULL : place_like(list, model, section);
    if (same) {
        same->like++;
        return;
    }
    place_add_stretch(model, list,
                      (section_place){.member = member, .section = section, .is_prismatic = true},
                      0.0, kl_member_length(model, member));
}

static bool place_same_rows(const kl_model *model, kl_index a, kl_index b)
{
    const kl_member *x = &model->members[a];
    const kl_member *y = &model->members[b];
    const double length = kl_member_length(model, a);
    bool same = x->section_count == y->section_count &&
                fabs(length - kl_member_length(model, b)) <= PLACE_SAME * length;
    for (kl_index i = 0; same && i < x->section_count; i++) {
        same = x->sections[i].section == y->sections[i].section &&
               fabs(x->sections[i].station - y->sections[i].station) <= PLACE_SAME * length;
    }
    return same;
}

kl_index section_places_twin(const kl_model *model, const selection *s, kl_index member)
{
    if (place_has_tendons(model, member)) {
        return member;
    }
    for (kl_index m = 0; m < member; m++) {
        if (selection_takes(s, m) && place_same_rows(model, m, member) &&
            !place_has_tendons(model, m)) {
            return m;
        }
    }
    return member;
}

/* Is the section drawn already, from an earlier row of the member? */
static bool place_is_told(const section_places *list, kl_index member, kl_index section)
{
    for (int k = 0; k < list->count; k++) {
        if (list->items[k].member == member && list->items[k].section == section) {
            return true;
        }
    }
    return false;
}

static void place_count_twin(section_places *list, kl_index twin)
{
    for (int k = 0; k < list->count; k++) {
        list->items[k].like += list->items[k].member == twin ? 1 : 0;
    }
}

/* Rows of a member: a section that stays to the next row in that stretch, another at its row. */
static void place_add_rows(const kl_model *model, kl_index member, section_places *list)
{
    const kl_member *m = &model->members[member];
    for (kl_index i = 0; i < m->section_count && !list->more; i++) {
        const kl_section_at *row = &m->sections[i];
        const bool last = i + 1 == m->section_count;
        const double end = last ? kl_member_length(model, member) : m->sections[i + 1].station;
        const bool stays = last || m->sections[i + 1].section == row->section;
        const section_place place = {.member = member,
                                     .station = row->station,
                                     .side = i > 0 && !(end > row->station) ? KL_LEFT : KL_RIGHT,
                                     .section = row->section};
        if (place_is_told(list, member, row->section)) {
            continue;
        }
        if (stays && end > row->station) {
            place_add_stretch(model, list, place, row->station, end);
        } else {
            place_add(list, place);
        }
    }
}

static void
place_add_at(const kl_model *model, kl_index member, double station, section_places *list)
{
    const double length = kl_member_length(model, member);
    if (!(station <= length * (1.0 + 1e-9))) {
        return;
    }
    const double x = fmin(station, length);
    const kl_side side = x < length ? KL_RIGHT : KL_LEFT;
    const kl_section_mix mix = kl_section_mix_at(model, member, x, side);
    place_add(list, (section_place){.member = member,
                                    .station = x,
                                    .side = side,
                                    .section = mix.share > 0.5 ? mix.b : mix.a});
}

void section_places_gather(const kl_model *model, const selection *s, section_places *out)
{
    *out = (section_places){0};
    for (kl_index m = 0; m < model->member_count && !out->more; m++) {
        if (!selection_takes(s, m)) {
            continue;
        }
        if (!isnan(s->at)) {
            place_add_at(model, m, s->at, out);
        } else if (model->members[m].section_count == 1) {
            place_add_prismatic(model, m, out);
        } else if (section_places_twin(model, s, m) != m) {
            place_count_twin(out, section_places_twin(model, s, m));
        } else {
            place_add_rows(model, m, out);
        }
    }
}
