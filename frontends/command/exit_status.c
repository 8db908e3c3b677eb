/* exit_status.c - from the library's status to the program's.
 * SPDX-License-Identifier: MIT */
#include "exit_status.h"

exit_status exit_status_of(kl_status status)
{
    switch (status) {
    case KL_OK:
        return EXIT_ALL_WELL;
    case KL_BAD_MODEL:
        return EXIT_BAD_MODEL;
    case KL_MECHANISM:
    case KL_NO_CONTACT:
    case KL_NUMERIC:
        return EXIT_NO_ANALYSIS;
    case KL_NOT_THERE:
        return EXIT_WRONG_USE;
    case KL_NO_MEMORY:
    case KL_TOO_LARGE:
    case KL_FILE_TROUBLE:
    case KL_MISUSE:
    case KL_STATUS_COUNT:
        return EXIT_FILE_TROUBLE;
    }
    return EXIT_FILE_TROUBLE;
}
