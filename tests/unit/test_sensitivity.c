/* test_sensitivity.c - the variants of a sensitivity: what is analysed, what is kept, and memory that runs out.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "draft.h"
#include "fault.h"
#include "sensitivity.h"
#include "solved.h"

/* A weightless beam with a straight tendon 0.3 m under its centroid, pulled from its start; no creep, no shrinkage. */
static const char beam[] =
    "show si\nsections gross\n"
    "concrete mix { strength 40 MPa; modulus 30 GPa }\n"
    "prestressing strand { ultimate 1860 MPa; yield 1674 MPa; modulus 195 GPa; relaxation none }\n"
    "section r { rectangle width 0.8 m depth 1 m; shear rigid }\n"
    "node A at (0 m, 0 m); node B at (30 m, 0 m); support A pinned; support B roller\n"
    "member b from A to B section r of mix { weightless; mesh 30 m }\n"
    "tendon T in b { of strand; strands 12 area 150 mm^2; profile from line {\n"
    "    anchor at start height -0.3 m; anchor at end height -0.3 m straight }\n"
    "  friction %s; wobble 0 per m; seating %s mm; jack start force 2400 kN; bonded grouted }\n"
    "stage pull { place b; stress T }\n"
    "check limits stress { members b; from pull to pull; condition service; compression 9 MPa }\n";

typedef struct made {
    solved model;
    kl_check_report *report;
    sensitivity s;
} made;

static void open_beam(made *m, const char *friction, const char *seating)
{
    text_draft t = {0};
    draft_add(&t, beam, friction, seating);
    solved_open(&m->model, t.text);
    assert_int_equal(kl_run_checks(m->model.results, m->model.diags, &m->report), KL_OK);
    draft_free(&t);
}

static void close_beam(made *m)
{
    sensitivity_free(&m->s);
    kl_check_report_destroy(m->report);
    solved_close(&m->model);
}

enum { FRICTION = 4, WOBBLE = 6, CONCRETE = 8, STEEL = 10 };

/* No creep, shrinkage, friction or wobble: only the moduli are varied. Friction that is there is varied too. */
static void sensitivity_make_leaves_out_what_changes_nothing(void **state)
{
    (void)state;
    made m;
    open_beam(&m, "0", "0");
    assert_int_equal(sensitivity_make(&m.s, m.model.results, m.report), KL_OK);
    for (int i = 0; i < SENSITIVITY_VARIANTS; i++) {
        assert_int_equal(m.s.reports[i] != NULL, i >= CONCRETE);
        assert_null(m.s.trouble[i]);
    }
    close_beam(&m);
    open_beam(&m, "0.2", "0");
    assert_int_equal(sensitivity_make(&m.s, m.model.results, m.report), KL_OK);
    assert_true(m.s.applies[FRICTION / 2] && m.s.reports[FRICTION] && m.s.reports[FRICTION + 1]);
    close_beam(&m);
}

/* P L / (A E) = 205.128 mm at the start, none at the end; up by P e L^2 / (8 E I) = 40.5 mm, a camber of less than nothing. */
static void sensitivity_make_keeps_elongation_and_camber(void **state)
{
    (void)state;
    made m;
    const double draw = 2.4e6 * 30.0 / (1800e-6 * 195e9);
    const double rise = -2.4e6 * 0.3 * 900.0 / (8.0 * 30e9 * 0.8 / 12.0);
    open_beam(&m, "0", "0");
    assert_int_equal(sensitivity_make(&m.s, m.model.results, m.report), KL_OK);
    assert_int_equal(m.s.pull_count, 1);
    assert_close(m.s.draw[0], draw, 1e-9, 0.0);
    assert_close(m.s.draw[1], 0.0, 0.0, 0.0);
    assert_true(m.s.places[0].is_there);
    assert_close(m.s.places[0].peak.value, rise, 1e-9, 0.0);
    assert_close(m.s.draws[CONCRETE][0], draw, 1e-9, 0.0);
    assert_close(m.s.draws[STEEL][0], draw / 0.95, 1e-9, 0.0);
    assert_close(m.s.draws[STEEL + 1][0], draw / 1.05, 1e-9, 0.0);
    assert_close(m.s.cambers[CONCRETE][0], rise / 0.8, 1e-9, 0.0);
    assert_close(m.s.cambers[CONCRETE + 1][0], rise / 1.2, 1e-9, 0.0);
    assert_close(m.s.cambers[STEEL][0], rise, 1e-9, 0.0);
    close_beam(&m);
}

/* A set of 201 mm leaves 2 % of the force, and with 1.05 of the steel's modulus less than none. */
static void sensitivity_make_tells_of_a_variant_that_cannot_be(void **state)
{
    (void)state;
    made m;
    open_beam(&m, "0", "201");
    assert_int_equal(sensitivity_make(&m.s, m.model.results, m.report), KL_OK);
    assert_non_null(m.s.reports[STEEL]);
    assert_null(m.s.trouble[STEEL]);
    assert_null(m.s.draws[STEEL + 1]);
    assert_non_null(m.s.trouble[STEEL + 1]);
    assert_non_null(strstr(m.s.trouble[STEEL + 1], "tendon T"));
    table t;
    table_start(&t, "sensitivity", &m.model.model->display);
    sensitivity_tables[0].build(&t, &m.s);
    assert_int_equal(t.status, KL_OK);
    assert_int_equal(table_row_count(&t), 2);
    for (kl_index row = 0; row < 2; row++) {
        assert_string_equal(table_cell_at(&t, row, t.column_count - 1)->text, "may fail");
    }
    table_free(&t);
    close_beam(&m);
}

static kl_status make_all(const made *m)
{
    sensitivity s;
    kl_status status = sensitivity_make(&s, m->model.results, m->report);
    for (int i = 0; i < SENSITIVITY_TABLES && status == KL_OK; i++) {
        table t;
        table_start(&t, "sensitivity", &m->model.model->display);
        sensitivity_tables[i].build(&t, &s);
        status = t.status;
        table_free(&t);
    }
    sensitivity_free(&s);
    return status;
}

static void sensitivity_that_runs_out_of_memory_says_so_and_frees_all(void **state)
{
    (void)state;
    made m = {0};
    open_beam(&m, "0", "201"); /* with a trouble to tell */
    kl_status status = KL_NO_MEMORY;
    int struck = 1;
    long k = 0;
    for (; struck; k++) {
        fault_after(k);
        status = make_all(&m);
        struck = fault_struck();
        fault_after(-1);
        assert_true(status == KL_NO_MEMORY || status == KL_OK);
        assert_true(k < 1000000);
    }
    assert_int_equal(status, KL_OK);
    assert_true(k > 100);
    close_beam(&m);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sensitivity_make_leaves_out_what_changes_nothing),
        cmocka_unit_test(sensitivity_make_keeps_elongation_and_camber),
        cmocka_unit_test(sensitivity_make_tells_of_a_variant_that_cannot_be),
        cmocka_unit_test(sensitivity_that_runs_out_of_memory_says_so_and_frees_all),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
