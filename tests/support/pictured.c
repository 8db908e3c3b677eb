/* pictured.c - see pictured.h.
 * SPDX-License-Identifier: MIT */
#include "pictured.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "letter_width.h"

/* ---- drawing one -------------------------------------------------------------------------------------------- */

const char *picture(drawing *d, const solved *s, const char *name, const selection_wish *wish)
{
    const diagram_recipe *recipe = diagram_recipe_find(name);
    assert_non_null(recipe);
    selection chosen;
    *d = (drawing){0};
    if (selection_make(s->results, wish, recipe->span, &chosen) != KL_OK) {
        d->status = KL_NO_MEMORY;
        return NULL;
    }
    const char *svg = diagram_build(d, recipe, s->results, &chosen);
    selection_free(&chosen);
    return svg;
}

void assert_says(const solved *s, const char *name, const selection_wish *wish, const char *text)
{
    drawing d;
    const char *svg = picture(&d, s, name, wish);
    assert_non_null(svg);
    if (strstr(svg, text) == NULL) {
        fail_msg("%s does not say %s", name, text);
    }
    drawing_free(&d);
}

/* ---- what all have in common -------------------------------------------------------------------------------- */

static bool style_knows(const char *word, size_t length)
{
    char rule[64];
    static const char *const groups[] = {"drawing", "axes", "step", "loads",
                                         "held",    "head", "field"};
    for (size_t i = 0; i < sizeof groups / sizeof groups[0]; i++) {
        if (strlen(groups[i]) == length && memcmp(groups[i], word, length) == 0) {
            return true;
        }
    }
    snprintf(rule, sizeof rule, ".%.*s", (int)length, word);
    for (const char *at = DRAWING_STYLE; (at = strstr(at, rule)) != NULL; at++) {
        const char after = at[strlen(rule)];
        if (after == '{' || after == '.' || after == ' ' || after == ',') {
            return true;
        }
    }
    return false;
}

static void assert_classes_have_styles(const char *name, const char *svg)
{
    for (const char *at = svg; (at = strstr(at, " class=\"")) != NULL;) {
        at += strlen(" class=\"");
        while (*at != '"') {
            const size_t length = strcspn(at, " \"");
            if (!style_knows(at, length)) {
                fail_msg("%s: no style for %.*s", name, (int)length, at);
            }
            at += length;
            at += *at == ' ' ? 1 : 0;
        }
    }
}

typedef struct text_box {
    double x, y, width, height;
} text_box;

static double attribute(const char *tag, const char *name)
{
    const char *at = strstr(tag, name);
    assert_non_null(at);
    return strtod(at + strlen(name), NULL);
}

/* The box of a text whose tag ends at `end`; in a tag `rotate` it stands upright. */
static text_box text_box_of(const char *tag, const char *words)
{
    const double size = strstr(tag, "small") ? 10.5 : 12.0;
    const double width = letter_width(words, size);
    const double anchor = strstr(tag, "middle") ? 0.5 : strstr(tag, "\"end\"") ? 1.0 : 0.0;
    const double x = attribute(tag, " x=\"");
    const double y = attribute(tag, " y=\"");
    return strstr(tag, "rotate")
               ? (text_box){x - 0.8 * size, y - (1.0 - anchor) * width, size, width}
               : (text_box){x - anchor * width, y - 0.8 * size, width, size};
}

/* Where a group that is folded away ends, for an element at `at` within it; else `at`. Nothing is nested in such a group. */
static const char *behind_folded(const char *svg, const char *at)
{
    const char *group = NULL;
    for (const char *g = svg; (g = strstr(g, "step folded")) != NULL && g < at; g++) {
        group = g;
    }
    const char *end = group ? strstr(group, "</g>") : NULL;
    return end && end > at ? end : at;
}

/* Boxes of all texts that are seen. @return how many */
static int text_boxes(const char *svg, text_box *boxes, int room)
{
    int count = 0;
    for (const char *at = svg; (at = strstr(at, "<text")) != NULL; at++) {
        const char *behind = behind_folded(svg, at);
        const char *end = strchr(at, '>');
        char tag[200];
        snprintf(tag, sizeof tag, "%.*s", (int)(end - at), at);
        char words[200];
        snprintf(words, sizeof words, "%.*s", (int)strcspn(end + 1, "<"), end + 1);
        if (behind != at || words[0] == '\0') {
            at = behind;
            continue;
        }
        assert_true(count < room);
        boxes[count++] = text_box_of(tag, words);
    }
    return count;
}

/* A line that leads to a text crosses none on its way. */
static void
assert_leaders_cross_nothing(const char *name, const char *svg, const text_box *boxes, int count)
{
    for (const char *at = svg; (at = strstr(at, "<line class=\"leader\"")) != NULL; at++) {
        const double from[] = {attribute(at, " x1=\""), attribute(at, " y1=\"")};
        const double to[] = {attribute(at, " x2=\""), attribute(at, " y2=\"")};
        for (int step = 0; step <= 100; step++) {
            const double x = from[0] + 0.01 * step * (to[0] - from[0]);
            const double y = from[1] + 0.01 * step * (to[1] - from[1]);
            for (int i = 0; i < count; i++) {
                const text_box *b = &boxes[i];
                if (x > b->x + 1.0 && x < b->x + b->width - 1.0 && y > b->y + 1.0 &&
                    y < b->y + b->height - 1.0) {
                    fail_msg("%s: a line crosses a text at %g, %g", name, x, y);
                }
            }
        }
    }
}

void assert_texts_keep_apart(const char *name, const drawing *d, const char *svg)
{
    text_box boxes[600];
    const int count = text_boxes(svg, boxes, 600);
    assert_true(count > 0);
    for (int i = 0; i < count; i++) {
        const text_box *a = &boxes[i];
        if (a->x < -0.1 || a->y < -0.1 || a->x + a->width > d->width + 0.1 ||
            a->y + a->height > d->height + 3.0) {
            fail_msg("%s: a text leaves the page at %g, %g", name, a->x, a->y);
        }
        for (int k = 0; k < i; k++) {
            const text_box *b = &boxes[k];
            const double wide = fmin(a->x + a->width, b->x + b->width) - fmax(a->x, b->x);
            const double high = fmin(a->y + a->height, b->y + b->height) - fmax(a->y, b->y);
            if (wide > 0.5 && high > 0.5) {
                fail_msg("%s: texts lie on one another at %g, %g", name, a->x, a->y);
            }
        }
    }
    assert_leaders_cross_nothing(name, svg, boxes, count);
}

int assert_pictures_are_sound(const solved *s)
{
    int drawn = 0;
    const selection_wish wish = selection_wish_none();
    kl_index count;
    const diagram_recipe *recipes = diagram_recipes(&count);
    for (kl_index i = 0; i < count; i++) {
        drawing d;
        const char *svg = picture(&d, s, recipes[i].name, &wish);
        if (!svg && d.status == KL_NOT_THERE) {
            assert_non_null(d.absent);
            drawing_free(&d);
            continue;
        }
        assert_non_null(svg);
        assert_null(strstr(svg, "nan"));
        assert_null(strstr(svg, "inf "));
        assert_classes_have_styles(recipes[i].name, svg);
        assert_texts_keep_apart(recipes[i].name, &d, svg);
        drawing_free(&d);
        drawn++;
    }
    return drawn;
}
