/* consistency_crossings.c - members that cross or touch without a node in common.
 *
 * The plane is divided into about as many square cells as there are members; each member is entered in the cells
 * it runs through, and members of one cell are compared. For frames that is linear in the members; where so many
 * crowd one cell that it would not be, only some of its pairs are.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "consistency.h"

/* Cells are widened until a member lies in no more than this many of them on average. */
#define CELLS_A_MEMBER 16

/* Comparisons in one cell: this many for each of its members and a thousand more. All pairs of up to 140. */
#define TESTS_A_MEMBER 64
#define TESTS_A_CELL   1000

/* Members whose directions differ by less than this (sine) are parallel. */
#define PARALLEL 1e-9

typedef struct crossing_grid {
    consistency *c;
    double left, bottom, size; /* of a cell, m */
    kl_index columns, rows;
    int64_t *start; /* by cell: first entry */
    kl_index *entries;
    consistency_tally tally;
} crossing_grid;

typedef struct segment {
    kl_point p, q;
} segment;

static segment segment_of(const consistency *c, kl_index member)
{
    const kl_member *m = &c->model->members[member];
    const kl_node *from = &c->model->nodes[m->from];
    const kl_node *to = &c->model->nodes[m->to];
    return (segment){{from->x, from->y}, {to->x, to->y}};
}

static kl_index clamp_cell(double position, kl_index count)
{
    if (!(position > 0.0)) {
        return 0;
    }
    return position >= (double)count ? count - 1 : (kl_index)position;
}

static kl_index column_of(const crossing_grid *grid, double x)
{
    return clamp_cell((x - grid->left) / grid->size, grid->columns);
}

static kl_index row_of(const crossing_grid *grid, double y)
{
    return clamp_cell((y - grid->bottom) / grid->size, grid->rows);
}

/* The rows that a segment, a little thickened, runs through in a column of cells. */
static void rows_in_column(
    const crossing_grid *grid, const segment *s, kl_index column, kl_index *low, kl_index *high)
{
    const double near = grid->c->near;
    const double dx = s->q.x - s->p.x;
    double y0 = s->p.y;
    double y1 = s->q.y;
    if (fabs(dx) > near) {
        const double slope = (s->q.y - s->p.y) / dx;
        const double x0 = grid->left + (double)column * grid->size - near;
        const double x1 = x0 + grid->size + 2.0 * near;
        const double from = fmin(s->p.x, s->q.x);
        const double to = fmax(s->p.x, s->q.x);
        y0 = s->p.y + slope * (fmin(fmax(x0, from), to) - s->p.x);
        y1 = s->p.y + slope * (fmin(fmax(x1, from), to) - s->p.x);
    }
    *low = row_of(grid, fmin(y0, y1) - near);
    *high = row_of(grid, fmax(y0, y1) + near);
}

/* Count a member's cells, or enter it in them. */
static int64_t walk_cells(const crossing_grid *grid, kl_index member, int64_t *counts, bool enter)
{
    const segment s = segment_of(grid->c, member);
    const double near = grid->c->near;
    const kl_index first = column_of(grid, fmin(s.p.x, s.q.x) - near);
    const kl_index last = column_of(grid, fmax(s.p.x, s.q.x) + near);
    int64_t cells = 0;
    for (kl_index column = first; column <= last; column++) {
        kl_index low;
        kl_index high;
        rows_in_column(grid, &s, column, &low, &high);
        cells += high - low + 1;
        for (kl_index row = low; row <= high && counts != NULL; row++) {
            int64_t *at = &counts[(int64_t)row * grid->columns + column];
            if (enter) {
                grid->entries[*at] = member;
            }
            ++*at;
        }
    }
    return cells;
}

static void divide(crossing_grid *grid, double width, double height, double size)
{
    grid->size = size;
    grid->columns = (kl_index)(width / size) + 1;
    grid->rows = (kl_index)(height / size) + 1;
}

/* Cells small enough to part the members and large enough not to enter each too often. @return all entries. */
static int64_t choose_cells(crossing_grid *grid, double width, double height)
{
    const double members = (double)grid->c->model->member_count;
    const double even = sqrt(width * height / members);
    double size = fmax(even, fmax(width, height) / members);
    for (;;) {
        divide(grid, width, height, size);
        int64_t entries = 0;
        const int64_t most = CELLS_A_MEMBER * (int64_t)grid->c->model->member_count + 64;
        for (kl_index m = 0; m < grid->c->model->member_count && entries <= most; m++) {
            entries += walk_cells(grid, m, NULL, false);
        }
        if (entries <= most) {
            return entries;
        }
        size *= 2.0;
    }
}

static kl_status fill_cells(crossing_grid *grid, int64_t entries)
{
    const size_t cells = (size_t)grid->columns * (size_t)grid->rows;
    grid->start = arena_array(&grid->c->memory, cells + 1, sizeof *grid->start);
    grid->entries = arena_array(&grid->c->memory, (size_t)entries, sizeof *grid->entries);
    if (grid->start == NULL || grid->entries == NULL) {
        return KL_NO_MEMORY;
    }
    const kl_index members = grid->c->model->member_count;
    for (kl_index m = 0; m < members; m++) {
        (void)walk_cells(grid, m, grid->start + 1, false);
    }
    for (size_t i = 0; i < cells; i++) {
        grid->start[i + 1] += grid->start[i];
    }
    for (kl_index m = 0; m < members; m++) {
        (void)walk_cells(grid, m, grid->start, true);
    }
    for (size_t i = cells; i > 0; i--) { /* each start has moved to its cell's end */
        grid->start[i] = grid->start[i - 1];
    }
    grid->start[0] = 0;
    return KL_OK;
}

static kl_index node_near(const consistency *c, kl_index node, kl_point p)
{
    const kl_node *n = &c->model->nodes[node];
    return hypot(n->x - p.x, n->y - p.y) <= 2.0 * c->near ? node : KL_NONE;
}

/* The node of a member at a place on it, or KL_NONE. */
static kl_index node_at(const consistency *c, kl_index member, kl_point p)
{
    const kl_member *m = &c->model->members[member];
    if (node_near(c, m->from, p) != KL_NONE) {
        return m->from;
    }
    if (node_near(c, m->to, p) != KL_NONE) {
        return m->to;
    }
    const kl_node *from = &c->model->nodes[m->from];
    const double station = hypot(p.x - from->x, p.y - from->y);
    kl_index low = c->on_start[member];
    kl_index high = c->on_start[member + 1];
    while (low < high) {
        const kl_index middle = low + (high - low) / 2;
        if (c->model->nodes[c->on_nodes[middle]].station < station - 2.0 * c->near) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low < c->on_start[member + 1] ? node_near(c, c->on_nodes[low], p) : KL_NONE;
}

static double cross(kl_point u, kl_point v)
{
    return u.x * v.y - u.y * v.x;
}

/* Parallel segments: the middle of what they have in common, if it has a length. */
static bool overlap_place(const segment *a, const segment *b, double near, kl_point *place)
{
    const double length = hypot(a->q.x - a->p.x, a->q.y - a->p.y);
    const kl_point u = {(a->q.x - a->p.x) / length, (a->q.y - a->p.y) / length};
    const kl_point w0 = {b->p.x - a->p.x, b->p.y - a->p.y};
    const kl_point w1 = {b->q.x - a->p.x, b->q.y - a->p.y};
    if (fabs(cross(u, w0)) > near || fabs(cross(u, w1)) > near) {
        return false;
    }
    const double s0 = u.x * w0.x + u.y * w0.y;
    const double s1 = u.x * w1.x + u.y * w1.y;
    const double from = fmax(0.0, fmin(s0, s1));
    const double to = fmin(length, fmax(s0, s1));
    *place = (kl_point){a->p.x + 0.5 * (from + to) * u.x, a->p.y + 0.5 * (from + to) * u.y};
    return to - from > 2.0 * near;
}

/* Where two segments meet. @return 0: nowhere, 1: at a point, 2: along a length. */
static int meeting(const segment *a, const segment *b, double near, kl_point *place)
{
    const kl_point u = {a->q.x - a->p.x, a->q.y - a->p.y};
    const kl_point v = {b->q.x - b->p.x, b->q.y - b->p.y};
    const kl_point w = {b->p.x - a->p.x, b->p.y - a->p.y};
    const double la = hypot(u.x, u.y);
    const double lb = hypot(v.x, v.y);
    const double sine = cross(u, v);
    if (fabs(sine) <= PARALLEL * la * lb) {
        return overlap_place(a, b, near, place) ? 2 : 0;
    }
    const double s = cross(w, v) / sine;
    const double t = cross(w, u) / sine;
    if (s * la < -near || s * la > la + near || t * lb < -near || t * lb > lb + near) {
        return 0;
    }
    *place = (kl_point){a->p.x + s * u.x, a->p.y + s * u.y};
    return 1;
}

static void tell(crossing_grid *grid, kl_index a, kl_index b, kl_point p, int how)
{
    consistency *c = grid->c;
    const kl_model *model = c->model;
    const kl_member *later = &model->members[a > b ? a : b];
    const kl_member *earlier = &model->members[a > b ? b : a];
    const build_number x = build_show(model, KL_MEASURE_STATION, p.x);
    const build_number y = build_show(model, KL_MEASURE_STATION, p.y);
    if (how == 2) {
        kl_diags_add(c->diags, KL_WARNING, "members-cross", later->origin,
                     "Members %s and %s lie on one another around (%s, %s) and nothing joins them "
                     "there.",
                     earlier->name, later->name, x.text, y.text);
        return;
    }
    const kl_index node = node_at(c, a, p) != KL_NONE ? node_at(c, a, p) : node_at(c, b, p);
    if (node != KL_NONE) {
        const kl_member *passed =
            node_at(c, a, p) != KL_NONE ? &model->members[b] : &model->members[a];
        kl_diags_add(c->diags, KL_WARNING, "members-cross", later->origin,
                     "Node %s stands on member %s at (%s, %s) but is no node of it: members %s and "
                     "%s are not joined.",
                     model->nodes[node].name, passed->name, x.text, y.text, earlier->name,
                     later->name);
        kl_diags_hint(c->diags, "write it as `node %s on %s at …`", model->nodes[node].name,
                      passed->name);
        return;
    }
    kl_diags_add(c->diags, KL_WARNING, "members-cross", later->origin,
                 "Members %s and %s cross at (%s, %s) without a node: nothing passes between them.",
                 earlier->name, later->name, x.text, y.text);
}

static void compare_pair(crossing_grid *grid, kl_index a, kl_index b, int64_t cell)
{
    const consistency *c = grid->c;
    const segment sa = segment_of(c, a);
    const segment sb = segment_of(c, b);
    kl_point p;
    const int how = meeting(&sa, &sb, c->near, &p);
    /* A pair that shares several cells is told in the one that holds the place. */
    if (how == 0 || (int64_t)row_of(grid, p.y) * grid->columns + column_of(grid, p.x) != cell) {
        return;
    }
    if (how == 1 && node_at(c, a, p) != KL_NONE && node_at(c, b, p) != KL_NONE) {
        return; /* one node, or two at one place: told with the nodes */
    }
    if (consistency_tell(&grid->tally)) {
        tell(grid, a, b, p, how);
    }
}

static void compare_cell(crossing_grid *grid, int64_t cell)
{
    const int64_t end = grid->start[cell + 1];
    int64_t tests = TESTS_A_MEMBER * (end - grid->start[cell]) + TESTS_A_CELL;
    for (int64_t i = grid->start[cell]; i < end && tests > 0; i++) {
        for (int64_t j = i + 1; j < end && tests > 0; j++) {
            tests--;
            compare_pair(grid, grid->entries[i], grid->entries[j], cell);
        }
    }
}

kl_status consistency_crossings(consistency *c)
{
    const kl_model *model = c->model;
    if (model->member_count < 2) {
        return KL_OK;
    }
    const kl_point low = model->store->low;
    const kl_point high = model->store->high;
    crossing_grid grid = {.c = c, .left = low.x, .bottom = low.y};
    const int64_t entries = choose_cells(&grid, high.x - low.x, high.y - low.y);
    KL_TRY(fill_cells(&grid, entries));
    const int64_t cells = (int64_t)grid.columns * grid.rows;
    for (int64_t cell = 0; cell < cells; cell++) {
        compare_cell(&grid, cell);
    }
    consistency_tell_rest(c, grid.tally, KL_WARNING, "members-cross");
    return KL_OK;
}
