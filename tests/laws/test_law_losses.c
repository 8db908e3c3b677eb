/* test_law_losses.c - losses of tendons by cause, each against a closed form on a prism, and together the whole.
 *
 * The prism is 0.8 m x 1 m x 20 m, of E 30 GPa whatever its age, with a straight tendon of 1800 mm^2 and 195 GPa at its
 * centroid: n = 6.5, rho = 0.00225, n rho = 0.014625. Gross sections, not grouted, so that the steel has all of the
 * concrete against it and nothing else.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "draft.h"
#include "readings.h"
#include "relaxation.h"

#define MPA     1e6
#define E_STEEL 195e9
#define STEEL   1800e-6
#define JACK    2000e3
#define PULL    (JACK / STEEL)
#define N_RHO   0.014625

/* `mix` and `steel`: more about the materials. */
static void add_prism(text_draft *t, const char *mix, const char *steel)
{
    draft_add(t,
              "show si\nsections gross\nsite { humidity 70 %% }\n"
              "concrete mix { strength 40 MPa; transfer_strength 30 MPa; unit_weight 24 kN/m^3; "
              "modulus 30 GPa; expansion 1e-5 per degC; cured 28 day; %s }\n"
              "prestressing strand { ultimate 1860 MPa; yield 1674 MPa; modulus 195 GPa; %s }\n"
              "section prism { rectangle width 0.8 m depth 1 m }\n"
              "node L at (0 m, 0 m); node R at (20 m, 0 m)\n"
              "member b from L to R section prism of mix { age 28 day; weightless }\n"
              "support L fixed\n",
              mix, steel);
}

static void
add_tendon(text_draft *t, const char *name, const char *jack, const char *wobble, const char *set)
{
    draft_add(
        t,
        "tendon %s in b { of strand; strands 12 area 150 mm^2; profile from line {\n"
        "    anchor at start height 0 m; anchor at end height 0 m straight }\n"
        "  friction 0; wobble %s per m; seating %s; jack %s force 2000 kN; bonded grouted }\n",
        name, wobble, set, jack);
}

static double sum_of(const kl_tendon_losses *l)
{
    double sum = 0.0;
    for (int i = 0; i < KL_LOSS_COUNT; i++) {
        sum += l->lost[i];
    }
    return sum;
}

/* Jack less losses is what is left, and that is the tendon's force over its area. */
static kl_tendon_losses losses_of(const solved *s, kl_state state, const char *tendon, double x)
{
    kl_tendon_losses l;
    const kl_index index = solved_index(s, KL_KIND_TENDON, tendon);
    assert_int_equal(kl_losses_at_station(s->results, state, index, x, KL_RIGHT, &l), KL_OK);
    assert_close(l.jack - sum_of(&l), l.left, 1e-12, 0.0);
    const kl_tendon *t = &s->model->tendons[index];
    assert_close(l.left * t->units * t->unit_area, solved_force(s, state, tendon, x), 1e-12, 0.0);
    return l;
}

/* All but one cause took nothing. */
static void only(const kl_tendon_losses *l, kl_loss cause)
{
    for (int i = 0; i < KL_LOSS_COUNT; i++) {
        assert_close(i == (int)cause ? 0.0 : l->lost[i], 0.0, 0.0, 1e-9 * l->jack);
    }
}

static void open_prism(solved *s, const char *mix, const char *steel, const char *stages)
{
    text_draft t = {0};
    add_prism(&t, mix, steel);
    add_tendon(&t, "T", "start", "0", "0 mm");
    draft_add(&t, "%s", stages);
    solved_open(s, t.text);
    draft_free(&t);
}

#define STILL  "creep none; shrinkage none"
#define STEADY "relaxation none"
#define STAGES "stage set at 0 day { place b }\nstage pulled at 0 day { stress T }\n"

/* ---- when it is stressed ---------------------------------------------------------------------------------- */

/* Straight, K = 0.004 per m: P = P_j exp(-K x). A set turns it round to exp(-K z) = 1 - sqrt(set A E K / P_j), and there
 * the tendon has P_j exp(-K (2 z - x)). */
static void friction_and_seating_are_those_of_the_exponential(void **state)
{
    (void)state;
    static const double wobble = 0.004, set = 4e-3;
    const double z = -log(1.0 - sqrt(set * STEEL * E_STEEL * wobble / JACK)) / wobble;
    text_draft t = {0};
    solved s;
    add_prism(&t, STILL, STEADY);
    add_tendon(&t, "T", "start", "0.004", "4 mm");
    draft_add(&t, STAGES);
    solved_open(&s, t.text);
    assert_true(z > 5.0 && z < 19.0);
    for (double x = 0.0; x < 20.0; x += 1.7) {
        const kl_tendon_losses l = losses_of(&s, solved_after(&s, "pulled"), "T", x);
        const double pulled = PULL * exp(-wobble * x);
        const double seated = x < z ? PULL * exp(-wobble * (2.0 * z - x)) : pulled;
        assert_close(l.jack, PULL, 1e-12, 0.0);
        assert_close(l.lost[KL_LOSS_FRICTION], PULL - pulled, 0.0, 1e-7 * PULL);
        assert_close(l.lost[KL_LOSS_SEATING], pulled - seated, 0.0, 1e-7 * PULL);
        assert_close(l.lost[KL_LOSS_SHORTENING], 0.0, 0.0, 1e-9 * PULL);
    }
    solved_close(&s);
    draft_free(&t);
}

/* Pulled at both ends one after the other, friction is that of the nearer jack; what the first end lost when it was seated is
 * not friction. */
static void second_end_leaves_the_seating_of_the_first_what_it_is(void **state)
{
    (void)state;
    static const double wobble = 0.004;
    text_draft t = {0};
    solved s;
    add_prism(&t, STILL, STEADY);
    add_tendon(&t, "T", "start then end", "0.004", "1 mm");
    draft_add(&t, STAGES);
    solved_open(&s, t.text);
    const kl_state pulled = solved_after(&s, "pulled");
    const double drop = sqrt(1e-3 * STEEL * E_STEEL * wobble / JACK); /* 1 - exp(-K z) */
    for (double x = 0.0; x < 20.5; x += 2.0) {
        const double nearer = fmin(x, 20.0 - x);
        const kl_tendon_losses l = losses_of(&s, pulled, "T", x);
        assert_close(l.lost[KL_LOSS_FRICTION], PULL * (1.0 - exp(-wobble * nearer)), 0.0,
                     1e-6 * PULL);
    }
    const double at_anchor = PULL * (1.0 - (1.0 - drop) * (1.0 - drop));
    assert_close(losses_of(&s, pulled, "T", 0.0).lost[KL_LOSS_SEATING], at_anchor, 1e-5, 0.0);
    assert_close(losses_of(&s, pulled, "T", 20.0).lost[KL_LOSS_SEATING], at_anchor, 1e-5, 0.0);
    solved_close(&s);
    draft_free(&t);
}

/* Both ends pulled at once, and a set that uses up the whole tendon: the anchors' zones meet, and friction alone still has its
 * kink in the middle; the bend makes that another place than where the zones meet. Friction: mu 0.2, 0.1 rad in the first 8 m. */
static void friction_keeps_its_kink_where_seating_has_none(void **state)
{
    (void)state;
    text_draft t = {0};
    solved s;
    add_prism(&t, STILL, STEADY);
    draft_add(&t, "tendon T in b { of strand; strands 12 area 150 mm^2; profile from line {\n"
                  "    anchor at start height 0 m; anchor at end height 0 m straight }\n"
                  "  bend 0.1 rad from 0 m to 8 m\n"
                  "  friction 0.2; wobble 0.001 per m; seating 6 mm; jack both force 2000 kN; "
                  "bonded grouted }\n" STAGES);
    solved_open(&s, t.text);
    const double whole = 0.2 * 0.1 + 0.001 * 20.0;
    for (double x = 0.0; x < 20.0; x += 0.3) {
        const double phi = 0.2 * 0.1 * fmin(x / 8.0, 1.0) + 0.001 * x;
        const kl_tendon_losses l = losses_of(&s, solved_after(&s, "pulled"), "T", x);
        assert_close(l.lost[KL_LOSS_FRICTION], PULL * (1.0 - exp(-fmin(phi, whole - phi))), 0.0,
                     1e-7 * PULL);
        assert_true(l.lost[KL_LOSS_SEATING] > 10.0 * MPA);
    }
    solved_close(&s);
    draft_free(&t);
}

/* The second tendon shortens the first by n f_c, less what the first holds against it; a group of four, in itself, by 3/8 of
 * what the four together would take from one. */
static void shortening_is_by_those_that_come_later_and_within_the_group(void **state)
{
    (void)state;
    text_draft t = {0};
    solved s;
    add_prism(&t, STILL, STEADY);
    add_tendon(&t, "T", "start", "0", "0 mm");
    add_tendon(&t, "U", "start", "0", "0 mm");
    draft_add(&t, "tendon G like T { count 4 }\n");
    draft_add(&t,
              "stage set at 0 day { place b }\nstage pulled at 0 day { stress T U }\n"
              "stage slack at 1 day { slacken U }\nstage group at 2 day { slacken T; stress G }\n");
    solved_open(&s, t.text);
    kl_tendon_losses l = losses_of(&s, solved_after(&s, "pulled"), "T", 8.0);
    only(&l, KL_LOSS_SHORTENING);
    assert_close(l.lost[KL_LOSS_SHORTENING], PULL * N_RHO / (1.0 + N_RHO), 1e-10, 0.0);
    l = losses_of(&s, solved_after(&s, "pulled"), "U", 8.0);
    assert_close(sum_of(&l), 0.0, 0.0, 1e-9 * PULL);
    l = losses_of(&s, solved_after(&s, "slack"), "T", 8.0); /* what U took it gives back */
    assert_close(l.lost[KL_LOSS_SHORTENING], 0.0, 0.0, 1e-9 * PULL);
    l = losses_of(&s, solved_after(&s, "group"), "G", 8.0);
    only(&l, KL_LOSS_SHORTENING);
    assert_close(l.lost[KL_LOSS_SHORTENING], 0.375 * 4.0 * PULL * N_RHO, 1e-9, 0.0);
    kl_tendon_losses none;
    const kl_index slack = solved_index(&s, KL_KIND_TENDON, "T");
    assert_int_equal(
        kl_losses_at_station(s.results, solved_after(&s, "group"), slack, 8.0, KL_RIGHT, &none),
        KL_NOT_THERE);
    assert_int_equal(kl_losses_on_average(s.results, solved_after(&s, "set"), slack, &none),
                     KL_NOT_THERE);
    solved_close(&s);
    draft_free(&t);
}

/* ---- what comes later ------------------------------------------------------------------------------------- */

/* By hand: 300e-6 x 195 GPa = 58.5 MPa, over 1 + n rho: 57.657 MPa. */
static void shrinkage_takes_its_strain_less_what_the_concrete_gives_way(void **state)
{
    (void)state;
    solved s;
    open_prism(&s, "creep none; shrinkage user { strain 300e-6 }", STEADY,
               STAGES "stage late at 5000 day\n");
    const kl_tendon_losses l = losses_of(&s, solved_after(&s, "late"), "T", 8.0);
    only(&l, KL_LOSS_SHRINKAGE);
    assert_close(l.lost[KL_LOSS_SHRINKAGE], 57.657 * MPA, 1e-4, 0.0);
    solved_close(&s);
}

/* A concrete that does not age, phi 2: P (1 + n rho (1 + phi)) = P_0 (1 + n rho) in the end, so that creep takes
 * 1111.1 MPa x 0.014625 x 2 / (1 + 0.014625 x 3) = 31.134 MPa. No phi, no loss. */
static void creep_of_the_prestress_takes_what_the_standard_solid_gives(void **state)
{
    (void)state;
    solved s;
    for (int k = 0; k < 2; k++) {
        open_prism(&s, k == 0 ? "creep user { phi 2.0 }; shrinkage none" : STILL, STEADY,
                   STAGES "stage late at 5000 day\n");
        const kl_tendon_losses l = losses_of(&s, solved_after(&s, "late"), "T", 8.0);
        only(&l, KL_LOSS_CREEP);
        assert_close(l.lost[KL_LOSS_CREEP], k == 0 ? 31.134 * MPA : 0.0, 2e-4, 1e-9 * PULL);
        solved_close(&s);
    }
}

/* One wire follows without holding anything back: 8000 kN on 0.8 m^2 are 10 MPa, at once 10 x 6.5 = 65 MPa, and as much again
 * for each phi. Twice the creep is twice the loss; none is none. */
static void wire_follows_a_load_and_its_creep_in_proportion(void **state)
{
    (void)state;
    for (int k = 0; k <= 2; k++) {
        text_draft t = {0};
        solved s;
        kl_settings settings = kl_settings_default();
        add_prism(&t, "creep user { phi 2.0 }; shrinkage none", STEADY);
        draft_add(&t, "tendon T in b { of strand; strands 1 area 1 mm^2; profile from line {\n"
                      "    anchor at start height 0 m; anchor at end height 0 m straight }\n"
                      "  friction 0; wobble 0 per m; seating 0 mm; jack start stress 1000 MPa; "
                      "bonded grouted }\n"
                      "load push { point 8000 kN left at R }\n" STAGES
                      "stage pushed at 10 day { load push }\nstage late at 5000 day\n");
        settings.creep_factor = k;
        solved_run(&s, t.text, &settings);
        const kl_tendon_losses l = losses_of(&s, solved_after(&s, "late"), "T", 8.0);
        assert_close(l.lost[KL_LOSS_LOADS], 65.0 * MPA, 1e-4, 0.0);
        assert_close(l.lost[KL_LOSS_CREEP], 130.0 * MPA * k, 2e-4, 1e-9 * l.jack);
        solved_close(&s);
        draft_free(&t);
    }
}

/* Stone gives way to nothing: the steel's own law, at each place under the stress that is there. */
static void relaxation_between_rigid_anchors_is_the_steels_own(void **state)
{
    (void)state;
    text_draft t = {0};
    solved s;
    draft_add(&t, "show si\nmaterial mix { modulus 1e8 GPa }\n"
                  "prestressing strand { ultimate 1860 MPa; yield 1674 MPa; modulus 195 GPa; "
                  "relaxation low }\nsection prism { rectangle width 0.8 m depth 1 m }\n"
                  "node L at (0 m, 0 m); node R at (20 m, 0 m)\n"
                  "member b from L to R section prism of mix { weightless }\n"
                  "support L pinned; support R roller\n");
    add_tendon(&t, "T", "start", "0.004", "0 mm");
    draft_add(&t, "stage set at 0 day { place b }\nstage pulled at 2 day { stress T; grout T }\n"
                  "stage late at 3002 day\n");
    solved_open(&s, t.text);
    const relaxation_steel steel =
        relaxation_steel_of(&s.model->materials[solved_index(&s, KL_KIND_MATERIAL, "strand")]);
    for (double x = 0.0; x < 20.0; x += 3.3) {
        const kl_tendon_losses l = losses_of(&s, solved_after(&s, "late"), "T", x);
        const double held = PULL * exp(-0.004 * x);
        assert_close(l.lost[KL_LOSS_RELAXATION],
                     relaxation_intrinsic(&steel, held, 3000.0 * KL_DAY), 1e-4, 0.0);
        assert_close(l.left, l.jack - l.lost[KL_LOSS_FRICTION] - l.lost[KL_LOSS_RELAXATION], 1e-6,
                     0.0);
    }
    solved_close(&s);
    draft_free(&t);
}

/* 150 MPa put in as a lump leaves 150 / (1 + n rho) of loss: the concrete gives way. A support that goes 5 mm over 20 m takes
 * 195 GPa x 5 / 20000 = 48.75 MPa from a tendon it shortens. */
static void lumps_and_movements_have_columns_of_their_own(void **state)
{
    (void)state;
    solved s;
    open_prism(&s, STILL, STEADY, STAGES "stage late at 9 day { lose T 150 MPa }\n");
    kl_tendon_losses l = losses_of(&s, solved_after(&s, "late"), "T", 8.0);
    only(&l, KL_LOSS_LUMP);
    assert_close(l.lost[KL_LOSS_LUMP], 150.0 * MPA / (1.0 + N_RHO), 1e-10, 0.0);
    solved_close(&s);
    open_prism(&s, STILL, STEADY,
               "load sink { settle 5 mm at R left }\n" STAGES
               "stage held at 8 day { support R fixed }\nstage moved at 9 day { load sink }\n");
    l = losses_of(&s, solved_after(&s, "moved"), "T", 8.0);
    only(&l, KL_LOSS_MOVEMENT);
    assert_close(l.lost[KL_LOSS_MOVEMENT], 48.75 * MPA, 1e-9, 0.0);
    solved_close(&s);
}

/* Grouted, in a member held at both ends, 20 K take 195 GPa x 1e-5 x 20 = 39 MPa. The loads of the case besides stay with the loads. */
static void warmth_has_a_column_of_its_own(void **state)
{
    (void)state;
    text_draft t = {0};
    solved s;
    draft_add(&t, "show si\n"
                  "concrete mix { strength 40 MPa; modulus 30 GPa; expansion 1e-5 per degC }\n"
                  "prestressing strand { ultimate 1860 MPa; yield 1674 MPa; modulus 195 GPa; "
                  "relaxation none }\nsection prism { rectangle width 0.8 m depth 1 m }\n"
                  "node L at (0 m, 0 m); node R at (20 m, 0 m)\n"
                  "member b from L to R section prism of mix { age 28 day; weightless }\n"
                  "support L fixed\nload summer { warm 20 degC on b; point 600 kN left on b at "
                  "10 m }\n");
    add_tendon(&t, "T", "start", "0", "0 mm");
    draft_add(&t, "stage set at 0 day { place b }\nstage pulled at 2 day { stress T; grout T }\n"
                  "stage warm at 3 day { support R fixed; load summer }\n");
    solved_open(&s, t.text);
    static const double x[2] = {4.0, 16.0};
    const double rigidity = 30e9 * (0.8 - STEEL) + E_STEEL * STEEL;
    for (int i = 0; i < 2; i++) { /* 300 kN of push on one side, of pull on the other */
        const kl_tendon_losses l = losses_of(&s, solved_after(&s, "warm"), "T", x[i]);
        const double strain = (i == 0 ? 300e3 : -300e3) / rigidity;
        assert_close(l.lost[KL_LOSS_TEMPERATURE], 39.0 * MPA, 1e-9, 0.0);
        assert_close(l.lost[KL_LOSS_LOADS], strain * E_STEEL, 1e-9, 0.0);
    }
    solved_close(&s);
    draft_free(&t);
}

/* ---- from when they count --------------------------------------------------------------------------------- */

/* Pulled to a half, crept for long, pulled in full: nothing of what was lost before counts any more. */
static void losses_count_from_the_last_stressing(void **state)
{
    (void)state;
    solved s;
    open_prism(&s, "creep user { phi 2.0 }; shrinkage user { strain 300e-6 }", "relaxation low",
               "stage set at 0 day { place b }\nstage half at 0 day { stress T to 50 % }\n"
               "stage full at 2000 day { stress T }\nstage late at 8000 day\n");
    kl_tendon_losses l = losses_of(&s, solved_after(&s, "half"), "T", 8.0);
    assert_close(l.jack, 0.5 * PULL, 1e-12, 0.0);
    const kl_index full = kl_last_step(s.results, solved_index(&s, KL_KIND_STAGE, "full"));
    l = losses_of(&s, kl_state_step(full - 1), "T", 8.0);
    assert_true(l.lost[KL_LOSS_CREEP] > 10.0 * MPA && l.lost[KL_LOSS_SHRINKAGE] > 50.0 * MPA);
    l = losses_of(&s, kl_state_step(full), "T", 8.0);
    assert_int_equal(l.step, full);
    assert_close(l.jack, PULL, 1e-12, 0.0);
    assert_close(sum_of(&l), 0.0, 0.0, 1e-9 * PULL);
    l = losses_of(&s, solved_after(&s, "late"), "T", 8.0);
    assert_close(l.lost[KL_LOSS_SHRINKAGE], 0.0, 0.0, 1e-3 * MPA); /* all of it came before */
    assert_true(l.lost[KL_LOSS_CREEP] > 10.0 * MPA && l.lost[KL_LOSS_RELAXATION] > 10.0 * MPA);
    solved_close(&s);
}

/* Between two stages they lie between those of the stages, and the mean is that of the places. */
static void moments_and_means_fit_the_places_and_stages(void **state)
{
    (void)state;
    static const double when[] = {100.0 * KL_DAY};
    text_draft t = {0};
    solved s;
    kl_settings settings = kl_settings_default();
    settings.moments = when;
    settings.moment_count = 1;
    add_prism(&t, "creep user { phi 2.0 }; shrinkage user { strain 300e-6 }", "relaxation low");
    add_tendon(&t, "T", "both", "0.004", "2 mm");
    draft_add(&t, STAGES "stage late at 5000 day\n");
    solved_run(&s, t.text, &settings);
    assert_int_equal(kl_moment_count(s.results), 1);
    const kl_tendon_losses then = losses_of(&s, kl_state_moment(0), "T", 8.0);
    const kl_tendon_losses late = losses_of(&s, solved_after(&s, "late"), "T", 8.0);
    for (int i = KL_LOSS_CREEP; i <= KL_LOSS_RELAXATION; i++) {
        assert_true(then.lost[i] > 1.0 * MPA && late.lost[i] > then.lost[i]);
    }
    kl_tendon_losses mean;
    assert_int_equal(kl_losses_on_average(s.results, solved_after(&s, "late"), 0, &mean), KL_OK);
    assert_close(mean.jack - sum_of(&mean), mean.left, 1e-12, 0.0);
    double friction =
        0.0; /* both ends pulled: (1 - (1 - e^-Kh) / (K h)) over each half, h = 10 m */
    friction = PULL * (1.0 - (1.0 - exp(-0.04)) / 0.04);
    assert_close(mean.lost[KL_LOSS_FRICTION], friction, 1e-5, 0.0);
    assert_close(mean.lost[KL_LOSS_SEATING], 2.0 * 2e-3 * E_STEEL / 20.0, 1e-5, 0.0);
    solved_close(&s);
    draft_free(&t);
}

/* Without stages: under the case that stresses it, a tendon follows the loads of that case. */
static void tendon_of_a_case_has_its_losses_under_that_case(void **state)
{
    (void)state;
    text_draft t = {0};
    solved s;
    add_prism(&t, STILL, STEADY);
    add_tendon(&t, "T", "start", "0.004", "0 mm");
    draft_add(&t, "load pull { stress T }\nload push { point 8000 kN left at R }\n");
    solved_open(&s, t.text);
    const kl_tendon_losses l = losses_of(&s, solved_under(&s, "pull"), "T", 8.0);
    assert_int_equal(l.step, KL_NONE);
    assert_close(l.lost[KL_LOSS_FRICTION], PULL * (1.0 - exp(-0.032)), 0.0, 1e-7 * PULL);
    kl_tendon_losses none;
    assert_int_equal(
        kl_losses_at_station(s.results, solved_under(&s, "push"), 0, 8.0, KL_RIGHT, &none),
        KL_NOT_THERE);
    solved_close(&s);
    draft_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(friction_and_seating_are_those_of_the_exponential),
        cmocka_unit_test(second_end_leaves_the_seating_of_the_first_what_it_is),
        cmocka_unit_test(friction_keeps_its_kink_where_seating_has_none),
        cmocka_unit_test(shortening_is_by_those_that_come_later_and_within_the_group),
        cmocka_unit_test(shrinkage_takes_its_strain_less_what_the_concrete_gives_way),
        cmocka_unit_test(creep_of_the_prestress_takes_what_the_standard_solid_gives),
        cmocka_unit_test(wire_follows_a_load_and_its_creep_in_proportion),
        cmocka_unit_test(relaxation_between_rigid_anchors_is_the_steels_own),
        cmocka_unit_test(lumps_and_movements_have_columns_of_their_own),
        cmocka_unit_test(warmth_has_a_column_of_its_own),
        cmocka_unit_test(losses_count_from_the_last_stressing),
        cmocka_unit_test(moments_and_means_fit_the_places_and_stages),
        cmocka_unit_test(tendon_of_a_case_has_its_losses_under_that_case),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
