/* cmd_report.c - `kernline report`: the calculation package, as one page, in a folder with its tables beside it, or on paper.
 *
 * Every file is written beside the old one and then takes its place. In a folder the page comes last: when it is there, all is.
 * SPDX-License-Identifier: MIT */
#include "commands.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "asked.h"
#include "csv.h"
#include "law_name.h"
#include "package_html.h"
#include "progress.h"
#include "replace_file.h"
#include "report_paper.h"
#include "work_sum_up.h"

#define REPORT_PARTS 4

static bool report_ends_in(const char *path, const char *ending)
{
    const size_t length = strlen(path);
    const size_t tail = strlen(ending);
    return length > tail && strcmp(path + length - tail, ending) == 0;
}

static bool report_is_page(const char *path)
{
    return report_ends_in(path, ".html");
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

/* ---- files ----------------------------------------------------------------------------------------------- */

/* A file that is written in memory first. */
typedef struct report_file {
    FILE *out;
    char *bytes;
    size_t length;
} report_file;

static kl_status report_begin(report_file *file)
{
    *file = (report_file){0};
    file->out = open_memstream(&file->bytes, &file->length);
    return file->out ? KL_OK : KL_NO_MEMORY;
}

/* Put it in its place when all went well, and free it. The stream is memory: its failure is memory, too. */
static kl_status report_end(report_file *file, kl_status status, const char *path)
{
    const bool is_whole = fclose(file->out) == 0;
    if (status == KL_FILE_TROUBLE || (status == KL_OK && !is_whole)) {
        status = KL_NO_MEMORY;
    }
    if (status == KL_OK && !replace_file(path, file->bytes, file->length)) {
        work_complain("`-o`: %s: cannot be written: %s", path, strerror(errno));
        status = KL_FILE_TROUBLE;
    }
    free(file->bytes);
    return status;
}

static kl_status report_write_page(const package *p, const package_input *input, const char *path)
{
    report_file file;
    KL_TRY(report_begin(&file));
    return report_end(&file, package_write_html(p, input, file.out), path);
}

/* ---- a folder -------------------------------------------------------------------------------------------- */

static kl_status report_make_folder(const char *path)
{
    struct stat there;
    if (stat(path, &there) == 0 ? S_ISDIR(there.st_mode) : mkdir(path, 0777) == 0) {
        return KL_OK;
    }
    work_complain("`-o %s`: is no folder and none can be made there; or name FILE.html", path);
    return KL_FILE_TROUBLE;
}

/* How many tables of the name stand before a block on its sheet. */
static int report_alike(const sheet *s, const block *b)
{
    int alike = 0;
    for (const block *other = s->first; other != b; other = other->next) {
        alike += other->kind == BLOCK_TABLE && strcmp(other->table->name, b->table->name) == 0;
    }
    return alike;
}

/* "11_actions.csv", and "08_readings_2.csv" for the second of a name. */
static const char *report_table_path(work *w, const char *folder, const sheet *s, const block *b)
{
    const int alike = report_alike(s, b);
    return alike == 0 ? arena_print(&w->memory, "%s/%02d_%s.csv", folder, s->number, b->table->name)
                      : arena_print(&w->memory, "%s/%02d_%s_%d.csv", folder, s->number,
                                    b->table->name, alike + 1);
}

static kl_status report_write_tables(work *w, const package *p, const char *folder)
{
    for (kl_index i = 0; i < p->sheet_count; i++) {
        for (const block *b = p->sheets[i].first; b; b = b->next) {
            if (b->kind != BLOCK_TABLE) {
                continue;
            }
            const char *path = report_table_path(w, folder, &p->sheets[i], b);
            report_file file;
            KL_TRY(path ? report_begin(&file) : KL_NO_MEMORY);
            KL_TRY(report_end(&file, csv_write(b->table, file.out), path));
        }
    }
    return KL_OK;
}

static kl_status
report_write_folder(work *w, const package *p, const package_input *input, const char *folder)
{
    KL_TRY(report_make_folder(folder));
    KL_TRY(report_write_tables(w, p, folder));
    const char *index = arena_print(&w->memory, "%s/index.html", folder);
    return index ? report_write_page(p, input, index) : KL_NO_MEMORY;
}

/* Where time acts, an analysis that stops between the stages, for curves; tables stay with those of every other command, whose
 * last digits such stops would change. @param out NULL where nothing happens between stages */
static kl_status report_follow_time(work *w, kl_results **out)
{
    *out = NULL;
    if (kl_step_count(w->results) == 0 || !law_time_acts(w->model)) {
        return KL_OK;
    }
    kl_diags *heard = kl_diags_create(); /* the same as before */
    if (!heard) {
        return KL_NO_MEMORY;
    }
    kl_settings settings = kl_settings_default();
    settings.moments_per_decade = ASKED_MOMENTS;
    const kl_status status = kl_analyze(w->model, &settings, heard, out);
    kl_diags_destroy(heard);
    return status;
}

/* Is it plain what is meant to be there? A name with a point and another ending is a slip sooner than a folder. */
static bool report_has_name(const char *path)
{
    struct stat there;
    const char *slash = strrchr(path, '/');
    const char *name = slash ? slash + 1 : path;
    if (report_is_page(path) || report_is_paper(path) || !strchr(name, '.') ||
        (stat(path, &there) == 0 && S_ISDIR(there.st_mode))) {
        return true;
    }
    work_complain("`-o %s`: the name of the file must end in .html or .pdf; of a folder with a "
                  "point in its name, in /",
                  path);
    return false;
}

/* ---- the command ----------------------------------------------------------------------------------------- */

static kl_status report_write(work *w, progress *told, const options *o)
{
    const char *path = o->values[OPTION_OUTPUT];
    package_input input = {0};
    KL_TRY(work_sum_up(w, &input.summary));
    KL_TRY(report_sources(w, &input));
    progress_next(told, "following time between the stages");
    KL_TRY(report_follow_time(w, &input.history));
    package p;
    progress_next(told, "making the sheets");
    kl_status status = package_make(&p, &input);
    progress_next(told, "writing");
    if (status == KL_OK && report_is_paper(path)) {
        const paper_format format = report_paper_format(o, w->model->display.system);
        status = report_write_paper(&p, format, path);
    } else if (status == KL_OK) {
        status = report_is_page(path) ? report_write_page(&p, &input, path)
                                      : report_write_folder(w, &p, &input, path);
    }
    package_free(&p);
    kl_results_destroy(input.history);
    return status;
}

exit_status cmd_report(const options *o)
{
    if (!o->given[OPTION_OUTPUT]) {
        work_complain("where does the package go? -o FILE.html, -o FILE.pdf or -o FOLDER");
        return EXIT_WRONG_USE;
    }
    if (!report_paper_fits(o, o->values[OPTION_OUTPUT]) ||
        !report_has_name(o->values[OPTION_OUTPUT])) {
        return EXIT_WRONG_USE;
    }
    work w = {0};
    progress told;
    progress_start(&told, REPORT_PARTS, "analysing");
    kl_status status = work_read(&w, o->operands[0]);
    if (status == KL_OK) {
        status = work_solve(&w, NULL);
    }
    const bool is_solved = status == KL_OK;
    if (is_solved) {
        status = report_write(&w, &told, o);
    }
    progress_end(&told);
    exit_status result = work_tell(&w, is_solved ? KL_OK : status, !is_solved);
    if (is_solved) {
        result = asked_close(&w, status);
    }
    work_close(&w);
    return result;
}
