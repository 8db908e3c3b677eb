/* consistency_grades.c - which members can have a grade, and whether they stand when they shall have it.
 * SPDX-License-Identifier: MIT */
#include "consistency_replay.h"

kl_status consistency_grades(consistency *c)
{
    for (kl_index i = 0; i < c->model->grade_count; i++) {
        const kl_grade *grade = &c->model->grades[i];
        if (!consistency_is_level(c, grade->member)) {
            kl_diags_add(c->diags, KL_ERROR, "grade-of-steep-member", grade->origin,
                         "Member %s rises by more than it goes along: it has no grade that a form "
                         "could be set to.",
                         c->model->members[grade->member].name);
        }
    }
    return KL_OK;
}

void replay_grades(replay *r)
{
    const kl_model *model = r->c->model;
    for (kl_index i = 0; i < model->grade_count; i++) {
        const kl_grade *grade = &model->grades[i];
        const replay_member *member = &r->members[grade->member];
        if (grade->target != r->stage || member->stands) {
            continue;
        }
        kl_diags_add(r->c->diags, KL_ERROR, "grade-not-standing", grade->origin,
                     "Member %s shall have its grade at the end of stage %s, but %s.",
                     model->members[grade->member].name, r->at->name,
                     member->ever ? "it is removed by then" : "it does not stand by then");
        kl_diags_hint(r->c->diags, member->ever ? "name an earlier stage as `target`"
                                                : "name a stage as `target` in which it stands");
    }
}
