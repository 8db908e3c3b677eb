/* fake_results.c - see fake_results.h.
 * SPDX-License-Identifier: MIT */
#include "fake_results.h"

#include <string.h>

/* One table of values serves steps, cases and combinations alike. */
static const fake_course *
fake_course_of(const kl_results *r, kl_state state, kl_quantity quantity, kl_index member)
{
    switch (quantity) {
    case KL_STRESS_TOP:
        return &r->top[state.index][member];
    case KL_STRESS_BOTTOM:
        return &r->bottom[state.index][member];
    case KL_MOMENT:
    case KL_SHEAR:
    case KL_AXIAL:
    case KL_DEFLECTION:
    case KL_SWAY:
    case KL_ROTATION:
    case KL_CAMBER:
    case KL_REACTION:
    case KL_TENDON_FORCE:
    case KL_ELONGATION:
    case KL_POST:
        break;
    }
    return &r->other[state.index][member];
}

static double fake_at(const fake_course *f, double x)
{
    return f->a + x * (f->b + x * f->c);
}

kl_state kl_state_step(kl_index step)
{
    return (kl_state){KL_STATE_STEP, step, {KL_CAUSE_ALL, KL_NONE}};
}

kl_state kl_state_case(kl_index load_case)
{
    return (kl_state){KL_STATE_CASE, load_case, {KL_CAUSE_ALL, KL_NONE}};
}

kl_state kl_state_combination(kl_index combination)
{
    return (kl_state){KL_STATE_COMBINATION, combination, {KL_CAUSE_ALL, KL_NONE}};
}

kl_state kl_state_of_cause(kl_state state, kl_cause cause)
{
    state.cause = cause;
    return state;
}

const kl_model *kl_results_model(const kl_results *r)
{
    return &r->model;
}

kl_index kl_step_count(const kl_results *r)
{
    return r->step_count;
}

const kl_step *kl_step_at(const kl_results *r, kl_index step)
{
    return &r->steps[step];
}

const kl_step *kl_moment_at(const kl_results *r, kl_index moment)
{
    (void)r;
    (void)moment;
    return NULL; /* none is asked for */
}

kl_index kl_first_step(const kl_results *r, kl_index stage)
{
    kl_index first = 0;
    while (r->steps[first].stage != stage) {
        first++;
    }
    return first;
}

kl_index kl_last_step(const kl_results *r, kl_index stage)
{
    kl_index last = r->step_count - 1;
    while (r->steps[last].stage != stage) {
        last--;
    }
    return last;
}

bool kl_case_is_solved(const kl_results *r, kl_index load_case)
{
    return r->step_count == 0 && load_case < r->model.case_count;
}

bool kl_member_stands(const kl_results *r, kl_state state, kl_index member)
{
    return !r->absent[state.index][member];
}

kl_status kl_value_on_member(const kl_results *r,
                             kl_state state,
                             kl_quantity quantity,
                             kl_part part,
                             kl_index member,
                             double station,
                             kl_side side,
                             double *value)
{
    (void)part;
    (void)side;
    if (r->absent[state.index][member] || r->no_stress) {
        return KL_NOT_THERE;
    }
    *value = fake_at(fake_course_of(r, state, quantity, member), station) *
             (quantity == KL_CAMBER ? -1.0 : 1.0);
    return KL_OK;
}

kl_status kl_peak_on_member(const kl_results *r,
                            kl_state state,
                            kl_quantity quantity,
                            kl_part part,
                            kl_index member,
                            double from,
                            double to,
                            kl_extreme extreme,
                            kl_peak *peak)
{
    const fake_course *f = fake_course_of(r, state, quantity, member);
    const double vertex = fabs(f->c) > 0.0 ? fmin(to, fmax(from, -f->b / (2.0 * f->c))) : from;
    const double stations[] = {from, vertex, to};
    for (int i = 0; i < 3; i++) {
        double value = 0.0;
        KL_TRY(kl_value_on_member(r, state, quantity, part, member, stations[i], KL_RIGHT, &value));
        if (i == 0 || (extreme == KL_LARGEST ? value > peak->value : value < peak->value)) {
            *peak = (kl_peak){value, stations[i], KL_RIGHT};
        }
    }
    return KL_OK;
}

kl_status kl_range_on_member(const kl_results *r,
                             kl_state state,
                             kl_quantity quantity,
                             kl_part part,
                             kl_index member,
                             double from,
                             double to,
                             kl_peak *smallest,
                             kl_peak *largest)
{
    KL_TRY(kl_peak_on_member(r, state, quantity, part, member, from, to, KL_SMALLEST, smallest));
    return kl_peak_on_member(r, state, quantity, part, member, from, to, KL_LARGEST, largest);
}

kl_status kl_station_rows(
    kl_results *r, kl_index member, double every, const kl_station_row **rows, kl_index *count)
{
    (void)member;
    (void)every;
    *rows = r->faces;
    *count = r->face_count;
    return KL_OK;
}

void kl_concrete_of_state(const kl_results *r,
                          kl_state state,
                          kl_index member,
                          double *modulus,
                          double *strength,
                          double *age)
{
    (void)member;
    *modulus = 3e10;
    *strength = r->strength[state.index];
    *age = r->age[state.index];
}

kl_status kl_node_movement(
    const kl_results *r, kl_state state, kl_quantity quantity, kl_index node, double *value)
{
    (void)quantity;
    *value = r->movement[state.index][node];
    return KL_OK;
}

kl_status kl_reaction(
    const kl_results *r, kl_state state, kl_index node, kl_direction direction, double *value)
{
    *value = r->reaction[state.index][node][direction];
    return KL_OK;
}

kl_status kl_bearing_force(
    const kl_results *r, kl_state state, kl_index bearing, kl_direction direction, double *value)
{
    (void)r;
    (void)state;
    (void)bearing;
    (void)direction;
    *value = 0.0; /* the models of these tests have none */
    return KL_OK;
}

kl_status kl_row_state(
    const kl_results *r, kl_state state, kl_index falsework, kl_index row, kl_post_row *out)
{
    (void)falsework;
    *out = r->rows[state.index][row];
    return KL_OK;
}

kl_tendon_phase kl_tendon_state(const kl_results *r, kl_state state, kl_index tendon)
{
    (void)tendon;
    return r->phase[state.index];
}

kl_status kl_tendon_force(const kl_results *r,
                          kl_state state,
                          kl_index tendon,
                          double station,
                          kl_side side,
                          double *force)
{
    (void)tendon;
    (void)side;
    if (r->phase[state.index] == KL_TENDON_ABSENT) {
        return KL_NOT_THERE;
    }
    *force = fake_at(&r->tendon[state.index], station);
    return KL_OK;
}

kl_status kl_tendon_stressing(const kl_results *r, kl_index tendon, kl_stressing *out)
{
    (void)tendon;
    if (r->pull_count == 0) {
        return KL_NOT_THERE;
    }
    *out = r->pulls[r->pull_count - 1];
    return KL_OK;
}

kl_status kl_pull_at(const kl_results *r, kl_index i, kl_index *tendon, kl_stressing *out)
{
    if (i >= r->pull_count) {
        return KL_NOT_THERE;
    }
    *tendon = 0;
    *out = r->pulls[i];
    return KL_OK;
}

kl_status kl_tendon_force_range(
    const kl_results *r, kl_state state, kl_index tendon, kl_peak *smallest, kl_peak *largest)
{
    const fake_course *f = &r->tendon[state.index];
    const double vertex = fabs(f->c) > 0.0 ? fmin(30.0, fmax(0.0, -f->b / (2.0 * f->c))) : 0.0;
    const double stations[] = {0.0, vertex, 30.0};
    for (int i = 0; i < 3; i++) {
        kl_peak here = {0.0, stations[i], KL_RIGHT};
        KL_TRY(kl_tendon_force(r, state, tendon, here.station, here.side, &here.value));
        *smallest = i == 0 || here.value < smallest->value ? here : *smallest;
        *largest = i == 0 || here.value > largest->value ? here : *largest;
    }
    return KL_OK;
}

/* ---- one model for all: a 30 m cap on two columns, cast, stressed by two tendons, released -------------- */

kl_material fake_materials[] = {
    {.kind = KL_CONCRETE, .name = "mix"},
    {.kind = KL_PRESTRESSING, .name = "strand"},
};
static kl_node fake_nodes[] = {
    {.name = "L", .x = 0.0, .y = 8.0, .member = KL_NONE},
    {.name = "R", .x = 30.0, .y = 8.0, .member = KL_NONE},
    {.name = "A", .x = 0.0, .y = 0.0, .member = KL_NONE},
    {.name = "B", .x = 30.0, .y = 0.0, .member = KL_NONE},
};
kl_member fake_members[] = {
    {.name = "cap", .from = 0, .to = 1, .material = 0},
    {.name = "left", .from = 2, .to = 0, .material = 0},
    {.name = "right", .from = 3, .to = 1, .material = 0},
};
kl_support fake_supports[] = {
    {.node = 2, .hold = {{KL_FIXED, 0.0}, {KL_FIXED, 0.0}, {KL_FIXED, 0.0}}},
    {.node = 3, .hold = {{KL_FREE, 0.0}, {KL_FIXED, 0.0}, {KL_FREE, 0.0}}},
};
static const double fake_stations[FAKE_ROWS] = {3.0, 6.0, 12.0, 18.0, 24.0, 27.0};
kl_falsework fake_falsework[] = {{.name = "bents",
                                  .member = 0,
                                  .stations = fake_stations,
                                  .row_count = FAKE_ROWS,
                                  .posts = 2,
                                  .stiffness = 80e6,
                                  .capacity = 150e3,
                                  .carrier = KL_NONE}};
static const kl_profile_row fake_profile[] = {{.kind = KL_ROW_ANCHOR, .station = 0.0},
                                              {.kind = KL_ROW_ANCHOR, .station = 30.0}};
static const kl_index fake_zero[] = {0, 1};
kl_tendon fake_tendons[] = {{.name = "T1",
                             .members = fake_zero,
                             .member_count = 1,
                             .material = 1,
                             .units = 10.0,
                             .unit_area = 140e-6,
                             .count = 3,
                             .rows = fake_profile,
                             .row_count = 2,
                             .jack_ends = KL_JACK_START,
                             .bond = KL_GROUTED}};
/* cap_cast: erect, cast; step_1: stress twice; released: release */
static const kl_operation fake_cast[] = {{.kind = KL_OP_ERECT, .items = {fake_zero, 1}},
                                         {.kind = KL_OP_CAST, .items = {fake_zero, 1}}};
static const kl_operation fake_stress[] = {{.kind = KL_OP_STRESS, .items = {fake_zero, 2}}};
static const kl_operation fake_release[] = {{.kind = KL_OP_RELEASE, .items = {fake_zero, 1}}};
static const kl_stage fake_stages[] = {
    {.name = "cap_cast", .operations = fake_cast, .operation_count = 2},
    {.name = "step_1", .operations = fake_stress, .operation_count = 1},
    {.name = "released", .operations = fake_release, .operation_count = 1},
};

static void fake_step(kl_results *r, kl_index stage, kl_index operation, const char *label)
{
    r->steps[r->step_count++] = (kl_step){stage, operation, KL_NONE, label, 0.0, 0};
}

void fake_start(kl_results *r)
{
    memset(r, 0, sizeof *r);
    fake_materials[0] = (kl_material){.kind = KL_CONCRETE, .name = "mix", .cured = fake_none};
    fake_materials[0].strength = 40e6;
    fake_materials[0].transfer_strength = 30e6;
    fake_materials[0].unit_weight = fake_none;
    fake_materials[1].ultimate = 1860e6;
    fake_materials[1].yield = 1674e6;
    r->model = (kl_model){.title = "",
                          .display = {.system = KL_UNITS_SI},
                          .materials = fake_materials,
                          .material_count = 2,
                          .nodes = fake_nodes,
                          .node_count = 4,
                          .members = fake_members,
                          .member_count = FAKE_MEMBERS,
                          .supports = fake_supports,
                          .support_count = 2,
                          .falsework = fake_falsework,
                          .falsework_count = 1,
                          .tendons = fake_tendons,
                          .tendon_count = 1,
                          .stages = fake_stages,
                          .stage_count = 3};
    fake_step(r, 0, 0, "erect bents");
    fake_step(r, 0, 1, "cast cap");
    fake_step(r, 1, 0, "stress T1");
    fake_step(r, 1, 0, "stress T2");
    fake_step(r, 2, 0, "release bents");
    for (kl_index s = 0; s < FAKE_STEPS; s++) {
        r->strength[s] = 36e6;
        r->age[s] = 14.0 * KL_DAY;
        r->phase[s] = s >= 2 ? KL_TENDON_STRESSED : KL_TENDON_ABSENT;
        for (kl_index i = 0; i < FAKE_ROWS; i++) {
            const bool stands = s < 4, bears = s >= 1 && s < 4;
            r->rows[s][i] = (kl_post_row){bears ? 200e3 : 0.0, 0.0, stands, bears, s == 1};
        }
        for (kl_index n = 2; n < FAKE_NODES; n++) {
            r->reaction[s][n][KL_Y] = 500e3;
        }
    }
}

void fake_row(kl_results *r, kl_index step, kl_index row, double force)
{
    r->rows[step][row].force = force;
    r->rows[step][row].bears = force > 0.0;
}

int fake_told(const kl_diags *diags, const char *name, const char **text)
{
    int count = 0;
    for (kl_index i = 0; i < kl_diags_count(diags); i++) {
        const kl_diag *d = kl_diags_get(diags, i);
        if (strcmp(d->name, name) == 0) {
            if (count == 0 && text != NULL) {
                *text = d->message;
            }
            count++;
        }
    }
    return count;
}
