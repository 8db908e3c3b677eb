/* work.c - from a path to results, with the messages on the way.
 * SPDX-License-Identifier: MIT */
#include "work.h"

#include <stdio.h>
#include <string.h>

#include "bind.h"
#include "parser.h"
#include "table_text.h"

#define WORK_TEXT 8192 /* of one message; a path has 4096 bytes at most */

void work_complain(const char *format, ...)
{
    char text[WORK_TEXT];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    fputs("kernline: ", stderr);
    text_write(stderr, text);
    fputc('\n', stderr);
}

kl_status work_read(work *w, const char *path)
{
    w->path = strcmp(path, "-") == 0 ? "standard input" : path;
    w->diags = kl_diags_create();
    if (w->diags == NULL) {
        return KL_NO_MEMORY;
    }
    text_document document = {0};
    const kl_status read = text_parse(&w->sources, path, &w->memory, w->diags, &document);
    const kl_status bound = bind_after(read, &document, w->diags, &w->model);
    arena_free(&w->memory); /* the phrases: the model has copies of what they say */
    KL_TRY(bound);
    return kl_model_check(w->model);
}

kl_status work_solve(work *w, const kl_settings *settings)
{
    KL_TRY(kl_analyze(w->model, settings, w->diags, &w->results));
    KL_TRY(kl_run_checks(w->results, w->diags, &w->report));
    return kl_run_warnings(w->results, w->report, w->diags);
}

static void work_tell_one(work *w, const kl_diag *diag)
{
    const char *text = source_render(&w->sources, diag, &w->memory);
    if (text != NULL) {
        text_write_lines(stderr, text);
    } else {
        work_complain("%s", diag->message);
    }
}

/* So many messages at most are put in the order of the text; there are more of them in no sound run. */
enum { WORK_ORDERED = 200 };

/* Does the message at `a` stand behind the one at `b` in the text? Messages without a place come last. */
static bool work_is_behind(const kl_diag *a, const kl_diag *b)
{
    if (a->origin.file < 0 || b->origin.file < 0 || a->origin.file != b->origin.file) {
        return a->origin.file < 0 ? b->origin.file >= 0
                                  : b->origin.file >= 0 && a->origin.file > b->origin.file;
    }
    return a->origin.begin > b->origin.begin;
}

/* The order of the text for errors and warnings, each with the notes that follow it. @return how many. */
static kl_index work_order(const kl_diags *diags, kl_index order[WORK_ORDERED])
{
    const kl_index count = kl_diags_count(diags);
    kl_index heads = 0;
    for (kl_index i = 0; i < count && heads < WORK_ORDERED; ++i) {
        const kl_diag *diag = kl_diags_get(diags, i);
        if (diag->severity == KL_NOTE && i > 0) {
            continue;
        }
        kl_index at = heads++;
        for (; at > 0 && work_is_behind(kl_diags_get(diags, order[at - 1]), diag); --at) {
            order[at] = order[at - 1];
        }
        order[at] = i;
    }
    return heads;
}

static void work_tell_all(work *w, bool with_warnings)
{
    kl_index order[WORK_ORDERED];
    const kl_index heads = work_order(w->diags, order);
    const kl_index count = kl_diags_count(w->diags);
    for (kl_index i = 0; i < heads; ++i) {
        const kl_diag *diag = kl_diags_get(w->diags, order[i]);
        if (!with_warnings && diag->severity == KL_WARNING) {
            continue;
        }
        kl_index next = order[i];
        do {
            work_tell_one(w, kl_diags_get(w->diags, next++));
        } while (next < count && kl_diags_get(w->diags, next)->severity == KL_NOTE);
    }
}

exit_status work_tell(work *w, kl_status status, bool with_warnings)
{
    if (w->diags != NULL) {
        work_tell_all(w, with_warnings);
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
