/* bench_text.c - how fast a model is read: megabytes a second, phase by phase.
 * Usage: bench_text [MEGABYTES]
 *
 * Two texts as a user's program would write them: `deck`, one phrase a line, and `caps`, each with a section, a tendon, falsework,
 * loads and expectations of its own, with comments, blocks and expressions. The best of five readings counts. "lex" cuts the text
 * into tokens; "parse" makes phrases of it, lexing included; "read" makes a model of the text, parsing included.
 * SPDX-License-Identifier: MIT */
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "bind.h"
#include "lexer.h"
#include "parser.h"

enum { TURNS = 5, LINE = 512, MOST_CAPS = 9000 }; /* a model may have 10,000 falseworks */
enum { LEX, PARSE, READ, PHASES };

typedef struct writer {
    char *text;
    size_t length, room;
} writer;

__attribute__((format(printf, 2, 3))) static void add(writer *w, const char *format, ...)
{
    if (w->room - w->length < LINE) {
        w->room = w->room > 0 ? 2 * w->room : 1 << 20;
        w->text = realloc(w->text, w->room);
        if (w->text == NULL) {
            abort();
        }
    }
    va_list arguments;
    va_start(arguments, format);
    w->length += (size_t)vsnprintf(w->text + w->length, LINE, format, arguments);
    va_end(arguments);
}

/* ---- texts ----------------------------------------------------------------------------------------------- */

/* A deck of many spans, in rows of a thousand. */
static void write_deck(writer *w, size_t bytes)
{
    int spans = 0;
    add(w, "material elastic { modulus 4000 ksi }\n");
    add(w, "section deck { rectangle width 10 ft depth 2 ft }\n");
    for (; w->length < bytes * 3 / 4; spans++) {
        const int row = spans / 1000;
        add(w, "node P%d at (%d ft, %d.5 ft)\nsupport P%d %s\n", spans, 30 * (spans % 1000),
            20 * row, spans, spans % 1000 ? "roller" : "pinned");
        if (spans % 1000 > 0) {
            add(w, "member span_%d from P%d to P%d section deck of elastic\n", spans, spans - 1,
                spans);
        }
    }
    add(w, "load dead {\n");
    for (int i = 1; i < spans; i++) {
        if (i % 1000 > 0) {
            add(w, "    uniform 3.125 klf on span_%d\n", i);
        }
    }
    add(w, "}\n");
}

static void write_cap(writer *w, int i)
{
    const int x = 100 * (i / 1000);
    const int y = 30 * (i % 1000);
    add(w, "# ---- cap %d ----\nnode L%d at (%d ft, %d ft)\nnode R%d at (%d ft + L, %d ft)\n", i, i,
        x, y, i, x, y);
    add(w, "support L%d pinned\nsupport R%d roller\n", i, i);
    add(w, "section s%d { rectangle width 7 ft depth %d ft + 2 in }   # deeper at the end\n", i,
        5 + i % 3);
    add(w, "member cap%d from L%d to R%d section s%d of mix { mesh L / 20 }\n", i, i, i, i);
    add(w, "load beams%d {\n    point 1.2 * beam on cap%d from 10 ft to 50 ft every 10 ft\n", i, i);
    add(w,
        "    uniform 0.35 klf on cap%d from 0 ft to L / 2\n    moment 12.5 kip-ft on cap%d at "
        "mid\n}\n",
        i, i);
    add(w, "falsework f%d under cap%d from 6 ft to 54 ft every 6 ft {\n    posts 2\n", i, i);
    add(w, "    stiffness 400 kip/in\n    capacity 15 kip\n}\n");
    add(w,
        "expect moment on cap%d at mid under beams%d = 1234.5 kip-ft within 1 %% source \"by "
        "hand\"\n",
        i, i);
}

/* Many caps, one above the other. */
static void write_caps(writer *w, size_t bytes)
{
    add(w, "let L = 60 ft\nlet beam = 50 kip\n");
    add(w, "concrete mix { strength 5 ksi; transfer_strength 4 ksi; unit_weight 150 pcf; "
           "modulus 4000 ksi; creep none; shrinkage none }\n");
    for (int i = 0; i < MOST_CAPS && w->length < bytes; i++) {
        write_cap(w, i);
    }
}

/* ---- phases ---------------------------------------------------------------------------------------------- */

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static kl_status lex(const writer *w)
{
    kl_diags *diags = kl_diags_create();
    text_sources sources = {0};
    lexer_tokens tokens = {0};
    int32_t file = 0;
    kl_status status = source_add(&sources, "text", w->text, w->length, diags, &file);
    if (status == KL_OK) {
        status = lexer_read(&sources, file, diags, &tokens);
    }
    lexer_free(&tokens);
    source_free(&sources);
    kl_diags_destroy(diags);
    return status;
}

static kl_status parse(const writer *w, bool binds)
{
    kl_diags *diags = kl_diags_create();
    text_sources sources = {0};
    text_document document = {0};
    kl_model *model = NULL;
    arena memory = {0};
    kl_status status =
        text_parse_text(&sources, "text", w->text, w->length, &memory, diags, &document);
    if (binds) {
        status = bind_after(status, &document, diags, &model);
    }
    if (status != KL_OK && kl_diags_count(diags) > 0) {
        fprintf(stderr, "%s\n", kl_diags_get(diags, 0)->message);
    }
    kl_model_destroy(model);
    arena_free(&memory);
    source_free(&sources);
    kl_diags_destroy(diags);
    return status;
}

static void measure(const char *name, const writer *w)
{
    double best[PHASES] = {1e9, 1e9, 1e9};
    for (int turn = 0; turn < TURNS; turn++) {
        for (int phase = 0; phase < PHASES; phase++) {
            const double start = now();
            const kl_status status = phase == LEX ? lex(w) : parse(w, phase == READ);
            const double seconds = now() - start;
            if (status != KL_OK) {
                printf("%-8s cannot be read: %s\n", name, kl_status_text(status));
                return;
            }
            best[phase] = seconds < best[phase] ? seconds : best[phase];
        }
    }
    const double megabytes = (double)w->length * 1e-6;
    printf("%-8s %6.1f MB %8.0f %8.0f %8.0f MB/s\n", name, megabytes, megabytes / best[LEX],
           megabytes / best[PARSE], megabytes / best[READ]);
}

int main(int count, char **arguments)
{
    const double megabytes = count > 1 ? strtod(arguments[1], NULL) : 10.0;
    static void (*const writers[])(writer *, size_t) = {write_deck, write_caps};
    static const char *const names[] = {"deck", "caps"};
    printf("%-8s %9s %8s %8s %8s\n", "text", "size", "lex", "parse", "read");
    for (size_t i = 0; i < 2; i++) {
        writer w = {0};
        writers[i](&w, (size_t)(megabytes * 1e6));
        measure(names[i], &w);
        free(w.text);
    }
    return 0;
}
