/* convert.h - pictures in SVG as one PDF or PNG, by the program kernline-pages, which stands beside this one.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CONVERT_H
#define KERNLINE_CONVERT_H

#include <stddef.h>

#include "kernline/diag.h"
#include "kernline/status.h"

typedef enum convert_format { CONVERT_PDF, CONVERT_PNG } convert_format;

typedef struct convert_page {
    const char *svg;     /* a whole file with a size of its own */
    const char *outline; /* its name in the outline of a PDF, one line; NULL: it has none */
} convert_page;

/* @param title of the file, for those who list it (PDF).
 * @param pages a PNG holds the first.
 * @param out the bytes, the caller's: convert_free.
 * @return KL_NO_MEMORY; KL_FILE_TROUBLE when the other program is not there or fails: it has been told on standard error. */
kl_status convert_pages(convert_format format,
                        const char *title,
                        const convert_page *pages,
                        kl_index count,
                        char **out,
                        size_t *length);
void convert_free(char *bytes);

#endif
