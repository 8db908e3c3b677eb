/* bent.c - see bent.h.
 * SPDX-License-Identifier: MIT */
#include "bent.h"

#include <math.h>
#include <string.h>

#define DAY KL_DAY

kl_index bent_add_material(bent *b, kl_material_kind kind, const char *name)
{
    kl_material m = {.kind = kind, .name = name, .origin = KL_NOWHERE, .modulus_law = KL_LAW_VALUE};
    m.strength = m.transfer_strength = m.unit_weight = m.modulus = m.shear_modulus = NAN;
    m.expansion = m.cured = m.ultimate = m.yield = NAN;
    b->materials[b->material_count] = m;
    return b->material_count++;
}

kl_index bent_add_section(bent *b, kl_shape shape, const char *name)
{
    kl_section s = {.shape = shape, .name = name, .origin = KL_NOWHERE};
    s.width = s.depth = s.diameter = s.thickness = s.flange_thickness = s.web_width = NAN;
    s.top_slab = s.bottom_slab = s.overhang = s.overhang_edge = NAN;
    s.area = s.inertia = s.to_top = s.to_bottom = s.shear_area = s.volume_to_surface = NAN;
    b->sections[b->section_count] = s;
    return b->section_count++;
}

kl_index bent_add_node(bent *b, const char *name, double x, double y)
{
    b->nodes[b->node_count] =
        (kl_node){.name = name, .origin = KL_NOWHERE, .x = x, .y = y, .member = KL_NONE};
    return b->node_count++;
}

kl_index bent_add_on_cap(bent *b, const char *name, double station)
{
    const kl_index n = bent_add_node(b, name, 0, 0);
    b->nodes[n].member = CAP;
    b->nodes[n].station = station;
    return n;
}

kl_index bent_add_member(bent *b, const char *name, kl_index from, kl_index to, kl_index section)
{
    const kl_index m = b->member_count++;
    b->rows[m] = (kl_section_at){section, 0.0, KL_NOWHERE};
    b->members[m] = (kl_member){.name = name,
                                .origin = KL_NOWHERE,
                                .from = from,
                                .to = to,
                                .material = CONCRETE,
                                .sections = &b->rows[m],
                                .section_count = 1,
                                .mesh = NAN,
                                .age = NAN};
    return m;
}

kl_index bent_add_support(bent *b, kl_index node)
{
    kl_support s = {.origin = KL_NOWHERE, .node = node};
    s.hold[0].kind = s.hold[1].kind = s.hold[2].kind = KL_FIXED;
    b->supports[b->support_count] = s;
    return b->support_count++;
}

kl_operation *bent_add_operation(bent *b, kl_index stage, kl_operation_kind kind, kl_index item)
{
    kl_stage *s = &b->stages[stage];
    kl_index *items = b->items[stage][s->operation_count];
    kl_operation *o = &b->operations[stage][s->operation_count];
    items[0] = item;
    *o = (kl_operation){.kind = kind, .origin = KL_NOWHERE, .items = {items, 1}, .factor = 1.0};
    o->value = o->from = o->to = NAN;
    s->operation_count++;
    return o;
}

static kl_index bent_add_stage(bent *b, const char *name, double day)
{
    const kl_index s = b->stage_count++;
    b->stages[s] = (kl_stage){
        .name = name, .title = "", .origin = KL_NOWHERE, .time = day * DAY, .has_time = true};
    b->stages[s].operations = b->operations[s];
    return s;
}

static void add_frame(bent *b)
{
    bent_add_material(b, KL_CONCRETE, "mix");
    kl_material *mix = &b->materials[CONCRETE];
    mix->strength = 40e6;
    mix->transfer_strength = 30e6;
    mix->unit_weight = 24e3;
    mix->modulus_law = KL_LAW_ACI_2019;
    mix->expansion = 1e-5;
    bent_add_material(b, KL_PRESTRESSING, "strand");
    b->materials[STEEL].modulus = 195e9;
    b->materials[STEEL].ultimate = 1860e6;
    b->materials[STEEL].yield = 1670e6;
    b->sections[bent_add_section(b, KL_RECTANGLE, "cap")].width = 2.0;
    b->sections[CAP_SECTION].depth = 2.0;
    b->sections[bent_add_section(b, KL_CIRCLE, "column")].diameter = 1.8;
    bent_add_node(b, "L", 0, 8);
    bent_add_node(b, "R", 30, 8);
    bent_add_node(b, "A", 7, 0);
    bent_add_node(b, "B", 23, 0);
    bent_add_on_cap(b, "C", 7);
    bent_add_on_cap(b, "D", 23);
    bent_add_member(b, "cap", L, R, CAP_SECTION);
    bent_add_member(b, "col_1", A, C, COLUMN_SECTION);
    bent_add_member(b, "col_2", B, D, COLUMN_SECTION);
    bent_add_support(b, A);
    bent_add_support(b, B);
}

static void add_tendon(bent *b)
{
    static const kl_index cap[] = {CAP};
    b->profile[0] = (kl_profile_row){
        .kind = KL_ROW_ANCHOR, .station = 0, .ordinate = 1.0, .datum = KL_FROM_BOTTOM};
    b->profile[1] = (kl_profile_row){
        .kind = KL_ROW_LOW, .station = 15, .ordinate = 0.3, .datum = KL_FROM_BOTTOM};
    b->profile[2] = (kl_profile_row){
        .kind = KL_ROW_ANCHOR, .station = 30, .ordinate = 1.0, .datum = KL_FROM_BOTTOM};
    b->tendon = (kl_tendon){.name = "T1",
                            .origin = KL_NOWHERE,
                            .members = cap,
                            .member_count = 1,
                            .material = STEEL,
                            .units = 19,
                            .unit_area = 140e-6,
                            .count = 2,
                            .rows = b->profile,
                            .row_count = 3,
                            .friction = 0.2,
                            .wobble = 0.001,
                            .seating = 0.006,
                            .jack_force = 0.75 * 1860e6 * 19 * 140e-6,
                            .ram_area = 0.0587,
                            .reference = 0.2,
                            .duct = 0.1,
                            .bond = KL_GROUTED};
}

void bent_add_falsework(bent *b, const char *name, const double *stations)
{
    const kl_index f = b->falsework_count++;
    memcpy(b->stations[f], stations, sizeof b->stations[f]);
    b->falsework[f] = (kl_falsework){.name = name,
                                     .origin = KL_NOWHERE,
                                     .member = CAP,
                                     .stations = b->stations[f],
                                     .row_count = 5,
                                     .posts = 2,
                                     .stiffness = 8e7,
                                     .capacity = NAN,
                                     .carrier = KL_NONE,
                                     .stringer_section = KL_NONE,
                                     .stringer_material = KL_NONE};
}

static void add_stages(bent *b)
{
    bent_add_stage(b, "columns_cast", 0);
    kl_operation *columns = bent_add_operation(b, CAST_COLUMNS, KL_OP_CAST, COL_1);
    b->items[CAST_COLUMNS][0][1] = COL_2;
    columns->items.count = 2;
    bent_add_stage(b, "cap_cast", 30);
    bent_add_operation(b, CAST_CAP, KL_OP_ERECT, 0);
    bent_add_operation(b, CAST_CAP, KL_OP_CAST, CAP);
    bent_add_stage(b, "stressed", 44);
    bent_add_operation(b, STRESSED, KL_OP_STRESS, 0);
    bent_add_stage(b, "released", 46);
    bent_add_operation(b, RELEASED, KL_OP_RELEASE, 0);
    bent_add_stage(b, "girders", 60);
    bent_add_operation(b, LOADED, KL_OP_LOAD, 0);
    bent_add_stage(b, "grouted", 62);
    bent_add_operation(b, GROUTED, KL_OP_GROUT, 0);
    bent_add_operation(b, GROUTED, KL_OP_LOSE, 0)->value = 150e6;
}

static void add_asked(bent *b)
{
    b->factors[0] = (kl_factor){1.2, {KL_CAUSE_WEIGHT, KL_NONE}, KL_NOWHERE};
    b->factors[1] = (kl_factor){1.0, {KL_CAUSE_LOSSES, KL_NONE}, KL_NOWHERE};
    b->factors[2] = (kl_factor){1.0, {KL_CAUSE_PRESTRESS, KL_NONE}, KL_NOWHERE};
    b->factors[3] = (kl_factor){1.0, {KL_CAUSE_CASE, 0}, KL_NOWHERE};
    b->combination = (kl_combination){"service", KL_NOWHERE, b->factors, 4};
    b->combination_count = 1;
    b->checked[0] = CAP;
    b->check = (kl_check){.name = "stresses", .origin = KL_NOWHERE, .members = {b->checked, 1}};
    b->check.tendons = (kl_list){&b->checked_tendon, 1};
    b->check.when = (kl_when){KL_WHEN_FROM_TO, LOADED, GROUTED};
    b->check.condition = KL_IN_SERVICE;
    b->check.rules = KL_RULES_AASHTO_2020;
    b->check.compression = b->check.tension = NAN;
    b->check_count = 1;
    b->expectation =
        (kl_expectation){.origin = KL_NOWHERE, .quantity = KL_STRESS_TOP, .member = CAP};
    b->expectation.node = b->expectation.tendon = b->expectation.falsework = KL_NONE;
    b->expectation.station = 15;
    b->expectation.when = (kl_when){KL_WHEN_AFTER, LOADED, KL_NONE};
    b->expectation.cause.load_case = KL_NONE;
    b->expectation.value = -1e6;
    b->expectation.tolerance = 1e3;
    b->expectation.source = "";
    b->expectation_count = 1;
}

void bent_make(bent *b)
{
    const double rows[] = {2, 5, 12, 15, 18};
    memset(b, 0, sizeof *b);
    b->humidity = 0.7;
    add_frame(b);
    add_tendon(b);
    bent_add_falsework(b, "bents", rows);
    b->loads[0] =
        (kl_load){.kind = KL_LOAD_POINT, .origin = KL_NOWHERE, .member = CAP, .node = KL_NONE};
    b->loads[0].tendon = KL_NONE;
    b->loads[0].value = 1e6;
    b->loads[0].dy = -1;
    b->loads[0].from = 15;
    b->loads[0].to = NAN;
    b->cases[0] = (kl_case){"girder", KL_NOWHERE, b->loads, 1};
    b->case_count = 1;
    add_stages(b);
    add_asked(b);
}

/* The cap alone on two supports, without stages: weight, then whatever a test adds. */
void bent_make_beam(bent *b)
{
    bent_make(b);
    b->member_count = 1;
    b->node_count = 2;
    b->support_count = 0;
    bent_add_support(b, L);
    bent_add_support(b, R);
    b->stage_count = b->falsework_count = b->combination_count = b->check_count =
        b->expectation_count = 0;
    b->section_count = 1;
    b->loads[1] = b->loads[0];
    b->loads[1].kind = KL_LOAD_WEIGHT;
    b->loads[1].member = KL_NONE;
    b->loads[2] = b->loads[1];
    b->loads[2].kind = KL_LOAD_TENDON;
    b->loads[2].tendon = 0;
    b->cases[0].load_count = 3;
}

kl_load *bent_add_load(bent *b, kl_load_kind kind, kl_index member, kl_index node)
{
    kl_load *load = &b->loads[b->cases[0].load_count++];
    *load = b->loads[0];
    load->kind = kind;
    load->member = member;
    load->node = node;
    load->from = 0;
    return load;
}
void bent_add_brace(bent *b, kl_index from, kl_index to)
{
    const kl_index m = bent_add_member(b, "brace", from, to, COLUMN_SECTION);
    bent_add_operation(b, CAST_COLUMNS, KL_OP_PLACE, m);
}
/* ---- into a model --------------------------------------------------------------------------------------- */

kl_status bent_build_frame(kl_model *model, const bent *b)
{
    kl_model_set_humidity(model, b->humidity);
    for (kl_index i = 0; i < b->material_count; i++) {
        KL_TRY(kl_model_add_material(model, &b->materials[i], NULL));
    }
    for (kl_index i = 0; i < b->section_count; i++) {
        KL_TRY(kl_model_add_section(model, &b->sections[i], NULL));
    }
    /* nodes up to the cap's, the cap, then the rest */
    kl_index next = 0;
    for (; next < b->node_count && b->nodes[next].member == KL_NONE; next++) {
        KL_TRY(kl_model_add_node(model, &b->nodes[next], NULL));
    }
    KL_TRY(kl_model_add_member(model, &b->members[0], NULL));
    for (; next < b->node_count; next++) {
        KL_TRY(kl_model_add_node(model, &b->nodes[next], NULL));
    }
    for (kl_index i = 1; i < b->member_count; i++) {
        KL_TRY(kl_model_add_member(model, &b->members[i], NULL));
    }
    for (kl_index i = 0; i < b->support_count; i++) {
        KL_TRY(kl_model_add_support(model, &b->supports[i], NULL));
    }
    for (kl_index i = 0; i < b->bearing_count; i++) {
        KL_TRY(kl_model_add_bearing(model, &b->bearings[i], NULL));
    }
    return KL_OK;
}

kl_status bent_build_rest(kl_model *model, const bent *b)
{
    KL_TRY(kl_model_add_tendon(model, &b->tendon, NULL));
    for (kl_index i = 0; i < b->falsework_count; i++) {
        KL_TRY(kl_model_add_falsework(model, &b->falsework[i], NULL));
    }
    for (kl_index i = 0; i < b->case_count; i++) {
        KL_TRY(kl_model_add_case(model, &b->cases[i], NULL));
    }
    for (kl_index i = 0; i < b->stage_count; i++) {
        KL_TRY(kl_model_add_stage(model, &b->stages[i], NULL));
    }
    if (b->combination_count > 0) {
        KL_TRY(kl_model_add_combination(model, &b->combination, NULL));
    }
    if (b->check_count > 0) {
        KL_TRY(kl_model_add_check(model, &b->check, NULL));
    }
    if (b->expectation_count > 0) {
        KL_TRY(kl_model_add_expectation(model, &b->expectation, NULL));
    }
    return KL_OK;
}

static kl_status bent_build_and_check(kl_model *model, const bent *b)
{
    KL_TRY(bent_build_frame(model, b));
    KL_TRY(bent_build_rest(model, b));
    return kl_model_check(model);
}

static void bent_print_all(const kl_diags *diags)
{
    for (kl_index i = 0; i < kl_diags_count(diags); i++) {
        print_message("  [%s] %s\n", kl_diags_get(diags, i)->name, kl_diags_get(diags, i)->message);
    }
}

const kl_diag *bent_find(const kl_diags *diags, const char *name)
{
    for (kl_index i = 0; i < kl_diags_count(diags); i++) {
        if (strcmp(kl_diags_get(diags, i)->name, name) == 0) {
            return kl_diags_get(diags, i);
        }
    }
    return NULL;
}

void bent_try(void **state)
{
    const bent_trial *t = *state;
    bent b;
    t->start(&b);
    if (t->apply != NULL) {
        t->apply(&b);
    }
    kl_diags *diags = kl_diags_create();
    kl_model *model = kl_model_create(diags);
    const kl_status status = bent_build_and_check(model, &b);
    const kl_diag *found = bent_find(diags, t->name);
    const bool right = (found != NULL) == t->drawn &&
                       (found == NULL || found->severity == t->severity) &&
                       (t->drawn || status == KL_OK) &&
                       (!t->drawn || status == (t->severity == KL_ERROR ? KL_BAD_MODEL : KL_OK));
    if (!right) {
        print_message("%s: status %d, `%s` %s. All messages:\n", t->title, (int)status, t->name,
                      t->drawn ? "was wanted" : "was not wanted");
        bent_print_all(diags);
    }
    kl_model_destroy(model);
    kl_diags_destroy(diags);
    assert_true(right);
}

void bent_assert_silent(bent_change start)
{
    bent b;
    start(&b);
    kl_diags *diags = kl_diags_create();
    kl_model *model = kl_model_create(diags);
    const kl_status status = bent_build_and_check(model, &b);
    bent_print_all(diags);
    const kl_index count = kl_diags_count(diags);
    kl_model_destroy(model);
    kl_diags_destroy(diags);
    assert_int_equal(status, KL_OK);
    assert_int_equal(count, 0);
}
