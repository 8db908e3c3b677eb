/* status.h - what a call of the library answers.
 *
 * Every public function that can fail returns kl_status; KL_OK is zero. What the *user* wrote wrongly is
 * told through diagnostics (diag.h), beside the status KL_BAD_MODEL.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_STATUS_H
#define KERNLINE_STATUS_H

/* name, text */
#define KL_STATUS_LIST(X)                                                                          \
    X(KL_OK, "all well")                                                                           \
    X(KL_NO_MEMORY, "out of memory")                                                               \
    X(KL_BAD_MODEL, "the model has errors")                                                        \
    X(KL_MECHANISM, "the structure can move without strain")                                       \
    X(KL_NO_CONTACT, "no set of contacts carries the load")                                        \
    X(KL_TOO_LARGE, "a limit of the program is exceeded")                                          \
    X(KL_NOT_THERE, "the thing asked for does not exist at that time or place")                    \
    X(KL_FILE_TROUBLE, "a file cannot be read or written")                                         \
    X(KL_NUMERIC, "the arithmetic broke down")                                                     \
    X(KL_MISUSE, "the library was called wrongly")

typedef enum kl_status {
#define KL_STATUS_ENUM(name, text) name,
    KL_STATUS_LIST(KL_STATUS_ENUM)
#undef KL_STATUS_ENUM
        KL_STATUS_COUNT
} kl_status;

/* The text of a status, never NULL. */
const char *kl_status_text(kl_status status);

/* Hand a failure to the caller; the same in every build. */
#define KL_TRY(call)                                                                               \
    do {                                                                                           \
        const kl_status kl_try_status_ = (call);                                                   \
        if (kl_try_status_ != KL_OK) {                                                             \
            return kl_try_status_;                                                                 \
        }                                                                                          \
    } while (0)

#endif
