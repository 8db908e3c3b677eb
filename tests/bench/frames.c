/* frames.c - see frames.h. Straight elastic elements: EA/L along, the cubic beam across, turned into the plane.
 * SPDX-License-Identifier: MIT */
#include "frames.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "random.h"

typedef struct frame_sketch {
    kl_index nodes;
    int64_t bars;
    double (*at)[2];
    kl_index (*bar)[2];
    bool *held;
} frame_sketch;

static bool sketch_open(frame_sketch *s, int64_t nodes, int64_t bars)
{
    *s = (frame_sketch){0};
    s->at = calloc((size_t)nodes, sizeof *s->at);
    s->bar = calloc((size_t)bars, sizeof *s->bar);
    s->held = calloc((size_t)nodes, sizeof *s->held);
    return s->at && s->bar && s->held;
}

static void sketch_close(frame_sketch *s)
{
    free(s->at);
    free(s->bar);
    free(s->held);
}

static kl_index sketch_node(frame_sketch *s, double x, double y, bool held)
{
    s->at[s->nodes][0] = x;
    s->at[s->nodes][1] = y;
    s->held[s->nodes] = held;
    return s->nodes++;
}

static void sketch_bar(frame_sketch *s, kl_index a, kl_index b)
{
    s->bar[s->bars][0] = a;
    s->bar[s->bars++][1] = b;
}

static bool sketch_line(frame_sketch *s, kl_index elements, kl_index between_supports)
{
    if (!sketch_open(s, elements + 1, elements)) {
        return false;
    }
    for (kl_index i = 0; i <= elements; i++) {
        sketch_node(s, i, 0.0, i % between_supports == 0);
        if (i > 0) {
            sketch_bar(s, i - 1, i);
        }
    }
    return true;
}

/* 800 elements of deck on five columns of 40. */
static bool sketch_unit(frame_sketch *s)
{
    if (!sketch_open(s, 1001, 1000)) {
        return false;
    }
    for (kl_index i = 0; i <= 800; i++) {
        sketch_node(s, 0.25 * i, 0.0, i == 0 || i == 800);
        if (i > 0) {
            sketch_bar(s, i - 1, i);
        }
    }
    for (kl_index c = 0; c < 5; c++) {
        kl_index above = 80 + 160 * c;
        for (kl_index i = 1; i <= 40; i++) {
            const kl_index below = sketch_node(s, s->at[80 + 160 * c][0], -0.25 * i, i == 40);
            sketch_bar(s, above, below);
            above = below;
        }
    }
    return true;
}

static bool sketch_ladder(frame_sketch *s)
{
    enum { PANELS = 6667 };
    if (!sketch_open(s, 2 * (PANELS + 1), 3 * PANELS + 1)) {
        return false;
    }
    for (kl_index i = 0; i <= PANELS; i++) {
        const kl_index lower = sketch_node(s, i, 0.0, i % 50 == 0);
        const kl_index upper = sketch_node(s, i, 1.0, false);
        sketch_bar(s, lower, upper);
        if (i > 0) {
            sketch_bar(s, lower - 2, lower);
            sketch_bar(s, upper - 2, upper);
        }
    }
    return true;
}

static bool sketch_grid(frame_sketch *s, kl_index side)
{
    if (!sketch_open(s, (int64_t)side * side, 2 * (int64_t)side * side)) {
        return false;
    }
    for (kl_index i = 0; i < side * side; i++) {
        sketch_node(s, i % side, i / side, i < side);
        if (i % side > 0) {
            sketch_bar(s, i - 1, i);
        }
        if (i >= side) {
            sketch_bar(s, i - side, i);
        }
    }
    return true;
}

static bool sketch_by_name(frame_sketch *s, const char *name)
{
    if (strcmp(name, "cap") == 0) {
        return sketch_line(s, 200, 20);
    }
    if (strcmp(name, "long") == 0) {
        return sketch_line(s, 100000, 50);
    }
    if (strcmp(name, "unit") == 0) {
        return sketch_unit(s);
    }
    if (strcmp(name, "ladder") == 0) {
        return sketch_ladder(s);
    }
    const long side = strncmp(name, "grid", 4) == 0 ? strtol(name + 4, NULL, 10) : 0;
    return side >= 2 && side <= 2000 && sketch_grid(s, (kl_index)side);
}

static bool sketch_shuffle(frame_sketch *s)
{
    random_source source = {20};
    const kl_index n = s->nodes;
    kl_index *number = calloc((size_t)n, sizeof *number);
    frame_sketch mixed;
    if (!number || !sketch_open(&mixed, n, s->bars)) {
        free(number);
        return false;
    }
    for (kl_index i = 0; i < n; i++) {
        const kl_index j = random_index(&source, i + 1);
        number[i] = number[j];
        number[j] = i;
    }
    for (kl_index i = 0; i < n; i++) {
        memcpy(mixed.at[number[i]], s->at[i], sizeof s->at[i]);
        mixed.held[number[i]] = s->held[i];
    }
    mixed.nodes = n;
    for (int64_t b = 0; b < s->bars; b++) {
        sketch_bar(&mixed, number[s->bar[b][0]], number[s->bar[b][1]]);
    }
    sketch_close(s);
    free(number);
    *s = mixed;
    return true;
}

/* The 6x6 stiffness of a bar in the plane: unknowns x, y, turn at either end. */
static void bar_stiffness(const frame_sketch *s, int64_t bar, double k[6][6])
{
    const double *a = s->at[s->bar[bar][0]];
    const double *b = s->at[s->bar[bar][1]];
    const double length = hypot(b[0] - a[0], b[1] - a[1]);
    const double c = (b[0] - a[0]) / length;
    const double n = (b[1] - a[1]) / length;
    const double ea = 3.0e10 * (1.0 + 0.1 * (double)(bar % 7));
    const double ei = ea / 12.0;
    /* deformations: lengthening, and the turns of the ends against the chord */
    const double move[3][6] = {{-c, -n, 0.0, c, n, 0.0},
                               {-n / length, c / length, 1.0, n / length, -c / length, 0.0},
                               {-n / length, c / length, 0.0, n / length, -c / length, 1.0}};
    const double stiff[3][3] = {{ea / length, 0.0, 0.0},
                                {0.0, 4.0 * ei / length, 2.0 * ei / length},
                                {0.0, 2.0 * ei / length, 4.0 * ei / length}};
    for (int i = 0; i < 6; i++) {
        for (int j = 0; j < 6; j++) {
            k[i][j] = 0.0;
            for (int p = 0; p < 9; p++) {
                k[i][j] += move[p / 3][i] * stiff[p / 3][p % 3] * move[p % 3][j];
            }
        }
    }
}

static void add_block(double *to, double k[6][6], int row, int column)
{
    for (int i = 0; i < 9; i++) {
        to[i] += k[row + i / 3][column + i % 3];
    }
}

static void assemble(const frame_sketch *s, frame_matrix *m)
{
    for (int64_t bar = 0; bar < s->bars; bar++) {
        double k[6][6];
        const kl_index a = s->bar[bar][0];
        const kl_index b = s->bar[bar][1];
        bar_stiffness(s, bar, k);
        add_block(m->diag + 9 * (size_t)a, k, 0, 0);
        add_block(m->diag + 9 * (size_t)b, k, 3, 3);
        const kl_index edge = graph_edge(m->graph, a, b);
        add_block(m->off + 9 * (size_t)edge, k, a < b ? 0 : 3, a < b ? 3 : 0);
    }
    for (kl_index i = 0; i < s->nodes; i++) {
        for (int d = 0; s->held[i] && d < 3; d++) {
            m->diag[9 * (size_t)i + 4 * (size_t)d] += d < 2 ? 1e10 : 1e9;
        }
    }
}

bool frame_make(const char *name, bool shuffled, frame_matrix *m)
{
    frame_sketch s = {0};
    *m = (frame_matrix){0};
    bool made = sketch_by_name(&s, name) && (!shuffled || sketch_shuffle(&s));
    if (made) {
        const kl_index(*bars)[2] = (const kl_index(*)[2])s.bar;
        made = graph_create(s.nodes, bars, s.bars, &m->graph) == KL_OK;
    }
    if (made) {
        m->diag = calloc((size_t)s.nodes, 9 * sizeof(double));
        m->off = calloc((size_t)m->graph->edge_count + 1, 9 * sizeof(double));
        made = m->diag && m->off;
    }
    if (made) {
        assemble(&s, m);
    }
    sketch_close(&s);
    return made;
}

void frame_free(frame_matrix *m)
{
    graph_destroy(m->graph);
    free(m->diag);
    free(m->off);
    *m = (frame_matrix){0};
}
