/* test_drawing.c - scales and their round values, labels that keep apart, and texts that stay texts.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "drawing.h"
#include "letter_width.h"
#include "mem.h"
#include "plot.h"
#include "random.h"
#include "scale.h"

/* ---- scales ---------------------------------------------------------------------------------------------- */

static void ticks_are_round_and_within_the_scale(void **state)
{
    (void)state;
    static const struct {
        double low, high;
        int about;
        double first, step;
        int count, decimals;
    } cases[] = {
        {0.0, 97.0, 5, 0.0, 20.0, 5, 0},     {-5726.0, 12374.0, 4, -5000.0, 5000.0, 4, 0},
        {0.0, 1.0, 5, 0.0, 0.2, 6, 1},       {0.12, 0.13, 10, 0.12, 0.001, 11, 3},
        {-3e-6, 3e-6, 6, -3e-6, 1e-6, 7, 6}, {0.0, 2.0, 1, 0.0, 2.0, 2, 0},
        {1e9, 3e9, 4, 1e9, 5e8, 5, 0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const scale s = scale_over(cases[i].low, cases[i].high, 0.0, 500.0);
        const scale_ticks t = scale_ticks_of(&s, cases[i].about);
        assert_close(t.first, cases[i].first, 1e-9, 1e-15);
        assert_close(t.step, cases[i].step, 1e-9, 0.0);
        assert_int_equal(t.count, cases[i].count);
        assert_int_equal(t.decimals, cases[i].decimals);
    }
}

static void a_scale_of_one_value_still_has_a_length(void **state)
{
    (void)state;
    const scale none = scale_over(0.0, 0.0, 10.0, 100.0);
    assert_close(scale_place(&none, 0.0), 60.0, 0.0, 1e-9);
    const scale one = scale_over(7.0, 7.0, 10.0, -100.0);
    assert_close(scale_place(&one, 7.0), -40.0, 0.0, 1e-9);
    assert_true(scale_place(&one, 7.1) < scale_place(&one, 7.0)); /* up the page */
}

static void a_widened_range_ends_at_round_values(void **state)
{
    (void)state;
    double low = -5726.0;
    double high = 12374.0;
    scale_round(&low, &high, 5);
    assert_close(low, -10000.0, 1e-12, 0.0);
    assert_close(high, 15000.0, 1e-12, 0.0);
    low = 0.0;
    high = 100.0; /* round already */
    scale_round(&low, &high, 5);
    assert_close(low, 0.0, 0.0, 1e-12);
    assert_close(high, 100.0, 1e-12, 0.0);
}

/* Ticks of the widened range fall on both of its ends, whatever it was and however many are asked for. */
static void a_widened_range_has_ticks_at_its_ends(void **state)
{
    (void)state;
    random_source source = {5};
    for (int i = 0; i < 300; i++) {
        double low = random_between(&source, -100.0, 0.0);
        double high = random_between(&source, 0.1, 100.0);
        const double held[2] = {low, high};
        const int about = 2 + i % 7;
        scale_round(&low, &high, about);
        assert_true(low <= held[0] && high >= held[1]);
        const scale s = scale_over(low, high, 0.0, 100.0);
        const scale_ticks t = scale_ticks_of(&s, about);
        assert_close(t.first, low, 1e-9, 1e-9);
        assert_close(t.first + (t.count - 1) * t.step, high, 1e-9, 1e-9);
        assert_true(t.count <= about + 1);
    }
}

static void a_size_is_rounded_down_to_one_two_or_five(void **state)
{
    (void)state;
    static const double cases[][2] = {{1.0, 1.0},  {1.99, 1.0},     {2.0, 2.0},
                                      {4.99, 2.0}, {5.0, 5.0},      {937.0, 500.0},
                                      {0.3, 0.2},  {0.0061, 0.005}, {1e6, 1e6}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        assert_close(scale_round_down(cases[i][0]), cases[i][1], 1e-12, 0.0);
    }
}

/* ---- labels ---------------------------------------------------------------------------------------------- */

/* Owned by the field that gets it. */
static char *number_text(int i)
{
    char *text = mem_array(12, 1);
    assert_non_null(text);
    snprintf(text, 12, "%d", i);
    return text;
}

static bool boxes_overlap(const label_box *a, const label_box *b)
{
    return a->x < b->x + b->width && b->x < a->x + a->width && a->y < b->y + b->height &&
           b->y < a->y + a->height;
}

/* Places scattered at random on a page with room for all of them: no two labels touch, none leaves the page, none lies on the
 * line through the middle. */
static void labels_keep_apart_from_each_other_and_from_lines(void **state)
{
    (void)state;
    random_source source = {11};
    label_field field = {0};
    assert_int_equal(label_field_take_line(&field, 0.0, 300.0, 800.0, 300.0), KL_OK);
    for (int i = 0; i < 60; i++) {
        const label_wish wish = {.x = random_between(&source, 0.0, 800.0),
                                 .y = random_between(&source, 0.0, 600.0),
                                 .width = 40.0,
                                 .height = 12.0,
                                 .weight = 1.0,
                                 .text = number_text(i)};
        assert_int_equal(label_field_wish(&field, &wish), KL_OK);
    }
    assert_int_equal(label_field_place(&field, 800.0, 600.0), KL_OK);
    const label_box line = {0.0, 300.0, 800.0, 0.0};
    for (size_t i = 0; i < field.wish_count; i++) {
        const label_box *box = &field.wishes[i].box;
        assert_true(field.wishes[i].placed);
        assert_true(box->x >= 0.0 && box->x + box->width <= 800.0);
        assert_true(box->y >= 0.0 && box->y + box->height <= 600.0);
        assert_false(boxes_overlap(box, &line));
        for (size_t k = 0; k < i; k++) {
            assert_false(boxes_overlap(box, &field.wishes[k].box));
        }
    }
    label_field_free(&field);
}

static void the_weightier_label_gets_the_nearer_room_and_the_idle_one_goes(void **state)
{
    (void)state;
    label_field field = {0};
    const label_wish light = {
        .x = 50.0, .y = 10.0, .width = 90.0, .height = 12.0, .weight = 0.0, .text = number_text(1)};
    label_wish heavy = light;
    heavy.weight = 5.0;
    heavy.text = number_text(2);
    assert_int_equal(label_field_wish(&field, &light), KL_OK);
    assert_int_equal(label_field_wish(&field, &heavy), KL_OK);
    assert_int_equal(label_field_place(&field, 100.0, 30.0), KL_OK); /* room for one */
    assert_true(field.wishes[1].placed);
    assert_false(field.wishes[0].placed);
    label_field_free(&field);
}

/* One wish on a page with `count` small things in a corner of 200 by 200 px. The box is {0} when it found no place. */
static label_box placed_among(int count, label_wish wish, bool *touches)
{
    random_source source = {5};
    label_field field = {0};
    for (int i = 0; i < count; i++) {
        const double x = random_between(&source, 0.0, 200.0);
        const double y = random_between(&source, 0.0, 200.0);
        assert_int_equal(label_field_take(&field, (label_box){x, y, 2.0, 3.0}), KL_OK);
    }
    wish.text = number_text(1);
    assert_int_equal(label_field_wish(&field, &wish), KL_OK);
    assert_int_equal(label_field_place(&field, 800.0, 600.0), KL_OK);
    const label_wish *w = &field.wishes[0];
    const label_box box = w->placed ? w->box : (label_box){0};
    *touches = false;
    for (int i = 0; i < count && w->placed; i++) {
        *touches = *touches || boxes_overlap(&box, &field.taken[i]);
    }
    label_field_free(&field);
    return box;
}

/* A hint gives up at the first thing in its way, a label weighs them all: where the label finds a free place close by, the hint
 * stands in it, and a hint never touches anything. */
static void a_hint_stands_where_a_label_would_stand_free(void **state)
{
    (void)state;
    random_source source = {7};
    int stand = 0;
    int gone = 0;
    for (int i = 0; i < 300; i++) {
        const int count = random_index(&source, 1500);
        label_wish wish = {.x = random_between(&source, 0.0, 220.0),
                           .y = random_between(&source, 0.0, 220.0),
                           .width = 20.0,
                           .height = 10.5,
                           .weight = 1.0};
        bool label_touches;
        bool hint_touches;
        const label_box label = placed_among(count, wish, &label_touches);
        wish.optional = true;
        const label_box hint = placed_among(count, wish, &hint_touches);
        assert_false(hint_touches);
        if (hint.width > 0.0) {
            assert_false(label_touches);
            assert_memory_equal(&hint, &label, sizeof hint);
            stand++;
        } else { /* no free place, or one so far away that only a line leads to it */
            const double right = fmax(label.x - wish.x, wish.x - label.x - label.width);
            const double down = fmax(label.y - wish.y, wish.y - label.y - label.height);
            assert_true(label_touches || fmax(right, down) > 11.9);
            gone++;
        }
    }
    assert_true(stand > 50 && gone > 50);
}

static void a_text_is_not_said_twice_close_by(void **state)
{
    (void)state;
    label_field field = {0};
    for (int i = 0; i < 3; i++) { /* 0 and 20 px apart, then 200 */
        const label_wish wish = {.x = i == 2 ? 300.0 : 100.0 + 20.0 * i,
                                 .y = 50.0,
                                 .width = 20.0,
                                 .height = 12.0,
                                 .weight = 1.0,
                                 .text = number_text(7)};
        assert_int_equal(label_field_wish(&field, &wish), KL_OK);
    }
    assert_int_equal(label_field_place(&field, 400.0, 100.0), KL_OK);
    assert_true(field.wishes[0].placed);
    assert_false(field.wishes[1].placed);
    assert_true(field.wishes[2].placed);
    label_field_free(&field);
}

static void letters_add_up(void **state)
{
    (void)state;
    assert_close(letter_width("", 12.0), 0.0, 0.0, 0.0);
    assert_close(letter_width("0123456789", 10.0), 57.0, 1e-12, 0.0); /* digits are all one width */
    assert_true(letter_width("ill", 12.0) < letter_width("mmm", 12.0));
    assert_close(letter_width("\xC3\xA9", 10.0), 8.0, 1e-12, 0.0); /* one letter of two bytes */
}

/* ---- texts ----------------------------------------------------------------------------------------------- */

static void hostile_text_is_shown_and_never_read_as_markup(void **state)
{
    (void)state;
    static const char hostile[] = "</title><script>alert('x')</script>&amp;\"\x01\xE2\x80\xAE";
    static const char shown[] = "&lt;/title&gt;&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;"
                                "&amp;amp;&quot;\xEF\xBF\xBD\xEF\xBF\xBD";
    drawing d;
    drawing_start(&d, 200.0, 100.0, hostile, hostile);
    drawing_text(&d, "", 10.0, 20.0, ANCHOR_START, hostile);
    drawing_label(&d, "", 50.0, 50.0, 1.0, hostile);
    const char *svg = drawing_finish(&d);
    assert_non_null(svg);
    int found = 0;
    for (const char *at = svg; (at = strstr(at, shown)) != NULL; at++) {
        found++;
    }
    assert_int_equal(found, 4);
    assert_null(strstr(svg, "<script"));
    char *page = drawing_page(&d);
    assert_non_null(page);
    assert_null(strstr(page, "var("));
    assert_non_null(strstr(page, "<style>"));
    drawing_page_free(page);
    drawing_free(&d);
}

/* What is not a number gets no say in where things are. */
static void values_without_end_leave_a_readable_file(void **state)
{
    (void)state;
    drawing d;
    drawing_start(&d, 200.0, 100.0, "t", "");
    const double points[] = {0.0, 0.0, INFINITY, (double)NAN, 1e300, -1e300};
    drawing_course(&d, "c0", points, 3);
    const char *svg = drawing_finish(&d);
    assert_non_null(svg);
    assert_null(strstr(svg, "nan"));
    assert_null(strstr(svg, "inf"));
    drawing_free(&d);
}

/* ---- what scripts read ----------------------------------------------------------------------------------- */

static void what_a_step_draws_stands_in_its_group_labels_too(void **state)
{
    (void)state;
    drawing d;
    drawing_start(&d, 300.0, 200.0, "t", "");
    drawing_open_step(&d, 3);
    drawing_line(&d, "c0", 0.0, 150.0, 300.0, 150.0);
    drawing_label(&d, "", 50.0, 50.0, 1.0, "of three");
    drawing_close_step(&d);
    drawing_open_step(&d, DRAWING_NO_STEP);
    drawing_label(&d, "", 150.0, 50.0, 1.0, "of none");
    drawing_close_step(&d);
    const char *svg = drawing_finish(&d);
    assert_non_null(svg);
    assert_non_null(strstr(svg, "<g class=\"step\" data-step=\"3\">\n<line class=\"c0\""));
    const char *label = strstr(svg, "of three");
    const char *other = strstr(svg, "of none");
    const char *group = strstr(strstr(svg, "</g>"), "<g class=\"step\" data-step=\"3\">\n<text");
    assert_true(group && label && other && group < label);
    assert_true(strstr(label, "</g>") < other); /* the second one is outside */
    assert_null(strstr(group + 1, "<g"));
    drawing_free(&d);
}

/* A folded step has its label within its own group, and takes no room from the others. */
static void what_a_folded_step_draws_makes_no_room(void **state)
{
    (void)state;
    const double across[] = {0.0, 50.0, 200.0, 50.0};
    double place[2];
    for (int folded = 0; folded < 2; folded++) {
        drawing d;
        drawing_start(&d, 200.0, 100.0, "folded", "");
        if (folded) {
            drawing_open_folded_step(&d, 2);
            drawing_course(&d, "c0", across, 2);
            drawing_label(&d, "small", 100.0, 50.0, 1.0, "hidden");
            drawing_close_step(&d);
        }
        drawing_label(&d, "small", 100.0, 50.0, 1.0, "seen");
        const char *svg = drawing_finish(&d);
        assert_non_null(svg);
        if (folded) {
            const char *group = strstr(svg, "<g class=\"step folded\" data-step=\"2\">");
            assert_non_null(group);
            assert_true(strstr(group, ">hidden<") < strstr(group, "</g>"));
        }
        const char *text = strstr(svg, ">seen<");
        assert_non_null(text);
        while (*text != '<') {
            text--;
        }
        assert_int_equal(sscanf(strstr(text, " y=\""), " y=\"%lf", &place[folded]), 1);
        drawing_free(&d);
    }
    assert_close(place[1], place[0], 0.0, 1e-9);
}

/* The axes' group gives the line from values to pixels that the plot itself uses. */
static void axes_tell_which_values_lie_where(void **state)
{
    (void)state;
    drawing d;
    drawing_start(&d, 500.0, 300.0, "t", "");
    const plot_axis x = {.low = 0.0, .high = 97.5, .label = "station, ft", .tight = true};
    const plot_axis y = {.low = -300.0, .high = 900.0, .label = "moment, kip-ft", .downward = true};
    const plot p = plot_start(&d, (label_box){0.0, 0.0, 500.0, 300.0}, &x, &y);
    const char *axes = strstr(d.text, "<g class=\"axes field\" ");
    assert_non_null(axes);
    double at[8];
    assert_int_equal(
        sscanf(axes,
               "<g class=\"axes field\" data-x0=\"%lf\" data-x1=\"%lf\" data-px0=\"%lf\" "
               "data-px1=\"%lf\" data-y0=\"%lf\" data-y1=\"%lf\" data-py0=\"%lf\" "
               "data-py1=\"%lf\"",
               &at[0], &at[1], &at[2], &at[3], &at[4], &at[5], &at[6], &at[7]),
        8);
    assert_close(at[1], 97.5, 1e-12, 0.0);
    assert_close(plot_x(&p, 30.0), at[2] + (30.0 - at[0]) / (at[1] - at[0]) * (at[3] - at[2]), 1e-9,
                 0.0);
    assert_close(plot_y(&p, 250.0), at[6] + (250.0 - at[4]) / (at[5] - at[4]) * (at[7] - at[6]),
                 1e-9, 0.0);
    assert_true(at[4] <= -300.0 && at[5] >= 900.0);
    assert_true(plot_y(&p, 250.0) > plot_y(&p, 0.0)); /* downward */
    drawing_free(&d);
}

/* Many heavy labels at the top of a field find room elsewhere than among the key's entries. */
static void no_label_enters_the_rows_of_a_key(void **state)
{
    (void)state;
    static const plot_key_entry key[] = {{"c0", "first"}, {"c1", "second"}};
    drawing d;
    drawing_start(&d, 600.0, 300.0, "t", "");
    const plot p = plot_start(&d, (label_box){0.0, 20.0, 600.0, 260.0},
                              &(plot_axis){.low = 0.0, .high = 10.0, .label = "x", .tight = true},
                              &(plot_axis){.low = 0.0, .high = 1.0, .label = "y", .tight = true});
    for (int i = 0; i < 12; i++) {
        char text[40];
        snprintf(text, sizeof text, "limit number %d of them", i);
        drawing_label(&d, "small", plot_x(&p, 5.0), p.top, 2.0, text);
    }
    plot_key(&p, key, 2);
    const char *svg = drawing_finish(&d);
    assert_non_null(svg);
    const char *entry = strstr(svg, ">first<");
    while (strncmp(entry, "<text", 5) != 0) {
        entry--;
    }
    const double row = strtod(strstr(entry, " y=\"") + 4, NULL);
    int labels = 0;
    for (const char *at = svg; (at = strstr(at, ">limit number ")) != NULL; at++) {
        const char *tag = at;
        while (strncmp(tag, "<text", 5) != 0) {
            tag--;
        }
        const double y = strtod(strstr(tag, " y=\"") + 4, NULL);
        assert_true(fabs(y - row) >= DRAWING_SMALL);
        labels++;
    }
    assert_int_equal(labels, 12);
    drawing_free(&d);
}

/* Points on a straight line need not be drawn, those of a corner and of a way back must. */
static void a_straight_piece_of_a_course_is_drawn_by_its_ends(void **state)
{
    (void)state;
    static const double points[] = {0.0,  10.0, 10.0, 10.0, 20.0, 10.0, 30.0,
                                    40.0, 40.0, 70.0, 30.0, 40.0, 30.0, 40.5};
    drawing d;
    drawing_start(&d, 100.0, 100.0, "t", "");
    drawing_course(&d, "c0", points, 7);
    assert_non_null(strstr(d.text, "points=\"0 10 20 10 40 70 30 40 30 40.5\""));
    drawing_free(&d);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ticks_are_round_and_within_the_scale),
        cmocka_unit_test(a_scale_of_one_value_still_has_a_length),
        cmocka_unit_test(a_widened_range_ends_at_round_values),
        cmocka_unit_test(a_widened_range_has_ticks_at_its_ends),
        cmocka_unit_test(a_size_is_rounded_down_to_one_two_or_five),
        cmocka_unit_test(labels_keep_apart_from_each_other_and_from_lines),
        cmocka_unit_test(the_weightier_label_gets_the_nearer_room_and_the_idle_one_goes),
        cmocka_unit_test(a_hint_stands_where_a_label_would_stand_free),
        cmocka_unit_test(a_text_is_not_said_twice_close_by),
        cmocka_unit_test(letters_add_up),
        cmocka_unit_test(hostile_text_is_shown_and_never_read_as_markup),
        cmocka_unit_test(values_without_end_leave_a_readable_file),
        cmocka_unit_test(what_a_step_draws_stands_in_its_group_labels_too),
        cmocka_unit_test(what_a_folded_step_draws_makes_no_room),
        cmocka_unit_test(no_label_enters_the_rows_of_a_key),
        cmocka_unit_test(a_straight_piece_of_a_course_is_drawn_by_its_ends),
        cmocka_unit_test(axes_tell_which_values_lie_where),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
