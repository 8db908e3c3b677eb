/* fault.c - see fault.h.
 * SPDX-License-Identifier: MIT */
#include "fault.h"

#include <errno.h>
#include <pthread.h>
#include <stddef.h>

void *__real_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__real_realloc(void *block, size_t size);
int __real_pthread_create(pthread_t *thread,
                          const pthread_attr_t *attributes,
                          void *(*run)(void *),
                          void *given);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_realloc(void *block, size_t size);
int __wrap_pthread_create(pthread_t *thread,
                          const pthread_attr_t *attributes,
                          void *(*run)(void *),
                          void *given);

static long left = -1;
static int struck;

void fault_after(long k)
{
    left = k;
    struck = 0;
}

int fault_struck(void)
{
    return struck;
}

static int fails_now(void)
{
    if (left < 0) {
        return 0;
    }
    if (left == 0) {
        struck = 1;
        return 1;
    }
    left--;
    return 0;
}

void *__wrap_malloc(size_t size)
{
    return fails_now() ? NULL : __real_malloc(size);
}

void *__wrap_calloc(size_t count, size_t size)
{
    return fails_now() ? NULL : __real_calloc(count, size);
}

void *__wrap_realloc(void *block, size_t size)
{
    return fails_now() ? NULL : __real_realloc(block, size);
}

int __wrap_pthread_create(pthread_t *thread,
                          const pthread_attr_t *attributes,
                          void *(*run)(void *),
                          void *given)
{
    return fails_now() ? EAGAIN : __real_pthread_create(thread, attributes, run, given);
}
