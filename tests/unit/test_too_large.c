/* test_too_large.c - models and results beyond what one machine should be asked for are refused in words, at a place.
 * SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "solved.h"
#include "timeline.h"

#define HEAD                                                                                       \
    "show si\nmaterial oak { modulus 30 GPa }\nsection r { rectangle width 1 m depth 2 m }\n"

/* Spans of 10 m in elements of 5 mm: 2,000 elements each. */
static char *many_spans(int spans)
{
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    fprintf(out, HEAD "node N0 at (0 m, 0 m)\nsupport N0 pinned\n");
    for (int i = 1; i <= spans; i++) {
        fprintf(out, "node N%d at (%d m, 0 m)\nsupport N%d roller\n", i, 10 * i, i);
        fprintf(out, "member span_%d from N%d to N%d section r of oak { mesh 0.005 m }\n", i, i - 1,
                i);
    }
    fprintf(out, "load l { point 1 kN at N1 }\n");
    fclose(out);
    return text;
}

static void kl_analyze_more_than_two_million_elements_is_refused(void **state)
{
    (void)state;
    char *text = many_spans(1001);
    solved s;
    const char *message = solved_refused(&s, text, KL_TOO_LARGE, "too-many-elements");
    assert_non_null(strstr(message, "1001 members"));
    assert_non_null(strstr(message, "2000000 elements"));
    assert_int_equal(solved_message(&s, "too-many-elements")->origin.file, 0);
    assert_null(s.results);
    solved_close(&s);
    free(text);
}

/* Run the timeline of a model whose results have taken five gigabytes so far: the arena is told so, which costs nothing. */
static void check_full(const char *text, const char *told)
{
    solved s;
    solved_read_well(&s, text);
    kl_results results = {0};
    assert_int_equal(run_prepare(s.model, NULL, s.diags, &results.a, &results.run), KL_OK);
    results.a.bytes = (size_t)5 << 30;
    assert_int_equal(timeline_run(&results), KL_TOO_LARGE);
    const kl_diag *diag = solved_message(&s, "results-too-large");
    assert_non_null(diag);
    assert_int_equal(kl_diags_count_of(s.diags, KL_ERROR), 1);
    assert_non_null(strstr(diag->message, told));
    assert_non_null(strstr(diag->message, "4096 MiB"));
    assert_true(diag->origin.file == 0 && diag->origin.begin < diag->origin.end);
    run_release(&results.run);
    arena_free(&results.a);
    solved_close(&s);
}

#define BEAM                                                                                       \
    HEAD "node A at (0 m, 0 m)\nnode B at (10 m, 0 m)\nmember b from A to B of oak { section r; "  \
         "weightless }\n"                                                                          \
         "support A pinned\nsupport B roller\nload girders { point 1 kN on b at mid }\n"

static void timeline_run_results_beyond_the_limit_are_refused(void **state)
{
    (void)state;
    check_full(BEAM, "girders");
    check_full(BEAM "stage placed at 0 day { place b }\nstage loaded at 1 day { load girders }\n",
               "placed");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(kl_analyze_more_than_two_million_elements_is_refused),
        cmocka_unit_test(timeline_run_results_beyond_the_limit_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
