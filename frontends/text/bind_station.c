/* bind_station.c - stations and lengths along a member or along a tendon's members.
 *
 * `level` L is a horizontal measure: along a line whose horizontal share is c it is L / c.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind_context.h"
#include "near.h"

/* A line steeper than this has no level measure: 1 in 1e6 is how exactly input is typed. */
#define BIND_UPRIGHT 1e-6

/* More repetitions than this in one phrase are a slip. */
#define BIND_MOST_REPEATS 20000

/* ---- lines ------------------------------------------------------------------------------------------------- */

bind_line bind_line_of_members(const binder *b, kl_list members, const char *name)
{
    bind_line line = {.members = members.items, .member_count = members.count, .name = name};
    double level = 0.0;
    for (kl_index i = 0; i < members.count; i++) {
        const kl_member *member = &b->model->members[members.items[i]];
        line.length += kl_member_length(b->model, members.items[i]);
        level += fabs(b->model->nodes[member->to].x - b->model->nodes[member->from].x);
    }
    line.level = level / line.length;
    return line;
}

bind_line bind_line_of_member(const binder *b, const kl_index *member)
{
    const kl_list one = {member, 1};
    return bind_line_of_members(b, one, b->model->members[*member].name);
}

/* ---- lengths ----------------------------------------------------------------------------------------------- */

double bind_length(binder *b, const bind_line *line, const text_quantity *quantity)
{
    if (!quantity->level) {
        return quantity->value;
    }
    if (line->level < BIND_UPRIGHT) {
        bind_error(b, "level-on-upright", quantity->origin,
                   "Along `%s`, which stands upright, a `level` length means nothing.", line->name);
        return NAN;
    }
    return quantity->value / line->level;
}

double bind_square(binder *b, kl_origin origin)
{
    if (!b->document->has_skew) {
        bind_error(b, "square-without-skew", origin,
                   "`square` needs the model's skew, which is not given.");
        bind_hint(b, "write `skew` and the angle at top level; `skew 0 deg` will do");
        return 1.0;
    }
    return cos(b->document->skew);
}

void bind_note_measure(binder *b, const bind_line *line, const text_quantity *quantity)
{
    const bool skewed = b->document->has_skew && !is_exact_zero(b->document->skew);
    if (!skewed || is_exact_zero(quantity->value) || line->member_count < 1) {
        return;
    }
    unsigned char *seen = &b->measured[line->members[0]];
    *seen |= quantity->square ? BIND_SQUARE : BIND_PLAIN;
    if (*seen == (BIND_PLAIN | BIND_SQUARE)) {
        *seen |= BIND_MIXED;
        kl_diags_add(b->diags, KL_WARNING, "square-and-plain", quantity->origin,
                     "Along %s some stations are `square` and some are not.", line->name);
        kl_diags_hint(b->diags, "look whether each is meant along the member or across the road");
    }
}

/* ---- nodes as stations ------------------------------------------------------------------------------------- */

static double not_on_line(binder *b, const bind_line *line, const text_name *node)
{
    bind_error(b, "node-not-on-member", node->origin, "Node %s does not lie on %s.", node->text,
               line->name);
    bind_hint(b, "declare it with `node %s on %s at …`, or give a station", node->text, line->name);
    return NAN;
}

/* While the member is being made, a node on it is not in the model yet: its own phrase says where it is. */
static double station_while_making(binder *b, const bind_line *line, const bind_symbol *node)
{
    const text_value *on = phrase_value(node->phrase, "on");
    const text_value *at = phrase_value(node->phrase, "at");
    if (node->state == BIND_DONE && node->index == line->from) {
        return 0.0;
    }
    if (node->state == BIND_DONE && node->index == line->to) {
        return line->length;
    }
    if (on == NULL || at == NULL || at->kind != VALUE_STATION ||
        at->station->base == STATION_NODE || strcmp(on->names[0].text, line->making->text) != 0) {
        return NAN;
    }
    return bind_station(b, line, at);
}

static double station_of_node(const binder *b, const bind_line *line, kl_index node)
{
    double start = 0.0;
    for (kl_index i = 0; i < line->member_count; i++) {
        const kl_index at = line->members[i];
        const kl_member *member = &b->model->members[at];
        const double length = kl_member_length(b->model, at);
        if (member->from == node) {
            return start;
        }
        if (member->to == node) {
            return start + length;
        }
        if (b->model->nodes[node].member == at) {
            return start + b->model->nodes[node].station;
        }
        start += length;
    }
    return NAN;
}

static double bind_node_station(binder *b, const bind_line *line, const text_name *name)
{
    const bind_symbol *node = bind_symbol_of(b, KL_KIND_NODE, name);
    if (node == NULL) {
        return NAN;
    }
    const bool was_bad = b->bad;
    double station = NAN;
    if (line->making != NULL) {
        station = station_while_making(b, line, node);
    } else if (node->state == BIND_DONE) {
        station = station_of_node(b, line, node->index);
    } else {
        b->bad = true; /* told where the node stands */
        return NAN;
    }
    if (isnan(station) && (was_bad || !b->bad)) {
        return not_on_line(b, line, name);
    }
    return station;
}

/* ---- stations ---------------------------------------------------------------------------------------------- */

double bind_station(binder *b, const bind_line *line, const text_value *value)
{
    const text_station *station = value->station;
    if (station == NULL) { /* a bare length stands for a station too */
        return value->quantities != NULL ? bind_length(b, line, &value->quantities[0])
                                         : (double)NAN;
    }
    switch (station->base) {
    case STATION_START:
        return 0.0;
    case STATION_MID:
        return 0.5 * line->length;
    case STATION_END:
        return line->length;
    case STATION_LENGTH:
        bind_note_measure(b, line, &station->quantity);
        return bind_length(b, line, &station->quantity);
    case STATION_SHARE:
        return station->quantity.value * line->length;
    case STATION_NODE:
        break;
    }
    return bind_node_station(b, line, &station->node);
}

double bind_mark_station(
    binder *b, const bind_line *line, const phrase *p, const char *mark, double otherwise)
{
    const text_value *value = phrase_value(p, mark);
    return value == NULL ? otherwise : bind_station(b, line, value);
}

/* ---- from … to … every ------------------------------------------------------------------------------------- */

static kl_index count_every(binder *b, const phrase *p, double from, double to, double every)
{
    if (!(every > 0.0)) {
        bind_error(b, "every-not-positive", p->origin, "`every` must be greater than zero.");
        return 0;
    }
    if (from > to) {
        bind_error(b, "range-backwards", p->origin, "`from` lies after `to`.");
        bind_hint(b, "write the smaller station first");
        return 0;
    }
    /* The end belongs to it within 1e-6 of the step. */
    const double steps = floor((to - from) / every + NEAR_STATION);
    if (steps > BIND_MOST_REPEATS) {
        bind_error(b, "every-too-small", p->origin, "This makes more than %d repetitions.",
                   BIND_MOST_REPEATS);
        return 0;
    }
    return (kl_index)steps + 1;
}

kl_status bind_every(
    binder *b, const bind_line *line, const phrase *p, const double **stations, kl_index *count)
{
    *count = 0;
    *stations = NULL;
    const text_value *from_value = phrase_value(p, "from");
    const text_value *to_value = phrase_value(p, "to");
    const text_value *every_value = phrase_value(p, "every");
    if (from_value == NULL || to_value == NULL || every_value == NULL) {
        bind_error(b, "half-a-range", p->origin, "A repetition needs `from`, `to` and `every`.");
        return KL_OK;
    }
    const double from = bind_station(b, line, from_value);
    const double to = bind_station(b, line, to_value);
    const double every = bind_length(b, line, &every_value->quantities[0]);
    kl_index wanted = b->bad ? 0 : count_every(b, p, from, to, every);
    if (!bind_count_rows(b, p->origin, wanted)) {
        wanted = 0;
    }
    double *made = arena_array(&b->scratch, (size_t)wanted, sizeof *made);
    if (made == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < wanted; i++) {
        const double station = from + every * i;
        made[i] = fabs(to - station) <= NEAR_STATION * every ? to : station;
    }
    *stations = made;
    *count = wanted;
    return KL_OK;
}
