/* test_unit_table.c - factors against NIST Special Publication 811 (2008), Guide for the Use of the International
 * System of Units, appendix B.8, printed there to seven digits; products and shown units against each other.
 * SPDX-License-Identifier: MIT */
#include "kernline/units.h"

#include <math.h>
#include <string.h>

#include "assert_close.h"
#include "kernline/status.h"
#include "unit_text.h"

typedef struct unit_case {
    const char *text;
    double factor; /* in m, N, Pa, rad, s, K */
    kl_dimension dimension;
} unit_case;

static void check_unit(const unit_case *c)
{
    kl_unit unit = {0};
    if (!unit_text_read(c->text, strlen(c->text), &unit)) {
        fail_msg("`%s` is not read as a unit", c->text);
    }
    assert_close(unit.factor, c->factor, 5e-7, 0.0);
    if (!kl_dimension_equal(unit.dimension, c->dimension)) {
        fail_msg("`%s` has another dimension", c->text);
    }
}

/* {length, force, time, temperature} */
static const unit_case nist_cases[] = {
    {"in", 2.54e-2, {1, 0, 0, 0, false}},  /* inch */
    {"ft", 3.048e-1, {1, 0, 0, 0, false}}, /* foot */
    {"mm", 1e-3, {1, 0, 0, 0, false}},     /* prefixes: table 5 */
    {"cm", 1e-2, {1, 0, 0, 0, false}},
    {"m", 1.0, {1, 0, 0, 0, false}},
    {"km", 1e3, {1, 0, 0, 0, false}},
    {"lb", 4.448222, {0, 1, 0, 0, false}},    /* pound-force */
    {"kip", 4.448222e3, {0, 1, 0, 0, false}}, /* kip (1 kip = 1000 lbf) */
    {"N", 1.0, {0, 1, 0, 0, false}},
    {"kN", 1e3, {0, 1, 0, 0, false}},
    {"MN", 1e6, {0, 1, 0, 0, false}},
    {"psi", 6.894757e3, {-2, 1, 0, 0, false}}, /* pound-force per square inch */
    {"ksi", 6.894757e6, {-2, 1, 0, 0, false}}, /* kip per square inch */
    {"psf", 4.788026e1, {-2, 1, 0, 0, false}}, /* pound-force per square foot */
    {"ksf", 4.788026e4, {-2, 1, 0, 0, false}},
    {"Pa", 1.0, {-2, 1, 0, 0, false}},
    {"kPa", 1e3, {-2, 1, 0, 0, false}},
    {"MPa", 1e6, {-2, 1, 0, 0, false}},
    {"GPa", 1e9, {-2, 1, 0, 0, false}},
    {"bar", 1e5, {-2, 1, 0, 0, false}},        /* bar */
    {"plf", 1.459390e1, {-1, 1, 0, 0, false}}, /* pound-force per foot */
    {"klf", 1.459390e4, {-1, 1, 0, 0, false}},
    {"lb/in", 1.751268e2, {-1, 1, 0, 0, false}}, /* pound-force per inch */
    /* pound per cubic foot 1.601846 E+01 kg/m^3, times standard gravity 9.80665 m/s^2 */
    {"pcf", 1.601846e1 * 9.80665, {-3, 1, 0, 0, false}},
    {"kip-ft", 1.355818e3, {1, 1, 0, 0, false}}, /* foot pound-force: 1.355818 */
    {"kip-in", 1.129848e2, {1, 1, 0, 0, false}}, /* pound-force inch: 1.129848 E-01 */
    {"lb-ft", 1.355818, {1, 1, 0, 0, false}},
    {"lb-in", 1.129848e-1, {1, 1, 0, 0, false}},
    {"kN-m", 1e3, {1, 1, 0, 0, false}},
    {"N-m", 1.0, {1, 1, 0, 0, false}},
    {"deg", 1.745329e-2, {0, 0, 0, 0, true}}, /* degree (angle) */
    {"rad", 1.0, {0, 0, 0, 0, true}},
    {"degF", 5.555556e-1, {0, 0, 0, 1, false}}, /* degree Fahrenheit (temperature interval) */
    {"degC", 1.0, {0, 0, 0, 1, false}},
    {"day", 8.64e4, {0, 0, 1, 0, false}},    /* day */
    {"hour", 3.6e3, {0, 0, 1, 0, false}},    /* hour */
    {"year", 3.1536e7, {0, 0, 1, 0, false}}, /* year (365 days) */
    {"%", 0.01, {0, 0, 0, 0, false}},
    {"kg", 1.0, {-1, 1, 2, 0, false}},          /* kg = N s^2/m */
    {"in^2", 6.4516e-4, {2, 0, 0, 0, false}},   /* square inch */
    {"ft^2", 9.290304e-2, {2, 0, 0, 0, false}}, /* square foot */
    {"ft^3", 2.831685e-2, {3, 0, 0, 0, false}}, /* cubic foot */
    {"in^4", 4.162314e-7, {4, 0, 0, 0, false}}, /* inch to the fourth power */
    {"per degF", 1.8, {0, 0, 0, -1, false}},
    {"per ft", 3.280840, {-1, 0, 0, 0, false}},
    {"kip*ft", 1.355818e3, {1, 1, 0, 0, false}},
    {"kN/m^2", 1e3, {-2, 1, 0, 0, false}},
    {"N*m/rad", 1.0, {1, 1, 0, 0, false}},
    {"kN*m^-1", 1e3, {-1, 1, 0, 0, false}},
    {"kg/m^3", 1.0, {-4, 1, 2, 0, false}},
};

static void unit_text_read_every_unit_has_its_published_factor(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof nist_cases / sizeof nist_cases[0]; i++) {
        check_unit(&nist_cases[i]);
    }
}

static void kl_unit_table_every_word_is_found_and_was_checked(void **state)
{
    (void)state;
    size_t count = 0;
    const kl_unit *words = kl_unit_table(&count);
    assert_int_equal(count, 38); /* the words of the language's list */
    for (size_t i = 0; i < count; i++) {
        assert_ptr_equal(kl_unit_find(words[i].word, strlen(words[i].word)), &words[i]);
        assert_true(strlen(words[i].help) > 0);
        bool checked = false;
        for (size_t j = 0; j < sizeof nist_cases / sizeof nist_cases[0]; j++) {
            checked = checked || strcmp(nist_cases[j].text, words[i].word) == 0;
        }
        assert_true(checked);
    }
}

static void kl_unit_find_other_spellings_are_no_units(void **state)
{
    (void)state;
    static const char *const wrong[] = {"",     "KSI",   "kips", "Ft",   "i",
                                        "inch", "kip-f", "k",    "degK", "ft "};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        assert_null(kl_unit_find(wrong[i], strlen(wrong[i])));
    }
    assert_string_equal(kl_unit_find("ksi/ft", 3)->word, "ksi");
}

static void unit_text_read_broken_products_are_refused(void **state)
{
    (void)state;
    static const char *const wrong[] = {"kip/",
                                        "/ft",
                                        "kip//ft",
                                        "ft^",
                                        "ft^0",
                                        "ft^-",
                                        "ft^2.5",
                                        "ft^12",
                                        "per ",
                                        "per",
                                        "per  ft",
                                        "kip ft",
                                        "kip-",
                                        "ft/2",
                                        "2 ft",
                                        "per per ft",
                                        "m^9*m^9*m^9*m^9*m^9*m^9*m^9*m^9*m^9*m^9*m^9*m^9"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        kl_unit unit = {.factor = 7.0};
        if (unit_text_read(wrong[i], strlen(wrong[i]), &unit)) {
            fail_msg("`%s` is read as a unit", wrong[i]);
        }
        assert_close(unit.factor, 7.0, 0.0, 0.0);
    }
}

static void unit_text_read_only_a_single_word_is_an_angle_or_a_mass(void **state)
{
    (void)state;
    kl_unit unit = {0};
    assert_true(unit_text_read("deg", 3, &unit) && unit.dimension.is_angle);
    assert_true(unit_text_read("kg", 2, &unit) && unit.is_mass);
    assert_true(unit_text_read("rad/ft", 6, &unit) && !unit.dimension.is_angle);
    assert_true(unit_text_read("per rad", 7, &unit) && !unit.dimension.is_angle);
    assert_true(unit_text_read("kg/m^3", 6, &unit) && !unit.is_mass);
}

static void kl_show_every_measure_is_shown_in_its_own_dimension(void **state)
{
    (void)state;
    for (int system = KL_UNITS_US; system <= KL_UNITS_SI; system++) {
        const kl_display display = {.system = (kl_unit_system)system};
        for (int m = 0; m < KL_MEASURE_COUNT; m++) {
            const char *text = kl_show_unit(&display, (kl_measure)m);
            kl_unit unit = {0};
            assert_true(unit_text_read(text, strlen(text), &unit));
            assert_true(kl_dimension_equal(unit.dimension, kl_measure_dimension((kl_measure)m)));
            assert_close(kl_show_factor(&display, (kl_measure)m), unit.factor, 0.0, 0.0);
            assert_true(strlen(kl_measure_name((kl_measure)m)) > 0);
        }
    }
}

static void kl_show_units_of_the_systems_are_those_of_the_language(void **state)
{
    (void)state;
    const kl_display us = {.system = KL_UNITS_US};
    const kl_display si = {.system = KL_UNITS_SI};
    assert_string_equal(kl_show_unit(&us, KL_MEASURE_MOMENT), "kip-ft");
    assert_string_equal(kl_show_unit(&si, KL_MEASURE_MOMENT), "kN-m");
    assert_string_equal(kl_show_unit(&us, KL_MEASURE_EXPANSION), "per degF");
    assert_string_equal(kl_show_unit(&si, KL_MEASURE_STRESS), "MPa");
    assert_string_equal(kl_show_unit(NULL, KL_MEASURE_STATION), "ft");
    /* 100 kip-ft = 135.5818 kN-m; 270 ksi = 1861.584 MPa (NIST factors above) */
    const double moment = 100.0 * kl_show_factor(&us, KL_MEASURE_MOMENT);
    assert_close(moment / kl_show_factor(&si, KL_MEASURE_MOMENT), 135.5818, 5e-7, 0.0);
    const double stress = 270.0 * kl_show_factor(&us, KL_MEASURE_STRESS);
    assert_close(stress / kl_show_factor(&si, KL_MEASURE_STRESS), 1861.584, 5e-7, 0.0);
}

static void kl_show_replaced_unit_is_used_when_it_fits(void **state)
{
    (void)state;
    kl_display display = {.system = KL_UNITS_SI};
    display.unit_of[KL_MEASURE_STRESS] = "kPa";
    display.unit_of[KL_MEASURE_FORCE] = "ksi"; /* no force: passed over */
    display.unit_of[KL_MEASURE_STATION] = "furlong";
    assert_string_equal(kl_show_unit(&display, KL_MEASURE_STRESS), "kPa");
    assert_close(kl_show_factor(&display, KL_MEASURE_STRESS), 1e3, 0.0, 0.0);
    assert_string_equal(kl_show_unit(&display, KL_MEASURE_FORCE), "kN");
    assert_close(kl_show_factor(&display, KL_MEASURE_FORCE), 1e3, 0.0, 0.0);
    assert_string_equal(kl_show_unit(&display, KL_MEASURE_STATION), "m");
}

static void kl_dimension_name_known_and_other_dimensions_have_names(void **state)
{
    (void)state;
    static const struct {
        kl_dimension dimension;
        const char *name;
    } cases[] = {
        {{0, 0, 0, 0, false}, "pure number"},
        {{0, 0, 0, 0, true}, "angle"},
        {{1, 0, 0, 0, false}, "length"},
        {{0, 1, 0, 0, false}, "force"},
        {{-1, 1, 0, 0, false}, "force per length"},
        {{1, 1, 0, 0, false}, "moment"},
        {{-2, 1, 0, 0, false}, "stress"},
        {{0, 0, 0, -1, false}, "per temperature"},
        {{2, 0, 0, 1, false}, "length^2 temperature"},
        {{-5, 2, -1, 0, false}, "force^2 per length^5 time"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char text[64];
        kl_dimension_name(cases[i].dimension, text, sizeof text);
        assert_string_equal(text, cases[i].name);
    }
    char little[6];
    kl_dimension_name(cases[4].dimension, little, sizeof little);
    assert_string_equal(little, "force");
    kl_dimension_name(cases[9].dimension, little, sizeof little);
    assert_string_equal(little, "force");
    kl_dimension_name(cases[9].dimension, NULL, 0);
}

static void kl_status_text_every_status_has_its_own(void **state)
{
    (void)state;
    for (int i = 0; i < KL_STATUS_COUNT; i++) {
        assert_true(strlen(kl_status_text((kl_status)i)) > 0);
        for (int j = 0; j < i; j++) {
            assert_string_not_equal(kl_status_text((kl_status)i), kl_status_text((kl_status)j));
        }
    }
    assert_non_null(kl_status_text(KL_STATUS_COUNT));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(unit_text_read_every_unit_has_its_published_factor),
        cmocka_unit_test(kl_unit_table_every_word_is_found_and_was_checked),
        cmocka_unit_test(kl_unit_find_other_spellings_are_no_units),
        cmocka_unit_test(unit_text_read_broken_products_are_refused),
        cmocka_unit_test(unit_text_read_only_a_single_word_is_an_angle_or_a_mass),
        cmocka_unit_test(kl_show_every_measure_is_shown_in_its_own_dimension),
        cmocka_unit_test(kl_show_units_of_the_systems_are_those_of_the_language),
        cmocka_unit_test(kl_show_replaced_unit_is_used_when_it_fits),
        cmocka_unit_test(kl_dimension_name_known_and_other_dimensions_have_names),
        cmocka_unit_test(kl_status_text_every_status_has_its_own),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
