/* section_state.h - the rigidity of every section on its day, or over a step of time.
 *
 * Concrete (or whatever the member is of) with the modulus of its day; ducts of tendons not grouted are holes; a grouted
 * tendon replaces the concrete it displaces and adds E_p A_p cos^3 theta [[1, -y], [-y, y^2]], rebar likewise (rebar.h).
 * `sections gross` leaves all of that out: only while time passes do grouted tendons follow their sections even so, for
 * what creep and shrinkage take from them has nothing to do with net areas.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SECTION_STATE_H
#define KERNLINE_SECTION_STATE_H

#include "rebar.h"
#include "state.h"

/* The elements of a prismatic member have one page together, but for those with tendons: they have a page each. */
typedef struct section_book {
    const frame_mesh *mesh;
    const tendon_trace *traces;
    kl_index *page;    /* of each element */
    kl_index *element; /* of each page: the first it is of */
    kl_index page_count;
    section_rigidity (*rigidity)[QUADRATURE_POINTS];       /* of each page */
    section_flexibility (*flexibility)[QUADRATURE_POINTS]; /* its inverse */
    section_rigidity (*concrete)[QUADRATURE_POINTS];       /* without the steel */
    rebar_sums (*rebar)[QUADRATURE_POINTS];                /* NULL: none anywhere */
    double *modulus, *shear_modulus;                       /* of each member, Pa */
    bool passing;                                          /* time passes */
} section_book;

kl_status section_book_create(const frame_mesh *mesh,
                              const tendon_trace *traces,
                              arena *a,
                              section_book *book);

/* Set the moduli of all members that stand to those of their day. `ageless`: there are no days; 28-day values. */
void section_book_age(section_book *book, const stage_state *state, bool ageless);

/* Set all rigidities and flexibilities for the elements that stand from the moduli. Matrices of elements use the
 * flexibilities: form them anew. */
void section_book_update(section_book *book, const stage_state *state);

/* Age of a member on the day of a state as materials see it, s: never below one day, 28 days without days. */
double section_age(const stage_state *state, kl_index member, bool ageless);

/* Does a tendon take its share of what strains its sections? */
bool section_holds_tendon(const section_book *book, const stage_state *state, kl_index tendon);

/* Add a free strain of the concrete alone at a point: the steel in the section restrains it, f D_concrete of it is the
 * section's. `matrix` holds the element's flexibilities of the present rigidity; `loads` are open for free strains (loads_open_fibre). */
void section_add_free_strain(const section_book *book,
                             const element_matrix *matrix,
                             kl_index element,
                             int point,
                             section_strain strain,
                             frame_loads *loads);

#endif
