/* reference_advance.c - one increment of the reference frame: contact by trial, sums, and what is read from them.
 * SPDX-License-Identifier: MIT */
#include "reference_system.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "assert_close.h"

static double travel(const ref_tie *t, const double *u)
{
    double sum = 0.0;
    for (int k = 0; k < 3; k++) {
        sum += reference_along(t, 0, k) * u[3 * t->a + k];
        sum -= t->b < 0 ? 0.0 : reference_along(t, 1, k) * u[3 * t->b + k];
    }
    return sum;
}

double reference_tie_force(const ref_tie *t)
{
    double sum = 0.0;
    for (int c = 0; c < COLUMNS; c++) {
        sum += t->force[c];
    }
    return sum;
}

static double gap_after(const ref_tie *t, const system_of *s)
{
    double gap = t->closed ? -t->compliance * reference_tie_force(t) : t->gap;
    for (int c = 0; c < COLUMNS; c++) {
        gap += travel(t, s->b[c]);
    }
    return gap;
}

static double force_after(const ref_tie *t, const system_of *s, int row)
{
    double force = t->closed ? reference_tie_force(t) : 0.0;
    for (int c = 0; c < COLUMNS; c++) {
        force += s->b[c][row];
    }
    return force;
}

/* @return whether the trial holds; else the wrong ones are turned (only the first of them after many trials). */
static bool contact_holds(const ref_frame *f, const system_of *s, bool *closed, int trial)
{
    bool holds = true;
    for (int i = 0; i < f->tie_count; i++) {
        const ref_tie *t = &f->ties[i];
        if (!t->one_sided || !t->stands || (!holds && trial > 15)) {
            continue;
        }
        const bool wrong =
            closed[i] ? force_after(t, s, s->first_tie + i) < -1e-6 : gap_after(t, s) < -1e-13;
        closed[i] = wrong ? !closed[i] : closed[i];
        holds = holds && !wrong;
    }
    return holds;
}

static void add_ties(ref_frame *f, const bool *closed, const system_of *s)
{
    for (int i = 0; i < f->tie_count; i++) {
        ref_tie *t = &f->ties[i];
        if (!t->stands) {
            continue;
        }
        t->gap = closed[i] ? 0.0 : gap_after(t, s);
        for (int c = 0; c < COLUMNS; c++) {
            t->force[c] = closed[i] ? t->force[c] + s->b[c][s->first_tie + i] : 0.0;
        }
        t->closed = closed[i];
    }
}

/* Elastic strain of the concrete at an end, from the increment's total action less the tendons'. */
static void add_end(ref_frame *f,
                    const ref_step *st,
                    const system_of *s,
                    ref_element *el,
                    int e,
                    const double *total)
{
    const ref_member *m = &f->members[el->member];
    const double x = e == 0 ? el->from : el->to;
    double d[3], action[2] = {total[0], total[1]};
    reference_rigidity(f, el->member, x, e == 1, st->day, d);
    double change[REF_TENDONS] = {0.0};
    for (int j = 0; j < f->tendon_count; j++) {
        if (f->tendons[j].member != el->member) {
            continue;
        }
        double a[3];
        reference_unit_action(&f->tendons[j], x, e == 1, a);
        change[j] = st->uniform[j];
        change[j] +=
            fabs(st->pull[j]) > 0.0 ? st->pull[j] * reference_pull(&f->tendons[j], x) : 0.0;
        for (int c = 0; c < COLUMNS; c++) {
            change[j] += s->b[c][s->first_tendon + j];
        }
        action[0] -= f->tendons[j].count * change[j] * a[0];
        action[1] -= f->tendons[j].count * change[j] * a[1];
    }
    const double det = d[0] * d[2] - d[1] * d[1];
    const double e0 = (d[2] * action[0] - d[1] * action[1]) / det;
    const double k = (d[0] * action[1] - d[1] * action[0]) / det;
    const ref_cut cut = reference_cut(m, x);
    const double modulus = reference_modulus(m, st->day);
    el->stress[e][0] += modulus * (e0 - k * cut.top);
    el->stress[e][1] += modulus * (e0 - k * cut.bottom);
    for (int j = 0; j < f->tendon_count; j++) {
        if (f->tendons[j].member == el->member && f->tendons[j].phase == REF_GROUTED && !f->gross) {
            double slope;
            const double y = reference_path(&f->tendons[j], x, e == 1, &slope, NULL);
            change[j] +=
                f->tendons[j].modulus * f->tendons[j].area * (e0 - k * y) / (1.0 + slope * slope);
        }
        el->tendon[j][e] += change[j];
    }
}

static void add_element(ref_frame *f, const ref_step *st, const system_of *s, int e)
{
    ref_element *el = &f->elements[e];
    const ready *r = &s->elements[e];
    double t[6][6], sum[6] = {0.0};
    reference_to_nodes(f, el, t);
    for (int c = 0; c < COLUMNS; c++) {
        double u[6] = {0.0};
        for (int i = 0; i < 6; i++) {
            for (int k = 0; k < 6; k++) {
                u[i] += t[i][k] * s->b[c][3 * el->node[k / 3] + k % 3];
            }
        }
        for (int i = 0; i < 6; i++) {
            double force = -r->f[c][i];
            for (int k = 0; k < 6; k++) {
                force += r->k[i][k] * u[k];
            }
            for (int j = 0; j < f->tendon_count; j++) {
                force += r->g[j][i] * s->b[c][s->first_tendon + j];
            }
            el->end[c][i] += force;
            sum[i] += force;
        }
    }
    add_end(f, st, s, el, 0, (const double[]){-sum[0], -sum[2]});
    add_end(f, st, s, el, 1, (const double[]){sum[3], sum[5]});
}

void reference_solve(ref_frame *f, ref_step *st)
{
    system_of *s = calloc(1, sizeof(*s));
    bool closed[REF_TIES];
    assert_non_null(s);
    s->a = calloc((size_t)UNKNOWNS * UNKNOWNS, sizeof(double));
    assert_non_null(s->a);
    for (int i = 0; i < f->tie_count; i++) {
        closed[i] = f->ties[i].closed;
    }
    reference_system_prepare(f, st, s->elements);
    int trial = 0;
    do {
        assert_true(trial < 60);
        reference_system_build(f, st, closed, s);
    } while (!contact_holds(f, s, closed, trial++));
    for (int e = 0; e < f->element_count; e++) {
        if (f->members[f->elements[e].member].stands) {
            add_element(f, st, s, e);
        }
    }
    add_ties(f, closed, s);
    for (int c = 0; c < COLUMNS; c++) {
        for (int i = 0; i < 3 * f->node_count; i++) {
            f->moved[i / 3][i % 3] += s->b[c][i];
        }
    }
    for (int j = 0; j < f->tendon_count; j++) {
        for (int c = 0; c < COLUMNS; c++) {
            f->tendons[j].gained[c] += s->b[c][s->first_tendon + j];
        }
    }
    free(s->a);
    free(s);
}

static const ref_element *element_at(const ref_frame *f, int member, double x, bool left, int *end)
{
    const ref_member *m = &f->members[member];
    for (int e = m->first; e < m->first + m->count; e++) {
        const ref_element *el = &f->elements[e];
        if (fabs(el->from - x) < 1e-9 && (!left || e == m->first)) {
            *end = 0;
            return el;
        }
        if (fabs(el->to - x) < 1e-9 && (left || e == m->first + m->count - 1)) {
            *end = 1;
            return el;
        }
    }
    fail_msg("no element of the reference ends at %g", x);
    return NULL;
}

ref_section_state reference_at(const ref_frame *f, int member, double x, bool left, int cause)
{
    int e = 0;
    const ref_element *el = element_at(f, member, x, left, &e);
    const ref_member *m = &f->members[member];
    double end[6] = {0.0};
    for (int c = 0; c < COLUMNS; c++) {
        for (int i = 0; i < 6 && (cause < 0 || cause == c); i++) {
            end[i] += el->end[c][i];
        }
    }
    const double yc = reference_cut(m, x).centroid;
    ref_section_state r = {.axial = e == 0 ? -end[0] : end[3], .shear = e == 0 ? end[1] : -end[4]};
    r.moment = (e == 0 ? -end[2] : end[5]) + r.axial * yc;
    r.top = el->stress[e][0];
    r.bottom = el->stress[e][1];
    for (int j = 0; j < f->tendon_count; j++) {
        double a[3];
        if (f->tendons[j].member == member) {
            reference_unit_action(&f->tendons[j], x, e == 1, a);
            const double force = f->tendons[j].count * el->tendon[j][e];
            r.primary_axial -= force * a[0];
            r.primary_shear -= force * a[2];
            r.primary_moment -= force * (a[1] + a[0] * yc);
        }
    }
    const double *u = f->moved[el->node[e]];
    r.drop = u[1] + u[2] * el->arm[e] * m->cosine - m->base[el->node[e]];
    r.sway = u[0] - u[2] * el->arm[e] * m->sine;
    r.rotation = u[2];
    return r;
}

double reference_tendon_at(const ref_frame *f, int tendon, double x)
{
    int e = 0;
    const ref_element *el = element_at(f, f->tendons[tendon].member, x, false, &e);
    return el->tendon[tendon][e];
}

double reference_own_loss(const ref_frame *f, const ref_step *s, int tendon)
{
    const double little = 1e-4, n = f->tendons[tendon].count;
    ref_frame *trial = malloc(sizeof(*trial));
    ref_step *step = malloc(sizeof(*step));
    assert_non_null(trial);
    assert_non_null(step);
    *trial = *f;
    *step = *s;
    step->own[tendon] = little;
    reference_solve(trial, step);
    const double x = f->tendons[tendon].pieces[0].from;
    const double change =
        reference_tendon_at(trial, tendon, x) - reference_pull(&f->tendons[tendon], x);
    free(trial);
    free(step);
    return change / little * (n - 1.0) / (2.0 * n);
}
