/* ageing.c - see ageing.h.
 * SPDX-License-Identifier: MIT */
#include "ageing.h"

#include <math.h>
#include <stdlib.h>

#include "material.h"
#include "mem.h"
#include "near.h"
#include "shrinkage.h"

#define SAME_SIZE  1e-9 /* of the volume to surface: it comes of an integral */
#define SAME_BIRTH 1.0  /* s */

/* ---- mixes ---------------------------------------------------------------------------------------------- */

static double member_size(const frame_mesh *mesh, kl_index member)
{
    const mesh_member *of = &mesh->members[member];
    double sum = 0.0;
    double length = 0.0;
    for (kl_index e = of->first; e < of->first + of->count; e++) {
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            const double part =
                (mesh->elements[e].to - mesh->elements[e].from) * mesh->rule.weight[p];
            const member_section at =
                member_section_at(mesh->model, member, mesh_point_station(mesh, e, p), KL_RIGHT);
            sum += part * section_volume_to_surface(at.a, at.b, at.t);
            length += part;
        }
    }
    return sum / length;
}

/* A member with a law, to be sorted: those of one mix come together. */
typedef struct candidate {
    kl_index member, material;
    double size;
} candidate;

static int compare(const void *a, const void *b)
{
    const candidate *p = a;
    const candidate *q = b;
    if (p->material != q->material) {
        return p->material < q->material ? -1 : 1;
    }
    if (p->size < q->size || p->size > q->size) {
        return p->size < q->size ? -1 : 1;
    }
    return (p->member > q->member) - (p->member < q->member);
}

static bool has_law(const kl_material *material)
{
    return material_creeps(material) || material_shrinks(material);
}

static kl_index list_candidates(const frame_mesh *mesh, candidate *list)
{
    const kl_model *model = mesh->model;
    kl_index count = 0;
    for (kl_index m = 0; m < model->member_count; m++) {
        const kl_index material = model->members[m].material;
        if (has_law(&model->materials[material])) {
            list[count++] = (candidate){m, material, member_size(mesh, m)};
        }
    }
    qsort(list, (size_t)count, sizeof *list, compare);
    return count;
}

static double scaled_elastic(const void *context, double loading)
{
    const scaled_creep *s = context;
    return s->law.elastic(s->law.context, loading);
}

static double scaled_delayed(const void *context, double age, double loading)
{
    const scaled_creep *s = context;
    return s->factor * s->law.delayed(s->law.context, age, loading);
}

static void make_mix(ageing *g, const candidate *c, ageing_mix *mix)
{
    const kl_model *model = g->mesh->model;
    const kl_material *material = &model->materials[c->material];
    mix->subject = (creep_subject){.law = time_law_of(material->creep),
                                   .concrete = {.material = material,
                                                .humidity = model->humidity,
                                                .volume_to_surface = c->size}};
    mix->shrinkage = time_law_of(material->shrinkage);
    mix->scaled = (scaled_creep){creep_function_of(&mix->subject), g->creep_factor};
    const creep_function law = {.context = &mix->scaled,
                                .elastic = scaled_elastic,
                                .delayed = scaled_delayed,
                                .separable = mix->scaled.law.separable};
    kelvin_chain_set(&mix->chain, g->basis, &law);
}

static kl_status make_mixes(ageing *g, const candidate *list, kl_index count, arena *a)
{
    g->basis = arena_array(a, 1, sizeof *g->basis);
    g->mixes = arena_array(a, (size_t)count, sizeof *g->mixes);
    if (!g->basis || !g->mixes) {
        return KL_NO_MEMORY;
    }
    kelvin_basis_fill(g->basis);
    for (kl_index i = 0; i < count; i++) {
        const bool same = i > 0 && list[i].material == list[i - 1].material &&
                          near_equal(list[i].size, list[i - 1].size, SAME_SIZE, 0.0);
        if (!same) {
            make_mix(g, &list[i], &g->mixes[g->mix_count++]);
        }
        g->mix_of[list[i].member] = g->mix_count - 1;
    }
    return KL_OK;
}

kl_status ageing_create(const frame_mesh *mesh, const kl_settings *settings, arena *a, ageing *out)
{
    const kl_index members = mesh->model->member_count;
    *out = (ageing){.mesh = mesh,
                    .creep_factor = settings->creep_factor,
                    .shrinkage_factor = settings->shrinkage_factor};
    out->mix_of = arena_array(a, (size_t)members, sizeof(kl_index));
    out->batch_of = arena_array(a, (size_t)members, sizeof(kl_index));
    candidate *list = mem_array((size_t)members + 1, sizeof *list);
    kl_status status = out->mix_of && out->batch_of && list ? KL_OK : KL_NO_MEMORY;
    for (kl_index m = 0; m < members && status == KL_OK; m++) {
        out->mix_of[m] = out->batch_of[m] = KL_NONE;
    }
    const kl_index count = status == KL_OK ? list_candidates(mesh, list) : 0;
    if (count > 0) {
        status = make_mixes(out, list, count, a);
    }
    mem_free(list);
    return status;
}

/* ---- batches -------------------------------------------------------------------------------------------- */

static kl_status make_room(ageing *g, arena *a)
{
    if (g->batch_count < g->batch_room) {
        return KL_OK;
    }
    const kl_index room = g->batch_room > 0 ? 2 * g->batch_room : 4;
    ageing_batch *grown = arena_array(a, (size_t)room, sizeof *grown);
    if (!grown) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < g->batch_count; i++) {
        grown[i] = g->batches[i];
    }
    g->batches = grown;
    g->batch_room = room;
    return KL_OK;
}

/* Few batches are made on one day, and the last made are those asked for. */
static kl_status find_batch(ageing *g, kl_index mix, double birth, arena *a, kl_index *found)
{
    for (*found = g->batch_count - 1; *found >= 0; (*found)--) {
        const ageing_batch *b = &g->batches[*found];
        if (b->mix == mix && fabs(b->birth - birth) < SAME_BIRTH) {
            return KL_OK;
        }
    }
    KL_TRY(make_room(g, a));
    *found = g->batch_count++;
    g->batches[*found] = (ageing_batch){.mix = mix, .birth = birth, .weighed = NAN, .step.to = NAN};
    return KL_OK;
}

kl_status ageing_follow(ageing *g, const stage_state *state, arena *a)
{
    for (kl_index m = 0; m < g->mesh->model->member_count && g->mix_count > 0; m++) {
        const double birth = state->members[m].birth;
        kl_index *batch = &g->batch_of[m];
        if (g->mix_of[m] == KL_NONE || !state->members[m].stands) {
            *batch = KL_NONE;
        } else if (*batch == KL_NONE || !(fabs(g->batches[*batch].birth - birth) < SAME_BIRTH)) {
            KL_TRY(find_batch(g, g->mix_of[m], birth, a, batch));
        }
    }
    return KL_OK;
}

bool ageing_is_under_way(const ageing *g)
{
    for (kl_index m = 0; m < g->mesh->model->member_count && g->mix_count > 0; m++) {
        if (g->batch_of[m] != KL_NONE) {
            return true;
        }
    }
    return false;
}

bool ageing_creeps(const ageing *g, kl_index member)
{
    return g->mixes[g->mix_of[member]].subject.law != TIME_LAW_NONE;
}

const double *ageing_weights(ageing *g, kl_index batch, double time)
{
    ageing_batch *b = &g->batches[batch];
    if (!(fabs(b->weighed - time) <= 0.0)) {
        kelvin_weights(&g->mixes[b->mix].chain, time - b->birth, b->weights);
        b->weighed = time;
    }
    return b->weights;
}

/* ---- steps of time -------------------------------------------------------------------------------------- */

static void step_batch(ageing *g, ageing_batch *b, double from, double to)
{
    const ageing_mix *mix = &g->mixes[b->mix];
    const time_concrete *concrete = &mix->subject.concrete;
    const double age = from - b->birth;
    const bool goes_on = fabs(b->step.to - age) <= 0.0;
    kelvin_step_set(&mix->chain, age, to - b->birth, goes_on ? &b->step : NULL, &b->step);
    b->shrinkage =
        g->shrinkage_factor * (shrinkage_strain(mix->shrinkage, concrete, to - b->birth) -
                               shrinkage_strain(mix->shrinkage, concrete, age));
}

/* Stress that comes evenly over the step strains what only ages by the mean of 1/E. */
static double mean_modulus(const kl_material *material, double from, double to)
{
    return 2.0 / (1.0 / material_modulus(material, from) + 1.0 / material_modulus(material, to));
}

void ageing_step(ageing *g, const stage_state *state, double from, double to, section_book *book)
{
    const kl_model *model = g->mesh->model;
    for (kl_index b = 0; b < g->batch_count; b++) {
        step_batch(g, &g->batches[b], from, to);
    }
    for (kl_index m = 0; m < model->member_count; m++) {
        const kl_material *material = &model->materials[model->members[m].material];
        const double birth = state->members[m].birth;
        if (state->members[m].stands) {
            const double modulus = g->batch_of[m] == KL_NONE
                                       ? mean_modulus(material, from - birth, to - birth)
                                       : 1.0 / g->batches[g->batch_of[m]].step.compliance;
            /* shear strain creeps by the same phi */
            book->modulus[m] = modulus;
            book->shear_modulus[m] = modulus * material_shear_modulus(material, to - birth) /
                                     material_modulus(material, to - birth);
        }
    }
    book->passing = true;
}
