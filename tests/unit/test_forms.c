/* test_forms.c - who carries fresh concrete: simple spans from carrier to carrier, overhangs by the lever, all by hand.
 *
 * Unless a case says otherwise the member weighs 50 kN/m (1 m by 2 m, 25 kN/m^3).
 * SPDX-License-Identifier: MIT */
#include "forms.h"

#include <math.h>
#include <stdio.h>

#include "solved.h"

#define HEAD                                                                                       \
    "show si\nmaterial oak { modulus 30 GPa; unit_weight 25 kN/m^3 }\n"                            \
    "section r { rectangle width 1 m depth 2 m }\n"                                                \
    "section thin { rectangle width 1 m depth 1 m; line top }\n"                                   \
    "section thick { rectangle width 1 m depth 3 m; line top }\n"                                  \
    "node A at (0 m, 0 m)\nnode B at (12 m, 0 m)\n"
#define ROWS(list) "falsework f under b at " list " { posts 1; stiffness 100 MN/m }\n"
#define POUR       "stage poured { erect f; cast b }\n"

/* What is added to HEAD, and the forces in the rows and at A and B after the pour, kN. */
typedef struct pour_case {
    const char *title, *text;
    double rows[4], at_a, at_b;
} pour_case;

static const pour_case pours[] = {
    {"simple spans between supports",
     "member b from A to B section r of oak\nsupport A pinned\nsupport B roller\n" ROWS(
         "3 m, 6 m, 9 m") POUR,
     {150, 150, 150},
     75,
     75},
    {"uneven spans",
     "member b from A to B section r of oak\nsupport A pinned\nsupport B roller\n" ROWS(
         "2 m, 3 m, 9 m") POUR,
     {75, 175, 225},
     50,
     75},
    {"overhangs at both ends, two rows: total 600 kN at 6 m",
     "member b from A to B section r of oak\nsupport A x fixed\n" ROWS("2 m, 7 m") POUR,
     {120, 480},
     0,
     0},
    /* 0 to 5 m weighs 250 at 2.5 m on rows at 2 and 5; 5 to 12 m weighs 350 at 8.5 m on rows at 5 and 9 */
    {"overhangs belong to their last spans",
     "member b from A to B section r of oak\nsupport A x fixed\n" ROWS("2 m, 5 m, 9 m") POUR,
     {250 - 250 * 0.5 / 3, 250 * 0.5 / 3 + 350 - 350 * 3.5 / 4, 350 * 3.5 / 4},
     0,
     0},
    /* 25 (1 + x/6) kN/m: 225 kN at 10/3 m and 375 kN at 9.2 m */
    {"a tapered member",
     "member b from A to B of oak { section thin at start; section thick at end }\nsupport A "
     "pinned\nsupport B roller\n" ROWS("6 m") POUR,
     {300},
     100,
     200},
    /* a support that a row stands right beside carries, the row does not */
    {"a node before a row",
     "member b from A to B section r of oak\nsupport A pinned\nsupport B roller\n" ROWS(
         "0 m, 6 m, 12 m") POUR,
     {0, 300, 0},
     150,
     150},
};

static void forms_pour_shares_by_simple_spans(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof pours / sizeof pours[0]; i++) {
        const pour_case *c = &pours[i];
        char text[2048];
        solved s;
        (void)snprintf(text, sizeof text, "%s%s", HEAD, c->text);
        solved_open(&s, text);
        const kl_state after = solved_after(&s, "poured");
        for (kl_index r = 0; r < s.model->falsework[0].row_count; r++) {
            assert_close(solved_row(&s, after, "f", r), 1e3 * c->rows[r], 1e-12, 1e-8);
        }
        assert_close(solved_reaction(&s, after, "A", KL_Y), 1e3 * c->at_a, 1e-12, 1e-8);
        for (double x = 0.0; x <= 12.0; x += 1.5) { /* weight and form pressure cancel along it */
            assert_close(solved_value(&s, after, KL_MOMENT, "b", x), 0.0, 0.0, 1e-6);
        }
        solved_close(&s);
    }
}

/* Along a slope of 3 to 4 the member is 15 m long and weighs 750 kN; shares go by x. */
static void forms_pour_on_a_slope_shares_by_x(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD "node E at (12 m, 9 m)\nmember b from A to E section r of oak\nsupport A "
                         "pinned\nsupport E roller\n" ROWS("5 m, 10 m") POUR);
    const kl_state after = solved_after(&s, "poured");
    assert_close(solved_row(&s, after, "f", 0), 250e3, 1e-12, 0.0);
    assert_close(solved_row(&s, after, "f", 1), 250e3, 1e-12, 0.0);
    assert_close(solved_reaction(&s, after, "A", KL_Y), 125e3, 1e-12, 0.0);
    assert_close(solved_reaction(&s, after, "E", KL_Y), 125e3, 1e-12, 0.0);
    solved_close(&s);
}

/* Column heads that stand already are carriers: 0 to 3 m weighs 150 kN at 1.5 m on the row at 0.5 m and the head at 3 m.
 * The heads' shares go down the columns. */
static void forms_pour_puts_shares_on_columns_that_stand(void **state)
{
    (void)state;
    solved s;
    solved_open(
        &s,
        HEAD "node F at (3 m, -8 m)\nnode G at (9 m, -8 m)\nmember b from A to B section r of oak\n"
             "node H on b at 3 m\nnode K on b at 9 m\n"
             "member h from F to H of oak { section r; weightless }\n"
             "member k from G to K of oak { section r; weightless }\nsupport F fixed\nsupport G "
             "fixed\n" ROWS("0.5 m, 6 m, 11.5 m") "stage columns { cast h k }\n" POUR
                                                  "stage clear { release f }\n");
    const kl_state after = solved_after(&s, "poured");
    assert_close(solved_row(&s, after, "f", 0), 90e3, 1e-12, 0.0);
    assert_close(solved_row(&s, after, "f", 1), 150e3, 1e-12, 0.0);
    assert_close(solved_value(&s, after, KL_AXIAL, "h", 4.0), -135e3, 1e-12, 0.0);
    assert_close(solved_reaction(&s, after, "F", KL_Y), 135e3, 1e-12, 0.0);
    assert_close(solved_reaction(&s, after, "G", KL_Y), 135e3, 1e-12, 0.0);
    const kl_state clear = solved_after(&s, "clear");
    assert_close(solved_reaction(&s, clear, "F", KL_Y), 300e3, 1e-10, 0.0);
    solved_close(&s);
}

/* Through a bearing whose base stands the share goes down too, and is the bearing's own force. */
static void forms_pour_goes_through_bearings(void **state)
{
    (void)state;
    solved s;
    solved_open(
        &s, HEAD
        "node F at (0 m, -8 m)\nnode H at (0 m, 0 m)\nmember b from A to B section r of oak\n"
        "member h from F to H of oak { section r; weightless }\nsupport F fixed\nsupport B roller\n"
        "bearing A on H { x fixed; y fixed }\n" ROWS("4 m, 8 m") "stage columns { cast h }\n" POUR
                                                                 "stage clear { release f }\n");
    const kl_state after = solved_after(&s, "poured");
    assert_close(solved_value(&s, after, KL_AXIAL, "h", 4.0), -100e3, 1e-12, 0.0);
    assert_close(solved_reaction(&s, after, "F", KL_Y), 100e3, 1e-12, 0.0);
    assert_close(solved_value(&s, solved_after(&s, "clear"), KL_AXIAL, "h", 4.0), -300e3, 1e-10,
                 0.0);
    solved_close(&s);
}

/* Two members poured together are one line: the span from 3 m to 9 m crosses their joint. Poured one after the other
 * the joint's node stands for the second one. */
static void forms_pour_of_two_members_is_one_line(void **state)
{
    (void)state;
#define TWO                                                                                        \
    HEAD "node E at (6 m, 0 m)\nmember b from A to E section r of oak\n"                           \
         "member c from B to E section r of oak\nsupport A pinned\nsupport B roller\n"             \
         "falsework f under b at 3 m { posts 1; stiffness 100 MN/m }\n"                            \
         "falsework g under c at 3 m { posts 1; stiffness 100 MN/m }\n"
    solved s;
    solved_open(&s, TWO "stage poured { erect f g; cast b c }\n");
    kl_state after = solved_after(&s, "poured");
    assert_close(solved_row(&s, after, "f", 0), 225e3, 1e-12, 0.0);
    assert_close(solved_row(&s, after, "g", 0), 225e3, 1e-12, 0.0);
    assert_close(solved_reaction(&s, after, "A", KL_Y), 75e3, 1e-12, 0.0);
    solved_close(&s);
    solved_open(&s, TWO "stage one { erect f; cast b }\nstage poured { erect g; cast c }\n");
    after = solved_after(&s, "one");
    /* 300 kN at 3 m on A and the row at 3 m: the overhang hangs on the row alone */
    assert_close(solved_row(&s, after, "f", 0), 300e3, 1e-12, 0.0);
    assert_close(solved_reaction(&s, after, "A", KL_Y), 0.0, 0.0, 1e-8);
    after = solved_after(&s, "poured");
    assert_close(solved_row(&s, after, "g", 0), 150e3, 1e-12, 0.0);
    assert_close(solved_reaction(&s, after, "B", KL_Y), 75e3, 1e-12, 0.0);
    /* 75 kN on the joint's node: the first member turns about A on its row, so the row takes 75 * 6 / 3 */
    assert_close(solved_row(&s, after, "f", 0), 450e3, 1e-10, 0.0);
    assert_close(solved_reaction(&s, after, "A", KL_Y), -75e3, 1e-12, 0.0);
    solved_close(&s);
}

static void forms_pour_refuses_forms_that_cannot_stand(void **state)
{
    (void)state;
    const struct {
        const char *text, *message;
    } rows[] = {
        /* 600 kN at 6 m beyond rows at 3 m and 5 m: -300 on the first */
        {HEAD "member b from A to B section r of oak\nsupport A x fixed\n" ROWS("3 m, 5 m") POUR,
         "form-tips"},
        {HEAD "member b from A to B section r of oak\nsupport A x fixed\n" ROWS("6 m") POUR,
         "form-without-carriers"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        solved s;
        (void)solved_refused(&s, rows[i].text, KL_BAD_MODEL, rows[i].message);
        solved_close(&s);
    }
    solved
        s; /* a form that is rooted in standing concrete: told, not refused. 600 kN at 6 m, carriers at 0 and 5 m */
    solved_open(&s, HEAD
                "node F at (0 m, -8 m)\nmember b from A to B section r of oak\n"
                "member h from F to A of oak { section r; weightless }\nsupport F fixed\n" ROWS(
                    "5 m") "stage columns { cast h }\n" POUR);
    assert_non_null(solved_message(&s, "form-cantilever"));
    assert_close(solved_row(&s, solved_after(&s, "poured"), "f", 0), 720e3, 1e-12, 0.0);
    assert_close(solved_reaction(&s, solved_after(&s, "poured"), "F", KL_Y), -120e3, 1e-10, 0.0);
    solved_close(&s);
}

/* Every release conserves the load: after each step rows and supports carry 600 kN at 6 m together; at the end the
 * wet shares of the supports (75 kN straight into them) and the beam's own 600 - 150 kN. */
static void forms_strike_beside_conserves_load_and_moment(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD
                "member b from A to B section r of oak\nsupport A pinned\nsupport B roller\n" ROWS(
                    "2 m, 5 m, 7 m, 10 m") POUR
                "stage a { release f from 4 m to 6 m }\nstage bb { release f from 9 m to 11 m }\n"
                "stage c { release f from 1 m to 3 m }\nstage d { release f }\n");
    const double x[] = {2, 5, 7, 10};
    const char *const stages[] = {"poured", "a", "bb", "c", "d"};
    for (int i = 0; i < 5; i++) {
        const kl_state after = solved_after(&s, stages[i]);
        const double b = solved_reaction(&s, after, "B", KL_Y);
        double sum = solved_reaction(&s, after, "A", KL_Y) + b;
        double moment = 12.0 * b;
        for (kl_index r = 0; r < 4; r++) {
            sum += solved_row(&s, after, "f", r);
            moment += x[r] * solved_row(&s, after, "f", r);
        }
        assert_close(sum, 600e3, 1e-10, 0.0);
        assert_close(moment, 3600e3, 1e-10, 0.0);
    }
    /* all struck: the wet shares of A and B went into the supports and the beam carries its whole weight */
    const kl_state clear = solved_after(&s, "d");
    assert_close(solved_value(&s, clear, KL_MOMENT, "b", 6.0), 50e3 * 144.0 / 8, 1e-10, 0.0);
    solved_close(&s);
}

/* A row that has lifted carries no form any more: the member held its share up. Striking the span beside it relieves the
 * member, not the row. 2000 kN up at midspan lift the middle row; the rest stays in balance through every release. */
static void forms_strike_beside_a_lifted_row_relieves_the_member(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD
                "member b from A to B section r of oak\nsupport A pinned\nsupport B roller\n" ROWS(
                    "3 m, 6 m, 9 m") "load lift { point 2000 kN on b at mid up }\n" POUR
                                     "stage lifted { load lift }\nstage one { release f from 2 m "
                                     "to 4 m }\nstage clear { release f }\n");
    const char *const stages[] = {"lifted", "one", "clear"};
    for (int i = 0; i < 3; i++) {
        const kl_state after = solved_after(&s, stages[i]);
        double sum = solved_reaction(&s, after, "A", KL_Y) + solved_reaction(&s, after, "B", KL_Y);
        double moment = 12.0 * solved_reaction(&s, after, "B", KL_Y);
        for (kl_index r = 0; r < 3; r++) {
            sum += solved_row(&s, after, "f", r);
            moment += 3.0 * (r + 1) * solved_row(&s, after, "f", r);
        }
        assert_close(solved_row(&s, after, "f", 1), 0.0, 0.0, 1e-9);
        assert_close(sum, 600e3 - 2000e3, 1e-11, 0.0);
        assert_close(moment, 6.0 * (600e3 - 2000e3), 1e-11, 0.0);
    }
    assert_close(solved_value(&s, solved_after(&s, "clear"), KL_MOMENT, "b", 6.0),
                 900e3 - 2000e3 * 3.0, 1e-11, 0.0);
    solved_close(&s);
}

/* One row of three released: 3 m to 9 m weighs on the beam, half a span's share comes off the rows beside. By the force
 * method on the beam on two springs: R = 75 kN + k (sag), sag = d_w - d_1 (R - 75 kN) at 3 m from the ends. */
static double
simple_beam_influence(double l, double x, double a) /* sag at x of a unit load at a, times EI */
{
    const double b = l - a;
    return x <= a ? b * x * (l * l - b * b - x * x) / (6 * l) : simple_beam_influence(l, l - x, b);
}

static void forms_strike_beside_one_row_is_a_beam_on_springs(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD
                "member b from A to B section r of oak\nsupport A pinned\nsupport B roller\n" ROWS(
                    "3 m, 6 m, 9 m") POUR "stage one { release f from 5 m to 7 m }\n");
    const double ei = 30e9 * 8.0 / 12.0;
    double sag =
        0.0; /* of 50 kN/m from 3 m to 9 m: Simpson, exact enough at a thousandth of the span */
    for (int i = 0; i <= 1000; i++) {
        const double w = 6.0 / 3000.0 * (i == 0 || i == 1000 ? 1 : i % 2 ? 4 : 2);
        sag += w * 50e3 * simple_beam_influence(12.0, 3.0, 3.0 + 6.0 * i / 1000.0) / ei;
    }
    const double give = (simple_beam_influence(12, 3, 3) + simple_beam_influence(12, 3, 9)) / ei;
    const double change = sag / (1.0 / 100e6 + give);
    const kl_state after = solved_after(&s, "one");
    assert_close(solved_row(&s, after, "f", 0), 75e3 + change, 1e-9, 0.0);
    assert_close(solved_row(&s, after, "f", 1), 0.0, 0.0, 1e-9);
    assert_close(solved_row(&s, after, "f", 2), 75e3 + change, 1e-9, 0.0);
    assert_close(solved_value(&s, after, KL_DEFLECTION, "b", 3.0), -change / 100e6, 1e-9, 0.0);
    solved_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(forms_pour_shares_by_simple_spans),
        cmocka_unit_test(forms_pour_on_a_slope_shares_by_x),
        cmocka_unit_test(forms_pour_puts_shares_on_columns_that_stand),
        cmocka_unit_test(forms_pour_goes_through_bearings),
        cmocka_unit_test(forms_pour_of_two_members_is_one_line),
        cmocka_unit_test(forms_pour_refuses_forms_that_cannot_stand),
        cmocka_unit_test(forms_strike_beside_conserves_load_and_moment),
        cmocka_unit_test(forms_strike_beside_a_lifted_row_relieves_the_member),
        cmocka_unit_test(forms_strike_beside_one_row_is_a_beam_on_springs),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
