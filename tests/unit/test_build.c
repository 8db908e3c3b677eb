/* test_build.c - kl_model_add_…: copies, names, limits, failing memory; geometry against closed forms.
 * The messages are in test_build_wrong.c.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "assert_close.h"
#include "fault.h"
#include "sound_model.h"

static void model_keeps_copies(void **state)
{
    (void)state;
    sound_model w;
    assert_int_equal(sound_model_make(&w), KL_OK);
    char name[] = "copy";
    double hinges[] = {3.0};
    kl_section_at rows[] = {{0, 0.0, {0, 1, 2}}, {0, 16.0, {0, 3, 4}}};
    kl_member it = sound_member(name, 1, 3);
    it.sections = rows;
    it.section_count = 2;
    it.hinges = hinges;
    it.hinge_count = 1;
    kl_index at = KL_NONE;
    assert_int_equal(kl_model_add_member(w.model, &it, &at), KL_OK);
    name[0] = 'X';
    hinges[0] = -1.0;
    rows[1].station = -1.0;
    const kl_member *kept = &w.model->members[at];
    assert_string_equal(kept->name, "copy");
    assert_close(kept->hinges[0], 3.0, 0, 0);
    assert_close(kept->sections[1].station, 16.0, 0, 0);
    assert_int_equal(kl_model_find(w.model, KL_KIND_MEMBER, "copy"), at);
    assert_int_equal(kl_model_find(w.model, KL_KIND_NODE, "copy"), KL_NONE);
    assert_int_equal(kl_model_find(w.model, KL_KIND_MEMBER, NULL), KL_NONE);
    sound_model_destroy(&w);
}

/* 3-4-5: a point 2.5 m up the sloping member is at (2, 1.5). */
static void member_geometry_follows_pythagoras(void **state)
{
    (void)state;
    sound_model w;
    assert_int_equal(sound_model_make(&w), KL_OK);
    assert_close(kl_member_length(w.model, 0), 5.0, 1e-15, 0);
    const kl_point mid = kl_member_point(w.model, 0, 2.5);
    assert_close(mid.x, 2.0, 1e-15, 0);
    assert_close(mid.y, 1.5, 1e-15, 0);
    const kl_point end = kl_member_point(w.model, 0, kl_member_length(w.model, 0));
    assert_close(end.x, 4.0, 0, 0);
    assert_close(end.y, 3.0, 0, 0);
    kl_node on = {.name = "on", .origin = sound_place, .member = 0, .station = 1.0};
    kl_index at = KL_NONE;
    assert_int_equal(kl_model_add_node(w.model, &on, &at), KL_OK);
    assert_close(w.model->nodes[at].x, 0.8, 1e-15, 0);
    assert_close(w.model->nodes[at].y, 0.6, 1e-15, 0);
    sound_model_destroy(&w);
}

/* A station out by less than 1e-6 of the length is the end itself; a tendon's range is the sum of its members. */
static void stations_are_cut_to_the_member(void **state)
{
    (void)state;
    sound_model w;
    assert_int_equal(sound_model_make(&w), KL_OK);
    kl_node on = {.name = "on", .origin = sound_place, .member = 1, .station = 10.0 + 0.9e-5};
    kl_index at = KL_NONE;
    assert_int_equal(kl_model_add_node(w.model, &on, &at), KL_OK);
    assert_close(w.model->nodes[at].station, 10.0, 0, 0);
    on.name = "off";
    on.station = 10.0 + 1.1e-5;
    assert_int_equal(kl_model_add_node(w.model, &on, &at), KL_BAD_MODEL);
    static const kl_index through[] = {1, 2};
    kl_tendon it = sound_tendon();
    it.name = "through";
    it.members = through;
    it.member_count = 2;
    assert_int_equal(kl_model_add_tendon(w.model, &it, &at), KL_OK);
    assert_close(kl_tendon_range(w.model, at), 16.0, 1e-15, 0);
    sound_model_destroy(&w);
}

static void names_of_causes_and_quantities_are_words(void **state)
{
    (void)state;
    sound_model w;
    assert_int_equal(sound_model_make(&w), KL_OK);
    assert_string_equal(kl_cause_name(w.model, (kl_cause){KL_CAUSE_CASE, 0}), "dead");
    assert_string_equal(kl_cause_name(w.model, (kl_cause){KL_CAUSE_WEIGHT, KL_NONE}), "weight");
    assert_string_equal(kl_cause_name(w.model, (kl_cause){KL_CAUSE_MOVEMENT, KL_NONE}), "movement");
    for (int kind = 0; kind < KL_CAUSE_COUNT; kind++) {
        for (int other = 0; other < kind; other++) {
            const kl_cause a = {(kl_cause_kind)kind, 0};
            const kl_cause b = {(kl_cause_kind)other, 0};
            assert_string_not_equal(kl_cause_name(w.model, a), kl_cause_name(w.model, b));
        }
    }
    for (int q = KL_MOMENT; q <= KL_POST; q++) {
        for (int other = KL_MOMENT; other < q; other++) {
            assert_string_not_equal(kl_quantity_name((kl_quantity)q),
                                    kl_quantity_name((kl_quantity)other));
        }
    }
    sound_model_destroy(&w);
}

/* Ten thousand names, found each: and more materials than that are refused by number. */
static void model_grows_to_its_limit(void **state)
{
    (void)state;
    sound_model w;
    assert_int_equal(sound_model_make(&w), KL_OK);
    char name[32];
    kl_material it = sound_concrete();
    it.name = name;
    for (int i = w.model->material_count; i < 10000; i++) {
        (void)snprintf(name, sizeof name, "m%d", i);
        kl_index at = KL_NONE;
        assert_int_equal(kl_model_add_material(w.model, &it, &at), KL_OK);
        assert_int_equal(at, i);
    }
    assert_int_equal(kl_model_find(w.model, KL_KIND_MATERIAL, "m4711"), 4711);
    assert_string_equal(w.model->materials[4711].name, "m4711");
    it.name = "one too many";
    assert_int_equal(kl_model_add_material(w.model, &it, NULL), KL_TOO_LARGE);
    assert_int_equal(kl_diags_count(w.diags), 1);
    assert_string_equal(kl_diags_get(w.diags, 0)->name, "too-many");
    sound_model_destroy(&w);
}

static void settings_are_kept(void **state)
{
    (void)state;
    sound_model w;
    assert_int_equal(sound_model_make(&w), KL_OK);
    char title[] = "Bent 7";
    char unit[] = "kPa";
    kl_display display = {.system = KL_UNITS_SI};
    display.unit_of[KL_MEASURE_STRESS] = unit;
    kl_model_set_title(w.model, title);
    kl_model_set_display(w.model, &display);
    kl_model_set_skew(w.model, 0.5);
    kl_model_set_humidity(w.model, 0.7);
    kl_model_set_sections_gross(w.model, true);
    title[0] = unit[0] = 'X';
    assert_string_equal(w.model->title, "Bent 7");
    assert_string_equal(w.model->display.unit_of[KL_MEASURE_STRESS], "kPa");
    assert_close(w.model->skew, 0.5, 0, 0);
    assert_true(w.model->has_skew);
    assert_close(w.model->humidity, 0.7, 0, 0);
    assert_true(w.model->sections_gross);
    kl_model_set_title(w.model, NULL);
    assert_string_equal(w.model->title, "");
    sound_model_destroy(&w);
}

/* For k = 0, 1, 2, … the (k+1)-th allocation fails: never a crash, always KL_NO_MEMORY, everything freed. */
static void build_without_memory_is_clean(void **state)
{
    (void)state;
    long k = 0;
    for (; k < 10000; k++) {
        sound_model w;
        fault_after(k);
        const kl_status status = sound_model_make(&w);
        const int struck = fault_struck();
        fault_after(-1);
        sound_model_destroy(&w);
        if (!struck) {
            assert_int_equal(status, KL_OK);
            break;
        }
        assert_true(status == KL_NO_MEMORY || status == KL_OK);
    }
    assert_true(k > 10 && k < 10000);
}

int main(void)
{
    const struct CMUnitTest right[] = {
        cmocka_unit_test(model_keeps_copies),
        cmocka_unit_test(member_geometry_follows_pythagoras),
        cmocka_unit_test(stations_are_cut_to_the_member),
        cmocka_unit_test(names_of_causes_and_quantities_are_words),
        cmocka_unit_test(model_grows_to_its_limit),
        cmocka_unit_test(settings_are_kept),
        cmocka_unit_test(build_without_memory_is_clean),
    };
    return cmocka_run_group_tests_name("build", right, NULL, NULL);
}
