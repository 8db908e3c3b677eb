/* paper_text.c - see paper_text.h.
 * SPDX-License-Identifier: MIT */
#include "paper_text.h"

#include <string.h>

#include "letter_width.h"
#include "markup.h"

#define PAPER_STRONG 1.12 /* bold letters are so much wider */
#define PAPER_MONO   0.6  /* width of every letter */

/* Width of the character at `at`, as it will be shown; *bytes that it takes. */
static double paper_letter(const paper_letters *letters, const char *at, size_t *bytes)
{
    const char *entity = markup_entity(at, bytes);
    const bool named = entity != NULL && entity[0] == '&';
    const char *shown = entity != NULL && !named ? entity : at;
    const size_t length = shown == at ? *bytes : strlen(entity);
    char letter[5];
    memcpy(letter, shown, length);
    letter[length] = '\0';
    if (letters->mono) { /* letters from other faces than the even one may be twice as wide */
        return letters->size * PAPER_MONO * ((unsigned char)letter[0] < 0xE1 ? 1.0 : 2.2);
    }
    const double width = letter_width(letter, letters->size);
    return strstr(letters->class, "strong") != NULL ? PAPER_STRONG * width : width;
}

double paper_width(const paper_letters *letters, const char *text)
{
    double width = 0.0;
    for (size_t bytes; *text != '\0'; text += bytes) {
        width += paper_letter(letters, text, &bytes);
    }
    return width;
}

const char *paper_break(const paper_letters *letters,
                        const char *text,
                        double width,
                        char line[PAPER_LINE_SIZE])
{
    const char *at = text;
    const char *space = NULL; /* the last one passed, after a word */
    double taken = 0.0;
    for (size_t bytes; *at != '\0' && *at != '\n'; at += bytes) {
        taken += paper_letter(letters, at, &bytes);
        if (*at == ' ' && !letters->mono) {
            space = at > text && at[-1] != ' ' ? at : space;
            continue; /* spaces may stand beyond the edge */
        }
        const bool full = (size_t)(at - text) + bytes >= PAPER_LINE_SIZE;
        if ((taken > width && at > text) || full) {
            break;
        }
    }
    const bool whole = *at == '\0' || *at == '\n';
    const char *end = whole || space == NULL ? at : space;
    const size_t bytes = (size_t)(end - text);
    const size_t length = bytes < PAPER_LINE_SIZE ? bytes : PAPER_LINE_SIZE - 1; /* spaces */
    memcpy(line, text, length);
    line[length] = '\0';
    while (*end == ' ' && !letters->mono) {
        end++;
    }
    end += *end == '\n';
    return *end == '\0' ? NULL : end;
}

int paper_line_count(const paper_letters *letters, const char *text, double width)
{
    char line[PAPER_LINE_SIZE];
    int count = 0;
    do {
        text = paper_break(letters, text, width, line);
        count++;
    } while (text != NULL);
    return count;
}

void paper_write(drawing *d,
                 const paper_letters *letters,
                 double x,
                 double y,
                 text_anchor anchor,
                 const char *line)
{
    static const char *const anchors[] = {"", " text-anchor=\"middle\"", " text-anchor=\"end\""};
    static const char mono[] =
        " font-family=\"'Liberation Mono','Courier New',monospace\" xml:space=\"preserve\"";
    if (line[0] == '\0') {
        return;
    }
    drawing_put(d, "<text class=\"%s\" font-size=\"%.2f\" x=\"%.2f\" y=\"%.2f\"%s%s>",
                letters->class, letters->size, x, y, anchors[anchor], letters->mono ? mono : "");
    drawing_put_escaped(d, line);
    drawing_put(d, "</text>\n");
}
