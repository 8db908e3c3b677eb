/* test_element.c - the flexibility element against textbook stiffnesses, fixed-end forces and kinematics.
 *
 * Basic end moments are sagging +, so the textbook's 4 EI/L, 2 EI/L appear with the sign of the carry-over turned.
 * SPDX-License-Identifier: MIT */
#include "element.h"

#include <math.h>
#include <string.h>

#include "assert_close.h"
#include "random.h"

#define POINTS QUADRATURE_POINTS

/* One element of a hand-made mesh. */
typedef struct one_element {
    kl_member item;
    kl_model model;
    mesh_member member;
    mesh_element element;
    frame_mesh mesh;
    section_rigidity d[POINTS];
    section_flexibility f[POINTS];
    element_matrix m;
} one_element;

static void make(one_element *t, double length, double slope, double a, double b)
{
    memset(t, 0, sizeof *t);
    t->model.members = &t->item;
    t->model.member_count = 1;
    t->member = (mesh_member){0, 1, a + length + b, cos(slope), sin(slope)};
    t->element = (mesh_element){.node = {0, 1}, .from = a, .to = a + length, .rigid = {a, b}};
    t->mesh = (frame_mesh){.model = &t->model,
                           .rule = quadrature_make(),
                           .members = &t->member,
                           .elements = &t->element,
                           .element_count = 1};
}

static void prismatic(one_element *t, double ea, double ei, double shear, double y)
{
    for (int p = 0; p < POINTS; p++) {
        t->d[p] = (section_rigidity){ea, ea * y, ei + ea * y * y, shear};
    }
}

static kl_status try_to_form(one_element *t, bool start, bool end)
{
    const bool hinge[2] = {start, end};
    for (int p = 0; p < POINTS; p++) {
        t->f[p] = section_soften(&t->d[p]);
    }
    return element_form(&t->mesh, 0, t->f, hinge, &t->m);
}

static void form(one_element *t, bool start, bool end)
{
    assert_int_equal(try_to_form(t, start, end), KL_OK);
}

static double stiffness(const element_matrix *m, int i, int j)
{
    static const int half[3][3] = {{0, 1, 2}, {1, 3, 4}, {2, 4, 5}};
    return m->k[half[i][j]];
}

/* The 6x6 of a textbook (Euler-Bernoulli with Timoshenko's phi), local axes, then turned. */
static void textbook(double ea, double ei, double phi, double l, double slope, double k[6][6])
{
    const double b = ei / (1.0 + phi);
    const double local[6][6] = {
        {ea / l, 0, 0, -ea / l, 0, 0},
        {0, 12 * b / (l * l * l), 6 * b / (l * l), 0, -12 * b / (l * l * l), 6 * b / (l * l)},
        {0, 6 * b / (l * l), (4 + phi) * b / l, 0, -6 * b / (l * l), (2 - phi) * b / l},
        {-ea / l, 0, 0, ea / l, 0, 0},
        {0, -12 * b / (l * l * l), -6 * b / (l * l), 0, 12 * b / (l * l * l), -6 * b / (l * l)},
        {0, 6 * b / (l * l), (2 - phi) * b / l, 0, -6 * b / (l * l), (4 + phi) * b / l}};
    const double c = cos(slope);
    const double s = sin(slope);
    const double turn[3][3] = {{c, s, 0}, {-s, c, 0}, {0, 0, 1}}; /* global to local */
    for (int i = 0; i < 6; i++) {
        for (int j = 0; j < 6; j++) {
            k[i][j] = 0.0;
            for (int p = 0; p < 3; p++) {
                for (int q = 0; q < 3; q++) {
                    k[i][j] +=
                        turn[p][i % 3] * local[i / 3 * 3 + p][j / 3 * 3 + q] * turn[q][j % 3];
                }
            }
        }
    }
}

static void assert_stiffness(const one_element *t, double want[6][6], double tolerance)
{
    double block[2][2][9];
    double scale = 0.0;
    for (int i = 0; i < 6; i++) {
        scale = fmax(scale, fabs(want[i][i]));
    }
    element_stiffness(&t->m, block);
    for (int i = 0; i < 6; i++) {
        for (int j = 0; j < 6; j++) {
            assert_close(block[i / 3][j / 3][3 * (i % 3) + j % 3], want[i][j], tolerance,
                         tolerance * scale);
        }
    }
}

static void element_form_prismatic_is_the_textbook_matrix(void **state)
{
    (void)state;
    const double slopes[] = {0.0, 0.6, 1.5707963267948966, -2.2};
    for (int i = 0; i < 4; i++) {
        one_element t;
        double want[6][6];
        make(&t, 7.0, slopes[i], 0.0, 0.0);
        prismatic(&t, 4e9, 3e8, HUGE_VAL, 0.0);
        form(&t, false, false);
        textbook(4e9, 3e8, 0.0, 7.0, slopes[i], want);
        assert_stiffness(&t, want, 1e-13);
    }
}

/* phi = 12 EI / (G As L^2). */
static void element_form_shear_flexible_is_timoshenkos(void **state)
{
    (void)state;
    one_element t;
    double want[6][6];
    make(&t, 3.0, 0.3, 0.0, 0.0);
    prismatic(&t, 4e9, 3e8, 5e8, 0.0);
    form(&t, false, false);
    textbook(4e9, 3e8, 12 * 3e8 / (5e8 * 9.0), 3.0, 0.3, want);
    assert_stiffness(&t, want, 1e-13);
}

/* Rigid parts and a line off the centroid are rigid links: K = T' K0 T with u0 = T u. */
static void linked(double k0[6][6], const double link[6][6], double k[6][6])
{
    for (int i = 0; i < 6; i++) {
        for (int j = 0; j < 6; j++) {
            k[i][j] = 0.0;
            for (int p = 0; p < 6; p++) {
                for (int q = 0; q < 6; q++) {
                    k[i][j] += link[p][i] * k0[p][q] * link[q][j];
                }
            }
        }
    }
}

static void element_form_rigid_ends_are_rigid_links(void **state)
{
    (void)state;
    const double a = 0.8;
    const double b = 1.3;
    const double slope = 0.7;
    const double c = cos(slope);
    const double s = sin(slope);
    /* a point at distance a along the line moves by r x (a c, a s) = (-a s r, a c r) */
    const double link[6][6] = {{1, 0, -a * s, 0, 0, 0}, {0, 1, a * c, 0, 0, 0},
                               {0, 0, 1, 0, 0, 0},      {0, 0, 0, 1, 0, b * s},
                               {0, 0, 0, 0, 1, -b * c}, {0, 0, 0, 0, 0, 1}};
    one_element t;
    double k0[6][6];
    double want[6][6];
    make(&t, 5.0, slope, a, b);
    prismatic(&t, 2e9, 3e8, HUGE_VAL, 0.0);
    form(&t, false, false);
    textbook(2e9, 3e8, 0.0, 5.0, slope, k0);
    linked(k0, link, want);
    assert_stiffness(&t, want, 1e-13);
}

/* Line at the top: the centroid lies at y below it and moves by u - y r along the member. */
static void element_form_line_off_the_centroid_is_a_rigid_link(void **state)
{
    (void)state;
    const double y = -0.9;
    const double link[6][6] = {{1, 0, -y, 0, 0, 0}, {0, 1, 0, 0, 0, 0}, {0, 0, 1, 0, 0, 0},
                               {0, 0, 0, 1, 0, -y}, {0, 0, 0, 0, 1, 0}, {0, 0, 0, 0, 0, 1}};
    one_element t;
    double k0[6][6];
    double want[6][6];
    make(&t, 6.0, 0.0, 0.0, 0.0);
    prismatic(&t, 2e9, 3e8, HUGE_VAL, y);
    form(&t, false, false);
    textbook(2e9, 3e8, 0.0, 6.0, 0.0, k0);
    linked(k0, link, want);
    assert_stiffness(&t, want, 1e-12);
}

static void element_form_hinges_leave_three_ei_over_l_or_nothing(void **state)
{
    (void)state;
    one_element t;
    make(&t, 4.0, 0.0, 0.0, 0.0);
    prismatic(&t, 2e9, 3e8, HUGE_VAL, 0.0);
    form(&t, true, false);
    assert_close(stiffness(&t.m, 2, 2), 3 * 3e8 / 4.0, 1e-14, 0.0);
    assert_close(stiffness(&t.m, 1, 1), 0.0, 0.0, 0.0);
    assert_close(stiffness(&t.m, 1, 2), 0.0, 0.0, 0.0);
    form(&t, true, true);
    assert_close(stiffness(&t.m, 0, 0), 2e9 / 4.0, 1e-14, 0.0);
    assert_close(stiffness(&t.m, 2, 2), 0.0, 0.0, 0.0);
    t.item.axial_only = true;
    for (int p = 0; p < POINTS; p++) {
        t.d[p] = (section_rigidity){2e9, 0.0, 0.0, HUGE_VAL};
    }
    form(&t, false, false);
    assert_close(stiffness(&t.m, 0, 0), 2e9 / 4.0, 1e-14, 0.0);
    assert_close(stiffness(&t.m, 1, 1), 0.0, 0.0, 0.0);
}

static void element_form_without_stiffness_is_refused(void **state)
{
    (void)state;
    one_element t;
    const double bad[] = {0.0, -1e9, NAN};
    for (int i = 0; i < 3; i++) {
        make(&t, 4.0, 0.0, 0.0, 0.0);
        prismatic(&t, bad[i], 3e8, HUGE_VAL, 0.0);
        assert_int_equal(try_to_form(&t, false, false), KL_MECHANISM);
    }
}

/* Depth growing by `rise` along the element, line at the top: A, S, I about the line are polynomials of the station.
 * Flexibility by 2,000 Simpson steps; end stiffness is its inverse, so F k = 1. Five points on 1/depth^3 leave 1e-8 where
 * the depth grows by 30 % in one element (a twentieth of a member that grows sevenfold) and next to nothing below. */
static void taper(double rise, double xi, double *ea, double *es, double *ei)
{
    const double depth = 1.2 * (1.0 + rise * xi);
    *ea = 3e10 * 0.8 * depth;
    *es = -*ea * 0.5 * depth;
    *ei = *ea * depth * depth / 3.0;
}

static void flexibility_at(double rise, double xi, double f[3][3])
{
    double ea;
    double es;
    double ei;
    taper(rise, xi, &ea, &es, &ei);
    const double det = ea * ei - es * es;
    const double section[3] = {ei / det, es / det, ea / det};
    const double b[3] = {1.0, 1.0 - xi, xi};
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            f[i][j] = b[i] * b[j] * section[(i > 0) + (j > 0)];
        }
    }
}

static void integrate_flexibility(double rise, double length, double sum[3][3])
{
    const int steps = 2000;
    memset(sum, 0, 9 * sizeof(double));
    for (int n = 0; n <= steps; n++) {
        double f[3][3];
        const double w = length / (3.0 * steps) * (n == 0 || n == steps ? 1 : n % 2 ? 4 : 2);
        flexibility_at(rise, (double)n / steps, f);
        for (int i = 0; i < 9; i++) {
            sum[i / 3][i % 3] += w * f[i / 3][i % 3];
        }
    }
}

static void element_form_tapered_is_the_integrated_flexibility(void **state)
{
    (void)state;
    const double rise[] = {0.3, 0.15, 0.05};
    const double tolerance[] = {2e-8, 1e-10, 3e-12};
    for (int n = 0; n < 3; n++) {
        double f[3][3];
        one_element t;
        integrate_flexibility(rise[n], 2.5, f);
        make(&t, 2.5, 0.0, 0.0, 0.0);
        for (int p = 0; p < POINTS; p++) {
            t.d[p].shear = HUGE_VAL;
            taper(rise[n], t.mesh.rule.xi[p], &t.d[p].ea, &t.d[p].es, &t.d[p].ei);
        }
        form(&t, false, false);
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                const double product = f[i][0] * stiffness(&t.m, 0, j) +
                                       f[i][1] * stiffness(&t.m, 1, j) +
                                       f[i][2] * stiffness(&t.m, 2, j);
                assert_close(product, i == j ? 1.0 : 0.0, 0.0, tolerance[n]);
            }
        }
    }
}

/* ---- loads ------------------------------------------------------------------------------------------------- */

/* Basic forces of the element with both nodes held. */
/* All kinds of loads that an element can have. */
typedef struct all_loads {
    line_load line;
    line_couple couple;
    section_strain strain[POINTS];
} all_loads;

static void held(const one_element *t, const all_loads *loads, double q[3], section_action end[2])
{
    const double none[3] = {0.0, 0.0, 0.0};
    const element_load parts = {&loads->line, &loads->couple, loads->strain};
    const element_load *load = &parts;
    element_statics s;
    section_action at[POINTS];
    double v[3];
    element_balance(&t->mesh.rule, t->m.length, load, &s);
    element_free_deformation(&t->mesh.rule, &t->m, &s, load->strain, v);
    element_basic_force(&t->m, none, v, q);
    element_actions(&t->mesh.rule, t->m.length, q, &s, at, end);
}

/* Fixed-end moments (sagging +): uniform -w L^2/12; triangle rising to the end -w L^2/30, -w L^2/20. The curvature k0
 * held at both ends -EI k0, the strain e0 -EA e0. A couple spread evenly acts like an end shear and needs no moment. */
static void element_balance_gives_fixed_end_forces(void **state)
{
    (void)state;
    const double l = 6.0;
    const double ea = 2e9;
    const double ei = 3e8;
    one_element t;
    double q[3];
    section_action end[2];
    make(&t, l, 0.0, 0.0, 0.0);
    prismatic(&t, ea, ei, HUGE_VAL, 0.0);
    form(&t, false, false);
    all_loads uniform = {.line = {.across = {0}}};
    all_loads triangle = {.line = {.across = {0}}};
    all_loads bent = {.line = {.across = {0}}};
    all_loads stretched = {.line = {.across = {0}}};
    all_loads couple = {.line = {.across = {0}}};
    for (int p = 0; p < POINTS; p++) {
        uniform.line.across[p] = -1000.0;
        uniform.line.along[p] = 500.0;
        triangle.line.across[p] = -1000.0 * t.mesh.rule.xi[p];
        bent.strain[p].k = 1e-4;
        stretched.strain[p].e = 1e-4;
        couple.couple.along[p] = 700.0;
    }
    held(&t, &uniform, q, end);
    assert_close(end[0].m, -1000.0 * l * l / 12, 1e-13, 0.0);
    assert_close(end[1].m, -1000.0 * l * l / 12, 1e-13, 0.0);
    assert_close(end[0].v, 1000.0 * l / 2, 1e-13, 0.0);
    assert_close(end[1].v, -1000.0 * l / 2, 1e-13, 0.0);
    assert_close(end[0].n, 500.0 * l / 2, 1e-13, 0.0);
    assert_close(end[1].n, -500.0 * l / 2, 1e-13, 0.0);
    held(&t, &triangle, q, end);
    assert_close(end[0].m, -1000.0 * l * l / 30, 1e-13, 0.0);
    assert_close(end[1].m, -1000.0 * l * l / 20, 1e-13, 0.0);
    assert_close(end[0].v, 1000.0 * l * 3 / 20, 1e-13, 0.0);
    held(&t, &bent, q, end);
    assert_close(end[0].m, -ei * 1e-4, 1e-13, 0.0);
    assert_close(end[1].m, -ei * 1e-4, 1e-13, 0.0);
    assert_close(end[0].v, 0.0, 0.0, 1e-8);
    held(&t, &stretched, q, end);
    assert_close(q[0], -ea * 1e-4, 1e-13, 0.0);
    assert_close(end[0].m, 0.0, 0.0, 1e-8);
    held(&t, &couple, q, end);
    assert_close(end[0].m, 0.0, 0.0, 1e-9);
    assert_close(end[1].m, 0.0, 0.0, 1e-9);
    assert_close(end[0].v, 700.0, 1e-13, 0.0);
}

/* Propped at a hinge: -w L^2/8 at the other end. A moment forced on a hinge M0 carries over -M0/2 (sagging +). */
static void element_balance_with_a_hinge_is_propped(void **state)
{
    (void)state;
    one_element t;
    double q[3];
    section_action end[2];
    make(&t, 5.0, 0.0, 0.0, 0.0);
    prismatic(&t, 2e9, 3e8, HUGE_VAL, 0.0);
    form(&t, true, false);
    all_loads load = {.line = {.across = {0}}};
    for (int p = 0; p < POINTS; p++) {
        load.line.across[p] = -1000.0;
    }
    held(&t, &load, q, end);
    assert_close(end[0].m, 0.0, 0.0, 1e-10);
    assert_close(end[1].m, -1000.0 * 25.0 / 8, 1e-13, 0.0);
    all_loads forced = {.couple = {.end = {800.0, 0.0}}};
    held(&t, &forced, q, end);
    assert_close(end[0].m, 800.0, 1e-13, 0.0);
    assert_close(end[1].m, -400.0, 1e-13, 0.0);
}

/* ---- kinematics and statics ------------------------------------------------------------------------------- */

/* A rigid movement (u0, v0, r about the origin) strains nothing, whatever the direction and the rigid parts. */
static void element_deformation_of_a_rigid_movement_is_none(void **state)
{
    (void)state;
    random_source random = {4};
    for (int n = 0; n < 50; n++) {
        const double a = random_between(&random, 0.0, 2.0);
        const double b = random_between(&random, 0.0, 2.0);
        const double slope = random_between(&random, -3.1, 3.1);
        one_element t;
        make(&t, random_between(&random, 0.1, 9.0), slope, a, b);
        prismatic(&t, 2e9, 3e8, 1e9, 0.2);
        form(&t, n % 2 == 1, false); /* hinged, its start turns as its ends move: rigidly */
        const double x0 = random_between(&random, -5.0, 5.0);
        const double y0 = random_between(&random, -5.0, 5.0);
        const double x1 = x0 + t.member.length * t.member.cosine;
        const double y1 = y0 + t.member.length * t.member.sine;
        const double r = random_between(&random, -1.0, 1.0);
        const double u[6] = {1.0 - r * y0, 2.0 + r * x0, r, 1.0 - r * y1, 2.0 + r * x1, r};
        double v[3];
        element_deformation(&t.m, u, v);
        for (int i = 0; i < 3; i++) {
            assert_close(v[i], 0.0, 0.0, 1e-12 * fmax(1.0, 1.0 / t.m.length));
        }
        double local[3]; /* the start of the flexible part moves rigidly too */
        const section_strain none[QUADRATURE_POINTS] = {{0.0, 0.0, 0.0}};
        element_start_movement(&t.mesh.rule, &t.m, u, none, local);
        const double px = 1.0 - r * (y0 + a * t.member.sine);
        const double py = 2.0 + r * (x0 + a * t.member.cosine);
        assert_close(local[0], px * t.member.cosine + py * t.member.sine, 0.0, 1e-13);
        assert_close(local[1], py * t.member.cosine - px * t.member.sine, 0.0, 1e-13);
        assert_close(local[2], r, 0.0, n % 2 == 1 ? 1e-12 * fmax(1.0, 1.0 / t.m.length) : 0.0);
    }
}

/* The nodes' forces on an element balance its loads: sums of force and of moment about the start node. */
static void element_end_forces_balance_the_loads(void **state)
{
    (void)state;
    random_source random = {9};
    for (int n = 0; n < 20; n++) {
        one_element t;
        const double a = random_between(&random, 0.0, 1.0);
        make(&t, 4.0, random_between(&random, -3.0, 3.0), a, 0.7);
        prismatic(&t, 2e9, 3e8, 1e9, 0.2);
        form(&t, false, false);
        const double w = random_between(&random, -100.0, 100.0);
        const double h = random_between(&random, -100.0, 100.0);
        all_loads load = {.line = {.across = {0}}};
        for (int p = 0; p < POINTS; p++) {
            load.line.across[p] = w;
            load.line.along[p] = h;
            load.strain[p].k = 1e-5;
        }
        double q[3];
        section_action end[2];
        double f[6];
        held(&t, &load, q, end);
        element_end_forces(&t.m, end, f);
        const double c = t.member.cosine;
        const double s = t.member.sine;
        const double length = t.member.length;
        assert_close(f[0] + f[3], -4.0 * (h * c - w * s), 0.0, 1e-8);
        assert_close(f[1] + f[4], -4.0 * (h * s + w * c), 0.0, 1e-8);
        const double arm = f[4] * c * length - f[3] * s * length;
        assert_close(f[2] + f[5] + arm, -4.0 * w * (a + 2.0), 0.0, 1e-8);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(element_form_prismatic_is_the_textbook_matrix),
        cmocka_unit_test(element_form_shear_flexible_is_timoshenkos),
        cmocka_unit_test(element_form_rigid_ends_are_rigid_links),
        cmocka_unit_test(element_form_line_off_the_centroid_is_a_rigid_link),
        cmocka_unit_test(element_form_hinges_leave_three_ei_over_l_or_nothing),
        cmocka_unit_test(element_form_without_stiffness_is_refused),
        cmocka_unit_test(element_form_tapered_is_the_integrated_flexibility),
        cmocka_unit_test(element_balance_gives_fixed_end_forces),
        cmocka_unit_test(element_balance_with_a_hinge_is_propped),
        cmocka_unit_test(element_deformation_of_a_rigid_movement_is_none),
        cmocka_unit_test(element_end_forces_balance_the_loads),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
