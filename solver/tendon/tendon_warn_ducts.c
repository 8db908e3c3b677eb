/* tendon_warn_ducts.c - the warning about ducts that pass through each other: see tendon_warnings.h.
 *
 * On a stretch where both ducts keep to one parabola each, the gap between them is a parabola too: its ends, its vertex and
 * its roots tell all. Pairs are found member by member, so that tendons that share none cost nothing.
 * SPDX-License-Identifier: MIT */
#include "tendon_warnings.h"

#include "mem.h"
#include "near.h"
#include "path_piece.h"
#include "profile_rows.h"

#include <math.h>

/* How two run on the members they share: do they overlap somewhere (and where most), are they apart somewhere? */
typedef struct duct_meeting {
    kl_index met; /* tendon + 1 whose turn it was */
    bool overlaps, apart;
    double least; /* m between the centres */
    double station;
    kl_index member;
} duct_meeting;

typedef struct duct_search {
    const kl_model *model;
    const tendon_path *paths;
    const member_tendons *through;
    duct_meeting *meetings; /* of each tendon with the one whose turn it is */
} duct_search;

/* ---- one stretch ----------------------------------------------------------------------------------------- */

/* g0 + g1 u + g2 u^2 over u = 0 … length from a station on. */
typedef struct duct_gap {
    double g0, g1, g2;
    double from, length;
} duct_gap;

static double gap_at(const duct_gap *gap, double u)
{
    return gap->g0 + u * (gap->g1 + u * gap->g2);
}

/* The root between a and b, where the gap has two signs. */
static double gap_root(const duct_gap *gap, double a, double b)
{
    const double square = gap->g1 * gap->g1 - 4.0 * gap->g2 * gap->g0;
    const double q = -0.5 * (gap->g1 + copysign(sqrt(fmax(0.0, square)), gap->g1));
    const double one = q / gap->g2; /* not finite where the gap is straight */
    return one > a && one < b ? one : fmin(fmax(gap->g0 / q, a), b);
}

static void
meeting_look(duct_meeting *meeting, kl_index member, double station, double apart, double need)
{
    const bool meets = apart < need * (1.0 - NEAR_STATION);
    meeting->apart = meeting->apart || !meets;
    meeting->overlaps = meeting->overlaps || meets;
    if (apart < meeting->least) {
        meeting->least = apart;
        meeting->station = station;
        meeting->member = member;
    }
}

static void
meeting_look_along(duct_meeting *meeting, kl_index member, const duct_gap *gap, double need)
{
    const double vertex = -0.5 * gap->g1 / gap->g2; /* not finite where the gap is straight */
    const bool has_vertex = vertex > 0.0 && vertex < gap->length;
    const double u[3] = {0.0, has_vertex ? vertex : gap->length, gap->length};
    double before = gap_at(gap, 0.0);
    meeting_look(meeting, member, gap->from, fabs(before), need);
    for (int i = 1; i < 3; i++) {
        const double here = gap_at(gap, u[i]);
        if (here * before < 0.0) {
            meeting_look(meeting, member, gap->from + gap_root(gap, u[i - 1], u[i]), 0.0, need);
        }
        meeting_look(meeting, member, gap->from + u[i], fabs(here), need);
        before = here;
    }
}

/* ---- two tendons on one member ---------------------------------------------------------------------------- */

static duct_gap gap_between(const path_piece *a,
                            double start_a,
                            const path_piece *b,
                            double start_b,
                            double from,
                            double to)
{
    const double t = start_a + from - a->from;
    const double s = start_b + from - b->from;
    return (duct_gap){.g0 = path_piece_duct(a, t) - path_piece_duct(b, s),
                      .g1 = a->m0 + 2.0 * a->c * t - (b->m0 + 2.0 * b->c * s),
                      .g2 = a->c - b->c,
                      .from = from,
                      .length = to - from};
}

/* Stretch by stretch from the later beginning to the earlier end. */
static void look_at_pair(const duct_search *s,
                         kl_index member,
                         member_tendon one,
                         member_tendon other,
                         duct_meeting *meeting)
{
    const tendon_path *const a = &s->paths[one.tendon];
    const tendon_path *const b = &s->paths[other.tendon];
    const double need =
        0.5 * (s->model->tendons[one.tendon].duct + s->model->tendons[other.tendon].duct);
    double from = fmax(0.0, fmax(a->begin - one.start, b->begin - other.start));
    const double end =
        fmin(kl_member_length(s->model, member), fmin(a->end - one.start, b->end - other.start));
    const path_piece *p = profile_piece_at(a, one.start + from, KL_RIGHT);
    const path_piece *q = profile_piece_at(b, other.start + from, KL_RIGHT);
    const path_piece *const last_p = a->pieces + a->piece_count - 1;
    const path_piece *const last_q = b->pieces + b->piece_count - 1;
    while (need > 0.0 && from < end) {
        const double to_p = p < last_p ? p->to - one.start : end;
        const double to_q = q < last_q ? q->to - other.start : end;
        const double to = fmin(end, fmin(to_p, to_q));
        if (to > from) {
            const duct_gap gap = gap_between(p, one.start, q, other.start, from, to);
            meeting_look_along(meeting, member, &gap, need);
            from = to;
        }
        p += p < last_p && to_p <= to;
        q += q < last_q && to_q <= to;
    }
}

/* ---- all ------------------------------------------------------------------------------------------------- */

static void meet_others(const duct_search *s, kl_index t)
{
    double start = 0.0;
    for (kl_index i = 0; i < s->model->tendons[t].member_count; i++) {
        const kl_index member = s->model->tendons[t].members[i];
        for (kl_index p = s->through->first[member]; p < s->through->first[member + 1]; p++) {
            const member_tendon other = s->through->items[p];
            duct_meeting *const meeting = &s->meetings[other.tendon];
            if (other.tendon <= t) {
                continue;
            }
            if (meeting->met != t + 1) {
                *meeting = (duct_meeting){.met = t + 1, .least = INFINITY, .member = KL_NONE};
            }
            look_at_pair(s, member, (member_tendon){t, start}, other, meeting);
        }
        start += kl_member_length(s->model, member);
    }
}

static void tell_meeting(const duct_search *s, kl_index one, kl_index other, kl_diags *diags)
{
    const duct_meeting *const meeting = &s->meetings[other];
    if (meeting->met != one + 1 || !meeting->overlaps || !meeting->apart) {
        return;
    }
    char place[PROFILE_PLACE];
    profile_place(s->model, meeting->station, place);
    kl_diags_add(diags, KL_WARNING, "ducts-meet", s->model->tendons[other].origin,
                 "The ducts of tendons %s and %s pass through each other at %s on member %s.",
                 s->model->tendons[one].name, s->model->tendons[other].name, place,
                 s->model->members[meeting->member].name);
    kl_diags_hint(diags, "if they lie side by side there, nothing is amiss");
}

kl_status tendon_warn_ducts(const kl_model *model,
                            const tendon_path *paths,
                            const member_tendons *through,
                            kl_diags *diags)
{
    duct_meeting *const meetings = mem_array((size_t)model->tendon_count, sizeof *meetings);
    const duct_search s = {model, paths, through, meetings};
    if (meetings == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index t = 0; t < model->tendon_count; t++) {
        meet_others(&s, t);
        for (kl_index other = t + 1; other < model->tendon_count; other++) {
            tell_meeting(&s, t, other, diags);
        }
    }
    mem_free(meetings);
    return KL_OK;
}
