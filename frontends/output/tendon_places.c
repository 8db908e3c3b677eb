/* tendon_places.c - see tendon_places.h.
 * SPDX-License-Identifier: MIT */
#include "tendon_places.h"

#include <math.h>

#include "near.h"
#include "tables.h"

#define MOST_BESIDE_ROWS 3 /* the middle, the least, the largest */

/* ---- as asked -------------------------------------------------------------------------------------------- */

static void places_at(const kl_tendon *tn, double at, tendon_places *places)
{
    const double from = tn->rows[0].station;
    const double to = tn->rows[tn->row_count - 1].station;
    const double tolerance = NEAR_STATION * (to - from);
    if (at >= from - tolerance && at <= to + tolerance) {
        places->items[places->count++] =
            (tendon_place){fmin(fmax(at, from), to), at < to - tolerance ? KL_RIGHT : KL_LEFT, ""};
    }
}

/* A corner comes twice, from the left and from the right. */
static void
places_every(table *t, kl_results *results, kl_index tendon, double every, tendon_places *places)
{
    const kl_tendon_point *points = NULL;
    kl_index count = 0;
    if (!table_accepts(t, kl_tendon_points(results, tendon, every, &points, &count))) {
        return;
    }
    places->items = arena_array(&t->memory, (size_t)count, sizeof *places->items);
    if (places->items == NULL) {
        table_accepts(t, KL_NO_MEMORY);
        return;
    }
    for (kl_index i = 0; i < count; ++i) {
        const bool is_left = i + 1 == count || near_equal(points[i + 1].station, points[i].station,
                                                          NEAR_STATION, 0.0);
        places->items[places->count++] =
            (tendon_place){points[i].station, is_left ? KL_LEFT : KL_RIGHT, ""};
    }
}

/* ---- what governs ---------------------------------------------------------------------------------------- */

static void places_of_rows(const kl_tendon *tn, tendon_places *places)
{
    const kl_profile_row *first = &tn->rows[0];
    const kl_profile_row *last = &tn->rows[tn->row_count - 1];
    places->items[places->count++] = (tendon_place){first->station, KL_RIGHT, "start"};
    for (kl_index i = 1; i + 1 < tn->row_count; ++i) {
        const kl_profile_row *row = &tn->rows[i];
        if (row->kind == KL_ROW_HIGH || row->kind == KL_ROW_LOW) {
            places->items[places->count++] = (tendon_place){
                row->station, KL_RIGHT, row->kind == KL_ROW_HIGH ? "high point" : "low point"};
        }
    }
    if (places->count == 1) {
        places->items[places->count++] =
            (tendon_place){0.5 * (first->station + last->station), KL_RIGHT, "middle"};
    }
    places->items[places->count++] = (tendon_place){last->station, KL_LEFT, "end"};
}

/* A place that is there already gets the name besides. */
static void places_add(table *t, tendon_places *places, const kl_peak *peak, const char *label)
{
    const double range = places->items[places->count - 1].station;
    kl_index i = 0;
    while (i < places->count && places->items[i].station < peak->station - NEAR_STATION * range) {
        ++i;
    }
    tendon_place *here = &places->items[i];
    if (i < places->count && near_equal(here->station, peak->station, 0.0, NEAR_STATION * range)) {
        here->label = table_say(t, "%s, %s", here->label, label);
        return;
    }
    for (kl_index k = places->count++; k > i; --k) {
        places->items[k] = places->items[k - 1];
    }
    *here = (tendon_place){peak->station, peak->side, label};
}

tendon_places tendon_places_find(
    table *t, kl_results *results, const selection *s, kl_state state, kl_index tendon)
{
    const kl_tendon *tn = &kl_results_model(results)->tendons[tendon];
    tendon_places places = {NULL, 0};
    kl_peak least, largest;
    if (!table_accepts(t, kl_tendon_force_range(results, state, tendon, &least, &largest))) {
        return places;
    }
    if (isnan(s->at) && !isnan(s->every)) {
        places_every(t, results, tendon, s->every, &places);
        return places;
    }
    places.items =
        arena_array(&t->memory, (size_t)tn->row_count + MOST_BESIDE_ROWS, sizeof *places.items);
    if (places.items == NULL) {
        table_accepts(t, KL_NO_MEMORY);
        return places;
    }
    if (!isnan(s->at)) {
        places_at(tn, s->at, &places);
        return places;
    }
    places_of_rows(tn, &places);
    places_add(t, &places, &least, "least");
    places_add(t, &places, &largest, "largest");
    return places;
}
