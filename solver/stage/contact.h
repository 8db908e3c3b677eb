/* contact.h - the search for the set of unilateral contacts that bear.
 *
 * Rows of posts, push supports and push bearings are unilateral. The set of those that bear is found by block
 * principal pivoting: all contradicting ones change at once while their number falls, and one at a time (the last in
 * order) otherwise, which cannot cycle (K. G. Murty's rule; L. F. Portugal, J. J. Judice, L. N. Vicente, Mathematics
 * of Computation 63, 1994 - both from memory; tests start from every kind of set).
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CONTACT_H
#define KERNLINE_CONTACT_H

#include "kernline/analysis.h"
#include "state.h"

typedef enum contact_kind { CONTACT_ROW, CONTACT_HOLD, CONTACT_JOINT } contact_kind;

typedef struct contact {
    contact_kind kind;
    kl_index index;  /* row, hold or joint */
    bool was_closed; /* before the increment */
    bool closed;     /* in the set being tried */
    double
        force_before; /* N, pushing + : what it carried before, direct changes of the increment included */
    double
        value; /* of the set tried: closed: the force; open: > 0 where it would overlap (N, or m) */
    bool is_length; /* open rigid contacts: value is a length */
} contact;

typedef struct contact_list {
    contact *items;
    kl_index count;
} contact_list;

/* The search's memory between sets. Start with contact_search_start. */
/* More sets than this are not tried: thousands of contacts settle in some tens. */
#define CONTACT_CHANGES_LIMIT 20000

typedef struct contact_search {
    kl_index best;    /* fewest contradictions seen */
    int patience;     /* block changes left without an improvement */
    kl_index changes; /* sets tried beyond the first */
} contact_search;

contact_search contact_search_start(void);

/* Choose the next set from the values of this one.
 * @param force_scale, length_scale sizes for rounding. @return true when nothing contradicts: this set is the answer. */
bool contact_next(contact_list *list,
                  contact_search *search,
                  double force_scale,
                  double length_scale);

void contact_close_all(contact_list *list);

/* Set the first set as the settings ask. */
void contact_first(contact_list *list, const kl_settings *settings, uint64_t turn);

#endif
