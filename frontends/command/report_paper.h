/* report_paper.h - the calculation package as a PDF.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_REPORT_PAPER_H
#define KERNLINE_REPORT_PAPER_H

#include "options.h"
#include "package_paper.h"

/* Is this the name of a PDF? */
bool report_is_paper(const char *path);

/* Does --paper, when it is given, name a paper and the report become a PDF? @return false: it has been told why not. */
bool report_paper_fits(const options *o, const char *path);

/* The paper that is asked for, else what goes with the model's units: Letter with US units, A4 with metric ones. */
paper_format report_paper_format(const options *o, kl_unit_system system);

/* @return as package_paper and convert_pages; KL_FILE_TROUBLE, which has been told, when `path` cannot be written. */
kl_status report_write_paper(const package *p, paper_format format, const char *path);

#endif
