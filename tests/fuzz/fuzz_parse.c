/* fuzz_parse.c - any bytes: the reader ends, in bounds, with phrases or with messages, of which there are not too many.
 * SPDX-License-Identifier: MIT */
#include "try_text.h"

#include "complain.h"

int fuzz_parse(const uint8_t *data, size_t size)
{
    try_text t = {0};
    if (try_parse(&t, data, size) == KL_OK) {
        try_law(t.document.phrase_count >= 0, "the count of phrases");
    }
    try_law(kl_diags_count_of(t.diags, KL_ERROR) <= COMPLAIN_ERRORS, "more errors than are told");
    try_free(&t);
    return 0;
}

FUZZ_ENTRY(fuzz_parse)
