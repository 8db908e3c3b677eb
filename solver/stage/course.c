/* course.c - see course.h.
 * SPDX-License-Identifier: MIT */
#include "course.h"

#include <math.h>
#include <string.h>

#include "near.h"

double course_value(const course *c, double t)
{
    double value = 0.0;
    for (int k = c->terms - 1; k >= 0; k--) {
        value = value * t + c->c[k];
    }
    return value;
}

#define ROOT_NEAR  4e-16 /* of t: the last places */
#define ROOT_STEPS 200   /* more than halving needs */

course_ends course_at_ends(const course *c)
{
    double even = 0.0;
    double odd = 0.0;
    for (int k = 0; k < COURSE_TERMS; k += 2) {
        even += c->c[k];
        odd += c->c[k + 1];
    }
    return (course_ends){even - odd, even + odd};
}

/* ---- algebra --------------------------------------------------------------------------------------------- */

static void fit(const quadrature *rule, const double *values, course *c)
{
    memset(c, 0, sizeof *c);
    quadrature_fit(rule, values, 1, c->c);
    c->terms = QUADRATURE_POINTS;
}

/* In place: start + half_length times the integral from t = -1. */
static void integrate(course *f, double start, double half_length)
{
    static const double share[COURSE_TERMS] = {0.0,       1.0,       1.0 / 2.0, 1.0 / 3.0,
                                               1.0 / 4.0, 1.0 / 5.0, 1.0 / 6.0, 1.0 / 7.0};
    for (int k = COURSE_TERMS - 1; k > 0; k--) {
        f->c[k] = half_length * f->c[k - 1] * share[k];
    }
    f->c[0] = 0.0;
    f->c[0] = start - course_at_ends(f).start;
    f->terms++;
}

static void add(course *to, const course *from, double factor)
{
    for (int k = 0; k < COURSE_TERMS; k++) {
        to->c[k] += factor * from->c[k];
    }
    to->terms = to->terms > from->terms ? to->terms : from->terms;
}

static course derivative(const course *f)
{
    course g = {.terms = f->terms > 1 ? f->terms - 1 : 1};
    for (int k = 1; k < f->terms; k++) {
        g.c[k - 1] = k * f->c[k];
    }
    return g;
}

/* ---- roots ----------------------------------------------------------------------------------------------- */

/* The one root in [a, b], where f changes its sign and is monotone: by Newton's steps, and by halving the bracket where
 * one leads out of it or is not half as long as the step before. */
static double root_between(const course *f, double a, double b)
{
    const course slope = derivative(f);
    const bool rising = course_value(f, a) < 0.0;
    double t = 0.5 * (a + b);
    double step = b - a;
    for (int i = 0; i < ROOT_STEPS && fabs(step) > ROOT_NEAR; i++) {
        const double value = course_value(f, t);
        if ((value < 0.0) == rising) {
            a = t;
        } else {
            b = t;
        }
        const double newton = -value / course_value(&slope, t);
        const bool is_good = t + newton >= a && t + newton <= b && fabs(newton) < 0.5 * fabs(step);
        step = is_good ? newton : 0.5 * (a + b) - t;
        t += step;
    }
    return t;
}

/* Sign changes of f in [from, to]: between neighbouring stationary points f is monotone, so each holds one at most.
 * Those are roots of its slope, and so on down to a straight line: `terms` levels. */
static int roots(const course *f, double from, double to, double *t)
{
    double knots[COURSE_TERMS + 2];
    int knot_count = 0;
    knots[knot_count++] = from;
    knot_count += course_stationary(f, from, to, knots + 1);
    knots[knot_count++] = to;
    int count = 0;
    for (int i = 0; i + 1 < knot_count && count < COURSE_TERMS; i++) {
        const double a = course_value(f, knots[i]);
        const double b = course_value(f, knots[i + 1]);
        if ((a < 0.0 && b > 0.0) || (a > 0.0 && b < 0.0)) {
            t[count++] = root_between(f, knots[i], knots[i + 1]);
        }
    }
    return count;
}

int course_stationary(const course *c, double from, double to, double *t)
{
    double varying = 0.0; /* of the slope, where |t| <= 1: most elements end here */
    for (int k = 2; k < c->terms; k++) {
        varying += k * fabs(c->c[k]);
    }
    if (fabs(c->c[1]) >= varying) {
        return 0;
    }
    const course slope = derivative(c);
    return roots(&slope, from, to, t);
}

double course_bulge(const course *c)
{
    double bulge = 0.0;
    for (int k = 2; k < c->terms; k++) {
        bulge += 0.5 * k * (k - 1) * fabs(c->c[k]);
    }
    return bulge;
}

/* ---- what is asked --------------------------------------------------------------------------------------- */

static kl_status field_values(const kl_results *results,
                              kl_state state,
                              kl_index element,
                              int entry,
                              double v[QUADRATURE_POINTS])
{
    const size_t at = results->run.layout.field + FIELD_AT(element, 0) + (size_t)entry;
    return store_sum(results, state, at, FIELD_COUNT, QUADRATURE_POINTS, v);
}

static int action_entry(kl_quantity quantity)
{
    return quantity == KL_AXIAL ? FIELD_N : quantity == KL_SHEAR ? FIELD_V : FIELD_M;
}

/* Section totals; the moment is moved from the line to the gross centroid. */
static kl_status total_action(const kl_results *results,
                              kl_state state,
                              kl_quantity quantity,
                              kl_index element,
                              double v[QUADRATURE_POINTS])
{
    const frame_mesh *mesh = &results->run.mesh;
    KL_TRY(field_values(results, state, element, action_entry(quantity), v));
    if (quantity == KL_MOMENT) {
        double n[QUADRATURE_POINTS];
        KL_TRY(field_values(results, state, element, FIELD_N, n));
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            v[p] += n[p] * mesh->sections[mesh->elements[element].section + p].centroid;
        }
    }
    return KL_OK;
}

/* What the tendons at their present force put on the concrete: minus their own section action. */
static kl_status primary_action(const kl_results *results,
                                kl_state state,
                                kl_quantity quantity,
                                kl_index element,
                                double v[QUADRATURE_POINTS])
{
    const analysis_run *run = &results->run;
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        v[p] = 0.0;
    }
    for (kl_index t = 0; t < run->model->tendon_count; t++) {
        const tendon_trace *trace = &run->traces[t];
        for (kl_index i = 0; i < trace->count; i++) {
            if (trace->elements[i].element != element) {
                continue;
            }
            const size_t at =
                run->layout.tendon + (size_t)run->first_trace[t] + (size_t)i * QUADRATURE_POINTS;
            double force[QUADRATURE_POINTS];
            KL_TRY(store_sum(results, state, at, 1, QUADRATURE_POINTS, force));
            for (int p = 0; p < QUADRATURE_POINTS; p++) {
                const section_action unit = action_unit(&trace->elements[i].at[p]);
                const double centroid =
                    run->mesh.sections[run->mesh.elements[element].section + p].centroid;
                v[p] -= force[p] * (quantity == KL_AXIAL   ? unit.n
                                    : quantity == KL_SHEAR ? unit.v
                                                           : unit.m + unit.n * centroid);
            }
        }
    }
    return KL_OK;
}

/* Does a question about one cause cover another? */
static bool covers(kl_cause asked, kl_cause one)
{
    if (asked.kind == KL_CAUSE_ALL) {
        return true;
    }
    const bool of_source = asked.kind == KL_CAUSE_CREEP && asked.load_case > KL_CAUSE_ALL;
    return asked.kind == one.kind && (!of_source || asked.load_case == one.load_case);
}

/* Secondary: what prestress, its losses, and creep under both bring to the section totals. */
static kl_status secondary_action(const kl_results *results,
                                  kl_state state,
                                  kl_quantity quantity,
                                  kl_index element,
                                  double v[QUADRATURE_POINTS])
{
    static const kl_cause causes[] = {
        {KL_CAUSE_PRESTRESS, KL_NONE},     {KL_CAUSE_LOSSES, KL_NONE},
        {KL_CAUSE_RELAXATION, KL_NONE},    {KL_CAUSE_CREEP, KL_CAUSE_PRESTRESS},
        {KL_CAUSE_CREEP, KL_CAUSE_LOSSES}, {KL_CAUSE_CREEP, KL_CAUSE_RELAXATION}};
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        v[p] = 0.0;
    }
    for (size_t k = 0; k < sizeof causes / sizeof causes[0]; k++) {
        double part[QUADRATURE_POINTS];
        if (!covers(state.cause, causes[k])) {
            continue;
        }
        const kl_state of = kl_state_of_cause(state, causes[k]);
        KL_TRY(total_action(results, of, quantity, element, part));
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            v[p] += part[p];
        }
    }
    return KL_OK;
}

static kl_status action_course(const kl_results *results,
                               kl_state state,
                               kl_quantity quantity,
                               kl_part part,
                               kl_index element,
                               course *out)
{
    double v[QUADRATURE_POINTS];
    double more[QUADRATURE_POINTS];
    switch (part) {
    case KL_TOTAL:
        KL_TRY(total_action(results, state, quantity, element, v));
        break;
    case KL_PRIMARY:
        KL_TRY(primary_action(results, state, quantity, element, v));
        break;
    case KL_SECONDARY:
        KL_TRY(secondary_action(results, state, quantity, element, v));
        break;
    case KL_CONCRETE_SHARE:
        KL_TRY(total_action(results, state, quantity, element, v));
        KL_TRY(primary_action(results, state, quantity, element, more));
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            v[p] += more[p];
        }
        break;
    }
    fit(&results->run.mesh.rule, v, out);
    return KL_OK;
}

static kl_status stress_course(
    const kl_results *results, kl_state state, kl_quantity quantity, kl_index element, course *out)
{
    const frame_mesh *mesh = &results->run.mesh;
    double v[QUADRATURE_POINTS];
    if (isnan(mesh->sections[mesh->elements[element].section].top)) {
        return KL_NOT_THERE;
    }
    KL_TRY(field_values(results, state, element,
                        quantity == KL_STRESS_TOP ? FIELD_TOP : FIELD_BOTTOM, v));
    fit(&mesh->rule, v, out);
    return KL_OK;
}

/* One strain along an element. */
static kl_status
strain_course(const kl_results *results, kl_state state, kl_index element, int entry, course *c)
{
    double strain[QUADRATURE_POINTS];
    KL_TRY(field_values(results, state, element, entry, strain));
    fit(&results->run.mesh.rule, strain, c);
    return KL_OK;
}

/* r = r0 + ∫k */
static kl_status turn_course(
    const kl_results *results, kl_state state, kl_index element, const double start[3], course *out)
{
    const mesh_element *e = &results->run.mesh.elements[element];
    KL_TRY(strain_course(results, state, element, FIELD_K, out));
    integrate(out, start[2], 0.5 * (e->to - e->from));
    return KL_OK;
}

/* From the element's start u = u0 + ∫e along the member and v = v0 + ∫(r - g) across it; then global axes. Of a level or
 * upright member one of them has no part in what is asked. */
static kl_status movement_course(
    const kl_results *results, kl_state state, kl_quantity quantity, kl_index element, course *out)
{
    const analysis_run *run = &results->run;
    const mesh_element *e = &run->mesh.elements[element];
    const mesh_member *of = &run->mesh.members[e->member];
    const double half = 0.5 * (e->to - e->from);
    const double sign = quantity == KL_CAMBER ? -1.0 : 1.0;
    const double share_along = quantity == KL_SWAY ? of->cosine : sign * of->sine;
    const double share_across = quantity == KL_SWAY ? -of->sine : sign * of->cosine;
    double start[3];
    course along;
    course across;
    KL_TRY(store_sum(results, state, run->layout.start + 3 * (size_t)element, 1, 3, start));
    if (quantity == KL_ROTATION) {
        return turn_course(results, state, element, start, out);
    }
    *out = (course){.terms = 1};
    if (!is_exact_zero(share_along)) {
        KL_TRY(strain_course(results, state, element, FIELD_E, &along));
        integrate(&along, start[0], half);
        add(out, &along, share_along);
    }
    if (!is_exact_zero(share_across)) {
        KL_TRY(turn_course(results, state, element, start, &across));
        if (mesh_gives_way_in_shear(&run->mesh, element)) {
            course shear;
            KL_TRY(strain_course(results, state, element, FIELD_G, &shear));
            add(&across, &shear, -1.0);
        }
        integrate(&across, start[1], half);
        add(out, &across, share_across);
    }
    return KL_OK;
}

kl_status course_make(const kl_results *results,
                      kl_state state,
                      kl_quantity quantity,
                      kl_part part,
                      kl_index element,
                      course *out)
{
    switch (quantity) {
    case KL_MOMENT:
    case KL_SHEAR:
    case KL_AXIAL:
        return action_course(results, state, quantity, part, element, out);
    case KL_STRESS_TOP:
    case KL_STRESS_BOTTOM:
        return stress_course(results, state, quantity, element, out);
    case KL_DEFLECTION:
    case KL_SWAY:
    case KL_ROTATION:
    case KL_CAMBER:
        return movement_course(results, state, quantity, element, out);
    case KL_REACTION:
    case KL_TENDON_FORCE:
    case KL_ELONGATION:
    case KL_POST:
        break;
    }
    return KL_NOT_THERE;
}
