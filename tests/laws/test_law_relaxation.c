/* test_law_relaxation.c - tendons that relax: between rigid anchorages by the steel's own law, and in concrete that creeps and
 * shrinks against the two materials stepped by hand.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "draft.h"
#include "history.h"
#include "readings.h"
#include "relaxation.h"
#include "shrinkage.h"
#include "time_steps.h"

#define DAY     KL_DAY
#define STEEL   1800e-6 /* m^2 of the tendon */
#define E_STEEL 195e9
#define AREA    0.8
#define JACK    2400e3

/* In a prism 0.8 m x 1 m x 20 m: of stone that gives way to nothing, or of concrete. */
static void add_prism(text_draft *t, const char *relaxation, const char *mix)
{
    draft_add(
        t,
        "show si\nsite { humidity 70 %% }\n%s\n"
        "prestressing strand { ultimate 1860 MPa; yield 1674 MPa; modulus 195 GPa; relaxation "
        "%s }\n"
        "section prism { rectangle width 0.8 m depth 1 m }\n"
        "node L at (0 m, 0 m); node R at (20 m, 0 m)\n"
        "support L pinned; support R roller\n",
        mix, relaxation);
}

static void add_tendon(text_draft *t, const char *friction, const char *bond)
{
    draft_add(t,
              "tendon T in b { of strand; strands 12 area 150 mm^2; profile from line {\n"
              "    anchor at start height 0 m; anchor at end height 0 m straight }\n"
              "  friction 0; wobble %s per m; seating 0 mm; jack start force 2400 kN; %s }\n",
              friction, bond);
}

#define STONE                                                                                      \
    "material stone { modulus 1e8 GPa }\nmember b from L to R section prism of stone { "           \
    "weightless }"

/* ---- between rigid anchorages ---------------------------------------------------------------------------- */

static const char *const kinds[] = {"low", "normal", "bar", "2.5 %", "8 %"};

static double own_loss(const solved *s, double force, double days)
{
    const relaxation_steel steel =
        relaxation_steel_of(&s->model->materials[solved_index(s, KL_KIND_MATERIAL, "strand")]);
    return STEEL * relaxation_intrinsic(&steel, force / STEEL, days * DAY);
}

/* At each place by the stress that is there; a grouted tendon keeps the differences, in whatever steps and pauses. */
static void grouted_tendon_relaxes_by_the_intrinsic_law(void **state)
{
    (void)state;
    for (int k = 0; k < 5; k++) {
        text_draft t = {0};
        solved s;
        add_prism(&t, kinds[k], STONE);
        add_tendon(&t, "0.005", "bonded grouted");
        draft_add(&t,
                  "stage set at 0 day { place b }\nstage pulled at 2 day { stress T; grout T }\n"
                  "stage first at 12 day\nstage second at 300 day\nstage third at 20002 day\n");
        solved_open(&s, t.text);
        static const char *const stages[] = {"first", "second", "third"};
        static const double days[] = {10.0, 298.0, 20000.0};
        for (double x = 1.3; x < 20.0; x += 4.1) {
            const double force = solved_force(&s, solved_after(&s, "pulled"), "T", x);
            assert_close(force, JACK * exp(-0.005 * x), 1e-6, 0.0);
            for (int i = 0; i < 3; i++) {
                const double loss = force - solved_force(&s, solved_after(&s, stages[i]), "T", x);
                assert_close(loss, own_loss(&s, force, days[i]), 1e-4, 0.0);
            }
        }
        solved_close(&s);
        draft_free(&t);
    }
}

/* A tendon that can slip loses the same all along: with friction 0 that is the law again; it is told as relaxation. */
static void unbonded_tendon_loses_the_same_all_along(void **state)
{
    (void)state;
    for (int k = 0; k < 5; k++) {
        text_draft t = {0};
        solved s;
        add_prism(&t, kinds[k], STONE);
        add_tendon(&t, k == 0 ? "0.005" : "0", "unbonded");
        draft_add(&t, "stage set at 0 day { place b }\nstage pulled at 2 day { stress T }\n"
                      "stage late at 1002 day\n");
        solved_open(&s, t.text);
        const kl_state pulled = solved_after(&s, "pulled");
        const kl_state late = solved_after(&s, "late");
        const double loss = solved_force(&s, pulled, "T", 1.0) - solved_force(&s, late, "T", 1.0);
        for (double x = 3.0; x < 20.0; x += 4.0) {
            assert_close(solved_force(&s, pulled, "T", x) - solved_force(&s, late, "T", x), loss,
                         1e-8, 0.0);
        }
        assert_close(-solved_force(&s, solved_from(late, KL_CAUSE_RELAXATION), "T", 5.0), loss,
                     1e-6, 0.0);
        if (k == 0) { /* between what its ends would lose */
            assert_true(loss < own_loss(&s, JACK, 1000.0));
            assert_true(loss > own_loss(&s, JACK * exp(-0.1), 1000.0));
        } else {
            assert_close(loss, own_loss(&s, JACK, 1000.0), 1e-6, 0.0);
        }
        solved_close(&s);
        draft_free(&t);
    }
}

/* Pulled again, it begins anew. */
static void restressed_tendon_begins_anew(void **state)
{
    (void)state;
    text_draft t = {0};
    solved s;
    add_prism(&t, "low", STONE);
    add_tendon(&t, "0", "unbonded");
    draft_add(&t, "stage set at 0 day { place b }\nstage pulled at 2 day { stress T to 80 %% }\n"
                  "stage again at 32 day { stress T }\nstage late at 132 day\n");
    solved_open(&s, t.text);
    const kl_state before = kl_state_step(kl_first_step(s.results, 2));
    const double partial = 0.8 * JACK;
    assert_close(solved_force(&s, before, "T", 5.0), partial - own_loss(&s, partial, 30.0), 1e-8,
                 0.0);
    assert_close(solved_force(&s, solved_after(&s, "again"), "T", 5.0), JACK, 1e-8, 0.0);
    assert_close(solved_force(&s, solved_after(&s, "late"), "T", 5.0),
                 JACK - own_loss(&s, JACK, 100.0), 1e-8, 0.0);
    solved_close(&s);
    draft_free(&t);
}

/* ---- in concrete ----------------------------------------------------------------------------------------- */

#define MIX                                                                                        \
    "concrete mix { strength 40 MPa; unit_weight 24 kN/m^3; cured 7 day; modulus 30 GPa\n"         \
    "  creep aci209 1992; shrinkage aci209 1992 }\n"                                               \
    "member b from L to R section prism of mix { age 7 day; weightless }"

typedef struct prism_laws {
    creep_subject creep;
    creep_function function;
    relaxation_steel steel;
} prism_laws;

static void find_laws(const solved *s, prism_laws *out)
{
    const kl_material *mix = &s->model->materials[solved_index(s, KL_KIND_MATERIAL, "mix")];
    out->creep = (creep_subject){
        .law = TIME_LAW_ACI209_1992,
        .concrete = {.material = mix, .humidity = 0.70, .volume_to_surface = 0.8 / 3.6}};
    out->function = creep_function_of(&out->creep);
    out->steel =
        relaxation_steel_of(&s->model->materials[solved_index(s, KL_KIND_MATERIAL, "strand")]);
}

/* Stress of the tendon after `span` from an age of 14 days, under the strain that both share: plain superposition and the
 * equivalent time in fine steps. `area`: of the concrete while it creeps. */
static double stress_by_hand(const prism_laws *laws, double area, double span, int per_decade)
{
    const double age = 14 * DAY;
    const double at_once = -JACK / AREA;
    history past = {.n = 1};
    relaxation_state relaxed = {0};
    double stress = JACK / STEEL;
    double strain = at_once * laws->function.elastic(laws->function.context, age);
    double begun = 0.0;
    const double shrunk = shrinkage_strain(TIME_LAW_ACI209_1992, &laws->creep.concrete, age);
    history_add(&past, age, age, &at_once);
    const int count = time_steps_count(span, per_decade);
    for (int i = 0; i < count; i++) {
        const double end = time_steps_end(span, count, i);
        const double j = 0.5 * (creep_function_compliance(&laws->function, age + end, age + begun) +
                                creep_function_compliance(&laws->function, age + end, age + end));
        double free = 0.0;
        history_strain(&past, &laws->function, age + end, &free);
        free += shrinkage_strain(TIME_LAW_ACI209_1992, &laws->creep.concrete, age + end) - shrunk;
        const double lost =
            relaxation_step(&laws->steel, stress + relaxed.lost, end - begun, &relaxed);
        /* area d + STEEL (E_STEEL (free + j d - strain) - lost) = 0 */
        const double change =
            -STEEL * (E_STEEL * (free - strain) - lost) / (area + STEEL * E_STEEL * j);
        stress += E_STEEL * (free + j * change - strain) - lost;
        strain = free + j * change;
        history_add(&past, age + begun, age + end, &change);
        begun = end;
    }
    history_free(&past);
    return stress;
}

static void tendon_loses_by_creep_shrinkage_and_relaxation_together(void **state)
{
    (void)state;
    for (int grouted = 0; grouted < 2; grouted++) {
        text_draft t = {0};
        solved s;
        prism_laws laws;
        add_prism(&t, "normal", MIX);
        add_tendon(&t, "0", grouted ? "bonded grouted" : "unbonded");
        draft_add(&t,
                  "stage set at 0 day { place b }\nstage pulled at 7 day { stress T%s }\n"
                  "stage late at 3007 day\n",
                  grouted ? "; grout T" : "");
        solved_open(&s, t.text);
        find_laws(&s, &laws);
        const double area = grouted ? AREA - STEEL : AREA;
        const double want = stress_by_hand(&laws, area, 3000 * DAY, 150);
        const kl_state late = solved_after(&s, "late");
        const double force = solved_force(&s, late, "T", 8.0);
        assert_close(force / STEEL, want, 2e-4, 0.0);
        assert_close(JACK - force, JACK - want * STEEL, 5e-4, 0.0);
        assert_true(force < 0.88 * JACK);
        double sum = solved_force(&s, solved_from(late, KL_CAUSE_PRESTRESS), "T", 8.0);
        static const kl_cause_kind kinds_of_loss[] = {KL_CAUSE_CREEP, KL_CAUSE_SHRINKAGE,
                                                      KL_CAUSE_RELAXATION};
        for (int i = 0; i < 3; i++) {
            const double part = solved_force(&s, solved_from(late, kinds_of_loss[i]), "T", 8.0);
            assert_true(part < -20e3);
            sum += part;
        }
        assert_close(sum, force, 1e-12, 0.0);
        /* the concrete carries what the tendon holds it with */
        assert_close(solved_part(&s, late, KL_CONCRETE_SHARE, KL_AXIAL, "b", 8.0), -force, 1e-9,
                     0.0);
        solved_close(&s);
        draft_free(&t);
    }
}

/* Relaxation is slower where creep and shrinkage shorten the tendon. */
static void relaxation_is_slowed_by_the_other_losses(void **state)
{
    (void)state;
    text_draft t = {0};
    solved s;
    add_prism(&t, "normal", MIX);
    add_tendon(&t, "0", "unbonded");
    draft_add(&t, "stage set at 0 day { place b }\nstage pulled at 7 day { stress T }\n"
                  "stage late at 3007 day\n");
    solved_open(&s, t.text);
    const kl_state late = solved_after(&s, "late");
    const double lost = -solved_force(&s, solved_from(late, KL_CAUSE_RELAXATION), "T", 8.0);
    assert_true(lost > 0.6 * own_loss(&s, JACK, 3000.0) && lost < 0.9 * own_loss(&s, JACK, 3000.0));
    solved_close(&s);
    draft_free(&t);
}

static void halved_steps_move_the_tendons_force_less_than_the_limit(void **state)
{
    (void)state;
    double force[2];
    for (int half = 0; half < 2; half++) {
        text_draft t = {0};
        solved s;
        add_prism(&t, "8 %", MIX);
        add_tendon(&t, "0.002", "bonded grouted");
        draft_add(&t,
                  "stage set at 0 day { place b }\nstage pulled at 7 day { stress T; grout T }\n"
                  "stage late at 10007 day\n");
        kl_settings settings = kl_settings_default();
        settings.steps_per_decade = half == 0 ? 24 : 48;
        solved_run(&s, t.text, &settings);
        force[half] = solved_force(&s, solved_after(&s, "late"), "T", 8.0);
        solved_close(&s);
        draft_free(&t);
    }
    assert_close(force[0], force[1], 2e-4, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(grouted_tendon_relaxes_by_the_intrinsic_law),
        cmocka_unit_test(unbonded_tendon_loses_the_same_all_along),
        cmocka_unit_test(restressed_tendon_begins_anew),
        cmocka_unit_test(tendon_loses_by_creep_shrinkage_and_relaxation_together),
        cmocka_unit_test(relaxation_is_slowed_by_the_other_losses),
        cmocka_unit_test(halved_steps_move_the_tendons_force_less_than_the_limit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
