/* diagram_stages.c - the construction as a strip: a small frame a stage with what stands after it, what is new, what it loads,
 * which rows bear; the stage's name, its day, what it does.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <stdio.h>
#include <string.h>

#include "figure.h"
#include "frame_loads.h"
#include "label.h"
#include "letter_width.h"
#include "mem.h"

#define STAGES_WIDTH  900.0
#define STAGES_PANELS 60
#define STAGES_HEAD   52.0  /* px over a frame: name, title, what is done in one line */
#define STAGES_LINE   13.0  /* px, every other line of what is done */
#define STAGES_LINES  12    /* lines of what is done, at most */
#define STAGES_MOST   230.0 /* px, height of a frame with its margins */
#define STAGES_MARGIN 36.0
#define STAGES_LOADS  12.0 /* px, the largest strip of load */
#define STAGES_GAP    14.0 /* px between panels */
#define STAGES_WIDE   2.2  /* frames wider than this have two panels in a row, others three */
#define STAGES_TEXT   400

/* Cut a text, with an ellipsis, to a width in small letters. */
static void stages_fit(char text[STAGES_TEXT], double width)
{
    size_t length = strlen(text);
    if (letter_width(text, 10.5) <= width) {
        return;
    }
    while (length > 0 && letter_width(text, 10.5) > width - 10.0) {
        do { /* whole characters only: bytes 10xxxxxx continue one */
            length--;
        } while (length > 0 && ((unsigned char)text[length] & 0xC0) == 0x80);
        text[length] = '\0';
    }
    snprintf(text + length, STAGES_TEXT - length, "\xE2\x80\xA6");
}

static void
stages_put_line(drawing *d, const char *class, double x, double y, double width, const char *text)
{
    char fit[STAGES_TEXT];
    snprintf(fit, sizeof fit, "%s", text);
    stages_fit(fit, width);
    drawing_text(d, class, x, y, ANCHOR_START, fit);
}

static void stages_put_doing(drawing *d, label_box at, int line, const char *text)
{
    if (d != NULL) {
        stages_put_line(d, "small quiet", at.x, at.y + 43.0 + STAGES_LINE * line, at.width, text);
    }
}

/* Lines that fill up word by word; `step` is the one that the line began in. */
typedef struct doing_lines {
    drawing *d; /* NULL: only count */
    label_box at;
    char text[2 * STAGES_TEXT];
    int count;
    kl_index step, last;
} doing_lines;

static bool doing_is_full(const doing_lines *lines)
{
    return lines->count == STAGES_LINES;
}

static void doing_end_line(doing_lines *lines)
{
    stages_put_doing(lines->d, lines->at, lines->count++, lines->text);
    lines->text[0] = '\0';
}

/* Put a word behind the others, or on the next line; where there is none, say in the last line how many steps are not told. */
static void doing_put_word(doing_lines *lines, kl_index step, const char *word, size_t length)
{
    const size_t used = strlen(lines->text);
    snprintf(lines->text + used, sizeof lines->text - used, "%s%.*s", used > 0 ? " " : "",
             (int)length, word);
    if (used == 0 || letter_width(lines->text, 10.5) <= lines->at.width - 10.0) {
        lines->step = used == 0 ? step : lines->step;
        return;
    }
    lines->text[used] = '\0';
    if (lines->count == STAGES_LINES - 1) {
        snprintf(lines->text, sizeof lines->text, "and %d more: `table steps` lists them",
                 (int)(lines->last - lines->step + 1));
        doing_end_line(lines);
        return;
    }
    doing_end_line(lines);
    doing_put_word(lines, step, word, length);
}

/* What its steps do, one after the other, in as many lines as that takes; the step before the first operation does nothing.
 * @param d NULL: only count. @return the lines. */
static int stages_put_doings(drawing *d, const kl_results *results, kl_index stage, label_box at)
{
    doing_lines lines = {.d = d, .at = at, .last = kl_last_step(results, stage)};
    for (kl_index i = kl_first_step(results, stage); i <= lines.last; i++) {
        const kl_step *step = kl_step_at(results, i);
        char label[STAGES_TEXT];
        snprintf(label, sizeof label, "%s%s", step->label, i < lines.last ? ";" : "");
        const char *word = step->operation == KL_NONE ? "" : label;
        while (*word != '\0' && !doing_is_full(&lines)) {
            const size_t length = strcspn(word, " ");
            doing_put_word(&lines, i, word, length);
            word += length + strspn(word + length, " ");
        }
    }
    if (lines.text[0] != '\0' || lines.count == 0) {
        doing_end_line(&lines);
    }
    return lines.count;
}

/* The most lines that any of the first `count` stages takes. */
static int stages_most_lines(const kl_results *results, kl_index count, double width)
{
    int most = 1;
    for (kl_index i = 0; i < count; i++) {
        const int lines = stages_put_doings(NULL, results, i, (label_box){.width = width});
        most = lines > most ? lines : most;
    }
    return most;
}

static void stages_put_head(drawing *d, const kl_results *results, kl_index stage, label_box at)
{
    const kl_model *model = kl_results_model(results);
    const kl_stage *s = &model->stages[stage];
    char day[60] = "";
    if (s->has_time) {
        const double shown = s->time / kl_show_factor(&model->display, KL_MEASURE_TIME);
        char figure[FIGURE_SIZE];
        figure_given(figure, shown, 2);
        snprintf(day, sizeof day, "%s %s", kl_show_unit(&model->display, KL_MEASURE_TIME), figure);
    }
    char name[STAGES_TEXT];
    snprintf(name, sizeof name, "%d  %s", (int)stage + 1, s->name);
    stages_put_line(d, "strong", at.x, at.y + 14.0, 0.85 * (at.width - 80.0), name);
    drawing_text(d, "", at.x + at.width, at.y + 14.0, ANCHOR_END, day);
    stages_put_line(d, "small", at.x, at.y + 29.0, at.width, s->title);
    at.y -= s->title[0] == '\0' ? 14.0 : 0.0;
    stages_put_doings(d, results, stage, at);
}

/* Members that did not stand before the stage. */
static void stages_put_new(const frame_view *v, kl_index stage)
{
    const kl_index first = kl_first_step(v->results, stage);
    const kl_state now = kl_state_step(kl_last_step(v->results, stage));
    for (kl_index m = 0; m < v->model->member_count; m++) {
        const bool stood = first > 0 && kl_member_stands(v->results, kl_state_step(first - 1), m);
        if (kl_member_stands(v->results, now, m) && !stood) {
            const page_point from = frame_view_node(v, v->model->members[m].from);
            const page_point to = frame_view_node(v, v->model->members[m].to);
            drawing_line(v->drawing, "fresh", from.x, from.y, to.x, to.y);
        }
    }
}

/* Arrows that press on the ends of what is stressed. */
static void stages_put_stressing(const frame_view *v, const kl_stage *stage)
{
    for (kl_index i = 0; i < stage->operation_count; i++) {
        const kl_operation *o = &stage->operations[i];
        for (kl_index k = 0; o->kind == KL_OP_STRESS && k < o->items.count; k++) {
            const kl_tendon *t = &v->model->tendons[o->items.items[k]];
            const page_point from = frame_view_node(v, v->model->members[t->members[0]].from);
            const page_point to =
                frame_view_node(v, v->model->members[t->members[t->member_count - 1]].to);
            const double sense = to.x >= from.x ? 1.0 : -1.0;
            drawing_arrow(v->drawing, "tendon", from.x - sense * 24.0, from.y, from.x - sense * 4.0,
                          from.y);
            drawing_arrow(v->drawing, "tendon", to.x + sense * 24.0, to.y, to.x + sense * 4.0,
                          to.y);
        }
    }
}

static void stages_put_loads(const frame_view *v, const kl_stage *stage)
{
    const kl_index count = load_shares_of_stage(stage, NULL);
    load_share *shares = mem_array((size_t)count, sizeof *shares);
    if (!shares && count > 0) {
        diagram_accepts(v->drawing, KL_NO_MEMORY);
        return;
    }
    load_shares_of_stage(stage, shares);
    frame_loads_draw(v, shares, count, STAGES_LOADS, true);
    mem_free(shares);
}

static void
stages_put(drawing *d, const kl_results *results, kl_index stage, label_box at, double head)
{
    const kl_stage *s = &kl_results_model(results)->stages[stage];
    const kl_state state = kl_state_step(kl_last_step(results, stage));
    stages_put_head(d, results, stage, at);
    at.y += head;
    at.height -= head;
    const frame_view v = frame_view_start(d, results, at, STAGES_MARGIN);
    frame_view_draw(&v, &state);
    stages_put_new(&v, stage);
    stages_put_stressing(&v, s);
    stages_put_loads(&v, s);
}

void diagram_stages(drawing *d, kl_results *results, const selection *s)
{
    (void)s;
    const kl_model *model = kl_results_model(results);
    const kl_index count = model->stage_count < STAGES_PANELS ? model->stage_count : STAGES_PANELS;
    const double half = 0.5 * (STAGES_WIDTH - STAGES_GAP);
    const bool wide = frame_view_height(model, half, 0.0, half) * STAGES_WIDE < half;
    const int columns = wide ? 2 : 3;
    const double width = (STAGES_WIDTH - (columns + 1) * STAGES_GAP) / columns;
    const double head = STAGES_HEAD + STAGES_LINE * (stages_most_lines(results, count, width) - 1);
    const double height = head + frame_view_height(model, width, STAGES_MARGIN, STAGES_MOST);
    const int rows = ((int)count + columns - 1) / columns;
    drawing_start(d, STAGES_WIDTH, 34.0 + rows * (height + STAGES_GAP), "Stages",
                  "After each stage: what stands, thick what is new; loads that the stage puts on; "
                  "posts that bear, and those that lifted.");
    for (kl_index i = 0; i < count; i++) {
        const int row = (int)i / columns;
        const int column = (int)i % columns;
        const label_box at = {STAGES_GAP + column * (width + STAGES_GAP),
                              6.0 + row * (height + STAGES_GAP), width, height};
        stages_put(d, results, i, at, head);
    }
    char note[160];
    snprintf(note, sizeof note, "%s",
             count == 0 ? "the model has no stages"
                        : "broad: new in the stage; dashed post: lifted off; arrows at the ends: "
                          "stressing");
    if (count < model->stage_count) {
        snprintf(note, sizeof note, "the last %d stages are not drawn",
                 (int)(model->stage_count - count));
    }
    drawing_text(d, "small quiet", STAGES_WIDTH - 8.0, d->height - 8.0, ANCHOR_END, note);
}
