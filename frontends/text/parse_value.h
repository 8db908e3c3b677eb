/* parse_value.h - what the parser keeps while it reads, and the reading of one value of each kind.
 * Private to parser.c and parse_*.c.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PARSE_VALUE_H
#define KERNLINE_PARSE_VALUE_H

#include "cursor.h"
#include "expression.h"
#include "grammar.h"
#include "parser.h"

/* A block that is being read, for messages and for the search for a missing `}`. */
typedef struct parse_block {
    const struct parse_block *outer;
    grammar_context context;
    const char *title; /* "section deck" */
    kl_origin origin;
    int32_t line;
    int depth; /* 0: top level */
} parse_block;

/* Slots and children of all phrases that are being read, the innermost phrase's last; see parse_draft. */
typedef struct parse_stack {
    void *items;
    size_t count, capacity;
} parse_stack;

typedef struct parser {
    text_sources *sources;
    arena *memory;
    kl_diags *diags;
    text_cursor cursor;
    expression_lets lets;
    grammar_index grammar;
    parse_stack slots, children; /* of text_slot, of phrase */
    void *list;                  /* room for the list that is being read … */
    size_t list_bytes;           /* … and how much */
    bool has_skew;
    double skew;
    const parse_block *block;
    int unwind; /* depth at which reading goes on after a missing `}`; -1: none is missing */
    size_t phrases;
    bool lost;           /* a phrase was left out: then the model has errors, whatever was told */
    bool is_cut;         /* … and phrases may be missing of which nothing is known */
    text_broken *broken; /* of those that were left out; on the heap */
    size_t broken_count, broken_capacity;
    kl_status failure; /* KL_NO_MEMORY ends everything */
} parser;

/* Out of memory: remember it. Always false, so that callers can return it. */
bool parse_fail(parser *p, kl_status status);

/* Read one value of a row. Words of the context `stop` end a list of names. @return false after a mistake (told). */
bool parse_value(parser *p,
                 const grammar_row *row,
                 const grammar_value *spec,
                 grammar_context stop,
                 text_value *out);

/* Does an optional value begin at the next token? */
bool parse_value_begins(const parser *p, const grammar_value *spec);

/* ---- shared by parse_value.c and parse_quantity.c ------------------------------------------------------ */

kl_origin parse_here(const parser *p); /* of the next token */
bool parse_name(parser *p,
                const grammar_row *row,
                const grammar_value *spec,
                text_name *name); /* of a thing */

/* A list that grows in the parser's room until its length is known; one at a time. */
typedef struct parse_list {
    size_t count, size; /* size: of one item */
} parse_list;

bool parse_list_add(parser *p, parse_list *l, const void *item);
/* Move the list to the arena. NULL when not ok, or out of memory. */
const void *parse_list_end(parser *p, const parse_list *l, bool ok);

bool parse_quantity(parser *p, const grammar_row *row, const grammar_value *spec, text_value *out);
bool parse_quantities(parser *p,
                      const grammar_row *row,
                      const grammar_value *spec,
                      text_value *out);
bool parse_points(parser *p, const grammar_row *row, const grammar_value *spec, text_value *out);
bool parse_station(parser *p, const grammar_row *row, text_value *out);
bool parse_is_point(const parser *p); /* `(a, b)` comes next, not `(a + b)` */
/* Tell that the quantity has another dimension than the measure; always false. */
bool parse_tell_dimension(parser *p,
                          const grammar_row *row,
                          kl_measure measure,
                          const text_quantity *q);

/* ---- a whole phrase (parse_draft.c, parse_check.c) --------------------------------------------------------- */

/* What has been read of a phrase so far: the upper ends of the parser's stacks. A phrase inside is closed before
 * anything is added to the one around it. */
typedef struct parse_draft {
    const grammar_row *row; /* NULL: the document */
    size_t first_slot, slot_count;
    size_t first_child, child_count;
    kl_origin origin;
    bool broken; /* a mistake in it was told: what is missing is not */
} parse_draft;

bool parse_add_slot(parser *p, parse_draft *draft, const char *mark, const text_value *value);
bool parse_add_child(parser *p, parse_draft *draft, const phrase *child);
const text_slot *parse_slots(const parser *p, const parse_draft *draft);
const phrase *parse_children(const parser *p, const parse_draft *draft);

parse_draft parse_open_draft(const parser *p, const grammar_row *row, kl_origin origin);
/* Move what was read to the arena. */
bool parse_end_draft(parser *p, const parse_draft *draft, phrase *out);
void parse_close_draft(parser *p, const parse_draft *draft);

/* May `row` stand (again) in the draft? Once, and one of its group. */
bool parse_check_once(parser *p,
                      const parse_draft *draft,
                      const grammar_row *row,
                      kl_origin origin);
/* Warn when the row's number is outside its usual range. */
void parse_check_range(parser *p, const grammar_row *row, const text_value *value);
/* Is everything there that must be, and inside its usual range, and computed yet? */
bool parse_check_whole(parser *p, const parse_draft *draft);
/* Names for messages: "`member cap`". */
const char *parse_title(parser *p, const parse_draft *draft);

/* ---- phrases that are left out (parse_broken.c) -------------------------------------------------------- */

/* A top-level phrase that begins with this token has a mistake: remember what it would have declared. */
void parse_note_broken(parser *p, const token *word);
/* Move what was remembered to the document; frees it in every case. */
void parse_end_broken(parser *p, text_document *document);

/* ---- messages about words (parse_message.c) ----------------------------------------------------------- */

/* A word that the context does not have; may find that a `}` is missing and set unwind. */
void parse_tell_unknown_word(parser *p, grammar_context context);
/* Something on a phrase's line that is no mark of it. */
void parse_tell_unexpected(parser *p, const grammar_row *row);
/* `6,5 ksi`: a number was taken, and a comma with another number right behind it comes next. Tells that a decimal point is
 * wanted. @return false: it is not so, and nothing is told. */
bool parse_tell_decimal_comma(parser *p);
/* `=` where a value belongs; always false. */
bool parse_tell_equals(parser *p);
/* The next word stands where the unit of a number would, in a phrase or mark of this name. */
void parse_tell_unknown_unit(parser *p, const char *word);
/* The choices of a list: "`a`, `b` or `c`". */
void parse_list_choices(const char *choices, char *text, size_t size);

#endif
