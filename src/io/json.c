/* JSON. What stands in an array of the outermost object is put on a line of its own, so that a file of a
 * thousand rows can be looked at; everything deeper runs on.
 */
#include "io/json.h"

#include "base/time.h"

#include "io/figure.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#define LINES 2 /* levels whose members have lines of their own */

static void put(struct sb_json *j, const char *bytes)
{
	sb_str_append(&j->text, bytes, strlen(bytes));
}

static void put_quoted(struct sb_json *j, const char *text)
{
	unsigned c;

	put(j, "\"");
	for (size_t one; (one = sb_utf8_next(text, &c)) > 0; text += one) {
		if (c == '"' || c == '\\')
			sb_str_add(&j->text, "\\%c", (char)c);
		else if (c == '\n')
			put(j, "\\n");
		else if (c == '\r')
			put(j, "\\r");
		else if (c == '\t')
			put(j, "\\t");
		else if (c < 0x20 || c == 0x7F)
			sb_str_add(&j->text, "\\u%04x", c);
		else if (c == 0xFFFD)
			put(j, "\xEF\xBF\xBD");
		else
			sb_str_append(&j->text, text, one);
	}
	put(j, "\"");
}

static void begin(struct sb_json *j, const char *name)
{
	if (j->depth > 0) {
		put(j, j->filled[j->depth - 1] ? "," : "");
		put(j, j->depth <= LINES ? "\n" : j->filled[j->depth - 1] ? " " : "");
		for (int i = 0; i < j->depth && j->depth <= LINES; i++)
			put(j, "  ");
		j->filled[j->depth - 1] = true;
		assert((name != NULL) == (j->ends[j->depth - 1] == '}'));
	}
	if (name) {
		put_quoted(j, name);
		put(j, ": ");
	}
}

static void open_one(struct sb_json *j, const char *name, const char *start, char end)
{
	assert(j->depth < SB_JSON_DEPTH);
	begin(j, name);
	put(j, start);
	j->filled[j->depth] = false;
	j->ends[j->depth++] = end;
}

void sb_json_object(struct sb_json *j, const char *name)
{
	open_one(j, name, "{", '}');
}

void sb_json_array(struct sb_json *j, const char *name)
{
	open_one(j, name, "[", ']');
}

void sb_json_end(struct sb_json *j)
{
	assert(j->depth > 0);
	j->depth--;
	if (j->filled[j->depth] && j->depth < LINES) {
		put(j, "\n");
		for (int i = 0; i < j->depth; i++)
			put(j, "  ");
	}
	sb_str_append(&j->text, &j->ends[j->depth], 1);
	if (j->depth == 0)
		put(j, "\n");
}

void sb_json_text(struct sb_json *j, const char *name, const char *text)
{
	begin(j, name);
	put_quoted(j, text);
}

void sb_json_text_or_null(struct sb_json *j, const char *name, const char *text)
{
	if (*text)
		sb_json_text(j, name, text);
	else
		sb_json_null(j, name);
}

static void put_figure(struct sb_json *j, const char *name, const char *figure)
{
	begin(j, name);
	put(j, *figure ? figure : "null");
}

void sb_json_exact(struct sb_json *j, const char *name, double value)
{
	char text[SB_FIGURE_TEXT];

	put_figure(j, name, sb_figure_exact(value, text));
}

void sb_json_fixed(struct sb_json *j, const char *name, double value, int decimals)
{
	char text[SB_FIGURE_TEXT];

	put_figure(j, name, sb_figure_fixed(value, decimals, text));
}

void sb_json_whole(struct sb_json *j, const char *name, long long value)
{
	begin(j, name);
	sb_str_add(&j->text, "%lld", value);
}

void sb_json_bool(struct sb_json *j, const char *name, bool value)
{
	put_figure(j, name, value ? "true" : "false");
}

void sb_json_null(struct sb_json *j, const char *name)
{
	put_figure(j, name, "");
}

/* Whether the text is a number of JSON too: not .5, 5., 007 or -0.x with more zeros before the point. */
static bool is_json_number(const char *text)
{
	text += *text == '-';
	size_t before = strspn(text, "0123456789");

	if (before == 0 || (before > 1 && text[0] == '0'))
		return false;
	text += before;
	if (*text == '\0')
		return true;
	size_t after = *text == '.' ? strspn(text + 1, "0123456789") : 0;
	return after > 0 && text[1 + after] == '\0';
}

void sb_json_time(struct sb_json *j, const char *name, int64_t ms)
{
	char text[SB_TIME_TEXT];

	sb_time_iso(ms, text);
	sb_json_text(j, name, text);
}

void sb_json_typed(struct sb_json *j, const char *name, const struct number *n)
{
	if (!sb_number_given(n))
		sb_json_null(j, name);
	else if (is_json_number(n->text))
		put_figure(j, name, n->text);
	else
		sb_json_exact(j, name, n->value);
}
