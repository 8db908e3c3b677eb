/* load_sum.c - see load_sum.h.
 * SPDX-License-Identifier: MIT */
#include "load_sum.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "figure.h"

#define LOAD_NOTHING 1e-9 /* of the parts: what is left of forces that cancel */

kl_index load_shares_of_stage(const kl_stage *stage, load_share *shares)
{
    kl_index count = 0;
    for (kl_index i = 0; i < stage->operation_count; i++) {
        const kl_operation *o = &stage->operations[i];
        const bool acts = o->kind == KL_OP_LOAD || o->kind == KL_OP_UNLOAD;
        for (kl_index k = 0; acts && k < o->items.count; k++, count++) {
            if (shares) {
                shares[count] =
                    (load_share){o->items.items[k], o->kind == KL_OP_LOAD ? o->factor : -1.0};
            }
        }
    }
    return count;
}

kl_point load_sum_direction(const kl_model *model, const kl_load *load)
{
    if (load->frame == KL_GLOBAL || load->member == KL_NONE) {
        return (kl_point){load->dx, load->dy};
    }
    const kl_node *from = &model->nodes[model->members[load->member].from];
    const kl_node *to = &model->nodes[model->members[load->member].to];
    const double length = hypot(to->x - from->x, to->y - from->y);
    const double cosine = (to->x - from->x) / length;
    const double sine = (to->y - from->y) / length;
    return (kl_point){load->dx * cosine - load->dy * sine, load->dx * sine + load->dy * cosine};
}

double load_sum_end(const kl_model *model, const kl_load *load)
{
    return isnan(load->to) ? kl_member_length(model, load->member) : load->to;
}

kl_status load_sum_weight_at(
    const kl_results *results, kl_index member, double station, kl_side side, double *weight)
{
    const kl_model *model = kl_results_model(results);
    const kl_member *m = &model->members[member];
    const double unit = model->materials[m->material].unit_weight;
    *weight = 0.0;
    if (m->weightless || isnan(unit)) {
        return KL_OK;
    }
    kl_section_values values;
    KL_TRY(kl_section_at_station(results, member, station, side, &values));
    *weight = unit * values.area;
    return KL_OK;
}

/* A force of `size` along a direction at a place. */
static void load_sum_force(load_sum *sum, kl_point direction, double size, kl_point at)
{
    const double force[2] = {size * direction.x, size * direction.y};
    const double lever[2] = {at.y, at.x};
    for (int i = 0; i < 2; i++) {
        sum->force[i] += force[i];
        sum->size[i] += fabs(force[i]);
        sum->first[i] += force[i] * lever[i];
    }
}

/* Between two stations the area is quadratic at most and the weight times the station cubic: Simpson's rule is exact. */
static kl_status load_sum_weight_piece(
    load_sum *sum, const kl_results *results, kl_index member, double factor, const double range[2])
{
    static const double rule[3] = {1.0 / 6.0, 4.0 / 6.0, 1.0 / 6.0};
    for (int i = 0; i < 3; i++) {
        const double station = range[0] + 0.5 * i * (range[1] - range[0]);
        double weight;
        KL_TRY(load_sum_weight_at(results, member, station, i == 2 ? KL_LEFT : KL_RIGHT, &weight));
        load_sum_force(sum, (kl_point){0.0, -1.0},
                       factor * rule[i] * weight * (range[1] - range[0]),
                       kl_member_point(kl_results_model(results), member, station));
    }
    return KL_OK;
}

static kl_status
load_sum_weight(load_sum *sum, const kl_results *results, kl_index member, double factor)
{
    const kl_model *model = kl_results_model(results);
    const kl_member *m = &model->members[member];
    const double length = kl_member_length(model, member);
    double from = 0.0;
    for (kl_index i = 0; i <= m->section_count; i++) { /* from row to row, and on to the end */
        const double to = i < m->section_count && m->section_count > 1
                              ? fmin(fmax(m->sections[i].station, 0.0), length)
                              : length;
        if (to > from) {
            KL_TRY(load_sum_weight_piece(sum, results, member, factor, (double[]){from, to}));
            from = to;
        }
    }
    return KL_OK;
}

/* A trapezoid as its two triangles, each at its third. */
static void load_sum_ramp(load_sum *sum, const kl_model *model, const kl_load *load, double factor)
{
    const kl_point direction = load_sum_direction(model, load);
    const kl_node *from = &model->nodes[model->members[load->member].from];
    const kl_node *to = &model->nodes[model->members[load->member].to];
    const double length = kl_member_length(model, load->member);
    const double level = load->per_level ? fabs(to->x - from->x) / length : 1.0;
    const double end = load_sum_end(model, load);
    const double half = 0.5 * factor * level * (end - load->from);
    load_sum_force(sum, direction, half * load->value,
                   kl_member_point(model, load->member, load->from + (end - load->from) / 3.0));
    load_sum_force(sum, direction, half * load->value_end,
                   kl_member_point(model, load->member, end - (end - load->from) / 3.0));
}

static kl_status
load_sum_one(load_sum *sum, const kl_results *results, const kl_load *load, double factor)
{
    const kl_model *model = kl_results_model(results);
    switch (load->kind) {
    case KL_LOAD_WEIGHT:
        for (kl_index m = 0; m < model->member_count; m++) {
            if (load->member == KL_NONE || load->member == m) {
                KL_TRY(load_sum_weight(sum, results, m, factor));
            }
        }
        return KL_OK;
    case KL_LOAD_POINT: {
        const kl_point at = load->node != KL_NONE
                                ? (kl_point){model->nodes[load->node].x, model->nodes[load->node].y}
                                : kl_member_point(model, load->member, load->from);
        load_sum_force(sum, load_sum_direction(model, load), factor * load->value, at);
        return KL_OK;
    }
    case KL_LOAD_DISTRIBUTED:
        load_sum_ramp(sum, model, load, factor);
        return KL_OK;
    case KL_LOAD_MOMENT:
        sum->moment += factor * load->value;
        return KL_OK;
    case KL_LOAD_SETTLE:
    case KL_LOAD_TURN:
    case KL_LOAD_TEMPERATURE:
    case KL_LOAD_GRADIENT:
    case KL_LOAD_PROFILE:
    case KL_LOAD_TENDON:
        sum->others++;
        return KL_OK;
    }
    return KL_OK;
}

kl_status load_sum_add(load_sum *sum, const kl_results *results, const load_share *share)
{
    const kl_case *c = &kl_results_model(results)->cases[share->load_case];
    for (kl_index i = 0; i < c->load_count; i++) {
        KL_TRY(load_sum_one(sum, results, &c->loads[i], share->factor));
    }
    return KL_OK;
}

double load_sum_about(const load_sum *sum)
{
    return sum->first[1] - sum->first[0] + sum->moment;
}

/* ---- in words ---------------------------------------------------------------------------------------------- */

static void load_sum_say(char text[LOAD_SUM_TEXT], const char *more)
{
    const size_t used = strlen(text);
    snprintf(text + used, LOAD_SUM_TEXT - used, "%s%s", used > 0 ? "; " : "total: ", more);
}

static void load_sum_say_force(char text[LOAD_SUM_TEXT],
                               const load_sum *sum,
                               const kl_display *display,
                               int axis)
{
    static const char *const ways[2][2] = {{"to the right", "to the left"}, {"up", "down"}};
    const double force = sum->force[axis];
    if (!(sum->size[axis] > 0.0)) {
        return;
    }
    if (fabs(force) <= LOAD_NOTHING * sum->size[axis]) {
        load_sum_say(text, axis == 0 ? "level forces cancel" : "upright forces cancel");
        return;
    }
    const double shown = fabs(force) / kl_show_factor(display, KL_MEASURE_FORCE);
    const double at = sum->first[axis] / force / kl_show_factor(display, KL_MEASURE_STATION);
    char figure[FIGURE_SIZE];
    char place[FIGURE_SIZE];
    char more[160];
    figure_rounded(figure, shown, figure_decimals(shown, 4), 4, 0.0);
    figure_given(place, at, 2);
    snprintf(more, sizeof more, "%s %s %s at %s = %s %s", figure,
             kl_show_unit(display, KL_MEASURE_FORCE), ways[axis][force > 0.0 ? 0 : 1],
             axis == 0 ? "y" : "x", place, kl_show_unit(display, KL_MEASURE_STATION));
    load_sum_say(text, more);
}

void load_sum_text(char text[LOAD_SUM_TEXT], const load_sum *sum, const kl_model *model)
{
    text[0] = '\0';
    load_sum_say_force(text, sum, &model->display, 1);
    load_sum_say_force(text, sum, &model->display, 0);
    if (fabs(sum->moment) > 0.0) {
        const double shown = fabs(sum->moment) / kl_show_factor(&model->display, KL_MEASURE_MOMENT);
        char figure[FIGURE_SIZE];
        char more[160];
        figure_rounded(figure, shown, figure_decimals(shown, 4), 4, 0.0);
        snprintf(more, sizeof more, "moments of %s %s %s", figure,
                 kl_show_unit(&model->display, KL_MEASURE_MOMENT),
                 sum->moment > 0.0 ? "anticlockwise" : "clockwise");
        load_sum_say(text, more);
    }
    if (text[0] == '\0') {
        snprintf(text, LOAD_SUM_TEXT, sum->others > 0 ? "no forces" : "nothing");
    }
}
