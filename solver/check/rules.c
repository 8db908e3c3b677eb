/* rules.c - the rows of the codes.
 *
 * The values are recalled, not read off the printed pages (from_memory), with the edition and article to look
 * them up by. Order matters: the first row that fits holds. Formulas keep the unit of their code: AASHTO ksi,
 * ACI psi, EN MPa.
 * SPDX-License-Identifier: MIT */
#include "rules.h"

#include <math.h>
#include <stddef.h>

#define PSI_IN_PA 6894.757293168361 /* lbf/in^2: 0.45359237 x 9.80665 / 0.0254^2 */
#define KCF_IN_N_PER_M3                                                                            \
    (453.59237 * KL_STANDARD_GRAVITY / (0.3048 * 0.3048 * 0.3048)) /* kip/ft^3 */

#define WORKING (RULE_SERVICE | RULE_SUSTAINED)

static const rule_row rule_rows[] = {
    /* AASHTO LRFD 2020: 0.65 f'ci at transfer since the interims of 2016; older editions had 0.60. */
    {KL_RULES_AASHTO_2020, RULE_COMPRESSION, RULE_TRANSFER, RULE_TENDONS_ANY, RULE_ANY, RULE_ANY, 0,
     RULE_LINEAR, 0.65, RULE_OF_TRANSFER, RULE_KSI, NAN, false, "f'ci", "0.65 f'ci", "5.9.2.3.1a",
     "", true},
    {KL_RULES_AASHTO_2020, RULE_TENSION, RULE_TRANSFER, RULE_TENDONS_ANY, RULE_YES, RULE_ANY, 0,
     RULE_ROOT, 0.24, RULE_OF_TRANSFER, RULE_KSI, NAN, true, "f'ci", "0.24 lambda sqrt(f'ci)",
     "5.9.2.3.1b", "steel sized for the whole tensile force", true},
    {KL_RULES_AASHTO_2020, RULE_TENSION, RULE_TRANSFER, RULE_TENDONS_ANY, RULE_NO, RULE_ANY, 0,
     RULE_ROOT, 0.0948, RULE_OF_TRANSFER, RULE_KSI, 0.2, true, "f'ci",
     "0.0948 lambda sqrt(f'ci), at most 0.2 ksi", "5.9.2.3.1b", "", true},
    {KL_RULES_AASHTO_2020, RULE_COMPRESSION, RULE_SERVICE, RULE_TENDONS_ANY, RULE_ANY, RULE_ANY, 0,
     RULE_LINEAR, 0.60, RULE_OF_SPECIFIED, RULE_KSI, NAN, false, "f'c", "0.60 f'c", "5.9.2.3.2a",
     "no reduction for slender walls", true},
    {KL_RULES_AASHTO_2020, RULE_COMPRESSION, RULE_SUSTAINED, RULE_TENDONS_ANY, RULE_ANY, RULE_ANY,
     0, RULE_LINEAR, 0.45, RULE_OF_SPECIFIED, RULE_KSI, NAN, false, "f'c", "0.45 f'c", "5.9.2.3.2a",
     "", true},
    {KL_RULES_AASHTO_2020, RULE_TENSION, WORKING, RULE_TENDONS_UNBONDED, RULE_ANY, RULE_ANY, 0,
     RULE_NOTHING, 0.0, RULE_OF_SPECIFIED, RULE_KSI, NAN, false, "f'c", "no tension", "5.9.2.3.2b",
     "", true},
    {KL_RULES_AASHTO_2020, RULE_TENSION, WORKING, RULE_TENDONS_BONDED, RULE_ANY, RULE_NO, 0,
     RULE_ROOT, 0.19, RULE_OF_SPECIFIED, RULE_KSI, 0.6, true, "f'c",
     "0.19 lambda sqrt(f'c), at most 0.6 ksi", "5.9.2.3.2b", "", true},
    {KL_RULES_AASHTO_2020, RULE_TENSION, WORKING, RULE_TENDONS_BONDED, RULE_ANY, RULE_YES, 0,
     RULE_ROOT, 0.0948, RULE_OF_SPECIFIED, RULE_KSI, 0.3, true, "f'c",
     "0.0948 lambda sqrt(f'c), at most 0.3 ksi", "5.9.2.3.2b", "", true},
    {KL_RULES_AASHTO_2020, RULE_TENSION, WORKING, RULE_TENDONS_NONE, RULE_NO, RULE_ANY, 0,
     RULE_NOTHING, 0.0, RULE_OF_SPECIFIED, RULE_KSI, NAN, false, "f'c", "no tension", "5.9.2.3.2b",
     "neither bonded tendons nor bonded steel", true},
    {KL_RULES_AASHTO_2020, RULE_TENSION, WORKING, RULE_TENDONS_NONE, RULE_YES, RULE_NO, 0,
     RULE_ROOT, 0.19, RULE_OF_SPECIFIED, RULE_KSI, 0.6, true, "f'c",
     "0.19 lambda sqrt(f'c), at most 0.6 ksi", "5.9.2.3.2b", "", true},
    {KL_RULES_AASHTO_2020, RULE_TENSION, WORKING, RULE_TENDONS_NONE, RULE_YES, RULE_YES, 0,
     RULE_ROOT, 0.0948, RULE_OF_SPECIFIED, RULE_KSI, 0.3, true, "f'c",
     "0.0948 lambda sqrt(f'c), at most 0.3 ksi", "5.9.2.3.2b", "", true},

    /* ACI 318-19 lets the ends of simply supported members have more (0.70 f'ci, 6 sqrt f'ci): not used here. */
    {KL_RULES_ACI318_2019, RULE_COMPRESSION, RULE_TRANSFER, RULE_TENDONS_ANY, RULE_ANY, RULE_ANY, 0,
     RULE_LINEAR, 0.60, RULE_OF_TRANSFER, RULE_PSI, NAN, false, "f'ci", "0.60 f'ci", "24.5.3.1",
     "the same at the ends of simple spans", true},
    {KL_RULES_ACI318_2019, RULE_TENSION, RULE_TRANSFER, RULE_TENDONS_ANY, RULE_NO, RULE_ANY, 0,
     RULE_ROOT, 3.0, RULE_OF_TRANSFER, RULE_PSI, NAN, false, "f'ci", "3 sqrt(f'ci)", "24.5.3.2",
     "the same at the ends of simple spans", true},
    {KL_RULES_ACI318_2019, RULE_TENSION, RULE_TRANSFER, RULE_TENDONS_ANY, RULE_YES, RULE_ANY, 0,
     RULE_ROOT, 7.5, RULE_OF_TRANSFER, RULE_PSI, NAN, true, "f'ci", "7.5 lambda sqrt(f'ci)",
     "24.5.3.2.1, 19.2.3.1", "with such steel the code has no limit: held at cracking", true},
    {KL_RULES_ACI318_2019, RULE_COMPRESSION, RULE_SERVICE, RULE_TENDONS_ANY, RULE_ANY, RULE_ANY, 0,
     RULE_LINEAR, 0.60, RULE_OF_SPECIFIED, RULE_PSI, NAN, false, "f'c", "0.60 f'c", "24.5.4.1", "",
     true},
    {KL_RULES_ACI318_2019, RULE_COMPRESSION, RULE_SUSTAINED, RULE_TENDONS_ANY, RULE_ANY, RULE_ANY,
     0, RULE_LINEAR, 0.45, RULE_OF_SPECIFIED, RULE_PSI, NAN, false, "f'c", "0.45 f'c", "24.5.4.1",
     "", true},
    {KL_RULES_ACI318_2019, RULE_TENSION, WORKING, RULE_TENDONS_ANY, RULE_ANY, RULE_ANY, 't',
     RULE_ROOT, 12.0, RULE_OF_SPECIFIED, RULE_PSI, NAN, false, "f'c", "12 sqrt(f'c)", "24.5.2.1",
     "", true},
    {KL_RULES_ACI318_2019, RULE_TENSION, WORKING, RULE_TENDONS_ANY, RULE_ANY, RULE_ANY, 'u',
     RULE_ROOT, 7.5, RULE_OF_SPECIFIED, RULE_PSI, NAN, false, "f'c", "7.5 sqrt(f'c)", "24.5.2.1",
     "", true},

    /* EN 1992-1-1:2004 has no tension limit of its own: no crack while the stress is below fctm (7.1(2)), and
     * decompression for bonded tendons by exposure (table 7.1N). The strict reading holds it at 0. */
    {KL_RULES_EN1992_2004, RULE_COMPRESSION, RULE_TRANSFER, RULE_TENDONS_ANY, RULE_ANY, RULE_ANY, 0,
     RULE_LINEAR, 0.60, RULE_OF_DAY, RULE_MPA, NAN, false, "fck(t)", "0.60 fck(t)", "5.10.2.2(5)",
     "above 0.45 fck(t) creep is not linear", true},
    {KL_RULES_EN1992_2004, RULE_TENSION, RULE_TRANSFER, RULE_TENDONS_ANY, RULE_NO, RULE_ANY, 0,
     RULE_NOTHING, 0.0, RULE_OF_DAY, RULE_MPA, NAN, false, "fck(t)", "no tension", "7.1(2)",
     "no steel to hold a crack", true},
    {KL_RULES_EN1992_2004, RULE_TENSION, RULE_TRANSFER, RULE_TENDONS_ANY, RULE_YES, RULE_ANY, 0,
     RULE_TWO_THIRDS, 0.30, RULE_OF_DAY, RULE_MPA, NAN, false, "fck(t)", "0.30 fck(t)^(2/3)",
     "7.1(2), table 3.1", "up to C50/60", true},
    {KL_RULES_EN1992_2004, RULE_COMPRESSION, RULE_SERVICE, RULE_TENDONS_ANY, RULE_ANY, RULE_ANY, 0,
     RULE_LINEAR, 0.60, RULE_OF_SPECIFIED, RULE_MPA, NAN, false, "fck", "0.60 fck", "7.2(2)",
     "required for XD, XF, XS", true},
    {KL_RULES_EN1992_2004, RULE_COMPRESSION, RULE_SUSTAINED, RULE_TENDONS_ANY, RULE_ANY, RULE_ANY,
     0, RULE_LINEAR, 0.45, RULE_OF_SPECIFIED, RULE_MPA, NAN, false, "fck", "0.45 fck", "7.2(3)",
     "quasi-permanent combination; creep is linear below", true},
    {KL_RULES_EN1992_2004, RULE_TENSION, RULE_SUSTAINED, RULE_TENDONS_ANY, RULE_ANY, RULE_ANY, 0,
     RULE_NOTHING, 0.0, RULE_OF_SPECIFIED, RULE_MPA, NAN, false, "fck", "no tension",
     "7.3.1(5), table 7.1N", "decompression, quasi-permanent combination", true},
    {KL_RULES_EN1992_2004, RULE_TENSION, RULE_SERVICE, RULE_TENDONS_ANY, RULE_ANY, RULE_YES, 0,
     RULE_NOTHING, 0.0, RULE_OF_SPECIFIED, RULE_MPA, NAN, false, "fck", "no tension",
     "7.3.1(5), table 7.1N", "decompression held in the characteristic combination too", true},
    {KL_RULES_EN1992_2004, RULE_TENSION, RULE_SERVICE, RULE_TENDONS_ANY, RULE_ANY, RULE_NO, 0,
     RULE_TWO_THIRDS, 0.30, RULE_OF_SPECIFIED, RULE_MPA, NAN, false, "fck", "0.30 fck^(2/3)",
     "7.1(2), table 3.1", "up to C50/60", true},
};

static const rule_tendon_row rule_tendon_rows[] = {
    /* AASHTO LRFD 2020, table 5.9.2.2-1, post-tensioning. The usual 0.75 of ultimate at the jack is a custom below
     * 0.90 of yield, not an entry of the table. */
    {KL_RULES_AASHTO_2020, RULE_AT_JACK, RULE_ANY, NAN, 0.90, "0.90 fpy", "table 5.9.2.2-1", true},
    {KL_RULES_AASHTO_2020, RULE_AT_ANCHOR, RULE_ANY, 0.70, NAN, "0.70 fpu", "table 5.9.2.2-1",
     true},
    {KL_RULES_AASHTO_2020, RULE_ALONG_TENDON, RULE_YES, 0.74, NAN, "0.74 fpu", "table 5.9.2.2-1",
     true},
    {KL_RULES_AASHTO_2020, RULE_ALONG_TENDON, RULE_NO, 0.70, NAN, "0.70 fpu", "table 5.9.2.2-1",
     true},
    {KL_RULES_AASHTO_2020, RULE_TENDON_SERVICE, RULE_ANY, NAN, 0.80, "0.80 fpy", "table 5.9.2.2-1",
     true},
    /* ACI 318-19 names the anchors only, and nothing in service. */
    {KL_RULES_ACI318_2019, RULE_AT_JACK, RULE_ANY, 0.80, 0.94, "least of 0.94 fpy, 0.80 fpu",
     "table 20.3.2.5.1", true},
    {KL_RULES_ACI318_2019, RULE_AT_ANCHOR, RULE_ANY, 0.70, NAN, "0.70 fpu", "table 20.3.2.5.1",
     true},
    /* EN 1992-1-1:2004; the yield strength of the model is fp0.1k there. */
    {KL_RULES_EN1992_2004, RULE_AT_JACK, RULE_ANY, 0.80, 0.90, "least of 0.80 fpk, 0.90 fp0.1k",
     "5.10.2.1(1)", true},
    {KL_RULES_EN1992_2004, RULE_AT_ANCHOR, RULE_ANY, 0.75, 0.85, "least of 0.75 fpk, 0.85 fp0.1k",
     "5.10.3(2)", true},
    {KL_RULES_EN1992_2004, RULE_ALONG_TENDON, RULE_ANY, 0.75, 0.85,
     "least of 0.75 fpk, 0.85 fp0.1k", "5.10.3(2)", true},
    {KL_RULES_EN1992_2004, RULE_TENDON_SERVICE, RULE_ANY, 0.75, NAN, "0.75 fpk", "7.2(5)", true},
};

static bool rule_answers(rule_asks asked, bool is)
{
    return asked == RULE_ANY || (asked == RULE_YES) == is;
}

static unsigned rule_condition_bit(kl_rules edition, const rule_circumstances *c)
{
    switch (c->condition) {
    case KL_AT_TRANSFER:
        return RULE_TRANSFER;
    case KL_SUSTAINED:
        return RULE_SUSTAINED;
    case KL_IN_SERVICE:
    case KL_CONDITION_UNSET:
        break;
    }
    return edition == KL_RULES_EN1992_2004 && c->quasi_permanent ? RULE_SUSTAINED : RULE_SERVICE;
}

static bool rule_fits(const rule_row *row, const rule_circumstances *c)
{
    return (row->tendons == RULE_TENDONS_ANY || row->tendons == c->tendons) &&
           rule_answers(row->bonded_steel, c->bonded_steel) &&
           rule_answers(row->severe, c->severe) &&
           (row->uncracked_class == 0 || row->uncracked_class == c->uncracked_class);
}

const rule_row *rule_find(kl_rules edition, rule_side side, const rule_circumstances *circumstances)
{
    const unsigned bit = rule_condition_bit(edition, circumstances);
    for (size_t i = 0; i < sizeof rule_rows / sizeof rule_rows[0]; i++) {
        const rule_row *row = &rule_rows[i];
        if (row->edition == edition && row->side == side && (row->conditions & bit) != 0 &&
            rule_fits(row, circumstances)) {
            return row;
        }
    }
    return NULL;
}

double rule_limit(const rule_row *row, double strength, double lambda, bool *capped)
{
    const double unit = rule_unit_factor(row->unit);
    const double f = strength / unit;
    const double factor = row->coefficient * (row->uses_lambda ? lambda : 1.0);
    double limit = 0.0;
    switch (row->form) {
    case RULE_LINEAR:
        limit = factor * f;
        break;
    case RULE_ROOT:
        limit = factor * sqrt(f);
        break;
    case RULE_TWO_THIRDS:
        limit = factor * cbrt(f * f);
        break;
    case RULE_NOTHING:
        break;
    }
    const bool over = !isnan(row->cap) && limit > row->cap;
    if (capped != NULL) {
        *capped = over;
    }
    return (over ? row->cap : limit) * unit;
}

double rule_lambda(double unit_weight)
{
    if (isnan(unit_weight)) {
        return 1.0;
    }
    return fmin(1.0, fmax(0.75, 7.5 * unit_weight / KCF_IN_N_PER_M3));
}

double rule_rupture(double strength, double lambda)
{
    return 7.5 * lambda * sqrt(strength / PSI_IN_PA) * PSI_IN_PA;
}

const char *rule_edition_name(kl_rules edition)
{
    switch (edition) {
    case KL_RULES_AASHTO_2020:
        return "AASHTO LRFD 2020";
    case KL_RULES_ACI318_2019:
        return "ACI 318-19";
    case KL_RULES_EN1992_2004:
        return "EN 1992-1-1:2004";
    case KL_RULES_NONE:
        break;
    }
    return "given in the model";
}

double rule_unit_factor(rule_unit unit)
{
    return unit == RULE_KSI ? 1e3 * PSI_IN_PA : unit == RULE_PSI ? PSI_IN_PA : 1e6;
}

const char *rule_unit_word(rule_unit unit)
{
    return unit == RULE_KSI ? "ksi" : unit == RULE_PSI ? "psi" : "MPa";
}

const rule_tendon_row *rule_tendon_find(kl_rules edition, rule_moment moment, bool low_relaxation)
{
    for (size_t i = 0; i < sizeof rule_tendon_rows / sizeof rule_tendon_rows[0]; i++) {
        const rule_tendon_row *row = &rule_tendon_rows[i];
        if (row->edition == edition && row->moment == moment &&
            rule_answers(row->low_relaxation, low_relaxation)) {
            return row;
        }
    }
    return NULL;
}

double rule_tendon_limit(const rule_tendon_row *row, double ultimate, double yield, bool *by_yield)
{
    const double u = row->of_ultimate * ultimate, y = row->of_yield * yield;
    const bool yields = !isnan(row->of_yield) && (isnan(row->of_ultimate) || y < u);
    if (by_yield != NULL) {
        *by_yield = yields;
    }
    const bool asks_both = !isnan(row->of_yield) && !isnan(row->of_ultimate);
    return asks_both && (isnan(u) || isnan(y)) ? (double)NAN : yields ? y : u;
}

const char *rule_moment_name(rule_moment moment)
{
    switch (moment) {
    case RULE_AT_JACK:
        return "at the jack";
    case RULE_AT_ANCHOR:
        return "at the anchor after seating";
    case RULE_ALONG_TENDON:
        return "along the tendon after seating";
    case RULE_TENDON_SERVICE:
        break;
    }
    return "in service";
}
