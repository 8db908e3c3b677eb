/* tendon_warn_force.c - warnings about a tendon's losses not given, its stress, its seating and its jack: see
 * tendon_warnings.h.
 * SPDX-License-Identifier: MIT */
#include "tendon_warnings.h"

#include "force_cells.h"
#include "near.h"
#include "profile_rows.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

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
/* rad: what turns less than this in all is straight, and friction in the curves takes nothing of it that counts. */
#define STRAIGHT 1e-6

/* Losses that a tendon says nothing of: their words, and how 0 is written. */
typedef struct not_given {
    char words[48];
    char zeros[64];
    int count;
} not_given;

static void add_not_given(not_given *missing, const char *word, const char *zero, bool is_last)
{
    const char *const between = missing->count++ == 0 ? "" : is_last ? " and " : ", ";
    const size_t words = strlen(missing->words);
    const size_t zeros = strlen(missing->zeros);
    snprintf(missing->words + words, sizeof missing->words - words, "%s`%s`", between, word);
    snprintf(missing->zeros + zeros, sizeof missing->zeros - zeros, "%s`%s`",
             zeros == 0 ? "" : ", ", zero);
}

/* Left out, a loss is 0. Friction takes nothing where the tendon is straight; the nut of a bar is run tight and slips
 * little, the wedges of strands always draw in. What is written as 0 is a statement and draws nothing. */
static void warn_not_given(const kl_tendon *tendon, const tendon_path *path, kl_diags *diags)
{
    const bool wobble = !tendon->has_wobble;
    const bool seating = !tendon->has_seating && !tendon->is_bar;
    not_given missing = {.count = 0};
    if (!tendon->has_friction && path->alpha > STRAIGHT) {
        add_not_given(&missing, "friction", "friction 0", false);
    }
    if (wobble) {
        add_not_given(&missing, "wobble", "wobble 0 per ft", !seating);
    }
    if (seating) {
        add_not_given(&missing, "seating", "seating 0 in", true);
    }
    if (missing.count == 0) {
        return;
    }
    kl_diags_add(diags, KL_WARNING, "loss-not-given", tendon->origin,
                 "Tendon %s says nothing of %s: 0 is taken, and a real tendon has %s.",
                 tendon->name, missing.words, missing.count == 1 ? "it" : "them");
    kl_diags_hint(diags, "where 0 is meant, write %s", missing.zeros);
}

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
    warn_stress(model, tendon, "jack-stress-high", "at the jack", record->pull / area, jack, diags);
    warn_stress(model, tendon, "anchor-stress-high", "at an anchor after seating", anchor / area,
                ANCHOR_OF_ULTIMATE * steel->ultimate, diags);
    char place[PROFILE_PLACE];
    char where[PROFILE_PLACE + 24];
    profile_place(model, x, place);
    snprintf(where, sizeof where, "at %s after seating", place);
    warn_stress(model, tendon, "tendon-stress-high", where, most / area, along, diags);
}

/* Does every place carry less than friction alone would have left? One set runs to the far anchor then, or what two
 * took meets: at once, or one after the other, for the second pull gives back only what it exceeds. Pieces that are the
 * same are the same law, so that the middle of where two pieces overlap tells. */
static bool is_lower_everywhere(const kl_tendon *tendon,
                                const tendon_path *path,
                                const force_curve *after,
                                const force_curve *unseated)
{
    for (kl_index i = 0, k = 0; i < after->count && k < unseated->count;) {
        const double from = fmax(after->pieces[i].from, unseated->pieces[k].from);
        const double to = fmin(after->pieces[i].to, unseated->pieces[k].to);
        const double middle = 0.5 * (from + to);
        const double left = force_at(tendon, path, after, middle, KL_RIGHT);
        const double most = force_at(tendon, path, unseated, middle, KL_RIGHT);
        if (to - from > NEAR_STATION * path->length && !(left < most * (1.0 - 1e-9))) {
            return false;
        }
        i += after->pieces[i].to <= to ? 1 : 0;
        k += unseated->pieces[k].to <= to ? 1 : 0;
    }
    return true;
}

/* Share of the tendon's mean force that its anchors took when they seated, of what friction alone would have left. */
static kl_status share_of_seating(const kl_tendon *tendon,
                                  const tendon_path *path,
                                  const force_curve *after,
                                  const force_curve *unseated,
                                  arena *memory,
                                  double *share)
{
    cell_book book;
    double left = 0.0;
    double most = 0.0;
    KL_TRY(cell_book_make(tendon, path, memory, &book));
    KL_TRY(force_curve_sum(&book, unseated, path->begin, path->end, memory, &most));
    KL_TRY(force_curve_sum(&book, after, path->begin, path->end, memory, &left));
    *share = (most - left) / most;
    return KL_OK;
}

static kl_status warn_seating(const kl_tendon *tendon,
                              const tendon_path *path,
                              const force_curve *after,
                              const force_record *record,
                              kl_diags *diags)
{
    if (!(tendon->seating > 0.0) || !is_lower_everywhere(tendon, path, after, &record->unseated)) {
        return KL_OK;
    }
    arena memory = {0};
    double share = 0.0;
    const kl_status status =
        share_of_seating(tendon, path, after, &record->unseated, &memory, &share);
    arena_free(&memory);
    KL_TRY(status);
    const bool both = !isnan(record->seating_length[0]) && !isnan(record->seating_length[1]);
    kl_diags_add(diags, KL_WARNING, "seating-takes-whole-tendon", tendon->origin,
                 "Seating of %s reaches all of tendon %s and takes %.3g %% of its force.",
                 both ? "both anchors together" : "the anchor", tendon->name, 100.0 * share);
    kl_diags_hint(diags, "a short tendon loses least with a nut run tight against its plate, power "
                         "seating or shims");
    return KL_OK;
}

/* A pressure beyond a usual pump is told when the model is checked (model/consistency_tendons). */
static void warn_ram(const kl_model *model, const kl_tendon *tendon, kl_diags *diags)
{
    const double pressure = kl_tendon_gauge(tendon, tendon->jack_force);
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
                            const force_curve *after,
                            const force_record *record,
                            kl_diags *diags)
{
    const kl_tendon *const t = &model->tendons[tendon];
    warn_not_given(t, path, diags);
    warn_stresses(model, t, path, after, record, diags);
    warn_ram(model, t, diags);
    return warn_seating(t, path, after, record, diags);
}

kl_status tendon_warnings(const kl_model *model,
                          kl_index tendon,
                          const tendon_path *path,
                          const force_curve *after,
                          const force_record *record,
                          kl_diags *diags)
{
    tendon_warn_shape(model, tendon, path, diags);
    return after == NULL || record == NULL
               ? KL_OK
               : tendon_warn_force(model, tendon, path, after, record, diags);
}
