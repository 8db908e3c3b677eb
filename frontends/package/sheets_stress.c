/* sheets_stress.c - sheet 13: stresses with their limits, step by step, and at a few places what they are the sum of.
 * SPDX-License-Identifier: MIT */
#include "maker.h"

#include <math.h>

#include "mem.h"
#include "places.h"
#include "stress_split.h"

#define STRESS_PLACES_SPLIT 8

static void stress_put_part(table *t,
                            const kl_results *results,
                            kl_state state,
                            kl_index member,
                            const member_place *place,
                            const split_part *part)
{
    char text[LABEL_SIZE];
    figure_rounded(text, place->station / kl_show_factor(&t->display, KL_MEASURE_STATION), 2, 6,
                   0.0);
    table_put_state(t, results, state);
    table_put_text(t, kl_results_model(results)->members[member].name);
    table_put_print(t, "%s %s, %s", text, kl_show_unit(&t->display, KL_MEASURE_STATION),
                    place->name);
    table_put_text(t, part->name);
    table_put(t, part->axial_concrete);
    table_put(t, part->moment_concrete);
    table_put(t, part->top);
    table_put(t, part->bottom);
}

static void stress_put_split(
    table *t, kl_results *results, kl_state state, kl_index member, const member_place *place)
{
    stress_split *split = mem_array(1, sizeof *split);
    if (!split) {
        table_accepts(t, KL_NO_MEMORY);
        return;
    }
    if (table_accepts(t, split_make(results, state, member, place->station, place->side, split)) &&
        !isnan(split->whole.top)) { /* a section without faces has no stresses */
        for (int i = 0; i < split->count; i++) {
            stress_put_part(t, results, state, member, place, &split->parts[i]);
        }
        stress_put_part(t, results, state, member, place, &split->whole);
    }
    mem_free(split);
}

static void stress_build_split(table *t, kl_results *results, const selection *s)
{
    member_place places[PLACE_LIMIT];
    int count;
    table_title(t, "What the stresses are the sum of");
    table_add_state(t);
    table_add_words(t, COLUMN_GROUP, "member", "member");
    table_add_words(t, COLUMN_GROUP, "place", "at");
    table_add_words(t, COLUMN_WORD, "cause", "from");
    table_add(t, COLUMN_FIGURE, "axial_concrete", "axial\n(concrete)", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_FIGURE, "moment_concrete", "moment\n(concrete)", KL_MEASURE_MOMENT, 5);
    table_add(t, COLUMN_FIGURE, "stress_top", "stress\ntop", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "stress_bottom", "stress\nbottom", KL_MEASURE_STRESS, 4);
    if (!table_accepts(t, places_of_member(results, s->member, places, &count))) {
        return;
    }
    for (kl_index i = 0; i < s->state_count; i++) {
        for (int k = 0; k < count && k < STRESS_PLACES_SPLIT; k++) {
            if (kl_member_stands(results, s->states[i], s->member)) {
                stress_put_split(t, results, s->states[i], s->member, &places[k]);
            }
        }
    }
    table_note(t, "P / A, P e y / I and the secondary action on the gross section; sections of "
                  "their day: what the "
                  "section net of ducts, and with the tendons' steel after grouting, makes "
                  "different. Other causes "
                  "on the section of their day, with the tendons' force that they change.");
}

void sheet_stresses(maker *m)
{
    if (!maker_is_solved(m)) {
        return;
    }
    kl_index members[MAKER_MEMBERS];
    const int count = maker_members(m, members);
    for (int i = 0; i < count; i++) {
        const selection_wish wish = maker_wish_steps(members[i]);
        maker_picture(m, "stresses", &wish);
    }
    maker_put_loaded(m, "stresses");
    if (count > 0) {
        selection_wish wish = selection_wish_none();
        wish.member = members[0];
        maker_picture(m, "section_stress", &wish);
        maker_own_table(m, "stress_split", stress_build_split, SELECTION_FINAL, &wish);
    }
    const station_plan plan = maker_plan(m, true);
    maker_planned_table(m, &plan, "stresses");
}
