/* diagram_course.c - one quantity along one member, a course a moment: moment, shear, axial force, deflection, camber.
 *
 * Moments are drawn on the side that is stretched: sagging ones downward. Values are written at the extremes of each course,
 * at the member's ends and at column faces of the last.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <math.h>
#include <stdio.h>

#include "figure.h"
#include "label.h"
#include "mem.h"
#include "member_course.h"
#include "plot.h"

#define COURSE_WIDTH  900.0
#define COURSE_HEIGHT 380.0
#define COURSE_LIMIT  24 /* courses in one picture */

typedef struct course_subject {
    kl_quantity quantity;
    const char *name;
    bool downward;
} course_subject;

typedef struct course_family {
    member_course courses[COURSE_LIMIT];
    char names[COURSE_LIMIT][LABEL_SIZE];
    int count;
    double low, high;
    double length; /* shown */
} course_family;

static void course_gather(drawing *d,
                          arena *a,
                          kl_results *results,
                          const selection *s,
                          kl_quantity quantity,
                          kl_index member,
                          course_family *family)
{
    for (kl_index i = 0; i < s->state_count && family->count < COURSE_LIMIT; i++) {
        member_course *c = &family->courses[family->count];
        const kl_status status =
            member_course_gather(a, results, s->states[i], quantity, KL_TOTAL, member, c);
        if (diagram_accepts(d, status)) {
            label_state(family->names[family->count], results, s->states[i]);
            family->low = fmin(family->low, c->low);
            family->high = fmax(family->high, c->high);
            family->count++;
        }
    }
}

static void
course_put_value(const plot *p, const member_course *c, int i, double weight, double largest)
{
    char text[FIGURE_SIZE];
    figure_rounded(text, c->value[i], figure_decimals(largest, 4), 4, FIGURE_NOISE * largest);
    plot_value(p, c->station[i], c->value[i], weight, text);
}

/* The largest and the smallest. */
static void course_put_extremes(const plot *p, const member_course *c, double largest)
{
    int low = -1;
    int high = -1;
    for (int i = 0; i < c->count; i++) {
        low = !isnan(c->value[i]) && (low < 0 || c->value[i] < c->value[low]) ? i : low;
        high = !isnan(c->value[i]) && (high < 0 || c->value[i] > c->value[high]) ? i : high;
    }
    if (high >= 0) {
        course_put_value(p, c, high, fabs(c->value[high]), largest);
    }
    if (low >= 0 && low != high) {
        course_put_value(p, c, low, fabs(c->value[low]), largest);
    }
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
    for (kl_index i = 0; i < count; i++) {
        const bool is_second = i > 0 && !(rows[i].station > rows[i - 1].station);
        if ((rows[i].node != KL_NONE || rows[i].is_face) && !is_second) {
            plot_place(p, rows[i].station / unit, label_place(model, &rows[i]));
        }
    }
}

static void course_draw(drawing *d,
                        kl_results *results,
                        const course_subject *subject,
                        kl_index member,
                        const course_family *family)
{
    const kl_display *display = &kl_results_model(results)->display;
    char along[80];
    char upright[80];
    snprintf(along, sizeof along, "station, %s", kl_show_unit(display, KL_MEASURE_STATION));
    snprintf(upright, sizeof upright, "%s, %s", subject->name,
             kl_show_unit(display, member_course_measure(subject->quantity)));
    const plot_axis x = {.low = 0.0, .high = family->length, .label = along, .tight = true};
    const plot_axis y = {
        .low = family->low, .high = family->high, .label = upright, .downward = subject->downward};
    const plot p =
        plot_start(d, (label_box){0.0, 18.0, COURSE_WIDTH, COURSE_HEIGHT - 18.0}, &x, &y);
    course_put_places(&p, results, member);
    plot_key_entry key[COURSE_LIMIT];
    const double largest = fmax(fabs(family->low), fabs(family->high));
    for (int i = 0; i < family->count; i++) {
        const member_course *c = &family->courses[i];
        key[i] = (plot_key_entry){diagram_class(i), family->names[i]};
        if (i == family->count - 1) {
            plot_fill(&p, "area", c->station, c->value, c->count);
        }
        plot_course(&p, diagram_class(i), c->station, c->value, c->count);
        course_put_extremes(&p, c, largest);
    }
    plot_key(&p, key, family->count);
}

static void
course_build(drawing *d, kl_results *results, const selection *s, const course_subject *subject)
{
    const kl_model *model = kl_results_model(results);
    const kl_index member = diagram_member(results, s);
    char title[LABEL_SIZE + 40];
    snprintf(title, sizeof title, "%s along %s", subject->name,
             member == KL_NONE ? "no member" : model->members[member].name);
    drawing_start(d, COURSE_WIDTH, COURSE_HEIGHT, title, "");
    drawing_text(d, "strong", 8.0, 16.0, ANCHOR_START, title);
    course_family *family = mem_array(1, sizeof *family);
    if (!family || member == KL_NONE) {
        d->status = family ? d->status : KL_NO_MEMORY;
        mem_free(family);
        return;
    }
    arena a = {0};
    family->length =
        kl_member_length(model, member) / kl_show_factor(&model->display, KL_MEASURE_STATION);
    course_gather(d, &a, results, s, subject->quantity, member, family);
    if (d->status == KL_OK && family->count > 0) {
        course_draw(d, results, subject, member, family);
    }
    arena_free(&a);
    mem_free(family);
}

void diagram_moment(drawing *d, kl_results *results, const selection *s)
{
    course_build(d, results, s, &(course_subject){KL_MOMENT, "moment", true});
}

void diagram_shear(drawing *d, kl_results *results, const selection *s)
{
    course_build(d, results, s, &(course_subject){KL_SHEAR, "shear", false});
}

void diagram_axial(drawing *d, kl_results *results, const selection *s)
{
    course_build(d, results, s, &(course_subject){KL_AXIAL, "axial force", false});
}

void diagram_deflection(drawing *d, kl_results *results, const selection *s)
{
    course_build(d, results, s, &(course_subject){KL_DEFLECTION, "deflection", false});
}

void diagram_camber(drawing *d, kl_results *results, const selection *s)
{
    course_build(d, results, s, &(course_subject){KL_CAMBER, "camber", false});
}
