/* source_render.c - a diagnostic as text: place, message, the source line with carets, the hint.
 * SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "mem.h"
#include "source.h"
#include "utf8.h"

enum {
    RENDER_WIDTH = 96, /* characters of a source line that are shown */
    RENDER_TAB = 4,
    RENDER_BEFORE = 40, /* of a cut line: characters shown before the span */
    RENDER_INDENT = 4
};

/* The line as it is shown: tabs as blanks, and where the span falls. Positions count characters. */
typedef struct shown_line {
    char *bytes;     /* one character after the other */
    int32_t *starts; /* byte of each character, and the end */
    int32_t count;
    int32_t from, to; /* characters of the span */
} shown_line;

static int32_t line_end(const text_source *source, int32_t begin)
{
    int32_t end = begin;
    while (end < source->length && source->text[end] != '\n' && source->text[end] != '\r') {
        end++;
    }
    return end;
}

static void put_character(shown_line *line, int32_t *used, const char *text, int32_t length)
{
    line->starts[line->count++] = *used;
    memcpy(line->bytes + *used, text, (size_t)length);
    *used += length;
}

/* The letter as it is shown, which may take several. */
static void put_letter(shown_line *line, int32_t *used, const char *text)
{
    char shown[UTF8_ROOM];
    utf8_show(utf8_next(&text), shown);
    for (const char *at = shown; *at != '\0';) {
        const char *begin = at;
        utf8_next(&at);
        put_character(line, used, begin, (int32_t)(at - begin));
    }
}

/* Fill `line` from bytes begin … end-1 of the source. */
static void
lay_out(shown_line *line, const text_source *source, int32_t begin, int32_t end, kl_origin span)
{
    int32_t used = 0;
    line->from = line->to = -1;
    for (int32_t i = begin; i < end;) {
        int32_t length = 1;
        while (i + length < end && ((unsigned char)source->text[i + length] & 0xC0u) == 0x80u) {
            length++;
        }
        if (line->from < 0 && i + length > span.begin) {
            line->from = line->count;
        }
        if (source->text[i] == '\t') {
            do {
                put_character(line, &used, " ", 1);
            } while (line->count % RENDER_TAB != 0);
        } else {
            put_letter(line, &used, source->text + i);
        }
        if (i < span.end) {
            line->to = line->count;
        }
        i += length;
    }
    line->starts[line->count] = used;
    line->from = line->from < 0 ? line->count : line->from;
    line->to = line->to <= line->from ? line->from + 1 : line->to;
}

/* Both lines, the text and the carets, cut to a window around the span. */
static char *draw(const shown_line *line, arena *a)
{
    int32_t first = 0;
    if (line->count > RENDER_WIDTH && line->from > RENDER_BEFORE) {
        first = line->from - RENDER_BEFORE;
    }
    const int32_t last = line->count - first > RENDER_WIDTH ? first + RENDER_WIDTH : line->count;
    const int32_t carets_end = line->to > last + 1 ? last : line->to;
    const int32_t before = line->from - first + (first > 0 ? 3 : 0);
    char carets[RENDER_WIDTH + 8];
    int32_t count = 0;
    for (int32_t i = line->from; i < carets_end && count < RENDER_WIDTH; i++) {
        carets[count++] = '^';
    }
    carets[count] = '\0';
    return arena_print(a, "%*s%s%.*s%s\n%*s%s\n", RENDER_INDENT, "", first > 0 ? "..." : "",
                       (int)(line->starts[last] - line->starts[first]),
                       line->bytes + line->starts[first], last < line->count ? "..." : "",
                       RENDER_INDENT + (int)before, "", carets);
}

static char *render_line(const text_source *source, kl_origin span, int32_t line_number, arena *a)
{
    const int32_t begin = source->lines[line_number - 1];
    const int32_t end = line_end(source, begin);
    const size_t room = (size_t)(end - begin) * UTF8_ROOM + 1;
    shown_line line = {.bytes = mem_array(room, 1),
                       .starts = mem_array(room + 1, sizeof *line.starts)};
    char *text = NULL;
    if (line.bytes != NULL && line.starts != NULL) {
        lay_out(&line, source, begin, end, span);
        text = draw(&line, a);
    }
    mem_free(line.bytes);
    mem_free(line.starts);
    return text;
}

static const char *severity_word(kl_severity severity)
{
    switch (severity) {
    case KL_NOTE:
        return "note";
    case KL_WARNING:
        return "warning";
    case KL_ERROR:
        break;
    }
    return "error";
}

/* Where the files that lead here were included, outermost last. */
static char *render_includes(const text_sources *sources, const text_source *source, arena *a)
{
    char *text = arena_text(a, "", 0);
    const text_source *by = source_at(sources, source->included_at.file);
    kl_origin at = source->included_at;
    while (by != NULL && text != NULL) {
        text = arena_print(a, "%s    included at %s:%d\n", text, by->name,
                           (int)source_find(by, at.begin).line);
        at = by->included_at;
        by = source_at(sources, at.file);
    }
    return text;
}

char *source_render(const text_sources *sources, const kl_diag *diag, arena *a)
{
    const char *severity = severity_word(diag->severity);
    char *hint =
        diag->hint != NULL ? arena_print(a, "    hint: %s\n", diag->hint) : arena_text(a, "", 0);
    const text_source *source = source_at(sources, diag->origin.file);
    if (hint == NULL) {
        return NULL;
    }
    if (source == NULL) {
        /* About the model as a whole: its file is all there is to say. */
        const text_source *whole = source_at(sources, 0);
        return arena_print(a, "%s%s%s: %s\n%s", whole != NULL ? whole->name : "",
                           whole != NULL ? ": " : "", severity, diag->message, hint);
    }
    const source_place place = source_find(source, diag->origin.begin);
    const char *line = render_line(source, diag->origin, place.line, a);
    const char *includes = render_includes(sources, source, a);
    if (line == NULL || includes == NULL) {
        return NULL;
    }
    return arena_print(a, "%s:%d:%d: %s: %s\n%s%s%s", source->name, (int)place.line,
                       (int)place.column, severity, diag->message, line, hint, includes);
}
