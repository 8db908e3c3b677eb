/* consistency_stages.c - the stages in their order: members, supports, joints and loads.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "consistency_replay.h"
#include "material.h"

/* ---- members ------------------------------------------------------------------------------------------ */

static void count_at_nodes(replay *r, kl_index m, kl_index by)
{
    const consistency *c = r->c;
    const kl_member *member = &c->model->members[m];
    r->standing_at[member->from] += by;
    r->standing_at[member->to] += by;
    for (kl_index i = c->on_start[m]; i < c->on_start[m + 1]; i++) {
        r->standing_at[c->on_nodes[i]] += by;
    }
}

static void stand(replay *r, kl_index m, bool placed)
{
    const kl_member *member = &r->c->model->members[m];
    replay_member *state = &r->members[m];
    if (state->stands) {
        REPLAY_SAY(r, KL_ERROR, "stands-already",
                   "Stage %s %s member %s, which stands since stage %s.", r->at->name,
                   placed ? "places" : "casts", member->name,
                   r->c->model->stages[state->stage].name);
        return;
    }
    state->stands = state->ever = true;
    state->stage = r->stage;
    const double placed_age = isnan(member->age) ? 28.0 * KL_DAY : member->age;
    state->born = r->at->time - (placed ? placed_age : 0.0);
    count_at_nodes(r, m, 1);
}

/* Concrete that depends on its age must be told its day: creep and shrinkage do where a later stage has one. */
static void check_day(replay *r, kl_index m)
{
    const kl_model *model = r->c->model;
    const kl_material *material = &model->materials[model->members[m].material];
    const bool dated = model->stages[model->stage_count - 1].has_time;
    const bool by_law = dated && (material_creeps(material) || material_shrinks(material));
    if (r->at->has_time || r->told_day || !(material_ages(material) || by_law)) {
        return;
    }
    r->told_day = true;
    REPLAY_SAY(r, KL_ERROR, "no-day", "Stage %s has no day, but %s of %s, of member %s, %s.",
               r->at->name, by_law ? "creep or shrinkage" : "the modulus", material->name,
               model->members[m].name, by_law ? "counts from it" : "changes with its age");
    kl_diags_hint(r->c->diags,
                  by_law ? "write `at 0 day` in the stage"
                         : "write `at 0 day` in the stage, or give the modulus as a value");
}

static void cast_or_place(replay *r)
{
    const kl_list items = r->operation->items;
    const bool placed = r->operation->kind == KL_OP_PLACE;
    for (kl_index i = 0; i < items.count; i++) {
        const kl_index m = items.items[i];
        stand(r, m, placed);
        check_day(r, m);
        if (!placed && consistency_is_level(r->c, m) && r->members[m].rows == 0) {
            REPLAY_SAY(r, KL_WARNING, "cast-on-nothing",
                       "Stage %s casts member %s with no falsework under it: its fresh concrete is "
                       "taken to carry itself.",
                       r->at->name, r->c->model->members[m].name);
            kl_diags_hint(r->c->diags, "erect falsework first, or `place` it if it arrives hard");
        }
    }
}

/* A stressed tendon cannot lose the member it pulls on. */
static void check_tendons_left(replay *r, kl_index m)
{
    const kl_model *model = r->c->model;
    for (kl_index t = 0; t < model->tendon_count; t++) {
        const kl_tendon *tendon = &model->tendons[t];
        for (kl_index i = 0; i < tendon->member_count && r->tendons[t].stressed; i++) {
            if (tendon->members[i] == m) {
                REPLAY_SAY(r, KL_ERROR, "tendon-left",
                           "Stage %s removes member %s while tendon %s in it is stressed.",
                           r->at->name, model->members[m].name, tendon->name);
                kl_diags_hint(r->c->diags, "`slacken` the tendon first");
                return;
            }
        }
    }
}

static void remove_members(replay *r)
{
    const kl_list items = r->operation->items;
    for (kl_index i = 0; i < items.count; i++) {
        const kl_index m = items.items[i];
        const char *name = r->c->model->members[m].name;
        replay_member *state = &r->members[m];
        if (!state->stands) {
            REPLAY_SAY(r, KL_ERROR, "does-not-stand",
                       "Stage %s removes member %s, which does not stand.", r->at->name, name);
            continue;
        }
        if (state->rows > 0 || state->carried > 0) {
            REPLAY_SAY(r, KL_ERROR, "removed-with-falsework",
                       "Stage %s removes member %s while falsework stands %s it.", r->at->name,
                       name, state->rows > 0 ? "under" : "on");
        }
        check_tendons_left(r, m);
        state->stands = false;
        count_at_nodes(r, m, -1);
    }
}

/* A hinge cannot open where a stressed tendon goes through. */
static void check_tendons_through(replay *r)
{
    const kl_model *model = r->c->model;
    for (kl_index t = 0; t < model->tendon_count; t++) {
        hinge_crossing crossing;
        if (r->tendons[t].stressed &&
            hinges_cross(&r->hinges, r->c, &model->tendons[t], &crossing)) {
            REPLAY_SAY(r, KL_ERROR, "tendon-through-hinge",
                       "With stage %s tendon %s, which is stressed, runs through %s: that is not "
                       "analysed.",
                       r->at->name, model->tendons[t].name, hinges_name(r->c, &crossing));
            kl_diags_hint(r->c->diags, "anchor the tendon there, or `slacken` it first");
            return;
        }
    }
}

static void lock_or_unlock(replay *r)
{
    const kl_index m = r->operation->items.items[0];
    if (!r->members[m].stands) {
        REPLAY_SAY(r, KL_ERROR, "does-not-stand",
                   "Stage %s %s a joint of member %s, which does not stand.", r->at->name,
                   r->operation->kind == KL_OP_LOCK ? "locks" : "unlocks",
                   r->c->model->members[m].name);
    }
    const bool opens = r->operation->kind == KL_OP_UNLOCK;
    hinges_turn(&r->hinges, r->c, m, r->operation->station, opens);
    if (opens) {
        check_tendons_through(r);
    }
}

/* ---- supports ----------------------------------------------------------------------------------------- */

/* All that a support holds, as it begins to stand. */
static unsigned char holds_of(const kl_support *support)
{
    int holds = REPLAY_SUPPORT_STANDS;
    for (int d = 0; d < 3; d++) {
        holds |= support->hold[d].kind == KL_FREE ? 0 : 1 << d;
    }
    return (unsigned char)holds;
}

/* Directions of a node that its supports hold now. */
static int held_now(const replay *r, kl_index node)
{
    int holds = 0;
    for (kl_index s = r->c->support_first[node]; s != KL_NONE; s = r->c->support_next[s]) {
        holds |= r->supports[s];
    }
    return holds & ~REPLAY_SUPPORT_STANDS;
}

static void add_support(replay *r)
{
    const kl_index s = r->operation->items.items[0];
    const kl_support *support = &r->c->model->supports[s];
    const char *node = r->c->model->nodes[support->node].name;
    const unsigned char holds = holds_of(support);
    if (r->supports[s] != 0) {
        REPLAY_SAY(r, KL_ERROR, "support-stands",
                   "Stage %s adds a support to node %s that stands already.", r->at->name, node);
    } else if ((held_now(r, support->node) & holds) != 0) {
        REPLAY_SAY(r, KL_ERROR, "support-twice",
                   "Stage %s adds a support to node %s where another already holds it.",
                   r->at->name, node);
    }
    r->supports[s] = holds;
}

static void free_node(replay *r)
{
    static const char *const words[3] = {"x", "y", "turn"};
    const kl_index node = r->operation->items.items[0];
    const bool borne = r->c->bearing_of[node] != KL_NONE;
    for (int d = 0; d < 3; d++) {
        if (!r->operation->directions[d]) {
            continue;
        }
        if ((held_now(r, node) & 1 << d) == 0) {
            REPLAY_SAY(r, KL_ERROR, "free-not-held",
                       "Stage %s frees node %s in %s, where no support holds it.", r->at->name,
                       r->c->model->nodes[node].name, words[d]);
            kl_diags_hint(r->c->diags, borne ? "a bearing holds it; `free` takes away supports only"
                                             : "name only the directions that a support holds");
        }
        for (kl_index s = r->c->support_first[node]; s != KL_NONE; s = r->c->support_next[s]) {
            r->supports[s] = (unsigned char)(r->supports[s] & ~(1 << d));
        }
    }
}

/* ---- loads -------------------------------------------------------------------------------------------- */

/* A node of bearings that no member meets is there once a support holds it; without any that was told before. */
static bool fixture_stands(const replay *r, kl_index node)
{
    kl_index s = r->c->support_first[node];
    while (s != KL_NONE && r->supports[s] == 0) {
        s = r->c->support_next[s];
    }
    return s != KL_NONE || r->c->support_first[node] == KL_NONE;
}

static bool load_stands(const replay *r, const kl_load *load)
{
    if (load->member != KL_NONE) {
        return r->members[load->member].stands;
    }
    if (load->node == KL_NONE) {
        return true;
    }
    return consistency_has_member(r->c, load->node) ? r->standing_at[load->node] > 0
                                                    : fixture_stands(r, load->node);
}

/* Say once of a case what keeps a stage from loading it. */
static void check_loads(replay *r, const kl_case *load_case)
{
    const kl_model *model = r->c->model;
    for (kl_index i = 0; i < load_case->load_count; i++) {
        const kl_load *load = &load_case->loads[i];
        if (load->kind == KL_LOAD_WEIGHT) {
            REPLAY_SAY(
                r, KL_ERROR, "weight-in-stages",
                "Stage %s loads case %s, which has `weight` in it: in stages weight comes with "
                "`cast` and `place`.",
                r->at->name, load_case->name);
            return;
        }
        if (!load_stands(r, load)) {
            REPLAY_SAY(r, KL_ERROR, "load-on-nothing",
                       "Stage %s loads case %s, but %s %s does not stand then.", r->at->name,
                       load_case->name, load->member != KL_NONE ? "member" : "node",
                       load->member != KL_NONE ? model->members[load->member].name
                                               : model->nodes[load->node].name);
            return;
        }
    }
}

/* A whole case more on top of what is on. A share below 1 is the difference to what is wanted. */
static void check_loaded_twice(replay *r, kl_index k)
{
    const double before = r->loaded[k];
    const double more = r->operation->factor;
    if (!(before > 0.0) || more < 1.0) {
        return;
    }
    REPLAY_SAY(r, KL_WARNING, "loaded-twice",
               "Stage %s loads case %s, which is on the structure already: it acts %.6g times from "
               "then on.",
               r->at->name, r->c->model->cases[k].name, before + more);
    kl_diags_hint(r->c->diags,
                  "`unload` it first; or give what is added as its share, `load %s "
                  "times 0.4`",
                  r->c->model->cases[k].name);
}

static void load_or_unload(replay *r)
{
    const kl_list items = r->operation->items;
    for (kl_index i = 0; i < items.count; i++) {
        const kl_index k = items.items[i];
        const kl_case *load_case = &r->c->model->cases[k];
        if (r->operation->kind == KL_OP_LOAD) {
            check_loads(r, load_case);
            check_loaded_twice(r, k);
            r->loaded[k] += r->operation->factor;
            r->case_on[k] = r->case_used[k] = true;
        } else if (r->case_on[k]) {
            r->loaded[k] = 0.0;
            r->case_on[k] = false;
        } else {
            REPLAY_SAY(r, KL_ERROR, "unload-unloaded",
                       "Stage %s unloads case %s, which is not on the structure.", r->at->name,
                       load_case->name);
        }
    }
}

/* A tendon as a load is for models without stages. */
static void check_tendon_loads(consistency *c)
{
    for (kl_index k = 0; k < c->model->case_count; k++) {
        const kl_case *load_case = &c->model->cases[k];
        for (kl_index i = 0; i < load_case->load_count; i++) {
            if (load_case->loads[i].kind == KL_LOAD_TENDON) {
                kl_diags_add(
                    c->diags, KL_ERROR, "stress-in-case", load_case->loads[i].origin,
                    "Case %s stresses tendon %s: in a model with stages a stage does that.",
                    load_case->name, c->model->tendons[load_case->loads[i].tendon].name);
                break;
            }
        }
    }
}

/* ---- the replay --------------------------------------------------------------------------------------- */

static void replay_operation(replay *r)
{
    switch (r->operation->kind) {
    case KL_OP_ERECT:
        replay_erect(r);
        break;
    case KL_OP_RELEASE:
        replay_release(r);
        break;
    case KL_OP_CAST:
    case KL_OP_PLACE:
        cast_or_place(r);
        break;
    case KL_OP_STRESS:
    case KL_OP_SLACKEN:
    case KL_OP_GROUT:
    case KL_OP_LOSE:
        replay_tendons(r);
        break;
    case KL_OP_LOAD:
    case KL_OP_UNLOAD:
        load_or_unload(r);
        break;
    case KL_OP_REMOVE:
        remove_members(r);
        break;
    case KL_OP_SUPPORT:
        add_support(r);
        break;
    case KL_OP_FREE:
        free_node(r);
        break;
    case KL_OP_UNLOCK:
    case KL_OP_LOCK:
        lock_or_unlock(r);
        break;
    }
}

static kl_status start(replay *r)
{
    const kl_model *model = r->c->model;
    arena *memory = &r->c->memory;
    size_t rows = 0;
    for (kl_index f = 0; f < model->falsework_count; f++) {
        rows += (size_t)model->falsework[f].row_count;
    }
    r->members = arena_array(memory, (size_t)model->member_count, sizeof *r->members);
    r->tendons = arena_array(memory, (size_t)model->tendon_count, sizeof *r->tendons);
    r->falsework = arena_array(memory, (size_t)model->falsework_count, sizeof *r->falsework);
    r->rows = arena_array(memory, rows, sizeof *r->rows);
    r->standing_at = arena_array(memory, (size_t)model->node_count, sizeof *r->standing_at);
    r->supports = arena_array(memory, (size_t)model->support_count, sizeof *r->supports);
    r->loaded = arena_array(memory, (size_t)model->case_count, sizeof *r->loaded);
    r->case_used = arena_array(memory, (size_t)model->case_count, sizeof *r->case_used);
    r->case_on = arena_array(memory, (size_t)model->case_count, sizeof *r->case_on);
    if (r->members == NULL || r->tendons == NULL || r->falsework == NULL || r->rows == NULL ||
        r->standing_at == NULL || r->supports == NULL || r->loaded == NULL ||
        r->case_used == NULL || r->case_on == NULL) {
        return KL_NO_MEMORY;
    }
    kl_index first = 0;
    for (kl_index f = 0; f < model->falsework_count; f++) {
        r->falsework[f].first_row = first;
        r->falsework[f].emptied = KL_NONE;
        first += model->falsework[f].row_count;
    }
    for (kl_index s = 0; s < model->support_count; s++) {
        r->supports[s] = model->supports[s].added_later ? 0 : holds_of(&model->supports[s]);
    }
    return hinges_start(r->c, &r->hinges);
}

static void members_never_cast(replay *r)
{
    consistency *c = r->c;
    consistency_tally tally = {0};
    for (kl_index m = 0; m < c->model->member_count; m++) {
        if (!r->members[m].ever && consistency_tell(&tally)) {
            kl_diags_add(c->diags, KL_WARNING, "never-cast", c->model->members[m].origin,
                         "No stage casts or places member %s: it never stands.",
                         c->model->members[m].name);
        }
    }
    consistency_tell_rest(c, tally, KL_WARNING, "never-cast");
}

static void supports_never_added(replay *r)
{
    const kl_model *model = r->c->model;
    for (kl_index s = 0; s < model->support_count; s++) {
        if (r->supports[s] == 0) {
            kl_diags_add(r->c->diags, KL_WARNING, "support-never-added", model->supports[s].origin,
                         "No stage adds this support of node %s.",
                         model->nodes[model->supports[s].node].name);
        }
    }
}

/* Cases that no stage loads are solved on the structure that the last stage leaves. */
static void check_final_cases(replay *r)
{
    const kl_model *model = r->c->model;
    for (kl_index k = 0; k < model->case_count; k++) {
        const kl_case *load_case = &model->cases[k];
        for (kl_index i = 0; i < load_case->load_count && !r->case_used[k]; i++) {
            const kl_load *load = &load_case->loads[i];
            if (load_stands(r, load)) {
                continue;
            }
            kl_diags_add(
                r->c->diags, KL_ERROR, "load-on-nothing", load->origin,
                "No stage loads case %s, so it acts on the final structure, where %s %s does "
                "not stand.",
                load_case->name, load->member != KL_NONE ? "member" : "node",
                load->member != KL_NONE ? model->members[load->member].name
                                        : model->nodes[load->node].name);
            break;
        }
    }
}

static bool rows_are_left(const replay *r)
{
    const kl_model *model = r->c->model;
    for (kl_index f = 0; f < model->falsework_count; f++) {
        if (r->falsework[f].standing > 0 && r->members[model->falsework[f].member].stands) {
            return true;
        }
    }
    return false;
}

kl_status consistency_stages(consistency *c)
{
    if (!c->staged) {
        consistency_contacts(c, NULL, false);
        return KL_OK;
    }
    replay r = {.c = c};
    KL_TRY(start(&r));
    check_tendon_loads(c);
    for (r.stage = 0; r.stage < c->model->stage_count; r.stage++) {
        r.at = &c->model->stages[r.stage];
        for (kl_index o = 0; o < r.at->operation_count; o++) {
            r.operation = &r.at->operations[o];
            replay_operation(&r);
        }
        replay_grades(&r);
    }
    consistency_contacts(c, r.supports, rows_are_left(&r));
    members_never_cast(&r);
    supports_never_added(&r);
    check_final_cases(&r);
    replay_tendons_end(&r);
    return replay_falsework_end(&r);
}
