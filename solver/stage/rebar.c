/* rebar.c - see rebar.h.
 * SPDX-License-Identifier: MIT */
#include "rebar.h"

#include <math.h>

static void add_layers(
    const kl_model *model, const kl_section *section, double share, double top, rebar_sums *r)
{
    for (kl_index i = 0; i < section->rebar_count && share > 0.0 && !isnan(top); i++) {
        const kl_rebar_layer *layer = &section->rebar[i];
        const double y = top - layer->depth;
        const double area = share * layer->count * layer->bar_area;
        const double ea = area * model->materials[layer->material].modulus;
        r->area += area;
        r->first += area * y;
        r->second += area * y * y;
        r->ea += ea;
        r->es += ea * y;
        r->ei += ea * y * y;
    }
}

rebar_sums rebar_at(const kl_model *model, const member_section *where, double top)
{
    rebar_sums r = {0};
    add_layers(model, where->a, 1.0 - where->t, top, &r);
    add_layers(model, where->b, where->t, top, &r);
    return r;
}

bool rebar_counts(const kl_model *model)
{
    for (kl_index m = 0; m < model->member_count && !model->sections_gross; m++) {
        for (kl_index i = 0; i < model->members[m].section_count; i++) {
            if (model->sections[model->members[m].sections[i].section].rebar_count > 0) {
                return true;
            }
        }
    }
    return false;
}
