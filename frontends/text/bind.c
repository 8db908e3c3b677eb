/* bind.c - see bind.h: the order of the work, and the table of declared names.
 * SPDX-License-Identifier: MIT */
#include "bind.h"

#include <string.h>

#include "bind_context.h"
#include "str.h"

/* Which word declares a name of which kind. */
typedef struct bind_declaration {
    const char *word;
    int kind;
} bind_declaration;

static const bind_declaration declarations[] = {
    {"concrete", KL_KIND_MATERIAL},     {"material", KL_KIND_MATERIAL},
    {"prestressing", KL_KIND_MATERIAL}, {"reinforcing", KL_KIND_MATERIAL},
    {"section", KL_KIND_SECTION},       {"node", KL_KIND_NODE},
    {"member", KL_KIND_MEMBER},         {"tendon", KL_KIND_TENDON},
    {"falsework", KL_KIND_FALSEWORK},   {"load", KL_KIND_CASE},
    {"stage", KL_KIND_STAGE},           {"combination", KL_KIND_COMBINATION},
    {"check", KL_KIND_CHECK},           {"set", BIND_SET},
};

/* Stands for a phrase that the parser left out for a mistake. */
static const phrase left_out = {.word = ""};

/* At most so many messages get a suggestion: more than a front end shows. */
enum { BIND_SUGGESTIONS = 40 };

static int declared_kind(const char *word)
{
    for (size_t i = 0; i < sizeof declarations / sizeof declarations[0]; i++) {
        if (str_same(word, declarations[i].word)) {
            return declarations[i].kind;
        }
    }
    return BIND_KIND_COUNT;
}

/* The name a phrase declares, or NULL. */
static const text_name *declared_name(const phrase *p)
{
    const text_value *value = phrase_own(p, 0);
    return value != NULL && value->kind == VALUE_NAME ? &value->names[0] : NULL;
}

/* ---- declared names ----------------------------------------------------------------------------------- */

static kl_status make_room(binder *b)
{
    kl_index counts[BIND_KIND_COUNT + 1] = {0};
    const size_t phrases = (size_t)b->document->phrase_count;
    for (size_t i = 0; i < phrases; i++) {
        counts[declared_kind(b->document->phrases[i].word)]++;
    }
    for (int kind = 0; kind < BIND_KIND_COUNT; kind++) {
        counts[kind] += b->document->broken_count;
    }
    b->declared = arena_array(&b->scratch, phrases, sizeof *b->declared);
    bool enough = b->declared != NULL;
    for (int kind = 0; kind < BIND_KIND_COUNT; kind++) {
        bind_names *names = &b->names[kind];
        names->symbols = arena_array(&b->scratch, (size_t)counts[kind], sizeof *names->symbols);
        enough = enough && names->symbols != NULL;
    }
    return enough ? KL_OK : KL_NO_MEMORY;
}

static kl_status declare(binder *b, const phrase *p, bind_symbol **symbol_of)
{
    const int kind = declared_kind(p->word);
    const text_name *name = kind < BIND_KIND_COUNT ? declared_name(p) : NULL;
    if (name == NULL) {
        return KL_OK;
    }
    bind_names *names = &b->names[kind];
    const size_t length = strlen(name->text);
    const kl_index taken = name_table_find(&names->table, name->text, length);
    if (taken != KL_NONE) {
        bind_error(b, "name-taken", name->origin, "There is already a %s named %s.",
                   bind_kind_name(kind), name->text);
        bind_hint(b, "give each %s a name of its own", bind_kind_name(kind));
        if (!b->hushed) {
            kl_diags_add(b->diags, KL_NOTE, "name-taken-here", names->symbols[taken].name.origin,
                         "The first one is here.");
        }
        return KL_OK;
    }
    bind_symbol *symbol = &names->symbols[names->count];
    *symbol = (bind_symbol){.kind = kind, .phrase = p, .name = *name, .index = KL_NONE};
    *symbol_of = symbol;
    return name_table_add(&names->table, name->text, length, names->count++);
}

/* The name of a phrase that was left out counts as declared and wrong: whoever asks for it is silent. */
static kl_status declare_broken(binder *b, int kind, const text_name *name)
{
    bind_names *names = &b->names[kind];
    const size_t length = strlen(name->text);
    if (name_table_find(&names->table, name->text, length) != KL_NONE) {
        return KL_OK;
    }
    names->symbols[names->count] = (bind_symbol){
        .kind = kind, .phrase = &left_out, .name = *name, .state = BIND_FAILED, .index = KL_NONE};
    return name_table_add(&names->table, name->text, length, names->count++);
}

/* A word that is unknown itself may have declared anything. */
static kl_status declare_left_out(binder *b)
{
    for (kl_index i = 0; i < b->document->broken_count; i++) {
        const text_broken *broken = &b->document->broken[i];
        const int only = broken->word != NULL ? declared_kind(broken->word) : BIND_KIND_COUNT;
        for (int kind = 0; kind < BIND_KIND_COUNT; kind++) {
            if (broken->word == NULL || kind == only) {
                KL_TRY(declare_broken(b, kind, &broken->name));
            }
        }
    }
    return KL_OK;
}

static kl_status declare_all(binder *b)
{
    KL_TRY(make_room(b));
    for (kl_index i = 0; i < b->document->phrase_count; i++) {
        KL_TRY(declare(b, &b->document->phrases[i], &b->declared[i].symbol));
    }
    return declare_left_out(b);
}

/* ---- sets ------------------------------------------------------------------------------------------------ */

/* A set's names must exist, even when nothing uses it; of which kind they must be, the place of use says. */
static kl_status check_set(binder *b, bind_symbol *symbol)
{
    const text_value *value = phrase_own(symbol->phrase, 1);
    for (kl_index i = 0; value != NULL && i < value->count; i++) {
        bool known = false;
        for (int kind = 0; kind < BIND_KIND_COUNT; kind++) {
            known = known || bind_is_declared(b, kind, value->names[i].text);
        }
        if (!known) {
            bind_error(b, "unknown-name", value->names[i].origin,
                       "Nothing is named %s, which set %s asks for.", value->names[i].text,
                       symbol->name.text);
        }
    }
    /* Not the set but the name in it is wrong: where the set is used that is no further error. */
    symbol->state = b->bad ? BIND_FAILED : BIND_DONE;
    return KL_OK;
}

/* ---- the whole --------------------------------------------------------------------------------------------- */

static kl_status bind_all(binder *b)
{
    KL_TRY(bind_site(b));
    KL_TRY(declare_all(b));
    KL_TRY(bind_each(b, BIND_SET, check_set));
    KL_TRY(bind_materials(b));
    KL_TRY(bind_sections(b));
    KL_TRY(bind_frame(b));
    KL_TRY(bind_supports(b));
    KL_TRY(bind_tendons(b));
    KL_TRY(bind_falseworks(b));
    KL_TRY(bind_loads(b));
    KL_TRY(bind_stages(b));
    KL_TRY(bind_combinations(b));
    KL_TRY(bind_checks(b));
    KL_TRY(bind_expectations(b));
    return bind_grades(b);
}

kl_status bind_document(const text_document *document, kl_diags *diags, kl_model **out)
{
    *out = NULL;
    binder b = {.document = document,
                .diags = diags,
                .suggestions_left = BIND_SUGGESTIONS,
                .any_bad = document->is_wrong};
    b.model = kl_model_create(diags);
    kl_status status = b.model == NULL ? KL_NO_MEMORY : bind_all(&b);
    if (status == KL_OK && b.any_bad) {
        status = KL_BAD_MODEL;
    }
    if (b.untold > 0) {
        kl_diags_add(diags, KL_NOTE, "too-many-errors", KL_NOWHERE, "… and %d more errors.",
                     (int)b.untold);
    }
    for (int kind = 0; kind < BIND_KIND_COUNT; kind++) {
        name_table_free(&b.names[kind].table);
    }
    arena_free(&b.scratch);
    if (status != KL_OK) {
        kl_model_destroy(b.model);
        return status;
    }
    *out = b.model;
    return KL_OK;
}

kl_status bind_after(kl_status read, const text_document *document, kl_diags *diags, kl_model **out)
{
    *out = NULL;
    const bool can_go_on = read == KL_OK || (read == KL_BAD_MODEL && !document->is_cut);
    return can_go_on ? bind_document(document, diags, out) : read;
}
