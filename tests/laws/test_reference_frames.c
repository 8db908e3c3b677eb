/* test_reference_frames.c - an unstaged haunched frame and a girder on bearings that lift, against the reference frame.
 *
 * The frame: a sloping shear-flexible beam whose line is its top and whose depth tapers, rigid at one end, on a leaning
 * column and on a hinged one with springs at its foot. The girder: three bearings and supports that only push, with
 * loads that lift one and then another, warmth and a sinking foot.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "reference_compare.h"
#include "reference_stage.h"

enum { ANY = 1 }; /* column of everything in the frame's cases */

static const char frame_text[] =
    "show si\n"
    "concrete mix { strength 40 MPa; unit_weight 24 kN/m^3; modulus 32 GPa; expansion 1e-5 per "
    "degC }\n"
    "section tall { rectangle width 0.5 m depth 1.6 m; line top; shear flexible }\n"
    "section flat { rectangle width 0.5 m depth 0.8 m; line top; shear flexible }\n"
    "section post { rectangle width 0.5 m depth 0.7 m }\n"
    "section round { circle diameter 0.8 m; shear flexible }\n"
    "node A at (0 m, 0 m); node B at (1 m, 6 m); node C at (13 m, 6.5 m); node D at (13 m, 0 m)\n"
    "node E at (16 m, 6.625 m)\n"
    "member leg from A to B section round of mix { rigid end 0.4 m }\n"
    "member beam from B to E of mix { section tall at 0 m; section flat at end; rigid start 0.6 m "
    "}\n"
    "node Z on beam at 12.0104121494643 m\n"
    "member prop from D to Z section post of mix { rigid end 0.5 m; hinge end }\n"
    "support A fixed\n"
    "support D x 40 kN/mm y fixed turn 2e5 kN-m/rad\n"
    "support E roller slope 12 deg\n"
    "load own { weight }\n"
    "load live { uniform 30 kN/m on beam from 0.25 m to 9 m; point 80 kN on beam at 4 m; point 25 "
    "kN at B right;\n"
    "  ramp start 5 kN/m end 20 kN/m on leg from 1 m to 5 m right; moment 70 kN-m on beam at 10 "
    "m;\n"
    "  uniform 6 kN/m on beam from 5 m to 11 m across; uniform 4 kN/m on beam from 0 m to 5 m "
    "along }\n"
    "load heat { warm 20 degC on beam; gradient 12 degC on beam leg }\n"
    "load sink { settle 10 mm at A down; turn 0.001 rad at A; settle 4 mm at D down }\n";

typedef struct frame_case {
    ref_frame f;
    ref_stations leg, beam, prop;
    int nodes[3][REF_STATIONS];
    int tie[7];
} frame_case;

static int node_at(const ref_stations *s, const int *nodes, double x)
{
    for (int i = 0; i < s->count; i++) {
        if (fabs(s->at[i] - x) < 1e-7) {
            return nodes[i];
        }
    }
    fail_msg("no station %g", x);
    return -1;
}

static void stations_of(ref_stations *s, const double *at, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        reference_station(s, at[i]);
    }
}
#define STATIONS(s, ...)                                                                           \
    stations_of(s, (const double[]){__VA_ARGS__},                                                  \
                sizeof((const double[]){__VA_ARGS__}) / sizeof(double))

static void make_frame(frame_case *w)
{
    ref_frame *f = &w->f;
    const double joint = 12.0104121494643, lower = hypot(1.0, 6.0), length = hypot(15.0, 0.625);
    const int a = reference_node(f, 0, 0), b = reference_node(f, 1, 6),
              d = reference_node(f, 13, 0);
    const int e = reference_node(f, 16, 6.625);
    const double zx = 1.0 + joint * 15.0 / length, zy = 6.0 + joint * 0.625 / length;
    const int z = reference_node(f, zx, zy), face = reference_node(f, zx, zy - 0.5);
    STATIONS(&w->leg, 0.0, 1.0, 2.0, 3.0, 4.0, 5.0, lower);
    STATIONS(&w->beam, 0.0, 1.5, 3.0, 4.0, 5.0, 6.0, 7.5, 9.0, 10.0, 11.0, joint, 13.5, length);
    STATIONS(&w->prop, 0.0, 2.0, 4.0, zy - 0.5);
    memset(w->nodes, -1, sizeof(w->nodes));
    for (int i = 0; i < w->beam.count; i++) {
        w->nodes[1][i] = fabs(w->beam.at[i] - joint) < 1e-9 ? z : -1;
    }
    const ref_member common = {
        .modulus = 32e9, .unit_weight = 24e3, .expansion = 1e-5, .shear_ratio = 2.4};
    ref_member m = common;
    m.from = a, m.to = b, m.diameter = 0.8, m.shear = true, m.rigid[1] = 0.4;
    (void)reference_member(f, m, w->leg.at, w->leg.count, w->nodes[0], 0.6);
    m = common;
    m.from = b, m.to = e, m.width = 0.5, m.depth[0] = 1.6, m.depth[1] = 0.8, m.line = REF_TOP,
    m.shear = true;
    m.rigid[0] = 0.6;
    (void)reference_member(f, m, w->beam.at, w->beam.count, w->nodes[1], 0.6);
    m = common;
    m.from = d, m.to = face, m.width = 0.5, m.depth[0] = m.depth[1] = 0.7;
    (void)reference_member(f, m, w->prop.at, w->prop.count, w->nodes[2], 1.0);
    for (int k = 0; k < 3; k++) {
        w->tie[k] = reference_tie(f, a, -1, k == 0, k == 1, k == 2, 0.0, false);
    }
    w->tie[3] = reference_tie(f, d, -1, 1, 0, 0, 1.0 / 40e6, false);
    w->tie[4] = reference_tie(f, d, -1, 0, 1, 0, 0.0, false);
    w->tie[5] = reference_tie(f, d, -1, 0, 0, 1, 1.0 / 2e8, false);
    const double slope = 12.0 * atan(1.0) / 45.0;
    w->tie[6] = reference_tie(f, e, -1, -sin(slope), cos(slope), 0, 0.0, false);
    /* The hinge sits at the face of the rigid part: 0.5 m below the joint. */
    f->ties[reference_tie(f, face, z, 1, 0, 0, 0.0, false)].lever = 0.5;
    (void)reference_tie(f, face, z, 0, 1, 0, 0.0, false);
    for (int i = 0; i < 3; i++) {
        f->members[i].stands = true;
    }
}

/* Pieces of a line load on each element. */
static void line(
    ref_step *s, int member, double from, double to, double start, double end, double gx, double gy)
{
    s->lines[s->line_count++] = (ref_line_load){.member = member,
                                                .from = from,
                                                .to = to,
                                                .start = start,
                                                .end = end,
                                                .gx = gx,
                                                .gy = gy,
                                                .cause = ANY};
}

static void put_frame_case(frame_case *w, ref_step *s, const char *name)
{
    const ref_member *beam = &w->f.members[1];
    *s = (ref_step){.cause = ANY};
    if (strcmp(name, "own") == 0) {
        for (int i = 0; i < 3; i++) {
            line(s, i, 0.0, w->f.members[i].length, 1.0, 1.0, 0.0, -1.0);
            s->lines[i].weight = true;
        }
        s->nodal[ANY][node_at(&w->beam, w->nodes[1], w->beam.at[w->beam.count - 3])][1] -=
            24e3 * 0.35 * 0.5;
    } else if (strcmp(name, "live") == 0) {
        line(s, 1, 0.25, 9.0, 30e3, 30e3, 0, -1);
        line(s, 0, 1.0, 5.0, 5e3, 20e3, 1, 0);
        line(s, 1, 5.0, 11.0, 6e3, 6e3, beam->sine, -beam->cosine);
        line(s, 1, 0.0, 5.0, 4e3, 4e3, beam->cosine, beam->sine);
        s->nodal[ANY][node_at(&w->beam, w->nodes[1], 4.0)][1] -= 80e3;
        s->nodal[ANY][node_at(&w->beam, w->nodes[1], 0.0)][0] += 25e3;
        s->nodal[ANY][node_at(&w->beam, w->nodes[1], 10.0)][2] += 70e3;
    } else if (strcmp(name, "heat") == 0) {
        s->warm[1] = 20.0;
        s->gradient[0] = s->gradient[1] = 12.0;
    } else {
        s->moved[w->tie[1]] = -0.01;
        s->moved[w->tie[2]] = 0.001;
        s->moved[w->tie[4]] = -0.004;
    }
}

static void inner(ref_stations *s, const ref_stations *all, double from, double to)
{
    s->count = 0;
    for (int i = 0; i < all->count; i++) {
        if (all->at[i] > from && all->at[i] < to) {
            reference_station(s, all->at[i]);
        }
    }
    reference_station(s, from);
    reference_station(s, to);
}

static void look_frame(ref_compare *c, frame_case *w, const char *name)
{
    const kl_state state = solved_under(c->program, name);
    const int secondary[2] = {0, 0};
    static const char *const members[] = {"leg", "beam", "prop"};
    const ref_stations *all[] = {&w->leg, &w->beam, &w->prop};
    c->where = name;
    for (int i = 0; i < 3; i++) {
        ref_stations s;
        const ref_member *m = &w->f.members[i];
        inner(&s, all[i], m->rigid[0], m->length - m->rigid[1]);
        reference_compare_member(c, state, members[i], i, &s, secondary);
    }
    static const char *const on[] = {"A", "A", "A", "D", "D", "D"};
    for (int i = 0; i < 6; i++) {
        reference_compare_value(
            c, "reaction", i,
            solved_reaction(c->program, state, on[i], (kl_direction)(KL_X + i % 3)),
            reference_tie_force(&w->f.ties[w->tie[i]]), 1e5);
    }
    const double force = reference_tie_force(&w->f.ties[w->tie[6]]);
    const double *along = w->f.ties[w->tie[6]].along;
    reference_compare_value(c, "reaction E x", 0, solved_reaction(c->program, state, "E", KL_X),
                            force * along[0], 1e5);
    reference_compare_value(c, "reaction E y", 0, solved_reaction(c->program, state, "E", KL_Y),
                            force * along[1], 1e5);
    const int b = node_at(&w->beam, w->nodes[1], 0.0);
    reference_compare_value(c, "sway B", 0, solved_node(c->program, state, KL_SWAY, "B"),
                            w->f.moved[b][0], 1e-3);
    reference_compare_value(c, "turn B", 0, solved_node(c->program, state, KL_ROTATION, "B"),
                            w->f.moved[b][2], 1e-4);
}

static void haunched_frame_agrees_under_every_case(void **state)
{
    (void)state;
    solved m;
    solved_open(&m, frame_text);
    static const char *const names[] = {"own", "live", "heat", "sink"};
    frame_case *w = malloc(sizeof(*w));
    ref_step *s = malloc(sizeof(*s));
    assert_non_null(w);
    assert_non_null(s);
    ref_compare c = {.program = &m, .frame = &w->f, .tolerance = 1e-6};
    for (size_t i = 0; i < sizeof(names) / sizeof(names[0]); i++) {
        memset(w, 0, sizeof(*w));
        make_frame(w);
        put_frame_case(w, s, names[i]);
        reference_solve(&w->f, s);
        look_frame(&c, w, names[i]);
    }
    free(w);
    free(s);
    reference_compare_end(&c);
    solved_close(&m);
}

/* ---- a girder on bearings ---- */

static const char girder_text[] =
    "show si\n"
    "concrete mix { strength 40 MPa; unit_weight 24 kN/m^3; modulus 32 GPa; expansion 1e-5 per "
    "degC }\n"
    "section girder { rectangle width 0.6 m depth 1 m }\n"
    "section post { circle diameter 0.7 m }\n"
    "node A at (0 m, 0 m); node B at (10 m, 0 m); node P at (0 m, 5 m); node Q at (10 m, 5 m)\n"
    "node G1 at (0 m, 5 m); node G2 at (16 m, 5 m)\n"
    "member left from A to P section post of mix\n"
    "member right from B to Q section post of mix\n"
    "member girder from G1 to G2 section girder of mix\n"
    "node G on girder at 10 m\n"
    "support A fixed; support B x fixed y fixed turn 1e5 kN-m/rad; support G2 y push up\n"
    "bearing G1 on P { x free; y push up }\n"
    "bearing G on Q { x 30 kN/mm; y push up; turn 2e4 kN-m/rad }\n"
    "load span { uniform 50 kN/m on girder from 2 m to 9 m }\n"
    "load tail { point 300 kN on girder at 13 m; point 40 kN on girder at 4 m right }\n"
    "load heat { gradient 15 degC on girder; warm 10 degC on left }\n"
    "load sink { settle 8 mm at B down }\n"
    "stage posts at 0 day { place left right }\n"
    "stage girder at 1 day { place girder }\n"
    "stage spanned at 2 day { load span }\n"
    "stage tailed at 3 day { load tail }\n"
    "stage eased at 4 day { unload span }\n"
    "stage heated at 5 day { load heat }\n"
    "stage sunk at 6 day { load sink }\n"
    "stage again at 7 day { load span times 2 }\n"
    "stage cooled at 8 day { unload heat tail }\n";

typedef struct girder_case {
    ref_frame f;
    ref_stations posts, girder;
    int nodes[3][REF_STATIONS];
    int foot[6], push[3];
} girder_case;

enum { SPAN = 1, TAIL, HEAT, SINK };

static void make_girder(girder_case *w)
{
    ref_frame *f = &w->f;
    const int a = reference_node(f, 0, 0), b = reference_node(f, 10, 0),
              p = reference_node(f, 0, 5);
    const int q = reference_node(f, 10, 5), g1 = reference_node(f, 0, 5),
              g2 = reference_node(f, 16, 5);
    const int g = reference_node(f, 10, 5);
    STATIONS(&w->posts, 0.0, 2.5, 5.0);
    STATIONS(&w->girder, 0.0, 2.0, 4.0, 6.5, 9.0, 10.0, 13.0, 16.0);
    memset(w->nodes, -1, sizeof(w->nodes));
    w->nodes[2][5] = g;
    ref_member m = {.from = a,
                    .to = p,
                    .diameter = 0.7,
                    .modulus = 32e9,
                    .unit_weight = 24e3,
                    .expansion = 1e-5};
    (void)reference_member(f, m, w->posts.at, w->posts.count, w->nodes[0], 2.0);
    m.from = b, m.to = q;
    (void)reference_member(f, m, w->posts.at, w->posts.count, w->nodes[1], 2.0);
    m.from = g1, m.to = g2, m.diameter = 0.0, m.width = 0.6, m.depth[0] = m.depth[1] = 1.0;
    (void)reference_member(f, m, w->girder.at, w->girder.count, w->nodes[2], 2.0);
    for (int k = 0; k < 6; k++) {
        w->foot[k] = reference_tie(f, k < 3 ? a : b, -1, k % 3 == 0, k % 3 == 1, k % 3 == 2,
                                   k == 5 ? 1e-8 : 0.0, false);
    }
    w->push[0] = reference_tie(f, g1, p, 0, 1, 0, 0.0, true);
    w->push[1] = reference_tie(f, g, q, 0, 1, 0, 0.0, true);
    w->push[2] = reference_tie(f, g2, -1, 0, 1, 0, 0.0, true);
    (void)reference_tie(f, g, q, 1, 0, 0, 1.0 / 30e6, false);
    (void)reference_tie(f, g, q, 0, 0, 1, 1.0 / 2e7, false);
}

static void look_girder(ref_compare *c, const girder_case *w, const char *stage)
{
    const kl_state state = solved_after(c->program, stage);
    const int secondary[2] = {7, 7};
    c->where = stage;
    reference_compare_member(c, state, "left", 0, &w->posts, secondary);
    reference_compare_member(c, state, "right", 1, &w->posts, secondary);
    if (w->f.members[2].stands) {
        reference_compare_member(c, state, "girder", 2, &w->girder, secondary);
    }
    for (int i = 0; i < 6; i++) {
        reference_compare_value(
            c, "reaction", i,
            solved_reaction(c->program, state, i < 3 ? "A" : "B", (kl_direction)(KL_X + i % 3)),
            reference_tie_force(&w->f.ties[w->foot[i]]), 1e5);
    }
    reference_compare_value(c, "reaction G2", 0, solved_reaction(c->program, state, "G2", KL_Y),
                            reference_tie_force(&w->f.ties[w->push[2]]), 1e5);
}

static void put(girder_case *w, ref_step *s, int what, double factor)
{
    s->cause = what;
    if (what == SPAN) {
        s->lines[s->line_count++] = (ref_line_load){.member = 2,
                                                    .from = 2.0,
                                                    .to = 9.0,
                                                    .start = 50e3 * factor,
                                                    .end = 50e3 * factor,
                                                    .gy = -1.0,
                                                    .cause = SPAN};
    } else if (what == TAIL) {
        s->nodal[TAIL][node_at(&w->girder, w->nodes[2], 13.0)][1] -= 300e3 * factor;
        s->nodal[TAIL][node_at(&w->girder, w->nodes[2], 4.0)][0] += 40e3 * factor;
    } else if (what == HEAT) {
        s->gradient[2] = 15.0 * factor;
        s->warm[0] = 10.0 * factor;
    } else {
        s->moved[w->foot[4]] = -0.008 * factor;
    }
}

static void weigh(girder_case *w, ref_step *s, int member)
{
    reference_place(&w->f, member);
    reference_weigh(&w->f, s, member, 0.0, w->f.members[member].length, 1.0);
}

static void build_girder(girder_case *w, ref_compare *c)
{
    static const struct {
        const char *stage;
        int what[2];
        double factor;
    } steps[] = {{"spanned", {SPAN, 0}, 1.0},   {"tailed", {TAIL, 0}, 1.0},
                 {"eased", {SPAN, 0}, -1.0},    {"heated", {HEAT, 0}, 1.0},
                 {"sunk", {SINK, 0}, 1.0},      {"again", {SPAN, 0}, 2.0},
                 {"cooled", {HEAT, TAIL}, -1.0}};
    ref_step *s = calloc(1, sizeof(*s));
    assert_non_null(s);
    for (int i = 0; i < 3; i++) {
        w->f.ties[w->push[i]].stands = false;
    }
    weigh(w, s, 0);
    weigh(w, s, 1);
    reference_solve(&w->f, s);
    look_girder(c, w, "posts");
    *s = (ref_step){.day = 1.0};
    for (int i = 0; i < 3; i++) {
        w->f.ties[w->push[i]].stands = true;
    }
    weigh(w, s, 2);
    reference_solve(&w->f, s);
    look_girder(c, w, "girder");
    for (size_t i = 0; i < sizeof(steps) / sizeof(steps[0]); i++) {
        *s = (ref_step){.day = 2.0};
        for (int k = 0; k < 2 && steps[i].what[k] > 0; k++) {
            put(w, s, steps[i].what[k], steps[i].factor);
        }
        reference_solve(&w->f, s);
        look_girder(c, w, steps[i].stage);
    }
    free(s);
}

static void girder_on_bearings_agrees_at_every_stage(void **state)
{
    (void)state;
    solved m;
    solved_open(&m, girder_text);
    girder_case *w = calloc(1, sizeof(*w));
    assert_non_null(w);
    make_girder(w);
    ref_compare c = {.program = &m, .frame = &w->f, .tolerance = 1e-6};
    build_girder(w, &c);
    free(w);
    reference_compare_end(&c);
    solved_close(&m);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(haunched_frame_agrees_under_every_case),
        cmocka_unit_test(girder_on_bearings_agrees_at_every_stage),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
