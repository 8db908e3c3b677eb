/* complain.c - see complain.h.
 * SPDX-License-Identifier: MIT */
#include "complain.h"

#include <stdio.h>

/* Longer sentences are cut: names and texts of the model are quoted in them. */
enum { COMPLAIN_BYTES = 600 };

static void complain_add(kl_diags *diags,
                         kl_severity severity,
                         const char *name,
                         kl_origin origin,
                         const char *hint,
                         const char *format,
                         va_list arguments) KL_PRINTF(6, 0);

static void complain_add(kl_diags *diags,
                         kl_severity severity,
                         const char *name,
                         kl_origin origin,
                         const char *hint,
                         const char *format,
                         va_list arguments)
{
    char message[COMPLAIN_BYTES];
    vsnprintf(message, sizeof message, format, arguments);
    kl_diags_add(diags, severity, name, origin, "%s", message);
    if (hint != NULL && hint[0] != '\0') {
        kl_diags_hint(diags, "%s", hint);
    }
}

void complain(
    kl_diags *diags, const char *name, kl_origin origin, const char *hint, const char *format, ...)
{
    if (diags == NULL) {
        return;
    }
    if (complain_is_full(diags)) {
        return;
    }
    va_list arguments;
    va_start(arguments, format);
    complain_add(diags, KL_ERROR, name, origin, hint, format, arguments);
    va_end(arguments);
    if (complain_is_full(diags)) {
        kl_diags_add(diags, KL_NOTE, "too-many-errors", origin, "Reading stops after %d errors.",
                     COMPLAIN_ERRORS);
    }
}

void complain_warn(
    kl_diags *diags, const char *name, kl_origin origin, const char *hint, const char *format, ...)
{
    if (diags == NULL || kl_diags_count_of(diags, KL_WARNING) >= COMPLAIN_WARNINGS) {
        return;
    }
    va_list arguments;
    va_start(arguments, format);
    complain_add(diags, KL_WARNING, name, origin, hint, format, arguments);
    va_end(arguments);
}

bool complain_is_full(const kl_diags *diags)
{
    return diags != NULL && kl_diags_count_of(diags, KL_ERROR) >= COMPLAIN_ERRORS;
}
