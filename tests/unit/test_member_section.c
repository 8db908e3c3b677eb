/* test_member_section.c - the section at a station: constant, haunched, stepped.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <math.h>

#include "member_section.h"

enum { DEEP, SHALLOW, ROUND };

/* 20 m long, no model store needed. */
typedef struct haunch {
    kl_section sections[3];
    kl_node nodes[2];
    kl_section_at rows[5];
    kl_member member;
    kl_model model;
} haunch;

static void make_haunch(haunch *h)
{
    *h = (haunch){0};
    h->sections[DEEP] =
        (kl_section){.shape = KL_RECTANGLE, .name = "deep", .width = 1.0, .depth = 2.0};
    h->sections[SHALLOW] =
        (kl_section){.shape = KL_RECTANGLE, .name = "shallow", .width = 1.0, .depth = 1.0};
    h->sections[ROUND] = (kl_section){.shape = KL_CIRCLE, .name = "round", .diameter = 1.0};
    for (int i = 0; i < 3; i++) {
        h->sections[i].shear_area = NAN;
    }
    h->nodes[1].x = 12.0;
    h->nodes[1].y = 16.0;
    /* deep to 5 m, haunch to 10 m, shallow to 15 m, there a step to round */
    h->rows[0] = (kl_section_at){DEEP, 5.0, KL_NOWHERE};
    h->rows[1] = (kl_section_at){SHALLOW, 10.0, KL_NOWHERE};
    h->rows[2] = (kl_section_at){SHALLOW, 15.0, KL_NOWHERE};
    h->rows[3] = (kl_section_at){ROUND, 15.0, KL_NOWHERE};
    h->member = (kl_member){.from = 0, .to = 1, .sections = h->rows, .section_count = 4};
    h->model = (kl_model){.sections = h->sections,
                          .section_count = 3,
                          .nodes = h->nodes,
                          .node_count = 2,
                          .members = &h->member,
                          .member_count = 1};
}

static void member_section_values_follow_haunch_and_step(void **state)
{
    (void)state;
    const struct {
        double station;
        kl_side side;
        double depth, area;
    } rows[] = {
        {0.0, KL_RIGHT, 2.0, 2.0},
        {5.0, KL_LEFT, 2.0, 2.0},
        {5.0, KL_RIGHT, 2.0, 2.0},
        {6.0, KL_RIGHT, 1.8, 1.8},
        {7.5, KL_LEFT, 1.5, 1.5},
        {10.0, KL_LEFT, 1.0, 1.0},
        {10.0, KL_RIGHT, 1.0, 1.0},
        {12.0, KL_LEFT, 1.0, 1.0},
        {15.0, KL_LEFT, 1.0, 1.0},
        {15.0, KL_RIGHT, 1.0, 0.25 * 3.14159265358979323846},
        {15.0 + 1e-9, KL_LEFT, 1.0, 1.0}, /* a station typed to the step is the step */
        {20.0, KL_LEFT, 1.0, 0.25 * 3.14159265358979323846},
    };
    haunch h;
    make_haunch(&h);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        section_value v;
        member_section_values(&h.model, 0, rows[i].station, rows[i].side, &v);
        assert_close(v.depth, rows[i].depth, 1e-9, 0);
        assert_close(v.area, rows[i].area, 1e-9, 0);
    }
}

static void member_section_at_prismatic_member_ignores_stations(void **state)
{
    (void)state;
    haunch h;
    make_haunch(&h);
    h.member.section_count = 1;
    const member_section at = member_section_at(&h.model, 0, 13.0, KL_RIGHT);
    assert_ptr_equal(at.a, &h.sections[DEEP]);
    assert_ptr_equal(at.b, &h.sections[DEEP]);
    assert_close(at.t, 0.0, 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(member_section_values_follow_haunch_and_step),
        cmocka_unit_test(member_section_at_prismatic_member_ignores_stations),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
