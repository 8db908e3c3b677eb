/* page_texts.h - what stands on a page in SVG, as an XML parser reads it.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PAGE_TEXTS_H
#define KERNLINE_PAGE_TEXTS_H

#include <stdbool.h>
#include <stddef.h>

typedef struct page_text {
    double x, y, size; /* of its first letter's baseline; height of letters */
    char anchor;       /* s, m, e: start, middle, end */
    bool strong, mono;
    char *text; /* owned */
} page_text;

typedef struct page_texts {
    double width, height; /* of the page */
    page_text *texts;     /* not those within pictures */
    size_t count, room;
    size_t pictures; /* svg elements within the page */
    double right;    /* the largest x of a line, box or picture */
    double bottom;   /* likewise y */
    int depth;       /* while it is read: of svg elements */
    bool within;     /* a text */
} page_texts;

/* Fails the test when the page is not well-formed. Free with page_texts_free. */
page_texts page_texts_of(const char *svg);
void page_texts_free(page_texts *p);

/* How many of the texts are this one. */
size_t page_texts_count(const page_texts *p, const char *text);
/* The first text that is this one; NULL: none. */
const page_text *page_texts_find(const page_texts *p, const char *text);

#endif
