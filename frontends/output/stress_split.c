/* stress_split.c - see stress_split.h.
 * SPDX-License-Identifier: MIT */
#include "stress_split.h"

#include <math.h>
#include <stdbool.h>

typedef struct split_place {
    const kl_results *results;
    kl_index member;
    double station;
    kl_side side;
} split_place;

static kl_status
split_ask(const split_place *p, kl_state state, kl_quantity quantity, kl_part part, double *value)
{
    *value = NAN;
    const kl_status status = kl_value_on_member(p->results, state, quantity, part, p->member,
                                                p->station, p->side, value);
    return status == KL_NOT_THERE ? KL_OK : status;
}

/* A state, or one cause of it, whole. */
static kl_status split_read(const split_place *p, kl_state state, split_part *out)
{
    KL_TRY(split_ask(p, state, KL_AXIAL, KL_TOTAL, &out->axial));
    KL_TRY(split_ask(p, state, KL_MOMENT, KL_TOTAL, &out->moment));
    KL_TRY(split_ask(p, state, KL_AXIAL, KL_CONCRETE_SHARE, &out->axial_concrete));
    KL_TRY(split_ask(p, state, KL_MOMENT, KL_CONCRETE_SHARE, &out->moment_concrete));
    KL_TRY(split_ask(p, state, KL_STRESS_TOP, KL_TOTAL, &out->top));
    return split_ask(p, state, KL_STRESS_BOTTOM, KL_TOTAL, &out->bottom);
}

static void split_put(stress_split *out, const split_part *part)
{
    if (out->count < SPLIT_LIMIT) {
        out->parts[out->count++] = *part;
    }
}

/* A force and a moment on the gross section. */
static split_part split_gross(const kl_section_values *v, const char *name, double n, double m)
{
    return (split_part){.name = name,
                        .axial_concrete = n,
                        .moment_concrete = m,
                        .top = n / v->area - m * v->to_top / v->inertia,
                        .bottom = n / v->area + m * v->to_bottom / v->inertia};
}

/* What prestress brings, in parts; the last is the rest. */
static kl_status split_put_prestress(const split_place *p,
                                     kl_state state,
                                     const split_part *whole,
                                     stress_split *out)
{
    const kl_section_values *v = &out->section;
    double force;
    double moment;
    KL_TRY(split_ask(p, state, KL_AXIAL, KL_PRIMARY, &force));
    KL_TRY(split_ask(p, state, KL_MOMENT, KL_PRIMARY, &moment));
    split_part parts[4] = {
        split_gross(v, "primary: P / A", force, 0.0),
        split_gross(v, "primary: P e y / I", 0.0, moment),
        split_gross(v, "secondary, of prestress", whole->axial, whole->moment),
        {.name = "sections of their day"},
    };
    parts[2].axial = whole->axial;
    parts[2].moment = whole->moment;
    split_part *rest = &parts[3];
    rest->top = whole->top - parts[0].top - parts[1].top - parts[2].top;
    rest->bottom = whole->bottom - parts[0].bottom - parts[1].bottom - parts[2].bottom;
    for (int i = 0; i < 4; i++) {
        split_put(out, &parts[i]);
    }
    return KL_OK;
}

/* Take the tendons' share out of a case that stresses them. */
static kl_status
split_take_tendons(const split_place *p, kl_state state, split_part *of_case, stress_split *out)
{
    const kl_state of_tendons = kl_state_of_cause(state, (kl_cause){KL_CAUSE_PRESTRESS, KL_NONE});
    split_part part = {0};
    KL_TRY(split_read(p, of_tendons, &part));
    if (!(fabs(part.axial_concrete) + fabs(part.moment_concrete) > 0.0)) {
        return KL_OK;
    }
    of_case->axial -= part.axial;
    of_case->moment -= part.moment;
    of_case->axial_concrete -= part.axial_concrete;
    of_case->moment_concrete -= part.moment_concrete;
    of_case->top -= part.top;
    of_case->bottom -= part.bottom;
    return split_put_prestress(p, of_tendons, &part, out);
}

kl_status split_make(const kl_results *results,
                     kl_state state,
                     kl_index member,
                     double station,
                     kl_side side,
                     stress_split *out)
{
    const split_place p = {results, member, station, side};
    *out = (stress_split){.whole = {.name = "total"}};
    if (!kl_member_stands(results, state, member)) {
        return KL_NOT_THERE;
    }
    KL_TRY(kl_section_at_station(results, member, station, side, &out->section));
    KL_TRY(split_read(&p, state, &out->whole));
    kl_cause causes[SPLIT_LIMIT];
    kl_index count = SPLIT_LIMIT - 4;
    kl_state_causes(results, state, causes, &count);
    for (kl_index i = 0; i < count; i++) {
        const kl_state of_cause = kl_state_of_cause(state, causes[i]);
        split_part part = {.name = kl_cause_name(kl_results_model(results), causes[i])};
        KL_TRY(split_read(&p, of_cause, &part));
        if (state.kind == KL_STATE_CASE) {
            KL_TRY(split_take_tendons(&p, of_cause, &part, out));
        }
        if (causes[i].kind == KL_CAUSE_PRESTRESS) {
            KL_TRY(split_put_prestress(&p, of_cause, &part, out));
        } else {
            split_put(out, &part);
        }
    }
    return KL_OK;
}
