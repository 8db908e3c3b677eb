/* sheet.h - the calculation package while it is made: sheets of blocks, in reading order, before anyone knows whether they become
 * a page of HTML (package_html.h) or pages of paper (package_paper.h).
 *
 * Makers put block after block on the last sheet; texts are copied, tables and pictures are made in place and freed with the
 * package. The first failure is kept in `status` and makes every later call do nothing, so that makers need no test after each.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SHEET_H
#define KERNLINE_SHEET_H

#include "arena.h"
#include "drawing.h"
#include "table.h"

typedef enum block_kind {
    BLOCK_HEADING,   /* text */
    BLOCK_PARAGRAPH, /* text */
    BLOCK_ALERT,     /* text: what must be seen first: a failing check, a warning, the caution */
    BLOCK_FACTS,     /* names with values */
    BLOCK_WORKED, /* a calculation written out: names are formulas, values the numbers in them and the result */
    BLOCK_BLANKS,  /* names with room to write beside them by hand */
    BLOCK_TABLE,   /* table */
    BLOCK_PICTURE, /* drawing, finished */
    BLOCK_LISTING  /* text with its own line ends: the model's */
} block_kind;

typedef struct block_fact {
    const char *name;
    const char *value; /* "" in blanks */
} block_fact;

typedef struct block {
    block_kind kind;
    const char *text;
    block_fact *facts;
    kl_index fact_count, fact_room;
    table *table;
    drawing *drawing;
    const char *name, *subject; /* of a picture: "moment", the member's name or "" */
    struct block *next;
} block;

typedef struct sheet {
    int number;        /* as docs/package.md counts them */
    const char *id;    /* static, for links: "moments" */
    const char *title; /* static: "Moment, shear and axial force" */
    block *first, *last;
} sheet;

#define PACKAGE_SHEET_LIMIT 32

typedef struct package {
    const char *title;   /* of the model */
    const char *caution; /* printed at the foot of every page */
    sheet sheets[PACKAGE_SHEET_LIMIT];
    kl_index sheet_count;
    arena memory;
    kl_status status;
} package;

/* Begin; `title` is copied. Every started package is freed with package_free. */
void package_start(package *p, const char *title, const char *caution);
void package_free(package *p);

/* A new sheet behind the others; id and title are static. */
void package_sheet(package *p, int number, const char *id, const char *title);
/* Take the last sheet away again if nothing was put on it: what a model does not have is absent, not empty. */
void package_drop_empty(package *p);

/* HEADING, PARAGRAPH, ALERT, LISTING. */
void package_text(package *p, block_kind kind, const char *format, ...) KL_PRINTF(3, 4);
/* FACTS, WORKED, BLANKS: a pair more on the block put last, or the first of a new one when that is of another kind. */
void package_fact(package *p, block_kind kind, const char *name, const char *format, ...)
    KL_PRINTF(4, 5);
/* An empty table, drawing for a maker to fill, put on the sheet; NULL after a failure. What a picture is called and of which
 * member it is outlives the package. */
table *package_table(package *p);
drawing *package_picture(package *p, const char *name, const char *subject);
/* Take the block put last away again: a table without rows, a picture of nothing. */
void package_drop_block(package *p);

#endif
