/* bound_text.h - for tests of the binder: a text made into a model, and tables of numbers read from it.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_BOUND_TEXT_H
#define KERNLINE_BOUND_TEXT_H

#include "arena.h"
#include "assert_close.h"
#include "bind.h"
#include "source.h"

/* Exact by definition. */
#define FT   0.3048
#define INCH 0.0254
#define KIP  4448.2216152605
#define KSI  (KIP / (INCH * INCH))
#define PI   3.14159265358979323846

typedef struct bound_text {
    text_sources sources;
    arena memory;
    kl_diags *diags;
    kl_model *model; /* NULL after an error */
    kl_status status;
} bound_text;

/* Parse and, if that makes sense, bind. */
void bound_text_make(bound_text *t, const char *text);
/* The same for a text that must be sound; otherwise its messages are shown and the test fails. */
void bound_text_make_well(bound_text *t, const char *text);
void bound_text_show_messages(const bound_text *t);
void bound_text_release(bound_text *t);

/* One number of the model that is made of a text. */
typedef struct number_case {
    const char *test, *text;
    double (*get)(const kl_model *model);
    double want;
} number_case;

/* A getter of a number_case; the model is `m`. */
#define GET(function, value)                                                                       \
    static double function(const kl_model *m)                                                      \
    {                                                                                              \
        return (double)(value);                                                                    \
    }

/* Run a table, each row a test of its own. @return the number of failures. */
int number_case_run(const char *group, const number_case *rows, int count);

/* A frame in feet: a level cap of 40 ft on two columns, and a rafter that climbs 3 in 4. */
#define FRAME_US                                                                                   \
    "concrete mix { strength 6 ksi; unit_weight 150 pcf; modulus aashto 2020 }\n"                  \
    "prestressing steel { ultimate 270 ksi; yield 243 ksi; modulus 28500 ksi }\n"                  \
    "section cap { rectangle width 7 ft depth 6.5 ft }\n"                                          \
    "section round { circle diameter 6 ft }\n"                                                     \
    "node L at (0 ft, 24 ft)\nnode R at (40 ft, 24 ft)\n"                                          \
    "node A at (10 ft, 0 ft)\nnode B at (30 ft, 0 ft)\n"                                           \
    "member cap from L to R section cap of mix\n"                                                  \
    "node C on cap at 10 ft\nnode D on cap at 30 ft\n"                                             \
    "member col_1 from A to C section round of mix { rigid end 3 ft 3 in }\n"                      \
    "member col_2 from B to D section round of mix\n"                                              \
    "node P at (0 ft, 100 ft)\nnode Q at (40 ft, 130 ft)\n"                                        \
    "member rafter from P to Q section cap of mix\n"                                               \
    "set columns col_1 col_2\n"                                                                    \
    "support A fixed\nsupport B x fixed y fixed turn 1e6 kip-ft/rad\n"

#define STEEL_US "of steel; strands 19 area 0.217 in^2; "
#define PROFILE_US                                                                                 \
    "profile from bottom { anchor at 0 ft height 3 ft; low at mid height 1 ft; "                   \
    "anchor at end height 3 ft }\n"
#define TENDON_US                                                                                  \
    "tendon T1 in cap { " STEEL_US "count 2; " PROFILE_US "friction 0.2; wobble 0.0002 per ft\n"   \
    "seating 1/4 in; jack start then end ratio 0.75; duct 4-1/2 in offset 3/4 in }\n"

#endif
