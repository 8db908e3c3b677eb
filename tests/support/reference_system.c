/* reference_system.c - elements with bubbles and one dense elimination: see reference_frame.h.
 *
 * Signs as in docs/mechanics.md: e(y) = e0 - k y; the section's total action is D (e - e_init) + t, with t the action
 * of the tendons, so that all but nodal loads is a vector of the element: integral of B'(D e_init - t) plus its loads.
 * SPDX-License-Identifier: MIT */
#include "reference_system.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "assert_close.h"

#define PI 3.14159265358979323846

static const double gauss_x[5] = {0.1488743389816312, 0.4333953941292472, 0.6794095682990244,
                                  0.8650633666889845, 0.9739065285171717};
static const double gauss_w[5] = {0.2955242247147529, 0.2692667193099964, 0.2190863625159820,
                                  0.1494513491505806, 0.0666713443086881};

typedef struct raw {
    int size;
    double k[REF_LOCAL][REF_LOCAL], f[COLUMNS + REF_TENDONS][REF_LOCAL];
} raw;

static void add_area(double d[3], double ea, double y, double ei)
{
    d[0] += ea;
    d[1] -= ea * y;
    d[2] += ea * y * y + ei;
}

void reference_rigidity(
    const ref_frame *f, int member, double x, bool left, double day, double d[3])
{
    const ref_member *m = &f->members[member];
    const double e = reference_modulus(m, day);
    const ref_cut c = reference_cut(m, x);
    d[0] = d[1] = d[2] = 0.0;
    add_area(d, e * c.area, c.centroid, e * c.inertia);
    for (int i = 0; i < f->tendon_count && !f->gross; i++) {
        const ref_tendon *t = &f->tendons[i];
        double slope, duct;
        const double y = reference_path(t, x, left, &slope, &duct);
        if (t->member != member) {
            continue;
        }
        if (t->phase == REF_GROUTED) {
            const double cosine = 1.0 / sqrt(1.0 + slope * slope);
            add_area(d, t->count * t->area * (t->modulus * cosine * cosine * cosine - e), y, 0.0);
        } else {
            const double hole = PI * t->duct * t->duct / 4.0;
            const double own = f->hole_own ? hole * t->duct * t->duct / 16.0 : 0.0;
            add_area(d, -e * t->count * hole, duct, -e * t->count * own);
        }
    }
}

/* Legendre P_0 … P_n at s. */
static void legendre(double s, int n, double *p)
{
    p[0] = 1.0;
    p[1] = s;
    for (int k = 1; k < n; k++) {
        p[k + 1] = ((2 * k + 1) * s * p[k] - k * p[k - 1]) / (k + 1);
    }
}

/* Rows: e0, k, gamma, u, v; columns: u1 v1 r1 u2 v2 r2, bubbles. s from -1 to 1 over h. @return columns. */
static int shapes(bool shear, double s, double h, double b[5][REF_LOCAL])
{
    double p[REF_BUBBLES + 5];
    legendre(s, REF_BUBBLES + 4, p);
    memset(b, 0, 5 * sizeof(b[0]));
    const double a1 = (1.0 - s) / 2.0, a2 = (1.0 + s) / 2.0;
    b[0][0] = -1.0 / h;
    b[0][3] = 1.0 / h;
    b[3][0] = a1;
    b[3][3] = a2;
    int n = 6;
    for (int k = 1; k <= REF_BUBBLES; k++, n++) {
        b[3][n] = p[k + 1] - p[k - 1];
        b[0][n] = (2 * k + 1) * p[k] * 2.0 / h;
    }
    if (shear) {
        b[2][1] = -1.0 / h, b[2][4] = 1.0 / h;
        b[4][1] = a1, b[4][4] = a2;
        b[1][2] = -1.0 / h, b[1][5] = 1.0 / h;
        b[2][2] = -a1, b[2][5] = -a2;
        for (int k = 1; k <= REF_BUBBLES; k++, n += 2) {
            const double value = p[k + 1] - p[k - 1], rate = (2 * k + 1) * p[k] * 2.0 / h;
            b[4][n] = value, b[2][n] = rate;
            b[1][n + 1] = rate, b[2][n + 1] = -value;
        }
        return n;
    }
    const double z = a2;
    b[4][1] = 1.0 - 3.0 * z * z + 2.0 * z * z * z;
    b[4][2] = h * z * (1.0 - z) * (1.0 - z);
    b[4][4] = 3.0 * z * z - 2.0 * z * z * z;
    b[4][5] = h * z * z * (z - 1.0);
    b[1][1] = (-6.0 + 12.0 * z) / (h * h);
    b[1][2] = (-4.0 + 6.0 * z) / h;
    b[1][4] = (6.0 - 12.0 * z) / (h * h);
    b[1][5] = (-2.0 + 6.0 * z) / h;
    for (int k = 2; k < REF_BUBBLES + 2; k++, n++) {
        b[1][n] = p[k] * 4.0 / (h * h);
        b[4][n] = ((p[k + 2] - p[k]) / (2 * k + 3) - (p[k] - p[k - 2]) / (2 * k - 1)) / (2 * k + 1);
    }
    return n;
}

/* Line loads at a station, member's axes, of one load. */
static bool line_load_at(const ref_frame *f, const ref_line_load *w, double x, double q[2])
{
    if (x < w->from || x > w->to) {
        return false;
    }
    const ref_member *m = &f->members[w->member];
    double value = w->start + (w->end - w->start) * (x - w->from) / (w->to - w->from);
    value *= w->weight ? m->unit_weight * reference_cut(m, x).area : 1.0;
    q[0] = value * (w->gx * m->cosine + w->gy * m->sine);
    q[1] = value * (-w->gx * m->sine + w->gy * m->cosine);
    return true;
}

/* Action of one tendon of force one: N, M about the line, V. */
void reference_unit_action(const ref_tendon *t, double x, bool left, double a[3])
{
    double slope;
    const double y = reference_path(t, x, left, &slope, NULL);
    const double c = 1.0 / sqrt(1.0 + slope * slope);
    a[0] = c;
    a[1] = -c * y;
    a[2] = -c * slope;
}

void reference_initial_strain(
    const ref_frame *f, const ref_step *s, int member, double x, double e[2])
{
    const ref_member *m = &f->members[member];
    const ref_cut c = reference_cut(m, x);
    const double bend = -m->expansion * s->gradient[member] / (c.top - c.bottom);
    e[0] = m->expansion * s->warm[member] + bend * c.centroid;
    e[1] = bend;
}

static void add_point(
    const ref_frame *f, const ref_step *s, const ref_element *el, double at, double weight, raw *r)
{
    const ref_member *m = &f->members[el->member];
    const double h = el->to - el->from, x = el->from + h * (at + 1.0) / 2.0, w = weight * h / 2.0;
    double b[5][REF_LOCAL], d[3];
    r->size = shapes(m->shear, at, h, b);
    reference_rigidity(f, el->member, x, false, s->day, d);
    const double ga =
        m->shear ? reference_modulus(m, s->day) / m->shear_ratio * reference_cut(m, x).shear : 0.0;
    double e[2];
    reference_initial_strain(f, s, el->member, x, e);
    const double n0 = d[0] * e[0] + d[1] * e[1], m0 = d[1] * e[0] + d[2] * e[1];
    for (int i = 0; i < r->size; i++) {
        const double n = d[0] * b[0][i] + d[1] * b[1][i], mo = d[1] * b[0][i] + d[2] * b[1][i];
        for (int k = 0; k < r->size; k++) {
            r->k[i][k] += w * (b[0][k] * n + b[1][k] * mo + ga * b[2][k] * b[2][i]);
        }
        r->f[s->cause][i] += w * (b[0][i] * n0 + b[1][i] * m0);
    }
    for (int t = 0; t < f->tendon_count; t++) {
        double a[3];
        if (f->tendons[t].member != el->member) {
            continue;
        }
        reference_unit_action(&f->tendons[t], x, false, a);
        const double pull =
            fabs(s->pull[t]) > 0.0 ? s->pull[t] * reference_pull(&f->tendons[t], x) : 0.0;
        for (int i = 0; i < r->size; i++) {
            const double work =
                w * f->tendons[t].count * (b[0][i] * a[0] + b[1][i] * a[1] - b[2][i] * a[2]);
            r->f[COLUMNS + t][i] += work;
            r->f[s->cause][i] -= work * (pull + s->uniform[t]);
        }
    }
    for (int l = 0; l < s->line_count; l++) {
        double q[2];
        if (s->lines[l].member == el->member && line_load_at(f, &s->lines[l], x, q)) {
            for (int i = 0; i < r->size; i++) {
                r->f[s->lines[l].cause][i] += w * (b[3][i] * q[0] + b[4][i] * q[1]);
            }
        }
    }
}

/* Bubbles go: Gauss without pivoting (they are positive definite), the last unknown first. */
static void condense(raw *r, ready *out)
{
    enum { ALL = COLUMNS + REF_TENDONS };
    memset(out->gf, 0, sizeof(out->gf));
    memset(out->gg, 0, sizeof(out->gg));
    for (int p = r->size - 1; p >= 6; p--) {
        const double pivot = r->k[p][p];
        for (int t = 0; t < REF_TENDONS; t++) {
            const double g = r->f[COLUMNS + t][p] / pivot;
            for (int c = 0; c < COLUMNS; c++) {
                out->gf[t][c] += g * r->f[c][p];
            }
            for (int c = 0; c < REF_TENDONS; c++) {
                out->gg[t][c] += g * r->f[COLUMNS + c][p];
            }
        }
        for (int i = 0; i < p; i++) {
            const double l = r->k[i][p] / pivot;
            for (int k = 0; k < p; k++) {
                r->k[i][k] -= l * r->k[p][k];
            }
            for (int c = 0; c < ALL; c++) {
                r->f[c][i] -= l * r->f[c][p];
            }
        }
    }
    for (int i = 0; i < 6; i++) {
        memcpy(out->k[i], r->k[i], sizeof(out->k[i]));
        for (int c = 0; c < COLUMNS; c++) {
            out->f[c][i] = r->f[c][i];
        }
        for (int t = 0; t < REF_TENDONS; t++) {
            out->g[t][i] = r->f[COLUMNS + t][i];
        }
    }
}

void reference_system_prepare(const ref_frame *f, const ref_step *s, ready *elements)
{
    raw *r = calloc(1, sizeof(*r));
    assert_non_null(r);
    for (int e = 0; e < f->element_count; e++) {
        if (f->members[f->elements[e].member].stands) {
            memset(r, 0, sizeof(*r));
            for (int g = 0; g < 5; g++) {
                add_point(f, s, &f->elements[e], -gauss_x[g], gauss_w[g], r);
                add_point(f, s, &f->elements[e], gauss_x[g], gauss_w[g], r);
            }
            condense(r, &elements[e]);
        }
    }
    free(r);
}

/* Rows of the transformation: element's end displacements from the nodes' unknowns. */
void reference_to_nodes(const ref_frame *f, const ref_element *el, double t[6][6])
{
    const ref_member *m = &f->members[el->member];
    memset(t, 0, 36 * sizeof(double));
    for (int e = 0; e < 2; e++) {
        const int o = 3 * e;
        t[o][o] = m->cosine, t[o][o + 1] = m->sine;
        t[o + 1][o] = -m->sine, t[o + 1][o + 1] = m->cosine, t[o + 1][o + 2] = el->arm[e];
        t[o + 2][o + 2] = 1.0;
    }
}

static double *at(system_of *s, int i, int k)
{
    return &s->a[i * UNKNOWNS + k];
}

static void add_elements(const ref_frame *f, system_of *s)
{
    for (int e = 0; e < f->element_count; e++) {
        const ref_element *el = &f->elements[e];
        if (!f->members[el->member].stands) {
            continue;
        }
        const ready *r = &s->elements[e];
        double t[6][6];
        reference_to_nodes(f, el, t);
        for (int i = 0; i < 6; i++) {
            const int row = 3 * el->node[i / 3] + i % 3;
            for (int l = 0; l < 6; l++) {
                for (int k = 0; k < 6; k++) {
                    double kt = 0.0;
                    for (int n = 0; n < 6; n++) {
                        kt += r->k[l][n] * t[n][k];
                    }
                    *at(s, row, 3 * el->node[k / 3] + k % 3) += t[l][i] * kt;
                }
                for (int c = 0; c < COLUMNS; c++) {
                    s->b[c][row] += t[l][i] * r->f[c][l];
                }
                for (int j = 0; j < f->tendon_count; j++) {
                    *at(s, row, s->first_tendon + j) += t[l][i] * r->g[j][l];
                    *at(s, s->first_tendon + j, row) += t[l][i] * r->g[j][l];
                }
            }
        }
        for (int j = 0; j < f->tendon_count; j++) {
            for (int c = 0; c < COLUMNS; c++) {
                s->b[c][s->first_tendon + j] -= r->gf[j][c];
            }
            for (int k = 0; k < f->tendon_count; k++) {
                *at(s, s->first_tendon + j, s->first_tendon + k) -= r->gg[j][k];
            }
        }
    }
}

/* The tendon's change follows its stretch: g'u = dP length / (E A count), or it does not change. */
static void add_tendons(const ref_frame *f, const ref_step *st, system_of *s)
{
    for (int j = 0; j < f->tendon_count; j++) {
        const ref_tendon *t = &f->tendons[j];
        const int row = s->first_tendon + j;
        const double part = st->being_stressed[j]      ? st->own[j]
                            : t->phase == REF_STRESSED ? 1.0
                                                       : 0.0;
        if (part > 0.0) {
            /* g holds the whole group's action of a unit in each */
            *at(s, row, row) -= t->count * t->length / (t->modulus * t->area * part);
            continue;
        }
        for (int k = 0; k < s->size; k++) {
            *at(s, row, k) = *at(s, k, row) = 0.0;
        }
        *at(s, row, row) = 1.0;
        for (int c = 0; c < COLUMNS; c++) {
            s->b[c][row] = 0.0;
        }
    }
}

static void add_ties(const ref_frame *f, const ref_step *st, const bool *closed, system_of *s)
{
    for (int i = 0; i < f->tie_count; i++) {
        const ref_tie *t = &f->ties[i];
        const int row = s->first_tie + i;
        if (!t->stands || !closed[i]) {
            *at(s, row, row) = 1.0;
            for (int c = 0; c < COLUMNS && t->stands && t->closed; c++) { /* gives its share back */
                for (int k = 0; k < 3; k++) {
                    s->b[c][3 * t->a + k] -= t->along[k] * t->force[c];
                    s->b[c][3 * (t->b < 0 ? t->a : t->b) + k] +=
                        t->b < 0 ? 0.0 : t->along[k] * t->force[c];
                }
            }
            continue;
        }
        for (int k = 0; k < 3; k++) { /* a is pushed along: equilibrium K u - along F = b */
            *at(s, row, 3 * t->a + k) += t->along[k];
            *at(s, 3 * t->a + k, row) -= t->along[k];
            if (t->b >= 0) {
                *at(s, row, 3 * t->b + k) -= reference_along(t, 1, k);
                *at(s, 3 * t->b + k, row) += reference_along(t, 1, k);
            }
        }
        *at(s, row, row) += t->compliance;
        s->b[st->cause][row] += st->moved[i] - (t->closed ? 0.0 : t->gap);
    }
}

/* Unknowns nothing works on stay where they are. */
static void hold_idle(system_of *s, int unknowns)
{
    for (int i = 0; i < unknowns; i++) {
        bool idle = true;
        for (int k = 0; k < s->size && idle; k++) {
            idle = fabs(*at(s, i, k)) < 1e-300;
        }
        if (idle) {
            *at(s, i, i) = 1.0;
        }
    }
}

/* Gauss with the largest pivot of the column, rows scaled by their largest entry. */
static void eliminate(system_of *s)
{
    for (int i = 0; i < s->size; i++) {
        double big = 0.0;
        for (int k = 0; k < s->size; k++) {
            big = fmax(big, fabs(*at(s, i, k)));
        }
        for (int k = 0; k < s->size; k++) {
            *at(s, i, k) /= big;
        }
        for (int c = 0; c < COLUMNS; c++) {
            s->b[c][i] /= big;
        }
    }
    for (int p = 0; p < s->size; p++) {
        int best = p;
        for (int i = p + 1; i < s->size; i++) {
            best = fabs(*at(s, i, p)) > fabs(*at(s, best, p)) ? i : best;
        }
        for (int k = p; best != p && k < s->size; k++) {
            const double swap = *at(s, p, k);
            *at(s, p, k) = *at(s, best, k);
            *at(s, best, k) = swap;
        }
        for (int c = 0; best != p && c < COLUMNS; c++) {
            const double swap = s->b[c][p];
            s->b[c][p] = s->b[c][best];
            s->b[c][best] = swap;
        }
        assert_true(fabs(*at(s, p, p)) > 1e-26);
        for (int i = p + 1; i < s->size; i++) {
            const double l = *at(s, i, p) / *at(s, p, p);
            if (fabs(l) > 0.0) {
                for (int k = p; k < s->size; k++) {
                    *at(s, i, k) -= l * *at(s, p, k);
                }
                for (int c = 0; c < COLUMNS; c++) {
                    s->b[c][i] -= l * s->b[c][p];
                }
            }
        }
    }
    for (int c = 0; c < COLUMNS; c++) {
        for (int i = s->size - 1; i >= 0; i--) {
            double sum = s->b[c][i];
            for (int k = i + 1; k < s->size; k++) {
                sum -= *at(s, i, k) * s->b[c][k];
            }
            s->b[c][i] = sum / *at(s, i, i);
        }
    }
}

/* Loads on the rigid ends of standing members go to the nodes by statics (Gauss over the rigid length). */
static void add_rigid_loads(const ref_frame *f, const ref_step *st, system_of *s)
{
    for (int l = 0; l < st->line_count; l++) {
        const ref_line_load *w = &st->lines[l];
        const ref_member *m = &f->members[w->member];
        for (int e = 0; e < 2; e++) {
            const int node = e == 0 ? m->from : m->to;
            const double from = fmax(w->from, e == 0 ? 0.0 : m->length - m->rigid[1]);
            const double to = fmin(w->to, e == 0 ? m->rigid[0] : m->length);
            for (int g = -5; g < 5 && from < to; g++) {
                const int i = g < 0 ? -g - 1 : g;
                const double x =
                    from + (to - from) * (1.0 + (g < 0 ? -1.0 : 1.0) * gauss_x[i]) / 2.0;
                double q[2];
                (void)line_load_at(f, w, x, q);
                const double part = gauss_w[i] * (to - from) / 2.0,
                             arm = x - (e == 0 ? 0.0 : m->length);
                s->b[w->cause][3 * node] += part * (q[0] * m->cosine - q[1] * m->sine);
                s->b[w->cause][3 * node + 1] += part * (q[0] * m->sine + q[1] * m->cosine);
                s->b[w->cause][3 * node + 2] += part * q[1] * arm;
            }
        }
    }
}

void reference_system_build(const ref_frame *f,
                            const ref_step *st,
                            const bool *closed,
                            system_of *s)
{
    s->first_tie = 3 * f->node_count;
    s->first_tendon = s->first_tie + f->tie_count;
    s->size = s->first_tendon + f->tendon_count;
    memset(s->a, 0, sizeof(double) * UNKNOWNS * UNKNOWNS);
    memset(s->b, 0, sizeof(s->b));
    for (int c = 0; c < COLUMNS; c++) {
        for (int i = 0; i < 3 * f->node_count; i++) {
            s->b[c][i] = st->nodal[c][i / 3][i % 3];
        }
    }
    add_elements(f, s);
    add_tendons(f, st, s);
    add_ties(f, st, closed, s);
    add_rigid_loads(f, st, s);
    hold_idle(s, 3 * f->node_count);
    eliminate(s);
}
