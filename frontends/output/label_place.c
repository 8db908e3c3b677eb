/* label_place.c - see label_place.h.
 * SPDX-License-Identifier: MIT */
#include "label_place.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "mem.h"

#define LABEL_LIMIT   ((size_t)1 << 20)
#define LABEL_ENTRIES ((size_t)1 << 24)
#define LABEL_CELL                                                                                 \
    8.0 /* px: less than a letter is high, so that a crowded place shows it at once */
#define LABEL_PAGE    2e4   /* px: what lies beyond is in the last cell */
#define LABEL_LINE    6.0   /* px, length of the boxes that stand for a line */
#define LABEL_STROKE  1.0   /* px, half the width of a line */
#define LABEL_NEAR    14.0  /* px, beyond which a line leads to the label */
#define LABEL_SPACING 1.5   /* px around a text */
#define LABEL_AGAIN   30.0  /* px within which a text is not said twice */
#define LABEL_OWN     4.0   /* px around a place that are its own */
#define LABEL_TEXT    100.0 /* to cover so much of lines is as bad as 1 of texts */

kl_status label_field_wish(label_field *field, const label_wish *wish)
{
    void *wishes = field->wishes;
    KL_TRY(mem_grow(&wishes, &field->wish_room, field->wish_count + 1, sizeof *wish, LABEL_LIMIT));
    field->wishes = wishes;
    field->wishes[field->wish_count++] = *wish;
    return KL_OK;
}

static kl_status label_take(label_field *field, label_box box, bool is_line)
{
    void *taken = field->taken;
    KL_TRY(mem_grow(&taken, &field->taken_room, field->taken_count + 1, sizeof *field->taken,
                    LABEL_LIMIT));
    field->taken = taken;
    field->taken[field->taken_count++] = (label_taken){box, is_line};
    return KL_OK;
}

kl_status label_field_take(label_field *field, label_box box)
{
    return label_take(field, box, false);
}

kl_status label_field_take_hatch(label_field *field, label_box box)
{
    return label_take(field, box, true);
}

kl_status label_field_take_line(label_field *field, double x1, double y1, double x2, double y2)
{
    const double length = hypot(x2 - x1, y2 - y1);
    if (!(length < 1e5)) {
        return KL_OK; /* no place on any page */
    }
    const bool straight = fabs(x2 - x1) < LABEL_STROKE || fabs(y2 - y1) < LABEL_STROKE;
    const int count = straight ? 1 : 1 + (int)(length / LABEL_LINE);
    for (int i = 0; i < count; i++) {
        const double xa = x1 + (x2 - x1) * i / count;
        const double xb = x1 + (x2 - x1) * (i + 1) / count;
        const double ya = y1 + (y2 - y1) * i / count;
        const double yb = y1 + (y2 - y1) * (i + 1) / count;
        KL_TRY(label_take(field,
                          (label_box){fmin(xa, xb) - LABEL_STROKE, fmin(ya, yb) - LABEL_STROKE,
                                      fabs(xb - xa) + 2 * LABEL_STROKE,
                                      fabs(yb - ya) + 2 * LABEL_STROKE},
                          true));
    }
    return KL_OK;
}

static double label_overlap(const label_box *a, const label_box *b)
{
    const double width = fmin(a->x + a->width, b->x + b->width) - fmax(a->x, b->x);
    const double height = fmin(a->y + a->height, b->y + b->height) - fmax(a->y, b->y);
    return width > 0.0 && height > 0.0 ? width * height : 0.0;
}

/* ---- what is taken, by the cell of the page it lies in ----------------------------------------------------- */

typedef struct label_entry {
    size_t box;  /* index into field->taken */
    size_t next; /* entry of the same cell, LABEL_NONE: the last */
} label_entry;

#define LABEL_NONE ((size_t)-1)

/* A large frame has a hundred thousand pieces of lines; a label meets those of a few cells only. */
typedef struct label_grid {
    label_field *field;
    double width, height; /* of the page */
    int columns, rows;
    size_t *first; /* entry of each cell */
    label_entry *entries;
    size_t count, room;
    size_t *said;   /* of each cell the label put last for a place in it, LABEL_NONE: none … */
    size_t *before; /* … and of each label the one before it in the same cell */
} label_grid;

typedef struct label_range {
    int column[2], row[2]; /* first and last cell */
} label_range;

static int label_cell(double at, int count)
{
    return (int)fmax(fmin(floor(at / LABEL_CELL), count - 1.0), 0.0);
}

static label_range label_cells(const label_grid *g, const label_box *box)
{
    return (label_range){
        {label_cell(box->x, g->columns), label_cell(box->x + box->width, g->columns)},
        {label_cell(box->y, g->rows), label_cell(box->y + box->height, g->rows)}};
}

static kl_status label_grid_enter(label_grid *g, size_t box)
{
    const label_range cells = label_cells(g, &g->field->taken[box].box);
    for (int row = cells.row[0]; row <= cells.row[1]; row++) {
        for (int column = cells.column[0]; column <= cells.column[1]; column++) {
            void *entries = g->entries;
            KL_TRY(mem_grow(&entries, &g->room, g->count + 1, sizeof *g->entries, LABEL_ENTRIES));
            g->entries = entries;
            size_t *first = &g->first[(size_t)row * (size_t)g->columns + (size_t)column];
            g->entries[g->count] = (label_entry){box, *first};
            *first = g->count++;
        }
    }
    return KL_OK;
}

static kl_status label_grid_start(label_grid *g, label_field *field, double width, double height)
{
    *g = (label_grid){.field = field, .width = width, .height = height};
    g->columns = 1 + (int)(fmin(width, LABEL_PAGE) / LABEL_CELL);
    g->rows = 1 + (int)(fmin(height, LABEL_PAGE) / LABEL_CELL);
    const size_t cells = (size_t)g->columns * (size_t)g->rows;
    g->first = mem_array(cells, sizeof *g->first);
    g->said = mem_array(cells, sizeof *g->said);
    g->before = mem_array(field->wish_count, sizeof *g->before);
    if (!g->first || !g->said || !g->before) {
        return KL_NO_MEMORY;
    }
    for (size_t i = 0; i < cells; i++) {
        g->first[i] = g->said[i] = LABEL_NONE;
    }
    for (size_t i = 0; i < field->taken_count; i++) {
        KL_TRY(label_grid_enter(g, i));
    }
    return KL_OK;
}

static void label_grid_free(label_grid *g)
{
    mem_free(g->first);
    mem_free(g->said);
    mem_free(g->before);
    mem_free(g->entries);
}

/* The part of a box that lies in one cell; cells at the edge reach beyond the page. */
static label_box label_clip(const label_grid *g, const label_box *box, int row, int column)
{
    const double left = column == 0 ? -HUGE_VAL : column * LABEL_CELL;
    const double right = column == g->columns - 1 ? HUGE_VAL : (column + 1) * LABEL_CELL;
    const double top = row == 0 ? -HUGE_VAL : row * LABEL_CELL;
    const double bottom = row == g->rows - 1 ? HUGE_VAL : (row + 1) * LABEL_CELL;
    const double x = fmax(box->x, left);
    const double y = fmax(box->y, top);
    return (label_box){x, y, fmin(box->x + box->width, right) - x,
                       fmin(box->y + box->height, bottom) - y};
}

/* Area that a box would cover of what is taken, that of texts many times; stops counting at `enough`. */
static double label_covered(const label_grid *g, const label_box *box, double enough)
{
    const label_range cells = label_cells(g, box);
    double covered = 0.0;
    if (!g->entries) {
        return covered;
    }
    for (int row = cells.row[0]; row <= cells.row[1]; row++) {
        for (int column = cells.column[0]; column <= cells.column[1]; column++) {
            const label_box part = label_clip(g, box, row, column);
            size_t at = g->first[(size_t)row * (size_t)g->columns + (size_t)column];
            for (; at != LABEL_NONE && covered < enough; at = g->entries[at].next) {
                const label_taken *taken = &g->field->taken[g->entries[at].box];
                covered += label_overlap(&part, &taken->box) * (taken->is_line ? 1.0 : LABEL_TEXT);
            }
        }
    }
    return covered;
}

/* ---- finding room ------------------------------------------------------------------------------------------ */

/* Position k around the place, nearest first: eight directions on each ring, above before below. */
static label_box label_candidate(const label_wish *wish, int k)
{
    static const double rings[] = {3.0, 7.0, 12.0, 20.0, 30.0, 44.0, 60.0};
    static const double direction[8][2] = {{0, -1}, {0, 1},  {1, -1}, {-1, -1},
                                           {1, 1},  {-1, 1}, {1, 0},  {-1, 0}};
    const double ring = rings[k / 8];
    const double *to = direction[k % 8];
    return (label_box){
        .x = wish->x + to[0] * ring + (to[0] - 1.0) / 2.0 * wish->width,
        .y = wish->y + to[1] * ring + (to[1] - 1.0) / 2.0 * wish->height,
        .width = wish->width,
        .height = wish->height,
    };
}

#define LABEL_CANDIDATES 56
#define LABEL_CLOSE      18 /* of them, without a line that leads to them */

/* The point of the box's upper or lower edge that is nearest to the place. */
static void label_set_lead(label_wish *wish, const label_box *box)
{
    const double dx = fmax(fmax(box->x - wish->x, wish->x - box->x - wish->width), 0.0);
    const double dy = fmax(fmax(box->y - wish->y, wish->y - box->y - wish->height), 0.0);
    wish->far = hypot(dx, dy) > LABEL_NEAR;
    wish->lead_x = fmax(fmin(wish->x, box->x + box->width), box->x);
    wish->lead_y = wish->y > box->y ? box->y + box->height : box->y;
}

/* Does the straight way from (x, y) along (dx, dy), from the share `from` of it on, meet the box? */
static bool label_meets(const label_box *box, double x, double y, double dx, double dy, double from)
{
    const double low[2] = {box->x - x, box->y - y};
    const double high[2] = {low[0] + box->width, low[1] + box->height};
    const double way[2] = {dx, dy};
    double to = 1.0;
    for (int i = 0; i < 2; i++) {
        if (fabs(way[i]) < 1e-9) {
            if (low[i] > 0.0 || high[i] < 0.0) {
                return false;
            }
            continue;
        }
        const double a = low[i] / way[i];
        const double b = high[i] / way[i];
        from = fmax(from, fmin(a, b));
        to = fmin(to, fmax(a, b));
    }
    return from < to;
}

/* Is something in the way from the place to the box? Texts are in the way of a line that leads there; courses of a label that would
 * be taken for that of another one. */
static bool label_is_cut_off(const label_grid *g, label_wish *wish, const label_box *box)
{
    label_set_lead(wish, box);
    const double dx = wish->lead_x - wish->x;
    const double dy = wish->lead_y - wish->y;
    const double own = LABEL_OWN / hypot(dx, dy);
    if ((!wish->far && !wish->beside) || !(own < 1.0) || !g->entries) {
        return false;
    }
    const label_box around = {fmin(wish->x, wish->lead_x), fmin(wish->y, wish->lead_y), fabs(dx),
                              fabs(dy)};
    const label_range cells = label_cells(g, &around);
    for (int row = cells.row[0]; row <= cells.row[1]; row++) {
        for (int column = cells.column[0]; column <= cells.column[1]; column++) {
            size_t at = g->first[(size_t)row * (size_t)g->columns + (size_t)column];
            for (; at != LABEL_NONE; at = g->entries[at].next) {
                const label_taken *taken = &g->field->taken[g->entries[at].box];
                if ((wish->beside || !taken->is_line) &&
                    label_meets(&taken->box, wish->x, wish->y, dx, dy, own)) {
                    return true;
                }
            }
        }
    }
    return false;
}

static void label_find(const label_grid *g, label_wish *wish)
{
    const bool may_go = wish->optional || !(wish->weight > 0.0);
    const int candidates = wish->optional ? LABEL_CLOSE : LABEL_CANDIDATES;
    /* One that may go needs a free place: how much another one would cover is not looked at to the end. */
    double least = may_go ? DBL_MIN : HUGE_VAL;
    bool somewhere = false;
    for (int k = 0; k < candidates && least > 0.0; k++) {
        label_box box = label_candidate(wish, k);
        box.x =
            fmax(fmin(box.x, g->width - box.width), 0.0); /* what would leave the page moves in */
        if (box.y < 0.0 || box.y + box.height > g->height) {
            continue;
        }
        const double covered = label_covered(g, &box, least);
        if (covered < least && !label_is_cut_off(g, wish, &box)) {
            least = covered;
            wish->box = box;
            somewhere = true;
        }
    }
    label_set_lead(wish, &wish->box);
    wish->placed = somewhere;
}

/* A wish and its number: of equal weights the one asked for first goes first. */
typedef struct label_turn {
    double weight;
    size_t wish;
} label_turn;

static int label_compare(const void *a, const void *b)
{
    const label_turn *x = a;
    const label_turn *y = b;
    const int by_weight = (x->weight < y->weight) - (x->weight > y->weight);
    return by_weight != 0 ? by_weight : (x->wish > y->wish) - (x->wish < y->wish);
}

/* Does the same text stand close by already? Courses that hardly differ would all say it. */
static bool label_is_said(const label_grid *g, const label_wish *wish)
{
    const label_box around = {wish->x - LABEL_AGAIN, wish->y - LABEL_AGAIN, 2.0 * LABEL_AGAIN,
                              2.0 * LABEL_AGAIN};
    const label_range cells = label_cells(g, &around);
    for (int row = cells.row[0]; row <= cells.row[1]; row++) {
        for (int column = cells.column[0]; column <= cells.column[1]; column++) {
            size_t at = g->said[(size_t)row * (size_t)g->columns + (size_t)column];
            for (; at != LABEL_NONE; at = g->before[at]) {
                const label_wish *other = &g->field->wishes[at];
                if (hypot(other->x - wish->x, other->y - wish->y) < LABEL_AGAIN &&
                    strcmp(other->text, wish->text) == 0) {
                    return true;
                }
            }
        }
    }
    return false;
}

static void label_say(label_grid *g, size_t wish)
{
    const label_wish *w = &g->field->wishes[wish];
    const label_box place = {w->x, w->y, 0.0, 0.0};
    const label_range cells = label_cells(g, &place);
    size_t *said = &g->said[(size_t)cells.row[0] * (size_t)g->columns + (size_t)cells.column[0]];
    g->before[wish] = *said;
    *said = wish;
}

static kl_status label_place_one(label_grid *g, size_t index)
{
    label_wish *wish = &g->field->wishes[index];
    if (label_is_said(g, wish)) {
        return KL_OK;
    }
    label_find(g, wish);
    if (!wish->placed) {
        return KL_OK;
    }
    label_say(g, index);
    const label_box *box = &wish->box;
    KL_TRY(label_field_take(g->field, (label_box){box->x - LABEL_SPACING, box->y - LABEL_SPACING,
                                                  box->width + 2 * LABEL_SPACING,
                                                  box->height + 2 * LABEL_SPACING}));
    KL_TRY(label_grid_enter(g, g->field->taken_count - 1));
    const size_t before = g->field->taken_count;
    if (wish->far) {
        KL_TRY(label_field_take_line(g->field, wish->x, wish->y, wish->lead_x, wish->lead_y));
    }
    for (size_t i = before; i < g->field->taken_count; i++) {
        KL_TRY(label_grid_enter(g, i));
    }
    return KL_OK;
}

kl_status label_field_place(label_field *field, double page_width, double page_height)
{
    if (field->wish_count == 0) {
        return KL_OK;
    }
    label_turn *turns = mem_array(field->wish_count, sizeof *turns);
    if (!turns) {
        return KL_NO_MEMORY;
    }
    for (size_t i = 0; i < field->wish_count; i++) {
        turns[i] = (label_turn){field->wishes[i].weight, i};
    }
    qsort(turns, field->wish_count, sizeof *turns, label_compare);
    label_grid grid;
    kl_status status = label_grid_start(&grid, field, page_width, page_height);
    for (size_t i = 0; i < field->wish_count && status == KL_OK; i++) {
        status = label_place_one(&grid, turns[i].wish);
    }
    label_grid_free(&grid);
    mem_free(turns);
    return status;
}

void label_field_free(label_field *field)
{
    for (size_t i = 0; i < field->wish_count; i++) {
        mem_free(field->wishes[i].text);
    }
    mem_free(field->wishes);
    mem_free(field->taken);
    *field = (label_field){0};
}
