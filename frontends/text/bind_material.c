/* bind_material.c - concrete, elastic materials, prestressing and reinforcing steel.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind_context.h"

typedef struct law_word {
    const char *word;
    kl_law law;
} law_word;

/* The year is told apart by the parser: one edition of each is known. */
static const law_word laws[] = {
    {"none", KL_LAW_NONE},          {"user", KL_LAW_USER},     {"aashto", KL_LAW_AASHTO_2020},
    {"aci209", KL_LAW_ACI209_1992}, {"aci", KL_LAW_ACI_2019},  {"en1992", KL_LAW_EN1992_2004},
    {"mc1990", KL_LAW_MC1990},      {"mc1999", KL_LAW_MC1999}, {"mc2010", KL_LAW_MC2010},
};

static kl_law law_of(const bind_chain *chain, const char *mark)
{
    const text_value *value = bind_chain_value(chain, mark);
    if (value == NULL) {
        return KL_LAW_UNSET;
    }
    if (value->kind != VALUE_CHOICE) {
        return KL_LAW_VALUE;
    }
    for (size_t i = 0; i < sizeof laws / sizeof laws[0]; i++) {
        const size_t length = strlen(laws[i].word);
        const char *text = value->names[0].text;
        if (strncmp(text, laws[i].word, length) == 0 &&
            (text[length] == '\0' || text[length] == ' ')) {
            return laws[i].law;
        }
    }
    return KL_LAW_UNSET; /* the table has no other words */
}

static kl_relaxation relaxation_of(const bind_chain *chain)
{
    static const struct {
        const char *word;
        kl_relaxation relaxation;
    } words[] = {{"none", KL_RELAXATION_NONE},
                 {"low", KL_RELAXATION_LOW},
                 {"normal", KL_RELAXATION_NORMAL},
                 {"bar", KL_RELAXATION_BAR}};
    const text_value *value = bind_chain_value(chain, "relaxation");
    if (value == NULL) {
        return KL_RELAXATION_UNSET;
    }
    for (size_t i = 0; value->kind == VALUE_CHOICE && i < sizeof words / sizeof words[0]; i++) {
        if (strcmp(value->names[0].text, words[i].word) == 0) {
            return words[i].relaxation;
        }
    }
    return KL_RELAXATION_VALUE;
}

/* The curve in the block of `creep` or `shrinkage`: its points, or its final value as a point at infinity.
 * @param mark of the value: "phi", "strain" */
static kl_status curve_of(
    binder *b, const bind_chain *chain, const char *word, const char *mark, kl_time_curve *curve)
{
    const phrase *law = bind_chain_child(chain, word);
    *curve = (kl_time_curve){.origin = KL_NOWHERE};
    if (law == NULL) {
        return KL_OK;
    }
    curve->origin = law->origin;
    const text_value *final = phrase_value(law, mark);
    kl_index count = final != NULL ? 1 : 0;
    for (const phrase *p = NULL; (p = phrase_child(law, "point", p)) != NULL;) {
        count++;
    }
    kl_time_point *points = arena_array(&b->scratch, (size_t)count, sizeof *points);
    if (points == NULL) {
        return KL_NO_MEMORY;
    }
    if (final != NULL) {
        points[curve->count++] =
            (kl_time_point){(double)INFINITY, final->quantities[0].value, final->origin};
    }
    for (const phrase *p = NULL; (p = phrase_child(law, "point", p)) != NULL;) {
        points[curve->count++] =
            (kl_time_point){bind_own_number(p, 0), phrase_number(p, mark, NAN), p->origin};
    }
    curve->points = points;
    return KL_OK;
}

static kl_cement cement_of(const bind_chain *chain)
{
    const text_name *cement = bind_chain_name(chain, "cement");
    if (cement != NULL && strcmp(cement->text, "slow") == 0) {
        return KL_CEMENT_SLOW;
    }
    return cement != NULL && strcmp(cement->text, "rapid") == 0 ? KL_CEMENT_RAPID
                                                                : KL_CEMENT_NORMAL;
}

static kl_material_kind kind_of(const phrase *p)
{
    switch (p->word[0]) {
    case 'c':
        return KL_CONCRETE;
    case 'p':
        return KL_PRESTRESSING;
    case 'r':
        return KL_REINFORCING;
    default:
        return KL_ELASTIC;
    }
}

static kl_status bind_material(binder *b, bind_symbol *symbol)
{
    bind_chain chain;
    KL_TRY(bind_follow_like(b, symbol, bind_material, &chain));
    if (b->bad) {
        return bind_settle(b, symbol, KL_NONE, KL_BAD_MODEL);
    }
    kl_material material = {
        .kind = kind_of(symbol->phrase),
        .name = symbol->name.text,
        .origin = symbol->phrase->origin,
        .strength = bind_chain_number(&chain, "strength", NAN),
        .transfer_strength = bind_chain_number(&chain, "transfer_strength", NAN),
        .unit_weight = bind_chain_number(&chain, "unit_weight", NAN),
        .modulus_law = law_of(&chain, "modulus"),
        .modulus = bind_chain_number(&chain, "modulus", NAN),
        .shear_modulus = bind_chain_number(&chain, "shear_modulus", NAN),
        .expansion = bind_chain_number(&chain, "expansion", NAN),
        .creep = law_of(&chain, "creep"),
        .shrinkage = law_of(&chain, "shrinkage"),
        .cement = cement_of(&chain),
        .gain = law_of(&chain, "gain"),
        .cured = bind_chain_number(&chain, "cured", NAN),
        .ultimate = bind_chain_number(&chain, "ultimate", NAN),
        .yield = bind_chain_number(&chain, "yield", NAN),
        .relaxation = relaxation_of(&chain),
        .relaxation_loss = bind_chain_number(&chain, "relaxation", NAN),
    };
    KL_TRY(curve_of(b, &chain, "creep", "phi", &material.creep_curve));
    KL_TRY(curve_of(b, &chain, "shrinkage", "strain", &material.shrinkage_curve));
    kl_index added = KL_NONE;
    const kl_status status = kl_model_add_material(b->model, &material, &added);
    return bind_settle(b, symbol, added, status);
}

kl_status bind_materials(binder *b)
{
    return bind_each(b, KL_KIND_MATERIAL, bind_material);
}
