/* tendon_frame.c - see tendon_frame.h.
 * SPDX-License-Identifier: MIT */
#include "tendon_frame.h"

#include <math.h>
#include <string.h>

static kl_section rectangle(double width, double depth)
{
    kl_section s = {.shape = KL_RECTANGLE, .name = "cap", .width = width, .depth = depth};
    s.area = s.inertia = s.to_top = s.to_bottom = s.shear_area = s.volume_to_surface = NAN;
    return s;
}

void tendon_frame_divide(tendon_frame *frame, const double *lengths, kl_index count)
{
    double x = 0.0;
    for (kl_index i = 0; i < count; i++) {
        x += lengths[i];
        frame->nodes[i + 1] = (kl_node){.name = "node", .x = x, .member = KL_NONE};
        frame->members[i] =
            (kl_member){.name = "member", .from = i, .to = i + 1, .mesh = NAN, .age = NAN};
        frame->members[i].sections = frame->sections_at;
        frame->members[i].section_count = 1;
        frame->member_list[i] = i;
    }
    frame->model.node_count = count + 1;
    frame->model.member_count = count;
    frame->tendons[0].member_count = count;
    frame->tendons[1].member_count = count;
}

void tendon_frame_start(tendon_frame *frame,
                        double length,
                        const kl_profile_row *rows,
                        kl_index row_count)
{
    memset(frame, 0, sizeof *frame);
    frame->diags = kl_diags_create();
    frame->nodes[0] = (kl_node){.name = "node", .member = KL_NONE};
    frame->sections[0] = rectangle(1.0, 2.0);
    frame->sections[1] = rectangle(1.0, 2.0);
    frame->materials[0] = (kl_material){.kind = KL_CONCRETE, .name = "concrete", .modulus = 3e10};
    frame->materials[1] = (kl_material){.kind = KL_PRESTRESSING,
                                        .name = "steel",
                                        .modulus_law = KL_LAW_VALUE,
                                        .modulus = 2e11,
                                        .ultimate = 1.86e9,
                                        .yield = 1.674e9};
    const kl_tendon tendon = {.name = "T1",
                              .origin = KL_NOWHERE,
                              .members = frame->member_list,
                              .material = 1,
                              .units = 5.0,
                              .unit_area = 1e-4,
                              .count = 1,
                              .rows = rows,
                              .row_count = row_count,
                              .jack_force = 1e6,
                              .ram_area = NAN,
                              .reference = NAN};
    frame->tendons[0] = frame->tendons[1] = tendon;
    frame->tendons[1].name = "T2";
    frame->model = (kl_model){.title = "",
                              .materials = frame->materials,
                              .material_count = 2,
                              .sections = frame->sections,
                              .section_count = 2,
                              .nodes = frame->nodes,
                              .members = frame->members,
                              .tendons = frame->tendons,
                              .tendon_count = 1};
    frame->model.display.system = KL_UNITS_SI;
    tendon_frame_divide(frame, &length, 1);
}

void tendon_frame_end(tendon_frame *frame)
{
    arena_free(&frame->memory);
    kl_diags_destroy(frame->diags);
}

kl_index tendon_frame_count(const tendon_frame *frame, const char *name)
{
    kl_index count = 0;
    for (kl_index i = 0; i < kl_diags_count(frame->diags); i++) {
        count += strcmp(kl_diags_get(frame->diags, i)->name, name) == 0;
    }
    return count;
}
