/* sheet.c - see sheet.h.
 * SPDX-License-Identifier: MIT */
#include "sheet.h"

#include <string.h>

#define SHEET_FIRST_FACTS 8

void package_start(package *p, const char *title, const char *caution)
{
    *p = (package){.caution = caution};
    p->title = arena_text(&p->memory, title, strlen(title));
    p->status = p->title ? KL_OK : KL_NO_MEMORY;
}

static void block_free(block *b)
{
    if (b->table) {
        table_free(b->table);
    }
    if (b->drawing) {
        drawing_free(b->drawing);
    }
}

void package_free(package *p)
{
    for (kl_index i = 0; i < p->sheet_count; i++) {
        for (block *b = p->sheets[i].first; b; b = b->next) {
            block_free(b);
        }
    }
    arena_free(&p->memory);
    *p = (package){0};
}

void package_sheet(package *p, int number, const char *id, const char *title)
{
    if (p->status != KL_OK) {
        return;
    }
    if (p->sheet_count == PACKAGE_SHEET_LIMIT) {
        p->status = KL_TOO_LARGE;
        return;
    }
    p->sheets[p->sheet_count++] = (sheet){.number = number, .id = id, .title = title};
}

void package_drop_empty(package *p)
{
    if (p->status == KL_OK && p->sheet_count > 0 && !p->sheets[p->sheet_count - 1].first) {
        p->sheet_count--;
    }
}

static sheet *package_last(package *p)
{
    return p->status == KL_OK && p->sheet_count > 0 ? &p->sheets[p->sheet_count - 1] : NULL;
}

/* A block more on the last sheet; NULL after a failure. */
static block *package_block(package *p, block_kind kind)
{
    sheet *s = package_last(p);
    block *b = s ? arena_array(&p->memory, 1, sizeof *b) : NULL;
    if (!b) {
        p->status = s ? KL_NO_MEMORY : p->status;
        return NULL;
    }
    b->kind = kind;
    b->text = "";
    if (s->last) {
        s->last->next = b;
    } else {
        s->first = b;
    }
    s->last = b;
    return b;
}

void package_drop_block(package *p)
{
    sheet *s = package_last(p);
    if (!s || !s->last) {
        return;
    }
    block_free(s->last);
    block *before = s->first == s->last ? NULL : s->first;
    while (before && before->next != s->last) {
        before = before->next;
    }
    s->last = before;
    if (before) {
        before->next = NULL;
    } else {
        s->first = NULL;
    }
}

static const char *package_say(package *p, const char *format, va_list arguments)
{
    const char *text = arena_vprint(&p->memory, format, arguments);
    if (!text) {
        p->status = KL_NO_MEMORY;
        return "";
    }
    return text;
}

void package_text(package *p, block_kind kind, const char *format, ...)
{
    block *b = package_block(p, kind);
    if (b) {
        va_list arguments;
        va_start(arguments, format);
        b->text = package_say(p, format, arguments);
        va_end(arguments);
    }
}

/* Room for a fact more. @return false: no memory */
static bool block_grow(package *p, block *b)
{
    if (b->fact_count < b->fact_room) {
        return true;
    }
    const kl_index room = b->fact_room ? 2 * b->fact_room : SHEET_FIRST_FACTS;
    block_fact *facts = arena_array(&p->memory, (size_t)room, sizeof *facts);
    if (!facts) {
        p->status = KL_NO_MEMORY;
        return false;
    }
    for (kl_index i = 0; i < b->fact_count; i++) {
        facts[i] = b->facts[i];
    }
    b->facts = facts;
    b->fact_room = room;
    return true;
}

void package_fact(package *p, block_kind kind, const char *name, const char *format, ...)
{
    const sheet *s = package_last(p);
    block *b = s && s->last && s->last->kind == kind ? s->last : package_block(p, kind);
    if (!b || !block_grow(p, b)) {
        return;
    }
    va_list arguments;
    va_start(arguments, format);
    const char *value = package_say(p, format, arguments);
    va_end(arguments);
    name = arena_text(&p->memory, name, strlen(name));
    if (!name) {
        p->status = KL_NO_MEMORY;
        return;
    }
    b->facts[b->fact_count++] = (block_fact){name, value};
}

table *package_table(package *p)
{
    block *b = package_block(p, BLOCK_TABLE);
    table *t = b ? arena_array(&p->memory, 1, sizeof *t) : NULL;
    if (!t) {
        p->status = b ? KL_NO_MEMORY : p->status;
        return NULL;
    }
    b->table = t;
    return t;
}

drawing *package_picture(package *p, const char *name, const char *subject)
{
    block *b = package_block(p, BLOCK_PICTURE);
    drawing *d = b ? arena_array(&p->memory, 1, sizeof *d) : NULL;
    if (!d) {
        p->status = b ? KL_NO_MEMORY : p->status;
        return NULL;
    }
    b->drawing = d;
    b->name = name;
    b->subject = subject;
    return d;
}
