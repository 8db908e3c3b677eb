/* test_law_peaks.c - a peak is passed by no value of its course, and is a value of it.
 *
 * The search leaves out elements and stretches that cannot hold the peak; looking at many stations cannot.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "readings.h"

#define LOOKS 480 /* stations looked at along a member */

/* A cap with moments of both signs on and off its posts, rigid ends of columns. */
static const char cap[] =
    "show si\n"
    "concrete mix { strength 40 MPa; transfer_strength 30 MPa; unit_weight 24 kN/m^3; modulus 31 "
    "GPa; expansion 1e-5 per degC }\n"
    "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 196 GPa }\n"
    "section deep { rectangle width 1.8 m depth 1.9 m }\n"
    "section column { circle diameter 1.5 m }\n"
    "node L at (0 m, 8 m); node R at (22 m, 8 m); node A at (4 m, 0 m); node B at (17 m, 0 m)\n"
    "member cap from L to R section deep of mix\n"
    "node C on cap at 4 m\nnode D on cap at 17 m\n"
    "member col_1 from A to C section column of mix { rigid end 0.95 m }\n"
    "member col_2 from B to D section column of mix { rigid end 0.95 m }\n"
    "support A fixed; support B fixed\n"
    "tendon T in cap { of strand; strands 12 area 150 mm^2; count 2; profile from bottom {\n"
    "    anchor at start height 0.8 m; high at 4 m height 1.5 m; inflection at 6 m; low at 10 m "
    "height 0.3 m\n"
    "    inflection at 15 m; high at 17 m height 1.5 m; anchor at end height 0.8 m }\n"
    "  friction 0.2; wobble 0.001 per m; seating 6 mm; jack start ratio 0.75; duct 80 mm; "
    "unbonded }\n"
    "falsework bents under cap at 1 m, 3 m, 6 m, 8.5 m, 13.5 m, 19 m, 21 m { posts 2; stiffness "
    "300 kN/mm; capacity 900 kN }\n"
    "load girders { point 300 kN on cap at 2 m; uniform 40 kN/m on cap from 7 m to 14 m; point "
    "40 kN at R right }\n"
    "load summer { warm 15 degC on cap; gradient 11 degC on cap }\n"
    "load wind { uniform 9 kN/m on col_1 right }\n"
    "stage columns at 0 day { cast col_1 col_2 }\n"
    "stage wet at 28 day { erect bents; cast cap }\n"
    "stage pulled at 40 day { stress T }\n"
    "stage struck at 50 day { release bents }\n"
    "stage loaded at 90 day { load girders; load summer; load wind }\n";

static const kl_quantity quantities[] = {KL_MOMENT,     KL_SHEAR,         KL_AXIAL,
                                         KL_STRESS_TOP, KL_STRESS_BOTTOM, KL_DEFLECTION,
                                         KL_SWAY,       KL_ROTATION,      KL_CAMBER};

typedef struct course_asked {
    const solved *m;
    kl_state state;
    kl_quantity quantity;
    kl_index member;
    double from, to;
} course_asked;

static double value_at(const course_asked *c, double station, kl_side side)
{
    double value = NAN;
    assert_int_equal(kl_value_on_member(c->m->results, c->state, c->quantity, KL_TOTAL, c->member,
                                        station, side, &value),
                     KL_OK);
    return value;
}

static kl_peak peak_of(const course_asked *c, kl_extreme extreme)
{
    kl_peak peak;
    assert_int_equal(kl_peak_on_member(c->m->results, c->state, c->quantity, KL_TOTAL, c->member,
                                       c->from, c->to, extreme, &peak),
                     KL_OK);
    return peak;
}

static void same_peak(kl_peak got, kl_peak want)
{
    assert_close(got.value, want.value, 0.0, 0.0);
    assert_close(got.station, want.station, 0.0, 0.0);
    assert_int_equal(got.side, want.side);
}

/* Larger by more than rounding anywhere between? The values are held against the larger of the two peaks. */
static void look_along(const course_asked *c)
{
    const kl_peak high = peak_of(c, KL_LARGEST);
    const kl_peak low = peak_of(c, KL_SMALLEST);
    const double rounding = 1e-10 * fmax(fabs(high.value), fabs(low.value));
    assert_close(value_at(c, high.station, high.side), high.value, 0.0, rounding);
    assert_close(value_at(c, low.station, low.side), low.value, 0.0, rounding);
    for (int i = 0; i <= LOOKS; i++) {
        const double station = c->from + (c->to - c->from) * i / LOOKS;
        const double value = value_at(c, station, i == LOOKS ? KL_LEFT : KL_RIGHT);
        assert_true(value <= high.value + rounding);
        assert_true(value >= low.value - rounding);
    }
    kl_peak smallest;
    kl_peak largest;
    assert_int_equal(kl_range_on_member(c->m->results, c->state, c->quantity, KL_TOTAL, c->member,
                                        c->from, c->to, &smallest, &largest),
                     KL_OK);
    same_peak(smallest, low);
    same_peak(largest, high);
}

static void look_at_member(course_asked *c)
{
    const double length = kl_member_length(c->m->model, c->member);
    const double ranges[3][2] = {
        {0.0, length}, {0.13 * length, 0.71 * length}, {0.4 * length, length}};
    for (size_t q = 0; q < sizeof quantities / sizeof quantities[0]; q++) {
        for (int r = 0; r < 3; r++) {
            c->quantity = quantities[q];
            c->from = ranges[r][0];
            c->to = ranges[r][1];
            look_along(c);
        }
    }
}

static void no_value_passes_the_peak(void **state)
{
    (void)state;
    solved m;
    solved_run(&m, cap, NULL);
    for (kl_index step = 0; step < kl_step_count(m.results); step++) {
        for (kl_index member = 0; member < m.model->member_count; member++) {
            course_asked c = {.m = &m, .state = kl_state_step(step), .member = member};
            if (kl_member_stands(m.results, c.state, member)) {
                look_at_member(&c);
            }
        }
    }
    solved_close(&m);
}

static void range_of_a_member_that_does_not_stand_is_not_there(void **state)
{
    (void)state;
    solved m;
    kl_peak peaks[2];
    solved_run(&m, cap, NULL);
    assert_int_equal(kl_range_on_member(m.results, kl_state_step(0), KL_MOMENT, KL_TOTAL,
                                        solved_index(&m, KL_KIND_MEMBER, "cap"), 0.0, 22.0,
                                        &peaks[0], &peaks[1]),
                     KL_NOT_THERE);
    solved_close(&m);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_value_passes_the_peak),
        cmocka_unit_test(range_of_a_member_that_does_not_stand_is_not_there),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
