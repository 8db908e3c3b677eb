/* machine.c - see machine.h. Reading is the scalar product of two arrays.
 * SPDX-License-Identifier: MIT */
#include "machine.h"

#include <cblas.h>
#include <string.h>
#include <unistd.h>

#include "watch.h"

const int machine_order[MACHINE_SIZES] = {48, 96, 768};
const int machine_kilobytes[MACHINE_SIZES] = {256, 8 << 10, 256 << 10};

const char *machine_kernels(void)
{
    return openblas_get_corename();
}

void machine_take_kernels(char **argv)
{
#if defined(__x86_64__)
    const bool fell_back = strcmp(machine_kernels(), "Prescott") == 0;
    const char *best = __builtin_cpu_supports("avx512vl") ? "SkylakeX"
                       : __builtin_cpu_supports("avx2")   ? "Haswell"
                                                          : NULL;
    if (fell_back && best && !getenv("OPENBLAS_CORETYPE") &&
        setenv("OPENBLAS_CORETYPE", best, 0) == 0) {
        (void)execv("/proc/self/exe", argv); /* comes back when it could not */
    }
#else
    (void)argv;
#endif
}

enum { TRIES = 5 };

/* A try does at least this many operations, or reads as many bytes: milliseconds. */
#define LEAST_WORK 4e7

static int repeats_for(double work)
{
    return work < LEAST_WORK ? (int)(LEAST_WORK / work) + 1 : 1;
}

static double measure_product(int n, const double *a, const double *b, double *c)
{
    const double work = 2.0 * n * n * n;
    const int repeats = repeats_for(work);
    double seconds[TRIES];
    for (int i = 0; i < TRIES; i++) {
        const watch w = watch_start();
        for (int k = 0; k < repeats; k++) {
            cblas_dgemm(CblasColMajor, CblasNoTrans, CblasTrans, n, n, n, -1.0, a, n, b, n, 1.0, c,
                        n);
        }
        seconds[i] = watch_stop(&w, 1);
    }
    return work * repeats / watch_median(seconds, TRIES);
}

static double measure_reading(int kilobytes, const double *a)
{
    const double work = 1024.0 * kilobytes;
    const int half = kilobytes * 64; /* doubles of one array */
    const int repeats = repeats_for(work);
    volatile double sum = 0.0;
    double seconds[TRIES];
    for (int i = 0; i < TRIES; i++) {
        const watch w = watch_start();
        for (int k = 0; k < repeats; k++) {
            sum += cblas_ddot(half, a, 1, a + half, 1);
        }
        seconds[i] = watch_stop(&w, 1);
    }
    return work * repeats / watch_median(seconds, TRIES);
}

bool machine_measure(machine_speed *speed)
{
    const size_t count = (size_t)machine_kilobytes[MACHINE_SIZES - 1] * 128;
    double *a = malloc(count * sizeof *a);
    if (!a) {
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        a[i] = 1e-3;
    }
    for (int i = 0; i < MACHINE_SIZES; i++) {
        speed->reading[i] = measure_reading(machine_kilobytes[i], a);
    }
    for (int i = 0; i < MACHINE_SIZES; i++) {
        const int n = machine_order[i];
        speed->product[i] = measure_product(n, a, a + n * n, a + 2 * n * n);
    }
    free(a);
    return true;
}
