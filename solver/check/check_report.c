/* check_report.c - run every check and expectation of a model and keep the rows.
 * SPDX-License-Identifier: MIT */
#include "check_report.h"

#include <math.h>

#include "expect.h"
#include "mem.h"
#include "stress.h"
#include "tendon_stress.h"

kl_check_result report_blank_check(kl_index check)
{
    const double unknown = (double)NAN;
    return (kl_check_result){.check = check,
                             .state = kl_state_step(KL_NONE),
                             .member = KL_NONE,
                             .tendon = KL_NONE,
                             .station = unknown,
                             .side = KL_RIGHT,
                             .face = KL_FACE_BOTH,
                             .limit_name = "",
                             .demand = unknown,
                             .limit = unknown,
                             .ratio = unknown,
                             .strength = unknown,
                             .strength_age = unknown,
                             .strength_name = "",
                             .formula = "",
                             .numbers = "",
                             .rule = ""};
}

kl_status report_add_check(kl_check_report *report, const kl_check_result *row)
{
    void *rows = report->rows;
    KL_TRY(mem_grow(&rows, &report->row_capacity, report->row_count + 1, sizeof *row, REPORT_ROWS));
    report->rows = rows;
    report->rows[report->row_count++] = *row;
    report->failed += row->passed ? 0 : 1;
    return KL_OK;
}

kl_status report_add_expectation(kl_check_report *report, const kl_expectation_result *row)
{
    void *rows = report->expectations;
    KL_TRY(mem_grow(&rows, &report->expectation_capacity, report->expectation_count + 1,
                    sizeof *row, REPORT_ROWS));
    report->expectations = rows;
    report->expectations[report->expectation_count++] = *row;
    report->failed += row->passed ? 0 : 1;
    return KL_OK;
}

static kl_status report_fill(kl_results *results, kl_diags *diags, kl_check_report *report)
{
    const kl_model *model = kl_results_model(results);
    for (kl_index i = 0; i < model->check_count; i++) {
        KL_TRY(stress_check(results, i, diags, report));
        KL_TRY(tendon_stress_check(results, i, diags, report));
    }
    for (kl_index i = 0; i < model->expectation_count; i++) {
        kl_expectation_result row;
        KL_TRY(expect_evaluate(results, i, &report->memory, &row));
        KL_TRY(report_add_expectation(report, &row));
    }
    return KL_OK;
}

kl_status kl_run_checks(kl_results *results, kl_diags *diags, kl_check_report **out)
{
    *out = NULL;
    kl_check_report *report = mem_array(1, sizeof *report);
    if (report == NULL) {
        return KL_NO_MEMORY;
    }
    const kl_status status = report_fill(results, diags, report);
    if (status != KL_OK) {
        kl_check_report_destroy(report);
        return status;
    }
    *out = report;
    return KL_OK;
}

void kl_check_report_destroy(kl_check_report *report)
{
    if (report == NULL) {
        return;
    }
    mem_free(report->rows);
    mem_free(report->expectations);
    arena_free(&report->memory);
    mem_free(report);
}

kl_index kl_check_result_count(const kl_check_report *report)
{
    return (kl_index)report->row_count;
}

const kl_check_result *kl_check_result_at(const kl_check_report *report, kl_index i)
{
    return i >= 0 && (size_t)i < report->row_count ? &report->rows[i] : NULL;
}

kl_index kl_expectation_result_count(const kl_check_report *report)
{
    return (kl_index)report->expectation_count;
}

const kl_expectation_result *kl_expectation_result_at(const kl_check_report *report, kl_index i)
{
    return i >= 0 && (size_t)i < report->expectation_count ? &report->expectations[i] : NULL;
}

kl_index kl_failed_count(const kl_check_report *report)
{
    return report->failed;
}
