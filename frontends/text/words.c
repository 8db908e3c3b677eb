/* words.c - see words.h. Everything comes from the grammar table and the unit table.
 * SPDX-License-Identifier: MIT */
#include "words.h"

#include <string.h>

#include "grammar.h"
#include "near_word.h"
#include "quantity.h"
#include "str.h"

enum {
    WORDS_FORM = 160,
    WORDS_COLUMN = 34 /* where the help begins */
};

static void put(char *text, size_t size, const char *more, size_t length)
{
    const size_t used = strlen(text);
    if (used + 1 < size) {
        snprintf(text + used, size - used, "%.*s", (int)length, more);
    }
}

static void put_text(char *text, size_t size, const char *more)
{
    put(text, size, more, strlen(more));
}

/* "aashto 2020 | none": choices that are not computed yet are left out. */
static void put_choices(char *text, size_t size, const char *choices)
{
    grammar_choice choice;
    bool first = true;
    for (size_t i = 0; grammar_choice_at(choices, i, &choice); i++) {
        if (choice.later) {
            continue;
        }
        put_text(text, size, first ? "" : " | ");
        put(text, size, choice.text, choice.length);
        first = false;
    }
}

static void put_measure(char *text, size_t size, kl_measure measure, bool many)
{
    char name[64] = "value";
    if (measure != GRAMMAR_ANY) {
        kl_dimension_name(kl_measure_dimension(measure), name, sizeof name);
    }
    put_text(text, size, "<");
    put_text(text, size, name);
    put_text(text, size, many ? ">, …" : ">");
}

static void put_value(char *text, size_t size, const grammar_value *value)
{
    if ((value->kinds & GRAMMAR_CHOICE) != 0) {
        put_choices(text, size, value->choices);
        put_text(text, size, (value->kinds & GRAMMAR_QUANTITY) != 0 ? " | " : "");
    }
    if ((value->kinds & (GRAMMAR_QUANTITY | GRAMMAR_QUANTITIES)) != 0) {
        put_measure(text, size, value->measure, (value->kinds & GRAMMAR_QUANTITIES) != 0);
    }
    if ((value->kinds & (GRAMMAR_NEW_NAME | GRAMMAR_NAME | GRAMMAR_NAMES)) != 0) {
        put_text(text, size, (value->kinds & GRAMMAR_NEW_NAME) != 0 ? "NAME" : value->of);
        put_text(text, size, (value->kinds & GRAMMAR_NAMES) != 0 ? " …" : "");
    }
    if ((value->kinds & (GRAMMAR_POINT | GRAMMAR_POINTS)) != 0) {
        put_text(text, size, "(x, y)");
        put_text(text, size, (value->kinds & GRAMMAR_POINTS) != 0 ? ", …" : " | ");
    }
    put_text(text, size, (value->kinds & GRAMMAR_STATION) != 0 ? "<station>" : "");
    put_text(text, size, (value->kinds & GRAMMAR_STRING) != 0 ? "\"text\"" : "");
    put_text(text, size, (value->kinds & GRAMMAR_INTEGER) != 0 ? "<whole number>" : "");
    put_text(text, size, (value->kinds & GRAMMAR_UNIT) != 0 ? "<unit>" : "");
}

/* "strength <stress>" */
static void form_of(const grammar_row *row, char *text, size_t size)
{
    snprintf(text, size, "%s", row->word);
    for (size_t i = 0; i < grammar_own_count(row); i++) {
        put_text(text, size, row->own[i].optional ? " [" : " ");
        put_value(text, size, &row->own[i]);
        put_text(text, size, row->own[i].optional ? "]" : "");
    }
}

/* Characters of UTF-8 text. */
static int count_characters(const char *text)
{
    int count = 0;
    for (; *text != '\0'; text++) {
        count += ((unsigned char)*text & 0xC0u) != 0x80u ? 1 : 0;
    }
    return count;
}

/* The form, and the help behind it or, when the form is long, on the next line. */
static void print_row(FILE *out, const grammar_row *row, int indent)
{
    char form[WORDS_FORM];
    form_of(row, form, sizeof form);
    const int width = count_characters(form);
    fprintf(out, "%*s%s", indent, "", form);
    if (width > WORDS_COLUMN - 2) {
        fprintf(out, "\n%*s", indent + WORDS_COLUMN, "");
    } else {
        fprintf(out, "%*s", WORDS_COLUMN - width, "");
    }
    const bool is_required = (row->flags & GRAMMAR_REQUIRED) != 0;
    const char *need = row->group != NULL ? " (one of these is required)" : " (required)";
    fprintf(out, "%s%s%s\n", row->help, is_required ? need : "",
            (row->flags & GRAMMAR_LATER) != 0 ? " (not computed yet)" : "");
}

void words_list(FILE *out)
{
    grammar_context context = IN_NOTHING;
    for (size_t i = 0; i < grammar_count(); i++) {
        const grammar_row *row = grammar_at(i);
        if (row->context != context) {
            context = row->context;
            fprintf(out, "%sIn %s:\n", i > 0 ? "\n" : "", grammar_context_name(context));
        }
        print_row(out, row, 4);
    }
}

/* ---- one word ---------------------------------------------------------------------------------------- */

static void print_traits(FILE *out, const grammar_row *row)
{
    if ((row->flags & GRAMMAR_REQUIRED) != 0) {
        fprintf(out, "    required%s\n",
                row->group != NULL ? ", or another word of its group" : "");
    }
    if ((row->flags & GRAMMAR_WHEN_USED) != 0) {
        fprintf(out, "    required when something uses it\n");
    }
    if ((row->flags & GRAMMAR_MANY) != 0) {
        fprintf(out, "    may stand many times\n");
    }
    if (row->otherwise != NULL) {
        fprintf(out, "    when not given: %s\n", row->otherwise);
    }
    if (row->range_unit != NULL) {
        fprintf(out, "    usual: %g to %g%s%s\n", row->low, row->high,
                row->range_unit[0] != '\0' ? " " : "", row->range_unit);
    }
    if ((row->flags & GRAMMAR_LATER) != 0) {
        fprintf(out, "    not computed yet; %s\n", row->later);
    }
}

static void print_group(FILE *out, const grammar_row *row)
{
    size_t count;
    const grammar_row *rows = row->group != NULL ? grammar_rows_of(row->context, &count) : NULL;
    bool first = true;
    for (size_t i = 0; rows != NULL && i < count; i++) {
        if (&rows[i] != row && rows[i].group != NULL && strcmp(rows[i].group, row->group) == 0) {
            fprintf(out, "%s%s", first ? "    not together with: " : ", ", rows[i].word);
            first = false;
        }
    }
    fprintf(out, "%s", first ? "" : "\n");
}

static void print_marks(FILE *out, const grammar_row *row)
{
    size_t count;
    const grammar_row *rows = grammar_rows_of(row->inner, &count);
    fprintf(out, "%s", count > 0 ? "    goes on with, on the line or in { }:\n" : "");
    for (size_t i = 0; i < count; i++) {
        print_row(out, &rows[i], 8);
    }
}

static bool explain_rows(FILE *out, const char *word)
{
    bool found = false;
    for (size_t i = 0; i < grammar_count(); i++) {
        const grammar_row *row = grammar_at(i);
        if (strcmp(row->word, word) != 0) {
            continue;
        }
        char form[WORDS_FORM];
        form_of(row, form, sizeof form);
        fprintf(out, "%s%s   (in %s)\n    %s\n    example: %s\n", found ? "\n" : "", form,
                grammar_context_name(row->context), row->help, row->example);
        print_traits(out, row);
        print_group(out, row);
        print_marks(out, row);
        found = true;
    }
    return found;
}

bool words_explain(FILE *out, const char *word, const char **near)
{
    const kl_unit *unit = kl_unit_find(word, strlen(word));
    bool found = explain_rows(out, word);
    if (unit != NULL) {
        fprintf(out, "%s%s   (a unit)\n    %s\n", found ? "\n" : "", unit->word, unit->help);
        found = true;
    }
    if (near != NULL) {
        *near = found ? NULL : near_word_anywhere(word, strlen(word));
    }
    return found;
}

void words_units(FILE *out)
{
    size_t count;
    const kl_unit *units = kl_unit_table(&count);
    for (size_t i = 0; i < count; i++) {
        char name[64];
        kl_dimension_name(units[i].dimension, name, sizeof name);
        fprintf(out, "    %-8s %-18s %s\n", units[i].word, name, units[i].help);
    }
    fprintf(out, "\nUnits join without spaces: kip/ft, kN/m^2, lb/ft^3, kip-ft/rad; `0.0002 per "
                 "ft`; `12 ft 6 in`.\n");
}

void words_warnings(FILE *out, const kl_warning_name *warnings, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        fprintf(out, "    %-28s %s\n", warnings[i].name, warnings[i].help);
    }
}
