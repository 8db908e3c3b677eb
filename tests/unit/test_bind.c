/* test_bind.c - the binder as a whole: the language's own example, messages, bounds, failing memory.
 *
 * Malformed models are in tests/cli/bad, tried by test_every_message.c.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bound_text.h"
#include "fault.h"
#include "parser.h"

/* The example of the language's page. */
static const char whole[] =
    "kernline 1\n"
    "title \"Bent 7 outrigger cap\"\n"
    "show us\n"
    "skew 32 deg\n"
    "site { humidity 70 % }\n"
    "let half = 48 ft\n"
    "concrete cap_mix {\n"
    "    strength          6 ksi\n"
    "    transfer_strength 4.8 ksi\n"
    "    unit_weight       150 pcf\n"
    "    modulus           aashto 2020\n"
    "    expansion         6e-6 per degF\n"
    "    creep             aashto 2020\n"
    "    shrinkage         aashto 2020\n"
    "    cement            normal\n"
    "    gain              aci209 1992\n"
    "    cured             7 day\n"
    "}\n"
    "concrete tested { modulus 4000 ksi; creep user { point 7 day phi 0.6; point 1 year phi 1.6 }; "
    "shrinkage user { strain 300e-6 } }\n"
    "prestressing strand270 { ultimate 270 ksi; yield 243 ksi; modulus 28500 ksi; relaxation low "
    "}\n"
    "section cap    { rectangle width 7 ft depth 6.5 ft }\n"
    "section column { circle diameter 6 ft }\n"
    "node L at (0 ft, 24 ft)\n"
    "node R at (96 ft, 24 ft)\n"
    "node A at (22 ft, 0 ft)\n"
    "node B at (74 ft, 0 ft)\n"
    "member cap   from L to R section cap of cap_mix\n"
    "node C on cap at 22 ft\n"
    "node D on cap at 74 ft\n"
    "member col_1 from A to C section column of cap_mix { rigid end 3 ft 3 in }\n"
    "member col_2 from B to D section column of cap_mix { rigid end 3 ft 3 in }\n"
    "set columns col_1 col_2\n"
    "support A fixed\n"
    "support B x fixed y fixed turn 1e6 kip-ft/rad\n"
    "tendon T1 in cap {\n"
    "    of strand270\n"
    "    strands 19 area 0.217 in^2\n"
    "    count 2\n"
    "    profile from bottom {\n"
    "        anchor     at 0 ft  height 3.4 ft\n"
    "        high       at 22 ft height 5.2 ft\n"
    "        inflection at 29 ft\n"
    "        low        at half  height 1.0 ft\n"
    "        inflection at 67 ft\n"
    "        high       at 74 ft height 5.2 ft\n"
    "        anchor     at 96 ft height 3.4 ft\n"
    "    }\n"
    "    friction 0.20\n"
    "    wobble   0.0002 per ft\n"
    "    seating  1/4 in\n"
    "    jack     start then end ratio 0.75\n"
    "    ram      91 in^2\n"
    "    jack_friction 2 %\n"
    "    anchorage_friction 1 %\n"
    "    reference 20 %\n"
    "    duct     4-1/2 in offset 3/4 in\n"
    "    bonded   grouted\n"
    "}\n"
    "tendon T2 like T1 { raise 9 in }\n"
    "falsework bents under cap at 4 ft, 10 ft, 16 ft, 28 ft, 34 ft, 41 ft, 48 ft, 55 ft, 62 ft, 68 "
    "ft, "
    "80 ft, 86 ft, 92 ft {\n"
    "    posts 2\n"
    "    stiffness 450 kip/in\n"
    "    takeup    0.25 in\n"
    "    capacity  30 kip\n"
    "}\n"
    "load girders { point 240 kip on cap from 14 ft to 82 ft every 8 ft 6 in }\n"
    "stage columns_cast \"Columns cast\"       at 0 day  { cast columns }\n"
    "stage cap_cast     \"Cap cast on forms\"  at 30 day { erect bents; cast cap }\n"
    "stage step_1       \"First step\"         at 44 day { stress T1 }\n"
    "stage released     \"Falsework released\" wait 2 day { release bents }\n"
    "stage girders_set  \"Girders set\"        at 75 day { load girders }\n"
    "stage step_2       \"Second step\"        at 80 day { stress T2 }\n"
    "stage grouted                           at 82 day { grout T1 T2 }\n"
    "stage long_term    \"Long term\"          at 10000 day\n"
    "grade cap { target long_term; point 128.4 ft at 0 ft; point -3 in at half; point 128.4 ft at "
    "R }\n"
    "check transfer stress { members cap; during step_1; condition transfer; rules aashto 2020 }\n"
    "check service  stress { members cap; from step_2 to long_term; condition service; rules "
    "aashto 2020 }\n"
    "expect post of bents at 48 ft after cap_cast = 23.9 kip within 0.5 % source \"6.825 kip/ft x "
    "7 ft / 2 "
    "posts\"\n";

static void whole_language_binds(void **state)
{
    (void)state;
    bound_text t;
    bound_text_make_well(&t, whole);
    const kl_model *m = t.model;
    assert_string_equal(m->title, "Bent 7 outrigger cap");
    assert_int_equal(m->node_count, 6);
    assert_int_equal(m->member_count, 3);
    assert_int_equal(m->tendon_count, 2);
    assert_int_equal(m->falsework[0].row_count, 13);
    assert_int_equal(m->cases[0].load_count, 9);
    assert_int_equal(m->stage_count, 8);
    assert_int_equal(m->check_count, 2);
    assert_int_equal(m->grade_count, 1);
    assert_int_equal(m->grades[0].member, 0);
    assert_int_equal(m->grades[0].target, 7);
    assert_int_equal(m->grades[0].point_count, 3);
    assert_close(m->grades[0].points[0].elevation, 128.4 * 12.0 * INCH, 1e-15, 0);
    assert_close(m->grades[0].points[1].elevation, -3.0 * INCH, 1e-15, 0);
    assert_close(m->grades[0].points[1].station, 48.0 * 12.0 * INCH, 1e-15, 0);
    assert_close(m->grades[0].points[2].station, 96.0 * 12.0 * INCH, 1e-15, 0);
    assert_string_equal(m->stages[3].title, "Falsework released");
    assert_string_equal(m->stages[6].title, "");
    assert_close(m->stages[3].time, 46 * 86400.0, 1e-15, 0);
    assert_close(m->tendons[1].rows[3].ordinate, 21 * INCH, 1e-12, 0);
    assert_string_equal(m->expectations[0].source, "6.825 kip/ft x 7 ft / 2 posts");
    assert_int_equal(m->tendons[0].origin.file, 0);
    assert_memory_equal(whole + m->tendons[1].origin.begin, "tendon T2 like T1", 17);
    bound_text_release(&t);
}

/* Several mistakes, each told once, in one run; what depends on them is not told again. */
static void several_mistakes_are_told_in_one_run(void **state)
{
    (void)state;
    bound_text t;
    bound_text_make(&t, FRAME_US "member bad from L to Z section cap of mix\n"
                                 "node on_bad on bad at 3 ft\nsupport on_bad fixed\n"
                                 "load g { point 3 kip on bad at mid; point 3 kip on kap at mid }\n"
                                 "stage s at 0 day { load g; stress T9 }\n");
    assert_int_equal(t.status, KL_BAD_MODEL);
    assert_null(t.model);
    assert_int_equal(kl_diags_count_of(t.diags, KL_ERROR), 3);
    assert_non_null(strstr(kl_diags_get(t.diags, 0)->message, "Z"));
    assert_non_null(strstr(kl_diags_get(t.diags, 1)->message, "kap"));
    assert_string_equal(kl_diags_get(t.diags, 1)->hint, "did you mean `cap`?");
    assert_non_null(strstr(kl_diags_get(t.diags, 2)->message, "T9"));
    bound_text_release(&t);
}

static void unknown_name_tells_what_else_it_is(void **state)
{
    (void)state;
    bound_text t;
    bound_text_make(&t, FRAME_US "member b from L to R section cap of round\n");
    assert_int_equal(t.status, KL_BAD_MODEL);
    const kl_diag *diag = kl_diags_get(t.diags, 0);
    assert_string_equal(diag->name, "unknown-name");
    assert_non_null(strstr(diag->message, "that is a section"));
    bound_text_release(&t);
}

static kl_index warnings_named(const char *text, const char *name)
{
    bound_text t;
    bound_text_make_well(&t, text);
    kl_index count = 0;
    for (kl_index i = 0; i < kl_diags_count(t.diags); i++) {
        count += strcmp(kl_diags_get(t.diags, i)->name, name) == 0 ? 1 : 0;
    }
    bound_text_release(&t);
    return count;
}

#define TWO_POINTS(a, b)                                                                           \
    FRAME_US "load g { point 1 kip on cap at " a "\npoint 1 kip on cap at " b                      \
             "\npoint 1 kip on cap at " a " }\n"

/* One warning a member, and none where nothing is skewed, all is of one kind, or the station is 0. */
static void plain_and_square_stations_draw_one_warning(void **state)
{
    (void)state;
    static const char warning[] = "square-and-plain";
    assert_int_equal(warnings_named("skew 20 deg\n" TWO_POINTS("square 3 ft", "5 ft"), warning), 1);
    /* The frame's own nodes C and D stand at plain stations of the cap. */
    assert_int_equal(warnings_named("skew 20 deg\n" TWO_POINTS("4 ft", "5 ft"), warning), 0);
    assert_int_equal(warnings_named("skew 0 deg\n" TWO_POINTS("square 3 ft", "5 ft"), warning), 0);
    assert_int_equal(
        warnings_named("skew 20 deg\n" FRAME_US "load g { point 1 kip on rafter at square 3 ft\n"
                       "point 1 kip on rafter at 0 ft; point 1 kip on rafter at mid }\n",
                       warning),
        0);
}

/* What is like something wrong is not told again, nor what uses it. */
static void likeness_of_a_wrong_thing_is_silent(void **state)
{
    (void)state;
    bound_text t;
    bound_text_make(&t,
                    FRAME_US "tendon V like U { count 2 }\ntendon U in kap { " STEEL_US PROFILE_US
                             "jack start ratio 0.7 }\nload g { stress V }\n"
                             "stage s at 0 day { stress U V }\n");
    assert_int_equal(t.status, KL_BAD_MODEL);
    assert_int_equal(kl_diags_count_of(t.diags, KL_ERROR), 1);
    bound_text_release(&t);
}

/* A set of 300 members named by 7000 operations is two million names: refused, not spread out. */
static void sets_named_too_often_are_refused(void **state)
{
    (void)state;
    enum { MEMBERS = 300, TIMES = 7000 };
    const size_t room = (size_t)MEMBERS * 60 + (size_t)TIMES * 12 + 1000;
    char *text = malloc(room);
    assert_non_null(text);
    size_t at = (size_t)snprintf(text, room,
                                 "node A at (0 m, 0 m)\nnode B at (1 m, 0 m)\n"
                                 "section s { area 1 m^2; inertia 1 m^4 }\n"
                                 "material e { modulus 1 GPa }\n");
    for (int i = 0; i < MEMBERS; i++) {
        at += (size_t)snprintf(text + at, room - at, "member b%d from A to B section s of e\n", i);
    }
    at += (size_t)snprintf(text + at, room - at, "set all");
    for (int i = 0; i < MEMBERS; i++) {
        at += (size_t)snprintf(text + at, room - at, " b%d", i);
    }
    at += (size_t)snprintf(text + at, room - at, "\nstage x {\n");
    for (int i = 0; i < TIMES; i++) {
        at += (size_t)snprintf(text + at, room - at, "place all\n");
    }
    (void)snprintf(text + at, room - at, "}\n");
    bound_text t;
    bound_text_make(&t, text);
    assert_int_equal(t.status, KL_BAD_MODEL);
    assert_string_equal(kl_diags_get(t.diags, 0)->name, "too-many-names");
    free(text);
    bound_text_release(&t);
}

/* A chain of a thousand members, each standing on a node of the one after it in the text: no recursion, no square. */
static void long_chain_of_nodes_binds(void **state)
{
    (void)state;
    enum { LINKS = 2000 };
    const size_t room = (size_t)LINKS * 120 + 1000;
    char *text = malloc(room);
    assert_non_null(text);
    size_t at = 0;
    for (int i = LINKS; i > 0; i--) {
        at +=
            (size_t)snprintf(text + at, room - at,
                             "member m%d from n%d to n%d section s of e\nnode n%d on m%d at mid\n",
                             i, i - 1, i + LINKS + 1, i, i);
    }
    for (int i = LINKS; i > 0; i--) {
        at += (size_t)snprintf(text + at, room - at, "node n%d at (%d m, %d m)\n", i + LINKS + 1, i,
                               i % 7 + 1);
    }
    (void)snprintf(text + at, room - at,
                   "node n0 at (0 m, 0 m)\nsection s { area 1 m^2; inertia 1 m^4 }\n"
                   "material e { modulus 1 GPa }\n");
    bound_text t;
    bound_text_make_well(&t, text);
    assert_int_equal(t.model->member_count, LINKS);
    free(text);
    bound_text_release(&t);
}

/* ---- without memory ------------------------------------------------------------------------------------------ */

/* Every allocation of the binding fails in turn: no crash, no leak, KL_NO_MEMORY and no model. */
static void binding_without_memory_is_clean(void **state)
{
    (void)state;
    bound_text t;
    bound_text_make_well(&t, whole);
    text_document document;
    kl_diags *quiet = kl_diags_create();
    assert_int_equal(
        text_parse_text(&t.sources, "again", whole, strlen(whole), &t.memory, quiet, &document),
        KL_OK);
    long k = 0;
    for (; k < 100000; k++) {
        kl_diags *diags = kl_diags_create();
        kl_model *model = NULL;
        fault_after(k);
        const kl_status status = bind_document(&document, diags, &model);
        const int struck = fault_struck();
        fault_after(-1);
        assert_true((status == KL_OK) == (model != NULL));
        kl_model_destroy(model);
        kl_diags_destroy(diags);
        if (!struck) {
            assert_int_equal(status, KL_OK);
            break;
        }
        assert_int_equal(status, KL_NO_MEMORY);
    }
    assert_true(k > 20 && k < 100000);
    kl_diags_destroy(quiet);
    bound_text_release(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(whole_language_binds),
        cmocka_unit_test(several_mistakes_are_told_in_one_run),
        cmocka_unit_test(unknown_name_tells_what_else_it_is),
        cmocka_unit_test(plain_and_square_stations_draw_one_warning),
        cmocka_unit_test(likeness_of_a_wrong_thing_is_silent),
        cmocka_unit_test(sets_named_too_often_are_refused),
        cmocka_unit_test(long_chain_of_nodes_binds),
        cmocka_unit_test(binding_without_memory_is_clean),
    };
    return cmocka_run_group_tests_name("bind", tests, NULL, NULL);
}
