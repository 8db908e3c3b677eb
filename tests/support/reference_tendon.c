/* reference_tendon.c - path, friction and seating of a tendon for the reference frame.
 *
 * Angles and lengths are integrated numerically along the path of the tendon's centroid; the corner that the shift in
 * the duct leaves at a flat point is no angle (the tendon is smooth there).
 * SPDX-License-Identifier: MIT */
#include "reference_frame.h"

#include <math.h>

static const double gauss_x[5] = {0.1488743389816312, 0.4333953941292472, 0.6794095682990244,
                                  0.8650633666889845, 0.9739065285171717};
static const double gauss_w[5] = {0.2955242247147529, 0.2692667193099964, 0.2190863625159820,
                                  0.1494513491505806, 0.0666713443086881};

static int piece_at(const ref_tendon *t, double x, bool left)
{
    for (int i = 0; i < t->piece_count; i++) {
        const double to = t->pieces[i].to;
        if (x < to - 1e-9 || (left && x < to + 1e-9)) {
            return i;
        }
    }
    return t->piece_count - 1;
}

static double on_piece(const ref_piece *p, double x, double *slope, double *duct)
{
    const double d = x - p->from, last = p->to - p->from;
    double y = p->y0 + (p->slope + p->bend * d) * d;
    double rise = p->slope + 2.0 * p->bend * d;
    if (duct) {
        *duct = y;
    }
    const double a0 = atan(p->slope), a1 = atan(p->slope + 2.0 * p->bend * last);
    if (fabs(a1 - a0) > 1e-12) {
        const double rate = (p->shift[1] - p->shift[0]) / (a1 - a0);
        y += p->shift[0] + rate * (atan(rise) - a0);
        rise += rate * 2.0 * p->bend / (1.0 + rise * rise);
    }
    *slope = rise;
    return y;
}

double reference_path(const ref_tendon *t, double x, bool left, double *slope, double *duct)
{
    return on_piece(&t->pieces[piece_at(t, x, left)], x, slope, duct);
}

/* Angle and length from the piece's start to x. The angle grows one way in each piece. */
static void along_piece(const ref_piece *p, double x, double *angle, double *way)
{
    enum { PARTS = 4 };
    double s0, s1;
    (void)on_piece(p, p->from, &s0, 0);
    (void)on_piece(p, x, &s1, 0);
    *angle = fabs(atan(s1) - atan(s0));
    *way = 0.0;
    const double h = (x - p->from) / PARTS;
    for (int k = 0; k < PARTS; k++) {
        for (int g = -5; g < 5; g++) {
            const int i = g < 0 ? -g - 1 : g;
            const double at = p->from + (k + 0.5 + 0.5 * (g < 0 ? -gauss_x[i] : gauss_x[i])) * h;
            double slope;
            (void)on_piece(p, at, &slope, 0);
            *way += 0.5 * h * gauss_w[i] * sqrt(1.0 + slope * slope);
        }
    }
}

/* mu alpha + K s from the start to x. */
static double exponent(const ref_tendon *t, double x)
{
    const int i = piece_at(t, x, true);
    double angle, way;
    along_piece(&t->pieces[i], x, &angle, &way);
    return t->friction * (t->angle[i] + angle) + t->wobble * (t->way[i] + way);
}

static double whole(const ref_tendon *t)
{
    return t->friction * t->angle[t->piece_count] + t->wobble * t->way[t->piece_count];
}

/* Pulling curve of one end. */
static double curve(const ref_tendon *t, int end, double x)
{
    const double e = exponent(t, x);
    return t->jack[end] * exp(-(end == 0 ? e : whole(t) - e));
}

/* Seated at the start only. */
static double locked(const ref_tendon *t, double x)
{
    const double force = curve(t, 0, x), still = curve(t, 0, t->still[0]);
    return x < t->still[0] ? still * still / force : force;
}

/* Before the seating of that end. */
static double before(const ref_tendon *t, int end, double x)
{
    const double force = curve(t, end, x);
    return end == 1 && t->in_turn ? fmax(force, locked(t, x)) : force;
}

/* The reversed curve from the still point z. */
static double reversed(const ref_tendon *t, int end, double z, double x)
{
    return before(t, end, z) * exp(-fabs(exponent(t, x) - exponent(t, z)));
}

/* Movement that the reversed curve takes up: integral of (P - P_after) ds / (E A) from the end to z. */
static double taken_up(const ref_tendon *t, int end, double z)
{
    const double a = end == 0 ? t->pieces[0].from : z;
    const double b = end == 0 ? z : t->pieces[t->piece_count - 1].to;
    double sum = 0.0;
    for (int p = 0; p < t->piece_count; p++) {
        const double from = fmax(a, t->pieces[p].from), to = fmin(b, t->pieces[p].to);
        enum { PARTS = 4 };
        const double h = (to - from) / PARTS;
        for (int k = 0; from < to && k < PARTS; k++) {
            for (int g = -5; g < 5; g++) {
                const int i = g < 0 ? -g - 1 : g;
                const double x = from + (k + 0.5 + 0.5 * (g < 0 ? -gauss_x[i] : gauss_x[i])) * h;
                double slope;
                (void)on_piece(&t->pieces[p], x, &slope, 0);
                sum += 0.5 * h * gauss_w[i] * sqrt(1.0 + slope * slope) *
                       (before(t, end, x) - reversed(t, end, z, x));
            }
        }
    }
    return sum / (t->area * t->modulus);
}

void reference_tendon_pull(ref_tendon *t)
{
    t->angle[0] = t->way[0] = 0.0;
    for (int i = 0; i < t->piece_count; i++) {
        double angle, way;
        along_piece(&t->pieces[i], t->pieces[i].to, &angle, &way);
        t->angle[i + 1] = t->angle[i] + angle;
        t->way[i + 1] = t->way[i] + way;
    }
    t->length = t->way[t->piece_count];
    const double start = t->pieces[0].from, stop = t->pieces[t->piece_count - 1].to;
    for (int end = 0; end < 2; end++) {
        t->still[end] = end == 0 ? start : stop;
        if (t->set[end] > 0.0 && t->jack[end] > 0.0) {
            double near = t->still[end], far = start + stop - near;
            for (int i = 0; i < 80; i++) {
                const double z = 0.5 * (near + far);
                if (taken_up(t, end, z) < t->set[end]) {
                    near = z;
                } else {
                    far = z;
                }
            }
            t->still[end] = 0.5 * (near + far);
        }
    }
}

double reference_pull(const ref_tendon *t, double x)
{
    double best = 0.0;
    for (int end = 0; end < 2; end++) {
        if (t->jack[end] > 0.0) {
            if (end == 0 ? x < t->still[0] && !t->in_turn : x > t->still[1]) {
                return reversed(t, end, t->still[end],
                                x); /* the zones do not meet in the models here */
            }
            best = fmax(best, before(t, end, x));
        }
    }
    return t->in_turn ? before(t, 1, x) : best;
}
