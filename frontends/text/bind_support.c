/* bind_support.c - supports, at top level and in stages, and bearings.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind_context.h"

static const char *const direction_marks[3] = {"x", "y", "turn"};

/* ---- what is held ------------------------------------------------------------------------------------------ */

static kl_hold hold_of(const text_value *value)
{
    if (value->kind != VALUE_CHOICE) {
        return (kl_hold){KL_SPRING, value->quantities[0].value};
    }
    const char *word = value->names[0].text;
    if (strcmp(word, "fixed") == 0) {
        return (kl_hold){KL_FIXED, 0.0};
    }
    if (strcmp(word, "push up") == 0 || strcmp(word, "push right") == 0) {
        return (kl_hold){KL_PUSH_PLUS, 0.0};
    }
    if (strcmp(word, "push down") == 0 || strcmp(word, "push left") == 0) {
        return (kl_hold){KL_PUSH_MINUS, 0.0};
    }
    return (kl_hold){KL_FREE, 0.0};
}

static void take_holds(const phrase *p, kl_hold hold[3])
{
    for (int d = 0; d < 3; d++) {
        const text_value *value = phrase_value(p, direction_marks[d]);
        hold[d] = value == NULL ? (kl_hold){KL_FREE, 0.0} : hold_of(value);
    }
}

/* `fixed`, `pinned`, `roller` say all three directions at once. */
static void take_short(binder *b, const phrase *p, kl_support *support)
{
    const bool fixed = phrase_has(p, "fixed");
    const bool pinned = phrase_has(p, "pinned");
    const bool roller = phrase_has(p, "roller");
    const bool slope = phrase_has(p, "slope");
    if (slope && !roller) {
        bind_error(b, "slope-without-roller", p->origin, "Only a roller has a slope.");
        bind_hint(b, "write `roller slope` and the angle");
    }
    if (!fixed && !pinned && !roller) {
        return;
    }
    for (int d = 0; d < 3; d++) {
        if (phrase_has(p, direction_marks[d])) {
            bind_error(b, "support-said-twice", p->origin,
                       "`%s` says already what holds x, y and turn; `%s` cannot stand beside it.",
                       fixed    ? "fixed"
                       : pinned ? "pinned"
                                : "roller",
                       direction_marks[d]);
            return;
        }
    }
    const kl_hold held = {KL_FIXED, 0.0};
    support->hold[KL_Y] = held;
    if (fixed || pinned) {
        support->hold[KL_X] = held;
    }
    if (fixed) {
        support->hold[KL_TURN] = held;
    }
    support->slope = phrase_number(p, "slope", 0.0);
}

/* ---- supports ---------------------------------------------------------------------------------------------- */

/* Which directions are held at a node, for `free`. */
static void remember_held(binder *b, kl_index node, const kl_hold hold[3])
{
    bool *held = &b->held[3 * (size_t)node];
    for (int d = 0; d < 3; d++) {
        held[d] = held[d] || hold[d].kind != KL_FREE;
    }
}

static kl_status add_support(binder *b, const phrase *p, bool later, kl_index *added)
{
    *added = KL_NONE;
    kl_support support = {.origin = p->origin, .added_later = later};
    support.node = bind_mark_reference(b, KL_KIND_NODE, p, "");
    take_holds(p, support.hold);
    take_short(b, p, &support);
    const kl_status status =
        b->bad ? KL_BAD_MODEL : kl_model_add_support(b->model, &support, added);
    KL_TRY(bind_settle(b, NULL, *added, status));
    if (!b->bad) {
        remember_held(b, support.node, support.hold);
    }
    return KL_OK;
}

static kl_status bind_standing(binder *b, const phrase *p)
{
    kl_index added = KL_NONE;
    return add_support(b, p, false, &added);
}

/* Supports of stages come before loads and stages, which refer to them. */
static kl_status bind_late(binder *b, const phrase *stage)
{
    const phrase *p = NULL;
    while ((p = phrase_child(stage, "support", p)) != NULL) {
        b->bad = false;
        KL_TRY(add_support(b, p, true, &b->late_supports[b->late_count]));
        b->late_count++;
    }
    return KL_OK;
}

static kl_index count_late(const text_document *document)
{
    kl_index count = 0;
    for (kl_index i = 0; i < document->phrase_count; i++) {
        if (strcmp(document->phrases[i].word, "stage") == 0) {
            count += document->phrases[i].child_count;
        }
    }
    return count;
}

/* ---- bearings ---------------------------------------------------------------------------------------------- */

static kl_status bind_bearing(binder *b, const phrase *p)
{
    kl_bearing bearing = {.origin = p->origin};
    bearing.node = bind_mark_reference(b, KL_KIND_NODE, p, "");
    bearing.base = bind_mark_reference(b, KL_KIND_NODE, p, "on");
    take_holds(p, bearing.hold);
    const kl_status status = b->bad ? KL_BAD_MODEL : kl_model_add_bearing(b->model, &bearing, NULL);
    KL_TRY(bind_settle(b, NULL, KL_NONE, status));
    if (!b->bad) {
        remember_held(b, bearing.node, bearing.hold);
    }
    return KL_OK;
}

kl_status bind_supports(binder *b)
{
    b->held = arena_array(&b->scratch, 3 * (size_t)b->model->node_count, sizeof *b->held);
    b->late_supports =
        arena_array(&b->scratch, (size_t)count_late(b->document), sizeof *b->late_supports);
    if (b->held == NULL || b->late_supports == NULL) {
        return KL_NO_MEMORY;
    }
    KL_TRY(bind_each_phrase(b, "support", bind_standing));
    KL_TRY(bind_each_phrase(b, "stage", bind_late));
    b->late_count = 0; /* the stages take them in the same order */
    return bind_each_phrase(b, "bearing", bind_bearing);
}
