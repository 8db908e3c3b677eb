/* cmd_sensitivity.c - `kernline sensitivity`: how far the ratio of each check moves with what nobody knows well.
 *
 * The model is analysed again for each variant; the checks of all are held side by side.
 * SPDX-License-Identifier: MIT */
#include "commands.h"

#include <math.h>
#include <string.h>

#include "asked.h"
#include "label.h"

/* Laws of creep and shrinkage scatter by about thirty per cent. */
static const struct {
    const char *name;
    double creep, shrinkage;
} sensitivity_variants[] = {
    {"creep x 0.7", 0.7, 1.0},
    {"creep x 1.3", 1.3, 1.0},
    {"shrinkage x 0.7", 1.0, 0.7},
    {"shrinkage x 1.3", 1.0, 1.3},
};
enum { VARIANTS = sizeof sensitivity_variants / sizeof sensitivity_variants[0] };

typedef struct sensitivity {
    kl_results *results[VARIANTS];
    kl_check_report *reports[VARIANTS];
} sensitivity;

static kl_status sensitivity_solve(const kl_model *model, sensitivity *out)
{
    kl_diags *unheard = kl_diags_create(); /* the analysis as computed has told its warnings */
    kl_status status = unheard != NULL ? KL_OK : KL_NO_MEMORY;
    for (int i = 0; i < VARIANTS && status == KL_OK; ++i) {
        kl_settings settings = kl_settings_default();
        settings.creep_factor = sensitivity_variants[i].creep;
        settings.shrinkage_factor = sensitivity_variants[i].shrinkage;
        status = kl_analyze(model, &settings, unheard, &out->results[i]);
        if (status == KL_OK) {
            status = kl_run_checks(out->results[i], unheard, &out->reports[i]);
        }
    }
    kl_diags_destroy(unheard);
    return status;
}

static void sensitivity_free(sensitivity *s)
{
    for (int i = 0; i < VARIANTS; ++i) {
        kl_check_report_destroy(s->reports[i]);
        kl_results_destroy(s->results[i]);
    }
}

/* The same limit in another report; NULL when it does not come up there. */
static const kl_check_result *sensitivity_find(const kl_check_report *report,
                                               const kl_check_result *wanted)
{
    for (kl_index i = 0; i < kl_check_result_count(report); ++i) {
        const kl_check_result *r = kl_check_result_at(report, i);
        if (r->check == wanted->check && r->member == wanted->member &&
            r->tendon == wanted->tendon && r->face == wanted->face &&
            strcmp(r->limit_name, wanted->limit_name) == 0) {
            return r;
        }
    }
    return NULL;
}

/* Beyond a limit of zero there is no ratio to print. */
static void sensitivity_put_ratio(table *t, double ratio)
{
    table_put(t, isinf(ratio) ? (double)NAN : ratio);
}

static void sensitivity_put(table *t, const work *w, const sensitivity *s, const kl_check_result *r)
{
    double least = r->ratio, largest = r->ratio; /* infinite beyond a limit of zero */
    const char *makes = "as computed";
    bool holds = true;
    for (int i = 0; i < VARIANTS; ++i) {
        const kl_check_result *varied = sensitivity_find(s->reports[i], r);
        if (varied == NULL) {
            continue;
        }
        holds = holds && varied->passed;
        least = fmin(least, varied->ratio);
        if (varied->ratio > largest + 1e-9) { /* not by rounding alone */
            largest = varied->ratio;
            makes = sensitivity_variants[i].name;
        }
    }
    table_put_text(t, w->model->checks[r->check].name);
    table_put_text(t, r->limit_name);
    table_put_text(t, r->member != KL_NONE   ? w->model->members[r->member].name
                      : r->tendon != KL_NONE ? w->model->tendons[r->tendon].name
                                             : "");
    table_put_text(t, label_face(r->face));
    sensitivity_put_ratio(t, least);
    sensitivity_put_ratio(t, r->ratio);
    sensitivity_put_ratio(t, largest);
    table_put_text(t, makes);
    table_put_text(t, !r->passed ? "FAILS" : holds ? "passes" : "may fail");
}

static void sensitivity_fill(table *t, const work *w, const sensitivity *s)
{
    table_title(t, "Ratio of each check, as creep and shrinkage vary");
    table_add_words(t, COLUMN_WORD, "check", "check");
    table_add_words(t, COLUMN_WORD, "limit_name", "limit");
    table_add_words(t, COLUMN_WORD, "on", "on");
    table_add_words(t, COLUMN_WORD, "face", "face");
    table_add(t, COLUMN_FIGURE, "ratio_least", "ratio\nleast", KL_MEASURE_NUMBER, 4);
    table_add(t, COLUMN_FIGURE, "ratio", "ratio as\ncomputed", KL_MEASURE_NUMBER, 4);
    table_add(t, COLUMN_FIGURE, "ratio_largest", "ratio\nlargest", KL_MEASURE_NUMBER, 4);
    table_add_words(t, COLUMN_WORD, "made_by", "largest by");
    table_add_words(t, COLUMN_WORD, "verdict", "verdict");
    for (kl_index i = 0; i < kl_check_result_count(w->report); ++i) {
        sensitivity_put(t, w, s, kl_check_result_at(w->report, i));
    }
    table_note(t,
               "Each variant alone: creep (phi) or shrinkage at 0.7 or 1.3 of what the law gives. "
               "Friction and moduli stay as given. Beside a limit of 0 there is no ratio.");
}

static kl_status sensitivity_print(const work *w, const options *o)
{
    sensitivity s = {{NULL}, {NULL}};
    kl_status status = sensitivity_solve(w->model, &s);
    if (status == KL_OK) {
        table t;
        table_start(&t, "sensitivity", &w->model->display);
        sensitivity_fill(&t, w, &s);
        status = t.status == KL_OK ? command_write_table(&t, o) : t.status;
        table_free(&t);
    }
    sensitivity_free(&s);
    return status;
}

exit_status cmd_sensitivity(const options *o)
{
    work w = {0};
    kl_status status = work_read(&w, o->operands[0]);
    if (status == KL_OK) {
        status = work_solve(&w, NULL);
    }
    exit_status result = work_tell(&w, status, status != KL_OK);
    if (status == KL_OK) {
        result = asked_close(&w, sensitivity_print(&w, o)); /* main tells of standard output */
    }
    work_close(&w);
    return result;
}
