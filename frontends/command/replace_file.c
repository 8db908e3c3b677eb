/* replace_file.c - see replace_file.h.
 * SPDX-License-Identifier: MIT */
#define _XOPEN_SOURCE 700 /* realpath */

#include "replace_file.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* Write all to an open file and make sure that it arrived. */
static bool replace_fill(int file, const char *bytes, size_t left)
{
    while (left > 0) {
        const ssize_t written = write(file, bytes, left);
        if (written < 0 && errno != EINTR) {
            return false;
        }
        if (written > 0) {
            bytes += written;
            left -= (size_t)written;
        }
    }
    return fsync(file) == 0;
}

/* The permissions of the old file; those of a new one as the user's mask has them. */
static mode_t replace_mode(const char *target)
{
    struct stat old;
    if (stat(target, &old) == 0) {
        return old.st_mode & 07777;
    }
    const mode_t mask = umask(0);
    (void)umask(mask);
    return 0666 & ~mask;
}

static bool replace_target(const char *target, char *scratch, const char *bytes, size_t length)
{
    const int file = mkstemp(scratch);
    if (file < 0) {
        return false;
    }
    const bool is_filled =
        replace_fill(file, bytes, length) && fchmod(file, replace_mode(target)) == 0;
    const int failure = errno;
    if (close(file) != 0 || !is_filled || rename(scratch, target) != 0) {
        const int kept = is_filled ? errno : failure;
        (void)unlink(scratch);
        errno = kept;
        return false;
    }
    return true;
}

bool replace_file(const char *path, const void *bytes, size_t length)
{
    char *resolved = realpath(path, NULL); /* NULL: a new file */
    const char *target = resolved ? resolved : path;
    const size_t room = strlen(target) + sizeof ".XXXXXX";
    char *scratch = malloc(room);
    bool done = false;
    if (scratch) {
        snprintf(scratch, room, "%s.XXXXXX", target);
        done = replace_target(target, scratch, bytes, length);
    }
    const int kept = scratch ? errno : ENOMEM;
    free(scratch);
    free(resolved);
    errno = kept;
    return done;
}
