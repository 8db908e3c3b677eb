/* cmd_run.c - `kernline run`: analyse and print the summary.
 *
 * The warnings stand in the summary, so that they are not told twice; when there is no summary they go to standard
 * error with the errors.
 * SPDX-License-Identifier: MIT */
#include "commands.h"

#include "mem.h"
#include "summary.h"
#include "work.h"

/* "model.kline:12:3", or "" for what is about no place. */
static const char *run_place(work *w, kl_origin origin)
{
    const text_source *source = source_at(&w->sources, origin.file);
    if (source == NULL) {
        return "";
    }
    const source_place place = source_find(source, origin.begin);
    const char *text =
        arena_print(&w->memory, "%s:%d:%d", source->name, (int)place.line, (int)place.column);
    return text != NULL ? text : "";
}

static kl_index run_collect_warnings(work *w, summary_message *messages)
{
    kl_index count = 0;
    for (kl_index i = 0; i < kl_diags_count(w->diags); ++i) {
        const kl_diag *diag = kl_diags_get(w->diags, i);
        if (diag->severity == KL_WARNING) {
            messages[count++] = (summary_message){diag->name, run_place(w, diag->origin),
                                                  diag->message, diag->hint};
        }
    }
    return count;
}

static kl_status run_print(work *w, bool as_json)
{
    const size_t room = (size_t)kl_diags_count_of(w->diags, KL_WARNING);
    summary_message *messages = mem_array(room, sizeof *messages);
    if (messages == NULL) {
        return KL_NO_MEMORY;
    }
    const summary_input input = {.file = w->path,
                                 .results = w->results,
                                 .report = w->report,
                                 .warnings = messages,
                                 .warning_count = run_collect_warnings(w, messages)};
    const kl_status status =
        as_json ? summary_write_json(&input, stdout) : summary_write(&input, stdout);
    mem_free(messages);
    return status;
}

exit_status cmd_run(const options *o)
{
    work w = {0};
    kl_status status = work_read(&w, o->operands[0]);
    if (status == KL_OK) {
        status = work_solve(&w, NULL);
    }
    bool is_summed_up = false;
    if (status == KL_OK) {
        status = run_print(&w, o->given[OPTION_JSON]);
        is_summed_up = true;
    }
    /* Output that cannot be written is told once, by main. */
    const bool is_for_main = is_summed_up && status == KL_FILE_TROUBLE;
    exit_status result = work_tell(&w, is_for_main ? KL_OK : status, !is_summed_up);
    if (is_for_main) {
        result = EXIT_FILE_TROUBLE;
    } else if (status == KL_OK && kl_failed_count(w.report) > 0) {
        result = EXIT_CHECK_FAILS;
    }
    work_close(&w);
    return result;
}
