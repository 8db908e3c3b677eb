/* format_line.h - lines of laid-out text: collected, aligned with their neighbours, written.
 * Private to format.c and format_line.c.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_FORMAT_LINE_H
#define KERNLINE_FORMAT_LINE_H

#include "arena.h"
#include "kernline/status.h"

typedef struct format_line {
    size_t begin, end;   /* bytes of the buffer */
    size_t word_length;  /* of the first word */
    const char *comment; /* NULL: none */
    size_t comment_length;
    int indent;        /* levels */
    bool blank_before; /* an empty line stands before it */
    bool is_plain;     /* a phrase on one line: its value may be aligned */
} format_line;

/* Start with {0}. */
typedef struct format_lines {
    void *items; /* format_line */
    size_t count, capacity;
    void *text; /* char */
    size_t length, text_capacity;
} format_lines;

kl_status format_begin(format_lines *lines, format_line line);
/* Append to the last line. */
kl_status format_put(format_lines *lines, const char *text, size_t length);
format_line *format_last(const format_lines *lines);
size_t format_length(const format_lines *lines); /* of all text so far */
void format_cut(format_lines *lines, size_t length);
size_t format_line_width(const format_lines *lines); /* of the last line, with its indent */
/* The text with all lines aligned; NULL when out of memory. */
char *format_write(const format_lines *lines, arena *a);
void format_free(format_lines *lines);

#endif
