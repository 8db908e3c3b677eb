/* loads.c - see loads.h.
 * SPDX-License-Identifier: MIT */
#include "loads.h"

#include <string.h>

#include "near.h"

kl_status loads_create(const frame_mesh *mesh, arena *a, frame_loads *out)
{
    *out = (frame_loads){.a = a};
    out->node = arena_array(a, 3 * (size_t)mesh->node_count, sizeof(double));
    return out->node ? KL_OK : KL_NO_MEMORY;
}

static void clear(void *array, kl_index count, size_t size)
{
    if (array) {
        memset(array, 0, (size_t)count * size);
    }
}

void loads_clear(const frame_mesh *mesh, frame_loads *loads)
{
    clear(loads->node, mesh->node_count, 3 * sizeof(double));
    clear(loads->moved, mesh->node_count, 3 * sizeof(double));
    clear(loads->line, mesh->element_count, sizeof *loads->line);
    clear(loads->couple, mesh->element_count, sizeof *loads->couple);
    clear(loads->strain, mesh->element_count, sizeof *loads->strain);
    clear(loads->fibre, mesh->element_count, sizeof *loads->fibre);
}

/* ---- kinds ---------------------------------------------------------------------------------------------- */

static void *opened(const frame_loads *loads, void *array, kl_index count, size_t size)
{
    return array ? array : arena_array(loads->a, (size_t)count, size);
}

kl_status loads_open_moved(const frame_mesh *mesh, frame_loads *loads)
{
    loads->moved = opened(loads, loads->moved, mesh->node_count, 3 * sizeof(double));
    return loads->moved ? KL_OK : KL_NO_MEMORY;
}

kl_status loads_open_line(const frame_mesh *mesh, frame_loads *loads)
{
    loads->line = opened(loads, loads->line, mesh->element_count, sizeof *loads->line);
    return loads->line ? KL_OK : KL_NO_MEMORY;
}

kl_status loads_open_couple(const frame_mesh *mesh, frame_loads *loads)
{
    loads->couple = opened(loads, loads->couple, mesh->element_count, sizeof *loads->couple);
    return loads->couple ? KL_OK : KL_NO_MEMORY;
}

kl_status loads_open_strain(const frame_mesh *mesh, frame_loads *loads)
{
    loads->strain = opened(loads, loads->strain, mesh->element_count, sizeof *loads->strain);
    return loads->strain ? KL_OK : KL_NO_MEMORY;
}

kl_status loads_open_fibre(const frame_mesh *mesh, frame_loads *loads)
{
    KL_TRY(loads_open_strain(mesh, loads));
    loads->fibre = opened(loads, loads->fibre, mesh->element_count, sizeof *loads->fibre);
    return loads->fibre ? KL_OK : KL_NO_MEMORY;
}

element_load loads_on(const frame_loads *loads, kl_index element)
{
    static const line_load no_line;
    static const line_couple no_couple;
    static const section_strain no_strain[QUADRATURE_POINTS];
    return (element_load){.line = loads->line ? &loads->line[element] : &no_line,
                          .couple = loads->couple ? &loads->couple[element] : &no_couple,
                          .strain = loads->strain ? loads->strain[element] : no_strain};
}

const fibre_strain *loads_fibre(const fibre_strain *fibre, kl_index element)
{
    static const fibre_strain none;
    return fibre ? &fibre[element] : &none;
}

/* ---- nothing -------------------------------------------------------------------------------------------- */

/* An array of structs of doubles. */
static bool none_of(const void *array, kl_index count, size_t size)
{
    const double *value = array;
    bool none = true;
    for (size_t i = 0; value && none && i < (size_t)count * size / sizeof(double); i++) {
        none = is_exact_zero(value[i]);
    }
    return none;
}

bool loads_are_none(const frame_mesh *mesh, const frame_loads *loads)
{
    return none_of(loads->node, mesh->node_count, 3 * sizeof(double)) &&
           none_of(loads->moved, mesh->node_count, 3 * sizeof(double)) &&
           none_of(loads->line, mesh->element_count, sizeof *loads->line) &&
           none_of(loads->couple, mesh->element_count, sizeof *loads->couple) &&
           none_of(loads->strain, mesh->element_count, sizeof *loads->strain);
}
