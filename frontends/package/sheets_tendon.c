/* sheets_tendon.c - sheets 6, 7 and 15: where the tendons lie, what force is in them, what they lose.
 * SPDX-License-Identifier: MIT */
#include "law_name.h"
#include "maker.h"

static bool tendon_is_in(const kl_model *model, kl_index member)
{
    for (kl_index i = 0; i < model->tendon_count; i++) {
        for (kl_index k = 0; k < model->tendons[i].member_count; k++) {
            if (model->tendons[i].members[k] == member) {
                return true;
            }
        }
    }
    return false;
}

/* The picture of each member that has tendons. */
static void tendon_put_pictures(maker *m, const char *name, bool steps)
{
    kl_index members[MAKER_MEMBERS];
    const int count = maker_members(m, members);
    for (int i = 0; i < count; i++) {
        selection_wish wish = steps ? maker_wish_steps(members[i]) : selection_wish_none();
        wish.member = members[i];
        if (tendon_is_in(m->model, members[i])) {
            maker_picture(m, name, &wish);
        }
    }
}

void sheet_tendons(maker *m)
{
    const selection_wish none = selection_wish_none();
    if (m->model->tendon_count > 0) {
        tendon_put_pictures(m, "tendons", false);
        maker_table(m, "tendons", &none);
    }
}

void sheet_tendon_force(maker *m)
{
    selection_wish last = selection_wish_none();
    last.stage = m->steps > 0 ? m->model->stage_count - 1 : KL_NONE;
    if (m->model->tendon_count > 0) {
        tendon_put_pictures(m, "tendon_force", true);
        maker_table(m, "tendon_loads", &last);
    }
}

void sheet_losses(maker *m)
{
    const selection_wish none = selection_wish_none();
    if (m->model->tendon_count > 0) {
        maker_planned_table(m, &(station_plan){.wish = none}, "losses");
        if (law_time_acts(m->model)) {
            maker_table(m, "loss_estimates", &none);
        }
    }
}
