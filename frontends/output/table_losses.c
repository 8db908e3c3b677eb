/* table_losses.c - what each cause took from the stress of each tendon since it was stressed, and what is left.
 * SPDX-License-Identifier: MIT */
#include "tables.h"

#include <math.h>

#include "label.h"
#include "tendon_places.h"

/* Less than this share of the stress at the jack is rounding. */
#define LOSS_NOTHING 1e-9

static const struct {
    const char *key, *heading;
    bool always; /* shown even where it is nothing */
} loss_columns[KL_LOSS_COUNT] = {
    [KL_LOSS_FRICTION] = {"friction", "friction", true},
    [KL_LOSS_SEATING] = {"seating", "seating", true},
    [KL_LOSS_SHORTENING] = {"shortening", "elastic\nshortening", true},
    [KL_LOSS_LOADS] = {"loads", "later\nloads", true},
    [KL_LOSS_MOVEMENT] = {"movement", "movement", false},
    [KL_LOSS_TEMPERATURE] = {"temperature", "warmth", false},
    [KL_LOSS_LUMP] = {"lump", "lump\nlosses", false},
    [KL_LOSS_CREEP] = {"creep", "creep", false},
    [KL_LOSS_SHRINKAGE] = {"shrinkage", "shrinkage", false},
    [KL_LOSS_RELAXATION] = {"relaxation", "relaxation", false},
};

/* @return the column of the first cause */
static kl_index loss_add_columns(table *t)
{
    table_add_state(t);
    table_add_words(t, COLUMN_GROUP, "tendon", "tendon");
    table_add(t, COLUMN_EXACT, "station", "station", KL_MEASURE_STATION, 2);
    table_add_words(t, COLUMN_WORD, "place", "place");
    table_add_words(t, COLUMN_WORD, "condition", "condition");
    table_detail(t);
    table_add_words(t, COLUMN_WORD, "stressed", "last stressed");
    table_detail(t);
    table_add(t, COLUMN_FIGURE, "jack_stress", "at the\njack", KL_MEASURE_STRESS, 5);
    const kl_index first = t->column_count;
    for (int i = 0; i < KL_LOSS_COUNT; ++i) {
        table_add(t, COLUMN_FIGURE, loss_columns[i].key, loss_columns[i].heading, KL_MEASURE_STRESS,
                  5);
    }
    table_add(t, COLUMN_FIGURE, "stress", "stress\nleft", KL_MEASURE_STRESS, 5);
    table_add(t, COLUMN_FIGURE, "force", "force\nleft", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_FIGURE, "loss_of_jack", "lost of\njack", KL_MEASURE_RATIO, 4);
    return first;
}

static void loss_put(table *t,
                     const kl_results *results,
                     kl_state state,
                     kl_index tendon,
                     const tendon_place *place,
                     const kl_tendon_losses *losses)
{
    const kl_tendon *tn = &kl_results_model(results)->tendons[tendon];
    char step[LABEL_SIZE] = "";
    if (losses->step != KL_NONE) {
        label_step(step, results, losses->step);
    }
    table_put_state(t, results, state);
    table_put_text(t, tn->name);
    table_put(t, place->station);
    table_put_text(t, place->label);
    table_put_text(t, label_phase(kl_tendon_state(results, state, tendon)));
    table_put_text(t, step);
    table_put(t, losses->jack);
    for (int i = 0; i < KL_LOSS_COUNT; ++i) {
        table_put(t, losses->lost[i]);
    }
    table_put(t, losses->left);
    table_put(t, losses->left * tn->units * tn->unit_area);
    table_put(t, 1.0 - losses->left / losses->jack);
}

static void
loss_put_tendon(table *t, kl_results *results, const selection *s, kl_state state, kl_index tendon)
{
    const tendon_places places = tendon_places_find(t, results, s, state, tendon);
    const tendon_place all = {NAN, KL_RIGHT, "mean"};
    kl_tendon_losses losses;
    for (kl_index i = 0; i < places.count && t->status == KL_OK; ++i) {
        const tendon_place *at = &places.items[i];
        if (table_accepts(
                t, kl_losses_at_station(results, state, tendon, at->station, at->side, &losses))) {
            loss_put(t, results, state, tendon, at, &losses);
        }
    }
    if (places.count > 0 && isnan(s->at) &&
        table_accepts(t, kl_losses_on_average(results, state, tendon, &losses))) {
        loss_put(t, results, state, tendon, &all, &losses);
    }
}

/* In print a cause that took nothing anywhere has no column. */
static void loss_hide_nothing(table *t, kl_index first)
{
    for (int i = 0; i < KL_LOSS_COUNT; ++i) {
        bool is_nothing = !loss_columns[i].always;
        for (kl_index row = 0; is_nothing && row < table_row_count(t); ++row) {
            const double jack = table_cell_at(t, row, first - 1)->number;
            is_nothing = fabs(table_cell_at(t, row, first + i)->number) <= LOSS_NOTHING * jack;
        }
        t->columns[first + i].is_detail = is_nothing;
    }
}

void table_build_losses(table *t, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    table_title(t, "Losses of tendons by cause since each was stressed, one tendon of each group");
    const kl_index first = loss_add_columns(t);
    for (kl_index i = 0; i < s->state_count; ++i) {
        for (kl_index tendon = 0; tendon < model->tendon_count; ++tendon) {
            if (selection_takes_tendon(s, model, tendon)) {
                loss_put_tendon(t, results, s, s->states[i], tendon);
            }
        }
    }
    loss_hide_nothing(t, first);
    table_note(t, "The stress at the jack less what each cause took is the stress left; a gain is "
                  "negative. All count from the last time the tendon was stressed.");
    table_note(
        t, "Shortening: within its own group, and by others that are stressed or slackened "
           "later. Later loads: all that is loaded, cast, released or freed since. What the "
           "concrete at once gives way to a loss is in that loss; its creep under it is creep.");
}
