/* reference_compare.c - see reference_compare.h.
 * SPDX-License-Identifier: MIT */
#include "reference_compare.h"

#include <math.h>
#include <stdio.h>

void reference_compare_value(
    ref_compare *c, const char *what, double station, double got, double want, double scale)
{
    const double ratio = fabs(got - want) / fmax(scale, 1e-300);
    c->looked++;
    if (!(ratio <= c->worst)) {
        c->worst = ratio;
    }
    if (!(ratio <= c->tolerance)) {
        c->wrong++;
        print_message("  %-28s at %8.4f: program %.10g, reference %.10g (%.2e of %.4g) in %s\n",
                      what, station, got, want, ratio, scale, c->where);
    }
}

void reference_station(ref_stations *s, double x)
{
    int i = s->count;
    for (int k = 0; k < s->count; k++) {
        if (fabs(s->at[k] - x) < 1e-7) {
            return;
        }
    }
    assert_true(s->count < REF_STATIONS);
    for (; i > 0 && s->at[i - 1] > x; i--) {
        s->at[i] = s->at[i - 1];
    }
    s->at[i] = x;
    s->count++;
}

static double from_reference(const ref_section_state *r,
                             const ref_section_state *sec,
                             kl_quantity q,
                             kl_part part)
{
    const double total[3] = {r->moment, r->shear, r->axial};
    const double own[3] = {r->primary_moment, r->primary_shear, r->primary_axial};
    const double second[3] = {sec->moment, sec->shear, sec->axial};
    switch (q) {
    case KL_MOMENT:
    case KL_SHEAR:
    case KL_AXIAL: {
        const int i = q == KL_MOMENT ? 0 : q == KL_SHEAR ? 1 : 2;
        return part == KL_TOTAL       ? total[i]
               : part == KL_PRIMARY   ? own[i]
               : part == KL_SECONDARY ? second[i]
                                      : total[i] + own[i];
    }
    case KL_STRESS_TOP:
        return r->top;
    case KL_STRESS_BOTTOM:
        return r->bottom;
    case KL_DEFLECTION:
        return r->drop;
    case KL_SWAY:
    case KL_ROTATION:
    case KL_CAMBER:
    case KL_REACTION:
    case KL_TENDON_FORCE:
    case KL_ELONGATION:
    case KL_POST:
    default:
        return NAN;
    }
}

typedef struct asked {
    kl_quantity quantity;
    kl_part part;
    const char *name;
    double least; /* what a difference is held against at least */
} asked;

static const asked questions[] = {
    {KL_MOMENT, KL_TOTAL, "moment", 1e3},
    {KL_SHEAR, KL_TOTAL, "shear", 1e3},
    {KL_AXIAL, KL_TOTAL, "axial", 1e3},
    {KL_MOMENT, KL_PRIMARY, "primary moment", 1e3},
    {KL_SHEAR, KL_PRIMARY, "primary shear", 1e3},
    {KL_AXIAL, KL_PRIMARY, "primary axial", 1e3},
    {KL_MOMENT, KL_SECONDARY, "secondary moment", 1e3},
    {KL_SHEAR, KL_SECONDARY, "secondary shear", 1e3},
    {KL_AXIAL, KL_SECONDARY, "secondary axial", 1e3},
    {KL_MOMENT, KL_CONCRETE_SHARE, "concrete moment", 1e3},
    {KL_SHEAR, KL_CONCRETE_SHARE, "concrete shear", 1e3},
    {KL_AXIAL, KL_CONCRETE_SHARE, "concrete axial", 1e3},
    {KL_STRESS_TOP, KL_TOTAL, "stress top", 1e4},
    {KL_STRESS_BOTTOM, KL_TOTAL, "stress bottom", 1e4},
    {KL_DEFLECTION, KL_TOTAL, "deflection", 1e-6},
};

void reference_compare_member(ref_compare *c,
                              kl_state state,
                              const char *name,
                              int member,
                              const ref_stations *stations,
                              const int secondary[2])
{
    const kl_index number = solved_index(c->program, KL_KIND_MEMBER, name);
    for (size_t q = 0; q < sizeof(questions) / sizeof(questions[0]); q++) {
        double want[2 * REF_STATIONS], scale = questions[q].least;
        for (int i = 0; i < 2 * stations->count; i++) {
            const double x = stations->at[i / 2];
            const ref_section_state r = reference_at(c->frame, member, x, i % 2 == 0, -1);
            ref_section_state s = reference_at(c->frame, member, x, i % 2 == 0, secondary[0]);
            const ref_section_state s1 =
                reference_at(c->frame, member, x, i % 2 == 0, secondary[1]);
            s.moment += s1.moment;
            s.shear += s1.shear;
            s.axial += s1.axial;
            want[i] = from_reference(&r, &s, questions[q].quantity, questions[q].part);
            scale = fmax(scale, fabs(want[i]));
        }
        for (int i = 0; i < 2 * stations->count; i++) {
            double got = NAN;
            const kl_side side = i % 2 == 0 ? KL_LEFT : KL_RIGHT;
            assert_int_equal(kl_value_on_member(c->program->results, state, questions[q].quantity,
                                                questions[q].part, number,
                                                stations->at[i / 2] - c->shift, side, &got),
                             KL_OK);
            reference_compare_value(c, questions[q].name, stations->at[i / 2], got, want[i], scale);
        }
    }
}

void reference_compare_cause(ref_compare *c,
                             kl_state state,
                             kl_cause cause,
                             int column,
                             const char *name,
                             int member,
                             const ref_stations *stations)
{
    const kl_index number = solved_index(c->program, KL_KIND_MEMBER, name);
    const kl_state part = kl_state_of_cause(state, cause);
    for (int q = 0; q < 3; q++) {
        const kl_quantity quantity = questions[q].quantity;
        double want[2 * REF_STATIONS], scale = questions[q].least;
        for (int i = 0; i < 2 * stations->count; i++) {
            const ref_section_state r =
                reference_at(c->frame, member, stations->at[i / 2], i % 2 == 0, column);
            want[i] = from_reference(&r, &r, quantity, KL_TOTAL);
            scale = fmax(scale, fabs(want[i]));
        }
        for (int i = 0; i < 2 * stations->count; i++) {
            double got = NAN;
            const kl_side side = i % 2 == 0 ? KL_LEFT : KL_RIGHT;
            assert_int_equal(kl_value_on_member(c->program->results, part, quantity, KL_TOTAL,
                                                number, stations->at[i / 2] - c->shift, side, &got),
                             KL_OK);
            char what[40];
            (void)snprintf(what, sizeof(what), "%s of cause %d", questions[q].name, column);
            reference_compare_value(c, what, stations->at[i / 2], got, want[i], scale);
        }
    }
}

void reference_compare_tendon(
    ref_compare *c, kl_state state, const char *name, int tendon, const ref_stations *stations)
{
    for (int i = 0; i < stations->count; i++) {
        const double x = stations->at[i], want = reference_tendon_at(c->frame, tendon, x);
        reference_compare_value(c, name, x, solved_force(c->program, state, name, x), want,
                                c->frame->tendons[tendon].jack[0] +
                                    c->frame->tendons[tendon].jack[1]);
    }
}

void reference_compare_end(const ref_compare *c)
{
    print_message("reference: %d numbers, worst difference %.2e, %d above %.0e\n", c->looked,
                  c->worst, c->wrong, c->tolerance);
    assert_true(c->looked > 100);
    assert_int_equal(c->wrong, 0);
}
