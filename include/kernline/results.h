/* results.h - asking the results: forces, stresses and movements at any place, step and cause.
 *
 * A *state* is the structure at one moment: after a step of a stage, under a load case, or under a
 * combination. Every value is a sum over causes; a question may ask for one of them.
 *
 * Signs as in model.h: moment + stretches the bottom (sagging), axial force and stress + in tension,
 * shear V = dM/dx, deflection + up, sway + right, rotation + anticlockwise, a reaction is the support's force
 * on the structure, a post's force is + in compression. Moment and axial force are about the gross centroid.
 * Units: m, N, Pa, rad, s.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_RESULTS_H
#define KERNLINE_RESULTS_H

#include "kernline/analysis.h"

/* ---- when -------------------------------------------------------------------------------------------- */

typedef enum kl_state_kind {
    KL_STATE_STEP,
    KL_STATE_CASE,
    KL_STATE_COMBINATION,
    KL_STATE_MOMENT /* between two stages, asked for by the settings */
} kl_state_kind;

typedef struct kl_state {
    kl_state_kind kind;
    kl_index index; /* step, case, combination or moment */
    kl_cause cause; /* KL_CAUSE_ALL: everything */
} kl_state;

kl_state kl_state_step(kl_index step);
kl_state kl_state_case(kl_index load_case);
kl_state kl_state_combination(kl_index combination);
kl_state kl_state_moment(kl_index moment);
kl_state kl_state_of_cause(kl_state state, kl_cause cause);

/* One increment of the construction: an operation of a stage, or one tendon of a `stress` list. */
typedef struct kl_step {
    kl_index stage;
    kl_index
        operation; /* within the stage; KL_NONE: none yet. A stage without operations only looks; one that has some
                    * begins with the state just before, where creep, shrinkage or relaxation led to it */
    kl_index item; /* the tendon of a stress list (index into model->tendons), else KL_NONE */
    const char *
        label; /* "stress T1", "release bents": the operation in the words of the language; "until day 75" */
    double time;              /* s */
    kl_index contact_changes; /* sets of contacts tried beyond the first */
} kl_step;

/* Steps of the whole construction, in order; 0 for a model without stages. */
kl_index kl_step_count(const kl_results *results);
const kl_step *kl_step_at(const kl_results *results, kl_index step);
/* The last step of a stage (every stage has one). */
kl_index kl_last_step(const kl_results *results, kl_index stage);
kl_index kl_first_step(const kl_results *results, kl_index stage);

/* Moments between stages that the settings asked for, in order: the time and the stage that follows. */
kl_index kl_moment_count(const kl_results *results);
const kl_step *kl_moment_at(const kl_results *results, kl_index moment);

/* Does a case have a state of its own: cases of a model without stages, and cases that no stage loads. */
bool kl_case_is_solved(const kl_results *results, kl_index load_case);

/* The causes present in a state, for tables; they add up to the whole, since what a case brought, its temperatures and
 * movements too, stands under the case. *count is in/out: capacity in, number out (never more than asked). */
void kl_state_causes(const kl_results *results, kl_state state, kl_cause *causes, kl_index *count);

/* ---- along members ------------------------------------------------------------------------------------ */

/* Does the member stand in that state? (A wet member does not.) */
bool kl_member_stands(const kl_results *results, kl_state state, kl_index member);

/* One value on a member. Quantities: moment, shear, axial (with a part), deflection, sway, rotation, camber,
 * stress top, stress bottom. Rigid ends give the statics of the face. @return KL_NOT_THERE when the member
 * does not stand or the quantity does not apply (a stress on a bare section without to_top). */
kl_status kl_value_on_member(const kl_results *results,
                             kl_state state,
                             kl_quantity quantity,
                             kl_part part,
                             kl_index member,
                             double station,
                             kl_side side,
                             double *value);

typedef struct kl_peak {
    double value;
    double station;
    kl_side side;
} kl_peak;

/* The largest or smallest value along [from, to] of a member, found from the exact course, not sampled. */
kl_status kl_peak_on_member(const kl_results *results,
                            kl_state state,
                            kl_quantity quantity,
                            kl_part part,
                            kl_index member,
                            double from,
                            double to,
                            kl_extreme extreme,
                            kl_peak *peak);
/* Both in one search. */
kl_status kl_range_on_member(const kl_results *results,
                             kl_state state,
                             kl_quantity quantity,
                             kl_part part,
                             kl_index member,
                             double from,
                             double to,
                             kl_peak *smallest,
                             kl_peak *largest);

/* Stations for tables: ends, nodes, posts, load ends, section steps, jumps (twice: left, then right), and a
 * division every `every` metres (NAN: twentieths). Rising.
 * @param stations borrowed until the results are destroyed. */
typedef struct kl_station_row {
    double station;
    kl_side side;  /* KL_LEFT rows come in pairs with a KL_RIGHT row at a jump */
    kl_index node; /* model node here, or KL_NONE */
    bool is_face;  /* the face of a rigid end or of a column crossing here */
} kl_station_row;
kl_status kl_station_rows(kl_results *results,
                          kl_index member,
                          double every,
                          const kl_station_row **rows,
                          kl_index *count);

/* Gross section values at a station, as the analysis used them. */
typedef struct kl_section_values {
    double area, inertia;     /* m^2, m^4 about the centroid */
    double to_top, to_bottom; /* m from the centroid, both positive */
    double centroid;          /* m, above the member's line */
    double shear_area;        /* m^2, NAN when there is none */
    double perimeter_exposed; /* m, NAN for bare sections */
    double width; /* m at the centroid's level or overall: for weights of posts and drawings; NAN */
    double
        volume_to_surface; /* m, as given, else area over what of the perimeter dries; NAN for bare sections */
} kl_section_values;
kl_status kl_section_at_station(const kl_results *results,
                                kl_index member,
                                double station,
                                kl_side side,
                                kl_section_values *values);
/* The section that carries increments at that state: net of ducts before grouting, transformed afterwards and with its
 * rebar, with E of its day; A and I are those of concrete with steel times its modular ratio. */
kl_status kl_section_of_state(const kl_results *results,
                              kl_state state,
                              kl_index member,
                              double station,
                              kl_side side,
                              kl_section_values *values);
/* The outline at a station, m, y above the member's line; round ones as polygons of KL_ROUND_SIDES corners on the circle.
 * @param outline borrowed until the results are destroyed. @return KL_NOT_THERE for bare sections, which have none. */
#define KL_ROUND_SIDES 96
kl_status kl_section_outline_at(kl_results *results,
                                kl_index member,
                                double station,
                                kl_side side,
                                const kl_section_outline **outline);
/* E and strength of a member's concrete on the day of a state, Pa; age in s. NAN where there is none. */
void kl_concrete_of_state(const kl_results *results,
                          kl_state state,
                          kl_index member,
                          double *modulus,
                          double *strength,
                          double *age);

/* What the laws give for a member's concrete, with the site's humidity and the member's own volume to surface, times the factors of
 * the settings. Ages in s. Creep: the coefficient phi(age, loading) and the compliance J(age, loading), strain of a unit stress
 * put on at the age `loading`, 1/Pa. Shrinkage: strain since casting, shortening negative.
 * @return KL_NOT_THERE when the material has no such law. */
kl_status kl_creep_of_member(const kl_results *results,
                             kl_index member,
                             double loading,
                             double age,
                             double *coefficient,
                             double *compliance);
kl_status
kl_shrinkage_of_member(const kl_results *results, kl_index member, double age, double *strain);

/* ---- nodes, supports, posts --------------------------------------------------------------------------- */

/* Movement of a node since it first stood. Quantities: deflection, sway, rotation. */
kl_status kl_node_movement(
    const kl_results *results, kl_state state, kl_quantity quantity, kl_index node, double *value);
/* The support's force on the structure at a node, all its supports together. KL_NOT_THERE: no support. */
kl_status kl_reaction(const kl_results *results,
                      kl_state state,
                      kl_index node,
                      kl_direction direction,
                      double *value);

/* The force that the base of a bearing puts on its node, along x or y or as a moment. @return KL_OK or KL_NOT_THERE. */
kl_status kl_bearing_force(const kl_results *results,
                           kl_state state,
                           kl_index bearing,
                           kl_direction direction,
                           double *value);
/* How a support of the model holds in that state: hold[x, y, turn] as in kl_support, free in all directions while it is still to be
 * added by a stage, and in those in which a stage has let it go since. Of a combination: after the last step. Whether one that
 * only pushes bears is not looked at. @return KL_NOT_THERE: the state does not exist. */
kl_status
kl_support_holds(const kl_results *results, kl_state state, kl_index support, kl_hold hold[3]);

typedef struct kl_post_row {
    double force; /* N in the whole row, compression + (0 when open) */
    double gap;   /* m by which it has lifted; 0 when bearing */
    bool stands;  /* erected and not yet released */
    bool bears;
    bool waits; /* erected, with nothing on it yet: neither bears nor has lifted */
} kl_post_row;
kl_status kl_row_state(
    const kl_results *results, kl_state state, kl_index falsework, kl_index row, kl_post_row *out);

/* ---- tendons ------------------------------------------------------------------------------------------ */

typedef enum kl_tendon_phase {
    KL_TENDON_ABSENT,
    KL_TENDON_STRESSED,
    KL_TENDON_GROUTED,
    KL_TENDON_SLACK
} kl_tendon_phase;
kl_tendon_phase kl_tendon_state(const kl_results *results, kl_state state, kl_index tendon);

/* Force in ONE tendon of the group at a station along its members, N. */
kl_status kl_tendon_force(const kl_results *results,
                          kl_state state,
                          kl_index tendon,
                          double station,
                          kl_side side,
                          double *force);

/* The smallest and the largest of it all along, of a tendon that carries. */
kl_status kl_tendon_force_range(const kl_results *results,
                                kl_state state,
                                kl_index tendon,
                                kl_peak *smallest,
                                kl_peak *largest);

/* What the stressing of one tendon did (its last full `stress`, or its first where there is one only). */
typedef struct kl_stressing {
    kl_index step;       /* KL_NONE: model without stages */
    kl_index load_case;  /* the first that stresses it, in such a model; KL_NONE */
    double share;        /* of the jacking force that it was pulled to */
    bool was_seated;     /* it carried force from a pull before: elongations count from that */
    double jack_force;   /* N in one tendon */
    double jack_stress;  /* Pa */
    double force_at[2];  /* N at start, end after seating, when both ends are done */
    double seated_at[2]; /* N at start, end when that end had just seated; NAN: it is not jacked */
    double elongation
        [2];        /* m at start, end: what the tendon moves at that jack before seating, the part
                             in the grip included; 0 if not jacked */
    double grip[2]; /* m of elongation: part of the tendon beyond the anchor, at full force */
    double before_reference
        [2]; /* m of elongation that had happened at the first reading; 0 without `reference` */
    double dead_end
        [2]; /* m beside elongation: draw-in of the far anchor while that end is pulled; 0 where that anchor
                           is pulled itself or has drawn in before */
    double seating_length
        [2]; /* m of tendon that the set runs into from start, end; NAN: that end is not seated */
    double still_station[2]; /* station of zero movement, NAN */
    bool seating_reaches_far_end;
    double concrete_shortening; /* m along the tendon at its own stressing, shortening + */
    double largest_force;       /* N after seating, and where */
    double largest_station;
    double smallest_force, smallest_station;
} kl_stressing;
kl_status kl_tendon_stressing(const kl_results *results, kl_index tendon, kl_stressing *out);

/* Every stressing in the order of the site, partial ones and repetitions too; without stages one of each tendon that a
 * case stresses. */
kl_index kl_pull_count(const kl_results *results);
/* @return KL_NOT_THERE beyond the last. */
kl_status kl_pull_at(const kl_results *results, kl_index i, kl_index *tendon, kl_stressing *out);

/* Force in one tendon along it in pull i, N: while the jack that pulls last still holds, or once all is seated. The station
 * must lie between the anchors. @return KL_NOT_THERE beyond the last pull. */
kl_status kl_pull_force(const kl_results *results,
                        kl_index i,
                        double station,
                        kl_side side,
                        bool seated,
                        double *force);

/* How far the tendon has moved at an end (0: start) when the jack there has come to a share, 0 to 1, of the force of pull
 * i, the part in the grip included, m; 0 at an end that is not pulled.
 * @return KL_NOT_THERE beyond the last pull, KL_NO_MEMORY. */
kl_status
kl_pull_movement(const kl_results *results, kl_index i, int end, double share, double *movement);

/* What took a tendon from the stress at the jack to what it has left: stress lost by each cause since its last
 * stressing, + a loss, - a gain. */
typedef enum kl_loss {
    KL_LOSS_FRICTION, /* between jack and place; below 0 where an earlier pull left more than this jack gives */
    KL_LOSS_SEATING, /* of its anchors, each as it was seated */
    KL_LOSS_SHORTENING, /* elastic: within its own group, and by stressing and slackening of others later */
    KL_LOSS_LOADS,    /* what was loaded, released, cast, freed … later: mostly gains */
    KL_LOSS_MOVEMENT, /* of supports */
    KL_LOSS_TEMPERATURE,
    KL_LOSS_LUMP, /* `lose` */
    KL_LOSS_CREEP,
    KL_LOSS_SHRINKAGE,
    KL_LOSS_RELAXATION,
    KL_LOSS_COUNT
} kl_loss;

typedef struct kl_tendon_losses {
    kl_index step; /* of the stressing they count from; KL_NONE: model without stages */
    double jack;   /* Pa, at the jack in that stressing */
    double lost[KL_LOSS_COUNT]; /* Pa */
    double left;                /* Pa: jack less the sum of lost; kl_tendon_force / area */
} kl_tendon_losses;
/* At a station of the tendon. The state's cause is not looked at. @return KL_NOT_THERE: the tendon carries nothing then,
 * or the state is a combination, or a case beside the stages. */
kl_status kl_losses_at_station(const kl_results *results,
                               kl_state state,
                               kl_index tendon,
                               double station,
                               kl_side side,
                               kl_tendon_losses *out);
/* Their mean along the tendon's length. */
kl_status kl_losses_on_average(const kl_results *results,
                               kl_state state,
                               kl_index tendon,
                               kl_tendon_losses *out);

/* What a code's one-line formula gives for the long-term loss at a place of a bonded tendon: to stand beside the computed
 * one. The concrete's creep and shrinkage and the steel's relaxation are those of the model's own laws, from the end of
 * the stage of the last stressing until the state. */
typedef enum kl_loss_code {
    KL_LOSS_AASHTO_2020, /* 5.9.3.4 for post-tensioned members, from memory */
    KL_LOSS_EN1992_2004, /* (5.46), from memory */
    KL_LOSS_CODE_COUNT
} kl_loss_code;

typedef struct kl_loss_estimate {
    double creep, shrinkage,
        relaxation; /* Pa, + a loss; NAN: relaxation of a steel without law or yield */
    /* what the formula was given */
    double duration;        /* s */
    double area, inertia;   /* m^2, m^4 of the gross section */
    double steel_area;      /* m^2 of all tendons that carry there */
    double eccentricity;    /* m of that steel above the gross centroid */
    double concrete_stress; /* Pa at that steel, compression + */
    double
        later_creep; /* aashto: strain by loads after the stressing, each at its own age, shortening + */
    double concrete_modulus;  /* Pa: E_ci on the day of the stressing, or E_cm */
    double creep_coefficient; /* of a load on the day of the stressing */
    double shrinkage_strain;  /* shortening + */
    double stress;            /* Pa in the tendon after the stage of its stressing */
    double factor;            /* K of the formula: what the steel takes of a free strain */
} kl_loss_estimate;
/* @return KL_NOT_THERE: as kl_losses_at_station; the tendon is unbonded; there are no days or none has passed since the
 * stressing; the section does not say where its faces are. */
kl_status kl_estimate_losses(const kl_results *results,
                             kl_state state,
                             kl_index tendon,
                             double station,
                             kl_side side,
                             kl_loss_code code,
                             kl_loss_estimate *out);

/* Points along a tendon for tables and pictures. */
typedef struct kl_tendon_point {
    double station; /* along its members */
    kl_index member;
    double member_station;
    double height; /* m of the tendon's centroid above the member's line */
    double duct_height;
    double above_bottom, below_top;       /* m of the duct's centre; NAN for bare sections */
    double eccentricity;                  /* m above the gross centroid */
    double slope;                         /* rad */
    double angle;                         /* rad accumulated from the start, plan bends included */
    double length;                        /* m along the tendon from the start */
    double before_seating, after_seating; /* N in one tendon */
} kl_tendon_point;
kl_status kl_tendon_points(kl_results *results,
                           kl_index tendon,
                           double every,
                           const kl_tendon_point **points,
                           kl_index *count);

/* One such point. @return KL_NOT_THERE beyond the anchors. */
kl_status kl_tendon_point_at(
    kl_results *results, kl_index tendon, double station, kl_side side, kl_tendon_point *point);

/* The tendon's action as loads on the concrete (the group, present force of the state). */
typedef struct kl_tendon_load {
    kl_index member;
    double from, to;  /* member stations; equal: concentrated */
    double across;    /* N, or N/m mean over the piece: + to the member's left hand (up) */
    double along;     /* N, or N/m: + toward the member's end */
    double moment;    /* N·m about the member's line, anticlockwise +; concentrated rows */
    const char *what; /* "anchor", "curvature", "corner", "friction" … */
} kl_tendon_load;
kl_status kl_tendon_loads(kl_results *results,
                          kl_state state,
                          kl_index tendon,
                          const kl_tendon_load **loads,
                          kl_index *count);

/* ---- the audit ---------------------------------------------------------------------------------------- */

/* Found from the model and the printed results, sharing no code with the assembly. Ratios are relative to
 * the largest force (force × size of the model) at hand now and in the steps before, tendons included. A cause of its
 * own balances too. With tendons_as_loads node and member errors are NAN (not looked at). */
typedef struct kl_audit {
    double load[3];     /* N, N, N·m about the origin: everything applied so far */
    double reaction[3]; /* supports and feet on ground */
    double force_error; /* |ΣF| relative */
    double moment_error;
    double node_error;   /* worst node balance, relative */
    double member_error; /* worst member-end balance, relative */
    double residual;     /* of the solve, |Ax-b| / (|A||x|+|b|) */
    double weight;       /* N, of all members standing or wet */
    bool passed;         /* all within 1e-9 */
} kl_audit;
kl_status kl_audit_of_state(const kl_results *results, kl_state state, kl_audit *audit);

/* The model the results are of; with the factors of the settings in it. */
const kl_model *kl_results_model(const kl_results *results);

#endif
