/* test_law_mirror.c - a mirror image behaves as the image of the thing: a cap cast on falsework, stressed from one end,
 * struck from one end, against the same cap seen from behind.
 *
 * In the image stations run from the other end; deflection, axial force and the cap's moment stay, sway, rotation and
 * shear change their sign. A column is drawn upward in both, so that its left and right hand change places: its
 * moment changes sign, its shear too, and its two faces swap their stresses.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "draft.h"
#include "readings.h"

#define WIDTH 26.0

enum { ROWS = 9 };
static const double row_at[ROWS] = {1.0, 3.0, 7.0, 9.5, 12.0, 14.5, 16.5, 22.0, 24.5};

/* A station, or a coordinate across, as it is or in the mirror. */
static double seen(bool mirrored, double x)
{
    return mirrored ? WIDTH - x : x;
}

static void add_frame(text_draft *t, bool mirrored)
{
    draft_add(t, "show si\n"
                 "concrete mix { strength 40 MPa; transfer_strength 30 MPa; unit_weight 24 kN/m^3\n"
                 "    modulus aashto 2020; expansion 1e-5 per degC }\n"
                 "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 196 GPa }\n"
                 "section tip { rectangle width 1.8 m depth 1.4 m; line top }\n"
                 "section root { rectangle width 1.8 m depth 2.1 m; line top }\n"
                 "section column { circle diameter 1.5 m }\n"
                 "node L at (0 m, 8 m); node R at (26 m, 8 m)\n");
    draft_add(t, "node A at (%.17g m, 0 m); node B at (%.17g m, 0 m)\n", seen(mirrored, 5.0),
              seen(mirrored, 19.0));
    const double rises = seen(mirrored, 0.0);
    draft_add(t, "member cap from L to R of mix { section %s at %.17g m; section root at %.17g m\n",
              mirrored ? "root" : "tip", mirrored ? 0.0 : rises, mirrored ? WIDTH - 5.0 : 5.0);
    draft_add(t, "    %s }\n", mirrored ? "section tip at end" : "section root at end");
    draft_add(t,
              "node C on cap at %.17g m\nnode D on cap at %.17g m\n"
              "member col_1 from A to C section column of mix { rigid end 1.05 m }\n"
              "member col_2 from B to D section column of mix { rigid end 1.05 m }\n"
              "support A fixed; support B fixed\n",
              seen(mirrored, 5.0), seen(mirrored, 19.0));
    /* a tie between the columns, which opens to a hinge inside it later */
    draft_add(t,
              "node E on col_1 at 3 m\nnode F on col_2 at 3 m\n"
              "member tie from %s section column of mix\n",
              mirrored ? "F to E" : "E to F");
}

static void add_row(text_draft *t, const char *fact, double station, double height)
{
    draft_add(t, "    %s at %.17g m height %.17g m\n", fact, station, height);
}

static void
add_tendon(text_draft *t, bool mirrored, const char *name, double raise, const char *jack)
{
    static const struct {
        const char *fact;
        double station, height;
    } rows[] = {{"anchor", 0.0, 0.6},
                {"high", 5.0, 1.5},
                {"low", 13.0, 0.3},
                {"high", 19.0, 1.5},
                {"anchor", 26.0, 0.9}};
    static const double inflections[] = {NAN, 7.5, 16.0, NAN, NAN};
    const int n = sizeof rows / sizeof rows[0];
    draft_add(
        t,
        "tendon %s in cap { of strand; strands 12 area 150 mm^2; count 2; profile from bottom {\n",
        name);
    for (int k = 0; k < n; k++) {
        const int i = mirrored ? n - 1 - k : k;
        add_row(t, rows[i].fact, seen(mirrored, rows[i].station), rows[i].height + raise);
        const double between =
            mirrored ? (i > 0 ? inflections[i - 1] : (double)NAN) : inflections[i];
        if (isfinite(between)) {
            draft_add(t, "    inflection at %.17g m\n", seen(mirrored, between));
        }
    }
    draft_add(t,
              "  }\n  bend 0.06 rad from %.17g m to %.17g m\n  friction 0.2; wobble 0.001 per m; "
              "seating 6 mm\n"
              "  jack %s ratio 0.75; duct 80 mm offset 12 mm; bonded grouted }\n",
              fmin(seen(mirrored, 8.0), seen(mirrored, 15.0)),
              fmax(seen(mirrored, 8.0), seen(mirrored, 15.0)), jack);
}

static void add_construction(text_draft *t, bool mirrored)
{
    draft_add(t, "falsework bents under cap at ");
    for (int k = 0; k < ROWS; k++) {
        draft_add(t, "%.17g m%s", seen(mirrored, row_at[mirrored ? ROWS - 1 - k : k]),
                  k < ROWS - 1 ? ", " : "");
    }
    draft_add(t, " { posts 2; stiffness 600 kN/mm; capacity 900 kN }\n");
    draft_add(t,
              "load girders { point 300 kN on cap at %.17g m; point 60 kN on cap at %.17g m %s }\n"
              "load wind { moment 90 kN-m on cap at %.17g m %s; point 55 kN at %s %s }\n",
              seen(mirrored, 2.0), seen(mirrored, 11.0), mirrored ? "left" : "right",
              seen(mirrored, 17.0), mirrored ? "clockwise" : "anticlockwise", "C",
              mirrored ? "left" : "right");
    draft_add(t,
              "stage columns at 0 day { cast col_1 col_2 tie }\nstage cap at 28 day { erect bents; "
              "cast cap }\n"
              "stage first at 40 day { stress T1 }\n");
    const double from = mirrored ? WIDTH - 8.0 : 0.0;
    draft_add(t,
              "stage struck at 42 day { release bents from %.17g m to %.17g m; release bents }\n",
              from, from + 8.0);
    draft_add(t,
              "stage rest at 60 day { load girders; stress T2 to 40 %%; load wind; stress T2; "
              "grout T1 T2\n"
              "    lose T1 T2 90 MPa; unlock col_1 end; unlock col_2 start; unlock tie at %.17g "
              "m; unload wind }\n",
              mirrored ? 14.0 - 5.2 : 5.2);
}

static void run(solved *m, bool mirrored)
{
    text_draft t = {0};
    add_frame(&t, mirrored);
    add_tendon(&t, mirrored, "T1", 0.0, mirrored ? "end" : "start");
    add_tendon(&t, mirrored, "T2", 0.2, mirrored ? "end then start" : "start then end");
    add_construction(&t, mirrored);
    solved_run(m, t.text, NULL);
    draft_free(&t);
}

/* ---- comparison -------------------------------------------------------------------------------------------- */

typedef struct scales {
    double force, moment, length, angle, stress;
} scales;

static scales scales_of(const solved *m, kl_state state)
{
    readings all = readings_take(m, state, NULL);
    const scales s = {readings_largest(&all, READING_FORCE), readings_largest(&all, READING_MOMENT),
                      fmax(1e-4, readings_largest(&all, READING_LENGTH)),
                      fmax(1e-4, readings_largest(&all, READING_ANGLE)),
                      readings_largest(&all, READING_STRESS)};
    readings_free(&all);
    return s;
}

typedef struct image {
    kl_quantity quantity, in_mirror; /* a column's faces swap */
    kl_part part;
    double sign;
} image;

static double scale_for(const scales *s, kl_quantity quantity)
{
    return quantity == KL_MOMENT                                       ? s->moment
           : quantity == KL_ROTATION                                   ? s->angle
           : quantity == KL_DEFLECTION || quantity == KL_SWAY          ? s->length
           : quantity == KL_STRESS_TOP || quantity == KL_STRESS_BOTTOM ? s->stress
                                                                       : s->force;
}

static void compare_member(const solved *m,
                           const solved *mirrored,
                           kl_state state,
                           const scales *s,
                           const char *member,
                           const image *images,
                           int count,
                           bool turns)
{
    const kl_index index = kl_model_find(m->model, KL_KIND_MEMBER, member);
    const double length = solved_length(m, member);
    for (int i = 0; i < count; i++) {
        for (int k = 0; k <= 104; k++) {
            double a = NAN, b = NAN;
            const double station =
                length * (k / 2) / 52.0; /* NOLINT(bugprone-integer-division): both sides */
            const kl_side side = k % 2 ? KL_RIGHT : KL_LEFT;
            const kl_side other = turns ? (side == KL_LEFT ? KL_RIGHT : KL_LEFT) : side;
            const kl_status sa = kl_value_on_member(m->results, state, images[i].quantity,
                                                    images[i].part, index, station, side, &a);
            const kl_status sb =
                kl_value_on_member(mirrored->results, state, images[i].in_mirror, images[i].part,
                                   index, turns ? length - station : station, other, &b);
            assert_int_equal(sa, sb);
            if (sa == KL_OK) {
                assert_close(a, images[i].sign * b, 0.0, 1e-9 * scale_for(s, images[i].quantity));
            }
        }
    }
}

static void
compare_rows_and_tendons(const solved *m, const solved *mirrored, kl_state state, const scales *s)
{
    for (kl_index i = 0; i < ROWS; i++) {
        const kl_post_row a = solved_post(m, state, "bents", i);
        const kl_post_row b = solved_post(mirrored, state, "bents", ROWS - 1 - i);
        assert_int_equal(a.stands, b.stands);
        assert_int_equal(a.bears, b.bears);
        assert_close(a.force, b.force, 0.0, 1e-9 * s->force);
        assert_close(a.gap, b.gap, 0.0, 1e-9 * s->length);
    }
    for (kl_index tendon = 0; tendon < 2; tendon++) {
        for (int k = 0; k <= 26; k++) {
            double a = NAN, b = NAN;
            const kl_status sa = kl_tendon_force(m->results, state, tendon, k, KL_RIGHT, &a);
            assert_int_equal(
                sa, kl_tendon_force(mirrored->results, state, tendon, WIDTH - k, KL_LEFT, &b));
            if (sa == KL_OK) {
                assert_close(a, b, 1e-9, 0.0);
            }
        }
    }
}

static void mirrored_construction_gives_the_mirror_image(void **state)
{
    (void)state;
    static const image of_cap[] = {{KL_MOMENT, KL_MOMENT, KL_TOTAL, 1.0},
                                   {KL_MOMENT, KL_MOMENT, KL_CONCRETE_SHARE, 1.0},
                                   {KL_SHEAR, KL_SHEAR, KL_TOTAL, -1.0},
                                   {KL_SHEAR, KL_SHEAR, KL_CONCRETE_SHARE, -1.0},
                                   {KL_AXIAL, KL_AXIAL, KL_TOTAL, 1.0},
                                   {KL_AXIAL, KL_AXIAL, KL_PRIMARY, 1.0},
                                   {KL_DEFLECTION, KL_DEFLECTION, KL_TOTAL, 1.0},
                                   {KL_SWAY, KL_SWAY, KL_TOTAL, -1.0},
                                   {KL_ROTATION, KL_ROTATION, KL_TOTAL, -1.0},
                                   {KL_STRESS_TOP, KL_STRESS_TOP, KL_TOTAL, 1.0},
                                   {KL_STRESS_BOTTOM, KL_STRESS_BOTTOM, KL_TOTAL, 1.0}};
    static const image of_column[] = {{KL_MOMENT, KL_MOMENT, KL_TOTAL, -1.0},
                                      {KL_SHEAR, KL_SHEAR, KL_TOTAL, -1.0},
                                      {KL_AXIAL, KL_AXIAL, KL_TOTAL, 1.0},
                                      {KL_DEFLECTION, KL_DEFLECTION, KL_TOTAL, 1.0},
                                      {KL_SWAY, KL_SWAY, KL_TOTAL, -1.0},
                                      {KL_ROTATION, KL_ROTATION, KL_TOTAL, -1.0},
                                      {KL_STRESS_TOP, KL_STRESS_BOTTOM, KL_TOTAL, 1.0},
                                      {KL_STRESS_BOTTOM, KL_STRESS_TOP, KL_TOTAL, 1.0}};
    solved m, mirrored;
    run(&m, false);
    run(&mirrored, true);
    assert_int_equal(kl_step_count(m.results), kl_step_count(mirrored.results));
    for (kl_index i = 0; i < kl_step_count(m.results); i++) {
        const kl_state step = kl_state_step(i);
        const scales s = scales_of(&m, step);
        compare_member(&m, &mirrored, step, &s, "cap", of_cap, 11, true);
        compare_member(&m, &mirrored, step, &s, "tie", of_cap, 11, true);
        compare_member(&m, &mirrored, step, &s, "col_1", of_column, 8, false);
        compare_member(&m, &mirrored, step, &s, "col_2", of_column, 8, false);
        compare_rows_and_tendons(&m, &mirrored, step, &s);
    }
    /* The image must not be the thing itself, nor rest on idle parts. */
    const kl_state pulled = solved_after(&m, "first");
    int lifted = 0;
    for (kl_index i = 0; i < ROWS; i++) {
        lifted += solved_post(&m, pulled, "bents", i).bears ? 0 : 1;
    }
    assert_in_range(lifted, 1, ROWS - 1);
    assert_true(fabs(solved_post(&m, pulled, "bents", 0).force -
                     solved_post(&m, pulled, "bents", ROWS - 1).force) > 1e4);
    solved_close(&m);
    solved_close(&mirrored);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(mirrored_construction_gives_the_mirror_image)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
