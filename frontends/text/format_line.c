/* format_line.c - see format_line.h.
 * SPDX-License-Identifier: MIT */
#include "format_line.h"

#include <string.h>

#include "format.h"
#include "mem.h"
#include "source.h"

/* Each token gives one line at most, and a few blanks. */
#define FORMAT_LINES ((size_t)SOURCE_FILE_BYTES + 2)
#define FORMAT_BYTES (4 * (size_t)SOURCE_FILE_BYTES + 2)

kl_status format_begin(format_lines *lines, format_line line)
{
    KL_TRY(mem_grow(&lines->items, &lines->capacity, lines->count + 1, sizeof line, FORMAT_LINES));
    line.begin = line.end = lines->length;
    ((format_line *)lines->items)[lines->count++] = line;
    return KL_OK;
}

kl_status format_put(format_lines *lines, const char *text, size_t length)
{
    KL_TRY(mem_grow(&lines->text, &lines->text_capacity, lines->length + length, 1, FORMAT_BYTES));
    if (length > 0) {
        memcpy((char *)lines->text + lines->length, text, length);
    }
    lines->length += length;
    format_last(lines)->end = lines->length;
    return KL_OK;
}

format_line *format_last(const format_lines *lines)
{
    return (format_line *)lines->items + lines->count - 1;
}

size_t format_length(const format_lines *lines)
{
    return lines->length;
}

void format_cut(format_lines *lines, size_t length)
{
    lines->length = length;
    format_last(lines)->end = length;
}

static size_t width_of(const format_line *line)
{
    return (size_t)line->indent * FORMAT_INDENT + (line->end - line->begin);
}

size_t format_line_width(const format_lines *lines)
{
    return width_of(format_last(lines));
}

void format_free(format_lines *lines)
{
    mem_free(lines->items);
    mem_free(lines->text);
    *lines = (format_lines){0};
}

/* ---- alignment --------------------------------------------------------------------------------------- */

static const format_line *line_at(const format_lines *lines, size_t i)
{
    return (const format_line *)lines->items + i;
}

/* Does line i go on with the column of line i - 1? */
static bool joins_values(const format_lines *lines, size_t i)
{
    const format_line *line = line_at(lines, i);
    const format_line *before = line_at(lines, i - 1);
    return line->is_plain && before->is_plain && line->indent > 0 &&
           line->indent == before->indent && !line->blank_before;
}

/* Does a blank, and then a value, follow the first word? */
static bool has_value(const format_lines *lines, const format_line *line)
{
    const char *text = lines->text;
    return line->end - line->begin > line->word_length &&
           text[line->begin + line->word_length] == ' ';
}

/* Blanks added behind the first word of each line: `padding` has one entry a line. */
static void align_values(const format_lines *lines, size_t *padding)
{
    for (size_t first = 0; first < lines->count;) {
        size_t end = first + 1;
        size_t widest = line_at(lines, first)->word_length;
        while (end < lines->count && joins_values(lines, end)) {
            const size_t width = line_at(lines, end)->word_length;
            widest = width > widest ? width : widest;
            end++;
        }
        for (size_t i = first; i < end && end - first > 1 && widest <= FORMAT_ALIGN; i++) {
            const format_line *line = line_at(lines, i);
            padding[i] = has_value(lines, line) ? widest - line->word_length : 0;
        }
        first = end;
    }
}

static bool has_text(const format_line *line)
{
    return line->end > line->begin;
}

/* Do the comments of line i stand in the column of line i - 1? */
static bool joins_comments(const format_lines *lines, size_t i)
{
    const format_line *line = line_at(lines, i);
    const format_line *before = line_at(lines, i - 1);
    return has_text(line) && has_text(before) && line->indent == before->indent &&
           !line->blank_before;
}

/* Blanks before the comment of each line that has one behind text. */
static void align_comments(const format_lines *lines, const size_t *padding, size_t *gaps)
{
    for (size_t first = 0; first < lines->count;) {
        size_t end = first;
        size_t widest = 0;
        do {
            const format_line *line = line_at(lines, end);
            const size_t width = line->comment != NULL ? width_of(line) + padding[end] : 0;
            widest = width > widest && width <= FORMAT_WIDTH ? width : widest;
            end++;
        } while (end < lines->count && joins_comments(lines, end));
        for (size_t i = first; i < end; i++) {
            const format_line *line = line_at(lines, i);
            const size_t width = width_of(line) + padding[i];
            const bool has_both = line->comment != NULL && has_text(line);
            gaps[i] = !has_both ? 0 : width <= widest ? widest - width + 2 : 2;
        }
        first = end;
    }
}

/* ---- writing ----------------------------------------------------------------------------------------- */

static char *put(char *at, const char *text, size_t length)
{
    if (length > 0) {
        memcpy(at, text, length);
    }
    return at + length;
}

static char *put_blanks(char *at, size_t count)
{
    memset(at, ' ', count);
    return at + count;
}

static size_t size_of(const format_lines *lines, const size_t *padding, const size_t *gaps)
{
    size_t size = 1;
    for (size_t i = 0; i < lines->count; i++) {
        const format_line *line = line_at(lines, i);
        size += width_of(line) + padding[i] + gaps[i] + line->comment_length + 2;
    }
    return size;
}

static void
write_lines(const format_lines *lines, const size_t *padding, const size_t *gaps, char *at)
{
    const char *text = lines->text;
    for (size_t i = 0; i < lines->count; i++) {
        const format_line *line = line_at(lines, i);
        const size_t word = line->end - line->begin < line->word_length ? 0 : line->word_length;
        if (line->blank_before) {
            at = put(at, "\n", 1);
        }
        at = put_blanks(at, (size_t)line->indent * FORMAT_INDENT);
        if (line->end > line->begin) {
            at = put(at, text + line->begin, word);
            at = put_blanks(at, padding[i]);
            at = put(at, text + line->begin + word, line->end - line->begin - word);
        }
        at = put_blanks(at, gaps[i]);
        at = put(at, line->comment, line->comment_length);
        at = put(at, "\n", 1);
    }
    *at = '\0';
}

char *format_write(const format_lines *lines, arena *a)
{
    size_t *padding = mem_array(lines->count, sizeof *padding);
    size_t *gaps = mem_array(lines->count, sizeof *gaps);
    char *text = NULL;
    if (padding != NULL && gaps != NULL) {
        align_values(lines, padding);
        align_comments(lines, padding, gaps);
        text = arena_array(a, size_of(lines, padding, gaps), 1);
    }
    if (text != NULL) {
        write_lines(lines, padding, gaps, text);
    }
    mem_free(padding);
    mem_free(gaps);
    return text;
}
