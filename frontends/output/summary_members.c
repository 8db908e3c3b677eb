/* summary_members.c - the extremes of members: case by case, or step by step.
 *
 * The peaks come from the exact course along the member, not from sampled stations.
 * SPDX-License-Identifier: MIT */
#include "summary_tables.h"

#include <math.h>
#include <string.h>

#include "label.h"
#include "near.h"

#define SUMMARY_FULL_ROWS                                                                          \
    24 /* members times steps up to which every step of every member is shown */

typedef struct member_range {
    kl_peak smallest, largest;
} member_range;

static member_range member_extremes(table *t,
                                    const kl_results *results,
                                    kl_state state,
                                    kl_quantity quantity,
                                    kl_part part,
                                    kl_index member)
{
    const kl_peak nothing = {NAN, NAN, KL_RIGHT};
    member_range range = {nothing, nothing};
    const double length = kl_member_length(kl_results_model(results), member);
    const kl_status status = kl_range_on_member(results, state, quantity, part, member, 0.0, length,
                                                &range.smallest, &range.largest);
    return table_accepts(t, status) ? range : (member_range){nothing, nothing};
}

/* The value that is largest in size, with its sign. */
static kl_peak member_largest(table *t,
                              const kl_results *results,
                              kl_state state,
                              kl_quantity quantity,
                              kl_part part,
                              kl_index member)
{
    const member_range range = member_extremes(t, results, state, quantity, part, member);
    /* Equal sizes up to rounding (a symmetric course) must not flip from machine to machine. */
    return fabs(range.smallest.value) > fabs(range.largest.value) * (1.0 + 1e-9) ? range.smallest
                                                                                 : range.largest;
}

static void member_put_peak(table *t, kl_peak peak)
{
    table_put(t, peak.value);
    table_put(t, peak.station);
}

/* The largest moment and where, then the smallest. */
static void member_put_moments(
    table *t, const kl_results *results, kl_state state, kl_part part, kl_index member)
{
    const member_range range = member_extremes(t, results, state, KL_MOMENT, part, member);
    member_put_peak(t, range.largest);
    member_put_peak(t, range.smallest);
}

static double
member_end_moment(table *t, const kl_results *results, kl_state state, kl_index member, bool at_end)
{
    const double station = at_end ? kl_member_length(kl_results_model(results), member) : 0.0;
    return table_member_value(t, results, state, KL_MOMENT, KL_TOTAL, member, station,
                              at_end ? KL_LEFT : KL_RIGHT);
}

/* ---- without stages ------------------------------------------------------------------------------------- */

static void member_add_columns(table *t)
{
    table_add_state(t);
    table_add_words(t, COLUMN_WORD, "member", "member");
    table_add(t, COLUMN_FIGURE, "moment_start", "moment\nat start", KL_MEASURE_MOMENT, 5);
    table_add(t, COLUMN_FIGURE, "moment_end", "moment\nat end", KL_MEASURE_MOMENT, 5);
    table_add(t, COLUMN_FIGURE, "moment_largest", "moment\nlargest", KL_MEASURE_MOMENT, 5);
    table_add(t, COLUMN_EXACT, "moment_largest_station", "at", KL_MEASURE_STATION, 2);
    table_add(t, COLUMN_FIGURE, "moment_smallest", "moment\nsmallest", KL_MEASURE_MOMENT, 5);
    table_add(t, COLUMN_EXACT, "moment_smallest_station", "at", KL_MEASURE_STATION, 2);
    table_add(t, COLUMN_FIGURE, "shear", "largest\nshear", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_FIGURE, "axial", "largest\naxial", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_FIGURE, "deflection", "largest\ndeflection", KL_MEASURE_DEFLECTION, 4);
    table_add(t, COLUMN_EXACT, "deflection_station", "at", KL_MEASURE_STATION, 2);
    table_add(t, COLUMN_FIGURE, "sway", "largest\nsway", KL_MEASURE_DEFLECTION, 4);
}

static void member_put(table *t, const kl_results *results, kl_state state, kl_index member)
{
    table_put_state(t, results, state);
    table_put_text(t, kl_results_model(results)->members[member].name);
    table_put(t, member_end_moment(t, results, state, member, false));
    table_put(t, member_end_moment(t, results, state, member, true));
    member_put_moments(t, results, state, KL_TOTAL, member);
    table_put(t, member_largest(t, results, state, KL_SHEAR, KL_TOTAL, member).value);
    table_put(t, member_largest(t, results, state, KL_AXIAL, KL_TOTAL, member).value);
    member_put_peak(t, member_largest(t, results, state, KL_DEFLECTION, KL_TOTAL, member));
    table_put(t, member_largest(t, results, state, KL_SWAY, KL_TOTAL, member).value);
}

/* The members that hold the largest and the smallest moment of a state; KL_NONE: nothing stands. */
typedef struct member_pair {
    kl_index largest, smallest;
} member_pair;

static member_pair member_governing(table *t, const kl_results *results, kl_state state)
{
    member_pair pair = {KL_NONE, KL_NONE};
    double largest = 0.0;
    double smallest = 0.0;
    for (kl_index member = 0; member < kl_results_model(results)->member_count; ++member) {
        if (!kl_member_stands(results, state, member)) {
            continue;
        }
        const member_range range = member_extremes(t, results, state, KL_MOMENT, KL_TOTAL, member);
        const double high = range.largest.value;
        const double low = range.smallest.value;
        /* As in member_largest: rounding must not choose between equals. */
        if (pair.largest == KL_NONE || high > largest + 1e-9 * fabs(largest)) {
            pair.largest = member;
            largest = high;
        }
        if (pair.smallest == KL_NONE || low < smallest - 1e-9 * fabs(smallest)) {
            pair.smallest = member;
            smallest = low;
        }
    }
    return pair;
}

/* Of a large model the first members, and wherever they are those with the extremes. */
void summary_build_members(table *t, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    const bool is_large = (double)model->member_count * s->state_count > SUMMARY_ROW_LIMIT;
    table_title(t, "Members: end moments and extremes (total actions)");
    member_add_columns(t);
    kl_index left_out = 0;
    for (kl_index i = 0; i < s->state_count; ++i) {
        const kl_state state = s->states[i];
        const member_pair governs =
            is_large ? member_governing(t, results, state) : (member_pair){KL_NONE, KL_NONE};
        for (kl_index member = 0; member < model->member_count; ++member) {
            if (!kl_member_stands(results, state, member)) {
                continue;
            }
            if (table_row_count(t) < SUMMARY_ROW_LIMIT || member == governs.largest ||
                member == governs.smallest) {
                member_put(t, results, state, member);
            } else {
                ++left_out;
            }
        }
    }
    if (left_out > 0) {
        table_note(t,
                   "%d more rows, whose moments lie between these: see `table ends` and `table "
                   "actions`.",
                   (int)left_out);
    }
}

/* ---- with stages ---------------------------------------------------------------------------------------- */

static void course_add_stress_columns(table *t)
{
    table_add(t, COLUMN_FIGURE, "stress_top_smallest", "top\nfrom", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "stress_top_largest", "stress\nto", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "stress_bottom_smallest", "bottom\nfrom", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "stress_bottom_largest", "stress\nto", KL_MEASURE_STRESS, 4);
}

static void course_add_columns(table *t, column_kind member)
{
    table_add_words(t, member, "member", "member");
    table_add_words(t, COLUMN_WORD, "step", "step");
    table_add(t, COLUMN_FIGURE, "moment_largest", "moment\nlargest", KL_MEASURE_MOMENT, 5);
    table_add(t, COLUMN_EXACT, "moment_largest_station", "at", KL_MEASURE_STATION, 1);
    table_add(t, COLUMN_FIGURE, "moment_smallest", "moment\nsmallest", KL_MEASURE_MOMENT, 5);
    table_add(t, COLUMN_EXACT, "moment_smallest_station", "at", KL_MEASURE_STATION, 1);
    course_add_stress_columns(t);
    table_add(t, COLUMN_FIGURE, "deflection", "largest\ndeflection", KL_MEASURE_DEFLECTION, 3);
}

/* Least and most at the top, then at the bottom. */
static void
course_put_stresses(table *t, const kl_results *results, kl_state state, kl_index member)
{
    static const kl_quantity faces[] = {KL_STRESS_TOP, KL_STRESS_BOTTOM};
    for (int i = 0; i < 2; ++i) {
        const member_range range = member_extremes(t, results, state, faces[i], KL_TOTAL, member);
        table_put(t, range.smallest.value);
        table_put(t, range.largest.value);
    }
}

static void course_put(table *t, const kl_results *results, kl_index step, kl_index member)
{
    const kl_state state = kl_state_step(step);
    char text[LABEL_SIZE];
    if (t->columns[0].kind == COLUMN_GROUP) {
        label_member(text, kl_results_model(results), member);
        table_put_text(t, text);
    } else {
        table_put_text(t, kl_results_model(results)->members[member].name);
    }
    label_step(text, results, step);
    table_put_text(t, text);
    member_put_moments(t, results, state, KL_TOTAL, member);
    course_put_stresses(t, results, state, member);
    table_put(t, member_largest(t, results, state, KL_DEFLECTION, KL_TOTAL, member).value);
}

/* Does the last row say what the one before says of the same member? Then nothing happened to it in that step.
 * Stations are not compared: where a course is flat its peak may stand anywhere. */
static bool course_repeats(const table *t)
{
    const kl_index last = table_row_count(t) - 1;
    if (t->status != KL_OK || last < 1 ||
        strcmp(table_cell_at(t, last, 0)->text, table_cell_at(t, last - 1, 0)->text) != 0) {
        return false;
    }
    for (kl_index column = 0; column < t->column_count; ++column) {
        const double a = table_cell_at(t, last, column)->number;
        const double b = table_cell_at(t, last - 1, column)->number;
        const kl_measure measure = t->columns[column].measure;
        const double rounding = measure == KL_MEASURE_DEFLECTION ? 1e-12
                                : measure == KL_MEASURE_STRESS   ? 1.0
                                                                 : 1e-2;
        const bool is_same =
            isnan(a) || isnan(b) ? isnan(a) && isnan(b) : near_equal(a, b, 1e-6, rounding);
        if (t->columns[column].kind == COLUMN_FIGURE && !is_same) {
            return false;
        }
    }
    return true;
}

static bool course_is_prestressed(const kl_model *model, kl_index member)
{
    for (kl_index i = 0; i < model->tendon_count; ++i) {
        for (kl_index k = 0; k < model->tendons[i].member_count; ++k) {
            if (model->tendons[i].members[k] == member) {
                return true;
            }
        }
    }
    return false;
}

/* The step with the largest moment of a member; KL_NONE: it never stands. */
static kl_index course_governing_step(table *t, const kl_results *results, kl_index member)
{
    kl_index governing = KL_NONE;
    double largest = -1.0;
    for (kl_index step = 0; step < kl_step_count(results); ++step) {
        const kl_state state = kl_state_step(step);
        if (kl_member_stands(results, state, member)) {
            const double size =
                fabs(member_largest(t, results, state, KL_MOMENT, KL_TOTAL, member).value);
            if (governing == KL_NONE || size > largest * (1.0 + 1e-9)) {
                governing = step;
                largest = size;
            }
        }
    }
    return governing;
}

static void course_put_member(table *t, const kl_results *results, kl_index member)
{
    for (kl_index step = 0; step < kl_step_count(results) && t->status == KL_OK; ++step) {
        if (kl_member_stands(results, kl_state_step(step), member) &&
            table_row_count(t) < SUMMARY_ROW_LIMIT) {
            course_put(t, results, step, member);
            if (course_repeats(t)) {
                table_drop_row(t);
            }
        }
    }
}

/* In a small model every member is followed, in others those with tendons. */
static bool course_is_followed(const kl_results *results, kl_index member)
{
    const kl_model *model = kl_results_model(results);
    const double rows = (double)model->member_count * (double)kl_step_count(results);
    return rows <= SUMMARY_FULL_ROWS || course_is_prestressed(model, member);
}

void summary_build_courses(table *t, kl_results *results, const selection *s)
{
    (void)s;
    table_title(t, "Members at the steps that change them: total moment, stresses from least to "
                   "most, movement");
    course_add_columns(t, COLUMN_GROUP);
    for (kl_index member = 0; member < kl_results_model(results)->member_count; ++member) {
        if (course_is_followed(results, member)) {
            course_put_member(t, results, member);
        }
    }
    if (table_row_count(t) >= SUMMARY_ROW_LIMIT) {
        table_note(t, "Cut here: `table actions --steps` and `table stresses --steps` list all.");
    }
}

void summary_build_governing(table *t, kl_results *results, const selection *s)
{
    (void)s;
    kl_index left_out = 0;
    table_title(t, "Other members at the step of their largest moment");
    course_add_columns(t, COLUMN_WORD);
    for (kl_index member = 0; member < kl_results_model(results)->member_count; ++member) {
        const kl_index step = course_is_followed(results, member)
                                  ? KL_NONE
                                  : course_governing_step(t, results, member);
        if (step != KL_NONE && table_row_count(t) < SUMMARY_ROW_LIMIT / 3) {
            course_put(t, results, step, member);
        } else if (step != KL_NONE) {
            ++left_out;
        }
    }
    if (left_out > 0) {
        table_note(t, "%d more: `table actions --steps` lists all.", (int)left_out);
    }
}

/* ---- stresses without stages ---------------------------------------------------------------------------- */

void summary_build_stresses(table *t, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    table_title(t, "Extremes of stress");
    table_add_state(t);
    table_add_words(t, COLUMN_WORD, "member", "member");
    course_add_stress_columns(t);
    kl_index left_out = 0;
    for (kl_index i = 0; i < s->state_count; ++i) {
        for (kl_index member = 0; member < model->member_count; ++member) {
            if (!kl_member_stands(results, s->states[i], member)) {
                continue;
            }
            if (table_row_count(t) >= SUMMARY_ROW_LIMIT / 2) {
                ++left_out;
                continue;
            }
            table_put_state(t, results, s->states[i]);
            table_put_text(t, model->members[member].name);
            course_put_stresses(t, results, s->states[i], member);
        }
    }
    summary_note_left_out(t, left_out, "`table stresses`");
}

/* ---- secondary actions ---------------------------------------------------------------------------------- */

static void secondary_put(table *t, const kl_results *results, kl_state state, kl_index member)
{
    table_put_state(t, results, state);
    table_put_text(t, kl_results_model(results)->members[member].name);
    member_put_moments(t, results, state, KL_SECONDARY, member);
    table_put(t, member_largest(t, results, state, KL_SHEAR, KL_SECONDARY, member).value);
    table_put(t, member_largest(t, results, state, KL_AXIAL, KL_SECONDARY, member).value);
}

void summary_build_secondary(table *t, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    table_title(t, "What prestress brings: secondary actions");
    table_add_state(t);
    table_add_words(t, COLUMN_WORD, "member", "member");
    table_add(t, COLUMN_FIGURE, "moment_secondary_largest", "moment\nlargest", KL_MEASURE_MOMENT,
              5);
    table_add(t, COLUMN_EXACT, "moment_secondary_largest_station", "at", KL_MEASURE_STATION, 1);
    table_add(t, COLUMN_FIGURE, "moment_secondary_smallest", "moment\nsmallest", KL_MEASURE_MOMENT,
              5);
    table_add(t, COLUMN_EXACT, "moment_secondary_smallest_station", "at", KL_MEASURE_STATION, 1);
    table_add(t, COLUMN_FIGURE, "shear_secondary", "shear", KL_MEASURE_FORCE, 4);
    table_add(t, COLUMN_FIGURE, "axial_secondary", "axial", KL_MEASURE_FORCE, 4);
    kl_index left_out = 0;
    for (kl_index i = 0; i < s->state_count; ++i) {
        const kl_state state = s->states[i];
        const bool is_wanted =
            kl_step_count(results) > 0 ? state.kind == KL_STATE_STEP : state.kind == KL_STATE_CASE;
        for (kl_index member = 0; is_wanted && member < model->member_count; ++member) {
            if (!kl_member_stands(results, state, member)) {
                continue;
            }
            if (table_row_count(t) < SUMMARY_ROW_LIMIT / 4) {
                secondary_put(t, results, state, member);
            } else {
                ++left_out;
            }
        }
    }
    summary_note_left_out(t, left_out, "`table actions`");
}

/* ---- camber --------------------------------------------------------------------------------------------- */

void summary_build_camber(table *t, kl_results *results, const selection *s)
{
    static const char *const headings[] = {"start", "quarter", "mid", "three\nquarters", "end"};
    static const char *const keys[] = {"start", "quarter", "mid", "three_quarters", "end"};
    const kl_model *model = kl_results_model(results);
    table_title(t, "Camber (+ raises the form)");
    table_add_state(t);
    table_add_words(t, COLUMN_WORD, "member", "member");
    for (int i = 0; i < 5; ++i) {
        table_add(t, COLUMN_FIGURE, keys[i], headings[i], KL_MEASURE_DEFLECTION, 3);
    }
    table_add(t, COLUMN_FIGURE, "largest", "largest\nin size", KL_MEASURE_DEFLECTION, 3);
    table_add(t, COLUMN_EXACT, "largest_station", "at", KL_MEASURE_STATION, 1);
    kl_index left_out = 0;
    for (kl_index member = 0; member < model->member_count && s->state_count > 0; ++member) {
        const kl_member *m = &model->members[member];
        const kl_node *from = &model->nodes[m->from], *to = &model->nodes[m->to];
        const bool is_level = fabs(to->x - from->x) >= fabs(to->y - from->y);
        if (!is_level || !kl_member_stands(results, s->states[0], member)) {
            continue;
        }
        if (table_row_count(t) >= SUMMARY_ROW_LIMIT / 4) {
            ++left_out;
            continue;
        }
        const double length = kl_member_length(model, member);
        table_put_state(t, results, s->states[0]);
        table_put_text(t, m->name);
        for (int i = 0; i < 5; ++i) {
            table_put(t, table_member_value(t, results, s->states[0], KL_CAMBER, KL_TOTAL, member,
                                            length * i / 4.0, i == 4 ? KL_LEFT : KL_RIGHT));
        }
        member_put_peak(t, member_largest(t, results, s->states[0], KL_CAMBER, KL_TOTAL, member));
    }
    summary_note_left_out(t, left_out, "`table camber`");
}
