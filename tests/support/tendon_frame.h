/* tendon_frame.h - a hand-made model of one line of members with one tendon, for tests of the tendon layer.
 *
 * Members are 1 m by 2 m rectangles on their centroid, along the x axis; everything may be changed before use.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TENDON_FRAME_H
#define KERNLINE_TENDON_FRAME_H

#include "arena.h"
#include "kernline/model.h"

#define TENDON_FRAME_MEMBERS 3

typedef struct tendon_frame {
    kl_node nodes[TENDON_FRAME_MEMBERS + 1];
    kl_member members[TENDON_FRAME_MEMBERS];
    kl_index member_list[TENDON_FRAME_MEMBERS];
    kl_section_at sections_at[2]; /* of every member */
    kl_section sections[2];
    kl_material materials[2]; /* concrete, prestressing */
    kl_tendon tendons[2];
    kl_model model;
    arena memory;
    kl_diags *diags;
} tendon_frame;

/* One member of this length; rows are borrowed and counted from the line. Tendon: E A = 1e8 N (E 2e11 Pa, 5e-4 m^2),
 * jacked at the start with 1e6 N. */
void tendon_frame_start(tendon_frame *frame,
                        double length,
                        const kl_profile_row *rows,
                        kl_index row_count);
/* Divide the line into up to three members of these lengths. */
void tendon_frame_divide(tendon_frame *frame, const double *lengths, kl_index count);
void tendon_frame_end(tendon_frame *frame);

/* How many messages with this name are there? */
kl_index tendon_frame_count(const tendon_frame *frame, const char *name);

#endif
