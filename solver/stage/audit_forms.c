/* audit_forms.c - forms that still press, and rows of posts.
 *
 * The spans of one line of members follow each other in the record; its members are sorted by x once, so that a span
 * finds those it touches without a look at all others.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdlib.h>

#include "audit_parts.h"
#include "mem.h"
#include "near.h"

/* ---- forms ----------------------------------------------------------------------------------------------- */

/* A member of a line by its range of x; `reach` is the farthest x of it and all before. */
typedef struct line_member {
    kl_index member;
    double from, to, reach;
} line_member;

static int compare_members(const void *a, const void *b)
{
    const line_member *p = a;
    const line_member *q = b;
    return (p->from > q->from) - (p->from < q->from);
}

static kl_status sort_line(const audit_work *w, const form_span *span, line_member **out)
{
    line_member *line = mem_array((size_t)span->member_count, sizeof(line_member));
    if (!line) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < span->member_count; i++) {
        const kl_member *member = &w->model->members[span->members[i]];
        const double a = w->model->nodes[member->from].x;
        const double b = w->model->nodes[member->to].x;
        line[i] = (line_member){span->members[i], fmin(a, b), fmax(a, b), 0.0};
    }
    qsort(line, (size_t)span->member_count, sizeof(line_member), compare_members);
    for (kl_index i = 0; i < span->member_count; i++) {
        line[i].reach = i > 0 ? fmax(line[i].to, line[i - 1].reach) : line[i].to;
    }
    *out = line;
    return KL_OK;
}

/* A form presses up with the weight that a member has over it. */
static void press_member(audit_work *w, kl_index member, const form_span *span)
{
    const mesh_member *of = &w->mesh->members[member];
    const double x0 = w->model->nodes[w->model->members[member].from].x;
    const double a = (span->from - x0) / of->cosine;
    const double b = (span->to - x0) / of->cosine;
    const double from = audit_snap(w, member, fmax(fmin(a, b), 0.0));
    const double to = audit_snap(w, member, fmin(fmax(a, b), of->length));
    if (to - from > NEAR_STATION * of->length) {
        audit_weigh(w, member, from, to, -w->weight_on, &w->form);
    }
}

static void press_line(audit_work *w, const line_member *line, const form_span *span)
{
    kl_index low = 0;
    kl_index high = span->member_count;
    while (low < high) { /* the first member that reaches beyond the span's start */
        const kl_index middle = low + (high - low) / 2;
        if (line[middle].reach > span->from) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    for (; low < span->member_count && line[low].from < span->to; low++) {
        if (line[low].to > span->from) {
            press_member(w, line[low].member, span);
        }
    }
}

/* What the span puts on its carriers. */
static void put_shares(audit_work *w, const form_span *span)
{
    for (int end = 0; end < 2; end++) {
        const double f[3] = {0.0, -w->weight_on * span->share[end], 0.0};
        if (span->row[end] == KL_NONE) {
            audit_at_node(w, span->node[end], f, &w->form);
            continue;
        }
        const mesh_row *row = &w->mesh->rows[span->row[end]];
        w->wet[span->row[end]] -= f[1];
        audit_total(w, w->mesh->nodes[row->top], f, &w->form);
    }
}

kl_status audit_press_forms(audit_work *w)
{
    const kl_index *members = NULL;
    line_member *line = NULL;
    kl_status status = KL_OK;
    for (size_t i = 0; i < w->record->span_count && !is_exact_zero(w->weight_on); i++) {
        const form_span *span = &w->record->spans[i];
        if (span->struck) {
            continue;
        }
        if (!line || span->members != members) {
            mem_free(line);
            line = NULL;
            members = span->members;
            status = sort_line(w, span, &line);
        }
        if (status != KL_OK) {
            break;
        }
        press_line(w, line, span);
        put_shares(w, span);
    }
    mem_free(line);
    return status;
}

/* ---- rows ------------------------------------------------------------------------------------------------ */

void audit_push_rows(audit_work *w)
{
    for (kl_index r = 0; r < w->mesh->row_count; r++) {
        const mesh_row *row = &w->mesh->rows[r];
        const kl_falsework *item = &w->model->falsework[row->falsework];
        double force;
        audit_printed(w, w->results->run.layout.row + (size_t)r, 1, 1, &force);
        const double up[3] = {0.0, force - w->wet[r], 0.0};
        const double down[3] = {0.0, -force, 0.0};
        const double ground[3] = {0.0, force, 0.0};
        const bool idle = is_exact_zero(force) && is_exact_zero(w->wet[r]);
        if (idle || !w->record->members[item->member].stands) {
            continue;
        }
        audit_force(w, item->member, item->stations[row->row], up, NULL);
        if (item->carrier == KL_NONE) {
            audit_total(w, w->mesh->nodes[row->top], ground, &w->reaction);
        } else {
            const double x0 = w->model->nodes[w->model->members[item->carrier].from].x;
            const double station = (row->x - x0) / w->mesh->members[item->carrier].cosine;
            audit_force(w, item->carrier, station, down, NULL);
        }
    }
}
