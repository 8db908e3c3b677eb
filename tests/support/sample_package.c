/* sample_package.c - see sample_package.h.
 * SPDX-License-Identifier: MIT */
#include "sample_package.h"

#include "label.h"

const char SAMPLE_HOSTILE[] = "</text><script>alert('x')</script>&amp; \"q\" ]]> <!-- \x01\x1B[31m "
                              "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D 12 "
                              "\xE2\x80\xAE"
                              "34 \xF0\x9F\x98\x80 \xE6\x96\x87 \xFF\xC0\xAF \xEF\xBF\xBE end";

void sample_package_table(package *p, int rows, int group, int figures)
{
    static const kl_display display = {.system = KL_UNITS_US};
    table *t = package_table(p);
    if (!t) {
        return;
    }
    table_start(t, "sample", &display);
    table_title(t, "Figures of %d rows", rows);
    table_add_words(t, COLUMN_GROUP, "state", "");
    table_add_words(t, COLUMN_WORD, "name", "name");
    table_add(t, COLUMN_WHOLE, "row", "row", KL_MEASURE_NUMBER, 0);
    for (int c = 1; c <= figures; c++) {
        const char *key = table_say(t, "figure_%d", c);
        const char *heading = table_say(t, "figure\ncolumn %d", c);
        table_add(t, COLUMN_FIGURE, key, heading, KL_MEASURE_NUMBER, 5);
    }
    for (int row = 0; row < rows; row++) {
        table_put_print(t, "group %d", row / group + 1);
        table_put_print(t, "place%d", row);
        table_put(t, row);
        for (int c = 1; c <= figures; c++) {
            table_put(t, row + 0.01 * c);
        }
    }
    table_note(t, "A note below the figures.");
}

static void sample_picture(package *p)
{
    drawing *d = package_picture(p, "sample", "");
    if (!d) {
        return;
    }
    drawing_start(d, 900.0, 320.0, "A square", SAMPLE_HOSTILE);
    drawing_box(d, "outline", 10.0, 10.0, 880.0, 300.0);
    drawing_label(d, "", 300.0, 150.0, 1.0, "in the picture");
    drawing_finish(d);
}

static void sample_facts(package *p)
{
    package_fact(p, BLOCK_FACTS, "model", "sample.kline");
    package_fact(p, BLOCK_FACTS, "units", "%s", "kip, ft");
    package_fact(p, BLOCK_FACTS, "members", "%d", 12);
    package_fact(p, BLOCK_FACTS, "warnings", "%d", 0);
    package_fact(p, BLOCK_FACTS, "steps", "%d", 5);
    package_text(p, BLOCK_HEADING, "Worked");
    package_fact(p, BLOCK_WORKED, "stress at the bottom = P/A + P e y/I + M y/I",
                 "1200/36 + 1200 x 1.5 x 3/108 + 800 x 3/108 = 105.6 ksf");
    package_fact(p, BLOCK_WORKED, "a/b", "%s",
                 "1/2, written with many words so that the value takes more than the one line that "
                 "there is beside "
                 "its formula, and then some more of them = 0.5");
    package_text(p, BLOCK_HEADING, "Made and checked");
    package_fact(p, BLOCK_BLANKS, "made by", "%s", "");
    package_fact(p, BLOCK_BLANKS, "checked by", "%s", "");
    package_fact(p, BLOCK_BLANKS, "date", "%s", "");
}

void sample_package_fill(package *p)
{
    package_start(p, "A bent cap <of> \"three\" columns & more", LABEL_CAUTION);
    package_sheet(p, 0, "cover", "Cover");
    sample_facts(p);
    package_text(p, BLOCK_ALERT, "%s", LABEL_CAUTION);
    package_sheet(p, 1, "texts", "Texts");
    package_text(p, BLOCK_PARAGRAPH, "%s", SAMPLE_HOSTILE);
    package_text(p, BLOCK_ALERT, "A check fails: %s", SAMPLE_HOSTILE);
    package_fact(p, BLOCK_FACTS, SAMPLE_HOSTILE, "%s", SAMPLE_HOSTILE);
    sample_picture(p);
    package_text(p, BLOCK_HEADING, "%s", SAMPLE_HOSTILE);
    package_text(p, BLOCK_LISTING, "title \"a\"\n\tnode A at (0 ft, 0 ft)  # one\n%s\n\nlast\n",
                 SAMPLE_HOSTILE);
    package_sheet(p, 2, "tables", "Tables");
    package_text(p, BLOCK_HEADING, "Figures");
    sample_package_table(p, 130, 20, 4);
    package_sheet(p, 3, "wide", "Wide tables");
    sample_package_table(p, 12, 12, 13);
    sample_package_table(p, 12, 12, 40);
}
