/* bind_expect.c - expectations: a quantity, a place, a time, a value.
 *
 * The parser leaves the dimension of the value open; here the quantity is known, and the value must have its
 * dimension.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind_ask.h"
#include "bind_context.h"

/* Without `within` a value holds to 0.1 %. */
#define EXPECT_TOLERANCE 0.001

typedef enum expect_place {
    EXPECT_ON_MEMBER,
    EXPECT_ON_MEMBER_OR_NODE,
    EXPECT_AT_NODE,
    EXPECT_OF_TENDON,
    EXPECT_OF_FALSEWORK
} expect_place;

typedef struct expect_word {
    const char *word;
    kl_quantity quantity;
    expect_place place;
    kl_measure measure;
} expect_word;

static const expect_word expect_words[] = {
    {"moment", KL_MOMENT, EXPECT_ON_MEMBER, KL_MEASURE_MOMENT},
    {"shear", KL_SHEAR, EXPECT_ON_MEMBER, KL_MEASURE_FORCE},
    {"axial", KL_AXIAL, EXPECT_ON_MEMBER, KL_MEASURE_FORCE},
    {"deflection", KL_DEFLECTION, EXPECT_ON_MEMBER_OR_NODE, KL_MEASURE_DEFLECTION},
    {"sway", KL_SWAY, EXPECT_ON_MEMBER_OR_NODE, KL_MEASURE_DEFLECTION},
    {"rotation", KL_ROTATION, EXPECT_ON_MEMBER_OR_NODE, KL_MEASURE_ROTATION},
    {"stress", KL_STRESS_TOP, EXPECT_ON_MEMBER, KL_MEASURE_STRESS},
    {"camber", KL_CAMBER, EXPECT_ON_MEMBER, KL_MEASURE_DEFLECTION},
    {"reaction", KL_REACTION, EXPECT_AT_NODE, KL_MEASURE_FORCE},
    {"force", KL_TENDON_FORCE, EXPECT_OF_TENDON, KL_MEASURE_FORCE},
    {"elongation", KL_ELONGATION, EXPECT_OF_TENDON, KL_MEASURE_SIZE},
    {"post", KL_POST, EXPECT_OF_FALSEWORK, KL_MEASURE_FORCE},
};

static const expect_word *quantity_of(const phrase *p)
{
    for (size_t i = 0; i < sizeof expect_words / sizeof expect_words[0]; i++) {
        if (phrase_has(p, expect_words[i].word)) {
            return &expect_words[i];
        }
    }
    return NULL;
}

/* ---- what -------------------------------------------------------------------------------------------------- */

static void take_quantity(const phrase *p, const expect_word *word, kl_expectation *expectation)
{
    expectation->quantity = word->quantity;
    expectation->measure = word->measure;
    const char *face = phrase_name(p, "stress");
    if (face != NULL && strcmp(face, "bottom") == 0) {
        expectation->quantity = KL_STRESS_BOTTOM;
    }
    const char *direction = phrase_name(p, "reaction");
    if (direction != NULL) {
        expectation->direction = direction[0] == 'x' ? KL_X : direction[0] == 'y' ? KL_Y : KL_TURN;
    }
    if (word->quantity == KL_REACTION && expectation->direction == KL_TURN) {
        expectation->measure = KL_MEASURE_MOMENT;
    }
    expectation->extreme = phrase_has(p, "max")   ? KL_LARGEST
                           : phrase_has(p, "min") ? KL_SMALLEST
                                                  : KL_VALUE;
    expectation->part = phrase_has(p, "primary")     ? KL_PRIMARY
                        : phrase_has(p, "secondary") ? KL_SECONDARY
                        : phrase_has(p, "concrete")  ? KL_CONCRETE_SHARE
                                                     : KL_TOTAL;
    expectation->side = phrase_has(p, "left") ? KL_LEFT : KL_RIGHT;
    expectation->tendon_total = phrase_has(p, "total");
}

/* ---- where ------------------------------------------------------------------------------------------------- */

static void place_missing(binder *b, const phrase *p, const char *word, const char *needs)
{
    bind_error(b, "expect-place", p->origin, "The place of `%s` is wrong here.", word);
    bind_hint(b, "write `%s %s`", word, needs);
}

static void take_member(binder *b, const phrase *p, const char *word, kl_expectation *expectation)
{
    if (!phrase_has(p, "on") || phrase_has(p, "of")) {
        place_missing(b, p, word, "on MEMBER at STATION");
        return;
    }
    expectation->member = bind_mark_reference(b, KL_KIND_MEMBER, p, "on");
    if (expectation->member != KL_NONE) {
        const bind_line line = bind_line_of_member(b, &expectation->member);
        expectation->station = bind_mark_station(b, &line, p, "at", NAN);
    }
}

static void take_node(binder *b, const phrase *p, const char *word, kl_expectation *expectation)
{
    const text_value *at = phrase_value(p, "at");
    if (at == NULL || at->station == NULL || at->station->base != STATION_NODE ||
        phrase_has(p, "on") || phrase_has(p, "of")) {
        place_missing(b, p, word, "at NODE");
        return;
    }
    expectation->node = bind_reference(b, KL_KIND_NODE, &at->station->node);
}

static void take_tendon(binder *b, const phrase *p, const char *word, kl_expectation *expectation)
{
    const text_value *at = phrase_value(p, "at");
    if (!phrase_has(p, "of") || phrase_has(p, "on") ||
        (expectation->quantity == KL_ELONGATION && at == NULL)) {
        place_missing(b, p, word, "of TENDON at STATION");
        return;
    }
    expectation->tendon = bind_mark_reference(b, KL_KIND_TENDON, p, "of");
    if (expectation->tendon == KL_NONE) {
        return;
    }
    if (expectation->quantity != KL_ELONGATION) {
        const kl_tendon *tendon = &b->model->tendons[expectation->tendon];
        const kl_list members = {tendon->members, tendon->member_count};
        const bind_line line = bind_line_of_members(b, members, tendon->name);
        expectation->station = bind_mark_station(b, &line, p, "at", NAN);
        return;
    }
    /* An elongation is read at an end: 0 is the start, NAN the end. */
    if (at->station == NULL ||
        (at->station->base != STATION_START && at->station->base != STATION_END)) {
        bind_error(b, "elongation-place", at->origin,
                   "An elongation is read at the `start` or the `end` of a tendon.");
        return;
    }
    expectation->station = at->station->base == STATION_START ? 0.0 : (double)NAN;
}

static void take_row(binder *b, const phrase *p, const char *word, kl_expectation *expectation)
{
    if (!phrase_has(p, "of") || phrase_has(p, "on")) {
        place_missing(b, p, word, "of FALSEWORK at STATION");
        return;
    }
    expectation->falsework = bind_mark_reference(b, KL_KIND_FALSEWORK, p, "of");
    if (expectation->falsework != KL_NONE) {
        const kl_index *member = &b->model->falsework[expectation->falsework].member;
        const bind_line line = bind_line_of_member(b, member);
        expectation->station = bind_mark_station(b, &line, p, "at", NAN);
    }
}

static void
take_place(binder *b, const phrase *p, const expect_word *word, kl_expectation *expectation)
{
    switch (word->place) {
    case EXPECT_ON_MEMBER:
        take_member(b, p, word->word, expectation);
        break;
    case EXPECT_ON_MEMBER_OR_NODE:
        if (phrase_has(p, "on")) {
            take_member(b, p, word->word, expectation);
        } else {
            take_node(b, p, word->word, expectation);
        }
        break;
    case EXPECT_AT_NODE:
        take_node(b, p, word->word, expectation);
        break;
    case EXPECT_OF_TENDON:
        take_tendon(b, p, word->word, expectation);
        break;
    case EXPECT_OF_FALSEWORK:
        take_row(b, p, word->word, expectation);
        break;
    }
    if (expectation->tendon_total && word->quantity != KL_TENDON_FORCE) {
        bind_error(b, "expect-total", p->origin, "`total` goes with the force of a tendon only.");
    }
}

/* ---- why and when ------------------------------------------------------------------------------------------ */

static void take_cause(binder *b, const phrase *p, kl_expectation *expectation)
{
    const text_value *from = phrase_value(p, "from");
    expectation->cause = (kl_cause){KL_CAUSE_ALL, KL_NONE};
    if (from != NULL && !bind_cause_word(from->names[0].text, &expectation->cause)) {
        expectation->cause =
            (kl_cause){KL_CAUSE_CASE, bind_reference(b, KL_KIND_CASE, &from->names[0])};
    }
}

/* ---- how much ---------------------------------------------------------------------------------------------- */

static void need_dimension(binder *b,
                           const text_quantity *quantity,
                           const expect_word *word,
                           kl_measure measure)
{
    const kl_dimension wanted = kl_measure_dimension(measure);
    if (kl_dimension_equal(quantity->dimension, wanted)) {
        return;
    }
    char wanted_name[64];
    char given_name[64];
    kl_dimension_name(wanted, wanted_name, sizeof wanted_name);
    kl_dimension_name(quantity->dimension, given_name, sizeof given_name);
    bind_error(b, "wrong-dimension", quantity->origin, "`%s` is a %s; this value is a %s.",
               word->word, wanted_name, given_name);
    bind_hint(b, "write it in %s", kl_show_unit(&b->model->display, measure));
}

static void
take_value(binder *b, const phrase *p, const expect_word *word, kl_expectation *expectation)
{
    const text_value *value = phrase_value(p, "=");
    const text_value *within = phrase_value(p, "within");
    expectation->tolerance = EXPECT_TOLERANCE;
    expectation->tolerance_relative = true;
    if (value == NULL) {
        b->bad = true; /* the parser has missed it */
        return;
    }
    expectation->value = value->quantities[0].value;
    need_dimension(b, &value->quantities[0], word, expectation->measure);
    if (within == NULL) {
        return;
    }
    expectation->tolerance = within->quantities[0].value;
    expectation->tolerance_relative = within->quantities[0].percent;
    if (!within->quantities[0].percent) {
        need_dimension(b, &within->quantities[0], word, expectation->measure);
    }
}

/* ---- the expectation --------------------------------------------------------------------------------------- */

static kl_status bind_expectation(binder *b, const phrase *p)
{
    const expect_word *word = quantity_of(p);
    if (word == NULL) {
        b->any_bad = true; /* the parser has missed it */
        return KL_OK;
    }
    kl_expectation expectation = {
        .origin = p->origin,
        .member = KL_NONE,
        .node = KL_NONE,
        .tendon = KL_NONE,
        .falsework = KL_NONE,
        .station = NAN,
        .source = "",
    };
    take_quantity(p, word, &expectation);
    take_place(b, p, word, &expectation);
    take_cause(b, p, &expectation);
    take_value(b, p, word, &expectation);
    expectation.when = bind_when(b, p);
    const text_value *source = phrase_value(p, "source");
    if (source != NULL && source->string != NULL) {
        expectation.source = source->string;
    }
    const kl_status status =
        b->bad ? KL_BAD_MODEL : kl_model_add_expectation(b->model, &expectation, NULL);
    return bind_settle(b, NULL, KL_NONE, status);
}

kl_status bind_expectations(binder *b)
{
    return bind_each_phrase(b, "expect", bind_expectation);
}
