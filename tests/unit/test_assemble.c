/* test_assemble.c - the assembled, folded and factored system against a dense one that does neither.
 *
 * The second opinion keeps every unknown and adds one Lagrange multiplier for each hold and each joint, so that
 * supports, inclined rollers and bearings are equations of their own; it is solved by Gauss elimination with
 * pivoting. Uniform loads enter it as the textbook's w L/2 and w L^2/12.
 * SPDX-License-Identifier: MIT */
#include "assemble.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "recover.h"
#include "solved.h"

#define MOST 200

typedef struct frame {
    solved model;
    frame_mesh mesh;
    frame_system system;
    frame_loads loads;
    frame_structure structure;
    section_flexibility f[MOST][QUADRATURE_POINTS];
    bool on[MOST];
    bool hinge[MOST][2];
    frame_hold holds[MOST];
    frame_joint joints[MOST];
    frame_strut struts[MOST];
    double u[MOST], work[MOST];
    double q[3 * MOST];
} frame;

static void list_supports(frame *f)
{
    const kl_model *model = f->model.model;
    for (kl_index i = 0; i < model->support_count; i++) {
        for (int d = 0; d < 3; d++) {
            const kl_hold *hold = &model->supports[i].hold[d];
            if (hold->kind != KL_FREE) {
                f->holds[f->structure.hold_count++] =
                    (frame_hold){model->supports[i].node, d, hold->kind != KL_SPRING,
                                 hold->kind == KL_SPRING ? hold->stiffness : 0.0};
            }
        }
    }
    for (kl_index i = 0; i < model->bearing_count; i++) {
        const kl_bearing *bearing = &model->bearings[i];
        for (int d = 0; d < 3; d++) {
            const kl_hold *hold = &bearing->hold[d];
            if (hold->kind != KL_FREE) {
                f->joints[f->structure.joint_count++] =
                    (frame_joint){bearing->node, bearing->base, d, hold->kind != KL_SPRING,
                                  hold->kind == KL_SPRING ? hold->stiffness : 0.0};
            }
        }
    }
    for (kl_index i = 0; i < f->mesh.row_count; i++) {
        const mesh_row *row = &f->mesh.rows[i];
        f->struts[f->structure.strut_count++] = (frame_strut){row->top, row->foot, row->stiffness};
    }
}

static void form(frame *f)
{
    for (kl_index e = 0; e < f->mesh.element_count; e++) {
        const kl_member *member = &f->model.model->members[f->mesh.elements[e].member];
        const double modulus = f->model.model->materials[member->material].modulus;
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            const mesh_section *s = &f->mesh.sections[f->mesh.elements[e].section + p];
            const section_rigidity d = {modulus * s->area, 0.0, modulus * s->inertia, HUGE_VAL};
            f->f[e][p] = section_soften(&d);
        }
        f->on[e] = true;
        f->hinge[e][0] = f->mesh.elements[e].hinge[0];
        f->hinge[e][1] = f->mesh.elements[e].hinge[1];
        assert_int_equal(element_form(&f->mesh, e, f->f[e], f->hinge[e], &f->system.matrix[e]),
                         KL_OK);
    }
}

static void make(frame *f, const char *text)
{
    memset(f, 0, sizeof *f);
    solved_read_well(&f->model, text);
    arena *const a = &f->model.memory;
    assert_int_equal(mesh_create(f->model.model, NULL, 0, a, f->model.diags, &f->mesh), KL_OK);
    assert_int_equal(system_create(&f->mesh, 1, a, &f->system), KL_OK);
    assert_int_equal(loads_create(&f->mesh, a, &f->loads), KL_OK);
    assert_true(3 * f->mesh.node_count <= MOST && f->mesh.element_count <= MOST);
    void *hinge = f->hinge;
    f->structure = (frame_structure){
        .on = f->on, .hinge = hinge, .holds = f->holds, .joints = f->joints, .struts = f->struts};
    list_supports(f);
    form(f);
    for (kl_index i = 0; i < f->model.model->cases[0].load_count; i++) {
        assert_int_equal(loads_add(&f->mesh, &f->model.model->cases[0].loads[i], 1.0, &f->loads),
                         KL_OK);
    }
}

static void drop(frame *f)
{
    system_destroy(&f->system);
    solved_close(&f->model);
}

/* ---- the second opinion ------------------------------------------------------------------------------------ */

typedef struct dense {
    int n; /* unknowns, then multipliers */
    double a[MOST][MOST + 1];
} dense;

static void dense_spring(dense *d, const double *row, int n, double stiffness, double moved)
{
    for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
            d->a[i][j] += stiffness * row[i] * row[j];
        }
        d->a[i][MOST] += stiffness * row[i] * moved;
    }
}

/* row . u = moved */
static void dense_equation(dense *d, const double *row, int n, double moved)
{
    for (int i = 0; i < n; i++) {
        d->a[i][d->n] = d->a[d->n][i] = row[i];
    }
    d->a[d->n][MOST] = moved;
    d->n++;
}

static void dense_elements(const frame *f, dense *d)
{
    for (kl_index e = 0; e < f->mesh.element_count; e++) {
        const mesh_element *element = &f->mesh.elements[e];
        double block[2][2][9];
        element_stiffness(&f->system.matrix[e], block);
        for (int i = 0; i < 6; i++) {
            for (int j = 0; j < 6; j++) {
                d->a[3 * element->node[i / 3] + i % 3][3 * element->node[j / 3] + j % 3] +=
                    block[i / 3][j / 3][3 * (i % 3) + j % 3];
            }
        }
        /* uniform load across a level element: its ends give w L/2 and +- w L^2/12 (w L/2 alone where both are hinged) */
        const double w = loads_on(&f->loads, e).line->across[0];
        const double l = element->to - element->from;
        d->a[3 * element->node[0] + 1][MOST] += w * l / 2;
        d->a[3 * element->node[1] + 1][MOST] += w * l / 2;
        d->a[3 * element->node[0] + 2][MOST] += w * l * l / 12;
        d->a[3 * element->node[1] + 2][MOST] -= w * l * l / 12;
    }
}

static void dense_holds(const frame *f, dense *d, int n)
{
    const kl_model *model = f->model.model;
    for (kl_index i = 0; i < f->structure.hold_count; i++) {
        const frame_hold *hold = &f->holds[i];
        double slope = 0.0;
        for (kl_index s = 0; s < model->support_count; s++) {
            slope = model->supports[s].node == hold->node ? model->supports[s].slope : slope;
        }
        double row[MOST] = {0};
        row[3 * hold->node] = hold->direction == 0   ? cos(slope)
                              : hold->direction == 1 ? -sin(slope)
                                                     : 0.0;
        row[3 * hold->node + 1] = hold->direction == 0   ? sin(slope)
                                  : hold->direction == 1 ? cos(slope)
                                                         : 0.0;
        row[3 * hold->node + 2] = hold->direction == 2 ? 1.0 : 0.0;
        double moved = 0.0;
        for (int k = 0; k < 3; k++) {
            moved +=
                f->loads.moved ? row[3 * hold->node + k] * f->loads.moved[3 * hold->node + k] : 0.0;
        }
        if (hold->held) {
            dense_equation(d, row, n, moved);
        } else {
            dense_spring(d, row, n, hold->stiffness, moved);
        }
    }
}

static void dense_pairs(const frame *f, dense *d, int n)
{
    for (kl_index i = 0; i < f->structure.joint_count; i++) {
        const frame_joint *joint = &f->joints[i];
        double row[MOST] = {0};
        row[3 * joint->node + joint->direction] = 1.0;
        row[3 * joint->base + joint->direction] = -1.0;
        if (joint->joined) {
            dense_equation(d, row, n, 0.0);
        } else {
            dense_spring(d, row, n, joint->stiffness, 0.0);
        }
    }
    for (kl_index i = 0; i < f->structure.strut_count; i++) {
        double row[MOST] = {0};
        row[3 * f->struts[i].top + 1] = 1.0;
        if (f->struts[i].foot != KL_NONE) {
            row[3 * f->struts[i].foot + 1] = -1.0;
        }
        dense_spring(d, row, n, f->struts[i].stiffness, 0.0);
    }
}

static void dense_eliminate(dense *d)
{
    for (int k = 0; k < d->n; k++) {
        int best = k;
        for (int i = k + 1; i < d->n; i++) {
            best = fabs(d->a[i][k]) > fabs(d->a[best][k]) ? i : best;
        }
        for (int j = 0; j <= MOST && best != k; j++) {
            const double kept = d->a[k][j];
            d->a[k][j] = d->a[best][j];
            d->a[best][j] = kept;
        }
        assert_true(fabs(d->a[k][k]) > 0.0);
        for (int i = 0; i < d->n; i++) {
            const double share = i == k ? 0.0 : d->a[i][k] / d->a[k][k];
            for (int j = k; j < d->n && i != k; j++) {
                d->a[i][j] -= share * d->a[k][j];
            }
            d->a[i][MOST] -= i == k ? 0.0 : share * d->a[k][MOST];
        }
    }
}

static void dense_solve(const frame *f, double *u)
{
    dense *d = calloc(1, sizeof *d);
    assert_non_null(d);
    const int n = 3 * f->mesh.node_count;
    d->n = n;
    for (int i = 0; i < n; i++) {
        d->a[i][MOST] = f->loads.node[i];
    }
    dense_elements(f, d);
    dense_holds(f, d, n);
    dense_pairs(f, d, n);
    for (int i = 0; i < n; i++) { /* what nothing has stiffness for stays */
        d->a[i][i] += fabs(d->a[i][i]) > 0.0 ? 0.0 : 1.0;
    }
    dense_eliminate(d);
    for (int i = 0; i < n; i++) {
        u[i] = d->a[i][MOST] / d->a[i][i];
    }
    free(d);
}

/* ---- frames ------------------------------------------------------------------------------------------------ */

#define HEAD                                                                                       \
    "show si\nmaterial oak { modulus 30 GPa }\nsection r { rectangle width 1 m depth 2 m }\n"      \
    "section q { rectangle width 1 m depth 1 m }\n"                                                \
    "node A at (0 m, 0 m)\nnode B at (10 m, 0 m)\nnode C at (20 m, 0 m)\n"
#define BEAMS                                                                                      \
    "member b from A to B of oak { section r; mesh 5 m }\nmember c from B to C of oak { section "  \
    "r; mesh 5 m }\n"
#define LOAD "load l { uniform 20 kN/m on b c; point 50 kN on b at 5 m right; moment 70 kN-m at C; "

static const char *const frames[] = {
    HEAD BEAMS "support A fixed\n" LOAD "}\n",
    HEAD BEAMS "support A pinned\nsupport B roller\nsupport C roller slope 30 deg\n" LOAD
               "settle 5 mm at B down; settle 3 mm at A right }\n",
    HEAD BEAMS "support A x fixed y fixed turn 3e6 kN-m/rad\nsupport B y 2e4 kN/m\nsupport C "
               "roller slope -40 deg\n" LOAD "settle 5 mm at B down; turn 0.001 rad at A }\n",
    /* a sloping spring-held roller: along and across by springs */
    HEAD BEAMS
    "node D at (20 m, -6 m)\nmember k from D to C of oak { section q; mesh 3 m; rigid end 1 m }\n"
    "support A roller slope 25 deg\nsupport D fixed\n" LOAD "}\n",
    /* bearings: a beam on a column's head on pads, pads on pads */
    HEAD "node P at (10 m, 0 m)\nnode Q at (10 m, 0 m)\nnode D at (10 m, -7 m)\n"
         "member b from A to P of oak { section r; mesh 5 m }\nmember c from Q to C of oak { "
         "section r; mesh 5 m }\n"
         "member k from D to B of oak { section q; mesh 4 m }\n"
         "bearing P on B { x 8e4 kN/m; y fixed }\nbearing Q on P { x fixed; y fixed }\n"
         "support A roller\nsupport D fixed\nsupport C roller\n" LOAD "settle 8 mm at D down }\n",
    /* a bearing that hands a support on: its base is held */
    HEAD "node P at (10 m, 0 m)\nmember b from A to P of oak { section r; mesh 5 m }\n"
         "member c from B to C of oak { section r; mesh 5 m }\n"
         "bearing P on B { x fixed; y fixed; turn 5e5 kN-m/rad }\nsupport A roller\nsupport B "
         "pinned\nsupport C roller\n" LOAD "settle 8 mm at B down }\n",
    /* hinges and a brace: a node without rotation */
    HEAD "node D at (0 m, -8 m)\nmember b from A to B of oak { section r; mesh 10 m; hinge end }\n"
         "member c from B to C of oak { section r; mesh 10 m; hinge start }\n"
         "member k from D to B section q of oak { axial_only }\nsupport A fixed\nsupport C "
         "roller\nsupport D pinned\n"
         "load l { point 50 kN at B down; moment 70 kN-m at C }\n",
    /* posts on the ground and on a lower beam */
    HEAD BEAMS "node D at (-1 m, -5 m)\nnode E at (12 m, -5 m)\nmember low from D to E of oak { "
               "section r; mesh 20 m }\n"
               "falsework f under b at 3 m, 7 m on low { posts 2; stiffness 9e4 kN/m }\n"
               "falsework g under c at 4 m { posts 1; stiffness 5e4 kN/m }\n"
               "support A pinned\nsupport D pinned\nsupport E roller\nsupport C roller\n" LOAD
               "}\n",
};

static void response_solve_agrees_with_a_dense_solve(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof frames / sizeof frames[0]; i++) {
        static frame f;
        factor_report report;
        double want[MOST];
        make(&f, frames[i]);
        dense_solve(&f, want);
        system_assemble(&f.system, &f.structure);
        assert_int_equal(system_factor(&f.system, &report), KL_OK);
        assert_true(report.complete);
        assert_int_equal(response_solve(&f.system, &f.structure, &f.loads, f.u, f.q, f.work),
                         KL_OK);
        double largest = 0.0;
        const int n = 3 * f.mesh.node_count;
        for (int k = 0; k < n; k++) {
            largest = fmax(largest, fabs(want[k]));
        }
        for (int k = 0; k < n; k++) {
            if (f.system.map.kind[k] != UNKNOWN_ABSENT) {
                assert_close(f.u[k], want[k], 1e-9, 1e-11 * largest);
            }
        }
        assert_true(f.system.worst_residual < 1e-14);
        drop(&f);
    }
}

/* Nodes without a hold, a joint or a strut need nothing: what elements take is what loads give. Over all nodes the
 * rest balances the loads. */
static void recover_elements_leaves_nothing_at_free_nodes(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof frames / sizeof frames[0]; i++) {
        static frame f;
        factor_report report;
        make(&f, frames[i]);
        system_assemble(&f.system, &f.structure);
        assert_int_equal(system_factor(&f.system, &report), KL_OK);
        assert_int_equal(response_solve(&f.system, &f.structure, &f.loads, f.u, f.q, f.work),
                         KL_OK);
        const kl_index elements = f.mesh.element_count;
        double *field = calloc(FIELD_AT(elements, 0), sizeof(double));
        double *start = calloc(3 * (size_t)elements, sizeof(double));
        double sum[MOST];
        double *turn = calloc(2 * (size_t)f.mesh.model->member_count, sizeof(double));
        assert_true(field && start && turn);
        recover_elements(&f.system, &f.structure, &f.loads, f.u, f.q, field, start, turn, sum);
        free(turn);
        bool busy[MOST] = {false};
        for (kl_index k = 0; k < f.structure.hold_count; k++) {
            busy[3 * f.holds[k].node] = busy[3 * f.holds[k].node + 1] =
                busy[3 * f.holds[k].node + 2] = true;
        }
        for (kl_index k = 0; k < f.structure.joint_count; k++) {
            busy[3 * f.joints[k].node + f.joints[k].direction] = true;
            busy[3 * f.joints[k].base + f.joints[k].direction] = true;
        }
        for (int k = 0; k < 3 * f.mesh.node_count; k++) {
            if (!busy[k]) {
                assert_close(sum[k], 0.0, 0.0, 1e-5); /* N, of loads of 1e5 */
            }
        }
        free(field);
        free(start);
        drop(&f);
    }
}

/* Taking a support away and putting it back gives the same answer bit for bit: values change, the pattern does not. */
static void system_assemble_again_is_the_same(void **state)
{
    (void)state;
    static frame f;
    factor_report report;
    make(&f, frames[1]);
    double first[MOST];
    for (int round = 0; round < 2; round++) {
        f.structure.hold_count -= 1;
        system_assemble(&f.system, &f.structure);
        assert_int_equal(system_factor(&f.system, &report), KL_OK);
        f.structure.hold_count += 1;
        system_assemble(&f.system, &f.structure);
        assert_int_equal(system_factor(&f.system, &report), KL_OK);
        assert_int_equal(
            response_solve(&f.system, &f.structure, &f.loads, round ? f.u : first, f.q, f.work),
            KL_OK);
    }
    assert_memory_equal(first, f.u, 3 * (size_t)f.mesh.node_count * sizeof(double));
    drop(&f);
}

/* Nothing of one column stays behind for the next. */
static void response_solve_after_another_column_gives_the_same(void **state)
{
    (void)state;
    static frame f;
    factor_report report;
    make(&f, frames[2]);
    const size_t n = 3 * (size_t)f.mesh.node_count;
    frame_loads other;
    assert_int_equal(loads_create(&f.mesh, &f.model.memory, &other), KL_OK);
    assert_int_equal(loads_open_moved(&f.mesh, &other), KL_OK);
    other.node[3 * f.mesh.node_count - 3] = 1e5;
    other.moved[4] = 0.01;
    double first[MOST], between[MOST];
    system_assemble(&f.system, &f.structure);
    assert_int_equal(system_factor(&f.system, &report), KL_OK);
    assert_int_equal(response_solve(&f.system, &f.structure, &f.loads, first, f.q, f.work), KL_OK);
    assert_int_equal(response_solve(&f.system, &f.structure, &other, between, f.q, f.work), KL_OK);
    assert_int_equal(response_solve(&f.system, &f.structure, &f.loads, f.u, f.q, f.work), KL_OK);
    assert_memory_equal(first, f.u, n * sizeof(double));
    assert_memory_not_equal(first, between, n * sizeof(double));
    drop(&f);
}

/* An array of zeros is as good as none, for every kind of load. */
static void loads_opened_in_vain_change_nothing(void **state)
{
    (void)state;
    static frame f;
    factor_report report;
    make(&f, frames[2]);
    const size_t n = 3 * (size_t)f.mesh.node_count;
    double before[MOST];
    system_assemble(&f.system, &f.structure);
    assert_int_equal(system_factor(&f.system, &report), KL_OK);
    assert_int_equal(response_solve(&f.system, &f.structure, &f.loads, before, f.q, f.work), KL_OK);
    assert_false(loads_are_none(&f.mesh, &f.loads));
    assert_int_equal(loads_open_moved(&f.mesh, &f.loads), KL_OK);
    assert_int_equal(loads_open_line(&f.mesh, &f.loads), KL_OK);
    assert_int_equal(loads_open_couple(&f.mesh, &f.loads), KL_OK);
    assert_int_equal(loads_open_fibre(&f.mesh, &f.loads), KL_OK);
    assert_int_equal(response_solve(&f.system, &f.structure, &f.loads, f.u, f.q, f.work), KL_OK);
    assert_memory_equal(before, f.u, n * sizeof(double));
    loads_clear(&f.mesh, &f.loads);
    assert_true(loads_are_none(&f.mesh, &f.loads));
    f.loads.couple[0].end[1] = 1.0;
    assert_false(loads_are_none(&f.mesh, &f.loads));
    drop(&f);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(response_solve_agrees_with_a_dense_solve),
        cmocka_unit_test(recover_elements_leaves_nothing_at_free_nodes),
        cmocka_unit_test(system_assemble_again_is_the_same),
        cmocka_unit_test(response_solve_after_another_column_gives_the_same),
        cmocka_unit_test(loads_opened_in_vain_change_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
