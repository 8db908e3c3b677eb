/* try_text.c - see try_text.h.
 * SPDX-License-Identifier: MIT */
#include "try_text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bind.h"
#include "csv.h"
#include "parser.h"
#include "summary.h"
#include "tables.h"

#ifndef FUZZ_TARGET
#include "assert_close.h"
#endif

void try_law(bool holds, const char *format, ...)
{
    if (holds) {
        return;
    }
    va_list arguments;
    va_start(arguments, format);
    fputs("law broken: ", stderr);
    vfprintf(stderr, format, arguments);
    fputc('\n', stderr);
    va_end(arguments);
#ifdef FUZZ_TARGET
    abort();
#else
    fail();
#endif
}

/* ---- from text to results ------------------------------------------------------------------------------ */

/* Every message can be shown, and of a failure an error tells; where in the model, or at least in which. */
static kl_status try_messages(try_text *t, kl_status status)
{
    for (kl_index i = 0; i < kl_diags_count(t->diags); ++i) {
        const char *text = source_render(&t->sources, kl_diags_get(t->diags, i), &t->memory);
        try_law(text != NULL && strncmp(text, "fuzz.kline:", 11) == 0, "without a place: %s", text);
    }
    const bool has_error = kl_diags_count_of(t->diags, KL_ERROR) > 0;
    try_law(has_error == (status != KL_OK), "%s error tells of: %s", has_error ? "an" : "no",
            kl_status_text(status));
    try_law(status != KL_NO_MEMORY && status != KL_MISUSE && status != KL_NOT_THERE, "status: %s",
            kl_status_text(status));
    return status;
}

kl_status try_parse(try_text *t, const uint8_t *data, size_t size)
{
    t->diags = kl_diags_create();
    try_law(t->diags != NULL, "out of memory");
    const kl_status status = text_parse_text(&t->sources, "fuzz.kline", (const char *)data, size,
                                             &t->memory, t->diags, &t->document);
    return try_messages(t, status);
}

kl_status try_bind(try_text *t, const uint8_t *data, size_t size)
{
    const kl_status read = try_parse(t, data, size);
    kl_status status = bind_after(read, &t->document, t->diags, &t->model);
    if (status == KL_OK) {
        status = kl_model_check(t->model);
    }
    return try_messages(t, status);
}

kl_status try_solve(try_text *t, const uint8_t *data, size_t size)
{
    KL_TRY(try_bind(t, data, size));
    kl_status status = kl_analyze(t->model, NULL, t->diags, &t->results);
    if (status == KL_OK) {
        status = kl_run_checks(t->results, t->diags, &t->report);
    }
    if (status == KL_OK) {
        status = kl_run_warnings(t->results, t->report, t->diags);
    }
    return try_messages(t, status);
}

void try_free(try_text *t)
{
    kl_check_report_destroy(t->report);
    kl_results_destroy(t->results);
    kl_model_destroy(t->model);
    kl_diags_destroy(t->diags);
    arena_free(&t->memory);
    source_free(&t->sources);
}

/* ---- what is printed ----------------------------------------------------------------------------------- */

static void try_print_table(const try_text *t, const table_recipe *recipe, FILE *out)
{
    const selection_wish wish = selection_wish_none();
    selection s;
    const kl_status made = selection_make(t->results, &wish, recipe->span, &s);
    try_law(made == KL_OK, "selection for %s: %s", recipe->name, kl_status_text(made));
    s.report = t->report;
    table sheet;
    kl_status status = table_build(&sheet, recipe, t->results, &s);
    if (status == KL_OK) {
        status = csv_write(&sheet, out);
    }
    try_law(status == KL_OK || status == KL_NOT_THERE, "table %s: %s", recipe->name,
            kl_status_text(status));
    table_free(&sheet);
    selection_free(&s);
}

void try_print(const try_text *t, FILE *out)
{
    const summary_input input = {.file = "fuzz.kline", .results = t->results, .report = t->report};
    const kl_status printed = summary_write(&input, out);
    try_law(printed == KL_OK, "summary: %s", kl_status_text(printed));
    const kl_status written = summary_write_json(&input, out);
    try_law(written == KL_OK, "JSON: %s", kl_status_text(written));
    kl_index count = 0;
    const table_recipe *recipes = table_recipes(&count);
    for (kl_index i = 0; i < count; ++i) {
        try_print_table(t, &recipes[i], out);
    }
}

/* ---- the laws of results ------------------------------------------------------------------------------- */

static void try_member(const try_text *t, kl_state state, kl_index member)
{
    static const kl_quantity quantities[] = {KL_MOMENT,     KL_SHEAR,      KL_AXIAL,
                                             KL_DEFLECTION, KL_SWAY,       KL_ROTATION,
                                             KL_CAMBER,     KL_STRESS_TOP, KL_STRESS_BOTTOM};
    const kl_station_row *rows = NULL;
    kl_index count = 0;
    const kl_status listed = kl_station_rows(t->results, member, NAN, &rows, &count);
    try_law(listed == KL_OK, "stations: %s", kl_status_text(listed));
    for (kl_index row = 0; row < count; ++row) {
        for (size_t i = 0; i < sizeof quantities / sizeof *quantities; ++i) {
            double value = 0.0;
            const kl_status status =
                kl_value_on_member(t->results, state, quantities[i], KL_TOTAL, member,
                                   rows[row].station, rows[row].side, &value);
            try_law(status == KL_NOT_THERE || (status == KL_OK && isfinite(value)),
                    "%s on member %d at %g m is %g: %s", kl_quantity_name(quantities[i]),
                    (int)member, rows[row].station, value, kl_status_text(status));
        }
    }
}

static void try_state(const try_text *t, kl_state state)
{
    kl_audit audit = {0};
    const kl_status audited = kl_audit_of_state(t->results, state, &audit);
    try_law(audited == KL_OK && audit.passed,
            "the audit of state %d: forces %g, moments %g, nodes %g, members %g", (int)state.index,
            audit.force_error, audit.moment_error, audit.node_error, audit.member_error);
    for (kl_index member = 0; member < t->model->member_count; ++member) {
        if (kl_member_stands(t->results, state, member)) {
            try_member(t, state, member);
        }
    }
    for (kl_index node = 0; node < t->model->node_count; ++node) {
        double value = 0.0;
        const kl_status status = kl_reaction(t->results, state, node, KL_Y, &value);
        try_law(status == KL_NOT_THERE || (status == KL_OK && isfinite(value)),
                "the reaction at node %d is %g: %s", (int)node, value, kl_status_text(status));
    }
}

void try_results(const try_text *t)
{
    for (kl_index step = 0; step < kl_step_count(t->results); ++step) {
        try_state(t, kl_state_step(step));
    }
    for (kl_index i = 0; i < t->model->case_count; ++i) {
        if (kl_case_is_solved(t->results, i)) {
            try_state(t, kl_state_case(i));
        }
    }
}

/* ---- the same again ------------------------------------------------------------------------------------ */

/* What the model's results are printed as; NULL when it has none. The caller frees the text. */
static char *try_printed(const uint8_t *data, size_t size)
{
    char *text = NULL;
    size_t length = 0;
    try_text t = {0};
    if (try_solve(&t, data, size) == KL_OK) {
        try_results(&t);
        FILE *out = open_memstream(&text, &length);
        try_law(out != NULL, "out of memory");
        try_print(&t, out);
        fclose(out);
    }
    try_free(&t);
    return text;
}

void try_twice(const uint8_t *data, size_t size)
{
    char *first = try_printed(data, size);
    if (first != NULL) {
        char *again = try_printed(data, size);
        try_law(again != NULL && strcmp(first, again) == 0, "the same model has other results");
        free(again);
    }
    free(first);
}
