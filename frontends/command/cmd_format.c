/* cmd_format.c - `kernline format`: the canonical layout, printed or written back.
 *
 * Included files are not touched.
 * SPDX-License-Identifier: MIT */
#include "commands.h"

#include <errno.h>
#include <string.h>

#include "format.h"
#include "replace_file.h"
#include "work.h"

static kl_status format_write(const char *path, const char *text)
{
    if (replace_file(path, text, strlen(text))) {
        return KL_OK;
    }
    work_complain("%s: cannot be written: %s", path, strerror(errno));
    return KL_FILE_TROUBLE;
}

static kl_status format_read(work *w, const char *path, int32_t *file, char **text)
{
    w->path = strcmp(path, "-") == 0 ? "standard input" : path;
    w->diags = kl_diags_create();
    if (w->diags == NULL) {
        return KL_NO_MEMORY;
    }
    KL_TRY(source_open(&w->sources, path, KL_NOWHERE, w->diags, file));
    return format_source(&w->sources, *file, &w->memory, w->diags, text);
}

static exit_status format_model(work *w, const options *o)
{
    const char *path = o->operands[0];
    int32_t file = -1;
    char *text = NULL;
    const kl_status status = format_read(w, path, &file, &text);
    const exit_status result = work_tell(w, status, true);
    if (status != KL_OK) {
        return result;
    }
    if (!o->given[OPTION_WRITE]) {
        fputs(text, stdout);
        return EXIT_ALL_WELL;
    }
    if (strcmp(source_at(&w->sources, file)->text, text) == 0) {
        return EXIT_ALL_WELL; /* nothing to do: the file keeps its date */
    }
    return exit_status_of(format_write(path, text));
}

exit_status cmd_format(const options *o)
{
    if (o->given[OPTION_WRITE] && strcmp(o->operands[0], "-") == 0) {
        work_complain("`--write` needs a file: standard input cannot be replaced");
        return EXIT_WRONG_USE;
    }
    work w = {0};
    const exit_status result = format_model(&w, o);
    work_close(&w);
    return result;
}
