/* length_text.h - a length on the command line, written as in a model: `2 ft`, `500mm`, `12 ft 6 in`, `1/2 m`.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_LENGTH_TEXT_H
#define KERNLINE_LENGTH_TEXT_H

#include <stdbool.h>

/* @return false when the text is no length with its unit, zero or more; then *metres is as before. */
bool length_read(const char *text, double *metres);

#endif
