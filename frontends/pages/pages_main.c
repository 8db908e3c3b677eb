/* pages_main.c - the program kernline-pages: pictures in SVG on standard input become one PDF or PNG on standard output.
 *
 * It is a program of its own so that kernline itself need not load what draws letters, which takes longer than most analyses.
 * Usage: kernline-pages pdf [TITLE] | png
 * Input: for each page a line with its size in bytes and, after a space, its name in the outline if it has one; then the SVG.
 * A pixel of CSS is 3/4 of a point; PNG is drawn at twice the pixels, and holds the first page. The same pages make the same
 * bytes: a PDF tells no time.
 * SPDX-License-Identifier: MIT */
#include <cairo-pdf.h>
#include <librsvg/rsvg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define PAGES_POINT      0.75
#define PAGES_PNG        2.0
#define PAGES_BYTE_LIMIT 100000000L
#define PAGES_NAME       1000    /* bytes of the line before a page */
#define PAGES_SIDE_LIMIT 20000.0 /* px: larger pictures are refused, not drawn */

static cairo_status_t pages_write(void *stream, const unsigned char *bytes, unsigned length)
{
    return fwrite(bytes, 1, length, stream) == length ? CAIRO_STATUS_SUCCESS
                                                      : CAIRO_STATUS_WRITE_ERROR;
}

typedef struct pages_page {
    char *text; /* the caller's */
    size_t length;
    char name[PAGES_NAME]; /* "" without */
} pages_page;

/* "SIZE NAME\n" or "SIZE\n". */
static bool pages_read_head(const char *line, pages_page *page)
{
    char *end;
    const long size = strtol(line, &end, 10);
    const size_t rest = strcspn(end, "\n");
    if (end == line || (*end != ' ' && *end != '\n') || end[rest] != '\n' || size <= 0 ||
        size > PAGES_BYTE_LIMIT) {
        return false;
    }
    page->length = (size_t)size;
    snprintf(page->name, sizeof page->name, "%.*s", (int)(rest > 0 ? rest - 1 : 0),
             end + (rest > 0));
    return true;
}

/* The next page: 1, 0 at the end, -1 when the input is wrong. */
static int pages_read(pages_page *page)
{
    char line[PAGES_NAME];
    if (!fgets(line, sizeof line, stdin)) {
        return 0;
    }
    if (!pages_read_head(line, page)) {
        return -1;
    }
    page->text = malloc(page->length);
    if (page->text && fread(page->text, 1, page->length, stdin) == page->length) {
        return 1;
    }
    free(page->text);
    return -1;
}

static RsvgHandle *pages_parse(const char *text, size_t length, double *width, double *height)
{
    GError *error = NULL;
    RsvgHandle *handle = rsvg_handle_new_from_data((const guint8 *)text, length, &error);
    if (!handle) {
        fprintf(stderr, "kernline-pages: %s\n", error->message);
        g_error_free(error);
        return NULL;
    }
    if (!rsvg_handle_get_intrinsic_size_in_pixels(handle, width, height) ||
        *width > PAGES_SIDE_LIMIT || *height > PAGES_SIDE_LIMIT) {
        fprintf(stderr, "kernline-pages: a picture without a size, or too large\n");
        g_object_unref(handle);
        return NULL;
    }
    return handle;
}

static bool pages_render(RsvgHandle *handle, cairo_t *cairo, double width, double height)
{
    const RsvgRectangle viewport = {.x = 0.0, .y = 0.0, .width = width, .height = height};
    GError *error = NULL;
    if (!rsvg_handle_render_document(handle, cairo, &viewport, &error)) {
        fprintf(stderr, "kernline-pages: %s\n", error->message);
        g_error_free(error);
        return false;
    }
    return true;
}

/* Draw on a surface that takes the ownership of nothing; PNG: the surface is made here. */
static bool pages_put_pdf(cairo_surface_t *surface, RsvgHandle *handle, double width, double height)
{
    cairo_pdf_surface_set_size(surface, width * PAGES_POINT, height * PAGES_POINT);
    cairo_t *cairo = cairo_create(surface);
    cairo_scale(cairo, PAGES_POINT, PAGES_POINT);
    const bool drawn = pages_render(handle, cairo, width, height);
    cairo_show_page(cairo);
    cairo_destroy(cairo);
    return drawn;
}

static bool pages_put_png(RsvgHandle *handle, double width, double height)
{
    cairo_surface_t *surface = cairo_image_surface_create(
        CAIRO_FORMAT_RGB24, (int)(width * PAGES_PNG), (int)(height * PAGES_PNG));
    cairo_t *cairo = cairo_create(surface);
    cairo_set_source_rgb(cairo, 1.0, 1.0, 1.0);
    cairo_paint(cairo);
    cairo_scale(cairo, PAGES_PNG, PAGES_PNG);
    const bool drawn =
        pages_render(handle, cairo, width, height) &&
        cairo_surface_write_to_png_stream(surface, pages_write, stdout) == CAIRO_STATUS_SUCCESS;
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
    return drawn;
}

/* Where a page of a name begins, for those who leaf through the file. */
static void pages_outline(cairo_surface_t *pdf, const char *name, int number)
{
    char place[40];
    snprintf(place, sizeof place, "page=%d", number);
    cairo_pdf_surface_add_outline(pdf, CAIRO_PDF_OUTLINE_ROOT, name, place,
                                  CAIRO_PDF_OUTLINE_FLAG_OPEN);
}

static bool pages_put(cairo_surface_t *pdf, const pages_page *page, int number)
{
    double width, height;
    RsvgHandle *handle = pages_parse(page->text, page->length, &width, &height);
    if (!handle) {
        return false;
    }
    const bool drawn =
        pdf ? pages_put_pdf(pdf, handle, width, height) : pages_put_png(handle, width, height);
    if (pdf && page->name[0] != '\0') {
        pages_outline(pdf, page->name, number);
    }
    g_object_unref(handle);
    return drawn;
}

/* Every page of the input; @return the number drawn, -1 when one could not be. */
static int pages_convert(cairo_surface_t *pdf)
{
    pages_page page;
    int count = 0;
    int next;
    while ((next = pages_read(&page)) > 0 && (pdf || count == 0)) {
        const bool drawn = pages_put(pdf, &page, count + 1);
        free(page.text);
        if (!drawn) {
            return -1;
        }
        count++;
    }
    return next < 0 ? -1 : count;
}

static cairo_surface_t *pages_start_pdf(const char *title)
{
    cairo_surface_t *pdf = cairo_pdf_surface_create_for_stream(pages_write, stdout, 1.0, 1.0);
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATE_DATE, "");
    if (title && title[0] != '\0') {
        cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_TITLE, title);
    }
    return pdf;
}

int main(int argc, char **argv)
{
    const bool is_pdf = (argc == 2 || argc == 3) && strcmp(argv[1], "pdf") == 0;
    if (!is_pdf && (argc != 2 || strcmp(argv[1], "png") != 0)) {
        fprintf(stderr, "usage: kernline-pages pdf [TITLE] | png\n");
        return 2;
    }
    cairo_surface_t *pdf = is_pdf ? pages_start_pdf(argc == 3 ? argv[2] : NULL) : NULL;
    const int count = pages_convert(pdf);
    bool done = count > 0;
    if (pdf) {
        cairo_surface_finish(pdf);
        done = done && cairo_surface_status(pdf) == CAIRO_STATUS_SUCCESS;
        cairo_surface_destroy(pdf);
    }
    return done && fflush(stdout) == 0 ? 0 : 1;
}
