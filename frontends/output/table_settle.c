/* table_settle.c - see table_settle.h.
 * SPDX-License-Identifier: MIT */
#include "table_settle.h"

#include <math.h>
#include <string.h>

#include "figure.h"
#include "near.h"

/* ---- rounding ------------------------------------------------------------------------------------------- */

double table_column_largest(const table *t, kl_index column, double noise)
{
    const kl_index rows = table_row_count(t);
    double largest = 0.0;
    for (kl_index row = 0; row < rows; ++row) {
        const double size = fabs(table_cell_at(t, row, column)->number);
        if (isfinite(size) && size > noise && size > largest) {
            largest = size;
        }
    }
    return largest;
}

static double measure_largest(const table *t, kl_measure measure)
{
    double largest = 0.0;
    for (kl_index column = 0; column < t->column_count; ++column) {
        const table_column *c = &t->columns[column];
        if (c->kind == COLUMN_FIGURE && c->measure == measure) {
            largest = fmax(largest, table_column_largest(t, column, 0.0));
        }
    }
    return largest;
}

/* At a lever, or along a length, of one metre they compare. */
static bool measure_is_action(kl_measure measure)
{
    return measure == KL_MEASURE_FORCE || measure == KL_MEASURE_MOMENT ||
           measure == KL_MEASURE_LINE_LOAD;
}

double table_noise(const table *t, kl_index column)
{
    const kl_measure measure = t->columns[column].measure;
    if (t->columns[column].kind != COLUMN_FIGURE || measure == KL_MEASURE_NUMBER) {
        return 0.0;
    }
    double largest = measure_largest(t, measure);
    if (measure_is_action(measure)) {
        largest = t->force_scale;
        for (kl_measure kin = 0; kin < KL_MEASURE_COUNT; kin++) {
            largest = measure_is_action(kin) ? fmax(largest, measure_largest(t, kin)) : largest;
        }
    } else if (measure == KL_MEASURE_RATIO) {
        largest = fmax(largest, 1.0); /* beside the whole */
    } else if (measure == KL_MEASURE_ROTATION) {
        largest = fmax(largest, measure_largest(t, KL_MEASURE_DEFLECTION));
    }
    return FIGURE_NOISE * largest;
}

static table_cell *cell_of(table *t, kl_index row, kl_index column)
{
    return &t->cells[(size_t)row * (size_t)t->column_count + (size_t)column];
}

static void clear_rounding(table *t, const double *noise)
{
    for (kl_index row = 0; row < table_row_count(t); ++row) {
        for (kl_index column = 0; column < t->column_count; ++column) {
            table_cell *cell = cell_of(t, row, column);
            if (fabs(cell->number) <= noise[column]) {
                cell->number = 0.0;
            }
        }
    }
}

/* Is the next column the place of a column's figure? */
static bool has_station(const table *t, kl_index column)
{
    const char *key = t->columns[column].key;
    const size_t length = strlen(key);
    return column + 1 < t->column_count && t->columns[column].kind == COLUMN_FIGURE &&
           strncmp(t->columns[column + 1].key, key, length) == 0 &&
           strcmp(t->columns[column + 1].key + length, "_station") == 0;
}

/* Are all figures of a kind 0: "moment_largest", "moment_smallest", "moment_start" …? */
static bool is_zero_throughout(table *t, kl_index row, const char *key)
{
    const size_t stem = strcspn(key, "_");
    for (kl_index column = 0; column < t->column_count; ++column) {
        const table_column *c = &t->columns[column];
        if (c->kind == COLUMN_FIGURE && strncmp(c->key, key, stem) == 0 &&
            strcspn(c->key, "_") == stem && !is_exact_zero(cell_of(t, row, column)->number)) {
            return false;
        }
    }
    return true;
}

/* What is 0 from end to end is so at its start already: rounding does not choose the place. */
static void place_zeros(table *t)
{
    for (kl_index row = 0; row < table_row_count(t); ++row) {
        for (kl_index column = 0; column < t->column_count; ++column) {
            if (has_station(t, column) && is_zero_throughout(t, row, t->columns[column].key)) {
                cell_of(t, row, column + 1)->number = 0.0;
            }
        }
    }
}

/* ---- two sides that are one ------------------------------------------------------------------------------ */

static kl_index side_column(const table *t)
{
    bool has_place = false;
    for (kl_index column = 0; column < t->column_count; ++column) {
        has_place = has_place || strcmp(t->columns[column].key, "place") == 0;
        if (has_place && strcmp(t->columns[column].key, "side") == 0) {
            return column;
        }
    }
    return KL_NONE;
}

/* In units of rounding: what the two sides of a place may differ by and still be one. A tendon's force is integrated
 * from element to element and agrees to some seven figures. */
#define SETTLE_SAME 1000.0

static bool is_same_cell(const table_cell *a, const table_cell *b, double noise)
{
    if (a->text != NULL && b->text != NULL) {
        return strcmp(a->text, b->text) == 0;
    }
    return (isnan(a->number) && isnan(b->number)) ||
           fabs(a->number - b->number) <= SETTLE_SAME * noise;
}

static bool is_seen_twice(const table *t, kl_index row, kl_index side, const double *noise)
{
    if (strcmp(table_cell_at(t, row, side)->text, "left") != 0 ||
        strcmp(table_cell_at(t, row + 1, side)->text, "right") != 0) {
        return false;
    }
    for (kl_index column = 0; column < t->column_count; ++column) {
        if (column != side && !is_same_cell(table_cell_at(t, row, column),
                                            table_cell_at(t, row + 1, column), noise[column])) {
            return false;
        }
    }
    return true;
}

static void join_sides(table *t, kl_index side, const double *noise)
{
    const size_t width = (size_t)t->column_count;
    const kl_index count = table_row_count(t);
    kl_index kept = 0;
    for (kl_index row = 0; row < count; ++row) {
        const bool twice = row + 1 < count && is_seen_twice(t, row, side, noise);
        if (kept != row) {
            memmove(cell_of(t, kept, 0), cell_of(t, row, 0), width * sizeof *t->cells);
        }
        if (twice) {
            cell_of(t, kept, side)->text = "";
            ++row;
        }
        ++kept;
    }
    t->cell_count = (size_t)kept * width;
}

void table_settle(table *t)
{
    double noise[TABLE_COLUMN_LIMIT] = {0};
    if (t->status != KL_OK || t->cell_count == 0) {
        return;
    }
    for (kl_index column = 0; column < t->column_count; ++column) {
        noise[column] = table_noise(t, column);
    }
    clear_rounding(t, noise);
    place_zeros(t);
    const kl_index side = side_column(t);
    if (side != KL_NONE) {
        join_sides(t, side, noise);
    }
}
