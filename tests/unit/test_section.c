/* test_section.c - sections against closed forms, each other and published values.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <math.h>
#include <string.h>

#include "fault.h"
#include "section.h"
#include "shapes.h"

#define PI    3.14159265358979323846
#define IN    0.0254
#define EXACT 1e-12

static section_value values(const kl_section *s)
{
    section_value v;
    section_evaluate(s, s, 0.0, &v);
    return v;
}

static void assert_good(const kl_section *s)
{
    assert_int_equal(section_check(s, NULL), KL_OK);
}

/* ---- closed forms -------------------------------------------------------------------------------------- */

static void section_evaluate_rectangle_gives_textbook_values(void **state)
{
    (void)state;
    const kl_section s = shapes_rectangle(0.5, 0.9);
    assert_good(&s);
    const section_value v = values(&s);
    assert_close(v.area, 0.45, EXACT, 0);
    assert_close(v.inertia, 0.5 * 0.9 * 0.9 * 0.9 / 12, EXACT, 0);
    assert_close(v.centroid, 0.45, EXACT, 0);
    assert_close(v.shear_area, 0.45 * 5 / 6, EXACT, 0);
    assert_close(v.perimeter_exposed, 2.8, EXACT, 0);
    assert_close(v.line, 0.45, EXACT, 0);
    /* kern of a rectangle: a sixth of its depth from the centroid */
    assert_close(v.inertia / (v.area * v.to_top), 0.15, EXACT, 0);
    assert_close(v.inertia / (v.area * v.to_bottom), 0.15, EXACT, 0);
}

static void section_evaluate_round_gives_textbook_values(void **state)
{
    (void)state;
    kl_section s = shapes_blank(KL_CIRCLE);
    s.diameter = 1.8;
    assert_good(&s);
    section_value v = values(&s);
    assert_close(v.area, PI * 0.81, EXACT, 0);
    assert_close(v.inertia, PI * pow(0.9, 4) / 4, EXACT, 0);
    assert_close(v.shear_area, 0.9 * PI * 0.81, EXACT, 0);
    assert_close(v.to_top, 0.9, EXACT, 0);
    assert_close(v.inertia / (v.area * v.to_top), 1.8 / 8, EXACT, 0); /* kern D/8 */
    s.shape = KL_PIPE;
    s.thickness = 0.2;
    assert_good(&s);
    v = values(&s);
    assert_close(v.area, PI * (0.81 - 0.49), EXACT, 0);
    assert_close(v.inertia, PI * (pow(0.9, 4) - pow(0.7, 4)) / 4, EXACT, 0);
    assert_close(v.shear_area, 0.5 * PI * (0.81 - 0.49), EXACT, 0);
    assert_close(v.perimeter_exposed, PI * (1.8 + 0.5 * 1.4), EXACT, 0);
}

/* By hand: web 0.4 x 1.25 centred at 0.625, flange 2.0 x 0.25 centred at 1.375; both areas are 0.5. */
static void section_evaluate_tee_obeys_parallel_axis_theorem(void **state)
{
    (void)state;
    const kl_section s = shapes_tee();
    assert_good(&s);
    const section_value v = values(&s);
    const double inertia =
        0.4 * pow(1.25, 3) / 12 + 2.0 * pow(0.25, 3) / 12 + 2 * 0.5 * pow(0.375, 2);
    assert_close(v.area, 1.0, EXACT, 0);
    assert_close(v.centroid, 1.0, EXACT, 0);
    assert_close(v.inertia, inertia, EXACT, 0);
    assert_close(v.shear_area, 0.4 * 1.5, EXACT, 0);
    assert_close(v.perimeter_exposed, 7.0, EXACT, 0);
}

/* Whole rectangle minus the cells, plus wings of constant thickness: another way than the code's own parts. */
static void section_evaluate_box_equals_rectangle_minus_cells(void **state)
{
    (void)state;
    const kl_section s = shapes_box(3, 1.5, NAN);
    assert_good(&s);
    const section_value v = values(&s);
    const double clear = (9.0 - 4 * 0.3) / 3;
    const double height = 2.0 - 0.45;
    const double area[] = {9.0 * 2.0, -3 * clear * height, 2 * 1.5 * 0.25};
    const double level[] = {1.0, 0.2 + height / 2, 2.0 - 0.125};
    const double own[] = {9.0 * 8.0 / 12, -3 * clear * pow(height, 3) / 12,
                          3.0 * pow(0.25, 3) / 12};
    double a = 0, m = 0, i = 0;
    for (int k = 0; k < 3; k++) {
        a += area[k];
        m += area[k] * level[k];
    }
    for (int k = 0; k < 3; k++) {
        i += own[k] + area[k] * pow(level[k] - m / a, 2);
    }
    assert_close(v.area, a, EXACT, 0);
    assert_close(v.centroid, m / a, EXACT, 0);
    assert_close(v.inertia, i, EXACT, 0);
    assert_close(v.shear_area, 4 * 0.3 * 2.0, EXACT, 0);
    /* outside: top 12, two tips, two wing soffits, two outer web faces, bottom 9; cells count half */
    const double outside = 12 + 2 * 0.25 + 2 * 1.5 + 2 * 1.75 + 9;
    assert_close(v.perimeter_exposed, outside + 0.5 * 3 * 2 * (clear + height), EXACT, 0);
    assert_close(v.width_bottom, 9.0, EXACT, 0);
}

/* ---- the polygon route --------------------------------------------------------------------------------- */

/* The same section as an `outline` section. */
static kl_section as_outline(const kl_section *s, arena *a)
{
    kl_section o = shapes_blank(KL_OUTLINE);
    kl_section_outline outline;
    assert_int_equal(section_outline(s, s, 0.0, 0.0, 720, a, &outline), KL_OK);
    o.outline = outline.outer;
    o.voids = outline.voids;
    o.void_count = outline.void_count;
    return o;
}

static void assert_same_values(const section_value *a, const section_value *b, double rtol)
{
    assert_close(a->area, b->area, rtol, 0);
    assert_close(a->inertia, b->inertia, rtol, 0);
    assert_close(a->centroid, b->centroid, rtol, 0);
    assert_close(a->depth, b->depth, rtol, 0);
    assert_close(a->to_top, b->to_top, rtol, 0);
    assert_close(a->perimeter_exposed, b->perimeter_exposed, rtol, 0);
}

static void section_evaluate_outline_of_any_shape_equals_its_formula(void **state)
{
    (void)state;
    kl_section circle = shapes_blank(KL_CIRCLE);
    circle.diameter = 1.5;
    kl_section pipe = circle;
    pipe.shape = KL_PIPE;
    pipe.thickness = 0.1;
    const struct {
        kl_section section;
        double rtol; /* a 720-gon's inertia lacks (2 pi / 720)^2 / 3 and a bit */
    } cases[] = {
        {shapes_rectangle(0.7, 1.3), EXACT},
        {shapes_tee(), EXACT},
        {shapes_box(1, NAN, NAN), EXACT},
        {shapes_box(3, 1.5, NAN), EXACT},
        {shapes_box(4, 2.0, 0.15), EXACT},
        {shapes_box(2, 1.0, 0.4), EXACT},
        {circle, 1e-4},
        {pipe, 1e-4},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        arena a = {0};
        const kl_section outline = as_outline(&cases[i].section, &a);
        assert_good(&outline);
        const section_value direct = values(&cases[i].section);
        const section_value polygon = values(&outline);
        assert_same_values(&polygon, &direct, cases[i].rtol);
        if (cases[i].rtol < 1e-9) {
            assert_close(polygon.width_bottom, direct.width_bottom, 1e-8, 0);
        }
        assert_true(isnan(polygon.shear_area));
        arena_free(&a);
    }
}

/* 144 x 72 in with a void 120 x 58 in from 6 to 64 in: whole numbers by hand, A = 10368 - 6960 in^2,
 * y = (10368 x 36 - 6960 x 35) / 3408; kern distances of the published example 21.66 and 19.33 in. */
static void section_evaluate_void_box_matches_worked_example(void **state)
{
    (void)state;
    const kl_point outer[] = {{0, 0}, {0, 72 * IN}, {144 * IN, 72 * IN}, {144 * IN, 0}};
    const kl_point inner[] = {
        {12 * IN, 6 * IN}, {132 * IN, 6 * IN}, {132 * IN, 64 * IN}, {12 * IN, 64 * IN}};
    const kl_polygon hole = {inner, 4};
    kl_section s = shapes_blank(KL_OUTLINE);
    s.outline = (kl_polygon){outer, 4};
    s.voids = &hole;
    s.void_count = 1;
    assert_good(&s);
    const section_value v = values(&s);
    const double y = (10368.0 * 36 - 6960.0 * 35) / 3408;
    const double i = 144 * pow(72, 3) / 12 + 10368 * pow(36 - y, 2) - 120 * pow(58, 3) / 12 -
                     6960 * pow(35 - y, 2);
    assert_close(v.area / pow(IN, 2), 3408, EXACT, 0);
    assert_close(v.centroid / IN, y, EXACT, 0);
    assert_close(v.centroid / IN, 38.0423, 2e-6, 0);
    assert_close(v.inertia / pow(IN, 4), i, EXACT, 0);
    assert_close(v.inertia / pow(IN, 4), 2.50668e6, 2e-6, 0);
    assert_close(v.inertia / (v.area * v.to_top) / IN, 21.66, 3e-4, 0);
    assert_close(v.inertia / (v.area * v.to_bottom) / IN, 19.33, 3e-4, 0);
}

static void section_evaluate_outline_far_from_origin_loses_no_digits(void **state)
{
    (void)state;
    const kl_point points[] = {{10000, 5000}, {10001, 5000}, {10001, 5002}, {10000, 5002}};
    kl_section s = shapes_blank(KL_OUTLINE);
    s.outline = (kl_polygon){points, 4};
    const section_value v = values(&s);
    assert_close(v.inertia, 8.0 / 12, EXACT, 0);
    assert_close(v.centroid, 1.0, EXACT, 0);
}

/* b h^3 / 36 about the centroid at a third of the height. */
static void section_evaluate_triangle_gives_textbook_values(void **state)
{
    (void)state;
    const kl_point points[] = {{0, 0}, {3, 0}, {1, 2}};
    kl_section s = shapes_blank(KL_OUTLINE);
    s.outline = (kl_polygon){points, 3};
    assert_good(&s);
    const section_value v = values(&s);
    assert_close(v.area, 3.0, EXACT, 0);
    assert_close(v.inertia, 3.0 * 8.0 / 36, EXACT, 0);
    assert_close(v.centroid, 2.0 / 3, EXACT, 0);
    assert_close(v.width_bottom, 3.0, 1e-8, 0);
}

/* ---- turned --------------------------------------------------------------------------------------------- */

static void section_evaluate_turned_rectangle_follows_mohr(void **state)
{
    (void)state;
    const double degrees[] = {0, 20, 45, -30, 90, 180};
    for (int k = 0; k < 6; k++) {
        kl_section s = shapes_rectangle(0.8, 2.0);
        s.turned = degrees[k] * PI / 180;
        assert_good(&s);
        const section_value v = values(&s);
        const double c = fabs(cos(s.turned));
        const double n = fabs(sin(s.turned));
        const double inertia = 0.8 * 8.0 / 12 * c * c + 2.0 * pow(0.8, 3) / 12 * n * n;
        assert_close(v.area, 1.6, EXACT, 0);
        assert_close(v.inertia, inertia, EXACT, 0);
        assert_close(v.depth, 2.0 * c + 0.8 * n, EXACT, 0);
        assert_close(v.to_top, v.depth / 2, EXACT, 0);
        assert_close(v.shear_area, 1.6 * 5 / 6, EXACT, 0);
        assert_close(v.perimeter_exposed, 5.6, EXACT, 0);
    }
}

static void section_evaluate_tee_turned_upside_down_swaps_its_faces(void **state)
{
    (void)state;
    kl_section s = shapes_tee();
    const section_value upright = values(&s);
    s.turned = PI;
    section_value v = values(&s);
    assert_close(v.to_top, upright.to_bottom, EXACT, 0);
    assert_close(v.to_bottom, upright.to_top, EXACT, 0);
    assert_close(v.inertia, upright.inertia, EXACT, 0);
    assert_close(v.width_bottom, 2.0, 1e-8, 0);
    s.turned = PI / 2; /* on its side: the flange carries the shear */
    v = values(&s);
    assert_close(v.shear_area, 2.0 * 0.25, EXACT, 0);
    assert_close(v.inertia, 0.25 * 8.0 / 12 + 1.25 * pow(0.4, 3) / 12, EXACT, 0);
}

/* ---- varying -------------------------------------------------------------------------------------------- */

static void section_evaluate_between_two_rectangles_interpolates_dimensions(void **state)
{
    (void)state;
    const kl_section a = shapes_rectangle(0.5, 1.0);
    const kl_section b = shapes_rectangle(0.7, 2.0);
    const double t[] = {0.0, 0.25, 0.6, 1.0};
    assert_true(section_can_vary(&a, &b));
    for (int i = 0; i < 4; i++) {
        section_value v;
        section_evaluate(&a, &b, t[i], &v);
        const double w = 0.5 + 0.2 * t[i];
        const double d = 1.0 + t[i];
        assert_close(v.area, w * d, EXACT, 0);
        assert_close(v.inertia, w * d * d * d / 12, EXACT, 0);
    }
}

/* The same haunch drawn as outlines with a void, of which the second starts at another place. */
static void section_evaluate_between_two_outlines_moves_point_by_point(void **state)
{
    (void)state;
    const kl_point oa[] = {{0, 0}, {2, 0}, {2, 1}, {0, 1}};
    const kl_point ob[] = {{50, -9}, {54, -9}, {54, -6}, {50, -6}};
    const kl_point va[] = {{0.5, 0.25}, {1.5, 0.25}, {1.5, 0.75}, {0.5, 0.75}};
    const kl_point vb[] = {{51, -8.5}, {53, -8.5}, {53, -6.5}, {51, -6.5}};
    const kl_polygon ha = {va, 4};
    const kl_polygon hb = {vb, 4};
    kl_section a = shapes_blank(KL_OUTLINE);
    kl_section b = a;
    a.outline = (kl_polygon){oa, 4};
    b.outline = (kl_polygon){ob, 4};
    a.voids = &ha;
    b.voids = &hb;
    a.void_count = b.void_count = 1;
    assert_true(section_can_vary(&a, &b));
    section_value v;
    section_evaluate(&a, &b, 0.5, &v); /* 3 x 2 with a void 1.5 x 1.25 in its middle */
    assert_close(v.area, 6 - 1.5 * 1.25, EXACT, 0);
    assert_close(v.inertia, 3 * 8.0 / 12 - 1.5 * pow(1.25, 3) / 12, EXACT, 0);
    assert_close(v.centroid, 1.0, EXACT, 0);
    b.void_count = 0;
    assert_false(section_can_vary(&a, &b));
}

static void section_can_vary_refuses_unlike_sections(void **state)
{
    (void)state;
    const kl_section a = shapes_rectangle(1, 1);
    kl_section top = a;
    top.line = KL_LINE_TOP;
    kl_section bare = shapes_blank(KL_BARE);
    kl_section other = bare;
    const kl_section b3 = shapes_box(3, NAN, NAN);
    const kl_section b4 = shapes_box(4, NAN, NAN);
    const kl_section t = shapes_tee();
    assert_false(section_can_vary(&a, &top));
    assert_false(section_can_vary(&a, &t));
    assert_false(section_can_vary(&bare, &other));
    assert_true(section_can_vary(&bare, &bare));
    assert_false(section_can_vary(&b3, &b4));
}

static void section_evaluate_given_shear_area_replaces_the_shapes(void **state)
{
    (void)state;
    kl_section a = shapes_rectangle(1, 1);
    kl_section b = a;
    a.shear_area = 0.4;
    b.shear_area = 0.6;
    section_value v;
    section_evaluate(&a, &b, 0.25, &v);
    assert_close(v.shear_area, 0.45, EXACT, 0);
}

static void section_evaluate_bare_hands_back_what_was_given(void **state)
{
    (void)state;
    kl_section s = shapes_blank(KL_BARE);
    s.area = 2.0;
    s.inertia = 3.0;
    assert_good(&s);
    section_value v = values(&s);
    assert_close(v.area, 2.0, 0, 0);
    assert_close(v.inertia, 3.0, 0, 0);
    assert_close(v.line, 0.0, 0, 0);
    assert_true(isnan(v.depth) && isnan(v.to_top) && isnan(v.shear_area) &&
                isnan(v.perimeter_exposed));
    s.to_top = 0.4;
    s.to_bottom = 0.8;
    s.line = KL_LINE_TOP;
    assert_good(&s);
    v = values(&s);
    assert_close(v.line - v.centroid, 0.4, EXACT, 0);
    assert_close(v.depth, 1.2, EXACT, 0);
}

/* ---- what is refused ------------------------------------------------------------------------------------ */

static void assert_refused(const kl_section *s, const char *name)
{
    kl_diags *diags = kl_diags_create();
    assert_int_equal(section_check(s, diags), KL_BAD_MODEL);
    assert_true(kl_diags_count(diags) >= 1);
    assert_string_equal(kl_diags_get(diags, 0)->name, name);
    kl_diags_destroy(diags);
}

static void section_check_dimensions_that_do_not_fit_are_refused(void **state)
{
    (void)state;
    kl_section s = shapes_rectangle(0, 1);
    assert_refused(&s, "section-dimension");
    s = shapes_rectangle(1, NAN);
    assert_refused(&s, "section-dimension");
    s = shapes_tee();
    s.flange_thickness = 1.5;
    assert_refused(&s, "section-flange");
    s = shapes_tee();
    s.web_width = 2.1;
    assert_refused(&s, "section-web");
    s = shapes_box(3, 1.5, NAN);
    s.bottom_slab = 1.75;
    assert_refused(&s, "section-slabs");
    s = shapes_box(3, 5.4, NAN);
    assert_refused(&s, "section-webs");
    s = shapes_box(0, NAN, NAN);
    assert_refused(&s, "section-dimension");
    s = shapes_box(2147483647, NAN, NAN);
    s.web_width = 1e-12;
    assert_refused(&s, "section-cells");
    s = shapes_box(3, 1.5, 2.5);
    assert_refused(&s, "section-overhang");
    s = shapes_blank(KL_PIPE);
    s.diameter = 1;
    s.thickness = 0.6;
    assert_refused(&s, "section-pipe-wall");
    s = shapes_blank(KL_BARE);
    s.area = 1;
    s.line = KL_LINE_TOP;
    assert_refused(&s, "section-line");
    s.line = KL_LINE_CENTROID;
    s.turned = 0.1;
    assert_refused(&s, "section-turned");
}

static void section_check_crossing_outlines_are_refused(void **state)
{
    (void)state;
    const kl_point bow[] = {{0, 0}, {1, 1}, {1, 0}, {0, 1}};
    const kl_point closed[] = {{0, 0}, {1, 0}, {1, 1}, {0, 0}};
    const kl_point spike[] = {{0, 0}, {2, 0}, {1, 0}, {1, 1}};
    const kl_point touch[] = {{0, 0}, {4, 0}, {4, 3}, {2, 0}, {0, 3}};
    const kl_point flat[] = {{0, 0}, {1, 0}, {2, 0}};
    const struct {
        const kl_point *points;
        kl_index count;
        const char *name;
    } cases[] = {{bow, 4, "outline-crosses"},   {closed, 4, "outline-point-doubled"},
                 {spike, 4, "outline-crosses"}, {touch, 5, "outline-crosses"},
                 {flat, 3, "outline-crosses"},  {flat, 2, "outline-points"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        kl_section s = shapes_blank(KL_OUTLINE);
        s.outline = (kl_polygon){cases[i].points, cases[i].count};
        assert_refused(&s, cases[i].name);
    }
}

static void section_check_misplaced_voids_are_refused(void **state)
{
    (void)state;
    const kl_point outer[] = {{0, 0}, {4, 0}, {4, 4}, {0, 4}};
    const kl_point good[] = {{1, 1}, {2, 1}, {2, 2}, {1, 2}};
    const kl_point inside_good[] = {{1.2, 1.2}, {1.4, 1.2}, {1.3, 1.4}};
    const kl_point apart[] = {{3, 3}, {3.5, 3}, {3.5, 3.5}};
    const kl_point outside[] = {{5, 1}, {6, 1}, {6, 2}};
    const kl_point across[] = {{3, 1}, {5, 1}, {5, 2}};
    const kl_point touching[] = {{2, 1}, {3, 1}, {3, 2}};
    const struct {
        const kl_point *points;
        kl_index count;
        bool fits;
    } cases[] = {{apart, 3, true},
                 {inside_good, 3, false},
                 {outside, 3, false},
                 {across, 3, false},
                 {touching, 3, false}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const kl_polygon voids[] = {{good, 4}, {cases[i].points, cases[i].count}};
        kl_section s = shapes_blank(KL_OUTLINE);
        s.outline = (kl_polygon){outer, 4};
        s.voids = voids;
        s.void_count = 2;
        if (cases[i].fits) {
            assert_good(&s);
        } else {
            assert_refused(&s, "void-misplaced");
        }
    }
}

static void section_outline_without_memory_says_so(void **state)
{
    (void)state;
    const kl_section s = shapes_box(3, 1.5, NAN);
    kl_status status = KL_NO_MEMORY;
    for (long k = 0; status != KL_OK; k++) {
        arena a = {0};
        kl_section_outline outline;
        fault_after(k);
        status = section_outline(&s, &s, 0.0, 0.0, 16, &a, &outline);
        const int struck = fault_struck();
        fault_after(-1);
        assert_int_equal(status, struck ? KL_NO_MEMORY : KL_OK);
        arena_free(&a);
    }
}

/* 0.4 x 1 m: 0.4 / 2.8 m; as given where it is given; linear between two given, and between a given and a known one. */
static void section_volume_to_surface_is_given_or_of_the_outline(void **state)
{
    (void)state;
    kl_section a = shapes_rectangle(0.4, 1.0), b = shapes_rectangle(0.4, 2.0);
    assert_close(section_volume_to_surface(&a, &a, 0.0), 0.4 / 2.8, EXACT, 0);
    assert_close(section_volume_to_surface(&a, &b, 0.5), 0.6 / 3.8, EXACT, 0);
    b.volume_to_surface = 0.3;
    assert_close(section_volume_to_surface(&a, &b, 0.25), 0.75 * 0.4 / 2.8 + 0.25 * 0.3, EXACT, 0);
    a.volume_to_surface = 0.1;
    assert_close(section_volume_to_surface(&a, &b, 0.25), 0.15, EXACT, 0);
    const kl_section bare = shapes_blank(KL_BARE);
    assert_true(isnan(section_volume_to_surface(&bare, &bare, 0.0)));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(section_volume_to_surface_is_given_or_of_the_outline),
        cmocka_unit_test(section_evaluate_rectangle_gives_textbook_values),
        cmocka_unit_test(section_evaluate_round_gives_textbook_values),
        cmocka_unit_test(section_evaluate_tee_obeys_parallel_axis_theorem),
        cmocka_unit_test(section_evaluate_box_equals_rectangle_minus_cells),
        cmocka_unit_test(section_evaluate_outline_of_any_shape_equals_its_formula),
        cmocka_unit_test(section_evaluate_void_box_matches_worked_example),
        cmocka_unit_test(section_evaluate_outline_far_from_origin_loses_no_digits),
        cmocka_unit_test(section_evaluate_triangle_gives_textbook_values),
        cmocka_unit_test(section_evaluate_turned_rectangle_follows_mohr),
        cmocka_unit_test(section_evaluate_tee_turned_upside_down_swaps_its_faces),
        cmocka_unit_test(section_evaluate_between_two_rectangles_interpolates_dimensions),
        cmocka_unit_test(section_evaluate_between_two_outlines_moves_point_by_point),
        cmocka_unit_test(section_can_vary_refuses_unlike_sections),
        cmocka_unit_test(section_evaluate_given_shear_area_replaces_the_shapes),
        cmocka_unit_test(section_evaluate_bare_hands_back_what_was_given),
        cmocka_unit_test(section_check_dimensions_that_do_not_fit_are_refused),
        cmocka_unit_test(section_check_crossing_outlines_are_refused),
        cmocka_unit_test(section_check_misplaced_voids_are_refused),
        cmocka_unit_test(section_outline_without_memory_says_so),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
