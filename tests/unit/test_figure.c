/* test_figure.c - numbers as text: decimals, noise, minus zero, and the round trip of full figures.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <float.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "figure.h"
#include "random.h"

typedef struct decimals_case {
    double largest;
    int digits, decimals;
} decimals_case;

static void figure_decimals_of_largest_give_the_digits(void **state)
{
    (void)state;
    static const decimals_case cases[] = {
        {1234.5, 5, 1},  {99.0, 5, 3},     {123456.0, 5, 0}, {1.0, 4, 3},    {1000.0, 4, 0},
        {0.01234, 4, 5}, {-0.01234, 4, 5}, {0.0, 4, 0},      {1e-12, 4, -1}, {999.9, 4, 1}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; ++i) {
        assert_int_equal(figure_decimals(cases[i].largest, cases[i].digits), cases[i].decimals);
    }
    assert_int_equal(figure_decimals(NAN, 5), 0);
    assert_int_equal(figure_decimals(INFINITY, 5), 0);
}

static void figure_exact_decimals_show_the_value(void **state)
{
    (void)state;
    assert_int_equal(figure_exact_decimals(12.0, 4), 0);
    assert_int_equal(figure_exact_decimals(4.8, 4), 1);
    assert_int_equal(figure_exact_decimals(0.1 + 0.2, 4), 1); /* 0.30000000000000004 */
    assert_int_equal(figure_exact_decimals(3.1875, 4), 4);
    assert_int_equal(figure_exact_decimals(1.0 / 3.0, 4), 4);
    assert_int_equal(figure_exact_decimals(NAN, 4), 0);
}

typedef struct rounded_case {
    double value;
    int decimals;
    double noise;
    const char *text;
} rounded_case;

static void figure_rounded_value_reads_as_expected(void **state)
{
    (void)state;
    static const rounded_case cases[] = {
        {1.25, 1, 0.0, "1.3"},        {0.6875 - 1e-14, 3, 0.0, "0.688"},
        {-0.6875, 3, 0.0, "-0.688"},  {-1.75, 1, 0.0, "-1.8"},
        {-0.0, 2, 0.0, "0"},          {-0.001, 2, 0.0, "0"},
        {1e-13, 2, 1e-9, "0"},        {2e-9, 10, 1e-9, "0.0000000020"},
        {123456.7, 0, 0.0, "123457"}, {1.234e-7, -1, 0.0, "1.23e-07"}};
    char text[FIGURE_SIZE];
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; ++i) {
        figure_rounded(text, cases[i].value, cases[i].decimals, 3, cases[i].noise);
        assert_string_equal(text, cases[i].text);
    }
    figure_rounded(text, NAN, 2, 3, 0.0);
    assert_string_equal(text, "-");
    figure_rounded(text, -INFINITY, 2, 3, 0.0);
    assert_string_equal(text, "-inf");
    figure_rounded(text, DBL_MAX, 9, 3, 0.0); /* 309 digits do not fit */
    assert_string_equal(text, "1.80e+308");
}

/* The C library rounds exactly; beyond a share of 1e-11 from a half the two must agree. */
static void figure_rounded_agrees_with_the_library(void **state)
{
    (void)state;
    random_source source = {11};
    for (int i = 0; i < 50000; ++i) {
        const int decimals = random_index(&source, 10);
        const double value =
            random_between(&source, -1.0, 1.0) * pow(10.0, random_index(&source, 6));
        const double places = fabs(value) * pow(10.0, decimals);
        if (fabs(places - floor(places) - 0.5) < 2e-11 * places) {
            continue;
        }
        char text[FIGURE_SIZE];
        char exact[FIGURE_SIZE];
        snprintf(exact, sizeof exact, "%.*f", decimals, value);
        figure_exact(text, value, decimals);
        assert_string_equal(text, places < 0.5 && value < 0.0 ? exact + 1 : exact);
        figure_rounded(text, value, decimals, 3, 0.0);
        assert_string_equal(text, places < 0.5 ? "0" : exact);
    }
}

static void figure_exact_keeps_its_decimals(void **state)
{
    (void)state;
    char text[FIGURE_SIZE];
    figure_exact(text, 0.0, 2);
    assert_string_equal(text, "0.00");
    figure_exact(text, -0.001, 2);
    assert_string_equal(text, "0.00");
    figure_exact(text, -12.5, 0);
    assert_string_equal(text, "-13");
    figure_exact(text, 1e300, 2);
    assert_string_equal(text, "1.0000000000000001e+300");
}

static void figure_given_is_as_it_was_written(void **state)
{
    (void)state;
    static const struct {
        double value;
        int most;
        const char *text;
    } cases[] = {{12.0, 3, "12"},        {2.5, 3, "2.5"},       {0.1 + 0.2, 3, "0.3"},
                 {2.0 / 3.0, 2, "0.67"}, {-0.125, 3, "-0.125"}, {0.0, 3, "0"},
                 {0.0004, 3, "0"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char text[FIGURE_SIZE];
        figure_given(text, cases[i].value, cases[i].most);
        assert_string_equal(text, cases[i].text);
    }
}

/* Any double must read back as itself: a pseudo-random walk over the bit patterns. */
static void figure_full_any_double_reads_back(void **state)
{
    (void)state;
    uint64_t bits = 88172645463325252ULL;
    for (int i = 0; i < 20000; ++i) {
        bits ^= bits << 13; /* xorshift, G. Marsaglia 2003 */
        bits ^= bits >> 7;
        bits ^= bits << 17;
        double value = 0.0;
        memcpy(&value, &bits, sizeof value);
        if (isfinite(value)) {
            char text[FIGURE_SIZE];
            figure_full(text, value);
            const double back = strtod(text, NULL);
            assert_memory_equal(&back, &value, sizeof value);
        }
    }
}

static void figure_full_is_as_short_as_it_can_be(void **state)
{
    (void)state;
    char text[FIGURE_SIZE];
    figure_full(text, 0.1);
    assert_string_equal(text, "0.1");
    figure_full(text, -0.0);
    assert_string_equal(text, "0");
    figure_full(text, 23.9);
    assert_string_equal(text, "23.9");
    figure_full(text, NAN);
    assert_string_equal(text, "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(figure_decimals_of_largest_give_the_digits),
        cmocka_unit_test(figure_exact_decimals_show_the_value),
        cmocka_unit_test(figure_rounded_value_reads_as_expected),
        cmocka_unit_test(figure_rounded_agrees_with_the_library),
        cmocka_unit_test(figure_exact_keeps_its_decimals),
        cmocka_unit_test(figure_given_is_as_it_was_written),
        cmocka_unit_test(figure_full_any_double_reads_back),
        cmocka_unit_test(figure_full_is_as_short_as_it_can_be),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
