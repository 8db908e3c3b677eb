/* sheets_check.c - sheets 14 and 21: each limit written out once, at its worst place, then all of them; what was expected.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "maker.h"
#include "sensitivity.h"

/* ORDER sensitivity_tables */
static const char *const sensitivity_names[SENSITIVITY_TABLES] = {
    "sensitivity_checks", "sensitivity_elongations", "sensitivity_camber"};

/* The result with the largest ratio of those with one check and one limit. */
static bool check_governs(const kl_check_report *report, kl_index i)
{
    const kl_check_result *r = kl_check_result_at(report, i);
    for (kl_index k = 0; k < kl_check_result_count(report); k++) {
        const kl_check_result *other = kl_check_result_at(report, k);
        const bool alike =
            other->check == r->check && strcmp(other->limit_name, r->limit_name) == 0;
        if (alike && (other->ratio > r->ratio || (k < i && !(other->ratio < r->ratio)))) {
            return false;
        }
    }
    return true;
}

/* The stress on the gross section from the concrete's share of axial force and moment: a checker's own first step. */
static void check_put_by_hand(maker *m, const kl_check_result *r)
{
    double force;
    double moment;
    kl_section_values v;
    if (r->state.index < 0 ||
        !maker_accepts(m, kl_value_on_member(m->results, r->state, KL_AXIAL, KL_CONCRETE_SHARE,
                                             r->member, r->station, r->side, &force)) ||
        !maker_accepts(m, kl_value_on_member(m->results, r->state, KL_MOMENT, KL_CONCRETE_SHARE,
                                             r->member, r->station, r->side, &moment)) ||
        !maker_accepts(m, kl_section_at_station(m->results, r->member, r->station, r->side, &v))) {
        return;
    }
    const bool is_top = r->face == KL_FACE_TOP;
    const double to_face = is_top ? v.to_top : v.to_bottom;
    const double bending = (is_top ? -1.0 : 1.0) * moment * to_face / v.inertia;
    char n[FIGURE_SIZE + 20], a[FIGURE_SIZE + 20], mo[FIGURE_SIZE + 20], c[FIGURE_SIZE + 20];
    char in[FIGURE_SIZE + 20], s[FIGURE_SIZE + 20], all[FIGURE_SIZE + 20];
    package_fact(m->package, BLOCK_WORKED,
                 is_top ? "N / A - M c / I, gross section" : "N / A + M c / I, gross section",
                 "%s / %s %s %s x %s / %s = %s; each increment on the section of its day: %s",
                 maker_figure(m, n, force, KL_MEASURE_FORCE),
                 maker_figure(m, a, v.area, KL_MEASURE_AREA), is_top ? "-" : "+",
                 maker_figure(m, mo, moment, KL_MEASURE_MOMENT),
                 maker_figure(m, c, to_face, KL_MEASURE_SIZE),
                 maker_figure(m, in, v.inertia, KL_MEASURE_INERTIA),
                 maker_figure(m, s, force / v.area + bending, KL_MEASURE_STRESS),
                 maker_figure(m, all, r->demand, KL_MEASURE_STRESS));
}

static void check_put_worked(maker *m, const kl_check_result *r)
{
    char when[LABEL_SIZE];
    char at[FIGURE_SIZE + 20];
    char demand[FIGURE_SIZE + 20];
    char limit[FIGURE_SIZE + 20];
    label_state(when, m->results, r->state);
    package_text(m->package, BLOCK_HEADING, "%s: %s, on %s at %s%s%s, %s%s",
                 m->model->checks[r->check].name, r->limit_name,
                 r->member != KL_NONE   ? m->model->members[r->member].name
                 : r->tendon != KL_NONE ? m->model->tendons[r->tendon].name
                                        : "nothing",
                 maker_figure(m, at, r->station, KL_MEASURE_STATION),
                 r->face == KL_FACE_BOTH ? "" : ", ", label_face(r->face), when,
                 r->passed ? "" : " - FAILS");
    if (r->member != KL_NONE) {
        check_put_by_hand(m, r);
    }
    package_fact(m->package, BLOCK_WORKED, r->formula ? r->formula : "allowed", "%s",
                 r->numbers ? r->numbers : maker_figure(m, limit, r->limit, KL_MEASURE_STRESS));
    if (isfinite(r->ratio)) {
        package_fact(m->package, BLOCK_WORKED, "stress / allowed", "%s / %s = %.3f: %s",
                     maker_figure(m, demand, r->demand, KL_MEASURE_STRESS),
                     maker_figure(m, limit, r->limit, KL_MEASURE_STRESS), r->ratio,
                     r->passed ? "passes" : "FAILS");
    } else {
        package_fact(m->package, BLOCK_WORKED, "stress against allowed", "%s against %s: %s",
                     maker_figure(m, demand, r->demand, KL_MEASURE_STRESS),
                     maker_figure(m, limit, r->limit, KL_MEASURE_STRESS),
                     r->passed ? "passes" : "FAILS");
    }
    package_fact(m->package, BLOCK_WORKED, "rule", "%s%s", r->rule ? r->rule : "given in the model",
                 r->from_memory ? " (not compared with the printed text)" : "");
}

void sheet_checks(maker *m)
{
    const kl_index count = kl_check_result_count(m->report);
    for (int passing = 0; passing < 2; passing++) {
        for (kl_index i = 0; i < count; i++) {
            const kl_check_result *r = kl_check_result_at(m->report, i);
            if (r->passed == (passing == 1) && check_governs(m->report, i)) {
                check_put_worked(m, r);
            }
        }
    }
    const selection_wish none = selection_wish_none();
    if (count > 0) {
        package_text(m->package, BLOCK_HEADING, "All of them");
        maker_table(m, "checks", &none);
    }
}

/* The model's checks, elongations and cambers when friction, modulus, creep … are not what was assumed. */
static void check_put_sensitivity(maker *m)
{
    sensitivity s;
    const bool is_made = maker_accepts(m, sensitivity_make(&s, m->results, m->report));
    for (int i = 0; i < SENSITIVITY_TABLES && is_made; i++) {
        table *t = package_table(m->package);
        if (t) {
            table_start(t, sensitivity_names[i], &m->model->display);
            sensitivity_tables[i].build(t, &s);
            maker_accepts(m, t->status);
            if (t->status == KL_OK && table_row_count(t) == 0) {
                package_drop_block(m->package);
            }
        }
    }
    sensitivity_free(&s);
}

void sheet_expectations(maker *m)
{
    const selection_wish none = selection_wish_none();
    maker_table(m, "expectations", &none);
    if (kl_check_result_count(m->report) >
        0) { /* it takes ten analyses: where somebody asks for limits */
        package_text(m->package, BLOCK_HEADING, "What may be otherwise");
        check_put_sensitivity(m);
    }
}
