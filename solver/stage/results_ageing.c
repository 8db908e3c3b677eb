/* results_ageing.c - questions about creep and shrinkage of a member's concrete.
 * SPDX-License-Identifier: MIT */
#include "result_store.h"
#include "shrinkage.h"

/* The mix that a member is of, NULL: no law at all. */
static const ageing_mix *mix_of(const kl_results *results, kl_index member)
{
    const ageing *g = &results->run.ageing;
    const kl_index mix = g->mix_of[member];
    return mix == KL_NONE ? NULL : &g->mixes[mix];
}

kl_status kl_creep_of_member(const kl_results *results,
                             kl_index member,
                             double loading,
                             double age,
                             double *coefficient,
                             double *compliance)
{
    const ageing_mix *mix = mix_of(results, member);
    if (!mix || mix->subject.law == TIME_LAW_NONE) {
        return KL_NOT_THERE;
    }
    *coefficient = mix->scaled.factor *
                   creep_coefficient(mix->subject.law, &mix->subject.concrete, age, loading);
    *compliance = creep_function_compliance(&mix->chain.law, age, loading);
    return KL_OK;
}

kl_status
kl_shrinkage_of_member(const kl_results *results, kl_index member, double age, double *strain)
{
    const ageing_mix *mix = mix_of(results, member);
    if (!mix || mix->shrinkage == TIME_LAW_NONE) {
        return KL_NOT_THERE;
    }
    *strain = results->run.ageing.shrinkage_factor *
              shrinkage_strain(mix->shrinkage, &mix->subject.concrete, age);
    return KL_OK;
}
