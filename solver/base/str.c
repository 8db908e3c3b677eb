/* str.c - see str.h.
 * SPDX-License-Identifier: MIT */
#include "str.h"

#include <string.h>

bool str_equal(const char *text, const char *other, size_t length)
{
    return strlen(text) == length && memcmp(text, other, length) == 0;
}

static int str_min(int a, int b)
{
    return a < b ? a : b;
}

int str_distance(const char *a, size_t na, const char *b, size_t nb)
{
    if (na > STR_DISTANCE_LENGTH || nb > STR_DISTANCE_LENGTH) {
        return STR_FAR;
    }
    /* Rows i-2, i-1 and i of the table of distances between the beginnings of a and b. */
    int rows[3][STR_DISTANCE_LENGTH + 1] = {{0}};
    int *before = rows[0];
    int *above = rows[1];
    int *row = rows[2];
    for (size_t j = 0; j <= nb; j++) {
        above[j] = (int)j;
    }
    for (size_t i = 1; i <= na; i++) {
        row[0] = (int)i;
        for (size_t j = 1; j <= nb; j++) {
            const int change = above[j - 1] + (a[i - 1] != b[j - 1]);
            row[j] = str_min(change, str_min(above[j], row[j - 1]) + 1);
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
                row[j] = str_min(row[j], before[j - 2] + 1);
            }
        }
        int *oldest = before;
        before = above;
        above = row;
        row = oldest;
    }
    return above[nb];
}
