/* action.c - see action.h.
 * SPDX-License-Identifier: MIT */
#include "action.h"

#include <math.h>

#include "near.h"
#include "recover.h"

static trace_point trace_at(const tendon_path *path, double x, kl_side side)
{
    const path_point p = profile_at(path, x, side);
    const double slant = sqrt(1.0 + p.slope * p.slope);
    return (trace_point){.x = x,
                         .duct = p.duct,
                         .height = p.height,
                         .cosine = 1.0 / slant,
                         .sine = p.slope / slant,
                         .curvature = p.curvature};
}

kl_status action_trace(
    const frame_mesh *mesh, kl_index tendon, const tendon_path *path, arena *a, tendon_trace *out)
{
    const kl_tendon *item = &mesh->model->tendons[tendon];
    kl_index most = 0;
    for (kl_index i = 0; i < item->member_count; i++) {
        most += mesh->members[item->members[i]].count;
    }
    trace_element *elements = arena_array(a, (size_t)most, sizeof(trace_element));
    if (!elements) {
        return KL_NO_MEMORY;
    }
    kl_index count = 0;
    double offset = 0.0;
    for (kl_index i = 0; i < item->member_count; i++) {
        const mesh_member *of = &mesh->members[item->members[i]];
        const double tolerance = NEAR_STATION * of->length;
        for (kl_index e = of->first; e < of->first + of->count; e++) {
            const double from = offset + mesh->elements[e].from;
            const double to = offset + mesh->elements[e].to;
            if (from < path->begin - tolerance || to > path->end + tolerance) {
                continue;
            }
            elements[count].element = e;
            for (int p = 0; p < QUADRATURE_POINTS; p++) {
                elements[count].at[p] =
                    trace_at(path, from + (to - from) * mesh->rule.xi[p], KL_RIGHT);
            }
            count++;
        }
        offset += of->length;
    }
    out->elements = elements;
    out->count = count;
    out->area = item->units * item->unit_area * item->count;
    out->modulus = mesh->model->materials[item->material].modulus;
    out->length = path->length;
    return KL_OK;
}

section_action action_unit(const trace_point *at)
{
    return (section_action){at->cosine, -at->cosine * at->height, -at->sine};
}

kl_status action_add(const frame_mesh *mesh,
                     const tendon_trace *trace,
                     const element_matrix *matrix,
                     const double *force,
                     frame_loads *loads)
{
    KL_TRY(loads_open_strain(mesh, loads));
    for (kl_index i = 0; i < trace->count; i++) {
        const kl_index e = trace->elements[i].element;
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            const section_action unit = action_unit(&trace->elements[i].at[p]);
            const section_strain strain = element_section_strain(&matrix[e].f[p], unit);
            const double change = force[i * QUADRATURE_POINTS + p];
            loads->strain[e][p].e -= strain.e * change;
            loads->strain[e][p].k -= strain.k * change;
            loads->strain[e][p].g -= strain.g * change;
        }
    }
    return KL_OK;
}

/* Forces on the end nodes of an element that put the action (n, m, v) on its sections there. */
static void
add_end(const frame_mesh *mesh, kl_index e, int end, section_action s, frame_loads *loads)
{
    const mesh_element *element = &mesh->elements[e];
    const mesh_member *of = &mesh->members[element->member];
    const double sign = end == 0 ? 1.0 : -1.0;
    const double along = sign * s.n; /* the concrete gets the opposite of what the tendon carries */
    const double across = -sign * s.v;
    double *node = &loads->node[3 * element->node[end]];
    node[0] += along * of->cosine - across * of->sine;
    node[1] += along * of->sine + across * of->cosine;
    node[2] += sign * s.m + sign * element->rigid[end] * across;
}

kl_status action_add_as_loads(const frame_mesh *mesh,
                              const tendon_trace *trace,
                              const double *force,
                              frame_loads *loads)
{
    const quadrature *rule = &mesh->rule;
    KL_TRY(loads_open_line(mesh, loads));
    KL_TRY(loads_open_couple(mesh, loads));
    for (kl_index i = 0; i < trace->count; i++) {
        const trace_element *t = &trace->elements[i];
        const double length = mesh->elements[t->element].to - mesh->elements[t->element].from;
        double action[3][QUADRATURE_POINTS];
        double c[3][QUADRATURE_POINTS];
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            const section_action unit = action_unit(&t->at[p]);
            const double value = force[i * QUADRATURE_POINTS + p];
            action[0][p] = value * unit.n;
            action[1][p] = value * unit.m;
            action[2][p] = value * unit.v;
        }
        section_action end[2];
        for (int k = 0; k < 3; k++) {
            quadrature_fit(rule, action[k], 1, c[k]);
        }
        for (int k = 0; k < 2; k++) {
            end[k] = (section_action){quadrature_value(c[0], k), quadrature_value(c[1], k),
                                      quadrature_value(c[2], k)};
            add_end(mesh, t->element, k, end[k], loads);
        }
        /* the tendon is in equilibrium with what the concrete gives it: dN/dx, dV/dx, dM/dx - V */
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            const double s = 2.0 * rule->xi[p] - 1.0;
            double slope[3] = {0.0, 0.0, 0.0};
            for (int k = 0; k < 3; k++) {
                for (int power = QUADRATURE_POINTS - 1; power >= 1; power--) {
                    slope[k] = slope[k] * s + power * c[k][power];
                }
                slope[k] *= 2.0 / length;
            }
            loads->line[t->element].along[p] += slope[0];
            loads->line[t->element].across[p] -= slope[2];
            loads->couple[t->element].along[p] += slope[1] - action[2][p];
        }
    }
    return KL_OK;
}

double action_elongation(const frame_mesh *mesh, const tendon_trace *trace, const double *field)
{
    double sum = 0.0;
    for (kl_index i = 0; i < trace->count; i++) {
        const kl_index e = trace->elements[i].element;
        const double length = mesh->elements[e].to - mesh->elements[e].from;
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            const trace_point *at = &trace->elements[i].at[p];
            const double *row = &field[FIELD_AT(e, p)];
            sum +=
                length * mesh->rule.weight[p] *
                (at->cosine * (row[FIELD_E] - row[FIELD_K] * at->height) - at->sine * row[FIELD_G]);
        }
    }
    return sum;
}
