/* test_parse_broken.c - mistakes of the reader and of the binder in one run, and none that only follows from another.
 * SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "bound_text.h"
#include "fault.h"
#include "parser.h"

/* A sound frame; each row adds its lines. */
#define FRAME                                                                                      \
    "material oak { modulus 1600 ksi }\nsection plank { rectangle width 10 in depth 3 in }\n"      \
    "node A at (0 ft, 0 ft)\nnode B at (20 ft, 0 ft)\n"                                            \
    "member board from A to B section plank of oak\nsupport A fixed\n"

typedef struct broken_case {
    const char *test, *lines;
    const char *names; /* of all errors, in order */
} broken_case;

static const broken_case cases[] = {
    {"both_are_told", "material ash { modulus 1 }\nload q { uniform 9 plf on bord }\n",
     "missing-unit unknown-name"},
    {"using_a_broken_thing_is_no_mistake",
     "section sill { rectangle width 10 depth 3 in }\nmember low from A to B section sill of oak\n"
     "node M on low at 3 ft\nload q { point 1 kip on low at 2 ft; point 1 kip at M }\n"
     "expect moment on low at mid under q = 0 kip-ft within 1 kip-ft\n",
     "missing-unit"},
    {"an_unknown_word_may_have_declared_anything",
     "loda q { weight }\nmembr low from A to B\nset lows low board\n"
     "combination c { factor 1.0 of q }\nexpect axial on low at mid under q = 0 kip within 1 kip\n",
     "unknown-word unknown-word"},
    {"what_is_like_a_broken_thing_is_silent",
     "section sill { rectangle width 10 depth 3 in }\nsection still like sill\n"
     "section inst like still\nmember low from A to B section inst of oak\n",
     "missing-unit"},
    {"a_broken_let_is_told_once",
     "let w = 9 plff\nlet v = 2 * w\nload q { uniform v on board; uniform w + v on board }\n"
     "load r { uniform 1 plf on bord }\n",
     "unknown-unit unknown-name"},
    {"a_broken_skew_is_told_once", "skew 30\nnode C at (square 3 ft, 1 ft)\nsupport D fixed\n",
     "missing-unit unknown-name"},
    {"a_broken_set_is_silent", "set all board,\nload q { uniform 1 plf on all }\n",
     "comma-between-names"},
    {"a_unit_for_a_name_is_told_once",
     "section bar { rectangle width 10 in depth 3 in }\nmember low from A to B section bar of "
     "oak\n",
     "reserved-name"},
    {"behind_a_lost_brace_nothing_is_concluded",
     "section sill { rectangle width 10 in depth 3 in\nload q { uniform 9 plf on bord }\n",
     "missing-brace"},
    {"two_of_one_name_are_silent_when_one_is_broken",
     "section plank { rectangle width 10 depth 3 in }\n", "missing-unit"},
};

static void errors_are_those(void **state)
{
    const broken_case *row = *state;
    char text[4000];
    char told[400] = "";
    (void)snprintf(text, sizeof text, "%s%s", FRAME, row->lines);
    bound_text t;
    bound_text_make(&t, text);
    for (kl_index i = 0; i < kl_diags_count(t.diags); i++) {
        const kl_diag *diag = kl_diags_get(t.diags, i);
        if (diag->severity == KL_ERROR) {
            const size_t used = strlen(told);
            (void)snprintf(told + used, sizeof told - used, "%s%s", used > 0 ? " " : "",
                           diag->name);
        }
    }
    if (strcmp(told, row->names) != 0) {
        bound_text_show_messages(&t);
    }
    assert_string_equal(told, row->names);
    assert_int_equal(t.status, KL_BAD_MODEL);
    assert_null(t.model);
    bound_text_release(&t);
}

/* Twelve mistakes for the reader, and as many for the binder. */
static void errors_beyond_twenty_are_counted(void **state)
{
    (void)state;
    char text[8000] = FRAME;
    for (int i = 0; i < 12; i++) {
        const size_t used = strlen(text);
        (void)snprintf(text + used, sizeof text - used,
                       "material m%d { modulus 1 }\nload q%d { uniform 9 plf on none }\n", i, i);
    }
    bound_text t;
    bound_text_make(&t, text);
    assert_int_equal(kl_diags_count_of(t.diags, KL_ERROR), 20);
    const kl_diag *last = kl_diags_get(t.diags, kl_diags_count(t.diags) - 1);
    assert_string_equal(last->name, "too-many-errors");
    assert_non_null(strstr(last->message, "4 more"));
    bound_text_release(&t);
}

static void broken_text_without_memory_is_clean(void **state)
{
    (void)state;
    for (long k = 0;; k++) {
        assert_true(k < 100000);
        bound_text t;
        fault_after(k);
        bound_text_make(&t, FRAME "sextion s { }\nsection r { rectangle width 3 depth 3 in }\n"
                                  "member low from A to B section r of oak\n"
                                  "support C fixed\n");
        const int struck = fault_struck();
        fault_after(-1);
        assert_null(t.model);
        assert_true(t.status == KL_NO_MEMORY || t.status == KL_BAD_MODEL);
        bound_text_release(&t);
        if (!struck) {
            return;
        }
    }
}

int main(void)
{
    enum { CASES = sizeof cases / sizeof cases[0] };
    struct CMUnitTest rows[CASES];
    for (int i = 0; i < CASES; i++) {
        void *row = (void *)(uintptr_t)&cases[i];
        rows[i] = (struct CMUnitTest){cases[i].test, errors_are_those, NULL, NULL, row};
    }
    const struct CMUnitTest others[] = {
        cmocka_unit_test(errors_beyond_twenty_are_counted),
        cmocka_unit_test(broken_text_without_memory_is_clean),
    };
    const int failed = _cmocka_run_group_tests("broken", rows, CASES, NULL, NULL);
    return failed + cmocka_run_group_tests(others, NULL, NULL);
}
