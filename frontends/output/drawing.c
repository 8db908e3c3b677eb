/* drawing.c - see drawing.h.
 * SPDX-License-Identifier: MIT */
#include "drawing.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "letter_width.h"
#include "markup.h"
#include "mem.h"

#define DRAWING_STRAIGHT 0.02               /* px off a straight line that nobody sees */
#define DRAWING_RUN      200                /* points that one straight line may stand for */
#define DRAWING_LIMIT    ((size_t)64 << 20) /* bytes of one picture */

/* ---- text -------------------------------------------------------------------------------------------- */

static void drawing_append(drawing *d, const char *text, size_t length)
{
    if (d->status != KL_OK) {
        return;
    }
    void *room = d->text;
    d->status = mem_grow(&room, &d->room, d->length + length + 1, 1, DRAWING_LIMIT);
    d->text = room;
    if (d->status == KL_OK) {
        memcpy(d->text + d->length, text, length);
        d->length += length;
        d->text[d->length] = '\0';
    }
}

void drawing_put(drawing *d, const char *format, ...)
{
    char text[600];
    va_list arguments;
    va_start(arguments, format);
    const int length = vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    if (length < 0 || (size_t)length >= sizeof text) {
        d->status = d->status == KL_OK ? KL_MISUSE : d->status;
        return;
    }
    drawing_append(d, text, (size_t)length);
}

void drawing_put_escaped(drawing *d, const char *text)
{
    const char *plain = text;
    const char *at = text;
    size_t bytes;
    for (; *at != '\0'; at += bytes) {
        const char *entity = markup_entity(at, &bytes);
        if (entity) {
            drawing_append(d, plain, (size_t)(at - plain));
            drawing_append(d, entity, strlen(entity));
            plain = at + bytes;
        }
    }
    drawing_append(d, plain, (size_t)(at - plain));
}

/* A coordinate to a hundredth of a pixel. */
static void drawing_put_number(drawing *d, double value)
{
    char text[40];
    const double kept = isfinite(value) ? fmax(fmin(value, 1e7), -1e7) : 0.0;
    int length = snprintf(text, sizeof text, "%.2f", kept);
    while (length > 1 && text[length - 1] == '0') {
        length--;
    }
    length -= text[length - 1] == '.' ? 1 : 0;
    const bool is_zero = length == 2 && text[0] == '-' && text[1] == '0';
    drawing_append(d, is_zero ? "0" : text, is_zero ? 1 : (size_t)length);
}

static void drawing_put_attribute(drawing *d, const char *name, double value)
{
    drawing_put(d, " %s=\"", name);
    drawing_put_number(d, value);
    drawing_append(d, "\"", 1);
}

static void drawing_put_class(drawing *d, const char *class)
{
    if (class[0] != '\0') {
        drawing_append(d, " class=\"", 8);
        drawing_put_escaped(d, class);
        drawing_append(d, "\"", 1);
    }
}

static void drawing_note(drawing *d, kl_status status)
{
    d->status = d->status == KL_OK ? status : d->status;
}

/* ---- shapes ------------------------------------------------------------------------------------------ */

void drawing_start(
    drawing *d, double width, double height, const char *title, const char *description)
{
    *d = (drawing){.width = width, .height = height, .step = DRAWING_NO_STEP};
    drawing_put(d,
                "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"drawing\" role=\"img\" "
                "viewBox=\"0 0 %.0f %.0f\" width=\"%.0f\" height=\"%.0f\">\n<title>",
                width, height, width, height);
    drawing_put_escaped(d, title);
    drawing_put(d, "</title>\n<desc>");
    drawing_put_escaped(d, description);
    drawing_put(d, "</desc>\n");
}

void drawing_open(drawing *d, const char *class, const char *attributes)
{
    drawing_append(d, "<g", 2);
    drawing_put_class(d, class);
    if (attributes) {
        drawing_append(d, " ", 1);
        drawing_append(d, attributes, strlen(attributes));
    }
    drawing_append(d, ">\n", 2);
    d->depth++;
}

void drawing_close(drawing *d)
{
    drawing_append(d, "</g>\n", 5);
    d->depth--;
}

void drawing_open_step(drawing *d, int step)
{
    d->step = step;
    if (step != DRAWING_NO_STEP) {
        char attribute[40];
        snprintf(attribute, sizeof attribute, "data-step=\"%d\"", step);
        drawing_open(d, "step", attribute);
    }
}

void drawing_open_folded_step(drawing *d, int step)
{
    char attribute[40];
    snprintf(attribute, sizeof attribute, "data-step=\"%d\"", step);
    drawing_open(d, "step folded", attribute);
    d->step = step;
    d->folded = true;
}

void drawing_close_step(drawing *d)
{
    if (d->step != DRAWING_NO_STEP || d->folded) {
        drawing_close(d);
    }
    d->folded = false;
    d->step = DRAWING_NO_STEP;
}

void drawing_line(drawing *d, const char *class, double x1, double y1, double x2, double y2)
{
    drawing_append(d, "<line", 5);
    drawing_put_class(d, class);
    drawing_put_attribute(d, "x1", x1);
    drawing_put_attribute(d, "y1", y1);
    drawing_put_attribute(d, "x2", x2);
    drawing_put_attribute(d, "y2", y2);
    drawing_append(d, "/>\n", 3);
}

void drawing_hatch(
    drawing *d, const char *class, double x, double y, double dx, double dy, int count)
{
    drawing_append(d, "<path", 5);
    drawing_put_class(d, class);
    drawing_append(d, " d=\"", 4);
    for (int i = 0; i < count; i++) {
        drawing_put(d, i == 0 ? "M%.2f %.2fl%.2f %.2f" : "m%.2f %.2fl%.2f %.2f", i == 0 ? x : dx,
                    i == 0 ? y : -dy, dx, dy);
    }
    drawing_append(d, "\"/>\n", 4);
}

/* Do the points between two others lie on the straight line from one to the other, in order? What nobody sees does not count,
 * or rounding would choose the points of a step. */
static bool drawing_is_straight(const double *points, int first, int last)
{
    const double *a = points + 2 * (size_t)first;
    const double dx = points[2 * (size_t)last] - a[0];
    const double dy = points[2 * (size_t)last + 1] - a[1];
    const double length = hypot(dx, dy);
    double before = 0.0; /* px along the line */
    for (int i = first + 1; i < last; i++) {
        const double x = points[2 * (size_t)i] - a[0];
        const double y = points[2 * (size_t)i + 1] - a[1];
        const bool is_point = length <= DRAWING_STRAIGHT;
        const double along = is_point ? 0.0 : (dx * x + dy * y) / length;
        const double beside = is_point ? hypot(x, y) : fabs(dx * y - dy * x) / length;
        if (beside > DRAWING_STRAIGHT || along < before - DRAWING_STRAIGHT ||
            along > length + DRAWING_STRAIGHT) {
            return false;
        }
        before = fmax(before, along);
    }
    return true;
}

/* The next point to be drawn after `first`: what lies on a straight line to it needs no point. `count` behind the last. */
static int drawing_straight_run(const double *points, int first, int count)
{
    int next = first + 1;
    while (next + 1 < count && next - first < DRAWING_RUN &&
           drawing_is_straight(points, first, next + 1)) {
        next++;
    }
    return next;
}

static void
drawing_points(drawing *d, const char *element, const char *class, const double *points, int count)
{
    drawing_put(d, "<%s", element);
    drawing_put_class(d, class);
    drawing_append(d, " points=\"", 9);
    for (int i = 0; i < count; i = drawing_straight_run(points, i, count)) {
        drawing_append(d, " ", i > 0 ? 1 : 0);
        drawing_put_number(d, points[2 * i]);
        drawing_append(d, " ", 1);
        drawing_put_number(d, points[2 * i + 1]);
    }
    drawing_append(d, "\"/>\n", 4);
}

void drawing_course(drawing *d, const char *class, const double *points, int count)
{
    drawing_points(d, "polyline", class, points, count);
    for (int i = 0; i + 1 < count && !d->folded; i++) {
        const double *p = points + 2 * i;
        drawing_note(d, label_field_take_line(&d->labels, p[0], p[1], p[2], p[3]));
    }
}

void drawing_area(drawing *d, const char *class, const double *points, int count)
{
    drawing_points(d, "polygon", class, points, count);
}

void drawing_outline(drawing *d, const char *class, const double *points, int count)
{
    drawing_area(d, class, points, count);
    for (int i = 0; i < count; i++) {
        const double *p = points + 2 * (size_t)i;
        const double *q = points + 2 * (size_t)(i + 1 < count ? i + 1 : 0);
        drawing_keep_line(d, p[0], p[1], q[0], q[1]);
    }
}

void drawing_box(drawing *d, const char *class, double x, double y, double width, double height)
{
    drawing_append(d, "<rect", 5);
    drawing_put_class(d, class);
    drawing_put_attribute(d, "x", x);
    drawing_put_attribute(d, "y", y);
    drawing_put_attribute(d, "width", fmax(width, 0.0));
    drawing_put_attribute(d, "height", fmax(height, 0.0));
    drawing_append(d, "/>\n", 3);
}

void drawing_circle(drawing *d, const char *class, double x, double y, double radius)
{
    drawing_append(d, "<circle", 7);
    drawing_put_class(d, class);
    drawing_put_attribute(d, "cx", x);
    drawing_put_attribute(d, "cy", y);
    drawing_put_attribute(d, "r", radius);
    drawing_append(d, "/>\n", 3);
}

void drawing_arrow(drawing *d, const char *class, double x1, double y1, double x2, double y2)
{
    const double length = hypot(x2 - x1, y2 - y1);
    if (!(length > 0.0)) {
        return;
    }
    const double head = fmin(7.0, 0.6 * length);
    const double ux = (x2 - x1) / length;
    const double uy = (y2 - y1) / length;
    const double bx = x2 - head * ux;
    const double by = y2 - head * uy;
    const double tip[] = {x2,
                          y2,
                          bx - 0.4 * head * uy,
                          by + 0.4 * head * ux,
                          bx + 0.4 * head * uy,
                          by - 0.4 * head * ux};
    char filled[80];
    snprintf(filled, sizeof filled, "head %.60s", class);
    drawing_line(d, class, x1, y1, bx, by);
    drawing_area(d, filled, tip, 3);
}

/* ---- texts ------------------------------------------------------------------------------------------- */

static double drawing_letters(const char *class)
{
    return strstr(class, "small") != NULL ? DRAWING_SMALL : DRAWING_TEXT;
}

static void drawing_put_text(drawing *d,
                             const char *class,
                             double x,
                             double y,
                             text_anchor anchor,
                             bool up,
                             const char *text)
{
    static const char *const names[] = {"start", "middle", "end"};
    drawing_append(d, "<text", 5);
    drawing_put_class(d, class);
    drawing_put_attribute(d, "x", x);
    drawing_put_attribute(d, "y", y);
    if (anchor != ANCHOR_START) {
        drawing_put(d, " text-anchor=\"%s\"", names[anchor]);
    }
    if (up) {
        drawing_put(d, " transform=\"rotate(-90 %.2f %.2f)\"", x, y);
    }
    drawing_append(d, ">", 1);
    drawing_put_escaped(d, text);
    drawing_append(d, "</text>\n", 8);
}

void drawing_text(
    drawing *d, const char *class, double x, double y, text_anchor anchor, const char *text)
{
    drawing_put_text(d, class, x, y, anchor, false, text);
    const double size = drawing_letters(class);
    const double width = letter_width(text, size);
    drawing_keep_free(d, x - 0.5 * (double)anchor * width, y - 0.8 * size, width, size);
}

void drawing_text_up(
    drawing *d, const char *class, double x, double y, text_anchor anchor, const char *text)
{
    drawing_put_text(d, class, x, y, anchor, true, text);
    const double size = drawing_letters(class);
    const double width = letter_width(text, size);
    drawing_keep_free(d, x - 0.8 * size, y - width + 0.5 * (double)anchor * width, size, width);
}

/* A label of a step that is folded: when it is shown it stands alone. */
static void drawing_put_alone(drawing *d, const char *class, double x, double y, const char *text)
{
    drawing_put_text(d, class, x, y - 0.5 * DRAWING_SMALL, ANCHOR_MIDDLE, false, text);
}

static void drawing_wish(drawing *d,
                         const char *class,
                         double x,
                         double y,
                         double weight,
                         bool optional,
                         bool beside,
                         const char *text)
{
    if (d->status != KL_OK) {
        return;
    }
    if (d->folded) {
        drawing_put_alone(d, class, x, y, text);
        return;
    }
    const size_t room = strlen(text) + 1;
    char *copy = mem_array(room, 1);
    if (!copy) {
        drawing_note(d, KL_NO_MEMORY);
        return;
    }
    memcpy(copy, text, room);
    const double size = drawing_letters(class);
    const label_wish wish = {.x = x,
                             .y = y,
                             .width = letter_width(text, size),
                             .height = size,
                             .weight = weight,
                             .optional = optional,
                             .beside = beside,
                             .step = d->step,
                             .class = class,
                             .text = copy};
    drawing_note(d, label_field_wish(&d->labels, &wish));
    if (d->status != KL_OK) {
        mem_free(copy);
    }
}

void drawing_label(
    drawing *d, const char *class, double x, double y, double weight, const char *text)
{
    drawing_wish(d, class, x, y, weight, false, false, text);
}

void drawing_hint(
    drawing *d, const char *class, double x, double y, double weight, const char *text)
{
    drawing_wish(d, class, x, y, weight, true, false, text);
}

void drawing_hint_beside(
    drawing *d, const char *class, double x, double y, double weight, const char *text)
{
    drawing_wish(d, class, x, y, weight, true, true, text);
}

void drawing_keep_line(drawing *d, double x1, double y1, double x2, double y2)
{
    drawing_note(d, label_field_take_line(&d->labels, x1, y1, x2, y2));
}

void drawing_keep_free(drawing *d, double x, double y, double width, double height)
{
    if (!d->folded) {
        drawing_note(d, label_field_take(&d->labels, (label_box){x, y, width, height}));
    }
}

void drawing_keep_hatch(drawing *d, double x, double y, double width, double height)
{
    drawing_note(d, label_field_take_hatch(&d->labels, (label_box){x, y, width, height}));
}

static void drawing_put_label(drawing *d, const label_wish *wish)
{
    const label_box *box = &wish->box;
    if (wish->far) {
        drawing_line(d, "leader", wish->x, wish->y, wish->lead_x, wish->lead_y);
    }
    drawing_put_text(d, wish->class, box->x, box->y + 0.8 * box->height, ANCHOR_START, false,
                     wish->text);
}

const char *drawing_finish(drawing *d)
{
    if (d->status == KL_OK) {
        d->status = label_field_place(&d->labels, d->width, d->height);
    }
    for (size_t i = 0; i < d->labels.wish_count && d->status == KL_OK; i++) {
        const label_wish *wish = &d->labels.wishes[i];
        if (wish->placed) {
            drawing_open_step(d, wish->step);
            drawing_put_label(d, wish);
            drawing_close_step(d);
        } else if (d->folds && wish->step != DRAWING_NO_STEP) {
            drawing_open_folded_step(d, wish->step);
            drawing_put_alone(d, wish->class, wish->x, wish->y, wish->text);
            drawing_close_step(d);
        }
    }
    while (d->depth > 0) {
        drawing_close(d);
    }
    drawing_append(d, "</svg>\n", 7);
    return d->status == KL_OK ? d->text : NULL;
}

void drawing_place(drawing *d, const drawing *picture, double x, double y, double width)
{
    drawing_note(d, picture->status);
    if (d->status != KL_OK) {
        return;
    }
    const char *inside = strstr(picture->text, "<title>");
    drawing_put(d,
                "<svg class=\"drawing\" x=\"%.2f\" y=\"%.2f\" width=\"%.2f\" height=\"%.2f\" "
                "viewBox=\"0 0 %.0f %.0f\">\n",
                x, y, width, width * picture->height / picture->width, picture->width,
                picture->height);
    drawing_append(d, inside, picture->length - (size_t)(inside - picture->text));
}

/* `var(--ink,#123)` is the colour of the page around; a file of its own has the fallback, since not all who turn SVG into
 * pages know variables. */
static void drawing_plain_style(char *to)
{
    static const char opening[] = "var(";
    for (const char *at = DRAWING_STYLE; *at != '\0';) {
        if (strncmp(at, opening, sizeof opening - 1) != 0) {
            *to++ = *at++;
            continue;
        }
        for (at = strchr(at, ',') + 1; *at != ')'; at++) {
            *to++ = *at;
        }
        at++;
    }
    *to = '\0';
}

char *drawing_page(const drawing *d)
{
    static const char head[] = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
    const char *inside = strstr(d->text, "<title>"); /* the style goes before it */
    const int before = (int)(inside - d->text);
    const size_t room =
        sizeof head + strlen(DRAWING_STYLE) + d->length + sizeof "<style></style>\n";
    char *style = mem_array(strlen(DRAWING_STYLE) + 1, 1);
    char *text = mem_array(room, 1);
    if (style && text) {
        drawing_plain_style(style);
        snprintf(text, room, "%s%.*s<style>%s</style>\n%s", head, before, d->text, style, inside);
    } else {
        mem_free(text);
        text = NULL;
    }
    mem_free(style);
    return text;
}

void drawing_page_free(char *text)
{
    mem_free(text);
}

void drawing_free(drawing *d)
{
    label_field_free(&d->labels);
    mem_free(d->text);
    *d = (drawing){0};
}
