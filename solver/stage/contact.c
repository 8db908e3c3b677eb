/* contact.c - see contact.h.
 * SPDX-License-Identifier: MIT */
#include "contact.h"

#define PATIENCE 10
#define ROUNDING 1e-12 /* of the largest force or movement: what a solve leaves of an exact zero */

contact_search contact_search_start(void)
{
    return (contact_search){.best = INT32_MAX, .patience = PATIENCE};
}

static bool contradicts(const contact *c, double force_scale, double length_scale)
{
    if (c->closed) {
        return c->value < -ROUNDING * force_scale;
    }
    return c->value > ROUNDING * (c->is_length ? length_scale : force_scale);
}

bool contact_next(contact_list *list,
                  contact_search *search,
                  double force_scale,
                  double length_scale)
{
    kl_index count = 0;
    kl_index last = KL_NONE;
    for (kl_index i = 0; i < list->count; i++) {
        if (contradicts(&list->items[i], force_scale, length_scale)) {
            count++;
            last = i;
        }
    }
    if (count == 0) {
        return true;
    }
    search->changes++;
    if (count < search->best) {
        search->best = count;
        search->patience = PATIENCE;
    } else if (search->patience > 0) {
        search->patience--;
    }
    if (search->patience == 0) {
        list->items[last].closed = !list->items[last].closed;
        return false;
    }
    for (kl_index i = 0; i < list->count; i++) {
        if (contradicts(&list->items[i], force_scale, length_scale)) {
            list->items[i].closed = !list->items[i].closed;
        }
    }
    return false;
}

void contact_close_all(contact_list *list)
{
    for (kl_index i = 0; i < list->count; i++) {
        list->items[i].closed = true;
    }
}

/* A linear congruential generator (the constants of Knuth's MMIX), good enough to draw a set. */
static bool draw(uint64_t *seed)
{
    *seed = *seed * 6364136223846793005U + 1442695040888963407U;
    return (*seed >> 62) & 1U;
}

void contact_first(contact_list *list, const kl_settings *settings, uint64_t turn)
{
    uint64_t seed = settings->seed + turn * 0x9E3779B97F4A7C15U;
    for (kl_index i = 0; i < list->count; i++) {
        contact *c = &list->items[i];
        switch (settings->contact_start) {
        case KL_CONTACT_FROM_STATE:
            c->closed = c->was_closed;
            break;
        case KL_CONTACT_ALL_OPEN:
            c->closed = false;
            break;
        case KL_CONTACT_ALL_CLOSED:
            c->closed = true;
            break;
        case KL_CONTACT_SEEDED:
            c->closed = draw(&seed);
            break;
        }
    }
}
