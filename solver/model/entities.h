/* entities.h - the private half of a model: where its arrays grow, its names and its messages.
 *
 * Every array of kl_model is a block of the store that grows by doubling, up to a limit with a name; texts and
 * lists that belong to an entity are in the arena. A block moves when it grows, so nothing keeps a pointer into
 * one: references are indices.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_ENTITIES_H
#define KERNLINE_ENTITIES_H

#include "arena.h"
#include "kernline/model.h"
#include "name_table.h"

/* The arrays of a model. The first KL_KIND_COUNT are kl_kind itself: the kinds of things with names. */
typedef enum entity_list {
    ENTITY_SUPPORT = KL_KIND_COUNT,
    ENTITY_BEARING,
    ENTITY_EXPECTATION,
    ENTITY_GRADE,
    ENTITY_LIST_COUNT
} entity_list;

typedef struct entity_block {
    void *items;
    size_t capacity;
} entity_block;

typedef struct kl_model_store {
    arena memory;
    kl_diags *diags;
    entity_block blocks[ENTITY_LIST_COUNT]; /* by kl_kind, then entity_list */
    name_table names[KL_KIND_COUNT];
    kl_point low, high; /* the box around all nodes */
} kl_model_store;

/* Extent of the model, m: the scale against which places are compared; 0 before there are two places. */
double entities_size(const kl_model *model);

#endif
