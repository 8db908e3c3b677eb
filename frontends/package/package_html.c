/* package_html.c - see package_html.h.
 * SPDX-License-Identifier: MIT */
#include "package_html.h"

#include <string.h>

#include "html.h"

/* ---- blocks ---------------------------------------------------------------------------------------------- */

/* What fails stands out from other alerts. */
static const char *page_alert_class(const char *text)
{
    return strncmp(text, "FAILS", 5) == 0 ? "alert fails" : "alert";
}

static void page_put_element(FILE *out, const char *element, const char *class, const char *text)
{
    fprintf(out, class[0] != '\0' ? "<%s class=\"%s\">" : "<%s>", element, class);
    html_text(out, text);
    fprintf(out, "</%s>\n", element);
}

static void page_put_facts(FILE *out, const char *class, const block *b)
{
    fprintf(out, "<dl class=\"%s\">\n", class);
    for (kl_index i = 0; i < b->fact_count; i++) {
        fputs("<div><dt>", out);
        html_text(out, b->facts[i].name);
        fputs("</dt><dd>", out);
        html_text(out, b->facts[i].value);
        fputs("</dd></div>\n", out);
    }
    fputs("</dl>\n", out);
}

static void page_put_picture(FILE *out, const block *b)
{
    fputs("<figure class=\"picture\" data-name=\"", out);
    html_text(out, b->name);
    fputs("\" data-member=\"", out);
    html_text(out, b->subject);
    fputs("\"><div class=\"scroll\" tabindex=\"0\" role=\"group\" aria-label=\"", out);
    html_text(out, b->name);
    fputs("\">\n", out);
    fputs(b->drawing->text, out);
    fputs("</div></figure>\n", out);
}

static void page_put_block(FILE *out, const block *b)
{
    switch (b->kind) {
    case BLOCK_HEADING:
        page_put_element(out, "h3", "", b->text);
        return;
    case BLOCK_PARAGRAPH:
        page_put_element(out, "p", "", b->text);
        return;
    case BLOCK_ALERT:
        page_put_element(out, "p", page_alert_class(b->text), b->text);
        return;
    case BLOCK_FACTS:
        page_put_facts(out, "facts", b);
        return;
    case BLOCK_WORKED:
        page_put_facts(out, "worked", b);
        return;
    case BLOCK_BLANKS:
        page_put_facts(out, "blanks", b);
        return;
    case BLOCK_TABLE:
        html_write_table(out, b->table);
        return;
    case BLOCK_PICTURE:
        page_put_picture(out, b);
        return;
    case BLOCK_LISTING:
        fputs("<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"The model's "
              "text\"><pre class=\"listing\">",
              out);
        html_listing(out, b->text);
        fputs("</pre></div>\n", out);
        return;
    }
}

/* ---- the page -------------------------------------------------------------------------------------------- */

/* Each sheet has a page of its own kind, so that its title stands at the head of every page it takes on paper. */
static void page_put_style(FILE *out, const package *p)
{
    fputs("<style>\n/*<![CDATA[*/\n", out);
    fputs(DRAWING_STYLE, out);
    fputs((const char *)PACKAGE_CSS, out);
    for (kl_index i = 0; i < p->sheet_count; i++) {
        const sheet *s = &p->sheets[i];
        fprintf(out, "#sheet-%s{page:%s}@page %s{@top-left{content:\"%d  %s\"}}\n", s->id, s->id,
                s->id, s->number, s->title);
    }
    fputs("@page{@top-right{content:", out);
    html_css_text(out, p->title);
    fputs("}}\n/*]]>*/\n</style>\n", out);
}

static void page_put_head(FILE *out, const package *p)
{
    fputs("<!DOCTYPE html>\n<html lang=\"en\" dir=\"ltr\">\n<head>\n<meta charset=\"utf-8\"/>\n"
          "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
          "<meta name=\"color-scheme\" content=\"light dark\"/>\n"
          "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
          "style-src 'unsafe-inline'; script-src 'unsafe-inline'\"/>\n<title>",
          out);
    html_text(out, p->title);
    fputs("</title>\n", out);
    page_put_style(out, p);
    fputs("</head>\n", out);
}

static void page_put_contents(FILE *out, const package *p)
{
    fputs("<nav id=\"contents\" aria-label=\"Sheets\">\n<h2>Sheets</h2>\n<ul>\n", out);
    for (kl_index i = 0; i < p->sheet_count; i++) {
        const sheet *s = &p->sheets[i];
        fprintf(out, "<li><a href=\"#sheet-%s\"><span class=\"number\">%d</span> %s</a></li>\n",
                s->id, s->number, s->title);
    }
    fputs("</ul>\n</nav>\n", out);
}

static void page_put_sheet(FILE *out, const sheet *s)
{
    fprintf(out,
            "<section class=\"sheet\" id=\"sheet-%s\" data-number=\"%d\" "
            "aria-labelledby=\"title-%s\">\n"
            "<h2 id=\"title-%s\"><span class=\"number\">%d</span> %s</h2>\n",
            s->id, s->number, s->id, s->id, s->number, s->title);
    for (const block *b = s->first; b; b = b->next) {
        page_put_block(out, b);
    }
    fputs("</section>\n", out);
}

kl_status package_write_html(const package *p, const package_input *input, FILE *out)
{
    KL_TRY(p->status);
    page_put_head(out, p);
    fputs("<body>\n<a class=\"skip\" href=\"#sheets\">To the sheets</a>\n<header "
          "id=\"top\">\n<h1><bdi>",
          out);
    html_text(out, p->title);
    fputs("</bdi></h1>\n<p>Calculation package</p>\n<div id=\"controls\"></div>\n</header>\n", out);
    page_put_contents(out, p);
    fputs("<main id=\"sheets\">\n", out);
    for (kl_index i = 0; i < p->sheet_count; i++) {
        page_put_sheet(out, &p->sheets[i]);
    }
    fputs("</main>\n<footer><p>", out);
    html_text(out, p->caution);
    fputs("</p></footer>\n", out);
    KL_TRY(html_write_data(out, p, input));
    fputs("<script>\n//<![CDATA[\n", out);
    fputs((const char *)PACKAGE_JS, out);
    fputs("\n//]]>\n</script>\n</body>\n</html>\n", out);
    return ferror(out) ? KL_FILE_TROUBLE : KL_OK;
}
