/* unit_text.c - see unit_text.h.
 * SPDX-License-Identifier: MIT */
#include "unit_text.h"

#include <string.h>

typedef struct unit_reader {
    const char *at;
    const char *end;
    int exponents[4]; /* length, force, time, temperature */
    double factor;
    int terms;
    const kl_unit *only; /* the word of the last term, NULL when it had a power */
} unit_reader;

static bool unit_is_word_byte(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '-' || c == '%';
}

/* `^2`, `^-1`; without `^` the power is 1. */
static bool unit_read_power(unit_reader *reader, int *power)
{
    *power = 1;
    if (reader->at == reader->end || *reader->at != '^') {
        return true;
    }
    reader->at++;
    int sign = 1;
    if (reader->at < reader->end && *reader->at == '-') {
        sign = -1;
        reader->at++;
    }
    const bool is_digit = reader->at < reader->end && *reader->at >= '1' && *reader->at <= '9';
    if (!is_digit) {
        return false;
    }
    *power = sign * (*reader->at - '0');
    reader->at++;
    reader->only = NULL;
    return true;
}

static bool unit_multiply(unit_reader *reader, const kl_unit *unit, int power)
{
    const signed char own[4] = {unit->dimension.length, unit->dimension.force, unit->dimension.time,
                                unit->dimension.temperature};
    for (int i = 0; i < 4; i++) {
        reader->exponents[i] += own[i] * power;
        if (reader->exponents[i] > 100 || reader->exponents[i] < -100) {
            return false;
        }
    }
    for (int i = 0; i < power; i++) {
        reader->factor *= unit->factor;
    }
    for (int i = 0; i > power; i--) {
        reader->factor /= unit->factor;
    }
    return true;
}

static bool unit_read_term(unit_reader *reader, int sign)
{
    const char *begin = reader->at;
    while (reader->at < reader->end && unit_is_word_byte(*reader->at)) {
        reader->at++;
    }
    const kl_unit *unit = kl_unit_find(begin, (size_t)(reader->at - begin));
    if (unit == NULL) {
        return false;
    }
    int power = 1;
    reader->only = unit;
    reader->terms++;
    if (!unit_read_power(reader, &power)) {
        return false;
    }
    return unit_multiply(reader, unit, sign * power);
}

static bool unit_read_terms(unit_reader *reader)
{
    const bool per = reader->end - reader->at > 4 && memcmp(reader->at, "per ", 4) == 0;
    reader->at += per ? 4 : 0;
    const int sign = per ? -1 : 1;
    if (!unit_read_term(reader, sign)) {
        return false;
    }
    while (reader->at < reader->end) {
        const char joint = *reader->at++;
        if (joint != '*' && joint != '/') {
            return false;
        }
        if (!unit_read_term(reader, joint == '*' ? sign : -sign)) {
            return false;
        }
    }
    if (per || reader->terms > 1) {
        reader->only = NULL;
    }
    return true;
}

bool unit_text_read(const char *text, size_t length, kl_unit *out)
{
    unit_reader reader = {.at = text, .end = text + length, .factor = 1.0};
    if (length > 0 && !unit_read_terms(&reader)) {
        return false;
    }
    *out = (kl_unit){
        .word = reader.only != NULL ? reader.only->word : NULL,
        .dimension = {.length = (signed char)reader.exponents[0],
                      .force = (signed char)reader.exponents[1],
                      .time = (signed char)reader.exponents[2],
                      .temperature = (signed char)reader.exponents[3],
                      .is_angle = reader.only != NULL && reader.only->dimension.is_angle},
        .factor = reader.factor,
        .is_mass = reader.only != NULL && reader.only->is_mass,
        .help = NULL,
    };
    return true;
}
