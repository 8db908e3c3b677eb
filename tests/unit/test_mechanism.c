/* test_mechanism.c - what moves is told by node or place and direction; what merely bends far is not called a
 * mechanism.
 * SPDX-License-Identifier: MIT */
#include "mechanism.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "solved.h"

#define HEAD                                                                                       \
    "show si\nmaterial oak { modulus 30 GPa }\nsection r { rectangle width 1 m depth 2 m }\n"      \
    "node A at (0 m, 0 m)\nnode B at (10 m, 0 m)\nnode C at (20 m, 0 m)\nnode D at (30 m, 0 m)\n"
#define LOAD "load l { point 1 kN at B }\n"

typedef struct movement {
    const char *title, *text;
    const char *told[3]; /* pieces of the message; each must be there */
} movement;

static const movement movements[] = {
    {"nothing holds it along",
     HEAD "member b from A to B section r of oak\nsupport A roller\nsupport B roller\n" LOAD,
     {"moves", "nothing stops it", NULL}},
    {"pinned at one end only",
     HEAD "member b from A to B section r of oak\nsupport A pinned\n" LOAD,
     {"node B moves", NULL}},
    {"no support at all",
     HEAD "member b from A to B section r of oak\nload l { point 1 kN at B right }\n",
     {"node", "moves", NULL}},
    {"free to slide up",
     HEAD "member b from A to B section r of oak\nsupport A x fixed turn fixed\nsupport B x "
          "fixed\n" LOAD,
     {"node", "moves", NULL}},
    {"three hinges in a span",
     HEAD "member b from A to B of oak { section r; hinge at 5 m }\nsupport A pinned\nsupport B "
          "pinned\n" LOAD,
     {"member b moves", "at 50 % of its length", NULL}},
    {"hinge over hinge in a chain",
     HEAD "member b from A to B of oak { section r; hinge end }\nmember c from B to C of oak { "
          "section r; hinge end }\n"
          "member d from C to D section r of oak\nsupport A pinned\nsupport D fixed\n" LOAD,
     {"node", "moves", NULL}},
    {"a square of bars without a diagonal",
     HEAD "node E at (0 m, 10 m)\nnode F at (10 m, 10 m)\nmember b from A to E of oak { section r; "
          "axial_only }\n"
          "member c from E to F of oak { section r; axial_only }\nmember d from B to F of oak { "
          "section r; axial_only }\n"
          "support A pinned\nsupport B pinned\nload l { point 1 kN at E right }\n",
     {"node", "moves", NULL}},
    {"a bar's joint in the middle of a straight line",
     HEAD "member b from A to B of oak { section r; axial_only }\nmember c from B to C of oak { "
          "section r; axial_only }\n"
          "support A pinned\nsupport C pinned\n" LOAD,
     {"node B moves", NULL}},
    {"a bearing that lets go sideways",
     HEAD "node P at (10 m, 0 m)\nnode G at (10 m, -9 m)\nmember k from G to B section r of oak\n"
          "member b from A to P section r of oak\nsupport G fixed\nsupport A roller\nbearing P on "
          "B { y fixed }\n" LOAD,
     {"moves", NULL}},
};

static void mechanism_factor_tells_what_moves(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof movements / sizeof movements[0]; i++) {
        const movement *m = &movements[i];
        solved s;
        const char *message = solved_refused(&s, m->text, KL_MECHANISM, "mechanism");
        for (int k = 0; k < 3 && m->told[k]; k++) {
            if (!strstr(message, m->told[k])) {
                fail_msg("%s: \"%s\" does not say \"%s\"", m->title, message, m->told[k]);
            }
        }
        assert_true(solved_message(&s, "mechanism")->origin.file >= 0);
        solved_close(&s);
    }
}

/* A movement in one direction is named by it. */
static void mechanism_factor_tells_the_direction(void **state)
{
    (void)state;
    const struct {
        const char *text, *way, *other;
    } rows[] = {
        {HEAD "member b from A to B section r of oak\nsupport A roller\nsupport B roller\n" LOAD,
         "moves right", "moves left"},
        {HEAD "member b from A to B section r of oak\nsupport A pinned\n" LOAD, "moves up",
         "moves down"},
        {HEAD "member b from A to B section r of oak\nsupport A y fixed\nsupport B roller slope 45 "
              "deg\nload l { point 1 kN at A }\n",
         "moves obliquely", "moves"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        solved s;
        const char *message = solved_refused(&s, rows[i].text, KL_MECHANISM, "mechanism");
        if (!strstr(message, rows[i].way) && !strstr(message, rows[i].other)) {
            fail_msg("\"%s\" does not say \"%s\"", message, rows[i].way);
        }
        solved_close(&s);
    }
}

/* Two beams apart, each without a hold along: one of them is named, by its own node, and the other is not blamed. */
static void mechanism_factor_of_two_names_one_of_them(void **state)
{
    (void)state;
    solved s;
    const char *message = solved_refused(
        &s,
        HEAD
        "node E at (0 m, 90 m)\nnode F at (10 m, 90 m)\nmember b from A to B section r of oak\n"
        "member e from E to F section r of oak\nsupport A roller\nsupport B roller\nsupport E "
        "roller\nsupport F roller\n" LOAD,
        KL_MECHANISM, "mechanism");
    const bool lower =
        strstr(message, "node A") || strstr(message, "node B") || strstr(message, "member b");
    const bool upper =
        strstr(message, "node E") || strstr(message, "node F") || strstr(message, "member e");
    assert_true(lower != upper);
    solved_close(&s);
}

/* ---- what is sound ------------------------------------------------------------------------------------------- */

/* A cantilever cut into n elements has a last pivot of 1/(8 n^3) of its own diagonal, 1e-11 for 2,000: no mechanism,
 * and the tip's P L^3 / 3 EI comes out to rounding although the condition is n^4. */
static void mechanism_factor_of_a_long_cantilever_is_sound(void **state)
{
    (void)state;
    const int counts[] = {100, 1000, 2000};
    for (int i = 0; i < 3; i++) {
        char text[1024];
        solved s;
        (void)snprintf(text, sizeof text,
                       HEAD
                       "member b from A to D of oak { section r; mesh %.9f m }\nsupport A fixed\n"
                       "load l { point 1 kN at D }\n",
                       30.0 / counts[i]);
        solved_open(&s, text);
        const double want = -1e3 * 27000.0 / (3 * 30e9 * 8.0 / 12.0);
        assert_close(solved_node(&s, solved_under(&s, "l"), KL_DEFLECTION, "D"), want, 0.0,
                     1e-11 * fabs(want));
        solved_close(&s);
    }
}

/* Soft and stiff side by side: a spring of 1 N/m, a hundred thousand millionth of the elements' EA/L, holds a beam
 * along; a flagpole of 400 m stands on a pier. */
static void mechanism_factor_of_soft_frames_is_sound(void **state)
{
    (void)state;
    solved s;
    solved_open(
        &s,
        HEAD "member b from A to B section r of oak\nsupport A x 1 N/m y fixed\nsupport B roller\n"
             "load l { point 1 N at B right }\n");
    assert_close(solved_node(&s, solved_under(&s, "l"), KL_SWAY, "A"), 1.0, 1e-9, 0.0);
    solved_close(&s);
    solved_open(
        &s, HEAD
        "section rod { circle diameter 0.02 m }\nnode E at (0 m, 400 m)\nmember b from A to B "
        "section r of oak\n"
        "member e from A to E of oak { section rod; mesh 2 m }\nsupport A fixed\nsupport B fixed\n"
        "load l { point 1 N at E right }\n");
    const double inertia = 3.14159265358979323846 * pow(0.02, 4) / 64;
    assert_close(solved_node(&s, solved_under(&s, "l"), KL_SWAY, "E"), 6.4e7 / (3 * 30e9 * inertia),
                 1e-6, 0.0);
    solved_close(&s);
}

/* A mast of 1,000 m in 400 elements that can turn about its foot but for a spring k there. The last pivot is about k / L^2
 * beside the elements' own 24 EI / l^3. The tip goes by P L^3 / 3 EI + P L^2 / k; where the spring is lost in the
 * rounding of the elements the model is refused in words, and once refused it stays so for softer springs. */
static void mechanism_factor_of_ever_softer_springs_is_sound_or_refused(void **state)
{
    (void)state;
    int sound = 0;
    int uneven = 0;
    for (int decade = 6; decade >= -8; decade--) {
        char text[1024];
        (void)snprintf(text, sizeof text,
                       HEAD "node E at (0 m, 1000 m)\n"
                            "member b from A to E of oak { section r; mesh 2.5 m }\n"
                            "support A { x fixed; y fixed; turn 1e%d kN-m/rad }\n"
                            "load l { point 1e-6 N at E right }\n",
                       decade);
        solved s;
        solved_read_well(&s, text);
        if (solved_analyze(&s, NULL) == KL_OK) {
            const double want = 1e-6 * (1e9 / (3 * 30e9 * 8.0 / 12.0) + 1e6 / pow(10, decade + 3));
            assert_close(solved_node(&s, solved_under(&s, "l"), KL_SWAY, "E"), want, 1e-10, 0.0);
            assert_int_equal(uneven, 0);
            sound++;
        } else {
            assert_int_equal(s.status, KL_NUMERIC);
            const kl_diag *diag = solved_message(&s, "uneven-stiffness");
            assert_true(diag || solved_message(&s, "arithmetic"));
            assert_true(!diag || strstr(diag->message, "member b"));
            uneven += diag ? 1 : 0;
        }
        solved_close(&s);
    }
    assert_true(sound >= 6);
    assert_true(uneven >= 2);
}

/* A joint of bars without rotation, a hinge at a roller, a hinge beside a hinge with the node's rotation gone: sound. */
static void mechanism_factor_of_hinged_frames_is_sound(void **state)
{
    (void)state;
    const char *const texts[] = {
        HEAD "node E at (5 m, 5 m)\nmember b from A to E of oak { section r; axial_only }\n"
             "member c from E to B of oak { section r; axial_only }\nsupport A pinned\nsupport B "
             "pinned\n"
             "load l { point 1 kN at E }\n",
        HEAD "member b from A to B of oak { section r; hinge end }\nmember c from B to C of oak { "
             "section r; hinge start }\n"
             "support A fixed\nsupport B y fixed\nsupport C fixed\n" LOAD,
        HEAD "member b from A to B of oak { section r; hinge start; hinge end }\nsupport A "
             "pinned\nsupport B roller\n"
             "load l { point 1 kN on b at mid }\n",
        HEAD "member b from A to D of oak { section r; hinge at 12 m }\nsupport A pinned\nnode P "
             "on b at 9 m\n"
             "support P roller\nsupport D roller\nload l { point 1 kN on b at 25 m }\n",
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        solved s;
        solved_open(&s, texts[i]);
        solved_close(&s);
    }
}

/* In a stage: the operation that makes the mechanism is told with the stage. */
static void mechanism_factor_in_a_stage_names_the_stage(void **state)
{
    (void)state;
    solved s;
    (void)solved_refused(&s,
                         HEAD
                         "member b from A to B of oak { section r; weightless }\nsupport A fixed\n"
                         "stage one { place b }\nstage two { free A x y turn }\n",
                         KL_MECHANISM, "mechanism");
    assert_non_null(strstr(solved_message(&s, "in-stage")->message, "stage two"));
    solved_close(&s);
}

/* A cap of 20 m on forms and a column, and below it at 15 m a stub that no form carries. */
#define STUB(members, rest)                                                                        \
    "show si\nconcrete mix { modulus 30 GPa; unit_weight 24 kN/m^3 }\n"                            \
    "section s { rectangle width 1 m depth 1 m }\n"                                                \
    "node L at (0 m, 8 m)\nnode R at (20 m, 8 m)\nnode A at (5 m, 0 m)\n"                          \
    "node S at (15 m, 6 m)\n"                                                                      \
    "member cap from L to R section s of mix\nnode C on cap at 5 m\nnode D on cap at 15 m\n"       \
    "member col from A to C section s of mix\nmember stub from D to S section s of mix\n"          \
    "support A fixed\n"                                                                            \
    "falsework f under cap from 1 m to 19 m every 3 m { stiffness 50 kN/mm }\n"                    \
    "stage one { cast col }\nstage two { erect f; " members " }\n" rest

/* Cast with the cap it hangs from nothing; after it, it hangs from the cap. */
static void mechanism_of_a_member_under_fresh_concrete_names_it(void **state)
{
    (void)state;
    static const char *const falling[] = {STUB("cast cap stub", ""), STUB("cast stub cap", ""),
                                          STUB("cast cap stub", "support S roller\n"),
                                          STUB("cast cap stub", "support S pinned\n")};
    for (size_t i = 0; i < sizeof falling / sizeof falling[0]; i++) {
        solved s;
        (void)solved_refused(&s, falling[i], KL_MECHANISM, "mechanism");
        const kl_diag *note = solved_message(&s, "hangs-from-fresh");
        assert_non_null(note);
        assert_non_null(strstr(note->message, "Member stub has no carrier"));
        assert_non_null(strstr(note->hint, "`cast cap; cast stub`"));
        solved_close(&s);
    }
    static const char *const standing[] = {STUB("cast cap; cast stub", ""),
                                           STUB("cast cap; place stub", ""),
                                           STUB("cast cap stub", "support S fixed\n")};
    for (size_t i = 0; i < sizeof standing / sizeof standing[0]; i++) {
        solved s;
        solved_open(&s, standing[i]);
        solved_close(&s);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(mechanism_factor_tells_what_moves),
        cmocka_unit_test(mechanism_factor_tells_the_direction),
        cmocka_unit_test(mechanism_factor_of_two_names_one_of_them),
        cmocka_unit_test(mechanism_factor_of_a_long_cantilever_is_sound),
        cmocka_unit_test(mechanism_factor_of_soft_frames_is_sound),
        cmocka_unit_test(mechanism_factor_of_ever_softer_springs_is_sound_or_refused),
        cmocka_unit_test(mechanism_factor_of_hinged_frames_is_sound),
        cmocka_unit_test(mechanism_factor_in_a_stage_names_the_stage),
        cmocka_unit_test(mechanism_of_a_member_under_fresh_concrete_names_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
