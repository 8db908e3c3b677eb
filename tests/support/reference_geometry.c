/* reference_geometry.c - nodes, members, sections and moduli of the reference frame.
 * SPDX-License-Identifier: MIT */
#include "reference_frame.h"

#include <math.h>

#include "assert_close.h"

#define PI 3.14159265358979323846

int reference_node(ref_frame *f, double x, double y)
{
    assert_true(f->node_count < REF_NODES);
    f->x[f->node_count] = x;
    f->y[f->node_count] = y;
    return f->node_count++;
}

int reference_tie(
    ref_frame *f, int a, int b, double x, double y, double turn, double compliance, bool one_sided)
{
    assert_true(f->tie_count < REF_TIES);
    ref_tie *t = &f->ties[f->tie_count];
    *t = (ref_tie){.a = a,
                   .b = b,
                   .along = {x, y, turn},
                   .compliance = compliance,
                   .one_sided = one_sided,
                   .stands = true,
                   .closed = true};
    return f->tie_count++;
}

static void
add_element(ref_frame *f, int member, int from_node, int to_node, double from, double to)
{
    assert_true(f->element_count < REF_ELEMENTS);
    f->elements[f->element_count++] =
        (ref_element){.member = member, .node = {from_node, to_node}, .from = from, .to = to};
}

int reference_member(
    ref_frame *f, ref_member m, const double *breaks, int count, int *nodes, double most)
{
    const double dx = f->x[m.to] - f->x[m.from], dy = f->y[m.to] - f->y[m.from];
    const int number = f->member_count++;
    m.length = hypot(dx, dy);
    m.cosine = dx / m.length;
    m.sine = dy / m.length;
    m.first = f->element_count;
    int last = nodes[0] = m.from;
    nodes[count - 1] = m.to;
    for (int i = 0; i + 1 < count; i++) {
        const double from = i == 0 ? m.rigid[0] : breaks[i];
        const double to = i + 2 == count ? m.length - m.rigid[1] : breaks[i + 1];
        const int parts = (int)ceil((to - from) / most - 1e-9);
        for (int k = 0; k < parts; k++) {
            const double end = k + 1 == parts ? to : from + (to - from) * (k + 1) / parts;
            const double start = from + (to - from) * k / parts;
            int next = k + 1 == parts ? nodes[i + 1] : -1;
            if (next < 0) {
                next =
                    reference_node(f, f->x[m.from] + m.cosine * end, f->y[m.from] + m.sine * end);
            }
            add_element(f, number, last, next, start, end);
            last = next;
        }
        nodes[i + 1] = last;
    }
    f->elements[m.first].arm[0] = m.rigid[0];
    f->elements[f->element_count - 1].arm[1] = -m.rigid[1];
    m.count = f->element_count - m.first;
    f->members[number] = m;
    return number;
}

double reference_along(const ref_tie *t, int end, int k)
{
    return t->along[k] + (end == 1 && k == 2 ? t->lever : 0.0);
}

static double depth_at(const ref_member *m, double x)
{
    if (m->peak_at <= 0.0) {
        return m->depth[0] + (m->depth[1] - m->depth[0]) * x / m->length;
    }
    return x < m->peak_at
               ? m->depth[0] + (m->peak - m->depth[0]) * x / m->peak_at
               : m->peak + (m->depth[1] - m->peak) * (x - m->peak_at) / (m->length - m->peak_at);
}

ref_cut reference_cut(const ref_member *m, double x)
{
    ref_cut c;
    if (m->diameter > 0.0) {
        const double d = m->diameter;
        c = (ref_cut){PI * d * d / 4.0, 0.0, PI * d * d * d * d / 64.0, d / 2.0, -d / 2.0, 0.0};
        c.shear = m->shear ? 0.9 * c.area : 0.0;
        return c;
    }
    const double d = depth_at(m, x);
    if (m->flange > 0.0) {
        const double af = m->width * m->flange, dw = d - m->flange, aw = m->web * dw;
        const double yf = d - m->flange / 2.0, yw = dw / 2.0, yc = (af * yf + aw * yw) / (af + aw);
        c = (ref_cut){.area = af + aw, .top = d - yc, .bottom = -yc};
        c.inertia = af * m->flange * m->flange / 12.0 + aw * dw * dw / 12.0 +
                    af * (yf - yc) * (yf - yc) + aw * (yw - yc) * (yw - yc);
        c.shear = m->shear ? m->web * d : 0.0;
    } else {
        c = (ref_cut){.area = m->width * d,
                      .inertia = m->width * d * d * d / 12.0,
                      .top = d / 2.0,
                      .bottom = -d / 2.0};
        c.shear = m->shear ? 5.0 / 6.0 * c.area : 0.0;
    }
    const double up = m->line == REF_TOP ? -c.top : m->line == REF_BOTTOM ? -c.bottom : 0.0;
    c.centroid += up;
    c.top += up;
    c.bottom += up;
    return c;
}

double reference_modulus(const ref_member *m, double day)
{
    if (m->modulus > 0.0) {
        return m->modulus;
    }
    /* AASHTO LRFD 5.4.2.4: 120 000 w^2 f^0.33 in ksi and kcf; ACI 209: moist cured, normal cement. */
    const double age = day - m->cast_day, ksi = 4448.2216152605 / (0.0254 * 0.0254);
    const double kcf = 4448.2216152605 / (0.3048 * 0.3048 * 0.3048);
    const double f = m->strength * age / (4.0 + 0.85 * age) / ksi, w = m->unit_weight / kcf;
    return 120e3 * w * w * pow(f, 0.33) * ksi;
}
