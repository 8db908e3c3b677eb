/* load_total.c - see load_total.h.
 *
 * A linear intensity from q1 at s1 to q2 at s2 is (q1 + q2) (s2 - s1) / 2 at s1 + (s2 - s1) (q1 + 2 q2) / (3 (q1 + q2)); its
 * moment is taken from the two triangles, so that q1 + q2 = 0 needs no care.
 * SPDX-License-Identifier: MIT */
#include "load_total.h"

#include <math.h>

static void total_add(load_total *sum, kl_point at, double fx, double fy)
{
    sum->x += fx;
    sum->y += fy;
    sum->about += at.x * fy - at.y * fx;
}

/* The direction of a load in global axes. */
static kl_point total_direction(const kl_model *model, const kl_load *load)
{
    if (load->frame == KL_GLOBAL || load->member == KL_NONE) {
        return (kl_point){load->dx, load->dy};
    }
    const kl_member *m = &model->members[load->member];
    const kl_node *from = &model->nodes[m->from];
    const kl_node *to = &model->nodes[m->to];
    const double length = hypot(to->x - from->x, to->y - from->y);
    const double c = (to->x - from->x) / length;
    const double s = (to->y - from->y) / length;
    return (kl_point){c * load->dx - s * load->dy, s * load->dx + c * load->dy};
}

static void total_add_distributed(load_total *sum, const kl_model *model, const kl_load *load)
{
    const kl_point d = total_direction(model, load);
    const double length = kl_member_length(model, load->member);
    const double to = isnan(load->to) ? length : load->to;
    const kl_point ends[2] = {kl_member_point(model, load->member, 0.0),
                              kl_member_point(model, load->member, length)};
    const double level = load->per_level ? fabs(ends[1].x - ends[0].x) / length : 1.0;
    const double span = to - load->from;
    const double weights[2] = {0.5 * span * level * load->value,
                               0.5 * span * level * load->value_end};
    for (int i = 0; i < 2; i++) {
        const double at = load->from + span * (i == 0 ? 1.0 / 3.0 : 2.0 / 3.0);
        total_add(sum, kl_member_point(model, load->member, at), weights[i] * d.x,
                  weights[i] * d.y);
    }
}

load_total load_total_of_case(const kl_model *model, kl_index load_case)
{
    load_total sum = {0.0, 0.0, 0.0};
    const kl_case *c = &model->cases[load_case];
    for (kl_index i = 0; i < c->load_count; i++) {
        const kl_load *load = &c->loads[i];
        if (load->kind == KL_LOAD_DISTRIBUTED) {
            total_add_distributed(&sum, model, load);
        } else if (load->kind == KL_LOAD_MOMENT) {
            sum.about += load->value;
        } else if (load->kind == KL_LOAD_POINT) {
            const kl_point at =
                load->node != KL_NONE
                    ? (kl_point){model->nodes[load->node].x, model->nodes[load->node].y}
                    : kl_member_point(model, load->member, load->from);
            const kl_point d = total_direction(model, load);
            total_add(&sum, at, load->value * d.x, load->value * d.y);
        }
    }
    return sum;
}
