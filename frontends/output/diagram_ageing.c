/* diagram_ageing.c - concrete by its age, on an axis of decades: strength and modulus, J(t, t0), shrinkage.
 *
 * Ages at which stages end are marked: those are the ages the analysis uses.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <math.h>
#include <stdio.h>

#include "arena.h"
#include "figure.h"
#include "label.h"
#include "near.h"
#include "plot.h"

#define AGEING_WIDTH   900.0
#define AGEING_HEIGHT  280.0 /* of one field */
#define AGEING_POINTS  160
#define AGEING_AGES    8 /* marked */
#define AGEING_COURSES 8
#define AGEING_LAST    (10000.0 * KL_DAY) /* at least so far */

/* ---- ages that the construction uses ----------------------------------------------------------------------------- */

typedef struct age_list {
    double age[AGEING_AGES]; /* s, as they come */
    int count;
} age_list;

static void age_add(age_list *list, double age)
{
    for (int i = 0; i < list->count; i++) {
        if (near_equal(list->age[i], age, 1e-6, 0.0)) {
            return;
        }
    }
    if (!isnan(age) && list->count < AGEING_AGES) {
        list->age[list->count++] = age;
    }
}

/* Ages of a member at the ends of the stages in which it stands. */
static void age_collect(const kl_results *results, kl_index member, age_list *list)
{
    const kl_model *model = kl_results_model(results);
    for (kl_index stage = 0; stage < model->stage_count; stage++) {
        const kl_state state = kl_state_step(kl_last_step(results, stage));
        double modulus;
        double strength;
        double age;
        if (kl_member_stands(results, state, member)) {
            kl_concrete_of_state(results, state, member, &modulus, &strength, &age);
            age_add(list, age);
        }
    }
    if (model->stage_count == 0) {
        age_add(list, 28.0 * KL_DAY);
    }
}

static double age_last(const age_list *list)
{
    double last = AGEING_LAST;
    for (int i = 0; i < list->count; i++) {
        last = fmax(last, list->age[i]);
    }
    return last;
}

/* Point i of a row from `first` to `last`, even in its logarithm. */
static double age_at(double first, double last, int i)
{
    return first * pow(last / first, (double)i / (AGEING_POINTS - 1));
}

/* ---- one course -------------------------------------------------------------------------------------------------- */

typedef enum ageing_kind {
    AGEING_STRENGTH,
    AGEING_MODULUS,
    AGEING_AT_ONCE, /* 1 / E(t) */
    AGEING_CREEP,   /* J(t, loading) */
    AGEING_SHRINKAGE
} ageing_kind;

/* What a course shows: of a material or of a member. */
typedef struct ageing_law {
    ageing_kind kind;
    const kl_results *results;
    kl_index material, member;
    double loading; /* s, AGEING_CREEP */
} ageing_law;

/* As shown: strength and modulus in stress, J in millionths to the unit of stress, strain in millionths. */
static kl_status ageing_value(const ageing_law *law, double age, double *shown)
{
    const kl_model *model = kl_results_model(law->results);
    const double stress = kl_show_factor(&model->display, KL_MEASURE_STRESS);
    const double loading = law->kind == AGEING_CREEP ? law->loading : age;
    double values[2] = {NAN, NAN}; /* modulus, strength; phi, J */
    kl_status status = KL_OK;
    switch (law->kind) {
    case AGEING_STRENGTH:
    case AGEING_MODULUS:
        kl_material_at_age(model, law->material, age, &values[0], &values[1]);
        *shown = values[law->kind == AGEING_STRENGTH ? 1 : 0] / stress;
        break;
    case AGEING_AT_ONCE:
    case AGEING_CREEP:
        status =
            kl_creep_of_member(law->results, law->member, loading, age, &values[0], &values[1]);
        *shown = 1e6 * values[1] * stress;
        break;
    case AGEING_SHRINKAGE:
        status = kl_shrinkage_of_member(law->results, law->member, age, &values[0]);
        *shown = 1e6 * values[0];
        break;
    }
    return status;
}

typedef struct ageing_course {
    double x[AGEING_POINTS + 1], y[AGEING_POINTS + 1]; /* logarithm of the age, value, as shown */
    int count;
    const char *class;
    char name[LABEL_SIZE];
    age_list ages; /* at which values are told */
    double at[AGEING_AGES];
} ageing_course;

/* Fill the course from the age `from` on; after a load its points lie close together at first. Its ages are set. */
static kl_status ageing_gather(const ageing_law *law, double from, double last, ageing_course *c)
{
    const kl_display *display = &kl_results_model(law->results)->display;
    const double day = kl_show_factor(display, KL_MEASURE_TIME);
    for (int i = 0; i <= AGEING_POINTS; i++) {
        const int k = i > 0 ? i - 1 : 0;
        const double since = i > 0 ? age_at(0.01 * KL_DAY, last - from, k) : 0.0;
        const double age = law->kind == AGEING_CREEP ? from + since : age_at(from, last, k);
        KL_TRY(ageing_value(law, age, &c->y[i]));
        c->x[i] = log10(age / day);
    }
    c->count = AGEING_POINTS + 1;
    for (int i = 0; i < c->ages.count; i++) {
        KL_TRY(ageing_value(law, c->ages.age[i], &c->at[i]));
    }
    return KL_OK;
}

/* ---- one field --------------------------------------------------------------------------------------------------- */

static void ageing_put_marks(const plot *p, const ageing_course *c, double day, double largest)
{
    for (int i = 0; i < c->ages.count; i++) {
        const double x = c->ages.age[i] / day;
        char value[FIGURE_SIZE];
        char at[FIGURE_SIZE];
        char text[3 * FIGURE_SIZE];
        figure_rounded(value, c->at[i], figure_decimals(largest, 4), 4, FIGURE_NOISE * largest);
        figure_rounded(at, x, figure_exact_decimals(x, 1), 6, 0.0);
        snprintf(text, sizeof text, "%s at %s", value, at);
        plot_value(p, log10(x), c->at[i], 1.0, text);
    }
}

/* A field with courses over the age; `label` with unit. */
static void ageing_put_field(drawing *d,
                             const kl_model *model,
                             const ageing_course *courses,
                             int count,
                             double top,
                             const char *label)
{
    const double day = kl_show_factor(&model->display, KL_MEASURE_TIME);
    plot_key_entry key[AGEING_COURSES + 1];
    char along[80];
    snprintf(along, sizeof along, "age, %s", kl_show_unit(&model->display, KL_MEASURE_TIME));
    plot_axis x = {.low = HUGE_VAL, .high = -HUGE_VAL, .label = along, .decades = true};
    plot_axis y = {.label = label};
    for (int i = 0; i < count; i++) {
        key[i] = (plot_key_entry){courses[i].class, courses[i].name};
        x.low = fmin(x.low, courses[i].x[0]);
        x.high = fmax(x.high, courses[i].x[courses[i].count - 1]);
        for (int k = 0; k < courses[i].count; k++) {
            y.low = fmin(y.low, courses[i].y[k]);
            y.high = fmax(y.high, courses[i].y[k]);
        }
    }
    const double above = plot_key_height(key, count, AGEING_WIDTH);
    const plot p =
        plot_start(d, (label_box){0.0, top + above, AGEING_WIDTH, AGEING_HEIGHT - above}, &x, &y);
    for (int i = 0; i < count; i++) {
        plot_course(&p, courses[i].class, courses[i].x, courses[i].y, courses[i].count);
        ageing_put_marks(&p, &courses[i], day, fmax(fabs(y.low), fabs(y.high)));
    }
    plot_key(&p, key, count);
}

/* Room for the courses of a field; NULL: the drawing's status tells. */
static ageing_course *ageing_courses(drawing *d, arena *a)
{
    ageing_course *courses = arena_array(a, AGEING_COURSES + 1, sizeof *courses);
    if (!courses) {
        d->status = d->status == KL_OK ? KL_NO_MEMORY : d->status;
    }
    return courses;
}

/* ---- strength and modulus ------------------------------------------------------------------------------------------ */

static bool ageing_is_listed(const kl_index *materials, int count, kl_index material)
{
    for (int i = 0; i < count; i++) {
        if (materials[i] == material) {
            return true;
        }
    }
    return false;
}

/* Materials of the wanted members that change with age, each once. */
static int ageing_materials(const kl_model *model, const selection *s, kl_index *materials)
{
    int count = 0;
    for (kl_index m = 0; m < model->member_count && count < AGEING_COURSES; m++) {
        const kl_index material = model->members[m].material;
        if (selection_takes(s, m) && kl_material_ages(model, material) &&
            !ageing_is_listed(materials, count, material)) {
            materials[count++] = material;
        }
    }
    return count;
}

static kl_status ageing_gather_material(const kl_results *results,
                                        const selection *s,
                                        kl_index material,
                                        bool modulus,
                                        ageing_course *c)
{
    const kl_model *model = kl_results_model(results);
    const ageing_law law = {.kind = modulus ? AGEING_MODULUS : AGEING_STRENGTH,
                            .results = results,
                            .material = material};
    for (kl_index m = 0; m < model->member_count; m++) {
        if (selection_takes(s, m) && model->members[m].material == material) {
            age_collect(results, m, &c->ages);
        }
    }
    snprintf(c->name, sizeof c->name, "%.150s", model->materials[material].name);
    return ageing_gather(&law, KL_DAY, age_last(&c->ages), c);
}

void diagram_strength(drawing *d, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    kl_index materials[AGEING_COURSES];
    const int count = ageing_materials(model, s, materials);
    const char *unit = kl_show_unit(&model->display, KL_MEASURE_STRESS);
    drawing_start(
        d, AGEING_WIDTH, 22.0 + 2.0 * AGEING_HEIGHT, "Strength and modulus by age",
        "Strength and modulus of concretes over their age; the ages at the ends of stages "
        "are marked.");
    drawing_text(d, "strong", 8.0, 16.0, ANCHOR_START, "Strength and modulus by age");
    if (count == 0) {
        diagram_absent(d, "no material changes with its age");
        return;
    }
    for (int modulus = 0; modulus < 2; modulus++) {
        arena a = {0};
        char label[80];
        ageing_course *courses = ageing_courses(d, &a);
        for (int i = 0; i < count && courses; i++) {
            courses[i].class = diagram_class(i);
            diagram_accepts(
                d, ageing_gather_material(results, s, materials[i], modulus == 1, &courses[i]));
        }
        snprintf(label, sizeof label, "%s, %s", modulus ? "modulus E" : "strength", unit);
        if (courses) {
            ageing_put_field(d, model, courses, count, 20.0 + AGEING_HEIGHT * modulus, label);
        }
        arena_free(&a);
    }
}

/* ---- creep --------------------------------------------------------------------------------------------------------- */

static bool ageing_creeps(const kl_results *results, kl_index member)
{
    double phi;
    double j;
    return kl_creep_of_member(results, member, 28.0 * KL_DAY, 28.0 * KL_DAY, &phi, &j) == KL_OK;
}

static bool ageing_shrinks(const kl_results *results, kl_index member)
{
    double strain;
    return kl_shrinkage_of_member(results, member, 28.0 * KL_DAY, &strain) == KL_OK;
}

/* The member asked for, else the longest with such a law; KL_NONE: there is none. */
static kl_index ageing_member(const kl_results *results,
                              const selection *s,
                              bool (*has_law)(const kl_results *results, kl_index member))
{
    const kl_model *model = kl_results_model(results);
    kl_index found = KL_NONE;
    for (kl_index m = 0; m < model->member_count; m++) {
        const bool longer =
            found == KL_NONE || kl_member_length(model, m) > kl_member_length(model, found);
        if (selection_takes(s, m) && longer && has_law(results, m)) {
            found = m;
        }
    }
    return found;
}

/* J of one age of loading, from then on, its first and last value told. */
static kl_status ageing_gather_creep(const ageing_law *law, double last, ageing_course *c)
{
    double phi;
    double j;
    KL_TRY(kl_creep_of_member(law->results, law->member, law->loading, last, &phi, &j));
    age_add(&c->ages, law->loading);
    age_add(&c->ages, last);
    snprintf(c->name, sizeof c->name, "loaded at %.6g day, phi %.3g at %.6g day",
             law->loading / KL_DAY, phi, last / KL_DAY);
    return ageing_gather(law, law->loading, last, c);
}

static kl_status
ageing_gather_family(const kl_results *results, kl_index member, ageing_course *courses, int *count)
{
    ageing_law law = {.kind = AGEING_AT_ONCE, .results = results, .member = member};
    age_list ages = {0};
    age_collect(results, member, &ages);
    const double last = age_last(&ages);
    courses[0].class = "before";
    snprintf(courses[0].name, sizeof courses[0].name, "at once, 1 / E(t)");
    KL_TRY(ageing_gather(&law, KL_DAY, last, &courses[0]));
    *count = 1;
    law.kind = AGEING_CREEP;
    for (int i = 0; i < ages.count && *count <= AGEING_COURSES; i++) {
        if (ages.age[i] < 0.9 * last) {
            law.loading = ages.age[i];
            courses[*count].class = diagram_class(*count - 1);
            KL_TRY(ageing_gather_creep(&law, last, &courses[*count]));
            ++*count;
        }
    }
    return KL_OK;
}

static void ageing_start(drawing *d, const kl_model *model, kl_index member, const char *what)
{
    char title[2 * LABEL_SIZE + 80];
    snprintf(title, sizeof title, "%s of %.120s, %.120s", what,
             member == KL_NONE ? "no member" : model->members[member].name,
             member == KL_NONE ? "" : model->materials[model->members[member].material].name);
    drawing_start(d, AGEING_WIDTH, 22.0 + AGEING_HEIGHT, title,
                  "Over the age of the concrete; ages at the ends of stages are marked.");
    drawing_text(d, "strong", 8.0, 16.0, ANCHOR_START, title);
}

void diagram_creep(drawing *d, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    const kl_index member = ageing_member(results, s, ageing_creeps);
    ageing_start(d, model, member, "Creep function J(t, t0)");
    if (member == KL_NONE) {
        diagram_absent(d, "no such member has a law of creep");
        return;
    }
    arena a = {0};
    char label[80];
    int count = 0;
    ageing_course *courses = ageing_courses(d, &a);
    snprintf(label, sizeof label, "J, millionths a %s",
             kl_show_unit(&model->display, KL_MEASURE_STRESS));
    if (courses && diagram_accepts(d, ageing_gather_family(results, member, courses, &count))) {
        ageing_put_field(d, model, courses, count, 20.0, label);
    }
    arena_free(&a);
}

/* ---- shrinkage ----------------------------------------------------------------------------------------------------- */

void diagram_shrinkage(drawing *d, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    const kl_index member = ageing_member(results, s, ageing_shrinks);
    ageing_start(d, model, member, "Shrinkage");
    if (member == KL_NONE) {
        diagram_absent(d, "no such member has a law of shrinkage");
        return;
    }
    arena a = {0};
    const ageing_law law = {.kind = AGEING_SHRINKAGE, .results = results, .member = member};
    ageing_course *course = ageing_courses(d, &a);
    if (course) {
        course->class = diagram_class(0);
        snprintf(course->name, sizeof course->name, "strain, shortening is negative");
        age_collect(results, member, &course->ages);
    }
    if (course &&
        diagram_accepts(d, ageing_gather(&law, KL_DAY, age_last(&course->ages), course))) {
        ageing_put_field(d, model, course, 1, 20.0, "shrinkage, millionths");
    }
    arena_free(&a);
}
