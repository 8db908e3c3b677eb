/* test_package.c - the calculation package of solved models: its digest against the standard's examples, loads against
 * statics, the parts of stresses against their sum and against P / A, the page's data as JSON, and short memory.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bound_text.h"
#include "fault.h"
#include "package_html.h"
#include "places.h"
#include "sample_model.h"
#include "stress_split.h"

static const summary_message warnings[] = {
    {"a-warning", "sample:1:1", "Something <is> unusual.", "Look."}};
static const package_source sources[] = {{"sample", "title \"</pre>\"\n", 15}};

static package_input input_of(sample_model *s)
{
    return (package_input){.summary = {"sample", s->results, s->report, warnings, 1},
                           .sources = sources,
                           .source_count = 1};
}

/* FIPS 180-4 and the examples that belong to it. */
static void package_digest_is_that_of_the_standard(void **state)
{
    (void)state;
    static const struct {
        const char *text, *want;
    } cases[] = {
        {"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"},
        {"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
        {"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
         "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char digest[PACKAGE_DIGEST_SIZE];
        package_digest(digest, cases[i].text, strlen(cases[i].text));
        assert_string_equal(digest, cases[i].want);
    }
}

static void split_parts_add_up_to_what_the_tables_show(void **state)
{
    sample_model *models = *state;
    kl_results *results = models[0].results;
    const kl_state last = kl_state_step(kl_step_count(results) - 1);
    for (kl_index member = 0; member < models[0].model->member_count; member++) {
        const double length = kl_member_length(models[0].model, member);
        for (int i = 0; i <= 10; i++) {
            stress_split split;
            assert_int_equal(split_make(results, last, member, 0.1 * i * length, KL_RIGHT, &split),
                             KL_OK);
            split_part sum = {0};
            for (int k = 0; k < split.count; k++) {
                sum.axial += split.parts[k].axial;
                sum.moment += split.parts[k].moment;
                sum.axial_concrete += split.parts[k].axial_concrete;
                sum.moment_concrete += split.parts[k].moment_concrete;
                sum.top += split.parts[k].top;
                sum.bottom += split.parts[k].bottom;
            }
            const double force = 1e-9 * (fabs(split.whole.axial_concrete) + 1e5);
            assert_close(sum.axial, split.whole.axial, 0.0, force);
            assert_close(sum.moment, split.whole.moment, 0.0, force);
            assert_close(sum.axial_concrete, split.whole.axial_concrete, 0.0, force);
            assert_close(sum.moment_concrete, split.whole.moment_concrete, 0.0, force);
            assert_close(sum.top, split.whole.top, 0.0, 1.0); /* Pa */
            assert_close(sum.bottom, split.whole.bottom, 0.0, 1.0);
        }
    }
}

/* A straight tendon without losses on a simple beam: P / A and P e y / I by hand, no secondary action. P = 500 kip 1 ft below the
 * centroid of 4 ft by 5 ft: P / A = 500 / 2880 in^2 = 0.173611 ksi; P e y / I = 500 x 12 x 30 / 864000 in^4 = 0.208333 ksi. */
static void split_of_a_straight_tendon_is_the_hand_calculation(void **state)
{
    (void)state;
    static const char text[] =
        "sections gross\n"
        "concrete mix { strength 5 ksi; transfer_strength 4 ksi; unit_weight 150 pcf; modulus 4000 "
        "ksi }\n"
        "prestressing strand { ultimate 270 ksi; yield 243 ksi; modulus 28500 ksi }\n"
        "section r { rectangle width 4 ft depth 5 ft }\n"
        "node A at (0 ft, 0 ft)\nnode B at (40 ft, 0 ft)\n"
        "member cap from A to B section r of mix\nsupport A pinned\nsupport B roller\n"
        "tendon T in cap { of strand; strands 12 area 0.217 in^2\n"
        "profile from bottom { anchor at start height 1.5 ft; anchor at end height 1.5 ft straight "
        "}\n"
        "friction 0; wobble 0 per ft; seating 0 in; jack start force 500 kip; bonded grouted }\n"
        "stage cast at 0 day { place cap }\nstage pulled at 14 day { stress T }\n";
    sample_model s = {0};
    sample_model_solve(&s, text);
    stress_split split;
    assert_int_equal(split_make(s.results, kl_state_step(kl_step_count(s.results) - 1), 0,
                                10.0 * FT, KL_RIGHT, &split),
                     KL_OK);
    int found = 0;
    for (int i = 0; i < split.count; i++) {
        const split_part *part = &split.parts[i];
        if (strcmp(part->name, "primary: P / A") == 0) {
            assert_close(part->top / KSI, -500.0 / 2880.0, 1e-9, 0.0);
            assert_close(part->bottom / KSI, -500.0 / 2880.0, 1e-9, 0.0);
            found++;
        } else if (strcmp(part->name, "primary: P e y / I") == 0) {
            assert_close(part->top / KSI, 500.0 * 12.0 * 30.0 / 864000.0, 1e-9, 0.0);
            assert_close(part->bottom / KSI, -500.0 * 12.0 * 30.0 / 864000.0, 1e-9, 0.0);
            found++;
        } else if (strcmp(part->name, "secondary, of prestress") == 0) {
            assert_close(part->moment / (KIP * FT), 0.0, 0.0, 1e-6);
            found++;
        }
    }
    assert_int_equal(found, 3);
    sample_model_free(&s);
}

/* Two columns under a cap: two faces each, and the middle between them. */
static void places_of_member_are_faces_and_midspan(void **state)
{
    sample_model *models = *state;
    const kl_index cap = kl_model_find(models[0].model, KL_KIND_MEMBER, "cap");
    member_place places[PLACE_LIMIT];
    int count;
    assert_int_equal(places_of_member(models[0].results, cap, places, &count), KL_OK);
    int middles = 0;
    for (int i = 0; i < count; i++) {
        assert_true(i == 0 || places[i].station >= places[i - 1].station);
        middles += strcmp(places[i].name, "midspan") == 0;
    }
    assert_true(middles >= 1);
}

/* ---- the whole -------------------------------------------------------------------------------------------- */

static char *page_of(sample_model *s)
{
    const package_input input = input_of(s);
    package p;
    char *bytes = NULL;
    size_t length = 0;
    assert_int_equal(package_make(&p, &input), KL_OK);
    FILE *out = open_memstream(&bytes, &length);
    assert_non_null(out);
    assert_int_equal(package_write_html(&p, &input, out), KL_OK);
    assert_int_equal(fclose(out), 0);
    package_free(&p);
    return bytes;
}

static json_t *data_of(char *page, const char *id)
{
    char opening[80];
    snprintf(opening, sizeof opening, "<script type=\"application/json\" id=\"%s\">", id);
    char *begin = strstr(page, opening);
    assert_non_null(begin);
    begin += strlen(opening);
    const char *end = strstr(begin, "</script>");
    assert_non_null(end);
    json_error_t error;
    json_t *data = json_loadb(begin, (size_t)(end - begin), 0, &error);
    if (data == NULL) {
        print_error("%s: %s\n", id, error.text);
    }
    assert_non_null(data);
    return data;
}

/* Every course has a value for each station, and each figure of the derivations' parts a place. */
static void page_data_is_as_long_as_its_stations(void **state)
{
    sample_model *models = *state;
    for (int m = 0; m < 2; m++) {
        char *page = page_of(&models[m]);
        json_t *courses = data_of(page, "courses");
        const size_t steps = json_array_size(json_object_get(courses, "steps"));
        assert_true(steps > 0);
        size_t i;
        json_t *member;
        json_array_foreach(json_object_get(courses, "members"), i, member)
        {
            const size_t stations = json_array_size(json_object_get(member, "stations"));
            assert_true(stations > 10);
            assert_int_equal(json_array_size(json_object_get(member, "sides")), stations);
            json_t *moments = json_object_get(member, "moment");
            assert_int_equal(json_array_size(moments), steps);
            size_t k;
            json_t *course;
            json_array_foreach(moments, k, course)
            {
                assert_true(json_is_null(course) || json_array_size(course) == stations);
            }
        }
        json_decref(courses);
        json_t *derivations = data_of(page, "derivations");
        json_array_foreach(json_object_get(derivations, "members"), i, member)
        {
            const size_t stations = json_array_size(json_object_get(member, "stations"));
            size_t k;
            json_t *step;
            assert_int_equal(json_array_size(json_object_get(member, "sections")), stations);
            json_array_foreach(json_object_get(member, "steps"), k, step)
            {
                json_t *at = json_object_get(step, "at");
                assert_int_equal(json_array_size(at), stations);
                assert_int_equal(json_array_size(json_array_get(at, 0)),
                                 json_array_size(json_object_get(step, "parts")));
            }
        }
        json_decref(derivations);
        free(page);
    }
}

static void page_shows_failures_first_and_texts_literally(void **state)
{
    sample_model *models = *state;
    char *page = page_of(&models[0]);
    const char *cover = strstr(page, "id=\"sheet-cover\"");
    assert_non_null(cover);
    const char *alert = strstr(cover, "class=\"alert fails\"");
    assert_non_null(alert);
    assert_true(alert < strstr(cover, "<dl"));
    assert_non_null(strstr(page, "<p class=\"alert fails\">FAILS "));
    assert_non_null(strstr(page, "Something &lt;is&gt; unusual."));
    assert_non_null(strstr(page, "title &quot;&lt;/pre&gt;&quot;\n"));
    free(page);
}

/* Each step of which a member has a course is in its picture, whether there is room to see it or not; the page's tables show
 * tenths, nodes and faces, and no other station. */
static void picture_of_page_holds_every_step(void **state)
{
    sample_model *models = *state;
    const kl_results *results = models[0].results;
    char *page = page_of(&models[0]);
    const kl_index cap = kl_model_find(models[0].model, KL_KIND_MEMBER, "cap");
    char *picture = strstr(page, "data-name=\"moment\" data-member=\"cap\"");
    assert_non_null(picture);
    *strstr(picture, "</figure>") = '\0';
    int standing = 0;
    for (kl_index step = 0; step < kl_step_count(results); step++) {
        char group[40];
        snprintf(group, sizeof group, "data-step=\"%d\"", (int)step);
        const bool stands = kl_member_stands(results, kl_state_step(step), cap);
        assert_int_equal(strstr(picture, group) != NULL, stands);
        standing += stands;
    }
    assert_true(standing > 1);
    free(page);
}

static void selection_tenths_are_tenths_nodes_and_faces(void **state)
{
    sample_model *models = *state;
    const double length = kl_member_length(models[0].model, 0);
    assert_true(
        selection_is_tenth(&(kl_station_row){0.3 * length, KL_RIGHT, KL_NONE, false}, length));
    assert_true(selection_is_tenth(&(kl_station_row){0.33 * length, KL_RIGHT, 2, false}, length));
    assert_true(
        selection_is_tenth(&(kl_station_row){0.33 * length, KL_LEFT, KL_NONE, true}, length));
    assert_false(
        selection_is_tenth(&(kl_station_row){0.35 * length, KL_LEFT, KL_NONE, false}, length));
    selection_wish wish = selection_wish_none();
    wish.every_stage = true;
    selection s;
    assert_int_equal(selection_make(models[0].results, &wish, SELECTION_FINAL, &s), KL_OK);
    assert_true(s.state_count >= models[0].model->stage_count);
    for (kl_index i = 0; i < models[0].model->stage_count; i++) {
        assert_int_equal(s.states[i].kind, KL_STATE_STEP);
        assert_int_equal(s.states[i].index, kl_last_step(models[0].results, i));
    }
    selection_free(&s);
}

static void package_without_stages_has_no_sheet_of_stages(void **state)
{
    sample_model *models = *state;
    char *page = page_of(&models[1]);
    assert_null(strstr(page, "id=\"sheet-stages\""));
    assert_null(strstr(page, "id=\"sheet-tendons\""));
    assert_non_null(strstr(page, "id=\"sheet-actions\""));
    free(page);
}

static void package_short_memory_is_told(void **state)
{
    sample_model *models = *state;
    for (int m = 0; m < 2; m++) {
        const package_input input = input_of(&models[m]);
        FILE *out = fopen("/dev/null", "w");
        assert_non_null(out);
        kl_status status = KL_NO_MEMORY;
        for (long k = 0; status != KL_OK;
             k = k + 1 + k / 16) { /* ever wider steps: there are thousands */
            assert_true(k < 10000000);
            package p;
            fault_after(k);
            status = package_make(&p, &input);
            if (status == KL_OK) {
                status = package_write_html(&p, &input, out);
            }
            const int struck = fault_struck();
            fault_after(-1);
            assert_int_equal(status, struck != 0 ? KL_NO_MEMORY : KL_OK);
            package_free(&p);
        }
        fclose(out);
    }
}

static void package_write_html_full_disk_is_told(void **state)
{
    sample_model *models = *state;
    const package_input input = input_of(&models[1]);
    package p;
    assert_int_equal(package_make(&p, &input), KL_OK);
    FILE *out = fopen("/dev/full", "w");
    if (out != NULL) {
        assert_int_equal(package_write_html(&p, &input, out), KL_FILE_TROUBLE);
        fclose(out);
    }
    package_free(&p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(package_digest_is_that_of_the_standard),
        cmocka_unit_test(split_parts_add_up_to_what_the_tables_show),
        cmocka_unit_test(split_of_a_straight_tendon_is_the_hand_calculation),
        cmocka_unit_test(places_of_member_are_faces_and_midspan),
        cmocka_unit_test(page_data_is_as_long_as_its_stations),
        cmocka_unit_test(page_shows_failures_first_and_texts_literally),
        cmocka_unit_test(picture_of_page_holds_every_step),
        cmocka_unit_test(selection_tenths_are_tenths_nodes_and_faces),
        cmocka_unit_test(package_without_stages_has_no_sheet_of_stages),
        cmocka_unit_test(package_short_memory_is_told),
        cmocka_unit_test(package_write_html_full_disk_is_told),
    };
    return cmocka_run_group_tests_name("package", tests, sample_models_solve, sample_models_free);
}
