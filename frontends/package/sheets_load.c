/* sheets_load.c - sheet 5: every load of every case, and what each case comes to.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "load_sum.h"
#include "maker.h"

#define LOAD_ROWS 400

static const char *load_kind_name(const kl_load *load)
{
    switch (load->kind) {
    case KL_LOAD_WEIGHT:
        return "weight of members";
    case KL_LOAD_POINT:
        return "point";
    case KL_LOAD_DISTRIBUTED:
        return load->per_level ? "distributed, per level length" : "distributed";
    case KL_LOAD_MOMENT:
        return "moment";
    case KL_LOAD_SETTLE:
        return "movement";
    case KL_LOAD_TURN:
        return "rotation";
    case KL_LOAD_TEMPERATURE:
        return "temperature";
    case KL_LOAD_GRADIENT:
        return "gradient, top warmer";
    case KL_LOAD_PROFILE:
        return "temperature by depth";
    case KL_LOAD_TENDON:
        return "tendon";
    }
    return "";
}

static kl_measure load_measure(const kl_load *load)
{
    switch (load->kind) {
    case KL_LOAD_POINT:
        return KL_MEASURE_FORCE;
    case KL_LOAD_DISTRIBUTED:
        return KL_MEASURE_LINE_LOAD;
    case KL_LOAD_MOMENT:
        return KL_MEASURE_MOMENT;
    case KL_LOAD_SETTLE:
        return KL_MEASURE_DEFLECTION;
    case KL_LOAD_TURN:
        return KL_MEASURE_ROTATION;
    case KL_LOAD_TEMPERATURE:
    case KL_LOAD_GRADIENT:
        return KL_MEASURE_TEMPERATURE;
    case KL_LOAD_WEIGHT:
    case KL_LOAD_PROFILE:
    case KL_LOAD_TENDON:
        return KL_MEASURE_NUMBER;
    }
    return KL_MEASURE_NUMBER;
}

static bool load_has_direction(const kl_load *load)
{
    return load->kind == KL_LOAD_POINT || load->kind == KL_LOAD_DISTRIBUTED ||
           load->kind == KL_LOAD_SETTLE;
}

static const char *load_direction(table *t, const kl_load *load)
{
    static const char *const names[2][4] = {{"right", "left", "up", "down"},
                                            {"along", "against", "to its top", "to its bottom"}};
    const char *const *axis = names[load->frame == KL_LOCAL];
    if (!load_has_direction(load)) {
        return "";
    }
    if (fabs(load->dy) < 1e-9) {
        return load->dx > 0.0 ? axis[0] : axis[1];
    }
    if (fabs(load->dx) < 1e-9) {
        return load->dy > 0.0 ? axis[2] : axis[3];
    }
    return table_say(t, "%.4g %s, %.4g %s", load->dx, axis[0], load->dy, axis[2]);
}

static const char *load_on(const kl_model *model, const kl_load *load)
{
    if (load->node != KL_NONE) {
        return model->nodes[load->node].name;
    }
    if (load->kind == KL_LOAD_TENDON) {
        return model->tendons[load->tendon].name;
    }
    return load->member != KL_NONE ? model->members[load->member].name : "all members";
}

static const char *load_value(table *t, const kl_load *load, double value)
{
    const kl_measure measure = load_measure(load);
    if (isnan(value) || measure == KL_MEASURE_NUMBER) {
        return "";
    }
    return table_say(t, "%.6g %s", value / kl_show_factor(&t->display, measure),
                     kl_show_unit(&t->display, measure));
}

static void load_put(table *t, const kl_model *model, const kl_case *c, const kl_load *load)
{
    const bool is_spread = load->kind == KL_LOAD_DISTRIBUTED;
    const bool has_place = load->member != KL_NONE && (is_spread || load->kind == KL_LOAD_POINT ||
                                                       load->kind == KL_LOAD_MOMENT);
    const double to = isnan(load->to) && load->member != KL_NONE
                          ? kl_member_length(model, load->member)
                          : load->to;
    table_put_text(t, c->name);
    table_put_text(t, load_kind_name(load));
    table_put_text(t, load_on(model, load));
    table_put(t, has_place ? load->from : (double)NAN);
    table_put(t, is_spread ? to : (double)NAN);
    table_put_text(t, load_value(t, load, load->value));
    table_put_text(t, is_spread ? load_value(t, load, load->value_end) : "");
    table_put_text(t, load_direction(t, load));
}

static void load_build_all(table *t, kl_results *results, const selection *s)
{
    (void)s;
    const kl_model *model = kl_results_model(results);
    table_title(t, "Loads of each case");
    table_add_words(t, COLUMN_GROUP, "case", "case");
    table_add_words(t, COLUMN_WORD, "kind", "load");
    table_add_words(t, COLUMN_WORD, "on", "on");
    table_add(t, COLUMN_EXACT, "from", "from", KL_MEASURE_STATION, 3);
    table_add(t, COLUMN_EXACT, "to", "to", KL_MEASURE_STATION, 3);
    table_add_words(t, COLUMN_MARK, "value", "value");
    table_add_words(t, COLUMN_MARK, "value_end", "value\nat the end");
    table_add_words(t, COLUMN_WORD, "direction", "direction");
    kl_index left_out = 0;
    for (kl_index i = 0; i < model->case_count; i++) {
        for (kl_index k = 0; k < model->cases[i].load_count; k++) {
            if (table_row_count(t) < LOAD_ROWS) {
                load_put(t, model, &model->cases[i], &model->cases[i].loads[k]);
            } else {
                left_out++;
            }
        }
    }
    if (left_out > 0) {
        table_note(t, "%d more loads are not shown: the model's text on sheet 22 has them.",
                   (int)left_out);
    }
}

/* Where the resultant crosses the level through the origin: x with x Fy = M. */
static void load_build_totals(table *t, kl_results *results, const selection *s)
{
    (void)s;
    const kl_model *model = kl_results_model(results);
    table_title(t, "What each case comes to");
    table_add_words(t, COLUMN_WORD, "case", "case");
    table_add(t, COLUMN_WHOLE, "loads", "loads", KL_MEASURE_NUMBER, 0);
    table_add(t, COLUMN_FIGURE, "x", "sum\nto the right", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_FIGURE, "y", "sum\nupward", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_FIGURE, "about", "moment about\nthe origin", KL_MEASURE_MOMENT, 5);
    table_add(t, COLUMN_FIGURE, "centroid", "acts\nat x", KL_MEASURE_STATION, 5);
    for (kl_index i = 0; i < model->case_count; i++) {
        const load_share share = {i, 1.0};
        load_sum sum = {0};
        if (!table_accepts(t, load_sum_add(&sum, results, &share))) {
            return;
        }
        const double about = load_sum_about(&sum);
        const bool is_upright =
            fabs(sum.force[0]) <= 1e-9 * fabs(sum.force[1]) && fabs(sum.force[1]) > 0.0;
        table_put_text(t, model->cases[i].name);
        table_put(t, (double)model->cases[i].load_count);
        table_put(t, sum.force[0]);
        table_put(t, sum.force[1]);
        table_put(t, about);
        table_put(t, is_upright ? about / sum.force[1] : (double)NAN);
    }
    table_note(t, "Summed from the model alone. Temperature, movements and tendons are not in it.");
}

void sheet_loads(maker *m)
{
    const selection_wish none = selection_wish_none();
    if (m->model->case_count == 0) {
        return;
    }
    maker_own_table(m, "load_totals", load_build_totals, SELECTION_NONE, &none);
    maker_picture(m, "loads", &none);
    maker_own_table(m, "loads", load_build_all, SELECTION_NONE, &none);
}
