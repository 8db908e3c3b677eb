/* work.c - from a path to results, with the messages on the way.
 * SPDX-License-Identifier: MIT */
#include "work.h"

#include <stdio.h>
#include <string.h>

#include "bind.h"
#include "parser.h"

void work_complain(const char *format, ...)
{
    fputs("kernline: ", stderr);
    va_list arguments;
    va_start(arguments, format);
    vfprintf(stderr, format, arguments);
    fputc('\n', stderr);
    va_end(arguments);
}

kl_status work_read(work *w, const char *path)
{
    w->path = strcmp(path, "-") == 0 ? "standard input" : path;
    w->diags = kl_diags_create();
    if (w->diags == NULL) {
        return KL_NO_MEMORY;
    }
    text_document document = {0};
    KL_TRY(text_parse(&w->sources, path, &w->memory, w->diags, &document));
    KL_TRY(bind_document(&document, w->diags, &w->model));
    return kl_model_check(w->model);
}

kl_status work_solve(work *w)
{
    KL_TRY(kl_analyze(w->model, NULL, w->diags, &w->results));
    KL_TRY(kl_run_checks(w->results, w->diags, &w->report));
    return kl_run_warnings(w->results, w->report, w->diags);
}

static void work_tell_one(work *w, const kl_diag *diag)
{
    const char *text = source_render(&w->sources, diag, &w->memory);
    if (text != NULL) {
        fputs(text, stderr);
    } else {
        work_complain("%s", diag->message);
    }
}

exit_status work_tell(work *w, kl_status status, bool with_warnings)
{
    const kl_index count = w->diags != NULL ? kl_diags_count(w->diags) : 0;
    for (kl_index i = 0; i < count; ++i) {
        const kl_diag *diag = kl_diags_get(w->diags, i);
        if (with_warnings || diag->severity != KL_WARNING) {
            work_tell_one(w, diag);
        }
    }
    if (w->diags != NULL && kl_diags_lost(w->diags)) {
        work_complain("memory is short: some messages are missing");
    }
    const bool is_told = w->diags != NULL && kl_diags_count_of(w->diags, KL_ERROR) > 0;
    if (status != KL_OK && (!is_told || status == KL_NO_MEMORY)) {
        work_complain("%s: %s", w->path, kl_status_text(status));
    }
    return exit_status_of(status);
}

void work_close(work *w)
{
    kl_check_report_destroy(w->report);
    kl_results_destroy(w->results);
    kl_model_destroy(w->model);
    kl_diags_destroy(w->diags);
    arena_free(&w->memory);
    source_free(&w->sources);
}
