/* test_prestress_frames.c - textbook prestressed beams with the tendon as a tendon.
 *
 * Handbooks take slopes as small: P is the horizontal part and the primary moment P e. Here P runs along the tendon, so
 * that the concrete has P cos(theta), P cos(theta) e and P sin(theta). Each beam is held three times: to the closed form
 * with true angles (integrated in this file), to the published value where the tendon is level, and, with all ordinates
 * a thousandth of the published, to the published value itself: what is left is theta^2 / 2.
 *
 * Sources: T. G. Hicks (ed.), Handbook of Civil Engineering Calculations, 2nd ed., pp. 2.78 and 2.85 to 2.87; handbook
 * camber formulas. Ordinates are y, up from the centroid.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "tendon_beam.h"

#define FT    0.3048
#define INCH  0.0254
#define KIP   4448.2216152605
#define SMALL 1e-3

/* The same beam with all ordinates a thousandth. */
static tendon_beam flat(const tendon_beam *b)
{
    tendon_beam f = *b;
    for (int i = 0; i < f.count; i++) {
        f.spans[i].y0 *= SMALL;
        f.spans[i].ym *= SMALL;
        f.spans[i].y1 *= SMALL;
    }
    return f;
}

static double concrete(const solved *s, kl_quantity quantity, double x)
{
    return solved_part(s, solved_under(s, "pull"), KL_CONCRETE_SHARE, quantity, "b", x);
}

static double total(const solved *s, kl_quantity quantity, double x)
{
    return solved_value(s, solved_under(s, "pull"), quantity, "b", x);
}

/* Everything along the beam against the closed form with true angles. */
static void assert_true_angles(const solved *s, const tendon_beam *b)
{
    const double support = tendon_beam_secondary(b);
    const double largest = b->force * fabs(b->spans[0].ym);
    double offset = 0.0;
    for (int i = 0; i < b->count; i++) {
        const tendon_span *of = &b->spans[i];
        for (int n = 1; n < 20; n++) {
            const double x = of->length * (n - 0.3) / 20; /* off the corners */
            const double share = b->count < 2 ? 0.0 : i == 0 ? x / of->length : 1 - x / of->length;
            const double secondary = support * share;
            assert_close(total(s, KL_MOMENT, offset + x), secondary, 1e-8, 1e-9 * largest);
            assert_close(concrete(s, KL_MOMENT, offset + x),
                         secondary + tendon_beam_primary(b, i, x), 1e-8, 1e-9 * largest);
            assert_close(concrete(s, KL_AXIAL, offset + x), -b->force * tendon_beam_cosine(of, x),
                         1e-8, 0.0);
            const double along = b->count < 2 ? 0.0 : (i == 0 ? support : -support) / of->length;
            assert_close(concrete(s, KL_SHEAR, offset + x),
                         along + b->force * tendon_beam_cosine(of, x) * tendon_beam_slope(of, x),
                         1e-7, 1e-8 * b->force);
        }
        offset += of->length;
    }
    assert_close(total(s, KL_DEFLECTION, 0.5 * b->spans[0].length), tendon_beam_camber(b), 1e-8,
                 0.0);
}

/* A published value at small slopes: v is that of the flat beam, times what the quantity is proportional to. */
static void assert_published(double v, double published, double tolerance)
{
    assert_close(v / SMALL, published, tolerance, 0.0);
}

/* Off the published value by more than rounding and by less than the steepest theta^2 / 2. */
static void assert_explained(double v, double published, double steepest)
{
    const double difference = 1.0 - v / published;
    assert_true(difference > 0.0);
    assert_true(difference < 0.5 * steepest * steepest);
}

/* ---- simple beams -------------------------------------------------------------------------------------------- */

/* L = 30 m, E = 34e6 kPa, A = 1.2 m^2, I = 0.35 m^4, fibres 0.75 m and 0.95 m; P = 6000 kN, e = -0.10 m at the ends,
 * -0.75 m at midspan; dead load 32 kN/m. Camber 5 P a L^2 / 48 EI + P e L^2 / 8 EI. */
static const tendon_beam parabola = {
    .spans = {{.length = 30, .y0 = -0.10, .ym = -0.75, .y1 = -0.10}},
    .count = 1,
    .modulus = 34e9,
    .area = 1.2,
    .inertia = 0.35,
    .to_top = 0.75,
    .to_bottom = 0.95,
    .force = 6e6,
    .loads = "load dead { uniform 32 kN/m on b }\nload both { stress T1; uniform 32 kN/m on b }\n"};

static void simple_beam_with_a_parabola(void **state)
{
    (void)state;
    solved s;
    const double steepest = 4 * 0.65 / 30;
    tendon_beam_run(&s, &parabola);
    assert_true_angles(&s, &parabola);
    assert_close(concrete(&s, KL_MOMENT, 15), -4500e3, 1e-9, 0.0); /* level there */
    assert_close(concrete(&s, KL_AXIAL, 15), -6000e3, 1e-9, 0.0);
    const kl_state both = solved_under(&s, "both");
    assert_close(solved_part(&s, both, KL_CONCRETE_SHARE, KL_MOMENT, "b", 15), -900e3, 1e-8, 0.0);
    assert_close(solved_value(&s, both, KL_STRESS_TOP, "b", 15), -3071.428571e3, 1e-9, 0.0);
    assert_close(solved_value(&s, both, KL_STRESS_BOTTOM, "b", 15), -7442.857143e3, 1e-9, 0.0);
    assert_explained(total(&s, KL_DEFLECTION, 15), 0.03639705882, steepest);
    assert_explained(-solved_node(&s, solved_under(&s, "pull"), KL_SWAY, "C"), 0.004411764706,
                     steepest);
    solved_close(&s);
    const tendon_beam low = flat(&parabola);
    tendon_beam_run(&s, &low);
    assert_published(total(&s, KL_DEFLECTION, 15), 0.03639705882, 1e-8);
    assert_close(solved_node(&s, solved_under(&s, "pull"), KL_SWAY, "C"), -0.004411764706, 1e-8,
                 0.0);
    solved_close(&s);
}

/* L = 60 ft, E = 4500 ksi, A = 560 in^2, I = 125000 in^4, fibres 20 in; P = 400 kip; harped from -4 in at the ends to
 * -14 in between 0.4 L and 0.6 L, or straight at -9 in. Dead load 0.05 kip/in. */
static const tendon_beam harped = {
    .spans =
        {{.length = 60 * FT, .y0 = -4 * INCH, .ym = -14 * INCH, .y1 = -4 * INCH, .harp = 24 * FT}},
    .count = 1,
    .modulus = 4500 * KIP / (INCH * INCH),
    .area = 560 * INCH * INCH,
    .inertia = 125000 * INCH * INCH * INCH * INCH,
    .to_top = 20 * INCH,
    .to_bottom = 20 * INCH,
    .force = 400 * KIP,
    .loads = "load both { stress T1; uniform 0.6 klf on b }\n"};

static void simple_beam_with_harped_and_straight_tendons(void **state)
{
    (void)state;
    const double ksi = KIP / (INCH * INCH);
    solved s;
    tendon_beam_run(&s, &harped);
    assert_true_angles(&s, &harped);
    assert_close(concrete(&s, KL_MOMENT, 30 * FT), -5600 * KIP * INCH, 1e-9, 0.0);
    const kl_state both = solved_under(&s, "both");
    assert_close(solved_value(&s, both, KL_STRESS_TOP, "b", 30 * FT), -0.3366857143 * ksi, 1e-9,
                 0.0);
    assert_close(solved_value(&s, both, KL_STRESS_BOTTOM, "b", 30 * FT), -1.091885714 * ksi, 1e-9,
                 0.0);
    assert_explained(concrete(&s, KL_MOMENT, 12 * FT), -3600 * KIP * INCH, 10.0 / 288);
    assert_explained(total(&s, KL_DEFLECTION, 30 * FT), 0.546816 * INCH, 10.0 / 288);
    solved_close(&s);
    tendon_beam other = flat(&harped);
    tendon_beam_run(&s, &other);
    assert_published(total(&s, KL_DEFLECTION, 30 * FT), 0.546816 * INCH, 1e-8);
    assert_published(concrete(&s, KL_MOMENT, 12 * FT), -3600 * KIP * INCH, 1e-8);
    solved_close(&s);
    other = harped;
    other.spans[0] =
        (tendon_span){.length = 60 * FT, .y0 = -9 * INCH, .ym = -9 * INCH, .y1 = -9 * INCH};
    tendon_beam_run(&s, &other); /* straight: nothing slopes, the published values themselves */
    assert_true_angles(&s, &other);
    assert_close(concrete(&s, KL_MOMENT, 20 * FT), -3600 * KIP * INCH, 1e-9, 0.0);
    assert_close(total(&s, KL_DEFLECTION, 30 * FT), 0.41472 * INCH, 1e-9, 0.0);
    solved_close(&s);
}

/* L = 100 ft, F = 860 kip, eccentricities 1, 30 and -3 in below: slope 0.05867 at 20 ft, V = -50,453 lb (the page rounds
 * to -50,480), M = -20.04 F = -17,234,400 in-lb (page: -17,230,000). */
static void simple_beam_shear_of_a_parabola(void **state)
{
    (void)state;
    tendon_beam b = harped;
    b.spans[0] =
        (tendon_span){.length = 100 * FT, .y0 = -1 * INCH, .ym = -30 * INCH, .y1 = 3 * INCH};
    b.force = 860 * KIP;
    solved s;
    tendon_beam_run(&s, &b);
    assert_true_angles(&s, &b);
    const double theta = atan(70.4 / 1200);
    assert_close(concrete(&s, KL_SHEAR, 20 * FT), -860 * KIP * sin(theta), 1e-8, 0.0);
    assert_close(concrete(&s, KL_MOMENT, 20 * FT), -860 * KIP * 20.04 * INCH * cos(theta), 1e-8,
                 0.0);
    assert_explained(concrete(&s, KL_SHEAR, 20 * FT), -50.4533333 * KIP, 70.4 / 1200);
    assert_explained(concrete(&s, KL_MOMENT, 20 * FT), -17234.4 * KIP * INCH, 70.4 / 1200);
    solved_close(&s);
    b = flat(&b);
    tendon_beam_run(&s, &b);
    assert_published(concrete(&s, KL_SHEAR, 20 * FT), -50.4533333 * KIP, 1e-8);
    assert_published(concrete(&s, KL_MOMENT, 20 * FT), -17234.4 * KIP * INCH, 1e-8);
    solved_close(&s);
}

/* ---- two spans ----------------------------------------------------------------------------------------------- */

/* 2 x 100 ft, E = 619200 ksf, A = 12 ft^2, I = 40 ft^4, P = 1500 kip, e = -2.2 ft at both midspans, 0 at supports.
 * Secondary moment P a at the middle, secondary reactions P a / L; camber P a (5/48 - 1/16) L^2 / EI. */
static const tendon_beam equal_spans = {
    .spans = {{.length = 100 * FT, .ym = -2.2 * FT}, {.length = 100 * FT, .ym = -2.2 * FT}},
    .count = 2,
    .modulus = 619200 * KIP / (FT * FT),
    .area = 12 * FT * FT,
    .inertia = 40 * FT * FT * FT * FT,
    .to_top = 2 * FT,
    .to_bottom = 3 * FT,
    .force = 1500 * KIP};

static void two_equal_spans(void **state)
{
    (void)state;
    solved s;
    tendon_beam_run(&s, &equal_spans);
    assert_true_angles(&s, &equal_spans);
    kl_state under = solved_under(&s, "pull");
    const double x = tendon_beam_secondary(&equal_spans);
    assert_close(solved_reaction(&s, under, "A", KL_Y), x / (100 * FT), 1e-8, 0.0);
    assert_close(solved_reaction(&s, under, "B", KL_Y), -2 * x / (100 * FT), 1e-8, 0.0);
    assert_explained(total(&s, KL_MOMENT, 100 * FT), 3300 * KIP * FT, 4 * 2.2 / 100);
    solved_close(&s);
    const tendon_beam low = flat(&equal_spans);
    tendon_beam_run(&s, &low);
    under = solved_under(&s, "pull");
    assert_published(total(&s, KL_MOMENT, 100 * FT), 3300 * KIP * FT, 1e-8);
    assert_published(concrete(&s, KL_MOMENT, 50 * FT), -1650 * KIP * FT, 1e-8);
    assert_published(solved_reaction(&s, under, "A", KL_Y), 33 * KIP, 1e-8);
    assert_published(solved_reaction(&s, under, "B", KL_Y), -66 * KIP, 1e-8);
    assert_published(total(&s, KL_DEFLECTION, 50 * FT), 0.05551518088 * FT, 1e-8);
    solved_close(&s);
}

/* Hicks, p. 2.78: 60 ft and 90 ft, 96 kip; e up +0.40 in, -0.60, +1.20, -0.64, +0.60. */
static const tendon_beam unequal_spans = {
    .spans = {{.length = 60 * FT, .y0 = 0.40 * INCH, .ym = -0.60 * INCH, .y1 = 1.20 * INCH},
              {.length = 90 * FT, .y0 = 1.20 * INCH, .ym = -0.64 * INCH, .y1 = 0.60 * INCH}},
    .count = 2,
    .modulus = 576000 * KIP / (FT * FT),
    .area = 4 * FT * FT,
    .inertia = 3 * FT * FT * FT * FT,
    .to_top = FT,
    .to_bottom = FT,
    .force = 96 * KIP};

static double least_concrete(const solved *s, double from, double to, double *where)
{
    kl_peak peak;
    assert_int_equal(kl_peak_on_member(s->results, solved_under(s, "pull"), KL_MOMENT,
                                       KL_CONCRETE_SHARE, 0, from, to, KL_SMALLEST, &peak),
                     KL_OK);
    *where = peak.station;
    return peak.value;
}

static void two_unequal_spans(void **state)
{
    (void)state;
    const double lb_ft = KIP / 1000 * FT;
    solved s;
    tendon_beam_run(&s, &unequal_spans);
    assert_true_angles(&s, &unequal_spans);
    /* slopes of 1 in 150: the printed digits come out with true angles too */
    assert_close(concrete(&s, KL_MOMENT, 0), 3200 * lb_ft, 1e-4, 0.0);
    assert_close(concrete(&s, KL_MOMENT, 60 * FT), 9792 * lb_ft, 1e-4, 0.0);
    assert_close(concrete(&s, KL_MOMENT, 150 * FT), 4800 * lb_ft, 1e-4, 0.0);
    assert_close(concrete(&s, KL_MOMENT, 30 * FT), -4704 * lb_ft, 1e-4, 0.0);
    assert_close(concrete(&s, KL_MOMENT, 105 * FT), -5024 * lb_ft, 1e-4, 0.0);
    double x;
    assert_close(least_concrete(&s, 0, 60 * FT, &x), -4947 * lb_ft, 2e-4, 0.0);
    assert_close(x, 25.6 * FT, 0.0, 0.05 * FT);
    assert_close(least_concrete(&s, 60 * FT, 150 * FT, &x), -5151 * lb_ft, 2e-4, 0.0);
    assert_close(x, (60 + 49.6) * FT, 0.0, 0.05 * FT);
    solved_close(&s);
    const tendon_beam low = flat(&unequal_spans);
    tendon_beam_run(&s, &low);
    assert_published(concrete(&s, KL_MOMENT, 60 * FT), 9792 * lb_ft, 1e-8);
    assert_published(concrete(&s, KL_MOMENT, 30 * FT), -4704 * lb_ft, 1e-8);
    assert_published(total(&s, KL_MOMENT, 60 * FT), 0.024 * 96 * KIP * INCH, 1e-7);
    assert_published(least_concrete(&s, 0, 60 * FT, &x), -4946.491429 * lb_ft, 1e-8);
    assert_close(x, 25.585714 * FT, 1e-6, 0.0);
    assert_published(least_concrete(&s, 60 * FT, 150 * FT, &x), -5150.420779 * lb_ft, 1e-8);
    assert_close(x, (60 + 49.558442) * FT, 1e-6, 0.0);
    solved_close(&s);
}

/* Hicks, pp. 2.85 to 2.87: 2 x 120 ft, A = 1440 in^2, S_b = 14,860 in^3, S_t = 32,140 in^3, 1160 kip, eccentricity
 * 21.87 in at 0.4 L and elsewhere as the moment diagram of a uniform load: concordant, no secondary moment. With true
 * angles the condition is missed by no more than theta^2 / 2 of the moments that cancel. */
static tendon_beam concordant(void)
{
    const double y = -21.87 * INCH / 0.07;
    const double inertia = 250000 * pow(INCH, 4);
    return (tendon_beam){
        .spans = {{.length = 120 * FT, .ym = y * 0.0625, .y1 = -y * 0.125},
                  {.length = 120 * FT, .y0 = -y * 0.125, .ym = y * 0.0625}},
        .count = 2,
        .modulus = 4000 * KIP / (INCH * INCH),
        .area = 1440 * INCH * INCH,
        .inertia = inertia,
        .to_top = inertia / (32140 * pow(INCH, 3)),
        .to_bottom = inertia / (14860 * pow(INCH, 3)),
        .force = 1160 * KIP,
        .loads = "load own { uniform 1500 plf on b }\nload first { uniform 880 plf on b "
                 "from 0 ft to 120 ft }\n"
                 "load second { uniform 880 plf on b from 120 ft to 240 ft }\n"};
}

static void two_spans_with_a_concordant_tendon(void **state)
{
    (void)state;
    const double psi = KIP / (1000 * INCH * INCH);
    /* 0.2, 0.4, 0.6, 0.8, 1.0 L; compression + on the page */
    const double own[] = {-959, -1221, -785, 349, 2180};
    const double first[] = {-691, -972, -844, -307, 640};
    const double second[] = {128, 256, 384, 512, 640};
    const double bottom[] = {2148, 2513, 1903, 318, -2243};
    const double top[] = {185, 16, 298, 1031, 2215};
    const tendon_beam b = concordant();
    const double steepest = 0.625 * 21.87 / 0.07 / 1440;
    solved s;
    tendon_beam_run(&s, &b);
    assert_true_angles(&s, &b);
    assert_close(total(&s, KL_MOMENT, 120 * FT), 0.0, 0.0,
                 0.5 * steepest * steepest * b.force * 39.05 * INCH);
    const tendon_beam low = flat(&b);
    solved f;
    tendon_beam_run(&f, &low);
    assert_close(total(&f, KL_MOMENT, 120 * FT) / SMALL, 0.0, 0.0, 1e-7 * b.force * 39.05 * INCH);
    for (int i = 0; i < 5; i++) {
        const double x = 24 * (i + 1) * FT;
        assert_close(solved_value(&s, solved_under(&s, "own"), KL_STRESS_BOTTOM, "b", x),
                     -own[i] * psi, 0.0, 3 * psi);
        assert_close(solved_value(&s, solved_under(&s, "first"), KL_STRESS_BOTTOM, "b", x),
                     -first[i] * psi, 0.0, 3 * psi);
        assert_close(solved_value(&s, solved_under(&s, "second"), KL_STRESS_BOTTOM, "b", x),
                     -second[i] * psi, 0.0, 3 * psi);
        /* prestress: the flat beam's moment is a thousandth, its axial force is whole */
        const double a = concrete(&f, KL_AXIAL, x) / b.area;
        const double m = concrete(&f, KL_MOMENT, x) / SMALL;
        assert_close(a + m * b.to_bottom / b.inertia, -bottom[i] * psi, 0.0, 4 * psi);
        assert_close(a - m * b.to_top / b.inertia, -top[i] * psi, 0.0, 4 * psi);
        /* and with true angles within 1 % of the largest */
        assert_close(total(&s, KL_STRESS_BOTTOM, x), -bottom[i] * psi, 0.0, 25 * psi);
    }
    solved_close(&f);
    solved_close(&s);
}

/* Y. Guyon's linear transformation: lifting the ordinates over the inner support, and along each span in proportion,
 * changes the secondary moment and not the concrete's. With true angles the slopes change by d / L, so P cos(theta) y
 * moves by less than P |y| (|theta| + d / L)^2 / 2 each way; on the flat beam nothing moves at all. */
static void two_spans_under_linear_transformation(void **state)
{
    (void)state;
    const double lift = 1.0 * FT;
    tendon_beam moved = equal_spans;
    moved.spans[0].ym += 0.5 * lift;
    moved.spans[0].y1 += lift;
    moved.spans[1].y0 += lift;
    moved.spans[1].ym += 0.5 * lift;
    const double steepest = (4 * 2.2 + 1.0) / 100;
    solved s;
    solved t;
    tendon_beam_run(&s, &equal_spans);
    tendon_beam_run(&t, &moved);
    assert_true_angles(&t, &moved);
    const double bound = equal_spans.force * 2.2 * FT * 0.5 * steepest * steepest;
    for (int i = 1; i < 20; i++) {
        const double x = 10 * i * FT;
        assert_close(concrete(&t, KL_MOMENT, x), concrete(&s, KL_MOMENT, x), 0.0, 2 * bound);
    }
    /* the secondary moment drops by P times the lift */
    assert_close(total(&s, KL_MOMENT, 100 * FT) - total(&t, KL_MOMENT, 100 * FT),
                 equal_spans.force * lift, 0.0, 2 * bound);
    solved_close(&t);
    solved_close(&s);
    const tendon_beam low = flat(&equal_spans);
    const tendon_beam low_moved = flat(&moved);
    tendon_beam_run(&s, &low);
    tendon_beam_run(&t, &low_moved);
    for (int i = 1; i < 20; i++) {
        const double x = 10 * i * FT;
        assert_close(concrete(&t, KL_MOMENT, x), concrete(&s, KL_MOMENT, x), 0.0,
                     1e-7 * SMALL * equal_spans.force * FT);
    }
    solved_close(&t);
    solved_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(simple_beam_with_a_parabola),
        cmocka_unit_test(simple_beam_with_harped_and_straight_tendons),
        cmocka_unit_test(simple_beam_shear_of_a_parabola),
        cmocka_unit_test(two_equal_spans),
        cmocka_unit_test(two_unequal_spans),
        cmocka_unit_test(two_spans_with_a_concordant_tendon),
        cmocka_unit_test(two_spans_under_linear_transformation),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
