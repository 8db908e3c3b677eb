/* stress.c - limits over members, faces and states.
 *
 * A limit is signed as its stress: compression negative, tension positive. For one member it may change from state
 * to state (fck(t)), so the worst is taken by ratio.
 * SPDX-License-Identifier: MIT */
#include "stress.h"

#include <math.h>

#include "check_text.h"
#include "near.h"
#include "stress_bond.h"
#include "stress_rule.h"
#include "when.h"

/* Stresses are sums of increments of some 10 MPa, so their rounding stays far below 1 Pa; a limit of 0 and one that
 * is met exactly pass within this. */
#define STRESS_ROUNDING_PA 1.0
#define STRESS_ROUNDING    1e-9

#define STRESS_28_DAYS (28.0 * KL_DAY)

typedef struct stress_limit {
    bool known;
    double value; /* Pa, signed */
    double strength, age;
    const rule_row *row; /* NULL: given in the model */
} stress_limit;

/* One (member, limit, face) of a check, and the worst found so far. */
typedef struct stress_search {
    kl_results *results;
    const kl_model *model;
    const kl_check *check;
    kl_diags *diags;
    arena *memory;
    kl_index member;
    const rule_tendons *prestress; /* of each member */
    const kl_station_row *rows;    /* of the member */
    kl_index row_count;
    rule_side side;
    kl_face face;
    const rule_row *row;
    const rule_row *ungrouted; /* as long as a tendon of the member waits for grout */
    stress_bond bond;
    double lambda;
    kl_check_result worst;
    stress_limit worst_limit;
    bool found, unknown_limit, unknown_stress;
    /* the worst place that fails on the way and passes at the end of its stage */
    bool on_the_way;
    kl_state way_state;
    kl_peak way_peak;
    double way_limit, way_end, way_ratio;
} stress_search;

bool stress_holds(double demand, double limit)
{
    const double reach = fabs(limit) * STRESS_ROUNDING + STRESS_ROUNDING_PA;
    return signbit(limit) ? demand >= limit - reach : demand <= limit + reach;
}

double stress_ratio(double demand, double limit)
{
    if (is_exact_zero(limit)) {
        return stress_holds(demand, limit) ? 0.0 : (double)INFINITY;
    }
    return demand / limit;
}

/* ---- limits -------------------------------------------------------------------------------------------- */

/* Strength the row is taken from, and its age. fck(t) never counts beyond fck; where no age is known (a model
 * without stages) the strength stated for transfer stands in for it. */
static void stress_strength(
    const stress_search *s, const rule_row *row, kl_state state, double *strength, double *age)
{
    const kl_material *material = &s->model->materials[s->model->members[s->member].material];
    double modulus = (double)NAN, now = (double)NAN;
    kl_concrete_of_state(s->results, state, s->member, &modulus, &now, age);
    switch (row->basis) {
    case RULE_OF_TRANSFER:
        *strength = material->transfer_strength;
        return;
    case RULE_OF_DAY:
        *strength =
            isnan(now) || isnan(*age) ? material->transfer_strength : fmin(now, material->strength);
        return;
    case RULE_OF_SPECIFIED:
        break;
    }
    *strength = material->strength;
    *age = STRESS_28_DAYS;
}

static double stress_given(const stress_search *s)
{
    return s->side == RULE_COMPRESSION ? -s->check->compression : s->check->tension;
}

/* The row of a state; NULL: the limit is the model's own. */
static const rule_row *stress_row_at(const stress_search *s, kl_state state)
{
    return s->row != s->ungrouted && stress_bond_waits(&s->bond, s->results, state, s->member)
               ? s->ungrouted
               : s->row;
}

static stress_limit stress_limit_at(const stress_search *s, kl_state state)
{
    const rule_row *row = stress_row_at(s, state);
    stress_limit limit = {false, (double)NAN, (double)NAN, (double)NAN, row};
    if (row == NULL) {
        limit.value = stress_given(s);
        limit.known = true;
        return limit;
    }
    stress_strength(s, row, state, &limit.strength, &limit.age);
    const double size = rule_limit(row, limit.strength, s->lambda, NULL);
    limit.known = !isnan(size);
    limit.value = s->side == RULE_COMPRESSION ? -size : size;
    return limit;
}

/* ---- the search ---------------------------------------------------------------------------------------- */

static kl_quantity stress_quantity(const stress_search *s)
{
    return s->face == KL_FACE_TOP ? KL_STRESS_TOP : KL_STRESS_BOTTOM;
}

static kl_status stress_peak(const stress_search *s, kl_state state, kl_peak *peak)
{
    return kl_peak_on_member(s->results, state, stress_quantity(s), KL_TOTAL, s->member, 0.0,
                             kl_member_length(s->model, s->member),
                             s->side == RULE_COMPRESSION ? KL_SMALLEST : KL_LARGEST, peak);
}

/* Is (demand, limit) worse than what was found? By ratio; equal ratios (limits of 0) by the stress itself. */
static bool stress_is_worse(const stress_search *s, double ratio, double demand)
{
    if (!s->found || ratio > s->worst.ratio) {
        return true;
    }
    const double toward =
        s->side == RULE_COMPRESSION ? s->worst.demand - demand : demand - s->worst.demand;
    return !(ratio < s->worst.ratio) && toward > 0.0;
}

/* The value at one place at the end of a stage and whether it passes there. */
static bool
stress_passes_later(const stress_search *s, const kl_peak *peak, kl_state last, double *value)
{
    const stress_limit limit = stress_limit_at(s, last);
    return limit.known && kl_member_stands(s->results, last, s->member) &&
           kl_value_on_member(s->results, last, stress_quantity(s), KL_TOTAL, s->member,
                              peak->station, peak->side, value) == KL_OK &&
           stress_holds(*value, limit.value);
}

static void
stress_note_on_the_way(stress_search *s, kl_state state, const kl_peak *peak, double limit)
{
    kl_state last = state;
    const double ratio = stress_ratio(peak->value, limit);
    double end = 0.0;
    if (stress_holds(peak->value, limit) || !when_is_on_the_way(s->results, state, &last) ||
        !stress_passes_later(s, peak, last, &end) || (s->on_the_way && ratio <= s->way_ratio)) {
        return;
    }
    s->on_the_way = true;
    s->way_state = state;
    s->way_peak = *peak;
    s->way_limit = limit;
    s->way_end = end;
    s->way_ratio = ratio;
}

static void
stress_take(stress_search *s, kl_state state, const kl_peak *peak, const stress_limit *limit)
{
    const double ratio = stress_ratio(peak->value, limit->value);
    if (!stress_is_worse(s, ratio, peak->value)) {
        return;
    }
    s->found = true;
    s->worst_limit = *limit;
    s->worst.state = state;
    s->worst.station = peak->station;
    s->worst.side = peak->side;
    s->worst.demand = peak->value;
    s->worst.limit = limit->value;
    s->worst.ratio = ratio;
    s->worst.passed = stress_holds(peak->value, limit->value);
}

/* @param counts false: looked at for the warning only. */
static kl_status stress_look(stress_search *s, kl_state state, bool counts)
{
    if (!kl_member_stands(s->results, state, s->member)) {
        return KL_OK;
    }
    kl_peak peak;
    const kl_status status = stress_peak(s, state, &peak);
    if (status != KL_OK) {
        s->unknown_stress = s->unknown_stress || counts;
        return status == KL_NO_MEMORY ? status : KL_OK;
    }
    const stress_limit limit = stress_limit_at(s, state);
    if (!limit.known) {
        s->unknown_limit = s->unknown_limit || counts;
        return KL_OK;
    }
    stress_note_on_the_way(s, state, &peak, limit.value);
    if (counts) {
        stress_take(s, state, &peak, &limit);
    }
    return KL_OK;
}

static kl_status stress_look_everywhere(stress_search *s)
{
    when_states states = {0};
    KL_TRY(when_find(s->results, &s->check->when, s->memory, &states));
    for (kl_index i = 0; i < states.count; i++) {
        KL_TRY(stress_look(s, states.items[i], true));
    }
    if (s->check->when.kind != KL_WHEN_AFTER) {
        return KL_OK;
    }
    const kl_index stage = s->check->when.first;
    for (kl_index i = kl_first_step(s->results, stage); i < kl_last_step(s->results, stage); i++) {
        KL_TRY(stress_look(s, kl_state_step(i), false));
    }
    return KL_OK;
}

/* ---- what is told -------------------------------------------------------------------------------------- */

static const char *stress_face_name(kl_face face)
{
    return face == KL_FACE_TOP ? "top" : "bottom";
}

/* Places of the member, column faces among them. */
static kl_status stress_find_rows(stress_search *s)
{
    const kl_status status =
        kl_station_rows(s->results, s->member, (double)NAN, &s->rows, &s->row_count);
    return status == KL_NO_MEMORY ? status : KL_OK;
}

static void stress_mark_face(stress_search *s)
{
    const double reach = NEAR_STATION * kl_member_length(s->model, s->member);
    for (kl_index i = 0; i < s->row_count; i++) {
        if (s->rows[i].is_face && fabs(s->rows[i].station - s->worst.station) <= reach) {
            s->worst.column_face = 1;
        }
    }
}

static kl_status stress_write(stress_search *s)
{
    kl_check_result *w = &s->worst;
    const kl_display *display = &s->model->display;
    const rule_row *row = s->worst_limit.row;
    if (row == NULL) {
        w->formula = w->limit_name;
        w->numbers = text_value(s->memory, display, KL_MEASURE_STRESS, fabs(w->limit));
        w->rule = "given in the model";
        return w->numbers == NULL ? KL_NO_MEMORY : KL_OK;
    }
    w->strength = s->worst_limit.strength;
    w->strength_age = s->worst_limit.age;
    w->strength_name = row->symbol;
    w->formula = row->formula;
    w->from_memory = row->from_memory;
    w->numbers = text_rule_numbers(s->memory, display, row, w->strength, s->lambda);
    w->rule = text_rule(s->memory, row, s->check, s->lambda);
    if (w->rule != NULL && row != s->row) {
        w->rule = arena_print(s->memory, "%s; tendons not grouted by then", w->rule);
    }
    return w->numbers == NULL || w->rule == NULL ? KL_NO_MEMORY : KL_OK;
}

static kl_status stress_warn_on_the_way(const stress_search *s)
{
    const kl_display *display = &s->model->display;
    arena *a = s->memory;
    const char *value = text_value(a, display, KL_MEASURE_STRESS, s->way_peak.value);
    const char *limit = text_value(a, display, KL_MEASURE_STRESS, s->way_limit);
    const char *end = text_value(a, display, KL_MEASURE_STRESS, s->way_end);
    const char *place = text_value(a, display, KL_MEASURE_STATION, s->way_peak.station);
    const char *moment = text_state(a, s->results, s->way_state);
    if (value == NULL || limit == NULL || end == NULL || place == NULL || moment == NULL) {
        return KL_NO_MEMORY;
    }
    kl_diags_add(
        s->diags, KL_WARNING, "passes-only-at-stage-end", s->check->origin,
        "The %s of %s at %s has %s against a limit of %s %s; at the end of the stage it is %s and "
        "passes. Look at the steps on the way.",
        stress_face_name(s->face), s->model->members[s->member].name, place, value, limit, moment,
        end);
    return KL_OK;
}

/* A row that could not be held against anything fails, and says why. */
static void stress_tell_unknown(const stress_search *s)
{
    const char *member = s->model->members[s->member].name;
    const char *check = s->check->name;
    if (s->unknown_limit) {
        kl_diags_add(
            s->diags, KL_WARNING, "check-without-strength", s->check->origin,
            "Check %s needs %s of the concrete of %s for its %s limit, and it is not stated; the "
            "check fails.",
            check, s->row->symbol, member, s->worst.limit_name);
    } else if (s->unknown_stress) {
        kl_diags_add(
            s->diags, KL_WARNING, "check-without-stress", s->check->origin,
            "Check %s cannot find the stress at the %s of %s: its section does not say how far its "
            "faces are, or the states cannot be combined; the check fails.",
            check, stress_face_name(s->face), member);
    } else {
        kl_diags_add(s->diags, KL_WARNING, "check-sees-nothing", s->check->origin,
                     "Check %s looks at %s when it does not stand; the check fails.", check,
                     member);
    }
}

static kl_status stress_finish(stress_search *s, kl_check_report *report)
{
    if (s->found) {
        kl_state last = s->worst.state;
        double end = 0.0;
        const kl_peak place = {s->worst.demand, s->worst.station, s->worst.side};
        const bool way = when_is_on_the_way(s->results, s->worst.state, &last);
        s->worst.ends_stage_well =
            way ? stress_passes_later(s, &place, last, &end) : s->worst.passed;
        stress_mark_face(s);
        KL_TRY(stress_write(s));
    }
    if (!s->found || s->unknown_limit || s->unknown_stress) {
        stress_tell_unknown(s);
        s->worst.passed = false;
    }
    if (s->on_the_way) {
        KL_TRY(stress_warn_on_the_way(s));
    }
    return report_add_check(report, &s->worst);
}

/* Has the check a limit on that side? Then *row is the rule's, or NULL for the model's own. */
static bool stress_has_limit(stress_search *s)
{
    const bool given =
        !isnan(s->side == RULE_COMPRESSION ? s->check->compression : s->check->tension);
    s->row = given ? NULL : stress_rule_of(s->check, s->prestress[s->member], s->side);
    s->ungrouted = s->row != NULL ? stress_rule_of(s->check, RULE_TENDONS_UNBONDED, s->side) : NULL;
    return given || s->row != NULL;
}

static kl_status
stress_check_side(const stress_search *start, rule_side side, kl_check_report *report)
{
    for (int face = KL_FACE_TOP; face <= KL_FACE_BOTTOM; face++) {
        if (start->check->face != KL_FACE_BOTH && (int)start->check->face != face) {
            continue;
        }
        stress_search s = *start;
        s.side = side;
        s.face = face == KL_FACE_TOP ? KL_FACE_TOP : KL_FACE_BOTTOM;
        if (!stress_has_limit(&s)) {
            continue;
        }
        s.worst.member = s.member;
        s.worst.face = s.face;
        s.worst.limit_name = side == RULE_COMPRESSION ? "compression" : "tension";
        KL_TRY(stress_look_everywhere(&s));
        KL_TRY(stress_finish(&s, report));
    }
    return KL_OK;
}

static kl_status stress_check_members(kl_results *results,
                                      kl_index index,
                                      const rule_tendons *prestress,
                                      kl_diags *diags,
                                      kl_check_report *report)
{
    const kl_model *model = kl_results_model(results);
    const kl_check *check = &model->checks[index];
    stress_bond bond;
    KL_TRY(stress_bond_list(model, &report->memory, &bond));
    for (kl_index i = 0; i < check->members.count; i++) {
        stress_search s = {.results = results,
                           .model = model,
                           .check = check,
                           .diags = diags,
                           .memory = &report->memory,
                           .member = check->members.items[i],
                           .prestress = prestress,
                           .bond = bond,
                           .worst = report_blank_check(index)};
        s.lambda = rule_lambda(model->materials[model->members[s.member].material].unit_weight);
        KL_TRY(stress_find_rows(&s));
        KL_TRY(stress_check_side(&s, RULE_COMPRESSION, report));
        KL_TRY(stress_check_side(&s, RULE_TENSION, report));
    }
    return KL_OK;
}

kl_status
stress_check(kl_results *results, kl_index index, kl_diags *diags, kl_check_report *report)
{
    if (kl_results_model(results)->checks[index].members.count == 0) {
        return KL_OK;
    }
    arena memory = {0};
    const rule_tendons *prestress = NULL;
    kl_status status = stress_rule_prestress(kl_results_model(results), &memory, &prestress);
    if (status == KL_OK) {
        stress_rule_warn(kl_results_model(results), &kl_results_model(results)->checks[index],
                         prestress, diags);
        status = stress_check_members(results, index, prestress, diags, report);
    }
    arena_free(&memory);
    return status;
}
