/* test_package_paper.c - the package on paper: everything stands on some page, once and whole, within the margins.
 * The pages are read by an XML parser of others (expat); the sizes of paper are those of ANSI letter and ISO 216 A4.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "fault.h"
#include "label.h"
#include "package_paper.h"
#include "page_texts.h"
#include "paper_text.h"
#include "random.h"
#include "sample_package.h"

/* A package on paper, and its pages read. */
typedef struct sample {
    package package;
    paper paper;
    page_texts *pages;
} sample;

static void sample_start(sample *s)
{
    *s = (sample){0};
    package_start(&s->package, "sample", LABEL_CAUTION);
    package_sheet(&s->package, 1, "one", "The one sheet");
}

static void sample_lay(sample *s, paper_format format)
{
    assert_int_equal(s->package.status, KL_OK);
    assert_int_equal(package_paper(&s->paper, &s->package, format), KL_OK);
    s->pages = calloc((size_t)s->paper.count, sizeof *s->pages);
    assert_non_null(s->pages);
    for (kl_index i = 0; i < s->paper.count; i++) {
        s->pages[i] = page_texts_of(s->paper.pages[i].svg);
    }
}

static void sample_free(sample *s)
{
    for (kl_index i = 0; i < s->paper.count; i++) {
        page_texts_free(&s->pages[i]);
    }
    free(s->pages);
    paper_free(&s->paper);
    package_free(&s->package);
}

/* On all pages; *page is that of the last one. */
static size_t sample_count(const sample *s, const char *text, kl_index *page)
{
    size_t count = 0;
    for (kl_index i = 0; i < s->paper.count; i++) {
        const size_t here = page_texts_count(&s->pages[i], text);
        count += here;
        if (here > 0 && page) {
            *page = i;
        }
    }
    return count;
}

static kl_index sample_page(const sample *s, const char *text)
{
    kl_index page = -1;
    if (sample_count(s, text, &page) != 1) {
        fail_msg("`%s` stands %zu times", text, sample_count(s, text, NULL));
    }
    return page;
}

/* ---- everything is there ------------------------------------------------------------------------------ */

static void every_kind_of_block_stands_on_paper(void **state)
{
    (void)state;
    sample s = {0};
    sample_package_fill(&s.package);
    sample_lay(&s, PAPER_LETTER);
    static const char *const texts[] = {"made by",
                                        "checked by",
                                        "sample.kline",
                                        "Worked",
                                        "a/b",
                                        "Figures",
                                        "A note below the figures.",
                                        "last"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        assert_true(sample_count(&s, texts[i], NULL) >= 1);
    }
    size_t pictures = 0;
    for (kl_index i = 0; i < s.paper.count; i++) {
        pictures += s.pages[i].pictures;
    }
    assert_int_equal(pictures, 1);
    /* In a listing spaces count and tabs go to the next eighth column. */
    kl_index page = -1;
    assert_int_equal(sample_count(&s, "        node A at (0 ft, 0 ft)  # one", &page), 1);
    assert_true(page_texts_find(&s.pages[page], "        node A at (0 ft, 0 ft)  # one")->mono);
    sample_free(&s);
}

static void the_contents_tell_where_each_sheet_begins(void **state)
{
    (void)state;
    sample s = {0};
    sample_package_fill(&s.package);
    sample_lay(&s, PAPER_LETTER);
    kl_index contents = -1;
    assert_int_equal(sample_count(&s, "Contents", &contents), 1);
    for (kl_index i = 0; i < s.package.sheet_count; i++) {
        const char *title = s.package.sheets[i].title;
        kl_index begins = 0; /* where the title stands large */
        while (!page_texts_find(&s.pages[begins], title) ||
               page_texts_find(&s.pages[begins], title)->size < 16.0) {
            begins++;
        }
        char outline[100];
        snprintf(outline, sizeof outline, "%d %s", s.package.sheets[i].number, title);
        assert_string_equal(s.paper.pages[begins].outline, outline);
        bool told = false; /* its page, on the line of its title in the contents */
        char number[20];
        snprintf(number, sizeof number, "%d", (int)begins + 1);
        const page_texts *p = &s.pages[contents];
        for (size_t k = 0; k < p->count; k++) {
            for (size_t n = 0; n < p->count && strcmp(p->texts[k].text, title) == 0; n++) {
                told = told || (p->texts[n].anchor == 'e' && p->texts[n].x > 700.0 &&
                                fabs(p->texts[n].y - p->texts[k].y) < 0.01 &&
                                strcmp(p->texts[n].text, number) == 0);
            }
        }
        assert_true(told);
    }
    sample_free(&s);
}

static void every_page_tells_its_number_its_model_and_the_caution(void **state)
{
    (void)state;
    sample s = {0};
    sample_package_fill(&s.package);
    sample_lay(&s, PAPER_A4);
    for (kl_index i = 0; i < s.paper.count; i++) {
        char text[60];
        snprintf(text, sizeof text, "page %d of %d", (int)i + 1, (int)s.paper.count);
        assert_int_equal(page_texts_count(&s.pages[i], text), 1);
        assert_int_equal(page_texts_count(&s.pages[i], s.package.title), 1);
        char caution[1000] = "";
        for (size_t k = 0; k < s.pages[i].count; k++) {
            if (s.pages[i].texts[k].y > s.pages[i].height - 70.0 &&
                s.pages[i].texts[k].anchor == 's') {
                strcat(strcat(caution, caution[0] != '\0' ? " " : ""), s.pages[i].texts[k].text);
            }
        }
        assert_string_equal(caution, LABEL_CAUTION);
    }
    sample_free(&s);
}

static void each_figure_of_a_table_stands_once_under_a_head(void **state)
{
    (void)state;
    sample s;
    sample_start(&s);
    sample_package_table(&s.package, 130, 20, 4);
    sample_lay(&s, PAPER_LETTER);
    for (int row = 0; row < 130; row++) {
        char text[40];
        snprintf(text, sizeof text, "place%d", row);
        const kl_index page = sample_page(&s, text);
        const double y = page_texts_find(&s.pages[page], text)->y;
        assert_true(page_texts_find(&s.pages[page], "column 4")->y < y);
        for (int c = 1; c <= 4; c++) {
            snprintf(text, sizeof text, "%d.%02d", row, c);
            assert_int_equal(sample_page(&s, text), page);
            assert_close(page_texts_find(&s.pages[page], text)->y, y, 0.0, 0.01);
        }
    }
    size_t titles = sample_count(&s, "Figures of 130 rows", NULL);
    assert_int_equal(titles, 1);
    titles = sample_count(&s, "Figures of 130 rows, continued", NULL);
    assert_int_equal(titles, sample_page(&s, "A note below the figures.") -
                                 sample_page(&s, "Figures of 130 rows"));
    assert_true(titles > 0);
    sample_free(&s);
}

/* Read down a panel, then down the next, then on the next page: rows come one after another, and panels keep apart. */
static void a_long_narrow_table_stands_in_panels_in_reading_order(void **state)
{
    (void)state;
    enum { ROWS = 400 };
    sample s;
    sample_start(&s);
    sample_package_table(&s.package, ROWS, 25, 1);
    sample_lay(&s, PAPER_LETTER);
    kl_index page = 0;
    const page_text *before = NULL;
    size_t panels = 1;
    double right = 0.0; /* of the figures of a panel */
    for (int row = 0; row < ROWS; row++) {
        char text[40];
        snprintf(text, sizeof text, "place%d", row);
        const kl_index on = sample_page(&s, text);
        const page_text *name = page_texts_find(&s.pages[on], text);
        snprintf(text, sizeof text, "%d.01", row);
        const page_text *figure = page_texts_find(&s.pages[on], text);
        assert_non_null(figure);
        assert_close(figure->y, name->y, 0.0, 0.01);
        assert_true(figure->anchor == 'e' && figure->x > name->x);
        const bool same_panel = before && on == page && fabs(name->x - before->x) < 0.01;
        if (before && !same_panel) {
            assert_true(on == page + 1 || (on == page && name->x > right && name->y < before->y));
            panels++;
        }
        assert_true(!same_panel || name->y > before->y + 10.0);
        before = name;
        page = on;
        right = figure->x;
    }
    assert_int_equal(sample_count(&s, "name", NULL), panels);
    assert_true(panels > (size_t)s.paper.count);
    sample_free(&s);
}

static void what_fails_is_bold(void **state)
{
    (void)state;
    static const kl_display display = {.system = KL_UNITS_SI};
    sample s;
    sample_start(&s);
    table *t = package_table(&s.package);
    table_start(t, "verdicts", &display);
    table_add_words(t, COLUMN_WORD, "check", "check");
    table_add_words(t, COLUMN_WORD, "verdict", "verdict");
    table_put_text(t, "one");
    table_put_text(t, "passes");
    table_put_text(t, "two");
    table_put_text(t, "FAILS");
    sample_lay(&s, PAPER_LETTER);
    assert_false(page_texts_find(&s.pages[sample_page(&s, "one")], "one")->strong);
    assert_true(page_texts_find(&s.pages[sample_page(&s, "two")], "two")->strong);
    sample_free(&s);
}

/* ---- sizes -------------------------------------------------------------------------------------------- */

static void nothing_stands_outside_the_margins(const page_texts *p)
{
    for (size_t i = 0; i < p->count; i++) {
        const page_text *t = &p->texts[i];
        const paper_letters letters = {t->strong ? "strong" : "", t->size, t->mono};
        const double width = paper_width(&letters, t->text);
        const double left = t->x - (t->anchor == 'e'   ? width
                                    : t->anchor == 'm' ? 0.5 * width
                                                       : 0.0);
        assert_true(left >= 59.9);
        if (left + width > p->width - 59.9) {
            fail_msg("beyond the margin: `%s`", t->text);
        }
        assert_true(t->y >= 40.0 && t->y <= p->height - 35.0);
    }
    assert_true(p->right <= p->width - 59.9);
    assert_true(p->bottom <= p->height - 35.0);
}

static void pages_are_of_the_format_and_keep_their_margins(void **state)
{
    (void)state;
    static const double sizes[2][2] = {{8.5 * 96.0, 11.0 * 96.0},
                                       {210.0 / 25.4 * 96.0, 297.0 / 25.4 * 96.0}};
    for (int format = 0; format < 2; format++) {
        sample s = {0};
        sample_package_fill(&s.package);
        sample_lay(&s, (paper_format)format);
        bool lies = false;
        for (kl_index i = 0; i < s.paper.count; i++) {
            const page_texts *p = &s.pages[i];
            lies = lies || p->width > p->height;
            assert_close(fmin(p->width, p->height), sizes[format][0], 0.0, 0.6);
            assert_close(fmax(p->width, p->height), sizes[format][1], 0.0, 0.6);
            nothing_stands_outside_the_margins(p);
        }
        assert_true(lies);
        sample_free(&s);
    }
}

static void a_table_too_wide_for_any_page_is_cut_and_says_its_rows_again(void **state)
{
    (void)state;
    sample s;
    sample_start(&s);
    sample_package_table(&s.package, 120, 120, 40);
    sample_lay(&s, PAPER_LETTER);
    size_t parts = 0;
    for (char text[60]; parts < 20; parts++) {
        snprintf(text, sizeof text, "Figures of 120 rows, part %zu of", parts + 1);
        bool found = false;
        for (kl_index i = 0; i < s.paper.count; i++) {
            for (size_t k = 0; k < s.pages[i].count; k++) {
                found = found || strncmp(s.pages[i].texts[k].text, text, strlen(text)) == 0;
            }
        }
        if (!found) {
            break;
        }
    }
    assert_true(parts >= 2);
    for (int row = 0; row < 120; row++) {
        char text[40];
        snprintf(text, sizeof text, "place%d", row);
        assert_int_equal(sample_count(&s, text, NULL), parts);
        for (int c = 1; c <= 40; c++) {
            snprintf(text, sizeof text, "%d.%02d", row, c);
            kl_index page = -1;
            assert_int_equal(sample_count(&s, text, &page), 1);
            assert_true(page_texts_find(&s.pages[page], text)->size >=
                        7.0 * 96.0 / 72.0 - 0.01); /* 7 points */
            char heading[40];
            snprintf(heading, sizeof heading, "column %d", c);
            assert_true(page_texts_count(&s.pages[page], heading) >= 1);
        }
    }
    sample_free(&s);
}

/* ---- where pages end ---------------------------------------------------------------------------------- */

static void put_after_heading(package *p, int what)
{
    if (what == 0) {
        package_text(p, BLOCK_PARAGRAPH, "what follows");
    } else if (what == 1 || what == 2) {
        sample_package_table(p, 101, 101, what == 1 ? 3 : 13); /* upright; lying */
    } else if (what == 3) {
        package_fact(p, BLOCK_FACTS, "what follows", "%s", "is this");
    } else {
        package_text(p, BLOCK_ALERT, "what follows");
    }
}

static void a_heading_is_never_alone_at_the_foot_of_a_page(void **state)
{
    (void)state;
    static const char *const next[] = {"what follows", "place0", "place0", "what follows",
                                       "what follows"};
    for (int what = 0; what < 5; what++) {
        for (int before = 30; before < 48; before++) { /* lines; the page ends among them */
            sample s;
            sample_start(&s);
            for (int i = 0; i < before; i++) {
                package_text(&s.package, BLOCK_PARAGRAPH, "line %d", i);
            }
            package_text(&s.package, BLOCK_HEADING, "The heading");
            put_after_heading(&s.package, what);
            sample_lay(&s, PAPER_LETTER);
            const int page = sample_page(&s, "The heading");
            assert_int_equal(page, sample_page(&s, next[what]));
            assert_int_equal(s.pages[page].width > s.pages[page].height, what == 2);
            sample_free(&s);
        }
    }
}

/* However many lines stand above it, a picture is whole and within the margins; where it would just miss the page it is smaller, but
 * not by more than a sixth. */
static void a_picture_that_just_misses_a_page_stands_on_it(void **state)
{
    (void)state;
    double least = HUGE_VAL;
    double most = 0.0;
    for (int before = 10; before < 40; before++) {
        sample s;
        sample_start(&s);
        for (int i = 0; i < before; i++) {
            package_text(&s.package, BLOCK_PARAGRAPH, "l. %d", i);
        }
        drawing *d = package_picture(&s.package, "box", "");
        assert_non_null(d);
        drawing_start(d, 900.0, 380.0, "A box", "");
        drawing_box(d, "outline", 0.0, 0.0, 900.0, 380.0);
        assert_non_null(drawing_finish(d));
        sample_lay(&s, PAPER_LETTER);
        const page_texts *p = &s.pages[s.paper.count - 1];
        nothing_stands_outside_the_margins(p);
        assert_int_equal(p->pictures, 1);
        const char *box = strstr(s.paper.pages[s.paper.count - 1].svg, "<svg class=\"drawing\"");
        assert_non_null(box);
        const double width = strtod(strstr(box, " width=\"") + 8, NULL);
        least = fmin(least, width);
        most = fmax(most, width);
        sample_free(&s);
    }
    assert_close(most, 8.5 * 96.0 - 2.0 * 60.0, 0.0, 0.6); /* between the margins */
    assert_true(least < 0.98 * most && least > 0.84 * most);
}

static void each_form_has_a_page_of_its_own(void **state)
{
    (void)state;
    sample s;
    sample_start(&s);
    package_text(&s.package, BLOCK_ALERT, "first look");
    for (int i = 0; i < 3; i++) {
        package_text(&s.package, BLOCK_HEADING, "form %d", i);
        package_fact(&s.package, BLOCK_FACTS, "fact", "of %d", i);
        package_fact(&s.package, BLOCK_BLANKS, "read", "%s", "");
    }
    sample_lay(&s, PAPER_LETTER);
    for (int i = 0; i < 3; i++) {
        char text[20];
        snprintf(text, sizeof text, "form %d", i);
        assert_int_equal(sample_page(&s, text), i + 1); /* behind the contents */
        snprintf(text, sizeof text, "of %d", i);
        assert_int_equal(sample_page(&s, text), i + 1);
    }
    assert_int_equal(s.paper.count, 4);
    sample_free(&s);
}

static void a_row_taller_than_a_page_goes_on_and_loses_no_letter(void **state)
{
    (void)state;
    static const kl_display display = {.system = KL_UNITS_SI};
    enum { LETTERS = 20000 };
    char *tall = calloc(LETTERS + 1, 1);
    assert_non_null(tall);
    memset(tall, 'o', LETTERS);
    sample s;
    sample_start(&s);
    table *t = package_table(&s.package);
    table_start(t, "tall", &display);
    table_add_words(t, COLUMN_WORD, "name", "name");
    table_put_text(t, tall);
    package_fact(&s.package, BLOCK_FACTS, "fact", "%s", tall);
    package_text(&s.package, BLOCK_ALERT, "%s", tall);
    sample_lay(&s, PAPER_LETTER);
    size_t letters = 0;
    for (kl_index i = 0; i < s.paper.count; i++) {
        nothing_stands_outside_the_margins(&s.pages[i]);
        for (size_t k = 0; k < s.pages[i].count; k++) {
            const char *text = s.pages[i].texts[k].text;
            letters += strspn(text, "o") == strlen(text) ? strlen(text) : 0;
        }
    }
    assert_int_equal(letters, 3 * LETTERS);
    free(tall);
    sample_free(&s);
}

/* ---- what is too much --------------------------------------------------------------------------------- */

static char *many_lines(size_t lines)
{
    char *text = malloc(2 * lines + 1);
    assert_non_null(text);
    for (size_t i = 0; i < lines; i++) {
        memcpy(text + 2 * i, "x\n", 2);
    }
    text[2 * lines] = '\0';
    return text;
}

static void a_million_lines_are_cut_and_it_is_said(void **state)
{
    (void)state;
    char *text = many_lines(1000000);
    sample s;
    sample_start(&s);
    package_text(&s.package, BLOCK_LISTING, "%s", text);
    sample_lay(&s, PAPER_LETTER);
    assert_int_equal(sample_count(&s, "x", NULL), PAPER_ROW_LIMIT);
    sample_page(&s, "The first 20000 lines; the others are left out here.");
    free(text);
    sample_free(&s);
}

static void rows_beyond_the_limit_are_counted(void **state)
{
    (void)state;
    sample s;
    sample_start(&s);
    sample_package_table(&s.package, PAPER_ROW_LIMIT + 500, 1000, 1);
    sample_lay(&s, PAPER_LETTER);
    sample_page(&s, "The first 20000 of 20500 rows; the others are left out here.");
    sample_page(&s, "place19999");
    assert_int_equal(sample_count(&s, "place20000", NULL), 0);
    sample_free(&s);
}

static void too_many_pages_are_refused(void **state)
{
    (void)state;
    char *text = many_lines(PAPER_ROW_LIMIT);
    sample s;
    sample_start(&s);
    for (int i = 0; i < 12; i++) {
        package_text(&s.package, BLOCK_LISTING, "%s", text);
    }
    assert_int_equal(package_paper(&s.paper, &s.package, PAPER_LETTER), KL_TOO_LARGE);
    free(text);
    sample_free(&s);
}

static void a_package_that_failed_is_not_laid_out(void **state)
{
    (void)state;
    sample s;
    sample_start(&s);
    s.package.status = KL_NO_MEMORY;
    assert_int_equal(package_paper(&s.paper, &s.package, PAPER_LETTER), KL_NO_MEMORY);
    sample_free(&s);
}

static void paper_that_runs_out_of_memory_says_so_and_frees_all(void **state)
{
    (void)state;
    package p;
    sample_package_fill(&p);
    assert_int_equal(p.status, KL_OK);
    kl_status status = KL_NO_MEMORY;
    long k = 0;
    for (; status != KL_OK; k++) {
        paper made = {0};
        fault_after(k);
        status = package_paper(&made, &p, PAPER_A4);
        const int struck = fault_struck();
        fault_after(-1);
        assert_true(status == KL_OK ? !struck : status == KL_NO_MEMORY);
        paper_free(&made);
    }
    assert_true(k > 50); /* a few growing texts a page */
    package_free(&p);
}

/* ---- lines -------------------------------------------------------------------------------------------- */

/* Texts of random letters and spaces, in lines of random width: the lines hold every letter in its order, and none is too wide
 * unless it is a letter alone. */
static void lines_hold_every_letter_and_keep_their_width(void **state)
{
    (void)state;
    static const char *const letters[] = {
        "i", "m", " ", "  ", "W", "\xC3\xA9", "\n", "0", "\xF0\x9F\x98\x80"};
    random_source source = {5};
    for (int trial = 0; trial < 300; trial++) {
        char text[400] = "";
        for (int i = 0; i < 60; i++) {
            strcat(text, letters[(int)random_between(&source, 0.0, 8.999)]);
        }
        const paper_letters look = {trial % 2 ? "strong" : "", 10.0, trial % 3 == 0};
        const double width = random_between(&source, 5.0, 200.0);
        const char *at = text; /* the next letter to be found */
        char line[PAPER_LINE_SIZE];
        int lines = 0;
        for (const char *rest = text; rest;) {
            rest = paper_break(&look, rest, width, line);
            lines++;
            size_t end = strlen(line);
            while (end > 0 && line[end - 1] == ' ') {
                line[--end] = '\0';
            }
            const bool alone = strspn(line, "iWm0 ") == end ? end <= 1 : true;
            assert_true(alone || paper_width(&look, line) <= width);
            for (const char *c = line; *c != '\0'; c++) {
                at += *c == ' ' ? 0 : strspn(at, " \n");
                assert_true(*c == ' ' || *at++ == *c);
            }
        }
        assert_int_equal(strspn(at, " \n"), strlen(at));
        assert_int_equal(lines, paper_line_count(&look, text, width));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_kind_of_block_stands_on_paper),
        cmocka_unit_test(the_contents_tell_where_each_sheet_begins),
        cmocka_unit_test(every_page_tells_its_number_its_model_and_the_caution),
        cmocka_unit_test(each_figure_of_a_table_stands_once_under_a_head),
        cmocka_unit_test(a_long_narrow_table_stands_in_panels_in_reading_order),
        cmocka_unit_test(what_fails_is_bold),
        cmocka_unit_test(pages_are_of_the_format_and_keep_their_margins),
        cmocka_unit_test(a_table_too_wide_for_any_page_is_cut_and_says_its_rows_again),
        cmocka_unit_test(a_heading_is_never_alone_at_the_foot_of_a_page),
        cmocka_unit_test(a_picture_that_just_misses_a_page_stands_on_it),
        cmocka_unit_test(each_form_has_a_page_of_its_own),
        cmocka_unit_test(a_row_taller_than_a_page_goes_on_and_loses_no_letter),
        cmocka_unit_test(a_million_lines_are_cut_and_it_is_said),
        cmocka_unit_test(rows_beyond_the_limit_are_counted),
        cmocka_unit_test(too_many_pages_are_refused),
        cmocka_unit_test(a_package_that_failed_is_not_laid_out),
        cmocka_unit_test(paper_that_runs_out_of_memory_says_so_and_frees_all),
        cmocka_unit_test(lines_hold_every_letter_and_keep_their_width),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
