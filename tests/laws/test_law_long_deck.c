/* test_law_long_deck.c - a continuous deck of very many equal spans under its uniform load keeps the values of the closed form,
 * from the ends to the middle, and the audit passes.
 *
 * Clapeyron's equation of three moments, M(k-1) + 4 M(k) + M(k+1) = -w l^2 / 2 with M(0) = 0, has the decaying solution
 * M(k) = -w l^2 / 12 (1 - (sqrt(3) - 2)^k); the reaction is w l + (M(k-1) - 2 M(k) + M(k+1)) / l. A rectangle without a shear
 * modulus does not shear.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>

#include "draft.h"
#include "solved.h"

#define SPAN 30.0
#define LOAD 40e3

enum { SPANS = 2000 };

static void open_deck(solved *m, int spans, const char *mesh)
{
    text_draft t = {0};
    draft_add(
        &t,
        "material elastic { modulus 30 GPa }\nsection deck { rectangle width 3 m depth 0.6 m }\n");
    for (int i = 0; i <= spans; i++) {
        draft_add(&t, "node P%d at (%d m, 0 m)\nsupport P%d %s\n", i, (int)SPAN * i, i,
                  i > 0 ? "roller" : "pinned");
    }
    for (int i = 1; i <= spans; i++) {
        draft_add(&t, "member s%d from P%d to P%d section deck of elastic%s\n", i, i - 1, i, mesh);
    }
    draft_add(&t, "load dead {\n");
    for (int i = 1; i <= spans; i++) {
        draft_add(&t, "uniform %g kN/m on s%d\n", LOAD * 1e-3, i);
    }
    draft_add(&t, "}\n");
    solved_open(m, t.text);
    draft_free(&t);
}

/* At support k of a deck that goes on without end. */
static double support_moment(int k)
{
    return -LOAD * SPAN * SPAN / 12.0 * (1.0 - pow(sqrt(3.0) - 2.0, k));
}

static void agrees_at(const solved *m, int spans, int k)
{
    char name[16];
    const kl_state state = solved_under(m, "dead");
    const int near = k < spans - k ? k : spans - k; /* the deck is its own mirror image */
    const double moment = support_moment(near);
    snprintf(name, sizeof name, "s%d", k);
    assert_close(solved_left(m, state, KL_MOMENT, name, SPAN), moment, 1e-9, 0.0);
    const double reaction =
        LOAD * SPAN + (support_moment(near - 1) - 2.0 * moment + support_moment(near + 1)) / SPAN;
    snprintf(name, sizeof name, "P%d", k);
    assert_close(solved_reaction(m, state, name, KL_Y), reaction, 1e-9, 0.0);
}

static void long_deck_keeps_the_closed_form(void **state)
{
    (void)state;
    static const int supports[] = {1, 2, 3, 10, SPANS / 2, SPANS - 3, SPANS - 1};
    solved m;
    open_deck(&m, SPANS, "");
    for (size_t i = 0; i < sizeof supports / sizeof supports[0]; i++) {
        agrees_at(&m, SPANS, supports[i]);
    }
    /* At mid-span in the middle of the deck w l^2 / 24, and the flat span's w l^4 / (384 EI). */
    const kl_state dead = solved_under(&m, "dead");
    const double stiffness = 30e9 * 3.0 * pow(0.6, 3.0) / 12.0;
    assert_close(solved_value(&m, dead, KL_MOMENT, "s1000", SPAN / 2.0), LOAD * SPAN * SPAN / 24.0,
                 1e-9, 0.0);
    assert_close(solved_value(&m, dead, KL_DEFLECTION, "s1000", SPAN / 2.0),
                 -LOAD * pow(SPAN, 4.0) / (384.0 * stiffness), 1e-9, 0.0);
    solved_close(&m);
}

/* The audit holds sums over the whole deck against one support's force: what rounding takes from a long sum must not show. */
static void long_deck_passes_its_audit(void **state)
{
    (void)state;
    solved m;
    kl_audit audit;
    open_deck(&m, SPANS, "");
    assert_int_equal(kl_audit_of_state(m.results, solved_under(&m, "dead"), &audit), KL_OK);
    assert_true(audit.passed);
    assert_true(audit.force_error < 1e-11 && audit.moment_error < 1e-11);
    assert_close(audit.load[1], -LOAD * SPAN * SPANS, 1e-13, 0.0);
    assert_close(audit.reaction[1], LOAD * SPAN * SPANS, 1e-13, 0.0);
    solved_close(&m);
}

static void finer_mesh_changes_nothing(void **state)
{
    (void)state;
    solved coarse;
    solved fine;
    open_deck(&coarse, 200, "");
    open_deck(&fine, 200, " { mesh 0.3 m }");
    for (int k = 1; k < 200; k += 33) {
        char name[16];
        snprintf(name, sizeof name, "P%d", k);
        assert_close(solved_reaction(&fine, solved_under(&fine, "dead"), name, KL_Y),
                     solved_reaction(&coarse, solved_under(&coarse, "dead"), name, KL_Y), 1e-10,
                     0.0);
    }
    solved_close(&coarse);
    solved_close(&fine);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(long_deck_keeps_the_closed_form),
        cmocka_unit_test(long_deck_passes_its_audit),
        cmocka_unit_test(finer_mesh_changes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
