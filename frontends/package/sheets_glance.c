/* sheets_glance.c - sheet 1: what fails or nearly does, and the numbers that are looked for first.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "force_scale.h"
#include "maker.h"
#include "near.h"
#include "places.h"
#include "post_use.h"
#include "summary_tables.h"

#define GLANCE_NEAR    0.95
#define GLANCE_ALERTS  20
#define GLANCE_TENDONS 8
#define GLANCE_POSTS   12
#define GLANCE_TEXT    (2 * LABEL_SIZE + 200)

static const char *glance_on(const maker *m, const kl_check_result *r)
{
    if (r->member != KL_NONE) {
        return m->model->members[r->member].name;
    }
    return r->tendon != KL_NONE ? m->model->tendons[r->tendon].name : "";
}

static void glance_put_check(maker *m, const kl_check_result *r)
{
    char ratio[FIGURE_SIZE + 20] = ""; /* beside a limit of 0 there is none */
    char when[LABEL_SIZE];
    char at[FIGURE_SIZE + 20];
    char demand[FIGURE_SIZE + 20];
    char limit[FIGURE_SIZE + 20];
    label_state(when, m->results, r->state);
    if (isfinite(r->ratio)) {
        snprintf(ratio, sizeof ratio, ", ratio %.3f", r->ratio);
    }
    package_text(
        m->package, BLOCK_ALERT, "%s %s: %s, on %s at %s%s%s, %s: %s against %s allowed%s.",
        r->passed ? "Near its limit" : "FAILS", m->model->checks[r->check].name, r->limit_name,
        glance_on(m, r), maker_figure(m, at, r->station, KL_MEASURE_STATION),
        r->face == KL_FACE_BOTH ? "" : ", ", label_face(r->face), when,
        maker_figure(m, demand, r->demand, KL_MEASURE_STRESS),
        maker_figure(m, limit, r->limit, KL_MEASURE_STRESS), ratio);
}

/* Failing ones first, then those above 0.95. */
static void glance_put_checks(maker *m)
{
    int put = 0;
    int left_out = 0;
    for (int near = 0; near < 2; near++) {
        for (kl_index i = 0; i < kl_check_result_count(m->report); i++) {
            const kl_check_result *r = kl_check_result_at(m->report, i);
            const bool is_wanted = near ? r->passed && r->ratio > GLANCE_NEAR : !r->passed;
            if (is_wanted && put++ < GLANCE_ALERTS) {
                glance_put_check(m, r);
            } else if (is_wanted) {
                left_out++;
            }
        }
    }
    if (left_out > 0) {
        package_text(m->package, BLOCK_ALERT, "%d more fail or are near their limits: sheet 14.",
                     left_out);
    }
    if (put == 0 && kl_check_result_count(m->report) > 0) {
        package_text(m->package, BLOCK_PARAGRAPH,
                     "Every check passes, none above %.2f of its limit.", GLANCE_NEAR);
    }
}

static void glance_put_post(maker *m, const post_use *use)
{
    const kl_falsework *f = &m->model->falsework[use->falsework];
    char when[LABEL_SIZE];
    char at[FIGURE_SIZE + 20];
    char force[FIGURE_SIZE + 20];
    char rated[FIGURE_SIZE + 20];
    label_state(when, m->results, kl_state_step(use->step));
    package_text(
        m->package, BLOCK_ALERT, "%s posts of %s at %s, %s: %s in a post, rated %s, ratio %.3f.",
        post_use_is_over(use->share) ? "FAILS its rated load:" : "Near its rated load:", f->name,
        maker_figure(m, at, f->stations[use->row], KL_MEASURE_STATION), when,
        maker_figure(m, force, use->force, KL_MEASURE_FORCE),
        maker_figure(m, rated, f->capacity, KL_MEASURE_FORCE), use->share);
}

/* Rows above their rated load first, then those near it. */
static void glance_put_rated(maker *m)
{
    int put = 0;
    int left_out = 0;
    for (int near = 0; near < 2; near++) {
        for (kl_index f = 0; f < m->model->falsework_count; f++) {
            for (kl_index row = 0; row < m->model->falsework[f].row_count; row++) {
                post_use use;
                const bool is_wanted =
                    maker_accepts(m, post_use_of(m->results, f, row, &use)) &&
                    (near ? post_use_is_near(use.share) : post_use_is_over(use.share));
                if (is_wanted && put < GLANCE_POSTS) {
                    glance_put_post(m, &use);
                    put++;
                } else if (is_wanted) {
                    left_out++;
                }
            }
        }
    }
    if (left_out > 0) {
        package_text(m->package, BLOCK_ALERT,
                     "%d more rows of posts are above their rated load or near it: sheet 10.",
                     left_out);
    }
}

static void glance_put_missed(maker *m)
{
    for (kl_index i = 0; i < kl_expectation_result_count(m->report); i++) {
        if (!kl_expectation_result_at(m->report, i)->passed) {
            package_text(m->package, BLOCK_ALERT, "Expected values are missed: sheet 21.");
            return;
        }
    }
}

static void glance_put_worst(maker *m)
{
    const kl_check_result *worst = NULL;
    bool is_without = false; /* is there one beyond a limit of 0, which has none? */
    for (kl_index i = 0; i < kl_check_result_count(m->report); i++) {
        const kl_check_result *r = kl_check_result_at(m->report, i);
        is_without = is_without || isinf(r->ratio);
        worst = isfinite(r->ratio) && (!worst || r->ratio > worst->ratio) ? r : worst;
    }
    if (worst) {
        package_fact(m->package, BLOCK_FACTS, "Worst ratio of all checks", "%.3f (%s: %s, on %s)%s",
                     worst->ratio, m->model->checks[worst->check].name, worst->limit_name,
                     glance_on(m, worst), is_without ? "; beyond limits of 0 there is none" : "");
    }
}

/* ---- the largest of something over the members ----------------------------------------------------------- */

typedef struct glance_peak {
    kl_index member;
    kl_state state;
    kl_peak peak;
} glance_peak;

typedef struct glance_what {
    const char *name;
    kl_quantity quantity;
    kl_part part;
    kl_measure measure;
} glance_what;

/* Along a column it would be its shortening. */
static bool glance_is_of(const maker *m, const glance_what *what, kl_index member)
{
    const bool across = what->quantity == KL_DEFLECTION || what->quantity == KL_CAMBER;
    return !across || !label_is_steep(m->model, member);
}

/* The larger in size; of equals the largest before the smallest and the first of all: rounding does not choose. */
static void glance_widen(maker *m, const glance_what *what, kl_state state, glance_peak *best)
{
    for (kl_index i = 0; i < m->model->member_count; i++) {
        kl_peak ends[2];
        const double length = kl_member_length(m->model, i);
        if (!glance_is_of(m, what, i) ||
            !maker_accepts(m, kl_range_on_member(m->results, state, what->quantity, what->part, i,
                                                 0.0, length, &ends[0], &ends[1]))) {
            continue;
        }
        for (int k = 1; k >= 0; k--) {
            if (best->member == KL_NONE ||
                fabs(ends[k].value) > fabs(best->peak.value) * (1.0 + FIGURE_NOISE)) {
                *best = (glance_peak){i, state, ends[k]};
            }
        }
    }
}

/* "1234 kip-ft, on cap at 20 ft, after girders". @return false: there is none, or it is rounding */
static bool
glance_say_peak(maker *m, const glance_what *what, const glance_peak *best, char text[GLANCE_TEXT])
{
    char value[FIGURE_SIZE + 20];
    char at[FIGURE_SIZE + 20];
    char when[LABEL_SIZE];
    double noise = 0.0;
    if (best->member == KL_NONE) {
        return false;
    }
    if (what->measure == KL_MEASURE_MOMENT || what->measure == KL_MEASURE_FORCE) {
        maker_accepts(m, force_scale_of_state(m->results, best->state, &noise));
    }
    if (!(fabs(best->peak.value) > FIGURE_NOISE * noise)) {
        return false;
    }
    label_state(when, m->results, best->state);
    snprintf(text, GLANCE_TEXT, "%s, on %s at %s, %s",
             maker_figure(m, value, best->peak.value, what->measure),
             m->model->members[best->member].name,
             maker_figure(m, at, best->peak.station, KL_MEASURE_STATION), when);
    return true;
}

static void glance_put_peak(maker *m, const glance_what *what, const glance_peak *best)
{
    char text[GLANCE_TEXT];
    if (glance_say_peak(m, what, best, text)) {
        package_fact(m->package, BLOCK_FACTS, what->name, "%s", text);
    }
}

/* Over every step, or every case, and every combination: as the pictures of envelopes. */
static glance_peak glance_largest(maker *m, const glance_what *what)
{
    glance_peak best = {.member = KL_NONE};
    kl_state state;
    for (kl_index i = 0; maker_state_at(m, i, &state); i++) {
        glance_widen(m, what, state, &best);
    }
    for (kl_index i = 0; i < m->model->combination_count; i++) {
        glance_widen(m, what, kl_state_combination(i), &best);
    }
    return best;
}

static void glance_put_largest(maker *m, const glance_what *what)
{
    const glance_peak best = glance_largest(m, what);
    glance_put_peak(m, what, &best);
}

static bool glance_posts_stand(maker *m, kl_state state)
{
    for (kl_index f = 0; state.kind == KL_STATE_STEP && f < m->model->falsework_count; f++) {
        for (kl_index row = 0; row < m->model->falsework[f].row_count; row++) {
            kl_post_row post;
            if (maker_accepts(m, kl_row_state(m->results, state, f, row, &post)) && post.stands &&
                !post.waits) {
                return true;
            }
        }
    }
    return false;
}

/* While posts stand, what they lost to the pull is an action of the prestress, too; the frame's own is that of the end. */
static void glance_put_secondary(maker *m, const glance_what *largest, const char *at_last)
{
    char text[GLANCE_TEXT];
    kl_state last;
    const glance_peak best = glance_largest(m, largest);
    if (!glance_say_peak(m, largest, &best, text)) {
        package_fact(m->package, BLOCK_FACTS, largest->name, "none");
        return;
    }
    package_fact(
        m->package, BLOCK_FACTS, largest->name, "%s%s", text,
        glance_posts_stand(m, best.state)
            ? "; posts still stand then, and the load that the pull took from them is in it"
            : "");
    if (m->steps > 0 && maker_last_state(m, &last)) {
        glance_peak end = {.member = KL_NONE};
        glance_widen(m, largest, last, &end);
        package_fact(m->package, BLOCK_FACTS, at_last, "%s%s",
                     glance_say_peak(m, largest, &end, text) ? text : "none",
                     glance_posts_stand(m, last) ? "; posts still stand" : "");
    }
}

/* Camber is made for the end. */
static void glance_put_camber(maker *m, kl_state last)
{
    const glance_what camber = {"Largest camber", KL_CAMBER, KL_TOTAL, KL_MEASURE_DEFLECTION};
    glance_peak best = {.member = KL_NONE};
    glance_widen(m, &camber, last, &best);
    glance_put_peak(m, &camber, &best);
}

/* ---- tendons and posts ---------------------------------------------------------------------------------- */

/* At the ends that are pulled. */
static void glance_put_elongation(maker *m, kl_index tendon, const kl_stressing *g)
{
    char text[2][FIGURE_SIZE + 40] = {"", ""};
    char name[LABEL_SIZE];
    for (int end = 0; end < 2; end++) {
        char moves[FIGURE_SIZE + 20];
        const double value = table_elongation(g, end);
        if (!isnan(value)) {
            snprintf(text[end], sizeof text[end], "%s at the %s",
                     maker_figure(m, moves, value, KL_MEASURE_DEFLECTION),
                     end == 0 ? "start" : "end");
        }
    }
    snprintf(name, sizeof name, "Elongation of %s%s", m->model->tendons[tendon].name,
             g->grip[0] + g->grip[1] > 0.0 ? ", with the grip" : "");
    package_fact(m->package, BLOCK_FACTS, name, "%s%s%s", text[0],
                 text[0][0] != '\0' && text[1][0] != '\0' ? ", " : "", text[1]);
}

static void glance_put_tendons(maker *m)
{
    double jacking = 0.0;
    char room[FIGURE_SIZE + 20];
    for (kl_index i = 0; i < m->model->tendon_count; i++) {
        jacking += m->model->tendons[i].jack_force * (double)m->model->tendons[i].count;
    }
    package_fact(m->package, BLOCK_FACTS, "Jacking force of all tendons", "%s",
                 maker_figure(m, room, jacking, KL_MEASURE_FORCE));
    for (kl_index i = 0; i < m->model->tendon_count && i < GLANCE_TENDONS; i++) {
        kl_stressing g;
        if (maker_accepts(m, kl_tendon_stressing(m->results, i, &g))) {
            glance_put_elongation(m, i, &g);
        }
    }
}

/* The largest over all rows. */
static void glance_put_posts(maker *m)
{
    post_use best = {.step = KL_NONE};
    for (kl_index f = 0; f < m->model->falsework_count; f++) {
        for (kl_index row = 0; row < m->model->falsework[f].row_count; row++) {
            post_use use;
            if (maker_accepts(m, post_use_of(m->results, f, row, &use)) &&
                use.force > best.force * (1.0 + FIGURE_NOISE)) { /* of equals the first */
                best = use;
            }
        }
    }
    if (best.step != KL_NONE) {
        const kl_falsework *f = &m->model->falsework[best.falsework];
        char when[LABEL_SIZE];
        char force[FIGURE_SIZE + 20];
        char at[FIGURE_SIZE + 20];
        char room[FIGURE_SIZE + 20];
        char rated[FIGURE_SIZE + 30] = "";
        if (!isnan(f->capacity)) {
            snprintf(rated, sizeof rated, " of %s rated",
                     maker_figure(m, room, f->capacity, KL_MEASURE_FORCE));
        }
        label_state(when, m->results, kl_state_step(best.step));
        package_fact(m->package, BLOCK_FACTS, "Largest force in a post", "%s%s, %s at %s, %s",
                     maker_figure(m, force, best.force, KL_MEASURE_FORCE), rated, f->name,
                     maker_figure(m, at, f->stations[best.row], KL_MEASURE_STATION), when);
    }
}

static void glance_put_balance(maker *m, kl_state state)
{
    kl_audit audit;
    char weight[FIGURE_SIZE + 20];
    char load[FIGURE_SIZE + 20];
    char reaction[FIGURE_SIZE + 20];
    char when[LABEL_SIZE];
    label_state(when, m->results, state);
    if (maker_accepts(m, kl_audit_of_state(m->results, state, &audit))) {
        package_fact(m->package, BLOCK_FACTS, "Weight, all load downward, all reactions upward",
                     "%s, %s, %s, %s", maker_figure(m, weight, audit.weight, KL_MEASURE_FORCE),
                     maker_figure(m, load, -audit.load[1], KL_MEASURE_FORCE),
                     maker_figure(m, reaction, audit.reaction[1], KL_MEASURE_FORCE), when);
    }
}

/* ---- stresses ------------------------------------------------------------------------------------------- */

/* Is the state the end of a pull, or the last? */
static bool glance_shows(const kl_results *results, kl_index step)
{
    const kl_step *s = kl_step_at(results, step);
    if (step + 1 == kl_step_count(results)) {
        return true;
    }
    const kl_stage *stage = &kl_results_model(results)->stages[s->stage];
    return s->operation != KL_NONE && stage->operations[s->operation].kind == KL_OP_STRESS;
}

static void glance_put_stresses(table *t, kl_results *results, kl_state state, kl_index member)
{
    member_place places[PLACE_LIMIT];
    int count;
    if (!table_accepts(t, places_of_member(results, member, places, &count))) {
        return;
    }
    for (int i = 0; i < count; i++) {
        table_put_state(t, results, state);
        table_put_text(t, kl_results_model(results)->members[member].name);
        table_put(t, places[i].station);
        table_put_text(t, places[i].name);
        for (int face = 0; face < 2; face++) {
            table_put(t, table_member_value(t, results, state,
                                            face == 0 ? KL_STRESS_TOP : KL_STRESS_BOTTOM, KL_TOTAL,
                                            member, places[i].station, places[i].side));
        }
    }
}

static void glance_build_stresses(table *t, kl_results *results, const selection *s)
{
    table_title(t,
                "Stress at faces of columns and midspan after each stressing step and at the end");
    table_add_state(t);
    table_add_words(t, COLUMN_GROUP, "member", "member");
    table_add(t, COLUMN_EXACT, "station", "station", KL_MEASURE_STATION, 2);
    table_add_words(t, COLUMN_WORD, "place", "place");
    table_add(t, COLUMN_FIGURE, "stress_top", "stress\ntop", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "stress_bottom", "stress\nbottom", KL_MEASURE_STRESS, 4);
    for (kl_index i = 0; i < s->state_count; i++) {
        const kl_state state = s->states[i];
        const bool is_shown = state.kind == KL_STATE_STEP ? glance_shows(results, state.index)
                                                          : kl_step_count(results) == 0;
        if (is_shown && kl_member_stands(results, state, s->member)) {
            glance_put_stresses(t, results, state, s->member);
        }
    }
    table_note(t, "%s", LABEL_SIGNS_STRESS);
}

void sheet_glance(maker *m)
{
    static const glance_what secondary_moment = {"Largest secondary moment", KL_MOMENT,
                                                 KL_SECONDARY, KL_MEASURE_MOMENT};
    static const glance_what secondary_shear = {"Largest secondary shear", KL_SHEAR, KL_SECONDARY,
                                                KL_MEASURE_FORCE};
    static const glance_what moment = {"Largest moment", KL_MOMENT, KL_TOTAL, KL_MEASURE_MOMENT};
    static const glance_what axial = {"Largest axial force", KL_AXIAL, KL_TOTAL, KL_MEASURE_FORCE};
    static const glance_what deflection = {"Largest deflection", KL_DEFLECTION, KL_TOTAL,
                                           KL_MEASURE_DEFLECTION};
    static const glance_what sway = {"Largest sway", KL_SWAY, KL_TOTAL, KL_MEASURE_DEFLECTION};
    kl_state state;
    if (!maker_last_state(m, &state)) {
        return;
    }
    glance_put_rated(m);
    glance_put_checks(m);
    glance_put_missed(m);
    glance_put_worst(m);
    if (m->steps > 0) {
        glance_put_balance(m, state);
    }
    if (m->model->tendon_count > 0) {
        glance_put_secondary(m, &secondary_moment, "Secondary moment after the last stage");
        glance_put_secondary(m, &secondary_shear, "Secondary shear after the last stage");
        glance_put_tendons(m);
    }
    glance_put_largest(m, &moment);
    glance_put_largest(m, &axial);
    glance_put_largest(m, &deflection);
    glance_put_largest(m, &sway);
    if (m->steps > 0) {
        glance_put_camber(m, state);
        glance_put_posts(m);
    }
    kl_index members[MAKER_MEMBERS];
    if (maker_members(m, members) > 0 && m->model->tendon_count > 0) {
        selection_wish wish = selection_wish_none();
        wish.every_step = true;
        wish.member = members[0];
        maker_own_table(m, "glance_stresses", glance_build_stresses, SELECTION_FINAL, &wish);
    }
    const selection_wish none = selection_wish_none();
    maker_own_table(m, "glance_checks", summary_build_checks, SELECTION_NONE, &none);
}
