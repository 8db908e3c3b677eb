/* tendon_stress.c - tendon stresses against their limits.
 * SPDX-License-Identifier: MIT */
#include "tendon_stress.h"

#include <math.h>

#include "check_text.h"
#include "near.h"
#include "stress.h"
#include "when.h"

/* Strand whose yield is 0.90 of its ultimate is of low relaxation, 0.85 is stress-relieved (ASTM A416); the middle
 * tells them apart however they were rounded. */
#define TENDON_STRESS_LOW_RELAXATION 0.875

typedef struct tendon_stress_place {
    bool known;
    kl_state state;
    double station;
    kl_side side;
    double stress; /* Pa */
} tendon_stress_place;

/* Limits that hold at a stressing, and the worst that the pulls of one tendon come to of each. */
#define TENDON_STRESS_MOMENTS RULE_TENDON_SERVICE
typedef struct tendon_stress_pulled {
    tendon_stress_place worst[TENDON_STRESS_MOMENTS];
} tendon_stress_pulled;

typedef struct tendon_stress_search {
    kl_results *results;
    const kl_model *model;
    const kl_check *check;
    kl_index index, tendon;
    const tendon_stress_pulled *pulled;
    kl_diags *diags;
    kl_check_report *report;
} tendon_stress_search;

static double tendon_stress_area(const kl_tendon *tendon)
{
    return tendon->units * tendon->unit_area;
}

/* ---- where the largest stress is ------------------------------------------------------------------------ */

static tendon_stress_place
tendon_stress_at_jack(const kl_tendon *tendon, kl_state state, const kl_stressing *done)
{
    const bool from_end =
        tendon->jack_ends == KL_JACK_END || tendon->jack_ends == KL_JACK_END_THEN_START;
    const double station = tendon->rows[from_end ? tendon->row_count - 1 : 0].station;
    return (tendon_stress_place){true, state, station, KL_RIGHT, done->jack_stress};
}

static tendon_stress_place
tendon_stress_at_anchor(const kl_tendon *tendon, kl_state state, const kl_stressing *done)
{
    const int end = done->force_at[1] > done->force_at[0] ? 1 : 0;
    const double station = tendon->rows[end == 1 ? tendon->row_count - 1 : 0].station;
    return (tendon_stress_place){true, state, station, end == 1 ? KL_LEFT : KL_RIGHT,
                                 done->force_at[end] / tendon_stress_area(tendon)};
}

static tendon_stress_place
tendon_stress_along(const kl_tendon *tendon, kl_state state, const kl_stressing *done)
{
    return (tendon_stress_place){true, state, done->largest_station, KL_RIGHT,
                                 done->largest_force / tendon_stress_area(tendon)};
}

/* Of pulls that come to the same the first. */
static void
tendon_stress_widen(const kl_tendon *tendon, const kl_stressing *done, tendon_stress_pulled *pulled)
{
    const kl_state state =
        done->step == KL_NONE ? kl_state_case(done->load_case) : kl_state_step(done->step);
    const tendon_stress_place here[TENDON_STRESS_MOMENTS] = {
        [RULE_AT_JACK] = tendon_stress_at_jack(tendon, state, done),
        [RULE_AT_ANCHOR] = tendon_stress_at_anchor(tendon, state, done),
        [RULE_ALONG_TENDON] = tendon_stress_along(tendon, state, done)};
    for (int i = 0; i < TENDON_STRESS_MOMENTS; i++) {
        tendon_stress_place *worst = &pulled->worst[i];
        if (!worst->known || here[i].stress > worst->stress * (1.0 + NEAR_BALANCE)) {
            *worst = here[i];
        }
    }
}

/* A tendon may be pulled again from what is left in it, so that a lesser pull after the fullest can leave more in it.
 * @return one for each tendon of the model; NULL: no memory. */
static const tendon_stress_pulled *tendon_stress_in_pulls(const kl_results *results, arena *memory)
{
    const kl_model *model = kl_results_model(results);
    tendon_stress_pulled *pulled = arena_array(memory, (size_t)model->tendon_count, sizeof *pulled);
    kl_index tendon;
    kl_stressing done;
    for (kl_index i = 0; pulled && kl_pull_at(results, i, &tendon, &done) == KL_OK; i++) {
        tendon_stress_widen(&model->tendons[tendon], &done, &pulled[tendon]);
    }
    return pulled;
}

static kl_status
tendon_stress_in(const tendon_stress_search *s, kl_state state, tendon_stress_place *worst)
{
    const double area = tendon_stress_area(&s->model->tendons[s->tendon]);
    kl_peak smallest, largest;
    const kl_status status =
        kl_tendon_force_range(s->results, state, s->tendon, &smallest, &largest);
    if (status != KL_OK) {
        return status == KL_NOT_THERE ? KL_OK : status; /* it carries nothing then */
    }
    if (!worst->known || largest.value / area > worst->stress) {
        *worst =
            (tendon_stress_place){true, state, largest.station, largest.side, largest.value / area};
    }
    return KL_OK;
}

static kl_status tendon_stress_over_states(const tendon_stress_search *s,
                                           tendon_stress_place *worst)
{
    when_states states = {0};
    KL_TRY(when_find(s->results, &s->check->when, &s->report->memory, &states));
    /* Service limits hold after all losses: where no condition narrows the range to that, its end is taken. */
    const bool only_end =
        s->check->condition == KL_CONDITION_UNSET && s->check->rules != KL_RULES_NONE;
    for (kl_index i = only_end ? states.count - 1 : 0; i >= 0 && i < states.count; i++) {
        KL_TRY(tendon_stress_in(s, states.items[i], worst));
    }
    return KL_OK;
}

/* ---- rows ----------------------------------------------------------------------------------------------- */

static void
tendon_stress_unknown(const tendon_stress_search *s, const char *limit_name, const char *why)
{
    kl_diags_add(s->diags, KL_WARNING, "check-sees-nothing", s->check->origin,
                 "Check %s cannot hold %s against its limit %s: %s; the check fails.",
                 s->check->name, s->model->tendons[s->tendon].name, limit_name, why);
}

static void tendon_stress_compare(kl_check_result *row, const tendon_stress_place *place)
{
    row->state = place->state;
    row->station = place->station;
    row->side = place->side;
    row->demand = place->stress;
    row->ratio = stress_ratio(row->demand, row->limit);
    row->passed = stress_holds(row->demand, row->limit);
    row->ends_stage_well = row->passed;
}

static kl_status tendon_stress_by_rule(const tendon_stress_search *s,
                                       const rule_tendon_row *rule,
                                       const tendon_stress_place *place)
{
    const kl_material *steel = &s->model->materials[s->model->tendons[s->tendon].material];
    kl_check_result row = report_blank_check(s->index);
    bool by_yield = false;
    const bool en = rule->edition == KL_RULES_EN1992_2004;
    row.tendon = s->tendon;
    row.limit_name = rule_moment_name(rule->moment);
    row.limit = rule_tendon_limit(rule, steel->ultimate, steel->yield, &by_yield);
    row.strength = by_yield ? steel->yield : steel->ultimate;
    row.strength_name = by_yield ? (en ? "fp0.1k" : "fpy") : (en ? "fpk" : "fpu");
    row.formula = rule->formula;
    row.from_memory = rule->from_memory;
    row.rule =
        arena_print(&s->report->memory, "%s, %s", rule_edition_name(rule->edition), rule->article);
    row.numbers = text_tendon_numbers(&s->report->memory, &s->model->display, rule, steel->ultimate,
                                      steel->yield);
    if (row.rule == NULL || row.numbers == NULL) {
        return KL_NO_MEMORY;
    }
    if (isnan(row.limit)) {
        tendon_stress_unknown(s, row.limit_name,
                              "its steel does not state the strength it is taken from");
    } else if (!place->known) {
        tendon_stress_unknown(s, row.limit_name, "it carries no force then");
    } else {
        tendon_stress_compare(&row, place);
    }
    return report_add_check(s->report, &row);
}

static kl_status tendon_stress_given(const tendon_stress_search *s)
{
    kl_check_result row = report_blank_check(s->index);
    tendon_stress_place place = {0};
    KL_TRY(tendon_stress_over_states(s, &place));
    row.tendon = s->tendon;
    row.limit_name = "tension";
    row.limit = s->check->tension;
    row.formula = "tension";
    row.rule = "given in the model";
    row.numbers = text_value(&s->report->memory, &s->model->display, KL_MEASURE_STRESS, row.limit);
    if (row.numbers == NULL) {
        return KL_NO_MEMORY;
    }
    if (place.known) {
        tendon_stress_compare(&row, &place);
    } else {
        tendon_stress_unknown(s, row.limit_name, "it carries no force then");
    }
    return report_add_check(s->report, &row);
}

static bool tendon_stress_asked(kl_condition condition, rule_moment moment)
{
    const bool service = moment == RULE_TENDON_SERVICE;
    return condition == KL_CONDITION_UNSET || (condition == KL_AT_TRANSFER) != service;
}

static kl_status
tendon_stress_find(const tendon_stress_search *s, rule_moment moment, tendon_stress_place *place)
{
    if (moment == RULE_TENDON_SERVICE) {
        *place = (tendon_stress_place){0};
        return tendon_stress_over_states(s, place);
    }
    *place = s->pulled[s->tendon].worst[moment];
    return KL_OK;
}

static kl_status tendon_stress_one(const tendon_stress_search *s)
{
    static const rule_moment moments[] = {RULE_AT_JACK, RULE_AT_ANCHOR, RULE_ALONG_TENDON,
                                          RULE_TENDON_SERVICE};
    const kl_tendon *tendon = &s->model->tendons[s->tendon];
    const kl_material *steel = &s->model->materials[tendon->material];
    const bool low =
        !tendon->is_bar && steel->yield >= TENDON_STRESS_LOW_RELAXATION * steel->ultimate;
    for (size_t i = 0; i < sizeof moments / sizeof moments[0]; i++) {
        const rule_tendon_row *rule = rule_tendon_find(s->check->rules, moments[i], low);
        if (rule == NULL || !tendon_stress_asked(s->check->condition, moments[i])) {
            continue;
        }
        tendon_stress_place place;
        KL_TRY(tendon_stress_find(s, moments[i], &place));
        KL_TRY(tendon_stress_by_rule(s, rule, &place));
    }
    return isnan(s->check->tension) ? KL_OK : tendon_stress_given(s);
}

static kl_status tendon_stress_all(tendon_stress_search *s)
{
    for (kl_index i = 0; i < s->check->tendons.count; i++) {
        s->tendon = s->check->tendons.items[i];
        KL_TRY(tendon_stress_one(s));
    }
    return KL_OK;
}

kl_status
tendon_stress_check(kl_results *results, kl_index index, kl_diags *diags, kl_check_report *report)
{
    const kl_model *model = kl_results_model(results);
    tendon_stress_search s = {.results = results,
                              .model = model,
                              .check = &model->checks[index],
                              .index = index,
                              .diags = diags,
                              .report = report};
    if (s.check->tendons.count == 0) {
        return KL_OK;
    }
    arena memory = {0};
    s.pulled = tendon_stress_in_pulls(results, &memory);
    const kl_status status = s.pulled ? tendon_stress_all(&s) : KL_NO_MEMORY;
    arena_free(&memory);
    return status;
}
