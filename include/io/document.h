/* A report as blocks: written once, read twice, as text and as pages.
 *
 * Who makes a report puts blocks one after another and says nothing of lines, columns or pages. As text it
 * has 80 columns of UTF-8; as pages a running head, page n of m, and table headings on every page that a
 * table goes on to.
 */
#ifndef SB_IO_DOCUMENT_H
#define SB_IO_DOCUMENT_H

#include "base/err.h"
#include "base/str.h"

#include <stdbool.h>
#include <stdint.h>

#define SB_DOCUMENT_COLUMNS 80 /* of the text */
#define SB_DOCUMENT_TABLE 12   /* columns of a table, at most */

enum block_kind {
	BLOCK_HEADING,	  /* texts: one */
	BLOCK_SUBHEADING, /* likewise */
	BLOCK_PARAGRAPH,  /* likewise */
	BLOCK_PAIRS,	  /* texts: key, value, key, value ... */
	BLOCK_TABLE,	  /* texts: cells row by row */
	BLOCK_SIGNATURES, /* texts: who signs, each as a role or a name */
	BLOCK_PAGE,	  /* what follows begins a page; no texts */
};

enum table_kind {
	TABLE_WORDS,   /* against the left, in as many lines as it takes */
	TABLE_FIGURES, /* against the right, in one line */
};

struct table_column {
	const char *head; /* a literal; its words may stand one below the other */
	enum table_kind kind;
};

struct block {
	enum block_kind kind;
	char **texts;
	size_t count, room;
	const struct table_column *columns; /* of a table: borrowed, static */
	size_t column_count;
};

/* What a document says of itself. NULL counts as "". */
struct document_head {
	const char *title;
	const char *running; /* at the head of every page: whose report it is */
	const char *mark;    /* beside it on every page, and under the title: REHEARSAL; "" none */
	const char *author;  /* who hands it over */
	const char *program; /* that made it */
	int64_t at_ms;	     /* when, UTC */
	bool letter;	     /* pages of 215.9 by 279.4 mm; else A4 */
};

struct document {
	struct document_head head; /* its texts are the document's own */
	struct block *blocks;
	size_t count, room;
};

/* Texts are copied, and tamed (sb_utf8_tame). sb_document_clear when done. */
void sb_document_begin(struct document *d, const struct document_head *head);
void sb_document_clear(struct document *d);

void sb_document_heading(struct document *d, const char *format, ...) __attribute__((format(printf, 2, 3)));
void sb_document_subheading(struct document *d, const char *format, ...)
	__attribute__((format(printf, 2, 3)));
void sb_document_paragraph(struct document *d, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* One more pair of the list at the end; begins a list where there is none. A value of "" is not put. key: a
 * few words. */
void sb_document_pair(struct document *d, const char *key, const char *format, ...)
	__attribute__((format(printf, 3, 4)));
/* Begins a table; then its cells, row by row. A table without a row is not shown. */
void sb_document_table(struct document *d, const struct table_column *columns, size_t count);
void sb_document_cell(struct document *d, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* One more line to sign on. */
void sb_document_sign(struct document *d, const char *who);
void sb_document_page(struct document *d);

/* As text: no line is longer than 80 columns, none ends in a blank. */
void sb_document_text(const struct document *d, struct sb_str *out);

/* As pages (io/paper.h), the bytes of a PDF. Returned: pages, how many (may be NULL). -1 with err: what it is
 * drawn with is not installed, or failed; out is as it was. */
int sb_document_pdf(const struct document *d, struct sb_str *out, size_t *pages, struct sb_err *err);

#endif
