/* bind_load.c - load cases: forces, moments, movements, temperatures, tendons.
 *
 * A load on a list becomes a load on each of its members; `every` becomes a load at each station; `square` and
 * `level` intensities and the directions become what kl_load holds.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind_context.h"

/* One case may have so many loads; the builder says the same. */
#define CASE_MOST_LOADS 800000

/* The loads of the case at hand. */
typedef struct load_case {
    binder *b;
    kl_load *loads;
    kl_index count, room;
    const char *name;
    kl_origin origin;
} load_case;

static kl_status add_load(load_case *c, const kl_load *load)
{
    if (c->count == CASE_MOST_LOADS) {
        bind_error(c->b, "too-many-loads", load->origin,
                   "Load case %s has more than %d loads, lists and repetitions spread out.",
                   c->name, CASE_MOST_LOADS);
    }
    if (c->count >= CASE_MOST_LOADS || !bind_count_rows(c->b, load->origin, 1)) {
        return KL_OK;
    }
    if (c->count == c->room) {
        const kl_index room = c->room > 0 ? 2 * c->room : 8;
        kl_load *loads = arena_array(&c->b->scratch, (size_t)room, sizeof *loads);
        if (loads == NULL) {
            return KL_NO_MEMORY;
        }
        if (c->count > 0) {
            memcpy(loads, c->loads, (size_t)c->count * sizeof *loads);
        }
        c->loads = loads;
        c->room = room;
    }
    c->loads[c->count++] = *load;
    return KL_OK;
}

static kl_load new_load(kl_load_kind kind, const phrase *p)
{
    return (kl_load){
        .kind = kind,
        .origin = p->origin,
        .member = KL_NONE,
        .node = KL_NONE,
        .tendon = KL_NONE,
        .value = NAN,
        .value_end = NAN,
        .frame = KL_GLOBAL,
        .from = 0.0,
        .to = NAN,
    };
}

/* ---- directions -------------------------------------------------------------------------------------------- */

typedef struct direction_word {
    const char *word;
    double dx, dy;
    kl_load_frame frame;
} direction_word;

/* Across is toward the member's bottom, which is on the right hand walking from start to end. */
static const direction_word direction_words[] = {
    {"down", 0.0, -1.0, KL_GLOBAL}, {"up", 0.0, 1.0, KL_GLOBAL},     {"left", -1.0, 0.0, KL_GLOBAL},
    {"right", 1.0, 0.0, KL_GLOBAL}, {"across", 0.0, -1.0, KL_LOCAL}, {"along", 1.0, 0.0, KL_LOCAL},
};

/* The direction a phrase names; the first, down, when it names none. */
static const direction_word *direction_of(const phrase *p, bool *named)
{
    for (size_t i = 0; i < sizeof direction_words / sizeof direction_words[0]; i++) {
        if (phrase_has(p, direction_words[i].word)) {
            *named = true;
            return &direction_words[i];
        }
    }
    *named = false;
    return &direction_words[0];
}

static void refuse_sign(binder *b, const phrase *p, double value, const char *word)
{
    if (value < 0.0) {
        bind_error(b, "sign-and-direction", p->origin,
                   "A negative value and `%s` are two directions in one load.", word);
        bind_hint(b, "leave the sign out and name the direction that is meant");
    }
}

static void take_direction(binder *b, const phrase *p, double least, kl_load *load)
{
    bool named = false;
    const direction_word *word = direction_of(p, &named);
    load->dx = word->dx;
    load->dy = word->dy;
    load->frame = word->frame;
    if (named) {
        refuse_sign(b, p, least, word->word);
    }
}

/* +1 anticlockwise, -1 clockwise. */
static double sense_of(binder *b, const phrase *p)
{
    const bool clockwise = phrase_has(p, "clockwise");
    if (clockwise || phrase_has(p, "anticlockwise")) {
        refuse_sign(b, p, bind_own_number(p, 0), clockwise ? "clockwise" : "anticlockwise");
    }
    return clockwise ? -1.0 : 1.0;
}

/* ---- at a node or on members -------------------------------------------------------------------------------- */

static const grammar_row *load_row(const phrase *p)
{
    return grammar_find(IN_LOAD, p->word, strlen(p->word));
}

static kl_status on_members(load_case *c, const phrase *p, kl_list *members)
{
    return bind_list(c->b, KL_KIND_MEMBER, load_row(p), phrase_value(p, "on"), members);
}

/* `at B`, without a member. */
static kl_status load_at_node(load_case *c, const phrase *p, kl_load load)
{
    binder *b = c->b;
    const text_value *at = phrase_value(p, "at");
    if (at == NULL) {
        bind_error(b, "load-nowhere", p->origin, "The load does not say where it acts.");
        bind_hint(b, "write `on MEMBER at` and a station, or `at NODE`");
        return KL_OK;
    }
    if (at->kind == VALUE_STATION && at->station->base != STATION_NODE) {
        bind_error(b, "station-of-nothing", at->origin,
                   "A station needs the member it is measured on.");
        bind_hint(b, "write `on MEMBER at` and the station, or `at NODE`");
        return KL_OK;
    }
    const text_name *name = at->kind == VALUE_STATION ? &at->station->node : &at->names[0];
    load.node = bind_reference(b, KL_KIND_NODE, name);
    if (load.node != KL_NONE && load.kind == KL_LOAD_POINT && load.frame == KL_LOCAL) {
        bind_error(b, "node-along", p->origin,
                   "A node has no `along` or `across`; only a member has.");
        bind_hint(b, "write `down`, `up`, `left` or `right`");
    }
    return b->bad ? KL_OK : add_load(c, &load);
}

/* The load at a station, or at each of a repetition, of one member. */
static kl_status load_on_member(load_case *c, const phrase *p, kl_load load, const kl_index *member)
{
    binder *b = c->b;
    const bind_line line = bind_line_of_member(b, member);
    const text_value *at = phrase_value(p, "at");
    load.member = *member;
    if (at != NULL) {
        load.from = bind_station(b, &line, at);
        return b->bad ? KL_OK : add_load(c, &load);
    }
    const double *stations = NULL;
    kl_index count = 0;
    KL_TRY(bind_every(b, &line, p, &stations, &count));
    for (kl_index i = 0; i < count && !b->bad; i++) {
        load.from = stations[i];
        KL_TRY(add_load(c, &load));
    }
    return KL_OK;
}

static kl_status load_at_stations(load_case *c, const phrase *p, kl_load load)
{
    binder *b = c->b;
    kl_list members = {NULL, 0};
    KL_TRY(on_members(c, p, &members));
    const bool repeated = phrase_has(p, "every") || phrase_has(p, "from") || phrase_has(p, "to");
    if (repeated == phrase_has(p, "at")) {
        bind_error(b, "load-station", p->origin,
                   repeated ? "The load has both `at` and a range."
                            : "The load does not say at which station of the member it acts.");
        bind_hint(b, "write `at` and a station, or `from … to … every …`");
    }
    for (kl_index i = 0; i < members.count && !b->bad; i++) {
        KL_TRY(load_on_member(c, p, load, &members.items[i]));
    }
    return KL_OK;
}

static kl_status bind_force(load_case *c, const phrase *p)
{
    kl_load load = new_load(KL_LOAD_POINT, p);
    load.value = bind_own_number(p, 0);
    take_direction(c->b, p, load.value, &load);
    return phrase_has(p, "on") ? load_at_stations(c, p, load) : load_at_node(c, p, load);
}

static kl_status bind_moment(load_case *c, const phrase *p)
{
    kl_load load = new_load(KL_LOAD_MOMENT, p);
    load.value = bind_own_number(p, 0) * sense_of(c->b, p);
    return phrase_has(p, "on") ? load_at_stations(c, p, load) : load_at_node(c, p, load);
}

/* ---- along members ------------------------------------------------------------------------------------------ */

static kl_status
spread_on_member(load_case *c, const phrase *p, kl_load load, const kl_index *member)
{
    binder *b = c->b;
    const bind_line line = bind_line_of_member(b, member);
    load.member = *member;
    load.from = bind_mark_station(b, &line, p, "from", 0.0);
    load.to = bind_mark_station(b, &line, p, "to", NAN);
    if (load.per_level) {
        const text_quantity level = {.value = 1.0, .level = true, .origin = p->origin};
        (void)bind_length(b, &line, &level); /* tells of an upright member */
    }
    return b->bad ? KL_OK : add_load(c, &load);
}

static kl_status bind_spread(load_case *c, const phrase *p, double start, double end)
{
    binder *b = c->b;
    kl_load load = new_load(KL_LOAD_DISTRIBUTED, p);
    take_direction(b, p, fmin(start, end), &load);
    /* Per length of square section: a length along the skewed line holds only its cosine of that. */
    const double share = phrase_has(p, "square") ? bind_square(b, p->origin) : 1.0;
    load.value = start * share;
    load.value_end = end * share;
    load.per_level = phrase_has(p, "level");
    kl_list members = {NULL, 0};
    KL_TRY(on_members(c, p, &members));
    for (kl_index i = 0; i < members.count && !b->bad; i++) {
        KL_TRY(spread_on_member(c, p, load, &members.items[i]));
    }
    return KL_OK;
}

static kl_status bind_uniform(load_case *c, const phrase *p)
{
    const double value = bind_own_number(p, 0);
    return bind_spread(c, p, value, value);
}

static kl_status bind_ramp(load_case *c, const phrase *p)
{
    return bind_spread(c, p, phrase_number(p, "start", NAN), phrase_number(p, "end", NAN));
}

/* ---- movements of supports ---------------------------------------------------------------------------------- */

static kl_status bind_settle_load(load_case *c, const phrase *p)
{
    kl_load load = new_load(KL_LOAD_SETTLE, p);
    load.value = bind_own_number(p, 0);
    take_direction(c->b, p, load.value, &load);
    load.node = bind_mark_reference(c->b, KL_KIND_NODE, p, "at");
    return c->b->bad ? KL_OK : add_load(c, &load);
}

static kl_status bind_turn(load_case *c, const phrase *p)
{
    kl_load load = new_load(KL_LOAD_TURN, p);
    load.value = bind_own_number(p, 0) * sense_of(c->b, p);
    load.node = bind_mark_reference(c->b, KL_KIND_NODE, p, "at");
    return c->b->bad ? KL_OK : add_load(c, &load);
}

/* ---- temperature, weight, tendons --------------------------------------------------------------------------- */

/* The same load on each member of a list. */
static kl_status load_each(load_case *c, const phrase *p, const char *mark, kl_load load)
{
    kl_list members = {NULL, 0};
    KL_TRY(bind_list(c->b, KL_KIND_MEMBER, load_row(p), phrase_value(p, mark), &members));
    for (kl_index i = 0; i < members.count && !c->b->bad; i++) {
        load.member = members.items[i];
        KL_TRY(add_load(c, &load));
    }
    return KL_OK;
}

static kl_status bind_warm(load_case *c, const phrase *p)
{
    const bool warm = strcmp(p->word, "warm") == 0;
    kl_load load = new_load(KL_LOAD_TEMPERATURE, p);
    refuse_sign(c->b, p, bind_own_number(p, 0), p->word);
    load.value = warm ? bind_own_number(p, 0) : -bind_own_number(p, 0);
    return load_each(c, p, "on", load);
}

static kl_status bind_gradient(load_case *c, const phrase *p)
{
    binder *b = c->b;
    const bool linear = phrase_own(p, 0) != NULL;
    kl_load load = new_load(linear ? KL_LOAD_GRADIENT : KL_LOAD_PROFILE, p);
    load.value = bind_own_number(p, 0);
    kl_temperature_point *points = arena_array(&b->scratch, (size_t)p->child_count, sizeof *points);
    if (points == NULL) {
        return KL_NO_MEMORY;
    }
    const phrase *point = NULL;
    while ((point = phrase_child(p, "point", point)) != NULL) {
        points[load.point_count++] =
            (kl_temperature_point){phrase_number(point, "depth", NAN), bind_own_number(point, 0)};
    }
    if (linear == (load.point_count > 0)) {
        bind_error(b, "gradient-which", p->origin,
                   linear ? "A gradient is linear or by points of depth, not both."
                          : "The gradient has no temperature.");
        bind_hint(b, "write `gradient 20 degF on …`, or points in a block");
    }
    load.points = points;
    return load_each(c, p, "on", load);
}

static kl_status bind_weight(load_case *c, const phrase *p)
{
    const kl_load load = new_load(KL_LOAD_WEIGHT, p);
    return phrase_has(p, "of") ? load_each(c, p, "of", load) : add_load(c, &load);
}

static kl_status bind_stress(load_case *c, const phrase *p)
{
    kl_load load = new_load(KL_LOAD_TENDON, p);
    kl_list tendons = {NULL, 0};
    KL_TRY(bind_list(c->b, KL_KIND_TENDON, load_row(p), phrase_own(p, 0), &tendons));
    for (kl_index i = 0; i < tendons.count; i++) {
        load.tendon = tendons.items[i];
        KL_TRY(add_load(c, &load));
    }
    return KL_OK;
}

/* ---- the case ----------------------------------------------------------------------------------------------- */

typedef struct load_word {
    const char *word;
    kl_status (*bind)(load_case *c, const phrase *p);
} load_word;

static const load_word load_words[] = {
    {"weight", bind_weight},     {"point", bind_force},   {"uniform", bind_uniform},
    {"ramp", bind_ramp},         {"moment", bind_moment}, {"settle", bind_settle_load},
    {"turn", bind_turn},         {"warm", bind_warm},     {"cool", bind_warm},
    {"gradient", bind_gradient}, {"stress", bind_stress},
};

static kl_status bind_part(load_case *c, const phrase *p)
{
    for (size_t i = 0; i < sizeof load_words / sizeof load_words[0]; i++) {
        if (strcmp(p->word, load_words[i].word) == 0) {
            return load_words[i].bind(c, p);
        }
    }
    return KL_OK;
}

static kl_status bind_load(binder *b, bind_symbol *symbol)
{
    static const char *const none[] = {NULL};
    load_case c = {.b = b, .name = symbol->name.text, .origin = symbol->phrase->origin};
    const phrase *parts = NULL;
    kl_index count = 0;
    bool bad = false;
    KL_TRY(bind_parts(b, symbol->phrase, none, &parts, &count));
    for (kl_index i = 0; i < count; i++) {
        b->bad = false;
        KL_TRY(bind_part(&c, &parts[i]));
        bad = bad || b->bad;
    }
    b->bad = bad;
    const kl_case made = {c.name, c.origin, c.loads, c.count};
    kl_index added = KL_NONE;
    const kl_status status = bad ? KL_BAD_MODEL : kl_model_add_case(b->model, &made, &added);
    return bind_settle(b, symbol, added, status);
}

kl_status bind_loads(binder *b)
{
    return bind_each(b, KL_KIND_CASE, bind_load);
}
