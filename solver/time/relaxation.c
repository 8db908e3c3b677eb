/* relaxation.c - see relaxation.h.
 *
 * Both laws are A g(t) with an amplitude A of the stress, and g = log10(t) or (t / 1000)^p. The equivalent time solves
 * A g(t_e) = lost; the step's loss A (g(t_e + dt) - g(t_e)) is written without the difference of two like numbers.
 * SPDX-License-Identifier: MIT */
#include "relaxation.h"

#include <math.h>

#define HOUR 3600.0 /* s */

#define BAR_BELOW     1400e6 /* Pa of ultimate */
#define ORDINARY_FROM 0.045  /* loss at 1000 hours */

/* The power law's exponent 0.75 (1 - mu) must stay positive; no steel is held at that. */
#define HIGHEST_MU 0.95

/* Constants of EN 1992-1-1:2004 (3.28) to (3.30). */
typedef struct relaxation_class {
    double a, b;
    double percent; /* default of rho_1000, 3.3.2 (6) */
} relaxation_class;

/* A law under one stress: amplitude, and the exponent of the power law (0: the logarithm). */
typedef struct relaxation_course {
    double amplitude; /* Pa */
    double exponent;
} relaxation_course;

static relaxation_class class_of(relaxation_law law)
{
    switch (law) {
    case RELAXATION_EN1992_CLASS_1:
        return (relaxation_class){5.39, 6.7, 8.0};
    case RELAXATION_EN1992_CLASS_2:
        return (relaxation_class){0.66, 9.1, 2.5};
    case RELAXATION_EN1992_CLASS_3:
        return (relaxation_class){1.98, 8.0, 4.0};
    case RELAXATION_NONE:
    case RELAXATION_LOG_LOW:
    case RELAXATION_LOG_NORMAL:
        break;
    }
    return (relaxation_class){0.0, 0.0, 0.0};
}

static relaxation_law class_by_loss(const kl_material *material)
{
    if (material->ultimate < BAR_BELOW) {
        return RELAXATION_EN1992_CLASS_3;
    }
    return material->relaxation_loss < ORDINARY_FROM ? RELAXATION_EN1992_CLASS_2
                                                     : RELAXATION_EN1992_CLASS_1;
}

relaxation_steel relaxation_steel_of(const kl_material *material)
{
    relaxation_steel steel = {RELAXATION_NONE, material->ultimate, material->yield, NAN};
    switch (material->relaxation) {
    case KL_RELAXATION_LOW:
        steel.law = RELAXATION_LOG_LOW;
        break;
    case KL_RELAXATION_NORMAL:
        steel.law = RELAXATION_LOG_NORMAL;
        break;
    case KL_RELAXATION_BAR:
        steel.law = RELAXATION_EN1992_CLASS_3;
        break;
    case KL_RELAXATION_VALUE:
        steel.law = class_by_loss(material);
        steel.loss_1000 = material->relaxation_loss;
        break;
    case KL_RELAXATION_UNSET:
    case KL_RELAXATION_NONE:
        break;
    }
    return steel;
}

static relaxation_course log_course(const relaxation_steel *steel, double stress, double divisor)
{
    return (relaxation_course){stress * fmax(stress / steel->yield - 0.55, 0.0) / divisor, 0.0};
}

static relaxation_course power_course(const relaxation_steel *steel, double stress)
{
    const relaxation_class k = class_of(steel->law);
    const double percent = isnan(steel->loss_1000) ? k.percent : 100.0 * steel->loss_1000;
    const double mu = fmin(stress / steel->ultimate, HIGHEST_MU);
    return (relaxation_course){stress * k.a * percent * exp(k.b * mu) * 1e-5, 0.75 * (1.0 - mu)};
}

static relaxation_course course_of(const relaxation_steel *steel, double stress)
{
    const double held = fmax(stress, 0.0);
    switch (steel->law) {
    case RELAXATION_LOG_LOW:
        return log_course(steel, held, 45.0);
    case RELAXATION_LOG_NORMAL:
        return log_course(steel, held, 10.0);
    case RELAXATION_EN1992_CLASS_1:
    case RELAXATION_EN1992_CLASS_2:
    case RELAXATION_EN1992_CLASS_3:
        return power_course(steel, held);
    case RELAXATION_NONE:
        break;
    }
    return (relaxation_course){0.0, 0.0};
}

/* Loss in a time from the start, hours. */
static double course_loss(relaxation_course c, double hours)
{
    if (!(c.amplitude > 0.0) || hours <= 0.0) {
        return 0.0;
    }
    if (c.exponent > 0.0) {
        return c.amplitude * pow(hours / 1000.0, c.exponent);
    }
    return c.amplitude * fmax(log10(hours), 0.0);
}

double relaxation_intrinsic(const relaxation_steel *steel, double initial, double time)
{
    return course_loss(course_of(steel, initial), time / HOUR);
}

/* Loss of a step that begins with something lost; equivalent time in hours. */
static double course_further(relaxation_course c, double lost, double hours)
{
    const double share = lost / c.amplitude; /* g(t_e) */
    if (c.exponent > 0.0) {
        const double equivalent = 1000.0 * pow(share, 1.0 / c.exponent);
        return lost * expm1(c.exponent * log1p(hours / equivalent));
    }
    return c.amplitude * log1p(hours / pow(10.0, share)) / log(10.0);
}

double relaxation_step(const relaxation_steel *steel,
                       double reference,
                       double duration,
                       relaxation_state *state)
{
    const relaxation_course c = course_of(steel, reference);
    const double before = state->time;
    double loss = 0.0;
    state->time += duration;
    if (!(c.amplitude > 0.0) || duration <= 0.0) {
        return 0.0;
    }
    if (state->lost > 0.0) {
        loss = course_further(c, state->lost, duration / HOUR);
    } else {
        /* Nothing is lost yet: the log law is in its first hour (or was below its threshold until now), and goes on
         * from no later than the end of that hour. */
        const double start = c.exponent > 0.0 ? 0.0 : fmin(before, HOUR);
        loss = course_loss(c, (start + duration) / HOUR);
    }
    state->lost += loss;
    return loss;
}

time_scope relaxation_outside(const relaxation_steel *steel, double initial)
{
    time_scope scope = {.count = 0};
    const double share = initial / steel->ultimate;
    switch (steel->law) {
    case RELAXATION_LOG_LOW:
    case RELAXATION_LOG_NORMAL:
        time_scope_add(&scope, initial < 0.55 * steel->yield, "stress below 0.55 of yield");
        break;
    case RELAXATION_EN1992_CLASS_1:
    case RELAXATION_EN1992_CLASS_2:
    case RELAXATION_EN1992_CLASS_3:
        /* Tests of EN 10138 run at 0.6, 0.7 and 0.8 of the strength. From memory. */
        time_scope_add(&scope, share > 0.80, "stress above 0.80 of ultimate");
        break;
    case RELAXATION_NONE:
        break;
    }
    return scope;
}

const char *relaxation_source(relaxation_law law)
{
    switch (law) {
    case RELAXATION_LOG_LOW:
        return "log law, low relaxation (AASHTO LRFD, 9th edition, C5.9.3.4.2c, from memory)";
    case RELAXATION_LOG_NORMAL:
        return "log law, stress-relieved (AASHTO LRFD, 9th edition, C5.9.3.4.2c, from memory)";
    case RELAXATION_EN1992_CLASS_1:
        return "en1992 2004 class 1 (EN 1992-1-1:2004, 3.28, from memory)";
    case RELAXATION_EN1992_CLASS_2:
        return "en1992 2004 class 2 (EN 1992-1-1:2004, 3.29, from memory)";
    case RELAXATION_EN1992_CLASS_3:
        return "en1992 2004 class 3 (EN 1992-1-1:2004, 3.30, from memory)";
    case RELAXATION_NONE:
        break;
    }
    return "none";
}
