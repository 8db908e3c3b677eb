/* test_law_shortening.c - elastic shortening of tendons that are stressed one after the other.
 *
 * N equal straight tendons at the centroid of a prism on two supports. With rho = E_p a / (E_c A), tendon k shortens the
 * concrete while k-1 earlier ones resist: each of these loses P rho / (1 + (k-1) rho). The hand rule leaves the resisting
 * out: tendon i loses n f_c1 (N - i), the mean is (N-1)/(2N) n f_cgp (prestressing texts; AASHTO LRFD 5.9.3.2.3b); it
 * is off by (N-1) rho at most.
 * SPDX-License-Identifier: MIT */
#include "draft.h"
#include "readings.h"

#define E_CONCRETE 30e9
#define E_STEEL    195e9
#define STEEL      1800e-6 /* m^2 of one tendon */
#define CONCRETE   (0.8 * 1.0)
#define JACK       2000e3
#define RHO        (E_STEEL * STEEL / (E_CONCRETE * CONCRETE))

enum { TENDONS = 5 };

/* `gross` as a phrase, or nothing: net and transformed sections. */
static void add_prism(text_draft *t, const char *gross)
{
    draft_add(t,
              "show si\n%s\n"
              "concrete mix { strength 40 MPa; transfer_strength 25 MPa; unit_weight 24 kN/m^3; "
              "modulus 30 GPa }\n"
              "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 195 GPa }\n"
              "section prism { rectangle width 0.8 m depth 1 m }\nnode L at (0 m, 0 m); node R "
              "at (20 m, 0 m)\n"
              "member beam from L to R section prism of mix { weightless }\nsupport L pinned; "
              "support R roller\n",
              gross);
}

static void add_tendon(text_draft *t, const char *name, int count, const char *bond)
{
    draft_add(
        t,
        "tendon %s in beam { of strand; strands 12 area 150 mm^2; count %d; profile from line {\n"
        "    anchor at start height 0 m; anchor at end height 0 m straight }\n"
        "  friction 0; wobble 0 per m; seating 0 mm; jack start force 2000 kN; %s }\n",
        name, count, bond);
}

static double force_in(const solved *m, kl_state state, kl_index tendon)
{
    double force = 0.0;
    assert_int_equal(kl_tendon_force(m->results, state, tendon, 8.0, KL_RIGHT, &force), KL_OK);
    return force;
}

static void tendons_lose_by_those_that_come_after(void **state)
{
    (void)state;
    text_draft t = {0};
    add_prism(&t, "sections gross");
    for (int i = 1; i <= TENDONS; i++) {
        const char name[] = {'T', (char)('0' + i), '\0'};
        add_tendon(&t, name, 1, "unbonded");
    }
    draft_add(
        &t, "stage set at 0 day { place beam }\nstage pulled at 7 day { stress T1 T2 T3 T4 T5 }\n");
    solved m;
    solved_run(&m, t.text, NULL);
    const kl_state pulled = solved_after(&m, "pulled");
    double sum = 0.0;
    double sum_of_losses = 0.0;
    for (int i = 1; i <= TENDONS; i++) {
        double loss = 0.0;
        for (int k = i + 1; k <= TENDONS; k++) {
            loss += JACK * RHO / (1.0 + (k - 1) * RHO);
        }
        const double force = force_in(&m, pulled, i - 1);
        assert_close(force, JACK - loss, 1e-10, 0.0);
        const double by_hand = JACK * RHO * (TENDONS - i);
        assert_true(JACK - force <= by_hand + 1e-9 * JACK);
        assert_true(JACK - force >= by_hand / (1.0 + (TENDONS - 1) * RHO) - 1e-9 * JACK);
        sum += force;
        sum_of_losses += JACK - force;
    }
    double resisted = 0.0;
    for (int k = 1; k <= TENDONS; k++) {
        resisted += (k - 1) * JACK * RHO / (1.0 + (k - 1) * RHO);
    }
    assert_close(sum_of_losses, resisted, 1e-9, 0.0);
    assert_close(solved_part(&m, pulled, KL_CONCRETE_SHARE, KL_AXIAL, "beam", 5.0), -sum, 1e-10,
                 0.0);
    assert_close(solved_part(&m, pulled, KL_TOTAL, KL_AXIAL, "beam", 5.0), 0.0, 0.0, 1e-9 * sum);
    solved_close(&m);
    draft_free(&t);
}

static void mean_own_loss_of_a_group_is_the_hand_rules(void **state)
{
    (void)state;
    text_draft t = {0};
    add_prism(&t, "sections gross");
    add_tendon(&t, "T", TENDONS, "unbonded");
    draft_add(&t, "stage set at 0 day { place beam }\nstage pulled at 7 day { stress T }\n");
    solved m;
    solved_run(&m, t.text, NULL);
    const double group = TENDONS * JACK * RHO; /* n f_cgp times the area of one */
    const double force = force_in(&m, solved_after(&m, "pulled"), 0);
    assert_close(force, JACK - group * (TENDONS - 1) / (2.0 * TENDONS), 1e-10, 0.0);
    solved_close(&m);
    draft_free(&t);
}

/* A grouted tendon belongs to the section: concrete less the steel's room, and the steel. */
static void grouted_tendon_follows_its_section(void **state)
{
    (void)state;
    text_draft t = {0};
    add_prism(&t, "");
    add_tendon(&t, "T1", 1, "bonded grouted");
    add_tendon(&t, "T2", 1, "bonded grouted");
    draft_add(&t, "stage set at 0 day { place beam }\nstage pulled at 28 day { stress T1; grout "
                  "T1; stress T2 }\n");
    solved m;
    solved_run(&m, t.text, NULL);
    const double strain = JACK / (E_CONCRETE * (CONCRETE - STEEL) + E_STEEL * STEEL);
    assert_close(force_in(&m, solved_after(&m, "pulled"), 0), JACK - E_STEEL * STEEL * strain,
                 1e-10, 0.0);
    solved_close(&m);
    draft_free(&t);
}

/* An ungrouted tendon of constant eccentricity under a point load at mid-span, on a simple beam: the flexibility of the
 * tied beam. dP (L/(E_p a) + L/(E A) + e^2 L/(E I)) = e * area of the moment diagram / (E I). */
static void ungrouted_tendon_ties_the_beam(void **state)
{
    (void)state;
    static const double e = 0.3, load = 100e3, span = 20.0;
    text_draft t = {0};
    add_prism(&t, "sections gross");
    draft_add(
        &t,
        "tendon T in beam { of strand; strands 12 area 150 mm^2; profile from line {\n"
        "    anchor at start height -0.3 m; anchor at end height -0.3 m straight }\n"
        "  friction 0; wobble 0 per m; seating 0 mm; jack start force 2000 kN; unbonded }\n"
        "load middle { point 100 kN on beam at 10 m }\n"
        "stage set at 0 day { place beam }\nstage pulled at 7 day { stress T }\nstage loaded at 8 "
        "day { load middle }\n");
    solved m;
    solved_run(&m, t.text, NULL);
    const double inertia = 0.8 / 12.0;
    const double give = span / (E_STEEL * STEEL) + span / (E_CONCRETE * CONCRETE) +
                        e * e * span / (E_CONCRETE * inertia);
    const double change = e * (load * span * span / 8.0) / (E_CONCRETE * inertia) / give;
    const kl_state pulled = solved_after(&m, "pulled");
    const kl_state loaded = solved_after(&m, "loaded");
    assert_close(force_in(&m, loaded, 0) - force_in(&m, pulled, 0), change, 1e-9, 0.0);
    assert_close(solved_part(&m, loaded, KL_CONCRETE_SHARE, KL_MOMENT, "beam", 10.0),
                 load * span / 4.0 - e * (JACK + change), 1e-9, 0.0);
    solved_close(&m);
    draft_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tendons_lose_by_those_that_come_after),
        cmocka_unit_test(mean_own_loss_of_a_group_is_the_hand_rules),
        cmocka_unit_test(grouted_tendon_follows_its_section),
        cmocka_unit_test(ungrouted_tendon_ties_the_beam),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
