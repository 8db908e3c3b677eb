/* diagram_tendon_force.c - force and stress along each tendon: at jacking, after seating, and after each stage.
 *
 * The axis does not begin at zero: friction and losses are small beside the force, and they are what is looked for.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "arena.h"
#include "figure.h"
#include "label.h"
#include "letter_width.h"
#include "mem.h"
#include "near.h"
#include "plot.h"

#define FORCE_WIDTH    900.0
#define FORCE_HEIGHT   330.0 /* of one tendon */
#define FORCE_TENDONS  4     /* in one picture */
#define FORCE_COURSES  8     /* jacking, seating, and the last stages */
#define FORCE_LIMITS   6
#define FORCE_DIVISION 80 /* pieces of a tendon */

/* A course that the picture has no room for, for a page's script to show. */
typedef struct force_folded {
    double *value;
    int step;
} force_folded;

typedef struct force_family {
    kl_results *results;
    const kl_model *model;
    kl_index tendon;
    double force_unit, station_unit, stress_unit, area; /* m^2 of one tendon */
    kl_index pull;                                      /* the fullest by then */
    kl_stressing stressing;
    const kl_tendon_point *points;
    kl_index point_count;
    double *station;
    double *value[FORCE_COURSES]; /* shown */
    int steps[FORCE_COURSES];
    char names[FORCE_COURSES][LABEL_SIZE];
    plot_key_entry key[FORCE_COURSES];
    int count;
    int left_out;
    force_folded *folded; /* those left out, when the selection folds */
    int folded_count;
    double low, high;
} force_family;

/* ---- gathering ------------------------------------------------------------------------------------------------- */

/* Room for one more course. NULL: no memory. */
static double *force_add(arena *a, force_family *f, int step)
{
    double *value = arena_array(a, (size_t)f->point_count, sizeof(double));
    f->value[f->count] = value;
    f->steps[f->count] = step;
    f->key[f->count] = (plot_key_entry){diagram_class(f->count), f->names[f->count]};
    f->count++;
    return value;
}

static void force_widen(force_family *f, double value)
{
    f->low = fmin(f->low, value);
    f->high = fmax(f->high, value);
}

/* Of two points at one station the first is before a corner. */
static kl_side force_side(const force_family *f, kl_index i)
{
    const bool last = i + 1 == f->point_count;
    return last || !(f->points[i + 1].station > f->points[i].station) ? KL_LEFT : KL_RIGHT;
}

static kl_status force_gather_stressing(arena *a, force_family *f)
{
    for (int after = 0; after < 2; after++) {
        double *value = force_add(a, f, DRAWING_NO_STEP);
        if (!value) {
            return KL_NO_MEMORY;
        }
        for (kl_index i = 0; i < f->point_count; i++) {
            double force;
            KL_TRY(kl_pull_force(f->results, f->pull, f->points[i].station, force_side(f, i),
                                 after > 0, &force));
            value[i] = force / f->force_unit;
            force_widen(f, value[i]);
        }
    }
    const kl_jack_ends ends = f->model->tendons[f->tendon].jack_ends;
    const bool twice = ends == KL_JACK_START_THEN_END || ends == KL_JACK_END_THEN_START;
    const double share = f->stressing.share;
    char to[24] = "";
    if (share < 1.0) {
        snprintf(to, sizeof to, ", to %.4g %%", 100.0 * share);
    }
    snprintf(f->names[0], LABEL_SIZE, "at jacking%s%s", twice ? " the 2nd end" : "", to);
    snprintf(f->names[1], LABEL_SIZE, "after seating");
    return KL_OK;
}

/* The force of a state along the tendon. */
static kl_status force_read(force_family *f, kl_state state, double *value)
{
    for (kl_index i = 0; i < f->point_count; i++) {
        double force;
        KL_TRY(kl_tendon_force(f->results, state, f->tendon, f->points[i].station, force_side(f, i),
                               &force));
        value[i] = force / f->force_unit;
        force_widen(f, value[i]);
    }
    return KL_OK;
}

static kl_status force_gather_state(arena *a, force_family *f, kl_state state)
{
    label_state(f->names[f->count], f->results, state);
    double *value = force_add(a, f, diagram_step(state));
    return value ? force_read(f, state, value) : KL_NO_MEMORY;
}

static kl_status force_fold_state(arena *a, force_family *f, kl_state state)
{
    force_folded *folded = &f->folded[f->folded_count++];
    folded->step = diagram_step(state);
    folded->value = arena_array(a, (size_t)f->point_count, sizeof(double));
    return folded->value ? force_read(f, state, folded->value) : KL_NO_MEMORY;
}

/* Are all steps asked for of one stage? Then each of them is drawn, else only the ends of stages. */
static bool force_is_one_stage(const kl_results *results, const selection *s)
{
    kl_index stage = KL_NONE;
    for (kl_index i = 0; i < s->state_count; i++) {
        if (s->states[i].kind == KL_STATE_STEP) {
            const kl_index of = kl_step_at(results, s->states[i].index)->stage;
            if (stage != KL_NONE && of != stage) {
                return false;
            }
            stage = of;
        }
    }
    return true;
}

static bool force_takes(const force_family *f, kl_state state, bool each)
{
    const kl_tendon_phase phase = kl_tendon_state(f->results, state, f->tendon);
    if (phase == KL_TENDON_SLACK || phase == KL_TENDON_ABSENT) {
        return false;
    }
    if (kl_step_count(f->results) == 0) {
        return true;
    }
    return state.kind == KL_STATE_STEP &&
           (each ||
            state.index == kl_last_step(f->results, kl_step_at(f->results, state.index)->stage));
}

/* The last ones for which there is room; those before them are folded when the selection folds. */
static kl_status force_gather_states(arena *a, force_family *f, const selection *s)
{
    const bool each = s->folds || force_is_one_stage(f->results, s);
    const int room = FORCE_COURSES - f->count;
    int wanted = 0;
    for (kl_index i = 0; i < s->state_count; i++) {
        wanted += force_takes(f, s->states[i], each) ? 1 : 0;
    }
    f->left_out = wanted > room ? wanted - room : 0;
    f->folded = arena_array(a, (size_t)f->left_out + 1, sizeof *f->folded);
    if (!f->folded) {
        return KL_NO_MEMORY;
    }
    int passed_over = 0;
    for (kl_index i = 0; i < s->state_count; i++) {
        if (!force_takes(f, s->states[i], each)) {
            continue;
        }
        if (passed_over++ >= f->left_out) {
            KL_TRY(force_gather_state(a, f, s->states[i]));
        } else if (s->folds) {
            KL_TRY(force_fold_state(a, f, s->states[i]));
        }
    }
    return KL_OK;
}

static kl_status force_gather(arena *a, force_family *f, const selection *s)
{
    const double every = kl_tendon_range(f->model, f->tendon) / FORCE_DIVISION;
    KL_TRY(kl_tendon_points(f->results, f->tendon, every, &f->points, &f->point_count));
    f->station = arena_array(a, (size_t)f->point_count, sizeof(double));
    if (!f->station) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < f->point_count; i++) {
        f->station[i] = f->points[i].station / f->station_unit;
    }
    KL_TRY(force_gather_stressing(a, f));
    return force_gather_states(a, f, s);
}

/* ---- limits ---------------------------------------------------------------------------------------------------- */

typedef struct force_limit {
    double force;   /* shown */
    bool at_anchor; /* holds at the anchors only, jacks included */
    char text[LABEL_SIZE];
} force_limit;

/* Those of the tendon's stress checks, each value once. */
static int force_limits(force_family *f, const kl_check_report *report, force_limit *limits)
{
    int count = 0;
    for (kl_index i = 0; report && i < kl_check_result_count(report); i++) {
        const kl_check_result *r = kl_check_result_at(report, i);
        const double force = r->limit * f->area / f->force_unit;
        bool is_new = r->tendon == f->tendon && force > 0.0 && count < FORCE_LIMITS;
        for (int k = 0; k < count; k++) {
            is_new = is_new && !near_equal(limits[k].force, force, 1e-9, 0.0);
        }
        if (is_new) {
            char value[LABEL_SIZE];
            label_value(value, &f->model->display, KL_MEASURE_STRESS, r->limit, 4);
            snprintf(limits[count].text, LABEL_SIZE, "%.50s, %.60s %.50s",
                     f->model->checks[r->check].name, r->limit_name, value);
            limits[count].at_anchor = strncmp(r->limit_name, "at the ", 7) == 0;
            limits[count++].force = force;
            force_widen(f, force);
        }
    }
    return count;
}

/* ---- drawing --------------------------------------------------------------------------------------------------- */

/* The largest, the smallest, and what is left at the anchors; what reads the same is told once. */
static void force_put_values(const plot *p, const force_family *f, int course)
{
    const double *value = f->value[course];
    kl_index low = 0;
    kl_index high = 0;
    for (kl_index i = 0; i < f->point_count; i++) {
        low = value[i] < value[low] ? i : low;
        high = value[i] > value[high] ? i : high;
    }
    const kl_index places[] = {0, f->point_count - 1, high, low};
    char texts[4][FIGURE_SIZE];
    for (int k = 0; k < 4; k++) {
        bool told = false;
        figure_rounded(texts[k], value[places[k]], figure_decimals(f->high, 4), 4, 0.0);
        for (int j = 0; j < k && k > 1; j++) {
            told = told || strcmp(texts[j], texts[k]) == 0;
        }
        if (!told) {
            plot_value(p, f->station[places[k]], value[places[k]], 1.0 + value[places[k]],
                       texts[k]);
        }
    }
}

static void force_put_mark(const plot *p, const force_family *f, double station, const char *name)
{
    const double x = plot_x(p, station / f->station_unit);
    drawing_line(p->drawing, "mark", x, p->top, x, p->bottom);
    drawing_keep_line(p->drawing, x, p->top, x, p->bottom);
    drawing_label(p->drawing, "small", x, p->bottom - 8.0, 1e6, name);
}

/* Along the tendon, or a short piece at each end. */
static void force_put_limit(const plot *p, const force_family *f, const force_limit *limit)
{
    const double begin = f->station[0];
    const double end = f->station[f->point_count - 1];
    const double piece = 0.12 * (end - begin);
    if (limit->at_anchor) {
        const double beside = 8.0 + 0.5 * letter_width(limit->text, DRAWING_SMALL);
        plot_limit(p, limit->force, begin, begin + piece, true, "");
        plot_limit(p, limit->force, end - piece, end, true, "");
        drawing_label(p->drawing, "small", plot_x(p, begin + piece) + beside,
                      plot_y(p, limit->force), 2.0, limit->text);
    } else {
        plot_limit(p, limit->force, begin, end, true, limit->text);
    }
}

/* Where the set of each end is used up, and where the tendon did not move while it was pulled. */
static void force_put_marks(const plot *p, const force_family *f)
{
    const kl_stressing *g = &f->stressing;
    const double begin = f->points[0].station;
    const double end = f->points[f->point_count - 1].station;
    const double tolerance = NEAR_STATION * (end - begin);
    for (int i = 0; i < 2; i++) {
        const double set = i == 0 ? begin + g->seating_length[0] : end - g->seating_length[1];
        const double still = g->still_station[i];
        const bool ends_inside = set > begin + tolerance && set < end - tolerance;
        const bool same = fabs(set - still) <= tolerance;
        if (ends_inside) {
            force_put_mark(p, f, set, same ? "set ends, no movement" : "set ends");
        }
        const bool again = i == 1 && fabs(still - g->still_station[0]) <= tolerance;
        if (!same && !again && still > begin + tolerance && still < end - tolerance) {
            force_put_mark(p, f, still, "no movement");
        }
    }
}

static plot force_axes(drawing *d, const force_family *f, double top)
{
    const kl_display *display = &f->model->display;
    const double around = fmax(0.04 * (f->high - f->low), 1e-3 * fabs(f->high));
    char along[80];
    char upright[80];
    char beside[80];
    snprintf(along, sizeof along, "station, %s", kl_show_unit(display, KL_MEASURE_STATION));
    snprintf(upright, sizeof upright, "force in one, %s", kl_show_unit(display, KL_MEASURE_FORCE));
    snprintf(beside, sizeof beside, "stress, %s", kl_show_unit(display, KL_MEASURE_STRESS));
    const plot_axis x = {.low = f->station[0],
                         .high = f->station[f->point_count - 1],
                         .label = along,
                         .tight = true};
    const plot_axis y = {
        .low = f->low - around, .high = f->high + around, .label = upright, .tight = true};
    const double width = FORCE_WIDTH - 52.0;
    const double key = plot_key_height(f->key, f->count, width);
    const label_box region = {0.0, top + 18.0 + key, width, FORCE_HEIGHT - 22.0 - key};
    const plot p = plot_start(d, region, &x, &y);
    plot_right_axis(&p, f->force_unit / f->area / f->stress_unit, beside);
    return p;
}

static void force_draw(drawing *d, force_family *f, const kl_check_report *report, double top)
{
    char title[LABEL_SIZE + 60];
    force_limit limits[FORCE_LIMITS];
    const int limit_count = force_limits(f, report, limits);
    const plot p = force_axes(d, f, top);
    snprintf(title, sizeof title, "Force along %.150s", f->model->tendons[f->tendon].name);
    drawing_text(d, "strong", 8.0, top + 14.0, ANCHOR_START, title);
    for (int i = 0; i < limit_count; i++) {
        force_put_limit(&p, f, &limits[i]);
    }
    force_put_marks(&p, f);
    for (int i = 0; i < f->folded_count; i++) {
        drawing_open_folded_step(d, f->folded[i].step);
        plot_course(&p, diagram_class(2), f->station, f->folded[i].value, (int)f->point_count);
        drawing_close_step(d);
    }
    for (int i = 0; i < f->count; i++) {
        drawing_open_step(d, f->steps[i]);
        plot_course(&p, f->key[i].class, f->station, f->value[i], (int)f->point_count);
        if (i < 2 || i + 1 == f->count) {
            force_put_values(&p, f, i);
        }
        drawing_close_step(d);
    }
    plot_key_of_steps(&p, f->key, f->steps, f->count);
    if (f->left_out > 0) {
        snprintf(title, sizeof title, "%d earlier state%s not drawn%s", f->left_out,
                 f->left_out > 1 ? "s are" : " is", f->folded_count > 0 ? "" : ": ask for a stage");
        drawing_text(d, "small quiet left-out", p.right, p.bottom + 36.0, ANCHOR_END, title);
    }
}

static void
force_build(drawing *d, kl_results *results, const selection *s, kl_index pull, double top)
{
    const kl_model *model = kl_results_model(results);
    kl_index tendon = 0;
    kl_stressing stressing;
    arena a = {0};
    force_family *f = mem_array(1, sizeof *f);
    if (!f) {
        d->status = KL_NO_MEMORY;
        return;
    }
    kl_status status = kl_pull_at(results, pull, &tendon, &stressing);
    const kl_tendon *t = &model->tendons[tendon];
    *f = (force_family){.results = results,
                        .model = model,
                        .tendon = tendon,
                        .pull = pull,
                        .stressing = stressing,
                        .force_unit = kl_show_factor(&model->display, KL_MEASURE_FORCE),
                        .station_unit = kl_show_factor(&model->display, KL_MEASURE_STATION),
                        .stress_unit = kl_show_factor(&model->display, KL_MEASURE_STRESS),
                        .area = t->units * t->unit_area,
                        .low = HUGE_VAL,
                        .high = -HUGE_VAL};
    status = status == KL_OK ? force_gather(&a, f, s) : status;
    if (diagram_accepts(d, status)) {
        force_draw(d, f, s->report, top);
    }
    arena_free(&a);
    mem_free(f);
}

/* ---- which tendons --------------------------------------------------------------------------------------------- */

/* The last step that is asked for; what comes after it has not happened. Without steps: all have. */
static kl_index force_bound(const kl_results *results, const selection *s)
{
    kl_index bound = KL_NONE;
    for (kl_index i = 0; i < s->state_count; i++) {
        const kl_state state = s->states[i];
        if (state.kind == KL_STATE_STEP && state.index > bound) {
            bound = state.index;
        } else if (state.kind == KL_STATE_MOMENT) {
            const kl_index before =
                kl_first_step(results, kl_moment_at(results, state.index)->stage) - 1;
            bound = before > bound ? before : bound;
        }
    }
    return bound == KL_NONE ? kl_step_count(results) : bound;
}

/* The fullest pull of a tendon up to a step, of equals the last. KL_NONE: it is not stressed by then. */
static kl_index force_pull(const kl_results *results, kl_index tendon, kl_index bound)
{
    kl_index found = KL_NONE;
    double fullest = 0.0;
    for (kl_index i = 0; i < kl_pull_count(results); i++) {
        kl_index of = KL_NONE;
        kl_stressing g;
        if (kl_pull_at(results, i, &of, &g) == KL_OK && of == tendon && g.share >= fullest &&
            (g.step == KL_NONE || g.step <= bound)) {
            found = i;
            fullest = g.share;
        }
    }
    return found;
}

static bool force_is_wanted(const kl_results *results, const selection *s, kl_index tendon)
{
    const kl_tendon *t = &kl_results_model(results)->tendons[tendon];
    bool in_member = false;
    for (kl_index i = 0; i < t->member_count; i++) {
        in_member = in_member || selection_takes(s, t->members[i]);
    }
    return in_member && (s->tendon == KL_NONE || s->tendon == tendon);
}

void diagram_tendon_force(drawing *d, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    const kl_index bound = force_bound(results, s);
    kl_index pulls[FORCE_TENDONS];
    int count = 0;
    bool more = false;
    for (kl_index t = 0; t < model->tendon_count && !more; t++) {
        const kl_index pull =
            force_is_wanted(results, s, t) ? force_pull(results, t, bound) : KL_NONE;
        more = pull != KL_NONE && count == FORCE_TENDONS;
        if (pull != KL_NONE && !more) {
            pulls[count++] = pull;
        }
    }
    drawing_start(d, FORCE_WIDTH, FORCE_HEIGHT * fmax(count, 1.0) + (more ? 20.0 : 0.0),
                  "Force along tendons",
                  "Force and stress in one tendon of each group, at jacking, after seating and "
                  "after each stage.");
    if (count == 0) {
        diagram_absent(d, "no such tendon is stressed by then");
    }
    for (int i = 0; i < count; i++) {
        force_build(d, results, s, pulls[i], FORCE_HEIGHT * i);
    }
    if (more) {
        drawing_text(d, "small quiet", 8.0, FORCE_HEIGHT * count + 12.0, ANCHOR_START,
                     "There are more tendons: ask for one.");
    }
}
