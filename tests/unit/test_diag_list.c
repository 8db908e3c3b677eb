/* test_diag_list.c - diagnostics keep their order and texts; when memory is short they are still counted.
 * SPDX-License-Identifier: MIT */
#include "kernline/diag.h"

#include <string.h>

#include "assert_close.h"
#include "fault.h"

static void kl_diags_add_entries_keep_order_place_and_text(void **state)
{
    (void)state;
    kl_diags *diags = kl_diags_create();
    const kl_origin place = {2, 40, 44};
    kl_diags_add(diags, KL_WARNING, "row-overloaded", place, "Row at %d ft carries %.0f kip.", 24,
                 52.0);
    kl_diags_add(diags, KL_ERROR, "unknown-word", KL_NOWHERE, "Unknown word `%s`.", "widht");
    kl_diags_hint(diags, "did you mean `%s`?", "width");
    assert_int_equal(kl_diags_count(diags), 2);
    const kl_diag *first = kl_diags_get(diags, 0);
    assert_int_equal(first->severity, KL_WARNING);
    assert_string_equal(first->name, "row-overloaded");
    assert_string_equal(first->message, "Row at 24 ft carries 52 kip.");
    assert_null(first->hint);
    assert_memory_equal(&first->origin, &place, sizeof place);
    const kl_diag *second = kl_diags_get(diags, 1);
    assert_string_equal(second->message, "Unknown word `widht`.");
    assert_string_equal(second->hint, "did you mean `width`?");
    assert_int_equal(second->origin.file, -1);
    assert_false(kl_diags_lost(diags));
    kl_diags_destroy(diags);
}

static void kl_diags_get_lent_entry_stays_while_more_are_added(void **state)
{
    (void)state;
    kl_diags *diags = kl_diags_create();
    kl_diags_add(diags, KL_NOTE, "first", KL_NOWHERE, "the first");
    const kl_diag *first = kl_diags_get(diags, 0);
    for (int i = 0; i < 2000; i++) {
        kl_diags_add(diags, i % 2 == 0 ? KL_ERROR : KL_WARNING, "more", KL_NOWHERE, "number %d", i);
    }
    assert_ptr_equal(kl_diags_get(diags, 0), first);
    assert_string_equal(first->message, "the first");
    assert_string_equal(kl_diags_get(diags, 2000)->message, "number 1999");
    assert_int_equal(kl_diags_count_of(diags, KL_NOTE), 1);
    assert_int_equal(kl_diags_count_of(diags, KL_WARNING), 1000);
    assert_int_equal(kl_diags_count_of(diags, KL_ERROR), 1000);
    kl_diags_destroy(diags);
}

static void kl_diags_of_no_list_or_wrong_index_answer_nothing(void **state)
{
    (void)state;
    kl_diags_add(NULL, KL_ERROR, "nobody", KL_NOWHERE, "nobody hears");
    kl_diags_hint(NULL, "nothing");
    assert_int_equal(kl_diags_count(NULL), 0);
    assert_null(kl_diags_get(NULL, 0));
    assert_int_equal(kl_diags_count_of(NULL, KL_ERROR), 0);
    assert_false(kl_diags_lost(NULL));
    kl_diags_destroy(NULL);
    kl_diags *diags = kl_diags_create();
    kl_diags_hint(diags, "to no entry");
    assert_null(kl_diags_get(diags, 0));
    assert_null(kl_diags_get(diags, -1));
    kl_diags_destroy(diags);
}

static void kl_diags_endless_errors_are_counted_beyond_the_limit(void **state)
{
    (void)state;
    kl_diags *diags = kl_diags_create();
    for (int i = 0; i < 150000; i++) {
        kl_diags_add(diags, KL_ERROR, "again", KL_NOWHERE, "again");
    }
    assert_int_equal(kl_diags_count_of(diags, KL_ERROR), 150000);
    assert_int_equal(kl_diags_count(diags), 100000);
    assert_true(kl_diags_lost(diags));
    kl_diags_destroy(diags);
}

/* Add three entries; from the (k+1)-th on, allocations fail. Has one failed? */
static bool add_with_failure(long k, kl_diags *diags)
{
    fault_after(k);
    kl_diags_add(diags, KL_ERROR, "one", KL_NOWHERE, "message %d", 1);
    kl_diags_hint(diags, "hint %d", 1);
    kl_diags_add(diags, KL_WARNING, "long", KL_NOWHERE, "%05000d", 2);
    kl_diags_hint(diags, "%05000d", 3);
    kl_diags_add(diags, KL_ERROR, "three", KL_NOWHERE, "message %d", 3);
    const bool struck = fault_struck() != 0;
    fault_after(-1);
    return struck;
}

static void kl_diags_add_failing_memory_counts_and_tells(void **state)
{
    (void)state;
    bool failed = true;
    for (long k = 0; failed; k++) {
        assert_true(k < 100);
        kl_diags *diags = kl_diags_create();
        assert_non_null(diags);
        failed = add_with_failure(k, diags);
        assert_int_equal(kl_diags_count_of(diags, KL_ERROR), 2);
        assert_int_equal(kl_diags_count_of(diags, KL_WARNING), 1);
        assert_int_equal(kl_diags_lost(diags), failed);
        for (kl_index i = 0; i < kl_diags_count(diags); i++) {
            assert_non_null(kl_diags_get(diags, i)->message);
            assert_true(strlen(kl_diags_get(diags, i)->message) > 0);
        }
        if (!failed) {
            assert_int_equal(kl_diags_count(diags), 3);
        }
        kl_diags_destroy(diags);
    }
    fault_after(0);
    const kl_diags *none = kl_diags_create();
    fault_after(-1);
    assert_null(none);
}

static void kl_diags_hint_after_a_lost_entry_goes_to_no_other(void **state)
{
    (void)state;
    kl_diags *diags = kl_diags_create();
    kl_index kept = 0;
    fault_after(3); /* enough for some entries, not for all */
    do {
        kept = kl_diags_count(diags);
        kl_diags_add(diags, KL_ERROR, "perhaps", KL_NOWHERE, "perhaps");
    } while (kl_diags_count(diags) > kept);
    kl_diags_hint(diags, "for the lost one");
    fault_after(-1);
    assert_true(kept > 0);
    assert_true(kl_diags_lost(diags));
    assert_null(kl_diags_get(diags, kept - 1)->hint);
    kl_diags_destroy(diags);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(kl_diags_add_entries_keep_order_place_and_text),
        cmocka_unit_test(kl_diags_get_lent_entry_stays_while_more_are_added),
        cmocka_unit_test(kl_diags_of_no_list_or_wrong_index_answer_nothing),
        cmocka_unit_test(kl_diags_endless_errors_are_counted_beyond_the_limit),
        cmocka_unit_test(kl_diags_add_failing_memory_counts_and_tells),
        cmocka_unit_test(kl_diags_hint_after_a_lost_entry_goes_to_no_other),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
