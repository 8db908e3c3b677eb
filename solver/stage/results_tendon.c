/* results_tendon.c - questions about tendons: force, stressing, path, equivalent loads.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "course.h"
#include "elongation.h"
#include "near.h"
#include "stressing.h"
#include "tendon_course.h"

kl_tendon_phase kl_tendon_state(const kl_results *results, kl_state state, kl_index tendon)
{
    const state_record *record = store_record_of(results, state);
    return record ? record->tendons[tendon].phase : KL_TENDON_ABSENT;
}

/* ---- force ----------------------------------------------------------------------------------------------- */

kl_status kl_tendon_force(const kl_results *results,
                          kl_state state,
                          kl_index tendon,
                          double station,
                          kl_side side,
                          double *force)
{
    tendon_spot spot;
    double c[QUADRATURE_POINTS];
    if (!store_record_of(results, state)) {
        return KL_NOT_THERE;
    }
    KL_TRY(tendon_course_find(results, tendon, station, side, &spot));
    KL_TRY(tendon_course_force(results, state, tendon, spot.element, c));
    *force = quadrature_value(c, spot.xi) / results->run.model->tendons[tendon].count;
    return KL_OK;
}

/* Ends and stationary places of one element; of equal ones (a symmetric tendon has them) the first. */
static void
consider_element(const course *c, double from, double to, kl_peak *smallest, kl_peak *largest)
{
    double t[COURSE_TERMS + 2] = {-1.0, 1.0};
    const int count = 2 + course_stationary(c, -1.0, 1.0, t + 2);
    for (int i = 0; i < count; i++) {
        const double x = from + 0.5 * (t[i] + 1.0) * (to - from);
        const kl_peak here = {course_value(c, t[i]), x, i == 1 ? KL_LEFT : KL_RIGHT};
        *smallest = here.value < smallest->value * (1.0 - NEAR_BALANCE) ? here : *smallest;
        *largest = here.value > largest->value * (1.0 + NEAR_BALANCE) ? here : *largest;
    }
}

kl_status kl_tendon_force_range(
    const kl_results *results, kl_state state, kl_index tendon, kl_peak *smallest, kl_peak *largest)
{
    const tendon_trace *trace = &results->run.traces[tendon];
    const kl_tendon_phase phase = kl_tendon_state(results, state, tendon);
    if (phase != KL_TENDON_STRESSED && phase != KL_TENDON_GROUTED) {
        return KL_NOT_THERE;
    }
    smallest->value = HUGE_VAL;
    largest->value = -HUGE_VAL;
    for (kl_index i = 0; i < trace->count; i++) {
        course c = {.terms = QUADRATURE_POINTS};
        double from;
        double to;
        KL_TRY(tendon_course_force(results, state, tendon, i, c.c));
        tendon_course_range(results, &trace->elements[i], &from, &to);
        consider_element(&c, from, to, smallest, largest);
    }
    smallest->value /= results->run.model->tendons[tendon].count;
    largest->value /= results->run.model->tendons[tendon].count;
    return KL_OK;
}

kl_status kl_tendon_stressing(const kl_results *results, kl_index tendon, kl_stressing *out)
{
    if (!(results->run.stressed_share[tendon] > 0.0)) {
        return KL_NOT_THERE;
    }
    *out = results->run.stressing[tendon];
    return KL_OK;
}

kl_index kl_pull_count(const kl_results *results)
{
    return results->run.pull_count;
}

kl_status kl_pull_at(const kl_results *results, kl_index i, kl_index *tendon, kl_stressing *out)
{
    if (i < 0 || i >= results->run.pull_count) {
        return KL_NOT_THERE;
    }
    *tendon = results->run.pulls[i].tendon;
    *out = results->run.pulls[i].done;
    return KL_OK;
}

kl_status kl_pull_force(
    const kl_results *results, kl_index i, double station, kl_side side, bool seated, double *force)
{
    if (i < 0 || i >= results->run.pull_count) {
        return KL_NOT_THERE;
    }
    const pull_record *pull = &results->run.pulls[i];
    *force = force_at(&results->run.model->tendons[pull->tendon], &results->run.paths[pull->tendon],
                      seated ? &pull->seated : &pull->pulled, station, side);
    return KL_OK;
}

kl_status
kl_pull_movement(const kl_results *results, kl_index i, int end, double share, double *movement)
{
    if (i < 0 || i >= results->run.pull_count) {
        return KL_NOT_THERE;
    }
    const pull_record *pull = &results->run.pulls[i];
    const kl_tendon *item = &results->run.model->tendons[pull->tendon];
    const tendon_trace *trace = &results->run.traces[pull->tendon];
    const kl_stressing *done = &pull->done;
    const double inside = share * done->jack_force * (1.0 - item->anchorage_friction);
    *movement = 0.0;
    if (!(done->elongation[end] > 0.0)) {
        return KL_OK;
    }
    arena memory = {0};
    cell_book book;
    kl_status status = cell_book_make(item, &results->run.paths[pull->tendon], &memory, &book);
    if (status == KL_OK) {
        status = elongation_at(&book, trace->modulus * trace->area / item->count, &pull->draw[end],
                               end == 1, inside, &memory, movement);
    }
    arena_free(&memory);
    *movement += share * done->grip[end];
    return status;
}

/* ---- path ------------------------------------------------------------------------------------------------ */

static kl_tendon_point point_at(
    const kl_results *results, kl_index tendon, double x, kl_side side, const stressing *seating)
{
    const kl_tendon *item = &results->run.model->tendons[tendon];
    const tendon_path *path = &results->run.paths[tendon];
    const path_point p = profile_at(path, x, side);
    kl_tendon_point out = {.station = x,
                           .height = p.height,
                           .duct_height = p.duct,
                           .slope = atan(p.slope),
                           .angle = p.alpha,
                           .length = p.length};
    section_value v;
    tendon_course_member(results, tendon, x, &out.member, &out.member_station);
    member_section_values(results->run.model, out.member, out.member_station, side, &v);
    out.eccentricity = p.height - (v.centroid - v.line);
    out.above_bottom = p.duct - (v.centroid - v.line) + v.to_bottom;
    out.below_top = v.to_top - (p.duct - (v.centroid - v.line));
    out.before_seating = force_at(item, path, &seating->before, x, side);
    out.after_seating = force_at(item, path, &seating->after, x, side);
    return out;
}

/* The fullest stressing; one that never comes counts as full. */
static kl_status fullest(kl_results *results, kl_index tendon, stressing *out)
{
    const double share = results->run.stressed_share[tendon];
    return stressing_find(&results->run, tendon, share > 0.0 ? share : 1.0, NULL, NULL, out);
}

kl_status kl_tendon_point_at(
    kl_results *results, kl_index tendon, double station, kl_side side, kl_tendon_point *point)
{
    const tendon_path *path = &results->run.paths[tendon];
    const double tolerance = NEAR_STATION * (path->end - path->begin);
    stressing seating;
    if (!(station >= path->begin - tolerance && station <= path->end + tolerance)) {
        return KL_NOT_THERE;
    }
    KL_TRY(fullest(results, tendon, &seating));
    const double x = fmin(fmax(station, path->begin), path->end);
    *point = point_at(results, tendon, x, side, &seating);
    return KL_OK;
}

/* Is x a place where the path has a corner (told twice)? */
static bool is_corner(const tendon_path *path, double x, double tolerance)
{
    for (kl_index i = 1; i < path->piece_count; i++) {
        if (fabs(path->pieces[i].from - x) <= tolerance && path->pieces[i].corner > 0.0) {
            return true;
        }
    }
    return false;
}

kl_status kl_tendon_points(kl_results *results,
                           kl_index tendon,
                           double every,
                           const kl_tendon_point **points,
                           kl_index *count)
{
    const tendon_path *path = &results->run.paths[tendon];
    const double length = path->end - path->begin;
    const double step = isnan(every) || !(every > 0.0) ? length / 20.0 : every;
    const double tolerance = NEAR_STATION * length;
    stressing seating;
    KL_TRY(fullest(results, tendon, &seating));
    if (length / step > 1e6) {
        return KL_TOO_LARGE;
    }
    const kl_index most = 2 * ((kl_index)(length / step) + path->piece_count + 3);
    kl_tendon_point *out = arena_array(&results->a, (size_t)most, sizeof(kl_tendon_point));
    kl_index n = 0;
    kl_index piece = 0;
    double x = path->begin;
    if (!out) {
        return KL_NO_MEMORY;
    }
    for (long i = 1; n + 2 < most;) {
        if (is_corner(path, x, tolerance)) {
            out[n++] = point_at(results, tendon, x, KL_LEFT, &seating);
        }
        const bool last = x >= path->end - tolerance;
        out[n++] = point_at(results, tendon, x, last ? KL_LEFT : KL_RIGHT, &seating);
        if (last) {
            break;
        }
        while (piece < path->piece_count && path->pieces[piece].to <= x + tolerance) {
            piece++;
        }
        const double regular = path->begin + (double)i * step;
        const double bound = piece < path->piece_count ? path->pieces[piece].to : path->end;
        x = fmin(fmin(regular, bound), path->end);
        i += regular <= x + tolerance;
    }
    *points = out;
    *count = n;
    return KL_OK;
}

/* ---- equivalent loads ------------------------------------------------------------------------------------ */

typedef struct load_rows {
    kl_tendon_load *items;
    kl_index count;
} load_rows;

static section_action action_at(const trace_point *at, double force)
{
    const section_action unit = action_unit(at);
    return (section_action){unit.n * force, unit.m * force, unit.v * force};
}

/* The row of the profile that x is meant to be, so that its two sides are told apart. */
static double snap(const tendon_path *path, double x)
{
    const double tolerance = NEAR_STATION * (path->end - path->begin);
    for (kl_index i = 0; i < path->piece_count; i++) {
        if (fabs(path->pieces[i].from - x) <= tolerance) {
            return path->pieces[i].from;
        }
    }
    return x;
}

/* The section action of the tendon at the two ends of a trace element. */
static kl_status end_actions(const kl_results *results,
                             kl_state state,
                             kl_index tendon,
                             kl_index i,
                             section_action end[2],
                             double x[2])
{
    const trace_element *t = &results->run.traces[tendon].elements[i];
    const tendon_path *path = &results->run.paths[tendon];
    double c[QUADRATURE_POINTS];
    KL_TRY(tendon_course_force(results, state, tendon, i, c));
    tendon_course_range(results, t, &x[0], &x[1]);
    for (int k = 0; k < 2; k++) {
        const path_point p = profile_at(path, snap(path, x[k]), k == 0 ? KL_RIGHT : KL_LEFT);
        const double slant = sqrt(1.0 + p.slope * p.slope);
        const trace_point here = {
            .height = p.height, .cosine = 1.0 / slant, .sine = p.slope / slant};
        end[k] = action_at(&here, quadrature_value(c, k));
    }
    return KL_OK;
}

/* A concentrated load on the concrete that takes the tendon's action from `before` to `after`. */
static void add_point(const kl_results *results,
                      kl_index tendon,
                      double x,
                      section_action before,
                      section_action after,
                      const char *what,
                      load_rows *rows)
{
    kl_tendon_load *row = &rows->items[rows->count++];
    *row = (kl_tendon_load){.what = what};
    tendon_course_member(results, tendon, x, &row->member, &row->from);
    row->to = row->from;
    row->along = after.n - before.n;
    row->across = -(after.v - before.v);
    row->moment = after.m - before.m;
}

/* Across: P theta' and what changes of force do; along: friction and what curvature turns; both as means over the
 * element, their small couple about the line besides. */
static void add_piece(const kl_results *results,
                      kl_index tendon,
                      const double x[2],
                      const section_action end[2],
                      load_rows *rows)
{
    kl_tendon_load *row = &rows->items[rows->count++];
    const double length = x[1] - x[0];
    double unused;
    *row = (kl_tendon_load){.what = "along the length"};
    tendon_course_member(results, tendon, x[1], &row->member, &row->to);
    unused = row->to - length;
    row->from = fmax(unused, 0.0);
    row->along = (end[1].n - end[0].n) / length;
    row->across = -(end[1].v - end[0].v) / length;
    /* couple that is left when the two mean loads have been taken: dM/dx = V - couple */
    row->moment = end[1].m - end[0].m - 0.5 * length * (end[0].v + end[1].v);
}

static double size_of(section_action a)
{
    return fabs(a.n) + fabs(a.v);
}

kl_status kl_tendon_loads(kl_results *results,
                          kl_state state,
                          kl_index tendon,
                          const kl_tendon_load **loads,
                          kl_index *count)
{
    const tendon_trace *trace = &results->run.traces[tendon];
    load_rows rows = {
        arena_array(&results->a, 2 * (size_t)trace->count + 2, sizeof(kl_tendon_load)), 0};
    section_action before = {0.0, 0.0, 0.0};
    double last = results->run.paths[tendon].begin;
    if (!rows.items) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < trace->count; i++) {
        section_action end[2];
        double x[2];
        KL_TRY(end_actions(results, state, tendon, i, end, x));
        const section_action jump = {end[0].n - before.n, end[0].m - before.m, end[0].v - before.v};
        if (i == 0 || size_of(jump) > 1e-6 * size_of(end[0])) {
            add_point(results, tendon, x[0], before, end[0], i == 0 ? "anchor" : "corner or step",
                      &rows);
        } else {
            end[0] =
                before; /* what the courses leave between two elements stays in: loads balance */
        }
        add_piece(results, tendon, x, end, &rows);
        before = end[1];
        last = x[1];
    }
    const section_action nothing = {0.0, 0.0, 0.0};
    add_point(results, tendon, last, before, nothing, "anchor", &rows);
    *loads = rows.items;
    *count = rows.count;
    return KL_OK;
}
