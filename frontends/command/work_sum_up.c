/* work_sum_up.c - see work_sum_up.h.
 * SPDX-License-Identifier: MIT */
#include "work_sum_up.h"

#include <string.h>

/* "model.kline:12:3", or "" for what is about no place. */
static const char *work_place(work *w, kl_origin origin)
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

/* Those of one name behind the `count` that are there. @return how many there are then. */
static kl_index
work_collect_of(work *w, const char *name, summary_message *messages, kl_index count)
{
    for (kl_index i = 0; i < kl_diags_count(w->diags); ++i) {
        const kl_diag *diag = kl_diags_get(w->diags, i);
        if (diag->severity == KL_WARNING && strcmp(diag->name, name) == 0) {
            messages[count++] = (summary_message){diag->name, work_place(w, diag->origin),
                                                  diag->message, diag->hint};
        }
    }
    return count;
}

/* In the order of danger, which is that of the names; of one name as they were found. */
static kl_index work_collect_warnings(work *w, summary_message *messages)
{
    size_t names = 0;
    const kl_warning_name *order = kl_warning_names(&names);
    kl_index count = 0;
    for (size_t i = 0; i < names; ++i) {
        count = work_collect_of(w, order[i].name, messages, count);
    }
    return count;
}

kl_status work_sum_up(work *w, summary_input *out)
{
    const size_t room = (size_t)kl_diags_count_of(w->diags, KL_WARNING);
    summary_message *messages = arena_array(&w->memory, room > 0 ? room : 1, sizeof *messages);
    if (messages == NULL) {
        return KL_NO_MEMORY;
    }
    *out = (summary_input){.file = w->path,
                           .results = w->results,
                           .report = w->report,
                           .warnings = messages,
                           .warning_count = work_collect_warnings(w, messages)};
    return KL_OK;
}
