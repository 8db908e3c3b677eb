/* test_law_time_passing.c - contacts while time passes, steel in concrete that creeps, moments between stages, and what
 * all the steps of time cost.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "draft.h"
#include "readings.h"
#include "result_store.h"

#define DAY KL_DAY

static void add_concrete(text_draft *t, const char *creep)
{
    draft_add(t,
              "show si\nsite { humidity 70 %% }\n"
              "concrete mix { strength 40 MPa; unit_weight 24 kN/m^3; modulus 30 GPa; creep %s }\n"
              "section r { rectangle width 0.8 m depth 1 m }\n"
              "node L at (0 m, 0 m); node R at (20 m, 0 m)\n",
              creep);
}

/* ---- a gap that closes in time --------------------------------------------------------------------------- */

/* A beam over a support that only pushes is lifted off it by 100 kN, and later pressed by 120 kN: it still gapes, for it
 * has crept upward, but in the end it would sag. For a standard solid of constant modulus, with T the time of creep and
 * h = 1 - exp(-t / T), the middle would stand at g = 100 (1 + phi h1) - 120 (1 + phi h2), in newtons, and from the day on
 * which that is zero the support pushes with X: X + T X' / (1 + phi) = 20 kN, so X = 20 kN (1 - exp(-(1 + phi) t / T)). */
#define PHI  2.0
#define TIME 100.0 /* days */

static double gapes(double day)
{
    const double h1 = -expm1(-(day - 3.0) / TIME);
    const double h2 = -expm1(-(day - 80.0) / TIME);
    return 100.0 * (1.0 + PHI * h1) - 120.0 * (1.0 + PHI * h2);
}

static double closing_day(void)
{
    double low = 80.0;
    double high = 1000.0;
    assert_true(gapes(low) > 0.0 && gapes(high) < 0.0);
    for (int i = 0; i < 100; i++) {
        const double middle = 0.5 * (low + high);
        *(gapes(middle) > 0.0 ? &low : &high) = middle;
    }
    return low;
}

static void run_gaping(solved *s, const kl_settings *settings)
{
    text_draft t = {0};
    add_concrete(&t, "user { phi 2.0 }");
    draft_add(&t,
              "member b from L to R section r of mix { age 28 day; weightless }\n"
              "node M on b at 10 m\nsupport L pinned; support R roller; support M { y push up }\n"
              "load lift { point 100 kN up at M }\nload press { point 120 kN down at M }\n"
              "stage set at 0 day { place b }\nstage lifted at 3 day { load lift }\n"
              "stage pressed at 80 day { load press }\nstage gaping at %.17g day\n"
              "stage bearing at %.17g day\nstage late at 400 day\n",
              closing_day() - 5.0, closing_day() + 20.0);
    solved_run(s, t.text, settings);
    draft_free(&t);
}

static void gap_that_creep_closes_bears(void **state)
{
    (void)state;
    solved s;
    kl_settings settings = kl_settings_default();
    settings.steps_per_decade = 200; /* the support is met within a step */
    run_gaping(&s, &settings);
    const double give = pow(20.0, 3.0) / (48.0 * 30e9 * 0.8 / 12.0);
    static const char *const stages[] = {"gaping", "bearing", "late"};
    const double days[] = {closing_day() - 5.0, closing_day() + 20.0, 400.0};
    for (int i = 0; i < 3; i++) {
        const kl_state now = solved_after(&s, stages[i]);
        const double want =
            i == 0 ? 0.0 : 20e3 * -expm1(-(1.0 + PHI) * (days[i] - closing_day()) / TIME);
        assert_close(solved_reaction(&s, now, "M", KL_Y), want, 2e-3, 1e-6);
        assert_close(solved_node(&s, now, KL_DEFLECTION, "M"),
                     i == 0 ? 1e3 * gapes(days[0]) * give : 0.0, 1e-3, 1e-12);
    }
    const kl_state creep = solved_from(solved_after(&s, "late"), KL_CAUSE_CREEP);
    assert_close(solved_reaction(&s, creep, "M", KL_Y),
                 solved_reaction(&s, solved_after(&s, "late"), "M", KL_Y), 1e-9, 0.0);
    solved_close(&s);
}

/* Whatever set the search starts from in each step. */
static void contacts_in_time_do_not_depend_on_the_first_guess(void **state)
{
    (void)state;
    static const kl_contact_start starts[] = {KL_CONTACT_FROM_STATE, KL_CONTACT_ALL_OPEN,
                                              KL_CONTACT_ALL_CLOSED, KL_CONTACT_SEEDED};
    double force[4];
    for (int i = 0; i < 4; i++) {
        solved s;
        kl_settings settings = kl_settings_default();
        settings.contact_start = starts[i];
        settings.seed = 7;
        run_gaping(&s, &settings);
        force[i] = solved_reaction(&s, solved_after(&s, "bearing"), "M", KL_Y);
        assert_close(force[i], force[0], 1e-9, 0.0);
        solved_close(&s);
    }
    assert_true(force[0] > 5e3);
}

/* ---- steel ----------------------------------------------------------------------------------------------- */

/* `sections gross` is about what loads act on: a grouted tendon follows the creep of its concrete all the same, as an
 * unbonded one at the centroid does, but for the area it displaces. */
static void gross_sections_spare_no_loss(void **state)
{
    (void)state;
    double force[2];
    for (int grouted = 0; grouted < 2; grouted++) {
        text_draft t = {0};
        solved s;
        draft_add(&t, "sections gross\n");
        add_concrete(&t, "mc1990");
        draft_add(&t,
                  "member b from L to R section r of mix { age 7 day; weightless }\n"
                  "support L pinned; support R roller\n"
                  "prestressing strand { ultimate 1860 MPa; yield 1674 MPa; modulus 195 GPa }\n"
                  "tendon T in b { of strand; strands 12 area 150 mm^2; profile from line {\n"
                  "    anchor at start height 0 m; anchor at end height 0 m straight }\n"
                  "  friction 0; wobble 0 per m; seating 0 mm; jack start force 2400 kN; %s }\n"
                  "stage set at 0 day { place b }\nstage pulled at 7 day { stress T%s }\n"
                  "stage late at 3007 day\n",
                  grouted ? "bonded grouted" : "unbonded", grouted ? "; grout T" : "");
        solved_open(&s, t.text);
        force[grouted] = solved_force(&s, solved_after(&s, "late"), "T", 8.0);
        assert_true(force[grouted] < 2400e3 * 0.98);
        solved_close(&s);
        draft_free(&t);
    }
    assert_close(force[1], force[0], 1e-9, 0.0);
}

/* Ducts of an eccentric tendon, grout and rebar in one beam of two spans: every step and moment is in balance (the analysis
 * refuses what is not), the concrete's share and the tendon make the total, and causes add up. */
static void causes_add_up_at_every_moment(void **state)
{
    (void)state;
    text_draft t = {0};
    solved s;
    add_concrete(&t, "en1992 2004; shrinkage en1992 2004; cured 3 day");
    draft_add(
        &t,
        "reinforcing steel { yield 420 MPa; modulus 200 GPa }\n"
        "section bars { rectangle width 0.8 m depth 1 m; shear flexible; rebar 10 area 500 mm^2 "
        "depth 0.93 m of steel }\n"
        "node M at (12 m, 0 m)\n"
        "prestressing strand { ultimate 1860 MPa; yield 1674 MPa; modulus 195 GPa; relaxation "
        "low }\n"
        "member b from L to R section bars of mix\nnode S on b at 12 m\n"
        "falsework posts under b { from 0.5 m to 19.5 m every 1 m; posts 2; stiffness 40 kN/mm }\n"
        "support L pinned; support R roller; support S roller\n"
        "tendon T in b { of strand; strands 12 area 150 mm^2; duct 80 mm; bonded grouted\n"
        "  profile from bottom { anchor at start height 0.5 m; low at 5 m height 0.15 m\n"
        "    inflection at 9 m; high at 12 m height 0.8 m; anchor at end height 0.4 m }\n"
        "  jack start force 2400 kN; seating 6 mm }\n"
        "load heap { uniform 6 kN/m on b }\n"
        "stage set at 0 day { erect posts; cast b }\nstage pulled at 7 day { stress T }\n"
        "stage grouted at 10 day { grout T; release posts }\n"
        "stage loaded at 60 day { load heap }\nstage late at 10000 day { unload heap }\n");
    kl_settings settings = kl_settings_default();
    settings.moments_per_decade = 2;
    solved_run(&s, t.text, &settings);
    assert_true(kl_moment_count(s.results) > 15);
    for (kl_index i = 0; i < kl_moment_count(s.results); i++) {
        const kl_state now = kl_state_moment(i);
        kl_audit audit;
        assert_int_equal(kl_audit_of_state(s.results, now, &audit), KL_OK);
        assert_true(audit.passed);
        kl_cause causes[16];
        kl_index count = 16;
        kl_state_causes(s.results, now, causes, &count);
        double moment = 0.0;
        double deflection = 0.0;
        double stress = 0.0;
        for (kl_index k = 0; k < count; k++) {
            const kl_state one = kl_state_of_cause(now, causes[k]);
            assert_int_equal(kl_audit_of_state(s.results, one, &audit), KL_OK);
            assert_true(audit.passed);
            moment += solved_value(&s, one, KL_MOMENT, "b", 8.0);
            deflection += solved_value(&s, one, KL_DEFLECTION, "b", 8.0);
            stress += solved_value(&s, one, KL_STRESS_TOP, "b", 8.0);
        }
        assert_close(moment, solved_value(&s, now, KL_MOMENT, "b", 8.0), 1e-9, 1e-3);
        assert_close(deflection, solved_value(&s, now, KL_DEFLECTION, "b", 8.0), 1e-9, 1e-12);
        assert_close(stress, solved_value(&s, now, KL_STRESS_TOP, "b", 8.0), 1e-9, 1e-3);
    }
    solved_close(&s);
    draft_free(&t);
}

/* ---- moments and records --------------------------------------------------------------------------------- */

static void run_long(solved *s, const kl_settings *settings)
{
    text_draft t = {0};
    add_concrete(&t, "mc1990");
    draft_add(&t, "member b from L to R section r of mix\nnode M on b at 8 m\n"
                  "support L pinned; support R roller; support M roller\n"
                  "load sinks { settle 10 mm at M down }\n"
                  "stage set at 0 day { cast b }\nstage sunk at 20 day { load sinks }\n"
                  "stage late at 5000 day { unload sinks }\n");
    solved_run(s, t.text, settings);
    draft_free(&t);
}

static void moments_are_met_in_order(void **state)
{
    (void)state;
    const double times[] = {1000 * DAY, 7.5 * DAY,  -3 * DAY,    20 * DAY, 5000 * DAY,
                            7.5 * DAY,  9000 * DAY, (double)NAN, 25 * DAY};
    static const double want[] = {7.5, 25.0, 1000.0};
    static const kl_index stages[] = {1, 2, 2};
    solved s;
    kl_settings settings = kl_settings_default();
    settings.moments = times;
    settings.moment_count = sizeof times / sizeof times[0];
    run_long(&s, &settings);
    assert_int_equal(kl_moment_count(s.results), 3);
    for (kl_index i = 0; i < 3; i++) {
        assert_close(kl_moment_at(s.results, i)->time, want[i] * DAY, 0.0, 0.0);
        assert_int_equal(kl_moment_at(s.results, i)->stage, stages[i]);
    }
    const double early = solved_reaction(&s, kl_state_moment(1), "M", KL_Y);
    const double later = solved_reaction(&s, kl_state_moment(2), "M", KL_Y);
    const kl_state until = kl_state_step(kl_first_step(s.results, 2));
    assert_true(kl_step_at(s.results, until.index)->operation == KL_NONE);
    assert_string_equal(kl_step_at(s.results, until.index)->label, "until day 5000");
    const double last = solved_reaction(&s, until, "M", KL_Y);
    const double sunk = solved_reaction(&s, solved_after(&s, "sunk"), "M", KL_Y);
    assert_true(sunk < early && early < later && later < last); /* the settlement relaxes */
    solved_close(&s);
    /* stops on the way change nothing beyond what finer steps do */
    run_long(&s, NULL);
    assert_int_equal(kl_moment_count(s.results), 0);
    assert_close(solved_reaction(&s, kl_state_step(kl_first_step(s.results, 2)), "M", KL_Y), last,
                 1e-4, 0.0);
    solved_close(&s);
}

/* Twenty times the steps, the same memory: only what is recorded is kept. */
static void memory_does_not_grow_with_the_steps(void **state)
{
    (void)state;
    size_t bytes[2];
    for (int i = 0; i < 2; i++) {
        solved s;
        kl_settings settings = kl_settings_default();
        settings.steps_per_decade = i == 0 ? 10 : 200;
        run_long(&s, &settings);
        bytes[i] = s.results->a.bytes;
        solved_close(&s);
    }
    assert_int_equal(bytes[0], bytes[1]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(gap_that_creep_closes_bears),
        cmocka_unit_test(contacts_in_time_do_not_depend_on_the_first_guess),
        cmocka_unit_test(gross_sections_spare_no_loss),
        cmocka_unit_test(causes_add_up_at_every_moment),
        cmocka_unit_test(moments_are_met_in_order),
        cmocka_unit_test(memory_does_not_grow_with_the_steps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
