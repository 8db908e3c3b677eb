/* cmd_plot.c - `kernline plot`: one picture, to a file.
 * SPDX-License-Identifier: MIT */
#include "commands.h"

#include <errno.h>
#include <string.h>

#include "asked.h"
#include "diagrams.h"
#include "nearest.h"
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
    if (near.best != NULL) {
        work_complain("there is no picture `%s`; did you mean `%s`?", name, near.best);
    } else {
        work_complain("there is no picture `%s`; `kernline plot --help` lists them", name);
    }
    return NULL;
}

static kl_status plot_write(const char *path, drawing *d, const char *svg)
{
    if (!svg) {
        return d->status;
    }
    char *text = drawing_page(d);
    if (!text) {
        return KL_NO_MEMORY;
    }
    const bool done = replace_file(path, text, strlen(text));
    const int failure = errno;
    drawing_page_free(text);
    if (!done) {
        work_complain("%s: cannot be written: %s", path, strerror(failure));
    }
    return done ? KL_OK : KL_FILE_TROUBLE;
}

exit_status cmd_plot(const options *o)
{
    const diagram_recipe *recipe = plot_find(o->operands[1]);
    if (recipe == NULL) {
        return EXIT_WRONG_USE;
    }
    if (!o->given[OPTION_OUTPUT]) {
        work_complain("where does the picture go? -o FILE.svg");
        return EXIT_WRONG_USE;
    }
    work w = {0};
    selection s;
    exit_status result;
    if (asked_open(&w, o, recipe->span, &s, &result)) {
        drawing d;
        const char *svg = diagram_build(&d, recipe, w.results, &s);
        result = asked_close(&w, plot_write(o->values[OPTION_OUTPUT], &d, svg));
        drawing_free(&d);
        selection_free(&s);
    }
    work_close(&w);
    return result;
}
