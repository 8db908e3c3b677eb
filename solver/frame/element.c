/* element.c - see element.h.
 * SPDX-License-Identifier: MIT */
#include "element.h"

#include <math.h>
#include <string.h>

#include "near.h"

/* ---- flexibility and stiffness ----------------------------------------------------------------------- */

section_flexibility section_soften(const section_rigidity *d)
{
    const section_flexibility none = {0};
    const double shear = 1.0 / d->shear; /* zero when rigid in shear */
    if (!(d->ea > 0.0)) {
        return none;
    }
    if (!(d->ei > 0.0)) {
        return (section_flexibility){.ee = 1.0 / d->ea, .gg = shear};
    }
    const double determinant = d->ea * d->ei - d->es * d->es;
    if (!(determinant > 0.0)) {
        return none;
    }
    return (section_flexibility){.ee = d->ei / determinant,
                                 .ek = d->es / determinant,
                                 .kk = d->ea / determinant,
                                 .gg = shear};
}

/* F = integral of b^T f b with b rows N: (1, 0, 0), M: (0, 1-xi, xi), V: (0, -1/L, 1/L). */
static void
basic_flexibility(const quadrature *rule, const element_matrix *m, double flexibility[3][3])
{
    const double length = m->length;
    double f11 = 0.0, f12 = 0.0, f13 = 0.0, f22 = 0.0, f23 = 0.0, f33 = 0.0, shear = 0.0;
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        const double w = rule->weight[p] * length;
        const double xi = rule->xi[p];
        const section_flexibility *f = &m->f[p];
        f11 += w * f->ee;
        f12 += w * f->ek * (1.0 - xi);
        f13 += w * f->ek * xi;
        f22 += w * f->kk * (1.0 - xi) * (1.0 - xi);
        f23 += w * f->kk * (1.0 - xi) * xi;
        f33 += w * f->kk * xi * xi;
        shear += w * f->gg / (length * length);
    }
    flexibility[0][0] = f11;
    flexibility[0][1] = flexibility[1][0] = f12;
    flexibility[0][2] = flexibility[2][0] = f13;
    flexibility[1][1] = f22 + shear;
    flexibility[1][2] = flexibility[2][1] = f23 - shear;
    flexibility[2][2] = f33 + shear;
}

/* Where a symmetric matrix of three rows has its terms. */
static const int half[3][3] = {{0, 1, 2}, {1, 3, 4}, {2, 4, 5}};

/* Inverse of the symmetric matrix restricted to the kept rows, by elimination in that order (the matrix is
 * positive definite there); zero elsewhere. */
static kl_status invert_kept(double a[3][3], const bool kept[3], double inverse[6])
{
    double work[3][6];
    int at[3];
    int n = 0;
    for (int i = 0; i < 3; i++) {
        if (kept[i]) {
            at[n++] = i;
        }
    }
    for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
            work[i][j] = a[at[i]][at[j]];
            work[i][n + j] = i == j ? 1.0 : 0.0;
        }
    }
    for (int k = 0; k < n; k++) {
        const double pivot = work[k][k];
        if (!(pivot > 0.0) || !isfinite(pivot)) {
            return KL_MECHANISM;
        }
        for (int j = 0; j < 2 * n; j++) {
            work[k][j] /= pivot;
        }
        for (int i = 0; i < n; i++) {
            const double share = work[i][k];
            for (int j = 0; i != k && j < 2 * n; j++) {
                work[i][j] -= share * work[k][j];
            }
        }
    }
    memset(inverse, 0, 6 * sizeof(double));
    for (int i = 0; i < n; i++) {
        for (int j = i; j < n; j++) {
            inverse[half[at[i]][at[j]]] = 0.5 * (work[i][n + j] + work[j][n + i]);
        }
    }
    return KL_OK;
}

kl_status element_form(const frame_mesh *mesh,
                       kl_index e,
                       const section_flexibility f[QUADRATURE_POINTS],
                       const bool hinge[2],
                       element_matrix *out)
{
    const mesh_element *element = &mesh->elements[e];
    const mesh_member *member = &mesh->members[element->member];
    const bool axial_only = mesh->model->members[element->member].axial_only;
    *out = (element_matrix){.length = element->to - element->from,
                            .cosine = member->cosine,
                            .sine = member->sine,
                            .rigid = {element->rigid[0], element->rigid[1]},
                            .f = f};
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        if (!(f[p].ee > 0.0)) {
            return KL_MECHANISM;
        }
    }
    double flexibility[3][3];
    basic_flexibility(&mesh->rule, out, flexibility);
    const bool kept[3] = {true, !hinge[0] && !axial_only, !hinge[1] && !axial_only};
    return invert_kept(flexibility, kept, out->k);
}

/* Rows of T: basic deformations (elongation, psi - r_start, r_end - psi) from local movements of the nodes
 * (u, v, r at start and end), rigid lengths a and b included. */
static void basic_transformation(const element_matrix *m, double t[3][6])
{
    const double l = m->length;
    const double a = m->rigid[0];
    const double b = m->rigid[1];
    const double rows[3][6] = {{-1.0, 0.0, 0.0, 1.0, 0.0, 0.0},
                               {0.0, -1.0 / l, -a / l - 1.0, 0.0, 1.0 / l, -b / l},
                               {0.0, 1.0 / l, a / l, 0.0, -1.0 / l, 1.0 + b / l}};
    memcpy(t, rows, sizeof(rows));
}

/* The same from global movements: columns turned by the member's direction. */
static void global_transformation(const element_matrix *m, double t[3][6])
{
    double local[3][6];
    basic_transformation(m, local);
    for (int i = 0; i < 3; i++) {
        for (int n = 0; n < 6; n += 3) {
            t[i][n] = local[i][n] * m->cosine - local[i][n + 1] * m->sine;
            t[i][n + 1] = local[i][n] * m->sine + local[i][n + 1] * m->cosine;
            t[i][n + 2] = local[i][n + 2];
        }
    }
}

void element_stiffness(const element_matrix *m, double block[2][2][9])
{
    double t[3][6];
    double kt[3][6];
    global_transformation(m, t);
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 6; j++) {
            kt[i][j] = m->k[half[i][0]] * t[0][j] + m->k[half[i][1]] * t[1][j] +
                       m->k[half[i][2]] * t[2][j];
        }
    }
    for (int i = 0; i < 6; i++) {
        for (int j = 0; j < 6; j++) {
            block[i / 3][j / 3][3 * (i % 3) + j % 3] =
                t[0][i] * kt[0][j] + t[1][i] * kt[1][j] + t[2][i] * kt[2][j];
        }
    }
}

/* ---- loads ------------------------------------------------------------------------------------------- */

static double weighted(const double *weights, const double *values)
{
    double sum = 0.0;
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        sum += weights[p] * values[p];
    }
    return sum;
}

/* Most causes load few elements. */
static bool is_unloaded(const element_load *load)
{
    double size = fabs(load->couple->end[0]) + fabs(load->couple->end[1]);
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        size +=
            fabs(load->line->along[p]) + fabs(load->line->across[p]) + fabs(load->couple->along[p]);
    }
    return is_exact_zero(size);
}

/* N(1) = 0; M(0), M(1) = the forced hinge moments; dN/dx = -along, dV/dx = across, dM/dx = V - couple */
static void
balance_ends(const quadrature *rule, double length, const element_load *load, section_action end[2])
{
    const double n0 = length * weighted(rule->weight, load->line->along);
    const double couple = length * weighted(rule->weight, load->couple->along);
    const double m0 = load->couple->end[0];
    const double m1 = load->couple->end[1];
    const double v0 =
        -length * weighted(rule->lever, load->line->across) + couple / length + (m1 - m0) / length;
    end[0] = (section_action){n0, m0, v0};
    end[1] = (section_action){0.0, m1, v0 + length * weighted(rule->weight, load->line->across)};
}

void element_balance(const quadrature *rule,
                     double length,
                     const element_load *load,
                     element_statics *s)
{
    if (is_unloaded(load)) {
        *s = (element_statics){0};
        return;
    }
    balance_ends(rule, length, load, s->end);
    const double n0 = s->end[0].n;
    const double m0 = s->end[0].m;
    const double v0 = s->end[0].v;
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        s->at[p].n = n0 - length * weighted(rule->integral[p], load->line->along);
        s->at[p].v = v0 + length * weighted(rule->integral[p], load->line->across);
        s->at[p].m = m0 + rule->xi[p] * length * v0 +
                     length * length * weighted(rule->twice[p], load->line->across) -
                     length * weighted(rule->integral[p], load->couple->along);
    }
}

section_strain element_section_strain(const section_flexibility *f, section_action s)
{
    return (section_strain){f->ee * s.n + f->ek * s.m, f->ek * s.n + f->kk * s.m, f->gg * s.v};
}

void element_free_deformation(const quadrature *rule,
                              const element_matrix *m,
                              const element_statics *s,
                              const section_strain *initial,
                              double v[3])
{
    v[0] = v[1] = v[2] = 0.0;
    double shear = 0.0;
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        const double w = rule->weight[p] * m->length;
        const section_strain strain = element_section_strain(&m->f[p], s->at[p]);
        const double k = strain.k + initial[p].k;
        v[0] += w * (strain.e + initial[p].e);
        v[1] += w * (1.0 - rule->xi[p]) * k;
        v[2] += w * rule->xi[p] * k;
        shear += rule->weight[p] * (strain.g + initial[p].g);
    }
    v[1] -= shear;
    v[2] += shear;
}

void element_deformation(const element_matrix *m, const double u[6], double v[3])
{
    double t[3][6];
    global_transformation(m, t);
    for (int i = 0; i < 3; i++) {
        v[i] = 0.0;
        for (int j = 0; j < 6; j++) {
            v[i] += t[i][j] * u[j];
        }
    }
}

void element_basic_force(const element_matrix *m,
                         const double v[3],
                         const double v_free[3],
                         double q[3])
{
    for (int i = 0; i < 3; i++) {
        q[i] = 0.0;
        for (int j = 0; j < 3; j++) {
            q[i] += m->k[half[i][j]] * (v[j] - v_free[j]);
        }
    }
}

static void
add_basic(double length, const double q[3], const section_action own[2], section_action end[2])
{
    const double shear = (q[2] - q[1]) / length;
    for (int i = 0; i < 2; i++) {
        end[i].n = q[0] + own[i].n;
        end[i].m = q[1 + i] + own[i].m;
        end[i].v = shear + own[i].v;
    }
}

void element_end_actions(const quadrature *rule,
                         double length,
                         const double q[3],
                         const element_load *load,
                         section_action end[2])
{
    section_action own[2] = {{0}};
    if (!is_unloaded(load)) {
        balance_ends(rule, length, load, own);
    }
    add_basic(length, q, own, end);
}

void element_actions(const quadrature *rule,
                     double length,
                     const double q[3],
                     const element_statics *s,
                     section_action at[QUADRATURE_POINTS],
                     section_action end[2])
{
    const double shear = (q[2] - q[1]) / length;
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        const double xi = rule->xi[p];
        at[p].n = q[0] + s->at[p].n;
        at[p].m = (1.0 - xi) * q[1] + xi * q[2] + s->at[p].m;
        at[p].v = shear + s->at[p].v;
    }
    add_basic(length, q, s->end, end);
}

/* On the start face act (-N, V, -M), on the end face (N, -V, M), local; moved to the nodes over the rigid
 * parts. */
void element_end_forces(const element_matrix *m, const section_action end[2], double force[6])
{
    const double local[6] = {-end[0].n, end[0].v,  -end[0].m + m->rigid[0] * end[0].v,
                             end[1].n,  -end[1].v, end[1].m + m->rigid[1] * end[1].v};
    for (int n = 0; n < 6; n += 3) {
        force[n] = local[n] * m->cosine - local[n + 1] * m->sine;
        force[n + 1] = local[n] * m->sine + local[n + 1] * m->cosine;
        force[n + 2] = local[n + 2];
    }
}

/* Across the member, at the face: u is the node's movement, `lever` how far the face lies beyond the node. */
static double across_at_face(const element_matrix *m, const double u[3], double lever)
{
    return -u[0] * m->sine + u[1] * m->cosine + lever * u[2];
}

/* v_end = v_start + r L + integral of (L - x) k - integral of g, solved for r. */
static double turn_of_hinged_start(const quadrature *rule,
                                   const element_matrix *m,
                                   const double u[6],
                                   const section_strain strain[QUADRATURE_POINTS])
{
    const double start = across_at_face(m, u, m->rigid[0]);
    const double end = across_at_face(m, u + 3, -m->rigid[1]);
    double turn = (end - start) / m->length;
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        turn += rule->weight[p] * strain[p].g - m->length * rule->lever[p] * strain[p].k;
    }
    return turn;
}

void element_start_movement(const quadrature *rule,
                            const element_matrix *m,
                            const double u[6],
                            const section_strain strain[QUADRATURE_POINTS],
                            double local[3])
{
    const bool is_hinged = is_exact_zero(m->k[3]); /* its end moment does not stretch or bend it */
    local[0] = u[0] * m->cosine + u[1] * m->sine;
    local[1] = across_at_face(m, u, m->rigid[0]);
    local[2] = is_hinged ? turn_of_hinged_start(rule, m, u, strain) : u[2];
}
