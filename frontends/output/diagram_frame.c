/* diagram_frame.c - the frame to scale: members, nodes, supports, falsework as it stands.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <stdio.h>

#include "frame_view.h"
#include "label.h"

#define FRAME_WIDTH  900.0
#define FRAME_HEIGHT 420.0

void diagram_frame(drawing *d, kl_results *results, const selection *s)
{
    const kl_state state = s->states[s->state_count - 1];
    char when[LABEL_SIZE];
    char title[LABEL_SIZE + 20];
    label_state(when, results, state);
    snprintf(title, sizeof title, "The frame %s", when);
    drawing_start(d, FRAME_WIDTH, FRAME_HEIGHT, title,
                  "Members, nodes and supports to scale; falsework that stands; what does not "
                  "stand is faint.");
    drawing_text(d, "strong", 8.0, 16.0, ANCHOR_START, title);
    const frame_view v =
        frame_view_start(d, results, (label_box){0.0, 24.0, FRAME_WIDTH, FRAME_HEIGHT - 64.0});
    frame_view_draw(&v, state, true);
    frame_view_scale_bar(&v);
}
