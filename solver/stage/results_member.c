/* results_member.c - questions about members: values, peaks, stations.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdlib.h>

#include "course.h"
#include "near.h"

kl_state kl_state_step(kl_index step)
{
    return (kl_state){KL_STATE_STEP, step, {KL_CAUSE_ALL, KL_NONE}};
}

kl_state kl_state_case(kl_index load_case)
{
    return (kl_state){KL_STATE_CASE, load_case, {KL_CAUSE_ALL, KL_NONE}};
}

kl_state kl_state_combination(kl_index combination)
{
    return (kl_state){KL_STATE_COMBINATION, combination, {KL_CAUSE_ALL, KL_NONE}};
}

kl_state kl_state_moment(kl_index moment)
{
    return (kl_state){KL_STATE_MOMENT, moment, {KL_CAUSE_ALL, KL_NONE}};
}

kl_state kl_state_of_cause(kl_state state, kl_cause cause)
{
    state.cause = cause;
    return state;
}

bool kl_member_stands(const kl_results *results, kl_state state, kl_index member)
{
    const state_record *record = store_record_of(results, state);
    return record && record->members[member].stands;
}

/* ---- values ---------------------------------------------------------------------------------------------- */

/* In a rigid part: actions go on by statics from the face, movements by the turn of the node, which a hinge at the face
 * keeps to itself. `beyond` is the distance from the face outward, along the member's direction. */
static kl_status beyond_face(const kl_results *results,
                             kl_state state,
                             kl_quantity quantity,
                             kl_part part,
                             kl_index e,
                             double t,
                             double beyond,
                             double *value)
{
    course c;
    const kl_index member = results->run.mesh.elements[e].member;
    const mesh_member *of = &results->run.mesh.members[member];
    const bool moves = quantity == KL_DEFLECTION || quantity == KL_SWAY || quantity == KL_CAMBER ||
                       quantity == KL_ROTATION;
    if (quantity == KL_MOMENT) {
        KL_TRY(course_make(results, state, KL_SHEAR, part, e, &c));
        *value += course_value(&c, t) * beyond;
    } else if (moves) {
        const size_t at = results->run.layout.turn + 2 * (size_t)member + (beyond > 0.0 ? 1 : 0);
        double turn;
        KL_TRY(store_sum(results, state, at, 1, 1, &turn));
        *value = quantity == KL_ROTATION     ? turn
                 : quantity == KL_DEFLECTION ? *value + turn * beyond * of->cosine
                 : quantity == KL_CAMBER     ? *value - turn * beyond * of->cosine
                                             : *value - turn * beyond * of->sine;
    }
    return KL_OK;
}

kl_status kl_value_on_member(const kl_results *results,
                             kl_state state,
                             kl_quantity quantity,
                             kl_part part,
                             kl_index member,
                             double station,
                             kl_side side,
                             double *value)
{
    if (!kl_member_stands(results, state, member)) {
        return KL_NOT_THERE;
    }
    const frame_mesh *mesh = &results->run.mesh;
    const mesh_member *of = &mesh->members[member];
    const kl_index e = mesh_element_at(mesh, member, station, side);
    const mesh_element *el = &mesh->elements[e];
    const bool is_first = e == of->first;
    const bool is_last = e == of->first + of->count - 1;
    const double xi = fmin(fmax((station - el->from) / (el->to - el->from), 0.0), 1.0);
    const double t = 2.0 * xi - 1.0;
    course c;
    KL_TRY(course_make(results, state, quantity, part, e, &c));
    *value = course_value(&c, t);
    if (is_first && el->rigid[0] > 0.0 && station < el->from) {
        return beyond_face(results, state, quantity, part, e, t, station - el->from, value);
    }
    if (is_last && el->rigid[1] > 0.0 && station > el->to) {
        return beyond_face(results, state, quantity, part, e, t, station - el->to, value);
    }
    return KL_OK;
}

/* ---- peaks ----------------------------------------------------------------------------------------------- */

/* What is asked, and the best seen so far. */
typedef struct peak_search {
    const kl_results *results;
    kl_state state;
    kl_quantity quantity;
    kl_part part;
    kl_peak *smallest, *largest; /* NULL: not asked for */
    bool any;
    double size; /* of the largest value seen, whatever its sign */
} peak_search;

/* Of equals the first stands: rounding does not choose between the two ends of a simple beam. */
static void consider(peak_search *s, double value, double station, kl_side side)
{
    s->size = fabs(value) > s->size ? fabs(value) : s->size;
    const double rounding = NEAR_ROUNDING * s->size;
    if (s->smallest && (!s->any || value < s->smallest->value - rounding)) {
        *s->smallest = (kl_peak){value, station, side};
    }
    if (s->largest && (!s->any || value > s->largest->value + rounding)) {
        *s->largest = (kl_peak){value, station, side};
    }
    s->any = true;
}

/* Can the course between two of its points still pass what was seen? */
static bool may_pass(const peak_search *s, const course *c, course_ends at)
{
    const double bulge = course_bulge(c);
    const double low = (at.start < at.end ? at.start : at.end) - bulge;
    const double high = (at.start < at.end ? at.end : at.start) + bulge;
    return (s->smallest && low < s->smallest->value) || (s->largest && high > s->largest->value);
}

/* Stations a … b of one element: its ends and every stationary point between that may matter. */
static kl_status search_element(peak_search *s, kl_index e, double a, double b)
{
    const mesh_element *el = &s->results->run.mesh.elements[e];
    const double length = el->to - el->from;
    const bool is_whole = a <= el->from && b >= el->to;
    const double ta = is_whole ? -1.0 : 2.0 * (a - el->from) / length - 1.0;
    const double tb = is_whole ? 1.0 : 2.0 * (b - el->from) / length - 1.0;
    double t[COURSE_TERMS];
    course c;
    KL_TRY(course_make(s->results, s->state, s->quantity, s->part, e, &c));
    const course_ends at =
        is_whole ? course_at_ends(&c) : (course_ends){course_value(&c, ta), course_value(&c, tb)};
    consider(s, at.start, a, KL_RIGHT);
    const int count = may_pass(s, &c, at) ? course_stationary(&c, ta, tb, t) : 0;
    for (int i = 0; i < count; i++) {
        consider(s, course_value(&c, t[i]), el->from + 0.5 * (t[i] + 1.0) * length, KL_RIGHT);
    }
    consider(s, at.end, b, KL_LEFT);
    return KL_OK;
}

/* In a rigid part: courses there are straight from the face on. */
static kl_status search_rigid(peak_search *s, kl_index member, double station, kl_side side)
{
    double value;
    KL_TRY(kl_value_on_member(s->results, s->state, s->quantity, s->part, member, station, side,
                              &value));
    consider(s, value, station, side);
    return KL_OK;
}

static kl_status walk_member(peak_search *s, kl_index member, double from, double to)
{
    const frame_mesh *mesh = &s->results->run.mesh;
    const mesh_member *of = &mesh->members[member];
    const double tolerance = NEAR_STATION * of->length;
    for (kl_index e = of->first; e < of->first + of->count; e++) {
        const double a = fmax(from, mesh->elements[e].from);
        const double b = fmin(to, mesh->elements[e].to);
        const bool outside = b < a - tolerance;
        const bool touches = b <= a + tolerance && to - from > 2.0 * tolerance;
        if (!outside && !touches) {
            KL_TRY(search_element(s, e, a, b));
        }
    }
    const double faces[] = {mesh->elements[of->first].from - tolerance,
                            mesh->elements[of->first + of->count - 1].to + tolerance};
    if (from < faces[0] || from > faces[1]) {
        KL_TRY(search_rigid(s, member, from, KL_RIGHT));
    }
    if (to < faces[0] || to > faces[1]) {
        KL_TRY(search_rigid(s, member, to, KL_LEFT));
    }
    return KL_OK;
}

/* An extreme that is 0 beside the largest, and not the first: on the way to it nothing told yet that it is. */
static bool is_late_zero(const peak_search *s, const kl_peak *extreme, double from)
{
    return extreme && fabs(extreme->value) <= NEAR_ROUNDING * s->size && extreme->station > from;
}

static kl_status search_member(peak_search *s, kl_index member, double from, double to)
{
    if (!kl_member_stands(s->results, s->state, member)) {
        return KL_NOT_THERE;
    }
    KL_TRY(walk_member(s, member, from, to));
    if (s->any && (is_late_zero(s, s->smallest, from) || is_late_zero(s, s->largest, from))) {
        s->any = false; /* once more, now that the size is known */
        KL_TRY(walk_member(s, member, from, to));
    }
    return s->any ? KL_OK : KL_NOT_THERE;
}

kl_status kl_peak_on_member(const kl_results *results,
                            kl_state state,
                            kl_quantity quantity,
                            kl_part part,
                            kl_index member,
                            double from,
                            double to,
                            kl_extreme extreme,
                            kl_peak *peak)
{
    kl_peak *const smallest = extreme == KL_SMALLEST ? peak : NULL;
    kl_peak *const largest = extreme == KL_SMALLEST ? NULL : peak;
    peak_search s = {results, state, quantity, part, smallest, largest, false, 0.0};
    return search_member(&s, member, from, to);
}

kl_status kl_range_on_member(const kl_results *results,
                             kl_state state,
                             kl_quantity quantity,
                             kl_part part,
                             kl_index member,
                             double from,
                             double to,
                             kl_peak *smallest,
                             kl_peak *largest)
{
    peak_search s = {results, state, quantity, part, smallest, largest, false, 0.0};
    return search_member(&s, member, from, to);
}
