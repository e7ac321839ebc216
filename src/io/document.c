/* Blocks, one after another: the document as it is made. */
#include "io/document.h"

#include "base/mem.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static char *tamed(const char *text)
{
	char *copy = sb_strdup(text ? text : "");

	sb_utf8_tame(copy);
	return copy;
}

void sb_document_begin(struct document *d, const struct document_head *head)
{
	*d = (struct document){ .head = *head };
	d->head.title = tamed(head->title);
	d->head.running = tamed(head->running);
	d->head.mark = tamed(head->mark);
	d->head.author = tamed(head->author);
	d->head.program = tamed(head->program);
}

/* The document's own, whatever the type says. */
static void free_text(const char *text)
{
	union {
		const char *borrowed;
		char *own;
	} either = { text };

	sb_free(either.own);
}

void sb_document_clear(struct document *d)
{
	for (size_t i = 0; i < d->count; i++) {
		for (size_t k = 0; k < d->blocks[i].count; k++)
			sb_free(d->blocks[i].texts[k]);
		sb_free(d->blocks[i].texts);
	}
	sb_free(d->blocks);
	free_text(d->head.title);
	free_text(d->head.running);
	free_text(d->head.mark);
	free_text(d->head.author);
	free_text(d->head.program);
	memset(d, 0, sizeof *d);
}

static struct block *add_block(struct document *d, enum block_kind kind)
{
	d->blocks = sb_grow(d->blocks, d->count, &d->room, sizeof *d->blocks);
	struct block *b = &d->blocks[d->count++];
	*b = (struct block){ .kind = kind };
	return b;
}

/* The block at the end if it is of that kind, else a new one. */
static struct block *last_of(struct document *d, enum block_kind kind)
{
	if (d->count > 0 && d->blocks[d->count - 1].kind == kind)
		return &d->blocks[d->count - 1];
	return add_block(d, kind);
}

static void add_text(struct block *b, const char *text)
{
	b->texts = sb_grow(b->texts, b->count, &b->room, sizeof *b->texts);
	b->texts[b->count++] = tamed(text);
}

static char *formatted(const char *format, va_list args) __attribute__((format(printf, 1, 0)));

/* Any length: what people wrote is not cut here. For sb_free. */
static char *formatted(const char *format, va_list args)
{
	va_list again;

	va_copy(again, args);
	int length = vsnprintf(NULL, 0, format, again);
	va_end(again);
	size_t size = length < 0 ? 1 : (size_t)length + 1;
	char *text = sb_alloc(size);
	vsnprintf(text, size, format, args);
	return text;
}

static void add_formatted(struct block *b, const char *format, va_list args)
	__attribute__((format(printf, 2, 0)));

static void add_formatted(struct block *b, const char *format, va_list args)
{
	char *text = formatted(format, args);

	add_text(b, text);
	sb_free(text);
}

void sb_document_heading(struct document *d, const char *format, ...)
{
	va_list args;

	va_start(args, format);
	add_formatted(add_block(d, BLOCK_HEADING), format, args);
	va_end(args);
}

void sb_document_subheading(struct document *d, const char *format, ...)
{
	va_list args;

	va_start(args, format);
	add_formatted(add_block(d, BLOCK_SUBHEADING), format, args);
	va_end(args);
}

void sb_document_paragraph(struct document *d, const char *format, ...)
{
	va_list args;

	va_start(args, format);
	add_formatted(add_block(d, BLOCK_PARAGRAPH), format, args);
	va_end(args);
}

void sb_document_pair(struct document *d, const char *key, const char *format, ...)
{
	va_list args;

	va_start(args, format);
	char *value = formatted(format, args);
	va_end(args);
	if (*value) {
		struct block *b = last_of(d, BLOCK_PAIRS);
		add_text(b, key);
		add_text(b, value);
	}
	sb_free(value);
}

void sb_document_table(struct document *d, const struct table_column *columns, size_t count)
{
	assert(count > 0 && count <= SB_DOCUMENT_TABLE);
	struct block *b = add_block(d, BLOCK_TABLE);
	b->columns = columns;
	b->column_count = count;
}

void sb_document_cell(struct document *d, const char *format, ...)
{
	va_list args;

	assert(d->count > 0 && d->blocks[d->count - 1].kind == BLOCK_TABLE);
	va_start(args, format);
	add_formatted(&d->blocks[d->count - 1], format, args);
	va_end(args);
}

void sb_document_sign(struct document *d, const char *who)
{
	add_text(last_of(d, BLOCK_SIGNATURES), who);
}

void sb_document_page(struct document *d)
{
	add_block(d, BLOCK_PAGE);
}
