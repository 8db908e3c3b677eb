/* consistency_falsework.c - where rows of posts stand: under what, on what, and not inside columns.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "consistency.h"
#include "member_section.h"
#include "near.h"

/* The height of a member's line at x. @return false where the member has no such x. */
static bool line_height(const kl_model *model, kl_index member, double x, double *y)
{
    const kl_member *m = &model->members[member];
    const kl_node *from = &model->nodes[m->from];
    const kl_node *to = &model->nodes[m->to];
    const double dx = to->x - from->x;
    const double spare = NEAR_STATION * kl_member_length(model, member);
    if (!(fabs(dx) > spare) || x < fmin(from->x, to->x) - spare ||
        x > fmax(from->x, to->x) + spare) {
        return false;
    }
    const double t = fmin(fmax((x - from->x) / dx, 0.0), 1.0);
    *y = from->y + t * (to->y - from->y);
    return true;
}

static void check_row_carrier(consistency *c, const kl_falsework *falsework, double station)
{
    const kl_model *model = c->model;
    const kl_point head = kl_member_point(model, falsework->member, station);
    double y = NAN;
    if (line_height(model, falsework->carrier, head.x, &y) && y < head.y - c->near) {
        return;
    }
    const build_number at = build_show(model, KL_MEASURE_STATION, station);
    const build_number x = build_show(model, KL_MEASURE_STATION, head.x);
    const char *carrier = model->members[falsework->carrier].name;
    if (isnan(y)) {
        kl_diags_add(c->diags, KL_ERROR, "row-without-carrier", falsework->origin,
                     "The row of %s at %s stands at x = %s, where member %s is not.",
                     falsework->name, at.text, x.text, carrier);
    } else {
        kl_diags_add(c->diags, KL_ERROR, "row-without-carrier", falsework->origin,
                     "The row of %s at %s stands at x = %s, where member %s is not below member "
                     "%s.",
                     falsework->name, at.text, x.text, carrier,
                     model->members[falsework->member].name);
    }
}

/* A column at a node of the carried member: from where to where it reaches across, in x. */
typedef struct column_reach {
    kl_index column;
    double left, right;
} column_reach;

/* Does member k come up from below to end at node n? */
static bool column_under(consistency *c, kl_index k, kl_index n, column_reach *reach)
{
    const kl_model *model = c->model;
    const kl_member *column = &model->members[k];
    const bool upward = column->to == n;
    const kl_index foot = upward ? column->from : column->to;
    if (!consistency_is_vertical(c, k) || model->nodes[foot].y >= model->nodes[n].y) {
        return false;
    }
    section_value value;
    member_section_values(model, k, upward ? kl_member_length(model, k) : 0.0,
                          upward ? KL_LEFT : KL_RIGHT, &value);
    if (isnan(value.depth)) {
        return false;
    }
    /* The member's left hand is its top: to the left when it is drawn upward. */
    const double above = value.depth - value.line;
    *reach = (column_reach){k, model->nodes[n].x - (upward ? above : value.line),
                            model->nodes[n].x + (upward ? value.line : above)};
    return true;
}

static void
rows_inside_column(consistency *c, const kl_falsework *falsework, const column_reach *reach)
{
    const kl_model *model = c->model;
    for (kl_index r = 0; r < falsework->row_count; r++) {
        const kl_point head = kl_member_point(model, falsework->member, falsework->stations[r]);
        if (head.x > reach->left + c->near && head.x < reach->right - c->near) {
            const build_number at = build_show(model, KL_MEASURE_STATION, falsework->stations[r]);
            kl_diags_add(c->diags, KL_WARNING, "row-inside-column", falsework->origin,
                         "The row of %s at %s stands inside the width of column %s.",
                         falsework->name, at.text, model->members[reach->column].name);
        }
    }
}

/* Columns that end at the node. */
static void check_columns_at(consistency *c, const kl_falsework *falsework, kl_index node)
{
    for (kl_index i = c->at_start[node]; i < c->at_start[node + 1]; i++) {
        column_reach reach;
        if (c->at_members[i] != falsework->member &&
            column_under(c, c->at_members[i], node, &reach)) {
            rows_inside_column(c, falsework, &reach);
        }
    }
}

/* The node's own columns, and those under the bearing that carries it. */
static void check_node_columns(consistency *c, const kl_falsework *falsework, kl_index node)
{
    check_columns_at(c, falsework, node);
    const kl_index base = consistency_base(c, node);
    if (base != node) {
        check_columns_at(c, falsework, base);
    }
}

static void check_columns(consistency *c, const kl_falsework *falsework)
{
    const kl_member *member = &c->model->members[falsework->member];
    check_node_columns(c, falsework, member->from);
    check_node_columns(c, falsework, member->to);
    for (kl_index i = c->on_start[falsework->member]; i < c->on_start[falsework->member + 1]; i++) {
        const kl_index node = c->on_nodes[i];
        if (node != member->from && node != member->to) {
            check_node_columns(c, falsework, node);
        }
    }
}

kl_status consistency_falsework(consistency *c)
{
    const kl_model *model = c->model;
    for (kl_index f = 0; f < model->falsework_count; f++) {
        const kl_falsework *falsework = &model->falsework[f];
        if (consistency_is_vertical(c, falsework->member)) {
            kl_diags_add(c->diags, KL_ERROR, "falsework-under-column", falsework->origin,
                         "Falsework %s cannot stand under member %s, which is a column.",
                         falsework->name, model->members[falsework->member].name);
            continue;
        }
        for (kl_index r = 0; r < falsework->row_count && falsework->carrier != KL_NONE; r++) {
            check_row_carrier(c, falsework, falsework->stations[r]);
        }
        check_columns(c, falsework);
    }
    return KL_OK;
}
