/* diagrams.c - the list of pictures, and what their builders share.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <stdio.h>
#include <string.h>

/* ORDER diagrams: docs/completion/kernline.bash and docs/kernline.1 list the same; a test compares. */
static const diagram_recipe diagram_list[] = {
    {"frame", "the frame to scale: members, nodes, supports, falsework", DIAGRAM_OF_MODEL,
     SELECTION_FINAL, false, diagram_frame},
    /* the whole frame, and what goes on over time */
    {"loads", "the loads of each case, or of a stage, on the frame, with their sums",
     DIAGRAM_OF_MODEL, SELECTION_LOADS, false, diagram_loads},
    {"frame_moment", "bending moments on the frame, on the tension side", DIAGRAM_OF_MODEL,
     SELECTION_FINAL, true, diagram_frame_moment},
    {"frame_shear", "shear forces on the frame", DIAGRAM_OF_MODEL, SELECTION_FINAL, true,
     diagram_frame_shear},
    {"frame_axial", "axial forces on the frame", DIAGRAM_OF_MODEL, SELECTION_FINAL, true,
     diagram_frame_axial},
    {"deflected", "the deflected shape of the frame, magnified", DIAGRAM_OF_MODEL, SELECTION_FINAL,
     true, diagram_deflected},
    {"posts", "posts under their member, before and after a step, with the rated load",
     DIAGRAM_OF_MEMBER, SELECTION_ALL, false, diagram_posts},
    {"stages", "a small frame a stage: what stands, what loads it, which rows bear",
     DIAGRAM_OF_MODEL, SELECTION_NONE, false, diagram_stages},
    {"history", "deflection and stresses of one place against time", DIAGRAM_OF_PLACE,
     SELECTION_HISTORY, true, diagram_history},
    {"envelope", "largest and smallest moment, shear and stress along a member, over all moments",
     DIAGRAM_OF_MEMBER, SELECTION_ENVELOPE, true, diagram_envelope},
    /* along a member */
    {"moment", "bending moment along a member, on the tension side", DIAGRAM_OF_MEMBER,
     SELECTION_FINAL, true, diagram_moment},
    {"shear", "shear force along a member", DIAGRAM_OF_MEMBER, SELECTION_FINAL, true,
     diagram_shear},
    {"axial", "axial force along a member", DIAGRAM_OF_MEMBER, SELECTION_FINAL, true,
     diagram_axial},
    {"stresses", "stress at top and bottom along a member, with the limits of its checks",
     DIAGRAM_OF_MEMBER, SELECTION_FINAL, true, diagram_stresses},
    {"deflection", "deflection along a member", DIAGRAM_OF_MEMBER, SELECTION_FINAL, true,
     diagram_deflection},
    {"camber", "camber along a member", DIAGRAM_OF_MEMBER, SELECTION_FINAL, true, diagram_camber},
    {"grades", "what a form is raised by over the design grade of its member, and the parts of it",
     DIAGRAM_OF_MEMBER, SELECTION_NONE, false, diagram_grades},
    /* sections, tendons, materials */
    {"sections", "sections to scale with voids, bars and ducts, and what they are worth",
     DIAGRAM_OF_SECTIONS, SELECTION_FINAL, false, diagram_sections},
    {"section_stress", "the stress through the height of a section, part by part", DIAGRAM_OF_PLACE,
     SELECTION_FINAL, false, diagram_section_stress},
    {"tendons", "tendons in elevation, heights stretched", DIAGRAM_OF_TENDON, SELECTION_FINAL,
     false, diagram_tendons},
    {"tendon_force", "force and stress along tendons from jacking on", DIAGRAM_OF_TENDON,
     SELECTION_ALL, false, diagram_tendon_force},
    {"strength", "strength and modulus of a member's concrete by age", DIAGRAM_OF_MEMBER,
     SELECTION_NONE, false, diagram_strength},
    {"creep", "J(t, t0), the strain of a lasting unit stress, by age", DIAGRAM_OF_MEMBER,
     SELECTION_NONE, false, diagram_creep},
    {"shrinkage", "shrinkage of a member's concrete by age", DIAGRAM_OF_MEMBER, SELECTION_NONE,
     false, diagram_shrinkage},
};

const diagram_recipe *diagram_recipes(kl_index *count)
{
    *count = (kl_index)(sizeof diagram_list / sizeof diagram_list[0]);
    return diagram_list;
}

const diagram_recipe *diagram_recipe_find(const char *name)
{
    kl_index count;
    const diagram_recipe *recipes = diagram_recipes(&count);
    for (kl_index i = 0; i < count; i++) {
        if (strcmp(recipes[i].name, name) == 0) {
            return &recipes[i];
        }
    }
    return NULL;
}

const char *
diagram_build(drawing *d, const diagram_recipe *recipe, kl_results *results, const selection *s)
{
    *d = (drawing){0};
    recipe->build(d, results, s);
    d->folds = s->folds;
    return drawing_finish(d);
}

kl_index diagram_member(const kl_results *results, const selection *s)
{
    if (s->member != KL_NONE) {
        return s->member;
    }
    const kl_model *model = kl_results_model(results);
    kl_index longest = KL_NONE;
    for (kl_index m = 0; m < model->member_count; m++) {
        if (longest == KL_NONE || kl_member_length(model, m) > kl_member_length(model, longest)) {
            longest = m;
        }
    }
    return longest;
}

const kl_state *diagram_state(const selection *s)
{
    for (kl_index i = s->state_count - 1; i >= 0; i--) {
        if (s->states[i].kind == KL_STATE_STEP) {
            return &s->states[i];
        }
    }
    return s->state_count > 0 ? &s->states[s->state_count - 1] : NULL;
}

void diagram_title(char title[DIAGRAM_TITLE],
                   const kl_results *results,
                   const char *what,
                   const kl_state *state,
                   kl_measure measure)
{
    char when[LABEL_SIZE] = "";
    if (state) {
        label_state(when, results, *state);
    }
    snprintf(title, DIAGRAM_TITLE, "%s%s%s, %s", what, state ? " " : "", when,
             kl_show_unit(&kl_results_model(results)->display, measure));
}

void diagram_absent(drawing *d, const char *why)
{
    if (d->status == KL_OK) {
        d->status = KL_NOT_THERE;
        d->absent = why;
    }
}

bool diagram_accepts(drawing *d, kl_status status)
{
    if (status != KL_OK && status != KL_NOT_THERE && d->status == KL_OK) {
        d->status = status;
    }
    return status == KL_OK;
}

int diagram_step(kl_state state)
{
    return state.kind == KL_STATE_STEP ? (int)state.index : DRAWING_NO_STEP;
}

const char *diagram_class(kl_index i)
{
    static const char *const classes[] = {"c0", "c1", "c2", "c3", "c4", "c5", "c6", "c7"};
    return classes[i % 8];
}
