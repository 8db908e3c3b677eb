/* check_text.c - numbers, formulas and moments in words.
 * SPDX-License-Identifier: MIT */
#include "check_text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "near.h"
#include "str.h"

#define TEXT_NUMBER  40
#define TEXT_FIGURES 4
#define TEXT_PLACES  8

void text_number(char *out, size_t size, double value)
{
    str_number(out, size, value, TEXT_FIGURES);
}

const char *text_value(arena *a, const kl_display *display, kl_measure measure, double value)
{
    char number[TEXT_NUMBER];
    text_number(number, sizeof number, value / kl_show_factor(display, measure));
    return arena_print(a, "%s %s", number, kl_show_unit(display, measure));
}

/* ---- rules in numbers ---------------------------------------------------------------------------------- */

static const char *
text_linear(arena *a, const kl_display *display, const rule_row *row, double strength)
{
    char factor[TEXT_NUMBER];
    (void)snprintf(factor, sizeof factor, "%.2f", row->coefficient);
    const char *f = text_value(a, display, KL_MEASURE_STRESS, strength);
    const char *limit = text_value(a, display, KL_MEASURE_STRESS, row->coefficient * strength);
    return f == NULL || limit == NULL ? NULL : arena_print(a, "%s x %s = %s", factor, f, limit);
}

/* A root is taken in the unit of its code; where the model shows another the limit is repeated in that. */
static const char *
text_power(arena *a, const kl_display *display, const rule_row *row, double strength, double lambda)
{
    rule_row open = *row;
    open.cap = (double)NAN;
    bool capped = false;
    const double unit = rule_unit_factor(row->unit);
    const double limit = rule_limit(row, strength, lambda, &capped);
    const char *word = rule_unit_word(row->unit);
    char coefficient[TEXT_NUMBER], share[TEXT_NUMBER + 4] = "", f[TEXT_NUMBER], value[TEXT_NUMBER];
    (void)snprintf(coefficient, sizeof coefficient, "%.*g", TEXT_FIGURES, row->coefficient);
    text_number(f, sizeof f, strength / unit);
    text_number(value, sizeof value, rule_limit(&open, strength, lambda, NULL) / unit);
    if (row->uses_lambda && lambda < 1.0) {
        char number[TEXT_NUMBER];
        text_number(number, sizeof number, lambda);
        (void)snprintf(share, sizeof share, " x %s", number);
    }
    const char *root = row->form == RULE_ROOT ? arena_print(a, "sqrt(%s %s)", f, word)
                                              : arena_print(a, "(%s %s)^(2/3)", f, word);
    const char *last = strcmp(kl_show_unit(display, KL_MEASURE_STRESS), word) == 0
                           ? ""
                           : text_value(a, display, KL_MEASURE_STRESS, limit);
    char cap[2 * TEXT_NUMBER] = "";
    if (capped) {
        char number[TEXT_NUMBER];
        text_number(number, sizeof number, row->cap);
        (void)snprintf(cap, sizeof cap, ", at most %s %s", number, word);
    }
    return root == NULL || last == NULL
               ? NULL
               : arena_print(a, "%s%s %s = %s %s%s%s%s", coefficient, share, root, value, word, cap,
                             last[0] == '\0' ? "" : " = ", last);
}

const char *text_rule_numbers(
    arena *a, const kl_display *display, const rule_row *row, double strength, double lambda)
{
    switch (row->form) {
    case RULE_LINEAR:
        return text_linear(a, display, row, strength);
    case RULE_ROOT:
    case RULE_TWO_THIRDS:
        return text_power(a, display, row, strength, lambda);
    case RULE_NOTHING:
        break;
    }
    return arena_print(a, "0 %s", kl_show_unit(display, KL_MEASURE_STRESS));
}

/* One answer the row was chosen by: "; severe exposure (default)". */
static const char *text_answer(arena *a, const char *before, const char *answer, bool given)
{
    return before == NULL ? NULL
                          : arena_print(a, "%s; %s%s", before, answer, given ? "" : " (default)");
}

const char *text_rule(arena *a, const rule_row *row, const kl_check *check, double lambda)
{
    const char *text = arena_print(a, "%s, %s", rule_edition_name(row->edition), row->article);
    if (row->tendons == RULE_TENDONS_BONDED || row->tendons == RULE_TENDONS_UNBONDED) {
        text = text_answer(
            a, text, row->tendons == RULE_TENDONS_BONDED ? "bonded tendons" : "unbonded tendons",
            true);
    }
    if (row->bonded_steel != RULE_ANY) {
        text = text_answer(a, text, check->bonded_steel ? "bonded steel" : "no bonded steel",
                           check->has_bonded_steel);
    }
    if (row->severe != RULE_ANY) {
        const bool severe = row->severe == RULE_YES;
        text = text_answer(a, text, severe ? "severe exposure" : "moderate exposure",
                           check->has_exposure);
    }
    if (row->uncracked_class != 0) {
        text = text_answer(a, text, row->uncracked_class == 't' ? "class t" : "class u",
                           check->has_class);
    }
    if (row->edition == KL_RULES_EN1992_2004 && check->condition == KL_IN_SERVICE) {
        text = text_answer(
            a, text, check->quasi_permanent ? "quasi-permanent" : "characteristic combination",
            check->has_combination);
    }
    if (row->uses_lambda) {
        char number[TEXT_NUMBER];
        text_number(number, sizeof number, lambda);
        text = text == NULL ? NULL : arena_print(a, "%s; lambda %s", text, number);
    }
    return text == NULL || row->remark[0] == '\0' ? text
                                                  : arena_print(a, "%s; %s", text, row->remark);
}

const char *text_tendon_numbers(
    arena *a, const kl_display *display, const rule_tendon_row *row, double ultimate, double yield)
{
    bool by_yield = false;
    const double limit = rule_tendon_limit(row, ultimate, yield, &by_yield);
    const char *strength = text_value(a, display, KL_MEASURE_STRESS, by_yield ? yield : ultimate);
    const char *shown = text_value(a, display, KL_MEASURE_STRESS, limit);
    return strength == NULL || shown == NULL
               ? NULL
               : arena_print(a, "%.2f x %s = %s", by_yield ? row->of_yield : row->of_ultimate,
                             strength, shown);
}

/* ---- when and where ------------------------------------------------------------------------------------ */

const char *text_state(arena *a, const kl_results *results, kl_state state)
{
    const kl_model *model = kl_results_model(results);
    switch (state.kind) {
    case KL_STATE_CASE:
        return arena_print(a, "under %s", model->cases[state.index].name);
    case KL_STATE_COMBINATION:
        return arena_print(a, "under %s", model->combinations[state.index].name);
    case KL_STATE_MOMENT:
        return arena_print(a, "on day %.6g", kl_moment_at(results, state.index)->time / KL_DAY);
    case KL_STATE_STEP:
        break;
    }
    const kl_step *step = kl_step_at(results, state.index);
    const char *stage = model->stages[step->stage].name;
    if (step->operation == KL_NONE || step->label == NULL) {
        return state.index < kl_last_step(results, step->stage)
                   ? arena_print(a, "%s, before %s", step->label, stage)
                   : arena_print(a, "in %s", stage);
    }
    return arena_print(a, "during %s after `%s`", stage, step->label);
}

const char *
text_stations(arena *a, const kl_display *display, const double *stations, kl_index count)
{
    const double factor = kl_show_factor(display, KL_MEASURE_STATION);
    const char *text = "";
    for (kl_index i = 0; i < count && i < TEXT_PLACES && text != NULL; i++) {
        char number[TEXT_NUMBER];
        text_number(number, sizeof number, stations[i] / factor);
        const char *joint = i == 0 ? "" : i == count - 1 ? " and " : ", ";
        text = arena_print(a, "%s%s%s", text, joint, number);
    }
    if (text == NULL) {
        return NULL;
    }
    if (count > TEXT_PLACES) {
        return arena_print(a, "%s %s and %d more", text, kl_show_unit(display, KL_MEASURE_STATION),
                           (int)(count - TEXT_PLACES));
    }
    return arena_print(a, "%s %s", text, kl_show_unit(display, KL_MEASURE_STATION));
}
