/* test_timeline.c - every operation of the language on a small structure, against values worked out by hand.
 *
 * Unless a case says otherwise: a beam A-B of 12 m, 1 m by 2 m, E = 30 GPa, EA = 60 GN, EI = 20 GN m^2, 50 kN/m.
 * SPDX-License-Identifier: MIT */
#include "timeline.h"

#include <math.h>
#include <string.h>

#include "solved.h"

#define HEAD                                                                                       \
    "show si\nsections gross\n"                                                                    \
    "material oak { modulus 30 GPa; unit_weight 25 kN/m^3; expansion 1e-5 per degC }\n"            \
    "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 200 GPa; relaxation none "   \
    "}\n"                                                                                          \
    "section r { rectangle width 1 m depth 2 m }\n"                                                \
    "node A at (0 m, 0 m)\nnode B at (12 m, 0 m)\n"
#define BEAM "member b from A to B section r of oak\nsupport A pinned\nsupport B roller\n"
#define ROWS "falsework f under b at 3 m, 6 m, 9 m { posts 2; stiffness 50 MN/m }\n"
#define TENDON                                                                                     \
    "tendon T1 in b { of strand; strands 10 area 100 mm^2; jack start force 1000 kN; bonded "      \
    "grouted\n"                                                                                    \
    "profile from line { anchor at start height -0.5 m; anchor at end height -0.5 m straight } "   \
    "}\n"

#define EI 20e9
#define EA 60e9
#define L  12.0
#define W  50e3
#define P  1e6  /* N, jacking force */
#define AE 2e8  /* N, of the tendon: 1000 mm^2, 200 GPa */
#define Y  -0.5 /* m, of the tendon */

static double moment(const solved *s, const char *stage, double x)
{
    return solved_value(s, solved_after(s, stage), KL_MOMENT, "b", x);
}

static double sag(const solved *s, const char *stage, double x)
{
    return solved_value(s, solved_after(s, stage), KL_DEFLECTION, "b", x);
}

static double up(const solved *s, const char *stage, const char *node)
{
    return solved_reaction(s, solved_after(s, stage), node, KL_Y);
}

/* ---- building ------------------------------------------------------------------------------------------------ */

/* Of one cast the column stands first: the cap's wet share goes down it; its own weight too. */
static void operation_cast_sets_upright_members_first(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD "node F at (0 m, -8 m)\nmember b from A to B section r of oak\nmember h "
                         "from F to A section r of oak\n"
                         "support F fixed\nsupport B roller\n" ROWS
                         "stage one { erect f; cast b h }\n");
    assert_close(up(&s, "one", "F"), 8 * W + 75e3, 1e-12, 0.0);
    assert_close(up(&s, "one", "B"), 75e3, 1e-12, 0.0);
    assert_close(solved_value(&s, solved_after(&s, "one"), KL_AXIAL, "h", 8.0), -75e3, 1e-10, 0.0);
    assert_close(solved_row(&s, solved_after(&s, "one"), "f", 1), 150e3, 1e-12, 0.0);
    assert_close(moment(&s, "one", 6.0), 0.0, 0.0, 1e-6);
    solved_close(&s);
}

/* A level member without rows weighs on itself at once. */
static void operation_cast_without_rows_weighs_at_once(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD BEAM "stage one { cast b }\n");
    assert_close(moment(&s, "one", 6.0), W * L * L / 8, 1e-11, 0.0);
    assert_close(sag(&s, "one", 6.0), -5 * W * pow(L, 4) / (384 * EI), 1e-11, 0.0);
    solved_close(&s);
}

/* What arrives hard takes its posts along as springs: three of 100 MN/m at the quarter points. By the force method with
 * the unit sags of a simple beam; wet concrete would have given 150 kN each. */
static double unit_sag(double x, double a)
{
    const double b = L - a;
    return x <= a ? b * x * (L * L - b * b - x * x) / (6 * L * EI) : unit_sag(L - x, b);
}

static double weight_sag(double x)
{
    return W * x * (L * L * L - 2 * L * x * x + x * x * x) / (24 * EI);
}

static void operation_place_stands_on_springs(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD BEAM ROWS "stage one { erect f; place b }\nstage two { release f }\n");
    /* R at 3 m (twice) and Q at 6 m: sag = R/k there */
    const double k = 100e6;
    const double a = unit_sag(3, 3) + unit_sag(3, 9) + 1 / k;
    const double b = unit_sag(3, 6);
    const double c = unit_sag(6, 6) + 1 / k;
    const double det = a * c - 2 * b * b;
    const double outer = (weight_sag(3) * c - weight_sag(6) * b) / det;
    const double middle = (weight_sag(6) * a - 2 * weight_sag(3) * b) / det;
    assert_close(solved_row(&s, solved_after(&s, "one"), "f", 0), outer, 1e-9, 0.0);
    assert_close(solved_row(&s, solved_after(&s, "one"), "f", 1), middle, 1e-9, 0.0);
    assert_close(up(&s, "one", "A"), W * L / 2 - outer - middle / 2, 1e-9, 0.0);
    assert_close(moment(&s, "two", 6.0), W * L * L / 8, 1e-10, 0.0);
    solved_close(&s);
}

/* Removing a member gives its forces back: a hanger at midspan, then none. */
static void operation_remove_gives_its_forces_back(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD BEAM
                "node C on b at mid\nnode D at (6 m, 4 m)\nsupport D pinned\n"
                "member h from C to D of oak { section r; axial_only; weightless }\n"
                "load l { point 100 kN on b at mid }\n"
                "stage one { place b h }\nstage two { load l }\nstage three { remove h }\n");
    const double give = 4.0 / (30e9 * 2.0) + L * L * L / (48 * EI);
    const double hanger = (5 * W * pow(L, 4) / (384 * EI) + 100e3 * L * L * L / (48 * EI)) / give;
    assert_close(solved_value(&s, solved_after(&s, "two"), KL_AXIAL, "h", 2.0), hanger, 1e-10, 0.0);
    assert_close(moment(&s, "three", 6.0), W * L * L / 8 + 100e3 * L / 4, 1e-10, 0.0);
    assert_close(up(&s, "three", "D"), 0.0, 0.0, 1e-6);
    assert_false(kl_member_stands(s.results, solved_after(&s, "three"),
                                  solved_index(&s, KL_KIND_MEMBER, "h")));
    /* cause by cause: what the load had put on the hanger is the load's still */
    assert_close(solved_value(&s, solved_from(solved_after(&s, "three"), KL_CAUSE_WEIGHT),
                              KL_MOMENT, "b", 6.0),
                 W * L * L / 8, 1e-10, 0.0);
    solved_close(&s);
}

/* ---- loads --------------------------------------------------------------------------------------------------- */

static void operation_load_and_unload_are_inverse(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD BEAM "load l { point 100 kN on b at mid; warm 10 degC on b }\n"
                              "stage one { place b }\nstage two { load l times 1.4 }\nstage three "
                              "{ load l }\nstage four { unload l }\n");
    const double weight = W * L * L / 8;
    assert_close(moment(&s, "two", 6.0), weight + 1.4 * 100e3 * L / 4, 1e-11, 0.0);
    assert_close(moment(&s, "three", 6.0), weight + 2.4 * 100e3 * L / 4, 1e-11, 0.0);
    assert_close(moment(&s, "four", 6.0), weight, 1e-11, 0.0);
    solved_close(&s);
}

/* ---- supports and hinges ------------------------------------------------------------------------------------- */

/* A support that comes later is free of stress then, and shares what comes after: half the later load 5/8 w L on two
 * spans. Freed, it leaves the simple beam. */
static void operation_support_is_stress_free_and_free_gives_back(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD BEAM
                "node C on b at mid\nload l { uniform 20 kN/m on b }\n"
                "stage one { place b }\nstage two { support C y fixed }\nstage three { load l }\n"
                "stage four { free C y }\n");
    assert_close(up(&s, "two", "C"), 0.0, 0.0, 1e-9);
    assert_close(up(&s, "three", "C"), 0.625 * 20e3 * L, 1e-10, 0.0);
    assert_close(moment(&s, "three", 6.0), W * L * L / 8 - 20e3 * 36.0 / 8, 1e-9, 0.0);
    assert_close(sag(&s, "three", 6.0), -5 * W * pow(L, 4) / (384 * EI), 1e-10, 0.0);
    assert_close(up(&s, "four", "C"), 0.0, 0.0, 1e-6);
    assert_close(moment(&s, "four", 6.0), (W + 20e3) * L * L / 8, 1e-10, 0.0);
    assert_close(sag(&s, "four", 6.0), -5 * (W + 20e3) * pow(L, 4) / (384 * EI), 1e-10, 0.0);
    solved_close(&s);
}

/* Both ends fixed under weight: w L^2/12. Unlocked at the start: propped, w L^2/8 at the end. Locked again: a later load
 * finds both ends fixed, the weight's moment at the start stays 0. */
static void operation_unlock_and_lock_change_the_system_for_what_follows(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD "member b from A to B section r of oak\nsupport A fixed\nsupport B "
                         "fixed\nload l { uniform 20 kN/m on b }\n"
                         "stage one { place b }\nstage two { unlock b start }\nstage three { lock "
                         "b start }\nstage four { load l }\n");
    assert_close(moment(&s, "one", 0.0), -W * L * L / 12, 1e-11, 0.0);
    assert_close(moment(&s, "two", 0.0), 0.0, 0.0, 1e-6);
    assert_close(moment(&s, "two", 12.0), -W * L * L / 8, 1e-11, 0.0);
    assert_close(solved_reaction(&s, solved_after(&s, "two"), "A", KL_TURN), 0.0, 0.0, 1e-6);
    assert_close(moment(&s, "three", 12.0), -W * L * L / 8, 1e-11, 0.0);
    assert_close(moment(&s, "four", 0.0), -20e3 * L * L / 12, 1e-11, 0.0);
    assert_close(moment(&s, "four", 12.0), -W * L * L / 8 - 20e3 * L * L / 12, 1e-11, 0.0);
    solved_close(&s);
}

/* Inside: a hinge opened at midspan of the fixed beam leaves two cantilevers, w l^2/2 each; closed, then 20 kN/m more. */
static void operation_unlock_inside_leaves_two_cantilevers(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD "member b from A to B section r of oak\nsupport A fixed\nsupport B "
                         "fixed\nload l { uniform 20 kN/m on b }\n"
                         "stage one { place b }\nstage two { unlock b at mid }\nstage three { lock "
                         "b at mid; load l }\n");
    assert_close(moment(&s, "two", 6.0), 0.0, 0.0, 1e-6);
    assert_close(moment(&s, "two", 0.0), -W * 36.0 / 2, 1e-10, 0.0);
    assert_close(sag(&s, "two", 6.0), -W * pow(6.0, 4) / (8 * EI), 1e-10, 0.0);
    assert_close(moment(&s, "three", 6.0), 20e3 * L * L / 24, 1e-10, 0.0);
    solved_close(&s);
}

/* ---- tendons ------------------------------------------------------------------------------------------------- */

/* Straight, 0.5 m below the centroid of a simple beam, no friction, no set: total moment 0, the concrete has -P and
 * P y, the ends turn, camber P e L^2 / 8 EI, shortening P L / EA (at the line). */
static void operation_stress_of_a_straight_tendon(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD BEAM TENDON "stage one { place b }\nstage two { stress T1 }\n");
    const kl_state after = solved_from(solved_after(&s, "two"), KL_CAUSE_PRESTRESS);
    assert_close(solved_value(&s, after, KL_MOMENT, "b", 4.0), 0.0, 0.0, 1e-5);
    assert_close(solved_part(&s, after, KL_CONCRETE_SHARE, KL_MOMENT, "b", 4.0), P * Y, 1e-11, 0.0);
    assert_close(solved_part(&s, after, KL_PRIMARY, KL_MOMENT, "b", 4.0), P * Y, 1e-11, 0.0);
    assert_close(solved_part(&s, after, KL_SECONDARY, KL_MOMENT, "b", 4.0), 0.0, 0.0, 1e-5);
    assert_close(solved_part(&s, after, KL_CONCRETE_SHARE, KL_AXIAL, "b", 4.0), -P, 1e-11, 0.0);
    assert_close(solved_value(&s, after, KL_AXIAL, "b", 4.0), 0.0, 0.0, 1e-5);
    assert_close(solved_value(&s, after, KL_DEFLECTION, "b", 6.0), P * 0.5 * L * L / (8 * EI),
                 1e-11, 0.0);
    assert_close(solved_node(&s, after, KL_SWAY, "B"), -P * L / EA, 1e-10, 0.0);
    assert_close(solved_value(&s, after, KL_STRESS_BOTTOM, "b", 6.0),
                 -P / 2.0 - P * 0.5 / (2.0 / 3.0), 1e-11, 0.0);
    assert_close(solved_value(&s, after, KL_STRESS_TOP, "b", 6.0), -P / 2.0 + P * 0.5 / (2.0 / 3.0),
                 1e-11, 0.0);
    assert_close(solved_force(&s, solved_after(&s, "two"), "T1", 6.0), P, 1e-12, 0.0);
    kl_stressing r;
    assert_int_equal(kl_tendon_stressing(s.results, 0, &r), KL_OK);
    assert_close(r.elongation[0], P * L / AE, 1e-12, 0.0);
    assert_close(r.concrete_shortening, P * L / EA + P * Y * Y * L / EI, 1e-10, 0.0);
    assert_int_equal(kl_step_at(s.results, r.step)->item, 0);
    assert_string_equal(kl_step_at(s.results, r.step)->label, "stress T1");
    solved_close(&s);
}

/* Half the force, then all of it; the sheet shows the full one. Slackened, nothing is left. */
static void operation_stress_in_parts_and_slacken(void **state)
{
    (void)state;
    solved s;
    solved_open(
        &s, HEAD BEAM TENDON
        "stage one { place b }\nstage half { stress T1 to 50 % }\nstage full { stress T1 }\n"
        "stage gone { slacken T1 }\n");
    const double camber = P * 0.5 * L * L / (8 * EI);
    const double weight = sag(&s, "one", 6.0);
    assert_close(sag(&s, "half", 6.0) - weight, 0.5 * camber, 1e-10, 0.0);
    assert_close(solved_force(&s, solved_after(&s, "half"), "T1", 6.0), P / 2, 1e-12, 0.0);
    assert_close(sag(&s, "full", 6.0) - weight, camber, 1e-10, 0.0);
    assert_close(solved_force(&s, solved_after(&s, "full"), "T1", 6.0), P, 1e-12, 0.0);
    assert_close(sag(&s, "gone", 6.0), weight, 1e-10, 0.0);
    assert_close(solved_part(&s, solved_after(&s, "gone"), KL_CONCRETE_SHARE, KL_AXIAL, "b", 6.0),
                 0.0, 0.0, 1e-5);
    assert_int_equal(kl_tendon_state(s.results, solved_after(&s, "gone"), 0), KL_TENDON_SLACK);
    kl_stressing r;
    assert_int_equal(kl_tendon_stressing(s.results, 0, &r), KL_OK);
    assert_close(r.jack_force, P, 1e-14, 0.0);
    assert_int_equal(kl_pull_count(s.results), 2);
    for (kl_index i = 0; i < 2; i++) { /* without friction and set each half moves P L / (2 A E) */
        kl_index tendon = KL_NONE;
        assert_int_equal(kl_pull_at(s.results, i, &tendon, &r), KL_OK);
        assert_int_equal(tendon, 0);
        assert_true(r.was_seated == (i == 1));
        assert_close(r.share, 0.5 * (i + 1), 1e-14, 0.0);
        assert_close(r.jack_force, 0.5 * (i + 1) * P, 1e-14, 0.0);
        assert_close(r.elongation[0], P * L / AE / 2, 1e-3, 0.0);
        assert_close(r.before_reference[0], 0.0, 0.0, 1e-15);
    }
    kl_index none;
    assert_int_equal(kl_pull_at(s.results, 2, &none, &r), KL_NOT_THERE);
    solved_close(&s);
}

/* Without stages T2, which the first case stresses, comes first; what the second case stresses again is no other pull. */
static void kl_pull_at_without_stages_tells_each_tendon_once(void **state)
{
    (void)state;
    solved s;
    solved_open(&s,
                HEAD BEAM TENDON "tendon T2 in b { like T1 }\n"
                                 "load first { stress T2 }\nload both { stress T1; stress T2 }\n");
    assert_int_equal(kl_pull_count(s.results), 2);
    for (kl_index i = 0; i < 2; i++) {
        kl_index tendon = KL_NONE;
        kl_stressing r;
        assert_int_equal(kl_pull_at(s.results, i, &tendon, &r), KL_OK);
        assert_int_equal(tendon, 1 - i);
        assert_int_equal(r.step, KL_NONE);
        assert_int_equal(r.load_case, i);
        assert_close(r.elongation[0], P * L / AE, 1e-12, 0.0);
    }
    solved_close(&s);
}

/* An ungrouted tendon follows a moment M all along by one force X: X (L/AE + L/EA + y^2 L/EI) = -y M L/EI. */
static void operation_stress_leaves_a_tendon_that_follows(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD BEAM TENDON
                "load l { moment 800 kN-m at A clockwise; moment 800 kN-m at B }\n"
                "stage one { place b }\nstage two { stress T1 }\nstage three { load l }\n");
    const double m = 800e3;
    const double x = -Y * m / EI / (1 / AE + 1 / EA + Y * Y / EI);
    const kl_state after = solved_after(&s, "three");
    assert_close(solved_force(&s, after, "T1", 3.0), P + x, 1e-11, 0.0);
    assert_close(solved_force(&s, after, "T1", 9.0), P + x, 1e-11, 0.0);
    /* a change of an ungrouted tendon's force is the load's */
    assert_close(
        solved_part(&s, solved_from_case(&s, after, "l"), KL_CONCRETE_SHARE, KL_AXIAL, "b", 6.0),
        -x, 1e-9, 0.0);
    assert_close(solved_part(&s, after, KL_PRIMARY, KL_MOMENT, "b", 6.0), (P + x) * Y, 1e-10, 0.0);
    const double curvature = (m + x * Y) / EI;
    assert_close(solved_value(&s, solved_from_case(&s, after, "l"), KL_DEFLECTION, "b", 6.0),
                 -curvature * L * L / 8, 1e-9, 0.0);
    solved_close(&s);
}

/* Grouted, it follows each section: on the transformed section about the line [[EA', -ES'], [-ES', EI']] (e, k) = (0, M),
 * dP = AE (e - k y). `sections gross` away: net of nothing (no duct), concrete less the steel's area. */
static void operation_grout_makes_the_tendon_follow_each_section(void **state)
{
    (void)state;
    solved s;
    char text[4096] = HEAD BEAM TENDON
        "load l { moment 800 kN-m at A clockwise; moment 800 kN-m at B }\n"
        "stage one { place b }\nstage two { stress T1; grout T1 }\nstage three { load l }\n";
    memset(strstr(text, "sections gross"), ' ', strlen("sections gross"));
    solved_open(&s, text);
    const double ac = 30e9 * 1e-3; /* of the concrete that the steel displaces */
    const double a = EA - ac + AE;
    const double b = (AE - ac) * Y;
    const double c = EI + (AE - ac) * Y * Y;
    const double det = a * c - b * b;
    const double e = 800e3 * b / det;
    const double k = 800e3 * a / det;
    const kl_state after = solved_after(&s, "three");
    assert_close(solved_force(&s, after, "T1", 3.0), P + AE * (e - k * Y), 1e-11, 0.0);
    const kl_state load = solved_from_case(&s, after, "l");
    assert_close(solved_value(&s, load, KL_DEFLECTION, "b", 6.0), -k * L * L / 8, 1e-10, 0.0);
    assert_close(solved_value(&s, load, KL_STRESS_TOP, "b", 6.0), 30e9 * (e - k), 1e-10, 0.0);
    assert_close(solved_value(&s, load, KL_STRESS_BOTTOM, "b", 6.0), 30e9 * (e + k), 1e-10, 0.0);
    assert_int_equal(kl_tendon_state(s.results, after, 0), KL_TENDON_GROUTED);
    solved_close(&s);
}

/* What is left of a change of force put into a straight ungrouted tendon that follows the beam: as it slackens the beam
 * lengthens at its height by (1/EA + y^2/EI) a newton, and stretches it again. */
#define LEFT(force) ((force) / (1.0 + AE * (1.0 / EA + Y * Y / EI)))

/* A lump-sum loss: 100 MPa of 1000 mm^2. The tendon follows this increment like every other but its own stressing. */
static void operation_lose_takes_a_stress_off(void **state)
{
    (void)state;
    solved s;
    solved_open(
        &s, HEAD BEAM TENDON
        "stage one { place b }\nstage two { stress T1 }\nstage three { lose T1 100 MPa }\n");
    const kl_state after = solved_after(&s, "three");
    assert_close(solved_force(&s, after, "T1", 6.0), P - LEFT(100e3), 1e-12, 0.0);
    const kl_state loss = solved_from(after, KL_CAUSE_LOSSES);
    assert_close(solved_part(&s, loss, KL_CONCRETE_SHARE, KL_AXIAL, "b", 6.0), LEFT(100e3), 1e-9,
                 0.0);
    assert_close(solved_value(&s, loss, KL_DEFLECTION, "b", 6.0),
                 -LEFT(100e3) * 0.5 * L * L / (8 * EI), 1e-9, 0.0);
    solved_close(&s);
}

/* A further stress brings the tendon to its force, whatever it has lost or gained since: the loss of 100 MPa and the
 * load's X (see above) are made up. */
static void operation_stress_makes_up_for_changes_since(void **state)
{
    (void)state;
    solved s;
    solved_open(
        &s, HEAD BEAM TENDON
        "load l { moment 800 kN-m at A clockwise; moment 800 kN-m at B }\n"
        "stage one { place b }\nstage half { stress T1 to 50 % }\n"
        "stage less { lose T1 100 MPa }\nstage more { load l }\nstage full { stress T1 }\n");
    const double x = -Y * 800e3 / EI / (1 / AE + 1 / EA + Y * Y / EI);
    assert_close(solved_force(&s, solved_after(&s, "more"), "T1", 6.0), P / 2 - LEFT(100e3) + x,
                 1e-11, 0.0);
    const kl_state full = solved_after(&s, "full");
    assert_close(solved_force(&s, full, "T1", 6.0), P, 1e-12, 0.0);
    assert_close(solved_part(&s, full, KL_CONCRETE_SHARE, KL_AXIAL, "b", 6.0), -P, 1e-11, 0.0);
    assert_close(solved_part(&s, full, KL_CONCRETE_SHARE, KL_MOMENT, "b", 6.0),
                 P * Y + W * L * L / 8 + 800e3, 1e-11, 0.0);
    solved_close(&s);
}

/* A group of n like tendons loses by its own stressing (n-1)/(2n) of what the whole group's shortening would take:
 * AASHTO LRFD 5.9.3.2.3b. The shortening at the tendon is n P (1/EA + y^2/EI). */
static void operation_stress_of_a_group_loses_by_its_own_shortening(void **state)
{
    (void)state;
    solved s;
    char text[4096] = HEAD BEAM TENDON "stage one { place b }\nstage two { stress T1 }\n";
    char *count = strstr(text, "bonded grouted");
    memcpy(count, "count 4       ", strlen("bonded grouted"));
    solved_open(&s, text);
    const double whole = 4 * P * (1 / EA + Y * Y / EI) * AE; /* in one tendon */
    assert_close(solved_force(&s, solved_after(&s, "two"), "T1", 6.0), P - 3.0 / 8.0 * whole, 1e-9,
                 0.0);
    assert_close(solved_part(&s, solved_after(&s, "two"), KL_CONCRETE_SHARE, KL_AXIAL, "b", 6.0),
                 -4 * (P - 3.0 / 8.0 * whole), 1e-9, 0.0);
    solved_close(&s);
}

/* ---- days ---------------------------------------------------------------------------------------------------- */

/* The modulus of the day: f'c(t) = f'c t / (4 + 0.85 t) (ACI 209R-92, normal cement, moist cured), E ~ sqrt f'c
 * (ACI 318-19, 19.2.2.1). Loads at 7 and at 28 + 63 days sag as 1/E. */
static void timeline_run_loads_on_the_modulus_of_the_day(void **state)
{
    (void)state;
    solved s;
    solved_open(
        &s, "show si\nconcrete mix { strength 40 MPa; unit_weight 24 kN/m^3; modulus aci 2019; "
            "creep none; shrinkage none; "
            "gain aci209 1992; cured 7 day }\nsection r { rectangle width 1 m depth 2 m }\n"
            "node A at (0 m, 0 m)\nnode B at (12 m, 0 m)\nmember b from A to B section r of mix\n"
            "support A pinned\nsupport B roller\nload l { point 100 kN on b at mid }\nload k { "
            "point 100 kN on b at mid }\n"
            "stage one at 10 day { cast b }\nstage two at 17 day { load l }\nstage three wait 84 "
            "day { load k }\n");
    const double early = solved_value(&s, solved_from_case(&s, solved_after(&s, "two"), "l"),
                                      KL_DEFLECTION, "b", 6.0);
    const double late = solved_value(&s, solved_from_case(&s, solved_after(&s, "three"), "k"),
                                     KL_DEFLECTION, "b", 6.0);
    const double f7 = 7 / (4 + 0.85 * 7);
    const double f91 = 91 / (4 + 0.85 * 91);
    assert_close(early / late, sqrt(f91 / f7), 1e-10, 0.0);
    /* the earlier load's sag does not change with the modulus */
    assert_close(solved_value(&s, solved_from_case(&s, solved_after(&s, "three"), "l"),
                              KL_DEFLECTION, "b", 6.0),
                 early, 1e-15, 0.0);
    double modulus;
    double strength;
    double age;
    kl_concrete_of_state(s.results, solved_after(&s, "three"), 0, &modulus, &strength, &age);
    assert_close(age, 91 * KL_DAY, 1e-14, 0.0);
    assert_close(strength, 40e6 * f91, 1e-12, 0.0);
    assert_close(late, -100e3 * L * L * L / (48 * modulus * 8.0 / 12.0), 1e-10, 0.0);
    solved_close(&s);
}

/* Steps: one an operation, one a tendon of a list; a stage without operations is one that looks. */
static void timeline_run_makes_a_step_of_each_operation(void **state)
{
    (void)state;
    solved s;
    solved_open(
        &s, HEAD BEAM TENDON ROWS
        "tendon T2 like T1 { raise 0.2 m }\n"
        "stage one { erect f; cast b }\nstage two { stress T1 T2; grout T1 T2 }\nstage look\n"
        "stage three { release f }\n");
    const char *const labels[] = {"erect f",  "cast b",   "stress T1", "stress T2",
                                  "grout T1", "grout T2", "",          "release f"};
    assert_int_equal(kl_step_count(s.results), 8);
    for (kl_index i = 0; i < 8; i++) {
        assert_string_equal(kl_step_at(s.results, i)->label, labels[i]);
    }
    assert_int_equal(kl_first_step(s.results, 1), 2);
    assert_int_equal(kl_last_step(s.results, 1), 5);
    assert_int_equal(kl_last_step(s.results, 2), 6);
    solved_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(operation_cast_sets_upright_members_first),
        cmocka_unit_test(operation_cast_without_rows_weighs_at_once),
        cmocka_unit_test(operation_place_stands_on_springs),
        cmocka_unit_test(operation_remove_gives_its_forces_back),
        cmocka_unit_test(operation_load_and_unload_are_inverse),
        cmocka_unit_test(operation_support_is_stress_free_and_free_gives_back),
        cmocka_unit_test(operation_unlock_and_lock_change_the_system_for_what_follows),
        cmocka_unit_test(operation_unlock_inside_leaves_two_cantilevers),
        cmocka_unit_test(operation_stress_of_a_straight_tendon),
        cmocka_unit_test(operation_stress_in_parts_and_slacken),
        cmocka_unit_test(kl_pull_at_without_stages_tells_each_tendon_once),
        cmocka_unit_test(operation_stress_leaves_a_tendon_that_follows),
        cmocka_unit_test(operation_grout_makes_the_tendon_follow_each_section),
        cmocka_unit_test(operation_lose_takes_a_stress_off),
        cmocka_unit_test(operation_stress_makes_up_for_changes_since),
        cmocka_unit_test(operation_stress_of_a_group_loses_by_its_own_shortening),
        cmocka_unit_test(timeline_run_loads_on_the_modulus_of_the_day),
        cmocka_unit_test(timeline_run_makes_a_step_of_each_operation),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
