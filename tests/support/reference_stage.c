/* reference_stage.c - see reference_stage.h: shares by simple spans, an overhang by the lever of its last span.
 * SPDX-License-Identifier: MIT */
#include "reference_stage.h"

#include "assert_close.h"

void reference_weigh(
    const ref_frame *f, ref_step *s, int member, double from, double to, double factor)
{
    (void)f;
    assert_true(s->line_count < REF_LOADS);
    s->lines[s->line_count++] = (ref_line_load){.member = member,
                                                .from = from,
                                                .to = to,
                                                .start = factor,
                                                .end = factor,
                                                .gy = -1.0,
                                                .weight = true,
                                                .cause = REF_WEIGHT};
}

/* Stations between which the forms of a span press: an overhang belongs to its last span. */
static double span_from(const ref_forms *forms, int i)
{
    return i == 0 ? 0.0 : forms->at[i];
}

static double span_to(const ref_frame *f, const ref_forms *forms, int i)
{
    return i + 2 == forms->count ? f->members[forms->member].length : forms->at[i + 1];
}

/* Weight of a span and its moment about the span's start, by Simpson's rule (exact for a linear section). */
static void find_shares(const ref_frame *f, ref_forms *forms)
{
    const ref_member *m = &f->members[forms->member];
    for (int i = 0; i + 1 < forms->count; i++) {
        const double a = span_from(forms, i), b = span_to(f, forms, i), mid = (a + b) / 2.0;
        const double x[3] = {a, mid, b}, part[3] = {1.0 / 6.0, 4.0 / 6.0, 1.0 / 6.0};
        double weight = 0.0, moment = 0.0;
        for (int k = 0; k < 3; k++) {
            const double w = part[k] * (b - a) * m->unit_weight * reference_cut(m, x[k]).area;
            weight += w;
            moment += w * (x[k] - forms->at[i]);
        }
        forms->share[i][1] = moment / (forms->at[i + 1] - forms->at[i]);
        forms->share[i][0] = weight - forms->share[i][1];
    }
}

static void set_base(ref_frame *f, int member)
{
    ref_member *m = &f->members[member];
    for (int e = m->first; e < m->first + m->count; e++) {
        for (int k = 0; k < 2; k++) {
            const int n = f->elements[e].node[k];
            m->base[n] = f->moved[n][1];
        }
    }
}

void reference_place(ref_frame *f, int member)
{
    f->members[member].stands = true;
    set_base(f, member);
}

void reference_pour(ref_frame *f, ref_forms *forms, ref_step *s)
{
    find_shares(f, forms);
    for (int i = 0; i < forms->count; i++) {
        const double load = (i + 1 < forms->count ? forms->share[i][0] : 0.0) +
                            (i > 0 ? forms->share[i - 1][1] : 0.0);
        const int on = forms->tie[i] < 0 ? forms->node[i] : f->ties[forms->tie[i]].b;
        if (on >= 0) {
            s->nodal[REF_WEIGHT][on][1] -= load;
        }
        if (forms->tie[i] >= 0) {
            f->ties[forms->tie[i]].stands = false;
            f->ties[forms->tie[i]].seat = load;
        }
    }
    reference_solve(f, s);
    for (int i = 0; i < forms->count; i++) {
        if (forms->tie[i] >= 0) {
            ref_tie *t = &f->ties[forms->tie[i]];
            t->stands = t->closed = true;
            t->force[REF_WEIGHT] = t->seat;
        }
    }
    reference_place(f, forms->member);
}

/* A carrier's share goes: from the row's preload and its foot, or back up on a node. */
static void give_share(ref_frame *f, const ref_forms *forms, int i, double share, ref_step *s)
{
    if (forms->tie[i] < 0) {
        s->nodal[REF_WEIGHT][forms->node[i]][1] += share;
        return;
    }
    ref_tie *t = &f->ties[forms->tie[i]];
    t->seat -= share;
    if (t->closed) {
        t->force[REF_WEIGHT] -= share; /* on the member the pressure and this cancel */
        if (t->b >= 0) {
            s->nodal[REF_WEIGHT][t->b][1] += share;
        }
    } else {
        t->gap += t->compliance * share;
        s->nodal[REF_WEIGHT][t->a][1] += share;
    }
}

void reference_release(ref_frame *f, ref_forms *forms, double from, double to, ref_step *s)
{
    for (int i = 0; i + 1 < forms->count; i++) {
        bool beside = false;
        for (int k = i; k < i + 2; k++) {
            const ref_tie *t = forms->tie[k] < 0 ? NULL : &f->ties[forms->tie[k]];
            beside = beside ||
                     (t && t->stands && forms->at[k] > from - 1e-9 && forms->at[k] < to + 1e-9);
        }
        if (beside && !forms->struck[i]) {
            forms->struck[i] = true;
            reference_weigh(f, s, forms->member, span_from(forms, i), span_to(f, forms, i), 1.0);
            give_share(f, forms, i, forms->share[i][0], s);
            give_share(f, forms, i + 1, forms->share[i][1], s);
        }
    }
    for (int i = 0; i < forms->count; i++) {
        ref_tie *t = forms->tie[i] < 0 ? NULL : &f->ties[forms->tie[i]];
        if (!t || !t->stands || forms->at[i] < from - 1e-9 || forms->at[i] > to + 1e-9) {
            continue;
        }
        for (int c = 0; c < REF_CAUSES; c++) {
            s->nodal[c][t->a][1] -= t->force[c];
            if (t->b >= 0) {
                s->nodal[c][t->b][1] += t->force[c];
            }
            t->force[c] = 0.0;
        }
        t->stands = false;
    }
}
