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
    {"none", KL_LAW_NONE},    {"aashto", KL_LAW_AASHTO_2020}, {"aci209", KL_LAW_ACI209_1992},
    {"aci", KL_LAW_ACI_2019}, {"en1992", KL_LAW_EN1992_2004}, {"mc1990", KL_LAW_MC1990},
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
    return KL_LAW_UNSET; /* a law that is not computed yet: the parser has said so */
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
    const kl_material material = {
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
        .relaxation = law_of(&chain, "relaxation"),
    };
    kl_index added = KL_NONE;
    const kl_status status = kl_model_add_material(b->model, &material, &added);
    return bind_settle(b, symbol, added, status);
}

kl_status bind_materials(binder *b)
{
    return bind_each(b, KL_KIND_MATERIAL, bind_material);
}
