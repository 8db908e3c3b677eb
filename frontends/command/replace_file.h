/* replace_file.h - put a whole file in its place at once: whatever happens, either the old or the new one is there.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_REPLACE_FILE_H
#define KERNLINE_REPLACE_FILE_H

#include <stdbool.h>
#include <stddef.h>

/* Write beside the file and rename. A link stays a link: its target is replaced. A file that was there keeps its permissions.
 * @return false with errno set when it cannot be done; the old file is then as it was. */
bool replace_file(const char *path, const void *bytes, size_t length);

#endif
