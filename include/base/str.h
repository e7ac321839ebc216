/* Text: a growing string, safe copies, and what may be shown on a terminal. */
#ifndef SB_BASE_STR_H
#define SB_BASE_STR_H

#include <stdbool.h>
#include <stddef.h>

struct sb_str {
	char *text; /* always ends in NUL once anything was added; NULL when empty and new */
	size_t length, room;
};

void sb_str_add(struct sb_str *s, const char *format, ...) __attribute__((format(printf, 2, 3)));
void sb_str_append(struct sb_str *s, const char *bytes, size_t length);
const char *sb_str_get(const struct sb_str *s); /* "" when empty; borrowed */
void sb_str_clear(struct sb_str *s);

/* Copies what fits, always ends in NUL, never cuts a UTF-8 character; false when cut. */
bool sb_copy(char *to, size_t size, const char *from);

bool sb_same(const char *a, const char *b);	 /* equal */
bool sb_same_word(const char *a, const char *b); /* equal, ASCII case aside */

/* Given: bytes that should be UTF-8. True when they are, without overlong forms, surrogates or NUL. */
bool sb_utf8_valid(const char *bytes, size_t length);

/* Makes text from outside fit to be shown or exported: control characters and broken UTF-8 become '?'
 * (a tab or line end becomes a space). In place; the length does not grow. */
void sb_utf8_tame(char *text);

/* How many terminal columns the text takes; characters of unknown width count as 1. */
size_t sb_utf8_columns(const char *text);

/* Adds text in lines that end at a blank, each led by so many spaces and at most `columns` wide with them. */
void sb_str_wrap(struct sb_str *s, const char *text, int indent, int columns);

/* One character: returns its bytes (1 to 4; 1 for a broken one, which yields U+FFFD), 0 at the end. */
size_t sb_utf8_next(const char *text, unsigned *character);

#endif
