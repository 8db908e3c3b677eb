/* section_polygon.c - see section_polygon.h.
 * SPDX-License-Identifier: MIT */
#include "section_polygon.h"

#include <math.h>

/* ∫dA, ∫y dA, ∫y² dA of one loop by its own sense of rotation. */
typedef struct polygon_moments {
    double zero, first, second, perimeter;
} polygon_moments;

static polygon_moments loop_moments(const section_shape *shape, kl_index loop)
{
    polygon_moments m = {0.0, 0.0, 0.0, 0.0};
    const kl_index count = section_shape_points(shape, loop);
    kl_point p = section_shape_point(shape, loop, count - 1);
    for (kl_index i = 0; i < count; i++) {
        const kl_point q = section_shape_point(shape, loop, i);
        const double cross = p.x * q.y - q.x * p.y;
        m.zero += cross / 2.0;
        m.first += cross * (p.y + q.y) / 6.0;
        m.second += cross * (p.y * p.y + p.y * q.y + q.y * q.y) / 12.0;
        m.perimeter += hypot(q.x - p.x, q.y - p.y);
        p = q;
    }
    return m;
}

static void find_extent(const section_shape *shape, section_sums *sums)
{
    const kl_point first = section_shape_point(shape, 0, 0);
    sums->left = sums->right = first.x;
    sums->bottom = sums->top = first.y;
    const kl_index count = section_shape_points(shape, 0);
    for (kl_index i = 1; i < count; i++) {
        const kl_point p = section_shape_point(shape, 0, i);
        sums->left = fmin(sums->left, p.x);
        sums->right = fmax(sums->right, p.x);
        sums->bottom = fmin(sums->bottom, p.y);
        sums->top = fmax(sums->top, p.y);
    }
}

void section_polygon_sums(const section_shape *shape, section_sums *sums)
{
    *sums = (section_sums){0};
    find_extent(shape, sums);
    polygon_moments total = {0.0, 0.0, 0.0, 0.0};
    const kl_index loops = section_shape_loops(shape);
    for (kl_index loop = 0; loop < loops; loop++) {
        const polygon_moments m = loop_moments(shape, loop);
        const double outward = m.zero < 0.0 ? -1.0 : 1.0;
        const double sign = loop == 0 ? outward : -outward;
        total.zero += sign * m.zero;
        total.first += sign * m.first;
        total.second += sign * m.second;
        *(loop == 0 ? &sums->outer : &sums->inner) += m.perimeter;
    }
    const double level = total.first / total.zero;
    sums->area = total.zero;
    sums->centroid = level - sums->bottom;
    sums->inertia = total.second - level * total.first;
}

/* A loop that does not cross itself goes up as often as down at every level, so the signed sum of its crossings
 * is its width, but for a sign that its sense of rotation gives. */
static double loop_width(const section_shape *shape, kl_index loop, double level)
{
    double width = 0.0;
    const kl_index count = section_shape_points(shape, loop);
    kl_point p = section_shape_point(shape, loop, count - 1);
    for (kl_index i = 0; i < count; i++) {
        const kl_point q = section_shape_point(shape, loop, i);
        const bool up = p.y <= level && q.y > level;
        const bool down = q.y <= level && p.y > level;
        if (up || down) {
            const double x = p.x + (q.x - p.x) * (level - p.y) / (q.y - p.y);
            width += up ? x : -x;
        }
        p = q;
    }
    return fabs(width);
}

double section_polygon_width(const section_shape *shape, double level)
{
    double width = loop_width(shape, 0, level);
    const kl_index loops = section_shape_loops(shape);
    for (kl_index loop = 1; loop < loops; loop++) {
        width -= loop_width(shape, loop, level);
    }
    return fmax(width, 0.0);
}

static double distance_to_segment(kl_point p, kl_point a, kl_point b)
{
    const double dx = b.x - a.x;
    const double dy = b.y - a.y;
    const double square = dx * dx + dy * dy;
    const double along = (p.x - a.x) * dx + (p.y - a.y) * dy;
    const double t = square > 0.0 ? fmin(fmax(along / square, 0.0), 1.0) : 0.0;
    return hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

/* Twice the area of the triangle a b c, positive when it turns left. */
static double turn(kl_point a, kl_point b, kl_point c)
{
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

static bool opposite(double a, double b)
{
    return (a > 0.0 && b < 0.0) || (a < 0.0 && b > 0.0);
}

bool section_polygon_segments_touch(kl_point p1, kl_point p2, kl_point q1, kl_point q2, double near)
{
    if (fmax(p1.x, p2.x) < fmin(q1.x, q2.x) - near || fmax(q1.x, q2.x) < fmin(p1.x, p2.x) - near ||
        fmax(p1.y, p2.y) < fmin(q1.y, q2.y) - near || fmax(q1.y, q2.y) < fmin(p1.y, p2.y) - near) {
        return false;
    }
    if (opposite(turn(p1, p2, q1), turn(p1, p2, q2)) &&
        opposite(turn(q1, q2, p1), turn(q1, q2, p2))) {
        return true;
    }
    return distance_to_segment(p1, q1, q2) <= near || distance_to_segment(p2, q1, q2) <= near ||
           distance_to_segment(q1, p1, p2) <= near || distance_to_segment(q2, p1, p2) <= near;
}

static kl_point loop_point(const kl_polygon *loop, kl_index i)
{
    return loop->points[i < loop->count ? i : i - loop->count];
}

/* Edge i has no length, or the next one folds back onto it. */
static bool edge_degenerate(const kl_polygon *loop, kl_index i, double near)
{
    const kl_point a = loop_point(loop, i);
    const kl_point b = loop_point(loop, i + 1);
    const kl_point c = loop_point(loop, i + 2);
    if (hypot(b.x - a.x, b.y - a.y) <= near) {
        return true;
    }
    const bool backward = (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) < 0.0;
    return backward &&
           (distance_to_segment(c, a, b) <= near || distance_to_segment(a, b, c) <= near);
}

kl_index section_polygon_bad_edge(const kl_polygon *loop, double near)
{
    for (kl_index i = 0; i < loop->count; i++) {
        if (edge_degenerate(loop, i, near)) {
            return i;
        }
    }
    for (kl_index i = 0; i < loop->count; i++) {
        /* Neighbours share a corner: the last edge is a neighbour of the first. */
        const kl_index end = i == 0 ? loop->count - 1 : loop->count;
        for (kl_index j = i + 2; j < end; j++) {
            if (section_polygon_segments_touch(loop_point(loop, i), loop_point(loop, i + 1),
                                               loop_point(loop, j), loop_point(loop, j + 1),
                                               near)) {
                return i;
            }
        }
    }
    return KL_NONE;
}

bool section_polygon_loops_touch(const kl_polygon *a, const kl_polygon *b, double near)
{
    for (kl_index i = 0; i < a->count; i++) {
        for (kl_index j = 0; j < b->count; j++) {
            if (section_polygon_segments_touch(loop_point(a, i), loop_point(a, i + 1),
                                               loop_point(b, j), loop_point(b, j + 1), near)) {
                return true;
            }
        }
    }
    return false;
}

bool section_polygon_contains(const kl_polygon *loop, kl_point p)
{
    bool inside = false;
    kl_point a = loop->points[loop->count - 1];
    for (kl_index i = 0; i < loop->count; i++) {
        const kl_point b = loop->points[i];
        if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)) {
            inside = !inside;
        }
        a = b;
    }
    return inside;
}
