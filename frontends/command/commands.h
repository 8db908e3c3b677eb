/* commands.h - the subcommands, one file each. Each answers with the exit status; results are on standard output,
 * whose failure main finds when it flushes.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_COMMANDS_H
#define KERNLINE_COMMANDS_H

#include "exit_status.h"
#include "options.h"
#include "table.h"

exit_status cmd_run(const options *o);
exit_status cmd_table(const options *o);
exit_status cmd_plot(const options *o);
exit_status cmd_report(const options *o);
exit_status cmd_sensitivity(const options *o);
exit_status cmd_validate(const options *o);
exit_status cmd_words(const options *o);
exit_status cmd_format(const options *o);

/* A table to standard output, in the form that the options ask for. */
kl_status command_write_table(const table *t, const options *o);

#endif
