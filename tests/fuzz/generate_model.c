/* generate_model.c - see generate_model.h.
 * SPDX-License-Identifier: MIT */
#include "generate_model.h"

#include <math.h>
#include <string.h>

enum { TENDONS = 3, CASES = 3, OPERATIONS = 14 };

#define UNIT_WEIGHT 24e3 /* N/m^3 */

/* The cap lies level from x = 0; stations and x are the same. */
typedef struct draw {
    const uint8_t *bytes;
    size_t left;
    FILE *out;
    generated_facts *facts;
    double length, width, depth; /* m: cap */
    int parts;                   /* members the cap is made of, one after the other */
    int columns;
    bool has_columns; /* else bearings on the ground */
    int tendons, cases;
    double case_downward[CASES];
    int case_times[CASES];
    bool has_falsework, released;
    int tendon_phase[TENDONS]; /* 0 absent, 1 stressed, 2 grouted, 3 slack */
    bool unbonded[TENDONS];
} draw;

/* 0 … below-1 */
static int pick(draw *d, int below)
{
    if (d->left == 0) {
        return 0;
    }
    d->left--;
    return *d->bytes++ % below;
}

/* One of 256 numbers from … to, as it is written: with three decimals */
static double pick_between(draw *d, double from, double to)
{
    return round(1e3 * (from + (to - from) * pick(d, 256) / 255.0)) / 1e3;
}

/* ---- the frame ------------------------------------------------------------------------------------------ */

static double column_at(const draw *d, int i)
{
    return d->length * (i + 0.5) / d->columns;
}

static void put_cap(draw *d)
{
    fprintf(d->out, "section cap { rectangle width %.3f m depth %.3f m%s }\n", d->width, d->depth,
            pick(d, 3) == 1 ? "; shear flexible" : "");
    for (int i = 0; i <= d->parts; ++i) {
        fprintf(d->out, "node N%d at (%.9f m, 8 m)\n", i, d->length * i / d->parts);
    }
    for (int i = 0; i < d->parts; ++i) {
        fprintf(d->out, "member cap_%d from N%d to N%d section cap of mix { mesh %.3f m }\n", i, i,
                i + 1, pick_between(d, 0.5, 5.0));
    }
}

/* The member of the cap and the station on it of a place between columns. */
static int part_of(const draw *d, double x, double *station)
{
    const double part = d->length / d->parts;
    int i = (int)(x / part);
    i = i >= d->parts ? d->parts - 1 : i;
    *station = x - part * i;
    return i;
}

static void put_column(draw *d, int i)
{
    double station = 0.0;
    const int part = part_of(d, column_at(d, i), &station);
    /* A column under a joint of the cap's parts would double the node there. */
    const bool at_joint = station < 1e-6 && part > 0;
    if (!at_joint) {
        fprintf(d->out, "node C%d on cap_%d at %.9f m\n", i, part, station);
    }
    const char name = at_joint ? 'N' : 'C';
    const int number = at_joint ? part : i;
    if (!d->has_columns) {
        fprintf(d->out, "support %c%d %s\n", name, number, i == 0 ? "pinned" : "roller");
        return;
    }
    fprintf(d->out, "node F%d at (%.9f m, 0 m)\n", i, column_at(d, i));
    fprintf(d->out, "member col_%d from F%d to %c%d section column of mix { rigid end %.3f m }\n",
            i, i, name, number, d->depth / 2.0);
    fprintf(d->out, "support F%d fixed\n", i);
    d->facts->downward += 8.0 * 1.2 * 0.8 * UNIT_WEIGHT;
}

static void put_frame(draw *d)
{
    d->length = pick_between(d, 6.0, 40.0);
    d->width = pick_between(d, 0.5, 3.0);
    d->depth = pick_between(d, 0.4, 2.5);
    d->parts = 1 + pick(d, 3);
    d->has_columns = pick(d, 3) > 0;
    d->columns = (d->has_columns ? 1 : 2) + pick(d, 4);
    fputs(
        "kernline 1\nshow si\n"
        "concrete mix { strength 45 MPa; transfer_strength 32 MPa; unit_weight 24 kN/m^3; modulus "
        "aashto 2020; expansion 1e-5 per degC }\n"
        "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 195 GPa }\n"
        "section column { rectangle width 1.2 m depth 0.8 m }\n",
        d->out);
    put_cap(d);
    for (int i = 0; i < d->columns; ++i) {
        put_column(d, i);
    }
    d->facts->downward += d->length * d->width * d->depth * UNIT_WEIGHT;
}

/* ---- tendons, falsework, loads -------------------------------------------------------------------------- */

static void put_profile(draw *d)
{
    const double x = d->length, h = d->depth;
    switch (pick(d, 4)) {
    case 0:
        fprintf(d->out, "anchor at 0 m height %.3f m; anchor at %.9f m height %.3f m straight",
                h / 2.0, x, h * pick_between(d, 0.3, 0.7));
        break;
    case 1:
        fprintf(d->out,
                "anchor at 0 m height %.3f m; low at %.9f m height %.3f m; anchor at %.9f m height "
                "%.3f m",
                h / 2.0, x * pick_between(d, 0.2, 0.8), h * 0.15, x, h * 0.6);
        break;
    case 2:
        fprintf(d->out,
                "anchor at 0 m height %.3f m; low at %.9f m height %.3f m; inflection at %.9f m; "
                "high at %.9f m height %.3f m; anchor at %.9f m height %.3f m",
                h / 2.0, x * 0.2, h * 0.15, x * pick_between(d, 0.3, 0.45), x / 2.0, h * 0.85, x,
                h / 2.0);
        break;
    default:
        fprintf(d->out,
                "anchor at 0 m height %.3f m; high at %.9f m height %.3f m straight; high at %.9f "
                "m height %.3f m straight; anchor at %.9f m height %.3f m straight",
                h / 2.0, x * 0.3, h * 0.8, x * 0.7, h * 0.8, x, h / 2.0);
        break;
    }
}

/* Wedges draw in little of what the tendon stretches, else nothing would be left of its force. */
static void put_force(draw *d)
{
    static const char *const jacks[] = {"start", "end", "both", "start then end", "end then start"};
    const double ratio = pick_between(d, 0.1, 0.8);
    const double stretch = ratio * 1860.0 / 195e3 * d->length; /* m */
    fprintf(d->out, "    friction %.3f; wobble %.3f per m; seating %.3f mm\n",
            pick_between(d, 0.0, 0.4), pick_between(d, 0.0, 0.01),
            pick_between(d, 0.0, 200.0 * stretch));
    fprintf(d->out, "    jack %s ratio %.3f\n", jacks[pick(d, 5)], ratio);
}

static void put_tendons(draw *d)
{
    d->tendons = pick(d, TENDONS + 1);
    for (int i = 0; i < d->tendons; ++i) {
        fprintf(d->out, "tendon T%d in", i);
        for (int k = 0; k < d->parts; ++k) {
            fprintf(d->out, " cap_%d", k);
        }
        fprintf(d->out, " {\n    of strand; strands %d area 140 mm^2; count %d\n", 1 + pick(d, 31),
                1 + pick(d, 4));
        fputs("    profile from bottom { ", d->out);
        put_profile(d);
        fputs(" }\n", d->out);
        put_force(d);
        d->unbonded[i] = pick(d, 3) == 1;
        fprintf(d->out, "    duct 80 mm; %s\n}\n", d->unbonded[i] ? "unbonded" : "bonded grouted");
    }
}

static void put_falsework(draw *d)
{
    d->has_falsework = !d->has_columns || pick(d, 4) > 0;
    if (!d->has_falsework) {
        return;
    }
    for (int i = 0; i < d->parts; ++i) {
        const double part = d->length / d->parts;
        const int rows = 2 + pick(d, 8);
        fprintf(d->out, "falsework forms_%d under cap_%d at", i, i);
        for (int row = 0; row < rows; ++row) {
            fprintf(d->out, "%s %.9f m", row > 0 ? "," : "", part * (row + 0.02) / (rows - 0.96));
        }
        fprintf(d->out, " { posts %d; stiffness %.0f kN/m; takeup %.1f mm; capacity 200 kN }\n",
                1 + pick(d, 3), 1000.0 + 1000.0 * pick(d, 200), pick_between(d, 0.0, 10.0));
    }
}

/* A load on a part of the cap; the downward force goes to the case's own sum. */
static void put_load(draw *d, int load_case)
{
    const double part = d->length / d->parts;
    const int member = pick(d, d->parts);
    const double at = part * pick_between(d, 0.0, 1.0);
    const double size = pick_between(d, 1.0, 500.0);
    switch (pick(d, 5)) {
    case 0:
        fprintf(d->out, "    point %.3f kN on cap_%d at %.9f m\n", size, member, at);
        d->case_downward[load_case] += size * 1e3;
        break;
    case 1:
        fprintf(d->out, "    uniform %.3f kN/m on cap_%d\n", size, member);
        d->case_downward[load_case] += size * 1e3 * part;
        break;
    case 2:
        fprintf(d->out, "    ramp start 0 kN/m end %.3f kN/m on cap_%d from %.9f m to %.9f m\n",
                size, member, 0.1 * part, 0.9 * part);
        d->case_downward[load_case] += size * 1e3 * 0.4 * part;
        break;
    case 3:
        fprintf(d->out, "    moment %.3f kN-m on cap_%d at %.9f m\n", size, member, at);
        break;
    default:
        fprintf(d->out, "    warm %.3f degC on cap_%d\n    gradient 8 degC on cap_%d\n",
                size / 10.0, member, member);
        break;
    }
}

static void put_cases(draw *d)
{
    d->cases = 1 + pick(d, CASES);
    for (int i = 0; i < d->cases; ++i) {
        fprintf(d->out, "load L%d {\n", i);
        const int loads = 1 + pick(d, 3);
        for (int k = 0; k < loads; ++k) {
            put_load(d, i);
        }
        fputs("}\n", d->out);
    }
}

/* ---- stages --------------------------------------------------------------------------------------------- */

static void put_each(draw *d, const char *what, const char *stem, int count)
{
    fputs(what, d->out);
    for (int i = 0; i < count; ++i) {
        fprintf(d->out, " %s%d", stem, i);
    }
    fputs("; ", d->out);
}

/* Of a tendon what can be done with it as it is. */
static void put_tendon_operation(draw *d)
{
    static const char *const can[][2] = {
        {"stress", "stress"}, {"grout", "slacken"}, {"lose", "lose"}, {"stress", "stress"}};
    const int i = pick(d, d->tendons);
    int *phase = &d->tendon_phase[i];
    const char *what = can[*phase][d->unbonded[i] ? 1 : pick(d, 2)];
    fprintf(d->out, "%s T%d%s; ", what, i, what[0] == 'l' ? " 60 MPa" : "");
    *phase = what[0] == 'g' ? 2 : strcmp(what, "slacken") == 0 ? 3 : *phase == 2 ? 2 : 1;
}

static void put_load_operation(draw *d)
{
    const int i = pick(d, d->cases);
    if (d->case_times[i] > 0) {
        fprintf(d->out, "unload L%d; ", i);
        d->case_times[i] = 0;
        return;
    }
    const int times = 1 + pick(d, 3);
    fprintf(d->out, "load L%d times %d; ", i, times);
    d->case_times[i] = times;
}

static void put_operation(draw *d)
{
    switch (pick(d, 4)) {
    case 0:
    case 1:
        if (d->tendons > 0) {
            put_tendon_operation(d);
        }
        break;
    case 2:
        put_load_operation(d);
        break;
    default:
        if (d->has_falsework && !d->released) {
            put_each(d, "release", "forms_", 1);
            for (int i = 1; i < d->parts; ++i) {
                fprintf(d->out, "release forms_%d; ", i);
            }
            d->released = true;
        }
        break;
    }
}

static void put_stages(draw *d)
{
    int day = pick(d, 20);
    if (d->has_columns) {
        fprintf(d->out, "stage S_columns at %d day { ", day);
        put_each(d, "cast", "col_", d->columns);
        fputs("}\n", d->out);
    }
    day += pick(d, 40);
    fprintf(d->out, "stage S_cap at %d day { ", day);
    if (d->has_falsework) {
        put_each(d, "erect", "forms_", d->parts);
    }
    if (pick(d, 2) == 0) {
        put_each(d, "cast", "cap_", d->parts);
    } else {
        for (int i = 0; i < d->parts; ++i) {
            fprintf(d->out, "cast cap_%d; ", i);
        }
        d->facts->is_sound = d->facts->is_sound && d->parts == 1;
    }
    fputs("}\n", d->out);
    const int operations = pick(d, OPERATIONS);
    for (int i = 0; i < operations; ++i) {
        day += 7 + pick(d, 60);
        fprintf(d->out, "stage S%d at %d day { ", i, day);
        put_operation(d);
        put_operation(d);
        fputs("}\n", d->out);
    }
}

void generate_model(const uint8_t *bytes, size_t size, FILE *out, generated_facts *facts)
{
    draw d = {.bytes = bytes, .left = size, .out = out, .facts = facts};
    *facts = (generated_facts){.is_sound = true};
    put_frame(&d);
    put_tendons(&d);
    put_falsework(&d);
    put_cases(&d);
    put_stages(&d);
    for (int i = 0; i < d.cases; ++i) {
        facts->downward += d.case_times[i] * d.case_downward[i];
    }
}
