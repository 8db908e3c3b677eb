/* warning_list.h - the automatic warnings by their stable names, for `kernline words warnings`.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_WARNING_LIST_H
#define KERNLINE_WARNING_LIST_H

#include "words.h"

const words_warning *warning_list(size_t *count);

#endif
