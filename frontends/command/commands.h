/* commands.h - the subcommands, one file each. Each answers with the exit status; results are on standard output,
 * whose failure main finds when it flushes.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_COMMANDS_H
#define KERNLINE_COMMANDS_H

#include "exit_status.h"
#include "options.h"

exit_status cmd_run(const options *o);
exit_status cmd_table(const options *o);
exit_status cmd_plot(const options *o);
exit_status cmd_validate(const options *o);
exit_status cmd_words(const options *o);
exit_status cmd_format(const options *o);

#endif
