/* json.c - tables through jansson. json_object_set_new takes over its value, and refuses NULL, so every builder here
 * may pass on what failed.
 * SPDX-License-Identifier: MIT */
#include "json.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "near.h"

#define JSON_DIGITS 15

/* Every byte above ASCII replaced: the text was no UTF-8. */
static json_t *json_from_ascii(const char *text)
{
    json_t *value = NULL;
    char *copy = strdup(text);
    if (copy != NULL) {
        for (char *c = copy; *c != '\0'; ++c) {
            if (((unsigned char)*c & 0x80U) != 0) {
                *c = '?';
            }
        }
        value = json_string(copy);
    }
    free(copy);
    return value;
}

/* A string; bytes that are no UTF-8 become '?'. NULL when out of memory. */
static json_t *json_from_text(const char *text)
{
    json_t *value = json_string(text);
    return value != NULL ? value : json_from_ascii(text);
}

static json_t *json_from_cell(const table *t, kl_index row, kl_index column)
{
    const table_column *c = &t->columns[column];
    if (column_is_text(c)) {
        return json_from_text(table_cell_at(t, row, column)->text);
    }
    const double value = table_shown(t, row, column);
    if (!isfinite(value)) {
        return json_null();
    }
    if (c->kind == COLUMN_FLAG) {
        return json_boolean(value > 0.5);
    }
    if (c->kind == COLUMN_WHOLE) {
        return json_integer((json_int_t)llround(value));
    }
    return json_real(is_exact_zero(value) ? 0.0 : value);
}

static int json_set(json_t *object, const char *key, json_t *value)
{
    return json_object_set_new(object, key, value);
}

/* The heading's lines, joined by spaces. */
static json_t *json_heading(const char *heading)
{
    char text[128];
    snprintf(text, sizeof text, "%s", heading);
    for (char *c = text; *c != '\0'; ++c) {
        if (*c == '\n') {
            *c = ' ';
        }
    }
    return json_from_text(text);
}

static json_t *json_columns(const table *t)
{
    json_t *columns = json_array();
    int failed = columns == NULL;
    for (kl_index column = 0; column < t->column_count && !failed; ++column) {
        const table_column *c = &t->columns[column];
        const char *heading = c->heading[0] != '\0' ? c->heading : c->key;
        json_t *object = json_object();
        failed |= json_set(object, "key", json_from_text(c->key));
        failed |= json_set(object, "heading", json_heading(heading));
        const char *unit = table_unit(t, column);
        failed |= json_set(object, "unit", unit[0] != '\0' ? json_from_text(unit) : json_null());
        failed |= json_array_append_new(columns, object);
    }
    if (failed) {
        json_decref(columns);
        return NULL;
    }
    return columns;
}

static json_t *json_row(const table *t, kl_index row)
{
    json_t *object = json_object();
    for (kl_index column = 0; column < t->column_count; ++column) {
        if (json_set(object, t->columns[column].key, json_from_cell(t, row, column)) != 0) {
            json_decref(object);
            return NULL;
        }
    }
    return object;
}

static json_t *json_rows(const table *t)
{
    json_t *rows = json_array();
    for (kl_index row = 0; row < table_row_count(t); ++row) {
        if (json_array_append_new(rows, json_row(t, row)) != 0) {
            json_decref(rows);
            return NULL;
        }
    }
    return rows;
}

static json_t *json_notes(const table *t)
{
    json_t *notes = json_array();
    for (kl_index note = 0; note < t->note_count; ++note) {
        if (json_array_append_new(notes, json_from_text(t->notes[note])) != 0) {
            json_decref(notes);
            return NULL;
        }
    }
    return notes;
}

static json_t *json_from_table(const table *t)
{
    if (t->status != KL_OK) {
        return NULL;
    }
    json_t *object = json_object();
    int failed = 0;
    failed |= json_set(object, "table", json_from_text(t->name));
    failed |= json_set(object, "title", json_from_text(t->title));
    failed |=
        json_set(object, "units", json_string(t->display.system == KL_UNITS_US ? "us" : "si"));
    failed |= json_set(object, "columns", json_columns(t));
    failed |= json_set(object, "rows", json_rows(t));
    failed |= json_set(object, "notes", json_notes(t));
    if (failed) {
        json_decref(object);
        return NULL;
    }
    return object;
}

/* Takes over the reference; NULL: memory was short. */
static kl_status json_write(json_t *document, FILE *out)
{
    if (document == NULL) {
        return KL_NO_MEMORY;
    }
    const size_t flags = JSON_INDENT(1) | JSON_REAL_PRECISION(JSON_DIGITS);
    const int failed = json_dumpf(document, out, flags);
    json_decref(document);
    fputc('\n', out);
    if (ferror(out)) {
        return KL_FILE_TROUBLE;
    }
    return failed != 0 ? KL_NO_MEMORY : KL_OK;
}

kl_status json_write_table(const table *t, FILE *out)
{
    KL_TRY(t->status);
    return json_write(json_from_table(t), out);
}

static json_t *json_from_tables(const table *tables, size_t count)
{
    json_t *object = json_object();
    for (size_t i = 0; i < count; ++i) {
        if (json_set(object, tables[i].name, json_from_table(&tables[i])) != 0) {
            json_decref(object);
            return NULL;
        }
    }
    return object;
}

kl_status json_write_document(
    const json_text *texts, size_t text_count, const table *tables, size_t table_count, FILE *out)
{
    for (size_t i = 0; i < table_count; ++i) {
        KL_TRY(tables[i].status);
    }
    json_t *document = json_object();
    int failed = 0;
    for (size_t i = 0; i < text_count; ++i) {
        failed |= json_set(document, texts[i].key, json_from_text(texts[i].text));
    }
    failed |= json_set(document, "tables", json_from_tables(tables, table_count));
    if (failed) {
        json_decref(document);
        return KL_NO_MEMORY;
    }
    return json_write(document, out);
}
