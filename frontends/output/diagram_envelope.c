/* diagram_envelope.c - the largest and the smallest value at every station of a member, over all moments that were asked for, with
 * the moment that governs named at the extremes: moment, shear, stress at the top and at the bottom.
 *
 * Without a choice: every step and combination; in a model without stages every case and combination. Beside stages a case by
 * itself is no state of the structure, and would make stresses look smaller or larger than they ever are.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <math.h>
#include <stdio.h>

#include "course_family.h"
#include "figure.h"
#include "mem.h"

#define ENVELOPE_WIDTH 900.0
#define ENVELOPE_PANEL 290.0
#define ENVELOPE_NEAR  12   /* stations on either side that a local extreme must exceed */
#define ENVELOPE_SAME  1e-6 /* of the largest: rounding */
#define ENVELOPE_TELLS 0.2  /* of the largest: smaller local extremes are not named */

typedef struct envelope_panel {
    kl_quantity quantity;
    const char *name;
    bool downward;
} envelope_panel;

enum { ENVELOPE_HIGH, ENVELOPE_LOW, ENVELOPE_SIDES };

typedef struct envelope {
    kl_results *results;
    course_family *family;             /* its first two courses are the largest and the smallest */
    kl_index *governs[ENVELOPE_SIDES]; /* index into the selection's states, of each station */
    kl_index moments;
} envelope;

static kl_status envelope_start(arena *a, envelope *e, const member_course *first)
{
    const size_t count = (size_t)first->count;
    for (int side = 0; side < ENVELOPE_SIDES; side++) {
        member_course *c = &e->family->courses[side];
        *c = *first;
        c->value = arena_array(a, count, sizeof(double));
        e->governs[side] = arena_array(a, count, sizeof(kl_index));
        if (!c->value || !e->governs[side]) {
            return KL_NO_MEMORY;
        }
        for (size_t i = 0; i < count; i++) {
            c->value[i] = NAN;
        }
    }
    return KL_OK;
}

/* Take one moment in. */
static void envelope_widen(envelope *e, const member_course *c, kl_index state)
{
    member_course *high = &e->family->courses[ENVELOPE_HIGH];
    member_course *low = &e->family->courses[ENVELOPE_LOW];
    for (int i = 0; i < c->count; i++) {
        if (!isnan(c->value[i]) && !(c->value[i] <= high->value[i])) {
            high->value[i] = c->value[i];
            e->governs[ENVELOPE_HIGH][i] = state;
        }
        if (!isnan(c->value[i]) && !(c->value[i] >= low->value[i])) {
            low->value[i] = c->value[i];
            e->governs[ENVELOPE_LOW][i] = state;
        }
    }
    e->family->low = fmin(e->family->low, c->low);
    e->family->high = fmax(e->family->high, c->high);
    e->moments++;
}

static kl_status
envelope_gather(arena *a, envelope *e, const selection *s, kl_quantity quantity, kl_index member)
{
    const kl_model *model = kl_results_model(e->results);
    *e->family = (course_family){.quantity = quantity, .member = member};
    e->family->length =
        kl_member_length(model, member) / kl_show_factor(&model->display, KL_MEASURE_STATION);
    for (kl_index k = 0; k < s->state_count; k++) {
        if (!kl_member_stands(e->results, s->states[k], member)) {
            continue;
        }
        arena own = {0};
        member_course c;
        course_moment moment;
        kl_status status = course_moment_find(e->results, s->states[k], &moment);
        if (status == KL_OK) {
            status = member_course_gather(&own, e->results, &moment, quantity, KL_TOTAL, member,
                                          MEMBER_COURSE_PIECES, &c);
        }
        if (status == KL_OK && e->moments == 0) {
            c.station = arena_copy(a, c.station, (size_t)c.count, sizeof(double));
            status = c.station ? envelope_start(a, e, &c) : KL_NO_MEMORY;
        }
        if (status == KL_OK) {
            envelope_widen(e, &c, k);
        }
        arena_free(&own);
        KL_TRY(status);
    }
    return KL_OK;
}

/* ---- drawing ------------------------------------------------------------------------------------------------ */

/* Is the value further out than its neighbours', on the side of the envelope it belongs to? */
static bool envelope_is_extreme(const member_course *c, int i, double sign, double same)
{
    for (int k = i - ENVELOPE_NEAR; k <= i + ENVELOPE_NEAR; k++) {
        const bool beside = k >= 0 && k < c->count && k != i;
        const double further = beside ? sign * (c->value[k] - c->value[i]) : -HUGE_VAL;
        if (further > same || (k < i && further >= -same)) {
            return false; /* of equal ones the first is named */
        }
    }
    return true;
}

static void envelope_put_values(const envelope *e, const selection *s, const plot *p, int side)
{
    const member_course *c = &e->family->courses[side];
    const double largest = fmax(e->family->high, -e->family->low);
    const double sign = side == ENVELOPE_HIGH ? 1.0 : -1.0;
    const double outermost = side == ENVELOPE_HIGH ? e->family->high : e->family->low;
    for (int i = 0; i < c->count; i++) {
        const double share = fabs(c->value[i]) / largest;
        if (isnan(c->value[i]) || !(share > ENVELOPE_TELLS) ||
            !envelope_is_extreme(c, i, sign, ENVELOPE_SAME * largest)) {
            continue;
        }
        char figure[FIGURE_SIZE];
        char when[LABEL_SIZE];
        char text[LABEL_SIZE + FIGURE_SIZE + 4];
        figure_beside(figure, c->value[i], largest);
        label_state(when, e->results, s->states[e->governs[side][i]]);
        snprintf(text, sizeof text, "%s %s", figure, when);
        const double x = plot_x(p, c->station[i]);
        const double y = plot_y(p, c->value[i]);
        drawing_circle(p->drawing, "node", x, y, 2.2);
        if (!(sign * c->value[i] < sign * outermost)) {
            drawing_label(p->drawing, "small", x, y, 2.0, text);
        } else {
            drawing_hint(p->drawing, "small", x, y, share, text);
        }
    }
}

static void
envelope_put(drawing *d, envelope *e, const selection *s, const envelope_panel *panel, double top)
{
    course_family *family = e->family;
    snprintf(family->names[0], LABEL_SIZE, "largest of %d states", (int)e->moments);
    snprintf(family->names[1], LABEL_SIZE, "smallest");
    family->count = ENVELOPE_SIDES;
    for (int side = 0; side < ENVELOPE_SIDES; side++) {
        family->key[side] = (plot_key_entry){diagram_class(side), family->names[side]};
    }
    const plot p = course_family_axes(d, e->results, family,
                                      (label_box){0.0, top, ENVELOPE_WIDTH, ENVELOPE_PANEL},
                                      panel->name, panel->downward);
    const member_course *high = &family->courses[ENVELOPE_HIGH];
    const member_course *low = &family->courses[ENVELOPE_LOW];
    plot_band(&p, "area", high->station, high->value, low->value, high->count);
    for (int side = 0; side < ENVELOPE_SIDES; side++) {
        const member_course *c = &family->courses[side];
        plot_course(&p, diagram_class(side), c->station, c->value, c->count);
        envelope_put_values(e, s, &p, side);
    }
    plot_key(&p, family->key, ENVELOPE_SIDES);
}

/* ---- the page ------------------------------------------------------------------------------------------------ */

#define ENVELOPE_PANELS 4

typedef struct envelope_page {
    arena memory;
    envelope of[ENVELOPE_PANELS]; /* what is not 0 throughout */
    const envelope_panel *panels[ENVELOPE_PANELS];
    int count;
} envelope_page;

static kl_status
envelope_lay_out(envelope_page *page, kl_results *results, const selection *s, kl_index member)
{
    static const envelope_panel panels[ENVELOPE_PANELS] = {
        {KL_MOMENT, "moment", true},
        {KL_SHEAR, "shear", false},
        {KL_STRESS_TOP, "stress at the top", false},
        {KL_STRESS_BOTTOM, "stress at the bottom", false},
    };
    for (int i = 0; i < ENVELOPE_PANELS; i++) {
        envelope *e = &page->of[page->count];
        *e = (envelope){.results = results,
                        .family = arena_array(&page->memory, 1, sizeof *e->family)};
        if (!e->family) {
            return KL_NO_MEMORY;
        }
        KL_TRY(envelope_gather(&page->memory, e, s, panels[i].quantity, member));
        if (e->moments > 0 && !course_family_is_zero(e->family)) {
            page->panels[page->count++] = &panels[i];
        }
    }
    return KL_OK;
}

static void envelope_page_free(envelope_page *page)
{
    if (page) {
        arena_free(&page->memory);
    }
    mem_free(page);
}

void diagram_envelope(drawing *d, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    const kl_index member = diagram_member(results, s);
    char title[LABEL_SIZE + 40];
    snprintf(title, sizeof title, "Envelopes along %s",
             member == KL_NONE ? "no member" : model->members[member].name);
    envelope_page *page = mem_array(1, sizeof *page);
    kl_status status = page ? KL_OK : KL_NO_MEMORY;
    if (page && member != KL_NONE) {
        status = envelope_lay_out(page, results, s, member);
    }
    const int count = page ? page->count : 0;
    drawing_start(d, ENVELOPE_WIDTH, 18.0 + ENVELOPE_PANEL * fmax(count, 1.0), title,
                  LABEL_SIGNS_ACTIONS);
    drawing_text(d, "strong", 8.0, 16.0, ANCHOR_START, title);
    if (diagram_accepts(d, status)) {
        for (int i = 0; i < count; i++) {
            envelope_put(d, &page->of[i], s, page->panels[i], 18.0 + ENVELOPE_PANEL * i);
        }
        d->blank = count == 0 || page->of[0].moments < 2;
    }
    envelope_page_free(page);
}
