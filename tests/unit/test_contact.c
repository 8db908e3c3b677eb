/* test_contact.c - the search for the bearing set on small linear complementarity problems, against all sets.
 *
 * An abstract structure: w = q + M z, w >= 0, z >= 0, z' w = 0, with M a P-matrix (positive definite, or with a skew
 * part besides). z is the force of a contact, w its gap. Of the 2^n sets exactly one is right (R. W. Cottle, J.-S.
 * Pang, R. E. Stone, The Linear Complementarity Problem, theorem 3.3.7).
 * SPDX-License-Identifier: MIT */
#include "contact.h"

#include <math.h>
#include <string.h>

#include "assert_close.h"
#include "random.h"

#define MOST 10

typedef struct problem {
    int n;
    double m[MOST][MOST], q[MOST];
} problem;

/* z of a set: M_cc z_c = -q_c by elimination; then w. @return false when there is no solution. */
static bool solve_set(const problem *p, const bool *closed, double *z, double *w)
{
    double a[MOST][MOST + 1];
    int at[MOST];
    int k = 0;
    for (int i = 0; i < p->n; i++) {
        z[i] = 0.0;
        if (closed[i]) {
            at[k++] = i;
        }
    }
    for (int i = 0; i < k; i++) {
        for (int j = 0; j < k; j++) {
            a[i][j] = p->m[at[i]][at[j]];
        }
        a[i][k] = -p->q[at[i]];
    }
    for (int c = 0; c < k; c++) { /* a P-matrix needs no pivoting */
        for (int i = 0; i < k; i++) {
            const double share = i == c ? 0.0 : a[i][c] / a[c][c];
            for (int j = c; j <= k && i != c; j++) {
                a[i][j] -= share * a[c][j];
            }
        }
    }
    for (int i = 0; i < k; i++) {
        z[at[i]] = a[i][k] / a[i][i];
    }
    for (int i = 0; i < p->n; i++) {
        w[i] = p->q[i];
        for (int j = 0; j < p->n; j++) {
            w[i] += p->m[i][j] * z[j];
        }
    }
    return true;
}

static void draw(random_source *random, problem *p)
{
    double b[MOST][MOST];
    p->n = 1 + random_index(random, MOST);
    const double skew = random_index(random, 2) ? random_between(random, 0.0, 3.0) : 0.0;
    for (int i = 0; i < p->n; i++) {
        p->q[i] = random_between(random, -1.0, 1.0);
        for (int j = 0; j < p->n; j++) {
            b[i][j] = random_between(random, -1.0, 1.0);
        }
    }
    for (int i = 0; i < p->n; i++) {
        for (int j = 0; j < p->n; j++) {
            p->m[i][j] = (i == j ? 0.05 : 0.0) + skew * (b[i][j] - b[j][i]);
            for (int k = 0; k < p->n; k++) {
                p->m[i][j] += b[i][k] * b[j][k];
            }
        }
    }
}

/* All sets: the one that contradicts nothing, as a mask. */
static unsigned enumerate(const problem *p)
{
    unsigned found = 0;
    int count = 0;
    for (unsigned set = 0; set < 1U << p->n; set++) {
        bool closed[MOST];
        double z[MOST];
        double w[MOST];
        for (int i = 0; i < p->n; i++) {
            closed[i] = (set >> i) & 1U;
        }
        (void)solve_set(p, closed, z, w);
        bool right = true;
        for (int i = 0; i < p->n; i++) {
            right = right && (closed[i] ? z[i] >= 0.0 : w[i] >= 0.0);
        }
        if (right) {
            found = set;
            count++;
        }
    }
    assert_int_equal(count, 1);
    return found;
}

/* Let the search run from a first set. @return the sets tried. */
static int search(const problem *p, const kl_settings *settings, unsigned before, unsigned *found)
{
    contact items[MOST];
    contact_list list = {items, p->n};
    memset(items, 0, sizeof items);
    for (int i = 0; i < p->n; i++) {
        items[i].was_closed = (before >> i) & 1U;
    }
    contact_search memory = contact_search_start();
    contact_first(&list, settings, 7);
    for (int tries = 1; tries < 5000; tries++) {
        bool closed[MOST];
        double z[MOST];
        double w[MOST];
        for (int i = 0; i < p->n; i++) {
            closed[i] = items[i].closed;
        }
        (void)solve_set(p, closed, z, w);
        for (int i = 0; i < p->n; i++) {
            items[i].value = closed[i] ? z[i] : -w[i]; /* open: > 0 where it would overlap */
        }
        if (contact_next(&list, &memory, 1.0, 1.0)) {
            *found = 0;
            for (int i = 0; i < p->n; i++) {
                *found |= items[i].closed ? 1U << i : 0U;
            }
            assert_int_equal(memory.changes, tries - 1);
            return tries;
        }
    }
    fail_msg("no set found");
    return 0;
}

static void contact_next_finds_the_only_set_from_any_start(void **state)
{
    (void)state;
    random_source random = {11};
    for (int round = 0; round < 300; round++) {
        problem p;
        draw(&random, &p);
        const unsigned want = enumerate(&p);
        for (int start = 0; start < 6; start++) {
            static const kl_contact_start kinds[] = {KL_CONTACT_FROM_STATE, KL_CONTACT_ALL_OPEN,
                                                     KL_CONTACT_ALL_CLOSED, KL_CONTACT_SEEDED,
                                                     KL_CONTACT_SEEDED,     KL_CONTACT_FROM_STATE};
            kl_settings settings = kl_settings_default();
            settings.contact_start = kinds[start];
            settings.seed = (uint64_t)start;
            unsigned found = 0;
            (void)search(&p, &settings, (unsigned)random_index(&random, 1 << p.n), &found);
            assert_int_equal(found, want);
        }
    }
}

/* Murty's example of a problem on which changing all at once goes round: M = [[1, 2, 0], [0, 1, 2], [2, 0, 1]],
 * q = -1. From {1} block changes visit {1, 2, …} again and again; the search must fall back and end. z = 1/3 each. */
static void contact_next_does_not_go_round(void **state)
{
    (void)state;
    const problem p = {3, {{1, 2, 0}, {0, 1, 2}, {2, 0, 1}}, {-1, -1, -1}};
    assert_int_equal(enumerate(&p), 7);
    for (unsigned start = 0; start < 8; start++) {
        const kl_settings settings = kl_settings_default();
        unsigned found = 0;
        assert_true(search(&p, &settings, start, &found) < 40);
        assert_int_equal(found, 7);
    }
}

/* Zero force and zero gap at once (q_i = 0 where nothing pushes): either status is right, rounding must not keep the
 * search going. */
static void contact_next_takes_rounding_for_zero(void **state)
{
    (void)state;
    contact items[3] = {{.closed = true, .value = -4e-13},
                        {.closed = false, .value = 6e-13},
                        {.closed = false, .is_length = true, .value = 3e-15}};
    contact_list list = {items, 3};
    contact_search memory = contact_search_start();
    assert_true(contact_next(&list, &memory, 1.0, 0.01));
    assert_int_equal(memory.changes, 0);
    items[0].value = -4e-12; /* beyond rounding */
    assert_false(contact_next(&list, &memory, 1.0, 0.01));
    assert_false(items[0].closed);
    items[0].value = 0.0;
    items[2].value = 2e-13; /* the movement's own scale */
    assert_false(contact_next(&list, &memory, 1.0, 0.01));
    assert_true(items[2].closed);
}

static void contact_close_all_closes_every_one(void **state)
{
    (void)state;
    contact items[3] = {{.closed = true}, {.closed = false}, {.closed = false}};
    contact_list list = {items, 3};
    contact_close_all(&list);
    assert_true(items[0].closed && items[1].closed && items[2].closed);
}

/* Seeded sets: the same for the same seed and turn, different over turns, and both kinds of status occur. */
static void contact_first_seeded_repeats_itself(void **state)
{
    (void)state;
    contact items[40];
    contact_list list = {items, 40};
    kl_settings settings = kl_settings_default();
    settings.contact_start = KL_CONTACT_SEEDED;
    settings.seed = 5;
    uint64_t sets[3] = {0, 0, 0};
    for (int round = 0; round < 3; round++) {
        memset(items, 0, sizeof items);
        contact_first(&list, &settings, round == 2 ? 4 : 3);
        for (int i = 0; i < 40; i++) {
            sets[round] |= (uint64_t)items[i].closed << i;
        }
    }
    assert_true(sets[0] == sets[1]);
    assert_true(sets[0] != sets[2]);
    assert_true(sets[0] != 0 && sets[0] != (UINT64_C(1) << 40) - 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(contact_next_finds_the_only_set_from_any_start),
        cmocka_unit_test(contact_next_does_not_go_round),
        cmocka_unit_test(contact_next_takes_rounding_for_zero),
        cmocka_unit_test(contact_close_all_closes_every_one),
        cmocka_unit_test(contact_first_seeded_repeats_itself),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
