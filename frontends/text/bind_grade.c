/* bind_grade.c - the grades that members shall have.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "bind_context.h"

static kl_status take_points(binder *b, const phrase *p, kl_grade *grade)
{
    const bind_line line = bind_line_of_member(b, &grade->member);
    kl_index count = 0;
    for (const phrase *at = NULL; (at = phrase_child(p, "point", at)) != NULL;) {
        count++;
    }
    if (!bind_count_rows(b, p->origin, count)) {
        return KL_OK;
    }
    kl_grade_point *points = arena_array(&b->scratch, (size_t)count, sizeof *points);
    if (points == NULL) {
        return KL_NO_MEMORY;
    }
    for (const phrase *at = NULL; (at = phrase_child(p, "point", at)) != NULL;) {
        points[grade->point_count++] = (kl_grade_point){bind_mark_station(b, &line, at, "at", NAN),
                                                        bind_own_number(at, 0), at->origin};
    }
    grade->points = points;
    return KL_OK;
}

static kl_status bind_grade(binder *b, const phrase *p)
{
    const text_value *member = phrase_own(p, 0);
    kl_grade grade = {
        .origin = p->origin,
        .member = member == NULL ? KL_NONE : bind_reference(b, KL_KIND_MEMBER, &member->names[0]),
        .target = bind_mark_reference(b, KL_KIND_STAGE, p, "target")};
    if (grade.member != KL_NONE) {
        KL_TRY(take_points(b, p, &grade));
    }
    const kl_status status = b->bad ? KL_BAD_MODEL : kl_model_add_grade(b->model, &grade, NULL);
    return bind_settle(b, NULL, KL_NONE, status);
}

kl_status bind_grades(binder *b)
{
    return bind_each_phrase(b, "grade", bind_grade);
}
