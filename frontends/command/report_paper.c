/* report_paper.c - see report_paper.h.
 * SPDX-License-Identifier: MIT */
#include "report_paper.h"

#include <errno.h>
#include <string.h>

#include "choose.h"
#include "convert.h"
#include "mem.h"
#include "replace_file.h"
#include "work.h"

#define REPORT_PAPERS 2

static const char *const report_papers[REPORT_PAPERS] = {"letter", "a4"}; /* ORDER paper_format */

/* The paper of that name; REPORT_PAPERS: none. */
static int report_paper_find(const char *name)
{
    int i = 0;
    while (i < REPORT_PAPERS && strcmp(name, report_papers[i]) != 0) {
        i++;
    }
    return i;
}

bool report_is_paper(const char *path)
{
    const size_t length = strlen(path);
    return length > 4 && strcmp(path + length - 4, ".pdf") == 0;
}

bool report_paper_fits(const options *o, const char *path)
{
    if (!o->given[OPTION_PAPER]) {
        return true;
    }
    const char *name = o->values[OPTION_PAPER];
    if (report_paper_find(name) == REPORT_PAPERS) {
        choose_refuse(o, OPTION_PAPER, "letter or a4 is expected");
        return false;
    }
    if (!report_is_paper(path)) {
        choose_refuse(o, OPTION_PAPER, "only a report that becomes a PDF has paper: -o FILE.pdf");
        return false;
    }
    return true;
}

paper_format report_paper_format(const options *o, kl_unit_system system)
{
    if (o->given[OPTION_PAPER]) {
        return (paper_format)report_paper_find(o->values[OPTION_PAPER]);
    }
    return system == KL_UNITS_US ? PAPER_LETTER : PAPER_A4;
}

static kl_status report_convert(const package *p, const paper *laid, const char *path)
{
    convert_page *pages = mem_array((size_t)laid->count, sizeof *pages);
    if (!pages) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < laid->count; i++) {
        pages[i] = (convert_page){laid->pages[i].svg, laid->pages[i].outline};
    }
    char *bytes;
    size_t length;
    kl_status status = convert_pages(CONVERT_PDF, p->title, pages, laid->count, &bytes, &length);
    if (status == KL_OK && !replace_file(path, bytes, length)) {
        work_complain("`-o`: %s: cannot be written: %s", path, strerror(errno));
        status = KL_FILE_TROUBLE;
    }
    convert_free(bytes);
    mem_free(pages);
    return status;
}

kl_status report_write_paper(const package *p, paper_format format, const char *path)
{
    paper laid = {0};
    kl_status status = package_paper(&laid, p, format);
    if (status == KL_OK) {
        status = report_convert(p, &laid, path);
    } else if (status == KL_TOO_LARGE) {
        work_complain("more than %d pages: as a page, -o FILE.html, or a folder it can be made",
                      PAPER_PAGE_LIMIT);
    }
    paper_free(&laid);
    return status;
}
