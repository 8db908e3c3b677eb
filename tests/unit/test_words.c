/* test_words.c - the language told from its table: nothing is left out, and slips find their word.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "grammar.h"
#include "kernline/units.h"
#include "words.h"

/* What was printed to a stream in memory; to be freed. */
typedef struct printed {
    FILE *stream;
    char *text;
    size_t length;
} printed;

static void print_start(printed *p)
{
    *p = (printed){0};
    p->stream = open_memstream(&p->text, &p->length);
    assert_non_null(p->stream);
}

static void list_has_every_word_of_the_table(void **state)
{
    (void)state;
    printed p;
    print_start(&p);
    words_list(p.stream);
    fclose(p.stream);
    for (size_t i = 0; i < grammar_count(); i++) {
        assert_non_null(strstr(p.text, grammar_at(i)->word));
        assert_non_null(strstr(p.text, grammar_at(i)->help));
    }
    free(p.text);
}

static void units_have_every_unit(void **state)
{
    (void)state;
    printed p;
    print_start(&p);
    words_units(p.stream);
    fclose(p.stream);
    size_t count;
    const kl_unit *units = kl_unit_table(&count);
    for (size_t i = 0; i < count; i++) {
        assert_non_null(strstr(p.text, units[i].help));
    }
    free(p.text);
}

static void explain_tells_every_place_of_a_word(void **state)
{
    (void)state;
    printed p;
    print_start(&p);
    assert_true(words_explain(p.stream, "depth", NULL));
    fclose(p.stream);
    assert_non_null(strstr(p.text, "(in rectangle)"));
    assert_non_null(strstr(p.text, "(in a row of a profile)"));
    free(p.text);
}

static void explain_knows_units_and_traits(void **state)
{
    (void)state;
    printed p;
    print_start(&p);
    assert_true(words_explain(p.stream, "kip", NULL));
    assert_true(words_explain(p.stream, "wobble", NULL));
    fclose(p.stream);
    assert_non_null(strstr(p.text, "(a unit)"));
    assert_non_null(strstr(p.text, "not together with: unintended_angle"));
    assert_non_null(strstr(p.text, "usual: 0 to 0.002 per ft"));
    free(p.text);
}

static void explain_unknown_word_names_the_nearest(void **state)
{
    (void)state;
    printed p;
    const char *near = NULL;
    print_start(&p);
    assert_false(words_explain(p.stream, "tendom", &near));
    assert_string_equal(near, "tendon");
    assert_false(words_explain(p.stream, "xylophone", &near));
    assert_null(near);
    fclose(p.stream);
    assert_string_equal(p.text, "");
    free(p.text);
}

static void warnings_print_what_they_are_given(void **state)
{
    (void)state;
    const kl_warning_name list[] = {{"row-overloaded", "a row of posts above its rated load"}};
    printed p;
    print_start(&p);
    words_warnings(p.stream, list, 1);
    fclose(p.stream);
    assert_non_null(strstr(p.text, "row-overloaded"));
    assert_non_null(strstr(p.text, "above its rated load"));
    free(p.text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(list_has_every_word_of_the_table),
        cmocka_unit_test(units_have_every_unit),
        cmocka_unit_test(explain_tells_every_place_of_a_word),
        cmocka_unit_test(explain_knows_units_and_traits),
        cmocka_unit_test(explain_unknown_word_names_the_nearest),
        cmocka_unit_test(warnings_print_what_they_are_given),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
