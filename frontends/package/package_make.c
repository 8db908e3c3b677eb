/* package_make.c - the list of sheets, in the order in which they are read.
 * SPDX-License-Identifier: MIT */
#include "package_make.h"

#include <sha2.h>
#include <stdint.h>

#include "maker.h"

typedef struct sheet_row {
    int number; /* as docs/package.md counts: the numbers of what is not there are left out */
    const char *id, *title;
    sheet_maker *make;
} sheet_row;

static const sheet_row make_sheets[] = {
    {0, "cover", "Cover", sheet_cover},
    {1, "glance", "At a glance", sheet_glance},
    {2, "frame", "The frame", sheet_frame},
    {3, "materials", "Materials", sheet_materials},
    {4, "sections", "Sections", sheet_sections},
    {5, "loads", "Loads", sheet_loads},
    {6, "tendons", "Tendon profiles", sheet_tendons},
    {7, "tendon_force", "Tendon force", sheet_tendon_force},
    {8, "stressing", "Stressing sheets", sheet_stressing},
    {9, "stages", "Construction stages", sheet_stages},
    {10, "posts", "Falsework posts", sheet_posts},
    {11, "actions", "Moment, shear and axial force", sheet_actions},
    {12, "secondary", "Secondary actions", sheet_secondary},
    {13, "stresses", "Stresses", sheet_stresses},
    {14, "checks", "Checks", sheet_checks},
    {15, "losses", "Losses", sheet_losses},
    {16, "movements", "Deflection and camber", sheet_movements},
    {17, "grades", "Form grades", sheet_grades},
    {18, "reactions", "Reactions and equilibrium", sheet_reactions},
    {21, "expectations", "Expected values and sensitivities", sheet_expectations},
    {22, "basis", "Assumptions, warnings and the model", sheet_basis},
};

kl_status package_make(package *p, const package_input *input)
{
    const kl_model *model = kl_results_model(input->summary.results);
    package_start(p, model->title[0] != '\0' ? model->title : input->summary.file, LABEL_CAUTION);
    maker m = {.package = p,
               .input = input,
               .results = input->summary.results,
               .model = model,
               .report = input->summary.report,
               .steps = kl_step_count(input->summary.results)};
    for (size_t i = 0; i < sizeof make_sheets / sizeof make_sheets[0]; i++) {
        package_sheet(p, make_sheets[i].number, make_sheets[i].id, make_sheets[i].title);
        make_sheets[i].make(&m);
        package_drop_empty(p);
    }
    return p->status;
}

void package_digest(char digest[PACKAGE_DIGEST_SIZE], const char *bytes, size_t length)
{
    static const char hexadecimal[] = "0123456789abcdef";
    uint8_t raw[SHA256_DIGEST_LENGTH];
    SHA2_CTX context;
    SHA256Init(&context);
    SHA256Update(&context, (const uint8_t *)bytes, length);
    SHA256Final(raw, &context);
    for (size_t i = 0; i < sizeof raw; i++) {
        digest[2 * i] = hexadecimal[raw[i] >> 4];
        digest[2 * i + 1] = hexadecimal[raw[i] & 15U];
    }
    digest[2 * sizeof raw] = '\0';
}
