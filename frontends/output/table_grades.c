/* table_grades.c - the grades to which forms are set, part by part, exact and as the field reads them.
 * SPDX-License-Identifier: MIT */
#include "tables.h"

#include <math.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "field_reading.h"
#include "kernline/field.h"
#include "label.h"
#include "mem.h"
#include "near.h"

/* ---- stations -------------------------------------------------------------------------------------------- */

/* A station of the sheet and what stands there. */
typedef struct place {
    double station;
    const char *name; /* a node, "face", the falsework, "point", "middle"; "" */
    int rank;         /* of several names at one station the least counts */
    kl_index grade;
    kl_form_grade at;
} place;

enum { RANK_NODE, RANK_FACE, RANK_ROW, RANK_POINT, RANK_MIDDLE, RANK_NONE };

typedef struct place_list {
    place *items;
    size_t count;
} place_list;

static void add(place_list *list, double station, const char *name, int rank)
{
    list->items[list->count++] = (place){.station = station, .name = name, .rank = rank};
}

static int compare_places(const void *a, const void *b)
{
    const place *p = a;
    const place *q = b;
    return (p->station > q->station) - (p->station < q->station);
}

/* One place a station, under the name that says most. */
static void merge_places(place_list *list, double length)
{
    size_t kept = 0;
    qsort(list->items, list->count, sizeof(place), compare_places);
    for (size_t i = 0; i < list->count; ++i) {
        const place *p = &list->items[i];
        place *last = kept > 0 ? &list->items[kept - 1] : NULL;
        if (last == NULL || p->station - last->station > NEAR_STATION * length) {
            list->items[kept++] = *p;
        } else if (p->rank < last->rank) {
            *last = *p;
        }
    }
    list->count = kept;
}

static size_t most_places(const kl_model *model, const kl_grade *grade, kl_index rows)
{
    size_t most = (size_t)rows + (size_t)grade->point_count +
                  (size_t)model->members[grade->member].section_count;
    for (kl_index f = 0; f < model->falsework_count; ++f) {
        const kl_falsework *falsework = &model->falsework[f];
        most += falsework->member == grade->member ? 2 * (size_t)falsework->row_count : 0;
    }
    return most;
}

/* The rows of posts; where a stringer spans between two it sags most in the middle. */
static void add_rows(const kl_model *model, kl_index member, place_list *list)
{
    for (kl_index f = 0; f < model->falsework_count; ++f) {
        const kl_falsework *falsework = &model->falsework[f];
        for (kl_index i = 0; falsework->member == member && i < falsework->row_count; ++i) {
            add(list, falsework->stations[i], falsework->name, RANK_ROW);
            if (i > 0 && falsework->stringer_section != KL_NONE) {
                add(list, 0.5 * (falsework->stations[i - 1] + falsework->stations[i]), "middle",
                    RANK_MIDDLE);
            }
        }
    }
}

/* Of the stations of other tables the nodes, the faces and the divisions; where loads begin does not matter here. */
static void add_stations(const kl_model *model,
                         const kl_station_row *rows,
                         kl_index count,
                         double every,
                         place_list *list)
{
    for (kl_index i = 0; i < count; ++i) {
        const double parts = rows[i].station / every;
        const char *name = label_place(model, &rows[i]);
        if (rows[i].node != KL_NONE) {
            add(list, rows[i].station, name, RANK_NODE);
        } else if (rows[i].is_face) {
            add(list, rows[i].station, name, RANK_FACE);
        } else if (fabs(parts - round(parts)) < NEAR_STATION) {
            add(list, rows[i].station, name, RANK_NONE);
        }
    }
}

static place_list
places_of(table *t, kl_results *results, const selection *s, const kl_grade *grade)
{
    const kl_model *model = kl_results_model(results);
    const kl_member *member = &model->members[grade->member];
    const double length = kl_member_length(model, grade->member);
    const double every = isnan(s->every) ? 0.1 * length : s->every;
    const kl_station_row *rows = NULL;
    kl_index count = 0;
    place_list list = {NULL, 0};
    if (!table_stations(t, results, s, grade->member, every, &rows, &count)) {
        return list;
    }
    list.items = arena_array(&t->memory, most_places(model, grade, count), sizeof(place));
    if (list.items == NULL) {
        (void)table_accepts(t, KL_NO_MEMORY);
        return list;
    }
    if (!isnan(s->at)) {
        add(&list, rows[0].station, label_place(model, &rows[0]), RANK_NODE);
        return list;
    }
    add_stations(model, rows, count, every, &list);
    add_rows(model, grade->member, &list);
    for (kl_index i = 0; i < grade->point_count; ++i) {
        add(&list, grade->points[i].station, "point", RANK_POINT);
    }
    for (kl_index i = 0; i < member->section_count && member->section_count > 1; ++i) {
        add(&list, member->sections[i].station, "", RANK_NONE);
    }
    merge_places(&list, length);
    return list;
}

/* ---- the table ------------------------------------------------------------------------------------------- */

/* Columns of lengths: what they are called and where their figures lie in a place. */
typedef struct grade_column {
    const char *key, *heading;
    kl_measure measure;
    size_t offset;   /* in kl_form_grade */
    bool is_of_form; /* nothing to say where there was none */
} grade_column;

#define PART(key, heading, field, of_form)                                                         \
    {                                                                                              \
        key, heading, KL_MEASURE_DEFLECTION, offsetof(kl_form_grade, field), of_form               \
    }
static const grade_column grade_columns[] = {
    {"design", "design\ngrade", KL_MEASURE_STATION, offsetof(kl_form_grade, design), false},
    PART("camber", "camber", camber, false),
    PART("takeup", "take-up", takeup, true),
    PART("posts", "posts'\nshortening", posts, true),
    PART("carrier", "carrier's\ndeflection", carrier, true),
    PART("stringer", "stringer's\nsag", stringer, true),
    PART("raise", "raise:\ntheir sum", raise, false),
    {"form", "form\ngrade", KL_MEASURE_STATION, offsetof(kl_form_grade, form), false},
};
#define GRADE_COLUMNS (sizeof grade_columns / sizeof grade_columns[0])

static double figure_of(const place *p, const grade_column *c)
{
    double value;
    memcpy(&value, (const char *)&p->at + c->offset, sizeof value);
    return c->is_of_form && !p->at.is_formed ? (double)NAN : value;
}

#define GRADE_DIGITS 10 /* at most: what follows is rounding */

/* Digits of the column's largest figure that show so many decimals. */
static int digits_for(const table *t, const place_list *list, const grade_column *c, int decimals)
{
    double largest = 0.0;
    for (size_t i = 0; i < list->count; ++i) {
        const double value = figure_of(&list->items[i], c);
        largest = isnan(value) ? largest : fmax(largest, fabs(value));
    }
    const double shown = largest / kl_show_factor(&t->display, c->measure);
    const int before = shown > 0.0 ? (int)floor(log10(shown) + 1e-12) : 0;
    return before + decimals + 1 < GRADE_DIGITS ? before + decimals + 1 : GRADE_DIGITS;
}

static bool is_shown(const kl_model *model, const grade_column *c)
{
    bool any = c->offset != offsetof(kl_form_grade, stringer);
    for (kl_index g = 0; g < model->grade_count; ++g) {
        any = any || kl_grade_has_stringer(model, &model->grades[g]);
    }
    return any;
}

static void add_columns(table *t, const kl_model *model, const place_list *list)
{
    const field_reading *rod = field_reading_of(&t->display, KL_MEASURE_STATION);
    const field_reading *rule = field_reading_of(&t->display, KL_MEASURE_DEFLECTION);
    table_add_state(t);
    table_add_words(t, COLUMN_GROUP, "member", "member");
    table_add(t, COLUMN_EXACT, "station", "station", KL_MEASURE_STATION, 4);
    table_add_words(t, COLUMN_WORD, "place", "place");
    for (size_t i = 0; i < GRADE_COLUMNS; ++i) {
        const grade_column *c = &grade_columns[i];
        if (is_shown(model, c)) {
            const int decimals = field_reading_of(&t->display, c->measure)->exact;
            table_add(t, COLUMN_FIGURE, c->key, c->heading, c->measure,
                      digits_for(t, list, c, decimals));
        }
    }
    table_add_words(t, COLUMN_MARK, "raise_read", table_say(t, "raise to\n%s", rule->text));
    table_add_words(t, COLUMN_MARK, "form_read", table_say(t, "form grade\nto %s", rod->text));
}

static void put_reading(table *t, kl_measure measure, double value)
{
    char text[FIGURE_SIZE];
    field_reading_write(text, &t->display, measure, value);
    table_put_text(t, text);
}

static void put_place(table *t, const kl_results *results, const place *p)
{
    const kl_model *model = kl_results_model(results);
    const kl_grade *grade = &model->grades[p->grade];
    table_put_state(t, results, kl_state_step(kl_last_step(results, grade->target)));
    table_put_text(t, model->members[grade->member].name);
    table_put(t, p->station);
    table_put_text(t, p->name);
    for (size_t i = 0; i < GRADE_COLUMNS; ++i) {
        if (is_shown(model, &grade_columns[i])) {
            table_put(t, figure_of(p, &grade_columns[i]));
        }
    }
    put_reading(t, KL_MEASURE_DEFLECTION, p->at.raise);
    put_reading(t, KL_MEASURE_STATION, p->at.form);
}

/* All places of all grades that are wanted, with their figures. */
static place_list collect(table *t, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    place_list all = {NULL, 0};
    size_t room = 0;
    for (kl_index g = 0; g < model->grade_count; ++g) {
        if (!selection_takes(s, model->grades[g].member)) {
            continue;
        }
        const place_list list = places_of(t, results, s, &model->grades[g]);
        void *items = all.items;
        if (!table_accepts(t, mem_grow(&items, &room, all.count + list.count, sizeof(place),
                                       TABLE_CELL_LIMIT))) {
            break;
        }
        all.items = items;
        for (size_t i = 0; i < list.count; ++i) {
            place p = list.items[i];
            p.grade = g;
            if (table_accepts(t, kl_form_grade_at(results, g, p.station, &p.at))) {
                all.items[all.count++] = p;
            }
        }
    }
    return all;
}

void table_build_grades(table *t, kl_results *results, const selection *s)
{
    const place_list list = collect(t, results, s);
    table_title(t, "Form grades: + raises the form");
    add_columns(t, kl_results_model(results), &list);
    for (size_t i = 0; i < list.count && t->status == KL_OK; ++i) {
        put_place(t, results, &list.items[i]);
    }
    mem_free(list.items);
    table_note(t, "The member set to the form grade ends at its design grade at the moment named. "
                  "Camber: minus its movement from its set until then. Take-up, the posts' "
                  "shortening and what the posts or nodes that carry go down by under the pour are "
                  "straight between the places that carry the form.");
}
