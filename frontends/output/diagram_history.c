/* diagram_history.c - what time does to one place: deflection and stresses through all moments, the stages marked.
 *
 * The place is the one asked for, else where the checks come nearest to a limit, else the middle of the longest member. Days
 * that span decades are drawn on a logarithmic axis.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <math.h>
#include <stdio.h>

#include "arena.h"
#include "figure.h"
#include "label.h"
#include "member_course.h"
#include "near.h"
#include "plot.h"

#define HISTORY_WIDTH   900.0
#define HISTORY_PANEL   270.0
#define HISTORY_DECADES 30.0 /* last day over first: from here on the axis is logarithmic */
#define HISTORY_COURSES 2

typedef struct history_place {
    kl_index member;
    double station; /* m */
    kl_side side;
} history_place;

typedef struct history_panel {
    const char *name;
    kl_quantity quantity[HISTORY_COURSES];
    const char *of[HISTORY_COURSES]; /* what each course is, in the key */
    int count;
} history_panel;

typedef struct history_work {
    kl_results *results;
    const selection *selection;
    history_place place;
    double *day; /* on the axis: of each state, the logarithm when `decades` */
    double low, high;
    bool decades;
} history_work;

/* ---- the place ---------------------------------------------------------------------------------------------- */

static bool history_governing(const selection *s, history_place *place)
{
    double most = -1.0;
    for (kl_index i = 0; s->report && i < kl_check_result_count(s->report); i++) {
        const kl_check_result *r = kl_check_result_at(s->report, i);
        const bool applies = r->member != KL_NONE && selection_takes(s, r->member);
        if (applies && r->ratio > most) {
            most = r->ratio;
            *place = (history_place){r->member, r->station, r->side};
        }
    }
    return most >= 0.0;
}

static history_place history_choose(const kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    history_place place = {KL_NONE, 0.0, KL_RIGHT};
    if (isnan(s->at) && history_governing(s, &place)) {
        return place;
    }
    place.member = diagram_member(results, s);
    if (place.member != KL_NONE) {
        const double length = kl_member_length(model, place.member);
        place.station = isnan(s->at) ? 0.5 * length : fmin(s->at, length);
        place.side = place.station < length - NEAR_STATION ? KL_RIGHT : KL_LEFT;
    }
    return place;
}

/* ---- the days ----------------------------------------------------------------------------------------------- */

/* Days of the states in which the member stands, else NAN. @return how many */
static int history_days(history_work *w)
{
    const selection *s = w->selection;
    int count = 0;
    w->low = HUGE_VAL;
    w->high = -HUGE_VAL;
    for (kl_index i = 0; i < s->state_count; i++) {
        const kl_step *step = selection_step(w->results, s->states[i]);
        const bool has_day = step != NULL &&
                             kl_results_model(w->results)->stages[step->stage].has_time &&
                             kl_member_stands(w->results, s->states[i], w->place.member);
        w->day[i] = has_day ? step->time / KL_DAY : (double)NAN;
        if (has_day) {
            w->low = fmin(w->low, w->day[i]);
            w->high = fmax(w->high, w->day[i]);
            count++;
        }
    }
    return count;
}

/* Turn days into their logarithms where they span decades. Day 0 and before are at the axis' beginning: the first day, or one
 * thousandth of the last. */
static void history_turn(history_work *w)
{
    const double first = fmax(w->low, 1e-3 * w->high);
    w->decades = w->high > 0.0 && w->high >= HISTORY_DECADES * first;
    if (!w->decades) {
        return;
    }
    for (kl_index i = 0; i < w->selection->state_count; i++) {
        w->day[i] = isnan(w->day[i]) ? w->day[i] : log10(fmax(w->day[i], first));
    }
    w->low = log10(first);
    w->high = log10(w->high);
}

/* Stages by name where they end, each place of the axis once. */
static void history_put_stages(const history_work *w, const plot *p)
{
    const kl_model *model = kl_results_model(w->results);
    double last = -HUGE_VAL;
    for (kl_index i = 0; i < w->selection->state_count; i++) {
        const kl_state state = w->selection->states[i];
        if (state.kind == KL_STATE_STEP && !isnan(w->day[i])) {
            const kl_step *step = kl_step_at(w->results, state.index);
            const bool ends = state.index == kl_last_step(w->results, step->stage);
            if (ends && plot_x(p, w->day[i]) > last + 1.0) {
                last = plot_x(p, w->day[i]);
                plot_place(p, w->day[i], model->stages[step->stage].name);
            }
        }
    }
}

/* ---- courses ------------------------------------------------------------------------------------------------ */

typedef struct history_course {
    double *value;       /* of each state, shown; NAN */
    int low, high, last; /* states; -1: none has a value */
} history_course;

static kl_status
history_gather(arena *a, const history_work *w, kl_quantity quantity, history_course *c)
{
    const selection *s = w->selection;
    const kl_display *display = &kl_results_model(w->results)->display;
    const double unit = kl_show_factor(display, member_course_measure(quantity));
    c->value = arena_array(a, (size_t)s->state_count, sizeof(double));
    c->low = c->high = c->last = -1;
    if (!c->value) {
        return KL_NO_MEMORY;
    }
    for (int i = 0; i < (int)s->state_count; i++) {
        double value = NAN;
        if (!isnan(w->day[i])) {
            const kl_status status =
                kl_value_on_member(w->results, s->states[i], quantity, KL_TOTAL, w->place.member,
                                   w->place.station, w->place.side, &value);
            if (status != KL_OK && status != KL_NOT_THERE) {
                return status;
            }
        }
        c->value[i] = value / unit;
        if (!isnan(value)) {
            c->low = c->low < 0 || c->value[i] < c->value[c->low] ? i : c->low;
            c->high = c->high < 0 || c->value[i] > c->value[c->high] ? i : c->high;
            c->last = i;
        }
    }
    return KL_OK;
}

/* Where a stage does not begin with a state of its own nothing has changed since the one before: the course runs level up to it. */
static bool history_is_level_before(const history_work *w, const history_course *c, int i)
{
    const kl_state state = w->selection->states[i];
    return i > 0 && !isnan(c->value[i - 1]) && !isnan(c->value[i]) && state.kind == KL_STATE_STEP &&
           w->day[i] > w->day[i - 1] && kl_step_at(w->results, state.index)->operation != KL_NONE;
}

static void history_put_course(
    arena *a, const history_work *w, const plot *p, const char *class, const history_course *c)
{
    const int count = (int)w->selection->state_count;
    double *day = arena_array(a, 2 * (size_t)count, sizeof(double));
    double *value = arena_array(a, 2 * (size_t)count, sizeof(double));
    if (!day || !value) {
        diagram_accepts(p->drawing, KL_NO_MEMORY);
        return;
    }
    int points = 0;
    for (int i = 0; i < count; i++) {
        if (history_is_level_before(w, c, i)) {
            day[points] = w->day[i];
            value[points++] = c->value[i - 1];
        }
        day[points] = w->day[i];
        value[points++] = c->value[i];
    }
    plot_course(p, class, day, value, points);
}

static plot history_axes(const history_work *w,
                         drawing *d,
                         const history_panel *panel,
                         double top,
                         const history_course *courses)
{
    const kl_display *display = &kl_results_model(w->results)->display;
    char upright[120];
    snprintf(upright, sizeof upright, "%s, %s", panel->name,
             kl_show_unit(display, member_course_measure(panel->quantity[0])));
    const plot_axis x = {.low = w->low,
                         .high = w->high,
                         .label = w->decades ? "time, day (logarithmic)" : "time, day",
                         .tight = w->decades,
                         .decades = w->decades};
    plot_axis y = {.label = upright};
    for (int i = 0; i < panel->count; i++) {
        y.low = fmin(y.low, courses[i].low < 0 ? 0.0 : courses[i].value[courses[i].low]);
        y.high = fmax(y.high, courses[i].high < 0 ? 0.0 : courses[i].value[courses[i].high]);
    }
    return plot_start(d, (label_box){0.0, top, HISTORY_WIDTH, HISTORY_PANEL}, &x, &y);
}

static void history_put_value(
    const history_work *w, const plot *p, const history_course *c, int i, double weight)
{
    char text[FIGURE_SIZE];
    figure_beside(text, c->value[i], fmax(fabs(p->y.from), fabs(p->y.to)));
    plot_value(p, w->day[i], c->value[i], weight, text);
}

static void
history_put_panel(const history_work *w, drawing *d, const history_panel *panel, double top)
{
    arena a = {0};
    history_course courses[HISTORY_COURSES];
    plot_key_entry key[HISTORY_COURSES];
    bool any = false;
    for (int i = 0; i < panel->count; i++) {
        if (!diagram_accepts(d, history_gather(&a, w, panel->quantity[i], &courses[i]))) {
            arena_free(&a);
            return;
        }
        any = any || courses[i].last >= 0;
        key[i] = (plot_key_entry){diagram_class(i), panel->of[i]};
    }
    if (any) {
        const plot p = history_axes(w, d, panel, top, courses);
        history_put_stages(w, &p);
        for (int i = 0; i < panel->count && courses[i].last >= 0; i++) {
            const history_course *c = &courses[i];
            history_put_course(&a, w, &p, key[i].class, c);
            history_put_value(w, &p, c, c->high, 2.0);
            history_put_value(w, &p, c, c->low, 1.0);
            history_put_value(w, &p, c, c->last, 3.0);
        }
        plot_key(&p, key, panel->count);
    }
    arena_free(&a);
}

static void history_title(char title[LABEL_SIZE + 80], const history_work *w)
{
    const kl_model *model = kl_results_model(w->results);
    const double station = w->place.station / kl_show_factor(&model->display, KL_MEASURE_STATION);
    char figure[FIGURE_SIZE];
    figure_given(figure, station, 2);
    snprintf(title, LABEL_SIZE + 80, "History of %s at %s %s",
             w->place.member == KL_NONE ? "no member" : model->members[w->place.member].name,
             figure, kl_show_unit(&model->display, KL_MEASURE_STATION));
}

void diagram_history(drawing *d, kl_results *results, const selection *s)
{
    static const history_panel panels[] = {
        {"deflection", {KL_DEFLECTION}, {"deflection, up +"}, 1},
        {"stress", {KL_STRESS_TOP, KL_STRESS_BOTTOM}, {"top, tension +", "bottom, tension +"}, 2},
    };
    history_work w = {.results = results, .selection = s, .place = history_choose(results, s)};
    arena a = {0};
    char title[LABEL_SIZE + 80];
    history_title(title, &w);
    w.day = arena_array(&a, (size_t)s->state_count, sizeof(double));
    const bool has_days = w.day != NULL && w.place.member != KL_NONE && history_days(&w) > 0;
    drawing_start(d, HISTORY_WIDTH, has_days ? 20.0 + 2.0 * HISTORY_PANEL : 60.0, title,
                  LABEL_SIGNS_MOVEMENT);
    drawing_text(d, "strong", 8.0, 16.0, ANCHOR_START, title);
    if (!w.day && s->state_count > 0) {
        diagram_accepts(d, KL_NO_MEMORY);
    } else if (!has_days) {
        drawing_text(d, "quiet", 8.0, 40.0, ANCHOR_START, "the model gives no days to its stages");
    } else {
        history_turn(&w);
        for (int i = 0; i < 2; i++) {
            history_put_panel(&w, d, &panels[i], 20.0 + HISTORY_PANEL * i);
        }
    }
    arena_free(&a);
}
