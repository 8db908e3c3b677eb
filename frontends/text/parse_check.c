/* parse_check.c - checks of a phrase against its rows: once, one of a group, required, usual range, not computed yet.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "complain.h"
#include "near_word.h"
#include "parse_value.h"
#include "str.h"
#include "unit_text.h"

/* Where in the draft a row of `word` stands already. */
static const kl_origin *find_word(const parser *p, const parse_draft *draft, const char *word)
{
    const text_slot *slots = parse_slots(p, draft);
    const phrase *children = parse_children(p, draft);
    for (size_t i = 0; i < draft->slot_count; i++) {
        if (str_same(slots[i].mark, word)) {
            return &slots[i].value.origin;
        }
    }
    for (size_t i = draft->child_count; i > 0; i--) {
        if (str_same(children[i - 1].word, word)) {
            return &children[i - 1].word_origin;
        }
    }
    return NULL;
}

static bool has_word(const parser *p, const parse_draft *draft, const char *word)
{
    return find_word(p, draft, word) != NULL;
}

const char *parse_title(parser *p, const parse_draft *draft)
{
    const char *name = "";
    const text_slot *slots = parse_slots(p, draft);
    if (draft->slot_count > 0 && slots[0].mark[0] == '\0') {
        const text_value *own = &slots[0].value;
        const bool has_name = own->kind == VALUE_NAME || own->kind == VALUE_NAMES;
        name = has_name ? own->names[0].text : "";
    }
    const char *title =
        arena_print(p->memory, "%s%s%s", draft->row->word, name[0] != '\0' ? " " : "", name);
    if (title == NULL) {
        parse_fail(p, KL_NO_MEMORY);
        return draft->row->word;
    }
    return title;
}

bool parse_check_once(parser *p, const parse_draft *draft, const grammar_row *row, kl_origin origin)
{
    if ((row->flags & GRAMMAR_MANY) == 0) {
        const kl_origin *before = find_word(p, draft, row->word);
        if (before != NULL) {
            const text_source *source = source_at(p->sources, before->file);
            const int32_t line = source != NULL ? source_find(source, before->begin).line : 0;
            const char *last =
                draft->slot_count > 0 ? parse_slots(p, draft)[draft->slot_count - 1].mark : "";
            complain(p->diags, "given-twice", origin,
                     near_word_advice(last, row->word, strlen(row->word)),
                     "`%s` stands on line %d already.", row->word, (int)line);
            return false;
        }
    }
    const grammar_row *rows = p->grammar.rows[row->context].first;
    const size_t count = row->group != NULL ? p->grammar.rows[row->context].count : 0;
    for (size_t i = 0; i < count; i++) {
        const bool is_rival =
            &rows[i] != row && rows[i].group != NULL && str_same(rows[i].group, row->group);
        if (is_rival && has_word(p, draft, rows[i].word)) {
            complain(p->diags, "one-of-group", origin, "leave one of them out",
                     "`%s` and `%s` cannot stand together.", rows[i].word, row->word);
            return false;
        }
    }
    return true;
}

/* ---- required ---------------------------------------------------------------------------------------- */

static bool group_is_met(const parser *p,
                         const parse_draft *draft,
                         const grammar_row *rows,
                         size_t count,
                         const grammar_row *row)
{
    for (size_t i = 0; i < count; i++) {
        const bool is_ours = &rows[i] == row || (row->group != NULL && rows[i].group != NULL &&
                                                 str_same(rows[i].group, row->group));
        if (is_ours && has_word(p, draft, rows[i].word)) {
            return true;
        }
    }
    return false;
}

/* "`strands` or `bars`" */
static void
list_group(const grammar_row *rows, size_t count, const grammar_row *row, char *text, size_t size)
{
    size_t used = (size_t)snprintf(text, size, "`%s`", row->word);
    for (size_t i = 0; i < count && row->group != NULL; i++) {
        const bool is_other =
            &rows[i] != row && rows[i].group != NULL && str_same(rows[i].group, row->group);
        if (is_other && used < size) {
            used += (size_t)snprintf(text + used, size - used, " or `%s`", rows[i].word);
        }
    }
}

static bool check_required(parser *p, const parse_draft *draft)
{
    const grammar_row *rows = p->grammar.rows[draft->row->inner].first;
    const size_t count = p->grammar.rows[draft->row->inner].count;
    const bool takes_over = has_word(p, draft, "like");
    for (size_t i = 0; i < count && !takes_over; i++) {
        if ((rows[i].flags & GRAMMAR_REQUIRED) == 0 ||
            group_is_met(p, draft, rows, count, &rows[i])) {
            continue;
        }
        char wanted[300];
        char hint[300];
        list_group(rows, count, &rows[i], wanted, sizeof wanted);
        snprintf(hint, sizeof hint, "%s: `%s`", rows[i].help, rows[i].example);
        complain(p->diags, "missing-word", draft->origin, hint, "`%s` needs %s.",
                 parse_title(p, draft), wanted);
        return false;
    }
    return true;
}

/* ---- range ------------------------------------------------------------------------------------------- */

void parse_check_range(parser *p, const grammar_row *row, const text_value *value)
{
    kl_unit unit = {.factor = 1.0};
    if (row->range_unit == NULL ||
        !unit_text_read(row->range_unit, strlen(row->range_unit), &unit)) {
        return;
    }
    double number = NAN;
    if (value->kind == VALUE_QUANTITY) {
        number = value->quantities[0].value / unit.factor;
    } else if (value->kind == VALUE_INTEGER) {
        number = (double)value->integer;
    }
    if ((row->flags & GRAMMAR_SIGNED) != 0) {
        number = fabs(number);
    }
    const double slack =
        1e-9 * row->high; /* a bound itself is inside, whatever unit it was written in */
    if (number < row->low - slack || number > row->high + slack) {
        const char *gap = row->range_unit[0] != '\0' ? " " : "";
        complain_warn(p->diags, "unusual-value", value->origin, NULL,
                      "`%s` is %.4g%s%s here; usual are %.4g to %.4g%s%s.", row->word, number, gap,
                      row->range_unit, row->low, row->high, gap, row->range_unit);
    }
}

/* The row's own number; inline marks were looked at when they were read. */
static void check_ranges(parser *p, const parse_draft *draft)
{
    for (size_t i = 0; i < draft->slot_count; i++) {
        const text_slot *slot = &parse_slots(p, draft)[i];
        if (slot->mark[0] == '\0') {
            parse_check_range(p, draft->row, &slot->value);
        }
    }
}

bool parse_check_whole(parser *p, const parse_draft *draft)
{
    const grammar_row *row = draft->row;
    if (draft->broken || !check_required(p, draft)) {
        return false;
    }
    if ((row->flags & GRAMMAR_BLOCK) != 0 && draft->child_count == 0 &&
        draft->slot_count == grammar_own_count(row)) {
        char hint[300];
        snprintf(hint, sizeof hint, "for example `%s`", row->example);
        complain(p->diags, "nothing-inside", draft->origin, hint, "`%s` says nothing.",
                 parse_title(p, draft));
        return false;
    }
    check_ranges(p, draft);
    if ((row->flags & GRAMMAR_LATER) != 0) {
        complain(p->diags, "not-computed-yet", draft->origin, row->later,
                 "`%s` is not computed yet.", parse_title(p, draft));
        return false;
    }
    for (size_t i = 0; i < draft->slot_count;
         i++) { /* a mark of its own that is not computed yet */
        const text_slot *slot = &parse_slots(p, draft)[i];
        const char *mark = slot->mark;
        const grammar_row *inner =
            mark[0] != '\0' ? grammar_index_find(&p->grammar, row->inner, mark, strlen(mark))
                            : NULL;
        if (inner != NULL && (inner->flags & GRAMMAR_LATER) != 0) {
            complain(p->diags, "not-computed-yet", slot->value.origin, inner->later,
                     "`%s` of `%s` is not computed yet.", mark, row->word);
            return false;
        }
    }
    return true;
}
