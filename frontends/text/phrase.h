/* phrase.h - what the parser makes of a text: phrases with checked values.
 *
 * A phrase is a word, its values and perhaps a block of further phrases. The parser has looked every word up in
 * the grammar table, evaluated every expression and checked kinds and dimensions, so that whoever reads a phrase
 * (bind_*) meets numbers in base units (m, N, Pa, rad, s, K). References are still names: they are resolved by the
 * reader, because a thing may be used before it is defined.
 *
 * A mark may stand on the phrase's line (`width 7 ft`) or be a line of its block; either way it is found by
 * phrase_value(p, "width").
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PHRASE_H
#define KERNLINE_PHRASE_H

#include "kernline/diag.h"
#include "kernline/units.h"

typedef enum value_kind {
    VALUE_FLAG,   /* the mark alone: `axial_only`, `straight`, `total` */
    VALUE_NAME,   /* one name: newname or ref */
    VALUE_NAMES,  /* one or more names */
    VALUE_CHOICE, /* words from a fixed list, perhaps with a year: `aashto 2020`, `start then end` */
    VALUE_STRING,
    VALUE_INTEGER,
    VALUE_QUANTITY,
    VALUE_QUANTITIES, /* one or more, with commas */
    VALUE_POINTS,
    VALUE_STATION
} value_kind;

typedef struct text_name {
    const char *text;
    kl_origin origin;
} text_name;

typedef struct text_quantity {
    double
        value; /* base units; `square` already divided by cos(skew), a density already times gravity */
    kl_dimension dimension;
    bool square; /* was written with `square` (or through a name that was: no) */
    bool
        level; /* was written with `level`: the reader turns a horizontal measure into one along the line */
    bool percent; /* was written with %: for tolerances */
    kl_origin origin;
} text_quantity;

typedef struct text_point {
    text_quantity x, y;
} text_point;

typedef enum station_base {
    STATION_START,
    STATION_MID,
    STATION_END,
    STATION_LENGTH,
    STATION_SHARE,
    STATION_NODE
} station_base;

typedef struct text_station {
    station_base base;
    text_quantity quantity; /* LENGTH: metres; SHARE: of length */
    text_name node;         /* NODE */
    kl_origin origin;
} text_station;

typedef struct text_value {
    value_kind kind;
    kl_origin origin;
    kl_index count;         /* of names, quantities, points; 1 otherwise */
    const text_name *names; /* NAME, NAMES; CHOICE: names[0].text is the words with single spaces */
    int year;               /* CHOICE with a number: aashto 2020; else 0 */
    const char *string;     /* STRING */
    long integer;           /* INTEGER */
    const text_quantity *quantities; /* QUANTITY, QUANTITIES */
    const text_point *points;
    const text_station *station;
} text_value;

typedef struct text_slot {
    const char
        *mark; /* table's spelling, static; "" for the phrase's own value(s) before any mark */
    text_value value;
} text_slot;

typedef struct phrase phrase;
struct phrase {
    const char *word; /* table's spelling, static: "member", "tendon", "point" */
    kl_origin word_origin;
    kl_origin origin; /* the whole phrase without its block */
    const text_slot *slots;
    kl_index slot_count;
    const phrase
        *children; /* block's phrases that are not simple marks of this phrase, in order … */
    kl_index child_count; /* … simple marks in the block are in slots as well */
    kl_origin close;      /* the `}` or nowhere */
};

/* A name that a phrase with mistakes would have declared, so that asking for it is no second mistake. */
typedef struct text_broken {
    const char *word; /* of the phrase, static: "member"; NULL: the word itself is unknown, it may be any */
    text_name name;
} text_broken;

/* A parsed file (with its includes): the top-level phrases in order. */
typedef struct text_document {
    const phrase *phrases;
    kl_index phrase_count;
    double skew;
    bool has_skew;
    const text_broken *broken; /* of the phrases that were left out for a mistake */
    kl_index broken_count;
    bool is_wrong; /* there were mistakes */
    bool is_cut;   /* … and phrases may be missing of which nothing is known: a lost `}`, a file not read */
} text_document;

/* The value of a mark, NULL when absent. "" is the phrase's own first value, e.g. a new name. */
const text_value *phrase_value(const phrase *p, const char *mark);
/* The i-th own (unmarked) value: `point 240 kip on …` has one, `fixed` none. */
const text_value *phrase_own(const phrase *p, kl_index i);
bool phrase_has(const phrase *p, const char *mark);
/* Shortcuts: the number of a quantity mark, or `otherwise`; the text of a name mark, or NULL. */
double phrase_number(const phrase *p, const char *mark, double otherwise);
const char *phrase_name(const phrase *p, const char *mark);
/* Next child with this word after `after` (NULL: from the start). */
const phrase *phrase_child(const phrase *p, const char *word, const phrase *after);

#endif
