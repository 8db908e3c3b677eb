/* fuzz_parse.c - any bytes: the reader ends, in bounds, with phrases or with messages.
 * SPDX-License-Identifier: MIT */
#include "try_text.h"

int fuzz_parse(const uint8_t *data, size_t size)
{
    try_text t = {0};
    if (try_parse(&t, data, size) == KL_OK) {
        try_law(t.document.phrase_count >= 0, "the count of phrases");
    }
    try_free(&t);
    return 0;
}

FUZZ_ENTRY(fuzz_parse)
