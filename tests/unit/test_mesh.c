/* test_mesh.c - where elements must end, and what they know of the member there.
 * SPDX-License-Identifier: MIT */
#include "mesh.h"

#include <math.h>
#include <stdio.h>

#include "solved.h"

#define HEAD                                                                                       \
    "show si\nmaterial oak { modulus 30 GPa; unit_weight 24 kN/m^3 }\n"                            \
    "prestressing steel { ultimate 1860 MPa; yield 1670 MPa; modulus 195 GPa; relaxation none }\n" \
    "section r { rectangle width 1 m depth 2 m }\nsection s { rectangle width 1 m depth 3 m }\n"   \
    "node A at (0 m, 0 m)\nnode B at (10 m, 0 m)\n"

typedef struct meshed {
    solved model;
    frame_mesh mesh;
    kl_status status;
} meshed;

static void mesh_text(meshed *t, const char *text, const mesh_break *breaks, kl_index count)
{
    solved_read_well(&t->model, text);
    t->status =
        mesh_create(t->model.model, breaks, count, &t->model.memory, t->model.diags, &t->mesh);
}

/* Does an element of the member end at the station? */
static bool ends_at(const frame_mesh *mesh, kl_index member, double station)
{
    const mesh_member *of = &mesh->members[member];
    for (kl_index e = of->first; e < of->first + of->count; e++) {
        if (fabs(mesh->elements[e].from - station) < 1e-9 ||
            fabs(mesh->elements[e].to - station) < 1e-9) {
            return true;
        }
    }
    return false;
}

/* Elements follow one another from face to face, share nodes, and are none too long. */
static void assert_sound(const frame_mesh *mesh, kl_index member, double longest)
{
    const kl_member *item = &mesh->model->members[member];
    const mesh_member *of = &mesh->members[member];
    const mesh_element *e = &mesh->elements[of->first];
    assert_close(e[0].from, item->rigid_start, 0.0, 1e-12);
    assert_close(e[of->count - 1].to, of->length - item->rigid_end, 0.0, 1e-12);
    assert_int_equal(e[0].node[0], item->from);
    assert_int_equal(e[of->count - 1].node[1], item->to);
    for (kl_index i = 0; i < of->count; i++) {
        assert_true(e[i].to > e[i].from);
        assert_true(e[i].to - e[i].from <= longest * (1.0 + 1e-6));
        if (i > 0) {
            assert_close(e[i].from, e[i - 1].to, 0.0, 0.0);
            assert_int_equal(e[i].node[0], e[i - 1].node[1]);
            const kl_point at = mesh->nodes[e[i].node[0]];
            const kl_point want = kl_member_point(mesh->model, member, e[i].from);
            assert_close(at.x, want.x, 0.0, 1e-12);
            assert_close(at.y, want.y, 0.0, 1e-12);
        }
    }
}

/* Each row: what is added to a beam of 10 m with elements of up to 10 m, and where an element must then end. */
typedef struct stop_case {
    const char *title, *member, *rest;
    double stations[4]; /* ended by a zero */
} stop_case;

static const stop_case stop_cases[] = {
    {"bare", "section r", "", {10.0}},
    {"a node on it", "section r", "node P on b at 3.3 m\n", {3.3}},
    {"a hinge", "section r; hinge at 4.1 m", "", {4.1}},
    {"faces of rigid parts", "section r; rigid start 0.7 m end 1.2 m", "", {0.7, 8.8}},
    {"section rows", "section r at start; section s at 2.2 m; section s at end", "", {2.2}},
    {"a point load", "section r", "load l { point 5 kN on b at 6.1 m }\n", {6.1}},
    {"ends of a load",
     "section r",
     "load l { uniform 5 kN/m on b from 1.7 m to 5.3 m }\n",
     {1.7, 5.3}},
    {"a couple", "section r", "load l { moment 5 kN-m on b at 7.9 m }\n", {7.9}},
    {"repeated points",
     "section r",
     "load l { point 5 kN on b from 1 m to 3.4 m every 1.2 m }\n",
     {1.0, 2.2, 3.4}},
    {"rows of posts",
     "section r",
     "falsework f under b at 2.6 m, 7.4 m { posts 1; stiffness 1 MN/m }\n",
     {2.6, 7.4}},
    {"a hinge that a stage opens",
     "section r",
     "stage one { place b; unlock b at 5.7 m }\n",
     {5.7}},
    {"rows of a tendon",
     "section r",
     "tendon t in b { of steel; strands 1 area 140 mm^2; jack start stress 1000 MPa\n"
     "profile from line { anchor at start height 0 m; low at 4.4 m height -0.5 m; anchor at end "
     "height 0 m } }\n",
     {4.4}},
};

static void mesh_create_ends_elements_where_something_happens(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof stop_cases / sizeof stop_cases[0]; i++) {
        const stop_case *c = &stop_cases[i];
        meshed t;
        char text[4096];
        (void)snprintf(text, sizeof text,
                       "%smember b from A to B of oak { %s; mesh 10 m }\nsupport A fixed\n%s", HEAD,
                       c->member, c->rest);
        mesh_text(&t, text, NULL, 0);
        assert_int_equal(t.status, KL_OK);
        assert_sound(&t.mesh, 0, 10.0);
        kl_index wanted = 0;
        for (int k = 0; k < 4 && c->stations[k] > 0.0; k++) {
            if (!ends_at(&t.mesh, 0, c->stations[k])) {
                fail_msg("%s: no element ends at %g", c->title, c->stations[k]);
            }
            wanted += c->stations[k] < 8.8;
        }
        assert_true(t.mesh.members[0].count <= wanted + 1); /* and nowhere without a reason */
        solved_close(&t.model);
    }
}

static void mesh_create_ends_elements_at_breaks_and_joins_close_ones(void **state)
{
    (void)state;
    const mesh_break breaks[] = {
        {0, 2.0}, {0, 2.0 + 1e-7}, {0, 5.0 - 2e-7}, {0, 1e-9}, {0, 10.0 - 1e-9}};
    meshed t;
    mesh_text(&t,
              HEAD "member b from A to B of oak { section r; mesh 10 m }\nsupport A fixed\n"
                   "node P on b at 5 m\n",
              breaks, 5);
    assert_int_equal(t.status, KL_OK);
    assert_sound(&t.mesh, 0, 10.0);
    assert_int_equal(t.mesh.members[0].count, 3);
    assert_int_equal(mesh_node_at(&t.mesh, 0, 5.0), solved_index(&t.model, KL_KIND_NODE, "P"));
    solved_close(&t.model);
}

/* Without `mesh`: a twentieth of the member, and an axial member is one element. */
static void mesh_create_by_default_cuts_twentieths(void **state)
{
    (void)state;
    meshed t;
    mesh_text(
        &t,
        HEAD
        "node C at (10 m, 5 m)\nmember b from A to B section r of oak\n"
        "member d from A to C section r of oak { axial_only }\nsupport A fixed\nsupport C fixed\n"
        "load l { point 1 kN on d at 3 m }\n",
        NULL, 0);
    assert_int_equal(t.mesh.members[0].count, 20);
    assert_sound(&t.mesh, 0, 0.5);
    assert_int_equal(t.mesh.members[1].count, 1);
    solved_close(&t.model);
}

static void mesh_create_hinges_stand_where_they_were_put(void **state)
{
    (void)state;
    meshed t;
    mesh_text(
        &t,
        HEAD
        "member b from A to B of oak { section r; mesh 4 m; hinge start; hinge at 5 m; hinge end; "
        "rigid end 2 m }\nsupport A fixed\n",
        NULL, 0);
    const mesh_member *of = &t.mesh.members[0];
    int hinges = 0;
    for (kl_index e = of->first; e < of->first + of->count; e++) {
        const mesh_element *it = &t.mesh.elements[e];
        hinges += it->hinge[0] + it->hinge[1];
        assert_int_equal(it->hinge[0], e == of->first);
        assert_int_equal(it->hinge[1], fabs(it->to - 5.0) < 1e-9 || fabs(it->to - 8.0) < 1e-9);
    }
    assert_int_equal(hinges, 3);
    assert_close(t.mesh.elements[of->first + of->count - 1].rigid[1], 2.0, 0.0, 1e-15);
    solved_close(&t.model);
}

/* A x I at the points of a taper (2 m to 3 m deep over 10 m, 1 m wide) and on both sides of a step. */
static void mesh_create_reads_the_section_at_each_point(void **state)
{
    (void)state;
    meshed t;
    mesh_text(
        &t,
        HEAD
        "member b from A to B of oak { section r at start; section s at 6 m; section r at 6 m; "
        "section r at end; mesh 3 m }\nsupport A fixed\n",
        NULL, 0);
    for (kl_index e = 0; e < t.mesh.element_count; e++) {
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            const mesh_section *s = &t.mesh.sections[t.mesh.elements[e].section + p];
            const double x = mesh_point_station(&t.mesh, e, p);
            const double depth = x < 6.0 ? 2.0 + x / 6.0 : 2.0;
            assert_close(s->area, depth, 1e-12, 0.0);
            assert_close(s->inertia, depth * depth * depth / 12, 1e-12, 0.0);
            assert_close(s->centroid, 0.0, 0.0,
                         1e-12); /* the line is the centroid of each section */
            assert_true(isinf(s->shear_area));
        }
    }
    solved_close(&t.model);
}

/* Stations in a rigid part belong to the element beside it; at an element's end the side decides. */
static void mesh_element_at_chooses_by_side(void **state)
{
    (void)state;
    meshed t;
    mesh_text(&t,
              HEAD "member b from A to B of oak { section r; mesh 2 m; rigid start 1 m end 1 m "
                   "}\nsupport A fixed\n",
              NULL, 0);
    assert_int_equal(t.mesh.members[0].count, 4);
    const struct {
        double station;
        kl_side side;
        kl_index element;
    } rows[] = {{0.0, KL_RIGHT, 0}, {0.5, KL_LEFT, 0},  {1.0, KL_LEFT, 0},  {2.9, KL_RIGHT, 0},
                {3.0, KL_LEFT, 0},  {3.0, KL_RIGHT, 1}, {5.0, KL_LEFT, 1},  {5.0, KL_RIGHT, 2},
                {9.0, KL_RIGHT, 3}, {9.5, KL_LEFT, 3},  {10.0, KL_RIGHT, 3}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_int_equal(mesh_element_at(&t.mesh, 0, rows[i].station, rows[i].side),
                         rows[i].element);
    }
    assert_int_equal(mesh_node_at(&t.mesh, 0, 0.0), 0);
    assert_int_equal(mesh_node_at(&t.mesh, 0, 10.0), 1);
    assert_int_equal(mesh_node_at(&t.mesh, 0, 4.0), KL_NONE);
    assert_int_equal(mesh_node_at(&t.mesh, 0, 0.5), KL_NONE);
    assert_int_equal(mesh_node_at(&t.mesh, 0, 9.0), KL_NONE);
    solved_close(&t.model);
}

/* Feet stand on the carrying member at the post's own x, which gets an element end there. */
static void mesh_create_puts_feet_below_their_rows(void **state)
{
    (void)state;
    meshed t;
    mesh_text(
        &t,
        HEAD
        "node C at (-2 m, -6 m)\nnode D at (12 m, -4 m)\n"
        "member b from A to B of oak { section r; mesh 10 m }\n"
        "member low from D to C of oak { section r; mesh 20 m }\nsupport C fixed\nsupport A fixed\n"
        "falsework f under b at 3 m, 8 m on low { posts 3; stiffness 2 MN/m }\n",
        NULL, 0);
    assert_int_equal(t.status, KL_OK);
    assert_int_equal(t.mesh.row_count, 2);
    for (kl_index r = 0; r < 2; r++) {
        const mesh_row *row = &t.mesh.rows[r];
        const double x = r == 0 ? 3.0 : 8.0;
        assert_close(row->x, x, 0.0, 1e-12);
        assert_close(row->stiffness, 6e6, 1e-14, 0.0);
        assert_close(t.mesh.nodes[row->top].x, x, 0.0, 1e-12);
        assert_close(t.mesh.nodes[row->foot].x, x, 0.0, 1e-9);
        assert_close(t.mesh.nodes[row->foot].y, -6.0 + 2.0 * (x + 2.0) / 14.0, 0.0, 1e-9);
    }
    solved_close(&t.model);
}

static void mesh_create_refuses_rows_without_a_place(void **state)
{
    (void)state;
    const struct {
        const char *text, *message;
    } rows[] = {
        {HEAD "member b from A to B of oak { section r; rigid start 1 m }\nsupport A fixed\n"
              "falsework f under b at 0.5 m { posts 1; stiffness 1 MN/m }\nstage s { erect f; cast "
              "b }\n",
         "row-in-rigid-end"},
        {HEAD
         "node C at (2 m, -6 m)\nnode D at (12 m, -6 m)\nmember b from A to B section r of oak\n"
         "member low from C to D of oak { section r; rigid start 2 m }\nsupport C fixed\nsupport A "
         "fixed\n"
         "falsework f under b at 3 m on low { posts 1; stiffness 1 MN/m }\n"
         "stage s { place low; erect f; cast b }\n",
         "row-without-foot"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        solved s;
        (void)solved_refused(&s, rows[i].text, KL_BAD_MODEL, rows[i].message);
        solved_close(&s);
    }
}

static void mesh_is_upright_within_three_degrees(void **state)
{
    (void)state;
    meshed t;
    mesh_text(
        &t,
        HEAD
        "node C at (0.2 m, 10 m)\nnode D at (1 m, -10 m)\nmember b from A to C section r of oak\n"
        "member d from D to A section r of oak\nmember e from A to B section r of oak\nsupport A "
        "fixed\n",
        NULL, 0);
    assert_true(mesh_is_upright(&t.mesh, 0));
    assert_false(mesh_is_upright(&t.mesh, 1));
    assert_false(mesh_is_upright(&t.mesh, 2));
    solved_close(&t.model);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(mesh_create_ends_elements_where_something_happens),
        cmocka_unit_test(mesh_create_ends_elements_at_breaks_and_joins_close_ones),
        cmocka_unit_test(mesh_create_by_default_cuts_twentieths),
        cmocka_unit_test(mesh_create_hinges_stand_where_they_were_put),
        cmocka_unit_test(mesh_create_reads_the_section_at_each_point),
        cmocka_unit_test(mesh_element_at_chooses_by_side),
        cmocka_unit_test(mesh_create_puts_feet_below_their_rows),
        cmocka_unit_test(mesh_create_refuses_rows_without_a_place),
        cmocka_unit_test(mesh_is_upright_within_three_degrees),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
