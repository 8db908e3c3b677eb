/* response.c - see response.h.
 *
 * Forces come of differences of movements. Where a short element meets a long one its k, which goes with 1/l^3, drowns
 * the other's in rounding, both in the matrix and in k v: an element of a millimetre would cost four digits. So the
 * answer is found in steps, and the basic forces q are kept beside u: each step solves for what the nodes still miss
 * (loads less the end forces of q, by statics) and adds k v(du) to q. What rounding leaves is then a lack of fit of the
 * size of rounding, which strains nothing, and not a lack of balance. (Iterative refinement after J. H. Wilkinson,
 * Rounding Errors in Algebraic Processes, 1963, carried over to elements.)
 * SPDX-License-Identifier: MIT */
#include "response.h"

#include <math.h>
#include <string.h>

#include "entities.h"
#include "near.h"

#define BALANCED 1e-14 /* what a node misses, relative to the largest force and moment at hand */
#define NOTHING                                                                                    \
    1e-24 /* of what was asked for: as good as zero, and far from where doubles lose digits */
#define STEPS 40  /* of refinement; one or two are usual */
#define GAIN  0.5 /* a step that leaves more than this share was the last */

/* ---- movements ------------------------------------------------------------------------------------------- */

static bool all_zero(const double *values, size_t count)
{
    size_t i = 0;
    while (i < count && is_exact_zero(values[i])) {
        i++;
    }
    return i == count;
}

/* Movements that are given: of held unknowns, and of slaves against their masters; global axes. @return whether there are any. */
static bool given_movements(frame_system *system, const frame_loads *loads, double *u)
{
    const unknown_map *map = &system->map;
    const kl_index n = 3 * system->mesh->node_count;
    if (!loads->moved || all_zero(loads->moved, (size_t)n)) {
        memset(u, 0, (size_t)n * sizeof(double));
        return false;
    }
    memcpy(system->work, loads->moved, (size_t)n * sizeof(double));
    constraints_to_node_axes(system->mesh, map, system->work);
    for (kl_index i = 0; i < n; i++) {
        const kl_index master = map->master[i];
        u[i] = 0.0;
        if (map->kind[i] == UNKNOWN_HELD || map->kind[i] == UNKNOWN_SLAVE) {
            u[i] = system->work[i];
        }
        if (map->kind[i] == UNKNOWN_SLAVE && map->kind[master] == UNKNOWN_HELD) {
            u[i] += system->work[master];
        }
    }
    constraints_to_global(system->mesh, map, u);
    return true;
}

/* Slaves' rows fold into their masters'; rows that are not free ask for zero. */
static void fold(const frame_system *system, double *b)
{
    const unknown_map *map = &system->map;
    const kl_index n = 3 * system->mesh->node_count;
    for (kl_index i = 0; i < n; i++) {
        if (map->kind[i] == UNKNOWN_SLAVE) {
            b[map->master[i]] += b[i];
        }
    }
    for (kl_index i = 0; i < n; i++) {
        if (map->kind[i] != UNKNOWN_FREE) {
            b[i] = 0.0;
        }
    }
}

static void unfold(const frame_system *system, double *x)
{
    const unknown_map *map = &system->map;
    for (kl_index i = 0; i < 3 * system->mesh->node_count; i++) {
        if (map->kind[i] == UNKNOWN_SLAVE) {
            x[i] = map->kind[map->master[i]] == UNKNOWN_FREE ? x[map->master[i]] : 0.0;
        }
    }
}

/* ---- basic forces ---------------------------------------------------------------------------------------- */

/* Add k v(u) to q. */
static void
stretch(const frame_system *system, const frame_structure *structure, const double *u, double *q)
{
    static const double nothing[3] = {0.0, 0.0, 0.0};
    const frame_mesh *mesh = system->mesh;
    for (kl_index e = 0; e < mesh->element_count; e++) {
        if (!structure->on[e]) {
            continue;
        }
        const kl_index *node = mesh->elements[e].node;
        double ends[6];
        double v[3];
        double more[3];
        memcpy(ends, &u[3 * node[0]], 3 * sizeof(double));
        memcpy(ends + 3, &u[3 * node[1]], 3 * sizeof(double));
        element_deformation(&system->matrix[e], ends, v);
        element_basic_force(&system->matrix[e], v, nothing, more);
        for (int i = 0; i < 3; i++) {
            q[3 * (size_t)e + (size_t)i] += more[i];
        }
    }
}

/* Basic forces of elements whose nodes are held: -k v_free. */
static void clamp(const frame_system *system,
                  const frame_structure *structure,
                  const frame_loads *loads,
                  double *q)
{
    static const double nothing[3] = {0.0, 0.0, 0.0};
    const frame_mesh *mesh = system->mesh;
    for (kl_index e = 0; e < mesh->element_count; e++) {
        if (!structure->on[e]) {
            continue;
        }
        const element_matrix *m = &system->matrix[e];
        double v_free[3];
        element_statics statics;
        const element_load load = loads_on(loads, e);
        element_balance(&mesh->rule, m->length, &load, &statics);
        element_free_deformation(&mesh->rule, m, &statics, load.strain, v_free);
        element_basic_force(m, nothing, v_free, &q[3 * (size_t)e]);
    }
}

/* ---- what the nodes miss ---------------------------------------------------------------------------------- */

/* The largest force and moment met. */
typedef struct sizes {
    double force, moment;
} sizes;

/* As fmax, which is a call: NAN is never more. */
static inline double greater(double a, double b)
{
    return b > a ? b : a;
}

static void see(sizes *s, const double *node)
{
    s->force = greater(s->force, greater(fabs(node[0]), fabs(node[1])));
    s->moment = greater(s->moment, fabs(node[2]));
}

static void subtract_elements(const frame_system *system,
                              const frame_structure *structure,
                              const frame_loads *loads,
                              const double *q,
                              double *b,
                              sizes *largest)
{
    const frame_mesh *mesh = system->mesh;
    for (kl_index e = 0; e < mesh->element_count; e++) {
        if (!structure->on[e]) {
            continue;
        }
        const kl_index *node = mesh->elements[e].node;
        const element_matrix *m = &system->matrix[e];
        double force[6];
        section_action end[2];
        const element_load load = loads_on(loads, e);
        element_end_actions(&mesh->rule, m->length, &q[3 * (size_t)e], &load, end);
        element_end_forces(m, end, force);
        for (int i = 0; i < 3; i++) {
            b[3 * node[0] + i] -= force[i];
            b[3 * node[1] + i] -= force[3 + i];
        }
        see(largest, force);
        see(largest, force + 3);
    }
}

/* A spring under a support, along the node's axes; its ground moves with `moved` (NULL: stays). */
static void subtract_hold(const frame_system *system,
                          const frame_hold *hold,
                          const double *moved,
                          const double *u,
                          double *b)
{
    const node_axis axis = system->map.axis[hold->node];
    double direction[3] = {axis.cosine, axis.sine, 0.0};
    if (hold->direction == 1) {
        direction[0] = -axis.sine;
        direction[1] = axis.cosine;
    } else if (hold->direction == 2) {
        direction[0] = direction[1] = 0.0;
        direction[2] = 1.0;
    }
    double slip = 0.0;
    for (int d = 0; d < 3; d++) {
        const double ground = moved ? moved[3 * hold->node + d] : 0.0;
        slip += direction[d] * (ground - u[3 * hold->node + d]);
    }
    for (int d = 0; d < 3; d++) {
        b[3 * hold->node + d] += hold->stiffness * slip * direction[d];
    }
}

static void subtract_springs(const frame_system *system,
                             const frame_structure *s,
                             const frame_loads *loads,
                             const double *u,
                             double *b)
{
    for (kl_index i = 0; i < s->strut_count; i++) {
        const frame_strut *strut = &s->struts[i];
        const double foot = strut->foot == KL_NONE ? 0.0 : u[3 * strut->foot + 1];
        const double force = strut->stiffness * (foot - u[3 * strut->top + 1]);
        b[3 * strut->top + 1] += force;
        if (strut->foot != KL_NONE) {
            b[3 * strut->foot + 1] -= force;
        }
    }
    for (kl_index i = 0; i < s->joint_count; i++) {
        const frame_joint *joint = &s->joints[i];
        if (joint->joined || !(joint->stiffness > 0.0)) {
            continue;
        }
        const kl_index node = 3 * joint->node + joint->direction;
        const kl_index base = 3 * joint->base + joint->direction;
        const double force = joint->stiffness * (u[base] - u[node]);
        b[node] += force;
        b[base] -= force;
    }
    for (kl_index i = 0; i < s->hold_count; i++) {
        if (!s->holds[i].held && s->holds[i].stiffness > 0.0) {
            subtract_hold(system, &s->holds[i], loads->moved, u, b);
        }
    }
}

/* Loads less what elements and springs take, in node axes and folded: all of it, and its largest. */
static sizes missing(const frame_system *system,
                     const frame_structure *structure,
                     const frame_loads *loads,
                     const double *u,
                     const double *q,
                     double *b,
                     sizes *largest)
{
    const size_t n = (size_t)system->mesh->node_count;
    sizes left = {0.0, 0.0};
    *largest = left;
    memcpy(b, loads->node, 3 * n * sizeof(double));
    for (size_t i = 0; i < n; i++) {
        see(largest, &b[3 * i]);
    }
    subtract_elements(system, structure, loads, q, b, largest);
    subtract_springs(system, structure, loads, u, b);
    constraints_to_node_axes(system->mesh, &system->map, b);
    fold(system, b);
    for (size_t i = 0; i < n; i++) {
        see(&left, &b[3 * i]);
    }
    return left;
}

/* The worse of force and moment, relative. */
static double relative(sizes left, sizes all)
{
    const double force = all.force > 0.0 ? left.force / all.force : 0.0;
    const double moment = all.moment > 0.0 ? left.moment / all.moment : 0.0;
    return fmax(force, moment);
}

/* The larger of what the nodes asked for at first and what elements carry: where a structure gives way freely (a
 * tendon's strain in a simple beam) nothing is carried in the end, and rounding is that of what was asked for. */
static sizes larger(sizes a, sizes b)
{
    return (sizes){fmax(a.force, b.force), fmax(a.moment, b.moment)};
}

/* Is what is left small? A frame's moments may all be rounding beside force times length, and its forces likewise. */
static bool in_balance(const frame_mesh *mesh, sizes left, sizes all)
{
    const double size = entities_size(mesh->model);
    return left.force <= NEAR_BALANCE * fmax(all.force, all.moment / size) &&
           left.moment <= NEAR_BALANCE * fmax(all.moment, all.force * size);
}

/* ---- the whole ------------------------------------------------------------------------------------------- */

/* Solve for what is missing and move on. */
static kl_status
step_on(frame_system *system, const frame_structure *structure, double *u, double *q, double *b)
{
    const size_t n = 3 * (size_t)system->mesh->node_count;
    double *x = system->step;
    memcpy(x, b, n * sizeof(double));
    KL_TRY(solve_columns(system->factor, x, 1));
    const double residual =
        solve_residual(system->graph, system->diag, system->off, x, b, system->work, 1);
    system->worst_residual = fmax(system->worst_residual, residual);
    unfold(system, x);
    constraints_to_global(system->mesh, &system->map, x);
    for (size_t i = 0; i < n; i++) {
        u[i] += x[i];
    }
    stretch(system, structure, x, q);
    return KL_OK;
}

kl_status response_solve(frame_system *system,
                         const frame_structure *structure,
                         const frame_loads *loads,
                         double *u,
                         double *q,
                         double *b)
{
    const bool moves = given_movements(system, loads, u);
    clamp(system, structure, loads, q);
    if (moves) {
        stretch(system, structure, u, q);
    }
    sizes largest;
    const sizes asked = missing(system, structure, loads, u, q, b, &largest);
    KL_TRY(step_on(system, structure, u, q, b));
    double before = INFINITY;
    sizes left = missing(system, structure, loads, u, q, b, &largest);
    for (int i = 0; i < STEPS; i++) {
        /* The goal is set by what is carried, which may be next to nothing; progress is seen on a fixed scale. */
        const double share = relative(left, larger(asked, largest));
        if (!(relative(left, largest) > BALANCED) || !(share > NOTHING) ||
            !(share <= GAIN * before)) {
            break;
        }
        before = share;
        KL_TRY(step_on(system, structure, u, q, b));
        left = missing(system, structure, loads, u, q, b, &largest);
    }
    /* What is not in balance is no answer; a braced structure leaves some to its bracing. */
    return system->braced || in_balance(system->mesh, left, larger(asked, largest)) ? KL_OK
                                                                                    : KL_NUMERIC;
}
