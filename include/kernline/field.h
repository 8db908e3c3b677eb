/* field.h - what the field works from: to what elevations a form is set so that its member ends at its grade.
 *
 * A point of the form moves down before the concrete is hard (the joints of the falsework close, posts shorten, what they
 * stand on bends, stringers sag) and with the member afterwards; it is set higher by all of it. Grades are vertical, those of a
 * point that stays the same on the member: at a station of a sloping member the sway along the road is not in them.
 * Units: m. Signs: elevations up; every part is + where it raises the form.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_FIELD_H
#define KERNLINE_FIELD_H

#include "kernline/results.h"

typedef struct kl_form_grade {
    double design;  /* elevation wanted at the end of the target stage */
    double camber;  /* minus the member's movement from its set to that stage */
    double takeup;  /* of the falsework */
    double posts;   /* shortening of the row under its wet weight */
    double carrier; /* what its feet stand on, or the node that carries, goes down under the pour */
    double stringer; /* sag of the stringer between rows under the wet weight */
    double raise;    /* their sum */
    double form;     /* elevation that the form is set to: design + raise */
    bool
        is_formed; /* the member was poured on falsework; else it has camber alone and the other parts are 0 */
} kl_form_grade;

/* The grade that is wanted at a station: linear between points, the end pieces going on beyond them; one point: level. */
double kl_grade_design(const kl_grade *grade, double station);

/* The form's grade at a station of the grade's member.
 *
 * Take-up, the posts' shortening and the carrier's movement are known where the form was carried when the concrete was wet (at rows
 * of posts, and at nodes that stood already, which have the last alone) and straight between, beyond the last two as between them. The
 * stringer's sag is that of a simple beam from carrier to carrier under the member's weight as it varies, integrated exactly;
 * beyond the last carrier it is the overhang of the last beam.
 *
 * @param grade index into the model's grades.
 * @return KL_OK; KL_NOT_THERE: the member does not stand at the end of the target stage. */
kl_status
kl_form_grade_at(const kl_results *results, kl_index grade, double station, kl_form_grade *out);

/* Is there a stringer under the grade's member, so that a column for it makes sense? */
bool kl_grade_has_stringer(const kl_model *model, const kl_grade *grade);

#endif
