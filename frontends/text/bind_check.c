/* bind_check.c - combinations and checks.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind_ask.h"
#include "bind_context.h"

/* Far more than anyone combines; the builder says the same. */
#define COMBINATION_MOST_FACTORS 1000

/* ---- causes ------------------------------------------------------------------------------------------------ */

typedef struct cause_word {
    const char *word;
    kl_cause_kind kind;
} cause_word;

static const cause_word cause_words[] = {
    {"weight", KL_CAUSE_WEIGHT},
    {"prestress", KL_CAUSE_PRESTRESS},
    {"creep", KL_CAUSE_CREEP},
    {"shrinkage", KL_CAUSE_SHRINKAGE},
    {"relaxation", KL_CAUSE_RELAXATION},
    {"losses", KL_CAUSE_LOSSES},
    {"temperature", KL_CAUSE_TEMPERATURE},
    {"movement", KL_CAUSE_MOVEMENT},
};

bool bind_cause_word(const char *word, kl_cause *cause)
{
    for (size_t i = 0; i < sizeof cause_words / sizeof cause_words[0]; i++) {
        if (strcmp(word, cause_words[i].word) == 0) {
            *cause = (kl_cause){cause_words[i].kind, KL_NONE};
            return true;
        }
    }
    return false;
}

/* ---- combinations ------------------------------------------------------------------------------------------ */

/* The factors of the combination at hand. */
typedef struct factor_list {
    kl_factor *items;
    kl_index count, room;
} factor_list;

static kl_status add_factor(binder *b, factor_list *list, kl_factor factor)
{
    if (list->count == COMBINATION_MOST_FACTORS) {
        bind_error(b, "too-many-factors", factor.origin,
                   "A combination may have at most %d factors, sets spread out.",
                   COMBINATION_MOST_FACTORS);
        return KL_OK;
    }
    if (list->count == list->room) {
        const kl_index room = list->room > 0 ? 2 * list->room : 8;
        kl_factor *items = arena_array(&b->scratch, (size_t)room, sizeof *items);
        if (items == NULL) {
            return KL_NO_MEMORY;
        }
        if (list->count > 0) {
            memcpy(items, list->items, (size_t)list->count * sizeof *items);
        }
        list->items = items;
        list->room = room;
    }
    list->items[list->count++] = factor;
    return KL_OK;
}

/* One name of `of`: a cause, a load case, or a set of cases. */
static kl_status
take_name(binder *b, const phrase *p, const text_name *name, double factor, factor_list *list)
{
    kl_factor one = {.factor = factor, .origin = p->origin};
    if (bind_cause_word(name->text, &one.cause)) {
        return add_factor(b, list, one);
    }
    const text_value value = {
        .kind = VALUE_NAMES, .origin = name->origin, .count = 1, .names = name};
    kl_list cases = {NULL, 0};
    KL_TRY(bind_list(b, KL_KIND_CASE, NULL, &value, &cases));
    for (kl_index i = 0; i < cases.count && !b->bad; i++) {
        one.cause = (kl_cause){KL_CAUSE_CASE, cases.items[i]};
        KL_TRY(add_factor(b, list, one));
    }
    return KL_OK;
}

static kl_status take_names(binder *b, const phrase *p, factor_list *list)
{
    const double factor = bind_own_number(p, 0);
    const text_value *of = phrase_value(p, "of");
    for (kl_index i = 0; of != NULL && i < of->count; i++) {
        KL_TRY(take_name(b, p, &of->names[i], factor, list));
    }
    return KL_OK;
}

static kl_status bind_combination(binder *b, bind_symbol *symbol)
{
    factor_list list = {NULL, 0, 0};
    const phrase *p = NULL;
    while ((p = phrase_child(symbol->phrase, "factor", p)) != NULL) {
        KL_TRY(take_names(b, p, &list));
    }
    const kl_combination combination = {symbol->name.text, symbol->phrase->origin, list.items,
                                        list.count};
    kl_index added = KL_NONE;
    const kl_status status =
        b->bad ? KL_BAD_MODEL : kl_model_add_combination(b->model, &combination, &added);
    return bind_settle(b, symbol, added, status);
}

kl_status bind_combinations(binder *b)
{
    return bind_each(b, KL_KIND_COMBINATION, bind_combination);
}

/* ---- when -------------------------------------------------------------------------------------------------- */

/* `under`: a combination or a case. */
static kl_when under(binder *b, const text_name *name)
{
    const bind_symbol *a_case = bind_find_symbol(b, KL_KIND_CASE, name->text);
    const bool is_case = a_case != NULL && a_case->state != BIND_FAILED;
    const bool is_combination = bind_is_declared(b, KL_KIND_COMBINATION, name->text);
    if (is_case && is_combination) {
        bind_error(b, "case-or-combination", name->origin,
                   "`%s` is a load case and a combination; it is not clear which is meant.",
                   name->text);
    }
    const int kind = is_combination ? KL_KIND_COMBINATION : KL_KIND_CASE;
    return (kl_when){is_combination ? KL_WHEN_COMBINATION : KL_WHEN_CASE,
                     bind_reference(b, kind, name), KL_NONE};
}

kl_when bind_when(binder *b, const phrase *p)
{
    const text_value *value = phrase_value(p, "under");
    if (value != NULL) {
        return under(b, &value->names[0]);
    }
    if (phrase_has(p, "after")) {
        return (kl_when){KL_WHEN_AFTER, bind_mark_reference(b, KL_KIND_STAGE, p, "after"), KL_NONE};
    }
    if (phrase_has(p, "during")) {
        return (kl_when){KL_WHEN_DURING, bind_mark_reference(b, KL_KIND_STAGE, p, "during"),
                         KL_NONE};
    }
    return (kl_when){KL_WHEN_UNSET, KL_NONE, KL_NONE};
}

/* ---- checks ------------------------------------------------------------------------------------------------ */

static kl_when check_when(binder *b, const phrase *p)
{
    const bool from = phrase_has(p, "from");
    const bool to = phrase_has(p, "to");
    if (!from && !to) {
        return bind_when(b, p);
    }
    if (!from || !to) {
        bind_error(b, "half-a-run", p->origin, "A run of stages needs `from` and `to`.");
        return (kl_when){KL_WHEN_UNSET, KL_NONE, KL_NONE};
    }
    return (kl_when){KL_WHEN_FROM_TO, bind_mark_reference(b, KL_KIND_STAGE, p, "from"),
                     bind_mark_reference(b, KL_KIND_STAGE, p, "to")};
}

/* Is the mark's choice this word (a year may follow)? */
static bool chose(const phrase *p, const char *mark, const char *word)
{
    const char *text = phrase_name(p, mark);
    const size_t length = strlen(word);
    return text != NULL && strncmp(text, word, length) == 0 &&
           (text[length] == '\0' || text[length] == ' ');
}

static kl_condition condition_of(const phrase *p)
{
    if (chose(p, "condition", "transfer")) {
        return KL_AT_TRANSFER;
    }
    if (chose(p, "condition", "service")) {
        return KL_IN_SERVICE;
    }
    return chose(p, "condition", "sustained") ? KL_SUSTAINED : KL_CONDITION_UNSET;
}

static kl_rules rules_of(const phrase *p)
{
    if (chose(p, "rules", "aashto")) {
        return KL_RULES_AASHTO_2020;
    }
    if (chose(p, "rules", "aci318")) {
        return KL_RULES_ACI318_2019;
    }
    return chose(p, "rules", "en1992") ? KL_RULES_EN1992_2004 : KL_RULES_NONE;
}

static kl_face face_of(const phrase *p)
{
    if (chose(p, "face", "top")) {
        return KL_FACE_TOP;
    }
    return chose(p, "face", "bottom") ? KL_FACE_BOTTOM : KL_FACE_BOTH;
}

static kl_status bind_check(binder *b, bind_symbol *symbol)
{
    const phrase *p = symbol->phrase;
    const text_value *kind = phrase_own(p, 1);
    if (kind != NULL && kind->kind == VALUE_CHOICE && strcmp(kind->names[0].text, "stress") != 0) {
        symbol->state = BIND_FAILED; /* not computed yet: the parser has said so */
        return KL_OK;
    }
    kl_check check = {
        .name = symbol->name.text,
        .origin = p->origin,
        .when = check_when(b, p),
        .condition = condition_of(p),
        .rules = rules_of(p),
        .compression = phrase_number(p, "compression", NAN),
        .tension = phrase_number(p, "tension", NAN),
        .face = face_of(p),
        .bonded_steel = chose(p, "bonded_steel", "yes"),
        .has_bonded_steel = phrase_has(p, "bonded_steel"),
        .exposure_severe = !chose(p, "exposure", "moderate"),
        .has_exposure = phrase_has(p, "exposure"),
        .uncracked_class = chose(p, "class", "t") ? 't' : 'u',
        .has_class = phrase_has(p, "class"),
        .quasi_permanent = chose(p, "combination", "quasi_permanent"),
        .has_combination = phrase_has(p, "combination"),
    };
    KL_TRY(bind_list(b, KL_KIND_MEMBER, NULL, phrase_value(p, "members"), &check.members));
    KL_TRY(bind_list(b, KL_KIND_TENDON, NULL, phrase_value(p, "tendons"), &check.tendons));
    kl_index added = KL_NONE;
    const kl_status status = b->bad ? KL_BAD_MODEL : kl_model_add_check(b->model, &check, &added);
    return bind_settle(b, symbol, added, status);
}

kl_status bind_checks(binder *b)
{
    return bind_each(b, KL_KIND_CHECK, bind_check);
}
