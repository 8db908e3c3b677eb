/* sample_model.h - a model from text, analysed and checked: what tests of the front ends start from.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SAMPLE_MODEL_H
#define KERNLINE_SAMPLE_MODEL_H

#include "kernline/check.h"
#include "source.h"

typedef struct sample_model {
    text_sources sources;
    arena memory;
    kl_diags *diags;
    kl_model *model;
    kl_results *results;
    kl_check_report *report;
} sample_model;

/* Two columns, a cap on posts, two tendons stressed in two stages, a check, an expectation. */
extern const char SAMPLE_CAP[];
/* A portal frame with two load cases and a combination. */
extern const char SAMPLE_PORTAL[];

/* Read and solve; prints the messages and fails the test when it is not KL_OK. Free with sample_model_free. */
void sample_model_solve(sample_model *s, const char *text);
void sample_model_free(sample_model *s);

/* Set-up and tear-down of a group of tests: *state is an array of two, the cap and the portal. */
int sample_models_solve(void **state);
int sample_models_free(void **state);

#endif
