/* bind_frame.c - nodes and members.
 *
 * A member stands on its end nodes, and a node may lie on a member, so neither kind can be bound first. What can
 * be added is added in the order of the text; what cannot waits on the first thing it needs, and is looked at
 * again when that is settled. What still waits at the end stands in a circle.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind_context.h"

/* First and last of those whose turn has come. */
typedef struct frame_queue {
    bind_symbol *first, *last;
} frame_queue;

static void wait_on(bind_symbol *symbol, bind_symbol *needed)
{
    symbol->next = NULL;
    if (needed->waiters == NULL) {
        needed->waiters = symbol;
    } else {
        needed->waiters_last->next = symbol;
    }
    needed->waiters_last = symbol;
}

static void wake(frame_queue *queue, bind_symbol *settled)
{
    if (settled->waiters == NULL) {
        return;
    }
    if (queue->first == NULL) {
        queue->first = settled->waiters;
    } else {
        queue->last->next = settled->waiters;
    }
    queue->last = settled->waiters_last;
    settled->waiters = NULL;
}

/* ---- nodes ------------------------------------------------------------------------------------------------- */

static kl_status add_node(binder *b, bind_symbol *symbol)
{
    const phrase *p = symbol->phrase;
    const text_value *at = phrase_value(p, "at");
    const text_value *on = phrase_value(p, "on");
    kl_node node = {
        .name = symbol->name.text, .origin = p->origin, .member = KL_NONE, .station = NAN};
    if (at == NULL) {
        b->bad = true; /* the parser has missed it */
    } else if (on != NULL && at->kind != VALUE_STATION) {
        bind_error(b, "node-place", at->origin,
                   "A node on a member stands at a station, not at coordinates.");
        bind_hint(b, "write `node %s on %s at` and a station", node.name, on->names[0].text);
    } else if (on == NULL && at->kind != VALUE_POINTS) {
        bind_error(b, "node-place", at->origin,
                   "A node needs coordinates, or a member and a station on it.");
        bind_hint(b, "write `at (x, y)`, or `on MEMBER at` and a station");
    } else if (on != NULL && at->station->base == STATION_NODE) {
        bind_error(b, "node-at-node", at->origin,
                   "Node %s cannot stand where another node stands on a member.", node.name);
        bind_hint(b, "use the other node, or join the two with a `bearing`");
    } else if (on != NULL) {
        node.member = bind_reference(b, KL_KIND_MEMBER, &on->names[0]);
        if (!b->bad) {
            const bind_line line = bind_line_of_member(b, &node.member);
            node.station = bind_station(b, &line, at);
        }
    } else {
        node.x = at->points[0].x.value;
        node.y = at->points[0].y.value;
    }
    kl_index added = KL_NONE;
    const kl_status status = b->bad ? KL_BAD_MODEL : kl_model_add_node(b->model, &node, &added);
    return bind_settle(b, symbol, added, status);
}

/* ---- members ----------------------------------------------------------------------------------------------- */

/* The rows of `section`: one on the member's own line, or those of its block. */
static kl_status take_sections(binder *b, const phrase *p, const bind_line *line, kl_member *member)
{
    const text_value *plain = phrase_value(p, "section");
    kl_section_at *rows = arena_array(&b->scratch, (size_t)p->child_count + 1, sizeof *rows);
    if (rows == NULL) {
        return KL_NO_MEMORY;
    }
    kl_index count = 0;
    if (plain != NULL) {
        rows[count++] = (kl_section_at){.section = bind_reference(b, KL_KIND_SECTION, plain->names),
                                        .station = NAN,
                                        .origin = plain->origin};
    }
    const phrase *row = NULL;
    while ((row = phrase_child(p, "section", row)) != NULL) {
        const text_value *name = phrase_own(row, 0);
        if (name == NULL) {
            continue;
        }
        rows[count++] = (kl_section_at){
            .section = bind_reference(b, KL_KIND_SECTION, name->names),
            .station = bind_mark_station(b, line, row, "at", NAN),
            .origin = row->origin,
        };
    }
    for (kl_index i = 0; count > 1 && !b->bad && i < count; i++) {
        if (isnan(rows[i].station)) {
            bind_error(b, "section-without-station", rows[i].origin,
                       "A member with several sections needs a station for each.");
            bind_hint(b, "write `section NAME at` and a station");
        }
    }
    member->sections = rows;
    member->section_count = count;
    return KL_OK;
}

static kl_status take_hinges(binder *b, const phrase *p, const bind_line *line, kl_member *member)
{
    double *stations = arena_array(&b->scratch, (size_t)p->child_count, sizeof *stations);
    if (stations == NULL) {
        return KL_NO_MEMORY;
    }
    const phrase *hinge = NULL;
    while ((hinge = phrase_child(p, "hinge", hinge)) != NULL) {
        member->hinge_start = member->hinge_start || phrase_has(hinge, "start");
        member->hinge_end = member->hinge_end || phrase_has(hinge, "end");
        const text_value *at = phrase_value(hinge, "at");
        if (at == NULL) {
            continue;
        }
        /* `hinge at start` means what it says. */
        if (at->station != NULL && at->station->base == STATION_START) {
            member->hinge_start = true;
        } else if (at->station != NULL && at->station->base == STATION_END) {
            member->hinge_end = true;
        } else {
            stations[member->hinge_count++] = bind_station(b, line, at);
        }
    }
    member->hinges = stations;
    return KL_OK;
}

static double rigid_length(binder *b, const phrase *p, const bind_line *line, const char *end)
{
    const phrase *rigid = phrase_child(p, "rigid", NULL);
    const text_value *value = rigid == NULL ? NULL : phrase_value(rigid, end);
    return value == NULL ? 0.0 : bind_length(b, line, &value->quantities[0]);
}

static bind_line line_while_making(const binder *b, const bind_symbol *symbol, kl_member *member)
{
    const kl_node *from = &b->model->nodes[member->from];
    const kl_node *to = &b->model->nodes[member->to];
    bind_line line = {
        .making = &symbol->name, .from = member->from, .to = member->to, .name = member->name};
    line.length = hypot(to->x - from->x, to->y - from->y);
    line.level = line.length > 0.0 ? fabs(to->x - from->x) / line.length : 0.0;
    return line;
}

static kl_status add_member(binder *b, bind_symbol *symbol)
{
    const phrase *p = symbol->phrase;
    kl_member member = {
        .name = symbol->name.text,
        .origin = p->origin,
        .from = bind_mark_reference(b, KL_KIND_NODE, p, "from"),
        .to = bind_mark_reference(b, KL_KIND_NODE, p, "to"),
        .material = bind_mark_reference(b, KL_KIND_MATERIAL, p, "of"),
        .mesh = phrase_number(p, "mesh", NAN),
        .axial_only = phrase_has(p, "axial_only"),
        .weightless = phrase_has(p, "weightless"),
        .age = phrase_number(p, "age", NAN),
    };
    if (member.from != KL_NONE && member.to != KL_NONE) {
        const bind_line line = line_while_making(b, symbol, &member);
        member.rigid_start = rigid_length(b, p, &line, "start");
        member.rigid_end = rigid_length(b, p, &line, "end");
        KL_TRY(take_sections(b, p, &line, &member));
        KL_TRY(take_hinges(b, p, &line, &member));
    }
    kl_index added = KL_NONE;
    const kl_status status = b->bad ? KL_BAD_MODEL : kl_model_add_member(b->model, &member, &added);
    return bind_settle(b, symbol, added, status);
}

/* ---- in an order that works -------------------------------------------------------------------------------- */

/* The first thing this one needs that is not settled yet; NULL: it can be added (or fails with a message then). */
static bind_symbol *first_needed(binder *b, const bind_symbol *symbol)
{
    static const char *const of_member[] = {"from", "to", NULL};
    static const char *const of_node[] = {"on", NULL};
    const bool is_node = symbol->kind == KL_KIND_NODE;
    const char *const *marks = is_node ? of_node : of_member;
    const int kind = is_node ? KL_KIND_MEMBER : KL_KIND_NODE;
    for (; *marks != NULL; marks++) {
        const text_value *value = phrase_value(symbol->phrase, *marks);
        if (value == NULL || !bind_is_declared(b, kind, value->names[0].text)) {
            continue;
        }
        bind_symbol *needed = bind_symbol_of(b, kind, &value->names[0]);
        if (needed->state == BIND_WAITING) {
            return needed;
        }
    }
    return NULL;
}

static kl_status try_one(binder *b, bind_symbol *symbol, frame_queue *queue)
{
    bind_symbol *needed = first_needed(b, symbol);
    if (needed != NULL) {
        wait_on(symbol, needed);
        return KL_OK;
    }
    b->bad = false;
    KL_TRY(symbol->kind == KL_KIND_NODE ? add_node(b, symbol) : add_member(b, symbol));
    wake(queue, symbol);
    return KL_OK;
}

static kl_status settle_queue(binder *b, frame_queue *queue)
{
    while (queue->first != NULL) {
        bind_symbol *symbol = queue->first;
        queue->first = symbol->next;
        KL_TRY(try_one(b, symbol, queue));
    }
    return KL_OK;
}

/* Nodes on members that still wait can only wait on themselves. */
static kl_status tell_circle(binder *b, bind_symbol *symbol)
{
    const text_value *on = phrase_value(symbol->phrase, "on");
    if (on != NULL) {
        bind_error(b, "node-circle", symbol->phrase->origin,
                   "Node %s lies on member %s, which in turn ends at nodes that need %s.",
                   symbol->name.text, on->names[0].text, symbol->name.text);
        bind_hint(b, "give one of the nodes coordinates");
    }
    symbol->state = BIND_FAILED;
    return KL_OK;
}

static kl_status fail_rest(binder *b, bind_symbol *symbol)
{
    b->any_bad = true;
    symbol->state = BIND_FAILED;
    return KL_OK;
}

/* One pass over the text: nodes with coordinates, or everything that waits. */
static kl_status try_all(binder *b, bool coordinates_only, frame_queue *queue)
{
    for (kl_index i = 0; i < b->document->phrase_count; i++) {
        bind_symbol *symbol = b->declared[i].symbol;
        const bool in_frame =
            symbol != NULL && (symbol->kind == KL_KIND_NODE || symbol->kind == KL_KIND_MEMBER);
        if (!in_frame || symbol->state != BIND_WAITING) {
            continue;
        }
        const bool stands_alone = symbol->kind == KL_KIND_NODE && !phrase_has(symbol->phrase, "on");
        KL_TRY(stands_alone || !coordinates_only ? try_one(b, symbol, queue) : KL_OK);
    }
    return KL_OK;
}

kl_status bind_frame(binder *b)
{
    frame_queue queue = {NULL, NULL};
    const size_t members = (size_t)b->names[KL_KIND_MEMBER].count;
    b->measured = arena_array(&b->scratch, members, sizeof *b->measured);
    if (b->measured == NULL) {
        return KL_NO_MEMORY;
    }
    KL_TRY(try_all(b, true, &queue));
    KL_TRY(try_all(b, false, &queue));
    KL_TRY(settle_queue(b, &queue));
    KL_TRY(bind_each(b, KL_KIND_NODE, tell_circle));
    return bind_each(b, KL_KIND_MEMBER, fail_rest);
}
