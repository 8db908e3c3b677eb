/* load_strips.c - see load_strips.h.
 * SPDX-License-Identifier: MIT */
#include "load_strips.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "figure.h"
#include "letter_width.h"
#include "mem.h"

#define STRIPS_GAP 3.0 /* px between strips */
#define STRIPS_STACK                                                                               \
    1.2 /* of the largest strip: how high strips may begin; the next ones cover each other */
#define STRIPS_BACK 64 /* strips on a member that are looked through to find what is free */
#define STRIPS_TOGETHER                                                                            \
    200 /* texts in a picture that tell several: each looks through all of its member */
#define STRIPS_TELLS   1e-9 /* of the largest: smaller values are not written */
#define STRIPS_EVEN    1e-6 /* of the largest: smaller changes are none */
#define STRIPS_NEAR    1e-6 /* of a strip: shorter stretches are places */
#define STRIPS_LETTERS 10.5 /* px, and … */
#define STRIPS_AROUND  6.0  /* px beside a text that stands over a free stretch */

kl_status load_strips_start(load_strips *s, const load_scale *scale, kl_index members)
{
    *s = (load_strips){.scale = *scale};
    s->first = mem_array((size_t)members, sizeof *s->first);
    s->last = mem_array((size_t)members, sizeof *s->last);
    if (!s->first || !s->last) {
        return KL_NO_MEMORY;
    }
    for (kl_index m = 0; m < members; m++) {
        s->first[m] = s->last[m] = KL_NONE;
    }
    return KL_OK;
}

void load_strips_free(load_strips *s)
{
    mem_free(s->strips);
    mem_free(s->first);
    mem_free(s->last);
    *s = (load_strips){0};
}

static double strip_from(const load_strip *strip)
{
    return strip->station[0];
}

static double strip_to(const load_strip *strip)
{
    return strip->station[strip->count - 1];
}

static bool strip_meets(const load_strip *strip, int side, double from, double to)
{
    return strip->side == side && strip_from(strip) < to && strip_to(strip) > from;
}

double load_strips_top(const load_strips *s, kl_index member, int side, double from, double to)
{
    double top = 0.0;
    int seen = 0;
    for (kl_index i = s->last[member]; i != KL_NONE && seen < STRIPS_BACK; seen++) {
        const load_strip *strip = &s->strips[i];
        if (strip_meets(strip, side, from, to)) {
            top = fmax(top, strip->base + strip->height);
        }
        i = strip->before;
    }
    return top;
}

const load_strip *load_strips_push(load_strips *s, const load_strip *strip)
{
    void *strips = s->strips;
    const kl_status status =
        mem_grow(&strips, &s->room, (size_t)s->count + 1, sizeof *s->strips, (size_t)1 << 24);
    s->strips = strips;
    if (status != KL_OK) {
        return NULL;
    }
    const kl_index member = strip->member;
    const double under =
        load_strips_top(s, member, strip->side, strip_from(strip), strip_to(strip));
    load_strip *put = &s->strips[s->count];
    *put = *strip;
    put->base = under > 0.0 ? fmin(under + STRIPS_GAP, STRIPS_STACK * s->scale.size) : 0.0;
    put->before = s->last[member];
    put->behind = KL_NONE;
    if (put->before == KL_NONE) {
        s->first[member] = s->count;
    } else {
        s->strips[put->before].behind = s->count;
    }
    s->last[member] = s->count++;
    return put;
}

double load_strip_value(const load_strip *strip, double station)
{
    int i = 0;
    while (i + 2 < strip->count && station > strip->station[i + 1]) {
        i++;
    }
    const double share =
        (station - strip->station[i]) / (strip->station[i + 1] - strip->station[i]);
    return strip->value[i] + share * (strip->value[i + 1] - strip->value[i]);
}

double load_strip_edge(const load_scale *scale, const load_strip *strip, double station)
{
    return strip->base + scale->size * fabs(load_strip_value(strip, station)) / scale->most;
}

/* ---- one text of what stands at a place --------------------------------------------------------------------- */

static void strip_figure(const load_scale *scale, double value, char figure[FIGURE_SIZE])
{
    const double shown = fabs(value) / kl_show_factor(scale->display, KL_MEASURE_LINE_LOAD);
    figure_given(figure, shown, 3);
}

/* The point at which a strip is most, least with a sense of -1; of equal ones the first. */
static int strip_peak(const load_scale *scale, const load_strip *strip, double sense)
{
    int peak = 0;
    for (int i = 1; i < strip->count; i++) {
        if (sense * (strip->value[i] - strip->value[peak]) > STRIPS_EVEN * scale->most) {
            peak = i;
        }
    }
    return peak;
}

static bool strip_is_even(const load_scale *scale, const load_strip *strip)
{
    return strip_peak(scale, strip, 1.0) == 0 && strip_peak(scale, strip, -1.0) == 0;
}

/* The points at which a strip is told: of an even one any, else its ends and the least and the most between them. */
static int
strip_places(const load_scale *scale, const load_strip *strip, int places[LOAD_STRIP_PLACES])
{
    const int last = strip->count - 1;
    int count = 0;
    places[count++] = 0;
    if (strip_is_even(scale, strip)) {
        return count;
    }
    for (int sense = -1; sense <= 1; sense += 2) {
        const int peak = strip_peak(scale, strip, sense);
        const double above = sense * (strip->value[peak] - strip->value[last]);
        if (peak > 0 && above > STRIPS_EVEN * scale->most) {
            places[count++] = peak;
        }
    }
    places[count++] = last;
    return count;
}

typedef struct strip_pile {
    kl_index of[LOAD_STRIPS_APART]; /* the first of them */
    int count;
    double sum;        /* N/m */
    kl_index top;      /* the strip that reaches farthest */
    bool one_way;      /* all act in one direction */
    kl_point pull;     /* of the last one */
    const char *after; /* of all of them; NULL: not the same */
} strip_pile;

static void strip_pile_add(strip_pile *pile, const load_strips *s, kl_index index, double station)
{
    const load_strip *strip = &s->strips[index];
    const double value = load_strip_value(strip, station);
    if (!(fabs(value) > STRIPS_TELLS * s->scale.most)) {
        return;
    }
    const double sense = value < 0.0 ? -1.0 : 1.0;
    const kl_point pull = {sense * strip->direction.x, sense * strip->direction.y};
    const bool first = pile->count == 0;
    if (first || load_strip_edge(&s->scale, strip, station) >
                     load_strip_edge(&s->scale, &s->strips[pile->top], station)) {
        pile->top = index;
    }
    pile->one_way = first || (pile->one_way &&
                              hypot(pull.x - pile->pull.x, pull.y - pile->pull.y) < STRIPS_EVEN);
    pile->after =
        first || (pile->after && strcmp(pile->after, strip->after) == 0) ? strip->after : NULL;
    pile->pull = pull;
    pile->sum += fabs(value);
    if (pile->count < LOAD_STRIPS_APART) {
        pile->of[pile->count] = index;
    }
    pile->count++;
}

/* What is told of a strip at the station is told. */
static void strip_note_told(const load_scale *scale, load_strip *strip, double station)
{
    int places[LOAD_STRIP_PLACES];
    const int count = strip_places(scale, strip, places);
    const double near = STRIPS_NEAR * (strip_to(strip) - strip_from(strip));
    for (int k = 0; k < count; k++) {
        const double place = strip->station[places[k]];
        strip->told[k] = strip->told[k] || count == 1 || fabs(place - station) <= near;
    }
}

/* Does another strip stand where `strip` does at the station? What ends there and begins there do not both. */
static bool strip_is_beside(const load_strip *other, const load_strip *strip, double station)
{
    const double near = STRIPS_NEAR * (strip_to(strip) - strip_from(strip));
    const double from = fmin(station, strip_to(strip) - near);
    return strip_meets(other, strip->side, from, from + near);
}

/* All that stand on the side of a strip at the station. Those of them that are told by it need no text of their own. */
static strip_pile strip_pile_at(load_strips *s, const load_strip *strip, double station)
{
    strip_pile pile = {.top = KL_NONE};
    for (kl_index i = s->first[strip->member]; i != KL_NONE; i = s->strips[i].behind) {
        load_strip *other = &s->strips[i];
        if (strip_is_beside(other, strip, station)) {
            strip_pile_add(&pile, s, i, station);
            strip_note_told(&s->scale, other, station);
        }
    }
    return pile;
}

/* "2 + 1.5 kip/ft"; with a comma where they act in several directions, which no sum can tell. */
static void strip_pile_text(const strip_pile *pile,
                            const load_strips *s,
                            double station,
                            char text[LOAD_STRIPS_TEXT])
{
    char figure[FIGURE_SIZE];
    const char *unit = kl_show_unit(s->scale.display, KL_MEASURE_LINE_LOAD);
    const char *after = pile->after ? pile->after : "";
    if (pile->count > LOAD_STRIPS_APART && !(pile->one_way && pile->after)) {
        snprintf(text, LOAD_STRIPS_TEXT, "%d loads", pile->count);
        return;
    }
    if (pile->count > LOAD_STRIPS_APART) {
        strip_figure(&s->scale, pile->sum, figure);
        snprintf(text, LOAD_STRIPS_TEXT, "sum of %d: %s %s%s", pile->count, figure, unit, after);
        return;
    }
    size_t used = 0;
    for (int i = 0; i < pile->count; i++) {
        const load_strip *strip = &s->strips[pile->of[i]];
        strip_figure(&s->scale, load_strip_value(strip, station), figure);
        const bool last = i + 1 == pile->count || !pile->after;
        used += (size_t)snprintf(text + used, LOAD_STRIPS_TEXT - used, "%s%s%s%s%s%s",
                                 i == 0          ? ""
                                 : pile->one_way ? " + "
                                                 : ", ",
                                 strip->word, figure, last ? " " : "", last ? unit : "",
                                 last ? strip->after : "");
    }
}

/* ---- where a strip is told ---------------------------------------------------------------------------------- */

static int strip_compare(const void *a, const void *b)
{
    const double *x = a;
    const double *y = b;
    return (*x > *y) - (*x < *y);
}

/* The middle of the widest stretch of a strip on which nothing stands. @return its width, m; 0: none that is known */
static double strip_free_stretch(const load_strips *s, const load_strip *strip, double *middle)
{
    double from[STRIPS_BACK + 1]; /* of what stands on it, by station */
    double to[STRIPS_BACK + 1];
    int count = 0;
    kl_index i = strip->behind;
    for (; i != KL_NONE && count < STRIPS_BACK; i = s->strips[i].behind) {
        const load_strip *other = &s->strips[i];
        if (strip_meets(other, strip->side, strip_from(strip), strip_to(strip))) {
            from[count] = strip_from(other);
            to[count++] = strip_to(other);
        }
    }
    *middle = strip_from(strip);
    if (i != KL_NONE) {
        return 0.0;
    }
    /* as many have begun as have ended: nothing stands between the k-th end and the next beginning after it */
    qsort(from, (size_t)count, sizeof *from, strip_compare);
    qsort(to, (size_t)count, sizeof *to, strip_compare);
    from[count] = strip_to(strip);
    double widest = fmax(fmin(from[0], strip_to(strip)) - strip_from(strip), 0.0);
    *middle += 0.5 * widest;
    for (int k = 0; k < count; k++) {
        if (from[k + 1] - to[k] > (1.0 + STRIPS_EVEN) * widest) {
            widest = from[k + 1] - to[k];
            *middle = to[k] + 0.5 * widest;
        }
    }
    return widest;
}

/* The middle of the widest stretch of a strip on which the same others stand all along. */
static double strip_steady_stretch(const load_strips *s, const load_strip *strip)
{
    double at[4 * STRIPS_BACK + 2] = {strip_from(strip), strip_to(strip)};
    int count = 2;
    kl_index i = s->first[strip->member];
    for (int seen = 0; i != KL_NONE && seen < 2 * STRIPS_BACK; i = s->strips[i].behind, seen++) {
        const load_strip *other = &s->strips[i];
        if (strip_meets(other, strip->side, strip_from(strip), strip_to(strip))) {
            at[count++] = fmax(strip_from(other), strip_from(strip));
            at[count++] = fmin(strip_to(other), strip_to(strip));
        }
    }
    qsort(at, (size_t)count, sizeof *at, strip_compare);
    int widest = 1;
    for (int k = 2; k < count; k++) {
        widest =
            at[k] - at[k - 1] > (1.0 + STRIPS_EVEN) * (at[widest] - at[widest - 1]) ? k : widest;
    }
    return 0.5 * (at[widest - 1] + at[widest]);
}

static bool strip_is_covered(const load_strips *s, const load_strip *strip, double station)
{
    int seen = 0;
    for (kl_index i = strip->behind; i != KL_NONE; i = s->strips[i].behind, seen++) {
        if (seen >= STRIPS_BACK || strip_is_beside(&s->strips[i], strip, station)) {
            return true;
        }
    }
    return false;
}

typedef struct strip_telling {
    load_strips *strips;
    load_strips_say *say;
    void *context;
    int together; /* texts so far that tell several */
} strip_telling;

static void strip_tell_pile(strip_telling *t, const load_strip *strip, double station)
{
    if (t->together++ >= STRIPS_TOGETHER) {
        return;
    }
    const strip_pile pile = strip_pile_at(t->strips, strip, station);
    if (pile.count > 0) {
        char text[LOAD_STRIPS_TEXT];
        strip_pile_text(&pile, t->strips, station, text);
        t->say(t->context, &t->strips->strips[pile.top], station, pile.sum / t->strips->scale.most,
               text);
    }
}

static void strip_text(const load_strips *s,
                       const load_strip *strip,
                       double station,
                       char text[LOAD_STRIPS_TEXT])
{
    strip_pile alone = {0};
    strip_pile_add(&alone, s, (kl_index)(strip - s->strips), station);
    strip_pile_text(&alone, s, station, text);
}

static void strip_tell_alone(const strip_telling *t, const load_strip *strip, double station)
{
    const load_scale *scale = &t->strips->scale;
    const double share = fabs(load_strip_value(strip, station)) / scale->most;
    if (share > STRIPS_TELLS) {
        char text[LOAD_STRIPS_TEXT];
        strip_text(t->strips, strip, station, text);
        t->say(t->context, strip, station, share, text);
    }
}

/* Where an even strip is told. @return whether others stand on it there */
static bool strip_place(const load_strips *s, const load_strip *strip, double *station)
{
    char text[LOAD_STRIPS_TEXT];
    const double width = strip_free_stretch(s, strip, station);
    strip_text(s, strip, *station, text);
    const double needed = letter_width(text, STRIPS_LETTERS) + STRIPS_AROUND;
    if (width * s->scale.pixels >= needed) {
        return false;
    }
    *station = strip_steady_stretch(s, strip);
    return strip_is_covered(s, strip, *station);
}

/* `together` in a first walk: only what stands under others. */
static void strip_tell(strip_telling *t, const load_strip *strip, bool together)
{
    int places[LOAD_STRIP_PLACES];
    const int count = strip_places(&t->strips->scale, strip, places);
    for (int k = 0; k < count; k++) {
        double station = strip->station[places[k]];
        if (strip->told[k]) {
            continue;
        }
        const bool covered = count == 1 ? strip_place(t->strips, strip, &station)
                                        : strip_is_covered(t->strips, strip, station);
        if (covered != together) {
            continue;
        }
        if (covered) {
            strip_tell_pile(t, strip, station);
        } else {
            strip_tell_alone(t, strip, station);
        }
    }
}

void load_strips_tell(load_strips *s, load_strips_say *say, void *context)
{
    strip_telling t = {.strips = s, .say = say, .context = context};
    for (int walk = 0; walk < 2; walk++) {
        for (kl_index i = 0; i < s->count; i++) {
            if (!s->strips[i].silent) {
                strip_tell(&t, &s->strips[i], walk == 0);
            }
        }
    }
}
