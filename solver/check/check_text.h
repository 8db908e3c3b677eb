/* check_text.h - numbers, formulas and moments in words, for check results and warnings.
 *
 * Values are shown in the model's display units with four significant figures, never with an exponent between
 * 1e-4 and 1e9. Texts live in the arena given; NULL means out of memory.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CHECK_TEXT_H
#define KERNLINE_CHECK_TEXT_H

#include "arena.h"
#include "kernline/results.h"
#include "rules.h"

/* "3.12", "0.2077", "41368", "0" (also for -0), "none" for NAN. Writes at most `size` bytes. */
void text_number(char *out, size_t size, double value);

/* "3.12 ksi": a value of the base set in the display's unit of the measure. */
const char *text_value(arena *a, const kl_display *display, kl_measure measure, double value);

/* "0.65 x 4.8 ksi = 3.12 ksi" | "0.0948 sqrt(4.8 ksi) = 0.2077 ksi, at most 0.2 ksi" | "no tension". */
const char *text_rule_numbers(
    arena *a, const kl_display *display, const rule_row *row, double strength, double lambda);

/* "AASHTO LRFD 2020, 5.9.2.3.1b; no bonded steel (default)": the article, what it was chosen by, what it takes
 * for granted. */
const char *text_rule(arena *a, const rule_row *row, const kl_check *check, double lambda);

/* "0.70 x 270 ksi = 189 ksi". */
const char *text_tendon_numbers(
    arena *a, const kl_display *display, const rule_tendon_row *row, double ultimate, double yield);

/* "during step_1 after `stress T1`" | "in long_term" | "under dead" - the moment of a state. */
const char *text_state(arena *a, const kl_results *results, kl_state state);

/* Stations as places, at most eight: "6, 12, 84 and 90 ft". */
const char *
text_stations(arena *a, const kl_display *display, const double *stations, kl_index count);

#endif
