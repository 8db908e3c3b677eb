/* html.c - see html.h.
 * SPDX-License-Identifier: MIT */
#include "html.h"

#include <math.h>
#include <stdbool.h>

#include "figure.h"
#include "markup.h"

/* ---- characters ------------------------------------------------------------------------------------------ */

static void html_put_letter(FILE *out, uint32_t letter)
{
    if (letter < 0x80U) {
        fputc((int)letter, out);
    } else if (letter < 0x800U) {
        fputc((int)(0xC0U | letter >> 6), out);
        fputc((int)(0x80U | (letter & 0x3FU)), out);
    } else if (letter < 0x10000U) {
        fputc((int)(0xE0U | letter >> 12), out);
        fputc((int)(0x80U | (letter >> 6 & 0x3FU)), out);
        fputc((int)(0x80U | (letter & 0x3FU)), out);
    } else {
        fputc((int)(0xF0U | letter >> 18), out);
        fputc((int)(0x80U | (letter >> 12 & 0x3FU)), out);
        fputc((int)(0x80U | (letter >> 6 & 0x3FU)), out);
        fputc((int)(0x80U | (letter & 0x3FU)), out);
    }
}

/* Marks of direction and other formats that are not seen, further line ends, what XML cannot hold. */
static bool html_is_unseen(uint32_t letter)
{
    return (letter >= 0x80U && letter < 0xA0U) || letter == 0xADU || letter == 0x61CU ||
           (letter >= 0x200BU && letter <= 0x200FU) || (letter >= 0x2028U && letter <= 0x202EU) ||
           (letter >= 0x2060U && letter <= 0x206FU) || letter == 0xFEFFU || letter == 0xFFFEU ||
           letter == 0xFFFFU;
}

static void html_put_text(FILE *out, uint32_t letter)
{
    const char *name = markup_named(letter);
    if (name) {
        fputs(name, out);
    } else if (letter < 0x20U || letter == 0x7FU) {
        html_put_letter(out, letter == 0x7FU ? 0x2421U : 0x2400U + letter);
    } else if (html_is_unseen(letter)) {
        fprintf(out, "\xE2\x9F\xA8U+%04X\xE2\x9F\xA9",
                (unsigned)letter); /* between angle brackets */
    } else {
        html_put_letter(out, letter);
    }
}

void html_text(FILE *out, const char *text)
{
    while (*text != '\0') {
        html_put_text(out, markup_next(&text));
    }
}

void html_listing(FILE *out, const char *text)
{
    while (*text != '\0') {
        const uint32_t letter = markup_next(&text);
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
        const uint32_t letter = markup_next(&text);
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
        const uint32_t letter = markup_next(&text);
        if (letter == '"' || letter == '\\') {
            fprintf(out, "\\%c", (int)letter);
        } else if (letter < 0x20U || letter == '<' || letter == '>' || letter == '&' ||
                   letter == 0x7FU || (letter < 0x10000U && html_is_unseen(letter))) {
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
        const uint32_t letter = markup_next(&text);
        if (letter < 0x20U || letter == '"' || letter == '\\' || letter == '<' || letter == '&' ||
            letter == '>' || letter == 0x7FU || html_is_unseen(letter)) {
            fprintf(out, "\\%06X", (unsigned)letter);
        } else {
            html_put_letter(out, letter);
        }
    }
    fputc('"', out);
}
