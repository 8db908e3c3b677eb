/* law_name.c - see law_name.h.
 * SPDX-License-Identifier: MIT */
#include "law_name.h"

#include <string.h>

const char *law_name(kl_law law)
{
    switch (law) {
    case KL_LAW_UNSET:
    case KL_LAW_NONE:
        return "none";
    case KL_LAW_VALUE:
        return "as given";
    case KL_LAW_USER:
        return "a curve of the model's own";
    case KL_LAW_AASHTO_2020:
        return "AASHTO LRFD 2020";
    case KL_LAW_ACI_2019:
        return "ACI 318-19";
    case KL_LAW_ACI209_1992:
        return "ACI 209R-92";
    case KL_LAW_EN1992_2004:
        return "EN 1992-1-1:2004";
    case KL_LAW_MC1990:
        return "CEB-FIP Model Code 1990";
    case KL_LAW_MC1999:
        return "CEB-FIP Model Code 1990, update of 1999";
    case KL_LAW_MC2010:
        return "fib Model Code 2010";
    }
    return "";
}

/* "" for none. */
static const char *law_rules_name(kl_rules rules)
{
    switch (rules) {
    case KL_RULES_NONE:
        return "";
    case KL_RULES_AASHTO_2020:
        return "AASHTO LRFD 2020";
    case KL_RULES_ACI318_2019:
        return "ACI 318-19";
    case KL_RULES_EN1992_2004:
        return "EN 1992-1-1:2004";
    }
    return "";
}

const char *law_relaxation_name(kl_relaxation r)
{
    switch (r) {
    case KL_RELAXATION_UNSET:
    case KL_RELAXATION_NONE:
        return "none";
    case KL_RELAXATION_LOW:
        return "low-relaxation strand";
    case KL_RELAXATION_NORMAL:
        return "stress-relieved strand or wire";
    case KL_RELAXATION_BAR:
        return "bar";
    case KL_RELAXATION_VALUE:
        return "as given";
    }
    return "";
}

static void law_note(const char *name, const char **names, int *count)
{
    bool is_new = name[0] != '\0' && *count < LAW_NAME_LIMIT;
    for (int i = 0; i < *count; i++) {
        is_new = is_new && strcmp(names[i], name) != 0;
    }
    if (is_new) {
        names[(*count)++] = name;
    }
}

static bool law_is_published(kl_law law)
{
    return law > KL_LAW_USER;
}

int law_editions(const kl_model *model, const char *names[LAW_NAME_LIMIT])
{
    int count = 0;
    for (kl_index i = 0; i < model->check_count; i++) {
        law_note(law_rules_name(model->checks[i].rules), names, &count);
    }
    for (kl_index i = 0; i < model->material_count; i++) {
        const kl_material *material = &model->materials[i];
        const kl_law laws[] = {material->modulus_law, material->creep, material->shrinkage,
                               material->gain};
        for (size_t k = 0; k < sizeof laws / sizeof laws[0]; k++) {
            law_note(law_is_published(laws[k]) ? law_name(laws[k]) : "", names, &count);
        }
    }
    return count;
}

bool law_time_acts(const kl_model *model)
{
    for (kl_index i = 0; i < model->material_count; i++) {
        const kl_material *c = &model->materials[i];
        if (c->creep > KL_LAW_NONE || c->shrinkage > KL_LAW_NONE ||
            c->relaxation > KL_RELAXATION_NONE) {
            return true;
        }
    }
    return false;
}
