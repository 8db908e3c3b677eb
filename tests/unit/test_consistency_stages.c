/* test_consistency_stages.c - each message of kl_model_check about falsework and stages: a model that draws it and
 * one that does not.
 * SPDX-License-Identifier: MIT */
#include "bent.h"

#include <math.h>
#include <string.h>

#define DAY KL_DAY

/* ---- changes: falsework --------------------------------------------------------------------------------- */

static void falsework_under_column(bent *b)
{
    const double rows[] = {1, 2, 3, 4, 5};
    memcpy(b->stations[0], rows, sizeof rows);
    b->falsework[0].member = COL_1;
}
static void add_lower_deck(bent *b, double right, double y)
{
    const kl_index from = bent_add_node(b, "G", 0, y);
    const kl_index to = bent_add_node(b, "H", right, y);
    const kl_index m = bent_add_member(b, "lower", from, to, CAP_SECTION);
    bent_add_operation(b, CAST_COLUMNS, KL_OP_PLACE, m);
    b->falsework[0].carrier = m;
}
static void short_carrier(bent *b)
{
    add_lower_deck(b, 16, 3);
}
static void carrier_above(bent *b)
{
    add_lower_deck(b, 20, 9);
}
static void carrier_unchecked(bent *b)
{
    add_lower_deck(b, 20, 3);
}
static void carrier_checked(bent *b)
{
    add_lower_deck(b, 20, 3);
    b->checked[1] = b->falsework[0].carrier;
    b->check.members.count = 2;
    b->check.when.first = CAST_CAP;
}
static void carrier_checked_late(bent *b)
{
    carrier_checked(b);
    b->check.when.first = STRESSED;
}
static void stringer(bent *b)
{
    kl_section *joist = &b->sections[bent_add_section(b, KL_BARE, "joist")];
    joist->area = 0.01;
    joist->inertia = 1e-4;
    b->falsework[0].stringer_section = 2;
    b->falsework[0].stringer_material = bent_add_material(b, KL_ELASTIC, "timber");
    b->materials[2].modulus = 1e10;
}
static void stringer_without_inertia(bent *b)
{
    stringer(b);
    b->sections[2].inertia = NAN;
}
static void stringer_without_modulus(bent *b)
{
    stringer(b);
    b->materials[2].modulus_law = KL_LAW_UNSET;
}
static void row_in_column(bent *b)
{
    b->stations[0][1] = 6.5;
}
static void row_in_column_under_bearing(bent *b)
{
    row_in_column(b);
    b->members[COL_1].to = bent_add_node(b, "top", 7, 8);
    b->bearings[0] = (kl_bearing){.origin = KL_NOWHERE, .node = C, .base = b->members[COL_1].to};
    b->bearings[0].hold[KL_Y].kind = KL_FIXED;
    b->bearing_count = 1;
}
static void row_beside_column(bent *b)
{
    b->stations[0][1] = 6.05;
}

/* ---- changes: stages ------------------------------------------------------------------------------------ */

static void cast_twice(bent *b)
{
    bent_add_operation(b, LOADED, KL_OP_CAST, COL_1);
}
static void never_cast(bent *b)
{
    const kl_index end = bent_add_node(b, "Z", 30, 16);
    (void)bent_add_member(b, "mast", R, end, COLUMN_SECTION);
}
static void cast_on_nothing(bent *b)
{
    b->falsework_count = 0;
    b->stages[RELEASED].operation_count = 0;
    b->operations[CAST_CAP][0] = b->operations[CAST_CAP][1];
    b->stages[CAST_CAP].operation_count = 1;
}
static void placed_on_columns(bent *b)
{
    cast_on_nothing(b);
    b->operations[CAST_CAP][0].kind = KL_OP_PLACE;
    b->members[CAP].age = 40 * DAY;
}
static void erected_late(bent *b)
{
    const kl_operation erect = b->operations[CAST_CAP][0];
    b->operations[CAST_CAP][0] = b->operations[CAST_CAP][1];
    b->operations[CAST_CAP][1] = erect;
}
static void erected_twice(bent *b)
{
    bent_add_operation(b, LOADED, KL_OP_ERECT, 0);
}
static void combination_over_rows(bent *b)
{
    b->stages[RELEASED].operation_count = 0;
}
static void never_released(bent *b)
{
    combination_over_rows(b);
    b->combination_count = 0;
}
static void half_released(bent *b)
{
    b->combination_count = 0;
    b->operations[RELEASED][0].from = 0;
    b->operations[RELEASED][0].to = 6;
}
static void released_before_erected(bent *b)
{
    b->operations[CAST_COLUMNS][1] = b->operations[RELEASED][0];
    b->stages[CAST_COLUMNS].operation_count = 2;
}
static void released_again(bent *b)
{
    bent_add_operation(b, LOADED, KL_OP_RELEASE, 0);
}
static void never_erected(bent *b)
{
    const double rows[] = {24.5, 25, 26, 27, 28};
    bent_add_falsework(b, "more", rows);
}
/* Rows of the main span 10, 12, 15, 18, 21 in the order that is given by three releases. */
static void
release_in_order(bent *b, double first_from, double first_to, double then_from, double then_to)
{
    const double rows[] = {10, 12, 15, 18, 21};
    memcpy(b->stations[0], rows, sizeof rows);
    b->operations[RELEASED][0].from = first_from;
    b->operations[RELEASED][0].to = first_to;
    kl_operation *next = bent_add_operation(b, RELEASED, KL_OP_RELEASE, 0);
    next->from = then_from;
    next->to = then_to;
    (void)bent_add_operation(b, RELEASED, KL_OP_RELEASE, 0);
}
static void midspan_last(bent *b)
{
    release_in_order(b, 9, 13, 17, 22);
}
static void midspan_first(bent *b)
{
    release_in_order(b, 14, 16, 9, 13);
}
static void release_overhang(bent *b, double from, double to)
{
    const double rows[] = {1, 3, 5, 12, 15};
    memcpy(b->stations[0], rows, sizeof rows);
    b->operations[RELEASED][0].from = from;
    b->operations[RELEASED][0].to = to;
    (void)bent_add_operation(b, RELEASED, KL_OP_RELEASE, 0);
}
static void tip_last(bent *b)
{
    release_overhang(b, 4, 30);
}
static void tip_first(bent *b)
{
    release_overhang(b, 0, 4);
}
static void stressed_young(bent *b) /* 30 MPa of 40 with t / (4 + 0.85 t): 0.75 at 8.3 days */
{
    b->stages[STRESSED].time = 38 * DAY;
}
/* What is placed and says no age is 28 days old; stressed on day 38, 8 days later, it would be too young if it were cast. */
static void placed_without_age(bent *b)
{
    stressed_young(b);
    b->operations[CAST_CAP][1].kind = KL_OP_PLACE;
    b->members[CAP].age = NAN;
}
static void placed_on_the_day(bent *b)
{
    placed_without_age(b);
    b->members[CAP].age = 0;
}
static void stressed_just_old(bent *b)
{
    b->stages[STRESSED].time = 38.5 * DAY;
}
static void stressed_before_cast(bent *b)
{
    b->operations[CAST_COLUMNS][1] = b->operations[STRESSED][0];
    b->stages[CAST_COLUMNS].operation_count = 2;
}
static void never_stressed(bent *b)
{
    b->stages[STRESSED].operation_count = 0;
    b->stages[GROUTED].operation_count = 0;
}
static void never_grouted(bent *b)
{
    b->operations[GROUTED][0] = b->operations[GROUTED][1];
    b->stages[GROUTED].operation_count = 1;
}
static void unbonded(bent *b)
{
    never_grouted(b);
    b->tendon.bond = KL_UNBONDED;
}
static void unbonded_grouted(bent *b)
{
    b->tendon.bond = KL_UNBONDED;
}
static void grouted_first(bent *b)
{
    const kl_operation stress = b->operations[STRESSED][0];
    b->operations[STRESSED][0] = b->operations[GROUTED][0];
    b->operations[GROUTED][0] = stress;
}
static void grouted_late(bent *b)
{
    b->stages[GROUTED].time = 73 * DAY; /* 29 days after stressing */
}
static void grouted_on_day_28(bent *b)
{
    b->stages[GROUTED].time = 72 * DAY;
}
static void grouted_twice(bent *b)
{
    bent_add_operation(b, GROUTED, KL_OP_GROUT, 0);
}
static void stressed_after_grout(bent *b)
{
    bent_add_operation(b, GROUTED, KL_OP_STRESS, 0);
}
static void slackened_unstressed(bent *b)
{
    bent_add_operation(b, CAST_CAP, KL_OP_SLACKEN, 0);
}
static void slackened_grouted(bent *b)
{
    bent_add_operation(b, GROUTED, KL_OP_SLACKEN, 0);
}
static void unload_nothing(bent *b)
{
    bent_add_operation(b, STRESSED, KL_OP_UNLOAD, 0);
}
static void unload_loaded(bent *b)
{
    b->combination.factor_count = 3; /* without the case */
    bent_add_operation(b, GROUTED, KL_OP_UNLOAD, 0);
}
static void load_on_nothing(bent *b)
{
    bent_add_operation(b, CAST_COLUMNS, KL_OP_LOAD, 0);
}
static void weight_in_stage(bent *b)
{
    (void)bent_add_load(b, KL_LOAD_WEIGHT, CAP, KL_NONE);
}
static void stress_in_case(bent *b)
{
    bent_add_load(b, KL_LOAD_TENDON, KL_NONE, KL_NONE)->tendon = 0;
}
static void remove_nothing(bent *b)
{
    bent_add_operation(b, CAST_COLUMNS, KL_OP_REMOVE, CAP);
}
static void remove_over_falsework(bent *b)
{
    bent_add_operation(b, CAST_CAP, KL_OP_REMOVE, CAP);
    b->stages[STRESSED].operation_count = 0;
    b->stages[LOADED].operation_count = b->stages[GROUTED].operation_count = 0;
}
static void unlock_nothing(bent *b)
{
    bent_add_operation(b, CAST_COLUMNS, KL_OP_UNLOCK, CAP)->station = 0;
}
static void free_unheld(bent *b)
{
    bent_add_operation(b, LOADED, KL_OP_FREE, C)->directions[KL_X] = true;
}
static void free_held(bent *b)
{
    bent_add_operation(b, LOADED, KL_OP_FREE, A)->directions[KL_TURN] = true;
}
static void support_added_again(bent *b)
{
    bent_add_operation(b, LOADED, KL_OP_SUPPORT, 0);
}
static void support_replaced(bent *b)
{
    free_held(b);
    kl_support *later = &b->supports[bent_add_support(b, A)];
    later->added_later = true;
    later->hold[KL_X].kind = later->hold[KL_Y].kind = KL_FREE;
    later->hold[KL_TURN] = (kl_hold){KL_SPRING, 1e9};
    bent_add_operation(b, LOADED, KL_OP_SUPPORT, 2);
}
static void support_beside_another(bent *b)
{
    support_replaced(b);
    b->operations[LOADED][1] = b->operations[LOADED][2];
    b->stages[LOADED].operation_count = 2;
}
static void freed_twice(bent *b)
{
    free_held(b);
    free_held(b);
}
static void no_days(bent *b)
{
    for (int s = 0; s < STAGES; s++) {
        b->stages[s].has_time = false;
    }
}
static void no_days_constant_modulus(bent *b)
{
    no_days(b);
    b->materials[CONCRETE].modulus_law = KL_LAW_VALUE;
    b->materials[CONCRETE].modulus = 30e9;
}
/* The cap's end on a bearing on a held node that no member reaches, which settles. */
static void settle_under_bearing(bent *b)
{
    const kl_index seat = bent_add_node(b, "seat", 30, 8);
    bent_add_support(b, seat);
    b->bearings[0] = (kl_bearing){.origin = KL_NOWHERE, .node = R, .base = seat};
    b->bearings[0].hold[KL_Y].kind = KL_FIXED;
    b->bearing_count = 1;
    bent_add_load(b, KL_LOAD_SETTLE, KL_NONE, seat);
}
static void support_forgotten(bent *b)
{
    b->supports[bent_add_support(b, L)].added_later = true;
}
static void support_added(bent *b)
{
    support_forgotten(b);
    bent_add_operation(b, LOADED, KL_OP_SUPPORT, 2);
}

/* ---- the table ------------------------------------------------------------------------------------------ */

static const bent_trial trials[] = {
    BENT_ERROR("falsework-under-column", falsework_under_column),
    BENT_ERROR("row-without-carrier", short_carrier),
    BENT_ERROR("row-without-carrier", carrier_above),
    BENT_SILENT("row-without-carrier", carrier_unchecked),
    BENT_WARNS("carrier-unchecked", carrier_unchecked),
    BENT_WARNS("carrier-unchecked", carrier_checked_late),
    BENT_SILENT("carrier-unchecked", carrier_checked),
    BENT_ERROR("no-inertia", stringer_without_inertia),
    BENT_ERROR("no-modulus", stringer_without_modulus),
    BENT_SILENT("unused", stringer),
    BENT_WARNS("row-inside-column", row_in_column),
    BENT_WARNS("row-inside-column", row_in_column_under_bearing),
    BENT_SILENT("row-inside-column", row_beside_column),
    BENT_ERROR("stands-already", cast_twice),
    BENT_WARNS("never-cast", never_cast),
    BENT_WARNS("cast-on-nothing", cast_on_nothing),
    BENT_SILENT("cast-on-nothing", placed_on_columns),
    BENT_SILENT("stressed-young", placed_on_columns),
    BENT_WARNS("erected-after-cast", erected_late),
    BENT_ERROR("erected-twice", erected_twice),
    BENT_ERROR("combination-with-contact", combination_over_rows),
    BENT_SILENT("combination-with-contact", never_released),
    BENT_WARNS("never-released", never_released),
    BENT_WARNS("never-released", half_released),
    BENT_ERROR("not-erected", released_before_erected),
    BENT_ERROR("released-twice", released_again),
    BENT_WARNS("never-erected", never_erected),
    BENT_WARNS("release-order", midspan_last),
    BENT_SILENT("release-order", midspan_first),
    BENT_WARNS("release-order", tip_last),
    BENT_SILENT("release-order", tip_first),
    BENT_WARNS("stressed-young", stressed_young),
    BENT_SILENT("stressed-young", stressed_just_old),
    BENT_SILENT("stressed-young", placed_without_age),
    BENT_WARNS("stressed-young", placed_on_the_day),
    BENT_ERROR("stressed-before-cast", stressed_before_cast),
    BENT_ERROR("not-stressed", slackened_unstressed),
    BENT_WARNS("never-stressed", never_stressed),
    BENT_WARNS("never-grouted", never_grouted),
    BENT_SILENT("never-grouted", unbonded),
    BENT_ERROR("grouted-unbonded", unbonded_grouted),
    BENT_ERROR("grouted-unstressed", grouted_first),
    BENT_WARNS("long-ungrouted", grouted_late),
    BENT_SILENT("long-ungrouted", grouted_on_day_28),
    BENT_ERROR("grouted-twice", grouted_twice),
    BENT_ERROR("stressed-after-grout", stressed_after_grout),
    BENT_ERROR("slackened-grouted", slackened_grouted),
    BENT_ERROR("unload-unloaded", unload_nothing),
    BENT_SILENT("unload-unloaded", unload_loaded),
    BENT_ERROR("load-on-nothing", load_on_nothing),
    BENT_ERROR("weight-in-stages", weight_in_stage),
    BENT_ERROR("stress-in-case", stress_in_case),
    BENT_ERROR("does-not-stand", remove_nothing),
    BENT_ERROR("removed-with-falsework", remove_over_falsework),
    BENT_ERROR("does-not-stand", unlock_nothing),
    BENT_ERROR("free-not-held", free_unheld),
    BENT_SILENT("free-not-held", free_held),
    BENT_ERROR("support-stands", support_added_again),
    BENT_ERROR("free-not-held", freed_twice),
    BENT_SILENT("support-twice", support_replaced),
    BENT_ERROR("support-twice", support_beside_another),
    BENT_ERROR("no-day", no_days),
    BENT_SILENT("no-day", no_days_constant_modulus),
    BENT_SILENT("load-on-nothing", settle_under_bearing),
    BENT_SILENT("node-unused", settle_under_bearing),
    BENT_SILENT("nodes-not-joined", settle_under_bearing),
    BENT_WARNS("support-never-added", support_forgotten),
    BENT_SILENT("support-never-added", support_added),
};

int main(void)
{
    enum { TRIALS = sizeof trials / sizeof trials[0] };
    struct CMUnitTest tests[TRIALS + 0];
    for (int i = 0; i < TRIALS; i++) {
        /* cmocka takes void *; bent_try only reads the row */
        tests[i] = (struct CMUnitTest){trials[i].title, bent_try, NULL, NULL,
                                       (void *)(uintptr_t)&trials[i]};
    }
    return cmocka_run_group_tests(tests, NULL, NULL);
}
