/* cmd_report.c - `kernline report`: the calculation package, as one page or in a folder.
 * SPDX-License-Identifier: MIT */
#include "commands.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "asked.h"
#include "package_html.h"
#include "replace_file.h"
#include "work_sum_up.h"

#define REPORT_INDEX "index.html"

static bool report_ends_in(const char *path, const char *ending)
{
    const size_t length = strlen(path);
    const size_t tail = strlen(ending);
    return length > tail && strcmp(path + length - tail, ending) == 0;
}

/* The page's own path: the file named, or index.html in the folder named, which is made if it is not there.
 * @return NULL when there is no memory or no folder; then it has been told. */
static const char *report_path(work *w, const char *named)
{
    if (report_ends_in(named, ".html")) {
        return named;
    }
    struct stat there;
    const bool is_folder =
        stat(named, &there) == 0 ? S_ISDIR(there.st_mode) : mkdir(named, 0777) == 0;
    if (!is_folder) {
        work_complain("%s: is no folder and cannot be made one: name FILE.html or a folder", named);
        return NULL;
    }
    const char *path =
        arena_print(&w->memory, "%s%s" REPORT_INDEX, named, report_ends_in(named, "/") ? "" : "/");
    if (!path) {
        work_complain("%s: %s", named, kl_status_text(KL_NO_MEMORY));
    }
    return path;
}

static kl_status report_sources(work *w, package_input *input)
{
    package_source *sources = arena_array(&w->memory, w->sources.count, sizeof *sources);
    if (!sources) {
        return KL_NO_MEMORY;
    }
    for (size_t i = 0; i < w->sources.count; i++) {
        const text_source *file = source_at(&w->sources, (int32_t)i);
        sources[i] = (package_source){file->name, file->text, (size_t)file->length};
    }
    input->sources = sources;
    input->source_count = (kl_index)w->sources.count;
    return KL_OK;
}

/* @param bytes out: with malloc, the caller's also after a failure */
static kl_status
report_page(const package *p, const package_input *input, char **bytes, size_t *length)
{
    FILE *out = open_memstream(bytes, length);
    if (!out) {
        return KL_NO_MEMORY;
    }
    const kl_status status = package_write_html(p, input, out);
    const bool is_whole = fclose(out) == 0;
    return status == KL_FILE_TROUBLE || (status == KL_OK && !is_whole) ? KL_NO_MEMORY : status;
}

static kl_status report_write(work *w, const char *path)
{
    package_input input = {0};
    KL_TRY(work_sum_up(w, &input.summary));
    KL_TRY(report_sources(w, &input));
    package p;
    char *bytes = NULL;
    size_t length = 0;
    kl_status status = package_make(&p, &input);
    if (status == KL_OK) {
        status = report_page(&p, &input, &bytes, &length);
    }
    if (status == KL_OK && !replace_file(path, bytes, length)) {
        work_complain("%s: cannot be written: %s", path, strerror(errno));
        status = KL_FILE_TROUBLE;
    }
    free(bytes);
    package_free(&p);
    return status;
}

exit_status cmd_report(const options *o)
{
    if (!o->given[OPTION_OUTPUT]) {
        work_complain("where does the package go? -o FILE.html or -o FOLDER");
        return EXIT_WRONG_USE;
    }
    work w = {0};
    kl_status status = work_read(&w, o->operands[0]);
    if (status == KL_OK) {
        status = work_solve(&w, NULL);
    }
    exit_status result = work_tell(&w, status, status != KL_OK);
    if (status == KL_OK) {
        const char *path = report_path(&w, o->values[OPTION_OUTPUT]);
        result = asked_close(&w, path ? report_write(&w, path) : KL_FILE_TROUBLE);
    }
    work_close(&w);
    return result;
}
