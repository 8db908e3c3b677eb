/* warn_falsework.c - rows above their rated load, rows that settle unevenly under the pour, falsework that stays.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "check_text.h"
#include "warn.h"

/* A rating met exactly is no overload, and of equal rows the first is named. */
#define WARN_RATING_ROUNDING 1e-9

/* Two neighbouring rows whose settlement differs by more than this share of their distance: half of the sag of
 * 1/240 that falsework beams are usually allowed is about this slope. */
#define WARN_SETTLEMENT_SLOPE (1.0 / 500.0)

/* ---- rated load ----------------------------------------------------------------------------------------- */

typedef struct warn_overload {
    kl_index row; /* worst; KL_NONE: none is overloaded */
    double force; /* N a post */
    kl_state state;
    kl_index others;
} warn_overload;

static void warn_find_overload(const warn_context *c, kl_index f, warn_overload *worst)
{
    const kl_falsework *falsework = &c->model->falsework[f];
    const double rated = falsework->capacity * (1.0 + WARN_RATING_ROUNDING);
    for (kl_index r = 0; r < falsework->row_count; r++) {
        bool over = false;
        for (kl_index s = 0; s < kl_step_count(c->results); s++) {
            kl_post_row row;
            const kl_state state = kl_state_step(s);
            if (kl_row_state(c->results, state, f, r, &row) != KL_OK || !row.stands) {
                continue;
            }
            const double force = row.force / (double)falsework->posts;
            over = over || force > rated;
            if (force > rated && force > worst->force * (1.0 + WARN_RATING_ROUNDING)) {
                worst->row = r;
                worst->force = force;
                worst->state = state;
            }
        }
        worst->others += over ? 1 : 0;
    }
    worst->others -= worst->row == KL_NONE ? 0 : 1;
}

kl_status warn_overloaded_rows(const warn_context *c)
{
    const kl_display *display = &c->model->display;
    for (kl_index f = 0; f < c->model->falsework_count; f++) {
        const kl_falsework *falsework = &c->model->falsework[f];
        warn_overload worst = {KL_NONE, 0.0, kl_state_step(0), 0};
        if (!isnan(falsework->capacity)) {
            warn_find_overload(c, f, &worst);
        }
        if (worst.row == KL_NONE) {
            continue;
        }
        const char *place =
            text_value(c->memory, display, KL_MEASURE_STATION, falsework->stations[worst.row]);
        const char *force = text_value(c->memory, display, KL_MEASURE_FORCE, worst.force);
        const char *rated = text_value(c->memory, display, KL_MEASURE_FORCE, falsework->capacity);
        const char *moment = text_state(c->memory, c->results, worst.state);
        const char *more =
            worst.others == 0 ? ""
                              : arena_print(c->memory, " %d more row%s above it at some time.",
                                            (int)worst.others, worst.others == 1 ? " is" : "s are");
        if (place == NULL || force == NULL || rated == NULL || moment == NULL || more == NULL) {
            return KL_NO_MEMORY;
        }
        kl_diags_add(c->diags, KL_WARNING, "row-overloaded", falsework->origin,
                     "The row of %s at %s carries %s a post, above its rated %s, %s.%s",
                     falsework->name, place, force, rated, moment, more);
    }
    return KL_OK;
}

/* ---- settlement under the pour -------------------------------------------------------------------------- */

/* Station of a point with horizontal coordinate x on a member, clamped to its ends. */
static double warn_station_below(const kl_model *model, kl_index member, double x)
{
    const double length = kl_member_length(model, member);
    const double from = kl_member_point(model, member, 0.0).x;
    const double to = kl_member_point(model, member, length).x;
    const double share = fabs(to - from) > 0.0 ? (x - from) / (to - from) : 0.0;
    return fmin(1.0, fmax(0.0, share)) * length;
}

/* How far the carrying member went down by the step itself, m. */
static double warn_carrier_sag(const warn_context *c,
                               kl_index step,
                               const kl_falsework *falsework,
                               double station)
{
    if (falsework->carrier == KL_NONE) {
        return 0.0;
    }
    const double x = kl_member_point(c->model, falsework->member, station).x;
    const double below = warn_station_below(c->model, falsework->carrier, x);
    double now = 0.0, before = 0.0;
    if (kl_value_on_member(c->results, kl_state_step(step), KL_DEFLECTION, KL_TOTAL,
                           falsework->carrier, below, KL_RIGHT, &now) != KL_OK) {
        return 0.0;
    }
    if (step > 0 && kl_value_on_member(c->results, kl_state_step(step - 1), KL_DEFLECTION, KL_TOTAL,
                                       falsework->carrier, below, KL_RIGHT, &before) != KL_OK) {
        before = 0.0;
    }
    return before - now;
}

/* Settlement of a row under the fresh concrete: posts' shortening, take-up, the carrier's sag. */
static double warn_settlement(const warn_context *c, kl_index step, const warn_row *row)
{
    const kl_falsework *falsework = &c->model->falsework[row->falsework];
    return row->state.force / ((double)falsework->posts * falsework->stiffness) +
           falsework->takeup + warn_carrier_sag(c, step, falsework, row->station);
}

static kl_status warn_tell_settlement(const warn_context *c,
                                      kl_index step,
                                      const warn_row *a,
                                      const warn_row *b,
                                      double at_a,
                                      double at_b)
{
    const kl_display *display = &c->model->display;
    const kl_falsework *falsework = &c->model->falsework[a->falsework];
    const double places[] = {a->station, b->station};
    const char *rows = text_stations(c->memory, display, places, 2);
    const char *first = text_value(c->memory, display, KL_MEASURE_DEFLECTION, at_a);
    const char *second = text_value(c->memory, display, KL_MEASURE_DEFLECTION, at_b);
    const char *moment = text_state(c->memory, c->results, kl_state_step(step));
    if (rows == NULL || first == NULL || second == NULL || moment == NULL) {
        return KL_NO_MEMORY;
    }
    kl_diags_add(
        c->diags, KL_WARNING, "uneven-settlement", falsework->origin,
        "Under the fresh concrete of %s the neighbouring rows at %s settle %s and %s, %s: look at "
        "cracks over them and at the order of the pour.",
        c->model->members[falsework->member].name, rows, first, second, moment);
    return KL_OK;
}

static kl_status warn_settlement_of_pour(const warn_context *c, kl_index step, kl_index member)
{
    warn_row *rows = NULL;
    kl_index count = 0, worst = KL_NONE;
    double steepest = WARN_SETTLEMENT_SLOPE;
    KL_TRY(warn_rows_under(c, kl_state_step(step), member, &rows, &count));
    kl_index standing = 0;
    for (kl_index i = 0; i < count; i++) {
        if (rows[i].state.stands) {
            rows[standing++] = rows[i];
        }
    }
    for (kl_index i = 0; i + 1 < standing; i++) {
        const double apart = rows[i + 1].station - rows[i].station;
        const double difference =
            fabs(warn_settlement(c, step, &rows[i + 1]) - warn_settlement(c, step, &rows[i]));
        if (apart > 0.0 && difference / apart > steepest) {
            steepest = difference / apart;
            worst = i;
        }
    }
    if (worst == KL_NONE) {
        return KL_OK;
    }
    const warn_row *a = &rows[worst], *b = &rows[worst + 1];
    return warn_tell_settlement(c, step, a, b, warn_settlement(c, step, a),
                                warn_settlement(c, step, b));
}

kl_status warn_uneven_settlement(const warn_context *c)
{
    for (kl_index step = 0; step < kl_step_count(c->results); step++) {
        const kl_operation *operation = warn_operation(c->results, step);
        if (operation == NULL || operation->kind != KL_OP_CAST) {
            continue;
        }
        for (kl_index i = 0; i < operation->items.count; i++) {
            KL_TRY(warn_settlement_of_pour(c, step, operation->items.items[i]));
        }
    }
    return KL_OK;
}

/* ---- falsework that stays ------------------------------------------------------------------------------- */

kl_status warn_still_bearing(const warn_context *c)
{
    const kl_index steps = kl_step_count(c->results);
    for (kl_index f = 0; steps > 0 && f < c->model->falsework_count; f++) {
        const kl_falsework *falsework = &c->model->falsework[f];
        kl_index standing = 0, bearing = 0;
        double force = 0.0;
        for (kl_index r = 0; r < falsework->row_count; r++) {
            kl_post_row row;
            if (kl_row_state(c->results, kl_state_step(steps - 1), f, r, &row) == KL_OK &&
                row.stands) {
                standing++;
                bearing += row.bears ? 1 : 0;
                force += row.force;
            }
        }
        if (bearing == 0) {
            continue;
        }
        const char *total = text_value(c->memory, &c->model->display, KL_MEASURE_FORCE, force);
        if (total == NULL) {
            return KL_NO_MEMORY;
        }
        kl_diags_add(c->diags, KL_WARNING, "still-bearing", falsework->origin,
                     "%d row%s of %s still stand%s at the last stage; %d bear%s and carr%s %s. "
                     "Release them, "
                     "or say why they stay.",
                     (int)standing, standing == 1 ? "" : "s", falsework->name,
                     standing == 1 ? "s" : "", (int)bearing, bearing == 1 ? "s" : "",
                     bearing == 1 ? "ies" : "y", total);
    }
    return KL_OK;
}
