/* test_reference_staging.c - a cap and a deck built in stages, against the reference frame.
 *
 * The cap is cast on nine rows between two columns, stressed from one end, released in two parts, loaded, stressed again
 * with a group of three from both ends, grouted, loaded and left to lose; ducts are holes and its concrete ages.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "reference_compare.h"
#include "reference_stage.h"

#define GPA 1e9
#define PI  3.14159265358979323846

enum { WEIGHT = REF_WEIGHT, PRESTRESS, LOSSES, GIRDERS, MORE };

/* ---- the cap ---- */

enum { ROWS = 9 };
static const double row_at[ROWS] = {1.0, 2.5, 6.0, 8.0, 10.5, 13.0, 15.0, 19.0, 21.0};

static const char cap_text[] =
    "show si\n%s"
    "concrete column_mix { strength 40 MPa; unit_weight 24 kN/m^3; modulus 31 GPa }\n"
    "concrete cap_mix { strength 42 MPa; transfer_strength 30 MPa; unit_weight 23.5 kN/m^3; "
    "modulus aashto 2020 }\n"
    "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 196 GPa }\n"
    "section cap_section { rectangle width 1.8 m depth 1.9 m%s }\n"
    "section column { circle diameter 1.5 m }\n"
    "node L at (0 m, 8 m); node R at (22 m, 8 m); node A at (4 m, 0 m); node B at (17 m, 0 m)\n"
    "member cap from L to R section cap_section of cap_mix\n"
    "node C on cap at 4 m; node D on cap at 17 m\n"
    "member col_1 from A to C section column of column_mix { rigid end 0.95 m }\n"
    "member col_2 from B to D section column of column_mix { rigid end 0.95 m }\n"
    "support A fixed; support B fixed\n"
    "tendon T in cap { of strand; strands 19 area 150 mm^2; profile from bottom {\n"
    "    anchor at 0 m height 0.8 m; high at 4 m height 1.6 m; inflection at 6 m; low at 10 m "
    "height 0.25 m\n"
    "    inflection at 15 m; high at 17 m height 1.55 m; anchor at end height 0.9 m }\n"
    "  friction 0.2; wobble 0.001 per m; seating 6 mm; jack start ratio 0.75; duct 100 mm; bonded "
    "grouted }\n"
    "tendon T2 in cap { of strand; strands 15 area 150 mm^2; count 3; profile from bottom {\n"
    "    anchor at 0 m height 1.1 m; high at 4 m height 1.45 m; inflection at 6.5 m; low at 10.5 m "
    "height 0.35 m\n"
    "    inflection at 14.5 m; high at 17 m height 1.45 m; anchor at end height 1.1 m }\n"
    "  friction 0.18; wobble 0.0015 per m; seating 5 mm; jack both ratio 0.7; duct 90 mm%s; bonded "
    "grouted }\n"
    "falsework bents under cap at 1 m, 2.5 m, 6 m, 8 m, 10.5 m, 13 m, 15 m, 19 m, 21 m {\n"
    "  posts 2; stiffness 150 kN/mm; takeup 4 mm; capacity 5000 kN }\n"
    "load girders { point 900 kN on cap from 1 m to 21 m every 5 m }\n"
    "load more { uniform 60 kN/m on cap from 2.5 m to 15 m; point 50 kN on cap at 13 m right }\n"
    "stage columns at 0 day { cast col_1 col_2 }\n"
    "stage wet at 28 day { erect bents; cast cap }\n"
    "stage pulled at 40 day { stress T }\n"
    "stage part at 42 day { release bents from 0 m to 8 m }\n"
    "stage free at 43 day { release bents }\n"
    "stage loaded at 50 day { load girders }\n"
    "stage again at 60 day { stress T2 }\n"
    "stage grouted at 62 day { %s }\n"
    "stage used at 90 day { load more times 1.5 }\n"
    "stage late at 1000 day { lose T T2 120 MPa }\n";

/* Anchor, flat high point, inflection, flat low point, inflection, flat high point, anchor: heights above the bottom. */
static void
waves(ref_tendon *t, const double at[7], const double height[4], double middle, double shift)
{
    const double y[4] = {height[0] - middle, height[1] - middle, height[2] - middle,
                         height[3] - middle};
    const double end = height[0] - middle;
    const double y1 = y[1] + (y[2] - y[1]) * (at[2] - at[1]) / (at[3] - at[1]);
    const double y2 = y[3] + (y[2] - y[3]) * (at[5] - at[4]) / (at[5] - at[3]);
    (void)end;
    const double a = at[1] - at[0], b = at[2] - at[1], c = at[3] - at[2], d = at[4] - at[3],
                 e = at[5] - at[4];
    t->piece_count = 6;
    t->pieces[0] = (ref_piece){
        at[0], at[1], y[0], 2.0 * (y[1] - y[0]) / a, -(y[1] - y[0]) / (a * a), {0.0, -shift}};
    t->pieces[1] = (ref_piece){at[1], at[2], y[1], 0.0, (y1 - y[1]) / (b * b), {-shift, 0.0}};
    t->pieces[2] =
        (ref_piece){at[2], at[3], y1, 2.0 * (y[2] - y1) / c, -(y[2] - y1) / (c * c), {0.0, shift}};
    t->pieces[3] = (ref_piece){at[3], at[4], y[2], 0.0, (y2 - y[2]) / (d * d), {shift, 0.0}};
    t->pieces[4] =
        (ref_piece){at[4], at[5], y2, 2.0 * (y[3] - y2) / e, -(y[3] - y2) / (e * e), {0.0, -shift}};
}

static void last_piece(ref_tendon *t, double from, double to, double y0, double y1, double shift)
{
    t->pieces[5] =
        (ref_piece){from, to, y0, 0.0, (y1 - y0) / ((to - from) * (to - from)), {-shift, 0.0}};
}

/* Where the pulling curves of two ends meet. */
static double meeting(const ref_tendon *t)
{
    double a = t->still[0], b = t->still[1];
    ref_tendon one = *t, other = *t;
    one.jack[1] = other.jack[0] = 0.0;
    for (int i = 0; i < 60; i++) {
        const double x = 0.5 * (a + b);
        if (reference_pull(&one, x) > reference_pull(&other, x)) {
            a = x;
        } else {
            b = x;
        }
    }
    return 0.5 * (a + b);
}

typedef struct cap_frame {
    ref_frame f;
    ref_forms forms;
    ref_stations stations;
    int cap, columns[2], nodes[REF_STATIONS];
    int ground[6]; /* ties of the feet */
} cap_frame;

/* A way to build the same cap: what its text says and what the reference does. */
typedef struct variant {
    const char *top, *section, *duct, *grouted;
    double shift;
    bool shear, gross, stays_empty;
} variant;

static void make_tendons(ref_frame *f, double shift)
{
    f->tendon_count = 2;
    f->tendons[0] = (ref_tendon){.count = 1,
                                 .area = 19 * 150e-6,
                                 .modulus = 196 * GPA,
                                 .duct = 0.1,
                                 .friction = 0.2,
                                 .wobble = 0.001,
                                 .set = {6e-3, 0.0},
                                 .jack = {0.75 * 1860e6 * 19 * 150e-6, 0.0}};
    f->tendons[1] = (ref_tendon){.count = 3,
                                 .area = 15 * 150e-6,
                                 .modulus = 196 * GPA,
                                 .duct = 0.09,
                                 .friction = 0.18,
                                 .wobble = 0.0015,
                                 .set = {5e-3, 5e-3},
                                 .jack = {0.7 * 1860e6 * 15 * 150e-6, 0.7 * 1860e6 * 15 * 150e-6}};
    waves(&f->tendons[0], (const double[]){0, 4, 6, 10, 15, 17, 22},
          (const double[]){0.8, 1.6, 0.25, 1.55}, 0.95, 0.0);
    last_piece(&f->tendons[0], 17, 22, 1.55 - 0.95, 0.9 - 0.95, 0.0);
    waves(&f->tendons[1], (const double[]){0, 4, 6.5, 10.5, 14.5, 17, 22},
          (const double[]){1.1, 1.45, 0.35, 1.45}, 0.95, shift);
    last_piece(&f->tendons[1], 17, 22, 1.45 - 0.95, 1.1 - 0.95, shift);
    reference_tendon_pull(&f->tendons[0]);
    reference_tendon_pull(&f->tendons[1]);
}

static void make_cap(cap_frame *w, const variant *v)
{
    ref_frame *f = &w->f;
    make_tendons(f, v->shift);
    const int l = reference_node(f, 0, 8), r = reference_node(f, 22, 8);
    const int feet[2] = {reference_node(f, 4, 0), reference_node(f, 17, 0)};
    const int tops[2] = {reference_node(f, 4, 8), reference_node(f, 17, 8)};
    static const double own[] = {0,    1,  2.5, 4,  6,  8,  10, 10.5, 11, 12,  13,
                                 14.5, 15, 16,  17, 18, 19, 20, 21,   22, 6.5, 3};
    for (size_t i = 0; i < sizeof(own) / sizeof(own[0]); i++) {
        reference_station(&w->stations, own[i]);
    }
    reference_station(&w->stations, f->tendons[0].still[0]);
    reference_station(&w->stations, f->tendons[1].still[0]);
    reference_station(&w->stations, f->tendons[1].still[1]);
    reference_station(&w->stations, meeting(&f->tendons[1]));
    for (int i = 0; i < w->stations.count; i++) {
        const double x = w->stations.at[i];
        w->nodes[i] = fabs(x - 4.0) < 1e-9 ? tops[0] : fabs(x - 17.0) < 1e-9 ? tops[1] : -1;
    }
    const ref_member cap = {.from = l,
                            .to = r,
                            .width = 1.8,
                            .depth = {1.9, 1.9},
                            .strength = 42e6,
                            .cast_day = 28.0,
                            .unit_weight = 23.5e3,
                            .shear = v->shear,
                            .shear_ratio = 2.4};
    w->cap = reference_member(f, cap, w->stations.at, w->stations.count, w->nodes, 1.01);
    for (int i = 0; i < 2; i++) {
        const ref_member column = {.from = feet[i],
                                   .to = tops[i],
                                   .diameter = 1.5,
                                   .modulus = 31 * GPA,
                                   .unit_weight = 24e3,
                                   .rigid = {0.0, 0.95}};
        int nodes[2];
        w->columns[i] = reference_member(f, column, (const double[]){0.0, 8.0}, 2, nodes, 3.0);
        for (int k = 0; k < 3; k++) {
            w->ground[3 * i + k] =
                reference_tie(f, feet[i], -1, k == 0, k == 1, k == 2, 0.0, false);
        }
    }
    w->forms.member = w->cap;
    for (int i = 0, row = 0; i < w->stations.count; i++) {
        const double x = w->stations.at[i];
        const bool on_row = row < ROWS && fabs(x - row_at[row]) < 1e-9;
        if (!on_row && w->nodes[i] != tops[0] && w->nodes[i] != tops[1]) {
            continue;
        }
        const int k = w->forms.count++;
        w->forms.at[k] = x;
        w->forms.node[k] = w->nodes[i];
        w->forms.tie[k] =
            on_row ? reference_tie(f, w->nodes[i], -1, 0, 1, 0, 1.0 / 300e6, true) : -1;
        if (on_row) {
            f->ties[w->forms.tie[k]].stands = false;
            row++;
        }
    }
}

static void look(ref_compare *c, const cap_frame *w, const char *stage, bool stressed)
{
    const kl_state state = solved_after(c->program, stage);
    const int secondary[2] = {PRESTRESS, LOSSES};
    c->where = stage;
    reference_compare_member(c, state, "cap", w->cap, &w->stations, secondary);
    const ref_stations ends = {{0.0, 7.05}, 2};
    reference_compare_member(c, state, "col_1", w->columns[0], &ends, secondary);
    reference_compare_member(c, state, "col_2", w->columns[1], &ends, secondary);
    reference_compare_cause(c, state, (kl_cause){KL_CAUSE_WEIGHT, KL_NONE}, WEIGHT, "cap", w->cap,
                            &w->stations);
    reference_compare_cause(c, state, (kl_cause){KL_CAUSE_PRESTRESS, KL_NONE}, PRESTRESS, "cap",
                            w->cap, &w->stations);
    for (int i = 0; i < 6; i++) {
        reference_compare_value(
            c, "reaction", i,
            solved_reaction(c->program, state, i < 3 ? "A" : "B", (kl_direction)(KL_X + i % 3)),
            reference_tie_force(&w->f.ties[w->ground[i]]), 1e6);
    }
    for (int i = 0, row = 0; i < w->forms.count; i++) {
        if (w->forms.tie[i] >= 0) {
            const ref_tie *t = &w->f.ties[w->forms.tie[i]];
            const kl_post_row post = solved_post(c->program, state, "bents", row++);
            reference_compare_value(c, "row", w->forms.at[i], post.stands ? post.force : 0.0,
                                    t->stands ? reference_tie_force(t) : 0.0, 3e5);
            reference_compare_value(c, "gap", w->forms.at[i], post.stands ? post.gap : 0.0,
                                    t->stands ? t->gap : 0.0, 1e-4);
        }
    }
    if (stressed) {
        reference_compare_tendon(c, state, "T", 0, &w->stations);
    }
    if (w->f.tendons[1].phase != REF_EMPTY) {
        reference_compare_tendon(c, state, "T2", 1, &w->stations);
    }
    reference_compare_value(c, "node C", 0, solved_node(c->program, state, KL_DEFLECTION, "C"),
                            w->f.moved[4][1], 1e-3);
    reference_compare_value(c, "node C sway", 0, solved_node(c->program, state, KL_SWAY, "C"),
                            w->f.moved[4][0], 1e-3);
}

static void clear(ref_step *s, int cause, double day)
{
    *s = (ref_step){.cause = cause, .day = day};
}

static void build_cap(cap_frame *w, ref_compare *c, ref_phase later)
{
    ref_step *s = calloc(1, sizeof(*s));
    assert_non_null(s);
    ref_frame *f = &w->f;
    clear(s, WEIGHT, 0.0);
    for (int i = 0; i < 2; i++) {
        reference_place(f, w->columns[i]);
        reference_weigh(f, s, w->columns[i], 0.0, 8.0, 1.0);
    }
    reference_solve(f, s);
    clear(s, WEIGHT, 28.0);
    reference_pour(f, &w->forms, s);
    look(c, w, "wet", false);
    clear(s, PRESTRESS, 40.0);
    s->pull[0] = 1.0;
    s->being_stressed[0] = true;
    reference_solve(f, s);
    f->tendons[0].phase = REF_STRESSED;
    look(c, w, "pulled", true);
    clear(s, WEIGHT, 42.0);
    reference_release(f, &w->forms, 0.0, 8.0, s);
    reference_solve(f, s);
    look(c, w, "part", true);
    clear(s, WEIGHT, 43.0);
    reference_release(f, &w->forms, 0.0, 22.0, s);
    reference_solve(f, s);
    look(c, w, "free", true);
    clear(s, GIRDERS, 50.0);
    for (int i = 0; i < w->stations.count; i++) {
        const double x = w->stations.at[i];
        for (int k = 0; k < 5; k++) {
            s->nodal[GIRDERS][w->nodes[i]][1] -= fabs(x - 1.0 - 5.0 * k) < 1e-9 ? 900e3 : 0.0;
        }
    }
    reference_solve(f, s);
    look(c, w, "loaded", true);
    clear(s, PRESTRESS, 60.0);
    s->pull[1] = 1.0;
    s->being_stressed[1] = true;
    s->uniform[1] = reference_own_loss(f, s, 1);
    reference_solve(f, s);
    f->tendons[1].phase = REF_STRESSED;
    look(c, w, "again", true);
    f->tendons[0].phase = f->tendons[1].phase = later;
    look(c, w, "grouted", true);
    clear(s, MORE, 90.0);
    s->lines[0] = (ref_line_load){.member = w->cap,
                                  .from = 2.5,
                                  .to = 15,
                                  .start = 90e3,
                                  .end = 90e3,
                                  .gy = -1,
                                  .cause = MORE};
    s->line_count = 1;
    for (int i = 0; i < w->stations.count; i++) {
        s->nodal[MORE][w->nodes[i]][0] += fabs(w->stations.at[i] - 13.0) < 1e-9 ? 75e3 : 0.0;
    }
    reference_solve(f, s);
    look(c, w, "used", true);
    clear(s, LOSSES, 1000.0);
    s->uniform[0] = -120e6 * f->tendons[0].area;
    s->uniform[1] = -120e6 * f->tendons[1].area;
    reference_solve(f, s);
    look(c, w, "late", true);
    free(s);
}

static void run_cap(const variant *v)
{
    char text[8000];
    (void)snprintf(text, sizeof(text), cap_text, v->top, v->section, v->duct, v->grouted);
    solved m;
    solved_open(&m, text);
    cap_frame *w = calloc(1, sizeof(*w));
    assert_non_null(w);
    w->f.gross = v->gross;
    make_cap(w, v);
    ref_compare c = {.program = &m, .frame = &w->f, .tolerance = 1e-6};
    build_cap(w, &c, v->stays_empty ? REF_STRESSED : REF_GROUTED);
    reference_compare_end(&c);
    free(w);
    solved_close(&m);
}

static void cap_on_rows_agrees_at_every_stage(void **state)
{
    (void)state;
    run_cap(&(variant){"", "", "", "grout T T2", 0.0, false, false, false});
}

static void offset_tendons_agree_at_every_stage(void **state)
{
    (void)state;
    run_cap(&(variant){"", "", " offset 15 mm", "grout T T2", 0.015, false, false, false});
}

static void shear_flexible_cap_agrees_at_every_stage(void **state)
{
    (void)state;
    run_cap(&(variant){"", "; shear flexible", "", "grout T T2", 0.0, true, false, false});
}

static void ungrouted_shear_flexible_cap_agrees_at_every_stage(void **state)
{
    (void)state;
    run_cap(&(variant){"", "; shear flexible", "", "", 0.0, true, false, true});
}

static void gross_sections_agree_at_every_stage(void **state)
{
    (void)state;
    run_cap(&(variant){"sections gross\n", "", "", "grout T T2", 0.0, false, true, false});
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cap_on_rows_agrees_at_every_stage),
        cmocka_unit_test(offset_tendons_agree_at_every_stage),
        cmocka_unit_test(shear_flexible_cap_agrees_at_every_stage),
        cmocka_unit_test(ungrouted_shear_flexible_cap_agrees_at_every_stage),
        cmocka_unit_test(gross_sections_agree_at_every_stage),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
