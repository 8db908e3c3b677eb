/* grades.c - see kernline/field.h: what a form is raised by, part by part.
 * SPDX-License-Identifier: MIT */
#include "kernline/field.h"

#include "stringer.h"

/* ---- the grade that is wanted ---------------------------------------------------------------------------- */

static double straight(double x, double xa, double a, double xb, double b)
{
    return a + (b - a) * ((x - xa) / (xb - xa));
}

double kl_grade_design(const kl_grade *grade, double station)
{
    const kl_grade_point *points = grade->points;
    if (grade->point_count == 1) {
        return points[0].elevation;
    }
    kl_index low = 0; /* of the piece that the station lies on */
    for (kl_index high = grade->point_count - 1; high - low > 1;) {
        const kl_index middle = low + (high - low) / 2;
        if (points[middle].station <= station) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return straight(station, points[low].station, points[low].elevation, points[low + 1].station,
                    points[low + 1].elevation);
}

/* ---- the pour -------------------------------------------------------------------------------------------- */

static bool pours(const form_pour *pour, kl_index member)
{
    for (kl_index i = 0; i < pour->member_count; i++) {
        if (pour->members[i] == member) {
            return true;
        }
    }
    return false;
}

/* The pour from which the member has stood until a step; NULL: it was not poured on falsework. */
static const form_pour *pour_of(const kl_results *results, kl_index member, kl_index step)
{
    for (const form_pour *pour = results->run.state.pour; pour; pour = pour->before) {
        if (pour->step > step || !pours(pour, member)) {
            continue;
        }
        for (kl_index later = pour->step; later <= step; later++) {
            if (!results->steps[later].members[member].stands) {
                return NULL; /* removed, and placed or cast on nothing since */
            }
        }
        return pour;
    }
    return NULL;
}

/* The span of form that x lies on: carriers i and i + 1, the first and the last with what is beyond them. */
static kl_index span_at(const form_pour *pour, double x)
{
    kl_index low = 0;
    for (kl_index high = pour->carrier_count - 1; high - low > 1;) {
        const kl_index middle = low + (high - low) / 2;
        if (pour->carriers[middle].x <= x) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return low;
}

static double takeup(const frame_mesh *mesh, const form_carrier *c)
{
    return c->row == KL_NONE ? 0.0 : mesh->model->falsework[mesh->rows[c->row].falsework].takeup;
}

static double shortening(const frame_mesh *mesh, const form_carrier *c)
{
    return c->row == KL_NONE ? 0.0 : c->force / mesh->rows[c->row].stiffness;
}

/* What the form goes down by while it is filled. */
static void add_pour(const frame_mesh *mesh, const form_pour *pour, double x, kl_form_grade *out)
{
    const kl_index span = span_at(pour, x);
    const form_carrier *a = &pour->carriers[span];
    const form_carrier *b = a + 1;
    const kl_index falsework = stringer_under(mesh, pour, span);
    out->is_formed = true;
    out->takeup = straight(x, a->x, takeup(mesh, a), b->x, takeup(mesh, b));
    out->posts = straight(x, a->x, shortening(mesh, a), b->x, shortening(mesh, b));
    out->carrier = straight(x, a->x, -a->moved, b->x, -b->moved);
    out->stringer = falsework == KL_NONE ? 0.0 : stringer_sag(mesh, pour, span, falsework, x);
}

/* ---- the grade of the form ------------------------------------------------------------------------------- */

kl_status
kl_form_grade_at(const kl_results *results, kl_index grade, double station, kl_form_grade *out)
{
    const kl_model *model = results->run.model;
    const kl_grade *asked = &model->grades[grade];
    const kl_index step = kl_last_step(results, asked->target);
    const form_pour *pour = pour_of(results, asked->member, step);
    *out = (kl_form_grade){.design = kl_grade_design(asked, station)};
    KL_TRY(kl_value_on_member(results, kl_state_step(step), KL_CAMBER, KL_TOTAL, asked->member,
                              station, KL_RIGHT, &out->camber));
    if (pour) {
        add_pour(&results->run.mesh, pour, kl_member_point(model, asked->member, station).x, out);
    }
    out->raise = out->camber + out->takeup + out->posts + out->carrier + out->stringer;
    out->form = out->design + out->raise;
    return KL_OK;
}

bool kl_grade_has_stringer(const kl_model *model, const kl_grade *grade)
{
    for (kl_index f = 0; f < model->falsework_count; f++) {
        const kl_falsework *falsework = &model->falsework[f];
        if (falsework->member == grade->member && falsework->stringer_section != KL_NONE) {
            return true;
        }
    }
    return false;
}
