/* test_bind_frame.c - from a text to a model: site, materials, sections, frame, supports.
 *
 * Rows of tables: a text, one number of the model made of it, and the value worked out by hand from the definitions
 * of the units and of the language.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "bound_text.h"

#define DIM(array) ((int)(sizeof(array) / sizeof((array)[0])))

GET(skew, m->skew)
GET(has_skew, m->has_skew)
GET(humidity, m->humidity)
GET(gross, m->sections_gross)
GET(system_shown, m->display.system)
GET(stress_factor, kl_show_factor(&m->display, KL_MEASURE_STRESS))

/* clang-format off */
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
/* clang-format on */

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

/* clang-format off */
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
     "concrete b like a { strength 50 MPa }", transfer, 30e6},
    {"like_before", "concrete b like a { strength 50 MPa }\nconcrete a { unit_weight 25 kN/m^3 }",
     second_weight, 25e3},
};
/* clang-format on */

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

/* clang-format off */
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
     "rebar 10 area 1.56 in^2 depth 4 in of g\nrebar 8 area 1 in^2 depth 68 in of g }", bars, 8},
    {"like_same_shape_width", "section a { rectangle width 3 m depth 1 m }\n"
     "section b like a { rectangle width 3 m depth 2 m }", last_width, 3.0},
    {"like_written", "section a { rectangle width 3 m depth 1 m }\n"
     "section b like a { rectangle width 3 m depth 2 m }", last_depth, 2.0},
    {"like_other_shape", "section a { rectangle width 3 m depth 1 m }\n"
     "section b like a { circle diameter 2 m }", last_shape, KL_CIRCLE},
};
/* clang-format on */

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

/* clang-format off */
static const number_case frames[] = {
    {"node_on_member", FRAME_US, node_c_x, 10 * FT},
    {"node_on_member_station", FRAME_US, node_c_station, 10 * FT},
    {"rigid_compound", FRAME_US, rigid_end, 39 * INCH},
    {"node_share", FRAME_US "node X on rafter at 0.4 of length", last_x, 16 * FT},
    {"node_mid", FRAME_US "node X on rafter at mid", last_y, 115 * FT},
    {"node_level", FRAME_US "node X on rafter at level 20 ft", last_station, 25 * FT},
    {"node_before_member", "node X on beam at 2 m\nmember beam from E to F section s of e\n"
     "node E at (0 m, 0 m)\nnode F at (5 m, 0 m)\n"
     "section s { area 1 m^2; inertia 1 m^4 }\nmaterial e { modulus 1 GPa }", last_station, 2.0},
    {"node_square", "skew 60 deg\n" FRAME_US "node X on cap at square 5 ft", last_station, 10 * FT},
    {"mesh", FRAME_US BEAM "{ mesh 2 ft }", last_mesh, 2 * FT},
    {"age", FRAME_US BEAM "{ age 60 day }", last_age, 60 * 86400.0},
    {"rigid_level", FRAME_US BEAM "{ rigid start level 4 ft }", last_rigid, 5 * FT},
    {"flags", FRAME_US BEAM "axial_only weightless", last_flags, 11},
    {"one_section", FRAME_US BEAM, last_rows, 1},
    {"sections", FRAME_US "section deep { rectangle width 7 ft depth 9 ft }\n"
     "member beam from P to Q of mix { section cap at start\nsection deep at level 8 ft\n"
     "section deep at end }", last_row_1, 10 * FT},
    {"section_end", FRAME_US "section deep { rectangle width 7 ft depth 9 ft }\n"
     "member beam from P to Q of mix { section cap at start\nsection deep at level 8 ft\n"
     "section deep at end }", last_row_2, 50 * FT},
    {"section_at_node", FRAME_US "section deep { rectangle width 7 ft depth 9 ft }\n"
     "node X on beam at 30 ft\n"
     "member beam from P to Q of mix { section cap at P\nsection deep at X\n"
     "section deep at Q }", last_row_1, 30 * FT},
    {"hinge", FRAME_US BEAM "{ hinge at 12 ft; hinge end }", last_hinge, 12 * FT},
    {"hinge_count", FRAME_US BEAM "{ hinge at 12 ft; hinge end }", last_hinges, 1},
    {"hinge_end", FRAME_US BEAM "{ hinge at 12 ft; hinge end }", last_hinge_end, 1},
    {"hinge_at_start", FRAME_US BEAM "{ hinge at start }", last_hinge_start, 1},
    {"member_from", FRAME_US BEAM, last_from, 4},
};
/* clang-format on */

GET(support_turn, m->supports[1].hold[KL_TURN].stiffness)
GET(support_kind, m->supports[m->support_count - 1].hold[KL_Y].kind)
GET(support_x, m->supports[m->support_count - 1].hold[KL_X].kind)
GET(support_slope, m->supports[m->support_count - 1].slope)
GET(support_fixed_turn, m->supports[0].hold[KL_TURN].kind)
GET(bearing_y, m->bearings[0].hold[KL_Y].kind)
GET(bearing_base, m->bearings[0].base)

/* clang-format off */
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
/* clang-format on */

int main(void)
{
    int failed = number_case_run("bind: site", sites, DIM(sites));
    failed += number_case_run("bind: materials", materials, DIM(materials));
    failed += number_case_run("bind: sections", sections, DIM(sections));
    failed += number_case_run("bind: frame", frames, DIM(frames));
    failed += number_case_run("bind: supports", supports, DIM(supports));
    return failed;
}
