/* test_diagrams.c - every picture of solved models: drawn with classes the style sheet knows, no two texts on one another, told when
 * memory is short; and what they say against statics worked out here.
 * SPDX-License-Identifier: MIT */
#include "bound_text.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "draft.h"
#include "fault.h"
#include "load_sum.h"
#include "pictured.h"

/* ---- models ------------------------------------------------------------------------------------------------ */

/* Two spans of a cap on columns, built on posts, stressed, released, loaded. */
static const char staged_text[] =
    "show si\n"
    "concrete mix { strength 40 MPa; transfer_strength 30 MPa; unit_weight 24 kN/m^3; modulus 31 "
    "GPa; creep mc1990; shrinkage none }\nsite { humidity 70 % }\n"
    "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 196 GPa; relaxation low }\n"
    "section r { rectangle width 1 m depth 1 m }\nsection column { circle diameter 1 m }\n"
    "node L at (0 m, 4 m); node R at (10 m, 4 m); node A at (2 m, 0 m); node B at (8 m, 0 m)\n"
    "member cap from L to R section r of mix\nnode C on cap at 2 m\nnode D on cap at 8 m\n"
    "member col_1 from A to C section column of mix { rigid end 0.5 m }\n"
    "member col_2 from B to D section column of mix { rigid end 0.5 m }\n"
    "support A fixed; support B fixed\n"
    "tendon T1 in cap { of strand; strands 7 area 150 mm^2; count 2; profile from bottom {\n"
    "    anchor at start height 0.5 m; low at 5 m height 0.2 m; anchor at end height 0.5 m }\n"
    "  friction 0.2; wobble 0.001 per m; seating 2 mm; jack start ratio 0.75; bonded grouted }\n"
    "falsework bents under cap at 0.5 m, 4 m, 6 m, 9.5 m { posts 2; stiffness 300 kN/mm; capacity "
    "60 kN }\n"
    "load girders { point 50 kN on cap at 3 m; uniform 5 kN/m on cap from 4 m to 7 m }\n"
    "load wind { point 9 kN at R right }\n"
    "stage columns at 0 day { cast col_1 col_2 }\nstage wet at 28 day { erect bents; cast cap }\n"
    "stage pulled at 40 day { stress T1 }\nstage last at 50 day { release bents; load girders }\n"
    "stage late at 5000 day { grout T1 }\n"
    "grade cap { target late; point 8 m at 0 m; point 8.2 m at 10 m }\n"
    "combination service { factor 1.2 of girders; factor 1 of wind }\n"
    "check limits stress { members cap; from pulled to last; condition service; rules aashto 2020 "
    "}\n";

/* A beam of 10 m, EI = 2.5e9 N·m^2. */
#define BEAM_TEXT                                                                                  \
    "show si\nmaterial elastic { modulus 30 GPa }\nsection r { rectangle width 1 m depth 1 m }\n"  \
    "node A at (0 m, 0 m); node B at (10 m, 0 m)\nmember beam from A to B section r of elastic "   \
    "{ weightless }\n"                                                                             \
    "support A pinned; support B roller\n"

/* Every kind of load, on members in every direction, with a tapered one and rigid ends. */
static const char loads_text[] =
    "material elastic { modulus 4000 ksi; unit_weight 150 pcf; expansion 6e-6 per degF }\n"
    "section r { rectangle width 2 ft depth 3 ft }\nsection s { rectangle width 3 ft depth 5 ft }\n"
    "node A at (1 ft, 2 ft); node B at (1 ft, 18 ft); node C at (41 ft, 28 ft)\n"
    "node D at (45 ft, 1 ft)\n"
    "member col from A to B section r of elastic { rigid end 2 ft }\n"
    "member rafter from B to C of elastic { section s at start; section r at 20 ft; section s at "
    "30 ft; section r at 30 ft; section s at end }\n"
    "member leg from D to C section r of elastic\nsupport A fixed; support D fixed\n"
    "load weight_alone { weight }\n"
    "load spread { uniform 2 klf on rafter; ramp start 3 klf end -1 klf on rafter from 10 ft to 33 "
    "ft; uniform 1 klf on rafter level; uniform 0.7 klf on rafter across; uniform 0.3 klf on leg "
    "along; ramp start 0 klf end 2 klf on col right }\n"
    "load forces { point 30 kip on rafter at 10 ft; point 5 kip at C up; point 12 kip at B left; "
    "point 7 kip on leg at 9 ft across; moment 50 kip-ft at B clockwise; moment 80 kip-ft on "
    "rafter at 30 ft }\n"
    "load moved { settle 0.5 in at D down; warm 40 degF on rafter }\n";

/* A cap on two columns with ends that hang out, whose last steps hardly differ: their courses lie in a bundle. */
static const char bundle_text[] =
    "concrete mix { strength 5 ksi; transfer_strength 4 ksi; unit_weight 150 pcf; modulus 4000 ksi "
    "}\n"
    "prestressing rod { ultimate 150 ksi; yield 120 ksi; modulus 30000 ksi }\n"
    "section r { rectangle width 4 ft depth 5 ft }\nsection column { circle diameter 4 ft }\n"
    "node L at (0 ft, 20 ft); node R at (40 ft, 20 ft); node A at (3 ft, 0 ft); node B at (37 ft, "
    "0 ft)\n"
    "member cap from L to R section r of mix\nnode C on cap at 3 ft\nnode D on cap at 37 ft\n"
    "member col_1 from A to C section column of mix { rigid end 2.5 ft }\n"
    "member col_2 from B to D section column of mix { rigid end 2.5 ft }\n"
    "support A fixed; support B fixed\n"
    "tendon T in cap { of rod; bars 5 area 1.58 in^2; profile from bottom {\n"
    "    anchor at start height 2.5 ft; low at mid height 0.75 ft; anchor at end height 2.5 ft }\n"
    "  friction 0.25; wobble 0.0003 per ft; seating 0 in; jack both ratio 0.7; bonded grouted }\n"
    "load girders { point 60 kip on cap from 8 ft to 32 ft every 8 ft }\n"
    "stage built at 0 day { place col_1 col_2 cap }\nstage pulled at 30 day { stress T }\n"
    "stage loaded at 40 day { grout T; load girders }\n"
    "stage late at 9000 day { lose T 5 ksi; lose T 6 ksi; lose T 7 ksi; lose T 8 ksi; lose T 9 "
    "ksi }\n";

/* How often the text has the word. */
static int times_said(const char *text, const char *word)
{
    int count = 0;
    for (const char *at = text; (at = strstr(at, word)) != NULL; at++) {
        count++;
    }
    return count;
}

/* ---- what all have in common -------------------------------------------------------------------------------- */

static void every_picture_of_a_staged_model_is_sound(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, staged_text);
    assert_pictures_are_sound(&s);
    solved_close(&s);
}

/* As the package has them: every step a course, those without room folded away. */
static void courses_in_a_bundle_are_told_apart_or_not_at_all(void **state)
{
    (void)state;
    static const char *const names[] = {"deflection", "camber", "moment",
                                        "shear",      "axial",  "stresses"};
    solved s;
    solved_open(&s, bundle_text);
    selection_wish wish = selection_wish_none();
    wish.every_step = true;
    wish.folds = true;
    wish.member = solved_index(&s, KL_KIND_MEMBER, "cap");
    int leaders = 0;
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        drawing d = {0};
        const char *svg = picture(&d, &s, names[i], &wish);
        assert_non_null(svg);
        assert_texts_keep_apart(names[i], &d, svg);
        leaders += times_said(svg, "class=\"leader\"");
        drawing_free(&d);
    }
    assert_true(leaders > 0); /* texts are moved away, not all left out */
    solved_close(&s);
}

static void every_picture_of_a_plain_model_is_sound(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, loads_text);
    assert_pictures_are_sound(&s);
    solved_close(&s);
}

static void a_model_in_which_nothing_acts_is_drawn_all_the_same(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, BEAM_TEXT);
    assert_pictures_are_sound(&s);
    solved_close(&s);
}

/* The k-th allocation fails: told, and nothing crashes; the sanitizers see that all is freed. */
static void memory_that_is_short_is_told(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, staged_text);
    const selection_wish wish = selection_wish_none();
    kl_index count;
    const diagram_recipe *recipes = diagram_recipes(&count);
    for (kl_index i = 0; i < count; i++) {
        int struck = 1;
        for (long k = 0; struck; k += 1 + k / 16) {
            fault_after(k);
            drawing d;
            const char *svg = picture(&d, &s, recipes[i].name, &wish);
            struck = fault_struck();
            fault_after(-1);
            assert_true(struck ? svg == NULL && d.status == KL_NO_MEMORY
                               : svg != NULL || d.status == KL_NOT_THERE);
            drawing_free(&d);
        }
    }
    solved_close(&s);
}

/* ---- what acts ---------------------------------------------------------------------------------------------- */

/* A rafter of 3 in 4, 50 ft long, over 40 ft of level length, from (0, 100). */
#define RAFTER                                                                                     \
    "material steel { modulus 29000 ksi; unit_weight 490 pcf }\n"                                  \
    "section r { rectangle width 1 ft depth 1 ft }\n"                                              \
    "node P at (0 ft, 100 ft)\nnode Q at (40 ft, 130 ft)\n"                                        \
    "member rafter from P to Q section r of steel\nsupport P pinned\nsupport Q roller\n"

static void sums_of_loads_are_statics(void **state)
{
    (void)state;
    static const struct {
        const char *load;
        double x, y, about; /* kip, kip-ft */
    } cases[] = {
        {"point 10 kip on rafter at 25 ft", 0.0, -10.0, -10.0 * 20.0},
        {"point 10 kip at Q right", 10.0, 0.0, -10.0 * 130.0},
        {"uniform 2 klf on rafter", 0.0, -100.0, -100.0 * 20.0},
        {"uniform 2 klf on rafter level", 0.0, -80.0, -80.0 * 20.0},
        /* a triangle of 3 klf at its end: 75 kip two thirds along */
        {"ramp start 0 klf end 3 klf on rafter", 0.0, -75.0, -75.0 * 80.0 / 3.0},
        {"moment 12 kip-ft at P", 0.0, 0.0, 12.0},
        {"weight", 0.0, -24.5, -24.5 * 20.0}, /* 490 pcf, 1 ft^2, 50 ft */
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char text[1000];
        snprintf(text, sizeof text, RAFTER "load it { %s }\n", cases[i].load);
        solved s;
        solved_open(&s, text);
        const load_share share = {0, 1.0};
        load_sum sum = {0};
        assert_int_equal(load_sum_add(&sum, s.results, &share), KL_OK);
        assert_close(sum.force[0] / KIP, cases[i].x, 1e-12, 1e-9);
        assert_close(sum.force[1] / KIP, cases[i].y, 1e-12, 1e-9);
        assert_close(load_sum_about(&sum) / (KIP * FT), cases[i].about, 1e-12, 1e-9);
        solved_close(&s);
    }
}

/* The sum of a case against the audit of its state, which adds up by another way: on bodies and nodes of the mesh. */
static void sums_of_loads_are_those_of_the_audit(void **state)
{
    (void)state;
    static const char *const cases[] = {"weight_alone", "spread", "forces", "moved"};
    solved s;
    solved_open(&s, loads_text);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const load_share share = {solved_index(&s, KL_KIND_CASE, cases[i]), 1.0};
        load_sum sum = {0};
        assert_int_equal(load_sum_add(&sum, s.results, &share), KL_OK);
        kl_audit audit;
        assert_int_equal(kl_audit_of_state(s.results, solved_under(&s, cases[i]), &audit), KL_OK);
        const double size = sum.size[0] + sum.size[1] + 1.0;
        assert_close(sum.force[0], audit.load[0], 0.0, 1e-11 * size);
        assert_close(sum.force[1], audit.load[1], 0.0, 1e-11 * size);
        assert_close(load_sum_about(&sum), audit.load[2], 0.0, 1e-10 * size);
    }
    solved_close(&s);
}

static void sums_are_told_with_their_place(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, BEAM_TEXT "load a { uniform 6 kN/m on beam from 2 m to 8 m; point 4 kN on beam "
                              "at 10 m }\nload b { point 3 kN at B left; moment 7 kN-m at A }\n"
                              "load c { point 5 kN at A; point 5 kN at B up }\n"
                              "load d { settle 3 mm at B down }\n");
    selection_wish wish = selection_wish_none();
    /* 36 kN at 5 m and 4 kN at 10 m: 220 kN·m / 40 kN = 5.5 m */
    assert_says(&s, "loads", &wish, ">total: 40.00 kN down at x = 5.5 m<");
    assert_says(&s, "loads", &wish,
                ">total: 3.000 kN to the left at y = 0 m; moments of 7.000 kN-m anticlockwise<");
    assert_says(&s, "loads", &wish, ">total: upright forces cancel<");
    assert_says(&s, "loads", &wish, ">no forces<");
    wish.load_case = solved_index(&s, KL_KIND_CASE, "a");
    assert_says(&s, "loads", &wish, ">Loads of a<");
    assert_says(&s, "loads", &wish, ">6 kN/m<");
    assert_says(&s, "loads", &wish, ">4 kN<");
    solved_close(&s);
}

/* Spread loads of 10 m, one upon the other: each apart where there is room for it, else all in one text, of many the sum. */
static void loads_on_one_stretch_are_all_told(void **state)
{
    (void)state;
    static const struct {
        const char *loads, *says, *says_not;
    } cases[] = {
        {"uniform 6 kN/m on beam; uniform 2 kN/m on beam", ">6 + 2 kN/m<", ">2 kN/m<"},
        {"uniform 2 kN/m on beam; uniform 2 kN/m on beam", ">2 + 2 kN/m<", ">2 kN/m<"},
        {"uniform 6 kN/m on beam; uniform 2 kN/m on beam from 5 m to 10 m", ">6 kN/m<", "+"},
        {"uniform 6 kN/m on beam; uniform 2 kN/m on beam from 5 m to 10 m", ">2 kN/m<", "+"},
        {"uniform 6 kN/m on beam; uniform 1 kN/m on beam from 0 m to 4 m; uniform 2 kN/m on beam "
         "from 4 m to 10 m",
         ">6 + 2 kN/m<", "1 + 2"},
        {"uniform 6 kN/m on beam; uniform 2 kN/m on beam along", ">6, 2 kN/m<", NULL},
        {"uniform 6 kN/m on beam; uniform 2 kN/m on beam level", ">6 kN/m + 2 kN/m level<", NULL},
        {"uniform 6 kN/m on beam; uniform 2 kN/m on beam up", ">6 kN/m<", "+"},
        {"uniform 6 kN/m on beam; uniform 2 kN/m on beam up", ">2 kN/m<", "+"},
        {"ramp start 0 kN/m end 3 kN/m on beam; ramp start 4 kN/m end 0 kN/m on beam", ">3 kN/m<",
         "+"},
        {"ramp start 1 kN/m end 3 kN/m on beam; ramp start 4 kN/m end 0 kN/m on beam",
         ">1 + 4 kN/m<", ">4 kN/m<"},
        {"uniform 1 kN/m on beam; uniform 2 kN/m on beam; uniform 3 kN/m on beam; uniform 4 kN/m "
         "on beam; uniform 5 kN/m on beam",
         ">sum of 5: 15 kN/m<", "+"},
        {"uniform 1 kN/m on beam; uniform 2 kN/m on beam; uniform 3 kN/m on beam; uniform 4 kN/m "
         "on beam; uniform 5 kN/m on beam along",
         ">5 loads<", "sum"},
        {"point 12 kN on beam at 4 m; point 3 kN on beam at 4 m", ">12 + 3 kN<", ">3 kN<"},
        {"point 3 kN on beam at 10 m; point 3 kN at B", ">3 + 3 kN<", ">3 kN<"},
        {"point 12 kN on beam at 4 m; point 3 kN on beam at 4 m up", ">12 kN<", "+"},
        {"point 12 kN on beam at 4 m; point 3 kN on beam at 6 m", ">3 kN<", "+"},
        {"point 1 kN at B; point 2 kN at B; point 3 kN at B; point 4 kN at B; point 5 kN at B",
         ">sum of 5: 15 kN<", "+"},
        {"moment 7 kN-m at A; moment 7 kN-m at A", ">7 + 7 kN-m<", ">7 kN-m<"},
        {"moment 7 kN-m at A; moment 5 kN-m at B clockwise", ">5 kN-m<", "+"},
        {"moment 0 kN-m at A; moment 5 kN-m at B", ">5 kN-m<", ">0"}, /* nothing turns at A */
        {"point 0 kN at A; point 5 kN at B", ">5 kN<", ">0"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char text[1000];
        snprintf(text, sizeof text, BEAM_TEXT "load it { %s }\nstage set { place beam; load it }\n",
                 cases[i].loads);
        solved s;
        solved_open(&s, text);
        const selection_wish wish = selection_wish_none();
        assert_says(&s, "stages", &wish, cases[i].says);
        assert_says(&s, "loads", &wish, cases[i].says);
        if (cases[i].says_not) {
            drawing d;
            assert_null(strstr(picture(&d, &s, "stages", &wish), cases[i].says_not));
            drawing_free(&d);
        }
        solved_close(&s);
    }
}

/* A beam that is deep at both ends, 4 ft wide and 8 ft, 2 ft and 8 ft deep, of 150 pcf: 4.8, 1.2 and 4.8 kip/ft. */
static void weight_of_a_haunched_beam_is_told_where_it_is_least(void **state)
{
    (void)state;
    solved s;
    solved_open(&s,
                "show us\nmaterial stone { modulus 4000 ksi; unit_weight 150 pcf }\n"
                "section deep { rectangle width 4 ft depth 8 ft }\n"
                "section thin { rectangle width 4 ft depth 2 ft }\n"
                "node A at (0 ft, 0 ft)\nnode B at (60 ft, 0 ft)\n"
                "member beam from A to B of stone { section deep at start; section thin at mid; "
                "section deep at end }\nsupport A pinned\nsupport B roller\n"
                "load own { weight }\n");
    const selection_wish wish = selection_wish_none();
    assert_says(&s, "loads", &wish, ">weight 4.8 kip/ft<");
    assert_says(&s, "loads", &wish, ">weight 1.2 kip/ft<");
    solved_close(&s);
}

/* ---- what holds ---------------------------------------------------------------------------------------------- */

/* A beam fixed at one end; stages add a support, take the turning away, let the added one go again. A roller has two circles, a
 * fixed end a box, a pin neither. */
static void supports_are_drawn_as_they_hold_then(void **state)
{
    (void)state;
    static const struct {
        const char *stage;
        int held, rollers, boxes;
    } cases[] = {{"set", 1, 0, 1}, {"prop", 2, 1, 1}, {"slide", 2, 0, 0}, {"last", 2, 1, 0}};
    static const char *const pictures[] = {"frame", "frame_moment", "deflected", "loads"};
    solved s;
    solved_open(&s, "material oak { modulus 10 GPa; unit_weight 6 kN/m^3 }\n"
                    "section r { rectangle width 1 m depth 1 m }\n"
                    "node A at (0 m, 0 m); node B at (10 m, 0 m)\n"
                    "member beam from A to B section r of oak\nsupport A fixed\n"
                    "load w { uniform 1 kN/m on beam }\n"
                    "stage set { place beam }\nstage prop { support B { y fixed }; load w }\n"
                    "stage slide { support B { x fixed }; free A turn }\n"
                    "stage last { free B x }\n");
    int held = 0;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        selection_wish wish = selection_wish_none();
        wish.stage = solved_index(&s, KL_KIND_STAGE, cases[i].stage);
        held += cases[i].held;
        for (size_t k = 0; k < sizeof pictures / sizeof pictures[0]; k++) {
            drawing d;
            const char *svg = picture(&d, &s, pictures[k], &wish);
            assert_non_null(svg);
            assert_int_equal(times_said(svg, "class=\"held\""), cases[i].held);
            assert_int_equal(times_said(svg, "<circle class=\"support\""), 2 * cases[i].rollers);
            assert_int_equal(times_said(svg, "<rect class=\"support\""), cases[i].boxes);
            drawing_free(&d);
        }
    }
    drawing d;
    const selection_wish wish = selection_wish_none();
    assert_int_equal(times_said(picture(&d, &s, "stages", &wish), "class=\"held\""), held);
    drawing_free(&d);
    solved_close(&s);
}

/* ---- what follows ------------------------------------------------------------------------------------------- */

/* w l^2 / 8 = 150 kN·m, w l / 2 = 60 kN, 5 w l^4 / (384 E I) = 0.625 mm for w = 12 kN/m, l = 10 m, EI = 2.5e9 N·m^2. */
static void a_simple_beam_shows_its_closed_forms(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, BEAM_TEXT "load w { uniform 12 kN/m on beam }\n");
    const selection_wish wish = selection_wish_none();
    assert_says(&s, "frame_moment", &wish, ">150.0<");
    assert_says(&s, "frame_shear", &wish, ">60.00<");
    assert_says(&s, "frame_shear", &wish, ">-60.00<");
    assert_says(&s, "deflected", &wish, ">down 0.625<");
    /* 46 px at most, 24 px of height around a frame of 748 px a 10 m: 0.625 mm is 0.04675 px, so 500 times at most */
    assert_says(&s, "deflected", &wish, "movements drawn 500 times as large");
    solved_close(&s);
}

/* Of two cases the first governs below, the second above. */
static void an_envelope_names_what_governs(void **state)
{
    (void)state;
    solved s;
    solved_open(&s,
                BEAM_TEXT "load down_load { uniform 12 kN/m on beam }\nload up_load { uniform 8 "
                          "kN/m on beam up }\n");
    const selection_wish wish = selection_wish_none();
    assert_says(&s, "envelope", &wish, ">150.0 under down_load<");
    assert_says(&s, "envelope", &wish, ">-100.0 under up_load<");
    /* 0.15 MN·m over 1/6 m^3 */
    assert_says(&s, "envelope", &wish, ">0.9000 under down_load<");
    assert_says(&s, "envelope", &wish, ">-0.9000 under down_load<");
    solved_close(&s);
}

/* Forms span from row to row and to the columns, the first one over the row at 0.5 m with a cantilever of 0.5 m: its row takes
 * 24 kN/m * 2 m * 1 m / 1.5 m = 32 kN, the row at 4 m takes 24 kN/m * (1 + 1) m = 48 kN, two posts each. */
static void posts_show_their_share_of_the_rated_load(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, staged_text);
    selection_wish wish = selection_wish_none();
    wish.stage = solved_index(&s, KL_KIND_STAGE, "wet");
    assert_says(&s, "posts", &wish, ">16.0<");
    assert_says(&s, "posts", &wish, ">24.0<");
    assert_says(&s, "posts", &wish, ">0.27<"); /* 16 of 60 kN */
    assert_says(&s, "posts", &wish, ">0.40<");
    assert_says(&s, "posts", &wish, ">rated 60<");
    solved_close(&s);
}

/* A row that is released has not lifted: what it carried before is an outline that no eye takes for the dashed box of a row that
 * has. The one of these that is there is the key's. */
static void posts_that_are_released_do_not_look_lifted(void **state)
{
    (void)state;
    solved s;
    drawing d = {0};
    solved_open(&s, staged_text);
    selection_wish wish = selection_wish_none();
    wish.stage = solved_index(&s, KL_KIND_STAGE, "last");
    const char *text = picture(&d, &s, "posts", &wish);
    assert_non_null(text);
    assert_int_equal(times_said(text, "class=\"post open\""), 1);
    assert_true(times_said(text, "class=\"post past\"") > 1);
    const char *past = strstr(DRAWING_STYLE, ".post.past{");
    const char *open = strstr(DRAWING_STYLE, ".post.open{");
    assert_non_null(past);
    assert_non_null(open);
    assert_true(strcspn(past, "}") < (size_t)(strstr(past, "dasharray") - past));
    assert_true(strcspn(open, "}") > (size_t)(strstr(open, "dasharray") - open));
    drawing_free(&d);
    solved_close(&s);
}

/* A crew reads the order of stressing off the strip of stages: nothing of it may be cut off. */
static void a_stage_tells_all_that_it_does(void **state)
{
    (void)state;
    solved s;
    const selection_wish wish = selection_wish_none();
    solved_open(&s, "show si\nmaterial oak { modulus 30 GPa; unit_weight 25 kN/m^3 }\n"
                    "section r { rectangle width 1 m depth 2 m }\n"
                    "node A at (0 m, 0 m)\nnode B at (12 m, 0 m)\n"
                    "member b from A to B section r of oak\nsupport A pinned\nsupport B roller\n"
                    "load first_span { point 1 kN on b at 1 m }\n"
                    "load second_span { point 1 kN on b at 2 m }\n"
                    "load third_span { point 1 kN on b at 3 m }\n"
                    "load fourth_span { point 1 kN on b at 4 m }\n"
                    "load fifth_span { point 1 kN on b at 5 m }\n"
                    "stage all { place b; load first_span; load second_span; load third_span; "
                    "load fourth_span; load fifth_span }\n");
    assert_says(&s, "stages", &wish, "load first_span;");
    assert_says(&s, "stages", &wish, "fifth_span<");
    solved_close(&s);
    text_draft t = {0};
    draft_add(&t, "show si\nmaterial oak { modulus 30 GPa; unit_weight 25 kN/m^3 }\n"
                  "section r { rectangle width 1 m depth 2 m }\n"
                  "node A at (0 m, 0 m)\nnode B at (12 m, 0 m)\n"
                  "member b from A to B section r of oak\nsupport A pinned\nsupport B roller\n"
                  "load girders { point 1 kN on b at 1 m }\nstage all { place b");
    for (int i = 0; i < 200; i++) {
        draft_add(&t, "; load girders; unload girders");
    }
    draft_add(&t, " }\n");
    solved_open(&s, t.text);
    assert_says(&s, "stages", &wish, " more: `table steps` lists them<");
    draft_free(&t);
    solved_close(&s);
}

/* 50 kN/m: rows take 150 kN, 7.5 mm of 20 MN/m, beside 6.4 mm of take-up; w x (L^3 - 2 L x^2 + x^3) / 24 E I is 0.481 mm at
 * the rows outside and 0.675 mm in the middle: 14.38 and 14.58 mm in all. */
static void a_form_shows_its_raise_as_a_rule_reads_it(void **state)
{
    (void)state;
    solved s;
    drawing d;
    selection_wish wish = selection_wish_none();
    solved_open(&s, "show si\nmaterial oak { modulus 30 GPa; unit_weight 25 kN/m^3 }\n"
                    "section r { rectangle width 1 m depth 2 m }\n"
                    "node A at (0 m, 0 m)\nnode B at (12 m, 0 m)\nnode F at (20 m, 0 m)\n"
                    "member b from A to B section r of oak\nmember c from B to F section r of oak\n"
                    "support A pinned\nsupport B roller\nsupport F roller\n"
                    "falsework f under b at 3 m, 6 m, 9 m { stiffness 20 MN/m; takeup 6.4 mm }\n"
                    "stage poured { erect f; cast b }\nstage clear { release f }\n"
                    "stage more { place c }\n"
                    "grade b { target clear; point 30 m at 0 m }\n");
    assert_says(&s, "grades", &wish, ">14<");
    assert_says(&s, "grades", &wish, ">15<");
    assert_says(&s, "grades", &wish, ">Form of b over its design grade<");
    assert_says(&s, "grades", &wish, ">raise, mm<");
    wish.member = solved_index(&s, KL_KIND_MEMBER, "c");
    assert_null(picture(&d, &s, "grades", &wish));
    assert_int_equal(d.status, KL_NOT_THERE);
    drawing_free(&d);
    solved_close(&s);
}

static void a_history_spans_the_days_from_casting_on(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, staged_text);
    selection_wish wish = selection_wish_none();
    wish.at = 5.0;
    assert_says(&s, "history", &wish, ">History of cap at 5 m<");
    assert_says(&s, "history", &wish, ">time, day (logarithmic)<"); /* 28 to 5000 */
    assert_says(&s, "history", &wish, ">2000<");
    drawing d;
    const char *svg = picture(&d, &s, "history", &wish);
    double from = 0.0;
    double to = 0.0;
    assert_non_null(svg);
    assert_int_equal(sscanf(strstr(svg, "data-x0"), "data-x0=\"%lf\" data-x1=\"%lf\"", &from, &to),
                     2);
    assert_close(from, log10(28.0), 1e-9, 0.0);
    assert_close(to, log10(5000.0), 1e-9, 0.0);
    drawing_free(&d);
    solved_close(&s);
}

/* Everything that is of a step is told by its number; what the strip of stages shows is of no single one. */
static void steps_are_told_by_their_numbers(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, staged_text);
    const selection_wish wish = selection_wish_none();
    char group[60];
    snprintf(group, sizeof group, "<g class=\"step\" data-step=\"%d\">",
             (int)kl_step_count(s.results) - 1);
    assert_says(&s, "moment", &wish, group);
    assert_says(&s, "frame_moment", &wish, group);
    assert_says(&s, "deflected", &wish, group);
    assert_says(&s, "frame", &wish, group);
    drawing d;
    assert_null(strstr(picture(&d, &s, "stages", &wish), "data-step"));
    drawing_free(&d);
    solved_close(&s);
}

/* Pushed along, a beam has an axial force and nothing else. */
static void what_is_zero_is_blank(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        bool blank;
    } pictures[] = {{"moment", true},    {"shear", true},        {"axial", false},
                    {"stresses", false}, {"frame_moment", true}, {"frame_axial", false}};
    solved s;
    solved_open(&s, BEAM_TEXT "load push { point 7 kN at B left }\n");
    const selection_wish wish = selection_wish_none();
    for (size_t i = 0; i < sizeof pictures / sizeof pictures[0]; i++) {
        drawing d;
        assert_non_null(picture(&d, &s, pictures[i].name, &wish));
        assert_int_equal(d.blank, pictures[i].blank);
        drawing_free(&d);
    }
    drawing d;
    const char *svg = picture(&d, &s, "frame_axial", &wish);
    const char *value = strstr(svg, ">-7.000<");
    assert_non_null(value); /* level: said once */
    assert_null(strstr(value + 1, ">-7.000<"));
    drawing_free(&d);
    solved_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_picture_of_a_staged_model_is_sound),
        cmocka_unit_test(courses_in_a_bundle_are_told_apart_or_not_at_all),
        cmocka_unit_test(every_picture_of_a_plain_model_is_sound),
        cmocka_unit_test(a_model_in_which_nothing_acts_is_drawn_all_the_same),
        cmocka_unit_test(memory_that_is_short_is_told),
        cmocka_unit_test(sums_of_loads_are_statics),
        cmocka_unit_test(sums_of_loads_are_those_of_the_audit),
        cmocka_unit_test(sums_are_told_with_their_place),
        cmocka_unit_test(loads_on_one_stretch_are_all_told),
        cmocka_unit_test(weight_of_a_haunched_beam_is_told_where_it_is_least),
        cmocka_unit_test(supports_are_drawn_as_they_hold_then),
        cmocka_unit_test(a_simple_beam_shows_its_closed_forms),
        cmocka_unit_test(an_envelope_names_what_governs),
        cmocka_unit_test(posts_that_are_released_do_not_look_lifted),
        cmocka_unit_test(posts_show_their_share_of_the_rated_load),
        cmocka_unit_test(a_stage_tells_all_that_it_does),
        cmocka_unit_test(a_form_shows_its_raise_as_a_rule_reads_it),
        cmocka_unit_test(a_history_spans_the_days_from_casting_on),
        cmocka_unit_test(steps_are_told_by_their_numbers),
        cmocka_unit_test(what_is_zero_is_blank),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
