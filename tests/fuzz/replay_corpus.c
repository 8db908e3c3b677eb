/* replay_corpus.c - what fuzzing once found, and every model of the project, through all fuzz targets; and staged
 * models drawn from seeds. The same laws as in `make fuzz`, without libFuzzer.
 * SPDX-License-Identifier: MIT */
#include "try_text.h"

#include <glob.h>
#include <stdlib.h>
#include <string.h>

#include "assert_close.h"
#include "random.h"

enum { SEEDS = 120, SEED_BYTES = 300, LARGEST = 1 << 20 };

static const char *const patterns[] = {"tests/fuzz/corpus/*", "models/*/*.kline",
                                       "tests/cli/bad/*.kline", "tests/published/*.kline"};

static void replay_file_keeps_the_laws(void **state)
{
    const char *path = *state;
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    uint8_t *data = malloc(LARGEST);
    assert_non_null(data);
    const size_t size = fread(data, 1, LARGEST, file);
    fclose(file);
    fuzz_parse(data, size);
    fuzz_format(data, size);
    fuzz_bind(data, size);
    fuzz_solve(data, size);
    free(data);
}

static void generated_models_keep_the_laws(void **state)
{
    (void)state;
    uint8_t bytes[SEED_BYTES];
    for (uint64_t seed = 0; seed < SEEDS; ++seed) {
        random_source source = {seed};
        for (size_t i = 0; i < sizeof bytes; ++i) {
            bytes[i] = (uint8_t)random_index(&source, 256);
        }
        fuzz_staged(bytes, sizeof bytes);
    }
}

int main(void)
{
    glob_t found = {0};
    for (size_t i = 0; i < sizeof patterns / sizeof *patterns; ++i) {
        if (glob(patterns[i], i > 0 ? GLOB_APPEND : 0, NULL, &found) != 0) {
            fprintf(stderr, "nothing is like %s here: run this from the project's top\n",
                    patterns[i]);
            return 1;
        }
    }
    struct CMUnitTest *tests = calloc(found.gl_pathc + 1, sizeof *tests);
    if (tests == NULL) {
        return 1;
    }
    for (size_t i = 0; i < found.gl_pathc; ++i) {
        tests[i] = (struct CMUnitTest){.name = found.gl_pathv[i],
                                       .test_func = replay_file_keeps_the_laws,
                                       .initial_state = found.gl_pathv[i]};
    }
    tests[found.gl_pathc] = (struct CMUnitTest){.name = "generated_models_keep_the_laws",
                                                .test_func = generated_models_keep_the_laws};
    const int failed =
        _cmocka_run_group_tests("replay_corpus", tests, found.gl_pathc + 1, NULL, NULL);
    free(tests);
    globfree(&found);
    return failed;
}
