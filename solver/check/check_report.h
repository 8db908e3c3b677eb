/* check_report.h - the rows that checks and expectations leave behind.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CHECK_REPORT_H
#define KERNLINE_CHECK_REPORT_H

#include "arena.h"
#include "kernline/check.h"

/* More rows than this are refused (KL_TOO_LARGE). */
#define REPORT_ROWS 1000000u

struct kl_check_report {
    arena memory; /* all texts */
    kl_check_result *rows;
    size_t row_count, row_capacity;
    kl_expectation_result *expectations;
    size_t expectation_count, expectation_capacity;
    kl_index failed;
};

/* Add a row (copied). Counts it as failed where it has not passed. */
kl_status report_add_check(kl_check_report *report, const kl_check_result *row);
kl_status report_add_expectation(kl_check_report *report, const kl_expectation_result *row);

/* A row about nothing yet: no place, NAN numbers, not passed. */
kl_check_result report_blank_check(kl_index check);

#endif
