/* test_consistency.c - each message of kl_model_check about what a model declares and asks: a model that draws it
 * and one that does not. Those about stages are in test_consistency_stages.c.
 * SPDX-License-Identifier: MIT */
#include "bent.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "fault.h"

static void check_sound_bent_draws_nothing(void **state)
{
    (void)state;
    bent_assert_silent(bent_make);
}

static void check_sound_beam_draws_nothing(void **state)
{
    (void)state;
    bent_assert_silent(bent_make_beam);
}

/* ---- changes: materials, sections, members ------------------------------------------------------------- */

static void no_modulus(bent *b)
{
    b->materials[CONCRETE].modulus_law = KL_LAW_UNSET;
}
static void no_strength(bent *b)
{
    b->materials[CONCRETE].strength = NAN;
}
static void no_density(bent *b)
{
    b->materials[CONCRETE].unit_weight = NAN;
}
static void weighs_without_density(bent *b)
{
    no_density(b);
    b->materials[CONCRETE].modulus_law = KL_LAW_VALUE;
    b->materials[CONCRETE].modulus = 30e9;
}
static void weightless_without_density(bent *b)
{
    weighs_without_density(b);
    for (kl_index m = 0; m < b->member_count; m++) {
        b->members[m].weightless = true;
    }
}
static void zero_density(bent *b)
{
    weighs_without_density(b);
    b->materials[CONCRETE].unit_weight = 0.0;
}
static void steel_without_modulus(bent *b)
{
    b->materials[STEEL].modulus_law = KL_LAW_UNSET;
}
static void steel_without_ultimate(bent *b)
{
    b->materials[STEEL].ultimate = NAN;
}
static void bare_without_inertia(bent *b)
{
    b->sections[COLUMN_SECTION].shape = KL_BARE;
    b->sections[COLUMN_SECTION].area = 2.0;
}
static void axial_needs_only_area(bent *b)
{
    bare_without_inertia(b);
    b->members[COL_1].axial_only = b->members[COL_2].axial_only = true;
}
static void outline_shear(bent *b)
{
    static const kl_point corners[] = {{0, 0}, {2, 0}, {2, 2}, {0, 2}};
    kl_section *s = &b->sections[CAP_SECTION];
    s->shape = KL_OUTLINE;
    s->outline = (kl_polygon){corners, 4};
    s->shear_flexible = true;
}
static void outline_with_shear_area(bent *b)
{
    outline_shear(b);
    b->sections[CAP_SECTION].shear_area = 3.0;
}
static void steel_shear(bent *b)
{
    bent_add_material(b, KL_ELASTIC, "timber");
    b->materials[SPARE_MATERIAL].modulus = 11e9;
    b->materials[SPARE_MATERIAL].unit_weight = 5e3;
    b->members[COL_1].material = b->members[COL_2].material = SPARE_MATERIAL;
    b->sections[COLUMN_SECTION].shear_flexible = true;
}
static void steel_shear_known(bent *b)
{
    steel_shear(b);
    b->materials[SPARE_MATERIAL].shear_modulus = 0.7e9;
}
static void tendon_in_tie(bent *b)
{
    b->members[CAP].axial_only = true;
}
static void small_ram(bent *b)
{
    b->tendon.ram_area = 0.02;
}
static void both_ends_and_a_dead_end(bent *b)
{
    b->tendon.jack_ends = KL_JACK_BOTH;
    b->tendon.dead_end = 0.003;
}
static void one_end_and_a_dead_end(bent *b)
{
    b->tendon.jack_ends = KL_JACK_END_THEN_START;
    b->tendon.dead_end = 0.003;
}

/* ---- changes: supports, bearings, nodes ----------------------------------------------------------------- */

static void support_doubled(bent *b)
{
    bent_add_support(b, A);
}
static void supports_differ(bent *b)
{
    const kl_index s = bent_add_support(b, A);
    b->supports[s].hold[1] = (kl_hold){KL_SPRING, 1e8};
}
static void slopes_differ(bent *b)
{
    b->supports[bent_add_support(b, A)].slope = 0.3;
}
static void supports_complement(bent *b)
{
    b->supports[0].hold[KL_TURN].kind = KL_FREE;
    const kl_index s = bent_add_support(b, A);
    b->supports[s].hold[KL_X].kind = b->supports[s].hold[KL_Y].kind = KL_FREE;
}
static kl_index node_at_c(bent *b, const char *name)
{
    const kl_index n = bent_add_node(b, name, 7, 8);
    return n;
}
static void add_bearing(bent *b, kl_index node, kl_index base)
{
    kl_bearing bearing = {.origin = KL_NOWHERE, .node = node, .base = base};
    bearing.hold[KL_Y].kind = KL_PUSH_PLUS;
    b->bearings[b->bearing_count++] = bearing;
}
static void column_top_apart(bent *b)
{
    b->members[COL_1].to = node_at_c(b, "P");
}
static void column_top_on_bearing(bent *b)
{
    column_top_apart(b);
    add_bearing(b, C, b->members[COL_1].to);
    b->combination_count = 0; /* the bearing can lift */
}
static void combination_over_bearing(bent *b)
{
    column_top_on_bearing(b);
    b->combination_count = 1;
}
static void two_bearings(bent *b)
{
    column_top_on_bearing(b);
    add_bearing(b, C, node_at_c(b, "Q"));
}
static void bearings_in_circle(bent *b)
{
    column_top_on_bearing(b);
    add_bearing(b, b->members[COL_1].to, C);
}
static void lonely_node(bent *b)
{
    bent_add_node(b, "X", 50, 0);
}
static void crossing_brace(bent *b)
{
    bent_add_brace(b, A, D);
    const kl_index m = bent_add_member(b, "brace_2", B, C, COLUMN_SECTION);
    bent_add_operation(b, CAST_COLUMNS, KL_OP_PLACE, m);
}
static void single_brace(bent *b)
{
    bent_add_brace(b, A, D);
}
static void prop_under_cap(bent *b) /* its top is drawn on the cap's line, not `on cap` */
{
    const kl_index foot = bent_add_node(b, "E", 15, 0);
    const kl_index top = bent_add_node(b, "F", 15, 8);
    bent_add_brace(b, foot, top);
}
static void prop_joined(bent *b)
{
    bent_add_brace(b, bent_add_node(b, "E", 15, 0), bent_add_on_cap(b, "F", 15));
}
static void doubled_column(bent *b)
{
    bent_add_brace(b, A, C);
}

/* ---- changes: loads ------------------------------------------------------------------------------------- */

static void settle_free(bent *b)
{
    b->supports[0].hold[KL_Y].kind = KL_FREE;
    (void)bent_add_load(b, KL_LOAD_SETTLE, KL_NONE, A);
}
static void settle_held(bent *b)
{
    (void)bent_add_load(b, KL_LOAD_SETTLE, KL_NONE, A);
}
static void
settle_across_slope(bent *b) /* free along 30 degrees: straight down is not wholly held */
{
    b->supports[0].slope = 0.5236;
    b->supports[0].hold[KL_X].kind = KL_FREE;
    (void)bent_add_load(b, KL_LOAD_SETTLE, KL_NONE, A);
}
static void settle_square_to_slope(bent *b)
{
    settle_across_slope(b);
    b->loads[1].dx = sin(0.5236);
    b->loads[1].dy = -cos(0.5236);
}
static void turn_free(bent *b)
{
    b->supports[1].hold[KL_TURN].kind = KL_FREE;
    (void)bent_add_load(b, KL_LOAD_TURN, KL_NONE, B);
}
static void warm_without_expansion(bent *b)
{
    b->materials[CONCRETE].expansion = NAN;
    (void)bent_add_load(b, KL_LOAD_TEMPERATURE, CAP, KL_NONE);
}
static void warm(bent *b)
{
    (void)bent_add_load(b, KL_LOAD_TEMPERATURE, CAP, KL_NONE);
}
static void bare_cap(bent *b)
{
    kl_section *s = &b->sections[CAP_SECTION];
    s->shape = KL_BARE;
    s->area = 4.0;
    s->inertia = 4.0 / 3;
}
static void bare_cap_with_faces(bent *b)
{
    bare_cap(b);
    b->sections[CAP_SECTION].to_top = b->sections[CAP_SECTION].to_bottom = 1.0;
}
static void gradient_on_bare(bent *b)
{
    bare_cap(b);
    (void)bent_add_load(b, KL_LOAD_GRADIENT, CAP, KL_NONE);
}
static void gradient_on_bare_with_faces(bent *b)
{
    bare_cap_with_faces(b);
    (void)bent_add_load(b, KL_LOAD_GRADIENT, CAP, KL_NONE);
}
static void weight_again(bent *b)
{
    (void)bent_add_load(b, KL_LOAD_WEIGHT, CAP, KL_NONE);
}
static void weight_of_one_of_two(bent *b)
{
    b->loads[1].member = CAP;
    b->nodes[b->node_count] = b->nodes[R];
    const kl_index end = bent_add_node(b, "Z", 40, 8);
    (void)bent_add_member(b, "tail", R, end, CAP_SECTION);
}
static void weight_of_all_of_two(bent *b)
{
    weight_of_one_of_two(b);
    b->loads[1].member = KL_NONE;
}
static void tendon_not_stressed(bent *b)
{
    b->cases[0].load_count = 2;
}

/* ---- changes: what is asked, what is unused -------------------------------------------------------------- */

static void factor_twice(bent *b)
{
    b->factors[1].cause.kind = KL_CAUSE_WEIGHT;
}
static void weight_and_weighing_case(bent *b)
{
    b->cases[1] = (kl_case){"dead", KL_NOWHERE, &b->loads[1], 1};
    b->loads[1] = b->loads[0];
    b->loads[1].kind = KL_LOAD_WEIGHT;
    b->loads[1].member = KL_NONE;
    b->case_count = 2;
    b->factors[1].cause = (kl_cause){KL_CAUSE_CASE, 1};
}
static void two_cases_of_two_weights(bent *b)
{
    weight_and_weighing_case(b);
    b->loads[1].member = CAP;
    b->loads[2] = b->loads[1];
    b->loads[2].member = COL_1;
    b->cases[2] = (kl_case){"dead_2", KL_NOWHERE, &b->loads[2], 1};
    b->case_count = 3;
    b->factors[0].cause = (kl_cause){KL_CAUSE_CASE, 2};
}
static void creep_in_combination(bent *b)
{
    b->factors[1].cause.kind = KL_CAUSE_CREEP;
}
static void check_transfer(bent *b)
{
    b->check.condition = KL_AT_TRANSFER;
    b->check.when = (kl_when){KL_WHEN_DURING, STRESSED, KL_NONE};
}
static void check_transfer_unknown(bent *b)
{
    check_transfer(b);
    b->materials[CONCRETE].transfer_strength = NAN;
}
static void check_timber(bent *b)
{
    steel_shear_known(b);
    b->checked[0] = COL_1;
}
static void check_without_yield(bent *b)
{
    b->materials[STEEL].yield = NAN;
}
static void no_losses(bent *b)
{
    b->stages[GROUTED].operation_count = 1;
    b->combination_count = 0;
}
static void transfer_without_losses(bent *b)
{
    no_losses(b);
    check_transfer(b);
}
static void spare_material(bent *b)
{
    b->materials[bent_add_material(b, KL_ELASTIC, "spare")].modulus = 1e9;
}
static void spare_section(bent *b)
{
    b->sections[bent_add_section(b, KL_CIRCLE, "spare")].diameter = 1;
}
static void spare_case(bent *b)
{
    b->cases[1] = b->cases[0];
    b->cases[1].name = "spare";
    b->case_count = 2;
}
static void spare_case_combined(bent *b)
{
    spare_case(b);
    b->factors[1].cause = (kl_cause){KL_CAUSE_CASE, 1};
}
static void spare_case_on_removed(bent *b)
{
    spare_case_combined(b);
    b->stages[GROUTED].operation_count = 0;
    bent_add_operation(b, GROUTED, KL_OP_REMOVE, CAP);
}

/* ---- the table ------------------------------------------------------------------------------------------ */

static const bent_trial trials[] = {
    BENT_ERROR("no-modulus", no_modulus),
    BENT_ERROR("no-strength", no_strength),
    BENT_ERROR("no-unit-weight", no_density),
    BENT_ERROR("no-unit-weight", weighs_without_density),
    BENT_SILENT("no-unit-weight", weightless_without_density),
    BENT_WARNS("no-weight", zero_density),
    BENT_ERROR("no-modulus", steel_without_modulus),
    BENT_ERROR("no-ultimate", steel_without_ultimate),
    BENT_ERROR("no-inertia", bare_without_inertia),
    BENT_SILENT("no-inertia", axial_needs_only_area),
    BENT_ERROR("no-shear-area", outline_shear),
    BENT_SILENT("no-shear-area", outline_with_shear_area),
    BENT_ERROR("no-shear-modulus", steel_shear),
    BENT_SILENT("no-shear-modulus", steel_shear_known),
    BENT_ERROR("tendon-in-axial-member", tendon_in_tie),
    BENT_WARNS("ram-small", small_ram),
    BENT_WARNS("dead-end-idle", both_ends_and_a_dead_end),
    BENT_SILENT("dead-end-idle", one_end_and_a_dead_end),
    BENT_ERROR("support-twice", support_doubled),
    BENT_ERROR("supports-contradict", supports_differ),
    BENT_ERROR("slopes-disagree", slopes_differ),
    BENT_SILENT("support-twice", supports_complement),
    BENT_WARNS("nodes-not-joined", column_top_apart),
    BENT_SILENT("nodes-not-joined", column_top_on_bearing),
    BENT_ERROR("bearing-twice", two_bearings),
    BENT_ERROR("bearing-circle", bearings_in_circle),
    BENT_WARNS("node-unused", lonely_node),
    BENT_WARNS("members-cross", crossing_brace),
    BENT_SILENT("members-cross", single_brace),
    BENT_WARNS("members-cross", prop_under_cap),
    BENT_SILENT("members-cross", prop_joined),
    BENT_WARNS("members-cross", doubled_column),
    BENT_ERROR("movement-not-held", settle_free),
    BENT_SILENT("movement-not-held", settle_held),
    BENT_ERROR("movement-not-held", settle_across_slope),
    BENT_SILENT("movement-not-held", settle_square_to_slope),
    BENT_ERROR("movement-not-held", turn_free),
    BENT_ERROR("no-expansion", warm_without_expansion),
    BENT_SILENT("no-expansion", warm),
    BENT_ERROR("no-depth", gradient_on_bare),
    BENT_SILENT("no-depth", gradient_on_bare_with_faces),
    BEAM_WARNS("weight-twice", weight_again),
    BEAM_WARNS("no-weight", weight_of_one_of_two),
    BEAM_SILENT("no-weight", weight_of_all_of_two),
    BEAM_WARNS("never-stressed", tendon_not_stressed),
    BENT_ERROR("factor-twice", factor_twice),
    BENT_ERROR("combination-with-contact", combination_over_bearing),
    BENT_SILENT("combination-with-contact", column_top_on_bearing),
    BENT_WARNS("weight-twice", weight_and_weighing_case),
    BENT_SILENT("weight-twice", two_cases_of_two_weights),
    BENT_WARNS("cause-never-arises", creep_in_combination),
    BENT_ERROR("no-faces", bare_cap),
    BENT_SILENT("no-faces", bare_cap_with_faces),
    BENT_ERROR("no-transfer-strength", check_transfer_unknown),
    BENT_SILENT("no-transfer-strength", check_transfer),
    BENT_ERROR("rules-for-concrete", check_timber),
    BENT_ERROR("no-yield", check_without_yield),
    BENT_WARNS("no-losses", no_losses),
    BENT_SILENT("no-losses", transfer_without_losses),
    BENT_WARNS("unused", spare_material),
    BENT_WARNS("unused", spare_section),
    BENT_WARNS("unused", spare_case),
    BENT_SILENT("unused", spare_case_combined),
    BENT_ERROR("load-on-nothing", spare_case_on_removed),
};

/* ---- size and memory ------------------------------------------------------------------------------------ */

/* A grid of bays, every crossing a node: no message, and quick. Then one brace over four bays. */
static void check_large_grid_finds_the_one_crossing(void **state)
{
    (void)state;
    enum { SIDE = 150 };
    bent b;
    bent_make_beam(&b);
    kl_diags *diags = kl_diags_create();
    kl_model *model = kl_model_create(diags);
    assert_int_equal(kl_model_add_material(model, &b.materials[CONCRETE], NULL), KL_OK);
    assert_int_equal(kl_model_add_section(model, &b.sections[CAP_SECTION], NULL), KL_OK);
    char name[32];
    for (int i = 0; i < SIDE * SIDE; i++) {
        (void)snprintf(name, sizeof name, "n%d", i);
        kl_node n = {
            .name = name, .origin = KL_NOWHERE, .x = i % SIDE, .y = i / SIDE, .member = KL_NONE};
        assert_int_equal(kl_model_add_node(model, &n, NULL), KL_OK);
    }
    kl_member m = b.members[CAP];
    m.name = name;
    m.sections = &b.rows[CAP];
    for (int i = 0; i < SIDE * SIDE; i++) {
        m.from = i;
        m.to = i + 1;
        (void)snprintf(name, sizeof name, "h%d", i);
        if (i % SIDE < SIDE - 1) {
            assert_int_equal(kl_model_add_member(model, &m, NULL), KL_OK);
        }
        m.to = i + SIDE;
        (void)snprintf(name, sizeof name, "v%d", i);
        if (i / SIDE < SIDE - 1) {
            assert_int_equal(kl_model_add_member(model, &m, NULL), KL_OK);
        }
    }
    assert_int_equal(kl_model_check(model), KL_OK);
    assert_null(bent_find(diags, "members-cross"));
    assert_null(bent_find(diags, "nodes-not-joined"));
    m.name = "brace";
    m.from = 77 * SIDE + 50;
    m.to = 78 * SIDE + 52; /* crosses one vertical at half height */
    assert_int_equal(kl_model_add_member(model, &m, NULL), KL_OK);
    assert_int_equal(kl_model_check(model), KL_OK);
    kl_index crossings = 0;
    for (kl_index i = 0; i < kl_diags_count(diags); i++) {
        crossings += strcmp(kl_diags_get(diags, i)->name, "members-cross") == 0 ? 1 : 0;
    }
    assert_int_equal(crossings, 1);
    kl_model_destroy(model);
    kl_diags_destroy(diags);
}

static void check_without_memory_says_so(void **state)
{
    (void)state;
    kl_status status = KL_NO_MEMORY;
    for (long k = 0; status != KL_OK; k++) {
        bent b;
        bent_make(&b);
        kl_diags *diags = kl_diags_create();
        kl_model *model = kl_model_create(diags);
        assert_int_equal(bent_build_frame(model, &b), KL_OK);
        assert_int_equal(bent_build_rest(model, &b), KL_OK);
        fault_after(k);
        status = kl_model_check(model);
        const int struck = fault_struck();
        fault_after(-1);
        kl_model_destroy(model);
        kl_diags_destroy(diags);
        assert_int_equal(status, struck ? KL_NO_MEMORY : KL_OK);
    }
}

int main(void)
{
    enum { TRIALS = sizeof trials / sizeof trials[0] };
    struct CMUnitTest tests[TRIALS + 4];
    for (int i = 0; i < TRIALS; i++) {
        /* cmocka takes void *; bent_try only reads the row */
        tests[i] = (struct CMUnitTest){trials[i].title, bent_try, NULL, NULL,
                                       (void *)(uintptr_t)&trials[i]};
    }
    tests[TRIALS] = (struct CMUnitTest)cmocka_unit_test(check_sound_bent_draws_nothing);
    tests[TRIALS + 1] = (struct CMUnitTest)cmocka_unit_test(check_sound_beam_draws_nothing);
    tests[TRIALS + 2] =
        (struct CMUnitTest)cmocka_unit_test(check_large_grid_finds_the_one_crossing);
    tests[TRIALS + 3] = (struct CMUnitTest)cmocka_unit_test(check_without_memory_says_so);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
