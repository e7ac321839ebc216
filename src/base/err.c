/* Failures in words. The first sentence says what and where, the second what to do. */
#include "base/err.h"

#include "base/mem.h"
#include "base/str.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

int sb_fail(struct sb_err *err, enum sb_code code, const char *format, ...)
{
	va_list args;

	assert(code != SB_OK);
	if (err == NULL)
		return -1;
	err->code = code;
	va_start(args, format);
	vsnprintf(err->text, sizeof err->text, format, args);
	va_end(args);
	sb_utf8_tame(err->text);
	return -1;
}

int sb_fail_within(struct sb_err *err, const char *format, ...)
{
	char words[sizeof err->text], before[sizeof err->text];
	va_list args;

	if (err == NULL)
		return -1;
	va_start(args, format);
	vsnprintf(before, sizeof before, format, args);
	va_end(args);
	sb_utf8_tame(before);
	sb_copy(words, sizeof words, err->text);
	/* Longer than fits is cut: the end of a sentence says least. */
	size_t length = strlen(before);
	sb_copy(err->text, sizeof err->text, before);
	sb_copy(err->text + length, sizeof err->text - length, words);
	return -1;
}

void sb_problems_add(struct sb_problems *p, int warning, const char *file, int line, const char *column,
	const char *format, ...)
{
	va_list args;

	if (p == NULL)
		return;
	p->list = sb_grow(p->list, p->count, &p->room, sizeof *p->list);
	struct sb_problem *one = &p->list[p->count++];
	memset(one, 0, sizeof *one);
	sb_copy(one->file, sizeof one->file, file ? file : "");
	sb_copy(one->column, sizeof one->column, column ? column : "");
	sb_utf8_tame(one->file);
	sb_utf8_tame(one->column);
	one->line = line;
	one->warning = warning;
	va_start(args, format);
	vsnprintf(one->text, sizeof one->text, format, args);
	va_end(args);
	sb_utf8_tame(one->text);
	if (!warning)
		p->errors++;
}

void sb_problems_clear(struct sb_problems *p)
{
	sb_free(p->list);
	memset(p, 0, sizeof *p);
}
