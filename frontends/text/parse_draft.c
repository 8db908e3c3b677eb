/* parse_draft.c - a phrase while it is read: slots and children grow on the heap and end in the arena.
 * SPDX-License-Identifier: MIT */
#include "mem.h"
#include "parse_value.h"

bool parse_add_slot(parser *p, parse_draft *draft, const char *mark, const text_value *value)
{
    void *slots = draft->slots;
    const kl_status status = mem_grow(&slots, &draft->slot_capacity, draft->slot_count + 1,
                                      sizeof(text_slot), PARSER_PHRASES);
    draft->slots = slots;
    if (status != KL_OK) {
        return parse_fail(p, status);
    }
    draft->slots[draft->slot_count++] = (text_slot){.mark = mark, .value = *value};
    return true;
}

bool parse_add_child(parser *p, parse_draft *draft, const phrase *child)
{
    void *children = draft->children;
    const kl_status status = mem_grow(&children, &draft->child_capacity, draft->child_count + 1,
                                      sizeof(phrase), PARSER_PHRASES);
    draft->children = children;
    if (status != KL_OK) {
        return parse_fail(p, status);
    }
    draft->children[draft->child_count++] = *child;
    return true;
}

void parse_free_draft(parse_draft *draft)
{
    mem_free(draft->slots);
    mem_free(draft->children);
}

/* Move what was read to the arena. */
bool parse_end_draft(parser *p, const parse_draft *draft, phrase *out)
{
    out->slot_count = (kl_index)draft->slot_count;
    out->child_count = (kl_index)draft->child_count;
    if (draft->slot_count > 0) {
        out->slots = arena_copy(p->memory, draft->slots, draft->slot_count, sizeof(text_slot));
    }
    if (draft->child_count > 0) {
        out->children = arena_copy(p->memory, draft->children, draft->child_count, sizeof(phrase));
    }
    const bool ok = (draft->slot_count == 0 || out->slots != NULL) &&
                    (draft->child_count == 0 || out->children != NULL);
    return ok ? true : parse_fail(p, KL_NO_MEMORY);
}
