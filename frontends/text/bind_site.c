/* bind_site.c - what holds for the whole model: title, units of the results, skew, humidity, sections.
 * SPDX-License-Identifier: MIT */
#include <string.h>

#include "bind_context.h"

typedef struct shown_measure {
    const char *word;
    kl_measure measure;
} shown_measure;

static const shown_measure shown[] = {
    {"station", KL_MEASURE_STATION},
    {"size", KL_MEASURE_SIZE},
    {"deflection", KL_MEASURE_DEFLECTION},
    {"angle", KL_MEASURE_ANGLE},
    {"rotation", KL_MEASURE_ROTATION},
    {"area", KL_MEASURE_AREA},
    {"steel_area", KL_MEASURE_STEEL_AREA},
    {"inertia", KL_MEASURE_INERTIA},
    {"section_modulus", KL_MEASURE_SECTION_MODULUS},
    {"force", KL_MEASURE_FORCE},
    {"moment", KL_MEASURE_MOMENT},
    {"line_load", KL_MEASURE_LINE_LOAD},
    {"stress", KL_MEASURE_STRESS},
    {"pressure", KL_MEASURE_PRESSURE},
    {"unit_weight", KL_MEASURE_UNIT_WEIGHT},
    {"stiffness", KL_MEASURE_STIFFNESS},
    {"turn_stiffness", KL_MEASURE_TURN_STIFFNESS},
    {"time", KL_MEASURE_TIME},
    {"temperature", KL_MEASURE_TEMPERATURE},
};

static void bind_show(kl_display *display, const phrase *p)
{
    const text_value *system = phrase_own(p, 0);
    if (system != NULL && system->kind == VALUE_CHOICE) {
        display->system = strcmp(system->names[0].text, "si") == 0 ? KL_UNITS_SI : KL_UNITS_US;
    }
    for (size_t i = 0; i < sizeof shown / sizeof shown[0]; i++) {
        const text_value *unit = phrase_value(p, shown[i].word);
        if (unit != NULL && unit->count > 0) {
            display->unit_of[shown[i].measure] = unit->names[0].text;
        }
    }
}

static bool says(const phrase *p, const char *choice)
{
    const text_value *value = phrase_own(p, 0);
    return value != NULL && value->kind == VALUE_CHOICE &&
           strcmp(value->names[0].text, choice) == 0;
}

static void bind_humidity(binder *b, const text_value *value)
{
    const double humidity = value->quantities[0].value;
    if (!(humidity >= 0.0 && humidity <= 1.0)) {
        bind_error(b, "humidity-range", value->origin,
                   "The humidity of the air must be between 0 and 100 %%.");
    }
    kl_model_set_humidity(b->model, humidity);
}

kl_status bind_site(binder *b)
{
    kl_display display = {.system = KL_UNITS_US};
    for (kl_index i = 0; i < b->document->phrase_count; i++) {
        const phrase *p = &b->document->phrases[i];
        const text_value *own = phrase_own(p, 0);
        if (strcmp(p->word, "title") == 0 && own != NULL) {
            kl_model_set_title(b->model, own->string);
        } else if (strcmp(p->word, "show") == 0) {
            bind_show(&display, p);
        } else if (strcmp(p->word, "site") == 0 && phrase_has(p, "humidity")) {
            bind_humidity(b, phrase_value(p, "humidity"));
        } else if (strcmp(p->word, "sections") == 0) {
            kl_model_set_sections_gross(b->model, says(p, "gross"));
        }
    }
    kl_model_set_display(b->model, &display);
    if (b->document->has_skew) {
        kl_model_set_skew(b->model, b->document->skew);
    }
    return KL_OK;
}
