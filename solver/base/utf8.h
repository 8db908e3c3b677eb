/* utf8.h - letters of UTF-8, and how those are shown to people that nobody sees.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_UTF8_H
#define KERNLINE_UTF8_H

#include <stdbool.h>
#include <stdint.h>

#define UTF8_WRONG 0xFFFDU /* what a byte is read as that begins no letter */
#define UTF8_ROOM  20      /* bytes that one letter takes, however it is shown, and the end */

/* The letter at *text, which is moved behind it; UTF8_WRONG; 0 at the end, which is not passed. */
uint32_t utf8_next(const char **text);

/* Nobody sees it, or a screen obeys it: controls, marks that turn the order of the letters behind them (and would show 21 where 12
 * stands), spaces without width, joiners, tags, further line ends. */
bool utf8_is_unseen(uint32_t letter);

/* The letter's bytes. */
void utf8_write(uint32_t letter, char text[UTF8_ROOM]);
/* What stands for it where people read: an unseen one has its number, between mathematical angle brackets, or, below U+0080, the
 * sign Unicode has for that control; any other itself. */
void utf8_show(uint32_t letter, char text[UTF8_ROOM]);

#endif
