/* diagram_frame.c - the frame to scale: members, nodes, supports, falsework as it stands.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <stdio.h>

#include "frame_view.h"
#include "label.h"

void diagram_frame(drawing *d, kl_results *results, const selection *s)
{
    const kl_state *state = diagram_state(s);
    char when[LABEL_SIZE] = "";
    char title[LABEL_SIZE + 20];
    if (state) {
        label_state(when, results, *state);
    }
    const bool in_stages =
        state && state->kind == KL_STATE_STEP; /* it stands alike under every case */
    snprintf(title, sizeof title, "The frame%s%s", in_stages ? " " : "", in_stages ? when : "");
    const frame_view v = frame_view_page(d, results, title,
                                         "Members, nodes and supports to scale; falsework that "
                                         "stands; what does not stand is faint.",
                                         VIEW_MARGIN);
    drawing_open_step(d, state ? diagram_step(*state) : DRAWING_NO_STEP);
    frame_view_draw(&v, state);
    drawing_close_step(d);
    frame_view_names(&v);
    frame_view_scale_bar(&v);
}
