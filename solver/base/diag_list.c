/* diag_list.c - the list of diagnostics (kernline/diag.h): texts and entries live in one arena.
 *
 * Entries never move, so what kl_diags_get lends stays valid while more are added. When memory is short an
 * entry keeps its severity in the counts and gets a stand-in text, or, if there is no room for the entry
 * itself, is only counted; both are told by kl_diags_lost.
 * SPDX-License-Identifier: MIT */
#include "kernline/diag.h"

#include "arena.h"
#include "mem.h"

/* A front end shows a few dozen; a list this long comes from a loop over a broken model. */
#define DIAG_LIST_LIMIT 100000
#define DIAG_SEVERITIES (KL_ERROR + 1)

static const char diag_lost_text[] = "(the text of this message was lost: out of memory)";

struct kl_diags {
    arena texts;
    kl_diag **entries; /* count */
    size_t capacity;
    kl_index count;
    kl_diag *last; /* the entry a hint belongs to; NULL when it was lost */
    kl_index count_of[DIAG_SEVERITIES];
    bool lost;
};

kl_diags *kl_diags_create(void)
{
    return mem_array(1, sizeof(kl_diags));
}

void kl_diags_destroy(kl_diags *diags)
{
    if (diags == NULL) {
        return;
    }
    arena_free(&diags->texts);
    mem_free(diags->entries);
    mem_free(diags);
}

static kl_diag *diag_new_entry(kl_diags *diags)
{
    void *entries = diags->entries;
    const kl_status status = mem_grow(&entries, &diags->capacity, (size_t)diags->count + 1,
                                      sizeof(kl_diag *), DIAG_LIST_LIMIT);
    diags->entries = entries;
    if (status != KL_OK) {
        return NULL;
    }
    kl_diag *entry = arena_array(&diags->texts, 1, sizeof(kl_diag));
    if (entry != NULL) {
        diags->entries[diags->count++] = entry;
    }
    return entry;
}

static kl_severity diag_known_severity(kl_severity severity)
{
    return (int)severity < 0 || severity > KL_ERROR ? KL_ERROR : severity;
}

void kl_diags_add(kl_diags *diags,
                  kl_severity severity,
                  const char *name,
                  kl_origin origin,
                  const char *format,
                  ...)
{
    if (diags == NULL) {
        return;
    }
    const kl_severity known = diag_known_severity(severity);
    if (diags->count_of[known] < INT32_MAX) {
        diags->count_of[known]++;
    }
    diags->last = diag_new_entry(diags);
    if (diags->last == NULL) {
        diags->lost = true;
        return;
    }
    va_list arguments;
    va_start(arguments, format);
    const char *message = arena_vprint(&diags->texts, format, arguments);
    va_end(arguments);
    diags->lost = diags->lost || message == NULL;
    *diags->last = (kl_diag){.severity = known,
                             .name = name,
                             .origin = origin,
                             .message = message != NULL ? message : diag_lost_text,
                             .hint = NULL};
}

void kl_diags_hint(kl_diags *diags, const char *format, ...)
{
    if (diags == NULL || diags->last == NULL) {
        return;
    }
    va_list arguments;
    va_start(arguments, format);
    diags->last->hint = arena_vprint(&diags->texts, format, arguments);
    va_end(arguments);
    diags->lost = diags->lost || diags->last->hint == NULL;
}

kl_index kl_diags_count(const kl_diags *diags)
{
    return diags != NULL ? diags->count : 0;
}

const kl_diag *kl_diags_get(const kl_diags *diags, kl_index i)
{
    return diags != NULL && i >= 0 && i < diags->count ? diags->entries[i] : NULL;
}

kl_index kl_diags_count_of(const kl_diags *diags, kl_severity severity)
{
    const bool known = diags != NULL && (int)severity >= 0 && severity <= KL_ERROR;
    return known ? diags->count_of[severity] : 0;
}

bool kl_diags_lost(const kl_diags *diags)
{
    return diags != NULL && diags->lost;
}
