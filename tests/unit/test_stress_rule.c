/* test_stress_rule.c - what prestress members have, by the tendons that run through them.
 * SPDX-License-Identifier: MIT */
#include "stress_rule.h"

#include "assert_close.h"
#include "fault.h"

/* Five members in a line and a sixth without tendons. T0 is said to be grouted, T1 unbonded; T2 and T3 say nothing, and a
 * stage grouts T2 only. */
static const kl_index through[4][2] = {{0, 1}, {1, 2}, {3, 0}, {4, 2}};
static const kl_index grouts[] = {2};

typedef struct rule_fixture {
    kl_model model;
    kl_tendon tendons[4];
    kl_operation operation;
    kl_stage stage;
} rule_fixture;

static void rule_start(rule_fixture *f)
{
    *f = (rule_fixture){0};
    for (int t = 0; t < 4; t++) {
        f->tendons[t] =
            (kl_tendon){.members = through[t], .member_count = 2, .bond = KL_BOND_UNSET};
    }
    f->tendons[0].bond = KL_GROUTED;
    f->tendons[1].bond = KL_UNBONDED;
    f->operation = (kl_operation){.kind = KL_OP_GROUT, .items = {grouts, 1}};
    f->stage = (kl_stage){.operations = &f->operation, .operation_count = 1};
    f->model = (kl_model){.member_count = 6,
                          .tendons = f->tendons,
                          .tendon_count = 4,
                          .stages = &f->stage,
                          .stage_count = 1};
}

static void stress_rule_prestress_one_unbonded_tendon_decides(void **state)
{
    (void)state;
    static const rule_tendons want[] = {RULE_TENDONS_BONDED,   RULE_TENDONS_UNBONDED,
                                        RULE_TENDONS_UNBONDED, RULE_TENDONS_BONDED,
                                        RULE_TENDONS_UNBONDED, RULE_TENDONS_NONE};
    rule_fixture f;
    arena memory = {0};
    const rule_tendons *of_member = NULL;
    rule_start(&f);
    assert_int_equal(stress_rule_prestress(&f.model, &memory, &of_member), KL_OK);
    for (int m = 0; m < 6; m++) {
        assert_int_equal(of_member[m], want[m]);
    }
    arena_free(&memory);
}

static void stress_rule_prestress_memory_short_is_told(void **state)
{
    (void)state;
    kl_status status = KL_NO_MEMORY;
    for (long k = 0; status != KL_OK; k++) {
        rule_fixture f;
        arena memory = {0};
        const rule_tendons *of_member = NULL;
        rule_start(&f);
        fault_after(k);
        status = stress_rule_prestress(&f.model, &memory, &of_member);
        fault_after(-1);
        assert_true(status == KL_OK || status == KL_NO_MEMORY);
        arena_free(&memory);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stress_rule_prestress_one_unbonded_tendon_decides),
        cmocka_unit_test(stress_rule_prestress_memory_short_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
