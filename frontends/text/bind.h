/* bind.h - from the phrases of a text to a model.
 *
 * Names are resolved here, because a thing may be used before it is defined; sets are spread out, `like` is
 * followed, stations and intensities become lengths and loads along the member's line, and each phrase becomes
 * one call of kl_model_add_…. Phrases of features that are not computed yet (traffic, lanes) are passed
 * over: the parser has said so.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_BIND_H
#define KERNLINE_BIND_H

#include "kernline/model.h"
#include "phrase.h"

/* Make a model of a document.
 *
 * All errors of the document are reported in one run; what merely depends on something wrong is passed over in
 * silence, a phrase that the parser left out included. The model keeps no pointer into the document, but every entity keeps its origin.
 *
 * @param diags receives every message, now and later (it is the model's); must outlive the model.
 * @param out receives a model that the caller destroys; NULL on failure.
 * @return KL_OK; KL_BAD_MODEL after an error was reported, here or by the parser; KL_NO_MEMORY, with everything freed. */
kl_status bind_document(const text_document *document, kl_diags *diags, kl_model **out);

/* Bind what text_parse left, if that makes sense: after mistakes as well, so that those that only references show
 * are told in the same run, but not when phrases may be missing of which nothing is known.
 * @param read what text_parse returned. @return that, or what bind_document returns. */
kl_status
bind_after(kl_status read, const text_document *document, kl_diags *diags, kl_model **out);

#endif
