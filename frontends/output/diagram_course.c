/* diagram_course.c - one quantity along one member, a course a moment: moment, shear, axial force, deflection, camber.
 *
 * Moments are drawn on the side that is stretched: sagging ones downward.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <ctype.h>
#include <stdio.h>

#include "course_family.h"
#include "mem.h"

#define COURSE_WIDTH  900.0
#define COURSE_HEIGHT 380.0

typedef struct course_subject {
    kl_quantity quantity;
    const char *name;
    bool downward;
} course_subject;

static void course_fill(drawing *d,
                        kl_results *results,
                        const selection *s,
                        const course_subject *subject,
                        kl_index member)
{
    arena a = {0};
    course_family *family = mem_array(1, sizeof *family);
    if (!family) {
        d->status = KL_NO_MEMORY;
        return;
    }
    if (diagram_accepts(d,
                        course_family_gather(&a, results, s, subject->quantity, member, family)) &&
        family->count > 0) {
        const label_box region = {0.0, 18.0, COURSE_WIDTH, COURSE_HEIGHT - 18.0};
        const plot p =
            course_family_axes(d, results, family, region, subject->name, subject->downward);
        course_family_draw(&p, family, true);
        d->blank = course_family_is_zero(family);
    }
    arena_free(&a);
    mem_free(family);
}

static void
course_build(drawing *d, kl_results *results, const selection *s, const course_subject *subject)
{
    const kl_model *model = kl_results_model(results);
    const kl_index member = diagram_member(results, s);
    char title[LABEL_SIZE + 40];
    snprintf(title, sizeof title, "%s along %s", subject->name,
             member == KL_NONE ? "no member" : model->members[member].name);
    title[0] = (char)toupper((unsigned char)title[0]);
    drawing_start(d, COURSE_WIDTH, COURSE_HEIGHT, title, "");
    drawing_text(d, "strong", 8.0, 16.0, ANCHOR_START, title);
    if (member != KL_NONE) {
        course_fill(d, results, s, subject, member);
    }
}

void diagram_moment(drawing *d, kl_results *results, const selection *s)
{
    course_build(d, results, s, &(course_subject){KL_MOMENT, "moment", true});
}

void diagram_shear(drawing *d, kl_results *results, const selection *s)
{
    course_build(d, results, s, &(course_subject){KL_SHEAR, "shear", false});
}

void diagram_axial(drawing *d, kl_results *results, const selection *s)
{
    course_build(d, results, s, &(course_subject){KL_AXIAL, "axial force", false});
}

void diagram_deflection(drawing *d, kl_results *results, const selection *s)
{
    course_build(d, results, s, &(course_subject){KL_DEFLECTION, "deflection", false});
}

void diagram_camber(drawing *d, kl_results *results, const selection *s)
{
    course_build(d, results, s, &(course_subject){KL_CAMBER, "camber", false});
}
