/* test_reference_deck.c - an upper deck poured on posts that stand on a lower deck, against the reference frame.
 *
 * Pulling the upper deck's tendons lifts it off some rows and presses others down; rows go in three parts, the outer
 * ones first, with a load between. The upper deck is a tee whose line is its top.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdlib.h>

#include "reference_compare.h"
#include "reference_stage.h"

enum { WEIGHT = REF_WEIGHT, PRESTRESS, LOSSES, PAVING, ROWS = 10 };
static const double row_at[ROWS] = {2.0, 4.0, 6.0, 8.0, 10.5, 13.5, 16.0, 18.0, 20.0, 22.0};

static const char deck_text[] =
    "show si\n"
    "concrete low_mix { strength 40 MPa; unit_weight 24 kN/m^3; modulus 31 GPa }\n"
    "concrete up_mix { strength 38 MPa; transfer_strength 28 MPa; unit_weight 24.5 kN/m^3; modulus "
    "aashto 2020 }\n"
    "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 195 GPa }\n"
    "section low_section { rectangle width 4 m depth 1.1 m }\n"
    "section up_section { tee width 4 m flange_thickness 0.3 m web_width 1.2 m depth 1.3 m; line "
    "top }\n"
    "node P1 at (0 m, 5 m); node P3 at (24 m, 5 m); node Q1 at (0 m, 9 m); node Q3 at (24 m, 9 m)\n"
    "member low from P1 to P3 section low_section of low_mix\n"
    "member up from Q1 to Q3 section up_section of up_mix\n"
    "node P2 on low at 12 m; node Q2 on up at 12 m\n"
    "support P1 pinned; support P2 roller; support P3 roller\n"
    "support Q1 pinned; support Q2 roller; support Q3 roller\n"
    "tendon T in up { of strand; strands 12 area 140 mm^2; count 2; profile from bottom {\n"
    "    anchor at 0 m height 0.8 m; low at 5 m height 0.2 m; inflection at 10 m; high at 12 m "
    "height 1.1 m\n"
    "    inflection at 14 m; low at 19 m height 0.2 m; anchor at end height 0.8 m }\n"
    "  friction 0.2; wobble 0.0012 per m; seating 6 mm; jack start ratio 0.75; duct 80 mm; bonded "
    "grouted }\n"
    "falsework bents under up at 2 m, 4 m, 6 m, 8 m, 10.5 m, 13.5 m, 16 m, 18 m, 20 m, 22 m {\n"
    "  on low; posts 4; stiffness 40 kN/mm; takeup 4 mm; capacity 5000 kN }\n"
    "load paving { uniform 25 kN/m on up; ramp start 10 kN/m end 40 kN/m on low from 6 m to 18 m "
    "}\n"
    "stage low_placed at 0 day { place low }\n"
    "stage wet at 20 day { erect bents; cast up }\n"
    "stage pulled at 30 day { stress T }\n"
    "stage part at 31 day { release bents from 0 m to 4 m }\n"
    "stage other at 32 day { release bents from 18 m to 22 m }\n"
    "stage paved at 33 day { load paving }\n"
    "stage free at 34 day { release bents }\n"
    "stage grouted at 36 day { grout T }\n"
    "stage bare at 37 day { unload paving }\n"
    "stage late at 2000 day { lose T 100 MPa }\n";

typedef struct deck_frame {
    ref_frame f;
    ref_forms forms;
    ref_stations stations;
    int low, up, low_nodes[REF_STATIONS], up_nodes[REF_STATIONS];
    int supports[6]; /* upward ties of P1 P2 P3 Q1 Q2 Q3 */
} deck_frame;

static void
parabola(ref_tendon *t, double from, double to, double y0, double y1, bool flat_at_start)
{
    const double l = to - from, h = y1 - y0;
    t->pieces[t->piece_count++] =
        flat_at_start ? (ref_piece){from, to, y0, 0.0, h / (l * l), {0.0, 0.0}}
                      : (ref_piece){from, to, y0, 2.0 * h / l, -h / (l * l), {0.0, 0.0}};
}

static void make_tendon(ref_frame *f)
{
    const double area = 12 * 140e-6, line = -1.3; /* heights from the bottom, y from the top */
    f->tendon_count = 1;
    f->tendons[0] = (ref_tendon){.count = 2,
                                 .area = area,
                                 .modulus = 195e9,
                                 .duct = 0.08,
                                 .friction = 0.2,
                                 .wobble = 0.0012,
                                 .set = {6e-3, 0.0},
                                 .jack = {0.75 * 1860e6 * area, 0.0}};
    ref_tendon *t = &f->tendons[0];
    const double turn = 0.2 + 0.9 * 5.0 / 7.0;
    parabola(t, 0, 5, 0.8 + line, 0.2 + line, false);
    parabola(t, 5, 10, 0.2 + line, turn + line, true);
    parabola(t, 10, 12, turn + line, 1.1 + line, false);
    parabola(t, 12, 14, 1.1 + line, turn + line, true);
    parabola(t, 14, 19, turn + line, 0.2 + line, false);
    parabola(t, 19, 24, 0.2 + line, 0.8 + line, true);
    reference_tendon_pull(t);
}

static int make_deck(deck_frame *w, ref_member m, int middle, int *nodes)
{
    for (int i = 0; i < w->stations.count; i++) {
        nodes[i] = fabs(w->stations.at[i] - 12.0) < 1e-9 ? middle : -1;
    }
    const int number = reference_member(&w->f, m, w->stations.at, w->stations.count, nodes, 1.01);
    const int on[3] = {m.from, middle, m.to};
    for (int i = 0; i < 3; i++) {
        w->supports[3 * number + i] = reference_tie(&w->f, on[i], -1, 0, 1, 0, 0.0, false);
    }
    (void)reference_tie(&w->f, m.from, -1, 1, 0, 0, 0.0, false);
    return number;
}

static void make_decks(deck_frame *w)
{
    ref_frame *f = &w->f;
    make_tendon(f);
    for (int i = 0; i < ROWS; i++) {
        reference_station(&w->stations, row_at[i]);
    }
    static const double own[] = {0, 1, 3, 5, 7, 9, 10, 11, 12, 13, 14, 15, 17, 19, 21, 23, 24};
    for (size_t i = 0; i < sizeof(own) / sizeof(own[0]); i++) {
        reference_station(&w->stations, own[i]);
    }
    reference_station(&w->stations, f->tendons[0].still[0]);
    int p[6];
    for (int i = 0; i < 6; i++) {
        p[i] = reference_node(f, 12.0 * (i % 3), i < 3 ? 5.0 : 9.0);
    }
    w->low = make_deck(w,
                       (ref_member){.from = p[0],
                                    .to = p[2],
                                    .width = 4.0,
                                    .depth = {1.1, 1.1},
                                    .modulus = 31e9,
                                    .unit_weight = 24e3},
                       p[1], w->low_nodes);
    w->up = make_deck(w,
                      (ref_member){.from = p[3],
                                   .to = p[5],
                                   .width = 4.0,
                                   .depth = {1.3, 1.3},
                                   .flange = 0.3,
                                   .web = 1.2,
                                   .line = REF_TOP,
                                   .strength = 38e6,
                                   .cast_day = 20.0,
                                   .unit_weight = 24.5e3},
                      p[4], w->up_nodes);
    f->tendons[0].member = w->up;
    w->forms.member = w->up;
    for (int i = 0, row = 0; i < w->stations.count; i++) {
        const double x = w->stations.at[i];
        const bool on_row = row < ROWS && fabs(x - row_at[row]) < 1e-9;
        const int node = w->up_nodes[i];
        if (on_row || node == p[3] || node == p[4] || node == p[5]) {
            const int k = w->forms.count++;
            w->forms.at[k] = x;
            w->forms.node[k] = node;
            w->forms.tie[k] =
                on_row ? reference_tie(f, node, w->low_nodes[i], 0, 1, 0, 1.0 / 160e6, true) : -1;
            row += on_row ? 1 : 0;
            if (on_row) {
                f->ties[w->forms.tie[k]].stands = false;
            }
        }
    }
}

static int look(ref_compare *c, const deck_frame *w, const char *stage)
{
    const kl_state state = solved_after(c->program, stage);
    const int secondary[2] = {PRESTRESS, LOSSES};
    c->where = stage;
    reference_compare_member(c, state, "low", w->low, &w->stations, secondary);
    reference_compare_member(c, state, "up", w->up, &w->stations, secondary);
    static const char *const on[] = {"P1", "P2", "P3", "Q1", "Q2", "Q3"};
    for (int i = 0; i < 6; i++) {
        reference_compare_value(c, on[i], 0, solved_reaction(c->program, state, on[i], KL_Y),
                                reference_tie_force(&w->f.ties[w->supports[i]]), 1e6);
    }
    int lifted = 0;
    for (int i = 0, row = 0; i < w->forms.count; i++) {
        if (w->forms.tie[i] >= 0) {
            const ref_tie *t = &w->f.ties[w->forms.tie[i]];
            const kl_post_row post = solved_post(c->program, state, "bents", row++);
            reference_compare_value(c, "row", w->forms.at[i], post.stands ? post.force : 0.0,
                                    t->stands ? reference_tie_force(t) : 0.0, 2e5);
            reference_compare_value(c, "gap", w->forms.at[i], post.stands ? post.gap : 0.0,
                                    t->stands ? t->gap : 0.0, 1e-3);
            lifted += t->stands && !t->closed;
        }
    }
    if (w->f.tendons[0].phase != REF_EMPTY) {
        reference_compare_tendon(c, state, "T", 0, &w->stations);
    }
    const kl_index paving = solved_index(c->program, KL_KIND_CASE, "paving");
    const kl_cause causes[] = {{KL_CAUSE_WEIGHT, KL_NONE},
                               {KL_CAUSE_PRESTRESS, KL_NONE},
                               {KL_CAUSE_LOSSES, KL_NONE},
                               {KL_CAUSE_CASE, paving}};
    for (int i = 0; i < 4; i++) {
        reference_compare_cause(c, state, causes[i], i, "up", w->up, &w->stations);
        reference_compare_cause(c, state, causes[i], i, "low", w->low, &w->stations);
    }
    return lifted;
}

static void clear(ref_step *s, int cause, double day)
{
    *s = (ref_step){.cause = cause, .day = day};
}

static void pave(ref_step *s, const deck_frame *w, double factor)
{
    s->lines[0] = (ref_line_load){.member = w->up,
                                  .to = 24.0,
                                  .start = 25e3 * factor,
                                  .end = 25e3 * factor,
                                  .gy = -1.0,
                                  .cause = PAVING};
    s->lines[1] = (ref_line_load){.member = w->low,
                                  .from = 6.0,
                                  .to = 18.0,
                                  .start = 10e3 * factor,
                                  .end = 40e3 * factor,
                                  .gy = -1.0,
                                  .cause = PAVING};
    s->line_count = 2;
}

static int release(deck_frame *w,
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
    return look(c, w, stage);
}

static void build(deck_frame *w, ref_compare *c)
{
    ref_step *s = calloc(1, sizeof(*s));
    assert_non_null(s);
    ref_frame *f = &w->f;
    clear(s, WEIGHT, 0.0);
    reference_place(f, w->low);
    reference_weigh(f, s, w->low, 0.0, 24.0, 1.0);
    reference_solve(f, s);
    clear(s, WEIGHT, 20.0);
    reference_pour(f, &w->forms, s);
    (void)look(c, w, "wet");
    clear(s, PRESTRESS, 30.0);
    s->pull[0] = 1.0;
    s->being_stressed[0] = true;
    s->uniform[0] = reference_own_loss(f, s, 0);
    reference_solve(f, s);
    f->tendons[0].phase = REF_STRESSED;
    int lifted = look(c, w, "pulled");
    assert_true(lifted > 0);
    lifted += release(w, c, s, 31.0, 0.0, 4.0, "part");
    lifted += release(w, c, s, 32.0, 18.0, 22.0, "other");
    clear(s, PAVING, 33.0);
    pave(s, w, 1.0);
    reference_solve(f, s);
    lifted += look(c, w, "paved");
    (void)release(w, c, s, 34.0, 0.0, 24.0, "free");
    f->tendons[0].phase = REF_GROUTED;
    (void)look(c, w, "grouted");
    clear(s, PAVING, 37.0);
    pave(s, w, -1.0);
    reference_solve(f, s);
    (void)look(c, w, "bare");
    clear(s, LOSSES, 2000.0);
    s->uniform[0] = -100e6 * f->tendons[0].area;
    reference_solve(f, s);
    (void)look(c, w, "late");
    free(s);
}

static void deck_on_a_deck_agrees_at_every_stage(void **state)
{
    (void)state;
    solved m;
    solved_open(&m, deck_text);
    deck_frame *w = calloc(1, sizeof(*w));
    assert_non_null(w);
    make_decks(w);
    ref_compare c = {.program = &m, .frame = &w->f, .tolerance = 1e-6};
    build(w, &c);
    reference_compare_end(&c);
    free(w);
    solved_close(&m);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(deck_on_a_deck_agrees_at_every_stage),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
