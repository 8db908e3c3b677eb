/* text_case.h - read a model given as text, and look at what it draws: for tests of the text front end.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TEXT_CASE_H
#define KERNLINE_TEXT_CASE_H

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "parser.h"

typedef struct text_case {
    text_sources sources;
    arena memory;
    kl_diags *diags;
    text_document document;
    kl_status status;
} text_case;

static inline void text_case_read(text_case *c, const char *text)
{
    *c = (text_case){.diags = kl_diags_create()};
    c->status = text_parse_text(&c->sources, "model", text, strlen(text), &c->memory, c->diags,
                                &c->document);
}

static inline void text_case_free(text_case *c)
{
    kl_diags_destroy(c->diags);
    arena_free(&c->memory);
    source_free(&c->sources);
}

/* The first diagnostic of that name, or NULL. */
static inline const kl_diag *text_case_find(const text_case *c, const char *name)
{
    for (kl_index i = 0; i < kl_diags_count(c->diags); i++) {
        if (strcmp(kl_diags_get(c->diags, i)->name, name) == 0) {
            return kl_diags_get(c->diags, i);
        }
    }
    return NULL;
}

/* What was told, for a failing test. */
static inline void text_case_print(text_case *c)
{
    for (kl_index i = 0; i < kl_diags_count(c->diags); i++) {
        const char *text = source_render(&c->sources, kl_diags_get(c->diags, i), &c->memory);
        printf("%s", text != NULL ? text : "(out of memory)\n");
    }
}

/* All of a file with a zero behind it, to be freed; NULL when it cannot be read. */
static inline char *text_case_load(const char *path, size_t *length)
{
    *length = 0;
    FILE *stream = fopen(path, "rb");
    if (stream == NULL) {
        return NULL;
    }
    char *text = calloc(1, 1 << 20);
    *length = text != NULL ? fread(text, 1, (1 << 20) - 1, stream) : 0;
    fclose(stream);
    return text;
}

#endif
