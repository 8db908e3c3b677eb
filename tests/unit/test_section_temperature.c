/* test_section_temperature.c - integrals of temperature over sections: closed forms, and strips of the widths.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <math.h>

#include "section.h"
#include "section_polygon.h"
#include "shapes.h"

#define EXACT 1e-12

static section_value values(const kl_section *s)
{
    section_value v;
    section_evaluate(s, s, 0.0, &v);
    return v;
}

static void
moments(const kl_section *s, const kl_temperature_point *p, kl_index n, double *a, double *m)
{
    section_temperature_moments(s, s, 0.0, p, n, a, m);
}

/* T = const over all: T A and no moment. T = linear from +1 to -1 through the centroid of a symmetric section:
 * no force and 2 I / h. Any shape, turned or not. */
static void section_temperature_moments_of_linear_profiles_are_a_and_i(void **state)
{
    (void)state;
    kl_section circle = shapes_blank(KL_CIRCLE);
    circle.diameter = 1.5;
    kl_section pipe = circle;
    pipe.shape = KL_PIPE;
    pipe.thickness = 0.1;
    kl_section turned = shapes_rectangle(0.8, 2.0);
    turned.turned = 0.5;
    const kl_section cases[] = {shapes_rectangle(0.7, 1.3), circle, pipe, turned};
    for (int i = 0; i < 4; i++) {
        const section_value v = values(&cases[i]);
        const double h = v.depth;
        const kl_temperature_point constant[] = {{0, 10}, {h, 10}};
        const kl_temperature_point linear[] = {{0, 1}, {h, -1}};
        double a;
        double m;
        moments(&cases[i], constant, 2, &a, &m);
        assert_close(a, 10 * v.area, EXACT, 0);
        assert_close(m, 0, 0, 1e-12);
        moments(&cases[i], linear, 2, &a, &m);
        assert_close(a, 0, 0, 1e-12);
        assert_close(m, 2 * v.inertia / h, EXACT, 0);
    }
}

/* Tee: only the flange warm, by a step at its soffit; then a triangle of temperature inside the flange. */
static void section_temperature_moments_of_a_warm_flange_are_by_hand(void **state)
{
    (void)state;
    const kl_section s = shapes_tee();
    const kl_temperature_point step[] = {{0.25, 8}};
    double a;
    double m;
    moments(&s, step, 1, &a, &m);
    assert_close(a, 8 * 0.5, EXACT, 0);
    assert_close(m, 8 * 0.5 * 0.375, EXACT, 0);
    const kl_temperature_point wedge[] = {{0, 12}, {0.1, 0}};
    moments(&s, wedge, 2, &a, &m);
    assert_close(a, 2.0 * 0.1 * 12 / 2, EXACT, 0);
    assert_close(m, a * (0.5 - 0.1 / 3), EXACT, 0);
}

/* Against the midpoint rule with many strips of the section's own widths. */
static void section_temperature_moments_agree_with_strips(void **state)
{
    (void)state;
    kl_section s = shapes_box(3, 1.5, 0.15);
    kl_section circle = shapes_blank(KL_CIRCLE);
    circle.diameter = 1.2;
    const kl_temperature_point p[] = {{0.05, 23}, {0.1, 6}, {0.4, -2}, {0.4, 3}, {1.1, 5}};
    double a;
    double m;
    moments(&s, p, 5, &a, &m);
    const section_value v = values(&s);
    const section_shape shape = section_shape_between(&s, &s, 0.0);
    const int strips = 200000;
    double sa = 0;
    double sm = 0;
    for (int i = 0; i < strips; i++) {
        const double y = (i + 0.5) / strips * 2.0;
        const double dt =
            section_temperature_at(p, 5, 2.0 - y) * section_polygon_width(&shape, y) * 2.0 / strips;
        sa += dt;
        sm += dt * (y - v.centroid);
    }
    assert_close(a, sa, 1e-4, 0);
    assert_close(m, sm, 1e-4, 0);
    moments(&circle, p, 5, &a, &m);
    sa = sm = 0;
    for (int i = 0; i < strips; i++) {
        const double y = (i + 0.5) / strips * 1.2;
        const double w = 2 * sqrt(0.36 - (y - 0.6) * (y - 0.6));
        const double dt = section_temperature_at(p, 5, 1.2 - y) * w * 1.2 / strips;
        sa += dt;
        sm += dt * (y - 0.6);
    }
    assert_close(a, sa, 1e-4, 0);
    assert_close(m, sm, 1e-4, 0);
}

static void section_temperature_moments_of_bare_use_a_rectangle(void **state)
{
    (void)state;
    kl_section s = shapes_blank(KL_BARE);
    s.area = 1.2;
    s.inertia = 99.0;
    s.to_top = 0.5;
    s.to_bottom = 1.5;
    const kl_section r = shapes_rectangle(0.6, 2.0);
    const kl_temperature_point p[] = {{0, 20}, {0.3, 4}, {1.0, 0}};
    double a;
    double m;
    double ra;
    double rm;
    moments(&s, p, 3, &a, &m);
    moments(&r, p, 3, &ra, &rm);
    assert_close(a, ra, EXACT, 0);
    assert_close(m, rm, EXACT, 0);
}

static void section_temperature_at_follows_its_points(void **state)
{
    (void)state;
    const kl_temperature_point p[] = {{0.1, 20}, {0.3, 10}};
    assert_close(section_temperature_at(p, 2, 0.0), 20, EXACT, 0);
    assert_close(section_temperature_at(p, 2, 0.2), 15, EXACT, 0);
    assert_close(section_temperature_at(p, 2, 0.3), 10, EXACT, 0);
    assert_close(section_temperature_at(p, 2, 0.31), 0, 0, 0);
    assert_close(section_temperature_at(p, 0, 0.0), 0, 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(section_temperature_moments_of_linear_profiles_are_a_and_i),
        cmocka_unit_test(section_temperature_moments_of_a_warm_flange_are_by_hand),
        cmocka_unit_test(section_temperature_moments_agree_with_strips),
        cmocka_unit_test(section_temperature_moments_of_bare_use_a_rectangle),
        cmocka_unit_test(section_temperature_at_follows_its_points),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
