/* maker.c - see maker.h.
 * SPDX-License-Identifier: MIT */
#include "maker.h"

#include <math.h>
#include <stdio.h>

#include "force_scale.h"
#include "table_condense.h"
#include "table_settle.h"

#define MAKER_FRAMES 6 /* pictures of the whole frame, of one kind */

bool maker_accepts(maker *m, kl_status status)
{
    if (status != KL_OK && status != KL_NOT_THERE && m->package->status == KL_OK) {
        m->package->status = status;
    }
    return status == KL_OK;
}

/* @param condenses rows that tell nothing are taken out: of tables along members */
static void maker_fill_table(maker *m,
                             const char *name,
                             table_builder *build,
                             selection_span span,
                             const selection_wish *wish,
                             bool condenses)
{
    selection s;
    if (m->package->status != KL_OK) {
        return;
    }
    const kl_status status = selection_make(m->results, wish, span, &s);
    if (!maker_accepts(m, status)) {
        return;
    }
    s.report = m->report;
    table *t = package_table(m->package);
    if (t) {
        table_start(t, name, &m->model->display);
        table_accepts(t, force_scale_of(m->results, &s, &t->force_scale));
        build(t, m->results, &s);
        table_settle(t);
        if (condenses && t->status == KL_OK) {
            table_condense(t);
        }
        maker_accepts(m, t->status);
        if (t->status == KL_OK && table_row_count(t) == 0) {
            package_drop_block(m->package);
        }
    }
    selection_free(&s);
}

void maker_own_table(maker *m,
                     const char *name,
                     table_builder *build,
                     selection_span span,
                     const selection_wish *wish)
{
    maker_fill_table(m, name, build, span, wish, false);
}

void maker_table(maker *m, const char *name, const selection_wish *wish)
{
    const table_recipe *recipe = table_recipe_find(name);
    if (recipe) {
        maker_own_table(m, recipe->name, recipe->build, recipe->span, wish);
    }
}

static void
maker_picture_of(maker *m, kl_results *results, const char *name, const selection_wish *wish)
{
    const diagram_recipe *recipe = diagram_recipe_find(name);
    selection s;
    if (!recipe || m->package->status != KL_OK) {
        return;
    }
    const kl_status status = selection_make(results, wish, recipe->span, &s);
    if (!maker_accepts(m, status)) {
        return;
    }
    s.report = m->report;
    if (wish->folds && m->steps > 0) { /* steps come first; a slider goes through these alone */
        s.state_count = s.state_count < m->steps ? s.state_count : m->steps;
    }
    const bool is_of_one =
        recipe->subject != DIAGRAM_OF_MODEL && recipe->subject != DIAGRAM_OF_SECTIONS;
    const kl_index member = is_of_one ? diagram_member(results, &s) : KL_NONE;
    drawing *d = package_picture(m->package, recipe->name,
                                 member != KL_NONE ? m->model->members[member].name : "");
    if (d && diagram_build(d, recipe, results, &s)) {
        if (d->blank) {
            package_drop_block(m->package);
        }
    } else if (d && !maker_accepts(m, d->status)) {
        package_drop_block(m->package); /* of what the model does not have */
    }
    selection_free(&s);
}

void maker_picture(maker *m, const char *name, const selection_wish *wish)
{
    maker_picture_of(m, m->results, name, wish);
}

void maker_put_frame(maker *m, const char *name)
{
    int put = 0;
    selection_wish wish = selection_wish_none();
    if (m->steps > 0) {
        wish.stage = m->model->stage_count - 1;
        maker_picture(m, name, &wish);
        return;
    }
    for (kl_index i = 0; i < m->model->case_count && put < MAKER_FRAMES; i++) {
        wish.load_case = i;
        if (kl_case_is_solved(m->results, i)) {
            maker_picture(m, name, &wish);
            put++;
        }
    }
    wish.load_case = KL_NONE;
    for (kl_index i = 0; i < m->model->combination_count && put < MAKER_FRAMES; i++, put++) {
        wish.combination = i;
        maker_picture(m, name, &wish);
    }
}

void maker_put_history(maker *m)
{
    kl_index members[MAKER_MEMBERS];
    if (maker_members(m, members) > 0) {
        selection_wish wish = selection_wish_none();
        wish.member = members[0];
        wish.at = 0.5 * kl_member_length(m->model, members[0]);
        maker_picture_of(m, m->input->history ? m->input->history : m->results, "history", &wish);
    }
}

/* Rows of a table of tenths in one state. */
static kl_index maker_station_rows(maker *m)
{
    kl_index all = 0;
    for (kl_index i = 0; i < m->model->member_count; i++) {
        const double length = kl_member_length(m->model, i);
        const kl_station_row *rows;
        kl_index count = 0;
        maker_accepts(m, kl_station_rows(m->results, i, NAN, &rows, &count));
        for (kl_index k = 0; k < count; k++) {
            all += selection_is_tenth(&rows[k], length) ? 1 : 0;
        }
    }
    return all;
}

station_plan maker_plan(maker *m, bool stages)
{
    const kl_index rows = maker_station_rows(m);
    const kl_index count = stages && m->steps > 0 ? m->model->stage_count : 1;
    station_plan plan = {.wish = selection_wish_none(), .few = rows > MAKER_ROWS};
    plan.wish.tenths = true;
    plan.wish.every_stage = stages && rows <= MAKER_ROWS / count;
    plan.wish.stage = stages || m->steps == 0 ? KL_NONE : m->model->stage_count - 1;
    if (plan.few) {
        package_text(
            m->package, BLOCK_PARAGRAPH,
            "Tables along members show %d of %d members here, those with tendons or checks or else "
            "the "
            "longest%s: more would be more than %d rows. `kernline table` prints each in full.",
            MAKER_MEMBERS, (int)m->model->member_count,
            count > 1 ? ", at the end of the last stage" : "", MAKER_ROWS);
    } else if (stages && !plan.wish.every_stage) {
        package_text(m->package, BLOCK_PARAGRAPH,
                     "Tables along members show the end of the last stage here: every stage would "
                     "be more than %d "
                     "rows. `kernline table` prints each in full.",
                     MAKER_ROWS);
    }
    return plan;
}

void maker_planned_table(maker *m, const station_plan *plan, const char *name)
{
    kl_index members[MAKER_MEMBERS];
    const int count = plan->few ? maker_members(m, members) : 1;
    const table_recipe *recipe = table_recipe_find(name);
    selection_wish wish = plan->wish;
    for (int i = 0; i < count && recipe; i++) {
        wish.member = plan->few ? members[i] : wish.member;
        maker_fill_table(m, recipe->name, recipe->build, recipe->span, &wish, true);
    }
}

selection_wish maker_wish_steps(kl_index member)
{
    selection_wish wish = selection_wish_none();
    wish.every_step = true;
    wish.folds = true;
    wish.member = member;
    return wish;
}

static bool maker_is_looked_at(const maker *m, kl_index member)
{
    for (kl_index i = 0; i < m->model->tendon_count; i++) {
        const kl_tendon *tendon = &m->model->tendons[i];
        for (kl_index k = 0; k < tendon->member_count; k++) {
            if (tendon->members[k] == member) {
                return true;
            }
        }
    }
    for (kl_index i = 0; i < kl_check_result_count(m->report); i++) {
        if (kl_check_result_at(m->report, i)->member == member) {
            return true;
        }
    }
    return false;
}

/* The longest member that is not among the chosen, of those that are looked at or of the others; KL_NONE: no more. */
static kl_index maker_next_member(const maker *m, const kl_index *chosen, int count, bool looked_at)
{
    kl_index next = KL_NONE;
    for (kl_index i = 0; i < m->model->member_count; i++) {
        bool is_free = maker_is_looked_at(m, i) == looked_at;
        for (int k = 0; k < count; k++) {
            is_free = is_free && chosen[k] != i;
        }
        if (is_free &&
            (next == KL_NONE || kl_member_length(m->model, i) > kl_member_length(m->model, next))) {
            next = i;
        }
    }
    return next;
}

int maker_members(const maker *m, kl_index members[MAKER_MEMBERS])
{
    int count = 0;
    for (int looked_at = 1; looked_at >= 0; looked_at--) {
        kl_index next;
        while (count < MAKER_MEMBERS &&
               (next = maker_next_member(m, members, count, looked_at == 1)) != KL_NONE) {
            members[count++] = next;
        }
    }
    return count;
}

void maker_put_loaded(maker *m, const char *name)
{
    kl_index members[MAKER_MEMBERS];
    bool has_more = m->model->combination_count > 0;
    for (kl_index i = 0; i < m->model->case_count; i++) {
        has_more = has_more || kl_case_is_solved(m->results, i);
    }
    if (m->steps > 0 && has_more && maker_members(m, members) > 0) {
        selection_wish wish = selection_wish_none();
        wish.member = members[0];
        maker_picture(m, name, &wish);
    }
}

const char *
maker_figure(const maker *m, char room[FIGURE_SIZE + 20], double value, kl_measure measure)
{
    const double shown =
        measure == KL_MEASURE_NUMBER ? value : value / kl_show_factor(&m->model->display, measure);
    char figure[FIGURE_SIZE];
    figure_rounded(figure, shown, figure_decimals(shown, 4), 4, 1e-12);
    const char *unit = measure == KL_MEASURE_NUMBER || isnan(value)
                           ? ""
                           : kl_show_unit(&m->model->display, measure);
    snprintf(room, FIGURE_SIZE + 20, "%s%s%s", figure, unit[0] != '\0' ? " " : "", unit);
    return room;
}

void maker_fact(maker *m, const char *name, double value, kl_measure measure)
{
    char room[FIGURE_SIZE + 20];
    package_fact(m->package, BLOCK_FACTS, name, "%s", maker_figure(m, room, value, measure));
}

bool maker_state_at(const maker *m, kl_index i, kl_state *state)
{
    if (m->steps > 0) {
        *state = kl_state_step(i);
        return i < m->steps;
    }
    for (kl_index k = 0; k < m->model->case_count; k++) {
        if (kl_case_is_solved(m->results, k) && i-- == 0) {
            *state = kl_state_case(k);
            return true;
        }
    }
    return false;
}

bool maker_last_state(const maker *m, kl_state *state)
{
    return maker_state_at(m, m->steps > 0 ? m->steps - 1 : 0, state);
}

bool maker_is_solved(const maker *m)
{
    kl_state state;
    return maker_last_state(m, &state);
}
