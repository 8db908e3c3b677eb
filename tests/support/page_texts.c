/* page_texts.c - see page_texts.h.
 * SPDX-License-Identifier: MIT */
#include "page_texts.h"

#include "assert_close.h"

#include <expat.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *attribute(const char **attributes, const char *name)
{
    for (; attributes[0] != NULL; attributes += 2) {
        if (strcmp(attributes[0], name) == 0) {
            return attributes[1];
        }
    }
    return NULL;
}

static double number(const char **attributes, const char *name)
{
    const char *text = attribute(attributes, name);
    return text != NULL ? strtod(text, NULL) : 0.0;
}

static void begin_text(page_texts *p, const char **attributes)
{
    if (p->count == p->room) {
        p->room = 2 * p->room + 64;
        p->texts = realloc(p->texts, p->room * sizeof *p->texts);
        assert_non_null(p->texts);
    }
    const char *anchor = attribute(attributes, "text-anchor");
    const char *class = attribute(attributes, "class");
    p->texts[p->count++] = (page_text){.x = number(attributes, "x"),
                                       .y = number(attributes, "y"),
                                       .size = number(attributes, "font-size"),
                                       .anchor = anchor != NULL ? anchor[0] : 's',
                                       .strong = class != NULL && strstr(class, "strong") != NULL,
                                       .mono = attribute(attributes, "font-family") != NULL,
                                       .text = calloc(1, 1)};
    p->within = true;
}

static void reach(page_texts *p, double x, double y)
{
    p->right = fmax(p->right, x);
    p->bottom = fmax(p->bottom, y);
}

static void XMLCALL begin(void *data, const char *name, const char **attributes)
{
    page_texts *p = data;
    if (strcmp(name, "svg") == 0 && p->depth++ == 0) {
        p->width = number(attributes, "width");
        p->height = number(attributes, "height");
        return;
    }
    const bool picture = strcmp(name, "svg") == 0;
    if (p->depth > 1 && !picture) {
        return;
    }
    p->pictures += picture;
    if (strcmp(name, "text") == 0) {
        begin_text(p, attributes);
    } else {
        reach(p, number(attributes, "x") + number(attributes, "width"),
              number(attributes, "y") + number(attributes, "height"));
        reach(p, number(attributes, "x2"), number(attributes, "y2"));
    }
}

static void XMLCALL end(void *data, const char *name)
{
    page_texts *p = data;
    p->depth -= strcmp(name, "svg") == 0;
    p->within = p->within && strcmp(name, "text") != 0;
}

static void XMLCALL letters(void *data, const char *text, int length)
{
    page_texts *p = data;
    if (p->within) {
        char **to = &p->texts[p->count - 1].text;
        const size_t before = strlen(*to);
        *to = realloc(*to, before + (size_t)length + 1);
        assert_non_null(*to);
        memcpy(*to + before, text, (size_t)length);
        (*to)[before + (size_t)length] = '\0';
    }
}

page_texts page_texts_of(const char *svg)
{
    page_texts p = {0};
    XML_Parser parser = XML_ParserCreate("UTF-8");
    assert_non_null(parser);
    XML_SetUserData(parser, &p);
    XML_SetElementHandler(parser, begin, end);
    XML_SetCharacterDataHandler(parser, letters);
    if (XML_Parse(parser, svg, (int)strlen(svg), 1) != XML_STATUS_OK) {
        fail_msg("line %lu: %s", (unsigned long)XML_GetCurrentLineNumber(parser),
                 XML_ErrorString(XML_GetErrorCode(parser)));
    }
    XML_ParserFree(parser);
    return p;
}

void page_texts_free(page_texts *p)
{
    for (size_t i = 0; i < p->count; i++) {
        free(p->texts[i].text);
    }
    free(p->texts);
    *p = (page_texts){0};
}

size_t page_texts_count(const page_texts *p, const char *text)
{
    size_t count = 0;
    for (size_t i = 0; i < p->count; i++) {
        count += strcmp(p->texts[i].text, text) == 0;
    }
    return count;
}

const page_text *page_texts_find(const page_texts *p, const char *text)
{
    for (size_t i = 0; i < p->count; i++) {
        if (strcmp(p->texts[i].text, text) == 0) {
            return &p->texts[i];
        }
    }
    return NULL;
}
