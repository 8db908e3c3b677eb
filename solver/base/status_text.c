/* status_text.c - the texts of kernline/status.h.
 * SPDX-License-Identifier: MIT */
#include "kernline/status.h"

const char *kl_status_text(kl_status status)
{
#define STATUS_TEXT(name, text) [name] = text,
    static const char *const texts[KL_STATUS_COUNT] = {KL_STATUS_LIST(STATUS_TEXT)};
#undef STATUS_TEXT
    const int known = (int)status >= 0 && status < KL_STATUS_COUNT;
    return known ? texts[status] : "an unknown status";
}
