/* operations.h - one function a stage operation: what each does to the structure and its loads.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_OPERATIONS_H
#define KERNLINE_OPERATIONS_H

#include "run.h"

/* Carry out an operation; of a list of tendons only `item` (the i-th). The state has moved on when it returns KL_OK.
 * @return KL_BAD_MODEL with a diagnostic when the operation cannot be (a member that stands already, …). */
kl_status operation_apply(analysis_run *run, const kl_operation *op, kl_index item);

/* How many steps an operation is: each tendon of a list is one. */
kl_index operation_steps(const kl_operation *op);

/* The operation in the words of the language, for labels: "stress T1". Arena text. */
const char *operation_label(const kl_model *model, const kl_operation *op, kl_index item, arena *a);

/* Parts in their own files (operations_tendon.c, operations_build.c, operations_remove.c, operations_change.c). */
kl_status operation_erect(analysis_run *run, const kl_operation *op);
kl_status operation_cast(analysis_run *run, const kl_operation *op);
kl_status operation_place(analysis_run *run, const kl_operation *op);
kl_status operation_release(analysis_run *run, const kl_operation *op);
kl_status operation_remove(analysis_run *run, const kl_operation *op);
kl_status operation_stress(analysis_run *run, const kl_operation *op, kl_index tendon);
kl_status operation_slacken(analysis_run *run, kl_index tendon);
kl_status operation_grout(analysis_run *run, kl_index tendon);
kl_status operation_lose(analysis_run *run, kl_index tendon, const kl_operation *op);
kl_status operation_support(analysis_run *run, const kl_operation *op);
kl_status operation_free(analysis_run *run, const kl_operation *op);
kl_status operation_unlock(analysis_run *run, const kl_operation *op);
kl_status operation_lock(analysis_run *run, const kl_operation *op);

/* Put factor times a case on: loads of each kind go to their causes. Tendon loads of models without stages too. */
kl_status operation_load_case(analysis_run *run, kl_index load_case, double factor);
/* Take off what is on of a case: loads that went with their member or node are not there any more. */
kl_status operation_unload_case(analysis_run *run, kl_index load_case);

/* Action of a change of a tendon's force (N in the group at its trace points), as section actions or, when the settings
 * say so, as loads; the change is also kept under the cause. */
kl_status operation_tendon_change(analysis_run *run,
                                  kl_index tendon,
                                  const double *change,
                                  kl_cause_kind kind,
                                  kl_index load_case);

/* What a stressing is, for operation_record. */
typedef struct stressing_pull {
    kl_index tendon;
    double share;    /* of the jacking force */
    bool was_seated; /* it carried force before */
    double shortening;
    kl_index load_case; /* KL_NONE: a stage's */
} stressing_pull;

/* Keep what a stressing did: in the list of pulls, where further cases of a model without stages have nothing new, and as
 * the tendon's own unless it was stressed further before. */
kl_status operation_record(analysis_run *run,
                           const stressing_pull *pull,
                           const force_record *r,
                           const force_curve *before,
                           const force_curve *after);

/* All members stand at once, as models without stages want it. */
void operation_stand_all(analysis_run *run);

#endif
