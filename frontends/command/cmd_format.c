/* cmd_format.c - `kernline format`: the canonical layout, printed or written back.
 *
 * A file is replaced by renaming a complete new one over it: whatever happens, either the old or the new text is
 * there. Included files are not touched.
 * SPDX-License-Identifier: MIT */
#define _XOPEN_SOURCE 700 /* realpath */

#include "commands.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "format.h"
#include "work.h"

/* Write all of `text` to an open file and make sure that it arrived. */
static bool format_fill(int file, const char *text)
{
    size_t left = strlen(text);
    while (left > 0) {
        const ssize_t written = write(file, text, left);
        if (written < 0 && errno != EINTR) {
            return false;
        }
        if (written > 0) {
            text += written;
            left -= (size_t)written;
        }
    }
    return fsync(file) == 0;
}

/* The new file beside the old one, with its permissions, then in its place. */
static bool format_replace(const char *path, char *scratch, const char *text)
{
    struct stat old;
    if (stat(path, &old) != 0) {
        return false;
    }
    const int file = mkstemp(scratch);
    if (file < 0) {
        return false;
    }
    const bool is_filled = format_fill(file, text) && fchmod(file, old.st_mode & 07777) == 0;
    const int failure = errno;
    if (close(file) != 0 || !is_filled || rename(scratch, path) != 0) {
        errno = is_filled ? errno : failure;
        const int kept = errno;
        unlink(scratch);
        errno = kept;
        return false;
    }
    return true;
}

static kl_status format_write(work *w, const char *path, const char *text)
{
    /* A link stays a link: its target is replaced. */
    char *target = realpath(path, NULL);
    char *scratch = target != NULL ? arena_print(&w->memory, "%s.XXXXXX", target) : NULL;
    const bool done = scratch != NULL && format_replace(target, scratch, text);
    if (!done) {
        work_complain("%s: cannot be written: %s", path, strerror(errno));
    }
    free(target);
    return done ? KL_OK : KL_FILE_TROUBLE;
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
    return exit_status_of(format_write(w, path, text));
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
