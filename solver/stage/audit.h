/* audit.h - does what is printed balance? Equilibrium found from the model and the printed forces alone.
 *
 * The audit shares no code with the assembly, the element, its loads or the operations. It cuts every standing member
 * at the model's nodes into free bodies, works out its own weights (Boole's rule) and resultants of what is on, and
 * holds them against the actions, reactions, bearing and row forces of the results:
 *   all together:  loads + supports + feet on ground = 0
 *   every node:    ends of members + bearings + supports + loads there = 0
 *   every body:    its two ends + what acts on it between = 0
 * Which loads are on is found by replaying the stages' operations; of the record only the forms still unstruck are
 * taken over (mechanics: a set row acts on its member with its force less the wet shares that the forms still put on
 * it). Temperature, movements and prestress have no resultant. The laws hold cause by cause too.
 *
 * Ratios are relative to the largest force at hand (for moments: times the size of the model, its diagonal): loads,
 * actions, reactions, tendons, here and in the steps before, whose rounding stays; and no less than a billionth of what
 * would hold the movements back (a bar that is free to expand has forces of rounding only). With tendons_as_loads (a
 * setting for tests) the printed actions are those of the concrete and only the whole is audited: node and member errors
 * are NAN.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_AUDIT_H
#define KERNLINE_AUDIT_H

#include "result_store.h"

/* Audit a step or case that has just been recorded and keep its figures and largest force. @return KL_NUMERIC with the diagnostic "audit-failed" at `origin`, which
 * names the worst figure, when it does not balance; KL_NO_MEMORY. */
kl_status audit_require(kl_results *results, kl_state state, kl_origin origin);

/* Audit a state anew, whatever was found before (kl_audit_of_state gives what audit_require found).
 * @param force out: N, the largest at hand. */
kl_status audit_state(const kl_results *results, kl_state state, kl_audit *audit, double *force);

#endif
