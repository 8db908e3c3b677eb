/* table_posts.c - falsework row by row: what a post carries, where the member lifted off.
 * SPDX-License-Identifier: MIT */
#include "tables.h"

#include <math.h>

#include "post_use.h"

static const char *post_condition(const kl_post_row *row)
{
    if (row->waits) {
        return "erected";
    }
    return row->bears ? "bears" : "lifted off";
}

static void
post_put(table *t, const kl_results *results, kl_state state, kl_index falsework, kl_index row)
{
    const kl_falsework *f = &kl_results_model(results)->falsework[falsework];
    kl_post_row post;
    if (!table_accepts(t, kl_row_state(results, state, falsework, row, &post)) || !post.stands) {
        return;
    }
    const double each = post_use_force(f, &post);
    table_put_state(t, results, state);
    table_put_text(t, f->name);
    table_put(t, f->stations[row]);
    table_put_text(t, post_condition(&post));
    table_put(t, post.force);
    table_put(t, each);
    table_put(t, f->capacity);
    table_put(t, each / f->capacity);
    table_put(t, post.gap);
}

void table_build_posts(table *t, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    table_title(t, "Falsework posts");
    table_add_state(t);
    table_add_words(t, COLUMN_WORD, "falsework", "falsework");
    table_add(t, COLUMN_EXACT, "station", "station", KL_MEASURE_STATION, 4);
    table_add_words(t, COLUMN_WORD, "condition", "condition");
    table_add(t, COLUMN_FIGURE, "row_force", "force\nin the row", KL_MEASURE_FORCE, 4);
    table_add(t, COLUMN_FIGURE, "post_force", "force\nin a post", KL_MEASURE_FORCE, 4);
    table_add(t, COLUMN_FIGURE, "capacity", "capacity\nof a post", KL_MEASURE_FORCE, 4);
    table_add(t, COLUMN_FIGURE, "share", "share of\ncapacity", KL_MEASURE_NUMBER, 3);
    table_add(t, COLUMN_FIGURE, "gap", "gap", KL_MEASURE_DEFLECTION, 3);
    for (kl_index i = 0; i < s->state_count; ++i) {
        for (kl_index f = 0; f < model->falsework_count; ++f) {
            for (kl_index row = 0; selection_takes(s, model->falsework[f].member) &&
                                   row < model->falsework[f].row_count;
                 ++row) {
                post_put(t, results, s->states[i], f, row);
            }
        }
    }
    table_note(t, "Forces + are compression. Rows count from their erection to their release. The "
                  "split between the "
                  "posts of a row is taken as even.");
}
