/* tendon_warn_force.c - warnings about a tendon's stress, its seating and its jack: see tendon_warnings.h.
 * SPDX-License-Identifier: MIT */
#include "tendon_warnings.h"

#include "force_cells.h"
#include "profile_rows.h"

#include <math.h>
#include <stdio.h>

/* Usual limits of AASHTO LRFD, Table 5.9.2.2-1 (from memory): 0.90 f_py at the jack, 0.70 f_pu at anchors right after
 * seating, along the tendon 0.74 f_pu (strand of low relaxation), 0.70 f_pu (bars). Where no yield is known 0.80 f_pu
 * at the jack (ACI 318, 20.3.2.5, from memory). */
#define JACK_OF_YIELD      0.90
#define JACK_OF_ULTIMATE   0.80
#define ANCHOR_OF_ULTIMATE 0.70
#define ALONG_OF_ULTIMATE  0.74
#define BAR_OF_ULTIMATE    0.70
/* The pressure below which a gauge reads coarsely: 1,500 psi. Common practice, no source. */
#define LOW_GAUGE 10.3e6

static void warn_stress(const kl_model *model,
                        const kl_tendon *tendon,
                        const char *name,
                        const char *where,
                        double stress,
                        double limit,
                        kl_diags *diags)
{
    if (!(stress > limit * (1.0 + 1e-9))) {
        return; /* also when the limit is not known */
    }
    char shown[TENDON_SHOWN];
    char most[TENDON_SHOWN];
    tendon_show(model, KL_MEASURE_STRESS, stress, shown);
    tendon_show(model, KL_MEASURE_STRESS, limit, most);
    kl_diags_add(diags, KL_WARNING, name, tendon->origin,
                 "Tendon %s is stressed to %s %s (%.3g of its ultimate); usual is at most %s.",
                 tendon->name, shown, where, stress / model->materials[tendon->material].ultimate,
                 most);
}

/* The greatest force and where: every law is monotone in phi, so the ends of its pieces are enough. */
static double
greatest(const kl_tendon *tendon, const tendon_path *path, const force_curve *curve, double *x)
{
    double most = 0.0;
    for (kl_index i = 0; i < curve->count; i++) {
        const force_curve piece = {&curve->pieces[i], 1};
        const double ends[2] = {curve->pieces[i].from, curve->pieces[i].to};
        for (int e = 0; e < 2; e++) {
            const double force =
                force_at(tendon, path, &piece, ends[e], e == 0 ? KL_RIGHT : KL_LEFT);
            if (force > most) {
                most = force;
                *x = ends[e];
            }
        }
    }
    return most;
}

static void warn_stresses(const kl_model *model,
                          const kl_tendon *tendon,
                          const tendon_path *path,
                          const force_curve *after,
                          const force_record *record,
                          kl_diags *diags)
{
    const kl_material *const steel = &model->materials[tendon->material];
    const double area = tendon->units * tendon->unit_area;
    const double jack =
        isnan(steel->yield) ? JACK_OF_ULTIMATE * steel->ultimate : JACK_OF_YIELD * steel->yield;
    const double along = (tendon->is_bar ? BAR_OF_ULTIMATE : ALONG_OF_ULTIMATE) * steel->ultimate;
    double x = 0.0;
    const double most = greatest(tendon, path, after, &x);
    const double anchor = fmax(record->force_at[0], record->force_at[1]);
    const double at_jack = record->pull / (1.0 - tendon->anchorage_friction);
    warn_stress(model, tendon, "jack-stress-high", "at the jack", at_jack / area, jack, diags);
    warn_stress(model, tendon, "anchor-stress-high", "at an anchor after seating", anchor / area,
                ANCHOR_OF_ULTIMATE * steel->ultimate, diags);
    char place[PROFILE_PLACE];
    char where[PROFILE_PLACE + 24];
    profile_place(model, x, place);
    snprintf(where, sizeof where, "at %s after seating", place);
    warn_stress(model, tendon, "tendon-stress-high", where, most / area, along, diags);
}

/* Force times length of the whole tendon, before and after. */
static kl_status sum_both(const kl_tendon *tendon,
                          const tendon_path *path,
                          const force_curve *before,
                          const force_curve *after,
                          arena *memory,
                          double sums[2])
{
    cell_book book;
    KL_TRY(cell_book_make(tendon, path, memory, &book));
    KL_TRY(force_curve_sum(&book, before, path->begin, path->end, memory, &sums[0]));
    return force_curve_sum(&book, after, path->begin, path->end, memory, &sums[1]);
}

/* Zones of two ends that meet take the whole tendon as well. */
static kl_status warn_seating(const kl_tendon *tendon,
                              const tendon_path *path,
                              const force_curve *before,
                              const force_curve *after,
                              const force_record *record,
                              kl_diags *diags)
{
    const double zones =
        fmax(0.0, record->seating_length[0]) + fmax(0.0, record->seating_length[1]);
    const bool meet = zones >= (path->end - path->begin) * (1.0 - 1e-9);
    if (!(tendon->seating > 0.0) || (!meet && !record->reaches_far_end)) {
        return KL_OK;
    }
    arena memory = {0};
    double sums[2];
    const kl_status status = sum_both(tendon, path, before, after, &memory, sums);
    arena_free(&memory);
    KL_TRY(status);
    kl_diags_add(diags, KL_WARNING, "seating-takes-whole-tendon", tendon->origin,
                 "Seating of the anchor reaches all of tendon %s and takes %.3g %% of its force.",
                 tendon->name, 100.0 * (sums[0] - sums[1]) / sums[0]);
    kl_diags_hint(diags, "a short tendon loses least with a nut run tight against its plate, power "
                         "seating or shims");
    return KL_OK;
}

/* A pressure beyond a usual pump is told when the model is checked (model/consistency_tendons). */
static void warn_ram(const kl_model *model, const kl_tendon *tendon, kl_diags *diags)
{
    const double force = tendon->jack_force / (1.0 - tendon->anchorage_friction);
    const double pressure = force / (tendon->ram_area * (1.0 - tendon->jack_friction));
    if (!(pressure < LOW_GAUGE)) {
        return; /* also when no ram is given */
    }
    char shown[TENDON_SHOWN];
    char usual[TENDON_SHOWN];
    tendon_show(model, KL_MEASURE_PRESSURE, pressure, shown);
    tendon_show(model, KL_MEASURE_PRESSURE, LOW_GAUGE, usual);
    kl_diags_add(diags, KL_WARNING, "ram-too-large", tendon->origin,
                 "The ram for tendon %s is large: the gauge shows only %s at full force, and "
                 "below %s it reads coarsely.",
                 tendon->name, shown, usual);
}

kl_status tendon_warn_force(const kl_model *model,
                            kl_index tendon,
                            const tendon_path *path,
                            const force_curve *before,
                            const force_curve *after,
                            const force_record *record,
                            kl_diags *diags)
{
    const kl_tendon *const t = &model->tendons[tendon];
    warn_stresses(model, t, path, after, record, diags);
    warn_ram(model, t, diags);
    return warn_seating(t, path, before, after, record, diags);
}

kl_status tendon_warnings(const kl_model *model,
                          kl_index tendon,
                          const tendon_path *path,
                          const force_curve *before,
                          const force_curve *after,
                          const force_record *record,
                          kl_diags *diags)
{
    tendon_warn_shape(model, tendon, path, diags);
    return before == NULL || after == NULL || record == NULL
               ? KL_OK
               : tendon_warn_force(model, tendon, path, before, after, record, diags);
}
