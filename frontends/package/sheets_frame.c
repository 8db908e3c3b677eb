/* sheets_frame.c - sheet 2: nodes, members and supports as they were declared, beside the frame to scale and the signs.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "maker.h"
#include "signs.h"

static void frame_build_nodes(table *t, kl_results *results, const selection *s)
{
    (void)s;
    const kl_model *model = kl_results_model(results);
    table_title(t, "Nodes");
    table_add_words(t, COLUMN_WORD, "node", "node");
    table_add(t, COLUMN_EXACT, "x", "x", KL_MEASURE_STATION, 3);
    table_add(t, COLUMN_EXACT, "y", "y", KL_MEASURE_STATION, 3);
    table_add_words(t, COLUMN_WORD, "member", "on member");
    table_add(t, COLUMN_EXACT, "station", "at", KL_MEASURE_STATION, 3);
    for (kl_index i = 0; i < model->node_count; i++) {
        const kl_node *node = &model->nodes[i];
        table_put_text(t, node->name);
        table_put(t, node->x);
        table_put(t, node->y);
        table_put_text(t, node->member != KL_NONE ? model->members[node->member].name : "");
        table_put(t, node->member != KL_NONE ? node->station : (double)NAN);
    }
}

/* Of a level member of a skewed model: its length square to the road. */
static double frame_square(const kl_model *model, kl_index member)
{
    const kl_member *m = &model->members[member];
    const double rise = model->nodes[m->to].y - model->nodes[m->from].y;
    const double length = kl_member_length(model, member);
    return model->has_skew && fabs(rise) < 0.2 * length ? length * cos(model->skew) : (double)NAN;
}

static void frame_build_members(table *t, kl_results *results, const selection *s)
{
    (void)s;
    const kl_model *model = kl_results_model(results);
    table_title(t, "Members");
    table_add_words(t, COLUMN_WORD, "member", "member");
    table_add_words(t, COLUMN_WORD, "from", "from");
    table_add_words(t, COLUMN_WORD, "to", "to");
    table_add(t, COLUMN_EXACT, "length", "length\nalong", KL_MEASURE_STATION, 3);
    table_add(t, COLUMN_EXACT, "square", "length\nsquare", KL_MEASURE_STATION, 3);
    if (!model->has_skew) {
        table_detail(t);
    }
    table_add(t, COLUMN_EXACT, "rigid_start", "rigid\nat start", KL_MEASURE_STATION, 3);
    table_add(t, COLUMN_EXACT, "rigid_end", "rigid\nat end", KL_MEASURE_STATION, 3);
    table_add_words(t, COLUMN_WORD, "section", "section");
    table_add_words(t, COLUMN_WORD, "material", "material");
    table_add_words(t, COLUMN_WORD, "released", "free to turn");
    for (kl_index i = 0; i < model->member_count; i++) {
        const kl_member *m = &model->members[i];
        table_put_text(t, m->name);
        table_put_text(t, model->nodes[m->from].name);
        table_put_text(t, model->nodes[m->to].name);
        table_put(t, kl_member_length(model, i));
        table_put(t, frame_square(model, i));
        table_put(t, m->rigid_start);
        table_put(t, m->rigid_end);
        table_put_print(t, "%s%s", model->sections[m->sections[0].section].name,
                        m->section_count > 1 ? " and others" : "");
        table_put_text(t, model->materials[m->material].name);
        table_put_print(t, "%s%s%s%s", m->hinge_start ? "start " : "", m->hinge_end ? "end " : "",
                        m->hinge_count > 0 ? "inside " : "",
                        m->axial_only ? "axial force only" : "");
    }
}

static const char *frame_hold_name(const kl_hold *hold)
{
    switch (hold->kind) {
    case KL_FREE:
        return "free";
    case KL_FIXED:
        return "held";
    case KL_PUSH_PLUS:
        return "pushes, +";
    case KL_PUSH_MINUS:
        return "pushes, -";
    case KL_SPRING:
        return "spring";
    }
    return "";
}

static void frame_build_supports(table *t, kl_results *results, const selection *s)
{
    (void)s;
    const kl_model *model = kl_results_model(results);
    table_title(t, "Supports");
    table_add_words(t, COLUMN_WORD, "node", "node");
    table_add_words(t, COLUMN_WORD, "along", "along x");
    table_add_words(t, COLUMN_WORD, "up", "along y");
    table_add_words(t, COLUMN_WORD, "turn", "turning");
    table_add(t, COLUMN_EACH, "spring_x", "spring x", KL_MEASURE_STIFFNESS, 4);
    table_add(t, COLUMN_EACH, "spring_y", "spring y", KL_MEASURE_STIFFNESS, 4);
    table_add(t, COLUMN_EACH, "spring_turn", "spring, turning", KL_MEASURE_TURN_STIFFNESS, 4);
    table_add(t, COLUMN_EXACT, "slope", "x and y\nturned by", KL_MEASURE_ANGLE, 3);
    table_add_words(t, COLUMN_WORD, "when", "stands");
    for (kl_index i = 0; i < model->support_count; i++) {
        const kl_support *support = &model->supports[i];
        table_put_text(t, model->nodes[support->node].name);
        for (int k = 0; k < 3; k++) {
            table_put_text(t, frame_hold_name(&support->hold[k]));
        }
        for (int k = 0; k < 3; k++) {
            const kl_hold *hold = &support->hold[k];
            table_put(t, hold->kind == KL_SPRING ? hold->stiffness : (double)NAN);
        }
        table_put(t, support->slope);
        table_put_text(t, support->added_later ? "when a stage adds it" : "from the start");
    }
}

void sheet_frame(maker *m)
{
    const selection_wish none = selection_wish_none();
    maker_picture(m, "frame", &none);
    drawing *signs = package_picture(m->package, "signs", "");
    if (signs) {
        signs_draw(signs);
        maker_accepts(m, signs->status);
    }
    package_text(
        m->package, BLOCK_PARAGRAPH,
        "Signs: x to the right, y upward, rotation anticlockwise. A station is measured along a "
        "member from "
        "its start; the top of a member is on the left hand walking from there. Moment + stretches "
        "the "
        "bottom, shear + is dM/dx, axial force and stress + are tension, a post's force + is "
        "compression, "
        "movement + is up and to the right, a reaction is the support's force on the structure.");
    if (m->model->has_skew) {
        maker_fact(m, "Skew, from square", m->model->skew, KL_MEASURE_ANGLE);
    }
    maker_own_table(m, "geometry_members", frame_build_members, SELECTION_NONE, &none);
    maker_own_table(m, "geometry_nodes", frame_build_nodes, SELECTION_NONE, &none);
    maker_own_table(m, "geometry_supports", frame_build_supports, SELECTION_NONE, &none);
}
