/* commit.h - an increment that has been solved becomes part of the state.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_COMMIT_H
#define KERNLINE_COMMIT_H

#include "run.h"

/* Add the responses of all pending columns to their causes; contacts, gaps and tendons move on; the pending list is
 * empty again.
 * @param own the operation's own column, which gaps that closed are charged to. */
kl_status commit_increment(analysis_run *run, const contact_list *list, const pending_column *own);

#endif
