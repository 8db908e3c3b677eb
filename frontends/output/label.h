/* label.h - names for moments of the construction, members, places and phases; the sentences every sheet carries.
 *
 * All labels are written into the caller's room of LABEL_SIZE bytes and cut when they are longer.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_LABEL_H
#define KERNLINE_LABEL_H

#include "kernline/results.h"

#define LABEL_SIZE 200

/* "after step_1" at a stage's end, "during step_1, after stress T1" before it, "under wind"; with a cause:
 * "after step_1, from prestress". */
void label_state(char text[LABEL_SIZE], const kl_results *results, kl_state state);

/* Short, for heads: "step_1" or "step_1: stress T1". */
void label_step(char text[LABEL_SIZE], const kl_results *results, kl_index step);

/* Does a member rise by more than it goes along? */
bool label_is_steep(const kl_model *model, kl_index member);

/* "cap"; for a steep member also which side is its top: "col_1 (its top is the left side)". */
void label_member(char text[LABEL_SIZE], const kl_model *model, kl_index member);

/* What stands at a station: a node's name, "face", or "". */
const char *label_place(const kl_model *model, const kl_station_row *row);

/* "left" and "right" at a jump, where two rows stand at one station, "" elsewhere: row i of count. */
const char *label_side(const kl_station_row *rows, kl_index count, kl_index i);

/* "12.5 ksi": as shown, with so many digits that count and at most as many decimals as it needs; NAN gives "-". */
void label_value(
    char text[LABEL_SIZE], const kl_display *display, kl_measure measure, double value, int digits);
/* "cap at 42 ft". */
void label_at(char text[LABEL_SIZE], const kl_model *model, kl_index member, double station);

const char *label_phase(kl_tendon_phase phase); /* "stressed", "grouted" … */
const char *label_face(kl_face face);           /* "top", "bottom", "" */

extern const char LABEL_SIGNS_ACTIONS[];
extern const char LABEL_SIGNS_PARTS[];
extern const char LABEL_SIGNS_STRESS[];
extern const char LABEL_SIGNS_MOVEMENT[];
extern const char LABEL_SIGNS_REACTION[];
extern const char LABEL_CAUTION[];

#endif
