/* test_team.c - jobs of several threads: every part is done once, what one has written the others see; as many members as there
 * are threads to be had.
 * SPDX-License-Identifier: MIT */
#include "team.h"

#include "assert_close.h"
#include "fault.h"

enum { PARTS = 500 };

typedef struct chain_job {
    team *team;
    _Atomic int64_t next;
    _Atomic int64_t ready;
    int64_t value[PARTS];
    int times[PARTS];
} chain_job;

/* Part i needs the parts before it: values are 1, 2, 4 … modulo a prime. */
static void work_chain(void *context, int member)
{
    chain_job *job = context;
    assert_true(member >= 0 && member < TEAM_MOST);
    for (int64_t i = atomic_fetch_add(&job->next, 1); i < PARTS;
         i = atomic_fetch_add(&job->next, 1)) {
        team_wait(job->team, &job->ready, i);
        job->value[i] = i == 0 ? 1 : job->value[i - 1] * 2 % 10007;
        job->times[i]++;
        team_reach(job->team, &job->ready, i + 1);
    }
}

static void check_chain(team *t)
{
    chain_job job = {.team = t};
    team_run(t, work_chain, &job);
    int64_t expected = 1;
    for (int i = 0; i < PARTS; i++) {
        assert_int_equal(job.value[i], expected);
        assert_int_equal(job.times[i], 1);
        expected = expected * 2 % 10007;
    }
}

static void team_run_parts_that_wait_for_each_other_are_all_done_once(void **state)
{
    (void)state;
    for (int members = 2; members <= 5; members++) {
        team t;
        assert_true(team_open(&t, members));
        assert_int_equal(t.helpers, members - 1);
        for (int round = 0; round < 20; round++) {
            check_chain(&t);
        }
        team_close(&t);
    }
}

static void team_open_for_one_opens_nothing(void **state)
{
    (void)state;
    team t;
    assert_false(team_open(&t, 1));
    assert_false(team_open(&t, 0));
    assert_false(team_open(&t, -3));
}

static void team_open_takes_the_threads_it_gets(void **state)
{
    (void)state;
    team t;
    fault_after(0);
    assert_false(team_open(&t, 4));
    assert_true(fault_struck());
    fault_after(2);
    assert_true(team_open(&t, 4));
    fault_after(-1);
    assert_int_equal(t.helpers, 2);
    check_chain(&t);
    team_close(&t);
    assert_true(team_open(&t, TEAM_MOST + 10));
    assert_int_equal(t.helpers, TEAM_MOST - 1);
    check_chain(&t);
    team_close(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(team_run_parts_that_wait_for_each_other_are_all_done_once),
        cmocka_unit_test(team_open_for_one_opens_nothing),
        cmocka_unit_test(team_open_takes_the_threads_it_gets),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
