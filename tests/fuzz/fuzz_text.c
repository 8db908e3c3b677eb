/* fuzz_text.c - any bytes through reader and writer: no crash, messages can be shown, and what the writer gives is
 * stable and still the same model.
 * SPDX-License-Identifier: MIT */
#include <stdlib.h>
#include <string.h>

#include "complain.h"
#include "format.h"
#include "parser.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

typedef struct reading {
    text_sources sources;
    arena memory;
    kl_diags *diags;
    text_document document;
    kl_status status;
} reading;

static void demand(int holds)
{
    if (!holds) {
        abort();
    }
}

static void read_text(reading *r, const char *text, size_t length)
{
    *r = (reading){.diags = kl_diags_create()};
    r->status =
        text_parse_text(&r->sources, "fuzz", text, length, &r->memory, r->diags, &r->document);
    for (kl_index i = 0; i < kl_diags_count(r->diags); i++) {
        demand(source_render(&r->sources, kl_diags_get(r->diags, i), &r->memory) != NULL);
    }
    demand(kl_diags_count_of(r->diags, KL_ERROR) <= COMPLAIN_ERRORS);
    demand((r->status == KL_OK) == (kl_diags_count_of(r->diags, KL_ERROR) == 0));
}

static void end_reading(reading *r)
{
    kl_diags_destroy(r->diags);
    arena_free(&r->memory);
    source_free(&r->sources);
}

/* The text laid out, or NULL. */
static char *lay_out(reading *r, const char *text, size_t length)
{
    int32_t file;
    char *out = NULL;
    kl_diags *diags = kl_diags_create();
    if (source_add(&r->sources, "fuzz", text, length, diags, &file) == KL_OK) {
        format_source(&r->sources, file, &r->memory, diags, &out);
    }
    kl_diags_destroy(diags);
    return out;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    reading before;
    const char *text = (const char *)data;
    read_text(&before, text, size);
    const char *once = lay_out(&before, text, size);
    if (once != NULL) {
        const char *twice = lay_out(&before, once, strlen(once));
        demand(twice != NULL && strcmp(once, twice) == 0);
    }
    if (before.status == KL_OK) {
        reading after;
        demand(once != NULL);
        read_text(&after, once, strlen(once));
        demand(after.status == KL_OK &&
               after.document.phrase_count == before.document.phrase_count);
        end_reading(&after);
    }
    end_reading(&before);
    return 0;
}
