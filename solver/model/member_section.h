/* member_section.h - the section of a member at a station.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MEMBER_SECTION_H
#define KERNLINE_MEMBER_SECTION_H

#include "section.h"

/* Which two sections the station lies between, and where: dimensions vary linearly from a to b by t. At a step
 * `side` chooses. Before the first and after the last row the section is constant. */
typedef struct member_section {
    const kl_section *a, *b;
    double t;
} member_section;

member_section
member_section_at(const kl_model *model, kl_index member, double station, kl_side side);

/* The values there. */
void member_section_values(
    const kl_model *model, kl_index member, double station, kl_side side, section_value *value);

#endif
