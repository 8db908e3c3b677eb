/* cmd_run.c - `kernline run`: analyse and print the summary.
 *
 * The warnings stand in the summary, so that they are not told twice; when there is no summary they go to standard
 * error with the errors.
 * SPDX-License-Identifier: MIT */
#include "commands.h"

#include "work_sum_up.h"

static kl_status run_print(work *w, bool as_json)
{
    summary_input input;
    KL_TRY(work_sum_up(w, &input));
    return as_json ? summary_write_json(&input, stdout) : summary_write(&input, stdout);
}

exit_status cmd_run(const options *o)
{
    work w = {0};
    kl_status status = work_read(&w, o->operands[0]);
    if (status == KL_OK) {
        status = work_solve(&w, NULL);
    }
    bool is_summed_up = false;
    if (status == KL_OK) {
        status = run_print(&w, o->given[OPTION_JSON]);
        is_summed_up = true;
    }
    /* Output that cannot be written is told once, by main. */
    const bool is_for_main = is_summed_up && status == KL_FILE_TROUBLE;
    exit_status result = work_tell(&w, is_for_main ? KL_OK : status, !is_summed_up);
    if (is_for_main) {
        result = EXIT_FILE_TROUBLE;
    } else if (status == KL_OK && kl_failed_count(w.report) > 0) {
        result = EXIT_CHECK_FAILS;
    }
    work_close(&w);
    return result;
}
