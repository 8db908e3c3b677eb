/* sheets_front.c - the cover: what was analysed, by what, after which codes, with how many warnings, and room for who made and
 * who checked it.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "kernline/version.h"
#include "law_name.h"
#include "maker.h"

static void cover_put_sources(maker *m)
{
    for (kl_index i = 0; i < m->input->source_count; i++) {
        const package_source *source = &m->input->sources[i];
        char digest[PACKAGE_DIGEST_SIZE];
        package_digest(digest, source->text, source->length);
        package_fact(m->package, BLOCK_FACTS, i == 0 ? "Model file" : "Included file", "%s",
                     source->name);
        package_fact(m->package, BLOCK_FACTS, "SHA-256 of its bytes", "%s", digest);
    }
}

/* Each edition once, in one line. */
static void cover_put_codes(maker *m)
{
    const char *names[LAW_NAME_LIMIT];
    const int count = law_editions(m->model, names);
    char text[600] = "";
    size_t used = 0;
    for (int i = 0; i < count && used + strlen(names[i]) + 3 < sizeof text; i++) {
        const int written =
            snprintf(text + used, sizeof text - used, "%s%s", i > 0 ? "; " : "", names[i]);
        used += written > 0 ? (size_t)written : 0;
    }
    package_fact(m->package, BLOCK_FACTS, "Code editions and published laws", "%s",
                 count > 0 ? text : "none: limits and laws are the model's own");
}

static void cover_put_units(maker *m)
{
    const kl_display *shown = &m->model->display;
    package_fact(m->package, BLOCK_FACTS, "Units", "%s, %s, %s, %s, %s",
                 kl_show_unit(shown, KL_MEASURE_FORCE), kl_show_unit(shown, KL_MEASURE_STATION),
                 kl_show_unit(shown, KL_MEASURE_MOMENT), kl_show_unit(shown, KL_MEASURE_STRESS),
                 kl_show_unit(shown, KL_MEASURE_DEFLECTION));
}

static void cover_put_verdict(maker *m, const summary_verdict *v)
{
    package_fact(m->package, BLOCK_FACTS, "Equilibrium", "%s",
                 v->states == 0 ? "no step or load case to hold in balance"
                 : !v->balanced ? "OUT OF BALANCE: see sheet 18"
                 : m->steps > 0 ? "in balance at every step"
                                : "in balance under every load case");
    if (v->checks > 0) {
        package_fact(m->package, BLOCK_FACTS, "Checks", "%d of %d fail", (int)v->checks_failed,
                     (int)v->checks);
    } else {
        package_fact(m->package, BLOCK_FACTS, "Checks", "the model asks for none");
    }
    if (v->posts.rated > 0) {
        package_fact(m->package, BLOCK_FACTS, "Rows of posts above their rated load", "%d of %d",
                     (int)v->posts.over, (int)v->posts.rated);
    }
    if (v->expectations > 0) {
        package_fact(m->package, BLOCK_FACTS, "Expected values", "%d of %d missed",
                     (int)v->expectations_missed, (int)v->expectations);
    }
    package_fact(m->package, BLOCK_FACTS, "Warnings", "%d%s", (int)m->input->summary.warning_count,
                 m->input->summary.warning_count > 0 ? ", listed on sheet 22" : "");
}

static void cover_put_alert(maker *m, const summary_verdict *v)
{
    char text[200] = "";
    size_t used = 0;
    if (v->posts.over > 0) {
        used += (size_t)snprintf(text, sizeof text, "%d of %d rows of posts above their rated load",
                                 (int)v->posts.over, (int)v->posts.rated);
    }
    if (v->checks_failed > 0) {
        used += (size_t)snprintf(text + used, sizeof text - used, "%s%d of %d checks",
                                 used > 0 ? ", " : "", (int)v->checks_failed, (int)v->checks);
    }
    if (v->expectations_missed > 0) {
        used += (size_t)snprintf(text + used, sizeof text - used, "%s%d of %d expected values",
                                 used > 0 ? ", " : "", (int)v->expectations_missed,
                                 (int)v->expectations);
    }
    if (!v->balanced) {
        used += (size_t)snprintf(text + used, sizeof text - used, "%sforces out of balance",
                                 used > 0 ? ", " : "");
    }
    if (used > 0) {
        package_text(m->package, BLOCK_ALERT, "FAILS: %s. Sheet 1 tells more.", text);
    }
}

void sheet_cover(maker *m)
{
    summary_verdict v;
    if (!maker_accepts(m, summary_judge(&m->input->summary, &v))) {
        return;
    }
    cover_put_alert(m, &v);
    cover_put_sources(m);
    package_fact(m->package, BLOCK_FACTS, "Program", "kernline %s, model language %d",
                 KL_VERSION_TEXT, KL_LANGUAGE_VERSION);
    cover_put_codes(m);
    cover_put_units(m);
    cover_put_verdict(m, &v);
    package_fact(m->package, BLOCK_BLANKS, "Made by", "%s", "");
    package_fact(m->package, BLOCK_BLANKS, "Date", "%s", "");
    package_fact(m->package, BLOCK_BLANKS, "Checked by", "%s", "");
    package_fact(m->package, BLOCK_BLANKS, "Date", "%s", "");
    package_text(m->package, BLOCK_ALERT, "%s", LABEL_CAUTION);
}
