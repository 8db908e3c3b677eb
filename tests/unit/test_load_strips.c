/* test_load_strips.c - spread loads on a member: which values are told, and where.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "load_strips.h"

#define MOST_TOLD 20000

typedef struct told_list {
    char (*text)[LOAD_STRIPS_TEXT];
    double *station;
    int count;
} told_list;

static void
take(void *context, const load_strip *over, double station, double share, const char *text)
{
    told_list *told = context;
    (void)over;
    assert_true(told->count < MOST_TOLD);
    assert_true(share > 0.0);
    strcpy(told->text[told->count], text);
    told->station[told->count++] = station;
}

static const kl_display metric = {.system = KL_UNITS_SI};

/* Strips whose largest value is `most` kN/m, 20 px high, on one member at `pixels` to the metre. */
static load_strips started(double most, double pixels)
{
    load_strips s;
    const load_scale scale = {&metric, pixels, 20.0, 1e3 * most};
    assert_int_equal(load_strips_start(&s, &scale, 1), KL_OK);
    return s;
}

/* kN/m at equal distances between two stations. */
static void put(load_strips *s, double from, double to, int count, const double *values)
{
    load_strip strip = {
        .direction = {0.0, -1.0}, .count = count, .side = 1, .word = "", .after = ""};
    for (int i = 0; i < count; i++) {
        strip.station[i] = from + (to - from) * i / (count - 1);
        strip.value[i] = 1e3 * values[i];
        strip.height = fmax(strip.height, 20.0 * fabs(strip.value[i]) / s->scale.most);
    }
    assert_non_null(load_strips_push(s, &strip));
}

static void put_even(load_strips *s, double from, double to, double value)
{
    put(s, from, to, 2, (const double[]){value, value});
}

static told_list tell(load_strips *s)
{
    told_list told = {malloc(MOST_TOLD * sizeof *told.text),
                      malloc(MOST_TOLD * sizeof *told.station), 0};
    assert_non_null(told.text);
    assert_non_null(told.station);
    load_strips_tell(s, take, &told);
    load_strips_free(s);
    return told;
}

static void told_free(told_list *told)
{
    free(told->text);
    free(told->station);
}

static int times_told(const told_list *told, const char *text)
{
    int times = 0;
    for (int i = 0; i < told->count; i++) {
        times += strcmp(told->text[i], text) == 0;
    }
    return times;
}

/* Everything that a reader cannot guess from the others: the ends, and where a curve turns between them. */
static void curved_strip_is_told_at_its_ends_and_turns(void **state)
{
    (void)state;
    static const struct {
        double values[LOAD_STRIP_POINTS];
        int count, told;
        double stations[LOAD_STRIP_PLACES];
        const char *texts[LOAD_STRIP_PLACES];
    } cases[] = {
        {{5, 5, 5, 5, 5}, 5, 1, {4}, {"5 kN/m"}},
        {{8, 5, 2, 5, 8}, 5, 3, {0, 4, 8}, {"8 kN/m", "2 kN/m", "8 kN/m"}},
        {{2, 5, 8, 5, 2}, 5, 3, {0, 4, 8}, {"2 kN/m", "8 kN/m", "2 kN/m"}},
        {{4, 2, 5, 8, 6}, 5, 4, {0, 2, 6, 8}, {"4 kN/m", "2 kN/m", "8 kN/m", "6 kN/m"}},
        {{8, 6, 5, 4, 3}, 5, 2, {0, 8}, {"8 kN/m", "3 kN/m"}}, /* falls all along */
        {{8, 5, 2, 2, 2}, 5, 2, {0, 8}, {"8 kN/m", "2 kN/m"}}, /* stays as it ends */
        {{2, 2, 2, 5, 8}, 5, 2, {0, 8}, {"2 kN/m", "8 kN/m"}},
        {{-8, -2, -8}, 3, 3, {0, 4, 8}, {"8 kN/m", "2 kN/m", "8 kN/m"}}, /* upward */
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        load_strips s = started(8.0, 100.0);
        put(&s, 0.0, 8.0, cases[i].count, cases[i].values);
        told_list told = tell(&s);
        assert_int_equal(told.count, cases[i].told);
        for (int k = 0; k < told.count; k++) {
            assert_string_equal(told.text[k], cases[i].texts[k]);
            assert_close(told.station[k], cases[i].stations[k], 0.0, 1e-9);
        }
        told_free(&told);
    }
}

/* One that begins above another's ends and turn is told with it there. */
static void curved_strip_under_others_is_told_with_them(void **state)
{
    (void)state;
    load_strips s = started(8.0, 100.0);
    put(&s, 0.0, 8.0, 3, (const double[]){8, 2, 8});
    put_even(&s, 0.0, 8.0, 1.0);
    told_list told = tell(&s);
    assert_int_equal(told.count, 3);
    assert_int_equal(times_told(&told, "8 + 1 kN/m"), 2);
    assert_int_equal(times_told(&told, "2 + 1 kN/m"), 1);
    told_free(&told);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(curved_strip_is_told_at_its_ends_and_turns),
        cmocka_unit_test(curved_strip_under_others_is_told_with_them),
    };
    return cmocka_run_group_tests_name("strips of loads", tests, NULL, NULL);
}
