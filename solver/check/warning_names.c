/* warning_names.c - every warning that comes without being asked, wherever it arises, with one line of help.
 *
 * Their order here is the order of danger, in which the summary and the package tell them: a new one is put among those that
 * it is as grave as.
 *
 * The names are written where the warnings arise: the model check (solver/model/consistency_*.c), the tendons
 * (solver/tendon/tendon_warn_*.c), the checks and results (this folder), the reader.
 * SPDX-License-Identifier: MIT */
#include "kernline/check.h"

static const kl_warning_name warning_names[] = {
    /* danger: something may give way, fall or be stressed beyond what it bears */
    {"row-overloaded", "a row of posts carries more than its rated load"},
    {"row-gains-load",
     "stressing multiplies the load of a row, as under a hinge, with no load added"},
    {"lift-off", "stressing lifts the member off rows of posts, and where their load went"},
    {"cast-on-nothing", "a level member is cast with no falsework under it"},
    {"form-cantilever", "fresh concrete hangs out beyond its last carrier"},
    {"support-pulls", "a support holds the structure down"},
    {"bearing-pulls", "a bearing holds down what rests on it"},
    {"carrier-unchecked",
     "a member carries another's falsework in a stage that no check of it covers"},
    {"release-order",
     "the release leaves midspan or an overhang last or first against the usual order"},
    {"still-bearing", "falsework still bears at the last stage"},
    {"never-released", "falsework is not released by the last stage"},
    {"uneven-settlement", "neighbouring rows settle differently while the concrete is fresh"},
    {"jack-stress-high", "the stress at the jack is above the usual limit"},
    {"anchor-stress-high", "the stress at an anchor after seating is above the usual limit"},
    {"tendon-stress-high", "the stress along the tendon after seating is above the usual limit"},
    {"stressed-young", "the concrete is younger than its transfer strength asks"},
    {"passes-only-at-stage-end", "a stress passes at the end of a stage but not on the way"},
    {"duct-outside-section", "a duct reaches beyond the section"},
    {"never-grouted", "a bonded tendon that no stage grouts"},
    {"long-ungrouted", "a tendon lies stressed without grout for long"},
    /* doubt: the results may be those of another structure than is meant, or a check be none */
    {"cracked-section",
     "tension beyond usual cracking: uncracked stiffness overstates what it attracts"},
    {"weight-twice", "weight is counted twice"},
    {"loaded-twice", "a case is loaded once more while it is on the structure"},
    {"no-weight", "a member without weight among others that have it"},
    {"unload-nothing", "an unload of what is not on"},
    {"nodes-not-joined", "two nodes at one place with nothing between them"},
    {"members-cross", "members cross or lie on one another without a node"},
    {"square-and-plain", "a skewed model mixes `square` and plain stations along one member"},
    {"never-cast", "no stage casts or places the member"},
    {"support-never-added", "no stage adds the support"},
    {"never-stressed", "a tendon that nothing stresses"},
    {"never-erected", "no stage erects the falsework"},
    {"erected-after-cast", "falsework is erected under a member that stands already"},
    {"row-inside-column", "a row of posts stands inside a column's width"},
    {"cause-left-out",
     "a combination of causes has no factor for another, or for a case, that is there at the end"},
    {"cause-never-arises", "a combination has a factor for what nothing brings about"},
    {"loss-not-given", "friction, wobble or seating of a tendon is not given and taken as 0"},
    {"bonded-steel-unsaid",
     "a check has the limit of tension without bonded steel, and the member has bars"},
    {"check-without-strength", "a check needs a strength that is not stated"},
    {"check-without-stress", "a check cannot find the stress at a face"},
    {"check-sees-nothing", "a check looks at what does not stand then"},
    {"no-losses", "a service check in a model without long-term losses"},
    {"no-long-term", "results of service or camber are asked for, and the last stage is early"},
    {"loss-twice", "a lump-sum loss of a tendon that loses by a law too"},
    {"time-law-idle", "a law of creep, shrinkage or relaxation, and no time that passes"},
    {"law-out-of-scope", "a member is outside what its law of creep or shrinkage was made for"},
    {"relaxation-out-of-scope",
     "a tendon's stress is outside what its law of relaxation was made for"},
    {"creep-not-linear", "a stress above that up to which the law has creep proportional to it"},
    {"creep-curve-rough", "a creep curve that the analysis follows roughly only"},
    {"unusual-value", "a value outside its usual range"},
    /* remark: worth a look, seldom amiss */
    {"seating-takes-whole-tendon", "the seating of the wedges reaches the whole tendon"},
    {"stress-moves-nothing", "the jack pulls less than what the anchors hold"},
    {"profile-corner", "a profile turns a corner"},
    {"profile-upside-down", "a `high` or `low` that is not the highest or lowest of its curves"},
    {"duct-small", "a duct has less room than is usual for its steel"},
    {"tight-radius", "a curve is tighter than usual for its duct"},
    {"duct-near-face", "little concrete is left between a duct and the section's face"},
    {"ducts-meet", "two ducts pass through each other"},
    {"dead-end-idle", "a draw-in of the far anchor, where both ends are pulled at once"},
    {"ram-small", "the gauge pressure at full force is above that of usual pumps"},
    {"ram-too-large", "the gauge pressure at full force is too low to be read well"},
    {"node-unused", "no member begins or ends at the node"},
    {"unused", "a material, section or case that nothing uses"},
};

const kl_warning_name *kl_warning_names(size_t *count)
{
    *count = sizeof warning_names / sizeof warning_names[0];
    return warning_names;
}
