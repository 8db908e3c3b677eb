/* sheets_basis.c - sheet 22: what the analysis assumes and leaves out, the defaults that were used because the model says nothing
 * else, every warning, and the model's text.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "maker.h"

static void basis_put_assumptions(maker *m)
{
    package_text(m->package, BLOCK_HEADING, "Assumptions");
    package_text(m->package, BLOCK_PARAGRAPH,
                 "A plane frame with small displacements, linear elastic in each increment; plane "
                 "sections stay plane; "
                 "a post or a one-way support pushes and never pulls. Each step of the "
                 "construction is solved on what "
                 "stands on that day, and the results are sums over the steps.");
    package_text(m->package, BLOCK_PARAGRAPH,
                 "Not in the model: torsion and bending out of the plane, anchorage zones and "
                 "bursting, shear lag, "
                 "cracked stiffness, second-order effects, the strength of sections in bending and "
                 "shear, the "
                 "falsework's own foundations and bracing.");
    package_text(m->package, BLOCK_PARAGRAPH,
                 m->model->sections_gross ? "Sections: gross throughout, as the model asks."
                                          : "Sections: each increment on the section of its day, "
                                            "net of ducts before grouting and with the "
                                            "tendons' steel afterwards.");
}

static void basis_put_default(maker *m, const char *of, const char *name, const char *what)
{
    char text[LABEL_SIZE + 60];
    snprintf(text, sizeof text, "%s: %s", of, name);
    package_fact(m->package, BLOCK_FACTS, text, "%s", what);
}

static void basis_put_concrete(maker *m, const kl_material *c)
{
    if (c->creep == KL_LAW_UNSET) {
        basis_put_default(m, c->name, "creep", "not given: none");
    }
    if (c->shrinkage == KL_LAW_UNSET) {
        basis_put_default(m, c->name, "shrinkage", "not given: none");
    }
    if (c->gain == KL_LAW_UNSET) {
        basis_put_default(m, c->name, "strength with age", "not given: ACI 209R-92");
    }
    if (isnan(c->cured)) {
        basis_put_default(m, c->name, "moist curing", "not given: 7 days");
    }
    if (isnan(c->shear_modulus)) {
        basis_put_default(m, c->name, "shear modulus", "not given: modulus / 2.4");
    }
}

static void basis_put_tendon(maker *m, const kl_tendon *t)
{
    if (!t->has_friction) {
        basis_put_default(m, t->name, "friction", "not given: 0");
    }
    if (!t->has_wobble) {
        basis_put_default(m, t->name, "wobble", "not given: 0");
    }
    if (!t->has_seating) {
        basis_put_default(m, t->name, "seating", "not given: 0");
    }
}

/* The stricter of two limits is taken where the model does not say which holds. */
static void basis_put_check(maker *m, const kl_check *c)
{
    if (c->rules == KL_RULES_NONE || c->members.count == 0) {
        return;
    }
    if (!c->has_bonded_steel && c->condition == KL_AT_TRANSFER) {
        basis_put_default(m, c->name, "bonded steel", "not given: none, the stricter");
    }
    if (!c->has_exposure && c->condition != KL_AT_TRANSFER) {
        basis_put_default(m, c->name, "exposure", "not given: severe, the stricter");
    }
    if (!c->has_class && c->rules == KL_RULES_ACI318_2019) {
        basis_put_default(m, c->name, "class", "not given: U");
    }
}

static void basis_put_defaults(maker *m)
{
    package_text(m->package, BLOCK_HEADING, "Defaults used");
    for (kl_index i = 0; i < m->model->material_count; i++) {
        const kl_material *c = &m->model->materials[i];
        if (c->kind == KL_CONCRETE) {
            basis_put_concrete(m, c);
        } else if (c->kind == KL_PRESTRESSING && c->relaxation == KL_RELAXATION_UNSET) {
            basis_put_default(m, c->name, "relaxation", "not given: none");
        }
    }
    for (kl_index i = 0; i < m->model->tendon_count; i++) {
        basis_put_tendon(m, &m->model->tendons[i]);
    }
    for (kl_index i = 0; i < m->model->check_count; i++) {
        basis_put_check(m, &m->model->checks[i]);
    }
    package_fact(m->package, BLOCK_FACTS, "Longest element", "%s",
                 "a twentieth of its member where `mesh` is not given; loads, posts and tendons' "
                 "bends end elements");
}

static void basis_put_warnings(maker *m)
{
    const summary_input *in = &m->input->summary;
    package_text(m->package, BLOCK_HEADING, "Warnings: %d", (int)in->warning_count);
    for (kl_index i = 0; i < in->warning_count; i++) {
        const summary_message *w = &in->warnings[i];
        package_text(m->package, BLOCK_ALERT, "%s%s[%s] %s%s%s", w->place,
                     w->place[0] != '\0' ? " " : "", w->name, w->text, w->hint ? " " : "",
                     w->hint ? w->hint : "");
    }
}

void sheet_basis(maker *m)
{
    basis_put_assumptions(m);
    basis_put_defaults(m);
    basis_put_warnings(m);
    for (kl_index i = 0; i < m->input->source_count; i++) {
        const package_source *source = &m->input->sources[i];
        package_text(m->package, BLOCK_HEADING, i == 0 ? "The model" : "Included by the model");
        package_text(m->package, BLOCK_PARAGRAPH, "%s", source->name);
        package_text(m->package, BLOCK_LISTING, "%s", source->text);
    }
}
