/* parse_draft.c - a phrase while it is read: slots and children grow on the parser's stacks and end in the arena.
 * SPDX-License-Identifier: MIT */
#include <string.h>

#include "mem.h"
#include "parse_value.h"

static bool push(parser *p, parse_stack *stack, const void *item, size_t size)
{
    const kl_status status =
        mem_grow(&stack->items, &stack->capacity, stack->count + 1, size, PARSER_PHRASES);
    if (status != KL_OK) {
        return parse_fail(p, status);
    }
    memcpy((char *)stack->items + stack->count * size, item, size);
    stack->count++;
    return true;
}

bool parse_add_slot(parser *p, parse_draft *draft, const char *mark, const text_value *value)
{
    const text_slot slot = {.mark = mark, .value = *value};
    draft->slot_count++;
    return push(p, &p->slots, &slot, sizeof slot);
}

bool parse_add_child(parser *p, parse_draft *draft, const phrase *child)
{
    draft->child_count++;
    return push(p, &p->children, child, sizeof *child);
}

const text_slot *parse_slots(const parser *p, const parse_draft *draft)
{
    const text_slot *slots = p->slots.items;
    return slots != NULL ? slots + draft->first_slot : NULL;
}

const phrase *parse_children(const parser *p, const parse_draft *draft)
{
    const phrase *children = p->children.items;
    return children != NULL ? children + draft->first_child : NULL;
}

parse_draft parse_open_draft(const parser *p, const grammar_row *row, kl_origin origin)
{
    return (parse_draft){.row = row,
                         .origin = origin,
                         .first_slot = p->slots.count,
                         .first_child = p->children.count};
}

void parse_close_draft(parser *p, const parse_draft *draft)
{
    p->slots.count = draft->first_slot;
    p->children.count = draft->first_child;
}

bool parse_end_draft(parser *p, const parse_draft *draft, phrase *out)
{
    out->slot_count = (kl_index)draft->slot_count;
    out->child_count = (kl_index)draft->child_count;
    if (draft->slot_count > 0) {
        out->slots =
            arena_copy(p->memory, parse_slots(p, draft), draft->slot_count, sizeof(text_slot));
    }
    if (draft->child_count > 0) {
        out->children =
            arena_copy(p->memory, parse_children(p, draft), draft->child_count, sizeof(phrase));
    }
    const bool ok = (draft->slot_count == 0 || out->slots != NULL) &&
                    (draft->child_count == 0 || out->children != NULL);
    return ok ? true : parse_fail(p, KL_NO_MEMORY);
}
