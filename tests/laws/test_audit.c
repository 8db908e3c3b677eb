/* test_audit.c - the audit passes on sound results of every kind, and sees each kind of error.
 *
 * The models hold, between them, every load, support, joint and operation. The audit itself is tried by falsifying one
 * number of a recorded state at a time, and its sums against statics by hand.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "audit.h"
#include "fault.h"
#include "mem.h"
#include "near.h"
#include "solved.h"

#define DIM(array) (sizeof(array) / sizeof((array)[0]))

/* clang-format off */
#define MATERIALS \
    "show si\n" \
    "concrete mix { strength 35 MPa; transfer_strength 28 MPa; modulus 30 GPa; unit_weight 24 kN/m^3; expansion 1e-5 per degC }\n" \
    "material steel { modulus 200 GPa; unit_weight 77 kN/m^3; expansion 1.2e-5 per degC }\n" \
    "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 195 GPa; relaxation none }\n" \
    "section shallow { tee width 2 m flange_thickness 0.2 m web_width 0.5 m depth 1.0 m; line top }\n" \
    "section deep    { tee width 2 m flange_thickness 0.3 m web_width 0.6 m depth 1.8 m; line top }\n" \
    "section col { circle diameter 1.2 m; shear flexible }\n" \
    "section rod { circle diameter 0.05 m }\n" \
    "section box { rectangle width 1.0 m depth 0.8 m }\n"

static const char every_load[] =
    MATERIALS
    "node A at (100 m, 50 m)\n"
    "node B at (100.7 m, 56 m)\n"
    "node C at (112 m, 58 m)\n"
    "node D at (113 m, 50 m)\n"
    "node T at (118 m, 59 m)\n"
    "member legA from A to B section col of mix { rigid end 0.8 m }\n"
    "member cap from B to C of mix { section shallow at start; section shallow at 0.3 m; section deep at 5 m; section deep at 8 m; section shallow at 8 m; rigid start 0.6 m end 0.5 m; hinge at 6 m }\n"
    "member legD from D to C section col of mix { hinge end; rigid end 0.9 m }\n"
    "member tip from C to T section box of mix \n"
    "node M on cap at 4 m\n"
    "member brace from A to M section rod of steel { axial_only }\n"
    "support A fixed\n"
    "support D { x 20 MN/m; y fixed }\n"
    "support T roller slope 30 deg\n"
    "load dead { weight }\n"
    "load part { weight of cap; weight of brace }\n"
    "load pts { point 100 kN on cap at 0.2 m ; point 50 kN on cap at 3.3 m across; point 70 kN on cap from 0 m to 10 m every 2.5 m along; point 30 kN at M right; point 10 kN on cap at 11.4 m left }\n"
    "load face { point 100 kN on cap at 0.600003 m ; point 100 kN on cap at 0.599998 m}\n"
    "load face_b { point 100 kN on legD at 7.123 m right}\n"
    "load uni { uniform 10 kN/m on cap; uniform 7 kN/m on legA right; uniform 3 kN/m on cap level; uniform 5 kN/m on cap legD from 0.3 m to 7.9 m across; uniform 3 kN/m on tip along }\n"
    "load rmp { ramp start -2 kN/m end 9 kN/m on cap from 0.1 m to 11.3 m; ramp start 4 kN/m end 1 kN/m on cap from 7 m to 9 m level right }\n"
    "load cpl { moment 40 kN-m at B; moment 13 kN-m on cap at 0.1 m; moment 14 kN-m on cap at 7 m; moment 3 kN-m on cap at 11.45 m clockwise; moment 3 kN-m on legA at 3 m }\n"
    "load tmp { warm 20 degC on cap; gradient 12 degC on cap; cool 5 degC on brace }\n"
    "load stl { settle 10 mm at A down; turn 0.001 rad at A }\n"
    "combination all { factor 1.2 of dead; factor -0.7 of pts; factor 1.1 of weight; factor 1.5 of uni; factor 0.9 of temperature; factor 2 of cpl}\n";

static const char axial_members[] =
    MATERIALS
    "node A at (0 m, 0 m)\n"
    "node B at (6 m, 1 m)\n"
    "node C at (6 m, 8 m)\n"
    "node D at (0 m, 8 m)\n"
    "member post from A to D section col of mix\n"
    "member beam from D to C section box of mix\n"
    "member tie from A to C section rod of steel { axial_only }\n"
    "member leg from B to C section col of mix\n"
    "support A fixed\n"
    "support B pinned\n"
    "load l1 { point 10 kN on tie at 3 m }\n"
    "load l2 { uniform 2 kN/m on tie }\n"
    "load l4 { weight }\n"
    "load l3 { uniform 2 kN/m on tie from 2 m to 5 m }\n"
    "load l6 { ramp start 2 kN/m end 1 kN/m on tie from 1 m to 5 m along }\n";

static const char couple_on_axial[] =
    MATERIALS
    "node A at (0 m, 0 m)\n"
    "node C at (6 m, 8 m)\n"
    "node D at (0 m, 8 m)\n"
    "member post from A to D section col of mix\n"
    "member beam from D to C section box of mix\n"
    "member tie from A to C section rod of steel { axial_only }\n"
    "support A fixed\n"
    "load l5 { moment 10 kN-m on tie at 3 m }\n";

static const char hinged_faces[] =
    MATERIALS
    "node A at (0 m, 0 m)\n"
    "node B at (6 m, 0 m)\n"
    "node C at (12 m, 0 m)\n"
    "member l from A to B section box of mix { hinge end; rigid end 0.5 m }\n"
    "member r from B to C section box of mix { hinge start; rigid start 0.7 m }\n"
    "support A fixed\n"
    "support C fixed\n"
    "support B { y 10 MN/m }\n"
    "load dead { weight }\n"
    "load p { point 10 kN on r at 0.4 m }\n";

static const char hinged_face_and_end[] =
    MATERIALS
    "node A at (0 m, 0 m)\n"
    "node B at (6 m, 0 m)\n"
    "node C at (12 m, 0 m)\n"
    "member l from A to B section box of mix { hinge end; rigid end 0.5 m }\n"
    "member r from B to C section box of mix { hinge start }\n"
    "support A fixed\n"
    "support C fixed\n"
    "support B { y 10 MN/m }\n"
    "load dead { weight }\n";

static const char bearings[] =
    MATERIALS
    "node G at (0 m, 0 m)\n"
    "node P at (0 m, 5 m)\n"
    "node H at (10 m, 0 m)\n"
    "node Q at (10 m, 5 m)\n"
    "node P2 at (0 m, 5 m)\n"
    "node Q2 at (10 m, 5 m)\n"
    "node S2 at (20 m, 5 m)\n"
    "member pierP from G to P section col of mix\n"
    "member pierQ from H to Q section col of mix\n"
    "member d1 from P2 to Q2 section shallow of mix\n"
    "member d2 from Q2 to S2 section shallow of mix\n"
    "bearing P2 on P { x fixed; y push up }\n"
    "bearing Q2 on Q { y fixed; x 5 MN/m; turn 3000 kN-m }\n"
    "support G fixed\n"
    "support H fixed\n"
    "support S2 { y push up; x free }\n"
    "load dead { weight }\n"
    "load up { point 3000 kN on d1 at 3 m up; point 100 kN on d2 at 5 m right }\n";

static const char free_to_move[] =
    MATERIALS
    "node A at (100 m, 50 m)\n"
    "node B at (107 m, 56 m)\n"
    "node C at (118 m, 59 m)\n"
    "member ab from A to B section col of mix\n"
    "member bc from B to C section shallow of mix { rigid start 0.3 m }\n"
    "support A fixed\n"
    "load warm { warm 20 degC on ab bc }\n"
    "load grad { gradient 20 degC on ab bc }\n"
    "load turn { turn 0.01 rad at A }\n"
    "load settle { settle 0.1 m at A down }\n"
    "load settle3 { settle 0.1 m at A right }\n";

static const char loaded_and_unloaded[] =
    MATERIALS
    "node A at (100 m, 50 m)\n"
    "node B at (107 m, 56 m)\n"
    "node C at (118 m, 59 m)\n"
    "member ab from A to B section col of mix { weightless }\n"
    "member bc from B to C section shallow of mix { rigid start 0.3 m; weightless }\n"
    "support A fixed\n"
    "support C { y fixed }\n"
    "load l1 { uniform 20 kN/m on bc }\n"
    "load l2 { warm 20 degC on ab bc }\n"
    "load l3 { settle 0.1 m at A down }\n"
    "load small { point 1 N at B }\n"
    "stage s1 { cast ab bc; load l1 l2 l3; unload l1; unload l2 l3 }\n";

static const char built_in_stages[] =
    MATERIALS
    "node G at (0 m, 0 m)\n"
    "node P at (0 m, 5 m)\n"
    "node H at (12 m, 0 m)\n"
    "node Q at (12 m, 5.4 m)\n"
    "node R at (26 m, 6 m)\n"
    "node K at (26 m, 0 m)\n"
    "member c1 from G to P section col of mix { rigid end 0.4 m }\n"
    "member c2 from H to Q section col of mix\n"
    "member c3 from K to R section col of mix\n"
    "member cap from P to Q of mix { section shallow at start; section deep at end; rigid start 0.5 m end 0.6 m }\n"
    "member span from Q to R section shallow of mix { rigid start 0.6 m }\n"
    "node M on span at 7 m\n"
    "support G fixed\n"
    "support H fixed\n"
    "support K fixed\n"
    "tendon T in cap {\n"
    "    of strand\n"
    "    strands 12 area 140 mm^2\n"
    "    count 2\n"
    "    profile from bottom { anchor at start height 0.6 m; low at 5 m height 0.2 m; anchor at end height 1.2 m }\n"
    "    friction 0.2\n"
    "    wobble 0.002 per m\n"
    "    seating 6 mm\n"
    "    jack both ratio 0.75\n"
    "    duct 80 mm\n"
    "    bonded grouted\n"
    "}\n"
    "tendon U like T { in span; profile from bottom { anchor at start height 0.5 m; low at 5 m height 0.2 m; anchor at 9 m height 0.5 m } }\n"
    "falsework f1 under cap from 1.5 m to 11 m every 1.9 m { posts 4; stiffness 50 kN/mm }\n"
    "falsework f2 under span from 1.1 m to 13.3 m every 2.1 m { posts 4; stiffness 50 kN/mm }\n"
    "load live { uniform 20 kN/m on span from 2 m to 9 m; point 50 kN at M; moment 20 kN-m on cap at 0.3 m; point 5 kN on span at 0.2 m }\n"
    "load up { point 1500 kN on cap at 6 m up }\n"
    "load warm { warm 15 degC on cap span }\n"
    "load later { point 100 kN at R right; uniform 3 kN/m on cap }\n"
    "stage s1 at 0 day { cast c1 c2 c3 }\n"
    "stage s2 at 10 day { erect f1 f2; cast cap span }\n"
    "stage s3 at 20 day { load live; stress T to 50 %; release f1 from 1 m to 6 m; stress T U; load up; unload up; grout T }\n"
    "stage s4 at 30 day { release f2; release f1; unlock span at 9 m; load live times 0.5; load warm }\n";

static const char removed[] =
    MATERIALS
    "node A at (0 m, 0 m)\n"
    "node B at (0 m, 6 m)\n"
    "node C at (10 m, 6.5 m)\n"
    "node D at (10 m, 0 m)\n"
    "node E at (16 m, 6.5 m)\n"
    "node F at (10 m, 6.5 m)\n"
    "node P at (16 m, 6.5 m)\n"
    "node Q at (16 m, 0 m)\n"
    "member ab from A to B section col of mix\n"
    "member bc from B to C section box of mix { rigid start 0.4 m end 0.5 m }\n"
    "member dc from D to C section col of mix\n"
    "member qp from Q to P section col of mix\n"
    "member fe from F to E section box of mix { rigid start 0.3 m end 0.4 m; hinge end }\n"
    "member be from B to D section rod of steel { axial_only }\n"
    "node M on bc at 4 m\n"
    "node T at (4 m, 9 m)\n"
    "member mn from M to T section box of mix\n"
    "bearing F on C { x fixed; y fixed; turn 2000 kN-m }\n"
    "bearing E on P { y push up; x 2 kN/mm }\n"
    "support A fixed\n"
    "support D fixed\n"
    "support Q fixed\n"
    "load live { uniform 20 kN/m on bc fe; point 5 kN on bc at start; point 6 kN on fe at end; point 7 kN on bc at 0.2 m; moment 8 kN-m on bc at 9.9 m; point 9 kN on bc at 4 m; point 12 kN at C; point 3 kN on be at 1 m; warm 10 degC on bc }\n"
    "load top { point 11 kN at T right }\n"
    "load more { uniform 2 kN/m on ab right }\n"
    "stage s1 { place ab dc qp bc fe be mn; load live more top; load live times 0.5; remove be; remove fe; place fe; remove mn; unload more; place be; unload live; load live; remove dc fe }\n"
    "stage s2 { place dc; unload live; remove bc; remove dc }\n";

static const char removed_from_bearings[] =
    MATERIALS
    "node G at (0 m, 0 m)\n"
    "node P at (0 m, 5 m)\n"
    "node H at (10 m, 0 m)\n"
    "node Q at (10 m, 5 m)\n"
    "node P2 at (0 m, 5 m)\n"
    "node Q2 at (10 m, 5 m)\n"
    "member pierP from G to P section col of mix\n"
    "member pierQ from H to Q section col of mix\n"
    "member d1 from P2 to Q2 section shallow of mix\n"
    "bearing P2 on P { x fixed; y fixed }\n"
    "bearing Q2 on Q { y fixed; x 5 MN/m}\n"
    "support G fixed\n"
    "support H fixed\n"
    "falsework f1 under d1 from 1 m to 9 m every 2 m { posts 2; stiffness 50 kN/mm }\n"
    "load live { uniform 20 kN/m on d1; point 5 kN at P2 right; point 7 kN at P right}\n"
    "stage s1 at 0 day { cast pierP pierQ }\n"
    "stage s2 at 10 day { erect f1; cast d1 }\n"
    "stage s3 at 20 day { release f1 from 3 m to 5 m; release f1;  load live }\n"
    "stage s4 at 30 day { remove d1 }\n";

/* clang-format on */

/* ---- sound results ----------------------------------------------------------------------------------------- */

typedef struct sound {
    const char *name, *text;
} sound;

static const sound sounds[] = {
    {"every_load", every_load},
    {"axial_members", axial_members},
    {"couple_on_axial", couple_on_axial},
    {"hinged_faces", hinged_faces},
    {"hinged_face_and_end", hinged_face_and_end},
    {"bearings", bearings},
    {"free_to_move", free_to_move},
    {"loaded_and_unloaded", loaded_and_unloaded},
    {"built_in_stages", built_in_stages},
    {"removed", removed},
    {"removed_from_bearings", removed_from_bearings},
};

static void assert_passes(const solved *m, kl_state state, const char *name)
{
    kl_audit audit;
    assert_int_equal(kl_audit_of_state(m->results, state, &audit), KL_OK);
    if (!audit.passed) {
        print_error("%s, state %d of kind %d, cause %d: force %g moment %g node %g member %g "
                    "residual %g\n",
                    name, (int)state.index, (int)state.kind, (int)state.cause.kind,
                    audit.force_error, audit.moment_error, audit.node_error, audit.member_error,
                    audit.residual);
    }
    assert_true(audit.passed);
}

static void assert_passes_by_cause(const solved *m, kl_state state, const char *name)
{
    kl_cause causes[32];
    kl_index count = DIM(causes);
    assert_passes(m, state, name);
    kl_state_causes(m->results, state, causes, &count);
    for (kl_index i = 0; i < count; i++) {
        assert_passes(m, kl_state_of_cause(state, causes[i]), name);
    }
}

static void audit_of_sound_results_passes(void **state)
{
    const sound *s = *state;
    solved m;
    solved_run(&m, s->text, NULL);
    for (kl_index i = 0; i < kl_step_count(m.results); i++) {
        assert_passes_by_cause(&m, kl_state_step(i), s->name);
    }
    for (kl_index i = 0; i < m.model->case_count; i++) {
        if (kl_case_is_solved(m.results, i)) {
            assert_passes_by_cause(&m, kl_state_case(i), s->name);
        }
    }
    for (kl_index i = 0; i < m.model->combination_count; i++) {
        assert_passes_by_cause(&m, kl_state_combination(i), s->name);
    }
    solved_close(&m);
}

/* ---- sums by hand ------------------------------------------------------------------------------------------ */

/* A beam of 1 m by 0.8 m, 10 m long, on falsework; a load of 20 kN/m on its left half. */
static const char plain_beam[] = MATERIALS
    "node A at (2 m, 3 m); node B at (12 m, 3 m)\nmember beam from A to B section box of mix\n"
    "support A pinned; support B roller\nfalsework posts under beam at 2 m, 5 m, 8 m { posts 1; "
    "stiffness 50 kN/mm }\nload half { uniform 20 kN/m on beam from 0 m to 5 m }\n"
    "stage pour { erect posts; cast beam }\nstage strike { release posts; load half }\n";

static void audit_sums_are_those_of_statics(void **state)
{
    (void)state;
    const double weight = 24e3 * 0.8 * 10.0;
    solved m;
    kl_audit audit;
    solved_run(&m, plain_beam, NULL);
    for (kl_index i = 0; i < kl_step_count(m.results); i++) {
        const bool built = i > 0;
        const bool loaded = i == kl_step_count(m.results) - 1;
        const double force = (built ? weight : 0.0) + (loaded ? 100e3 : 0.0);
        const double moment = (built ? weight * 7.0 : 0.0) + (loaded ? 100e3 * 4.5 : 0.0);
        assert_int_equal(kl_audit_of_state(m.results, kl_state_step(i), &audit), KL_OK);
        assert_close(audit.weight, built ? weight : 0.0, 1e-12, 0.0);
        assert_close(audit.load[0], 0.0, 0.0, 1e-6);
        assert_close(audit.load[1], -force, 1e-12, 0.0);
        assert_close(audit.load[2], -moment, 1e-12, 0.0);
        assert_close(audit.reaction[1], force, 1e-9, 0.0);
        assert_close(audit.reaction[2], moment, 1e-9, 0.0);
    }
    solved_close(&m);
}

static void audit_of_no_state_is_not_there(void **state)
{
    (void)state;
    solved m;
    kl_audit audit;
    solved_run(&m, plain_beam, NULL);
    assert_int_equal(kl_audit_of_state(m.results, kl_state_step(99), &audit), KL_NOT_THERE);
    assert_int_equal(kl_audit_of_state(m.results, kl_state_case(0), &audit), KL_NOT_THERE);
    solved_close(&m);
}

static void audit_with_tendons_as_loads_looks_at_the_whole(void **state)
{
    (void)state;
    solved m;
    kl_audit audit;
    kl_settings settings = kl_settings_default();
    settings.tendons_as_loads = true;
    solved_run(&m, built_in_stages, &settings);
    for (kl_index i = 0; i < kl_step_count(m.results); i++) {
        assert_int_equal(kl_audit_of_state(m.results, kl_state_step(i), &audit), KL_OK);
        assert_true(audit.passed);
        assert_true(isnan(audit.node_error) && isnan(audit.member_error));
    }
    solved_close(&m);
}

/* ---- errors ------------------------------------------------------------------------------------------------ */

/* What is made false, and which figure has to tell. */
typedef enum figure { FORCE, MOMENT, NODE, MEMBER, RESIDUAL, FIGURES } figure;

typedef struct falsehood {
    const char *name;
    size_t (*entry)(const solved *m); /* of the column that is changed; NULL: see `spoil` */
    void (*spoil)(state_record *record, form_span *spans);
    figure told;
} falsehood;

static kl_index found(const solved *m, kl_kind kind, const char *name)
{
    const kl_index index = kl_model_find(m->model, kind, name);
    assert_true(index >= 0);
    return index;
}

static size_t reaction_entry(const solved *m)
{
    return m->results->run.layout.reaction + 3 * (size_t)found(m, KL_KIND_NODE, "G") + 1;
}

static size_t couple_entry(const solved *m)
{
    return m->results->run.layout.reaction + 3 * (size_t)found(m, KL_KIND_NODE, "H") + 2;
}

static size_t row_entry(const solved *m)
{
    return m->results->run.layout.row + 3;
}

static size_t field_entry(const solved *m, size_t what)
{
    const mesh_member *cap = &m->results->run.mesh.members[found(m, KL_KIND_MEMBER, "cap")];
    return m->results->run.layout.field + FIELD_AT(cap->first, 2) + what;
}

static size_t axial_entry(const solved *m)
{
    return field_entry(m, FIELD_N);
}

static size_t shear_entry(const solved *m)
{
    return field_entry(m, FIELD_V);
}

static size_t moment_entry(const solved *m)
{
    return field_entry(m, FIELD_M);
}

static void spoil_share(state_record *record, form_span *spans)
{
    (void)record;
    spans[2].share[0] *= 1.001;
}

static void spoil_strike(state_record *record, form_span *spans)
{
    (void)record;
    spans[0].struck = true; /* one that also rests on a node */
}

static void spoil_residual(state_record *record, form_span *spans)
{
    (void)spans;
    record->residual = 2e-9;
}

static const falsehood falsehoods[] = {
    {"reaction", reaction_entry, NULL, FORCE},
    {"reaction", reaction_entry, NULL, NODE},
    {"reaction", reaction_entry, NULL, MOMENT},
    {"couple of a support", couple_entry, NULL, MOMENT},
    {"couple of a support", couple_entry, NULL, NODE},
    {"force of a row", row_entry, NULL, FORCE},
    {"force of a row", row_entry, NULL, MEMBER},
    {"axial force", axial_entry, NULL, MEMBER},
    {"axial force", axial_entry, NULL, NODE},
    {"shear", shear_entry, NULL, MEMBER},
    {"shear", shear_entry, NULL, NODE},
    {"moment", moment_entry, NULL, MEMBER},
    {"moment", moment_entry, NULL, NODE},
    {"share of a form", NULL, spoil_share, FORCE},
    {"share of a form", NULL, spoil_share, MEMBER},
    {"struck form", NULL, spoil_strike, NODE},
    {"residual", NULL, spoil_residual, RESIDUAL},
};

static void figures_of(const kl_audit *audit, double out[FIGURES])
{
    out[FORCE] = audit->force_error;
    out[MOMENT] = audit->moment_error;
    out[NODE] = audit->node_error;
    out[MEMBER] = audit->member_error;
    out[RESIDUAL] = audit->residual;
}

/* One millionth of the model's forces in one number of the step in which the members have just set. */
static void audit_sees_a_false_number(void **state)
{
    const falsehood *f = *state;
    solved m;
    kl_audit audit;
    double figures[FIGURES];
    double *block = NULL;
    solved_run(&m, built_in_stages, NULL);
    const kl_index step = 2;
    state_record *record = &m.results->steps[step];
    form_span *copy = mem_array(record->span_count, sizeof(form_span));
    assert_non_null(copy);
    memcpy(copy, record->spans, record->span_count * sizeof(form_span));
    record->spans = copy;
    assert_passes(&m, kl_state_step(step), f->name);
    if (f->entry) {
        const size_t size = m.results->run.layout.size;
        block = mem_array(size, sizeof(double));
        assert_non_null(block);
        memcpy(block, record->set.columns[0].data, size * sizeof(double));
        block[f->entry(&m)] += 1e-6 * record->largest_force;
        record->set.columns[0].data = block;
    } else {
        f->spoil(record, copy);
    }
    double force;
    assert_int_equal(audit_state(m.results, kl_state_step(step), &audit, &force), KL_OK);
    figures_of(&audit, figures);
    assert_false(audit.passed);
    assert_true(figures[f->told] > NEAR_BALANCE);
    m.results->run.diags = m.diags;
    assert_int_equal(audit_require(m.results, kl_state_step(step), KL_NOWHERE), KL_NUMERIC);
    const kl_diag *last = kl_diags_get(m.diags, kl_diags_count(m.diags) - 1);
    assert_string_equal(last->name, "audit-failed");
    mem_free(block);
    mem_free(copy);
    solved_close(&m);
}

/* ---- memory ------------------------------------------------------------------------------------------------ */

static void audit_without_memory_says_so(void **state)
{
    (void)state;
    solved m;
    kl_audit audit;
    double force;
    solved_run(&m, built_in_stages, NULL);
    const kl_index last = kl_step_count(m.results) - 1;
    kl_status status = KL_NO_MEMORY;
    long k = 0;
    for (; status != KL_OK && k < 100; k++) {
        fault_after(k);
        status = audit_state(m.results, kl_state_step(last), &audit, &force);
        fault_after(-1);
        assert_true(status == KL_OK || status == KL_NO_MEMORY);
    }
    assert_int_equal(status, KL_OK);
    assert_true(k > 5);
    assert_true(audit.passed);
    solved_close(&m);
}

/* ---- the list ---------------------------------------------------------------------------------------------- */

/* cmocka hands the case over as void *: the one cast from const is here. */
static struct CMUnitTest a_case(const char *name, CMUnitTestFunction test, const void *row)
{
    union {
        const void *given;
        void *wanted;
    } pass = {row};
    return (struct CMUnitTest){.name = name, .test_func = test, .initial_state = pass.wanted};
}

int main(void)
{
    struct CMUnitTest tests[DIM(sounds) + DIM(falsehoods) + 4] = {
        cmocka_unit_test(audit_sums_are_those_of_statics),
        cmocka_unit_test(audit_of_no_state_is_not_there),
        cmocka_unit_test(audit_with_tendons_as_loads_looks_at_the_whole),
        cmocka_unit_test(audit_without_memory_says_so)};
    size_t count = 4;
    for (size_t i = 0; i < DIM(sounds); i++) {
        tests[count++] = a_case(sounds[i].name, audit_of_sound_results_passes, &sounds[i]);
    }
    for (size_t i = 0; i < DIM(falsehoods); i++) {
        tests[count++] = a_case(falsehoods[i].name, audit_sees_a_false_number, &falsehoods[i]);
    }
    return cmocka_run_group_tests(tests, NULL, NULL);
}
