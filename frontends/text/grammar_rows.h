/* grammar_rows.h - shorthand for the rows of grammar_*.c, and the parts the table is made of.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_GRAMMAR_ROWS_H
#define KERNLINE_GRAMMAR_ROWS_H

#include "grammar.h"

/* One value of a row. */
#define QUANTITY(m)                                                                                \
    {                                                                                              \
        .kinds = GRAMMAR_QUANTITY, .measure = KL_MEASURE_##m                                       \
    }
#define ANY_QUANTITY                                                                               \
    {                                                                                              \
        .kinds = GRAMMAR_QUANTITY, .measure = GRAMMAR_ANY                                          \
    }
#define MAYBE_QUANTITY(m)                                                                          \
    {                                                                                              \
        .kinds = GRAMMAR_QUANTITY, .measure = KL_MEASURE_##m, .optional = true                     \
    }
#define QUANTITIES(m)                                                                              \
    {                                                                                              \
        .kinds = GRAMMAR_QUANTITIES, .measure = KL_MEASURE_##m                                     \
    }
#define NEW_NAME(what)                                                                             \
    {                                                                                              \
        .kinds = GRAMMAR_NEW_NAME, .of = (what)                                                    \
    }
#define NAME(what)                                                                                 \
    {                                                                                              \
        .kinds = GRAMMAR_NAME, .of = (what)                                                        \
    }
#define NAMES(what)                                                                                \
    {                                                                                              \
        .kinds = GRAMMAR_NAMES, .of = (what)                                                       \
    }
#define CHOICE(list)                                                                               \
    {                                                                                              \
        .kinds = GRAMMAR_CHOICE, .choices = (list)                                                 \
    }
#define CHOICE_OR(m, list)                                                                         \
    {                                                                                              \
        .kinds = GRAMMAR_CHOICE | GRAMMAR_QUANTITY, .measure = KL_MEASURE_##m, .choices = (list)   \
    }
#define STRING                                                                                     \
    {                                                                                              \
        .kinds = GRAMMAR_STRING                                                                    \
    }
#define MAYBE_STRING                                                                               \
    {                                                                                              \
        .kinds = GRAMMAR_STRING, .optional = true                                                  \
    }
#define INTEGER                                                                                    \
    {                                                                                              \
        .kinds = GRAMMAR_INTEGER                                                                   \
    }
#define POINTS                                                                                     \
    {                                                                                              \
        .kinds = GRAMMAR_POINTS, .measure = KL_MEASURE_STATION                                     \
    }
#define STATION                                                                                    \
    {                                                                                              \
        .kinds = GRAMMAR_STATION, .measure = KL_MEASURE_STATION                                    \
    }
#define POINT_OR_STATION                                                                           \
    {                                                                                              \
        .kinds = GRAMMAR_POINT | GRAMMAR_STATION, .measure = KL_MEASURE_STATION                    \
    }
#define UNIT(m)                                                                                    \
    {                                                                                              \
        .kinds = GRAMMAR_UNIT, .measure = KL_MEASURE_##m                                           \
    }

/* Part of the table, one a file. */
typedef struct grammar_part {
    const grammar_row *rows;
    size_t count;
} grammar_part;

grammar_part grammar_top_part(void);
grammar_part grammar_material_part(void);
grammar_part grammar_section_part(void);
grammar_part grammar_frame_part(void);
grammar_part grammar_tendon_part(void);
grammar_part grammar_load_part(void);
grammar_part grammar_stage_part(void);
grammar_part grammar_check_part(void);

#define GRAMMAR_PART(rows) ((grammar_part){(rows), sizeof(rows) / sizeof((rows)[0])})

#endif
