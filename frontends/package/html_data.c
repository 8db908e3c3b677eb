/* html_data.c - what the scripts of the page read: the courses along members, and for every figure of the tables of actions and
 * stresses what it is the sum of. Numbers in the units of the tables.
 *
 *     courses      { units, steps: [{number, name, stage}], members: [{name, stations, sides, moment: [[…] or null a step], …}] }
 *     derivations  { members: [{name, stations, sides, sections: [[A, I, to top, to bottom] a station],
 *                    steps: [{number, parts: [names], at: [[[N, M, N concrete, M concrete, top, bottom] a part] a station]}]}] }
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "course_family.h"
#include "html.h"
#include "mem.h"
#include "package_html.h"
#include "stress_split.h"

#define DATA_DIGITS  6
#define DATA_MEMBERS 12
#define DATA_STATES  400
#define DATA_PLACES  3000 /* stations times steps that are told what they are the sum of */

typedef struct data_writer {
    FILE *out;
    kl_results *results;
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

static const kl_quantity data_quantities[] = {
    KL_MOMENT, KL_SHEAR, KL_AXIAL, KL_STRESS_TOP, KL_STRESS_BOTTOM, KL_DEFLECTION, KL_CAMBER};

#define DATA_QUANTITIES (sizeof data_quantities / sizeof data_quantities[0])

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

static void data_put_units(data_writer *w)
{
    fputs("\"units\":{\"station\":", w->out);
    html_json_text(w->out, kl_show_unit(&w->model->display, KL_MEASURE_STATION));
    for (size_t i = 0; i < DATA_QUANTITIES; i++) {
        fprintf(w->out, ",\"%s\":", member_course_key(data_quantities[i]));
        html_json_text(w->out,
                       kl_show_unit(&w->model->display, member_course_measure(data_quantities[i])));
    }
    fputs(",\"area\":", w->out);
    html_json_text(w->out, kl_show_unit(&w->model->display, KL_MEASURE_AREA));
    fputs(",\"inertia\":", w->out);
    html_json_text(w->out, kl_show_unit(&w->model->display, KL_MEASURE_INERTIA));
    fputs(",\"size\":", w->out);
    html_json_text(w->out, kl_show_unit(&w->model->display, KL_MEASURE_SIZE));
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
data_put_course(data_writer *w, kl_state state, kl_quantity quantity, kl_index member)
{
    arena a = {0};
    member_course course;
    const kl_status status = member_course_gather(&a, w->results, state, quantity, KL_TOTAL, member,
                                                  MEMBER_COURSE_PIECES, &course);
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
    for (size_t k = 0; k < DATA_QUANTITIES; k++) {
        fprintf(w->out, ",\n\"%s\":[", member_course_key(data_quantities[k]));
        for (int i = 0; i < w->state_count; i++) {
            data_comma(w, i);
            KL_TRY(data_put_course(w, w->states[i], data_quantities[k], member));
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

/* The rows that the tables of the page show; cut from the arena. */
static kl_status data_rows(
    data_writer *w, arena *a, kl_index member, const kl_station_row **out, kl_index *kept_count)
{
    const double length = kl_member_length(w->model, member);
    const kl_station_row *rows;
    kl_index count;
    KL_TRY(kl_station_rows(w->results, member, NAN, &rows, &count));
    kl_station_row *kept = arena_array(a, (size_t)count, sizeof *kept);
    if (!kept) {
        return KL_NO_MEMORY;
    }
    *kept_count = 0;
    for (kl_index i = 0; i < count; i++) {
        if (selection_is_tenth(&rows[i], length)) {
            kept[(*kept_count)++] = rows[i];
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
    data_put_units(w);
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

kl_status html_write_data(FILE *out, const package *p, kl_results *results)
{
    data_writer *w = mem_array(1, sizeof *w);
    if (!w) {
        return KL_NO_MEMORY;
    }
    w->out = out;
    w->results = results;
    w->model = kl_results_model(results);
    data_list_states(w);
    data_list_members(w, p);
    const kl_status status = data_put_all(w);
    mem_free(w);
    return status;
}
