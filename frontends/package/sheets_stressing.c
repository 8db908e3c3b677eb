/* sheets_stressing.c - sheet 8, for the site: each pull of each tendon at each end, gauge and movement to be expected at the
 * readings, and room for what is read.
 *
 * A tendon pulled from slack moves in proportion to the jack's force. An end that is pulled after the other, or a tendon that
 * is pulled again, stays until the jack has passed the force that is locked in.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "maker.h"
#include "near.h"

#define PULL_READINGS 5
#define PULL_BAND     0.05
#define PULL_LIMIT    40
#define PULL_APART    1e-6 /* shares that differ by less are one reading */

typedef struct pull_end {
    const kl_tendon *tendon;
    const kl_stressing *done;
    kl_index pull; /* its number among all pulls */
    int end;
} pull_end;

static double pull_movement(maker *m, const pull_end *p, double share)
{
    double movement = NAN;
    return maker_accepts(m, kl_pull_movement(m->results, p->pull, p->end, share, &movement))
               ? movement
               : (double)NAN;
}

static bool pull_is_in_proportion(maker *m, const pull_end *p)
{
    return near_equal(pull_movement(m, p, 0.5), 0.5 * p->done->elongation[p->end], PULL_APART, 0.0);
}

/* From the first reading on, without the draw-in of the far anchor: nobody knows when it happens. */
static double pull_since_reference(maker *m, const pull_end *p, double share)
{
    const double reference = p->tendon->reference;
    if (!(reference > 0.0) || share < reference) {
        return NAN;
    }
    return fmax(0.0, pull_movement(m, p, share) - p->done->before_reference[p->end]);
}

static void pull_put_reading(maker *m, table *t, const pull_end *p, double share)
{
    table_put(t, share);
    table_put(t, share * p->done->jack_force);
    table_put(t, kl_tendon_gauge(p->tendon, share * p->done->jack_force));
    table_put(t, pull_movement(m, p, share));
    table_put(t, pull_since_reference(m, p, share));
    table_put_text(t, "");
    table_put_text(t, "");
}

/* At every fifth of the force, and at the first reading that the model names, wherever it lies. */
static void pull_put_readings(maker *m, const pull_end *p)
{
    table *t = package_table(m->package);
    if (!t) {
        return;
    }
    table_start(t, "readings", &m->model->display);
    table_title(t, "Readings of one tendon");
    table_add(t, COLUMN_EXACT, "share", "of the\nforce", KL_MEASURE_RATIO, 1);
    table_add(t, COLUMN_FIGURE, "force", "force at\nthe jack", KL_MEASURE_FORCE, 4);
    table_add(t, COLUMN_FIGURE, "gauge", "gauge", KL_MEASURE_PRESSURE, 4);
    table_add(t, COLUMN_FIGURE, "movement", "movement", KL_MEASURE_DEFLECTION, 3);
    table_add(t, COLUMN_FIGURE, "since_reference", "movement from\nthe first reading",
              KL_MEASURE_DEFLECTION, 3);
    table_add_words(t, COLUMN_WORD, "gauge_read", "gauge\nread");
    table_blank(t);
    table_add_words(t, COLUMN_WORD, "movement_read", "movement\nread");
    table_blank(t);
    double last = 0.0;
    for (int i = 1; i <= PULL_READINGS; i++) {
        const double share = (double)i / PULL_READINGS;
        if (p->tendon->reference > last * (1.0 + PULL_APART) &&
            p->tendon->reference < share * (1.0 - PULL_APART)) {
            pull_put_reading(m, t, p, p->tendon->reference);
        }
        pull_put_reading(m, t, p, share);
        last = share;
    }
    if (p->done->dead_end[p->end] > 0.0) {
        char draw[FIGURE_SIZE + 20];
        table_note(t,
                   "The far anchor draws in on the way: %s that are not in these rows, but in what "
                   "is expected.",
                   maker_figure(m, draw, p->done->dead_end[p->end], KL_MEASURE_DEFLECTION));
    }
    if (!pull_is_in_proportion(m, p)) {
        table_note(t, "This end stays until the jack has passed the force that is locked in; up to "
                      "there the grip alone stretches.");
    }
    maker_accepts(m, t->status);
}

static void pull_put_band(maker *m, const pull_end *p)
{
    const double from = table_between_readings(p->tendon, p->done, p->end);
    const double expected =
        isnan(from) ? p->done->elongation[p->end] + p->done->dead_end[p->end] : from;
    char low[FIGURE_SIZE + 20];
    char high[FIGURE_SIZE + 20];
    char middle[FIGURE_SIZE + 20];
    package_fact(m->package, BLOCK_FACTS,
                 isnan(from) ? "Movement expected" : "Movement expected between the readings",
                 "%s; within %.0f %%: %s to %s (the contract's own band governs)",
                 maker_figure(m, middle, expected, KL_MEASURE_DEFLECTION), 100.0 * PULL_BAND,
                 maker_figure(m, low, (1.0 - PULL_BAND) * expected, KL_MEASURE_DEFLECTION),
                 maker_figure(m, high, (1.0 + PULL_BAND) * expected, KL_MEASURE_DEFLECTION));
}

/* "T1: 27 strands of 0.217 in^2; 4 such tendons in the group", "B1: one bar of 1.58 in^2". */
static void pull_put_steel(maker *m, const kl_tendon *tendon)
{
    static const char *const names[2][2] = {{"strand", "strands"}, {"bar", "bars"}};
    const bool is_one = near_equal(tendon->units, 1.0, NEAR_ROUNDING, 0.0);
    const double area =
        tendon->unit_area / kl_show_factor(&m->model->display, KL_MEASURE_STEEL_AREA);
    char units[FIGURE_SIZE] = "one";
    char each[FIGURE_SIZE];
    char group[60] = "";
    if (!is_one) {
        snprintf(units, sizeof units, "%g", tendon->units);
    }
    if (tendon->count > 1) {
        snprintf(group, sizeof group, "; %d such tendons in the group", (int)tendon->count);
    }
    figure_exact(each, area, figure_exact_decimals(area, 4));
    package_fact(m->package, BLOCK_FACTS, "Tendon", "%s: %s %s of %s %s%s", tendon->name, units,
                 names[tendon->is_bar][!is_one], each,
                 kl_show_unit(&m->model->display, KL_MEASURE_STEEL_AREA), group);
}

/* What the other jack, or a pull before, has to do with this one. */
static void pull_put_company(maker *m, const pull_end *p)
{
    if (p->tendon->jack_ends == KL_JACK_BOTH) {
        package_fact(m->package, BLOCK_FACTS, "Both ends", "%s",
                     "pulled together, in step; the other end has a sheet of its own");
    }
    if (p->done->was_seated) {
        package_fact(m->package, BLOCK_FACTS, "Pulled before", "%s",
                     "the movement counts from the force that is locked in, not from slack");
    }
}

static void pull_put_seating(maker *m, const pull_end *p)
{
    char set[FIGURE_SIZE + 20];
    char then[FIGURE_SIZE + 20];
    const double seated = p->done->seated_at[p->end];
    const double last = p->done->force_at[p->end];
    package_fact(m->package, BLOCK_FACTS, "Seating", "%s; force behind this anchor then %s",
                 maker_figure(m, set, p->tendon->seating, KL_MEASURE_DEFLECTION),
                 maker_figure(m, then, seated, KL_MEASURE_FORCE));
    if (!near_equal(seated, last, PULL_APART, 0.0)) {
        maker_fact(m, "Force behind it after the other end", last, KL_MEASURE_FORCE);
    }
}

static void pull_put_facts(maker *m, const pull_end *p)
{
    const kl_tendon *tendon = p->tendon;
    char room[FIGURE_SIZE + 20];
    pull_put_steel(m, tendon);
    pull_put_company(m, p);
    package_fact(m->package, BLOCK_FACTS, "Force at the jack", "%s, %.3f of the ultimate",
                 maker_figure(m, room, p->done->jack_force, KL_MEASURE_FORCE),
                 p->done->jack_stress / m->model->materials[tendon->material].ultimate);
    if (!isnan(tendon->ram_area)) {
        package_fact(m->package, BLOCK_FACTS, "Ram",
                     "%s, friction %.3g %% in the jack, %.3g %% in the anchorage",
                     maker_figure(m, room, tendon->ram_area, KL_MEASURE_STEEL_AREA),
                     100.0 * tendon->jack_friction, 100.0 * tendon->anchorage_friction);
    } else {
        package_fact(m->package, BLOCK_FACTS, "Ram", "%s",
                     "not given: `ram` in the tendon's block, the piston area of the jack, and "
                     "`jack_friction` give the gauge");
    }
    if (isnan(tendon->reference)) {
        package_fact(m->package, BLOCK_FACTS, "First reading", "%s",
                     "not given: `reference` in the tendon's block, its share of the force, gives "
                     "the movement from it on");
    }
    pull_put_band(m, p);
    pull_put_seating(m, p);
    if (p->done->grip[p->end] > 0.0) {
        maker_fact(m, "Of the movement, in the grip", p->done->grip[p->end], KL_MEASURE_DEFLECTION);
    }
    if (p->done->dead_end[p->end] > 0.0) {
        maker_fact(m, "Of the movement, draw-in of the far anchor", p->done->dead_end[p->end],
                   KL_MEASURE_DEFLECTION);
    }
    maker_fact(m,
               tendon->count > 1 ? "The concrete shortens by, beside it, under the whole group"
                                 : "The concrete shortens by, beside it",
               p->done->concrete_shortening, KL_MEASURE_DEFLECTION);
}

static void pull_put(maker *m, const pull_end *p, int order)
{
    char step[LABEL_SIZE] = "";
    if (p->done->step != KL_NONE) {
        label_step(step, m->results, p->done->step);
    }
    package_text(m->package, BLOCK_HEADING, "%d. %s at its %s%s%s", order, p->tendon->name,
                 p->end == 0 ? "start" : "end", step[0] != '\0' ? ", " : "", step);
    pull_put_facts(m, p);
    pull_put_readings(m, p);
    if (p->tendon->count > 1) {
        package_fact(m->package, BLOCK_BLANKS, "Tendon no.", "%s", "");
    }
    package_fact(m->package, BLOCK_BLANKS, "Gauge no.", "%s", "");
    package_fact(m->package, BLOCK_BLANKS, "Movement measured", "%s", "");
    package_fact(m->package, BLOCK_BLANKS, "Seating measured", "%s", "");
    package_fact(m->package, BLOCK_BLANKS, "Date, by", "%s", "");
}

void sheet_stressing(maker *m)
{
    const kl_index count = kl_pull_count(m->results);
    int order = 0;
    int left_out = 0;
    if (count == 0) {
        return;
    }
    package_text(m->package, BLOCK_ALERT,
                 "Stressing follows the approved procedure. Never stand behind a jack.");
    for (kl_index i = 0; i < count; i++) {
        kl_index tendon;
        kl_stressing done;
        const kl_status status = kl_pull_at(m->results, i, &tendon, &done);
        const bool has_room = order < PULL_LIMIT; /* for both ends */
        for (int k = 0; k < 2 && maker_accepts(m, status); k++) {
            const bool from_end = m->model->tendons[tendon].jack_ends == KL_JACK_END_THEN_START;
            const pull_end p = {&m->model->tendons[tendon], &done, i, from_end ? 1 - k : k};
            if (done.elongation[p.end] > 0.0 && has_room) {
                pull_put(m, &p, ++order);
            } else if (done.elongation[p.end] > 0.0) {
                left_out++;
            }
        }
    }
    if (left_out > 0) {
        package_text(m->package, BLOCK_ALERT,
                     "%d more pulls have no sheet here: `table stressing` and the list of all "
                     "pulls have them.",
                     left_out);
    }
    const selection_wish none = selection_wish_none();
    package_text(m->package, BLOCK_HEADING, "All pulls");
    maker_table(m, "stressing", &none);
}
