/* test_law_units.c - a model told in feet and kips and the same told in metres and kilonewtons is one model.
 *
 * The text has marks in place of units; a number before a mark is written in US units and turned into SI by exact
 * definitions (1 ft = 0.3048 m, 1 lb = 4.4482216152605 N), kept apart from the program's own table.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "draft.h"
#include "readings.h"

#define FT  0.3048
#define LB  4.4482216152605
#define KIP (LB * 1e3)

/* A mark, the unit in each system, and how many of the second make one of the first. */
static const struct {
    char mark;
    const char *us, *si;
    double factor;
} units[] = {
    {'L', "ft", "m", FT},
    {'i', "in", "mm", FT / 12.0 * 1e3},
    {'a', "in^2", "mm^2", FT *FT / 144.0 * 1e6},
    {'S', "ksi", "MPa", KIP / (FT * FT / 144.0) * 1e-6},
    {'w', "pcf", "kN/m^3", LB / (FT * FT * FT) * 1e-3},
    {'F', "kip", "kN", LB},
    {'M', "kip-ft", "kN-m", LB *FT},
    {'u', "klf", "kN/m", LB / FT},
    {'k', "kip/in", "kN/mm", LB / (FT / 12.0 * 1e3)},
    {'q', "kip-ft/rad", "kN-m/rad", LB *FT},
    {'p', "per ft", "per m", 1.0 / FT},
    {'T', "degF", "degC", 1.0 / 1.8},
    {'x', "per degF", "per degC", 1.8},
};

/* Every "12.5~L" becomes "12.5 ft" or "3.81 m". */
static void write_in(bool si, const char *text, text_draft *t)
{
    draft_add(t, si ? "show si\n" : "show us\n");
    while (*text != '\0') {
        const size_t run = strcspn(text, "0123456789~");
        draft_add(t, "%.*s", (int)run, text);
        text += run;
        if (*text == '\0') {
            break;
        }
        char *end;
        const double number = strtod(text, &end);
        if (*end != '~' || (run > 0 && text[-1] == '_')) {
            draft_add(t, "%.*s", (int)(end - text), text);
            text = end;
            continue;
        }
        size_t k = 0;
        while (units[k].mark != end[1]) {
            k++;
            assert_true(k < sizeof units / sizeof units[0]);
        }
        draft_add(t, "%.17g %s", si ? number * units[k].factor : number,
                  si ? units[k].si : units[k].us);
        text = end + 2;
    }
}

static void compare_systems(const char *text)
{
    solved m[2];
    for (int si = 0; si < 2; si++) {
        text_draft t = {0};
        write_in(si, text, &t);
        solved_run(&m[si], t.text, NULL);
        draft_free(&t);
    }
    for (kl_index i = 0; i < states_count(&m[0]); i++) {
        readings us = readings_take(&m[0], states_at(&m[0], i), NULL);
        readings si = readings_take(&m[1], states_at(&m[1], i), NULL);
        readings_agree(&si, &us, 1e-9);
        readings_free(&us);
        readings_free(&si);
    }
    for (int si = 0; si < 2; si++) {
        solved_close(&m[si]);
    }
}

static void frame_is_the_same_in_both_systems(void **state)
{
    (void)state;
    compare_systems("material stone { modulus 4000~S; shear_modulus 1700~S; unit_weight 150~w; "
                    "expansion 6e-6~x }\n"
                    "section shallow { rectangle width 4~L depth 40~i; line top; shear flexible }\n"
                    "section deep { rectangle width 4~L depth 66~i; line top; shear flexible }\n"
                    "section column { circle diameter 44~i }\n"
                    "node A at (0~L, 0~L); node B at (2.5~L, 23~L); node C at (43~L, 26~L); node D "
                    "at (46~L, -3~L)\n"
                    "member post_1 from A to B section column of stone { rigid end 2~L }\n"
                    "member cap from B to C of stone { section shallow at start; section deep at "
                    "16~L; section shallow at end }\n"
                    "member post_2 from D to C section column of stone\n"
                    "support A fixed\nsupport D x fixed y 1200~k turn 3e5~q\n"
                    "load pour { weight; uniform 2~u on cap from 3~L to 30~L; point 20~F on cap at "
                    "10.8~L across }\n"
                    "load wind { uniform 0.3~u right on post_1; moment 52~M on cap at 6~L; point "
                    "9~F at C right }\n"
                    "load summer { warm 36~T on cap; gradient 16~T on cap; settle 0.16~i at A "
                    "down; turn 0.001 rad at A }\n");
}

static void staged_cap_is_the_same_in_both_systems(void **state)
{
    (void)state;
    compare_systems(
        "concrete mix { strength 6~S; transfer_strength 4.8~S; unit_weight 150~w; modulus aashto "
        "2020 }\n"
        "prestressing strand { ultimate 270~S; yield 243~S; modulus 28500~S }\n"
        "section cap_section { rectangle width 6~L depth 75~i }\nsection column { circle diameter "
        "5~L }\n"
        "node L at (0~L, 26~L); node R at (72~L, 26~L); node A at (13~L, 0~L); node B at (56~L, "
        "0~L)\n"
        "member cap from L to R section cap_section of mix\nnode C on cap at 13~L\nnode D on cap "
        "at 56~L\n"
        "member col_1 from A to C section column of mix { rigid end 37.5~i }\n"
        "member col_2 from B to D section column of mix { rigid end 37.5~i }\n"
        "support A fixed; support B fixed\n"
        "tendon T1 in cap { of strand; strands 12 area 0.217~a; count 2; profile from bottom {\n"
        "    anchor at start height 32~i; high at 13~L height 60~i; inflection at 20~L; low at "
        "33~L height 12~i\n"
        "    inflection at 49~L; high at 56~L height 60~i; anchor at end height 32~i }\n"
        "  friction 0.2; wobble 0.0003~p; seating 0.25~i; jack start then end ratio 0.75; duct "
        "3.25~i offset 0.5~i\n"
        "  bonded grouted }\n"
        "falsework bents under cap at 3~L, 9~L, 20~L, 28~L, 36~L, 44~L, 62~L, 69~L {\n"
        "  posts 2; stiffness 3500~k; capacity 110~F; takeup 0.25~i }\n"
        "load girders { point 34~F on cap at 6.5~L; point 47~F on cap at 36~L }\n"
        "stage columns at 0 day { cast col_1 col_2 }\nstage wet at 28 day { erect bents; cast cap "
        "}\n"
        "stage pulled at 40 day { stress T1 to 60 %; stress T1 }\nstage struck at 41 day { release "
        "bents }\n"
        "stage done at 60 day { load girders; grout T1; lose T1 13~S }\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(frame_is_the_same_in_both_systems),
        cmocka_unit_test(staged_cap_is_the_same_in_both_systems),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
