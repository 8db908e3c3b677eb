/* test_section_state.c - the section that carries increments: gross, net of ducts, transformed, by hand.
 * SPDX-License-Identifier: MIT */
#include "section_state.h"

#include <math.h>
#include <stdio.h>

#include "result_store.h"
#include "solved.h"

#define PI 3.14159265358979323846

/* A rectangle 1 m by 2 m of 30 GPa; two groups of tendons, the first of 2 with ducts of 100 mm 0.6 m below the centroid,
 * 2000 mm^2 of 200 GPa each; the second 0.7 m above, one duct of 60 mm, 1000 mm^2. */
#define FRAME                                                                                      \
    "material oak { modulus 30 GPa; unit_weight 25 kN/m^3 }\n"                                     \
    "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 200 GPa; relaxation none "   \
    "}\n"                                                                                          \
    "section r { rectangle width 1 m depth 2 m%s }\n"                                              \
    "node A at (0 m, 0 m)\nnode B at (12 m, 0 m)\nmember b from A to B section r of oak\n"         \
    "support A pinned\nsupport B roller\n"                                                         \
    "tendon T1 in b { of strand; strands 10 area 200 mm^2; count 2; jack start force 1000 kN; "    \
    "duct 100 mm; bonded grouted\n"                                                                \
    "profile from bottom { anchor at start height 0.4 m; anchor at end height 0.4 m straight } "   \
    "}\n"                                                                                          \
    "tendon T2 in b { of strand; strands 10 area 100 mm^2; jack start force 500 kN; duct 60 mm; "  \
    "bonded grouted\n"                                                                             \
    "profile from top { anchor at start depth 0.3 m; anchor at end depth 0.3 m straight } }\n"     \
    "stage one { place b }\nstage two { stress T1 }\nstage three { grout T1 }\nstage four { "      \
    "stress T2; grout T2 }\n"

#define SLOPING                                                                                    \
    "show si\nmaterial oak { modulus 30 GPa; unit_weight 25 kN/m^3 }\n"                            \
    "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 200 GPa; relaxation none "   \
    "}\n"                                                                                          \
    "section r { rectangle width 1 m depth 3 m }\nnode A at (0 m, 0 m)\nnode B at (12 m, 0 m)\n"   \
    "member b from A to B section r of oak\nsupport A pinned\nsupport B roller\n"                  \
    "tendon T1 in b { of strand; strands 10 area 200 mm^2; jack start force 1000 kN; bonded "      \
    "grouted\n"                                                                                    \
    "profile from line { anchor at start height 1 m; anchor at end height -1 m straight } }\n"     \
    "stage one { place b; stress T1; grout T1 }\n"

typedef struct by_hand {
    double a, s,
        i; /* area, first and second moment about mid-depth, in units of the concrete's E */
} by_hand;

static void add(by_hand *h, double area, double y)
{
    h->a += area;
    h->s += area * y;
    h->i += area * y * y;
}

static void assert_section(const solved *s, const char *stage, by_hand h)
{
    kl_section_values v;
    assert_int_equal(kl_section_of_state(s->results, solved_after(s, stage), 0, 5.0, KL_RIGHT, &v),
                     KL_OK);
    const double y = h.s / h.a;
    assert_close(v.area, h.a, 1e-12, 0.0);
    assert_close(v.inertia, h.i - h.s * y, 1e-12, 0.0);
    assert_close(v.to_top, 1.0 - y, 1e-12, 0.0);
    assert_close(v.to_bottom, 1.0 + y, 1e-12, 0.0);
}

static void open(solved *s, const char *head, const char *line)
{
    char text[4200];
    char frame[4096];
    (void)snprintf(frame, sizeof frame, FRAME, line);
    (void)snprintf(text, sizeof text, "show si\n%s%s", head, frame);
    solved_open(s, text);
}

static void kl_section_of_state_is_net_then_transformed(void **state)
{
    (void)state;
    const double hole1 = 2 * PI * 0.01 / 4;
    const double hole2 = PI * 0.0036 / 4;
    const double n = 200.0 / 30.0;
    solved s;
    open(&s, "", "");
    by_hand net = {2.0, 0.0, 2.0 / 3.0};
    add(&net, -hole1, -0.6);
    add(&net, -hole2, 0.7);
    assert_section(&s, "one", net); /* ducts of tendons not yet stressed are holes too */
    assert_section(&s, "two", net);
    by_hand mixed = {2.0, 0.0, 2.0 / 3.0};
    add(&mixed, (n - 1) * 4000e-6, -0.6);
    add(&mixed, -hole2, 0.7);
    assert_section(&s, "three", mixed);
    by_hand whole = {2.0, 0.0, 2.0 / 3.0};
    add(&whole, (n - 1) * 4000e-6, -0.6);
    add(&whole, (n - 1) * 1000e-6, 0.7);
    assert_section(&s, "four", whole);
    solved_close(&s);
}

static void kl_section_of_state_gross_is_gross_throughout(void **state)
{
    (void)state;
    solved s;
    open(&s, "sections gross\n", "");
    const by_hand gross = {2.0, 0.0, 2.0 / 3.0};
    assert_section(&s, "one", gross);
    assert_section(&s, "three", gross);
    assert_section(&s, "four", gross);
    solved_close(&s);
}

/* A line along the top describes the same concrete: the same section about its own centroid. */
static void kl_section_of_state_does_not_depend_on_the_line(void **state)
{
    (void)state;
    solved s;
    open(&s, "", "; line top");
    const double n = 200.0 / 30.0;
    by_hand whole = {2.0, 0.0, 2.0 / 3.0};
    add(&whole, (n - 1) * 4000e-6, -0.6);
    add(&whole, (n - 1) * 1000e-6, 0.7);
    assert_section(&s, "four", whole);
    solved_close(&s);
}

/* What the analysis uses is the same section: T2's stressing at 0.7 m on the section net of its duct and with T1 in it.
 * Sag of the prestress on the simple beam: -P e L^2 / 8 EI with e from that section's centroid. */
static void section_book_update_is_what_stressing_acts_on(void **state)
{
    (void)state;
    solved s;
    open(&s, "", "");
    const double n = 200.0 / 30.0;
    by_hand h = {2.0, 0.0, 2.0 / 3.0};
    add(&h, (n - 1) * 4000e-6, -0.6);
    add(&h, -PI * 0.0036 / 4, 0.7);
    const double y = h.s / h.a;
    const double ei = 30e9 * (h.i - h.s * y);
    const kl_index step = kl_first_step(s.results, solved_index(&s, KL_KIND_STAGE, "four"));
    const double sag = solved_value(&s, kl_state_step(step), KL_DEFLECTION, "b", 6.0) -
                       solved_value(&s, solved_after(&s, "three"), KL_DEFLECTION, "b", 6.0);
    assert_close(sag, -500e3 * (0.7 - y) * 144.0 / (8 * ei), 1e-9, 0.0);
    solved_close(&s);
}

/* At an angle the tendon counts with cos^3: E A' = sum of E_p A_p cos^3 theta. A harped tendon, slope 1 in 6. */
static void kl_section_of_state_of_a_sloping_tendon_has_the_cube_of_the_cosine(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, SLOPING);
    const double cosine = 6.0 / sqrt(37.0);
    const double height = 1.0 - 4.5 / 6.0;
    by_hand h = {3.0, 0.0, 27.0 / 12.0};
    add(&h, 200.0 / 30.0 * 2000e-6 * pow(cosine, 3) - 2000e-6, height);
    const double y = h.s / h.a;
    kl_section_values v;
    assert_int_equal(kl_section_of_state(s.results, solved_after(&s, "one"), 0, 4.5, KL_RIGHT, &v),
                     KL_OK);
    assert_close(v.area, h.a, 1e-9, 0.0);
    assert_close(v.inertia, h.i - h.s * y, 1e-9, 0.0);
    solved_close(&s);
}

/* ---- the rigidities themselves -------------------------------------------------------------------------------- */

/* D of every quadrature point of the state as it is at the end, against E_c (A, S, I) by hand at the point's station. */
static void assert_rigidities(solved *s,
                              void (*by_hand_at)(double x, by_hand *h),
                              double modulus,
                              double tolerance)
{
    analysis_run *run = &s->results->run;
    section_book_age(&run->book, &run->state, true);
    section_book_update(&run->book, &run->state);
    for (kl_index e = 0; e < run->mesh.element_count; e++) {
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            by_hand h;
            by_hand_at(mesh_point_station(&run->mesh, e, p), &h);
            const section_rigidity *d = &run->book.rigidity[run->book.page[e]][p];
            assert_close(d->ea, modulus * h.a, tolerance, 0.0);
            assert_close(d->es, modulus * h.s, tolerance, tolerance * modulus);
            assert_close(d->ei, modulus * h.i, tolerance, 0.0);
            assert_true(isinf(d->shear));
        }
    }
}

static void both_grouted(double x, by_hand *h)
{
    (void)x;
    *h = (by_hand){2.0, 0.0, 2.0 / 3.0};
    add(h, (200.0 / 30.0 - 1) * 4000e-6, -0.6);
    add(h, (200.0 / 30.0 - 1) * 1000e-6, 0.7);
}

static void both_holes(double x, by_hand *h)
{
    (void)x;
    *h = (by_hand){2.0, 0.0, 2.0 / 3.0};
    add(h, -2 * PI * 0.01 / 4, -0.6);
    add(h, -PI * 0.0036 / 4, 0.7);
}

static void gross(double x, by_hand *h)
{
    (void)x;
    *h = (by_hand){2.0, 0.0, 2.0 / 3.0};
}

static void section_book_update_has_holes_then_steel(void **state)
{
    (void)state;
    solved s;
    open(&s, "", "");
    assert_rigidities(&s, both_grouted, 30e9, 1e-12);
    for (kl_index t = 0; t < 2; t++) {
        s.results->run.state.tendons[t].phase = KL_TENDON_STRESSED;
    }
    assert_rigidities(&s, both_holes, 30e9, 1e-12);
    s.results->run.state.tendons[0].phase = KL_TENDON_ABSENT;
    assert_rigidities(&s, both_holes, 30e9, 1e-12);
    solved_close(&s);
    open(&s, "sections gross\n", "");
    assert_rigidities(&s, gross, 30e9, 1e-12);
    solved_close(&s);
}

/* From 1 m above to 1 m below the line over 12 m: cos^3 theta of the steel at its own height, all the displaced concrete. */
static void sloping(double x, by_hand *h)
{
    *h = (by_hand){3.0, 0.0, 27.0 / 12.0};
    add(h, 200.0 / 30.0 * 2000e-6 * pow(6.0 / sqrt(37.0), 3) - 2000e-6, 1.0 - x / 6.0);
}

static void section_book_update_of_a_sloping_tendon_has_the_cube_of_the_cosine(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, SLOPING);
    assert_rigidities(&s, sloping, 30e9, 1e-12);
    solved_close(&s);
}

/* Bars 0.15 m below the top, and 0.2 m above the bottom: they take the concrete's place and work as a tendon does. */
static void add_bars(by_hand *h, double share)
{
    add(h, (200.0 / 30.0 - 1) * 5000e-6 * share, 0.85);
    add(h, (200.0 / 30.0 - 1) * 8000e-6 * share, -0.8);
}

#define BARS "; rebar 10 area 500 mm^2 depth 150 mm of s; rebar 10 area 800 mm^2 depth 1.8 m of s"

static void reinforced(double x, by_hand *h)
{
    both_grouted(x, h);
    add_bars(h, 1.0);
}

static void rebar_is_part_of_every_section_but_gross_ones(void **state)
{
    (void)state;
    static const char steel[] = "reinforcing s { yield 420 MPa; modulus 200 GPa }\n";
    char head[200];
    solved s;
    open(&s, steel, BARS);
    by_hand net = {2.0, 0.0, 2.0 / 3.0};
    add(&net, -2 * PI * 0.01 / 4, -0.6);
    add(&net, -PI * 0.0036 / 4, 0.7);
    add_bars(&net, 1.0);
    assert_section(&s, "one", net);
    assert_rigidities(&s, reinforced, 30e9, 1e-12);
    solved_close(&s);
    (void)snprintf(head, sizeof head, "sections gross\n%s", steel);
    open(&s, head, BARS);
    assert_section(&s, "one", (by_hand){2.0, 0.0, 2.0 / 3.0});
    assert_rigidities(&s, gross, 30e9, 1e-12);
    solved_close(&s);
}

/* From a section with bars to one without: they count by the share of the section they belong to. */
static void rebar_fades_from_one_section_to_another(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, "show si\nmaterial oak { modulus 30 GPa; unit_weight 25 kN/m^3 }\n"
                    "reinforcing s { yield 420 MPa; modulus 200 GPa }\n"
                    "section r { rectangle width 1 m depth 2 m }\n"
                    "section full { rectangle width 1 m depth 2 m" BARS " }\n"
                    "node A at (0 m, 0 m)\nnode B at (20 m, 0 m)\n"
                    "member b from A to B of oak { section full at start; section r at end }\n"
                    "support A pinned\nsupport B roller\nstage one { place b }\n");
    by_hand part = {2.0, 0.0, 2.0 / 3.0};
    add_bars(&part, 0.75);
    assert_section(&s, "one", part); /* at 5 m */
    solved_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(kl_section_of_state_is_net_then_transformed),
        cmocka_unit_test(kl_section_of_state_gross_is_gross_throughout),
        cmocka_unit_test(kl_section_of_state_does_not_depend_on_the_line),
        cmocka_unit_test(section_book_update_has_holes_then_steel),
        cmocka_unit_test(section_book_update_of_a_sloping_tendon_has_the_cube_of_the_cosine),
        cmocka_unit_test(rebar_is_part_of_every_section_but_gross_ones),
        cmocka_unit_test(rebar_fades_from_one_section_to_another),
        cmocka_unit_test(section_book_update_is_what_stressing_acts_on),
        cmocka_unit_test(kl_section_of_state_of_a_sloping_tendon_has_the_cube_of_the_cosine),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
