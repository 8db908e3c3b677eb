/* table_stressing.c - each pull of each tendon.
 * SPDX-License-Identifier: MIT */
#include "tables.h"

#include <math.h>

#include "label.h"

static void stressing_add_columns(table *t)
{
    table_add_words(t, COLUMN_WORD, "tendon", "tendon");
    table_add(t, COLUMN_WHOLE, "count", "tendons\nin group", KL_MEASURE_NUMBER, 0);
    table_add_words(t, COLUMN_WORD, "step", "step");
    table_add(t, COLUMN_FIGURE, "pulled_to", "pulled\nto", KL_MEASURE_RATIO, 3);
    table_add(t, COLUMN_FIGURE, "gauge", "gauge", KL_MEASURE_PRESSURE, 4);
    table_add(t, COLUMN_FIGURE, "jack_force", "jack\nforce", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_FIGURE, "jack_stress", "jack\nstress", KL_MEASURE_STRESS, 5);
    table_detail(t);
    table_add(t, COLUMN_FIGURE, "jack_share", "share of\nultimate", KL_MEASURE_NUMBER, 4);
    table_add(t, COLUMN_FIGURE, "force_start", "seated\nat start", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_FIGURE, "force_end", "seated\nat end", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_FIGURE, "smallest_force", "smallest\nforce", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_EXACT, "smallest_station", "at", KL_MEASURE_STATION, 2);
    table_add(t, COLUMN_FIGURE, "largest_force", "largest\nforce", KL_MEASURE_FORCE, 5);
    table_detail(t);
    table_add(t, COLUMN_EXACT, "largest_station", "at", KL_MEASURE_STATION, 2);
    table_detail(t);
    table_add(t, COLUMN_FIGURE, "elongation_start", "elongation\nat start", KL_MEASURE_SIZE, 4);
    table_add(t, COLUMN_FIGURE, "elongation_end", "elongation\nat end", KL_MEASURE_SIZE, 4);
    table_add(t, COLUMN_FIGURE, "between_readings_start", "from reference\nat start",
              KL_MEASURE_SIZE, 4);
    table_add(t, COLUMN_FIGURE, "between_readings_end", "from reference\nat end", KL_MEASURE_SIZE,
              4);
    table_add(t, COLUMN_FIGURE, "grip_start", "in the grip\nat start", KL_MEASURE_SIZE, 4);
    table_detail(t);
    table_add(t, COLUMN_FIGURE, "grip_end", "in the grip\nat end", KL_MEASURE_SIZE, 4);
    table_detail(t);
    table_add(t, COLUMN_FIGURE, "dead_end", "draw-in of\nfar anchor", KL_MEASURE_SIZE, 4);
    table_detail(t);
    table_add(t, COLUMN_FIGURE, "seating_start", "set runs\nfrom start", KL_MEASURE_STATION, 4);
    table_add(t, COLUMN_FIGURE, "seating_end", "set runs\nfrom end", KL_MEASURE_STATION, 4);
    table_add(t, COLUMN_FLAG, "seating_reaches_far_end", "set reaches\nfar end", KL_MEASURE_NUMBER,
              0);
    table_detail(t);
    table_add(t, COLUMN_FIGURE, "concrete_shortening", "concrete\nshortens", KL_MEASURE_SIZE, 3);
}

double table_between_readings(const kl_tendon *tendon, const kl_stressing *stressing, int end)
{
    if (!(stressing->elongation[end] > 0.0) || !(tendon->reference > 0.0)) {
        return NAN;
    }
    return stressing->elongation[end] - stressing->before_reference[end] + stressing->dead_end[end];
}

double table_elongation(const kl_stressing *g, int end)
{
    return g->elongation[end] > 0.0 ? g->elongation[end] : (double)NAN;
}

static void
stressing_put(table *t, const kl_results *results, kl_index tendon, const kl_stressing *g)
{
    const kl_model *model = kl_results_model(results);
    const kl_tendon *tn = &model->tendons[tendon];
    char step[LABEL_SIZE] = "";
    if (g->step != KL_NONE) {
        label_step(step, results, g->step);
    }
    table_put_text(t, tn->name);
    table_put(t, (double)tn->count);
    table_put_text(t, step);
    table_put(t, g->share);
    table_put(t, kl_tendon_gauge(tn, g->jack_force));
    table_put(t, g->jack_force);
    table_put(t, g->jack_stress);
    table_put(t, g->jack_stress / model->materials[tn->material].ultimate);
    table_put(t, g->force_at[0]);
    table_put(t, g->force_at[1]);
    table_put(t, g->smallest_force);
    table_put(t, g->smallest_station);
    table_put(t, g->largest_force);
    table_put(t, g->largest_station);
    for (int end = 0; end < 2; ++end) {
        table_put(t, table_elongation(g, end));
    }
    for (int end = 0; end < 2; ++end) {
        table_put(t, table_between_readings(tn, g, end));
    }
    table_put(t, g->grip[0]);
    table_put(t, g->grip[1]);
    table_put(t, g->dead_end[0] + g->dead_end[1]); /* at most one of them is pulled against it */
    table_put(t, g->seating_length[0]);
    table_put(t, g->seating_length[1]);
    table_put_flag(t, g->seating_reaches_far_end);
    table_put(t, g->concrete_shortening);
}

#define LACK_NAMES 6

/* "T1, T2 and 3 more": the tendons that do not give what `lacks` asks for; "" when all do. */
static const char *
stressing_name_lacking(table *t, const kl_model *model, bool (*lacks)(const kl_tendon *))
{
    const char *names = "";
    int count = 0;
    for (kl_index i = 0; i < model->tendon_count; ++i) {
        if (lacks(&model->tendons[i]) && ++count <= LACK_NAMES) {
            names = table_say(t, "%s%s%s", names, count > 1 ? ", " : "", model->tendons[i].name);
        }
    }
    return count > LACK_NAMES ? table_say(t, "%s and %d more", names, count - LACK_NAMES) : names;
}

static bool stressing_lacks_ram(const kl_tendon *tendon)
{
    return isnan(tendon->ram_area);
}

static bool stressing_lacks_reference(const kl_tendon *tendon)
{
    return isnan(tendon->reference);
}

/* A column without figures says what the model would have to give for them. */
static void stressing_note_lacking(table *t, const kl_model *model)
{
    const char *ram = stressing_name_lacking(t, model, stressing_lacks_ram);
    const char *reference = stressing_name_lacking(t, model, stressing_lacks_reference);
    if (ram[0] != '\0') {
        table_note(t,
                   "No gauge for %s: no `ram` is given, the piston area of the jack (and "
                   "`jack_friction`).",
                   ram);
    }
    if (reference[0] != '\0') {
        table_note(t,
                   "Nothing from reference for %s: no `reference` is given, the share of the force "
                   "at the first reading (and `grip`).",
                   reference);
    }
}

void table_build_stressing(table *t, kl_results *results, const selection *s)
{
    (void)s;
    table_title(t, "Stressing, each tendon of a group by itself");
    stressing_add_columns(t);
    for (kl_index i = 0; i < kl_pull_count(results) && t->status == KL_OK; ++i) {
        kl_index tendon;
        kl_stressing g;
        if (table_accepts(t, kl_pull_at(results, i, &tendon, &g))) {
            stressing_put(t, results, tendon, &g);
        }
    }
    table_note(
        t, "Elongation: what the tendon moves at that jack before seating, the part in the grip "
           "included, from slack or, when it is pulled again, from what is left in it then. From "
           "reference: of that what comes after the first reading (`reference`), with the draw-in "
           "of the far anchor. The concrete's own shortening is beside it, not in it.");
    table_note(t, "Gauge: jack force / (ram (1 - jack friction)). Just inside the anchor: jack "
                  "force (1 - anchorage friction).");
    stressing_note_lacking(t, kl_results_model(results));
}
