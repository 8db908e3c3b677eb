/* section_state.c - see section_state.h.
 * SPDX-License-Identifier: MIT */
#include "section_state.h"

#include <math.h>

#include "material.h"
#include "near.h"

#define YOUNGEST                                                                                   \
    KL_DAY /* concrete younger than a day is taken at one day: laws of E(t) have no say before */
#define AGELESS (28.0 * KL_DAY)
#define PI      3.14159265358979323846

kl_status section_book_create(const frame_mesh *mesh,
                              const tendon_trace *traces,
                              arena *a,
                              section_book *book)
{
    book->mesh = mesh;
    book->traces = traces;
    book->rigidity = arena_array(a, (size_t)mesh->element_count, sizeof *book->rigidity);
    book->modulus = arena_array(a, (size_t)mesh->model->member_count, sizeof(double));
    return book->rigidity && book->modulus ? KL_OK : KL_NO_MEMORY;
}

double section_age(const stage_state *state, kl_index member, bool ageless)
{
    return ageless ? AGELESS : fmax(state->time - state->members[member].birth, YOUNGEST);
}

/* Add an area of modulus E at height y. */
static void add_area(section_rigidity *d, double ea, double y)
{
    d->ea += ea;
    d->es += ea * y;
    d->ei += ea * y * y;
}

static void gross_rigidity(const mesh_section *s,
                           double modulus,
                           double shear_modulus,
                           bool axial_only,
                           section_rigidity *d)
{
    const double ea = modulus * s->area;
    d->ea = ea;
    d->es = axial_only ? 0.0 : ea * s->centroid;
    d->ei = axial_only ? 0.0 : modulus * s->inertia + ea * s->centroid * s->centroid;
    d->shear = shear_modulus * s->shear_area;
}

static void add_tendon(const kl_tendon *tendon,
                       const tendon_trace *trace,
                       const trace_point *at,
                       bool grouted,
                       double modulus,
                       section_rigidity *d)
{
    if (!grouted) {
        const double hole = 0.25 * PI * tendon->duct * tendon->duct * tendon->count;
        add_area(d, -modulus * hole, at->duct);
        return;
    }
    const double cube = at->cosine * at->cosine * at->cosine;
    add_area(d, -modulus * trace->area, at->height);
    add_area(d, trace->modulus * trace->area * cube, at->height);
}

void section_book_update(section_book *book, const stage_state *state, bool ageless)
{
    const frame_mesh *mesh = book->mesh;
    const kl_model *model = mesh->model;
    for (kl_index m = 0; m < model->member_count; m++) {
        if (!state->members[m].stands) {
            continue;
        }
        const kl_member *member = &model->members[m];
        const kl_material *material = &model->materials[member->material];
        const double age = section_age(state, m, ageless);
        const double shear = material_shear_modulus(material, age);
        const mesh_member *of = &mesh->members[m];
        book->modulus[m] = material_modulus(material, age);
        for (kl_index e = of->first; e < of->first + of->count; e++) {
            for (int p = 0; p < QUADRATURE_POINTS; p++) {
                const mesh_section *s = &mesh->sections[mesh->elements[e].section + p];
                const bool rigid = isinf(s->shear_area) || member->axial_only;
                gross_rigidity(s, book->modulus[m], rigid ? 1.0 : shear, member->axial_only,
                               &book->rigidity[e][p]);
                if (rigid) {
                    book->rigidity[e][p].shear = HUGE_VAL;
                }
            }
        }
    }
    for (kl_index t = 0; t < model->tendon_count && !model->sections_gross; t++) {
        const tendon_trace *trace = &book->traces[t];
        const bool grouted = state->tendons[t].phase == KL_TENDON_GROUTED;
        for (kl_index i = 0; i < trace->count; i++) {
            const kl_index e = trace->elements[i].element;
            const double modulus = book->modulus[mesh->elements[e].member];
            for (int p = 0; p < QUADRATURE_POINTS && state->element_on[e]; p++) {
                add_tendon(&model->tendons[t], trace, &trace->elements[i].at[p], grouted, modulus,
                           &book->rigidity[e][p]);
            }
        }
    }
}
