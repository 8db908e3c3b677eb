/* str.c - see str.h.
 * SPDX-License-Identifier: MIT */
#include "str.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "near.h"

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

void str_number(char *out, size_t size, double value, int figures)
{
    if (isnan(value)) {
        (void)snprintf(out, size, "none");
        return;
    }
    const double magnitude = fabs(value);
    if (is_exact_zero(value)) {
        (void)snprintf(out, size, "0");
        return;
    }
    if (magnitude < 1e-4 || magnitude >= 1e9) {
        (void)snprintf(out, size, "%.*g", figures, value);
        return;
    }
    const int before = (int)floor(log10(magnitude)) + 1;
    const int after = before >= figures ? 0 : figures - before;
    (void)snprintf(out, size, "%.*f", after, value);
    const size_t length = strlen(out);
    if (after == 0 || length + 1 >= size) {
        return;
    }
    size_t end = length;
    while (end > 0 && out[end - 1] == '0') {
        end--;
    }
    out[end - (end > 0 && out[end - 1] == '.' ? 1u : 0u)] = '\0';
}
