/* commit.c - see commit.h.
 * SPDX-License-Identifier: MIT */
#include "commit.h"

#include <math.h>
#include <string.h>

#include "effect.h"

static void add_all(double *to, const double *from, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        to[i] += from[i];
    }
}

/* Stress at a level y of the section; nothing is kept of a bare section that does not say where its fibres are. */
static double stress(double modulus, const double *row, double y, double free_strain)
{
    return isnan(y) ? 0.0 : modulus * (row[FIELD_E] - row[FIELD_K] * y - free_strain);
}

/* Stresses of the extreme fibres from the strains the concrete sees. */
static void add_stresses(const analysis_run *run, pending_column *c)
{
    const frame_mesh *mesh = &run->mesh;
    for (kl_index e = 0; e < mesh->element_count; e++) {
        if (!run->state.element_on[e]) {
            continue;
        }
        const double modulus = run->book.modulus[mesh->elements[e].member];
        const fibre_strain *free = loads_fibre(c->loads.fibre, e);
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            const mesh_section *s = &mesh->sections[mesh->elements[e].section + p];
            double *row = &c->field[FIELD_AT(e, p)];
            row[FIELD_TOP] = stress(modulus, row, s->top, free->top[p]);
            row[FIELD_BOTTOM] = stress(modulus, row, s->bottom, free->bottom[p]);
        }
    }
}

/* A grouted tendon feels the strain of its section; of temperature only what is beyond the free strain, since it warms with the
 * concrete around it (else concrete and tendon would not make up the whole). */
static void add_tendon_forces(const analysis_run *run, pending_column *c)
{
    for (kl_index t = 0; t < run->model->tendon_count; t++) {
        const tendon_trace *trace = &run->traces[t];
        double *to = &c->delta[run->layout.tendon + (size_t)run->first_trace[t]];
        const bool grouted = section_holds_tendon(&run->book, &run->state, t);
        for (kl_index i = 0; i < trace->count; i++) {
            for (int p = 0; p < QUADRATURE_POINTS; p++) {
                const trace_point *at = &trace->elements[i].at[p];
                const double *row = &c->field[FIELD_AT(trace->elements[i].element, p)];
                const section_strain free =
                    c->kind == KL_CAUSE_TEMPERATURE
                        ? loads_fibre(c->loads.fibre, trace->elements[i].element)->plane[p]
                        : (section_strain){0};
                const double bonded =
                    trace->modulus * trace->area * at->cosine * at->cosine *
                    (row[FIELD_E] - free.e - (row[FIELD_K] - free.k) * at->height);
                to[i * QUADRATURE_POINTS + p] += grouted ? bonded : c->coupled[t];
            }
        }
    }
}

static void add_contacts(const analysis_run *run,
                         const contact_list *list,
                         const pending_column *own,
                         pending_column *c)
{
    for (kl_index i = 0; i < list->count; i++) {
        const contact *k = &list->items[i];
        const double before = effect_carried(run, c, k);
        if (k->kind == CONTACT_ROW) {
            double *row = &c->delta[run->layout.row + (size_t)k->index];
            if (!k->closed) {
                *row -= before;
            } else {
                *row +=
                    run->mesh.rows[k->index].stiffness * effect_row_closing(run, k->index, c->u);
                *row += !k->was_closed && c == own ? run->state.rows[k->index].virtual_force : 0.0;
            }
        } else if (!k->closed && k->kind == CONTACT_HOLD) {
            effect_push_hold(run, &run->state.holds[k->index], -before,
                             c->delta + run->layout.reaction);
        } else if (!k->closed) {
            const joint_state *joint = &run->state.joints[k->index];
            c->delta[run->layout.bearing + 3 * (size_t)joint->bearing + (size_t)joint->direction] -=
                before;
        }
    }
}

static void add_reactions(const analysis_run *run, pending_column *c)
{
    for (kl_index i = 0; i < run->state.hold_count; i++) {
        const hold_state *hold = &run->state.holds[i];
        if (hold->active && (hold->bears || hold->kind == KL_SPRING)) {
            effect_push_hold(run, hold, effect_along_hold(run, hold, c->sum),
                             c->delta + run->layout.reaction);
        }
    }
}

static void commit_column(analysis_run *run,
                          const contact_list *list,
                          const pending_column *own,
                          pending_column *c)
{
    add_contacts(run, list, own, c);
    add_stresses(run, c);
    add_tendon_forces(run, c);
    add_reactions(run, c);
    add_all(c->delta + run->layout.bearing, c->bearing, 3 * (size_t)run->model->bearing_count);
}

/* From the whole change to the new total. What does not stand has no courses (any more). */
static void add_old(const analysis_run *run, const double *old, pending_column *c)
{
    for (size_t i = 0; i < run->layout.size; i++) {
        c->delta[i] += old ? old[i] : 0.0; /* that, too: a response may hold a zero with a sign */
    }
    for (kl_index e = 0; e < run->mesh.element_count; e++) {
        if (!run->state.element_on[e]) {
            memset(&c->start[3 * (size_t)e], 0, 3 * sizeof(double));
            memset(&c->field[FIELD_AT(e, 0)], 0, FIELD_AT(1, 0) * sizeof(double));
        }
    }
    for (kl_index i = 0; i < run->model->member_count; i++) {
        if (!run->state.element_on[run->mesh.members[i].first]) {
            memset(&c->turn[2 * (size_t)i], 0, 2 * sizeof(double));
        }
    }
}

/* Gaps and virtual forces move on; needs all responses. */
static void move_contacts(analysis_run *run, const contact_list *list)
{
    for (kl_index i = 0; i < list->count; i++) {
        const contact *k = &list->items[i];
        if (k->kind == CONTACT_ROW) {
            run->state.rows[k->index].virtual_force = k->value;
        } else if (k->kind == CONTACT_HOLD) {
            run->state.holds[k->index].gap = k->closed ? 0.0 : -k->value;
        } else {
            run->state.joints[k->index].gap = k->closed ? 0.0 : -k->value;
        }
    }
}

static void move_tendons(analysis_run *run)
{
    for (kl_index t = 0; t < run->model->tendon_count; t++) {
        double change = 0.0;
        for (kl_index i = 0; i < run->pending_count; i++) {
            change += run->pending[i].coupled[t];
        }
        run->state.tendons[t].uniform += change / run->model->tendons[t].count;
    }
}

/* The concrete takes its stresses in, where there is time to creep under them. */
static kl_status keep_stresses(analysis_run *run)
{
    const double time = run->state.time;
    if (run->ageing.mix_count == 0 || !(time < run->memory.last_day || run->book.passing)) {
        return KL_OK;
    }
    for (kl_index i = 0; i < run->pending_count; i++) {
        const pending_column *c = &run->pending[i];
        run->stresses[i] = (memory_stress){.source = memory_source(c->kind, c->load_case),
                                           .field = c->field,
                                           .fibre = c->loads.fibre};
    }
    KL_TRY(ageing_follow(&run->ageing, &run->state, run->a));
    return memory_take(&run->memory, &run->ageing, &run->book, time, run->stresses,
                       run->pending_count, run->a);
}

kl_status commit_increment(analysis_run *run, const contact_list *list, const pending_column *own)
{
    for (kl_index i = 0; i < run->pending_count; i++) {
        commit_column(run, list, own, &run->pending[i]);
    }
    KL_TRY(keep_stresses(run));
    move_contacts(run, list);
    move_tendons(run);
    for (kl_index i = 0; i < run->pending_count; i++) {
        pending_column *c = &run->pending[i];
        cause_column *to = state_column(run->a, &run->state.set, c->kind, c->load_case);
        if (!to) {
            return KL_NO_MEMORY;
        }
        add_old(run, to->data, c);
        KL_TRY(block_give(&run->blocks, run->a, to->recorded ? NULL : to->data));
        to->data = c->delta;
        to->recorded = false;
        c->delta = NULL;
    }
    run->pending_count = 0;
    return KL_OK;
}
