/* test_expression.c - the value of expressions, read through `let` and a node's station.
 *
 * A node on a member takes a length, a stage a time, a friction a number: whatever is between comes out in m, s, 1.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include "text_case.h"

typedef struct value_case {
    const char *name, *text;
    double value; /* m */
} value_case;

/* 1 ft = 0.3048 m and 1 in = 0.0254 m, both exact (NIST SP 811). */
static const value_case value_cases[] = {
    {"product_binds_tighter_than_sum", "2 ft + 3 * 4 ft", 14 * 0.3048},
    {"power_binds_tighter_than_sign", "10 ft - 2^2 * 1 ft", 6 * 0.3048},
    {"power_groups_to_the_right", "2^3^2 * 1 ft", 512 * 0.3048},
    {"power_may_be_negative", "2^-1 * 1 ft", 0.5 * 0.3048},
    {"sign_binds_looser_than_power", "5 ft + -2^2 * 1 ft", 0.3048},
    {"difference_groups_to_the_left", "10 ft - 3 ft - 2 ft", 5 * 0.3048},
    {"quotient_groups_to_the_left", "12 ft / 3 / 2", 2 * 0.3048},
    {"compound_length_is_one_value", "12 ft 6 in", 12.5 * 0.3048},
    {"compound_length_takes_fractions", "2 * 3 ft 6-1/2 in", 2 * (3 * 0.3048 + 6.5 * 0.0254)},
    {"minus_between_lengths_subtracts", "12 ft - 3 in", 12 * 0.3048 - 3 * 0.0254},
    {"fraction_before_length_is_literal", "2 ft * 5/8", 2 * 0.3048 * 0.625},
    {"mixed_number_is_literal", "1-3/8 in * 2", 2.75 * 0.0254},
    {"per_gives_a_reciprocal", "3 / 0.5 per m", 6.0},
    {"parentheses_group", "(2 ft + 3 ft) * 2", 10 * 0.3048},
    {"sqrt_halves_the_dimension", "sqrt(16 m^2)", 4.0},
    {"sqrt_of_products", "sqrt(3 m * 12 m)", 6.0},
    {"max_takes_many", "max(1 m, 3 m, 2 m)", 3.0},
    {"min_takes_many", "min(4 m, 3 m, 5 m)", 3.0},
    {"abs_drops_the_sign", "abs(3 m - 5 m)", 2.0},
    {"sin_takes_degrees", "sin(30 deg) * 2 m", 1.0},
    {"cos_takes_products_of_angles", "cos(2 * 30 deg) * 2 m", 1.0},
    {"tan_takes_radians", "tan(pi / 4 * 1 rad) * 2 m", 2.0},
    {"atan_gives_an_angle", "tan(atan(0.75)) * 4 m", 3.0},
    {"let_names_stand_for_values", "2 * half", 2 * 48 * 0.3048},
    {"percent_is_a_hundredth", "50 % * 4 m", 2.0},
    {"force_over_stress_is_area", "sqrt(4 MN / 1 MPa)", 2.0},
    {"moment_over_force_is_length", "50 kip-ft / 10 kip", 5 * 0.3048},
    {"line_break_inside_parentheses_goes_on", "(1 m +\n 2 m)", 3.0},
};

static double read_station(const char *expression, bool *ok)
{
    char text[400];
    text_case c;
    snprintf(text, sizeof text, "let half = 48 ft\nnode C on cap at %s\n", expression);
    text_case_read(&c, text);
    *ok = c.status == KL_OK && c.document.phrase_count == 1;
    if (!*ok) {
        text_case_print(&c);
    }
    const double value =
        *ok ? phrase_value(&c.document.phrases[0], "at")->station->quantity.value : 0.0;
    text_case_free(&c);
    return value;
}

static void check_value(void **state)
{
    const value_case *row = *state;
    bool ok;
    const double value = read_station(row->text, &ok);
    assert_true(ok);
    assert_close(value, row->value, 1e-14, 0.0);
}

static void deep_parentheses_up_to_the_limit_are_read(void **state)
{
    (void)state;
    char text[160];
    size_t n = 0;
    for (int i = 0; i < 60; i++) {
        text[n++] = '(';
    }
    n += (size_t)snprintf(text + n, 8, "1 m");
    for (int i = 0; i < 60; i++) {
        text[n++] = ')';
    }
    text[n] = '\0';
    bool ok;
    const double value = read_station(text, &ok);
    assert_true(ok);
    assert_close(value, 1.0, 0.0, 0.0);
}

enum { VALUE_CASES = sizeof value_cases / sizeof value_cases[0], OTHER_CASES = 1 };

int main(void)
{
    struct CMUnitTest tests[VALUE_CASES + OTHER_CASES] = {
        cmocka_unit_test(deep_parentheses_up_to_the_limit_are_read)};
    for (size_t i = 0; i < VALUE_CASES; i++) {
        union {
            const value_case *from;
            void *to;
        } state = {.from = &value_cases[i]};
        tests[OTHER_CASES + i] = (struct CMUnitTest){
            .name = value_cases[i].name, .test_func = check_value, .initial_state = state.to};
    }
    return cmocka_run_group_tests(tests, NULL, NULL);
}
