/* readings.c - see readings.h.
 * SPDX-License-Identifier: MIT */
#include "readings.h"

#include <math.h>
#include <stdlib.h>

enum { STATIONS = 21 };

static void add_reading(readings *r,
                        double value,
                        reading_kind kind,
                        const char *name,
                        const char *what,
                        double station)
{
    if (r->count == r->room) {
        r->room = 2 * r->room + 256;
        r->items = realloc(r->items, (size_t)r->room * sizeof *r->items);
        assert_non_null(r->items);
    }
    r->items[r->count++] = (reading){value, kind, name, what, station};
}

static double or_nan(kl_status status, double value)
{
    return status == KL_OK ? value : (double)NAN;
}

static void read_member(readings *r, const solved *m, kl_state state, const char *name)
{
    static const struct {
        kl_quantity quantity;
        kl_part part;
        reading_kind kind;
    } asked[] = {{KL_MOMENT, KL_TOTAL, READING_MOMENT},
                 {KL_MOMENT, KL_CONCRETE_SHARE, READING_MOMENT},
                 {KL_SHEAR, KL_TOTAL, READING_FORCE},
                 {KL_AXIAL, KL_TOTAL, READING_FORCE},
                 {KL_AXIAL, KL_CONCRETE_SHARE, READING_FORCE},
                 {KL_DEFLECTION, KL_TOTAL, READING_LENGTH},
                 {KL_SWAY, KL_TOTAL, READING_LENGTH},
                 {KL_ROTATION, KL_TOTAL, READING_ANGLE},
                 {KL_STRESS_TOP, KL_TOTAL, READING_STRESS},
                 {KL_STRESS_BOTTOM, KL_TOTAL, READING_STRESS}};
    const kl_index member = kl_model_find(m->model, KL_KIND_MEMBER, name);
    const double length = kl_member_length(m->model, member);
    for (size_t q = 0; q < sizeof asked / sizeof asked[0]; q++) {
        for (int i = 0; i < 2 * STATIONS; i++) {
            const double station = length * (i / 2) / (STATIONS - 1);
            double value = NAN;
            const kl_status status =
                kl_value_on_member(m->results, state, asked[q].quantity, asked[q].part, member,
                                   station, i % 2 ? KL_RIGHT : KL_LEFT, &value);
            add_reading(r, or_nan(status, value), asked[q].kind, name,
                        kl_quantity_name(asked[q].quantity), station);
        }
    }
}

static void read_node(readings *r, const solved *m, kl_state state, const char *name)
{
    const kl_index node = kl_model_find(m->model, KL_KIND_NODE, name);
    static const kl_quantity asked[] = {KL_SWAY, KL_DEFLECTION, KL_ROTATION};
    for (int d = 0; d < 3; d++) {
        double value = NAN;
        kl_status status = kl_node_movement(m->results, state, asked[d], node, &value);
        add_reading(r, or_nan(status, value), d == 2 ? READING_ANGLE : READING_LENGTH, name,
                    kl_quantity_name(asked[d]), NAN);
        status = kl_reaction(m->results, state, node, (kl_direction)d, &value);
        add_reading(r, or_nan(status, value), d == 2 ? READING_MOMENT : READING_FORCE, name,
                    "reaction", NAN);
    }
}

static void read_falsework(readings *r, const solved *m, kl_state state, const char *name)
{
    const kl_index falsework = kl_model_find(m->model, KL_KIND_FALSEWORK, name);
    for (kl_index i = 0; i < m->model->falsework[falsework].row_count; i++) {
        kl_post_row row = {0};
        const kl_status status = kl_row_state(m->results, state, falsework, i, &row);
        const double station = m->model->falsework[falsework].stations[i];
        add_reading(r, or_nan(status, row.force), READING_FORCE, name, "force of the row", station);
        add_reading(r, or_nan(status, row.gap), READING_LENGTH, name, "gap of the row", station);
    }
}

static void read_tendon(readings *r, const solved *m, kl_state state, const char *name)
{
    const kl_index tendon = kl_model_find(m->model, KL_KIND_TENDON, name);
    const double range = kl_tendon_range(m->model, tendon);
    for (int i = 0; i < STATIONS; i++) {
        double value = NAN;
        const double station = range * i / (STATIONS - 1);
        const kl_status status =
            kl_tendon_force(m->results, state, tendon, station, KL_RIGHT, &value);
        add_reading(r, or_nan(status, value), READING_FORCE, name, "force", station);
    }
}

readings readings_take(const solved *m, kl_state state, const solved *like)
{
    readings r = {0};
    const kl_model *order = like ? like->model : m->model;
    for (kl_index i = 0; i < order->member_count; i++) {
        read_member(&r, m, state, order->members[i].name);
    }
    for (kl_index i = 0; i < order->node_count; i++) {
        read_node(&r, m, state, order->nodes[i].name);
    }
    for (kl_index i = 0; i < order->falsework_count; i++) {
        read_falsework(&r, m, state, order->falsework[i].name);
    }
    for (kl_index i = 0; i < order->tendon_count; i++) {
        read_tendon(&r, m, state, order->tendons[i].name);
    }
    return r;
}

void readings_free(readings *r)
{
    free(r->items);
    *r = (readings){0};
}

void readings_add(readings *a, const readings *b, double factor)
{
    assert_int_equal(a->count, b->count);
    for (kl_index i = 0; i < a->count; i++) {
        a->items[i].value += factor * b->items[i].value;
    }
}

double readings_largest(const readings *r, reading_kind kind)
{
    double largest = 0.0;
    for (kl_index i = 0; i < r->count; i++) {
        if (r->items[i].kind == kind && isfinite(r->items[i].value)) {
            largest = fmax(largest, fabs(r->items[i].value));
        }
    }
    return largest;
}

/* What a kind's differences are held against. */
static double scale_of(const readings *a, const readings *b, reading_kind kind)
{
    const double own = fmax(readings_largest(a, kind), readings_largest(b, kind));
    switch (kind) {
    case READING_MOMENT:
        return fmax(own,
                    fmax(readings_largest(a, READING_FORCE), readings_largest(b, READING_FORCE)));
    case READING_LENGTH:
    case READING_ANGLE:
        return fmax(own, 1e-4);
    case READING_FORCE:
    case READING_STRESS:
    case READING_KINDS:
        break;
    }
    return fmax(own, 1.0);
}

void readings_agree(const readings *got, const readings *want, double rtol)
{
    assert_int_equal(got->count, want->count);
    double scale[READING_KINDS];
    for (int k = 0; k < READING_KINDS; k++) {
        scale[k] = scale_of(got, want, (reading_kind)k);
    }
    kl_index wrong = 0;
    for (kl_index i = 0; i < got->count; i++) {
        const reading *g = &got->items[i];
        const double w = want->items[i].value;
        const bool agrees =
            isnan(w) ? isnan(g->value) : fabs(g->value - w) <= rtol * scale[g->kind];
        if (!agrees && wrong++ < 5) {
            print_error("%s %s at %.4f m: got %.15g, want %.15g, difference %.3g of %.3g\n",
                        g->name, g->what, g->station, g->value, w, g->value - w, scale[g->kind]);
        }
    }
    if (wrong > 0) {
        print_error("%d of %d readings differ\n", (int)wrong, (int)got->count);
        fail();
    }
}

kl_index states_count(const solved *m)
{
    kl_index count = kl_step_count(m->results);
    for (kl_index c = 0; c < m->model->case_count; c++) {
        count += kl_case_is_solved(m->results, c) ? 1 : 0;
    }
    return count;
}

kl_state states_at(const solved *m, kl_index i)
{
    i -= kl_step_count(m->results);
    if (i < 0) {
        return kl_state_step(i + kl_step_count(m->results));
    }
    kl_index c = 0;
    for (;; c++) {
        if (kl_case_is_solved(m->results, c) && i-- == 0) {
            return kl_state_case(c);
        }
    }
}
