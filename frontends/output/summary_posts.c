/* summary_posts.c - one falsework as a grid: a row of posts a line, a step a column.
 *
 * A column is shown for the steps after which something is different. A number with a star is above the rated load,
 * "up" is a row that has lifted, an empty place a row that is not there (yet, or any more). Where there are too
 * many rows the worst ones are shown.
 * SPDX-License-Identifier: MIT */
#include "summary_tables.h"

#include <math.h>
#include <string.h>

#include "figure.h"
#include "label.h"
#include "mem.h"
#include "near.h"
#include "post_use.h"

#define POSTS_STEP_LIMIT 10
#define POSTS_ROW_BUDGET 40 /* of all falsework together; each gets its part, but at least */
#define POSTS_ROW_LEAST  8

typedef struct post_grid {
    const kl_results *results;
    kl_index falsework, rows, steps;
    kl_post_row *cells; /* row * steps + step */
    double *largest;    /* of one post of each row over the steps, N */
} post_grid;

static kl_index post_row_limit(const post_grid *g)
{
    const kl_index part = POSTS_ROW_BUDGET / kl_results_model(g->results)->falsework_count;
    return part > POSTS_ROW_LEAST ? part : POSTS_ROW_LEAST;
}

static const kl_post_row *post_at(const post_grid *g, kl_index row, kl_index step)
{
    return &g->cells[(size_t)row * (size_t)g->steps + (size_t)step];
}

static bool post_read(table *t, post_grid *g)
{
    for (kl_index row = 0; row < g->rows; ++row) {
        for (kl_index step = 0; step < g->steps; ++step) {
            kl_post_row *cell = &g->cells[(size_t)row * (size_t)g->steps + (size_t)step];
            if (!table_accepts(
                    t, kl_row_state(g->results, kl_state_step(step), g->falsework, row, cell))) {
                *cell = (kl_post_row){0};
            }
        }
    }
    return t->status == KL_OK;
}

static void post_find_largest(table *t, post_grid *g)
{
    for (kl_index row = 0; row < g->rows; ++row) {
        post_use use;
        if (table_accepts(t, post_use_of(g->results, g->falsework, row, &use))) {
            g->largest[row] = use.force;
        }
    }
}

/* A row that has just been erected and carries nothing is no news. */
static bool post_differs(const kl_post_row *a, const kl_post_row *b, double scale)
{
    const bool is_new = a->stands && !b->stands;
    return (!is_new && a->bears != b->bears) || !near_equal(a->force, b->force, 0.0, 1e-6 * scale);
}

/* Is anything different after this step? */
static bool post_step_shows(const post_grid *g, kl_index step, double scale)
{
    for (kl_index row = 0; row < g->rows; ++row) {
        static const kl_post_row none = {0};
        const kl_post_row *before = step > 0 ? post_at(g, row, step - 1) : &none;
        if (post_at(g, row, step)->stands && post_differs(post_at(g, row, step), before, scale)) {
            return true;
        }
    }
    return false;
}

/* The largest steps of change, at most as many as fit: which[] rises. */
static kl_index post_choose_steps(const post_grid *g,
                                  double scale,
                                  kl_index which[POSTS_STEP_LIMIT],
                                  kl_index *left_out)
{
    kl_index count = 0;
    *left_out = 0;
    for (kl_index step = 0; step < g->steps; ++step) {
        if (post_step_shows(g, step, scale)) {
            if (count < POSTS_STEP_LIMIT) {
                which[count++] = step;
            } else {
                ++*left_out;
            }
        }
    }
    return count;
}

/* "step_1: stress T1" over two lines of the head. */
static const char *post_heading(table *t, const post_grid *g, kl_index step)
{
    char text[LABEL_SIZE];
    label_step(text, g->results, step);
    char *colon = strstr(text, ": ");
    if (colon == NULL) {
        return table_say(t, "%s", text);
    }
    *colon = '\0';
    return table_say(t, "%s\n%s", text, colon + 2);
}

static void post_put_cell(table *t, const post_grid *g, kl_index row, kl_index step, double largest)
{
    const kl_falsework *f = &kl_results_model(g->results)->falsework[g->falsework];
    const kl_post_row *cell = post_at(g, row, step);
    if (!cell->stands) {
        table_put_text(t, "");
    } else if (!cell->bears) {
        table_put_text(t, "up");
    } else {
        const double factor = kl_show_factor(&t->display, KL_MEASURE_FORCE);
        const double each = post_use_force(f, cell);
        char room[FIGURE_SIZE];
        figure_rounded(room, each / factor, figure_decimals(largest / factor, 3), 3,
                       FIGURE_NOISE * largest / factor);
        table_put_print(t, "%s%s", post_use_is_over(each / f->capacity) ? "*" : "", room);
    }
}

/* With too many rows those that carry the most, at some time, are shown. */
static bool post_row_shows(const post_grid *g, kl_index row)
{
    kl_index above = 0;
    for (kl_index other = 0; other < g->rows && g->rows > post_row_limit(g); ++other) {
        above += g->largest[other] > g->largest[row] * (1.0 + POST_USE_ROUNDING);
    }
    return above < post_row_limit(g);
}

static void post_fill(table *t, const post_grid *g)
{
    const kl_falsework *f = &kl_results_model(g->results)->falsework[g->falsework];
    double largest = 0.0;
    for (kl_index row = 0; row < g->rows; ++row) {
        largest = fmax(largest, g->largest[row]);
    }
    kl_index which[POSTS_STEP_LIMIT];
    kl_index left_out = 0, hidden = 0;
    const kl_index steps = post_choose_steps(g, largest * (double)f->posts, which, &left_out);
    table_add(t, COLUMN_EXACT, "station", "row at", KL_MEASURE_STATION, 2);
    for (kl_index i = 0; i < steps; ++i) {
        table_add_words(t, COLUMN_MARK, table_say(t, "after_step_%d", (int)which[i] + 1),
                        post_heading(t, g, which[i]));
    }
    for (kl_index row = 0; row < g->rows && steps > 0; ++row) {
        if (table_row_count(t) >= post_row_limit(g) || !post_row_shows(g, row)) {
            ++hidden;
            continue;
        }
        table_put(t, f->stations[row]);
        for (kl_index i = 0; i < steps; ++i) {
            post_put_cell(t, g, row, which[i], largest);
        }
    }
    if (hidden > 0 || left_out > 0) {
        table_note(t, "%d rows and %d steps are left out: `table posts` lists all.", (int)hidden,
                   (int)left_out);
    }
}

void summary_build_posts(table *t, kl_results *results, kl_index falsework)
{
    const kl_falsework *f = &kl_results_model(results)->falsework[falsework];
    const char *unit = kl_show_unit(&t->display, KL_MEASURE_FORCE);
    if (isnan(f->capacity)) {
        table_title(t, "Falsework %s: force in one post, %s (not rated)", f->name, unit);
    } else {
        table_title(t,
                    "Falsework %s: force in one post, %s (rated %.4g; * above it; up: lifted off)",
                    f->name, unit, f->capacity / kl_show_factor(&t->display, KL_MEASURE_FORCE));
    }
    post_grid grid = {results, falsework, f->row_count, kl_step_count(results), NULL, NULL};
    grid.cells = mem_array((size_t)grid.rows * (size_t)grid.steps, sizeof *grid.cells);
    grid.largest = mem_array((size_t)grid.rows, sizeof *grid.largest);
    if (grid.cells == NULL || grid.largest == NULL) {
        t->status = KL_NO_MEMORY;
    } else if (post_read(t, &grid)) {
        post_find_largest(t, &grid);
        post_fill(t, &grid);
    }
    mem_free(grid.cells);
    mem_free(grid.largest);
}
