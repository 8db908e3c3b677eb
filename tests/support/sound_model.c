/* sound_model.c - see sound_model.h.
 * SPDX-License-Identifier: MIT */
#include "sound_model.h"

#include <math.h>

#define DIM(array) ((int)(sizeof(array) / sizeof((array)[0])))

const kl_origin sound_place = {0, 5, 9};

/* ---- sound entities ---------------------------------------------------------------------------------------- */

kl_material sound_concrete(void)
{
    return (kl_material){.kind = KL_CONCRETE,
                         .name = "mix",
                         .origin = sound_place,
                         .strength = 40e6,
                         .transfer_strength = NAN,
                         .unit_weight = 24e3,
                         .modulus_law = KL_LAW_VALUE,
                         .modulus = 30e9,
                         .shear_modulus = NAN,
                         .expansion = NAN,
                         .cured = NAN,
                         .ultimate = NAN,
                         .yield = NAN};
}

kl_material sound_strand(void)
{
    kl_material steel = sound_concrete();
    steel.kind = KL_PRESTRESSING;
    steel.name = "strand";
    steel.modulus = 195e9;
    steel.ultimate = 1860e6;
    steel.yield = 1670e6;
    return steel;
}

kl_section sound_bare_section(void)
{
    return (kl_section){.shape = KL_BARE,
                        .name = "beam",
                        .origin = sound_place,
                        .width = NAN,
                        .depth = NAN,
                        .diameter = NAN,
                        .thickness = NAN,
                        .flange_thickness = NAN,
                        .web_width = NAN,
                        .top_slab = NAN,
                        .bottom_slab = NAN,
                        .overhang = NAN,
                        .overhang_edge = NAN,
                        .area = 1.0,
                        .inertia = 0.1,
                        .to_top = 0.5,
                        .to_bottom = 0.5,
                        .shear_area = NAN,
                        .volume_to_surface = NAN};
}

kl_node sound_node(const char *name, double x, double y)
{
    return (kl_node){.name = name, .origin = sound_place, .x = x, .y = y, .member = KL_NONE};
}

static const kl_section_at prismatic = {.section = 0, .station = NAN, .origin = {0, 1, 2}};

kl_member sound_member(const char *name, kl_index from, kl_index to)
{
    return (kl_member){.name = name,
                       .origin = sound_place,
                       .from = from,
                       .to = to,
                       .material = 0,
                       .sections = &prismatic,
                       .section_count = 1,
                       .mesh = NAN,
                       .age = NAN};
}

kl_support sound_support(kl_index at)
{
    return (kl_support){.origin = sound_place, .node = at, .hold = {{KL_FIXED, 0}, {KL_FIXED, 0}}};
}

static const kl_index beam_bc[] = {1};
const kl_profile_row sound_rows[] = {
    {KL_ROW_ANCHOR, {0, 20, 21}, 0.0, 0.0, KL_FROM_LINE, false},
    {KL_ROW_LOW, {0, 22, 23}, 5.0, -0.3, KL_FROM_LINE, false},
    {KL_ROW_ANCHOR, {0, 24, 25}, 10.0, 0.0, KL_FROM_LINE, false},
};

kl_tendon sound_tendon(void)
{
    return (kl_tendon){.name = "T1",
                       .origin = sound_place,
                       .members = beam_bc,
                       .member_count = 1,
                       .material = 1,
                       .units = 12,
                       .unit_area = 140e-6,
                       .count = 2,
                       .rows = sound_rows,
                       .row_count = 3,
                       .jack_force = 2e6,
                       .ram_area = NAN,
                       .reference = NAN};
}

static const double sound_stations[] = {1.0, 4.0, 7.0};

kl_falsework sound_falsework(void)
{
    return (kl_falsework){.name = "posts",
                          .origin = sound_place,
                          .member = 1,
                          .stations = sound_stations,
                          .row_count = 3,
                          .posts = 2,
                          .stiffness = 50e6,
                          .capacity = NAN,
                          .carrier = KL_NONE,
                          .stringer_section = KL_NONE,
                          .stringer_material = KL_NONE};
}

kl_load sound_point_load(void)
{
    return (kl_load){.kind = KL_LOAD_POINT,
                     .origin = sound_place,
                     .member = 1,
                     .node = KL_NONE,
                     .tendon = KL_NONE,
                     .value = 1e5,
                     .value_end = NAN,
                     .dx = 0.0,
                     .dy = -1.0,
                     .from = 2.0,
                     .to = NAN};
}

kl_expectation sound_expectation(void)
{
    return (kl_expectation){.origin = sound_place,
                            .quantity = KL_MOMENT,
                            .member = 1,
                            .node = KL_NONE,
                            .tendon = KL_NONE,
                            .falsework = KL_NONE,
                            .station = 5.0,
                            .when = {KL_WHEN_AFTER, 0, KL_NONE},
                            .cause = {KL_CAUSE_ALL, KL_NONE},
                            .value = 1e6,
                            .tolerance = 0.001,
                            .tolerance_relative = true,
                            .source = "",
                            .measure = KL_MEASURE_MOMENT};
}

kl_check sound_check(void)
{
    static const kl_index members[] = {1};
    return (kl_check){.name = "limits",
                      .origin = sound_place,
                      .members = {members, 1},
                      .when = {KL_WHEN_AFTER, 0, KL_NONE},
                      .compression = 20e6,
                      .tension = NAN};
}

/* ---- the sound model --------------------------------------------------------------------------------------- */

static kl_status add_frame(kl_model *model)
{
    const kl_material mix = sound_concrete();
    const kl_material steel = sound_strand();
    const kl_section beam = sound_bare_section();
    KL_TRY(kl_model_add_material(model, &mix, NULL));
    KL_TRY(kl_model_add_material(model, &steel, NULL));
    KL_TRY(kl_model_add_section(model, &beam, NULL));
    const kl_node nodes[] = {sound_node("A", 0, 0), sound_node("B", 4, 3), sound_node("C", 14, 3),
                             sound_node("D", 20, 3), sound_node("E", 4, 3)};
    for (int i = 0; i < DIM(nodes); i++) {
        KL_TRY(kl_model_add_node(model, &nodes[i], NULL));
    }
    const kl_member members[] = {sound_member("ab", 0, 1), sound_member("bc", 1, 2),
                                 sound_member("cd", 2, 3)};
    for (int i = 0; i < DIM(members); i++) {
        KL_TRY(kl_model_add_member(model, &members[i], NULL));
    }
    const kl_support at_a = sound_support(0);
    return kl_model_add_support(model, &at_a, NULL);
}

static kl_status add_rest(kl_model *model)
{
    static const kl_index first[] = {0};
    const kl_operation cast = {KL_OP_PLACE, sound_place, {first, 1}, 1.0, NAN, NAN, NAN, {0}, NAN};
    const kl_stage stages[] = {{"s0", "", sound_place, KL_DAY, true, &cast, 1},
                               {"s1", "", sound_place, 2 * KL_DAY, true, NULL, 0}};
    const kl_tendon t = sound_tendon();
    const kl_falsework f = sound_falsework();
    const kl_load load = sound_point_load();
    const kl_case dead = {"dead", sound_place, &load, 1};
    const kl_factor factor = {1.25, {KL_CAUSE_CASE, 0}, sound_place};
    const kl_combination all = {"all_loads", sound_place, &factor, 1};
    const kl_check c = sound_check();
    const kl_expectation e = sound_expectation();
    KL_TRY(kl_model_add_tendon(model, &t, NULL));
    KL_TRY(kl_model_add_falsework(model, &f, NULL));
    KL_TRY(kl_model_add_case(model, &dead, NULL));
    KL_TRY(kl_model_add_stage(model, &stages[0], NULL));
    KL_TRY(kl_model_add_stage(model, &stages[1], NULL));
    KL_TRY(kl_model_add_combination(model, &all, NULL));
    KL_TRY(kl_model_add_check(model, &c, NULL));
    return kl_model_add_expectation(model, &e, NULL);
}

kl_status sound_model_make(sound_model *w)
{
    w->model = NULL;
    w->diags = kl_diags_create();
    if (w->diags == NULL) {
        return KL_NO_MEMORY;
    }
    w->model = kl_model_create(w->diags);
    if (w->model == NULL) {
        return KL_NO_MEMORY;
    }
    KL_TRY(add_frame(w->model));
    return add_rest(w->model);
}

void sound_model_destroy(sound_model *w)
{
    kl_model_destroy(w->model);
    kl_diags_destroy(w->diags);
}
