/* consistency_shoring.c - the falsework of a staged model: erected before the pour, released after it and in a
 * usual order.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdlib.h>

#include "consistency_replay.h"
#include "near.h"

void replay_erect(replay *r)
{
    const kl_model *model = r->c->model;
    const kl_list items = r->operation->items;
    for (kl_index i = 0; i < items.count; i++) {
        const kl_falsework *falsework = &model->falsework[items.items[i]];
        replay_falsework *state = &r->falsework[items.items[i]];
        if (state->erected) {
            REPLAY_SAY(r, KL_ERROR, "erected-twice",
                       "Stage %s erects falsework %s, which was erected in stage %s.", r->at->name,
                       falsework->name, model->stages[state->stage].name);
            continue;
        }
        if (r->members[falsework->member].stands) {
            REPLAY_SAY(
                r, KL_WARNING, "erected-after-cast",
                "Stage %s erects falsework %s under member %s, which stands since stage %s: its "
                "posts take no weight.",
                r->at->name, falsework->name, model->members[falsework->member].name,
                model->stages[r->members[falsework->member].stage].name);
        }
        if (falsework->carrier != KL_NONE) {
            if (!r->members[falsework->carrier].stands) {
                REPLAY_SAY(r, KL_ERROR, "carrier-not-standing",
                           "Stage %s erects falsework %s on member %s, which does not stand then.",
                           r->at->name, falsework->name, model->members[falsework->carrier].name);
            }
            r->members[falsework->carrier].carried += falsework->row_count;
        }
        state->erected = true;
        state->stage = r->stage;
        state->standing = falsework->row_count;
        r->members[falsework->member].rows += falsework->row_count;
        for (kl_index k = 0; k < falsework->row_count; k++) {
            r->rows[state->first_row + k] = REPLAY_ROW_STANDS;
        }
    }
}

static kl_index take_rows(replay *r, const kl_falsework *falsework, replay_falsework *state)
{
    const double spare = NEAR_STATION * kl_member_length(r->c->model, falsework->member);
    const double from = isnan(r->operation->from) ? -(double)INFINITY : r->operation->from - spare;
    const double to = isnan(r->operation->to) ? (double)INFINITY : r->operation->to + spare;
    kl_index taken = 0;
    for (kl_index k = 0; k < falsework->row_count; k++) {
        kl_index *row = &r->rows[state->first_row + k];
        if (*row == REPLAY_ROW_STANDS && falsework->stations[k] >= from &&
            falsework->stations[k] <= to) {
            *row = r->releases;
            taken++;
        }
    }
    return taken;
}

void replay_release(replay *r)
{
    const kl_index f = r->operation->items.items[0];
    const kl_falsework *falsework = &r->c->model->falsework[f];
    replay_falsework *state = &r->falsework[f];
    if (!state->erected) {
        REPLAY_SAY(r, KL_ERROR, "not-erected",
                   "Stage %s releases falsework %s, which was not erected.", r->at->name,
                   falsework->name);
        return;
    }
    r->releases++;
    const kl_index taken = take_rows(r, falsework, state);
    if (taken == 0) {
        REPLAY_SAY(r, KL_ERROR, "released-twice",
                   "Stage %s releases rows of falsework %s that were released before.", r->at->name,
                   falsework->name);
        return;
    }
    state->standing -= taken;
    if (state->standing == 0) {
        state->emptied = r->stage;
    }
    r->members[falsework->member].rows -= taken;
    if (falsework->carrier != KL_NONE) {
        r->members[falsework->carrier].carried -= taken;
    }
}

/* ---- the order of release ----------------------------------------------------------------------------- */

/* A row that was released, of whatever falsework under the member. */
typedef struct released_row {
    double station;
    kl_index order;
} released_row;

static int compare_rows(const void *a, const void *b)
{
    const released_row *l = a;
    const released_row *rr = b;
    return (l->station > rr->station) - (l->station < rr->station);
}

static void say_order(replay *r, kl_index m, const char *what, double station, const char *usual)
{
    const kl_model *model = r->c->model;
    const build_number at = build_show(model, KL_MEASURE_STATION, station);
    kl_diags_add(
        r->c->diags, KL_WARNING, "release-order", model->members[m].origin,
        "The falsework under member %s is released so that the row at %s, %s, goes last; %s.",
        model->members[m].name, at.text, what, usual);
}

/* Rows of one span, between two columns or supports: midspan first, then outward. */
static void
check_span(replay *r, kl_index m, const released_row *rows, kl_index count, double middle)
{
    if (count < 3) {
        return;
    }
    kl_index near = 0;
    for (kl_index i = 1; i < count; i++) {
        near = fabs(rows[i].station - middle) < fabs(rows[near].station - middle) ? i : near;
    }
    if (rows[near].order > rows[0].order && rows[near].order > rows[count - 1].order) {
        say_order(r, m, "near midspan", rows[near].station,
                  "a span is usually released from midspan toward its columns");
    }
}

/* Rows of an overhang, from its tip on: the tip first. */
static void check_overhang(replay *r, kl_index m, const released_row *tip, const released_row *root)
{
    if (tip->order > root->order) {
        say_order(r, m, "at the tip of the overhang", tip->station,
                  "an overhang is usually released from its tip toward its column");
    }
}

/* Is the node held up: by a column, a support or a bearing? */
static bool carries(const replay *r, kl_index node, kl_index member)
{
    const consistency *c = r->c;
    if (c->bearing_of[node] != KL_NONE || c->support_first[node] != KL_NONE) {
        return true;
    }
    for (kl_index i = c->at_start[node]; i < c->at_start[node + 1]; i++) {
        if (c->at_members[i] != member && consistency_is_vertical(c, c->at_members[i])) {
            return true;
        }
    }
    return false;
}

/* Stations where the member is carried, rising. @return how many. */
static kl_index carried_stations(const replay *r, kl_index m, double *stations)
{
    const consistency *c = r->c;
    const kl_member *member = &c->model->members[m];
    kl_index count = 0;
    if (carries(r, member->from, m)) {
        stations[count++] = 0.0;
    }
    for (kl_index i = c->on_start[m]; i < c->on_start[m + 1]; i++) {
        const kl_index node = c->on_nodes[i];
        if (carries(r, node, m)) {
            stations[count++] = c->model->nodes[node].station;
        }
    }
    if (carries(r, member->to, m)) {
        stations[count++] = kl_member_length(c->model, m);
    }
    return count;
}

static void check_spans(replay *r,
                        kl_index m,
                        const released_row *rows,
                        kl_index count,
                        const double *stations,
                        kl_index carriers)
{
    kl_index i = 0;
    while (i < count && rows[i].station < stations[0]) {
        i++;
    }
    if (i >= 2) {
        check_overhang(r, m, &rows[0], &rows[i - 1]);
    }
    for (kl_index s = 1; s < carriers; s++) {
        const kl_index first = i;
        while (i < count && rows[i].station < stations[s]) {
            i++;
        }
        check_span(r, m, rows + first, i - first, 0.5 * (stations[s - 1] + stations[s]));
    }
    if (count - i >= 2) {
        check_overhang(r, m, &rows[count - 1], &rows[i]);
    }
}

/* The falsework of each member, chained; index + 1, so that 0 ends a chain. */
typedef struct member_falsework {
    kl_index *first, *next;
} member_falsework;

static kl_index
gather_rows(const replay *r, const member_falsework *chain, kl_index m, released_row *rows)
{
    const kl_model *model = r->c->model;
    kl_index count = 0;
    for (kl_index f = chain->first[m] - 1; f >= 0; f = chain->next[f] - 1) {
        const kl_falsework *falsework = &model->falsework[f];
        for (kl_index k = 0; k < falsework->row_count; k++) {
            const kl_index order = r->rows[r->falsework[f].first_row + k];
            if (r->falsework[f].erected && order != REPLAY_ROW_STANDS) {
                rows[count++] = (released_row){falsework->stations[k], order};
            }
        }
    }
    qsort(rows, (size_t)count, sizeof *rows, compare_rows);
    return count;
}

static kl_status check_orders(replay *r)
{
    const kl_model *model = r->c->model;
    arena *memory = &r->c->memory;
    size_t all = 0;
    for (kl_index f = 0; f < model->falsework_count; f++) {
        all += (size_t)model->falsework[f].row_count;
    }
    released_row *rows = arena_array(memory, all, sizeof *rows);
    double *stations = arena_array(memory, (size_t)model->node_count + 2, sizeof *stations);
    member_falsework chain;
    chain.first = arena_array(memory, (size_t)model->member_count, sizeof(kl_index));
    chain.next = arena_array(memory, (size_t)model->falsework_count, sizeof(kl_index));
    if (rows == NULL || stations == NULL || chain.first == NULL || chain.next == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index f = 0; f < model->falsework_count; f++) {
        chain.next[f] = chain.first[model->falsework[f].member];
        chain.first[model->falsework[f].member] = f + 1;
    }
    for (kl_index m = 0; m < model->member_count; m++) {
        const kl_index count = gather_rows(r, &chain, m, rows);
        if (count == 0) {
            continue;
        }
        const kl_index carriers = carried_stations(r, m, stations);
        if (carriers > 0) {
            check_spans(r, m, rows, count, stations, carriers);
        }
    }
    return KL_OK;
}

/* ---- what is left at the end -------------------------------------------------------------------------- */

/* Which stages a check's `when` takes in: none under a case or combination. */
static bool stages_of(kl_when when, kl_index *first, kl_index *last)
{
    *first = when.first;
    *last = when.kind == KL_WHEN_FROM_TO ? when.last : when.first;
    return when.kind == KL_WHEN_AFTER || when.kind == KL_WHEN_DURING ||
           when.kind == KL_WHEN_FROM_TO;
}

/* Count the checks of a member stage by stage: `counts` has a place for each stage and one more. */
static void count_checks(const kl_model *model, kl_index member, kl_index *counts)
{
    for (kl_index s = 0; s <= model->stage_count; s++) {
        counts[s] = 0;
    }
    for (kl_index k = 0; k < model->check_count; k++) {
        const kl_check *check = &model->checks[k];
        kl_index first;
        kl_index last;
        bool named = false;
        for (kl_index i = 0; i < check->members.count && !named; i++) {
            named = check->members.items[i] == member;
        }
        if (named && stages_of(check->when, &first, &last)) {
            counts[first]++;
            counts[last + 1]--;
        }
    }
    for (kl_index s = 1; s <= model->stage_count; s++) {
        counts[s] += counts[s - 1];
    }
}

/* From the stage that loads the posts to the one that empties them, the carrier works. */
static void check_carrier_covered(replay *r, kl_index f, kl_index *counts)
{
    const kl_model *model = r->c->model;
    const kl_falsework *falsework = &model->falsework[f];
    const replay_falsework *state = &r->falsework[f];
    const replay_member *carried = &r->members[falsework->member];
    if (falsework->carrier == KL_NONE || !state->erected || !carried->ever) {
        return;
    }
    count_checks(model, falsework->carrier, counts);
    const kl_index first = carried->stage > state->stage ? carried->stage : state->stage;
    const kl_index last = state->emptied == KL_NONE ? model->stage_count : state->emptied;
    for (kl_index s = first; s < last; s++) {
        if (counts[s] == 0) {
            kl_diags_add(r->c->diags, KL_WARNING, "carrier-unchecked", falsework->origin,
                         "Member %s carries falsework %s in stage %s, which no check of it covers.",
                         model->members[falsework->carrier].name, falsework->name,
                         model->stages[s].name);
            return;
        }
    }
}

kl_status replay_falsework_end(replay *r)
{
    const kl_model *model = r->c->model;
    kl_index *counts = arena_array(&r->c->memory, (size_t)model->stage_count + 1, sizeof *counts);
    if (counts == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index f = 0; f < model->falsework_count; f++) {
        const kl_falsework *falsework = &model->falsework[f];
        const replay_falsework *state = &r->falsework[f];
        if (!state->erected) {
            kl_diags_add(r->c->diags, KL_WARNING, "never-erected", falsework->origin,
                         "No stage erects falsework %s.", falsework->name);
        } else if (state->standing > 0) {
            kl_diags_add(r->c->diags, KL_WARNING, "never-released", falsework->origin,
                         "%d of the %d rows of falsework %s still stand after the last stage.",
                         (int)state->standing, (int)falsework->row_count, falsework->name);
        }
        check_carrier_covered(r, f, counts);
    }
    return check_orders(r);
}
