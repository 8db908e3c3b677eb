/* diagram_loads.c - what acts: the loads of a case, a combination or a stage on the frame, with what they come to.
 *
 * Without a choice every case has a small frame of its own, one under the other.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <stdio.h>
#include <string.h>

#include "frame_loads.h"
#include "label.h"
#include "mem.h"

#define LOADS_WIDTH  900.0
#define LOADS_MARGIN 108.0 /* px, of a picture of one case */
#define LOADS_SIZE   28.0
#define LOADS_PANELS 24 /* cases in one picture */
#define LOADS_HEAD   38.0
#define LOADS_MOST   240.0 /* px, height of a small frame with its margins */
#define LOADS_AROUND 50.0
#define LOADS_SMALL  20.0

typedef struct loads_list {
    load_share *shares; /* owned */
    kl_index count;
} loads_list;

static void loads_push(loads_list *list, kl_index load_case, double factor)
{
    list->shares[list->count++] = (load_share){load_case, factor};
}

static void loads_of_combination(loads_list *list, const kl_combination *combination)
{
    for (kl_index i = 0; i < combination->factor_count; i++) {
        const kl_factor *f = &combination->factors[i];
        if (f->cause.kind == KL_CAUSE_CASE) {
            loads_push(list, f->cause.load_case, f->factor);
        }
    }
}

/* The most that any choice can push. */
static size_t loads_room(const kl_model *model, const selection *s)
{
    size_t room = 1;
    if (s->stage != KL_NONE) {
        room += (size_t)load_shares_of_stage(&model->stages[s->stage], NULL);
    }
    return room + (s->combination != KL_NONE
                       ? (size_t)model->combinations[s->combination].factor_count
                       : 0);
}

/* What was asked for, by name. */
static const char *loads_choose(loads_list *list, const kl_model *model, const selection *s)
{
    if (s->load_case != KL_NONE) {
        loads_push(list, s->load_case, 1.0);
        return model->cases[s->load_case].name;
    }
    if (s->combination != KL_NONE) {
        loads_of_combination(list, &model->combinations[s->combination]);
        return model->combinations[s->combination].name;
    }
    list->count = load_shares_of_stage(&model->stages[s->stage], list->shares);
    return model->stages[s->stage].name;
}

static void
loads_sum(drawing *d, const kl_results *results, const loads_list *list, char text[LOAD_SUM_TEXT])
{
    load_sum sum = {0};
    for (kl_index i = 0; i < list->count; i++) {
        diagram_accepts(d, load_sum_add(&sum, results, &list->shares[i]));
    }
    load_sum_text(text, &sum, kl_results_model(results));
}

static void loads_one(drawing *d, const kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    loads_list list = {mem_array(loads_room(model, s), sizeof *list.shares), 0};
    if (!list.shares) {
        d->status = KL_NO_MEMORY;
        return;
    }
    char title[LABEL_SIZE + 20];
    char sum[LOAD_SUM_TEXT];
    snprintf(title, sizeof title, "Loads of %s", loads_choose(&list, model, s));
    const frame_view v = frame_view_page(d, results, title, "", LOADS_MARGIN);
    loads_sum(d, results, &list, sum);
    frame_view_note(&v, sum);
    const bool of_stage = s->load_case == KL_NONE && s->combination == KL_NONE;
    const kl_state after = kl_state_step(of_stage ? kl_last_step(results, s->stage) : 0);
    frame_view_draw(&v, of_stage ? &after : NULL);
    frame_loads_draw(&v, list.shares, list.count, LOADS_SIZE, true);
    frame_view_names(&v);
    frame_view_scale_bar(&v);
    mem_free(list.shares);
}

static void loads_panel(drawing *d, const kl_results *results, kl_index load_case, label_box at)
{
    load_share share = {load_case, 1.0};
    const loads_list list = {&share, 1};
    char sum[LOAD_SUM_TEXT];
    loads_sum(d, results, &list, sum);
    drawing_text(d, "strong", 8.0, at.y + 14.0, ANCHOR_START,
                 kl_results_model(results)->cases[load_case].name);
    drawing_text(d, "quiet", 8.0, at.y + 29.0, ANCHOR_START, sum);
    at.y += LOADS_HEAD;
    at.height -= LOADS_HEAD;
    const frame_view v = frame_view_start(d, results, at, LOADS_AROUND);
    frame_view_draw(&v, NULL);
    frame_loads_draw(&v, &share, 1, LOADS_SMALL, true);
}

static void loads_column(drawing *d, const kl_results *results)
{
    const kl_model *model = kl_results_model(results);
    const kl_index count = model->case_count < LOADS_PANELS ? model->case_count : LOADS_PANELS;
    const double height =
        LOADS_HEAD + frame_view_height(model, LOADS_WIDTH, LOADS_AROUND, LOADS_MOST);
    drawing_start(d, LOADS_WIDTH, 20.0 + height * (double)count + 20.0, "Loads, case by case", "");
    for (kl_index i = 0; i < count; i++) {
        loads_panel(d, results, i, (label_box){0.0, 8.0 + height * (double)i, LOADS_WIDTH, height});
    }
    char text[100] = "";
    if (count == 0) {
        snprintf(text, sizeof text, "the model has no load cases");
    } else if (count < model->case_count) {
        snprintf(text, sizeof text, "%d more cases are not drawn: ask for one",
                 (int)(model->case_count - count));
    }
    drawing_text(d, "small quiet", LOADS_WIDTH - 8.0, d->height - 8.0, ANCHOR_END, text);
}

void diagram_loads(drawing *d, kl_results *results, const selection *s)
{
    if (s->load_case != KL_NONE || s->combination != KL_NONE || s->stage != KL_NONE) {
        loads_one(d, results, s);
    } else {
        loads_column(d, results);
    }
}
