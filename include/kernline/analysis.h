/* analysis.h - from a model to results.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_ANALYSIS_H
#define KERNLINE_ANALYSIS_H

#include "kernline/model.h"

typedef struct kl_results kl_results; /* solver/stage/result_store.h */

/* How the analysis may be told to behave; start from kl_settings_default. Only tests need another
 * start. */
typedef enum kl_contact_start {
    KL_CONTACT_FROM_STATE, /* the contacts as they stand before the step */
    KL_CONTACT_ALL_OPEN,
    KL_CONTACT_ALL_CLOSED,
    KL_CONTACT_SEEDED /* a set drawn from `seed`: the answer must not depend on it */
} kl_contact_start;

typedef struct kl_settings {
    kl_contact_start contact_start;
    uint64_t seed;
    bool
        tendons_as_loads; /* apply prestress as equivalent loads instead of section actions (a second opinion) */
    int threads; /* for frames of many thousand nodes; 1 is the default and all that others take. It changes no result. */
    int steps_per_decade; /* of time since the last stage; 0: the default */
    /* Moments between stages to stop at and record (kl_moment_count): at these times, s since day 0, in any order, and
     * so many to each decade of days since the last stage, for curves (0: none). Those outside the stages are ignored. */
    const double *moments;
    kl_index moment_count;
    int moments_per_decade;
    /* What nobody knows well, as factors of what the model gives; 1 is the default. What hangs on them is seen by analysing
     * again. Not a number, negative, or 0 for a modulus: KL_MISUSE. */
    double creep_factor, shrinkage_factor; /* of phi and of the strain by the laws */
    double friction_factor, wobble_factor; /* of mu and of K, all tendons */
    double modulus_factor; /* of E and G of all concrete, at every age; creep is phi of that E */
    double tendon_modulus_factor; /* of E of prestressing steel */
} kl_settings;

kl_settings kl_settings_default(void);

/* Keep the dense linear algebra library to one thread, so that results are the same bit for bit from run to
 * run. It changes that library for the whole process: call it once, at program start. */
void kl_use_one_thread(void);

/* All that kl_analyze looks at before it solves: the profiles of tendons and their forces, where elements end, what
 * posts stand on, and whether the ducts leave enough of the sections. The model must have passed kl_model_check. Errors and warnings are appended to `diags`.
 * @return as kl_analyze. */
kl_status kl_validate(const kl_model *model, kl_diags *diags);

/* Analyse a checked model (kl_model_check must have passed): every stage step by step, or, without stages,
 * every load case by itself. Errors and warnings are appended to `diags`.
 *
 * @param settings NULL: the defaults.
 * @param out receives results that the caller destroys; NULL on failure.
 * @return KL_OK; KL_BAD_MODEL (an operation that cannot be, with a diagnostic), KL_MECHANISM, KL_NO_CONTACT,
 * KL_NO_MEMORY, KL_TOO_LARGE, KL_NUMERIC; KL_MISUSE (settings).
 *
 * The results borrow the model, which must outlive them. With factors other than 1 they are of a copy that they own. */
kl_status
kl_analyze(const kl_model *model, const kl_settings *settings, kl_diags *diags, kl_results **out);
void kl_results_destroy(kl_results *results); /* NULL is allowed */

#endif
