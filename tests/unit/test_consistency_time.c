/* test_consistency_time.c - messages of kl_model_check about laws of creep, shrinkage and relaxation: a model that draws each and
 * one that does not.
 * SPDX-License-Identifier: MIT */
#include "bent.h"

#include <math.h>

static const kl_time_point final_phi = {.time = (double)INFINITY, .value = 2.0};

/* On top of the sound bent, whose last stage is early and takes a lump: a stage after 10,000 days, no lump. */
static void long_enough(bent *b)
{
    b->stages[GROUTED].time = 10000 * KL_DAY;
    b->stages[GROUTED].operation_count = 1;
    b->combination_count = 0;
}
static void creeps_by_law(bent *b)
{
    long_enough(b);
    b->materials[CONCRETE].creep = KL_LAW_EN1992_2004;
}
static void creeps_in_no_air(bent *b)
{
    creeps_by_law(b);
    b->humidity = NAN;
}
static void creeps_in_no_such_air(bent *b)
{
    creeps_by_law(b);
    b->humidity = 70; /* a percentage where a ratio belongs */
}
static void shrinks_by_law(bent *b)
{
    long_enough(b);
    b->materials[CONCRETE].shrinkage = KL_LAW_AASHTO_2020;
}
static void creeps_by_curve(bent *b)
{
    long_enough(b);
    b->materials[CONCRETE].creep = KL_LAW_USER;
    b->materials[CONCRETE].creep_curve = (kl_time_curve){.points = &final_phi, .count = 1};
}
static void shrinks_in_no_air(bent *b)
{
    shrinks_by_law(b);
    b->humidity = NAN;
}
static void curve_in_no_air(bent *b)
{
    creeps_by_curve(b);
    b->humidity = NAN;
}
static void creeps_by_curve_early(bent *b)
{
    creeps_by_curve(b);
    b->stages[GROUTED].time = 9990 * KL_DAY;
}
static void early_without_question(bent *b)
{
    creeps_by_curve_early(b);
    b->check.condition = KL_AT_TRANSFER;
    b->check.when = (kl_when){KL_WHEN_DURING, STRESSED, KL_NONE};
}
static void early_with_camber(bent *b)
{
    early_without_question(b);
    b->expectation.quantity = KL_CAMBER;
}
static void creeps_without_strength(bent *b)
{
    creeps_by_law(b);
    b->materials[CONCRETE].strength = NAN;
    b->materials[CONCRETE].modulus_law = KL_LAW_VALUE;
    b->materials[CONCRETE].modulus = 30e9;
    b->check_count = 0;
}
static void curve_without_strength(bent *b)
{
    creeps_without_strength(b);
    creeps_by_curve(b);
}
static void bare_column(bent *b)
{
    creeps_by_law(b);
    b->sections[COLUMN_SECTION].shape = KL_BARE;
    b->sections[COLUMN_SECTION].area = 2.5;
    b->sections[COLUMN_SECTION].inertia = 0.5;
    b->sections[COLUMN_SECTION].to_top = b->sections[COLUMN_SECTION].to_bottom = 0.9;
}
static void bare_column_that_says(bent *b)
{
    bare_column(b);
    b->sections[COLUMN_SECTION].volume_to_surface = 0.45;
}
static void bare_column_by_curve(bent *b)
{
    bare_column(b);
    creeps_by_curve(b);
}
static void relaxes(bent *b)
{
    long_enough(b);
    b->materials[STEEL].relaxation = KL_RELAXATION_LOW;
}
static void relaxes_without_yield(bent *b)
{
    relaxes(b);
    b->materials[STEEL].yield = NAN;
    b->check_count = 0;
}
static void bar_without_yield(bent *b)
{
    relaxes_without_yield(b);
    b->materials[STEEL].relaxation = KL_RELAXATION_BAR;
}
static void relaxes_beside_lump(bent *b)
{
    relaxes(b);
    b->stages[GROUTED].operation_count = 2;
}
static void shrinks_beside_lump(bent *b)
{
    shrinks_by_law(b);
    b->stages[GROUTED].operation_count = 2;
}
static void all_on_one_day(bent *b)
{
    creeps_by_curve(b);
    for (kl_index s = 0; s < b->stage_count; s++) {
        b->stages[s].time = 0;
    }
}
static void beam_creeps(bent *b)
{
    b->materials[CONCRETE].creep = KL_LAW_USER;
    b->materials[CONCRETE].creep_curve = (kl_time_curve){.points = &final_phi, .count = 1};
}
static void beam_relaxes(bent *b)
{
    b->materials[STEEL].relaxation = KL_RELAXATION_NORMAL;
}
static void no_day_of_cast(bent *b)
{
    creeps_by_curve(b);
    b->materials[CONCRETE].modulus_law = KL_LAW_VALUE;
    b->materials[CONCRETE].modulus = 30e9;
    b->stages[CAST_COLUMNS].has_time = false;
}
static void no_days_at_all(bent *b)
{
    no_day_of_cast(b);
    for (kl_index s = 0; s < b->stage_count; s++) {
        b->stages[s].has_time = false;
        b->stages[s].time = 0;
    }
}

static const bent_trial trials[] = {
    BENT_ERROR("no-humidity", creeps_in_no_air),
    BENT_ERROR("no-humidity", shrinks_in_no_air),
    BENT_ERROR("no-humidity", creeps_in_no_such_air),
    BENT_SILENT("no-humidity", shrinks_by_law),
    BENT_SILENT("no-humidity", curve_in_no_air),
    BENT_ERROR("no-strength", creeps_without_strength),
    BENT_SILENT("no-strength", curve_without_strength),
    BENT_ERROR("no-volume-to-surface", bare_column),
    BENT_SILENT("no-volume-to-surface", bare_column_that_says),
    BENT_SILENT("no-volume-to-surface", bare_column_by_curve),
    BENT_SILENT("no-volume-to-surface", creeps_by_law),
    BENT_ERROR("no-yield", relaxes_without_yield),
    BENT_SILENT("no-yield", bar_without_yield),
    BENT_WARNS("loss-twice", relaxes_beside_lump),
    BENT_WARNS("loss-twice", shrinks_beside_lump),
    BENT_SILENT("loss-twice", relaxes),
    BENT_WARNS("no-long-term", creeps_by_curve_early),
    BENT_WARNS("no-long-term", early_with_camber),
    BENT_SILENT("no-long-term", creeps_by_curve),
    BENT_SILENT("no-long-term", early_without_question),
    BENT_WARNS("time-law-idle", all_on_one_day),
    BEAM_WARNS("time-law-idle", beam_creeps),
    BEAM_WARNS("time-law-idle", beam_relaxes),
    BENT_SILENT("time-law-idle", creeps_by_curve),
    BENT_ERROR("no-day", no_day_of_cast),
    BENT_SILENT("no-day", no_days_at_all),
    BENT_SILENT("no-losses", creeps_by_curve),
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
