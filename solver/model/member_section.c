/* member_section.c - see member_section.h.
 * SPDX-License-Identifier: MIT */
#include "member_section.h"

#include <math.h>

#include "near.h"

/* First row whose station lies beyond `station` (side right: rows at the station itself are passed; left: not). */
static kl_index first_row_beyond(const kl_member *member, double station, double near, kl_side side)
{
    const double limit = side == KL_RIGHT ? station + near : station - near;
    kl_index low = 0;
    kl_index high = member->section_count;
    while (low < high) {
        const kl_index middle = low + (high - low) / 2;
        if (member->sections[middle].station > limit) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    return low;
}

member_section
member_section_at(const kl_model *model, kl_index member, double station, kl_side side)
{
    const kl_member *m = &model->members[member];
    const kl_section *first = &model->sections[m->sections[0].section];
    if (m->section_count == 1) {
        return (member_section){first, first, 0.0};
    }
    const double near = NEAR_STATION * kl_member_length(model, member);
    const kl_index next = first_row_beyond(m, station, near, side);
    if (next == 0) {
        return (member_section){first, first, 0.0};
    }
    const kl_section_at *from = &m->sections[next - 1];
    const kl_section *a = &model->sections[from->section];
    if (next == m->section_count) {
        return (member_section){a, a, 0.0};
    }
    const kl_section_at *to = &m->sections[next];
    const kl_section *b = &model->sections[to->section];
    const double range = to->station - from->station;
    const double t = range > near ? fmin(fmax((station - from->station) / range, 0.0), 1.0) : 0.0;
    return (member_section){a, b, t};
}

void member_section_values(
    const kl_model *model, kl_index member, double station, kl_side side, section_value *value)
{
    const member_section at = member_section_at(model, member, station, side);
    section_evaluate(at.a, at.b, at.t, value);
}

kl_section_mix
kl_section_mix_at(const kl_model *model, kl_index member, double station, kl_side side)
{
    const member_section at = member_section_at(model, member, station, side);
    return (kl_section_mix){.a = (kl_index)(at.a - model->sections),
                            .b = (kl_index)(at.b - model->sections),
                            .share = at.t};
}
