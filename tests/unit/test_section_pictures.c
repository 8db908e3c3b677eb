/* test_section_pictures.c - pictures of sections, tendons and concrete: what they show against geometry and closed forms.
 * SPDX-License-Identifier: MIT */
#include "bound_text.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "pictured.h"

/* ---- models ------------------------------------------------------------------------------------------------- */

/* The box of tests/published/box_with_void.kline: 144 in by 72 in, A = 3408 in^2, centroid 38.0423 in up, I = 2.50668e6 in^4, worked
 * by rectangles there; P = 3408 kip in its lower kern point, so that P / A is 1 ksi and the top has no stress. */
static const char box_text[] =
    "sections gross\nmaterial conc { modulus 4000 ksi; unit_weight 150 pcf }\n"
    "prestressing strand { ultimate 270 ksi; yield 243 ksi; modulus 28500 ksi; relaxation none }\n"
    "section box_section { outline (0 in, 0 in), (144 in, 0 in), (144 in, 72 in), (0 in, 72 in)\n"
    "  void (12 in, 6 in), (132 in, 6 in), (132 in, 64 in), (12 in, 64 in) }\n"
    "node A at (0 ft, 0 ft)\nnode B at (100 ft, 0 ft)\n"
    "member girder from A to B section box_section of conc { weightless }\n"
    "support A pinned\nsupport B roller\n"
    "tendon kern in girder { of strand; strands 61 area 0.3 in^2; count 2\n"
    "  profile from bottom { anchor at start height 38.0423 in - 21.66 in; anchor at end height "
    "38.0423 in - 21.66 in straight }\n"
    "  friction 0; wobble 0 per ft; seating 0 in; jack start force 1704 kip; bonded grouted }\n"
    "load pull { stress kern; uniform 1 klf on girder }\n";

/* A parabola of 40 ft, from 10 in above the centroid to 12 in below, in a section of 3 ft; wobble alone takes force. */
static const char parabola_text[] =
    "site { humidity 70 % }\nconcrete mix { strength 6 ksi; unit_weight 150 pcf; modulus 4000 ksi; "
    "creep aashto 2020; shrinkage aashto 2020 }\n"
    "prestressing strand { ultimate 270 ksi; yield 243 ksi; modulus 28500 ksi; relaxation none }\n"
    "reinforcing grade60 { yield 60 ksi; modulus 29000 ksi }\n"
    "section r { rectangle width 2 ft depth 3 ft; rebar 5 area 1 in^2 depth 3 in of grade60 }\n"
    "section large { rectangle width 2 ft depth 4 ft; line top }\n"
    "section low { rectangle width 2 ft depth 3 ft; line top }\n"
    "node A at (0 ft, 0 ft)\nnode B at (40 ft, 0 ft)\nnode C at (0 ft, 20 ft)\n"
    "node D at (40 ft, 20 ft)\n"
    "member beam from A to B section r of mix\n"
    "member taper from C to D of mix { section low at start; section large at 20 ft; section low "
    "at "
    "end }\n"
    "support A pinned\nsupport B roller\nsupport C pinned\nsupport D roller\n"
    "tendon T1 in beam { of strand; strands 7 area 0.217 in^2; count 3\n"
    "  profile from bottom { anchor at start height 28 in; low at mid height 6 in; anchor at end "
    "height 28 in }\n"
    "  friction 0; wobble 0.002 per ft; seating 0.25 in; jack start ratio 0.75; bonded grouted; "
    "duct 3 in }\n"
    "stage cast at 0 day { place beam taper }\nstage pulled at 14 day { stress T1 }\n"
    "stage late at 1000 day { }\n";

/* ---- reading a picture --------------------------------------------------------------------------------------- */

/* Points of the next element of this kind and class from *at on, which is moved behind it. @return how many */
static int read_points(const char **at, const char *element, const char *class, double *points)
{
    char start[80];
    snprintf(start, sizeof start, "<%s class=\"%s\" points=\"", element, class);
    const char *found = strstr(*at, start);
    if (!found) {
        return 0;
    }
    int count = 0;
    const char *text = found + strlen(start);
    while (*text != '"') {
        char *end;
        points[count++] = strtod(text, &end);
        assert_true(end > text && count < 2000);
        text = end + strspn(end, " ,");
    }
    *at = text;
    return count / 2;
}

static double loop_area(const double *points, int count)
{
    double area = 0.0;
    for (int i = 0; i < count; i++) {
        const double *p = points + 2 * (size_t)i;
        const double *q = points + 2 * (size_t)((i + 1) % count);
        area += 0.5 * (p[0] * q[1] - q[0] * p[1]);
    }
    return fabs(area);
}

static double attribute(const char *svg, const char *name)
{
    const char *at = strstr(svg, name);
    assert_non_null(at);
    return strtod(at + strlen(name) + 2, NULL);
}

/* The shown value of a pixel of the first field's upright axis. */
static double value_of(const char *svg, double pixel)
{
    const double y0 = attribute(svg, "data-y0");
    const double y1 = attribute(svg, "data-y1");
    const double p0 = attribute(svg, "data-py0");
    const double p1 = attribute(svg, "data-py1");
    return y0 + (pixel - p0) / (p1 - p0) * (y1 - y0);
}

static double station_of(const char *svg, double pixel)
{
    const double x0 = attribute(svg, "data-x0");
    const double x1 = attribute(svg, "data-x1");
    const double p0 = attribute(svg, "data-px0");
    const double p1 = attribute(svg, "data-px1");
    return x0 + (pixel - p0) / (p1 - p0) * (x1 - x0);
}

static void assert_absent(const solved *s, const char *name, const selection_wish *wish)
{
    drawing d;
    assert_null(picture(&d, s, name, wish));
    assert_int_equal(d.status, KL_NOT_THERE);
    assert_non_null(d.absent);
    drawing_free(&d);
}

/* ---- sections ------------------------------------------------------------------------------------------------ */

/* Concrete less void, in pixels, against 144 in of width drawn so wide. */
static void a_section_is_drawn_to_scale(void **state)
{
    (void)state;
    solved s;
    drawing d;
    double outer[2000];
    double inner[2000];
    solved_open(&s, box_text);
    const selection_wish wish = selection_wish_none();
    const char *svg = picture(&d, &s, "sections", &wish);
    assert_non_null(svg);
    const int corners = read_points(&svg, "polygon", "concrete", outer);
    const int hollow = read_points(&svg, "polygon", "void", inner);
    assert_int_equal(corners, 4);
    assert_int_equal(hollow, 4);
    double left = HUGE_VAL;
    double right = -HUGE_VAL;
    for (int i = 0; i < corners; i++) {
        left = fmin(left, outer[2 * i]);
        right = fmax(right, outer[2 * i]);
    }
    const double inches = 144.0 / (right - left); /* to the pixel; written to a hundredth */
    const double area = (loop_area(outer, corners) - loop_area(inner, hollow)) * inches * inches;
    assert_close(area, 3408.0, 2e-4, 0.0);
    drawing_free(&d);
    assert_says(&s, "sections", &wish, ">3408 in^2<");
    assert_says(&s, "sections", &wish, ">144 in<");
    assert_says(&s, "sections", &wish, ">72 in<");
    assert_says(&s, "sections", &wish, ">38.042 in<");
    assert_says(&s, "sections", &wish, ">3.55 kip/ft<"); /* 3408/144 ft^2 x 0.15 */
    solved_close(&s);
}

static void sections_show_bars_ducts_and_tapers(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, parabola_text);
    selection_wish wish = selection_wish_none();
    assert_says(&s, "sections", &wish, ">beam at 20 ft: section r<"); /* the low point */
    assert_says(&s, "sections", &wish, ">T1, 6 in up<");
    assert_says(&s, "sections", &wish, ">5 bars, 1 in^2 each<");
    assert_says(&s, "sections", &wish, ">taper at 20 ft: section large<");
    assert_says(&s, "sections", &wish, ">along taper, heights ");
    drawing d;
    const char *svg = picture(&d, &s, "sections", &wish);
    int ducts = 0;
    for (const char *at = svg; (at = strstr(at, "class=\"duct\"")) != NULL; at++) {
        ducts++;
    }
    assert_int_equal(ducts, 3);
    drawing_free(&d);
    wish.member = solved_index(&s, KL_KIND_MEMBER, "taper");
    wish.at = 10.0 * FT; /* 3.5 ft deep: 2 ft x (3.5 ft)^3 / 12 = 7.146 ft^4 = 148,176 in^4 */
    assert_says(&s, "sections", &wish, ">taper at 10 ft: between low and large<");
    assert_says(&s, "sections", &wish, ">148176 in^4<");
    wish.at = 41.0 * FT;
    assert_absent(&s, "sections", &wish);
    solved_close(&s);
}

/* ---- stress through a section --------------------------------------------------------------------------------- */

/* At the bottom P e y / I = 3408 x 21.66 x 38.0423 / 2.50668e6 = 1.1203 ksi besides P / A; 1 klf on 100 ft brings 15,000 kip-in,
 * 0.2276 ksi there and 0.2032 ksi at the top. */
static void the_split_of_stress_is_that_of_the_kern(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, box_text);
    const selection_wish wish = selection_wish_none();
    assert_says(&s, "section_stress", &wish, ">Stress through the height of girder at 50 ft, ksi<");
    assert_says(&s, "section_stress", &wish, ">-1.000<");
    assert_says(&s, "section_stress", &wish, ">+1.000<");
    assert_says(&s, "section_stress", &wish, ">-1.120<");
    assert_says(&s, "section_stress", &wish, ">-0.203<");
    assert_says(&s, "section_stress", &wish, ">+0.228<");
    assert_says(&s, "section_stress", &wish, ">-1.893<");
    solved_close(&s);
}

/* All the numbers under the strips of a staged model: the last is the sum of the others, at top and bottom. */
static void the_parts_of_a_stress_add_up(void **state)
{
    (void)state;
    solved s;
    drawing d;
    double numbers[40];
    int count = 0;
    solved_open(&s, parabola_text);
    selection_wish wish = selection_wish_none();
    wish.member = solved_index(&s, KL_KIND_MEMBER, "beam");
    const char *svg = picture(&d, &s, "section_stress", &wish);
    assert_non_null(svg);
    assert_non_null(strstr(svg, "data-step=\"3\""));
    for (const char *at = svg; (at = strstr(at, "<text class=\"small")) != NULL; at++) {
        const char *text = strchr(at, '>') + 1;
        char *end;
        const double number = strtod(text, &end);
        if (end > text && *end == '<' && count < 40) {
            numbers[count++] = number;
        }
    }
    assert_true(count >= 10 && count % 2 == 0); /* top, bottom, top, bottom … */
    for (int face = 0; face < 2; face++) {
        double sum = 0.0;
        for (int i = face; i < count - 2; i += 2) {
            sum += numbers[i];
        }
        assert_close(sum, numbers[count - 2 + face], 0.0, 0.0005 * count); /* as rounded */
    }
    drawing_free(&d);
    solved_close(&s);
}

/* ---- tendons ---------------------------------------------------------------------------------------------------- */

/* y = -12 in + 22 in (x / 20 ft - 1)^2 about the centroid, which is the line. */
static void a_tendon_is_drawn_at_its_heights(void **state)
{
    (void)state;
    solved s;
    drawing d;
    double points[2000];
    solved_open(&s, parabola_text);
    const selection_wish wish = selection_wish_none();
    const char *svg = picture(&d, &s, "tendons", &wish);
    assert_non_null(svg);
    const char *at = svg;
    const int count = read_points(&at, "polyline", "c0", points);
    assert_true(count > 100);
    for (int i = 0; i < count; i++) {
        const double u = station_of(svg, points[2 * i]) / 20.0 - 1.0;
        /* pixels are written to a hundredth */
        assert_close(value_of(svg, points[2 * i + 1]), -12.0 + 22.0 * u * u, 0.0, 0.02);
    }
    drawing_free(&d);
    assert_says(&s, "tendons", &wish, ">h 6, e -12<");
    assert_says(&s, "tendons", &wish, ">h 28, e +10<");
    /* 6 in less the duct's half */
    assert_says(&s, "tendons", &wish, ">T1 (3 x 7 strands), least cover 4.5 in at 20 ft<");
    solved_close(&s);
}

/* One end pulled: P exp(-K s), and a set that turns it round at the length z where P K z^2 = E A d for the small K of a nearly
 * straight tendon. The force at the jack is 0.75 x 270 ksi x 1.519 in^2 = 307.6 kip; with s = 40 ft and a little for the curve
 * (8 f^2 / 3 L with f = 22 in: 0.224 ft) the far end has 307.6 exp(-0.002 x 40.224) = 283.8 kip. */
static void the_force_of_a_tendon_falls_by_its_law(void **state)
{
    (void)state;
    solved s;
    drawing d;
    double points[2000];
    solved_open(&s, parabola_text);
    const selection_wish wish = selection_wish_none();
    const char *svg = picture(&d, &s, "tendon_force", &wish);
    assert_non_null(svg);
    const char *at = svg;
    const int count = read_points(&at, "polyline", "c0", points);
    assert_true(count >= 2); /* nearly straight: its ends say most */
    const double jack = 0.75 * 270.0 * 7 * 0.217;
    assert_close(value_of(svg, points[1]), jack, 2e-4, 0.0);
    assert_close(value_of(svg, points[2 * count - 1]), jack * exp(-0.002 * 40.224), 5e-4, 0.0);
    assert_says(&s, "tendon_force", &wish, ">307.6<");
    assert_says(&s, "tendon_force", &wish, ">283.8<");
    assert_says(&s, "tendon_force", &wish, ">stress, ksi<");
    assert_says(&s, "tendon_force", &wish, "<g class=\"step\" data-step=\"3\">");
    drawing_free(&d);
    solved_close(&s);
}

/* Pulled to half, 153.8 kip, then fully; another tendon of the beam later. Each stage shows what had happened by then. */
static void the_force_of_a_tendon_is_that_of_the_pulls_by_then(void **state)
{
    (void)state;
    static const char staged[] =
        "concrete mix { strength 6 ksi; unit_weight 150 pcf; modulus 4000 ksi }\n"
        "prestressing strand { ultimate 270 ksi; yield 243 ksi; modulus 28500 ksi }\n"
        "section r { rectangle width 2 ft depth 3 ft }\n"
        "node A at (0 ft, 0 ft)\nnode B at (40 ft, 0 ft)\n"
        "member beam from A to B section r of mix\nsupport A pinned\nsupport B roller\n"
        "tendon T1 in beam { of strand; strands 7 area 0.217 in^2\n"
        "  profile from bottom { anchor at start height 18 in; anchor at end height 18 in straight "
        "}\n"
        "  friction 0; wobble 0 per ft; seating 0 in; jack start ratio 0.75; unbonded }\n"
        "tendon T2 like T1 { raise 3 in; jack start ratio 0.6 }\n"
        "stage cast at 0 day { place beam }\nstage half at 1 day { stress T1 to 50 % }\n"
        "stage full at 2 day { stress T1 }\nstage rest at 3 day { stress T2 }\n";
    static const struct {
        const char *stage;
        bool has_half, has_full, has_other;
    } cases[] = {
        {"half", true, false, false}, {"full", false, true, false}, {"rest", false, true, true}};
    solved s;
    solved_open(&s, staged);
    selection_wish wish = selection_wish_none();
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        drawing d;
        wish.stage = solved_index(&s, KL_KIND_STAGE, cases[i].stage);
        const char *svg = picture(&d, &s, "tendon_force", &wish);
        assert_non_null(svg);
        assert_int_equal(strstr(svg, ">at jacking, to 50 %<") != NULL, cases[i].has_half);
        assert_int_equal(strstr(svg, ">153.8<") != NULL, cases[i].has_half);
        assert_int_equal(strstr(svg, ">307.6<") != NULL, cases[i].has_full);
        assert_int_equal(strstr(svg, ">Force along T2<") != NULL, cases[i].has_other);
        drawing_free(&d);
    }
    wish.stage = solved_index(&s, KL_KIND_STAGE, "cast");
    assert_absent(&s, "tendon_force", &wish);
    solved_close(&s);
}

/* ---- concrete by its age ---------------------------------------------------------------------------------------- */

/* Placed at 28 days, stressed 14 days later: J(42 d, 42 d) = 1 / E = 250 millionths a ksi for E = 4000 ksi. */
static void concrete_is_shown_by_its_age(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, parabola_text);
    const selection_wish wish = selection_wish_none();
    assert_says(&s, "creep", &wish, ">250.0 at 42<");
    assert_says(&s, "creep", &wish, ">J, millionths a ksi<");
    assert_says(&s, "shrinkage", &wish, ">shrinkage, millionths<");
    /* ACI 209R-92: 6 ksi x 42 / (4 + 0.85 x 42) */
    assert_says(&s, "strength", &wish, ">6.348 at 42<");
    assert_says(&s, "strength", &wish, "data-decades=\"x\"");
    solved_close(&s);
}

static void what_a_model_does_not_have_is_told(void **state)
{
    (void)state;
    static const char *const names[] = {"creep", "shrinkage", "strength"};
    solved s;
    solved_open(&s, box_text);
    selection_wish wish = selection_wish_none();
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        assert_absent(&s, names[i], &wish);
    }
    solved_close(&s);
    solved_open(&s, parabola_text);
    wish.member = solved_index(&s, KL_KIND_MEMBER, "taper");
    assert_absent(&s, "tendons", &wish);
    assert_absent(&s, "tendon_force", &wish);
    solved_close(&s);
}

static void every_picture_is_sound(void **state)
{
    (void)state;
    static const char *const texts[] = {box_text, parabola_text};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        solved s;
        solved_open(&s, texts[i]);
        assert_true(assert_pictures_are_sound(&s) > 12);
        solved_close(&s);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_section_is_drawn_to_scale),
        cmocka_unit_test(sections_show_bars_ducts_and_tapers),
        cmocka_unit_test(the_split_of_stress_is_that_of_the_kern),
        cmocka_unit_test(the_parts_of_a_stress_add_up),
        cmocka_unit_test(a_tendon_is_drawn_at_its_heights),
        cmocka_unit_test(the_force_of_a_tendon_falls_by_its_law),
        cmocka_unit_test(the_force_of_a_tendon_is_that_of_the_pulls_by_then),
        cmocka_unit_test(concrete_is_shown_by_its_age),
        cmocka_unit_test(what_a_model_does_not_have_is_told),
        cmocka_unit_test(every_picture_is_sound),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
