/* nearest.c - a word is near when a third of its letters, at most three, would have to change.
 * SPDX-License-Identifier: MIT */
#include "nearest.h"

#include <string.h>

#include "str.h"

nearest nearest_start(const char *text, size_t length)
{
    const int third = (int)((length > 9 ? 9 : length) + 2) / 3;
    return (nearest){text, length, NULL, third + 1};
}

void nearest_try(nearest *search, const char *word)
{
    const int distance = str_distance(search->text, search->length, word, strlen(word));
    if (distance < search->distance) {
        search->best = word;
        search->distance = distance;
    }
}
