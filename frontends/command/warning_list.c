/* warning_list.c - each automatic warning with one line of help.
 *
 * The names are written where the warnings arise; tests/cli/warnings_listed.sh sees that none is missing here and
 * none is left over.
 * SPDX-License-Identifier: MIT */
#include "warning_list.h"

/* clang-format off */
static const words_warning warnings[] = {
    /* falsework */
    {"row-overloaded",             "a row of posts carries more than its rated load"},
    {"row-gains-load",             "stressing sends load to a row though none was added"},
    {"lift-off",                   "stressing lifts the member off rows of posts; where their load goes"},
    {"uneven-settlement",          "neighbouring rows settle differently under the fresh concrete"},
    {"still-bearing",              "falsework still bears at the last stage"},
    {"never-erected",              "no stage erects the falsework"},
    {"never-released",             "falsework is not released by the last stage"},
    {"nothing-to-release",         "a release finds no row to strike"},
    {"erected-after-cast",         "falsework is erected under a member that stands already"},
    {"row-inside-column",          "a row of posts stands inside a column's width"},
    {"release-order",              "the release leaves midspan or an overhang last or first against the usual order"},
    {"carrier-unchecked",          "a member carries another's falsework in a stage that no check of it covers"},
    {"cast-on-nothing",            "a level member is cast with no falsework under it"},
    {"form-cantilever",            "fresh concrete hangs out beyond its last carrier"},
    /* tendons */
    {"never-stressed",             "a tendon that nothing stresses"},
    {"never-grouted",              "a bonded tendon that no stage grouts"},
    {"grouted-unstressed",         "a tendon is grouted before it is stressed"},
    {"long-ungrouted",             "a tendon lies stressed without grout for long"},
    {"stressed-young",             "the concrete is younger than its transfer strength asks"},
    {"stress-moves-nothing",       "the jack pulls less than what the anchors hold"},
    {"jack-stress-high",           "the stress at the jack is above the usual limit"},
    {"anchor-stress-high",         "the stress at an anchor after seating is above the usual limit"},
    {"tendon-stress-high",         "the stress along the tendon after seating is above the usual limit"},
    {"seating-takes-whole-tendon", "the seating of the wedges reaches the whole tendon"},
    {"duct-outside-section",       "a duct reaches beyond the section"},
    {"duct-near-face",             "little concrete is left between a duct and the section's face"},
    {"ducts-meet",                 "two ducts pass through each other"},
    {"profile-corner",             "a profile turns a corner"},
    {"profile-upside-down",        "a `high` or `low` that is not the highest or lowest of its curves"},
    {"tight-radius",               "a curve is tighter than usual for its duct"},
    {"ram-small",                  "the gauge pressure at full force is above that of usual pumps"},
    {"ram-too-large",              "the gauge pressure at full force is too low to be read well"},
    /* loads and stages */
    {"no-weight",                  "a member without weight among others that have it"},
    {"weight-twice",               "weight is counted twice"},
    {"unload-nothing",             "an unload of what is not on"},
    {"never-cast",                 "no stage casts or places the member"},
    {"support-never-added",        "no stage adds the support"},
    {"unused",                     "a material, section or case that nothing uses"},
    {"cause-never-arises",         "a combination has a factor for what nothing brings about"},
    /* frame */
    {"node-unused",                "no member begins or ends at the node"},
    {"nodes-not-joined",           "two nodes at one place with nothing between them"},
    {"square-and-plain",           "a skewed model mixes `square` and plain stations along one member"},
    {"members-cross",              "members cross or lie on one another without a node"},
    {"support-pulls",              "a fixed support holds the structure down"},
    {"cracked-section",            "a section is in tension beyond cracking: uncracked stiffness attracts too much"},
    /* checks */
    {"passes-only-at-stage-end",   "a stress passes at the end of a stage, but not on the way"},
    {"no-losses",                  "a service check in a model without long-term losses"},
    {"check-sees-nothing",         "a check looks at what does not stand then"},
    {"check-without-strength",     "a check needs a strength that is not stated"},
    {"check-without-stress",       "a check cannot find the stress at a face"},
    /* reading */
    {"unusual-value",              "a value outside its usual range"},
    {"square-and-plain",           "a member of a skewed model has both plain and `square` stations"},
};
/* clang-format on */

const words_warning *warning_list(size_t *count)
{
    *count = sizeof warnings / sizeof warnings[0];
    return warnings;
}
