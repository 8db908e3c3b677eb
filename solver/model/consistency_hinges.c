/* consistency_hinges.c - see consistency_hinges.h.
 * SPDX-License-Identifier: MIT */
#include "consistency_hinges.h"

#include <math.h>

#include "near.h"

/* ---- the book of hinges ------------------------------------------------------------------------------- */

static double tolerance_of(const consistency *c, kl_index member)
{
    return NEAR_STATION * kl_member_length(c->model, member);
}

/* Hinges sit at the face of a rigid end. */
static double at_face(const consistency *c, kl_index member, double station)
{
    const kl_member *item = &c->model->members[member];
    const double end = kl_member_length(c->model, member) - item->rigid_end;
    return fmin(fmax(station, item->rigid_start), end);
}

static void add_place(hinge_book *book, kl_index member, double station, bool open)
{
    book->places[book->count] = (hinge_place){station, open, book->first[member]};
    book->first[member] = book->count++;
}

static size_t count_places(const kl_model *model)
{
    size_t count = 0;
    for (kl_index m = 0; m < model->member_count; m++) {
        count += 2 + (size_t)model->members[m].hinge_count;
    }
    for (kl_index s = 0; s < model->stage_count; s++) {
        for (kl_index o = 0; o < model->stages[s].operation_count; o++) {
            const kl_operation_kind kind = model->stages[s].operations[o].kind;
            count += kind == KL_OP_UNLOCK || kind == KL_OP_LOCK ? 1 : 0;
        }
    }
    return count;
}

kl_status hinges_start(consistency *c, hinge_book *book)
{
    const kl_model *model = c->model;
    book->count = 0;
    book->first = arena_array(&c->memory, (size_t)model->member_count, sizeof *book->first);
    book->places = arena_array(&c->memory, count_places(model), sizeof *book->places);
    if (book->first == NULL || book->places == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index m = 0; m < model->member_count; m++) {
        const kl_member *member = &model->members[m];
        book->first[m] = KL_NONE;
        if (member->hinge_end) {
            add_place(book, m, at_face(c, m, (double)INFINITY), true);
        }
        for (kl_index i = member->hinge_count - 1; i >= 0; i--) {
            add_place(book, m, member->hinges[i], true);
        }
        if (member->hinge_start) {
            add_place(book, m, at_face(c, m, 0.0), true);
        }
    }
    return KL_OK;
}

void hinges_turn(hinge_book *book, const consistency *c, kl_index member, double station, bool open)
{
    const double at = at_face(c, member, station);
    for (kl_index i = book->first[member]; i != KL_NONE; i = book->places[i].next) {
        if (fabs(book->places[i].station - at) <= tolerance_of(c, member)) {
            book->places[i].open = open;
            return;
        }
    }
    add_place(book, member, at, open);
}

/* ---- tendons through them ----------------------------------------------------------------------------- */

/* Does one bearing hold two nodes together in all that it can? */
static bool joined_wholly(const consistency *c, kl_index a, kl_index b)
{
    for (kl_index i = 0; i < c->model->bearing_count; i++) {
        const kl_bearing *bearing = &c->model->bearings[i];
        const bool theirs = (bearing->node == a && bearing->base == b) ||
                            (bearing->node == b && bearing->base == a);
        if (theirs && bearing->hold[KL_X].kind == KL_FIXED &&
            bearing->hold[KL_Y].kind == KL_FIXED && bearing->hold[KL_TURN].kind == KL_FIXED) {
            return true;
        }
    }
    return a == b;
}

bool hinges_cross(const hinge_book *book,
                  const consistency *c,
                  const kl_tendon *tendon,
                  hinge_crossing *found)
{
    const kl_model *model = c->model;
    double offset = 0.0; /* of the member along the tendon's line */
    for (kl_index i = 0; i < tendon->member_count; i++) {
        const kl_index m = tendon->members[i];
        const double tolerance = tolerance_of(c, m);
        const double begin = tendon->rows[0].station - offset + tolerance;
        const double end = tendon->rows[tendon->row_count - 1].station - offset - tolerance;
        if (i > 0 && begin < 0.0 && end > 0.0 &&
            !joined_wholly(c, model->members[tendon->members[i - 1]].to, model->members[m].from)) {
            *found = (hinge_crossing){m, 0.0, true};
            return true;
        }
        for (kl_index k = book->first[m]; k != KL_NONE; k = book->places[k].next) {
            const double at = book->places[k].station;
            if (book->places[k].open && at > begin && at < end) {
                *found = (hinge_crossing){m, at, false};
                return true;
            }
        }
        offset += kl_member_length(model, m);
    }
    return false;
}

const char *hinges_name(consistency *c, const hinge_crossing *crossing)
{
    const kl_member *member = &c->model->members[crossing->member];
    const build_number at = build_show(c->model, KL_MEASURE_STATION, crossing->station);
    const char *text =
        crossing->apart
            ? arena_print(&c->memory, "the joint at node %s, which does not hold the members whole",
                          c->model->nodes[member->from].name)
            : arena_print(&c->memory, "the open hinge of member %s at %s", member->name, at.text);
    return text == NULL ? "" : text; /* out of memory: the message is lost anyway */
}

kl_status consistency_hinges(consistency *c)
{
    const kl_model *model = c->model;
    hinge_book book;
    KL_TRY(hinges_start(c, &book));
    for (kl_index k = 0; !c->staged && k < model->case_count; k++) {
        for (kl_index i = 0; i < model->cases[k].load_count; i++) {
            const kl_load *load = &model->cases[k].loads[i];
            hinge_crossing crossing;
            if (load->kind != KL_LOAD_TENDON ||
                !hinges_cross(&book, c, &model->tendons[load->tendon], &crossing)) {
                continue;
            }
            kl_diags_add(c->diags, KL_ERROR, "tendon-through-hinge", load->origin,
                         "Case %s stresses tendon %s, which runs through %s: that is not analysed.",
                         model->cases[k].name, model->tendons[load->tendon].name,
                         hinges_name(c, &crossing));
            kl_diags_hint(c->diags, "anchor the tendon there, or join the members rigidly");
        }
    }
    return KL_OK;
}
