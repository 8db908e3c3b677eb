/* assert_close.h - comparison of doubles for tests: prints both values and the difference; NAN fails.
 * cmocka 1.1.5 compares floats in single precision, so its float asserts are never used.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_ASSERT_CLOSE_H
#define KERNLINE_ASSERT_CLOSE_H

/* cmocka.h wants these first. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

/* |got - want| <= rtol |want| + atol */
#define assert_close(got, want, rtol, atol)                                                        \
    support_assert_close((got), (want), (rtol), (atol), #got, __FILE__, __LINE__)

void support_assert_close(double got,
                          double want,
                          double rtol,
                          double atol,
                          const char *what,
                          const char *file,
                          int line);

#endif
