/* version.h - the version of the library and of the language it reads.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_VERSION_H
#define KERNLINE_VERSION_H

#define KL_VERSION_MAJOR    0
#define KL_VERSION_MINOR    1
#define KL_VERSION_PATCH    0
#define KL_VERSION_TEXT     "0.1.0"
#define KL_LANGUAGE_VERSION 1

#endif
