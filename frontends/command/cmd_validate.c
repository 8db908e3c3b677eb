/* cmd_validate.c - `kernline validate`: read and check a model without solving it.
 * SPDX-License-Identifier: MIT */
#include "commands.h"

#include "table_text.h"
#include "work.h"

exit_status cmd_validate(const options *o)
{
    work w = {0};
    kl_status status = work_read(&w, o->operands[0]);
    if (status == KL_OK) {
        status = kl_validate(w.model, w.diags);
    }
    const exit_status result = work_tell(&w, status, true);
    if (status == KL_OK) {
        const kl_index warnings = kl_diags_count_of(w.diags, KL_WARNING);
        text_write(stdout, w.path);
        if (warnings == 0) {
            puts(": no errors, no warnings");
        } else {
            printf(": no errors, %d %s\n", (int)warnings, warnings == 1 ? "warning" : "warnings");
        }
    }
    work_close(&w);
    return result;
}
