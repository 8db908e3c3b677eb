/* diagram_stresses.c - stress at the top and at the bottom along a member, a course a moment, with the limits of its checks.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "course_family.h"
#include "figure.h"
#include "mem.h"

#define STRESSES_WIDTH  900.0
#define STRESSES_HALF   280.0
#define STRESSES_LIMITS 8 /* lines in one plot */

typedef struct stress_face {
    kl_quantity quantity;
    kl_face face;
    const char *name;
    double top; /* px of its plot */
} stress_face;

typedef struct stress_limit {
    double value; /* shown */
    const char *check, *name;
} stress_limit;

/* The tightest first: labels that go to one side of several lines then stand in the order of these. */
static int stress_limit_compare(const void *a, const void *b)
{
    const double x = fabs(((const stress_limit *)a)->value);
    const double y = fabs(((const stress_limit *)b)->value);
    return (x > y) - (x < y);
}

/* The limits of checks that look at the face of the member, each value once. */
static int stress_limits(const kl_results *results,
                         const selection *s,
                         kl_index member,
                         kl_face face,
                         stress_limit *limits)
{
    const kl_model *model = kl_results_model(results);
    const double unit = kl_show_factor(&model->display, KL_MEASURE_STRESS);
    int count = 0;
    for (kl_index i = 0; s->report && i < kl_check_result_count(s->report); i++) {
        const kl_check_result *r = kl_check_result_at(s->report, i);
        const bool applies = r->member == member && (r->face == face || r->face == KL_FACE_BOTH);
        bool is_new = applies && count < STRESSES_LIMITS;
        for (int k = 0; k < count; k++) {
            is_new = is_new && fabs(limits[k].value - r->limit / unit) > 1e-9;
        }
        if (is_new) {
            limits[count++] =
                (stress_limit){r->limit / unit, model->checks[r->check].name, r->limit_name};
        }
    }
    qsort(limits, (size_t)count, sizeof *limits, stress_limit_compare);
    return count;
}

static void stress_put_limit(const plot *p, const course_family *family, const stress_limit *limit)
{
    char figure[FIGURE_SIZE];
    char text[LABEL_SIZE];
    figure_rounded(figure, limit->value, figure_decimals(limit->value, 4), 4, 0.0);
    snprintf(text, sizeof text, "%s, %s %s", limit->check, limit->name, figure);
    plot_limit(p, limit->value, 0.0, family->length, limit->value >= 0.0, text);
}

/* A stress that limits speak of: of everything that acts. Beside stages a case alone is a part of it, as a cause is. */
static bool stress_is_whole(const kl_results *results, kl_state state)
{
    return state.cause.kind == KL_CAUSE_ALL &&
           (state.kind != KL_STATE_CASE || kl_step_count(results) == 0);
}

/* The whole stresses among the states of a selection, or all of them when there are none; the states are the caller's to free. */
static selection stress_choose(const kl_results *results, const selection *s, bool *whole)
{
    selection out = *s;
    out.states = mem_array((size_t)s->state_count + 1, sizeof *out.states);
    out.state_count = 0;
    for (kl_index i = 0; out.states && i < s->state_count; i++) {
        if (stress_is_whole(results, s->states[i])) {
            out.states[out.state_count++] = s->states[i];
        }
    }
    *whole = out.state_count > 0;
    for (kl_index i = 0; out.states && !*whole && i < s->state_count; i++) {
        out.states[i] = s->states[i];
    }
    out.state_count = *whole ? out.state_count : s->state_count;
    return out;
}

/* @return whether there is more to see than zeros */
static bool stress_put_face(drawing *d,
                            kl_results *results,
                            const selection *s,
                            kl_index member,
                            const stress_face *face,
                            bool limited)
{
    arena a = {0};
    course_family *family = mem_array(1, sizeof *family);
    if (!family) {
        d->status = KL_NO_MEMORY;
        return false;
    }
    bool any = false;
    stress_limit limits[STRESSES_LIMITS];
    const int count = limited ? stress_limits(results, s, member, face->face, limits) : 0;
    if (diagram_accepts(d, course_family_gather(&a, results, s, face->quantity, member, family)) &&
        family->count > 0) {
        for (int i = 0; i < count; i++) {
            family->low = fmin(family->low, limits[i].value);
            family->high = fmax(family->high, limits[i].value);
        }
        const label_box region = {0.0, face->top, STRESSES_WIDTH, STRESSES_HALF};
        const plot p = course_family_axes(d, results, family, region, face->name, false);
        for (int i = 0; i < count; i++) {
            stress_put_limit(&p, family, &limits[i]);
        }
        course_family_draw(&p, family, false);
        any = !course_family_is_zero(family);
    }
    arena_free(&a);
    mem_free(family);
    return any;
}

void diagram_stresses(drawing *d, kl_results *results, const selection *s)
{
    static const stress_face faces[] = {
        {KL_STRESS_TOP, KL_FACE_TOP, "stress at the top", 18.0},
        {KL_STRESS_BOTTOM, KL_FACE_BOTTOM, "stress at the bottom", 18.0 + STRESSES_HALF},
    };
    const kl_model *model = kl_results_model(results);
    const kl_index member = diagram_member(results, s);
    char title[LABEL_SIZE + 40];
    snprintf(title, sizeof title, "Stresses along %s",
             member == KL_NONE ? "no member" : model->members[member].name);
    drawing_start(d, STRESSES_WIDTH, 18.0 + 2.0 * STRESSES_HALF, title, LABEL_SIGNS_STRESS);
    drawing_text(d, "strong", 8.0, 16.0, ANCHOR_START, title);
    d->blank = true;
    bool whole;
    selection chosen = stress_choose(results, s, &whole);
    if (!chosen.states) {
        d->status = KL_NO_MEMORY;
        return;
    }
    for (int i = 0; i < 2 && member != KL_NONE; i++) {
        d->blank = !stress_put_face(d, results, &chosen, member, &faces[i], whole) && d->blank;
    }
    mem_free(chosen.states);
}
