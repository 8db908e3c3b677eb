/* source.h - the files of a model: their text, who included them, where a byte stands, and how a message shows it.
 *
 * Files are numbered from 0 as they are read; kl_origin.file is that number. All text lives until
 * source_free, so origins and names may point into it.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SOURCE_H
#define KERNLINE_SOURCE_H

#include <stdint.h>

#include "arena.h"
#include "kernline/diag.h"

#define SOURCE_FILE_BYTES    67108864  /* one file; what reads it takes some ten times its size */
#define SOURCE_TOTAL_BYTES   134217728 /* all files of a model */
#define SOURCE_FILES         256
#define SOURCE_INCLUDE_DEPTH 16

typedef struct text_source {
    const char *name;      /* as messages show it */
    const char *directory; /* of the file, for the files it includes: "" or ends in '/' */
    const char *text;      /* length bytes and a zero */
    int32_t length;
    const int32_t *lines; /* where each line begins */
    int32_t line_count;
    kl_origin included_at;  /* file -1: not included */
    int32_t depth;          /* how many files lead here */
    uint64_t device, inode; /* which file it is, 0 0 for text from memory or standard input */
} text_source;

/* Start with {0}. */
typedef struct text_sources {
    arena memory;
    text_source *files;
    size_t count, capacity;
    size_t total_bytes;
} text_sources;

typedef struct source_place {
    int32_t line, column; /* from 1; the column counts characters, a tab is one */
} source_place;

/* Read a file ("-": standard input), check its bytes (UTF-8, no zero byte, no lone carriage return) and give its
 * number. A path that does not begin with '/' is relative to the file that `from` lies in; `from` is the place of
 * the `include`, or KL_NOWHERE. @return KL_FILE_TROUBLE (cannot be read), KL_TOO_LARGE, KL_BAD_MODEL (bad bytes, or a
 * file that includes itself), KL_NO_MEMORY; all but the last are in diags too. */
kl_status source_open(
    text_sources *sources, const char *path, kl_origin from, kl_diags *diags, int32_t *file);

/* The same for text that is at hand; it is copied. */
kl_status source_add(text_sources *sources,
                     const char *name,
                     const char *text,
                     size_t length,
                     kl_diags *diags,
                     int32_t *file);

void source_free(text_sources *sources);

/* The file of an origin, or NULL. */
const text_source *source_at(const text_sources *sources, int32_t file);
source_place source_find(const text_source *source, int32_t byte);

/* `file:line:column: error: message`, the line, carets under the span, the hint; each ends in a newline. Tabs are
 * shown as blanks, a long line is cut around the span. NULL when out of memory. */
char *source_render(const text_sources *sources, const kl_diag *diag, arena *a);

/* How many bytes the control character has that a text ended by a zero byte begins with: those of ASCII but the tab, and
 * U+0080 to U+009F; 0 when it is none. */
int32_t source_control(const char *text);

#endif
