/* cmd_plot.c - `kernline plot`: one picture, to a file.
 * SPDX-License-Identifier: MIT */
#include "commands.h"

#include <errno.h>
#include <string.h>

#include "asked.h"
#include "choose.h"
#include "convert.h"
#include "diagrams.h"
#include "replace_file.h"

static const diagram_recipe *plot_find(const char *name)
{
    const diagram_recipe *recipe = diagram_recipe_find(name);
    if (recipe != NULL) {
        return recipe;
    }
    kl_index count = 0;
    const diagram_recipe *recipes = diagram_recipes(&count);
    nearest near = nearest_start(name, strlen(name));
    for (kl_index i = 0; i < count; ++i) {
        nearest_try(&near, recipes[i].name);
    }
    asked_unknown("picture", "plot", &near);
    return NULL;
}

typedef enum plot_format { PLOT_SVG, PLOT_PNG, PLOT_PDF, PLOT_UNKNOWN } plot_format;

/* By the ending of the file's name. */
static plot_format plot_format_of(const char *path)
{
    static const char *const endings[] = {".svg", ".png", ".pdf"};
    const size_t length = strlen(path);
    for (int i = 0; i < PLOT_UNKNOWN; i++) {
        if (length > 4 && strcmp(path + length - 4, endings[i]) == 0) {
            return (plot_format)i;
        }
    }
    return PLOT_UNKNOWN;
}

static kl_status plot_replace(const char *path, const char *bytes, size_t length)
{
    if (replace_file(path, bytes, length)) {
        return KL_OK;
    }
    work_complain("`-o`: %s: cannot be written: %s", path, strerror(errno));
    return KL_FILE_TROUBLE;
}

static kl_status plot_write(const char *path, const char *title, const drawing *d, const char *svg)
{
    if (!svg && d->status == KL_NOT_THERE) {
        work_complain("there is nothing to draw: %s", d->absent);
    }
    if (!svg) {
        return d->status;
    }
    char *text = drawing_page(d);
    if (!text) {
        return KL_NO_MEMORY;
    }
    const plot_format format = plot_format_of(path);
    kl_status status;
    if (format == PLOT_SVG) {
        status = plot_replace(path, text, strlen(text));
    } else {
        const convert_page page = {text, NULL};
        char *bytes;
        size_t length;
        status = convert_pages(format == PLOT_PDF ? CONVERT_PDF : CONVERT_PNG, title, &page, 1,
                               &bytes, &length);
        if (status == KL_OK) {
            status = plot_replace(path, bytes, length);
        }
        convert_free(bytes);
    }
    drawing_page_free(text);
    return status;
}

exit_status cmd_plot(const options *o)
{
    const diagram_recipe *recipe = plot_find(o->operands[1]);
    if (recipe == NULL) {
        return EXIT_WRONG_USE;
    }
    const asked_thing thing = {.name = recipe->name,
                               .span = recipe->span,
                               .has_causes = recipe->has_causes,
                               .has_stations = recipe->subject == DIAGRAM_OF_PLACE ||
                                               recipe->subject == DIAGRAM_OF_SECTIONS,
                               .has_tendons = recipe->subject == DIAGRAM_OF_TENDON};
    if (!asked_applies(o, &thing)) {
        return EXIT_WRONG_USE;
    }
    if (!o->given[OPTION_OUTPUT]) {
        work_complain("where does the picture go? -o FILE.svg");
        return EXIT_WRONG_USE;
    }
    if (plot_format_of(o->values[OPTION_OUTPUT]) == PLOT_UNKNOWN) {
        choose_refuse(o, OPTION_OUTPUT, "the name of the file must end in .svg, .png or .pdf");
        return EXIT_WRONG_USE;
    }
    work w = {0};
    selection s;
    exit_status result;
    if (asked_open(&w, o, recipe->span, &s, &result)) {
        drawing d;
        const char *svg = diagram_build(&d, recipe, w.results, &s);
        result = asked_close(&w, plot_write(o->values[OPTION_OUTPUT], w.model->title, &d, svg));
        drawing_free(&d);
        selection_free(&s);
    }
    work_close(&w);
    return result;
}
