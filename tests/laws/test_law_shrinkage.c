/* test_law_shrinkage.c - shrinkage that is held back, by supports and by steel, relaxes by creep: against the Volterra
 * equation (volterra.h) and against plain superposition in fine steps (history.h).
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "draft.h"
#include "history.h"
#include "readings.h"
#include "shrinkage.h"
#include "time_steps.h"
#include "volterra.h"

#define DAY   KL_DAY
#define CURED (7.0 * DAY)
#define DEPTH 1.0
#define WIDTH 0.8
#define SIZE  (0.8 / 3.6)

static const struct {
    const char *words;
    double power; /* stress begins like (t - end of curing)^(1/power) */
} laws[] = {{"aashto 2020", 2}, {"aci209 1992", 5 / 3.0}, {"mc1990", 10 / 3.0}};

enum { LAWS = sizeof laws / sizeof laws[0] };

typedef struct own_law {
    creep_subject subject;
    creep_function function;
    time_law shrinkage;
} own_law;

static void find_law(const solved *s, own_law *out)
{
    const kl_material *mix = &s->model->materials[0];
    out->subject = (creep_subject){
        .law = time_law_of(mix->creep),
        .concrete = {.material = mix, .humidity = s->model->humidity, .volume_to_surface = SIZE}};
    out->function = creep_function_of(&out->subject);
    out->shrinkage = time_law_of(mix->shrinkage);
}

static double shortening(const void *context, double age)
{
    const own_law *law = context;
    return -shrinkage_strain(law->shrinkage, &law->subject.concrete, age);
}

static void add_concrete(text_draft *t, const char *words, const char *section)
{
    draft_add(t,
              "show si\nsite { humidity 60 %% }\n"
              "concrete mix { strength 40 MPa; unit_weight 24 kN/m^3; cured 7 day\n"
              "  modulus en1992 2004; creep %s; shrinkage %s }\n"
              "reinforcing steel { yield 420 MPa; modulus 200 GPa }\n"
              "section r { rectangle width 0.8 m depth 1 m%s }\n"
              "node L at (0 m, 0 m); node R at (20 m, 0 m)\n"
              "member b from L to R section r of mix { age 7 day; weightless }\n",
              words, words, section);
}

/* Both ends fixed: the force is what the relaxing concrete makes of its shortening. */
static void held_shrinkage_relaxes(void **state)
{
    (void)state;
    for (int i = 0; i < LAWS; i++) {
        text_draft t = {0};
        solved s;
        own_law law;
        add_concrete(&t, laws[i].words, "");
        draft_add(&t, "support L fixed; support R fixed\n"
                      "stage set at 0 day { place b }\nstage late at 3000 day\n");
        solved_open(&s, t.text);
        find_law(&s, &law);
        const double stress =
            volterra_strained(&law.function, CURED, 3000 * DAY, laws[i].power, shortening, &law);
        const kl_state late = solved_after(&s, "late");
        assert_close(solved_value(&s, late, KL_AXIAL, "b", 7.0), stress * WIDTH * DEPTH, 2e-4, 0.0);
        assert_close(solved_value(&s, late, KL_STRESS_TOP, "b", 7.0), stress, 2e-4, 0.0);
        /* far less than it would be without creep */
        const double rigid =
            shortening(&law, 3007 * DAY) / law.function.elastic(law.function.context, 3007 * DAY);
        assert_true(stress > 0.25 * rigid && stress < 0.6 * rigid);
        assert_close(solved_value(&s, solved_from(late, KL_CAUSE_SHRINKAGE), KL_AXIAL, "b", 7.0) +
                         solved_value(&s, solved_from(late, KL_CAUSE_CREEP), KL_AXIAL, "b", 7.0),
                     stress * WIDTH * DEPTH, 2e-4, 0.0);
        solved_close(&s);
        draft_free(&t);
    }
}

/* The same where curing ends in the midst of time passing, with the steps' ends where they happen to be. */
static void shrinkage_begins_when_curing_ends(void **state)
{
    (void)state;
    for (int i = 0; i < LAWS; i++) {
        text_draft t = {0};
        solved s;
        own_law law;
        add_concrete(&t, laws[i].words, "");
        draft_add(&t, "support L fixed; support R fixed\n"
                      "stage set at 0 day { cast b }\n"
                      "stage late at 3007 day\n");
        const double moment = 6.9 * DAY;
        kl_settings settings = kl_settings_default();
        settings.moments = &moment;
        settings.moment_count = 1;
        solved_run(&s, t.text, &settings);
        find_law(&s, &law);
        const double stress =
            volterra_strained(&law.function, CURED, 3000 * DAY, laws[i].power, shortening, &law);
        const kl_state early = kl_state_moment(0);
        const kl_state late = solved_after(&s, "late");
        assert_close(solved_value(&s, early, KL_AXIAL, "b", 7.0), 0.0, 0.0, 1e-6);
        assert_close(solved_value(&s, late, KL_AXIAL, "b", 7.0), stress * WIDTH * DEPTH, 2e-4, 0.0);
        solved_close(&s);
        draft_free(&t);
    }
}

/* ---- one layer of steel ---------------------------------------------------------------------------------- */

#define STEEL  12000e-6    /* m^2 */
#define LEVEL  (0.5 - 0.9) /* m above the centroid */
#define E_S    200e9
#define SECOND (WIDTH / 12.0) /* m^4 of the gross section, 1 m deep */

typedef struct section_at_time {
    double e, k;      /* of the section */
    double stress[2]; /* E e, E k of the concrete */
} section_at_time;

/* One step by hand: concrete strain = past + j d(stress) + shrinkage, the two parts in balance with the steel. */
static void step_section(const history *past,
                         const own_law *law,
                         double from,
                         double to,
                         section_at_time *now,
                         double change[2])
{
    const creep_function *f = &law->function;
    const double j =
        0.5 * (creep_function_compliance(f, to, from) + creep_function_compliance(f, to, to));
    const double area = WIDTH * DEPTH - STEEL;
    const double first = -STEEL * LEVEL;
    const double second = SECOND - STEEL * LEVEL * LEVEL;
    double free[2];
    history_strain(past, f, to, free);
    free[0] -= shortening(law, to);
    /* d(stress) = (e - free) / j: N = sum A (s + d) - first (…) + E_s A_s (e - k y) = 0, M likewise; for e and k */
    const double a[2][2] = {
        {area / j + E_S * STEEL, -first / j - E_S * STEEL * LEVEL},
        {-first / j - E_S * STEEL * LEVEL, second / j + E_S * STEEL * LEVEL * LEVEL}};
    const double plane[2] = {now->stress[0] - free[0] / j, now->stress[1] - free[1] / j};
    const double b[2] = {-(area * plane[0] - first * plane[1]),
                         -(second * plane[1] - first * plane[0])};
    const double determinant = a[0][0] * a[1][1] - a[0][1] * a[1][0];
    now->e = (b[0] * a[1][1] - b[1] * a[0][1]) / determinant;
    now->k = (b[1] * a[0][0] - b[0] * a[1][0]) / determinant;
    change[0] = (now->e - free[0]) / j;
    change[1] = (now->k - free[1]) / j;
}

static section_at_time by_hand(const own_law *law, double span, int per_decade)
{
    history past = {.n = 2};
    section_at_time now = {0};
    const int count = time_steps_count(span, per_decade);
    double begun = 0.0;
    for (int i = 0; i < count; i++) {
        const double end = time_steps_end(span, count, i);
        double change[2];
        step_section(&past, law, CURED + begun, CURED + end, &now, change);
        history_add(&past, CURED + begun, CURED + end, change);
        now.stress[0] += change[0];
        now.stress[1] += change[1];
        begun = end;
    }
    history_free(&past);
    return now;
}

/* A prism that is free to shorten, with one layer of bars low down: the steel holds the bottom back and the prism sags. */
static void steel_on_one_side_bends_a_shrinking_prism(void **state)
{
    (void)state;
    for (int i = 0; i < 2;
         i++) { /* mc1990 begins too steeply for plain superposition in so few steps */
        text_draft t = {0};
        solved s;
        own_law law;
        add_concrete(&t, laws[i].words, "; rebar 12 area 1000 mm^2 depth 0.9 m of steel");
        draft_add(&t, "support L pinned; support R roller\n"
                      "stage set at 0 day { place b }\nstage late at 3000 day\n");
        solved_open(&s, t.text);
        find_law(&s, &law);
        const section_at_time want = by_hand(&law, 3000 * DAY, 120);
        const kl_state late = solved_after(&s, "late");
        assert_close(solved_value(&s, late, KL_DEFLECTION, "b", 10.0), -want.k * 50.0, 2e-4, 0.0);
        assert_close(solved_node(&s, late, KL_SWAY, "R"), want.e * 20.0, 2e-4, 0.0);
        assert_close(solved_value(&s, late, KL_STRESS_BOTTOM, "b", 10.0),
                     want.stress[0] + 0.5 * want.stress[1], 2e-4, 0.0);
        assert_true(want.k > 1e-5);
        assert_close(solved_value(&s, late, KL_MOMENT, "b", 10.0), 0.0, 0.0, 1e-3);
        solved_close(&s);
        draft_free(&t);
    }
}

/* Shrinkage of a concrete that does not creep only strains: by E of the day where it is held. */
static void shrinkage_without_creep_is_elastic(void **state)
{
    (void)state;
    text_draft t = {0};
    solved s;
    draft_add(&t,
              "show si\n"
              "concrete mix { strength 40 MPa; unit_weight 24 kN/m^3; modulus 30 GPa; cured 3 day\n"
              "  shrinkage user { strain 400e-6 } }\n"
              "section r { rectangle width 0.8 m depth 1 m }\n"
              "node L at (0 m, 0 m); node M at (8 m, 0 m); node R at (20 m, 0 m)\n"
              "member a from L to M section r of mix\nmember b from M to R section r of mix\n"
              "support L fixed; support R fixed\n"
              "stage set at 0 day { cast a b }\nstage late at 103 day\n");
    solved_open(&s, t.text);
    const double strain = 400e-6 * -expm1(-1.0);
    const kl_state late = solved_after(&s, "late");
    assert_close(solved_value(&s, late, KL_AXIAL, "b", 5.0), 30e9 * 0.8 * strain, 1e-9, 0.0);
    assert_close(solved_node(&s, solved_from(late, KL_CAUSE_SHRINKAGE), KL_SWAY, "M"), 0.0, 0.0,
                 1e-12);
    solved_close(&s);
    draft_free(&t);
}

/* The settings' factor is a factor of the strain, with creep in the frame or without: all is linear in it. */
static void factor_of_shrinkage_multiplies_the_held_force(void **state)
{
    (void)state;
    static const double factors[] = {1.0, 0.7, 1.3, 0.0};
    double held[4];
    for (int i = 0; i < 4; i++) {
        text_draft t = {0};
        solved s;
        kl_settings settings = kl_settings_default();
        settings.shrinkage_factor = factors[i];
        add_concrete(&t, "mc1990", "");
        draft_add(&t, "support L fixed; support R fixed\n"
                      "stage set at 0 day { place b }\nstage late at 3000 day\n");
        solved_run(&s, t.text, &settings);
        held[i] = solved_value(&s, solved_after(&s, "late"), KL_AXIAL, "b", 10.0);
        assert_close(held[i], factors[i] * held[0], 1e-9, 1e-3);
        solved_close(&s);
        draft_free(&t);
    }
    assert_true(held[0] > 1e5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(held_shrinkage_relaxes),
        cmocka_unit_test(shrinkage_begins_when_curing_ends),
        cmocka_unit_test(steel_on_one_side_bends_a_shrinking_prism),
        cmocka_unit_test(shrinkage_without_creep_is_elastic),
        cmocka_unit_test(factor_of_shrinkage_multiplies_the_held_force),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
