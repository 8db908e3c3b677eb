/* load_points.c - see load_points.h.
 * SPDX-License-Identifier: MIT */
#include "load_points.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "figure.h"
#include "mem.h"

#define POINTS_LIMIT ((size_t)1 << 24)
#define POINTS_PLACE 100.0 /* to the px: places that nobody can tell apart are one */
#define POINTS_WAY   1e6   /* to a direction of length 1 */

kl_status load_points_add(load_points *all, const load_point *at, double size)
{
    void *points = all->points;
    KL_TRY(
        mem_grow(&points, &all->room, (size_t)all->count + 1, sizeof *all->points, POINTS_LIMIT));
    all->points = points;
    load_point *put = &all->points[all->count++];
    *put = *at;
    put->sum = put->each[0] = size;
    put->count = 1;
    return KL_OK;
}

void load_points_free(load_points *all)
{
    mem_free(all->points);
    *all = (load_points){0};
}

/* Place and direction, rounded, and which one it is. */
typedef struct point_key {
    long long of[5];
    kl_index index;
} point_key;

static int point_compare_places(const point_key *x, const point_key *y)
{
    for (int i = 0; i < 5; i++) {
        if (x->of[i] != y->of[i]) {
            return x->of[i] < y->of[i] ? -1 : 1;
        }
    }
    return 0;
}

static int point_compare(const void *a, const void *b)
{
    const point_key *x = a;
    const point_key *y = b;
    const int by_place = point_compare_places(x, y);
    return by_place != 0 ? by_place : (x->index > y->index) - (x->index < y->index);
}

static point_key point_key_of(const load_point *p, kl_index index)
{
    return (point_key){{llround(p->x * POINTS_PLACE), llround(p->y * POINTS_PLACE),
                        llround(p->pull.x * POINTS_WAY), llround(p->pull.y * POINTS_WAY),
                        (long long)p->measure},
                       index};
}

static void point_join(load_point *first, const load_point *more)
{
    if (first->count < LOAD_POINTS_APART) {
        first->each[first->count] = more->sum;
    }
    first->count++;
    first->sum += more->sum;
    first->under = fmax(first->under, more->under);
}

kl_status load_points_join(load_points *all)
{
    point_key *keys = mem_array((size_t)all->count, sizeof *keys);
    if (!keys) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < all->count; i++) {
        keys[i] = point_key_of(&all->points[i], i);
    }
    qsort(keys, (size_t)all->count, sizeof *keys, point_compare);
    kl_index first = 0;
    for (kl_index i = 1; i < all->count; i++) {
        if (point_compare_places(&keys[first], &keys[i]) == 0) {
            point_join(&all->points[keys[first].index], &all->points[keys[i].index]);
            all->points[keys[i].index].count = 0;
        } else {
            first = i;
        }
    }
    mem_free(keys);
    kl_index kept = 0;
    for (kl_index i = 0; i < all->count; i++) {
        if (all->points[i].count > 0) {
            all->points[kept++] = all->points[i];
        }
    }
    all->count = kept;
    return KL_OK;
}

void load_points_text(const load_point *point,
                      const kl_display *display,
                      char text[LOAD_POINTS_TEXT])
{
    const double unit = kl_show_factor(display, point->measure);
    const bool apart = point->count <= LOAD_POINTS_APART;
    size_t used = apart ? 0 : (size_t)snprintf(text, LOAD_POINTS_TEXT, "sum of %d: ", point->count);
    for (int i = 0; i < (apart ? point->count : 1); i++) {
        const double shown = (apart ? point->each[i] : point->sum) / unit;
        char figure[FIGURE_SIZE];
        figure_given(figure, shown, 3);
        used += (size_t)snprintf(text + used, LOAD_POINTS_TEXT - used, "%s%s", i > 0 ? " + " : "",
                                 figure);
    }
    snprintf(text + used, LOAD_POINTS_TEXT - used, " %s", kl_show_unit(display, point->measure));
}
