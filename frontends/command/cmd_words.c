/* cmd_words.c - `kernline words`: the model language, told from its grammar table.
 * SPDX-License-Identifier: MIT */
#include "commands.h"

#include <string.h>

#include "words.h"
#include "work.h"

exit_status cmd_words(const options *o)
{
    if (o->operand_count == 0) {
        words_list(stdout);
        return EXIT_ALL_WELL;
    }
    const char *word = o->operands[0];
    if (strcmp(word, "units") == 0) {
        words_units(stdout);
        return EXIT_ALL_WELL;
    }
    if (strcmp(word, "warnings") == 0) {
        size_t count = 0;
        const kl_warning_name *warnings = kl_warning_names(&count);
        words_warnings(stdout, warnings, count);
        return EXIT_ALL_WELL;
    }
    const char *near = NULL;
    if (words_explain(stdout, word, &near)) {
        return EXIT_ALL_WELL;
    }
    if (near != NULL) {
        work_complain("the language has no word `%s`; did you mean `%s`?", word, near);
    } else {
        work_complain("the language has no word `%s`", word);
    }
    return EXIT_WRONG_USE;
}
