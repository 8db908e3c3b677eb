/* test_constraints.c - which unknowns exist, which are held, which follow another.
 * SPDX-License-Identifier: MIT */
#include "constraints.h"

#include <math.h>
#include <string.h>

#include "solved.h"

#define HEAD                                                                                       \
    "show si\nmaterial oak { modulus 30 GPa }\nsection r { rectangle width 1 m depth 2 m }\n"      \
    "node A at (0 m, 0 m)\nnode B at (10 m, 0 m)\nnode C at (20 m, 0 m)\n"

#define NODES 64

/* A small frame with every element on, the model's hinges, and holds and joints that a test gives. */
typedef struct frame {
    solved model;
    frame_mesh mesh;
    unknown_map map;
    bool on[NODES];
    bool hinge[NODES][2];
    frame_structure structure;
} frame;

static void make(frame *f, const char *text)
{
    memset(f, 0, sizeof *f);
    solved_read_well(&f->model, text);
    assert_int_equal(
        mesh_create(f->model.model, NULL, 0, &f->model.memory, f->model.diags, &f->mesh), KL_OK);
    assert_int_equal(constraints_create(&f->mesh, &f->model.memory, &f->map), KL_OK);
    assert_true(f->mesh.element_count <= NODES);
    for (kl_index e = 0; e < f->mesh.element_count; e++) {
        f->on[e] = true;
        f->hinge[e][0] = f->mesh.elements[e].hinge[0];
        f->hinge[e][1] = f->mesh.elements[e].hinge[1];
    }
    const bool(*hinge)[2] = (const bool(*)[2])f->hinge;
    f->structure = (frame_structure){.on = f->on, .hinge = hinge};
}

/* Kinds of the three unknowns of a node as letters: free, held, absent, slave. */
static void assert_kinds(frame *f, kl_index node, const char *want)
{
    char got[4] = "???";
    for (int d = 0; d < 3; d++) {
        got[d] = "fhas"[f->map.kind[3 * node + d]];
    }
    assert_string_equal(got, want);
}

static void constraints_update_knows_held_and_free_and_absent(void **state)
{
    (void)state;
    frame f;
    make(&f,
         HEAD "node D at (0 m, 50 m)\nmember b from A to B of oak { section r; mesh 10 m }\n"
              "member c from B to C of oak { section r; mesh 10 m }\nmember d from A to D of oak { "
              "section r; mesh 50 m }\n"
              "support A fixed\nsupport C fixed\n");
    const frame_hold holds[] = {
        {0, 0, true, 0.0}, {0, 1, true, 0.0}, {1, 1, false, 5e6}, {3, 1, true, 0.0}};
    f.on[2] = false;
    f.structure.holds = holds;
    f.structure.hold_count = 4;
    constraints_update(&f.mesh, &f.structure, &f.map);
    assert_kinds(&f, 0, "hhf");
    assert_kinds(&f, 1, "fff");
    assert_kinds(&f, 2, "fff");
    assert_kinds(&f, 3, "aaa"); /* nothing stands there: its support waits */
    assert_true(f.map.plain[1]);
    assert_false(f.map.plain[0]);
    solved_close(&f.model);
}

/* Where only hinged ends and axial members meet there is no rotation, unless a support's spring has it, or the hinge
 * sits at the face of a rigid part. */
static void constraints_update_leaves_out_rotations_that_nothing_resists(void **state)
{
    (void)state;
    frame f;
    make(&f,
         HEAD "node D at (0 m, 10 m)\n"
              "member b from A to B of oak { section r; mesh 10 m; hinge end }\n"
              "member c from B to C of oak { section r; mesh 10 m; hinge start; hinge end; rigid "
              "end 1 m }\n"
              "member d from D to B section r of oak { axial_only }\nsupport A fixed\nsupport C "
              "fixed\nsupport D fixed\n");
    constraints_update(&f.mesh, &f.structure, &f.map);
    assert_kinds(&f, 1, "ffa");
    assert_kinds(&f, 2, "fff");
    assert_kinds(&f, 3, "ffa");
    const frame_hold spring = {1, 2, false, 3e6};
    f.structure.holds = &spring;
    f.structure.hold_count = 1;
    constraints_update(&f.mesh, &f.structure, &f.map);
    assert_kinds(&f, 1, "fff");
    solved_close(&f.model);
}

/* A bearing's slave follows its master through a chain; what one holds both hold. */
static void constraints_update_folds_bearings_into_their_bases(void **state)
{
    (void)state;
    frame f;
    make(&f,
         HEAD "node P at (10 m, 0 m)\nnode Q at (10 m, 0 m)\nnode E at (20 m, -5 m)\nnode F at "
              "(30 m, 0 m)\n"
              "member b from A to B of oak { section r; mesh 10 m }\nmember c from P to C of oak { "
              "section r; mesh 10 m }\n"
              "member d from Q to E of oak { section r; mesh 20 m }\nmember e from C to F of oak { "
              "section r; mesh 10 m }\n"
              "support A fixed\nsupport E fixed\n");
    const kl_index b = 1;
    const kl_index p = 3;
    const kl_index q = 4;
    const frame_joint joints[] = {
        {q, p, 1, true, 0.0}, {p, b, 1, true, 0.0}, {p, b, 0, false, 2e6}, {q, p, 2, false, 0.0}};
    f.structure.joints = joints;
    f.structure.joint_count = 4;
    constraints_update(&f.mesh, &f.structure, &f.map);
    assert_kinds(&f, b, "fff");
    assert_kinds(&f, p, "fsf");
    assert_kinds(&f, q, "fsf");
    assert_int_equal(f.map.master[3 * q + 1], 3 * b + 1);
    assert_int_equal(f.map.master[3 * p + 1], 3 * b + 1);
    assert_int_equal(f.map.master[3 * p], 3 * p);
    const frame_hold hold = {q, 1, true, 0.0};
    f.structure.holds = &hold;
    f.structure.hold_count = 1;
    constraints_update(&f.mesh, &f.structure, &f.map);
    assert_kinds(&f, b, "fhf"); /* the master is held where a slave stands on a support */
    assert_kinds(&f, q, "fsf");
    solved_close(&f.model);
}

/* Node axes turn by the support's slope and back. */
static void constraints_to_node_axes_turns_by_the_slope(void **state)
{
    (void)state;
    frame f;
    make(&f,
         HEAD "member b from A to B of oak { section r; mesh 10 m }\nmember c from B to C of oak { "
              "section r; mesh 10 m }\n"
              "support A fixed\nsupport C roller slope 30 deg\n");
    double v[NODES * 3] = {0};
    v[0] = 3.0;
    v[6] = 1.0;
    v[7] = 2.0;
    v[8] = 4.0;
    const double c = sqrt(3.0) / 2.0;
    constraints_to_node_axes(&f.mesh, &f.map, v);
    assert_close(v[0], 3.0, 0.0, 0.0);
    assert_close(v[6], c + 1.0, 1e-15, 0.0);
    assert_close(v[7], 2.0 * c - 0.5, 1e-15, 0.0);
    assert_close(v[8], 4.0, 0.0, 0.0);
    constraints_to_global(&f.mesh, &f.map, v);
    assert_close(v[6], 1.0, 1e-15, 0.0);
    assert_close(v[7], 2.0, 1e-15, 0.0);
    solved_close(&f.model);
}

/* A propped cantilever whose prop is a bearing on a support that no member meets: 5/16 of a load at midspan, and
 * 3 EI d / l^3 when the support sinks by d (every table of beams). EI = 20 MN m^2, l = 6 m. */
static void bearing_on_a_support_alone_carries(void **state)
{
    (void)state;
    solved s;
    solved_open(&s,
                "show si\nmaterial steel { modulus 200 GPa }\nsection r { area 100 cm^2; inertia "
                "10000 cm^4 }\n"
                "node A at (0 m, 0 m)\nnode B at (6 m, 0 m)\nnode Q at (6 m, 0 m)\n"
                "member beam from A to B section r of steel\nsupport A fixed\nsupport Q fixed\n"
                "bearing B on Q { y fixed }\nload push { point 16 kN on beam at mid }\n"
                "load sink { settle 10.8 mm at Q down }\n");
    assert_close(solved_reaction(&s, solved_under(&s, "push"), "Q", KL_Y), 5e3, 1e-9, 0.0);
    assert_close(solved_reaction(&s, solved_under(&s, "sink"), "Q", KL_Y), -3e3, 1e-9, 0.0);
    solved_close(&s);
}

/* The same where the prop comes and the support beneath it is added when the cantilever already hangs: only the load
 * after that reaches it. */
static void bearing_on_a_support_added_later_carries_what_comes_after(void **state)
{
    (void)state;
    solved s;
    solved_open(&s,
                "show si\nmaterial steel { modulus 200 GPa; unit_weight 77 kN/m^3 }\n"
                "section r { area 100 cm^2; inertia 10000 cm^4 }\n"
                "node A at (0 m, 0 m)\nnode B at (6 m, 0 m)\nnode Q at (6 m, 0 m)\n"
                "member beam from A to B section r of steel\nsupport A fixed\n"
                "bearing B on Q { y fixed }\nload push { point 16 kN on beam at mid }\n"
                "stage hang { place beam }\nstage prop { support Q fixed }\nstage loaded { load "
                "push }\n");
    assert_close(solved_reaction(&s, solved_after(&s, "prop"), "Q", KL_Y), 0.0, 0.0, 1e-6);
    assert_close(solved_reaction(&s, solved_after(&s, "loaded"), "Q", KL_Y), 5e3, 1e-9, 0.0);
    solved_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(constraints_update_knows_held_and_free_and_absent),
        cmocka_unit_test(constraints_update_leaves_out_rotations_that_nothing_resists),
        cmocka_unit_test(constraints_update_folds_bearings_into_their_bases),
        cmocka_unit_test(constraints_to_node_axes_turns_by_the_slope),
        cmocka_unit_test(bearing_on_a_support_alone_carries),
        cmocka_unit_test(bearing_on_a_support_added_later_carries_what_comes_after),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
