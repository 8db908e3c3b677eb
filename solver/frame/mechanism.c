/* mechanism.c - see mechanism.h.
 * SPDX-License-Identifier: MIT */
#include "mechanism.h"

#include <math.h>
#include <string.h>

#include "mem.h"
#include "near.h"

/* Strain energy of a mode over the energy its own diagonal alone would take. A true mechanism leaves only the
 * rounding of the mode (1e-16 squared times the condition of the rest); the softest sound pivot looked at is far
 * above. */
#define MODE_ENERGY 1e-15
#define MODES_LIMIT 64

static double element_energy(const frame_system *system, kl_index e, const double *u)
{
    const kl_index *node = system->mesh->elements[e].node;
    const element_matrix *m = &system->matrix[e];
    double ends[6];
    double v[3];
    double q[3];
    const double zero[3] = {0.0, 0.0, 0.0};
    memcpy(ends, &u[3 * node[0]], 3 * sizeof(double));
    memcpy(ends + 3, &u[3 * node[1]], 3 * sizeof(double));
    element_deformation(m, ends, v);
    element_basic_force(m, v, zero, q);
    return q[0] * v[0] + q[1] * v[1] + q[2] * v[2];
}

static double mode_energy(const frame_system *system, const frame_structure *s, const double *u)
{
    double energy = 0.0;
    for (kl_index e = 0; e < system->mesh->element_count; e++) {
        energy += s->on[e] ? element_energy(system, e, u) : 0.0;
    }
    for (kl_index i = 0; i < s->strut_count; i++) {
        const frame_strut *strut = &s->struts[i];
        const double closing =
            u[3 * strut->top + 1] - (strut->foot == KL_NONE ? 0.0 : u[3 * strut->foot + 1]);
        energy += strut->stiffness * closing * closing;
    }
    for (kl_index i = 0; i < s->joint_count; i++) {
        const frame_joint *joint = &s->joints[i];
        const double slip =
            u[3 * joint->node + joint->direction] - u[3 * joint->base + joint->direction];
        energy += joint->joined ? 0.0 : joint->stiffness * slip * slip;
    }
    for (kl_index i = 0; i < s->hold_count; i++) {
        const frame_hold *hold = &s->holds[i];
        const node_axis axis = system->map.axis[hold->node];
        const double *move = &u[3 * hold->node];
        const double along = axis.cosine * move[0] + axis.sine * move[1];
        const double across = axis.cosine * move[1] - axis.sine * move[0];
        const double moved = hold->direction == 0 ? along : hold->direction == 1 ? across : move[2];
        energy += hold->held ? 0.0 : hold->stiffness * moved * moved;
    }
    return energy;
}

/* ---- naming ------------------------------------------------------------------------------------------ */

/* The place that moves most: model nodes are preferred when they move nearly as much. Rotations are weighed with the
 * size of an element. */
static kl_index most_moved(const frame_mesh *mesh, const double *u, bool *turns)
{
    kl_index best = 0;
    double best_movement = -1.0;
    *turns = false;
    double largest = 0.0;
    for (kl_index i = 0; i < mesh->node_count; i++) {
        const double moved = hypot(u[3 * i], u[3 * i + 1]);
        const double prefer = i < mesh->model->node_count ? 1.1 : 1.0;
        largest = fmax(largest, moved);
        if (moved * prefer > best_movement) {
            best = i;
            best_movement = moved * prefer;
        }
    }
    double best_turn = 0.0;
    for (kl_index i = 0; i < mesh->node_count; i++) {
        if (fabs(u[3 * i + 2]) > best_turn * (1.0 + 1e-9)) {
            best_turn = fabs(u[3 * i + 2]);
            if (largest <= 1e-9 * best_turn) {
                best = i;
                *turns = true;
            }
        }
    }
    return best;
}

static const mesh_element *element_of_node(const frame_mesh *mesh, kl_index node)
{
    for (kl_index e = 0; e < mesh->element_count; e++) {
        if (mesh->elements[e].node[0] == node || mesh->elements[e].node[1] == node) {
            return &mesh->elements[e];
        }
    }
    return NULL;
}

static const char *way_of(const double *move, bool turns)
{
    if (turns) {
        return "turns";
    }
    if (fabs(move[0]) > 2.0 * fabs(move[1])) {
        return move[0] > 0.0 ? "moves right" : "moves left";
    }
    if (fabs(move[1]) > 2.0 * fabs(move[0])) {
        return move[1] > 0.0 ? "moves up" : "moves down";
    }
    return "moves obliquely";
}

static void report_mode(const frame_system *system, const double *u, kl_diags *diags)
{
    const frame_mesh *mesh = system->mesh;
    bool turns;
    const kl_index node = most_moved(mesh, u, &turns);
    const mesh_element *element = element_of_node(mesh, node);
    const char *way = way_of(&u[3 * node], turns);
    if (node < mesh->model->node_count) {
        const kl_node *named = &mesh->model->nodes[node];
        kl_diags_add(diags, KL_ERROR, "mechanism", named->origin,
                     "The structure can move without strain: node %s %s and nothing stops it.",
                     named->name, way);
    } else if (element) {
        const kl_member *member = &mesh->model->members[element->member];
        const double station = element->node[0] == node ? element->from : element->to;
        const double share = 100.0 * station / mesh->members[element->member].length;
        kl_diags_add(diags, KL_ERROR, "mechanism", member->origin,
                     "The structure can move without strain: member %s %s at %.3g %% of its length "
                     "and nothing stops it.",
                     member->name, way, share);
    }
    kl_diags_hint(
        diags,
        "look for a missing support, too many hinges in a row, or a part that nothing holds yet");
}

/* ---- pieces too short for the arithmetic ------------------------------------------------------------------ */

/* k of an element goes with 1/l^3: beside a piece this much shorter than its member the rest is lost in rounding, and
 * a sound structure cannot be told from one that moves. */
#define SHORT_PIECE 1e-3

static kl_index short_piece_at(const frame_mesh *mesh, const frame_structure *s, kl_index node)
{
    kl_index shortest = KL_NONE;
    double share = SHORT_PIECE;
    for (kl_index e = 0; e < mesh->element_count; e++) {
        const mesh_element *element = &mesh->elements[e];
        if (!s->on[e] || (element->node[0] != node && element->node[1] != node)) {
            continue;
        }
        const double own = (element->to - element->from) / mesh->members[element->member].length;
        if (own < share) {
            share = own;
            shortest = e;
        }
    }
    return shortest;
}

static void report_short_piece(const frame_mesh *mesh, kl_index e, kl_diags *diags)
{
    const mesh_element *element = &mesh->elements[e];
    const kl_member *member = &mesh->model->members[element->member];
    const kl_display *display = &mesh->model->display;
    const double unit = kl_show_factor(display, KL_MEASURE_STATION);
    kl_diags_add(
        diags, KL_ERROR, "piece-too-short", member->origin,
        "Two places on member %s, at %.7g and %.7g %s, lie so close that the piece between "
        "them is too stiff beside the rest for the arithmetic.",
        member->name, element->from / unit, element->to / unit,
        kl_show_unit(display, KL_MEASURE_STATION));
    kl_diags_hint(diags, "loads, rows, nodes and changes of section make such places: let them "
                         "coincide or move them apart");
}

static void report_uneven(const frame_mesh *mesh, kl_index node, kl_diags *diags)
{
    const mesh_element *element = element_of_node(mesh, node);
    kl_diags_add(diags, KL_ERROR, "uneven-stiffness",
                 element ? mesh->model->members[element->member].origin : KL_NOWHERE,
                 "Stiff and soft parts differ too much for the arithmetic: it stops on member %s.",
                 element ? mesh->model->members[element->member].name : "…");
    kl_diags_hint(diags, "look for a size or a stiffness that is out of all proportion");
}

/* ---- looking ----------------------------------------------------------------------------------------- */

typedef struct mode_search {
    factor_pivot pivots[MODES_LIMIT];
    double size[MODES_LIMIT];
    int count;
} mode_search;

/* Stiffen every pivot that stops the factorization by its own diagonal until it completes. */
static kl_status complete_factor(frame_system *system, mode_search *search, factor_report *report)
{
    KL_TRY(system_factor(system, report));
    while (!report->complete) {
        if (search->count == MODES_LIMIT) {
            return KL_MECHANISM;
        }
        const factor_pivot *pivot = &report->stopped;
        search->pivots[search->count] = *pivot;
        search->size[search->count] = system_stiffen(system, pivot->node, pivot->direction);
        search->count++;
        KL_TRY(system_factor(system, report));
    }
    return KL_OK;
}

/* The mode of a stiffened pivot, in global axes with largest movement about 1. */
static kl_status find_mode(frame_system *system, const factor_pivot *pivot, double size, double *u)
{
    const size_t n = 3 * (size_t)system->mesh->node_count;
    memset(u, 0, n * sizeof(double));
    const kl_index own = 3 * pivot->node + pivot->direction;
    u[own] = size;
    KL_TRY(solve_columns(system->factor, u, 1));
    const double largest = fabs(u[own]);
    for (kl_index i = 0; i < (kl_index)n; i++) {
        u[i] = largest > 0.0 ? u[i] / largest : u[i];
    }
    for (kl_index i = 0; i < (kl_index)n; i++) {
        if (system->map.kind[i] == UNKNOWN_SLAVE) {
            const kl_index master = system->map.master[i];
            u[i] = system->map.kind[master] == UNKNOWN_FREE ? u[master] : 0.0;
        } else if (system->map.kind[i] != UNKNOWN_FREE) {
            u[i] = 0.0;
        }
    }
    constraints_to_global(system->mesh, &system->map, u);
    return KL_OK;
}

/* @return KL_MECHANISM when one of the stiffened pivots' modes is strain free; KL_NUMERIC when that cannot be told. */
static kl_status judge(frame_system *system,
                       const frame_structure *s,
                       const mode_search *search,
                       bool quiet,
                       kl_diags *diags)
{
    double *u = mem_array(3 * (size_t)system->mesh->node_count, sizeof(double));
    if (!u) {
        return KL_NO_MEMORY;
    }
    kl_status status = KL_OK;
    kl_index piece = KL_NONE;
    for (int i = 0; i < search->count && status == KL_OK; i++) {
        status = find_mode(system, &search->pivots[i], search->size[i], u);
        if (status == KL_OK && mode_energy(system, s, u) <= MODE_ENERGY * search->size[i]) {
            piece = short_piece_at(system->mesh, s, search->pivots[i].node);
            status = piece != KL_NONE ? KL_NUMERIC : KL_MECHANISM;
        }
    }
    if (piece != KL_NONE && !quiet) {
        report_short_piece(system->mesh, piece, diags);
    } else if (status == KL_MECHANISM && !quiet) {
        report_mode(system, u, diags);
    }
    mem_free(u);
    return status;
}

kl_status mechanism_factor(frame_system *system,
                           const frame_structure *structure,
                           bool quiet,
                           kl_diags *diags)
{
    factor_report report;
    mode_search search = {.count = 0};
    KL_TRY(complete_factor(system, &search, &report));
    const bool stopped = search.count > 0;
    if (!stopped && report.suspect_count == 0) {
        return KL_OK;
    }
    for (int i = 0; i < report.suspect_count && search.count < MODES_LIMIT; i++) {
        search.pivots[search.count] = report.suspects[i];
        search.size[search.count] =
            system_stiffen(system, report.suspects[i].node, report.suspects[i].direction);
        search.count++;
    }
    KL_TRY(system_factor(system, &report));
    KL_TRY(judge(system, structure, &search, quiet, diags));
    if (stopped) {
        if (!quiet) {
            report_uneven(system->mesh, search.pivots[0].node, diags);
        }
        return KL_NUMERIC;
    }
    system_assemble(system, structure); /* all suspects are sound: without the stiffening */
    return system_factor(system, &report);
}
