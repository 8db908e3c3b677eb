/* test_csv.c - CSV after RFC 4180, read back by a reader written here from that document's grammar.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <stdlib.h>
#include <string.h>

#include "csv.h"
#include "sample_table.h"

/* Read one field into `room`; gives the text after the field's comma or line end. */
static const char *read_field(const char *at, char room[64])
{
    size_t n = 0;
    if (*at == '"') {
        for (++at; *at != '\0' && (at[0] != '"' || at[1] == '"'); ++at) {
            at += *at == '"'; /* a doubled quote is one */
            room[n++] = *at;
        }
        assert_true(*at == '"');
        ++at;
    } else {
        while (*at != '\0' && strchr(",\r\n\"", *at) == NULL) {
            room[n++] = *at++;
        }
    }
    room[n] = '\0';
    assert_true(n < 63);
    if (*at == ',') {
        return at + 1;
    }
    assert_memory_equal(at, "\r\n", 2);
    return at + 2;
}

static void csv_write_sample_reads_back(void **state)
{
    (void)state;
    static const char *const wanted[5][7] = {
        {"state", "station (ft)", "place", "moment_total (kip-ft)", "count", "fine", "detail"},
        {"after pour", "0", "L, \"left\"", "-1e-10", "3", "yes", "x"},
        {"after pour", "4.5", "", "1234.567", "12", "no", "x"},
        {"after release", "12", "Stütze", "-99.75", "1", "yes", "x"},
        {"after release", "96", "R", "", "", "no", "x"}};
    table t;
    sample_table_fill(&t);
    char *text = sample_table_written(&t, csv_write);
    table_free(&t);
    assert_non_null(text);
    const char *at = text;
    for (int line = 0; line < 5; ++line) {
        for (int field = 0; field < 7; ++field) {
            char room[64];
            at = read_field(at, room);
            const bool is_figure =
                line > 0 && (field == 1 || field == 3) && wanted[line][field][0] != '\0';
            if (is_figure) { /* a unit's factor may leave the last of 17 digits off */
                assert_close(strtod(room, NULL), strtod(wanted[line][field], NULL), 1e-15, 0.0);
            } else {
                assert_string_equal(room, wanted[line][field]);
            }
        }
    }
    assert_true(*at == '\0');
    free(text);
}

static void csv_write_failed_table_writes_nothing(void **state)
{
    (void)state;
    table t;
    sample_table_fill(&t);
    t.status = KL_NO_MEMORY;
    assert_null(sample_table_written(&t, csv_write));
    table_free(&t);
}

/* /dev/full answers every write with "no space left". */
static void csv_write_full_disk_is_file_trouble(void **state)
{
    (void)state;
    FILE *out = fopen("/dev/full", "w");
    if (out == NULL) {
        skip();
    }
    setvbuf(out, NULL, _IONBF, 0);
    table t;
    sample_table_fill(&t);
    assert_int_equal(csv_write(&t, out), KL_FILE_TROUBLE);
    table_free(&t);
    fclose(out);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(csv_write_sample_reads_back),
        cmocka_unit_test(csv_write_failed_table_writes_nothing),
        cmocka_unit_test(csv_write_full_disk_is_file_trouble),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
