/* bind_context.h - what the parts of the binder share: declared names, references, lists, stations, messages.
 *
 * The binder goes through the document kind by kind, so that whatever a phrase may refer to is in the model
 * before it. Every declared name is a symbol from the start: a reference to something that was declared wrongly
 * is then no second error. Functions here report what the user wrote wrongly and set `bad`; a status that is not
 * KL_OK means that memory is short.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_BIND_CONTEXT_H
#define KERNLINE_BIND_CONTEXT_H

#include "arena.h"
#include "bind.h"
#include "grammar.h"
#include "name_table.h"

/* Kinds of names: kl_kind, and sets. */
enum { BIND_SET = KL_KIND_COUNT, BIND_KIND_COUNT };

typedef enum bind_state {
    BIND_WAITING, /* not looked at yet */
    BIND_BUSY,    /* being looked at: meeting it again means a circle */
    BIND_DONE,
    BIND_FAILED /* reported */
} bind_state;

typedef struct bind_symbol bind_symbol;
struct bind_symbol {
    int kind;
    const phrase *phrase;
    text_name name;
    bind_state state;
    kl_index index;            /* in the model, when done */
    long stamp;                /* the list that named it last: a name twice in one list */
    bind_symbol *waiters;      /* frame: what needs this one first, … */
    bind_symbol *waiters_last; /* … in order, … */
    bind_symbol *next;         /* … and its neighbour in such a list */
};

typedef struct bind_names {
    name_table table;
    bind_symbol *symbols;
    kl_index count;
} bind_names;

/* What a top-level phrase declares. */
typedef struct bind_declared {
    bind_symbol *symbol; /* NULL: nothing, or a name that was taken */
} bind_declared;

typedef struct binder {
    const text_document *document;
    kl_diags *diags;
    kl_model *model;
    arena scratch; /* everything that is only needed while binding */
    bind_names names[BIND_KIND_COUNT];
    bind_declared *declared; /* by top-level phrase */
    kl_index *late_supports; /* `support` in stages, in order; KL_NONE: wrong */
    kl_index late_count;     /* how many of them are taken */
    bool *held;              /* node * 3 + direction: a support or bearing holds it, for `free` */
    double stage_time;       /* of the stage before, s */
    bool stage_has_time;
    bool bad; /* the phrase at hand is wrong, or depends on something that is */
    bool any_bad;
    bool
        hushed; /* the last error came after COMPLAIN_ERRORS others: neither it nor its hint is told */
    kl_index untold;         /* such errors */
    long stamp;              /* of the list at hand */
    kl_index rows;           /* see bind_count_rows */
    kl_index listed;         /* names in all lists so far, sets spread out */
    unsigned char *measured; /* by member: BIND_PLAIN, BIND_SQUARE, BIND_MIXED */
    int suggestions_left;    /* looking for a like name costs; so many messages are ever shown */
} binder;

/* ---- messages ------------------------------------------------------------------------------------------ */

void bind_error(binder *b, const char *diag_name, kl_origin origin, const char *format, ...)
    KL_PRINTF(4, 5);
void bind_hint(binder *b, const char *format, ...) KL_PRINTF(2, 3);

/* ---- values ----------------------------------------------------------------------------------------------- */

/* The number of the i-th own value, NAN when there is none. */
double bind_own_number(const phrase *p, kl_index i);

/* Rows of tendons and falsework, points of outlines and loads, those that `like`, `every` and sets make included:
 * more than so many in all is refused, for a short text can ask for a great many. */
enum { BIND_MOST_ROWS = 2000000 };

/* Count `more` of them; after an error @return false. */
bool bind_count_rows(binder *b, kl_origin origin, kl_index more);

/* ---- going through the document ------------------------------------------------------------------------- */

/* Bind every declared symbol of a kind, in order, with a function that adds one to the model. */
typedef kl_status bind_function(binder *b, bind_symbol *symbol);
kl_status bind_each(binder *b, int kind, bind_function *function);

/* Bind every top-level phrase with this word. */
typedef kl_status bind_phrase_function(binder *b, const phrase *p);
kl_status bind_each_phrase(binder *b, const char *word, bind_phrase_function *function);

/* What an add function answered: KL_OK and user errors settle the symbol (which may be NULL). */
kl_status bind_settle(binder *b, bind_symbol *symbol, kl_index index, kl_status status);

/* The parts of a block that may stand many times, in order: those on the phrase's own line (made into phrases) and
 * then the children. `skip` lists the marks that are not such parts, NULL-ended. */
kl_status bind_parts(
    binder *b, const phrase *p, const char *const *skip, const phrase **parts, kl_index *count);

/* ---- names ------------------------------------------------------------------------------------------------ */

/* The word for a kind in messages: "member", "set". */
const char *bind_kind_name(int kind);

/* The symbol of a name, or NULL. No message. */
bind_symbol *bind_find_symbol(const binder *b, int kind, const char *name);
/* Say that the name is unknown, what else it is, and what may have been meant. @return whether it had a hint for that */
bool bind_unknown_name(binder *b, int kind, const text_name *name);
/* The index of a symbol; KL_NONE, silently but with `bad` set, when it is NULL or the thing itself is wrong. */
kl_index bind_index_of(binder *b, const bind_symbol *symbol);
/* The symbol of a name, or NULL after an error with a suggestion. */
bind_symbol *bind_symbol_of(binder *b, int kind, const text_name *name);
/* The model's index of a name; KL_NONE after an error, or silently when the thing itself is wrong: `bad` is set. */
kl_index bind_reference(binder *b, int kind, const text_name *name);
/* The same for the name of a mark; KL_NONE when the mark is absent. */
kl_index bind_mark_reference(binder *b, int kind, const phrase *p, const char *mark);
/* Is the name declared as that kind? No message. */
bool bind_is_declared(const binder *b, int kind, const char *name);

/* A list of names with sets spread out; each thing once. Lives in the scratch arena.
 * `row`: of the phrase that goes on behind the list, for what goes on may have been taken for a name; NULL: none does */
kl_status
bind_list(binder *b, int kind, const grammar_row *row, const text_value *value, kl_list *list);

/* ---- likeness --------------------------------------------------------------------------------------------- */

/* A longer chain of `like` is a slip; it also bounds the work. */
enum { BIND_MOST_LIKE = 32 };

/* A phrase, what it is like, what that is like, … */
typedef struct bind_chain {
    const phrase *phrases[BIND_MOST_LIKE];
    kl_index count;
} bind_chain;

/* Follow `like`; `function` binds what comes first when it is still waiting, so that its errors are told there.
 * Nothing is bad when it returns with `bad` unset. */
kl_status
bind_follow_like(binder *b, bind_symbol *symbol, bind_function *function, bind_chain *chain);

/* A phrase is taken over or replaced as a whole: the nearest child phrase with this word; NULL when there is none,
 * or when the nearest stands without marks on its phrase's own line. */
const phrase *bind_chain_child(const bind_chain *chain, const char *word);
const text_value *bind_chain_value(const bind_chain *chain, const char *mark);
double bind_chain_number(const bind_chain *chain, const char *mark, double otherwise);
const text_name *bind_chain_name(const bind_chain *chain, const char *mark);

/* ---- stations --------------------------------------------------------------------------------------------- */

/* The line that stations run along: one member, or a tendon's members one after the other. */
typedef struct bind_line {
    const kl_index *members; /* NULL while the member itself is being made */
    kl_index member_count;
    double length;
    double level; /* horizontal length over length */
    const char *name;
    const text_name *making; /* … then its name and its ends */
    kl_index from, to;
} bind_line;

bind_line bind_line_of_member(const binder *b, const kl_index *member);
bind_line bind_line_of_members(const binder *b, kl_list members, const char *name);

/* A station in m along the line; NAN after an error. */
double bind_station(binder *b, const bind_line *line, const text_value *value);
double bind_mark_station(
    binder *b, const bind_line *line, const phrase *p, const char *mark, double otherwise);
/* A length along the line in m: `level` is turned into one along it. */
double bind_length(binder *b, const bind_line *line, const text_quantity *quantity);

/* In a skewed model: remember that a length along the member is plain or `square`, and warn of a member that has
 * both. */
enum { BIND_PLAIN = 1, BIND_SQUARE = 2, BIND_MIXED = 4 };
void bind_note_measure(binder *b, const bind_line *line, const text_quantity *quantity);

/* Stations from … to … every …, both ends included, within 1e-6 of the step. Lives in the scratch arena. */
kl_status bind_every(
    binder *b, const bind_line *line, const phrase *p, const double **stations, kl_index *count);

/* Cosine of the skew, for a phrase that says `square`; 1 after an error. */
double bind_square(binder *b, kl_origin origin);

/* ---- the parts, in the order in which they are bound ------------------------------------------------------ */

kl_status bind_site(binder *b);      /* bind_site.c: title, show, skew, site, sections */
kl_status bind_materials(binder *b); /* bind_material.c */
kl_status bind_sections(binder *b);  /* bind_section.c */
kl_status bind_frame(binder *b);     /* bind_frame.c: nodes and members */
kl_status
bind_supports(binder *b);          /* bind_support.c: supports, those of stages too, and bearings */
kl_status bind_tendons(binder *b); /* bind_tendon.c */
kl_status bind_falseworks(binder *b);   /* bind_falsework.c */
kl_status bind_loads(binder *b);        /* bind_load.c */
kl_status bind_stages(binder *b);       /* bind_stage.c */
kl_status bind_combinations(binder *b); /* bind_check.c */
kl_status bind_checks(binder *b);       /* bind_check.c */
kl_status bind_expectations(binder *b); /* bind_expect.c */
kl_status bind_grades(binder *b);       /* bind_grade.c */

#endif
