/* build_grade.c - kl_model_add_grade: the grade that a member shall have.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "build.h"
#include "near.h"

#define GRADE_MOST_POINTS 10000

static void check_points(build_item *item, kl_index member, kl_grade_point *points, kl_index count)
{
    const kl_model *model = item->model;
    const double length = kl_member_length(model, member);
    for (kl_index i = 0; i < count && !item->bad; i++) {
        kl_grade_point *point = &points[i];
        if (!isfinite(point->station) || !isfinite(point->elevation)) {
            build_error(item, "not-finite", point->origin,
                        "The stations and elevations of %s must be finite numbers.",
                        build_subject(item));
            return;
        }
        build_station(item, point->origin, length, model->members[member].name, &point->station);
        if (i > 0 && !item->bad &&
            !(point->station > points[i - 1].station + NEAR_STATION * length)) {
            const build_number at = build_show(model, KL_MEASURE_STATION, point->station);
            const build_number before =
                build_show(model, KL_MEASURE_STATION, points[i - 1].station);
            build_error(item, "grade-points-order", point->origin,
                        "The point at %s comes after the one at %s; the stations of a grade must "
                        "rise.",
                        at.text, before.text);
        }
    }
}

static void check_first_of_member(build_item *item, kl_index member)
{
    const kl_model *model = item->model;
    for (kl_index i = 0; i < model->grade_count; i++) {
        if (model->grades[i].member == member) {
            build_error(item, "grade-twice", item->origin, "Member %s has a grade already.",
                        model->members[member].name);
            build_hint(item, "write all points of a member in one `grade`");
            kl_diags_add(model->store->diags, KL_NOTE, "grade-twice-here", model->grades[i].origin,
                         "The first one is here.");
            return;
        }
    }
}

kl_status kl_model_add_grade(kl_model *model, const kl_grade *grade, kl_index *added)
{
    build_item item = build_start(model, ENTITY_GRADE, NULL, grade->origin);
    kl_grade copy = *grade;
    const bool known = build_reference(&item, "member", grade->member, model->member_count, false);
    (void)build_reference(&item, "target", grade->target, model->stage_count, false);
    if (grade->point_count < 1) {
        build_error(&item, "no-points", item.origin, "The grade has no point in it.");
        build_hint(&item, "write `point`, an elevation, `at` and a station");
    }
    build_limit(&item, "points", grade->point_count, GRADE_MOST_POINTS);
    if (known) {
        check_first_of_member(&item, grade->member);
    }
    if (item.bad) {
        return KL_BAD_MODEL;
    }
    kl_grade_point *points = arena_copy(&model->store->memory, grade->points,
                                        (size_t)grade->point_count, sizeof *grade->points);
    if (points == NULL) {
        return KL_NO_MEMORY;
    }
    copy.points = points;
    check_points(&item, grade->member, points, copy.point_count);
    return build_append(&item, &copy, sizeof copy, &model->grade_count, added);
}
