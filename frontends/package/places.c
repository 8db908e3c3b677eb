/* places.c - see places.h.
 * SPDX-License-Identifier: MIT */
#include "places.h"

#include <math.h>
#include <stdbool.h>

#include "label.h"

/* Does something hold the node besides the member: a support, a bearing, another member's end? */
static bool place_is_held(const kl_model *model, kl_index node, kl_index member)
{
    for (kl_index i = 0; i < model->support_count; i++) {
        if (model->supports[i].node == node) {
            return true;
        }
    }
    for (kl_index i = 0; i < model->bearing_count; i++) {
        if (model->bearings[i].node == node || model->bearings[i].base == node) {
            return true;
        }
    }
    for (kl_index i = 0; i < model->member_count; i++) {
        if (i != member && (model->members[i].from == node || model->members[i].to == node)) {
            return true;
        }
    }
    return false;
}

static void
place_put(member_place *places, int *count, double station, kl_side side, const char *name)
{
    if (*count < PLACE_LIMIT) {
        places[(*count)++] = (member_place){station, side, name};
    }
}

/* By insertion; there are few. */
static void places_sort(member_place *places, int count)
{
    for (int i = 1; i < count; i++) {
        const member_place here = places[i];
        int at = i;
        for (; at > 0 && places[at - 1].station > here.station; at--) {
            places[at] = places[at - 1];
        }
        places[at] = here;
    }
}

kl_status
places_of_member(kl_results *results, kl_index member, member_place places[PLACE_LIMIT], int *count)
{
    const kl_model *model = kl_results_model(results);
    const double length = kl_member_length(model, member);
    const kl_station_row *rows;
    kl_index row_count;
    *count = 0;
    KL_TRY(kl_station_rows(results, member, NAN, &rows, &row_count));
    double held = NAN; /* the last station that something holds */
    for (kl_index i = 0; i < row_count; i++) {
        const bool is_second = i > 0 && !(rows[i].station > rows[i - 1].station);
        if (is_second) {
            continue;
        }
        const double station = rows[i].station;
        if (rows[i].is_face) {
            place_put(places, count, station, rows[i].side, "face");
        }
        if (rows[i].node != KL_NONE && place_is_held(model, rows[i].node, member)) {
            if (!isnan(held)) {
                place_put(places, count, 0.5 * (held + station), KL_RIGHT, "midspan");
            }
            held = station;
        }
    }
    if (*count == 0) {
        place_put(places, count, 0.5 * length, KL_RIGHT, "middle");
    }
    places_sort(places, *count);
    return KL_OK;
}
