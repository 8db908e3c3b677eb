/* test_results_tendon.c - a tendon as loads on the concrete: in balance whatever friction, set and later changes do.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tendon_beam.h"

/* A parabola, a harped tendon, and two spans with a kink over the support. */
static const tendon_beam beams[] = {
    {.spans = {{.length = 30, .y0 = -0.10, .ym = -0.75, .y1 = -0.10}},
     .count = 1,
     .modulus = 34e9,
     .area = 1.2,
     .inertia = 0.35,
     .to_top = 0.75,
     .to_bottom = 0.95,
     .force = 6e6},
    {.spans = {{.length = 18, .y0 = 0.10, .ym = -0.35, .y1 = 0.20, .harp = 7.2}},
     .count = 1,
     .modulus = 31e9,
     .area = 0.4,
     .inertia = 0.05,
     .to_top = 0.5,
     .to_bottom = 0.5,
     .force = 1.8e6},
    {.spans = {{.length = 18, .y0 = 0.01, .ym = -0.4, .y1 = 0.3},
               {.length = 27, .y0 = 0.3, .ym = -0.5, .y1 = 0.1}},
     .count = 2,
     .modulus = 28e9,
     .area = 0.4,
     .inertia = 0.03,
     .to_top = 0.3,
     .to_bottom = 0.3,
     .force = 2e6},
};

typedef struct resultant {
    double along, across, moment, inside; /* inside: across, without the anchors */
} resultant;

static resultant sum_of_loads(solved *s, kl_state state, kl_index tendon)
{
    const kl_tendon_load *loads;
    kl_index count;
    resultant r = {0.0, 0.0, 0.0, 0.0};
    assert_int_equal(kl_tendon_loads(s->results, state, tendon, &loads, &count), KL_OK);
    assert_true(count > 2);
    for (kl_index i = 0; i < count; i++) {
        double offset = 0.0; /* stations of one member after the other, on one level line */
        for (kl_index m = 0; m < loads[i].member; m++) {
            offset += kl_member_length(s->model, m);
        }
        const bool point = !(loads[i].to > loads[i].from);
        const double length = point ? 1.0 : loads[i].to - loads[i].from;
        const double x = offset + 0.5 * (loads[i].from + loads[i].to);
        r.along += loads[i].along * length;
        r.across += loads[i].across * length;
        r.moment += loads[i].across * length * x + loads[i].moment;
        r.inside += strcmp(loads[i].what, "anchor") == 0 ? 0.0 : loads[i].across * length;
    }
    return r;
}

static void assert_balanced(const resultant *r, double force, double arm)
{
    assert_close(r->along, 0.0, 0.0, 1e-9 * force);
    assert_close(r->across, 0.0, 0.0, 1e-9 * force);
    assert_close(r->moment, 0.0, 0.0, 1e-9 * force * arm);
}

/* Between its anchors a tendon of constant force pushes by P (sin theta_end - sin theta_start). */
static void kl_tendon_loads_balance_and_turn_the_force(void **state)
{
    (void)state;
    for (int k = 0; k < 3; k++) {
        const tendon_beam *b = &beams[k];
        solved s;
        tendon_beam_run(&s, b);
        for (int i = 0; i < b->count; i++) {
            const tendon_span *of = &b->spans[i];
            const resultant r = sum_of_loads(&s, solved_under(&s, "pull"), i);
            assert_balanced(&r, b->force, of->length);
            const double turn =
                sin(atan(tendon_beam_slope(of, of->length))) - sin(atan(tendon_beam_slope(of, 0)));
            assert_close(r.inside, b->force * turn, 1e-7, 0.0);
        }
        solved_close(&s);
    }
}

/* With friction, a set, two members in one line and later changes the set still balances. */
static void kl_tendon_loads_balance_with_friction_and_losses(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, "show si\nmaterial c { modulus 30 GPa; unit_weight 24 kN/m^3 }\n"
                    "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 195 GPa; "
                    "relaxation none }\n"
                    "section g { rectangle width 1 m depth 2 m }\n"
                    "node A at (0 m, 0 m)\nnode B at (14 m, 0 m)\nnode C at (30 m, 0 m)\n"
                    "member b from A to B section g of c\nmember d from B to C section g of c\n"
                    "support A pinned\nsupport B roller\nsupport C roller\n"
                    "tendon T1 in b d { of strand; strands 12 area 150 mm^2; count 2; jack start "
                    "stress 1400 MPa; friction 0.2\n"
                    "wobble 0.001 per m; seating 6 mm; bonded grouted; duct 90 mm offset 12 mm\n"
                    "profile from line { anchor at 0 m height 0.1 m; low at 6 m height -0.6 m; "
                    "inflection at 12 m\n"
                    "high at 14 m height 0.7 m; inflection at 16 m; low at 24 m height -0.7 m; "
                    "anchor at 30 m height 0.2 m } }\n"
                    "load live { uniform 30 kN/m on b d }\n"
                    "stage one { place b d }\nstage two { stress T1 }\nstage three { load live "
                    "}\nstage four { grout T1; lose T1 80 MPa }\n"
                    "stage five { unload live }\n");
    const char *const stages[] = {"two", "three", "four", "five"};
    for (int i = 0; i < 4; i++) {
        const resultant r = sum_of_loads(&s, solved_after(&s, stages[i]), 0);
        assert_balanced(&r, 5.04e6, 30.0);
    }
    solved_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(kl_tendon_loads_balance_and_turn_the_force),
        cmocka_unit_test(kl_tendon_loads_balance_with_friction_and_losses),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
