/* test_bind.c - from text to a model: values, references, sets, likeness, stations, loads, stages, questions.
 *
 * Rows of tables: a text, one number of the model made of it, and the value worked out by hand from the definitions
 * of the units (1 ft = 0.3048 m, 1 lb = 4.4482216152605 N, exact) and of the language. Malformed models are the
 * files of tests/cli/bad: each begins with the name of the message it must draw.
 * SPDX-License-Identifier: MIT */
#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "arena.h"
#include "assert_close.h"
#include "bind.h"
#include "fault.h"
#include "parser.h"
#include "source.h"

#define DIM(array) ((int)(sizeof(array) / sizeof((array)[0])))
#define FT         0.3048
#define INCH       0.0254
#define KIP        4448.2216152605
#define KSI        (KIP / (INCH * INCH))
#define PI         3.14159265358979323846

/* ---- from text to a model ---------------------------------------------------------------------------------- */

typedef struct bound {
    text_sources sources;
    arena memory;
    kl_diags *diags;
    kl_model *model;
    kl_status status;
} bound;

static void bind_text_into(bound *t, const char *text)
{
    text_document document;
    *t = (bound){.status = KL_NO_MEMORY};
    t->diags = kl_diags_create();
    if (t->diags == NULL) {
        return;
    }
    t->status =
        text_parse_text(&t->sources, "test", text, strlen(text), &t->memory, t->diags, &document);
    if (t->status == KL_OK) {
        t->status = bind_document(&document, t->diags, &t->model);
    }
}

static void release(bound *t)
{
    kl_model_destroy(t->model);
    kl_diags_destroy(t->diags);
    arena_free(&t->memory);
    source_free(&t->sources);
}

static void show_messages(const bound *t)
{
    for (kl_index i = 0; i < kl_diags_count(t->diags); i++) {
        const kl_diag *diag = kl_diags_get(t->diags, i);
        print_error("%s: %s (%s)\n", diag->name, diag->message, diag->hint ? diag->hint : "-");
    }
}

static void bind_well(bound *t, const char *text)
{
    bind_text_into(t, text);
    if (t->status != KL_OK) {
        show_messages(t);
    }
    assert_int_equal(t->status, KL_OK);
    assert_non_null(t->model);
}

/* ---- numbers ----------------------------------------------------------------------------------------------- */

/* A frame in feet: a level cap of 40 ft on two columns, and a rafter that climbs 3 in 4. */
#define FRAME_US                                                                                   \
    "concrete mix { strength 6 ksi; unit_weight 150 pcf; modulus aashto 2020 }\n"                  \
    "prestressing steel { ultimate 270 ksi; yield 243 ksi; modulus 28500 ksi }\n"                  \
    "section cap { rectangle width 7 ft depth 6.5 ft }\n"                                          \
    "section round { circle diameter 6 ft }\n"                                                     \
    "node L at (0 ft, 24 ft)\nnode R at (40 ft, 24 ft)\n"                                          \
    "node A at (10 ft, 0 ft)\nnode B at (30 ft, 0 ft)\n"                                           \
    "member cap from L to R section cap of mix\n"                                                  \
    "node C on cap at 10 ft\nnode D on cap at 30 ft\n"                                             \
    "member col_1 from A to C section round of mix { rigid end 3 ft 3 in }\n"                      \
    "member col_2 from B to D section round of mix\n"                                              \
    "node P at (0 ft, 100 ft)\nnode Q at (40 ft, 130 ft)\n"                                        \
    "member rafter from P to Q section cap of mix\n"                                               \
    "set columns col_1 col_2\n"                                                                    \
    "support A fixed\nsupport B x fixed y fixed turn 1e6 kip-ft/rad\n"

#define STEEL_US "of steel; strands 19 area 0.217 in^2; "
#define PROFILE_US                                                                                 \
    "profile from bottom { anchor at 0 ft height 3 ft; low at mid height 1 ft; "                   \
    "anchor at end height 3 ft }\n"
#define TENDON_US                                                                                  \
    "tendon T1 in cap { " STEEL_US "count 2; " PROFILE_US "friction 0.2; wobble 0.0002 per ft\n"   \
    "seating 1/4 in; jack start then end ratio 0.75; duct 4-1/2 in offset 3/4 in }\n"

typedef struct number_case {
    const char *test, *text;
    double (*get)(const kl_model *model);
    double want;
} number_case;

#define GET(function, value)                                                                       \
    static double function(const kl_model *m)                                                      \
    {                                                                                              \
        return (double)(value);                                                                    \
    }

GET(strength, m->materials[0].strength)
GET(transfer, m->materials[1].transfer_strength)
GET(second_weight, m->materials[1].unit_weight)
GET(unit_weight, m->materials[0].unit_weight)
GET(modulus, m->materials[0].modulus)
GET(modulus_law, m->materials[0].modulus_law)
GET(expansion, m->materials[0].expansion)
GET(gain, m->materials[0].gain)
GET(cement, m->materials[0].cement)
GET(cured, m->materials[0].cured)
GET(material_kind, m->materials[0].kind)

static const number_case materials[] = {
    {"strength_ksi", "concrete c { strength 6 ksi }", strength, 6 * KSI},
    {"strength_mpa", "concrete c { strength 40 MPa }", strength, 40e6},
    {"weight_pcf", "concrete c { unit_weight 150 pcf }", unit_weight,
     150 * KIP / 1000 / FT / FT / FT},
    {"weight_density", "concrete c { unit_weight 2400 kg/m^3 }", unit_weight, 2400 * 9.80665},
    {"modulus_law", "concrete c { modulus aashto 2020 }", modulus_law, KL_LAW_AASHTO_2020},
    {"modulus_aci", "concrete c { modulus aci 2019 }", modulus_law, KL_LAW_ACI_2019},
    {"modulus_en", "concrete c { modulus en1992 2004 }", modulus_law, KL_LAW_EN1992_2004},
    {"modulus_mc", "concrete c { modulus mc1990 }", modulus_law, KL_LAW_MC1990},
    {"modulus_value", "concrete c { modulus 30 GPa }", modulus, 30e9},
    {"modulus_value_law", "concrete c { modulus 30 GPa }", modulus_law, KL_LAW_VALUE},
    {"gain", "concrete c { gain aci209 1992 }", gain, KL_LAW_ACI209_1992},
    {"gain_unset", "concrete c { strength 30 MPa }", gain, KL_LAW_UNSET},
    {"cement", "concrete c { cement rapid }", cement, KL_CEMENT_RAPID},
    {"cured", "concrete c { cured 7 day }", cured, 7 * 86400.0},
    {"expansion", "concrete c { expansion 6e-6 per degF }", expansion, 6e-6 * 1.8},
    {"elastic", "material oak { modulus 11 GPa }", material_kind, KL_ELASTIC},
    {"like_takes_over",
     "concrete a { unit_weight 24 kN/m^3; strength 40 MPa; transfer_strength 30 MPa }\n"
     "concrete b like a { strength 50 MPa }",
     transfer, 30e6},
    {"like_before", "concrete b like a { strength 50 MPa }\nconcrete a { unit_weight 25 kN/m^3 }",
     second_weight, 25e3},
};

GET(width, m->sections[0].width)
GET(last_width, m->sections[m->section_count - 1].width)
GET(last_depth, m->sections[m->section_count - 1].depth)
GET(last_shape, m->sections[m->section_count - 1].shape)
GET(last_area, m->sections[m->section_count - 1].area)
GET(cells, m->sections[0].cells)
GET(overhang, m->sections[0].overhang)
GET(line, m->sections[0].line)
GET(flexible, m->sections[0].shear_flexible)
GET(turned, m->sections[0].turned)
GET(outline_x, m->sections[0].outline.points[1].x)
GET(void_count, m->sections[0].void_count)
GET(void_y, m->sections[0].voids[0].points[2].y)
GET(bar_area, m->sections[0].rebar[0].bar_area)
GET(bar_depth, m->sections[0].rebar[1].depth)
GET(bars, m->sections[0].rebar[1].count)
GET(shear_area, m->sections[0].shear_area)

#define BOX                                                                                        \
    "box width 10 m depth 2 m cells 3 top_slab 25 cm bottom_slab 20 cm web_width 30 cm overhang "  \
    "1 m"
#define OUTLINE                                                                                    \
    "outline (0 ft, 0 ft), (4 ft, 0 ft), (4 ft, 3 ft), (0 ft, 3 ft)\n"                             \
    "void (1 ft, 1 ft), (2 ft, 1 ft), (2 ft, 2 ft), (1 ft, 2 ft)\n"

static const number_case sections[] = {
    {"rectangle", "section s { rectangle width 7 ft depth 78 in }", width, 7 * FT},
    {"rectangle_block", "section s { rectangle { width 7 ft; depth 6.5 ft } }", last_depth,
     6.5 * FT},
    {"compound_length", "section s { rectangle width 12 ft 6 in depth 1 m }", width, 12.5 * FT},
    {"box_cells", "section s { " BOX " }", cells, 3},
    {"box_overhang", "section s { " BOX " }", overhang, 1.0},
    {"box_plain_cells",
     "section s { box width 4 m depth 2 m top_slab 20 cm bottom_slab 20 cm web_width 30 cm }",
     cells, 1},
    {"bare", "section s { area 45.5 ft^2; inertia 160 ft^4 }", last_area, 45.5 * FT *FT},
    {"bare_width", "section s { area 1 m^2; width 2 m }", width, 2.0},
    {"line_top", "section s { rectangle width 1 m depth 1 m; line top }", line, KL_LINE_TOP},
    {"shear", "section s { rectangle width 1 m depth 1 m; shear flexible }", flexible, 1},
    {"shear_area", "section s { rectangle width 1 m depth 1 m; shear_area 0.8 m^2 }", shear_area,
     0.8},
    {"turned", "section s { rectangle width 1 m depth 2 m; turned 30 deg }", turned, PI / 6},
    {"outline", "section s { " OUTLINE " }", outline_x, 4 * FT},
    {"voids", "section s { " OUTLINE " }", void_count, 1},
    {"void_points", "section s { " OUTLINE " }", void_y, 2 * FT},
    {"rebar",
     "reinforcing g { yield 60 ksi; modulus 29000 ksi }\nsection s { circle diameter 6 ft\n"
     "rebar 10 area 1.56 in^2 depth 4 in of g\nrebar 8 area 1 in^2 depth 68 in of g }",
     bar_area, 1.56 * INCH *INCH},
    {"rebar_second",
     "reinforcing g { yield 60 ksi; modulus 29000 ksi }\nsection s { circle diameter 6 ft\n"
     "rebar 10 area 1.56 in^2 depth 4 in of g\nrebar 8 area 1 in^2 depth 68 in of g }",
     bar_depth, 68 * INCH},
    {"rebar_count",
     "reinforcing g { yield 60 ksi; modulus 29000 ksi }\nsection s { circle diameter 6 ft\n"
     "rebar 10 area 1.56 in^2 depth 4 in of g\nrebar 8 area 1 in^2 depth 68 in of g }",
     bars, 8},
    {"like_same_shape_width",
     "section a { rectangle width 3 m depth 1 m }\n"
     "section b like a { rectangle width 3 m depth 2 m }",
     last_width, 3.0},
    {"like_written",
     "section a { rectangle width 3 m depth 1 m }\n"
     "section b like a { rectangle width 3 m depth 2 m }",
     last_depth, 2.0},
    {"like_other_shape",
     "section a { rectangle width 3 m depth 1 m }\n"
     "section b like a { circle diameter 2 m }",
     last_shape, KL_CIRCLE},
};

GET(node_c_x, m->nodes[kl_model_find(m, KL_KIND_NODE, "C")].x)
GET(node_c_station, m->nodes[kl_model_find(m, KL_KIND_NODE, "C")].station)
GET(last_x, m->nodes[m->node_count - 1].x)
GET(last_y, m->nodes[m->node_count - 1].y)
GET(last_station, m->nodes[m->node_count - 1].station)
GET(rigid_end, m->members[1].rigid_end)
GET(last_from, m->members[m->member_count - 1].from)
GET(last_mesh, m->members[m->member_count - 1].mesh)
GET(last_age, m->members[m->member_count - 1].age)
GET(last_rows, m->members[m->member_count - 1].section_count)
GET(last_row_1, m->members[m->member_count - 1].sections[1].station)
GET(last_row_2, m->members[m->member_count - 1].sections[2].station)
GET(last_hinges, m->members[m->member_count - 1].hinge_count)
GET(last_hinge, m->members[m->member_count - 1].hinges[0])
GET(last_hinge_start, m->members[m->member_count - 1].hinge_start)
GET(last_hinge_end, m->members[m->member_count - 1].hinge_end)
GET(last_flags,
    10 * m->members[m->member_count - 1].axial_only + m->members[m->member_count - 1].weightless)
GET(last_rigid, m->members[m->member_count - 1].rigid_start)

#define BEAM "member beam from P to Q section cap of mix "

static const number_case frames[] = {
    {"node_on_member", FRAME_US, node_c_x, 10 * FT},
    {"node_on_member_station", FRAME_US, node_c_station, 10 * FT},
    {"rigid_compound", FRAME_US, rigid_end, 39 * INCH},
    {"node_share", FRAME_US "node X on rafter at 0.4 of length", last_x, 16 * FT},
    {"node_mid", FRAME_US "node X on rafter at mid", last_y, 115 * FT},
    {"node_level", FRAME_US "node X on rafter at level 20 ft", last_station, 25 * FT},
    {"node_before_member",
     "node X on beam at 2 m\nmember beam from E to F section s of e\n"
     "node E at (0 m, 0 m)\nnode F at (5 m, 0 m)\n"
     "section s { area 1 m^2; inertia 1 m^4 }\nmaterial e { modulus 1 GPa }",
     last_station, 2.0},
    {"node_square", "skew 60 deg\n" FRAME_US "node X on cap at square 5 ft", last_station, 10 * FT},
    {"mesh", FRAME_US BEAM "{ mesh 2 ft }", last_mesh, 2 * FT},
    {"age", FRAME_US BEAM "{ age 60 day }", last_age, 60 * 86400.0},
    {"rigid_level", FRAME_US BEAM "{ rigid start level 4 ft }", last_rigid, 5 * FT},
    {"flags", FRAME_US BEAM "axial_only weightless", last_flags, 11},
    {"one_section", FRAME_US BEAM, last_rows, 1},
    {"sections",
     FRAME_US "section deep { rectangle width 7 ft depth 9 ft }\n"
              "member beam from P to Q of mix { section cap at start\nsection deep at level 8 ft\n"
              "section deep at end }",
     last_row_1, 10 * FT},
    {"section_end",
     FRAME_US "section deep { rectangle width 7 ft depth 9 ft }\n"
              "member beam from P to Q of mix { section cap at start\nsection deep at level 8 ft\n"
              "section deep at end }",
     last_row_2, 50 * FT},
    {"section_at_node",
     FRAME_US "section deep { rectangle width 7 ft depth 9 ft }\n"
              "node X on beam at 30 ft\n"
              "member beam from P to Q of mix { section cap at P\nsection deep at X\n"
              "section deep at Q }",
     last_row_1, 30 * FT},
    {"hinge", FRAME_US BEAM "{ hinge at 12 ft; hinge end }", last_hinge, 12 * FT},
    {"hinge_count", FRAME_US BEAM "{ hinge at 12 ft; hinge end }", last_hinges, 1},
    {"hinge_end", FRAME_US BEAM "{ hinge at 12 ft; hinge end }", last_hinge_end, 1},
    {"hinge_at_start", FRAME_US BEAM "{ hinge at start }", last_hinge_start, 1},
    {"member_from", FRAME_US BEAM, last_from, 4},
};

GET(support_turn, m->supports[1].hold[KL_TURN].stiffness)
GET(support_kind, m->supports[m->support_count - 1].hold[KL_Y].kind)
GET(support_x, m->supports[m->support_count - 1].hold[KL_X].kind)
GET(support_slope, m->supports[m->support_count - 1].slope)
GET(support_fixed_turn, m->supports[0].hold[KL_TURN].kind)
GET(bearing_y, m->bearings[0].hold[KL_Y].kind)
GET(bearing_base, m->bearings[0].base)

static const number_case supports[] = {
    {"fixed", FRAME_US, support_fixed_turn, KL_FIXED},
    {"spring", FRAME_US, support_turn, 1e6 * KIP *FT},
    {"push_up", FRAME_US "support L y push up", support_kind, KL_PUSH_PLUS},
    {"push_left", FRAME_US "support L x push left", support_x, KL_PUSH_MINUS},
    {"pinned", FRAME_US "support L pinned", support_x, KL_FIXED},
    {"roller", FRAME_US "support L roller", support_x, KL_FREE},
    {"roller_y", FRAME_US "support L roller", support_kind, KL_FIXED},
    {"roller_slope", FRAME_US "support L roller slope 30 deg", support_slope, PI / 6},
    {"bearing", FRAME_US "node X at (0 ft, 24 ft)\nbearing X on L { x free; y push up }", bearing_y,
     KL_PUSH_PLUS},
    {"bearing_base", FRAME_US "node X at (0 ft, 24 ft)\nbearing X on L { x free; y push up }",
     bearing_base, 0},
};

GET(jack_force, m->tendons[m->tendon_count - 1].jack_force)
GET(jack_ends, m->tendons[m->tendon_count - 1].jack_ends)
GET(wobble, m->tendons[m->tendon_count - 1].wobble)
GET(has_wobble, m->tendons[m->tendon_count - 1].has_wobble)
GET(seating, m->tendons[0].seating)
GET(duct, m->tendons[m->tendon_count - 1].duct)
GET(offset, m->tendons[m->tendon_count - 1].offset)
GET(row_count, m->tendons[m->tendon_count - 1].row_count)
GET(row_station, m->tendons[m->tendon_count - 1].rows[1].station)
GET(row_height, m->tendons[m->tendon_count - 1].rows[1].ordinate)
GET(row_datum, m->tendons[m->tendon_count - 1].rows[1].datum)
GET(row_kind, m->tendons[m->tendon_count - 1].rows[1].kind)
GET(row_straight, m->tendons[m->tendon_count - 1].rows[1].straight)
GET(row_last, m->tendons[m->tendon_count - 1].rows[2].station)
GET(bend_angle, m->tendons[m->tendon_count - 1].bends[0].angle)
GET(bend_to, m->tendons[m->tendon_count - 1].bends[0].to)
GET(bend_count, m->tendons[m->tendon_count - 1].bend_count)
GET(bond, m->tendons[m->tendon_count - 1].bond)
GET(is_bar, m->tendons[m->tendon_count - 1].is_bar)
GET(units, m->tendons[m->tendon_count - 1].units)
GET(count, m->tendons[m->tendon_count - 1].count)
GET(reference, m->tendons[m->tendon_count - 1].reference)
GET(range, kl_tendon_range(m, m->tendon_count - 1))

#define TENDON_WITH(jack) "tendon T in cap { " STEEL_US "count 4; " PROFILE_US jack " }"
#define AREA              (19 * 0.217 * INCH * INCH)
#define SPANS                                                                                      \
    FRAME_US "node S at (80 ft, 24 ft)\nmember next from R to S section cap of mix\n"              \
             "tendon T in cap next { " STEEL_US                                                    \
             "profile { anchor at start height 0 ft; low at R height -1 ft; "                      \
             "anchor at 0.75 of length height 0 ft }\njack start ratio 0.7; friction 0.2 }"

static const number_case tendons[] = {
    {"ratio", FRAME_US TENDON_US, jack_force, 0.75 * 270 * KSI *AREA},
    {"stress", FRAME_US TENDON_WITH("jack both stress 200 ksi"), jack_force, 200 * KSI *AREA},
    {"force", FRAME_US TENDON_WITH("jack both force 800 kip"), jack_force, 800 * KIP},
    {"force_total", FRAME_US TENDON_WITH("jack both force 3200 kip total"), jack_force, 800 * KIP},
    {"anchorage_friction_is_outside",
     FRAME_US TENDON_WITH("anchorage_friction 3 %; jack both force 800 kip"), jack_force,
     800 * KIP},
    {"ends", FRAME_US TENDON_US, jack_ends, KL_JACK_START_THEN_END},
    {"ends_both", FRAME_US TENDON_WITH("jack both ratio 0.7"), jack_ends, KL_JACK_BOTH},
    {"ends_back", FRAME_US TENDON_WITH("jack end then start ratio 0.7"), jack_ends,
     KL_JACK_END_THEN_START},
    {"wobble", FRAME_US TENDON_US, wobble, 0.0002 / FT},
    {"unintended_angle",
     FRAME_US TENDON_WITH("jack both ratio 0.7; unintended_angle 0.01 per m; friction 0.19"),
     wobble, 0.0019},
    {"no_wobble", FRAME_US TENDON_WITH("jack both ratio 0.7"), has_wobble, 0},
    {"seating", FRAME_US TENDON_US, seating, 0.25 * INCH},
    {"duct", FRAME_US TENDON_US, duct, 4.5 * INCH},
    {"offset", FRAME_US TENDON_US, offset, 0.75 * INCH},
    {"rows", FRAME_US TENDON_US, row_count, 3},
    {"row_mid", FRAME_US TENDON_US, row_station, 20 * FT},
    {"row_bottom", FRAME_US TENDON_US, row_datum, KL_FROM_BOTTOM},
    {"row_low", FRAME_US TENDON_US, row_kind, KL_ROW_LOW},
    {"like", FRAME_US TENDON_US "tendon T2 like T1 { raise 9 in }", jack_force,
     0.75 * 270 * KSI *AREA},
    {"like_duct", FRAME_US TENDON_US "tendon T2 like T1 { raise 9 in }", offset, 0.75 * INCH},
    {"raise", FRAME_US TENDON_US "tendon T2 like T1 { raise 9 in }", row_height, 1 * FT + 9 * INCH},
    {"raise_twice",
     FRAME_US "tendon T3 like T2 { raise 3 in }\ntendon T2 like T1 { raise 9 in }\n" TENDON_US,
     row_height, 2 * FT},
    {"raise_depth",
     FRAME_US "tendon T in cap { " STEEL_US "profile from top { anchor at start depth 3 ft\n"
              "low at mid depth 5 ft\nanchor at end depth 3 ft }\njack start ratio 0.7 }\n"
              "tendon U like T { raise 1 ft }",
     row_height, 4 * FT},
    {"depth_in_any_profile",
     FRAME_US "tendon T in cap { " STEEL_US "profile from bottom { anchor at start height 3 ft\n"
              "high at mid depth 1 ft\nanchor at end height 3 ft }\njack start ratio 0.7 }\n",
     row_datum, KL_FROM_TOP},
    {"straight",
     FRAME_US "tendon T in cap { " STEEL_US "profile { anchor at start height 0 ft\n"
              "anchor at 30 ft height 1 ft straight }\njack start ratio 0.7 }\n",
     row_straight, 1},
    {"like_count", FRAME_US TENDON_US "tendon T2 like T1 { count 3 }", count, 3},
    {"like_strands", FRAME_US TENDON_US "tendon T2 like T1 { strands 12 area 0.217 in^2 }",
     jack_force, 0.75 * 270 * KSI * 12 * 0.217 * INCH *INCH},
    {"like_duct_is_replaced_whole", FRAME_US TENDON_US "tendon T2 like T1 { duct 5 in }", offset,
     0},
    {"like_bars", FRAME_US TENDON_US "tendon T2 like T1 { bars 2 area 1 in^2 }", units, 2},
    {"like_jack", FRAME_US TENDON_US "tendon T2 like T1 { jack end force 500 kip }", jack_force,
     500 * KIP},
    {"bars",
     FRAME_US "tendon T in cap { of steel; bars 1 area 1.58 in^2; " PROFILE_US
              "jack start ratio 0.6 }",
     is_bar, 1},
    {"bond", FRAME_US TENDON_WITH("jack both ratio 0.7; bonded grouted"), bond, KL_GROUTED},
    {"unbonded", FRAME_US TENDON_WITH("jack both ratio 0.7; unbonded"), bond, KL_UNBONDED},
    {"reference", FRAME_US TENDON_WITH("jack both ratio 0.7; reference 20 %"), reference, 0.2},
    {"bend", FRAME_US TENDON_WITH("jack both ratio 0.7; bend 3 deg from 4 ft to mid"), bend_angle,
     PI / 60},
    {"bend_to", FRAME_US TENDON_WITH("jack both ratio 0.7; bend 3 deg from 4 ft to mid"), bend_to,
     20 * FT},
    {"bend_inherited",
     FRAME_US
     "tendon T in cap { " STEEL_US PROFILE_US
     "bend 0.05 rad from 0 ft to 10 ft\njack start ratio 0.7 }\ntendon U like T { count 3 }",
     bend_count, 1},
    {"spans_range", SPANS, range, 80 * FT},
    {"spans_node", SPANS, row_station, 40 * FT},
    {"spans_share", SPANS, row_last, 60 * FT},
    {"spans_line_datum", SPANS, row_datum, KL_FROM_LINE},
};

GET(rows, m->falsework[m->falsework_count - 1].row_count)
GET(row_0, m->falsework[m->falsework_count - 1].stations[0])
GET(row_end,
    m->falsework[m->falsework_count - 1]
        .stations[m->falsework[m->falsework_count - 1].row_count - 1])
GET(post_stiffness, m->falsework[m->falsework_count - 1].stiffness)
GET(posts, m->falsework[m->falsework_count - 1].posts)
GET(capacity, m->falsework[m->falsework_count - 1].capacity)
GET(takeup, m->falsework[m->falsework_count - 1].takeup)
GET(carrier, m->falsework[m->falsework_count - 1].carrier)
GET(stringer, m->falsework[m->falsework_count - 1].stringer_section)

#define FALSEWORK(where, block)                                                                    \
    FRAME_US "falsework f under cap " where " { stiffness 450 kip/in; " block " }\n"

static const number_case falseworks[] = {
    {"list", FALSEWORK("at 4 ft, 10 ft, 36 ft", ""), rows, 3},
    {"list_goes_on", FALSEWORK("at 4 ft, 10 ft,\n 36 ft", ""), row_end, 36 * FT},
    {"every", FALSEWORK("from 2 ft to 38 ft every 6 ft", ""), rows, 7},
    {"every_with_rest", FALSEWORK("from 2 ft to 37 ft every 6 ft", ""), row_end, 32 * FT},
    {"every_includes_end", FALSEWORK("from 0 ft to 5.1 ft every 1.7 ft", ""), rows, 4},
    {"every_level",
     FRAME_US "falsework f under rafter from level 4 ft to level 36 ft every level 8 ft "
              "{ stiffness 450 kip/in }",
     row_end, 45 * FT},
    {"stiffness", FALSEWORK("at 4 ft", "posts 2"), post_stiffness, 450 * KIP / INCH},
    {"posts", FALSEWORK("at 4 ft", "posts 2"), posts, 2},
    {"one_post", FALSEWORK("at 4 ft", ""), posts, 1},
    {"capacity", FALSEWORK("at 4 ft", "capacity 30 kip"), capacity, 30 * KIP},
    {"takeup", FALSEWORK("at 4 ft", "takeup 0.25 in"), takeup, 0.25 * INCH},
    {"ground", FALSEWORK("at 4 ft", ""), carrier, KL_NONE},
    {"carrier", FRAME_US "falsework f under rafter at 4 ft { stiffness 450 kip/in; on cap }",
     carrier, 0},
    {"no_stringer", FALSEWORK("at 4 ft", ""), stringer, KL_NONE},
    {"stringer", FALSEWORK("at 4 ft", "stringer round of mix"), stringer, 1},
    {"like", FALSEWORK("at 4 ft, 9 ft", "posts 3") "falsework g like f { at 5 ft }", posts, 3},
    {"like_rows", FALSEWORK("at 4 ft, 9 ft", "posts 3") "falsework g like f { at 5 ft }", row_0,
     5 * FT},
    {"like_same_rows", FALSEWORK("at 4 ft, 9 ft", "posts 3") "falsework g like f { posts 4 }", rows,
     2},
};

GET(loads, m->cases[0].load_count)
GET(kind, m->cases[0].loads[0].kind)
GET(value, m->cases[0].loads[0].value)
GET(value_end, m->cases[0].loads[0].value_end)
GET(dx, m->cases[0].loads[0].dx)
GET(dy, m->cases[0].loads[0].dy)
GET(frame, m->cases[0].loads[0].frame)
GET(from, m->cases[0].loads[0].from)
GET(to, m->cases[0].loads[0].to)
GET(last_from_station, m->cases[0].loads[m->cases[0].load_count - 1].from)
GET(last_member, m->cases[0].loads[m->cases[0].load_count - 1].member)
GET(at_node, m->cases[0].loads[0].node)
GET(level, m->cases[0].loads[0].per_level)
GET(point_depth, m->cases[0].loads[0].points[1].depth)
GET(point_warm, m->cases[0].loads[0].points[0].temperature)
GET(load_tendon, m->cases[0].loads[0].tendon)
GET(whole_to, isnan(m->cases[0].loads[0].to))

#define LOAD(text) FRAME_US "load g { " text " }"
#define KLF        (KIP / FT)

static const number_case loads_table[] = {
    {"point", LOAD("point 240 kip on cap at 14 ft"), value, 240 * KIP},
    {"point_station", LOAD("point 240 kip on cap at 14 ft"), from, 14 * FT},
    {"point_down", LOAD("point 240 kip on cap at 14 ft"), dy, -1},
    {"point_node", LOAD("point 12 kip at B right"), at_node, 3},
    {"point_right", LOAD("point 12 kip at B right"), dx, 1},
    {"point_up", LOAD("point 12 kip on cap at C up"), dy, 1},
    {"point_at_node_of_member", LOAD("point 12 kip on cap at C up"), from, 10 * FT},
    {"point_across", LOAD("point 12 kip on rafter at mid across"), frame, KL_LOCAL},
    {"point_across_to_bottom", LOAD("point 12 kip on rafter at mid across"), dy, -1},
    {"point_along", LOAD("point 12 kip on rafter at mid along"), dx, 1},
    {"point_signed", LOAD("point -12 kip on cap at 3 ft"), value, -12 * KIP},
    {"every", LOAD("point 240 kip on cap from 4 ft to 38 ft every 8 ft 6 in"), loads, 5},
    {"every_last", LOAD("point 240 kip on cap from 4 ft to 38 ft every 8 ft 6 in"),
     last_from_station, 38 * FT},
    {"set", LOAD("uniform 1 klf on columns right"), loads, 2},
    {"set_members", LOAD("uniform 1 klf on columns right"), last_member, 2},
    {"list", LOAD("uniform 1 klf on cap rafter"), loads, 2},
    {"uniform", LOAD("uniform 2.4 klf on cap from 3 ft to 40 ft"), value, 2.4 * KLF},
    {"uniform_end", LOAD("uniform 2.4 klf on cap from 3 ft to 40 ft"), value_end, 2.4 * KLF},
    {"uniform_to", LOAD("uniform 2.4 klf on cap from 3 ft to 39 ft"), to, 39 * FT},
    {"uniform_whole", LOAD("uniform 2.4 klf on cap"), whole_to, 1},
    {"uniform_level", LOAD("uniform level 2 klf on rafter"), level, 1},
    {"uniform_level_flag", LOAD("uniform 2 klf on rafter level"), value, 2 * KLF},
    {"uniform_square", "skew 60 deg\n" LOAD("uniform square 2 klf on cap"), value, 1 * KLF},
    {"uniform_square_zero", "skew 0 deg\n" LOAD("uniform 2 klf on cap square"), value, 2 * KLF},
    {"uniform_si", LOAD("uniform 35 kN/m on cap"), value, 35e3},
    {"ramp", LOAD("ramp start 0 klf end 3 klf on cap from 0 ft to 40 ft"), value_end, 3 * KLF},
    {"ramp_kind", LOAD("ramp start 0 klf end 3 klf on cap"), kind, KL_LOAD_DISTRIBUTED},
    {"moment_node", LOAD("moment 50 kip-ft at B clockwise"), value, -50 * KIP *FT},
    {"moment_member", LOAD("moment 50 kip-ft on cap at 10 ft"), value, 50 * KIP *FT},
    {"settle", LOAD("settle 0.5 in at A down"), value, 0.5 * INCH},
    {"settle_down", LOAD("settle 0.5 in at A down"), dy, -1},
    {"settle_left", LOAD("settle 0.5 in at A left"), dx, -1},
    {"turn", LOAD("turn 0.002 rad at A"), value, 0.002},
    {"turn_clockwise", LOAD("turn 0.002 rad at A clockwise"), value, -0.002},
    {"warm", LOAD("warm 40 degF on cap"), value, 40 / 1.8},
    {"cool", LOAD("cool 20 degC on cap"), value, -20},
    {"warm_kind", LOAD("warm 40 degF on columns"), kind, KL_LOAD_TEMPERATURE},
    {"gradient", LOAD("gradient 18 degF on cap"), value, 10},
    {"gradient_kind", LOAD("gradient 18 degF on cap"), kind, KL_LOAD_GRADIENT},
    {"profile", LOAD("gradient on cap { point 36 degF depth 0 ft; point 0 degF depth 16 in }"),
     point_depth, 16 * INCH},
    {"profile_top", LOAD("gradient on cap { point 36 degF depth 0 ft; point 0 degF depth 16 in }"),
     point_warm, 20},
    {"weight_all", LOAD("weight"), last_member, KL_NONE},
    {"weight_one", LOAD("weight of cap"), last_member, 0},
    {"weight_set", LOAD("weight of columns"), loads, 2},
    {"tendon", FRAME_US TENDON_US "load g { stress T1 }", load_tendon, 0},
};

GET(stage_time, m->stages[m->stage_count - 1].time)
GET(stage_has_time, m->stages[m->stage_count - 1].has_time)
GET(operations, m->stages[0].operation_count)
GET(op_kind, m->stages[0].operations[0].kind)
GET(op_items, m->stages[0].operations[0].items.count)
GET(op_item, m->stages[0].operations[0].items.items[0])
GET(op_factor, m->stages[0].operations[0].factor)
GET(op_value, m->stages[0].operations[0].value)
GET(op_from, m->stages[0].operations[0].from)
GET(op_station, m->stages[0].operations[0].station)
GET(op_free,
    100 * m->stages[0].operations[0].directions[0] + 10 * m->stages[0].operations[0].directions[1] +
        m->stages[0].operations[0].directions[2])
GET(late, m->supports[m->stages[0].operations[1].items.items[0]].added_later)
GET(late_node, m->supports[m->stages[0].operations[1].items.items[0]].node)

#define STAGE(text)                                                                                \
    FRAME_US TENDON_US "falsework f under cap at 4 ft, 20 ft { stiffness 450 kip/in }\n"           \
                       "load dead { uniform 1 klf on cap }\nload live { uniform 2 klf on cap }\n"  \
                       "set loads dead live\nstage s at 3 day { " text " }"

static const number_case stages[] = {
    {"at", STAGE("cast cap"), stage_time, 3 * 86400.0},
    {"wait", STAGE("cast cap") "\nstage u wait 2 day", stage_time, 5 * 86400.0},
    {"wait_of_wait", STAGE("cast cap") "\nstage u wait 2 day\nstage v wait 12 hour", stage_time,
     5.5 * 86400.0},
    {"without_day", STAGE("cast cap") "\nstage u \"Next\" { grout T1 }", stage_time, 3 * 86400.0},
    {"no_day_at_all", FRAME_US "stage u { place cap }", stage_has_time, 0},
    {"cast_set", STAGE("cast columns"), op_items, 2},
    {"cast_list", STAGE("cast cap columns"), op_items, 3},
    {"order", STAGE("cast columns; erect f; cast cap; stress T1"), operations, 4},
    {"erect", STAGE("erect f"), op_kind, KL_OP_ERECT},
    {"place", STAGE("place rafter"), op_item, 3},
    {"stress_share", STAGE("stress T1 to 50 %"), op_factor, 0.5},
    {"stress_all", STAGE("stress T1"), op_factor, 1.0},
    {"lose", STAGE("lose T1 22 ksi"), op_value, 22 * KSI},
    {"lose_tendon", STAGE("lose T1 22 ksi"), op_item, 0},
    {"release", STAGE("release f"), op_kind, KL_OP_RELEASE},
    {"release_from", STAGE("release f from 16 ft to end"), op_from, 16 * FT},
    {"load_times", STAGE("load dead times 1.4"), op_factor, 1.4},
    {"load_set", STAGE("load loads"), op_items, 2},
    {"unload", STAGE("unload live"), op_item, 1},
    {"free", STAGE("free A turn"), op_free, 1},
    {"free_all", STAGE("free A"), op_free, 111},
    {"unlock_end", STAGE("unlock col_2 end"), op_station, 24 * FT},
    {"unlock_start", STAGE("unlock col_2 start"), op_station, 0},
    {"lock_at", STAGE("lock cap at mid"), op_station, 20 * FT},
    {"support", STAGE("cast cap; support C y fixed"), late, 1},
    {"support_node", STAGE("cast cap; support C y fixed"), late_node, 6},
};

GET(factors, m->combinations[0].factor_count)
GET(factor_0, m->combinations[0].factors[0].factor)
GET(factor_cause, m->combinations[0].factors[0].cause.kind)
GET(factor_case, m->combinations[0].factors[1].cause.load_case)
GET(check_when, m->checks[0].when.kind)
GET(check_last, m->checks[0].when.last)
GET(check_rules, m->checks[0].rules)
GET(check_condition, m->checks[0].condition)
GET(check_compression, m->checks[0].compression)
GET(check_tension, m->checks[0].tension)
GET(check_face, m->checks[0].face)
GET(check_members, m->checks[0].members.count)
GET(check_tendons, m->checks[0].tendons.count)
GET(check_class, m->checks[0].uncracked_class)
GET(check_severe, m->checks[0].exposure_severe)
GET(check_bonded, m->checks[0].bonded_steel)

#define ASK(text)                                                                                  \
    STAGE("cast cap") "\nstage u at 9 day\ncombination both { factor 1.25 of weight dead }\n" text
#define CHECK(text) ASK("check c stress { members cap; " text " }")

static const number_case checks[] = {
    {"factor", ASK(""), factor_0, 1.25},
    {"factors", ASK(""), factors, 2},
    {"cause", ASK(""), factor_cause, KL_CAUSE_WEIGHT},
    {"case", ASK(""), factor_case, 0},
    {"factors_of_set", STAGE("") "\ncombination c { factor 1 of loads prestress losses }", factors,
     4},
    {"after", CHECK("after u; condition service; rules aashto 2020"), check_when, KL_WHEN_AFTER},
    {"during", CHECK("during u; condition service; rules aashto 2020"), check_when, KL_WHEN_DURING},
    {"run", CHECK("from s to u; condition service; rules aashto 2020"), check_when,
     KL_WHEN_FROM_TO},
    {"run_last", CHECK("from s to u; condition service; rules aashto 2020"), check_last, 1},
    {"under", CHECK("under both; condition service; rules aashto 2020"), check_when,
     KL_WHEN_COMBINATION},
    {"under_case", CHECK("under live; condition service; rules aashto 2020"), check_when,
     KL_WHEN_CASE},
    {"rules", CHECK("after u; condition transfer; rules aci318 2019"), check_rules,
     KL_RULES_ACI318_2019},
    {"rules_en", CHECK("after u; condition transfer; rules en1992 2004"), check_rules,
     KL_RULES_EN1992_2004},
    {"condition", CHECK("after u; condition sustained; rules aashto 2020"), check_condition,
     KL_SUSTAINED},
    {"own_limits", CHECK("after u; compression 2.7 ksi; tension 0 ksi"), check_compression,
     2.7 * KSI},
    {"own_tension", CHECK("after u; compression 2.7 ksi; tension 0 ksi"), check_tension, 0},
    {"face", CHECK("after u; face top; compression 2.7 ksi"), check_face, KL_FACE_TOP},
    {"members", CHECK("after u; compression 2.7 ksi"), check_members, 1},
    {"tendons", ASK("check c stress { tendons T1; after u; condition service; rules aashto 2020 }"),
     check_tendons, 1},
    {"class", CHECK("after u; class t; condition service; rules aci318 2019"), check_class, 't'},
    {"strict_class", CHECK("after u; condition service; rules aci318 2019"), check_class, 'u'},
    {"strict_exposure", CHECK("after u; condition service; rules aashto 2020"), check_severe, 1},
    {"strict_steel", CHECK("after u; condition service; rules aashto 2020"), check_bonded, 0},
    {"bonded_steel", CHECK("after u; bonded_steel yes; condition service; rules aashto 2020"),
     check_bonded, 1},
};

GET(e_quantity, m->expectations[0].quantity)
GET(e_value, m->expectations[0].value)
GET(e_station, m->expectations[0].station)
GET(e_tolerance, m->expectations[0].tolerance)
GET(e_relative, m->expectations[0].tolerance_relative)
GET(e_part, m->expectations[0].part)
GET(e_extreme, m->expectations[0].extreme)
GET(e_side, m->expectations[0].side)
GET(e_node, m->expectations[0].node)
GET(e_member, m->expectations[0].member)
GET(e_direction, m->expectations[0].direction)
GET(e_measure, m->expectations[0].measure)
GET(e_falsework, m->expectations[0].falsework)
GET(e_total, m->expectations[0].tendon_total)
GET(e_when, m->expectations[0].when.kind)
GET(e_cause, m->expectations[0].cause.kind)
GET(e_case, m->expectations[0].cause.load_case)
GET(e_end, isnan(m->expectations[0].station))

#define EXPECT(text) ASK("expect " text)

static const number_case expects[] = {
    {"moment", EXPECT("moment on cap at mid after u = 1200 kip-ft"), e_value, 1200 * KIP *FT},
    {"mid", EXPECT("moment on cap at mid after u = 1200 kip-ft"), e_station, 20 * FT},
    {"default_tolerance", EXPECT("moment on cap at mid after u = 1200 kip-ft"), e_tolerance, 0.001},
    {"percent", EXPECT("shear on cap at 3 ft after u = 12 kip within 0.5 %"), e_tolerance, 0.005},
    {"absolute", EXPECT("shear on cap at 3 ft after u = 12 kip within 0.5 kip"), e_tolerance,
     0.5 * KIP},
    {"absolute_not_relative", EXPECT("shear on cap at 3 ft after u = 0 kip within 0.5 kip"),
     e_relative, 0},
    {"left", EXPECT("shear on cap at 10 ft left after u = 12 kip"), e_side, KL_LEFT},
    {"right_default", EXPECT("shear on cap at 10 ft after u = 12 kip"), e_side, KL_RIGHT},
    {"secondary", EXPECT("secondary moment on cap at mid after u = 5 kip-ft"), e_part,
     KL_SECONDARY},
    {"primary", EXPECT("primary axial on cap at mid after u = 5 kip"), e_part, KL_PRIMARY},
    {"concrete", EXPECT("concrete axial on cap at mid after u = 5 kip"), e_part, KL_CONCRETE_SHARE},
    {"max", EXPECT("max moment on cap during u = 5 kip-ft"), e_extreme, KL_LARGEST},
    {"min_whole", EXPECT("min moment on cap during u = 5 kip-ft"), e_end, 1},
    {"deflection_node", EXPECT("deflection at C after u = -5 mm"), e_node, 6},
    {"deflection_member", EXPECT("deflection on cap at C after u = -5 mm"), e_station, 10 * FT},
    {"rotation", EXPECT("rotation at C after u = 0.001 rad"), e_measure, KL_MEASURE_ROTATION},
    {"stress_top", EXPECT("stress top on cap at mid after u = -0.8 ksi"), e_quantity,
     KL_STRESS_TOP},
    {"stress_bottom", EXPECT("stress bottom on cap at mid after u = -0.8 ksi"), e_quantity,
     KL_STRESS_BOTTOM},
    {"stress_value", EXPECT("stress bottom on cap at mid after u = -0.8 ksi"), e_value, -0.8 * KSI},
    {"reaction", EXPECT("reaction y at A after u = 560 kip"), e_direction, KL_Y},
    {"reaction_turn", EXPECT("reaction turn at A after u = 560 kip-ft"), e_measure,
     KL_MEASURE_MOMENT},
    {"force", EXPECT("force of T1 at mid after u = 800 kip"), e_station, 20 * FT},
    {"force_total", EXPECT("force of T1 at mid total after u = 1600 kip"), e_total, 1},
    {"elongation", EXPECT("elongation of T1 at start after u = 7 in"), e_station, 0},
    {"elongation_end", EXPECT("elongation of T1 at end after u = 7 in"), e_end, 1},
    {"post", EXPECT("post of f at 20 ft after s = 23.9 kip"), e_falsework, 0},
    {"post_row", EXPECT("post of f at 20 ft after s = 23.9 kip"), e_station, 20 * FT},
    {"camber", EXPECT("camber on cap at mid after u = 1/4 in"), e_member, 0},
    {"under_case", EXPECT("moment on cap at mid under live = 5 kip-ft"), e_when, KL_WHEN_CASE},
    {"under_combination", EXPECT("moment on cap at mid under both = 5 kip-ft"), e_when,
     KL_WHEN_COMBINATION},
    {"from_cause", EXPECT("moment on cap at mid after u from weight = 5 kip-ft"), e_cause,
     KL_CAUSE_WEIGHT},
    {"from_case", EXPECT("moment on cap at mid after u from live = 5 kip-ft"), e_case, 1},
    {"from_all", EXPECT("moment on cap at mid after u = 5 kip-ft"), e_cause, KL_CAUSE_ALL},
};

GET(skew, m->skew)
GET(has_skew, m->has_skew)
GET(humidity, m->humidity)
GET(gross, m->sections_gross)
GET(system_shown, m->display.system)
GET(stress_factor, kl_show_factor(&m->display, KL_MEASURE_STRESS))

static const number_case sites[] = {
    {"skew", "skew 30 deg", skew, PI / 6},
    {"no_skew", "title \"x\"", has_skew, 0},
    {"humidity", "site { humidity 70 % }", humidity, 0.7},
    {"gross", "sections gross", gross, 1},
    {"net", "sections net", gross, 0},
    {"show_default", "title \"x\"", system_shown, KL_UNITS_US},
    {"show_si", "show si", system_shown, KL_UNITS_SI},
    {"show_kpa", "show si { stress kPa }", stress_factor, 1000},
};

static void binding_gives_the_number(void **state)
{
    const number_case *row = *state;
    bound t;
    bind_well(&t, row->text);
    assert_close(row->get(t.model), row->want, 1e-12, 1e-15);
    release(&t);
}

/* ---- texts and the whole ------------------------------------------------------------------------------------ */

/* The example of the language's page, with laws that are computed. */
static const char whole[] =
    "kernline 1\n"
    "title \"Bent 7 outrigger cap\"\n"
    "show us\n"
    "skew 32 deg\n"
    "site { humidity 70 % }\n"
    "let half = 48 ft\n"
    "concrete cap_mix {\n"
    "    strength          6 ksi\n"
    "    transfer_strength 4.8 ksi\n"
    "    unit_weight       150 pcf\n"
    "    modulus           aashto 2020\n"
    "    expansion         6e-6 per degF\n"
    "    creep             none\n"
    "    shrinkage         none\n"
    "    cement            normal\n"
    "    gain              aci209 1992\n"
    "    cured             7 day\n"
    "}\n"
    "prestressing strand270 { ultimate 270 ksi; yield 243 ksi; modulus 28500 ksi; relaxation none "
    "}\n"
    "section cap    { rectangle width 7 ft depth 6.5 ft }\n"
    "section column { circle diameter 6 ft }\n"
    "node L at (0 ft, 24 ft)\n"
    "node R at (96 ft, 24 ft)\n"
    "node A at (22 ft, 0 ft)\n"
    "node B at (74 ft, 0 ft)\n"
    "member cap   from L to R section cap of cap_mix\n"
    "node C on cap at 22 ft\n"
    "node D on cap at 74 ft\n"
    "member col_1 from A to C section column of cap_mix { rigid end 3 ft 3 in }\n"
    "member col_2 from B to D section column of cap_mix { rigid end 3 ft 3 in }\n"
    "set columns col_1 col_2\n"
    "support A fixed\n"
    "support B x fixed y fixed turn 1e6 kip-ft/rad\n"
    "tendon T1 in cap {\n"
    "    of strand270\n"
    "    strands 19 area 0.217 in^2\n"
    "    count 2\n"
    "    profile from bottom {\n"
    "        anchor     at 0 ft  height 3.4 ft\n"
    "        high       at 22 ft height 5.2 ft\n"
    "        inflection at 29 ft\n"
    "        low        at half  height 1.0 ft\n"
    "        inflection at 67 ft\n"
    "        high       at 74 ft height 5.2 ft\n"
    "        anchor     at 96 ft height 3.4 ft\n"
    "    }\n"
    "    friction 0.20\n"
    "    wobble   0.0002 per ft\n"
    "    seating  1/4 in\n"
    "    jack     start then end ratio 0.75\n"
    "    ram      91 in^2\n"
    "    jack_friction 2 %\n"
    "    anchorage_friction 1 %\n"
    "    reference 20 %\n"
    "    duct     4-1/2 in offset 3/4 in\n"
    "    bonded   grouted\n"
    "}\n"
    "tendon T2 like T1 { raise 9 in }\n"
    "falsework bents under cap at 4 ft, 10 ft, 16 ft, 28 ft, 34 ft, 41 ft, 48 ft, 55 ft, 62 ft, 68 "
    "ft, "
    "80 ft, 86 ft, 92 ft {\n"
    "    posts 2\n"
    "    stiffness 450 kip/in\n"
    "    takeup    0.25 in\n"
    "    capacity  30 kip\n"
    "}\n"
    "load girders { point 240 kip on cap from 14 ft to 82 ft every 8 ft 6 in }\n"
    "stage columns_cast \"Columns cast\"       at 0 day  { cast columns }\n"
    "stage cap_cast     \"Cap cast on forms\"  at 30 day { erect bents; cast cap }\n"
    "stage step_1       \"First step\"         at 44 day { stress T1 }\n"
    "stage released     \"Falsework released\" wait 2 day { release bents }\n"
    "stage girders_set  \"Girders set\"        at 75 day { load girders }\n"
    "stage step_2       \"Second step\"        at 80 day { stress T2 }\n"
    "stage grouted                           at 82 day { grout T1 T2 }\n"
    "stage long_term    \"Long term\"          at 10000 day\n"
    "check transfer stress { members cap; during step_1; condition transfer; rules aashto 2020 }\n"
    "check service  stress { members cap; from step_2 to long_term; condition service; rules "
    "aashto 2020 }\n"
    "expect post of bents at 48 ft after cap_cast = 23.9 kip within 0.5 % source \"6.825 kip/ft x "
    "7 ft / 2 "
    "posts\"\n";

static void whole_language_binds(void **state)
{
    (void)state;
    bound t;
    bind_well(&t, whole);
    const kl_model *m = t.model;
    assert_string_equal(m->title, "Bent 7 outrigger cap");
    assert_int_equal(m->node_count, 6);
    assert_int_equal(m->member_count, 3);
    assert_int_equal(m->tendon_count, 2);
    assert_int_equal(m->falsework[0].row_count, 13);
    assert_int_equal(m->cases[0].load_count, 9);
    assert_int_equal(m->stage_count, 8);
    assert_int_equal(m->check_count, 2);
    assert_string_equal(m->stages[3].title, "Falsework released");
    assert_string_equal(m->stages[6].title, "");
    assert_close(m->stages[3].time, 46 * 86400.0, 1e-15, 0);
    assert_close(m->tendons[1].rows[3].ordinate, 21 * INCH, 1e-12, 0);
    assert_string_equal(m->expectations[0].source, "6.825 kip/ft x 7 ft / 2 posts");
    assert_int_equal(m->tendons[0].origin.file, 0);
    assert_memory_equal(whole + m->tendons[1].origin.begin, "tendon T2 like T1", 17);
    release(&t);
}

/* Several mistakes, each told once, in one run; what depends on them is not told again. */
static void several_mistakes_are_told_in_one_run(void **state)
{
    (void)state;
    bound t;
    bind_text_into(&t, FRAME_US "member bad from L to Z section cap of mix\n"
                                "node on_bad on bad at 3 ft\nsupport on_bad fixed\n"
                                "load g { point 3 kip on bad at mid; point 3 kip on kap at mid }\n"
                                "stage s at 0 day { load g; stress T9 }\n");
    assert_int_equal(t.status, KL_BAD_MODEL);
    assert_null(t.model);
    assert_int_equal(kl_diags_count_of(t.diags, KL_ERROR), 3);
    assert_non_null(strstr(kl_diags_get(t.diags, 0)->message, "Z"));
    assert_non_null(strstr(kl_diags_get(t.diags, 1)->message, "kap"));
    assert_string_equal(kl_diags_get(t.diags, 1)->hint, "did you mean `cap`?");
    assert_non_null(strstr(kl_diags_get(t.diags, 2)->message, "T9"));
    release(&t);
}

static void unknown_name_tells_what_else_it_is(void **state)
{
    (void)state;
    bound t;
    bind_text_into(&t, FRAME_US "member b from L to R section cap of round\n");
    assert_int_equal(t.status, KL_BAD_MODEL);
    const kl_diag *diag = kl_diags_get(t.diags, 0);
    assert_string_equal(diag->name, "unknown-name");
    assert_non_null(strstr(diag->message, "that is a section"));
    release(&t);
}

static kl_index warnings_named(const char *text, const char *name)
{
    bound t;
    bind_well(&t, text);
    kl_index count = 0;
    for (kl_index i = 0; i < kl_diags_count(t.diags); i++) {
        count += strcmp(kl_diags_get(t.diags, i)->name, name) == 0 ? 1 : 0;
    }
    release(&t);
    return count;
}

#define TWO_POINTS(a, b)                                                                           \
    FRAME_US "load g { point 1 kip on cap at " a "\npoint 1 kip on cap at " b                      \
             "\npoint 1 kip on cap at " a " }\n"

/* One warning a member, and none where nothing is skewed, all is of one kind, or the station is 0. */
static void plain_and_square_stations_draw_one_warning(void **state)
{
    (void)state;
    static const char warning[] = "square-and-plain";
    assert_int_equal(warnings_named("skew 20 deg\n" TWO_POINTS("square 3 ft", "5 ft"), warning), 1);
    /* The frame's own nodes C and D stand at plain stations of the cap. */
    assert_int_equal(warnings_named("skew 20 deg\n" TWO_POINTS("4 ft", "5 ft"), warning), 0);
    assert_int_equal(warnings_named("skew 0 deg\n" TWO_POINTS("square 3 ft", "5 ft"), warning), 0);
    assert_int_equal(
        warnings_named("skew 20 deg\n" FRAME_US "load g { point 1 kip on rafter at square 3 ft\n"
                       "point 1 kip on rafter at 0 ft; point 1 kip on rafter at mid }\n",
                       warning),
        0);
}

/* What is like something wrong is not told again, nor what uses it. */
static void likeness_of_a_wrong_thing_is_silent(void **state)
{
    (void)state;
    bound t;
    bind_text_into(&t,
                   FRAME_US "tendon V like U { count 2 }\ntendon U in kap { " STEEL_US PROFILE_US
                            "jack start ratio 0.7 }\nload g { stress V }\n"
                            "stage s at 0 day { stress U V }\n");
    assert_int_equal(t.status, KL_BAD_MODEL);
    assert_int_equal(kl_diags_count_of(t.diags, KL_ERROR), 1);
    release(&t);
}

/* A set of 300 members named by 7000 operations is two million names: refused, not spread out. */
static void sets_named_too_often_are_refused(void **state)
{
    (void)state;
    enum { MEMBERS = 300, TIMES = 7000 };
    const size_t room = (size_t)MEMBERS * 60 + (size_t)TIMES * 12 + 1000;
    char *text = malloc(room);
    assert_non_null(text);
    size_t at = (size_t)snprintf(text, room,
                                 "node A at (0 m, 0 m)\nnode B at (1 m, 0 m)\n"
                                 "section s { area 1 m^2; inertia 1 m^4 }\n"
                                 "material e { modulus 1 GPa }\n");
    for (int i = 0; i < MEMBERS; i++) {
        at += (size_t)snprintf(text + at, room - at, "member b%d from A to B section s of e\n", i);
    }
    at += (size_t)snprintf(text + at, room - at, "set all");
    for (int i = 0; i < MEMBERS; i++) {
        at += (size_t)snprintf(text + at, room - at, " b%d", i);
    }
    at += (size_t)snprintf(text + at, room - at, "\nstage x {\n");
    for (int i = 0; i < TIMES; i++) {
        at += (size_t)snprintf(text + at, room - at, "place all\n");
    }
    (void)snprintf(text + at, room - at, "}\n");
    bound t;
    bind_text_into(&t, text);
    assert_int_equal(t.status, KL_BAD_MODEL);
    assert_string_equal(kl_diags_get(t.diags, 0)->name, "too-many-names");
    free(text);
    release(&t);
}

/* A chain of a thousand members, each standing on a node of the one after it in the text: no recursion, no square. */
static void long_chain_of_nodes_binds(void **state)
{
    (void)state;
    enum { LINKS = 2000 };
    const size_t room = (size_t)LINKS * 120 + 1000;
    char *text = malloc(room);
    assert_non_null(text);
    size_t at = 0;
    for (int i = LINKS; i > 0; i--) {
        at +=
            (size_t)snprintf(text + at, room - at,
                             "member m%d from n%d to n%d section s of e\nnode n%d on m%d at mid\n",
                             i, i - 1, i + LINKS + 1, i, i);
    }
    for (int i = LINKS; i > 0; i--) {
        at += (size_t)snprintf(text + at, room - at, "node n%d at (%d m, %d m)\n", i + LINKS + 1, i,
                               i % 7 + 1);
    }
    (void)snprintf(text + at, room - at,
                   "node n0 at (0 m, 0 m)\nsection s { area 1 m^2; inertia 1 m^4 }\n"
                   "material e { modulus 1 GPa }\n");
    bound t;
    bind_well(&t, text);
    assert_int_equal(t.model->member_count, LINKS);
    free(text);
    release(&t);
}

/* ---- malformed models --------------------------------------------------------------------------------------- */

#define BAD_FOLDER "tests/cli/bad"

static char *read_file(const char *name)
{
    char path[512];
    (void)snprintf(path, sizeof path, "%s/%s", BAD_FOLDER, name);
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    char *text = calloc(1, 200000);
    assert_non_null(text);
    const size_t length = fread(text, 1, 199999, file);
    assert_true(length > 0);
    (void)fclose(file);
    return text;
}

static bool draws_its_message(const char *name)
{
    char expected[64] = "";
    char *text = read_file(name);
    assert_int_equal(sscanf(text, "# expect: %63s", expected), 1);
    bound t;
    bind_text_into(&t, text);
    bool good = t.status == KL_BAD_MODEL && kl_diags_count_of(t.diags, KL_ERROR) == 1;
    for (kl_index i = 0; i < kl_diags_count(t.diags); i++) {
        const kl_diag *diag = kl_diags_get(t.diags, i);
        const bool placed = diag->origin.file == 0 && diag->origin.begin < diag->origin.end;
        good = good && placed && (diag->severity != KL_ERROR || strcmp(diag->name, expected) == 0);
    }
    if (!good) {
        print_error("%s: expected only %s\n", name, expected);
        show_messages(&t);
    }
    free(text);
    release(&t);
    return good;
}

static void bad_models_draw_their_message(void **state)
{
    (void)state;
    DIR *folder = opendir(BAD_FOLDER);
    assert_non_null(folder);
    int files = 0;
    int wrong = 0;
    const struct dirent *entry = NULL;
    while ((entry = readdir(folder)) != NULL) {
        const bool ours =
            strncmp(entry->d_name, "bind_", 5) == 0 || strncmp(entry->d_name, "build_", 6) == 0;
        if (ours) {
            files++;
            wrong += draws_its_message(entry->d_name) ? 0 : 1;
        }
    }
    (void)closedir(folder);
    assert_true(files > 50);
    assert_int_equal(wrong, 0);
}

/* ---- without memory ------------------------------------------------------------------------------------------ */

/* Every allocation of the binding fails in turn: no crash, no leak, KL_NO_MEMORY and no model. */
static void binding_without_memory_is_clean(void **state)
{
    (void)state;
    bound t;
    bind_well(&t, whole);
    text_document document;
    kl_diags *quiet = kl_diags_create();
    assert_int_equal(
        text_parse_text(&t.sources, "again", whole, strlen(whole), &t.memory, quiet, &document),
        KL_OK);
    long k = 0;
    for (; k < 100000; k++) {
        kl_diags *diags = kl_diags_create();
        kl_model *model = NULL;
        fault_after(k);
        const kl_status status = bind_document(&document, diags, &model);
        const int struck = fault_struck();
        fault_after(-1);
        assert_true((status == KL_OK) == (model != NULL));
        kl_model_destroy(model);
        kl_diags_destroy(diags);
        if (!struck) {
            assert_int_equal(status, KL_OK);
            break;
        }
        assert_int_equal(status, KL_NO_MEMORY);
    }
    assert_true(k > 20 && k < 100000);
    kl_diags_destroy(quiet);
    release(&t);
}

/* ---- all ------------------------------------------------------------------------------------------------------ */

static int run_numbers(const char *group, const number_case *rows_of_group, int row_total)
{
    struct CMUnitTest tests[64];
    assert_true(row_total <= DIM(tests));
    for (int i = 0; i < row_total; i++) {
        /* cmocka hands the row on as a plain pointer; nobody writes through it. */
        tests[i] = (struct CMUnitTest){rows_of_group[i].test, binding_gives_the_number, NULL, NULL,
                                       (void *)(uintptr_t)&rows_of_group[i]};
    }
    return _cmocka_run_group_tests(group, tests, (size_t)row_total, NULL, NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(whole_language_binds),
        cmocka_unit_test(several_mistakes_are_told_in_one_run),
        cmocka_unit_test(unknown_name_tells_what_else_it_is),
        cmocka_unit_test(plain_and_square_stations_draw_one_warning),
        cmocka_unit_test(likeness_of_a_wrong_thing_is_silent),
        cmocka_unit_test(sets_named_too_often_are_refused),
        cmocka_unit_test(long_chain_of_nodes_binds),
        cmocka_unit_test(bad_models_draw_their_message),
        cmocka_unit_test(binding_without_memory_is_clean),
    };
    int failed = 0;
    failed += run_numbers("bind: site", sites, DIM(sites));
    failed += run_numbers("bind: materials", materials, DIM(materials));
    failed += run_numbers("bind: sections", sections, DIM(sections));
    failed += run_numbers("bind: frame", frames, DIM(frames));
    failed += run_numbers("bind: supports", supports, DIM(supports));
    failed += run_numbers("bind: tendons", tendons, DIM(tendons));
    failed += run_numbers("bind: falsework", falseworks, DIM(falseworks));
    failed += run_numbers("bind: loads", loads_table, DIM(loads_table));
    failed += run_numbers("bind: stages", stages, DIM(stages));
    failed += run_numbers("bind: checks", checks, DIM(checks));
    failed += run_numbers("bind: expectations", expects, DIM(expects));
    return failed + cmocka_run_group_tests_name("bind: whole", tests, NULL, NULL);
}
