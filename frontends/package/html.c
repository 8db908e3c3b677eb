/* html.c - see html.h.
 * SPDX-License-Identifier: MIT */
#include "html.h"

#include <math.h>

#include "figure.h"
#include "markup.h"
#include "utf8.h"

/* ---- characters ------------------------------------------------------------------------------------------ */

static void html_put_letter(FILE *out, uint32_t letter)
{
    char text[UTF8_ROOM];
    utf8_write(letter, text);
    fputs(text, out);
}

static void html_put_text(FILE *out, uint32_t letter)
{
    char shown[UTF8_ROOM];
    const char *name = markup_named(letter);
    utf8_show(letter, shown);
    fputs(name ? name : shown, out);
}

void html_text(FILE *out, const char *text)
{
    while (*text != '\0') {
        html_put_text(out, utf8_next(&text));
    }
}

void html_listing(FILE *out, const char *text)
{
    while (*text != '\0') {
        const uint32_t letter = utf8_next(&text);
        if (letter == '\n' || letter == '\t') {
            fputc((int)letter, out);
        } else if (letter != '\r' || *text != '\n') {
            html_put_text(out, letter);
        }
    }
}

void html_lines(FILE *out, const char *text)
{
    while (*text != '\0') {
        const uint32_t letter = utf8_next(&text);
        if (letter == '\n') {
            fputs("<br/>", out);
        } else {
            html_put_text(out, letter);
        }
    }
}

/* ---- JSON and CSS ---------------------------------------------------------------------------------------- */

void html_json_text(FILE *out, const char *text)
{
    fputc('"', out);
    while (*text != '\0') {
        const uint32_t letter = utf8_next(&text);
        if (letter == '"' || letter == '\\') {
            fprintf(out, "\\%c", (int)letter);
        } else if (letter == '<' || letter == '>' || letter == '&' ||
                   (letter < 0x10000U && utf8_is_unseen(letter))) {
            fprintf(out, "\\u%04X", (unsigned)letter);
        } else {
            html_put_letter(out, letter);
        }
    }
    fputc('"', out);
}

void html_json_number(FILE *out, double value, int digits)
{
    if (!isfinite(value)) {
        fputs("null", out);
        return;
    }
    char text[FIGURE_SIZE];
    snprintf(text, sizeof text, "%.*g", digits, value);
    fputs(text[0] == '-' && text[1] == '0' && text[2] == '\0' ? "0" : text, out);
}

void html_css_text(FILE *out, const char *text)
{
    fputc('"', out);
    while (*text != '\0') {
        const uint32_t letter = utf8_next(&text);
        if (letter == '"' || letter == '\\' || letter == '<' || letter == '&' || letter == '>' ||
            utf8_is_unseen(letter)) {
            fprintf(out, "\\%06X", (unsigned)letter);
        } else {
            html_put_letter(out, letter);
        }
    }
    fputc('"', out);
}
