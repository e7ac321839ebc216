/* Lines are filled word by word, each measured once: a paragraph costs what its letters do. */
#include "io/paper_text.h"

#include "base/mem.h"

#include <math.h>
#include <string.h>

#include "paper_parts.h"

#define HAIR 1e-9 /* mm: a text just as wide as its space fits */

struct breaking {
	struct sb_paper *p;
	const struct lettering *as;
	double width_mm, space_mm;
	struct sb_str *out;
	size_t lines;
	double used_mm; /* of the line that is being filled */
	bool begun;
};

static double wide(const struct breaking *b, const char *word, size_t length)
{
	char *text = sb_alloc(length + 1);

	memcpy(text, word, length);
	double width = sb_paper_width(b->p, b->as, text);
	sb_free(text);
	return width;
}

static void end_line(struct breaking *b)
{
	sb_str_append(b->out, "\n", 1);
	b->lines++;
	b->used_mm = 0;
	b->begun = false;
}

static void put(struct breaking *b, const char *word, size_t length, double width)
{
	if (b->begun)
		sb_str_append(b->out, " ", 1);
	b->used_mm += (b->begun ? b->space_mm : 0) + width;
	sb_str_append(b->out, word, length);
	b->begun = true;
}

/* A word wider than a line: as many characters on each as it holds, one at least. */
static void put_long(struct breaking *b, const char *word, size_t length)
{
	while (length > 0) {
		size_t fits = 0;
		for (size_t next = 0; next < length;) {
			unsigned character;
			next += sb_utf8_next(word + next, &character);
			if (fits > 0 && wide(b, word, next) > b->width_mm + HAIR)
				break;
			fits = next;
		}
		if (b->begun)
			end_line(b);
		put(b, word, fits, wide(b, word, fits));
		word += fits;
		length -= fits;
	}
}

static void put_word(struct breaking *b, const char *word, size_t length)
{
	double width = wide(b, word, length);

	if (b->begun && b->used_mm + b->space_mm + width > b->width_mm + HAIR)
		end_line(b);
	if (width > b->width_mm + HAIR)
		put_long(b, word, length);
	else
		put(b, word, length, width);
}

size_t sb_paper_break(
	struct sb_paper *p, const struct lettering *as, double width_mm, const char *text, struct sb_str *out)
{
	struct breaking b = { p, as, width_mm, sb_paper_width(p, as, " "), out, 0, 0, false };

	while (*text) {
		size_t length = strcspn(text, " \n");
		if (length > 0)
			put_word(&b, text, length);
		text += length;
		if (*text == '\n')
			end_line(&b);
		text += *text != '\0';
	}
	if (b.begun)
		end_line(&b);
	return b.lines;
}

double sb_paper_paragraph(
	struct sb_paper *p, const struct lettering *as, struct spot corner, double width_mm, const char *text)
{
	double leading = as->capital_mm * SB_PAPER_LEADING;
	struct spot at = { corner.x + paper_held_at(as->hold) * width_mm, corner.y + as->capital_mm };
	struct sb_str lines = { 0 };
	size_t count = sb_paper_break(p, as, width_mm, text, &lines);

	char *rest = lines.text;
	for (size_t i = 0; i < count; i++, at.y += leading)
		sb_paper_text(p, as, at, strsep(&rest, "\n"));
	sb_str_clear(&lines);
	return leading * (double)count;
}

double sb_paper_paragraph_high(
	struct sb_paper *p, const struct lettering *as, double width_mm, const char *text)
{
	struct sb_str lines = { 0 };
	size_t count = sb_paper_break(p, as, width_mm, text, &lines);

	sb_str_clear(&lines);
	return as->capital_mm * SB_PAPER_LEADING * (double)count;
}

/* Shortens the text until it fits with three dots behind it, character by character from the end. */
static void cut(struct sb_paper *p, const struct lettering *as, double width_mm, char *text, size_t room)
{
	size_t length = strlen(text);

	while (length > 0) {
		do
			length--;
		while (length > 0 && ((unsigned char)text[length] & 0xc0) == 0x80);
		while (length > 0 && text[length - 1] == ' ')
			length--;
		sb_copy(text + length, room - length, "\xe2\x80\xa6");
		if (sb_paper_width(p, as, text) <= width_mm + HAIR)
			return;
	}
}

double sb_paper_text_within(struct sb_paper *p, const struct lettering *as, double least_mm, double width_mm,
	struct spot at, const char *text)
{
	struct lettering small = *as;
	double width = sb_paper_width(p, as, text);
	size_t room = strlen(text) + 4;
	char *shown = sb_alloc(room);

	sb_copy(shown, room, text);
	sb_utf8_tame(shown);
	if (width > width_mm && width > 0) {
		double fitting = as->capital_mm * width_mm / width;
		small.capital_mm = fmin(as->capital_mm, fmax(fitting, least_mm));
		if (fitting < small.capital_mm)
			cut(p, &small, width_mm, shown, room);
	}
	sb_paper_text(p, &small, at, shown);
	width = sb_paper_width(p, &small, shown);
	sb_free(shown);
	return width;
}
