/* table_tendons.c - tendons along their length, and their action as loads on the concrete.
 * SPDX-License-Identifier: MIT */
#include "tables.h"

#include <math.h>

#include "figure.h"

static void tendon_add_columns(table *t)
{
    table_add_words(t, COLUMN_GROUP, "tendon", "tendon");
    table_add(t, COLUMN_EXACT, "station", "station", KL_MEASURE_STATION, 4);
    table_add_words(t, COLUMN_WORD, "member", "member");
    table_add(t, COLUMN_FIGURE, "duct_above_bottom", "duct above\nbottom", KL_MEASURE_SIZE, 5);
    table_add(t, COLUMN_FIGURE, "duct_below_top", "duct below\ntop", KL_MEASURE_SIZE, 5);
    table_add(t, COLUMN_FIGURE, "height", "tendon\nabove line", KL_MEASURE_SIZE, 5);
    table_add(t, COLUMN_FIGURE, "eccentricity", "tendon above\ncentroid", KL_MEASURE_SIZE, 5);
    table_add(t, COLUMN_FIGURE, "slope", "slope", KL_MEASURE_ANGLE, 4);
    table_add(t, COLUMN_FIGURE, "angle", "angle\nfrom start", KL_MEASURE_ROTATION, 4);
    table_add(t, COLUMN_FIGURE, "length", "length\nfrom start", KL_MEASURE_STATION, 5);
    table_add(t, COLUMN_FIGURE, "before_seating", "force before\nseating", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_FIGURE, "after_seating", "force after\nseating", KL_MEASURE_FORCE, 5);
}

static void tendon_put(table *t, const kl_model *model, kl_index tendon, const kl_tendon_point *p)
{
    table_put_text(t, model->tendons[tendon].name);
    table_put(t, p->station);
    table_put_text(t, model->members[p->member].name);
    table_put(t, p->above_bottom);
    table_put(t, p->below_top);
    table_put(t, p->height);
    table_put(t, p->eccentricity);
    table_put(t, p->slope);
    table_put(t, p->angle);
    table_put(t, p->length);
    table_put(t, p->before_seating);
    table_put(t, p->after_seating);
}

void table_build_tendons(table *t, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    table_title(t, "Tendons along their length, forces in one tendon of each group");
    tendon_add_columns(t);
    for (kl_index tendon = 0; tendon < model->tendon_count; ++tendon) {
        const kl_tendon_point *points = NULL;
        kl_index count = 0;
        if (!selection_takes_tendon(s, model, tendon) ||
            !table_accepts(t, kl_tendon_points(results, tendon, s->every, &points, &count))) {
            continue;
        }
        for (kl_index i = 0; i < count && t->status == KL_OK; ++i) {
            tendon_put(t, model, tendon, &points[i]);
        }
    }
    table_note(t, "Heights are of the tendon's centroid, duct ordinates of the duct's centre. The "
                  "angle adds up "
                  "without cancelling, bends in plan included.");
}

/* ---- equivalent loads ----------------------------------------------------------------------------------- */

static void tendon_put_load(table *t,
                            const kl_results *results,
                            kl_state state,
                            kl_index tendon,
                            const kl_tendon_load *load)
{
    const kl_model *model = kl_results_model(results);
    const bool is_point = !(load->to > load->from);
    const double none = NAN;
    table_put_state(t, results, state);
    table_put_text(t, model->tendons[tendon].name);
    table_put_text(t, model->members[load->member].name);
    table_put(t, load->from);
    table_put(t, load->to);
    table_put_text(t, load->what);
    table_put(t, is_point ? load->across : none);
    table_put(t, is_point ? load->along : none);
    table_put(t, is_point ? load->moment : none);
    table_put(t, is_point ? none : load->across);
    table_put(t, is_point ? none : load->along);
}

static void tendon_add_load_columns(table *t)
{
    table_add_state(t);
    table_add_words(t, COLUMN_GROUP, "tendon", "tendon");
    table_add_words(t, COLUMN_WORD, "member", "member");
    table_add(t, COLUMN_EXACT, "from", "from", KL_MEASURE_STATION, 4);
    table_add(t, COLUMN_EXACT, "to", "to", KL_MEASURE_STATION, 4);
    table_add_words(t, COLUMN_WORD, "what", "what");
    table_add(t, COLUMN_FIGURE, "across", "across", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_FIGURE, "along", "along", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_FIGURE, "moment", "moment", KL_MEASURE_MOMENT, 5);
    table_add(t, COLUMN_FIGURE, "across_per_length", "across\nper length", KL_MEASURE_LINE_LOAD, 5);
    table_add(t, COLUMN_FIGURE, "along_per_length", "along\nper length", KL_MEASURE_LINE_LOAD, 5);
}

/* A straight stretch without friction presses on nothing. */
static bool tendon_load_is_none(const table *t, const kl_tendon_load *load)
{
    const double reach = load->to > load->from ? load->to - load->from : 1.0;
    const double noise = FIGURE_NOISE * t->force_scale;
    return fabs(load->across) * reach <= noise && fabs(load->along) * reach <= noise &&
           !(fabs(load->moment) > noise);
}

void table_build_tendon_loads(table *t, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    table_title(t, "Tendons as loads on the concrete, whole groups at their present force");
    tendon_add_load_columns(t);
    for (kl_index i = 0; i < s->state_count; ++i) {
        for (kl_index tendon = 0; tendon < model->tendon_count; ++tendon) {
            const kl_tendon_load *loads = NULL;
            kl_index count = 0;
            if (!selection_takes_tendon(s, model, tendon) ||
                !table_accepts(t, kl_tendon_loads(results, s->states[i], tendon, &loads, &count))) {
                continue;
            }
            for (kl_index k = 0; k < count && t->status == KL_OK; ++k) {
                if (tendon_load_is_none(t, &loads[k])) {
                    continue;
                }
                tendon_put_load(t, results, s->states[i], tendon, &loads[k]);
            }
        }
    }
    table_note(
        t, "Across + acts to the member's left hand (up on a level member), along + toward its "
           "end, moments + "
           "anticlockwise about the member's line. Together the loads of a tendon are in balance. "
           "Where it is straight and loses nothing it is no load, and has no row.");
}
