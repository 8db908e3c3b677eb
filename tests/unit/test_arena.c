/* test_arena.c - pieces are zeroed, aligned and apart; texts are whole; failures leave nothing behind.
 * SPDX-License-Identifier: MIT */
#include "arena.h"

#include <string.h>

#include "assert_close.h"
#include "fault.h"
#include "random.h"

static void arena_array_many_pieces_are_zeroed_aligned_and_apart(void **state)
{
    (void)state;
    enum { PIECES = 3000 };
    static unsigned char *piece[PIECES];
    static size_t size[PIECES];
    random_source source = {7};
    arena a = {0};
    for (int i = 0; i < PIECES; i++) {
        size[i] = (size_t)random_index(&source, i % 100 == 0 ? 20000 : 60);
        piece[i] = arena_array(&a, size[i], 1);
        assert_non_null(piece[i]);
        assert_int_equal((uintptr_t)piece[i] % _Alignof(max_align_t), 0);
        for (size_t j = 0; j < size[i]; j++) {
            assert_int_equal(piece[i][j], 0);
        }
        memset(piece[i], i % 251 + 1, size[i]);
    }
    for (int i = 0; i < PIECES; i++) {
        for (size_t j = 0; j < size[i]; j++) {
            assert_int_equal(piece[i][j], i % 251 + 1);
        }
    }
    arena_free(&a);
}

static void arena_array_overflowing_count_is_refused(void **state)
{
    (void)state;
    arena a = {0};
    assert_null(arena_array(&a, SIZE_MAX, 1));
    assert_null(arena_array(&a, SIZE_MAX / 8, 16));
    assert_null(arena_array(&a, 1, 0));
    assert_null(arena_text(&a, "", SIZE_MAX));
    arena_free(&a);
}

static void arena_free_used_arena_can_be_used_again(void **state)
{
    (void)state;
    arena a = {0};
    assert_non_null(arena_array(&a, 100, 8));
    assert_true(a.bytes >= 800);
    arena_free(&a);
    assert_int_equal(a.bytes, 0);
    assert_string_equal(arena_text(&a, "again", 5), "again");
    arena_free(&a);
}

static void arena_text_part_of_a_text_is_copied_and_ended(void **state)
{
    (void)state;
    arena a = {0};
    char source[] = "kip-ft per day";
    const char *copy = arena_text(&a, source, 6);
    const char *empty = arena_text(&a, NULL, 0);
    source[0] = 'x';
    assert_string_equal(copy, "kip-ft");
    assert_string_equal(empty, "");
    arena_free(&a);
}

static void arena_copy_items_keep_their_values(void **state)
{
    (void)state;
    arena a = {0};
    const int items[4] = {3, 1, 4, 1};
    const int *copy = arena_copy(&a, items, 4, sizeof items[0]);
    assert_memory_equal(copy, items, sizeof items);
    assert_non_null(arena_copy(&a, NULL, 0, 8));
    arena_free(&a);
}

static void arena_print_long_text_is_whole(void **state)
{
    (void)state;
    arena a = {0};
    const char *text = arena_print(&a, "%s at %d %c%05000d", "row", 24, '|', 7);
    assert_non_null(text);
    assert_int_equal(strlen(text), 11 + 5000);
    assert_memory_equal(text, "row at 24 |000", 14);
    assert_int_equal(text[5010], '7');
    arena_free(&a);
}

static void arena_failing_allocation_gives_null_and_keeps_the_rest(void **state)
{
    (void)state;
    arena a = {0};
    const char *kept = arena_text(&a, "kept", 4);
    fault_after(0);
    const void *array = arena_array(&a, 10000, 1000);
    const void *print = arena_print(&a, "%0100000d", 1);
    fault_after(-1);
    assert_null(array);
    assert_null(print);
    assert_string_equal(kept, "kept");
    assert_non_null(arena_array(&a, 10000, 1000));
    arena_free(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(arena_array_many_pieces_are_zeroed_aligned_and_apart),
        cmocka_unit_test(arena_array_overflowing_count_is_refused),
        cmocka_unit_test(arena_free_used_arena_can_be_used_again),
        cmocka_unit_test(arena_text_part_of_a_text_is_copied_and_ended),
        cmocka_unit_test(arena_copy_items_keep_their_values),
        cmocka_unit_test(arena_print_long_text_is_whole),
        cmocka_unit_test(arena_failing_allocation_gives_null_and_keeps_the_rest),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
