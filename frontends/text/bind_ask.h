/* bind_ask.h - what checks and expectations share: when, and causes.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_BIND_ASK_H
#define KERNLINE_BIND_ASK_H

#include "bind_context.h"

/* `after`, `during` or `under` of a phrase; unset when there is none. */
kl_when bind_when(binder *b, const phrase *p);

/* The cause a word names, if it names one. */
bool bind_cause_word(const char *word, kl_cause *cause);

#endif
