/* html.c - see html.h.
 * SPDX-License-Identifier: MIT */
#include "html.h"

#include <math.h>
#include <stdbool.h>

#include "figure.h"

#define HTML_NONE 0xFFFDU

/* ---- characters ------------------------------------------------------------------------------------------ */

/* How many bytes follow the first of a character, and what the first contributes; -1: it begins none. */
static int html_lead(unsigned char first, uint32_t *letter)
{
    if (first < 0x80) {
        *letter = first;
        return 0;
    }
    if (first >= 0xC2 && first < 0xE0) {
        *letter = first & 0x1FU;
        return 1;
    }
    if (first >= 0xE0 && first < 0xF0) {
        *letter = first & 0x0FU;
        return 2;
    }
    *letter = first & 0x07U;
    return first >= 0xF0 && first < 0xF5 ? 3 : -1;
}

/* Overlong forms, surrogates, what is beyond Unicode. */
static bool html_is_wrong(uint32_t letter, int more)
{
    static const uint32_t least[] = {0, 0x80, 0x800, 0x10000};
    return letter < least[more] || letter > 0x10FFFFU || (letter >= 0xD800U && letter < 0xE000U);
}

uint32_t html_next(const char **text)
{
    const unsigned char *at = (const unsigned char *)*text;
    uint32_t letter;
    const int more = html_lead(*at, &letter);
    *text += *at != '\0';
    if (more < 0) {
        return HTML_NONE;
    }
    for (int i = 1; i <= more; i++) {
        if ((at[i] & 0xC0U) != 0x80U) {
            return HTML_NONE;
        }
        letter = letter << 6 | (at[i] & 0x3FU);
    }
    if (html_is_wrong(letter, more)) {
        return HTML_NONE;
    }
    *text += more;
    return letter;
}

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
    switch (letter) {
    case '<':
        fputs("&lt;", out);
        return;
    case '>':
        fputs("&gt;", out);
        return;
    case '&':
        fputs("&amp;", out);
        return;
    case '"':
        fputs("&quot;", out);
        return;
    case '\'':
        fputs("&#39;", out);
        return;
    default:
        break;
    }
    if (letter < 0x20U || letter == 0x7FU) {
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
        html_put_text(out, html_next(&text));
    }
}

void html_listing(FILE *out, const char *text)
{
    while (*text != '\0') {
        const uint32_t letter = html_next(&text);
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
        const uint32_t letter = html_next(&text);
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
        const uint32_t letter = html_next(&text);
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
        const uint32_t letter = html_next(&text);
        if (letter < 0x20U || letter == '"' || letter == '\\' || letter == '<' || letter == '&' ||
            letter == '>' || letter == 0x7FU || html_is_unseen(letter)) {
            fprintf(out, "\\%06X", (unsigned)letter);
        } else {
            html_put_letter(out, letter);
        }
    }
    fputc('"', out);
}
