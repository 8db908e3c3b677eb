/* test_tendon_hinges.c - a tendon through an open hinge is refused on every way there, one that ends at it is not.
 * SPDX-License-Identifier: MIT */
#include "bound_text.h"

#include <string.h>

/* A beam of 20 m on three supports, with one tendon of a straight profile. */
#define BEFORE                                                                                     \
    "show si\nmaterial c { modulus 30 GPa; unit_weight 24 kN/m^3 }\n"                              \
    "prestressing s { ultimate 1860 MPa; yield 1670 MPa; modulus 195 GPa }\n"                      \
    "section b { rectangle width 1 m depth 1 m }\n"                                                \
    "node A at (0 m, 0 m)\nnode P at (12 m, 0 m)\nnode B at (20 m, 0 m)\n"                         \
    "support A fixed\nsupport P roller\nsupport B fixed\n"
#define TENDON(members, from, to)                                                                  \
    "tendon T in " members                                                                         \
    " { of s; strands 12 area 150 mm^2; profile from line { anchor at " from                       \
    " height 0.1 m; anchor at " to " height 0.2 m straight }; friction 0; wobble 0 per m; "        \
    "seating 0 mm; jack start force 2000 kN; unbonded }\n"
#define LOADED "load p { stress T }\n"

/* One member; two that share a node; two with a node each. */
#define ONE(block)                                                                                 \
    BEFORE "node A1 at (0 m, 5 m)\nnode B1 at (20 m, 5 m)\nsupport A1 fixed\n"                     \
           "support B1 fixed\nmember left from A1 to B1 section b of c " block "\n"
#define TWO(left, right)                                                                           \
    BEFORE "member left from A to P section b of c " left                                          \
           "\nmember right from P to B section b of c " right "\n"
#define APART(bearing)                                                                             \
    BEFORE "node Q at (12 m, 0 m)\nmember left from A to P section b of c\n"                       \
           "member right from Q to B section b of c\n" bearing

typedef struct trial {
    const char *title, *text;
    int errors;
} trial;

static const trial trials[] = {
    {"through a hinge", ONE("{ hinge at 12 m }") TENDON("left", "start", "end") LOADED, 1},
    {"anchored at the hinge", ONE("{ hinge at 12 m }") TENDON("left", "start", "12 m") LOADED, 0},
    {"begun at the hinge", ONE("{ hinge at 12 m }") TENDON("left", "12 m", "end") LOADED, 0},
    {"a centimetre beyond", ONE("{ hinge at 12 m }") TENDON("left", "start", "12.01 m") LOADED, 1},
    {"to a hinged end", ONE("{ hinge end }") TENDON("left", "start", "end") LOADED, 0},
    {"from a hinged start", ONE("{ hinge start }") TENDON("left", "start", "end") LOADED, 0},
    {"into the rigid end behind a hinge",
     ONE("{ hinge end; rigid end 2 m }") TENDON("left", "start", "end") LOADED, 1},
    {"to the face where the hinge is",
     ONE("{ hinge end; rigid end 2 m }") TENDON("left", "start", "18 m") LOADED, 0},
    {"not stressed", ONE("{ hinge at 12 m }") TENDON("left", "start", "end"), 0},
    {"through a rigid joint", TWO("", "") TENDON("left right", "start", "end") LOADED, 0},
    {"through a hinged end", TWO("{ hinge end }", "") TENDON("left right", "start", "end") LOADED,
     1},
    {"through a hinged start",
     TWO("", "{ hinge start }") TENDON("left right", "start", "end") LOADED, 1},
    {"up to the joint", TWO("", "{ hinge start }") TENDON("left right", "start", "12 m") LOADED, 0},
    {"hinge of the second member",
     TWO("", "{ hinge at 4 m }") TENDON("left right", "start", "15.9 m") LOADED, 0},
    {"hinge of the second member passed",
     TWO("", "{ hinge at 4 m }") TENDON("left right", "start", "16.1 m") LOADED, 1},
    {"nodes that nothing joins", APART("") TENDON("left right", "start", "end") LOADED, 1},
    {"a bearing that turns",
     APART("bearing Q on P { x fixed; y fixed }\n") TENDON("left right", "start", "end") LOADED, 1},
    {"a bearing that slides",
     APART("bearing Q on P { y fixed; turn fixed }\n") TENDON("left right", "start", "end") LOADED,
     1},
    {"a bearing that holds all",
     APART("bearing Q on P { x fixed; y fixed; turn fixed }\n") TENDON("left right", "start", "end")
         LOADED,
     0},
    {"stressed by a stage",
     ONE("{ hinge at 12 m }") TENDON("left", "start", "end") "stage s { place left; stress T }\n",
     1},
    {"locked before",
     ONE("{ hinge at 12 m }")
         TENDON("left", "start", "end") "stage s { place left; lock left at 12 m; stress T }\n",
     0},
    {"locked and opened again",
     ONE("{ hinge at 12 m }")
         TENDON("left", "start", "end") "stage s { place left; lock left at 12 "
                                        "m; unlock left at 12 m; stress T }\n",
     1},
    {"opened after",
     ONE("")
         TENDON("left", "start", "end") "stage s { place left; stress T; unlock left at 7 m }\n",
     1},
    {"opened when slack",
     ONE("") TENDON("left",
                    "start",
                    "end") "stage s { place left; stress T; slacken T; unlock left at 7 m }\n",
     0},
    {"opened at its anchor",
     ONE("") TENDON("left", "start", "end") "stage s { place left; stress T; unlock left end }\n",
     0},
    {"opened beside it",
     ONE("")
         TENDON("left", "start", "5 m") "stage s { place left; stress T; unlock left at 7 m }\n",
     0},
};

static void only_tendons_through_hinges_are_refused(void **state)
{
    const trial *row = *state;
    bound_text t;
    bound_text_make_well(&t, row->text);
    const kl_status status = kl_model_check(t.model);
    int found = 0;
    for (kl_index i = 0; i < kl_diags_count(t.diags); i++) {
        const kl_diag *diag = kl_diags_get(t.diags, i);
        found += strcmp(diag->name, "tendon-through-hinge") == 0 && diag->severity == KL_ERROR;
    }
    if (status != (row->errors > 0 ? KL_BAD_MODEL : KL_OK) || found != row->errors) {
        bound_text_show_messages(&t);
    }
    assert_int_equal(found, row->errors);
    assert_int_equal(status, row->errors > 0 ? KL_BAD_MODEL : KL_OK);
    bound_text_release(&t);
}

int main(void)
{
    enum { TRIALS = sizeof trials / sizeof trials[0] };
    struct CMUnitTest tests[TRIALS + 0];
    for (int i = 0; i < TRIALS; i++) {
        void *row =
            (void *)(uintptr_t)&trials[i]; /* cmocka takes void *; nobody writes through it */
        tests[i] = (struct CMUnitTest){trials[i].title, only_tendons_through_hinges_are_refused,
                                       NULL, NULL, row};
    }
    return cmocka_run_group_tests(tests, NULL, NULL);
}
