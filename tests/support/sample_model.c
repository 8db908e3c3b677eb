/* sample_model.c - see sample_model.h.
 * SPDX-License-Identifier: MIT */
#include "sample_model.h"

#include "assert_close.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bind.h"
#include "parser.h"

const char SAMPLE_CAP[] =
    "title \"Sample cap\"\n"
    "concrete mix { strength 6 ksi; transfer_strength 4 ksi; unit_weight 150 pcf; modulus 4500 "
    "ksi\n"
    "  creep none; shrinkage none }\n"
    "prestressing strand { ultimate 270 ksi; yield 243 ksi; modulus 28500 ksi; relaxation none }\n"
    "section cap_section { rectangle width 5 ft depth 5 ft }\n"
    "section column { circle diameter 5 ft }\n"
    "node L at (0 ft, 20 ft)\n"
    "node R at (60 ft, 20 ft)\n"
    "node A at (12 ft, 0 ft)\n"
    "node B at (48 ft, 0 ft)\n"
    "member cap from L to R section cap_section of mix\n"
    "node C on cap at 12 ft\n"
    "node D on cap at 48 ft\n"
    "member col_1 from A to C section column of mix\n"
    "member col_2 from B to D section column of mix\n"
    "support A fixed\n"
    "support B fixed\n"
    "tendon T1 in cap {\n"
    "  of strand\n"
    "  strands 12 area 0.217 in^2\n"
    "  profile from bottom {\n"
    "    anchor at 0 ft height 2.5 ft\n"
    "    high at 12 ft height 4 ft\n"
    "    inflection at 18 ft\n"
    "    low at 30 ft height 1 ft\n"
    "    inflection at 42 ft\n"
    "    high at 48 ft height 4 ft\n"
    "    anchor at 60 ft height 2.5 ft\n"
    "  }\n"
    "  friction 0.2\n"
    "  wobble 0.0002 per ft\n"
    "  seating 1/4 in\n"
    "  jack both ratio 0.75\n"
    "  duct 4 in\n"
    "  bonded grouted\n"
    "}\n"
    "tendon T2 like T1 { raise 6 in }\n"
    "falsework bents under cap from 3 ft to 57 ft every 9 ft { posts 2; stiffness 400 kip/in; "
    "capacity 20 kip }\n"
    "load girders { point 100 kip on cap from 6 ft to 54 ft every 12 ft }\n"
    "load live { uniform 2 klf on cap }\n"
    "stage columns_cast at 0 day { cast col_1 col_2 }\n"
    "stage cap_cast at 28 day { erect bents; cast cap }\n"
    "stage step_1 at 56 day { stress T1 T2 }\n"
    "stage released wait 2 day { release bents }\n"
    "stage loaded at 90 day { grout T1 T2; load girders; lose T1 T2 20 ksi }\n"
    "check transfer stress { members cap; during step_1; condition transfer; rules aashto 2020 }\n"
    "check service stress { members cap; after loaded; compression 1 ksi; tension 0 ksi }\n"
    "expect reaction x at A after cap_cast = 1000 kip within 1 kip\n";

const char SAMPLE_PORTAL[] = "show si\n"
                             "material steel { modulus 200 GPa }\n"
                             "section strip { area 100 cm^2; inertia 10000 cm^4 }\n"
                             "node A at (0 m, 0 m)\n"
                             "node B at (0 m, 4 m)\n"
                             "node C at (6 m, 4 m)\n"
                             "node D at (6 m, 0 m)\n"
                             "member left_leg from A to B section strip of steel\n"
                             "member beam from B to C section strip of steel\n"
                             "member right_leg from C to D section strip of steel\n"
                             "support A fixed\n"
                             "support D pinned\n"
                             "load dead { uniform 10 kN/m on beam }\n"
                             "load push { point 12 kN at B right }\n"
                             "combination both { factor 1.2 of dead; factor 1.5 of push }\n";

static kl_status sample_solve(sample_model *s, const char *text)
{
    text_document document = {0};
    s->diags = kl_diags_create();
    if (s->diags == NULL) {
        return KL_NO_MEMORY;
    }
    KL_TRY(text_parse_text(&s->sources, "sample", text, strlen(text), &s->memory, s->diags,
                           &document));
    KL_TRY(bind_document(&document, s->diags, &s->model));
    KL_TRY(kl_model_check(s->model));
    KL_TRY(kl_analyze(s->model, NULL, s->diags, &s->results));
    return kl_run_checks(s->results, s->diags, &s->report);
}

void sample_model_solve(sample_model *s, const char *text)
{
    memset(s, 0, sizeof *s);
    const kl_status status = sample_solve(s, text);
    if (status != KL_OK) {
        for (kl_index i = 0; i < kl_diags_count(s->diags); ++i) {
            print_message("%s\n", kl_diags_get(s->diags, i)->message);
        }
        sample_model_free(s);
        fail_msg("%s", kl_status_text(status));
    }
}

void sample_model_free(sample_model *s)
{
    kl_check_report_destroy(s->report);
    kl_results_destroy(s->results);
    kl_model_destroy(s->model);
    kl_diags_destroy(s->diags);
    arena_free(&s->memory);
    source_free(&s->sources);
}

int sample_models_solve(void **state)
{
    sample_model *models = calloc(2, sizeof *models);
    if (models == NULL) {
        return -1;
    }
    *state = models;
    sample_model_solve(&models[0], SAMPLE_CAP);
    sample_model_solve(&models[1], SAMPLE_PORTAL);
    return 0;
}

int sample_models_free(void **state)
{
    sample_model *models = *state;
    sample_model_free(&models[0]);
    sample_model_free(&models[1]);
    free(models);
    return 0;
}
