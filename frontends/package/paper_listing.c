/* paper_listing.c - a text as it stands, in letters of one width, its lines numbered; a line too long for the page goes on in the
 * next with a mark where the number would be.
 * SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "paper_block.h"

#define LISTING_NUMBERS 36.0 /* px that the numbers take, with the gap */
#define LISTING_TAB     8    /* letters */
#define LISTING_MORE    "..."
#define LISTING_AFTER   12.0

static const paper_letters listing_letters = {"", 8.5, true};
static const paper_letters listing_number_letters = {"quiet", 7.5, false};
static const paper_letters listing_left_letters = {"", 11.0, false};

/* Room for what one byte may become, and never a cut within a character. */
static bool listing_room(const char *text, size_t length)
{
    const bool within = ((unsigned char)*text & 0xC0U) == 0x80U;
    return length + LISTING_TAB + 1 < PAPER_LINE_SIZE - (within ? 0 : LISTING_TAB);
}

/* As much of the line at `text` as there is room for, with spaces for tabs. @return behind it */
static const char *listing_take(const char *text, char line[PAPER_LINE_SIZE])
{
    size_t length = 0;
    size_t column = 0;
    for (; *text != '\0' && *text != '\n' && listing_room(text, length); text++) {
        if (*text == '\t') {
            do {
                line[length++] = ' ';
            } while (++column % LISTING_TAB != 0);
        } else if (*text != '\r' || (text[1] != '\n' && text[1] != '\0')) {
            line[length++] = *text;
            column += ((unsigned char)*text & 0xC0U) != 0x80U;
        }
    }
    line[length] = '\0';
    return text;
}

/* A line of the page: the number of the text's line, or the mark that it goes on. */
static void listing_write(paper_flow *f, kl_index number, const char *line)
{
    const double leading = PAPER_LEADING * listing_letters.size;
    char mark[24];
    snprintf(mark, sizeof mark, "%lld", (long long)number);
    paper_flow_need(f, leading);
    const double y = f->y + listing_letters.size;
    paper_write(paper_flow_page(f), &listing_number_letters, PAPER_MARGIN + LISTING_NUMBERS - 12.0,
                y, ANCHOR_END, number > 0 ? mark : LISTING_MORE);
    paper_write(paper_flow_page(f), &listing_letters, PAPER_MARGIN + LISTING_NUMBERS, y,
                ANCHOR_START, line);
    f->y += leading;
}

/* Break a piece of a line into lines of the page. @return how many */
static kl_index listing_piece(paper_flow *f, kl_index number, const char *piece)
{
    char line[PAPER_LINE_SIZE];
    kl_index lines = 0;
    do {
        piece = paper_break(&listing_letters, piece, paper_flow_width(f, false) - LISTING_NUMBERS,
                            line);
        listing_write(f, lines == 0 ? number : 0, line);
        lines++;
    } while (piece);
    return lines;
}

void paper_listing(paper_flow *f, const char *text)
{
    char piece[PAPER_LINE_SIZE];
    kl_index lines = 0;
    kl_index number = 1;
    bool begins = true;
    while (*text != '\0' && lines < PAPER_ROW_LIMIT && f->status == KL_OK) {
        text = listing_take(text, piece);
        lines += listing_piece(f, begins ? number : 0, piece);
        begins = *text == '\n';
        number += begins ? 1 : 0;
        text += begins ? 1 : 0;
    }
    if (*text != '\0') {
        f->y += 4.0;
        char said[100];
        snprintf(said, sizeof said, "The first %d lines; the others are left out here.",
                 PAPER_ROW_LIMIT);
        paper_flow_text(f, &listing_left_letters, PAPER_MARGIN, paper_flow_width(f, false), said);
    }
    f->y += LISTING_AFTER;
}
