/* warn_frame.c - supports and bearings that pull, and concrete in tension beyond cracking.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "check_text.h"
#include "rules.h"
#include "warn.h"

/* A pull below this share of all the reactions is rounding, or nothing to anchor. */
#define WARN_PULL_SHARE 1e-6

/* ---- uplift --------------------------------------------------------------------------------------------- */

/* What pushes a node up: a support, or the base of a bearing. */
typedef struct warn_seat {
    const char *name; /* of the warning */
    const char *what; /* "The support at" */
    kl_origin origin;
    kl_index node;
    double slope;
    kl_index bearing; /* KL_NONE: supports */
} warn_seat;

static kl_status warn_force(const warn_context *c,
                            const warn_seat *seat,
                            kl_state state,
                            kl_direction direction,
                            double *value)
{
    return seat->bearing == KL_NONE
               ? kl_reaction(c->results, state, seat->node, direction, value)
               : kl_bearing_force(c->results, state, seat->bearing, direction, value);
}

/* The push along the normal of the line that the seat holds, upward +; NAN: not there. */
static double warn_push(const warn_context *c, const warn_seat *seat, kl_state state)
{
    double x = 0.0, y = 0.0;
    if (warn_force(c, seat, state, KL_X, &x) != KL_OK ||
        warn_force(c, seat, state, KL_Y, &y) != KL_OK) {
        return (double)NAN;
    }
    const double across = y * cos(seat->slope) - x * sin(seat->slope);
    return cos(seat->slope) < 0.0 ? -across : across;
}

/* Sum of the sizes of all vertical reactions, N: what a pull is small against. One for each state; NULL: no memory. */
static double *warn_all_reactions(const warn_context *c)
{
    double *sums = arena_array(c->memory, (size_t)c->states.count, sizeof(double));
    for (kl_index s = 0; sums != NULL && s < c->states.count; s++) {
        for (kl_index i = 0; i < c->model->support_count; i++) {
            double y = 0.0;
            const kl_index node = c->model->supports[i].node;
            if (kl_reaction(c->results, c->states.items[s], node, KL_Y, &y) == KL_OK) {
                sums[s] += fabs(y);
            }
        }
    }
    return sums;
}

static kl_status
warn_tell_pull(const warn_context *c, const warn_seat *seat, double pull, kl_state state)
{
    const char *force = text_value(c->memory, &c->model->display, KL_MEASURE_FORCE, pull);
    const char *moment = text_state(c->memory, c->results, state);
    if (force == NULL || moment == NULL) {
        return KL_NO_MEMORY;
    }
    kl_diags_add(c->diags, KL_WARNING, seat->name, seat->origin,
                 "%s %s holds the structure down with %s %s: give it an anchorage, or let it "
                 "lift (`y push up`).",
                 seat->what, c->model->nodes[seat->node].name, force, moment);
    return KL_OK;
}

#define WARN_PULL_FLOOR 1.0 /* N: under loads that leave a support free there is only rounding */

static kl_status
warn_of_seat(const warn_context *c, const warn_seat *seat, const double *all_reactions)
{
    double worst = 0.0;
    kl_state when = kl_state_step(0);
    for (kl_index s = 0; s < c->states.count; s++) {
        const double push = warn_push(c, seat, c->states.items[s]);
        if (push < worst && -push > WARN_PULL_FLOOR && -push > WARN_PULL_SHARE * all_reactions[s]) {
            worst = push;
            when = c->states.items[s];
        }
    }
    return worst < 0.0 ? warn_tell_pull(c, seat, -worst, when) : KL_OK;
}

static kl_status warn_of_bearings(const warn_context *c, const double *all_reactions)
{
    for (kl_index b = 0; b < c->model->bearing_count; b++) {
        const kl_bearing *bearing = &c->model->bearings[b];
        const warn_seat seat = {.name = "bearing-pulls",
                                .what = "The bearing at",
                                .origin = bearing->origin,
                                .node = bearing->node,
                                .bearing = b};
        if (bearing->hold[KL_Y].kind == KL_FIXED) {
            KL_TRY(warn_of_seat(c, &seat, all_reactions));
        }
    }
    return KL_OK;
}

/* Reactions are told by node: only the first support of a node speaks. */
kl_status warn_pulling_supports(const warn_context *c)
{
    const double *all_reactions = warn_all_reactions(c);
    bool *was_heard = arena_array(c->memory, (size_t)c->model->node_count, sizeof(bool));
    if (all_reactions == NULL || was_heard == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < c->model->support_count; i++) {
        const kl_support *support = &c->model->supports[i];
        const warn_seat seat = {.name = "support-pulls",
                                .what = "The support at",
                                .origin = support->origin,
                                .node = support->node,
                                .slope = support->slope,
                                .bearing = KL_NONE};
        if (!was_heard[support->node] && support->hold[KL_Y].kind == KL_FIXED) {
            KL_TRY(warn_of_seat(c, &seat, all_reactions));
        }
        was_heard[support->node] = true;
    }
    return warn_of_bearings(c, all_reactions);
}

/* ---- cracking ------------------------------------------------------------------------------------------- */

typedef struct warn_crack {
    double ratio; /* of the modulus of rupture */
    double rupture;
    kl_peak peak;
    kl_face face;
    kl_state state;
} warn_crack;

/* Strength of the day, never above the one at 28 days that is counted on. */
static double warn_strength(const warn_context *c, kl_state state, kl_index member)
{
    const kl_material *material = &c->model->materials[c->model->members[member].material];
    double modulus = 0.0, now = (double)NAN, age = 0.0;
    kl_concrete_of_state(c->results, state, member, &modulus, &now, &age);
    return isnan(now) || now <= 0.0 ? material->strength : fmin(now, material->strength);
}

static kl_status
warn_find_crack(const warn_context *c, kl_state state, kl_index member, warn_crack *worst)
{
    const kl_material *material = &c->model->materials[c->model->members[member].material];
    const double rupture =
        rule_rupture(warn_strength(c, state, member), rule_lambda(material->unit_weight));
    if (isnan(rupture) || rupture <= 0.0 || !kl_member_stands(c->results, state, member)) {
        return KL_OK;
    }
    for (int face = KL_FACE_TOP; face <= KL_FACE_BOTTOM; face++) {
        const bool top = face == KL_FACE_TOP;
        kl_peak peak;
        const kl_status status =
            kl_peak_on_member(c->results, state, top ? KL_STRESS_TOP : KL_STRESS_BOTTOM, KL_TOTAL,
                              member, 0.0, kl_member_length(c->model, member), KL_LARGEST, &peak);
        if (status == KL_NO_MEMORY) {
            return status;
        }
        if (status == KL_OK && peak.value / rupture > worst->ratio) {
            *worst = (warn_crack){peak.value / rupture, rupture, peak,
                                  top ? KL_FACE_TOP : KL_FACE_BOTTOM, state};
        }
    }
    return KL_OK;
}

static kl_status warn_tell_crack(const warn_context *c, kl_index member, const warn_crack *crack)
{
    const kl_display *display = &c->model->display;
    const char *stress = text_value(c->memory, display, KL_MEASURE_STRESS, crack->peak.value);
    const char *limit = text_value(c->memory, display, KL_MEASURE_STRESS, crack->rupture);
    const char *place = text_value(c->memory, display, KL_MEASURE_STATION, crack->peak.station);
    const char *moment = text_state(c->memory, c->results, crack->state);
    if (stress == NULL || limit == NULL || place == NULL || moment == NULL) {
        return KL_NO_MEMORY;
    }
    kl_diags_add(
        c->diags, KL_WARNING, "cracked-section", c->model->members[member].origin,
        "The %s of %s at %s is in tension by %s %s, beyond the %s at which concrete usually cracks "
        "(7.5 sqrt(f'c) in psi, ACI 318-19, 19.2.3.1). Its uncracked stiffness overstates what it "
        "attracts.",
        crack->face == KL_FACE_TOP ? "top" : "bottom", c->model->members[member].name, place,
        stress, moment, limit);
    return KL_OK;
}

kl_status warn_cracked_sections(const warn_context *c)
{
    for (kl_index m = 0; m < c->model->member_count; m++) {
        if (c->model->materials[c->model->members[m].material].kind != KL_CONCRETE) {
            continue;
        }
        warn_crack worst = {1.0, 0.0, {0.0, 0.0, KL_RIGHT}, KL_FACE_TOP, kl_state_step(0)};
        for (kl_index s = 0; s < c->states.count; s++) {
            KL_TRY(warn_find_crack(c, c->states.items[s], m, &worst));
        }
        if (worst.ratio > 1.0) {
            KL_TRY(warn_tell_crack(c, m, &worst));
        }
    }
    return KL_OK;
}
