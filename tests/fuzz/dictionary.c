/* dictionary.c - the words of the language and its units, one a line, as libFuzzer reads them.
 * SPDX-License-Identifier: MIT */
#include <stdio.h>

#include "grammar.h"

static void put_choices(const char *choices)
{
    grammar_choice choice;
    for (size_t i = 0; choices != NULL && grammar_choice_at(choices, i, &choice); ++i) {
        printf("\" %.*s \"\n", (int)choice.length, choice.text);
    }
}

int main(void)
{
    for (size_t i = 0; i < grammar_count(); ++i) {
        const grammar_row *row = grammar_at(i);
        printf("\" %s \"\n", row->word);
        for (size_t k = 0; k < grammar_own_count(row); ++k) {
            put_choices(row->own[k].choices);
        }
    }
    size_t count = 0;
    const kl_unit *units = kl_unit_table(&count);
    for (size_t i = 0; i < count; ++i) {
        printf("\" %s\"\n", units[i].word);
    }
    for (const char *mark = "{}(),;=+-*/^#"; *mark != '\0'; ++mark) {
        printf("\" %c \"\n", *mark);
    }
    return 0;
}
