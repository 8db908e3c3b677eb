/* bind_tendon.c - tendons: steel, profile, jacking force, and what `like` and `raise` make of another's.
 *
 * `ratio`, `stress` and `force` of `jack` become the force in one tendon just inside the anchor:
 * ratio * ultimate * A, stress * A, force (over the count with `total`), A = strands * area of one.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind_context.h"

/* ---- steel ------------------------------------------------------------------------------------------------- */

static void take_steel(binder *b, const bind_chain *chain, kl_tendon *tendon)
{
    tendon->units = NAN;
    tendon->unit_area = NAN;
    for (kl_index i = 0; i < chain->count; i++) {
        const phrase *strands = phrase_child(chain->phrases[i], "strands", NULL);
        const phrase *bars = phrase_child(chain->phrases[i], "bars", NULL);
        if (strands != NULL || bars != NULL) {
            tendon->is_bar = strands == NULL;
            tendon->units = bind_own_number(tendon->is_bar ? bars : strands, 0);
            tendon->unit_area = phrase_number(tendon->is_bar ? bars : strands, "area", NAN);
            break;
        }
    }
    const text_name *steel = bind_chain_name(chain, "of");
    tendon->material = steel == NULL ? KL_NONE : bind_reference(b, KL_KIND_MATERIAL, steel);
    const text_value *count = bind_chain_value(chain, "count");
    tendon->count = 1;
    if (count != NULL) { /* the builder says what is too many */
        tendon->count = count->integer > 1000000 ? 1000000 : (kl_index)count->integer;
    }
}

/* ---- jack -------------------------------------------------------------------------------------------------- */

static kl_jack_ends jack_ends_of(const bind_chain *chain)
{
    static const char *const words[] = {
        [KL_JACK_START] = "start",
        [KL_JACK_END] = "end",
        [KL_JACK_BOTH] = "both",
        [KL_JACK_START_THEN_END] = "start then end",
        [KL_JACK_END_THEN_START] = "end then start",
    };
    const text_name *ends = bind_chain_name(chain, "jack");
    for (int i = 0; ends != NULL && i <= KL_JACK_END_THEN_START; i++) {
        if (strcmp(ends->text, words[i]) == 0) {
            return (kl_jack_ends)i;
        }
    }
    return KL_JACK_START;
}

static void take_jack(binder *b, const bind_chain *chain, kl_tendon *tendon)
{
    tendon->jack_ends = jack_ends_of(chain);
    tendon->jack_force = NAN;
    const phrase *jack = bind_chain_child(chain, "jack");
    if (jack == NULL || tendon->material == KL_NONE) {
        return;
    }
    const double area = tendon->units * tendon->unit_area;
    const double ultimate = b->model->materials[tendon->material].ultimate;
    const bool total = phrase_has(jack, "total");
    if (total && !phrase_has(jack, "force")) {
        bind_error(b, "total-of-what", jack->origin, "`total` goes with `force` only.");
        return;
    }
    if (phrase_has(jack, "ratio")) {
        tendon->jack_force = phrase_number(jack, "ratio", NAN) * ultimate * area;
    } else if (phrase_has(jack, "stress")) {
        tendon->jack_force = phrase_number(jack, "stress", NAN) * area;
    } else {
        tendon->jack_force =
            phrase_number(jack, "force", NAN) / (total && tendon->count > 1 ? tendon->count : 1);
    }
}

/* ---- profile ----------------------------------------------------------------------------------------------- */

typedef struct row_word {
    const char *word;
    kl_profile_row_kind kind;
} row_word;

static const row_word row_words[] = {
    {"anchor", KL_ROW_ANCHOR},         {"high", KL_ROW_HIGH},       {"low", KL_ROW_LOW},
    {"inflection", KL_ROW_INFLECTION}, {"through", KL_ROW_THROUGH},
};

static const row_word *row_word_of(const phrase *row)
{
    for (size_t i = 0; i < sizeof row_words / sizeof row_words[0]; i++) {
        if (strcmp(row->word, row_words[i].word) == 0) {
            return &row_words[i];
        }
    }
    return NULL;
}

/* A row says `depth`, down from the top, in a profile `from top`, and `height` in every other. */
static kl_profile_datum datum_of(binder *b, const phrase *profile, const phrase *row)
{
    const char *from = phrase_name(profile, "from");
    const bool top = from != NULL && strcmp(from, "top") == 0;
    if (top && phrase_has(row, "height")) {
        bind_error(b, "height-from-top", row->origin,
                   "This profile is `from top`, where a row has a depth and no height.");
        bind_hint(b, "write `depth` in this row, or `from bottom` for the profile");
    } else if (!top && phrase_has(row, "depth")) {
        bind_error(b, "depth-from-below", row->origin,
                   "The rows of this profile have heights above the %s, and no depths.",
                   from == NULL ? "line" : from);
        bind_hint(b, "write `height` in this row, or `from top` for the profile");
    }
    return top                                           ? KL_FROM_TOP
           : from != NULL && strcmp(from, "bottom") == 0 ? KL_FROM_BOTTOM
                                                         : KL_FROM_LINE;
}

static kl_profile_row row_of(binder *b,
                             const phrase *profile,
                             const phrase *p,
                             const bind_line *line,
                             kl_profile_row_kind kind)
{
    kl_profile_row row = {
        .kind = kind,
        .origin = p->origin,
        .station = bind_mark_station(b, line, p, "at", NAN),
        .datum = datum_of(b, profile, p),
        .straight = phrase_has(p, "straight"),
    };
    row.ordinate = phrase_number(p, phrase_has(p, "depth") ? "depth" : "height", NAN);
    const bool given = !isnan(row.ordinate);
    if (given && kind == KL_ROW_INFLECTION) {
        bind_error(b, "inflection-height", p->origin,
                   "The height of an inflection follows from the points beside it.");
        bind_hint(b, "leave the height out, or write `through`");
    }
    if (!given && kind != KL_ROW_INFLECTION) {
        bind_error(b, "row-without-height", p->origin, "`%s` needs a height or a depth.", p->word);
    }
    return row;
}

static kl_status
take_rows(binder *b, const phrase *profile, const bind_line *line, double raise, kl_tendon *tendon)
{
    if (!bind_count_rows(b, tendon->origin, profile->child_count)) {
        return KL_OK;
    }
    kl_profile_row *rows = arena_array(&b->scratch, (size_t)profile->child_count, sizeof *rows);
    if (rows == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < profile->child_count; i++) {
        const phrase *p = &profile->children[i];
        const row_word *word = row_word_of(p);
        if (word == NULL) {
            continue;
        }
        kl_profile_row *row = &rows[tendon->row_count++];
        *row = row_of(b, profile, p, line, word->kind);
        row->ordinate += row->datum == KL_FROM_TOP ? -raise : raise;
    }
    tendon->rows = rows;
    return KL_OK;
}

/* Rows come from the nearest profile; every `raise` nearer than it lifts them. */
static kl_status take_profile(binder *b,
                              const bind_chain *chain,
                              const bind_line *line,
                              kl_tendon *tendon,
                              const phrase **profile)
{
    double raise = 0.0;
    *profile = NULL;
    for (kl_index i = 0; i < chain->count && *profile == NULL; i++) {
        *profile = phrase_child(chain->phrases[i], "profile", NULL);
        if (*profile == NULL) {
            raise += phrase_number(chain->phrases[i], "raise", 0.0);
        } else if (i == 0 && phrase_has(chain->phrases[0], "raise")) {
            bind_error(b, "raise-nothing", phrase_value(chain->phrases[0], "raise")->origin,
                       "`raise` lifts the rows taken over by `like`; this tendon has its own.");
        }
    }
    return *profile == NULL ? KL_OK : take_rows(b, *profile, line, raise, tendon);
}

/* ---- bends ------------------------------------------------------------------------------------------------- */

static void
add_bends(binder *b, const phrase *p, const bind_line *line, kl_bend *bends, kl_index *count)
{
    const phrase *bend = NULL;
    while ((bend = phrase_child(p, "bend", bend)) != NULL) {
        bends[(*count)++] = (kl_bend){
            .angle = bind_own_number(bend, 0),
            .from = bind_mark_station(b, line, bend, "from", NAN),
            .to = bind_mark_station(b, line, bend, "to", NAN),
            .origin = bend->origin,
        };
    }
}

/* Bends of the profile go with it; those beside it are taken over as a whole or replaced as a whole. */
static kl_status take_bends(binder *b,
                            const bind_chain *chain,
                            const phrase *profile,
                            const bind_line *line,
                            kl_tendon *tendon)
{
    const phrase *beside = NULL;
    for (kl_index i = 0; i < chain->count && beside == NULL; i++) {
        const bool has = phrase_child(chain->phrases[i], "bend", NULL) != NULL;
        beside = has ? chain->phrases[i] : NULL;
    }
    const size_t most = (beside == NULL ? 0 : (size_t)beside->child_count) +
                        (profile == NULL ? 0 : (size_t)profile->child_count);
    if (!bind_count_rows(b, chain->phrases[0]->origin, (kl_index)most)) {
        return KL_OK;
    }
    kl_bend *bends = arena_array(&b->scratch, most, sizeof *bends);
    if (bends == NULL) {
        return KL_NO_MEMORY;
    }
    if (profile != NULL) {
        add_bends(b, profile, line, bends, &tendon->bend_count);
    }
    if (beside != NULL) {
        add_bends(b, beside, line, bends, &tendon->bend_count);
    }
    tendon->bends = bends;
    return KL_OK;
}

/* ---- friction and the rest ---------------------------------------------------------------------------------- */

static void take_wobble(binder *b, const bind_chain *chain, kl_tendon *tendon)
{
    tendon->wobble = 0.0;
    for (kl_index i = 0; i < chain->count; i++) {
        const phrase *p = chain->phrases[i];
        if (phrase_has(p, "wobble")) {
            tendon->wobble = phrase_number(p, "wobble", 0.0);
            tendon->has_wobble = true;
            return;
        }
        if (phrase_has(p, "unintended_angle")) {
            /* exp(-mu (a + k x)) is exp(-(mu a + K x)) with K = mu k. */
            if (!tendon->has_friction) {
                bind_error(b, "angle-without-friction", phrase_value(p, "unintended_angle")->origin,
                           "`unintended_angle` acts through `friction`, and tendon %s gives none.",
                           tendon->name);
                bind_hint(b, "give `friction` too, or the loss by length as `wobble`");
            }
            tendon->wobble = tendon->friction * phrase_number(p, "unintended_angle", 0.0);
            tendon->has_wobble = true;
            return;
        }
    }
}

static kl_bond bond_of(const bind_chain *chain)
{
    for (kl_index i = 0; i < chain->count; i++) {
        if (phrase_has(chain->phrases[i], "bonded")) {
            return KL_GROUTED;
        }
        if (phrase_has(chain->phrases[i], "unbonded")) {
            return KL_UNBONDED;
        }
    }
    return KL_BOND_UNSET;
}

static void take_rest(binder *b, const bind_chain *chain, kl_tendon *tendon)
{
    tendon->has_friction = bind_chain_value(chain, "friction") != NULL;
    tendon->has_seating = bind_chain_value(chain, "seating") != NULL;
    tendon->friction = bind_chain_number(chain, "friction", 0.0);
    tendon->seating = bind_chain_number(chain, "seating", 0.0);
    tendon->ram_area = bind_chain_number(chain, "ram", NAN);
    tendon->jack_friction = bind_chain_number(chain, "jack_friction", 0.0);
    tendon->anchorage_friction = bind_chain_number(chain, "anchorage_friction", 0.0);
    tendon->reference = bind_chain_number(chain, "reference", NAN);
    tendon->grip = bind_chain_number(chain, "grip", 0.0);
    tendon->dead_end = bind_chain_number(chain, "dead_end", 0.0);
    tendon->duct = bind_chain_number(chain, "duct", 0.0);
    const phrase *duct = bind_chain_child(chain, "duct");
    tendon->offset = duct == NULL ? 0.0 : phrase_number(duct, "offset", 0.0);
    take_wobble(b, chain, tendon);
    tendon->bond = bond_of(chain);
}

/* ---- the tendon --------------------------------------------------------------------------------------------- */

static kl_status bind_tendon(binder *b, bind_symbol *symbol)
{
    bind_chain chain;
    KL_TRY(bind_follow_like(b, symbol, bind_tendon, &chain));
    if (b->bad) {
        return bind_settle(b, symbol, KL_NONE, KL_BAD_MODEL);
    }
    kl_tendon tendon = {.name = symbol->name.text, .origin = symbol->phrase->origin};
    kl_list members = {NULL, 0};
    KL_TRY(bind_list(b, KL_KIND_MEMBER, NULL, bind_chain_value(&chain, "in"), &members));
    take_steel(b, &chain, &tendon);
    take_jack(b, &chain, &tendon);
    take_rest(b, &chain, &tendon);
    tendon.members = members.items;
    tendon.member_count = members.count;
    if (members.count > 0) {
        const bind_line line = bind_line_of_members(b, members, symbol->name.text);
        const phrase *profile = NULL;
        KL_TRY(take_profile(b, &chain, &line, &tendon, &profile));
        KL_TRY(take_bends(b, &chain, profile, &line, &tendon));
    }
    kl_index added = KL_NONE;
    const kl_status status = b->bad ? KL_BAD_MODEL : kl_model_add_tendon(b->model, &tendon, &added);
    return bind_settle(b, symbol, added, status);
}

kl_status bind_tendons(binder *b)
{
    return bind_each(b, KL_KIND_TENDON, bind_tendon);
}
