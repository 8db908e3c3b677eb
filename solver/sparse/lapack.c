/* lapack.c - see lapack.h. The _work variants: the plain ones allocate and scan for NANs.
 * SPDX-License-Identifier: MIT */
#include "lapack.h"

#include <cblas.h>
#include <lapacke.h>

#include "kernline/analysis.h"

/* Ends the threads that OpenBLAS starts when it is loaded: each would spin for some 20 ms before it sleeps, half of them on
 * the other half of our own core. No header declares it, and builds without threads do not have it. */
extern int blas_thread_shutdown_(void) __attribute__((weak));

void kl_use_one_thread(void)
{
    openblas_set_num_threads(1);
    if (blas_thread_shutdown_) {
        blas_thread_shutdown_();
    }
}

/* A size as the library's integer; -1 when it does not fit, which every caller refuses. */
static lapack_int lapack_size(int64_t n)
{
    return n >= 0 && n <= INT32_MAX - 1 ? (lapack_int)n : -1;
}

/* info > 0 is the order of the leading minor that is not positive: the pivot of column info - 1. */
static kl_status lapack_told(lapack_int info, int64_t *stopped)
{
    *stopped = info > 0 ? (int64_t)info - 1 : -1;
    return info < 0 ? KL_MISUSE : KL_OK;
}

kl_status lapack_band_factor(int64_t n, int64_t width, double *band, int64_t *stopped)
{
    const lapack_int size = lapack_size(n);
    const lapack_int below = lapack_size(width);
    if (size < 0 || below < 0) {
        return KL_TOO_LARGE;
    }
    const lapack_int info =
        LAPACKE_dpbtrf_work(LAPACK_COL_MAJOR, 'L', size, below, band, below + 1);
    return lapack_told(info, stopped);
}

kl_status lapack_dense_solve(int64_t n, double *a, int64_t columns, double *x, int64_t *stopped)
{
    const lapack_int size = lapack_size(n);
    const lapack_int count = lapack_size(columns);
    if (size < 0 || count < 0) {
        return KL_TOO_LARGE;
    }
    const lapack_int info =
        LAPACKE_dposv_work(LAPACK_COL_MAJOR, 'L', size, count, a, size, x, size);
    return lapack_told(info, stopped);
}
