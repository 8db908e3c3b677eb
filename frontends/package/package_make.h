/* package_make.h - the calculation package of a model that has been analysed, as sheets of blocks.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PACKAGE_MAKE_H
#define KERNLINE_PACKAGE_MAKE_H

#include "sheet.h"
#include "summary_parts.h"

#define PACKAGE_DIGEST_SIZE 65

typedef struct package_source {
    const char *name, *text; /* as named; its bytes, zero-terminated */
    size_t length;
} package_source;

typedef struct package_input {
    summary_input summary;
    const package_source *sources; /* the model's file, then those it includes */
    kl_index source_count;
    kl_results *history; /* of the same model with moments between its stages, or NULL */
} package_input;

/* Start and fill; what the model does not have is left out. The caller frees the package in any case. @return its status. */
kl_status package_make(package *p, const package_input *input);

/* SHA-256 of the bytes, as hexadecimal digits: what a file can be told apart by. */
void package_digest(char digest[PACKAGE_DIGEST_SIZE], const char *bytes, size_t length);

#endif
