/* test_results_shape.c - what pictures ask of the solver: outlines of sections, points of tendons, laws of the concrete.
 * SPDX-License-Identifier: MIT */
#include "bound_text.h"

#include <math.h>
#include <string.h>

#include "solved.h"

#define MIX                                                                                        \
    "site { humidity 70 % }\n"                                                                     \
    "concrete mix { strength 6 ksi; transfer_strength 5 ksi; unit_weight 150 pcf; modulus 4000 "   \
    "ksi; creep aashto 2020; shrinkage aashto 2020; cured 7 day }\n"                               \
    "prestressing strand { ultimate 270 ksi; yield 243 ksi; modulus 28500 ksi; relaxation none "   \
    "}\n"

/* A member of each shape, and one that tapers from a small tee to a large one. */
static const char shapes_text[] =
    MIX "section r { rectangle width 2 ft depth 3 ft }\n"
        "section t { tee width 6 ft flange_thickness 8 in web_width 1 ft depth 4 ft }\n"
        "section t2 { tee width 8 ft flange_thickness 12 in web_width 2 ft depth 6 ft }\n"
        "section b { box width 30 ft depth 6 ft cells 3 top_slab 8 in bottom_slab 6 in web_width "
        "12 in overhang 4 ft overhang_edge 6 in; line top }\n"
        "section c { circle diameter 5 ft }\nsection p { pipe diameter 5 ft thickness 6 in }\n"
        "section o { outline (3 ft, 2 ft), (3 ft, 8 ft), (15 ft, 8 ft), (15 ft, 2 ft)\n"
        "  void (4 ft, 3 ft), (4 ft, 7 ft), (14 ft, 7 ft), (14 ft, 3 ft); line bottom }\n"
        "section n { area 4 ft^2; inertia 5 ft^4; volume_to_surface 5 in }\n"
        "node A at (0 ft, 0 ft); node B at (10 ft, 0 ft); node C at (20 ft, 0 ft)\n"
        "node D at (30 ft, 0 ft); node E at (40 ft, 0 ft); node F at (50 ft, 0 ft)\n"
        "node G at (60 ft, 0 ft); node H at (70 ft, 0 ft); node I at (80 ft, 0 ft)\n"
        "member mr from A to B section r of mix\nmember mt from B to C section t of mix\n"
        "member mb from C to D section b of mix\nmember mc from D to E section c of mix\n"
        "member mp from E to F section p of mix\nmember mo from F to G section o of mix\n"
        "member mv from G to H of mix { section t at start; section t2 at end }\n"
        "member mn from H to I section n of mix { weightless }\n"
        "support A fixed\nload live { uniform 1 klf on mr }\n";

/* ---- outlines -------------------------------------------------------------------------------------------- */

typedef struct loop_sums {
    double area, first; /* m^2, m^3: of y */
    double low, high, left, right;
} loop_sums;

/* Twice the area is the sum of the cross products of neighbouring corners. */
static void add_loop(const kl_polygon *loop, double sign, loop_sums *sums)
{
    for (kl_index i = 0; i < loop->count; i++) {
        const kl_point p = loop->points[i];
        const kl_point q = loop->points[(i + 1) % loop->count];
        const double cross = p.x * q.y - q.x * p.y;
        sums->area += sign * 0.5 * cross;
        sums->first += sign * cross * (p.y + q.y) / 6.0;
        sums->low = fmin(sums->low, p.y);
        sums->high = fmax(sums->high, p.y);
        sums->left = fmin(sums->left, p.x);
        sums->right = fmax(sums->right, p.x);
    }
}

static loop_sums outline_at(const solved *s, const char *member, double station)
{
    const kl_section_outline *outline;
    assert_int_equal(kl_section_outline_at(s->results, solved_index(s, KL_KIND_MEMBER, member),
                                           station, KL_RIGHT, &outline),
                     KL_OK);
    loop_sums sums = {.low = HUGE_VAL, .high = -HUGE_VAL, .left = HUGE_VAL, .right = -HUGE_VAL};
    add_loop(&outline->outer, 1.0, &sums);
    for (kl_index i = 0; i < outline->void_count; i++) {
        add_loop(&outline->voids[i], -1.0, &sums);
    }
    return sums;
}

static void kl_section_outline_at_holds_the_area_at_its_height(void **state)
{
    (void)state;
    /* a polygon of n corners on a circle has n/2 sin(2 pi / n) / pi of its area */
    const double round = KL_ROUND_SIDES / (2.0 * PI) * sin(2.0 * PI / KL_ROUND_SIDES);
    const struct {
        const char *member;
        double share, width;
    } cases[] = {{"mr", 1.0, 2.0},   {"mt", 1.0, 6.0},  {"mb", 1.0, 30.0}, {"mc", round, 5.0},
                 {"mp", round, 5.0}, {"mo", 1.0, 12.0}, {"mv", 1.0, 6.8}};
    solved s;
    solved_open(&s, shapes_text);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const double station = 4.0 * FT; /* 0.4 of the taper */
        const loop_sums sums = outline_at(&s, cases[i].member, station);
        kl_section_values v;
        assert_int_equal(kl_section_at_station(s.results,
                                               solved_index(&s, KL_KIND_MEMBER, cases[i].member),
                                               station, KL_RIGHT, &v),
                         KL_OK);
        assert_close(sums.area, cases[i].share * v.area, 1e-12, 0.0);
        assert_close(sums.first / sums.area, v.centroid, 0.0, 1e-12);
        assert_close(sums.high, v.centroid + v.to_top, 0.0, 1e-12);
        assert_close(sums.low, v.centroid - v.to_bottom, 0.0, 1e-12);
        assert_close(sums.right - sums.left, cases[i].width * FT, 1e-12, 0.0);
        assert_close(sums.right + sums.left, 0.0, 0.0, 1e-12);
    }
    solved_close(&s);
}

/* The deck hangs from its line, the outline stands on it. */
static void kl_section_outline_at_counts_from_the_line(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, shapes_text);
    assert_close(outline_at(&s, "mb", 1.0).high, 0.0, 0.0, 1e-12);
    assert_close(outline_at(&s, "mo", 1.0).low, 0.0, 0.0, 1e-12);
    const kl_section_outline *outline;
    assert_int_equal(kl_section_outline_at(s.results, solved_index(&s, KL_KIND_MEMBER, "mn"), 0.0,
                                           KL_RIGHT, &outline),
                     KL_NOT_THERE);
    solved_close(&s);
}

static void kl_section_mix_at_tells_between_what(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, shapes_text);
    const kl_index taper = solved_index(&s, KL_KIND_MEMBER, "mv");
    const kl_section_mix mix = kl_section_mix_at(s.model, taper, 4.0 * FT, KL_RIGHT);
    assert_string_equal(s.model->sections[mix.a].name, "t");
    assert_string_equal(s.model->sections[mix.b].name, "t2");
    assert_close(mix.share, 0.4, 1e-12, 0.0);
    const kl_section_mix same =
        kl_section_mix_at(s.model, solved_index(&s, KL_KIND_MEMBER, "mr"), 1.0, KL_RIGHT);
    assert_int_equal(same.a, same.b);
    assert_close(same.share, 0.0, 0.0, 0.0);
    solved_close(&s);
}

/* 2 ft by 3 ft: 6 ft^2 over 10 ft. */
static void kl_section_at_station_tells_volume_to_surface(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, shapes_text);
    kl_section_values v;
    assert_int_equal(
        kl_section_at_station(s.results, solved_index(&s, KL_KIND_MEMBER, "mr"), 1.0, KL_RIGHT, &v),
        KL_OK);
    assert_close(v.volume_to_surface, 0.6 * FT, 1e-12, 0.0);
    solved_close(&s);
}

/* ---- tendons --------------------------------------------------------------------------------------------- */

/* y = -1 ft + 2 ft (2 x / L - 1)^2 over 40 ft in a section of 3 ft: the parabola from 1 ft above the line to 1 ft below. */
static void kl_tendon_point_at_lies_on_the_parabola(void **state)
{
    (void)state;
    solved s;
    solved_open(&s,
                MIX "section r { rectangle width 2 ft depth 3 ft }\nnode A at (0 ft, 0 ft); node B "
                    "at (40 ft, 0 ft)\nmember beam from A to B section r of mix\nsupport A pinned; "
                    "support B roller\n"
                    "tendon T in beam { of strand; strands 7 area 0.217 in^2; profile from line { "
                    "anchor at start height 1 ft; low at mid height -1 ft; anchor at end height 1 "
                    "ft }\n"
                    "friction 0; wobble 0 per ft; seating 0 in; jack start ratio 0.7; bonded "
                    "grouted; duct 3 in }\nload pull { stress T }\n");
    for (int i = 0; i <= 16; i++) {
        const double x = 40.0 * i / 16.0;
        const double u = x / 20.0 - 1.0;
        const double y = -1.0 + 2.0 * u * u;
        kl_tendon_point p;
        assert_int_equal(kl_tendon_point_at(s.results, 0, x * FT, KL_RIGHT, &p), KL_OK);
        assert_close(p.height, y * FT, 0.0, 1e-12);
        assert_close(p.eccentricity, y * FT, 0.0, 1e-12);
        assert_close(p.above_bottom, (y + 1.5) * FT, 0.0, 1e-12);
        assert_close(p.below_top, (1.5 - y) * FT, 0.0, 1e-12);
        assert_close(tan(p.slope), 0.2 * u, 0.0, 1e-12);
        assert_close(p.after_seating, 0.7 * 270 * KSI * 7 * 0.217 * INCH * INCH, 1e-9, 0.0);
    }
    kl_tendon_point p;
    assert_int_equal(kl_tendon_point_at(s.results, 0, -0.1, KL_RIGHT, &p), KL_NOT_THERE);
    assert_int_equal(kl_tendon_point_at(s.results, 0, 40.1 * FT, KL_RIGHT, &p), KL_NOT_THERE);
    solved_close(&s);
}

/* ---- laws ------------------------------------------------------------------------------------------------ */

/* AASHTO LRFD 2020 5.4.2.3 as written in aashto_2020.h, from memory, for V/S 7.2 in (ks = 1.45 - 0.13 V/S, at least 1), H 70 %,
 * f'ci 5 ksi: k_hc = 1.56 - 0.56 = 1, k_hs = 2 - 0.98 = 1.02, k_f = 5/6, k_td = t / (12 (80/25) + t). */
static double aashto_psi(double since, double loading)
{
    return 1.9 * 1.0 * (5.0 / 6.0) * since / (38.4 + since) * pow(loading, -0.118);
}

static void kl_creep_of_member_is_the_law_of_its_concrete(void **state)
{
    (void)state;
    solved s;
    kl_settings half = kl_settings_default();
    half.creep_factor = 0.5;
    half.shrinkage_factor = 0.5;
    for (int i = 0; i < 2; i++) {
        solved_run(&s, shapes_text, i == 0 ? NULL : &half);
        const double factor = i == 0 ? 1.0 : 0.5;
        const kl_index member = solved_index(&s, KL_KIND_MEMBER, "mr");
        double phi;
        double j;
        double strain;
        assert_int_equal(kl_creep_of_member(s.results, member, 14 * KL_DAY, 114 * KL_DAY, &phi, &j),
                         KL_OK);
        assert_close(phi, factor * aashto_psi(100.0, 14.0), 1e-9, 0.0);
        assert_close(j, (1.0 + phi) / (4000 * KSI), 1e-9, 0.0);
        assert_int_equal(kl_creep_of_member(s.results, member, 14 * KL_DAY, 14 * KL_DAY, &phi, &j),
                         KL_OK);
        assert_close(j, 1.0 / (4000 * KSI), 1e-12, 0.0);
        assert_int_equal(kl_shrinkage_of_member(s.results, member, 107 * KL_DAY, &strain), KL_OK);
        const double shrunk = 1.02 * (5.0 / 6.0) * 0.48e-3 * 100.0 / (38.4 + 100.0);
        assert_close(strain, -factor * shrunk, 1e-9, 0.0);
        solved_close(&s);
    }
}

static void kl_creep_of_member_without_a_law_is_not_there(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, "material e { modulus 4000 ksi }\nsection r { rectangle width 2 ft depth 3 ft "
                    "}\nnode A at (0 ft, 0 ft); node B at (40 ft, 0 ft)\nmember beam from A to B "
                    "section r of e { weightless }\nsupport A pinned; support B roller\nload w { "
                    "uniform 1 klf on beam }\n");
    double phi;
    double j;
    assert_int_equal(kl_creep_of_member(s.results, 0, KL_DAY, KL_DAY, &phi, &j), KL_NOT_THERE);
    assert_int_equal(kl_shrinkage_of_member(s.results, 0, KL_DAY, &j), KL_NOT_THERE);
    assert_false(kl_material_ages(s.model, 0));
    solved_close(&s);
}

/* f'c(t) = f'c t / (4 + 0.85 t), ACI 209R-92 2.2.1, so f(7) / f(28) = (7 / 9.95) / (28 / 27.8). */
static void kl_material_at_age_gains_strength(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, shapes_text);
    double modulus;
    double at_7;
    double at_28;
    kl_material_at_age(s.model, 0, 7 * KL_DAY, &modulus, &at_7);
    kl_material_at_age(s.model, 0, 28 * KL_DAY, &modulus, &at_28);
    assert_close(at_7 / at_28, (7 / 9.95) / (28 / 27.8), 1e-9, 0.0);
    assert_close(modulus, 4000 * KSI, 1e-12, 0.0);
    assert_true(kl_material_ages(s.model, 0));
    kl_material_at_age(s.model, 1, 7 * KL_DAY, &modulus, &at_7);
    assert_true(isnan(at_7)); /* strand */
    assert_false(kl_material_ages(s.model, 1));
    solved_close(&s);
}

/* 25 kN/m over 16 m, 200 kN on the tip, on bearings 10 m apart: B takes 400 x 8/10 + 200 x 16/10 = 640 kN, A the rest. */
static void kl_bearing_force_is_what_the_base_puts_on_the_node(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, "show si\nconcrete mix { unit_weight 25 kN/m^3; modulus 33 GPa }\n"
                    "section block { rectangle width 1 m depth 1 m }\n"
                    "node A at (0 m, 0 m)\nnode T at (10 m, 0 m)\nnode C at (16 m, 0 m)\n"
                    "node U at (0 m, 0 m)\nnode F at (10 m, -8 m)\nnode G at (0 m, -8 m)\n"
                    "member span from A to C section block of mix\nnode B on span at 10 m\n"
                    "member pier from F to T section block of mix\n"
                    "member end_pier from G to U section block of mix\n"
                    "support F fixed\nsupport G fixed\n"
                    "bearing B on T { x fixed; y fixed }\nbearing A on U { y 1000 MN/m }\n"
                    "load tip { point 200 kN on span at end }\n"
                    "stage built at 0 day { place pier end_pier span }\n"
                    "stage loaded at 1 day { load tip }\n");
    static const double up[2][2] = {{320e3, 80e3}, {640e3, -40e3}};
    static const char *const stages[2] = {"built", "loaded"};
    for (int i = 0; i < 2; i++) {
        for (kl_index bearing = 0; bearing < 2; bearing++) {
            double force = NAN;
            assert_int_equal(
                kl_bearing_force(s.results, solved_after(&s, stages[i]), bearing, KL_Y, &force),
                KL_OK);
            assert_close(force, up[i][bearing], 1e-9, 0.0);
        }
    }
    double force = NAN;
    assert_int_equal(kl_bearing_force(s.results, kl_state_step(99), 0, KL_Y, &force), KL_NOT_THERE);
    solved_close(&s);
}

/* ---- supports ---------------------------------------------------------------------------------------------- */

/* What holds where, stage by stage as the text says it, and that no reaction is left where nothing holds. */
static void kl_support_holds_follows_the_stages(void **state)
{
    (void)state;
    static const char text[] =
        "material oak { modulus 1600 ksi; unit_weight 35 pcf }\n"
        "section r { rectangle width 1 ft depth 1 ft }\n"
        "node A at (0 ft, 0 ft); node B at (20 ft, 0 ft); node C at (40 ft, 0 ft)\n"
        "member ab from A to B section r of oak\nmember bc from B to C section r of oak\n"
        "support A fixed; support C x free y fixed turn 1e3 kip-ft/rad\n"
        "load w { uniform 1 klf on ab bc }\n"
        "stage set at 0 day { place ab bc }\n"
        "stage prop at 1 day { support B { y push up }; load w }\n"
        "stage slide at 2 day { support C { x fixed }; free A x turn }\n"
        "stage gone at 3 day { free B; free C turn }\n"
        "combination all { factor 1 of w }\n";
    /* supports in the order of the text: A; C; B of prop; C of slide */
    static const struct {
        const char *stage;
        kl_hold_kind kind[4][3];
    } cases[] = {
        {"set", {{KL_FIXED, KL_FIXED, KL_FIXED}, {KL_FREE, KL_FIXED, KL_SPRING}}},
        {"prop",
         {{KL_FIXED, KL_FIXED, KL_FIXED}, {KL_FREE, KL_FIXED, KL_SPRING}, {0, KL_PUSH_PLUS, 0}}},
        {"slide",
         {{KL_FREE, KL_FIXED, KL_FREE},
          {KL_FREE, KL_FIXED, KL_SPRING},
          {0, KL_PUSH_PLUS, 0},
          {KL_FIXED, KL_FREE, KL_FREE}}},
        {"gone",
         {{KL_FREE, KL_FIXED, KL_FREE},
          {KL_FREE, KL_FIXED, KL_FREE},
          {0},
          {KL_FIXED, KL_FREE, KL_FREE}}},
    };
    solved s;
    solved_open(&s, text);
    kl_hold hold[3];
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const kl_state after = solved_after(&s, cases[i].stage);
        bool held[3][3] = {{false}}; /* of A, B, C */
        for (kl_index k = 0; k < 4; k++) {
            assert_int_equal(kl_support_holds(s.results, after, k, hold), KL_OK);
            for (int d = 0; d < 3; d++) {
                assert_int_equal(hold[d].kind, cases[i].kind[k][d]);
                held[s.model->supports[k].node][d] |= hold[d].kind != KL_FREE;
            }
        }
        for (kl_index n = 0; n < 3; n++) {
            for (int d = 0; d < 3; d++) {
                double force = 0.0;
                kl_reaction(s.results, after, n, (kl_direction)d, &force);
                assert_true(held[n][d] || fabs(force) < 1e-6);
            }
        }
    }
    kl_support_holds(s.results, solved_after(&s, "set"), 1, hold);
    assert_close(hold[KL_TURN].stiffness, 1e3 * KIP * FT, 1e-12, 0.0);
    assert_int_equal(kl_support_holds(s.results, kl_state_combination(0), 1, hold), KL_OK);
    assert_int_equal(hold[KL_TURN].kind, KL_FREE); /* as after the last stage */
    assert_int_equal(kl_support_holds(s.results, kl_state_step(99), 0, hold), KL_NOT_THERE);
    solved_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(kl_section_outline_at_holds_the_area_at_its_height),
        cmocka_unit_test(kl_section_outline_at_counts_from_the_line),
        cmocka_unit_test(kl_section_mix_at_tells_between_what),
        cmocka_unit_test(kl_section_at_station_tells_volume_to_surface),
        cmocka_unit_test(kl_tendon_point_at_lies_on_the_parabola),
        cmocka_unit_test(kl_creep_of_member_is_the_law_of_its_concrete),
        cmocka_unit_test(kl_creep_of_member_without_a_law_is_not_there),
        cmocka_unit_test(kl_material_at_age_gains_strength),
        cmocka_unit_test(kl_bearing_force_is_what_the_base_puts_on_the_node),
        cmocka_unit_test(kl_support_holds_follows_the_stages),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
