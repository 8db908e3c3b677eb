/* try_text.h - what the fuzz targets and the replay share: take any bytes on the way from text to results, and say
 * which law was broken.
 *
 * Every target is a function of some bytes; FUZZ_ENTRY makes it a libFuzzer target when it is built by `make fuzz`, and
 * leaves it a plain function for the replay in `make test`.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TRY_TEXT_H
#define KERNLINE_TRY_TEXT_H

#include <stdint.h>
#include <stdio.h>

#include "arena.h"
#include "kernline/check.h"
#include "phrase.h"
#include "source.h"

/* Start with {0}; try_free in any case. */
typedef struct try_text {
    text_sources sources;
    arena memory;
    kl_diags *diags;
    text_document document;
    kl_model *model;
    kl_results *results;
    kl_check_report *report;
} try_text;

/* Each step does the one before first; a failure must be told with a place (the law that all targets share). */
kl_status try_parse(try_text *t, const uint8_t *data, size_t size);
kl_status try_bind(try_text *t, const uint8_t *data, size_t size);
kl_status try_solve(try_text *t, const uint8_t *data, size_t size);
void try_free(try_text *t);

/* Summary, JSON and every table as CSV. */
void try_print(const try_text *t, FILE *out);

/* The laws that results keep: the audit passes and every number is finite. */
void try_results(const try_text *t);

/* The laws of results, and printed twice from the text on they are the same bytes. */
void try_twice(const uint8_t *data, size_t size);

/* The law named by the format does not hold: abort under libFuzzer, fail the test in the replay. */
void try_law(bool holds, const char *format, ...) KL_PRINTF(2, 3);

/* The targets. */
int fuzz_parse(const uint8_t *data, size_t size);
int fuzz_format(const uint8_t *data, size_t size);
int fuzz_bind(const uint8_t *data, size_t size);
int fuzz_solve(const uint8_t *data, size_t size);
int fuzz_staged(const uint8_t *data, size_t size);

#ifdef FUZZ_TARGET
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);
#define FUZZ_ENTRY(target)                                                                         \
    int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)                                   \
    {                                                                                              \
        return target(data, size);                                                                 \
    }
#else
#define FUZZ_ENTRY(target)
#endif

#endif
