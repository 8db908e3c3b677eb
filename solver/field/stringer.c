/* stringer.c - see stringer.h.
 * SPDX-License-Identifier: MIT */
#include "stringer.h"

#include <math.h>

/* ---- weight ---------------------------------------------------------------------------------------------- */

/* Integral over stations a … b, where the section does not step, of w (reach - x)^power / power!, w being the weight
 * per length of the member's line. Areas are quadratic in the station at most, so that the five points are exact. */
static double
weigh_piece(const frame_mesh *mesh, kl_index member, double a, double b, double reach, int power)
{
    static const double factorial[] = {1.0, 1.0, 2.0, 6.0};
    const double start = mesh->model->nodes[mesh->model->members[member].from].x;
    double sum = 0.0;
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        const double station = a + (b - a) * mesh->rule.xi[p];
        const double lever = reach - (start + station * mesh->members[member].cosine);
        section_value value;
        member_section_values(mesh->model, member, station, KL_RIGHT, &value);
        sum += mesh->rule.weight[p] * value.area * pow(lever, power);
    }
    return sum * (b - a) / factorial[power];
}

/* The same over all of a member that lies between two x. */
static double weigh_member(
    const frame_mesh *mesh, kl_index member, const double between[2], double reach, int power)
{
    const kl_member *item = &mesh->model->members[member];
    const mesh_member *of = &mesh->members[member];
    if (item->weightless) {
        return 0.0;
    }
    const double start = mesh->model->nodes[item->from].x;
    const double ends[2] = {(between[0] - start) / of->cosine, (between[1] - start) / of->cosine};
    double a = fmax(fmin(ends[0], ends[1]), 0.0);
    const double b = fmin(fmax(ends[0], ends[1]), of->length);
    double sum = 0.0;
    for (kl_index i = 0; i < item->section_count && item->section_count > 1; i++) {
        const double row = item->sections[i].station;
        if (row > a && row < b) {
            sum += weigh_piece(mesh, member, a, row, reach, power);
            a = row;
        }
    }
    sum += b > a ? weigh_piece(mesh, member, a, b, reach, power) : 0.0;
    return sum * mesh->model->materials[item->material].unit_weight;
}

/* Integral of w(s) (x - s)^power / power! from the beam's end `from` to x. */
static double weigh(const frame_mesh *mesh, const form_pour *pour, double from, double x, int power)
{
    const double between[2] = {from, x};
    double sum = 0.0;
    for (kl_index i = 0; i < pour->member_count && x > from; i++) {
        sum += weigh_member(mesh, pour->members[i], between, x, power);
    }
    return sum;
}

/* ---- the beam -------------------------------------------------------------------------------------------- */

kl_index stringer_under(const frame_mesh *mesh, const form_pour *pour, kl_index span)
{
    kl_index found = KL_NONE;
    for (kl_index i = span; i <= span + 1; i++) {
        const kl_index row = pour->carriers[i].row;
        const kl_index falsework = row == KL_NONE ? found : mesh->rows[row].falsework;
        if (found != KL_NONE && falsework != found) {
            return KL_NONE;
        }
        found = falsework;
    }
    const bool has = found != KL_NONE && mesh->model->falsework[found].stringer_section != KL_NONE;
    return has ? found : KL_NONE;
}

/* E I. Its concrete, if it is of any, is as old as its strength. */
static double rigidity(const kl_model *model, const kl_falsework *falsework)
{
    const kl_section *section = &model->sections[falsework->stringer_section];
    section_value value;
    double modulus;
    double strength;
    section_evaluate(section, section, 0.0, &value);
    kl_material_at_age(model, falsework->stringer_material, 28.0 * KL_DAY, &modulus, &strength);
    return modulus * value.inertia;
}

static double cubed(double a)
{
    return a > 0.0 ? a * a * a / 6.0 : 0.0;
}

double stringer_sag(
    const frame_mesh *mesh, const form_pour *pour, kl_index span, kl_index falsework, double x)
{
    const double x0 = pour->carriers[span].x;
    const double x1 = pour->carriers[span + 1].x;
    const double from = span == 0 ? pour->from : x0;
    const double to = span + 2 == pour->carrier_count ? pour->to : x1;
    const double weight = weigh(mesh, pour, from, to, 0);
    const double moment = weigh(mesh, pour, from, to, 1);
    const double r0 = (moment - weight * (to - x1)) / (x1 - x0);
    const double r1 = weight - r0;
    const double f0 = weigh(mesh, pour, from, x0, 3);
    const double f1 = weigh(mesh, pour, from, x1, 3) - f0 - r0 * cubed(x1 - x0);
    const double f = weigh(mesh, pour, from, x, 3) - f0 - r0 * cubed(x - x0) - r1 * cubed(x - x1);
    return (f - f1 * (x - x0) / (x1 - x0)) /
           rigidity(mesh->model, &mesh->model->falsework[falsework]);
}
