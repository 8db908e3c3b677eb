/* check.h - limits and expectations held against results.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CHECK_H
#define KERNLINE_CHECK_H

#include "kernline/results.h"

typedef struct kl_check_report kl_check_report; /* solver/check/check_report.h */

/* One limit held at its worst place and step; one row for every (check, limit, member or tendon, face). */
typedef struct kl_check_result {
    kl_index check;
    kl_state state;          /* the step, case or combination that governs */
    kl_index member, tendon; /* one of them */
    double station;
    kl_side side;
    kl_face face; /* KL_FACE_BOTH for tendons */
    const char
        *limit_name; /* "compression", "tension", "at the jack", "at the anchor after seating" … */
    double demand;   /* Pa, signed as a stress (tension +) */
    double limit;    /* Pa, signed likewise */
    double ratio;    /* demand / limit: <= 1 passes; for a limit of 0: INFINITY or 0 */
    bool passed;
    double strength;           /* Pa the limit is taken from; NAN for the user's own limits */
    double strength_age;       /* s; NAN */
    const char *strength_name; /* "f'ci", "f'c", "fck(t)", "fpu" … */
    const char *formula;       /* "0.65 f'ci" */
    const char *numbers;       /* "0.65 x 4.8 ksi = 3.12 ksi", in the model's display units */
    const char *rule;          /* "AASHTO LRFD 2020, 5.9.2.3.1a" or "given in the model" */
    bool from_memory;          /* the rule's value was not checked against the printed text */
    bool ends_stage_well;      /* at the stage's end the same place passes (a failure on the way) */
    kl_index column_face;      /* 1: governs at a column's face */
} kl_check_result;

typedef struct kl_expectation_result {
    kl_index expectation;
    bool known;   /* false: the place does not exist at that time; then it fails */
    double value; /* computed */
    double difference;
    kl_state state; /* the step that governs (max, min) */
    bool passed;
} kl_expectation_result;

/* Evaluate every check and expectation of the model. Warnings (a stress that passes at the end of a stage but
 * not on the way, …) go to diags. @return KL_OK even when something fails: see the counts. */
kl_status kl_run_checks(kl_results *results, kl_diags *diags, kl_check_report **out);
void kl_check_report_destroy(kl_check_report *report);

kl_index kl_check_result_count(const kl_check_report *report);
const kl_check_result *kl_check_result_at(const kl_check_report *report, kl_index i);
kl_index kl_expectation_result_count(const kl_check_report *report);
const kl_expectation_result *kl_expectation_result_at(const kl_check_report *report, kl_index i);
kl_index kl_failed_count(const kl_check_report *report); /* checks and expectations that fail */

/* Tell what nobody asked but an engineer would want to know: rows above their rated load, where stressing sends the
 * load, falsework that stays, supports that pull, sections beyond cracking … A warning goes to diags once, at its
 * worst place. Call it once; kl_run_checks has already told "passes-only-at-stage-end".
 * @param report may be NULL. @return KL_OK, KL_NO_MEMORY. */
kl_status kl_run_warnings(kl_results *results, const kl_check_report *report, kl_diags *diags);

/* Every warning that comes without being asked, by its stable name, those of the model check, the tendons and the
 * checks included; static. They stand in the order in which they are to be told: first what may give way, then what makes
 * results doubtful, last what is merely worth a look. */
typedef struct kl_warning_name {
    const char *name; /* as in kl_diag */
    const char *help; /* one line */
} kl_warning_name;
const kl_warning_name *kl_warning_names(size_t *count);

#endif
