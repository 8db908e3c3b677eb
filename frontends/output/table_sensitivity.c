/* table_sensitivity.c - checks, elongations and camber of all variants side by side.
 *
 * A row has one quantity: as computed, in each variant, the least, the largest and what makes that.
 * SPDX-License-Identifier: MIT */
#include "sensitivity.h"

#include <math.h>
#include <string.h>

#include "label.h"

/* Rounding, of one or of the value. */
#define SENSITIVITY_SAME 1e-9

/* ---- columns that all have ------------------------------------------------------------------------------- */

/* In print a column of what does not apply is left out. */
static void sensitivity_add_variant(table *t, const sensitivity *s, int variant, kl_measure measure)
{
    const sensitivity_kind *kind = &sensitivity_kinds[variant / 2];
    const bool is_low = variant % 2 == 0;
    table_add(t, COLUMN_FIGURE, table_say(t, "%s_%s", kind->key, is_low ? "low" : "high"),
              table_say(t, "%s\nx %g", kind->heading, is_low ? kind->low : kind->high), measure, 4);
    if (!s->applies[variant / 2]) {
        table_detail(t);
    }
}

/* `key` of the quantity as computed: "ratio", "ratio_least", "ratio_largest". */
static void
sensitivity_add_values(table *t, const sensitivity *s, const char *key, kl_measure measure)
{
    table_add(t, COLUMN_FIGURE, key, table_say(t, "%s as\ncomputed", key), measure, 4);
    for (int i = 0; i < SENSITIVITY_VARIANTS; ++i) {
        sensitivity_add_variant(t, s, i, measure);
    }
    table_add(t, COLUMN_FIGURE, table_say(t, "%s_least", key), "least", measure, 4);
    table_add(t, COLUMN_FIGURE, table_say(t, "%s_largest", key), "largest", measure, 4);
    table_add_words(t, COLUMN_WORD, "made_by", "largest by");
}

/* Beyond a limit of zero there is no ratio to print. */
static void sensitivity_put_value(table *t, double value)
{
    table_put(t, isinf(value) ? (double)NAN : value);
}

/* @param varied NAN where there is no variant; values may be infinite. */
static void
sensitivity_put_values(table *t, double computed, const double varied[SENSITIVITY_VARIANTS])
{
    double least = computed, largest = computed;
    char makes[SENSITIVITY_LABEL] = "as computed";
    sensitivity_put_value(t, computed);
    for (int i = 0; i < SENSITIVITY_VARIANTS; ++i) {
        sensitivity_put_value(t, varied[i]);
        least = fmin(least, varied[i]);
        if (varied[i] > largest + SENSITIVITY_SAME * (1.0 + fabs(largest))) {
            largest = varied[i];
            sensitivity_label(makes, i);
        }
    }
    sensitivity_put_value(t, least);
    sensitivity_put_value(t, largest);
    table_put_text(t, makes);
}

static void sensitivity_note(table *t, const sensitivity *s)
{
    table_note(t,
               "Each variant alone, the rest as given; variants that change nothing here are left "
               "out. The ranges are those of practice, from memory, not of this job.");
    for (int i = 0; i < SENSITIVITY_VARIANTS; ++i) {
        if (s->trouble[i] != NULL) {
            char label[SENSITIVITY_LABEL];
            sensitivity_label(label, i);
            table_note(t, "Cannot be analysed with %s: %s", label, s->trouble[i]);
        }
    }
}

/* ---- checks --------------------------------------------------------------------------------------------- */

static bool sensitivity_is_same(const kl_check_result *a, const kl_check_result *b)
{
    return a->check == b->check && a->member == b->member && a->tendon == b->tendon &&
           a->face == b->face && strcmp(a->limit_name, b->limit_name) == 0;
}

/* The same limit in another report, most likely in the same row; NULL when it does not come up there. */
static const kl_check_result *
sensitivity_find(const kl_check_report *report, const kl_check_result *wanted, kl_index row)
{
    const kl_index count = report != NULL ? kl_check_result_count(report) : 0;
    for (kl_index i = 0; i < count; ++i) {
        const kl_check_result *r = kl_check_result_at(report, (row + i) % count);
        if (sensitivity_is_same(r, wanted)) {
            return r;
        }
    }
    return NULL;
}

static void sensitivity_put_check(table *t, const sensitivity *s, kl_index row)
{
    const kl_check_result *r = kl_check_result_at(s->report, row);
    const kl_model *model = kl_results_model(s->results);
    double varied[SENSITIVITY_VARIANTS];
    bool holds = true;
    for (int i = 0; i < SENSITIVITY_VARIANTS; ++i) {
        const kl_check_result *v = sensitivity_find(s->reports[i], r, row);
        varied[i] = v != NULL ? v->ratio : (double)NAN;
        holds = holds && (v == NULL || v->passed) && s->trouble[i] == NULL;
    }
    table_put_text(t, model->checks[r->check].name);
    table_put_text(t, r->limit_name);
    table_put_text(t, r->member != KL_NONE   ? model->members[r->member].name
                      : r->tendon != KL_NONE ? model->tendons[r->tendon].name
                                             : "");
    table_put_text(t, label_face(r->face));
    sensitivity_put_values(t, r->ratio, varied);
    table_put_text(t, !r->passed ? "FAILS" : holds ? "passes" : "may fail");
}

static void sensitivity_build_checks(table *t, const sensitivity *s)
{
    table_title(t, "Ratio of each check, as what nobody knows well varies");
    table_add_words(t, COLUMN_WORD, "check", "check");
    table_add_words(t, COLUMN_WORD, "limit_name", "limit");
    table_add_words(t, COLUMN_WORD, "on", "on");
    table_add_words(t, COLUMN_WORD, "face", "face");
    sensitivity_add_values(t, s, "ratio", KL_MEASURE_NUMBER);
    table_add_words(t, COLUMN_WORD, "verdict", "verdict");
    for (kl_index i = 0; i < kl_check_result_count(s->report); ++i) {
        sensitivity_put_check(t, s, i);
    }
    sensitivity_note(t, s);
    table_note(t, "Beside a limit of 0 there is no ratio.");
}

/* ---- elongations ---------------------------------------------------------------------------------------- */

static void sensitivity_put_pull(table *t, const sensitivity *s, kl_index pull, int end)
{
    const kl_index row = 2 * pull + end;
    double varied[SENSITIVITY_VARIANTS];
    double most = s->draw[row];
    for (int i = 0; i < SENSITIVITY_VARIANTS; ++i) {
        varied[i] = s->draws[i] != NULL ? s->draws[i][row] : (double)NAN;
        most = fmax(most, varied[i]);
    }
    kl_index tendon = 0;
    kl_stressing g;
    if (!(most > 0.0) || kl_pull_at(s->results, pull, &tendon, &g) != KL_OK) {
        return; /* no jack there */
    }
    char step[LABEL_SIZE] = "";
    if (g.step != KL_NONE) {
        label_step(step, s->results, g.step);
    }
    table_put_text(t, kl_results_model(s->results)->tendons[tendon].name);
    table_put_text(t, step);
    table_put_text(t, end == 0 ? "start" : "end");
    sensitivity_put_values(t, s->draw[row], varied);
}

static void sensitivity_build_elongations(table *t, const sensitivity *s)
{
    table_title(t, "Elongation at each jack, as what nobody knows well varies");
    table_add_words(t, COLUMN_WORD, "tendon", "tendon");
    table_add_words(t, COLUMN_WORD, "step", "step");
    table_add_words(t, COLUMN_WORD, "end", "at");
    sensitivity_add_values(t, s, "elongation", KL_MEASURE_SIZE);
    for (kl_index i = 0; i < s->pull_count; ++i) {
        sensitivity_put_pull(t, s, i, 0);
        sensitivity_put_pull(t, s, i, 1);
    }
    sensitivity_note(t, s);
    table_note(
        t, "Elongation before seating, the part in the grip included, without the concrete's own "
           "shortening, as in `table stressing`. The gauge follows from the jack's force and does "
           "not vary.");
}

/* ---- camber --------------------------------------------------------------------------------------------- */

static void sensitivity_put_camber(table *t, const sensitivity *s, kl_index member)
{
    const kl_peak *peak = &s->places[member].peak;
    double varied[SENSITIVITY_VARIANTS];
    for (int i = 0; i < SENSITIVITY_VARIANTS; ++i) {
        varied[i] = s->cambers[i] != NULL ? s->cambers[i][member] : (double)NAN;
    }
    table_put_text(t, kl_results_model(s->results)->members[member].name);
    table_put(t, peak->station);
    sensitivity_put_values(t, peak->value, varied);
}

static void sensitivity_build_camber(table *t, const sensitivity *s)
{
    table_title(t, "Camber where it is largest, as what nobody knows well varies");
    table_add_words(t, COLUMN_WORD, "member", "member");
    table_add(t, COLUMN_EXACT, "station", "at", KL_MEASURE_STATION, 2);
    sensitivity_add_values(t, s, "camber", KL_MEASURE_DEFLECTION);
    for (kl_index m = 0; m < kl_results_model(s->results)->member_count; ++m) {
        if (s->places[m].is_there && !label_is_steep(kl_results_model(s->results), m)) {
            sensitivity_put_camber(t, s, m);
        }
    }
    sensitivity_note(t, s);
    table_note(
        t, "Camber after the last stage, for each member that lies and stands then, at the place "
           "where it is largest as computed, up or down. + raises the form.");
}

const sensitivity_table sensitivity_tables[SENSITIVITY_TABLES] = {
    {"checks", sensitivity_build_checks},
    {"elongations", sensitivity_build_elongations},
    {"camber", sensitivity_build_camber},
};
