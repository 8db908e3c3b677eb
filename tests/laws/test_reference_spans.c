/* test_reference_spans.c - two haunched spans cast as one line, with what stages seldom do, against the reference frame.
 *
 * The line is the top; the forms end in an overhang. One tendon is pulled at the start and then at the end; a group of
 * two is pulled to half and then in full, in a list with the other, left without grout and slackened at the end. A
 * support sinks while rows stand and another comes late.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdlib.h>

#include "reference_compare.h"
#include "reference_stage.h"

enum { WEIGHT = REF_WEIGHT, PRESTRESS, LOSSES, SINK, TRAIN, ROWS = 9 };
enum { FIRST, GROUP, HALF }; /* tendons: HALF is GROUP when it was pulled to half */
static const double row_at[ROWS] = {1.5, 3.5, 5.5, 8.0, 10.0, 14.5, 17.0, 19.0, 20.5};

static const char spans_text[] =
    "show si\n"
    "concrete mix { strength 45 MPa; transfer_strength 32 MPa; unit_weight 24 kN/m^3; modulus "
    "aashto 2020 }\n"
    "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 195 GPa }\n"
    "section thin { rectangle width 3 m depth 0.9 m; line top; shear flexible }\n"
    "section thick { rectangle width 3 m depth 1.5 m; line top; shear flexible }\n"
    "section edge { rectangle width 3 m depth 0.7 m; line top; shear flexible }\n"
    "node S1 at (0 m, 6 m); node S2 at (12 m, 6 m); node S4 at (24 m, 6 m)\n"
    "member span_1 from S1 to S2 of mix { section thin at 0 m; section thick at end }\n"
    "member span_2 from S2 to S4 of mix { section thick at 0 m; section edge at end }\n"
    "node S3 on span_2 at 10 m\n"
    "support S1 roller; support S2 pinned; support S3 roller\n"
    "tendon T in span_1 span_2 { of strand; strands 15 area 150 mm^2; profile from bottom {\n"
    "    anchor at 0 m height 0.45 m; low at 5 m height 0.2 m; inflection at 10 m; high at 12 m "
    "height 1.3 m\n"
    "    inflection at 14 m; low at 18 m height 0.2 m; anchor at 24 m height 0.35 m }\n"
    "  friction 0.2; wobble 0.001 per m; seating 6 mm; jack start then end ratio 0.75; duct 90 mm "
    "offset 12 mm;\n"
    "  bonded grouted }\n"
    "tendon U in span_1 span_2 { of strand; strands 9 area 150 mm^2; count 2; profile from top {\n"
    "    anchor at 0 m depth 0.4 m; low at 6 m depth 0.8 m; inflection at 9.5 m; high at 12 m "
    "depth 0.25 m\n"
    "    inflection at 15 m; low at 18 m depth 0.7 m; anchor at 24 m depth 0.35 m }\n"
    "  friction 0.15; wobble 0.0007 per m; seating 4 mm; jack start ratio 0.7; duct 75 mm; "
    "unbonded }\n"
    "falsework bents_1 under span_1 at 1.5 m, 3.5 m, 5.5 m, 8 m, 10 m {\n"
    "  posts 2; stiffness 60 kN/mm; takeup 4 mm; capacity 4000 kN }\n"
    "falsework bents_2 under span_2 at 2.5 m, 5 m, 7 m, 8.5 m {\n"
    "  posts 2; stiffness 60 kN/mm; takeup 4 mm; capacity 4000 kN }\n"
    "load sink { settle 5 mm at S2 down }\n"
    "load train { point 200 kN on span_1 at 5.5 m; point 150 kN on span_2 at 12 m; moment 90 kN-m "
    "on span_2 at 5 m }\n"
    "stage wet at 0 day { erect bents_1 bents_2; cast span_1 span_2 }\n"
    "stage half at 7 day { stress U to 50 % }\n"
    "stage sunk at 8 day { load sink }\n"
    "stage full at 14 day { stress T U }\n"
    "stage part at 15 day { release bents_1 from 3.5 m to 5.5 m }\n"
    "stage other at 16 day { release bents_2 }\n"
    "stage free at 17 day { release bents_1 }\n"
    "stage held at 20 day { grout T; support S4 y fixed }\n"
    "stage used at 28 day { load train times 1.2 }\n"
    "stage slack at 40 day { slacken U }\n"
    "stage late at 400 day { lose T 90 MPa }\n";

typedef struct spans_frame {
    ref_frame f;
    ref_forms forms;
    ref_stations stations;
    int deck, nodes[REF_STATIONS];
    int supports[5]; /* up: S1 S2 S3 S4; S2 along */
} spans_frame;

static double depth_at(double x)
{
    return x < 12.0 ? 0.9 + 0.6 * x / 12.0 : 1.5 - 0.8 * (x - 12.0) / 12.0;
}

/* Anchor, low, inflection, high, inflection, low, anchor; y of the flat points and anchors from the line. */
static void waves(ref_tendon *t, const double at[7], const double y[5], double shift)
{
    const double y1 = y[1] + (y[2] - y[1]) * (at[2] - at[1]) / (at[3] - at[1]);
    const double y2 = y[3] + (y[2] - y[3]) * (at[4] - at[5]) / (at[3] - at[5]);
    const double points[7] = {y[0], y[1], y1, y[2], y2, y[3], y[4]};
    static const double inside[7] = {0.0, 1.0, 0.0, -1.0, 0.0, 1.0, 0.0};
    t->piece_count = 6;
    for (int i = 0; i < 6; i++) {
        const double l = at[i + 1] - at[i], h = points[i + 1] - points[i];
        const bool flat_first = i % 2 == 1;
        t->pieces[i] = (ref_piece){at[i],
                                   at[i + 1],
                                   points[i],
                                   flat_first ? 0.0 : 2.0 * h / l,
                                   (flat_first ? h : -h) / (l * l),
                                   {shift * inside[i], shift * inside[i + 1]}};
    }
}

static void make_tendons(ref_frame *f)
{
    f->tendon_count = 3;
    const double a = 15 * 150e-6, b = 9 * 150e-6;
    f->tendons[FIRST] = (ref_tendon){.count = 1,
                                     .area = a,
                                     .modulus = 195e9,
                                     .duct = 0.09,
                                     .friction = 0.2,
                                     .wobble = 0.001,
                                     .set = {6e-3, 6e-3},
                                     .in_turn = true,
                                     .jack = {0.75 * 1860e6 * a, 0.75 * 1860e6 * a}};
    f->tendons[GROUP] = (ref_tendon){.count = 2,
                                     .area = b,
                                     .modulus = 195e9,
                                     .duct = 0.075,
                                     .friction = 0.15,
                                     .wobble = 0.0007,
                                     .set = {4e-3, 0.0},
                                     .jack = {0.7 * 1860e6 * b, 0.0}};
    waves(&f->tendons[FIRST], (const double[]){0, 5, 10, 12, 14, 18, 24},
          (const double[]){0.45 - depth_at(0), 0.2 - depth_at(5), 1.3 - depth_at(12),
                           0.2 - depth_at(18), 0.35 - depth_at(24)},
          0.012);
    waves(&f->tendons[GROUP], (const double[]){0, 6, 9.5, 12, 15, 18, 24},
          (const double[]){-0.4, -0.8, -0.25, -0.7, -0.35}, 0.0);
    f->tendons[HALF] = f->tendons[GROUP];
    f->tendons[HALF].jack[0] *= 0.5;
    f->tendons[HALF].duct = 0.0;
    for (int i = 0; i < 3; i++) {
        reference_tendon_pull(&f->tendons[i]);
    }
}

/* Where a piecewise force has its kink: the end's pulling curve meets what the start locked. */
static double meeting(const ref_tendon *t)
{
    ref_tendon start = *t, end = *t;
    start.jack[1] = end.jack[0] = 0.0;
    start.in_turn = end.in_turn = false;
    start.set[1] = end.set[0] = 0.0;
    end.set[1] = 0.0;
    reference_tendon_pull(&start);
    reference_tendon_pull(&end);
    double a = 0.0, b = 24.0;
    for (int i = 0; i < 70; i++) {
        const double x = 0.5 * (a + b);
        if (reference_pull(&start, x) > reference_pull(&end, x)) {
            a = x;
        } else {
            b = x;
        }
    }
    return 0.5 * (a + b);
}

static void add_row(spans_frame *w, double x, int node, bool on_row)
{
    const int k = w->forms.count++;
    w->forms.at[k] = x;
    w->forms.node[k] = node;
    w->forms.tie[k] = on_row ? reference_tie(&w->f, node, -1, 0, 1, 0, 1.0 / 120e6, true) : -1;
    if (on_row) {
        w->f.ties[w->forms.tie[k]].stands = false;
    }
}

static void make_spans(spans_frame *w)
{
    ref_frame *f = &w->f;
    make_tendons(f);
    static const double own[] = {0,  1,  2.5, 4.5, 5,  6,  7,  9,  9.5, 11,
                                 12, 13, 14,  15,  16, 18, 20, 22, 23,  24};
    for (size_t i = 0; i < sizeof(own) / sizeof(own[0]); i++) {
        reference_station(&w->stations, own[i]);
    }
    for (int i = 0; i < ROWS; i++) {
        reference_station(&w->stations, row_at[i]);
    }
    reference_station(&w->stations, f->tendons[FIRST].still[0]);
    reference_station(&w->stations, f->tendons[FIRST].still[1]);
    reference_station(&w->stations, meeting(&f->tendons[FIRST]));
    reference_station(&w->stations, f->tendons[GROUP].still[0]);
    reference_station(&w->stations, f->tendons[HALF].still[0]);
    int s[4];
    static const double at[4] = {0, 12, 22, 24};
    for (int i = 0; i < 4; i++) {
        s[i] = reference_node(f, at[i], 6.0);
        w->supports[i] = reference_tie(f, s[i], -1, 0, 1, 0, 0.0, false);
    }
    w->supports[4] = reference_tie(f, s[1], -1, 1, 0, 0, 0.0, false);
    f->ties[w->supports[3]].stands = false;
    for (int i = 0; i < w->stations.count; i++) {
        w->nodes[i] = -1;
        for (int k = 0; k < 4; k++) {
            w->nodes[i] = fabs(w->stations.at[i] - at[k]) < 1e-9 ? s[k] : w->nodes[i];
        }
    }
    const ref_member deck = {.from = s[0],
                             .to = s[3],
                             .width = 3.0,
                             .depth = {0.9, 0.7},
                             .peak_at = 12.0,
                             .peak = 1.5,
                             .line = REF_TOP,
                             .shear = true,
                             .shear_ratio = 2.4,
                             .strength = 45e6,
                             .unit_weight = 24e3};
    w->deck = reference_member(f, deck, w->stations.at, w->stations.count, w->nodes, 0.51);
    w->forms.member = w->deck;
    for (int i = 0, row = 0; i < w->stations.count; i++) {
        const bool on_row = row < ROWS && fabs(w->stations.at[i] - row_at[row]) < 1e-9;
        row += on_row ? 1 : 0;
        const int n = w->nodes[i];
        if (on_row || n == s[0] || n == s[1] || n == s[2]) {
            add_row(w, w->stations.at[i], n, on_row);
        }
    }
}

static void split(const spans_frame *w, ref_stations s[2])
{
    s[0].count = s[1].count = 0;
    for (int i = 0; i < w->stations.count; i++) {
        const double x = w->stations.at[i];
        if (fabs(x - 12.0) > 1e-9) {
            reference_station(&s[x < 12.0 ? 0 : 1], x);
        }
    }
}

static void look(ref_compare *c, const spans_frame *w, const char *stage)
{
    const kl_state state = solved_after(c->program, stage);
    const int secondary[2] = {PRESTRESS, LOSSES};
    ref_stations s[2];
    split(w, s);
    c->where = stage;
    const kl_cause causes[] = {{KL_CAUSE_WEIGHT, KL_NONE}, {KL_CAUSE_PRESTRESS, KL_NONE}};
    for (int k = 0; k < 2; k++) {
        const char *const name = k == 0 ? "span_1" : "span_2";
        c->shift = 12.0 * k;
        reference_compare_member(c, state, name, w->deck, &s[k], secondary);
        reference_compare_cause(c, state, causes[0], WEIGHT, name, w->deck, &s[k]);
        reference_compare_cause(c, state, causes[1], PRESTRESS, name, w->deck, &s[k]);
        for (int i = SINK; i <= TRAIN; i++) {
            const kl_index load =
                solved_index(c->program, KL_KIND_CASE, i == SINK ? "sink" : "train");
            reference_compare_cause(c, state, (kl_cause){KL_CAUSE_CASE, load}, i, name, w->deck,
                                    &s[k]);
        }
    }
    static const char *const on[] = {"S1", "S2", "S3", "S4", "S2"};
    for (int i = 0; i < 5; i++) {
        if (w->f.ties[w->supports[i]].stands) {
            reference_compare_value(c, on[i], 0,
                                    solved_reaction(c->program, state, on[i], i < 4 ? KL_Y : KL_X),
                                    reference_tie_force(&w->f.ties[w->supports[i]]), 1e6);
        }
    }
    for (int i = 0, row = 0; i < w->forms.count; i++) {
        if (w->forms.tie[i] >= 0) {
            const ref_tie *t = &w->f.ties[w->forms.tie[i]];
            const kl_post_row post = row < 5 ? solved_post(c->program, state, "bents_1", row)
                                             : solved_post(c->program, state, "bents_2", row - 5);
            row++;
            reference_compare_value(c, "row", w->forms.at[i], post.stands ? post.force : 0.0,
                                    t->stands ? reference_tie_force(t) : 0.0, 2e5);
            reference_compare_value(c, "gap", w->forms.at[i], post.stands ? post.gap : 0.0,
                                    t->stands ? t->gap : 0.0, 1e-3);
        }
    }
    if (w->f.tendons[FIRST].phase != REF_EMPTY) {
        reference_compare_tendon(c, state, "T", FIRST, &w->stations);
    }
    if (w->f.tendons[GROUP].phase != REF_EMPTY) {
        reference_compare_tendon(c, state, "U", GROUP, &w->stations);
    }
    if (w->f.tendons[HALF].phase != REF_EMPTY) {
        reference_compare_tendon(c, state, "U", HALF, &w->stations);
    }
}

static void clear(ref_step *s, int cause, double day)
{
    *s = (ref_step){.cause = cause, .day = day};
}

static void pull(ref_step *s, double day, int tendon)
{
    clear(s, PRESTRESS, day);
    s->pull[tendon] = 1.0;
    s->being_stressed[tendon] = true;
}

static void release(spans_frame *w,
                    ref_compare *c,
                    ref_step *s,
                    double day,
                    double from,
                    double to,
                    const char *stage)
{
    clear(s, WEIGHT, day);
    reference_release(&w->f, &w->forms, from, to, s);
    reference_solve(&w->f, s);
    look(c, w, stage);
}

/* What the group gained from a cause, half pulled too, goes back under it. */
static void give_back(spans_frame *w, ref_step *s, int cause)
{
    const double gained = w->f.tendons[GROUP].gained[cause] + w->f.tendons[HALF].gained[cause];
    clear(s, cause, 40.0);
    s->being_stressed[GROUP] = true;
    s->uniform[GROUP] = -gained;
    reference_solve(&w->f, s);
}

/* A tendon gives up what it has beyond its curve after seating, and the curve. */
static void give_up(const ref_frame *f, ref_step *s, int tendon)
{
    s->pull[tendon] = -1.0;
    s->being_stressed[tendon] = true;
    s->uniform[tendon] =
        -(reference_tendon_at(f, tendon, 0.0) - reference_pull(&f->tendons[tendon], 0.0));
}

static void stress_them(spans_frame *w, ref_compare *c, ref_step *s)
{
    ref_frame *f = &w->f;
    pull(s, 7.0, HALF);
    s->uniform[HALF] = reference_own_loss(f, s, HALF);
    reference_solve(f, s);
    f->tendons[HALF].phase = REF_STRESSED;
    look(c, w, "half");
    clear(s, SINK, 8.0);
    s->moved[w->supports[1]] = -5e-3;
    reference_solve(f, s);
    look(c, w, "sunk");
    pull(s, 14.0, FIRST);
    reference_solve(f, s);
    f->tendons[FIRST].phase = REF_STRESSED;
    pull(s, 14.0, GROUP);
    give_up(f, s, HALF);
    s->uniform[GROUP] = reference_own_loss(f, s, GROUP);
    reference_solve(f, s);
    f->tendons[GROUP].phase = REF_STRESSED;
    f->tendons[HALF].phase = REF_EMPTY;
    look(c, w, "full");
}

static void use(spans_frame *w, ref_compare *c, ref_step *s)
{
    ref_frame *f = &w->f;
    f->tendons[FIRST].phase = REF_GROUTED;
    ref_tie *late = &f->ties[w->supports[3]];
    late->stands = late->closed = true;
    look(c, w, "held");
    clear(s, TRAIN, 28.0);
    for (int i = 0; i < w->stations.count; i++) {
        const double x = w->stations.at[i];
        s->nodal[TRAIN][w->nodes[i]][1] -= fabs(x - 5.5) < 1e-9    ? 240e3
                                           : fabs(x - 24.0) < 1e-9 ? 180e3
                                                                   : 0.0;
        s->nodal[TRAIN][w->nodes[i]][2] += fabs(x - 17.0) < 1e-9 ? 108e3 : 0.0;
    }
    reference_solve(f, s);
    look(c, w, "used");
    give_back(w, s, WEIGHT);
    give_back(w, s, SINK);
    give_back(w, s, TRAIN);
    clear(s, PRESTRESS, 40.0);
    give_up(f, s, GROUP);
    reference_solve(f, s);
    f->tendons[GROUP].phase = REF_EMPTY;
    look(c, w, "slack");
    clear(s, LOSSES, 400.0);
    s->uniform[FIRST] = -90e6 * f->tendons[FIRST].area;
    reference_solve(f, s);
    look(c, w, "late");
}

static void two_spans_agree_at_every_stage(void **state)
{
    (void)state;
    solved m;
    solved_open(&m, spans_text);
    spans_frame *w = calloc(1, sizeof(*w));
    ref_step *s = calloc(1, sizeof(*s));
    assert_non_null(w);
    assert_non_null(s);
    make_spans(w);
    ref_compare c = {.program = &m, .frame = &w->f, .tolerance = 1e-6};
    reference_pour(&w->f, &w->forms, s);
    look(&c, w, "wet");
    stress_them(w, &c, s);
    release(w, &c, s, 15.0, 3.5, 5.5, "part");
    release(w, &c, s, 16.0, 14.0, 22.0, "other");
    release(w, &c, s, 17.0, 0.0, 12.0, "free");
    use(w, &c, s);
    free(s);
    free(w);
    reference_compare_end(&c);
    solved_close(&m);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_spans_agree_at_every_stage),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
