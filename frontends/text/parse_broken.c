/* parse_broken.c - the names that phrases with mistakes would have declared.
 *
 * Such a phrase is left out of the document. Whoever resolves references must know its name all the same, or every
 * use of it would look like a mistake of its own.
 * SPDX-License-Identifier: MIT */
#include <string.h>

#include "mem.h"
#include "parse_value.h"

/* `let` is the parser's own: its name stands for a value that is known to be wrong. */
static void define_bad(parser *p, const text_name *name)
{
    const expression_value bad = {.bad = true};
    const kl_status status = expression_define(&p->lets, name->text, strlen(name->text), bad);
    if (status == KL_NO_MEMORY) {
        (void)parse_fail(p, status);
    }
}

static void keep(parser *p, const text_broken *broken)
{
    void *list = p->broken;
    const kl_status status =
        mem_grow(&list, &p->broken_capacity, p->broken_count + 1, sizeof *broken, PARSER_PHRASES);
    p->broken = list;
    if (status != KL_OK) {
        (void)parse_fail(p, status);
        return;
    }
    p->broken[p->broken_count++] = *broken;
}

void parse_note_broken(parser *p, const token *word)
{
    if (word->kind != TOKEN_WORD || p->failure != KL_OK) {
        return;
    }
    const grammar_row *row =
        grammar_find(IN_TOP, cursor_text(&p->cursor, word), token_length(word));
    p->is_cut = p->is_cut || (row != NULL && strcmp(row->word, "include") == 0);
    const token *t = word + 1; /* a word is never the last token: the end follows */
    if (t->kind != TOKEN_WORD) {
        return;
    }
    const text_broken broken = {
        .word = row != NULL ? row->word : NULL,
        .name = {.text = arena_text(p->memory, cursor_text(&p->cursor, t), token_length(t)),
                 .origin = cursor_origin(&p->cursor, t)}};
    if (broken.name.text == NULL) {
        (void)parse_fail(p, KL_NO_MEMORY);
    } else if (row != NULL && strcmp(row->word, "let") == 0) {
        define_bad(p, &broken.name);
    } else {
        keep(p, &broken);
    }
}

void parse_end_broken(parser *p, text_document *document)
{
    if (p->broken_count > 0 && p->failure == KL_OK) {
        document->broken = arena_copy(p->memory, p->broken, p->broken_count, sizeof *p->broken);
        document->broken_count = document->broken != NULL ? (kl_index)p->broken_count : 0;
        if (document->broken == NULL) {
            (void)parse_fail(p, KL_NO_MEMORY);
        }
    }
    mem_free(p->broken);
    p->broken = NULL;
}
