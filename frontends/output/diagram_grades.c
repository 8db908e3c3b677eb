/* diagram_grades.c - what a form is raised by along its member, over the line of its design grade, and the parts of it.
 *
 * The figures are those of `table grades`, at closer stations; each row of posts has its raise as the field reads it.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "plot.h"
#include "tables.h"

#define GRADES_WIDTH  900.0
#define GRADES_HEIGHT 330.0
#define GRADES_PIECES 100.0
#define GRADES_TELLS  0.01 /* of the largest: a part that stays below it is no more than the axis */

/* The whole is drawn last, over its parts. */
static const struct {
    const char *key, *name, *class;
} grades_parts[] = {{"camber", "camber", "c1"},           {"takeup", "take-up", "c2"},
                    {"posts", "posts' shortening", "c3"}, {"carrier", "carrier's deflection", "c6"},
                    {"stringer", "stringer's sag", "c7"}, {"raise", "raise of the form", "c0"}};
enum {
    GRADES_PARTS = sizeof grades_parts / sizeof grades_parts[0],
    GRADES_RAISE = GRADES_PARTS - 1
};

typedef struct grades_work {
    kl_results *results;
    kl_index member;
    table table;
    const double *station;              /* shown, as all that follows */
    const double *course[GRADES_PARTS]; /* NULL: nothing of the kind */
    int count;
    double low, high;
} grades_work;

/* ---- what is drawn --------------------------------------------------------------------------------------- */

static kl_index grades_column(const table *t, const char *key)
{
    kl_index column = 0;
    while (column < t->column_count && strcmp(t->columns[column].key, key) != 0) {
        ++column;
    }
    return column;
}

/* A column as shown; NULL when it is not there or memory is short (the table's status says so). */
static const double *grades_course(table *t, const char *key)
{
    const kl_index column = grades_column(t, key);
    const kl_index rows = table_row_count(t);
    if (column == t->column_count) {
        return NULL;
    }
    double *course = arena_array(&t->memory, (size_t)rows, sizeof *course);
    if (!course) {
        (void)table_accepts(t, KL_NO_MEMORY);
    }
    for (kl_index i = 0; course && i < rows; ++i) {
        course[i] = table_shown(t, i, column);
    }
    return course;
}

static double grades_size(const double *course, int count)
{
    double size = 0.0;
    for (int i = 0; i < count; ++i) {
        size = fabs(course[i]) > size ? fabs(course[i]) : size;
    }
    return size;
}

static void grades_take(grades_work *w)
{
    w->count = (int)table_row_count(&w->table);
    w->station = grades_course(&w->table, "station");
    for (int k = 0; k < GRADES_PARTS; ++k) {
        w->course[k] = grades_course(&w->table, grades_parts[k].key);
        for (int i = 0; w->course[k] && i < w->count; ++i) {
            w->low = fmin(w->low, w->course[k][i]);
            w->high = fmax(w->high, w->course[k][i]);
        }
    }
    for (int k = 0; k < GRADES_RAISE; ++k) {
        const double size = w->course[k] ? grades_size(w->course[k], w->count) : 0.0;
        if (!(size > GRADES_TELLS * fmax(w->high, -w->low))) {
            w->course[k] = NULL;
        }
    }
}

/* The member asked for; else the first that has a grade. */
static kl_index grades_member(const kl_model *model, const selection *s)
{
    for (kl_index g = 0; g < model->grade_count; ++g) {
        if (selection_takes(s, model->grades[g].member)) {
            return model->grades[g].member;
        }
    }
    return KL_NONE;
}

static kl_status grades_fill(grades_work *w, const selection *s)
{
    const kl_model *model = kl_results_model(w->results);
    selection close = *s;
    close.member = w->member;
    close.every = kl_member_length(model, w->member) / GRADES_PIECES;
    close.at = NAN;
    close.tenths = false;
    KL_TRY(table_build(&w->table, table_recipe_find("grades"), w->results, &close));
    grades_take(w);
    return w->table.status;
}

/* ---- drawing --------------------------------------------------------------------------------------------- */

static int grades_key(const grades_work *w, plot_key_entry entries[GRADES_PARTS])
{
    int count = 0;
    for (int k = GRADES_PARTS; k-- > 0;) {
        if (w->course[k]) {
            entries[count++] = (plot_key_entry){grades_parts[k].class, grades_parts[k].name};
        }
    }
    return count;
}

static plot grades_axes(drawing *d, const grades_work *w, const plot_key_entry *key, int count)
{
    const kl_display *display = &w->table.display;
    char along[80];
    char upright[80];
    snprintf(along, sizeof along, "station, %s", kl_show_unit(display, KL_MEASURE_STATION));
    snprintf(upright, sizeof upright, "raise, %s", kl_show_unit(display, KL_MEASURE_DEFLECTION));
    const plot_axis x = {
        .low = 0.0, .high = w->station[w->count - 1], .label = along, .tight = true};
    const plot_axis y = {.low = w->low, .high = w->high, .label = upright};
    const double rows = plot_key_height(key, count, GRADES_WIDTH);
    return plot_start(d, (label_box){0.0, 18.0 + rows, GRADES_WIDTH, GRADES_HEIGHT - rows}, &x, &y);
}

/* Nodes and then faces at the top; at rows of posts the raise as it is read. */
static void grades_put_places(const grades_work *w, const plot *p)
{
    const kl_model *model = kl_results_model(w->results);
    const kl_index place = grades_column(&w->table, "place");
    for (int faces = 0; faces < 2; ++faces) {
        for (int i = 0; i < w->count; ++i) {
            const char *name = table_cell_at(&w->table, i, place)->text;
            const bool is_node = kl_model_find(model, KL_KIND_NODE, name) != KL_NONE;
            if (faces ? !is_node && strcmp(name, "face") == 0 : is_node) {
                plot_place(p, w->station[i], name);
            }
        }
    }
}

static void grades_put_readings(const grades_work *w, const plot *p)
{
    const kl_model *model = kl_results_model(w->results);
    const kl_index place = grades_column(&w->table, "place");
    const kl_index read = grades_column(&w->table, "raise_read");
    for (int i = 0; i < w->count; ++i) {
        const char *name = table_cell_at(&w->table, i, place)->text;
        if (kl_model_find(model, KL_KIND_FALSEWORK, name) != KL_NONE) {
            const double x = plot_x(p, w->station[i]);
            const double y = plot_y(p, w->course[GRADES_RAISE][i]);
            drawing_circle(p->drawing, "node", x, y, 2.2);
            drawing_hint(p->drawing, "small", x, y, 1.0, table_cell_at(&w->table, i, read)->text);
        }
    }
}

static void grades_draw(drawing *d, const grades_work *w)
{
    plot_key_entry key[GRADES_PARTS];
    const int count = grades_key(w, key);
    const plot p = grades_axes(d, w, key, count);
    plot_fill(&p, "area", w->station, w->course[GRADES_RAISE], w->count);
    for (int k = 0; k < GRADES_PARTS; ++k) {
        if (w->course[k]) {
            plot_course(&p, grades_parts[k].class, w->station, w->course[k], w->count);
        }
    }
    grades_put_places(w, &p);
    grades_put_readings(w, &p);
    plot_key(&p, key, count);
    d->blank = !(w->high > w->low);
}

void diagram_grades(drawing *d, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    grades_work w = {.results = results, .member = grades_member(model, s)};
    char title[LABEL_SIZE + 60];
    snprintf(title, sizeof title, "Form of %s over its design grade",
             w.member == KL_NONE ? "nothing" : model->members[w.member].name);
    drawing_start(d, GRADES_WIDTH, 18.0 + GRADES_HEIGHT, title,
                  "Upward is where the form is set higher than the design grade.");
    drawing_text(d, "strong", 8.0, 16.0, ANCHOR_START, title);
    if (w.member == KL_NONE) {
        diagram_absent(d, s->member == KL_NONE ? "no member has a `grade`"
                                               : "the member has no `grade`");
        return;
    }
    if (diagram_accepts(d, grades_fill(&w, s)) && w.count > 0) {
        grades_draw(d, &w);
    }
    table_free(&w.table);
}
