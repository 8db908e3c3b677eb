/* course_family.c - see course_family.h.
 * SPDX-License-Identifier: MIT */
#include "course_family.h"

#include <math.h>
#include <stdio.h>

#include "diagrams.h"
#include "figure.h"

#define COURSE_SAME 1e-6 /* of the largest value: rounding, to the eye */

const char *course_family_key(kl_quantity quantity, kl_cause_kind cause)
{
    if (cause == KL_CAUSE_ALL) {
        return member_course_key(quantity);
    }
    return cause == KL_CAUSE_PRESTRESS && quantity == KL_MOMENT ? "moment_from_prestress" : NULL;
}

/* Axes hold every course, folded ones too: so steps compare. */
static void course_family_hold(course_family *out, const member_course *c)
{
    out->low = fmin(out->low, c->low);
    out->high = fmax(out->high, c->high);
}

bool course_family_is_zero(const course_family *family)
{
    return !(family->low < 0.0) && !(family->high > 0.0);
}

static kl_status course_family_gather_one(
    arena *a, kl_results *results, kl_state state, const course_family *family, member_course *c)
{
    course_moment moment;
    KL_TRY(course_moment_find(results, state, &moment));
    return member_course_gather(a, results, &moment, family->quantity, KL_TOTAL, family->member,
                                MEMBER_COURSE_PIECES, c);
}

static kl_status
course_family_add(arena *a, kl_results *results, kl_state state, course_family *out)
{
    member_course *c = &out->courses[out->count];
    KL_TRY(course_family_gather_one(a, results, state, out, c));
    out->steps[out->count] = diagram_step(state);
    label_state(out->names[out->count], results, state);
    out->key[out->count] = (plot_key_entry){diagram_class(out->count), out->names[out->count]};
    course_family_hold(out, c);
    out->count++;
    return KL_OK;
}

static kl_status
course_family_fold(arena *a, kl_results *results, kl_state state, course_family *out)
{
    folded_course *f = &out->folded[out->folded_count];
    KL_TRY(course_family_gather_one(a, results, state, out, &f->course));
    f->step = diagram_step(state);
    course_family_hold(out, &f->course);
    out->folded_count++;
    return KL_OK;
}

kl_status course_family_gather(arena *a,
                               kl_results *results,
                               const selection *s,
                               kl_quantity quantity,
                               kl_index member,
                               course_family *out)
{
    const kl_model *model = kl_results_model(results);
    *out = (course_family){.quantity = quantity, .member = member};
    out->length =
        kl_member_length(model, member) / kl_show_factor(&model->display, KL_MEASURE_STATION);
    out->cause = s->state_count > 0 ? s->states[0].cause.kind : KL_CAUSE_ALL;
    int standing = 0;
    for (kl_index i = 0; i < s->state_count; i++) {
        standing += kl_member_stands(results, s->states[i], member) ? 1 : 0;
    }
    out->left_out = standing > COURSE_FAMILY_LIMIT ? standing - COURSE_FAMILY_LIMIT : 0;
    out->folded = arena_array(a, (size_t)out->left_out + 1, sizeof *out->folded);
    if (!out->folded) {
        return KL_NO_MEMORY;
    }
    int passed_over = 0;
    for (kl_index i = 0; i < s->state_count; i++) {
        const kl_state state = s->states[i];
        if (!kl_member_stands(results, state, member)) {
            continue;
        }
        if (passed_over++ >= out->left_out) {
            KL_TRY(course_family_add(a, results, state, out));
        } else if (s->folds && diagram_step(state) != DRAWING_NO_STEP) {
            KL_TRY(course_family_fold(a, results, state, out));
        }
    }
    return KL_OK;
}

static void course_put_places(const plot *p, kl_results *results, kl_index member)
{
    const kl_model *model = kl_results_model(results);
    const double unit = kl_show_factor(&model->display, KL_MEASURE_STATION);
    const kl_station_row *rows;
    kl_index count;
    if (!diagram_accepts(p->drawing, kl_station_rows(results, member, NAN, &rows, &count))) {
        return;
    }
    for (int faces = 0; faces < 2; faces++) { /* the nodes' names go before those of faces */
        for (kl_index i = 0; i < count; i++) {
            const bool is_second = i > 0 && !(rows[i].station > rows[i - 1].station);
            const bool wanted =
                faces ? rows[i].is_face && rows[i].node == KL_NONE : rows[i].node != KL_NONE;
            if (wanted && !is_second) {
                plot_place(p, rows[i].station / unit, label_place(model, &rows[i]));
            }
        }
    }
}

plot course_family_axes(drawing *d,
                        kl_results *results,
                        const course_family *family,
                        label_box region,
                        const char *name,
                        bool downward)
{
    const kl_display *display = &kl_results_model(results)->display;
    char along[80];
    char upright[120];
    snprintf(along, sizeof along, "station, %s", kl_show_unit(display, KL_MEASURE_STATION));
    snprintf(upright, sizeof upright, "%s, %s", name,
             kl_show_unit(display, member_course_measure(family->quantity)));
    const plot_axis x = {.low = 0.0, .high = family->length, .label = along, .tight = true};
    const plot_axis y = {.low = family->low,
                         .high = family->high,
                         .label = upright,
                         .downward = downward,
                         .key = course_family_key(family->quantity, family->cause)};
    const double key_height = plot_key_height(family->key, family->count, region.width);
    region.y += key_height;
    region.height -= key_height;
    const plot p = plot_start(d, region, &x, &y);
    course_put_places(&p, results, family->member);
    return p;
}

/* The value of the course that matters most has a place in any case. */
static void
course_put_value(const plot *p, const member_course *c, int i, double largest, bool matters)
{
    char text[FIGURE_SIZE];
    figure_beside(text, c->value[i], largest);
    if (matters) {
        plot_value(p, c->station[i], c->value[i], largest + fabs(c->value[i]), text);
    } else {
        plot_value_if_room(p, c->station[i], c->value[i], fabs(c->value[i]), text);
    }
}

/* The largest and the smallest, where they first stand; of what does not change one value. */
static void course_put_extremes(const plot *p, const member_course *c, double largest, bool matters)
{
    const double same = COURSE_SAME * largest;
    int low = -1;
    int high = -1;
    for (int i = 0; i < c->count; i++) {
        low = !isnan(c->value[i]) && (low < 0 || c->value[i] < c->value[low] - same) ? i : low;
        high = !isnan(c->value[i]) && (high < 0 || c->value[i] > c->value[high] + same) ? i : high;
    }
    if (high >= 0) {
        course_put_value(p, c, high, largest, matters);
    }
    if (low >= 0 && low != high) {
        course_put_value(p, c, low, largest, matters);
    }
}

/* For a page's script. */
static void course_family_draw_folded(const plot *p, const course_family *family, double largest)
{
    for (int i = 0; i < family->folded_count; i++) {
        const member_course *c = &family->folded[i].course;
        drawing_open_folded_step(p->drawing, family->folded[i].step);
        plot_course(p, diagram_class(0), c->station, c->value, c->count);
        course_put_extremes(p, c, largest, true);
        drawing_close_step(p->drawing);
    }
}

void course_family_draw(const plot *p, const course_family *family, bool fills)
{
    const double largest = fmax(fabs(family->low), fabs(family->high));
    course_family_draw_folded(p, family, largest);
    for (int i = 0; i < family->count; i++) {
        const member_course *c = &family->courses[i];
        drawing_open_step(p->drawing, family->steps[i]);
        if (fills && i == family->count - 1) {
            plot_fill(p, "area", c->station, c->value, c->count);
        }
        plot_course(p, family->key[i].class, c->station, c->value, c->count);
        course_put_extremes(p, c, largest, i == family->count - 1);
        drawing_close_step(p->drawing);
    }
    plot_key_of_steps(p, family->key, family->steps, family->count);
    if (family->left_out > 0) {
        char text[120];
        snprintf(text, sizeof text, "%d earlier step%s not drawn%s", family->left_out,
                 family->left_out > 1 ? "s are" : " is",
                 family->folded_count > 0 ? "" : ": ask for a stage");
        drawing_text(p->drawing, "small quiet left-out", p->right, p->bottom + 36.0, ANCHOR_END,
                     text);
    }
}
