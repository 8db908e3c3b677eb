/* creep_memory.h - what the concrete remembers of its stresses, and how it creeps under them.
 *
 * At each quadrature point the stress of the concrete is a plane: E times the strain e, curvature k and shear g that the
 * concrete sees beyond its free strain. It is kept as such, and not as section forces, for a plane of stress stays what
 * it is when ducts are grouted and the section changes; shear creeps by the same phi, as G = E / 2.4 has it. (What a
 * temperature by depth locks into the fibres is no plane and does not creep.) The strain of the plane is its compliance
 * times the plane, and as an initial strain of the concrete alone it is restrained by the steel (section_state.h).
 *
 * The memory is kept by *source*, the kind of cause that brought the stress, so that creep can be told by what creeps:
 * each source has a creep column of its own, whose stresses in turn belong to that source. All is linear, so the sum is
 * the same however it is split.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CREEP_MEMORY_H
#define KERNLINE_CREEP_MEMORY_H

#include "ageing.h"

/* Of each element at most: e, k and g at its points. The components of a member's row (kelvin.h) are e at all its points, then
 * k, then g where it gives way in shear. */
#define MEMORY_COMPONENTS (3 * QUADRATURE_POINTS)

/* Starts with the last day alone, and with no memory at all when the model does not creep. */
typedef struct creep_memory {
    double *remaining
        [KL_CAUSE_COUNT]; /* of each source: for each member KELVIN_UNITS rows; NULL: nothing yet */
    int *kinds;           /* of each member: 3, or 2 where shear is rigid and g always 0 */
    double *plane;        /* workspace: MEMORY_COMPONENTS an element; both NULL: nothing yet */
    double last_day;      /* s: what happens then or later has no time to creep */
} creep_memory;

/* What a column of the increment at hand brought. */
typedef struct memory_stress {
    kl_cause_kind source;
    const double *field;       /* rows of recover.h */
    const fibre_strain *fibre; /* free strains of the concrete, each element; NULL: none */
} memory_stress;

/* Where the stresses of a column belong to. */
kl_cause_kind memory_source(kl_cause_kind kind, kl_index load_case);

/* Take the stresses of an increment in: put on at once at a time, or evenly over the step of time the book is set to,
 * at whose end the memory then is. */
kl_status memory_take(creep_memory *memory,
                      ageing *g,
                      const section_book *book,
                      double time,
                      const memory_stress *stresses,
                      kl_index count,
                      arena *a);

/* Free strains by which the concrete creeps in the step under way from what one source left. @return false: none. */
bool memory_has(const creep_memory *memory, kl_cause_kind source);
void memory_creep(const creep_memory *memory,
                  const ageing *g,
                  const section_book *book,
                  const element_matrix *matrix,
                  kl_cause_kind source,
                  frame_loads *loads);

#endif
