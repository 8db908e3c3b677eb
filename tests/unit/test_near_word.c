/* test_near_word.c - the word that a stranger's word means: by meaning, by letters, by its beginning, by its stem.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <string.h>

#include "near_word.h"

static void assert_near(grammar_context context, const char *text, const char *word)
{
    const char *near = near_word(context, text, strlen(text));
    if (word == NULL) {
        assert_null(near);
    } else {
        assert_non_null(near);
        assert_string_equal(near, word);
    }
}

static void near_word_finds_the_word_of_the_context(void **state)
{
    (void)state;
    assert_near(IN_RECTANGLE, "widht", "width");   /* two letters */
    assert_near(IN_SUPPORT, "pin", "pinned");      /* its beginning */
    assert_near(IN_SUPPORT, "rollers", "roller");  /* one more letter */
    assert_near(IN_LOAD, "settlements", "settle"); /* goes on from it */
    assert_near(IN_UNIFORM, "downwards", "down");  /* likewise */
    assert_near(IN_LOAD, "xylophone", NULL);
    assert_near(IN_CONCRETE, "sh", NULL); /* too short to begin anything */
}

/* One and the same word means what its context has; where the context has nothing of the kind it means nothing. */
static void near_word_meaning_depends_on_the_context(void **state)
{
    (void)state;
    assert_near(IN_LOAD, "selfweight", "weight");
    assert_near(IN_CONCRETE, "selfweight", "unit_weight");
    assert_near(IN_NODE, "selfweight", NULL);
    assert_near(IN_SECTION, "I", "inertia");
    assert_near(IN_PRESTRESSING, "E", "modulus");
    assert_near(IN_SECTION, "E", NULL);
    assert_string_equal(near_word_meaning("E", 1), "modulus");
    assert_null(near_word_meaning("e", 1)); /* strangers' words are as they are written elsewhere */
    assert_null(near_word_meaning("", 0));
}

static void near_word_anywhere_searches_the_whole_language(void **state)
{
    (void)state;
    assert_string_equal(near_word_anywhere("hinges", 6), "hinge");
    assert_string_equal(near_word_anywhere("settlement", 10), "settle");
    assert_string_equal(near_word_anywhere("A", 1), "area");
    assert_null(near_word_anywhere("Q", 1)); /* one letter is not a slip for any other */
    assert_null(near_word_anywhere("xylophone", 9));
}

static void near_word_advice_belongs_to_its_phrase(void **state)
{
    (void)state;
    assert_non_null(strstr(near_word_advice("section", "to", 2), "section tip at end"));
    assert_non_null(strstr(near_word_advice("section", "depth", 5), "`to_top`"));
    assert_non_null(strstr(near_word_advice("uniform", "horizontal", 10), "`level`"));
    assert_null(near_word_advice("member", "to", 2));
    assert_null(near_word_advice("section", "from", 4));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(near_word_finds_the_word_of_the_context),
        cmocka_unit_test(near_word_meaning_depends_on_the_context),
        cmocka_unit_test(near_word_anywhere_searches_the_whole_language),
        cmocka_unit_test(near_word_advice_belongs_to_its_phrase),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
