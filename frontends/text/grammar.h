/* grammar.h - the one table that describes the model language.
 *
 * A row is a word in a context (the block it lives in). The parser, its messages, `kernline words`, the formatter
 * and the documentation are all driven by the rows; nothing else knows a word of the language. The rows stand in
 * grammar_*.c, one file for each group of contexts.
 *
 * A row with an `inner` context has marks: the rows of that context. A mark stands on the phrase's line
 * (`rectangle width 7 ft depth 6 ft`) or as a line of its block (`rectangle { width 7 ft; depth 6 ft }`). On the
 * line of a phrase a mark has its value only; a row with marks of its own (`rigid end 3 ft`) is a line of the block.
 *
 * HOW PHRASES COME OUT (phrase.h), for those who read them:
 * - The phrase's own values, in order: mark "" (phrase_own(p, i)). An own value that is optional and absent is
 *   left out, so look at the kind: `stage s "Title"` has NAME, STRING.
 * - A row without marks of its own that may stand once: a slot under its word, inline or in the block.
 * - A row with marks of its own, or that may stand many times (below: [..] after the word, or *): when it is a line
 *   of the block it is a child phrase. If it stands once, its first own value (or the flag) is ALSO a slot under
 *   its word: phrase_choice of `creep`, phrase_number(p, "duct", …) work, and so does phrase_has(p, "rectangle").
 * - `section cap` on a member's own line is a slot `section`; `section cap at 0 ft` in its block is a child.
 * - A station (kind S below) is VALUE_STATION; a quantity that may be `square` has been divided by cos(skew).
 *   `level` is only flagged. `uniform level 2 klf` gives the phrase the flag `level` (likewise `square`): the number
 *   is as written, the reader multiplies by cos(skew) or by the slope.
 * - Choices: names[0].text is the words, year the year. Unit words of `show`: a choice, text as written.
 * - Q quantity, N name, N+ names, C choice, I integer, T string, P points, F flag, S station; "C|Q" either.
 * - Required, once, one-of and ranges have been checked, and references are unresolved names.
 * - With `like` nothing is required.
 * - `let` and `include` have been carried out and do not appear. `kernline 1` does not appear.
 *
 * TOP LEVEL
 *   title T;  show C{station Q-unit …: each a choice};  skew Q;  sections C(gross|net);  site {humidity Q; temperature Q}
 *   set N(new) N+
 *   concrete N {like N; strength transfer_strength unit_weight shear_modulus expansion cured Q; modulus C|Q;
 *       creep C [phi Q; point* Q {phi Q}]; shrinkage C [strain Q; point* Q {strain Q}]; cement C; gain C}
 *   material N {like N; modulus unit_weight shear_modulus expansion Q}
 *   prestressing N {ultimate yield modulus Q; relaxation C|Q}      reinforcing N {yield modulus Q}
 *   section N {like N; rectangle[width depth]; circle[diameter]; pipe[diameter thickness];
 *       tee[width flange_thickness web_width depth]; box[width depth cells(I) top_slab bottom_slab web_width overhang
 *       overhang_edge]; outline P; void* P; area inertia to_top to_bottom shear_area width Q; line C; shear C; turned Q;
 *       volume_to_surface Q; rebar* Q [area Q; depth Q; of N]}
 *   node N {at P|S; on N}
 *   member N {from N; to N; section* N [at S]; of N; rigid [start Q; end Q]; hinge* [start F; end F; at S]; mesh Q;
 *       axial_only F; weightless F; age Q}
 *   support N {x y turn C|Q; fixed pinned roller F; slope Q}       bearing N {on N; x y turn C|Q}
 *   tendon N {in N+; like N; of N; strands Q [area Q]; bars Q [area Q]; count I; profile [from C; rows* below];
 *       bend* Q [from S; to S] (also inside `profile`); friction wobble unintended_angle seating Q;
 *       jack C [ratio stress force Q; total F]; ram jack_friction anchorage_friction reference grip dead_end Q;
 *       duct Q [offset Q]; bonded C(grouted); unbonded F; raise Q}
 *       profile rows: anchor high low inflection through * [at S; height Q; depth Q; straight F]
 *   falsework N {like N; under N; at Q+ | from S to S every Q; posts I; stiffness takeup capacity Q; on N;
 *       stringer N [of N]}
 *   load N {weight* [of N+]; point* Q [on N+; at S; from S; to S; every Q; DIR];
 *       uniform* Q [on N+; from S; to S; DIR; level F; square F]; ramp* [start Q; end Q; on N+; from S; to S; DIR; level;
 *       square]; moment* Q [on N+; at S; clockwise anticlockwise F]; settle* Q [at N; up down left right F];
 *       turn* Q [at N; clockwise anticlockwise F]; warm* cool* Q [on N+]; gradient* Q? [on N+; point* Q [depth Q]];
 *       stress* N+}            DIR: down up left right across along F
 *   stage N T? {at Q | wait Q; erect* cast* place* slacken* grout* unload* remove* N+; stress* N+ [to Q];
 *       lose* N+ Q; release* N [from S; to S]; load* N+ [times Q]; support* N (as above); free* N [x y turn F];
 *       unlock* lock* N [start F; end F; at S]}
 *   combination N {factor* Q [of N+]}
 *   check N C {members N+; tendons N+; after during from to under N; condition C; rules C; compression tension Q;
 *       face C; bonded_steel C; exposure C; class C; combination C}
 *   traffic N {on N+; vehicle C; lanes I; impact presence Q; axle* Q [at Q]}
 *   lanes N {on N; from to lane loaded gauge axle_load Q}          grade N {target N; point* Q [at S]}
 *   expect {max min primary secondary concrete F; moment shear axial deflection sway rotation force elongation post
 *       camber F; stress C(top|bottom); reaction C(x|y|turn); on N; of N; at S; left right total F; after during
 *       under N; from N (a cause or case); = Q; within Q; source T}
 *       (`=` and `within` have any dimension here: the reader knows the quantity and checks it)
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_GRAMMAR_H
#define KERNLINE_GRAMMAR_H

#include <stdbool.h>
#include <stddef.h>

#include "kernline/units.h"

/* id, what a message calls the block ("unknown word in a section") */
#define GRAMMAR_CONTEXT_LIST(X)                                                                    \
    X(IN_NOTHING, "nothing")                                                                       \
    X(IN_TOP, "the model")                                                                         \
    X(IN_SHOW, "show")                                                                             \
    X(IN_SITE, "site")                                                                             \
    X(IN_LET, "let")                                                                               \
    X(IN_CONCRETE, "concrete")                                                                     \
    X(IN_CREEP, "creep")                                                                           \
    X(IN_CREEP_POINT, "a point of creep")                                                          \
    X(IN_SHRINKAGE, "shrinkage")                                                                   \
    X(IN_SHRINKAGE_POINT, "a point of shrinkage")                                                  \
    X(IN_MATERIAL, "material")                                                                     \
    X(IN_PRESTRESSING, "prestressing")                                                             \
    X(IN_REINFORCING, "reinforcing")                                                               \
    X(IN_SECTION, "section")                                                                       \
    X(IN_RECTANGLE, "rectangle")                                                                   \
    X(IN_CIRCLE, "circle")                                                                         \
    X(IN_PIPE, "pipe")                                                                             \
    X(IN_TEE, "tee")                                                                               \
    X(IN_BOX, "box")                                                                               \
    X(IN_REBAR, "rebar")                                                                           \
    X(IN_NODE, "node")                                                                             \
    X(IN_MEMBER, "member")                                                                         \
    X(IN_SECTION_AT, "a section of a member")                                                      \
    X(IN_RIGID, "rigid")                                                                           \
    X(IN_HINGE, "hinge")                                                                           \
    X(IN_SUPPORT, "support")                                                                       \
    X(IN_BEARING, "bearing")                                                                       \
    X(IN_TENDON, "tendon")                                                                         \
    X(IN_STEEL, "strands or bars")                                                                 \
    X(IN_PROFILE, "profile")                                                                       \
    X(IN_PROFILE_ROW, "a row of a profile")                                                        \
    X(IN_BEND, "bend")                                                                             \
    X(IN_JACK, "jack")                                                                             \
    X(IN_DUCT, "duct")                                                                             \
    X(IN_FALSEWORK, "falsework")                                                                   \
    X(IN_STRINGER, "stringer")                                                                     \
    X(IN_LOAD, "load")                                                                             \
    X(IN_WEIGHT, "weight")                                                                         \
    X(IN_POINT, "point load")                                                                      \
    X(IN_UNIFORM, "uniform load")                                                                  \
    X(IN_RAMP, "ramp load")                                                                        \
    X(IN_MOMENT, "moment load")                                                                    \
    X(IN_SETTLE, "settle")                                                                         \
    X(IN_TURN, "turn")                                                                             \
    X(IN_WARM, "warm or cool")                                                                     \
    X(IN_GRADIENT, "gradient")                                                                     \
    X(IN_GRADIENT_POINT, "a point of a gradient")                                                  \
    X(IN_STAGE, "stage")                                                                           \
    X(IN_STRESS, "stress")                                                                         \
    X(IN_RELEASE, "release")                                                                       \
    X(IN_LOAD_NOW, "load in a stage")                                                              \
    X(IN_FREE, "free")                                                                             \
    X(IN_UNLOCK, "lock or unlock")                                                                 \
    X(IN_COMBINATION, "combination")                                                               \
    X(IN_FACTOR, "factor")                                                                         \
    X(IN_CHECK, "check")                                                                           \
    X(IN_TRAFFIC, "traffic")                                                                       \
    X(IN_AXLE, "axle")                                                                             \
    X(IN_LANES, "lanes")                                                                           \
    X(IN_GRADE, "grade")                                                                           \
    X(IN_GRADE_POINT, "a point of a grade")                                                        \
    X(IN_EXPECT, "expect")

typedef enum grammar_context {
#define GRAMMAR_CONTEXT_ENUM(id, name) id,
    GRAMMAR_CONTEXT_LIST(GRAMMAR_CONTEXT_ENUM)
#undef GRAMMAR_CONTEXT_ENUM
        GRAMMAR_CONTEXT_COUNT
} grammar_context;

/* What a value may be; a value of two kinds (modulus: a choice or a quantity) has both bits. */
enum {
    GRAMMAR_NEW_NAME = 1,
    GRAMMAR_NAME = 2,
    GRAMMAR_NAMES = 4,
    GRAMMAR_CHOICE = 8,
    GRAMMAR_STRING = 16,
    GRAMMAR_INTEGER = 32,
    GRAMMAR_QUANTITY = 64,
    GRAMMAR_QUANTITIES = 128,
    GRAMMAR_POINT = 256,
    GRAMMAR_POINTS = 512,
    GRAMMAR_STATION = 1024,
    GRAMMAR_UNIT = 2048
};

/* Any dimension: `let`, and `=` of expect. */
#define GRAMMAR_ANY KL_MEASURE_COUNT

typedef struct grammar_value {
    unsigned kinds; /* 0: no such value */
    kl_measure measure;
    const char *choices; /* "start|end|start then end|~aashto 2020"; ~: parsed, not computed yet */
    const char *of;      /* names: what they name ("member") */
    bool optional;
} grammar_value;

enum { GRAMMAR_VALUES = 2 }; /* a phrase has at most so many own values */

enum {
    GRAMMAR_REQUIRED = 1,  /* always; of a one-of group: one of its rows */
    GRAMMAR_WHEN_USED = 2, /* required when something uses it: the reader knows */
    GRAMMAR_MANY = 4,
    GRAMMAR_LATER = 8,   /* parsed and checked, not computed yet */
    GRAMMAR_SQUARE = 16, /* its lengths may be `square` or `level` */
    GRAMMAR_SIGNED = 32, /* usual range is of the size, whatever the sign */
    GRAMMAR_BLOCK = 64,  /* the phrase is nothing without marks */
    GRAMMAR_INLINE =
        128, /* on the phrase's line too, though it has marks or may stand many times */
    GRAMMAR_FOLLOWS = 256 /* in a block also on the line of another mark: `from … to …` */
};

typedef struct grammar_row {
    grammar_context context;
    const char *word;
    grammar_value own[GRAMMAR_VALUES];
    grammar_context inner; /* its marks; IN_NOTHING: none */
    unsigned flags;
    const char *group;     /* at most one row of a group stands in a block; NULL */
    const char *otherwise; /* default, as it would be written; NULL */
    double low, high;      /* usual range in `range_unit`; both 0: none */
    const char *range_unit;
    int since;         /* 0: version 1 */
    const char *later; /* what to write meanwhile, for GRAMMAR_LATER and ~ choices */
    const char *example;
    const char *help; /* one line */
} grammar_row;

/* The rows in the order of the documentation: index 0 … grammar_count() - 1. */
size_t grammar_count(void);
const grammar_row *grammar_at(size_t i);

/* The row of a word in a context, or NULL. `length` bytes of `word` are read. */
const grammar_row *grammar_find(grammar_context context, const char *word, size_t length);

/* The rows of a context; they stand together in the table. */
const grammar_row *grammar_rows_of(grammar_context context, size_t *count);

/* The same two questions answered in constant time, for the reader of large texts. */
enum { GRAMMAR_SLOTS = 1024 }; /* more than twice as many as there are rows */

typedef struct grammar_rows {
    const grammar_row *first;
    size_t count;
} grammar_rows;

typedef struct grammar_index {
    grammar_rows rows[GRAMMAR_CONTEXT_COUNT];
    const grammar_row *slots[GRAMMAR_SLOTS]; /* by context and word, open addressing; NULL: free */
} grammar_index;

void grammar_index_make(grammar_index *index);
const grammar_row *grammar_index_find(const grammar_index *index,
                                      grammar_context context,
                                      const char *word,
                                      size_t length);

/* May the row stand on the line of its phrase, as a mark with a value? */
bool grammar_is_inline(const grammar_row *row);

/* What messages call a context. */
const char *grammar_context_name(grammar_context context);

/* How many own values the row has. */
size_t grammar_own_count(const grammar_row *row);

/* Words that no name may be (marks that close a list of names); causes; function names. */
bool grammar_is_reserved(const char *word, size_t length);
bool grammar_is_cause(const char *word, size_t length);
bool grammar_is_function(const char *word, size_t length);

/* The i-th of a list "a|b c|~d 2020" (without the ~): its text and length; false past the end. */
typedef struct grammar_choice {
    const char *text;
    size_t length;
    bool later;
} grammar_choice;
bool grammar_choice_at(const char *choices, size_t i, grammar_choice *choice);

#endif
