/* creep_memory.c - see creep_memory.h.
 * SPDX-License-Identifier: MIT */
#include "creep_memory.h"

#include <math.h>
#include <string.h>

#include "near.h"
#include "recover.h"

kl_cause_kind memory_source(kl_cause_kind kind, kl_index load_case)
{
    return kind == KL_CAUSE_CREEP ? (kl_cause_kind)load_case : kind;
}

static bool gives_way_in_shear(const frame_mesh *mesh, const mesh_member *of)
{
    bool any = false;
    for (kl_index e = of->first; e < of->first + of->count; e++) {
        any = any || mesh_gives_way_in_shear(mesh, e);
    }
    return any;
}

/* At the first stresses that come; later there is nothing to do. */
static kl_status open_memory(const frame_mesh *mesh, arena *a, creep_memory *memory)
{
    if (memory->plane) {
        return KL_OK;
    }
    memory->kinds = arena_array(a, (size_t)mesh->model->member_count, sizeof(int));
    memory->plane = arena_array(a, (size_t)mesh->element_count * MEMORY_COMPONENTS, sizeof(double));
    if (!memory->kinds || !memory->plane) {
        return KL_NO_MEMORY;
    }
    for (kl_index m = 0; m < mesh->model->member_count; m++) {
        memory->kinds[m] = gives_way_in_shear(mesh, &mesh->members[m]) ? 3 : 2;
    }
    return KL_OK;
}

bool memory_has(const creep_memory *memory, kl_cause_kind source)
{
    return memory->remaining[source] != NULL;
}

/* A member's first component and how many it has, of planes; of memories times KELVIN_UNITS. */
static size_t first_of(const mesh_member *of)
{
    return (size_t)of->first * MEMORY_COMPONENTS;
}

static int points_of(const mesh_member *of)
{
    return (int)of->count * QUADRATURE_POINTS;
}

/* ---- taking in ------------------------------------------------------------------------------------------ */

/* Add E times the strains that a member's concrete sees beyond its free ones. */
static void
add_planes(const mesh_member *of, double modulus, const memory_stress *s, int kinds, double *plane)
{
    const int n = points_of(of);
    for (kl_index e = of->first; e < of->first + of->count; e++) {
        for (int p = 0; p < QUADRATURE_POINTS; p++, plane++) {
            const double *row = &s->field[FIELD_AT(e, p)];
            const section_strain *free = &loads_fibre(s->fibre, e)->plane[p];
            plane[0] += modulus * (row[FIELD_E] - free->e);
            plane[n] += modulus * (row[FIELD_K] - free->k);
            if (kinds == 3) {
                plane[2 * n] += modulus * (row[FIELD_G] - free->g);
            }
        }
    }
}

static bool any_stress(const double *plane, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (!is_exact_zero(plane[i])) {
            return true;
        }
    }
    return false;
}

static bool brings(const memory_stress *stresses, kl_index count, kl_cause_kind source)
{
    for (kl_index i = 0; i < count; i++) {
        if (stresses[i].source == source) {
            return true;
        }
    }
    return false;
}

/* The stresses of one source in `plane`. @return whether there are any. */
static bool collect(creep_memory *memory,
                    const ageing *g,
                    const section_book *book,
                    kl_cause_kind source,
                    const memory_stress *stresses,
                    kl_index count)
{
    const frame_mesh *mesh = g->mesh;
    const size_t components = (size_t)mesh->element_count * MEMORY_COMPONENTS;
    if (!brings(stresses, count, source)) {
        return false;
    }
    memset(memory->plane, 0, components * sizeof *memory->plane);
    for (kl_index i = 0; i < count; i++) {
        for (kl_index m = 0; m < mesh->model->member_count && stresses[i].source == source; m++) {
            if (g->batch_of[m] != KL_NONE && ageing_creeps(g, m)) {
                add_planes(&mesh->members[m], book->modulus[m], &stresses[i], memory->kinds[m],
                           memory->plane + first_of(&mesh->members[m]));
            }
        }
    }
    return any_stress(memory->plane, components);
}

/* What does not stand remembers nothing, and begins anew when it is built again.
 * @param plane of all members; NULL: no stress came */
static void take_member(const creep_memory *memory,
                        ageing *g,
                        const section_book *book,
                        double time,
                        kl_index m,
                        const double *plane,
                        double *remaining)
{
    const mesh_member *of = &g->mesh->members[m];
    const int n = memory->kinds[m] * points_of(of);
    const kl_index batch = g->batch_of[m];
    remaining += first_of(of) * KELVIN_UNITS;
    if (batch == KL_NONE) {
        memset(remaining, 0, (size_t)n * KELVIN_UNITS * sizeof *remaining);
    } else if (book->passing) {
        kelvin_step_advance(&g->batches[batch].step, n, plane ? plane + first_of(of) : NULL,
                            remaining);
    } else if (plane) {
        kelvin_load(ageing_weights(g, batch, time), n, plane + first_of(of), remaining);
    }
}

kl_status memory_take(creep_memory *memory,
                      ageing *g,
                      const section_book *book,
                      double time,
                      const memory_stress *stresses,
                      kl_index count,
                      arena *a)
{
    const frame_mesh *mesh = g->mesh;
    const size_t components = (size_t)mesh->element_count * MEMORY_COMPONENTS;
    KL_TRY(open_memory(mesh, a, memory));
    for (int source = 0; source < KL_CAUSE_COUNT; source++) {
        double **remaining = &memory->remaining[source];
        const bool any = collect(memory, g, book, (kl_cause_kind)source, stresses, count);
        if (any && !*remaining) {
            *remaining = arena_array(a, components * KELVIN_UNITS, sizeof(double));
            if (!*remaining) {
                return KL_NO_MEMORY;
            }
        }
        for (kl_index m = 0; m < mesh->model->member_count && *remaining; m++) {
            if (g->mix_of[m] != KL_NONE) {
                take_member(memory, g, book, time, m, any ? memory->plane : NULL, *remaining);
            }
        }
    }
    return KL_OK;
}

/* ---- creeping ------------------------------------------------------------------------------------------- */

void memory_creep(const creep_memory *memory,
                  const ageing *g,
                  const section_book *book,
                  const element_matrix *matrix,
                  kl_cause_kind source,
                  frame_loads *loads)
{
    const frame_mesh *mesh = g->mesh;
    for (kl_index m = 0; m < mesh->model->member_count; m++) {
        const mesh_member *of = &mesh->members[m];
        double *strain = memory->plane + first_of(of);
        const int n = points_of(of);
        if (g->batch_of[m] == KL_NONE || !ageing_creeps(g, m)) {
            continue;
        }
        kelvin_step_creep(&g->batches[g->batch_of[m]].step, memory->kinds[m] * n,
                          memory->remaining[source] + first_of(of) * KELVIN_UNITS, strain);
        for (kl_index e = of->first; e < of->first + of->count; e++) {
            for (int p = 0; p < QUADRATURE_POINTS; p++, strain++) {
                const double g_of = memory->kinds[m] == 3 ? strain[2 * n] : 0.0;
                section_add_free_strain(book, &matrix[e], e, p,
                                        (section_strain){strain[0], strain[n], g_of}, loads);
            }
        }
    }
}
