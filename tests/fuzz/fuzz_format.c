/* fuzz_format.c - what the formatter lays out is settled after one pass, and it lays out whatever the parser accepts: the same
 * phrases.
 * SPDX-License-Identifier: MIT */
#include "try_text.h"

#include <string.h>

#include "format.h"

static bool same_number(double a, double b)
{
    return memcmp(&a, &b, sizeof a) == 0;
}

static bool same_quantity(const text_quantity *a, const text_quantity *b)
{
    return same_number(a->value, b->value) && kl_dimension_equal(a->dimension, b->dimension) &&
           a->square == b->square && a->level == b->level && a->percent == b->percent;
}

static bool same_station(const text_station *a, const text_station *b)
{
    if (a->base != b->base) {
        return false;
    }
    return a->base == STATION_NODE ? strcmp(a->node.text, b->node.text) == 0
                                   : same_quantity(&a->quantity, &b->quantity);
}

/* What value number i of a list says. */
static bool same_item(const text_value *a, const text_value *b, kl_index i)
{
    if (a->names != NULL && strcmp(a->names[i].text, b->names[i].text) != 0) {
        return false;
    }
    if (a->points != NULL && (!same_quantity(&a->points[i].x, &b->points[i].x) ||
                              !same_quantity(&a->points[i].y, &b->points[i].y))) {
        return false;
    }
    return a->quantities == NULL || same_quantity(&a->quantities[i], &b->quantities[i]);
}

static bool same_value(const text_value *a, const text_value *b)
{
    bool same = a->kind == b->kind && a->count == b->count && a->year == b->year &&
                a->integer == b->integer && (a->names == NULL) == (b->names == NULL) &&
                (a->points == NULL) == (b->points == NULL) &&
                (a->quantities == NULL) == (b->quantities == NULL) &&
                (a->station == NULL) == (b->station == NULL) &&
                (a->string == NULL) == (b->string == NULL);
    for (kl_index i = 0; same && i < a->count; ++i) {
        same = same_item(a, b, i);
    }
    return same && (a->string == NULL || strcmp(a->string, b->string) == 0) &&
           (a->station == NULL || same_station(a->station, b->station));
}

static bool same_phrases(const phrase *a, const phrase *b, kl_index count)
{
    for (kl_index i = 0; i < count; ++i) {
        bool same = strcmp(a[i].word, b[i].word) == 0 && a[i].slot_count == b[i].slot_count &&
                    a[i].child_count == b[i].child_count;
        for (kl_index k = 0; same && k < a[i].slot_count; ++k) {
            same = strcmp(a[i].slots[k].mark, b[i].slots[k].mark) == 0 &&
                   same_value(&a[i].slots[k].value, &b[i].slots[k].value);
        }
        if (!same || !same_phrases(a[i].children, b[i].children, a[i].child_count)) {
            return false;
        }
    }
    return true;
}

/* NULL when the formatter refuses the text. */
static const char *lay_out(try_text *t, const char *text, size_t length)
{
    int32_t file;
    char *laid_out = NULL;
    kl_diags *diags = kl_diags_create();
    if (source_add(&t->sources, "fuzz.kline", text, length, diags, &file) == KL_OK) {
        (void)format_source(&t->sources, file, &t->memory, diags, &laid_out);
    }
    kl_diags_destroy(diags);
    return laid_out;
}

static void check_same_model(const try_text *first, const char *laid_out)
{
    try_text second = {0};
    const kl_status status = try_parse(&second, (const uint8_t *)laid_out, strlen(laid_out));
    try_law(status == KL_OK, "the laid out text is not read: %s", kl_status_text(status));
    try_law(first->document.phrase_count == second.document.phrase_count &&
                same_phrases(first->document.phrases, second.document.phrases,
                             first->document.phrase_count),
            "the laid out text says something else:\n%s", laid_out);
    try_free(&second);
}

int fuzz_format(const uint8_t *data, size_t size)
{
    try_text t = {0};
    const kl_status read = try_parse(&t, data, size);
    const char *once = lay_out(&t, (const char *)data, size);
    if (once != NULL) {
        const char *twice = lay_out(&t, once, strlen(once));
        try_law(twice != NULL && strcmp(once, twice) == 0, "laying out twice differs:\n%s", once);
    }
    try_law(once != NULL || read != KL_OK, "a text that was read cannot be laid out");
    if (read == KL_OK) {
        check_same_model(&t, once);
    }
    try_free(&t);
    return 0;
}

FUZZ_ENTRY(fuzz_format)
