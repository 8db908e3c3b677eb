/* test_bind_time.c - from a text to a model: laws of creep, shrinkage and relaxation, and curves of the user's own.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "bound_text.h"

#define DIM(array) ((int)(sizeof(array) / sizeof((array)[0])))

#define LAST (m->materials[m->material_count - 1])

GET(creep, LAST.creep)
GET(shrinkage, LAST.shrinkage)
GET(cured_given, !isnan(LAST.cured))
GET(phi_points, LAST.creep_curve.count)
GET(phi_first, LAST.creep_curve.points[0].value)
GET(phi_first_day, LAST.creep_curve.points[0].time / KL_DAY)
GET(phi_first_is_final, isinf(LAST.creep_curve.points[0].time))
GET(phi_second, LAST.creep_curve.points[1].value)
GET(phi_second_day, LAST.creep_curve.points[1].time / KL_DAY)
GET(strain_points, LAST.shrinkage_curve.count)
GET(strain_first, LAST.shrinkage_curve.points[0].value)
GET(strain_first_is_final, isinf(LAST.shrinkage_curve.points[0].time))
GET(strain_second, LAST.shrinkage_curve.points[1].value)
GET(strain_second_day, LAST.shrinkage_curve.points[1].time / KL_DAY)
GET(relaxation, LAST.relaxation)
GET(relaxation_loss, LAST.relaxation_loss)

#define STRAND(words)                                                                              \
    "prestressing s { ultimate 270 ksi; yield 243 ksi; modulus 28500 ksi; " words " }"

/* clang-format off */
static const number_case laws[] = {
    {"creep_unset", "concrete c { strength 6 ksi }", creep, KL_LAW_UNSET},
    {"creep_none", "concrete c { creep none }", creep, KL_LAW_NONE},
    {"creep_aashto", "concrete c { creep aashto 2020 }", creep, KL_LAW_AASHTO_2020},
    {"creep_aci209", "concrete c { creep aci209 1992 }", creep, KL_LAW_ACI209_1992},
    {"creep_mc1990", "concrete c { creep mc1990 }", creep, KL_LAW_MC1990},
    {"creep_mc1999", "concrete c { creep mc1999 }", creep, KL_LAW_MC1999},
    {"creep_mc2010", "concrete c { creep mc2010 }", creep, KL_LAW_MC2010},
    {"creep_en1992", "concrete c { creep en1992 2004 }", creep, KL_LAW_EN1992_2004},
    {"creep_user", "concrete c { creep user { phi 2.0 } }", creep, KL_LAW_USER},
    {"shrinkage_none", "concrete c { shrinkage none }", shrinkage, KL_LAW_NONE},
    {"shrinkage_aashto", "concrete c { shrinkage aashto 2020 }", shrinkage, KL_LAW_AASHTO_2020},
    {"shrinkage_aci209", "concrete c { shrinkage aci209 1992 }", shrinkage, KL_LAW_ACI209_1992},
    {"shrinkage_mc1990", "concrete c { shrinkage mc1990 }", shrinkage, KL_LAW_MC1990},
    {"shrinkage_mc1999", "concrete c { shrinkage mc1999 }", shrinkage, KL_LAW_MC1999},
    {"shrinkage_mc2010", "concrete c { shrinkage mc2010 }", shrinkage, KL_LAW_MC2010},
    {"shrinkage_en1992", "concrete c { shrinkage en1992 2004 }", shrinkage, KL_LAW_EN1992_2004},
    {"shrinkage_user", "concrete c { shrinkage user { strain 300e-6 } }", shrinkage, KL_LAW_USER},
    {"cured_not_given", "concrete c { creep mc1990 }", cured_given, 0},
};

static const number_case curves[] = {
    {"none", "concrete c { creep mc1990 }", phi_points, 0},
    {"final", "concrete c { creep user { phi 2.0 } }", phi_first, 2.0},
    {"final_is_one_point", "concrete c { creep user { phi 2.0 } }", phi_points, 1},
    {"final_at_infinity", "concrete c { creep user { phi 2.0 } }", phi_first_is_final, 1},
    {"points", "concrete c { creep user { point 7 day phi 0.6; point 1000 day phi 1.8 } }", phi_points, 2},
    {"first_day", "concrete c { creep user { point 7 day phi 0.6; point 1000 day phi 1.8 } }", phi_first_day, 7},
    {"second_day", "concrete c { creep user { point 7 day phi 0.6; point 2 year phi 1.8 } }", phi_second_day, 730},
    {"second", "concrete c { creep user { point 7 day phi 0.6; point 1000 day phi 3 * 0.6 } }", phi_second, 1.8},
    {"point_as_block", "concrete c { creep user {\npoint 7 day {\nphi 0.6\n}\n} }", phi_first, 0.6},
    {"strain", "concrete c { shrinkage user { strain 300e-6 } }", strain_first, 300e-6},
    {"strain_at_infinity", "concrete c { shrinkage user { strain 300e-6 } }", strain_first_is_final, 1},
    {"strain_points", "concrete c { shrinkage user { point 28 day strain 1e-4; point 90 day strain 2e-4 } }", strain_points, 2},
    {"strain_second", "concrete c { shrinkage user { point 28 day strain 1e-4; point 90 day strain 2e-4 } }", strain_second, 2e-4},
    {"strain_second_day", "concrete c { shrinkage user { point 28 day strain 1e-4; point 90 day strain 2e-4 } }", strain_second_day, 90},
    {"like_takes_over", "concrete a { creep user { phi 2.0 } }\nconcrete b like a { strength 6 ksi }", phi_first, 2.0},
    {"like_replaces", "concrete a { creep user { phi 2.0 } }\nconcrete b like a { creep mc1990 }", phi_points, 0},
    {"like_replaces_points", "concrete a { creep user { phi 2.0 } }\n"
     "concrete b like a { creep user { point 9 day phi 1; point 99 day phi 2 } }", phi_points, 2},
};

static const number_case steels[] = {
    {"unset", STRAND(""), relaxation, KL_RELAXATION_UNSET},
    {"none", STRAND("relaxation none"), relaxation, KL_RELAXATION_NONE},
    {"low", STRAND("relaxation low"), relaxation, KL_RELAXATION_LOW},
    {"normal", STRAND("relaxation normal"), relaxation, KL_RELAXATION_NORMAL},
    {"bar", STRAND("relaxation bar"), relaxation, KL_RELAXATION_BAR},
    {"percent", STRAND("relaxation 2.5 %"), relaxation, KL_RELAXATION_VALUE},
    {"percent_value", STRAND("relaxation 2.5 %"), relaxation_loss, 0.025},
};
/* clang-format on */

int main(void)
{
    int failed = number_case_run("bind: laws", laws, DIM(laws));
    failed += number_case_run("bind: curves", curves, DIM(curves));
    failed += number_case_run("bind: relaxation", steels, DIM(steels));
    return failed;
}
