/* sample_table.c - see sample_table.h. The factors come from the definitions of foot and pound, not from the unit table.
 * SPDX-License-Identifier: MIT */
#include "sample_table.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "assert_close.h"

#define SAMPLE_FT     0.3048
#define SAMPLE_KIP_FT (1000.0 * 0.45359237 * 9.80665 * 0.3048)

static void sample_row(table *t,
                       const char *when,
                       double station,
                       const char *place,
                       double moment,
                       double count,
                       bool flag)
{
    table_put_text(t, when);
    table_put(t, station * SAMPLE_FT);
    table_put_text(t, place);
    table_put(t, moment * SAMPLE_KIP_FT);
    table_put(t, count);
    table_put_flag(t, flag);
    table_put_text(t, "x");
}

void sample_table_fill(table *t)
{
    static const kl_display display = {.system = KL_UNITS_US};
    table_start(t, "sample", &display);
    table_title(t, "A sample of %d rows", 4);
    table_add_words(t, COLUMN_GROUP, "state", "");
    table_add(t, COLUMN_EXACT, "station", "station", KL_MEASURE_STATION, 4);
    table_add_words(t, COLUMN_WORD, "place", "place");
    table_add(t, COLUMN_FIGURE, "moment_total", "moment\n(total)", KL_MEASURE_MOMENT, 5);
    table_add(t, COLUMN_WHOLE, "count", "count", KL_MEASURE_NUMBER, 0);
    table_add(t, COLUMN_FLAG, "fine", "fine", KL_MEASURE_NUMBER, 0);
    table_add_words(t, COLUMN_WORD, "detail", "detail");
    table_detail(t);
    const double none = NAN;
    sample_row(t, "after pour", 0.0, "L, \"left\"", -1e-10, 3.0, true);
    sample_row(t, "after pour", 4.5, "", 1234.567, 12.0, false);
    sample_row(t, "after release", 12.0, "Stütze", -99.75, 1.0, true);
    sample_row(t, "after release", 96.0, "R", none, none, false);
    table_note(t, "Signs: %s.", "sagging +");
}

char *sample_table_written(const table *t, kl_status (*write)(const table *, FILE *))
{
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    if (out == NULL) {
        return NULL;
    }
    const kl_status status = write(t, out);
    if (fclose(out) != 0 || status != KL_OK) {
        free(text);
        return NULL;
    }
    return text;
}

kl_index sample_table_column(const table *t, const char *key)
{
    kl_index column = 0;
    while (column < t->column_count && strcmp(t->columns[column].key, key) != 0) {
        ++column;
    }
    assert_true(column < t->column_count);
    return column;
}

double sample_table_number(const table *t, kl_index row, const char *key)
{
    return table_cell_at(t, row, sample_table_column(t, key))->number;
}

const char *sample_table_text(const table *t, kl_index row, const char *key)
{
    return table_cell_at(t, row, sample_table_column(t, key))->text;
}
