/* response.h - what a factored structure does under one column of loads.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_RESPONSE_H
#define KERNLINE_RESPONSE_H

#include "assemble.h"

/* Movements of all nodes and basic forces of all elements, in balance to rounding.
 * @param u out, 3 a node, global axes. `b` workspace of the same size.
 * @param q out, 3 an element: N, M_start, M_end; those of elements that are off are not touched.
 * @return KL_MISUSE when the factor is not complete, KL_NUMERIC when an answer is not finite or does not
 * come into balance (NEAR_BALANCE). */
kl_status response_solve(frame_system *system,
                         const frame_structure *structure,
                         const frame_loads *loads,
                         double *u,
                         double *q,
                         double *b);

#endif
