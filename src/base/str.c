/* Text. Everything that comes from outside goes through sb_utf8_tame before it is shown. */
#include "base/str.h"

#include "base/mem.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <wchar.h>

static void make_room(struct sb_str *s, size_t more)
{
	while (s->room < s->length + more + 1)
		s->text = sb_grow(s->text, s->room, &s->room, 1);
}

void sb_str_append(struct sb_str *s, const char *bytes, size_t length)
{
	make_room(s, length);
	if (length)
		memcpy(s->text + s->length, bytes, length);
	s->length += length;
	s->text[s->length] = '\0';
}

void sb_str_add(struct sb_str *s, const char *format, ...)
{
	va_list args;

	va_start(args, format);
	int length = vsnprintf(NULL, 0, format, args);
	va_end(args);
	if (length < 0)
		return;
	make_room(s, (size_t)length);
	va_start(args, format);
	vsnprintf(s->text + s->length, (size_t)length + 1, format, args);
	va_end(args);
	s->length += (size_t)length;
}

const char *sb_str_get(const struct sb_str *s)
{
	return s->text ? s->text : "";
}

void sb_str_clear(struct sb_str *s)
{
	sb_free(s->text);
	memset(s, 0, sizeof *s);
}

bool sb_copy(char *to, size_t size, const char *from)
{
	size_t length = strlen(from);
	bool whole = length < size;

	if (size == 0)
		return false;
	if (!whole) {
		length = size - 1;
		while (length > 0 && ((unsigned char)from[length] & 0xC0) == 0x80)
			length--;
	}
	memmove(to, from, length);
	to[length] = '\0';
	return whole;
}

bool sb_same(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

static int lower(int c)
{
	return c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c;
}

bool sb_same_word(const char *a, const char *b)
{
	while (*a && lower((unsigned char)*a) == lower((unsigned char)*b)) {
		a++;
		b++;
	}
	return *a == '\0' && *b == '\0';
}

/* The length of the well-formed UTF-8 character at s (at most `left` bytes), 0 if it is not one.
 * Ranges: The Unicode Standard, table 3-7. */
static size_t utf8_length(const unsigned char *s, size_t left)
{
	unsigned low = 0x80, high = 0xBF;
	size_t length;

	if (left == 0)
		return 0;
	if (s[0] < 0x80)
		return s[0] ? 1 : 0;
	if (s[0] >= 0xC2 && s[0] <= 0xDF)
		length = 2;
	else if ((s[0] & 0xF0) == 0xE0)
		length = 3;
	else if (s[0] >= 0xF0 && s[0] <= 0xF4)
		length = 4;
	else
		return 0;
	if (length > left)
		return 0;
	if (s[0] == 0xE0)
		low = 0xA0;
	if (s[0] == 0xED)
		high = 0x9F;
	if (s[0] == 0xF0)
		low = 0x90;
	if (s[0] == 0xF4)
		high = 0x8F;
	if (s[1] < low || s[1] > high)
		return 0;
	for (size_t i = 2; i < length; i++)
		if (s[i] < 0x80 || s[i] > 0xBF)
			return 0;
	return length;
}

bool sb_utf8_valid(const char *bytes, size_t length)
{
	size_t at = 0;

	while (at < length) {
		size_t one = utf8_length((const unsigned char *)bytes + at, length - at);
		if (one == 0)
			return false;
		at += one;
	}
	return true;
}

size_t sb_utf8_next(const char *text, unsigned *character)
{
	const unsigned char *s = (const unsigned char *)text;

	if (*s == '\0')
		return 0;
	size_t length = utf8_length(s, strnlen(text, 4));
	switch (length) {
	case 1:
		*character = s[0];
		return 1;
	case 2:
		*character = (s[0] & 0x1Fu) << 6 | (s[1] & 0x3Fu);
		return 2;
	case 3:
		*character = (s[0] & 0x0Fu) << 12 | (s[1] & 0x3Fu) << 6 | (s[2] & 0x3Fu);
		return 3;
	case 4:
		*character =
			(s[0] & 0x07u) << 18 | (s[1] & 0x3Fu) << 12 | (s[2] & 0x3Fu) << 6 | (s[3] & 0x3Fu);
		return 4;
	default:
		*character = 0xFFFD;
		return 1;
	}
}

void sb_utf8_tame(char *text)
{
	char *to = text;

	for (size_t one; *text; text += one) {
		unsigned c = 0;
		one = sb_utf8_next(text, &c);
		bool control = c < 0x20 || (c >= 0x7F && c < 0xA0) || (c >= 0x202A && c <= 0x202E) ||
			(c >= 0x2066 && c <= 0x2069) || c == 0xFFFD;
		if (c == '\t' || c == '\n' || c == '\r')
			*to++ = ' ';
		else if (control)
			*to++ = '?';
		else {
			memmove(to, text, one);
			to += one;
		}
	}
	*to = '\0';
}

size_t sb_utf8_columns(const char *text)
{
	size_t columns = 0;

	for (unsigned c = 0; *text;) {
		text += sb_utf8_next(text, &c);
		int width = wcwidth((wchar_t)c);
		columns += width < 0 ? 1 : (size_t)width;
	}
	return columns;
}

void sb_str_wrap(struct sb_str *s, const char *text, int indent, int columns)
{
	while (*text) {
		size_t take = 0, cut = 0;
		unsigned c;
		for (int at = indent; text[take] && at < columns; at++) {
			if (text[take] == ' ')
				cut = take;
			take += sb_utf8_next(text + take, &c);
		}
		if (text[take] && text[take] != ' ' && cut > 0)
			take = cut;
		sb_str_add(s, "%*s%.*s\n", indent, "", (int)take, text);
		text += take;
		while (*text == ' ')
			text++;
	}
}
