/* sheets_result.c - sheets 9 to 12 and 16 to 18: the construction, posts, actions, secondary actions, movements, form
 * grades, reactions.
 * SPDX-License-Identifier: MIT */
#include "maker.h"
#include "summary_tables.h"

#define RESULT_GRADES 6  /* pictures of form grades */
#define RESULT_POSTS  12 /* pictures of posts of one member, and members that have them */

/* A picture of each member that has pictures; of what goes up and down, of those that are not steep: along a column it would show
 * how much shorter this gets. */
static void result_put_members(maker *m, const char *name, bool steep_too)
{
    kl_index members[MAKER_MEMBERS];
    const int count = maker_members(m, members);
    for (int i = 0; i < count; i++) {
        if (steep_too || !label_is_steep(m->model, members[i])) {
            const selection_wish wish = maker_wish_steps(members[i]);
            maker_picture(m, name, &wish);
        }
    }
}

void sheet_stages(maker *m)
{
    const selection_wish none = selection_wish_none();
    if (m->steps == 0) {
        return;
    }
    maker_picture(m, "stages", &none);
    for (kl_index i = 0; i < m->model->stage_count; i++) {
        const kl_stage *stage = &m->model->stages[i];
        if (stage->title[0] != '\0') {
            package_fact(m->package, BLOCK_FACTS, stage->name, "%s", stage->title);
        }
    }
    maker_table(m, "steps", &none);
}

/* Does a row under the member stand at the end of the stage? */
static bool result_has_posts(maker *m, kl_index member, kl_index stage)
{
    const kl_state state = kl_state_step(kl_last_step(m->results, stage));
    for (kl_index f = 0; f < m->model->falsework_count; f++) {
        const kl_falsework *falsework = &m->model->falsework[f];
        for (kl_index row = 0; falsework->member == member && row < falsework->row_count; row++) {
            kl_post_row post;
            if (maker_accepts(m, kl_row_state(m->results, state, f, row, &post)) && post.stands) {
                return true;
            }
        }
    }
    return false;
}

/* A picture a stage as long as the posts stand. */
static void result_put_posts(maker *m, kl_index member)
{
    int shown = 0;
    for (kl_index stage = 0; stage < m->model->stage_count && shown < RESULT_POSTS; stage++) {
        if (result_has_posts(m, member, stage)) {
            selection_wish wish = selection_wish_none();
            wish.member = member;
            wish.stage = stage;
            maker_picture(m, "posts", &wish);
            shown++;
        }
    }
}

/* Rows down, steps across: one falsework at a glance, as the summary has it. */
static void result_put_grid(maker *m, kl_index falsework)
{
    table *t = package_table(m->package);
    if (!t) {
        return;
    }
    table_start(t, "posts_by_step", &m->model->display);
    summary_build_posts(t, m->results, falsework);
    if (maker_accepts(m, t->status) && table_row_count(t) == 0) {
        package_drop_block(m->package);
    }
}

void sheet_posts(maker *m)
{
    const selection_wish none = selection_wish_none();
    if (m->model->falsework_count == 0 || m->steps == 0) {
        return;
    }
    for (kl_index i = 0; i < m->model->falsework_count; i++) {
        result_put_grid(m, i);
    }
    for (kl_index i = 0; i < m->model->falsework_count; i++) {
        bool is_new = true;
        for (kl_index k = 0; k < i; k++) {
            is_new = is_new && m->model->falsework[k].member != m->model->falsework[i].member;
        }
        if (is_new && i < RESULT_POSTS) {
            result_put_posts(m, m->model->falsework[i].member);
        }
    }
    const station_plan plan = {.wish = none};
    maker_planned_table(m, &plan, "posts");
}

void sheet_actions(maker *m)
{
    if (!maker_is_solved(m)) {
        return;
    }
    result_put_members(m, "moment", true);
    maker_put_loaded(m, "moment");
    maker_put_frame(m, "frame_moment");
    maker_put_frame(m, "frame_axial");
    result_put_members(m, "shear", true);
    result_put_members(m, "axial", true);
    result_put_members(m, "envelope", true);
    station_plan plan = maker_plan(m, true);
    maker_planned_table(m, &plan, "actions");
    package_text(m->package, BLOCK_HEADING, "By cause, at the ends of members");
    plan.wish.by_cause = true;
    plan.wish.every_stage = false;
    maker_planned_table(m, &plan, "ends");
}

void sheet_secondary(maker *m)
{
    if (m->model->tendon_count == 0) {
        return;
    }
    kl_index members[MAKER_MEMBERS];
    const int count = maker_members(m, members);
    package_text(m->package, BLOCK_PARAGRAPH,
                 "The pictures show what stressing brought, cause prestress alone. The table below "
                 "has what is left of it: what losses, relaxation and creep under prestress did to "
                 "it since is in.");
    for (int i = 0; i < count; i++) {
        selection_wish wish = maker_wish_steps(members[i]);
        wish.cause = (kl_cause){KL_CAUSE_PRESTRESS, KL_NONE};
        maker_picture(m, "moment", &wish);
    }
    const selection_wish none = selection_wish_none();
    maker_own_table(m, "secondary", summary_build_secondary, SELECTION_FINAL, &none);
}

void sheet_movements(maker *m)
{
    if (!maker_is_solved(m)) {
        return;
    }
    maker_put_frame(m, "deflected");
    result_put_members(m, "deflection", false);
    if (m->steps > 0) {
        result_put_members(m, "camber", false);
        maker_put_history(m);
    }
    const station_plan plan = maker_plan(m, true);
    maker_planned_table(m, &plan, "deflections");
    if (m->steps > 0) {
        station_plan last = plan;
        last.wish.every_stage = false;
        last.wish.stage = m->model->stage_count - 1;
        maker_planned_table(m, &last, "camber");
    }
    selection_wish wish = selection_wish_none();
    wish.every_stage = m->model->node_count <= MAKER_ROWS / (m->model->stage_count + 1);
    maker_table(m, "nodes", &wish);
}

void sheet_grades(maker *m)
{
    const selection_wish none = selection_wish_none();
    if (m->model->grade_count == 0) {
        return;
    }
    package_text(m->package, BLOCK_PARAGRAPH,
                 "What the empty form is set to, as it stands on its falsework just before the "
                 "concrete is placed. The last two columns are for the field.");
    for (kl_index i = 0; i < m->model->grade_count && i < RESULT_GRADES; i++) {
        selection_wish wish = none;
        wish.member = m->model->grades[i].member;
        maker_picture(m, "grades", &wish);
    }
    maker_table(m, "grades", &none);
}

void sheet_reactions(maker *m)
{
    selection_wish wish = selection_wish_none();
    wish.every_stage = true;
    maker_table(m, "reactions", &wish);
    const selection_wish none = selection_wish_none();
    maker_table(m, "audit", &none);
}
