/* build_ask.c - kl_model_add_combination, _check and _expectation: what is asked of the results.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "build.h"
#include "near.h"

#define COMBINATION_MOST_FACTORS 1000
#define CHECK_MOST_NAMES         1000000

static void check_cause(build_item *item, kl_cause cause, kl_origin origin)
{
    const bool known = (int)cause.kind >= 0 && cause.kind < KL_CAUSE_COUNT;
    const bool case_known = cause.kind != KL_CAUSE_CASE ||
                            (cause.load_case >= 0 && cause.load_case < item->model->case_count);
    if (!known || !case_known) {
        build_error(item, "bad-reference", origin, "The cause in %s does not exist in the model.",
                    build_subject(item));
    }
}

/* ---- combinations ------------------------------------------------------------------------------------- */

kl_status
kl_model_add_combination(kl_model *model, const kl_combination *combination, kl_index *added)
{
    build_item item =
        build_start(model, KL_KIND_COMBINATION, combination->name, combination->origin);
    if (combination->factor_count < 1) {
        build_error(&item, "no-factor", item.origin, "%s has no factor in it.",
                    build_subject(&item));
    }
    build_limit(&item, "factors", combination->factor_count, COMBINATION_MOST_FACTORS);
    for (kl_index i = 0; !item.bad && i < combination->factor_count; i++) {
        build_need_finite(&item, "factor", combination->factors[i].factor);
        check_cause(&item, combination->factors[i].cause, combination->factors[i].origin);
    }
    if (item.bad) {
        return KL_BAD_MODEL;
    }
    kl_combination copy = *combination;
    const void *factors = NULL;
    KL_TRY(build_copy_name(&item, &copy.name));
    KL_TRY(build_copy(model, combination->factors, copy.factor_count, sizeof *combination->factors,
                      &factors));
    copy.factors = factors;
    return build_append(&item, &copy, sizeof copy, &model->combination_count, added);
}

/* ---- when --------------------------------------------------------------------------------------------- */

static void check_when(build_item *item, kl_when when)
{
    const kl_model *model = item->model;
    switch (when.kind) {
    case KL_WHEN_UNSET:
        break;
    case KL_WHEN_AFTER:
    case KL_WHEN_DURING:
        (void)build_reference(item, "stage", when.first, model->stage_count, false);
        break;
    case KL_WHEN_FROM_TO:
        if (build_reference(item, "first stage", when.first, model->stage_count, false) &&
            build_reference(item, "last stage", when.last, model->stage_count, false) &&
            when.first > when.last) {
            build_error(item, "stages-backwards", item->origin,
                        "In %s: stage %s does not come after %s.", build_subject(item),
                        model->stages[when.last].name, model->stages[when.first].name);
            build_hint(item, "write the earlier stage first");
        }
        break;
    case KL_WHEN_CASE:
        (void)build_reference(item, "load case", when.first, model->case_count, false);
        break;
    case KL_WHEN_COMBINATION:
        (void)build_reference(item, "combination", when.first, model->combination_count, false);
        break;
    }
}

/* ---- checks ------------------------------------------------------------------------------------------- */

static void check_limits(build_item *item, const kl_check *check)
{
    const bool own = !isnan(check->compression) || !isnan(check->tension);
    build_positive(item, "compression limit", check->compression);
    build_not_negative(item, "tension limit", check->tension);
    if (own && check->rules != KL_RULES_NONE) {
        build_error(item, "rules-and-limits", item->origin,
                    "%s has both rules and limits of its own.", build_subject(item));
        build_hint(item, "write two checks, one for each");
    } else if (!own && check->rules == KL_RULES_NONE) {
        build_error(item, "no-limits", item->origin, "%s has neither rules nor a limit of its own.",
                    build_subject(item));
        build_hint(item, "write `rules aashto 2020`, or `compression` and `tension`");
    }
    /* Tendons have limits for every condition; without one all of them are held. */
    if (check->rules != KL_RULES_NONE && check->condition == KL_CONDITION_UNSET &&
        check->members.count > 0) {
        build_error(item, "no-condition", item->origin,
                    "%s does not say which condition of the rules holds.", build_subject(item));
        build_hint(item,
                   "write `condition transfer`, `condition service` or `condition sustained`");
    }
}

static void check_checked(build_item *item, const kl_check *check)
{
    const kl_model *model = item->model;
    build_limit(item, "members", check->members.count, CHECK_MOST_NAMES);
    build_limit(item, "tendons", check->tendons.count, CHECK_MOST_NAMES);
    if (check->members.count < 1 && check->tendons.count < 1) {
        build_error(item, "checks-nothing", item->origin, "%s names no members and no tendons.",
                    build_subject(item));
        build_hint(item, "write `members` and their names");
    }
    for (kl_index i = 0; !item->bad && i < check->members.count; i++) {
        (void)build_reference(item, "member", check->members.items[i], model->member_count, false);
    }
    for (kl_index i = 0; !item->bad && i < check->tendons.count; i++) {
        (void)build_reference(item, "tendon", check->tendons.items[i], model->tendon_count, false);
    }
}

kl_status kl_model_add_check(kl_model *model, const kl_check *check, kl_index *added)
{
    build_item item = build_start(model, KL_KIND_CHECK, check->name, check->origin);
    check_checked(&item, check);
    check_limits(&item, check);
    check_when(&item, check->when);
    if (check->when.kind == KL_WHEN_UNSET) {
        build_error(&item, "no-when", item.origin, "%s does not say when it holds.",
                    build_subject(&item));
        build_hint(&item, "write `after`, `during`, `from … to …` or `under`");
    }
    if (item.bad) {
        return KL_BAD_MODEL;
    }
    kl_check copy = *check;
    const void *members = NULL;
    const void *tendons = NULL;
    KL_TRY(build_copy_name(&item, &copy.name));
    KL_TRY(
        build_copy(model, check->members.items, check->members.count, sizeof(kl_index), &members));
    KL_TRY(
        build_copy(model, check->tendons.items, check->tendons.count, sizeof(kl_index), &tendons));
    copy.members.items = members;
    copy.tendons.items = tendons;
    return build_append(&item, &copy, sizeof copy, &model->check_count, added);
}

/* ---- expectations ------------------------------------------------------------------------------------- */

/* The kind of place a quantity is asked at. */
typedef enum expect_place {
    PLACE_MEMBER,
    PLACE_MEMBER_OR_NODE,
    PLACE_NODE,
    PLACE_TENDON,
    PLACE_FALSEWORK
} expect_place;

static expect_place place_of(kl_quantity quantity)
{
    switch (quantity) {
    case KL_MOMENT:
    case KL_SHEAR:
    case KL_AXIAL:
    case KL_STRESS_TOP:
    case KL_STRESS_BOTTOM:
    case KL_CAMBER:
        return PLACE_MEMBER;
    case KL_DEFLECTION:
    case KL_SWAY:
    case KL_ROTATION:
        return PLACE_MEMBER_OR_NODE;
    case KL_REACTION:
        return PLACE_NODE;
    case KL_TENDON_FORCE:
    case KL_ELONGATION:
        return PLACE_TENDON;
    case KL_POST:
        return PLACE_FALSEWORK;
    }
    return PLACE_MEMBER;
}

static bool check_place(build_item *item, const kl_expectation *expectation)
{
    const kl_model *model = item->model;
    expect_place place = place_of(expectation->quantity);
    if (place == PLACE_MEMBER_OR_NODE) {
        place = expectation->node != KL_NONE ? PLACE_NODE : PLACE_MEMBER;
    }
    switch (place) {
    case PLACE_MEMBER:
    case PLACE_MEMBER_OR_NODE:
        return build_reference(item, "member", expectation->member, model->member_count, false);
    case PLACE_NODE:
        return build_reference(item, "node", expectation->node, model->node_count, false);
    case PLACE_TENDON:
        return build_reference(item, "tendon", expectation->tendon, model->tendon_count, false);
    case PLACE_FALSEWORK:
        break;
    }
    return build_reference(item, "falsework", expectation->falsework, model->falsework_count,
                           false);
}

/* A post is asked for at a row, to 1e-6 of the member's length like any station. */
static void check_row(build_item *item, kl_expectation *expectation)
{
    const kl_model *model = item->model;
    const kl_falsework *falsework = &model->falsework[expectation->falsework];
    const double length = kl_member_length(model, falsework->member);
    kl_index nearest = 0;
    for (kl_index i = 1; i < falsework->row_count; i++) {
        if (fabs(falsework->stations[i] - expectation->station) <
            fabs(falsework->stations[nearest] - expectation->station)) {
            nearest = i;
        }
    }
    const double row = falsework->stations[nearest];
    if (fabs(row - expectation->station) <= NEAR_STATION * length) {
        expectation->station = row;
        return;
    }
    const build_number at = build_show(model, KL_MEASURE_STATION, expectation->station);
    const build_number near = build_show(model, KL_MEASURE_STATION, row);
    build_error(item, "no-row-there", item->origin, "Falsework %s has no row at %s.",
                falsework->name, at.text);
    build_hint(item, "the nearest row is at %s", near.text);
}

static void check_station(build_item *item, kl_expectation *expectation)
{
    const kl_model *model = item->model;
    const bool one = expectation->extreme == KL_VALUE;
    if (expectation->falsework != KL_NONE) {
        if (!isnan(expectation->station)) {
            check_row(item, expectation);
        } else if (one) {
            build_error(item, "no-station", item->origin,
                        "An expected post needs the row's station.");
        }
        return;
    }
    if (expectation->member != KL_NONE) {
        build_station(item, item->origin, kl_member_length(model, expectation->member),
                      model->members[expectation->member].name, &expectation->station);
        if (isnan(expectation->station) && one) {
            build_error(item, "no-station", item->origin,
                        "An expected value on a member needs a station.");
            build_hint(item, "write `at` and a station, or ask for the `max` or `min`");
        }
    } else if (expectation->tendon != KL_NONE) {
        build_station(item, item->origin, kl_tendon_range(model, expectation->tendon),
                      "the tendon's members", &expectation->station);
        if (isnan(expectation->station) && expectation->quantity == KL_TENDON_FORCE) {
            build_error(
                item, "no-station", item->origin,
                "An expected force of a tendon needs a station, the largest and smallest too.");
        }
    }
}

static void check_tolerance(build_item *item, const kl_expectation *expectation)
{
    build_need_finite(item, "expected value", expectation->value);
    build_need_finite(item, "tolerance", expectation->tolerance);
    build_not_negative(item, "tolerance", expectation->tolerance);
    if (expectation->tolerance_relative && !(fabs(expectation->value) > 0.0)) {
        build_error(item, "relative-to-zero", item->origin,
                    "A tolerance in %% cannot be held against an expected 0.");
        build_hint(item, "write an absolute tolerance, as in `within 0.1 %s`",
                   kl_show_unit(&item->model->display, expectation->measure));
    }
}

static void check_question(build_item *item, const kl_expectation *expectation)
{
    const bool action = expectation->quantity == KL_MOMENT || expectation->quantity == KL_SHEAR ||
                        expectation->quantity == KL_AXIAL;
    if (expectation->part != KL_TOTAL && !action) {
        build_error(item, "part-of-what", item->origin,
                    "Only moment, shear and axial have a primary, secondary or concrete part.");
    }
    if (expectation->when.kind == KL_WHEN_UNSET) {
        build_error(item, "no-when", item->origin, "The expectation does not say when.");
        build_hint(item, "write `after STAGE` or `under CASE`");
    }
    if (expectation->extreme == KL_VALUE &&
        (expectation->when.kind == KL_WHEN_DURING || expectation->when.kind == KL_WHEN_FROM_TO)) {
        build_error(item, "during-one-value", item->origin,
                    "`during` looks at several steps, so it goes with `max` or `min`.");
    }
}

kl_status
kl_model_add_expectation(kl_model *model, const kl_expectation *expectation, kl_index *added)
{
    build_item item = build_start(model, ENTITY_EXPECTATION, NULL, expectation->origin);
    kl_expectation copy = *expectation;
    if (check_place(&item, &copy)) {
        check_station(&item, &copy);
    }
    check_when(&item, copy.when);
    check_question(&item, &copy);
    check_tolerance(&item, &copy);
    check_cause(&item, copy.cause, copy.origin);
    if (item.bad) {
        return KL_BAD_MODEL;
    }
    KL_TRY(build_copy_text(model, expectation->source, &copy.source));
    return build_append(&item, &copy, sizeof copy, &model->expectation_count, added);
}
