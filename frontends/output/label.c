/* label.c - labels and standing sentences.
 * SPDX-License-Identifier: MIT */
#include "label.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "figure.h"

const char LABEL_SIGNS_ACTIONS[] =
    "Signs: moment + stretches the bottom, shear + is dM/dx, axial + is tension. Moment and axial "
    "force are about "
    "the gross centroid; the top of a member is on the left hand walking from its start.";
const char LABEL_SIGNS_PARTS[] = "Total: the section's whole action, loads and secondary. Primary: "
                                 "the tendons' own. Secondary: the part of the "
                                 "total that prestress brings. Concrete: the total less the "
                                 "tendons, so that a simply supported prestressed "
                                 "beam has axial (total) 0 and axial (concrete) -P.";
const char LABEL_SIGNS_STRESS[] = "Signs: stress + is tension.";
const char LABEL_SIGNS_MOVEMENT[] = "Signs: up, right and anticlockwise are +. Movement on a "
                                    "member counts from its set (or its placing), at a node "
                                    "from when the node first stood.";
const char LABEL_SIGNS_REACTION[] =
    "Signs: the support's force on the structure, + to the right, upward, anticlockwise.";
const char LABEL_CAUTION[] = "These results are for review by the engineer of record. Local codes, "
                             "the contract and licensed practice "
                             "govern. Stressing and the release of falsework follow the approved "
                             "procedure. Never stand behind a jack.";

/* Two texts as one: what snprintf does with "%s%s", for the labels that every row of a table carries. */
static void label_join(char text[LABEL_SIZE], const char *first, const char *second)
{
    const size_t used = strlen(first);
    const size_t more = strnlen(second, LABEL_SIZE - 1 - used);
    memcpy(text, first, used);
    memcpy(text + used, second, more);
    text[used + more] = '\0';
}

void label_step(char text[LABEL_SIZE], const kl_results *results, kl_index step)
{
    const kl_step *s = kl_step_at(results, step);
    const char *stage = kl_results_model(results)->stages[s->stage].name;
    if (kl_first_step(results, s->stage) == kl_last_step(results, s->stage)) {
        label_join(text, "", stage);
    } else {
        snprintf(text, LABEL_SIZE, "%s: %s", stage, s->label);
    }
}

static void label_moment(char text[LABEL_SIZE], const kl_results *results, kl_state state)
{
    const kl_model *model = kl_results_model(results);
    if (state.index < 0) {
        label_join(text, "never", ""); /* a check that found nothing to look at */
        return;
    }
    switch (state.kind) {
    case KL_STATE_STEP: {
        const kl_step *s = kl_step_at(results, state.index);
        const char *stage = model->stages[s->stage].name;
        if (state.index == kl_last_step(results, s->stage)) {
            label_join(text, "after ", stage);
        } else {
            snprintf(text, LABEL_SIZE,
                     s->operation == KL_NONE ? "before %s, %s" : "during %s, after %s", stage,
                     s->label);
        }
        return;
    }
    case KL_STATE_MOMENT:
        snprintf(text, LABEL_SIZE, "on day %.6g",
                 kl_moment_at(results, state.index)->time / KL_DAY);
        return;
    case KL_STATE_CASE:
        label_join(text, "under ", model->cases[state.index].name);
        return;
    case KL_STATE_COMBINATION:
        label_join(text, "under ", model->combinations[state.index].name);
        return;
    }
    text[0] = '\0';
}

void label_state(char text[LABEL_SIZE], const kl_results *results, kl_state state)
{
    label_moment(text, results, state);
    if (state.cause.kind != KL_CAUSE_ALL) {
        const size_t used = strlen(text);
        snprintf(text + used, LABEL_SIZE - used, ", from %s",
                 kl_cause_name(kl_results_model(results), state.cause));
    }
}

bool label_is_steep(const kl_model *model, kl_index member)
{
    const kl_node *from = &model->nodes[model->members[member].from];
    const kl_node *to = &model->nodes[model->members[member].to];
    return fabs(to->y - from->y) > fabs(to->x - from->x);
}

void label_member(char text[LABEL_SIZE], const kl_model *model, kl_index member)
{
    const kl_member *m = &model->members[member];
    if (label_is_steep(model, member)) {
        snprintf(text, LABEL_SIZE, "%s (its top is the %s side)", m->name,
                 model->nodes[m->to].y > model->nodes[m->from].y ? "left" : "right");
    } else {
        label_join(text, "", m->name);
    }
}

const char *label_place(const kl_model *model, const kl_station_row *row)
{
    if (row->node != KL_NONE) {
        return model->nodes[row->node].name;
    }
    return row->is_face ? "face" : "";
}

const char *label_side(const kl_station_row *rows, kl_index count, kl_index i)
{
    if (rows[i].side == KL_LEFT && i + 1 < count && rows[i + 1].side == KL_RIGHT &&
        !(rows[i + 1].station > rows[i].station)) {
        return "left";
    }
    const bool is_second = rows[i].side == KL_RIGHT && i > 0 && rows[i - 1].side == KL_LEFT &&
                           !(rows[i].station > rows[i - 1].station);
    return is_second ? "right" : "";
}

void label_value(
    char text[LABEL_SIZE], const kl_display *display, kl_measure measure, double value, int digits)
{
    const double shown = value / kl_show_factor(display, measure);
    const int most = figure_decimals(shown, digits);
    char figure[FIGURE_SIZE];
    figure_rounded(figure, shown, most < 0 ? most : figure_exact_decimals(shown, most), digits,
                   0.0);
    snprintf(text, LABEL_SIZE, isnan(value) ? "%s" : "%s %s", figure,
             kl_show_unit(display, measure));
}

void label_at(char text[LABEL_SIZE], const kl_model *model, kl_index member, double station)
{
    char place[LABEL_SIZE];
    label_value(place, &model->display, KL_MEASURE_STATION, station, 5);
    snprintf(text, LABEL_SIZE, "%.140s at %.40s", model->members[member].name, place);
}

const char *label_phase(kl_tendon_phase phase)
{
    switch (phase) {
    case KL_TENDON_ABSENT:
        return "not stressed";
    case KL_TENDON_STRESSED:
        return "stressed";
    case KL_TENDON_GROUTED:
        return "grouted";
    case KL_TENDON_SLACK:
        return "slackened";
    }
    return "";
}

const char *label_face(kl_face face)
{
    switch (face) {
    case KL_FACE_TOP:
        return "top";
    case KL_FACE_BOTTOM:
        return "bottom";
    case KL_FACE_BOTH:
        return "";
    }
    return "";
}
