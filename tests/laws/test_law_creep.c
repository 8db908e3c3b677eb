/* test_law_creep.c - laws that creep obeys in whole frames, and redundants that it changes against solutions of the
 * Volterra equation (volterra.h) and closed forms.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>

#include "creep.h"
#include "draft.h"
#include "history.h"
#include "readings.h"
#include "time_steps.h"
#include "volterra.h"

#define DAY KL_DAY

/* Laws by the words of the language; creep begins like (t - t0)^(1/power). */
static const struct {
    const char *words;
    double power;
} laws[] = {
    {"aashto 2020", 2}, {"aci209 1992", 5 / 3.0},  {"mc1990", 10 / 3.0},   {"mc1999", 10 / 3.0},
    {"mc2010", 3},      {"en1992 2004", 10 / 3.0}, {"user { phi 2.2 }", 1}};

enum { LAWS = sizeof laws / sizeof laws[0] };

static void add_concrete(text_draft *t, const char *creep, const char *modulus)
{
    draft_add(
        t,
        "show si\nsite { humidity 70 %% }\n"
        "concrete mix { strength 40 MPa; unit_weight 24 kN/m^3; cement normal\n"
        "  modulus %s; creep %s }\nsection r { rectangle width 0.8 m depth 1 m; shear flexible }\n",
        modulus, creep);
}

/* The creep function the model's first material has in its first member. */
typedef struct own_law {
    creep_subject subject;
    creep_function function;
} own_law;

static void find_law(const solved *s, double size, own_law *out)
{
    out->subject = (creep_subject){.law = time_law_of(s->model->materials[0].creep),
                                   .concrete = {.material = &s->model->materials[0],
                                                .humidity = s->model->humidity,
                                                .volume_to_surface = size}};
    out->function = creep_function_of(&out->subject);
}

#define SIZE (0.8 / 3.6) /* m, area over perimeter of the section */

static double deflection(const solved *s, kl_state state, const char *member, double x)
{
    return solved_value(s, state, KL_DEFLECTION, member, x);
}

/* ---- constant stress ------------------------------------------------------------------------------------- */

/* A simple beam under its weight from an age of three days on: at every moment its deflection is J(t, t0) E(t0) times
 * the first, to the fit of the chain, and nothing else changes: to the last of the 300 years that stages may reach. */
static void constant_stress_creeps_by_phi(void **state)
{
    (void)state;
    for (int i = 0; i < LAWS; i++) {
        text_draft t = {0};
        solved s;
        own_law law;
        add_concrete(&t, laws[i].words, i % 2 == 0 ? "en1992 2004" : "30 GPa");
        draft_add(&t, "node L at (0 m, 0 m); node R at (20 m, 0 m)\n"
                      "member b from L to R section r of mix { age 3 day }\n"
                      "support L pinned; support R roller\n"
                      "stage set at 0 day { place b }\nstage late at 109500 day\n");
        kl_settings settings = kl_settings_default();
        settings.moments_per_decade = 3;
        solved_run(&s, t.text, &settings);
        find_law(&s, SIZE, &law);
        const creep_function *f = &law.function;
        const kl_state set = solved_after(&s, "set");
        const double first = deflection(&s, set, "b", 10.0);
        assert_int_equal(kl_moment_count(s.results), 19);
        for (kl_index k = 0; k < kl_moment_count(s.results); k++) {
            const double time = kl_moment_at(s.results, k)->time;
            const double ratio = creep_function_compliance(f, time + 3 * DAY, 3 * DAY) /
                                 f->elastic(f->context, 3 * DAY);
            const kl_state now = kl_state_moment(k);
            assert_close(deflection(&s, now, "b", 10.0) / first, ratio, 1e-4, 0.0);
            assert_close(solved_value(&s, now, KL_STRESS_BOTTOM, "b", 10.0),
                         solved_value(&s, set, KL_STRESS_BOTTOM, "b", 10.0), 1e-9, 0.0);
        }
        assert_true(deflection(&s, solved_after(&s, "late"), "b", 10.0) < 1.8 * first);
        solved_close(&s);
        draft_free(&t);
    }
}

/* The settings' factor is a factor of phi: what a beam under constant stress moves beyond its first deflection. */
static void factor_of_creep_multiplies_phi(void **state)
{
    (void)state;
    static const double factors[] = {1.0, 0.7, 1.3, 0.0};
    double crept[4];
    for (int i = 0; i < 4; i++) {
        text_draft t = {0};
        solved s;
        kl_settings settings = kl_settings_default();
        settings.creep_factor = factors[i];
        add_concrete(&t, "mc1990", "30 GPa");
        draft_add(&t, "node L at (0 m, 0 m); node R at (20 m, 0 m)\n"
                      "member b from L to R section r of mix { age 3 day }\n"
                      "support L pinned; support R roller\n"
                      "stage set at 0 day { place b }\nstage late at 20000 day\n");
        solved_run(&s, t.text, &settings);
        const double first = deflection(&s, solved_after(&s, "set"), "b", 10.0);
        crept[i] = deflection(&s, solved_after(&s, "late"), "b", 10.0) - first;
        assert_true(first < 0.0);
        assert_close(crept[i], factors[i] * crept[0], 1e-9, 1e-12);
        solved_close(&s);
        draft_free(&t);
    }
    assert_true(crept[0] < -1e-3);
}

/* A tapered beam dries as its mean along the member of area over perimeter has it: b d / (2 (b + d)), the depth d from 0.6 m
 * to 1.4 m, whose mean is b / 2 (1 - b / 0.8 ln((b + 1.4) / (b + 0.6))). */
static void tapered_member_dries_by_its_mean(void **state)
{
    (void)state;
    text_draft t = {0};
    solved s;
    own_law law;
    add_concrete(&t, "mc1990", "en1992 2004");
    draft_add(
        &t, "section low { rectangle width 0.8 m depth 0.6 m }\n"
            "section high { rectangle width 0.8 m depth 1.4 m }\n"
            "node L at (0 m, 0 m); node R at (20 m, 0 m)\n"
            "member b from L to R of mix { age 3 day; section low at start; section high at end }\n"
            "support L pinned; support R roller\n"
            "stage set at 0 day { place b }\nstage late at 20000 day\n");
    solved_open(&s, t.text);
    find_law(&s, 0.4 * (1.0 - log(2.2 / 1.4)), &law);
    const creep_function *f = &law.function;
    assert_close(deflection(&s, solved_after(&s, "late"), "b", 9.0) /
                     deflection(&s, solved_after(&s, "set"), "b", 9.0),
                 creep_function_compliance(f, 20003 * DAY, 3 * DAY) /
                     f->elastic(f->context, 3 * DAY),
                 1e-4, 0.0);
    solved_close(&s);
    draft_free(&t);
}

/* A frame that shears, built whole of one age: creep lets it move as J grows and changes no force. */
static void frame_built_whole_keeps_its_moments(void **state)
{
    (void)state;
    for (int i = 0; i < LAWS; i++) {
        text_draft t = {0};
        solved s;
        own_law law;
        add_concrete(&t, laws[i].words, "en1992 2004");
        draft_add(&t, "node A at (0 m, 0 m); node B at (0 m, 6 m); node C at (12 m, 6 m)\n"
                      "node D at (14 m, 0 m); node E at (22 m, 6 m)\n"
                      "member p from A to B section r of mix { age 7 day }\n"
                      "member q from D to C section r of mix { age 7 day }\n"
                      "member b from B to C section r of mix { age 7 day }\n"
                      "member c from C to E section r of mix { age 7 day; hinge start }\n"
                      "support A fixed; support D pinned; support E roller\n"
                      "load side { point 90 kN right at B }\n"
                      "stage set at 0 day { place p q b c; load side }\nstage late at 3000 day\n");
        solved_open(&s, t.text);
        find_law(&s, SIZE, &law);
        const creep_function *f = &law.function;
        const double ratio =
            creep_function_compliance(f, 3007 * DAY, 7 * DAY) / f->elastic(f->context, 7 * DAY);
        const kl_state set = solved_after(&s, "set");
        const kl_state late = solved_after(&s, "late");
        static const char *const members[] = {"p", "q", "b", "c"};
        for (int m = 0; m < 4; m++) {
            for (double x = 0.5; x < 6.0; x += 1.7) {
                assert_close(solved_value(&s, late, KL_MOMENT, members[m], x),
                             solved_value(&s, set, KL_MOMENT, members[m], x), 1e-9, 1e-3);
                assert_close(solved_value(&s, late, KL_SHEAR, members[m], x),
                             solved_value(&s, set, KL_SHEAR, members[m], x), 1e-9, 1e-4);
            }
        }
        assert_close(solved_node(&s, late, KL_SWAY, "B"),
                     ratio * solved_node(&s, set, KL_SWAY, "B"), 1e-4, 0.0);
        assert_close(deflection(&s, late, "c", 4.0), ratio * deflection(&s, set, "c", 4.0), 1e-4,
                     0.0);
        solved_close(&s);
        draft_free(&t);
    }
}

/* ---- redundants ------------------------------------------------------------------------------------------ */

static void add_settling(text_draft *t, const char *creep, const char *modulus, double scale)
{
    add_concrete(t, creep, modulus);
    draft_add(t,
              "node L at (0 m, 0 m); node R at (20 m, 0 m)\n"
              "member b from L to R section r of mix { age 7 day; weightless }\n"
              "node M on b at 9 m\nsupport L pinned; support M roller; support R roller\n"
              "load sinks { settle %.17g mm at M down }\n"
              "stage set at 0 day { place b }\nstage sunk at 5 day { load sinks }\n"
              "stage late at 2000 day\n",
              20.0 * scale);
}

/* What a sudden settlement forces on a beam goes as R(t, t0) / E(t0). */
static void redundant_of_a_settlement_relaxes(void **state)
{
    (void)state;
    for (int i = 0; i < LAWS; i++) {
        text_draft t = {0};
        solved s;
        own_law law;
        add_settling(&t, laws[i].words, "en1992 2004", 1.0);
        solved_open(&s, t.text);
        find_law(&s, SIZE, &law);
        const double relaxed =
            volterra_relaxed(&law.function, 12 * DAY, 1995 * DAY, laws[i].power) *
            law.function.elastic(law.function.context, 12 * DAY);
        const double first = solved_reaction(&s, solved_after(&s, "sunk"), "M", KL_Y);
        const double last = solved_reaction(&s, solved_after(&s, "late"), "M", KL_Y);
        assert_true(relaxed < 0.7);
        assert_close(last / first, relaxed, 2e-4, 0.0);
        solved_close(&s);
        draft_free(&t);
    }
}

/* Twice the steps, the same redundant to 0.02 %. */
static void halved_steps_move_the_redundant_less_than_the_limit(void **state)
{
    (void)state;
    for (int i = 0; i < LAWS; i++) {
        double last[2];
        for (int half = 0; half < 2; half++) {
            text_draft t = {0};
            solved s;
            add_settling(&t, laws[i].words, "30 GPa", 1.0);
            kl_settings settings = kl_settings_default();
            settings.steps_per_decade = half == 0 ? 0 : 48;
            solved_run(&s, t.text, &settings);
            last[half] = solved_reaction(&s, solved_after(&s, "late"), "M", KL_Y);
            solved_close(&s);
            draft_free(&t);
        }
        assert_close(last[0], last[1], 2e-4, 0.0);
        assert_true(fabs(last[0] - last[1]) > 0.0);
    }
}

/* All is linear: twice the settlement, twice of everything. */
static void creep_scales_with_the_load(void **state)
{
    (void)state;
    double late[2];
    for (int i = 0; i < 2; i++) {
        text_draft t = {0};
        solved s;
        add_settling(&t, "mc1990", "30 GPa", i + 1.0);
        solved_open(&s, t.text);
        late[i] = solved_value(&s, solved_from(solved_after(&s, "late"), KL_CAUSE_CREEP), KL_MOMENT,
                               "b", 9.0);
        solved_close(&s);
        draft_free(&t);
    }
    assert_true(fabs(late[0]) > 1e3);
    assert_close(late[1], 2.0 * late[0], 1e-9, 0.0);
}

/* ---- a system that is changed ---------------------------------------------------------------------------- */

/* Two spans of one age each under its weight, joined after 40 days. For a concrete of the standard solid with a constant
 * modulus, J = (1 + phi (1 - exp(-t / T))) / E from any age, the redundant at the joint that closes at t1 obeys
 * E J * dX = the turn that comes after t1, with X(t1) = 0. In Laplace's terms X(t) = X_inf (1 - exp(-(1 + phi)(t - t1) / T))
 * a, a = phi exp(-t1 / T) / (1 + phi): X_inf the moment of the continuous beam. */
static void joined_spans_tend_to_the_continuous_beam(void **state)
{
    (void)state;
    const double phi = 2.2;
    const double t1 = 40.0;
    text_draft t = {0};
    solved s;
    add_concrete(&t, "user { phi 2.2 }", "30 GPa");
    draft_add(&t, "node A at (0 m, 0 m); node B at (18 m, 0 m); node C at (30 m, 0 m)\n"
                  "member b from A to B section r of mix { age 28 day; hinge end }\n"
                  "member c from B to C section r of mix { age 28 day }\n"
                  "support A pinned; support B roller; support C roller\n"
                  "stage set at 0 day { place b c }\nstage joined at 40 day { lock b at end }\n"
                  "stage one at 70 day\nstage two at 200 day\nstage three at 4000 day\n");
    solved_open(&s, t.text);
    /* of the continuous beam with shear: three moments, flexibility of each span L / 3EI + 1 / (G A L) */
    const double ei = 30e9 * 0.8 / 12.0;
    const double ga = 30e9 / 2.4 * 0.8 * 5.0 / 6.0;
    const double w = 24e3 * 0.8;
    const double give = 30.0 / (3.0 * ei) + (1.0 / 18.0 + 1.0 / 12.0) / ga;
    const double whole = -w * (pow(18.0, 3.0) + pow(12.0, 3.0)) / (24.0 * ei) / give;
    static const struct {
        const char *stage;
        double day;
    } looks[] = {{"one", 70.0}, {"two", 200.0}, {"three", 4000.0}};
    for (int i = 0; i < 3; i++) {
        const double share = phi * exp(-t1 / 100.0) / (1.0 + phi) *
                             -expm1(-(1.0 + phi) * (looks[i].day - t1) / 100.0);
        assert_close(solved_left(&s, solved_after(&s, looks[i].stage), KL_MOMENT, "b", 18.0),
                     share * whole, 2e-4, 0.0);
    }
    solved_close(&s);
    draft_free(&t);
}

typedef struct joined_law {
    const creep_function *function;
    double loaded, joined; /* ages */
} joined_law;

static double turns_after(const void *context, double age)
{
    const joined_law *l = context;
    return creep_function_compliance(l->function, age, l->loaded) -
           creep_function_compliance(l->function, l->joined, l->loaded);
}

/* The same for each law, ageing and all: X_inf times the stress that the turns after the joining would make. */
static void joined_spans_creep_by_every_law(void **state)
{
    (void)state;
    for (int i = 0; i < LAWS; i++) {
        text_draft t = {0};
        solved s;
        own_law law;
        add_concrete(&t, laws[i].words, "en1992 2004");
        draft_add(&t, "node A at (0 m, 0 m); node B at (20 m, 0 m); node C at (40 m, 0 m)\n"
                      "member b from A to B section r of mix { age 14 day; hinge end }\n"
                      "member c from B to C section r of mix { age 14 day }\n"
                      "support A pinned; support B roller; support C roller\n"
                      "stage set at 0 day { place b c }\nstage joined at 30 day { lock b at end }\n"
                      "stage late at 10000 day\n");
        solved_open(&s, t.text);
        find_law(&s, SIZE, &law);
        const joined_law joined = {&law.function, 14 * DAY, 44 * DAY};
        const double share = volterra_strained(&law.function, 44 * DAY, 9970 * DAY, laws[i].power,
                                               turns_after, &joined);
        /* moment over the middle of two equal spans with shear: -w L^2 / 8 / (1 + 3 E I / (G A L^2)) */
        const double shear = 3.0 * 2.4 * (1.0 / 12.0) / (5.0 / 6.0) / 400.0;
        const double whole = -24e3 * 0.8 * 400.0 / 8.0 / (1.0 + shear);
        assert_true(share > 0.3 && share < 0.8);
        assert_close(solved_left(&s, solved_after(&s, "late"), KL_MOMENT, "b", 20.0), whole * share,
                     2e-4, 0.0);
        solved_close(&s);
        draft_free(&t);
    }
}

/* ---- two ages -------------------------------------------------------------------------------------------- */

/* Two bars in one line between fixed ends, one old, one young, a force at their joint: the young one creeps more and hands
 * its share over. Stepped by plain superposition for both: the old one is stretched by what the young one is pressed. */
static double share_by_hand(const creep_function *f, double old, double young, double span)
{
    history past[2] = {{.n = 1}, {.n = 1}};
    const double age[2] = {old, young};
    const double give[2] = {f->elastic(f->context, old), f->elastic(f->context, young)};
    double stress =
        give[1] / (give[0] + give[1]); /* of the old one: of a unit force over the area */
    const double pressed = stress - 1.0;
    history_add(&past[0], old, old, &stress);
    history_add(&past[1], young, young, &pressed);
    const int count = time_steps_count(span, 120);
    double begun = 0.0;
    for (int i = 0; i < count; i++) {
        const double end = time_steps_end(span, count, i);
        double strain[2];
        double j = 0.0;
        for (int k = 0; k < 2; k++) {
            history_strain(&past[k], f, age[k] + end, &strain[k]);
            j += 0.5 * (creep_function_compliance(f, age[k] + end, age[k] + begun) +
                        creep_function_compliance(f, age[k] + end, age[k] + end));
        }
        const double change = -(strain[0] + strain[1]) / j; /* the same in both */
        for (int k = 0; k < 2; k++) {
            history_add(&past[k], age[k] + begun, age[k] + end, &change);
        }
        stress += change;
        begun = end;
    }
    history_free(&past[0]);
    history_free(&past[1]);
    return stress;
}

static void members_of_two_ages_share_a_load(void **state)
{
    (void)state;
    for (int i = 0; i < 2;
         i++) { /* the others begin too steeply for plain superposition in so few steps */
        text_draft t = {0};
        solved s;
        own_law law;
        add_concrete(&t, laws[i].words, "en1992 2004");
        draft_add(&t, "node A at (0 m, 0 m); node B at (5 m, 0 m); node C at (10 m, 0 m)\n"
                      "member a from A to B section r of mix { age 400 day; weightless }\n"
                      "member b from B to C section r of mix { age 3 day; weightless }\n"
                      "support A fixed; support C fixed\nload push { point 800 kN right at B }\n"
                      "stage set at 0 day { place a b }\nstage pushed at 4 day { load push }\n"
                      "stage late at 5000 day\n");
        solved_open(&s, t.text);
        find_law(&s, SIZE, &law);
        const double share = share_by_hand(&law.function, 404 * DAY, 7 * DAY, 4996 * DAY);
        const kl_state late = solved_after(&s, "late");
        assert_close(solved_value(&s, late, KL_AXIAL, "a", 2.0), 800e3 * share, 2e-4, 0.0);
        assert_true(solved_value(&s, late, KL_AXIAL, "a", 2.0) >
                    1.1 * solved_value(&s, solved_after(&s, "pushed"), KL_AXIAL, "a", 2.0));
        solved_close(&s);
        draft_free(&t);
    }
}

/* ---- what creeps and what does not ----------------------------------------------------------------------- */

/* An elastic post under the middle of a beam that creeps: nothing of the post creeps, and causes add up. Creep told by its
 * sources adds up to creep. */
static void sources_of_creep_add_up(void **state)
{
    (void)state;
    text_draft t = {0};
    solved s;
    add_concrete(&t, "mc1990", "en1992 2004");
    draft_add(
        &t, "material steel { modulus 200 GPa }\n"
            "section hp { area 0.01 m^2; inertia 1e-4 m^4 }\n"
            "node L at (0 m, 0 m); node R at (20 m, 0 m); node F at (8 m, -5 m)\n"
            "member b from L to R section r of mix { age 3 day }\nnode M on b at 8 m\n"
            "member post from F to M section hp of steel { axial_only; weightless }\n"
            "support L pinned; support R roller; support F pinned\n"
            "load heap { uniform 5 kN/m on b }\nload sinks { settle 10 mm at F down }\n"
            "stage set at 0 day { place b post }\nstage more at 20 day { load heap; load sinks }\n"
            "stage late at 4000 day\n");
    solved_open(&s, t.text);
    const kl_state late = solved_after(&s, "late");
    const kl_state creep = solved_from(late, KL_CAUSE_CREEP);
    double sum = 0.0;
    for (int source = 1; source < KL_CAUSE_COUNT; source++) {
        const kl_cause one = {KL_CAUSE_CREEP, source};
        const double part = solved_value(&s, kl_state_of_cause(late, one), KL_MOMENT, "b", 8.0);
        const bool creeps =
            source == KL_CAUSE_WEIGHT || source == KL_CAUSE_CASE || source == KL_CAUSE_MOVEMENT;
        assert_true((fabs(part) > 100.0) == creeps);
        sum += part;
    }
    assert_close(sum, solved_value(&s, creep, KL_MOMENT, "b", 8.0), 1e-12, 0.0);
    double all = sum;
    all += solved_value(&s, solved_from(late, KL_CAUSE_WEIGHT), KL_MOMENT, "b", 8.0);
    all += solved_value(&s, solved_from_case(&s, late, "heap"), KL_MOMENT, "b", 8.0);
    all += solved_value(&s, solved_from_case(&s, late, "sinks"), KL_MOMENT, "b", 8.0);
    assert_close(all, solved_value(&s, late, KL_MOMENT, "b", 8.0), 1e-9, 0.0);
    /* the post is as long as its force alone makes it */
    const double force = solved_value(&s, late, KL_AXIAL, "post", 2.0);
    assert_close(solved_node(&s, late, KL_DEFLECTION, "M") -
                     solved_node(&s, late, KL_DEFLECTION, "F"),
                 force * 5.0 / (200e9 * 0.01), 1e-9, 0.0);
    solved_close(&s);
    draft_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(constant_stress_creeps_by_phi),
        cmocka_unit_test(factor_of_creep_multiplies_phi),
        cmocka_unit_test(tapered_member_dries_by_its_mean),
        cmocka_unit_test(frame_built_whole_keeps_its_moments),
        cmocka_unit_test(redundant_of_a_settlement_relaxes),
        cmocka_unit_test(halved_steps_move_the_redundant_less_than_the_limit),
        cmocka_unit_test(creep_scales_with_the_load),
        cmocka_unit_test(joined_spans_tend_to_the_continuous_beam),
        cmocka_unit_test(joined_spans_creep_by_every_law),
        cmocka_unit_test(members_of_two_ages_share_a_load),
        cmocka_unit_test(sources_of_creep_add_up),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
