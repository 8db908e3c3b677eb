/* complain.h - errors and warnings of the reader, with a limit so that one slip does not fill the screen.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_COMPLAIN_H
#define KERNLINE_COMPLAIN_H

#include "kernline/diag.h"

/* Errors told in one run; a note then says that reading stops. */
#define COMPLAIN_ERRORS 20
/* Values outside their usual range told in one run. */
#define COMPLAIN_WARNINGS 50

/* Add an error with a suggestion (hint NULL or "": none). */
void complain(
    kl_diags *diags, const char *name, kl_origin origin, const char *hint, const char *format, ...)
    KL_PRINTF(5, 6);

void complain_warn(
    kl_diags *diags, const char *name, kl_origin origin, const char *hint, const char *format, ...)
    KL_PRINTF(5, 6);

/* Has the limit been reached? Then there is no use in reading on. */
bool complain_is_full(const kl_diags *diags);

#endif
