/* diagrams.h - every picture the program can draw: its name, what it shows, and who draws it.
 *
 * A builder gets a drawing that has not been started; it starts it (size, title) and draws. The selection says which moments,
 * which member. Pictures hold what tables hold: the same signs, units and labels.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_DIAGRAMS_H
#define KERNLINE_DIAGRAMS_H

#include "drawing.h"
#include "label.h"
#include "selection.h"

typedef void diagram_builder(drawing *d, kl_results *results, const selection *s);

/* What a picture needs to be told. */
typedef enum diagram_subject {
    DIAGRAM_OF_MODEL,   /* the whole frame */
    DIAGRAM_OF_MEMBER,  /* one member; without --member the longest */
    DIAGRAM_OF_PLACE,   /* a station of a member, which --at chooses */
    DIAGRAM_OF_TENDON,  /* tendons of a member, or --tendon */
    DIAGRAM_OF_SECTIONS /* all sections, or those at a station, which --at chooses */
} diagram_subject;

typedef struct diagram_recipe {
    const char *name; /* "moment" */
    const char *help; /* one line */
    diagram_subject subject;
    selection_span span;
    bool has_causes;
    diagram_builder *build;
} diagram_recipe;

const diagram_recipe *diagram_recipes(kl_index *count);
const diagram_recipe *diagram_recipe_find(const char *name); /* NULL: there is none */

/* Draw. @return the finished SVG element, the drawing's own, or NULL (see its status). The caller frees the drawing.
 * KL_NOT_THERE: the model has nothing of the kind, d->absent says what. */
const char *
diagram_build(drawing *d, const diagram_recipe *recipe, kl_results *results, const selection *s);

/* Builders: diagram_<kind>.c */
diagram_builder diagram_stresses; /* diagram_stresses.c */
diagram_builder diagram_frame;    /* diagram_frame.c */
diagram_builder diagram_frame_moment, diagram_frame_shear,
    diagram_frame_axial;                                      /* diagram_frame_actions.c */
diagram_builder diagram_history;                              /* diagram_history.c */
diagram_builder diagram_envelope;                             /* diagram_envelope.c */
diagram_builder diagram_stages;                               /* diagram_stages.c */
diagram_builder diagram_posts;                                /* diagram_posts.c */
diagram_builder diagram_loads;                                /* diagram_loads.c */
diagram_builder diagram_deflected;                            /* diagram_deflected.c */
diagram_builder diagram_moment, diagram_shear, diagram_axial; /* diagram_course.c */
diagram_builder diagram_deflection, diagram_camber;           /* diagram_course.c */
diagram_builder diagram_grades;                               /* diagram_grades.c */
/* of sections, tendons and materials */
diagram_builder diagram_sections;                                   /* diagram_sections.c */
diagram_builder diagram_section_stress;                             /* diagram_section_stress.c */
diagram_builder diagram_tendons;                                    /* diagram_tendons.c */
diagram_builder diagram_tendon_force;                               /* diagram_tendon_force.c */
diagram_builder diagram_strength, diagram_creep, diagram_shrinkage; /* diagram_ageing.c */

/* ---- what builders share ------------------------------------------------------------------------------ */

#define DIAGRAM_TITLE (LABEL_SIZE + 60)

/* The member asked for, else the longest; KL_NONE: there is none. */
kl_index diagram_member(const kl_results *results, const selection *s);
/* The one state of a picture that shows one: the last step among those selected, else the last of them; NULL: the model has neither
 * stages nor load cases. */
const kl_state *diagram_state(const selection *s);
/* "Deflected shape after long_term, mm": what, the state when there is one, the unit. */
void diagram_title(char title[DIAGRAM_TITLE],
                   const kl_results *results,
                   const char *what,
                   const kl_state *state,
                   kl_measure measure);
/* There is nothing to draw; `why` is static: "no tendon runs in the member". */
void diagram_absent(drawing *d, const char *why);
/* Keep a failure in the drawing's status; KL_NOT_THERE is none. @return status == KL_OK */
bool diagram_accepts(drawing *d, kl_status status);
/* The number that drawing_open_step wants for what is of this state. */
int diagram_step(kl_state state);
/* Class of course i of a family, c0 … c7 and again. */
const char *diagram_class(kl_index i);

#endif
