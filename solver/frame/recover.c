/* recover.c - see recover.h.
 * SPDX-License-Identifier: MIT */
#include "recover.h"

#include <string.h>

static void recover_element(const frame_system *system,
                            kl_index e,
                            const element_load *load,
                            const double *u,
                            const double *q,
                            double *field,
                            double *start,
                            double *sum)
{
    const frame_mesh *mesh = system->mesh;
    const element_matrix *m = &system->matrix[e];
    const kl_index *node = mesh->elements[e].node;
    double force[6];
    element_statics statics;
    section_action at[QUADRATURE_POINTS];
    section_action end[2];
    element_balance(&mesh->rule, m->length, load, &statics);
    element_actions(&mesh->rule, m->length, &q[3 * (size_t)e], &statics, at, end);
    element_end_forces(m, end, force);
    for (int i = 0; i < 3; i++) {
        sum[3 * node[0] + i] += force[i];
        sum[3 * node[1] + i] += force[3 + i];
    }
    section_strain strain[QUADRATURE_POINTS];
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        const section_strain elastic = element_section_strain(&m->f[p], at[p]);
        strain[p] = (section_strain){elastic.e + load->strain[p].e, elastic.k + load->strain[p].k,
                                     elastic.g + load->strain[p].g};
        double *out = &field[FIELD_AT(e, p)];
        out[FIELD_N] = at[p].n;
        out[FIELD_M] = at[p].m;
        out[FIELD_V] = at[p].v;
        out[FIELD_E] = strain[p].e;
        out[FIELD_K] = strain[p].k;
        out[FIELD_G] = strain[p].g;
        out[FIELD_TOP] = out[FIELD_BOTTOM] = 0.0;
    }
    double moved[6];
    memcpy(moved, &u[3 * node[0]], 3 * sizeof(double));
    memcpy(moved + 3, &u[3 * node[1]], 3 * sizeof(double));
    element_start_movement(&mesh->rule, m, moved, strain, &start[3 * (size_t)e]);
}

static void recover_turns(const frame_mesh *mesh, const bool *on, const double *u, double *turn)
{
    for (kl_index i = 0; i < mesh->model->member_count; i++) {
        const mesh_member *of = &mesh->members[i];
        const kl_index last = of->first + of->count - 1;
        const bool stands = on[of->first];
        turn[2 * (size_t)i] = stands ? u[3 * mesh->elements[of->first].node[0] + 2] : 0.0;
        turn[2 * (size_t)i + 1] = stands ? u[3 * mesh->elements[last].node[1] + 2] : 0.0;
    }
}

void recover_elements(const frame_system *system,
                      const frame_structure *structure,
                      const frame_loads *loads,
                      const double *u,
                      const double *q,
                      double *field,
                      double *start,
                      double *turn,
                      double *sum)
{
    const frame_mesh *mesh = system->mesh;
    recover_turns(mesh, structure->on, u, turn);
    for (kl_index i = 0; i < 3 * mesh->node_count; i++) {
        sum[i] = -loads->node[i];
    }
    for (kl_index e = 0; e < mesh->element_count; e++) {
        if (structure->on[e]) {
            const element_load load = loads_on(loads, e);
            recover_element(system, e, &load, u, q, field, start, sum);
        } else {
            memset(&start[3 * (size_t)e], 0, 3 * sizeof(double));
            memset(&field[FIELD_AT(e, 0)], 0, FIELD_AT(1, 0) * sizeof(double));
        }
    }
    for (kl_index i = 0; i < structure->strut_count; i++) {
        const frame_strut *strut = &structure->struts[i];
        const double foot = strut->foot == KL_NONE ? 0.0 : u[3 * strut->foot + 1];
        const double force = strut->stiffness * (foot - u[3 * strut->top + 1]);
        sum[3 * strut->top + 1] -= force;
        if (strut->foot != KL_NONE) {
            sum[3 * strut->foot + 1] += force;
        }
    }
}
