/* model.h - what the engineer declared: materials, sections, the frame, tendons, falsework, loads, stages.
 *
 * A kl_model is a set of plain arrays that anyone may read and only kl_model_add_… fills. The add functions
 * copy what they are given (names and arrays too) into the model's arena, check what can be checked locally
 * and report to the model's diagnostics; kl_model_check looks at the whole. References are indices into the
 * model's arrays. A number that was not given is NAN; an index that was not given is KL_NONE.
 *
 * Units: m, N, Pa, rad, s, K. Signs: x right, y up, rotation anticlockwise. A station is a distance along the
 * member's line (node to node, rigid ends included) from its start, in m.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MODEL_H
#define KERNLINE_MODEL_H

#include "kernline/diag.h"
#include "kernline/units.h"

#define KL_DAY              86400.0 /* s */
#define KL_STANDARD_GRAVITY 9.80665 /* m/s^2, exact by definition */

/* Borrowed list of indices; the model keeps its own copy. */
typedef struct kl_list {
    const kl_index *items;
    kl_index count;
} kl_list;

/* ---- materials --------------------------------------------------------------------------------------- */

typedef enum kl_material_kind {
    KL_CONCRETE,
    KL_ELASTIC, /* `material`: steel, timber, a textbook's E */
    KL_PRESTRESSING,
    KL_REINFORCING
} kl_material_kind;

/* A published model of a material property. Which are allowed where is the reader's table's business. */
typedef enum kl_law {
    KL_LAW_UNSET, /* not written */
    KL_LAW_NONE,  /* `none`: asked to have no effect */
    KL_LAW_VALUE, /* a number given by the user */
    KL_LAW_USER,  /* creep, shrinkage: a curve given by the user */
    KL_LAW_AASHTO_2020,
    KL_LAW_ACI_2019,
    KL_LAW_ACI209_1992,
    KL_LAW_EN1992_2004,
    KL_LAW_MC1990,
    KL_LAW_MC1999,
    KL_LAW_MC2010
} kl_law;

typedef enum kl_cement { KL_CEMENT_NORMAL, KL_CEMENT_SLOW, KL_CEMENT_RAPID } kl_cement;

/* A point of a curve of the user's own. Creep: time since loading, s, and phi, a share of the strain at loading.
 * Shrinkage: time since the end of curing, s, and the strain, shortening positive. */
typedef struct kl_time_point {
    double time, value;
    kl_origin origin;
} kl_time_point;

/* Times rise from above 0, values from 0 or more do not fall. The curve is smooth
 * and passes through all of them (solver/time/time_curve.h); after the last point it stays. One point at INFINITY is a final value,
 * to which the curve goes as 1 - exp(-t / 100 days). */
typedef struct kl_time_curve {
    const kl_time_point *points;
    kl_index count; /* 0: none given */
    kl_origin origin;
} kl_time_curve;

/* Relaxation of prestressing steel. */
typedef enum kl_relaxation {
    KL_RELAXATION_UNSET, /* not written */
    KL_RELAXATION_NONE,
    KL_RELAXATION_LOW,    /* strand of low relaxation */
    KL_RELAXATION_NORMAL, /* stress-relieved strand or wire */
    KL_RELAXATION_BAR,
    KL_RELAXATION_VALUE /* `relaxation_loss` */
} kl_relaxation;

typedef struct kl_material {
    kl_material_kind kind;
    const char *name;
    kl_origin origin;
    double strength;          /* Pa, f'c (f_ck) at 28 days, positive */
    double transfer_strength; /* Pa, f'ci, least strength when tendons are stressed */
    double unit_weight;       /* N/m^3 */
    kl_law modulus_law;       /* KL_LAW_VALUE: `modulus` */
    double modulus;           /* Pa */
    double modulus_factor;    /* concrete: times E and G by law or value; 0: 1 */
    double
        shear_modulus; /* Pa; NAN: E/2.4 for concrete, required elsewhere where shear is flexible */
    double expansion;  /* 1/K */
    kl_law creep;      /* UNSET is NONE */
    kl_law shrinkage;  /* likewise */
    kl_time_curve creep_curve; /* with KL_LAW_USER */
    kl_time_curve shrinkage_curve;
    kl_cement cement;
    kl_law gain;              /* strength with age; UNSET: aci209 1992 */
    double cured;             /* s, moist curing, at whose end drying begins; NAN: 7 days */
    double ultimate;          /* Pa, prestressing: f_pu */
    double yield;             /* Pa, prestressing f_py, reinforcing f_y */
    kl_relaxation relaxation; /* UNSET is NONE */
    double relaxation_loss;   /* KL_RELAXATION_VALUE: share of the stress lost at constant length in
                                 1000 hours under 0.70 of the ultimate */
} kl_material;

/* ---- sections ---------------------------------------------------------------------------------------- */

typedef enum kl_shape {
    KL_RECTANGLE,
    KL_CIRCLE,
    KL_PIPE,
    KL_TEE,
    KL_BOX,
    KL_OUTLINE,
    KL_BARE /* area, inertia, … given as numbers */
} kl_shape;

typedef enum kl_line { KL_LINE_CENTROID, KL_LINE_TOP, KL_LINE_BOTTOM } kl_line;

typedef struct kl_point {
    double x, y; /* m; in a section: x across, y up, any origin */
} kl_point;

typedef struct kl_polygon {
    const kl_point *points; /* either sense of rotation; closed by itself */
    kl_index count;
} kl_polygon;

/* A section as it is drawn: loops of corners, x from the middle of its width, y from a level that the function says that gives it. */
typedef struct kl_section_outline {
    kl_polygon outer;        /* anticlockwise */
    const kl_polygon *voids; /* likewise */
    kl_index void_count;
} kl_section_outline;

typedef struct kl_rebar_layer {
    double count;    /* bars */
    double bar_area; /* m^2 each */
    double depth;    /* m, from the section's top */
    kl_index material;
    kl_origin origin;
} kl_rebar_layer;

typedef struct kl_section {
    kl_shape shape;
    const char *name;
    kl_origin origin;
    /* rectangle: width depth; circle: diameter; pipe: diameter thickness; tee: width flange_thickness web_width
     * depth; box: width depth cells top_slab bottom_slab web_width overhang overhang_edge, where width is the
     * deck's whole width, overhang the length of each wing beyond the outer web's outer face and overhang_edge
     * the wing's thickness at its tip (top_slab thick at the web: soffit of the wing slopes; NAN: top_slab) */
    double width, depth, diameter, thickness;
    double flange_thickness, web_width;
    double top_slab, bottom_slab, overhang, overhang_edge;
    kl_index cells;
    kl_polygon outline; /* KL_OUTLINE */
    const kl_polygon *voids;
    kl_index void_count;
    double area, inertia, to_top, to_bottom,
        shear_area; /* KL_BARE; shear_area also overrides the shape's */
    kl_line line;   /* where the member's line runs */
    bool shear_flexible;
    double turned;            /* rad, about a column's own axis; 0 */
    double volume_to_surface; /* m; NAN: from the outline */
    const kl_rebar_layer *rebar;
    kl_index rebar_count;
} kl_section;

/* ---- frame ------------------------------------------------------------------------------------------- */

typedef struct kl_node {
    const char *name;
    kl_origin origin;
    double x, y;
    kl_index member; /* `node C on cap at 22 ft`: the member it lies on, else KL_NONE */
    double station;
} kl_node;

/* The section from `station` on; dimensions vary linearly to the next row; two rows at one station: a step. */
typedef struct kl_section_at {
    kl_index section;
    double station;
    kl_origin origin;
} kl_section_at;

typedef struct kl_member {
    const char *name;
    kl_origin origin;
    kl_index from, to; /* nodes */
    kl_index material; /* concrete or elastic */
    const kl_section_at
        *sections; /* one row: prismatic (station ignored); else sorted by station */
    kl_index section_count;
    bool hinge_start, hinge_end; /* at the face of the rigid part, if there is one */
    const double *hinges;        /* stations inside */
    kl_index hinge_count;
    double rigid_start, rigid_end; /* m, 0 */
    double mesh;                   /* longest element, m; NAN: a twentieth of the member */
    bool axial_only, weightless;
    double age; /* s, age when placed; NAN: none given */
} kl_member;

typedef enum kl_hold_kind {
    KL_FREE,
    KL_FIXED,
    KL_PUSH_PLUS,  /* the support pushes the structure toward + (up, right) and never pulls */
    KL_PUSH_MINUS, /* down, left */
    KL_SPRING
} kl_hold_kind;

typedef struct kl_hold {
    kl_hold_kind kind;
    double stiffness; /* N/m or N·m/rad, KL_SPRING */
} kl_hold;

typedef enum kl_direction { KL_X, KL_Y, KL_TURN } kl_direction;

typedef struct kl_support {
    kl_origin origin;
    kl_index node;
    kl_hold hold[3];  /* x, y, turn; with a slope: along the slope, across it, turn */
    double slope;     /* rad; 0: upright. `roller slope a`: hold = free, fixed, free */
    bool added_later; /* stands only when a stage adds it */
} kl_support;

/* Joins node `node` to node `base`, which stand at one place; what is not held is free. `hold` is seen as the
 * base acting on the node: `y push up` lets the base push the node up. */
typedef struct kl_bearing {
    kl_origin origin;
    kl_index node, base;
    kl_hold hold[3];
} kl_bearing;

/* ---- tendons ----------------------------------------------------------------------------------------- */

typedef enum kl_profile_row_kind {
    KL_ROW_ANCHOR,
    KL_ROW_HIGH,
    KL_ROW_LOW, /* both: tangent along the member's line */
    KL_ROW_INFLECTION,
    KL_ROW_THROUGH /* the slope carries on from the piece before */
} kl_profile_row_kind;

typedef enum kl_profile_datum {
    KL_FROM_LINE,
    KL_FROM_BOTTOM, /* height */
    KL_FROM_TOP     /* depth, measured down */
} kl_profile_datum;

typedef struct kl_profile_row {
    kl_profile_row_kind kind;
    kl_origin origin;
    double station; /* m, along the tendon's members one after the other */
    double
        ordinate; /* m of the duct's centre, height (up) or depth (down) from the datum; NAN: inflection */
    kl_profile_datum datum;
    bool straight; /* a straight piece leads here from the row before */
} kl_profile_row;

typedef struct kl_bend {
    double angle; /* rad in plan, added evenly from … to */
    double from, to;
    kl_origin origin;
} kl_bend;

typedef enum kl_jack_ends {
    KL_JACK_START,
    KL_JACK_END,
    KL_JACK_BOTH,
    KL_JACK_START_THEN_END,
    KL_JACK_END_THEN_START
} kl_jack_ends;

typedef enum kl_bond { KL_BOND_UNSET, KL_GROUTED, KL_UNBONDED } kl_bond;

typedef struct kl_tendon {
    const char *name;
    kl_origin origin;
    const kl_index *members; /* in one line, stations running on; usually one */
    kl_index member_count;
    kl_index material;
    bool is_bar;
    double units;     /* strands or bars in one tendon */
    double unit_area; /* m^2 of one strand or bar */
    kl_index count;   /* like tendons in the group */
    const kl_profile_row *rows;
    kl_index row_count;
    const kl_bend *bends;
    kl_index bend_count;
    double friction; /* mu, 1/rad */
    double wobble;   /* K, 1/m, of exp(-(mu a + K x)); `unintended_angle` k is turned into mu k */
    double seating;  /* m at each anchor that is wedged */
    kl_jack_ends jack_ends;
    double
        jack_force; /* N in ONE tendon at the jack (outside the anchor, whose friction it has still to pass), resolved from ratio/stress/force */
    double ram_area;      /* m^2; NAN */
    double jack_friction; /* ratio, 0 */
    double
        anchorage_friction; /* ratio, 0: lost between the jack and the tendon just inside the anchor */
    double reference;       /* ratio of the jacking force at the first reading; NAN */
    double grip;            /* m of tendon beyond the anchor, 0 */
    double dead_end;        /* m draw-in of the far anchor, 0 */
    double duct;            /* m, outside diameter of the hole; 0: none */
    double offset; /* m, tendon's centroid from the duct's, toward the inside of each curve */
    kl_bond bond;
    /* which optional values were written, for the warnings about defaults that a real tendon has */
    bool has_friction, has_wobble, has_seating;
} kl_tendon;

/* ---- falsework --------------------------------------------------------------------------------------- */

typedef struct kl_falsework {
    const char *name;
    kl_origin origin;
    kl_index member;        /* what it carries */
    const double *stations; /* rows, m along the member, rising */
    kl_index row_count;
    kl_index posts;   /* in each row; stiffness and capacity are per post */
    double stiffness; /* N/m a post */
    double takeup;    /* m, 0 */
    double capacity;  /* N a post; NAN: not rated */
    kl_index carrier; /* member the feet stand on; KL_NONE: ground */
    kl_index stringer_section, stringer_material; /* KL_NONE: no stringer */
} kl_falsework;

/* ---- loads ------------------------------------------------------------------------------------------- */

typedef enum kl_load_kind {
    KL_LOAD_WEIGHT, /* member: that one; KL_NONE: all. Models without stages only */
    KL_LOAD_POINT,  /* value N, at a node or at stations of a member */
    KL_LOAD_DISTRIBUTED, /* value … value_end N/m from … to, linear; per length of the member's line */
    KL_LOAD_MOMENT,      /* value N·m, anticlockwise +, at a node or a station */
    KL_LOAD_SETTLE,      /* value m along (dx, dy) at a node */
    KL_LOAD_TURN,        /* value rad at a node, anticlockwise + */
    KL_LOAD_TEMPERATURE, /* value K, uniform, warmer + */
    KL_LOAD_GRADIENT,    /* value K, top warmer +, linear over the depth, zero at the centroid */
    KL_LOAD_PROFILE,     /* temperature by depth: `points` (depth m, K) */
    KL_LOAD_TENDON       /* `stress T1`: the tendon after seating; models without stages */
} kl_load_kind;

typedef enum kl_load_frame {
    KL_GLOBAL, /* (dx, dy) in global axes */
    KL_LOCAL   /* (dx, dy): along the member, across it to its left hand */
} kl_load_frame;

typedef struct kl_temperature_point {
    double depth, temperature; /* m below the top, K */
} kl_temperature_point;

typedef struct kl_load {
    kl_load_kind kind;
    kl_origin origin;
    kl_index member; /* or KL_NONE */
    kl_index node;   /* or KL_NONE */
    kl_index tendon;
    double value, value_end;
    double dx, dy; /* unit vector of the load */
    kl_load_frame frame;
    bool
        per_level; /* distributed: intensity is per horizontal length, not per length of the line */
    double from, to; /* stations; a point load on a member: at `from`; whole member: 0 and NAN */
    const kl_temperature_point *points;
    kl_index point_count;
} kl_load;

/* A load case: all the loads of one name. */
typedef struct kl_case {
    const char *name;
    kl_origin origin;
    const kl_load *loads;
    kl_index load_count;
} kl_case;

/* ---- stages ------------------------------------------------------------------------------------------ */

typedef enum kl_operation_kind {
    KL_OP_ERECT,   /* items: falsework */
    KL_OP_CAST,    /* items: members, together */
    KL_OP_PLACE,   /* items: members, together */
    KL_OP_STRESS,  /* items: tendons, one after the other; factor: share of the jacking force */
    KL_OP_SLACKEN, /* tendons */
    KL_OP_GROUT,   /* tendons */
    KL_OP_LOSE,    /* tendons; value: Pa */
    KL_OP_RELEASE, /* one falsework; from … to stations (NAN: all) */
    KL_OP_LOAD,    /* cases; factor */
    KL_OP_UNLOAD,  /* cases */
    KL_OP_REMOVE,  /* members */
    KL_OP_SUPPORT, /* items: one support, by index into model->supports (added_later) */
    KL_OP_FREE,    /* items: one node; directions[] freed */
    KL_OP_UNLOCK,  /* items: one member; where: station (0 start, length end) */
    KL_OP_LOCK
} kl_operation_kind;

typedef struct kl_operation {
    kl_operation_kind kind;
    kl_origin origin;
    kl_list items;
    double factor;      /* 1 */
    double value;       /* NAN */
    double from, to;    /* NAN */
    bool directions[3]; /* free: x, y, turn */
    double station;     /* unlock, lock */
} kl_operation;

typedef struct kl_stage {
    const char *name;
    const char *title; /* "" when not given */
    kl_origin origin;
    double time;   /* s since day 0; resolved: a stage without a day has that of the one before */
    bool has_time; /* false: no day was written at all (here and before) */
    const kl_operation *operations;
    kl_index operation_count;
} kl_stage;

/* ---- what is asked of the results -------------------------------------------------------------------- */

/* Why a stress, force or movement is there. A result is the sum over its causes. */
typedef enum kl_cause_kind {
    KL_CAUSE_ALL, /* in questions: everything */
    KL_CAUSE_WEIGHT,
    KL_CAUSE_CASE, /* the loads of one case, but for its temperatures, movements and tendons */
    KL_CAUSE_PRESTRESS,
    KL_CAUSE_CREEP,
    KL_CAUSE_SHRINKAGE,
    KL_CAUSE_RELAXATION,
    KL_CAUSE_LOSSES,
    KL_CAUSE_TEMPERATURE,
    KL_CAUSE_MOVEMENT, /* of supports */
    KL_CAUSE_COUNT
} kl_cause_kind;

typedef struct kl_cause {
    kl_cause_kind kind;
    kl_index
        load_case; /* KL_CAUSE_CASE: everything that this case brought, of whatever kind. KL_CAUSE_CREEP: creep of
                         * the stresses from that kind of cause (a kl_cause_kind); KL_NONE: of all */
} kl_cause;

typedef struct kl_factor {
    double factor;
    kl_cause cause;
    kl_origin origin;
} kl_factor;

typedef struct kl_combination {
    const char *name;
    kl_origin origin;
    const kl_factor *factors;
    kl_index factor_count;
} kl_combination;

/* When: after a stage (its last step), during it (each step), over a run of stages, or under a case/combination. */
typedef enum kl_when_kind {
    KL_WHEN_UNSET,
    KL_WHEN_AFTER,
    KL_WHEN_DURING,
    KL_WHEN_FROM_TO,
    KL_WHEN_CASE,
    KL_WHEN_COMBINATION
} kl_when_kind;

typedef struct kl_when {
    kl_when_kind kind;
    kl_index first, last; /* stages; or the case's or combination's index in `first` */
} kl_when;

typedef enum kl_condition {
    KL_CONDITION_UNSET,
    KL_AT_TRANSFER,
    KL_IN_SERVICE,
    KL_SUSTAINED
} kl_condition;
typedef enum kl_rules {
    KL_RULES_NONE,
    KL_RULES_AASHTO_2020,
    KL_RULES_ACI318_2019,
    KL_RULES_EN1992_2004
} kl_rules;
typedef enum kl_face { KL_FACE_BOTH, KL_FACE_TOP, KL_FACE_BOTTOM } kl_face;

/* A stress check: `rules`, or `compression` and/or `tension` limits of the user's own. */
typedef struct kl_check {
    const char *name;
    kl_origin origin;
    kl_list members; /* empty: none */
    kl_list
        tendons; /* `tendons T1 T2`: tendon stress limits at jack, anchor, elsewhere, in service */
    kl_when when;
    kl_condition condition;
    kl_rules rules;
    double compression; /* Pa, positive; NAN */
    double tension;     /* Pa, positive or 0; NAN */
    kl_face face;
    bool bonded_steel; /* default no: the strict one */
    bool has_bonded_steel;
    bool exposure_severe; /* default severe */
    bool has_exposure;
    char uncracked_class; /* aci318: 'u' (default) or 't' */
    bool has_class;
    bool
        quasi_permanent; /* en1992: which combination a service check is under; default characteristic */
    bool has_combination;
} kl_check;

typedef enum kl_quantity {
    KL_MOMENT,
    KL_SHEAR,
    KL_AXIAL,
    KL_DEFLECTION,
    KL_SWAY,
    KL_ROTATION,
    KL_STRESS_TOP,
    KL_STRESS_BOTTOM,
    KL_CAMBER,
    KL_REACTION, /* direction */
    KL_TENDON_FORCE,
    KL_ELONGATION,
    KL_POST /* force in one post of a row, compression + */
} kl_quantity;

/* Which share of moment, axial force or shear. */
typedef enum kl_part {
    KL_TOTAL,         /* the section total: loads plus secondary */
    KL_PRIMARY,       /* the tendons' own action */
    KL_SECONDARY,     /* the part of the total that prestress brings */
    KL_CONCRETE_SHARE /* total minus tendons: what the concrete carries */
} kl_part;

typedef enum kl_side {
    KL_RIGHT,
    KL_LEFT
} kl_side; /* just after (default) or just before a station */
typedef enum kl_extreme { KL_VALUE, KL_LARGEST, KL_SMALLEST } kl_extreme;

typedef struct kl_expectation {
    kl_origin origin;
    kl_extreme extreme;
    kl_quantity quantity;
    kl_part part;
    kl_direction direction; /* reaction */
    kl_index member;        /* place: a member with station and side, … */
    kl_index node;          /* … or a node, … */
    kl_index tendon;        /* … or a tendon with a station (elongation: 0 start, NAN end), … */
    kl_index falsework;     /* … or a row of falsework at `station` */
    double station;         /* NAN with `max`/`min` over the whole member */
    kl_side side;
    bool tendon_total; /* `total`: the group's force, not one tendon's */
    kl_when when;
    kl_cause cause; /* KL_CAUSE_ALL unless `from CAUSE` */
    double value;
    double tolerance; /* absolute, in the quantity's unit, or relative */
    bool tolerance_relative;
    const char *source; /* "" */
    kl_measure measure; /* how the value is shown */
} kl_expectation;

/* ---- form grades ---------------------------------------------------------------------------------------- */

/* A point of the grade that a member shall have: what lies on the member at `station` shall stand at `elevation`. */
typedef struct kl_grade_point {
    double station;   /* m along the member */
    double elevation; /* m above the site's datum, which need not be the model's */
    kl_origin origin;
} kl_grade_point;

/* Linear between points, the first and the last piece going on beyond; one point: level. */
typedef struct kl_grade {
    kl_origin origin;
    kl_index member;
    kl_index target;              /* stage at whose end the member shall have the grade */
    const kl_grade_point *points; /* by rising station */
    kl_index point_count;
} kl_grade;

/* ---- the model --------------------------------------------------------------------------------------- */

typedef struct kl_model {
    const char *title; /* "" */
    kl_display display;
    bool has_skew;
    double skew;     /* rad from square */
    double humidity; /* ratio; NAN */
    bool sections_gross;
    /* which members mix plain and square stations: filled by the reader, for a warning */
    const kl_material *materials;
    kl_index material_count;
    const kl_section *sections;
    kl_index section_count;
    const kl_node *nodes;
    kl_index node_count;
    const kl_member *members;
    kl_index member_count;
    const kl_support *supports;
    kl_index support_count;
    const kl_bearing *bearings;
    kl_index bearing_count;
    const kl_tendon *tendons;
    kl_index tendon_count;
    const kl_falsework *falsework;
    kl_index falsework_count;
    const kl_case *cases;
    kl_index case_count;
    const kl_stage *stages;
    kl_index stage_count;
    const kl_combination *combinations;
    kl_index combination_count;
    const kl_check *checks;
    kl_index check_count;
    const kl_expectation *expectations;
    kl_index expectation_count;
    const kl_grade *grades;
    kl_index grade_count;
    struct kl_model_store *store; /* private: arena, capacities, names, diagnostics */
} kl_model;

typedef enum kl_kind {
    KL_KIND_MATERIAL,
    KL_KIND_SECTION,
    KL_KIND_NODE,
    KL_KIND_MEMBER,
    KL_KIND_TENDON,
    KL_KIND_FALSEWORK,
    KL_KIND_CASE,
    KL_KIND_STAGE,
    KL_KIND_COMBINATION,
    KL_KIND_CHECK,
    KL_KIND_COUNT
} kl_kind;

/* An empty model; `diags` must outlive it and receives every message. @return NULL when out of memory. */
kl_model *kl_model_create(kl_diags *diags);
void kl_model_destroy(kl_model *model); /* NULL is allowed */

void kl_model_set_title(kl_model *model, const char *title);
void kl_model_set_display(kl_model *model, const kl_display *display); /* unit words are copied */
void kl_model_set_skew(kl_model *model, double skew);
void kl_model_set_humidity(kl_model *model, double ratio);
void kl_model_set_sections_gross(kl_model *model, bool gross);

/* Add one. @param added receives the index (NULL: not wanted). @return KL_BAD_MODEL after an error was
 * reported (a taken name, a value out of its range, a reference out of range); then nothing was added. */
kl_status kl_model_add_material(kl_model *model, const kl_material *material, kl_index *added);
kl_status kl_model_add_section(kl_model *model, const kl_section *section, kl_index *added);
kl_status kl_model_add_node(kl_model *model, const kl_node *node, kl_index *added);
kl_status kl_model_add_member(kl_model *model, const kl_member *member, kl_index *added);
kl_status kl_model_add_support(kl_model *model, const kl_support *support, kl_index *added);
kl_status kl_model_add_bearing(kl_model *model, const kl_bearing *bearing, kl_index *added);
kl_status kl_model_add_tendon(kl_model *model, const kl_tendon *tendon, kl_index *added);
kl_status kl_model_add_falsework(kl_model *model, const kl_falsework *falsework, kl_index *added);
kl_status kl_model_add_case(kl_model *model, const kl_case *load_case, kl_index *added);
kl_status kl_model_add_stage(kl_model *model, const kl_stage *stage, kl_index *added);
kl_status
kl_model_add_combination(kl_model *model, const kl_combination *combination, kl_index *added);
kl_status kl_model_add_check(kl_model *model, const kl_check *check, kl_index *added);
kl_status
kl_model_add_expectation(kl_model *model, const kl_expectation *expectation, kl_index *added);
kl_status kl_model_add_grade(kl_model *model, const kl_grade *grade, kl_index *added);

/* The index of a name, or KL_NONE. Constant time. */
kl_index kl_model_find(const kl_model *model, kl_kind kind, const char *name);
/* Length of a member from node to node, m. */
double kl_member_length(const kl_model *model, kl_index member);
/* Coordinates of a station. */
kl_point kl_member_point(const kl_model *model, kl_index member, double station);
/* Total length of a tendon's members, m: the range of its stations. */
double kl_tendon_range(const kl_model *model, kl_index tendon);
/* What the gauge shows at a force at the jack, Pa: force / (ram (1 - jack friction)). NAN: the tendon names no ram. */
double kl_tendon_gauge(const kl_tendon *tendon, double jack_force);

/* The declared sections that a station of a member lies between: dimensions go linearly from `a` to `b` by `share`; where nothing
 * changes a and b are one. At a step `side` chooses. */
typedef struct kl_section_mix {
    kl_index a, b;
    double share;
} kl_section_mix;
kl_section_mix
kl_section_mix_at(const kl_model *model, kl_index member, double station, kl_side side);

/* Young's modulus and strength of a material at an age, s, by its own laws, Pa: as an analysis takes them. The strength is NAN where
 * the material is no concrete, the modulus where none is known. Concrete less than a day old is as stiff as one of a day. */
void kl_material_at_age(
    const kl_model *model, kl_index material, double age, double *modulus, double *strength);
/* Does the modulus or the strength of the material change with age? */
bool kl_material_ages(const kl_model *model, kl_index material);

/* Look at the whole model: what is missing, doubled, contradictory or merely odd. Errors and warnings go to
 * the model's diagnostics. @return KL_BAD_MODEL when there was an error. */
kl_status kl_model_check(const kl_model *model);

/* Texts for messages and tables: "member", "load case"; a cause; a quantity. */
const char *kl_kind_name(kl_kind kind);
const char *kl_cause_name(const kl_model *model, kl_cause cause);
const char *kl_quantity_name(kl_quantity quantity);

#endif
