/* fuzz_staged.c - bytes choose a staged model; it is solved, and its supports and posts carry what was put on it.
 *
 * The sum of the loads is worked out while the model is written, not by the program.
 * SPDX-License-Identifier: MIT */
#include "try_text.h"

#include <math.h>
#include <stdlib.h>

#include "generate_model.h"

/* What the ground carries after the last step, N. */
static double ground_carries(const try_text *t)
{
    const kl_state last = kl_state_step(kl_step_count(t->results) - 1);
    double sum = 0.0;
    for (kl_index node = 0; node < t->model->node_count; ++node) {
        double value = 0.0;
        sum += kl_reaction(t->results, last, node, KL_Y, &value) == KL_OK ? value : 0.0;
    }
    for (kl_index i = 0; i < t->model->falsework_count; ++i) {
        for (kl_index row = 0; row < t->model->falsework[i].row_count; ++row) {
            kl_post_row post = {0};
            const kl_status status = kl_row_state(t->results, last, i, row, &post);
            sum += status == KL_OK && post.stands ? post.force : 0.0;
        }
    }
    return sum;
}

static void check_statics(const char *text, size_t length, const generated_facts *facts)
{
    try_text t = {0};
    const kl_status status = try_solve(&t, (const uint8_t *)text, length);
    if (facts->is_sound && status != KL_OK) {
        for (kl_index i = 0; i < kl_diags_count(t.diags); ++i) {
            const kl_diag *diag = kl_diags_get(t.diags, i);
            fputs(diag->severity == KL_ERROR ? source_render(&t.sources, diag, &t.memory) : "",
                  stderr);
        }
        try_law(status == KL_NO_CONTACT || status == KL_NUMERIC, "a sound model is refused: %s\n%s",
                kl_status_text(status), text);
    }
    if (status == KL_OK) {
        const double carried = ground_carries(&t);
        try_law(fabs(carried - facts->downward) < 1e-6 * facts->downward,
                "%.12g N were put on, the ground carries %.12g N\n%s", facts->downward, carried,
                text);
    }
    try_free(&t);
}

int fuzz_staged(const uint8_t *data, size_t size)
{
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    try_law(out != NULL, "out of memory");
    generated_facts facts;
    generate_model(data, size, out, &facts);
    fclose(out);
    if (getenv("FUZZ_SHOW") != NULL) {
        fputs(text, stderr);
    }
    check_statics(text, length, &facts);
    try_twice((const uint8_t *)text, length);
    free(text);
    return 0;
}

FUZZ_ENTRY(fuzz_staged)
