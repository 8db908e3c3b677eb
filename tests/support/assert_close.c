/* assert_close.c - see assert_close.h.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <math.h>
#include <stdio.h>

void support_assert_close(
    double got, double want, double rtol, double atol, const char *what, const char *file, int line)
{
    const double difference = got - want;
    if (!(fabs(difference) <= rtol * fabs(want) + atol)) {
        print_error(
            "%s: got %.15g, want %.15g, difference %.3g (allowed %.3g relative, %.3g absolute)\n",
            what, got, want, difference, rtol, atol);
        _fail(file, line);
    }
}
