/* generate_model.h - a staged model drawn from bytes: a cap on columns or bearings, falsework, tendons, loads, and
 * operations in an order that is mostly possible.
 *
 * Byte fuzzing hardly ever passes the reader; here every byte is a choice that an engineer makes, so that most models
 * are solved. With the model comes what statics says about it, worked out beside the program.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_GENERATE_MODEL_H
#define KERNLINE_GENERATE_MODEL_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

typedef struct generated_facts {
    double downward; /* N: weights and loads that act when the last stage ends */
    bool is_sound;   /* nothing impossible was drawn: the model must be accepted */
} generated_facts;

/* Write the model that the bytes choose; what is beyond the last byte is 0. */
void generate_model(const uint8_t *bytes, size_t size, FILE *out, generated_facts *facts);

#endif
