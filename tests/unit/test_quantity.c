/* test_quantity.c - numbers, fractions, units and dimensions as they are written.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <string.h>

#include "quantity.h"

typedef struct length_case {
    const char *name, *text;
    size_t number, unit; /* bytes of the number, and of the unit behind it and one blank */
} length_case;

static const length_case length_cases[] = {
    {"number_whole_is_all_digits", "12 ft", 2, 2},
    {"number_fraction_counts_before_a_length", "5/8 in", 3, 2},
    {"number_mixed_counts_before_a_length", "4-1/2 in", 5, 2},
    {"number_fraction_counts_without_blank", "1/4in", 3, 0},
    {"number_fraction_is_operator_without_unit", "5/8 ", 1, 0},
    {"number_fraction_is_operator_before_area", "5/8 in^2", 1, 0},
    {"number_fraction_is_operator_before_force", "5/8 kip", 1, 0},
    {"number_mixed_is_operator_with_blanks", "1 - 3/8 in", 1, 0},
    {"number_exponent_counts", "6e-6 per degF", 4, 8},
    {"number_exponent_needs_digits", "6e ", 1, 0},
    {"number_point_needs_digits", "6. ", 1, 0},
    {"unit_product_is_taken_whole", "3 kip-ft/rad x", 1, 10},
    {"unit_power_is_one_digit", "3 in^2 x", 1, 4},
    {"unit_power_of_two_digits_stops", "3 in^22", 1, 2},
    {"unit_stops_before_a_name", "3 kip/half", 1, 3},
    {"unit_is_no_prefix_of_a_word", "3 inches", 1, 0},
    {"unit_percent_counts", "3 % x", 1, 1},
};

static void check_lengths(void **state)
{
    const length_case *c = *state;
    const size_t number = quantity_number_length(c->text, strlen(c->text));
    assert_int_equal(number, c->number);
    if (c->unit > 0) {
        const char *behind = c->text + number + 1;
        assert_int_equal(quantity_unit_length(behind, strlen(behind)), c->unit);
    }
}

static void number_reads_decimals_fractions_and_mixed(void **state)
{
    (void)state;
    const struct {
        const char *text;
        double value;
    } cases[] = {{"12", 12.0},   {"0.25", 0.25}, {".5", 0.5},
                 {"6e-6", 6e-6}, {"5/8", 0.625}, {"1-3/8", 1.375}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        double value;
        assert_true(quantity_number(cases[i].text, strlen(cases[i].text), &value));
        assert_close(value, cases[i].value, 1e-15, 0.0);
    }
}

static void number_refuses_what_is_not_finite(void **state)
{
    (void)state;
    double value;
    assert_false(quantity_number("1e999", 5, &value));
    assert_false(quantity_number("1/0", 3, &value));
    const char *longest = "11111111111111111111111111111111111111111";
    assert_false(quantity_number(longest, strlen(longest), &value));
}

static void spell_unit_knows_usual_slips(void **state)
{
    (void)state;
    const char *cases[][2] = {{"kips", "kip"}, {"KSI", "ksi"}, {"ft2", "ft^2"}, {"Feet", "ft"},
                              {"mpa", "MPa"},  {"lbs", "lb"},  {"days", "day"}, {"IN4", "in^4"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char text[32];
        assert_true(quantity_spell_unit(cases[i][0], strlen(cases[i][0]), text, sizeof text));
        assert_string_equal(text, cases[i][1]);
    }
    char text[32];
    assert_false(quantity_spell_unit("furlong", 7, text, sizeof text));
    assert_false(quantity_spell_unit("area", 4, text, sizeof text));
}

static void multiply_adds_exponents_and_keeps_an_angle(void **state)
{
    (void)state;
    const kl_dimension length = {.length = 1};
    const kl_dimension force = {.force = 1};
    const kl_dimension angle = {.is_angle = true};
    const kl_dimension number = {0};
    kl_dimension d;
    assert_true(quantity_multiply(force, length, -1, &d));
    assert_int_equal(d.force, 1);
    assert_int_equal(d.length, -1);
    assert_true(quantity_multiply(angle, number, 1, &d));
    assert_true(d.is_angle);
    assert_true(quantity_multiply(angle, angle, -1, &d));
    assert_false(d.is_angle);
    assert_true(quantity_multiply(angle, length, 1, &d));
    assert_false(d.is_angle);
}

static void power_needs_whole_exponents(void **state)
{
    (void)state;
    const kl_dimension area = {.length = 2};
    kl_dimension d;
    assert_true(quantity_power(area, 0.5, &d));
    assert_int_equal(d.length, 1);
    assert_false(quantity_power(area, 0.25, &d));
    assert_false(quantity_power(area, 1000.0, &d));
}

/* NIST SP 811: standard gravity 9.806 65 m/s^2; so 2400 kg/m^3 weighs 23 535.96 N/m^3. */
static void weigh_multiplies_a_density_by_gravity(void **state)
{
    (void)state;
    double value = 2400.0;
    kl_dimension d = {.length = -4, .force = 1, .time = 2};
    quantity_weigh(KL_MEASURE_UNIT_WEIGHT, &value, &d);
    assert_close(value, 23535.96, 1e-14, 0.0);
    assert_true(kl_dimension_equal(d, kl_measure_dimension(KL_MEASURE_UNIT_WEIGHT)));
    value = 2400.0;
    d = (kl_dimension){.length = -4, .force = 1, .time = 2};
    quantity_weigh(KL_MEASURE_STRESS, &value, &d);
    assert_close(value, 2400.0, 0.0, 0.0);
}

static void say_gives_the_article(void **state)
{
    (void)state;
    char text[64];
    quantity_say((kl_dimension){.length = 2}, text, sizeof text);
    assert_string_equal(text, "an area");
    quantity_say((kl_dimension){.force = 1}, text, sizeof text);
    assert_string_equal(text, "a force");
}

enum { LENGTH_CASES = sizeof length_cases / sizeof length_cases[0], OTHER_CASES = 7 };

int main(void)
{
    struct CMUnitTest tests[LENGTH_CASES + OTHER_CASES] = {
        cmocka_unit_test(number_reads_decimals_fractions_and_mixed),
        cmocka_unit_test(number_refuses_what_is_not_finite),
        cmocka_unit_test(spell_unit_knows_usual_slips),
        cmocka_unit_test(multiply_adds_exponents_and_keeps_an_angle),
        cmocka_unit_test(power_needs_whole_exponents),
        cmocka_unit_test(weigh_multiplies_a_density_by_gravity),
        cmocka_unit_test(say_gives_the_article),
    };
    for (size_t i = 0; i < LENGTH_CASES; i++) {
        union {
            const length_case *from;
            void *to;
        } state = {.from = &length_cases[i]}; /* cmocka hands the row back untouched */
        tests[OTHER_CASES + i] = (struct CMUnitTest){
            .name = length_cases[i].name, .test_func = check_lengths, .initial_state = state.to};
    }
    return cmocka_run_group_tests(tests, NULL, NULL);
}
