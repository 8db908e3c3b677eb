/* bound_text.c - see bound_text.h.
 * SPDX-License-Identifier: MIT */
#include "bound_text.h"

#include <string.h>

#include "parser.h"

void bound_text_make(bound_text *t, const char *text)
{
    text_document document;
    *t = (bound_text){.status = KL_NO_MEMORY};
    t->diags = kl_diags_create();
    if (t->diags == NULL) {
        return;
    }
    t->status =
        text_parse_text(&t->sources, "test", text, strlen(text), &t->memory, t->diags, &document);
    t->status = bind_after(t->status, &document, t->diags, &t->model);
}

void bound_text_release(bound_text *t)
{
    kl_model_destroy(t->model);
    kl_diags_destroy(t->diags);
    arena_free(&t->memory);
    source_free(&t->sources);
}

void bound_text_show_messages(const bound_text *t)
{
    for (kl_index i = 0; i < kl_diags_count(t->diags); i++) {
        const kl_diag *diag = kl_diags_get(t->diags, i);
        print_error("%s: %s (%s)\n", diag->name, diag->message, diag->hint ? diag->hint : "-");
    }
}

void bound_text_make_well(bound_text *t, const char *text)
{
    bound_text_make(t, text);
    if (t->status != KL_OK) {
        bound_text_show_messages(t);
    }
    assert_int_equal(t->status, KL_OK);
    assert_non_null(t->model);
}

static void binding_gives_the_number(void **state)
{
    const number_case *row = *state;
    bound_text t;
    bound_text_make_well(&t, row->text);
    assert_close(row->get(t.model), row->want, 1e-12, 1e-15);
    bound_text_release(&t);
}

int number_case_run(const char *group, const number_case *rows, int count)
{
    struct CMUnitTest tests[64];
    assert_true(count <= (int)(sizeof tests / sizeof tests[0]));
    for (int i = 0; i < count; i++) {
        /* cmocka hands the row on as a plain pointer; nobody writes through it. */
        void *row = (void *)(uintptr_t)&rows[i];
        tests[i] = (struct CMUnitTest){rows[i].test, binding_gives_the_number, NULL, NULL, row};
    }
    return _cmocka_run_group_tests(group, tests, (size_t)count, NULL, NULL);
}
