/* source.c - reading files and checking their bytes; the line map. Rendering is in source_render.c.
 * SPDX-License-Identifier: MIT */
#include "source.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "complain.h"
#include "mem.h"
#include "utf8.h"

void source_free(text_sources *sources)
{
    arena_free(&sources->memory);
    mem_free(sources->files);
    *sources = (text_sources){0};
}

const text_source *source_at(const text_sources *sources, int32_t file)
{
    return file >= 0 && (size_t)file < sources->count ? &sources->files[file] : NULL;
}

source_place source_find(const text_source *source, int32_t byte)
{
    int32_t low = 0;
    int32_t high = source->line_count; /* the line is in low … high-1 */
    while (high - low > 1) {
        const int32_t middle = low + (high - low) / 2;
        if (source->lines[middle] <= byte) {
            low = middle;
        } else {
            high = middle;
        }
    }
    source_place place = {.line = low + 1, .column = 1};
    for (int32_t i = source->lines[low]; i < byte && i < source->length; i++) {
        const unsigned char c = (unsigned char)source->text[i];
        place.column += (c & 0xC0u) != 0x80u ? 1 : 0; /* not inside a character */
    }
    return place;
}

/* ---- bytes ------------------------------------------------------------------------------------------- */

/* Bytes of the letter at `at`, 0 when it is none. The text ends with a zero, which is none either. */
static int32_t letter_length(const char *at)
{
    const char *end = at;
    const uint32_t letter = utf8_next(&end);
    return letter == UTF8_WRONG && end - at == 1 ? 0 : (int32_t)(end - at);
}

/* Past bytes that need no look, eight at a time: letters below 0x80 that are neither zero nor a carriage return. */
static int32_t skip_plain(const unsigned char *text, int32_t at, int32_t length)
{
    const uint64_t ones = UINT64_C(0x0101010101010101);
    const uint64_t tops = UINT64_C(0x8080808080808080);
    for (; at + 8 <= length; at += 8) {
        uint64_t eight;
        memcpy(&eight, text + at, 8);
        const uint64_t returns = eight ^ (ones * '\r');
        /* a zero byte less one borrows its top bit; others above 0x80 have been seen to by the first term */
        if (((eight | (eight - ones) | (returns - ones)) & tops) != 0) {
            break;
        }
    }
    return at;
}

/* The first byte that no text has is told; the rest of such a file is not worth reading. */
static kl_status check_bytes(const text_source *source, int32_t file, kl_diags *diags)
{
    const unsigned char *text = (const unsigned char *)source->text;
    for (int32_t i = 0; i < source->length;) {
        i = skip_plain(text, i, source->length);
        if (i == source->length) {
            break;
        }
        const kl_origin here = {file, i, i + 1};
        const int32_t length = letter_length(source->text + i);
        if (text[i] == 0) {
            complain(diags, "zero-byte", here, "save the model as plain text",
                     "The file holds a zero byte: it is not a text file.");
            return KL_BAD_MODEL;
        }
        if (length == 0) {
            complain(diags, "invalid-utf8", here, "save the model as UTF-8",
                     "The byte 0x%02X does not belong to UTF-8 text.", (unsigned)text[i]);
            return KL_BAD_MODEL;
        }
        if (text[i] == '\r' && text[i + 1] != '\n') {
            complain(diags, "lone-carriage-return", here, "end lines with a newline",
                     "A carriage return stands alone, without a newline after it.");
            return KL_BAD_MODEL;
        }
        i += length;
    }
    return KL_OK;
}

static kl_status map_lines(text_sources *sources, text_source *source)
{
    const char *end = source->text + source->length;
    int32_t count = 1;
    for (const char *at = source->text; (at = memchr(at, '\n', (size_t)(end - at))) != NULL; at++) {
        count++;
    }
    int32_t *lines = arena_array(&sources->memory, (size_t)count, sizeof *lines);
    if (lines == NULL) {
        return KL_NO_MEMORY;
    }
    const bool has_mark = source->length >= 3 && memcmp(source->text, "\xEF\xBB\xBF", 3) == 0;
    lines[0] = has_mark ? 3 : 0;
    int32_t line = 1;
    for (const char *at = source->text; (at = memchr(at, '\n', (size_t)(end - at))) != NULL; at++) {
        lines[line++] = (int32_t)(at - source->text) + 1;
    }
    source->lines = lines;
    source->line_count = count;
    return KL_OK;
}

/* ---- the list of files ------------------------------------------------------------------------------- */

/* Takes the text, which lives in the arena already. */
static kl_status append(text_sources *sources, text_source source, kl_diags *diags, int32_t *file)
{
    KL_TRY(map_lines(sources, &source));
    void *files = sources->files;
    const kl_status grown = mem_grow(&files, &sources->capacity, sources->count + 1,
                                     sizeof *sources->files, SOURCE_FILES);
    sources->files = files;
    KL_TRY(grown);
    *file = (int32_t)sources->count;
    sources->files[sources->count++] = source;
    sources->total_bytes += (size_t)source.length;
    return check_bytes(&source, *file, diags);
}

kl_status source_add(text_sources *sources,
                     const char *name,
                     const char *text,
                     size_t length,
                     kl_diags *diags,
                     int32_t *file)
{
    if (length > SOURCE_FILE_BYTES || sources->total_bytes + length > SOURCE_TOTAL_BYTES) {
        complain(diags, "file-too-large", KL_NOWHERE, NULL, "%s has more than %d bytes.", name,
                 SOURCE_FILE_BYTES);
        return KL_TOO_LARGE;
    }
    text_source source = {.directory = "", .included_at = KL_NOWHERE, .length = (int32_t)length};
    source.name = arena_text(&sources->memory, name, strlen(name));
    source.text = arena_text(&sources->memory, text, length);
    if (source.name == NULL || source.text == NULL) {
        return KL_NO_MEMORY;
    }
    return append(sources, source, diags, file);
}

/* ---- reading ----------------------------------------------------------------------------------------- */

/* All of a stream, at most one byte more than allowed (so that too much is seen). */
static kl_status read_stream(FILE *stream, char **text, size_t *length)
{
    size_t capacity = 0;
    void *buffer = NULL;
    *length = 0;
    for (;;) {
        const kl_status status =
            mem_grow(&buffer, &capacity, *length + 4096, 1, 2 * (size_t)SOURCE_FILE_BYTES);
        if (status != KL_OK) {
            mem_free(buffer);
            return status;
        }
        const size_t got = fread((char *)buffer + *length, 1, 4096, stream);
        *length += got;
        if (got == 0 || *length > SOURCE_FILE_BYTES) {
            break;
        }
    }
    if (ferror(stream)) {
        mem_free(buffer);
        return KL_FILE_TROUBLE;
    }
    *text = buffer;
    return KL_OK;
}

/* The path from where the program stands: relative to the including file, unless absolute. */
static const char *resolve(text_sources *sources, const char *path, kl_origin from)
{
    const text_source *by = source_at(sources, from.file);
    const char *directory = by != NULL && path[0] != '/' ? by->directory : "";
    return arena_print(&sources->memory, "%s%s", directory, path);
}

static bool includes_itself(const text_sources *sources, const text_source *source)
{
    if (source->device == 0 && source->inode == 0) {
        return false;
    }
    const text_source *by = source_at(sources, source->included_at.file);
    while (by != NULL) {
        if (by->device == source->device && by->inode == source->inode) {
            return true;
        }
        by = source_at(sources, by->included_at.file);
    }
    return false;
}

static kl_status
check_include(const text_sources *sources, const text_source *source, kl_diags *diags)
{
    if (includes_itself(sources, source)) {
        complain(diags, "include-circle", source->included_at, NULL,
                 "%s includes itself, directly or through another file.", source->name);
        return KL_BAD_MODEL;
    }
    if (source->depth > SOURCE_INCLUDE_DEPTH) {
        complain(diags, "include-too-deep", source->included_at, NULL,
                 "Files are included more than %d deep.", SOURCE_INCLUDE_DEPTH);
        return KL_TOO_LARGE;
    }
    if (sources->count >= SOURCE_FILES) {
        complain(diags, "too-many-files", source->included_at, NULL,
                 "The model has more than %d files.", SOURCE_FILES);
        return KL_TOO_LARGE;
    }
    return KL_OK;
}

static kl_status trouble(const text_source *source, const char *reason, kl_diags *diags)
{
    complain(diags, "file-trouble", source->included_at, NULL, "%s cannot be read: %s.",
             source->name, reason);
    return KL_FILE_TROUBLE;
}

static kl_status
take_stream(text_sources *sources, text_source *source, FILE *stream, kl_diags *diags)
{
    struct stat about;
    if (stream != stdin && fstat(fileno(stream), &about) == 0) {
        source->device = (uint64_t)about.st_dev;
        source->inode = (uint64_t)about.st_ino;
    }
    KL_TRY(check_include(sources, source, diags));
    char *text = NULL;
    size_t length = 0;
    const kl_status status = read_stream(stream, &text, &length);
    if (status == KL_FILE_TROUBLE) {
        return trouble(source, strerror(errno), diags);
    }
    KL_TRY(status);
    if (length > SOURCE_FILE_BYTES || sources->total_bytes + length > SOURCE_TOTAL_BYTES) {
        mem_free(text);
        complain(diags, "file-too-large", source->included_at, NULL,
                 "%s is too large: a file may have %d bytes, a model %d.", source->name,
                 SOURCE_FILE_BYTES, SOURCE_TOTAL_BYTES);
        return KL_TOO_LARGE;
    }
    source->text = arena_text(&sources->memory, text, length);
    source->length = (int32_t)length;
    mem_free(text);
    return source->text == NULL ? KL_NO_MEMORY : KL_OK;
}

/* A pipe or a terminal may never answer; only the engineer's own command line may name one. */
static bool may_never_answer(const char *path)
{
    struct stat about;
    return stat(path, &about) == 0 && !S_ISREG(about.st_mode) && !S_ISDIR(about.st_mode);
}

kl_status
source_open(text_sources *sources, const char *path, kl_origin from, kl_diags *diags, int32_t *file)
{
    const bool is_stdin = from.file < 0 && strcmp(path, "-") == 0;
    const text_source *by = source_at(sources, from.file);
    text_source source = {
        .included_at = from, .depth = by != NULL ? by->depth + 1 : 0, .directory = ""};
    source.name = is_stdin ? "standard input" : resolve(sources, path, from);
    if (source.name == NULL) {
        return KL_NO_MEMORY;
    }
    const char *slash = is_stdin ? NULL : strrchr(source.name, '/');
    if (slash != NULL) {
        source.directory =
            arena_text(&sources->memory, source.name, (size_t)(slash - source.name) + 1);
    }
    if (source.directory == NULL) {
        return KL_NO_MEMORY;
    }
    if (from.file >= 0 && may_never_answer(source.name)) {
        return trouble(&source, "only plain files can be included", diags);
    }
    FILE *stream = is_stdin ? stdin : fopen(source.name, "rb");
    if (stream == NULL) {
        return errno == ENOMEM ? KL_NO_MEMORY : trouble(&source, strerror(errno), diags);
    }
    const kl_status status = take_stream(sources, &source, stream, diags);
    if (!is_stdin) {
        fclose(stream);
    }
    KL_TRY(status);
    return append(sources, source, diags, file);
}

int32_t source_control(const char *text)
{
    const unsigned char first = (unsigned char)text[0];
    const unsigned char next = first == 0xC2 ? (unsigned char)text[1] : 0;
    if (next >= 0x80 && next < 0xA0) {
        return 2;
    }
    return first == 0x7F || (first > 0 && first < 0x20 && first != '\t') ? 1 : 0;
}
