/* diag.h - what the library tells about the model: errors, warnings, notes, each with the place it is about.
 *
 * The library never prints. It appends to a list the caller owns; the front end renders the list. An origin
 * is a span of input text: the library keeps it with every entity, hands it back, and never looks inside.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_DIAG_H
#define KERNLINE_DIAG_H

#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>

#include "kernline/status.h"

typedef int32_t kl_index; /* nodes, members, rows, …; -1 (KL_NONE) means none */
#define KL_NONE ((kl_index)-1)

#if defined(__GNUC__)
#define KL_PRINTF(format_at, first_at) __attribute__((format(printf, format_at, first_at)))
#else
#define KL_PRINTF(format_at, first_at)
#endif

/* Bytes begin … end-1 of the front end's file number `file`; file -1: no place. */
typedef struct kl_origin {
    int32_t file;
    int32_t begin;
    int32_t end;
} kl_origin;

#define KL_NOWHERE ((kl_origin){-1, 0, 0})

typedef enum kl_severity { KL_NOTE, KL_WARNING, KL_ERROR } kl_severity;

typedef struct kl_diag {
    kl_severity severity;
    const char *name;    /* stable: "row-overloaded", "unknown-word"; static text */
    kl_origin origin;    /* what it is about */
    const char *message; /* one or two sentences in the trade's words, no trailing newline */
    const char *hint;    /* one suggestion ("did you mean `width`?"), or NULL */
} kl_diag;

typedef struct kl_diags kl_diags; /* solver/base/diag_list.c */

/* Make an empty list. @return NULL when out of memory. */
kl_diags *kl_diags_create(void);
/* Free the list and all its texts; NULL is allowed. */
void kl_diags_destroy(kl_diags *diags);

/* Append. `name` must be static text; the message is formatted and copied. When memory is short the entry is
 * counted but its text may be lost; kl_diags_lost tells. `diags` may be NULL: nothing is kept. */
void kl_diags_add(kl_diags *diags,
                  kl_severity severity,
                  const char *name,
                  kl_origin origin,
                  const char *format,
                  ...) KL_PRINTF(5, 6);
/* Add one suggestion to the entry added last. */
void kl_diags_hint(kl_diags *diags, const char *format, ...) KL_PRINTF(2, 3);

kl_index kl_diags_count(const kl_diags *diags);
const kl_diag *kl_diags_get(const kl_diags *diags,
                            kl_index i); /* borrowed; in the order they were added */
kl_index kl_diags_count_of(const kl_diags *diags, kl_severity severity);
bool kl_diags_lost(const kl_diags *diags);

#endif
