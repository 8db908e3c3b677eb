/* bench_years.c - what the steps of time cost beside the steps of construction.
 *
 * A staged cap of 200 elements: 12 stages, ten causes (weight, prestress, six load cases, warmth, a settlement), once without
 * laws and once creeping, shrinking and relaxing for 10,000 days, with the steps of time as they are by default and twice as
 * many. Only kl_analyze is timed, in turns, and medians are printed. A *step* is one increment that is solved with all its
 * columns: of an operation, or of time. What comes before the first (mesh, profiles, checks) is timed by kl_validate.
 * SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "bound_text.h"
#include "kernline/kernline.h"
#include "result_store.h"
#include "time_steps.h"
#include "watch.h"

enum { ROUNDS = 9, WARMUP = 1, MOST_CAUSES = 64 };
enum { VALIDATED, PLAIN, YEARS, TWICE, WAYS };

#define LAWS_NONE  "creep none; shrinkage none"
#define LAWS_YEARS "creep en1992 2004; shrinkage en1992 2004"

static const char *const words[] = {"before the first step", "no laws", "laws, 24 steps a decade",
                                    "laws, 48 steps a decade"};

/* The cap of 84 ft stands on two columns; 40 posts, two groups of tendons stressed in two steps. */
static const char frame[] =
    "site { humidity 70 % }\n"
    "section cap { rectangle width 7 ft depth 7.5 ft }\nsection column { circle diameter 6 ft }\n"
    "node L at (0 ft, 30 ft); node R at (84 ft, 30 ft); node A at (14 ft, 0 ft); node B at (70 ft, "
    "0 "
    "ft)\n"
    "member cap from L to R section cap of mix { mesh 0.59 ft }\n"
    "node C on cap at 14 ft; node D on cap at 70 ft\n"
    "member col_1 from A to C section column of mix { rigid end 3.75 ft }\n"
    "member col_2 from B to D section column of mix { rigid end 3.75 ft }\n"
    "support A fixed; support B fixed\n"
    "tendon T1 in cap { of strand; strands 19 area 0.217 in^2; count 3; friction 0.2; wobble "
    "0.0002 per "
    "ft\n"
    "  seating 3/8 in; jack both ratio 0.75; duct 4.5 in offset 0.75 in; bonded grouted\n"
    "  profile from bottom { anchor at start height 2.75 ft; high at 14 ft height 4.5 ft; "
    "inflection "
    "at 20 ft\n"
    "    low at 42 ft height 0.9 ft; inflection at 64 ft; high at 70 ft height 4.5 ft; anchor at "
    "end "
    "height 2.75 ft } }\n"
    "tendon T2 like T1 { raise 1 ft }\n"
    "falsework bents under cap from 2 ft to 10 ft every 4 ft { posts 2; stiffness 450 kip/in }\n"
    "falsework more under cap from 19 ft to 65 ft every 3.5 ft { posts 2; stiffness 450 kip/in }\n"
    "falsework last under cap from 74 ft to 82 ft every 4 ft { posts 2; stiffness 450 kip/in }\n";

static const char history[] =
    "load girders { point 110 kip on cap from 6 ft to 78 ft every 8 ft }\n"
    "load deck { point 110 kip on cap from 6 ft to 78 ft every 8 ft }\n"
    "load barriers { uniform 0.5 klf on cap }\n"
    "load overlay { point 25 kip on cap from 6 ft to 78 ft every 8 ft }\n"
    "load pipes { uniform 0.1 klf on cap from 20 ft to 60 ft }\n"
    "load lanes { point 40 kip on cap from 6 ft to 78 ft every 8 ft }\n"
    "load summer { warm 30 degF on cap; gradient 10 degF on cap }\n"
    "load ground { settle 0.2 in at A down }\n"
    "stage columns at 0 day { cast col_1 col_2 }\n"
    "stage forms at 30 day { erect bents more last; cast cap }\n"
    "stage first at 44 day { stress T1 }\n"
    "stage released at 46 day { grout T1; release more; release bents; release last }\n"
    "stage beams at 75 day { load girders }\n"
    "stage second at 80 day { stress T2 }\n"
    "stage slab at 90 day { grout T2; load deck }\n"
    "stage edges at 120 day { load barriers }\n"
    "stage paved at 150 day { load overlay; load pipes }\n"
    "stage opened at 200 day { load lanes }\n"
    "stage settled at 1000 day { load ground; load summer }\n"
    "stage late at 10000 day\n";

static void write_model(const char *laws, const char *relaxation, char *text, size_t size)
{
    snprintf(
        text, size,
        "concrete mix { strength 6 ksi; transfer_strength 4.5 ksi; unit_weight 150 pcf; modulus "
        "aashto 2020; expansion 6e-6 per degF; %s }\n"
        "prestressing strand { ultimate 270 ksi; yield 243 ksi; modulus 28500 ksi; relaxation %s "
        "}\n%s%s",
        laws, relaxation, frame, history);
}

/* ---- one run --------------------------------------------------------------------------------------------- */

typedef struct run_figures {
    double seconds;
    long steps, elements, causes;
} run_figures;

static run_figures figures_of(const kl_results *results)
{
    const analysis_run *run = &results->run;
    kl_cause causes[MOST_CAUSES];
    kl_index count = MOST_CAUSES;
    kl_state_causes(results, kl_state_step(kl_step_count(results) - 1), causes, &count);
    return (run_figures){
        .steps = (long)run->turn, .elements = run->mesh.element_count, .causes = count};
}

static run_figures analyse(const kl_model *model, int way)
{
    kl_settings settings = kl_settings_default();
    settings.steps_per_decade = way == TWICE ? 2 * TIME_STEPS_PER_DECADE : 0;
    kl_diags *diags = kl_diags_create();
    kl_results *results = NULL;
    const watch start = watch_start();
    const kl_status status = way == VALIDATED ? kl_validate(model, diags)
                                              : kl_analyze(model, &settings, diags, &results);
    const double seconds = watch_stop(&start, 1);
    run_figures figures = {0};
    if (status != KL_OK) {
        fprintf(stderr, "bench_years: %s\n", kl_status_text(status));
        exit(1);
    }
    if (results) {
        figures = figures_of(results);
    }
    figures.seconds = seconds;
    kl_results_destroy(results);
    kl_diags_destroy(diags);
    return figures;
}

/* ---- the table ------------------------------------------------------------------------------------------- */

static void print_rows(const run_figures figures[WAYS])
{
    printf("%-26s %8s %8s %8s %10s %12s\n", "staged cap, 12 stages", "elements", "causes", "steps",
           "ms", "us a step");
    for (int way = 0; way < WAYS; way++) {
        const run_figures *f = &figures[way];
        printf("%-26s %8ld %8ld %8ld %10.2f", words[way], f->elements, f->causes, f->steps,
               1e3 * f->seconds);
        printf(f->steps > 0 ? " %12.0f\n" : "\n", 1e6 * f->seconds / (double)f->steps);
    }
}

static void print_ratios(const run_figures figures[WAYS])
{
    const double before = figures[VALIDATED].seconds;
    const double plain = figures[PLAIN].seconds;
    const double more = figures[YEARS].seconds - plain;
    const double steps = (double)(figures[YEARS].steps - figures[PLAIN].steps);
    const double average = figures[YEARS].seconds / (double)figures[YEARS].steps /
                           (plain / (double)figures[PLAIN].steps);
    const double alone = more / steps / ((plain - before) / (double)figures[PLAIN].steps);
    printf("a step, whole analyses: with laws to without            %6.2f   (goal: at most 3)\n",
           average);
    printf("a step of time to one of construction, starts taken off %6.2f\n", alone);
    printf("%.2f times the steps of time take so many times the time %6.2f   (goal: as many)\n",
           (double)(figures[TWICE].steps - figures[PLAIN].steps) / steps,
           (figures[TWICE].seconds - plain) / more);
}

int main(void)
{
    static const char *const laws[] = {LAWS_NONE, LAWS_YEARS};
    static const char *const relaxation[] = {"none", "low"};
    bound_text models[2];
    double seconds[WAYS][ROUNDS];
    run_figures figures[WAYS] = {{0}};
    kl_use_one_thread();
    for (int i = 0; i < 2; i++) {
        char text[8192];
        write_model(laws[i], relaxation[i], text, sizeof text);
        bound_text_make_well(&models[i], text);
    }
    for (int i = -WARMUP; i < ROUNDS; i++) {
        for (int way = 0; way < WAYS; way++) {
            figures[way] = analyse(models[way >= YEARS].model, way);
            seconds[way][i < 0 ? 0 : i] = figures[way].seconds;
        }
    }
    for (int way = 0; way < WAYS; way++) {
        figures[way].seconds = watch_median(seconds[way], ROUNDS);
    }
    print_rows(figures);
    print_ratios(figures);
    bound_text_release(&models[0]);
    bound_text_release(&models[1]);
    return 0;
}
