/* package_paper.h - the calculation package on paper: its sheets laid out on pages, each page a picture in SVG.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PACKAGE_PAPER_H
#define KERNLINE_PACKAGE_PAPER_H

#include "sheet.h"

typedef enum paper_format { PAPER_LETTER, PAPER_A4 } paper_format;

#define PAPER_PAGE_LIMIT 2000

/* What one table or listing may take; what is left out is said in its place. */
#define PAPER_ROW_LIMIT 20000

typedef struct paper_page {
    char *svg;
    const char *outline; /* "11 Moment, shear and axial force" where a sheet begins; else NULL */
} paper_page;

/* Start with {0}. */
typedef struct paper {
    paper_page *pages;
    kl_index count;
    arena memory; /* of the outline */
} paper;

/* Lay out a package that has no failure. The caller frees the paper in any case.
 * @return KL_NO_MEMORY; KL_TOO_LARGE beyond PAPER_PAGE_LIMIT pages; the package's status when it has one. */
kl_status package_paper(paper *out, const package *p, paper_format format);
void paper_free(paper *out);

#endif
