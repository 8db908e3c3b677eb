/* html_data.c - what the scripts of the page read: the courses along members, and for every figure of the tables of actions and
 * stresses what it is the sum of. Numbers in the units of the tables.
 *
 *     courses      { units, base: {what a unit is in base units}, steps: [{number, name, stage}], members: [{name, stations, sides, moment: [[…] or null a step], …}] }
 *     derivations  { members: [{name, stations, sides, sections: [[A, I, to top, to bottom] a station],
 *                    steps: [{number, parts: [names], at: [[[N, M, N concrete, M concrete, top, bottom] a part] a station]}]}] }
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "course_family.h"
#include "html.h"
#include "mem.h"
#include "package_html.h"
#include "places.h"
#include "stress_split.h"

#define DATA_DIGITS     6
#define UNIT_DIGITS     12
#define DATA_MEMBERS    12
#define DATA_SAME_PLACE 1e-9 /* m */
#define DATA_STATES     400
#define DATA_PLACES     3000 /* stations times steps that are told what they are the sum of */

typedef struct data_writer {
    FILE *out;
    kl_results *results;
    const kl_check_report *report;
    const kl_model *model;
    kl_state states[DATA_STATES];
    int state_count;
    kl_index members[DATA_MEMBERS];
    int member_count;
    int places;
} data_writer;

static void data_take_member(data_writer *w, kl_index member)
{
    bool is_new = member != KL_NONE && w->member_count < DATA_MEMBERS;
    for (int i = 0; i < w->member_count; i++) {
        is_new = is_new && w->members[i] != member;
    }
    if (is_new) {
        w->members[w->member_count++] = member;
    }
}

/* Those that have pictures, then others as far as there is room. */
static void data_list_members(data_writer *w, const package *p)
{
    for (kl_index i = 0; i < p->sheet_count; i++) {
        for (const block *b = p->sheets[i].first; b; b = b->next) {
            if (b->kind == BLOCK_PICTURE) {
                data_take_member(w, kl_model_find(w->model, KL_KIND_MEMBER, b->subject));
            }
        }
    }
    for (kl_index i = 0; i < w->model->member_count; i++) {
        data_take_member(w, i);
    }
}

/* What courses there are: a quantity, of everything or from prestress alone (on sections: its secondary action). */
typedef struct data_course {
    kl_quantity quantity;
    kl_cause_kind cause;
} data_course;

static const data_course data_courses[] = {
    {KL_MOMENT, KL_CAUSE_ALL},     {KL_SHEAR, KL_CAUSE_ALL},         {KL_AXIAL, KL_CAUSE_ALL},
    {KL_STRESS_TOP, KL_CAUSE_ALL}, {KL_STRESS_BOTTOM, KL_CAUSE_ALL}, {KL_DEFLECTION, KL_CAUSE_ALL},
    {KL_CAMBER, KL_CAUSE_ALL},     {KL_MOMENT, KL_CAUSE_PRESTRESS},
};

#define DATA_COURSES (sizeof data_courses / sizeof data_courses[0])

static void data_list_states(data_writer *w)
{
    const kl_index steps = kl_step_count(w->results);
    for (kl_index i = 0; i < steps && w->state_count < DATA_STATES; i++) {
        w->states[w->state_count++] = kl_state_step(i);
    }
    for (kl_index i = 0; i < w->model->case_count && w->state_count < DATA_STATES; i++) {
        if (kl_case_is_solved(w->results, i)) {
            w->states[w->state_count++] = kl_state_case(i);
        }
    }
    for (kl_index i = 0; i < w->model->combination_count && w->state_count < DATA_STATES; i++) {
        w->states[w->state_count++] = kl_state_combination(i);
    }
}

static void data_number(data_writer *w, double value, kl_measure measure)
{
    html_json_number(w->out, value / kl_show_factor(&w->model->display, measure), DATA_DIGITS);
}

static void data_comma(data_writer *w, kl_index i)
{
    fputs(i > 0 ? "," : "", w->out);
}

/* ---- courses --------------------------------------------------------------------------------------------- */

static void data_put_steps(data_writer *w)
{
    fputs("\"steps\":[", w->out);
    for (int i = 0; i < w->state_count; i++) {
        char text[LABEL_SIZE];
        label_state(text, w->results, w->states[i]);
        const bool is_step = w->states[i].kind == KL_STATE_STEP;
        data_comma(w, i);
        fprintf(w->out, "{\"number\":%d,\"name\":", i);
        html_json_text(w->out, text);
        fputs(",\"stage\":", w->out);
        html_json_text(
            w->out, is_step
                        ? w->model->stages[kl_step_at(w->results, w->states[i].index)->stage].name
                        : "");
        fputs("}", w->out);
    }
    fputs("]", w->out);
}

/* A unit's name, and what it is in base units. */
static void data_put_unit(data_writer *w, const char *key, kl_measure measure, bool as_name)
{
    fprintf(w->out, "\"%s\":", key);
    if (as_name) {
        html_json_text(w->out, kl_show_unit(&w->model->display, measure));
    } else {
        html_json_number(w->out, kl_show_factor(&w->model->display, measure), UNIT_DIGITS);
    }
}

static void data_put_units(data_writer *w, const char *name, bool as_name)
{
    static const struct {
        const char *key;
        kl_measure measure;
    } sizes[] = {
        {"area", KL_MEASURE_AREA}, {"inertia", KL_MEASURE_INERTIA}, {"size", KL_MEASURE_SIZE}};
    fprintf(w->out, "\"%s\":{", name);
    data_put_unit(w, "station", KL_MEASURE_STATION, as_name);
    for (size_t i = 0; i < DATA_COURSES; i++) {
        if (data_courses[i].cause == KL_CAUSE_ALL) {
            const kl_quantity quantity = data_courses[i].quantity;
            fputs(",", w->out);
            data_put_unit(w, member_course_key(quantity), member_course_measure(quantity), as_name);
        }
    }
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        fputs(",", w->out);
        data_put_unit(w, sizes[i].key, sizes[i].measure, as_name);
    }
    fputs("}", w->out);
}

static void data_put_rows(data_writer *w, const kl_station_row *rows, kl_index count)
{
    fputs(",\"stations\":[", w->out);
    for (kl_index i = 0; i < count; i++) {
        data_comma(w, i);
        data_number(w, rows[i].station, KL_MEASURE_STATION);
    }
    fputs("],\"sides\":[", w->out);
    for (kl_index i = 0; i < count; i++) {
        data_comma(w, i);
        fprintf(w->out, "\"%s\"", label_side(rows, count, i));
    }
    fputs("]", w->out);
}

static kl_status
data_put_course(data_writer *w, kl_state state, const data_course *which, kl_index member)
{
    arena a = {0};
    member_course course;
    const kl_state asked = kl_state_of_cause(state, (kl_cause){which->cause, KL_NONE});
    course_moment moment;
    KL_TRY(course_moment_find(w->results, asked, &moment));
    const kl_status status = member_course_gather(&a, w->results, &moment, which->quantity,
                                                  KL_TOTAL, member, MEMBER_COURSE_PIECES, &course);
    if (status == KL_OK) {
        fputs("[", w->out);
        for (int i = 0; i < course.count; i++) {
            data_comma(w, i);
            html_json_number(w->out, course.value[i], DATA_DIGITS);
        }
        fputs("]", w->out);
    } else {
        fputs("null", w->out);
    }
    arena_free(&a);
    return status == KL_NOT_THERE ? KL_OK : status;
}

static kl_status data_put_member(data_writer *w, kl_index member)
{
    const kl_station_row *rows;
    kl_index count;
    KL_TRY(kl_station_rows(w->results, member,
                           kl_member_length(w->model, member) / MEMBER_COURSE_PIECES, &rows,
                           &count));
    fputs("{\"name\":", w->out);
    html_json_text(w->out, w->model->members[member].name);
    data_put_rows(w, rows, count);
    for (size_t k = 0; k < DATA_COURSES; k++) {
        const data_course *which = &data_courses[k];
        if (which->cause == KL_CAUSE_PRESTRESS && w->model->tendon_count == 0) {
            continue;
        }
        fprintf(w->out, ",\n\"%s\":[", course_family_key(which->quantity, which->cause));
        for (int i = 0; i < w->state_count; i++) {
            data_comma(w, i);
            KL_TRY(data_put_course(w, w->states[i], which, member));
        }
        fputs("]", w->out);
    }
    fputs("}", w->out);
    return KL_OK;
}

/* ---- derivations ----------------------------------------------------------------------------------------- */

static void data_put_part(data_writer *w, const split_part *part)
{
    fputs("[", w->out);
    data_number(w, part->axial, KL_MEASURE_FORCE);
    fputs(",", w->out);
    data_number(w, part->moment, KL_MEASURE_MOMENT);
    fputs(",", w->out);
    data_number(w, part->axial_concrete, KL_MEASURE_FORCE);
    fputs(",", w->out);
    data_number(w, part->moment_concrete, KL_MEASURE_MOMENT);
    fputs(",", w->out);
    data_number(w, part->top, KL_MEASURE_STRESS);
    fputs(",", w->out);
    data_number(w, part->bottom, KL_MEASURE_STRESS);
    fputs("]", w->out);
}

static void data_put_names(data_writer *w, const stress_split *split)
{
    fputs("\"parts\":[", w->out);
    for (int i = 0; i < split->count; i++) {
        data_comma(w, i);
        html_json_text(w->out, split->parts[i].name);
    }
    fputs("],\"at\":[", w->out);
}

static kl_status data_put_state(
    data_writer *w, int number, kl_index member, const kl_station_row *rows, kl_index count)
{
    const kl_state state = w->states[number];
    stress_split *split = mem_array(1, sizeof *split);
    kl_status status = split ? KL_OK : KL_NO_MEMORY;
    fprintf(w->out, "{\"number\":%d,", number);
    for (kl_index i = 0; i < count && status == KL_OK; i++) {
        status = split_make(w->results, state, member, rows[i].station, rows[i].side, split);
        if (status != KL_OK) {
            break;
        }
        if (i == 0) {
            data_put_names(w, split);
        }
        fputs(i > 0 ? ",[" : "[", w->out);
        for (int k = 0; k < split->count; k++) {
            data_comma(w, k);
            data_put_part(w, &split->parts[k]);
        }
        fputs("]", w->out);
    }
    fputs("]}\n", w->out);
    mem_free(split);
    return status;
}

static kl_status
data_put_sections(data_writer *w, kl_index member, const kl_station_row *rows, kl_index count)
{
    fputs(",\"sections\":[", w->out);
    for (kl_index i = 0; i < count; i++) {
        kl_section_values v;
        KL_TRY(kl_section_at_station(w->results, member, rows[i].station, rows[i].side, &v));
        fputs(i > 0 ? ",[" : "[", w->out);
        data_number(w, v.area, KL_MEASURE_AREA);
        fputs(",", w->out);
        data_number(w, v.inertia, KL_MEASURE_INERTIA);
        fputs(",", w->out);
        data_number(w, v.to_top, KL_MEASURE_SIZE);
        fputs(",", w->out);
        data_number(w, v.to_bottom, KL_MEASURE_SIZE);
        fputs("]", w->out);
    }
    fputs("]", w->out);
    return KL_OK;
}

/* Unless it is there already. @return the count */
static kl_index data_keep(kl_station_row *kept, kl_index count, kl_station_row row)
{
    for (kl_index i = 0; i < count; i++) {
        if (fabs(kept[i].station - row.station) < DATA_SAME_PLACE && kept[i].side == row.side) {
            return count;
        }
    }
    kept[count] = row;
    return count + 1;
}

/* The rows that the tables of the page show, then places that are looked for first and those where checks govern; cut from the
 * arena. */
static kl_status data_rows(
    data_writer *w, arena *a, kl_index member, const kl_station_row **out, kl_index *kept_count)
{
    const double length = kl_member_length(w->model, member);
    const kl_index checks = kl_check_result_count(w->report);
    const kl_station_row *rows;
    kl_index count;
    member_place places[PLACE_LIMIT];
    int place_count;
    KL_TRY(places_of_member(w->results, member, places, &place_count));
    KL_TRY(kl_station_rows(w->results, member, NAN, &rows, &count));
    kl_station_row *kept =
        arena_array(a, (size_t)count + (size_t)checks + PLACE_LIMIT, sizeof *kept);
    if (!kept) {
        return KL_NO_MEMORY;
    }
    *kept_count = 0;
    for (kl_index i = 0; i < count; i++) {
        if (selection_is_tenth(&rows[i], length)) {
            kept[(*kept_count)++] = rows[i];
        }
    }
    for (int i = 0; i < place_count; i++) {
        *kept_count =
            data_keep(kept, *kept_count,
                      (kl_station_row){
                          .station = places[i].station, .side = places[i].side, .node = KL_NONE});
    }
    for (kl_index i = 0; i < checks; i++) {
        const kl_check_result *r = kl_check_result_at(w->report, i);
        if (r->member == member) {
            *kept_count = data_keep(
                kept, *kept_count,
                (kl_station_row){.station = r->station, .side = r->side, .node = KL_NONE});
        }
    }
    *out = kept;
    return KL_OK;
}

static kl_status
data_put_places(data_writer *w, kl_index member, const kl_station_row *rows, kl_index count)
{
    fputs("{\"name\":", w->out);
    html_json_text(w->out, w->model->members[member].name);
    data_put_rows(w, rows, count);
    KL_TRY(data_put_sections(w, member, rows, count));
    fputs(",\n\"steps\":[", w->out);
    bool is_first = true;
    for (int i = 0; i < w->state_count; i++) {
        if (kl_member_stands(w->results, w->states[i], member) &&
            w->places + count <= DATA_PLACES) {
            w->places += count;
            fputs(is_first ? "" : ",", w->out);
            is_first = false;
            KL_TRY(data_put_state(w, i, member, rows, count));
        }
    }
    fputs("]}", w->out);
    return KL_OK;
}

static kl_status data_put_derivations(data_writer *w, kl_index member)
{
    arena a = {0};
    const kl_station_row *rows = NULL;
    kl_index count = 0;
    kl_status status = data_rows(w, &a, member, &rows, &count);
    if (status == KL_OK) {
        status = data_put_places(w, member, rows, count);
    }
    arena_free(&a);
    return status;
}

/* ---- the elements ---------------------------------------------------------------------------------------- */

static kl_status data_put_all(data_writer *w)
{
    fputs("<script type=\"application/json\" id=\"courses\">{", w->out);
    data_put_units(w, "units", true);
    fputs(",\n", w->out);
    data_put_units(w, "base", false);
    fputs(",\n", w->out);
    data_put_steps(w);
    fputs(",\n\"members\":[", w->out);
    for (int i = 0; i < w->member_count; i++) {
        data_comma(w, i);
        KL_TRY(data_put_member(w, w->members[i]));
    }
    fputs("]}</script>\n<script type=\"application/json\" id=\"derivations\">{\"members\":[",
          w->out);
    for (int i = 0; i < w->member_count; i++) {
        data_comma(w, i);
        KL_TRY(data_put_derivations(w, w->members[i]));
    }
    fputs("]}</script>\n", w->out);
    return KL_OK;
}

kl_status html_write_data(FILE *out, const package *p, const package_input *input)
{
    data_writer *w = mem_array(1, sizeof *w);
    if (!w) {
        return KL_NO_MEMORY;
    }
    w->out = out;
    w->results = input->summary.results;
    w->report = input->summary.report;
    w->model = kl_results_model(w->results);
    data_list_states(w);
    data_list_members(w, p);
    const kl_status status = data_put_all(w);
    mem_free(w);
    return status;
}
