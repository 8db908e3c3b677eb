/* letter_width.c - see letter_width.h.
 * SPDX-License-Identifier: MIT */
#include "letter_width.h"

#include <stdbool.h>
#include <string.h>

static double letter_width_of(unsigned char letter)
{
    static const struct {
        const char *letters;
        double width;
    } classes[] = {
        {"ijl'|", 0.23},      {" .,:;!ftI/\\[]`", 0.29},
        {"r-()\"{}", 0.35},   {"ckJsvxyz*^", 0.51},
        {"mM", 0.85},         {"W%@", 0.98},
        {"ABEKPSVXY&", 0.68}, {"CDHNRUwZTF", 0.73},
        {"GOQ", 0.79},        {"+=<>~", 0.60},
    };
    for (unsigned i = 0; i < sizeof classes / sizeof classes[0]; i++) {
        if (strchr(classes[i].letters, letter) != NULL) {
            return classes[i].width;
        }
    }
    if (letter < 0x80) {
        return 0.57; /* digits, a b d e g h n o p q u, L … */
    }
    return letter < 0xE3 ? 0.80 : letter < 0xF0 ? 1.05 : 1.30; /* from U+3000 on; from U+10000 on */
}

double letter_width(const char *text, double size)
{
    double width = 0.0;
    for (const char *at = text; *at != '\0'; at++) {
        const unsigned char letter = (unsigned char)*at;
        const bool continues = (letter & 0xC0) == 0x80;
        width += continues ? 0.0 : letter_width_of(letter);
    }
    return width * size;
}
